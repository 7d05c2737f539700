/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/write_upkeep.h"
#include "write/care.h"
#include "write/json_finish.h"

static json_t *date_string(runnel_date date) {
    char text[RUNNEL_DATE_SIZE];
    return date.year ? runnel_json_string(runnel_date_text(date, text, sizeof text)) : json_null();
}

static void put_text(json_t *object, const char *key, const char *text, bool *whole) {
    runnel_json_put(object, key, runnel_json_string(text), whole);
}

static void put_number(json_t *object, const char *key, double value, bool *whole) {
    runnel_json_put(object, key, runnel_json_number(value), whole);
}

/* ---- How it lives ---------------------------------------------------------------------------- */

static json_t *taken_array(const runnel_upkeeping *upkeeping, bool *whole) {
    static const struct {
        unsigned bit;
        const char *key;
    } keys[] = {{RUNNEL_TAKEN_KEEP_OIL, "oil"},
                {RUNNEL_TAKEN_USE, "use"},
                {RUNNEL_TAKEN_WASHING, "washing"},
                {RUNNEL_TAKEN_PORES, "wood"}};
    json_t *array = json_array();
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        if (upkeeping->taken & keys[i].bit)
            runnel_json_append(array, runnel_json_string(keys[i].key), whole);
    return array;
}

static json_t *upkeep_object(const runnel_upkeeping *upkeeping, bool *whole) {
    static const double s_per_day = 86400;
    const runnel_oil *oil = upkeeping->oil;
    const runnel_upkeep_rule *rule = upkeeping->rule;
    json_t *object = json_object();
    put_text(object, "use", runnel_use_text(upkeeping->use), whole);
    put_text(object, "washing", runnel_washing_text(upkeeping->washing), whole);
    put_text(object, "water", upkeeping->water ? runnel_water_text(upkeeping->water) : NULL, whole);
    runnel_json_put(object, "delivered", date_string(upkeeping->delivered), whole);
    runnel_json_put(object, "oiled", date_string(upkeeping->oiled), whole);
    put_text(object, "finish", runnel_upkeep_finish_text(rule->finish), whole);
    put_text(object, "oil", oil ? oil->name : NULL, whole);
    runnel_json_put(object, "dries", oil ? json_boolean(oil->dries) : json_null(), whole);
    runnel_json_put(object, "nut", oil ? json_boolean(oil->nut) : json_null(), whole);
    runnel_json_put(object, "soak_min", oil ? runnel_json_number(oil->soak_s / 60) : json_null(),
                    whole);
    runnel_json_put(
        object, "cure_days",
        oil && oil->dries ? runnel_json_number(oil->full_cure_s / s_per_day) : json_null(), whole);
    put_text(object, "rule", rule->name, whole);
    put_text(object, "source", rule->source, whole);
    put_text(object, "sure", rule->sure, whole);
    runnel_json_put(object, "taken", taken_array(upkeeping, whole), whole);
    return object;
}

/* ---- Pieces ---------------------------------------------------------------------------------- */

static const runnel_json_figure part_figures[] = {
    RUNNEL_JSON_PLAIN("face_mm2", runnel_upkeeping_part, face_mm2),
    RUNNEL_JSON_PLAIN("end_mm2", runnel_upkeeping_part, end_mm2),
    RUNNEL_JSON_ML("coat_ml", runnel_upkeeping_part, upkeep.coat_mm3),
    RUNNEL_JSON_ML("anew_ml", runnel_upkeeping_part, upkeep.anew_mm3),
    RUNNEL_JSON_ML("first_year_ml", runnel_upkeeping_part, upkeep.first_year_mm3),
    RUNNEL_JSON_ML("year_ml", runnel_upkeeping_part, upkeep.year_mm3)};

static json_t *task_object(const runnel_upkeep_task *task, bool *whole) {
    json_t *object = json_object();
    put_text(object, "what", runnel_care_kind(task->kind), whole);
    put_text(object, "stage", task->code, whole);
    runnel_json_put(object, "first", date_string(task->first), whole);
    runnel_json_put(object, "every_days", json_integer(task->every_days), whole);
    runnel_json_put(object, "count",
                    task->count ? json_integer((json_int_t)task->count) : json_null(), whole);
    put_number(object, "amount_ml", task->amount_mm3 / 1000, whole);
    return object;
}

static json_t *dates_array(const runnel_upkeeping *upkeeping, const runnel_upkeep *upkeep,
                           bool *whole) {
    runnel_upkeep_walk walk = {{0}};
    runnel_date date, start = upkeeping->oiled.year ? upkeeping->oiled : upkeeping->delivered;
    size_t index;
    json_t *array = json_array();
    while (runnel_upkeep_next(upkeep, &walk, &index, &date) &&
           runnel_date_days_between(start, date) < RUNNEL_UPKEEP_LISTED_DAYS) {
        const runnel_upkeep_task *task = &upkeep->tasks[index];
        json_t *object = json_object();
        runnel_json_put(object, "date", date_string(date), whole);
        put_text(object, "what", runnel_care_kind(task->kind), whole);
        put_text(object, "stage", task->code, whole);
        put_number(object, "amount_ml", task->amount_mm3 / 1000, whole);
        runnel_json_append(array, object, whole);
    }
    return array;
}

static json_t *part_object(const runnel_upkeeping *upkeeping, const runnel_upkeeping_part *part,
                           bool *whole) {
    const runnel_upkeep *upkeep = &part->upkeep;
    json_t *object = json_object(), *tasks = json_array();
    put_text(object, "piece", part->piece, whole);
    runnel_json_put(object, "count", json_integer((json_int_t)part->count), whole);
    runnel_json_put(object, "open_pored",
                    part->wood_is_known ? json_boolean(part->open_pored) : json_null(), whole);
    RUNNEL_JSON_FIGURES(object, part, part_figures, whole);
    runnel_json_put(object, "steady_days", json_integer(upkeep->steady_days), whole);
    runnel_json_put(object, "beads_days", json_integer(upkeep->beads_days), whole);
    runnel_json_put(object, "soaks_in_days", json_integer(upkeep->soaks_in_days), whole);
    for (size_t i = 0; i < upkeep->task_count; i++)
        runnel_json_append(tasks, task_object(&upkeep->tasks[i], whole), whole);
    runnel_json_put(object, "tasks", tasks, whole);
    runnel_json_put(object, "dates", dates_array(upkeeping, upkeep, whole), whole);
    return object;
}

/* What the document is made of. */
typedef struct kept_job {
    const runnel_job *job;
    const runnel_upkeeping *upkeeping;
} kept_job;

static json_t *document(const void *from, bool *whole) {
    const kept_job *kept = from;
    const runnel_upkeeping *upkeeping = kept->upkeeping;
    json_t *root = json_object(), *pieces = json_array();
    runnel_json_put_job(root, kept->job, whole);
    runnel_json_put(root, "upkeep", upkeep_object(upkeeping, whole), whole);
    for (size_t i = 0; i < upkeeping->part_count; i++)
        runnel_json_append(pieces, part_object(upkeeping, &upkeeping->parts[i], whole), whole);
    runnel_json_put(root, "pieces", pieces, whole);
    runnel_json_put_cautions(root, upkeeping->steps, upkeeping->cases, whole);
    runnel_json_put_warnings(root, &upkeeping->oiling.plan, whole);
    return root;
}

runnel_status runnel_write_upkeep_json(const runnel_job *job, const runnel_upkeeping *upkeeping,
                                       FILE *out) {
    return runnel_json_write(document, &(kept_job){job, upkeeping}, out);
}
