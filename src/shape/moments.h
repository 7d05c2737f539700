/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Sums over a profile, from which every volume and area follows.
 *
 * Everything is split into what comes from segments (weight 1) and from fans (weight t).
 */
#ifndef RUNNEL_SHAPE_MOMENTS_H
#define RUNNEL_SHAPE_MOMENTS_H

#include "shape/pieces.h"

/** Sums over the points nearer to the boundary than T, and what stands beyond. */
typedef struct runnel_moments {
    double area;      /**< int over d < T of dA, mm2 */
    double first;     /**< int over d < T of d dA, mm3 */
    double fan_first; /**< the fans' part of `first` */
    double length;    /**< length of segment whose m >= T, mm */
    double angle;     /**< angle of fan whose m >= T, rad */
    double beyond;    /**< int over d > T of dA, mm2; not finite when nothing bounds m */
} runnel_moments;

/** Sums up to T >= 0; T beyond the reach is cut to it. */
runnel_moments runnel_profile_moments(const runnel_profile *profile, double t_mm);

/** int_0^m of a radial function, for a segment (weight 1) and a fan (weight t). */
typedef struct runnel_radial {
    double (*segment)(double m, const void *state);
    double (*fan)(double m, const void *state);
    const void *state;
} runnel_radial;

/** int over d < T of f(d) dA for a function given by its two antiderivatives, and a bound of the
 * quadrature error. */
double runnel_profile_radial(const runnel_profile *profile, double t_mm,
                             const runnel_radial *radial, double *error);

#endif
