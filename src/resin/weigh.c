/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "resin/amount.h"
#include "resin/steps.h"
#include "runnel/resin.h"

#include <math.h>
#include <stdint.h>

/* How far a part may go above its need, as a share of it or in steps, whichever is more. */
static const double allowed_excess = 0.02;
static const double allowed_steps = 2;
/* Ratios nearer to each other than this share are as good as equal. */
static const double indistinct_ratio = 0.001;
/* Masses of part A that are looked at. With more steps than this in the allowed excess one
 * step changes the ratio by less than any scale can show. */
static const int64_t most_candidates = 4096;

static bool scale_is_sound(const runnel_scale *scale) {
    return runnel_is_positive(scale->step_g) && runnel_is_amount(scale->accuracy_counts) &&
           runnel_is_amount(scale->accuracy_percent);
}

/* Greatest error of a mass that is the difference of so many readings, g. */
static double mass_error_g(const runnel_scale *scale, double readings, double mass_g) {
    double counts_g = readings * scale->accuracy_counts * scale->step_g;
    double percent_g = scale->accuracy_percent / 100 * mass_g;
    return readings * scale->step_g / 2 + fmax(counts_g, percent_g);
}

/* With B read in so many readings; A is read in one. */
static runnel_status ratio_range(const runnel_scale *scale, double readings_of_b, double part_a_g,
                                 double part_b_g, double *low, double *high) {
    if (!scale_is_sound(scale) || !runnel_is_positive(part_a_g) || !runnel_is_positive(part_b_g))
        return RUNNEL_E_RANGE;
    double off_a_g = mass_error_g(scale, 1, part_a_g);
    double off_b_g = mass_error_g(scale, readings_of_b, part_b_g);
    double shown = part_b_g / part_a_g;
    double least = fmax(0, part_b_g - off_b_g) / (part_a_g + off_a_g);
    double most = off_a_g < part_a_g ? (part_b_g + off_b_g) / (part_a_g - off_a_g) : INFINITY;
    *low = least / shown - 1;
    *high = most / shown - 1;
    return RUNNEL_OK;
}

runnel_status runnel_scale_ratio_range(const runnel_scale *scale, double part_a_g, double part_b_g,
                                       double *low, double *high) {
    return ratio_range(scale, 1, part_a_g, part_b_g, low, high);
}

double runnel_scale_added_error(const runnel_scale *scale, double part_a_g, double part_b_g) {
    double low, high;
    if (ratio_range(scale, 2, part_a_g, part_b_g, &low, &high) != RUNNEL_OK)
        return NAN;
    return fmax(-low, high);
}

double runnel_scale_ratio_error(const runnel_scale *scale, double part_a_g, double part_b_g) {
    double low, high;
    if (runnel_scale_ratio_range(scale, part_a_g, part_b_g, &low, &high) != RUNNEL_OK)
        return NAN;
    return fmax(-low, high);
}

/* Least mass m with steps/m + percentages <= tolerance. */
static double least_mass_g(double steps_g, double percentages, double tolerance) {
    double left = tolerance - percentages;
    return left > 0 ? steps_g / left : INFINITY;
}

/*
 * The upper side governs: (b + off_b)/(a - off_a) <= (1 + t) b/a, that is off_b/b + (1 + t) off_a/a
 * <= t. Each error is half a step and the larger of counts and percentage, so the left side is the
 * largest of four sums, one for each choice of the two; all of them must be within t.
 */
runnel_status runnel_scale_smallest_batch(const runnel_scale *scale, const runnel_mixture *mixture,
                                          double tolerance, double *mass_g) {
    if (!scale_is_sound(scale) || !runnel_is_positive(tolerance) ||
        !runnel_is_positive(mixture->weight_a) || !runnel_is_positive(mixture->weight_b))
        return RUNNEL_E_RANGE;
    double half_step_g = scale->step_g / 2, share = scale->accuracy_percent / 100;
    double counts_g = half_step_g + scale->accuracy_counts * scale->step_g;
    double least_g = 0;
    for (int choice = 0; choice < 4; choice++) {
        bool a_by_share = choice & 1, b_by_share = choice & 2;
        double a_g = a_by_share ? half_step_g : counts_g, b_g = b_by_share ? half_step_g : counts_g;
        double shares = (b_by_share ? share : 0) + (a_by_share ? (1 + tolerance) * share : 0);
        double steps_g =
            b_g * (1 / mixture->weight_b) + a_g * ((1 + tolerance) / mixture->weight_a);
        if (!isfinite(steps_g))
            return RUNNEL_E_RANGE;
        least_g = fmax(least_g, least_mass_g(steps_g, shares, tolerance));
    }
    *mass_g = least_g;
    return isfinite(least_g) ? RUNNEL_OK : RUNNEL_NOT_POSSIBLE;
}

/* Whole steps that a part may have. */
typedef struct span {
    int64_t least, most;
} span;

int64_t runnel_least_steps(double need_g, double step_g) {
    double counts = need_g / step_g;
    return (int64_t)fmax(1, ceil(counts - counts * RUNNEL_STEP_SLACK));
}

static span span_of(double need_g, double step_g) {
    double counts = need_g / step_g;
    double excess = fmax(allowed_excess * counts, allowed_steps);
    int64_t least = runnel_least_steps(need_g, step_g), most = (int64_t)floor(counts + excess);
    return (span){least, most > least ? most : least};
}

/* A pair in steps and the share by which its B/A is off. */
typedef struct pair {
    int64_t a, b;
    double off;
} pair;

