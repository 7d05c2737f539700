/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "numeric/ode.h"

#include <stdlib.h>

static const double pi = 3.14159265358979323846;

typedef struct notes {
    double times[64];
    size_t indices[64];
    size_t count, stop_after, steps;
    double value;
} notes;

static bool decay(double t, const double *y, double *rates, void *state) {
    (void)t;
    (void)state;
    rates[0] = -y[0];
    return true;
}
static bool circle(double t, const double *y, double *rates, void *state) {
    (void)t;
    (void)state;
    rates[0] = y[1];
    rates[1] = -y[0];
    return true;
}
/* y' = -1000 (y - cos t) - sin t: the solution from 1 on is cos t, and all others fall upon it. */
static bool stiff(double t, const double *y, double *rates, void *state) {
    (void)state;
    rates[0] = -1000 * (y[0] - cos(t)) - sin(t);
    return true;
}
static bool stiff_jacobian(double t, const double *y, double *rows, double *by_time, void *state) {
    (void)y;
    (void)state;
    rows[0] = -1000;
    by_time[0] = -1000 * sin(t) - cos(t);
    return true;
}
static bool no_jacobian(double t, const double *y, double *rows, double *by_time, void *state) {
    (void)t;
    (void)y;
    (void)rows;
    (void)by_time;
    (void)state;
    return false;
}
static bool blow_up(double t, const double *y, double *rates, void *state) {
    (void)t;
    (void)state;
    rates[0] = y[0] * y[0]; /* 1/(1 - t) from 1 on: infinite at 1 */
    return true;
}
static bool refuse_late(double t, const double *y, double *rates, void *state) {
    (void)y;
    (void)state;
    rates[0] = 1;
    return t < 0.5;
}
static bool not_finite(double t, const double *y, double *rates, void *state) {
    (void)y;
    (void)state;
    rates[0] = t < 0.5 ? 1 : NAN;
    return true;
}

/* 0: sine rises through 0; 1: the sine is highest, as its rate goes from above 0 to below. */
static double circle_event(size_t index, double t, const double *y, const double *rates,
                           void *state) {
    (void)t;
    (void)state;
    return index == 0 ? y[0] : -rates[0];
}
static double decay_event(size_t index, double t, const double *y, const double *rates,
                          void *state) {
    (void)index;
    (void)t;
    (void)rates;
    return ((notes *)state)->value - y[0];
}
static bool note(size_t index, double t, const double *y, void *state) {
    (void)y;
    notes *all = state;
    ck_assert_uint_lt(all->count, 64);
    all->indices[all->count] = index;
    all->times[all->count++] = t;
    return all->count != all->stop_after;
}
static bool count_steps(double from, const double *y_from, const double *rates_from, double to,
                        const double *y_to, const double *rates_to, void *state) {
    (void)y_to;
    (void)rates_to;
    notes *all = state;
    ck_assert(to > from);
    ck_near(rates_from[0], -y_from[0], 0);
    return ++all->steps != all->stop_after;
}

START_TEST(known_solutions) {
    double t = 0, y[2] = {1, 0};
    runnel_ode ode = {.count = 1, .rates = decay, .relative = 1e-12};
    ck_assert_int_eq(runnel_ode_run(&ode, &t, 3, y), RUNNEL_OK);
    ck_near(t, 3, 0);
    ck_near(y[0], 0.049787068367863943, 1e-11); /* exp(-3) */

    /* Three turns of a circle: back at the start. */
    ode = (runnel_ode){.count = 2, .rates = circle, .absolute = 1e-12};
    t = 0;
    y[0] = 0;
    y[1] = 1;
    ck_assert_int_eq(runnel_ode_run(&ode, &t, 6 * pi, y), RUNNEL_OK);
    ck_near_or(y[0], 0, 0, 1e-10);
    ck_near(y[1], 1, 1e-10);

    /* An explicit method would need 300 000 steps over this. */
    notes all = {.count = 0};
    ode = (runnel_ode){
        .count = 1, .rates = stiff, .jacobian = stiff_jacobian, .state = &all, .absolute = 1e-9};
    t = 0;
    y[0] = 1;
    ck_assert_int_eq(runnel_ode_run(&ode, &t, 300, y), RUNNEL_OK);
    ck_near_or(y[0], cos(300), 0, 1e-7);

    /* No way at all leaves all as it is. */
    y[0] = 7;
    ck_assert_int_eq(runnel_ode_run(&ode, &t, 300, y), RUNNEL_OK);
    ck_near(y[0], 7, 0);
}
END_TEST

