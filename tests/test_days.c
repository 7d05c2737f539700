/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * No plan is earlier: jobs of any kind against a grid of minutes. On it all ends of each step are
 * marked that the waits and hours allow, from all ends of the step before. Wrapping waits a week
 * after the last pour and after the last coat, so that it cannot begin before the first such end of
 * either; a plan that wraps at the first open minute from there on is one that nothing beats.
 */
#include "compare.h"
#include "job_tables.h"
#include "runnel/read.h"
#include "runnel/timing.h"
#include "wrapped.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { DAY = 1440, DAYS = 110, MOMENTS = DAYS * DAY, WEEK = 7 * DAY };

/* ---- A grid of minutes ------------------------------------------------------------------------*/

/* Hours by the minute of the day, from Monday on. */
typedef struct shop {
    const char *text;
    int spans[7][2][2];
} shop;

#define WORK                                                                                       \
    {                                                                                              \
        {480, 720}, {                                                                              \
            780, 1020                                                                              \
        }                                                                                          \
    }
#define EVENING                                                                                    \
    {                                                                                              \
        { 1080, 1200 }                                                                             \
    }
#define MORNING                                                                                    \
    {                                                                                              \
        { 540, 640 }                                                                               \
    }
#define SHUT                                                                                       \
    {                                                                                              \
        { 0 }                                                                                      \
    }

static const shop shops[] = {
    {"Mon-Fri 8:00-12:00 13:00-17:00", {WORK, WORK, WORK, WORK, WORK, SHUT, SHUT}},
    {"Mon-Sun 18:00-20:00", {EVENING, EVENING, EVENING, EVENING, EVENING, EVENING, EVENING}},
    {"Tue 8:00-12:00 13:00-17:00, Sat 18:00-20:00", {SHUT, WORK, SHUT, SHUT, SHUT, EVENING, SHUT}},
    {"Mon-Wed 18:00-20:00, Sun 8:00-12:00 13:00-17:00",
     {EVENING, EVENING, EVENING, SHUT, SHUT, SHUT, WORK}},
    {"Mon-Tue 9:00-10:40, Thu 18:00-20:00, Fri 9:00-10:40, Sun 18:00-20:00",
     {MORNING, MORNING, SHUT, EVENING, MORNING, SHUT, EVENING}},
    {"Mon 18:00-20:00, Tue-Fri 9:00-10:40, Sat 8:00-12:00 13:00-17:00",
     {EVENING, MORNING, MORNING, MORNING, MORNING, WORK, SHUT}},
};

enum { SHOPS = sizeof shops / sizeof *shops };

/* Monday 2 November 2026, 0:00, is moment 0. */
static double moment_of(double time_s) {
    const double monday_s = 20759 * 86400.0; /* 56 years, 14 leap days, 305 days of 2026 */
    return (time_s - monday_s) / 60;
}

static int open_before[MOMENTS + 1]; /* open minutes before a moment */
static int end_of_open[MOMENTS + 1]; /* when so many of them have passed */
static bool now[MOMENTS + 1], next[MOMENTS + 1];
static int marked[MOMENTS + 2];

static bool is_open(int minute) {
    return open_before[minute + 1] > open_before[minute];
}

static void open_shop(const shop *of) {
    for (int minute = 0; minute < MOMENTS; minute++) {
        int day = minute / DAY % 7, at = minute % DAY, open = 0;
        for (int k = 0; k < 2; k++)
            open |= at >= of->spans[day][k][0] && at < of->spans[day][k][1];
        open_before[minute + 1] = open_before[minute] + open;
        if (open)
            end_of_open[open_before[minute + 1]] = minute + 1;
    }
}

/* The end of a task that begins then; -1 when it cannot. */
static int end_from(const runnel_task *task, int start, int hands) {
    int ended = open_before[start] + hands;
    if (!is_open(start) || ended > open_before[MOMENTS])
        return -1;
    return task->divides                                                     ? end_of_open[ended]
           : start + hands <= MOMENTS && open_before[start + hands] == ended ? start + hands
                                                                             : -1;
}

/* Whether an end of the task before is between two moments. */
static bool has_end(double low, double high) {
    int from = (int)fmax(low, 0), to = (int)high;
    return high >= 0 && from <= to && marked[to + 1] > marked[from];
}

static int first_marked(void) {
    for (int i = 0; i <= MOMENTS; i++)
        if (now[i])
            return i;
    return 2 * MOMENTS;
}

/* From all ends of the task before to those of this one. */
static void step(const runnel_task *task) {
    double from = task->from_s / 60, until = task->until_s / 60;
    double late_from = fmax(until, task->late_from_s / 60);
    bool may_be_late = isfinite(until) && !isnan(task->late_s);
    memset(next, 0, sizeof next);
    for (int i = 0; i <= MOMENTS; i++)
        marked[i + 1] = marked[i] + now[i];
    for (int start = first_marked(); start < MOMENTS; start++) {
        int end = -1, hands = (int)(task->hands_s / 60);
        if (!is_open(start))
            continue;
        if (has_end(start - until, start - from) && (end = end_from(task, start, hands)) >= 0)
            next[end] = true;
        if (may_be_late && has_end(0, start - late_from) &&
            (end = end_from(task, start, hands + (int)(task->late_s / 60))) >= 0)
            next[end] = true;
    }
    memcpy(now, next, sizeof now);
}

