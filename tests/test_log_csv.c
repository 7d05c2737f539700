/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "failing.h"
#include "runnel/log_csv.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

/* 2026-11-25 00:00 is day 20782 since 1970-01-01, counted by hand. */
static const double that_day = 20782.0 * 86400;

static runnel_problems problems;
static runnel_log log_read;

static void setup(void) {
    memset(&log_read, 0, sizeof log_read);
    runnel_problems_init(&problems);
}

static void teardown(void) {
    runnel_log_clear(&log_read);
    runnel_problems_clear(&problems);
}

static runnel_status parse(const char *text) {
    return runnel_log_parse(text, strlen(text), "shed.csv", &problems, &log_read);
}

static void reads(const char *text) {
    runnel_status status = parse(text);
    ck_assert_msg(status == RUNNEL_OK, "%s: %s", text,
                  problems.count ? problems.items[0].text : "no word");
    ck_assert_uint_eq(problems.count, 0);
}

START_TEST(plain_log) {
    reads("time,temperature [°C],humidity [%]\n"
          "2026-11-25 08:00,18.5,55\n"
          "2026-11-25T08:10:00,19,54.5\n"
          "2026-11-25 08:20,19.25,\n");
    ck_assert_uint_eq(log_read.count, 3);
    ck_near(log_read.readings[0].time_s, that_day + 8 * 3600, 0);
    ck_near(log_read.readings[1].time_s, that_day + 8 * 3600 + 600, 0);
    ck_near(log_read.readings[0].degc, 18.5, 0);
    ck_near(log_read.readings[2].degc, 19.25, 0);
    ck_near(log_read.readings[1].humidity, 0.545, 1e-15);
    ck_assert(isnan(log_read.readings[2].humidity));
    ck_assert(log_read.has_humidity);
    ck_assert(!log_read.first.has_offset);
    ck_near(log_read.step_s, 600, 0);
    ck_assert_uint_eq(log_read.gap_count, 0);
    ck_assert_uint_eq(log_read.repeated, 0);
    ck_assert_uint_eq(log_read.empty, 0);
}
END_TEST

START_TEST(other_forms) {
    /* Mark at the start, CRLF, title lines, semicolons with decimal commas, points in the date, a
     * number of the row and a dew point that nobody asked for. */
    reads("\xEF\xBB\xBF"
          "No.;Datum, Zeit / date;Temp (°C);Dew point (°C);rh (%)\r\n"
          "1;25.11.2026 08:00;18,5;9,2;101,5\r\n"
          "2;25.11.2026 09:00;-3,25;9,2;0\r\n");
    ck_near(log_read.readings[0].degc, 18.5, 0);
    ck_near(log_read.readings[1].degc, -3.25, 0);
    ck_near(log_read.readings[0].humidity, 1, 0); /* a sensor that shows a bit above 100 % */
    ck_near(log_read.readings[1].humidity, 0, 0);
    runnel_log_clear(&log_read);

    reads("Logger of the shed\nserial 12, channel 3\n\nDate,Time,Temperature °F\n"
          "11/25/2026,11:59 am,68\n11/25/2026,12:01 pm,50\n");
    ck_near(log_read.readings[0].degc, 20, 1e-15);
    ck_near(log_read.readings[1].degc, 10, 1e-15);
    ck_near(log_read.readings[1].time_s - log_read.readings[0].time_s, 120, 0);
    ck_assert(!log_read.has_humidity);
    runnel_log_clear(&log_read);

    /* Clocks set back an hour, told by the offset; and a column of temperature in degF. */
    reads("timestamp,temp [degF]\n2026-10-25T02:30+02:00,32\n2026-10-25T02:30+01:00,50\n");
    ck_near(log_read.readings[1].time_s - log_read.readings[0].time_s, 3600, 0);
    ck_near(log_read.readings[0].degc, 0, 0);
    ck_assert(log_read.first.has_offset);
    ck_assert_int_eq(log_read.first.offset_min, 120);
    runnel_log_clear(&log_read);

    /* The last stamp tells that the day comes first in all: 3 April 2026 is day 20546. */
    reads("time,temp [C]\n03/04/2026 08:00,1\n04/04/2026 08:00,1\n13/04/2026 08:00,1\n");
    ck_near(log_read.readings[0].time_s, 20546.0 * 86400 + 8 * 3600, 0);
    runnel_log_clear(&log_read);
    reads("time,temp [C]\n03/04/2026 08:00,1\n03/13/2026 08:00,1\n");
    ck_near(log_read.readings[0].time_s, 20516.0 * 86400 + 8 * 3600, 0); /* 4 March */
}
END_TEST

