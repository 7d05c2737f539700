/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What a disc of some size can reach inside a region: the opening of the region by the disc.
 *
 * A disc whose centre keeps sigma away from the boundary reaches, along the normals with m >=
 * sigma, everything up to the boundary less what its own radius lacks; where the set of centres has
 * a corner, which lies on the medial axis with m = sigma, it sweeps a sector there. The turn of a
 * corner is the angle psi between the two normals that meet in it. Each corner shows in two pieces,
 * one of either wall, so each counts half.
 */
#ifndef RUNNEL_SHAPE_OPENING_H
#define RUNNEL_SHAPE_OPENING_H

#include "shape/pieces.h"

/** Sums over the normals with m >= sigma, and the turns of the corners at m = sigma. */
typedef struct runnel_opening {
    double area;   /**< int_0^m w dt over those normals, mm2 */
    double length; /**< mm */
    double angle;  /**< rad, of fans */
    double turn;   /**< sum of psi, rad */
} runnel_opening;

/** Sums at one sigma >= 0. */
runnel_opening runnel_profile_opening(const runnel_profile *profile, double sigma_mm);

/** Sums over the normals with rho <= m <= rho + T, for a V cutter with a tip of radius rho whose
 * centre rises with m. All plain integrals over the normals' feet. */
typedef struct runnel_rise {
    double depth_volume; /**< int dm-limited int_0^m min(t, m - rho) w dt, mm3 (times 1/tan a =
                            volume) */
    double sector; /**< (1/2) int psi dm over the medial axis, rad mm, each wall counting half */
    double slope_area; /**< plan area with t <= m - rho */
    double ridge_area; /**< plan area with t >= m - rho */
    double ridge_wall; /**< the same, each part times sqrt(1 + (cos(psi/2) / tan a)^2) */
} runnel_rise;

runnel_rise runnel_profile_rise(const runnel_profile *profile, double rho_mm, double upper_mm,
                                double cotangent);

#endif
