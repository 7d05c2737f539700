/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "failing.h"
#include "resin/loss.h"
#include "resin/partition.h"
#include "runnel/cups.h"

#include <stdint.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static double between(double low, double high) {
    return low + (high - low) * (rand() / (RAND_MAX + 1.0));
}

/* 100:44 by weight of densities that make it 2:1 by volume, near enough; no limit at all. */
static runnel_cups_order plain_order(double step_g) {
    runnel_cups_order order = {.density_a_g_per_ml = 1.13,
                               .density_b_g_per_ml = 0.99,
                               .viscosity_pa_s = 0.7,
                               .scale = {step_g, 0, 0},
                               .tolerance = 0.03,
                               .cup = {.fixed_loss_g = 0}};
    runnel_ratio ratio = {100, 44, RUNNEL_BASIS_WEIGHT};
    ck_assert_int_eq(runnel_mixture_of(&ratio, 1.13, 0.99, &order.mixture), RUNNEL_OK);
    return order;
}

/* 1:1 of densities 1, so that a gram is a millilitre and halves are easy. */
static runnel_cups_order water_order(double step_g) {
    runnel_cups_order order = plain_order(step_g);
    runnel_ratio ratio = {1, 1, RUNNEL_BASIS_WEIGHT};
    order.density_a_g_per_ml = order.density_b_g_per_ml = 1;
    ck_assert_int_eq(runnel_mixture_of(&ratio, 1, 1, &order.mixture), RUNNEL_OK);
    return order;
}

/* --- worked cases --- */

/* 24 blocks with names: 3 ml of grooves and 1.4 ml of crown in all, 40 s each, and 4 ml that stay
 * in the cup. 16 min of pouring; pot life 25 min, of which 60 % are 15 min. */
static void place_blocks(double step_g, runnel_cups *cups) {
    runnel_cups_order order = plain_order(step_g);
    runnel_pour pours[24];
    for (size_t i = 0; i < 24; i++)
        pours[i] = (runnel_pour){4400.0 / 24, 40};
    order.cup.fixed_loss_g = 4 * order.mixture.density_g_per_ml;
    order.pot_life_s = 25 * 60;
    order.pot_mass_g = 100;
    order.largest_mass_g = 300;
    ck_assert_int_eq(runnel_cups_split(&order, pours, 24, cups), RUNNEL_OK);
}

START_TEST(late_rather_than_too_small) {
    /* On 0.1 g the smallest batch is 7.93 g (7.854 + 0.072). One cup needs 8.4 ml, 9.1 g; two would
     * need 2.2 + 4 = 6.2 ml each, 6.7 g. So one, 1 min over the usable time. */
    runnel_cups cups = {0};
    place_blocks(0.1, &cups);
    ck_assert_uint_eq(cups.count, 1);
    ck_assert_uint_eq(cups.wanted, 2);
    ck_assert_uint_eq(cups.ruled, 0);
    ck_near(cups.smallest_g, 7.926545454545455, 1e-14);
    const runnel_cup_load *cup = &cups.items[0];
    ck_assert_uint_eq(cup->notes & ~(unsigned)RUNNEL_CUP_ROUNDED, RUNNEL_CUP_LATE);
    ck_assert_uint_eq(cup->first_pour, 0);
    ck_assert_uint_eq(cup->last_pour, 23);
    ck_near(cup->pour_s, 960, 1e-14);
    ck_near(cup->pot_share, 0.64, 1e-14);
    ck_near(cup->poured_mm3, 4400, 1e-13);
    ck_near(cup->loss_mm3, 4000, 1e-13);
    ck_near(cup->pot_life_s, 1500, 0); /* a lighter mix is not said to last longer */
    /* 144 g are 100/1.13 + 44/0.99 = 132.94 ml: 8.4 ml are 9.099 g. */
    ck_assert(cup->weighing.total_g >= 9.099 && cup->weighing.total_g < 9.7);
    ck_assert(cup->weighing.ratio_error <= 0.03);
    runnel_cups_clear(&cups);
}
END_TEST

