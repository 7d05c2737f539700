/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * From a job to its steps of work and the waits between them.
 */
#ifndef RUNNEL_PLAN_WORKING_H
#define RUNNEL_PLAN_WORKING_H

#include "plan/make.h"
#include "runnel/sheet.h"
#include "runnel/timing.h"

/** Paper and film print into soft oil and resin for about a week: common practice. */
#define RUNNEL_WRAP_WAIT_S (7 * 86400.0)

/** What the steps come to. */
typedef struct runnel_worked {
    bool unknown;       /**< a wait that nobody told */
    size_t last_pour;   /**< step, or SIZE_MAX */
    size_t last_finish; /**< step of the last coat of oil, or SIZE_MAX */
} runnel_worked;

/**
 * Adds the steps of a job to `timing`, without times. All waits and hands are of whole minutes,
 * rounded so that no wait is cut short.
 *
 * @return RUNNEL_OK; RUNNEL_E_NOT_FOUND when the tables lack a work, told in `problems`;
 *         RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_work_make(const runnel_job *job, const runnel_tables *tables,
                               const runnel_sheet *sheet, runnel_problems *problems,
                               runnel_timing *timing, runnel_worked *worked);

/** The grits of a job, its own or the usual ones. */
runnel_grits runnel_work_grits(const runnel_job *job);

/** The sheet of a job without its days; as runnel_sheet_make. */
runnel_status runnel_sheet_parts(const runnel_job *job, const runnel_tables *tables,
                                 const runnel_letters *letters, runnel_problems *problems,
                                 runnel_sheet *sheet);

/**
 * The days of one job whose parts are there already; as runnel_timings_make.
 *
 * @param of    job, tables, letter and problems, and what the parts came to
 * @param parts as runnel_sheet_parts makes them
 */
runnel_status runnel_timings_beside(const runnel_making *of, const runnel_sheet *parts,
                                    const runnel_zone *zone, runnel_timings *timings);

#endif
