/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/heating.h"

#include "runnel/cure.h"

#include <math.h>

static const double usual_cup_mm = 70, usual_wood_mm = 25;

/** Loss of a cup to still air through a thin wall (runnel_heat_cup). */
static const double cup_loss_w_per_m2_k = 8;

/** Masses and depths are looked at up to so many times what was asked about. */
static const double most_times = 20;

static double usual(double told, double otherwise) {
    return told > 0 ? told : otherwise;
}

static runnel_kinetics_shape shape_of(const runnel_cure_law *law) {
    runnel_kinetics_shape shape = runnel_kinetics_usual();
    shape.activation_kj_per_mol = law->activation_kj_per_mol;
    return shape;
}

/* What a search has found, when its ends are no limits. */
static double within(runnel_status status, double found, double most) {
    if (status == RUNNEL_NOT_POSSIBLE)
        return 0;
    return found < most ? found : INFINITY;
}

/* The cup of a case, with the law that its pot life tells. */
static runnel_status set_cup(const runnel_resin *resin, const runnel_cure_law *law,
                             const runnel_heating_case *of, runnel_heat_cup *cup) {
    const runnel_kinetics_shape shape = shape_of(law);
    *cup = (runnel_heat_cup){.resin = runnel_resin_heat_of(resin, NULL, NULL),
                             .mass_g = resin->pot_mass_g,
                             .diameter_mm = usual_cup_mm,
                             .loss_w_per_m2_k = cup_loss_w_per_m2_k,
                             .start_degc = law->stated_degc,
                             .air_degc = law->stated_degc,
                             .gel = shape.gel};
    runnel_status status = runnel_heat_anchor(&shape, cup, resin->pot_life_s, &cup->kinetics);
    cup->mass_g = of->mass_g;
    cup->diameter_mm = of->diameter_mm;
    cup->start_degc = cup->air_degc = of->degc;
    return status;
}

static runnel_status find_cup(const runnel_resin *resin, const runnel_cure_law *law,
                              runnel_heating *heating) {
    const runnel_heating_case *of = &heating->of;
    runnel_heat_run until;
    runnel_heat_cup cup;
    runnel_status status = set_cup(resin, law, of, &cup);
    if (status)
        return status;
    status = runnel_heat_in_cup(&cup, 0, &heating->cup);
    if (!status)
        status = runnel_heat_in_cup(&cup, of->until_s, &until);
    if (status)
        return status;
    heating->cup_degc = until.peak_degc;
    heating->is_too_large =
        until.peak_degc > of->limit_degc && !(of->mass_g <= resin->largest_mass_g);
    status = runnel_heat_largest_cup(&cup, of->limit_degc, of->until_s, most_times * of->mass_g,
                                     &heating->largest_g);
    heating->largest_g = within(status, heating->largest_g, most_times * of->mass_g);
    heating->has_cup = !status || status == RUNNEL_NOT_POSSIBLE;
    return heating->has_cup ? RUNNEL_OK : status;
}

/* The layer of a case, with the law that its gel time tells. */
static runnel_status set_layer(const runnel_resin *resin, const runnel_cure_law *law,
                               const runnel_heating_case *of, runnel_heat_layer *layer) {
    const runnel_kinetics_shape shape = shape_of(law);
    *layer = runnel_heat_layer_usual(of->degc);
    layer->resin = runnel_resin_heat_of(resin, NULL, NULL);
    layer->depth_mm = of->layer_mm;
    layer->wood_mm = of->wood_mm;
    layer->gel = shape.gel;
    return runnel_kinetics_anchor(&shape, resin->gel_s, law->stated_degc, &layer->kinetics);
}

static runnel_status find_layer(const runnel_resin *resin, const runnel_cure_law *law,
                                runnel_heating *heating) {
    const runnel_heating_case *of = &heating->of;
    runnel_heat_layer layer;
    runnel_status status = set_layer(resin, law, of, &layer);
    if (!status)
        status = runnel_heat_in_layer(&layer, 0, &heating->layer);
    if (status)
        return status;
    heating->is_too_thick =
        heating->layer.peak_degc > of->limit_degc && !(of->layer_mm <= resin->deepest_layer_mm);
    status = runnel_heat_thickest_layer(&layer, of->limit_degc, most_times * of->layer_mm,
                                        &heating->thickest_mm);
    heating->thickest_mm = within(status, heating->thickest_mm, most_times * of->layer_mm);
    heating->has_layer = !status || status == RUNNEL_NOT_POSSIBLE;
    return heating->has_layer ? RUNNEL_OK : status;
}

