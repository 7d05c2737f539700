/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The days of jobs as an object of JSON.
 */
#ifndef RUNNEL_WRITE_JSON_TIMELINE_H
#define RUNNEL_WRITE_JSON_TIMELINE_H

#include "runnel/timing.h"
#include "write/json_make.h"

/** As runnel_write_timeline_json has it. @return owned by the caller */
json_t *runnel_json_timeline(const runnel_job *jobs, const runnel_timings *timings, bool *whole);

#endif
