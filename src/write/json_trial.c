/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/json_figures.h"
#include "write/trial.h"

static const runnel_json_figure figures[] = {
    RUNNEL_JSON_PLAIN("width_error_mm", runnel_trial_report, errors.width_mm),
    RUNNEL_JSON_PLAIN("depth_error_mm", runnel_trial_report, errors.depth_mm),
    RUNNEL_JSON_PLAIN("angle_deg", runnel_trial_report, trial.angle_deg),
    RUNNEL_JSON_PLAIN("angle_error_deg", runnel_trial_report, trial.angle_error_deg),
    RUNNEL_JSON_PLAIN("tip_mm", runnel_trial_report, trial.tip_mm),
    RUNNEL_JSON_PLAIN("tip_error_mm", runnel_trial_report, trial.tip_error_mm)};

static const runnel_json_figure groove_figures[] = {
    RUNNEL_JSON_PLAIN("width_mm", runnel_trial_cut, width_mm),
    RUNNEL_JSON_PLAIN("depth_mm", runnel_trial_cut, depth_mm)};

static json_t *document(const void *from, bool *whole) {
    const runnel_trial_report *report = from;
    const runnel_trial *trial = &report->trial;
    char cutter[RUNNEL_TRIAL_CUTTER_SIZE];
    json_t *root = json_object(), *grooves = json_array();
    for (size_t i = 0; i < report->cut_count; i++) {
        json_t *groove = json_object();
        RUNNEL_JSON_FIGURES(groove, &report->cuts[i], groove_figures, whole);
        runnel_json_append(grooves, groove, whole);
    }
    runnel_json_put(root, "grooves", grooves, whole);
    RUNNEL_JSON_FIGURES(root, report, figures, whole);
    runnel_json_put(root, "is_sharp", json_boolean(trial->is_sharp), whole);
    runnel_json_put(root, "unusual_angle", json_boolean(trial->unusual_angle), whole);
    runnel_json_put(root, "unusual_tip", json_boolean(trial->unusual_tip), whole);
    runnel_json_put(root, "cutter", runnel_json_string(runnel_trial_cutter(trial, cutter)), whole);
    if (!(report->sold_as_deg > 0))
        return root;
    runnel_json_put(root, "sold_as_deg", runnel_json_number(report->sold_as_deg), whole);
    runnel_json_put(root, "between_walls_percent",
                    runnel_json_number(100 * runnel_trial_between_walls(report)), whole);
    runnel_json_put(root, "at_depth_percent",
                    runnel_json_number(100 * runnel_trial_at_depth(report)), whole);
    return root;
}

runnel_status runnel_write_trial_json(const runnel_trial_report *report, FILE *out) {
    return runnel_json_write(document, report, out);
}
