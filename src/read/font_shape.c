/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Shaping: each line is cut into runs of one direction and one script, each run is shaped by
 * HarfBuzz, and the runs are put side by side as they are seen.
 */
#include "read/font.h"

#include "base/late.h"
#include "base/memory.h"
#include "base/utf8.h"

#include <hb-ot.h>
#include <hb.h>

#include <stdlib.h>
#include <string.h>

#define CALLS(X)                                                                                   \
    X(hb_buffer_add_utf8)                                                                          \
    X(hb_buffer_allocation_successful)                                                             \
    X(hb_buffer_clear_contents)                                                                    \
    X(hb_buffer_create)                                                                            \
    X(hb_buffer_destroy)                                                                           \
    X(hb_buffer_get_glyph_infos)                                                                   \
    X(hb_buffer_get_glyph_positions)                                                               \
    X(hb_buffer_set_direction)                                                                     \
    X(hb_buffer_set_flags)                                                                         \
    X(hb_buffer_set_script)                                                                        \
    X(hb_font_get_nominal_glyph)                                                                   \
    X(hb_shape_full)                                                                               \
    X(hb_unicode_funcs_get_default)                                                                \
    X(hb_unicode_general_category)                                                                 \
    X(hb_unicode_script)
RUNNEL_LATE(CALLS, RUNNEL_LATE_HARFBUZZ);

#define POSITIONS_PER_UNIT 64.0

/** One character of the line in work. */
typedef struct letter {
    uint32_t code;
    size_t byte; /* in the line */
    hb_script_t script;
} letter;

/** Neighbours of one direction and script. */
typedef struct run {
    size_t first, count; /* characters of the line */
    int level;
    hb_script_t script;
} run;

/** What is at work. */
typedef struct shaping {
    runnel_face *face;
    hb_font_t *font;
    hb_buffer_t *buffer;
    hb_unicode_funcs_t *unicode;
    const runnel_text *text;
    runnel_problems *problems;
    const runnel_place *place;
    runnel_shaped *out;
    /* The line in work: */
    const char *line;
    size_t line_bytes;
    letter *letters;
    signed char *levels;
    uint32_t *codes;
    run *runs;
    size_t letter_count, letter_capacity, level_capacity, code_capacity;
    size_t run_count, run_capacity;
    double pen_units;
    size_t pen_gaps;
    bool measured; /* something has counted for the extent of the line */
    /* Of the whole text: */
    uint32_t *missing;
    size_t missing_count, missing_capacity;
    bool torn_told;
} shaping;

void runnel_shaped_clear(runnel_shaped *shaped) {
    runnel_free(shaped->glyphs);
    runnel_free(shaped->lines);
    runnel_free(shaped->clusters);
    *shaped = (runnel_shaped){0};
}

/* ---- Cutting a line into runs -----------------------------------------------------------------*/

static runnel_status read_letters(shaping *work) {
    work->letter_count = 0;
    for (size_t at = 0, length; at < work->line_bytes; at += length) {
        size_t count = work->letter_count + 1;
        if (runnel_reserve(&work->letters, &work->letter_capacity, count, sizeof *work->letters) ||
            runnel_reserve(&work->codes, &work->code_capacity, count, sizeof *work->codes) ||
            runnel_reserve(&work->levels, &work->level_capacity, count, sizeof *work->levels))
            return RUNNEL_E_NO_MEMORY;
        uint32_t code = runnel_utf8_next(work->line + at, &length);
        work->codes[count - 1] = code;
        work->letters[count - 1] = (letter){code, at, lib.hb_unicode_script(work->unicode, code)};
        work->letter_count = count;
    }
    return RUNNEL_OK;
}

static bool has_script(hb_script_t script) {
    return script != HB_SCRIPT_COMMON && script != HB_SCRIPT_INHERITED &&
           script != HB_SCRIPT_UNKNOWN && script != HB_SCRIPT_INVALID;
}

/* Digits, marks and signs go with the letters before them, at the start with those after. */
static void settle_scripts(shaping *work) {
    hb_script_t script = HB_SCRIPT_COMMON;
    for (size_t i = 0; i < work->letter_count && !has_script(script); i++)
        script = work->letters[i].script;
    if (!has_script(script))
        script = HB_SCRIPT_COMMON;
    for (size_t i = 0; i < work->letter_count; i++) {
        if (has_script(work->letters[i].script))
            script = work->letters[i].script;
        work->letters[i].script = script;
    }
}

