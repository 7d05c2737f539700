/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/read.h"

#include "base/memory.h"
#include "base/slice.h"
#include "read/yaml_walk.h"

#include <stdlib.h>
#include <string.h>

/* More colours than this are a mistake, and each is looked up among the others. */
enum { MOST_COLOURS = 1000 };

static const runnel_spot whole_job = {RUNNEL_NOWHERE, RUNNEL_NOWHERE};

/* ---- Values with an inside ------------------------------------------------------------------- */

static runnel_status read_mapping(runnel_yaml_walk *walk, runnel_field_id id, runnel_scope scope,
                                  const runnel_yaml_node *node) {
    runnel_status status = runnel_yaml_need(walk, whole_job, id, node, RUNNEL_YAML_MAPPING);
    if (!status)
        runnel_yaml_mapping(walk, scope, whole_job, node);
    return status;
}

static runnel_status read_shop(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                               const runnel_yaml_node *node) {
    (void)spot;
    return read_mapping(walk, id, RUNNEL_SCOPE_SHOP, node);
}

static runnel_status read_level(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                const runnel_yaml_node *node) {
    (void)spot;
    return read_mapping(walk, id, RUNNEL_SCOPE_LEVEL, node);
}

static runnel_status read_cup(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                              const runnel_yaml_node *node) {
    (void)spot;
    return read_mapping(walk, id, RUNNEL_SCOPE_CUP, node);
}

static runnel_status read_errors(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                 const runnel_yaml_node *node) {
    (void)spot;
    return read_mapping(walk, id, RUNNEL_SCOPE_ERRORS, node);
}

/* A value that stands for one key of a scope when it is single, as the step does for the scale. */
static runnel_status read_short(runnel_yaml_walk *walk, runnel_spot spot, runnel_scope scope,
                                runnel_field_id stands_for, const runnel_yaml_node *node) {
    if (node->kind == RUNNEL_YAML_MAPPING) {
        runnel_yaml_mapping(walk, scope, spot, node);
        return RUNNEL_OK;
    }
    runnel_status status = runnel_yaml_field(walk, spot, stands_for, node);
    runnel_yaml_note_down(walk, spot, stands_for, node, status != RUNNEL_OK);
    return status;
}

static runnel_status read_scale(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                const runnel_yaml_node *node) {
    (void)id;
    return read_short(walk, spot, RUNNEL_SCOPE_SCALE, RUNNEL_FIELD_STEP, node);
}

static runnel_status read_sealer(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                 const runnel_yaml_node *node) {
    (void)id;
    return read_short(walk, spot, RUNNEL_SCOPE_SEALER, RUNNEL_FIELD_SEALER_KIND, node);
}

static runnel_status read_oil(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                              const runnel_yaml_node *node) {
    (void)id;
    return read_short(walk, spot, RUNNEL_SCOPE_OIL, RUNNEL_FIELD_OIL_KIND, node);
}

static runnel_status read_wax(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                              const runnel_yaml_node *node) {
    (void)id;
    return read_short(walk, spot, RUNNEL_SCOPE_WAX, RUNNEL_FIELD_RECIPE, node);
}

static runnel_status read_upkeep(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                 const runnel_yaml_node *node) {
    (void)id;
    return read_short(walk, spot, RUNNEL_SCOPE_UPKEEP, RUNNEL_FIELD_USE, node);
}

static runnel_status read_destination(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                      const runnel_yaml_node *node) {
    (void)spot;
    return read_mapping(walk, id, RUNNEL_SCOPE_DESTINATION, node);
}

static runnel_status read_days(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                               const runnel_yaml_node *node) {
    (void)spot;
    return read_mapping(walk, id, RUNNEL_SCOPE_DAYS, node);
}

static runnel_status read_resin(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                const runnel_yaml_node *node) {
    if (node->kind != RUNNEL_YAML_MAPPING)
        return runnel_yaml_single(walk, spot, id, node);
    runnel_yaml_mapping(walk, RUNNEL_SCOPE_RESIN, spot, node);
    return RUNNEL_OK;
}

/* ---- Ratios ---------------------------------------------------------------------------------- */

