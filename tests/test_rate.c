/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "runnel/resin.h"

#include <stdlib.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static const double broken[] = {NAN, INFINITY, -INFINITY, -1.0};

static double time_at(double stated_s, double stated_degc, double shop_degc, double kj_per_mol) {
    double seconds = NAN;
    ck_assert_int_eq(runnel_time_at(stated_s, stated_degc, shop_degc, kj_per_mol, &seconds),
                     RUNNEL_OK);
    return seconds;
}

START_TEST(rate_tables) {
    /* exp(E/R (1/T1 - 1/T2)) worked by hand: how much faster for 10 and 5 degrees more. */
    static const struct {
        double kj_per_mol, from_15_to_25, from_20_to_30, from_25_to_35, from_20_to_25;
    } rows[] = {{45, 1.878, 1.839, 1.802, 1.363},
                {50, 2.014, 1.967, 1.924, 1.411},
                {55, 2.160, 2.105, 2.054, 1.460},
                {60, 2.316, 2.252, 2.193, 1.511}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        ck_near_or(time_at(1, 25, 15, rows[i].kj_per_mol), rows[i].from_15_to_25, 0, 0.00051);
        ck_near_or(time_at(1, 30, 20, rows[i].kj_per_mol), rows[i].from_20_to_30, 0, 0.00051);
        ck_near_or(time_at(1, 35, 25, rows[i].kj_per_mol), rows[i].from_25_to_35, 0, 0.00051);
        ck_near_or(time_at(1, 25, 20, rows[i].kj_per_mol), rows[i].from_20_to_25, 0, 0.00051);
    }
    /* The energies that halve a time for 10 degrees more. */
    ck_near(time_at(1, 15, 25, 49.51), 0.5, 2e-4);
    ck_near(time_at(1, 20, 30, 51.22), 0.5, 2e-4);
    ck_near(time_at(1, 25, 35, 52.95), 0.5, 2e-4);
    /* Gel after 30 min at 25 degC with 52 kJ/mol, worked by hand. */
    static const double gel[][2] = {{10, 91.14}, {15, 62.13}, {20, 42.90}, {25, 30.00},
                                    {30, 21.23}, {35, 15.19}, {40, 10.98}};
    for (size_t i = 0; i < COUNT(gel); i++)
        ck_near_or(time_at(30 * 60.0, 25, gel[i][0], 52) / 60, gel[i][1], 0, 0.0051);
}
END_TEST

START_TEST(rate_published) {
    /* Regulation (EU) 10/2011, annex V: 9627 K, that is 80.0433 kJ/mol; 10 days at 60 degC. */
    ck_near_or(time_at(10, 60, 20, 80.04333162496124), 515.7, 0, 0.051);
    ck_near_or(time_at(10, 60, 25, 80.04333162496124), 297.3, 0, 0.051);
    ck_near_or(time_at(10, 60, 40, 80.04333162496124), 63.3, 0, 0.051);
    /* 95 % cure of a one-part adhesive: 16.4 min at 150, 9.2 at 170, 4.2 at 200 degC
     * (thermal-analysis application note); fitted energy 45.35 kJ/mol. */
    ck_near_or(time_at(16.4, 150, 170, 45.35), 9.17, 0, 0.0051);
    ck_near_or(time_at(16.4, 150, 200, 45.35), 4.2, 0, 0.051);
    /* Nothing changes at the stated temperature or without an energy, to the bit. */
    ck_near(time_at(1234.5, 23, 23, 52), 1234.5, 0);
    ck_near(time_at(1234.5, 23, 8, 0), 1234.5, 0);
    ck_near(time_at(0, 23, 8, 52), 0, 0);
}
END_TEST

START_TEST(rate_refusals) {
    double seconds = 7;
    static const double bad[][4] = {
        {NAN, 25, 20, 52},     {-1, 25, 20, 52},       {INFINITY, 25, 20, 52}, {60, NAN, 20, 52},
        {60, -273.15, 20, 52}, {60, INFINITY, 20, 52}, {60, 25, NAN, 52},      {60, 25, -300, 52},
        {60, 25, 20, -1},      {60, 25, 20, NAN},      {60, 25, 20, INFINITY}, {60, 25, -273, 52}};
    for (size_t i = 0; i < COUNT(bad); i++)
        ck_assert_int_eq(runnel_time_at(bad[i][0], bad[i][1], bad[i][2], bad[i][3], &seconds),
                         RUNNEL_E_RANGE);
    ck_near(seconds, 7, 0);
}
END_TEST

