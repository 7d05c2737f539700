/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/heat.h"

#include "numeric/ode.h"
#include "resin/amount.h"
#include "resin/arrhenius.h"
#include "resin/heat_run.h"
#include "resin/law.h"

#include <math.h>

enum {
    RESIN = 24, /* cells of it, from the top down */
    WOOD = 16,
    CELLS = RESIN + WOOD,
    /* Unknowns: conversions of the resin, warmths of all cells, heat lost at top and bottom. */
    WARMTH = RESIN,
    TOP = WARMTH + CELLS,
    BOTTOM,
    UNKNOWNS
};

/* Cells of the wood grow by this from the resin on. */
static const double growth = 1.25;

static const double m_per_mm = 1e-3;            /* exact */
static const double g_per_m3_of_g_per_ml = 1e6; /* exact */

/* Errors of one step, in conversion or in hundreds of kelvin. */
static const double step_error = 1e-7;

/* Heat in J and its flow in W are those of a m2. */
typedef struct layer_run {
    const runnel_heat_layer *layer;
    double store[CELLS];          /* J/K */
    double flow[CELLS + 1];       /* W/K over the face above a cell; the last is below all */
    double half_resin, half_wood; /* W/K from the midst of the cells where both meet, to there */
    double made_steps;
    double peak, peak_s, gel_s;
    bool ran_away;
    runnel_heat_trace trace;
} layer_run;

static void set_up(layer_run *run) {
    const runnel_heat_layer *layer = run->layer;
    double wide[CELLS], lambda[CELLS];
    double first = layer->wood_mm * m_per_mm * (growth - 1) / (pow(growth, WOOD) - 1);
    for (int i = 0; i < CELLS; i++) {
        bool is_resin = i < RESIN;
        double heat = is_resin ? layer->resin.density_g_per_ml * layer->resin.cp_j_per_g_k
                               : layer->wood_density_g_per_ml * layer->wood_cp_j_per_g_k;
        wide[i] = is_resin ? layer->depth_mm * m_per_mm / RESIN : first * pow(growth, i - RESIN);
        lambda[i] =
            is_resin ? layer->resin.conductivity_w_per_m_k : layer->wood_conductivity_w_per_m_k;
        run->store[i] = heat * g_per_m3_of_g_per_ml * wide[i];
    }
    /* Through half a cell on either side of a face; at the ends through half a cell and the air. */
    for (int i = 1; i < CELLS; i++)
        run->flow[i] = 2 / (wide[i - 1] / lambda[i - 1] + wide[i] / lambda[i]);
    double top = layer->top_loss_w_per_m2_k, bottom = layer->bottom_loss_w_per_m2_k;
    run->flow[0] = top / (1 + top * wide[0] / (2 * lambda[0]));
    run->flow[CELLS] = bottom / (1 + bottom * wide[CELLS - 1] / (2 * lambda[CELLS - 1]));
    run->half_resin = 2 * lambda[RESIN - 1] / wide[RESIN - 1];
    run->half_wood = 2 * lambda[RESIN] / wide[RESIN];
    run->made_steps =
        layer->resin.reaction_j_per_g / layer->resin.cp_j_per_g_k / RUNNEL_HEAT_STEP_K;
}

static runnel_rate_parts parts_of(const layer_run *run, const double *y, int cell) {
    double kelvin =
        run->layer->air_degc + RUNNEL_KELVIN_AT_0_DEGC + RUNNEL_HEAT_STEP_K * y[WARMTH + cell];
    return runnel_kinetics_parts(&run->layer->kinetics, fmin(fmax(kelvin, 1), 5000), y[cell]);
}

static double air_of(const layer_run *run, double t) {
    return runnel_heat_air_steps(run->layer->air, run->layer->air_degc, t);
}

/* Heat through the face above a cell, upwards; outside of all is the air. */
static double flux(const layer_run *run, const double *y, double air, int face) {
    double above = face > 0 ? y[WARMTH + face - 1] : air;
    double below = face < CELLS ? y[WARMTH + face] : air;
    return run->flow[face] * (below - above);
}

static bool layer_rates(double t, const double *y, double *rates, void *state) {
    const layer_run *run = state;
    const double air = air_of(run, t);
    for (int i = 0; i < CELLS; i++) {
        double net = flux(run, y, air, i + 1) - flux(run, y, air, i);
        rates[WARMTH + i] = net / run->store[i];
        if (i < RESIN) {
            rates[i] = parts_of(run, y, i).rate;
            rates[WARMTH + i] += run->made_steps * rates[i];
        }
    }
    /* Losses in the unit of the uppermost cell, as all of them are summed with its store. */
    rates[TOP] = flux(run, y, air, 0) / run->store[0];
    rates[BOTTOM] = -flux(run, y, air, CELLS) / run->store[0];
    return true;
}