static pair pair_of(int64_t a, double b, span b_span, double b_per_a) {
    double inside = fmin(fmax(b, (double)b_span.least), (double)b_span.most);
    return (pair){a, (int64_t)inside, inside / (double)a / b_per_a - 1};
}

/* Fills in the two pairs of `a` with the whole B below and above the exact one. */
static void neighbours(int64_t a, span b, double b_per_a, pair found[2]) {
    double below = floor((double)a * b_per_a);
    found[0] = pair_of(a, below, b, b_per_a);
    found[1] = pair_of(a, below + 1, b, b_per_a);
}

static bool is_better(const pair *one, const pair *other) {
    int64_t size = one->a + one->b, other_size = other->a + other->b;
    return size == other_size ? fabs(one->off) < fabs(other->off) : size < other_size;
}

static pair choose(span a, span b, double b_per_a) {
    int64_t candidates = a.most - a.least + 1;
    int64_t end = a.least + (candidates < most_candidates ? candidates : most_candidates);
    pair found[2];
    double best_off = INFINITY;
    for (int64_t count = a.least; count < end; count++) {
        neighbours(count, b, b_per_a, found);
        best_off = fmin(best_off, fmin(fabs(found[0].off), fabs(found[1].off)));
    }
    pair chosen = {0};
    for (int64_t count = a.least; count < end; count++) {
        neighbours(count, b, b_per_a, found);
        for (int i = 0; i < 2; i++)
            if (fabs(found[i].off) <= best_off + indistinct_ratio &&
                (chosen.a == 0 || is_better(&found[i], &chosen)))
                chosen = found[i];
    }
    return chosen;
}

/* Mass of a number of steps; 1002 steps of 0.1 g are 100.2, not 100.2 and a rounding. */
static double steps_g(double count, double step_g) {
    double per_gram = round(1 / step_g);
    bool divides = per_gram >= 1 && fabs(per_gram * step_g - 1) < 1e-12;
    return divides ? count / per_gram : count * step_g;
}

static bool weigh_is_sound(const runnel_mixture *mixture, double density_a_g_per_ml,
                           double density_b_g_per_ml, double total_mm3, double tint,
                           const runnel_scale *scale) {
    return scale_is_sound(scale) && runnel_is_positive(mixture->weight_a) &&
           runnel_is_positive(mixture->weight_b) && runnel_is_positive(mixture->density_g_per_ml) &&
           runnel_is_positive(density_a_g_per_ml) && runnel_is_positive(density_b_g_per_ml) &&
           runnel_is_positive(total_mm3) && runnel_is_amount(tint);
}

/* Worst share by which the B/A in the cup can be off when all readings are as shown. */
static double worst_ratio_error(const runnel_scale *scale, double readings_of_b,
                                const runnel_weighing *of) {
    double low = 0, high = 0, off = of->rounding_error;
    if (ratio_range(scale, readings_of_b, of->part_a_g, of->part_b_g, &low, &high) != RUNNEL_OK)
        return INFINITY;
    return fmax(fabs((1 + off) * (1 + low) - 1), fabs((1 + off) * (1 + high) - 1));
}

runnel_status runnel_weighing_of_steps(const runnel_order *order, int64_t a, int64_t b,
                                       runnel_weighing *weighing) {
    double step_g = order->scale->step_g;
    double b_per_a = order->mixture->weight_b / order->mixture->weight_a;
    runnel_weighing fresh = {.part_a_g = steps_g((double)a, step_g),
                             .part_b_g = steps_g((double)b, step_g),
                             .total_g = steps_g((double)(a + b), step_g),
                             .rounding_error = (double)b / (double)a / b_per_a - 1};
    fresh.tint_g = steps_g(round(order->tint * fresh.total_g / step_g), step_g);
    fresh.part_a_ml = fresh.part_a_g / order->density_a_g_per_ml;
    fresh.part_b_ml = fresh.part_b_g / order->density_b_g_per_ml;
    fresh.total_ml = fresh.part_a_ml + fresh.part_b_ml;
    fresh.zero_before_b = true;
    fresh.ratio_error = worst_ratio_error(order->scale, 1, &fresh);
    if (!isfinite(fresh.total_ml) || !isfinite(fresh.tint_g))
        return RUNNEL_E_RANGE;
    *weighing = fresh;
    return RUNNEL_OK;
}

void runnel_weighing_choose_way(const runnel_scale *scale, double tolerance,
                                runnel_weighing *weighing) {
    double added = worst_ratio_error(scale, 2, weighing);
    if (!(added <= tolerance))
        return;
    weighing->ratio_error = added;
    weighing->zero_before_b = false;
}

runnel_status runnel_weigh(const runnel_mixture *mixture, double density_a_g_per_ml,
                           double density_b_g_per_ml, double total_mm3, double tint,
                           const runnel_scale *scale, runnel_weighing *weighing) {
    if (!weigh_is_sound(mixture, density_a_g_per_ml, density_b_g_per_ml, total_mm3, tint, scale))
        return RUNNEL_E_RANGE;
    double need_g = total_mm3 / 1000 * mixture->density_g_per_ml, step_g = scale->step_g;
    double need_a_g = need_g * mixture->weight_a, need_b_g = need_g * mixture->weight_b;
    if (!(fmax(need_a_g, need_b_g) / step_g <= RUNNEL_MOST_STEPS))
        return RUNNEL_E_RANGE;
    double b_per_a = mixture->weight_b / mixture->weight_a;
    pair chosen = choose(span_of(need_a_g, step_g), span_of(need_b_g, step_g), b_per_a);
    runnel_order order = {mixture, density_a_g_per_ml, density_b_g_per_ml, tint, scale};
    return runnel_weighing_of_steps(&order, chosen.a, chosen.b, weighing);
}
