/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/layers.h"

#include "base/memory.h"
#include "base/sum.h"
#include "numeric/quadrature.h"
#include "numeric/root.h"
#include "resin/amount.h"

#include <math.h>
#include <string.h>

/* Shares of the volume to which sections are integrated: the first is tried, and where that is not
 * to be had, the second. A drop is 1e-5 of ten litres. */
static const double fine_share = 1e-8;
static const double coarse_share = 1e-5;
/* Share of a volume by which two ways to it may differ. */
static const double identity_share = 1e-6;
/* Share of the deepest point to which the surface of the resin is found. */
static const double level_share = 1e-6;
/* Sections are asked for by this share of the deepest point inside the bounds, so that one which
 * jumps at a bound shows the side that is meant. */
static const double inside_share = 1e-12;
/* What sums of larger areas and volumes may fall short of nothing by, mm2 and mm3. */
static const double nothing = 1e-6;
/* A depth that is a multiple of the limit but for rounding needs no layer more. */
static const double count_slack = 1e-9;

static runnel_status ask(runnel_depth_function function, void *state, double depth_mm,
                         double *value) {
    double found = NAN;
    runnel_status status = function ? function(depth_mm, state, &found) : RUNNEL_E_RANGE;
    if (status != RUNNEL_OK)
        return status;
    if (!isfinite(found) || found < -nothing)
        return RUNNEL_E_NOT_COMPUTED;
    *value = fmax(0, found);
    return RUNNEL_OK;
}

/* Sections between two bounds, and what went wrong with them. */
typedef struct probe {
    const runnel_hollow *hollow;
    double top_mm, bottom_mm;
    runnel_status status;
} probe;

static double section_at(double depth_mm, void *state) {
    probe *of = state;
    double inset_mm = fmin(inside_share * of->hollow->deepest_mm, (of->bottom_mm - of->top_mm) / 4);
    double inside_mm = fmin(fmax(depth_mm, of->top_mm + inset_mm), of->bottom_mm - inset_mm);
    double area_mm2 = NAN;
    if (of->status == RUNNEL_OK)
        of->status = ask(of->hollow->section, of->hollow->state, inside_mm, &area_mm2);
    return of->status == RUNNEL_OK ? area_mm2 : NAN;
}

static runnel_status integrate(const runnel_hollow *hollow, double top_mm, double bottom_mm,
                               double share, double *volume_mm3, double *error_mm3) {
    probe of = {hollow, top_mm, bottom_mm, RUNNEL_OK};
    double absolute_mm3 = hollow->volume_mm3 > 0 ? share * hollow->volume_mm3 : 0;
    runnel_status status = runnel_integrate(section_at, &of, top_mm, bottom_mm, absolute_mm3, share,
                                            volume_mm3, error_mm3);
    return of.status != RUNNEL_OK ? of.status : status;
}

static runnel_status subtract(const runnel_hollow *hollow, double top_mm, double bottom_mm,
                              double *volume_mm3) {
    double to_top_mm3, to_bottom_mm3;
    runnel_status status = ask(hollow->above, hollow->state, bottom_mm, &to_bottom_mm3);
    if (status == RUNNEL_OK && top_mm > 0)
        status = ask(hollow->above, hollow->state, top_mm, &to_top_mm3);
    else
        to_top_mm3 = 0;
    if (status == RUNNEL_OK)
        *volume_mm3 = fmax(0, to_bottom_mm3 - to_top_mm3);
    return status;
}

/* Volume between sound bounds. */
static runnel_status volume_between(const runnel_hollow *hollow, double top_mm, double bottom_mm,
                                    double *volume_mm3, double *error_mm3) {
    if (hollow->above || top_mm == bottom_mm) {
        *volume_mm3 = *error_mm3 = 0;
        return top_mm == bottom_mm ? RUNNEL_OK : subtract(hollow, top_mm, bottom_mm, volume_mm3);
    }
    runnel_status status = integrate(hollow, top_mm, bottom_mm, fine_share, volume_mm3, error_mm3);
    if (status == RUNNEL_E_NOT_COMPUTED)
        status = integrate(hollow, top_mm, bottom_mm, coarse_share, volume_mm3, error_mm3);
    return status;
}

static bool is_sound(const runnel_hollow *hollow) {
    return hollow->section && runnel_is_positive(hollow->deepest_mm) &&
           (isnan(hollow->volume_mm3) || runnel_is_amount(hollow->volume_mm3)) &&
           (isnan(hollow->volume_error_mm3) || runnel_is_amount(hollow->volume_error_mm3));
}

runnel_status runnel_hollow_volume(const runnel_hollow *hollow, double top_mm, double bottom_mm,
                                   double *volume_mm3, double *error_mm3) {
    if (!is_sound(hollow) || !(top_mm >= 0 && top_mm <= bottom_mm) ||
        !(bottom_mm <= hollow->deepest_mm))
        return RUNNEL_E_RANGE;
    double volume, error;
    runnel_status status = volume_between(hollow, top_mm, bottom_mm, &volume, &error);
    if (status != RUNNEL_OK)
        return status;
    *volume_mm3 = volume;
    *error_mm3 = error;
    return RUNNEL_OK;
}