static runnel_status cut_runs(shaping *work) {
    work->run_count = 0;
    for (size_t i = 0; i < work->letter_count; i++) {
        run *last = work->run_count ? &work->runs[work->run_count - 1] : NULL;
        if (last && last->level == work->levels[i] && last->script == work->letters[i].script) {
            last->count++;
            continue;
        }
        if (runnel_reserve(&work->runs, &work->run_capacity, work->run_count + 1,
                           sizeof *work->runs))
            return RUNNEL_E_NO_MEMORY;
        work->runs[work->run_count++] = (run){i, 1, work->levels[i], work->letters[i].script};
    }
    return RUNNEL_OK;
}

/* Rule L2 of the bidirectional algorithm: from the highest level down to the lowest odd one, turn
 * round every stretch of runs at that level or above. */
static void order_runs(shaping *work) {
    int highest = 0;
    for (size_t i = 0; i < work->run_count; i++)
        highest = work->runs[i].level > highest ? work->runs[i].level : highest;
    for (int level = highest; level > 0; level--)
        for (size_t i = 0, end; i < work->run_count; i = end + 1) {
            for (end = i; end < work->run_count && work->runs[end].level >= level;)
                end++;
            for (size_t a = i, b = end; a + 1 < b; a++, b--) {
                run kept = work->runs[a];
                work->runs[a] = work->runs[b - 1];
                work->runs[b - 1] = kept;
            }
        }
}

/* ---- Shaping a run ----------------------------------------------------------------------------*/

/* Byte of the line where the run's character `i` begins. */
static size_t byte_at(const shaping *work, size_t i) {
    return i < work->letter_count ? work->letters[i].byte : work->line_bytes;
}

static runnel_status shape_run(shaping *work, const run *part) {
    /* Spaced letters are single letters. */
    static const hb_feature_t apart[] = {
        {HB_TAG('l', 'i', 'g', 'a'), 0, HB_FEATURE_GLOBAL_START, HB_FEATURE_GLOBAL_END},
        {HB_TAG('c', 'l', 'i', 'g'), 0, HB_FEATURE_GLOBAL_START, HB_FEATURE_GLOBAL_END},
    };
    static const char *const shapers[] = {"ot", NULL};
    size_t first = byte_at(work, part->first), end = byte_at(work, part->first + part->count);
    unsigned flags = HB_BUFFER_FLAG_DO_NOT_INSERT_DOTTED_CIRCLE |
                     (first == 0 ? HB_BUFFER_FLAG_BOT : 0U) |
                     (end == work->line_bytes ? HB_BUFFER_FLAG_EOT : 0U);
    lib.hb_buffer_clear_contents(work->buffer);
    lib.hb_buffer_set_flags(work->buffer, (hb_buffer_flags_t)flags);
    /* The whole line is given as context, for letters that join across the ends of a run. */
    lib.hb_buffer_add_utf8(work->buffer, work->line, (int)work->line_bytes, (unsigned)first,
                           (int)(end - first));
    lib.hb_buffer_set_direction(work->buffer,
                                part->level & 1 ? HB_DIRECTION_RTL : HB_DIRECTION_LTR);
    lib.hb_buffer_set_script(work->buffer, part->script);
    /* No language: HarfBuzz would take the one of the process's locale for a guess. */
    hb_bool_t done = lib.hb_shape_full(work->font, work->buffer, apart,
                                       work->text->spacing_mm != 0 ? 2 : 0, shapers);
    if (runnel_face_starved(work->face) || !lib.hb_buffer_allocation_successful(work->buffer))
        return RUNNEL_E_NO_MEMORY;
    return done ? RUNNEL_OK : RUNNEL_E_NOT_COMPUTED;
}

/* The character of a cluster that the face lacks; composed and split forms are the shaper's to
 * find, so this is asked only once a glyph is missing. */
static runnel_status note_missing(shaping *work, size_t first_byte, size_t end_byte) {
    bool all = true;
    for (int pass = 0; pass < 2 && all; pass++)
        for (size_t at = first_byte, length; at < end_byte; at += length) {
            uint32_t code = runnel_utf8_next(work->line + at, &length);
            hb_codepoint_t glyph;
            if (pass == 0 && lib.hb_font_get_nominal_glyph(work->font, code, &glyph))
                continue;
            all = false;
            if (runnel_reserve(&work->missing, &work->missing_capacity, work->missing_count + 1,
                               sizeof *work->missing))
                return RUNNEL_E_NO_MEMORY;
            work->missing[work->missing_count++] = code;
        }
    return RUNNEL_OK;
}

/* Where the cluster of glyph i ends, as a byte of the line: clusters follow each other to the right
 * or, in a run from right to left, to the left. */
