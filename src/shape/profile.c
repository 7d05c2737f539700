/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Profiles of polygons: the walk, the check of its areas, and the widths that follow from it.
 */
#include "base/memory.h"
#include "base/sum.h"
#include "shape/curves.h"
#include "shape/walk.h"

#include <math.h>
#include <string.h>

/** Running sums of runnel_offset. */
typedef struct offset_sums {
    runnel_sum area, dx, dy;
} offset_sums;

/** A hair, by which corners are moved where the areas do not agree, as a share of the farthest
 * coordinate: a thousand times what heights over a segment lose by rounding. */
#define HAIR_SHARE 1e-11
/** How often that is tried, with ten times the hair each time. */
enum { HAIRS = 3 };

/** Contribution of a piece to the offset curve at t; area about the point (ox, oy). */
static void add_offset(const runnel_profile *profile, const runnel_piece *piece, double t,
                       double ox, double oy, offset_sums *sums) {
    runnel_point a = runnel_piece_centre(profile, piece, piece->from, t);
    runnel_point b = runnel_piece_centre(profile, piece, piece->to, t);
    double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm;
    runnel_sum_add(&sums->dx, dx);
    runnel_sum_add(&sums->dy, dy);
    if (piece->kind == RUNNEL_PIECE_CONST) {
        runnel_sum_add(&sums->area,
                       0.5 * ((a.x_mm - ox) * (b.y_mm - oy) - (b.x_mm - ox) * (a.y_mm - oy)));
        return;
    }
    const runnel_edge *v = &profile->boundary.edges[piece->edge];
    runnel_sum_add(&sums->area, 0.5 * ((v->x - ox) * dy - dx * (v->y - oy)));
    runnel_sum_add(&sums->area, -0.5 * t * t * (piece->to - piece->from));
}

/** What the pieces cover within reach, and the offset curve there. */
static void sum_areas(runnel_profile *profile) {
    const runnel_boundary *b = &profile->boundary;
    double ox = b->edges[0].x, oy = b->edges[0].y, t = profile->reach_mm;
    runnel_sum covered = {0};
    offset_sums sums = {0};
    for (size_t i = 0; i < profile->count; i++) {
        const runnel_piece *p = &profile->pieces[i];
        if (p->stop != RUNNEL_STOP_NONE) {
            runnel_sum_add(&covered, p->area);
            continue;
        }
        runnel_sum_add(&covered, p->extent * (p->kind == RUNNEL_PIECE_CONST ? t : 0.5 * t * t));
        add_offset(profile, p, t, ox, oy, &sums);
    }
    double dx = runnel_sum_value(&sums.dx), dy = runnel_sum_value(&sums.dy);
    profile->area_mm2 = runnel_sum_value(&covered);
    profile->enclosed_mm2 = b->area_mm2;
    /* summed about a corner near by, told about the origin */
    runnel_sum_add(&sums.area, 0.5 * (ox * dy - oy * dx));
    profile->offset = (runnel_offset){runnel_sum_value(&sums.area), dx, dy};
}

/**
 * Both sides of the identity: what the boundary encloses, less what the pieces cover within reach,
 * is what the offset curve at the reach encloses (nothing for an inside).
 */