START_TEST(stoichiometry) {
    double eew = NAN, phr = NAN;
    /* Formulating guide: 80 % of 189, 10 % of 183 and 10 % filler is 209; with 43 that is 20.6. */
    ck_assert_int_eq(
        runnel_blend_eew((double[]){80, 10, 10}, (double[]){189, 183, INFINITY}, 3, &eew),
        RUNNEL_OK);
    ck_near_or(eew, 209.238, 0, 0.00051);
    ck_assert_int_eq(runnel_amine_phr(43, 209, &phr), RUNNEL_OK);
    ck_near_or(phr, 20.574, 0, 0.00051);
    /* MDA: 49.5 on 200, 5 g of resin take 1.24 g. */
    ck_assert_int_eq(runnel_amine_phr(49.5, 200, &phr), RUNNEL_OK);
    ck_near_or(phr * 5 / 100, 1.24, 0, 0.0051);
    /* Molar mass (IUPAC) over active hydrogens, worked by hand; published: DETA 10.3 at 200,
     * polyoxypropylenediamine 60 gives 31.58 at 190. */
    static const struct {
        double molar_g, hydrogens, at_182, at_190, at_192, at_200;
    } rows[] = {{60.10, 4, 8.26, 7.91, 7.83, 7.51},      {103.17, 5, 11.34, 10.86, 10.75, 10.32},
                {146.24, 6, 13.39, 12.83, 12.69, 12.19}, {136.20, 4, 18.71, 17.92, 17.73, 17.02},
                {142.25, 4, 19.54, 18.72, 18.52, 17.78}, {170.30, 4, 23.39, 22.41, 22.17, 21.29},
                {129.21, 3, 23.66, 22.67, 22.43, 21.53}, {230, 4, 31.59, 30.26, 29.95, 28.75},
                {240, 4, NAN, 31.58, NAN, NAN}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        double ahew = rows[i].molar_g / rows[i].hydrogens;
        double want[] = {rows[i].at_182, rows[i].at_190, rows[i].at_192, rows[i].at_200};
        static const double at[] = {182, 190, 192, 200};
        for (size_t j = 0; j < 4; j++) {
            ck_assert_int_eq(runnel_amine_phr(ahew, at[j], &phr), RUNNEL_OK);
            if (!isnan(want[j]))
                ck_near_or(phr, want[j], 0, 0.0062); /* molar masses are rounded to 0.01 */
        }
    }
}
END_TEST

START_TEST(stoichiometry_refusals) {
    double found = 7;
    static const double good[] = {80, 20}, eew[] = {190, 180};
    ck_assert_int_eq(runnel_blend_eew(good, eew, 0, &found), RUNNEL_E_RANGE);
    for (size_t i = 0; i < COUNT(broken); i++) {
        double mass[] = {80, broken[i]}, weight[] = {190, broken[i]};
        ck_assert_int_eq(runnel_blend_eew(mass, eew, 2, &found), RUNNEL_E_RANGE);
        if (broken[i] < INFINITY || isnan(broken[i]))
            ck_assert_int_eq(runnel_blend_eew(good, weight, 2, &found), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_amine_phr(broken[i], 190, &found), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_amine_phr(20, broken[i], &found), RUNNEL_E_RANGE);
    }
    ck_assert_int_eq(runnel_blend_eew(good, (double[]){INFINITY, INFINITY}, 2, &found),
                     RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_blend_eew((double[]){0, 0}, eew, 2, &found), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_blend_eew(good, (double[]){190, 0}, 2, &found), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_amine_phr(0, 190, &found), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_amine_phr(20, 0, &found), RUNNEL_E_RANGE);
    ck_near(found, 7, 0);
}
END_TEST

static TCase *rate_case(void) {
    TCase *rates = tcase_create("rates");
    tcase_add_test(rates, rate_tables);
    tcase_add_test(rates, rate_published);
    tcase_add_test(rates, rate_refusals);
    tcase_add_test(rates, stoichiometry);
    tcase_add_test(rates, stoichiometry_refusals);
    return rates;
}

int main(void) {
    Suite *suite = suite_create("rate");
    suite_add_tcase(suite, rate_case());
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
