/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cavity/cut.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

static double half_tangent(const runnel_cutter *cutter) {
    return tan(cutter->angle_deg * pi / 360);
}

double runnel_cutter_radius_at(const runnel_cutter *cutter, double depth, double level) {
    double above = depth - level; /* above the tip */
    if (above < 0)
        return 0;
    switch (cutter->kind) {
    case RUNNEL_CUTTER_V:
        return 0.5 * cutter->tip_mm + above * half_tangent(cutter);
    case RUNNEL_CUTTER_ROUND_NOSE:
        if (above >= cutter->radius_mm)
            return cutter->radius_mm;
        return sqrt(above * (2 * cutter->radius_mm - above));
    case RUNNEL_CUTTER_FLAT:
        return cutter->radius_mm;
    case RUNNEL_CUTTER_NONE:
        break;
    }
    return 0;
}

double runnel_cutter_face_radius_mm(const runnel_cutter *cutter, double depth_mm) {
    return runnel_cutter_radius_at(cutter, depth_mm, 0);
}

/** Ball of radius r up to height h <= r above its lowest point, then a straight shank. */
static runnel_cutter_sums round_sums(double r, double depth) {
    double h = fmin(depth, r), shank = depth - h;
    double y = r - h; /* from the centre down to the level of the face, 0 when h = r */
    double quarter = 0.5 * (r * r * acos(y / r) - y * sqrt(fmax(0, (r - y) * (r + y))));
    return (runnel_cutter_sums){
        .first = quarter + r * shank,
        .second = h * h * (r - h / 3) + r * r * shank, /* cap volume over pi */
        .side = r * acos(y / r) + shank,
        .side_first = r * h + r * shank, /* Archimedes: a zone's area is 2 pi r h */
    };
}

runnel_cutter_sums runnel_cutter_sums_of(const runnel_cutter *cutter, double depth) {
    double rho = 0.5 * cutter->tip_mm;
    switch (cutter->kind) {
    case RUNNEL_CUTTER_V: {
        double slope = half_tangent(cutter), top = rho + depth * slope;
        double side = depth * sqrt(1 + slope * slope);
        return (runnel_cutter_sums){.first = 0.5 * depth * (rho + top),
                                    .second = depth * (rho * rho + rho * top + top * top) / 3,
                                    .side = side,
                                    .side_first = side * 0.5 * (rho + top)};
    }
    case RUNNEL_CUTTER_ROUND_NOSE:
        return round_sums(cutter->radius_mm, depth);
    case RUNNEL_CUTTER_FLAT: {
        double r = cutter->radius_mm;
        return (runnel_cutter_sums){r * depth, r * r * depth, depth, r * depth};
    }
    case RUNNEL_CUTTER_NONE:
        break;
    }
    return (runnel_cutter_sums){0};
}
