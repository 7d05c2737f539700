/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shape/moments.h"

#include "base/sum.h"
#include "numeric/quadrature.h"

#include <math.h>

/** Running sums of runnel_moments. */
typedef struct sums {
    runnel_sum area, first, fan_first, length, angle, beyond;
} sums;

static void add_below(sums *s, const runnel_piece *piece) {
    runnel_sum_add(&s->area, piece->area);
    runnel_sum_add(&s->first, piece->moment);
    if (runnel_piece_is_fan(piece))
        runnel_sum_add(&s->fan_first, piece->moment);
}

static void add_above(sums *s, const runnel_piece *piece, double t) {
    double e = piece->extent;
    if (runnel_piece_is_fan(piece)) {
        runnel_sum_add(&s->angle, e);
        runnel_sum_add(&s->area, 0.5 * t * t * e);
        runnel_sum_add(&s->first, t * t * t / 3 * e);
        runnel_sum_add(&s->fan_first, t * t * t / 3 * e);
        runnel_sum_add(&s->beyond, piece->area - 0.5 * t * t * e);
    } else {
        runnel_sum_add(&s->length, e);
        runnel_sum_add(&s->area, t * e);
        runnel_sum_add(&s->first, 0.5 * t * t * e);
        runnel_sum_add(&s->beyond, piece->area - t * e);
    }
}

/** One piece that may lie on both sides of T. */
static void add_piece(sums *s, const runnel_piece *piece, double t) {
    runnel_piece parts[2];
    if (piece->high <= t) {
        add_below(s, piece);
        return;
    }
    if (piece->low >= t) {
        add_above(s, piece, t);
        return;
    }
    size_t count = runnel_piece_below(piece, t, parts);
    for (size_t k = 0; k < count; k++)
        add_below(s, &parts[k]);
    count = runnel_piece_above(piece, t, parts);
    for (size_t k = 0; k < count; k++)
        add_above(s, &parts[k], t);
}

/** What the level's sums say at T; see levels.h. */
static void add_level(sums *s, const runnel_level_sums *level, double t) {
    const double *l = level->of;
    double square = t * t, cube = square * t, k = l[RUNNEL_LEVEL_K];
    double length = l[RUNNEL_LEVEL_LENGTH], angle = l[RUNNEL_LEVEL_ANGLE];
    double longer = l[RUNNEL_LEVEL_K_B] - k * t;
    runnel_sum_add(&s->area, l[RUNNEL_LEVEL_AREA] + t * length + 0.5 * square * angle);
    runnel_sum_add(&s->area, 0.5 * (k * square - l[RUNNEL_LEVEL_K_A2]) + t * longer);
    runnel_sum_add(&s->first, l[RUNNEL_LEVEL_FIRST] + 0.5 * square * length + cube / 3 * angle);
    runnel_sum_add(&s->first, (k * cube - l[RUNNEL_LEVEL_K_A3]) / 6 + 0.5 * square * longer);
    runnel_sum_add(&s->fan_first, l[RUNNEL_LEVEL_FAN_FIRST] + cube / 3 * angle);
    runnel_sum_add(&s->length, length + longer);
    runnel_sum_add(&s->angle, angle);
    runnel_sum_add(&s->beyond, l[RUNNEL_LEVEL_AREA_ABOVE] - t * length - 0.5 * square * angle);
    runnel_sum_add(&s->beyond, 0.5 * (l[RUNNEL_LEVEL_K_B2] - k * square) - t * longer);
}

runnel_moments runnel_profile_moments(const runnel_profile *profile, double t) {
    sums s = {0};
    const runnel_levels *levels = &profile->levels;
    t = fmin(t, isfinite(profile->reach_mm) ? profile->reach_mm : levels->top_mm);
    size_t level = runnel_levels_find(levels, t);
    add_level(&s, &levels->sums[level], t);
    for (uint32_t i = levels->first[level]; i < levels->first[level + 1]; i++)
        add_piece(&s, &profile->pieces[levels->listed[i]], t);
    return (runnel_moments){.area = runnel_sum_value(&s.area),
                            .first = runnel_sum_value(&s.first),
                            .fan_first = runnel_sum_value(&s.fan_first),
                            .length = runnel_sum_value(&s.length),
                            .angle = runnel_sum_value(&s.angle),
                            .beyond = runnel_sum_value(&s.beyond)};
}

runnel_status runnel_profile_finish(runnel_profile *profile) {
    return runnel_levels_build(profile->pieces, profile->count, &profile->levels);
}

