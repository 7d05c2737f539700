/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shape/opening.h"

#include "base/memory.h"
#include "base/sum.h"

#include <math.h>
#include <stdlib.h>

/** Angle between the normals at x of a piece. */
static double turn_at(const runnel_piece *piece, double x) {
    return piece->kind == RUNNEL_PIECE_LINE ? piece->h : 2 * atan2(piece->h, fabs(x));
}

/** Sum of the turns where m = sigma inside a piece. */
static double turns(const runnel_piece *piece, double sigma) {
    if (!(piece->low < sigma && sigma < piece->high))
        return 0;
    if (piece->kind == RUNNEL_PIECE_LINE)
        return piece->h;
    double h = piece->h;
    double x = piece->kind == RUNNEL_PIECE_FAN_POINT ? sqrt((sigma - h) * (sigma + h))
                                                     : sqrt(h * (2 * sigma - h));
    double left = fmin(piece->x0, piece->x1), right = fmax(piece->x0, piece->x1);
    double each = turn_at(piece, x);
    return (x > left && x < right ? each : 0) + (-x > left && -x < right ? each : 0);
}

runnel_opening runnel_profile_opening(const runnel_profile *profile, double sigma) {
    runnel_sum area = {0}, length = {0}, angle = {0}, turn = {0};
    runnel_piece parts[2];
    for (size_t i = 0; i < profile->count; i++) {
        const runnel_piece *piece = &profile->pieces[i];
        size_t count = runnel_piece_above(piece, sigma, parts);
        for (size_t k = 0; k < count; k++) {
            runnel_sum_add(&area, parts[k].area);
            runnel_sum_add(runnel_piece_is_fan(piece) ? &angle : &length, parts[k].extent);
        }
        runnel_sum_add(&turn, 0.5 * turns(piece, sigma));
    }
    return (runnel_opening){runnel_sum_value(&area), runnel_sum_value(&length),
                            runnel_sum_value(&angle), runnel_sum_value(&turn)};
}

/** int m dtheta of a fan. */
static double fan_mean(const runnel_piece *piece) {
    if (piece->kind == RUNNEL_PIECE_FAN_LINE)
        return fabs(piece->x1 - piece->x0);
    if (piece->kind == RUNNEL_PIECE_FAN_POINT)
        return piece->h * fabs(asinh(piece->x1 / piece->h) - asinh(piece->x0 / piece->h));
    return piece->extent * piece->x0;
}

/** Antiderivative of psi dm along a parabola, x >= 0: psi = 2 atan(h/x), dm = x dx/h. */
static double parabola_turn(double h, double x) {
    return (x > 0 ? x * x * atan(h / x) : 0) / h + x - h * atan(x / h);
}

/** Antiderivative of psi dm along the bisector of two corners: psi = 2 asin(h/m). */
static double bisector_turn(double h, double x) {
    return 2 * (hypot(x, h) * atan2(h, x) + h * asinh(x / h));
}

/** int psi |dm| along a piece. */
static double turn_integral(const runnel_piece *piece) {
    if (piece->kind == RUNNEL_PIECE_LINE)
        return piece->h * (piece->high - piece->low);
    if (piece->kind == RUNNEL_PIECE_CONST || piece->kind == RUNNEL_PIECE_FAN_CONST)
        return 0;
    double (*of)(double, double) =
        piece->kind == RUNNEL_PIECE_FAN_POINT ? bisector_turn : parabola_turn;
    double a = of(piece->h, fabs(piece->x0)), b = of(piece->h, fabs(piece->x1));
    bool both_sides = (piece->x0 < 0) != (piece->x1 < 0);
    return both_sides ? a + b - 2 * of(piece->h, 0) : fabs(a - b);
}

/** Running sums of runnel_band. */
typedef struct band_sums {
    runnel_sum depth_volume, sector, slope, ridge, ridge_wall;
} band_sums;

static void add_to_band(band_sums *s, const runnel_piece *part, double rho, double cotangent) {
    double extent = part->extent, ridge;
    if (runnel_piece_is_fan(part)) {
        double mean = fan_mean(part);
        runnel_sum_add(&s->depth_volume,
                       part->moment - 0.5 * rho * rho * mean + rho * rho * rho / 6 * extent);
        ridge = rho * mean - 0.5 * rho * rho * extent;
    } else {
        runnel_sum_add(&s->depth_volume, part->moment - 0.5 * rho * rho * extent);
        ridge = rho * extent;
    }
    runnel_sum_add(&s->sector, 0.5 * turn_integral(part));
    runnel_sum_add(&s->slope, part->area - ridge);
    runnel_sum_add(&s->ridge, ridge);
    bool is_level = part->kind == RUNNEL_PIECE_CONST || part->kind == RUNNEL_PIECE_FAN_CONST;
    double rise = is_level ? 0 : cotangent * cos(0.5 * turn_at(part, 0.5 * (part->x0 + part->x1)));
    runnel_sum_add(&s->ridge_wall, ridge * sqrt(1 + rise * rise));
}

