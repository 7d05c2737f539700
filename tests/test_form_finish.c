/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "runnel/forms.h"

#include <float.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(table) (sizeof(table) / sizeof *(table))

/* lb 453.59237 g and US gallon 3.785411784 L, exact: 1 lb to the gallon is 119.82643 g/L. */
static const struct {
    const char *text;
    double lb_per_gal;
} cuts[] = {
    {"2 lb", 2},         {"2lb", 2},
    {"1 1/2 lb", 1.5},   {"2-lb cut", 2},
    {" 3  lb  cut ", 3}, {"1/2 pound", 0.5},
    {"2 lb/US gal", 2},  {"239.65285 g/L", 239.65285 * 3.785411784 / 453.59237},
};

START_TEST(cut_taken) {
    double cut = 99;
    ck_assert_int_eq(runnel_cut_parse(cuts[_i].text, NULL, NULL, &cut), RUNNEL_OK);
    ck_near(cut, cuts[_i].lb_per_gal, 4 * DBL_EPSILON);
}
END_TEST

static const struct {
    const char *text;
    runnel_status status;
} no_cuts[] = {
    {"", RUNNEL_E_SYNTAX},         {"2", RUNNEL_E_SYNTAX},
    {"lb", RUNNEL_E_SYNTAX},       {"2 kg", RUNNEL_E_SYNTAX},
    {"2,5 lb", RUNNEL_E_SYNTAX},   {"2 lb 3 lb", RUNNEL_E_SYNTAX},
    {"-2 lb", RUNNEL_E_RANGE},     {"0 lb", RUNNEL_E_RANGE},
    {"2 lb/gal", RUNNEL_E_SYNTAX}, {"\xC3\xA4 lb", RUNNEL_E_SYNTAX},
    {"two lb", RUNNEL_E_SYNTAX},
};

START_TEST(cut_refused) {
    double cut = 99;
    runnel_problems problems = {0};
    ck_assert_int_eq(runnel_cut_parse(no_cuts[_i].text, &problems, NULL, &cut), no_cuts[_i].status);
    ck_assert_double_eq(cut, 99);
    ck_assert_uint_eq(problems.count, 1);
    char quoted[40];
    snprintf(quoted, sizeof quoted, "'%s' is ", no_cuts[_i].text);
    ck_assert(!strncmp(problems.items[0].text, quoted, strlen(quoted)));
    runnel_problems_clear(&problems);
}
END_TEST

START_TEST(kinds_go_by_their_names) {
    runnel_sealer_kind kind = RUNNEL_SEALER_KINDS;
    ck_assert_int_eq(runnel_sealer_kind_parse(" Sanding  sealer", NULL, NULL, &kind), RUNNEL_OK);
    ck_assert_int_eq(kind, RUNNEL_SEALER_SANDING);
    for (int i = 0; i < RUNNEL_SEALER_KINDS; i++) {
        const char *name = runnel_sealer_kind_of((runnel_sealer_kind)i)->name;
        ck_assert_int_eq(runnel_sealer_kind_parse(name, NULL, NULL, &kind), RUNNEL_OK);
        ck_assert_int_eq(kind, i);
    }
    ck_assert_int_eq(runnel_sealer_kind_parse("tar", NULL, NULL, &kind), RUNNEL_E_UNKNOWN);
    ck_assert_int_eq(kind, RUNNEL_SEALER_KINDS - 1);
}
END_TEST

START_TEST(order_taken) {
    static const runnel_step wanted[] = {RUNNEL_STEP_CARVE, RUNNEL_STEP_SEAL_WAXY,
                                         RUNNEL_STEP_RELEASE_WAX, RUNNEL_STEP_POUR,
                                         RUNNEL_STEP_OIL_DRYING};
    runnel_order order = {.count = 99};
    ck_assert_int_eq(runnel_order_parse("carve, Seal with what holds wax ,wax the face against "
                                        "spills, pour,oil  with one that dries",
                                        NULL, NULL, &order),
                     RUNNEL_OK);
    ck_assert_uint_eq(order.count, 5);
    for (size_t i = 0; i < 5; i++)
        ck_assert_int_eq(order.steps[i], wanted[i]);
}
END_TEST

START_TEST(order_refused) {
    runnel_order order = {.count = 99};
    runnel_problems problems = {0};
    ck_assert_int_eq(runnel_order_parse("carve, pur, hammer, ", &problems, NULL, &order),
                     RUNNEL_E_UNKNOWN);
    ck_assert_uint_eq(problems.count, 3);
    ck_assert_str_eq(problems.items[0].text, "'pur' is no step; the nearest is 'pour'");
    ck_assert_uint_eq(order.count, 99);
    runnel_problems_clear(&problems);
    char many[6 * (RUNNEL_ORDER_MOST + 1) + 1] = "";
    for (size_t i = 0; i <= RUNNEL_ORDER_MOST; i++)
        memcpy(many + 6 * i, "pour, ", 7);
    many[6 * (RUNNEL_ORDER_MOST + 1) - 2] = '\0';
    ck_assert_int_eq(runnel_order_parse(many, &problems, NULL, &order), RUNNEL_E_RANGE);
    ck_assert_uint_eq(problems.count, 1);
    ck_assert_str_eq(problems.items[0].text, "an order may have 40 steps, not more");
    runnel_problems_clear(&problems);
    many[6 * RUNNEL_ORDER_MOST - 2] = '\0';
    ck_assert_int_eq(runnel_order_parse(many, &problems, NULL, &order), RUNNEL_OK);
    ck_assert_uint_eq(order.count, 40);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("forms of the finish");
    TCase *forms = tcase_create("forms");
    tcase_add_loop_test(forms, cut_taken, 0, COUNT(cuts));
    tcase_add_loop_test(forms, cut_refused, 0, COUNT(no_cuts));
    tcase_add_test(forms, kinds_go_by_their_names);
    tcase_add_test(forms, order_taken);
    tcase_add_test(forms, order_refused);
    suite_add_tcase(suite, forms);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
