/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "numeric/ode.h"
#include "runnel/kinetics.h"

#include <stdlib.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static double time_to(const runnel_kinetics *law, double degc, double conversion) {
    double seconds = NAN;
    ck_assert_int_eq(runnel_kinetics_time(law, degc, conversion, &seconds), RUNNEL_OK);
    return seconds;
}

static double after(const runnel_kinetics *law, double degc, double seconds) {
    double conversion = NAN;
    ck_assert_int_eq(runnel_kinetics_conversion(law, degc, seconds, &conversion), RUNNEL_OK);
    return conversion;
}

/* A law whose constants hold at 25 degC and do not change. */
static runnel_kinetics still(double k1, double k2, double m, double n, double last) {
    return (runnel_kinetics){k1, k2, 0, 0, m, n, last, 25};
}

/* Diamines with the diglycidyl ether of bisphenol A: isothermal calorimetry, tables "Modified
 * Kamal-Malkin fits" of T. Meldrum, public research repository tkmeldrum/epoxy_HPC, commit 1f869a8
 * (constants); the times and conversions by a Runge-Kutta method of fourth order with steps of 0.5
 * s and by Simpson's rule on dt/da, which agree. */
static const struct {
    const char *name;
    double k1, k2, m, n, last;
    double quarter_min, half_min, gel_min;          /* to 0.25, 0.5, 0.57735; NAN = never */
    double after_10, after_30, after_60, after_240; /* min */
} published[] = {
    {"EDA 25", 35.77e-6, 0.2655e-3, 1.588, 1.479, 0.78885, 135.49, 262.00, 309.36, 0.0178, 0.0530,
     0.1063, 0.4596},
    {"EDA 50", 85.49e-6, 0.8985e-3, 0.7374, 1.5424, 0.682234, 29.47, 59.50, 75.79, 0.0612, 0.2554,
     0.5029, 0.6822},
    {"EDA 80", 1917.5e-6, 3.373e-3, 0.8454, 1.4691, 1.01913, 2.03, 4.48, 5.47, 0.7916, 0.9749,
     0.9980, 1.0000},
    {"DAP 25", 27.91e-6, 0.2260e-3, 1.089, 1.1632, 0.55823, 150.78, 302.35, NAN, 0.0122, 0.0384,
     0.0830, 0.4169},
    {"DAP 50", 137.14e-6, 0.9804e-3, 0.8514, 1.5328, 0.751074, 23.54, 46.85, 57.63, 0.0886, 0.3287,
     0.5913, 0.7511},
    {"DAP 80", 642.1e-6, 4.3371e-3, 0.5358, 1.6316, 0.793643, 3.45, 7.48, 9.46, 0.5944, 0.7848,
     0.7936, 0.7936},
    {"DAB 25", 26.26e-6, 0.3837e-3, 1.506, 1.2205, 0.60659, 168.14, 293.69, 357.43, 0.0116, 0.0351,
     0.0727, 0.3994},
    {"DAB 50", 200.0e-6, 1.064e-3, 0.836, 1.3562, 0.82994, 15.90, 30.88, 36.94, 0.1447, 0.4875,
     0.7500, 0.8299},
    {"DAB 60", 420e-6, 2.598e-3, 1.099, 1.5381, 0.89975, 8.50, 16.21, 19.17, 0.3012, 0.7563, 0.8842,
     0.8998},
};

START_TEST(published_sets) {
    /* Half of the last place that is printed, and a bit for what rounding it may hide. */
    const double of_min = 0.0051, of_conversion = 0.000051;
    runnel_kinetics law = still(published[_i].k1, published[_i].k2, published[_i].m,
                                published[_i].n, published[_i].last);
    ck_near_or(time_to(&law, 25, 0.25) / 60, published[_i].quarter_min, 0, of_min);
    ck_near_or(time_to(&law, 25, 0.5) / 60, published[_i].half_min, 0, of_min);
    if (isnan(published[_i].gel_min)) {
        double seconds = 0;
        ck_assert_int_eq(runnel_kinetics_time(&law, 25, 0.57735, &seconds), RUNNEL_NOT_POSSIBLE);
        ck_near(seconds, INFINITY, 0);
    } else {
        ck_near_or(time_to(&law, 25, 0.57735) / 60, published[_i].gel_min, 0, of_min);
    }
    ck_near_or(after(&law, 25, 600), published[_i].after_10, 0, of_conversion);
    ck_near_or(after(&law, 25, 1800), published[_i].after_30, 0, of_conversion);
    ck_near_or(after(&law, 25, 3600), published[_i].after_60, 0, of_conversion);
    ck_near_or(after(&law, 25, 14400), published[_i].after_240, 0, of_conversion);
    ck_assert(after(&law, 25, 1e7) <= 1);
}
END_TEST

