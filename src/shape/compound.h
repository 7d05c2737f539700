/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The profile of a region or path whose patches stand in many places: the distinct profiles, and
 * how often each counts.
 *
 * Inside a region a patch has nothing to do with any other. Around it, another patch matters where
 * it lies within twice the reach: patches that see the same others in the same places share one
 * profile. Every sum over the whole is the sum of count times part.
 */
#ifndef RUNNEL_SHAPE_COMPOUND_H
#define RUNNEL_SHAPE_COMPOUND_H

#include "shape/moments.h"
#include "shape/opening.h"
#include "shape/region.h"

/** One of the distinct profiles. */
typedef struct runnel_compound_part {
    const runnel_profile *profile;
    runnel_kept *kept;     /**< by which it is borrowed, or */
    runnel_profile *owned; /**< itself */
    double count;          /**< how many prints have it */
} runnel_compound_part;

/** Where a profile stands. */
typedef struct runnel_compound_print {
    size_t part;
    double dx_mm, dy_mm;
} runnel_compound_print;

/** The whole. Zero-initialised is empty. */
typedef struct runnel_compound {
    runnel_compound_part *parts;
    size_t part_count;
    runnel_compound_print *prints;
    size_t print_count;
    double reach_mm; /**< infinite for an inside */
    double area_mm2; /**< of the domain, within reach */
    double mismatch; /**< relative, of the area identity over the whole */
    runnel_medial widest, narrowest;
} runnel_compound;

/** The inside of a region. @return as runnel_profile_inside */
runnel_status runnel_compound_inside(const runnel_region *region, runnel_compound *compound);

/** The outside of a region, or both sides of a path, up to a reach. @return as
 * runnel_profile_outside */
runnel_status runnel_compound_around(const runnel_region *region, double reach_mm,
                                     runnel_compound *compound);

/** One profile by itself; owned by the compound on success. */
runnel_status runnel_compound_of(runnel_profile *profile, runnel_compound *compound);

void runnel_compound_clear(runnel_compound *compound);

/** Sums over the whole; see the functions that they are named after. */
runnel_moments runnel_compound_moments(const runnel_compound *compound, double t_mm);
double runnel_compound_radial(const runnel_compound *compound, double t_mm,
                              const runnel_radial *radial, double *error);
runnel_opening runnel_compound_opening(const runnel_compound *compound, double sigma_mm);
runnel_rise runnel_compound_rise(const runnel_compound *compound, double rho_mm, double upper_mm,
                                 double cotangent);
runnel_status runnel_compound_overlap_area(const runnel_compound *compound, double sigma_mm,
                                           double rho_mm, double *area_mm2);
runnel_status runnel_compound_overlap_border(const runnel_compound *compound, double sigma_mm,
                                             double rho_mm, double *length_mm);
runnel_status runnel_compound_overlap_volume(const runnel_compound *compound, double rho_mm,
                                             double wide_mm, double *value_mm3, double *error_mm3);

/** Thin strokes of all prints, in the order of the prints. */
runnel_status runnel_compound_thin_strokes(const runnel_compound *compound, double from_mm,
                                           double below_mm, runnel_thin_strokes *strokes);
/** How many there are. */
runnel_status runnel_compound_count_strokes(const runnel_compound *compound, double from_mm,
                                            double below_mm, size_t *count);

#endif
