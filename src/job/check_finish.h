/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What of the finish goes together, beyond the ranges of the single values.
 */
#ifndef RUNNEL_JOB_CHECK_FINISH_H
#define RUNNEL_JOB_CHECK_FINISH_H

#include "job/fields.h"

/** Takes a problem of a field of the whole job. */
typedef void (*runnel_tell_function)(void *state, runnel_field_id id, runnel_status status,
                                     const char *text);

/** Checks what of the sealer goes together. */
void runnel_check_sealer(const runnel_job *job, runnel_tell_function tell, void *state);

/** Checks that oil and wax are ones that there are. */
void runnel_check_oil(const runnel_job *job, const runnel_tables *tables, runnel_tell_function tell,
                      void *state);

/** Checks what of the days goes together. */
void runnel_check_days(const runnel_job *job, runnel_tell_function tell, void *state);

#endif
