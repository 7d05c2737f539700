/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/write_timeline.h"

#include "base/memory.h"
#include "write/finish_lines.h"
#include "write/moment.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/** Columns of a day's lines: the clock, and the work. */
enum { CLOCK = 4, WORK = 20 };

/** Shorter waits are not told. */
static const double told_wait_s = 60;

/** What the text is made of. */
typedef struct timeline_text {
    const runnel_job *jobs;
    const runnel_timings *timings;
    FILE *out;
} timeline_text;

static bool are_many(const timeline_text *of) {
    return of->timings->count > 1;
}

/* ---- Head --------------------------------------------------------------------------------------
 */

static void write_head(const timeline_text *of) {
    runnel_flow flow;
    if (!are_many(of)) {
        runnel_finish_head(of->out, "Timeline", of->jobs, &of->timings->items[0].plan);
        return;
    }
    runnel_flow_begin(&flow, of->out, 0);
    runnel_flow_format(&flow, "Timeline: %zu jobs, one pair of hands", of->timings->count);
    runnel_flow_end(&flow);
    fputc('\n', of->out);
    for (size_t i = 0; i < of->timings->count; i++) {
        if (!of->timings->items[i].plan.warning_count)
            continue;
        runnel_flow_begin(&flow, of->out, 0);
        runnel_bench_title(&flow, &of->jobs[i]);
        runnel_flow_end(&flow);
        runnel_bench_warnings(of->out, &of->timings->items[i].plan);
    }
}

static void add_basis(const timeline_text *of, const char *label, const char *text) {
    runnel_flow flow;
    runnel_finish_basis(&flow, of->out, label);
    runnel_flow_add(&flow, text);
    runnel_flow_end(&flow);
}

static void write_job_basis(const timeline_text *of, const runnel_job *job) {
    runnel_flow flow;
    char text[RUNNEL_DATE_SIZE];
    if (are_many(of)) {
        runnel_finish_basis(&flow, of->out, "job");
        runnel_bench_title(&flow, job);
        runnel_flow_end(&flow);
    }
    add_basis(of, "resin", job->resin.name);
    runnel_finish_basis(&flow, of->out, "shop");
    runnel_bench_plain(&flow, job->shop_degc,
                       "\xC2\xB0"
                       "C");
    runnel_flow_add(&flow, job->shop_is_default ? " (not given, so taken)" : "");
    runnel_flow_end(&flow);
    if (job->days.start.month)
        add_basis(of, "start", runnel_date_words(job->days.start, text, sizeof text));
    if (job->days.ready_by.month)
        add_basis(of, "ready by", runnel_date_words(job->days.ready_by, text, sizeof text));
}

static void write_days_off(const timeline_text *of) {
    const runnel_days_off *off = &of->timings->off;
    runnel_flow flow;
    if (!off->count)
        return;
    runnel_finish_basis(&flow, of->out, "days off");
    for (size_t i = 0; i < off->count; i++) {
        char text[RUNNEL_DATE_SIZE];
        runnel_flow_add(&flow, i ? ", " : "");
        runnel_flow_add(&flow, runnel_date_text(off->spans[i].from, text, sizeof text));
        if (runnel_date_days_between(off->spans[i].from, off->spans[i].to) == 0)
            continue;
        runnel_flow_add(&flow, " to ");
        runnel_flow_add(&flow, runnel_date_text(off->spans[i].to, text, sizeof text));
    }
    runnel_flow_end(&flow);
}

static void write_basis(const timeline_text *of) {
    const char *zone = NULL;
    runnel_layout_paragraph(of->out, 0, "Worked out with");
    for (size_t i = 0; i < of->timings->count; i++) {
        write_job_basis(of, &of->jobs[i]);
        zone = zone ? zone : of->jobs[i].days.zone;
    }
    add_basis(of, "hours", of->timings->hours);
    if (zone)
        add_basis(of, "zone", zone);
    write_days_off(of);
    add_basis(of, "hands",
              "minutes as 'runnel list work' shows; times of resin, sealer and oil by their rows, "
              "the product's sheet goes before them");
}

