/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/write_finish.h"
#include "write/json_finish.h"

#include <math.h>

#define LINE(key, member)    RUNNEL_JSON_PLAIN(key, runnel_stock_line, member)
#define LINE_ML(key, member) RUNNEL_JSON_ML(key, runnel_stock_line, member)

static const runnel_json_figure line_figures[] = {
    LINE("need_g", need_g),         LINE_ML("need_ml", need_mm3), LINE("there_g", there_g),
    LINE_ML("there_ml", there_mm3), LINE("short_g", short_g),     LINE_ML("short_ml", short_mm3),
    LINE("left_g", left_g),         LINE_ML("left_ml", left_mm3), LINE("share", share),
    LINE("used_cost", used_cost),   LINE("buy_cost", buy_cost)};

static const runnel_json_figure cost_figures[] = {
    RUNNEL_JSON_PLAIN("used", runnel_stock_cost, used),
    RUNNEL_JSON_PLAIN("used_per_piece", runnel_stock_cost, used_per_piece),
    RUNNEL_JSON_PLAIN("buy", runnel_stock_cost, buy)};

static void put_text(json_t *object, const char *key, const char *text, bool *whole) {
    runnel_json_put(object, key, runnel_json_string(text), whole);
}

static void put_count(json_t *object, const char *key, size_t count, bool *whole) {
    runnel_json_put(object, key, json_integer((json_int_t)count), whole);
}

static json_t *line_object(const runnel_stocking *stocking, const runnel_stock_line *line,
                           bool *whole) {
    const runnel_stock_need *need = &stocking->needs.items[line->need];
    json_t *object = json_object();
    put_text(object, "what", need->what, whole);
    put_text(object, "part", need->part, whole);
    put_count(object, "bottles", line->bottles, whole);
    put_count(object, "uncountable", line->uncountable, whole);
    RUNNEL_JSON_FIGURES(object, line, line_figures, whole);
    runnel_json_put(object, "is_enough", json_boolean(line->is_enough), whole);
    put_count(object, "packs", line->packs, whole);
    if (line->buy == RUNNEL_STOCK_NONE) {
        runnel_json_put(object, "pack_g", json_null(), whole);
        runnel_json_put(object, "pack_ml", json_null(), whole);
    } else {
        const runnel_stock_item *item = &stocking->stock->items[line->buy];
        runnel_json_put(object, "pack_g", runnel_json_number(item->pack_g), whole);
        runnel_json_put(object, "pack_ml", runnel_json_number(item->pack_mm3 / 1000), whole);
    }
    put_text(object, "currency", line->currency, whole);
    return object;
}

static json_t *bottle_object(const runnel_stocking *stocking, size_t index, bool *whole) {
    const runnel_stock_item *item = &stocking->stock->items[index];
    const bool grams = !isnan(item->amount_g);
    const double left = stocking->answer.left[index];
    json_t *object = json_object();
    put_text(object, "what", item->what, whole);
    put_text(object, "part", item->part, whole);
    put_text(object, "opened", item->opened, whole);
    runnel_json_put(object, "before_g", runnel_json_number(item->amount_g), whole);
    runnel_json_put(object, "before_ml", runnel_json_number(item->amount_mm3 / 1000), whole);
    runnel_json_put(object, "after_g", runnel_json_number(grams ? left : NAN), whole);
    runnel_json_put(object, "after_ml", runnel_json_number(grams ? NAN : left / 1000), whole);
    return object;
}

static json_t *cost_object(const runnel_stock_cost *cost, bool *whole) {
    json_t *object = json_object();
    put_text(object, "currency", cost->currency, whole);
    RUNNEL_JSON_FIGURES(object, cost, cost_figures, whole);
    return object;
}

/* What the document is made of. */
typedef struct stocked_job {
    const runnel_job *job;
    const runnel_stocking *stocking;
    bool taken_out;
} stocked_job;

static json_t *document(const void *from, bool *whole) {
    const stocked_job *of = from;
    const runnel_stocking *stocking = of->stocking;
    const runnel_stock_answer *answer = &stocking->answer;
    const char limiting[] = {stocking->largest_limiting, '\0'};
    json_t *root = json_object(), *lines = json_array(), *costs = json_array();
    json_t *bottles = json_array();
    for (size_t i = 0; i < answer->count; i++)
        runnel_json_append(lines, line_object(stocking, &answer->lines[i], whole), whole);
    for (size_t i = 0; i < answer->cost_count; i++)
        runnel_json_append(costs, cost_object(&answer->costs[i], whole), whole);
    for (size_t i = 0; i < stocking->stock->count; i++)
        runnel_json_append(bottles, bottle_object(stocking, i, whole), whole);
    runnel_json_put_job(root, of->job, whole);
    runnel_json_put(root, "is_enough", json_boolean(answer->is_enough), whole);
    runnel_json_put(root, "times", runnel_json_number(answer->times), whole);
    put_count(root, "pieces", stocking->pieces, whole);
    runnel_json_put(root, "largest_batch_g", runnel_json_number(stocking->largest_g), whole);
    put_text(root, "runs_out_first", stocking->largest_limiting ? limiting : NULL, whole);
    runnel_json_put(root, "lines", lines, whole);
    runnel_json_put(root, "costs", costs, whole);
    put_count(root, "unpriced", answer->unpriced, whole);
    runnel_json_put(root, "bottles", bottles, whole);
    runnel_json_put(root, "taken_out", json_boolean(of->taken_out), whole);
    runnel_json_put_warnings(root, &stocking->plan, whole);
    return root;
}

runnel_status runnel_write_stock_json(const runnel_job *job, const runnel_stocking *stocking,
                                      bool taken_out, FILE *out) {
    return runnel_json_write(document, &(stocked_job){job, stocking, taken_out}, out);
}