/* ---- Two laws of hot cures, as tests of the solver ----------------------------------------- */

typedef struct hot {
    double kelvin, wanted, found_min;
} hot;

static double gas(double kj_per_mol, double kelvin) {
    return exp(-1000 * kj_per_mol / (8.314 * kelvin)); /* R as in the papers */
}

/* W. I. Lee, A. C. Loos & G. S. Springer, J. Compos. Mater. 16 (1982) 510; per minute. */
static bool lee(double t, const double *y, double *rate, void *state) {
    (void)t;
    double kelvin = ((const hot *)state)->kelvin, a = y[0];
    double k1 = 2.101e9 * gas(80.7, kelvin), k2 = -2.014e9 * gas(77.8, kelvin);
    double k3 = 1.960e5 * gas(56.6, kelvin);
    rate[0] = a <= 0.3 ? (k1 + k2 * a) * (1 - a) * (0.47 - a) : k3 * (1 - a);
    return true;
}

/* A. Johnston, thesis, University of British Columbia, 1997; per second. */
static bool johnston(double t, const double *y, double *rate, void *state) {
    (void)t;
    double kelvin = ((const hot *)state)->kelvin, a = y[0];
    double k = 1.528e5 * gas(66.5, kelvin);
    rate[0] = k * pow(a, 0.8129) * pow(1 - a, 2.736) /
              (1 + exp(43.09 * (a - (-1.684 + 5.475e-3 * kelvin))));
    return true;
}

static double above(size_t index, double t, const double *y, const double *rate, void *state) {
    (void)index;
    (void)t;
    (void)rate;
    return y[0] - ((const hot *)state)->wanted;
}
static bool found(size_t index, double t, const double *y, void *state) {
    (void)index;
    (void)y;
    ((hot *)state)->found_min = t;
    return false;
}

START_TEST(hot_cures) {
    static const double rows[][3] = {
        {120, 61.399, 390.34}, {150, 9.962, 106.34}, {177, 2.403, 39.12}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        hot at = {rows[i][0] + 273.15, 0.3, NAN};
        runnel_ode ode = {.count = 1,
                          .state = &at,
                          .rates = lee,
                          .absolute = 1e-10,
                          .event_count = 1,
                          .event = above,
                          .reached = found};
        double t = 0, y = 0;
        ck_assert_int_eq(runnel_ode_run(&ode, &t, 1e4, &y), RUNNEL_OK);
        ck_near_or(at.found_min, rows[i][1], 0, 0.00051);
        at.wanted = 0.9;
        ck_assert_int_eq(runnel_ode_run(&ode, &t, 1e4, &y), RUNNEL_OK);
        ck_near_or(at.found_min, rows[i][2], 0, 0.0051);
    }
    static const double ends[][5] = {{150, 0.1409, 0.3795, 0.6237, 0.6832},
                                     {180, 0.5951, 0.7625, 0.8216, 0.8457}};
    for (size_t i = 0; i < COUNT(ends); i++) {
        hot at = {ends[i][0] + 273.15, 2, NAN};
        runnel_ode ode = {.count = 1, .state = &at, .rates = johnston, .absolute = 1e-10};
        double t = 0, y = 0.01;
        for (int k = 0; k < 4; k++) {
            ck_assert_int_eq(runnel_ode_run(&ode, &t, 1800 << k, &y), RUNNEL_OK);
            ck_near_or(y, ends[i][1 + k], 0, 0.000051);
        }
    }
}
END_TEST

/* ---- Closed forms -------------------------------------------------------------------------- */

