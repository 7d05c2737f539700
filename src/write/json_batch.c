/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/json_batch.h"

#include "write/json_figures.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

/* total_ml is the sum of the terms, what the batch must give; total_g is what is weighed, A + B,
 * weighed_ml the volume of that, and surplus_ml what it is beyond the need. */
static const runnel_json_figure batch_figures[] = {
    RUNNEL_JSON_ML("cavity_ml", runnel_plan_batch, terms.cavity_mm3),
    RUNNEL_JSON_ML("crown_ml", runnel_plan_batch, terms.crown_mm3),
    RUNNEL_JSON_ML("shrinkage_ml", runnel_plan_batch, terms.shrinkage_mm3),
    RUNNEL_JSON_ML("soak_ml", runnel_plan_batch, terms.soak_mm3),
    RUNNEL_JSON_ML("allowance_ml", runnel_plan_batch, terms.allowance_mm3),
    RUNNEL_JSON_ML("cup_loss_ml", runnel_plan_batch, terms.cup_loss_mm3),
    RUNNEL_JSON_ML("reserve_ml", runnel_plan_batch, terms.reserve_mm3),
    RUNNEL_JSON_ML("total_ml", runnel_plan_batch, terms.total_mm3),
    RUNNEL_JSON_ML("surplus_ml", runnel_plan_batch, surplus_mm3),
    RUNNEL_JSON_PLAIN("total_g", runnel_plan_batch, weighing.total_g),
    RUNNEL_JSON_PLAIN("part_a_g", runnel_plan_batch, weighing.part_a_g),
    RUNNEL_JSON_PLAIN("part_b_g", runnel_plan_batch, weighing.part_b_g),
    RUNNEL_JSON_PLAIN("part_a_ml", runnel_plan_batch, weighing.part_a_ml),
    RUNNEL_JSON_PLAIN("part_b_ml", runnel_plan_batch, weighing.part_b_ml),
    RUNNEL_JSON_PLAIN("weighed_ml", runnel_plan_batch, weighing.total_ml),
    RUNNEL_JSON_PLAIN("tint_g", runnel_plan_batch, weighing.tint_g),
    RUNNEL_JSON_PERCENT("tint_percent", runnel_plan_batch, tint),
    RUNNEL_JSON_PERCENT("ratio_error_percent", runnel_plan_batch, weighing.ratio_error),
    RUNNEL_JSON_PERCENT("rounding_error_percent", runnel_plan_batch, weighing.rounding_error),
    RUNNEL_JSON_MINUTES("pot_life_min", runnel_plan_batch, pot_life_s),
    RUNNEL_JSON_PLAIN("charge_height_mm", runnel_plan_batch, charge_height_mm),
    RUNNEL_JSON_ML("volume_error_ml", runnel_plan_batch, volume_error_mm3),
    RUNNEL_JSON_ML("low_ml", runnel_plan_batch, band.low_mm3),
    RUNNEL_JSON_ML("likely_ml", runnel_plan_batch, band.likely_mm3),
    RUNNEL_JSON_ML("high_ml", runnel_plan_batch, band.high_mm3),
    RUNNEL_JSON_ML("top_up_ml", runnel_plan_batch, top_up_mm3),
    RUNNEL_JSON_PLAIN("top_up_a_g", runnel_plan_batch, top_up.part_a_g),
    RUNNEL_JSON_PLAIN("top_up_b_g", runnel_plan_batch, top_up.part_b_g),
    RUNNEL_JSON_PLAIN("top_up_tint_g", runnel_plan_batch, top_up.tint_g),
    RUNNEL_JSON_PLAIN("smallest_g", runnel_plan_batch, smallest_g),
    RUNNEL_JSON_MINUTES("pour_min", runnel_plan_batch, pour_s)};

static const runnel_json_figure cup_figures[] = {
    RUNNEL_JSON_ML("poured_ml", runnel_plan_cup, load.poured_mm3),
    RUNNEL_JSON_ML("loss_ml", runnel_plan_cup, load.loss_mm3),
    RUNNEL_JSON_ML("surplus_ml", runnel_plan_cup, load.surplus_mm3),
    RUNNEL_JSON_PLAIN("total_g", runnel_plan_cup, load.weighing.total_g),
    RUNNEL_JSON_PLAIN("part_a_g", runnel_plan_cup, load.weighing.part_a_g),
    RUNNEL_JSON_PLAIN("part_b_g", runnel_plan_cup, load.weighing.part_b_g),
    RUNNEL_JSON_PLAIN("part_a_ml", runnel_plan_cup, load.weighing.part_a_ml),
    RUNNEL_JSON_PLAIN("part_b_ml", runnel_plan_cup, load.weighing.part_b_ml),
    RUNNEL_JSON_PLAIN("weighed_ml", runnel_plan_cup, load.weighing.total_ml),
    RUNNEL_JSON_PLAIN("tint_g", runnel_plan_cup, load.weighing.tint_g),
    RUNNEL_JSON_PERCENT("ratio_error_percent", runnel_plan_cup, load.weighing.ratio_error),
    RUNNEL_JSON_PERCENT("rounding_error_percent", runnel_plan_cup, load.weighing.rounding_error),
    RUNNEL_JSON_MINUTES("pour_min", runnel_plan_cup, load.pour_s),
    RUNNEL_JSON_PERCENT("pot_share_percent", runnel_plan_cup, load.pot_share),
    RUNNEL_JSON_MINUTES("pot_life_min", runnel_plan_cup, load.pot_life_s),
    RUNNEL_JSON_PLAIN("charge_height_mm", runnel_plan_cup, charge_height_mm),
    RUNNEL_JSON_HOURS("earliest_h", runnel_plan_cup, earliest_s),
    RUNNEL_JSON_HOURS("latest_h", runnel_plan_cup, latest_s)};

