/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A cure as a document.
 */
#ifndef RUNNEL_WRITE_CURE_DOC_H
#define RUNNEL_WRITE_CURE_DOC_H

#include "runnel/write_cure.h"
#include "write/doc.h"

/** Adds all of it. @param pictured with the curves of cup and layer */
void runnel_cure_doc(const runnel_cure_report *report, bool pictured, runnel_doc *doc);

#endif
