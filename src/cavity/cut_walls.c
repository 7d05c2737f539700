/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A V cutter whose walls follow the outline.
 *
 * Sharp tip: depth z = min(D, d/tan a), so everything is a sum of moments of the profile. Tip of
 * radius rho: the section at z is the opening by rho of the inset by z tan a; along a normal the
 * depth is min(D, t/tan a, (m - rho)/tan a), and the sectors at the corners of the centres' set add
 * up as the cutter rises along the medial axis.
 */
#include "cavity/cut.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

/** A V cut in the terms of the profile. */
typedef struct v_cut {
    double sine, tangent, cotangent; /**< of the half angle */
    double rho;                      /**< tip radius */
    double depth;                    /**< limit; infinite when there is none */
    double wide;                     /**< depth in plan: depth x tangent */
} v_cut;

static v_cut v_cut_of(const runnel_cut *cut) {
    double half = cut->cutter.angle_deg * pi / 360;
    double depth = cut->depth_mm > 0 ? cut->depth_mm : INFINITY;
    return (v_cut){.sine = sin(half),
                   .tangent = tan(half),
                   .cotangent = 1 / tan(half),
                   .rho = 0.5 * cut->cutter.tip_mm,
                   .depth = depth,
                   .wide = depth * tan(half)};
}

/** The part of the walls up to where the floor begins: no deeper than the outline's widest place.
 */
static v_cut within(v_cut v, const runnel_compound *inside) {
    double most = fmax(inside->widest.m_mm - v.rho, 0);
    if (v.wide > most) {
        v.wide = most;
        v.depth = most * v.cotangent;
    }
    return v;
}

static runnel_status section(const runnel_compound *inside, v_cut v, double level, double *area) {
    double tau = level * v.tangent, overlap = 0;
    if (level > v.depth || v.rho == 0) {
        *area = level > v.depth ? 0 : runnel_compound_moments(inside, tau).beyond;
        return RUNNEL_OK;
    }
    runnel_opening o = runnel_compound_opening(inside, tau + v.rho);
    runnel_status status = runnel_compound_overlap_area(inside, tau + v.rho, v.rho, &overlap);
    if (!status)
        *area = o.area - tau * o.length - 0.5 * tau * tau * o.angle + 0.5 * v.rho * v.rho * o.turn -
                overlap;
    return status;
}

static void sharp_figures(const runnel_compound *inside, v_cut v, runnel_cavity *f) {
    runnel_moments m = runnel_compound_moments(inside, v.wide);
    f->volume_mm3 = v.cotangent * m.first + v.depth * m.beyond;
    f->footprint_mm2 = inside->area_mm2;
    f->wall_mm2 = m.area / v.sine + m.beyond;
    f->perimeter_mm = runnel_compound_moments(inside, 0).length;
    f->angle_mm3_per_degree = (m.first - 0.5 * m.fan_first) / (v.sine * v.sine) * (pi / 360);
}

/** Sums over the openings at the face and at the floor that the figures with a tip are made of. */
typedef struct tip_sums {
    runnel_rise band;
    double slopes, floor; /**< areas in plan */
    double volume, error; /**< mm3 */
} tip_sums;

static runnel_status sum_tip(const runnel_compound *inside, v_cut v, tip_sums *sums) {
    double wide = v.wide, overlap = 0, error = 0;
    runnel_opening floor = runnel_compound_opening(inside, v.rho + wide);
    runnel_rise band = runnel_compound_rise(inside, v.rho, v.rho + wide, v.cotangent);
    double sides = 0.5 * wide * wide * floor.length + wide * wide * wide / 3 * floor.angle;
    double widening = wide * floor.length + 0.5 * wide * wide * floor.angle;
    runnel_status status = runnel_compound_overlap_volume(inside, v.rho, wide, &overlap, &error);
    *sums = (tip_sums){
        .band = band, .slopes = band.slope_area + widening, .floor = floor.area - widening};
    sums->volume =
        v.cotangent * (band.depth_volume + sides + 0.5 * v.rho * v.rho * band.sector - overlap) +
        v.depth * sums->floor;
    sums->error = v.cotangent * error;
    return status;
}

