/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Sections through a stroke: as it is poured, with floor, layers and crown, and when it is levelled
 * and sanded. Upright and across in the same scale.
 */
#ifndef RUNNEL_DRAW_SECTION_H
#define RUNNEL_DRAW_SECTION_H

#include "draw/canvas.h"
#include "runnel/look.h"

/** What is drawn. Borrowed. */
typedef struct runnel_section_of {
    const runnel_look_cavity *cavity; /**< a known one */
    const runnel_plan_cavity *planned;
    double crown_mm, margin_mm;
    double take_off_mm; /**< of the face, by sanding */
} runnel_section_of;

/** Of the cavity of a job. */
runnel_section_of runnel_section_of_job(const runnel_job *job, const runnel_plan *plan,
                                        const runnel_look *look, size_t cavity);

double runnel_section_height(const runnel_section_of *of, double width_mm);
void runnel_section_draw(runnel_canvas *canvas, const runnel_section_of *of,
                         const runnel_ink_box *room);

#endif
