/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "numeric/quadrature.h"

#include "numeric/gsl_guard.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>
#include <math.h>
#include <stdatomic.h>
#include <stdbool.h>

/* 100 intervals are what GSL's manual advises for cquad. */
#define MOST_INTERVALS 100

static const double least_relative = 1e-13;

/* cquad leaves points out where f is not finite, so that a broken f would pass unseen. */
typedef struct watched {
    double (*f)(double x, void *state);
    void *state;
    bool broken;
} watched;

static double watch(double x, void *state) {
    watched *watched_f = state;
    double y = watched_f->f(x, watched_f->state);
    if (!isfinite(y))
        watched_f->broken = true;
    return y;
}

runnel_status runnel_integrate(double (*f)(double x, void *state), void *state, double from,
                               double to, double absolute, double relative, double *value,
                               double *error) {
    bool sound = isfinite(from) && isfinite(to) && isfinite(absolute) && isfinite(relative) &&
                 absolute >= 0 && relative >= 0;
    if (!sound)
        return RUNNEL_E_RANGE;
    if (from == to) {
        *value = 0;
        *error = 0;
        return RUNNEL_OK;
    }
    runnel_numeric_quiet();
    gsl_integration_cquad_workspace *workspace =
        gsl_integration_cquad_workspace_alloc(MOST_INTERVALS);
    if (!workspace)
        return RUNNEL_E_NO_MEMORY;
    watched watched_f = {f, state, false};
    gsl_function function = {watch, &watched_f};
    double sum = 0, estimate = 0, share = fmax(relative, least_relative);
    int failed = gsl_integration_cquad(&function, fmin(from, to), fmax(from, to), absolute, share,
                                       workspace, &sum, &estimate, NULL);
    gsl_integration_cquad_workspace_free(workspace);
    if (failed || watched_f.broken || !isfinite(sum) || !isfinite(estimate) ||
        estimate > fmax(absolute, share * fabs(sum)))
        return RUNNEL_E_NOT_COMPUTED;
    *value = from < to ? sum : -sum;
    *error = estimate;
    return RUNNEL_OK;
}

static bool is_precise(size_t points) {
    return (points >= 1 && points <= 20) || points == 32 || points == 64;
}

runnel_status runnel_gauss_rule_of(size_t points, runnel_gauss_rule *rule) {
    if (!is_precise(points))
        return RUNNEL_E_RANGE;
    runnel_numeric_quiet();
    gsl_integration_glfixed_table *table = gsl_integration_glfixed_table_alloc(points);
    if (!table)
        return RUNNEL_E_NO_MEMORY;
    rule->points = points;
    for (size_t i = 0; i < points; i++)
        gsl_integration_glfixed_point(-1, 1, i, &rule->node[i], &rule->weight[i], table);
    gsl_integration_glfixed_table_free(table);
    return RUNNEL_OK;
}

/* The kept table of a size, or NULL without memory. */
static gsl_integration_glfixed_table *kept_table(size_t points) {
    static _Atomic(gsl_integration_glfixed_table *) kept[RUNNEL_GAUSS_MOST + 1];
    gsl_integration_glfixed_table *table = atomic_load(&kept[points]);
    if (table)
        return table;
    runnel_numeric_quiet();
    gsl_integration_glfixed_table *fresh = gsl_integration_glfixed_table_alloc(points);
    if (!fresh)
        return NULL;
    if (atomic_compare_exchange_strong(&kept[points], &table, fresh))
        return fresh;
    gsl_integration_glfixed_table_free(fresh); /* another thread was faster; `table` is its one */
    return table;
}

double runnel_gauss_legendre(double (*f)(double x, void *state), void *state, double from,
                             double to, size_t points) {
    if (!is_precise(points))
        return NAN;
    gsl_integration_glfixed_table *table = kept_table(points);
    if (!table)
        return NAN;
    gsl_function function = {f, state};
    return gsl_integration_glfixed(&function, from, to, table);
}
