/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What text and JSON of a trial share.
 */
#ifndef RUNNEL_WRITE_TRIAL_H
#define RUNNEL_WRITE_TRIAL_H

#include "runnel/write_finish.h"

/** Room that runnel_trial_cutter needs. */
#define RUNNEL_TRIAL_CUTTER_SIZE 80

/** The cutter as a job takes it: "v 58.2 deg tip 0.2 mm". @return buffer */
const char *runnel_trial_cutter(const runnel_trial *trial, char *buffer);

/** By how much more resin goes into a carving between walls, which gets deeper, and along a path of
 * one depth, which gets wider, than by the angle that the cutter was sold as; shares. */
double runnel_trial_between_walls(const runnel_trial_report *report);
double runnel_trial_at_depth(const runnel_trial_report *report);

#endif
