/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Chains of work against every schedule that there is: small ones are tried second by second, by
 * counting the seconds that the shop is open, which is another route altogether.
 */
#include "compare.h"
#include "failing.h"
#include "runnel/timeline.h"
#include "wrapped.h"

#include <stdlib.h>
#include <string.h>

/* ---- Brute force ------------------------------------------------------------------------------*/

enum { HORIZON = 48, MOST_TASKS = 4, MOST_SPANS = 5 };

/* A small chain in whole seconds, and all that is found out about it. */
typedef struct trial {
    runnel_task tasks[MOST_TASKS];
    size_t count;
    runnel_span spans[MOST_SPANS];
    runnel_spans open;
    int start, deadline, after;
    int earliest_end, first_start; /* of all schedules; the latest first start by the deadline */
    int earliest[MOST_TASKS], latest[MOST_TASKS]; /* of those that meet the deadline */
    bool any, in_time;
} trial;

static unsigned long long state = 20261125;

static int below(int count) {
    state = state * 6364136223846793005ULL + 1442695040888963407ULL;
    return (int)((state >> 33) % (unsigned)count);
}

static bool is_open(const trial *t, int second) {
    for (size_t i = 0; i < t->open.count; i++)
        if (t->spans[i].from_s <= second && second + 1 <= t->spans[i].to_s)
            return true;
    return false;
}

/* Within the hours, ends included. */
static bool touches(const trial *t, int moment) {
    return is_open(t, moment) || (moment > 0 && is_open(t, moment - 1));
}

/* When a task that starts at some second ends; -1 when it cannot start there. */
static int end_from(const trial *t, const runnel_task *task, int start, int hands) {
    if (hands == 0)
        return touches(t, start) ? start : -1;
    if (!is_open(t, start))
        return -1;
    int left = hands, now = start;
    for (; left > 0 && now < 2 * HORIZON; now++) {
        if (is_open(t, now))
            left--;
        else if (!task->divides)
            return -1;
        /* two spans that meet are one: the list has none such */
    }
    return left == 0 ? now : -1;
}

static void try_from(trial *t, size_t task, int end_before, int starts[MOST_TASKS]) {
    if (task == t->count) {
        int end = end_before + t->after;
        if (!t->any || end < t->earliest_end)
            t->earliest_end = end;
        t->any = true;
        if (end > t->deadline)
            return;
        for (size_t i = 0; i < t->count; i++) {
            if (!t->in_time || starts[i] < t->earliest[i])
                t->earliest[i] = starts[i];
            if (!t->in_time || starts[i] > t->latest[i])
                t->latest[i] = starts[i];
        }
        t->in_time = true;
        return;
    }
    const runnel_task *of = &t->tasks[task];
    int from = task ? end_before + (int)of->from_s : t->start;
    for (int start = from; start < HORIZON + 12; start++) {
        bool in_window = task == 0 || start <= end_before + of->until_s;
        for (int late = 0; late < 2; late++) {
            if (late ? task == 0 || isinf(of->until_s) || isnan(of->late_s) ||
                           start < end_before + fmax(of->until_s, of->late_from_s)
                     : !in_window)
                continue;
            int hands = (int)of->hands_s + (late ? (int)of->late_s : 0);
            int end = end_from(t, of, start, hands);
            starts[task] = start;
            if (end >= 0)
                try_from(t, task + 1, end, starts);
        }
    }
}

static void make_trial(trial *t) {
    memset(t, 0, sizeof *t);
    int at = below(4);
    t->open.items = t->spans;
    while (t->open.count < MOST_SPANS && at < HORIZON - 2) {
        int length = 1 + below(9);
        t->spans[t->open.count++] = (runnel_span){at, at + length};
        at += length + 1 + below(7);
    }
    t->count = 1 + (size_t)below(MOST_TASKS);
    for (size_t i = 0; i < t->count; i++) {
        int from = below(5);
        t->tasks[i] = (runnel_task){.name = "task",
                                    .hands_s = below(6),
                                    .divides = below(2) == 0,
                                    .from_s = from,
                                    .until_s = below(2) ? HUGE_VAL : (double)(from + below(6)),
                                    .late_s = below(2) ? (double)NAN : (double)below(3),
                                    .late_from_s = below(2) ? 0 : below(12)};
    }
    t->start = below(8);
    t->after = below(4);
    t->deadline = t->start + below(HORIZON);
}

