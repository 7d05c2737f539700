/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The three rules of cutting behind runnel/cavity.h.
 */
#ifndef RUNNEL_CAVITY_CUT_H
#define RUNNEL_CAVITY_CUT_H

#include "runnel/cavity.h"
#include "shape/compound.h"

/** A shape and the profiles made so far. */
struct runnel_shape {
    bool is_path;
    bool is_rounded; /**< exact, by the three sizes; else by patches */
    double width_mm, height_mm, radius_mm;
    runnel_region region;
    runnel_box box;
    runnel_compound inside; /**< without parts as long as nobody has asked for it */
    runnel_compound around; /**< outside of the region, or both sides of the path; likewise */
    double least_reach_mm;  /**< of `around` */
};

/** Change of depth for which the figures of a cavity tell the change of volume. */
#define RUNNEL_DEPTH_STEP_MM 0.1

/** The inside of a region, made at the first call; borrowed. */
runnel_status runnel_shape_inside(runnel_shape *shape, const runnel_compound **inside);

/** The outside of a region or the surroundings of a path, at least up to a reach; borrowed, good
 * until the next call with a larger reach. */
runnel_status runnel_shape_around(runnel_shape *shape, double reach_mm,
                                  const runnel_compound **around);

/** First corner of the path. */
runnel_point runnel_shape_start(const runnel_shape *shape);

/** Radius of a cutter that runs `depth_mm` deep, `level_mm` below the face; 0 below the tip. */
double runnel_cutter_radius_at(const runnel_cutter *cutter, double depth_mm, double level_mm);

/** How the section of a cut inside an outline comes from the outline: an inset by `lack` of what
 * discs of radius `disc` can reach with their centres `centres` from the edge. */
typedef struct runnel_section_terms {
    double centres; /**< distance of the cutter's centres from the outline */
    double disc;    /**< radius of the cutter at the level */
    double lack;    /**< what it stands off the outline by */
    double least;   /**< least m that is cut at the face */
} runnel_section_terms;
runnel_section_terms runnel_section_terms_of(const runnel_cut *cut, double level_mm);

/** Integrals over the depth of a cutter with radius rho(z) below the face. */
typedef struct runnel_cutter_sums {
    double first;      /**< int rho dz, mm2 */
    double second;     /**< int rho^2 dz, mm3 */
    double side;       /**< arc length of the side, int dl, mm */
    double side_first; /**< int rho dl, mm2; both without the flat at the tip */
} runnel_cutter_sums;
runnel_cutter_sums runnel_cutter_sums_of(const runnel_cutter *cutter, double depth_mm);

/** Strokes, or portions of them, that a cutter of a radius cannot enter. One that it just fits is
 * entered. */
runnel_status runnel_cut_places(const runnel_compound *inside, double radius_mm, size_t *places);

runnel_status runnel_cut_walls(runnel_shape *shape, const runnel_cut *cut, runnel_cavity *figures);
runnel_status runnel_cut_pocket(runnel_shape *shape, const runnel_cut *cut, runnel_cavity *figures);
runnel_status runnel_cut_path(runnel_shape *shape, const runnel_cut *cut, runnel_cavity *figures);
runnel_status runnel_cut_walls_section(runnel_shape *shape, const runnel_cut *cut, double level_mm,
                                       double *area_mm2);
runnel_status runnel_cut_walls_above(runnel_shape *shape, const runnel_cut *cut, double level_mm,
                                     double *volume_mm3);
runnel_status runnel_cut_pocket_section(runnel_shape *shape, const runnel_cut *cut, double level_mm,
                                        double *area_mm2);
runnel_status runnel_cut_path_section(runnel_shape *shape, const runnel_cut *cut, double level_mm,
                                      double *area_mm2);

#endif
