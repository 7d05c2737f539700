/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "runnel/heat.h"

#include <stdlib.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

/* Energy that may be missing: what is asked for; in fact it is lost to rounding only. */
static const double imbalance = 1e-6;

static runnel_kinetics anchored(double gel_s, double degc) {
    runnel_kinetics_shape shape = runnel_kinetics_usual();
    runnel_kinetics law;
    ck_assert_int_eq(runnel_kinetics_anchor(&shape, gel_s, degc, &law), RUNNEL_OK);
    return law;
}

static runnel_heat_cup cup_of(double mass_g) {
    return (runnel_heat_cup){.kinetics = anchored(5 * 3600.0, 25),
                             .resin = {400, 1.9, 0.2, 1.1},
                             .mass_g = mass_g,
                             .diameter_mm = 70,
                             .loss_w_per_m2_k = 8,
                             .start_degc = 25,
                             .air_degc = 25,
                             .gel = 0.57735};
}

static runnel_heat_layer layer_of(double depth_mm) {
    runnel_heat_layer layer = runnel_heat_layer_usual(25);
    layer.kinetics = anchored(5 * 3600.0, 25);
    layer.depth_mm = depth_mm;
    layer.gel = 0.57735;
    return layer;
}

static runnel_heat_run in_cup(const runnel_heat_cup *cup, double for_s) {
    runnel_heat_run run;
    ck_assert_int_eq(runnel_heat_in_cup(cup, for_s, &run), RUNNEL_OK);
    ck_assert(run.imbalance < imbalance);
    return run;
}

static runnel_heat_run in_layer(const runnel_heat_layer *layer, double for_s) {
    runnel_heat_run run;
    ck_assert_int_eq(runnel_heat_in_layer(layer, for_s, &run), RUNNEL_OK);
    ck_assert(run.imbalance < imbalance);
    return run;
}

START_TEST(cup_without_loss) {
    /* 400 J/g over 1.9 J/(g K) are 210.526 K, times the conversion; it never cools. */
    runnel_heat_cup cup = cup_of(100);
    cup.loss_w_per_m2_k = 0;
    runnel_heat_run run = in_cup(&cup, 0);
    ck_near(run.peak_degc, 25 + 210.52631578947367 * run.conversion, 1e-9);
    ck_near(run.top_degc, run.peak_degc, 1e-12);
    ck_assert(run.conversion > 0.999);
    ck_assert(!run.ran_away);
    /* A mass of no matter what size does the same. */
    cup.mass_g = 5;
    ck_near(in_cup(&cup, 0).gel_s, run.gel_s, 1e-9);
    /* Nearly zero order, it reacts fastest after cp (R T^2/E)/(H rate): 104.7 min at 1e-5/s with
     * 430 J/g, 1.9 J/(g K), 52 kJ/mol (Townsend & Tou 1980, where the exponential stands for the
     * rate, so that the run away comes some percent later). */
    cup.kinetics = (runnel_kinetics){1e-5, 0, 52, 52, 0, 0.001, 1, 25};
    cup.resin.reaction_j_per_g = 430;
    run = in_cup(&cup, 20000);
    ck_assert(run.peak_degc > 200);
    ck_near(run.peak_s / 60, 104.7, 0.12);
}
END_TEST

/** From the start to the end, forward in time, and never back in conversion. */
static void check_curve(const runnel_heat_curve *curve, const runnel_heat_run *run, double start) {
    const runnel_heat_point *points = curve->points;
    double warmest = start;
    ck_assert_uint_gt(curve->count, RUNNEL_HEAT_POINTS / 10);
    ck_assert(points[0].time_s == 0 && points[0].conversion == 0);
    ck_near(points[0].degc, start, 1e-12);
    ck_near(points[curve->count - 1].time_s, run->end_s, 1e-12);
    ck_near(points[curve->count - 1].conversion, run->conversion, 1e-12);
    for (size_t i = 1; i < curve->count; i++) {
        ck_assert_double_gt(points[i].time_s, points[i - 1].time_s);
        ck_assert_double_ge(points[i].conversion, points[i - 1].conversion);
        warmest = fmax(warmest, points[i].degc);
    }
    ck_assert_double_le(warmest, run->peak_degc + 1e-9);
    ck_assert_double_ge(warmest, run->peak_degc - 1.5); /* between two moments */
}

