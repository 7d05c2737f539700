/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Days of the calendar, without a time of day and without a time zone.
 */
#ifndef RUNNEL_DATE_H
#define RUNNEL_DATE_H

#include "runnel/status.h"

#include <stdbool.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/** A day of the Gregorian calendar. Zero-initialised is "not given", as there is no month 0. */
typedef struct runnel_date {
    int year, month, day; /**< years 1 to 9999, months 1 to 12, days from 1 */
} runnel_date;

/** Room for a date as text. */
#define RUNNEL_DATE_SIZE 40

/** Whether there is such a day in the years 1 to 9999. */
bool runnel_date_is_valid(runnel_date date);

/**
 * Reads a day as ISO 8601 writes it, "2026-12-24": four, two and two digits, blanks around free.
 *
 * @return RUNNEL_OK; RUNNEL_E_SYNTAX for another form; RUNNEL_E_RANGE for a day that there is not
 */
runnel_status runnel_date_parse(const char *text, runnel_problems *problems,
                                const runnel_place *place, runnel_date *date);

/** Days from one day to another, negative when that is earlier. Both have to be valid. */
int64_t runnel_date_days_between(runnel_date from, runnel_date to);

/** The day that is so many days later, or earlier for a negative number.
 * @return RUNNEL_OK; RUNNEL_E_RANGE when the date is not valid or the years 1 to 9999 end */
runnel_status runnel_date_add_days(runnel_date date, int64_t days, runnel_date *later);

/** Day of the week of a valid date: 1 is Monday, 7 is Sunday (as in ISO 8601). */
int runnel_date_weekday(runnel_date date);

/** Name of a day of the week, "Monday"; "?" for what is none. */
const char *runnel_weekday_text(int weekday);

/** Writes "2026-12-24". @return buffer */
char *runnel_date_text(runnel_date date, char *buffer, size_t size);

/** Writes "Thursday, 24 December 2026". @return buffer */
char *runnel_date_words(runnel_date date, char *buffer, size_t size);

#ifdef __cplusplus
}
#endif
#endif
