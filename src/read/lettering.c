/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Text to letters: what does not depend on where the letters come from.
 */
#include "runnel/lettering.h"

#include "read/font.h"

#include "base/memory.h"
#include "base/suggest.h"
#include "base/utf8.h"
#include "runnel/units.h"
#include "shape/lattice.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/** Far more than a sign can hold; a whole file taken for a text must not fill the memory. */
#define MOST_TEXT_BYTES 100000
/** Letters of 10 m; what is larger was not meant in mm. */
#define LARGEST_MM 10000.0
/** Chord tolerances: from the noise of arithmetic to what can be seen on wood. */
#define FINEST_FLATTEN_MM   1e-6
#define COARSEST_FLATTEN_MM 1.0
#define USUAL_FLATTEN_MM    0.001
/** Problems told one by one; the rest is counted. */
#define MOST_BAD_BYTES  4
#define MOST_CHARACTERS 20

void runnel_lettering_clear(runnel_lettering *lettering) {
    if (!lettering)
        return;
    runnel_contours_clear(&lettering->contours);
    runnel_free(lettering->clusters);
    runnel_free(lettering->font_file);
    runnel_free(lettering->font_name);
    *lettering = (runnel_lettering){0};
}

/* ---- Help for the readers of letters ----------------------------------------------------------*/

static double left_mm(const runnel_line_scale *scale, const runnel_set_line *line) {
    return line->left_units * scale->unit_mm + (double)line->left_gaps * scale->gap_mm;
}

static double right_mm(const runnel_line_scale *scale, const runnel_set_line *line) {
    return line->right_units * scale->unit_mm + (double)line->right_gaps * scale->gap_mm;
}

double runnel_block_width(const runnel_shaped *shaped, const runnel_line_scale *scale) {
    double widest = 0;
    for (size_t i = 0; i < shaped->line_count; i++) {
        const runnel_set_line *line = &shaped->lines[i];
        widest = fmax(widest, right_mm(scale, line) - left_mm(scale, line));
    }
    return widest;
}

double runnel_letter_step(double width_mm, double height_mm) {
    const double most_beyond = 4; /* times what the advances take: ink may stand far out */
    double farthest_mm = most_beyond * (width_mm + height_mm);
    return runnel_lattice_step(isfinite(farthest_mm) ? farthest_mm : 0);
}

double runnel_line_shift(runnel_align align, const runnel_line_scale *scale,
                         const runnel_set_line *line, double width_mm) {
    double left = left_mm(scale, line), right = right_mm(scale, line);
    if (align == RUNNEL_ALIGN_CENTRE)
        return (width_mm - left - right) / 2;
    bool at_left = (align == RUNNEL_ALIGN_START) != line->right_to_left;
    return at_left ? -left : width_mm - right;
}

runnel_status runnel_hand_over(runnel_lettering *lettering, const char *name, char **path,
                               runnel_shaped *shaped) {
    lettering->font_name = runnel_copy_text(name);
    if (!lettering->font_name)
        return RUNNEL_E_NO_MEMORY;
    lettering->font_file = *path;
    *path = NULL;
    lettering->clusters = shaped->clusters;
    lettering->cluster_count = shaped->cluster_count;
    lettering->cluster_capacity = shaped->cluster_capacity;
    shaped->clusters = NULL;
    return RUNNEL_OK;
}

static int by_code(const void *one, const void *other) {
    uint32_t a = *(const uint32_t *)one, b = *(const uint32_t *)other;
    return (a > b) - (a < b);
}

/* "U+4E00 '一'"; a character that cannot be shown stands without itself. */
static char *name_character(uint32_t code) {
    char shown[5] = "";
    if (code < 0x80) {
        shown[0] = (char)code;
    } else if (code < 0x800) {
        shown[0] = (char)(0xC0 | code >> 6);
        shown[1] = (char)(0x80 | (code & 0x3F));
    } else if (code < 0x10000) {
        shown[0] = (char)(0xE0 | code >> 12);
        shown[1] = (char)(0x80 | (code >> 6 & 0x3F));
        shown[2] = (char)(0x80 | (code & 0x3F));
    } else {
        shown[0] = (char)(0xF0 | code >> 18);
        shown[1] = (char)(0x80 | (code >> 12 & 0x3F));
        shown[2] = (char)(0x80 | (code >> 6 & 0x3F));
        shown[3] = (char)(0x80 | (code & 0x3F));
    }
    bool control = code < 0x20 || (code >= 0x7F && code < 0xA0);
    return control ? runnel_format_text("U+%04X", (unsigned)code)
                   : runnel_format_text("U+%04X '%s'", (unsigned)code, shown);
}

