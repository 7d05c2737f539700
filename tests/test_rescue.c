/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "runnel/rescue.h"

#include <stdlib.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static double between(double low, double high) {
    return low + (high - low) * (rand() / (RAND_MAX + 1.0));
}

static runnel_rescue_case grams(double ratio_b, double a_g, double b_g) {
    runnel_rescue_case mix = {.density_a_g_per_ml = 1.13,
                              .density_b_g_per_ml = 0.99,
                              .tolerance = 0.03,
                              .part_a = {a_g, RUNNEL_DOSE_GRAMS, 0},
                              .part_b = {b_g, RUNNEL_DOSE_GRAMS, 0}};
    runnel_ratio ratio = {1, ratio_b, RUNNEL_BASIS_WEIGHT};
    ck_assert_int_eq(runnel_mixture_of(&ratio, 1.13, 0.99, &mix.mixture), RUNNEL_OK);
    return mix;
}

START_TEST(doses) {
    double mass_g = NAN;
    runnel_dose dose = {12, RUNNEL_DOSE_GRAMS, 0};
    ck_assert_int_eq(runnel_dose_mass(&dose, 1.13, &mass_g), RUNNEL_OK);
    ck_near(mass_g, 12, 0);
    dose.unit = RUNNEL_DOSE_ML;
    ck_assert_int_eq(runnel_dose_mass(&dose, 1.13, &mass_g), RUNNEL_OK);
    ck_near(mass_g, 13.56, 1e-15);
    dose = (runnel_dose){2.5, RUNNEL_DOSE_STROKES, 8};
    ck_assert_int_eq(runnel_dose_mass(&dose, 1.13, &mass_g), RUNNEL_OK);
    ck_near(mass_g, 22.6, 1e-15);
    mass_g = 7;
    dose.unit = RUNNEL_DOSE_NONE;
    ck_assert_int_eq(runnel_dose_mass(&dose, 1.13, &mass_g), RUNNEL_E_UNIT);
    static const double bad[] = {-1, NAN, INFINITY};
    for (size_t i = 0; i < COUNT(bad); i++) {
        dose = (runnel_dose){bad[i], RUNNEL_DOSE_ML, 0};
        ck_assert_int_eq(runnel_dose_mass(&dose, 1.13, &mass_g), RUNNEL_E_RANGE);
        dose = (runnel_dose){1, RUNNEL_DOSE_ML, 0};
        ck_assert_int_eq(runnel_dose_mass(&dose, bad[i], &mass_g), RUNNEL_E_RANGE);
        dose = (runnel_dose){1, RUNNEL_DOSE_STROKES, bad[i]};
        ck_assert_int_eq(runnel_dose_mass(&dose, 1.13, &mass_g), RUNNEL_E_RANGE);
    }
    dose = (runnel_dose){1, RUNNEL_DOSE_STROKES, 0};
    ck_assert_int_eq(runnel_dose_mass(&dose, 1.13, &mass_g), RUNNEL_E_RANGE);
    ck_near(mass_g, 7, 0);
}
END_TEST

