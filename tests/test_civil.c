/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/civil.h"
#include "compare.h"

#include <stdlib.h>

START_TEST(known_days) {
    /* Counted by hand from the calendar; 2000-03-01 and 2038-01-19 are well known (the last day of
     * a count of 2^31 seconds: 2147483647 / 86400 = 24855.1). */
    static const struct {
        int year, month, day;
        int64_t days;
    } rows[] = {{1970, 1, 1, 0},       {1970, 1, 2, 1},
                {1969, 12, 31, -1},    {1970, 12, 31, 364},
                {1971, 1, 1, 365},     {1972, 2, 29, 789},
                {1972, 3, 1, 790},     {1969, 1, 1, -365},
                {1968, 12, 31, -366},  {1968, 2, 29, -672},
                {2000, 1, 1, 10957},   {2000, 2, 29, 11016},
                {2000, 3, 1, 11017},   {2038, 1, 19, 24855},
                {2026, 11, 25, 20782}, {1900, 3, 1, -25508},
                {1600, 1, 1, -135140}, {0, 3, 1, -719468},
                {0, 2, 29, -719469},   {-400, 3, 1, -719468 - 146097}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        int year = 99, month = 99, day = 99;
        ck_assert(runnel_civil_is_valid(rows[i].year, rows[i].month, rows[i].day));
        ck_assert_int_eq(runnel_days_from_civil(rows[i].year, rows[i].month, rows[i].day),
                         rows[i].days);
        runnel_civil_from_days(rows[i].days, &year, &month, &day);
        ck_assert_int_eq(year, rows[i].year);
        ck_assert_int_eq(month, rows[i].month);
        ck_assert_int_eq(day, rows[i].day);
    }
}
END_TEST

/* Lengths of months in a table of this test's own, leap years by the rule of 1582. */
static int length_of(int year, int month) {
    static const int length[13] = {0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    int leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    return length[month] + (month == 2 && leap);
}

START_TEST(walks_day_by_day) {
    int year = -401, month = 1, day = 1;
    int64_t days = runnel_days_from_civil(year, month, day);
    while (year < 2405) {
        int y = 0, m = 0, d = 0;
        runnel_civil_from_days(days, &y, &m, &d);
        if (y != year || m != month || d != day)
            ck_abort_msg("%d-%d-%d is shown as %d-%d-%d", year, month, day, y, m, d);
        if (runnel_days_from_civil(year, month, day) != days ||
            !runnel_civil_is_valid(year, month, day))
            ck_abort_msg("%d-%d-%d is counted wrongly", year, month, day);
        days++;
        if (++day > length_of(year, month)) {
            ck_assert(!runnel_civil_is_valid(year, month, day));
            day = 1;
            if (++month > 12) {
                month = 1;
                year++;
            }
        }
    }
    /* 2405-01-01 lies 2806 years after -401-01-01. */
    ck_assert_int_eq(year, 2405);
    ck_assert_int_eq(days, runnel_days_from_civil(2405, 1, 1));
}
END_TEST

START_TEST(refuses_days_that_are_none) {
    static const int wrong[][3] = {{2026, 0, 1},  {2026, 13, 1}, {2026, 1, 0},   {2026, 1, 32},
                                   {2026, 4, 31}, {2026, 2, 29}, {1900, 2, 29},  {2100, 2, 29},
                                   {2000, 2, 30}, {2024, 2, 30}, {2026, -1, 10}, {2026, 6, -3}};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
        ck_assert(!runnel_civil_is_valid(wrong[i][0], wrong[i][1], wrong[i][2]));
    ck_assert(runnel_civil_is_valid(2000, 2, 29));
    ck_assert(runnel_civil_is_valid(2024, 2, 29));
    ck_assert(runnel_civil_is_valid(0, 2, 29));
}
END_TEST

START_TEST(survives_any_count) {
    static const int64_t ends[] = {INT64_MIN, INT64_MIN + 1, INT64_MAX - 1, INT64_MAX};
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        int year, month, day;
        runnel_civil_from_days(ends[i], &year, &month, &day);
        ck_assert(runnel_civil_is_valid(year, month, day));
        ck_assert(ends[i] < 0 ? year < -2000000 : year > 2000000);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("civil");
    TCase *all = tcase_create("all");
    tcase_add_test(all, known_days);
    tcase_add_test(all, walks_day_by_day);
    tcase_add_test(all, refuses_days_that_are_none);
    tcase_add_test(all, survives_any_count);
    suite_add_tcase(suite, all);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
