/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "failing.h"
#include "runnel/memory.h"
#include "runnel/resin.h"

#include <stdlib.h>
#include <string.h>

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

/* --- mixtures --- */

START_TEST(volume_to_weight) {
    /* w = v rhoA/rhoB by hand; densities of the amines NIOSH NMAM 2540 table 1 and data sheets. */
    static const struct {
        double b_by_weight, b_g_per_ml, b_by_volume;
    } rows[] = {
        {13, 0.98, 15.39}, {10.86, 0.96, 13.12}, {22.41, 0.924, 28.13}, {31.58, 0.948, 38.64}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_mixture mixture =
            mixture_of(by_weight(100, rows[i].b_by_weight), rho_a, rows[i].b_g_per_ml);
        ck_near_or(100 * mixture.volume_b / mixture.volume_a, rows[i].b_by_volume, 0, 0.0051);
        ck_near(mixture.weight_b / mixture.weight_a, rows[i].b_by_weight / 100, 1e-14);
    }
    static const struct {
        double a_by_volume, b_by_weight;
    } usual[] = {{1, 81.90}, {2, 40.95}, {3, 27.30}, {4, 20.47}, {5, 16.38}};
    for (size_t i = 0; i < COUNT(usual); i++) {
        runnel_mixture mixture = mixture_of(by_volume(usual[i].a_by_volume, 1), rho_a, rho_b);
        ck_near_or(100 * mixture.weight_b / mixture.weight_a, usual[i].b_by_weight, 0, 0.0051);
    }
}
END_TEST

START_TEST(half_a_litre_two_to_one) {
    /* By hand: 333.333 ml x 1.16, 166.667 ml x 0.95. */
    runnel_mixture mixture = mixture_of(by_volume(2, 1), rho_a, rho_b);
    ck_near(mixture.density_g_per_ml, 1.09, 1e-15);
    double mass_g = 500 * mixture.density_g_per_ml;
    ck_near(mass_g, 545, 1e-15);
    ck_near_or(mass_g * mixture.weight_a, 386.667, 0, 0.0005);
    ck_near_or(mass_g * mixture.weight_b, 158.333, 0, 0.0005);
    ck_near_or(500 * mixture.volume_a, 333.333, 0, 0.0005);
    ck_near_or(500 * mixture.volume_b, 166.667, 0, 0.0005);
    /* Weighing 2:1 instead: 50 against 40.948 of hardener, +22.1 %. */
    double per_a = mixture.weight_b / mixture.weight_a;
    ck_near_or(0.5 / per_a - 1, 0.221, 0, 0.0005);
}
END_TEST

START_TEST(density_of_mixes) {
    /* Ideal mixing, and shrinkage S = 1 - liquid/cured, by hand for resin 1.16. */
    static const struct {
        double b_by_weight, b_g_per_ml, mix_g_per_ml, to_115, to_118, to_120;
    } rows[] = {{13.00, 0.98, 1.1360, 1.22, 3.73, 5.33},
                {10.86, 0.96, 1.1368, 1.15, 3.66, 5.27},
                {17.92, 1.032, 1.1385, 1.00, 3.51, 5.12},
                {22.41, 0.924, 1.1082, 3.64, 6.09, 7.65},
                {31.58, 0.948, 1.1009, 4.27, 6.70, 8.26}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_mixture mixture =
            mixture_of(by_weight(100, rows[i].b_by_weight), rho_a, rows[i].b_g_per_ml);
        ck_near_or(mixture.density_g_per_ml, rows[i].mix_g_per_ml, 0, 0.000051);
        ck_near_or(100 * (1 - mixture.density_g_per_ml / 1.15), rows[i].to_115, 0, 0.0051);
        ck_near_or(100 * (1 - mixture.density_g_per_ml / 1.18), rows[i].to_118, 0, 0.0051);
        ck_near_or(100 * (1 - mixture.density_g_per_ml / 1.20), rows[i].to_120, 0, 0.0051);
    }
}
END_TEST

