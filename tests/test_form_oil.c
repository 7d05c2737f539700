/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "runnel/forms.h"

#include <float.h>
#include <stdlib.h>

#define COUNT(table) (sizeof(table) / sizeof *(table))

START_TEST(words) {
    runnel_grain grain = RUNNEL_GRAIN_LENGTH;
    unsigned edges = 0;
    ck_assert_int_eq(runnel_grain_parse("End grain", NULL, NULL, &grain), RUNNEL_OK);
    ck_assert_int_eq(grain, RUNNEL_GRAIN_THICKNESS);
    ck_assert_int_eq(runnel_grain_parse("width", NULL, NULL, &grain), RUNNEL_OK);
    ck_assert_int_eq(grain, RUNNEL_GRAIN_WIDTH);
    ck_assert_int_eq(runnel_edges_parse("top and bottom", NULL, NULL, &edges), RUNNEL_OK);
    ck_assert_uint_eq(edges, 0x0FF);
    ck_assert_int_eq(runnel_edges_parse("upright", NULL, NULL, &edges), RUNNEL_OK);
    ck_assert_uint_eq(edges, 0xF00);
    ck_assert_int_eq(runnel_edges_parse("sides", NULL, NULL, &edges), RUNNEL_E_UNKNOWN);
    ck_assert_uint_eq(edges, 0xF00);
}
END_TEST

START_TEST(grooves_taken) {
    runnel_groove_form groove = {.count = 0};
    ck_assert_int_eq(runnel_juice_groove_parse("rounded rectangle 380 x 22 cm r 2 cm, round-nose "
                                               "diameter 12 mm ,1/4 in deep",
                                               NULL, NULL, &groove),
                     RUNNEL_OK);
    ck_assert_uint_eq(groove.count, 1);
    ck_near(groove.length_mm, 3800, DBL_EPSILON);
    ck_near(groove.width_mm, 220, DBL_EPSILON);
    ck_near(groove.corner_mm, 20, DBL_EPSILON);
    ck_near(groove.nose_mm, 6, DBL_EPSILON);
    ck_near(groove.depth_mm, 6.35, DBL_EPSILON);
    ck_assert_int_eq(groove.face, RUNNEL_FACE_TOP);
    ck_assert_int_eq(runnel_finger_holds_parse("2 of 100 mm, round-nose radius 8 mm, 10 mm deep, "
                                               "in the left",
                                               NULL, NULL, &groove),
                     RUNNEL_OK);
    ck_assert_uint_eq(groove.count, 2);
    ck_near(groove.length_mm, 100, DBL_EPSILON);
    ck_near(groove.width_mm, 0, 0);
    ck_assert_int_eq(groove.face, RUNNEL_FACE_LEFT);
    ck_assert_int_eq(runnel_finger_holds_parse("100 mm, round-nose radius 8 mm, 10 mm deep", NULL,
                                               NULL, &groove),
                     RUNNEL_OK);
    ck_assert_uint_eq(groove.count, 1);
    ck_assert_int_eq(groove.face, RUNNEL_FACE_BOTTOM);
}
END_TEST

#define CUT ", round-nose radius 8 mm, 10 mm deep"

static const struct {
    bool holds;
    const char *text;
    runnel_status status;
} grooves[] = {
    {false, "", RUNNEL_E_SYNTAX},
    {false, "rectangle 60 x 40 mm" CUT ", deep, deep, deep", RUNNEL_E_SYNTAX},
    {false, "circle 60 mm" CUT, RUNNEL_E_SHAPE},
    {false, "line 0,0 60", RUNNEL_E_SYNTAX},
    {false, "rectangel 60 x 40 mm" CUT, RUNNEL_E_UNKNOWN},
    {false, "rectangle 60 x 40 mm, flat radius 8 mm, 10 mm deep", RUNNEL_E_SHAPE},
    {false, "rectangle 60 x 40 mm, spoon, 10 mm deep", RUNNEL_E_UNKNOWN},
    {false, "rectangle 60 x 40 mm, round-nose radius 8 mm, deep", RUNNEL_E_SYNTAX},
    {false, "rectangle 60 x 40 mm, round-nose radius 8 mm, 10 deep", RUNNEL_E_UNIT},
    {false, "rectangle 60 x 40 mm, round-nose radius 8 mm, -1 mm deep", RUNNEL_E_RANGE},
    {true, "two of 100 mm" CUT, RUNNEL_E_SYNTAX},
    {true, "0 of 100 mm" CUT, RUNNEL_E_RANGE},
    {true, "1001 of 100 mm" CUT, RUNNEL_E_RANGE},
    {true, "2 of 100" CUT, RUNNEL_E_UNIT},
    {true, "2 of 0 mm" CUT, RUNNEL_E_RANGE},
    {true, "2 of 100 mm" CUT ", in the lid", RUNNEL_E_UNKNOWN},
    {true, "2 of 100 mm", RUNNEL_E_SYNTAX},
};

