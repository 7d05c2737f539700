/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A chain of tasks: sets of starts and ends, forward and backward.
 *
 * Forward, the ends of a task give the starts of the next: a span [a, b] of ends becomes [a + from,
 * b + until], of which stays what lies in the hours, and the starts give its ends. Backward it is
 * the same the other way. A task that comes too late, with more hands needed, is a second way to
 * the same end. Both sets together tell all that is possible, without a search.
 *
 * A task that divides goes on over closed hours. So work is counted by the time that the shop was
 * open, u: a start at u ends at u + hands.
 *
 * All durations are taken as whole seconds, so that sums and differences are exact.
 */
#include "base/memory.h"
#include "clock/spans.h"

#include <math.h>

/** In time, or late with more hands. */
enum { IN_TIME, LATE, WAYS };

/** Sets of a task, for each way. */
typedef struct task_sets {
    runnel_spans reached[WAYS]; /**< starts that can be reached from the beginning */
    runnel_spans leading[WAYS]; /**< starts that lead to the end in time */
    runnel_spans ends;          /**< of what is reached, either way */
} task_sets;

/** A chain at work. */
typedef struct chain {
    const runnel_task *tasks;
    size_t count;
    const runnel_spans *open;
    double *opened_s; /**< open time before each span of the hours, and in all */
    runnel_bounds bounds;
    task_sets *sets;
    runnel_spans scratch, windows;
} chain;

static double hands_of(const runnel_task *task, int way) {
    return ceil(task->hands_s) + (way == LATE ? ceil(task->late_s) : 0);
}

static double from_of(const runnel_task *task) {
    return ceil(task->from_s);
}

static double until_of(const runnel_task *task) {
    return fmax(floor(task->until_s), from_of(task));
}

/** The least wait of one who is late. */
static double late_from_of(const runnel_task *task) {
    return fmax(until_of(task), ceil(task->late_from_s));
}

static bool has_way(const chain *c, size_t task, int way) {
    const runnel_task *t = &c->tasks[task];
    return way == IN_TIME || (task > 0 && isfinite(t->until_s) && !isnan(t->late_s));
}

/* ---- Open time ---------------------------------------------------------------------------------
 */

/** Open time up to a moment within the hours. */
static double opened_at(const chain *c, double moment_s) {
    size_t low = 0, high = c->open->count; /* the last span that begins by then is below `high` */
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (c->open->items[middle].from_s <= moment_s)
            low = middle + 1;
        else
            high = middle;
    }
    if (low == 0)
        return 0;
    const runnel_span *span = &c->open->items[low - 1];
    return c->opened_s[low - 1] + fmin(moment_s, span->to_s) - span->from_s;
}

/** The first span of the hours at whose end so much open time has passed; their count for none. */
static size_t span_of(const chain *c, double u) {
    size_t low = 0, high = c->open->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (c->opened_s[middle + 1] < u)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/** Adds the moments of a span of open time. Where the shop closes one count stands for two moments:
 * an end is when it closes, a start when it opens again. */
static runnel_status add_moments(const chain *c, double from_u, double to_u, bool ends,
                                 runnel_spans *moments) {
    runnel_status status = RUNNEL_OK;
    for (size_t i = span_of(c, from_u); i < c->open->count && c->opened_s[i] <= to_u && !status;
         i++) {
        double low = fmax(from_u, c->opened_s[i] + (ends && i > 0 ? 1 : 0));
        double high = fmin(to_u, c->opened_s[i + 1] - (ends ? 0 : 1));
        status = runnel_spans_add(moments, c->open->items[i].from_s + low - c->opened_s[i],
                                  c->open->items[i].from_s + high - c->opened_s[i]);
    }
    return status;
}

/** Moves spans that lie in the hours by so much open time. */
static runnel_status move_open(const chain *c, const runnel_spans *spans, double by_s,
                               runnel_spans *moved) {
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < spans->count && !status; i++)
        status = add_moments(c, opened_at(c, spans->items[i].from_s) + by_s,
                             opened_at(c, spans->items[i].to_s) + by_s, by_s >= 0, moved);
    return status;
}

static runnel_status move_plain(const runnel_spans *spans, double by_s, runnel_spans *moved) {
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < spans->count && !status; i++)
        status =
            runnel_spans_add(moved, spans->items[i].from_s + by_s, spans->items[i].to_s + by_s);
    return status;
}

