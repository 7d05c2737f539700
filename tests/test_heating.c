/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The heat of a job's resin, against the parts that it is made from and what is known of both ends.
 */
#include "compare.h"
#include "runnel/heating.h"
#include "runnel/tables.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A coating resin as in data/resins.csv, by its figures. */
static runnel_resin coating(void) {
    return (runnel_resin){.ratio = {2, 1, RUNNEL_BASIS_VOLUME},
                          .density_a_g_per_ml = 1.16,
                          .density_b_g_per_ml = 0.95,
                          .stated_degc = 25,
                          .lowest_degc = 16,
                          .pot_life_s = 2100,
                          .pot_mass_g = 100,
                          .gel_s = 18000,
                          .recoat_from_s = NAN,
                          .recoat_until_s = NAN,
                          .sandable_s = NAN,
                          .full_cure_s = NAN,
                          .deepest_layer_mm = 6,
                          .largest_mass_g = NAN,
                          .activation_kj_per_mol = 52};
}

static runnel_heating heating_of(const runnel_resin *resin, runnel_heating_case of) {
    runnel_heating heating;
    ck_assert_int_eq(runnel_heating_make(resin, &of, &heating), RUNNEL_OK);
    return heating;
}

/* ---- One law, by other routes ---------------------------------------------------------------- */

static double rate_of(const runnel_kinetics *law, double degc, double a) {
    /* 8.31446261815324 J/(mol K) and 273.15 K are exact (SI, 2019); m = 1, n = 2. */
    double by = exp(-law->e2_kj_per_mol * 1000 / 8.31446261815324 *
                    (1 / (degc + 273.15) - 1 / (law->reference_degc + 273.15)));
    return by * (law->k1_per_s + law->k2_per_s * a) * (1 - a) * (1 - a);
}

/* Seconds to a conversion at the law's temperature, by the closed form of m = 1, n = 2. */
static double closed_form_s(const runnel_kinetics *law, double a) {
    double k1 = law->k1_per_s, k2 = law->k2_per_s, sum = k1 + k2;
    return log((k1 + k2 * a) / (k1 * (1 - a))) * k2 / (sum * sum) + a / ((1 - a) * sum);
}

/* A cup of 70 mm in air of 8 W/(m2 K) by steps of a second of the midpoint rule: conversion after a
 * time, and the highest temperature till then. Floor and top pi/4 d^2 each, wall 4 V/d. */
static double peak_by_midpoints(const runnel_kinetics *law, const runnel_resin_heat *heat,
                                double mass_g, double degc, double for_s, double *peak_degc) {
    double area_m2 =
        1e-6 * (2 * 0.785398163397 * 4900 + 4 * mass_g / heat->density_g_per_ml * 1000 / 70);
    double loss = 8 * area_m2 / (mass_g * heat->cp_j_per_g_k);
    double rise = heat->reaction_j_per_g / heat->cp_j_per_g_k, a = 0, t = degc;
    for (double at = 0; at < for_s; at += 1) {
        double r = rate_of(law, t, a), middle = t + 0.5 * (rise * r - loss * (t - degc));
        r = rate_of(law, middle, a + 0.5 * r);
        a += r;
        t += rise * r - loss * (middle - degc);
        *peak_degc = fmax(*peak_degc, t);
    }
    return a;
}

static double cup_by_midpoints(const runnel_kinetics *law, const runnel_resin_heat *heat,
                               double mass_g, double degc, double for_s) {
    double peak_degc = degc;
    return peak_by_midpoints(law, heat, mass_g, degc, for_s, &peak_degc);
}

/* The peak of a layer on 25 mm of wood by explicit steps through twelve cells of resin and ten of
 * wood (Wood Handbook: 0.15 W/(m K), 1.6 J/(g K), 0.65 g/ml), 8 W/(m2 K) on both faces. */
