/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Upkeep: when a finished piece wants oil again, how much of it, and when it is sanded and
 * finished anew. Pure: all dates follow from the day of delivery.
 */
#ifndef RUNNEL_UPKEEP_H
#define RUNNEL_UPKEEP_H

#include "runnel/date.h"
#include "runnel/oil.h"
#include "runnel/status.h"

#include <stdbool.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- How a piece lives --------------------------------------------------------------------- */

/** How much a piece is used, or where it hangs. */
typedef enum runnel_use {
    RUNNEL_USE_NONE,      /**< not given */
    RUNNEL_USE_RARE,      /**< a few times a year */
    RUNNEL_USE_WEEKLY,    /**< about once a week */
    RUNNEL_USE_DAILY,     /**< every day or nearly so */
    RUNNEL_USE_WET,       /**< often wet, several times a day */
    RUNNEL_USE_SHELTERED, /**< outdoors, under a roof */
    RUNNEL_USE_OPEN_AIR,  /**< outdoors, in sun and rain */
    RUNNEL_USE_COUNT
} runnel_use;

/** How it is washed. */
typedef enum runnel_washing {
    RUNNEL_WASHING_NONE,
    RUNNEL_WASHING_WIPED,   /**< with a damp cloth */
    RUNNEL_WASHING_RINSED,  /**< by hand, with water */
    RUNNEL_WASHING_SCRUBBED /**< with soap and brush, each time */
} runnel_washing;

/** What a drop of water does on it, as its owner sees. */
typedef enum runnel_water {
    RUNNEL_WATER_NONE,
    RUNNEL_WATER_BEADS,   /**< it stands as a bead: the oil may wait */
    RUNNEL_WATER_SOAKS_IN /**< it soaks in: the oil is due earlier */
} runnel_water;

/** What the piece is finished with. */
typedef enum runnel_upkeep_finish {
    RUNNEL_FINISH_WET_OIL,    /**< an oil that stays wet */
    RUNNEL_FINISH_DRYING_OIL, /**< one that hardens */
    RUNNEL_FINISH_COATING     /**< a film against sun and rain */
} runnel_upkeep_finish;

/** The words for them in a job, in an option and in the table: "weekly", "open air"; "rinsed";
 * "soaks in"; "coating". "?" for what is none. */
const char *runnel_use_text(runnel_use use);
const char *runnel_washing_text(runnel_washing washing);
const char *runnel_water_text(runnel_water water);
const char *runnel_upkeep_finish_text(runnel_upkeep_finish finish);

/** Whether a piece of this use is outdoors. */
bool runnel_use_is_outdoors(runnel_use use);

/* ---- Rules --------------------------------------------------------------------------------- */

/** Intervals for a finish and a use: a row of data/upkeep.csv, or the user's own. NAN is "none". */
typedef struct runnel_upkeep_rule {
    char *name; /**< owned, key of the row */
    runnel_upkeep_finish finish;
    runnel_use use;
    double wait_s;      /**< from delivery to the first care at all */
    double first_s;     /**< from coat to coat in the first weeks ... */
    double first_times; /**< ... and how many coats; whole */
    double second_s;    /**< the same after those */
    double second_times;
    double steady_s;        /**< from then on */
    double look_s;          /**< from one looking over to the next */
    double sand_s;          /**< from new to sanding and finishing anew */
    double share;           /**< of a first coat, that a later one takes */
    double coat_ml_per_m2;  /**< coating: of a coat; an oil has its own uptake */
    double coats;           /**< when finished anew; NAN = as many as when it was new */
    double wiped, scrubbed; /**< by which the waits of the above grow or shrink when washed so */
    double open_pores;      /**< and for wood with open pores */
    double beads, soaks_in; /**< and by what the owner sees */
    char *source, *date, *sure; /**< owned, as in runnel_oil */
} runnel_upkeep_rule;

/** Frees what a rule owns and zeroes it. NULL is allowed. */
void runnel_upkeep_rule_clear(runnel_upkeep_rule *rule);

/* ---- The schedule -------------------------------------------------------------------------- */

/** What is done. */
typedef enum runnel_upkeep_kind {
    RUNNEL_UPKEEP_OIL,  /**< a thin coat of the oil */
    RUNNEL_UPKEEP_COAT, /**< a coat of the coating, on all six faces */
    RUNNEL_UPKEEP_LOOK, /**< looked over, washed, small damage mended */
    RUNNEL_UPKEEP_SAND  /**< sanded and finished anew */
} runnel_upkeep_kind;

/** A task that comes again. */
typedef struct runnel_upkeep_task {
    runnel_upkeep_kind kind;
    const char *code; /**< stable word: "first", "second", "steady", "look", "sand" */
    runnel_date first;
    int every_days;    /**< 1 or more */
    size_t count;      /**< how many times; 0 = on and on */
    double amount_mm3; /**< each time, for one piece; 0 for looking over */
} runnel_upkeep_task;

/** Most tasks of a schedule. */
#define RUNNEL_UPKEEP_TASKS 5

/** What a schedule follows from. */
typedef struct runnel_upkeep_case {
    const runnel_upkeep_rule *rule; /**< borrowed, only while computing */
    runnel_washing washing;         /**< none = rinsed */
    runnel_water water;             /**< none = not looked at */
    bool open_pored;
    runnel_date delivered;
    runnel_date oiled; /**< last coat by the owner; zero = none yet. Not before the delivery. */
    double face_mm2, end_mm2; /**< of one piece, as by runnel_oil_area_of */
    runnel_oiling oiling;     /**< as when it was new; of a coating only its waste counts */
} runnel_upkeep_case;

/** A schedule for one piece. */
typedef struct runnel_upkeep {
    runnel_upkeep_task tasks[RUNNEL_UPKEEP_TASKS]; /**< stages of oil or coating first */
    size_t task_count;
    int steady_days;       /**< the steady interval ... */
    int beads_days;        /**< ... what it becomes when water still beads ... */
    int soaks_in_days;     /**< ... and when it soaks in */
    double coat_mm3;       /**< of a later coat */
    double anew_mm3;       /**< of all coats after sanding */
    double first_year_mm3; /**< of 365 days from the delivery, or from `oiled`, on */
    double year_mm3;       /**< of a usual year after that, without the sanding */
} runnel_upkeep;

/**
 * The schedule of a piece.
 *
 * The waits of the coats are multiplied by the factors that hold (washing, open pores, what the
 * owner sees) and rounded: to whole weeks from two weeks on, so that a Saturday stays a Saturday,
 * else to whole days, at least one. The waits to the first care, to looking over and to sanding
 * stay as they are. After a coat that the owner tells of (`oiled`), those that were due until then
 * count as done and the next wait begins with it.
 *
 * @return RUNNEL_OK; RUNNEL_E_RANGE for a value outside its range or dates past the year 9999;
 *         RUNNEL_E_CONFLICT for a last coat before the delivery
 */
runnel_status runnel_upkeep_compute(const runnel_upkeep_case *of, runnel_upkeep *upkeep);

/** Where a walk through the dates of a schedule stands. Zero-initialised is its start. */
typedef struct runnel_upkeep_walk {
    size_t done[RUNNEL_UPKEEP_TASKS];
} runnel_upkeep_walk;

/**
 * The next date of a schedule, all tasks together; on the same day in the order of the tasks. Coats
 * that go on and on do so until the calendar ends.
 *
 * @param task index of the task
 * @return false at the end
 */
bool runnel_upkeep_next(const runnel_upkeep *upkeep, runnel_upkeep_walk *walk, size_t *task,
                        runnel_date *date);

#ifdef __cplusplus
}
#endif
#endif
