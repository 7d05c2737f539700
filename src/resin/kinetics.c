/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/kinetics.h"

#include "numeric/ode.h"
#include "resin/amount.h"
#include "resin/arrhenius.h"
#include "resin/law.h"
#include "runnel/cure.h"

#include <math.h>

/* Errors of one step of a conversion; the sum of all stays well below what any gel time is known
 * to. */
static const double conversion_error = 1e-13, relative_error = 1e-12;

bool runnel_kinetics_is_law(const runnel_kinetics *law) {
    return runnel_is_positive(law->k1_per_s) && runnel_is_amount(law->k2_per_s) &&
           runnel_is_amount(law->e1_kj_per_mol) && runnel_is_amount(law->e2_kj_per_mol) &&
           runnel_is_amount(law->m) && runnel_is_positive(law->n) &&
           runnel_is_positive(law->last) && isfinite(law->reference_degc) &&
           law->reference_degc > -RUNNEL_KELVIN_AT_0_DEGC;
}

runnel_rate_parts runnel_kinetics_parts(const runnel_kinetics *law, double kelvin,
                                        double conversion) {
    double reference_k = law->reference_degc + RUNNEL_KELVIN_AT_0_DEGC;
    double most = fmin(law->last, 1);
    double a = fmin(fmax(conversion, 0), most);
    double k1 = law->k1_per_s * runnel_arrhenius(reference_k, kelvin, law->e1_kj_per_mol);
    double k2 = law->k2_per_s * runnel_arrhenius(reference_k, kelvin, law->e2_kj_per_mol);
    double drive = pow((1 - a) * (law->last - a), law->n / 2);
    double power = law->m > 0 ? pow(a, law->m) : 1;
    double per_k = 1000 / (RUNNEL_GAS_J_PER_MOL_K * kelvin * kelvin);
    runnel_rate_parts parts = {.rate = (k1 + k2 * power) * drive};
    parts.by_kelvin = (k1 * law->e1_kj_per_mol + k2 * power * law->e2_kj_per_mol) * per_k * drive;
    /* The slope by conversion; at the ends, where powers below 1 rise straight up, it is taken a
     * hair inside. */
    double inside = fmin(fmax(a, 1e-9), most - 1e-9);
    double log_slope = -law->n / 2 * (1 / (1 - inside) + 1 / (law->last - inside));
    double power_slope = law->m > 0 ? law->m * pow(inside, law->m - 1) : 0;
    parts.by_conversion = parts.rate * log_slope + k2 * power_slope * drive;
    return parts;
}

double runnel_kinetics_rate(const runnel_kinetics *kinetics, double degc, double conversion) {
    double kelvin = degc + RUNNEL_KELVIN_AT_0_DEGC;
    if (!runnel_kinetics_is_law(kinetics) || !runnel_is_positive(kelvin) ||
        !(conversion >= 0 && conversion <= 1))
        return NAN;
    return runnel_kinetics_parts(kinetics, kelvin, conversion).rate;
}

/* ---- At one temperature -------------------------------------------------------------------- */

typedef struct isotherm {
    const runnel_kinetics *law;
    double kelvin, wanted, reached_s;
} isotherm;

static bool rates(double t, const double *y, double *rate, void *state) {
    (void)t;
    const isotherm *at = state;
    rate[0] = runnel_kinetics_parts(at->law, at->kelvin, y[0]).rate;
    return true;
}

static double above_wanted(size_t index, double t, const double *y, const double *rate,
                           void *state) {
    (void)index;
    (void)t;
    (void)rate;
    return y[0] - ((const isotherm *)state)->wanted;
}

static bool note_time(size_t index, double t, const double *y, void *state) {
    (void)index;
    (void)y;
    ((isotherm *)state)->reached_s = t;
    return false;
}

static runnel_ode isothermal(isotherm *at) {
    return (runnel_ode){.count = 1,
                        .state = at,
                        .rates = rates,
                        .absolute = conversion_error,
                        .relative = relative_error,
                        .event_count = 1,
                        .event = above_wanted,
                        .reached = note_time};
}

/* A time by which the conversion is reached for certain: the rate is nowhere below k1 times what is
 * left at the end. */