START_TEST(too_small_for_the_scale) {
    /* On 1 g the smallest batch is 79.3 g: one cup with that much, and more than is needed. By hand
     * 59:26 is the first pair from there on that keeps 3 % (26.5/58.5/0.44 = 1.0295). */
    runnel_cups cups = {0};
    place_blocks(1, &cups);
    ck_assert_uint_eq(cups.count, 1);
    ck_assert_uint_eq(cups.wanted, 2);
    ck_assert_uint_eq(cups.items[0].notes, RUNNEL_CUP_LATE | RUNNEL_CUP_RAISED);
    ck_near(cups.items[0].weighing.part_a_g, 59, 0);
    ck_near(cups.items[0].weighing.part_b_g, 26, 0);
    ck_near(cups.items[0].surplus_mm3, 1000 * (59 / 1.13 + 26 / 0.99) - 8400, 1e-12);
    runnel_cups_clear(&cups);
}
END_TEST

START_TEST(split_by_time) {
    /* On 0.01 g the smallest batch is 0.79 g: two cups of twelve blocks, 8 min each. */
    runnel_cups cups = {0};
    place_blocks(0.01, &cups);
    ck_assert_uint_eq(cups.count, 2);
    ck_assert_uint_eq(cups.wanted, 2);
    ck_assert_uint_eq(cups.ruled, RUNNEL_CUPS_BY_TIME);
    for (size_t i = 0; i < 2; i++) {
        const runnel_cup_load *cup = &cups.items[i];
        ck_assert_uint_eq(cup->first_pour, 12 * i);
        ck_assert_uint_eq(cup->last_pour, 12 * i + 11);
        ck_assert_uint_eq(cup->limits, RUNNEL_CUPS_BY_TIME);
        ck_assert_uint_eq(cup->notes & ~(unsigned)RUNNEL_CUP_ROUNDED, 0);
        ck_near(cup->first_share, 1, 0);
        ck_near(cup->last_share, 1, 0);
        ck_near(cup->poured_mm3, 2200, 1e-13);
        ck_near(cup->pour_s, 480, 1e-14);
    }
    runnel_cups_clear(&cups);
}
END_TEST

START_TEST(split_by_the_pot_life_of_its_mass) {
    /* 475 g, 25 min of pouring, a pot life of 50 min for 100 g: 50 (100/475)^(1/3) = 29.76 min for
     * all of it, 84 % of them, where 60 % are to be used. Two cups of 237.5 g have 37.49 min each,
     * and take 33 %. Of 80 min of pouring four cups of 118.75 g, 47.21 min each, take 42.4 % of
     * it; three of 158.33 g, 42.90 min each, 62.2 %. */
    runnel_cups_order order = water_order(0.001);
    runnel_cups cups = {0};
    order.pot_life_s = 3000;
    order.pot_mass_g = 100;
    runnel_pour pours[12];
    for (size_t i = 0; i < 12; i++)
        pours[i] = (runnel_pour){475e3 / 12, 125};
    ck_assert_int_eq(runnel_cups_split(&order, pours, 12, &cups), RUNNEL_OK);
    ck_assert_uint_eq(cups.count, 2);
    ck_assert_uint_eq(cups.wanted, 2);
    ck_assert_uint_eq(cups.ruled, RUNNEL_CUPS_BY_TIME);
    ck_near(cups.items[0].pot_share, 750 / (3000 * cbrt(100 / 237.5)), 1e-4);
    runnel_cups_clear(&cups);
    for (size_t i = 0; i < 12; i++)
        pours[i].pour_s = 400;
    ck_assert_int_eq(runnel_cups_split(&order, pours, 12, &cups), RUNNEL_OK);
    ck_assert_uint_eq(cups.count, 4);
    ck_near(cups.items[3].pot_share, 1200 / (3000 * cbrt(100 / 118.75)), 1e-4);
    runnel_cups_clear(&cups);
    /* what the sheet states, where it does not say for which mass */
    order.pot_mass_g = 0;
    for (size_t i = 0; i < 12; i++)
        pours[i].pour_s = 125;
    ck_assert_int_eq(runnel_cups_split(&order, pours, 12, &cups), RUNNEL_OK);
    ck_assert_uint_eq(cups.count, 1);
    ck_near(cups.items[0].pot_share, 0.5, 1e-12);
    runnel_cups_clear(&cups);
    ck_near(runnel_pot_life_of_mass(3000, 100, 800), 1500, 1e-12);
    ck_near(runnel_pot_life_of_mass(3000, 100, 50), 3000, 0);
    ck_near(runnel_pot_life_of_mass(3000, NAN, 800), 3000, 0);
}
END_TEST