static double layer_by_steps(const runnel_kinetics *law, const runnel_resin_heat *heat,
                             double depth_mm, double degc, const runnel_heat_air *air,
                             double for_s) {
    enum { RESIN = 12, CELLS = 22 };
    double a[RESIN] = {0}, t[CELLS], flow[CELLS + 1], store[CELLS], half[CELLS], peak = degc,
           step_s = INFINITY;
    for (int i = 0; i < CELLS; i++) {
        double wide_m = i < RESIN ? depth_mm / 1000 / RESIN : 0.0025;
        half[i] = wide_m / 2 / (i < RESIN ? heat->conductivity_w_per_m_k : 0.15);
        store[i] =
            wide_m * 1e6 * (i < RESIN ? heat->density_g_per_ml * heat->cp_j_per_g_k : 0.65 * 1.6);
        t[i] = degc;
        step_s = fmin(step_s, 0.4 * store[i] * half[i]);
    }
    for (double at = 0; at < for_s; at += step_s) {
        double outside = air ? air->degc_at(at, air->of) : degc;
        flow[0] = (t[0] - outside) / (1.0 / 8 + half[0]);
        flow[CELLS] = (outside - t[CELLS - 1]) / (1.0 / 8 + half[CELLS - 1]);
        for (int i = 1; i < CELLS; i++)
            flow[i] = (t[i] - t[i - 1]) / (half[i] + half[i - 1]);
        for (int i = 0; i < CELLS; i++) {
            double r = i < RESIN ? rate_of(law, t[i], a[i]) : 0;
            t[i] += step_s * ((flow[i + 1] - flow[i]) / store[i] +
                              r * heat->reaction_j_per_g / heat->cp_j_per_g_k);
            if (i < RESIN) {
                a[i] += step_s * r;
                peak = fmax(peak, t[i]);
            }
        }
    }
    return peak;
}

/* The law gels a thin film after the gel time, and by the pot life its cup is twice as thick, which
 * is 0.57735 (1 - 1/sqrt 2) = 0.16910 (Castro & Macosko with an exponent of 2). */
START_TEST(one_law_for_both_times) {
    runnel_resin resin = coating();
    runnel_heating usual = heating_of(&resin, (runnel_heating_case){.degc = 25});
    const runnel_kinetics *law = &usual.law.kinetics;
    const runnel_resin_heat heat = runnel_resin_heat_of(&resin, NULL, NULL);
    ck_assert(usual.has_cup && usual.has_layer && usual.law.fits);
    ck_near(closed_form_s(law, 0.5773502691896258), 18000, 1e-6);
    ck_near(usual.law.gel_s, 18000, 1e-6);
    ck_near(usual.law.pot_life_s, 2100, 1e-4);
    ck_near(cup_by_midpoints(law, &heat, 100, 25, 2100), 0.1691018, 1e-3);
    ck_near(usual.of.mass_g, 100, 0);
    ck_near(usual.of.layer_mm, 6, 0);
    ck_near(usual.of.until_s, 2100, 1e-12);
    /* eight times the mass: half the pot life */
    ck_near(heating_of(&resin, (runnel_heating_case){.degc = 25, .mass_g = 800}).of.until_s, 1050,
            1e-12);
    /* it gels later than it can be poured, and cup and layer go by that law */
    ck_assert(usual.cup.gel_s > 2100);
    ck_near(cup_by_midpoints(law, &heat, 100, 25, usual.cup.gel_s), 0.57735, 0.02);
    ck_near_or(usual.layer.peak_degc, layer_by_steps(law, &heat, 6, 25, NULL, 36000), 0, 0.3);
    runnel_heating thin = heating_of(&resin, (runnel_heating_case){.degc = 25, .layer_mm = 0.05});
    ck_near(thin.layer.gel_s, 18000, 0.01);
    ck_assert(thin.layer.peak_degc < 26);
    /* the doubt holds the estimate */
    ck_assert(usual.cup_low_degc <= usual.cup.peak_degc &&
              usual.cup_high_degc >= usual.cup.peak_degc);
    ck_assert(usual.layer_low_degc < usual.layer.peak_degc &&
              usual.layer_high_degc > usual.layer.peak_degc);
}
END_TEST

/* 10 min of pot life and a gel after a day, or 5 h of pot life and a gel after 3 h: no law does
 * both, and the faster one is taken. */
START_TEST(times_that_no_law_fits) {
    runnel_resin resin = coating();
    resin.pot_life_s = 600;
    resin.gel_s = 86400;
    runnel_heating odd = heating_of(&resin, (runnel_heating_case){.degc = 25});
    ck_assert(!odd.law.fits);
    ck_near(odd.law.pot_life_s, 600, 1e-4);
    ck_assert(odd.law.gel_s < 0.9 * 86400);
    resin.pot_life_s = 18000;
    resin.gel_s = 10800;
    odd = heating_of(&resin, (runnel_heating_case){.degc = 25});
    ck_assert(!odd.law.fits);
    ck_near(odd.law.gel_s, 10800, 1e-6);
    ck_assert(odd.law.pot_life_s < 0.9 * 18000);
}
END_TEST