START_TEST(mixture_shares_are_whole) {
    srand(1);
    for (int i = 0; i < 5000; i++) {
        double a = between(0.9, 1.5), b = between(0.8, 1.5);
        runnel_ratio ratio = {between(0.01, 100), between(0.01, 100),
                              i % 2 ? RUNNEL_BASIS_VOLUME : RUNNEL_BASIS_WEIGHT};
        runnel_mixture mixture = mixture_of(ratio, a, b);
        ck_near(mixture.weight_a + mixture.weight_b, 1, 1e-15);
        ck_near(mixture.volume_a + mixture.volume_b, 1, 1e-15);
        /* Mass balance both ways. */
        ck_near(mixture.density_g_per_ml, mixture.volume_a * a + mixture.volume_b * b, 1e-14);
        ck_near(1 / mixture.density_g_per_ml, mixture.weight_a / a + mixture.weight_b / b, 1e-14);
        /* The same mixture by the other basis. */
        runnel_mixture again = mixture_of(by_weight(mixture.weight_a, mixture.weight_b), a, b);
        ck_near(again.volume_b, mixture.volume_b, 1e-13);
    }
}
END_TEST

START_TEST(mixture_refusals) {
    runnel_mixture mixture = {.weight_a = 7};
    runnel_ratio bare = {2, 1, RUNNEL_BASIS_NONE};
    ck_assert_int_eq(runnel_mixture_of(&bare, rho_a, rho_b, &mixture), RUNNEL_E_UNIT);
    double values[] = {2, 1, 1.16, 0.95};
    static const double bad[] = {NAN, INFINITY, -1, 0};
    for (size_t field = 0; field < COUNT(values); field++)
        for (size_t i = 0; i < COUNT(bad); i++) {
            double v[4];
            memcpy(v, values, sizeof v);
            v[field] = bad[i];
            runnel_ratio ratio = by_weight(v[0], v[1]);
            ck_assert_int_eq(runnel_mixture_of(&ratio, v[2], v[3], &mixture), RUNNEL_E_RANGE);
        }
    runnel_ratio lost = by_weight(1e300, 1e-300), huge = by_volume(1e308, 1e308);
    ck_assert_int_eq(runnel_mixture_of(&lost, rho_a, rho_b, &mixture), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_mixture_of(&huge, rho_a, rho_b, &mixture), RUNNEL_E_RANGE);
    ck_near(mixture.weight_a, 7, 0);
}
END_TEST

START_TEST(contradicting_ratios) {
    double difference = NAN;
    /* By hand: 2:1 by volume is 0.95/2.32 = 0.409483 by weight. Against 100:44 that is -6.936 %,
     * against 100:50 -18.1 %, the inverse of +22.1 %. With hardener of 1.0208 g/ml 100:44 is 2:1.
     * 1:1 by volume with 1.16 and 0.9628 is 100:83. */
    static const struct {
        double volume_a, volume_b, weight_b, b_g_per_ml, want;
    } rows[] = {{2, 1, 44, 0.95, -0.0693574},
                {2, 1, 50, 0.95, -0.1810345},
                {2, 1, 44, 1.0208, 0},
                {1, 1, 83, 0.9628, 0}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_ratio volume = by_volume(rows[i].volume_a, rows[i].volume_b);
        runnel_ratio weight = by_weight(100, rows[i].weight_b);
        ck_assert_int_eq(
            runnel_ratio_contradiction(&volume, &weight, rho_a, rows[i].b_g_per_ml, &difference),
            RUNNEL_OK);
        ck_near_or(difference, rows[i].want, 0, 5e-8);
    }
    difference = 7;
    runnel_ratio volume = by_volume(2, 1), weight = by_weight(100, 44), bare = {2, 1, 0};
    ck_assert_int_eq(runnel_ratio_contradiction(&weight, &volume, rho_a, rho_b, &difference),
                     RUNNEL_E_UNIT);
    ck_assert_int_eq(runnel_ratio_contradiction(&volume, &bare, rho_a, rho_b, &difference),
                     RUNNEL_E_UNIT);
    ck_assert_int_eq(runnel_ratio_contradiction(&volume, &weight, NAN, rho_b, &difference),
                     RUNNEL_E_RANGE);
    weight.part_b = 0;
    ck_assert_int_eq(runnel_ratio_contradiction(&volume, &weight, rho_a, rho_b, &difference),
                     RUNNEL_E_RANGE);
    ck_near(difference, 7, 0);
}
END_TEST