static double long_enough(const runnel_kinetics *law, double kelvin, double conversion) {
    runnel_kinetics slow = *law;
    slow.k2_per_s = 0;
    return 1.001 * conversion / runnel_kinetics_parts(&slow, kelvin, conversion).rate;
}

runnel_status runnel_kinetics_time(const runnel_kinetics *kinetics, double degc, double conversion,
                                   double *seconds) {
    isotherm at = {kinetics, degc + RUNNEL_KELVIN_AT_0_DEGC, conversion, INFINITY};
    if (!runnel_kinetics_is_law(kinetics) || !runnel_is_positive(at.kelvin) ||
        !(conversion >= 0 && conversion <= 1))
        return RUNNEL_E_RANGE;
    if (conversion >= fmin(kinetics->last, 1)) {
        *seconds = INFINITY;
        return RUNNEL_NOT_POSSIBLE;
    }
    if (conversion == 0) {
        *seconds = 0;
        return RUNNEL_OK;
    }
    runnel_ode ode = isothermal(&at);
    double t = 0, y = 0, most_s = long_enough(kinetics, at.kelvin, conversion);
    if (!isfinite(most_s))
        return RUNNEL_E_NOT_COMPUTED;
    ode.first = 1e-6 * most_s;
    runnel_status status = runnel_ode_run(&ode, &t, most_s, &y);
    if (status == RUNNEL_OK && !isfinite(at.reached_s))
        status = RUNNEL_E_NOT_COMPUTED;
    if (status == RUNNEL_OK)
        *seconds = at.reached_s;
    return status;
}

runnel_status runnel_kinetics_conversion(const runnel_kinetics *kinetics, double degc,
                                         double seconds, double *conversion) {
    isotherm at = {kinetics, degc + RUNNEL_KELVIN_AT_0_DEGC, 2, INFINITY};
    if (!runnel_kinetics_is_law(kinetics) || !runnel_is_positive(at.kelvin) ||
        !runnel_is_amount(seconds))
        return RUNNEL_E_RANGE;
    runnel_ode ode = isothermal(&at);
    double t = 0, y = 0;
    ode.event_count = 0;
    ode.first = 1e-6 * seconds;
    runnel_status status = runnel_ode_run(&ode, &t, seconds, &y);
    if (status == RUNNEL_OK)
        *conversion = fmin(fmax(y, 0), fmin(kinetics->last, 1));
    return status;
}

/* ---- Anchoring ----------------------------------------------------------------------------- */

runnel_kinetics_shape runnel_kinetics_usual(void) {
    return (runnel_kinetics_shape){.k1_share = 0.02,
                                   .m = 1,
                                   .n = 2,
                                   .gel = runnel_gel_conversion(4, 2, 1),
                                   .activation_kj_per_mol = RUNNEL_CURE_USUAL_KJ_PER_MOL};
}

runnel_status runnel_kinetics_anchor(const runnel_kinetics_shape *shape, double gel_s, double degc,
                                     runnel_kinetics *kinetics) {
    runnel_kinetics law = {.k1_per_s = shape->k1_share,
                           .k2_per_s = 1,
                           .e1_kj_per_mol = shape->activation_kj_per_mol,
                           .e2_kj_per_mol = shape->activation_kj_per_mol,
                           .m = shape->m,
                           .n = shape->n,
                           .last = 1,
                           .reference_degc = degc};
    double unit_s = NAN;
    if (!runnel_is_positive(gel_s) || !(shape->gel > 0 && shape->gel < 1))
        return RUNNEL_E_RANGE;
    /* The time goes with 1/k2, so that of k2 = 1/s tells the k2 that is looked for. */
    runnel_status status = runnel_kinetics_time(&law, degc, shape->gel, &unit_s);
    if (status != RUNNEL_OK)
        return status;
    law.k2_per_s = unit_s / gel_s;
    law.k1_per_s = shape->k1_share * law.k2_per_s;
    if (!runnel_kinetics_is_law(&law))
        return RUNNEL_E_RANGE;
    *kinetics = law;
    return RUNNEL_OK;
}