/* The rows that come with it agree with themselves: one law fits both times, the deepest layer that
 * a row allows stays below 60 degC by two routes, its largest mass too in a cup as wide as the
 * resin is high while it is poured within 60 % of the pot life, and the times come in their order.
 */
START_TEST(rows_agree_with_themselves) {
    runnel_tables tables = {0};
    ck_assert_int_eq(runnel_tables_read(&tables, "data", NULL), RUNNEL_OK);
    ck_assert_uint_ge(tables.resin_count, 12);
    for (size_t i = 0; i < tables.resin_count; i++) {
        const runnel_resin *row = &tables.resins[i].resin;
        const runnel_resin_heat heat = runnel_resin_heat_of(row, NULL, NULL);
        const double ml = row->largest_mass_g / heat.density_g_per_ml;
        runnel_heating of =
            heating_of(row, (runnel_heating_case){.degc = 25,
                                                  .mass_g = row->largest_mass_g,
                                                  .diameter_mm = cbrt(4000 * ml / 3.14159265358979),
                                                  .until_s = 0.6 * row->pot_life_s});
        ck_assert_msg(of.law.fits, "%s: no law fits", row->name);
        ck_near(closed_form_s(&of.law.kinetics, 0.5773502691896258), row->gel_s, 1e-6);
        ck_near(cup_by_midpoints(&of.law.kinetics, &heat, row->pot_mass_g, 25, row->pot_life_s),
                0.1691018, 2e-3);
        ck_assert_msg(of.cup_degc <= 60, "%s: %g degC in the cup", row->name, of.cup_degc);
        ck_assert_msg(of.layer.peak_degc <= 60, "%s: %g degC", row->name, of.layer.peak_degc);
        ck_near_or(of.layer.peak_degc,
                   layer_by_steps(&of.law.kinetics, &heat, row->deepest_layer_mm, 25, NULL,
                                  2 * row->gel_s),
                   0, 0.8);
        ck_assert(!of.contradicts_sheet && of.sheet_allows_layer);
        ck_assert_msg(row->pot_life_s < row->gel_s && row->gel_s <= row->recoat_from_s &&
                          row->recoat_from_s < row->recoat_until_s &&
                          row->recoat_until_s <= row->sandable_s &&
                          row->sandable_s < row->full_cure_s &&
                          row->pot_mass_g <= row->largest_mass_g,
                      "%s: times or masses out of order", row->name);
    }
    runnel_tables_clear(&tables);
}
END_TEST

/* ---- Air that changes ---------------------------------------------------------------------- */

/* 18 degC for three days, then 34. */
static double warm_at_last(double time_s, const void *of) {
    (void)of;
    return time_s < 259200 ? 18 : 34;
}

/* A day with its warmest hour six hours after the pour at 20 degC. */
static double warm_day(double time_s, const void *of) {
    (void)of;
    return 20 + 8 * sin(2 * 3.14159265358979 * time_s / 86400);
}

/* What comes after the cure does not count: 18 degC all the time has the same peak. On a warm day
 * it is that of the steps through time. */
START_TEST(air_from_the_pour_on) {
    runnel_resin resin = coating();
    const runnel_heat_air late = {warm_at_last, NULL, 600}, day = {warm_day, NULL, 600};
    const runnel_cure cure = {.reached_s = {3000, 30000, NAN, NAN, 120000, INFINITY}};
    const runnel_heating_case still = {.degc = 18, .until_s = 2000};
    runnel_heating_case of = still;
    of.air = &late;
    of.cure = &cure;
    runnel_heating at = heating_of(&resin, of), same = heating_of(&resin, still);
    ck_near_or(at.layer.peak_degc, same.layer.peak_degc, 0, 0.01);
    ck_near_or(at.cup.peak_degc, same.cup.peak_degc, 0, 0.01);
    ck_near(at.of.until_s, 2000, 0);
    ck_near(at.thickest_mm, same.thickest_mm, 0.011);
    of = (runnel_heating_case){.degc = 20, .air = &day, .cure = &cure};
    at = heating_of(&resin, of);
    const runnel_resin_heat heat = runnel_resin_heat_of(&resin, NULL, NULL);
    ck_near_or(at.layer.peak_degc, layer_by_steps(&at.law.kinetics, &heat, 6, 20, &day, 120000), 0,
               0.3);
    ck_near(at.of.until_s, 3000, 0); /* the pot life that comes in this air */
    /* the curves go as far as the moments of that air, and no moment that never comes breaks them
     */
    runnel_heating_curves curves = {.pot_life_s = NAN};
    ck_assert_int_eq(runnel_heating_curves_make(&resin, &at, &curves), RUNNEL_OK);
    ck_near(curves.pot_life_s, 3000, 0);
    ck_near(curves.gel_s, 30000, 0);
    ck_near(curves.layer.points[curves.layer.count - 1].time_s, 1.15 * 120000, 1e-9);
    runnel_heating_curves_clear(&curves);
}
END_TEST