START_TEST(split_by_mass) {
    /* 1000 g to pour, 4 g stay in a cup, at most 300 g in one: 296 g each are given, so four cups
     * of 250 + 4 g, 127 g of each part. Beyond 100 g, hot. A mix of 254 g whose pot life was stated
     * for 31.75 g: a mass 8 times as large, half the time. */
    runnel_cups_order order = water_order(1);
    runnel_pour all = {1e6, 600};
    runnel_cups cups = {0};
    order.cup.fixed_loss_g = 4;
    order.largest_mass_g = 300;
    order.pot_life_s = 3600;
    order.pot_mass_g = 31.75;
    ck_assert_int_eq(runnel_cups_split(&order, &all, 1, &cups), RUNNEL_OK);
    ck_assert_uint_eq(cups.count, 4);
    ck_assert_uint_eq(cups.ruled, RUNNEL_CUPS_BY_MASS);
    for (size_t i = 0; i < 4; i++) {
        const runnel_cup_load *cup = &cups.items[i];
        ck_assert_uint_eq(cup->first_pour, 0);
        ck_assert_uint_eq(cup->last_pour, 0);
        ck_near(cup->first_share, 0.25, 1e-12);
        ck_near(cup->last_share, 0.25, 1e-12);
        ck_near(cup->poured_mm3, 250e3, 1e-12);
        ck_near(cup->pour_s, 150, 1e-12);
        ck_near(cup->pot_share, 150.0 / 1800, 1e-12);
        ck_near(cup->pot_life_s, 1800, 1e-12);
        ck_near(cup->weighing.part_a_g, 127, 0);
        ck_near(cup->weighing.part_b_g, 127, 0);
        ck_assert_uint_eq(cup->notes, RUNNEL_CUP_HOT);
        ck_assert_uint_eq(cup->limits, RUNNEL_CUPS_BY_MASS);
    }
    ck_near(cups.poured_mm3, 1e6, 1e-14);
    ck_near(cups.loss_mm3, 16e3, 1e-14);
    ck_near(cups.mixed_g, 1016, 0);
    runnel_cups_clear(&cups);
}
END_TEST

START_TEST(split_by_size) {
    /* A cup of 200 ml, three quarters of it 150 ml; 500 ml are 3.3 such, so four of 125 ml. With
     * 0.9 of the brim, 180 ml, three of 166.7 ml; weighed to 167 g. */
    runnel_cups_order order = water_order(1);
    runnel_pour all = {500e3, 0};
    runnel_cups cups = {0};
    order.brim_mm3 = 200e3;
    ck_assert_int_eq(runnel_cups_split(&order, &all, 1, &cups), RUNNEL_OK);
    ck_assert_uint_eq(cups.count, 4);
    ck_assert_uint_eq(cups.ruled, RUNNEL_CUPS_BY_SIZE);
    ck_near(cups.items[3].poured_mm3, 125e3, 1e-12);
    ck_assert(isnan(cups.items[0].pot_share) && isnan(cups.items[0].pot_life_s));
    runnel_cups_clear(&cups);
    order.brim_share = 0.9;
    ck_assert_int_eq(runnel_cups_split(&order, &all, 1, &cups), RUNNEL_OK);
    ck_assert_uint_eq(cups.count, 3);
    ck_near(cups.items[0].weighing.total_g, 168, 0);
    runnel_cups_clear(&cups);
}
END_TEST

