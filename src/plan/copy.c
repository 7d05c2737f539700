/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/memory.h"
#include "plan/make.h"

#include <string.h>

/* Each of these takes something that still holds what belongs to another, and gives it copies of
 * its own, all of them, so that it can be cleared: NULL, and `whole` false, where memory was short.
 */

static char *text_of(const char *from, bool *whole) {
    char *text = runnel_copy_text(from);
    *whole = *whole && !from == !text;
    return text;
}

static void *items_of(const void *from, size_t count, size_t size, bool *whole) {
    if (!from || !count)
        return NULL;
    void *items = runnel_resize(NULL, count, size);
    if (items)
        memcpy(items, from, count * size);
    *whole = *whole && items;
    return items;
}

static void own_cavity(runnel_plan_cavity *cavity, bool *whole) {
    runnel_layers *layers = &cavity->layers;
    cavity->name = text_of(cavity->name, whole);
    cavity->piece = text_of(cavity->piece, whole);
    cavity->colour = text_of(cavity->colour, whole);
    cavity->font_file = text_of(cavity->font_file, whole);
    cavity->sections =
        items_of(cavity->sections, cavity->section_count, sizeof *cavity->sections, whole);
    layers->items = items_of(layers->items, layers->count, sizeof *layers->items, whole);
}

static void own_batch(runnel_plan_batch *batch, bool *whole) {
    batch->colour = text_of(batch->colour, whole);
    batch->cups = items_of(batch->cups, batch->cup_count, sizeof *batch->cups, whole);
    batch->cup_count = batch->cups ? batch->cup_count : 0;
    for (size_t i = 0; i < batch->cup_count; i++) {
        runnel_plan_cup *cup = &batch->cups[i];
        cup->fills = items_of(cup->fills, cup->fill_count, sizeof *cup->fills, whole);
        cup->fill_count = cup->fill_capacity = cup->fills ? cup->fill_count : 0;
    }
}

static void own_warning(runnel_warning *warning, bool *whole) {
    warning->code = text_of(warning->code, whole);
    warning->text = text_of(warning->text, whole);
    warning->where = text_of(warning->where, whole);
}

runnel_status runnel_plan_copy(const runnel_plan *from, runnel_plan *to) {
    runnel_plan made = *from;
    bool whole = true;
    made.cavities = items_of(from->cavities, from->cavity_count, sizeof *made.cavities, &whole);
    made.cavity_count = made.cavity_capacity = made.cavities ? from->cavity_count : 0;
    made.batches = items_of(from->batches, from->batch_count, sizeof *made.batches, &whole);
    made.batch_count = made.batch_capacity = made.batches ? from->batch_count : 0;
    made.bridges = items_of(from->bridges, from->bridge_count, sizeof *made.bridges, &whole);
    made.bridge_count = made.bridge_capacity = made.bridges ? from->bridge_count : 0;
    made.warnings = items_of(from->warnings, from->warning_count, sizeof *made.warnings, &whole);
    made.warning_count = made.warning_capacity = made.warnings ? from->warning_count : 0;
    for (size_t i = 0; i < made.cavity_count; i++)
        own_cavity(&made.cavities[i], &whole);
    for (size_t i = 0; i < made.batch_count; i++)
        own_batch(&made.batches[i], &whole);
    for (size_t i = 0; i < made.warning_count; i++)
        own_warning(&made.warnings[i], &whole);
    if (!whole) {
        runnel_plan_clear(&made);
        return RUNNEL_E_NO_MEMORY;
    }
    *to = made;
    return RUNNEL_OK;
}
