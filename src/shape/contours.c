/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/contours.h"

#include "base/memory.h"
#include "base/sum.h"

#include <math.h>
#include <string.h>

/* More chords than this in one curve mean a tolerance or a size that nobody can have meant. */
#define MOST_CHORDS 1048576.0

static const double radians_per_degree = 0.017453292519943295769;

void runnel_contours_init(runnel_contours *contours) {
    memset(contours, 0, sizeof *contours);
}

void runnel_contours_clear(runnel_contours *contours) {
    if (!contours)
        return;
    runnel_free(contours->points);
    runnel_free(contours->items);
    runnel_contours_init(contours);
}

static runnel_contour *last_contour(const runnel_contours *contours) {
    return contours->count ? &contours->items[contours->count - 1] : NULL;
}

/* The point that a curve starts from, or NULL when the last contour has none yet. */
static const runnel_point *last_point(const runnel_contours *contours) {
    const runnel_contour *contour = last_contour(contours);
    return contour && contour->count ? &contours->points[contours->point_count - 1] : NULL;
}

static bool finite_point(runnel_point point) {
    return isfinite(point.x_mm) && isfinite(point.y_mm);
}

static runnel_status reserve_points(runnel_contours *contours, size_t more) {
    if (more > (size_t)-1 - contours->point_count)
        return RUNNEL_E_NO_MEMORY;
    return runnel_reserve(&contours->points, &contours->point_capacity,
                          contours->point_count + more, sizeof *contours->points);
}

/* Room has been made before. */
static void put(runnel_contours *contours, double x_mm, double y_mm) {
    const runnel_point *before = last_point(contours);
    if (before && before->x_mm == x_mm && before->y_mm == y_mm)
        return;
    contours->points[contours->point_count++] = (runnel_point){x_mm, y_mm};
    last_contour(contours)->count++;
}

runnel_status runnel_contours_begin(runnel_contours *contours, bool closed) {
    runnel_status status = runnel_reserve(&contours->items, &contours->capacity,
                                          contours->count + 1, sizeof *contours->items);
    if (status)
        return status;
    contours->items[contours->count++] = (runnel_contour){contours->point_count, 0, closed};
    return RUNNEL_OK;
}

runnel_status runnel_contours_add(runnel_contours *contours, double x_mm, double y_mm) {
    if (!contours->count)
        return RUNNEL_E_SHAPE;
    if (!finite_point((runnel_point){x_mm, y_mm}))
        return RUNNEL_E_RANGE;
    runnel_status status = reserve_points(contours, 1);
    if (!status)
        put(contours, x_mm, y_mm);
    return status;
}

static void note_flattening(runnel_contours *contours, double bound_mm) {
    if (bound_mm > contours->flatten_mm)
        contours->flatten_mm = bound_mm;
}

/*
 * Equal steps of the parameter for a curve whose second derivative is at most `second_mm`: a step h
 * leaves each chord within h^2 / 8 * second_mm of the curve, point for point at the same parameter.
 */
static runnel_status count_chords(double second_mm, double tolerance_mm, size_t *chords,
                                  double *bound_mm) {
    if (!(tolerance_mm > 0) || !isfinite(tolerance_mm) || !isfinite(second_mm))
        return RUNNEL_E_RANGE;
    double count = fmax(1, ceil(sqrt(second_mm / 8 / tolerance_mm)));
    if (!(count <= MOST_CHORDS))
        return RUNNEL_E_RANGE;
    double bound = second_mm / 8 / (count * count);
    if (bound > tolerance_mm) { /* the square root was rounded down */
        count += 1;
        bound = second_mm / 8 / (count * count);
    }
    *chords = (size_t)count;
    *bound_mm = bound;
    return RUNNEL_OK;
}

/* Length of a - 2 b + c. */
static double bend(runnel_point a, runnel_point b, runnel_point c) {
    return hypot((a.x_mm - b.x_mm) + (c.x_mm - b.x_mm), (a.y_mm - b.y_mm) + (c.y_mm - b.y_mm));
}

/* The cubic Bezier curve p at t, in Bernstein form, which stays inside the hull of its points. */
static runnel_point cubic_at(const runnel_point p[4], double t) {
    double s = 1 - t;
    double w0 = s * s * s, w1 = 3 * s * s * t, w2 = 3 * s * t * t, w3 = t * t * t;
    return (runnel_point){w0 * p[0].x_mm + w1 * p[1].x_mm + w2 * p[2].x_mm + w3 * p[3].x_mm,
                          w0 * p[0].y_mm + w1 * p[1].y_mm + w2 * p[2].y_mm + w3 * p[3].y_mm};
}

