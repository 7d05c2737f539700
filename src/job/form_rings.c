/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Polygons of forms: few corners, typed by hand. Every pair of sides is compared, and the side of a
 * line that a point is on counts as "on it" when rounding could have decided it; so a crossing is
 * never missed, and what is nearer than rounding counts as touching.
 */
#include "base/sum.h"
#include "job/form_reading.h"
#include "runnel/units.h"

#include <math.h>

typedef struct side {
    runnel_point a, b;
} side;

static const runnel_point *ring_points(const runnel_contours *rings, size_t ring) {
    return rings->points + rings->items[ring].first;
}

static side side_of(const runnel_contours *rings, size_t ring, size_t index) {
    const runnel_point *points = ring_points(rings, ring);
    return (side){points[index], points[(index + 1) % rings->items[ring].count]};
}

/* Sign of the turn a-b-c, 0 within the rounding error of its computation: Shewchuk 1997, Adaptive
 * Precision Floating-Point Arithmetic and Fast Robust Geometric Predicates, section 4.3: at most
 * (3 + 16 e) e times the sum of the two products, e = 2^-53. */
static int turn(runnel_point a, runnel_point b, runnel_point c) {
    double left = (b.x_mm - a.x_mm) * (c.y_mm - a.y_mm);
    double right = (b.y_mm - a.y_mm) * (c.x_mm - a.x_mm);
    double bound = 3.3306690738754716e-16 * (fabs(left) + fabs(right));
    double gap = left - right;
    return gap > bound ? 1 : gap < -bound ? -1 : 0;
}

static bool within(double value, double one, double other) {
    return value >= fmin(one, other) && value <= fmax(one, other);
}

static bool in_box(runnel_point p, side s) {
    return within(p.x_mm, s.a.x_mm, s.b.x_mm) && within(p.y_mm, s.a.y_mm, s.b.y_mm);
}

static bool boxes_apart(side p, side q) {
    return fmax(p.a.x_mm, p.b.x_mm) < fmin(q.a.x_mm, q.b.x_mm) ||
           fmax(q.a.x_mm, q.b.x_mm) < fmin(p.a.x_mm, p.b.x_mm) ||
           fmax(p.a.y_mm, p.b.y_mm) < fmin(q.a.y_mm, q.b.y_mm) ||
           fmax(q.a.y_mm, q.b.y_mm) < fmin(p.a.y_mm, p.b.y_mm);
}

static runnel_point crossing_point(side p, side q) {
    double px = p.b.x_mm - p.a.x_mm, py = p.b.y_mm - p.a.y_mm;
    double qx = q.b.x_mm - q.a.x_mm, qy = q.b.y_mm - q.a.y_mm;
    double t = ((q.a.x_mm - p.a.x_mm) * qy - (q.a.y_mm - p.a.y_mm) * qx) / (px * qy - py * qx);
    return (runnel_point){p.a.x_mm + t * px, p.a.y_mm + t * py};
}

/* Whether two sides have a point in common, and one such point. */
static bool sides_meet(side p, side q, runnel_point *at) {
    if (boxes_apart(p, q))
        return false;
    int a = turn(q.a, q.b, p.a), b = turn(q.a, q.b, p.b);
    int c = turn(p.a, p.b, q.a), d = turn(p.a, p.b, q.b);
    if (a * b < 0 && c * d < 0) {
        *at = crossing_point(p, q);
        return true;
    }
    const runnel_point ends[] = {p.a, p.b, q.a, q.b};
    const int turns[] = {a, b, c, d};
    for (int i = 0; i < 4; i++)
        if (!turns[i] && in_box(ends[i], i < 2 ? q : p)) {
            *at = ends[i];
            return true;
        }
    return false;
}

/* Whether the second of two sides runs back over the first. */
static bool doubles_back(side first, side second) {
    double along = (first.b.x_mm - first.a.x_mm) * (second.b.x_mm - second.a.x_mm) +
                   (first.b.y_mm - first.a.y_mm) * (second.b.y_mm - second.a.y_mm);
    return along < 0 && !turn(first.a, first.b, second.b);
}

static bool pair_meets(const runnel_contours *rings, size_t ring, size_t i, size_t other, size_t j,
                       runnel_point *at) {
    side p = side_of(rings, ring, i), q = side_of(rings, other, j);
    size_t count = rings->items[ring].count;
    bool follows = ring == other && j == i + 1, leads = ring == other && (j + 1) % count == i;
    if (!follows && !leads)
        return sides_meet(p, q, at);
    if (follows ? doubles_back(p, q) : doubles_back(q, p)) {
        *at = follows ? p.b : q.b;
        return true;
    }
    return false;
}

/* A coordinate for a message, to the micrometre. */
static const char *show_mm(double value_mm, char *buffer, size_t size) {
    return runnel_number_exact(round(value_mm * 1000) / 1000, buffer, size);
}

