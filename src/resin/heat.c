/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/heat.h"

#include "base/memory.h"
#include "numeric/ode.h"
#include "resin/amount.h"
#include "resin/arrhenius.h"
#include "resin/heat_run.h"
#include "resin/law.h"

#include <math.h>

static const double pi = 3.14159265358979323846;
static const double m2_per_mm2 = 1e-6; /* exact */
static const double mm3_per_ml = 1000; /* exact */
static const double run_of_gel_times = 20;

runnel_resin_heat runnel_resin_heat_usual(void) {
    return (runnel_resin_heat){400, 1.9, 0.2, 1.1};
}

/* kJ per mol of epoxide, and g of part A that hold it. */
typedef struct epoxide {
    double kj_per_mol, eew;
} epoxide;

static const epoxide usual_epoxide = {100, 190}, least_epoxide = {98, 200},
                     most_epoxide = {122, 182};

runnel_resin_heat runnel_resin_heat_of(const runnel_resin *resin, double *low, double *high) {
    runnel_resin_heat heat = runnel_resin_heat_usual();
    runnel_mixture mixture;
    bool is_mix = !runnel_mixture_of(&resin->ratio, resin->density_a_g_per_ml,
                                     resin->density_b_g_per_ml, &mixture);
    bool is_stated = runnel_is_positive(resin->reaction_j_per_g), is_found = is_mix && !is_stated;
    if (is_mix)
        heat.density_g_per_ml = mixture.density_g_per_ml;
    if (is_stated)
        heat.reaction_j_per_g = resin->reaction_j_per_g;
    if (is_found)
        heat.reaction_j_per_g =
            runnel_heat_of_share(usual_epoxide.kj_per_mol, usual_epoxide.eew, mixture.weight_a);
    if (low)
        *low = is_found ? runnel_heat_of_share(least_epoxide.kj_per_mol, least_epoxide.eew,
                                               mixture.weight_a)
                        : heat.reaction_j_per_g;
    if (high)
        *high = is_found ? runnel_heat_of_share(most_epoxide.kj_per_mol, most_epoxide.eew,
                                                mixture.weight_a)
                         : heat.reaction_j_per_g;
    return heat;
}

bool runnel_resin_heat_is_sound(const runnel_resin_heat *resin) {
    return runnel_is_amount(resin->reaction_j_per_g) && runnel_is_positive(resin->cp_j_per_g_k) &&
           runnel_is_positive(resin->conductivity_w_per_m_k) &&
           runnel_is_positive(resin->density_g_per_ml);
}

double runnel_heat_air_steps(const runnel_heat_air *air, double air_degc, double time_s) {
    return air ? (air->degc_at(time_s, air->of) - air_degc) / RUNNEL_HEAT_STEP_K : 0;
}

void runnel_heat_curve_clear(runnel_heat_curve *curve) {
    if (!curve)
        return;
    runnel_free(curve->points);
    *curve = (runnel_heat_curve){NULL, 0, 0};
}

runnel_status runnel_heat_hand_over(runnel_status status, runnel_heat_curve *made,
                                    runnel_heat_curve *curve) {
    runnel_heat_curve_clear(status ? made : curve);
    if (!status)
        *curve = *made;
    return status;
}

bool runnel_heat_note(runnel_heat_trace *trace, double time_s, double conversion, double degc) {
    const double conversion_step = 0.01, degc_step = 1;
    runnel_heat_curve *curve = trace->curve;
    if (!curve)
        return true;
    const runnel_heat_point *last = curve->count ? &curve->points[curve->count - 1] : NULL;
    if (last && time_s < trace->for_s &&
        time_s - last->time_s < trace->for_s / RUNNEL_HEAT_POINTS &&
        fabs(conversion - last->conversion) < conversion_step &&
        fabs(degc - last->degc) < degc_step)
        return true;
    trace->status =
        runnel_reserve(&curve->points, &curve->capacity, curve->count + 1, sizeof *curve->points);
    if (!trace->status)
        curve->points[curve->count++] =
            (runnel_heat_point){time_s, fmin(fmax(conversion, 0), 1), degc};
    return !trace->status;
}

double runnel_heat_cubic_peak(double from, double y_from, double slope_from, double to, double y_to,
                              double slope_to, double *at) {
    double h = to - from, best = y_from;
    *at = from;
    if (y_to > best) {
        best = y_to;
        *at = to;
    }
    if (!(slope_from > 0 && slope_to < 0))
        return best;
    /* Hermite's cubic in s from 0 to 1; its slope is a s^2 + b s + c. */
    double rise = y_to - y_from, c = h * slope_from, d = h * slope_to;
    double a = 3 * (c + d) - 6 * rise, b = 6 * rise - 4 * c - 2 * d;
    double root = sqrt(fmax(b * b - 4 * a * c, 0));
    double s = b <= 0 ? 2 * c / (-b + root) : fabs(a) > 0 ? (-b - root) / (2 * a) : 0.5;
    if (!(s > 0 && s < 1))
        return best;
    double top = y_from + s * (c + s * (b / 2 + s * a / 3));
    if (top > best) {
        best = top;
        *at = from + s * h;
    }
    return best;
}

