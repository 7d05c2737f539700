/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/contours.h"

#include "base/memory.h"
#include "base/sum.h"
#include "shape/points.h"

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

/*
 * Where a cubic curve is cut. Equal steps of the parameter waste chords wherever the curve is
 * straighter, or its parameter slower, than at its worst; the steps are made even in the amount
 * that decides instead: the root of the second derivative across the curve. That only proposes
 * cuts. What is kept is proven piece by piece.
 */
#define SAMPLES 64

typedef struct cuts {
    double sum[SAMPLES + 1]; /* of that amount from the start of the curve to each sample */
    size_t chords;
} cuts;

static runnel_point first_derivative(const runnel_point p[4], double t) {
    double s = 1 - t, w0 = 3 * s * s, w1 = 6 * s * t, w2 = 3 * t * t;
    return (runnel_point){
        w0 * (p[1].x_mm - p[0].x_mm) + w1 * (p[2].x_mm - p[1].x_mm) + w2 * (p[3].x_mm - p[2].x_mm),
        w0 * (p[1].y_mm - p[0].y_mm) + w1 * (p[2].y_mm - p[1].y_mm) + w2 * (p[3].y_mm - p[2].y_mm)};
}

static runnel_point second_derivative(const runnel_point p[4], double t) {
    double s = 6 * (1 - t), u = 6 * t;
    return (runnel_point){s * ((p[0].x_mm - p[1].x_mm) + (p[2].x_mm - p[1].x_mm)) +
                              u * ((p[1].x_mm - p[2].x_mm) + (p[3].x_mm - p[2].x_mm)),
                          s * ((p[0].y_mm - p[1].y_mm) + (p[2].y_mm - p[1].y_mm)) +
                              u * ((p[1].y_mm - p[2].y_mm) + (p[3].y_mm - p[2].y_mm))};
}

static double amount_at(const runnel_point p[4], double t) {
    runnel_point d = first_derivative(p, t), e = second_derivative(p, t);
    double speed = hypot(d.x_mm, d.y_mm);
    double across = fabs(d.x_mm * e.y_mm - d.y_mm * e.x_mm);
    return sqrt(speed > 0 ? across / speed : hypot(e.x_mm, e.y_mm));
}

/* Distance of the curve between a and b from its chord, at most. */
static double piece_bound(const runnel_point p[4], double a, double b) {
    runnel_point start = cubic_at(p, a), end = cubic_at(p, b);
    runnel_point da = first_derivative(p, a), db = first_derivative(p, b);
    double h = b - a, ux = end.x_mm - start.x_mm, uy = end.y_mm - start.y_mm,
           length = hypot(ux, uy);
    /* Inner control points of the piece, as seen from its start and from its end. */
    double ax = da.x_mm * h / 3, ay = da.y_mm * h / 3, bx = db.x_mm * h / 3, by = db.y_mm * h / 3;
    double mx = ux - ax - bx, my = uy - ay - by;
    if (length > 0 && ax * ux + ay * uy >= 0 && mx * ux + my * uy >= 0 && bx * ux + by * uy >= 0) {
        /* Along the chord the piece only goes forward, so what lies beside the chord is all. That
         * is 3 t (1-t) ((1-t) one + t other), by the control points' distances from the chord. */
        double one = (ux * ay - uy * ax) / length, other = -(ux * by - uy * bx) / length;
        double share = one * other >= 0 ? 3.0 / 4 : 4.0 / 9;
        return share * fmax(fabs(one), fabs(other));
    }
    runnel_point ea = second_derivative(p, a), eb = second_derivative(p, b);
    return h * h / 8 * fmax(hypot(ea.x_mm, ea.y_mm), hypot(eb.x_mm, eb.y_mm));
}

/* The i-th of the cuts; `sample` is where the search for the one before it ended. */
static double cut_at(const cuts *cut, size_t i, size_t *sample) {
    if (i >= cut->chords)
        return 1;
    double target = cut->sum[SAMPLES] * (double)i / (double)cut->chords;
    while (*sample + 1 < SAMPLES && cut->sum[*sample + 1] < target)
        ++*sample;
    double low = cut->sum[*sample], high = cut->sum[*sample + 1];
    double part = high > low ? fmin(1, fmax(0, (target - low) / (high - low))) : 0;
    return ((double)*sample + part) / SAMPLES;
}

/* Largest bound over all pieces. */
static double whole_bound(const runnel_point p[4], const cuts *cut, double tolerance_mm) {
    double worst = 0, before = 0;
    size_t sample = 0;
    for (size_t i = 1; i <= cut->chords && worst <= tolerance_mm; i++) {
        double t = cut_at(cut, i, &sample);
        worst = fmax(worst, piece_bound(p, before, t));
        before = t;
    }
    return worst;
}

/* Fewest chords that are found to keep the tolerance, fewer than `limit`; false when none are. */
static bool find_cuts(const runnel_point p[4], double tolerance_mm, size_t limit, cuts *cut,
                      double *bound_mm) {
    if (limit < 3) /* little to gain */
        return false;
    double before = amount_at(p, 0);
    cut->sum[0] = 0;
    for (int k = 1; k <= SAMPLES; k++) {
        double amount = amount_at(p, (double)k / SAMPLES);
        cut->sum[k] = cut->sum[k - 1] + (before + amount) / 2;
        before = amount;
    }
    double fewest = ceil(cut->sum[SAMPLES] / SAMPLES / sqrt(8 * tolerance_mm));
    if (!(fewest < (double)limit))
        return false;
    for (cut->chords = (size_t)fmax(1, fewest); cut->chords < limit;
         cut->chords += 1 + cut->chords / 32) {
        *bound_mm = whole_bound(p, cut, tolerance_mm);
        if (*bound_mm <= tolerance_mm)
            return true;
    }
    return false;
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
    size_t chords, sample = 0;
    double bound_mm, proven_mm;
    runnel_status status = count_chords(second_mm, tolerance_mm, &chords, &bound_mm);
    if (status)
        return status;
    cuts cut;
    bool uneven = find_cuts(p, tolerance_mm, chords, &cut, &proven_mm);
    if (uneven) {
        chords = cut.chords;
        bound_mm = proven_mm;
    }
    status = reserve_points(contours, chords);
    if (status)
        return status;
    for (size_t i = 1; i < chords; i++) {
        double t = uneven ? cut_at(&cut, i, &sample) : (double)i / (double)chords;
        runnel_point point = cubic_at(p, t);
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

runnel_status runnel_contours_add_moved(runnel_contours *to, const runnel_contours *from,
                                        size_t index, double dx_mm, double dy_mm) {
    const runnel_contour *c = &from->items[index];
    runnel_status status = runnel_contours_begin(to, c->closed);
    for (size_t k = c->first; k < c->first + c->count && !status; k++)
        status =
            runnel_contours_add(to, from->points[k].x_mm + dx_mm, from->points[k].y_mm + dy_mm);
    return status;
}

runnel_box runnel_contours_box(const runnel_contours *contours) {
    return runnel_points_box(contours->points, contours->point_count);
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
