/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/write_finish.h"
#include "write/finish_lines.h"
#include "write/moment.h"

#include <math.h>
#include <string.h>

/** Columns of a day's lines: the clock, and the work. */
enum { CLOCK = 4, WORK = 20 };

/** Shorter waits are not told. */
static const double told_wait_s = 60;

static void write_basis(const runnel_job *job, const runnel_timing_order *order, FILE *out) {
    runnel_flow flow;
    char text[RUNNEL_DATE_SIZE];
    runnel_layout_paragraph(out, 0, "Worked out with");
    runnel_finish_basis(&flow, out, "resin");
    runnel_flow_add(&flow, job->resin.name);
    runnel_flow_end(&flow);
    runnel_finish_basis(&flow, out, "shop");
    runnel_bench_plain(&flow, job->shop_degc,
                       "\xC2\xB0"
                       "C");
    runnel_flow_add(&flow, job->shop_is_default ? " (not given, so taken)" : "");
    runnel_flow_end(&flow);
    runnel_finish_basis(&flow, out, "hours");
    runnel_flow_add(&flow, order->hours ? order->hours : "");
    runnel_flow_end(&flow);
    if (order->start.month) {
        runnel_finish_basis(&flow, out, "start");
        runnel_flow_add(&flow, runnel_date_words(order->start, text, sizeof text));
        runnel_flow_end(&flow);
    }
    if (order->ready_by.month) {
        runnel_finish_basis(&flow, out, "ready by");
        runnel_flow_add(&flow, runnel_date_words(order->ready_by, text, sizeof text));
        runnel_flow_end(&flow);
    }
    runnel_finish_basis(&flow, out, "hands");
    runnel_flow_add(&flow, "minutes by common practice; times of resin, sealer and oil by their "
                           "rows, the product's sheet goes before them");
    runnel_flow_end(&flow);
}

/* ---- Days --------------------------------------------------------------------------------------
 */

static void write_wait(const runnel_timing *timing, size_t index, FILE *out) {
    double wait_s = timing->steps[index].times.start_s - timing->steps[index - 1].times.end_s;
    const runnel_task *task = &timing->steps[index].task;
    runnel_flow flow;
    if (!(task->from_s > told_wait_s) || !(wait_s > told_wait_s))
        return;
    runnel_flow_begin(&flow, out, WORK);
    runnel_flow_add(&flow, "waits ");
    runnel_bench_time(&flow, wait_s);
    if (wait_s - task->from_s > told_wait_s) {
        runnel_flow_add(&flow, ", at least ");
        runnel_bench_time(&flow, task->from_s);
    } else {
        runnel_flow_add(&flow, ", no less");
    }
    if (isfinite(task->until_s)) {
        runnel_flow_add(&flow, isnan(task->late_s) ? ", at most " : ", without scuffing at most ");
        runnel_bench_time(&flow, task->until_s);
    }
    runnel_flow_end(&flow);
}

static void write_step(const runnel_timing_order *order, const runnel_timing_step *step,
                       FILE *out) {
    const runnel_task_times *times = &step->times;
    int start = 0, end = 0;
    char text[RUNNEL_MOMENT_SIZE];
    runnel_date day = runnel_moment_day(order->zone, times->start_s, &start);
    runnel_date last = runnel_moment_day(order->zone, times->end_s, &end);
    bool same = day.year == last.year && day.month == last.month && day.day == last.day;
    runnel_flow flow;
    runnel_flow_begin(&flow, out, CLOCK);
    runnel_flow_format(&flow, same ? "%02d:%02d-%02d:%02d" : "%02d:%02d-...", start / 60,
                       start % 60, end / 60, end % 60);
    runnel_flow_tab(&flow, WORK);
    runnel_flow_add(&flow, step->text);
    runnel_flow_add(&flow, times->is_late ? ", scuffed first: " : ": ");
    runnel_bench_time(&flow, step->task.hands_s + (times->is_late ? step->task.late_s : 0));
    runnel_flow_add(&flow, " of hands");
    if (!same) {
        runnel_flow_add(&flow, ", until ");
        runnel_flow_add(&flow, runnel_moment_words(order->zone, times->end_s, text));
    }
    if (times->latest_s > times->start_s) {
        runnel_flow_add(&flow, "; to begin at the latest ");
        runnel_flow_add(&flow, runnel_moment_words(order->zone, times->latest_s, text));
    }
    runnel_flow_end(&flow);
}

