/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The carving of a job as a document: its pieces and cavities with their pictures.
 */
#ifndef RUNNEL_WRITE_CARVING_DOC_H
#define RUNNEL_WRITE_CARVING_DOC_H

#include "runnel/look.h"
#include "write/doc.h"

/** Adds all of it. */
void runnel_carving_doc(const runnel_job *job, const runnel_plan *plan, const runnel_look *look,
                        runnel_doc *doc);

/** Adds the picture of a piece, when there is anything to be seen. */
void runnel_carving_picture(const runnel_job *job, const runnel_plan *plan, const runnel_look *look,
                            size_t piece, runnel_doc *doc);

/** Adds a table of the cavities of a piece, numbered as in its picture. */
void runnel_carving_table(const runnel_plan *plan, const runnel_look_piece *piece, runnel_doc *doc);

/** Adds ", 300 x 200 x 20 mm"; nothing when it is not told. */
void runnel_carving_size(runnel_flow *flow, const runnel_job_piece *piece);

#endif
