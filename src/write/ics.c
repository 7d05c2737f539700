/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/calendar.h"

#include "base/late.h"
#include "base/memory.h"
#include "base/utf8.h"
#include "write/layout.h"

#include <inttypes.h>
#include <libical/ical.h>
#include <stdint.h>
#include <string.h>

#define CALLS(X)                                                                                   \
    X(icalcomponent_add_component)                                                                 \
    X(icalcomponent_add_property)                                                                  \
    X(icalcomponent_as_ical_string_r)                                                              \
    X(icalcomponent_free)                                                                          \
    X(icalcomponent_new_vcalendar)                                                                 \
    X(icalcomponent_new_vevent)                                                                    \
    X(icalmemory_free_buffer)                                                                      \
    X(icalproperty_new_calscale)                                                                   \
    X(icalproperty_new_description)                                                                \
    X(icalproperty_new_dtend)                                                                      \
    X(icalproperty_new_dtstamp)                                                                    \
    X(icalproperty_new_dtstart)                                                                    \
    X(icalproperty_new_prodid)                                                                     \
    X(icalproperty_new_rrule)                                                                      \
    X(icalproperty_new_sequence)                                                                   \
    X(icalproperty_new_summary)                                                                    \
    X(icalproperty_new_transp)                                                                     \
    X(icalproperty_new_uid)                                                                        \
    X(icalproperty_new_version)                                                                    \
    X(icalproperty_new_x)                                                                          \
    X(icalproperty_set_x_name)                                                                     \
    X(icalrecurrencetype_from_string)                                                              \
    X(icaltimezone_get_utc_timezone)
RUNNEL_LATE(CALLS, RUNNEL_LATE_ICAL);

enum { DAY_MIN = 1440, WEEK = 7 };

/* ---- UIDs ------------------------------------------------------------------------------------ */

/* FNV-1a of 64 bits (Fowler, Noll and Vo); its offset and prime are part of the definition. */
static uint64_t hash(uint64_t state, const char *text) {
    for (; *text; text++) {
        state ^= (unsigned char)*text;
        state *= UINT64_C(1099511628211);
    }
    return state;
}

char *runnel_event_uid(const char *seed, char *buffer, size_t size) {
    const uint64_t offset = UINT64_C(14695981039346656037);
    /* The second half starts from another state, so that both together make 128 bits. */
    uint64_t one = hash(offset, seed), other = hash(hash(offset, "runnel"), seed);
    snprintf(buffer, size, "%016" PRIx64 "%016" PRIx64 "@runnel", one, other);
    return buffer;
}

/* ---- Checks ---------------------------------------------------------------------------------- */

static bool ends_in_time(const runnel_event *event) {
    runnel_date end;
    int64_t days = event->is_timed ? (event->start_min + event->length_min) / DAY_MIN
                                   : (event->days ? event->days : 1);
    if (event->every_days && event->count)
        days += (int64_t)(event->count - 1) * event->every_days;
    return runnel_date_add_days(event->start, days, &end) == RUNNEL_OK;
}

static runnel_status check_event(const runnel_event *event) {
    if (!event->seed || !*event->seed || !event->summary || !*event->summary)
        return RUNNEL_E_MISSING;
    bool timed = event->start_min >= 0 && event->start_min < DAY_MIN && event->length_min >= 1 &&
                 event->length_min <= RUNNEL_CALENDAR_MOST;
    bool whole = event->days >= 0 && event->days <= RUNNEL_CALENDAR_MOST;
    if (!runnel_date_is_valid(event->start) || !(event->is_timed ? timed : whole) ||
        event->every_days < 0 || event->every_days > RUNNEL_CALENDAR_MOST ||
        event->count > RUNNEL_CALENDAR_MOST || !ends_in_time(event))
        return RUNNEL_E_RANGE;
    return RUNNEL_OK;
}

static runnel_status check_calendar(const runnel_calendar *calendar) {
    if (!runnel_date_is_valid(calendar->stamp) || calendar->revision > RUNNEL_CALENDAR_MOST)
        return RUNNEL_E_RANGE;
    for (size_t i = 0; i < calendar->count; i++) {
        runnel_status status = check_event(&calendar->events[i]);
        if (status)
            return status;
        for (size_t k = 0; k < i; k++)
            if (!strcmp(calendar->events[k].seed, calendar->events[i].seed))
                return RUNNEL_E_CONFLICT;
    }
    return RUNNEL_OK;
}

/* ---- Texts ----------------------------------------------------------------------------------- */

/* A copy that a calendar may hold. Freed by the caller; NULL when memory ran out. */
static char *clean(const char *text) {
    char *copy = runnel_copy_text(text), *to = copy;
    size_t length;
    for (const char *at = text; copy && *at; at += length) {
        uint32_t point = runnel_utf8_next(at, &length);
        bool control = (point < ' ' && point != '\n') || (point >= 0x7F && point < 0xA0);
        if (control || (point >= 0xDC00 && point < 0xE000)) {
            *to++ = control ? ' ' : '?';
        } else {
            memcpy(to, at, length);
            to += length;
        }
    }
    if (copy)
        *to = '\0';
    return copy;
}

/* ---- Components ------------------------------------------------------------------------------ */

