/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A document as one HTML page that needs nothing from elsewhere: no network and no script; light or
 * dark as the reader's machine is, black on white on paper, and in an order that can be read aloud.
 */
#ifndef RUNNEL_WRITE_HTML_H
#define RUNNEL_WRITE_HTML_H

#include "write/doc.h"

/** Writes the address of a picture, which holds all of it, to stand in quotes.
 * @return RUNNEL_OK or what failed */
typedef runnel_status (*runnel_image_function)(const runnel_doc_block *block, const void *state,
                                               FILE *out);

/** Writes it. @param embed NULL for a document without pictures @return RUNNEL_OK;
 * RUNNEL_E_NO_MEMORY when something of it is missing; RUNNEL_E_IO; what `embed` returned */
runnel_status runnel_doc_write_html(const runnel_doc *doc, runnel_image_function embed,
                                    const void *state, FILE *out);

#endif
