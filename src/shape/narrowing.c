/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Which strokes an inset leaves nothing of.
 *
 * What vanishes shows along the boundary as runs of pieces with m <= t. A run takes in the branches
 * into corners on its way, as the walls of a curve have many nearly straight ones. Each place on
 * the medial axis is seen from both its walls: the runs that hold the two sides of the same pair of
 * elements belong together.
 */
#include "base/memory.h"
#include "shape/pieces.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/** A stretch of boundary with m <= t, and what it knows of the strokes along it. */
typedef struct run {
    size_t parent;           /**< an earlier run of the same place, or itself */
    bool is_stroke;          /**< has walls that face each other */
    bool is_whole;           /**< goes round a whole ring */
    runnel_medial narrowest; /**< of the facing walls */
    runnel_medial widest;    /**< of all */
    double length_mm;        /**< of the centre line */
} run;

/** The pair of elements that stop each other's discs in a piece, lower number first. */
typedef struct pair {
    runnel_stop low, high;
    size_t run;
} pair;

typedef struct search {
    const runnel_profile *profile;
    double from, below;
    run *runs;
    size_t run_count, run_capacity;
    pair *pairs;
    size_t pair_count, pair_capacity;
} search;

void runnel_thin_strokes_clear(runnel_thin_strokes *strokes) {
    if (!strokes)
        return;
    runnel_free(strokes->items);
    memset(strokes, 0, sizeof *strokes);
}

/* ---- Runs that belong together -------------------------------------------------------------- */

static size_t root_of(const search *s, size_t index) {
    while (s->runs[index].parent != index)
        index = s->runs[index].parent;
    return index;
}

/** Joins two runs into the earlier one. */
static void join(search *s, size_t one, size_t other) {
    size_t a = root_of(s, one), b = root_of(s, other);
    if (a == b)
        return;
    run *into = &s->runs[a < b ? a : b], *from = &s->runs[a < b ? b : a];
    from->parent = a < b ? a : b;
    into->is_stroke = into->is_stroke || from->is_stroke;
    into->is_whole = into->is_whole || from->is_whole;
    into->length_mm += from->length_mm;
    if (from->narrowest.m_mm < into->narrowest.m_mm)
        into->narrowest = from->narrowest;
    if (from->widest.m_mm > into->widest.m_mm)
        into->widest = from->widest;
}

static int compare_pairs(const void *one, const void *other) {
    const pair *a = one, *b = other;
    if (a->low != b->low)
        return a->low < b->low ? -1 : 1;
    if (a->high != b->high)
        return a->high < b->high ? -1 : 1;
    return (a->run > b->run) - (a->run < b->run);
}

static void join_pairs(search *s) {
    if (s->pair_count)
        qsort(s->pairs, s->pair_count, sizeof *s->pairs, compare_pairs);
    for (size_t i = 1; i < s->pair_count; i++)
        if (s->pairs[i].low == s->pairs[i - 1].low && s->pairs[i].high == s->pairs[i - 1].high)
            join(s, s->pairs[i].run, s->pairs[i - 1].run);
}

/* ---- One piece ------------------------------------------------------------------------------ */

static double start_m(const runnel_piece *piece) {
    return piece->kind == RUNNEL_PIECE_LINE ? piece->x0 : runnel_piece_m(piece, piece->x0);
}

static double end_m(const runnel_piece *piece) {
    return piece->kind == RUNNEL_PIECE_LINE ? piece->x1 : runnel_piece_m(piece, piece->x1);
}

/** x of a part where m is least; for LINE 0 or 1. */
static double lowest_x(const runnel_piece *part) {
    if (part->kind == RUNNEL_PIECE_LINE)
        return part->x0 <= part->x1 ? 0 : 1;
    if ((part->x0 < 0) != (part->x1 < 0))
        return 0;
    return fabs(part->x0) < fabs(part->x1) ? part->x0 : part->x1;
}

