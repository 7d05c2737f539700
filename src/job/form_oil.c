/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The written forms of what is oiled and waxed.
 */
#include "base/quantity.h"
#include "base/suggest.h"
#include "job/form_reading.h"
#include "runnel/forms.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- Words ----------------------------------------------------------------------------------- */

/* A word and what it stands for. */
typedef struct word_value {
    const char *word;
    unsigned value;
} word_value;

/* The value of a word; what is none of them is told. */
static runnel_status take_word(const char *text, const word_value *words, size_t count,
                               const char *list, runnel_problems *problems,
                               const runnel_place *place, unsigned *value) {
    const char *names[16];
    char shown[RUNNEL_SHOWN_SIZE];
    for (size_t i = 0; i < count; i++) {
        names[i] = words[i].word;
        if (!runnel_word_distance(text, words[i].word)) {
            *value = words[i].value;
            return RUNNEL_OK;
        }
    }
    const char *nearest = runnel_nearest(text, names, count);
    runnel_slice_show(runnel_slice_of(text), shown);
    return runnel_problems_add(problems, RUNNEL_E_UNKNOWN, place, "'%s' must be %s%s%s%s", shown,
                               list, nearest ? "; the nearest is '" : "", nearest ? nearest : "",
                               nearest ? "'" : "");
}

runnel_status runnel_grain_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, runnel_grain *grain) {
    static const word_value words[] = {{"length", RUNNEL_GRAIN_LENGTH},
                                       {"width", RUNNEL_GRAIN_WIDTH},
                                       {"end grain", RUNNEL_GRAIN_THICKNESS}};
    unsigned value = 0;
    runnel_status status =
        take_word(text, words, 3, "'length', 'width' or 'end grain'", problems, place, &value);
    if (!status)
        *grain = (runnel_grain)value;
    return status;
}

runnel_status runnel_use_parse(const char *text, runnel_problems *problems,
                               const runnel_place *place, runnel_use *use) {
    static const word_value words[] = {
        {"rare", RUNNEL_USE_RARE},           {"weekly", RUNNEL_USE_WEEKLY},
        {"daily", RUNNEL_USE_DAILY},         {"wet", RUNNEL_USE_WET},
        {"sheltered", RUNNEL_USE_SHELTERED}, {"open air", RUNNEL_USE_OPEN_AIR}};
    unsigned value = 0;
    runnel_status status =
        take_word(text, words, 6, "'rare', 'weekly', 'daily', 'wet', 'sheltered' or 'open air'",
                  problems, place, &value);
    if (!status)
        *use = (runnel_use)value;
    return status;
}

runnel_status runnel_washing_parse(const char *text, runnel_problems *problems,
                                   const runnel_place *place, runnel_washing *washing) {
    static const word_value words[] = {{"wiped", RUNNEL_WASHING_WIPED},
                                       {"rinsed", RUNNEL_WASHING_RINSED},
                                       {"scrubbed", RUNNEL_WASHING_SCRUBBED}};
    unsigned value = 0;
    runnel_status status =
        take_word(text, words, 3, "'wiped', 'rinsed' or 'scrubbed'", problems, place, &value);
    if (!status)
        *washing = (runnel_washing)value;
    return status;
}

runnel_status runnel_water_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, runnel_water *water) {
    static const word_value words[] = {{"beads", RUNNEL_WATER_BEADS},
                                       {"soaks in", RUNNEL_WATER_SOAKS_IN}};
    unsigned value = 0;
    runnel_status status =
        take_word(text, words, 2, "'beads' or 'soaks in'", problems, place, &value);
    if (!status)
        *water = (runnel_water)value;
    return status;
}

runnel_status runnel_edges_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, unsigned *edges) {
    static const word_value words[] = {{"all", RUNNEL_EDGES_ALL},
                                       {"top", RUNNEL_EDGES_TOP},
                                       {"bottom", RUNNEL_EDGES_BOTTOM},
                                       {"top and bottom", RUNNEL_EDGES_TOP | RUNNEL_EDGES_BOTTOM},
                                       {"upright", RUNNEL_EDGES_UPRIGHT}};
    return take_word(text, words, 5, "'all', 'top', 'bottom', 'top and bottom' or 'upright'",
                     problems, place, edges);
}

/* ---- Grooves --------------------------------------------------------------------------------- */

