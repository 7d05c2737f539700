/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Days of the calendar: reading, writing, counting across the ends of months and years. */
#include "compare.h"
#include "runnel/date.h"

#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static runnel_date read(const char *text) {
    runnel_date date = {0, 0, 0};
    ck_assert_int_eq(runnel_date_parse(text, NULL, NULL, &date), RUNNEL_OK);
    return date;
}

START_TEST(dates_are_read_and_written) {
    char text[RUNNEL_DATE_SIZE];
    runnel_date date = read(" 2024-02-29 ");
    ck_assert_int_eq(date.year, 2024);
    ck_assert_int_eq(date.month, 2);
    ck_assert_int_eq(date.day, 29);
    ck_assert_str_eq(runnel_date_text(date, text, sizeof text), "2024-02-29");
    ck_assert_str_eq(runnel_date_text(read("0001-01-01"), text, sizeof text), "0001-01-01");
    ck_assert_str_eq(runnel_date_text(read("9999-12-31"), text, sizeof text), "9999-12-31");
    /* 29 February 2024 was a Thursday (printed calendar). */
    ck_assert_str_eq(runnel_date_words(date, text, sizeof text), "Thursday, 29 February 2024");
    /* the longest one */
    ck_assert_str_eq(runnel_date_words(read("2026-09-30"), text, sizeof text),
                     "Wednesday, 30 September 2026");
}
END_TEST

START_TEST(wrong_dates_are_told) {
    static const struct {
        const char *text;
        runnel_status status;
        const char *message;
    } rows[] = {{"", RUNNEL_E_SYNTAX, "'' is no date; write year, month and day like '2026-12-24'"},
                {"24.12.2026", RUNNEL_E_SYNTAX, "'24.12.2026' is no date"},
                {"12/24/2026", RUNNEL_E_SYNTAX, "'12/24/2026' is no date"},
                {"2026-12-4", RUNNEL_E_SYNTAX, "'2026-12-4' is no date"},
                {"2026-12-240", RUNNEL_E_SYNTAX, "'2026-12-240' is no date"},
                {"2026-12", RUNNEL_E_SYNTAX, "'2026-12' is no date"},
                {"2026-1a-04", RUNNEL_E_SYNTAX, "'2026-1a-04' is no date"},
                {"2026-12-24T10:00", RUNNEL_E_SYNTAX, "is no date"},
                {"+026-12-24", RUNNEL_E_SYNTAX, "is no date"},
                {"tomorrow", RUNNEL_E_SYNTAX, "'tomorrow' is no date"},
                {"2025-02-29", RUNNEL_E_RANGE, "there is no day '2025-02-29' in the calendar"},
                {"1900-02-29", RUNNEL_E_RANGE, "there is no day '1900-02-29'"},
                {"2026-04-31", RUNNEL_E_RANGE, "there is no day '2026-04-31'"},
                {"2026-13-01", RUNNEL_E_RANGE, "there is no day '2026-13-01'"},
                {"2026-00-01", RUNNEL_E_RANGE, "there is no day '2026-00-01'"},
                {"2026-01-00", RUNNEL_E_RANGE, "there is no day '2026-01-00'"},
                {"0000-01-01", RUNNEL_E_RANGE, "there is no day '0000-01-01'"}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_problems problems;
        runnel_problems_init(&problems);
        runnel_place place = {.file = "job.yaml", .line = 3, .column = 5, .field = "delivered"};
        runnel_date date = {7, 7, 7};
        ck_assert_int_eq(runnel_date_parse(rows[i].text, &problems, &place, &date), rows[i].status);
        ck_assert_uint_eq(problems.count, 1);
        ck_assert_msg(strstr(problems.items[0].text, rows[i].message) != NULL, "'%s': %s",
                      rows[i].text, problems.items[0].text);
        ck_assert_uint_eq(problems.items[0].line, 3);
        ck_assert_int_eq(date.year + date.month + date.day, 21);
        runnel_problems_clear(&problems);
    }
}
END_TEST

