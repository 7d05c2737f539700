/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Calendars: read back by libical, and looked at byte by byte for what RFC 5545 asks of a file. */
#include "compare.h"
#include "runnel/calendar.h"

#include <libical/ical.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static const runnel_date stamp = {2026, 11, 25};
static char written[60000];

/* What is written for some events, in `written`. */
static runnel_status write_events(const runnel_event *events, size_t count, size_t revision) {
    FILE *file = tmpfile();
    ck_assert_ptr_nonnull(file);
    const runnel_calendar calendar = {"care", stamp, revision, events, count};
    runnel_status status = runnel_write_ics(&calendar, file);
    rewind(file);
    size_t length = fread(written, 1, sizeof written - 1, file);
    ck_assert(feof(file));
    written[length] = '\0';
    fclose(file);
    return status;
}

static icalcomponent *read_back(void) {
    icalcomponent *root = icalparser_parse_string(written);
    ck_assert_ptr_nonnull(root);
    ck_assert_int_eq(icalcomponent_count_errors(root), 0);
    ck_assert(icalrestriction_check(root));
    ck_assert_int_eq(icalcomponent_count_errors(root), 0);
    return root;
}

static const runnel_event oil = {.seed = "board/steady",
                                 .summary = "Oil the board",
                                 .description = "6.9 ml; wipe dry, and wait.\nDone.",
                                 .start = {2028, 2, 29},
                                 .every_days = 28,
                                 .count = 3};

static void ck_time(struct icaltimetype time, const char *wanted) {
    char *text = icaltime_as_ical_string_r(time);
    ck_assert_str_eq(text, wanted);
    icalmemory_free_buffer(text);
}

START_TEST(whole_days_are_read_back) {
    ck_assert_int_eq(write_events(&oil, 1, 2), RUNNEL_OK);
    icalcomponent *root = read_back();
    icalcomponent *event = icalcomponent_get_first_component(root, ICAL_VEVENT_COMPONENT);
    ck_assert_str_eq(icalcomponent_get_summary(event), "Oil the board");
    ck_assert_str_eq(icalcomponent_get_description(event), "6.9 ml; wipe dry, and wait.\nDone.");
    ck_assert_int_eq(icalcomponent_get_sequence(event), 2);
    ck_time(icalcomponent_get_dtstart(event), "20280229");
    ck_time(icalcomponent_get_dtend(event), "20280301"); /* 29 February is a day of its own */
    ck_time(icalcomponent_get_dtstamp(event), "20261125T000000Z");
    icalproperty *rule = icalcomponent_get_first_property(event, ICAL_RRULE_PROPERTY);
    struct icalrecurrencetype every = icalproperty_get_rrule(rule);
    icalrecur_iterator *dates = icalrecur_iterator_new(every, icalcomponent_get_dtstart(event));
    /* 28 and 56 days later, by hand */
    ck_time(icalrecur_iterator_next(dates), "20280229");
    ck_time(icalrecur_iterator_next(dates), "20280328");
    ck_time(icalrecur_iterator_next(dates), "20280425");
    ck_assert(icaltime_is_null_time(icalrecur_iterator_next(dates)));
    icalrecur_iterator_free(dates);
    icalcomponent_free(root);
}
END_TEST

START_TEST(rules_by_days_and_weeks) {
    static const struct {
        int every_days;
        size_t count;
        const char *rule; /* NULL = none */
    } rows[] = {{0, 0, NULL},
                {28, 1, NULL},
                {28, 0, "RRULE:FREQ=WEEKLY;INTERVAL=4\r\n"},
                {7, 4, "RRULE:FREQ=WEEKLY;COUNT=4"},
                {3, 4, "RRULE:FREQ=DAILY;COUNT=4;INTERVAL=3\r\n"},
                {364, 0, "RRULE:FREQ=WEEKLY;INTERVAL=52\r\n"}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_event event = oil;
        event.every_days = rows[i].every_days;
        event.count = rows[i].count;
        ck_assert_int_eq(write_events(&event, 1, 0), RUNNEL_OK);
        ck_assert_msg(rows[i].rule ? strstr(written, rows[i].rule) != NULL
                                   : strstr(written, "RRULE") == NULL,
                      "%zu: %s", i, written);
        icalcomponent_free(read_back());
    }
}
END_TEST