#define JUICE_EXAMPLE "rounded rectangle 380 x 220 r 20 mm, round-nose radius 6 mm, 5 mm deep"
#define HOLDS_EXAMPLE "2 of 100 mm, round-nose radius 8 mm, 10 mm deep, in the left"

/* A groove being read. */
typedef struct groove_reading {
    const char *text, *example;
    runnel_problems *problems;
    const runnel_place *place;
} groove_reading;

enum { PARTS_MOST = 5, PART_SIZE = 120 };

static runnel_status refuse(const groove_reading *in, runnel_status status, const char *what) {
    char shown[RUNNEL_SHOWN_SIZE];
    return runnel_problems_add(in->problems, status, in->place, "'%s' %s; write it like '%s'",
                               runnel_slice_show(runnel_slice_of(in->text), shown), what,
                               in->example);
}

/* Parts between commas, as strings of their own. */
static size_t split(const char *text, char parts[PARTS_MOST][PART_SIZE]) {
    size_t count = 0;
    for (const char *at = text;; at++) {
        size_t length = strcspn(at, ",");
        runnel_slice part = runnel_slice_trim((runnel_slice){at, at + length});
        if (count == PARTS_MOST || part.end - part.at >= PART_SIZE)
            return 0;
        snprintf(parts[count++], PART_SIZE, "%.*s", (int)(part.end - part.at), part.at);
        at += length;
        if (!*at)
            return count;
    }
}

/* "round-nose radius 6 mm" and "5 mm deep" */
static runnel_status read_cut(const groove_reading *in, const char *cutter, const char *depth,
                              runnel_groove_form *groove) {
    static const char deep[] = " deep";
    runnel_cutter with = {.kind = RUNNEL_CUTTER_NONE};
    char length[PART_SIZE];
    runnel_status status = runnel_cutter_parse(cutter, in->problems, in->place, &with);
    if (status)
        return status;
    if (with.kind != RUNNEL_CUTTER_ROUND_NOSE)
        return refuse(in, RUNNEL_E_SHAPE, "is not cut by a round nose");
    size_t end = strlen(depth);
    if (end <= strlen(deep) || strcmp(depth + end - strlen(deep), deep) != 0)
        return refuse(in, RUNNEL_E_SYNTAX, "does not say how deep it is");
    snprintf(length, sizeof length, "%.*s", (int)(end - strlen(deep)), depth);
    status =
        runnel_quantity_parse(length, RUNNEL_LENGTH, in->problems, in->place, &groove->depth_mm);
    groove->nose_mm = with.radius_mm;
    if (!status && !(groove->depth_mm > 0 && groove->depth_mm <= 1000))
        return refuse(in, RUNNEL_E_RANGE, "has a depth that is not above 0 and at most 1 m");
    return status;
}

runnel_status runnel_juice_groove_parse(const char *text, runnel_problems *problems,
                                        const runnel_place *place, runnel_groove_form *groove) {
    const groove_reading in = {text, JUICE_EXAMPLE, problems, place};
    char parts[PARTS_MOST][PART_SIZE];
    runnel_form form = {.kind = RUNNEL_FORM_NONE};
    runnel_groove_form fresh = {.count = 1, .face = RUNNEL_FACE_TOP};
    if (split(text, parts) != 3)
        return refuse(&in, RUNNEL_E_SYNTAX,
                      "needs its centre line, its cutter and its depth, with commas between");
    runnel_status status = runnel_form_parse_path(parts[0], problems, place, &form);
    bool fits = form.kind == RUNNEL_FORM_RECTANGLE || form.kind == RUNNEL_FORM_ROUNDED_RECTANGLE;
    if (!status && !fits)
        status = refuse(&in, RUNNEL_E_SHAPE, "does not run along a rectangle");
    fresh.length_mm = form.a_mm;
    fresh.width_mm = form.b_mm;
    fresh.corner_mm = form.r_mm;
    runnel_form_clear(&form);
    if (!status)
        status = read_cut(&in, parts[1], parts[2], &fresh);
    if (!status)
        *groove = fresh;
    return status;
}

