/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The heat of a job's resin, against the parts that it is made from and what is known of both ends.
 */
#include "compare.h"
#include "runnel/heating.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

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

/* The cup of the sheet gels at the pot life, as it is anchored there; the thin end of a layer gels
 * at the gel time. */
START_TEST(anchored_to_the_sheet) {
    runnel_resin resin = coating();
    runnel_heating usual = heating_of(&resin, (runnel_heating_case){.degc = 25});
    ck_assert(usual.has_cup && usual.has_layer);
    ck_near(usual.cup.gel_s, 2100, 1e-6);
    ck_near(usual.of.mass_g, 100, 0);
    ck_near(usual.of.layer_mm, 6, 0);
    ck_near(usual.of.until_s, 2100, 1e-12);
    runnel_heating thin = heating_of(&resin, (runnel_heating_case){.degc = 25, .layer_mm = 0.05});
    ck_near(thin.layer.gel_s, 18000, 0.01);
    ck_assert(thin.layer.peak_degc < 26);
}
END_TEST

/* A coating type is poured 3 to 6 mm deep, a casting type of slow cure 25 to 50 mm (common
 * practice). Where heat has to get through the resin, the depth goes with the root of the gel time
 * (Frank-Kamenetskii); where it has to get off the face, with the gel time itself (Semenov): a
 * layer of resin in still air is in between. */
START_TEST(thickest_layer) {
    runnel_resin resin = coating(), slow = coating();
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
    ck_assert(stood.cup.gel_s < 2100);
    ck_assert(stood.largest_g < 340);
    runnel_heating poured =
        heating_of(&resin, (runnel_heating_case){.degc = 25, .mass_g = 340, .until_s = 1050});
    ck_assert(!poured.is_too_large && poured.cup_degc < 60);
    ck_assert(isinf(poured.largest_g) || poured.largest_g >= 340);
}
END_TEST

/* Where no heat gets away a mass ends at its start and the heat over 1.9 J/(g K): with 100 kJ/mol
 * over 190 g/eq and 0.542056 of A, 150.2 K. A cup in air stays below that, and a stated heat takes
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
    ck_assert(large > 25 + 0.8 * 150.2 && large < 25 + 150.2);
    resin.reaction_j_per_g = 200;
    heat = runnel_resin_heat_of(&resin, &low, &high);
    ck_near(heat.reaction_j_per_g, 200, 0);
    ck_near(low, 200, 0);
    ck_near(high, 200, 0);
    large = heating_of(&resin, of).cup.peak_degc;
    ck_assert(large > 25 + 0.8 * 105.27 && large < 25 + 105.27);
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
    tcase_add_test(tests, anchored_to_the_sheet);
    tcase_add_test(tests, thickest_layer);
    tcase_add_test(tests, cup_too_large);
    tcase_add_test(tests, heat_of_its_ratio);
    tcase_add_test(tests, what_is_not_known);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
