/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "numeric/root.h"
#include "resin/amount.h"
#include "runnel/heat.h"

#include <math.h>

/* A law as much faster. */
static runnel_kinetics sped_up(runnel_kinetics law, double times) {
    law.k1_per_s *= times;
    law.k2_per_s *= times;
    return law;
}

/* ---- To one time in a cup -------------------------------------------------------------------- */

typedef struct anchoring {
    runnel_heat_cup cup;
    runnel_kinetics constant; /* the law of a temperature that stays */
    double gel_s;
    runnel_status status;
} anchoring;

/* How far the gel time of a cup is from the stated one, in powers of e, with all slower by e^x. */
static double too_late(double x, void *state) {
    const double never = 50; /* beyond any that is not */
    anchoring *of = state;
    runnel_heat_run run;
    of->cup.kinetics = sped_up(of->constant, exp(-x));
    of->status = runnel_heat_in_cup(&of->cup, 20 * of->gel_s, &run);
    if (of->status != RUNNEL_OK)
        return NAN;
    return isfinite(run.gel_s) ? log(run.gel_s / of->gel_s) : run.ran_away ? -never : never;
}

runnel_status runnel_heat_anchor(const runnel_kinetics_shape *shape, const runnel_heat_cup *cup,
                                 double gel_s, runnel_kinetics *kinetics) {
    anchoring of = {.cup = *cup, .gel_s = gel_s, .status = RUNNEL_OK};
    of.cup.gel = shape->gel;
    runnel_status status = runnel_kinetics_anchor(shape, gel_s, cup->start_degc, &of.constant);
    if (status != RUNNEL_OK)
        return status;
    /* Self-heating makes it at most some thousand times as fast; a cold cup slows it down. */
    double x = 0, error = 0;
    status = runnel_root(too_late, &of, -10, 10, 1e-9, 0, &x, &error);
    if (status != RUNNEL_OK)
        return of.status != RUNNEL_OK ? of.status : RUNNEL_E_NOT_COMPUTED;
    *kinetics = sped_up(of.constant, exp(-x));
    return RUNNEL_OK;
}

/* ---- To all that a sheet states -------------------------------------------------------------- */

/* Bounds of k1/k2: from hardly any start of its own to one that the hardener itself drives. Fits of
 * three amines at 25 degC have 0.07 to 0.13; accelerated hardeners more. */
static const double least_share = 0.002, most_share = 5;

typedef struct fitting {
    runnel_kinetics_shape shape;
    runnel_heat_cup cup;
    const runnel_heat_stated *stated;
    runnel_status status;
} fitting;

/* How far what has reacted by the end of the pot life is from what it should be, in powers of e, by
 * a law that gels when it should. */
static double too_far(double log_share, void *state) {
    fitting *of = state;
    runnel_heat_run run;
    of->shape.k1_share = exp(log_share);
    of->status = runnel_kinetics_anchor(&of->shape, of->stated->gel_s, of->cup.start_degc,
                                        &of->cup.kinetics);
    if (of->status == RUNNEL_OK)
        of->status = runnel_heat_in_cup(&of->cup, of->stated->pot_life_s, &run);
    return of->status == RUNNEL_OK ? log(run.conversion / of->stated->pot_conversion) : NAN;
}

static runnel_status anchor_pot(fitting *of) {
    runnel_kinetics_shape until = of->shape;
    until.gel = of->stated->pot_conversion;
    return runnel_heat_anchor(&until, &of->cup, of->stated->pot_life_s, &of->cup.kinetics);
}

static runnel_status fit_both(fitting *of) {
    double x = log(least_share), error = 0;
    double least = too_far(x, of);
    if (of->status != RUNNEL_OK || least >= 0) /* faster than the pot life says, by the gel */
        return of->status;
    double most = too_far(log(most_share), of);
    if (of->status != RUNNEL_OK)
        return of->status;
    if (most <= 0) /* slower than the pot life says: the gel comes earlier than stated */
        return anchor_pot(of);
    runnel_status status = runnel_root(too_far, of, x, log(most_share), 1e-7, 0, &x, &error);
    if (status == RUNNEL_OK)
        (void)too_far(x, of);
    return status != RUNNEL_OK && of->status == RUNNEL_OK ? RUNNEL_E_NOT_COMPUTED : of->status;
}

runnel_status runnel_heat_fit(const runnel_kinetics_shape *shape, const runnel_heat_cup *cup,
                              const runnel_heat_stated *stated, runnel_heat_law *law) {
    const double near = 0.02;
    bool gels = stated->gel_s > 0, pots = stated->pot_life_s > 0 && cup->mass_g > 0;
    fitting of = {*shape, *cup, stated, RUNNEL_OK};
    runnel_heat_law found = {.gel_s = NAN, .pot_life_s = NAN};
    runnel_heat_run run;
    of.cup.gel = stated->pot_conversion;
    runnel_status status =
        gels && pots ? fit_both(&of)
        : gels ? runnel_kinetics_anchor(shape, stated->gel_s, cup->start_degc, &of.cup.kinetics)
        : pots ? anchor_pot(&of)
               : RUNNEL_E_RANGE;
    if (status == RUNNEL_OK)
        status = runnel_kinetics_time(&of.cup.kinetics, cup->start_degc, shape->gel, &found.gel_s);
    if (status == RUNNEL_OK && pots) {
        status = runnel_heat_in_cup(&of.cup, 0, &run);
        found.pot_life_s = run.gel_s;
    }
    if (status != RUNNEL_OK)
        return status;
    found.kinetics = of.cup.kinetics;
    found.fits = !(fabs(found.gel_s / stated->gel_s - 1) > near && gels) &&
                 !(fabs(found.pot_life_s / stated->pot_life_s - 1) > near && pots);
    *law = found;
    return RUNNEL_OK;
}