START_TEST(published_densities) {
    static const struct {
        char part;
        double low, high, inside;
        const char *named;
    } rows[] = {{'A', 1.05, 1.20, 1.16, "ASTM D1475"},
                {'B', 0.89, 1.10, 0.95, "NIOSH NMAM 2540"},
                {'M', 1.05, 1.20, 1.09, "ideal mixing"}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_density_range range = runnel_density_published(rows[i].part);
        ck_near(range.low_g_per_ml, rows[i].low, 0);
        ck_near(range.high_g_per_ml, rows[i].high, 0);
        ck_assert(range.low_g_per_ml < rows[i].inside && rows[i].inside < range.high_g_per_ml);
        ck_assert_ptr_nonnull(strstr(range.source, rows[i].named));
    }
    runnel_density_range none = runnel_density_published('x');
    ck_assert(isnan(none.low_g_per_ml) && isnan(none.high_g_per_ml));
    ck_assert_ptr_null(none.source);
}
END_TEST

/* --- copies --- */

START_TEST(copy_with_and_without_memory) {
    char name[] = "casting 100:44", kind[] = "casting", source[] = "sheet", date[] = "2015-01-01",
         sure[] = "published";
    runnel_resin resin = {.name = name,
                          .kind = kind,
                          .source = source,
                          .date = date,
                          .sure = sure,
                          .pot_life_s = 1500,
                          .ratio = {100, 44, RUNNEL_BASIS_WEIGHT}};
    for (size_t allowed = 0; allowed <= 5; allowed++) {
        failing of = {.fail_at = allowed, .for_good = true};
        start_failing(&of);
        runnel_resin copy = {0};
        runnel_status status = runnel_resin_copy(&resin, &copy);
        ck_assert_int_eq(status, allowed < 5 ? RUNNEL_E_NO_MEMORY : RUNNEL_OK);
        if (status == RUNNEL_OK) {
            ck_assert_ptr_ne(copy.name, name);
            ck_assert_str_eq(copy.name, "casting 100:44");
            ck_assert_str_eq(copy.kind, "casting");
            ck_assert_str_eq(copy.source, "sheet");
            ck_assert_str_eq(copy.date, "2015-01-01");
            ck_assert_str_eq(copy.sure, "published");
            ck_near(copy.pot_life_s, 1500, 0);
            ck_near(copy.ratio.part_b, 44, 0);
            ck_assert_uint_eq(of.alive, 5);
        } else {
            ck_assert_ptr_null(copy.name);
        }
        runnel_resin_clear(&copy);
        ck_assert_ptr_null(copy.name);
        ck_near(copy.pot_life_s, 0, 0);
        ck_assert_uint_eq(of.alive, 0);
        runnel_set_allocator(NULL);
    }
}
END_TEST

START_TEST(copy_of_absent_texts) {
    char name[] = "own";
    runnel_resin resin = {.name = name}, copy = {0};
    ck_assert_int_eq(runnel_resin_copy(&resin, &copy), RUNNEL_OK);
    ck_assert_str_eq(copy.name, "own");
    ck_assert_ptr_null(copy.source);
    runnel_resin_clear(&copy);
    runnel_resin_clear(NULL);
}
END_TEST

/* --- what stays in the cup --- */

START_TEST(film_table) {
    /* h = sqrt(mu z/(rho g t)), mean 2/3 h(H), worked by hand after Jeffreys (1930) and Bird,
     * Stewart & Lightfoot, problem 2D.2; cup 70 mm wide, 80 mm filled = 307.876 ml. */
    static const struct {
        double viscosity_pa_s, density, drain_s, height_mm, top_um, mean_um, wall_ml, percent;
    } rows[] = {{1, 1.100, 60, 80, 351.571, 234.380, 4.12344, 1.3393},
                {1, 1.100, 10, 80, 861.169, 574.113, 10.1003, 3.2806},
                {5, 1.100, 60, 80, 786.136, 524.091, 9.22030, 2.9948},
                {0.03, 0.860, 60, 80, 68.868, 45.912, 0.80773, 0.2624},
                {1, 1.100, 60, 100, 393.068, 262.045, NAN, NAN}};
    const double pi = 3.14159265358979323846, floor_mm2 = pi * 35 * 35;
    for (size_t i = 0; i < COUNT(rows); i++) {
        double charge_mm3 = floor_mm2 * rows[i].height_mm, wall = NAN, bottom = NAN;
        ck_assert_int_eq(runnel_cup_film(70, charge_mm3, rows[i].viscosity_pa_s, rows[i].density,
                                         rows[i].drain_s, &wall, &bottom),
                         RUNNEL_OK);
        ck_near_or(1000 * bottom / floor_mm2, rows[i].top_um, 0, 0.00051);
        ck_near_or(1000 * wall / (pi * 70 * rows[i].height_mm), rows[i].mean_um, 0, 0.00051);
        if (isnan(rows[i].wall_ml))
            continue;
        ck_near_or(wall / 1000, rows[i].wall_ml, 6e-6, 0);
        ck_near_or(100 * wall / charge_mm3, rows[i].percent, 0, 0.000051);
    }
    double wall = NAN, bottom = NAN;
    ck_assert_int_eq(runnel_cup_film(70, 0, 1, 1.1, 60, &wall, &bottom), RUNNEL_OK);
    ck_near(wall, 0, 0);
    ck_near(bottom, 0, 0);
}
END_TEST

