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

/** How the lines of a text stand to each other. */
typedef enum runnel_align {
    RUNNEL_ALIGN_START, /**< where reading starts: left, or right for right-to-left text */
    RUNNEL_ALIGN_CENTRE,
    RUNNEL_ALIGN_END
} runnel_align;

/** A text to be set. Strings are borrowed. */
typedef struct runnel_text {
    const char *text; /**< UTF-8; lines are parted by \n */
    const char *font; /**< path to a font file, or "Family", "Family:Style"; for single-line letters
                         a Hershey set name or .jhf path */
    double cap_height_mm;  /**< inked height of the font's own H, > 0, or 0 when text_height_mm is
                              given */
    double text_height_mm; /**< inked height of the whole text block, or 0 */
    double spacing_mm;     /**< extra space after each letter cluster */
    double line_spacing;   /**< distance of base lines in line heights of the font; 0 = 1 */
    runnel_align align;
    const char *axes;  /**< variable font settings such as "wght=600,slnt=-5", or NULL */
    double flatten_mm; /**< chord tolerance at the finished size, > 0; 0 = 0.001 */
    bool single_line;  /**< letters from a Hershey set, as open centre lines */
} runnel_text;

/** One cluster (letter with its marks) of a set text. */
typedef struct runnel_cluster {
    size_t first_byte, byte_count; /**< in the text */
    runnel_box box;                /**< of its ink, mm; empty box for a space */
} runnel_cluster;

/** A set text. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_lettering {
    runnel_contours contours; /**< not yet united; lower left corner of the ink at (0, 0) */
    runnel_cluster *clusters;
    size_t cluster_count, cluster_capacity;
    double cap_height_mm; /**< as it came out */
    char *font_file;      /**< file really used */
    char *font_name;      /**< family and style of it */
} runnel_lettering;

/** Frees all. */
void runnel_lettering_clear(runnel_lettering *lettering);

/**
 * Sets a text. HarfBuzz shapes each line (bidirectional runs by direction of the script, joined
 * scripts, marks, kerning); FreeType gives the outlines, unscaled and unhinted, so that nothing is
 * rounded to pixels.
 *
 * Problems told: the font cannot be found (with the nearest family names), has no outlines, has no
 * glyph for some characters (each named once as U+XXXX), a text without ink, UTF-8 that is not
 * well-formed.
 *
 * @param lettering an empty one, filled on success
 */
runnel_status runnel_lettering_set(const runnel_text *text, runnel_problems *problems,
                                   const runnel_place *place, runnel_lettering *lettering);

/** A list of font families that can be used, sorted, one entry a family with file of its regular
 * face. */
typedef struct runnel_font_entry {
    char *family, *styles, *file;
} runnel_font_entry;
runnel_status runnel_fonts_list(runnel_font_entry **entries, size_t *count);
void runnel_fonts_free(runnel_font_entry *entries, size_t count);

#ifdef __cplusplus
}
#endif
#endif