static runnel_status read_two_ratios(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                     const runnel_yaml_node *list) {
    size_t link = list->first;
    if (list->count != 2)
        return runnel_yaml_tell(walk, spot, id, list, RUNNEL_E_RANGE,
                                "a list of ratios has two, one by volume and one by weight, not "
                                "%zu",
                                list->count);
    const runnel_yaml_node *one = runnel_yaml_next(walk, &link);
    const runnel_yaml_node *other = runnel_yaml_next(walk, &link);
    if (!one || !other)
        return walk->stopped;
    runnel_status first = runnel_yaml_single(walk, spot, id, one);
    runnel_status second = runnel_yaml_other_ratio(walk, spot, id, other);
    return first == RUNNEL_E_NO_MEMORY || !second ? first : second;
}

static runnel_status read_ratio(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                const runnel_yaml_node *node) {
    if (id == RUNNEL_FIELD_RATIO && walk->ratio_of_resin)
        return runnel_yaml_tell(walk, spot, id, node, RUNNEL_E_CONFLICT,
                                "'ratio' is given for the resin already, on line %zu",
                                walk->ratio_of_resin->line);
    if (id == RUNNEL_FIELD_RESIN_RATIO)
        walk->ratio_of_resin = node;
    if (node->kind == RUNNEL_YAML_LIST)
        return read_two_ratios(walk, spot, id, node);
    return runnel_yaml_single(walk, spot, id, node);
}

/* ---- Colours --------------------------------------------------------------------------------- */

static runnel_status read_colour(runnel_yaml_walk *walk, const runnel_yaml_node *key,
                                 const runnel_yaml_node *value) {
    const char *name;
    runnel_job *job = walk->job;
    size_t before = job->colour_count;
    runnel_job_colour *colour;
    if (key->kind != RUNNEL_YAML_SCALAR)
        return runnel_yaml_tell(walk, whole_job, RUNNEL_FIELD_COLOURS, key, RUNNEL_E_SYNTAX,
                                "the name of a colour must be a word or two");
    runnel_status status =
        runnel_yaml_value(walk, whole_job, RUNNEL_FIELD_COLOURS, key, RUNNEL_LONGEST_NAME, &name);
    if (!status)
        status = runnel_job_colour_named(job, name, &colour);
    if (status)
        return status;
    if (job->colour_count == before) {
        char shown[RUNNEL_SHOWN_SIZE];
        return runnel_yaml_tell(walk, whole_job, RUNNEL_FIELD_COLOURS, key, RUNNEL_E_CONFLICT,
                                "the colour '%s' is given twice",
                                runnel_slice_show(runnel_slice_of(name), shown));
    }
    return read_short(walk, (runnel_spot){before, RUNNEL_NOWHERE}, RUNNEL_SCOPE_COLOUR,
                      RUNNEL_FIELD_TINT, value);
}

static runnel_status read_colours(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                  const runnel_yaml_node *node) {
    runnel_status status = runnel_yaml_need(walk, spot, id, node, RUNNEL_YAML_MAPPING);
    if (status)
        return status;
    if (node->count / 2 > MOST_COLOURS)
        return runnel_yaml_tell(walk, spot, id, node, RUNNEL_E_RANGE,
                                "a job may have %d colours, not %zu", MOST_COLOURS,
                                node->count / 2);
    size_t link = node->first;
    const runnel_yaml_node *key, *value;
    while ((key = runnel_yaml_next(walk, &link)) && (value = runnel_yaml_next(walk, &link)))
        if (read_colour(walk, key, value) == RUNNEL_E_NO_MEMORY)
            return RUNNEL_E_NO_MEMORY;
    return RUNNEL_OK;
}

/* ---- Pieces and cavities --------------------------------------------------------------------- */

/* An item that is no mapping is told, and what it lacks is not told as well. */
static bool is_item(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id list,
                    const runnel_yaml_node *node, const char *what) {
    if (node->kind == RUNNEL_YAML_MAPPING)
        return true;
    runnel_yaml_tell(walk, spot, list, node, RUNNEL_E_SYNTAX,
                     "%s needs keys of its own after '- ', such as 'name: ...'", what);
    return false;
}

static runnel_status read_cavities(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                   const runnel_yaml_node *node) {
    runnel_status status = runnel_yaml_need(walk, spot, id, node, RUNNEL_YAML_LIST);
    size_t link = node->first;
    const runnel_yaml_node *item;
    while (!status && (item = runnel_yaml_next(walk, &link))) {
        runnel_job_piece *piece = &walk->job->pieces[spot.first];
        runnel_job_cavity *cavity;
        status = runnel_job_add_cavity(piece, &cavity);
        if (status)
            break;
        cavity->line = item->line;
        cavity->column = item->column;
        runnel_spot inner = {spot.first, piece->cavity_count - 1};
        if (is_item(walk, spot, id, item, "a cavity"))
            runnel_yaml_mapping(walk, RUNNEL_SCOPE_CAVITY, inner, item);
        else
            runnel_yaml_note_down(walk, inner, RUNNEL_FIELD_TEXT, item, true);
    }
    return status;
}