START_TEST(film_refusals) {
    double values[] = {70, 3e5, 1, 1.1, 60}, wall = 7, bottom = 8;
    for (size_t field = 0; field < COUNT(values); field++)
        for (size_t i = 0; i < COUNT(broken) + 1; i++) {
            double v[5], bad = i < COUNT(broken) ? broken[i] : 0;
            if (field == 1 && i == COUNT(broken))
                continue; /* an empty cup is no error */
            memcpy(v, values, sizeof v);
            v[field] = bad;
            ck_assert_int_eq(runnel_cup_film(v[0], v[1], v[2], v[3], v[4], &wall, &bottom),
                             RUNNEL_E_RANGE);
        }
    ck_assert_int_eq(runnel_cup_film(1e-300, 1e300, 1, 1, 1, &wall, &bottom), RUNNEL_E_RANGE);
    ck_near(wall, 7, 0);
    ck_near(bottom, 8, 0);
}
END_TEST

/* --- terms --- */

static const runnel_cup film_cup = {70, 60, NAN};
static const runnel_cup weighed_cup = {0, 0, 3};

static runnel_terms terms_of(const runnel_need *need, const runnel_cup *cup) {
    runnel_mixture mixture = mixture_of(by_volume(2, 1), rho_a, rho_b);
    runnel_terms terms = {0};
    ck_assert_int_eq(runnel_terms_of(need, cup, &mixture, 1, &terms), RUNNEL_OK);
    return terms;
}

START_TEST(terms_worked_by_hand) {
    /* 10 ml cavity; 0.4 mm on 2500 mm2 = 1 ml; 11 ml x 0.02/0.98; 50 ml/m2 on 3000 mm2 = 0.15 ml;
     * a tenth of 11.3745 ml; 3 g of a mix of 1.09 g/ml. */
    runnel_need need = {10000, 2000, 500, 0.4, 3000, 0.05, 0.02, 0.1, 0};
    runnel_terms terms = terms_of(&need, &weighed_cup);
    ck_near(terms.cavity_mm3, 10000, 0);
    ck_near(terms.crown_mm3, 1000, 1e-15);
    ck_near(terms.shrinkage_mm3, 224.48979591836735, 1e-14);
    ck_near(terms.soak_mm3, 150, 1e-15);
    ck_near(terms.reserve_mm3, 1137.4489795918367, 1e-14);
    ck_near(terms.cup_loss_mm3, 2752.2935779816514, 1e-14);
    ck_near(terms.total_mm3, 15264.232353491855, 1e-14);
    /* 2 ml for what is uncertain, and a tenth of them. */
    need.allowance_mm3 = 2000;
    terms = terms_of(&need, &weighed_cup);
    ck_near(terms.allowance_mm3, 2000, 0);
    ck_near(terms.shrinkage_mm3, 224.48979591836735, 1e-14);
    ck_near(terms.reserve_mm3, 1337.4489795918367, 1e-14);
    ck_near(terms.total_mm3, 17464.232353491855, 1e-14);
    /* A small name in script: groove 0.06 ml, crown 0.4 mm on 75 mm2 = 0.03 ml, 3 g in the cup:
     * the cup is 97 % of the batch. */
    runnel_need name = {.cavity_mm3 = 60, .footprint_mm2 = 75, .crown_mm = 0.4};
    terms = terms_of(&name, &weighed_cup);
    ck_near(terms.total_mm3, 60 + 30 + 2752.2935779816514, 1e-14);
}
END_TEST

