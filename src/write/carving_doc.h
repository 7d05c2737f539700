/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Pieces and cavities of a job with their pictures, as parts of documents.
 */
#ifndef RUNNEL_WRITE_CARVING_DOC_H
#define RUNNEL_WRITE_CARVING_DOC_H

#include "runnel/look.h"
#include "write/doc.h"

/** Adds the picture of a piece, when there is anything to be seen. */
void runnel_carving_picture(const runnel_job *job, const runnel_plan *plan, const runnel_look *look,
                            size_t piece, runnel_doc *doc);

/** Adds a piece with its picture, and a table of its cavities, numbered as in that. */
void runnel_carving_piece(const runnel_job *job, const runnel_plan *plan, const runnel_look *look,
                          size_t piece, runnel_doc *doc);

/** Adds the picture of a section through a cavity, when its shape is known. */
void runnel_carving_section(const runnel_plan *plan, const runnel_look *look, size_t cavity,
                            runnel_doc *doc);

/** Adds ", 300 x 200 x 20 mm"; nothing when it is not told. */
void runnel_carving_size(runnel_flow *flow, const runnel_job_piece *piece);

#endif
