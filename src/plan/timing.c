/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * From a job to its steps, and from the steps to days.
 */
#include "runnel/timing.h"

#include "base/memory.h"
#include "plan/make.h"
#include "runnel/sheet.h"

#include <math.h>
#include <string.h>

#define MINUTE_S 60.0
#define HOUR_S   3600.0
#define DAY_S    86400.0

/** Days that are looked at, before the day asked for or after the start. */
enum { DAYS_AHEAD = 730, DAYS_BACK = 365 };

/** Wood that was wetted is dry after 2 to 12 h; paper and film print into soft oil and resin for
 * about a week: common practice. */
static const double dry_grain_s = 2 * HOUR_S, wrap_wait_s = 7 * DAY_S;

/** Hands, min: to set up and to clear away, and for each piece. Common practice; whoever is faster
 * has time to spare. */
typedef struct effort {
    const char *code, *text;
    double setup_min, each_min;
    bool divides;
} effort;

enum {
    FLATTEN,
    CARVE,
    CLEAN,
    SEAL,
    POUR,
    SCUFF,
    LEVEL,
    SAND,
    RAISE,
    KNOCK,
    SHAPE,
    OIL,
    WIPE,
    WAX,
    BUFF,
    WRAP
};

static const effort efforts[] = {
    [FLATTEN] = {"flatten", "flatten and size the blanks", 10, 10, true},
    [CARVE] = {"carve", "carve", 15, 40, true},
    [CLEAN] = {"clean", "clean out the carving and mask", 5, 5, true},
    [SEAL] = {"seal", "seal", 10, 4, false},
    [POUR] = {"pour", "mix and pour", 15, 3, false},
    [SCUFF] = {"scuff", "scuff", 5, 5, false},
    [LEVEL] = {"level", "level the resin", 15, 10, true},
    [SAND] = {"sand", "sand, grit by grit", 10, 25, true},
    [RAISE] = {"raise-grain", "wet the grain", 2, 1, false},
    [KNOCK] = {"knock-down", "knock the grain down", 2, 3, true},
    [SHAPE] = {"shape", "chamfer and profile the edges", 10, 10, true},
    [OIL] = {"oil", "oil", 5, 5, false},
    [WIPE] = {"wipe", "wipe the oil off", 2, 3, false},
    [WAX] = {"wax", "wax", 10, 5, false},
    [BUFF] = {"buff", "buff", 5, 3, true},
    [WRAP] = {"wrap", "wrap, paper first", 5, 5, true},
};

void runnel_timing_clear(runnel_timing *timing) {
    if (!timing)
        return;
    for (size_t i = 0; i < timing->step_count; i++)
        runnel_free(timing->steps[i].text);
    for (size_t i = 0; i < timing->remedy_count; i++)
        runnel_free(timing->remedies[i].text);
    runnel_free(timing->steps);
    runnel_free(timing->remedies);
    runnel_plan_clear(&timing->plan);
    memset(timing, 0, sizeof *timing);
}

/* ---- Steps -------------------------------------------------------------------------------------
 */

/** Building the chain. The first failure ends it. */
typedef struct building {
    const runnel_job *job;
    runnel_timing *timing;
    double pieces;
    double from_s, until_s, late_s, late_from_s; /**< wait before the next step */
    bool unknown;                                /**< a wait that nobody told */
    size_t last_pour, last_oil;                  /**< steps, or SIZE_MAX */
    runnel_status status;
} building;

static double hands_s(const building *b, int what) {
    return (efforts[what].setup_min + efforts[what].each_min * b->pieces) * MINUTE_S;
}

/** The next step waits so long. */
static void wait(building *b, double from_s, double until_s, double late_s) {
    b->unknown = b->unknown || isnan(from_s);
    b->from_s = isnan(from_s) ? 0 : from_s;
    b->until_s = isnan(until_s) ? INFINITY : fmax(until_s, b->from_s);
    b->late_s = late_s;
    b->late_from_s = 0;
}

