/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "read/yaml_walk.h"

#include "base/memory.h"
#include "base/slice.h"
#include "base/suggest.h"
#include "base/utf8.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- Places and problems --------------------------------------------------------------------- */

runnel_place runnel_yaml_place(const runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                               const runnel_yaml_node *node, char *path) {
    return (runnel_place){.file = walk->job->file,
                          .line = node->line,
                          .column = node->column,
                          .field = runnel_field_path(walk->job, spot, id, path, RUNNEL_PATH_SIZE)};
}

runnel_status runnel_yaml_tell(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                               const runnel_yaml_node *node, runnel_status status,
                               const char *format, ...) {
    char text[1200], path[RUNNEL_PATH_SIZE];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    runnel_place place = runnel_yaml_place(walk, spot, id, node, path);
    return runnel_problems_add(walk->problems, status, &place, "%s", text);
}

runnel_status runnel_yaml_need(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                               const runnel_yaml_node *node, runnel_yaml_kind kind) {
    static const char *const needs[] = {[RUNNEL_YAML_SCALAR] = "a single value",
                                        [RUNNEL_YAML_LIST] = "a list, each item after '- '",
                                        [RUNNEL_YAML_MAPPING] =
                                            "keys of its own, each on a line under it"};
    static const char *const has[] = {[RUNNEL_YAML_SCALAR] = "a single value",
                                      [RUNNEL_YAML_LIST] = "a list",
                                      [RUNNEL_YAML_MAPPING] = "keys and values"};
    const char *key = runnel_field_row(id)->key;
    if (node->kind == RUNNEL_YAML_SCALAR && node->empty)
        return runnel_yaml_tell(walk, spot, id, node, RUNNEL_E_MISSING,
                                "'%s' has no value; it needs %s", key, needs[kind]);
    if (node->kind != kind)
        return runnel_yaml_tell(walk, spot, id, node, RUNNEL_E_SYNTAX, "'%s' needs %s, not %s", key,
                                needs[kind], has[node->kind]);
    return RUNNEL_OK;
}

static bool is_control(uint32_t point) {
    return point < 0x20 || (point >= 0x7F && point < 0xA0) || point == 0x2028 || point == 0x2029;
}

/* The first control character of a text, 0 when there is none. */
static uint32_t control_in(const char *text, bool lines) {
    size_t bytes;
    for (; *text; text += bytes) {
        uint32_t point = runnel_utf8_next(text, &bytes);
        if (is_control(point) && !(lines && point == '\n'))
            return point;
    }
    return 0;
}

runnel_status runnel_yaml_value(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                const runnel_yaml_node *node, size_t most, const char **text) {
    const runnel_field *row = runnel_field_row(id);
    runnel_status status = runnel_yaml_need(walk, spot, id, node, RUNNEL_YAML_SCALAR);
    if (status)
        return status;
    const char *value = runnel_yaml_text(walk->tree, node);
    char shown[RUNNEL_SHOWN_SIZE];
    if (!node->length)
        return runnel_yaml_tell(walk, spot, id, node, RUNNEL_E_MISSING, "'%s' is empty", row->key);
    if (node->length > most)
        return runnel_yaml_tell(walk, spot, id, node, RUNNEL_E_RANGE,
                                "'%s' is too long: '%s' may have %zu bytes, not %zu",
                                runnel_slice_show(runnel_slice_of(value), shown), row->key, most,
                                node->length);
    uint32_t control = control_in(value, row->kind == RUNNEL_KIND_TEXT);
    if (control == '\n')
        return runnel_yaml_tell(walk, spot, id, node, RUNNEL_E_SYNTAX,
                                "'%s' must stand on one line", row->key);
    if (control)
        return runnel_yaml_tell(walk, spot, id, node, RUNNEL_E_SYNTAX,
                                "the control character U+%04X cannot stand in '%s'",
                                (unsigned)control, row->key);
    *text = value;
    return RUNNEL_OK;
}

/* ---- Notes ----------------------------------------------------------------------------------- */

void runnel_yaml_note_down(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                           const runnel_yaml_node *node, bool refused) {
    runnel_status status = runnel_reserve(&walk->notes, &walk->note_capacity, walk->note_count + 1,
                                          sizeof *walk->notes);
    if (status) {
        walk->stopped = status;
        return;
    }
    walk->notes[walk->note_count++] =
        (runnel_yaml_note){spot, id, (size_t)(node - walk->tree->nodes), refused};
}

