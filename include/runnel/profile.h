/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The distance profile of a shape: everything that an integral of a function of distance needs.
 *
 * For a boundary point p with unit normal n into the domain, m(p) is the radius of the largest disc
 * that touches the boundary at p from that side and holds no other boundary point. Each point of
 * the domain lies on exactly one such normal but for a set without area, so for any f
 *
 *     integral of f(d) dA = sum over segments of int ds int_0^m f(t) dt
 *                         + sum over reflex corners of int dtheta int_0^m f(t) t dt.
 *
 * The profile is m, as pieces with closed forms. It is computed once for a shape and serves every
 * cutter angle, depth limit and level.
 */
#ifndef RUNNEL_PROFILE_H
#define RUNNEL_PROFILE_H

#include "runnel/contours.h"
#include "runnel/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Opaque; made by the functions below, freed by runnel_profile_free. */
typedef struct runnel_profile runnel_profile;

/**
 * Profile of the inside of a region.
 *
 * @param region simple rings as runnel_outline_union leaves them: each outer ring,
 *               counter-clockwise, followed by its holes, clockwise; no crossings; rings may touch
 *               at common corners. Not checked here, but a ring that crosses itself or its holes
 *               shows as an area mismatch: RUNNEL_E_IDENTITY. Outer rings that overlap each other
 *               count twice.
 */
runnel_status runnel_profile_inside(const runnel_contours *region, runnel_profile **profile);

/**
 * Profile of the outside of a region, up to a distance.
 * @param reach_mm largest distance that will be asked for, > 0
 */
runnel_status runnel_profile_outside(const runnel_contours *region, double reach_mm,
                                     runnel_profile **profile);

/**
 * Profile around lines, on all sides, up to a distance.
 * @param lines as runnel_path_node leaves them: open polylines that meet only at their ends
 */
runnel_status runnel_profile_path(const runnel_contours *lines, double reach_mm,
                                  runnel_profile **profile);

/** Exact profiles of shapes with circular arcs: the circle of a radius and the rectangle
 * width x height with rounded corners, as region (inside, outside) or as closed line. */
typedef enum runnel_profile_side {
    RUNNEL_SIDE_INSIDE,
    RUNNEL_SIDE_OUTSIDE,
    RUNNEL_SIDE_BOTH /**< around the line itself */
} runnel_profile_side;

/**
 * @param width_mm,height_mm size, > 0
 * @param radius_mm corner radius, 0 < radius <= half the shorter side (equal for a slot or circle)
 * @param reach_mm  limit of the outside, ignored for the inside
 */
runnel_status runnel_profile_rounded_rectangle(double width_mm, double height_mm, double radius_mm,
                                               runnel_profile_side side, double reach_mm,
                                               runnel_profile **profile);

/** Frees a profile; NULL is allowed. */
void runnel_profile_free(runnel_profile *profile);

/** Area of the domain that the profile covers (up to the reach), mm2, from the pieces. */
double runnel_profile_area_mm2(const runnel_profile *profile);

/**
 * Relative mismatch of the area identity: the area from the pieces against the area that the
 * boundary encloses (shoelace), or against the area inside the offset curve at the reach. It bounds
 * the relative error of the profile. Where the areas did not agree before each corner was moved by
 * a hair (from 1e-11 to 1e-9 of the farthest coordinate), the share that the border swept is added.
 */
double runnel_profile_mismatch(const runnel_profile *profile);

/** Largest m, mm, and where (centre of the largest disc). Infinite m counts as the reach. */
double runnel_profile_widest(const runnel_profile *profile, runnel_point *at);

/**
 * Least m, mm, on the medial axis where the walls run within 30 degrees of parallel, and where; the
 * branches into corners do not count. The widest place where there is none.
 */
double runnel_profile_narrowest(const runnel_profile *profile, runnel_point *at);

/** Number of boundary segments and of pieces. */
size_t runnel_profile_segments(const runnel_profile *profile);
size_t runnel_profile_pieces(const runnel_profile *profile);

/** Area of the points farther than t from the boundary, mm2, and the length of their border, mm. */
double runnel_profile_beyond_mm2(const runnel_profile *profile, double t_mm);
double runnel_profile_border_mm(const runnel_profile *profile, double t_mm);

/** A stroke, or a portion of one, that is no wider than a limit. */
typedef struct runnel_thin_stroke {
    runnel_point at;  /**< middle of its narrowest place */
    double width_mm;  /**< there, from wall to wall */
    double length_mm; /**< of its centre line, as far as it is so narrow; 0 for a dot */
} runnel_thin_stroke;

/** Such strokes. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_thin_strokes {
    runnel_thin_stroke *items;
    size_t count, capacity;
} runnel_thin_strokes;

/** Frees all and leaves an empty list. NULL is allowed. */
void runnel_thin_strokes_clear(runnel_thin_strokes *strokes);

/**
 * Finds what an inset by `below_mm` leaves nothing of: the places where m is at most that, each
 * connected one once. Counted are places where the walls run within 30 degrees of parallel, and
 * whole parts of the region, such as the dot of an i; of a whole part without such walls the width
 * is the greatest one. The branches into corners alone do not count. Order: that of the rings.
 *
 * @param profile  of an inside
 * @param from_mm  least m of interest, >= 0: narrower places count as not there
 * @param below_mm at least from_mm; INFINITY for all strokes
 * @param strokes  replaced on success
 * @return RUNNEL_OK; RUNNEL_E_RANGE, also for a profile with a reach; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_profile_thin_strokes(const runnel_profile *profile, double from_mm,
                                          double below_mm, runnel_thin_strokes *strokes);

#ifdef __cplusplus
}
#endif
#endif
