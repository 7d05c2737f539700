/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * From shaped glyphs to contours in mm.
 */
#include "read/font.h"

#include "base/memory.h"
#include "shape/lattice.h"

#include <math.h>

/** What is at work. */
typedef struct setting {
    const runnel_text *text;
    runnel_problems *problems;
    const runnel_place *place, *font_place;
    runnel_face *face;
    runnel_shaped shaped;
    double line_height_units;
    double scale_mm; /* of one font unit */
    double
        step_mm; /* of the lattice on which letters stand, so that they are alike to the last bit */
    runnel_lettering *out;
} setting;

static runnel_status tell_unreadable(const setting *work, runnel_status status) {
    if (status != RUNNEL_E_FONT)
        return status;
    return runnel_problems_add(work->problems, status, work->font_place,
                               "font '%s' has an outline that cannot be read",
                               runnel_face_name(work->face));
}

/* ---- Size -------------------------------------------------------------------------------------*/

static double base_line_units(const setting *work, size_t line) {
    return -(double)line * work->line_height_units;
}

/* Height of the ink of the whole text: that of the true curves, before they become chords. */
static runnel_status ink_height(setting *work, double *height_units) {
    double low = INFINITY, high = -INFINITY;
    for (size_t i = 0; i < work->shaped.line_count; i++) {
        const runnel_set_line *line = &work->shaped.lines[i];
        for (size_t k = line->first; k < line->first + line->count; k++) {
            const runnel_set_glyph *glyph = &work->shaped.glyphs[k];
            runnel_glyph *outline;
            runnel_status status = runnel_face_glyph(work->face, glyph->glyph, &outline);
            if (status)
                return tell_unreadable(work, status);
            double base = base_line_units(work, i) + glyph->y_units;
            low = fmin(low, base + outline->min_y_units);
            high = fmax(high, base + outline->max_y_units);
        }
    }
    *height_units = high - low;
    return RUNNEL_OK;
}

static runnel_status find_scale(setting *work) {
    double cap_height_units = 0, height_units = 0;
    runnel_status status = runnel_face_cap_height(work->face, &cap_height_units);
    if (status)
        return tell_unreadable(work, status);
    if (work->text->cap_height_mm != 0) {
        if (cap_height_units <= 0)
            return runnel_problems_add(work->problems, RUNNEL_E_FONT, work->font_place,
                                       "font '%s' has no letter H and states no capital height; "
                                       "give the text height instead of the cap height",
                                       runnel_face_name(work->face));
        work->scale_mm = work->text->cap_height_mm / cap_height_units;
    } else {
        status = ink_height(work, &height_units);
        if (status)
            return status;
        /* Without ink any scale will do; that there is none is told at the end. */
        work->scale_mm = height_units > 0 ? work->text->text_height_mm / height_units : 1;
    }
    work->out->cap_height_mm = cap_height_units * work->scale_mm;
    return RUNNEL_OK;
}

/* ---- Outlines ---------------------------------------------------------------------------------*/

static runnel_point scaled(const setting *work, runnel_unit_point point) {
    return (runnel_point){point.x_units * work->scale_mm, point.y_units * work->scale_mm};
}

/* Closes the last contour; one that encloses nothing, as some fonts keep for anchors, is dropped.
 */
static void close_contour(runnel_contours *flat) {
    runnel_contours_close(flat);
    if (flat->count && flat->items[flat->count - 1].count < 3) {
        flat->count--;
        flat->point_count = flat->items[flat->count].first;
    }
}

static runnel_status add_step(const setting *work, const runnel_step *step, runnel_contours *flat) {
    double tolerance_mm = work->text->flatten_mm;
    runnel_point p[3];
    for (int i = 0; i < 3; i++)
        p[i] = scaled(work, step->points[i]);
    switch (step->kind) {
    case RUNNEL_STEP_QUADRATIC:
        return runnel_contours_quadratic(flat, p[0], p[1], tolerance_mm);
    case RUNNEL_STEP_CUBIC:
        return runnel_contours_cubic(flat, p[0], p[1], p[2], tolerance_mm);
    case RUNNEL_STEP_MOVE:
        close_contour(flat);
        if (runnel_contours_begin(flat, true))
            return RUNNEL_E_NO_MEMORY;
        break;
    case RUNNEL_STEP_LINE:
        break;
    }
    return runnel_contours_add(flat, p[0].x_mm, p[0].y_mm);
}

