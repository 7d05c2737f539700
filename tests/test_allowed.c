/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The smallest batch of a scale with its accuracy, and batches raised to it.
 */
#include "compare.h"
#include "runnel/resin.h"

#include <stdlib.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static const double rho_a = 1.16, rho_b = 0.95;

static runnel_mixture by_weight(double a, double b) {
    runnel_ratio ratio = {a, b, RUNNEL_BASIS_WEIGHT};
    runnel_mixture mixture = {0};
    ck_assert_int_eq(runnel_mixture_of(&ratio, rho_a, rho_b, &mixture), RUNNEL_OK);
    return mixture;
}

static double between(double low, double high) {
    return low + (high - low) * (rand() / (RAND_MAX + 1.0));
}

static double mm3_of(const runnel_mixture *mixture, double mass_g) {
    return 1000 * mass_g / mixture->density_g_per_ml;
}

static runnel_status weigh(const runnel_mixture *mixture, double mass_g, const runnel_scale *scale,
                           double tolerance, runnel_allowed *allowed) {
    return runnel_weigh_allowed(mixture, rho_a, rho_b, mm3_of(mixture, mass_g), 0.02, scale,
                                tolerance, allowed);
}

/* --- the way of weighing --- */

START_TEST(added_up_in_one_cup) {
    /* 6.1 g of A and, after the tint, 2.5 g of B on 0.1 g: B is off by two half steps, A by one:
     * 2.6/6.05 over 2.5/6.1 is 4.860 % more, where two readings of their own have 2.843 %. A count
     * more of each reading: 2.8/5.95 over it, 14.824 %; a percentage is a gain, which both readings
     * share: 1 % of 250 g of B are 2.5 g, and not that of the 860 g that the scale shows. */
    const runnel_scale plain = {0.1, 0, 0}, counting = {0.1, 1, 0}, gaining = {0.1, 0, 1};
    ck_near_or(runnel_scale_added_error(&plain, 6.1, 2.5), 0.04860, 0, 0.0000051);
    ck_near_or(runnel_scale_ratio_error(&plain, 6.1, 2.5), 0.02843, 0, 0.0000051);
    ck_near_or(runnel_scale_added_error(&counting, 6.1, 2.5), 0.14824, 0, 0.0000051);
    ck_near(runnel_scale_added_error(&gaining, 610, 250), 252.6 / 603.85 / (250.0 / 610) - 1,
            1e-12);
    ck_assert(isnan(runnel_scale_added_error(&plain, 0, 1)));
}
END_TEST

/* Whatever the readings hide, the mix is within what is told, and that within the tolerance: the
 * scale is off by up to half a step and its counts at each reading, the same cup all the way. */
START_TEST(told_error_holds_in_the_way_that_is_told) {
    size_t zeroed = 0, added = 0;
    srand(20261130);
    for (int i = 0; i < 4000; i++) {
        const runnel_mixture mixture = by_weight(100, between(12, 110));
        const runnel_scale scale = {0.1, i % 3 ? 0 : 1, 0};
        runnel_allowed got;
        ck_assert_int_eq(weigh(&mixture, between(2, 60), &scale, 0.03, &got), RUNNEL_OK);
        const runnel_weighing *of = &got.weighing;
        ck_assert(of->ratio_error <= 0.03);
        *(of->zero_before_b ? &zeroed : &added) += 1;
        for (int k = 0; k < 40; k++) {
            const double most = 0.1 * (0.5 + scale.accuracy_counts);
            const double tint_g = of->tint_g > 0 ? between(-most, most) : 0;
            const double at_a = k < 2 ? (k ? most : -most) : between(-most, most);
            const double at_b = k < 2 ? (k ? -most : most) : between(-most, most);
            const double before_b = of->zero_before_b ? 0 : of->tint_g > 0 ? tint_g : at_a;
            double off = (of->part_b_g + at_b - before_b) / (of->part_a_g + at_a) *
                             mixture.weight_a / mixture.weight_b -
                         1;
            ck_assert(fabs(off) <= of->ratio_error + 1e-12);
        }
    }
    ck_assert(zeroed > 100 && added > 100);
}
END_TEST

/* --- smallest batch with accuracy --- */

