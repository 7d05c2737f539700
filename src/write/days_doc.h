/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The days of a job as a part of a document: bars, each step with its times, and when it is ready.
 */
#ifndef RUNNEL_WRITE_DAYS_DOC_H
#define RUNNEL_WRITE_DAYS_DOC_H

#include "runnel/timing.h"
#include "write/doc.h"

/** Steps that one picture of bars shows: as many as have room on a postcard. */
#define RUNNEL_DAYS_STEPS 24

/** Adds them. @param index of the job among those of the timings */
void runnel_days_doc(const runnel_job *job, const runnel_timings *timings, size_t index,
                     runnel_doc *doc);

/** Adds the title, the warnings and the days of all jobs. */
void runnel_timeline_doc(const runnel_job *jobs, const runnel_timings *timings, runnel_doc *doc);

#endif
