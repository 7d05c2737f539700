/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/date.h"

#include "base/civil.h"
#include "base/slice.h"

#include <stdio.h>

enum { FIRST_YEAR = 1, LAST_YEAR = 9999, WEEK = 7, THURSDAY = 4 };

bool runnel_date_is_valid(runnel_date date) {
    return date.year >= FIRST_YEAR && date.year <= LAST_YEAR &&
           runnel_civil_is_valid(date.year, date.month, date.day);
}

static int64_t days_of(runnel_date date) {
    return runnel_days_from_civil(date.year, date.month, date.day);
}

/* So many digits, and the mark behind them unless that is 0. */
static bool take_digits(runnel_slice *text, int count, char mark, int *value) {
    *value = 0;
    for (int i = 0; i < count; i++, text->at++) {
        if (text->at == text->end || *text->at < '0' || *text->at > '9')
            return false;
        *value = 10 * *value + (*text->at - '0');
    }
    if (!mark)
        return text->at == text->end;
    if (text->at == text->end || *text->at != mark)
        return false;
    text->at++;
    return true;
}

runnel_status runnel_date_parse(const char *text, runnel_problems *problems,
                                const runnel_place *place, runnel_date *date) {
    char shown[RUNNEL_SHOWN_SIZE];
    runnel_date found;
    runnel_slice rest = runnel_slice_trim(runnel_slice_of(text));
    if (!take_digits(&rest, 4, '-', &found.year) || !take_digits(&rest, 2, '-', &found.month) ||
        !take_digits(&rest, 2, 0, &found.day))
        return runnel_problems_add(problems, RUNNEL_E_SYNTAX, place,
                                   "'%s' is no date; write year, month and day like '2026-12-24'",
                                   runnel_slice_show(runnel_slice_of(text), shown));
    if (!runnel_date_is_valid(found))
        return runnel_problems_add(problems, RUNNEL_E_RANGE, place,
                                   "there is no day '%s' in the calendar",
                                   runnel_slice_show(runnel_slice_of(text), shown));
    *date = found;
    return RUNNEL_OK;
}

int64_t runnel_date_days_between(runnel_date from, runnel_date to) {
    return days_of(to) - days_of(from);
}

runnel_status runnel_date_add_days(runnel_date date, int64_t days, runnel_date *later) {
    static const runnel_date first = {FIRST_YEAR, 1, 1}, last = {LAST_YEAR, 12, 31};
    if (!runnel_date_is_valid(date))
        return RUNNEL_E_RANGE;
    int64_t start = days_of(date);
    if (days < days_of(first) - start || days > days_of(last) - start)
        return RUNNEL_E_RANGE;
    runnel_civil_from_days(start + days, &later->year, &later->month, &later->day);
    return RUNNEL_OK;
}

/* 1970-01-01 was a Thursday. */
int runnel_date_weekday(runnel_date date) {
    int64_t since_monday = (days_of(date) + THURSDAY - 1) % WEEK;
    return (int)(since_monday < 0 ? since_monday + WEEK : since_monday) + 1;
}

const char *runnel_weekday_text(int weekday) {
    static const char *const names[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                        "Friday", "Saturday", "Sunday"};
    return weekday >= 1 && weekday <= WEEK ? names[weekday - 1] : "?";
}

char *runnel_date_text(runnel_date date, char *buffer, size_t size) {
    snprintf(buffer, size, "%04d-%02d-%02d", date.year, date.month, date.day);
    return buffer;
}

char *runnel_date_words(runnel_date date, char *buffer, size_t size) {
    static const char *const months[] = {"January",   "February", "March",    "April",
                                         "May",       "June",     "July",     "August",
                                         "September", "October",  "November", "December"};
    const char *month = date.month >= 1 && date.month <= 12 ? months[date.month - 1] : "?";
    snprintf(buffer, size, "%s, %d %s %d", runnel_weekday_text(runnel_date_weekday(date)), date.day,
             month, date.year);
    return buffer;
}
