/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Batches that the scale can weigh within the tolerance of their ratio.
 */
#include "resin/steps.h"
#include "runnel/resin.h"

#include <math.h>

/* How far beyond need and smallest batch a batch is looked for. Twice the smallest batch leaves
 * half the tolerance to the rounding; small batches need some steps more. */
static const double most_times = 2;
static const double most_steps = 100;
/* Batches nearer to each other than this share are as good as equal. */
static const double indistinct_mass = 0.001;

/* A batch that is looked for. */
typedef struct search {
    runnel_order order;
    double tolerance;
    int64_t least_a, least_b; /* steps that the need asks for */
} search;

/* Tries the two pairs of `sum` steps next to the ratio: any other is farther off. */
static runnel_status try_sum(const search *of, double sum, runnel_weighing *weighing) {
    int64_t below = (int64_t)floor(sum * of->order.mixture->weight_a);
    runnel_status found = RUNNEL_NOT_POSSIBLE;
    double best = of->tolerance;
    for (int64_t a = below; a <= below + 1; a++) {
        runnel_weighing fresh;
        int64_t b = (int64_t)sum - a;
        if (a < of->least_a || b < of->least_b)
            continue;
        runnel_status status = runnel_weighing_of_steps(&of->order, a, b, &fresh);
        if (status != RUNNEL_OK)
            return status;
        if (fresh.ratio_error > best)
            continue;
        best = fresh.ratio_error;
        *weighing = fresh;
        found = RUNNEL_OK;
    }
    return found;
}

/* The least sum of steps from `from_g` on that keeps the tolerance. */
static runnel_status raise(const search *of, double from_g, runnel_weighing *weighing) {
    double from = ceil(from_g / of->order.scale->step_g * (1 - RUNNEL_STEP_SLACK));
    double most = fmin(most_times * from + most_steps, RUNNEL_MOST_STEPS);
    runnel_status status = RUNNEL_NOT_POSSIBLE;
    for (double sum = from; sum <= most && status == RUNNEL_NOT_POSSIBLE;
         sum += fmax(1, floor(indistinct_mass * sum)))
        status = try_sum(of, sum, weighing);
    return status;
}

/* Whether `status` is an answer, be it no. */
static bool is_answer(runnel_status status) {
    return status == RUNNEL_OK || status == RUNNEL_NOT_POSSIBLE;
}

runnel_status runnel_weigh_allowed(const runnel_mixture *mixture, double density_a_g_per_ml,
                                   double density_b_g_per_ml, double total_mm3, double tint,
                                   const runnel_scale *scale, double tolerance,
                                   runnel_allowed *allowed) {
    runnel_allowed fresh = {.raise = RUNNEL_RAISE_NONE};
    runnel_status possible =
        runnel_scale_smallest_batch(scale, mixture, tolerance, &fresh.smallest_g);
    if (!is_answer(possible))
        return possible;
    runnel_status status = runnel_weigh(mixture, density_a_g_per_ml, density_b_g_per_ml, total_mm3,
                                        tint, scale, &fresh.weighing);
    if (status != RUNNEL_OK)
        return status;
    fresh.asked_g = total_mm3 / 1000 * mixture->density_g_per_ml;
    if (fresh.weighing.ratio_error <= tolerance) {
        possible = RUNNEL_OK;
    } else if (possible == RUNNEL_OK) {
        search of = {{mixture, density_a_g_per_ml, density_b_g_per_ml, tint, scale},
                     tolerance,
                     runnel_least_steps(fresh.asked_g * mixture->weight_a, scale->step_g),
                     runnel_least_steps(fresh.asked_g * mixture->weight_b, scale->step_g)};
        bool is_small = fresh.asked_g < fresh.smallest_g;
        possible = raise(&of, fmax(fresh.asked_g, fresh.smallest_g), &fresh.weighing);
        if (possible == RUNNEL_OK)
            fresh.raise = is_small ? RUNNEL_RAISE_SMALLEST : RUNNEL_RAISE_ROUNDING;
    }
    runnel_weighing_choose_way(scale, tolerance, &fresh.weighing);
    if (is_answer(possible))
        *allowed = fresh;
    return possible;
}
