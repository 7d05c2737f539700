/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "failing.h"
#include "job_tables.h"
#include "runnel/read.h"
#include "runnel/timing.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct timed {
    runnel_job job;
    runnel_problems problems;
    runnel_timing_order order;
    runnel_timing made;
    runnel_status status;
} timed;

static void read_job(const char *yaml, const char *hours, timed *of) {
    memset(of, 0, sizeof *of);
    runnel_job_init(&of->job);
    runnel_status status =
        runnel_job_read_yaml(yaml, strlen(yaml), "job.yaml", job_tables(), &of->problems, &of->job);
    ck_assert_msg(!status, "%s", of->problems.count ? of->problems.items[0].text : "no reason");
    of->order.hours = hours;
    ck_assert_int_eq(runnel_week_parse(hours, NULL, NULL, &of->order.week), RUNNEL_OK);
}

static void plan_days(timed *of) {
    of->status = runnel_timing_make(&of->job, job_tables(), NULL, NULL, &of->order, &of->made);
}

static void timed_clear(timed *of) {
    runnel_timing_clear(&of->made);
    runnel_problems_clear(&of->problems);
    runnel_job_clear(&of->job);
}

/** A time in November 2026, by the clock of the shop. */
static double at(int day, int hour, int minute) {
    static const runnel_date epoch = {1970, 1, 1};
    const runnel_date november = {2026, 11, 1};
    return ((double)runnel_date_days_between(epoch, november) + day - 1) * 86400.0 + hour * 3600.0 +
           minute * 60.0;
}

static const runnel_timing_step *step(const timed *of, const char *code, size_t number) {
    for (size_t i = 0; i < of->made.step_count; i++)
        if (!strcmp(of->made.steps[i].code, code) && number-- == 1)
            return &of->made.steps[i];
    ck_abort_msg("there is no step %s", code);
    return NULL;
}

static bool warns(const timed *of, const char *code) {
    for (size_t i = 0; i < of->made.plan.warning_count; i++)
        if (!strcmp(of->made.plan.warnings[i].code, code))
            return true;
    return false;
}

#define WARM "resin: table-top 2:1\nshop: {temperature: 25 degC}\n"
#define HOLE "{measured: 5 ml, footprint: 4 cm2, pour time: 3 min}"

/* By hand, 25 degC as the resin is stated, Monday 2 November: flatten 20 min, carve 55, clean 10,
 * pour 15 + 3, sandable in 24 h, level 25, sand 35, shape 20; a week after the pour wrap 10 min. */
START_TEST(forward_by_hand) {
    timed of;
    read_job(WARM "pieces: [{cavities: [" HOLE "]}]\n", "Mon-Fri 8:00-17:00", &of);
    of.order.start = (runnel_date){2026, 11, 2};
    plan_days(&of);
    ck_assert_int_eq(of.status, RUNNEL_OK);
    ck_assert_uint_eq(of.made.step_count, 8);
    ck_near(step(&of, "carve", 1)->times.start_s, at(2, 8, 20), 0);
    ck_near(step(&of, "pour", 1)->times.end_s, at(2, 9, 43), 0);
    ck_near(step(&of, "level", 1)->times.start_s, at(3, 9, 43), 0);
    ck_near(of.made.last_s, at(3, 11, 3), 0);
    ck_near(of.made.wrap_s, at(9, 9, 43), 0);
    ck_near(of.made.ships_s, at(9, 9, 53), 0);
    ck_near(of.made.food_s, at(9, 9, 43), 0); /* full cure is 7 days as well */
    ck_near(of.made.hands_s, 193 * 60, 0);    /* 20 + 55 + 10 + 18 + 25 + 35 + 20 + 10 min */
    ck_assert(isnan(step(&of, "carve", 1)->times.latest_s));
    timed_clear(&of);
}
END_TEST

/* By hand: wrapped by Friday 13, 17:00, so poured by Friday 6, 16:50, 103 min after the first
 * step began; levelling may stay until the week after. */
