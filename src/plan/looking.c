/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/look.h"

#include "base/memory.h"
#include "cavity/cut.h"
#include "plan/make.h"

#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

/** Finer chords do not show in a picture. */
static const double chord_mm = 0.01;

/** The last level is that close to the bottom, so that a flat floor is met and a ridge nearly. */
static const double last_share = 1 - 1e-4;

/** Between cavities whose places are not told, and around them where there is no piece. */
static const double apart_mm = 5;

void runnel_look_clear(runnel_look *look) {
    if (!look)
        return;
    for (size_t i = 0; i < look->cavity_count; i++)
        for (size_t k = 0; k < RUNNEL_LOOK_LEVELS; k++)
            runnel_contours_clear(&look->cavities[i].levels[k].region);
    runnel_free(look->cavities);
    runnel_free(look->pieces);
    memset(look, 0, sizeof *look);
}

/* ---- Levels ---------------------------------------------------------------------------------- */

/* A cavity, and its shape. */
typedef struct looking {
    const runnel_job_cavity *job;
    const runnel_plan_cavity *planned;
    runnel_shape *shape;
} looking;

/** Levels from the face down, as long as something is left there. */
static runnel_status make_levels(const looking *of, runnel_look_depth depth,
                                 runnel_look_cavity *cavity) {
    const double deepest_mm = of->planned->figures.deepest_mm;
    const bool straight = of->job->cut.cutter.kind != RUNNEL_CUTTER_ROUND_NOSE;
    const size_t all = straight ? RUNNEL_LOOK_STRAIGHT_LEVELS : RUNNEL_LOOK_LEVELS;
    const size_t count = depth == RUNNEL_LOOK_FACE ? 1 : all;
    for (size_t i = 0; i < count; i++) {
        const double part = (double)i / (double)(all - 1);
        const double share = straight ? part : sin(0.5 * pi * part);
        runnel_look_level *level = &cavity->levels[cavity->level_count];
        level->depth_mm = deepest_mm * fmin(share, last_share);
        level->inset_mm = runnel_section_terms_of(&of->job->cut, level->depth_mm).lack;
        runnel_status status = runnel_cavity_level(of->shape, &of->job->cut, level->depth_mm,
                                                   chord_mm, &level->region);
        if (status == RUNNEL_E_SHAPE)
            break;
        if (status)
            return status;
        cavity->level_count++;
    }
    return RUNNEL_OK;
}

/* ---- Section --------------------------------------------------------------------------------- */

static runnel_point nearest_of(runnel_point from, runnel_point a, runnel_point b) {
    const double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm, length2 = dx * dx + dy * dy;
    double share =
        length2 > 0 ? ((from.x_mm - a.x_mm) * dx + (from.y_mm - a.y_mm) * dy) / length2 : 0;
    share = fmin(fmax(share, 0), 1);
    return (runnel_point){a.x_mm + share * dx, a.y_mm + share * dy};
}

/** Towards the nearest edge; along x where the point lies on it. */
static runnel_point direction_of(const runnel_contours *region, runnel_point from) {
    runnel_point best = {1, 0};
    double least_mm = INFINITY;
    for (size_t i = 0; i < region->count; i++) {
        const runnel_contour *ring = &region->items[i];
        const runnel_point *points = region->points + ring->first;
        for (size_t k = 0; k < ring->count; k++) {
            runnel_point near = nearest_of(from, points[k], points[(k + 1) % ring->count]);
            double dx = near.x_mm - from.x_mm, dy = near.y_mm - from.y_mm, away = hypot(dx, dy);
            if (away > 1e-9 && away < least_mm) {
                least_mm = away;
                best = (runnel_point){dx / away, dy / away};
            }
        }
    }
    return best;
}

/** Where a line through a point meets a region: the last crossing before it and the first behind;
 * NAN when the point is not inside. The line is moved aside by less than shows, as it would
 * otherwise go through corners. */
