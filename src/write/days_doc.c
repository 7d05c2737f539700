/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/days_doc.h"

#include "base/memory.h"
#include "runnel/write_timeline.h"
#include "write/card_words.h"
#include "write/moment.h"

#include <math.h>
#include <stdlib.h>

/* Shorter waits are not told. */
static const double told_wait_s = 60;

/* The document in work. */
typedef struct days_doc {
    const runnel_job *jobs;
    const runnel_timings *timings;
    runnel_doc_kind head; /* of a day, and of what follows the days */
    runnel_doc *doc;
    runnel_flow flow;
} days_doc;

static bool are_many(const days_doc *d) {
    return d->timings->count > 1;
}

static runnel_flow *say(days_doc *d) {
    return runnel_doc_say(d->doc, &d->flow);
}

static void said(days_doc *d, runnel_doc_kind kind, const char *label) {
    runnel_doc_said(d->doc, kind, label, &d->flow);
}

/* Which of several jobs it is about. */
static void add_job(days_doc *d, size_t job) {
    if (!are_many(d))
        return;
    runnel_bench_title(&d->flow, &d->jobs[job]);
    runnel_flow_add(&d->flow, ": ");
}

/* ---- Pictures ---------------------------------------------------------------------------------
 */

static void add_pictures(days_doc *d) {
    for (size_t i = 0; i < d->timings->count; i++) {
        const runnel_timing *timing = &d->timings->items[i];
        for (size_t k = 0; timing->is_planned && k < timing->step_count; k += RUNNEL_DAYS_STEPS) {
            runnel_text_sink caption = {.text = NULL};
            runnel_flow flow;
            runnel_flow_into(&flow, &caption);
            if (are_many(d)) {
                runnel_bench_title(&flow, &d->jobs[i]);
                runnel_flow_add(&flow, ". ");
            }
            runnel_flow_add(&flow,
                            "Black: hands are busy. Outlined: it waits. Grey: the shop is closed.");
            runnel_flow_end(&flow);
            runnel_flow_add(say(d), "Bars of the steps over the days; the same is told as text.");
            runnel_doc_shown(d->doc, RUNNEL_IMAGE_DAYS, i, k, &caption, &d->flow);
        }
    }
}

/* ---- Days -------------------------------------------------------------------------------------
 */

/* A step of a job, to be put in the order of time. */
typedef struct placed_step {
    size_t job, step;
    double start_s;
} placed_step;

static int by_start(const void *one, const void *other) {
    const placed_step *a = one, *b = other;
    if (a->start_s != b->start_s)
        return a->start_s < b->start_s ? -1 : 1;
    if (a->job != b->job)
        return a->job < b->job ? -1 : 1;
    return (a->step > b->step) - (a->step < b->step);
}

static void add_wait(days_doc *d, const placed_step *placed) {
    const runnel_timing_step *step = &d->timings->items[placed->job].steps[placed->step];
    const runnel_task *task = &step->task;
    if (!placed->step || !(task->from_s > told_wait_s))
        return;
    double wait_s = step->times.start_s - step[-1].times.end_s;
    runnel_flow *flow = say(d);
    add_job(d, placed->job);
    runnel_flow_add(flow, "waits ");
    runnel_bench_time(flow, wait_s);
    if (wait_s - task->from_s > told_wait_s) {
        runnel_flow_add(flow, ", at least ");
        runnel_bench_time_from(flow, task->from_s);
    } else {
        runnel_flow_add(flow, ", no less");
    }
    if (step->waits_for) {
        runnel_flow_add(flow, ", for ");
        runnel_flow_add(flow, step->waits_for);
    }
    if (isfinite(task->until_s)) {
        runnel_flow_add(flow, isnan(task->late_s) ? "; at most " : "; without scuffing at most ");
        runnel_bench_time_until(flow, task->until_s);
    }
    said(d, RUNNEL_DOC_ENTRY, "");
}

static void add_step(days_doc *d, const placed_step *placed) {
    const runnel_zone *zone = d->timings->zone;
    const runnel_timing_step *step = &d->timings->items[placed->job].steps[placed->step];
    const runnel_task_times *times = &step->times;
    int start = 0, end = 0;
    char clock[32], text[RUNNEL_MOMENT_SIZE];
    runnel_date day = runnel_moment_day(zone, times->start_s, &start);
    runnel_date last = runnel_moment_day(zone, times->end_s, &end);
    bool same = runnel_date_days_between(day, last) == 0;
    snprintf(clock, sizeof clock, same ? "%02d:%02d-%02d:%02d" : "%02d:%02d-...", start / 60,
             start % 60, end / 60, end % 60);
    runnel_flow *flow = say(d);
    add_job(d, placed->job);
    runnel_flow_add(flow, step->text);
    runnel_flow_add(flow, times->is_late ? ", scuffed first: " : ": ");
    double hands_s = step->task.hands_s + (times->is_late ? step->task.late_s : 0);
    runnel_bench_time(flow, hands_s);
    runnel_flow_add(flow, " of hands");
    if (!same) {
        runnel_flow_add(flow, ", until ");
        runnel_flow_add(flow, runnel_moment_short(zone, times->end_s, text));
    } else if (times->end_s - times->start_s > hands_s) {
        runnel_flow_add(flow, ", left and taken up again in between");
    }
    if (times->latest_s > times->start_s) {
        runnel_flow_add(flow, "; latest start ");
        runnel_flow_add(flow, runnel_moment_short(zone, times->latest_s, text));
    }
    said(d, RUNNEL_DOC_ENTRY, clock);
}