/* Adds a property that was just made; none was for want of memory. */
static void add(icalcomponent *component, icalproperty *property, bool *whole) {
    if (property)
        lib.icalcomponent_add_property(component, property);
    else
        *whole = false;
}

static void add_text(icalcomponent *component, icalproperty *(*make)(const char *),
                     const char *text, bool *whole) {
    char *copy = clean(text);
    if (copy)
        add(component, make(copy), whole);
    else
        *whole = false;
    runnel_free(copy);
}

static struct icaltimetype day_of(runnel_date date) {
    return (struct icaltimetype){
        .year = date.year, .month = date.month, .day = date.day, .is_date = 1};
}

static struct icaltimetype minute_of(runnel_date date, int minute) {
    struct icaltimetype time = day_of(date);
    time.is_date = 0;
    time.hour = minute / 60;
    time.minute = minute % 60;
    return time;
}

/* The day or minute behind the last one: an end is not part of the event. */
static void add_times(icalcomponent *component, const runnel_event *event, bool *whole) {
    runnel_date last = event->start;
    int end_min = event->start_min + event->length_min;
    if (event->is_timed) {
        runnel_date_add_days(event->start, end_min / DAY_MIN, &last);
        add(component, lib.icalproperty_new_dtstart(minute_of(event->start, event->start_min)),
            whole);
        add(component, lib.icalproperty_new_dtend(minute_of(last, end_min % DAY_MIN)), whole);
    } else {
        runnel_date_add_days(event->start, event->days ? event->days : 1, &last);
        add(component, lib.icalproperty_new_dtstart(day_of(event->start)), whole);
        add(component, lib.icalproperty_new_dtend(day_of(last)), whole);
        /* A day with something to do is no day that is taken. */
        add(component, lib.icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT), whole);
    }
}

static void add_rule(icalcomponent *component, const runnel_event *event, bool *whole) {
    char text[80], count[30] = "";
    if (!event->every_days || event->count == 1)
        return;
    bool weeks = event->every_days % WEEK == 0;
    if (event->count)
        snprintf(count, sizeof count, ";COUNT=%zu", event->count);
    snprintf(text, sizeof text, "FREQ=%s;INTERVAL=%d%s", weeks ? "WEEKLY" : "DAILY",
             weeks ? event->every_days / WEEK : event->every_days, count);
    add(component, lib.icalproperty_new_rrule(lib.icalrecurrencetype_from_string(text)), whole);
}

static icalcomponent *make_event(const runnel_calendar *calendar, const runnel_event *event,
                                 bool *whole) {
    char uid[RUNNEL_UID_SIZE];
    struct icaltimetype stamp = minute_of(calendar->stamp, 0);
    icalcomponent *component = lib.icalcomponent_new_vevent();
    if (!component)
        return NULL;
    stamp.zone = lib.icaltimezone_get_utc_timezone();
    add(component, lib.icalproperty_new_uid(runnel_event_uid(event->seed, uid, sizeof uid)), whole);
    add(component, lib.icalproperty_new_dtstamp(stamp), whole);
    add(component, lib.icalproperty_new_sequence((int)calendar->revision), whole);
    add_times(component, event, whole);
    add_rule(component, event, whole);
    add_text(component, lib.icalproperty_new_summary, event->summary, whole);
    if (event->description && *event->description)
        add_text(component, lib.icalproperty_new_description, event->description, whole);
    return component;
}

static void name_calendar(icalcomponent *root, const char *name, bool *whole) {
    char *copy = clean(name);
    icalproperty *property = copy ? lib.icalproperty_new_x(copy) : NULL;
    if (property)
        lib.icalproperty_set_x_name(property, "X-WR-CALNAME");
    add(root, property, whole);
    runnel_free(copy);
}

static icalcomponent *make_calendar(const runnel_calendar *calendar, bool *whole) {
    icalcomponent *root = lib.icalcomponent_new_vcalendar();
    if (!root)
        return NULL;
    add(root, lib.icalproperty_new_version("2.0"), whole);
    add(root, lib.icalproperty_new_prodid("-//runnel//upkeep and timeline//EN"), whole);
    add(root, lib.icalproperty_new_calscale("GREGORIAN"), whole);
    if (calendar->name && *calendar->name)
        name_calendar(root, calendar->name, whole);
    for (size_t i = 0; i < calendar->count; i++) {
        icalcomponent *event = make_event(calendar, &calendar->events[i], whole);
        if (event)
            lib.icalcomponent_add_component(root, event);
        else
            *whole = false;
    }
    return root;
}

runnel_status runnel_write_ics(const runnel_calendar *calendar, FILE *out) {
    runnel_status status = check_calendar(calendar);
    if (!status)
        status = runnel_late_load(&late);
    if (status)
        return status;
    bool whole = true;
    icalcomponent *root = make_calendar(calendar, &whole);
    char *text = root && whole ? lib.icalcomponent_as_ical_string_r(root) : NULL;
    if (text)
        fputs(text, out);
    else
        status = RUNNEL_E_NO_MEMORY;
    if (text)
        lib.icalmemory_free_buffer(text);
    if (root)
        lib.icalcomponent_free(root);
    return status ? status : runnel_layout_close(out);
}