static runnel_status read_pieces(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                 const runnel_yaml_node *node) {
    runnel_status status = runnel_yaml_need(walk, spot, id, node, RUNNEL_YAML_LIST);
    size_t link = node->first;
    const runnel_yaml_node *item;
    while (!status && (item = runnel_yaml_next(walk, &link))) {
        runnel_job_piece *piece;
        status = runnel_job_add_piece(walk->job, &piece);
        if (status)
            break;
        piece->line = item->line;
        piece->column = item->column;
        runnel_spot inner = {walk->job->piece_count - 1, RUNNEL_NOWHERE};
        if (is_item(walk, spot, id, item, "a piece"))
            runnel_yaml_mapping(walk, RUNNEL_SCOPE_PIECE, inner, item);
        else
            runnel_yaml_note_down(walk, inner, RUNNEL_FIELD_CAVITIES, item, true);
    }
    return status;
}

/* ---- Which is read how ----------------------------------------------------------------------- */

static void follow_up(runnel_job *job, runnel_field_id id) {
    if (id == RUNNEL_FIELD_STEP)
        job->scale_is_default = false;
    else if (id == RUNNEL_FIELD_TEMPERATURE)
        job->shop_is_default = false;
    else if (runnel_field_row(id)->scope == RUNNEL_SCOPE_ERRORS)
        job->errors_are_default = false;
    else if (id == RUNNEL_FIELD_ZERO_ON)
        job->level.under_is_default = false;
    else if (id == RUNNEL_FIELD_SEALER_KIND)
        job->sealer.kind_is_default = false;
    else if (id == RUNNEL_FIELD_RATIO ||
             (runnel_field_row(id)->scope == RUNNEL_SCOPE_RESIN && id != RUNNEL_FIELD_RESIN_ROW))
        job->resin_changed = true;
}

/* Keeps where the values stand that only the setting of letters, or the shape, can find wrong. */
static void keep_position(runnel_job_cavity *cavity, runnel_field_id id,
                          const runnel_yaml_node *node) {
    runnel_position at = {node->line, node->column};
    if (id >= RUNNEL_FIELD_TEXT && id <= RUNNEL_FIELD_MEASURED)
        cavity->source_at = at;
    else if (id == RUNNEL_FIELD_FONT || id == RUNNEL_FIELD_SINGLE_LINE)
        cavity->font_at = at;
    else if (id == RUNNEL_FIELD_AXES)
        cavity->axes_at = at;
}

runnel_status runnel_yaml_field(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                const runnel_yaml_node *node) {
    static runnel_status (*const inner[RUNNEL_KIND_COUNT_OF])(
        runnel_yaml_walk *, runnel_spot, runnel_field_id, const runnel_yaml_node *) = {
        [RUNNEL_KIND_RATIO] = read_ratio,
        [RUNNEL_KIND_RESIN] = read_resin,
        [RUNNEL_KIND_SCALE] = read_scale,
        [RUNNEL_KIND_SHOP] = read_shop,
        [RUNNEL_KIND_ERRORS] = read_errors,
        [RUNNEL_KIND_CUP] = read_cup,
        [RUNNEL_KIND_SEALER] = read_sealer,
        [RUNNEL_KIND_LEVEL] = read_level,
        [RUNNEL_KIND_OIL] = read_oil,
        [RUNNEL_KIND_WAX] = read_wax,
        [RUNNEL_KIND_UPKEEP] = read_upkeep,
        [RUNNEL_KIND_DAYS] = read_days,
        [RUNNEL_KIND_DESTINATION] = read_destination,
        [RUNNEL_KIND_COLOURS] = read_colours,
        [RUNNEL_KIND_PIECES] = read_pieces,
        [RUNNEL_KIND_CAVITIES] = read_cavities,
    };
    runnel_kind kind = runnel_field_row(id)->kind;
    runnel_status status =
        inner[kind] ? inner[kind](walk, spot, id, node) : runnel_yaml_single(walk, spot, id, node);
    if (!status)
        follow_up(walk->job, id);
    if (!status && runnel_field_row(id)->scope == RUNNEL_SCOPE_CAVITY)
        keep_position(&walk->job->pieces[spot.first].cavities[spot.second], id, node);
    return status;
}

