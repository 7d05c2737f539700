/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/write_cure.h"
#include "write/json_figures.h"

#include <math.h>

#define PLAIN(key, member) RUNNEL_JSON_PLAIN(key, runnel_cure_report, member)
#define HOURS(key, member) RUNNEL_JSON_HOURS(key, runnel_cure_report, member)

static const runnel_json_figure figures[] = {PLAIN("stated_degc", law.stated_degc),
                                             PLAIN("lowest_degc", law.lowest_degc),
                                             PLAIN("coldest_degc", cure.coldest_degc),
                                             PLAIN("warmest_degc", cure.warmest_degc),
                                             PLAIN("rise_to_gel_k", cure.rise_to_gel_k),
                                             PLAIN("needed_degc", cure.needed_degc),
                                             HOURS("age_h", cure.age_s),
                                             HOURS("stood_h", cure.all_stood_s)};

static const runnel_json_figure damp_figures[] = {
    RUNNEL_JSON_PERCENT("humidity_percent", runnel_cure_report, humidity),
    RUNNEL_JSON_PERCENT("most_humidity_percent", runnel_cure_report, most_humidity),
    PLAIN("air_degc", air_degc),
    PLAIN("board_degc", board_degc),
    PLAIN("dew_degc", damp.dew_degc),
    PLAIN("gap_k", damp.gap_k),
    PLAIN("least_board_degc", damp.least_board_degc),
    PLAIN("moisture_percent", damp.moisture_percent)};

#define HEAT(key, member)       RUNNEL_JSON_PLAIN(key, runnel_heating, member)
#define MINUTES_OF(key, member) RUNNEL_JSON_MINUTES(key, runnel_heating, member)

static const runnel_json_figure cup_figures[] = {
    HEAT("mass_g", of.mass_g),           HEAT("diameter_mm", of.diameter_mm),
    MINUTES_OF("until_min", of.until_s), HEAT("cup_degc", cup_degc),
    HEAT("peak_degc", cup.peak_degc),    MINUTES_OF("peak_min", cup.peak_s),
    MINUTES_OF("gel_min", cup.gel_s),    HEAT("largest_g", largest_g),
    HEAT("peak_low_degc", cup_low_degc), HEAT("peak_high_degc", cup_high_degc)};

static const runnel_json_figure layer_figures[] = {
    HEAT("depth_mm", of.layer_mm),         HEAT("wood_mm", of.wood_mm),
    HEAT("peak_degc", layer.peak_degc),    MINUTES_OF("peak_min", layer.peak_s),
    MINUTES_OF("gel_min", layer.gel_s),    HEAT("thickest_mm", thickest_mm),
    HEAT("peak_low_degc", layer_low_degc), HEAT("peak_high_degc", layer_high_degc)};

static const runnel_json_figure heat_figures[] = {
    HEAT("degc", of.degc),
    HEAT("limit_degc", of.limit_degc),
    HEAT("reaction_j_per_g", reaction_j_per_g),
    HEAT("reaction_low_j_per_g", reaction_low_j_per_g),
    HEAT("reaction_high_j_per_g", reaction_high_j_per_g),
    MINUTES_OF("law_gel_min", law.gel_s),
    MINUTES_OF("law_pot_life_min", law.pot_life_s)};

static json_t *moment(const runnel_cure_report *report, runnel_cure_moment which, bool *whole) {
    const runnel_cure *cure = &report->cure;
    double reached_s = cure->reached_s[which];
    json_t *object = json_object();
    runnel_json_put(object, "name", runnel_json_string(runnel_cure_moment_name(which)), whole);
    runnel_json_put(object, "stated_h",
                    runnel_json_number(runnel_cure_stated(&report->job->resin, which) / 3600),
                    whole);
    runnel_json_put(object, "reached_h", runnel_json_number(reached_s / 3600), whole);
    runnel_json_put(object, "is_reached", json_boolean(isfinite(reached_s)), whole);
    runnel_json_put(object, "stood_h", runnel_json_number(cure->stood_s[which] / 3600), whole);
    if (report->over != RUNNEL_CURE_OVER_LOG)
        return object;
    char text[RUNNEL_STAMP_SIZE];
    runnel_stamp when = report->poured;
    when.seconds += reached_s;
    runnel_json_put(object, "when",
                    isfinite(reached_s) ? runnel_json_string(runnel_stamp_text(&when, text))
                                        : json_null(),
                    whole);
    return object;
}

