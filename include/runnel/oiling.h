/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Oiling and waxing a whole job: from its pieces and its oil to areas, amounts, times and order.
 */
#ifndef RUNNEL_OILING_H
#define RUNNEL_OILING_H

#include "runnel/job.h"
#include "runnel/oil.h"
#include "runnel/plan.h"
#include "runnel/steps.h"
#include "runnel/wax.h"

#ifdef __cplusplus
extern "C" {
#endif

/** All pieces of one kind. */
typedef struct runnel_oiling_part {
    char *piece;
    size_t count;
    runnel_oil_area area; /**< of one piece */
    runnel_oil_need one;
    runnel_oil_need all; /**< of `count` pieces */
} runnel_oiling_part;

/** What was taken for want of a word of the job. Bits of a set. */
typedef enum runnel_oiling_taken {
    RUNNEL_TAKEN_OIL = 1u << 0,
    RUNNEL_TAKEN_UPTAKE = 1u << 1, /**< as the row says, and so on */
    RUNNEL_TAKEN_END_GRAIN = 1u << 2,
    RUNNEL_TAKEN_OIL_COATS = 1u << 3,
    RUNNEL_TAKEN_WASTE = 1u << 4,
    RUNNEL_TAKEN_OIL_ORDER = 1u << 5
} runnel_oiling_taken;

/** A job's oiling. Zero-initialised is empty; owned by the caller; borrows from the tables. */
typedef struct runnel_oiling_plan {
    runnel_plan plan; /**< the job's, its warnings those of the oiling */
    unsigned taken;   /**< set of runnel_oiling_taken */
    const runnel_oil *oil;
    runnel_oiling oiling;
    runnel_oiling_part *parts; /**< kinds of piece, in the order of the job */
    size_t part_count;
    double face_mm2, end_mm2; /**< of all pieces */
    runnel_oil_need all;      /**< of all pieces */
    double *coats_mm3;        /**< of all pieces, coat by coat */
    bool times_known;
    runnel_oil_times times;
    const runnel_wax *wax; /**< NULL when none is wanted */
    runnel_wax_blend blend;
    size_t wax_coats;
    runnel_wax_batch melt; /**< for all pieces */
    runnel_order order;
    runnel_order_faults faults;
    unsigned steps, cases; /**< sets for runnel_caution_next */
} runnel_oiling_plan;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_oiling_clear(runnel_oiling_plan *oiling);

/**
 * Oils a checked job, all faces of its pieces less the resin. The codes of its warnings are those
 * of runnel_order_check, those of them that say that it will fail making the job impossible, and
 * "footprint-unknown" for a measured cavity without its footprint.
 *
 * A piece without a size is a problem (RUNNEL_E_MISSING), as are recesses that take more of a face
 * than it has (RUNNEL_E_CONFLICT).
 *
 * @param letters sets the texts, as for runnel_plan_make
 * @param oiling an empty one
 * @return as runnel_plan_make; what only concerns the resin is no reason for RUNNEL_NOT_POSSIBLE
 */
runnel_status runnel_oiling_make(const runnel_job *job, const runnel_tables *tables,
                                 const runnel_letters *letters, runnel_problems *problems,
                                 runnel_oiling_plan *oiling);

#ifdef __cplusplus
}
#endif
#endif
