/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/stamp.h"

#include "base/civil.h"
#include "base/slice.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

enum { FIRST_YEAR = 1900, LAST_YEAR = 2199, MINUTES_OF_DAY = 1440, MOST_OFFSET_MIN = 14 * 60 };

static const char *const faults[RUNNEL_STAMP_FAULT_COUNT] = {
    [RUNNEL_STAMP_FINE] = "is fine",
    [RUNNEL_STAMP_NONE] = "is no time stamp; '2026-11-25 08:05' would be right",
    [RUNNEL_STAMP_NO_TIME] = "is a day without a time; '2026-11-25 08:05' would be right",
    [RUNNEL_STAMP_YEAR] = "has no year from 1900 to 2199 in four digits",
    [RUNNEL_STAMP_NO_DAY] = "is no day of the calendar",
    [RUNNEL_STAMP_CLOCK] = "is no time of day; 00:00 to 23:59 would be right",
    [RUNNEL_STAMP_OFFSET] = "has something else than 'Z' or an offset such as '+01:00' at its end",
    [RUNNEL_STAMP_AMBIGUOUS] = ("does not tell whether the day or the month comes first; "
                                "'2026-11-25 08:05' would be clear"),
};

const char *runnel_stamp_fault_text(runnel_stamp_fault fault) {
    return (unsigned)fault < RUNNEL_STAMP_FAULT_COUNT ? faults[fault] : "is no time stamp";
}

/* ---- Reading ------------------------------------------------------------------------------- */

typedef struct number {
    int value;
    int digits;
} number;

static bool is_digit(char byte) {
    return byte >= '0' && byte <= '9';
}

/* At most nine digits; 0 digits where none stand. */
static number take_number(const char **at) {
    number found = {0, 0};
    for (; is_digit(**at) && found.digits < 9; ++*at, found.digits++)
        found.value = 10 * found.value + (**at - '0');
    return found;
}

static void skip_blanks(const char **at) {
    while (**at == ' ' || **at == '\t')
        ++*at;
}

/* Puts three numbers in the order year, month, day. */
static runnel_stamp_fault order_day(const number parts[3], char mark, runnel_day_order order,
                                    runnel_day_order *shows, int day[3]) {
    *shows = RUNNEL_DAY_UNKNOWN;
    if (parts[0].digits == 4 && mark != '.') {
        for (int i = 0; i < 3; i++)
            day[i] = parts[i].value;
        return RUNNEL_STAMP_FINE;
    }
    if (parts[2].digits != 4 || parts[0].digits > 2)
        return RUNNEL_STAMP_YEAR;
    if (parts[0].value > 12)
        *shows = RUNNEL_DAY_FIRST;
    else if (parts[1].value > 12)
        *shows = RUNNEL_MONTH_FIRST;
    bool is_day_first = mark == '.' || (order == RUNNEL_DAY_UNKNOWN ? *shows == RUNNEL_DAY_FIRST
                                                                    : order == RUNNEL_DAY_FIRST);
    if (mark == '.')
        *shows = RUNNEL_DAY_UNKNOWN;
    else if (order == RUNNEL_DAY_UNKNOWN && *shows == RUNNEL_DAY_UNKNOWN &&
             parts[0].value != parts[1].value)
        return RUNNEL_STAMP_AMBIGUOUS;
    day[0] = parts[2].value;
    day[1] = parts[is_day_first].value;
    day[2] = parts[!is_day_first].value;
    return RUNNEL_STAMP_FINE;
}

static runnel_stamp_fault take_day(const char **at, runnel_day_order order, runnel_day_order *shows,
                                   int64_t *days) {
    number parts[3];
    char mark = '\0';
    int day[3];
    for (int i = 0; i < 3; i++) {
        parts[i] = take_number(at);
        if (!parts[i].digits || parts[i].digits > 4)
            return RUNNEL_STAMP_NONE;
        if (i < 2) {
            if (!**at || !strchr("-/.", **at) || (i == 1 && **at != mark))
                return RUNNEL_STAMP_NONE;
            mark = *(*at)++;
        }
    }
    runnel_stamp_fault fault = order_day(parts, mark, order, shows, day);
    if (fault != RUNNEL_STAMP_FINE)
        return fault;
    if (day[0] < FIRST_YEAR || day[0] > LAST_YEAR)
        return RUNNEL_STAMP_YEAR;
    if (!runnel_civil_is_valid(day[0], day[1], day[2]))
        return RUNNEL_STAMP_NO_DAY;
    *days = runnel_days_from_civil(day[0], day[1], day[2]);
    return RUNNEL_STAMP_FINE;
}

/* A fraction of a second. */
static double take_fraction(const char **at) {
    double value = 0, place = 1;
    for (; is_digit(**at); ++*at) {
        if (place < 1e9) { /* finer than any clock */
            place *= 10;
            value = 10 * value + (**at - '0');
        }
    }
    return value / place;
}

static bool take_letters(const char **at, const char *small) {
    size_t length = strlen(small);
    for (size_t i = 0; i < length; i++)
        if (((*at)[i] | 0x20) != small[i])
            return false;
    *at += length;
    return true;
}