static json_t *log_of(const runnel_cure_report *report, bool *whole) {
    if (report->over != RUNNEL_CURE_OVER_LOG)
        return json_null();
    json_t *object = json_object();
    const struct {
        const char *key;
        double value;
    } rows[] = {
        {"readings", (double)report->log_count}, {"hours", report->log_s / 3600},
        {"gaps", (double)report->gap_count},     {"longest_gap_h", report->longest_gap_s / 3600},
        {"repeated", (double)report->repeated},  {"empty", (double)report->empty}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        runnel_json_put(object, rows[i].key, runnel_json_number(rows[i].value), whole);
    return object;
}

static json_t *damp_of(const runnel_cure_report *report, bool *whole) {
    if (!report->has_damp)
        return json_null();
    json_t *object = json_object();
    RUNNEL_JSON_FIGURES(object, report, damp_figures, whole);
    runnel_json_put(object, "is_near_dew", json_boolean(report->damp.is_near_dew), whole);
    runnel_json_put(object, "is_humid", json_boolean(report->damp.is_humid), whole);
    return object;
}

static json_t *cup_object(const runnel_heating *heat, bool *whole) {
    if (!heat->has_cup)
        return json_null();
    json_t *object = json_object();
    RUNNEL_JSON_FIGURES(object, heat, cup_figures, whole);
    runnel_json_put(object, "is_too_large", json_boolean(heat->is_too_large), whole);
    return object;
}

static json_t *layer_object(const runnel_heating *heat, bool *whole) {
    if (!heat->has_layer)
        return json_null();
    json_t *object = json_object();
    RUNNEL_JSON_FIGURES(object, heat, layer_figures, whole);
    runnel_json_put(object, "is_too_thick", json_boolean(heat->is_too_thick), whole);
    return object;
}

static json_t *heat_object(const runnel_heating *heat, bool *whole) {
    json_t *object = json_object();
    if (!heat->has_cup && !heat->has_layer) {
        json_decref(object);
        return json_null();
    }
    RUNNEL_JSON_FIGURES(object, heat, heat_figures, whole);
    runnel_json_put(object, "law_fits", json_boolean(heat->law.fits), whole);
    runnel_json_put(object, "contradicts_sheet", json_boolean(heat->contradicts_sheet), whole);
    runnel_json_put(object, "cup", cup_object(heat, whole), whole);
    runnel_json_put(object, "layer", layer_object(heat, whole), whole);
    return object;
}

static json_t *document(const void *from, bool *whole) {
    static const char *const overs[] = {[RUNNEL_CURE_OVER_CONSTANT] = "constant",
                                        [RUNNEL_CURE_OVER_SWING] = "swing",
                                        [RUNNEL_CURE_OVER_LOG] = "log"};
    const runnel_cure_report *report = from;
    bool doubles = report->law.rule == RUNNEL_CURE_DOUBLING;
    json_t *root = json_object(), *moments = json_array();
    runnel_json_put(root, "resin", runnel_json_string(report->job->resin.name), whole);
    runnel_json_put(root, "is_possible", json_boolean(report->is_possible), whole);
    runnel_json_put(root, "over", runnel_json_string(overs[report->over]), whole);
    runnel_json_put(root, "rule", runnel_json_string(doubles ? "doubling" : "activation energy"),
                    whole);
    runnel_json_put(root, "activation_kj_per_mol",
                    runnel_json_number(doubles ? NAN : report->law.activation_kj_per_mol), whole);
    runnel_json_put(root, "energy_is_usual", json_boolean(report->law.energy_is_usual && !doubles),
                    whole);
    runnel_json_put(root, "pot_mass_g", runnel_json_number(report->job->resin.pot_mass_g), whole);
    RUNNEL_JSON_FIGURES(root, report, figures, whole);
    for (unsigned i = 0; i < RUNNEL_CURE_MOMENTS; i++)
        runnel_json_append(moments, moment(report, (runnel_cure_moment)i, whole), whole);
    runnel_json_put(root, "moments", moments, whole);
    runnel_json_put(root, "log", log_of(report, whole), whole);
    runnel_json_put(root, "damp", damp_of(report, whole), whole);
    runnel_json_put(root, "heat", heat_object(&report->heating, whole), whole);
    return root;
}

runnel_status runnel_write_cure_json(const runnel_cure_report *report, FILE *out) {
    return runnel_json_write(document, report, out);
}