static runnel_status refuse_at(const runnel_form_reading *input, const char *what,
                               runnel_point at) {
    char shown[RUNNEL_SHOWN_SIZE], x[32], y[32];
    return runnel_problems_add(input->problems, RUNNEL_E_SHAPE, input->place,
                               "'%s' %s x %s mm, y %s mm", runnel_slice_show(input->whole, shown),
                               what, show_mm(at.x_mm, x, sizeof x), show_mm(at.y_mm, y, sizeof y));
}

/* Each ring by itself and each with those behind it; the first place is told. */
static runnel_status check_crossings(const runnel_form_reading *input,
                                     const runnel_contours *rings) {
    runnel_point at;
    for (size_t ring = 0; ring < rings->count; ring++)
        for (size_t i = 0; i < rings->items[ring].count; i++)
            for (size_t other = ring; other < rings->count; other++)
                for (size_t j = other == ring ? i + 1 : 0; j < rings->items[other].count; j++)
                    if (pair_meets(rings, ring, i, other, j, &at))
                        return refuse_at(input,
                                         ring == other ? "crosses or touches itself at"
                                                       : "has rings that cross or touch at",
                                         at);
    return RUNNEL_OK;
}

/* Whether all corners lie on one line, to rounding: none is further from the line through the first
 * and the corner farthest from it, which is somewhere else, than 1e-12 of that distance. */
static bool is_flat(const runnel_point *points, size_t count) {
    double far_mm = 0;
    runnel_point way = {0, 0};
    for (size_t i = 1; i < count; i++) {
        double x = points[i].x_mm - points[0].x_mm, y = points[i].y_mm - points[0].y_mm;
        if (hypot(x, y) > far_mm) {
            far_mm = hypot(x, y);
            way = (runnel_point){x / far_mm, y / far_mm};
        }
    }
    for (size_t i = 1; i < count; i++) {
        double x = points[i].x_mm - points[0].x_mm, y = points[i].y_mm - points[0].y_mm;
        if (fabs(way.x_mm * y - way.y_mm * x) > 1e-12 * far_mm)
            return false;
    }
    return true;
}

/* Whether a point that is on no side lies inside a ring: sides above and below it are crossed. */
static bool is_inside(const runnel_contours *rings, size_t ring, runnel_point p) {
    bool inside = false;
    for (size_t i = 0; i < rings->items[ring].count; i++) {
        side s = side_of(rings, ring, i);
        bool up = s.a.y_mm <= p.y_mm && s.b.y_mm > p.y_mm;
        bool down = s.b.y_mm <= p.y_mm && s.a.y_mm > p.y_mm;
        if ((up && turn(s.a, s.b, p) > 0) || (down && turn(s.a, s.b, p) < 0))
            inside = !inside;
    }
    return inside;
}

/* Rings that do not meet are inside one another or apart; one corner tells. */
static runnel_status check_nesting(const runnel_form_reading *input, const runnel_contours *rings) {
    runnel_status worst = RUNNEL_OK;
    for (size_t hole = 1; hole < rings->count; hole++) {
        runnel_point corner = ring_points(rings, hole)[0];
        if (!is_inside(rings, 0, corner))
            worst = refuse_at(input, "has a hole outside its first ring, with a corner at", corner);
        for (size_t other = 1; other < rings->count; other++)
            if (other != hole && is_inside(rings, other, corner))
                worst =
                    refuse_at(input, "has a hole inside another hole, with a corner at", corner);
    }
    return worst;
}

static double signed_area_mm2(const runnel_point *points, size_t count) {
    runnel_sum sum = {0, 0};
    for (size_t i = 1; i + 1 < count; i++) {
        double ax = points[i].x_mm - points[0].x_mm, ay = points[i].y_mm - points[0].y_mm;
        double bx = points[i + 1].x_mm - points[0].x_mm, by = points[i + 1].y_mm - points[0].y_mm;
        runnel_sum_add(&sum, ax * by);
        runnel_sum_add(&sum, -ay * bx);
    }
    return runnel_sum_value(&sum) / 2;
}

/* By the rule of non-zero winding a hole is one only when it turns against the ring around it. */
static void orient(runnel_contours *rings, size_t ring) {
    runnel_point *points = rings->points + rings->items[ring].first;
    size_t count = rings->items[ring].count;
    bool left_turning = signed_area_mm2(points, count) > 0;
    if (left_turning == (ring == 0))
        return;
    for (size_t i = 0; i < count / 2; i++) {
        runnel_point kept = points[i];
        points[i] = points[count - 1 - i];
        points[count - 1 - i] = kept;
    }
}

runnel_status runnel_form_check_rings(const runnel_form_reading *input, runnel_contours *rings) {
    for (size_t ring = 0; ring < rings->count; ring++)
        if (is_flat(ring_points(rings, ring), rings->items[ring].count))
            return runnel_form_refuse(
                input, RUNNEL_E_SHAPE,
                "has a ring whose corners lie on one line and enclose no area");
    runnel_status status = check_crossings(input, rings);
    if (!status)
        status = check_nesting(input, rings);
    if (status)
        return status;
    for (size_t ring = 0; ring < rings->count; ring++)
        orient(rings, ring);
    return RUNNEL_OK;
}
