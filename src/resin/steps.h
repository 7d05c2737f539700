/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Parts as whole steps of a scale.
 */
#ifndef RUNNEL_RESIN_STEPS_H
#define RUNNEL_RESIN_STEPS_H

#include "runnel/resin.h"

#include <stdint.h>

/** Rounding of mass/step must not push an exact multiple up by a step. */
#define RUNNEL_STEP_SLACK 1e-12
/** Steps beyond which that slack would be a step. */
#define RUNNEL_MOST_STEPS 1e12

/** What is weighed out, all of it sound. Borrowed. */
typedef struct runnel_order {
    const runnel_mixture *mixture;
    double density_a_g_per_ml, density_b_g_per_ml;
    double tint;
    const runnel_scale *scale;
} runnel_order;

/** Fewest whole steps that a part may have: its need, but for the rounding of the quotient. */
int64_t runnel_least_steps(double need_g, double step_g);

/** The weighing of so many steps of A and of B, each above 0. @return RUNNEL_OK or RUNNEL_E_RANGE
 */
runnel_status runnel_weighing_of_steps(const runnel_order *order, int64_t a, int64_t b,
                                       runnel_weighing *weighing);

/** Takes the easier way, all in one cup without zeroing before B, where it keeps the tolerance. */
void runnel_weighing_choose_way(const runnel_scale *scale, double tolerance,
                                runnel_weighing *weighing);

#endif