START_TEST(pours_stay_whole) {
    /* At most 100 g: 60 and 60 do not share a cup; 30 and 60 do. 250 g are more than a cup gives
     * and are divided. On 0.1 g weighing takes nothing more of such round figures. */
    runnel_cups_order order = water_order(0.1);
    static const runnel_pour pours[] = {{60e3, 1}, {60e3, 1}, {30e3, 1}, {250e3, 10}, {50e3, 1}};
    runnel_cups cups = {0};
    order.largest_mass_g = 100;
    ck_assert_int_eq(runnel_cups_split(&order, pours, COUNT(pours), &cups), RUNNEL_OK);
    /* 60 | 60 30 + 10 of the 250 | 100 | 100 | 40 + 50. */
    ck_assert_uint_eq(cups.count, 5);
    ck_assert_uint_eq(cups.items[0].last_pour, 0);
    ck_assert_uint_eq(cups.items[1].first_pour, 1);
    ck_assert_uint_eq(cups.items[4].last_pour, 4);
    ck_near(cups.items[4].last_share, 1, 0);
    ck_near(cups.poured_mm3, 450e3, 1e-14);
    runnel_cups_clear(&cups);
}
END_TEST

START_TEST(weighing_keeps_the_limit) {
    /* 300 g at 100:44 are 208.33 + 91.67 g: on 1 g they become 209 + 92 = 301 g, more than the 300
     * that may be. Two cups of 150 g. */
    runnel_cups_order order = plain_order(1);
    runnel_pour all = {300e3 / order.mixture.density_g_per_ml, 0};
    runnel_cups cups = {0};
    order.largest_mass_g = 300;
    ck_assert_int_eq(runnel_cups_split(&order, &all, 1, &cups), RUNNEL_OK);
    ck_assert_uint_eq(cups.count, 2);
    ck_assert(cups.items[0].weighing.total_g >= 150 && cups.items[0].weighing.total_g <= 160);
    ck_assert_uint_eq(cups.ruled, RUNNEL_CUPS_BY_MASS);
    runnel_cups_clear(&cups);
    order.largest_mass_g = 302;
    ck_assert_int_eq(runnel_cups_split(&order, &all, 1, &cups), RUNNEL_OK);
    ck_assert_uint_eq(cups.count, 1);
    ck_near(cups.items[0].weighing.total_g, 301, 0);
    runnel_cups_clear(&cups);
}
END_TEST

START_TEST(what_cannot_be) {
    runnel_cups_order order = plain_order(1);
    runnel_pour all = {10e3, 60};
    runnel_cups cups = {0};
    /* Smallest batch 79.3 g, and no more than 50 g in a cup. */
    order.largest_mass_g = 50;
    ck_assert_int_eq(runnel_cups_split(&order, &all, 1, &cups), RUNNEL_NOT_POSSIBLE);
    ck_assert_uint_eq(cups.count, 1);
    ck_assert_uint_eq(cups.items[0].notes, RUNNEL_CUP_RAISED | RUNNEL_CUP_OVER_MASS);
    runnel_cups_clear(&cups);
    /* A cup of 60 ml to the brim, 45 ml with room to stir. */
    order.largest_mass_g = NAN;
    order.brim_mm3 = 60e3;
    ck_assert_int_eq(runnel_cups_split(&order, &all, 1, &cups), RUNNEL_NOT_POSSIBLE);
    ck_assert_uint_eq(cups.items[0].notes, RUNNEL_CUP_RAISED | RUNNEL_CUP_OVER_SIZE);
    runnel_cups_clear(&cups);
    /* A scale of 2 % cannot keep 3 % of a ratio of two readings. */
    order.brim_mm3 = NAN;
    order.scale.accuracy_percent = 2;
    ck_assert_int_eq(runnel_cups_split(&order, &all, 1, &cups), RUNNEL_NOT_POSSIBLE);
    ck_assert_uint_eq(cups.items[0].notes, RUNNEL_CUP_UNWEIGHABLE);
    ck_near(cups.smallest_g, INFINITY, 0);
    runnel_cups_clear(&cups);
    /* What stays in a cup is all that it may hold. */
    order.scale.accuracy_percent = 0;
    order.cup.fixed_loss_g = 60;
    order.largest_mass_g = 50;
    ck_assert_int_eq(runnel_cups_split(&order, &all, 1, &cups), RUNNEL_E_NOT_COMPUTED);
    ck_assert(!cups.items);
}
END_TEST

