/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What of a cavity's outline is left at a level below the face.
 */
#include "cavity/cut.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

runnel_section_terms runnel_section_terms_of(const runnel_cut *cut, double level) {
    if (cut->rule == RUNNEL_CUT_WALLS) {
        double rho = 0.5 * cut->cutter.tip_mm, tau = level * tan(cut->cutter.angle_deg * pi / 360);
        return (runnel_section_terms){tau + rho, rho, tau, rho};
    }
    double face = runnel_cutter_radius_at(&cut->cutter, cut->depth_mm, 0);
    double disc = runnel_cutter_radius_at(&cut->cutter, cut->depth_mm, level);
    return (runnel_section_terms){face, disc, face - disc, face};
}

/** Depth below which nothing is cut; infinite for walls that run together. */
static double floor_of(const runnel_cut *cut) {
    return cut->rule == RUNNEL_CUT_WALLS && cut->depth_mm == 0 ? INFINITY : cut->depth_mm;
}

static double path_border(const runnel_compound *around, double radius) {
    runnel_moments m = runnel_compound_moments(around, radius);
    return m.length + m.angle * radius;
}

static runnel_status opened_border(const runnel_compound *inside, runnel_section_terms t,
                                   double *length) {
    runnel_opening o = runnel_compound_opening(inside, t.centres);
    double hidden = 0;
    runnel_status status = runnel_compound_overlap_border(inside, t.centres, t.disc, &hidden);
    *length = o.length + t.lack * o.angle + t.disc * o.turn - hidden;
    return status;
}

runnel_status runnel_cavity_border(runnel_shape *shape, const runnel_cut *cut, double level_mm,
                                   double *length_mm) {
    double area = 0, length = 0;
    const runnel_compound *profile = NULL;
    runnel_status status = runnel_cavity_section(shape, cut, level_mm, &area);
    bool is_cut = !status && area > 0 && level_mm <= floor_of(cut);
    if (is_cut && cut->rule == RUNNEL_CUT_PATH) {
        double radius = runnel_cutter_radius_at(&cut->cutter, cut->depth_mm, level_mm);
        status = runnel_shape_around(shape, radius, &profile);
        if (!status)
            length = path_border(profile, radius);
    } else if (is_cut) {
        runnel_section_terms t = runnel_section_terms_of(cut, level_mm);
        status = runnel_shape_inside(shape, &profile);
        if (!status && t.disc > 0)
            status = opened_border(profile, t, &length);
        else if (!status)
            length = path_border(profile, t.lack);
    }
    if (!status)
        *length_mm = length;
    return status;
}

runnel_status runnel_cavity_thin_strokes(runnel_shape *shape, const runnel_cut *cut,
                                         double level_mm, double thin_mm,
                                         runnel_thin_strokes *strokes) {
    double area = 0;
    const runnel_compound *profile = NULL;
    runnel_status status = runnel_cavity_section(shape, cut, level_mm, &area);
    if (!status && (!(thin_mm >= 0) || !isfinite(thin_mm)))
        status = RUNNEL_E_RANGE;
    if (status)
        return status;
    runnel_section_terms t = runnel_section_terms_of(cut, level_mm);
    double below = level_mm >= floor_of(cut) ? INFINITY : t.lack + 0.5 * thin_mm;
    if (cut->rule == RUNNEL_CUT_WALLS)
        below = fmax(below, t.centres);
    if (cut->rule == RUNNEL_CUT_PATH || below < t.least) {
        runnel_thin_strokes_clear(strokes);
        return RUNNEL_OK;
    }
    status = runnel_shape_inside(shape, &profile);
    return status ? status : runnel_compound_thin_strokes(profile, t.least, below, strokes);
}
