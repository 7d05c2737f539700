/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/heating.h"

#include "runnel/cups.h"
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

/* How much of what a sheet leaves open is taken to its cool and its hot end. */
typedef enum doubt { COOL, MIDDLE, HOT, DOUBTS } doubt;

/* The resin of a case, with the law that its sheet tells. */
typedef struct made_law {
    double gel;
    runnel_resin_heat heat;
    runnel_heat_law law;
} made_law;

/* The cup that a pot life is stated for. */
static runnel_heat_cup pot_of(const runnel_resin *resin, const made_law *of, double degc) {
    return (runnel_heat_cup){.kinetics = of->law.kinetics,
                             .resin = of->heat,
                             .mass_g = resin->pot_mass_g > 0 ? resin->pot_mass_g : 0,
                             .diameter_mm = usual_cup_mm,
                             .loss_w_per_m2_k = cup_loss_w_per_m2_k,
                             .start_degc = degc,
                             .air_degc = degc,
                             .gel = of->gel};
}

static runnel_status make_law(const runnel_resin *resin, const runnel_cure_law *law, doubt which,
                              made_law *made) {
    static const double thicker[DOUBTS] = {[COOL] = 1.5, [MIDDLE] = 2, [HOT] = 4};
    double low, high;
    runnel_kinetics_shape shape = runnel_kinetics_usual();
    shape.activation_kj_per_mol = law->activation_kj_per_mol;
    *made = (made_law){.gel = shape.gel, .heat = runnel_resin_heat_of(resin, &low, &high)};
    if (which != MIDDLE)
        made->heat.reaction_j_per_g = which == COOL ? low : high;
    const runnel_heat_stated stated = {
        .gel_s = resin->gel_s,
        .pot_life_s = resin->pot_life_s,
        .pot_conversion = runnel_conversion_of_thickening(shape.gel, thicker[which])};
    const runnel_heat_cup pot = pot_of(resin, made, law->stated_degc);
    return runnel_heat_fit(&shape, &pot, &stated, &made->law);
}

/* When a moment of the sheet comes. */
static double reached(const runnel_resin *resin, const runnel_heating_case *of, double speed,
                      runnel_cure_moment moment) {
    return of->air ? of->cure->reached_s[moment] : runnel_cure_stated(resin, moment) / speed;
}

/* How long a run looks at it: for the usual time where the air stays. */
static double looked_at_s(const runnel_heating_case *of) {
    const double gels = 3;
    if (!of->air)
        return 0;
    const double *reached_s = of->cure->reached_s;
    return isfinite(reached_s[RUNNEL_CURE_SANDABLE]) ? reached_s[RUNNEL_CURE_SANDABLE]
           : isfinite(reached_s[RUNNEL_CURE_GEL])    ? gels * reached_s[RUNNEL_CURE_GEL]
                                                     : 0;
}

/* What a search has found, when its ends are no limits. */
static double within(runnel_status status, double found, double most) {
    if (status == RUNNEL_NOT_POSSIBLE)
        return 0;
    return found < most ? found : INFINITY;
}

static runnel_heat_cup cup_of(const runnel_resin *resin, const runnel_heating_case *of,
                              const made_law *made) {
    runnel_heat_cup cup = pot_of(resin, made, of->degc);
    cup.mass_g = of->mass_g;
    cup.diameter_mm = of->diameter_mm;
    cup.air = of->air;
    return cup;
}

static runnel_heat_layer layer_of(const runnel_heating_case *of, const made_law *made) {
    runnel_heat_layer layer = runnel_heat_layer_usual(of->degc);
    layer.kinetics = made->law.kinetics;
    layer.resin = made->heat;
    layer.depth_mm = of->layer_mm;
    layer.wood_mm = of->wood_mm;
    layer.gel = made->gel;
    layer.air = of->air;
    return layer;
}

static runnel_status find_cup(const runnel_resin *resin, const made_law *laws,
                              runnel_heating *heating) {
    const runnel_heating_case *of = &heating->of;
    runnel_heat_run runs[DOUBTS], until;
    const runnel_heat_cup cup = cup_of(resin, of, &laws[MIDDLE]);
    runnel_status status = runnel_heat_in_cup(&cup, of->until_s, &until);
    for (int i = 0; i < DOUBTS && !status; i++) {
        const runnel_heat_cup doubted = cup_of(resin, of, &laws[i]);
        status = runnel_heat_in_cup(&doubted, looked_at_s(of), &runs[i]);
    }
    if (status)
        return status;
    heating->cup = runs[MIDDLE];
    heating->cup_low_degc = fmin(runs[COOL].peak_degc, runs[MIDDLE].peak_degc);
    heating->cup_high_degc = fmax(runs[HOT].peak_degc, runs[MIDDLE].peak_degc);
    heating->cup_degc = until.peak_degc;
    heating->is_too_large =
        until.peak_degc > of->limit_degc && !(of->mass_g <= resin->largest_mass_g);
    status = runnel_heat_largest_cup(&cup, of->limit_degc, of->until_s, most_times * of->mass_g,
                                     &heating->largest_g);
    heating->largest_g = within(status, heating->largest_g, most_times * of->mass_g);
    heating->has_cup = !status || status == RUNNEL_NOT_POSSIBLE;
    return heating->has_cup ? RUNNEL_OK : status;
}

