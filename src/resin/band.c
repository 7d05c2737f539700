/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/band.h"

#include "base/sum.h"
#include "resin/amount.h"

#include <math.h>

/* The shift that a cavity's figures were computed for, see runnel_cavity. */
static const double figures_shift_mm = 0.1;

const char *runnel_band_cause_text(runnel_band_cause cause) {
    static const char *const texts[] = {[RUNNEL_BAND_DEPTH] = "depth zero",
                                        [RUNNEL_BAND_ANGLE] = "included angle",
                                        [RUNNEL_BAND_FLATNESS] = "flatness of the board",
                                        [RUNNEL_BAND_SOAK] = "soak"};
    return (unsigned)cause < RUNNEL_BAND_CAUSES ? texts[cause] : "unknown";
}

runnel_band_errors runnel_band_usual(void) {
    return (runnel_band_errors){RUNNEL_BAND_DEPTH_MM, RUNNEL_BAND_ANGLE_DEG,
                                RUNNEL_BAND_FLATNESS_MM, RUNNEL_BAND_SOAK_SHARE};
}

static bool errors_are_sound(const runnel_band_errors *errors) {
    return runnel_is_amount(errors->depth_mm) && runnel_is_amount(errors->angle_deg) &&
           runnel_is_amount(errors->flatness_mm) && runnel_is_amount(errors->soak);
}

/* Joins the causes of a band whose likely volume and parts are set. */
static void join(runnel_band *band) {
    runnel_sum down = {0}, up = {0}, down_squares = {0}, up_squares = {0}, squares = {0};
    for (size_t i = 0; i < RUNNEL_BAND_CAUSES; i++) {
        const runnel_band_part *part = &band->parts[i];
        double both = part->down_mm3 + part->up_mm3;
        runnel_sum_add(&down, part->down_mm3);
        runnel_sum_add(&up, part->up_mm3);
        runnel_sum_add(&down_squares, part->down_mm3 * part->down_mm3);
        runnel_sum_add(&up_squares, part->up_mm3 * part->up_mm3);
        runnel_sum_add(&squares, both * both);
    }
    double variance = runnel_sum_value(&squares);
    for (size_t i = 0; i < RUNNEL_BAND_CAUSES; i++) {
        double both = band->parts[i].down_mm3 + band->parts[i].up_mm3;
        band->parts[i].share = variance > 0 ? both * both / variance : 0;
    }
    band->low_mm3 = fmax(0, band->likely_mm3 - sqrt(runnel_sum_value(&down_squares)));
    band->high_mm3 = band->likely_mm3 + sqrt(runnel_sum_value(&up_squares));
    band->least_mm3 = fmax(0, band->likely_mm3 - runnel_sum_value(&down));
    band->most_mm3 = band->likely_mm3 + runnel_sum_value(&up);
}

/* What a shift to either side does; whichever end is higher. */
static runnel_band_part part_of(double likely_mm3, double one_mm3, double other_mm3) {
    return (runnel_band_part){.down_mm3 = fmax(0, likely_mm3 - fmin(one_mm3, other_mm3)),
                              .up_mm3 = fmax(0, fmax(one_mm3, other_mm3) - likely_mm3)};
}

runnel_status runnel_band_of(runnel_shifted_volume volume, void *state, double soak_mm3,
                             const runnel_band_errors *errors, runnel_band *band) {
    if (!volume || !runnel_is_amount(soak_mm3) || !errors_are_sound(errors))
        return RUNNEL_E_RANGE;
    const double shifts[RUNNEL_BAND_CAUSES][2] = {[RUNNEL_BAND_DEPTH] = {errors->depth_mm, 0},
                                                  [RUNNEL_BAND_ANGLE] = {0, errors->angle_deg},
                                                  [RUNNEL_BAND_FLATNESS] = {errors->flatness_mm, 0},
                                                  [RUNNEL_BAND_SOAK] = {0, 0}};
    double cut_mm3 = volume(0, 0, state);
    if (!runnel_is_amount(cut_mm3))
        return RUNNEL_E_NOT_COMPUTED;
    runnel_band fresh = {.likely_mm3 = cut_mm3 + soak_mm3};
    for (size_t i = 0; i < RUNNEL_BAND_CAUSES; i++) {
        if (shifts[i][0] == 0 && shifts[i][1] == 0)
            continue;
        double more_mm3 = volume(shifts[i][0], shifts[i][1], state);
        double less_mm3 = volume(-shifts[i][0], -shifts[i][1], state);
        if (!runnel_is_amount(more_mm3) || !runnel_is_amount(less_mm3))
            return RUNNEL_E_NOT_COMPUTED;
        fresh.parts[i] = part_of(cut_mm3, less_mm3, more_mm3);
    }
    fresh.parts[RUNNEL_BAND_SOAK] =
        part_of(soak_mm3, fmax(0, soak_mm3 * (1 - errors->soak)), soak_mm3 * (1 + errors->soak));
    join(&fresh);
    if (!isfinite(fresh.most_mm3) || !isfinite(fresh.high_mm3))
        return RUNNEL_E_RANGE;
    *band = fresh;
    return RUNNEL_OK;
}