double runnel_profile_area_mm2(const runnel_profile *profile) {
    return profile->area_mm2;
}

double runnel_profile_mismatch(const runnel_profile *profile) {
    return profile->mismatch;
}

double runnel_profile_widest(const runnel_profile *profile, runnel_point *at) {
    if (at)
        *at = profile->widest.at;
    return profile->widest.m_mm;
}

double runnel_profile_narrowest(const runnel_profile *profile, runnel_point *at) {
    if (at)
        *at = profile->narrowest.at;
    return profile->narrowest.m_mm;
}

size_t runnel_profile_segments(const runnel_profile *profile) {
    return profile->segments;
}

size_t runnel_profile_pieces(const runnel_profile *profile) {
    return profile->count;
}

double runnel_profile_beyond_mm2(const runnel_profile *profile, double t_mm) {
    return runnel_profile_moments(profile, t_mm).beyond;
}

double runnel_profile_border_mm(const runnel_profile *profile, double t_mm) {
    runnel_moments moments = runnel_profile_moments(profile, t_mm);
    return moments.length + moments.angle * t_mm;
}

/** A radial function along a piece. */
typedef struct along {
    const runnel_piece *piece;
    const runnel_radial *radial;
    double x0, length; /**< in the variable of integration */
} along;

/**
 * The integrand at u in [0, 1]. Where m nears the end of f its antiderivative may have a root; the
 * substitution x = x0 + L u^2 (3 - 2u), whose slope vanishes at both ends, makes it smooth.
 */
static double integrand(double u, void *state) {
    const along *a = state;
    const runnel_piece *p = a->piece;
    double x = a->x0 + a->length * u * u * (3 - 2 * u), slope = fabs(a->length) * 6 * u * (1 - u);
    double m = runnel_piece_m(p, x);
    const void *inner = a->radial->state;
    switch (p->kind) {
    case RUNNEL_PIECE_LINE:
        return slope * p->extent * a->radial->segment(m, inner);
    case RUNNEL_PIECE_POINT:
        return slope * a->radial->segment(m, inner);
    case RUNNEL_PIECE_FAN_LINE:
        return slope * a->radial->fan(m, inner) / m;
    case RUNNEL_PIECE_FAN_POINT:
        return slope * a->radial->fan(m, inner) * p->h / (m * m);
    case RUNNEL_PIECE_CONST:
    case RUNNEL_PIECE_FAN_CONST:
        break;
    }
    return 0;
}

/** Adds one piece with m <= T; the finer of two rules, their gap counts as the error. */
static void add_radial(const runnel_piece *piece, const runnel_radial *radial, runnel_sum *sum,
                       double *error) {
    if (piece->kind == RUNNEL_PIECE_CONST) {
        runnel_sum_add(sum, piece->extent * radial->segment(piece->x0, radial->state));
    } else if (piece->kind == RUNNEL_PIECE_FAN_CONST) {
        runnel_sum_add(sum, piece->extent * radial->fan(piece->x0, radial->state));
    } else {
        bool line = piece->kind == RUNNEL_PIECE_LINE;
        along a = {piece, radial, line ? 0 : piece->x0, line ? 1 : piece->x1 - piece->x0};
        double fine = runnel_gauss_legendre(integrand, &a, 0, 1, 32);
        double coarse = runnel_gauss_legendre(integrand, &a, 0, 1, 20);
        runnel_sum_add(sum, fine);
        *error += fabs(fine - coarse);
    }
}

double runnel_profile_radial(const runnel_profile *profile, double t, const runnel_radial *radial,
                             double *error) {
    runnel_sum sum = {0};
    runnel_piece parts[2];
    double length = 0, angle = 0;
    t = fmin(t, profile->reach_mm);
    *error = 0;
    for (size_t i = 0; i < profile->count; i++) {
        const runnel_piece *piece = &profile->pieces[i];
        size_t count = runnel_piece_below(piece, t, parts);
        for (size_t k = 0; k < count; k++)
            add_radial(&parts[k], radial, &sum, error);
        if (piece->low >= t && piece->high > t) {
            *(runnel_piece_is_fan(piece) ? &angle : &length) += piece->extent;
            continue;
        }
        count = piece->high > t ? runnel_piece_above(piece, t, parts) : 0;
        for (size_t k = 0; k < count; k++)
            *(runnel_piece_is_fan(piece) ? &angle : &length) += parts[k].extent;
    }
    runnel_sum_add(&sum, length * radial->segment(t, radial->state));
    runnel_sum_add(&sum, angle * radial->fan(t, radial->state));
    return runnel_sum_value(&sum);
}