/* ---- Limits ---------------------------------------------------------------------------------- */

/* A coating type is poured 3 to 6 mm deep, a casting type of slow cure 25 to 50 mm (common
 * practice). Where heat has to get through the resin, the depth goes with the root of the gel time
 * (Frank-Kamenetskii); where it has to get off the face, with the gel time itself (Semenov): a
 * layer of resin in still air is in between. */
START_TEST(thickest_layer) {
    runnel_resin resin = coating();
    resin.pot_life_s = NAN; /* both by the usual start */
    runnel_resin slow = resin;
    slow.gel_s *= 10;
    double fast_mm = heating_of(&resin, (runnel_heating_case){.degc = 25}).thickest_mm;
    double slow_mm = heating_of(&slow, (runnel_heating_case){.degc = 25}).thickest_mm;
    ck_assert(fast_mm > 3 && fast_mm < 12);
    ck_assert(slow_mm > sqrt(10) * fast_mm && slow_mm < 10 * fast_mm);
    /* what is found stays below the limit, and a little more does not */
    resin.deepest_layer_mm = 3;
    runnel_heating at = heating_of(&resin, (runnel_heating_case){.degc = 25, .layer_mm = fast_mm});
    ck_assert(at.layer.peak_degc <= 60 && !at.is_too_thick);
    at = heating_of(&resin, (runnel_heating_case){.degc = 25, .layer_mm = 1.02 * fast_mm});
    ck_assert(at.layer.peak_degc > 60 && at.is_too_thick);
    /* unless the sheet allows it */
    resin.deepest_layer_mm = 1.02 * fast_mm;
    at = heating_of(&resin, (runnel_heating_case){.degc = 25, .layer_mm = 1.02 * fast_mm});
    ck_assert(at.layer.peak_degc > 60 && !at.is_too_thick);
}
END_TEST

/* 12 oz of quick resin in one cup: set hot after two of six panels (a report from practice); 340 g
 * left standing pass the limit, and half of the pot life does not yet. */
START_TEST(cup_too_large) {
    runnel_resin resin = coating();
    runnel_heating stood =
        heating_of(&resin, (runnel_heating_case){.degc = 25, .mass_g = 340, .until_s = 3000});
    ck_assert(stood.is_too_large && stood.cup.peak_degc > 100);
    ck_assert(stood.cup.gel_s < heating_of(&resin, (runnel_heating_case){.degc = 25}).cup.gel_s);
    ck_assert(stood.largest_g < 340);
    runnel_heating poured =
        heating_of(&resin, (runnel_heating_case){.degc = 25, .mass_g = 340, .until_s = 1050});
    ck_assert(!poured.is_too_large && poured.cup_degc < 60);
    ck_assert(isinf(poured.largest_g) || poured.largest_g >= 340);
}
END_TEST

/* The peak that tests/cli/practice/large-cup-left-standing tells, by the midpoint rule. */
START_TEST(cup_left_standing) {
    runnel_tables tables = {0};
    ck_assert_int_eq(runnel_tables_read(&tables, "data", NULL), RUNNEL_OK);
    const runnel_resin *row = NULL;
    for (size_t i = 0; i < tables.resin_count; i++)
        if (!strcmp(tables.resins[i].resin.name, "laminating 5:1 slow"))
            row = &tables.resins[i].resin;
    ck_assert_ptr_nonnull(row);
    const runnel_resin_heat heat = runnel_resin_heat_of(row, NULL, NULL);
    runnel_heating stood = heating_of(
        row, (runnel_heating_case){.degc = 25, .mass_g = 340, .until_s = row->pot_life_s});
    double peak_degc = 25;
    peak_by_midpoints(&stood.law.kinetics, &heat, 340, 25, 6 * 3600, &peak_degc);
    ck_near_or(stood.cup.peak_degc, peak_degc, 0, 0.2);
    ck_near_or(peak_degc, 243, 0, 0.5);
    runnel_tables_clear(&tables);
}
END_TEST