START_TEST(grooves_refused) {
    runnel_groove_form groove = {.count = 99};
    runnel_problems problems = {0};
    runnel_status status =
        grooves[_i].holds ? runnel_finger_holds_parse(grooves[_i].text, &problems, NULL, &groove)
                          : runnel_juice_groove_parse(grooves[_i].text, &problems, NULL, &groove);
    ck_assert_int_eq(status, grooves[_i].status);
    ck_assert_uint_eq(groove.count, 99);
    ck_assert_uint_eq(problems.count, 1);
    runnel_problems_clear(&problems);
}
END_TEST

static const struct {
    const char *text;
    runnel_wax_recipe recipe;
} recipes[] = {
    {"4:1 by weight", {4, RUNNEL_BASIS_WEIGHT, 1, RUNNEL_BASIS_WEIGHT, 0, 0}},
    {"4 : 1 by volume", {4, RUNNEL_BASIS_VOLUME, 1, RUNNEL_BASIS_VOLUME, 0, 0}},
    {"5 ml : 1 g", {5, RUNNEL_BASIS_VOLUME, 1, RUNNEL_BASIS_WEIGHT, 0, 0}},
    {"1:1 by weight", {1, RUNNEL_BASIS_WEIGHT, 1, RUNNEL_BASIS_WEIGHT, 0, 0}},
    {"10 g : 40 g", {10, RUNNEL_BASIS_WEIGHT, 40, RUNNEL_BASIS_WEIGHT, 0, 0}}, /* meant so */
    {"1 lb:100 ml", {453.59237, RUNNEL_BASIS_WEIGHT, 100, RUNNEL_BASIS_VOLUME, 0, 0}},
};

START_TEST(recipe_taken) {
    runnel_wax_recipe recipe = {.oil = 99};
    const runnel_wax_recipe *wanted = &recipes[_i].recipe;
    ck_assert_int_eq(runnel_recipe_parse(recipes[_i].text, NULL, NULL, &recipe), RUNNEL_OK);
    ck_near(recipe.oil, wanted->oil, 2 * DBL_EPSILON);
    ck_near(recipe.wax, wanted->wax, 2 * DBL_EPSILON);
    ck_assert_int_eq(recipe.oil_by, wanted->oil_by);
    ck_assert_int_eq(recipe.wax_by, wanted->wax_by);
}
END_TEST

START_TEST(recipe_refused) {
    static const char *const texts[] = {"4:1", "4 to 1",        "0 ml : 1 g",      "5 ml : 1 mm",
                                        "",    "1:4 by weight", "99:100 by volume"};
    for (size_t i = 0; i < COUNT(texts); i++) {
        runnel_wax_recipe recipe = {.oil = 99};
        runnel_problems problems = {0};
        ck_assert_int_ne(runnel_recipe_parse(texts[i], &problems, NULL, &recipe), RUNNEL_OK);
        ck_assert_double_eq(recipe.oil, 99);
        ck_assert_uint_eq(problems.count, 1);
        runnel_problems_clear(&problems);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("forms of oil and wax");
    TCase *forms = tcase_create("forms");
    tcase_add_test(forms, words);
    tcase_add_test(forms, grooves_taken);
    tcase_add_loop_test(forms, grooves_refused, 0, COUNT(grooves));
    tcase_add_loop_test(forms, recipe_taken, 0, COUNT(recipes));
    tcase_add_test(forms, recipe_refused);
    suite_add_tcase(suite, forms);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
