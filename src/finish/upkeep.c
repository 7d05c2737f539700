/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/upkeep.h"

#include "base/memory.h"

#include <math.h>
#include <string.h>

static const double s_per_day = 86400;
enum { WEEK = 7, FIRST_YEAR_DAYS = 365 };
/* Mean length of a year of the calendar, exact: 146097 days in 400 years. */
static const double days_per_year = 146097.0 / 400;
/* Longest wait that is computed, in days: more than a hundred years is a slip of a unit. */
static const double most_days = 40000;

/* ---- Words ----------------------------------------------------------------------------------- */

const char *runnel_use_text(runnel_use use) {
    static const char *const texts[] = {"?",   "rare",      "weekly",  "daily",
                                        "wet", "sheltered", "open air"};
    return use < RUNNEL_USE_COUNT ? texts[use] : texts[0];
}

const char *runnel_washing_text(runnel_washing washing) {
    static const char *const texts[] = {"?", "wiped", "rinsed", "scrubbed"};
    return washing <= RUNNEL_WASHING_SCRUBBED ? texts[washing] : texts[0];
}

const char *runnel_water_text(runnel_water water) {
    static const char *const texts[] = {"?", "beads", "soaks in"};
    return water <= RUNNEL_WATER_SOAKS_IN ? texts[water] : texts[0];
}

const char *runnel_upkeep_finish_text(runnel_upkeep_finish finish) {
    static const char *const texts[] = {"oil that stays wet", "oil that dries", "coating"};
    return finish <= RUNNEL_FINISH_COATING ? texts[finish] : "?";
}

bool runnel_use_is_outdoors(runnel_use use) {
    return use == RUNNEL_USE_SHELTERED || use == RUNNEL_USE_OPEN_AIR;
}

void runnel_upkeep_rule_clear(runnel_upkeep_rule *rule) {
    if (!rule)
        return;
    char *owned[] = {rule->name, rule->source, rule->date, rule->sure};
    for (size_t i = 0; i < sizeof owned / sizeof *owned; i++)
        runnel_free(owned[i]);
    memset(rule, 0, sizeof *rule);
}

/* ---- Waits ----------------------------------------------------------------------------------- */

static bool is_wait(double wait_s) {
    return isfinite(wait_s) && wait_s > 0 && wait_s / s_per_day <= most_days;
}

static bool is_factor(double factor) {
    return isfinite(factor) && factor >= 0.01 && factor <= 100;
}

static bool is_count(double times) {
    return isnan(times) || (times >= 0 && times <= 1000 && times == floor(times));
}

static bool rule_is_right(const runnel_upkeep_rule *rule) {
    const double factors[] = {rule->wiped, rule->scrubbed, rule->open_pores, rule->beads,
                              rule->soaks_in};
    for (size_t i = 0; i < sizeof factors / sizeof *factors; i++)
        if (!is_factor(factors[i]))
            return false;
    if (!is_count(rule->first_times) || !is_count(rule->second_times) || !is_count(rule->coats))
        return false;
    if ((rule->first_times > 0 && !is_wait(rule->first_s)) ||
        (rule->second_times > 0 && !is_wait(rule->second_s)))
        return false;
    bool later = (isnan(rule->look_s) || is_wait(rule->look_s)) &&
                 (isnan(rule->sand_s) || is_wait(rule->sand_s)) &&
                 (isnan(rule->wait_s) || rule->wait_s == 0 || is_wait(rule->wait_s));
    return later && is_wait(rule->steady_s) && rule->share > 0 && rule->share <= 1;
}

/* Factor of all that is told of the piece but what its owner sees. */
static double usual_factor(const runnel_upkeep_case *of) {
    double factor = of->open_pored ? of->rule->open_pores : 1;
    if (of->washing == RUNNEL_WASHING_WIPED)
        factor *= of->rule->wiped;
    else if (of->washing == RUNNEL_WASHING_SCRUBBED)
        factor *= of->rule->scrubbed;
    return factor;
}

static double water_factor(const runnel_upkeep_case *of, runnel_water water) {
    if (water == RUNNEL_WATER_BEADS)
        return of->rule->beads;
    return water == RUNNEL_WATER_SOAKS_IN ? of->rule->soaks_in : 1;
}

static int whole_days(double wait_s, double factor) {
    double days = wait_s * factor / s_per_day;
    if (days >= 2 * WEEK)
        return WEEK * (int)fmin(floor(days / WEEK + 0.5), most_days);
    return (int)fmax(1, floor(days + 0.5));
}

