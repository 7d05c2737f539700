/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "runnel/resin.h"

#include <limits.h>
#include <stdlib.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

/* Densities of liquid DGEBA resin (data sheet, ASTM D1475) and of a usual hardener. */
static const double rho_a = 1.16, rho_b = 0.95;

static const double broken[] = {NAN, INFINITY, -INFINITY, -1.0};

static runnel_ratio by_volume(double a, double b) {
    return (runnel_ratio){a, b, RUNNEL_BASIS_VOLUME};
}

static runnel_ratio by_weight(double a, double b) {
    return (runnel_ratio){a, b, RUNNEL_BASIS_WEIGHT};
}

static runnel_mixture mixture_of(runnel_ratio ratio, double a_g_per_ml, double b_g_per_ml) {
    runnel_mixture mixture = {0};
    ck_assert_int_eq(runnel_mixture_of(&ratio, a_g_per_ml, b_g_per_ml, &mixture), RUNNEL_OK);
    return mixture;
}

static double between(double low, double high) {
    return low + (high - low) * (rand() / (RAND_MAX + 1.0));
}

/* --- the scale --- */

START_TEST(ratio_range_worked_by_hand) {
    /* 18 g at 100:44 is 12.5 g + 5.5 g. On a 1 g scale (6/12)/0.44 and (5/13)/0.44; on 0.1 g
     * (5.55/12.45)/0.44 and (5.45/12.55)/0.44: -13 % to +14 %, and 1.3 % each way. */
    runnel_scale kitchen = {1, 0, 0}, bench = {0.1, 0, 0};
    double low = NAN, high = NAN;
    ck_assert_int_eq(runnel_scale_ratio_range(&kitchen, 12.5, 5.5, &low, &high), RUNNEL_OK);
    ck_near(high, 0.13636363636363635, 1e-14);
    ck_near(low, -0.12587412587412587, 1e-14);
    ck_near(runnel_scale_ratio_error(&kitchen, 12.5, 5.5), 0.13636363636363635, 1e-14);
    ck_assert_int_eq(runnel_scale_ratio_range(&bench, 12.5, 5.5, &low, &high), RUNNEL_OK);
    ck_near(high, 0.013143483023001095, 1e-13);
    ck_near(low, -0.013038754074610648, 1e-13);
    /* 125 g at 4:1 on 1 g: 99.5/25.5 to 100.5/24.5 by the step alone; 98.5/26.5 to 101.5/23.5 with
     * "1 % or 1 count, whichever is more". */
    runnel_scale stated = {1, 1, 1};
    ck_assert_int_eq(runnel_scale_ratio_range(&kitchen, 100, 25, &low, &high), RUNNEL_OK);
    ck_near_or(4 / (1 + high), 3.90, 0, 0.005);
    ck_near_or(4 / (1 + low), 4.10, 0, 0.005);
    ck_assert_int_eq(runnel_scale_ratio_range(&stated, 100, 25, &low, &high), RUNNEL_OK);
    ck_near_or(4 / (1 + high), 3.72, 0, 0.005);
    ck_near_or(4 / (1 + low), 4.32, 0, 0.005);
    /* By hand, percentage above the count: 1000 +- 10.5 and 250 +- 3. */
    ck_assert_int_eq(runnel_scale_ratio_range(&stated, 1000, 250, &low, &high), RUNNEL_OK);
    ck_near(high, 253 / 989.5 * 4 - 1, 1e-13);
    ck_near(low, 247 / 1010.5 * 4 - 1, 1e-13);
    /* A reading that may be nothing at all. */
    ck_assert_int_eq(runnel_scale_ratio_range(&kitchen, 0.5, 0.2, &low, &high), RUNNEL_OK);
    ck_near(low, -1, 0);
    ck_near(high, INFINITY, 0);
}
END_TEST

START_TEST(smallest_batch_worked_by_hand) {
    /* To first order (h/A + h/B = tolerance) 78.5 and 47.1 g for a 1 g scale at 100:44 with 3 and
     * 5 %; the worse side of the error asks for h/weight_a = 0.72 g more: 79.265 and 47.847. */
    runnel_mixture mixture = mixture_of(by_weight(100, 44), rho_a, rho_b);
    static const struct {
        double step_g, tolerance, want_g;
    } rows[] = {{1, 0.03, 78.54545454545455 + 0.72},
                {1, 0.05, 47.12727272727273 + 0.72},
                {0.1, 0.03, 7.854545454545455 + 0.072},
                {0.1, 0.05, 4.712727272727273 + 0.072}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_scale scale = {rows[i].step_g, 0, 0};
        double mass_g = NAN;
        ck_assert_int_eq(runnel_scale_smallest_batch(&scale, &mixture, rows[i].tolerance, &mass_g),
                         RUNNEL_OK);
        ck_near(mass_g, rows[i].want_g, 1e-14);
        ck_near(
            runnel_scale_ratio_error(&scale, mass_g * mixture.weight_a, mass_g * mixture.weight_b),
            rows[i].tolerance, 1e-12);
    }
}
END_TEST