START_TEST(hardener_that_ran_out) {
    /* 144 g of A in the cup for 207 g at 1:0.44, and the bottle of B was empty at 194 g: 50 g where
     * 63.36 g were to be, 21 % short. 50 g serve 50/0.44 = 113.64 g of A, 163.64 g in all. */
    runnel_rescue_case mix = grams(0.44, 144, 50);
    runnel_rescue rescue = {0};
    mix.wanted_g = 207;
    mix.knows_stock = true;
    mix.stock_a_g = 500;
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_NOT_POSSIBLE);
    ck_assert_int_eq((int)rescue.verdict, RUNNEL_RESCUE_NOT);
    ck_assert_int_eq(rescue.lacking, 'B');
    ck_near_or(rescue.ratio_error, -0.21, 0, 0.005);
    ck_near(rescue.ratio_error, -13.36 / 63.36, 1e-13);
    ck_near(rescue.exact_g, 13.36, 1e-13);
    ck_near(rescue.least_g, 63.36 * 0.97 - 50, 1e-13);
    ck_near(rescue.add_g, 0, 0);
    ck_near(rescue.serves_g, 113.63636363636364, 1e-13);
    ck_near(rescue.excess_g, 30.363636363636363, 1e-13);
    ck_near(rescue.right_g, 163.63636363636364, 1e-13);
    ck_near(rescue.total_g, 194, 0);
    ck_near(rescue.over_wanted_g, -13, 1e-13);
    ck_near(rescue.ratio_error_after, rescue.ratio_error, 0);
    ck_assert_uint_eq(rescue.limits, RUNNEL_RESCUE_STOCK);
    ck_assert_uint_eq(rescue.warnings, 0);
    /* 12 g more are found: 62/63.36 is 2.1 % short, within 3 %. */
    mix.stock_b_g = 12;
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_OK);
    ck_assert_int_eq((int)rescue.verdict, RUNNEL_RESCUE_NEARLY);
    ck_near(rescue.add_g, 12, 0);
    ck_near(rescue.ratio_error_after, 62 / 63.36 - 1, 1e-13);
    ck_assert_uint_eq(rescue.limits, RUNNEL_RESCUE_STOCK);
    /* 11 g are too few: 3.7 %. */
    mix.stock_b_g = 11;
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_NOT_POSSIBLE);
    ck_near(rescue.add_g, 11, 0);
    ck_near(rescue.ratio_error_after, 61 / 63.36 - 1, 1e-13);
    /* A full bottle, or one that nobody told of: all of it, and on a scale of 1 g 13 g. */
    mix.stock_b_g = 13.36;
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_OK);
    ck_assert_int_eq((int)rescue.verdict, RUNNEL_RESCUE_ADD);
    ck_near(rescue.add_g, 13.36, 1e-13);
    ck_near_or(rescue.ratio_error_after, 0, 0, 1e-13);
    ck_near(rescue.total_g, 207.36, 1e-14);
    ck_near(rescue.total_ml, 144 / 1.13 + 63.36 / 0.99, 1e-14);
    mix.knows_stock = false;
    mix.step_g = 1;
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_OK);
    ck_assert_int_eq((int)rescue.verdict, RUNNEL_RESCUE_ADD);
    ck_near(rescue.add_g, 13, 0);
    ck_near(rescue.add_ml, 13 / 0.99, 1e-15);
    ck_near(rescue.total_g, 207, 0);
    ck_near(rescue.over_wanted_g, 0, 0);
    ck_near(rescue.ratio_error_after, 63 / 63.36 - 1, 1e-13);
    ck_assert(isnan(rescue.add_strokes));
}
END_TEST

START_TEST(weighed_by_the_label_of_volumes) {
    /* 2:1 by volume is 100:44 by weight; 100 g and 50 g is 13.6 % too much B. 50/0.44 = 113.64 g of
     * A would be right. */
    runnel_rescue_case mix = grams(0.44, 100, 50);
    runnel_rescue rescue = {0};
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_OK);
    ck_assert_int_eq((int)rescue.verdict, RUNNEL_RESCUE_ADD);
    ck_assert_int_eq(rescue.lacking, 'A');
    ck_near(rescue.ratio_error, 50 / 44.0 - 1, 1e-13);
    ck_near(rescue.add_g, 13.636363636363637, 1e-13);
    ck_near(rescue.total_g, 163.63636363636364, 1e-14);
    ck_near(rescue.least_g, 50 / (0.44 * 1.03) - 100, 1e-12);
    ck_near(rescue.serves_g, 44, 1e-14);
    ck_near(rescue.excess_g, 6, 1e-13);
    ck_near(rescue.right_g, 144, 1e-14);
    ck_assert(isnan(rescue.over_wanted_g));
    /* 100 g and 45 g is 2.3 % off: to be left alone. */
    mix = grams(0.44, 100, 45);
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_OK);
    ck_assert_int_eq((int)rescue.verdict, RUNNEL_RESCUE_FINE);
    ck_near(rescue.add_g, 0, 0);
    ck_near(rescue.least_g, 0, 0);
    ck_near(rescue.exact_g, 45 / 0.44 - 100, 1e-12);
    ck_assert_uint_eq(rescue.limits, 0);
    /* Right. */
    mix = grams(0.44, 100, 44);
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_OK);
    ck_assert_int_eq((int)rescue.verdict, RUNNEL_RESCUE_FINE);
    ck_assert_int_eq(rescue.lacking, 0);
    ck_near(rescue.exact_g, 0, 0);
}
END_TEST