/* ---- Fill level ---------------------------------------------------------------------------- */

/* A volume that is to stand in a hollow. Each depth that is tried starts from the one before it. */
typedef struct filling {
    const runnel_hollow *hollow;
    double wanted_mm3;
    double depth_mm, below_mm3; /* a depth, and what goes in below it */
    double error_mm3;           /* greatest of the volumes between two depths */
    runnel_status status;
} filling;

static double excess_below(double depth_mm, void *state) {
    filling *of = state;
    double between_mm3 = 0, error_mm3 = 0;
    double top_mm = fmin(depth_mm, of->depth_mm), bottom_mm = fmax(depth_mm, of->depth_mm);
    if (of->status == RUNNEL_OK)
        of->status = volume_between(of->hollow, top_mm, bottom_mm, &between_mm3, &error_mm3);
    if (of->status != RUNNEL_OK)
        return NAN;
    of->below_mm3 += depth_mm < of->depth_mm ? between_mm3 : -between_mm3;
    of->depth_mm = depth_mm;
    of->error_mm3 = fmax(of->error_mm3, error_mm3);
    return of->below_mm3 - of->wanted_mm3;
}

static runnel_status find_level(filling *of, double *depth_mm, double *error_mm) {
    double deepest_mm = of->hollow->deepest_mm, found_mm, width_mm;
    runnel_status status = runnel_root(excess_below, of, 0, deepest_mm, level_share * deepest_mm, 0,
                                       &found_mm, &width_mm);
    if (of->status != RUNNEL_OK || status != RUNNEL_OK)
        return of->status != RUNNEL_OK ? of->status : status;
    /* An error of the volume moves the surface by that over the section. */
    probe at = {of->hollow, 0, deepest_mm, RUNNEL_OK};
    double area_mm2 = section_at(found_mm, &at);
    if (at.status != RUNNEL_OK)
        return at.status;
    double moved_mm = area_mm2 > 0 ? of->error_mm3 / area_mm2 : deepest_mm - found_mm;
    *depth_mm = found_mm;
    *error_mm = width_mm + fmin(moved_mm, deepest_mm);
    return RUNNEL_OK;
}

runnel_status runnel_fill_level(const runnel_hollow *hollow, double volume_mm3, double *depth_mm,
                                double *error_mm) {
    if (!is_sound(hollow) || !runnel_is_amount(volume_mm3))
        return RUNNEL_E_RANGE;
    double all_mm3, all_error_mm3, deepest_mm = hollow->deepest_mm;
    runnel_status status = volume_between(hollow, 0, deepest_mm, &all_mm3, &all_error_mm3);
    if (status != RUNNEL_OK)
        return status;
    double slack_mm3 = fmax(all_error_mm3, fine_share * all_mm3);
    if (volume_mm3 > all_mm3 + slack_mm3)
        return RUNNEL_E_RANGE;
    filling of = {hollow, volume_mm3, 0, all_mm3, all_error_mm3, RUNNEL_OK};
    double found_mm = volume_mm3 == 0 ? deepest_mm : 0, found_error_mm = 0;
    if (volume_mm3 > 0 && volume_mm3 < all_mm3 - slack_mm3)
        status = find_level(&of, &found_mm, &found_error_mm);
    if (status != RUNNEL_OK)
        return status;
    *depth_mm = found_mm;
    *error_mm = found_error_mm;
    return RUNNEL_OK;
}

/* ---- Layers -------------------------------------------------------------------------------- */

void runnel_layers_clear(runnel_layers *layers) {
    if (!layers)
        return;
    runnel_free(layers->items);
    memset(layers, 0, sizeof *layers);
}

/* A number of which NAN stands for 0. */
static double or_zero(double value) {
    return isnan(value) ? 0 : value;
}

/* A time of which 0 stands for "not known". */
static double or_unknown(double time_s) {
    return time_s == 0 ? NAN : time_s;
}

static bool limits_are_sound(const runnel_layer_limits *limits) {
    double layer_mm = or_zero(limits->layer_mm), crown_mm = or_zero(limits->crown_mm);
    return runnel_is_amount(layer_mm) && runnel_is_amount(crown_mm) &&
           runnel_is_amount(or_zero(limits->recoat_from_s)) &&
           runnel_is_amount(or_zero(limits->recoat_until_s)) &&
           !(or_unknown(limits->recoat_until_s) < or_unknown(limits->recoat_from_s));
}

static double count_of(const runnel_hollow *hollow, const runnel_layer_limits *limits) {
    double layer_mm = or_zero(limits->layer_mm);
    double height_mm = hollow->deepest_mm + or_zero(limits->crown_mm);
    return layer_mm > 0 ? fmax(1, ceil(height_mm / layer_mm - count_slack)) : 1;
}

