/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shape/opening.h"

#include "base/sum.h"

#include <math.h>

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

runnel_opening runnel_profile_opening(const runnel_profile *profile, double sigma_mm) {
    double sigma = runnel_fitting(sigma_mm);
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

/** Running sums of runnel_rise. */
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

runnel_rise runnel_profile_rise(const runnel_profile *profile, double rho_mm, double upper_mm,
                                double cotangent) {
    double rho = runnel_fitting(rho_mm), upper = runnel_fitting(upper_mm);
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
    return (runnel_rise){runnel_sum_value(&s.depth_volume), runnel_sum_value(&s.sector),
                         runnel_sum_value(&s.slope), runnel_sum_value(&s.ridge),
                         runnel_sum_value(&s.ridge_wall)};
}