/* Whether a plan keeps to everything. */
static void ck_plan(const trial *t, const runnel_task_times *times) {
    double end = -INFINITY;
    for (size_t i = 0; i < t->count; i++) {
        const runnel_task *of = &t->tasks[i];
        if (i == 0)
            ck_assert(times[i].start_s >= t->start);
        else if (times[i].is_late)
            ck_assert(times[i].start_s >= end + fmax(of->until_s, of->late_from_s) &&
                      !isnan(of->late_s));
        else
            ck_assert(times[i].start_s >= end + of->from_s &&
                      times[i].start_s <= end + of->until_s);
        int hands = (int)of->hands_s + (times[i].is_late ? (int)of->late_s : 0);
        ck_near(times[i].end_s, end_from(t, of, (int)times[i].start_s, hands), 0);
        end = times[i].end_s;
    }
}

START_TEST(against_every_schedule) {
    int rounds = is_wrapped() ? 1000 : 20000;
    size_t possible = 0, in_time = 0, impossible = 0;
    for (int round = 0; round < rounds; round++) {
        trial t;
        int starts[MOST_TASKS];
        runnel_task_times times[MOST_TASKS];
        double end = NAN;
        make_trial(&t);
        try_from(&t, 0, 0, starts);
        runnel_bounds bounds = {t.start, INFINITY, t.after};
        runnel_status status =
            runnel_chain_plan(t.tasks, t.count, &t.open, &bounds, RUNNEL_AIM_EARLY, times, &end);
        ck_assert_int_eq(status, t.any ? RUNNEL_OK : RUNNEL_NOT_POSSIBLE);
        if (!t.any) {
            ck_assert(isnan(end));
            impossible++;
            continue;
        }
        possible++;
        ck_near(end, t.earliest_end, 0);
        ck_plan(&t, times);
        bounds.end_s = t.deadline;
        status =
            runnel_chain_plan(t.tasks, t.count, &t.open, &bounds, RUNNEL_AIM_LATE, times, &end);
        ck_assert_int_eq(status, t.in_time ? RUNNEL_OK : RUNNEL_NOT_POSSIBLE);
        ck_plan(&t, times);
        if (!t.in_time) {
            ck_near(end, t.earliest_end, 0); /* told by how much */
            continue;
        }
        in_time++;
        ck_assert(end <= t.deadline);
        ck_near(times[0].start_s, t.latest[0], 0);
        for (size_t i = 0; i < t.count; i++) {
            ck_near(times[i].earliest_s, t.earliest[i], 0);
            ck_near(times[i].latest_s, t.latest[i], 0);
        }
    }
    /* the trials are of all kinds */
    ck_assert_uint_gt(possible, 300);
    ck_assert_uint_gt(in_time, 100);
    ck_assert_uint_gt(impossible, 20);
}
END_TEST