static runnel_point quadratic_at(const runnel_point p[3], double t) {
    double s = 1 - t;
    double w0 = s * s, w1 = 2 * s * t, w2 = t * t;
    return (runnel_point){w0 * p[0].x_mm + w1 * p[1].x_mm + w2 * p[2].x_mm,
                          w0 * p[0].y_mm + w1 * p[1].y_mm + w2 * p[2].y_mm};
}

runnel_status runnel_contours_quadratic(runnel_contours *contours, runnel_point control,
                                        runnel_point end, double tolerance_mm) {
    const runnel_point *start = last_point(contours);
    if (!start)
        return RUNNEL_E_SHAPE;
    runnel_point p[3] = {*start, control, end};
    size_t chords;
    double bound_mm;
    runnel_status status =
        count_chords(2 * bend(p[0], p[1], p[2]), tolerance_mm, &chords, &bound_mm);
    if (!status)
        status = reserve_points(contours, chords);
    if (status)
        return status;
    for (size_t i = 1; i < chords; i++) {
        runnel_point point = quadratic_at(p, (double)i / (double)chords);
        put(contours, point.x_mm, point.y_mm);
    }
    put(contours, end.x_mm, end.y_mm);
    note_flattening(contours, bound_mm);
    return RUNNEL_OK;
}

runnel_status runnel_contours_cubic(runnel_contours *contours, runnel_point control1,
                                    runnel_point control2, runnel_point end, double tolerance_mm) {
    const runnel_point *start = last_point(contours);
    if (!start)
        return RUNNEL_E_SHAPE;
    runnel_point p[4] = {*start, control1, control2, end};
    /* fmax would skip a NaN. */
    if (!finite_point(control1) || !finite_point(control2) || !finite_point(end))
        return RUNNEL_E_RANGE;
    /* The second derivative runs along a straight line, so it is longest at one of its ends. */
    double second_mm = 6 * fmax(bend(p[0], p[1], p[2]), bend(p[1], p[2], p[3]));
    size_t chords;
    double bound_mm;
    runnel_status status = count_chords(second_mm, tolerance_mm, &chords, &bound_mm);
    if (!status)
        status = reserve_points(contours, chords);
    if (status)
        return status;
    for (size_t i = 1; i < chords; i++) {
        runnel_point point = cubic_at(p, (double)i / (double)chords);
        put(contours, point.x_mm, point.y_mm);
    }
    put(contours, end.x_mm, end.y_mm);
    note_flattening(contours, bound_mm);
    return RUNNEL_OK;
}

/* Cosine and sine of an angle in degrees, exact at the quarter turns so that full circles close. */
static runnel_point direction(double angle_deg) {
    double quarters = nearbyint(angle_deg / 90);
    double rest = (angle_deg - 90 * quarters) * radians_per_degree;
    double c = cos(rest), s = sin(rest);
    switch ((int)quarters & 3) {
    case 0:
        return (runnel_point){c, s};
    case 1:
        return (runnel_point){-s, c};
    case 2:
        return (runnel_point){-c, -s};
    default:
        return (runnel_point){s, -c};
    }
}

/*
 * A chord over the angle w of a circle of radius r lies 2 r sin^2(w / 4) inside it at most. No
 * chord spans more than a quarter turn, so that a full circle keeps an area at any tolerance.
 */
static runnel_status count_arc_chords(double radius_mm, double sweep_deg, double tolerance_mm,
                                      size_t *chords, double *bound_mm) {
    if (!(tolerance_mm > 0) || !isfinite(tolerance_mm) || !isfinite(radius_mm) ||
        !(fabs(sweep_deg) <= 360))
        return RUNNEL_E_RANGE;
    double sweep = fabs(sweep_deg) * radians_per_degree;
    double count = ceil(fabs(sweep_deg) / 90);
    if (tolerance_mm < radius_mm)
        count = fmax(count, ceil(sweep / (4 * asin(sqrt(tolerance_mm / (2 * radius_mm))))));
    if (!(count <= MOST_CHORDS))
        return RUNNEL_E_RANGE;
    count = fmax(count, 1);
    double half = sin(sweep / (4 * count)), bound = 2 * radius_mm * half * half;
    if (bound > tolerance_mm) { /* the count was rounded down */
        count += 1;
        half = sin(sweep / (4 * count));
        bound = 2 * radius_mm * half * half;
    }
    *chords = (size_t)count;
    *bound_mm = bound;
    return RUNNEL_OK;
}