/* "2 of 100 mm", or "100 mm" for one. */
static runnel_status read_slots(const groove_reading *in, const char *part,
                                runnel_groove_form *groove) {
    enum { SLOTS_MOST = 1000 };
    const char *of = strstr(part, " of ");
    char count[PART_SIZE];
    groove->count = 1;
    if (of) {
        snprintf(count, sizeof count, "%.*s", (int)(of - part), part);
        runnel_status status =
            runnel_count_parse(count, SLOTS_MOST, in->problems, in->place, &groove->count);
        if (status)
            return status;
        if (!groove->count)
            return refuse(in, RUNNEL_E_RANGE, "has no slot");
    }
    runnel_status status = runnel_quantity_parse(of ? of + 4 : part, RUNNEL_LENGTH, in->problems,
                                                 in->place, &groove->length_mm);
    if (!status && !(groove->length_mm > 0 && groove->length_mm <= 10000))
        return refuse(in, RUNNEL_E_RANGE, "has a length that is not above 0 and at most 10 m");
    return status;
}

/* "in the left" */
static runnel_status read_face(const groove_reading *in, const char *part,
                               runnel_groove_form *groove) {
    static const word_value faces[] = {
        {"in the top", RUNNEL_FACE_TOP},     {"in the bottom", RUNNEL_FACE_BOTTOM},
        {"in the front", RUNNEL_FACE_FRONT}, {"in the back", RUNNEL_FACE_BACK},
        {"in the left", RUNNEL_FACE_LEFT},   {"in the right", RUNNEL_FACE_RIGHT}};
    unsigned face = 0;
    runnel_status status = take_word(part, faces, 6,
                                     "'in the top', 'in the bottom', 'in the front', 'in the "
                                     "back', 'in the left' or 'in the right'",
                                     in->problems, in->place, &face);
    if (!status)
        groove->face = (runnel_face)face;
    return status;
}

runnel_status runnel_finger_holds_parse(const char *text, runnel_problems *problems,
                                        const runnel_place *place, runnel_groove_form *groove) {
    const groove_reading in = {text, HOLDS_EXAMPLE, problems, place};
    char parts[PARTS_MOST][PART_SIZE];
    runnel_groove_form fresh = {.face = RUNNEL_FACE_BOTTOM};
    size_t count = split(text, parts);
    if (count != 3 && count != 4)
        return refuse(&in, RUNNEL_E_SYNTAX,
                      "needs the length, the cutter and the depth, with commas between");
    runnel_status status = read_slots(&in, parts[0], &fresh);
    if (!status)
        status = read_cut(&in, parts[1], parts[2], &fresh);
    if (!status && count == 4)
        status = read_face(&in, parts[3], &fresh);
    if (!status)
        *groove = fresh;
    return status;
}

/* ---- Wax ------------------------------------------------------------------------------------- */

/* An amount by weight, g, or by volume, ml. */
static bool take_amount(runnel_slice text, double *amount, runnel_basis *by) {
    double value = 0;
    if (!runnel_quantity_read(text, RUNNEL_MASS, NULL, NULL, &value))
        *by = RUNNEL_BASIS_WEIGHT;
    else if (!runnel_quantity_read(text, RUNNEL_VOLUME, NULL, NULL, &value))
        *by = RUNNEL_BASIS_VOLUME;
    else
        return false;
    *amount = *by == RUNNEL_BASIS_VOLUME ? value / RUNNEL_MM3_PER_ML : value;
    return *amount > 0;
}

runnel_status runnel_recipe_parse(const char *text, runnel_problems *problems,
                                  const runnel_place *place, runnel_wax_recipe *recipe) {
    runnel_wax_recipe fresh = {.oil = 0};
    runnel_ratio ratio = {0, 0, RUNNEL_BASIS_NONE};
    const char *colon = strchr(text, ':');
    if (colon && take_amount((runnel_slice){text, colon}, &fresh.oil, &fresh.oil_by) &&
        take_amount(runnel_slice_of(colon + 1), &fresh.wax, &fresh.wax_by)) {
        *recipe = fresh;
        return RUNNEL_OK;
    }
    runnel_status status = runnel_ratio_parse(text, problems, place, &ratio);
    if (status)
        return status;
    if (ratio.part_a < ratio.part_b)
        return runnel_problems_add(problems, RUNNEL_E_CONFLICT, place,
                                   "'%s': oil comes first, and this is less oil than wax; turn it "
                                   "round, or give both amounts where it is meant, such as '10 g : "
                                   "40 g'",
                                   text);
    *recipe = (runnel_wax_recipe){
        .oil = ratio.part_a, .oil_by = ratio.basis, .wax = ratio.part_b, .wax_by = ratio.basis};
    return RUNNEL_OK;
}