/* A bit of a set, and its word. */
typedef struct bit_word {
    unsigned bit;
    const char *word;
} bit_word;

static const bit_word limits[] = {
    {RUNNEL_CUPS_BY_MASS, "mass"}, {RUNNEL_CUPS_BY_TIME, "time"}, {RUNNEL_CUPS_BY_SIZE, "size"}};

static const bit_word notes[] = {{RUNNEL_CUP_RAISED, "raised"},
                                 {RUNNEL_CUP_ROUNDED, "rounded"},
                                 {RUNNEL_CUP_LATE, "late"},
                                 {RUNNEL_CUP_HOT, "hot"},
                                 {RUNNEL_CUP_OVER_MASS, "over mass"},
                                 {RUNNEL_CUP_OVER_SIZE, "over size"},
                                 {RUNNEL_CUP_UNWEIGHABLE, "unweighable"}};

static json_t *word_array(unsigned set, const bit_word *words, size_t count, bool *whole) {
    json_t *array = json_array();
    for (size_t i = 0; i < count; i++)
        if (set & words[i].bit)
            runnel_json_append(array, runnel_json_string(words[i].word), whole);
    return array;
}

static json_t *fill_object(const runnel_plan *plan, const runnel_plan_fill *fill, bool *whole) {
    const runnel_plan_cavity *cavity = &plan->cavities[fill->cavity];
    json_t *object = json_object();
    runnel_json_put(object, "piece", runnel_json_string(cavity->piece), whole);
    runnel_json_put(object, "cavity", runnel_json_string(cavity->name), whole);
    runnel_json_put(object, "layer", json_integer((json_int_t)fill->layer), whole);
    runnel_json_put(object, "first", json_integer((json_int_t)fill->first), whole);
    runnel_json_put(object, "last", json_integer((json_int_t)fill->last), whole);
    runnel_json_put(object, "first_share_percent", runnel_json_number(100 * fill->first_share),
                    whole);
    runnel_json_put(object, "last_share_percent", runnel_json_number(100 * fill->last_share),
                    whole);
    return object;
}

static json_t *cup_object(const runnel_plan *plan, const runnel_plan_cup *cup, bool *whole) {
    json_t *object = json_object(), *fills = json_array();
    runnel_json_put(object, "layer", json_integer((json_int_t)cup->layer), whole);
    RUNNEL_JSON_FIGURES(object, cup, cup_figures, whole);
    runnel_json_put(object, "zero_before_b", json_boolean(cup->load.weighing.zero_before_b), whole);
    runnel_json_put(object, "limits", word_array(cup->load.limits, limits, COUNT(limits), whole),
                    whole);
    runnel_json_put(object, "notes", word_array(cup->load.notes, notes, COUNT(notes), whole),
                    whole);
    for (size_t i = 0; i < cup->fill_count; i++)
        runnel_json_append(fills, fill_object(plan, &cup->fills[i], whole), whole);
    runnel_json_put(object, "fills", fills, whole);
    return object;
}

json_t *runnel_json_band_shares(const runnel_band *band, bool *whole) {
    static const char *const keys[] = {[RUNNEL_BAND_DEPTH] = "depth_percent",
                                       [RUNNEL_BAND_ANGLE] = "angle_percent",
                                       [RUNNEL_BAND_FLATNESS] = "flatness_percent",
                                       [RUNNEL_BAND_SOAK] = "soak_percent"};
    json_t *object = json_object();
    for (size_t i = 0; i < RUNNEL_BAND_CAUSES; i++)
        runnel_json_put(object, keys[i], runnel_json_number(100 * band->parts[i].share), whole);
    return object;
}

json_t *runnel_json_batch(const runnel_plan *plan, const runnel_plan_batch *batch, bool *whole) {
    static const char *const raises[] = {[RUNNEL_RAISE_NONE] = "none",
                                         [RUNNEL_RAISE_SMALLEST] = "smallest batch",
                                         [RUNNEL_RAISE_ROUNDING] = "whole steps"};
    json_t *object = json_object();
    runnel_json_put(object, "colour", runnel_json_string(batch->colour), whole);
    RUNNEL_JSON_FIGURES(object, batch, batch_figures, whole);
    runnel_json_put(object, "zero_before_b", json_boolean(batch->weighing.zero_before_b), whole);
    runnel_json_put(object, "band_shares", runnel_json_band_shares(&batch->band, whole), whole);
    runnel_json_put(object, "raise", runnel_json_string(raises[batch->raise]), whole);
    runnel_json_put(object, "layers", json_integer((json_int_t)batch->layer_count), whole);
    runnel_json_put(object, "cups_wanted", json_integer((json_int_t)batch->cups_wanted), whole);
    runnel_json_put(object, "limits", word_array(batch->cups_ruled, limits, COUNT(limits), whole),
                    whole);
    json_t *cups = json_array();
    for (size_t i = 0; i < batch->cup_count; i++)
        runnel_json_append(cups, cup_object(plan, &batch->cups[i], whole), whole);
    runnel_json_put(object, "cups", cups, whole);
    return object;
}
