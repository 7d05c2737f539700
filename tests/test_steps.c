/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order of steps: what wax, oil and sealer do to what comes after them. Common practice. */
#include "compare.h"
#include "failing.h"
#include "runnel/steps.h"

#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))
#define S(step)     RUNNEL_STEP_##step

/* An order with one fault; no code where nothing is wrong. */
static const struct {
    runnel_step steps[8];
    size_t count;
    const char *code;
    size_t earlier, later;
    bool is_wrong;
    const char *says;
} orders[] = {
    {{S(CARVE), S(SEAL), S(MIX), S(POUR), S(LEVEL), S(SAND), S(OIL), S(WAX)}, 8, NULL, 0, 0, 0, ""},
    {{S(CARVE), S(SEAL), S(POUR), S(SAND), S(RAISE_GRAIN), S(OIL_DRYING), S(WAX), S(FOOD)},
     8,
     NULL,
     0,
     0,
     0,
     ""},
    {{S(POUR), S(LEVEL), S(CARVE), S(SEAL), S(POUR), S(LEVEL)}, 6, NULL, 0, 0, 0, ""},
    {{S(SEAL), S(SEAL), S(OIL), S(OIL)}, 4, NULL, 0, 0, 0, ""},
    {{S(OIL), S(SAND), S(POUR)}, 0, NULL, 0, 0, 0, ""},
    {{S(CARVE), S(OIL), S(POUR)}, 3, "oil-before-resin", 1, 2, true, "does not hold on oiled"},
    {{S(OIL_DRYING), S(MIX), S(POUR)}, 3, "oil-before-resin", 0, 2, true, "sanding does not get"},
    {{S(CARVE), S(WAX), S(POUR)}, 3, "wax-before-resin", 1, 2, true, "Wax comes last"},
    {{S(SEAL_WAXY), S(POUR)}, 2, "waxy-sealer", 0, 1, true, "dewaxed shellac"},
    {{S(RELEASE_WAX), S(POUR)}, 2, "release-wax", 0, 1, false, "not get into the cavities"},
    {{S(RELEASE_WAX), S(LEVEL), S(OIL)}, 3, "release-wax-left", 0, 2, true, "Sand to bare wood"},
    {{S(RELEASE_WAX), S(WAX)}, 2, "release-wax-left", 0, 1, true, "Sand to bare wood"},
    {{S(RELEASE_WAX), S(SAND), S(OIL)}, 3, NULL, 0, 0, 0, ""},
    {{S(OIL), S(SEAL)}, 2, "sealer-over-oil", 0, 1, true, "Seal the bare wood"},
    {{S(RELEASE_WAX), S(SEAL)}, 2, "sealer-over-oil", 0, 1, true, "Seal the bare wood"},
    {{S(WAX), S(SEAL_WAXY)}, 2, "sealer-over-oil", 0, 1, true, "Seal the bare wood"},
    {{S(WAX), S(OIL)}, 2, "wax-before-oil", 0, 1, true, "Wax closes the grain"},
    {{S(OIL), S(WAX), S(OIL_DRYING), S(CARVE)}, 2, NULL, 0, 0, 0, ""},
    {{S(OIL), S(OIL_DRYING)}, 2, "drying-over-wet-oil", 0, 1, true, "one kind for the board"},
    {{S(OIL_DRYING), S(OIL)}, 2, NULL, 0, 0, 0, ""},
    {{S(OIL), S(OIL), S(SAND)}, 3, "sand-after-oil", 1, 2, false, "clogs the paper"},
    {{S(WAX), S(LEVEL)}, 2, "sand-after-oil", 0, 1, false, "last grit first"},
    {{S(OIL), S(RAISE_GRAIN)}, 2, "grain-after-oil", 0, 1, false, "before the oil"},
    {{S(RAISE_GRAIN), S(LEVEL)}, 2, "grain-before-level", 0, 1, false, "Raise it after"},
};

START_TEST(one_order) {
    runnel_order_faults faults = {0};
    ck_assert_int_eq(runnel_order_check(orders[_i].steps, orders[_i].count, &faults), RUNNEL_OK);
    ck_assert_uint_eq(faults.count, orders[_i].code ? 1 : 0);
    if (faults.count) {
        const runnel_order_fault *fault = &faults.items[0];
        ck_assert_str_eq(fault->code, orders[_i].code);
        ck_assert_uint_eq(fault->earlier, orders[_i].earlier);
        ck_assert_uint_eq(fault->later, orders[_i].later);
        ck_assert_int_eq(fault->is_wrong, orders[_i].is_wrong);
        ck_assert_ptr_nonnull(strstr(fault->text, orders[_i].says));
        ck_assert_uint_gt(strlen(fault->source), 5);
    }
    runnel_order_faults_clear(&faults);
}
END_TEST