START_TEST(closed_forms) {
    const double a[] = {0.05, 0.3, 0.57735, 0.9, 0.99};
    for (size_t i = 0; i < COUNT(a); i++) {
        /* First and second order: -ln(1 - a)/k and a/(k (1 - a)). */
        runnel_kinetics law = still(2e-4, 0, 1, 1, 1);
        ck_near(time_to(&law, 25, a[i]), -log(1 - a[i]) / 2e-4, 1e-9);
        law = still(2e-4, 0, 0, 2, 1);
        ck_near(time_to(&law, 25, a[i]), a[i] / (2e-4 * (1 - a[i])), 1e-9);
        /* m = 1, n = 1 and n = 2, by partial fractions. */
        const double k1 = 1e-5, k2 = 5e-4, sum = k1 + k2;
        double grown = log((k1 + k2 * a[i]) / (k1 * (1 - a[i])));
        law = still(k1, k2, 1, 1, 1);
        ck_near(time_to(&law, 25, a[i]), grown / sum, 1e-9);
        law = still(k1, k2, 1, 2, 1);
        ck_near(time_to(&law, 25, a[i]), grown * k2 / (sum * sum) + a[i] / ((1 - a[i]) * sum),
                1e-9);
    }
    /* The same, worked by hand. */
    runnel_kinetics law = still(1e-5, 5e-4, 1, 1, 1);
    ck_near(time_to(&law, 25, 0.5), 7747.54, 1e-6);
    ck_near(time_to(&law, 25, 0.9), 12022.01, 1e-6);
    law = still(1e-5, 5e-4, 1, 2, 1);
    ck_near(time_to(&law, 25, 0.3), 6855.84, 1e-6);
    ck_near(time_to(&law, 25, 0.5), 9556.41, 1e-6);
    ck_near(time_to(&law, 25, 0.57735), 10863.76, 1e-6);
    ck_near(time_to(&law, 25, 0.9), 29433.35, 1e-6);
    ck_near(after(&law, 25, 9556.41), 0.5, 1e-6);
    /* It is fastest at (k2 - 2 k1)/(3 k2) = 0.32. */
    double top = runnel_kinetics_rate(&law, 25, 0.32);
    ck_assert(top > runnel_kinetics_rate(&law, 25, 0.3199));
    ck_assert(top > runnel_kinetics_rate(&law, 25, 0.3201));
    /* Reduced times k2 t with k1/k2 = 0.02. */
    static const double reduced[][2] = {{0.3, 3.42792}, {0.5, 4.77820},  {0.57735, 5.43188},
                                        {0.8, 9.03788}, {0.9, 14.71667}, {0.95, 25.23769}};
    law = still(0.02, 1, 1, 2, 1);
    for (size_t i = 0; i < COUNT(reduced); i++)
        ck_near(time_to(&law, 25, reduced[i][0]), reduced[i][1], 2e-6);
    /* Without k1 to speak of it is fastest at m/(m + n) (Prout & Tompkins). */
    law = still(1e-30, 1, 2, 3, 1);
    top = runnel_kinetics_rate(&law, 25, 0.4);
    ck_assert(top > runnel_kinetics_rate(&law, 25, 0.3999));
    ck_assert(top > runnel_kinetics_rate(&law, 25, 0.4001));
}
END_TEST

START_TEST(anchored) {
    /* Gel after 30 min at 25 degC with 52 kJ/mol and k1/k2 = 0.02, worked by hand. */
    runnel_kinetics_shape shape = runnel_kinetics_usual();
    ck_near(shape.gel, 0.57735, 1e-6);
    shape.gel = 0.57735;
    runnel_kinetics law;
    ck_assert_int_eq(runnel_kinetics_anchor(&shape, 1800, 25, &law), RUNNEL_OK);
    ck_near(law.k2_per_s, 3.01772e-3, 4e-6);     /* a unit of the last place */
    ck_near(law.k2_per_s, 5.43188 / 1800, 1e-6); /* by the reduced time of the closed form */
    ck_near(law.k1_per_s, 0.02 * 5.43188 / 1800, 1e-6);
    /* A2 = k2 exp(E/(R T)) = 3.88762e6 /s. */
    ck_near(law.k2_per_s * exp(52000 / (8.31446261815324 * 298.15)), 3.88762e6, 4e-6);
    static const double gel_min[][2] = {{10, 91.14}, {15, 62.13}, {20, 42.90}, {25, 30},
                                        {30, 21.23}, {35, 15.19}, {40, 10.98}};
    for (size_t i = 0; i < COUNT(gel_min); i++)
        ck_near_or(time_to(&law, gel_min[i][0], 0.57735) / 60, gel_min[i][1], 0, 0.0051);
}
END_TEST

START_TEST(gel_points) {
    /* Flory 1953: 1/sqrt(3), 1/sqrt(2), 1/2, 1/sqrt(5), and 1/sqrt(0.9 x 3). */
    ck_near(runnel_gel_conversion(4, 2, 1), 0.57735026918962573, 1e-14);
    ck_near(runnel_gel_conversion(3, 2, 1), 0.70710678118654757, 1e-14);
    ck_near(runnel_gel_conversion(5, 2, 1), 0.5, 1e-14);
    ck_near(runnel_gel_conversion(6, 2, 1), 0.44721359549995793, 1e-14);
    ck_near_or(runnel_gel_conversion(4, 2, 0.9), 0.6086, 0, 0.000051);
    ck_assert(isnan(runnel_gel_conversion(1, 2, 1)));
    ck_assert(isnan(runnel_gel_conversion(4, 1, 1)));
    ck_assert(isnan(runnel_gel_conversion(4, 2, 0)));
    ck_assert(isnan(runnel_gel_conversion(4, 2, 1.1)));
}
END_TEST

