/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Levelling a whole job: the crown, the passes, and what is left of each cavity when the face is
 * taken down.
 */
#ifndef RUNNEL_LEVELLING_H
#define RUNNEL_LEVELLING_H

#include "runnel/job.h"
#include "runnel/level.h"
#include "runnel/plan.h"

#ifdef __cplusplus
extern "C" {
#endif

/** A stroke that goes or gets thin, and the letter that it is of. */
typedef struct runnel_levelling_stroke {
    runnel_level_stroke stroke;
    char *letter; /**< of a text; otherwise NULL */
    size_t place; /**< which letter of the text it is, from 0; the same one may come again */
} runnel_levelling_stroke;

/** A cavity before and after. */
typedef struct runnel_levelling_cavity {
    const runnel_plan_cavity *planned; /**< in the plan of the levelling */
    bool known;                        /**< false for a measured one, whose shape is not known */
    runnel_levelled figures;           /**< its strokes are below */
    double dip_mm; /**< how far it may sink over the deepest place as it hardens */
    runnel_levelling_stroke *strokes;
    size_t stroke_count;
} runnel_levelling_cavity;

/** What was taken for want of a word of the job. Bits of a set. */
typedef enum runnel_levelling_taken {
    RUNNEL_TAKEN_UNDER = 1u << 0,
    RUNNEL_TAKEN_PASS = 1u << 1,
    RUNNEL_TAKEN_TAKE_OFF = 1u << 2,
    RUNNEL_TAKEN_THIN = 1u << 3
} runnel_levelling_taken;

/** A job's levelling. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_levelling_plan {
    runnel_plan plan; /**< the job's, its warnings those of cavities and of the levelling */
    unsigned taken;   /**< set of runnel_levelling_taken */
    runnel_under_zero under;
    runnel_standoff standoff; /**< thickness under the zero */
    runnel_levelling levelling;
    double below_mm, thin_mm, veneer_mm;
    runnel_level_steps steps;
    double left_low_mm, left_high_mm; /**< left to sand, by how far the thickness may be off */
    runnel_veneer veneer;             /**< when `veneer_mm` is given */
    double veneer_left_mm;
    double sandable_s; /**< after the pour, at the shop's temperature; NAN when not known */
    runnel_levelling_cavity *cavities;
    size_t cavity_count;
} runnel_levelling_plan;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_levelling_clear(runnel_levelling_plan *levelling);

/**
 * Levels a checked job. The codes of its warnings are those of cavities in runnel/plan.h, and
 * - the job cannot be done as asked: "all-gone" (nothing of a cavity is left), "veneer-through";
 * - "strokes-gone" (some strokes of a cavity are), "veneer-doubtful", "crown-untouched" (what lies
 *   under the zero is as high as the crown), "high-spot" (the cutter goes into the wood there),
 *   "not-known" (a measured cavity), "open-pores" (of a piece that is not sealed).
 *
 * @param letters    sets the texts, as for runnel_plan_make
 * @param levelling an empty one
 * @return as runnel_plan_make; what only concerns the resin is no reason for RUNNEL_NOT_POSSIBLE
 */
runnel_status runnel_levelling_make(const runnel_job *job, const runnel_tables *tables,
                                    const runnel_letters *letters, runnel_problems *problems,
                                    runnel_levelling_plan *levelling);

#ifdef __cplusplus
}
#endif
#endif