START_TEST(scale_refusals) {
    runnel_mixture mixture = mixture_of(by_weight(100, 44), rho_a, rho_b);
    static const runnel_scale bad[] = {
        {0, 0, 0},   {-1, 0, 0},       {NAN, 0, 0}, {INFINITY, 0, 0}, {1, -1, 0},
        {1, NAN, 0}, {1, INFINITY, 0}, {1, 0, -1},  {1, 0, NAN},      {1, 0, INFINITY}};
    double low = 7, high = 8, mass_g = 9;
    runnel_weighing weighing = {.total_g = 7};
    for (size_t i = 0; i < COUNT(bad); i++) {
        ck_assert_int_eq(runnel_scale_ratio_range(&bad[i], 10, 5, &low, &high), RUNNEL_E_RANGE);
        ck_assert(isnan(runnel_scale_ratio_error(&bad[i], 10, 5)));
        ck_assert_int_eq(runnel_scale_smallest_batch(&bad[i], &mixture, 0.03, &mass_g),
                         RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_weigh(&mixture, rho_a, rho_b, 1e5, 0, &bad[i], &weighing),
                         RUNNEL_E_RANGE);
    }
    runnel_scale scale = {1, 0, 0};
    static const double masses[] = {NAN, INFINITY, -1, 0};
    for (size_t i = 0; i < COUNT(masses); i++) {
        ck_assert(isnan(runnel_scale_ratio_error(&scale, masses[i], 5)));
        ck_assert(isnan(runnel_scale_ratio_error(&scale, 10, masses[i])));
        ck_assert_int_eq(runnel_scale_smallest_batch(&scale, &mixture, masses[i], &mass_g),
                         RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_weigh(&mixture, rho_a, rho_b, masses[i], 0, &scale, &weighing),
                         RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_weigh(&mixture, masses[i], rho_b, 1e5, 0, &scale, &weighing),
                         RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_weigh(&mixture, rho_a, masses[i], 1e5, 0, &scale, &weighing),
                         RUNNEL_E_RANGE);
    }
    for (size_t i = 0; i < COUNT(broken); i++)
        ck_assert_int_eq(runnel_weigh(&mixture, rho_a, rho_b, 1e5, broken[i], &scale, &weighing),
                         RUNNEL_E_RANGE);
    runnel_mixture empty = {0};
    ck_assert_int_eq(runnel_weigh(&empty, rho_a, rho_b, 1e5, 0, &scale, &weighing), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_scale_smallest_batch(&scale, &empty, 0.03, &mass_g), RUNNEL_E_RANGE);
    runnel_scale dust = {1e-12, 0, 0};
    ck_assert_int_eq(runnel_weigh(&mixture, rho_a, rho_b, 1e7, 0, &dust, &weighing),
                     RUNNEL_E_RANGE);
    ck_near(low + high + mass_g + weighing.total_g, 7 + 8 + 9 + 7, 0);
}
END_TEST

/* --- weighing --- */

