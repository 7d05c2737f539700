/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The days of one or more jobs: their steps as chains of work and waits, from the flat blank to the
 * parcel, done by one pair of hands in the hours of a shop.
 */
#ifndef RUNNEL_TIMING_H
#define RUNNEL_TIMING_H

#include "runnel/job.h"
#include "runnel/plan.h"
#include "runnel/timeline.h"

#ifdef __cplusplus
extern "C" {
#endif

/** A step of a job. */
typedef struct runnel_timing_step {
    const char *code;      /**< of runnel_work_text, such as "pour" */
    char *text;            /**< owned, such as "mix and pour rye brown, layer 1 of 2" */
    const char *waits_for; /**< what it waits for, such as "the oil to soak in"; NULL = nothing */
    runnel_task task;
    runnel_task_times times;
} runnel_timing_step;

/** Something that would buy time. */
typedef struct runnel_timing_remedy {
    const char *code; /**< "warmer", "faster", "fewer-layers", "every-day", "first" */
    char *text;       /**< owned */
    double ships_s;   /**< ready to ship then; NAN when that is not known */
    bool suffices;
} runnel_timing_remedy;

/** The days of a job. */
typedef struct runnel_timing {
    runnel_plan plan; /**< the job's, its warnings those of all its parts and of the times */
    runnel_timing_step *steps;
    size_t step_count, step_capacity;
    bool is_planned; /**< the times are filled in */
    double hands_s;  /**< of all steps */
    double last_s;   /**< end of the last step on the bench */
    double wrap_s;   /**< may be wrapped: a week after the last coat and the last pour */
    double ships_s;  /**< wrapped, ready to ship */
    double food_s;   /**< ready for food, as far as resin and oil go; NAN when not known */
    double asked_s;  /**< end of the day asked for; INFINITY without */
    runnel_timing_remedy *remedies; /**< when it is not ready in time */
    size_t remedy_count, remedy_capacity;
} runnel_timing;

/** The days of some jobs. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_timings {
    runnel_timing *items; /**< in the order of the jobs */
    size_t count;
    char *hours; /**< of the shop, as written; owned */
    runnel_week week;
    runnel_days_off off;     /**< those of all jobs */
    const runnel_zone *zone; /**< borrowed; NULL: every day has 24 h */
    double hands_s;          /**< of all jobs */
    double ships_s;          /**< all are ready to ship; NAN when that is not known of one */
} runnel_timings;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_timings_clear(runnel_timings *timings);

/**
 * Plans the days of checked jobs, each from its first day or as late as its last one allows. Jobs
 * share the hands and the hours: those that come first in the list take theirs first, and each is
 * exact for what they leave. Hours and zone are those that a job tells, and all that tell any have
 * to agree; a day off for one is off for all.
 *
 * Times of the resin are those at the shop's temperature; below its lowest temperature there are
 * none, and the answer is no. The hands' time of steps is that of the tables. A layer that comes
 * after its window is scuffed first.
 *
 * Further codes of warnings: "too-late" (not ready on the day asked for), "time-unknown" (a wait
 * that nobody told), "grit-skipped" (from one grit to one much finer),
 * "hours-too-short" (they have no room for all steps).
 *
 * @param jobs    checked; at least one
 * @param letters  sets the texts, as for runnel_plan_make
 * @param zone    of the shop's clock; borrowed by the result; NULL for none
 * @param timings an empty one
 * @return RUNNEL_OK; RUNNEL_NOT_POSSIBLE with all filled in that is known, when one of the jobs
 *         says so; told in `problems`: RUNNEL_E_MISSING for a job without a first and a last day,
 *         RUNNEL_E_CONFLICT for jobs that do not agree, RUNNEL_E_NOT_FOUND when the tables lack a
 *         work, RUNNEL_E_RANGE when the calendar ends before the days do; RUNNEL_E_RANGE without a
 *         job, or with days that there are not; as runnel_plan_make
 */
runnel_status runnel_timings_make(const runnel_job *jobs, size_t count, const runnel_tables *tables,
                                  const runnel_letters *letters, runnel_problems *problems,
                                  const runnel_zone *zone, runnel_timings *timings);

#ifdef __cplusplus
}
#endif
#endif
