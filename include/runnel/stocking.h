/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A whole job against what is in the bottles: resin and tint, and the sealer, oil and wax that the
 * job names.
 */
#ifndef RUNNEL_STOCKING_H
#define RUNNEL_STOCKING_H

#include "runnel/job.h"
#include "runnel/plan.h"
#include "runnel/stock.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Names that bottles go by beside those of the tables: "tint" with its colour as the part,
 * "shellac" (flake), "spirit", "clear outdoor coating"; other sealers, oils and waxes by their own
 * names. */
#define RUNNEL_STOCK_TINT    "tint"
#define RUNNEL_STOCK_SHELLAC "shellac"
#define RUNNEL_STOCK_SPIRIT  "spirit"
#define RUNNEL_STOCK_COATING "clear outdoor coating"

/** A job against a stock. Zero-initialised is empty; owned by the caller; borrows from the job, the
 * tables and the stock. */
typedef struct runnel_stocking {
    runnel_plan plan;
    size_t pieces; /**< all of them */
    runnel_needs needs;
    const runnel_stock *stock;
    runnel_stock_answer answer;
    double largest_g;      /**< A + B from the bottles of the resin; NAN when there are none */
    char largest_limiting; /**< 'A', 'B' or 0, as runnel_stock_largest_batch */
} runnel_stocking;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_stocking_clear(runnel_stocking *stocking);

/**
 * Holds a checked job against a stock.
 *
 * @param letters   sets the texts, as for runnel_plan_make
 * @param stocking an empty one
 * @return RUNNEL_OK; RUNNEL_NOT_POSSIBLE with all filled in when something is short, or the job
 *         cannot be done as asked; otherwise the problem's status
 */
runnel_status runnel_stocking_make(const runnel_job *job, const runnel_tables *tables,
                                   const runnel_letters *letters, runnel_problems *problems,
                                   const runnel_stock *stock, runnel_stocking *stocking);

#ifdef __cplusplus
}
#endif
#endif
