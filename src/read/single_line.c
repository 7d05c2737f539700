/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Single-line letters from Hershey sets: open centre lines for the cutter.
 *
 * A set is a text file with a line for each character from the blank on: a number, a count of
 * pairs, and the pairs, each coordinate as its distance from the letter R; the first pair is the
 * left and right edge, the pair " R" lifts the pen. The library trusts such a file, so it is
 * checked here before: a file of other content, too many lines or a count of 0 would lead it out of
 * its tables.
 */
#include "read/font.h"

#include "base/memory.h"
#include "base/utf8.h"
#include "read/font_name.h"
#include "shape/lattice.h"

#include <hersheyfont.h>

#include <dirent.h>
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

/** Characters that a set may describe: from the blank to the end of the library's table. */
#define MOST_LINES 224
/** The library reads a line into a buffer of 4096 bytes. */
#define MOST_LINE_BYTES 4000
/** Sets that are known have up to 16 kB. */
#define MOST_FILE_BYTES (1024 * 1024)
#define MOST_BAD_LINES  4
/**
 * Distance of base lines in units of the set: the cell that its letters are drawn in, from 16 above
 * the middle to 16 below. Capitals have 21, and 7 are below the base line.
 */
#define LINE_HEIGHT_UNITS 32.0

/** What is at work. */
typedef struct setting {
    const runnel_text *text;
    runnel_problems *problems;
    const runnel_place *place, *font_place;
    char *path;
    struct hershey_font *set;
    runnel_shaped shaped; /* "glyph" is the character */
    uint32_t *missing;
    size_t missing_count, missing_capacity;
    double scale_mm; /* of one unit of the set */
    double step_mm;  /* of the lattice on which letters stand */
    runnel_lettering *out;
} setting;

/* ---- Finding ----------------------------------------------------------------------------------*/

static const char *const folders[] = {"/usr/share/hershey-fonts", "/usr/local/share/hershey-fonts"};
static const char ending[] = ".jhf";

/* Bytes of a name before the ending of set files, or 0 when it has none. */
static size_t stem_length(const char *name) {
    size_t length = strlen(name), size = sizeof ending - 1;
    return length > size && strcmp(name + length - size, ending) == 0 ? length - size : 0;
}

static bool is_file(const char *path) {
    struct stat about;
    return stat(path, &about) == 0 && S_ISREG(about.st_mode);
}

static runnel_status list_folder(const char *folder, char ***names, size_t *count,
                                 size_t *capacity) {
    runnel_status status = RUNNEL_OK;
    DIR *open = opendir(folder);
    if (!open)
        return RUNNEL_OK;
    for (const struct dirent *entry; !status && (entry = readdir(open));) {
        size_t length = stem_length(entry->d_name);
        if (!length)
            continue;
        char *name = runnel_copy_bytes(entry->d_name, length);
        if (!name || runnel_reserve(names, capacity, *count + 1, sizeof **names)) {
            runnel_free(name);
            status = RUNNEL_E_NO_MEMORY;
        } else {
            (*names)[(*count)++] = name;
        }
    }
    closedir(open);
    return status;
}

static runnel_status tell_no_set(const setting *work) {
    char **names = NULL, *nearest = NULL;
    const char **borrowed = NULL;
    size_t count = 0, capacity = 0;
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < sizeof folders / sizeof *folders && !status; i++)
        status = list_folder(folders[i], &names, &count, &capacity);
    if (status)
        goto cleanup;
    status = RUNNEL_E_NO_MEMORY;
    borrowed = runnel_zeroed(count + 1, sizeof *borrowed);
    if (!borrowed)
        goto cleanup;
    for (size_t i = 0; i < count; i++)
        borrowed[i] = names[i];
    nearest = runnel_nearest_names(work->text->font, borrowed, count);
    if (!nearest)
        goto cleanup;
    status = runnel_problems_add(
        work->problems, RUNNEL_E_FONT, work->font_place,
        "no set of single-line letters '%s' is installed; %s%s", work->text->font,
        *nearest ? "near to it: " : "give a set such as 'rowmans' or the path of a .jhf file",
        nearest);
cleanup:
    for (size_t i = 0; i < count; i++)
        runnel_free(names[i]);
    runnel_free(names);
    runnel_free(borrowed);
    runnel_free(nearest);
    return status;
}