/** Adds a step; its text is taken over, NULL when there was no memory for it. */
static void add(building *b, int what, char *text, double busy_s) {
    runnel_timing *t = b->timing;
    if (!b->status && !text)
        b->status = RUNNEL_E_NO_MEMORY;
    if (!b->status)
        b->status =
            runnel_reserve(&t->steps, &t->step_capacity, t->step_count + 1, sizeof *t->steps);
    if (b->status) {
        runnel_free(text);
        return;
    }
    t->steps[t->step_count++] =
        (runnel_timing_step){.code = efforts[what].code,
                             .text = text,
                             .task = {text, busy_s, efforts[what].divides, b->from_s, b->until_s,
                                      b->late_s, b->late_from_s}};
    t->hands_s += busy_s;
    wait(b, 0, INFINITY, NAN);
}

static void add_plain(building *b, int what) {
    add(b, what, runnel_copy_text(efforts[what].text), hands_s(b, what));
}

static void add_one_of(building *b, int what, size_t number, size_t count) {
    add(b, what,
        count > 1 ? runnel_format_text("%s, coat %zu of %zu", efforts[what].text, number, count)
                  : runnel_copy_text(efforts[what].text),
        hands_s(b, what));
}

static void add_sealing(building *b, const runnel_sealing *sealing) {
    size_t coats = sealing->sealer.coats;
    for (size_t i = 1; i <= coats; i++) {
        add_one_of(b, SEAL, i, coats);
        wait(b, i < coats ? sealing->drying.recoat_from_s : sealing->drying.hard_s, INFINITY, NAN);
    }
}

/** All layers of a colour. The first one of a later colour waits for the gel of what is there. */
static void add_pours(building *b, const runnel_plan_batch *batch, bool is_first) {
    const runnel_resin *resin = &b->job->resin;
    double gel_s = NAN, from_s = NAN, until_s = NAN, sandable_s = NAN;
    size_t layers = batch->layer_count ? batch->layer_count : 1;
    runnel_status status = runnel_shop_time(b->job, resin->gel_s, &gel_s);
    if (!status)
        status = runnel_shop_time(b->job, resin->recoat_from_s, &from_s);
    if (!status)
        status = runnel_shop_time(b->job, resin->recoat_until_s, &until_s);
    if (!status)
        status = runnel_shop_time(b->job, resin->sandable_s, &sandable_s);
    b->status = b->status ? b->status : status;
    if (!is_first)
        wait(b, batch->not_before_s > 0 || isnan(batch->not_before_s) ? gel_s : 0, INFINITY, NAN);
    for (size_t i = 1; i <= layers; i++) {
        double pour_s = isnan(batch->pour_s) ? efforts[POUR].each_min * b->pieces * MINUTE_S
                                             : batch->pour_s / (double)layers;
        if (i > 1)
            wait(b, from_s, until_s, hands_s(b, SCUFF));
        if (i > 1 && sandable_s > 0)
            b->late_from_s = sandable_s; /* what is scuffed has to be hard */
        add(b, POUR,
            layers > 1
                ? runnel_format_text("mix and pour %s, layer %zu of %zu", batch->colour, i, layers)
                : runnel_format_text("mix and pour %s", batch->colour),
            efforts[POUR].setup_min * MINUTE_S + pour_s);
        b->last_pour = b->timing->step_count - 1;
    }
}

/** How often the grain is raised: as the order says, else once before oil. */
static size_t raisings(const runnel_job *job, bool oiled) {
    size_t count = 0;
    for (size_t i = 0; i < job->order.count; i++)
        count += job->order.steps[i] == RUNNEL_STEP_RAISE_GRAIN;
    return job->order.count ? count : oiled;
}