static int by_field(const void *one, const void *other) {
    const runnel_yaml_note *a = one, *b = other;
    if (a->spot.first != b->spot.first)
        return a->spot.first < b->spot.first ? -1 : 1;
    if (a->spot.second != b->spot.second)
        return a->spot.second < b->spot.second ? -1 : 1;
    return (a->id > b->id) - (a->id < b->id);
}

void runnel_yaml_sort_notes(runnel_yaml_walk *walk) {
    if (walk->note_count)
        qsort(walk->notes, walk->note_count, sizeof *walk->notes, by_field);
}

bool runnel_yaml_told(const void *state, runnel_spot spot, runnel_field_id id, runnel_told *told) {
    const runnel_yaml_walk *walk = state;
    const runnel_yaml_node *node = &walk->tree->nodes[walk->tree->root];
    *told = (runnel_told){.line = node->line, .column = node->column};
    if (id == RUNNEL_FIELD_COUNT_OF)
        return true;
    const runnel_yaml_note sought = {.spot = spot, .id = id};
    const runnel_yaml_note *note =
        walk->note_count
            ? bsearch(&sought, walk->notes, walk->note_count, sizeof *walk->notes, by_field)
            : NULL;
    if (!note)
        return false;
    node = &walk->tree->nodes[note->node];
    *told =
        (runnel_told){node->line, node->column,
                      node->kind == RUNNEL_YAML_SCALAR ? runnel_yaml_text(walk->tree, node) : NULL,
                      note->refused};
    return true;
}

/* ---- Mappings -------------------------------------------------------------------------------- */

/* Whether the walk has gone on for too long; then it is told and stopped. */
static bool is_over(runnel_yaml_walk *walk, const runnel_yaml_node *node) {
    runnel_place place = {.file = walk->job->file, .line = node->line, .column = node->column};
    if (++walk->steps > RUNNEL_YAML_NODES)
        walk->stopped = runnel_problems_add(walk->problems, RUNNEL_E_RANGE, &place,
                                            "with all references ('*name') followed, the file "
                                            "holds more than %d values",
                                            RUNNEL_YAML_NODES);
    else if (walk->problems->count - walk->first_problem >= RUNNEL_YAML_PROBLEMS)
        walk->stopped = runnel_problems_add(walk->problems, RUNNEL_E_RANGE, &place,
                                            "%d problems were found; the rest of the file was not "
                                            "looked at",
                                            RUNNEL_YAML_PROBLEMS);
    return walk->stopped != RUNNEL_OK;
}

const runnel_yaml_node *runnel_yaml_next(runnel_yaml_walk *walk, size_t *link) {
    if (walk->stopped || *link == RUNNEL_YAML_END)
        return NULL;
    const runnel_yaml_node *node = &walk->tree->nodes[walk->tree->links[*link].node];
    *link = walk->tree->links[*link].next;
    return is_over(walk, node) ? NULL : node;
}

static bool is_gap(char byte) {
    return byte == ' ' || byte == '-' || byte == '_';
}

/* Whether a written key is a known one; blanks, hyphens and underscores are the same. */
static bool is_key(const char *written, const char *known) {
    for (; *written && *known; written++, known++) {
        if (is_gap(*written) && is_gap(*known)) {
            while (is_gap(written[1]))
                written++;
        } else if (*written != *known) {
            return false;
        }
    }
    return !*written && !*known;
}

static runnel_field_id find_key(runnel_scope scope, const char *written) {
    int id = 0;
    while (id < RUNNEL_FIELD_COUNT_OF &&
           (runnel_field_row((runnel_field_id)id)->scope != scope ||
            !is_key(written, runnel_field_row((runnel_field_id)id)->key)))
        id++;
    return (runnel_field_id)id;
}

/* The keys of a scope with commas between, for a message. */
static size_t list_keys(runnel_scope scope, const char **keys, char *list, size_t size) {
    size_t count = 0, used = 0;
    list[0] = '\0';
    for (int i = 0; i < RUNNEL_FIELD_COUNT_OF; i++) {
        const runnel_field *row = runnel_field_row((runnel_field_id)i);
        if (row->scope != scope)
            continue;
        keys[count++] = row->key;
        int added = snprintf(list + used, size - used, used ? ", %s" : "%s", row->key);
        if (added > 0 && (size_t)added < size - used)
            used += (size_t)added;
    }
    return count;
}