START_TEST(curves) {
    /* Without loss each moment obeys the balance of heat: 400/1.9 K for all of the reaction. */
    runnel_heat_cup cup = cup_of(100);
    runnel_heat_curve curve = {NULL, 0, 0};
    runnel_heat_run run, again;
    cup.loss_w_per_m2_k = 0;
    ck_assert_int_eq(runnel_heat_cup_curve(&cup, 0, &run, &curve), RUNNEL_OK);
    check_curve(&curve, &run, 25);
    for (size_t i = 0; i < curve.count; i++)
        ck_near(curve.points[i].degc, 25 + 210.52631578947367 * curve.points[i].conversion, 1e-9);
    /* The run is the same without its curve. */
    ck_assert_int_eq(runnel_heat_in_cup(&cup, 0, &again), RUNNEL_OK);
    ck_near(again.gel_s, run.gel_s, 1e-12);
    runnel_heat_layer layer = runnel_heat_layer_usual(25);
    layer.kinetics = cup.kinetics;
    layer.depth_mm = 10;
    layer.gel = cup.gel;
    ck_assert_int_eq(runnel_heat_layer_curve(&layer, 0, &run, &curve), RUNNEL_OK);
    check_curve(&curve, &run, 25);
    cup.mass_g = -1;
    size_t count = curve.count;
    ck_assert_int_eq(runnel_heat_cup_curve(&cup, 0, &run, &curve), RUNNEL_E_RANGE);
    ck_assert_uint_eq(curve.count, count);
    runnel_heat_curve_clear(&curve);
    runnel_heat_curve_clear(NULL);
}
END_TEST

START_TEST(cup_that_stays_cool) {
    /* So much loss that it gels as if its temperature stayed. */
    runnel_heat_cup cup = cup_of(100);
    cup.loss_w_per_m2_k = 1e4;
    runnel_heat_run run = in_cup(&cup, 36000);
    /* At its fastest, 5e-5/s, 100 g make 2 W, and 129 W/K go through the surface. */
    ck_near(run.gel_s, 5 * 3600, 2e-3);
    ck_near_or(run.peak_degc, 25, 0, 0.02);
    /* Without heat a warm mix cools as exp(-h A t/(m c)): 100 g in 70 mm have two ends
     * of 3848.451 and a wall of 4 x 90909.09/70 = 5194.805 mm2, so A = 12891.707 mm2. */
    cup = cup_of(100);
    cup.resin.reaction_j_per_g = 0;
    cup.start_degc = 40;
    run = in_cup(&cup, 1800);
    ck_near(run.top_degc, 25 + 15 * exp(-8 * 12891.707e-6 * 1800 / 190), 1e-8);
    ck_near(run.peak_degc, 40, 1e-12);
    ck_near(run.peak_s, 0, 0);
    ck_near(run.end_s, 1800, 0);
}
END_TEST

START_TEST(cup_by_its_mass) {
    /* More mass gets warmer and gels earlier (common practice: 100 g set in minutes where a thin
     * layer takes hours). */
    double peak = 25, gel_s = 18000;
    for (double mass_g = 10; mass_g < 5000; mass_g *= 2) {
        runnel_heat_cup cup = cup_of(mass_g);
        runnel_heat_run run = in_cup(&cup, 0);
        ck_assert(run.peak_degc > peak && run.gel_s < gel_s);
        peak = run.peak_degc;
        gel_s = run.gel_s;
    }
    ck_assert(peak < 25 + 210.53);
    /* The largest that stays below 60 degC: 1 % more or less is on either side. */
    runnel_heat_cup cup = cup_of(1);
    double mass_g = 0;
    ck_assert_int_eq(runnel_heat_largest_cup(&cup, 60, 0, 5000, &mass_g), RUNNEL_OK);
    cup.mass_g = mass_g;
    ck_assert(in_cup(&cup, 0).peak_degc <= 60);
    cup.mass_g = 1.0101 * mass_g;
    ck_assert(in_cup(&cup, 0).peak_degc > 60);
    /* Emptied early, far more. */
    double emptied_g = 0;
    ck_assert_int_eq(runnel_heat_largest_cup(&cup, 60, 1800, 5000, &emptied_g), RUNNEL_OK);
    ck_near(emptied_g, 5000, 0);
    /* A fast one in a large, tight cup never stays cool. */
    cup.kinetics = anchored(60, 25);
    cup.loss_w_per_m2_k = 0.01;
    ck_assert_int_eq(runnel_heat_largest_cup(&cup, 60, 0, 5000, &mass_g), RUNNEL_NOT_POSSIBLE);
    ck_near(mass_g, 1, 0);
}
END_TEST

