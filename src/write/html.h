/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A document as one HTML page that needs nothing from elsewhere: no network and no script; light or
 * dark as the reader's machine is, black on white on paper, and in an order that can be read aloud.
 */
#ifndef RUNNEL_WRITE_HTML_H
#define RUNNEL_WRITE_HTML_H

#include "write/doc.h"

/** Writes it. @return RUNNEL_OK; RUNNEL_E_NO_MEMORY when something of it is missing; RUNNEL_E_IO */
runnel_status runnel_doc_write_html(const runnel_doc *doc, FILE *out);

#endif
