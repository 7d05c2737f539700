/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Lists of polylines: outlines (closed contours) and paths (open or closed centre lines).
 */
#ifndef RUNNEL_CONTOURS_H
#define RUNNEL_CONTOURS_H

#include "runnel/status.h"

#include <stdbool.h>
#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/** A point of the plan, mm, y upwards. */
typedef struct runnel_point {
    double x_mm;
    double y_mm;
} runnel_point;

/** A box; empty when min > max. */
typedef struct runnel_box {
    double min_x_mm, min_y_mm, max_x_mm, max_y_mm;
} runnel_box;

/** One contour: points [first, first + count). A closed one does not repeat its first point. */
typedef struct runnel_contour {
    size_t first;
    size_t count;
    bool closed;
} runnel_contour;

/**
 * Contours and their points. Zero-initialised is empty; the caller owns it.
 * For an outline, orientation and nesting are free until runnel_outline_union has put them right.
 */
typedef struct runnel_contours {
    runnel_point *points;
    size_t point_count, point_capacity;
    runnel_contour *items;
    size_t count, capacity;
    double flatten_mm; /**< largest distance between a curve given and the chords kept; 0 = exact */
} runnel_contours;

/** Makes an empty list. */
void runnel_contours_init(runnel_contours *contours);

/** Frees all and leaves an empty list. */
void runnel_contours_clear(runnel_contours *contours);

/** Starts a contour; the points that follow belong to it. */
runnel_status runnel_contours_begin(runnel_contours *contours, bool closed);

/**
 * Adds a point to the last contour. A point equal to the one before it is left out.
 *
 * @return RUNNEL_OK; RUNNEL_E_SHAPE when no contour is begun; RUNNEL_E_RANGE for what is not
 * finite; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_contours_add(runnel_contours *contours, double x_mm, double y_mm);

/**
 * Adds a quadratic Bezier curve from the last point, as chords that stay within tolerance_mm (> 0).
 * Number of chords after the bound on the second derivative (de Boor, A Practical Guide to Splines:
 * the chord error is at most 1/8 of the step squared times the second derivative). The bound kept
 * in flatten_mm is that of the chords really made, never above the tolerance.
 *
 * @return RUNNEL_OK; RUNNEL_E_SHAPE when the last contour has no point to start from;
 * RUNNEL_E_RANGE for numbers that are not finite, a tolerance that is not positive, or more than
 * 2^20 chords; RUNNEL_E_NO_MEMORY. Nothing is added on failure.
 */
runnel_status runnel_contours_quadratic(runnel_contours *contours, runnel_point control,
                                        runnel_point end, double tolerance_mm);

/**
 * Adds a cubic Bezier curve from the last point, as chords that stay within tolerance_mm (> 0). The
 * chords are short where the curve bends and long where it does not: about as few as can do. Each
 * one's bound is proven from the control points of its piece of the curve; where that fails, the
 * steps are those of the quadratic curve. Errors as for the quadratic one.
 */
runnel_status runnel_contours_cubic(runnel_contours *contours, runnel_point control1,
                                    runnel_point control2, runnel_point end, double tolerance_mm);

/**
 * Adds a circular arc about `centre` from the last point through `sweep_deg` (counter-clockwise
 * positive, -360 to 360), as chords that stay within tolerance_mm (> 0) and span at most a quarter
 * turn each. The points lie on the circle; the last one is computed from the angle and is exactly
 * the first one again after a full turn. Errors as for the quadratic curve.
 */
runnel_status runnel_contours_arc(runnel_contours *contours, runnel_point centre, double sweep_deg,
                                  double tolerance_mm);

/** Closes the last contour: drops a last point that repeats the first, and marks it closed. */
void runnel_contours_close(runnel_contours *contours);

/**
 * Appends a copy of `from` (which may be `contours` itself), each point scaled about the origin and
 * then moved. flatten_mm grows to the scaled one of `from` if that is larger.
 *
 * @return RUNNEL_OK, RUNNEL_E_RANGE (numbers not finite), RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_contours_append(runnel_contours *contours, const runnel_contours *from,
                                     double scale, double dx_mm, double dy_mm);

/** Box of all points; empty box when there is none. */
runnel_box runnel_contours_box(const runnel_contours *contours);

/**
 * Signed area of all closed contours by the shoelace formula, mm2, compensated: counter-clockwise
 * ones count positive, clockwise ones negative, overlaps twice.
 */
double runnel_contours_area(const runnel_contours *contours);

/**
 * The region that the contours enclose by the non-zero rule, as simple rings without crossings:
 * outer rings counter-clockwise, holes clockwise. Robust noding and union are GEOS's.
 *
 * @param contours closed contours in any order and sense, may overlap and cross
 * @param region   an initialised list; replaced on success
 * @return RUNNEL_OK; RUNNEL_E_SHAPE when no area is left; RUNNEL_E_RANGE for points that are not
 *         finite; RUNNEL_E_NO_MEMORY; RUNNEL_E_NOT_COMPUTED
 */
runnel_status runnel_outline_union(const runnel_contours *contours, runnel_contours *region);

/**
 * The lines of a path, cut wherever they cross or touch, each piece once.
 *
 * @param path  open or closed polylines
 * @param lines an initialised list; replaced on success by open polylines that meet only at ends
 * @return as for the union; RUNNEL_E_SHAPE when no length is left
 */
runnel_status runnel_path_node(const runnel_contours *path, runnel_contours *lines);

/**
 * What lies within a distance of lines or of a region, or, with a negative distance, what of a
 * region is that far from its edge. For pictures: round parts become chords that stand off by up to
 * 0.06 % of the distance, and contours come as exact as GEOS's buffer has them. Volumes and areas
 * are those of runnel/cavity.h.
 *
 * @param from    a region as runnel_outline_union gives it, or with `is_path` any lines
 * @param region  an initialised list, which may be `from`; replaced on success
 * @return RUNNEL_OK; RUNNEL_E_SHAPE when nothing is left; RUNNEL_E_NO_MEMORY;
 *         RUNNEL_E_NOT_COMPUTED
 */
runnel_status runnel_contours_offset(const runnel_contours *from, bool is_path, double distance_mm,
                                     runnel_contours *region);

/**
 * Least distance between two shapes of the plan, 0 where they touch or overlap. A shape is the
 * region that its closed contours enclose by the non-zero rule, or with `is_path` the lines alone:
 * what lies in the middle of a closed path is not part of it. Contours of one point do not count.
 *
 * @param distance_mm 0 or more
 * @return RUNNEL_OK; RUNNEL_E_SHAPE when one of them has no line; RUNNEL_E_NO_MEMORY;
 *         RUNNEL_E_NOT_COMPUTED
 */
runnel_status runnel_contours_distance(const runnel_contours *one, bool one_is_path,
                                       const runnel_contours *other, bool other_is_path,
                                       double *distance_mm);

#ifdef __cplusplus
}
#endif
#endif
