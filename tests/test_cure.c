/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "runnel/cure.h"

#include <stdlib.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static const double hour = 3600, day = 86400;

/* A made-up row with round times. */
static runnel_resin round_resin(void) {
    return (runnel_resin){.stated_degc = 25,
                          .lowest_degc = 15,
                          .pot_life_s = 40 * 60.0,
                          .pot_mass_g = 100,
                          .gel_s = 4 * 3600.0,
                          .recoat_from_s = 5 * 3600.0,
                          .recoat_until_s = 12 * 3600.0,
                          .sandable_s = 24 * 3600.0,
                          .full_cure_s = 7 * 86400.0,
                          .activation_kj_per_mol = 52};
}

static runnel_cure_law law_of(const runnel_resin *resin, runnel_cure_rule rule) {
    runnel_cure_law law;
    ck_assert_int_eq(runnel_cure_law_of(resin, rule, &law), RUNNEL_OK);
    return law;
}

START_TEST(names_and_stated_times) {
    static const char *const names[] = {"pot life",     "gel",      "recoat from",
                                        "recoat until", "sandable", "full cure"};
    static const double stated_s[] = {2400, 14400, 18000, 43200, 86400, 604800};
    runnel_resin resin = round_resin();
    for (unsigned i = 0; i < RUNNEL_CURE_MOMENTS; i++) {
        ck_assert_str_eq(runnel_cure_moment_name((runnel_cure_moment)i), names[i]);
        ck_near(runnel_cure_stated(&resin, (runnel_cure_moment)i), stated_s[i], 0);
    }
    ck_assert_ptr_null(runnel_cure_moment_name(RUNNEL_CURE_MOMENTS));
    ck_assert(isnan(runnel_cure_stated(&resin, RUNNEL_CURE_MOMENTS)));
}
END_TEST

START_TEST(laws) {
    runnel_resin resin = round_resin();
    runnel_cure_law law = law_of(&resin, RUNNEL_CURE_ARRHENIUS);
    ck_near(law.stated_degc, 25, 0);
    ck_near(law.lowest_degc, 15, 0);
    ck_near(law.activation_kj_per_mol, 52, 0);
    ck_assert(!law.energy_is_usual);
    resin.activation_kj_per_mol = NAN;
    law = law_of(&resin, RUNNEL_CURE_ARRHENIUS);
    ck_near(law.activation_kj_per_mol, 52, 0); /* the usual one */
    ck_assert(law.energy_is_usual);

    /* Speeds worked by hand: exp(E/R (1/T1 - 1/T2)), and powers of two. */
    ck_near(runnel_cure_speed(&law, 25), 1, 0);
    ck_near(runnel_cure_speed(&law, 40), 30 / 10.98, 5e-4);
    ck_near(runnel_cure_speed(&law, 14.999), 0, 0);
    ck_near(runnel_cure_speed(&law, 15), 30 / 62.13, 2e-4);
    law = law_of(&resin, RUNNEL_CURE_DOUBLING);
    ck_near(runnel_cure_speed(&law, 35), 2, 1e-12);
    ck_near(runnel_cure_speed(&law, 15), 0.5, 1e-12);
    ck_near(runnel_cure_speed(&law, 55), 8, 1e-12); /* as in ASTM F1980: 55 against 25 degC */
    ck_assert(isnan(runnel_cure_speed(&law, -273.15)));
    ck_assert(isnan(runnel_cure_speed(&law, NAN)));

    law = (runnel_cure_law){.stated_degc = -1};
    resin.stated_degc = NAN;
    ck_assert_int_eq(runnel_cure_law_of(&resin, RUNNEL_CURE_DOUBLING, &law), RUNNEL_E_MISSING);
    resin.stated_degc = -300;
    ck_assert_int_eq(runnel_cure_law_of(&resin, RUNNEL_CURE_DOUBLING, &law), RUNNEL_E_RANGE);
    resin = round_resin();
    resin.activation_kj_per_mol = -1;
    ck_assert_int_eq(runnel_cure_law_of(&resin, RUNNEL_CURE_ARRHENIUS, &law), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_cure_law_of(&resin, (runnel_cure_rule)7, &law), RUNNEL_E_RANGE);
    ck_near(law.stated_degc, -1, 0);
}
END_TEST