START_TEST(nothing_to_pour) {
    runnel_cups_order order = plain_order(1);
    runnel_cups cups = {0};
    ck_assert_int_eq(runnel_cups_split(&order, NULL, 0, &cups), RUNNEL_OK);
    ck_assert_uint_eq(cups.count, 0);
    ck_near(cups.poured_mm3 + cups.mixed_g + cups.loss_mm3, 0, 0);
    runnel_cups_clear(&cups);
    runnel_cups_clear(&cups);
    runnel_cups_clear(NULL);
}
END_TEST

START_TEST(refusals) {
    static const double bad[] = {NAN, INFINITY, -1, 0};
    runnel_cups cups = {.wanted = 7};
    for (size_t i = 0; i < COUNT(bad); i++) {
        runnel_cups_order order = plain_order(1);
        runnel_pour by_volume = {bad[i], 1}, by_time = {1e5, bad[i]};
        ck_assert_int_eq(runnel_cups_split(&order, &by_volume, 1, &cups), RUNNEL_E_RANGE);
        if (bad[i] != 0)
            ck_assert_int_eq(runnel_cups_split(&order, &by_time, 1, &cups), RUNNEL_E_RANGE);
        runnel_pour fine = {1e5, 1};
        order.tolerance = bad[i];
        ck_assert_int_eq(runnel_cups_split(&order, &fine, 1, &cups), RUNNEL_E_RANGE);
        order = plain_order(bad[i]);
        ck_assert_int_eq(runnel_cups_split(&order, &fine, 1, &cups), RUNNEL_E_RANGE);
        order = plain_order(1);
        order.density_a_g_per_ml = bad[i];
        ck_assert_int_eq(runnel_cups_split(&order, &fine, 1, &cups), RUNNEL_E_RANGE);
        order = plain_order(1);
        order.mixture.density_g_per_ml = bad[i];
        ck_assert_int_eq(runnel_cups_split(&order, &fine, 1, &cups), RUNNEL_E_RANGE);
    }
    runnel_pour fine = {1e5, 1};
    runnel_cups_order order;
#define REFUSES(member, value)                                                                     \
    order = plain_order(1);                                                                        \
    order.member = (value);                                                                        \
    ck_assert_int_eq(runnel_cups_split(&order, &fine, 1, &cups), RUNNEL_E_RANGE)
    REFUSES(largest_mass_g, -1);
    REFUSES(brim_mm3, -1);
    REFUSES(brim_share, -0.1);
    REFUSES(brim_share, 1.1);
    REFUSES(pot_life_s, -1);
    REFUSES(usable_share, -0.1);
    REFUSES(usable_share, 1.1);
    REFUSES(heat_g, -1);
    REFUSES(tint, -1);
    REFUSES(cup.fixed_loss_g, INFINITY);
    REFUSES(cup.fixed_loss_g, -1); /* the film of a cup without a diameter */
    /* 1001 cups of 100 g. */
    order = water_order(0.1);
    order.largest_mass_g = 100;
    fine = (runnel_pour){100.01 * RUNNEL_CUPS_MOST * 1000, 1};
    ck_assert_int_eq(runnel_cups_split(&order, &fine, 1, &cups), RUNNEL_E_RANGE);
    ck_assert_uint_eq(cups.wanted, 7);
    ck_assert(!cups.items);
}
END_TEST