static size_t cluster_end(const hb_glyph_info_t *infos, unsigned count, unsigned i, size_t end) {
    for (unsigned k = i; k < count && infos[k].cluster >= infos[i].cluster; k++)
        if (infos[k].cluster != infos[i].cluster)
            return infos[k].cluster;
    for (unsigned k = i; k-- > 0 && infos[k].cluster >= infos[i].cluster;)
        if (infos[k].cluster != infos[i].cluster)
            return infos[k].cluster;
    return end;
}

static bool is_blank(const shaping *work, uint32_t code) {
    return lib.hb_unicode_general_category(work->unicode, code) ==
           HB_UNICODE_GENERAL_CATEGORY_SPACE_SEPARATOR;
}

/* Byte of the line after its last character that is no blank. */
static size_t ink_end(const shaping *work) {
    size_t count = work->letter_count;
    while (count && is_blank(work, work->letters[count - 1].code))
        count--;
    return byte_at(work, count);
}

/* Moves the pen over a glyph. Blanks at the end of the line do not count for its extent; the gap
 * after its last letter does not either, as the gap before a glyph is what is kept. */
static void advance(shaping *work, runnel_set_line *line, double advance_units, bool counts) {
    double start_units = work->pen_units;
    work->pen_units += advance_units;
    if (!counts)
        return;
    if (!work->measured) {
        line->left_units = start_units;
        line->left_gaps = work->pen_gaps;
    }
    line->right_units = work->pen_units;
    line->right_gaps = work->pen_gaps;
    work->measured = true;
}

/* Adds the glyphs of the run after the pen. `cluster` holds a byte of the text for now. */
static runnel_status keep_glyphs(shaping *work, const run *part, size_t counted_bytes,
                                 runnel_set_line *line) {
    unsigned count;
    runnel_shaped *out = work->out;
    const hb_glyph_info_t *infos = lib.hb_buffer_get_glyph_infos(work->buffer, &count);
    const hb_glyph_position_t *positions = lib.hb_buffer_get_glyph_positions(work->buffer, NULL);
    size_t line_start = (size_t)(work->line - work->text->text);
    size_t run_end = byte_at(work, part->first + part->count);
    double cluster_start_units = work->pen_units;
    if (runnel_reserve(&out->glyphs, &out->glyph_capacity, out->glyph_count + count,
                       sizeof *out->glyphs))
        return RUNNEL_E_NO_MEMORY;
    for (unsigned i = 0; i < count; i++) {
        if (!infos[i].codepoint &&
            note_missing(work, infos[i].cluster, cluster_end(infos, count, i, run_end)))
            return RUNNEL_E_NO_MEMORY;
        out->glyphs[out->glyph_count++] = (runnel_set_glyph){
            infos[i].codepoint, work->pen_units + positions[i].x_offset / POSITIONS_PER_UNIT,
            positions[i].y_offset / POSITIONS_PER_UNIT, work->pen_gaps,
            line_start + infos[i].cluster};
        advance(work, line, positions[i].x_advance / POSITIONS_PER_UNIT,
                infos[i].cluster < counted_bytes);
        if (i + 1 < count && infos[i + 1].cluster == infos[i].cluster)
            continue;
        /* What takes no room, such as a break that is not seen, takes no gap either. */
        work->pen_gaps += work->pen_units != cluster_start_units;
        cluster_start_units = work->pen_units;
    }
    return RUNNEL_OK;
}

/* ---- Lines ------------------------------------------------------------------------------------*/

static int by_first_byte(const void *one, const void *other) {
    size_t a = ((const runnel_cluster *)one)->first_byte;
    size_t b = ((const runnel_cluster *)other)->first_byte;
    return (a > b) - (a < b);
}

static runnel_status keep_clusters(shaping *work, const runnel_set_line *line) {
    runnel_shaped *out = work->out;
    size_t start = out->cluster_count, end = (size_t)(work->line - work->text->text);
    end += work->line_bytes;
    if (runnel_reserve(&out->clusters, &out->cluster_capacity, start + line->count,
                       sizeof *out->clusters))
        return RUNNEL_E_NO_MEMORY;
    runnel_set_glyph *glyphs = out->glyphs ? out->glyphs + line->first : NULL;
    runnel_cluster *clusters = out->clusters ? out->clusters + start : NULL;
    size_t count = 0;
    for (size_t i = 0; i < line->count; i++)
        if (!i || glyphs[i].cluster != glyphs[i - 1].cluster)
            clusters[count++] = (runnel_cluster){.first_byte = glyphs[i].cluster};
    if (count)
        qsort(clusters, count, sizeof *clusters, by_first_byte);
    for (size_t i = 0; i < count; i++)
        clusters[i].byte_count =
            (i + 1 < count ? clusters[i + 1].first_byte : end) - clusters[i].first_byte;
    for (size_t i = 0; i < line->count; i++) {
        runnel_cluster wanted = {.first_byte = glyphs[i].cluster};
        const runnel_cluster *found =
            bsearch(&wanted, clusters, count, sizeof *clusters, by_first_byte);
        glyphs[i].cluster = (size_t)(found - out->clusters);
    }
    out->cluster_count += count;
    return RUNNEL_OK;
}