/* ---- Gel, glass, heat ---------------------------------------------------------------------- */

double runnel_gel_conversion(double amine_functions, double epoxide_functions, double ratio) {
    if (!(amine_functions > 1 && epoxide_functions > 1 && ratio > 0 && ratio <= 1))
        return NAN;
    return 1 / sqrt(ratio * (amine_functions - 1) * (epoxide_functions - 1));
}

double runnel_conversion_of_thickening(double gel, double times) {
    return gel > 0 && gel < 1 && times >= 1 ? gel * (1 - 1 / sqrt(times)) : NAN;
}

static bool is_glass(const runnel_glass *glass) {
    return isfinite(glass->fresh_degc) && isfinite(glass->cured_degc) &&
           glass->cured_degc > glass->fresh_degc && runnel_is_positive(glass->lambda);
}

double runnel_glass_at(const runnel_glass *glass, double conversion) {
    if (!is_glass(glass) || !(conversion >= 0 && conversion <= 1))
        return NAN;
    return glass->fresh_degc + (glass->cured_degc - glass->fresh_degc) * glass->lambda *
                                   conversion / (1 - (1 - glass->lambda) * conversion);
}

double runnel_glass_conversion(const runnel_glass *glass, double degc) {
    if (!is_glass(glass) || isnan(degc))
        return NAN;
    double x = (degc - glass->fresh_degc) / (glass->cured_degc - glass->fresh_degc);
    if (x <= 0 || x >= 1)
        return x >= 1;
    return x / (glass->lambda + x * (1 - glass->lambda));
}

double runnel_heat_of_mix(double kj_per_mol, double eew, double ahew) {
    bool sound =
        runnel_is_positive(kj_per_mol) && runnel_is_positive(eew) && runnel_is_positive(ahew);
    return sound ? 1000 * kj_per_mol / (eew + ahew) : NAN;
}

double runnel_heat_of_share(double kj_per_mol, double eew, double weight_a) {
    bool sound = runnel_is_positive(kj_per_mol) && runnel_is_positive(eew) &&
                 runnel_is_positive(weight_a) && weight_a <= 1;
    return sound ? 1000 * kj_per_mol * weight_a / eew : NAN;
}

double runnel_heat_adiabatic_rise(double reaction_j_per_g, double cp_j_per_g_k) {
    bool sound = runnel_is_positive(reaction_j_per_g) && runnel_is_positive(cp_j_per_g_k);
    return sound ? reaction_j_per_g / cp_j_per_g_k : NAN;
}

double runnel_heat_characteristic_k(double degc, double activation_kj_per_mol) {
    double kelvin = degc + RUNNEL_KELVIN_AT_0_DEGC;
    bool sound = runnel_is_positive(kelvin) && runnel_is_positive(activation_kj_per_mol);
    return sound ? RUNNEL_GAS_J_PER_MOL_K * kelvin * kelvin / (1000 * activation_kj_per_mol) : NAN;
}

double runnel_heat_time_to_fastest(double degc, double activation_kj_per_mol,
                                   double reaction_j_per_g, double cp_j_per_g_k,
                                   double rate_per_s) {
    double rise_k = runnel_heat_adiabatic_rise(reaction_j_per_g, cp_j_per_g_k);
    bool sound = runnel_is_positive(rate_per_s);
    return sound ? runnel_heat_characteristic_k(degc, activation_kj_per_mol) / (rise_k * rate_per_s)
                 : NAN;
}

double runnel_heat_runaway_depth(double degc, double activation_kj_per_mol,
                                 double conductivity_w_per_m_k, double watt_per_m3) {
    /* Critical delta of a slab (Frank-Kamenetskii, Diffusion and Heat Transfer in Chemical
     * Kinetics; 0.8785 to four places). */
    static const double critical = 0.878;
    static const double mm_per_m = 1000;
    double k = runnel_heat_characteristic_k(degc, activation_kj_per_mol);
    bool sound = runnel_is_positive(conductivity_w_per_m_k) && runnel_is_positive(watt_per_m3);
    return sound ? mm_per_m * sqrt(critical * conductivity_w_per_m_k * k / watt_per_m3) : NAN;
}