/* Where no heat gets away a mass ends at its start and the heat over 1.9 J/(g K): with 100 kJ/mol
 * over 190 g/eq and 0.542056 of A, 150.2 K. A cup in air stays below
 * that, a large one keeps most of it, and a stated heat takes
 * the place of the computed one. */
START_TEST(heat_of_its_ratio) {
    double low = 0, high = 0;
    runnel_resin resin = coating();
    resin.ratio = (runnel_ratio){1, 1, RUNNEL_BASIS_VOLUME};
    resin.density_b_g_per_ml = 0.98;
    runnel_resin_heat heat = runnel_resin_heat_of(&resin, &low, &high);
    ck_near_or(heat.reaction_j_per_g, 285.3, 0, 0.051);
    /* 98000/200 and 122000/182 J/g of A */
    ck_near(low, 490 * 1.16 / 2.14, 1e-12);
    ck_near(high, 122000.0 / 182 * 1.16 / 2.14, 1e-12);
    ck_near(heat.density_g_per_ml, 1.07, 1e-12);
    const runnel_heating_case of = {.degc = 25, .mass_g = 20000, .diameter_mm = 300};
    double large = heating_of(&resin, of).cup.peak_degc;
    ck_assert(large > 25 + 0.5 * 150.2 && large < 25 + 150.2);
    resin.reaction_j_per_g = 200;
    heat = runnel_resin_heat_of(&resin, &low, &high);
    ck_near(heat.reaction_j_per_g, 200, 0);
    ck_near(low, 200, 0);
    ck_near(high, 200, 0);
    large = heating_of(&resin, of).cup.peak_degc;
    ck_assert(large > 25 + 0.5 * 105.27 && large < 25 + 105.27);
    /* lean in hardener: 100:13 by weight */
    resin.reaction_j_per_g = NAN;
    resin.ratio = (runnel_ratio){100, 13, RUNNEL_BASIS_WEIGHT};
    ck_near_or(runnel_resin_heat_of(&resin, NULL, NULL).reaction_j_per_g, 465.8, 0, 0.051);
    /* no ratio: the usual */
    resin.ratio.basis = RUNNEL_BASIS_NONE;
    ck_near(runnel_resin_heat_of(&resin, &low, &high).reaction_j_per_g, 400, 0);
    ck_near(low, 400, 0);
}
END_TEST

START_TEST(what_is_not_known) {
    runnel_resin resin = coating();
    runnel_heating heating;
    runnel_heating_case of = {.degc = 15.9};
    ck_assert_int_eq(runnel_heating_make(&resin, &of, &heating), RUNNEL_NOT_POSSIBLE);
    ck_assert(!heating.has_cup && !heating.has_layer);
    resin.pot_life_s = NAN;
    ck_assert(!heating_of(&resin, (runnel_heating_case){.degc = 25}).has_cup);
    resin.deepest_layer_mm = NAN;
    ck_assert(!heating_of(&resin, (runnel_heating_case){.degc = 25}).has_layer);
    resin.stated_degc = NAN;
    heating = heating_of(&resin, (runnel_heating_case){.degc = 25, .layer_mm = 3});
    ck_assert(!heating.has_cup && !heating.has_layer);
    resin = coating();
    of = (runnel_heating_case){.degc = NAN};
    ck_assert_int_eq(runnel_heating_make(&resin, &of, &heating), RUNNEL_E_RANGE);
    resin.activation_kj_per_mol = NAN;
    ck_assert(heating_of(&resin, (runnel_heating_case){.degc = 25}).energy_is_usual);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("heating");
    TCase *tests = tcase_create("heating");
    tcase_set_timeout(tests, 300);
    tcase_add_test(tests, one_law_for_both_times);
    tcase_add_test(tests, times_that_no_law_fits);
    tcase_add_test(tests, rows_agree_with_themselves);
    tcase_add_test(tests, air_from_the_pour_on);
    tcase_add_test(tests, thickest_layer);
    tcase_add_test(tests, cup_too_large);
    tcase_add_test(tests, cup_left_standing);
    tcase_add_test(tests, heat_of_its_ratio);
    tcase_add_test(tests, what_is_not_known);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