/* A second job takes what hours the first one leaves, and is the earliest in those. */
START_TEST(one_pair_of_hands) {
    for (int round = 0; round < 300; round++) {
        trial first, second;
        runnel_task_times times[MOST_TASKS], others[MOST_TASKS];
        int starts[MOST_TASKS];
        double end = NAN;
        make_trial(&first);
        runnel_bounds bounds = {first.start, INFINITY, 0};
        if (runnel_chain_plan(first.tasks, first.count, &first.open, &bounds, RUNNEL_AIM_EARLY,
                              times, &end))
            continue;
        make_trial(&second);
        runnel_spans left = {0};
        for (size_t i = 0; i < first.open.count; i++) {
            left.items = realloc(left.items, (i + 1) * sizeof *left.items);
            ck_assert_ptr_nonnull(left.items);
            left.items[left.count++] = first.spans[i];
        }
        left.capacity = left.count;
        ck_assert_int_eq(runnel_hours_take(times, first.count, &left), RUNNEL_OK);
        /* second by second: what was open, and not taken; a task that divides takes closed hours
         * as well, in which nobody works anyway */
        second.open.count = 0;
        for (int now = 0; now < HORIZON + 12; now++) {
            bool free_then = is_open(&first, now);
            for (size_t k = 0; k < first.count; k++)
                free_then = free_then && !(times[k].start_s <= now && now + 1 <= times[k].end_s);
            bool told = false;
            for (size_t i = 0; i < left.count; i++)
                told = told || (left.items[i].from_s <= now && now + 1 <= left.items[i].to_s);
            ck_assert_int_eq(told, free_then);
        }
        ck_assert_uint_le(left.count, MOST_SPANS + MOST_TASKS);
        if (left.count <= MOST_SPANS) {
            memcpy(second.spans, left.items, left.count * sizeof *left.items);
            second.open.count = left.count;
            try_from(&second, 0, 0, starts);
            bounds = (runnel_bounds){second.start, INFINITY, second.after};
            runnel_status status = runnel_chain_plan(second.tasks, second.count, &left, &bounds,
                                                     RUNNEL_AIM_EARLY, others, &end);
            ck_assert_int_eq(status, second.any ? RUNNEL_OK : RUNNEL_NOT_POSSIBLE);
            if (second.any)
                ck_near(end, second.earliest_end, 0);
        }
        runnel_spans_clear(&left);
    }
}
END_TEST

/* ---- Hours ------------------------------------------------------------------------------------*/

enum { HOUR = 3600 };

START_TEST(weeks_as_written) {
    runnel_week week;
    ck_assert_int_eq(
        runnel_week_parse(" Mon-Wed 8:00-12:00 13:00-17:30, sat 9:00-13:00,Sun 0:00-24:00 ", NULL,
                          NULL, &week),
        RUNNEL_OK);
    for (int day = 0; day < 3; day++) {
        ck_assert_uint_eq(week.days[day].count, 2);
        ck_near(week.days[day].spans[0].from_s, 8 * HOUR, 0);
        ck_near(week.days[day].spans[1].to_s, 17.5 * HOUR, 0);
    }
    ck_assert_uint_eq(week.days[3].count + week.days[4].count, 0);
    ck_near(week.days[5].spans[0].to_s, 13 * HOUR, 0);
    ck_near(week.days[6].spans[0].to_s, 24 * HOUR, 0);
    /* over the end of the week */
    ck_assert_int_eq(runnel_week_parse("Sat-Mon 10:00-11:00", NULL, NULL, &week), RUNNEL_OK);
    ck_assert_uint_eq(week.days[5].count + week.days[6].count + week.days[0].count, 3);
    ck_assert_uint_eq(week.days[1].count, 0);
}
END_TEST

static const struct {
    const char *text;
    runnel_status status;
    const char *part; /* of the message */
} refused[] = {
    {"", RUNNEL_E_MISSING, "no hours are given"},
    {"Monday 8:00-9:00", RUNNEL_E_SYNTAX, "'Monday 8:00-9:00': a day is one of Mon"},
    {"Mon", RUNNEL_E_SYNTAX, "a day has no hours"},
    {"Mon 8-9", RUNNEL_E_SYNTAX, "not written as 8:00-17:30"},
    {"Mon 17:00-8:00", RUNNEL_E_RANGE, "from an earlier to a later time"},
    {"Mon 8:00-24:01", RUNNEL_E_RANGE, "up to 24:00"},
    {"Mon 8:00-8:75", RUNNEL_E_RANGE, "up to 24:00"},
    {"Mon 8:00-10:00 9:00-11:00", RUNNEL_E_CONFLICT, "overlap"},
    {"Mon 1:00-2:00 3:00-4:00 5:00-6:00 7:00-8:00 9:00-10:00", RUNNEL_E_RANGE, "four spans"},
    {"Mon-Wed 8:00-9:00, Tue 10:00-11:00", RUNNEL_E_CONFLICT, "named twice"},
    {"Mon 8:00-9:00; Tue 8:00-9:00", RUNNEL_E_SYNTAX, "stands behind the hours"},
    {"Mon- 8:00-9:00", RUNNEL_E_SYNTAX, "a day is one of"},
};