START_TEST(pumped_by_the_label) {
    /* 2:1 by volume, pumps of 16 and 8 ml a stroke that give it by one stroke each, and two strokes
     * of A to one of B: 32 to 8 ml, 4:1, half the hardener. One stroke of B puts it right. */
    runnel_ratio ratio = {2, 1, RUNNEL_BASIS_VOLUME};
    runnel_rescue_case mix = {.density_a_g_per_ml = 1.13,
                              .density_b_g_per_ml = 0.95,
                              .tolerance = 0.03,
                              .part_a = {2, RUNNEL_DOSE_STROKES, 16},
                              .part_b = {1, RUNNEL_DOSE_STROKES, 8}};
    runnel_rescue rescue = {0};
    ck_assert_int_eq(runnel_mixture_of(&ratio, 1.13, 0.95, &mix.mixture), RUNNEL_OK);
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_OK);
    ck_near(rescue.part_a_g, 36.16, 1e-14);
    ck_near(rescue.part_b_g, 7.6, 1e-14);
    ck_near(rescue.ratio_error, -0.5, 1e-13);
    ck_assert_int_eq((int)rescue.verdict, RUNNEL_RESCUE_ADD);
    ck_near(rescue.add_strokes, 1, 1e-12);
    ck_near(rescue.add_ml, 8, 1e-12);
    ck_assert_uint_eq(rescue.warnings, RUNNEL_RESCUE_FEW_STROKES | RUNNEL_RESCUE_METERED_TWICE);
    /* Six and three: enough strokes, the same slip. */
    mix.part_a.amount = 6;
    mix.part_b.amount = 3;
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_OK);
    ck_assert_uint_eq(rescue.warnings, RUNNEL_RESCUE_METERED_TWICE);
    /* One each: right, but too few to trust; two each: right. */
    mix.part_a.amount = mix.part_b.amount = 1;
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_OK);
    ck_assert_int_eq((int)rescue.verdict, RUNNEL_RESCUE_FINE);
    ck_assert_uint_eq(rescue.warnings, RUNNEL_RESCUE_FEW_STROKES);
    mix.part_a.amount = mix.part_b.amount = 2;
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_OK);
    ck_assert_uint_eq(rescue.warnings, 0);
    /* Pumps of one size for 1:1 are one stroke each either way. */
    ratio = (runnel_ratio){1, 1, RUNNEL_BASIS_VOLUME};
    ck_assert_int_eq(runnel_mixture_of(&ratio, 1.13, 0.95, &mix.mixture), RUNNEL_OK);
    mix.part_b.stroke_ml = 16;
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_OK);
    ck_assert_int_eq((int)rescue.verdict, RUNNEL_RESCUE_FINE);
    ck_assert_uint_eq(rescue.warnings, 0);
}
END_TEST

