/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Where the sectors that a tip sweeps at the corners of its centres' set overlap.
 *
 * At a neck between two wider places the set falls apart into two, whose corners face each other:
 * the sectors of radius rho around them, or a sector and the band along a side, may overlap and
 * must not count twice. A disc that touches the set at a corner from outside grows until it touches
 * the set elsewhere; what of the sector lies beyond its centre belongs to that other place.
 */
#ifndef RUNNEL_SHAPE_OVERLAP_H
#define RUNNEL_SHAPE_OVERLAP_H

#include "shape/pieces.h"

/** The set of centres at one sigma: its corners, sides and arcs. Opaque; zeroed is empty. */
typedef struct runnel_centres {
    struct runnel_centre_corner *corners;
    size_t corner_count, corner_capacity;
    struct runnel_centre_side *sides;
    size_t side_count, side_capacity;
    double sigma;
} runnel_centres;

/** A part of the set: of some pieces only, and of their corners those that are wanted. */
typedef struct runnel_centre_choice {
    const size_t *pieces;
    size_t count;
    bool (*wants)(runnel_point corner, double sigma_mm, const void *state);
    const void *state;
} runnel_centre_choice;

/** Collects the set, or what is chosen of it; for exact shapes, which have no necks, it stays
 * empty.
 * @param choice NULL for all */
runnel_status runnel_centres_collect(const runnel_profile *profile, double sigma_mm,
                                     const runnel_centre_choice *choice, runnel_centres *centres);
void runnel_centres_clear(runnel_centres *centres);

/** Area counted twice by sectors of radius rho <= sigma, mm2; closely, or well enough for a summand
 * of an integral over many levels. */
double runnel_centres_overlap(const runnel_centres *centres, double rho_mm, bool closely);

/** Both at once, closely. */
runnel_status runnel_overlap_area(const runnel_profile *profile, double sigma_mm, double rho_mm,
                                  double *area_mm2);

/** Length of the sectors' arcs that lie within another place, mm. */
runnel_status runnel_overlap_border(const runnel_profile *profile, double sigma_mm, double rho_mm,
                                    double *length_mm);

/** int_0^wide of the overlap at sigma = rho + tau, d tau, and the quadrature's error. */
runnel_status runnel_overlap_volume(const runnel_profile *profile, double rho_mm, double wide_mm,
                                    double *value_mm3, double *error_mm3);

#endif
