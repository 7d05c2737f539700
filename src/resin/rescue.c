/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/rescue.h"

#include "resin/amount.h"

/* Ratios nearer to each other than this share are taken for the same when pumps are judged. */
static const double alike = 0.05;
/* A dose that is right but for rounding lacks nothing. */
static const double rounding = 1e-12;

runnel_status runnel_dose_mass(const runnel_dose *dose, double density_g_per_ml, double *mass_g) {
    double per_unit = NAN;
    if (!runnel_is_positive(density_g_per_ml) || !runnel_is_amount(dose->amount))
        return RUNNEL_E_RANGE;
    switch (dose->unit) {
    case RUNNEL_DOSE_GRAMS:
        per_unit = 1;
        break;
    case RUNNEL_DOSE_ML:
        per_unit = density_g_per_ml;
        break;
    case RUNNEL_DOSE_STROKES:
        per_unit = dose->stroke_ml * density_g_per_ml;
        break;
    case RUNNEL_DOSE_NONE:
    default:
        return RUNNEL_E_UNIT;
    }
    double mass = dose->amount * per_unit;
    if (!runnel_is_positive(per_unit) || !isfinite(mass))
        return RUNNEL_E_RANGE;
    *mass_g = mass;
    return RUNNEL_OK;
}

/* A limit of which 0 and NAN stand for none. */
static double limit_of(double value) {
    return isnan(value) || value == 0 ? INFINITY : value;
}

static bool is_sound(const runnel_rescue_case *mix) {
    const runnel_mixture *of = &mix->mixture;
    return runnel_is_positive(of->weight_a) && runnel_is_positive(of->weight_b) &&
           runnel_is_positive(of->volume_a) && runnel_is_positive(of->volume_b) &&
           runnel_is_positive(mix->tolerance) && mix->tolerance < 1 &&
           limit_of(mix->wanted_g) > 0 && limit_of(mix->room_mm3) > 0 &&
           limit_of(mix->largest_mass_g) > 0 && limit_of(mix->step_g) > 0 &&
           (!mix->knows_stock ||
            (runnel_is_amount(mix->stock_a_g) && runnel_is_amount(mix->stock_b_g)));
}

static double error_of(const runnel_rescue_case *mix, double a_g, double b_g) {
    return b_g * mix->mixture.weight_a / (a_g * mix->mixture.weight_b) - 1;
}

/* The part that lacks, and what goes with it. */
typedef struct shortage {
    bool is_b;
    double here_g, other_g;
    double per_other; /* of the part that lacks for a gram of the other */
    double density_g_per_ml;
    double stock_g; /* INFINITY when not known */
    const runnel_dose *dose;
} shortage;

static shortage shortage_of(const runnel_rescue_case *mix, const runnel_rescue *rescue) {
    bool is_b = rescue->ratio_error < 0;
    double b_per_a = mix->mixture.weight_b / mix->mixture.weight_a;
    double stock_g = is_b ? mix->stock_b_g : mix->stock_a_g;
    return (shortage){.is_b = is_b,
                      .here_g = is_b ? rescue->part_b_g : rescue->part_a_g,
                      .other_g = is_b ? rescue->part_a_g : rescue->part_b_g,
                      .per_other = is_b ? b_per_a : 1 / b_per_a,
                      .density_g_per_ml = is_b ? mix->density_b_g_per_ml : mix->density_a_g_per_ml,
                      .stock_g = mix->knows_stock ? stock_g : INFINITY,
                      .dose = is_b ? &mix->part_b : &mix->part_a};
}

/* The most that the limits leave to add, g, and which of them leave less than is wanted. */
static double most_to_add(const runnel_rescue_case *mix, const shortage *of, double wanted_g,
                          const runnel_rescue *rescue, unsigned *limits) {
    double now_ml =
        rescue->part_a_g / mix->density_a_g_per_ml + rescue->part_b_g / mix->density_b_g_per_ml;
    double now_g = rescue->part_a_g + rescue->part_b_g;
    const struct {
        unsigned bit;
        double left_g;
    } rows[] = {
        {RUNNEL_RESCUE_STOCK, of->stock_g},
        {RUNNEL_RESCUE_ROOM, (limit_of(mix->room_mm3) / 1000 - now_ml) * of->density_g_per_ml},
        {RUNNEL_RESCUE_MASS, limit_of(mix->largest_mass_g) - now_g}};
    double most_g = INFINITY;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        most_g = fmin(most_g, fmax(0, rows[i].left_g));
        if (rows[i].left_g < wanted_g * (1 - rounding))
            *limits |= rows[i].bit;
    }
    return most_g;
}

/* To the nearest step of the scale that is not more than may be. */
static double round_to_step(double mass_g, double most_g, double step_g) {
    if (isinf(step_g))
        return fmin(mass_g, most_g);
    double rounded_g = step_g * round(fmin(mass_g, most_g) / step_g);
    return rounded_g <= most_g * (1 + rounding) ? rounded_g : step_g * floor(most_g / step_g);
}

