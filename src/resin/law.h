/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A rate law with its slopes, for those who solve it.
 */
#ifndef RUNNEL_RESIN_LAW_H
#define RUNNEL_RESIN_LAW_H

#include "runnel/kinetics.h"

/** Whether all numbers of a law are in their range. */
bool runnel_kinetics_is_law(const runnel_kinetics *law);

/** A rate in 1/s and its slopes. */
typedef struct runnel_rate_parts {
    double rate;
    double by_kelvin;
    double by_conversion;
} runnel_rate_parts;

/** The rate of a sound law. A conversion below 0 or above the last one counts as these. */
runnel_rate_parts runnel_kinetics_parts(const runnel_kinetics *law, double kelvin,
                                        double conversion);

#endif
