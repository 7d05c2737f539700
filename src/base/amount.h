/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Checks of numbers that come in, the same in every layer.
 */
#ifndef RUNNEL_BASE_AMOUNT_H
#define RUNNEL_BASE_AMOUNT_H

#include <math.h>
#include <stdbool.h>

/** Finite and above 0. */
static inline bool runnel_is_positive(double value) {
    return isfinite(value) && value > 0;
}

/** Finite and 0 or more. */
static inline bool runnel_is_amount(double value) {
    return isfinite(value) && value >= 0;
}

/** A share that leaves something: 0 or more and below 1. */
static inline bool runnel_is_share(double value) {
    return value >= 0 && value < 1;
}

#endif