START_TEST(days_are_added) {
    static const struct {
        const char *from;
        int days;
        const char *to;
    } rows[] = {
        /* by hand, on a printed calendar */
        {"2024-02-28", 1, "2024-02-29"},   {"2024-02-28", 2, "2024-03-01"},
        {"2025-02-28", 1, "2025-03-01"},   {"2026-12-31", 1, "2027-01-01"},
        {"2026-01-31", 28, "2026-02-28"},  {"2027-12-25", 7, "2028-01-01"},
        {"2027-12-25", 366, "2028-12-25"}, /* over 29 February 2028 */
        {"2028-02-29", 365, "2029-02-28"}, {"2000-02-28", 1, "2000-02-29"}, /* divisible by 400 */
        {"2100-02-28", 1, "2100-03-01"},                                    /* by 100 only */
        {"2026-03-01", -1, "2026-02-28"},  {"2026-01-01", -365, "2025-01-01"},
        {"2026-11-25", 0, "2026-11-25"}};
    char text[RUNNEL_DATE_SIZE];
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_date to = {0, 0, 0};
        ck_assert_int_eq(runnel_date_add_days(read(rows[i].from), rows[i].days, &to), RUNNEL_OK);
        ck_assert_str_eq(runnel_date_text(to, text, sizeof text), rows[i].to);
        ck_assert_int_eq(runnel_date_days_between(read(rows[i].from), to), rows[i].days);
    }
    /* Four hundred years are 146097 days. */
    ck_assert_int_eq(runnel_date_days_between(read("1600-03-01"), read("2000-03-01")), 146097);
}
END_TEST

START_TEST(ends_of_the_calendar) {
    runnel_date to = {7, 7, 7}, never = {2025, 2, 29};
    ck_assert_int_eq(runnel_date_add_days(read("9999-12-31"), 1, &to), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_date_add_days(read("0001-01-01"), -1, &to), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_date_add_days(read("2026-01-01"), INT64_MAX, &to), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_date_add_days(read("2026-01-01"), INT64_MIN, &to), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_date_add_days(never, 1, &to), RUNNEL_E_RANGE);
    ck_assert_int_eq(to.year + to.month + to.day, 21);
    ck_assert(!runnel_date_is_valid((runnel_date){0, 0, 0}));
    ck_assert(!runnel_date_is_valid((runnel_date){10000, 1, 1}));
    ck_assert(runnel_date_is_valid((runnel_date){9999, 12, 31}));
}
END_TEST

START_TEST(days_of_the_week) {
    /* 4 July 1776 and 20 July 1969 as history books have them; 1 January 2000. */
    ck_assert_str_eq(runnel_weekday_text(runnel_date_weekday(read("1776-07-04"))), "Thursday");
    ck_assert_str_eq(runnel_weekday_text(runnel_date_weekday(read("1969-07-20"))), "Sunday");
    ck_assert_str_eq(runnel_weekday_text(runnel_date_weekday(read("2000-01-01"))), "Saturday");
    /* Seven in a row, Monday first. */
    runnel_date day = read("2026-12-28");
    for (int i = 1; i <= 7; i++) {
        ck_assert_int_eq(runnel_date_weekday(day), i);
        ck_assert_int_eq(runnel_date_add_days(day, 1, &day), RUNNEL_OK);
    }
    ck_assert_str_eq(runnel_weekday_text(0), "?");
    ck_assert_str_eq(runnel_weekday_text(8), "?");
}
END_TEST

int main(void) {
    Suite *suite = suite_create("date");
    TCase *cases = tcase_create("date");
    tcase_add_test(cases, dates_are_read_and_written);
    tcase_add_test(cases, wrong_dates_are_told);
    tcase_add_test(cases, days_are_added);
    tcase_add_test(cases, ends_of_the_calendar);
    tcase_add_test(cases, days_of_the_week);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
