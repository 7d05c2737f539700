/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A cutter whose centre follows a path at constant depth.
 *
 * The depth at a point is the cutter's own profile at the distance d to the path, the nearest point
 * of the path being the one that cuts deepest there; crossings count once.
 */
#include "cavity/cut.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

/** A ball of radius r whose lowest point is h deep, h <= r. */
typedef struct ball {
    double r, lift; /**< lift: from the face up to the centre, r - h */
} ball;

/** int_0^m (sqrt(r^2 - t^2) - lift) dt. */
static double ball_segment(double m, const void *state) {
    const ball *b = state;
    double square = fmax(0, (b->r - m) * (b->r + m));
    return 0.5 * (m * sqrt(square) + b->r * b->r * atan2(m, sqrt(square))) - b->lift * m;
}

/** int_0^m (sqrt(r^2 - t^2) - lift) t dt. */
static double ball_fan(double m, const void *state) {
    const ball *b = state;
    double root = sqrt(fmax(0, (b->r - m) * (b->r + m)));
    /* (r^3 - root^3)/3 without cancellation for small m */
    double cubes = m * m * (b->r * b->r + b->r * root + root * root) / (b->r + root) / 3;
    return cubes - 0.5 * b->lift * m * m;
}

/** int_0^m r/sqrt(r^2 - t^2) dt: surface of the ball over its plan. */
static double ball_wall_segment(double m, const void *state) {
    const ball *b = state;
    return b->r * atan2(m, sqrt(fmax(0, (b->r - m) * (b->r + m))));
}

static double ball_wall_fan(double m, const void *state) {
    const ball *b = state;
    double root = sqrt(fmax(0, (b->r - m) * (b->r + m)));
    return b->r * m * m / (b->r + root);
}

static double round_volume(const runnel_compound *around, const runnel_cutter *cutter, double depth,
                           double *error) {
    double r = cutter->radius_mm, h = fmin(depth, r);
    double face = runnel_cutter_radius_at(cutter, depth, 0);
    ball b = {r, r - h};
    runnel_radial radial = {ball_segment, ball_fan, &b};
    return runnel_compound_radial(around, face, &radial, error) +
           (depth - h) * runnel_compound_moments(around, face).area;
}

static double v_volume(const runnel_compound *around, const runnel_cutter *cutter, double depth) {
    double rho = 0.5 * cutter->tip_mm, face = runnel_cutter_radius_at(cutter, depth, 0);
    double cotangent = depth / (face - rho);
    runnel_moments all = runnel_compound_moments(around, face);
    runnel_moments tip = runnel_compound_moments(around, rho);
    return depth * all.area - cotangent * (all.first - tip.first) +
           cotangent * rho * (all.area - tip.area);
}

static double volume(const runnel_compound *around, const runnel_cutter *cutter, double depth,
                     double *error) {
    *error = 0;
    if (cutter->kind == RUNNEL_CUTTER_V)
        return v_volume(around, cutter, depth);
    if (cutter->kind == RUNNEL_CUTTER_ROUND_NOSE)
        return round_volume(around, cutter, depth, error);
    return depth * runnel_compound_moments(around, cutter->radius_mm).area;
}

static double wall(const runnel_compound *around, const runnel_cutter *cutter, double depth) {
    double face = runnel_cutter_radius_at(cutter, depth, 0), ignored = 0;
    runnel_moments all = runnel_compound_moments(around, face);
    double border = all.length + all.angle * face;
    if (cutter->kind == RUNNEL_CUTTER_FLAT)
        return all.area + border * depth;
    if (cutter->kind == RUNNEL_CUTTER_V) {
        double tip = runnel_compound_moments(around, 0.5 * cutter->tip_mm).area;
        return tip + (all.area - tip) / sin(cutter->angle_deg * pi / 360);
    }
    ball b = {cutter->radius_mm, 0};
    runnel_radial radial = {ball_wall_segment, ball_wall_fan, &b};
    return runnel_compound_radial(around, face, &radial, &ignored) +
           border * fmax(0, depth - cutter->radius_mm);
}

/** Change per degree of included angle, as a central difference over at most one degree. */
static double per_degree(const runnel_compound *around, const runnel_cut *cut) {
    if (cut->cutter.kind != RUNNEL_CUTTER_V)
        return 0;
    runnel_cutter wider = cut->cutter, narrower = cut->cutter;
    double half = fmin(0.5, 0.5 * fmin(cut->cutter.angle_deg, 180 - cut->cutter.angle_deg));
    wider.angle_deg += half;
    narrower.angle_deg -= half;
    return (v_volume(around, &wider, cut->depth_mm) - v_volume(around, &narrower, cut->depth_mm)) /
           (2 * half);
}

/** Widest that any of the figures below asks for. */
static double needed_reach(const runnel_cut *cut) {
    runnel_cutter wider = cut->cutter;
    if (wider.kind == RUNNEL_CUTTER_V)
        wider.angle_deg += fmin(0.5, 0.5 * (180 - wider.angle_deg));
    return runnel_cutter_radius_at(&wider, cut->depth_mm + RUNNEL_DEPTH_STEP_MM, 0);
}

runnel_status runnel_cut_path(runnel_shape *shape, const runnel_cut *cut, runnel_cavity *f) {
    const runnel_compound *around = NULL;
    double depth = cut->depth_mm, step = RUNNEL_DEPTH_STEP_MM, ignored = 0;
    runnel_status status = runnel_shape_around(shape, needed_reach(cut), &around);
    if (status)
        return status;
    double face = runnel_cutter_radius_at(&cut->cutter, depth, 0);
    runnel_moments all = runnel_compound_moments(around, face);
    f->volume_mm3 = volume(around, &cut->cutter, depth, &f->volume_error_mm3);
    f->footprint_mm2 = all.area;
    f->perimeter_mm = all.length + all.angle * face;
    f->wall_mm2 = wall(around, &cut->cutter, depth);
    f->deepest_mm = depth;
    f->deepest_at = runnel_shape_start(shape);
    f->narrowest_mm = f->widest_mm = 2 * face;
    f->narrowest_at = f->deepest_at;
    f->depth_plus_mm3 = volume(around, &cut->cutter, depth + step, &ignored) - f->volume_mm3;
    f->depth_minus_mm3 =
        (depth > step ? volume(around, &cut->cutter, depth - step, &ignored) : 0) - f->volume_mm3;
    f->angle_mm3_per_degree = per_degree(around, cut);
    /* a line that stands off by the chord error moves the depth profile sideways: the change is at
     * most that times the fall of the profile, the depth, along the whole border */
    f->volume_error_mm3 += around->mismatch * around->area_mm2 * depth +
                           shape->region.flatten_mm * f->perimeter_mm * depth;
    return RUNNEL_OK;
}

runnel_status runnel_cut_path_section(runnel_shape *shape, const runnel_cut *cut, double level_mm,
                                      double *area_mm2) {
    const runnel_compound *around = NULL;
    runnel_status status = runnel_shape_around(shape, needed_reach(cut), &around);
    if (status)
        return status;
    double radius = runnel_cutter_radius_at(&cut->cutter, cut->depth_mm, level_mm);
    bool is_cut = level_mm <= cut->depth_mm;
    *area_mm2 = is_cut ? runnel_compound_moments(around, radius).area : 0;
    return RUNNEL_OK;
}
