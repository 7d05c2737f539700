/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A pocket of constant depth, cleared inside an outline by any cutter.
 *
 * The centre keeps away from the outline by the cutter's radius at the face, w. With the radius
 * rho(z) at level z the section is the set of centres grown by rho(z): along the normals with m >=
 * w what lies beyond w - rho, and at the corners of the set sectors of radius rho.
 */
#include "cavity/cut.h"
#include "numeric/quadrature.h"
#include "shape/overlap.h"

#include <math.h>

static runnel_status section(const runnel_compound *inside, const runnel_cut *cut, double level,
                             double *area) {
    double face = runnel_cutter_radius_at(&cut->cutter, cut->depth_mm, 0);
    double rho = runnel_cutter_radius_at(&cut->cutter, cut->depth_mm, level);
    double lack = face - rho, overlap = 0;
    if (level > cut->depth_mm) {
        *area = 0;
        return RUNNEL_OK;
    }
    runnel_opening o = runnel_compound_opening(inside, face);
    runnel_status status = runnel_compound_overlap_area(inside, face, rho, &overlap);
    if (!status)
        *area = o.area - lack * o.length - 0.5 * lack * lack * o.angle + 0.5 * rho * rho * o.turn -
                overlap;
    return status;
}

/** Integration of the overlap over the depth. */
typedef struct levels {
    const runnel_centres *centres;
    const runnel_cutter *cutter;
    double depth;
} levels;

static double overlap_at(double level, void *state) {
    const levels *l = state;
    return runnel_centres_overlap(l->centres, runnel_cutter_radius_at(l->cutter, l->depth, level),
                                  true);
}

/** Volume that the sectors at necks count twice in one of the distinct profiles. */
static runnel_status part_overlap(const runnel_profile *inside, const runnel_cutter *cutter,
                                  double depth, double *value, double *error) {
    runnel_centres centres = {0};
    double face = runnel_cutter_radius_at(cutter, depth, 0);
    runnel_status status = runnel_centres_collect(inside, face, NULL, &centres);
    levels l = {&centres, cutter, depth};
    double coarse = 0;
    *value = 0;
    if (!status && cutter->kind == RUNNEL_CUTTER_FLAT) {
        *value = coarse = depth * runnel_centres_overlap(&centres, face, true);
    } else if (!status) {
        double shank =
            cutter->kind == RUNNEL_CUTTER_ROUND_NOSE ? fmax(0, depth - cutter->radius_mm) : 0;
        *value = coarse = shank * runnel_centres_overlap(&centres, face, true);
        *value += runnel_gauss_legendre(overlap_at, &l, shank, depth, 32);
        coarse += runnel_gauss_legendre(overlap_at, &l, shank, depth, 20);
    }
    runnel_centres_clear(&centres);
    *error = fabs(*value - coarse);
    return status;
}

/** The same of all. */
static runnel_status overlap_of(const runnel_compound *inside, const runnel_cutter *cutter,
                                double depth, double *value, double *error) {
    runnel_status status = RUNNEL_OK;
    *value = 0;
    for (size_t i = 0; i < inside->part_count && !status; i++) {
        const runnel_compound_part *part = &inside->parts[i];
        double own = 0, gap = 0;
        status = part_overlap(part->profile, cutter, depth, &own, &gap);
        *value += part->count * own;
        *error += part->count * gap;
    }
    return status;
}

static runnel_status volume(const runnel_compound *inside, const runnel_cutter *cutter,
                            double depth, double *value, double *error) {
    double face = runnel_cutter_radius_at(cutter, depth, 0), overlap = 0;
    runnel_cutter_sums s = runnel_cutter_sums_of(cutter, depth);
    runnel_opening o = runnel_compound_opening(inside, face);
    runnel_status status = overlap_of(inside, cutter, depth, &overlap, error);
    if (status)
        return status;
    *value = depth * o.area - (face * depth - s.first) * o.length -
             0.5 * (face * face * depth - 2 * face * s.first + s.second) * o.angle +
             0.5 * s.second * o.turn - overlap;
    return RUNNEL_OK;
}

/** Sides and floor. Where sectors overlap, their sides are counted in full: an upper bound there.
 */