START_TEST(smallest_with_accuracy_worked_by_hand) {
    static const struct {
        double part_b;
        runnel_scale scale;
        double tolerance, want_g;
    } rows[] = {/* 4:1 on 1 g with "1 % or 1 count", 3 %. At 413.4 g part A (330.7 g) is off by its
                 * percentage and half a step, part B (82.7 g) by one count and half a step:
                 * (1.5/0.2 + 1.03 x 0.5/0.8)/(0.03 - 1.03 x 0.01) = 8.14375/0.0197. */
                {0.25, {1, 1, 1}, 0.03, 413.38832487309647},
                /* Two counts and no percentage: (2.5/0.2 + 1.03 x 2.5/0.8)/0.03 = 15.71875/0.03. */
                {0.25, {1, 2, 0}, 0.03, 523.95833333333333},
                /* 1:1, no counts, 1 %: both by percentage, (0.5/0.5 + 1.03 x 0.5/0.5)/(0.03 - 2.03
                 * x 0.01) = 2.03/0.0097. */
                {1, {1, 0, 1}, 0.03, 209.27835051546393},
                /* 1:1 with 5 counts or 0.1 %: by count, 2.03 x 5.5/0.5/0.03. */
                {1, {1, 5, 0.1}, 0.03, 744.33333333333333}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_mixture mixture = by_weight(1, rows[i].part_b);
        double mass_g = NAN, low, high;
        ck_assert_int_eq(
            runnel_scale_smallest_batch(&rows[i].scale, &mixture, rows[i].tolerance, &mass_g),
            RUNNEL_OK);
        ck_near(mass_g, rows[i].want_g, 1e-13);
        ck_assert_int_eq(runnel_scale_ratio_range(&rows[i].scale, mass_g * mixture.weight_a,
                                                  mass_g * mixture.weight_b, &low, &high),
                         RUNNEL_OK);
        ck_near(high, rows[i].tolerance, 1e-12);
    }
}
END_TEST

START_TEST(smallest_that_there_is_not) {
    /* Both readings off by p: (1 + p)/(1 - p) - 1 = 2p/(1 - p) is 3 % at p = 0.03/2.03 = 1.478 %.
     */
    runnel_mixture mixture = by_weight(100, 44);
    runnel_scale coarse = {1, 0, 1.48}, fine = {1, 0, 1.47};
    double mass_g = NAN;
    ck_assert_int_eq(runnel_scale_smallest_batch(&coarse, &mixture, 0.03, &mass_g),
                     RUNNEL_NOT_POSSIBLE);
    ck_near(mass_g, INFINITY, 0);
    ck_assert_int_eq(runnel_scale_smallest_batch(&fine, &mixture, 0.03, &mass_g), RUNNEL_OK);
    ck_assert(isfinite(mass_g) && mass_g > 1000);
}
END_TEST

START_TEST(smallest_is_the_least_of_thousands) {
    srand(3);
    for (int i = 0; i < 5000; i++) {
        runnel_mixture mixture = by_weight(1, between(0.1, 1.2));
        runnel_scale scale = {between(0.01, 5), between(0, 3), between(0, 1)};
        double tolerance = between(0.021, 0.1), mass_g = NAN, finer_g = NAN, looser_g = NAN;
        ck_assert_int_eq(runnel_scale_smallest_batch(&scale, &mixture, tolerance, &mass_g),
                         RUNNEL_OK);
        double at =
            runnel_scale_ratio_error(&scale, mass_g * mixture.weight_a, mass_g * mixture.weight_b);
        double below = runnel_scale_ratio_error(&scale, 0.999 * mass_g * mixture.weight_a,
                                                0.999 * mass_g * mixture.weight_b);
        ck_near(at, tolerance, 1e-10);
        ck_assert(below > tolerance);
        /* A better scale or a wider tolerance never asks for more. */
        runnel_scale finer = {scale.step_g * between(0.5, 1),
                              scale.accuracy_counts * between(0.5, 1),
                              scale.accuracy_percent * between(0.5, 1)};
        ck_assert_int_eq(runnel_scale_smallest_batch(&finer, &mixture, tolerance, &finer_g),
                         RUNNEL_OK);
        ck_assert_int_eq(runnel_scale_smallest_batch(&scale, &mixture, 1.1 * tolerance, &looser_g),
                         RUNNEL_OK);
        ck_assert(finer_g <= mass_g && looser_g < mass_g);
    }
}
END_TEST

/* --- raised batches --- */