/* Adds one more part to a list in words; frees the part. NULL for want of memory. */
static char *add_part(char *list, char *part) {
    char *longer =
        list && part ? runnel_format_text("%s%s%s", list, *list ? ", " : "", part) : NULL;
    runnel_free(list);
    runnel_free(part);
    return longer;
}

runnel_status runnel_tell_missing(uint32_t *characters, size_t count, const char *font,
                                  runnel_problems *problems, const runnel_place *place) {
    char *list = runnel_copy_text("");
    size_t named = 0, more = 0;
    qsort(characters, count, sizeof *characters, by_code);
    for (size_t i = 0; i < count; i++) {
        if (i && characters[i] == characters[i - 1])
            continue;
        if (named++ < MOST_CHARACTERS)
            list = add_part(list, name_character(characters[i]));
        else
            more++;
    }
    if (more)
        list = add_part(list, runnel_format_text("and %zu more", more));
    if (!list)
        return RUNNEL_E_NO_MEMORY;
    runnel_status status = runnel_problems_add(problems, RUNNEL_E_GLYPH, place,
                                               "font '%s' has no letter for %s", font, list);
    runnel_free(list);
    return status;
}

char *runnel_nearest_names(const char *word, const char **names, size_t count) {
    char *list = runnel_copy_text("");
    for (int found = 0; found < 3 && list; found++) {
        const char *nearest = runnel_nearest(word, names, count);
        if (!nearest)
            break;
        list = add_part(list, runnel_format_text("'%s'", nearest));
        for (size_t i = 0; i < count; i++)
            if (names[i] && names[i] != nearest && strcmp(names[i], nearest) == 0)
                names[i] = NULL;
        for (size_t i = 0; i < count; i++)
            if (names[i] == nearest)
                names[i] = NULL;
    }
    return list;
}

/* ---- Checks -----------------------------------------------------------------------------------*/

/** Where problems go. */
typedef struct teller {
    runnel_problems *problems;
    const runnel_place *place;
} teller;

static runnel_status tell_range(const teller *to, const char *what, double value,
                                const char *range) {
    char text[40];
    return runnel_problems_add(to->problems, RUNNEL_E_RANGE, to->place, "%s of '%s' %s", what,
                               runnel_number_exact(value, text, sizeof text), range);
}

static runnel_status check_length(const teller *to, const char *what, double value_mm) {
    if (value_mm > 0 && value_mm <= LARGEST_MM)
        return RUNNEL_OK;
    return tell_range(to, what, value_mm, "mm is not above 0 and at most 10000 mm");
}

static runnel_status check_size(const teller *to, const runnel_text *text) {
    bool cap = text->cap_height_mm != 0, block = text->text_height_mm != 0;
    if (cap && block)
        return runnel_problems_add(to->problems, RUNNEL_E_CONFLICT, to->place,
                                   "both a cap height and a text height are given; one of them "
                                   "makes the size");
    if (cap)
        return check_length(to, "cap height", text->cap_height_mm);
    if (block)
        return check_length(to, "text height", text->text_height_mm);
    return runnel_problems_add(to->problems, RUNNEL_E_MISSING, to->place,
                               "the size is missing: give a cap height or a text height");
}