static runnel_status wall(const runnel_compound *inside, const runnel_cut *cut, double *area) {
    double face = runnel_cutter_radius_at(&cut->cutter, cut->depth_mm, 0), floor = 0;
    runnel_cutter_sums s = runnel_cutter_sums_of(&cut->cutter, cut->depth_mm);
    runnel_opening o = runnel_compound_opening(inside, face);
    runnel_status status = section(inside, cut, cut->depth_mm, &floor);
    if (!status)
        *area = s.side * o.length + (face * s.side - s.side_first) * o.angle +
                s.side_first * o.turn + floor;
    return status;
}

/** Change of volume per degree of included angle, as a central difference over one degree. */
static runnel_status per_degree(const runnel_compound *inside, const runnel_cut *cut,
                                double *change) {
    runnel_cutter wider = cut->cutter, narrower = cut->cutter;
    double more = 0, less = 0, ignored = 0;
    *change = 0;
    if (cut->cutter.kind != RUNNEL_CUTTER_V)
        return RUNNEL_OK;
    double half = fmin(0.5, 0.5 * fmin(cut->cutter.angle_deg, 180 - cut->cutter.angle_deg));
    wider.angle_deg += half;
    narrower.angle_deg -= half;
    runnel_status status = volume(inside, &wider, cut->depth_mm, &more, &ignored);
    if (!status)
        status = volume(inside, &narrower, cut->depth_mm, &less, &ignored);
    if (!status)
        *change = (more - less) / (2 * half);
    return status;
}

runnel_status runnel_cut_pocket(runnel_shape *shape, const runnel_cut *cut, runnel_cavity *f) {
    const runnel_compound *inside = NULL;
    double deeper = 0, shallower = 0, ignored = 0, depth = cut->depth_mm;
    double step = RUNNEL_DEPTH_STEP_MM, overlap_border = 0;
    double face = runnel_cutter_radius_at(&cut->cutter, depth, 0);
    runnel_status status = runnel_shape_inside(shape, &inside);
    if (!status)
        status = volume(inside, &cut->cutter, depth, &f->volume_mm3, &f->volume_error_mm3);
    if (!status)
        status = volume(inside, &cut->cutter, depth + step, &deeper, &ignored);
    if (!status && depth > step)
        status = volume(inside, &cut->cutter, depth - step, &shallower, &ignored);
    if (!status)
        status = per_degree(inside, cut, &f->angle_mm3_per_degree);
    if (!status)
        status = section(inside, cut, 0, &f->footprint_mm2);
    if (!status)
        status = wall(inside, cut, &f->wall_mm2);
    if (!status)
        status = runnel_compound_overlap_border(inside, face, face, &overlap_border);
    if (!status)
        status = runnel_cut_places(inside, runnel_cutter_radius_at(&cut->cutter, depth, 0),
                                   &f->uncut_places);
    if (status)
        return status;
    runnel_opening o = runnel_compound_opening(inside, face);
    f->perimeter_mm = o.length + face * o.turn - overlap_border;
    f->widest_mm = 2 * inside->widest.m_mm;
    f->deepest_at = inside->widest.at;
    f->deepest_mm = f->widest_mm >= runnel_fitting(2 * face) ? depth : 0;
    f->narrowest_mm = 2 * inside->narrowest.m_mm;
    f->narrowest_at = inside->narrowest.at;
    f->uncut_mm2 = fmax(0, inside->area_mm2 - f->footprint_mm2);
    f->depth_plus_mm3 = deeper - f->volume_mm3;
    f->depth_minus_mm3 = shallower - f->volume_mm3;
    f->volume_error_mm3 += inside->mismatch * inside->area_mm2 * depth +
                           shape->region.flatten_mm * f->perimeter_mm * depth;
    return RUNNEL_OK;
}

runnel_status runnel_cut_pocket_section(runnel_shape *shape, const runnel_cut *cut, double level_mm,
                                        double *area_mm2) {
    const runnel_compound *inside = NULL;
    runnel_status status = runnel_shape_inside(shape, &inside);
    return status ? status : section(inside, cut, level_mm, area_mm2);
}