/* No plan that begins from a moment on wraps by an earlier one than this. */
static int least_end(const runnel_timing *of, int start) {
    size_t last_pour = 0, wrap = of->step_count - 1;
    double wait = 0;
    int poured = -WEEK;
    for (size_t i = 0; i < wrap; i++) {
        if (strcmp(of->steps[i].code, "pour") == 0)
            last_pour = i;
        if (strcmp(of->steps[i].code, "oil") == 0 || strcmp(of->steps[i].code, "coat") == 0)
            wait = WEEK;
    }
    memset(now, 0, sizeof now);
    for (int i = start; i <= MOMENTS; i++)
        now[i] = true; /* what the first task may wait for */
    for (size_t i = 0; i < wrap; i++) {
        step(&of->steps[i].task);
        if (i == last_pour && i > 0)
            poured = first_marked();
    }
    int begin = (int)fmax(poured + WEEK, first_marked() + wait);
    for (; begin < MOMENTS; begin++) {
        int end = end_from(&of->steps[wrap].task, begin, (int)(of->steps[wrap].task.hands_s / 60));
        if (end >= 0)
            return end;
    }
    return 2 * MOMENTS;
}

/* ---- Jobs by chance ---------------------------------------------------------------------------*/

static unsigned long long state = 20261102;

static int below(int count) {
    state = state * 6364136223846793005ULL + 1442695040888963407ULL;
    return (int)((state >> 33) % (unsigned)count);
}

static const char *one_of(const char *a, const char *b, const char *c) {
    const char *all[] = {a, b, c};
    return all[below(3)];
}

/* Plans a job in some hours; `days` is its start or the day to be ready by. */
static runnel_status plan_job(const shop *hours, const char *days, runnel_timings *made) {
    char yaml[1000];
    snprintf(yaml, sizeof yaml,
             "resin: table-top 2:1\nshop: {temperature: %d degC}\nmask: %s\n%s"
             "pieces: [{count: %d, cavities: [{measured: 9 ml, footprint: 4 cm2, deepest: %d mm, "
             "pour time: 2 min, colour: red}, {measured: 9 ml, footprint: 4 cm2, deepest: %d mm, "
             "pour time: 3 min, colour: %s}]}]\n"
             "days: {%s, hours: '%s'}\n",
             18 + below(10), one_of("no", "yes", "yes"),
             one_of("", "grits: 80, 150\n", "upkeep: open air\n"), 1 + below(4), 2 + below(20),
             2 + below(20), one_of("red", "red", "blue"), days, hours->text);
    runnel_problems problems;
    runnel_job job;
    runnel_problems_init(&problems);
    runnel_job_init(&job);
    runnel_status read =
        runnel_job_read_yaml(yaml, strlen(yaml), "job.yaml", job_tables(), &problems, &job);
    ck_assert_msg(!read, "%s", problems.count ? problems.items[0].text : "no reason");
    runnel_status status = runnel_timings_make(&job, 1, job_tables(), NULL, NULL, NULL, made);
    runnel_job_clear(&job);
    runnel_problems_clear(&problems);
    return status;
}

START_TEST(nothing_is_earlier) {
    size_t layered = 0, late = 0, rounds = is_wrapped() ? 10 : 150;
    for (size_t round = 0; round < rounds; round++) {
        const shop *hours = &shops[below(SHOPS)];
        runnel_timings made = {0};
        char start[40];
        int day = below(7);
        snprintf(start, sizeof start, "start: 2026-11-0%d", 2 + day);
        open_shop(hours);
        ck_assert_int_eq(plan_job(hours, start, &made), RUNNEL_OK);
        const runnel_timing *of = &made.items[0];
        ck_near(moment_of(of->ships_s), least_end(of, day * DAY), 0);
        for (size_t i = 0; i < of->step_count; i++) {
            layered += strstr(of->steps[i].text, "layer 2") != NULL;
            late += of->steps[i].times.is_late;
        }
        runnel_timings_clear(&made);
    }
    ck_assert_uint_gt(layered, rounds / 2);
    ck_assert_uint_gt(late, rounds / 15);
}
END_TEST

/* Ready by Sunday 24 January 2027, 84 days from the Monday: in time, and begun a minute later not
 * any more. */
START_TEST(nothing_begins_later) {
    const int deadline = 84 * DAY, rounds = is_wrapped() ? 5 : 50;
    for (int round = 0; round < rounds; round++) {
        const shop *hours = &shops[below(SHOPS)];
        runnel_timings made = {0};
        open_shop(hours);
        ck_assert_int_eq(plan_job(hours, "ready by: 2027-01-24", &made), RUNNEL_OK);
        const runnel_timing *of = &made.items[0];
        int start = (int)moment_of(of->steps[0].times.start_s);
        ck_assert_int_gt(start, 0);
        ck_assert(moment_of(of->ships_s) <= deadline);
        ck_near(of->steps[0].times.latest_s, of->steps[0].times.start_s, 0);
        ck_near(moment_of(of->ships_s), least_end(of, start), 0);
        ck_assert_int_gt(least_end(of, start + 1), deadline);
        runnel_timings_clear(&made);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("days");
    TCase *cases = tcase_create("days");
    tcase_set_timeout(cases, 600); /* under memcheck */
    tcase_add_test(cases, nothing_is_earlier);
    tcase_add_test(cases, nothing_begins_later);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
