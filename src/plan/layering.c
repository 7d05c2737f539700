/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Cavities deeper than one pour may be.
 */
#include "plan/make.h"

#include "base/memory.h"
#include "runnel/cure.h"

#include <math.h>

/** A carved cavity, as its sections are asked for. */
typedef struct carving {
    runnel_shape *shape;
    const runnel_cut *cut;
} carving;

static runnel_status carved_section(double depth_mm, void *state, double *area_mm2) {
    const carving *of = state;
    return runnel_cavity_section(of->shape, of->cut, depth_mm, area_mm2);
}

static runnel_status carved_above(double depth_mm, void *state, double *volume_mm3) {
    const carving *of = state;
    return runnel_cavity_above(of->shape, of->cut, depth_mm, volume_mm3);
}

/** Whether that is to be had: between walls, or where a cutter with a flat end has cleared. */
static bool is_same_above(const runnel_cut *cut) {
    return cut->rule == RUNNEL_CUT_WALLS ||
           (cut->rule == RUNNEL_CUT_POCKET && cut->cutter.kind == RUNNEL_CUTTER_FLAT);
}

/** Sections of a cavity of which the depth alone is known. */
static runnel_status equal_section(double depth_mm, void *state, double *area_mm2) {
    (void)depth_mm;
    (void)state;
    *area_mm2 = 1;
    return RUNNEL_OK;
}

runnel_status runnel_shop_time(const runnel_job *job, double stated_s, double *time_s) {
    const runnel_resin *resin = &job->resin;
    bool has_energy = !isnan(resin->activation_kj_per_mol);
    *time_s = NAN;
    if (!isfinite(stated_s) || isnan(resin->stated_degc) || job->shop_degc < resin->lowest_degc)
        return RUNNEL_OK;
    return runnel_time_at(stated_s, resin->stated_degc, job->shop_degc,
                          has_energy ? resin->activation_kj_per_mol : RUNNEL_CURE_USUAL_KJ_PER_MOL,
                          time_s);
}

/** Share of the volume that cast resin loses from the gel on, at most; 1 to 3 %, common practice
 * (by the limit of ASTM C881 for the linear shrinkage of such, 0.5 %, it is 1.5 %). */
#define LATE_SHRINKAGE 0.03

double runnel_dip_of(const runnel_job *job, const runnel_plan_cavity *planned) {
    double depth_mm = planned->figures.deepest_mm;
    if (planned->layers.count > 1) {
        const runnel_layer *last = &planned->layers.items[planned->layers.count - 1];
        depth_mm = last->bottom_mm - last->top_mm;
    }
    return fmin(job->resin.shrinkage, LATE_SHRINKAGE) * depth_mm;
}

double runnel_crown_of(const runnel_job *job, const runnel_plan_cavity *planned) {
    bool is_known = planned->figures.footprint_mm2 > 0;
    return is_known ? job->crown_mm : fmin(job->crown_mm, job->resin.deepest_layer_mm / 2);
}

static runnel_status limits_of(const runnel_job *job, double crown_mm,
                               runnel_layer_limits *limits) {
    const runnel_resin *resin = &job->resin;
    *limits = (runnel_layer_limits){.layer_mm = resin->deepest_layer_mm, .crown_mm = crown_mm};
    runnel_status status = runnel_shop_time(job, resin->recoat_from_s, &limits->recoat_from_s);
    if (!status)
        status = runnel_shop_time(job, resin->recoat_until_s, &limits->recoat_until_s);
    return status;
}

/** Layers by the depth alone: bounds and times; volumes and surfaces are not known. */
static runnel_status layer_by_depth(double deepest_mm, const runnel_layer_limits *limits,
                                    runnel_layers *layers) {
    runnel_hollow hollow = {.section = equal_section, .deepest_mm = deepest_mm, .volume_mm3 = NAN};
    runnel_status status = runnel_layers_make(&hollow, limits, layers);
    for (size_t i = 0; i < layers->count && !status; i++)
        layers->items[i].volume_mm3 = layers->items[i].volume_error_mm3 =
            layers->items[i].surface_mm2 = NAN;
    if (!status)
        layers->volume_mm3 = NAN;
    return status;
}

runnel_status runnel_layer_cavity(const runnel_making *making, const runnel_job_cavity *cavity,
                                  runnel_shape *shape, runnel_plan_cavity *planned) {
    const runnel_job *job = making->job;
    const runnel_cavity *figures = &planned->figures;
    double deepest_mm = figures->deepest_mm, most_mm = job->resin.deepest_layer_mm;
    double crown_mm = runnel_crown_of(job, planned), high_mm = deepest_mm + crown_mm;
    runnel_layer_limits limits;
    carving of = {shape, &cavity->cut};
    runnel_hollow hollow = {.section = carved_section,
                            .above = is_same_above(&cavity->cut) ? carved_above : NULL,
                            .state = &of,
                            .deepest_mm = deepest_mm,
                            .volume_mm3 = figures->volume_mm3,
                            .volume_error_mm3 = figures->volume_error_mm3};
    if (!(deepest_mm > 0) || !(high_mm > most_mm + RUNNEL_FIT_SLACK_MM) ||
        high_mm / most_mm > RUNNEL_LAYERS_MOST)
        return RUNNEL_OK;
    runnel_status status = limits_of(job, crown_mm, &limits);
    if (status)
        return status;
    status = shape ? runnel_layers_make(&hollow, &limits, &planned->layers) : RUNNEL_E_NOT_COMPUTED;
    /* Without sections, or where they are too rough, the depth still tells how many there are. */
    if (status == RUNNEL_E_NOT_COMPUTED || status == RUNNEL_E_IDENTITY)
        status = layer_by_depth(deepest_mm, &limits, &planned->layers);
    return status;
}
