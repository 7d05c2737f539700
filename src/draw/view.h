/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Pieces seen from above: cavities shaded by depth, or those of one colour dark.
 */
#ifndef RUNNEL_DRAW_VIEW_H
#define RUNNEL_DRAW_VIEW_H

#include "draw/canvas.h"
#include "runnel/look.h"

/** A bar of mm and one of inches, as long as is round and goes into the width. @return height */
double runnel_view_scale_bars(runnel_canvas *canvas, double x_mm, double y_mm, double width_mm,
                              double scale);

/** A piece whose cavities are shaded by depth, with marks at the deepest and the narrowest place of
 * each, bars of scale and the greys' depths. */
double runnel_view_plan_height(const runnel_look_piece *piece, double width_mm);
void runnel_view_plan(runnel_canvas *canvas, const runnel_look *look, const runnel_plan *plan,
                      size_t piece, const runnel_ink_box *room);

/** All pieces that have cavities of a colour, those dark and all others in outline; none higher
 * than `most_mm`, usually RUNNEL_VIEW_THUMB. */
double runnel_view_colour_height(const runnel_look *look, const runnel_plan *plan,
                                 const char *colour, double most_mm, double width_mm);
void runnel_view_colour(runnel_canvas *canvas, const runnel_look *look, const runnel_plan *plan,
                        const char *colour, double most_mm, const runnel_ink_box *room);
#define RUNNEL_VIEW_THUMB 34.0

#endif