/* "am" or "pm" behind hours from 1 to 12. */
static bool take_half(const char **at, int *hour) {
    const char *ahead = *at;
    skip_blanks(&ahead);
    bool is_after_noon = take_letters(&ahead, "pm");
    if (!is_after_noon && !take_letters(&ahead, "am"))
        return true;
    *at = ahead;
    bool is_hour = *hour >= 1 && *hour <= 12;
    *hour = *hour % 12 + (is_after_noon ? 12 : 0);
    return is_hour;
}

static runnel_stamp_fault take_clock(const char **at, double *seconds) {
    number hour = take_number(at), minute, second = {0, 2};
    double fraction = 0;
    if (!hour.digits)
        return RUNNEL_STAMP_NO_TIME;
    if (hour.digits > 2 || **at != ':')
        return RUNNEL_STAMP_CLOCK;
    ++*at;
    minute = take_number(at);
    if (**at == ':') {
        ++*at;
        second = take_number(at);
        if ((**at == '.' || **at == ',') && is_digit((*at)[1])) {
            ++*at;
            fraction = take_fraction(at);
        }
    }
    if (!take_half(at, &hour.value) || minute.digits != 2 || second.digits != 2 ||
        hour.value > 23 || minute.value > 59 || second.value > 59)
        return RUNNEL_STAMP_CLOCK;
    *seconds = 3600.0 * hour.value + 60.0 * minute.value + second.value + fraction;
    return RUNNEL_STAMP_FINE;
}

static bool take_offset(const char **at, runnel_stamp *stamp) {
    skip_blanks(at);
    if (!**at)
        return true;
    stamp->has_offset = true;
    if (take_letters(at, "z") || (**at != '+' && **at != '-'))
        return **at == '\0';
    int sign = *(*at)++ == '-' ? -1 : 1;
    number hours = take_number(at), minutes = {0, 2};
    if (hours.digits == 4) {
        minutes.value = hours.value % 100;
        hours = (number){hours.value / 100, 2};
    } else if (**at == ':') {
        ++*at;
        minutes = take_number(at);
    }
    if (**at || hours.digits != 2 || minutes.digits != 2 || minutes.value >= 60 || hours.value > 14)
        return false;
    stamp->offset_min = sign * (60 * hours.value + minutes.value);
    return stamp->offset_min <= MOST_OFFSET_MIN && stamp->offset_min >= -MOST_OFFSET_MIN;
}

runnel_stamp_fault runnel_stamp_read(const char *text, runnel_day_order order,
                                     runnel_day_order *shows, runnel_stamp *stamp) {
    runnel_stamp found = {0, false, 0};
    runnel_day_order seen = RUNNEL_DAY_UNKNOWN;
    int64_t days = 0;
    const char *at = text;
    skip_blanks(&at);
    runnel_stamp_fault fault = take_day(&at, order, &seen, &days);
    if (shows)
        *shows = seen;
    if (fault != RUNNEL_STAMP_FINE)
        return fault;
    if ((*at == 'T' || *at == 't') && is_digit(at[1]))
        at++;
    else if (*at && *at != ' ' && *at != '\t')
        return RUNNEL_STAMP_NONE;
    skip_blanks(&at);
    fault = take_clock(&at, &found.seconds);
    if (fault != RUNNEL_STAMP_FINE)
        return fault;
    if (!take_offset(&at, &found))
        return RUNNEL_STAMP_OFFSET;
    found.seconds += 86400.0 * (double)days - 60.0 * found.offset_min;
    *stamp = found;
    return RUNNEL_STAMP_FINE;
}

runnel_status runnel_stamp_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, runnel_stamp *stamp) {
    char shown[RUNNEL_SHOWN_SIZE];
    runnel_stamp_fault fault = runnel_stamp_read(text, RUNNEL_DAY_UNKNOWN, NULL, stamp);
    if (fault == RUNNEL_STAMP_FINE)
        return RUNNEL_OK;
    return runnel_problems_add(problems, RUNNEL_E_SYNTAX, place, "'%s' %s",
                               runnel_slice_show(runnel_slice_of(text), shown),
                               runnel_stamp_fault_text(fault));
}

/* ---- Writing ------------------------------------------------------------------------------- */

const char *runnel_stamp_text(const runnel_stamp *stamp, char *buffer) {
    double minutes = floor(stamp->seconds / 60 + 0.5) + stamp->offset_min;
    const double most = 9999.0 * 366 * MINUTES_OF_DAY;
    int year = 0, month = 0, day = 0;
    if (fabs(minutes) < most) {
        double days = floor(minutes / MINUTES_OF_DAY);
        runnel_civil_from_days((int64_t)days, &year, &month, &day);
        minutes -= days * MINUTES_OF_DAY;
    }
    if (year < 1 || year > 9999) {
        snprintf(buffer, RUNNEL_STAMP_SIZE, "not known");
        return buffer;
    }
    unsigned of_day = (unsigned)minutes % MINUTES_OF_DAY;
    unsigned offset = (unsigned)(stamp->offset_min < 0 ? -stamp->offset_min : stamp->offset_min);
    int length =
        snprintf(buffer, RUNNEL_STAMP_SIZE, "%04u-%02u-%02u %02u:%02u", (unsigned)year % 10000,
                 (unsigned)month % 100, (unsigned)day % 100, of_day / 60, of_day % 60);
    if (stamp->has_offset)
        snprintf(buffer + length, RUNNEL_STAMP_SIZE - (size_t)length, "%c%02u:%02u",
                 stamp->offset_min < 0 ? '-' : '+', offset / 60 % 100, offset % 60);
    return buffer;
}
