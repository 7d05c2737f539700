/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * From a font to outlines: what the files font_*.c and lettering.c share.
 *
 * Lengths in font units ("units") are those of the font's own design grid, not rounded.
 */
#ifndef RUNNEL_READ_FONT_H
#define RUNNEL_READ_FONT_H

#include "runnel/contours.h"
#include "runnel/lettering.h"
#include "runnel/status.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct hb_font_t;

/** The more serious of two outcomes by exit code; the first of them when they are alike. */
static inline runnel_status runnel_worse(runnel_status one, runnel_status other) {
    return runnel_status_exit(other) > runnel_status_exit(one) ? other : one;
}

/* ---- Finding (font_find.c) --------------------------------------------------------------------*/

/** A face in a font file. */
typedef struct runnel_font_file {
    char *path;
    long index; /**< of the face; named instance of a variable font in the upper 16 bits */
    char *name; /**< family and style when found by name; NULL for a path */
} runnel_font_file;

/** Frees what the struct holds. */
void runnel_font_file_clear(runnel_font_file *file);

/**
 * The file that a font's name stands for: a path (with a slash, or the ending of a font file),
 * "path#index" for a face of a collection, else "Family" or "Family:Style". A family is looked for
 * by its exact name in any of its languages; nothing is put in its place. Without a style the most
 * regular face is taken: upright, width nearest to normal, weight nearest to regular, and of
 * several such the last by file name.
 *
 * @return RUNNEL_OK, RUNNEL_E_MISSING (no name), RUNNEL_E_NOT_FOUND (path), RUNNEL_E_FONT (no such
 *         family or style); all told in `problems`; RUNNEL_E_NO_MEMORY; RUNNEL_E_LIBRARY
 */
runnel_status runnel_font_find(const char *name, runnel_problems *problems,
                               const runnel_place *place, runnel_font_file *file);

/* ---- One face (font_face.c, font_axes.c) ------------------------------------------------------*/

typedef struct runnel_unit_point {
    double x_units, y_units;
} runnel_unit_point;

typedef enum runnel_step_kind {
    RUNNEL_STEP_MOVE, /**< begins a closed contour */
    RUNNEL_STEP_LINE,
    RUNNEL_STEP_QUADRATIC,
    RUNNEL_STEP_CUBIC
} runnel_step_kind;

/** One step of a glyph's outline; the last of the points used is where it ends. */
typedef struct runnel_step {
    runnel_step_kind kind;
    runnel_unit_point points[3];
} runnel_step;

/** Outline of one glyph. */
typedef struct runnel_glyph {
    runnel_step *steps;
    size_t count, capacity;
    /** Box of the true curves; empty (min > max) for a glyph without ink. */
    double min_x_units, min_y_units, max_x_units, max_y_units;
    runnel_contours flat; /**< for the caller: the outline as chords at the finished size */
} runnel_glyph;

/** An open face. */
typedef struct runnel_face runnel_face;

/**
 * Opens a face and sets the axes that a text asks of a variable font ("wght=600,slnt=-5", or NULL).
 *
 * @return RUNNEL_OK, RUNNEL_E_FONT (not a font, no outlines, no such face, no axes),
 *         RUNNEL_E_SYNTAX, RUNNEL_E_UNKNOWN, RUNNEL_E_RANGE, RUNNEL_E_CONFLICT (axes),
 *         RUNNEL_E_NO_MEMORY; all told in `problems`; RUNNEL_E_LIBRARY
 */
runnel_status runnel_face_open(const runnel_font_file *file, const runnel_text *text,
                               runnel_problems *problems, const runnel_place *place,
                               runnel_face **face);

/** Frees a face and all its glyphs. NULL is allowed. */
void runnel_face_free(runnel_face *face);

/** Family and style, with the axes if any were set; borrowed. */
const char *runnel_face_name(const runnel_face *face);

/** The face as the shaper sees it, at 64 positions a font unit; borrowed. */
struct hb_font_t *runnel_face_font(runnel_face *face);

/** Whether an allocation has failed on behalf of the face since it was opened. */
bool runnel_face_starved(const runnel_face *face);

/** Outline of a glyph, loaded once; borrowed, valid until the next call for another glyph. */
runnel_status runnel_face_glyph(runnel_face *face, uint32_t glyph, runnel_glyph **outline);

/**
 * Inked height of the letter H; where the font has none, the capital height that its OS/2 table
 * states; 0 when there is neither.
 */
runnel_status runnel_face_cap_height(runnel_face *face, double *cap_height_units);

/** Distance of base lines: ascender - descender + gap, > 0. */
double runnel_face_line_height(runnel_face *face);

/* ---- Shaping (font_shape.c, font_bidi.c) ------------------------------------------------------*/

