/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What a job takes out of bottles and tins.
 */
#ifndef RUNNEL_PLAN_NEEDS_H
#define RUNNEL_PLAN_NEEDS_H

#include "runnel/oiling.h"
#include "runnel/sealing.h"
#include "runnel/stocking.h"

/* Each adds what is above 0 of its part, and returns RUNNEL_OK or RUNNEL_E_NO_MEMORY. What is added
 * borrows from job, plan and tables. */

/** Parts A and B of all batches, and their tints. */
runnel_status runnel_needs_resin(const runnel_job *job, const runnel_plan *plan,
                                 runnel_needs *needs);
/** The sealer. Resin for sealing is on top of that for the cavities. */
runnel_status runnel_needs_sealer(const runnel_job *job, const runnel_sealing *sealing,
                                  runnel_needs *needs);
/** Oil and wax. */
runnel_status runnel_needs_oil(const runnel_oiling_plan *oiling, runnel_needs *needs);
/** A coating, mm3. */
runnel_status runnel_needs_coating(double volume_mm3, runnel_needs *needs);

#endif