static void set_addition(const runnel_rescue_case *mix, const shortage *of, double add_g,
                         runnel_rescue *rescue) {
    double a_g = rescue->part_a_g + (of->is_b ? 0 : add_g);
    double b_g = rescue->part_b_g + (of->is_b ? add_g : 0);
    rescue->add_g = add_g;
    rescue->add_ml = add_g / of->density_g_per_ml;
    rescue->add_strokes =
        of->dose->unit == RUNNEL_DOSE_STROKES ? rescue->add_ml / of->dose->stroke_ml : NAN;
    rescue->ratio_error_after = error_of(mix, a_g, b_g);
    rescue->total_g = a_g + b_g;
    rescue->total_ml = a_g / mix->density_a_g_per_ml + b_g / mix->density_b_g_per_ml;
    rescue->over_wanted_g = rescue->total_g - (mix->wanted_g > 0 ? mix->wanted_g : NAN);
}

static bool is_within(double error, double tolerance) {
    return fabs(error) <= tolerance * (1 + rounding);
}

/* Decides what to add to a mix that is off. */
static void mend(const runnel_rescue_case *mix, const shortage *of, runnel_rescue *rescue) {
    double most_g = most_to_add(mix, of, rescue->exact_g, rescue, &rescue->limits);
    bool is_limited = rescue->limits != 0;
    set_addition(mix, of, round_to_step(rescue->exact_g, most_g, limit_of(mix->step_g)), rescue);
    if (is_within(rescue->ratio_error_after, mix->tolerance)) {
        rescue->verdict = is_limited ? RUNNEL_RESCUE_NEARLY : RUNNEL_RESCUE_ADD;
        return;
    }
    rescue->verdict = RUNNEL_RESCUE_NOT;
    /* More would have done, had it been possible to weigh it. */
    if (most_g >= rescue->least_g * (1 - rounding))
        rescue->limits |= RUNNEL_RESCUE_SCALE;
}

static bool is_alike(double one, double other) {
    return fabs(one / other - 1) <= alike;
}

static unsigned warnings_of(const runnel_rescue_case *mix) {
    const runnel_dose *a = &mix->part_a, *b = &mix->part_b;
    bool a_pumped = a->unit == RUNNEL_DOSE_STROKES, b_pumped = b->unit == RUNNEL_DOSE_STROKES;
    unsigned warnings = 0;
    if ((a_pumped && a->amount < RUNNEL_FEWEST_STROKES) ||
        (b_pumped && b->amount < RUNNEL_FEWEST_STROKES))
        warnings |= RUNNEL_RESCUE_FEW_STROKES;
    double ratio = mix->mixture.volume_b / mix->mixture.volume_a;
    if (a_pumped && b_pumped && !is_alike(ratio, 1) &&
        is_alike(b->stroke_ml / a->stroke_ml, ratio) && is_alike(b->amount / a->amount, ratio))
        warnings |= RUNNEL_RESCUE_METERED_TWICE;
    return warnings;
}

runnel_status runnel_rescue_of(const runnel_rescue_case *mix, runnel_rescue *rescue) {
    runnel_rescue fresh = {.verdict = RUNNEL_RESCUE_FINE};
    runnel_status status = runnel_dose_mass(&mix->part_a, mix->density_a_g_per_ml, &fresh.part_a_g);
    if (status == RUNNEL_OK)
        status = runnel_dose_mass(&mix->part_b, mix->density_b_g_per_ml, &fresh.part_b_g);
    if (status != RUNNEL_OK)
        return status;
    if (!is_sound(mix) || !runnel_is_positive(fresh.part_a_g + fresh.part_b_g))
        return RUNNEL_E_RANGE;
    fresh.ratio_error = error_of(mix, fresh.part_a_g, fresh.part_b_g);
    shortage of = shortage_of(mix, &fresh);
    fresh.serves_g = of.here_g / of.per_other;
    fresh.excess_g = fmax(0, of.other_g - fresh.serves_g);
    fresh.right_g = of.here_g + fresh.serves_g;
    if (fabs(fresh.ratio_error) > rounding) {
        double off = of.is_b ? 1 - mix->tolerance : 1 / (1 + mix->tolerance);
        fresh.lacking = of.is_b ? 'B' : 'A';
        fresh.exact_g = of.other_g * of.per_other - of.here_g;
        fresh.least_g = fmax(0, of.other_g * of.per_other * off - of.here_g);
    }
    if (is_within(fresh.ratio_error, mix->tolerance))
        set_addition(mix, &of, 0, &fresh);
    else
        mend(mix, &of, &fresh);
    fresh.warnings = warnings_of(mix);
    if (!isfinite(fresh.total_g) || !isfinite(fresh.total_ml))
        return RUNNEL_E_RANGE;
    *rescue = fresh;
    return fresh.verdict == RUNNEL_RESCUE_NOT ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK;
}