/** All starts of a task in the hours, whatever comes before or after. */
static runnel_status free_starts(const chain *c, const runnel_task *task, double hands_s,
                                 runnel_spans *starts) {
    runnel_status status = RUNNEL_OK;
    starts->count = 0;
    if (task->divides && hands_s > 0)
        return c->opened_s[c->open->count] < hands_s
                   ? RUNNEL_OK
                   : add_moments(c, 0, c->opened_s[c->open->count] - hands_s, false, starts);
    for (size_t i = 0; i < c->open->count && !status; i++)
        status =
            runnel_spans_add(starts, c->open->items[i].from_s, c->open->items[i].to_s - hands_s);
    return status;
}

/** Adds the ends of starts, or the starts of ends. */
static runnel_status add_ends(const chain *c, const runnel_task *task, double hands_s,
                              const runnel_spans *starts, runnel_spans *ends) {
    return task->divides && hands_s != 0 ? move_open(c, starts, hands_s, ends)
                                         : move_plain(starts, hands_s, ends);
}

/* ---- Forward -----------------------------------------------------------------------------------
 */

/** When a task may start by the ends of the one before, hours aside. */
static runnel_status add_windows(const chain *c, size_t task, int way, runnel_spans *windows) {
    runnel_status status = RUNNEL_OK;
    windows->count = 0;
    if (task == 0)
        return runnel_spans_add(windows, ceil(c->bounds.start_s), INFINITY);
    const runnel_spans *ends = &c->sets[task - 1].ends;
    double from_s = from_of(&c->tasks[task]), until_s = until_of(&c->tasks[task]);
    for (size_t i = 0; i < ends->count && !status; i++)
        status = runnel_spans_add(
            windows, ends->items[i].from_s + (way == LATE ? late_from_of(&c->tasks[task]) : from_s),
            way == LATE ? INFINITY : ends->items[i].to_s + until_s);
    runnel_spans_join(windows);
    return status;
}

static runnel_status reach(chain *c, size_t task) {
    task_sets *sets = &c->sets[task];
    runnel_status status = RUNNEL_OK;
    for (int way = 0; way < WAYS && !status; way++) {
        if (!has_way(c, task, way))
            continue;
        double hands_s = hands_of(&c->tasks[task], way);
        status = add_windows(c, task, way, &c->windows);
        if (!status)
            status = free_starts(c, &c->tasks[task], hands_s, &c->scratch);
        if (!status)
            status = runnel_spans_common(&c->windows, &c->scratch, &sets->reached[way]);
        if (!status)
            status = add_ends(c, &c->tasks[task], hands_s, &sets->reached[way], &sets->ends);
    }
    runnel_spans_join(&sets->ends);
    return status;
}

/* ---- Backward ----------------------------------------------------------------------------------
 */

/** Ends of a task that lead on: before the bound's end, or to a start of the next. */
static runnel_status add_leading_ends(const chain *c, size_t task, double end_s,
                                      runnel_spans *ends) {
    runnel_status status = RUNNEL_OK;
    ends->count = 0;
    if (task + 1 == c->count)
        return runnel_spans_add(ends, -INFINITY, end_s);
    const runnel_task *next = &c->tasks[task + 1];
    for (int way = 0; way < WAYS; way++) {
        const runnel_spans *starts = &c->sets[task + 1].leading[way];
        for (size_t i = 0; i < starts->count && !status && has_way(c, task + 1, way); i++)
            status = way == LATE ? runnel_spans_add(ends, -INFINITY,
                                                    starts->items[i].to_s - late_from_of(next))
                                 : runnel_spans_add(ends, starts->items[i].from_s - until_of(next),
                                                    starts->items[i].to_s - from_of(next));
    }
    runnel_spans_join(ends);
    return status;
}

static runnel_status lead(chain *c, size_t task, double end_s) {
    task_sets *sets = &c->sets[task];
    const runnel_task *t = &c->tasks[task];
    runnel_spans ends = {0}, possible = {0};
    runnel_status status = add_leading_ends(c, task, end_s, &c->windows);
    for (int way = 0; way < WAYS && !status; way++) {
        double hands_s = hands_of(t, way);
        sets->leading[way].count = ends.count = possible.count = 0;
        if (!has_way(c, task, way))
            continue;
        status = free_starts(c, t, hands_s, &c->scratch);
        if (!status)
            status = add_ends(c, t, hands_s, &c->scratch, &ends);
        runnel_spans_join(&ends);
        if (!status)
            status = runnel_spans_common(&ends, &c->windows, &possible);
        if (!status)
            status = add_ends(c, t, -hands_s, &possible, &sets->leading[way]);
        runnel_spans_join(&sets->leading[way]);
    }
    runnel_spans_clear(&ends);
    runnel_spans_clear(&possible);
    return status;
}

