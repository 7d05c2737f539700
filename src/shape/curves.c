/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shape/curves.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

/** An element that begins at a corner, along a segment's direction. */
static runnel_element element_of(uint32_t edge, double x, double y, const runnel_edge *along,
                                 uint32_t twin) {
    runnel_element e = {.edge = edge,
                        .x = x,
                        .y = y,
                        .ux = along->ux,
                        .uy = along->uy,
                        .nx = -along->uy,
                        .ny = along->ux};
    e.start = (runnel_disc){.x = x,
                            .y = y,
                            .nx = e.nx,
                            .ny = e.ny,
                            .never = {twin, RUNNEL_NO_EDGE, RUNNEL_NO_EDGE},
                            .always = {RUNNEL_NO_EDGE, RUNNEL_NO_EDGE},
                            .radius = INFINITY,
                            .stop = RUNNEL_STOP_NONE};
    return e;
}

runnel_element runnel_element_segment(const runnel_boundary *boundary, uint32_t edge) {
    const runnel_edge *e = &boundary->edges[edge];
    runnel_element element = element_of(edge, e->x, e->y, e, e->twin);
    runnel_disc *disc = &element.start;
    element.length = disc->after = e->length;
    *(e->reflex ? &disc->never[1] : &disc->always[0]) = e->previous;
    *(boundary->edges[e->next].reflex ? &disc->never[2] : &disc->always[1]) = e->next;
    return element;
}

runnel_element runnel_element_fan(const runnel_boundary *boundary, uint32_t edge) {
    const runnel_edge *e = &boundary->edges[edge], *b = &boundary->edges[e->previous];
    double sine = b->uy * e->ux - b->ux * e->uy, cosine = b->ux * e->ux + b->uy * e->uy;
    double turn = atan2(sine, cosine);
    runnel_element element = element_of(edge, e->x, e->y, b, e->twin);
    element.fan = true;
    element.length = turn < -pi / 2 ? pi : fmax(turn, 0);
    return element;
}

runnel_disc runnel_element_disc(const runnel_element *element, double at) {
    runnel_disc disc = element->start;
    if (element->fan) {
        double c = cos(at), s = sin(at);
        disc.nx = element->nx * c + element->ux * s;
        disc.ny = element->ny * c + element->uy * s;
        return disc;
    }
    disc.x += at * element->ux;
    disc.y += at * element->uy;
    disc.before = at;
    disc.after = element->length - at;
    return disc;
}

double runnel_disc_bound(const runnel_boundary *boundary, runnel_disc *disc, runnel_stop stop,
                         double reach) {
    disc->radius = INFINITY;
    runnel_disc_try_stop(boundary, disc, stop);
    return stop == RUNNEL_STOP_NONE ? reach : disc->radius;
}

double runnel_element_bound(const runnel_boundary *boundary, const runnel_element *element,
                            runnel_stop stop, double reach, double at) {
    if (stop == RUNNEL_STOP_NONE)
        return reach;
    runnel_disc disc = runnel_element_disc(element, at);
    return runnel_disc_bound(boundary, &disc, stop, reach);
}

/** Coefficients: segment m = c0 + c1 s + c2 s^2; fan 1/m = c0 + c1 cos + c2 sin. */
typedef struct form {
    double c0, c1, c2;
} form;

static form corner_form(const runnel_edge *corner, const runnel_element *e) {
    double gx = corner->x - e->x, gy = corner->y - e->y;
    double along = gx * e->ux + gy * e->uy, height = gx * e->nx + gy * e->ny;
    double square = gx * gx + gy * gy;
    if (e->fan)
        return (form){0, 2 * height / square, 2 * along / square};
    return (form){square / (2 * height), -along / height, 1 / (2 * height)};
}

