/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The given cup in its true proportion, with the levels of A and of both.
 */
#ifndef RUNNEL_DRAW_CUP_H
#define RUNNEL_DRAW_CUP_H

#include "draw/canvas.h"
#include "runnel/job.h"

/** @param told the levels stand below it in mm */
void runnel_cup_draw(runnel_canvas *canvas, const runnel_job *job, const runnel_weighing *weighing,
                     bool told, const runnel_ink_box *room);

#endif
