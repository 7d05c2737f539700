/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * From a cavity of the job to its shape.
 */
#include "plan/make.h"

#include "job/fields.h"

#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

void runnel_face_size(const runnel_shape *shape, const runnel_cut *cut, double *width_mm,
                      double *height_mm) {
    runnel_box box = runnel_shape_box(shape);
    double beside =
        runnel_shape_is_path(shape) ? runnel_cutter_face_radius_mm(&cut->cutter, cut->depth_mm) : 0;
    *width_mm = box.max_x_mm - box.min_x_mm + 2 * beside;
    *height_mm = box.max_y_mm - box.min_y_mm + 2 * beside;
}

size_t runnel_letter_at(const runnel_lettering *lettering, runnel_point at) {
    size_t best = lettering->cluster_count;
    double least = INFINITY;
    for (size_t i = 0; i < lettering->cluster_count; i++) {
        const runnel_box *box = &lettering->clusters[i].box;
        if (!(box->max_x_mm >= box->min_x_mm))
            continue;
        double x = fmax(fmax(box->min_x_mm - at.x_mm, at.x_mm - box->max_x_mm), 0);
        double y = fmax(fmax(box->min_y_mm - at.y_mm, at.y_mm - box->max_y_mm), 0);
        if (hypot(x, y) < least) {
            least = hypot(x, y);
            best = i;
        }
    }
    return best;
}

static runnel_spot spot_of(const runnel_job *job, const runnel_job_cavity *cavity) {
    for (size_t i = 0; i < job->piece_count; i++)
        for (size_t k = 0; k < job->pieces[i].cavity_count; k++)
            if (&job->pieces[i].cavities[k] == cavity)
                return (runnel_spot){i, k};
    return (runnel_spot){RUNNEL_NOWHERE, RUNNEL_NOWHERE};
}

runnel_place runnel_place_of(const runnel_job *job, const runnel_job_cavity *cavity,
                             runnel_aspect aspect, char *path) {
    static const runnel_field_id sources[] = {[RUNNEL_SOURCE_NONE] = RUNNEL_FIELD_TEXT,
                                              [RUNNEL_SOURCE_TEXT] = RUNNEL_FIELD_TEXT,
                                              [RUNNEL_SOURCE_OUTLINE] = RUNNEL_FIELD_OUTLINE,
                                              [RUNNEL_SOURCE_PATH] = RUNNEL_FIELD_PATH,
                                              [RUNNEL_SOURCE_MEASURED] = RUNNEL_FIELD_MEASURED};
    runnel_field_id id = sources[cavity->source];
    runnel_position at = cavity->source_at;
    if (aspect == RUNNEL_ASPECT_FONT) {
        id = cavity->single_line ? RUNNEL_FIELD_SINGLE_LINE : RUNNEL_FIELD_FONT;
        at = cavity->font_at;
    } else if (aspect == RUNNEL_ASPECT_AXES) {
        id = RUNNEL_FIELD_AXES;
        at = cavity->axes_at;
    }
    if (!at.line)
        at = (runnel_position){cavity->line, cavity->column};
    runnel_field_path(job, spot_of(job, cavity), id, path, RUNNEL_PLACE_SIZE);
    return (runnel_place){.file = job->file ? job->file : "command line",
                          .line = at.line,
                          .column = at.column,
                          .field = path};
}

void runnel_source_shape_clear(runnel_source_shape *source) {
    runnel_shape_free(source->shape);
    runnel_lettering_clear(&source->lettering);
    memset(source, 0, sizeof *source);
}

/** The store for shapes; NULL when there is none. */
static runnel_store *store_of(const runnel_making *making) {
    return making->letters ? making->letters->store : NULL;
}

static runnel_status set_text(const runnel_making *making, const runnel_job_cavity *cavity,
                              runnel_source_shape *source) {
    char paths[3][RUNNEL_PLACE_SIZE];
    runnel_place place = runnel_place_of(making->job, cavity, RUNNEL_ASPECT_SHAPE, paths[0]);
    runnel_place font = runnel_place_of(making->job, cavity, RUNNEL_ASPECT_FONT, paths[1]);
    runnel_place axes = runnel_place_of(making->job, cavity, RUNNEL_ASPECT_AXES, paths[2]);
    runnel_text text = {.text = cavity->text,
                        .font = cavity->font,
                        .cap_height_mm = cavity->cap_height_mm,
                        .text_height_mm = cavity->text_height_mm,
                        .spacing_mm = cavity->spacing_mm,
                        .line_spacing = cavity->line_spacing,
                        .align = cavity->align,
                        .axes = cavity->axes,
                        .flatten_mm = making->job->flatten_mm,
                        .single_line = cavity->single_line,
                        .font_place = &font,
                        .axes_place = &axes};
    if (!making->letters || !making->letters->set)
        return runnel_problems_add(making->problems, RUNNEL_E_NOT_COMPUTED, &place,
                                   "text cannot be set here");
    runnel_status status =
        making->letters->set(&text, making->problems, &place, &source->lettering);
    if (status)
        return status;
    const runnel_contours *contours = &source->lettering.contours;
    return cavity->single_line ? runnel_shape_path(contours, store_of(making), &source->shape)
                               : runnel_shape_outline(contours, store_of(making), &source->shape);
}

