/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Paper: sizes and kinds of file, for what is drawn in place of written.
 *
 * Everything is drawn in black and grey, with text in any script that a font is installed for. The
 * same input gives the same bytes with the same fonts and libraries: no file holds the time at
 * which it was made but that of its options.
 */
#ifndef RUNNEL_PAPER_H
#define RUNNEL_PAPER_H

#include "runnel/date.h"
#include "runnel/status.h"

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/** Sizes of paper. */
typedef enum runnel_paper_size {
    RUNNEL_PAPER_A4,     /**< 210 x 297 mm (ISO 216) */
    RUNNEL_PAPER_LETTER, /**< 8 1/2 x 11 in */
    RUNNEL_PAPER_A5,     /**< 148 x 210 mm */
    RUNNEL_PAPER_4X6,    /**< 4 x 6 in, a postcard */
    RUNNEL_PAPER_SIZES
} runnel_paper_size;

/** Kinds of file. */
typedef enum runnel_paper_kind {
    RUNNEL_PAPER_PDF,
    RUNNEL_PAPER_SVG, /**< all pages below one another in one picture */
    RUNNEL_PAPER_PNG, /**< the same, 150 dots an inch */
    RUNNEL_PAPER_HTML /**< no paper: one page that needs nothing from elsewhere; no size */
} runnel_paper_kind;

/** How something is drawn. Zero-initialised is a PDF on A4. */
typedef struct runnel_paper {
    runnel_paper_size size;
    runnel_paper_kind kind;
    runnel_date written; /**< day told by the file; month 0 = none is told */
} runnel_paper;

/** Dots an inch of a PNG. */
#define RUNNEL_PAPER_DPI 150.0

/** Most pages of a PNG or SVG, as pictures have a greatest height. */
#define RUNNEL_PAPER_PAGES 12

/** Name of a size: "a4", "letter", "a5", "4x6"; "?" for what is none. */
const char *runnel_paper_text(runnel_paper_size size);

/**
 * Reads the name of a size, in either case.
 *
 * @return RUNNEL_OK; RUNNEL_E_UNKNOWN, told
 */
runnel_status runnel_paper_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, runnel_paper_size *size);

/** Width and height in mm. @return RUNNEL_OK; RUNNEL_E_RANGE for what is no size */
runnel_status runnel_paper_measure(runnel_paper_size size, double *width_mm, double *height_mm);

#ifdef __cplusplus
}
#endif
#endif