START_TEST(constant_shop) {
    runnel_resin resin = round_resin();
    runnel_cure cure;
    /* A garage at 12 degC: 24 h at 25 degC take 59 h when the speed halves for 10 degrees less
     * (common practice), 24 x 2^1.3 = 59.0949; 62.4506 h with 52 kJ/mol, worked by hand. */
    resin.lowest_degc = 10;
    runnel_cure_law law = law_of(&resin, RUNNEL_CURE_DOUBLING);
    ck_assert_int_eq(runnel_cure_at(&resin, &law, 12, &cure), RUNNEL_OK);
    ck_near(cure.reached_s[RUNNEL_CURE_SANDABLE] / hour, 59.09493184055599, 1e-12);
    law = law_of(&resin, RUNNEL_CURE_ARRHENIUS);
    ck_assert_int_eq(runnel_cure_at(&resin, &law, 12, &cure), RUNNEL_OK);
    ck_near(cure.reached_s[RUNNEL_CURE_SANDABLE] / hour, 62.450623134361756, 1e-11);
    ck_near(cure.stood_s[RUNNEL_CURE_SANDABLE], 0, 0);
    ck_near(cure.rise_to_gel_k, 0, 0);
    ck_assert(isnan(cure.needed_degc));
    ck_assert(isnan(cure.age_s));

    /* At the stated temperature all is as stated, to the bit. */
    resin.recoat_until_s = NAN;
    ck_assert_int_eq(runnel_cure_at(&resin, &law, 25, &cure), RUNNEL_OK);
    ck_near(cure.reached_s[RUNNEL_CURE_POT_LIFE], 2400, 0);
    ck_assert(isnan(cure.reached_s[RUNNEL_CURE_RECOAT_UNTIL]));
    ck_near(cure.reached_s[RUNNEL_CURE_FULL], 7 * day, 0);

    /* At the lowest it cures, below it does not. */
    ck_assert_int_eq(runnel_cure_at(&resin, &law, 10, &cure), RUNNEL_OK);
    ck_assert_int_eq(runnel_cure_at(&resin, &law, 9.9, &cure), RUNNEL_NOT_POSSIBLE);
    ck_near(cure.needed_degc, 10, 0);
    ck_near(cure.reached_s[RUNNEL_CURE_GEL], INFINITY, 0);
    ck_assert(isnan(cure.reached_s[RUNNEL_CURE_RECOAT_UNTIL]));
    /* Without a lowest temperature none is kept to. */
    resin.lowest_degc = NAN;
    law = law_of(&resin, RUNNEL_CURE_DOUBLING);
    ck_assert_int_eq(runnel_cure_at(&resin, &law, -5, &cure), RUNNEL_OK);
    ck_near(cure.reached_s[RUNNEL_CURE_GEL], 8 * 4 * hour, 1e-12);
}
END_TEST

START_TEST(daily_swing) {
    runnel_resin resin = round_resin();
    resin.lowest_degc = NAN;
    /* The mean of 2^((17 + 8 cos x - 25)/10) over a turn is 2^-0.8 I0(0.8 ln 2) = 0.61935662 (the
     * modified Bessel function; Abramowitz & Stegun 9.6.10 and 9.6.16). */
    const double bessel = 0.6193566185059476;
    resin.full_cure_s = 7 * bessel * day;
    resin.gel_s = 6 * hour;
    runnel_cure_law law = law_of(&resin, RUNNEL_CURE_DOUBLING);
    runnel_swing swing = {17, 8, 15, 9};
    runnel_cure cure;
    ck_assert_int_eq(runnel_cure_swing(&resin, &law, &swing, &cure), RUNNEL_OK);
    ck_near(cure.reached_s[RUNNEL_CURE_FULL], 7 * day, 1e-8);
    ck_near(cure.coldest_degc, 9, 1e-15);
    ck_near(cure.warmest_degc, 25, 1e-15);
    /* Poured at 9 o'clock at 17 degC; 6 h of gel time are over after the warmest hour. */
    ck_near(cure.rise_to_gel_k, 8, 1e-6);
    /* Poured as it gets colder, nothing rises before a gel of 1 h. */
    resin.gel_s = hour / 2;
    swing.poured_at_hour = 17;
    ck_assert_int_eq(runnel_cure_swing(&resin, &law, &swing, &cure), RUNNEL_OK);
    ck_near_or(cure.rise_to_gel_k, 0, 0, 1e-12);
    ck_near(cure.reached_s[RUNNEL_CURE_FULL], 7 * day, 1e-8);

    /* 20 +- 6 degC with 52 kJ/mol: 0.72963810 by the trapezoid rule over a turn, which converges
     * faster than any power. */
    resin.full_cure_s = 3 * 0.7296381024014313 * day;
    law = law_of(&resin, RUNNEL_CURE_ARRHENIUS);
    swing = (runnel_swing){20, 6, 15, 23};
    ck_assert_int_eq(runnel_cure_swing(&resin, &law, &swing, &cure), RUNNEL_OK);
    ck_near(cure.reached_s[RUNNEL_CURE_FULL], 3 * day, 1e-8);
    /* No swing is a constant temperature. */
    swing.amplitude_k = 0;
    runnel_cure constant;
    ck_assert_int_eq(runnel_cure_swing(&resin, &law, &swing, &cure), RUNNEL_OK);
    ck_assert_int_eq(runnel_cure_at(&resin, &law, 20, &constant), RUNNEL_OK);
    for (unsigned i = 0; i < RUNNEL_CURE_MOMENTS; i++)
        ck_near(cure.reached_s[i], constant.reached_s[i], 1e-10);
}
END_TEST