START_TEST(anchored_in_its_cup) {
    /* 100 g that gel in their cup after 40 min are slower than what gels in 40 min as a thin layer,
     * and do gel then. */
    runnel_kinetics_shape shape = runnel_kinetics_usual();
    runnel_heat_cup cup = cup_of(100);
    runnel_kinetics law, thin = anchored(2400, 25);
    ck_assert_int_eq(runnel_heat_anchor(&shape, &cup, 2400, &law), RUNNEL_OK);
    ck_assert(law.k2_per_s < thin.k2_per_s);
    ck_near(law.k1_per_s, 0.02 * law.k2_per_s, 1e-12);
    cup.kinetics = law;
    cup.gel = shape.gel;
    ck_near(in_cup(&cup, 0).gel_s, 2400, 1e-6);
    /* Without heat of its own both are the same. */
    cup.resin.reaction_j_per_g = 0;
    ck_assert_int_eq(runnel_heat_anchor(&shape, &cup, 2400, &law), RUNNEL_OK);
    ck_near(law.k2_per_s, thin.k2_per_s, 1e-6);
}
END_TEST

START_TEST(layer_of_plain_conduction) {
    /* Two bodies that meet have (e1 T1 + e2 T2)/(e1 + e2) where they touch, e = sqrt(k rho c), as
     * long as their far ends do not matter (Carslaw & Jaeger, Conduction of Heat in Solids, 2.15).
     */
    runnel_heat_layer layer = layer_of(40);
    layer.resin.reaction_j_per_g = 0;
    layer.start_degc = 45;
    layer.wood_degc = 15;
    layer.wood_mm = 40;
    double resin = sqrt(0.2 * 1.1 * 1.9), wood = sqrt(0.15 * 0.65 * 1.6);
    runnel_heat_run run = in_layer(&layer, 600);
    ck_near_or(run.under_degc, (45 * resin + 15 * wood) / (resin + wood), 0, 0.05);
    ck_near(run.peak_degc, 45, 1e-12);
    /* So good a conductor that all has one temperature: it cools as exp(-2 h t/sum(rho c L)). */
    layer = layer_of(6);
    layer.resin.reaction_j_per_g = 0;
    layer.resin.conductivity_w_per_m_k = layer.wood_conductivity_w_per_m_k = 1e4;
    layer.start_degc = layer.wood_degc = 45;
    run = in_layer(&layer, 3600);
    double store = 1.1e6 * 1.9 * 0.006 + 0.65e6 * 1.6 * 0.025;
    double wanted = 25 + 20 * exp(-16.0 * 3600 / store);
    ck_near(run.under_degc, wanted, 1e-5);
    ck_near(run.top_degc, wanted, 1e-5);
}
END_TEST

START_TEST(thin_layer_and_thick_one) {
    /* A film gels when the sheet says, as nothing warms it. */
    runnel_heat_layer layer = layer_of(0.1);
    runnel_heat_run run = in_layer(&layer, 0);
    ck_near(run.gel_s, 18000, 0.01);
    ck_assert(run.peak_degc < 25.5);
    /* A block is as warm as a mass without loss, in its midst. */
    layer = layer_of(300);
    run = in_layer(&layer, 0);
    ck_near(run.peak_degc, 25 + 210.526, 0.02);
    double peak = 25, gel_s = 18000;
    for (double depth_mm = 0.5; depth_mm < 100; depth_mm *= 2) {
        layer.depth_mm = depth_mm;
        run = in_layer(&layer, 0);
        ck_assert(run.peak_degc > peak && run.gel_s < gel_s);
        peak = run.peak_degc;
        gel_s = run.gel_s;
    }
}
END_TEST

/* The slab of Frank-Kamenetskii: an insulated floor, a top at 25 degC, a heat of 49020 W/m3 that
 * hardly uses up the mix (1e-6/s of 43 kJ/g), 0.2 W/(m K), 52 kJ/mol: 7.14 mm are critical. His
 * exponential for the rate makes that some 2.5 % less than by the Arrhenius law (delta = 0.878 (1 +
 * 1.07 R T/E), Boddington et al., Proc. R. Soc. A 390, 1983, 247, from memory). */