START_TEST(weigh_worked_by_hand) {
    static const struct {
        runnel_ratio ratio;
        double total_g, tint, step_g, a_g, b_g, tint_g, rounding, worst;
    } rows[] = {/* 12.5 and 5.5 g: of 13:6, 13:7, 14:6 and 14:7 the pair 14:6 is nearest,
                 * (6/14)/0.44; with the scale (5.5/14.5)/0.44 is the worst side. */
                {{100, 44, RUNNEL_BASIS_WEIGHT},
                 18,
                 0,
                 1,
                 14,
                 6,
                 0,
                 -0.025974025974025976,
                 0.1379310344827586},
                /* Even numbers stay as they are; 2.5 % of 144 g is 3.6 g, shown as 4 g. */
                {{100, 44, RUNNEL_BASIS_WEIGHT}, 144, 0.025, 1, 100, 44, 4, 0, NAN},
                /* 386.667 and 158.333 g: the next steps are 0.033 % off, not worth more resin;
                 * worst (158.45/386.65)/(0.95/2.32); 2 % of 545.1 g is 10.902 g. */
                {{2, 1, RUNNEL_BASIS_VOLUME},
                 545,
                 0.02,
                 0.1,
                 386.7,
                 158.4,
                 10.9,
                 0.00033481687150372,
                 0.00077997917333097},
                /* A tint of less than half a step: 1 % of 20 g on a 1 g scale. */
                {{1, 1, RUNNEL_BASIS_WEIGHT}, 20, 0.01, 1, 10, 10, 0, 0, NAN}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_mixture mixture = mixture_of(rows[i].ratio, rho_a, rho_b);
        runnel_scale scale = {rows[i].step_g, 0, 0};
        runnel_weighing w = {0};
        double total_mm3 = 1000 * rows[i].total_g / mixture.density_g_per_ml;
        ck_assert_int_eq(runnel_weigh(&mixture, rho_a, rho_b, total_mm3, rows[i].tint, &scale, &w),
                         RUNNEL_OK);
        ck_near(w.part_a_g, rows[i].a_g, 0); /* the very double that the decimal reads as */
        ck_near(w.part_b_g, rows[i].b_g, 0);
        ck_near(w.tint_g, rows[i].tint_g, 0);
        ck_near(w.total_g, rows[i].a_g + rows[i].b_g, 1e-15);
        ck_near_or(w.rounding_error, rows[i].rounding, 0, 1e-13);
        if (!isnan(rows[i].worst))
            ck_near_or(w.ratio_error, rows[i].worst, 0, 1e-13);
        ck_near(w.part_a_ml, rows[i].a_g / 1.16, 1e-15);
        ck_near(w.part_b_ml, rows[i].b_g / 0.95, 1e-15);
        ck_near(w.total_ml, rows[i].a_g / 1.16 + rows[i].b_g / 0.95, 1e-15);
    }
}
END_TEST

/* Every pair allowed, one by one: least share off, and the smallest sum within 0.001 of it. */
static void weigh_by_force(double need_a, double need_b, double b_per_a, double *best_off,
                           int *smallest) {
    int least_a = (int)ceil(need_a), most_a = (int)(need_a + fmax(0.02 * need_a, 2));
    int least_b = (int)ceil(need_b), most_b = (int)(need_b + fmax(0.02 * need_b, 2));
    *best_off = INFINITY;
    for (int a = least_a; a <= most_a; a++)
        for (int b = least_b; b <= most_b; b++)
            *best_off = fmin(*best_off, fabs((double)b / a / b_per_a - 1));
    *smallest = INT_MAX;
    for (int a = least_a; a <= most_a; a++)
        for (int b = least_b; b <= most_b; b++)
            if (fabs((double)b / a / b_per_a - 1) <= *best_off + 0.001 && a + b < *smallest)
                *smallest = a + b;
}

START_TEST(weigh_against_every_pair) {
    srand(3);
    static const double steps[] = {1, 0.5, 0.1, 5};
    for (int i = 0; i < 4000; i++) {
        runnel_ratio ratio = {between(1, 10), between(0.5, 10),
                              i % 2 ? RUNNEL_BASIS_VOLUME : RUNNEL_BASIS_WEIGHT};
        runnel_mixture mixture = mixture_of(ratio, rho_a, rho_b);
        runnel_scale scale = {steps[i % (int)COUNT(steps)], 0, 0};
        double step_g = scale.step_g, need_g = pow(10, between(-0.5, 3)) * step_g;
        double total_mm3 = 1000 * need_g / mixture.density_g_per_ml, tint = between(0, 0.06);
        runnel_weighing w = {0};
        ck_assert_int_eq(runnel_weigh(&mixture, rho_a, rho_b, total_mm3, tint, &scale, &w),
                         RUNNEL_OK);
        double a = w.part_a_g / step_g, b = w.part_b_g / step_g, b_per_a, best;
        int smallest;
        ck_near_or(a, round(a), 0, 1e-9);
        ck_near_or(b, round(b), 0, 1e-9);
        ck_near_or(w.tint_g / step_g, round(w.tint_g / step_g), 0, 1e-9);
        ck_near_or(w.tint_g, tint * w.total_g, 0, step_g * (0.5 + 1e-9));
        ck_assert(w.part_a_g >= need_g * mixture.weight_a * (1 - 1e-12));
        ck_assert(w.part_b_g >= need_g * mixture.weight_b * (1 - 1e-12));
        ck_assert(1000 * w.total_ml >= total_mm3 * (1 - 1e-12));
        b_per_a = mixture.weight_b / mixture.weight_a;
        ck_near_or(w.rounding_error, w.part_b_g / w.part_a_g / b_per_a - 1, 0, 1e-12);
        weigh_by_force(need_g / step_g * mixture.weight_a, need_g / step_g * mixture.weight_b,
                       b_per_a, &best, &smallest);
        ck_assert(fabs(w.rounding_error) <= best + 0.001 + 1e-12);
        ck_near(a + b, smallest, 1e-12);
        /* The worst case, by the four corners of the two readings. */
        double worst = 0;
        for (int corner = 0; corner < 4; corner++) {
            double real_a = a + (corner & 1 ? 0.5 : -0.5), real_b = b + (corner & 2 ? 0.5 : -0.5);
            worst = fmax(worst, fabs(real_b / real_a / b_per_a - 1));
        }
        ck_near(w.ratio_error, worst, 1e-9);
        ck_assert(w.ratio_error >= fabs(w.rounding_error));
    }
}
END_TEST