/* ---- Amounts --------------------------------------------------------------------------------- */

static runnel_status set_amounts(const runnel_upkeep_case *of, runnel_upkeep *upkeep) {
    const runnel_upkeep_rule *rule = of->rule;
    runnel_oiling oiling = of->oiling;
    if (rule->finish == RUNNEL_FINISH_COATING) {
        /* A film lies on end grain as thick as elsewhere. */
        oiling.uptake_mm = rule->coat_ml_per_m2 / 1000;
        oiling.end_factor = 1;
        oiling.fall = 0;
        oiling.coats = 1;
    }
    if (rule->coats > 0)
        oiling.coats = (size_t)rule->coats;
    runnel_oil_need need;
    runnel_status status = runnel_oil_compute(&oiling, of->face_mm2, of->end_mm2, &need);
    if (status)
        return status;
    upkeep->coat_mm3 = rule->share * need.first_mm3;
    upkeep->anew_mm3 = need.all_mm3;
    return RUNNEL_OK;
}

/* ---- Stages ---------------------------------------------------------------------------------- */

/* A stage of coats, as the rule has it. */
typedef struct stage {
    const char *code;
    double every_s;
    size_t count; /* 0 = on and on */
    bool is_there;
} stage;

/* The schedule in the making. */
typedef struct scheduling {
    const runnel_upkeep_case *of;
    runnel_upkeep *upkeep;
    double factor;
    runnel_date next; /* of the coats: the day on which the next wait begins, or ends */
    bool started;     /* a coat has been given, so that `next` is where a wait begins */
} scheduling;

static runnel_status add_task(runnel_upkeep *upkeep, const runnel_upkeep_task *task) {
    upkeep->tasks[upkeep->task_count++] = *task;
    return RUNNEL_OK;
}

/* How many coats of a task were due until the day of the owner's last one. */
static size_t done_until(const runnel_upkeep_task *task, runnel_date last) {
    int64_t days = runnel_date_days_between(task->first, last);
    if (days < 0)
        return 0;
    size_t done = (size_t)(days / task->every_days) + 1;
    return task->count && done > task->count ? task->count : done;
}

/* The first coat of all comes when the wait is over, later ones an interval after the last. */
static runnel_status add_stage(scheduling *making, const stage *one) {
    const runnel_upkeep_case *of = making->of;
    runnel_upkeep_task task = {
        .kind = of->rule->finish == RUNNEL_FINISH_COATING ? RUNNEL_UPKEEP_COAT : RUNNEL_UPKEEP_OIL,
        .code = one->code,
        .every_days = whole_days(one->every_s, making->factor),
        .count = one->count,
        .amount_mm3 = making->upkeep->coat_mm3};
    const bool is_first = !making->started;
    int64_t wait = is_first ? 0 : task.every_days;
    if (!making->started && !one->count) {
        /* Nothing but the steady coats: the piece is as good as oiled on delivery. */
        int64_t waited = runnel_date_days_between(of->delivered, making->next);
        wait = task.every_days > waited ? task.every_days - waited : 0;
    }
    runnel_status status = runnel_date_add_days(making->next, wait, &task.first);
    if (status)
        return status;
    making->started = true;
    if (of->oiled.year) {
        size_t done = done_until(&task, of->oiled);
        if (task.count && done == task.count)
            return runnel_date_add_days(task.first, (int64_t)(done - 1) * task.every_days,
                                        &making->next);
        bool touched =
            done > 0 || is_first || runnel_date_days_between(making->next, of->oiled) > 0;
        runnel_date due = task.first;
        if (touched)
            status = runnel_date_add_days(of->oiled, task.every_days, &due);
        if (runnel_date_days_between(task.first, due) > 0) /* a coat before its time moves it */
            task.first = due;
        task.count -= task.count ? done : 0;
    }
    if (!status && task.count)
        status = runnel_date_add_days(task.first, (int64_t)(task.count - 1) * task.every_days,
                                      &making->next);
    return status ? status : add_task(making->upkeep, &task);
}

static runnel_status add_coats(scheduling *making) {
    const runnel_upkeep_rule *rule = making->of->rule;
    const stage stages[] = {
        {"first", rule->first_s, rule->first_times > 0 ? (size_t)rule->first_times : 0,
         rule->first_times > 0},
        {"second", rule->second_s, rule->second_times > 0 ? (size_t)rule->second_times : 0,
         rule->second_times > 0},
        {"steady", rule->steady_s, 0, true}};
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < sizeof stages / sizeof *stages && !status; i++)
        if (stages[i].is_there)
            status = add_stage(making, &stages[i]);
    return status;
}

