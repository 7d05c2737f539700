/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Time stamps: a day and a time of day as people and loggers write them.
 *
 * Read are, with one or more blanks or a T between day and time:
 *
 *     2026-11-25T08:05   2026/11/25 08:05:30   2026-11-25 08:05:30.25   ISO 8601 and near to it
 *     25.11.2026 08:05                                                  day first
 *     25/11/2026 08:05   11-25-2026 8:05 pm                             day or month first
 *
 * The year has four digits, 1900 to 2199. Seconds may have a fraction. Behind the time may stand am
 * or pm, and then an offset from UTC: Z, +01:00, +0100 or +01. Without one the stamp is wall time.
 */
#ifndef RUNNEL_STAMP_H
#define RUNNEL_STAMP_H

#include "runnel/status.h"

#include <stdbool.h>

#ifdef __cplusplus
extern "C" {
#endif

/** What comes first in 03/04/2026. */
typedef enum runnel_day_order {
    RUNNEL_DAY_UNKNOWN,
    RUNNEL_DAY_FIRST,
    RUNNEL_MONTH_FIRST
} runnel_day_order;

/** A moment. */
typedef struct runnel_stamp {
    double seconds;  /**< since 1970-01-01 00:00: of UTC with an offset, else of the wall clock */
    bool has_offset; /**< where the clock was is told */
    int offset_min;  /**< minutes before UTC's clock; 0 without */
} runnel_stamp;

/** What is wrong with a stamp. */
typedef enum runnel_stamp_fault {
    RUNNEL_STAMP_FINE,
    RUNNEL_STAMP_NONE,      /**< nothing like a day and a time */
    RUNNEL_STAMP_NO_TIME,   /**< a day alone */
    RUNNEL_STAMP_YEAR,      /**< not of four digits, or before 1900 or after 2199 */
    RUNNEL_STAMP_NO_DAY,    /**< there is no such day */
    RUNNEL_STAMP_CLOCK,     /**< there is no such time of day */
    RUNNEL_STAMP_OFFSET,    /**< an offset beyond 14 h, or something else behind the time */
    RUNNEL_STAMP_AMBIGUOUS, /**< day or month first? */
    RUNNEL_STAMP_FAULT_COUNT
} runnel_stamp_fault;

/** What is wrong and what would be right, to stand behind the offending text in quotes. */
const char *runnel_stamp_fault_text(runnel_stamp_fault fault);

/**
 * Reads a stamp, the whole text.
 *
 * @param order for days parted by slashes or hyphens with the year last
 * @param shows what this stamp shows of the order: with a number above 12 in the place of day or
 *              month; may be NULL
 * @param stamp untouched unless it is fine
 */
runnel_stamp_fault runnel_stamp_read(const char *text, runnel_day_order order,
                                     runnel_day_order *shows, runnel_stamp *stamp);

/** Reads a stamp of which the order is not known, for options and keys.
 * @return RUNNEL_OK; RUNNEL_E_SYNTAX, told */
runnel_status runnel_stamp_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, runnel_stamp *stamp);

/** Room for a stamp's text. */
#define RUNNEL_STAMP_SIZE 32

/** "2026-11-25 08:05", rounded to the minute; with an offset of its clock "2026-11-25 08:05+01:00".
 * "not known" for what is not finite or not within the years 1 to 9999.
 * @param buffer RUNNEL_STAMP_SIZE bytes @return buffer */
const char *runnel_stamp_text(const runnel_stamp *stamp, char *buffer);

#ifdef __cplusplus
}
#endif
#endif