/* The file of the set asked for. */
static runnel_status find_set(setting *work) {
    const char *name = work->text->font;
    if (!name || !*name)
        return runnel_problems_add(work->problems, RUNNEL_E_MISSING, work->font_place,
                                   "no set of single-line letters is given, such as 'rowmans'");
    if (runnel_font_is_file(name)) {
        if (!is_file(name))
            return runnel_problems_add(work->problems, RUNNEL_E_NOT_FOUND, work->font_place,
                                       "file '%s' of single-line letters cannot be found", name);
        work->path = runnel_copy_text(name);
        return work->path ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
    }
    for (size_t i = 0; i < sizeof folders / sizeof *folders; i++) {
        char *path = runnel_format_text("%s/%s%s", folders[i], name, ending);
        if (!path)
            return RUNNEL_E_NO_MEMORY;
        if (is_file(path)) {
            work->path = path;
            return RUNNEL_OK;
        }
        runnel_free(path);
    }
    return tell_no_set(work);
}

/* ---- Checking the file ------------------------------------------------------------------------*/

/* Whole number in a field padded with blanks at the left; -1 when it is none. */
static int field_number(const char *field, size_t length) {
    int value = -1;
    for (size_t i = 0; i < length; i++) {
        if (field[i] == ' ' && value < 0)
            continue;
        if (field[i] < '0' || field[i] > '9')
            return -1;
        value = (value < 0 ? 0 : value) * 10 + (field[i] - '0');
    }
    return value;
}

/* What is wrong with a line, or NULL. */
static const char *line_fault(const char *line, size_t length) {
    if (length > MOST_LINE_BYTES)
        return "is too long";
    for (size_t i = 0; i < length; i++)
        if (line[i] < ' ' || line[i] > '~')
            return "holds a character that is not printable ASCII";
    if (length < 10 || field_number(line, 5) < 0)
        return "does not begin with a number, a count and the two edges";
    int count = field_number(line + 5, 3);
    if (count < 1 || length != 8 + 2 * (size_t)count)
        return "has not as many pairs as it states";
    if (line[8] > line[9])
        return "has its right edge to the left of the left one";
    if (length > 10 && line[10] == ' ' && line[11] == 'R')
        return "lifts the pen before it draws";
    return NULL;
}

static runnel_status tell_line(const setting *work, size_t number, const char *fault) {
    return runnel_problems_add(work->problems, RUNNEL_E_FONT, work->font_place,
                               "'%s' is no file of single-line letters: line %zu %s", work->path,
                               number, fault);
}

static runnel_status check_lines(const setting *work, const char *data, size_t bytes) {
    size_t number = 0, bad = 0;
    for (size_t at = 0, length; at < bytes; at += length + 1) {
        const char *end = memchr(data + at, '\n', bytes - at);
        length = end ? (size_t)(end - (data + at)) : bytes - at;
        const char *fault = line_fault(data + at, length);
        if (++number > MOST_LINES)
            fault = "is one too many";
        if (!fault)
            continue;
        if (++bad > MOST_BAD_LINES)
            break;
        tell_line(work, number, fault);
    }
    if (!number)
        return runnel_problems_add(work->problems, RUNNEL_E_FONT, work->font_place,
                                   "'%s' is no file of single-line letters: it is empty",
                                   work->path);
    if (bad > MOST_BAD_LINES)
        tell_line(work, number, "is wrong as well; no more of them are told");
    return bad ? RUNNEL_E_FONT : RUNNEL_OK;
}

static runnel_status check_file(const setting *work) {
    FILE *file = fopen(work->path, "rb");
    if (!file)
        return runnel_problems_add(work->problems, RUNNEL_E_NOT_FOUND, work->font_place,
                                   "file '%s' of single-line letters cannot be opened: %s",
                                   work->path, strerror(errno));
    runnel_status status = RUNNEL_E_NO_MEMORY;
    char *data = runnel_resize(NULL, MOST_FILE_BYTES + 1, 1);
    if (data) {
        size_t bytes = fread(data, 1, MOST_FILE_BYTES + 1, file);
        if (ferror(file))
            status = runnel_problems_add(work->problems, RUNNEL_E_IO, work->font_place,
                                         "file '%s' cannot be read", work->path);
        else if (bytes > MOST_FILE_BYTES)
            status = runnel_problems_add(work->problems, RUNNEL_E_FONT, work->font_place,
                                         "'%s' is no file of single-line letters: it is too large",
                                         work->path);
        else
            status = check_lines(work, data, bytes);
    }
    runnel_free(data);
    fclose(file);
    return status;
}

/* ---- Letters ----------------------------------------------------------------------------------*/

static const struct hershey_glyph *letter_of(const setting *work, uint32_t code) {
    return hershey_font_glyph(work->set, (unsigned char)code);
}