START_TEST(weeks_refused) {
    runnel_problems problems;
    runnel_week week, before;
    memset(&week, 0x5a, sizeof week);
    memcpy(&before, &week, sizeof week);
    runnel_problems_init(&problems);
    ck_assert_int_eq(runnel_week_parse(refused[_i].text, &problems, NULL, &week),
                     refused[_i].status);
    ck_assert_uint_eq(problems.count, 1);
    ck_assert_msg(strstr(problems.items[0].text, refused[_i].part) != NULL, "%s",
                  problems.items[0].text);
    ck_assert_mem_eq(&week, &before, sizeof week);
    runnel_problems_clear(&problems);
}
END_TEST

/* 2026-03-27 is a Friday, day 20539 of the epoch: 56 years of 365 days with 14 leap days, 31 + 28 +
 * 26 days more. Saturday is a day off. */
START_TEST(days_of_a_shop) {
    runnel_week week;
    runnel_spans open = {0};
    const runnel_days_off off = {.spans = {{{2026, 3, 28}, {2026, 3, 28}}}, .count = 1};
    ck_assert_int_eq(
        runnel_week_parse("Fri-Sun 8:00-12:00, Mon 23:00-24:00, Tue 0:00-1:00", NULL, NULL, &week),
        RUNNEL_OK);
    ck_assert_int_eq(runnel_week_open(&week, (runnel_date){2026, 3, 27}, 5, &off, NULL, &open),
                     RUNNEL_OK);
    ck_assert_uint_eq(open.count, 3); /* Monday's night joins Tuesday's */
    double day = 20539 * 86400.0;
    ck_near(open.items[0].from_s, day + 8 * HOUR, 0);
    ck_near(open.items[0].to_s, day + 12 * HOUR, 0);
    ck_near(open.items[1].from_s, day + 2 * 86400 + 8 * HOUR, 0);
    ck_near(open.items[2].from_s, day + 3 * 86400 + 23 * HOUR, 0);
    ck_near(open.items[2].to_s, day + 4 * 86400 + HOUR, 0);
    ck_assert_int_eq(runnel_week_open(&week, (runnel_date){2026, 2, 29}, 5, NULL, NULL, &open),
                     RUNNEL_E_RANGE);
    ck_assert_uint_eq(open.count, 3);
    ck_assert_int_eq(runnel_week_open(&week, (runnel_date){9999, 12, 30}, 5, NULL, NULL, &open),
                     RUNNEL_E_RANGE);
    runnel_spans_clear(&open);
}
END_TEST

static const struct {
    const char *text;
    runnel_status status;
    size_t problems;
} no_days_off[] = {
    {"", RUNNEL_E_SYNTAX, 1},
    {"2026-12-24,", RUNNEL_E_SYNTAX, 1},
    {"2026-12-24 - 2026-12-26", RUNNEL_E_SYNTAX, 1},
    {"2026-02-29, 24.12.2026, 2026-12-26", RUNNEL_E_RANGE, 2},
    {"2026-12-26 to 2026-12-24", RUNNEL_E_CONFLICT, 1},
    {"x to y", RUNNEL_E_SYNTAX, 2},
};

START_TEST(days_off_refused) {
    runnel_days_off off = {.count = 99};
    runnel_problems problems;
    runnel_problems_init(&problems);
    ck_assert_int_eq(runnel_days_off_parse(no_days_off[_i].text, &problems, NULL, &off),
                     no_days_off[_i].status);
    ck_assert_uint_eq(problems.count, no_days_off[_i].problems);
    ck_assert_uint_eq(off.count, 99);
    runnel_problems_clear(&problems);
}
END_TEST