/* ---- Days --------------------------------------------------------------------------------------
 */

/** A step of a job, to be put in the order of time. */
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

static void add_job(const timeline_text *of, size_t job, runnel_flow *flow) {
    if (!are_many(of))
        return;
    runnel_bench_title(flow, &of->jobs[job]);
    runnel_flow_add(flow, ": ");
}

static void write_wait(const timeline_text *of, const placed_step *placed) {
    const runnel_timing_step *step = &of->timings->items[placed->job].steps[placed->step];
    const runnel_task *task = &step->task;
    runnel_flow flow;
    if (!placed->step || !(task->from_s > told_wait_s))
        return;
    double wait_s = step->times.start_s - step[-1].times.end_s;
    runnel_flow_begin(&flow, of->out, WORK);
    add_job(of, placed->job, &flow);
    runnel_flow_add(&flow, "waits ");
    runnel_bench_time(&flow, wait_s);
    if (wait_s - task->from_s > told_wait_s) {
        runnel_flow_add(&flow, ", at least ");
        runnel_bench_time(&flow, task->from_s);
    } else {
        runnel_flow_add(&flow, ", no less");
    }
    if (step->waits_for) {
        runnel_flow_add(&flow, ", for ");
        runnel_flow_add(&flow, step->waits_for);
    }
    if (isfinite(task->until_s)) {
        runnel_flow_add(&flow, isnan(task->late_s) ? "; at most " : "; without scuffing at most ");
        runnel_bench_time(&flow, task->until_s);
    }
    runnel_flow_end(&flow);
}

static void write_step(const timeline_text *of, const placed_step *placed) {
    const runnel_zone *zone = of->timings->zone;
    const runnel_timing_step *step = &of->timings->items[placed->job].steps[placed->step];
    const runnel_task_times *times = &step->times;
    int start = 0, end = 0;
    char text[RUNNEL_MOMENT_SIZE];
    runnel_date day = runnel_moment_day(zone, times->start_s, &start);
    runnel_date last = runnel_moment_day(zone, times->end_s, &end);
    bool same = runnel_date_days_between(day, last) == 0;
    runnel_flow flow;
    runnel_flow_begin(&flow, of->out, CLOCK);
    runnel_flow_format(&flow, same ? "%02d:%02d-%02d:%02d" : "%02d:%02d-...", start / 60,
                       start % 60, end / 60, end % 60);
    runnel_flow_tab(&flow, WORK);
    add_job(of, placed->job, &flow);
    runnel_flow_add(&flow, step->text);
    runnel_flow_add(&flow, times->is_late ? ", scuffed first: " : ": ");
    double hands_s = step->task.hands_s + (times->is_late ? step->task.late_s : 0);
    runnel_bench_time(&flow, hands_s);
    runnel_flow_add(&flow, " of hands");
    if (!same) {
        runnel_flow_add(&flow, ", until ");
        runnel_flow_add(&flow, runnel_moment_short(zone, times->end_s, text));
    } else if (times->end_s - times->start_s > hands_s) {
        runnel_flow_add(&flow, ", left and taken up again in between");
    }
    if (times->latest_s > times->start_s) {
        runnel_flow_add(&flow, "; latest start ");
        runnel_flow_add(&flow, runnel_moment_short(zone, times->latest_s, text));
    }
    runnel_flow_end(&flow);
}

static runnel_status write_days(const timeline_text *of) {
    size_t count = 0, most = 0;
    for (size_t i = 0; i < of->timings->count; i++)
        most += of->timings->items[i].step_count;
    placed_step *all = runnel_zeroed(most, sizeof *all);
    if (!all)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < of->timings->count; i++)
        for (size_t k = 0; of->timings->items[i].is_planned && k < of->timings->items[i].step_count;
             k++)
            all[count++] = (placed_step){i, k, of->timings->items[i].steps[k].times.start_s};
    qsort(all, count, sizeof *all, by_start);
    runnel_date before = {0, 0, 0};
    for (size_t i = 0; i < count; i++) {
        int minutes = 0;
        char text[RUNNEL_DATE_SIZE];
        runnel_date day = runnel_moment_day(of->timings->zone, all[i].start_s, &minutes);
        write_wait(of, &all[i]);
        if (!i || runnel_date_days_between(before, day) != 0)
            runnel_finish_heading(of->out, runnel_date_words(day, text, sizeof text));
        before = day;
        write_step(of, &all[i]);
    }
    runnel_free(all);
    return RUNNEL_OK;
}