START_TEST(terms_with_a_film) {
    /* Backwards: a charge of 307.876 ml in the cup of the film table (mix of 1.1 g/ml) loses
     * 4.123436668 + 1.353002657 ml (30 digits by hand), so 302.3996407 ml can be poured. */
    runnel_mixture mixture = {.density_g_per_ml = 1.1};
    runnel_need need = {.cavity_mm3 = 302399.64072744039628};
    runnel_terms terms = {0};
    ck_assert_int_eq(runnel_terms_of(&need, &film_cup, &mixture, 1, &terms), RUNNEL_OK);
    ck_near(terms.total_mm3, 307876.08005179973737, 1e-14);
    ck_near(terms.cup_loss_mm3, 5476.4393243593410883, 1e-12);
    /* A negative fixed loss means the film as well. */
    runnel_cup negative = {70, 60, -1};
    runnel_terms again = {0};
    ck_assert_int_eq(runnel_terms_of(&need, &negative, &mixture, 1, &again), RUNNEL_OK);
    ck_near(again.total_mm3, terms.total_mm3, 0);
}
END_TEST

START_TEST(terms_of_nothing) {
    runnel_need need = {.crown_mm = 0.4, .shrinkage = 0.02, .reserve = 0.1};
    runnel_terms film = terms_of(&need, &film_cup), weighed = terms_of(&need, &weighed_cup);
    ck_near(film.total_mm3, 0, 0);
    ck_near(weighed.total_mm3, 0, 0);
    ck_near(weighed.cup_loss_mm3, 0, 0);
}
END_TEST

START_TEST(terms_properties) {
    srand(2);
    for (int i = 0; i < 5000; i++) {
        runnel_need need = {pow(10, between(0, 6)), between(0, 1e5), between(0, 1e4),
                            between(0, 2),          between(0, 2e5), between(0, 0.2),
                            between(0, 0.1),        between(0, 0.3), between(0, 1e4)};
        runnel_cup cup = {between(60, 200), between(20, 300), i % 3 ? NAN : between(0, 6)};
        double viscosity_pa_s = between(0.1, 3), wall = 0, bottom = 0;
        runnel_mixture mixture = mixture_of(by_volume(between(1, 5), 1), rho_a, rho_b);
        runnel_terms terms = {0}, more = {0};
        ck_assert_int_eq(runnel_terms_of(&need, &cup, &mixture, viscosity_pa_s, &terms), RUNNEL_OK);
        double poured_mm3 = terms.cavity_mm3 + terms.crown_mm3 + terms.shrinkage_mm3 +
                            terms.soak_mm3 + terms.allowance_mm3 + terms.reserve_mm3;
        ck_near(terms.total_mm3, poured_mm3 + terms.cup_loss_mm3, 1e-15);
        /* What cures from cavity, crown and shrinkage is cavity and crown. */
        double solid_mm3 = terms.cavity_mm3 + terms.crown_mm3;
        ck_near((solid_mm3 + terms.shrinkage_mm3) * (1 - need.shrinkage), solid_mm3, 1e-14);
        if (isnan(cup.fixed_loss_g)) {
            ck_assert_int_eq(runnel_cup_film(cup.diameter_mm, terms.total_mm3, viscosity_pa_s,
                                             mixture.density_g_per_ml, cup.drain_s, &wall, &bottom),
                             RUNNEL_OK);
            ck_near(terms.cup_loss_mm3, wall + bottom, 1e-12);
        }
        double *grown[] = {&need.crown_mm,   &need.cavity_mm3, &need.reserve,      &need.soak_mm,
                           &need.margin_mm2, &need.shrinkage,  &need.allowance_mm3};
        double *field = grown[(size_t)i % COUNT(grown)];
        *field += between(0, 0.1) * *field;
        ck_assert_int_eq(runnel_terms_of(&need, &cup, &mixture, viscosity_pa_s, &more), RUNNEL_OK);
        ck_assert_msg(more.total_mm3 >= terms.total_mm3 * (1 - 1e-15), "more need, less resin: %g",
                      more.total_mm3 - terms.total_mm3);
    }
}
END_TEST

