/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The equivalent age along a temperature that changes, piece by piece.
 */
#ifndef RUNNEL_RESIN_CURE_WALK_H
#define RUNNEL_RESIN_CURE_WALK_H

#include "runnel/cure.h"

/** Where a walk stands. Open, owned by the caller. */
typedef struct runnel_cure_walk {
    const runnel_cure_law *law;
    double stated_s[RUNNEL_CURE_MOMENTS];
    double at_s; /**< time since the pour */
    double age_s, age_carry_s;
    double stood_s;
    double reached_s[RUNNEL_CURE_MOMENTS]; /**< INFINITY until it is reached */
    double reached_stood_s[RUNNEL_CURE_MOMENTS];
    double coldest_degc, warmest_degc, warmest_to_gel_degc;
    unsigned left;     /**< moments that are still looked for, as bits */
    double next_s;     /**< least stated time of these */
    double speed;      /**< at the end of the last piece ... */
    double speed_degc; /**< ... which had this temperature */
} runnel_cure_walk;

/** Begins at the pour. @param wanted the moments to look for, as bits; those that are not stated
 * are left out */
void runnel_cure_walk_begin(runnel_cure_walk *walk, const runnel_cure_law *law,
                            const runnel_resin *resin, unsigned wanted, double degc);

/** Goes on to `to_s`, over a temperature that follows a parabola through start, middle and end, and
 * between start and end neither rises above nor falls below both of them by much. */
void runnel_cure_walk_piece(runnel_cure_walk *walk, double to_s, double from_degc,
                            double middle_degc, double to_degc);

#endif
