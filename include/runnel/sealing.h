/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Sealing a whole job: from its cavities and its sealer to the amounts, times and order.
 */
#ifndef RUNNEL_SEALING_H
#define RUNNEL_SEALING_H

#include "runnel/job.h"
#include "runnel/plan.h"
#include "runnel/sealer.h"
#include "runnel/steps.h"

#ifdef __cplusplus
extern "C" {
#endif

/** All pieces of one kind. */
typedef struct runnel_sealing_part {
    char *piece;
    size_t count;
    double wall_mm2; /**< carved walls and floors of one piece */
    double face_mm2; /**< face beside them; bands that overlap count twice */
    runnel_sealer_need one;
    runnel_sealer_need all; /**< of `count` pieces */
} runnel_sealing_part;

/** What was taken for want of a word of the job. Bits of a set. */
typedef enum runnel_sealing_taken {
    RUNNEL_TAKEN_KIND = 1u << 0,
    RUNNEL_TAKEN_CUT = 1u << 1,
    RUNNEL_TAKEN_COVERAGE = 1u << 2,
    RUNNEL_TAKEN_COATS = 1u << 3,
    RUNNEL_TAKEN_LOSS = 1u << 4,
    RUNNEL_TAKEN_FACE = 1u << 5, /**< the margin of the face: that of the crown */
    RUNNEL_TAKEN_ORDER = 1u << 6 /**< the usual order of steps */
} runnel_sealing_taken;

/** A job's sealing. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_sealing {
    runnel_plan plan; /**< the job's, its warnings those of cavities and of the sealing */
    runnel_sealer sealer;
    runnel_sealer_kind kind;
    unsigned taken;        /**< set of runnel_sealing_taken */
    double face_margin_mm; /**< no more is sealed than the face has beside its cavities, where the
                              size of the piece is known */
    runnel_sealing_part *parts; /**< kinds of piece, in the order of the job */
    size_t part_count;
    double wall_mm2, face_mm2; /**< of all pieces */
    runnel_sealer_need all;    /**< of all pieces */
    double cut_lb_per_gal;     /**< shellac; else 0 */
    runnel_shellac_figures shellac;
    runnel_shellac_batch dissolve; /**< for the product of all coats */
    runnel_weighing weighing;      /**< clear resin: A and B for one coat of all pieces; else 0 */
    runnel_drying drying;          /**< NAN where it is not known */
    double until_s;                /**< clear resin: the next coat, and the pour, at the latest; NAN
                                      where it is not known */
    double scuff_s; /**< clear resin: from when on a coat past until_s can be scuffed: when
                       it is sandable, or hard as the job tells; NAN as until_s */
    bool times_known;
    runnel_sealer_times times;
    runnel_order order;
    runnel_order_faults faults;
    unsigned steps, cases; /**< sets for runnel_caution_next */
} runnel_sealing;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_sealing_clear(runnel_sealing *sealing);

/**
 * Seals a checked job. The codes of its warnings are those of cavities in runnel/plan.h, and
 * - "waxy-sealer", or another code of runnel_order_check that says that it will fail: the job
 *   cannot be done as asked;
 * - others of runnel_order_check, which are doubtful;
 * - "bare-job": the resin is sized for bare walls; "walls-unknown": a measured cavity without its
 *   wall area.
 *
 * @param letters  sets the texts, as for runnel_plan_make
 * @param sealing an empty one
 * @return as runnel_plan_make; what only concerns the resin, such as a shop too cold for it, is no
 *         reason for RUNNEL_NOT_POSSIBLE here
 */
runnel_status runnel_sealing_make(const runnel_job *job, const runnel_tables *tables,
                                  const runnel_letters *letters, runnel_problems *problems,
                                  runnel_sealing *sealing);

#ifdef __cplusplus
}
#endif
#endif