START_TEST(raise_worked_by_hand) {
    /* 18 g at 100:44 on 1 g, 3 %: the smallest batch is 78.545 + 0.72 = 79.265 g, 55.05 + 24.22 g.
     * Of the pairs from there on 57:25 may be (24.5/57.5)/0.44 = -3.16 % off, 56:25 +4.4 %,
     * 58:25 -4.8 %, 57:26 +6.6 %, 58:26 +4.7 %; 59:26 is the first that will do, with
     * (26.5/58.5)/0.44 = +2.95 %. */
    runnel_mixture mixture = by_weight(100, 44);
    runnel_scale kitchen = {1, 0, 0}, bench = {0.1, 0, 0};
    runnel_allowed allowed = {0};
    ck_assert_int_eq(weigh(&mixture, 18, &kitchen, 0.03, &allowed), RUNNEL_OK);
    ck_assert_int_eq((int)allowed.raise, RUNNEL_RAISE_SMALLEST);
    ck_near(allowed.asked_g, 18, 1e-14);
    ck_near(allowed.smallest_g, 79.26545454545455, 1e-14);
    ck_near(allowed.weighing.part_a_g, 59, 0);
    ck_near(allowed.weighing.part_b_g, 26, 0);
    ck_near(allowed.weighing.ratio_error, 0.02952602952602953, 1e-12);
    ck_near(allowed.weighing.tint_g, 2, 0); /* 2 % of 85 g is 1.7 g */
    /* On 0.1 g 18 g is enough: 125:55 is exact. */
    ck_assert_int_eq(weigh(&mixture, 18, &bench, 0.03, &allowed), RUNNEL_OK);
    ck_assert_int_eq((int)allowed.raise, RUNNEL_RAISE_NONE);
    ck_near(allowed.weighing.part_a_g, 12.5, 0);
    ck_near(allowed.weighing.part_b_g, 5.5, 0);
    /* 9 g for small names: above 7.93 g on 0.1 g, below 79.3 g on 1 g. */
    ck_assert_int_eq(weigh(&mixture, 9, &bench, 0.03, &allowed), RUNNEL_OK);
    ck_assert(allowed.raise != RUNNEL_RAISE_SMALLEST);
    ck_assert_int_eq(weigh(&mixture, 9, &kitchen, 0.03, &allowed), RUNNEL_OK);
    ck_assert_int_eq((int)allowed.raise, RUNNEL_RAISE_SMALLEST);
    ck_near(allowed.weighing.total_g, 85, 0);
    /* 100 g on 1 g, 69.4 + 30.6 g: 71:31 is nearest, but (30.5/71.5)/0.44 = -3.05 %; so more is
     * taken although 100 g is no small batch. */
    ck_assert_int_eq(weigh(&mixture, 100, &kitchen, 0.03, &allowed), RUNNEL_OK);
    ck_assert_int_eq((int)allowed.raise, RUNNEL_RAISE_ROUNDING);
    ck_assert(allowed.weighing.total_g > 100 && allowed.weighing.total_g < 110);
}
END_TEST

/* Least sum of a pair in whole steps of 1 g, from a mass on, each part at least its need, whose B/A
 * stays within the tolerance of the ratio with half a step of error on both. */
static int least_pair(double from_g, double need_a, double need_b, double b_per_a,
                      double tolerance) {
    for (int sum = (int)ceil(from_g);; sum++)
        for (int a = (int)ceil(need_a); a <= sum - (int)ceil(need_b); a++) {
            double b = sum - a;
            double most = (b + 0.5) / (a - 0.5) / b_per_a, least = (b - 0.5) / (a + 0.5) / b_per_a;
            if (most - 1 <= tolerance && 1 - least <= tolerance)
                return sum;
        }
}

START_TEST(raise_against_every_pair) {
    srand(33);
    runnel_scale scale = {1, 0, 0};
    int raised = 0;
    for (int i = 0; i < 3000; i++) {
        runnel_mixture mixture = by_weight(1, between(0.25, 1.1));
        double tolerance = between(0.02, 0.06), mass_g = between(3, 200);
        runnel_allowed allowed = {0};
        ck_assert_int_eq(weigh(&mixture, mass_g, &scale, tolerance, &allowed), RUNNEL_OK);
        ck_assert(allowed.weighing.ratio_error <= tolerance);
        ck_assert(allowed.weighing.part_a_g >= mass_g * mixture.weight_a &&
                  allowed.weighing.part_b_g >= mass_g * mixture.weight_b);
        if (allowed.raise == RUNNEL_RAISE_NONE)
            continue;
        raised++;
        ck_assert((allowed.raise == RUNNEL_RAISE_SMALLEST) == (mass_g < allowed.smallest_g));
        ck_near(allowed.weighing.total_g,
                least_pair(fmax(mass_g, allowed.smallest_g), mass_g * mixture.weight_a,
                           mass_g * mixture.weight_b, mixture.weight_b / mixture.weight_a,
                           tolerance),
                0);
    }
    ck_assert(raised > 300 && raised < 2700);
}
END_TEST