START_TEST(backward_by_hand) {
    timed of;
    read_job(WARM "pieces: [{cavities: [" HOLE "]}]\n", "Mon-Fri 8:00-17:00", &of);
    of.order.ready_by = (runnel_date){2026, 11, 13};
    plan_days(&of);
    ck_assert_int_eq(of.status, RUNNEL_OK);
    ck_near(of.made.steps[0].times.start_s, at(6, 15, 7), 0);
    ck_near(of.made.steps[0].times.latest_s, at(6, 15, 7), 0);
    ck_near(step(&of, "pour", 1)->times.end_s, at(6, 16, 50), 0);
    ck_near(step(&of, "level", 1)->times.start_s, at(9, 8, 0), 0);
    ck_near(step(&of, "level", 1)->times.latest_s, at(13, 15, 30), 0);
    ck_near(of.made.ships_s, at(13, 17, 0), 0);
    timed_clear(&of);
}
END_TEST

/* A day too short: Monday 2 to Sunday 8, while it ships on Monday 9 at 9:53, 9.89 h after
 * midnight, 0.41 days, told as 0.5. Work on Saturday and Sunday does not help, as the week of the
 * pour rules. */
START_TEST(too_late_tells_by_how_much) {
    timed of;
    read_job(WARM "pieces: [{cavities: [" HOLE "]}]\n", "Mon-Fri 8:00-17:00", &of);
    of.order.start = (runnel_date){2026, 11, 2};
    of.order.ready_by = (runnel_date){2026, 11, 8};
    plan_days(&of);
    ck_assert_int_eq(of.status, RUNNEL_NOT_POSSIBLE);
    ck_assert(of.made.is_planned && warns(&of, "too-late"));
    ck_near(of.made.ships_s, at(9, 9, 53), 0);
    ck_assert_ptr_nonnull(
        strstr(of.made.plan.warnings[of.made.plan.warning_count - 1].text, "0.5 days later"));
    timed_clear(&of);
}
END_TEST

/* Two layers of 6 mm in a hole of 9 mm: the second 4 to 10 h after the first. Monday 9:43 + 4 h is
 * 13:43. In a shop open from 8 to 12 it waits for Tuesday 8:00, 22 h later, and is scuffed first,
 * 10 min on top. */
START_TEST(layers_and_scuffing) {
    timed of;
    const char *yaml = WARM "pieces: [{size: 90 x 90 x 20 mm, cavities: [{measured: 5 ml, "
                            "deepest: 9 mm, pour time: 3 min}]}]\n";
    read_job(yaml, "Mon-Fri 8:00-17:00", &of);
    of.order.start = (runnel_date){2026, 11, 2};
    plan_days(&of);
    ck_assert_int_eq(of.status, RUNNEL_OK);
    const runnel_timing_step *first = step(&of, "pour", 1), *second = step(&of, "pour", 2);
    ck_near(second->times.start_s, first->times.end_s + 4 * 3600.0, 0);
    ck_assert(!second->times.is_late);
    ck_assert_ptr_nonnull(strstr(second->text, "layer 2 of 2"));
    timed_clear(&of);
    read_job(yaml, "Mon-Fri 8:00-12:00", &of);
    of.order.start = (runnel_date){2026, 11, 2};
    plan_days(&of);
    first = step(&of, "pour", 1);
    second = step(&of, "pour", 2);
    ck_assert(second->times.is_late);
    ck_near(second->times.start_s, at(3, 9, 41) + 30,
            0); /* hard enough to be scuffed, 24 h after */
    ck_near(second->times.end_s - second->times.start_s,
            first->times.end_s - first->times.start_s + 600, 0);
    timed_clear(&of);
}
END_TEST

/* A warmer shop halves the times about every 10 degC: at 15 degC sandable is 24 h x exp(52000 /
 * 8.314463 x (1/288.15 - 1/298.15)) = 24 x 2.07088 = 49.7 h instead of 24 h. */
