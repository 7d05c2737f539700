/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What the runs of cups and layers share.
 */
#ifndef RUNNEL_RESIN_HEAT_RUN_H
#define RUNNEL_RESIN_HEAT_RUN_H

#include "runnel/heat.h"

/** Temperatures are counted from that of the air in steps of this, so that they are of the order of
 * conversions and share their tolerance. */
#define RUNNEL_HEAT_STEP_K 100.0

/** How far the air is from `air_degc` after a time, in steps; 0 where it stays. */
double runnel_heat_air_steps(const runnel_heat_air *air, double air_degc, double time_s);

/** Whether all of a resin's numbers are in their range. */
bool runnel_resin_heat_is_sound(const runnel_resin_heat *resin);

/** The highest value of the cubic between two ends with slopes, and where it is. */
double runnel_heat_cubic_peak(double from, double y_from, double slope_from, double to, double y_to,
                              double slope_to, double *at);

/** How long a run goes on by default; see runnel_heat_in_cup. */
runnel_status runnel_heat_usual_time(const runnel_kinetics *kinetics, double start_degc, double gel,
                                     double *seconds);

/** The largest x between least and most, to 1 %, whose peak is at or below the limit. */
runnel_status runnel_heat_search(runnel_status (*peak)(const void *what, double x, double *degc),
                                 const void *what, double limit_degc, double least, double most,
                                 double *x);

/** A curve that is made along a run; `curve` is NULL where none is wanted. */
typedef struct runnel_heat_trace {
    runnel_heat_curve *curve;
    double for_s; /**< length of the run */
    runnel_status status;
} runnel_heat_trace;

/** Adds a moment, unless it is so near the last one in all that it would not show. @return false
 * when memory ran out, which is noted */
bool runnel_heat_note(runnel_heat_trace *trace, double time_s, double conversion, double degc);

/** Ends a run with a curve: hands it over, or frees it when the run failed. @return status */
runnel_status runnel_heat_hand_over(runnel_status status, runnel_heat_curve *made,
                                    runnel_heat_curve *curve);

#endif