static void write_days(const runnel_timing_order *order, const runnel_timing *timing, FILE *out) {
    runnel_date before = {0, 0, 0};
    for (size_t i = 0; i < timing->step_count; i++) {
        int minutes = 0;
        char text[RUNNEL_DATE_SIZE];
        runnel_date day = runnel_moment_day(order->zone, timing->steps[i].times.start_s, &minutes);
        if (i)
            write_wait(timing, i, out);
        if (!i || runnel_date_days_between(before, day) != 0) {
            fputc('\n', out);
            runnel_layout_paragraph(out, 0, runnel_date_words(day, text, sizeof text));
        }
        before = day;
        write_step(order, &timing->steps[i], out);
    }
}

/* ---- Ends --------------------------------------------------------------------------------------
 */

static void write_end(const runnel_timing_order *order, const char *label, double moment_s,
                      const char *note, FILE *out) {
    char text[RUNNEL_MOMENT_SIZE];
    runnel_flow flow;
    runnel_flow_begin(&flow, out, CLOCK);
    runnel_flow_add(&flow, label);
    runnel_flow_tab(&flow, WORK + 2);
    runnel_flow_add(&flow, isnan(moment_s) ? "not known"
                                           : runnel_moment_words(order->zone, moment_s, text));
    runnel_flow_add(&flow, note);
    runnel_flow_end(&flow);
}

static void write_ends(const runnel_timing_order *order, const runnel_timing *timing, FILE *out) {
    runnel_flow flow;
    double first_s = timing->steps[0].times.start_s;
    fputc('\n', out);
    runnel_layout_paragraph(out, 0, "Ready");
    write_end(order, "worked on", timing->last_s, "", out);
    write_end(order, "to be wrapped", timing->wrap_s, "", out);
    write_end(order, "to ship", timing->ships_s, "", out);
    write_end(order, "for food", timing->food_s, "; only where the sheets of resin and oil say so",
              out);
    fputc('\n', out);
    runnel_flow_begin(&flow, out, CLOCK);
    runnel_bench_time(&flow, timing->hands_s);
    runnel_flow_add(&flow, " of hands, ");
    runnel_bench_time(&flow, timing->ships_s - first_s - timing->hands_s);
    runnel_flow_add(&flow, " of waiting, nights and days off");
    runnel_flow_end(&flow);
}

static void write_remedies(const runnel_timing_order *order, const runnel_timing *timing,
                           FILE *out) {
    if (!timing->remedy_count)
        return;
    fputc('\n', out);
    runnel_layout_paragraph(out, 0, "What would buy time");
    for (size_t i = 0; i < timing->remedy_count; i++) {
        const runnel_timing_remedy *remedy = &timing->remedies[i];
        char text[RUNNEL_MOMENT_SIZE];
        runnel_flow flow;
        runnel_flow_begin(&flow, out, 2);
        runnel_flow_add(&flow, "- ");
        runnel_flow_tab(&flow, CLOCK);
        runnel_flow_add(&flow, remedy->text);
        runnel_flow_add(&flow, ": ready to ship ");
        runnel_flow_add(&flow, runnel_moment_words(order->zone, remedy->ships_s, text));
        runnel_flow_add(&flow, remedy->suffices ? ", in time" : ", still too late");
        runnel_flow_end(&flow);
    }
}

runnel_status runnel_write_timeline_text(const runnel_job *job, const runnel_timing_order *order,
                                         const runnel_timing *timing, FILE *out) {
    runnel_finish_head(out, "Timeline", job, &timing->plan);
    write_basis(job, order, out);
    if (timing->is_planned && timing->step_count) {
        write_days(order, timing, out);
        write_ends(order, timing, out);
    } else {
        fputc('\n', out);
        runnel_layout_paragraph(out, 0, "No day can be told; see the warnings above.");
    }
    write_remedies(order, timing, out);
    return runnel_layout_close(out);
}
