/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/wax.h"
#include "solids.h"

#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

#define BY_VOLUME RUNNEL_BASIS_VOLUME
#define BY_WEIGHT RUNNEL_BASIS_WEIGHT

static const double broken[] = {NAN, INFINITY, -INFINITY, -1};
/* Exact: avoirdupois ounce in g, US fl oz and cup in ml. */
static const double oz_g = 28.349523125, fl_oz_ml = 29.5735295625, cup_ml = 236.5882365;

static runnel_wax_blend blend_of(runnel_wax_recipe recipe) {
    runnel_wax_blend blend = {0};
    ck_assert_int_eq(runnel_wax_blend_of(&recipe, &blend), RUNNEL_OK);
    return blend;
}

START_TEST(published_recipes) {
    /* Recipes as found, oil at 0.85 g/ml; ratios by mass worked by hand. */
    const struct {
        double oil_ml, wax_g, ratio, slack;
    } rows[] = {
        {cup_ml, 2 * oz_g, 3.547, 5e-4},          /* 2 oz of wax to a cup of oil */
        {1.5 * cup_ml, 2.5 * oz_g, 4.256, 5e-4},  /* 2.5 oz to 1.5 cups */
        {5, 1, 4.25, 1e-12},                      /* 1 g to 5 ml */
        {4 * fl_oz_ml, 0.74 * oz_g, 4.793, 5e-4}, /* 0.74 oz by weight to 4 fl oz, "1:4.8" */
        {64 * fl_oz_ml, 16 * oz_g, 3.547, 5e-4},  /* four bottles of 16 fl oz to a pound */
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_wax_blend blend = blend_of((runnel_wax_recipe){
            .oil = rows[i].oil_ml, .oil_by = BY_VOLUME, .wax = rows[i].wax_g, .wax_by = BY_WEIGHT});
        ck_near_or(blend.oil_per_wax, rows[i].ratio, 0, rows[i].slack);
        ck_near(blend.oil_share + blend.wax_share, 1, 1e-15);
    }
}
END_TEST

START_TEST(one_ratio_two_bases) {
    /* 4:1 by weight is 4; by volume, with beeswax of 0.96 g/ml, 4 x 0.85/0.96 = 3.5416667. */
    runnel_wax_recipe recipe = {.oil = 4, .oil_by = BY_WEIGHT, .wax = 1, .wax_by = BY_WEIGHT};
    runnel_wax_blend blend = blend_of(recipe);
    ck_near(blend.oil_per_wax, 4, 1e-15);
    ck_near(blend.oil_share, 0.8, 1e-15);
    /* 1/(0.8/0.85 + 0.2/0.96) */
    ck_near_or(blend.density_g_per_ml, 0.8699360, 0, 1e-7);
    recipe.oil_by = recipe.wax_by = BY_VOLUME;
    ck_near_or(blend_of(recipe).oil_per_wax, 3.5416667, 0, 1e-7);
    /* parts of any unit */
    recipe.oil = 400;
    recipe.wax = 100;
    ck_near_or(blend_of(recipe).oil_per_wax, 3.5416667, 0, 1e-7);
    /* another oil and wax: 4 x 0.92/0.99 */
    recipe.oil_g_per_ml = 0.92;
    recipe.wax_g_per_ml = 0.99;
    ck_near_or(blend_of(recipe).oil_per_wax, 3.7171717, 0, 1e-7);
    /* what a number counts has to be told, for both */
    blend.oil_share = 7;
    recipe.oil_by = RUNNEL_BASIS_NONE;
    ck_assert_int_eq(runnel_wax_blend_of(&recipe, &blend), RUNNEL_E_UNIT);
    recipe.oil_by = BY_WEIGHT;
    recipe.wax_by = RUNNEL_BASIS_NONE;
    ck_assert_int_eq(runnel_wax_blend_of(&recipe, &blend), RUNNEL_E_UNIT);
    recipe.wax_by = (runnel_basis)9;
    ck_assert_int_eq(runnel_wax_blend_of(&recipe, &blend), RUNNEL_E_UNIT);
    ck_near(blend.oil_share, 7, 0);
}
END_TEST

START_TEST(batches) {
    runnel_wax_blend blend =
        blend_of((runnel_wax_recipe){.oil = 4, .oil_by = BY_WEIGHT, .wax = 1, .wax_by = BY_WEIGHT});
    runnel_wax_batch batch = {0};
    /* 250 g: 200 g of oil, which is 235.294 ml, and 50 g of wax */
    ck_assert_int_eq(runnel_wax_for_mass(&blend, 250, &batch), RUNNEL_OK);
    ck_near(batch.oil_g, 200, 1e-14);
    ck_near(batch.wax_g, 50, 1e-14);
    ck_near_or(batch.oil_mm3, 235294.1, 0, 0.06);
    ck_near(batch.total_g, 250, 0);
    ck_near_or(batch.total_mm3, 250e3 / 0.8699360, 0, 0.1);
    /* 0.327 m2 twice at 15 ml/m2 with a quarter lost: 13.08 ml, 11.3788 g by hand */
    ck_assert_int_eq(runnel_wax_for_area(&blend, 327000, 0, 2, 0.25, &batch), RUNNEL_OK);
    ck_near(batch.total_mm3, 13080, 1e-14);
    ck_near_or(batch.total_g, 13.08 * 0.8699360, 0, 2e-6);
    /* the same told outright */
    double total_g = batch.total_g;
    ck_assert_int_eq(runnel_wax_for_area(&blend, 327000, 0.030, 1, 0.25, &batch), RUNNEL_OK);
    ck_near(batch.total_g, total_g, 1e-14);
    ck_assert_int_eq(runnel_wax_for_area(&blend, 0, 0, 1, 0, &batch), RUNNEL_OK);
    ck_near(batch.total_g, 0, 0);
}
END_TEST