/* A hundred entries and one more. */
START_TEST(days_off_have_a_limit) {
    char text[101 * 12 + 1] = "";
    runnel_days_off off = {.count = 99};
    for (size_t i = 0; i < 101; i++)
        memcpy(text + 12 * i, "2026-12-24, ", 13);
    text[101 * 12 - 2] = '\0';
    ck_assert_int_eq(runnel_days_off_parse(text, NULL, NULL, &off), RUNNEL_E_RANGE);
    text[100 * 12 - 2] = '\0';
    ck_assert_int_eq(runnel_days_off_parse(text, NULL, NULL, &off), RUNNEL_OK);
    ck_assert_uint_eq(off.count, 100);
}
END_TEST

/* From Christmas Eve of 2026, a Thursday, to the second day of the year, a Saturday: of the days
 * from 2026-12-23 to 2027-01-04 that leaves the Wednesday before, the Sunday and the Monday after.
 */
START_TEST(days_off_across_a_year) {
    runnel_week week;
    runnel_days_off off = {.count = 0};
    runnel_spans open = {0};
    ck_assert_int_eq(
        runnel_days_off_parse(" 2026-12-24 to 2027-01-02 ,2026-12-07", NULL, NULL, &off),
        RUNNEL_OK);
    ck_assert_uint_eq(off.count, 2);
    ck_assert_int_eq(runnel_week_parse("Mon-Sun 8:00-9:00", NULL, NULL, &week), RUNNEL_OK);
    ck_assert_int_eq(runnel_week_open(&week, (runnel_date){2026, 12, 23}, 13, &off, NULL, &open),
                     RUNNEL_OK);
    ck_assert_uint_eq(open.count, 3);
    ck_near(open.items[1].from_s - open.items[0].from_s, 11 * 86400.0, 0);
    ck_near(open.items[2].from_s - open.items[1].from_s, 86400, 0);
    runnel_spans_clear(&open);
}
END_TEST

/* The clocks of central Europe go from 2:00 to 3:00 on 2026-03-29, at 01:00 UTC, and back from 3:00
 * to 2:00 on 2026-10-25, at 01:00 UTC (Directive 2000/84/EC). */
START_TEST(clocks_put_forward_and_back) {
    double spring = (20539 + 2) * 86400.0 + HOUR, autumn = (20539 + 212) * 86400.0 + HOUR;
    const runnel_zone_change changes[] = {{-HUGE_VAL, HOUR}, {spring, 2 * HOUR}, {autumn, HOUR}};
    const runnel_zone zone = {changes, 3};
    ck_near(runnel_wall_of(&zone, spring - 1), spring - 1 + HOUR, 0); /* 1:59:59 */
    ck_near(runnel_wall_of(&zone, spring), spring + 2 * HOUR, 0);     /* 3:00:00 */
    ck_near(runnel_moment_of(&zone, spring + 1.5 * HOUR), spring, 0); /* 2:30 there is not */
    ck_near(runnel_moment_of(&zone, spring + 2.5 * HOUR), spring + 0.5 * HOUR, 0);
    ck_near(runnel_moment_of(&zone, autumn + 1.5 * HOUR), autumn - 0.5 * HOUR, 0); /* 2:30, first */
    ck_near(runnel_moment_of(&zone, autumn + 2.5 * HOUR), autumn + 1.5 * HOUR, 0);
    for (double moment = spring - 7200; moment < autumn + 10000; moment += 1799)
        if (fabs(moment - autumn) > HOUR)
            ck_near(runnel_moment_of(&zone, runnel_wall_of(&zone, moment)), moment, 0);
    /* Poured on Saturday at 17:00, cured for 24 h: at 17:00 by the other clock, at 18:00 by the
     * wall's, as an hour is lost in the night. */
    runnel_week week;
    runnel_spans open = {0};
    runnel_task_times times[2];
    double end = NAN;
    const runnel_task tasks[] = {{"pour", HOUR, false, 0, HUGE_VAL, NAN, 0},
                                 {"level", HOUR, false, 24 * HOUR, HUGE_VAL, NAN, 0}};
    ck_assert_int_eq(runnel_week_parse("Sat-Sun 16:00-20:00", NULL, NULL, &week), RUNNEL_OK);
    ck_assert_int_eq(runnel_week_open(&week, (runnel_date){2026, 3, 28}, 2, NULL, &zone, &open),
                     RUNNEL_OK);
    runnel_bounds bounds = {open.items[0].from_s, HUGE_VAL, 0};
    ck_assert_int_eq(runnel_chain_plan(tasks, 2, &open, &bounds, RUNNEL_AIM_EARLY, times, &end),
                     RUNNEL_OK);
    ck_near(times[1].start_s - times[0].end_s, 24 * HOUR, 0);
    ck_near(runnel_wall_of(&zone, times[1].start_s) - runnel_wall_of(&zone, times[0].end_s),
            25 * HOUR, 0);
    runnel_spans_clear(&open);
}
END_TEST