/** Figures with a tip; the overlap of sectors at necks is integrated over the depth. */
static runnel_status tip_figures(const runnel_compound *inside, v_cut v, runnel_cavity *f) {
    runnel_opening face = runnel_compound_opening(inside, v.rho);
    double overlap = 0, overlap_border = 0;
    tip_sums sums;
    runnel_status status = sum_tip(inside, v, &sums);
    if (!status)
        status = runnel_compound_overlap_area(inside, v.rho, v.rho, &overlap);
    if (!status)
        status = runnel_compound_overlap_border(inside, v.rho, v.rho, &overlap_border);
    if (!status)
        status = runnel_cut_places(inside, v.rho, &f->uncut_places);
    if (status)
        return status;
    f->volume_mm3 = sums.volume;
    f->volume_error_mm3 = sums.error;
    f->footprint_mm2 = face.area + 0.5 * v.rho * v.rho * face.turn - overlap;
    f->perimeter_mm = face.length + v.rho * face.turn - overlap_border;
    double rest = f->footprint_mm2 - sums.slopes - sums.band.ridge_area - sums.floor;
    f->wall_mm2 = sums.slopes / v.sine + sums.band.ridge_wall + sums.floor + fmax(rest, 0) / v.sine;
    f->uncut_mm2 = inside->area_mm2 - f->footprint_mm2;
    /* with the tool path kept, only the slopes turn; to first order as for a sharp tip */
    runnel_moments m = runnel_compound_moments(inside, v.wide);
    f->angle_mm3_per_degree = (m.first - 0.5 * m.fan_first) / (v.sine * v.sine) * (pi / 360);
    return RUNNEL_OK;
}

/** The same walls with the floor no deeper than `below`. */
static v_cut no_deeper(v_cut v, double below) {
    if (v.depth > below) {
        v.depth = below;
        v.wide = below * v.tangent;
    }
    return v;
}

/** Volume between the face and `below`: that of a cut with its floor there. */
static runnel_status volume_above(const runnel_compound *inside, v_cut v, double below,
                                  double *volume) {
    tip_sums sums;
    v = no_deeper(v, below);
    if (v.rho == 0) {
        runnel_moments m = runnel_compound_moments(inside, v.wide);
        *volume = v.cotangent * m.first + v.depth * m.beyond;
        return RUNNEL_OK;
    }
    runnel_status status = sum_tip(inside, v, &sums);
    if (!status)
        *volume = sums.volume;
    return status;
}

static runnel_status depth_figures(const runnel_compound *inside, const runnel_compound *outside,
                                   v_cut v, runnel_cavity *f) {
    double step = RUNNEL_DEPTH_STEP_MM, reach = step * v.tangent, layer = f->volume_mm3;
    runnel_moments ring = runnel_compound_moments(outside, reach);
    runnel_status status = RUNNEL_OK;
    f->depth_plus_mm3 = step * f->footprint_mm2 + step * ring.area - v.cotangent * ring.first;
    if (v.depth > step)
        status = volume_above(inside, v, step, &layer);
    f->depth_minus_mm3 = -layer;
    return status;
}

runnel_status runnel_cut_walls(runnel_shape *shape, const runnel_cut *cut, runnel_cavity *f) {
    const runnel_compound *inside = NULL, *outside = NULL;
    v_cut v = v_cut_of(cut);
    runnel_status status = runnel_shape_inside(shape, &inside);
    if (!status)
        status = runnel_shape_around(shape, RUNNEL_DEPTH_STEP_MM * v.tangent, &outside);
    if (status)
        return status;
    v = within(v, inside);
    if (v.rho > 0) {
        status = tip_figures(inside, v, f);
        if (status)
            return status;
    } else {
        sharp_figures(inside, v, f);
    }
    f->deepest_mm = v.depth;
    f->widest_mm = 2 * inside->widest.m_mm;
    f->deepest_at = inside->widest.at;
    f->narrowest_mm = 2 * inside->narrowest.m_mm;
    f->narrowest_at = inside->narrowest.at;
    status = depth_figures(inside, outside, v, f);
    /* the area found wrong may lie at the deepest place; the edge may stand off by the chord error,
     * which moves the depth of a slope by that over tan a */
    double area = inside->area_mm2;
    f->volume_error_mm3 += inside->mismatch * area * v.depth +
                           shape->region.flatten_mm * v.cotangent *
                               runnel_compound_moments(inside, v.wide + v.rho).area;
    return status;
}

runnel_status runnel_cut_walls_section(runnel_shape *shape, const runnel_cut *cut, double level_mm,
                                       double *area_mm2) {
    const runnel_compound *inside = NULL;
    runnel_status status = runnel_shape_inside(shape, &inside);
    return status ? status : section(inside, within(v_cut_of(cut), inside), level_mm, area_mm2);
}

runnel_status runnel_cut_walls_above(runnel_shape *shape, const runnel_cut *cut, double level_mm,
                                     double *volume_mm3) {
    const runnel_compound *inside = NULL;
    runnel_status status = runnel_shape_inside(shape, &inside);
    return status ? status
                  : volume_above(inside, within(v_cut_of(cut), inside), level_mm, volume_mm3);
}