START_TEST(masses_balance) {
    chance c = {61};
    for (int i = 0; i < 3000; i++) {
        runnel_wax_recipe recipe = {.oil = chance_between(&c, 0.1, 10),
                                    .oil_by = chance_below(&c, 2) ? BY_VOLUME : BY_WEIGHT,
                                    .wax = chance_between(&c, 0.1, 10),
                                    .wax_by = chance_below(&c, 2) ? BY_VOLUME : BY_WEIGHT,
                                    .oil_g_per_ml = chance_between(&c, 0.8, 0.95),
                                    .wax_g_per_ml = chance_between(&c, 0.85, 1)};
        runnel_wax_blend blend = blend_of(recipe);
        runnel_wax_batch batch = {0};
        double mass = chance_between(&c, 1, 1000);
        ck_assert_int_eq(runnel_wax_for_mass(&blend, mass, &batch), RUNNEL_OK);
        ck_near(batch.oil_g + batch.wax_g, mass, 1e-14);
        ck_near(batch.oil_g / batch.wax_g, blend.oil_per_wax, 1e-13);
        /* volumes add up */
        ck_near(batch.oil_mm3 + 1000 * batch.wax_g / recipe.wax_g_per_ml, batch.total_mm3, 1e-13);
        /* the blend, written as a recipe by weight, is itself */
        runnel_wax_blend again = blend_of((runnel_wax_recipe){.oil = blend.oil_share,
                                                              .oil_by = BY_WEIGHT,
                                                              .wax = blend.wax_share,
                                                              .wax_by = BY_WEIGHT});
        ck_near(again.oil_per_wax, blend.oil_per_wax, 1e-14);
    }
}
END_TEST

START_TEST(refusals) {
    const runnel_wax_recipe good = {.oil = 4, .oil_by = BY_VOLUME, .wax = 1, .wax_by = BY_WEIGHT};
    runnel_wax_blend blend = blend_of(good);
    double share = blend.oil_share;
    runnel_wax_batch batch = {.oil_g = 7};
    for (size_t i = 0; i < COUNT(broken); i++) {
        runnel_wax_recipe bad[] = {good, good, good, good};
        bad[0].oil = bad[1].wax = bad[2].oil_g_per_ml = bad[3].wax_g_per_ml = broken[i];
        for (size_t k = 0; k < COUNT(bad); k++)
            ck_assert_int_eq(runnel_wax_blend_of(&bad[k], &blend), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_wax_for_mass(&blend, broken[i], &batch), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_wax_for_area(&blend, broken[i], 0, 1, 0, &batch), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_wax_for_area(&blend, 1, broken[i], 1, 0, &batch), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_wax_for_area(&blend, 1, 0, 1, broken[i], &batch), RUNNEL_E_RANGE);
    }
    runnel_wax_recipe bad[] = {good, good, good};
    bad[0].oil = 0;
    bad[1].wax = 0;
    bad[2].oil = 1e300;
    bad[2].wax = 1e-300;
    for (size_t k = 0; k < COUNT(bad); k++)
        ck_assert_int_eq(runnel_wax_blend_of(&bad[k], &blend), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_wax_for_area(&blend, 1, 0, 0, 0, &batch), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_wax_for_area(&blend, 1, 0, 101, 0, &batch), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_wax_for_area(&blend, 1, 0, 1, 1, &batch), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_wax_for_mass(&blend, 1e307, &batch), RUNNEL_E_RANGE);
    ck_near(blend.oil_share, share, 0);
    ck_near(batch.oil_g, 7, 0);
}
END_TEST

START_TEST(kinds_of_wax) {
    size_t count = 0;
    const runnel_wax *all = runnel_waxes(&count);
    ck_assert_uint_ge(count, 3);
    for (size_t i = 0; i < count; i++) {
        ck_assert_ptr_eq(runnel_wax_find(all[i].name), &all[i]);
        ck_assert(all[i].melts_low_degc <= all[i].melts_high_degc);
        ck_assert(all[i].density_g_per_ml > 0.85 && all[i].density_g_per_ml <= 1);
        ck_assert_uint_gt(strlen(all[i].source), 5);
    }
    /* Recipes: beeswax melts at about 146 F, (146 - 32)/1.8 = 63.3 degC. */
    ck_assert_str_eq(all[0].name, "beeswax");
    ck_assert(all[0].melts_low_degc < 63.3 && all[0].melts_high_degc > 63.3);
    ck_near(all[0].density_g_per_ml, RUNNEL_BEESWAX_G_PER_ML, 0);
    ck_assert_ptr_null(runnel_wax_find("ear wax"));
    ck_assert_ptr_null(runnel_wax_find(NULL));
}
END_TEST

int main(void) {
    const TTest *const tests[] = {published_recipes, one_ratio_two_bases, batches, masses_balance,
                                  refusals,          kinds_of_wax};
    Suite *suite = suite_create("wax");
    TCase *cases = tcase_create("wax");
    for (size_t i = 0; i < COUNT(tests); i++)
        tcase_add_test(cases, tests[i]);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