static void cut_region(const runnel_contours *region, runnel_point at, runnel_point along,
                       double *from_mm, double *to_mm) {
    const double aside_mm = 1.2345e-7;
    size_t before = 0, behind = 0;
    *from_mm = -INFINITY;
    *to_mm = INFINITY;
    for (size_t i = 0; i < region->count; i++) {
        const runnel_contour *ring = &region->items[i];
        const runnel_point *points = region->points + ring->first;
        for (size_t k = 0; k < ring->count; k++) {
            const runnel_point a = points[k], b = points[(k + 1) % ring->count];
            double ax = a.x_mm - at.x_mm, ay = a.y_mm - at.y_mm;
            double bx = b.x_mm - at.x_mm, by = b.y_mm - at.y_mm;
            double a_aside = along.x_mm * ay - along.y_mm * ax - aside_mm;
            double b_aside = along.x_mm * by - along.y_mm * bx - aside_mm;
            if ((a_aside < 0) == (b_aside < 0))
                continue;
            double a_mm = along.x_mm * ax + along.y_mm * ay;
            double b_mm = along.x_mm * bx + along.y_mm * by;
            double met_mm = a_mm + (b_mm - a_mm) * a_aside / (a_aside - b_aside);
            if (met_mm < 0) {
                before++;
                *from_mm = fmax(*from_mm, met_mm);
            } else {
                behind++;
                *to_mm = fmin(*to_mm, met_mm);
            }
        }
    }
    if (before % 2 == 0 || behind % 2 == 0)
        *from_mm = *to_mm = NAN;
}

/** From the middle of the longest edge to the other side, and the middle between. */
static void cross_longest(const runnel_contours *region, runnel_point *at, runnel_point *along) {
    const double inside_mm = 1e-6;
    double longest_mm = 0, from_mm, to_mm;
    for (size_t i = 0; i < region->count; i++) {
        const runnel_contour *ring = &region->items[i];
        const runnel_point *points = region->points + ring->first;
        for (size_t k = 0; k < ring->count; k++) {
            const runnel_point a = points[k], b = points[(k + 1) % ring->count];
            double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm, length_mm = hypot(dx, dy);
            if (length_mm <= longest_mm)
                continue;
            longest_mm = length_mm; /* the region is on the left of its rings */
            *along = (runnel_point){dy / length_mm, -dx / length_mm};
            *at = (runnel_point){0.5 * (a.x_mm + b.x_mm) - inside_mm * along->x_mm,
                                 0.5 * (a.y_mm + b.y_mm) - inside_mm * along->y_mm};
        }
    }
    cut_region(region, *at, *along, &from_mm, &to_mm);
    if (!isnan(from_mm)) {
        at->x_mm += 0.5 * (from_mm + to_mm) * along->x_mm;
        at->y_mm += 0.5 * (from_mm + to_mm) * along->y_mm;
    }
}

static void make_section(const looking *of, runnel_look_cavity *cavity) {
    const runnel_contours *face = &cavity->levels[0].region;
    cavity->deepest_at = of->planned->figures.deepest_at;
    cavity->narrowest_at = of->planned->figures.narrowest_at;
    cavity->is_even = of->job->cut.rule != RUNNEL_CUT_WALLS;
    cavity->section_at = cavity->deepest_at;
    cavity->along = direction_of(face, cavity->section_at);
    if (cavity->is_even)
        cross_longest(face, &cavity->section_at, &cavity->along);
    for (size_t i = 0; i < cavity->level_count; i++) {
        runnel_look_level *level = &cavity->levels[i];
        cut_region(&level->region, cavity->section_at, cavity->along, &level->from_mm,
                   &level->to_mm);
    }
}

/* ---- Places ---------------------------------------------------------------------------------- */

static void move_point(runnel_point *point, double dx_mm, double dy_mm) {
    point->x_mm += dx_mm;
    point->y_mm += dy_mm;
}

/** Moves a cavity so that its box begins there. */
static void put(runnel_look_cavity *cavity, double x_mm, double y_mm) {
    const double dx = x_mm - cavity->box.min_x_mm, dy = y_mm - cavity->box.min_y_mm;
    for (size_t i = 0; i < cavity->level_count; i++)
        for (size_t k = 0; k < cavity->levels[i].region.point_count; k++)
            move_point(&cavity->levels[i].region.points[k], dx, dy);
    move_point(&cavity->deepest_at, dx, dy);
    move_point(&cavity->narrowest_at, dx, dy);
    move_point(&cavity->section_at, dx, dy);
    cavity->box.min_x_mm += dx;
    cavity->box.max_x_mm += dx;
    cavity->box.min_y_mm += dy;
    cavity->box.max_y_mm += dy;
}

static double height_of(const runnel_look_cavity *cavity) {
    return cavity->box.max_y_mm - cavity->box.min_y_mm;
}

static bool is_loose(const runnel_job_piece *piece, const runnel_look_cavity *cavities, size_t i) {
    return cavities[i].is_known && !piece->cavities[i].is_placed;
}

/** Puts those that are not placed in the middle of the piece, from the top down; where that is too
 * high for it, all in the very middle, as a border is around letters. */
