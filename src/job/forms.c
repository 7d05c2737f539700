/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/forms.h"

#include "base/quantity.h"
#include "base/suggest.h"
#include "job/form_reading.h"

#include <string.h>

runnel_status runnel_form_refuse(const runnel_form_reading *input, runnel_status status,
                                 const char *what) {
    char shown[RUNNEL_SHOWN_SIZE];
    return runnel_problems_add(input->problems, status, input->place, "'%s' %s; write it like '%s'",
                               runnel_slice_show(input->whole, shown), what, input->example);
}

static bool is_letter(uint32_t point) {
    return (point | 0x20) >= 'a' && (point | 0x20) <= 'z';
}

bool runnel_form_take(runnel_slice *text, const char *words) {
    runnel_slice rest = *text;
    for (; *words; words++) {
        uint32_t point = runnel_slice_peek(rest, NULL);
        if (*words == ' ' && runnel_slice_skip_blanks(&rest))
            continue;
        bool same =
            *words == ' ' ? point == '-' : is_letter(point) && (point | 0x20) == (uint32_t)*words;
        if (!same)
            return false;
        runnel_slice_step(&rest);
    }
    if (rest.at < rest.end && !runnel_slice_skip_blanks(&rest))
        return false;
    *text = rest;
    return true;
}

bool runnel_form_cut(runnel_slice text, const char *word, runnel_slice *before,
                     runnel_slice *after) {
    bool apart = true;
    for (runnel_slice rest = text; rest.at < rest.end; runnel_slice_step(&rest)) {
        runnel_slice behind = rest;
        if (apart && runnel_slice_take_word(&behind, word)) {
            *before = runnel_slice_trim((runnel_slice){text.at, rest.at});
            *after = runnel_slice_trim(behind);
            return true;
        }
        apart = !is_letter(runnel_slice_peek(rest, NULL));
    }
    return false;
}

/* Judges sizes that have been read: negative and too large ones are out of range, those of nothing
 * leave no shape. */
static runnel_status check_sizes(const runnel_form_reading *input, const double *sizes_mm,
                                 size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (sizes_mm[i] < 0)
            return runnel_form_refuse(input, RUNNEL_E_RANGE,
                                      "has a size below 0, where sizes are above 0");
        if (sizes_mm[i] < RUNNEL_FORM_LEAST_MM)
            return runnel_form_refuse(input, RUNNEL_E_SHAPE,
                                      "has a size of 0, where sizes are above 0");
        if (sizes_mm[i] > RUNNEL_FORM_MOST_MM)
            return runnel_form_refuse(input, RUNNEL_E_RANGE, "is more than a kilometre wide");
    }
    return RUNNEL_OK;
}

static runnel_status read_sizes(const runnel_form_reading *input, const runnel_slice *parts,
                                size_t count, size_t wanted, double *sizes_mm) {
    if (count != wanted)
        return runnel_form_refuse(input, RUNNEL_E_SYNTAX,
                                  wanted == 1 ? "needs one length, the diameter"
                                              : "needs two lengths with an x between");
    return runnel_lengths_read(input->whole, parts, count, input->problems, input->place, sizes_mm);
}

static runnel_status read_two(const runnel_form_reading *input, runnel_slice text,
                              runnel_form *form) {
    runnel_slice parts[RUNNEL_MOST_LENGTHS];
    double sizes_mm[2] = {0, 0};
    size_t count = runnel_split_sizes(text, parts);
    runnel_status status = read_sizes(input, parts, count, 2, sizes_mm);
    if (!status)
        status = check_sizes(input, sizes_mm, 2);
    form->a_mm = sizes_mm[0];
    form->b_mm = sizes_mm[1];
    return status;
}

static runnel_status read_one(const runnel_form_reading *input, runnel_slice text,
                              runnel_form *form) {
    runnel_slice parts[RUNNEL_MOST_LENGTHS];
    size_t count = runnel_split_sizes(text, parts);
    runnel_status status = read_sizes(input, parts, count, 1, &form->a_mm);
    return status ? status : check_sizes(input, &form->a_mm, 1);
}

static runnel_status check_radius(const runnel_form_reading *input, const double *sizes_mm) {
    double shorter_mm = sizes_mm[0] < sizes_mm[1] ? sizes_mm[0] : sizes_mm[1];
    if (sizes_mm[2] < RUNNEL_FORM_LEAST_MM)
        return runnel_form_refuse(input, RUNNEL_E_RANGE,
                                  "has a corner radius that is not above 0 (without one it is a "
                                  "'rectangle')");
    if (sizes_mm[2] > shorter_mm / 2)
        return runnel_form_refuse(input, RUNNEL_E_RANGE,
                                  "has a corner radius above half its shorter side");
    return RUNNEL_OK;
}

static runnel_status read_rounded(const runnel_form_reading *input, runnel_slice text,
                                  runnel_form *form) {
    runnel_slice before, radius, parts[RUNNEL_MOST_LENGTHS];
    double sizes_mm[3] = {0, 0, 0};
    if (!runnel_form_cut(text, "r", &before, &radius) &&
        !runnel_form_cut(text, "radius", &before, &radius))
        return runnel_form_refuse(input, RUNNEL_E_SYNTAX, "has no corner radius behind an r");
    if (runnel_split_sizes(before, parts) != 2)
        return runnel_form_refuse(input, RUNNEL_E_SYNTAX, "needs two lengths with an x between");
    parts[2] = radius;
    runnel_status status =
        runnel_lengths_read(input->whole, parts, 3, input->problems, input->place, sizes_mm);
    if (!status)
        status = check_sizes(input, sizes_mm, 2);
    if (!status)
        status = check_radius(input, sizes_mm);
    form->a_mm = sizes_mm[0];
    form->b_mm = sizes_mm[1];
    form->r_mm = sizes_mm[2];
    return status;
}

