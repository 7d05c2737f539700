/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Pages that fill from the top down: paragraphs, labelled facts, blocks that are not torn apart,
 * and a line at the foot of each page.
 */
#ifndef RUNNEL_DRAW_LEAF_H
#define RUNNEL_DRAW_LEAF_H

#include "draw/canvas.h"
#include "write/layout.h"

/** Pages in work. */
typedef struct runnel_leaf {
    runnel_canvas *canvas;
    double left_mm, right_mm, top_mm, bottom_mm; /**< what may be drawn on */
    double y_mm;                                 /**< where the next thing goes */
    runnel_text_sink text;                       /**< of the line in work */
    char *title;                                 /**< when it is closed; owned */
} runnel_leaf;

/** Thickness of lines, mm: of a frame, of what parts, of what is to be read first. */
#define RUNNEL_LEAF_HAIR 0.2
#define RUNNEL_LEAF_RULE 0.5
#define RUNNEL_LEAF_BAR  1.2

/** Begins the first page. @return as runnel_canvas_new */
runnel_status runnel_leaf_begin(runnel_leaf *leaf, const runnel_paper *paper);
/** Draws the line at the foot of all pages, and keeps the title. @return the first failure of all
 * that was drawn */
runnel_status runnel_leaf_close(runnel_leaf *leaf, const char *title);
/** Writes a closed one, and frees all. @return as runnel_canvas_write */
runnel_status runnel_leaf_write(runnel_leaf *leaf, FILE *out);
/** Frees all. */
void runnel_leaf_clear(runnel_leaf *leaf);

double runnel_leaf_width(const runnel_leaf *leaf);

/** Starts a new page when what is so high does not fit on this one; not when the page is empty. */
void runnel_leaf_need(runnel_leaf *leaf, double height_mm);
/** Leaves a space, but not at the top of a page. */
void runnel_leaf_skip(runnel_leaf *leaf, double height_mm);

/** A paragraph, which goes on on the next page where it has to. */
void runnel_leaf_text(runnel_leaf *leaf, runnel_type type, double indent_mm, const char *text);
/** A label, and text beside it in a column of its own. */
void runnel_leaf_fact(runnel_leaf *leaf, const char *label, double column_mm, const char *text);
/** A line across. */
void runnel_leaf_rule(runnel_leaf *leaf, double thick_mm);

/** Starts a line of text that is built by a flow; its text is that of runnel_leaf_said. */
runnel_flow *runnel_leaf_say(runnel_leaf *leaf, runnel_flow *flow);
/** Ends it. @return borrowed until the next one; "" when memory ran out, which is noted */
const char *runnel_leaf_said(runnel_leaf *leaf, runnel_flow *flow);

#endif
