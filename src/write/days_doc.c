/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/days_doc.h"

#include "write/bench.h"
#include "write/moment.h"

#include <math.h>

/* Shorter waits are not told. */
static const double told_wait_s = 60;

static void add_pictures(const runnel_timings *timings, size_t index, runnel_doc *doc) {
    const runnel_timing *timing = &timings->items[index];
    for (size_t first = 0; first < timing->step_count; first += RUNNEL_DAYS_STEPS)
        runnel_doc_show(doc, RUNNEL_IMAGE_DAYS, index, first,
                        "Black: hands are busy. Outlined: it waits. Grey: the shop is closed.",
                        "Bars of the steps over the days; the same is told below as text.");
}

static void add_step(const runnel_timings *timings, const runnel_timing *timing, size_t index,
                     runnel_doc *doc) {
    const runnel_timing_step *step = &timing->steps[index];
    const runnel_task_times *times = &step->times;
    const double wait_s = index ? times->start_s - step[-1].times.end_s : 0;
    char start[RUNNEL_MOMENT_SIZE], text[RUNNEL_MOMENT_SIZE];
    runnel_flow flow;
    runnel_doc_say(doc, &flow);
    runnel_flow_add(&flow, step->text);
    runnel_flow_add(&flow, times->is_late ? ", scuffed first: " : ": ");
    runnel_bench_time(&flow, step->task.hands_s + (times->is_late ? step->task.late_s : 0));
    runnel_flow_add(&flow, " of hands, until ");
    runnel_flow_add(&flow, runnel_moment_short(timings->zone, times->end_s, text));
    if (index && step->task.from_s > told_wait_s) {
        runnel_flow_add(&flow, "; after a wait of ");
        runnel_bench_time(&flow, wait_s);
        if (step->waits_for) {
            runnel_flow_add(&flow, " for ");
            runnel_flow_add(&flow, step->waits_for);
        }
    }
    if (times->latest_s > times->start_s) {
        runnel_flow_add(&flow, "; latest start ");
        runnel_flow_add(&flow, runnel_moment_short(timings->zone, times->latest_s, text));
    }
    runnel_doc_said(doc, RUNNEL_DOC_ENTRY,
                    runnel_moment_short(timings->zone, times->start_s, start), &flow);
}

static void add_end(const runnel_timings *timings, const char *label, double moment_s,
                    const char *note, runnel_doc *doc) {
    char text[RUNNEL_MOMENT_SIZE];
    runnel_flow flow;
    runnel_doc_say(doc, &flow);
    runnel_flow_add(&flow, isnan(moment_s) ? "not known"
                                           : runnel_moment_words(timings->zone, moment_s, text));
    runnel_flow_add(&flow, note);
    runnel_doc_said(doc, RUNNEL_DOC_ENTRY, label, &flow);
}

static void add_ends(const runnel_job *job, const runnel_timings *timings,
                     const runnel_timing *timing, runnel_doc *doc) {
    runnel_flow flow;
    add_end(timings, "off the bench", timing->last_s, "", doc);
    add_end(timings, "to be wrapped", timing->wrap_s, "", doc);
    add_end(timings, "to ship", timing->ships_s, "", doc);
    if (!runnel_use_is_outdoors(job->upkeep.use))
        add_end(timings, "for food", timing->food_s,
                "; only where the sheets of resin and oil say so", doc);
    runnel_bench_time(runnel_doc_say(doc, &flow), timing->hands_s);
    runnel_flow_add(&flow, " of hands, ");
    runnel_bench_time(&flow, timing->ships_s - timing->steps[0].times.start_s - timing->hands_s);
    runnel_flow_add(&flow, " of waiting, nights and days off");
    runnel_doc_said(doc, RUNNEL_DOC_ENTRY, "in all", &flow);
}

static void add_remedies(const runnel_timings *timings, const runnel_timing *timing,
                         runnel_doc *doc) {
    for (size_t i = 0; i < timing->remedy_count; i++) {
        const runnel_timing_remedy *remedy = &timing->remedies[i];
        char text[RUNNEL_MOMENT_SIZE];
        runnel_flow flow;
        runnel_doc_say(doc, &flow);
        runnel_flow_add(&flow, remedy->text);
        runnel_flow_add(&flow, ": ready to ship ");
        runnel_flow_add(&flow, isnan(remedy->ships_s)
                                   ? "on a day that is not known"
                                   : runnel_moment_words(timings->zone, remedy->ships_s, text));
        runnel_flow_add(&flow, remedy->suffices ? ", in time" : ", still too late");
        runnel_doc_said(doc, RUNNEL_DOC_ENTRY, "would buy time", &flow);
    }
}

void runnel_days_doc(const runnel_job *job, const runnel_timings *timings, size_t index,
                     runnel_doc *doc) {
    const runnel_timing *timing = &timings->items[index];
    if (!timing->is_planned || !timing->step_count) {
        runnel_doc_add(doc, RUNNEL_DOC_TEXT, "", "No day can be told; see the warnings above.");
        return;
    }
    add_pictures(timings, index, doc);
    for (size_t i = 0; i < timing->step_count; i++)
        add_step(timings, timing, i, doc);
    add_ends(job, timings, timing, doc);
    add_remedies(timings, timing, doc);
}

/* The warnings of one of several jobs, with its name. */
static void warn(const runnel_job *job, const runnel_plan *plan, runnel_doc *doc) {
    for (size_t i = 0; i < plan->warning_count; i++) {
        runnel_flow flow;
        runnel_bench_title(runnel_doc_say(doc, &flow), job);
        runnel_flow_add(&flow, ", ");
        runnel_flow_add(&flow, plan->warnings[i].where ? plan->warnings[i].where : "");
        runnel_flow_end(&flow);
        doc->failed = doc->failed || doc->line.failed;
        runnel_doc_add(doc, RUNNEL_DOC_WARNING, doc->line.text ? doc->line.text : "",
                       plan->warnings[i].text);
    }
}

void runnel_timeline_doc(const runnel_job *jobs, const runnel_timings *timings, runnel_doc *doc) {
    runnel_flow flow;
    if (timings->count == 1) {
        runnel_doc_begin(doc, "Timeline", jobs, &timings->items[0].plan);
    } else {
        runnel_flow_format(runnel_doc_say(doc, &flow), "%zu jobs, one pair of hands",
                           timings->count);
        runnel_doc_said(doc, RUNNEL_DOC_TITLE, "Timeline", &flow);
        for (size_t i = 0; i < timings->count; i++)
            warn(&jobs[i], &timings->items[i].plan, doc);
    }
    runnel_doc_add(doc, RUNNEL_DOC_ENTRY, "hours of the shop", timings->hours);
    for (size_t i = 0; i < timings->count; i++) {
        if (timings->count > 1) {
            runnel_bench_title(runnel_doc_say(doc, &flow), &jobs[i]);
            runnel_doc_said(doc, RUNNEL_DOC_HEAD, "", &flow);
        }
        runnel_days_doc(&jobs[i], timings, i, doc);
    }
}
