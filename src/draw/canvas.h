/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Pages that text, lines and greys are drawn on, in mm from the upper left corner, and that become
 * a file at the end. The only file that knows the drawing libraries is canvas.c.
 *
 * The first failure stays: after it nothing is drawn, and writing returns it.
 */
#ifndef RUNNEL_DRAW_CANVAS_H
#define RUNNEL_DRAW_CANVAS_H

#include "runnel/paper.h"

#include <stdbool.h>
#include <stdio.h>

/** The one scale of type, in points of 1/72 in. */
typedef enum runnel_type {
    RUNNEL_TYPE_SMALL,  /**< 7.5 */
    RUNNEL_TYPE_BODY,   /**< 9.5 */
    RUNNEL_TYPE_STRONG, /**< 9.5, bold */
    RUNNEL_TYPE_HEAD,   /**< 12.5, bold */
    RUNNEL_TYPE_TITLE,  /**< 17, bold */
    RUNNEL_TYPE_FIGURE, /**< 26, bold: read at arm's length */
    RUNNEL_TYPES
} runnel_type;

/** Where text stands in its width. */
typedef enum runnel_side { RUNNEL_SIDE_LEFT, RUNNEL_SIDE_MIDDLE, RUNNEL_SIDE_RIGHT } runnel_side;

/** A box in mm. */
typedef struct runnel_ink_box {
    double x_mm, y_mm, width_mm, height_mm;
} runnel_ink_box;

/** What was drawn: its ink, for tests of the layout. */
typedef struct runnel_ink {
    size_t page; /**< from 0 */
    bool is_text;
    runnel_ink_box box;
    char *text; /**< owned; NULL for what is no text */
} runnel_ink;

typedef struct runnel_canvas runnel_canvas;

/** @return RUNNEL_OK; RUNNEL_E_RANGE for paper that there is not; RUNNEL_E_NO_MEMORY;
 * RUNNEL_E_LIBRARY */
runnel_status runnel_canvas_new(const runnel_paper *paper, runnel_canvas **canvas);
/** One picture of any size above 0, to be embedded. @return as above */
runnel_status runnel_canvas_new_picture(double width_mm, double height_mm, runnel_canvas **canvas);
/** NULL is allowed. */
void runnel_canvas_free(runnel_canvas *canvas);

/** Size of a page, mm. */
double runnel_canvas_width(const runnel_canvas *canvas);
double runnel_canvas_height(const runnel_canvas *canvas);

/** Sets all type that is drawn from now on at another size, 1 as the scale says. */
void runnel_canvas_scale_type(runnel_canvas *canvas, double scale);

/** Starts a page; what follows is drawn on it. */
void runnel_canvas_page(runnel_canvas *canvas);
/** Goes back to a page, from 0, as for what stands below each one. */
void runnel_canvas_go(runnel_canvas *canvas, size_t page);
size_t runnel_canvas_pages(const runnel_canvas *canvas);
/** Notes a failure, as of what is drawn. */
void runnel_canvas_fail(runnel_canvas *canvas, runnel_status status);
/** The first failure, or RUNNEL_OK. */
runnel_status runnel_canvas_status(const runnel_canvas *canvas);

/**
 * Draws text, broken into lines in a width (0 = one line, as wide as it gets).
 *
 * @return its height in mm
 */
double runnel_canvas_text(runnel_canvas *canvas, runnel_type type, runnel_side side, double x_mm,
                          double y_mm, double width_mm, const char *text);
/** One line in a width, cut behind the last letter that has room there. @return its height */
double runnel_canvas_text_in(runnel_canvas *canvas, runnel_type type, double x_mm, double y_mm,
                             double width_mm, const char *text);
/** The height that it would have. */
double runnel_canvas_text_height(runnel_canvas *canvas, runnel_type type, double width_mm,
                                 const char *text);
/** The width of one line of it. */
double runnel_canvas_text_width(runnel_canvas *canvas, runnel_type type, const char *text);

/** A line of some thickness. */
void runnel_canvas_line(runnel_canvas *canvas, double x1_mm, double y1_mm, double x2_mm,
                        double y2_mm, double thick_mm);
/** A rectangle, filled in a grey from 0, black, to 1, white; below 0 not filled. Its edge is drawn
 * when `thick_mm` is above 0. */
void runnel_canvas_box(runnel_canvas *canvas, const runnel_ink_box *box, double grey,
                       double thick_mm);
/** Polygons, filled together by the non-zero or the even-odd rule. @param starts of each one, and
 * the end of the last */
typedef struct runnel_canvas_shape {
    const double *x_mm, *y_mm;
    const size_t *starts;
    size_t count;
    bool even_odd, closed;
} runnel_canvas_shape;
void runnel_canvas_polygons(runnel_canvas *canvas, const runnel_canvas_shape *shape, double grey,
                            double thick_mm);

/** What was drawn so far; borrowed. */
const runnel_ink *runnel_canvas_inks(const runnel_canvas *canvas, size_t *count);

/** Writes all pages. The title and the day are told by a PDF. @return the first failure;
 * RUNNEL_E_RANGE without a page; RUNNEL_E_PAGES for more than RUNNEL_PAPER_PAGES in a picture;
 * RUNNEL_E_IO;
 * RUNNEL_E_NO_MEMORY */
runnel_status runnel_canvas_write(runnel_canvas *canvas, const char *title, FILE *out);

/** Writes all pages as one SVG inside of an address, "data:image/svg+xml;base64,...", for HTML.
 * @return as above */
runnel_status runnel_canvas_embed(runnel_canvas *canvas, FILE *out);

#endif