START_TEST(swing_that_stands_still) {
    runnel_resin resin = round_resin();
    runnel_cure_law law = law_of(&resin, RUNNEL_CURE_DOUBLING);
    /* Mean 15 at a lowest of 15: half of each day it stands still. Poured at the middle of the warm
     * half it cures for 6 h, stands for 12 and cures again. */
    runnel_swing swing = {15, 10, 15, 15};
    runnel_cure cure;
    resin.full_cure_s = NAN;
    ck_assert_int_eq(runnel_cure_swing(&resin, &law, &swing, &cure), RUNNEL_OK);
    ck_near(cure.stood_s[RUNNEL_CURE_GEL], 0, 0);
    ck_near(cure.stood_s[RUNNEL_CURE_SANDABLE] / hour, 36, 1e-9);
    /* A warm half adds 12/2 (I0(ln 2) + L0(ln 2)) = 9.46 h (modified Bessel and Struve functions,
     * Abramowitz & Stegun 12.2), so the fourth has just begun, 66 h after the pour. */
    ck_assert(cure.reached_s[RUNNEL_CURE_SANDABLE] > 66 * hour);
    ck_assert(cure.reached_s[RUNNEL_CURE_SANDABLE] < 67 * hour);
    ck_assert(isnan(cure.reached_s[RUNNEL_CURE_FULL]));
    /* Too cold all day: the warmest hour has 14 degC, so the mean has to be a degree more. */
    swing = (runnel_swing){8, 6, 15, 9};
    ck_assert_int_eq(runnel_cure_swing(&resin, &law, &swing, &cure), RUNNEL_NOT_POSSIBLE);
    ck_near(cure.needed_degc, 9, 1e-15);
    ck_near(cure.reached_s[RUNNEL_CURE_GEL], INFINITY, 0);
}
END_TEST

START_TEST(series_with_closed_forms) {
    runnel_resin resin = round_resin();
    runnel_cure_law law = law_of(&resin, RUNNEL_CURE_DOUBLING);
    runnel_cure cure;
    /* From 15 to 35 degC in 10 h: age(t) = (c/r) 2^-1 (2^(r t/10) - 1), c = 10/ln 2, r = 2 K/h. So
     * a gel of 4 h is reached at t = (c/2) ln(1 + 2 x 4 x 2/c) h. */
    const runnel_reading ramp[] = {{0, 15, NAN}, {10 * 3600.0, 35, NAN}};
    ck_assert_int_eq(runnel_cure_series(&resin, &law, ramp, 2, 0, &cure), RUNNEL_OK);
    const double c = 14.426950408889634; /* 10/ln 2 */
    ck_near(cure.reached_s[RUNNEL_CURE_GEL] / hour, c / 2 * log(1 + 16 / c), 1e-8);
    ck_near(cure.reached_s[RUNNEL_CURE_RECOAT_FROM] / hour, c / 2 * log(1 + 20 / c), 1e-8);
    ck_near(cure.age_s / hour, c / 2 * 0.5 * (4 - 1), 1e-8);
    ck_near(cure.reached_s[RUNNEL_CURE_RECOAT_UNTIL], INFINITY, 0);
    ck_near(cure.rise_to_gel_k, c * log(1 + 16 / c), 1e-8); /* 2 K an hour */
    /* Poured half-way, at 25 degC: t = (c/2) ln(1 + 2 x 4/c). */
    ck_assert_int_eq(runnel_cure_series(&resin, &law, ramp, 2, 5 * hour, &cure), RUNNEL_OK);
    ck_near(cure.reached_s[RUNNEL_CURE_GEL] / hour, c / 2 * log(1 + 8 / c), 1e-8);
    ck_near(cure.coldest_degc, 25, 1e-15);

    /* From 10 to 40 degC in 10 h with 52 kJ/mol: 42235.2854264 s by Simpson's rule on 20 000
     * pieces. */
    resin.lowest_degc = NAN;
    law = law_of(&resin, RUNNEL_CURE_ARRHENIUS);
    const runnel_reading wide[] = {{-100, 10, 0.5}, {35900, 40, 0.5}};
    ck_assert_int_eq(runnel_cure_series(&resin, &law, wide, 2, -100, &cure), RUNNEL_OK);
    ck_near(cure.age_s, 42235.285426375056, 1e-8);
    /* As far apart as it can be. */
    const runnel_reading far[] = {{0, -273, NAN}, {1, 200, NAN}};
    ck_assert_int_eq(runnel_cure_series(&resin, &law, far, 2, 0, &cure), RUNNEL_OK);
    ck_assert(cure.age_s > 0 && cure.age_s < 10000);
}
END_TEST

