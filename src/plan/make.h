/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The steps behind runnel_plan_make.
 */
#ifndef RUNNEL_PLAN_MAKE_H
#define RUNNEL_PLAN_MAKE_H

#include "runnel/plan.h"

/** Soak of bare and sealed carved walls where no wood is named, ml/m2: a middling wood of
 * data/woods.csv. From memory of the trade. */
#define RUNNEL_SOAK_BARE_ML_PER_M2   60.0
#define RUNNEL_SOAK_SEALED_ML_PER_M2 8.0

/** What a plan is made from and into. */
typedef struct runnel_making {
    const runnel_job *job;
    const runnel_tables *tables;
    runnel_letter_function letter;
    runnel_problems *problems;
    runnel_plan *plan;
    bool impossible; /**< some warning says that the job cannot be done as asked */
} runnel_making;

/** A cavity's shape, and the text it was set from. Zeroed is empty. */
typedef struct runnel_source_shape {
    runnel_shape *shape; /**< NULL for a measured cavity */
    runnel_lettering lettering;
} runnel_source_shape;

/** Makes the shape of a cavity; problems are told with its place. */
runnel_status runnel_source_shape_make(const runnel_making *making, const runnel_job_cavity *cavity,
                                       runnel_source_shape *source);
void runnel_source_shape_clear(runnel_source_shape *source);

/** Soak of a piece's carved walls, mm3 per mm2; `assumed` when neither job nor table tells. */
double runnel_soak_of(const runnel_making *making, const runnel_job_piece *piece, bool *assumed);

/** Adds a warning. */
runnel_status runnel_warn(runnel_making *making, const char *code, const char *where,
                          const char *format, ...) RUNNEL_PRINTF(4, 5);

/** Warnings of one cavity. */
runnel_status runnel_warn_cavity(runnel_making *making, const runnel_job_piece *piece,
                                 const runnel_job_cavity *cavity, const runnel_source_shape *source,
                                 const runnel_plan_cavity *planned);

/** Warnings of the resin and the shop. */
runnel_status runnel_warn_job(runnel_making *making);

/** Warnings of one batch. */
runnel_status runnel_warn_batch(runnel_making *making, const runnel_plan_batch *batch);

/** Makes the batches from the cavities that are there. */
runnel_status runnel_batches_make(runnel_making *making);

#endif