static runnel_status lead_all(chain *c, double end_s) {
    runnel_status status = RUNNEL_OK;
    for (size_t i = c->count; i-- > 0 && !status;)
        status = lead(c, i, end_s);
    return status;
}

/* ---- Choosing ----------------------------------------------------------------------------------
 */

static double end_of(const chain *c, size_t task, int way, double start_s) {
    double hands_s = hands_of(&c->tasks[task], way);
    if (!c->tasks[task].divides || hands_s == 0)
        return start_s + hands_s;
    double u = opened_at(c, start_s) + hands_s;
    size_t i = span_of(c, u);
    return i < c->open->count ? c->open->items[i].from_s + u - c->opened_s[i] : INFINITY;
}

/** Starts of a task that are reached and lead on, one way. */
static runnel_status both_sets(chain *c, size_t task, int way) {
    return runnel_spans_common(&c->sets[task].reached[way], &c->sets[task].leading[way],
                               &c->scratch);
}

static void keep(const chain *c, size_t task, int way, double start_s, runnel_task_times *times) {
    times->start_s = start_s;
    times->end_s = end_of(c, task, way, start_s);
    times->is_late = way == LATE;
}

/** The first or the last start of one way after an end of the task before; NAN for none. Both sets
 * of the task are at hand. */
static double pick(const chain *c, size_t task, int way, runnel_aim aim, double end_s) {
    double from_s = task ? end_s + from_of(&c->tasks[task]) : -INFINITY;
    double until_s = task ? end_s + until_of(&c->tasks[task]) : INFINITY;
    double late_s = task ? end_s + late_from_of(&c->tasks[task]) : INFINITY;
    double low_s = way == LATE ? late_s : from_s, high_s = way == LATE ? INFINITY : until_s;
    double start_s = aim == RUNNEL_AIM_EARLY ? runnel_spans_first(&c->scratch, low_s)
                                             : runnel_spans_last(&c->scratch, high_s);
    return start_s >= low_s && start_s <= high_s ? start_s : NAN;
}

/** Walks along the chain, each task as early or as late as it can be. */
static runnel_status choose(chain *c, runnel_aim aim, runnel_task_times *times) {
    for (size_t i = 0; i < c->count; i++) {
        double best = NAN;
        for (int way = 0; way < WAYS; way++) {
            if (!has_way(c, i, way))
                continue;
            runnel_status status = both_sets(c, i, way);
            if (status)
                return status;
            double start_s = pick(c, i, way, aim, i ? times[i - 1].end_s : 0);
            if (isnan(start_s) || (aim == RUNNEL_AIM_EARLY ? start_s >= best : start_s <= best))
                continue;
            best = start_s;
            keep(c, i, way, start_s, &times[i]);
        }
    }
    return RUNNEL_OK;
}

/** Earliest and latest starts of all. */
static runnel_status find_ranges(chain *c, bool has_end, runnel_task_times *times) {
    for (size_t i = 0; i < c->count; i++) {
        times[i].earliest_s = times[i].latest_s = NAN;
        for (int way = 0; way < WAYS; way++) {
            runnel_status status = has_way(c, i, way) ? both_sets(c, i, way) : RUNNEL_OK;
            if (status)
                return status;
            if (!has_way(c, i, way) || !c->scratch.count)
                continue;
            times[i].earliest_s = fmin(times[i].earliest_s, c->scratch.items[0].from_s);
            if (has_end)
                times[i].latest_s =
                    fmax(times[i].latest_s, c->scratch.items[c->scratch.count - 1].to_s);
        }
    }
    return RUNNEL_OK;
}

/* ---- All ---------------------------------------------------------------------------------------
 */

static bool is_valid(const runnel_task *tasks, size_t count, const runnel_bounds *bounds) {
    bool fine = count > 0 && count <= RUNNEL_TASKS_MOST && isfinite(bounds->start_s) &&
                !isnan(bounds->end_s) && bounds->after_s >= 0 && isfinite(bounds->after_s);
    for (size_t i = 0; i < count && fine; i++)
        fine = tasks[i].hands_s >= 0 && isfinite(tasks[i].hands_s) && tasks[i].from_s >= 0 &&
               isfinite(tasks[i].from_s) && tasks[i].until_s >= tasks[i].from_s &&
               !(tasks[i].late_s < 0) && !isinf(tasks[i].late_s) && tasks[i].late_from_s >= 0 &&
               isfinite(tasks[i].late_from_s);
    return fine;
}

