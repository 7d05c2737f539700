/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/tables.h"

#include "base/key.h"
#include "base/memory.h"
#include "base/suggest.h"
#include "job/rows.h"

#include <stdint.h>
#include <string.h>

bool runnel_row_name_equal(const char *one, const char *other) {
    return one && other && runnel_key_equal(one, strlen(one), other, strlen(other));
}

const char *runnel_row_next_name(const char **list, size_t *length) {
    const char *rest = *list;
    while (rest && *rest) {
        size_t whole = strcspn(rest, ",");
        const char *start = rest, *end = rest + whole;
        rest = *end ? end + 1 : end;
        while (start < end && (*start == ' ' || *start == '\t'))
            start++;
        while (end > start && (end[-1] == ' ' || end[-1] == '\t'))
            end--;
        *list = rest;
        *length = (size_t)(end - start);
        if (*length)
            return start;
    }
    return NULL;
}

void runnel_resin_row_clear(runnel_resin_row *row) {
    runnel_resin_clear(&row->resin);
    runnel_free(row->file);
    row->file = NULL;
}

void runnel_cutter_row_clear(runnel_cutter_row *row) {
    char *owned[] = {row->name, row->source, row->date, row->sure, row->file};
    for (size_t i = 0; i < sizeof owned / sizeof *owned; i++)
        runnel_free(owned[i]);
    memset(row, 0, sizeof *row);
}

void runnel_wood_clear(runnel_wood *wood) {
    char *owned[] = {wood->name, wood->also, wood->botanical, wood->source,
                     wood->date, wood->sure, wood->soak_sure, wood->file};
    for (size_t i = 0; i < sizeof owned / sizeof *owned; i++)
        runnel_free(owned[i]);
    memset(wood, 0, sizeof *wood);
}

void runnel_oil_row_clear(runnel_oil_row *row) {
    runnel_oil_clear(&row->oil);
    runnel_free(row->file);
    row->file = NULL;
}

void runnel_upkeep_row_clear(runnel_upkeep_row *row) {
    runnel_upkeep_rule_clear(&row->rule);
    runnel_free(row->file);
    row->file = NULL;
}

const char *runnel_work_text(runnel_work work) {
    static const char *const texts[RUNNEL_WORK_COUNT] = {[RUNNEL_WORK_FLATTEN] = "flatten",
                                                         [RUNNEL_WORK_CARVE] = "carve",
                                                         [RUNNEL_WORK_CLEAN] = "clean",
                                                         [RUNNEL_WORK_MASK] = "mask",
                                                         [RUNNEL_WORK_SEAL] = "seal",
                                                         [RUNNEL_WORK_POUR] = "pour",
                                                         [RUNNEL_WORK_SCUFF] = "scuff",
                                                         [RUNNEL_WORK_LEVEL] = "level",
                                                         [RUNNEL_WORK_SAND] = "sand",
                                                         [RUNNEL_WORK_RAISE_GRAIN] = "raise-grain",
                                                         [RUNNEL_WORK_KNOCK_DOWN] = "knock-down",
                                                         [RUNNEL_WORK_SHAPE] = "shape",
                                                         [RUNNEL_WORK_OIL] = "oil",
                                                         [RUNNEL_WORK_WIPE] = "wipe",
                                                         [RUNNEL_WORK_COAT] = "coat",
                                                         [RUNNEL_WORK_WAX] = "wax",
                                                         [RUNNEL_WORK_BUFF] = "buff",
                                                         [RUNNEL_WORK_WRAP] = "wrap"};
    return (unsigned)work < RUNNEL_WORK_COUNT ? texts[work] : "?";
}

void runnel_work_row_clear(runnel_work_row *row) {
    char *owned[] = {row->name, row->once_for, row->source, row->date, row->sure, row->file};
    for (size_t i = 0; i < sizeof owned / sizeof *owned; i++)
        runnel_free(owned[i]);
    memset(row, 0, sizeof *row);
}

void runnel_tables_clear(runnel_tables *tables) {
    if (!tables)
        return;
    for (size_t i = 0; i < tables->resin_count; i++)
        runnel_resin_row_clear(&tables->resins[i]);
    for (size_t i = 0; i < tables->cutter_count; i++)
        runnel_cutter_row_clear(&tables->cutters[i]);
    for (size_t i = 0; i < tables->wood_count; i++)
        runnel_wood_clear(&tables->woods[i]);
    for (size_t i = 0; i < tables->oil_count; i++)
        runnel_oil_row_clear(&tables->oils[i]);
    for (size_t i = 0; i < tables->upkeep_count; i++)
        runnel_upkeep_row_clear(&tables->upkeeps[i]);
    for (size_t i = 0; i < tables->work_count; i++)
        runnel_work_row_clear(&tables->works[i]);
    runnel_free(tables->works);
    runnel_free(tables->upkeeps);
    runnel_free(tables->resins);
    runnel_free(tables->cutters);
    runnel_free(tables->woods);
    runnel_free(tables->oils);
    memset(tables, 0, sizeof *tables);
}

