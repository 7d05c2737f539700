/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Work that has to be done step by step, with waits between the steps, by one pair of hands in the
 * hours of a shop: when each step can be done at the earliest and at the latest.
 *
 * Times are physical seconds on one clock, such as UTC since 1970-01-01. How the shop's clock on
 * the wall stands to it is told by a zone; without one both are the same.
 *
 * A job is a chain: each step waits for the one before it, at least so long and at most so long.
 * For one chain the answer is exact: all times at which a step can end are worked out as a set of
 * spans, forward from the start and backward from the end, so that the first end is the earliest
 * there is and the last start the latest. Several jobs share the hands in the order given: each one
 * is exact for the hours that those before it leave; another order may do better for all.
 */
#ifndef RUNNEL_TIMELINE_H
#define RUNNEL_TIMELINE_H

#include "runnel/date.h"
#include "runnel/status.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- Spans ------------------------------------------------------------------------------------*/

/** From a moment to another, both included, s. */
typedef struct runnel_span {
    double from_s, to_s;
} runnel_span;

/** Spans in order, none touching the next. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_spans {
    runnel_span *items;
    size_t count, capacity;
} runnel_spans;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_spans_clear(runnel_spans *spans);

/* ---- The clock on the wall ---------------------------------------------------------------------
 */

/** From a moment on, the wall's clock is so far ahead of the other. */
typedef struct runnel_zone_change {
    double from_s;   /**< -INFINITY for the first */
    double offset_s; /**< +3600 where the wall shows an hour more */
} runnel_zone_change;

/** Changes by time, at least one. Borrowed. A count of 0: the wall shows the time as it is. */
typedef struct runnel_zone {
    const runnel_zone_change *changes;
    size_t count;
} runnel_zone;

/** What the wall shows, s. @param zone NULL for none */
double runnel_wall_of(const runnel_zone *zone, double moment_s);

/** When the wall shows a time: the first of two such moments, when the clock is put back; when it
 * is put forward over it, the moment of the change. @param zone NULL for none */
double runnel_moment_of(const runnel_zone *zone, double wall_s);

/* ---- Shop hours --------------------------------------------------------------------------------
 */

/** Most spans of one day. */
#define RUNNEL_HOURS_A_DAY 4

/** Hours of a day of the week, s after midnight by the wall's clock, in order. */
typedef struct runnel_day_hours {
    runnel_span spans[RUNNEL_HOURS_A_DAY];
    size_t count;
} runnel_day_hours;

/** A week: Monday is 0. */
typedef struct runnel_week {
    runnel_day_hours days[7];
} runnel_week;

/**
 * Reads hours, such as "Mon-Fri 8:00-12:00 13:00-17:30, Sat 9:00-13:00": parts after commas, each
 * of days (by three letters, in either case, with a hyphen for all from one to the other) and spans
 * of 24 h time. A day that is not named is closed.
 *
 * @return RUNNEL_OK; RUNNEL_E_SYNTAX, RUNNEL_E_RANGE (no such time, end not after start, more than
 *         RUNNEL_HOURS_A_DAY), RUNNEL_E_CONFLICT (overlap), RUNNEL_E_MISSING (none at all), told in
 *         `problems`
 */
runnel_status runnel_week_parse(const char *text, runnel_problems *problems,
                                const runnel_place *place, runnel_week *week);

/** Most entries of a list of days off. */
#define RUNNEL_DAYS_OFF_MOST 100

/** Days without work. Zero-initialised is none. */
typedef struct runnel_days_off {
    struct runnel_days_off_span {
        runnel_date from, to; /**< both included */
    } spans[RUNNEL_DAYS_OFF_MOST];
    size_t count;
} runnel_days_off;

/**
 * Reads days off, such as "2026-12-08, 2026-12-24 to 2027-01-02": days, or the first and the last
 * of some, with commas between.
 *
 * @return RUNNEL_OK; RUNNEL_E_SYNTAX, RUNNEL_E_RANGE (no such day, more than RUNNEL_DAYS_OFF_MOST),
 *         RUNNEL_E_CONFLICT (the last day before the first), RUNNEL_E_MISSING (none), all told in
 *         `problems`
 */
runnel_status runnel_days_off_parse(const char *text, runnel_problems *problems,
                                    const runnel_place *place, runnel_days_off *off);

/** Hours by the week from one day on, for so many days, as moments. Days off are closed.
 *
 * @param off      NULL for none
 * @param zone     NULL for none
 * @param open     replaced on success
 * @return RUNNEL_OK, RUNNEL_E_RANGE (no valid day, beyond the year 9999), RUNNEL_E_NO_MEMORY */
runnel_status runnel_week_open(const runnel_week *week, runnel_date from, size_t days,
                               const runnel_days_off *off, const runnel_zone *zone,
                               runnel_spans *open);

/* ---- Chains ------------------------------------------------------------------------------------
 */

/** A step. */
typedef struct runnel_task {
    const char *name; /**< borrowed; told to nobody but the caller */
    double hands_s;   /**< time that hands are busy, >= 0 */
    bool divides;     /**< may be left at the end of the hours and taken up again */
    double from_s;    /**< wait after the end of the task before, at least, >= 0 */
    double until_s;   /**< and at most, >= from_s; INFINITY for no end */
    double late_s;    /**< hands needed on top when that is missed, >= 0; NAN: must not be missed */
    double late_from_s; /**< wait at least when it is missed, >= 0; below until_s that counts */
} runnel_task;

/** Times of a step. */
typedef struct runnel_task_times {
    double start_s, end_s; /**< as planned */
    bool is_late;          /**< the wait was missed, and `late_s` added */
    double earliest_s;     /**< start, at the earliest */
    double latest_s;       /**< start, at the latest that the end allows; NAN without an end */
} runnel_task_times;

/** Which plan is wanted of all that are possible. */
typedef enum runnel_aim {
    RUNNEL_AIM_EARLY, /**< the earliest end, and for that every step as early as it can be */
    RUNNEL_AIM_LATE   /**< the first step as late as the end asked for allows, and for that each
                           one after it as late as it can be */
} runnel_aim;

/** What a chain has to keep to. */
typedef struct runnel_bounds {
    double start_s; /**< nothing before */
    double end_s;   /**< the last task, with `after_s`, ends by then; INFINITY for any time */
    double after_s; /**< wait after the last task */
} runnel_bounds;

/** Most tasks of a chain. */
#define RUNNEL_TASKS_MOST 1000

/**
 * Plans a chain.
 *
 * @param open  hours in which there are hands free; nothing is done outside
 * @param times of `count` tasks, filled in on success and, but for latest_s, for
 *              RUNNEL_NOT_POSSIBLE: then the plan that ends earliest, if there is any
 * @param end_s when the chain, with after_s, ends in that plan; NAN when the hours do not
 *              suffice for any
 * @return RUNNEL_OK; RUNNEL_NOT_POSSIBLE (it ends after bounds->end_s, or the hours do not
 * suffice); RUNNEL_E_RANGE; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_chain_plan(const runnel_task *tasks, size_t count, const runnel_spans *open,
                                const runnel_bounds *bounds, runnel_aim aim,
                                runnel_task_times *times, double *end_s);

/** Takes the hands' time of planned tasks out of the hours.
 * @return RUNNEL_OK; RUNNEL_E_NO_MEMORY, the hours as they were */
runnel_status runnel_hours_take(const runnel_task_times *times, size_t count, runnel_spans *open);

#ifdef __cplusplus
}
#endif
#endif