static void stack(const runnel_job_piece *piece, runnel_look_cavity *cavities) {
    double total_mm = -apart_mm;
    for (size_t i = 0; i < piece->cavity_count; i++)
        if (is_loose(piece, cavities, i))
            total_mm += height_of(&cavities[i]) + apart_mm;
    const bool fits = !(piece->width_mm > 0) || total_mm <= piece->width_mm;
    double top_mm = 0.5 * (piece->width_mm + total_mm);
    for (size_t i = 0; i < piece->cavity_count; i++) {
        const runnel_box *box = &cavities[i].box;
        if (!is_loose(piece, cavities, i))
            continue;
        double high_mm = height_of(&cavities[i]);
        put(&cavities[i], 0.5 * (piece->length_mm - (box->max_x_mm - box->min_x_mm)),
            fits ? top_mm - high_mm : 0.5 * (piece->width_mm - high_mm));
        top_mm = box->min_y_mm - apart_mm;
    }
}

static void grow(runnel_box *box, const runnel_box *with) {
    box->min_x_mm = fmin(box->min_x_mm, with->min_x_mm);
    box->min_y_mm = fmin(box->min_y_mm, with->min_y_mm);
    box->max_x_mm = fmax(box->max_x_mm, with->max_x_mm);
    box->max_y_mm = fmax(box->max_y_mm, with->max_y_mm);
}

static void place(const runnel_job_piece *piece, runnel_look_cavity *cavities,
                  runnel_look_piece *look) {
    runnel_box box = {INFINITY, INFINITY, -INFINITY, -INFINITY};
    look->places_told = true;
    stack(piece, cavities);
    for (size_t i = 0; i < piece->cavity_count; i++) {
        const runnel_job_cavity *cavity = &piece->cavities[i];
        if (!cavities[i].is_known)
            continue;
        if (cavity->is_placed)
            put(&cavities[i], cavity->at_x_mm, cavity->at_y_mm);
        look->places_told = look->places_told && cavity->is_placed;
        grow(&box, &cavities[i].box);
    }
    look->length_mm = piece->length_mm;
    look->width_mm = piece->width_mm;
    if (piece->length_mm > 0)
        grow(&box, &(runnel_box){0, 0, piece->length_mm, piece->width_mm});
    look->box = box;
}

/* ---- All ------------------------------------------------------------------------------------- */

static runnel_status look_at(const runnel_making *making, const runnel_job_cavity *cavity,
                             const runnel_plan_cavity *planned, runnel_look_depth depth,
                             runnel_look_cavity *seen) {
    looking of = {.job = cavity, .planned = planned};
    runnel_source_shape source = {0};
    if (planned->measured || !(planned->figures.volume_mm3 > 0))
        return RUNNEL_OK;
    runnel_status status = runnel_source_shape_make(making, cavity, &source);
    of.shape = source.shape;
    if (!status)
        status = make_levels(&of, depth, seen);
    if (!status && seen->level_count) {
        seen->is_known = true;
        seen->box = runnel_contours_box(&seen->levels[0].region);
        make_section(&of, seen);
    }
    runnel_source_shape_clear(&source);
    return status;
}

static runnel_status look_at_all(const runnel_making *making, const runnel_plan *plan,
                                 runnel_look_depth depth, runnel_look *look) {
    const runnel_job *job = making->job;
    size_t index = 0;
    runnel_status status = RUNNEL_OK;
    for (size_t p = 0; p < job->piece_count && !status; p++) {
        const runnel_job_piece *piece = &job->pieces[p];
        look->pieces[p] = (runnel_look_piece){.first = index, .count = piece->cavity_count};
        for (size_t c = 0; c < piece->cavity_count && !status; c++, index++)
            status = look_at(making, &piece->cavities[c], &plan->cavities[index], depth,
                             &look->cavities[index]);
        if (!status)
            place(piece, look->cavities + look->pieces[p].first, &look->pieces[p]);
    }
    return status;
}

runnel_status runnel_look_make(const runnel_job *job, const runnel_tables *tables,
                               const runnel_letters *letters, runnel_problems *problems,
                               const runnel_plan *plan, runnel_look_depth depth,
                               runnel_look *look) {
    const runnel_making making = {
        .job = job, .tables = tables, .letters = letters, .problems = problems};
    runnel_look made = {.piece_count = job->piece_count, .cavity_count = plan->cavity_count};
    made.pieces = runnel_zeroed(job->piece_count + 1, sizeof *made.pieces);
    made.cavities = runnel_zeroed(plan->cavity_count + 1, sizeof *made.cavities);
    runnel_status status = RUNNEL_E_NO_MEMORY;
    if (!made.pieces || !made.cavities)
        made.cavity_count = 0;
    else
        status = look_at_all(&making, plan, depth, &made);
    if (status) {
        runnel_look_clear(&made);
        return status;
    }
    *look = made;
    return RUNNEL_OK;
}