/* Sets bounds and times of all layers. */
static void set_bounds(const runnel_hollow *hollow, const runnel_layer_limits *limits,
                       runnel_layers *layers) {
    double crown_mm = or_zero(limits->crown_mm);
    double count = (double)layers->count, height_mm = hollow->deepest_mm + crown_mm;
    double from_s = or_unknown(limits->recoat_from_s), until_s = or_unknown(limits->recoat_until_s);
    double from_mm = hollow->deepest_mm; /* below the face; of the crown it is less than 0 */
    for (size_t i = 0; i < layers->count; i++) {
        runnel_layer *layer = &layers->items[i];
        bool is_last = i + 1 == layers->count;
        double poured = (double)i + 1;
        double to_mm = is_last ? -crown_mm : hollow->deepest_mm - height_mm * (poured / count);
        if (fabs(to_mm) < count_slack * height_mm) /* at the face but for rounding */
            to_mm = 0;
        *layer = (runnel_layer){.bottom_mm = fmax(0, from_mm), .top_mm = fmax(0, to_mm)};
        layer->crown_mm = fmin(0, from_mm) - fmin(0, to_mm);
        layer->pour_mm = layer->bottom_mm - layer->top_mm + layer->crown_mm;
        layer->earliest_s = i ? from_s * (double)i : 0;
        layer->latest_s = i ? until_s * (double)i : 0;
        from_mm = to_mm;
    }
}

/* Integrates each layer; their sum and the sum of the errors. */
static runnel_status set_volumes(const runnel_hollow *hollow, runnel_layers *layers,
                                 double *sum_mm3, double *error_mm3) {
    runnel_sum sum = {0}, error = {0};
    for (size_t i = 0; i < layers->count; i++) {
        runnel_layer *layer = &layers->items[i];
        probe at = {hollow, layer->top_mm, layer->bottom_mm, RUNNEL_OK};
        runnel_status status = volume_between(hollow, layer->top_mm, layer->bottom_mm,
                                              &layer->volume_mm3, &layer->volume_error_mm3);
        if (status != RUNNEL_OK)
            return status;
        layer->surface_mm2 = section_at(layer->top_mm, &at);
        if (at.status != RUNNEL_OK)
            return at.status;
        runnel_sum_add(&sum, layer->volume_mm3);
        runnel_sum_add(&error, layer->volume_error_mm3);
    }
    *sum_mm3 = runnel_sum_value(&sum);
    *error_mm3 = runnel_sum_value(&error);
    return RUNNEL_OK;
}

/* Lets the last layer of the cavity make up for what the sum is off the volume that was given. */
static runnel_status close_sum(const runnel_hollow *hollow, double sum_mm3, double error_mm3,
                               runnel_layers *layers) {
    layers->volume_mm3 = isnan(hollow->volume_mm3) ? sum_mm3 : hollow->volume_mm3;
    layers->mismatch_mm3 = sum_mm3 - layers->volume_mm3;
    double allowed_mm3 =
        identity_share * layers->volume_mm3 + or_zero(hollow->volume_error_mm3) + error_mm3;
    if (!(fabs(layers->mismatch_mm3) <= allowed_mm3))
        return RUNNEL_E_IDENTITY;
    size_t last = layers->count - 1; /* layers of the crown alone are above it */
    while (last > 0 && layers->items[last].bottom_mm == 0)
        last--;
    runnel_sum others = {0};
    for (size_t i = 0; i < last; i++)
        runnel_sum_add(&others, -layers->items[i].volume_mm3);
    runnel_sum_add(&others, layers->volume_mm3);
    layers->items[last].volume_mm3 = fmax(0, runnel_sum_value(&others));
    return RUNNEL_OK;
}

runnel_status runnel_layers_make(const runnel_hollow *hollow, const runnel_layer_limits *limits,
                                 runnel_layers *layers) {
    if (!is_sound(hollow) || !limits_are_sound(limits))
        return RUNNEL_E_RANGE;
    double count = count_of(hollow, limits), sum_mm3, error_mm3;
    if (!(count <= RUNNEL_LAYERS_MOST))
        return RUNNEL_E_RANGE;
    runnel_layers made = {.count = (size_t)count};
    made.items = runnel_zeroed(made.count, sizeof *made.items);
    if (!made.items)
        return RUNNEL_E_NO_MEMORY;
    set_bounds(hollow, limits, &made);
    runnel_status status = set_volumes(hollow, &made, &sum_mm3, &error_mm3);
    if (status == RUNNEL_OK)
        status = close_sum(hollow, sum_mm3, error_mm3, &made);
    if (status != RUNNEL_OK) {
        runnel_layers_clear(&made);
        return status;
    }
    *layers = made;
    return RUNNEL_OK;
}