static runnel_status rectangle(double width, double height, runnel_contours *contours) {
    runnel_status status = runnel_contours_begin(contours, true);
    const runnel_point corners[] = {{0, 0}, {width, 0}, {width, height}, {0, height}};
    for (size_t i = 0; i < 4 && !status; i++)
        status = runnel_contours_add(contours, corners[i].x_mm, corners[i].y_mm);
    return status;
}

/**
 * An ellipse as a polygon with its corners on it, at equal steps of the parameter. With n corners
 * no chord stands off by more than the longer half axis times 1 - cos(pi/n).
 */
static runnel_status ellipse(double width, double height, double tolerance,
                             runnel_contours *contours) {
    double longer = 0.5 * fmax(width, height);
    double step = 2 * acos(fmax(1 - tolerance / longer, 0.5));
    size_t count = 4 * (size_t)ceil(0.5 * pi / step);
    runnel_status status = runnel_contours_begin(contours, true);
    for (size_t i = 0; i < count && !status; i++) {
        double angle = 2 * pi * (double)i / (double)count;
        status = runnel_contours_add(contours, 0.5 * width * (1 + cos(angle)),
                                     0.5 * height * (1 + sin(angle)));
    }
    contours->flatten_mm = fmax(contours->flatten_mm, longer * (1 - cos(pi / (double)count)));
    return status;
}

/** A rectangle with rounded corners; a circle when the radius is half of both sides. */
static runnel_status rounded(double width, double height, double radius, double tolerance,
                             runnel_contours *contours) {
    const double x[] = {width - radius, width - radius, radius, radius};
    const double y[] = {radius, height - radius, height - radius, radius};
    const double dx[] = {0, 1, 0, -1}, dy[] = {-1, 0, 1, 0}; /* to where the arc begins */
    runnel_status status = runnel_contours_begin(contours, true);
    for (size_t i = 0; i < 4 && !status; i++) {
        runnel_point centre = {x[i], y[i]};
        status = runnel_contours_add(contours, x[i] + radius * dx[i], y[i] + radius * dy[i]);
        if (!status)
            status = runnel_contours_arc(contours, centre, 90, tolerance);
    }
    if (!status)
        runnel_contours_close(contours);
    return status;
}

runnel_status runnel_form_contours(const runnel_form *form, double tolerance,
                                   runnel_contours *contours) {
    switch (form->kind) {
    case RUNNEL_FORM_RECTANGLE:
        return rectangle(form->a_mm, form->b_mm, contours);
    case RUNNEL_FORM_ELLIPSE:
        return ellipse(form->a_mm, form->b_mm, tolerance, contours);
    case RUNNEL_FORM_POLYGON:
    case RUNNEL_FORM_LINE:
    case RUNNEL_FORM_POLYLINE:
        return runnel_contours_append(contours, &form->corners, 1, 0, 0);
    case RUNNEL_FORM_ROUNDED_RECTANGLE:
        return rounded(form->a_mm, form->b_mm, form->r_mm, tolerance, contours);
    case RUNNEL_FORM_CIRCLE:
        return rounded(form->a_mm, form->a_mm, 0.5 * form->a_mm, tolerance, contours);
    case RUNNEL_FORM_NONE:
        break;
    }
    return RUNNEL_E_SHAPE;
}

static runnel_status make_form(const runnel_making *making, const runnel_job_cavity *cavity,
                               runnel_source_shape *source) {
    const runnel_form *form = &cavity->form;
    bool is_path = cavity->source == RUNNEL_SOURCE_PATH;
    if (form->kind == RUNNEL_FORM_CIRCLE)
        return runnel_shape_rounded(form->a_mm, form->a_mm, 0.5 * form->a_mm, is_path,
                                    &source->shape);
    if (form->kind == RUNNEL_FORM_ROUNDED_RECTANGLE)
        return runnel_shape_rounded(form->a_mm, form->b_mm, form->r_mm, is_path, &source->shape);
    runnel_contours contours;
    runnel_contours_init(&contours);
    runnel_status status = runnel_form_contours(form, making->job->flatten_mm, &contours);
    if (!status)
        status = is_path ? runnel_shape_path(&contours, store_of(making), &source->shape)
                         : runnel_shape_outline(&contours, store_of(making), &source->shape);
    runnel_contours_clear(&contours);
    return status;
}

runnel_status runnel_source_shape_make(const runnel_making *making, const runnel_job_cavity *cavity,
                                       runnel_source_shape *source) {
    runnel_source_shape made = {0};
    runnel_status status = RUNNEL_OK;
    if (cavity->source == RUNNEL_SOURCE_TEXT)
        status = set_text(making, cavity, &made);
    else if (cavity->source != RUNNEL_SOURCE_MEASURED)
        status = make_form(making, cavity, &made);
    if (status)
        runnel_source_shape_clear(&made);
    else
        *source = made;
    return status;
}

runnel_status runnel_source_contours(const runnel_making *making, const runnel_job_cavity *cavity,
                                     const runnel_source_shape *source, runnel_contours *contours) {
    if (cavity->source == RUNNEL_SOURCE_TEXT)
        return runnel_contours_append(contours, &source->lettering.contours, 1, 0, 0);
    return runnel_form_contours(&cavity->form, making->job->flatten_mm, contours);
}