START_TEST(series_that_stands_still) {
    runnel_resin resin = round_resin();
    runnel_cure_law law = law_of(&resin, RUNNEL_CURE_DOUBLING);
    runnel_cure cure;
    /* A good afternoon, a cold night, a heater: 2 h at 25, an hour down to 5 (half of it above 15:
     * age (1/2)/ln 2 x (1 - 1/2) h ... = c/20 x (1 - 2^-1) h), 10 h at 5, an hour up, then 25. */
    const runnel_reading readings[] = {{0, 25, NAN},           {2 * 3600.0, 25, NAN},
                                       {3 * 3600.0, 5, NAN},   {13 * 3600.0, 5, NAN},
                                       {14 * 3600.0, 25, NAN}, {40 * 3600.0, 25, NAN}};
    const double slope_h = 14.426950408889634 / 20 * 0.5;
    ck_assert_int_eq(runnel_cure_series(&resin, &law, readings, COUNT(readings), 0, &cure),
                     RUNNEL_OK);
    double aged_h = 2 + 2 * slope_h; /* at 14 h */
    ck_near(cure.reached_s[RUNNEL_CURE_GEL] / hour, 14 + 4 - aged_h, 1e-8);
    ck_near(cure.stood_s[RUNNEL_CURE_GEL] / hour, 11, 1e-12);
    ck_near(cure.stood_s[RUNNEL_CURE_POT_LIFE], 0, 0);
    ck_near(cure.reached_s[RUNNEL_CURE_POT_LIFE], 2400, 1e-12);
    ck_near(cure.all_stood_s / hour, 11, 1e-12);
    ck_near(cure.coldest_degc, 5, 0);
    ck_near(cure.reached_s[RUNNEL_CURE_FULL], INFINITY, 0);
    ck_near(cure.age_s / hour, aged_h + 26, 1e-8);
    /* Nothing but cold. */
    const runnel_reading cold[] = {{0, 10, NAN}, {3600, 14, NAN}, {7200, 8, NAN}};
    ck_assert_int_eq(runnel_cure_series(&resin, &law, cold, 3, 0, &cure), RUNNEL_NOT_POSSIBLE);
    ck_near(cure.needed_degc, 15, 0);
    ck_near(cure.all_stood_s, 7200, 0);
    ck_near(cure.age_s, 0, 0);
    /* Poured at its very end there is no time to stand still in. */
    ck_assert_int_eq(runnel_cure_series(&resin, &law, cold, 3, 7200, &cure), RUNNEL_OK);
}
END_TEST

