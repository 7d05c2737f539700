/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Parts of the sizes as a document.
 */
#ifndef RUNNEL_WRITE_SIZE_H
#define RUNNEL_WRITE_SIZE_H

#include "runnel/plan.h"
#include "write/doc.h"

/** Adds how far a volume may be off, without digits that are not shown. */
void runnel_size_bound(runnel_flow *flow, double error_mm3, int decimals);

/** Adds from where to where a volume may be, and what has how much to do with it. */
void runnel_size_band(runnel_flow *flow, const runnel_band *band, int decimals);

/** Adds "Worked out with": resin, shop, and what is needed beside the cavities. */
void runnel_size_basis(const runnel_job *job, const runnel_plan *plan, runnel_doc *doc);

/** Adds a batch: its terms, what is weighed, and its cups. */
void runnel_size_batch(const runnel_job *job, const runnel_plan *plan,
                       const runnel_plan_batch *batch, runnel_doc *doc);

#endif