runnel_status runnel_heat_usual_time(const runnel_kinetics *kinetics, double start_degc, double gel,
                                     double *seconds) {
    double gel_s = NAN;
    runnel_status status = runnel_kinetics_time(kinetics, start_degc, gel, &gel_s);
    /* A law that stalls before its gel point still has a time scale. */
    if (status == RUNNEL_NOT_POSSIBLE)
        status = runnel_kinetics_time(kinetics, start_degc, fmin(kinetics->last, 1) / 2, &gel_s);
    if (status == RUNNEL_OK)
        *seconds = run_of_gel_times * gel_s;
    return status;
}

runnel_status runnel_heat_search(runnel_status (*peak)(const void *what, double x, double *degc),
                                 const void *what, double limit_degc, double least, double most,
                                 double *x) {
    double degc = NAN, low = least, high = most;
    runnel_status status = peak(what, most, &degc);
    if (status == RUNNEL_OK && degc <= limit_degc)
        low = most;
    else if (status == RUNNEL_OK)
        status = peak(what, least, &degc);
    bool is_hopeless = status == RUNNEL_OK && degc > limit_degc;
    while (status == RUNNEL_OK && !is_hopeless && high > 1.01 * low) {
        double middle = sqrt(low * high);
        status = peak(what, middle, &degc);
        if (degc <= limit_degc)
            low = middle;
        else
            high = middle;
    }
    if (status != RUNNEL_OK)
        return status;
    *x = low;
    return is_hopeless ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK;
}

/* ---- The cup ------------------------------------------------------------------------------- */

/* Unknowns: conversion, temperature, heat lost; the last two in steps of a temperature. */
enum { CONVERSION, WARMTH, LOST, UNKNOWNS };

typedef struct cup_run {
    const runnel_heat_cup *cup;
    double made_steps; /* by all of the reaction */
    double loss_per_s; /* share of the warmth that is lost in a second */
    double peak, peak_s, gel_s;
    bool ran_away;
    runnel_heat_trace trace;
} cup_run;

static double kelvin_of(const cup_run *run, double warmth) {
    return run->cup->air_degc + RUNNEL_KELVIN_AT_0_DEGC + RUNNEL_HEAT_STEP_K * warmth;
}

static double ceiling_of(double air_degc) {
    return (RUNNEL_HEAT_CEILING_DEGC - air_degc) / RUNNEL_HEAT_STEP_K;
}

static bool cup_rates(double t, const double *y, double *rates, void *state) {
    const cup_run *run = state;
    /* A step that is tried may go astray before it is made smaller. */
    double kelvin = fmin(fmax(kelvin_of(run, y[WARMTH]), 1), 5000);
    rates[CONVERSION] = runnel_kinetics_parts(&run->cup->kinetics, kelvin, y[CONVERSION]).rate;
    double air = runnel_heat_air_steps(run->cup->air, run->cup->air_degc, t);
    rates[LOST] = run->loss_per_s * (y[WARMTH] - air);
    rates[WARMTH] = run->made_steps * rates[CONVERSION] - rates[LOST];
    return true;
}

static double cup_event(size_t index, double t, const double *y, const double *rates, void *state) {
    (void)t;
    (void)rates;
    const cup_run *run = state;
    return index ? y[WARMTH] - ceiling_of(run->cup->air_degc) : y[CONVERSION] - run->cup->gel;
}

static bool cup_reached(size_t index, double t, const double *y, void *state) {
    (void)y;
    cup_run *run = state;
    if (index)
        run->ran_away = true;
    else
        run->gel_s = t;
    return !index;
}

static bool cup_stepped(double from, const double *y_from, const double *rates_from, double to,
                        const double *y_to, const double *rates_to, void *state) {
    cup_run *run = state;
    double at = 0;
    double peak = runnel_heat_cubic_peak(from, y_from[WARMTH], rates_from[WARMTH], to, y_to[WARMTH],
                                         rates_to[WARMTH], &at);
    if (peak > run->peak) {
        run->peak = peak;
        run->peak_s = at;
    }
    return runnel_heat_note(&run->trace, to, y_to[CONVERSION],
                            run->cup->air_degc + RUNNEL_HEAT_STEP_K * y_to[WARMTH]);
}

static bool is_cup(const runnel_heat_cup *cup) {
    return runnel_kinetics_is_law(&cup->kinetics) && runnel_resin_heat_is_sound(&cup->resin) &&
           runnel_is_positive(cup->mass_g) && runnel_is_positive(cup->diameter_mm) &&
           runnel_is_amount(cup->loss_w_per_m2_k) && cup->gel > 0 && cup->gel < 1 &&
           cup->start_degc > -RUNNEL_KELVIN_AT_0_DEGC && cup->air_degc > -RUNNEL_KELVIN_AT_0_DEGC &&
           cup->start_degc < RUNNEL_HEAT_CEILING_DEGC && cup->air_degc < RUNNEL_HEAT_CEILING_DEGC;
}

