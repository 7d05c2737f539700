/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/memory.h"
#include "runnel/write_timeline.h"
#include "write/moment.h"
#include "write/order_seed.h"

#include <math.h>
#include <string.h>

/* Events with the texts that they own. */
typedef struct ics_events {
    const runnel_zone *zone;
    runnel_event *events;
    char **texts; /* seed and summary of each */
    size_t count;
} ics_events;

/* A job, and the seed of all its events. */
typedef struct ics_job {
    const runnel_job *job;
    char *seed;
} ics_job;

static const char *name_of(const runnel_job *job) {
    return job->name ? job->name : job->file ? job->file : "";
}

/* Adds an event; both texts are taken over, NULL when there was no memory for them. */
static runnel_status add(ics_events *all, const runnel_event *event, char *seed, char *summary) {
    all->events[all->count] = *event;
    all->events[all->count].seed = all->texts[2 * all->count] = seed;
    all->events[all->count].summary = all->texts[2 * all->count + 1] = summary;
    all->count++;
    return seed && summary ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
}

/* The length is that by the wall's clock, so that the event ends where that stands. */
static runnel_status add_step(ics_events *all, const ics_job *of, const runnel_timing_step *step,
                              size_t number) {
    const double day_min = 1440;
    int start_min = 0, end_min = 0;
    runnel_date day = runnel_moment_day(all->zone, step->times.start_s, &start_min);
    runnel_date last = runnel_moment_day(all->zone, step->times.end_s, &end_min);
    double length_min = (double)runnel_date_days_between(day, last) * day_min + end_min - start_min;
    return add(all,
               &(runnel_event){.start = day,
                               .is_timed = true,
                               .start_min = start_min,
                               .length_min = length_min >= 1 ? (int)length_min : 1,
                               .description = step->times.is_late ? "scuff first" : NULL},
               runnel_format_text("timeline/%s/%s/%zu", of->seed, step->code, number),
               runnel_format_text("%s: %s", name_of(of->job), step->text));
}

static runnel_status add_day(ics_events *all, const ics_job *of, double moment_s, const char *what,
                             const char *description) {
    int minutes = 0;
    if (isnan(moment_s))
        return RUNNEL_OK;
    return add(all,
               &(runnel_event){.start = runnel_moment_day(all->zone, moment_s, &minutes),
                               .description = description},
               runnel_format_text("timeline/%s/ready/%s", of->seed, what),
               runnel_format_text("%s: ready %s", name_of(of->job), what));
}

/* The how manieth of its kind a step is: that stays when a step of another kind is added. */
static size_t number_of(const runnel_timing *timing, size_t step) {
    size_t number = 1;
    for (size_t i = 0; i < step; i++)
        number += strcmp(timing->steps[i].code, timing->steps[step].code) == 0;
    return number;
}

static runnel_status add_job(ics_events *all, const ics_job *of, const runnel_timing *timing) {
    runnel_status status = of->seed ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
    if (!timing->is_planned)
        return status;
    for (size_t i = 0; i < timing->step_count && !status; i++)
        status = add_step(all, of, &timing->steps[i], number_of(timing, i));
    if (!status)
        status = add_day(all, of, timing->ships_s, "to ship", NULL);
    return status ? status
                  : add_day(all, of, timing->food_s, "for food",
                            "only where the sheets of resin and oil say so");
}

/* Adds all jobs. Orders that nothing tells apart are numbered. */
static runnel_status add_jobs(ics_events *all, const runnel_job *jobs,
                              const runnel_timings *timings) {
    runnel_status status = RUNNEL_OK;
    char **orders = runnel_zeroed(timings->count + 1, sizeof *orders);
    if (!orders)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < timings->count && !status; i++) {
        size_t like_it = 0;
        orders[i] = runnel_order_seed(&jobs[i]);
        for (size_t k = 0; k < i && orders[i]; k++)
            like_it += strcmp(orders[k], orders[i]) == 0;
        ics_job of = {&jobs[i],
                      orders[i] ? runnel_format_text("%s/%zu", orders[i], like_it) : NULL};
        status = add_job(all, &of, &timings->items[i]);
        runnel_free(of.seed);
    }
    for (size_t i = 0; i < timings->count; i++)
        runnel_free(orders[i]);
    runnel_free(orders);
    return status;
}

/* The first day that is told. */
static runnel_date first_day(const ics_events *all) {
    runnel_date first = {1970, 1, 1};
    for (size_t i = 0; i < all->count; i++)
        if (!i || runnel_date_days_between(all->events[i].start, first) > 0)
            first = all->events[i].start;
    return first;
}

runnel_status runnel_write_timeline_ics(const runnel_job *jobs, const runnel_timings *timings,
                                        const runnel_calendar_issue *issue, FILE *out) {
    size_t most = 1;
    for (size_t i = 0; i < timings->count; i++)
        most += timings->items[i].step_count + 2;
    ics_events all = {.zone = timings->zone};
    all.events = runnel_zeroed(most, sizeof *all.events);
    all.texts = runnel_zeroed(2 * most, sizeof *all.texts);
    runnel_status status = all.events && all.texts ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
    if (!status)
        status = add_jobs(&all, jobs, timings);
    if (!status)
        status = runnel_write_ics(
            &(runnel_calendar){.name = timings->count == 1 ? jobs[0].name : NULL,
                               .stamp = issue->stamp.year ? issue->stamp : first_day(&all),
                               .revision = issue->revision,
                               .events = all.events,
                               .count = all.count},
            out);
    for (size_t i = 0; all.texts && i < 2 * most; i++)
        runnel_free(all.texts[i]);
    runnel_free(all.texts);
    runnel_free(all.events);
    return status;
}
