/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The sizes of a job as a document: what the cavities hold, what each batch needs, and what goes on
 * the scale; with the pictures of its pieces where it is drawn.
 */
#ifndef RUNNEL_WRITE_SIZE_DOC_H
#define RUNNEL_WRITE_SIZE_DOC_H

#include "runnel/look.h"
#include "write/doc.h"

/** Adds all of it. @param look NULL for one without pictures */
void runnel_size_doc(const runnel_job *job, const runnel_plan *plan, const runnel_look *look,
                     runnel_doc *doc);

#endif
