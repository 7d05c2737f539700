/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A document on paper, laid out but not yet written.
 */
#ifndef RUNNEL_DRAW_NOTE_H
#define RUNNEL_DRAW_NOTE_H

#include "draw/gallery.h"
#include "draw/leaf.h"
#include "write/doc.h"

/** @param gallery of its pictures; NULL for a document without any
 * @param leaf replaced; cleared by the caller, empty on failure @return RUNNEL_OK;
 * RUNNEL_E_RANGE; RUNNEL_E_NO_MEMORY */
runnel_status runnel_note_lay(const runnel_doc *doc, const runnel_gallery *gallery,
                              const runnel_paper *paper, runnel_leaf *leaf);

/** Lays it out and writes it, or writes it as HTML, and clears it. @return as runnel_draw_card */
runnel_status runnel_note_draw(runnel_doc *doc, const runnel_gallery *gallery,
                               const runnel_paper *paper, FILE *out);

/** Draws what is all text where the leaf has got to, and clears it. A failure stays in the leaf. */
void runnel_note_blocks(runnel_leaf *leaf, runnel_doc *doc);

#endif
