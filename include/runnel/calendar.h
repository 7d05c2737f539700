/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Dates for calendar programs: iCalendar files (RFC 5545).
 */
#ifndef RUNNEL_CALENDAR_H
#define RUNNEL_CALENDAR_H

#include "runnel/date.h"
#include "runnel/status.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#ifdef __cplusplus
extern "C" {
#endif

/** An event, of whole days or of hours. Texts are borrowed, UTF-8; bytes that are none become '?',
 * control characters but line ends blanks. */
typedef struct runnel_event {
    const char *seed;    /**< what the event is, the same whenever it is written again, and unlike
                            those of all other events: its UID is made from it alone */
    const char *summary; /**< one line */
    const char *description; /**< lines by \n; NULL = none */
    runnel_date start;       /**< the first day */
    bool is_timed;           /**< by the clock on the wall; else of whole days */
    int start_min;           /**< timed: minute of the day, 0 to 1439 */
    int length_min;          /**< timed: 1 or more */
    int days;                /**< whole days: how many; 0 = 1 */
    int every_days;          /**< again so many days later, and so on; 0 = once */
    size_t count;            /**< how many times; 0 = on and on */
} runnel_event;

/** A calendar of events. */
typedef struct runnel_calendar {
    const char *name;  /**< of the calendar, for programs that show it; NULL = none */
    runnel_date stamp; /**< the day on which it is written (its UTC midnight is the DTSTAMP) */
    size_t revision;   /**< 0 at first, and more each time that the events change (SEQUENCE) */
    const runnel_event *events;
    size_t count;
} runnel_calendar;

/** When a calendar is written, and how often it was before. */
typedef struct runnel_calendar_issue {
    runnel_date stamp; /**< zero = the first day that it tells of */
    size_t revision;
} runnel_calendar_issue;

/** Most of a revision, of minutes, days and repetitions of an event. */
#define RUNNEL_CALENDAR_MOST 1000000

/**
 * Writes an iCalendar file, with lines of at most 75 octets before their CRLF. An event has a UID
 * that stays as long as its seed does, so that reading the file in again changes events in place of
 * doubling them. Times are "floating": they stand for the clock on the wall wherever they are read,
 * also across a change to or from summer time. Events that come again do so by RRULE, in whole
 * weeks where the interval is.
 *
 * @return RUNNEL_OK; RUNNEL_E_RANGE for a date, time, length or number that there is not, or an end
 *         past the calendar's; RUNNEL_E_MISSING without a seed or summary; RUNNEL_E_CONFLICT when
 *         two events have one seed; RUNNEL_E_NO_MEMORY; RUNNEL_E_IO; RUNNEL_E_LIBRARY
 */
runnel_status runnel_write_ics(const runnel_calendar *calendar, FILE *out);

/** Room for a UID. */
#define RUNNEL_UID_SIZE 48

/** The UID of an event with this seed. @return buffer */
char *runnel_event_uid(const char *seed, char *buffer, size_t size);

#ifdef __cplusplus
}
#endif
#endif