/* The forms, and whether an outline may have them; a path may have any. */
static const struct form_word {
    const char *words;
    runnel_form_kind kind;
    bool for_outline;
    runnel_status (*read)(const runnel_form_reading *input, runnel_slice text, runnel_form *form);
    const char *example;
} form_words[] = {
    {"rectangle", RUNNEL_FORM_RECTANGLE, true, read_two, "rectangle 60 x 40 mm"},
    {"rounded rectangle", RUNNEL_FORM_ROUNDED_RECTANGLE, true, read_rounded,
     "rounded rectangle 380 x 220 r 20 mm"},
    {"circle", RUNNEL_FORM_CIRCLE, true, read_one, "circle 40 mm"},
    {"ellipse", RUNNEL_FORM_ELLIPSE, true, read_two, "ellipse 60 x 40 mm"},
    {"polygon", RUNNEL_FORM_POLYGON, true, runnel_form_read_points, "polygon 0,0 60,0 60,40 mm"},
    {"line", RUNNEL_FORM_LINE, false, runnel_form_read_points, "line 0,0 100,0 mm"},
    {"polyline", RUNNEL_FORM_POLYLINE, false, runnel_form_read_points,
     "polyline 0,0 50,0 50,30 mm"},
};
enum { FORM_WORDS = sizeof form_words / sizeof *form_words };

/* The form whose name is nearest to the first words of a text, or NULL. */
static const char *nearest_form(runnel_slice text, bool is_path) {
    const char *names[FORM_WORDS];
    char words[64];
    size_t count = 0, length = 0;
    for (size_t i = 0; i < FORM_WORDS; i++)
        if (is_path || form_words[i].for_outline)
            names[count++] = form_words[i].words;
    /* two words, then one of them: a slip may be in either */
    const char *nearest = NULL;
    for (size_t spaces = 2; spaces-- > 0 && !nearest;) {
        size_t left = spaces;
        for (length = 0; text.at + length < text.end && length < sizeof words - 1; length++) {
            if (text.at[length] == ' ' && left-- == 0)
                break;
            words[length] = text.at[length];
        }
        words[length] = '\0';
        nearest = runnel_nearest(words, names, count);
    }
    return nearest;
}

static runnel_status refuse_word(const runnel_form_reading *input) {
    char shown[RUNNEL_SHOWN_SIZE];
    const char *near = nearest_form(input->whole, input->is_path);
    return runnel_problems_add(
        input->problems, RUNNEL_E_UNKNOWN, input->place,
        "'%s' does not start with %s%s%s%s; write it like 'rectangle 60 x 40 mm', 'rounded "
        "rectangle 380 x 220 r 20 mm', 'circle 40 mm', 'ellipse 60 x 40 mm', %s",
        runnel_slice_show(input->whole, shown), input->is_path ? "a known path" : "a known outline",
        near ? " (did you mean '" : "", near ? near : "", near ? "'?)" : "",
        input->is_path ? "'polygon 0,0 60,0 60,40 mm', 'line 0,0 100,0 mm' or "
                         "'polyline 0,0 50,0 50,30 mm'"
                       : "or 'polygon 0,0 60,0 60,40 mm'");
}

static runnel_status parse_form(const char *text, bool is_path, runnel_problems *problems,
                                const runnel_place *place, runnel_form *form) {
    runnel_slice rest = runnel_slice_trim(runnel_slice_of(text));
    runnel_form_reading input = {rest, problems, place, "", is_path};
    const struct form_word *word = form_words, *end = form_words + FORM_WORDS;
    while (word < end && !runnel_form_take(&rest, word->words))
        word++;
    if (word == end)
        return refuse_word(&input);
    if (!is_path && !word->for_outline) {
        input.example = "polygon 0,0 60,0 60,40 mm";
        return runnel_form_refuse(&input, RUNNEL_E_SYNTAX,
                                  "is a path, and an outline is needed, which encloses an area");
    }
    input.example = word->example;
    if (rest.at == rest.end)
        return runnel_form_refuse(&input, RUNNEL_E_SYNTAX, "has no sizes");
    runnel_form fresh = {.kind = word->kind};
    runnel_contours_init(&fresh.corners);
    runnel_status status = word->read(&input, rest, &fresh);
    if (status)
        runnel_form_clear(&fresh);
    else
        *form = fresh;
    return status;
}

runnel_status runnel_form_parse_outline(const char *text, runnel_problems *problems,
                                        const runnel_place *place, runnel_form *form) {
    return parse_form(text, false, problems, place, form);
}

runnel_status runnel_form_parse_path(const char *text, runnel_problems *problems,
                                     const runnel_place *place, runnel_form *form) {
    return parse_form(text, true, problems, place, form);
}

void runnel_form_clear(runnel_form *form) {
    if (!form)
        return;
    runnel_contours_clear(&form->corners);
    memset(form, 0, sizeof *form);
}