/* Chords of a glyph at the finished size, made once. */
static runnel_status flatten(const setting *work, runnel_glyph *outline) {
    if (outline->flat.count || !outline->count)
        return RUNNEL_OK;
    runnel_contours flat = {0};
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < outline->count && !status; i++)
        status = add_step(work, &outline->steps[i], &flat);
    if (status) {
        runnel_contours_clear(&flat);
        return status == RUNNEL_E_RANGE
                   ? runnel_problems_add(work->problems, status, work->place,
                                         "the letters are too large for so fine a flattening")
                   : status;
    }
    close_contour(&flat);
    for (size_t i = 0; i < flat.point_count; i++)
        flat.points[i] = runnel_on_lattice(flat.points[i], work->step_mm);
    outline->flat = flat;
    return RUNNEL_OK;
}

/* ---- Placing ----------------------------------------------------------------------------------*/

static void grow(runnel_box *box, const runnel_box *by, double dx_mm, double dy_mm) {
    box->min_x_mm = fmin(box->min_x_mm, by->min_x_mm + dx_mm);
    box->min_y_mm = fmin(box->min_y_mm, by->min_y_mm + dy_mm);
    box->max_x_mm = fmax(box->max_x_mm, by->max_x_mm + dx_mm);
    box->max_y_mm = fmax(box->max_y_mm, by->max_y_mm + dy_mm);
}

static runnel_status place_glyph(setting *work, size_t line_number, double shift_mm,
                                 const runnel_set_glyph *glyph) {
    runnel_glyph *outline;
    runnel_status status = runnel_face_glyph(work->face, glyph->glyph, &outline);
    if (status)
        return tell_unreadable(work, status);
    status = flatten(work, outline);
    if (status)
        return status;
    runnel_point at = {shift_mm + glyph->x_units * work->scale_mm +
                           (double)glyph->gaps * work->text->spacing_mm,
                       (base_line_units(work, line_number) + glyph->y_units) * work->scale_mm};
    at = runnel_on_lattice(at, work->step_mm);
    runnel_box box = runnel_contours_box(&outline->flat);
    grow(&work->shaped.clusters[glyph->cluster].box, &box, at.x_mm, at.y_mm);
    return runnel_contours_append(&work->out->contours, &outline->flat, 1, at.x_mm, at.y_mm);
}

static runnel_status place_all(setting *work) {
    runnel_shaped *shaped = &work->shaped;
    runnel_contours nothing = {0};
    for (size_t i = 0; i < shaped->cluster_count; i++)
        shaped->clusters[i].box = runnel_contours_box(&nothing);
    runnel_line_scale scale = {work->scale_mm, work->text->spacing_mm};
    double width_mm = runnel_block_width(shaped, &scale);
    double high_mm = (double)shaped->line_count * work->line_height_units * work->scale_mm;
    work->step_mm = runnel_letter_step(width_mm, high_mm);
    for (size_t i = 0; i < shaped->line_count; i++) {
        const runnel_set_line *line = &shaped->lines[i];
        double shift_mm = runnel_line_shift(work->text->align, &scale, line, width_mm);
        for (size_t k = line->first; k < line->first + line->count; k++) {
            runnel_status status = place_glyph(work, i, shift_mm, &shaped->glyphs[k]);
            if (status)
                return status;
        }
    }
    return RUNNEL_OK;
}

runnel_status runnel_font_set(const runnel_text *text, runnel_status so_far,
                              runnel_problems *problems, const runnel_place *place,
                              runnel_lettering *lettering) {
    setting work = {.text = text,
                    .problems = problems,
                    .place = place,
                    .font_place = runnel_font_place(text, place),
                    .out = lettering};
    runnel_font_file file = {0};
    runnel_status status = runnel_font_find(text->font, problems, work.font_place, &file);
    if (!status)
        status = runnel_face_open(&file, text, problems, place, &work.face);
    if (!status)
        status = runnel_font_shape(work.face, text, problems, place, &work.shaped);
    status = runnel_worse(so_far, status);
    if (!status) {
        double spacing = text->line_spacing != 0 ? text->line_spacing : 1;
        work.line_height_units = runnel_face_line_height(work.face) * spacing;
        status = find_scale(&work);
    }
    if (!status)
        status = place_all(&work);
    if (!status)
        status = runnel_hand_over(lettering, runnel_face_name(work.face), &file.path, &work.shaped);
    runnel_shaped_clear(&work.shaped);
    runnel_face_free(work.face);
    runnel_font_file_clear(&file);
    return status;
}