/* ---- Ends --------------------------------------------------------------------------------------
 */

static void write_end(const timeline_text *of, const char *label, double moment_s,
                      const char *note) {
    char text[RUNNEL_MOMENT_SIZE];
    runnel_flow flow;
    runnel_flow_begin(&flow, of->out, CLOCK);
    runnel_flow_add(&flow, label);
    runnel_flow_tab(&flow, WORK + 2);
    runnel_flow_add(&flow, isnan(moment_s)
                               ? "not known"
                               : runnel_moment_words(of->timings->zone, moment_s, text));
    runnel_flow_add(&flow, note);
    runnel_flow_end(&flow);
}

static void write_remedies(const timeline_text *of, const runnel_timing *timing) {
    if (!timing->remedy_count)
        return;
    runnel_finish_heading(of->out, "What would buy time");
    for (size_t i = 0; i < timing->remedy_count; i++) {
        const runnel_timing_remedy *remedy = &timing->remedies[i];
        char text[RUNNEL_MOMENT_SIZE];
        runnel_flow flow;
        runnel_flow_begin(&flow, of->out, 2);
        runnel_flow_add(&flow, "- ");
        runnel_flow_tab(&flow, CLOCK);
        runnel_flow_add(&flow, remedy->text);
        runnel_flow_add(&flow, ": ready to ship ");
        runnel_flow_add(&flow, runnel_moment_words(of->timings->zone, remedy->ships_s, text));
        runnel_flow_add(&flow, remedy->suffices ? ", in time" : ", still too late");
        runnel_flow_end(&flow);
    }
}

static void write_ends(const timeline_text *of, size_t index) {
    const runnel_timing *timing = &of->timings->items[index];
    const runnel_job *job = &of->jobs[index];
    runnel_flow flow;
    fputc('\n', of->out);
    runnel_flow_begin(&flow, of->out, 0);
    add_job(of, index, &flow);
    if (!timing->is_planned) {
        runnel_flow_add(&flow, "No day can be told; see the warnings above.");
        runnel_flow_end(&flow);
        return;
    }
    runnel_flow_add(&flow, are_many(of) ? "ready" : "Ready");
    runnel_flow_end(&flow);
    write_end(of, "off the bench", timing->last_s, "");
    write_end(of, "to be wrapped", timing->wrap_s, "");
    write_end(of, "to ship", timing->ships_s, "");
    if (!runnel_use_is_outdoors(job->upkeep.use))
        write_end(of, "for food", timing->food_s,
                  "; only where the sheets of resin and oil say so");
    fputc('\n', of->out);
    runnel_flow_begin(&flow, of->out, CLOCK);
    runnel_bench_time(&flow, timing->hands_s);
    runnel_flow_add(&flow, " of hands, ");
    runnel_bench_time(&flow, timing->ships_s - timing->steps[0].times.start_s - timing->hands_s);
    runnel_flow_add(&flow, " of waiting, nights and days off");
    runnel_flow_end(&flow);
    write_remedies(of, timing);
}

runnel_status runnel_write_timeline_text(const runnel_job *jobs, const runnel_timings *timings,
                                         FILE *out) {
    const timeline_text of = {jobs, timings, out};
    write_head(&of);
    write_basis(&of);
    runnel_status status = write_days(&of);
    for (size_t i = 0; i < timings->count; i++)
        write_ends(&of, i);
    runnel_status closed = runnel_layout_close(out);
    return status ? status : closed;
}
