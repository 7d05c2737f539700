/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What rings and other runs of points are asked for everywhere.
 */
#ifndef RUNNEL_SHAPE_POINTS_H
#define RUNNEL_SHAPE_POINTS_H

#include "base/sum.h"
#include "runnel/contours.h"

#include <math.h>

/** The box of points; empty when there is none. */
static inline runnel_box runnel_points_box(const runnel_point *points, size_t count) {
    runnel_box box = {INFINITY, INFINITY, -INFINITY, -INFINITY};
    for (size_t i = 0; i < count; i++) {
        box.min_x_mm = fmin(box.min_x_mm, points[i].x_mm);
        box.min_y_mm = fmin(box.min_y_mm, points[i].y_mm);
        box.max_x_mm = fmax(box.max_x_mm, points[i].x_mm);
        box.max_y_mm = fmax(box.max_y_mm, points[i].y_mm);
    }
    return box;
}

/** The smallest box around two. */
static inline runnel_box runnel_both_boxes(runnel_box a, runnel_box b) {
    return (runnel_box){fmin(a.min_x_mm, b.min_x_mm), fmin(a.min_y_mm, b.min_y_mm),
                        fmax(a.max_x_mm, b.max_x_mm), fmax(a.max_y_mm, b.max_y_mm)};
}

/** Signed area of a closed ring, mm2, compensated; counter-clockwise is positive. */
static inline double runnel_points_area(const runnel_point *points, size_t count) {
    runnel_sum sum = {0};
    for (size_t i = 0; i < count; i++) {
        runnel_point a = points[i], b = points[i + 1 < count ? i + 1 : 0];
        runnel_sum_add(&sum, 0.5 * ((a.x_mm - points[0].x_mm) * (b.y_mm - points[0].y_mm) -
                                    (b.x_mm - points[0].x_mm) * (a.y_mm - points[0].y_mm)));
    }
    return runnel_sum_value(&sum);
}

/** Adds a copy of one contour of another list, moved. @return RUNNEL_OK or RUNNEL_E_NO_MEMORY, or
 * RUNNEL_E_RANGE for what is not finite */
runnel_status runnel_contours_add_moved(runnel_contours *to, const runnel_contours *from,
                                        size_t index, double dx_mm, double dy_mm);

#endif
