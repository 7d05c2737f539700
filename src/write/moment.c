/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/moment.h"

#include "write/layout.h"

#include <math.h>
#include <stdio.h>

runnel_date runnel_moment_day(const runnel_zone *zone, double moment_s, int *minutes) {
    static const runnel_date epoch = {1970, 1, 1};
    const double day_s = 86400;
    double wall_s = runnel_wall_of(zone, moment_s), days = floor(wall_s / day_s);
    runnel_date day = {0, 0, 0};
    *minutes = (int)((wall_s - days * day_s) / 60);
    if (runnel_date_add_days(epoch, (int64_t)days, &day))
        day = (runnel_date){0, 0, 0};
    return day;
}

char *runnel_moment_stamp(const runnel_zone *zone, double moment_s, char *buffer) {
    int minutes = 0;
    char day[RUNNEL_DATE_SIZE];
    runnel_date date = runnel_moment_day(zone, moment_s, &minutes);
    snprintf(buffer, RUNNEL_MOMENT_SIZE, "%sT%02d:%02d", runnel_date_text(date, day, sizeof day),
             minutes / 60, minutes % 60);
    return buffer;
}

char *runnel_moment_words(const runnel_zone *zone, double moment_s, char *buffer) {
    int minutes = 0;
    char day[RUNNEL_DATE_SIZE];
    runnel_date date = runnel_moment_day(zone, moment_s, &minutes);
    snprintf(buffer, RUNNEL_MOMENT_SIZE, "%s, %02d:%02d", runnel_date_words(date, day, sizeof day),
             minutes / 60, minutes % 60);
    return buffer;
}

static const char *month_of(runnel_date date) {
    static const char *const months[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                         "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    return date.month >= 1 && date.month <= 12 ? months[date.month - 1] : "?";
}

char *runnel_moment_short(const runnel_zone *zone, double moment_s, char *buffer) {
    int minutes = 0;
    runnel_date date = runnel_moment_day(zone, moment_s, &minutes);
    snprintf(buffer, RUNNEL_MOMENT_SIZE,
             "%.3s" RUNNEL_STICK "%d" RUNNEL_STICK "%s," RUNNEL_STICK "%02d:%02d",
             runnel_weekday_text(runnel_date_weekday(date)), date.day, month_of(date), minutes / 60,
             minutes % 60);
    return buffer;
}

char *runnel_moment_head(runnel_date date, char *weekday, char *buffer) {
    snprintf(weekday, RUNNEL_MOMENT_SIZE, "%.3s", runnel_weekday_text(runnel_date_weekday(date)));
    snprintf(buffer, RUNNEL_MOMENT_SIZE, "%d %s", date.day, month_of(date));
    return buffer;
}
