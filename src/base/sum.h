/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Compensated summation (Neumaier 1974): the error of a sum does not grow with the number of terms.
 */
#ifndef RUNNEL_BASE_SUM_H
#define RUNNEL_BASE_SUM_H

/** A running sum; zero-initialised is 0. */
typedef struct runnel_sum {
    double total;
    double carry;
} runnel_sum;

/** Adds one term. */
static inline void runnel_sum_add(runnel_sum *sum, double term) {
    double next = sum->total + term;
    double big = sum->total, small = term;
    if ((big < 0 ? -big : big) < (small < 0 ? -small : small)) {
        big = term;
        small = sum->total;
    }
    sum->carry += (big - next) + small;
    sum->total = next;
}

/** The value so far. */
static inline double runnel_sum_value(const runnel_sum *sum) {
    return sum->total + sum->carry;
}

#endif
