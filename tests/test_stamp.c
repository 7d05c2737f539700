/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "runnel/stamp.h"

#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

/* 2026-11-25 is day 20782 since 1970-01-01, counted by hand: 56 x 365 + 14 leap days + 328. */
static const double that_day = 20782.0 * 86400;

START_TEST(forms_that_are_read) {
    static const struct {
        const char *text;
        double of_day;
        bool has_offset;
        int offset_min;
    } rows[] = {
        {"2026-11-25T08:05", 8 * 3600 + 300, false, 0},
        {"2026-11-25 08:05", 8 * 3600 + 300, false, 0},
        {"  2026-11-25   08:05  ", 8 * 3600 + 300, false, 0},
        {"2026-11-25t08:05:30", 8 * 3600 + 330, false, 0},
        {"2026/11/25 8:05:30.25", 8 * 3600 + 330.25, false, 0},
        {"2026-11-25 08:05:30,5", 8 * 3600 + 330.5, false, 0},
        {"2026-11-25T08:05Z", 8 * 3600 + 300, true, 0},
        {"2026-11-25T08:05+01:00", 7 * 3600 + 300, true, 60},
        {"2026-11-25 08:05 +0100", 7 * 3600 + 300, true, 60},
        {"2026-11-25T08:05:00-03:30", 11 * 3600 + 35 * 60, true, -210},
        {"2026-11-25T08:05+01", 7 * 3600 + 300, true, 60},
        {"2026-11-25T00:05+14:00", 300 - 14 * 3600, true, 840},
        {"25.11.2026 08:05", 8 * 3600 + 300, false, 0},
        {"25.11.2026 23:59:59", 86399, false, 0},
        {"25/11/2026 08:05", 8 * 3600 + 300, false, 0},
        {"11/25/2026 08:05", 8 * 3600 + 300, false, 0},
        {"11-25-2026 8:05 pm", 20 * 3600 + 300, false, 0},
        {"11/25/2026 12:05 AM", 300, false, 0},
        {"11/25/2026 12:05PM Z", 12 * 3600 + 300, true, 0},
        {"2026-11-25 00:00", 0, false, 0},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_stamp stamp = {NAN, true, 99};
        ck_assert_msg(runnel_stamp_read(rows[i].text, RUNNEL_DAY_UNKNOWN, NULL, &stamp) ==
                          RUNNEL_STAMP_FINE,
                      "%s", rows[i].text);
        ck_near(stamp.seconds, that_day + rows[i].of_day, 0);
        ck_assert(stamp.has_offset == rows[i].has_offset);
        ck_assert_int_eq(stamp.offset_min, rows[i].offset_min);
    }
}
END_TEST

START_TEST(day_or_month_first) {
    runnel_stamp stamp;
    runnel_day_order shows = RUNNEL_DAY_FIRST;
    /* 3 April 2026 is day 20546, 4 March day 20516. */
    ck_assert_int_eq(runnel_stamp_read("03/04/2026 00:00", RUNNEL_DAY_UNKNOWN, &shows, &stamp),
                     RUNNEL_STAMP_AMBIGUOUS);
    ck_assert_int_eq(shows, RUNNEL_DAY_UNKNOWN);
    ck_assert_int_eq(runnel_stamp_read("03/04/2026 00:00", RUNNEL_DAY_FIRST, &shows, &stamp),
                     RUNNEL_STAMP_FINE);
    ck_near(stamp.seconds, 20546.0 * 86400, 0);
    ck_assert_int_eq(runnel_stamp_read("03/04/2026 00:00", RUNNEL_MONTH_FIRST, &shows, &stamp),
                     RUNNEL_STAMP_FINE);
    ck_near(stamp.seconds, 20516.0 * 86400, 0);
    /* With points the day is first, and the same number twice is clear. */
    ck_assert_int_eq(runnel_stamp_read("03.04.2026 00:00", RUNNEL_MONTH_FIRST, &shows, &stamp),
                     RUNNEL_STAMP_FINE);
    ck_near(stamp.seconds, 20546.0 * 86400, 0);
    ck_assert_int_eq(runnel_stamp_read("04/04/2026 00:00", RUNNEL_DAY_UNKNOWN, &shows, &stamp),
                     RUNNEL_STAMP_FINE);
    ck_near(stamp.seconds, 20547.0 * 86400, 0);
    ck_assert_int_eq(runnel_stamp_read("25/04/2026 00:00", RUNNEL_DAY_UNKNOWN, &shows, &stamp),
                     RUNNEL_STAMP_FINE);
    ck_assert_int_eq(shows, RUNNEL_DAY_FIRST);
    ck_assert_int_eq(runnel_stamp_read("04/25/2026 00:00", RUNNEL_DAY_UNKNOWN, &shows, &stamp),
                     RUNNEL_STAMP_FINE);
    ck_assert_int_eq(shows, RUNNEL_MONTH_FIRST);
    /* Against a known order there is no such month. */
    ck_assert_int_eq(runnel_stamp_read("04/25/2026 00:00", RUNNEL_DAY_FIRST, &shows, &stamp),
                     RUNNEL_STAMP_NO_DAY);
}
END_TEST