/* Air that rises by 1 K in 600 s, and a resin that makes no heat. A cup lags behind by its time
 * constant: m c/(h A) for 100 g in 70 mm, 190/(8 x 0.0128915) s = 1842.3 s with A = 2 pi/4 70^2 +
 * 4 V/70 mm2; T = slope (t - tau (1 - exp(-t/tau))). A thin layer on wood with no loss at its foot
 * lags by (store of both)/8 W/(m2 K) in the end. */
static double rising(double time_s, const void *of) {
    return 20 + time_s / *(const double *)of;
}

START_TEST(air_that_warms_up) {
    const double slow_s = 600;
    const runnel_heat_air air = {rising, &slow_s, 600};
    runnel_heat_cup cup = cup_of(100);
    cup.resin.reaction_j_per_g = 0;
    cup.start_degc = cup.air_degc = 20;
    cup.air = &air;
    double area_m2 = 1e-6 * (2 * 3.141592653589793 / 4 * 4900 + 4 * 100 / 1.1 * 1000 / 70);
    double tau_s = 100 * 1.9 / (8 * area_m2);
    runnel_heat_run run = in_cup(&cup, 7200);
    ck_near(run.top_degc, 20 + (7200 - tau_s * (1 - exp(-7200 / tau_s))) / 600, 1e-7);
    ck_near(run.peak_degc, run.top_degc, 1e-9);
    runnel_heat_layer layer = layer_of(2);
    layer.resin.reaction_j_per_g = 0;
    layer.bottom_loss_w_per_m2_k = 0;
    layer.wood_mm = 2;
    layer.start_degc = layer.wood_degc = layer.air_degc = 20;
    layer.air = &air;
    run = in_layer(&layer, 43200);
    /* J/(m2 K): 2 mm of each; the face lags by store/8, the foot of the resin by 2 mm/0.2 of the
     * wood's flow and half of its own on top: 600 s/K and so 1/600 K/s. */
    double resin = 1.1e6 * 1.9 * 0.002, wood = 0.65e6 * 1.6 * 0.002;
    double top = 20 + 43200 / 600.0 - (resin + wood) / 8 / 600;
    ck_near_or(run.top_degc, top, 0, 0.01);
    ck_near_or(run.under_degc, top - (wood + resin / 2) * 0.002 / 0.2 / 600, 0, 0.01);
    ck_near_or(run.peak_degc, top, 0, 0.05);
}
END_TEST

START_TEST(runs_away_where_it_should) {
    runnel_heat_layer layer = layer_of(0);
    layer.kinetics = (runnel_kinetics){1e-6, 0, 52, 52, 0, 0.001, 1, 25};
    layer.resin = (runnel_resin_heat){43000, 1.9, 0.2, 1.14};
    layer.top_loss_w_per_m2_k = 1e7;
    layer.wood_conductivity_w_per_m_k = 1e-9;
    layer.depth_mm = 0.98 * 7.14;
    runnel_heat_run run = in_layer(&layer, 36000);
    /* Just below, the midst is at most 1.19 x 14.21 K warmer, a bit more by Arrhenius. */
    ck_assert(!run.ran_away);
    ck_assert(run.peak_degc > 25 + 0.7 * 14.21 && run.peak_degc < 25 + 1.3 * 14.21);
    layer.depth_mm = 1.06 * 7.14;
    run = in_layer(&layer, 360000);
    ck_assert(run.ran_away);
    ck_near(run.peak_degc, 300, 1e-3);
    ck_assert(run.end_s < 360000);
}
END_TEST

START_TEST(thickest_layer) {
    runnel_heat_layer layer = layer_of(0);
    double depth_mm = 0;
    ck_assert_int_eq(runnel_heat_thickest_layer(&layer, 60, 0, 100, &depth_mm), RUNNEL_OK);
    layer.depth_mm = depth_mm;
    ck_assert(in_layer(&layer, 0).peak_degc <= 60);
    layer.depth_mm = 1.0101 * depth_mm;
    ck_assert(in_layer(&layer, 0).peak_degc > 60);
    /* Common practice for coating resins is 3 to 6 mm a pour, for slow casting resins 25 mm and
     * more: here 5 h of gel time, and 24 h with less heat. */
    ck_assert(depth_mm > 3 && depth_mm < 7);
    layer.kinetics = anchored(48 * 3600.0, 25);
    ck_assert_int_eq(runnel_heat_thickest_layer(&layer, 60, 0, 100, &depth_mm), RUNNEL_OK);
    ck_assert(depth_mm > 12);
    ck_assert_int_eq(runnel_heat_thickest_layer(&layer, 299, 0, 1, &depth_mm), RUNNEL_OK);
    ck_near(depth_mm, 1, 0);
    layer.kinetics = anchored(1, 25);
    ck_assert_int_eq(runnel_heat_thickest_layer(&layer, 26, 0, 100, &depth_mm),
                     RUNNEL_NOT_POSSIBLE);
    ck_near(depth_mm, 0.1, 0);
}
END_TEST

