/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * From the steps of a job to days.
 */
#include "plan/days.h"

#include "base/memory.h"
#include "plan/working.h"

#include <math.h>
#include <string.h>

#define MINUTE_S 60.0

/** The tasks, as they are planned. */
typedef struct chaining {
    runnel_task *tasks;
    runnel_task_times *times;
    size_t count, last_pour;
    double wrap_from_s; /**< wait of the last task, for the one before it alone */
    const runnel_spans *open;
    runnel_bounds bounds;
    double end_s;
} chaining;

/** Plans the tasks from one to another, as early as can be from a moment on. */
static runnel_status chain_part(chaining *of, size_t from, size_t to, double start_s) {
    const runnel_bounds bounds = {start_s, INFINITY, 0};
    return runnel_chain_plan(of->tasks + from, to - from, of->open, &bounds, RUNNEL_AIM_EARLY,
                             of->times + from, &of->end_s);
}

/** Plans them forward. Wrapping waits for the last pour as well, however much lies in between, so
 * the last pour comes as early as can be, then the last work on the bench, and then wrapping. What
 * follows either may wait for as long as it likes: to be earlier there is never the worse. */
static runnel_status chain_early(chaining *of, double start_s) {
    size_t wrap = of->count - 1, head = of->last_pour == SIZE_MAX ? 0 : of->last_pour + 1;
    double poured_s = -INFINITY;
    runnel_status status = RUNNEL_OK;
    if (head) {
        status = chain_part(of, 0, head, start_s);
        poured_s = of->end_s;
    }
    if (!status && head < wrap)
        status = chain_part(of, head, wrap, head ? poured_s + of->tasks[head].from_s : start_s);
    if (status)
        return status;
    double done_s = of->end_s;
    of->tasks[wrap].from_s = fmax(of->wrap_from_s, poured_s + RUNNEL_WRAP_WAIT_S - done_s);
    status = chain_part(of, wrap, of->count, done_s + of->tasks[wrap].from_s);
    return status ? status : of->end_s <= of->bounds.end_s ? RUNNEL_OK : RUNNEL_NOT_POSSIBLE;
}

/** Finds the latest start that still ends in time, to the minute: what can be done from a moment
 * on can be done from any earlier one. */
static runnel_status chain_late(chaining *of) {
    double can_s = of->bounds.start_s, cannot_s = of->bounds.end_s;
    runnel_status status = chain_early(of, can_s);
    while (!status && cannot_s - can_s > MINUTE_S) {
        double middle_s = floor((can_s + cannot_s) / 2 / MINUTE_S) * MINUTE_S;
        status = chain_early(of, middle_s);
        if (status && status != RUNNEL_NOT_POSSIBLE)
            return status;
        if (status)
            cannot_s = middle_s;
        else
            can_s = middle_s;
        status = RUNNEL_OK;
    }
    return status ? status : chain_early(of, can_s);
}

/** Earliest and latest starts by which the end asked for is met: each has to leave time for what
 * comes after, and up to the last pour for the wait before wrapping too. */
static runnel_status find_ranges(chaining *of) {
    size_t head = of->last_pour == SIZE_MAX ? 0 : of->last_pour + 1;
    double end_s = NAN, stretched_s = of->tasks[of->count - 1].from_s;
    runnel_bounds bounds = of->bounds;
    runnel_task_times *times = runnel_zeroed(of->count, sizeof *times);
    if (!times)
        return RUNNEL_E_NO_MEMORY;
    of->tasks[of->count - 1].from_s = of->wrap_from_s;
    runnel_status status =
        runnel_chain_plan(of->tasks, of->count, of->open, &bounds, RUNNEL_AIM_EARLY, times, &end_s);
    of->tasks[of->count - 1].from_s = stretched_s;
    for (size_t i = 0; i < of->count && !status; i++) {
        of->times[i].earliest_s = fmax(of->times[i].earliest_s, times[i].earliest_s);
        of->times[i].latest_s = times[i].latest_s;
    }
    if (!status && head) {
        bounds.end_s = of->times[of->count - 1].latest_s;
        bounds.after_s = RUNNEL_WRAP_WAIT_S;
        status =
            runnel_chain_plan(of->tasks, head, of->open, &bounds, RUNNEL_AIM_EARLY, times, &end_s);
    }
    for (size_t i = 0; i < head && !status; i++) {
        of->times[i].earliest_s = fmax(of->times[i].earliest_s, times[i].earliest_s);
        of->times[i].latest_s = fmin(of->times[i].latest_s, times[i].latest_s);
    }
    runnel_free(times);
    return status;
}

static void take_times(const chaining *of, runnel_timing *timing) {
    for (size_t i = 0; i < of->count; i++) {
        timing->steps[i].times = of->times[i];
        timing->steps[i].task = of->tasks[i];
    }
    runnel_timing_step *wrap = &timing->steps[of->count - 1];
    if (wrap->task.from_s > 0 && !wrap->waits_for)
        wrap->waits_for = "the resin to bear paper";
    timing->is_planned = true;
    timing->ships_s = of->end_s;
    timing->last_s = of->times[of->count - 2].end_s;
    timing->wrap_s = timing->last_s + of->tasks[of->count - 1].from_s;
}

runnel_status runnel_days_plan(const runnel_spans *open, const runnel_bounds *bounds, bool late,
                               size_t last_pour, runnel_timing *timing) {
    chaining of = {.count = timing->step_count,
                   .last_pour = last_pour,
                   .open = open,
                   .bounds = *bounds,
                   .end_s = NAN};
    of.tasks = runnel_zeroed(of.count, sizeof *of.tasks);
    of.times = runnel_zeroed(of.count, sizeof *of.times);
    runnel_status status = of.tasks && of.times ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
    if (status)
        goto cleanup;
    timing->asked_s = of.bounds.end_s;
    for (size_t i = 0; i < of.count; i++)
        of.tasks[i] = timing->steps[i].task;
    of.wrap_from_s = of.tasks[of.count - 1].from_s;
    status = late ? chain_late(&of) : chain_early(&of, of.bounds.start_s);
    if (!status && isfinite(of.bounds.end_s))
        status = find_ranges(&of);
    if ((!status || status == RUNNEL_NOT_POSSIBLE) && !isnan(of.end_s))
        take_times(&of, timing);
cleanup:
    runnel_free(of.tasks);
    runnel_free(of.times);
    return status;
}
