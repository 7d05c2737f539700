/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shape/pieces.h"
#include "shape/trace.h"

#include <math.h>

/** A rectangle width x height with rounded corners, its lower left one at (-out, -out) before
 * rounding; clockwise as a hole. */
static runnel_status add_rounded(double out, double width, double height, double radius,
                                 bool is_hole, double chord, runnel_contours *rings) {
    const double x[] = {width - radius, width - radius, radius, radius};
    const double y[] = {radius, height - radius, height - radius, radius};
    const double dx[] = {0, 1, 0, -1, 0}, dy[] = {-1, 0, 1, 0, -1}; /* to where the arc begins */
    runnel_status status = runnel_contours_begin(rings, true);
    for (size_t k = 0; k < 4 && !status; k++) {
        size_t i = is_hole ? 3 - k : k, start = is_hole ? i + 1 : i;
        runnel_point centre = {x[i] - out, y[i] - out};
        status = runnel_contours_add(rings, centre.x_mm + radius * dx[start],
                                     centre.y_mm + radius * dy[start]);
        if (!status)
            status = runnel_contours_arc(rings, centre, is_hole ? -90 : 90, chord);
    }
    if (!status)
        runnel_contours_close(rings);
    return status;
}

runnel_status runnel_rounded_trace(double width_mm, double height_mm, double radius_mm,
                                   runnel_profile_side side, double in_mm, double out_mm,
                                   double chord_mm, runnel_contours *region) {
    bool is_inside = side == RUNNEL_SIDE_INSIDE;
    double half = 0.5 * fmin(width_mm, height_mm), less = in_mm - out_mm, more = out_mm;
    bool is_shape = width_mm > 0 && height_mm > 0 && radius_mm > 0 && radius_mm <= half &&
                    isfinite(width_mm) && isfinite(height_mm);
    bool is_within = is_inside ? out_mm >= 0 && less >= 0 && isfinite(in_mm)
                               : in_mm == 0 && out_mm > 0 && isfinite(out_mm);
    if (!is_shape || !is_within || !(chord_mm > 0))
        return RUNNEL_E_RANGE;
    if (is_inside && (runnel_fitting(in_mm) > half || less >= half))
        return RUNNEL_E_SHAPE;
    runnel_contours rings = {0};
    runnel_status status =
        is_inside ? add_rounded(-less, width_mm - 2 * less, height_mm - 2 * less,
                                fmax(radius_mm - in_mm, 0) + out_mm, false, chord_mm, &rings)
                  : add_rounded(more, width_mm + 2 * more, height_mm + 2 * more, radius_mm + more,
                                false, chord_mm, &rings);
    if (!status && side == RUNNEL_SIDE_BOTH && more < half)
        status = add_rounded(-more, width_mm - 2 * more, height_mm - 2 * more,
                             fmax(radius_mm - more, 0), true, chord_mm, &rings);
    if (status) {
        runnel_contours_clear(&rings);
        return status;
    }
    runnel_contours_clear(region);
    *region = rings;
    return RUNNEL_OK;
}