runnel_band runnel_profile_band(const runnel_profile *profile, double rho, double upper,
                                double cotangent) {
    band_sums s = {0};
    runnel_piece above[2], both[2];
    for (size_t i = 0; i < profile->count; i++) {
        size_t count = runnel_piece_above(&profile->pieces[i], rho, above);
        for (size_t k = 0; k < count; k++) {
            size_t inner = above[k].low < upper ? runnel_piece_below(&above[k], upper, both) : 0;
            for (size_t j = 0; j < inner; j++)
                add_to_band(&s, &both[j], rho, cotangent);
        }
    }
    return (runnel_band){runnel_sum_value(&s.depth_volume), runnel_sum_value(&s.sector),
                         runnel_sum_value(&s.slope), runnel_sum_value(&s.ridge),
                         runnel_sum_value(&s.ridge_wall)};
}

/** Whether a piece belongs to a stroke: its walls face each other somewhere below sigma. */
static bool is_thin_stroke(const runnel_piece *piece, double sigma) {
    const double least_angle = 150.0 / 180.0 * 3.14159265358979323846;
    if (piece->leaf || piece->low >= sigma)
        return false;
    if (piece->kind == RUNNEL_PIECE_CONST || piece->kind == RUNNEL_PIECE_FAN_CONST)
        return true;
    double nearest = 0;
    if ((piece->x0 < 0) == (piece->x1 < 0))
        nearest = fmin(fabs(piece->x0), fabs(piece->x1));
    return turn_at(piece, nearest) >= least_angle;
}

static uint32_t cycle_of(const runnel_profile *profile, const runnel_piece *piece) {
    return profile->boundary.edges ? profile->boundary.edges[piece->edge].cycle : 0;
}

/** m where the walk along the boundary leaves a piece. */
static double m_at_end(const runnel_piece *piece) {
    return runnel_piece_m(piece, piece->kind == RUNNEL_PIECE_LINE ? 1 : piece->x1);
}

/** A thin piece: the pair of elements that its stretch of medial axis lies between, and its run. */
typedef struct thin_piece {
    uint64_t between;
    uint32_t run;
} thin_piece;

/** Thin pieces found, and how many runs they fall into. */
typedef struct thin_list {
    thin_piece *items;
    size_t count, capacity;
    uint32_t runs;
} thin_list;

static int by_pair(const void *left, const void *right) {
    const thin_piece *a = left, *b = right;
    return (a->between > b->between) - (a->between < b->between);
}

/** The same for both walls of a stroke: each is the other's stop. */
static uint64_t pair_of(const runnel_piece *piece) {
    uint32_t own = runnel_piece_is_fan(piece) ? runnel_stop_corner(piece->edge)
                                              : runnel_stop_edge(piece->edge);
    uint32_t low = own < piece->stop ? own : piece->stop;
    return (uint64_t)low << 32 | (own ^ piece->stop ^ low);
}

/**
 * Collects the thin pieces [from, to) of one cycle, in runs: a run goes on until some disc is as
 * wide as the tip, so that the corners of a curve and the bends of a stroke do not end it.
 */
static runnel_status collect_thin(const runnel_profile *profile, double sigma, size_t from,
                                  size_t to, thin_list *list) {
    bool inside = false;
    for (size_t i = from; i < to; i++) {
        const runnel_piece *piece = &profile->pieces[i];
        bool thin = is_thin_stroke(piece, sigma);
        if (thin) {
            runnel_status status =
                runnel_reserve(&list->items, &list->capacity, list->count + 1, sizeof *list->items);
            if (status)
                return status;
            list->runs += !inside;
            list->items[list->count++] = (thin_piece){pair_of(piece), list->runs - 1};
        }
        inside = thin ? m_at_end(piece) < sigma : inside && piece->high < sigma;
    }
    return RUNNEL_OK;
}

static uint32_t root_of(uint32_t *parent, uint32_t run) {
    while (parent[run] != run)
        run = parent[run] = parent[parent[run]];
    return run;
}

/** Runs that face each other are one place. */
static size_t count_places(const thin_list *list, uint32_t *parent) {
    size_t places = list->runs;
    for (uint32_t i = 0; i < list->runs; i++)
        parent[i] = i;
    for (size_t i = 1; i < list->count; i++) {
        if (list->items[i].between != list->items[i - 1].between)
            continue;
        uint32_t a = root_of(parent, list->items[i].run);
        uint32_t b = root_of(parent, list->items[i - 1].run);
        places -= a != b;
        parent[a] = b;
    }
    return places;
}

runnel_status runnel_profile_thin_places(const runnel_profile *profile, double sigma,
                                         size_t *places) {
    thin_list list = {0};
    uint32_t *parent = NULL;
    runnel_status status = RUNNEL_OK;
    for (size_t from = 0, to = 0; from < profile->count && !status; from = to) {
        uint32_t cycle = cycle_of(profile, &profile->pieces[from]);
        while (to < profile->count && cycle_of(profile, &profile->pieces[to]) == cycle)
            to++;
        status = collect_thin(profile, sigma, from, to, &list);
    }
    if (!status && list.count) {
        parent = runnel_zeroed(list.runs, sizeof *parent);
        status = parent ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
        qsort(list.items, list.count, sizeof *list.items, by_pair);
    }
    if (!status)
        *places = list.count ? count_places(&list, parent) : 0;
    runnel_free(parent);
    runnel_free(list.items);
    return status;
}
