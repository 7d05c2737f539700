/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/cup.h"

#include "draw/leaf.h"
#include "runnel/units.h"
#include "write/card_words.h"

#include <math.h>

/* A cup whose brim is not told is left open. */
void runnel_cup_draw(runnel_canvas *canvas, const runnel_job *job, const runnel_weighing *weighing,
                     bool told, const runnel_ink_box *room) {
    const double diameter_mm = job->cup.diameter_mm;
    const double a_mm = runnel_card_mark(weighing->part_a_ml, diameter_mm);
    const double b_mm = runnel_card_mark(weighing->total_ml, diameter_mm);
    const bool has_brim = job->brim_mm3 > 0;
    double height_mm = has_brim ? runnel_card_mark(job->brim_mm3 / RUNNEL_MM3_PER_ML, diameter_mm)
                                : fmax(diameter_mm, 1.2 * b_mm);
    height_mm = fmax(height_mm, b_mm);
    const double label_mm = 3.2;
    const double brim_mm = 1 + RUNNEL_LEAF_RULE / 2; /* stands out on both sides */
    double scale = fmin((room->height_mm - 2 * label_mm - RUNNEL_LEAF_RULE) / height_mm,
                        (room->width_mm - 2 * brim_mm) / diameter_mm);
    double width = diameter_mm * scale, left = room->x_mm + (room->width_mm - width) / 2;
    double floor = room->y_mm + room->height_mm - 2 * label_mm;
    double top = floor - height_mm * scale, a = floor - a_mm * scale, b = floor - b_mm * scale;
    char text[80], digits[64];
    runnel_canvas_box(canvas, &(runnel_ink_box){left, b, width, a - b}, 0.9, 0);
    runnel_canvas_box(canvas, &(runnel_ink_box){left, a, width, floor - a}, 0.75, 0);
    runnel_canvas_line(canvas, left, top, left, floor, RUNNEL_LEAF_RULE);
    runnel_canvas_line(canvas, left + width, top, left + width, floor, RUNNEL_LEAF_RULE);
    runnel_canvas_line(canvas, left, floor, left + width, floor, RUNNEL_LEAF_RULE);
    runnel_canvas_line(canvas, left, a, left + width, a, RUNNEL_LEAF_HAIR);
    runnel_canvas_line(canvas, left, b, left + width, b, RUNNEL_LEAF_HAIR);
    if (has_brim)
        runnel_canvas_line(canvas, left - 1, top, left + width + 1, top, RUNNEL_LEAF_RULE);
    if (!told)
        return;
    if (a_mm < RUNNEL_CARD_LEAST_MARK_MM) {
        runnel_canvas_text(canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_MIDDLE, room->x_mm, floor + 0.6,
                           room->width_mm, "too little for marks");
        return;
    }
    snprintf(text, sizeof text, "A to %s" RUNNEL_STICK "mm",
             runnel_number_text(a_mm, 1, digits, sizeof digits));
    runnel_canvas_text(canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_MIDDLE, room->x_mm, floor + 0.6,
                       room->width_mm, text);
    snprintf(text, sizeof text, "B to %s" RUNNEL_STICK "mm",
             runnel_number_text(b_mm, 1, digits, sizeof digits));
    runnel_canvas_text(canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_MIDDLE, room->x_mm,
                       floor + 0.6 + label_mm, room->width_mm, text);
}