/* Looking over, and sanding: counted from the delivery. */
static runnel_status add_other(const runnel_upkeep_case *of, runnel_upkeep_kind kind,
                               const char *code, double every_s, runnel_upkeep *upkeep) {
    if (!(every_s > 0))
        return RUNNEL_OK;
    runnel_upkeep_task task = {.kind = kind, .code = code, .every_days = whole_days(every_s, 1)};
    if (kind == RUNNEL_UPKEEP_SAND)
        task.amount_mm3 = upkeep->anew_mm3;
    runnel_status status = runnel_date_add_days(of->delivered, task.every_days, &task.first);
    return status ? status : add_task(upkeep, &task);
}

static void add_years(const runnel_upkeep_case *of, runnel_upkeep *upkeep) {
    runnel_upkeep_walk walk = {{0}};
    runnel_date date;
    size_t task, coats = 0;
    const runnel_date start = of->oiled.year ? of->oiled : of->delivered;
    while (runnel_upkeep_next(upkeep, &walk, &task, &date) &&
           runnel_date_days_between(start, date) < FIRST_YEAR_DAYS)
        if (upkeep->tasks[task].kind <= RUNNEL_UPKEEP_COAT)
            coats++;
    upkeep->first_year_mm3 = (double)coats * upkeep->coat_mm3;
    upkeep->year_mm3 = days_per_year / upkeep->steady_days * upkeep->coat_mm3;
}

static runnel_status check_case(const runnel_upkeep_case *of) {
    if (!rule_is_right(of->rule) || !runnel_date_is_valid(of->delivered))
        return RUNNEL_E_RANGE;
    if (!of->oiled.year)
        return RUNNEL_OK;
    if (!runnel_date_is_valid(of->oiled))
        return RUNNEL_E_RANGE;
    return runnel_date_days_between(of->delivered, of->oiled) < 0 ? RUNNEL_E_CONFLICT : RUNNEL_OK;
}

runnel_status runnel_upkeep_compute(const runnel_upkeep_case *of, runnel_upkeep *upkeep) {
    const runnel_upkeep_rule *rule = of->rule;
    runnel_upkeep made = {.task_count = 0};
    runnel_status status = check_case(of);
    if (status)
        return status;
    double usual = usual_factor(of);
    scheduling making = {of, &made, usual * water_factor(of, of->water), of->delivered, false};
    made.steady_days = whole_days(rule->steady_s, making.factor);
    made.beads_days = whole_days(rule->steady_s, usual * water_factor(of, RUNNEL_WATER_BEADS));
    made.soaks_in_days =
        whole_days(rule->steady_s, usual * water_factor(of, RUNNEL_WATER_SOAKS_IN));
    status = set_amounts(of, &made);
    if (!status && rule->wait_s > 0)
        status = runnel_date_add_days(of->delivered, whole_days(rule->wait_s, 1), &making.next);
    if (!status)
        status = add_coats(&making);
    if (!status)
        status = add_other(of, RUNNEL_UPKEEP_LOOK, "look", rule->look_s, &made);
    if (!status)
        status = add_other(of, RUNNEL_UPKEEP_SAND, "sand", rule->sand_s, &made);
    if (status)
        return status;
    add_years(of, &made);
    *upkeep = made;
    return RUNNEL_OK;
}

/* ---- Dates ----------------------------------------------------------------------------------- */

static bool date_of(const runnel_upkeep_task *task, size_t index, runnel_date *date) {
    if (task->count && index >= task->count)
        return false;
    if (index > (size_t)INT32_MAX)
        return false;
    return runnel_date_add_days(task->first, (int64_t)index * task->every_days, date) == RUNNEL_OK;
}

bool runnel_upkeep_next(const runnel_upkeep *upkeep, runnel_upkeep_walk *walk, size_t *task,
                        runnel_date *date) {
    runnel_date found, nearest = {0, 0, 0};
    size_t which = upkeep->task_count;
    for (size_t i = 0; i < upkeep->task_count; i++) {
        if (!date_of(&upkeep->tasks[i], walk->done[i], &found))
            continue;
        if (which == upkeep->task_count || runnel_date_days_between(nearest, found) < 0) {
            nearest = found;
            which = i;
        }
    }
    if (which == upkeep->task_count)
        return false;
    walk->done[which]++;
    *task = which;
    *date = nearest;
    return true;
}