START_TEST(what_keeps_from_adding) {
    /* 100 g and 22 g at 100:44, 88.5 + 22.22 ml = 110.72 ml; 22 g of B are missing, 22.22 ml. */
    runnel_rescue_case mix = grams(0.44, 100, 22);
    runnel_rescue rescue = {0};
    mix.room_mm3 = 120e3; /* room for 9.28 ml, 9.19 g */
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_NOT_POSSIBLE);
    ck_assert_uint_eq(rescue.limits, RUNNEL_RESCUE_ROOM);
    ck_near(rescue.add_g, (120 - 100 / 1.13 - 22 / 0.99) * 0.99, 1e-12);
    ck_near(rescue.total_ml, 120, 1e-13);
    mix.room_mm3 = 100e3; /* full to the brim already */
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_NOT_POSSIBLE);
    ck_near(rescue.add_g, 0, 0);
    mix.room_mm3 = 133e3;
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_OK);
    ck_assert_uint_eq(rescue.limits, 0);
    mix.room_mm3 = NAN;
    mix.largest_mass_g = 130;
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_NOT_POSSIBLE);
    ck_assert_uint_eq(rescue.limits, RUNNEL_RESCUE_MASS);
    ck_near(rescue.add_g, 8, 1e-13);
    /* 2 g and 0.66 g on a scale of 1 g: 0.22 g cannot be weighed. */
    mix = grams(0.44, 2, 0.66);
    mix.step_g = 1;
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_NOT_POSSIBLE);
    ck_assert_uint_eq(rescue.limits, RUNNEL_RESCUE_SCALE);
    ck_near(rescue.add_g, 0, 0);
    /* What a limit leaves is rounded down: 7.9 g of a bottle on 1 g are 7 g. */
    mix = grams(0.44, 100, 22);
    mix.step_g = 1;
    mix.knows_stock = true;
    mix.stock_b_g = 7.9;
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_NOT_POSSIBLE);
    ck_near(rescue.add_g, 7, 0);
    ck_assert_uint_eq(rescue.limits, RUNNEL_RESCUE_STOCK);
    /* 20.9 g would be within 3 % (42.68 - 22 = 20.68), the 20 g that can be weighed are not. */
    mix.stock_b_g = 20.9;
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_NOT_POSSIBLE);
    ck_near(rescue.add_g, 20, 0);
    ck_assert_uint_eq(rescue.limits, RUNNEL_RESCUE_STOCK | RUNNEL_RESCUE_SCALE);
}
END_TEST

START_TEST(one_part_alone) {
    runnel_rescue_case mix = grams(0.44, 100, 0);
    runnel_rescue rescue = {0};
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_OK);
    ck_near(rescue.ratio_error, -1, 0);
    ck_near(rescue.add_g, 44, 1e-13);
    ck_near(rescue.serves_g, 0, 0);
    ck_near(rescue.excess_g, 100, 0);
    mix = grams(0.44, 0, 44);
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_OK);
    ck_near(rescue.ratio_error, INFINITY, 0);
    ck_assert_int_eq(rescue.lacking, 'A');
    ck_near(rescue.add_g, 100, 1e-13);
    ck_near_or(rescue.ratio_error_after, 0, 0, 1e-13);
}
END_TEST

START_TEST(thousands_of_mixes) {
    srand(55);
    size_t verdicts[4] = {0};
    for (int round = 0; round < 20000; round++) {
        double ratio_b = between(0.1, 1.2), a_g = between(5, 500);
        runnel_rescue_case mix = grams(ratio_b, a_g, a_g * ratio_b * between(0.6, 1.5));
        mix.tolerance = between(0.01, 0.05);
        mix.knows_stock = rand() % 2;
        mix.stock_a_g = between(0, 200);
        mix.stock_b_g = between(0, 100);
        mix.step_g = rand() % 2 ? 0.1 : NAN;
        mix.room_mm3 = rand() % 2 ? between(50e3, 900e3) : 0;
        mix.largest_mass_g = rand() % 2 ? between(50, 900) : 0;
        mix.wanted_g = between(10, 500);
        runnel_rescue r = {0};
        runnel_status status = runnel_rescue_of(&mix, &r);
        ck_assert_int_eq(status, r.verdict == RUNNEL_RESCUE_NOT ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK);
        verdicts[r.verdict]++;
        ck_assert(r.add_g >= 0 && r.exact_g >= r.least_g);
        ck_assert((r.verdict == RUNNEL_RESCUE_NOT) ==
                  (fabs(r.ratio_error_after) > mix.tolerance * (1 + 1e-9)));
        ck_assert((r.verdict == RUNNEL_RESCUE_FINE) == (fabs(r.ratio_error) <= mix.tolerance));
        ck_assert(fabs(r.ratio_error_after) <= fabs(r.ratio_error) * (1 + 1e-9) ||
                  r.verdict == RUNNEL_RESCUE_NOT);
        /* By hand: B/A of what is in the cup then. */
        double a = r.part_a_g + (r.lacking == 'A' ? r.add_g : 0);
        double b = r.part_b_g + (r.lacking == 'B' ? r.add_g : 0);
        ck_near_or(b / a / ratio_b - 1, r.ratio_error_after, 0, 1e-12);
        ck_near(r.total_g, a + b, 1e-14);
        ck_near(r.over_wanted_g, a + b - mix.wanted_g, 1e-12);
        /* Within what there is, if anything is added. */
        double stock_g = r.lacking == 'A' ? mix.stock_a_g : mix.stock_b_g;
        ck_assert(r.add_g == 0 || !mix.knows_stock || r.add_g <= stock_g * (1 + 1e-9));
        ck_assert(r.add_g == 0 || !(mix.room_mm3 > 0) ||
                  r.total_ml <= mix.room_mm3 / 1000 * (1 + 1e-9));
        ck_assert(r.add_g == 0 || !(mix.largest_mass_g > 0) ||
                  r.total_g <= mix.largest_mass_g * (1 + 1e-9));
        /* A right mix is within the tolerance with what the scarce part serves. */
        ck_near(r.right_g,
                r.lacking == 'B' ? r.part_b_g * (1 + 1 / ratio_b) : r.part_a_g * (1 + ratio_b),
                1e-12);
        /* The least that does: a hair more is within, a hair less is not. */
        if (r.least_g > 0 && r.lacking == 'B') {
            double at = (r.part_b_g + r.least_g) / r.part_a_g / ratio_b - 1;
            ck_near(at, -mix.tolerance, 1e-9);
        } else if (r.least_g > 0) {
            double at = r.part_b_g / (r.part_a_g + r.least_g) / ratio_b - 1;
            ck_near(at, mix.tolerance, 1e-9);
        }
    }
    for (size_t i = 0; i < COUNT(verdicts); i++)
        ck_assert_msg(verdicts[i] > 100, "verdict %zu came %zu times", i, verdicts[i]);
}
END_TEST

