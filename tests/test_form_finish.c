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

static const struct {
    const char *text;
    runnel_under_zero under;
} zeros[] = {
    {"wood", {RUNNEL_UNDER_NOTHING, 0, 0, 0}},
    {"0 mm", {RUNNEL_UNDER_NOTHING, 0, 0, 1}},
    {"Paper 2", {RUNNEL_UNDER_PAPER, 2, 0, 0}},
    {" tape  3 ", {RUNNEL_UNDER_TAPE, 3, 0, 0}},
    {"tape 3, 10 measure 1.3 mm", {RUNNEL_UNDER_TAPE, 3, 1.3, 10}},
    {"paper 1 ,100 measure 1 cm", {RUNNEL_UNDER_PAPER, 1, 10, 100}},
    {"0.3 mm", {RUNNEL_UNDER_MEASURED, 0, 0.3, 1}},
    {"12 thou", {RUNNEL_UNDER_MEASURED, 0, 0.3048, 1}},
};

START_TEST(zero_taken) {
    runnel_under_zero under = {.count = 99};
    const runnel_under_zero *wanted = &zeros[_i].under;
    ck_assert_int_eq(runnel_under_parse(zeros[_i].text, NULL, NULL, &under), RUNNEL_OK);
    ck_assert_int_eq(under.what, wanted->what);
    ck_assert_uint_eq(under.count, wanted->count);
    ck_near(under.stack_mm, wanted->stack_mm, DBL_EPSILON);
    ck_assert_uint_eq(under.stack_count, wanted->stack_count);
}
END_TEST

static const struct {
    const char *text;
    runnel_status status;
} no_zeros[] = {
    {"", RUNNEL_E_UNKNOWN},
    {"stone", RUNNEL_E_UNKNOWN},
    {"-1 mm", RUNNEL_E_UNKNOWN},
    {"paper", RUNNEL_E_SYNTAX},
    {"paper 0", RUNNEL_E_SYNTAX},
    {"paper 99999999999999999999", RUNNEL_E_SYNTAX},
    {"paper two", RUNNEL_E_SYNTAX},
    {"paper 2 mm", RUNNEL_E_SYNTAX},
    {"wood 1", RUNNEL_E_SYNTAX},
    {"tape 2, 10 measure", RUNNEL_E_SYNTAX},
    {"tape 2, 10", RUNNEL_E_SYNTAX},
    {"tape 2, 0 measure 1 mm", RUNNEL_E_SYNTAX},
    {"tape 2, 10 measure 0 mm", RUNNEL_E_SYNTAX},
    {"tape 2, 10 measure 1", RUNNEL_E_SYNTAX},
    {"0.3", RUNNEL_E_UNIT},
    {"101 mm", RUNNEL_E_RANGE},
};

START_TEST(zero_refused) {
    runnel_under_zero under = {.count = 99};
    runnel_problems problems = {0};
    ck_assert_int_eq(runnel_under_parse(no_zeros[_i].text, &problems, NULL, &under),
                     no_zeros[_i].status);
    ck_assert_uint_eq(under.count, 99);
    ck_assert_uint_eq(problems.count, 1);
    runnel_problems_clear(&problems);
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

START_TEST(grits_taken) {
    runnel_grits grits = {.count = 0};
    ck_assert_int_eq(runnel_grits_parse(" 12,80 , 120,5000 ", NULL, NULL, &grits), RUNNEL_OK);
    ck_assert_uint_eq(grits.count, 4);
    ck_assert_int_eq(grits.numbers[0], 12);
    ck_assert_int_eq(grits.numbers[2], 120);
    ck_assert_int_eq(grits.numbers[3], 5000);
}
END_TEST

static const struct {
    const char *text;
    runnel_status status;
} no_grits[] = {
    {"", RUNNEL_E_SYNTAX},         {"80,", RUNNEL_E_SYNTAX},
    {",80", RUNNEL_E_SYNTAX},      {"80 120", RUNNEL_E_SYNTAX},
    {"P80", RUNNEL_E_SYNTAX},      {"80.5", RUNNEL_E_SYNTAX},
    {"-80", RUNNEL_E_SYNTAX},      {"00080", RUNNEL_E_SYNTAX},
    {"11", RUNNEL_E_RANGE},        {"5001", RUNNEL_E_RANGE},
    {"80, 80", RUNNEL_E_CONFLICT}, {"120, 80", RUNNEL_E_CONFLICT},
    {"80; 120", RUNNEL_E_SYNTAX},  {"20,21,22,23,24,25,26,27,28,29,30,31,32", RUNNEL_E_RANGE},
};

START_TEST(grits_refused) {
    runnel_grits grits = {.count = 99};
    runnel_problems problems = {0};
    ck_assert_int_eq(runnel_grits_parse(no_grits[_i].text, &problems, NULL, &grits),
                     no_grits[_i].status);
    ck_assert_uint_eq(problems.count, 1);
    ck_assert_ptr_nonnull(strstr(problems.items[0].text, "such as '80, 120, 150'"));
    ck_assert_uint_eq(grits.count, 99);
    runnel_problems_clear(&problems);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("forms of the finish");
    TCase *forms = tcase_create("forms");
    tcase_add_loop_test(forms, cut_taken, 0, COUNT(cuts));
    tcase_add_loop_test(forms, cut_refused, 0, COUNT(no_cuts));
    tcase_add_test(forms, kinds_go_by_their_names);
    tcase_add_loop_test(forms, zero_taken, 0, COUNT(zeros));
    tcase_add_loop_test(forms, zero_refused, 0, COUNT(no_zeros));
    tcase_add_test(forms, order_taken);
    tcase_add_test(forms, order_refused);
    tcase_add_test(forms, grits_taken);
    tcase_add_loop_test(forms, grits_refused, 0, COUNT(no_grits));
    suite_add_tcase(suite, forms);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