/* Box of a letter's points, as rows of units; empty when it has none. */
static runnel_glyph measure(const struct hershey_glyph *letter) {
    runnel_glyph box = {.min_x_units = INFINITY,
                        .min_y_units = INFINITY,
                        .max_x_units = -INFINITY,
                        .max_y_units = -INFINITY};
    for (const struct hershey_path *path = letter->paths; path; path = path->next)
        for (int i = 0; i < path->nverts; i++) {
            box.min_x_units = fmin(box.min_x_units, path->verts[i].x);
            box.min_y_units = fmin(box.min_y_units, path->verts[i].y);
            box.max_x_units = fmax(box.max_x_units, path->verts[i].x);
            box.max_y_units = fmax(box.max_y_units, path->verts[i].y);
        }
    return box;
}

/* In one set the J has no width though it has ink: it gets at its right what it has at its left. */
static double width_of(const struct hershey_glyph *letter) {
    if (letter->width || !letter->paths)
        return letter->width;
    runnel_glyph box = measure(letter);
    return fmax(0, box.min_x_units) + box.max_x_units;
}

static runnel_status add_letter(setting *work, uint32_t code, size_t byte, size_t bytes,
                                runnel_set_line *line) {
    runnel_shaped *out = &work->shaped;
    bool there = code >= ' ' && code <= '~' && (letter_of(work, code)->paths || code == ' ');
    if (!there) {
        if (runnel_reserve(&work->missing, &work->missing_capacity, work->missing_count + 1,
                           sizeof *work->missing))
            return RUNNEL_E_NO_MEMORY;
        work->missing[work->missing_count++] = code;
        return RUNNEL_OK;
    }
    if (runnel_reserve(&out->glyphs, &out->glyph_capacity, out->glyph_count + 1,
                       sizeof *out->glyphs) ||
        runnel_reserve(&out->clusters, &out->cluster_capacity, out->cluster_count + 1,
                       sizeof *out->clusters))
        return RUNNEL_E_NO_MEMORY;
    runnel_contours nothing = {0};
    out->clusters[out->cluster_count] =
        (runnel_cluster){byte, bytes, runnel_contours_box(&nothing)};
    out->glyphs[out->glyph_count++] = (runnel_set_glyph){.glyph = code,
                                                         .x_units = line->right_units,
                                                         .gaps = line->count,
                                                         .cluster = out->cluster_count++};
    line->count++;
    line->right_units += width_of(letter_of(work, code));
    return RUNNEL_OK;
}

/* Blanks at the end, and the gap after the last letter, do not count for the line's extent. */
static void trim_line(const setting *work, runnel_set_line *line) {
    size_t count = line->count;
    for (; count && work->shaped.glyphs[line->first + count - 1].glyph == ' '; count--)
        line->right_units = work->shaped.glyphs[line->first + count - 1].x_units;
    line->right_gaps = count ? count - 1 : 0;
}

static runnel_status add_line(setting *work, runnel_set_line *line) {
    if (runnel_reserve(&work->shaped.lines, &work->shaped.line_capacity,
                       work->shaped.line_count + 1, sizeof *work->shaped.lines))
        return RUNNEL_E_NO_MEMORY;
    trim_line(work, line);
    work->shaped.lines[work->shaped.line_count++] = *line;
    *line = (runnel_set_line){.first = work->shaped.glyph_count};
    return RUNNEL_OK;
}

static runnel_status read_text(setting *work) {
    const char *text = work->text->text;
    runnel_set_line line = {0};
    runnel_status status = RUNNEL_OK;
    for (size_t at = 0, length; text[at] && !status; at += length) {
        uint32_t code = runnel_utf8_next(text + at, &length);
        if (code == '\n')
            status = add_line(work, &line);
        else if (code != '\r' || text[at + 1] != '\n')
            status = add_letter(work, code, at, length, &line);
    }
    if (!status)
        status = add_line(work, &line);
    if (!status && work->missing_count)
        status = runnel_tell_missing(work->missing, work->missing_count, work->text->font,
                                     work->problems, work->place);
    return status;
}

/* ---- Size and place ---------------------------------------------------------------------------*/

static double base_line_units(const setting *work, size_t line) {
    double spacing = work->text->line_spacing != 0 ? work->text->line_spacing : 1;
    return -(double)line * LINE_HEIGHT_UNITS * spacing;
}

static double ink_height(const setting *work) {
    double low = INFINITY, high = -INFINITY;
    for (size_t i = 0; i < work->shaped.line_count; i++) {
        const runnel_set_line *line = &work->shaped.lines[i];
        for (size_t k = line->first; k < line->first + line->count; k++) {
            runnel_glyph box = measure(letter_of(work, work->shaped.glyphs[k].glyph));
            low = fmin(low, box.min_y_units + base_line_units(work, i));
            high = fmax(high, box.max_y_units + base_line_units(work, i));
        }
    }
    return high - low;
}