/* ---- Refusals ---------------------------------------------------------------------------------*/

START_TEST(chains_refused) {
    runnel_span span = {0, 10};
    runnel_spans open = {&span, 1, 1};
    const runnel_task fine = {"task", 1, false, 0, HUGE_VAL, NAN, 0};
    const runnel_bounds bounds = {0, HUGE_VAL, 0};
    runnel_task_times times[1];
    double end = -7;
    runnel_task wrong[6] = {fine, fine, fine, fine, fine, fine};
    wrong[0].hands_s = -1;
    wrong[1].hands_s = NAN;
    wrong[2].from_s = HUGE_VAL;
    wrong[3].until_s = -1;
    wrong[4].late_s = -1;
    wrong[5].until_s = NAN;
    for (int i = 0; i < 6; i++)
        ck_assert_int_eq(
            runnel_chain_plan(&wrong[i], 1, &open, &bounds, RUNNEL_AIM_EARLY, times, &end),
            RUNNEL_E_RANGE);
    runnel_bounds odd[4] = {bounds, bounds, bounds, bounds};
    odd[0].start_s = NAN;
    odd[1].end_s = NAN;
    odd[2].after_s = -1;
    odd[3].start_s = HUGE_VAL;
    for (int i = 0; i < 4; i++)
        ck_assert_int_eq(runnel_chain_plan(&fine, 1, &open, &odd[i], RUNNEL_AIM_EARLY, times, &end),
                         RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_chain_plan(&fine, 0, &open, &bounds, RUNNEL_AIM_EARLY, times, &end),
                     RUNNEL_E_RANGE);
    ck_near(end, -7, 0);
}
END_TEST

START_TEST(memory_that_runs_out) {
    trial t;
    do {
        int starts[MOST_TASKS];
        make_trial(&t);
        try_from(&t, 0, 0, starts);
    } while (t.count < 3 || !t.in_time);
    for (size_t n = 0;; n++) {
        failing count = {.fail_at = n};
        runnel_task_times times[MOST_TASKS];
        runnel_bounds bounds = {t.start, t.deadline, t.after};
        double end = -7;
        start_failing(&count);
        runnel_status status =
            runnel_chain_plan(t.tasks, t.count, &t.open, &bounds, RUNNEL_AIM_LATE, times, &end);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
        if (count.calls <= n) {
            ck_assert_int_eq(status, RUNNEL_OK);
            ck_assert_uint_gt(n, 10);
            break;
        }
        ck_assert_int_eq(status, RUNNEL_E_NO_MEMORY);
        ck_near(end, -7, 0);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("timeline");
    TCase *cases = tcase_create("cases");
    tcase_set_timeout(cases, 120);
    tcase_add_test(cases, against_every_schedule);
    tcase_add_test(cases, one_pair_of_hands);
    tcase_add_test(cases, weeks_as_written);
    tcase_add_loop_test(cases, weeks_refused, 0, (int)(sizeof refused / sizeof *refused));
    tcase_add_test(cases, days_of_a_shop);
    tcase_add_loop_test(cases, days_off_refused, 0,
                        (int)(sizeof no_days_off / sizeof *no_days_off));
    tcase_add_test(cases, days_off_have_a_limit);
    tcase_add_test(cases, days_off_across_a_year);
    tcase_add_test(cases, clocks_put_forward_and_back);
    tcase_add_test(cases, chains_refused);
    tcase_add_test(cases, memory_that_runs_out);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? 1 : 0;
}