/* --- against every way of splitting --- */

/* Least of the greatest use of the limits over all ways to deal whole pours to `cups`, by trying
 * each place where the last cup may begin. */
static double best_use(const runnel_partition *of, size_t count, size_t cups) {
    if (!count)
        return 0;
    if (!cups)
        return INFINITY;
    double best = INFINITY, volume = 0, time = 0;
    for (size_t first = count; first-- > 0;) {
        volume += of->pours[first].volume_mm3;
        time += of->pours[first].pour_s;
        double use = fmax(volume / of->most_mm3, time / of->usable_s);
        best = fmin(best, fmax(use, best_use(of, first, cups - 1)));
    }
    return best;
}

START_TEST(partition_against_every_way) {
    srand(5);
    for (int round = 0; round < 2000; round++) {
        runnel_pour pours[8];
        size_t count = 1 + (size_t)(rand() % 8);
        runnel_partition of = {pours, count, between(50, 150), between(50, 150), 1};
        for (size_t i = 0; i < count; i++)
            pours[i] = (runnel_pour){between(1, 50), between(0, 50)};
        size_t fewest = 1;
        while (best_use(&of, count, fewest) > 1)
            fewest++;
        ck_assert_uint_eq(runnel_partition_count(&of, 1), fewest);
        for (size_t most = fewest; most <= fewest + 1; most++) {
            runnel_cup_load loads[9];
            size_t cups = runnel_partition_deal(&of, most, loads);
            double use = 0;
            for (size_t i = 0; i < cups; i++)
                use = fmax(use,
                           fmax(loads[i].poured_mm3 / of.most_mm3, loads[i].pour_s / of.usable_s));
            ck_assert(cups <= most);
            ck_near(use, best_use(&of, count, most), 1e-8);
        }
    }
}
END_TEST

START_TEST(partition_of_a_fluid) {
    /* One pour that may be divided: the fewest cups are the quotient rounded up, all alike. */
    srand(6);
    for (int round = 0; round < 3000; round++) {
        runnel_pour all = {between(1, 5000), between(0, 5000)};
        runnel_partition of = {&all, 1, between(10, 200), between(10, 200), 1};
        double parts = fmax(all.volume_mm3 / of.most_mm3, all.pour_s / of.usable_s);
        size_t want = (size_t)ceil(parts - 1e-6);
        runnel_cup_load loads[501];
        ck_assert_uint_eq(runnel_partition_count(&of, 1), want);
        ck_assert_uint_eq(runnel_partition_deal(&of, want, loads), want);
        for (size_t i = 0; i < want; i++) {
            ck_near_or(loads[i].poured_mm3, all.volume_mm3 / (double)want, 1e-6, 0);
            ck_near_or(loads[i].pour_s, all.pour_s / (double)want, 1e-6, 0);
        }
    }
}
END_TEST

/* --- thousands of batches --- */

static runnel_cups_order random_order(void) {
    runnel_cups_order order = plain_order(rand() % 2 ? 0.1 : 1);
    runnel_ratio ratio = {1, between(0.2, 1.1), RUNNEL_BASIS_VOLUME};
    order.density_a_g_per_ml = between(1.1, 1.18);
    order.density_b_g_per_ml = between(0.93, 1.05);
    ck_assert_int_eq(runnel_mixture_of(&ratio, order.density_a_g_per_ml, order.density_b_g_per_ml,
                                       &order.mixture),
                     RUNNEL_OK);
    order.tint = between(0, 0.05);
    order.tolerance = between(0.02, 0.05);
    order.scale.accuracy_counts = rand() % 2;
    if (rand() % 2)
        order.cup.fixed_loss_g = between(0, 6);
    else
        order.cup = (runnel_cup){between(50, 90), between(30, 120), NAN};
    order.largest_mass_g = rand() % 3 ? between(100, 600) : NAN;
    order.brim_mm3 = rand() % 3 ? between(150e3, 500e3) : 0;
    order.pot_life_s = rand() % 3 ? between(600, 3600) : NAN;
    order.pot_mass_g = 100;
    return order;
}

