/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Moments as the wall's clock shows them.
 */
#ifndef RUNNEL_WRITE_MOMENT_H
#define RUNNEL_WRITE_MOMENT_H

#include "runnel/date.h"
#include "runnel/timeline.h"

/** Room for a moment as text. */
#define RUNNEL_MOMENT_SIZE 80

/** The day of a moment, and the minutes of it that have passed. */
runnel_date runnel_moment_day(const runnel_zone *zone, double moment_s, int *minutes);

/** "2026-11-25T08:00". @return buffer */
char *runnel_moment_stamp(const runnel_zone *zone, double moment_s, char *buffer);

/** "Wed 25 Nov, 08:00", where the year is no question; no line ends within. @return buffer */
char *runnel_moment_short(const runnel_zone *zone, double moment_s, char *buffer);

/** "Wednesday, 25 November 2026, 08:00". @return buffer */
char *runnel_moment_words(const runnel_zone *zone, double moment_s, char *buffer);

/** "Wed" and "25 Nov", for a column of days. @param weekday as large as `buffer` @return buffer */
char *runnel_moment_head(runnel_date date, char *weekday, char *buffer);

#endif
