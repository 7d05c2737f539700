/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The steps of a job as bars over its days: hands and waits.
 */
#ifndef RUNNEL_DRAW_DAYS_H
#define RUNNEL_DRAW_DAYS_H

#include "draw/canvas.h"
#include "runnel/timing.h"

/** @param first of the steps that are shown, at most RUNNEL_DAYS_STEPS of them */
double runnel_days_height(const runnel_timing *timing, size_t first);
void runnel_days_draw(runnel_canvas *canvas, const runnel_timings *timings, size_t job,
                      size_t first, const runnel_ink_box *room);

#endif