START_TEST(glass_transitions) {
    /* Pascault & Williams' form worked by hand, from -22 degC of the pure monomer. */
    static const struct {
        double cured, lambda, at_gel, at_8, at_9, stops[4];
    } rows[] = {{90, 0.4, 17.6, 46.9, 65.7, {0.600, 0.644, 0.756, 0.872}},
                {119, 0.4, 27.8, 64.8, 88.3, {0.515, 0.556, 0.662, 0.777}},
                {150, 0.4, 38.8, 83.8, 112.6, {0.447, 0.485, 0.585, 0.695}},
                {119, 0.5, 35.2, 72.0, 93.4, {0.459, 0.500, 0.611, 0.735}}};
    static const double cures[] = {20, 25, 40, 60};
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_glass glass = {-22, rows[i].cured, rows[i].lambda};
        ck_near_or(runnel_glass_at(&glass, 0.57735), rows[i].at_gel, 0, 0.051);
        ck_near_or(runnel_glass_at(&glass, 0.8), rows[i].at_8, 0, 0.051);
        ck_near_or(runnel_glass_at(&glass, 0.9), rows[i].at_9, 0, 0.051);
        ck_near(runnel_glass_at(&glass, 0), -22, 0);
        ck_near(runnel_glass_at(&glass, 1), rows[i].cured, 1e-14);
        for (size_t k = 0; k < COUNT(cures); k++) {
            double stop = runnel_glass_conversion(&glass, cures[k]);
            ck_near_or(stop, rows[i].stops[k], 0, 0.00051);
            ck_near(runnel_glass_at(&glass, stop), cures[k], 1e-12);
        }
        ck_near(runnel_glass_conversion(&glass, -30), 0, 0);
        ck_near(runnel_glass_conversion(&glass, 200), 1, 0);
    }
    runnel_glass wrong = {50, 20, 0.4};
    ck_assert(isnan(runnel_glass_at(&wrong, 0.5)));
    wrong = (runnel_glass){-22, 90, 0};
    ck_assert(isnan(runnel_glass_conversion(&wrong, 20)));
    wrong.lambda = 0.4;
    ck_assert(isnan(runnel_glass_at(&wrong, 1.1)));
    ck_assert(isnan(runnel_glass_conversion(&wrong, NAN)));
}
END_TEST

START_TEST(heat_and_limits) {
    /* 100 kJ/mol (assumed) over 190 g/eq and the amine's equivalent, by arithmetic; the rise with a
     * heat capacity of 1.8 and 2.0 J/(g K). */
    static const double rows[][4] = {{20.63, 474.8, 264, 237},
                                     {24.37, 466.5, 259, 233},
                                     {34.05, 446.3, 248, 223},
                                     {42.58, 430.0, 239, 215},
                                     {60, 400.0, 222, 200}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        double heat = runnel_heat_of_mix(100, 190, rows[i][0]);
        ck_near_or(heat, rows[i][1], 0, 0.051);
        ck_near_or(runnel_heat_adiabatic_rise(heat, 1.8), rows[i][2], 0, 0.51);
        ck_near_or(runnel_heat_adiabatic_rise(heat, 2.0), rows[i][3], 0, 0.51);
    }
    /* 52 kJ/mol at 25 degC: 14.21 K; with 430 J/g, 1140 kg/m3 and 0.2 W/(m K) depths by Frank-
     * Kamenetskii; times by Townsend & Tou 1980 with 1.9 J/(g K). */
    ck_near_or(runnel_heat_characteristic_k(25, 52), 14.21, 0, 0.0051);
    static const double depths[][3] = {
        {1e-4, 49020, 7.14}, {2e-4, 98040, 5.05}, {4e-4, 196080, 3.57}};
    for (size_t i = 0; i < COUNT(depths); i++) {
        ck_near(depths[i][0] * 430 * 1140e3, depths[i][1], 1e-12);
        ck_near_or(runnel_heat_runaway_depth(25, 52, 0.2, depths[i][1]), depths[i][2], 0, 0.0051);
    }
    static const double times_min[][2] = {{1e-5, 104.7}, {5e-5, 20.9}, {1e-4, 10.5}};
    for (size_t i = 0; i < COUNT(times_min); i++)
        ck_near_or(runnel_heat_time_to_fastest(25, 52, 430, 1.9, times_min[i][0]) / 60,
                   times_min[i][1], 0, 0.051);
    /* All epoxide of A reacts: in equivalents the two ways to write it agree. 1:1 by volume of 1.16
     * and 0.98 g/ml is 0.542056 of A by weight: 100000/190 of it is 285.3 J/g; 100:13 by weight
     * 465.8 J/g. */
    ck_near(runnel_heat_of_share(100, 190, 190 / 214.37), runnel_heat_of_mix(100, 190, 24.37),
            1e-12);
    ck_near_or(runnel_heat_of_share(100, 190, 1.16 / 2.14), 285.3, 0, 0.051);
    ck_near_or(runnel_heat_of_share(100, 190, 100 / 113.0), 465.8, 0, 0.051);
    ck_assert(isnan(runnel_heat_of_share(100, 190, 1.01)));
    ck_assert(isnan(runnel_heat_of_share(100, 190, 0)));
    ck_assert(isnan(runnel_heat_of_share(100, 0, 0.5)));
    ck_assert(isnan(runnel_heat_of_share(-100, 190, 0.5)));
    ck_assert(isnan(runnel_heat_of_mix(0, 190, 20)));
    ck_assert(isnan(runnel_heat_adiabatic_rise(400, 0)));
    ck_assert(isnan(runnel_heat_characteristic_k(-274, 52)));
    ck_assert(isnan(runnel_heat_time_to_fastest(25, 52, 430, 1.9, 0)));
    ck_assert(isnan(runnel_heat_runaway_depth(25, 52, 0.2, -1)));
}
END_TEST