static void add_oiling(building *b, const runnel_oiling_plan *oiling) {
    const runnel_oil *oil = oiling->oil;
    size_t coats = oiling->oiling.coats;
    for (size_t i = 1; i <= coats; i++) {
        add_one_of(b, OIL, i, coats);
        wait(b, oil->soak_s, 2 * oil->soak_s, NAN);
        add_one_of(b, WIPE, i, coats);
        b->last_oil = b->timing->step_count - 1;
        wait(b, i < coats ? fmax(0, oil->between_s - oil->soak_s) : 0, INFINITY, NAN);
    }
    if (oiling->wax) {
        /* wax goes last, on an oil that has cured, or on one that never does */
        wait(b, oil->dries ? oil->full_cure_s : oil->between_s, INFINITY, NAN);
        add_plain(b, WAX);
    }
    wait(b, HOUR_S / 2, INFINITY, NAN);
    add_plain(b, BUFF);
}

static void build(building *b, const runnel_sheet *sheet) {
    double sandable_s = NAN;
    wait(b, 0, INFINITY, NAN);
    add_plain(b, FLATTEN);
    add_plain(b, CARVE);
    add_plain(b, CLEAN);
    if (sheet->sealed)
        add_sealing(b, &sheet->sealing);
    for (size_t i = 0; i < sheet->plan.batch_count; i++)
        add_pours(b, &sheet->plan.batches[i], i == 0);
    if (sheet->plan.batch_count) {
        runnel_status status = runnel_shop_time(b->job, b->job->resin.sandable_s, &sandable_s);
        b->status = b->status ? b->status : status;
        wait(b, sandable_s, INFINITY, NAN);
    }
    add_plain(b, LEVEL);
    add_plain(b, SAND);
    add_plain(b, SHAPE);
    size_t times = raisings(b->job, sheet->oiled);
    for (size_t i = 0; i < times; i++) {
        add_plain(b, RAISE);
        wait(b, dry_grain_s, INFINITY, NAN);
        add_plain(b, KNOCK);
    }
    if (sheet->oiled) {
        add_oiling(b, &sheet->oiling);
        wait(b, wrap_wait_s, INFINITY, NAN);
    }
    add_plain(b, WRAP);
}

/* ---- Days --------------------------------------------------------------------------------------
 */

static double midnight_s(const runnel_timing_order *order, runnel_date day) {
    static const runnel_date epoch = {1970, 1, 1};
    return runnel_moment_of(order->zone, (double)runnel_date_days_between(epoch, day) * DAY_S);
}

/** The tasks, as they are planned. */
typedef struct chaining {
    runnel_task *tasks;
    runnel_task_times *times;
    size_t count, last_pour;
    double wrap_from_s; /**< wait of the last task, for the one before it alone */
    runnel_spans open;
    runnel_bounds bounds;
    double end_s;
} chaining;