runnel_status runnel_contours_arc(runnel_contours *contours, runnel_point centre, double sweep_deg,
                                  double tolerance_mm) {
    const runnel_point *start = last_point(contours);
    if (!start)
        return RUNNEL_E_SHAPE;
    runnel_point arm = {start->x_mm - centre.x_mm, start->y_mm - centre.y_mm}, first = *start;
    size_t chords;
    double bound_mm;
    runnel_status status =
        count_arc_chords(hypot(arm.x_mm, arm.y_mm), sweep_deg, tolerance_mm, &chords, &bound_mm);
    if (!status)
        status = reserve_points(contours, chords);
    if (status)
        return status;
    for (size_t i = 1; i <= chords; i++) {
        runnel_point turn =
            direction(i < chords ? sweep_deg * (double)i / (double)chords : sweep_deg);
        /* Moving the start by the difference makes a turn of 0 or 360 degrees give it back. */
        put(contours, first.x_mm + (arm.x_mm * (turn.x_mm - 1) - arm.y_mm * turn.y_mm),
            first.y_mm + (arm.x_mm * turn.y_mm + arm.y_mm * (turn.x_mm - 1)));
    }
    note_flattening(contours, bound_mm);
    return RUNNEL_OK;
}

void runnel_contours_close(runnel_contours *contours) {
    runnel_contour *contour = last_contour(contours);
    if (!contour)
        return;
    contour->closed = true;
    if (contour->count < 2)
        return;
    const runnel_point *first = &contours->points[contour->first];
    const runnel_point *last = &contours->points[contours->point_count - 1];
    if (first->x_mm == last->x_mm && first->y_mm == last->y_mm) {
        contour->count--;
        contours->point_count--;
    }
}

runnel_status runnel_contours_append(runnel_contours *contours, const runnel_contours *from,
                                     double scale, double dx_mm, double dy_mm) {
    size_t points = from->point_count, items = from->count; /* `from` may be `contours` itself */
    if (!isfinite(scale) || !isfinite(dx_mm) || !isfinite(dy_mm))
        return RUNNEL_E_RANGE;
    runnel_status status = reserve_points(contours, points);
    if (!status)
        status = runnel_reserve(&contours->items, &contours->capacity, contours->count + items,
                                sizeof *contours->items);
    if (status)
        return status;
    size_t shift = contours->point_count;
    for (size_t i = 0; i < points; i++)
        contours->points[shift + i] = (runnel_point){from->points[i].x_mm * scale + dx_mm,
                                                     from->points[i].y_mm * scale + dy_mm};
    for (size_t i = 0; i < items; i++) {
        contours->items[contours->count + i] = from->items[i];
        contours->items[contours->count + i].first += shift;
    }
    contours->point_count += points;
    contours->count += items;
    note_flattening(contours, from->flatten_mm * fabs(scale));
    return RUNNEL_OK;
}

runnel_box runnel_contours_box(const runnel_contours *contours) {
    runnel_box box = {INFINITY, INFINITY, -INFINITY, -INFINITY};
    for (size_t i = 0; i < contours->point_count; i++) {
        runnel_point point = contours->points[i];
        box.min_x_mm = fmin(box.min_x_mm, point.x_mm);
        box.min_y_mm = fmin(box.min_y_mm, point.y_mm);
        box.max_x_mm = fmax(box.max_x_mm, point.x_mm);
        box.max_y_mm = fmax(box.max_y_mm, point.y_mm);
    }
    return box;
}

double runnel_contours_area(const runnel_contours *contours) {
    runnel_sum twice_mm2 = {0};
    for (size_t i = 0; i < contours->count; i++) {
        const runnel_contour *contour = &contours->items[i];
        if (!contour->closed)
            continue;
        /* Triangles from the first point: no cancellation for a small ring far from the origin. */
        const runnel_point *p = &contours->points[contour->first];
        for (size_t k = 2; k < contour->count; k++) {
            double ax = p[k - 1].x_mm - p->x_mm, ay = p[k - 1].y_mm - p->y_mm;
            double bx = p[k].x_mm - p->x_mm, by = p[k].y_mm - p->y_mm;
            runnel_sum_add(&twice_mm2, ax * by);
            runnel_sum_add(&twice_mm2, -(ay * bx));
        }
    }
    return runnel_sum_value(&twice_mm2) / 2;
}