/* The parabola over the depth and the slope over the angle. */
static double volume_of_figures(double depth_shift_mm, double angle_shift_deg, void *state) {
    const runnel_band_figures *of = state;
    double shift = depth_shift_mm / figures_shift_mm;
    double slope_mm3 = (of->depth_plus_mm3 - of->depth_minus_mm3) / 2;
    double bend_mm3 = (of->depth_plus_mm3 + of->depth_minus_mm3) / 2;
    double vertex = -slope_mm3 / (2 * bend_mm3);
    /* Deeper is never less: beyond its vertex the parabola turns back, the cavity does not. */
    if (bend_mm3 > 0)
        shift = fmax(shift, vertex);
    else if (bend_mm3 < 0)
        shift = fmin(shift, vertex);
    double moved_mm3 = shift * slope_mm3 + shift * shift * bend_mm3;
    double turned_mm3 = angle_shift_deg * of->angle_mm3_per_degree;
    double volume_mm3 = of->volume_mm3 + moved_mm3 + turned_mm3;
    return volume_mm3 < 0 ? 0 : volume_mm3;
}

runnel_status runnel_band_of_figures(const runnel_band_figures *figures, double soak_mm3,
                                     const runnel_band_errors *errors, runnel_band *band) {
    if (!runnel_is_amount(figures->volume_mm3) || !isfinite(figures->depth_plus_mm3) ||
        !isfinite(figures->depth_minus_mm3) || !isfinite(figures->angle_mm3_per_degree))
        return RUNNEL_E_RANGE;
    runnel_band_figures copy = *figures;
    return runnel_band_of(volume_of_figures, &copy, soak_mm3, errors, band);
}

static bool band_is_sound(const runnel_band *band) {
    bool is_sound = runnel_is_amount(band->likely_mm3);
    for (size_t i = 0; i < RUNNEL_BAND_CAUSES; i++)
        is_sound = is_sound && runnel_is_amount(band->parts[i].down_mm3) &&
                   runnel_is_amount(band->parts[i].up_mm3);
    return is_sound;
}

runnel_status runnel_band_add(const runnel_band *bands, const double *counts, size_t count,
                              runnel_band *sum) {
    runnel_sum likely = {0}, down[RUNNEL_BAND_CAUSES] = {{0}}, up[RUNNEL_BAND_CAUSES] = {{0}};
    for (size_t i = 0; i < count; i++) {
        double times = counts ? counts[i] : 1;
        if (!runnel_is_amount(times) || !band_is_sound(&bands[i]))
            return RUNNEL_E_RANGE;
        runnel_sum_add(&likely, times * bands[i].likely_mm3);
        for (size_t k = 0; k < RUNNEL_BAND_CAUSES; k++) {
            runnel_sum_add(&down[k], times * bands[i].parts[k].down_mm3);
            runnel_sum_add(&up[k], times * bands[i].parts[k].up_mm3);
        }
    }
    runnel_band fresh = {.likely_mm3 = runnel_sum_value(&likely)};
    for (size_t k = 0; k < RUNNEL_BAND_CAUSES; k++)
        fresh.parts[k] = (runnel_band_part){.down_mm3 = runnel_sum_value(&down[k]),
                                            .up_mm3 = runnel_sum_value(&up[k])};
    join(&fresh);
    if (!isfinite(fresh.most_mm3) || !isfinite(fresh.high_mm3))
        return RUNNEL_E_RANGE;
    *sum = fresh;
    return RUNNEL_OK;
}
