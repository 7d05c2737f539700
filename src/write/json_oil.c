/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/write_finish.h"
#include "write/json_finish.h"

#define PLAIN(key, member)   RUNNEL_JSON_PLAIN(key, runnel_oiling_plan, member)
#define ML(key, member)      RUNNEL_JSON_ML(key, runnel_oiling_plan, member)
#define MINUTES(key, member) RUNNEL_JSON_MINUTES(key, runnel_oiling_plan, member)
#define PERCENT(key, member) RUNNEL_JSON_PERCENT(key, runnel_oiling_plan, member)
#define PART(key, member)    RUNNEL_JSON_PLAIN(key, runnel_oiling_part, member)
#define PART_ML(key, member) RUNNEL_JSON_ML(key, runnel_oiling_part, member)

static const runnel_json_figure oil_figures[] = {
    {"uptake_ml_per_m2", offsetof(runnel_oiling_plan, oiling.uptake_mm), 1000, 1},
    PLAIN("end_grain_factor", oiling.end_factor),
    PERCENT("fall_percent", oiling.fall),
    PERCENT("waste_percent", oiling.waste)};

static const runnel_json_figure part_figures[] = {
    PART("face_mm2", area.face_mm2),     PART("end_mm2", area.end_mm2),
    PART("total_mm2", area.total_mm2),   PART("chamfer_mm2", area.chamfer_mm2),
    PART("recess_mm2", area.wall_mm2),   PART("resin_mm2", area.resin_mm2),
    PART_ML("juice_ml", area.juice_mm3), PART_ML("first_coat_ml", one.first_mm3),
    PART_ML("all_ml", one.all_mm3),      PART_ML("all_pieces_ml", all.all_mm3)};

static const runnel_json_figure total_figures[] = {
    PLAIN("face_mm2", face_mm2),        PLAIN("end_mm2", end_mm2),
    ML("first_coat_ml", all.first_mm3), ML("last_coat_ml", all.last_mm3),
    ML("all_ml", all.all_mm3),          ML("face_ml", all.face_mm3),
    ML("end_ml", all.end_mm3),          ML("waste_ml", all.waste_mm3)};

static const runnel_json_figure time_figures[] = {MINUTES("last_coat_min", times.last_coat_s),
                                                  MINUTES("wiped_min", times.wiped_s),
                                                  MINUTES("cured_min", times.cured_s)};

static const runnel_json_figure wax_figures[] = {
    PLAIN("oil_per_wax", blend.oil_per_wax), PLAIN("oil_g", melt.oil_g), ML("oil_ml", melt.oil_mm3),
    PLAIN("wax_g", melt.wax_g), PLAIN("total_g", melt.total_g)};

static json_t *taken_array(unsigned taken, bool *whole) {
    static const struct {
        runnel_oiling_taken bit;
        const char *key;
    } keys[] = {{RUNNEL_TAKEN_OIL, "kind"},
                {RUNNEL_TAKEN_UPTAKE, "uptake"},
                {RUNNEL_TAKEN_END_GRAIN, "end grain"},
                {RUNNEL_TAKEN_OIL_COATS, "coats"},
                {RUNNEL_TAKEN_WASTE, "waste"},
                {RUNNEL_TAKEN_OIL_ORDER, "order"}};
    json_t *array = json_array();
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        if (taken & keys[i].bit)
            runnel_json_append(array, runnel_json_string(keys[i].key), whole);
    return array;
}

static json_t *oil_object(const runnel_oiling_plan *oiling, bool *whole) {
    json_t *object = json_object();
    runnel_json_put(object, "kind", runnel_json_string(oiling->oil->name), whole);
    runnel_json_put(object, "dries", json_boolean(oiling->oil->dries), whole);
    runnel_json_put(object, "nut", json_boolean(oiling->oil->nut), whole);
    RUNNEL_JSON_FIGURES(object, oiling, oil_figures, whole);
    runnel_json_put(object, "coats", json_integer((json_int_t)oiling->oiling.coats), whole);
    runnel_json_put(object, "food", runnel_json_string(oiling->oil->food), whole);
    runnel_json_put(object, "source", runnel_json_string(oiling->oil->source), whole);
    runnel_json_put(object, "taken", taken_array(oiling->taken, whole), whole);
    return object;
}

static json_t *part_object(const runnel_oiling_part *part, bool *whole) {
    json_t *object = json_object();
    runnel_json_put(object, "piece", runnel_json_string(part->piece), whole);
    runnel_json_put(object, "count", json_integer((json_int_t)part->count), whole);
    RUNNEL_JSON_FIGURES(object, part, part_figures, whole);
    return object;
}

static json_t *total_object(const runnel_oiling_plan *oiling, bool *whole) {
    json_t *object = json_object(), *coats = json_array();
    RUNNEL_JSON_FIGURES(object, oiling, total_figures, whole);
    for (size_t i = 0; i < oiling->oiling.coats; i++)
        runnel_json_append(coats, runnel_json_number(oiling->coats_mm3[i] / 1000), whole);
    runnel_json_put(object, "coats_ml", coats, whole);
    return object;
}

static json_t *times_object(const runnel_oiling_plan *oiling, bool *whole) {
    json_t *object = json_object();
    runnel_json_put(object, "soak_min", runnel_json_number(oiling->oil->soak_s / 60), whole);
    runnel_json_put(object, "between_min", runnel_json_number(oiling->oil->between_s / 60), whole);
    if (oiling->times_known)
        RUNNEL_JSON_FIGURES(object, oiling, time_figures, whole);
    return object;
}

static json_t *wax_object(const runnel_oiling_plan *oiling, bool *whole) {
    if (!oiling->wax)
        return json_null();
    json_t *object = json_object();
    runnel_json_put(object, "kind", runnel_json_string(oiling->wax->name), whole);
    runnel_json_put(object, "coats", json_integer((json_int_t)oiling->wax_coats), whole);
    RUNNEL_JSON_FIGURES(object, oiling, wax_figures, whole);
    return object;
}

void runnel_json_put_oiling(json_t *root, const runnel_oiling_plan *oiling, bool *whole) {
    json_t *pieces = json_array();
    for (size_t i = 0; i < oiling->part_count; i++)
        runnel_json_append(pieces, part_object(&oiling->parts[i], whole), whole);
    runnel_json_put(root, "oil", oil_object(oiling, whole), whole);
    runnel_json_put(root, "pieces", pieces, whole);
    runnel_json_put(root, "total", total_object(oiling, whole), whole);
    runnel_json_put(root, "times", times_object(oiling, whole), whole);
    runnel_json_put(root, "wax", wax_object(oiling, whole), whole);
}

/* What the document is made of. */
typedef struct oiled_job {
    const runnel_job *job;
    const runnel_oiling_plan *oiling;
} oiled_job;

static json_t *document(const void *from, bool *whole) {
    const oiled_job *oiled = from;
    const runnel_oiling_plan *oiling = oiled->oiling;
    json_t *root = json_object();
    runnel_json_put_job(root, oiled->job, whole);
    runnel_json_put_oiling(root, oiling, whole);
    runnel_json_put_order(root, &oiling->order, &oiling->faults, whole);
    runnel_json_put_cautions(root, oiling->steps, oiling->cases, whole);
    runnel_json_put_warnings(root, &oiling->plan, whole);
    return root;
}

runnel_status runnel_write_oil_json(const runnel_job *job, const runnel_oiling_plan *oiling,
                                    FILE *out) {
    return runnel_json_write(document, &(oiled_job){job, oiling}, out);
}
