/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "read/yaml_walk.h"

#include "base/memory.h"
#include "base/slice.h"
#include "base/suggest.h"
#include "read/font_name.h"

#include <string.h>

/* One value: what the functions below get. */
typedef struct single {
    runnel_yaml_walk *walk;
    runnel_spot spot;
    runnel_field_id id;
    const runnel_yaml_node *node;
    const runnel_field *row;
    const char *text;
    runnel_place place;
    void *target;
} single;

static runnel_job_cavity *cavity_of(const single *one) {
    return &one->walk->job->pieces[one->spot.first].cavities[one->spot.second];
}

/* ---- Texts ----------------------------------------------------------------------------------- */

static runnel_status keep(char **where, const char *text) {
    char *copy = runnel_copy_text(text);
    if (!copy)
        return RUNNEL_E_NO_MEMORY;
    runnel_free(*where);
    *where = copy;
    return RUNNEL_OK;
}

static runnel_status read_name(const single *one) {
    return keep(one->target, one->text);
}

/* A cavity has one source of shape; the first that could be read is it. */
static runnel_status claim(const single *one, runnel_source source) {
    static const char *const keys[] = {[RUNNEL_SOURCE_TEXT] = "text",
                                       [RUNNEL_SOURCE_OUTLINE] = "outline",
                                       [RUNNEL_SOURCE_PATH] = "path",
                                       [RUNNEL_SOURCE_MEASURED] = "measured"};
    runnel_source before = cavity_of(one)->source;
    if (before != RUNNEL_SOURCE_NONE)
        return runnel_yaml_tell(one->walk, one->spot, one->id, one->node, RUNNEL_E_CONFLICT,
                                "'%s' and '%s' are both given; a cavity has one source of shape",
                                keys[before], keys[source]);
    cavity_of(one)->source = source;
    return RUNNEL_OK;
}

static runnel_status read_text(const single *one) {
    runnel_status status = claim(one, RUNNEL_SOURCE_TEXT);
    return status ? status : keep(one->target, one->text);
}

/* A font file is looked for beside the job file. */
static runnel_status keep_font(const single *one) {
    const char *file = one->walk->job->file;
    const char *slash = strrchr(file, '/');
    if (!runnel_font_is_file(one->text) || one->text[0] == '/' || !slash)
        return keep(one->target, one->text);
    char *path = runnel_format_text("%.*s%s", (int)(slash - file) + 1, file, one->text);
    if (!path)
        return RUNNEL_E_NO_MEMORY;
    runnel_free(*(char **)one->target);
    *(char **)one->target = path;
    return RUNNEL_OK;
}

static runnel_status read_single_line(const single *one) {
    if (cavity_of(one)->font)
        return runnel_yaml_tell(one->walk, one->spot, one->id, one->node, RUNNEL_E_CONFLICT,
                                "'font' and 'single-line' are both given; give one of them");
    runnel_status status = keep_font(one);
    if (!status)
        cavity_of(one)->single_line = true;
    return status;
}

/* ---- Numbers --------------------------------------------------------------------------------- */

static runnel_status read_quantity(const single *one) {
    return runnel_quantity_parse(one->text, one->row->dimension, one->walk->problems, &one->place,
                                 one->target);
}

static runnel_status read_percent(const single *one) {
    double *target = one->target, share;
    runnel_status status = runnel_quantity_parse(one->text, one->row->dimension,
                                                 one->walk->problems, &one->place, &share);
    if (!status)
        *target = share * 100;
    return status;
}

/* A number with a unit that is the only one of its kind. */
static runnel_status read_with_unit(const single *one, const char *unit, const char *such_as) {
    size_t length = strlen(one->text), unit_length = strlen(unit);
    char digits[RUNNEL_LONGEST_NAME + 1];
    if (length <= unit_length || strcmp(one->text + length - unit_length, unit) != 0) {
        char shown[RUNNEL_SHOWN_SIZE];
        return runnel_yaml_tell(one->walk, one->spot, one->id, one->node, RUNNEL_E_UNIT,
                                "'%s' needs the unit %s, as in '%s'",
                                runnel_slice_show(runnel_slice_of(one->text), shown), unit,
                                such_as);
    }
    length -= unit_length;
    memcpy(digits, one->text, length);
    digits[length] = '\0';
    return runnel_number_parse(digits, one->walk->problems, &one->place, one->target);
}

static runnel_status read_energy(const single *one) {
    return read_with_unit(one, "kJ/mol", "50 kJ/mol");
}

static runnel_status read_heat(const single *one) {
    return read_with_unit(one, "J/g", "400 J/g");
}

static runnel_status read_number(const single *one) {
    return runnel_number_parse(one->text, one->walk->problems, &one->place, one->target);
}

static runnel_status read_count(const single *one) {
    return runnel_count_parse(one->text, (size_t)one->row->high, one->walk->problems, &one->place,
                              one->target);
}