START_TEST(terms_refusals) {
    runnel_mixture mixture = mixture_of(by_volume(2, 1), rho_a, rho_b);
    runnel_terms terms = {.total_mm3 = 7};
    for (size_t field = 0; field < 9; field++)
        for (size_t i = 0; i < COUNT(broken); i++) {
            double v[9] = {1000, 100, 10, 0.4, 200, 0.05, 0.02, 0.1, 50};
            v[field] = broken[i];
            runnel_need need = {v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7], v[8]};
            ck_assert_int_eq(runnel_terms_of(&need, &film_cup, &mixture, 1, &terms),
                             RUNNEL_E_RANGE);
        }
    runnel_need all_lost = {.cavity_mm3 = 1000, .shrinkage = 1};
    ck_assert_int_eq(runnel_terms_of(&all_lost, &film_cup, &mixture, 1, &terms), RUNNEL_E_RANGE);
    runnel_need need = {.cavity_mm3 = 1000}, huge = {.cavity_mm3 = 1e308, .reserve = 10};
    static const runnel_cup cups[] = {{0, 60, NAN},      {-70, 60, NAN}, {NAN, 60, NAN},
                                      {70, 0, NAN},      {70, NAN, NAN}, {70, INFINITY, NAN},
                                      {70, 60, INFINITY}};
    for (size_t i = 0; i < COUNT(cups); i++)
        ck_assert_int_eq(runnel_terms_of(&need, &cups[i], &mixture, 1, &terms), RUNNEL_E_RANGE);
    for (size_t i = 0; i < COUNT(broken); i++)
        ck_assert_int_eq(runnel_terms_of(&need, &film_cup, &mixture, broken[i], &terms),
                         RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_terms_of(&huge, &film_cup, &mixture, 1, &terms), RUNNEL_E_RANGE);
    mixture.density_g_per_ml = NAN;
    ck_assert_int_eq(runnel_terms_of(&need, &weighed_cup, &mixture, 1, &terms), RUNNEL_E_RANGE);
    ck_near(terms.total_mm3, 7, 0);
}
END_TEST

START_TEST(terms_that_no_cup_gives) {
    /* A litre in a cup of 10 mm, pitch, and a paste with no time to drain: the film is the cup. */
    runnel_mixture mixture = mixture_of(by_volume(2, 1), rho_a, rho_b);
    runnel_need litre = {.cavity_mm3 = 1e6}, drop = {.cavity_mm3 = 1};
    runnel_cup narrow = {10, 60, NAN}, hasty = {70, 1e-9, NAN};
    runnel_terms terms = {.total_mm3 = 7};
    ck_assert_int_eq(runnel_terms_of(&litre, &narrow, &mixture, 10, &terms), RUNNEL_E_NOT_COMPUTED);
    ck_assert_int_eq(runnel_terms_of(&litre, &film_cup, &mixture, 1e6, &terms),
                     RUNNEL_E_NOT_COMPUTED);
    ck_assert_int_eq(runnel_terms_of(&drop, &hasty, &mixture, 100, &terms), RUNNEL_E_NOT_COMPUTED);
    ck_near(terms.total_mm3, 7, 0);
}
END_TEST

static TCase *mixing_case(void) {
    TCase *mixing = tcase_create("mixing");
    tcase_add_test(mixing, volume_to_weight);
    tcase_add_test(mixing, half_a_litre_two_to_one);
    tcase_add_test(mixing, density_of_mixes);
    tcase_add_test(mixing, mixture_shares_are_whole);
    tcase_add_test(mixing, mixture_refusals);
    tcase_add_test(mixing, contradicting_ratios);
    tcase_add_test(mixing, published_densities);
    tcase_add_test(mixing, copy_with_and_without_memory);
    tcase_add_test(mixing, copy_of_absent_texts);
    return mixing;
}

static TCase *terms_case(void) {
    TCase *terms = tcase_create("terms");
    tcase_add_test(terms, film_table);
    tcase_add_test(terms, film_refusals);
    tcase_add_test(terms, terms_worked_by_hand);
    tcase_add_test(terms, terms_with_a_film);
    tcase_add_test(terms, terms_of_nothing);
    tcase_add_test(terms, terms_properties);
    tcase_add_test(terms, terms_refusals);
    tcase_add_test(terms, terms_that_no_cup_gives);
    return terms;
}

int main(void) {
    Suite *suite = suite_create("resin");
    suite_add_tcase(suite, mixing_case());
    suite_add_tcase(suite, terms_case());
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
