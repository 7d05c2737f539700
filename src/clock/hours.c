/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Hours of a shop: from what is written to moments.
 */
#include "base/slice.h"
#include "clock/spans.h"
#include "runnel/units.h"

#include <math.h>
#include <string.h>

#define HOUR_S   3600.0
#define MINUTE_S 60.0
#define DAY_S    86400.0

/* ---- The clock on the wall ---------------------------------------------------------------------
 */

static double offset_at(const runnel_zone *zone, double moment_s) {
    double offset_s = 0;
    for (size_t i = 0; zone && i < zone->count; i++)
        if (zone->changes[i].from_s <= moment_s || i == 0)
            offset_s = zone->changes[i].offset_s;
    return offset_s;
}

double runnel_wall_of(const runnel_zone *zone, double moment_s) {
    return moment_s + offset_at(zone, moment_s);
}

double runnel_moment_of(const runnel_zone *zone, double wall_s) {
    for (size_t i = 0; zone && i < zone->count; i++) {
        double moment_s = wall_s - zone->changes[i].offset_s;
        double begin_s = i ? zone->changes[i].from_s : -INFINITY;
        double end_s = i + 1 < zone->count ? zone->changes[i + 1].from_s : INFINITY;
        if (moment_s < begin_s) /* the wall skips this time */
            return begin_s;
        if (moment_s < end_s)
            return moment_s;
    }
    return wall_s;
}

/* ---- Reading -----------------------------------------------------------------------------------
 */

/** Reading in progress. */
typedef struct reading {
    runnel_slice whole, rest;
    runnel_problems *problems;
    const runnel_place *place;
} reading;

static runnel_status refuse(const reading *r, runnel_status status, const char *what) {
    char shown[RUNNEL_SHOWN_SIZE];
    return runnel_problems_add(r->problems, status, r->place,
                               "'%s': %s; write hours like 'Mon-Fri 8:00-12:00 13:00-17:30, Sat "
                               "9:00-13:00'",
                               runnel_slice_show(r->whole, shown), what);
}

static bool take_mark(reading *r, uint32_t mark) {
    runnel_slice_skip_blanks(&r->rest);
    if (runnel_slice_peek(r->rest, NULL) != mark)
        return false;
    runnel_slice_step(&r->rest);
    runnel_slice_skip_blanks(&r->rest);
    return true;
}

static bool take_day(reading *r, size_t *day) {
    static const char *const names[7] = {"mon", "tue", "wed", "thu", "fri", "sat", "sun"};
    for (*day = 0; *day < 7; ++*day)
        if (runnel_slice_take_word(&r->rest, names[*day]))
            return true;
    return false;
}

static bool take_digits(reading *r, int *value) {
    int count = 0;
    for (*value = 0; r->rest.at < r->rest.end && *r->rest.at >= '0' && *r->rest.at <= '9';
         count++) {
        if (count == 2)
            return false;
        *value = 10 * *value + (*r->rest.at++ - '0');
    }
    return count > 0;
}

static bool take_time(reading *r, double *time_s) {
    int hour = 0, minute = 0;
    if (!take_digits(r, &hour) || r->rest.at == r->rest.end || *r->rest.at != ':')
        return false;
    r->rest.at++;
    if (!take_digits(r, &minute))
        return false;
    *time_s = minute < 60 ? hour * HOUR_S + minute * MINUTE_S : INFINITY;
    return true;
}

/** The spans after some days. */
static runnel_status take_spans(reading *r, runnel_day_hours *hours) {
    double from_s = 0, to_s = 0;
    *hours = (runnel_day_hours){.count = 0};
    while (runnel_slice_peek(r->rest, NULL) >= '0' && runnel_slice_peek(r->rest, NULL) <= '9') {
        if (!take_time(r, &from_s) || !take_mark(r, '-') || !take_time(r, &to_s))
            return refuse(r, RUNNEL_E_SYNTAX, "a time of day is not written as 8:00-17:30");
        if (!(from_s < to_s) || to_s > DAY_S)
            return refuse(r, RUNNEL_E_RANGE,
                          "hours run from an earlier to a later time, up to 24:00");
        if (hours->count == RUNNEL_HOURS_A_DAY)
            return refuse(r, RUNNEL_E_RANGE, "a day may have four spans of hours");
        if (hours->count && from_s < hours->spans[hours->count - 1].to_s)
            return refuse(r, RUNNEL_E_CONFLICT, "hours of a day overlap or are not in order");
        hours->spans[hours->count++] = (runnel_span){from_s, to_s};
        runnel_slice_skip_blanks(&r->rest);
    }
    return hours->count ? RUNNEL_OK : refuse(r, RUNNEL_E_SYNTAX, "a day has no hours");
}

static runnel_status take_part(reading *r, runnel_week *week) {
    runnel_day_hours hours;
    size_t first = 0, last = 0;
    runnel_slice_skip_blanks(&r->rest);
    if (!take_day(r, &first))
        return refuse(r, RUNNEL_E_SYNTAX, "a day is one of Mon, Tue, Wed, Thu, Fri, Sat, Sun");
    last = first;
    if (take_mark(r, '-') && !take_day(r, &last))
        return refuse(r, RUNNEL_E_SYNTAX, "a day is one of Mon, Tue, Wed, Thu, Fri, Sat, Sun");
    runnel_slice_skip_blanks(&r->rest);
    runnel_status status = take_spans(r, &hours);
    for (size_t day = first; !status; day = (day + 1) % 7) {
        if (week->days[day].count)
            status = refuse(r, RUNNEL_E_CONFLICT, "a day is named twice");
        week->days[day] = hours;
        if (day == last)
            break;
    }
    return status;
}

