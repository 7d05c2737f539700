/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/write_finish.h"
#include "write/json_figures.h"

#include <math.h>

#define PLAIN(key, member)   RUNNEL_JSON_PLAIN(key, runnel_rescue, member)
#define PERCENT(key, member) RUNNEL_JSON_PERCENT(key, runnel_rescue, member)

static const runnel_json_figure figures[] = {
    PLAIN("part_a_g", part_a_g),
    PLAIN("part_b_g", part_b_g),
    PERCENT("ratio_error_percent", ratio_error),
    PLAIN("exact_g", exact_g),
    PLAIN("least_g", least_g),
    PLAIN("add_g", add_g),
    PLAIN("add_ml", add_ml),
    PLAIN("add_strokes", add_strokes),
    PERCENT("ratio_error_after_percent", ratio_error_after),
    PLAIN("total_g", total_g),
    PLAIN("total_ml", total_ml),
    PLAIN("over_wanted_g", over_wanted_g),
    PLAIN("serves_g", serves_g),
    PLAIN("excess_g", excess_g),
    PLAIN("right_g", right_g)};

typedef struct named_bit {
    unsigned bit;
    const char *name;
} named_bit;

static json_t *names_of(unsigned set, const named_bit *rows, size_t count, bool *whole) {
    json_t *array = json_array();
    for (size_t i = 0; i < count; i++)
        if (set & rows[i].bit)
            runnel_json_append(array, runnel_json_string(rows[i].name), whole);
    return array;
}

static json_t *document(const void *from, bool *whole) {
    static const char *const verdicts[] = {[RUNNEL_RESCUE_FINE] = "fine",
                                           [RUNNEL_RESCUE_ADD] = "add",
                                           [RUNNEL_RESCUE_NEARLY] = "nearly",
                                           [RUNNEL_RESCUE_NOT] = "not"};
    static const named_bit limits[] = {{RUNNEL_RESCUE_STOCK, "stock"},
                                       {RUNNEL_RESCUE_ROOM, "room"},
                                       {RUNNEL_RESCUE_MASS, "mass"},
                                       {RUNNEL_RESCUE_SCALE, "scale"}};
    static const named_bit warnings[] = {{RUNNEL_RESCUE_FEW_STROKES, "few-strokes"},
                                         {RUNNEL_RESCUE_METERED_TWICE, "metered-twice"}};
    const runnel_rescue_report *report = from;
    const runnel_rescue *rescue = &report->rescue;
    const char lacking[] = {rescue->lacking, '\0'};
    json_t *root = json_object();
    runnel_json_put(root, "resin", runnel_json_string(report->job->resin.name), whole);
    runnel_json_put(root, "tolerance_percent", runnel_json_number(100 * report->mix.tolerance),
                    whole);
    runnel_json_put(root, "verdict", runnel_json_string(verdicts[rescue->verdict]), whole);
    runnel_json_put(root, "lacking", runnel_json_string(rescue->lacking ? lacking : NULL), whole);
    RUNNEL_JSON_FIGURES(root, rescue, figures, whole);
    runnel_json_put(root, "limits", names_of(rescue->limits, limits, 4, whole), whole);
    runnel_json_put(root, "warnings", names_of(rescue->warnings, warnings, 2, whole), whole);
    return root;
}

runnel_status runnel_write_rescue_json(const runnel_rescue_report *report, FILE *out) {
    return runnel_json_write(document, report, out);
}