static bool layer_jacobian(double t, const double *y, double *rows, double *by_time, void *state) {
    (void)t;
    (void)by_time;
    const layer_run *run = state;
    for (int i = 0; i < CELLS; i++) {
        double *row = rows + (WARMTH + i) * UNKNOWNS;
        row[WARMTH + i] -= (run->flow[i] + run->flow[i + 1]) / run->store[i];
        if (i > 0)
            row[WARMTH + i - 1] += run->flow[i] / run->store[i];
        if (i + 1 < CELLS)
            row[WARMTH + i + 1] += run->flow[i + 1] / run->store[i];
        if (i >= RESIN)
            continue;
        runnel_rate_parts parts = parts_of(run, y, i);
        double by_step = RUNNEL_HEAT_STEP_K * parts.by_kelvin;
        rows[i * UNKNOWNS + i] = parts.by_conversion;
        rows[i * UNKNOWNS + WARMTH + i] = by_step;
        row[i] += run->made_steps * parts.by_conversion;
        row[WARMTH + i] += run->made_steps * by_step;
    }
    rows[TOP * UNKNOWNS + WARMTH] = run->flow[0] / run->store[0];
    rows[BOTTOM * UNKNOWNS + WARMTH + CELLS - 1] = run->flow[CELLS] / run->store[0];
    return true;
}

static double mean_conversion(const double *y) {
    double sum = 0;
    for (int i = 0; i < RESIN; i++)
        sum += y[i];
    return sum / RESIN;
}

static double warmest(const double *y) {
    double most = y[WARMTH];
    for (int i = 1; i < RESIN; i++)
        most = fmax(most, y[WARMTH + i]);
    return most;
}

static double layer_event(size_t index, double t, const double *y, const double *rates,
                          void *state) {
    (void)t;
    (void)rates;
    const runnel_heat_layer *layer = ((const layer_run *)state)->layer;
    double ceiling = (RUNNEL_HEAT_CEILING_DEGC - layer->air_degc) / RUNNEL_HEAT_STEP_K;
    return index ? warmest(y) - ceiling : mean_conversion(y) - layer->gel;
}

static bool layer_reached(size_t index, double t, const double *y, void *state) {
    (void)y;
    layer_run *run = state;
    if (index)
        run->ran_away = true;
    else
        run->gel_s = t;
    return !index;
}

static bool layer_stepped(double from, const double *y_from, const double *rates_from, double to,
                          const double *y_to, const double *rates_to, void *state) {
    layer_run *run = state;
    for (int i = WARMTH; i < WARMTH + RESIN; i++) {
        double at = 0;
        double peak =
            runnel_heat_cubic_peak(from, y_from[i], rates_from[i], to, y_to[i], rates_to[i], &at);
        if (peak > run->peak) {
            run->peak = peak;
            run->peak_s = at;
        }
    }
    return runnel_heat_note(&run->trace, to, mean_conversion(y_to),
                            run->layer->air_degc + RUNNEL_HEAT_STEP_K * warmest(y_to));
}

static bool is_temperature(double degc) {
    return degc > -RUNNEL_KELVIN_AT_0_DEGC && degc < RUNNEL_HEAT_CEILING_DEGC;
}

static bool is_layer(const runnel_heat_layer *layer) {
    return runnel_kinetics_is_law(&layer->kinetics) && runnel_resin_heat_is_sound(&layer->resin) &&
           runnel_is_positive(layer->depth_mm) && runnel_is_positive(layer->wood_mm) &&
           runnel_is_positive(layer->wood_conductivity_w_per_m_k) &&
           runnel_is_positive(layer->wood_cp_j_per_g_k) &&
           runnel_is_positive(layer->wood_density_g_per_ml) &&
           runnel_is_amount(layer->top_loss_w_per_m2_k) &&
           runnel_is_amount(layer->bottom_loss_w_per_m2_k) && is_temperature(layer->start_degc) &&
           is_temperature(layer->wood_degc) && is_temperature(layer->air_degc) && layer->gel > 0 &&
           layer->gel < 1;
}

runnel_heat_layer runnel_heat_layer_usual(double degc) {
    return (runnel_heat_layer){.resin = runnel_resin_heat_usual(),
                               .wood_mm = 25,
                               .wood_conductivity_w_per_m_k = 0.15,
                               .wood_cp_j_per_g_k = 1.6,
                               .wood_density_g_per_ml = 0.65,
                               .top_loss_w_per_m2_k = 8,
                               .bottom_loss_w_per_m2_k = 8,
                               .start_degc = degc,
                               .wood_degc = degc,
                               .air_degc = degc};
}

/* What heat made, kept and lost leave over, as a share of what was made and moved. */
static double imbalance_of(const layer_run *of, const double *y, const double *start) {
    double made = 0, kept = 0, lost = (y[TOP] + y[BOTTOM]) * of->store[0], moved = 0;
    for (int i = 0; i < CELLS; i++) {
        made += i < RESIN ? of->made_steps * y[i] * of->store[i] : 0;
        kept += (y[WARMTH + i] - start[WARMTH + i]) * of->store[i];
        moved += fabs(y[WARMTH + i] - start[WARMTH + i]) * of->store[i];
    }
    double all = fmax(fmax(made, moved), fabs(lost));
    return all > 0 ? fabs(made - kept - lost) / all : 0;
}