static runnel_status check_numbers(const teller *to, const runnel_text *text) {
    runnel_status worst = check_size(to, text);
    if (!(fabs(text->spacing_mm) <= LARGEST_MM))
        worst = runnel_worse(worst, tell_range(to, "letter spacing", text->spacing_mm,
                                               "mm is not between -10000 and 10000 mm"));
    if (!(text->line_spacing >= 0 && text->line_spacing <= 100))
        worst = runnel_worse(worst, tell_range(to, "line spacing", text->line_spacing,
                                               "line heights is not between 0 and 100"));
    if (text->flatten_mm != 0 &&
        !(text->flatten_mm >= FINEST_FLATTEN_MM && text->flatten_mm <= COARSEST_FLATTEN_MM))
        worst = runnel_worse(worst, tell_range(to, "chord tolerance", text->flatten_mm,
                                               "mm is not between 0.000001 and 1 mm"));
    if (text->single_line && text->axes && *text->axes)
        worst =
            runnel_worse(worst, runnel_problems_add(to->problems, RUNNEL_E_CONFLICT,
                                                    text->axes_place ? text->axes_place : to->place,
                                                    "axes '%s' are for variable fonts; single-line "
                                                    "letters have none",
                                                    text->axes));
    return worst;
}

static runnel_status check_bytes(const teller *to, const char *text) {
    size_t bad = 0;
    for (size_t at = 0, length; text[at]; at += length) {
        uint32_t code = runnel_utf8_next(text + at, &length);
        if (code < 0xDC80 || code > 0xDCFF || length != 1)
            continue;
        if (bad++ < MOST_BAD_BYTES)
            runnel_problems_add(to->problems, RUNNEL_E_SYNTAX, to->place,
                                "the text is not well-formed UTF-8: byte %zu, '0x%02X', belongs to "
                                "no character",
                                at + 1, (unsigned)(unsigned char)text[at]);
    }
    if (bad > MOST_BAD_BYTES)
        runnel_problems_add(to->problems, RUNNEL_E_SYNTAX, to->place,
                            "the text is not well-formed UTF-8 in %zu more places",
                            bad - MOST_BAD_BYTES);
    return bad ? RUNNEL_E_SYNTAX : RUNNEL_OK;
}

static runnel_status check_text(const teller *to, const char *text) {
    if (!text || !*text)
        return runnel_problems_add(to->problems, RUNNEL_E_SHAPE, to->place,
                                   "the text is empty: there is nothing to carve");
    /* No further than the limit: the text may be a large file taken for one. */
    size_t length = 0;
    while (length <= MOST_TEXT_BYTES && text[length])
        length++;
    if (length > MOST_TEXT_BYTES)
        return runnel_problems_add(to->problems, RUNNEL_E_RANGE, to->place,
                                   "the text is longer than %d bytes", MOST_TEXT_BYTES);
    return check_bytes(to, text);
}

/* ---- Setting ----------------------------------------------------------------------------------*/

/* Moves all ink so that its lower left corner is the origin. */
static void move_to_origin(runnel_lettering *lettering) {
    runnel_box box = runnel_contours_box(&lettering->contours);
    for (size_t i = 0; i < lettering->contours.point_count; i++) {
        lettering->contours.points[i].x_mm -= box.min_x_mm;
        lettering->contours.points[i].y_mm -= box.min_y_mm;
    }
    for (size_t i = 0; i < lettering->cluster_count; i++) {
        runnel_box *cluster = &lettering->clusters[i].box;
        cluster->min_x_mm -= box.min_x_mm;
        cluster->max_x_mm -= box.min_x_mm;
        cluster->min_y_mm -= box.min_y_mm;
        cluster->max_y_mm -= box.min_y_mm;
    }
}

runnel_status runnel_lettering_set(const runnel_text *text, runnel_problems *problems,
                                   const runnel_place *place, runnel_lettering *lettering) {
    teller to = {problems, place};
    runnel_text usable = *text;
    runnel_lettering fresh = {0};
    runnel_status status = check_text(&to, text->text);
    /* The font is looked up in any case, so that all problems are told at once. */
    if (status)
        usable.text = "";
    if (text->flatten_mm == 0)
        usable.flatten_mm = USUAL_FLATTEN_MM;
    status = runnel_worse(status, check_numbers(&to, text));
    status = text->single_line ? runnel_single_line_set(&usable, status, problems, place, &fresh)
                               : runnel_font_set(&usable, status, problems, place, &fresh);
    if (!status && !fresh.contours.point_count)
        status = runnel_problems_add(problems, RUNNEL_E_SHAPE, place,
                                     "the text has only blanks: there is nothing to carve");
    if (status) {
        runnel_lettering_clear(&fresh);
        return status;
    }
    move_to_origin(&fresh);
    *lettering = fresh;
    return RUNNEL_OK;
}
