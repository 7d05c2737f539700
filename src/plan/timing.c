/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Some jobs, one pair of hands: whose turn it is, and what would help those that are too late.
 */
#include "runnel/timing.h"

#include "base/memory.h"
#include "plan/days.h"
#include "plan/make.h"
#include "plan/working.h"

#include <math.h>
#include <string.h>

#define DAY_S 86400.0

/** Days that are looked at, before the day asked for or after the start. */
enum { DAYS_AHEAD = 730, DAYS_BACK = 365 };

/** A grit this many times finer than the one before leaves scratches that take long to get out:
 * common practice, as with 120 after 80 or 240 after 150, but not 150 after 80. */
static const double coarsest_step = 1.7;

static void clear_timing(runnel_timing *timing) {
    for (size_t i = 0; i < timing->step_count; i++)
        runnel_free(timing->steps[i].text);
    for (size_t i = 0; i < timing->remedy_count; i++)
        runnel_free(timing->remedies[i].text);
    runnel_free(timing->steps);
    runnel_free(timing->remedies);
    runnel_plan_clear(&timing->plan);
    memset(timing, 0, sizeof *timing);
}

void runnel_timings_clear(runnel_timings *timings) {
    if (!timings)
        return;
    for (size_t i = 0; i < timings->count; i++)
        clear_timing(&timings->items[i]);
    runnel_free(timings->items);
    runnel_free(timings->hours);
    memset(timings, 0, sizeof *timings);
}

/** What all functions below work on. */
typedef struct planning {
    const runnel_job *jobs;
    size_t count;
    const runnel_tables *tables;
    const runnel_letters *letters;
    runnel_problems *problems;
    const runnel_zone *zone;
    runnel_timings *timings;
    runnel_date from;  /**< the first day that is looked at */
    size_t days;       /**< and how many */
    runnel_spans open; /**< hours that are left */
} planning;

/** What a job was taken apart into, and whether it can be done as asked. */
typedef struct known_parts {
    const runnel_sheet *sheet; /**< NULL when they are to be made */
    runnel_status answer;
} known_parts;

/* ---- The shop ----------------------------------------------------------------------------------
 */

/** Tells a problem of a key of the days, or of its option. @return status */
static runnel_status tell(const planning *p, const runnel_job *job, runnel_status status,
                          const char *key, const char *option, const char *text) {
    runnel_place place = {.file = job->file ? job->file : "command line",
                          .field = job->file ? key : option};
    return runnel_problems_add(p->problems, status, &place, "%s", text);
}

static bool same_week(const runnel_week *one, const runnel_week *other) {
    for (size_t day = 0; day < 7; day++) {
        const runnel_day_hours *a = &one->days[day], *b = &other->days[day];
        if (a->count != b->count)
            return false;
        for (size_t i = 0; i < a->count; i++)
            if (a->spans[i].from_s != b->spans[i].from_s || a->spans[i].to_s != b->spans[i].to_s)
                return false;
    }
    return true;
}

static runnel_status take_hours(const planning *p) {
    runnel_timings *made = p->timings;
    const char *zone = NULL, *hours = NULL;
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < p->count; i++) {
        const runnel_job_days *days = &p->jobs[i].days;
        if (days->hours && hours && !same_week(&days->week, &made->week))
            status = tell(p, &p->jobs[i], RUNNEL_E_CONFLICT, "days.hours", "--hours",
                          "jobs that share hands have the same hours, and this one has others than "
                          "a job before it");
        if (days->zone && zone && strcmp(days->zone, zone) != 0)
            status = tell(p, &p->jobs[i], RUNNEL_E_CONFLICT, "days.zone", "--zone",
                          "jobs that share hands are in the same zone, and this one is in another "
                          "than a job before it");
        if (days->hours && !hours)
            made->week = days->week;
        hours = hours ? hours : days->hours;
        zone = zone ? zone : days->zone;
    }
    if (!status && !hours)
        status = runnel_week_parse(RUNNEL_DEFAULT_HOURS, NULL, NULL, &made->week);
    made->hours = runnel_copy_text(hours ? hours : RUNNEL_DEFAULT_HOURS);
    return status ? status : made->hours ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
}

static bool is_off_already(const runnel_days_off *off, const struct runnel_days_off_span *span) {
    for (size_t i = 0; i < off->count; i++)
        if (runnel_date_days_between(off->spans[i].from, span->from) == 0 &&
            runnel_date_days_between(off->spans[i].to, span->to) == 0)
            return true;
    return false;
}

