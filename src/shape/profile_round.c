/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Exact profiles of the circle and of the rectangle with rounded corners.
 *
 * A normal of an arc of radius R sweeps (R + t) dphi dt outside the arc and (R - t) dphi dt inside
 * it, up to its centre: the same as a segment of the arc's length and a fan of the arc's angle, the
 * latter counted negative inside. So arcs need no piece of their own.
 */
#include "base/memory.h"
#include "shape/moments.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

static void add(runnel_profile *profile, runnel_piece_kind kind, double extent, double m) {
    runnel_piece *piece = &profile->pieces[profile->count++];
    *piece =
        (runnel_piece){.kind = kind, .extent = extent, .x0 = m, .x1 = m, .stop = RUNNEL_STOP_NONE};
    runnel_piece_finish(piece);
}

/** A straight part of a side over which m rises from `low` to `high` at 45 degrees. */
static void add_slope(runnel_profile *profile, double low, double high) {
    if (!(high > low))
        return;
    runnel_piece *piece = &profile->pieces[profile->count++];
    *piece = (runnel_piece){.kind = RUNNEL_PIECE_LINE,
                            .from = 0,
                            .to = high - low,
                            .x0 = low,
                            .x1 = high,
                            .h = pi / 2,
                            .stop = RUNNEL_STOP_NONE};
    runnel_piece_finish(piece);
}

/** The outside: four sides and a full turn of arc, free of each other. */
static void add_outside(runnel_profile *profile, double width, double height, double radius) {
    double straight = 2 * (width + height) - 8 * radius;
    add(profile, RUNNEL_PIECE_CONST, straight + 2 * pi * radius, INFINITY);
    add(profile, RUNNEL_PIECE_FAN_CONST, 2 * pi, INFINITY);
}

/** The inside: normals of the arcs end at their centres; along the sides m rises from the radius to
 * half the shorter side, where it stays on the longer ones. */
static void add_inside(runnel_profile *profile, double width, double height, double radius) {
    double half = 0.5 * fmin(width, height), rest = fabs(width - height);
    add(profile, RUNNEL_PIECE_CONST, 2 * pi * radius, radius);
    add(profile, RUNNEL_PIECE_FAN_CONST, -2 * pi, radius);
    for (int i = 0; i < 8; i++)
        add_slope(profile, radius, half);
    if (rest > 0)
        add(profile, RUNNEL_PIECE_CONST, 2 * rest, half);
}

runnel_status runnel_profile_rounded_rectangle(double width_mm, double height_mm, double radius_mm,
                                               runnel_profile_side side, double reach_mm,
                                               runnel_profile **profile) {
    double half = 0.5 * fmin(width_mm, height_mm);
    if (!(width_mm > 0) || !(height_mm > 0) || !(radius_mm > 0) || !(radius_mm <= half) ||
        !isfinite(width_mm) || !isfinite(height_mm) ||
        (side != RUNNEL_SIDE_INSIDE && (!(reach_mm > 0) || !isfinite(reach_mm))))
        return RUNNEL_E_RANGE;
    runnel_profile *made = runnel_zeroed(1, sizeof *made);
    if (made)
        made->pieces = runnel_zeroed(16, sizeof *made->pieces);
    if (!made || !made->pieces) {
        runnel_profile_free(made);
        return RUNNEL_E_NO_MEMORY;
    }
    made->reach_mm = side == RUNNEL_SIDE_INSIDE ? INFINITY : reach_mm;
    if (side != RUNNEL_SIDE_OUTSIDE)
        add_inside(made, width_mm, height_mm, radius_mm);
    if (side != RUNNEL_SIDE_INSIDE)
        add_outside(made, width_mm, height_mm, radius_mm);
    made->segments = 8;
    made->widest = (runnel_medial){half, {0.5 * width_mm, 0.5 * height_mm}};
    made->narrowest = made->widest;
    runnel_status status = runnel_profile_finish(made);
    if (status) {
        runnel_profile_free(made);
        return status;
    }
    made->area_mm2 = runnel_profile_moments(made, made->reach_mm).area;
    *profile = made;
    return RUNNEL_OK;
}