/* All steps of all jobs, to be freed. @return NULL without memory */
static placed_step *in_order(const runnel_timings *timings, size_t *count) {
    size_t most = 1;
    *count = 0;
    for (size_t i = 0; i < timings->count; i++)
        most += timings->items[i].step_count;
    placed_step *all = runnel_zeroed(most, sizeof *all);
    if (!all)
        return NULL;
    for (size_t i = 0; i < timings->count; i++) {
        const runnel_timing *timing = &timings->items[i];
        for (size_t k = 0; timing->is_planned && k < timing->step_count; k++)
            all[(*count)++] = (placed_step){i, k, timing->steps[k].times.start_s};
    }
    qsort(all, *count, sizeof *all, by_start);
    return all;
}

static void add_days(days_doc *d) {
    size_t count;
    placed_step *all = in_order(d->timings, &count);
    runnel_date before = {0, 0, 0};
    if (!all) {
        d->doc->failed = true;
        return;
    }
    for (size_t i = 0; i < count; i++) {
        int minutes = 0;
        char text[RUNNEL_DATE_SIZE];
        runnel_date day = runnel_moment_day(d->timings->zone, all[i].start_s, &minutes);
        add_wait(d, &all[i]);
        if (!i || runnel_date_days_between(before, day) != 0)
            runnel_doc_add(d->doc, d->head, "", runnel_date_words(day, text, sizeof text));
        before = day;
        add_step(d, &all[i]);
    }
    runnel_free(all);
}

/* ---- Ends -------------------------------------------------------------------------------------
 */

static void add_end(days_doc *d, const char *label, double moment_s, const char *note) {
    char text[RUNNEL_MOMENT_SIZE];
    runnel_flow *flow = say(d);
    runnel_flow_add(flow, isnan(moment_s) ? "not known"
                                          : runnel_moment_words(d->timings->zone, moment_s, text));
    runnel_flow_add(flow, note);
    said(d, RUNNEL_DOC_ENTRY, label);
}

static void add_remedies(days_doc *d, const runnel_timing *timing) {
    if (timing->remedy_count)
        runnel_doc_add(d->doc, d->head, "", "What would buy time");
    for (size_t i = 0; i < timing->remedy_count; i++) {
        const runnel_timing_remedy *remedy = &timing->remedies[i];
        char text[RUNNEL_MOMENT_SIZE];
        runnel_flow *flow = say(d);
        runnel_flow_add(flow, remedy->text);
        runnel_flow_add(flow, ": ready to ship ");
        runnel_flow_add(flow, isnan(remedy->ships_s)
                                  ? "on a day that is not known"
                                  : runnel_moment_words(d->timings->zone, remedy->ships_s, text));
        runnel_flow_add(flow, remedy->suffices ? ", in time" : ", still too late");
        said(d, RUNNEL_DOC_ITEM, "-");
    }
}

static void add_ends(days_doc *d, size_t index) {
    const runnel_timing *timing = &d->timings->items[index];
    runnel_flow *flow = say(d);
    add_job(d, index);
    if (!timing->is_planned || !timing->step_count) {
        runnel_flow_add(flow, "No day can be told; see the warnings above.");
        said(d, RUNNEL_DOC_TEXT, "");
        return;
    }
    runnel_flow_add(flow, are_many(d) ? "ready" : "Ready");
    said(d, d->head, "");
    add_end(d, "off the bench", timing->last_s, "");
    add_end(d, "to be wrapped", timing->wrap_s, "");
    add_end(d, "to ship", timing->ships_s, "");
    if (!runnel_use_is_outdoors(d->jobs[index].upkeep.use))
        add_end(d, "for food", timing->food_s, "; only where the sheets of resin and oil say so");
    flow = say(d);
    runnel_bench_time(flow, timing->hands_s);
    runnel_flow_add(flow, " of hands, ");
    runnel_bench_time(flow, timing->ships_s - timing->steps[0].times.start_s - timing->hands_s);
    runnel_flow_add(flow, " of waiting, nights and days off");
    said(d, RUNNEL_DOC_ENTRY, "in all");
    add_remedies(d, timing);
}

static void add_all(days_doc *d) {
    add_pictures(d);
    add_days(d);
    for (size_t i = 0; i < d->timings->count; i++)
        add_ends(d, i);
}