START_TEST(hours_by_the_clock_on_the_wall) {
    runnel_event event = {.seed = "pour",
                          .summary = "Pour",
                          .start = {2026, 12, 31},
                          .is_timed = true,
                          .start_min = 22 * 60 + 30,
                          .length_min = 150};
    ck_assert_int_eq(write_events(&event, 1, 0), RUNNEL_OK);
    icalcomponent *root = read_back();
    icalcomponent *read = icalcomponent_get_first_component(root, ICAL_VEVENT_COMPONENT);
    /* No time zone and no Z: floating. Over midnight and the end of the year. */
    ck_time(icalcomponent_get_dtstart(read), "20261231T223000");
    ck_time(icalcomponent_get_dtend(read), "20270101T010000");
    ck_assert(strstr(written, "DTSTART:20261231T223000\r\n") != NULL);
    ck_assert(strstr(written, "TRANSP") == NULL);
    ck_assert_ptr_null(icalcomponent_get_first_property(read, ICAL_DESCRIPTION_PROPERTY));
    icalcomponent_free(root);
}
END_TEST

/* RFC 5545: lines end with CRLF (3.1), hold 75 octets at most, and here no character is cut. */
static void ck_lines(void) {
    size_t lines = 0;
    for (const char *line = written; *line; lines++) {
        const char *end = strstr(line, "\r\n");
        ck_assert_ptr_nonnull(end);
        ck_assert_msg(end - line <= 75, "%.*s", (int)(end - line), line);
        ck_assert_ptr_null(memchr(line, '\n', (size_t)(end - line)));
        ck_assert_int_ne((unsigned char)line[0] & 0xC0, 0x80);
        ck_assert(line[0] != ' ' || ((unsigned char)line[1] & 0xC0) != 0x80);
        line = end + 2;
    }
    ck_assert_uint_gt(lines, 10);
}

START_TEST(long_lines_are_folded) {
    char text[2000] = "";
    size_t used = 0;
    for (int i = 0; i < 150; i++) /* characters of one to four bytes */
        used += (size_t)snprintf(text + used, sizeof text - used, "%s",
                                 i % 3 ? "\xC3\xA9" : "x\xF0\x9F\x8C\xB3");
    for (size_t shift = 0; shift < 8; shift++) {
        runnel_event event = oil;
        event.description = text;
        event.summary = &"sixteen letters."[shift];
        ck_assert_int_eq(write_events(&event, 1, 0), RUNNEL_OK);
        ck_lines();
        icalcomponent *root = read_back();
        icalcomponent *read = icalcomponent_get_first_component(root, ICAL_VEVENT_COMPONENT);
        ck_assert_str_eq(icalcomponent_get_description(read), text);
        icalcomponent_free(root);
    }
}
END_TEST

START_TEST(texts_that_could_break_out) {
    runnel_event event = oil;
    event.summary = "a;b,c\\d\r\nEND:VCALENDAR\x01 \xFF\xC3 e";
    event.description = "BEGIN:VEVENT\nUID:1\n";
    ck_assert_int_eq(write_events(&event, 1, 0), RUNNEL_OK);
    ck_lines();
    icalcomponent *root = read_back();
    ck_assert_int_eq(icalcomponent_count_components(root, ICAL_VEVENT_COMPONENT), 1);
    icalcomponent *read = icalcomponent_get_first_component(root, ICAL_VEVENT_COMPONENT);
    ck_assert_str_eq(icalcomponent_get_summary(read), "a;b,c\\d \nEND:VCALENDAR  ?? e");
    ck_assert_str_eq(icalcomponent_get_description(read), "BEGIN:VEVENT\nUID:1\n");
    icalcomponent_free(root);
}
END_TEST