START_TEST(refusals) {
    runnel_heat_run run = {.end_s = -7};
    runnel_kinetics law = {.m = 77};
    runnel_kinetics_shape shape = runnel_kinetics_usual();
    runnel_heat_cup cups[10];
    for (size_t i = 0; i < COUNT(cups); i++)
        cups[i] = cup_of(100);
    cups[0].mass_g = 0;
    cups[1].diameter_mm = -1;
    cups[2].loss_w_per_m2_k = NAN;
    cups[3].start_degc = 300;
    cups[4].air_degc = -300;
    cups[5].resin.reaction_j_per_g = -1;
    cups[6].resin.cp_j_per_g_k = 0;
    cups[7].resin.density_g_per_ml = 0;
    cups[8].resin.conductivity_w_per_m_k = 0;
    cups[9].start_degc = NAN;
    for (size_t i = 0; i < COUNT(cups); i++) {
        ck_assert_int_eq(runnel_heat_in_cup(&cups[i], 10, &run), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_heat_anchor(&shape, &cups[i], 2400, &law), RUNNEL_E_RANGE);
    }
    runnel_heat_cup cup = cup_of(100);
    double kept = -7;
    ck_assert_int_eq(runnel_heat_in_cup(&cup, -1, &run), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_heat_anchor(&shape, &cup, 0, &law), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_heat_largest_cup(&cup, 25, 0, 100, &kept), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_heat_largest_cup(&cup, 60, -1, 100, &kept), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_heat_largest_cup(&cup, 60, 0, 1, &kept), RUNNEL_E_RANGE);
    cup.gel = 1;
    ck_assert_int_eq(runnel_heat_in_cup(&cup, 10, &run), RUNNEL_E_RANGE);
    runnel_heat_layer layers[8];
    for (size_t i = 0; i < COUNT(layers); i++)
        layers[i] = layer_of(5);
    layers[0].depth_mm = 0;
    layers[1].wood_mm = 0;
    layers[2].wood_conductivity_w_per_m_k = 0;
    layers[3].wood_cp_j_per_g_k = NAN;
    layers[4].wood_density_g_per_ml = -1;
    layers[5].top_loss_w_per_m2_k = -1;
    layers[6].bottom_loss_w_per_m2_k = INFINITY;
    layers[7].gel = 0;
    for (size_t i = 0; i < COUNT(layers); i++)
        ck_assert_int_eq(runnel_heat_in_layer(&layers[i], 10, &run), RUNNEL_E_RANGE);
    runnel_heat_layer layer = layer_of(5);
    ck_assert_int_eq(runnel_heat_in_layer(&layer, NAN, &run), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_heat_thickest_layer(&layer, 20, 0, 10, &kept), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_heat_thickest_layer(&layer, 60, 0, 0.1, &kept), RUNNEL_E_RANGE);
    ck_near(run.end_s, -7, 0);
    ck_near(law.m, 77, 0);
    ck_near(kept, -7, 0);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("heat");
    TCase *all = tcase_create("all");
    tcase_set_timeout(all, 60); /* under a memory checker */
    tcase_add_test(all, cup_without_loss);
    tcase_add_test(all, curves);
    tcase_add_test(all, cup_that_stays_cool);
    tcase_add_test(all, cup_by_its_mass);
    tcase_add_test(all, anchored_in_its_cup);
    tcase_add_test(all, layer_of_plain_conduction);
    tcase_add_test(all, thin_layer_and_thick_one);
    tcase_add_test(all, air_that_warms_up);
    tcase_add_test(all, runs_away_where_it_should);
    tcase_add_test(all, thickest_layer);
    tcase_add_test(all, refusals);
    suite_add_tcase(suite, all);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