static void check_limits(const runnel_cups_order *order, const runnel_cup_load *cup) {
    double slack = 1 + 1e-8;
    const runnel_weighing *w = &cup->weighing;
    ck_assert(cup->notes & RUNNEL_CUP_OVER_MASS || isnan(order->largest_mass_g) ||
              w->total_g <= order->largest_mass_g * slack);
    ck_assert(cup->notes & RUNNEL_CUP_OVER_SIZE || !(order->brim_mm3 > 0) ||
              1000 * w->total_ml <= 0.75 * order->brim_mm3 * slack);
    if (order->pot_life_s > 0)
        ck_assert(cup->pour_s <=
                  (cup->notes & RUNNEL_CUP_LATE ? 1 : 0.6) * order->pot_life_s * slack);
    ck_assert(((cup->notes & RUNNEL_CUP_HOT) != 0) == (w->total_g >= 100));
    ck_assert(cup->notes & RUNNEL_CUP_UNWEIGHABLE || w->ratio_error <= order->tolerance);
}

/* Need against weighing: both parts cover their share; a batch below the smallest says so. */
static void check_weights(const runnel_cups_order *order, const runnel_cups *cups,
                          const runnel_cup_load *cup) {
    double loss_mm3 = NAN;
    ck_assert_int_eq(runnel_cup_loss(&order->cup, order->mixture.density_g_per_ml,
                                     order->viscosity_pa_s, cup->poured_mm3, &loss_mm3),
                     RUNNEL_OK);
    ck_near(cup->loss_mm3, loss_mm3, 0);
    double need_g = (cup->poured_mm3 + loss_mm3) / 1000 * order->mixture.density_g_per_ml;
    ck_assert(cup->weighing.part_a_g >= need_g * order->mixture.weight_a * (1 - 1e-9));
    ck_assert(cup->weighing.part_b_g >= need_g * order->mixture.weight_b * (1 - 1e-9));
    ck_assert(!(cup->notes & RUNNEL_CUP_RAISED) || need_g < cups->smallest_g);
    ck_near_or(cup->surplus_mm3, 1000 * cup->weighing.total_ml - cup->poured_mm3 - loss_mm3, 0,
               1e-6);
}

/* Each pour is given in full, in order, in one piece unless it is more than a cup can give. */
static void check_cover(const runnel_cups *cups, const runnel_pour *pours, size_t count) {
    double given[40] = {0};
    size_t next = 0;
    for (size_t i = 0; i < cups->count; i++) {
        const runnel_cup_load *cup = &cups->items[i];
        double volume_mm3 = 0, time_s = 0;
        ck_assert(cup->last_pour < count);
        ck_assert(cup->first_pour == next || cup->first_pour + 1 == next);
        for (size_t k = cup->first_pour; k <= cup->last_pour; k++) {
            double share = k == cup->first_pour  ? cup->first_share
                           : k == cup->last_pour ? cup->last_share
                                                 : 1;
            given[k] += share;
            volume_mm3 += share * pours[k].volume_mm3;
            time_s += share * pours[k].pour_s;
        }
        ck_near(cup->poured_mm3, volume_mm3, 1e-12);
        ck_near_or(cup->pour_s, time_s, 1e-12, 1e-9);
        next = cup->last_pour + 1;
    }
    for (size_t k = 0; k < count; k++)
        ck_near(given[k], 1, 1e-12);
}

