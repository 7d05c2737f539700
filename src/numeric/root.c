/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "numeric/root.h"

#include "numeric/gsl_guard.h"

#include <float.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_roots.h>
#include <math.h>
#include <stdbool.h>

#define MOST_STEPS 200

/* Brent's method needs its tolerance above the spacing of doubles to end at all. */
static const double least_relative = 4 * DBL_EPSILON;

static runnel_status iterate(gsl_root_fsolver *solver, double absolute, double relative,
                             double *value, double *error) {
    for (int step = 0; step < MOST_STEPS; step++) {
        if (gsl_root_fsolver_iterate(solver) != GSL_SUCCESS)
            return RUNNEL_E_NOT_COMPUTED;
        double root = gsl_root_fsolver_root(solver);
        double width = gsl_root_fsolver_x_upper(solver) - gsl_root_fsolver_x_lower(solver);
        if (width <= fmax(absolute, relative * fabs(root))) {
            *value = root;
            *error = width;
            return RUNNEL_OK;
        }
    }
    return RUNNEL_E_NOT_COMPUTED;
}

static runnel_status bracketed(double (*f)(double x, void *state), void *state, double low,
                               double high, double absolute, double relative, double *value,
                               double *error) {
    runnel_numeric_quiet();
    gsl_root_fsolver *solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    if (!solver)
        return RUNNEL_E_NO_MEMORY;
    gsl_function function = {f, state};
    runnel_status status = RUNNEL_E_NOT_COMPUTED;
    if (gsl_root_fsolver_set(solver, &function, low, high) == GSL_SUCCESS)
        status = iterate(solver, absolute, fmax(relative, least_relative), value, error);
    gsl_root_fsolver_free(solver);
    return status;
}

runnel_status runnel_root(double (*f)(double x, void *state), void *state, double low, double high,
                          double absolute, double relative, double *value, double *error) {
    bool sound = isfinite(low) && isfinite(high) && isfinite(absolute) && isfinite(relative) &&
                 absolute >= 0 && relative >= 0;
    if (!sound)
        return RUNNEL_E_RANGE;
    double at_low = f(low, state), at_high = f(high, state);
    if (!isfinite(at_low) || !isfinite(at_high))
        return RUNNEL_E_NOT_COMPUTED;
    if (at_low == 0 || at_high == 0) {
        *value = at_low == 0 ? low : high;
        *error = 0;
        return RUNNEL_OK;
    }
    if ((at_low < 0) == (at_high < 0))
        return RUNNEL_E_RANGE;
    return bracketed(f, state, fmin(low, high), fmax(low, high), absolute, relative, value, error);
}