static runnel_status take_days_off(const planning *p) {
    runnel_days_off *all = &p->timings->off;
    for (size_t i = 0; i < p->count; i++) {
        const runnel_days_off *off = &p->jobs[i].days.off;
        for (size_t k = 0; k < off->count; k++) {
            if (all->count == RUNNEL_DAYS_OFF_MOST)
                return tell(p, &p->jobs[i], RUNNEL_E_RANGE, "days.off", "--days-off",
                            "all jobs together have too many days off");
            if (!runnel_date_is_valid(off->spans[k].from) ||
                !runnel_date_is_valid(off->spans[k].to))
                return RUNNEL_E_RANGE;
            if (!is_off_already(all, &off->spans[k]))
                all->spans[all->count++] = off->spans[k];
        }
    }
    return RUNNEL_OK;
}

/** First and last day of all jobs. */
static runnel_status take_dates(planning *p) {
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < p->count; i++) {
        const runnel_job_days *days = &p->jobs[i].days;
        bool has_start = days->start.month != 0, has_end = days->ready_by.month != 0;
        if ((has_start && !runnel_date_is_valid(days->start)) ||
            (has_end && !runnel_date_is_valid(days->ready_by)))
            return RUNNEL_E_RANGE;
        if (!has_start && !has_end)
            status = tell(p, &p->jobs[i], RUNNEL_E_MISSING, "days.start", "--start",
                          "the first day of work is needed, or the last one to be ready by, such "
                          "as '2026-11-25'");
    }
    return status;
}

/** The first day that a job is looked at. */
static runnel_status first_day(const runnel_job *job, runnel_date *day) {
    if (!job->days.start.month)
        return runnel_date_add_days(job->days.ready_by, -DAYS_BACK, day);
    *day = job->days.start;
    return RUNNEL_OK;
}

static runnel_status find_days(planning *p) {
    runnel_date last = {0, 0, 0};
    runnel_status status = first_day(&p->jobs[0], &p->from);
    last = p->from;
    for (size_t i = 1; i < p->count && !status; i++) {
        runnel_date day = last;
        status = first_day(&p->jobs[i], &day);
        if (!status && runnel_date_days_between(day, p->from) > 0)
            p->from = day;
        if (!status && runnel_date_days_between(last, day) > 0)
            last = day;
    }
    if (!status)
        p->days = (size_t)runnel_date_days_between(p->from, last) + DAYS_AHEAD;
    return status;
}

static runnel_status open_shop(planning *p) {
    runnel_timings *made = p->timings;
    runnel_status hours = take_hours(p);
    runnel_status dates = take_dates(p);
    runnel_status status = hours ? hours : dates;
    if (!status)
        status = take_days_off(p);
    if (status)
        return status;
    status = find_days(p);
    if (!status)
        status = runnel_week_open(&made->week, p->from, p->days, &made->off, made->zone, &p->open);
    return status == RUNNEL_E_RANGE ? tell(p, &p->jobs[0], status, "days.start", "--start",
                                           "its days do not fit into the calendar")
                                    : status;
}

/* ---- One job -----------------------------------------------------------------------------------
 */

static double midnight_s(const planning *p, runnel_date day) {
    static const runnel_date epoch = {1970, 1, 1};
    return runnel_moment_of(p->timings->zone, (double)runnel_date_days_between(epoch, day) * DAY_S);
}

static runnel_status bounds_of(const planning *p, const runnel_job *job, runnel_bounds *bounds) {
    runnel_date first = p->from, next = p->from;
    runnel_status status = first_day(job, &first);
    *bounds = (runnel_bounds){.end_s = INFINITY};
    if (!status && job->days.ready_by.month) {
        status = runnel_date_add_days(job->days.ready_by, 1, &next);
        bounds->end_s = midnight_s(p, next);
    }
    bounds->start_s = midnight_s(p, first);
    return status;
}

