/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/write.h"

#include "write/json_batch.h"
#include "write/json_figures.h"

#include <math.h>
#include <string.h>

static const runnel_json_figure resin_figures[] = {
    RUNNEL_JSON_PLAIN("density_a_g_per_ml", runnel_resin, density_a_g_per_ml),
    RUNNEL_JSON_PLAIN("density_b_g_per_ml", runnel_resin, density_b_g_per_ml),
    RUNNEL_JSON_PLAIN("viscosity_pa_s", runnel_resin, viscosity_pa_s),
    RUNNEL_JSON_PERCENT("shrinkage_percent", runnel_resin, shrinkage),
    RUNNEL_JSON_PLAIN("stated_degc", runnel_resin, stated_degc),
    RUNNEL_JSON_PLAIN("lowest_degc", runnel_resin, lowest_degc),
    RUNNEL_JSON_MINUTES("pot_life_min", runnel_resin, pot_life_s),
    RUNNEL_JSON_PLAIN("pot_mass_g", runnel_resin, pot_mass_g),
    RUNNEL_JSON_MINUTES("gel_min", runnel_resin, gel_s),
    RUNNEL_JSON_MINUTES("recoat_from_min", runnel_resin, recoat_from_s),
    RUNNEL_JSON_MINUTES("recoat_until_min", runnel_resin, recoat_until_s),
    RUNNEL_JSON_MINUTES("sandable_min", runnel_resin, sandable_s),
    RUNNEL_JSON_MINUTES("full_cure_min", runnel_resin, full_cure_s),
    RUNNEL_JSON_PLAIN("deepest_layer_mm", runnel_resin, deepest_layer_mm),
    RUNNEL_JSON_PLAIN("largest_mass_g", runnel_resin, largest_mass_g),
    RUNNEL_JSON_PERCENT("ratio_tolerance_percent", runnel_resin, ratio_tolerance),
    RUNNEL_JSON_PERCENT("tint_default_percent", runnel_resin, tint_default),
    RUNNEL_JSON_PERCENT("tint_cap_percent", runnel_resin, tint_cap),
    RUNNEL_JSON_PLAIN("activation_kj_per_mol", runnel_resin, activation_kj_per_mol),
    RUNNEL_JSON_PLAIN("reaction_j_per_g", runnel_resin, reaction_j_per_g)};

static const runnel_json_figure scale_figures[] = {
    RUNNEL_JSON_PLAIN("step_g", runnel_scale, step_g),
    RUNNEL_JSON_PLAIN("accuracy_counts", runnel_scale, accuracy_counts),
    RUNNEL_JSON_PLAIN("accuracy_percent", runnel_scale, accuracy_percent)};

static const runnel_json_figure mixture_figures[] = {
    RUNNEL_JSON_PLAIN("weight_a", runnel_mixture, weight_a),
    RUNNEL_JSON_PLAIN("weight_b", runnel_mixture, weight_b),
    RUNNEL_JSON_PLAIN("volume_a", runnel_mixture, volume_a),
    RUNNEL_JSON_PLAIN("volume_b", runnel_mixture, volume_b),
    RUNNEL_JSON_PLAIN("density_g_per_ml", runnel_mixture, density_g_per_ml)};

static const runnel_json_figure cavity_figures[] = {
    RUNNEL_JSON_PLAIN("footprint_mm2", runnel_plan_cavity, figures.footprint_mm2),
    RUNNEL_JSON_ML("volume_ml", runnel_plan_cavity, figures.volume_mm3),
    RUNNEL_JSON_ML("volume_error_ml", runnel_plan_cavity, figures.volume_error_mm3),
    RUNNEL_JSON_ML("low_ml", runnel_plan_cavity, band.low_mm3),
    RUNNEL_JSON_ML("likely_ml", runnel_plan_cavity, band.likely_mm3),
    RUNNEL_JSON_ML("high_ml", runnel_plan_cavity, band.high_mm3),
    RUNNEL_JSON_PLAIN("wall_mm2", runnel_plan_cavity, figures.wall_mm2),
    RUNNEL_JSON_PLAIN("deepest_mm", runnel_plan_cavity, figures.deepest_mm),
    RUNNEL_JSON_PLAIN("narrowest_mm", runnel_plan_cavity, figures.narrowest_mm),
    RUNNEL_JSON_PLAIN("widest_mm", runnel_plan_cavity, figures.widest_mm),
    RUNNEL_JSON_PLAIN("perimeter_mm", runnel_plan_cavity, figures.perimeter_mm),
    RUNNEL_JSON_PLAIN("margin_mm2", runnel_plan_cavity, margin_mm2),
    RUNNEL_JSON_PLAIN("width_mm", runnel_plan_cavity, width_mm),
    RUNNEL_JSON_PLAIN("height_mm", runnel_plan_cavity, height_mm),
    RUNNEL_JSON_PLAIN("uncut_mm2", runnel_plan_cavity, figures.uncut_mm2),
    RUNNEL_JSON_ML("per_tenth_mm_deeper_ml", runnel_plan_cavity, figures.depth_plus_mm3),
    RUNNEL_JSON_ML("per_tenth_mm_shallower_ml", runnel_plan_cavity, figures.depth_minus_mm3),
    RUNNEL_JSON_ML("per_degree_ml", runnel_plan_cavity, figures.angle_mm3_per_degree)};

