/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The mixing card as a document, for a page of HTML, and parts of it for text and paper.
 */
#ifndef RUNNEL_WRITE_CARD_DOC_H
#define RUNNEL_WRITE_CARD_DOC_H

#include "runnel/look.h"
#include "write/doc.h"

/** Adds all of it. */
void runnel_card_doc(const runnel_job *job, const runnel_plan *plan, const runnel_look *look,
                     runnel_doc *doc);

/** Adds the picture of a batch: the pieces, its cavities dark; nothing without any. */
void runnel_card_colour(const runnel_plan *plan, const runnel_look *look, size_t batch,
                        runnel_doc *doc);

/** Adds what is the same on every card: how it is mixed, and cautions. */
void runnel_card_notes(runnel_doc *doc);

/** Adds "Take care", with the cautions of these steps. */
void runnel_card_cautions(unsigned steps, unsigned cases, runnel_doc *doc);

#endif