START_TEST(gaps_and_rows_left_out) {
    reads("time,temp [C]\n"
          "2026-11-25 08:00,20\n"
          "2026-11-25 08:10,20\n"
          "2026-11-25 08:10,20\n"
          "2026-11-25 08:20,\n"
          "2026-11-25 08:20,21\n"
          "2026-11-25 08:30,21\n"
          "2026-11-25 09:00,21\n"
          "2026-11-25 09:31,22\n"
          "2026-11-25 09:41,22\n");
    ck_assert_uint_eq(log_read.count, 7);
    ck_assert_uint_eq(log_read.repeated, 1);
    ck_assert_uint_eq(log_read.repeated_line, 4);
    ck_assert_uint_eq(log_read.empty, 1);
    ck_assert_uint_eq(log_read.empty_line, 5);
    ck_near(log_read.step_s, 600, 0);
    /* 30 min are three steps and no gap yet, 31 min are. */
    ck_assert_uint_eq(log_read.gap_count, 1);
    ck_assert_uint_eq(log_read.gaps[0].line, 9);
    ck_near(log_read.gaps[0].from_s, that_day + 9 * 3600, 0);
    ck_near(log_read.gaps[0].until_s, that_day + 9 * 3600 + 31 * 60, 0);
}
END_TEST

static const struct refused {
    const char *text;
    runnel_status status;
    size_t line, column;
    const char *told;
} refused[] = {
    {"", RUNNEL_E_MISSING, 1, 0, "no header line with a column of time and one of temperature"},
    {"2026-11-25 08:00,20\n2026-11-25 08:10,20\n", RUNNEL_E_MISSING, 1, 0, "no header line"},
    {"time,temp\n", RUNNEL_E_UNIT, 1, 6, "'temp' has no unit of temperature"},
    {"time,temperature [K]\n", RUNNEL_E_UNIT, 1, 6, "'temperature [K]' has no unit"},
    {"time,temp [C],rh\n", RUNNEL_E_UNIT, 1, 15, "'rh' has no unit; 'humidity [%]'"},
    {"time,temp [C],temp 2 [C]\n", RUNNEL_E_CONFLICT, 1, 15,
     "a second column of temperature, after 'temp [C]'"},
    {"time,temp [C]\n", RUNNEL_E_MISSING, 1, 0, "no reading below the header"},
    {"time,temp [C]\n2026-11-25 08:00,20\n", RUNNEL_E_MISSING, 1, 0, "a single reading"},
    {"time,temp [C]\nsoon,20\n2026-11-25 08:00,20\n", RUNNEL_E_SYNTAX, 2, 1,
     "'soon' is no time stamp"},
    {"time,temp [C]\n2026-11-25 08:00,warm\n", RUNNEL_E_SYNTAX, 2, 18, "'warm'"},
    {"time,temp [C]\n2026-11-25 08:00,151\n", RUNNEL_E_RANGE, 2, 18,
     "'151' is out of range: a temperature must be -60 °C to 150 °C"},
    {"time,temp [F]\n2026-11-25 08:00,-77\n", RUNNEL_E_RANGE, 2, 18, "'-77' is out of range"},
    {"time,temp [C],rh [%]\n2026-11-25 08:00,15,111\n", RUNNEL_E_RANGE, 2, 21,
     "'111' is out of range: a humidity must be 0 to 110 %"},
    {"time,temp [C],rh [%]\n2026-11-25 08:00,15,-1\n", RUNNEL_E_RANGE, 2, 21,
     "'-1' is out of range"},
    {"time,temp [C]\n2026-11-25 08:00,20\n2026-11-25 07:59,20\n", RUNNEL_E_CONFLICT, 3, 1,
     "'2026-11-25 07:59' is before the stamp on line 2"},
    {"time,temp [C]\n2026-11-25 08:00,20\n2026-11-25 08:00,21\n", RUNNEL_E_CONFLICT, 3, 1,
     "'2026-11-25 08:00' stands on line 2 as well, with another reading"},
    {"time,temp [C]\n03/04/2026 08:00,20\n05/04/2026 08:10,20\n", RUNNEL_E_SYNTAX, 2, 1,
     "'03/04/2026 08:00' does not tell whether the day or the month comes first"},
    {"time,temp [C]\n13/04/2026 08:00,20\n05/14/2026 08:10,20\n", RUNNEL_E_CONFLICT, 3, 0,
     "the day first on line 2 and the month first on line 3"},
    {"time,temp [C]\n2026-11-25 08:00,20\n2026-11-25 08:10Z,20\n", RUNNEL_E_CONFLICT, 3, 1,
     "'2026-11-25 08:10Z' has an offset from UTC, other than the stamp on line 2"},
    {"time,temp [C]\n2026-11-25 08:00Z,20\n2026-11-25 08:10,20\n", RUNNEL_E_CONFLICT, 3, 1,
     "has no offset from UTC"},
    {"time,temp [C]\n2026-11-25 08:00,2,5\n2026-11-25 08:10,\"2,5\"\n", RUNNEL_E_SYNTAX, 3, 18,
     "'2,5'"},
    {"time;temp [C]\n2026-11-25 08:00;1.002,5\n", RUNNEL_E_SYNTAX, 2, 18, "'1.002,5'"},
    {"time,temp [C]\n\"2026-11-25 08:00,20\n", RUNNEL_E_SYNTAX, 2, 1, "never closed"},
};

