/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Dates of the proleptic Gregorian calendar as a count of days.
 */
#ifndef RUNNEL_BASE_CIVIL_H
#define RUNNEL_BASE_CIVIL_H

#include <stdbool.h>
#include <stdint.h>

/** Whether such a day exists: month 1 to 12, day 1 to the length of that month. Any year counts,
 * also 0 and those below it (year 0 is a leap year, as in ISO 8601). */
bool runnel_civil_is_valid(int year, int month, int day);

/**
 * Days since 1970-01-01 of a date; negative before it.
 *
 * Years start in March in the arithmetic, so that the leap day is the last of its year, and 400
 * years are 146097 days (from the calendar's own rule: 97 leap years in 400).
 *
 * @param month 1 to 12; the date has to be valid (runnel_civil_is_valid)
 */
int64_t runnel_days_from_civil(int year, int month, int day);

/**
 * The date of a count of days, the way back from runnel_days_from_civil.
 *
 * @param days  of the years -2147483200 to 2147483599; others give a date in the first or the last
 *              400 of these
 * @param month 1 to 12
 * @param day   1 to 31
 */
void runnel_civil_from_days(int64_t days, int *year, int *month, int *day);

#endif
