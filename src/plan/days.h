/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * From the steps of a job to days.
 */
#ifndef RUNNEL_PLAN_DAYS_H
#define RUNNEL_PLAN_DAYS_H

#include "runnel/timing.h"

/**
 * Plans the steps of a job, wrapping a week after the last pour as well. The last pour, the last
 * work on the bench and wrapping are each as early as can be: neither what comes after the last
 * pour nor wrapping may have an end of its wait.
 *
 * @param open      hours with hands free
 * @param late      start as late as the end of the bounds allows, and then as early as can be; else
 *                  as early as can be from the start of the bounds on
 * @param last_pour its step, or SIZE_MAX
 * @return RUNNEL_OK; RUNNEL_NOT_POSSIBLE when it ends too late, planned all the same where the
 *         hours suffice; as runnel_chain_plan
 */
runnel_status runnel_days_plan(const runnel_spans *open, const runnel_bounds *bounds, bool late,
                               size_t last_pour, runnel_timing *timing);

#endif