START_TEST(refusals) {
    const runnel_kinetics good = still(1e-5, 5e-4, 1, 2, 1);
    runnel_kinetics bad[9];
    for (size_t i = 0; i < COUNT(bad); i++)
        bad[i] = good;
    bad[0].k1_per_s = 0;
    bad[1].k2_per_s = -1;
    bad[2].e1_kj_per_mol = NAN;
    bad[3].e2_kj_per_mol = -1;
    bad[4].m = -1;
    bad[5].n = 0;
    bad[6].last = 0;
    bad[7].reference_degc = -280;
    bad[8].k1_per_s = INFINITY;
    double kept = -7;
    for (size_t i = 0; i < COUNT(bad); i++) {
        ck_assert_int_eq(runnel_kinetics_time(&bad[i], 25, 0.5, &kept), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_kinetics_conversion(&bad[i], 25, 10, &kept), RUNNEL_E_RANGE);
        ck_assert(isnan(runnel_kinetics_rate(&bad[i], 25, 0.5)));
    }
    ck_assert_int_eq(runnel_kinetics_time(&good, -280, 0.5, &kept), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_kinetics_time(&good, 25, 1.5, &kept), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_kinetics_time(&good, 25, NAN, &kept), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_kinetics_conversion(&good, 25, -1, &kept), RUNNEL_E_RANGE);
    ck_near(kept, -7, 0);
    ck_assert(isnan(runnel_kinetics_rate(&good, 25, -0.1)));
    ck_near(runnel_kinetics_rate(&good, 25, 1), 0, 0);
    ck_near(time_to(&good, 25, 0), 0, 0);
    runnel_kinetics_shape shape = runnel_kinetics_usual();
    runnel_kinetics law = still(1, 2, 3, 4, 5);
    ck_assert_int_eq(runnel_kinetics_anchor(&shape, 0, 25, &law), RUNNEL_E_RANGE);
    shape.gel = 1;
    ck_assert_int_eq(runnel_kinetics_anchor(&shape, 100, 25, &law), RUNNEL_E_RANGE);
    shape = runnel_kinetics_usual();
    shape.k1_share = 0;
    ck_assert_int_eq(runnel_kinetics_anchor(&shape, 100, 25, &law), RUNNEL_E_RANGE);
    ck_near(law.last, 5, 0);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("kinetics");
    TCase *all = tcase_create("all");
    tcase_add_loop_test(all, published_sets, 0, (int)COUNT(published));
    tcase_add_test(all, hot_cures);
    tcase_add_test(all, closed_forms);
    tcase_add_test(all, anchored);
    tcase_add_test(all, gel_points);
    tcase_add_test(all, glass_transitions);
    tcase_add_test(all, heat_and_limits);
    tcase_add_test(all, refusals);
    suite_add_tcase(suite, all);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