static const runnel_json_figure layer_figures[] = {
    RUNNEL_JSON_PLAIN("bottom_mm", runnel_layer, bottom_mm),
    RUNNEL_JSON_PLAIN("top_mm", runnel_layer, top_mm),
    RUNNEL_JSON_PLAIN("crown_mm", runnel_layer, crown_mm),
    RUNNEL_JSON_PLAIN("pour_mm", runnel_layer, pour_mm),
    RUNNEL_JSON_ML("volume_ml", runnel_layer, volume_mm3),
    RUNNEL_JSON_ML("volume_error_ml", runnel_layer, volume_error_mm3),
    RUNNEL_JSON_PLAIN("surface_mm2", runnel_layer, surface_mm2),
    RUNNEL_JSON_HOURS("earliest_h", runnel_layer, earliest_s),
    RUNNEL_JSON_HOURS("latest_h", runnel_layer, latest_s)};

static json_t *ratio_object(const runnel_ratio *ratio, bool *whole) {
    if (ratio->basis == RUNNEL_BASIS_NONE)
        return json_null();
    json_t *object = json_object();
    runnel_json_put(object, "part_a", runnel_json_number(ratio->part_a), whole);
    runnel_json_put(object, "part_b", runnel_json_number(ratio->part_b), whole);
    runnel_json_put(object, "basis",
                    runnel_json_string(ratio->basis == RUNNEL_BASIS_VOLUME ? "volume" : "weight"),
                    whole);
    return object;
}

static json_t *resin_object(const runnel_job *job, bool *whole) {
    const runnel_resin *resin = &job->resin;
    json_t *object = json_object();
    runnel_json_put(object, "name", runnel_json_string(resin->name), whole);
    runnel_json_put(object, "kind", runnel_json_string(resin->kind), whole);
    runnel_json_put(object, "is_default", json_boolean(job->resin_is_default), whole);
    runnel_json_put(object, "changed", json_boolean(job->resin_changed), whole);
    runnel_json_put(object, "ratio", ratio_object(&resin->ratio, whole), whole);
    runnel_json_put(object, "other_ratio", ratio_object(&job->other_ratio, whole), whole);
    RUNNEL_JSON_FIGURES(object, resin, resin_figures, whole);
    runnel_json_put(object, "source", runnel_json_string(resin->source), whole);
    runnel_json_put(object, "date", runnel_json_string(resin->date), whole);
    runnel_json_put(object, "sure", runnel_json_string(resin->sure), whole);
    return object;
}

static json_t *shop_object(const runnel_job *job, bool *whole) {
    json_t *object = json_object();
    double humidity_percent = job->humidity < 0 ? NAN : 100 * job->humidity;
    runnel_json_put(object, "temperature_degc", runnel_json_number(job->shop_degc), whole);
    runnel_json_put(object, "humidity_percent", runnel_json_number(humidity_percent), whole);
    runnel_json_put(object, "is_default", json_boolean(job->shop_is_default), whole);
    return object;
}

static json_t *scale_object(const runnel_job *job, bool *whole) {
    json_t *object = json_object();
    RUNNEL_JSON_FIGURES(object, &job->scale, scale_figures, whole);
    runnel_json_put(object, "is_default", json_boolean(job->scale_is_default), whole);
    return object;
}

static const runnel_json_figure error_figures[] = {
    RUNNEL_JSON_PLAIN("depth_mm", runnel_band_errors, depth_mm),
    RUNNEL_JSON_PLAIN("angle_deg", runnel_band_errors, angle_deg),
    RUNNEL_JSON_PLAIN("flatness_mm", runnel_band_errors, flatness_mm),
    RUNNEL_JSON_PERCENT("soak_percent", runnel_band_errors, soak)};

static json_t *errors_object(const runnel_job *job, bool *whole) {
    json_t *object = json_object();
    RUNNEL_JSON_FIGURES(object, &job->errors, error_figures, whole);
    runnel_json_put(object, "is_default", json_boolean(job->errors_are_default), whole);
    return object;
}

static json_t *mixture_object(const runnel_mixture *mixture, bool *whole) {
    json_t *object = json_object();
    RUNNEL_JSON_FIGURES(object, mixture, mixture_figures, whole);
    return object;
}

/** Sections that were asked for; an empty array otherwise. */
static json_t *section_array(const runnel_plan_cavity *cavity, bool *whole) {
    json_t *array = json_array();
    for (size_t i = 0; i < cavity->section_count; i++) {
        json_t *object = json_object();
        runnel_json_put(object, "level_mm", runnel_json_number(cavity->sections[i].level_mm),
                        whole);
        runnel_json_put(object, "area_mm2", runnel_json_number(cavity->sections[i].area_mm2),
                        whole);
        runnel_json_append(array, object, whole);
    }
    return array;
}

