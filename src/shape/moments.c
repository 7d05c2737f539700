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

runnel_moments runnel_profile_moments(const runnel_profile *profile, double t) {
    sums s = {0};
    runnel_piece parts[2];
    t = fmin(t, profile->reach_mm);
    for (size_t i = 0; i < profile->count; i++) {
        const runnel_piece *piece = &profile->pieces[i];
        if (piece->high <= t) {
            add_below(&s, piece);
        } else if (piece->low >= t) {
            add_above(&s, piece, t);
        } else {
            size_t count = runnel_piece_below(piece, t, parts);
            for (size_t k = 0; k < count; k++)
                add_below(&s, &parts[k]);
            count = runnel_piece_above(piece, t, parts);
            for (size_t k = 0; k < count; k++)
                add_above(&s, &parts[k], t);
        }
    }
    return (runnel_moments){.area = runnel_sum_value(&s.area),
                            .first = runnel_sum_value(&s.first),
                            .fan_first = runnel_sum_value(&s.fan_first),
                            .length = runnel_sum_value(&s.length),
                            .angle = runnel_sum_value(&s.angle),
                            .beyond = runnel_sum_value(&s.beyond)};
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
