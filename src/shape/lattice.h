/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Coordinates on a lattice of a power of two, so that moving a shape is exact and the side of a
 * line on which a point lies can be told without rounding.
 */
#ifndef RUNNEL_SHAPE_LATTICE_H
#define RUNNEL_SHAPE_LATTICE_H

#include "runnel/contours.h"

#include <math.h>
#include <stdint.h>

/** Far below what any cutter or any chord comes near: 0.9e-12 mm. */
#define RUNNEL_FINEST_LATTICE_MM 0x1p-40
/** Coordinates are fewer steps than this, so that their differences fit into 53 bits. */
#define RUNNEL_MOST_STEPS 0x1p52

/** The finest step on which coordinates up to `farthest_mm` (finite) can stand. */
static inline double runnel_lattice_step(double farthest_mm) {
    double step = RUNNEL_FINEST_LATTICE_MM;
    while (!(farthest_mm < step * RUNNEL_MOST_STEPS))
        step *= 2;
    return step;
}

/** The place on the lattice that is nearest to a point. */
static inline runnel_point runnel_on_lattice(runnel_point point, double step_mm) {
    return (runnel_point){nearbyint(point.x_mm / step_mm) * step_mm,
                          nearbyint(point.y_mm / step_mm) * step_mm};
}

/** A point counted in steps. */
typedef struct runnel_steps_point {
    int64_t x, y;
} runnel_steps_point;

static inline runnel_steps_point runnel_steps_of(runnel_point point, double step_mm) {
    return (runnel_steps_point){(int64_t)(point.x_mm / step_mm), (int64_t)(point.y_mm / step_mm)};
}

__extension__ typedef __int128 runnel_wide;

/** Twice the signed area of a triangle in square steps, exact: positive when c lies on the left of
 * the way from a to b. */
static inline runnel_wide runnel_turn(runnel_steps_point a, runnel_steps_point b,
                                      runnel_steps_point c) {
    return (runnel_wide)(b.x - a.x) * (c.y - a.y) - (runnel_wide)(c.x - a.x) * (b.y - a.y);
}

#endif