void runnel_days_doc(const runnel_job *jobs, const runnel_timings *timings, runnel_doc *doc) {
    days_doc d = {.jobs = jobs, .timings = timings, .head = RUNNEL_DOC_PART, .doc = doc};
    add_all(&d);
}

/* ---- Timeline ----------------------------------------------------------------------------------
 */

/* The warnings of one of several jobs, with its name. */
static void warn(days_doc *d, size_t job) {
    const runnel_plan *plan = &d->timings->items[job].plan;
    for (size_t i = 0; i < plan->warning_count; i++) {
        runnel_text_sink where = {.text = NULL};
        runnel_flow flow;
        runnel_flow_into(&flow, &where);
        runnel_bench_title(&flow, &d->jobs[job]);
        runnel_flow_add(&flow, plan->warnings[i].where ? ", " : "");
        runnel_flow_add(&flow, plan->warnings[i].where ? plan->warnings[i].where : "");
        runnel_flow_end(&flow);
        d->doc->failed = d->doc->failed || where.failed;
        runnel_doc_add(d->doc, RUNNEL_DOC_WARNING, where.text ? where.text : "",
                       plan->warnings[i].text);
        runnel_text_clear(&where);
    }
}

static void add_title(days_doc *d) {
    if (!are_many(d)) {
        runnel_doc_begin(d->doc, "Timeline", d->jobs, &d->timings->items[0].plan);
        return;
    }
    runnel_flow_format(say(d), "%zu jobs, one pair of hands", d->timings->count);
    said(d, RUNNEL_DOC_TITLE, "Timeline");
    for (size_t i = 0; i < d->timings->count; i++)
        warn(d, i);
}

static void add_day(days_doc *d, const char *label, runnel_date day) {
    char text[RUNNEL_DATE_SIZE];
    if (day.month)
        runnel_doc_add(d->doc, RUNNEL_DOC_ENTRY, label, runnel_date_words(day, text, sizeof text));
}

static void add_job_basis(days_doc *d, const runnel_job *job, const runnel_plan *plan) {
    if (are_many(d)) {
        runnel_bench_title(say(d), job);
        said(d, RUNNEL_DOC_ENTRY, "job");
    }
    runnel_doc_add(d->doc, RUNNEL_DOC_ENTRY, "resin", job->resin.name);
    runnel_card_say_head(say(d), job, plan, RUNNEL_CARD_SHOP);
    said(d, RUNNEL_DOC_ENTRY, "shop");
    add_day(d, "start", job->days.start);
    add_day(d, "ready by", job->days.ready_by);
}

static void add_days_off(days_doc *d) {
    const runnel_days_off *off = &d->timings->off;
    if (!off->count)
        return;
    runnel_flow *flow = say(d);
    for (size_t i = 0; i < off->count; i++) {
        char text[RUNNEL_DATE_SIZE];
        runnel_flow_add(flow, i ? ", " : "");
        runnel_flow_add(flow, runnel_date_text(off->spans[i].from, text, sizeof text));
        if (runnel_date_days_between(off->spans[i].from, off->spans[i].to) == 0)
            continue;
        runnel_flow_add(flow, " to ");
        runnel_flow_add(flow, runnel_date_text(off->spans[i].to, text, sizeof text));
    }
    said(d, RUNNEL_DOC_ENTRY, "days off");
}

static void add_basis(days_doc *d) {
    const char *zone = NULL;
    runnel_doc_add(d->doc, RUNNEL_DOC_HEAD, "", "Worked out with");
    for (size_t i = 0; i < d->timings->count; i++) {
        add_job_basis(d, &d->jobs[i], &d->timings->items[i].plan);
        zone = zone ? zone : d->jobs[i].days.zone;
    }
    runnel_doc_add(d->doc, RUNNEL_DOC_ENTRY, "hours", d->timings->hours);
    if (zone)
        runnel_doc_add(d->doc, RUNNEL_DOC_ENTRY, "zone", zone);
    add_days_off(d);
    runnel_doc_add(d->doc, RUNNEL_DOC_ENTRY, "hands",
                   "minutes as 'runnel list work' shows; times of resin, sealer and oil by their "
                   "rows, the product's sheet goes before them");
}

void runnel_timeline_doc(const runnel_job *jobs, const runnel_timings *timings, runnel_doc *doc) {
    days_doc d = {.jobs = jobs, .timings = timings, .head = RUNNEL_DOC_HEAD, .doc = doc};
    doc->column = 18;
    add_title(&d);
    add_basis(&d);
    add_all(&d);
}

runnel_status runnel_write_timeline_text(const runnel_job *jobs, const runnel_timings *timings,
                                         FILE *out) {
    runnel_doc doc = {.count = 0};
    runnel_timeline_doc(jobs, timings, &doc);
    return runnel_doc_write(&doc, out);
}
