/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The days of jobs as text, JSON and calendar. Each writer returns RUNNEL_OK, RUNNEL_E_NO_MEMORY or
 * RUNNEL_E_IO; the one of the calendar may also return RUNNEL_E_LIBRARY.
 */
#ifndef RUNNEL_WRITE_TIMELINE_H
#define RUNNEL_WRITE_TIMELINE_H

#include "runnel/calendar.h"
#include "runnel/timing.h"

#include <stdio.h>

#ifdef __cplusplus
extern "C" {
#endif

/** As text: warnings first, day by day what hands do and what waits, when each job is ready, and
 * what would help where that is too late. `jobs` are those that the timings were made from. */
runnel_status runnel_write_timeline_text(const runnel_job *jobs, const runnel_timings *timings,
                                         FILE *out);

/**
 * As one JSON object: hours, zone (null or its name), days_off[] (from, to), hands_min, ships (of
 * all), jobs[] (job, file, asked (null or a time), steps[] (code, text, waits_for, start, end,
 * earliest, latest, hands_min, wait_min, least_wait_min, most_wait_min, is_late), hands_min, last,
 * wrap, ships, food, late_days, remedies[] (code, text, ships, suffices), warnings[]). Times are
 * those of the wall's clock, "2026-11-25T08:00"; wait_min is what lies between a step and the one
 * before.
 */
runnel_status runnel_write_timeline_json(const runnel_job *jobs, const runnel_timings *timings,
                                         FILE *out);

/** As a calendar (runnel_write_ics): an event for each step, by the wall's clock, and whole days
 * for those on which a job is ready to ship and for food. UIDs follow from the order (the job's id;
 * without one its name, customer, pieces and what is carved) and the step, so that they stay when
 * the job is planned anew, alone or beside others, from any folder. Without a day in `issue` it is
 * stamped with that of the first step. A job that could not be planned has no events. */
runnel_status runnel_write_timeline_ics(const runnel_job *jobs, const runnel_timings *timings,
                                        const runnel_calendar_issue *issue, FILE *out);

#ifdef __cplusplus
}
#endif
#endif