static double surface_m2(const runnel_heat_cup *cup) {
    double mm3 = cup->mass_g / cup->resin.density_g_per_ml * mm3_per_ml;
    double floor_mm2 = pi / 4 * cup->diameter_mm * cup->diameter_mm;
    return m2_per_mm2 * (2 * floor_mm2 + 4 * mm3 / cup->diameter_mm);
}

static void note_cup(const cup_run *of, double t, const double *y, double start,
                     runnel_heat_run *run) {
    double made = of->made_steps * y[CONVERSION];
    double missing = made - (y[WARMTH] - start) - y[LOST];
    double degc = of->cup->air_degc + RUNNEL_HEAT_STEP_K * y[WARMTH];
    *run = (runnel_heat_run){.peak_degc = of->cup->air_degc + RUNNEL_HEAT_STEP_K * of->peak,
                             .peak_s = of->peak_s,
                             .gel_s = of->gel_s,
                             .end_s = t,
                             .conversion = fmin(y[CONVERSION], 1),
                             .top_degc = degc,
                             .under_degc = degc,
                             .ran_away = of->ran_away,
                             .imbalance = fabs(missing) / fmax(made + fabs(y[LOST]), 1e-9)};
}

static runnel_status run_cup(const runnel_heat_cup *cup, double for_s, runnel_heat_curve *curve,
                             runnel_heat_run *run) {
    if (!is_cup(cup) || !runnel_is_amount(for_s))
        return RUNNEL_E_RANGE;
    double start = (cup->start_degc - cup->air_degc) / RUNNEL_HEAT_STEP_K;
    double heat_j_per_k = cup->mass_g * cup->resin.cp_j_per_g_k;
    cup_run of = {.cup = cup,
                  .made_steps =
                      cup->resin.reaction_j_per_g / cup->resin.cp_j_per_g_k / RUNNEL_HEAT_STEP_K,
                  .loss_per_s = cup->loss_w_per_m2_k * surface_m2(cup) / heat_j_per_k,
                  .peak = start,
                  .gel_s = INFINITY};
    runnel_ode ode = {.count = UNKNOWNS,
                      .state = &of,
                      .rates = cup_rates,
                      .absolute = 1e-10,
                      .relative = 1e-10,
                      .longest = cup->air ? cup->air->longest_s : 0,
                      .event_count = 2,
                      .event = cup_event,
                      .reached = cup_reached,
                      .stepped = cup_stepped};
    runnel_status status = RUNNEL_OK;
    if (for_s == 0)
        status = runnel_heat_usual_time(&cup->kinetics, cup->start_degc, cup->gel, &for_s);
    double t = 0, y[UNKNOWNS] = {0, start, 0};
    ode.first = 1e-5 * for_s;
    of.trace = (runnel_heat_trace){curve, for_s, RUNNEL_OK};
    if (status == RUNNEL_OK && !runnel_heat_note(&of.trace, 0, 0, cup->start_degc))
        status = of.trace.status;
    if (status == RUNNEL_OK)
        status = runnel_ode_run(&ode, &t, for_s, y);
    if (status == RUNNEL_OK)
        status = of.trace.status;
    if (status == RUNNEL_OK)
        note_cup(&of, t, y, start, run);
    return status;
}

runnel_status runnel_heat_in_cup(const runnel_heat_cup *cup, double for_s, runnel_heat_run *run) {
    return run_cup(cup, for_s, NULL, run);
}

runnel_status runnel_heat_cup_curve(const runnel_heat_cup *cup, double for_s, runnel_heat_run *run,
                                    runnel_heat_curve *curve) {
    runnel_heat_curve made = {NULL, 0, 0};
    return runnel_heat_hand_over(run_cup(cup, for_s, &made, run), &made, curve);
}

/* ---- The largest cup ----------------------------------------------------------------------- */

typedef struct cup_limit {
    runnel_heat_cup cup;
    double until_s;
} cup_limit;

static runnel_status cup_peak(const void *what, double mass_g, double *degc) {
    const cup_limit *limit = what;
    runnel_heat_cup cup = limit->cup;
    runnel_heat_run run;
    cup.mass_g = mass_g;
    runnel_status status = runnel_heat_in_cup(&cup, limit->until_s, &run);
    if (status == RUNNEL_OK)
        *degc = run.peak_degc;
    return status;
}

runnel_status runnel_heat_largest_cup(const runnel_heat_cup *cup, double limit_degc, double until_s,
                                      double most_g, double *mass_g) {
    const double least_g = 1;
    const cup_limit limit = {*cup, until_s};
    if (!(limit_degc > cup->start_degc && limit_degc > cup->air_degc) || !isfinite(limit_degc) ||
        !(most_g > least_g) || !isfinite(most_g) || !runnel_is_amount(until_s))
        return RUNNEL_E_RANGE;
    return runnel_heat_search(cup_peak, &limit, limit_degc, least_g, most_g, mass_g);
}
