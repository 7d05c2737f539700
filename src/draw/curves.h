/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Conversion and temperature of resin over time, with the moments of its sheet.
 */
#ifndef RUNNEL_DRAW_CURVES_H
#define RUNNEL_DRAW_CURVES_H

#include "draw/canvas.h"
#include "runnel/heating.h"

double runnel_curves_height(double width_mm);

/** @param layer whether it is that of the layer, else that of the cup */
void runnel_curves_draw(runnel_canvas *canvas, const runnel_heating *heating,
                        const runnel_heating_curves *curves, bool layer,
                        const runnel_ink_box *room);

#endif
