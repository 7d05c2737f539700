/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/write_finish.h"
#include "write/json_batch.h"
#include "write/json_finish.h"
#include "write/json_timeline.h"
#include "write/sheet.h"

static const runnel_json_figure cavity_figures[] = {
    RUNNEL_JSON_ML("volume_ml", runnel_plan_cavity, figures.volume_mm3),
    RUNNEL_JSON_PLAIN("footprint_mm2", runnel_plan_cavity, figures.footprint_mm2),
    RUNNEL_JSON_PLAIN("wall_mm2", runnel_plan_cavity, figures.wall_mm2),
    RUNNEL_JSON_PLAIN("deepest_mm", runnel_plan_cavity, figures.deepest_mm)};

static json_t *cavity_object(const runnel_plan_cavity *cavity, bool *whole) {
    json_t *object = json_object();
    runnel_json_put(object, "name", runnel_json_string(cavity->name), whole);
    runnel_json_put(object, "piece", runnel_json_string(cavity->piece), whole);
    runnel_json_put(object, "colour", runnel_json_string(cavity->colour), whole);
    runnel_json_put(object, "count", json_integer((json_int_t)cavity->piece_count), whole);
    RUNNEL_JSON_FIGURES(object, cavity, cavity_figures, whole);
    return object;
}

static void put_resin(json_t *root, const runnel_plan *plan, bool *whole) {
    json_t *cavities = json_array(), *batches = json_array();
    for (size_t i = 0; i < plan->cavity_count; i++)
        runnel_json_append(cavities, cavity_object(&plan->cavities[i], whole), whole);
    for (size_t i = 0; i < plan->batch_count; i++)
        runnel_json_append(batches, runnel_json_batch(plan, &plan->batches[i], whole), whole);
    runnel_json_put(root, "cavities", cavities, whole);
    runnel_json_put(root, "batches", batches, whole);
}

/* What the document is made of. */
typedef struct sheet_job {
    const runnel_job *job;
    const runnel_sheet *sheet;
} sheet_job;

static json_t *coating_object(const runnel_coating *coating, bool *whole) {
    json_t *object = json_object();
    const double mm3_per_ml = 1000;
    runnel_json_put(object, "coats", runnel_json_number((double)coating->coats), whole);
    runnel_json_put(object, "area_mm2", runnel_json_number(coating->area_mm2), whole);
    runnel_json_put(object, "coat_ml", runnel_json_number(coating->coat_mm3 / mm3_per_ml), whole);
    runnel_json_put(object, "coats_ml", runnel_json_number(coating->all_mm3 / mm3_per_ml), whole);
    return object;
}

static json_t *needs_array(const runnel_needs *needs, bool *whole) {
    json_t *array = json_array();
    const double mm3_per_ml = 1000;
    for (size_t i = 0; i < needs->count; i++) {
        const runnel_stock_need *need = &needs->items[i];
        json_t *object = json_object();
        runnel_json_put(object, "what", runnel_json_string(need->what), whole);
        runnel_json_put(object, "part", need->part ? runnel_json_string(need->part) : json_null(),
                        whole);
        runnel_json_put(object, "mass_g", runnel_json_number(need->mass_g), whole);
        runnel_json_put(object, "volume_ml", runnel_json_number(need->volume_mm3 / mm3_per_ml),
                        whole);
        runnel_json_append(array, object, whole);
    }
    return array;
}

static json_t *document(const void *from, bool *whole) {
    const sheet_job *of = from;
    const runnel_sheet *sheet = of->sheet;
    unsigned steps, cases;
    json_t *root = json_object(), *level = json_object();
    json_t *seal = sheet->sealed ? json_object() : json_null();
    json_t *oil = sheet->oiled ? json_object() : json_null();
    if (sheet->sealed)
        runnel_json_put_sealing(seal, &sheet->sealing, whole);
    runnel_json_put_levelling(level, &sheet->levelling, whole);
    if (sheet->oiled)
        runnel_json_put_oiling(oil, &sheet->oiling, whole);
    runnel_json_put_job(root, of->job, whole);
    put_resin(root, &sheet->plan, whole);
    runnel_json_put(root, "seal", seal, whole);
    runnel_json_put(root, "level", level, whole);
    runnel_json_put(root, "oil", oil, whole);
    runnel_json_put(root, "coating",
                    sheet->coated ? coating_object(&sheet->coating, whole) : json_null(), whole);
    runnel_json_put(
        root, "timeline",
        sheet->timed ? runnel_json_timeline(of->job, &sheet->timings, whole) : json_null(), whole);
    runnel_json_put(root, "needs", needs_array(&sheet->needs, whole), whole);
    runnel_sheet_cautions(sheet, &steps, &cases);
    runnel_json_put_cautions(root, steps, cases, whole);
    runnel_json_put_warnings(root, &sheet->plan, whole);
    return root;
}

runnel_status runnel_write_sheet_json(const runnel_job *job, const runnel_sheet *sheet, FILE *out) {
    return runnel_json_write(document, &(sheet_job){job, sheet}, out);
}