/** Layers of a cavity that is poured in several; an empty array otherwise. */
static json_t *layer_array(const runnel_layers *layers, bool *whole) {
    json_t *array = json_array();
    for (size_t i = 0; i < layers->count; i++) {
        json_t *object = json_object();
        RUNNEL_JSON_FIGURES(object, &layers->items[i], layer_figures, whole);
        runnel_json_append(array, object, whole);
    }
    return array;
}

static json_t *cavity_object(const runnel_plan_cavity *cavity, bool *whole) {
    json_t *object = json_object();
    runnel_json_put(object, "name", runnel_json_string(cavity->name), whole);
    runnel_json_put(object, "piece", runnel_json_string(cavity->piece), whole);
    runnel_json_put(object, "colour", runnel_json_string(cavity->colour), whole);
    runnel_json_put(object, "count", json_integer((json_int_t)cavity->piece_count), whole);
    runnel_json_put(object, "measured", json_boolean(cavity->measured), whole);
    RUNNEL_JSON_FIGURES(object, cavity, cavity_figures, whole);
    runnel_json_put(object, "band_shares", runnel_json_band_shares(&cavity->band, whole), whole);
    runnel_json_put(object, "uncut_places", json_integer((json_int_t)cavity->figures.uncut_places),
                    whole);
    runnel_json_put(object, "font_file", runnel_json_string(cavity->font_file), whole);
    runnel_json_put(object, "sections", section_array(cavity, whole), whole);
    runnel_json_put(object, "layers", layer_array(&cavity->layers, whole), whole);
    return object;
}

static json_t *warning_object(const runnel_warning *warning, bool *whole) {
    json_t *object = json_object();
    runnel_json_put(object, "code", runnel_json_string(warning->code), whole);
    runnel_json_put(object, "text", runnel_json_string(warning->text), whole);
    runnel_json_put(object, "where", runnel_json_string(warning->where), whole);
    return object;
}

static json_t *bridge_object(const runnel_plan *plan, const runnel_bridge *bridge, bool *whole) {
    json_t *object = json_object();
    runnel_json_put(object, "piece", runnel_json_string(plan->cavities[bridge->one].piece), whole);
    runnel_json_put(object, "one", runnel_json_string(plan->cavities[bridge->one].name), whole);
    runnel_json_put(object, "other", runnel_json_string(plan->cavities[bridge->other].name), whole);
    runnel_json_put(object, "distance_mm", runnel_json_number(bridge->distance_mm), whole);
    return object;
}

static json_t *pour_object(const runnel_plan_batch *batch, bool *whole) {
    json_t *object = json_object();
    runnel_json_put(object, "colour", runnel_json_string(batch->colour), whole);
    runnel_json_put(object, "not_before_h", runnel_json_number(batch->not_before_s / 3600), whole);
    return object;
}

/* What the document is made of. */
typedef struct sized_job {
    const runnel_job *job;
    const runnel_plan *plan;
} sized_job;

static json_t *document(const void *from, bool *whole) {
    const sized_job *sized = from;
    const runnel_job *job = sized->job;
    const runnel_plan *plan = sized->plan;
    json_t *root = json_object(), *cavities = json_array();
    json_t *batches = json_array(), *warnings = json_array();
    json_t *bridges = json_array(), *order = json_array();
    for (size_t i = 0; i < plan->cavity_count; i++)
        runnel_json_append(cavities, cavity_object(&plan->cavities[i], whole), whole);
    for (size_t i = 0; i < plan->batch_count; i++)
        runnel_json_append(batches, runnel_json_batch(plan, &plan->batches[i], whole), whole);
    for (size_t i = 0; i < plan->bridge_count; i++)
        runnel_json_append(bridges, bridge_object(plan, &plan->bridges[i], whole), whole);
    for (size_t i = 0; i < plan->batch_count; i++)
        runnel_json_append(order, pour_object(&plan->batches[i], whole), whole);
    for (size_t i = 0; i < plan->warning_count; i++)
        runnel_json_append(warnings, warning_object(&plan->warnings[i], whole), whole);
    runnel_json_put(root, "job", runnel_json_string(job->name), whole);
    runnel_json_put(root, "file", runnel_json_string(job->file), whole);
    runnel_json_put(root, "resin", resin_object(job, whole), whole);
    runnel_json_put(root, "shop", shop_object(job, whole), whole);
    runnel_json_put(root, "scale", scale_object(job, whole), whole);
    runnel_json_put(root, "errors", errors_object(job, whole), whole);
    runnel_json_put(root, "size_to",
                    runnel_json_string(job->size_to == RUNNEL_SIZE_HIGH ? "high" : "likely"),
                    whole);
    runnel_json_put(root, "mixture", mixture_object(&plan->mixture, whole), whole);
    runnel_json_put(root, "cavities", cavities, whole);
    runnel_json_put(root, "batches", batches, whole);
    runnel_json_put(root, "pour_order", order, whole);
    runnel_json_put(root, "bridges", bridges, whole);
    runnel_json_put(root, "warnings", warnings, whole);
    return root;
}

runnel_status runnel_write_json(const runnel_job *job, const runnel_plan *plan, FILE *out) {
    return runnel_json_write(document, &(sized_job){job, plan}, out);
}