START_TEST(weigh_scales_with_the_unit) {
    srand(4);
    for (int i = 0; i < 2000; i++) {
        runnel_mixture mixture = mixture_of(by_volume(between(1, 5), 1), rho_a, rho_b);
        runnel_scale scale = {0.1, between(0, 3), between(0, 1)}, large = scale;
        large.step_g *= 1024; /* a power of two, so that nothing rounds differently */
        double total_mm3 = between(1e3, 1e6), tint = between(0, 0.05);
        runnel_weighing w = {0}, wide = {0};
        ck_assert_int_eq(runnel_weigh(&mixture, rho_a, rho_b, total_mm3, tint, &scale, &w),
                         RUNNEL_OK);
        ck_assert_int_eq(
            runnel_weigh(&mixture, rho_a, rho_b, 1024 * total_mm3, tint, &large, &wide), RUNNEL_OK);
        ck_near(wide.part_a_g, 1024 * w.part_a_g, 1e-14);
        ck_near(wide.part_b_g, 1024 * w.part_b_g, 1e-14);
        ck_near(wide.tint_g, 1024 * w.tint_g, 1e-14);
        ck_near_or(wide.rounding_error, w.rounding_error, 0, 1e-14);
        ck_near(wide.ratio_error, w.ratio_error, 1e-12);
    }
}
END_TEST

START_TEST(weigh_next_to_nothing_of_a_part) {
    /* Ratios that no scale can keep still come out, and say how far off they are. One part is a
     * single step; of the other the most that is allowed comes nearest. */
    runnel_scale scale = {1, 0, 0};
    runnel_mixture little_a = mixture_of(by_weight(1e-20, 1), 1, 1);
    runnel_mixture little_b = mixture_of(by_weight(1, 1e-15), 1, 1);
    runnel_weighing w = {0};
    ck_assert_int_eq(runnel_weigh(&little_a, 1, 1, 1e5, 0, &scale, &w), RUNNEL_OK);
    ck_near(w.part_a_g, 1, 0);
    ck_near(w.part_b_g, 102, 0); /* two steps above 100 g */
    ck_near_or(w.rounding_error, -1, 0, 1e-15);
    ck_assert_int_eq(runnel_weigh(&little_b, 1, 1, 1e5, 0, &scale, &w), RUNNEL_OK);
    ck_near(w.part_b_g, 1, 0);
    ck_near(w.part_a_g, 101, 0); /* two steps above 99.9999999999999 g is not quite 102 */
    ck_assert(w.ratio_error > 1e12);
}
END_TEST

START_TEST(weigh_on_a_very_fine_scale) {
    /* A tonne on a scale of 1 mg: 1e9 steps, yet no more than a step above the need. */
    runnel_mixture mixture = mixture_of(by_weight(100, 44), rho_a, rho_b);
    runnel_scale scale = {0.001, 0, 0};
    double total_mm3 = 1e9 / mixture.density_g_per_ml;
    runnel_weighing w = {0};
    for (int i = 0; i < 1000; i++)
        ck_assert_int_eq(runnel_weigh(&mixture, rho_a, rho_b, total_mm3, 0, &scale, &w), RUNNEL_OK);
    ck_near_or(w.part_a_g, 1e6 / 1.44, 0, 0.0011);
    ck_near_or(w.part_b_g, 1e6 * 0.44 / 1.44, 0, 0.0011);
    ck_near_or(w.rounding_error, 0, 0, 1e-8);
}
END_TEST

static TCase *scale_case(void) {
    TCase *scale = tcase_create("scale");
    tcase_set_timeout(scale, 60); /* every pair by force, under valgrind too */
    tcase_add_test(scale, ratio_range_worked_by_hand);
    tcase_add_test(scale, smallest_batch_worked_by_hand);
    tcase_add_test(scale, scale_refusals);
    tcase_add_test(scale, weigh_worked_by_hand);
    tcase_add_test(scale, weigh_against_every_pair);
    tcase_add_test(scale, weigh_scales_with_the_unit);
    tcase_add_test(scale, weigh_next_to_nothing_of_a_part);
    tcase_add_test(scale, weigh_on_a_very_fine_scale);
    return scale;
}

int main(void) {
    Suite *suite = suite_create("weigh");
    suite_add_tcase(suite, scale_case());
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