START_TEST(places_on_the_way) {
    notes all = {.count = 0};
    runnel_ode ode = {.count = 2,
                      .state = &all,
                      .rates = circle,
                      .absolute = 1e-13,
                      .relative = 1e-13,
                      .event_count = 2,
                      .event = circle_event,
                      .reached = note};
    double t = 0, y[2] = {0, 1};
    ck_assert_int_eq(runnel_ode_run(&ode, &t, 4 * pi + 1, y), RUNNEL_OK);
    /* sin is highest at pi/2 and each turn on; it starts at 0, which does not count, and rises
     * through 0 after one and two turns. */
    static const struct {
        size_t index;
        double turns;
    } wanted[] = {{1, 0.25}, {0, 1}, {1, 1.25}, {0, 2}};
    ck_assert_uint_eq(all.count, 4);
    for (size_t i = 0; i < 4; i++) {
        ck_assert_uint_eq(all.indices[i], wanted[i].index);
        ck_near(all.times[i], wanted[i].turns * 2 * pi, 1e-10);
    }

    /* Half of it is left after ln 2; the run ends there. */
    all = (notes){.stop_after = 1, .value = 0.5};
    ode = (runnel_ode){.count = 1,
                       .state = &all,
                       .rates = decay,
                       .relative = 1e-13,
                       .event_count = 1,
                       .event = decay_event,
                       .reached = note};
    t = 0;
    y[0] = 1;
    ck_assert_int_eq(runnel_ode_run(&ode, &t, 100, y), RUNNEL_OK);
    ck_near(t, 0.69314718055994531, 1e-11);
    ck_near(y[0], 0.5, 1e-11);
    ck_near(all.times[0], t, 0);
}
END_TEST

START_TEST(steps_are_told) {
    notes all = {.stop_after = 3};
    runnel_ode ode = {
        .count = 1, .state = &all, .rates = decay, .relative = 1e-9, .stepped = count_steps};
    double t = 0, y = 1;
    ck_assert_int_eq(runnel_ode_run(&ode, &t, 100, &y), RUNNEL_OK);
    ck_assert_uint_eq(all.steps, 3);
    ck_assert(t > 0 && t < 100);
    ck_near(y, exp(-t), 1e-8);
}
END_TEST

static void refused(const runnel_ode *ode, double from, double to, double start,
                    runnel_status want) {
    double t = from, y[2] = {start, 1};
    ck_assert_int_eq(runnel_ode_run(ode, &t, to, y), want);
    ck_near(t, from, 0);
    ck_near(y[0], start, 0);
}

START_TEST(refusals) {
    const runnel_ode good = {.count = 1, .rates = decay, .absolute = 1e-9};
    refused(&good, 0, -1, 1, RUNNEL_E_RANGE);
    refused(&good, 0, INFINITY, 1, RUNNEL_E_RANGE);
    refused(&good, NAN, 1, 1, RUNNEL_E_RANGE);
    refused(&good, 0, 1, NAN, RUNNEL_E_RANGE);
    runnel_ode bad[9];
    for (size_t i = 0; i < 9; i++)
        bad[i] = good;
    bad[0].count = 0;
    bad[1].rates = NULL;
    bad[2].absolute = 0;
    bad[3].absolute = -1;
    bad[4].relative = NAN;
    bad[5].first = -1;
    bad[6].event_count = RUNNEL_ODE_EVENTS + 1;
    bad[6].event = decay_event;
    bad[6].reached = note;
    bad[7].event_count = 1;
    bad[7].event = decay_event;
    bad[8].event_count = 1;
    bad[8].reached = note;
    for (size_t i = 0; i < 9; i++)
        refused(&bad[i], 0, 1, 1, RUNNEL_E_RANGE);
}
END_TEST

START_TEST(what_cannot_be_computed) {
    runnel_ode ode = {.count = 1, .rates = blow_up, .absolute = 1e-9, .relative = 1e-9};
    refused(&ode, 0, 2, 1, RUNNEL_E_NOT_COMPUTED);
    ode.rates = refuse_late;
    refused(&ode, 0, 2, 1, RUNNEL_E_NOT_COMPUTED);
    refused(&ode, 1, 2, 1, RUNNEL_E_NOT_COMPUTED);
    ode.rates = not_finite;
    refused(&ode, 0, 2, 1, RUNNEL_E_NOT_COMPUTED);
    ode.rates = stiff;
    ode.jacobian = no_jacobian;
    refused(&ode, 0, 2, 1, RUNNEL_E_NOT_COMPUTED);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("ode");
    TCase *all = tcase_create("all");
    tcase_add_test(all, known_solutions);
    tcase_add_test(all, places_on_the_way);
    tcase_add_test(all, steps_are_told);
    tcase_add_test(all, refusals);
    tcase_add_test(all, what_cannot_be_computed);
    suite_add_tcase(suite, all);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