static void tell_unknown(runnel_yaml_walk *walk, runnel_scope scope, const char *key,
                         const runnel_place *place) {
    const char *keys[RUNNEL_FIELD_COUNT_OF];
    char list[800], shown[RUNNEL_SHOWN_SIZE];
    size_t count = list_keys(scope, keys, list, sizeof list);
    const char *nearest = runnel_nearest(key, keys, count);
    runnel_slice_show(runnel_slice_of(key), shown);
    const char *in = runnel_scope_text(scope);
    for (int other = 0; !nearest && other < RUNNEL_SCOPE_COUNT; other++) {
        if (find_key((runnel_scope)other, key) == RUNNEL_FIELD_COUNT_OF)
            continue;
        runnel_problems_add(walk->problems, RUNNEL_E_UNKNOWN, place,
                            "'%s' is a key of %s, not of %s", shown,
                            runnel_scope_text((runnel_scope)other), in);
        return;
    }
    if (nearest)
        runnel_problems_add(walk->problems, RUNNEL_E_UNKNOWN, place,
                            "'%s' is no key of %s; the nearest is '%s'", shown, in, nearest);
    else
        runnel_problems_add(walk->problems, RUNNEL_E_UNKNOWN, place,
                            "'%s' is no key of %s; it may have: %s", shown, in, list);
}

/* The values of a mapping by their fields. */
typedef struct slots {
    const runnel_yaml_node *keys[RUNNEL_FIELD_COUNT_OF];
    const runnel_yaml_node *values[RUNNEL_FIELD_COUNT_OF];
} slots;

static void take_pair(runnel_yaml_walk *walk, runnel_scope scope, runnel_spot spot,
                      const runnel_yaml_node *key, const runnel_yaml_node *value, slots *found) {
    char path[RUNNEL_PATH_SIZE], shown[RUNNEL_SHOWN_SIZE] = "";
    bool plain = key->kind == RUNNEL_YAML_SCALAR && key->length;
    const char *text = plain ? runnel_yaml_text(walk->tree, key) : "";
    runnel_slice_show(runnel_slice_of(text), shown);
    runnel_place place = {.file = walk->job->file,
                          .line = key->line,
                          .column = key->column,
                          .field =
                              runnel_scope_path(walk->job, spot, scope, shown, path, sizeof path)};
    runnel_field_id id = find_key(scope, text);
    if (!plain) {
        place.field = NULL;
        runnel_problems_add(walk->problems, RUNNEL_E_SYNTAX, &place,
                            "a key of %s must be a word or two", runnel_scope_text(scope));
    } else if (id == RUNNEL_FIELD_COUNT_OF) {
        tell_unknown(walk, scope, text, &place);
    } else if (found->values[id]) {
        runnel_problems_add(walk->problems, RUNNEL_E_CONFLICT, &place,
                            "'%s' is given twice; it stands on line %zu already", shown,
                            found->keys[id]->line);
    } else {
        found->keys[id] = key;
        found->values[id] = value;
    }
}

void runnel_yaml_mapping(runnel_yaml_walk *walk, runnel_scope scope, runnel_spot spot,
                         const runnel_yaml_node *node) {
    slots found = {{NULL}, {NULL}};
    size_t link = node->first;
    const runnel_yaml_node *key, *value;
    while ((key = runnel_yaml_next(walk, &link)) && (value = runnel_yaml_next(walk, &link)))
        take_pair(walk, scope, spot, key, value, &found);
    for (int i = 0; i < RUNNEL_FIELD_COUNT_OF && !walk->stopped; i++) {
        runnel_field_id id = (runnel_field_id)i;
        if (!found.values[id])
            continue;
        runnel_status status = runnel_yaml_field(walk, spot, id, found.values[id]);
        if (status == RUNNEL_E_NO_MEMORY)
            walk->stopped = status;
        else
            runnel_yaml_note_down(walk, spot, id, found.values[id], status != RUNNEL_OK);
    }
}