START_TEST(uids_stay) {
    char one[RUNNEL_UID_SIZE], other[RUNNEL_UID_SIZE];
    runnel_event events[] = {oil, oil};
    events[1].seed = "board/first";
    ck_assert_int_eq(write_events(events, 2, 0), RUNNEL_OK);
    icalcomponent *root = read_back();
    icalcomponent *first = icalcomponent_get_first_component(root, ICAL_VEVENT_COMPONENT);
    runnel_event_uid("board/steady", one, sizeof one);
    runnel_event_uid("board/first", other, sizeof other);
    ck_assert_str_eq(icalcomponent_get_uid(first), one);
    ck_assert_str_ne(one, other);
    icalcomponent_free(root);
    /* Published values of FNV-1a, 64 bits: "" is its offset, "a" is af63dc4c8601ec8c. */
    ck_assert_int_eq(strncmp(runnel_event_uid("", one, sizeof one), "cbf29ce484222325", 16), 0);
    ck_assert_int_eq(strncmp(runnel_event_uid("a", one, sizeof one), "af63dc4c8601ec8c", 16), 0);
    ck_assert_uint_eq(strlen(one), 39);
    /* another date, text and revision: the same UID */
    events[0].start = (runnel_date){2030, 1, 1};
    events[0].summary = "else";
    ck_assert_int_eq(write_events(events, 1, 7), RUNNEL_OK);
    ck_assert(strstr(written, runnel_event_uid("board/steady", one, sizeof one)) != NULL);
}
END_TEST

START_TEST(refusals) {
    runnel_event bad[16];
    for (size_t i = 0; i < COUNT(bad); i++)
        bad[i] = oil;
    bad[0].start.month = 13;
    bad[1].days = -1;
    bad[2].every_days = -1;
    bad[3].every_days = RUNNEL_CALENDAR_MOST + 1;
    bad[4].count = RUNNEL_CALENDAR_MOST + 1;
    bad[5].start = (runnel_date){9999, 12, 31};
    bad[6].start = (runnel_date){9999, 11, 30};
    for (size_t i = 7; i < 12; i++) {
        bad[i].is_timed = true;
        bad[i].length_min = 30;
    }
    bad[7].start_min = -1;
    bad[8].start_min = 1440;
    bad[9].length_min = 0;
    bad[10].length_min = RUNNEL_CALENDAR_MOST + 1;
    bad[11].start = (runnel_date){2025, 2, 29};
    bad[12].seed = NULL;
    bad[13].seed = "";
    bad[14].summary = NULL;
    bad[15].summary = "";
    for (size_t i = 0; i < COUNT(bad); i++) {
        runnel_status wanted = i < 12 ? RUNNEL_E_RANGE : RUNNEL_E_MISSING;
        ck_assert_msg(write_events(&bad[i], 1, 0) == wanted, "%zu", i);
        ck_assert_str_eq(written, "");
    }
    const runnel_event twins[] = {oil, oil};
    ck_assert_int_eq(write_events(twins, 2, 0), RUNNEL_E_CONFLICT);
    ck_assert_int_eq(write_events(twins, 1, RUNNEL_CALENDAR_MOST + 1), RUNNEL_E_RANGE);
    const runnel_calendar never = {NULL, {0, 0, 0}, 0, &oil, 1};
    ck_assert_int_eq(runnel_write_ics(&never, stderr), RUNNEL_E_RANGE);
    FILE *full = fopen("/dev/full", "w");
    ck_assert_ptr_nonnull(full);
    const runnel_calendar calendar = {NULL, stamp, 0, &oil, 1};
    ck_assert_int_eq(runnel_write_ics(&calendar, full), RUNNEL_E_IO);
    fclose(full);
}
END_TEST

START_TEST(the_frame_of_a_file) {
    ck_assert_int_eq(write_events(NULL, 0, 0), RUNNEL_OK);
    ck_assert_int_eq(strncmp(written, "BEGIN:VCALENDAR\r\nVERSION:2.0\r\n", 30), 0);
    ck_assert(strstr(written, "\r\nX-WR-CALNAME:care\r\n") != NULL);
    ck_assert_str_eq(written + strlen(written) - 15, "END:VCALENDAR\r\n");
}
END_TEST

int main(void) {
    Suite *suite = suite_create("ics");
    TCase *cases = tcase_create("ics");
    tcase_add_test(cases, whole_days_are_read_back);
    tcase_add_test(cases, rules_by_days_and_weeks);
    tcase_add_test(cases, hours_by_the_clock_on_the_wall);
    tcase_add_test(cases, long_lines_are_folded);
    tcase_add_test(cases, texts_that_could_break_out);
    tcase_add_test(cases, uids_stay);
    tcase_add_test(cases, refusals);
    tcase_add_test(cases, the_frame_of_a_file);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