/** When resin and oil are cured. */
static runnel_status find_food(const runnel_job *job, const runnel_sheet *sheet,
                               const runnel_worked *worked, runnel_timing *timing) {
    const double minute_s = 60;
    double cure_s = NAN, resin_s = -INFINITY, finish_s = -INFINITY;
    timing->food_s = NAN;
    runnel_status status = runnel_shop_time(job, job->resin.full_cure_s, &cure_s);
    if (status || !timing->is_planned || sheet->coated)
        return status;
    if (worked->last_pour != SIZE_MAX)
        resin_s = timing->steps[worked->last_pour].times.end_s + cure_s;
    if (worked->last_finish != SIZE_MAX)
        finish_s = timing->steps[worked->last_finish].times.end_s +
                   (sheet->oiling.oil->dries ? sheet->oiling.oil->full_cure_s : 0);
    if (!isnan(resin_s) && !isnan(finish_s))
        timing->food_s = ceil(fmax(timing->last_s, fmax(resin_s, finish_s)) / minute_s) * minute_s;
    return RUNNEL_OK;
}

static runnel_status warn_of_grits(runnel_making *making) {
    const runnel_grits grits = runnel_work_grits(making->job);
    runnel_status status = RUNNEL_OK;
    for (size_t i = 1; i < grits.count && !status; i++)
        if (grits.numbers[i] > coarsest_step * grits.numbers[i - 1])
            status = runnel_warn(making, "grit-skipped", "timeline",
                                 "grit %d after %d leaves scratches: put one between them",
                                 grits.numbers[i], grits.numbers[i - 1]);
    return status;
}

static runnel_status warn_of_unknown(runnel_making *making) {
    return runnel_warn(making, "time-unknown", "timeline",
                       "a wait of the resin, the sealer or the oil is not known at %s °C: "
                       "no day can be told; give it in the job",
                       FIGURE(making->job->shop_degc, 1));
}

/** The hours have no room for all steps: likely one that cannot be left is longer than any of them.
 */
static runnel_status warn_of_hours(runnel_making *making, const runnel_spans *open,
                                   const runnel_timing *timing) {
    const runnel_timing_step *longest = NULL;
    const double minute_s = 60;
    double span_s = 0;
    for (size_t i = 0; i < open->count; i++)
        span_s = fmax(span_s, open->items[i].to_s - open->items[i].from_s);
    for (size_t i = 0; i < timing->step_count; i++)
        if (!timing->steps[i].task.divides &&
            (!longest || timing->steps[i].task.hands_s > longest->task.hands_s))
            longest = &timing->steps[i];
    if (longest && longest->task.hands_s > span_s)
        return runnel_warn(making, "hours-too-short", "timeline",
                           "'%s' takes %s min and cannot be left, but the longest hours of the "
                           "shop are %s min: no day can be told",
                           longest->text, FIGURE(longest->task.hands_s / minute_s, 0),
                           FIGURE(span_s / minute_s, 0));
    return runnel_warn(making, "hours-too-short", "timeline",
                       "the hours of the shop have no room for all steps within %d days: no day "
                       "can be told",
                       DAYS_AHEAD);
}

/** Its steps, from its parts, and their days, in hours that are open. */
static runnel_status plan_steps(const planning *p, const runnel_job *job, const runnel_spans *open,
                                const runnel_sheet *sheet, runnel_timing *timing) {
    runnel_worked worked;
    runnel_bounds bounds;
    runnel_making making = {.job = job, .plan = &timing->plan};
    runnel_status status = runnel_work_make(job, p->tables, sheet, p->problems, timing, &worked);
    if (!status)
        status = bounds_of(p, job, &bounds);
    runnel_status answer = RUNNEL_OK;
    if (!status && !worked.unknown)
        answer = runnel_days_plan(open, &bounds, !job->days.start.month, worked.last_pour, timing);
    if (!status && answer != RUNNEL_NOT_POSSIBLE)
        status = answer;
    if (!status)
        status = find_food(job, sheet, &worked, timing);
    if (!status)
        status = warn_of_grits(&making);
    if (!status && worked.unknown)
        status = warn_of_unknown(&making);
    else if (!status && !timing->is_planned)
        status = warn_of_hours(&making, open, timing);
    return status ? status : timing->is_planned ? answer : RUNNEL_NOT_POSSIBLE;
}

/** The days of a job from its parts, without what would help. */
static runnel_status plan_parts(const planning *p, const runnel_job *job, const runnel_spans *open,
                                const known_parts *parts, runnel_timing *timing) {
    runnel_timing made = {
        .ships_s = NAN, .wrap_s = NAN, .last_s = NAN, .food_s = NAN, .asked_s = INFINITY};
    runnel_status status = runnel_plan_copy(&parts->sheet->plan, &made.plan);
    if (!status)
        status = plan_steps(p, job, open, parts->sheet, &made);
    if (status && status != RUNNEL_NOT_POSSIBLE) {
        clear_timing(&made);
        return status;
    }
    *timing = made;
    return parts->answer ? parts->answer : status;
}