START_TEST(raise_keeps_the_tolerance_with_accuracy) {
    srand(333);
    for (int i = 0; i < 3000; i++) {
        runnel_mixture mixture = by_weight(1, between(0.1, 1.1));
        runnel_scale scale = {i % 2 ? 0.1 : 1, between(0, 2), between(0, 0.6)};
        double tolerance = between(0.02, 0.06), mass_g = between(1, 2000);
        runnel_allowed allowed = {0};
        ck_assert_int_eq(weigh(&mixture, mass_g, &scale, tolerance, &allowed), RUNNEL_OK);
        ck_assert(allowed.weighing.ratio_error <= tolerance);
        ck_assert(allowed.weighing.total_g >= mass_g * (1 - 1e-12));
    }
}
END_TEST

START_TEST(raise_that_cannot_be) {
    runnel_mixture mixture = by_weight(100, 44);
    runnel_scale coarse = {1, 0, 2};
    runnel_allowed allowed = {0};
    ck_assert_int_eq(weigh(&mixture, 144, &coarse, 0.03, &allowed), RUNNEL_NOT_POSSIBLE);
    ck_near(allowed.smallest_g, INFINITY, 0);
    ck_assert_int_eq((int)allowed.raise, RUNNEL_RAISE_NONE);
    ck_near(allowed.weighing.part_a_g, 100, 0); /* as it was asked for */
    ck_near(allowed.weighing.part_b_g, 44, 0);
    ck_assert(allowed.weighing.ratio_error > 0.03);
}
END_TEST

START_TEST(raise_refusals) {
    runnel_mixture mixture = by_weight(100, 44), empty = {0};
    runnel_scale scale = {1, 0, 0}, no_scale = {0, 0, 0};
    runnel_allowed allowed = {.asked_g = 7};
    static const double bad[] = {0, -1, NAN, INFINITY};
    for (size_t i = 0; i < COUNT(bad); i++) {
        ck_assert_int_eq(weigh(&mixture, 10, &scale, bad[i], &allowed), RUNNEL_E_RANGE);
        ck_assert_int_eq(weigh(&mixture, bad[i], &scale, 0.03, &allowed), RUNNEL_E_RANGE);
        ck_assert_int_eq(
            runnel_weigh_allowed(&mixture, bad[i], rho_b, 1e5, 0, &scale, 0.03, &allowed),
            RUNNEL_E_RANGE);
        ck_assert_int_eq(
            runnel_weigh_allowed(&mixture, rho_a, bad[i], 1e5, 0, &scale, 0.03, &allowed),
            RUNNEL_E_RANGE);
    }
    ck_assert_int_eq(runnel_weigh_allowed(&mixture, rho_a, rho_b, 1e5, -1, &scale, 0.03, &allowed),
                     RUNNEL_E_RANGE);
    ck_assert_int_eq(weigh(&mixture, 10, &no_scale, 0.03, &allowed), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_weigh_allowed(&empty, rho_a, rho_b, 1e5, 0, &scale, 0.03, &allowed),
                     RUNNEL_E_RANGE);
    ck_near(allowed.asked_g, 7, 0);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("allowed");
    TCase *batches = tcase_create("batches");
    tcase_set_timeout(batches, 120); /* under valgrind too */
    tcase_add_test(batches, added_up_in_one_cup);
    tcase_add_test(batches, told_error_holds_in_the_way_that_is_told);
    tcase_add_test(batches, smallest_with_accuracy_worked_by_hand);
    tcase_add_test(batches, smallest_that_there_is_not);
    tcase_add_test(batches, smallest_is_the_least_of_thousands);
    tcase_add_test(batches, raise_worked_by_hand);
    tcase_add_test(batches, raise_against_every_pair);
    tcase_add_test(batches, raise_keeps_the_tolerance_with_accuracy);
    tcase_add_test(batches, raise_that_cannot_be);
    tcase_add_test(batches, raise_refusals);
    suite_add_tcase(suite, batches);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
