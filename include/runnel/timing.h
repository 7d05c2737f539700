/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The days of a job: its steps as a chain of work and waits, from the flat blank to the parcel.
 */
#ifndef RUNNEL_TIMING_H
#define RUNNEL_TIMING_H

#include "runnel/job.h"
#include "runnel/plan.h"
#include "runnel/timeline.h"

#ifdef __cplusplus
extern "C" {
#endif

/** What is wanted. */
typedef struct runnel_timing_order {
    runnel_date start;    /**< first day of work; month 0: as late as `ready_by` allows */
    runnel_date ready_by; /**< last day to be ready to ship; month 0: as soon as can be */
    runnel_week week;     /**< hours of the shop */
    const char *hours;    /**< as written, for the outputs; borrowed */
    const runnel_date *days_off;
    size_t off_count;
    const runnel_zone *zone; /**< NULL: every day has 24 h */
} runnel_timing_order;

/** Hours unless told otherwise. */
#define RUNNEL_DEFAULT_HOURS "Mon-Fri 8:00-17:00"

/** A step of a job. */
typedef struct runnel_timing_step {
    const char *code; /**< "flatten", "carve", "clean", "seal", "pour", "level", "sand",
                         "raise-grain", "knock-down", "shape",
                         "oil", "wipe", "wax", "buff", "wrap" */
    char *text;       /**< owned, such as "mix and pour rye brown, layer 1 of 2" */
    runnel_task task;
    runnel_task_times times;
} runnel_timing_step;

/** Something that would buy time. */
typedef struct runnel_timing_remedy {
    const char *code; /**< "warmer", "faster", "fewer-layers", "every-day" */
    char *text;       /**< owned */
    double ships_s;   /**< ready to ship then; NAN when that is not known */
    bool suffices;
} runnel_timing_remedy;

/** The days of a job. Zero-initialised is empty; owned by the caller. */
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

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_timing_clear(runnel_timing *timing);

/**
 * Plans the days of a checked job. Times of the resin are those at the shop's temperature; below
 * its lowest temperature there are none, and the answer is no. The hands' time of steps is common
 * practice. A layer that comes after its window is scuffed first.
 *
 * Further codes of warnings: "too-late" (not ready on the day asked for), "time-unknown" (a wait
 * that nobody told).
 *
 * @param letter sets the texts, as for runnel_plan_make
 * @param timing an empty one
 * @return RUNNEL_OK; RUNNEL_NOT_POSSIBLE with all filled in that is known; RUNNEL_E_RANGE for an
 * order without start and without day, or with days that there are not; as runnel_plan_make
 */
runnel_status runnel_timing_make(const runnel_job *job, const runnel_tables *tables,
                                 runnel_letter_function letter, runnel_problems *problems,
                                 const runnel_timing_order *order, runnel_timing *timing);

#ifdef __cplusplus
}
#endif
#endif