static void clear_chain(chain *c) {
    for (size_t i = 0; c->sets && i < c->count; i++) {
        for (int way = 0; way < WAYS; way++) {
            runnel_spans_clear(&c->sets[i].reached[way]);
            runnel_spans_clear(&c->sets[i].leading[way]);
        }
        runnel_spans_clear(&c->sets[i].ends);
    }
    runnel_free(c->sets);
    runnel_free(c->opened_s);
    runnel_spans_clear(&c->scratch);
    runnel_spans_clear(&c->windows);
}

static runnel_status plan_all(chain *c, runnel_aim aim, runnel_task_times *times, double *end_s) {
    runnel_status status = RUNNEL_OK;
    *end_s = NAN;
    for (size_t i = 0; i < c->count && !status; i++)
        status = reach(c, i);
    const runnel_spans *ends = &c->sets[c->count - 1].ends;
    if (status || !ends->count)
        return status ? status : RUNNEL_NOT_POSSIBLE;
    double first_s = ends->items[0].from_s, after_s = ceil(c->bounds.after_s);
    double asked_s = floor(c->bounds.end_s) - after_s;
    bool possible = first_s <= asked_s, has_end = possible && isfinite(asked_s);
    status = lead_all(c, has_end ? asked_s : INFINITY);
    if (!status)
        status = find_ranges(c, has_end, times);
    if (!has_end)
        aim = RUNNEL_AIM_EARLY;
    if (!status && aim == RUNNEL_AIM_EARLY)
        status = lead_all(c, first_s);
    if (!status)
        status = choose(c, aim, times);
    if (!status)
        *end_s = times[c->count - 1].end_s + after_s;
    return status ? status : (possible ? RUNNEL_OK : RUNNEL_NOT_POSSIBLE);
}

runnel_status runnel_chain_plan(const runnel_task *tasks, size_t count, const runnel_spans *open,
                                const runnel_bounds *bounds, runnel_aim aim,
                                runnel_task_times *times, double *end_s) {
    chain c = {.tasks = tasks, .count = count, .open = open, .bounds = *bounds};
    runnel_task_times *planned = NULL;
    double ends_s = NAN;
    if (!is_valid(tasks, count, bounds))
        return RUNNEL_E_RANGE;
    runnel_status status = RUNNEL_E_NO_MEMORY;
    c.sets = runnel_zeroed(count, sizeof *c.sets);
    c.opened_s = runnel_zeroed(open->count + 1, sizeof *c.opened_s);
    planned = runnel_zeroed(count, sizeof *planned);
    if (!c.sets || !c.opened_s || !planned)
        goto cleanup;
    for (size_t i = 0; i < open->count; i++)
        c.opened_s[i + 1] = c.opened_s[i] + open->items[i].to_s - open->items[i].from_s;
    status = plan_all(&c, aim, planned, &ends_s);
    if (status && status != RUNNEL_NOT_POSSIBLE)
        goto cleanup;
    *end_s = ends_s;
    for (size_t i = 0; i < count && !isnan(ends_s); i++)
        times[i] = planned[i];
cleanup:
    clear_chain(&c);
    runnel_free(planned);
    return status;
}

runnel_status runnel_hours_take(const runnel_task_times *times, size_t count, runnel_spans *open) {
    runnel_spans left = {0};
    runnel_status status = RUNNEL_OK;
    size_t task = 0;
    for (size_t i = 0; i < open->count && !status; i++) {
        double from_s = open->items[i].from_s, to_s = open->items[i].to_s;
        while (task < count && times[task].end_s <= from_s)
            task++;
        for (size_t k = task; k < count && times[k].start_s < to_s && !status; k++) {
            if (times[k].end_s <= times[k].start_s)
                continue;
            if (times[k].start_s > from_s)
                status = runnel_spans_add(&left, from_s, times[k].start_s);
            from_s = fmax(from_s, times[k].end_s);
        }
        if (!status && from_s < to_s)
            status = runnel_spans_add(&left, from_s, to_s);
    }
    if (status) {
        runnel_spans_clear(&left);
        return status;
    }
    runnel_spans_clear(open);
    *open = left;
    return RUNNEL_OK;
}
