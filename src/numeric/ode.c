/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "numeric/ode.h"

#include "base/memory.h"
#include "numeric/gsl_guard.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <math.h>
#include <string.h>

#define MOST_STEPS 1000000

/* Halvings that bring any step to the spacing of doubles. */
#define MOST_HALVINGS 60

/* Where a place is told from its neighbours no more, as a share of the step or of t. */
static const double same_place = 1e-12;

typedef struct runner {
    const runnel_ode *ode;
    gsl_odeiv2_system system;
    gsl_odeiv2_driver *driver; /* takes the steps */
    gsl_odeiv2_driver *finder; /* walks within a step */
    double *memory;
    double *from_y, *from_rates, *y, *rates, *try_y, *try_rates;
    double from, at;
    double step;
    bool ended;
} runner;

static int call_rates(double t, const double y[], double rates[], void *params) {
    const runnel_ode *ode = params;
    if (!ode->rates(t, y, rates, ode->state))
        return GSL_EBADFUNC;
    for (size_t i = 0; i < ode->count; i++)
        if (!isfinite(rates[i]))
            return GSL_EBADFUNC;
    return GSL_SUCCESS;
}

static int call_jacobian(double t, const double y[], double *rows, double by_time[], void *params) {
    const runnel_ode *ode = params;
    memset(rows, 0, ode->count * ode->count * sizeof *rows);
    memset(by_time, 0, ode->count * sizeof *by_time);
    return ode->jacobian(t, y, rows, by_time, ode->state) ? GSL_SUCCESS : GSL_EBADFUNC;
}

static bool is_sound(const runnel_ode *ode, double t, double to) {
    return ode->count && ode->rates && isfinite(t) && isfinite(to) && to >= t &&
           isfinite(ode->absolute) && isfinite(ode->relative) && isfinite(ode->first) &&
           ode->absolute >= 0 && ode->relative >= 0 && ode->first >= 0 &&
           ode->absolute + ode->relative > 0 && ode->event_count <= RUNNEL_ODE_EVENTS &&
           (!ode->event_count || (ode->event && ode->reached));
}

static gsl_odeiv2_driver *new_driver(runner *run, double step) {
    const gsl_odeiv2_step_type *type =
        run->ode->jacobian ? gsl_odeiv2_step_msbdf : gsl_odeiv2_step_rk8pd;
    return gsl_odeiv2_driver_alloc_y_new(&run->system, type, step, run->ode->absolute,
                                         run->ode->relative);
}

/* The values at a place within the step, from the step's start. */
static runnel_status walk_to(runner *run, double place) {
    double t = run->from;
    memcpy(run->try_y, run->from_y, run->ode->count * sizeof *run->try_y);
    if (place > t) {
        gsl_odeiv2_driver_reset_hstart(run->finder, place - t);
        if (gsl_odeiv2_driver_apply(run->finder, &t, place, run->try_y) != GSL_SUCCESS)
            return RUNNEL_E_NOT_COMPUTED;
    }
    return call_rates(place, run->try_y, run->try_rates, (void *)run->ode) == GSL_SUCCESS
               ? RUNNEL_OK
               : RUNNEL_E_NOT_COMPUTED;
}

/* Finds where an event becomes 0, by halving with a secant in between (the Illinois rule). */
static runnel_status find_place(runner *run, size_t index, double at_from, double at_to,
                                double *place) {
    double low = run->from, high = run->at, below = at_from, above = at_to;
    int side = 0;
    for (int i = 0; i < MOST_HALVINGS; i++) {
        double width = high - low;
        if (width <= same_place * fmax(run->at - run->from, fabs(high)))
            break;
        double middle = low - below * width / (above - below);
        if (!(middle > low && middle < high) || i % 8 == 7)
            middle = low + width / 2;
        runnel_status status = walk_to(run, middle);
        if (status != RUNNEL_OK)
            return status;
        double value = run->ode->event(index, middle, run->try_y, run->try_rates, run->ode->state);
        if (value >= 0) {
            high = middle;
            above = value;
            below *= side > 0 ? 0.5 : 1;
            side = 1;
        } else {
            low = middle;
            below = value;
            above *= side < 0 ? 0.5 : 1;
            side = -1;
        }
        if (value == 0)
            break;
    }
    *place = high;
    return RUNNEL_OK;
}

typedef struct found_place {
    size_t index;
    double t;
} found_place;

/* Puts a place where it belongs by time. */
static void sort_in(found_place *found, size_t count, found_place place) {
    size_t i = count;
    for (; i > 0 && found[i - 1].t > place.t; i--)
        found[i] = found[i - 1];
    found[i] = place;
}

