/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Libraries that are loaded late, tried with the C library's own and with what there is not. */
#include "base/late.h"

#include <check.h>
#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#define CALLS(X)                                                                                   \
    X(abs)                                                                                         \
    X(cbrt)
RUNNEL_LATE(CALLS, "libc.so.6", "libm.so.6");

/* The cube root of 27 is 3; the two functions are in different libraries. */
START_TEST(each_function_is_found_in_its_library) {
    ck_assert(!lib.abs && !lib.cbrt);
    ck_assert_int_eq(runnel_late_load(&late), RUNNEL_OK);
    ck_assert_int_eq(lib.abs(-7), 7);
    ck_assert(fabs(lib.cbrt(27) - 3) < 1e-12);
}
END_TEST

START_TEST(what_is_loaded_is_looked_for_no_more) {
    ck_assert_int_eq(runnel_late_load(&late), RUNNEL_OK);
    late.files[0] = "librunnel-no-such-library.so.9";
    ck_assert_int_eq(runnel_late_load(&late), RUNNEL_OK);
    ck_assert_int_eq(lib.abs(-7), 7);
}
END_TEST

static runnel_status load_other(const char *file, const char *other, const char *name) {
    void *pointers[1] = {NULL};
    const char *const names[] = {name, NULL};
    runnel_late wanted = {{file, other}, names, pointers, false};
    runnel_status status = runnel_late_load(&wanted);
    ck_assert_int_eq(atomic_load(&wanted.loaded), status == RUNNEL_OK);
    ck_assert_int_eq(pointers[0] != NULL, status == RUNNEL_OK);
    return status;
}

START_TEST(what_is_not_there_is_told) {
    const char none[] = "librunnel-no-such-library.so.9";
    ck_assert_int_eq(load_other("libc.so.6", NULL, "abs"), RUNNEL_OK);
    ck_assert_int_eq(load_other(none, NULL, "abs"), RUNNEL_E_LIBRARY);
    ck_assert_int_eq(load_other("libc.so.6", none, "abs"), RUNNEL_E_LIBRARY);
    ck_assert_int_eq(load_other("libc.so.6", NULL, "runnel_no_such_function"), RUNNEL_E_LIBRARY);
    ck_assert_int_eq(runnel_status_exit(RUNNEL_E_LIBRARY), 5);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("late");
    TCase *cases = tcase_create("loading");
    tcase_add_test(cases, each_function_is_found_in_its_library);
    tcase_add_test(cases, what_is_loaded_is_looked_for_no_more);
    tcase_add_test(cases, what_is_not_there_is_told);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
