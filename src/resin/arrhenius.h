/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * How the speed of a reaction follows the temperature: the one home of the formula.
 */
#ifndef RUNNEL_RESIN_ARRHENIUS_H
#define RUNNEL_RESIN_ARRHENIUS_H

#include <math.h>

#define RUNNEL_GAS_J_PER_MOL_K  8.31446261815324 /**< exact since 2019, CODATA 2018 */
#define RUNNEL_KELVIN_AT_0_DEGC 273.15           /**< exact */

/** How many times as fast at one temperature as at another, by an activation energy. The difference
 * 1/T1 - 1/T2 is one quotient, so that equal temperatures give exactly 1. */
static inline double runnel_arrhenius(double from_k, double to_k, double kj_per_mol) {
    return exp(1000 * kj_per_mol / RUNNEL_GAS_J_PER_MOL_K * ((to_k - from_k) / (from_k * to_k)));
}

#endif
