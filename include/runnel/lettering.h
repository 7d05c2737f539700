/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * From text to outlines (fonts) or to centre lines (single-line letters).
 */
#ifndef RUNNEL_LETTERING_H
#define RUNNEL_LETTERING_H

#include "runnel/contours.h"
#include "runnel/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** How the lines of a text stand to each other. Lines are measured by the advances of their
 * letters, without blanks at their end. */
typedef enum runnel_align {
    RUNNEL_ALIGN_START, /**< where reading starts: left, or right for a right-to-left line */
    RUNNEL_ALIGN_CENTRE,
    RUNNEL_ALIGN_END
} runnel_align;

/** A text to be set. Strings are borrowed. */
typedef struct runnel_text {
    const char *text; /**< UTF-8, at most 100000 bytes; lines are parted by \n or \r\n */
    /**
     * A path (it holds a slash or ends in .ttf, .otf, .ttc ...; "path#index" is a face of a
     * collection, from 0), "Family" or "Family:Style". A family is taken by its exact name, in any
     * of its languages and in either case; no other is put in its place. Without a style the most
     * regular face is taken. For single-line letters a Hershey set's name such as "rowmans", or the
     * path of a .jhf file.
     */
    const char *font;
    double cap_height_mm;  /**< inked height of the font's own H, > 0 to 10000; 0 when
                              text_height_mm is given. A font without H is measured by the capital
                              height that it states, else refused. */
    double text_height_mm; /**< inked height of the whole text block, > 0 to 10000, or 0 */
    double spacing_mm;     /**< extra space after each letter cluster, not after a line's last; may
                              be negative. Optional ligatures are then not formed, and scripts whose
                              letters join are refused. */
    double line_spacing;   /**< distance of base lines in line heights of the font (ascender -
                              descender + gap; 32 units of a Hershey set); 0 = 1 */
    runnel_align align;
    const char *axes;  /**< variable font settings such as "wght=600,slnt=-5", or NULL; an axis that
                          is not named stays as the font's style has it */
    double flatten_mm; /**< chord tolerance at the finished size, 1e-6 to 1; 0 = 0.001 */
    bool single_line;  /**< letters from a Hershey set, as open centre lines */
    /** Where font and axes are told, for problems; NULL = where the text is. */
    const runnel_place *font_place, *axes_place;
} runnel_text;

/** One cluster (letter with its marks, or a ligature) of a set text. */
typedef struct runnel_cluster {
    size_t first_byte, byte_count; /**< in the text */
    runnel_box box;                /**< of its ink, mm; empty box for a space */
} runnel_cluster;

/** A set text. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_lettering {
    /**
     * Not yet united; lower left corner of the ink at (0, 0). Closed outlines in the font's own
     * sense (of TrueType outer ones clockwise, of PostScript counter-clockwise) that may overlap:
     * the non-zero rule makes the region. Of single-line letters open strokes, one of which may
     * have a single point (a dot).
     */
    runnel_contours contours;
    runnel_cluster *clusters; /**< in the order of the text, line ends left out */
    size_t cluster_count, cluster_capacity;
    double cap_height_mm; /**< as it came out; 0 for a font that has no capital height */
    char *font_file;      /**< file really used */
    char *font_name;      /**< family and style of it, with the axes set */
} runnel_lettering;

/** Frees all and leaves an empty lettering. NULL is allowed. */
void runnel_lettering_clear(runnel_lettering *lettering);

/**
 * Sets a text. HarfBuzz shapes each line (bidirectional order by Unicode Standard Annex 9, joined
 * scripts, marks, kerning); FreeType gives the outlines, unhinted and in fractions of a font unit,
 * so that nothing is rounded to pixels. The height asked for is that of the true curves; chords can
 * lie lower by up to flatten_mm.
 *
 * @param text      what to set
 * @param problems  every problem found is added: size missing or given twice (RUNNEL_E_MISSING,
 *                  RUNNEL_E_CONFLICT), numbers out of range (RUNNEL_E_RANGE), UTF-8 that is not
 *                  well-formed with the byte's number (RUNNEL_E_SYNTAX), no such font, with the
 *                  nearest names, no such style, no outlines (RUNNEL_E_FONT), file not there
 *                  (RUNNEL_E_NOT_FOUND), axes (RUNNEL_E_SYNTAX, RUNNEL_E_UNKNOWN, RUNNEL_E_RANGE,
 *                  RUNNEL_E_CONFLICT, RUNNEL_E_FONT), characters that the font lacks, each once as
 *                  U+XXXX (RUNNEL_E_GLYPH), letter spacing in a joined script (RUNNEL_E_CONFLICT),
 *                  text without ink (RUNNEL_E_SHAPE); may be NULL
 * @param place     copied into each problem, or NULL
 * @param lettering an empty one; filled on success, untouched on failure
 * @return RUNNEL_OK, the first of the above, RUNNEL_E_NO_MEMORY, RUNNEL_E_NOT_COMPUTED when the
 *         font's tables cannot be followed, or RUNNEL_E_LIBRARY
 */
runnel_status runnel_lettering_set(const runnel_text *text, runnel_problems *problems,
                                   const runnel_place *place, runnel_lettering *lettering);

/** A family of fonts that can be used. */
typedef struct runnel_font_entry {
    char *family;
    char *styles; /**< sorted, parted by ", " */
    char *file;   /**< of its most regular face */
} runnel_font_entry;

/**
 * All installed families with outlines (TrueType and OpenType), sorted by name without regard to
 * case.
 *
 * @param entries a new array, to be freed by runnel_fonts_free
 * @return RUNNEL_OK, RUNNEL_E_NO_MEMORY, RUNNEL_E_LIBRARY
 */
runnel_status runnel_fonts_list(runnel_font_entry **entries, size_t *count);

/** Frees what runnel_fonts_list gave. NULL is allowed. */
void runnel_fonts_free(runnel_font_entry *entries, size_t count);

#ifdef __cplusplus
}
#endif
#endif