static runnel_status read_size(const single *one) {
    double sides_mm[3];
    runnel_job_piece *piece = &one->walk->job->pieces[one->spot.first];
    runnel_status status =
        runnel_lengths_parse(one->text, 3, one->walk->problems, &one->place, sides_mm);
    if (status)
        return status;
    piece->length_mm = sides_mm[0];
    piece->width_mm = sides_mm[1];
    piece->thickness_mm = sides_mm[2];
    return RUNNEL_OK;
}

/* Where a cavity is on its piece. */
static runnel_status read_point(const single *one) {
    double at_mm[2];
    runnel_job_cavity *cavity = cavity_of(one);
    runnel_status status =
        runnel_lengths_parse(one->text, 2, one->walk->problems, &one->place, at_mm);
    if (status)
        return status;
    cavity->is_placed = true;
    cavity->at_x_mm = at_mm[0];
    cavity->at_y_mm = at_mm[1];
    return RUNNEL_OK;
}

/* ---- Words ----------------------------------------------------------------------------------- */

/* Index of a word, or `count` after telling what would be right. */
static size_t find_word(const single *one, const char *const *words, size_t count,
                        const char *list) {
    char shown[RUNNEL_SHOWN_SIZE];
    for (size_t i = 0; i < count; i++)
        if (!runnel_word_distance(one->text, words[i]))
            return i;
    const char *nearest = runnel_nearest(one->text, words, count);
    runnel_slice_show(runnel_slice_of(one->text), shown);
    if (nearest)
        runnel_yaml_tell(one->walk, one->spot, one->id, one->node, RUNNEL_E_UNKNOWN,
                         "'%s' must be %s; the nearest is '%s'", shown, list, nearest);
    else
        runnel_yaml_tell(one->walk, one->spot, one->id, one->node, RUNNEL_E_UNKNOWN,
                         "'%s' must be %s", shown, list);
    return count;
}

static runnel_status read_flag(const single *one) {
    static const char *const words[] = {"yes", "true", "no", "false"};
    size_t word = find_word(one, words, 4, "'yes' or 'no'");
    if (word == 4)
        return RUNNEL_E_UNKNOWN;
    *(bool *)one->target = word < 2;
    return RUNNEL_OK;
}

static runnel_status read_align(const single *one) {
    static const char *const words[] = {[RUNNEL_ALIGN_START] = "start",
                                        [RUNNEL_ALIGN_CENTRE] = "centre",
                                        [RUNNEL_ALIGN_END] = "end"};
    size_t word = find_word(one, words, 3, "'start', 'centre' or 'end'");
    if (word == 3)
        return RUNNEL_E_UNKNOWN;
    *(runnel_align *)one->target = (runnel_align)word;
    return RUNNEL_OK;
}

static runnel_status read_size_to(const single *one) {
    static const char *const words[] = {
        [RUNNEL_SIZE_HIGH] = "high", [RUNNEL_SIZE_LIKELY] = "likely"};
    size_t word = find_word(one, words, 2, "'high' or 'likely'");
    if (word == 2)
        return RUNNEL_E_UNKNOWN;
    *(runnel_size_to *)one->target = (runnel_size_to)word;
    return RUNNEL_OK;
}

/* ---- Written forms --------------------------------------------------------------------------- */

static runnel_status read_form(const single *one, runnel_source source,
                               runnel_status (*parse)(const char *, runnel_problems *,
                                                      const runnel_place *, runnel_form *)) {
    runnel_form form = {0};
    runnel_status status = parse(one->text, one->walk->problems, &one->place, &form);
    if (!status)
        status = claim(one, source);
    if (status) {
        runnel_form_clear(&form);
        return status;
    }
    cavity_of(one)->form = form;
    return RUNNEL_OK;
}

static runnel_status read_outline(const single *one) {
    return read_form(one, RUNNEL_SOURCE_OUTLINE, runnel_form_parse_outline);
}

static runnel_status read_path(const single *one) {
    return read_form(one, RUNNEL_SOURCE_PATH, runnel_form_parse_path);
}

static runnel_status read_measured(const single *one) {
    double volume_mm3;
    runnel_status status =
        runnel_measured_parse(one->text, one->walk->problems, &one->place, &volume_mm3);
    if (!status)
        status = claim(one, RUNNEL_SOURCE_MEASURED);
    if (!status)
        *(double *)one->target = volume_mm3;
    return status;
}

static runnel_status read_cutter(const single *one) {
    runnel_status status = runnel_job_cutter(one->text, one->walk->tables, one->walk->problems,
                                             &one->place, one->target);
    return status ? status : keep(&cavity_of(one)->cutter_name, one->text);
}

/* The first ratio is the resin's, the second of a list the job's other one. */
static runnel_status read_ratio(const single *one) {
    runnel_job *job = one->walk->job;
    runnel_ratio ratio;
    runnel_status status = runnel_ratio_parse(one->text, one->walk->problems, &one->place, &ratio);
    if (!status && one->target)
        *(runnel_ratio *)one->target = ratio;
    else if (!status)
        job->other_ratio = ratio;
    return status;
}

static runnel_status read_cut(const single *one) {
    return runnel_cut_parse(one->text, one->walk->problems, &one->place, one->target);
}

static runnel_status read_sealer_kind(const single *one) {
    return runnel_sealer_kind_parse(one->text, one->walk->problems, &one->place, one->target);
}

