/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/quantity.h"
#include "job/form_reading.h"

#include <math.h>

/* Bad points that are told one by one; a text of nothing else has one fault, not thousands. */
enum { MOST_TOLD = 8 };

/* The text behind the last digit, where the unit of all points stands. */
static runnel_slice behind_digits(runnel_slice text) {
    const char *at = text.end;
    while (at > text.at && !(at[-1] >= '0' && at[-1] <= '9'))
        at--;
    return (runnel_slice){at, text.end};
}

static runnel_status refuse_point(const runnel_form_reading *input, runnel_status status,
                                  runnel_slice point, const char *what) {
    char shown[RUNNEL_SHOWN_SIZE], point_shown[RUNNEL_SHOWN_SIZE];
    return runnel_problems_add(input->problems, status, input->place,
                               "'%s' in '%s' %s; write it like '%s'",
                               runnel_slice_show(point, point_shown),
                               runnel_slice_show(input->whole, shown), what, input->example);
}

/* Reads "x,y" up to a blank or the end. */
static bool read_pair(runnel_slice *text, runnel_amount *x, runnel_amount *y) {
    runnel_slice rest = *text;
    x->lower = y->lower = 1;
    if (runnel_decimal_read(&rest, &x->upper))
        return false;
    runnel_slice_skip_blanks(&rest);
    if (runnel_slice_peek(rest, NULL) != ',')
        return false;
    runnel_slice_step(&rest);
    runnel_slice_skip_blanks(&rest);
    if (runnel_decimal_read(&rest, &y->upper))
        return false;
    if (rest.at < rest.end && !runnel_is_blank(runnel_slice_peek(rest, NULL)))
        return false;
    *text = rest;
    return true;
}

static runnel_slice take_to_blank(runnel_slice *text) {
    runnel_slice part = *text;
    while (text->at < text->end && !runnel_is_blank(runnel_slice_peek(*text, NULL)))
        runnel_slice_step(text);
    part.end = text->at;
    return part;
}

/* Reads one point and adds it; a text that is no point is told and passed over. */
static runnel_status read_point(const runnel_form_reading *input, runnel_slice *text,
                                const runnel_unit *unit, runnel_contours *corners) {
    runnel_slice start = *text;
    runnel_amount x, y;
    if (!read_pair(text, &x, &y))
        return refuse_point(input, RUNNEL_E_SYNTAX, take_to_blank(text),
                            "is not a point: x, a comma and y, decimals behind a point, blanks "
                            "between points, the unit once at the end");
    if (!unit)
        return RUNNEL_OK;
    double x_mm = runnel_unit_value(unit, &x), y_mm = runnel_unit_value(unit, &y);
    if (fabs(x_mm) <= RUNNEL_FORM_MOST_MM && fabs(y_mm) <= RUNNEL_FORM_MOST_MM)
        return runnel_contours_add(corners, x_mm, y_mm);
    start.end = text->at;
    return refuse_point(input, RUNNEL_E_RANGE, start, "is more than a kilometre away");
}

/* Points of one ring or line, up to the word "hole" or the end. */
typedef struct ring_reading {
    const runnel_unit *unit;
    size_t points; /* of all rings, as written */
    size_t told;
    runnel_status worst;
} ring_reading;

static void read_ring(const runnel_form_reading *input, runnel_slice *text, ring_reading *ring,
                      runnel_contours *corners) {
    for (; runnel_slice_skip_blanks(text), text->at < text->end; ring->points++) {
        runnel_slice behind = *text;
        if (runnel_form_take(&behind, "hole"))
            return;
        runnel_status status =
            ring->points < RUNNEL_FORM_MOST_POINTS
                ? read_point(input, text, ring->unit, corners)
                : runnel_form_refuse(input, RUNNEL_E_RANGE,
                                     "has more than 5000 points, the most that a form may have");
        if (status && !ring->worst)
            ring->worst = status;
        ring->told += status != RUNNEL_OK;
        if (status == RUNNEL_E_NO_MEMORY || ring->told == MOST_TOLD ||
            ring->points == RUNNEL_FORM_MOST_POINTS) {
            text->at = text->end;
            return;
        }
    }
}

static runnel_status read_rings(const runnel_form_reading *input, runnel_slice text,
                                const runnel_unit *unit, runnel_form *form) {
    bool closed = form->kind == RUNNEL_FORM_POLYGON;
    ring_reading ring = {.unit = unit};
    do {
        runnel_status status = runnel_contours_begin(&form->corners, closed);
        if (status)
            return status;
        size_t before = ring.points;
        read_ring(input, &text, &ring, &form->corners);
        size_t written = ring.points - before;
        if (closed)
            runnel_contours_close(&form->corners);
        if (ring.worst)
            continue;
        if (closed && written < 3)
            ring.worst =
                runnel_form_refuse(input, RUNNEL_E_SHAPE, "has a ring of fewer than three corners");
        else if (form->kind == RUNNEL_FORM_LINE && written != 2)
            ring.worst = runnel_form_refuse(input, RUNNEL_E_SYNTAX,
                                            "needs two points ('polyline' takes more)");
        else if (!closed && written < 2)
            ring.worst = runnel_form_refuse(input, RUNNEL_E_SYNTAX, "needs two points or more");
    } while (closed && runnel_form_take(&text, "hole"));
    if (!ring.worst && text.at < text.end)
        return runnel_form_refuse(input, RUNNEL_E_SYNTAX, "has more behind its points");
    return ring.worst;
}

/* Whether a line leaves its first point by what a cutter could follow. */
static bool has_length(const runnel_point *points, size_t count) {
    for (size_t i = 1; i < count; i++)
        if (hypot(points[i].x_mm - points[0].x_mm, points[i].y_mm - points[0].y_mm) >=
            RUNNEL_FORM_LEAST_MM)
            return true;
    return false;
}

/* Whether all rings and lines still have the points that they need after equal ones are gone. */
static runnel_status check_points(const runnel_form_reading *input, const runnel_contours *all) {
    for (size_t i = 0; i < all->count; i++) {
        const runnel_contour *ring = &all->items[i];
        if (ring->closed && ring->count < 3)
            return runnel_form_refuse(input, RUNNEL_E_SHAPE,
                                      "has a ring of fewer than three different corners");
        if (!has_length(all->points + ring->first, ring->count))
            return runnel_form_refuse(input, RUNNEL_E_SHAPE, "has no length");
    }
    return RUNNEL_OK;
}

runnel_status runnel_form_read_points(const runnel_form_reading *input, runnel_slice text,
                                      runnel_form *form) {
    runnel_slice unit_text = behind_digits(text);
    if (unit_text.at == text.at)
        return runnel_form_refuse(input, RUNNEL_E_SYNTAX, "has no points");
    const runnel_unit *unit = NULL;
    runnel_status status = runnel_unit_read(input->whole, unit_text, RUNNEL_LENGTH, input->problems,
                                            input->place, &unit);
    text.end = unit_text.at;
    /* without a unit the points are read as well, to tell all that is wrong with them */
    runnel_status points_status = read_rings(input, text, unit, form);
    if (status || points_status)
        return points_status == RUNNEL_E_NO_MEMORY || !status ? points_status : status;
    status = check_points(input, &form->corners);
    if (!status && !input->is_path)
        status = runnel_form_check_rings(input, &form->corners);
    return status;
}