static runnel_status tell_places(runner *run) {
    found_place found[RUNNEL_ODE_EVENTS];
    size_t count = 0;
    const runnel_ode *ode = run->ode;
    for (size_t i = 0; i < ode->event_count; i++) {
        found_place place = {i, 0};
        double before = ode->event(i, run->from, run->from_y, run->from_rates, ode->state);
        double after = ode->event(i, run->at, run->y, run->rates, ode->state);
        if (!(before < 0 && after >= 0))
            continue;
        runnel_status status = find_place(run, i, before, after, &place.t);
        if (status != RUNNEL_OK)
            return status;
        sort_in(found, count++, place);
    }
    for (size_t i = 0; i < count; i++) {
        runnel_status status = walk_to(run, found[i].t);
        if (status != RUNNEL_OK)
            return status;
        if (ode->reached(found[i].index, found[i].t, run->try_y, ode->state))
            continue;
        run->at = found[i].t;
        memcpy(run->y, run->try_y, ode->count * sizeof *run->y);
        run->ended = true;
        return RUNNEL_OK;
    }
    return RUNNEL_OK;
}

static runnel_status take_step(runner *run, double to) {
    const runnel_ode *ode = run->ode;
    size_t bytes = ode->count * sizeof *run->y;
    run->from = run->at;
    memcpy(run->from_y, run->y, bytes);
    memcpy(run->from_rates, run->rates, bytes);
    gsl_odeiv2_driver *driver = run->driver;
    if (ode->longest > 0)
        to = fmin(to, run->at + ode->longest);
    int failed = gsl_odeiv2_evolve_apply(driver->e, driver->c, driver->s, driver->sys, &run->at, to,
                                         &run->step, run->y);
    if (failed != GSL_SUCCESS || !(run->at > run->from) ||
        call_rates(run->at, run->y, run->rates, (void *)ode) != GSL_SUCCESS)
        return RUNNEL_E_NOT_COMPUTED;
    runnel_status status = tell_places(run);
    if (status == RUNNEL_OK && ode->stepped &&
        !ode->stepped(run->from, run->from_y, run->from_rates, run->at, run->y, run->rates,
                      ode->state))
        run->ended = true;
    return status;
}

static runnel_status prepare(runner *run, double t, double to, const double *y) {
    size_t count = run->ode->count;
    run->memory = runnel_zeroed(6 * count, sizeof *run->memory);
    if (!run->memory)
        return RUNNEL_E_NO_MEMORY;
    double **parts[] = {&run->from_y, &run->from_rates, &run->y,
                        &run->rates,  &run->try_y,      &run->try_rates};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        *parts[i] = run->memory + i * count;
    memcpy(run->y, y, count * sizeof *y);
    run->at = t;
    run->step = run->ode->first > 0 ? run->ode->first : (to - t) / 1000;
    run->driver = new_driver(run, run->step);
    run->finder = new_driver(run, run->step);
    if (!run->driver || !run->finder)
        return RUNNEL_E_NO_MEMORY;
    return call_rates(t, y, run->rates, (void *)run->ode) == GSL_SUCCESS ? RUNNEL_OK
                                                                         : RUNNEL_E_NOT_COMPUTED;
}

runnel_status runnel_ode_run(const runnel_ode *ode, double *t, double to, double *y) {
    if (!is_sound(ode, *t, to))
        return RUNNEL_E_RANGE;
    for (size_t i = 0; i < ode->count; i++)
        if (!isfinite(y[i]))
            return RUNNEL_E_RANGE;
    if (*t == to)
        return RUNNEL_OK;
    runnel_numeric_quiet();
    runner run = {.ode = ode};
    run.system = (gsl_odeiv2_system){call_rates, ode->jacobian ? call_jacobian : NULL, ode->count,
                                     (void *)ode};
    runnel_status status = prepare(&run, *t, to, y);
    for (size_t i = 0; status == RUNNEL_OK && !run.ended && run.at < to; i++)
        status = i < MOST_STEPS ? take_step(&run, to) : RUNNEL_E_NOT_COMPUTED;
    if (status == RUNNEL_OK) {
        *t = run.at;
        memcpy(y, run.y, ode->count * sizeof *y);
    }
    if (run.driver)
        gsl_odeiv2_driver_free(run.driver);
    if (run.finder)
        gsl_odeiv2_driver_free(run.finder);
    runnel_free(run.memory);
    return status;
}
