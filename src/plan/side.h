/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What the plans for work before and after the resin have in common.
 */
#ifndef RUNNEL_PLAN_SIDE_H
#define RUNNEL_PLAN_SIDE_H

#include "plan/make.h"
#include "runnel/levelling.h"
#include "runnel/oiling.h"
#include "runnel/sealing.h"

/**
 * Makes the plan of a job, or takes it from one that is there already, and drops the warnings that
 * are not about its cavities.
 *
 * @param making filled in, so that warnings can be added to `plan` by runnel_warn; `impossible`
 *               tells whether a cavity cannot be cut as asked
 * @param of     job, tables, letter and problems, and as `plan` the whole plan of the job where it
 *               is there already, else NULL
 * @param plan   an empty one
 * @return RUNNEL_OK, or what failed, with the plan empty
 */
runnel_status runnel_side_plan(runnel_making *making, const runnel_making *of, runnel_plan *plan);

/** As runnel_sealing_make, runnel_levelling_make and runnel_oiling_make. @param of as above */
runnel_status runnel_sealing_beside(const runnel_making *of, runnel_sealing *sealing);
runnel_status runnel_levelling_beside(const runnel_making *of, runnel_levelling_plan *levelling);
runnel_status runnel_oiling_beside(const runnel_making *of, runnel_oiling_plan *oiling);

/** Adds a warning of a cavity. */
runnel_status runnel_side_warn_cavity(runnel_making *making, const char *code,
                                      const runnel_plan_cavity *planned, const char *text);

/** Tells that a cavity cannot be computed. @return status */
runnel_status runnel_side_tell_cavity(const runnel_making *making, const runnel_job_cavity *cavity,
                                      runnel_status status);

/** A time of the resin's sheet at the shop's temperature, s; NAN when it is not known. */
double runnel_side_time_at_shop(const runnel_job *job, double stated_s);

/** Whether a job says anything of its sealer. */
bool runnel_side_names_sealer(const runnel_job_sealer *sealer);

/** Adds the faults of an order to the warnings, and notes when one of them is wrong. */
runnel_status runnel_side_warn_order(runnel_making *making, const runnel_order *order,
                                     const runnel_order_faults *faults);

/** The usual order of steps. */
void runnel_side_usual_order(runnel_step seal, runnel_step oil, runnel_order *order);

#endif