static runnel_status read_under(const single *one) {
    return runnel_under_parse(one->text, one->walk->problems, &one->place, one->target);
}

static runnel_status read_grain(const single *one) {
    return runnel_grain_parse(one->text, one->walk->problems, &one->place, one->target);
}

static runnel_status read_edges(const single *one) {
    return runnel_edges_parse(one->text, one->walk->problems, &one->place, one->target);
}

static runnel_status read_juice(const single *one) {
    return runnel_juice_groove_parse(one->text, one->walk->problems, &one->place, one->target);
}

static runnel_status read_holds(const single *one) {
    return runnel_finger_holds_parse(one->text, one->walk->problems, &one->place, one->target);
}

static runnel_status read_date(const single *one) {
    return runnel_date_parse(one->text, one->walk->problems, &one->place, one->target);
}

static runnel_status read_use(const single *one) {
    return runnel_use_parse(one->text, one->walk->problems, &one->place, one->target);
}

static runnel_status read_washing(const single *one) {
    return runnel_washing_parse(one->text, one->walk->problems, &one->place, one->target);
}

static runnel_status read_water(const single *one) {
    return runnel_water_parse(one->text, one->walk->problems, &one->place, one->target);
}

static runnel_status read_recipe(const single *one) {
    return runnel_recipe_parse(one->text, one->walk->problems, &one->place, one->target);
}

static runnel_status read_order(const single *one) {
    return runnel_order_parse(one->text, one->walk->problems, &one->place, one->target);
}

static runnel_status read_hours(const single *one) {
    runnel_status status =
        runnel_week_parse(one->text, one->walk->problems, &one->place, &one->walk->job->days.week);
    return status ? status : keep(one->target, one->text);
}

static runnel_status read_off(const single *one) {
    return runnel_days_off_parse(one->text, one->walk->problems, &one->place, one->target);
}

static runnel_status read_grits(const single *one) {
    return runnel_grits_parse(one->text, one->walk->problems, &one->place, one->target);
}

static runnel_status read_resin_row(const single *one) {
    return runnel_job_set_resin(one->walk->job, one->text, one->walk->tables, one->walk->problems,
                                &one->place);
}

/* ---- Which is read how ----------------------------------------------------------------------- */

static const struct {
    runnel_status (*read)(const single *one);
    size_t longest;
} ways[RUNNEL_KIND_COUNT_OF] = {
    [RUNNEL_KIND_NAME] = {read_name, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_TEXT] = {read_text, RUNNEL_LONGEST_TEXT},
    [RUNNEL_KIND_QUANTITY] = {read_quantity, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_PERCENT] = {read_percent, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_ENERGY] = {read_energy, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_HEAT] = {read_heat, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_NUMBER] = {read_number, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_COUNT] = {read_count, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_FLAG] = {read_flag, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_ALIGN] = {read_align, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_SIZE_TO] = {read_size_to, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_FONT] = {keep_font, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_SINGLE_LINE] = {read_single_line, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_SIZE] = {read_size, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_POINT] = {read_point, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_OUTLINE] = {read_outline, RUNNEL_LONGEST_FORM},
    [RUNNEL_KIND_PATH] = {read_path, RUNNEL_LONGEST_FORM},
    [RUNNEL_KIND_MEASURED] = {read_measured, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_CUTTER] = {read_cutter, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_RATIO] = {read_ratio, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_CUT] = {read_cut, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_SEALER_OF] = {read_sealer_kind, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_RECIPE] = {read_recipe, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_DATE] = {read_date, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_USE] = {read_use, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_WASHING] = {read_washing, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_WATER] = {read_water, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_HOURS] = {read_hours, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_OFF] = {read_off, RUNNEL_LONGEST_TEXT},
    [RUNNEL_KIND_GRITS] = {read_grits, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_GRAIN] = {read_grain, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_EDGES] = {read_edges, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_JUICE] = {read_juice, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_HOLDS] = {read_holds, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_UNDER] = {read_under, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_ORDER] = {read_order, RUNNEL_LONGEST_TEXT},
    [RUNNEL_KIND_RESIN_ROW] = {read_resin_row, RUNNEL_LONGEST_NAME},
    [RUNNEL_KIND_RESIN] = {read_resin_row, RUNNEL_LONGEST_NAME},
};

static runnel_status read_single(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                 const runnel_yaml_node *node, void *target) {
    char path[RUNNEL_PATH_SIZE];
    single one = {walk, spot, id, node, runnel_field_row(id), NULL, {0}, target};
    runnel_status status =
        runnel_yaml_value(walk, spot, id, node, ways[one.row->kind].longest, &one.text);
    if (status)
        return status;
    one.place = runnel_yaml_place(walk, spot, id, node, path);
    return ways[one.row->kind].read(&one);
}

runnel_status runnel_yaml_single(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                 const runnel_yaml_node *node) {
    return read_single(walk, spot, id, node, runnel_field_target(walk->job, spot, id));
}

runnel_status runnel_yaml_other_ratio(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                      const runnel_yaml_node *node) {
    return read_single(walk, spot, id, node, NULL);
}