/** x of a part where m is greatest. */
static double highest_x(const runnel_piece *part) {
    if (part->kind == RUNNEL_PIECE_LINE)
        return part->x0 <= part->x1 ? 1 : 0;
    return fabs(part->x0) < fabs(part->x1) ? part->x1 : part->x0;
}

/** Place on the medial axis at x of a part of `piece`. */
static runnel_medial place_at(const runnel_profile *profile, const runnel_piece *piece,
                              const runnel_piece *part, double x) {
    double m = runnel_piece_m(part, x);
    double at = piece->kind == RUNNEL_PIECE_LINE ? (x == 0 ? part->from : part->to)
                                                 : runnel_piece_parameter(profile, piece, x);
    return (runnel_medial){m, runnel_piece_centre(profile, piece, at, m)};
}

/** Whether the walls of a part run within 30 degrees of parallel somewhere. */
static bool is_facing(const runnel_piece *part) {
    const double least_angle = 150.0 / 180.0 * 3.14159265358979323846;
    if (part->leaf)
        return false;
    double turn =
        part->kind == RUNNEL_PIECE_LINE ? part->h : 2 * atan2(part->h, fabs(lowest_x(part)));
    return turn >= least_angle;
}

/** Length of the medial axis along a part. */
static double centre_length(const runnel_profile *profile, const runnel_piece *part) {
    if (part->kind == RUNNEL_PIECE_LINE) {
        runnel_point a = runnel_piece_centre(profile, part, part->from, part->x0);
        runnel_point b = runnel_piece_centre(profile, part, part->to, part->x1);
        return hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
    }
    if (part->kind == RUNNEL_PIECE_FAN_POINT)
        return fabs(part->x1 - part->x0);
    /* a parabola with its focus h from its line: int sqrt(1 + (x/h)^2) dx */
    double a = part->x0 / part->h, b = part->x1 / part->h;
    return 0.5 * part->h * fabs(b * hypot(b, 1) + asinh(b) - a * hypot(a, 1) - asinh(a));
}

/** Takes what of a part is cut at all into its run. */
static void add_stroke(search *s, const runnel_piece *piece, const runnel_piece *part,
                       bool is_first_side, run *to) {
    const runnel_profile *profile = s->profile;
    runnel_piece cut[2];
    size_t count = runnel_piece_above(part, s->from, cut);
    for (size_t i = 0; i < count; i++) {
        runnel_medial high = place_at(profile, piece, &cut[i], highest_x(&cut[i]));
        if (high.m_mm > to->widest.m_mm)
            to->widest = high;
        if (!is_facing(&cut[i]))
            continue;
        runnel_medial low = place_at(profile, piece, &cut[i], lowest_x(&cut[i]));
        to->is_stroke = true;
        if (low.m_mm < to->narrowest.m_mm)
            to->narrowest = low;
        if (is_first_side)
            to->length_mm += centre_length(profile, &cut[i]);
    }
}

/** Adds a thin part of a piece to the last run, or to a new one. */
static runnel_status add_part(search *s, const runnel_piece *piece, const runnel_piece *part,
                              bool starts_run) {
    runnel_status status = RUNNEL_OK;
    if (starts_run)
        status = runnel_reserve(&s->runs, &s->run_capacity, s->run_count + 1, sizeof *s->runs);
    if (!status)
        status = runnel_reserve(&s->pairs, &s->pair_capacity, s->pair_count + 1, sizeof *s->pairs);
    if (status)
        return status;
    if (starts_run) {
        s->runs[s->run_count] = (run){
            .parent = s->run_count, .narrowest = {INFINITY, {0, 0}}, .widest = {-INFINITY, {0, 0}}};
        s->run_count++;
    }
    runnel_stop own = runnel_piece_is_fan(piece) ? runnel_stop_corner(piece->edge)
                                                 : runnel_stop_edge(piece->edge);
    size_t last = s->run_count - 1;
    bool is_first_side = own < piece->stop;
    s->pairs[s->pair_count++] =
        (pair){is_first_side ? own : piece->stop, is_first_side ? piece->stop : own, last};
    add_stroke(s, piece, part, is_first_side, &s->runs[last]);
    return RUNNEL_OK;
}