/** Plans them forward. Wrapping waits for the last pour as well, however much lies in between. */
static runnel_status chain_early(chaining *of, double start_s) {
    runnel_task *wrap = &of->tasks[of->count - 1];
    const runnel_bounds bounds = {start_s, of->bounds.end_s, 0};
    wrap->from_s = of->wrap_from_s;
    runnel_status status = runnel_chain_plan(of->tasks, of->count, &of->open, &bounds,
                                             RUNNEL_AIM_EARLY, of->times, &of->end_s);
    if ((status && status != RUNNEL_NOT_POSSIBLE) || isnan(of->end_s) || of->last_pour == SIZE_MAX)
        return status;
    double from_s = of->times[of->last_pour].end_s + wrap_wait_s;
    if (of->times[of->count - 1].start_s >= from_s)
        return status;
    wrap->from_s = from_s - of->times[of->count - 2].end_s;
    return runnel_chain_plan(of->tasks, of->count, &of->open, &bounds, RUNNEL_AIM_EARLY, of->times,
                             &of->end_s);
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

/** Latest starts: each has to leave time for what comes after, and up to the last pour for the
 * wait before wrapping too. */
static runnel_status find_latest(chaining *of) {
    size_t head = of->last_pour == SIZE_MAX ? 0 : of->last_pour + 1;
    double end_s = NAN, stretched_s = of->tasks[of->count - 1].from_s;
    runnel_bounds bounds = of->bounds;
    runnel_task_times *times = runnel_zeroed(of->count, sizeof *times);
    if (!times)
        return RUNNEL_E_NO_MEMORY;
    of->tasks[of->count - 1].from_s = of->wrap_from_s;
    runnel_status status = runnel_chain_plan(of->tasks, of->count, &of->open, &bounds,
                                             RUNNEL_AIM_EARLY, times, &end_s);
    of->tasks[of->count - 1].from_s = stretched_s;
    for (size_t i = 0; i < of->count && !status; i++)
        of->times[i].latest_s = times[i].latest_s;
    if (!status && head) {
        bounds.end_s = of->times[of->count - 1].latest_s;
        bounds.after_s = wrap_wait_s;
        status =
            runnel_chain_plan(of->tasks, head, &of->open, &bounds, RUNNEL_AIM_EARLY, times, &end_s);
    }
    for (size_t i = 0; i < head && !status; i++)
        of->times[i].latest_s = fmin(of->times[i].latest_s, times[i].latest_s);
    runnel_free(times);
    return status;
}

/** Hours and bounds of an order. */
static runnel_status open_shop(const runnel_timing_order *order, chaining *of) {
    bool has_start = order->start.month != 0, has_end = order->ready_by.month != 0;
    runnel_date from = order->start, next;
    runnel_status status = RUNNEL_OK;
    of->bounds.end_s = INFINITY;
    of->end_s = NAN;
    if (!has_start)
        status = runnel_date_add_days(order->ready_by, -DAYS_BACK, &from);
    if (!status && has_end)
        status = runnel_date_add_days(order->ready_by, 1, &next);
    if (status)
        return status;
    if (has_end)
        of->bounds.end_s = midnight_s(order, next);
    of->bounds.start_s = midnight_s(order, from);
    return runnel_week_open(&order->week, from, DAYS_AHEAD, order->days_off, order->off_count,
                            order->zone, &of->open);
}

static void take_times(const chaining *of, runnel_timing *timing) {
    for (size_t i = 0; i < of->count; i++) {
        timing->steps[i].times = of->times[i];
        timing->steps[i].task = of->tasks[i];
    }
    timing->is_planned = true;
    timing->ships_s = of->end_s;
    timing->last_s = of->times[of->count - 2].end_s;
    timing->wrap_s = timing->last_s + of->tasks[of->count - 1].from_s;
}

/** Chains the steps into the hours. */
static runnel_status chain(const runnel_timing_order *order, size_t last_pour,
                           runnel_timing *timing) {
    chaining of = {.count = timing->step_count, .last_pour = last_pour};
    runnel_status status = open_shop(order, &of);
    if (!status) {
        of.tasks = runnel_zeroed(of.count, sizeof *of.tasks);
        of.times = runnel_zeroed(of.count, sizeof *of.times);
        status = of.tasks && of.times ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
    }
    if (status)
        goto cleanup;
    timing->asked_s = of.bounds.end_s;
    for (size_t i = 0; i < of.count; i++)
        of.tasks[i] = timing->steps[i].task;
    of.wrap_from_s = of.tasks[of.count - 1].from_s;
    status = order->start.month ? chain_early(&of, of.bounds.start_s) : chain_late(&of);
    if (!status && isfinite(of.bounds.end_s))
        status = find_latest(&of);
    if ((!status || status == RUNNEL_NOT_POSSIBLE) && !isnan(of.end_s))
        take_times(&of, timing);
cleanup:
    runnel_spans_clear(&of.open);
    runnel_free(of.tasks);
    runnel_free(of.times);
    return status;
}

/** When resin and oil are cured. */
static runnel_status find_food(const building *b, const runnel_sheet *sheet,
                               runnel_timing *timing) {
    double cure_s = NAN, resin_s = -INFINITY, oil_s = -INFINITY;
    timing->food_s = NAN;
    runnel_status status = runnel_shop_time(b->job, b->job->resin.full_cure_s, &cure_s);
    if (status || !timing->is_planned)
        return status;
    if (b->last_pour != SIZE_MAX)
        resin_s = timing->steps[b->last_pour].times.end_s + cure_s;
    if (b->last_oil != SIZE_MAX)
        oil_s = timing->steps[b->last_oil].times.end_s +
                (sheet->oiling.oil->dries ? sheet->oiling.oil->full_cure_s : 0);
    timing->food_s =
        isnan(resin_s) || isnan(oil_s) ? (double)NAN : fmax(timing->last_s, fmax(resin_s, oil_s));
    return RUNNEL_OK;
}

/** All of it, without what would help. */
static runnel_status make_days(const runnel_job *job, const runnel_tables *tables,
                               runnel_letter_function letter, runnel_problems *problems,
                               const runnel_timing_order *order, runnel_timing *timing) {
    runnel_sheet sheet = {.sealed = false};
    runnel_status status = runnel_sheet_make(job, tables, letter, problems, &sheet);
    bool impossible = status == RUNNEL_NOT_POSSIBLE;
    if (status && !impossible)
        return status;
    runnel_timing made = {
        .ships_s = NAN, .wrap_s = NAN, .last_s = NAN, .food_s = NAN, .asked_s = INFINITY};
    building b = {.job = job, .timing = &made, .last_pour = SIZE_MAX, .last_oil = SIZE_MAX};
    for (size_t i = 0; i < job->piece_count; i++)
        b.pieces += (double)job->pieces[i].count;
    build(&b, &sheet);
    status = b.status;
    if (!status && !b.unknown)
        status = chain(order, b.last_pour, &made);
    if (status == RUNNEL_NOT_POSSIBLE) {
        impossible = true;
        status = RUNNEL_OK;
    }
    if (!status)
        status = find_food(&b, &sheet, &made);
    made.plan = sheet.plan;
    sheet.plan = (runnel_plan){0};
    runnel_making making = {.job = job, .plan = &made.plan};
    if (!status && b.unknown)
        status = runnel_warn(&making, "time-unknown", "timeline",
                             "a wait of the resin, the sealer or the oil is not known at %s degC: "
                             "no day can be told; give it in the job",
                             FIGURE(job->shop_degc, 1));
    runnel_sheet_clear(&sheet);
    if (status) {
        runnel_timing_clear(&made);
        return status;
    }
    *timing = made;
    return impossible || !made.is_planned ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK;
}

/* ---- What would buy time -----------------------------------------------------------------------
 */

static runnel_status add_remedy(runnel_timing *timing, const char *code, char *text,
                                double ships_s) {
    runnel_status status = text ? runnel_reserve(&timing->remedies, &timing->remedy_capacity,
                                                 timing->remedy_count + 1, sizeof *timing->remedies)
                                : RUNNEL_E_NO_MEMORY;
    if (status) {
        runnel_free(text);
        return status;
    }
    timing->remedies[timing->remedy_count++] = (runnel_timing_remedy){
        .code = code, .text = text, .ships_s = ships_s, .suffices = ships_s <= timing->asked_s};
    return RUNNEL_OK;
}

/** Plans anew with something changed. Starts that were not given stay as late as can be, so the
 * question is then when it would have to begin. */
static runnel_status try_with(const runnel_job *job, const runnel_tables *tables,
                              runnel_letter_function letter, const runnel_timing_order *order,
                              const char *code, char *text, runnel_timing *timing) {
    runnel_timing other = {.step_count = 0};
    runnel_status status = make_days(job, tables, letter, NULL, order, &other);
    double ships_s = other.is_planned ? other.ships_s : (double)NAN;
    if (status && status != RUNNEL_NOT_POSSIBLE) {
        runnel_free(text);
        return status;
    }
    bool helps = !isnan(ships_s) && !(ships_s >= timing->ships_s);
    runnel_timing_clear(&other);
    if (helps)
        return add_remedy(timing, code, text, ships_s);
    runnel_free(text);
    return RUNNEL_OK;
}

static void halve_times(runnel_resin *resin) {
    resin->pot_life_s /= 2;
    resin->gel_s /= 2;
    resin->recoat_from_s /= 2;
    resin->recoat_until_s /= 2;
    resin->sandable_s /= 2;
    resin->full_cure_s /= 2;
}

/** The hours of the longest day on every day. */
static void open_every_day(runnel_week *week) {
    size_t longest = 0;
    double most_s = 0;
    for (size_t day = 0; day < 7; day++) {
        double open_s = 0;
        for (size_t i = 0; i < week->days[day].count; i++)
            open_s += week->days[day].spans[i].to_s - week->days[day].spans[i].from_s;
        if (open_s > most_s) {
            most_s = open_s;
            longest = day;
        }
    }
    for (size_t day = 0; day < 7; day++)
        week->days[day] = week->days[longest];
}

static runnel_status find_remedies(const runnel_job *job, const runnel_tables *tables,
                                   runnel_letter_function letter, const runnel_timing_order *order,
                                   runnel_timing *timing) {
    runnel_status status = RUNNEL_OK;
    runnel_job changed = *job; /* borrows */
    runnel_timing_order longer = *order;
    if (job->resin.stated_degc > job->shop_degc) {
        changed.shop_degc = job->resin.stated_degc;
        status =
            try_with(&changed, tables, letter, order, "warmer",
                     runnel_format_text("a shop at %s degC in place of %s",
                                        FIGURE(changed.shop_degc, 1), FIGURE(job->shop_degc, 1)),
                     timing);
        changed.shop_degc = job->shop_degc;
    }
    if (!status) {
        halve_times(&changed.resin);
        status = try_with(&changed, tables, letter, order, "faster",
                          runnel_copy_text("a hardener that is twice as fast"), timing);
        changed.resin = job->resin;
    }
    bool layered = false;
    for (size_t i = 0; i < timing->plan.batch_count; i++)
        layered = layered || timing->plan.batches[i].layer_count > 1;
    if (!status && layered) {
        changed.resin.deepest_layer_mm = 1000;
        status = try_with(&changed, tables, letter, order, "fewer-layers",
                          runnel_copy_text("shallower carving, or a resin for deep pours, in one "
                                           "layer"),
                          timing);
        changed.resin = job->resin;
    }
    if (!status) {
        open_every_day(&longer.week);
        longer.off_count = 0;
        status = try_with(job, tables, letter, &longer, "every-day",
                          runnel_copy_text("work on every day of the week"), timing);
    }
    return status;
}

/* ---- All ---------------------------------------------------------------------------------------
 */

static runnel_status tell_late(runnel_timing *timing) {
    runnel_making making = {.plan = &timing->plan};
    double late_s = timing->ships_s - timing->asked_s;
    return runnel_warn(&making, "too-late", "timeline",
                       "not ready to ship by the day asked for, but %s days later",
                       FIGURE(fmax(0.1, ceil(late_s / DAY_S * 10) / 10), 1));
}

runnel_status runnel_timing_make(const runnel_job *job, const runnel_tables *tables,
                                 runnel_letter_function letter, runnel_problems *problems,
                                 const runnel_timing_order *order, runnel_timing *timing) {
    runnel_timing made = {.step_count = 0};
    bool has_start = order->start.month != 0, has_end = order->ready_by.month != 0;
    if ((!has_start && !has_end) || (has_start && !runnel_date_is_valid(order->start)) ||
        (has_end && !runnel_date_is_valid(order->ready_by)))
        return RUNNEL_E_RANGE;
    runnel_status answer = make_days(job, tables, letter, problems, order, &made);
    runnel_status status = answer == RUNNEL_NOT_POSSIBLE ? RUNNEL_OK : answer;
    if (status)
        return status;
    if (made.is_planned && made.ships_s > made.asked_s) {
        status = tell_late(&made);
        if (!status)
            status = find_remedies(job, tables, letter, order, &made);
    }
    if (status) {
        runnel_timing_clear(&made);
        return status;
    }
    *timing = made;
    return answer;
}
