/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Systems of ordinary differential equations of the first order, with places that are looked for on
 * the way.
 */
#ifndef RUNNEL_NUMERIC_ODE_H
#define RUNNEL_NUMERIC_ODE_H

#include "runnel/status.h"

#include <stdbool.h>
#include <stddef.h>

/** Most places that one run looks for. */
#define RUNNEL_ODE_EVENTS 8

/** A system y' = f(t, y). All functions get `state`; none may keep the pointers. */
typedef struct runnel_ode {
    size_t count; /**< of the unknowns, 1 or more */
    void *state;
    /** Fills `rates` with f; false when it cannot. */
    bool (*rates)(double t, const double *y, double *rates, void *state);
    /** For stiff systems: fills `rows` (count x count, by rows) with df_i/dy_j and `by_time` with
     * df_i/dt; both come zeroed. NULL for systems that are not stiff. */
    bool (*jacobian)(double t, const double *y, double *rows, double *by_time, void *state);
    double
        absolute; /**< error of each unknown that a step may have, > 0 or, with the next, 0 ... */
    double relative; /**< ... plus this share of it, >= 0; not both 0 */
    double first;    /**< first step to try; 0 = a 1000th of the way */
    double longest;  /**< no step is longer, so that nothing in `rates` is stepped over; 0 = any */
    /** Values that are looked for: where one goes from below 0 to 0 or above. A value that is 0 or
     * above at the start counts from where it has been below. May not be 0 over a whole stretch. */
    size_t event_count; /**< at most RUNNEL_ODE_EVENTS */
    double (*event)(size_t index, double t, const double *y, const double *rates, void *state);
    /** Called where one was found, in the order of time; false ends the run there. */
    bool (*reached)(size_t index, double t, const double *y, void *state);
    /** Called after each step, with both its ends and the rates there; may be NULL; false ends the
     * run at its end. */
    bool (*stepped)(double from, const double *y_from, const double *rates_from, double to,
                    const double *y_to, const double *rates_to, void *state);
} runnel_ode;

/**
 * Goes from `*t` to `to`: with the Runge-Kutta pair of orders 8 and 9 of Prince and Dormand (J.
 * Comput. Appl. Math. 7, 1981), or, where a Jacobian is given, with backward differences of order 1
 * to 5 (GSL's rk8pd and msbdf); the step follows the error. A place that is looked for is found by
 * halving the step it lies in, anew from its start each time, to 1e-12 of the step or of t.
 *
 * @param t  where to start, finite; where it ended
 * @param to finite, at or after *t
 * @param y  `count` values at the start; at the end
 * @return RUNNEL_OK, also when a function ended the run; RUNNEL_E_RANGE for a system, ends or
 *         tolerances that are none; RUNNEL_E_NOT_COMPUTED when a rate is not finite, the step
 *         became too small or a million steps did not do; RUNNEL_E_NO_MEMORY. On failure t and y
 *         are as they were.
 */
runnel_status runnel_ode_run(const runnel_ode *ode, double *t, double to, double *y);

#endif