/** Makes the parts of a job, where they are not known. @param made to be cleared
 * @return RUNNEL_OK, or why there are none */
static runnel_status find_parts(const planning *p, const runnel_job *job, known_parts *parts,
                                runnel_sheet *made) {
    if (parts->sheet)
        return RUNNEL_OK;
    parts->answer = runnel_sheet_parts(job, p->tables, p->letters, p->problems, made);
    parts->sheet = made;
    return parts->answer == RUNNEL_NOT_POSSIBLE ? RUNNEL_OK : parts->answer;
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
 * question is then when it would have to begin. The text is taken over.
 * @param known parts of the job, where these did not change */
static runnel_status try_with(const planning *p, const runnel_job *job, const runnel_spans *open,
                              const known_parts *known, const char *code, char *text,
                              runnel_timing *timing) {
    planning quiet = *p;
    known_parts parts = *known;
    runnel_sheet made = {.sealed = false};
    runnel_timing other = {.step_count = 0};
    quiet.problems = NULL;
    runnel_status status = text ? find_parts(&quiet, job, &parts, &made) : RUNNEL_E_NO_MEMORY;
    if (!status)
        status = plan_parts(&quiet, job, open, &parts, &other);
    runnel_sheet_clear(&made);
    double ships_s = other.is_planned ? other.ships_s : (double)NAN;
    if (status && status != RUNNEL_NOT_POSSIBLE) {
        runnel_free(text);
        return status;
    }
    bool helps = !isnan(ships_s) && !(ships_s >= timing->ships_s);
    clear_timing(&other);
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

/** The job itself made otherwise. */
static runnel_status try_other_job(const planning *p, const runnel_job *job,
                                   runnel_timing *timing) {
    const known_parts others = {.sheet = NULL};
    runnel_job changed = *job; /* borrows */
    runnel_status status = RUNNEL_OK;
    bool layered = false;
    if (job->resin.stated_degc > job->shop_degc) {
        changed.shop_degc = job->resin.stated_degc;
        status =
            try_with(p, &changed, &p->open, &others, "warmer",
                     runnel_format_text("a shop at %s °C in place of %s °C",
                                        FIGURE(changed.shop_degc, 1), FIGURE(job->shop_degc, 1)),
                     timing);
        changed.shop_degc = job->shop_degc;
    }
    if (!status) {
        halve_times(&changed.resin);
        status = try_with(p, &changed, &p->open, &others, "faster",
                          runnel_copy_text("a hardener that is twice as fast"), timing);
        changed.resin = job->resin;
    }
    for (size_t i = 0; i < timing->plan.batch_count; i++)
        layered = layered || timing->plan.batches[i].layer_count > 1;
    if (!status && layered) {
        changed.resin.deepest_layer_mm = 1000;
        status = try_with(p, &changed, &p->open, &others, "fewer-layers",
                          runnel_copy_text("shallower carving, or a resin for deep pours, in one "
                                           "layer"),
                          timing);
    }
    return status;
}

/** Hours of a week without those that the jobs before one have taken. */
static runnel_status hours_left(const planning *p, const runnel_week *week,
                                const runnel_days_off *off, size_t before, runnel_spans *open) {
    runnel_status status = runnel_week_open(week, p->from, p->days, off, p->timings->zone, open);
    for (size_t i = 0; i < before && !status; i++) {
        const runnel_timing *timing = &p->timings->items[i];
        runnel_task_times *times = runnel_zeroed(timing->step_count, sizeof *times);
        if (!times)
            return RUNNEL_E_NO_MEMORY;
        for (size_t k = 0; k < timing->step_count; k++)
            times[k] = timing->steps[k].times;
        if (timing->is_planned)
            status = runnel_hours_take(times, timing->step_count, open);
        runnel_free(times);
    }
    return status;
}

/** The hours of the shop made otherwise, or their order. */
static runnel_status try_other_hours(const planning *p, size_t index, const known_parts *parts,
                                     runnel_timing *timing) {
    const runnel_job *job = &p->jobs[index];
    runnel_spans open = {0};
    runnel_week longer = p->timings->week;
    open_every_day(&longer);
    runnel_status status = hours_left(p, &longer, NULL, index, &open);
    if (!status)
        status = try_with(p, job, &open, parts, "every-day",
                          runnel_copy_text("work on every day of the week"), timing);
    if (!status && index) {
        status = hours_left(p, &p->timings->week, &p->timings->off, 0, &open);
        if (!status)
            status = try_with(p, job, &open, parts, "first",
                              runnel_copy_text("this job first, and the others later"), timing);
    }
    runnel_spans_clear(&open);
    return status;
}

/** The day of a moment by the wall's clock, counted from some day on. */
static double day_number(const planning *p, double moment_s) {
    return floor(runnel_wall_of(p->timings->zone, moment_s) / DAY_S);
}

static runnel_status tell_late(const planning *p, runnel_timing *timing) {
    runnel_making making = {.plan = &timing->plan};
    /* the day asked for ends where the next one begins */
    double days = day_number(p, timing->ships_s) - (day_number(p, timing->asked_s) - 1);
    return runnel_warn(&making, "too-late", "timeline",
                       "not ready to ship by the day asked for, but %s day%s later",
                       FIGURE(days, 0), days == 1 ? "" : "s");
}

/* ---- All ---------------------------------------------------------------------------------------
 */

/** A job whose parts are there, and what would help where it is late. */
static runnel_status add_parts(planning *p, size_t index, const known_parts *parts) {
    runnel_timing *timing = &p->timings->items[index];
    runnel_status answer = plan_parts(p, &p->jobs[index], &p->open, parts, timing);
    if (answer && answer != RUNNEL_NOT_POSSIBLE)
        return answer;
    p->timings->count = index + 1;
    runnel_status status = RUNNEL_OK;
    if (timing->is_planned && timing->ships_s > timing->asked_s) {
        status = tell_late(p, timing);
        if (!status)
            status = try_other_job(p, &p->jobs[index], timing);
        if (!status)
            status = try_other_hours(p, index, parts, timing);
    }
    if (!status && index + 1 < p->count)
        status = hours_left(p, &p->timings->week, &p->timings->off, index + 1, &p->open);
    return status ? status : answer;
}

static runnel_status add_job(planning *p, size_t index, known_parts parts) {
    runnel_sheet made = {.sealed = false};
    runnel_status status = find_parts(p, &p->jobs[index], &parts, &made);
    if (!status)
        status = add_parts(p, index, &parts);
    runnel_sheet_clear(&made);
    return status;
}

static runnel_status add_jobs(planning *p, const known_parts *known) {
    runnel_timings *made = p->timings;
    bool impossible = false;
    made->items = runnel_zeroed(p->count, sizeof *made->items);
    if (!made->items)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < p->count; i++) {
        runnel_status status = add_job(p, i, *known);
        if (status && status != RUNNEL_NOT_POSSIBLE)
            return status;
        impossible = impossible || status;
        made->hands_s += made->items[i].hands_s;
        if (!i || !(made->items[i].ships_s <= made->ships_s)) /* NAN is taken, and stays */
            made->ships_s = isnan(made->ships_s) ? made->ships_s : made->items[i].ships_s;
    }
    return impossible ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK;
}

/** @param known parts of the only job; empty for several */
static runnel_status make_timings(planning p, const known_parts *known, runnel_timings *timings) {
    runnel_timings made = {.zone = p.zone};
    p.timings = &made;
    runnel_status status = p.count ? open_shop(&p) : RUNNEL_E_RANGE;
    if (!status)
        status = add_jobs(&p, known);
    runnel_spans_clear(&p.open);
    if (status && status != RUNNEL_NOT_POSSIBLE) {
        runnel_timings_clear(&made);
        return status;
    }
    *timings = made;
    return status;
}

runnel_status runnel_timings_make(const runnel_job *jobs, size_t count, const runnel_tables *tables,
                                  const runnel_letters *letters, runnel_problems *problems,
                                  const runnel_zone *zone, runnel_timings *timings) {
    const known_parts none = {.sheet = NULL};
    planning p = {.jobs = jobs,
                  .count = count,
                  .tables = tables,
                  .letters = letters,
                  .problems = problems,
                  .zone = zone};
    return make_timings(p, &none, timings);
}

runnel_status runnel_timings_beside(const runnel_making *of, const runnel_sheet *parts,
                                    const runnel_zone *zone, runnel_timings *timings) {
    const known_parts known = {parts, of->impossible ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK};
    planning p = {.jobs = of->job,
                  .count = 1,
                  .tables = of->tables,
                  .letters = of->letters,
                  .problems = of->problems,
                  .zone = zone};
    return make_timings(p, &known, timings);
}