START_TEST(faults) {
    static const struct {
        const char *text;
        runnel_stamp_fault fault;
        const char *told;
    } rows[] = {
        {"", RUNNEL_STAMP_NONE, "is no time stamp"},
        {"yesterday", RUNNEL_STAMP_NONE, "is no time stamp"},
        {"2026-11-25x08:05", RUNNEL_STAMP_NONE, "is no time stamp"},
        {"2026-11", RUNNEL_STAMP_NONE, "is no time stamp"},
        {"2026-11/25 08:05", RUNNEL_STAMP_NONE, "is no time stamp"},
        {"20261125 08:05", RUNNEL_STAMP_NONE, "is no time stamp"},
        {"2026-11-25", RUNNEL_STAMP_NO_TIME, "a day without a time"},
        {"2026-11-25 ", RUNNEL_STAMP_NO_TIME, "a day without a time"},
        {"25.11.26 08:05", RUNNEL_STAMP_YEAR, "in four digits"},
        {"1899-12-31 08:05", RUNNEL_STAMP_YEAR, "1900 to 2199"},
        {"2200-01-01 08:05", RUNNEL_STAMP_YEAR, "1900 to 2199"},
        {"2026-02-29 08:05", RUNNEL_STAMP_NO_DAY, "no day of the calendar"},
        {"31.04.2026 08:05", RUNNEL_STAMP_NO_DAY, "no day of the calendar"},
        {"2026-13-01 08:05", RUNNEL_STAMP_NO_DAY, "no day of the calendar"},
        {"2026-11-25 24:00", RUNNEL_STAMP_CLOCK, "no time of day"},
        {"2026-11-25 08:60", RUNNEL_STAMP_CLOCK, "no time of day"},
        {"2026-11-25 08:05:60", RUNNEL_STAMP_CLOCK, "no time of day"},
        {"2026-11-25 08", RUNNEL_STAMP_CLOCK, "no time of day"},
        {"2026-11-25 8:5", RUNNEL_STAMP_CLOCK, "no time of day"},
        {"2026-11-25 13:05 pm", RUNNEL_STAMP_CLOCK, "no time of day"},
        {"2026-11-25 08:05 CET", RUNNEL_STAMP_OFFSET, "an offset such as '+01:00'"},
        {"2026-11-25 08:05+15:00", RUNNEL_STAMP_OFFSET, "an offset such as '+01:00'"},
        {"2026-11-25 08:05+1:00", RUNNEL_STAMP_OFFSET, "an offset such as '+01:00'"},
        {"2026-11-25 08:05+01:60", RUNNEL_STAMP_OFFSET, "an offset such as '+01:00'"},
        {"2026-11-25 08:05Z+", RUNNEL_STAMP_OFFSET, "an offset such as '+01:00'"},
        {"03/04/2026 08:05", RUNNEL_STAMP_AMBIGUOUS, "the day or the month comes first"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_stamp stamp = {-5, true, 7};
        runnel_problems problems;
        runnel_problems_init(&problems);
        ck_assert_msg(runnel_stamp_read(rows[i].text, RUNNEL_DAY_UNKNOWN, NULL, &stamp) ==
                          rows[i].fault,
                      "%s", rows[i].text);
        ck_assert_int_eq(runnel_stamp_parse(rows[i].text, &problems, NULL, &stamp),
                         RUNNEL_E_SYNTAX);
        ck_assert_uint_eq(problems.count, 1);
        ck_assert_msg(strstr(problems.items[0].text, rows[i].told) != NULL, "%s",
                      problems.items[0].text);
        ck_near(stamp.seconds, -5, 0);
        runnel_problems_clear(&problems);
    }
    ck_assert_str_eq(runnel_stamp_fault_text(RUNNEL_STAMP_FAULT_COUNT), "is no time stamp");
}
END_TEST

START_TEST(texts) {
    char buffer[RUNNEL_STAMP_SIZE];
    runnel_stamp stamp = {that_day + 8 * 3600 + 329, false, 0};
    ck_assert_str_eq(runnel_stamp_text(&stamp, buffer), "2026-11-25 08:05");
    stamp = (runnel_stamp){that_day - 40, false, 0};
    ck_assert_str_eq(runnel_stamp_text(&stamp, buffer), "2026-11-24 23:59");
    stamp = (runnel_stamp){that_day - 29, false, 0};
    ck_assert_str_eq(runnel_stamp_text(&stamp, buffer), "2026-11-25 00:00");
    stamp = (runnel_stamp){that_day, true, 90};
    ck_assert_str_eq(runnel_stamp_text(&stamp, buffer), "2026-11-25 01:30+01:30");
    stamp = (runnel_stamp){that_day, true, -210};
    ck_assert_str_eq(runnel_stamp_text(&stamp, buffer), "2026-11-24 20:30-03:30");
    stamp = (runnel_stamp){-1e15, true, -210};
    ck_assert_str_eq(runnel_stamp_text(&stamp, buffer), "not known");
    stamp = (runnel_stamp){NAN, false, 0};
    ck_assert_str_eq(runnel_stamp_text(&stamp, buffer), "not known");
}
END_TEST

int main(void) {
    Suite *suite = suite_create("stamp");
    TCase *all = tcase_create("all");
    tcase_add_test(all, forms_that_are_read);
    tcase_add_test(all, day_or_month_first);
    tcase_add_test(all, faults);
    tcase_add_test(all, texts);
    suite_add_tcase(suite, all);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