static runnel_status find_layer(const runnel_resin *resin, const made_law *laws,
                                runnel_heating *heating) {
    const runnel_heating_case *of = &heating->of;
    runnel_heat_run runs[DOUBTS];
    const runnel_heat_layer layer = layer_of(of, &laws[MIDDLE]);
    runnel_status status = RUNNEL_OK;
    for (int i = 0; i < DOUBTS && !status; i++) {
        const runnel_heat_layer doubted = layer_of(of, &laws[i]);
        status = runnel_heat_in_layer(&doubted, looked_at_s(of), &runs[i]);
    }
    if (status)
        return status;
    heating->layer = runs[MIDDLE];
    heating->layer_low_degc = fmin(runs[COOL].peak_degc, runs[MIDDLE].peak_degc);
    heating->layer_high_degc = fmax(runs[HOT].peak_degc, runs[MIDDLE].peak_degc);
    bool is_warm = heating->layer.peak_degc > of->limit_degc;
    heating->sheet_allows_layer = of->layer_mm <= resin->deepest_layer_mm;
    heating->is_too_thick = is_warm && !heating->sheet_allows_layer;
    heating->contradicts_sheet = is_warm && heating->sheet_allows_layer;
    status = runnel_heat_thickest_layer(&layer, of->limit_degc, looked_at_s(of),
                                        most_times * of->layer_mm, &heating->thickest_mm);
    heating->thickest_mm = within(status, heating->thickest_mm, most_times * of->layer_mm);
    heating->has_layer = !status || status == RUNNEL_NOT_POSSIBLE;
    return heating->has_layer ? RUNNEL_OK : status;
}

/* What was asked about, and what is usual where nothing was said. */
static runnel_heating_case filled_in(const runnel_resin *resin, const runnel_heating_case *of,
                                     double speed) {
    const double mass_g = usual(of->mass_g, resin->pot_mass_g);
    const double pot_life_s = runnel_pot_life_of_mass(
        reached(resin, of, speed, RUNNEL_CURE_POT_LIFE), resin->pot_mass_g, mass_g);
    return (runnel_heating_case){.degc = of->degc,
                                 .mass_g = mass_g,
                                 .diameter_mm = usual(of->diameter_mm, usual_cup_mm),
                                 .until_s = usual(of->until_s, pot_life_s),
                                 .layer_mm = usual(of->layer_mm, resin->deepest_layer_mm),
                                 .wood_mm = usual(of->wood_mm, usual_wood_mm),
                                 .limit_degc = usual(of->limit_degc, RUNNEL_HEATING_LIMIT_DEGC),
                                 .air = of->air,
                                 .cure = of->cure};
}

static runnel_status find_both(const runnel_resin *resin, const runnel_cure_law *law,
                               runnel_heating *made) {
    bool cup = resin->pot_life_s > 0 && resin->pot_mass_g > 0 && isfinite(made->of.until_s);
    bool layer = resin->gel_s > 0 && made->of.layer_mm > 0;
    made_law laws[DOUBTS];
    if (!(cup || layer) || !(made->of.limit_degc > made->of.degc))
        return RUNNEL_OK;
    runnel_status status = RUNNEL_OK;
    for (int i = 0; i < DOUBTS && !status; i++)
        status = make_law(resin, law, (doubt)i, &laws[i]);
    if (status)
        return status;
    made->law = laws[MIDDLE].law;
    made->reaction_j_per_g = laws[MIDDLE].heat.reaction_j_per_g;
    made->reaction_low_j_per_g = laws[COOL].heat.reaction_j_per_g;
    made->reaction_high_j_per_g = laws[HOT].heat.reaction_j_per_g;
    if (cup)
        status = find_cup(resin, laws, made);
    if (!status && layer)
        status = find_layer(resin, laws, made);
    return status;
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
    made.of = filled_in(resin, of, speed);
    if (!(speed > 0) && !of->air) {
        *heating = made;
        return RUNNEL_NOT_POSSIBLE;
    }
    status = find_both(resin, &law, &made);
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

/* A time that is known and comes; else 0. */
static double or_0(double seconds) {
    return isfinite(seconds) ? seconds : 0;
}

runnel_status runnel_heating_curves_make(const runnel_resin *resin, const runnel_heating *heating,
                                         runnel_heating_curves *curves) {
    const double longer = 1.5, gels = 3, beyond = 1.15;
    double cup_s, layer_s;
    runnel_heating_curves made = {.pot_life_s = NAN};
    runnel_heat_run run;
    made_law found;
    runnel_cure_law law;
    if (!heating->has_cup && !heating->has_layer) {
        *curves = made;
        return RUNNEL_OK;
    }
    runnel_status status = runnel_cure_law_of(resin, RUNNEL_CURE_ARRHENIUS, &law);
    const double speed = status ? NAN : runnel_cure_speed(&law, heating->of.degc);
    if (status || !(speed > 0 || heating->of.air))
        return status ? status : RUNNEL_NOT_POSSIBLE;
    made.pot_life_s = reached(resin, &heating->of, speed, RUNNEL_CURE_POT_LIFE);
    made.gel_s = reached(resin, &heating->of, speed, RUNNEL_CURE_GEL);
    made.sandable_s = reached(resin, &heating->of, speed, RUNNEL_CURE_SANDABLE);
    cup_s = longer * fmax(or_0(made.pot_life_s), heating->cup.peak_s);
    layer_s = fmax(fmax(beyond * or_0(made.sandable_s), gels * or_0(made.gel_s)),
                   longer * heating->layer.peak_s);
    status = make_law(resin, &law, MIDDLE, &found);
    if (!status && heating->has_cup) {
        const runnel_heat_cup cup = cup_of(resin, &heating->of, &found);
        status = runnel_heat_cup_curve(&cup, cup_s, &run, &made.cup);
    }
    if (!status && heating->has_layer) {
        const runnel_heat_layer layer = layer_of(&heating->of, &found);
        status = runnel_heat_layer_curve(&layer, layer_s, &run, &made.layer);
    }
    if (status) {
        runnel_heating_curves_clear(&made);
        return status;
    }
    *curves = made;
    return RUNNEL_OK;
}
