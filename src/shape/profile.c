/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Profiles of polygons: the walk, the check of its areas, and the widths that follow from it.
 */
#include "base/memory.h"
#include "base/sum.h"
#include "shape/walk.h"

#include <math.h>

/** Relative area mismatch above which a profile is refused. */
#define LARGEST_MISMATCH 1e-7

/** Contribution to the area inside the offset curve at t, as (1/2) int (x dy - y dx) about a point.
 */
static void add_offset(const runnel_profile *profile, const runnel_piece *piece, double t,
                       double ox, double oy, runnel_sum *sum) {
    runnel_point a = runnel_piece_centre(profile, piece, piece->from, t);
    runnel_point b = runnel_piece_centre(profile, piece, piece->to, t);
    if (piece->kind == RUNNEL_PIECE_CONST) {
        runnel_sum_add(sum, 0.5 * ((a.x_mm - ox) * (b.y_mm - oy) - (b.x_mm - ox) * (a.y_mm - oy)));
        return;
    }
    const runnel_edge *v = &profile->boundary.edges[piece->edge];
    runnel_sum_add(sum, 0.5 * ((v->x - ox) * (b.y_mm - a.y_mm) - (b.x_mm - a.x_mm) * (v->y - oy)));
    runnel_sum_add(sum, -0.5 * t * t * (piece->to - piece->from));
}

/**
 * Both sides of the identity: what the boundary encloses, less what the pieces cover within reach,
 * is what the offset curve at the reach encloses (nothing for an inside).
 */
static void check_identity(runnel_profile *profile) {
    const runnel_boundary *b = &profile->boundary;
    runnel_sum covered = {0}, offset = {0};
    for (size_t i = 0; i < profile->count; i++) {
        const runnel_piece *p = &profile->pieces[i];
        if (p->stop != RUNNEL_STOP_NONE) {
            runnel_sum_add(&covered, p->area);
            continue;
        }
        double t = profile->reach_mm;
        runnel_sum_add(&covered, p->extent * (p->kind == RUNNEL_PIECE_CONST ? t : 0.5 * t * t));
        add_offset(profile, p, t, b->edges[0].x, b->edges[0].y, &offset);
    }
    profile->area_mm2 = runnel_sum_value(&covered);
    double gap = b->area_mm2 - profile->area_mm2 - runnel_sum_value(&offset);
    profile->mismatch = fabs(gap) / fmax(profile->area_mm2, fabs(b->area_mm2));
}

/** Widest and narrowest place of the medial axis. */
static void find_widths(runnel_profile *profile) {
    /* walls within 30 degrees of parallel: the angle between their normals is over 150 degrees */
    const double least_angle = 150.0 / 180.0 * 3.14159265358979323846;
    profile->widest = (runnel_medial){0};
    profile->narrowest = (runnel_medial){INFINITY, {0, 0}};
    for (size_t i = 0; i < profile->count; i++) {
        const runnel_piece *p = &profile->pieces[i];
        if (p->stop == RUNNEL_STOP_NONE) {
            double middle = 0.5 * (p->from + p->to), reach = profile->reach_mm;
            if (reach > profile->widest.m_mm)
                profile->widest =
                    (runnel_medial){reach, runnel_piece_centre(profile, p, middle, reach)};
            continue;
        }
        bool line = p->kind == RUNNEL_PIECE_LINE;
        if (p->high > profile->widest.m_mm) {
            double x = runnel_piece_m(p, line ? 0 : p->x0) >= p->high ? (line ? 0 : p->x0)
                                                                      : (line ? 1 : p->x1);
            profile->widest.m_mm = p->high;
            profile->widest.at =
                runnel_piece_centre(profile, p, runnel_piece_parameter(profile, p, x), p->high);
        }
        if (p->leaf || p->low >= profile->narrowest.m_mm)
            continue;
        double x = 0;
        bool facing;
        if (line) {
            x = p->x0 <= p->x1 ? 0 : 1;
            facing = p->h >= least_angle;
        } else {
            if ((p->x0 < 0) == (p->x1 < 0))
                x = fabs(p->x0) < fabs(p->x1) ? p->x0 : p->x1;
            facing = 2 * atan2(p->h, fabs(x)) >= least_angle;
        }
        if (facing) {
            profile->narrowest.m_mm = p->low;
            profile->narrowest.at =
                runnel_piece_centre(profile, p, runnel_piece_parameter(profile, p, x), p->low);
        }
    }
    if (!isfinite(profile->narrowest.m_mm))
        profile->narrowest = profile->widest;
}

/** Fills a profile whose boundary stands. */
static runnel_status fill_profile(runnel_profile *made, double reach) {
    made->reach_mm = reach;
    made->segments = made->boundary.count;
    runnel_status status = runnel_boundary_walk(made, reach);
    if (status)
        return status;
    check_identity(made);
    find_widths(made);
    return made->mismatch <= LARGEST_MISMATCH ? runnel_profile_finish(made) : RUNNEL_E_IDENTITY;
}

/** Which boundary the contours are. */
enum domain { INSIDE, OUTSIDE, AROUND_LINES };

static runnel_status make_profile(const runnel_contours *contours, enum domain domain, double reach,
                                  runnel_profile **profile) {
    if (domain != INSIDE && !(isfinite(reach) && reach > 0))
        return RUNNEL_E_RANGE;
    runnel_profile *made = runnel_zeroed(1, sizeof *made);
    if (!made)
        return RUNNEL_E_NO_MEMORY;
    runnel_status status =
        domain == AROUND_LINES
            ? runnel_boundary_of_lines(contours, &made->boundary)
            : runnel_boundary_of_region(contours, domain == OUTSIDE, &made->boundary);
    if (!status)
        status = fill_profile(made, reach);
    if (status)
        runnel_profile_free(made);
    else
        *profile = made;
    return status;
}

runnel_status runnel_profile_inside(const runnel_contours *region, runnel_profile **profile) {
    return make_profile(region, INSIDE, INFINITY, profile);
}

runnel_status runnel_profile_outside(const runnel_contours *region, double reach_mm,
                                     runnel_profile **profile) {
    return make_profile(region, OUTSIDE, reach_mm, profile);
}

runnel_status runnel_profile_path(const runnel_contours *lines, double reach_mm,
                                  runnel_profile **profile) {
    return make_profile(lines, AROUND_LINES, reach_mm, profile);
}

void runnel_profile_free(runnel_profile *profile) {
    if (!profile)
        return;
    runnel_boundary_clear(&profile->boundary);
    runnel_free(profile->pieces);
    runnel_levels_clear(&profile->levels);
    runnel_free(profile);
}