/** Direction and joining of the characters of one line. */
typedef struct runnel_bidi {
    bool right_to_left;      /**< the line as a whole */
    bool joined;             /**< some letter joins its neighbours, as Arabic ones do */
    uint32_t joining_letter; /**< the first of those */
} runnel_bidi;

/**
 * Embedding levels by the Unicode bidirectional algorithm (Unicode Standard Annex 9), direction of
 * the line from its first strong character; blanks at the end get the level of the line.
 *
 * @param characters code points; count > 0
 * @param levels     one for each character: even = left to right, odd = right to left
 */
runnel_status runnel_bidi_levels(const uint32_t *characters, size_t count, signed char *levels,
                                 runnel_bidi *bidi);

/** One glyph of a set text, relative to the start of its line, before letter spacing. */
typedef struct runnel_set_glyph {
    uint32_t glyph;
    double x_units, y_units;
    size_t gaps;    /**< letter gaps to the left of it on its line */
    size_t cluster; /**< index into the clusters */
} runnel_set_glyph;

/** One line. */
typedef struct runnel_set_line {
    size_t first, count; /**< its glyphs */
    bool right_to_left;
    double left_units, right_units; /**< extent of the advances without blanks at the line's end */
    size_t left_gaps, right_gaps;   /**< letter gaps before either end */
} runnel_set_line;

/** A shaped text. Zero-initialised is empty. */
typedef struct runnel_shaped {
    runnel_set_glyph *glyphs;
    size_t glyph_count, glyph_capacity;
    runnel_set_line *lines;
    size_t line_count, line_capacity;
    runnel_cluster *clusters; /**< in the order of the text; boxes not filled */
    size_t cluster_count, cluster_capacity;
} runnel_shaped;

/** Frees what the struct holds. */
void runnel_shaped_clear(runnel_shaped *shaped);

/**
 * Shapes all lines of a well-formed UTF-8 text. With letter spacing, optional ligatures are not
 * formed.
 *
 * @return RUNNEL_OK; RUNNEL_E_GLYPH (characters that the face lacks), RUNNEL_E_CONFLICT (letter
 *         spacing in a joined script), told in `problems`; RUNNEL_E_NO_MEMORY,
 *         RUNNEL_E_NOT_COMPUTED
 */
runnel_status runnel_font_shape(runnel_face *face, const runnel_text *text,
                                runnel_problems *problems, const runnel_place *place,
                                runnel_shaped *shaped);

/* ---- Setting ----------------------------------------------------------------------------------*/

/** Where a problem of the font is told. */
static inline const runnel_place *runnel_font_place(const runnel_text *text,
                                                    const runnel_place *place) {
    return text->font_place ? text->font_place : place;
}

/** From units of a font to the finished letters. */
typedef struct runnel_line_scale {
    double unit_mm, gap_mm; /* one unit; letter spacing */
} runnel_line_scale;

/** Width of the longest line, mm. */
double runnel_block_width(const runnel_shaped *shaped, const runnel_line_scale *scale);

/**
 * Step of the lattice (shape/lattice.h) for the points of letters and for their places in a block
 * of a size, mm: a letter then has the same shape to the last bit wherever it stands.
 */
double runnel_letter_step(double width_mm, double height_mm);

/**
 * How far a line is moved, mm, so that all lines stand as asked in a block of a width whose left
 * side is at 0. Lines that run to the left start at the right side of the block.
 */
double runnel_line_shift(runnel_align align, const runnel_line_scale *scale,
                         const runnel_set_line *line, double width_mm);

/**
 * Sets a text in a font (font_set.c) or in single-line letters (single_line.c), lower left corner
 * anywhere.
 *
 * @param text      numbers checked, well-formed UTF-8
 * @param so_far    outcome of the checks before; when it is a failure, only what is wrong with font
 *                  and characters is told
 * @param lettering empty; filled on success, in any state on failure
 */
runnel_status runnel_font_set(const runnel_text *text, runnel_status so_far,
                              runnel_problems *problems, const runnel_place *place,
                              runnel_lettering *lettering);
runnel_status runnel_single_line_set(const runnel_text *text, runnel_status so_far,
                                     runnel_problems *problems, const runnel_place *place,
                                     runnel_lettering *lettering);

/** Gives the finished lettering its names and clusters; takes over `*path` and the clusters. */
runnel_status runnel_hand_over(runnel_lettering *lettering, const char *name, char **path,
                               runnel_shaped *shaped);

/** Tells all characters of the list in one problem, each once, as U+XXXX and itself. */
runnel_status runnel_tell_missing(uint32_t *characters, size_t count, const char *font,
                                  runnel_problems *problems, const runnel_place *place);

/**
 * Up to three of the names nearest to a word, as "'this', 'that'" in a new block; an empty text
 * when none is near; NULL for want of memory. The entries of `names` found are set to NULL.
 */
char *runnel_nearest_names(const char *word, const char **names, size_t count);

#endif
