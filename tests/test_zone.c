/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes of zones by the rules that their laws give, not by the database that is read. */
#include "compare.h"
#include "runnel/zone.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define HOUR 3600.0

static double days_to(int year, int month, int day) {
    return (double)runnel_date_days_between((runnel_date){1970, 1, 1},
                                            (runnel_date){year, month, day});
}

/** The number-th Sunday of a month (1 is the first), or the last for 0, in days since 1970. */
static double sunday(int year, int month, int number) {
    runnel_date day = {year, month, 1};
    runnel_date last = day;
    int found = 0;
    for (int i = 1; i <= 31; i++) {
        runnel_date at = {year, month, i};
        if (!runnel_date_is_valid(at) || runnel_date_weekday(at) != 7)
            continue;
        last = at;
        if (++found == number)
            break;
    }
    return days_to(last.year, last.month, last.day);
}

/** Reads a zone for the years 2024 to 2029. */
static void read_zone(const char *name, runnel_zone_changes *changes) {
    ck_assert_int_eq(runnel_zone_read(name, (runnel_date){2024, 1, 1}, (runnel_date){2030, 1, 1},
                                      NULL, NULL, changes),
                     RUNNEL_OK);
}

/* All zones of the European Union change at 01:00 UTC on the last Sundays of March and October
 * (Directive 2000/84/EC). */
START_TEST(european_union) {
    static const struct {
        const char *name;
        double winter_h;
    } zones[] = {{"Europe/Berlin", 1}, {"Europe/Lisbon", 0}, {"Europe/Helsinki", 2}};
    for (size_t i = 0; i < sizeof zones / sizeof *zones; i++) {
        runnel_zone_changes changes = {0};
        read_zone(zones[i].name, &changes);
        ck_assert_uint_eq(changes.count, 1 + 2 * 6);
        ck_assert(isinf(changes.items[0].from_s));
        ck_near(changes.items[0].offset_s, zones[i].winter_h * HOUR, 0);
        for (int year = 0; year < 6; year++) {
            const runnel_zone_change *spring = &changes.items[1 + 2 * year], *autumn = spring + 1;
            ck_near(spring->from_s, sunday(2024 + year, 3, 0) * 86400 + HOUR, 0);
            ck_near(spring->offset_s, (zones[i].winter_h + 1) * HOUR, 0);
            ck_near(autumn->from_s, sunday(2024 + year, 10, 0) * 86400 + HOUR, 0);
            ck_near(autumn->offset_s, zones[i].winter_h * HOUR, 0);
        }
        runnel_zone_changes_clear(&changes);
    }
}
END_TEST

/* In the United States at 2:00 by the wall's clock on the second Sunday of March and the first of
 * November (15 U.S.C. 260a); New York is 5 h behind UTC in winter. */
START_TEST(united_states) {
    runnel_zone_changes changes = {0};
    read_zone("America/New_York", &changes);
    ck_assert_uint_eq(changes.count, 1 + 2 * 6);
    for (int year = 0; year < 6; year++) {
        const runnel_zone_change *spring = &changes.items[1 + 2 * year], *autumn = spring + 1;
        ck_near(spring->from_s, sunday(2024 + year, 3, 2) * 86400 + 7 * HOUR, 0);
        ck_near(spring->offset_s, -4 * HOUR, 0);
        ck_near(autumn->from_s, sunday(2024 + year, 11, 1) * 86400 + 6 * HOUR, 0);
        ck_near(autumn->offset_s, -5 * HOUR, 0);
    }
    runnel_zone_changes_clear(&changes);
}
END_TEST

/* India keeps 5 h 30 min all year (India Standard Time). */
START_TEST(without_changes) {
    runnel_zone_changes changes = {0};
    read_zone("Asia/Kolkata", &changes);
    ck_assert_uint_eq(changes.count, 1);
    ck_near(changes.items[0].offset_s, 5.5 * HOUR, 0);
    runnel_zone_changes_clear(&changes);
    runnel_zone_changes_clear(NULL);
}
END_TEST

START_TEST(refused) {
    runnel_zone_changes changes = {0};
    runnel_problems problems;
    runnel_problems_init(&problems);
    const runnel_date from = {2026, 1, 1}, to = {2027, 1, 1};
    ck_assert_int_eq(runnel_zone_read("Europe/Berln", from, to, &problems, NULL, &changes),
                     RUNNEL_E_UNKNOWN);
    ck_assert_ptr_nonnull(strstr(problems.items[0].text, "'Europe/Berlin'"));
    ck_assert_int_eq(runnel_zone_read("", from, to, &problems, NULL, &changes), RUNNEL_E_UNKNOWN);
    ck_assert_int_eq(runnel_zone_read("../../etc/passwd", from, to, &problems, NULL, &changes),
                     RUNNEL_E_UNKNOWN);
    ck_assert_int_eq(runnel_zone_read("Europe/Berlin", (runnel_date){2026, 2, 30}, to, &problems,
                                      NULL, &changes),
                     RUNNEL_E_RANGE);
    ck_assert_uint_eq(changes.count, 0);
    runnel_problems_clear(&problems);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("zone");
    TCase *tests = tcase_create("zone");
    tcase_add_test(tests, european_union);
    tcase_add_test(tests, united_states);
    tcase_add_test(tests, without_changes);
    tcase_add_test(tests, refused);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
