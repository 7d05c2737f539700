/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Written forms. An outline that is read encloses an area and stays within a kilometre; a path has
 * a length; cutters and ratios are in range. What is refused is told and leaves the result alone.
 */
#include "runnel/forms.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void require(int holds, const char *what, const char *text) {
    if (holds)
        return;
    fprintf(stderr, "%s: '%s'\n", what, text);
    abort();
}

static void judge(runnel_status status, runnel_problems *problems, const char *text) {
    require((status == RUNNEL_OK) == (problems->count == 0), "refused without a word", text);
    require(problems->count <= 10, "too many problems", text);
    runnel_problems_clear(problems);
}

static int is_size(double size_mm) {
    return size_mm >= 1e-6 && size_mm <= 1e6;
}

static void check_form(const runnel_form *form, int is_path, const char *text) {
    runnel_box box = runnel_contours_box(&form->corners);
    switch (form->kind) {
    case RUNNEL_FORM_ROUNDED_RECTANGLE:
        require(is_size(form->r_mm) && form->r_mm <= fmin(form->a_mm, form->b_mm) / 2, "radius",
                text);
        require(is_size(form->a_mm) && is_size(form->b_mm), "sizes", text);
        break;
    case RUNNEL_FORM_RECTANGLE:
    case RUNNEL_FORM_ELLIPSE:
        require(is_size(form->a_mm) && is_size(form->b_mm), "sizes", text);
        break;
    case RUNNEL_FORM_CIRCLE:
        require(is_size(form->a_mm), "size", text);
        break;
    case RUNNEL_FORM_POLYGON:
        require(is_path || runnel_contours_area(&form->corners) > 0, "no area", text);
        require(box.max_x_mm > box.min_x_mm || box.max_y_mm > box.min_y_mm, "no length", text);
        break;
    case RUNNEL_FORM_LINE:
    case RUNNEL_FORM_POLYLINE:
        require(is_path, "an outline that is a line", text);
        require(box.max_x_mm > box.min_x_mm || box.max_y_mm > box.min_y_mm, "no length", text);
        break;
    case RUNNEL_FORM_NONE:
        require(0, "no kind", text);
        break;
    }
    require(form->corners.count == 0 || (box.min_x_mm >= -1e6 && box.max_x_mm <= 1e6 &&
                                         box.min_y_mm >= -1e6 && box.max_y_mm <= 1e6),
            "beyond a kilometre", text);
}

static void try_form(const char *text, int is_path) {
    runnel_problems problems = {0};
    runnel_form form = {.kind = RUNNEL_FORM_NONE};
    runnel_status status = is_path ? runnel_form_parse_path(text, &problems, NULL, &form)
                                   : runnel_form_parse_outline(text, &problems, NULL, &form);
    judge(status, &problems, text);
    if (status)
        require(form.kind == RUNNEL_FORM_NONE && !form.corners.points, "touched", text);
    else
        check_form(&form, is_path, text);
    runnel_form_clear(&form);
}

static void try_cutter(const char *text) {
    runnel_problems problems = {0};
    runnel_cutter cutter = {.kind = RUNNEL_CUTTER_NONE};
    runnel_status status = runnel_cutter_parse(text, &problems, NULL, &cutter);
    judge(status, &problems, text);
    if (status)
        require(cutter.kind == RUNNEL_CUTTER_NONE, "touched", text);
    else if (cutter.kind == RUNNEL_CUTTER_V)
        require(cutter.angle_deg > 0 && cutter.angle_deg < 180 && cutter.tip_mm >= 0, "v", text);
    else
        require(cutter.radius_mm > 0 && cutter.radius_mm <= 1e6, "radius", text);
    require(status || runnel_cutter_is_form(text), "a form that is none", text);
}

static void try_ratio(const char *text) {
    runnel_problems problems = {0};
    runnel_ratio ratio = {0, 0, RUNNEL_BASIS_NONE};
    runnel_status status = runnel_ratio_parse(text, &problems, NULL, &ratio);
    judge(status, &problems, text);
    if (status)
        require(ratio.basis == RUNNEL_BASIS_NONE, "touched", text);
    else
        require(ratio.basis != RUNNEL_BASIS_NONE && ratio.part_a > 0 && isfinite(ratio.part_a) &&
                    ratio.part_b > 0 && isfinite(ratio.part_b),
                "ratio", text);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    char *text = malloc(size + 1);
    if (!text)
        return 0;
    if (size)
        memcpy(text, data, size);
    text[size] = '\0';
    try_form(text, 0);
    try_form(text, 1);
    try_cutter(text);
    try_ratio(text);
    free(text);
    return 0;
}