START_TEST(refusals) {
    runnel_rescue rescue = {.total_g = 7};
    runnel_rescue_case mix = grams(0.44, 0, 0);
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_E_RANGE);
    mix = grams(0.44, 100, 44);
    mix.part_b.unit = RUNNEL_DOSE_NONE;
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_E_UNIT);
    mix.part_b.unit = RUNNEL_DOSE_GRAMS;
    mix.part_a.unit = (runnel_dose_unit)9;
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_E_UNIT);
#define REFUSES(member, value)                                                                     \
    mix = grams(0.44, 100, 22);                                                                    \
    mix.member = (value);                                                                          \
    ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_E_RANGE)
    static const double bad[] = {-1, NAN, INFINITY};
    for (size_t i = 0; i < COUNT(bad); i++) {
        REFUSES(tolerance, bad[i]);
        REFUSES(mixture.weight_a, bad[i]);
        REFUSES(mixture.weight_b, bad[i]);
        REFUSES(mixture.volume_a, bad[i]);
        REFUSES(mixture.volume_b, bad[i]);
        REFUSES(density_a_g_per_ml, bad[i]);
        REFUSES(density_b_g_per_ml, bad[i]);
        REFUSES(part_a.amount, bad[i]);
        REFUSES(part_b.amount, bad[i]);
        mix.knows_stock = true;
        mix.stock_a_g = bad[i];
        ck_assert_int_eq(runnel_rescue_of(&mix, &rescue), RUNNEL_E_RANGE);
    }
    REFUSES(tolerance, 0);
    REFUSES(tolerance, 1);
    REFUSES(step_g, -1);
    REFUSES(room_mm3, -1);
    REFUSES(largest_mass_g, -1);
    REFUSES(wanted_g, -1);
    ck_near(rescue.total_g, 7, 0);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("rescue");
    TCase *rescue = tcase_create("rescue");
    tcase_set_timeout(rescue, 60); /* under valgrind too */
    tcase_add_test(rescue, doses);
    tcase_add_test(rescue, hardener_that_ran_out);
    tcase_add_test(rescue, weighed_by_the_label_of_volumes);
    tcase_add_test(rescue, pumped_by_the_label);
    tcase_add_test(rescue, what_keeps_from_adding);
    tcase_add_test(rescue, one_part_alone);
    tcase_add_test(rescue, thousands_of_mixes);
    tcase_add_test(rescue, refusals);
    suite_add_tcase(suite, rescue);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