/* ---- The job --------------------------------------------------------------------------------- */

/* A problem and where it stood in the list, so that equal places keep their order. */
typedef struct placed {
    runnel_problem problem;
    size_t index;
} placed;

static int by_place(const void *one, const void *other) {
    const placed *a = one, *b = other;
    if (a->problem.line != b->problem.line)
        return a->problem.line < b->problem.line ? -1 : 1;
    if (a->problem.column != b->problem.column)
        return a->problem.column < b->problem.column ? -1 : 1;
    return (a->index > b->index) - (a->index < b->index);
}

/* Puts the problems from `first` on in the order of the file. */
static runnel_status sort_problems(runnel_problems *problems, size_t first) {
    size_t count = problems->count - first;
    if (count < 2)
        return RUNNEL_OK;
    placed *all = runnel_resize(NULL, count, sizeof *all);
    if (!all)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < count; i++)
        all[i] = (placed){problems->items[first + i], i};
    qsort(all, count, sizeof *all, by_place);
    for (size_t i = 0; i < count; i++)
        problems->items[first + i] = all[i].problem;
    runnel_free(all);
    return RUNNEL_OK;
}

static runnel_status worst_of(const runnel_problems *problems, size_t first, size_t dropped) {
    if (problems->dropped > dropped)
        return RUNNEL_E_NO_MEMORY;
    runnel_status worst = RUNNEL_OK;
    for (size_t i = first; i < problems->count; i++)
        if (runnel_status_exit(problems->items[i].status) > runnel_status_exit(worst))
            worst = problems->items[i].status;
    return worst;
}

/* The tree into a job, then the check of the whole. */
static runnel_status read_tree(runnel_yaml_walk *walk) {
    const runnel_yaml_node *root = &walk->tree->nodes[walk->tree->root];
    if (root->kind != RUNNEL_YAML_MAPPING) {
        runnel_place place = {.file = walk->job->file, .line = root->line, .column = root->column};
        return runnel_problems_add(walk->problems, RUNNEL_E_SYNTAX, &place,
                                   "a job starts with keys such as 'pieces:' at the left margin");
    }
    /* The default resin is what single values of a resin without a row stand over. */
    if (runnel_tables_resin(walk->tables, RUNNEL_DEFAULT_RESIN)) {
        runnel_status status = runnel_job_set_resin(walk->job, NULL, walk->tables, NULL, NULL);
        if (status)
            return status;
    }
    runnel_yaml_mapping(walk, RUNNEL_SCOPE_JOB, whole_job, root);
    if (walk->stopped)
        return walk->stopped;
    runnel_yaml_sort_notes(walk);
    return runnel_job_check_told(walk->job, walk->tables, runnel_yaml_told, walk, walk->problems);
}

static runnel_status read_into(const char *text, size_t length, const runnel_tables *tables,
                               runnel_problems *problems, runnel_job *job) {
    runnel_yaml_tree tree = {0};
    runnel_yaml_walk walk = {.tree = &tree, .tables = tables, .problems = problems, .job = job};
    size_t first = walk.first_problem = problems->count, dropped = problems->dropped;
    runnel_status status = runnel_yaml_load(text, length, job->file, problems, &tree);
    if (!status)
        status = read_tree(&walk);
    if (sort_problems(problems, first))
        status = RUNNEL_E_NO_MEMORY;
    if (status != RUNNEL_E_NO_MEMORY)
        status = worst_of(problems, first, dropped);
    runnel_free(walk.notes);
    runnel_yaml_clear(&tree);
    return status;
}

runnel_status runnel_job_read_yaml(const char *text, size_t length, const char *file_name,
                                   const runnel_tables *tables, runnel_problems *problems,
                                   runnel_job *job) {
    runnel_problems own;
    runnel_problems_init(&own);
    runnel_job fresh;
    runnel_job_init(&fresh);
    fresh.file = runnel_copy_text(file_name);
    runnel_status status = RUNNEL_E_NO_MEMORY;
    if (fresh.file)
        status = read_into(text, length, tables, problems ? problems : &own, &fresh);
    if (status) {
        runnel_job_clear(&fresh);
    } else {
        runnel_job_clear(job);
        *job = fresh;
    }
    runnel_problems_clear(&own);
    return status;
}