static runnel_status refuse_spacing(shaping *work, const runnel_bidi *bidi) {
    if (!bidi->joined || work->text->spacing_mm == 0 || work->torn_told)
        return RUNNEL_OK;
    work->torn_told = true;
    size_t length = 0;
    while (length < work->letter_count && work->codes[length] != bidi->joining_letter)
        length++;
    size_t first = byte_at(work, length), end = byte_at(work, length + 1);
    return runnel_problems_add(work->problems, RUNNEL_E_CONFLICT, work->place,
                               "letter spacing would tear joined letters such as U+%04X '%.*s' "
                               "apart; leave it out for this script",
                               (unsigned)bidi->joining_letter, (int)(end - first),
                               work->line + first);
}

/* Shapes one line; its problems are told, but do not stop the lines after it. */
static runnel_status shape_line(shaping *work, runnel_status *told) {
    runnel_shaped *out = work->out;
    runnel_set_line line = {.first = out->glyph_count};
    runnel_bidi bidi = {0};
    work->pen_units = 0;
    work->pen_gaps = 0;
    work->measured = false;
    runnel_status status = read_letters(work);
    if (!status && work->letter_count)
        status = runnel_bidi_levels(work->codes, work->letter_count, work->levels, &bidi);
    if (status)
        return status;
    *told = runnel_worse(*told, refuse_spacing(work, &bidi));
    settle_scripts(work);
    status = cut_runs(work);
    order_runs(work);
    size_t counted_bytes = ink_end(work);
    for (size_t i = 0; i < work->run_count && !status; i++) {
        status = shape_run(work, &work->runs[i]);
        if (!status)
            status = keep_glyphs(work, &work->runs[i], counted_bytes, &line);
    }
    if (status ||
        runnel_reserve(&out->lines, &out->line_capacity, out->line_count + 1, sizeof *out->lines))
        return status ? status : RUNNEL_E_NO_MEMORY;
    line.count = out->glyph_count - line.first;
    line.right_to_left = bidi.right_to_left;
    out->lines[out->line_count++] = line;
    return keep_clusters(work, &line);
}

static runnel_status shape_lines(shaping *work) {
    runnel_status status = RUNNEL_OK, told = RUNNEL_OK;
    for (const char *at = work->text->text; !status; at += work->line_bytes + 1) {
        size_t bytes = strcspn(at, "\n");
        bool last = !at[bytes];
        work->line = at;
        work->line_bytes = bytes;
        /* Lines that end in carriage return and line feed are lines all the same. */
        if (bytes && at[bytes - 1] == '\r' && !last)
            work->line_bytes--;
        status = shape_line(work, &told);
        work->line_bytes = bytes;
        if (last)
            break;
    }
    if (!status && work->missing_count)
        told = runnel_worse(told, runnel_tell_missing(work->missing, work->missing_count,
                                                      runnel_face_name(work->face), work->problems,
                                                      work->place));
    return status ? status : told;
}

runnel_status runnel_font_shape(runnel_face *face, const runnel_text *text,
                                runnel_problems *problems, const runnel_place *place,
                                runnel_shaped *shaped) {
    runnel_status status = runnel_late_load(&late);
    if (status)
        return status;
    runnel_shaped fresh = {0};
    shaping work = {.face = face,
                    .font = runnel_face_font(face),
                    .buffer = lib.hb_buffer_create(),
                    .unicode = lib.hb_unicode_funcs_get_default(),
                    .text = text,
                    .problems = problems,
                    .place = place,
                    .out = &fresh};
    status = shape_lines(&work);
    lib.hb_buffer_destroy(work.buffer);
    runnel_free(work.letters);
    runnel_free(work.codes);
    runnel_free(work.levels);
    runnel_free(work.runs);
    runnel_free(work.missing);
    if (status)
        runnel_shaped_clear(&fresh);
    else
        *shaped = fresh;
    return status;
}