/* Many readings give what few do, whichever way time is cut up. */
START_TEST(series_cut_up) {
    enum { MANY = 20001 };
    static runnel_reading readings[MANY];
    runnel_resin resin = round_resin();
    runnel_cure_law law = law_of(&resin, RUNNEL_CURE_ARRHENIUS);
    runnel_cure few, many, swinging;
    for (size_t i = 0; i < MANY; i++)
        readings[i] = (runnel_reading){(double)i * 40, 16 + (double)i / 1000, NAN};
    const runnel_reading ends[] = {readings[0], readings[MANY - 1]};
    ck_assert_int_eq(runnel_cure_series(&resin, &law, ends, 2, 0, &few), RUNNEL_OK);
    ck_assert_int_eq(runnel_cure_series(&resin, &law, readings, MANY, 0, &many), RUNNEL_OK);
    for (unsigned i = 0; i < RUNNEL_CURE_MOMENTS; i++)
        ck_near(many.reached_s[i], few.reached_s[i], 1e-8);
    /* A logged swing is the swing: chords of 40 s lie within 8e-5 K of the cosine. */
    const double pi = 3.14159265358979323846;
    for (size_t i = 0; i < MANY; i++)
        readings[i].degc = 18 + 8 * cos(pi / 12 * ((double)i / 90 + 8 - 15));
    const runnel_swing swing = {18, 8, 15, 8};
    ck_assert_int_eq(runnel_cure_series(&resin, &law, readings, MANY, 0, &many), RUNNEL_OK);
    ck_assert_int_eq(runnel_cure_swing(&resin, &law, &swing, &swinging), RUNNEL_OK);
    for (unsigned i = 0; i < RUNNEL_CURE_FULL; i++) {
        ck_near(many.reached_s[i], swinging.reached_s[i], 1e-5);
        ck_near_or(many.stood_s[i], swinging.stood_s[i], 1e-4, 1e-9);
    }
}
END_TEST

START_TEST(refusals) {
    runnel_resin resin = round_resin();
    runnel_cure_law law = law_of(&resin, RUNNEL_CURE_ARRHENIUS);
    runnel_cure cure = {.age_s = -7};
    const double broken[] = {NAN, INFINITY, -INFINITY, -274};
    for (size_t i = 0; i < COUNT(broken); i++)
        ck_assert_int_eq(runnel_cure_at(&resin, &law, broken[i], &cure), RUNNEL_E_RANGE);
    const runnel_swing swings[] = {{NAN, 1, 1, 1}, {20, -1, 1, 1},  {20, 1, 25, 1},
                                   {20, 1, 1, -1}, {20, NAN, 1, 1}, {20, 300, 1, 1}};
    for (size_t i = 0; i < COUNT(swings); i++)
        ck_assert_int_eq(runnel_cure_swing(&resin, &law, &swings[i], &cure), RUNNEL_E_RANGE);
    const runnel_reading wrong[][3] = {{{0, 20, NAN}, {0, 20, NAN}, {1, 20, NAN}},
                                       {{0, 20, NAN}, {2, 20, NAN}, {1, 20, NAN}},
                                       {{0, 20, NAN}, {1, NAN, NAN}, {2, 20, NAN}},
                                       {{0, 20, NAN}, {1, -274, NAN}, {2, 20, NAN}},
                                       {{NAN, 20, NAN}, {1, 20, NAN}, {2, 20, NAN}}};
    for (size_t i = 0; i < COUNT(wrong); i++)
        ck_assert_int_eq(runnel_cure_series(&resin, &law, wrong[i], 3, 0, &cure), RUNNEL_E_RANGE);
    const runnel_reading good[] = {{0, 20, NAN}, {1, 20, NAN}};
    ck_assert_int_eq(runnel_cure_series(&resin, &law, good, 1, 0, &cure), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_cure_series(&resin, &law, good, 2, -1, &cure), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_cure_series(&resin, &law, good, 2, 2, &cure), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_cure_series(&resin, &law, good, 2, NAN, &cure), RUNNEL_E_RANGE);
    resin.gel_s = -1;
    ck_assert_int_eq(runnel_cure_at(&resin, &law, 20, &cure), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_cure_series(&resin, &law, good, 2, 0, &cure), RUNNEL_E_RANGE);
    resin.gel_s = 1;
    law.rule = (runnel_cure_rule)9;
    ck_assert_int_eq(runnel_cure_at(&resin, &law, 20, &cure), RUNNEL_E_RANGE);
    ck_near(cure.age_s, -7, 0);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("cure");
    TCase *all = tcase_create("all");
    tcase_add_test(all, names_and_stated_times);
    tcase_add_test(all, laws);
    tcase_add_test(all, constant_shop);
    tcase_add_test(all, daily_swing);
    tcase_add_test(all, swing_that_stands_still);
    tcase_add_test(all, series_with_closed_forms);
    tcase_add_test(all, series_that_stands_still);
    tcase_add_test(all, series_cut_up);
    tcase_add_test(all, refusals);
    suite_add_tcase(suite, all);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
