/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Zones by their names in the time zone database, through libical.
 */
#include "runnel/zone.h"
#include "base/late.h"
#include "base/memory.h"
#include "base/slice.h"
#include "base/suggest.h"

#include <libical/ical.h>
#include <math.h>
#include <string.h>

#define CALLS(X)                                                                                   \
    X(icalarray_element_at)                                                                        \
    X(icaltimezone_free_builtin_timezones)                                                         \
    X(icaltimezone_get_builtin_timezone)                                                           \
    X(icaltimezone_get_builtin_timezones)                                                          \
    X(icaltimezone_get_location)                                                                   \
    X(icaltimezone_get_utc_offset_of_utc_time)
RUNNEL_LATE(CALLS, RUNNEL_LATE_ICAL);

#define DAY_S 86400.0

static const runnel_date epoch = {1970, 1, 1};

/* Offset of the wall's clock at a moment, s. */
static double offset_at(icaltimezone *zone, double moment_s) {
    double days = floor(moment_s / DAY_S), rest_s = moment_s - days * DAY_S;
    runnel_date day = epoch;
    int is_daylight = 0;
    if (runnel_date_add_days(epoch, (int64_t)days, &day))
        return 0; /* the caller keeps to the calendar */
    struct icaltimetype time = {.year = day.year, .month = day.month, .day = day.day};
    time.hour = (int)(rest_s / 3600);
    time.minute = (int)(rest_s / 60) % 60;
    time.second = (int)rest_s % 60;
    return lib.icaltimezone_get_utc_offset_of_utc_time(zone, &time, &is_daylight);
}

/* The second at which the offset is no longer that at `from_s`, as it is at `to_s`. */
static double change_between(icaltimezone *zone, double from_s, double to_s) {
    double before = offset_at(zone, from_s);
    while (to_s - from_s > 1) {
        double middle_s = floor((from_s + to_s) / 2);
        if (offset_at(zone, middle_s) == before)
            from_s = middle_s;
        else
            to_s = middle_s;
    }
    return to_s;
}

static runnel_status add(runnel_zone_changes *changes, double from_s, double offset_s) {
    runnel_status status = runnel_reserve(&changes->items, &changes->capacity, changes->count + 1,
                                          sizeof *changes->items);
    if (!status)
        changes->items[changes->count++] = (runnel_zone_change){from_s, offset_s};
    return status;
}

/* No zone changes twice within a day. */
static runnel_status find_changes(icaltimezone *zone, runnel_date from, runnel_date to,
                                  runnel_zone_changes *changes) {
    double day_s = (double)runnel_date_days_between(epoch, from) * DAY_S;
    double last_s = (double)runnel_date_days_between(epoch, to) * DAY_S;
    double offset_s = offset_at(zone, day_s);
    runnel_status status = add(changes, -INFINITY, offset_s);
    for (; day_s < last_s && !status; day_s += DAY_S) {
        double next_s = offset_at(zone, day_s + DAY_S);
        if (next_s == offset_s)
            continue;
        status = add(changes, change_between(zone, day_s, day_s + DAY_S), next_s);
        offset_s = next_s;
    }
    return status;
}

static runnel_status tell_unknown(const char *name, runnel_problems *problems,
                                  const runnel_place *place) {
    icalarray *zones = lib.icaltimezone_get_builtin_timezones();
    size_t count = zones ? zones->num_elements : 0;
    const char **names = runnel_zeroed(count + 1, sizeof *names);
    char shown[RUNNEL_SHOWN_SIZE];
    if (!names)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < count; i++)
        names[i] = lib.icaltimezone_get_location(lib.icalarray_element_at(zones, i));
    const char *nearest = runnel_nearest(name, names, count);
    runnel_slice_show(runnel_slice_of(name), shown);
    runnel_status status =
        nearest ? runnel_problems_add(problems, RUNNEL_E_UNKNOWN, place,
                                      "'%s' is no zone; the nearest name is '%s'", shown, nearest)
                : runnel_problems_add(problems, RUNNEL_E_UNKNOWN, place,
                                      "'%s' is no zone; zones have names of the time zone "
                                      "database, such as 'Europe/Berlin'",
                                      shown);
    runnel_free(names);
    return status;
}

void runnel_zone_changes_clear(runnel_zone_changes *changes) {
    if (!changes)
        return;
    runnel_free(changes->items);
    memset(changes, 0, sizeof *changes);
}

runnel_status runnel_zone_read(const char *name, runnel_date from, runnel_date to,
                               runnel_problems *problems, const runnel_place *place,
                               runnel_zone_changes *changes) {
    runnel_zone_changes found = {NULL, 0, 0};
    if (!runnel_date_is_valid(from) || !runnel_date_is_valid(to) || to.year > 9998)
        return RUNNEL_E_RANGE;
    runnel_status status = runnel_late_load(&late);
    if (status)
        return status;
    icaltimezone *zone = lib.icaltimezone_get_builtin_timezone(name);
    status = zone ? find_changes(zone, from, to, &found) : tell_unknown(name, problems, place);
    lib.icaltimezone_free_builtin_timezones();
    if (status)
        runnel_zone_changes_clear(&found);
    else
        *changes = found;
    return status;
}
