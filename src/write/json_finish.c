/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/json_finish.h"

#include "runnel/cautions.h"

static void put_text(json_t *object, const char *key, const char *text, bool *whole) {
    runnel_json_put(object, key, runnel_json_string(text), whole);
}

void runnel_json_put_job(json_t *object, const runnel_job *job, bool *whole) {
    put_text(object, "job", job->name, whole);
    put_text(object, "file", job->file, whole);
}

void runnel_json_put_warnings(json_t *object, const runnel_plan *plan, bool *whole) {
    json_t *array = json_array();
    for (size_t i = 0; i < plan->warning_count; i++) {
        json_t *item = json_object();
        put_text(item, "code", plan->warnings[i].code, whole);
        put_text(item, "text", plan->warnings[i].text, whole);
        put_text(item, "where", plan->warnings[i].where, whole);
        runnel_json_append(array, item, whole);
    }
    runnel_json_put(object, "warnings", array, whole);
}

void runnel_json_put_order(json_t *object, const runnel_order *order,
                           const runnel_order_faults *faults, bool *whole) {
    json_t *steps = json_array(), *array = json_array();
    for (size_t i = 0; i < order->count; i++)
        runnel_json_append(steps, runnel_json_string(runnel_step_text(order->steps[i])), whole);
    for (size_t i = 0; i < faults->count; i++) {
        const runnel_order_fault *fault = &faults->items[i];
        json_t *item = json_object();
        put_text(item, "code", fault->code, whole);
        put_text(item, "earlier", runnel_step_text(order->steps[fault->earlier]), whole);
        put_text(item, "later", runnel_step_text(order->steps[fault->later]), whole);
        runnel_json_put(item, "is_wrong", json_boolean(fault->is_wrong), whole);
        put_text(item, "text", fault->text, whole);
        runnel_json_append(array, item, whole);
    }
    runnel_json_put(object, "order", steps, whole);
    runnel_json_put(object, "faults", array, whole);
}

void runnel_json_put_cautions(json_t *object, unsigned steps, unsigned cases, bool *whole) {
    json_t *array = json_array();
    for (const runnel_caution *c = runnel_caution_next(NULL, steps, cases); c;
         c = runnel_caution_next(c, steps, cases)) {
        json_t *item = json_object();
        put_text(item, "code", c->code, whole);
        put_text(item, "text", c->text, whole);
        put_text(item, "source", c->source, whole);
        put_text(item, "ask", c->ask, whole);
        runnel_json_append(array, item, whole);
    }
    runnel_json_put(object, "cautions", array, whole);
}