START_TEST(refusals) {
    const struct refused *row = &refused[_i];
    ck_assert_msg(parse(row->text) == row->status, "%s", row->text);
    ck_assert_uint_ge(problems.count, 1);
    ck_assert_msg(strstr(problems.items[0].text, row->told) != NULL, "%s: %s", row->text,
                  problems.items[0].text);
    ck_assert_str_eq(problems.items[0].file, "shed.csv");
    ck_assert_uint_eq(problems.items[0].line, row->line);
    ck_assert_uint_eq(problems.items[0].column, row->column);
    ck_assert(!log_read.readings && !log_read.gaps && !log_read.count);
}
END_TEST

START_TEST(every_problem_is_told) {
    ck_assert_int_eq(parse("time,temp [C],rh [%]\n"
                           "2026-11-31 08:00,hot,200\n"
                           "2026-11-25 08:10,20,50\n"
                           "2026-11-25 08:00,20,50\n"),
                     RUNNEL_E_SYNTAX);
    ck_assert_uint_eq(problems.count, 4);
    ck_assert_str_eq(problems.items[1].field, "temp [C]");
    ck_assert_uint_eq(problems.items[3].line, 4);
}
END_TEST

START_TEST(many_wrong_lines) {
    static char text[8192] = "time,temp [C]\n";
    size_t length = strlen(text);
    for (int i = 0; i < 500; i++)
        length += (size_t)snprintf(text + length, sizeof text - length, "never,20\n");
    ck_assert_int_eq(parse(text), RUNNEL_E_SYNTAX);
    ck_assert_uint_eq(problems.count, 101);
    ck_assert_str_eq(problems.items[100].text, "reading stops here: 100 lines with problems");
    ck_assert_uint_eq(problems.items[100].line, 101);
}
END_TEST

START_TEST(files) {
    char path[] = "/tmp/runnel_log_XXXXXX";
    const char text[] = "time,temp [C]\n2026-11-25 08:00,20\n2026-11-25 08:01,21\n";
    int descriptor = mkstemp(path);
    ck_assert_int_ge(descriptor, 0);
    ck_assert_int_eq(write(descriptor, text, strlen(text)), (int)strlen(text));
    close(descriptor);
    ck_assert_int_eq(runnel_log_read(path, &problems, &log_read), RUNNEL_OK);
    ck_assert_uint_eq(log_read.count, 2);
    unlink(path);
    runnel_log_clear(&log_read);
    ck_assert_int_eq(runnel_log_read(path, &problems, &log_read), RUNNEL_E_NOT_FOUND);
    ck_assert_uint_eq(problems.count, 1);
    runnel_log_clear(NULL);
}
END_TEST

START_TEST(memory_runs_out) {
    const char text[] = "time,temp [C],rh [%]\n2026-11-25 08:00,20,50\n2026-11-25 08:01,21,50\n"
                        "2026-11-25 08:02,21,50\n2026-11-25 10:01,21,50\n";
    bool done = false;
    for (size_t fail_at = 0; !done; fail_at++) {
        failing count = {.fail_at = fail_at, .for_good = fail_at % 2};
        runnel_log own = {0};
        start_failing(&count);
        runnel_status status = runnel_log_parse(text, strlen(text), "shed.csv", NULL, &own);
        done = count.calls <= fail_at;
        /* libcsv asks for less where its buffer cannot grow by as much, which may do. */
        bool may_do = done || !count.for_good;
        ck_assert(status == RUNNEL_E_NO_MEMORY || (may_do && status == RUNNEL_OK));
        ck_assert_uint_eq(own.count, status == RUNNEL_OK ? 4 : 0);
        ck_assert_uint_eq(own.gap_count, status == RUNNEL_OK ? 1 : 0);
        runnel_log_clear(&own);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
        ck_assert_uint_lt(fail_at, 200);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("log_csv");
    TCase *all = tcase_create("all");
    tcase_add_checked_fixture(all, setup, teardown);
    tcase_add_test(all, plain_log);
    tcase_add_test(all, other_forms);
    tcase_add_test(all, gaps_and_rows_left_out);
    tcase_add_loop_test(all, refusals, 0, (int)COUNT(refused));
    tcase_add_test(all, every_problem_is_told);
    tcase_add_test(all, many_wrong_lines);
    tcase_add_test(all, files);
    tcase_add_test(all, memory_runs_out);
    suite_add_tcase(suite, all);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? 1 : 0;
}