static form line_form(const runnel_boundary *boundary, uint32_t index, const runnel_element *e) {
    const runnel_edge *f = &boundary->edges[index];
    double kx = -f->uy, ky = f->ux;
    double along = kx * e->ux + ky * e->uy, facing = kx * e->nx + ky * e->ny;
    double above = kx * (e->x - f->x) + ky * (e->y - f->y);
    if (e->fan)
        return (form){1 / above, -facing / above, -along / above};
    double dx = kx - e->nx, dy = ky - e->ny, slope = 0.5 * (dx * dx + dy * dy);
    /* a neighbour's line goes through the shared corner, without rounding */
    if (f->next == e->edge)
        above = 0;
    else if (boundary->edges[e->edge].next == index)
        above = -along * e->length;
    return (form){above / slope, along / slope, 0};
}

double runnel_element_line(const runnel_boundary *boundary, const runnel_element *element,
                           uint32_t edge, double at) {
    form f = line_form(boundary, edge, element);
    double m = element->fan ? 1 / (f.c0 + f.c1 * cos(at) + f.c2 * sin(at)) : f.c0 + f.c1 * at;
    return fmax(m, 0);
}

static form form_of(const runnel_boundary *boundary, const runnel_element *e, runnel_stop stop,
                    double reach) {
    if (stop == RUNNEL_STOP_NONE)
        return (form){e->fan ? 1 / reach : reach, 0, 0};
    uint32_t index = runnel_stop_index(stop);
    return runnel_stop_is_corner(stop) ? corner_form(&boundary->edges[index], e)
                                       : line_form(boundary, index, e);
}

/** Real roots of a w^2 + b w + c, the larger in magnitude first computed without cancellation. */
static size_t quadratic_roots(double a, double b, double c, double roots[2]) {
    if (a == 0) {
        if (b == 0)
            return 0;
        roots[0] = -c / b;
        return 1;
    }
    double inside = b * b - 4 * a * c;
    if (!(inside >= 0))
        return 0;
    double q = -0.5 * (b + copysign(sqrt(inside), b));
    size_t count = 0;
    roots[count++] = q / a;
    if (q != 0)
        roots[count++] = c / q;
    return count;
}

/** Parameters at which the two forms agree, relative to `middle`. */
static size_t agreement(const runnel_element *e, form f, form g, double middle, double roots[2]) {
    double d0 = f.c0 - g.c0, d1 = f.c1 - g.c1, d2 = f.c2 - g.c2;
    if (!e->fan)
        return quadratic_roots(d2, d1 + 2 * d2 * middle, d0 + middle * (d1 + d2 * middle), roots);
    /* about the middle, in w = tan(half the angle) */
    double c = cos(middle), s = sin(middle);
    double a = d1 * c + d2 * s, b = -d1 * s + d2 * c;
    size_t count = quadratic_roots(d0 - a, 2 * b, d0 + a, roots);
    for (size_t i = 0; i < count; i++)
        roots[i] = 2 * atan(roots[i]);
    return count;
}

/** The parameter at which a disc that a segment stops touches that segment's end (x, y). */
static double end_of_validity(const runnel_edge *f, const runnel_element *e, double x, double y) {
    double ax = x - e->x, ay = y - e->y, kx = -f->uy, ky = f->ux;
    if (e->fan) {
        double t = -(ax * ax + ay * ay) / (2 * (kx * ax + ky * ay));
        double cx = ax + t * kx, cy = ay + t * ky;
        double angle = atan2(cx * e->ux + cy * e->uy, cx * e->nx + cy * e->ny);
        return angle < -pi / 2 ? angle + 2 * pi : angle;
    }
    double dx = kx - e->nx, dy = ky - e->ny, slope = 0.5 * (dx * dx + dy * dy);
    double t = (ax * e->nx + ay * e->ny) / slope;
    return ax * e->ux + ay * e->uy + t * (kx * e->ux + ky * e->uy);
}

/** Nearer to an end of the interval than this share of it, a change-over is at the end, and an end
 * of validity does not divide the interval. */
#define END_SHARE 1e-9