static runnel_status find_scale(setting *work) {
    runnel_glyph h = measure(letter_of(work, 'H'));
    double cap_height_units = fmax(0, h.max_y_units - h.min_y_units);
    double height_units = ink_height(work);
    if (work->text->cap_height_mm != 0 && cap_height_units <= 0)
        return runnel_problems_add(work->problems, RUNNEL_E_FONT, work->font_place,
                                   "set '%s' has no letter H to measure; give the text height "
                                   "instead of the cap height",
                                   work->text->font);
    if (work->text->cap_height_mm != 0)
        work->scale_mm = work->text->cap_height_mm / cap_height_units;
    else if (height_units > 0)
        work->scale_mm = work->text->text_height_mm / height_units;
    else if (height_units == 0)
        return runnel_problems_add(work->problems, RUNNEL_E_SHAPE, work->place,
                                   "the text is one level stroke, which has no height to measure; "
                                   "give the cap height instead of the text height");
    else
        work->scale_mm = 1; /* no ink, which is told at the end */
    work->out->cap_height_mm = cap_height_units * work->scale_mm;
    return RUNNEL_OK;
}

static void grow(runnel_box *box, double x_mm, double y_mm) {
    box->min_x_mm = fmin(box->min_x_mm, x_mm);
    box->min_y_mm = fmin(box->min_y_mm, y_mm);
    box->max_x_mm = fmax(box->max_x_mm, x_mm);
    box->max_y_mm = fmax(box->max_y_mm, y_mm);
}

/* The strokes of a letter. A stroke of one point, a dot, stays a contour of one point. */
static runnel_status draw(setting *work, const runnel_set_glyph *glyph, double dx_mm,
                          double dy_mm) {
    runnel_contours *contours = &work->out->contours;
    const struct hershey_path *path = letter_of(work, glyph->glyph)->paths;
    runnel_point from = runnel_on_lattice((runnel_point){dx_mm, dy_mm}, work->step_mm);
    runnel_status status = RUNNEL_OK;
    for (; path && !status; path = path->next) {
        if (path->nverts)
            status = runnel_contours_begin(contours, false);
        for (int i = 0; i < path->nverts && !status; i++) {
            runnel_point at = {path->verts[i].x * work->scale_mm,
                               path->verts[i].y * work->scale_mm};
            at = runnel_on_lattice(at, work->step_mm);
            at = (runnel_point){at.x_mm + from.x_mm, at.y_mm + from.y_mm};
            status = runnel_contours_add(contours, at.x_mm, at.y_mm);
            grow(&work->shaped.clusters[glyph->cluster].box, at.x_mm, at.y_mm);
        }
    }
    return status;
}

static runnel_status draw_all(setting *work) {
    double gap_mm = work->text->spacing_mm;
    runnel_line_scale scale = {work->scale_mm, gap_mm};
    double width_mm = runnel_block_width(&work->shaped, &scale);
    work->step_mm = runnel_letter_step(width_mm, -base_line_units(work, work->shaped.line_count) *
                                                     work->scale_mm);
    for (size_t i = 0; i < work->shaped.line_count; i++) {
        const runnel_set_line *line = &work->shaped.lines[i];
        double shift_mm = runnel_line_shift(work->text->align, &scale, line, width_mm);
        for (size_t k = line->first; k < line->first + line->count; k++) {
            const runnel_set_glyph *glyph = &work->shaped.glyphs[k];
            runnel_status status =
                draw(work, glyph,
                     shift_mm + glyph->x_units * work->scale_mm + (double)glyph->gaps * gap_mm,
                     base_line_units(work, i) * work->scale_mm);
            if (status)
                return status;
        }
    }
    return RUNNEL_OK;
}

static runnel_status load_set(setting *work) {
    runnel_status status = find_set(work);
    if (!status)
        status = check_file(work);
    if (status)
        return status;
    work->set = hershey_jhf_font_load(work->path);
    return work->set ? RUNNEL_OK
                     : runnel_problems_add(work->problems, RUNNEL_E_FONT, work->font_place,
                                           "'%s' is no file of single-line letters", work->path);
}

runnel_status runnel_single_line_set(const runnel_text *text, runnel_status so_far,
                                     runnel_problems *problems, const runnel_place *place,
                                     runnel_lettering *lettering) {
    setting work = {.text = text,
                    .problems = problems,
                    .place = place,
                    .font_place = runnel_font_place(text, place),
                    .out = lettering};
    runnel_status status = load_set(&work);
    if (!status)
        status = read_text(&work);
    status = runnel_worse(so_far, status);
    if (!status)
        status = find_scale(&work);
    if (!status)
        status = draw_all(&work);
    if (!status)
        status = runnel_hand_over(lettering, text->font, &work.path, &work.shaped);
    if (work.set)
        hershey_font_free(work.set);
    runnel_shaped_clear(&work.shaped);
    runnel_free(work.missing);
    runnel_free(work.path);
    return status;
}