static void note_layer(const layer_run *of, double t, const double *y, const double *start,
                       runnel_heat_run *run) {
    double air = of->layer->air_degc, over = of->half_resin, under = of->half_wood;
    double meet = (over * y[WARMTH + RESIN - 1] + under * y[WARMTH + RESIN]) / (over + under);
    /* The face has what half a cell leaves of the way to the air. */
    double lambda = of->layer->resin.conductivity_w_per_m_k;
    double half_top = 2 * lambda * RESIN / (of->layer->depth_mm * m_per_mm);
    double outside = air_of(of, t);
    double top = y[WARMTH] + (outside - y[WARMTH]) * of->flow[0] / half_top;
    *run = (runnel_heat_run){.peak_degc = air + RUNNEL_HEAT_STEP_K * of->peak,
                             .peak_s = of->peak_s,
                             .gel_s = of->gel_s,
                             .end_s = t,
                             .conversion = fmin(fmax(mean_conversion(y), 0), 1),
                             .top_degc = air + RUNNEL_HEAT_STEP_K * top,
                             .under_degc = air + RUNNEL_HEAT_STEP_K * meet,
                             .ran_away = of->ran_away,
                             .imbalance = imbalance_of(of, y, start)};
}

static runnel_status run_layer(const runnel_heat_layer *layer, double for_s,
                               runnel_heat_curve *curve, runnel_heat_run *run) {
    if (!is_layer(layer) || !runnel_is_amount(for_s))
        return RUNNEL_E_RANGE;
    layer_run of = {.layer = layer, .gel_s = INFINITY};
    set_up(&of);
    double t = 0, y[UNKNOWNS] = {0}, start[UNKNOWNS] = {0};
    for (int i = 0; i < CELLS; i++)
        start[WARMTH + i] = y[WARMTH + i] =
            ((i < RESIN ? layer->start_degc : layer->wood_degc) - layer->air_degc) /
            RUNNEL_HEAT_STEP_K;
    of.peak = start[WARMTH];
    runnel_ode ode = {.count = UNKNOWNS,
                      .state = &of,
                      .rates = layer_rates,
                      .jacobian = layer_jacobian,
                      .absolute = step_error,
                      .relative = step_error,
                      .longest = layer->air ? layer->air->longest_s : 0,
                      .event_count = 2,
                      .event = layer_event,
                      .reached = layer_reached,
                      .stepped = layer_stepped};
    runnel_status status = RUNNEL_OK;
    if (for_s == 0)
        status = runnel_heat_usual_time(&layer->kinetics, layer->start_degc, layer->gel, &for_s);
    ode.first = 1e-6 * for_s;
    of.trace = (runnel_heat_trace){curve, for_s, RUNNEL_OK};
    if (status == RUNNEL_OK && !runnel_heat_note(&of.trace, 0, 0, layer->start_degc))
        status = of.trace.status;
    if (status == RUNNEL_OK)
        status = runnel_ode_run(&ode, &t, for_s, y);
    if (status == RUNNEL_OK)
        status = of.trace.status;
    if (status == RUNNEL_OK)
        note_layer(&of, t, y, start, run);
    return status;
}

runnel_status runnel_heat_in_layer(const runnel_heat_layer *layer, double for_s,
                                   runnel_heat_run *run) {
    return run_layer(layer, for_s, NULL, run);
}

runnel_status runnel_heat_layer_curve(const runnel_heat_layer *layer, double for_s,
                                      runnel_heat_run *run, runnel_heat_curve *curve) {
    runnel_heat_curve made = {NULL, 0, 0};
    return runnel_heat_hand_over(run_layer(layer, for_s, &made, run), &made, curve);
}

typedef struct layer_limit {
    runnel_heat_layer layer;
    double for_s;
} layer_limit;

static runnel_status layer_peak(const void *what, double depth_mm, double *degc) {
    const layer_limit *limit = what;
    runnel_heat_layer layer = limit->layer;
    runnel_heat_run run;
    layer.depth_mm = depth_mm;
    runnel_status status = runnel_heat_in_layer(&layer, limit->for_s, &run);
    if (status == RUNNEL_OK)
        *degc = run.peak_degc;
    return status;
}

runnel_status runnel_heat_thickest_layer(const runnel_heat_layer *layer, double limit_degc,
                                         double for_s, double most_mm, double *depth_mm) {
    const double least_mm = 0.1;
    const layer_limit limit = {*layer, for_s};
    if (!(limit_degc > layer->start_degc && limit_degc > layer->air_degc &&
          limit_degc > layer->wood_degc) ||
        !isfinite(limit_degc) || !(most_mm > least_mm) || !isfinite(most_mm))
        return RUNNEL_E_RANGE;
    return runnel_heat_search(layer_peak, &limit, limit_degc, least_mm, most_mm, depth_mm);
}