/** First end of validity of a stop well inside (from, to), or NAN. */
static double validity_end(const runnel_boundary *boundary, const runnel_element *e,
                           runnel_stop stop, double from, double to) {
    if (stop == RUNNEL_STOP_NONE || runnel_stop_is_corner(stop))
        return NAN;
    const runnel_edge *f = &boundary->edges[runnel_stop_index(stop)];
    const runnel_edge *next = &boundary->edges[f->next];
    double margin = END_SHARE * (to - from);
    double at = end_of_validity(f, e, f->x, f->y);
    if (at > from + margin && at < to - margin)
        return at;
    at = end_of_validity(f, e, next->x, next->y);
    return at > from + margin && at < to - margin ? at : NAN;
}

/**
 * Whether one stop is a segment and the other one of its corners, and which. They agree in slope as
 * well where they change over, so that their difference has a double root there.
 */
static bool are_joined(const runnel_boundary *boundary, runnel_stop a, runnel_stop b,
                       uint32_t *edge, uint32_t *corner) {
    if (a == RUNNEL_STOP_NONE || b == RUNNEL_STOP_NONE ||
        runnel_stop_is_corner(a) == runnel_stop_is_corner(b))
        return false;
    *corner = runnel_stop_index(runnel_stop_is_corner(a) ? a : b);
    *edge = runnel_stop_index(runnel_stop_is_corner(a) ? b : a);
    return *corner == *edge || *corner == boundary->edges[*edge].next;
}

/** Change-over of two stops that are not joined, by its closed form; NAN when there is none. */
static double plain_crossing(const runnel_boundary *boundary, const runnel_element *element,
                             runnel_stop first, runnel_stop second, double reach, double from,
                             double to) {
    double middle = 0.5 * (from + to), margin = END_SHARE * (to - from), roots[2];
    size_t count = agreement(element, form_of(boundary, element, first, reach),
                             form_of(boundary, element, second, reach), middle, roots);
    for (size_t i = 0; i < count; i++) {
        double at = middle + roots[i];
        if (!(at > from - margin && at < to + margin))
            continue;
        at = fmin(fmax(at, from), to);
        runnel_disc disc = runnel_element_disc(element, at);
        if (isfinite(runnel_disc_bound(boundary, &disc, first, reach)) &&
            isfinite(runnel_disc_bound(boundary, &disc, second, reach)))
            return at;
    }
    return NAN;
}

double runnel_element_crossing(const runnel_boundary *boundary, const runnel_element *element,
                               runnel_stop first, runnel_stop second, double reach, double from,
                               double to) {
    uint32_t edge = 0, corner = 0;
    double at;
    if (are_joined(boundary, first, second, &edge, &corner)) {
        const runnel_edge *c = &boundary->edges[corner];
        at = end_of_validity(&boundary->edges[edge], element, c->x, c->y);
        return fmin(fmax(at, from), to);
    }
    at = plain_crossing(boundary, element, first, second, reach, from, to);
    if (isnan(at))
        at = validity_end(boundary, element, first, from, to);
    if (isnan(at))
        at = validity_end(boundary, element, second, from, to);
    return isnan(at) ? 0.5 * (from + to) : at;
}

double runnel_element_away(const runnel_boundary *boundary, const runnel_element *fan,
                           uint32_t edge) {
    const runnel_edge *f = &boundary->edges[edge];
    double angle = atan2(-f->uy * fan->ux + f->ux * fan->uy, -f->uy * fan->nx + f->ux * fan->ny);
    return angle < -pi / 2 ? angle + 2 * pi : angle;
}

double runnel_element_towards(const runnel_element *element, double x, double y) {
    double gx = x - element->x, gy = y - element->y;
    double along = gx * element->ux + gy * element->uy;
    if (!element->fan)
        return along;
    double angle = atan2(along, gx * element->nx + gy * element->ny);
    return angle < -pi / 2 ? angle + 2 * pi : angle;
}