/* ---- All of them ---------------------------------------------------------------------------- */

/** The pieces of one ring, from `first` on; tells where the next ring begins. */
static runnel_status walk_ring(search *s, size_t first, size_t *next) {
    const runnel_profile *profile = s->profile;
    const runnel_edge *edges = profile->boundary.edges;
    uint32_t cycle = edges[profile->pieces[first].edge].cycle;
    size_t first_run = s->run_count, i = first;
    bool joined = false, is_whole = true;
    for (; i < profile->count && edges[profile->pieces[i].edge].cycle == cycle; i++) {
        const runnel_piece *piece = &profile->pieces[i];
        runnel_piece parts[2];
        size_t count = runnel_piece_below(piece, s->below, parts);
        is_whole = is_whole && piece->high <= s->below;
        if (!count) {
            joined = false;
            continue;
        }
        runnel_status status =
            add_part(s, piece, &parts[0], !joined || !(start_m(piece) <= s->below));
        if (status)
            return status;
        joined = end_m(piece) <= s->below;
    }
    if (s->run_count > first_run) {
        if (joined && start_m(&profile->pieces[first]) <= s->below)
            join(s, first_run, s->run_count - 1);
        s->runs[first_run].is_whole = is_whole;
    }
    *next = i;
    return RUNNEL_OK;
}

static runnel_status keep(runnel_thin_strokes *list, runnel_medial place, double length_mm) {
    runnel_status status =
        runnel_reserve(&list->items, &list->capacity, list->count + 1, sizeof *list->items);
    if (!status)
        list->items[list->count++] = (runnel_thin_stroke){place.at, 2 * place.m_mm, length_mm};
    return status;
}

/** Exact shapes: one stroke, as wide as the shorter side; the longer sides' free part, the last
 * piece where there is one, counts both walls. */
static runnel_status search_rounded(const search *s, runnel_thin_strokes *list) {
    const runnel_profile *profile = s->profile;
    const runnel_piece *last = &profile->pieces[profile->count - 1];
    double m = profile->widest.m_mm;
    bool has_sides = profile->count > 2 && last->kind == RUNNEL_PIECE_CONST;
    if (!(m <= s->below) || !(m >= s->from))
        return RUNNEL_OK;
    return keep(list, profile->widest, has_sides ? 0.5 * last->extent : 0);
}

static runnel_status search_polygon(search *s, runnel_thin_strokes *list) {
    runnel_status status = RUNNEL_OK;
    for (size_t next = 0; next < s->profile->count && !status;)
        status = walk_ring(s, next, &next);
    if (status)
        return status;
    join_pairs(s);
    for (size_t i = 0; i < s->run_count && !status; i++) {
        const run *r = &s->runs[i];
        if (r->parent != i)
            continue;
        if (r->is_stroke)
            status = keep(list, r->narrowest, r->length_mm);
        else if (r->is_whole && isfinite(r->widest.m_mm))
            status = keep(list, r->widest, 0);
    }
    return status;
}

runnel_status runnel_profile_thin_strokes(const runnel_profile *profile, double from_mm,
                                          double below_mm, runnel_thin_strokes *strokes) {
    search s = {.profile = profile, .from = from_mm, .below = below_mm};
    runnel_thin_strokes found = {0};
    if (isfinite(profile->reach_mm) || !(from_mm >= 0) || !(below_mm >= from_mm))
        return RUNNEL_E_RANGE;
    runnel_status status =
        profile->boundary.count ? search_polygon(&s, &found) : search_rounded(&s, &found);
    runnel_free(s.runs);
    runnel_free(s.pairs);
    if (status) {
        runnel_thin_strokes_clear(&found);
        return status;
    }
    runnel_thin_strokes_clear(strokes);
    *strokes = found;
    return RUNNEL_OK;
}