START_TEST(thousands_of_batches) {
    srand(7);
    size_t many = 0, late = 0, raised = 0, none = 0;
    for (int round = 0; round < 3000; round++) {
        runnel_cups_order order = random_order();
        runnel_pour pours[40] = {{0, 0}};
        size_t count = 1 + (size_t)(rand() % 40);
        double total_mm3 = 0, size_mm3 = rand() % 3 ? 2e3 : 60e3;
        for (size_t i = 0; i < count; i++) {
            pours[i] = (runnel_pour){between(50, size_mm3), between(5, 120)};
            total_mm3 += pours[i].volume_mm3;
        }
        runnel_cups cups = {0};
        runnel_status status = runnel_cups_split(&order, pours, count, &cups);
        if (status == RUNNEL_E_NOT_COMPUTED) {
            none++; /* a film that fills the cup */
            continue;
        }
        unsigned all = 0, ruled = 0;
        ck_assert(cups.count >= 1 && cups.count <= cups.wanted);
        ck_near(cups.poured_mm3, total_mm3, 1e-12);
        check_cover(&cups, pours, count);
        for (size_t i = 0; i < cups.count; i++) {
            const runnel_cup_load *cup = &cups.items[i];
            check_limits(&order, cup);
            check_weights(&order, &cups, cup);
            ck_assert(cups.count == 1 ? !cup->limits : cup->limits || cups.count < cups.wanted);
            all |= cup->notes;
            ruled |= cup->limits;
        }
        ck_assert_uint_eq(cups.ruled, ruled);
        ck_assert_int_eq(status, all & RUNNEL_CUP_BAD ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK);
        /* Fewer cups than the limits ask for only where one of them was too small. */
        ck_assert(cups.count == cups.wanted || all & RUNNEL_CUP_LATE);
        many += cups.count > 1;
        late += (all & RUNNEL_CUP_LATE) != 0;
        raised += (all & RUNNEL_CUP_RAISED) != 0;
        runnel_cups_clear(&cups);
    }
    ck_assert(many > 300 && late > 30 && raised > 30 && none < 100);
}
END_TEST

START_TEST(memory_that_runs_out) {
    runnel_cups_order order = plain_order(1);
    runnel_pour all = {300e3 / order.mixture.density_g_per_ml, 0};
    order.largest_mass_g = 300; /* tried twice, see above */
    size_t tries = 0;
    for (bool done = false; !done; tries++) {
        failing count = {.fail_at = tries};
        runnel_cups cups = {0};
        start_failing(&count);
        runnel_status status = runnel_cups_split(&order, &all, 1, &cups);
        done = status == RUNNEL_OK;
        ck_assert(done || (status == RUNNEL_E_NO_MEMORY && !cups.items));
        runnel_cups_clear(&cups);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
    }
    ck_assert_uint_eq(tries, 3);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("cups");
    TCase *cups = tcase_create("cups");
    tcase_set_timeout(cups, 120); /* under valgrind too */
    tcase_add_test(cups, late_rather_than_too_small);
    tcase_add_test(cups, too_small_for_the_scale);
    tcase_add_test(cups, split_by_time);
    tcase_add_test(cups, split_by_the_pot_life_of_its_mass);
    tcase_add_test(cups, split_by_mass);
    tcase_add_test(cups, split_by_size);
    tcase_add_test(cups, pours_stay_whole);
    tcase_add_test(cups, weighing_keeps_the_limit);
    tcase_add_test(cups, what_cannot_be);
    tcase_add_test(cups, nothing_to_pour);
    tcase_add_test(cups, refusals);
    tcase_add_test(cups, partition_against_every_way);
    tcase_add_test(cups, partition_of_a_fluid);
    tcase_add_test(cups, thousands_of_batches);
    tcase_add_test(cups, memory_that_runs_out);
    suite_add_tcase(suite, cups);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