runnel_status runnel_heating_make(const runnel_resin *resin, const runnel_heating_case *of,
                                  runnel_heating *heating) {
    runnel_heating made = {.of = *of, .cup_degc = NAN, .largest_g = NAN, .thickest_mm = NAN};
    runnel_cure_law law;
    runnel_status status = runnel_cure_law_of(resin, RUNNEL_CURE_ARRHENIUS, &law);
    double speed = status ? NAN : runnel_cure_speed(&law, of->degc);
    if (status == RUNNEL_E_MISSING) { /* no stated temperature: no times, nothing to be found */
        *heating = made;
        return RUNNEL_OK;
    }
    if (status || isnan(speed))
        return RUNNEL_E_RANGE;
    made.energy_is_usual = law.energy_is_usual;
    made.of.mass_g = usual(of->mass_g, resin->pot_mass_g);
    made.of.diameter_mm = usual(of->diameter_mm, usual_cup_mm);
    made.of.until_s = usual(of->until_s, resin->pot_life_s / speed);
    made.of.layer_mm = usual(of->layer_mm, resin->deepest_layer_mm);
    made.of.wood_mm = usual(of->wood_mm, usual_wood_mm);
    made.of.limit_degc = usual(of->limit_degc, RUNNEL_HEATING_LIMIT_DEGC);
    if (!(speed > 0)) {
        *heating = made;
        return RUNNEL_NOT_POSSIBLE;
    }
    if (resin->pot_life_s > 0 && resin->pot_mass_g > 0 && made.of.limit_degc > of->degc)
        status = find_cup(resin, &law, &made);
    if (!status && resin->gel_s > 0 && made.of.layer_mm > 0 && made.of.limit_degc > of->degc)
        status = find_layer(resin, &law, &made);
    if (!status)
        *heating = made;
    return status;
}

/* ---- Curves -----------------------------------------------------------------------------------
 */

void runnel_heating_curves_clear(runnel_heating_curves *curves) {
    if (!curves)
        return;
    runnel_heat_curve_clear(&curves->cup);
    runnel_heat_curve_clear(&curves->layer);
}

runnel_status runnel_heating_curves_make(const runnel_resin *resin, const runnel_heating *heating,
                                         runnel_heating_curves *curves) {
    const double longer = 1.5, gels = 3, beyond = 1.15;
    runnel_heating_curves made = {.pot_life_s = NAN};
    runnel_heat_run run;
    runnel_heat_cup cup;
    runnel_heat_layer layer;
    runnel_cure_law law;
    if (!heating->has_cup && !heating->has_layer) {
        *curves = made;
        return RUNNEL_OK;
    }
    runnel_status status = runnel_cure_law_of(resin, RUNNEL_CURE_ARRHENIUS, &law);
    const double speed = status ? NAN : runnel_cure_speed(&law, heating->of.degc);
    if (status || !(speed > 0))
        return status ? status : RUNNEL_NOT_POSSIBLE;
    made.pot_life_s = resin->pot_life_s / speed;
    made.gel_s = resin->gel_s / speed;
    made.sandable_s = resin->sandable_s / speed;
    if (heating->has_cup) {
        status = set_cup(resin, &law, &heating->of, &cup);
        if (!status)
            status = runnel_heat_cup_curve(
                &cup, longer * fmax(made.pot_life_s, heating->cup.peak_s), &run, &made.cup);
    }
    if (!status && heating->has_layer) {
        status = set_layer(resin, &law, &heating->of, &layer);
        if (!status)
            status = runnel_heat_layer_curve(
                &layer, fmax(made.sandable_s > 0 ? beyond * made.sandable_s : 0, gels * made.gel_s),
                &run, &made.layer);
    }
    if (status) {
        runnel_heating_curves_clear(&made);
        return status;
    }
    *curves = made;
    return RUNNEL_OK;
}