START_TEST(several_faults) {
    /* oil and wax, then resin: two; then sealer over the oil and wax */
    const runnel_step steps[] = {S(OIL), S(WAX), S(POUR), S(SEAL), S(POUR)};
    static const struct {
        const char *code;
        size_t earlier, later;
    } wanted[] = {{"oil-before-resin", 0, 2},
                  {"wax-before-resin", 1, 2},
                  {"sealer-over-oil", 1, 3},
                  {"oil-before-resin", 0, 4},
                  {"wax-before-resin", 1, 4}};
    runnel_order_faults faults = {0};
    for (int again = 0; again < 2; again++) { /* what was there is replaced */
        ck_assert_int_eq(runnel_order_check(steps, COUNT(steps), &faults), RUNNEL_OK);
        ck_assert_uint_eq(faults.count, COUNT(wanted));
        for (size_t i = 0; i < faults.count; i++) {
            ck_assert_str_eq(faults.items[i].code, wanted[i].code);
            ck_assert_uint_eq(faults.items[i].earlier, wanted[i].earlier);
            ck_assert_uint_eq(faults.items[i].later, wanted[i].later);
        }
    }
    ck_assert_int_eq(runnel_order_check(NULL, 0, &faults), RUNNEL_OK);
    ck_assert_uint_eq(faults.count, 0);
    runnel_order_faults_clear(&faults);
    runnel_order_faults_clear(NULL);
}
END_TEST

/* Steps that are in order stay so when some are left out, and one that spoils a pair still does
 * when harmless ones come between. */
START_TEST(leaving_out_and_putting_in) {
    static const runnel_step good[] = {S(CARVE), S(SEAL),        S(MIX),        S(POUR), S(LEVEL),
                                       S(SAND),  S(RAISE_GRAIN), S(OIL_DRYING), S(WAX),  S(FOOD)};
    runnel_order_faults faults = {0};
    for (unsigned set = 0; set < 1u << COUNT(good); set++) {
        runnel_step steps[COUNT(good)];
        size_t count = 0;
        for (size_t i = 0; i < COUNT(good); i++)
            if (set & 1u << i)
                steps[count++] = good[i];
        ck_assert_int_eq(runnel_order_check(steps, count, &faults), RUNNEL_OK);
        ck_assert_uint_eq(faults.count, 0);
    }
    static const runnel_step harmless[] = {S(CARVE), S(MIX), S(FOOD)};
    for (size_t i = 0; i < COUNT(orders); i++)
        for (size_t k = 0; k < COUNT(harmless) && orders[i].code; k++) {
            runnel_step steps[16];
            for (size_t n = 0; n < orders[i].count; n++) {
                steps[2 * n] = orders[i].steps[n];
                steps[2 * n + 1] = harmless[k];
            }
            ck_assert_int_eq(runnel_order_check(steps, 2 * orders[i].count, &faults), RUNNEL_OK);
            ck_assert_uint_ge(faults.count, 1);
            ck_assert_str_eq(faults.items[0].code, orders[i].code);
            ck_assert_uint_eq(faults.items[0].later, 2 * orders[i].later);
        }
    runnel_order_faults_clear(&faults);
}
END_TEST

START_TEST(refusals) {
    runnel_step bad[] = {S(OIL), S(POUR), RUNNEL_STEP_COUNT};
    runnel_order_faults faults = {0};
    ck_assert_int_eq(runnel_order_check(bad, 2, &faults), RUNNEL_OK);
    ck_assert_int_eq(runnel_order_check(bad, 3, &faults), RUNNEL_E_RANGE);
    bad[2] = (runnel_step)-1;
    ck_assert_int_eq(runnel_order_check(bad, 3, &faults), RUNNEL_E_RANGE);
    ck_assert_uint_eq(faults.count, 1);
    runnel_order_faults_clear(&faults);
    ck_assert_ptr_null(faults.items);
}
END_TEST

START_TEST(memory_runs_out) {
    runnel_step steps[60];
    for (size_t i = 0; i < COUNT(steps); i++)
        steps[i] = i % 2 ? S(POUR) : S(WAX);
    bool failed = true;
    for (size_t fail_at = 0; failed; fail_at++) {
        failing count = {.fail_at = fail_at};
        runnel_order_faults faults = {0};
        start_failing(&count);
        runnel_status status = runnel_order_check(steps, COUNT(steps), &faults);
        failed = count.calls > fail_at;
        ck_assert_int_eq(status, failed ? RUNNEL_E_NO_MEMORY : RUNNEL_OK);
        ck_assert_uint_eq(faults.count, failed ? 0 : 30);
        runnel_order_faults_clear(&faults);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
        ck_assert(failed || fail_at > 2);
    }
}
END_TEST

START_TEST(names_of_steps) {
    for (int i = 0; i < RUNNEL_STEP_COUNT; i++) {
        const char *name = runnel_step_text((runnel_step)i);
        ck_assert_uint_gt(strlen(name), 2);
        for (int k = 0; k < i; k++)
            ck_assert_str_ne(name, runnel_step_text((runnel_step)k));
    }
    ck_assert_str_eq(runnel_step_text(RUNNEL_STEP_SEAL), "seal");
    ck_assert_str_eq(runnel_step_text(RUNNEL_STEP_COUNT), "?");
    ck_assert_str_eq(runnel_step_text((runnel_step)-1), "?");
}
END_TEST

int main(void) {
    Suite *suite = suite_create("steps");
    TCase *cases = tcase_create("order");
    tcase_add_loop_test(cases, one_order, 0, (int)COUNT(orders));
    tcase_add_test(cases, several_faults);
    tcase_add_test(cases, leaving_out_and_putting_in);
    tcase_add_test(cases, refusals);
    tcase_add_test(cases, memory_runs_out);
    tcase_add_test(cases, names_of_steps);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