START_TEST(temperature_and_remedies) {
    timed of;
    read_job("resin: table-top 2:1\nshop: {temperature: 15 degC}\n"
             "pieces: [{cavities: [" HOLE "]}]\n",
             "Mon-Sun 0:00-24:00", &of);
    of.order.start = (runnel_date){2026, 11, 2};
    of.order.ready_by = (runnel_date){2026, 11, 3};
    plan_days(&of);
    ck_assert_int_eq(of.status, RUNNEL_NOT_POSSIBLE);
    double waited_s = step(&of, "level", 1)->times.start_s - step(&of, "pour", 1)->times.end_s;
    ck_near(waited_s, 24 * 3600 * 2.07088, 1e-5);
    timed_clear(&of);
}
END_TEST

/* Below the lowest temperature, 12 degC, and where the sheet of the resin tells no times, no day
 * is told. */
START_TEST(no_times_no_days) {
    timed of;
    read_job("resin: table-top 2:1\nshop: {temperature: 10 degC}\n"
             "pieces: [{cavities: [" HOLE "]}]\n",
             "Mon-Fri 8:00-17:00", &of);
    of.order.start = (runnel_date){2026, 11, 2};
    plan_days(&of);
    ck_assert_int_eq(of.status, RUNNEL_NOT_POSSIBLE);
    ck_assert(!of.made.is_planned && warns(&of, "too-cold") && warns(&of, "time-unknown"));
    ck_assert(isnan(of.made.ships_s) && isnan(of.made.food_s));
    timed_clear(&of);
    read_job("resin: casting 3:1\npieces: [{cavities: [" HOLE "]}]\n", "Mon-Fri 8:00-17:00", &of);
    of.order.start = (runnel_date){2026, 11, 2};
    plan_days(&of);
    ck_assert_int_eq(of.status, RUNNEL_NOT_POSSIBLE);
    ck_assert(warns(&of, "time-unknown"));
    timed_clear(&of);
}
END_TEST

START_TEST(orders_are_checked) {
    timed of;
    read_job(WARM "pieces: [{cavities: [" HOLE "]}]\n", "Mon-Fri 8:00-17:00", &of);
    plan_days(&of);
    ck_assert_int_eq(of.status, RUNNEL_E_RANGE);
    of.order.start = (runnel_date){2026, 2, 29};
    plan_days(&of);
    ck_assert_int_eq(of.status, RUNNEL_E_RANGE);
    of.order.start = (runnel_date){0, 0, 0};
    of.order.ready_by = (runnel_date){2026, 11, 31};
    plan_days(&of);
    ck_assert_int_eq(of.status, RUNNEL_E_RANGE);
    ck_assert_uint_eq(of.made.step_count, 0);
    timed_clear(&of);
    runnel_timing_clear(NULL);
}
END_TEST

START_TEST(memory_may_run_out) {
    timed of;
    read_job("resin: table-top 2:1\nshop: {temperature: 15 degC}\n"
             "pieces: [{cavities: [" HOLE "]}]\n",
             "Mon-Fri 8:00-17:00", &of);
    of.order.start = (runnel_date){2026, 11, 2};
    of.order.ready_by = (runnel_date){2026, 11, 3};
    runnel_status status = RUNNEL_E_NO_MEMORY;
    for (size_t n = 0; status == RUNNEL_E_NO_MEMORY; n += 1 + n / 12) {
        failing count = {.fail_at = n};
        ck_assert_uint_lt(n, 100000);
        start_failing(&count);
        status = runnel_timing_make(&of.job, job_tables(), NULL, NULL, &of.order, &of.made);
        if (status == RUNNEL_E_NO_MEMORY)
            ck_assert_uint_eq(of.made.step_count, 0);
        runnel_timing_clear(&of.made);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
    }
    ck_assert_int_eq(status, RUNNEL_NOT_POSSIBLE);
    timed_clear(&of);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("timing");
    TCase *tests = tcase_create("timing");
    tcase_set_timeout(tests, 300);
    tcase_add_test(tests, forward_by_hand);
    tcase_add_test(tests, backward_by_hand);
    tcase_add_test(tests, too_late_tells_by_how_much);
    tcase_add_test(tests, layers_and_scuffing);
    tcase_add_test(tests, temperature_and_remedies);
    tcase_add_test(tests, no_times_no_days);
    tcase_add_test(tests, orders_are_checked);
    tcase_add_test(tests, memory_may_run_out);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed != 0;
}