static void check_identity(runnel_profile *profile) {
    double gap = profile->enclosed_mm2 - profile->area_mm2 - profile->offset.area_mm2;
    profile->mismatch = fabs(gap) / fmax(profile->area_mm2, fabs(profile->enclosed_mm2));
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

/** Gives back what the pieces do not need. */
static runnel_status shrink(runnel_profile *made) {
    void *less = runnel_resize(made->pieces, made->count, sizeof *made->pieces);
    if (!less)
        return RUNNEL_E_NO_MEMORY;
    made->pieces = less;
    made->capacity = made->count;
    return RUNNEL_OK;
}

/** Fills a profile whose boundary stands. Of a part of a whole the identity is not checked. */
static runnel_status fill_profile(runnel_profile *made, double reach, bool is_part) {
    made->reach_mm = reach;
    made->segments = made->boundary.count;
    made->is_part = is_part;
    runnel_status status = runnel_boundary_walk(made, reach);
    if (!status)
        status = shrink(made);
    if (status)
        return status;
    sum_areas(made);
    if (!is_part)
        check_identity(made);
    find_widths(made);
    return made->mismatch <= RUNNEL_LARGEST_MISMATCH ? runnel_profile_finish(made)
                                                     : RUNNEL_E_IDENTITY;
}

static runnel_status walk_around(const runnel_contours *contours, size_t own_count,
                                 runnel_domain domain, double reach, runnel_profile **profile) {
    runnel_profile *made = runnel_zeroed(1, sizeof *made);
    if (!made)
        return RUNNEL_E_NO_MEMORY;
    runnel_status status =
        domain == RUNNEL_DOMAIN_AROUND_LINES
            ? runnel_boundary_of_lines(contours, own_count, &made->boundary)
            : runnel_boundary_of_region(contours, own_count, domain == RUNNEL_DOMAIN_OUTSIDE,
                                        &made->boundary);
    if (!status)
        status = fill_profile(made, reach, own_count < contours->count);
    if (status)
        runnel_profile_free(made);
    else
        *profile = made;
    return status;
}

/** A place moved by up to half a hair in x and in y, by a share that follows from the place alone,
 * so that contours which meet there still do. */
static runnel_point moved_by_hair(runnel_point at, double hair) {
    double place[2] = {at.x_mm + 0.0, at.y_mm + 0.0}; /* -0 and 0 are one place */
    uint64_t bits[2];
    memcpy(bits, place, sizeof bits);
    uint64_t hash = (bits[0] ^ bits[1] << 21 ^ bits[1] >> 43) * 0x9e3779b97f4a7c15U;
    hash = (hash ^ hash >> 29) * 0xbf58476d1ce4e5b9U;
    double unit = hair * 0x1p-32;
    return (runnel_point){at.x_mm + unit * ((double)(hash >> 32) - 0x1p31),
                          at.y_mm + unit * ((double)(hash & 0xffffffffU) - 0x1p31)};
}

/**
 * Share of the area within reach that a border which stands off by up to `hair` may gain or lose:
 * the border of what is farther than t is at most as long as the segments and arcs of radius t
 * around the reflex corners, for each t up to the widest place.
 */
static double swept_share(const runnel_profile *profile, double hair) {
    const runnel_boundary *b = &profile->boundary;
    runnel_sum length = {0};
    for (uint32_t i = 0; i < b->count; i++) {
        runnel_sum_add(&length, b->edges[i].length);
        if (b->edges[i].reflex)
            runnel_sum_add(&length, runnel_element_fan(b, i).length * profile->widest.m_mm);
    }
    return hair * runnel_sum_value(&length) / profile->area_mm2;
}

runnel_status runnel_profile_beside(const runnel_contours *contours, runnel_domain domain,
                                    double reach, double hair_mm, runnel_profile **profile) {
    runnel_contours moved = *contours;
    moved.points = runnel_zeroed(contours->point_count, sizeof *moved.points);
    if (!moved.points)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < contours->point_count; i++)
        moved.points[i] = moved_by_hair(contours->points[i], hair_mm);
    runnel_status status = walk_around(&moved, contours->count, domain, reach, profile);
    if (!status)
        (*profile)->mismatch += swept_share(*profile, hair_mm);
    runnel_free(moved.points);
    return status;
}

static runnel_status make_profile(const runnel_contours *contours, runnel_domain domain,
                                  double reach, runnel_profile **profile) {
    if (domain != RUNNEL_DOMAIN_INSIDE && !(isfinite(reach) && reach > 0))
        return RUNNEL_E_RANGE;
    runnel_status status = walk_around(contours, contours->count, domain, reach, profile);
    if (status != RUNNEL_E_IDENTITY)
        return status;
    runnel_box box = runnel_contours_box(contours);
    double hair = HAIR_SHARE * fmax(fmax(fabs(box.min_x_mm), fabs(box.max_x_mm)),
                                    fmax(fabs(box.min_y_mm), fabs(box.max_y_mm)));
    for (int i = 0; i < HAIRS && status == RUNNEL_E_IDENTITY; i++, hair *= 10)
        status = runnel_profile_beside(contours, domain, reach, hair, profile);
    return status;
}

runnel_status runnel_profile_inside(const runnel_contours *region, runnel_profile **profile) {
    return make_profile(region, RUNNEL_DOMAIN_INSIDE, INFINITY, profile);
}

runnel_status runnel_profile_outside(const runnel_contours *region, double reach_mm,
                                     runnel_profile **profile) {
    return make_profile(region, RUNNEL_DOMAIN_OUTSIDE, reach_mm, profile);
}

runnel_status runnel_profile_path(const runnel_contours *lines, double reach_mm,
                                  runnel_profile **profile) {
    return make_profile(lines, RUNNEL_DOMAIN_AROUND_LINES, reach_mm, profile);
}

runnel_status runnel_profile_among(const runnel_contours *contours, size_t own_count, bool is_path,
                                   double reach_mm, runnel_profile **profile) {
    return walk_around(contours, own_count,
                       is_path ? RUNNEL_DOMAIN_AROUND_LINES : RUNNEL_DOMAIN_OUTSIDE, reach_mm,
                       profile);
}

size_t runnel_profile_bytes(const runnel_profile *profile) {
    const runnel_levels *levels = &profile->levels;
    size_t listed = levels->first ? levels->first[levels->count + 1] : 0;
    return sizeof *profile + profile->capacity * sizeof *profile->pieces +
           profile->boundary.count * sizeof *profile->boundary.edges +
           profile->boundary.cycle_count *
               (sizeof *profile->boundary.cycles + sizeof *profile->boundary.parts) +
           (levels->count + 2) * sizeof *levels->sums +
           (levels->count + 3 + listed) * sizeof *levels->listed;
}

void runnel_profile_free(runnel_profile *profile) {
    if (!profile)
        return;
    runnel_boundary_clear(&profile->boundary);
    runnel_free(profile->pieces);
    runnel_levels_clear(&profile->levels);
    runnel_free(profile);
}