runnel_status runnel_week_parse(const char *text, runnel_problems *problems,
                                const runnel_place *place, runnel_week *week) {
    runnel_slice whole = runnel_slice_trim(runnel_slice_of(text));
    reading r = {whole, whole, problems, place};
    runnel_week read = {{{{{0, 0}}, 0}}};
    if (whole.at == whole.end)
        return runnel_problems_add(problems, RUNNEL_E_MISSING, place,
                                   "no hours are given; write them like 'Mon-Fri 8:00-17:00'");
    runnel_status status = take_part(&r, &read);
    while (!status && take_mark(&r, ','))
        status = take_part(&r, &read);
    if (!status && r.rest.at < r.rest.end)
        status = refuse(&r, RUNNEL_E_SYNTAX, "something else stands behind the hours");
    if (!status)
        *week = read;
    return status;
}

/* ---- Days off ----------------------------------------------------------------------------------
 */

/** Reads one item of a list of days off, "DAY" or "DAY to DAY", shorter than RUNNEL_SHOWN_SIZE. */
static runnel_status take_off(const char *item, runnel_problems *problems,
                              const runnel_place *place, struct runnel_days_off_span *span) {
    char first[RUNNEL_SHOWN_SIZE], shown[RUNNEL_SHOWN_SIZE];
    const char *to = strstr(item, " to ");
    size_t length = to ? (size_t)(to - item) : strlen(item);
    struct runnel_days_off_span found;
    memcpy(first, item, length);
    first[length] = '\0';
    runnel_status status = runnel_date_parse(first, problems, place, &found.from);
    found.to = found.from;
    runnel_status other =
        to ? runnel_date_parse(to + strlen(" to "), problems, place, &found.to) : RUNNEL_OK;
    if (status || other)
        return status ? status : other;
    if (runnel_date_days_between(found.from, found.to) < 0)
        return runnel_problems_add(problems, RUNNEL_E_CONFLICT, place,
                                   "'%s': the last day is before the first",
                                   runnel_slice_show(runnel_slice_of(item), shown));
    *span = found;
    return RUNNEL_OK;
}

runnel_status runnel_days_off_parse(const char *text, runnel_problems *problems,
                                    const runnel_place *place, runnel_days_off *off) {
    runnel_days_off found = {.count = 0};
    runnel_status worst = RUNNEL_OK;
    for (const char *at = text; at; at = strchr(at, ',') ? strchr(at, ',') + 1 : NULL) {
        char item[RUNNEL_SHOWN_SIZE];
        size_t length = strcspn(at, ",");
        bool fits = length < sizeof item;
        memcpy(item, at, fits ? length : 0);
        item[fits ? length : 0] = '\0';
        if (found.count == RUNNEL_DAYS_OFF_MOST)
            return runnel_problems_add(problems, RUNNEL_E_RANGE, place,
                                       "a list may have %d days off, or spans of them",
                                       RUNNEL_DAYS_OFF_MOST);
        runnel_status status = take_off(item, problems, place, &found.spans[found.count]);
        found.count += !status;
        worst = worst ? worst : status;
    }
    if (!worst)
        *off = found;
    return worst;
}

/* ---- From a week to moments --------------------------------------------------------------------
 */

static bool is_off(runnel_date day, const runnel_days_off *off) {
    for (size_t i = 0; off && i < off->count; i++)
        if (runnel_date_days_between(off->spans[i].from, day) >= 0 &&
            runnel_date_days_between(day, off->spans[i].to) >= 0)
            return true;
    return false;
}

runnel_status runnel_week_open(const runnel_week *week, runnel_date from, size_t days,
                               const runnel_days_off *off, const runnel_zone *zone,
                               runnel_spans *open) {
    static const runnel_date epoch = {1970, 1, 1};
    runnel_spans made = {0};
    runnel_status status = runnel_date_is_valid(from) ? RUNNEL_OK : RUNNEL_E_RANGE;
    for (size_t i = 0; i < days && !status; i++) {
        runnel_date day;
        status = runnel_date_add_days(from, (int64_t)i, &day);
        if (status || is_off(day, off))
            continue;
        double midnight_s = (double)runnel_date_days_between(epoch, day) * DAY_S;
        const runnel_day_hours *hours = &week->days[runnel_date_weekday(day) - 1];
        for (size_t k = 0; k < hours->count && !status; k++)
            status =
                runnel_spans_add(&made, runnel_moment_of(zone, midnight_s + hours->spans[k].from_s),
                                 runnel_moment_of(zone, midnight_s + hours->spans[k].to_s));
    }
    if (status) {
        runnel_spans_clear(&made);
        return status;
    }
    runnel_spans_join(&made);
    runnel_spans_clear(open);
    *open = made;
    return RUNNEL_OK;
}