const runnel_resin_row *runnel_tables_resin(const runnel_tables *tables, const char *name) {
    for (size_t i = 0; i < tables->resin_count; i++)
        if (runnel_row_name_equal(tables->resins[i].resin.name, name))
            return &tables->resins[i];
    return NULL;
}

const runnel_cutter_row *runnel_tables_cutter(const runnel_tables *tables, const char *name) {
    for (size_t i = 0; i < tables->cutter_count; i++)
        if (runnel_row_name_equal(tables->cutters[i].name, name))
            return &tables->cutters[i];
    return NULL;
}

const runnel_oil_row *runnel_tables_oil(const runnel_tables *tables, const char *name) {
    for (size_t i = 0; i < tables->oil_count; i++)
        if (runnel_row_name_equal(tables->oils[i].oil.name, name))
            return &tables->oils[i];
    return NULL;
}

const runnel_upkeep_rule *runnel_tables_upkeep(const runnel_tables *tables,
                                               runnel_upkeep_finish finish, runnel_use use) {
    /* The last one wins, as the user's own rows stand behind the installed ones. */
    for (size_t i = tables->upkeep_count; i-- > 0;)
        if (tables->upkeeps[i].rule.finish == finish && tables->upkeeps[i].rule.use == use)
            return &tables->upkeeps[i].rule;
    return NULL;
}

const runnel_work_row *runnel_tables_work(const runnel_tables *tables, runnel_work work) {
    for (size_t i = 0; i < tables->work_count; i++)
        if (runnel_row_name_equal(tables->works[i].name, runnel_work_text(work)))
            return &tables->works[i];
    return NULL;
}

static bool has_further_name(const runnel_wood *wood, const char *name) {
    const char *list = wood->also, *also;
    size_t length;
    while ((also = runnel_row_next_name(&list, &length)) != NULL)
        if (runnel_key_equal(also, length, name, strlen(name)))
            return true;
    return false;
}

const runnel_wood *runnel_tables_wood(const runnel_tables *tables, const char *name) {
    for (size_t i = 0; i < tables->wood_count; i++)
        if (runnel_row_name_equal(tables->woods[i].name, name))
            return &tables->woods[i];
    /* The last one wins, as the user's own rows stand behind the installed ones. */
    for (size_t i = name ? tables->wood_count : 0; i-- > 0;)
        if (has_further_name(&tables->woods[i], name))
            return &tables->woods[i];
    return NULL;
}

/* The wood's own name by the nearest of all further names; own names come first. */
static const char *nearest_wood(const runnel_tables *tables, const char *name) {
    const char *nearest = NULL;
    size_t steps = SIZE_MAX;
    for (size_t i = 0; i < tables->wood_count; i++) {
        const char *list = tables->woods[i].also, *also;
        size_t length;
        while ((also = runnel_row_next_name(&list, &length)) != NULL) {
            char *copy = runnel_copy_bytes(also, length);
            const char *known = copy;
            size_t distance = copy && runnel_nearest(name, &known, 1)
                                  ? runnel_word_distance(name, copy)
                                  : SIZE_MAX;
            runnel_free(copy);
            if (distance < steps) {
                steps = distance;
                nearest = tables->woods[i].name;
            }
        }
    }
    return nearest;
}

/* What the names of a table need to be walked. */
typedef struct name_list {
    const char *which;
    const char *rows;
    size_t count, size, offset;
} name_list;

static const char *nearest_name(const name_list *list, const char *name) {
    const char **names = runnel_zeroed(list->count, sizeof *names);
    if (!names)
        return NULL;
    for (size_t i = 0; i < list->count; i++)
        memcpy(&names[i], list->rows + i * list->size + list->offset, sizeof names[i]);
    const char *nearest = runnel_nearest(name, names, list->count);
    runnel_free(names);
    return nearest;
}

const char *runnel_tables_nearest(const runnel_tables *tables, const char *which,
                                  const char *name) {
    const name_list lists[] = {
        {"resins", (const char *)tables->resins, tables->resin_count, sizeof *tables->resins,
         offsetof(runnel_resin_row, resin.name)},
        {"cutters", (const char *)tables->cutters, tables->cutter_count, sizeof *tables->cutters,
         offsetof(runnel_cutter_row, name)},
        {"woods", (const char *)tables->woods, tables->wood_count, sizeof *tables->woods,
         offsetof(runnel_wood, name)},
        {"oils", (const char *)tables->oils, tables->oil_count, sizeof *tables->oils,
         offsetof(runnel_oil_row, oil.name)},
    };
    if (!which || !name)
        return NULL;
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        if (strcmp(lists[i].which, which) != 0)
            continue;
        const char *nearest = nearest_name(&lists[i], name);
        return nearest || i != 2 ? nearest : nearest_wood(tables, name);
    }
    return NULL;
}
