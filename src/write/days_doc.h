/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The days of jobs as a document or a part of one: bars, each step with its times, and when each
 * job is ready.
 */
#ifndef RUNNEL_WRITE_DAYS_DOC_H
#define RUNNEL_WRITE_DAYS_DOC_H

#include "runnel/timing.h"
#include "write/doc.h"

/** Steps that one picture of bars shows: as many as have room on a postcard. */
#define RUNNEL_DAYS_STEPS 24

/** Adds them, for all jobs of the timings: in one order of days, as one pair of hands does it all.
 * @param jobs those that the timings were made from */
void runnel_days_doc(const runnel_job *jobs, const runnel_timings *timings, runnel_doc *doc);

/** Adds the title, the warnings, what it was worked out with, and the days of all jobs. */
void runnel_timeline_doc(const runnel_job *jobs, const runnel_timings *timings, runnel_doc *doc);

#endif
