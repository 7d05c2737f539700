/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Written forms. An outline that is read encloses an area and stays within a kilometre; a path has
 * a length; cutters, ratios, hours, days off and grits are in range. What is refused is told and
 * leaves the result alone.
 */
#include "runnel/forms.h"
#include "runnel/timeline.h"

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

static void try_hours(const char *text) {
    runnel_problems problems = {0};
    runnel_week week;
    double open_s = 0;
    runnel_status status = runnel_week_parse(text, &problems, NULL, &week);
    judge(status, &problems, text);
    for (size_t day = 0; day < 7 && !status; day++)
        for (size_t i = 0; i < week.days[day].count; i++) {
            const runnel_span *span = &week.days[day].spans[i];
            require(span->from_s >= 0 && span->to_s <= 86400 && span->from_s < span->to_s, "hours",
                    text);
            open_s += span->to_s - span->from_s;
        }
    require(status || open_s > 0, "no hours", text);
}

static void try_days_off(const char *text) {
    runnel_problems problems = {0};
    runnel_days_off off = {.count = 0};
    runnel_status status = runnel_days_off_parse(text, &problems, NULL, &off);
    require((status == RUNNEL_OK) == (problems.count == 0), "refused without a word", text);
    runnel_problems_clear(&problems);
    require(status ? off.count == 0 : off.count > 0 && off.count <= RUNNEL_DAYS_OFF_MOST,
            "days off", text);
    for (size_t i = 0; i < off.count; i++)
        require(runnel_date_days_between(off.spans[i].from, off.spans[i].to) >= 0, "span", text);
}

static void try_grits(const char *text) {
    runnel_problems problems = {0};
    runnel_grits grits = {.count = 0};
    runnel_status status = runnel_grits_parse(text, &problems, NULL, &grits);
    judge(status, &problems, text);
    require(status ? grits.count == 0 : grits.count > 0 && grits.count <= RUNNEL_GRITS_MOST,
            "grits", text);
    for (size_t i = 1; i < grits.count; i++)
        require(grits.numbers[i] > grits.numbers[i - 1], "order", text);
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
    try_hours(text);
    try_days_off(text);
    try_grits(text);
    free(text);
    return 0;
}
