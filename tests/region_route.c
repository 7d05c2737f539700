/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "region_route.h"

#include "solids.h"

#include <geos_c.h>

#include <stdio.h>
#include <stdlib.h>

/* Chords of a full turn, for one step and for an opening; each area is computed with these and with
 * twice as many, and what is left of the square of the step is taken out (Richardson). */
enum { FEW_CHORDS = 160, MANY_CHORDS = 192 };
/* Parts of an inset with less area than this, as a share, are rounding between bands. */
#define LEAST_SHARE 1e-9
/* Grid of all overlays: on one, GEOS keeps what it is given together whatever meets. */
#define GRID_MM 1e-7

struct region_route {
    GEOSContextHandle_t geos;
    GEOSGeometry *shape;
    bool is_lines;
};

/* A growing list of pieces that will be united. */
typedef struct pieces {
    GEOSContextHandle_t geos;
    GEOSGeometry **items;
    size_t count, capacity;
} pieces;

static void add_piece(pieces *list, GEOSGeometry *piece) {
    ck_assert_ptr_nonnull(piece);
    if (list->count == list->capacity) {
        list->capacity = list->capacity ? 2 * list->capacity : 64;
        list->items = realloc(list->items, list->capacity * sizeof *list->items);
        ck_assert_ptr_nonnull(list->items);
    }
    list->items[list->count++] = piece;
}

/* Union of all pieces, which are taken over; on a grid, or on none if `grid_mm` is 0. */
static GEOSGeometry *unite(pieces *list, double grid_mm) {
    GEOSGeometry *all = GEOSGeom_createCollection_r(list->geos, GEOS_GEOMETRYCOLLECTION,
                                                    list->items, (unsigned)list->count);
    GEOSGeometry *whole = grid_mm > 0 ? GEOSUnaryUnionPrec_r(list->geos, all, grid_mm)
                                      : GEOSUnaryUnion_r(list->geos, all);
    GEOSGeom_destroy_r(list->geos, all);
    free(list->items);
    *list = (pieces){.geos = list->geos};
    ck_assert_ptr_nonnull(whole);
    return whole;
}

static GEOSGeometry *polygon(GEOSContextHandle_t geos, const runnel_point *points, size_t count) {
    GEOSCoordSequence *sequence = GEOSCoordSeq_create_r(geos, (unsigned)(count + 1), 2);
    for (size_t i = 0; i <= count; i++)
        GEOSCoordSeq_setXY_r(geos, sequence, (unsigned)i, points[i % count].x_mm,
                             points[i % count].y_mm);
    return GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, sequence), NULL, 0);
}

/* Width of a strip, chords to a full turn, and by how much more they are divided. */
typedef struct strip_size {
    double radius;
    int chords, parts;
} strip_size;

/* The part of a disc from one direction counter-clockwise through an angle. Its chords enclose the
 * area of the arc; below them it reaches a step into the bands at either side. */
static void add_sector(pieces *list, runnel_point at, double from, double angle, strip_size size) {
    runnel_point ring[2 * MANY_CHORDS + 8];
    int count = (int)ceil(angle * size.chords / (2 * PI)) * size.parts;
    double step = angle / count, r = size.radius * sqrt(step / sin(step));
    ring[0] = at;
    for (int i = -1; i <= count + 1; i++) {
        double direction = from + i * step, reach = i < 0 || i > count ? 0.5 * r : r;
        ring[i + 2] =
            (runnel_point){at.x_mm + reach * cos(direction), at.y_mm + reach * sin(direction)};
    }
    add_piece(list, polygon(list->geos, ring, (size_t)count + 4));
}

static void add_band(pieces *list, runnel_point a, runnel_point b, double radius) {
    double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm, length = hypot(dx, dy);
    if (!(length > 0))
        return;
    double nx = -dy / length * radius, ny = dx / length * radius;
    runnel_point ring[4] = {{a.x_mm + nx, a.y_mm + ny},
                            {a.x_mm - nx, a.y_mm - ny},
                            {b.x_mm - nx, b.y_mm - ny},
                            {b.x_mm + nx, b.y_mm + ny}};
    add_piece(list, polygon(list->geos, ring, 4));
}

/* Which corners get a sector. */
typedef enum corners { ALL_CORNERS, LEFT_TURNS, RIGHT_TURNS } corners;

/* The sector on the outer side of a turn from a to b to c. */
static void add_turn(pieces *list, runnel_point a, runnel_point b, runnel_point c, strip_size size,
                     corners which) {
    double before = atan2(b.y_mm - a.y_mm, b.x_mm - a.x_mm);
    double after = atan2(c.y_mm - b.y_mm, c.x_mm - b.x_mm);
    double turn = remainder(after - before, 2 * PI);
    if (turn > 0 && which != RIGHT_TURNS)
        add_sector(list, b, before - PI / 2, turn, size);
    if (turn < 0 && which != LEFT_TURNS)
        add_sector(list, b, after + PI / 2, -turn, size);
}

/* Bands and sectors of one line or ring (first point repeated at its end). */
static void add_strip(pieces *list, const GEOSGeometry *line, strip_size size, corners which) {
    GEOSContextHandle_t geos = list->geos;
    const GEOSCoordSequence *sequence = GEOSGeom_getCoordSeq_r(geos, line);
    unsigned count = 0;
    GEOSCoordSeq_getSize_r(geos, sequence, &count);
    runnel_point *p = calloc(count + 1, sizeof *p);
    ck_assert(p != NULL && count >= 2);
    for (unsigned i = 0; i < count; i++)
        GEOSCoordSeq_getXY_r(geos, sequence, i, &p[i].x_mm, &p[i].y_mm);
    bool closed = p[0].x_mm == p[count - 1].x_mm && p[0].y_mm == p[count - 1].y_mm;
    p[count] = p[1];
    for (unsigned i = 0; i + 1 < count; i++) {
        add_band(list, p[i], p[i + 1], size.radius);
        if (closed || i + 2 < count)
            add_turn(list, p[i], p[i + 1], p[i + 2], size, which);
    }
    if (!closed) { /* half discs at the ends; a full turn's half is no turn of either sense */
        double start = atan2(p[1].y_mm - p[0].y_mm, p[1].x_mm - p[0].x_mm);
        double end =
            atan2(p[count - 1].y_mm - p[count - 2].y_mm, p[count - 1].x_mm - p[count - 2].x_mm);
        add_sector(list, p[0], start + PI / 2, PI, size);
        add_sector(list, p[count - 1], end - PI / 2, PI, size);
    }
    free(p);
}

/* Strips along all rings of polygons, which have been normalized: outer rings clockwise, holes
 * counter-clockwise, so that the region lies on the right; or along all lines. */
static GEOSGeometry *strips(GEOSContextHandle_t geos, const GEOSGeometry *shape, strip_size size,
                            corners which, double grid_mm) {
    pieces list = {.geos = geos};
    int parts = GEOSGetNumGeometries_r(geos, shape);
    for (int i = 0; i < parts; i++) {
        const GEOSGeometry *part = GEOSGetGeometryN_r(geos, shape, i);
        if (GEOSisEmpty_r(geos, part))
            continue;
        if (GEOSGeomTypeId_r(geos, part) != GEOS_POLYGON) {
            add_strip(&list, part, size, which);
            continue;
        }
        add_strip(&list, GEOSGetExteriorRing_r(geos, part), size, which);
        for (int k = 0; k < GEOSGetNumInteriorRings_r(geos, part); k++)
            add_strip(&list, GEOSGetInteriorRingN_r(geos, part, k), size, which);
    }
    return unite(&list, grid_mm);
}

static double area_of(GEOSContextHandle_t geos, const GEOSGeometry *shape) {
    double area = NAN;
    ck_assert_int_eq(GEOSArea_r(geos, shape, &area), 1);
    return area;
}

typedef GEOSGeometry *overlay(GEOSContextHandle_t geos, const GEOSGeometry *a,
                              const GEOSGeometry *b, double grid_mm);

/* An overlay of a shape with the strips along its border. A union off the grid is fast; where GEOS
 * then finds a ring open, which it says, one on the grid, which never is, takes its place. */
static GEOSGeometry *with_strips(GEOSContextHandle_t geos, overlay *operation,
                                 const GEOSGeometry *shape, strip_size size, corners which) {
    GEOSGeometry *result = NULL;
    for (int tries = 0; result == NULL && tries < 2; tries++) {
        GEOSGeometry *border = strips(geos, shape, size, which, tries * GRID_MM);
        result = operation(geos, shape, border, GRID_MM);
        GEOSGeom_destroy_r(geos, border);
    }
    ck_assert_ptr_nonnull(result);
    return result;
}

/* The polygons of more than some area; the caller's. */
static GEOSGeometry *without_slivers(GEOSContextHandle_t geos, const GEOSGeometry *shape,
                                     double least) {
    int count = GEOSGetNumGeometries_r(geos, shape);
    GEOSGeometry **kept = calloc((size_t)count + 1, sizeof *kept);
    ck_assert_ptr_nonnull(kept);
    unsigned n = 0;
    for (int i = 0; i < count; i++) {
        const GEOSGeometry *part = GEOSGetGeometryN_r(geos, shape, i);
        if (GEOSGeomTypeId_r(geos, part) == GEOS_POLYGON && area_of(geos, part) > least)
            kept[n++] = GEOSGeom_clone_r(geos, part);
    }
    GEOSGeometry *clean = GEOSGeom_createCollection_r(geos, GEOS_MULTIPOLYGON, kept, n);
    free(kept);
    return clean;
}

/* Shape less all within `t` of its border; the caller's. */
static GEOSGeometry *inset(const region_route *route, strip_size size) {
    GEOSContextHandle_t geos = route->geos;
    if (!(size.radius > 0))
        return GEOSGeom_clone_r(geos, route->shape);
    GEOSGeometry *left = with_strips(geos, GEOSDifferencePrec_r, route->shape, size, LEFT_TURNS);
    GEOSGeometry *clean = without_slivers(geos, left, LEAST_SHARE * area_of(geos, route->shape));
    GEOSGeom_destroy_r(geos, left);
    GEOSNormalize_r(geos, clean);
    return clean;
}

static GEOSGeometry *grown(GEOSContextHandle_t geos, const GEOSGeometry *shape, strip_size size) {
    if (!(size.radius > 0) || GEOSisEmpty_r(geos, shape))
        return GEOSGeom_clone_r(geos, shape);
    return with_strips(geos, GEOSUnionPrec_r, shape, size, RIGHT_TURNS);
}

/* A ring as a polygon, with its signed area. */
typedef struct signed_ring {
    GEOSGeometry *polygon;
    double area;
} signed_ring;

static int by_size(const void *left, const void *right) {
    const signed_ring *a = left, *b = right;
    return (fabs(a->area) < fabs(b->area)) - (fabs(a->area) > fabs(b->area));
}

/* What GEOS says when it fails goes to the log of the test. */
static void tell(const char *message, void *state) {
    (void)state;
    fprintf(stderr, "GEOS: %s\n", message);
}

static GEOSContextHandle_t new_context(void) {
    GEOSContextHandle_t geos = GEOS_init_r();
    ck_assert_ptr_nonnull(geos);
    GEOSContext_setErrorMessageHandler_r(geos, tell, NULL);
    return geos;
}

region_route *route_of_region(const runnel_contours *contours) {
    region_route *route = calloc(1, sizeof *route);
    signed_ring *rings = calloc(contours->count + 1, sizeof *rings);
    ck_assert(route != NULL && rings != NULL);
    GEOSContextHandle_t geos = route->geos = new_context();
    for (size_t i = 0; i < contours->count; i++) {
        const runnel_contour *c = &contours->items[i];
        runnel_contours one = {.points = contours->points + c->first,
                               .point_count = c->count,
                               .items = &(runnel_contour){0, c->count, true},
                               .count = 1};
        rings[i] = (signed_ring){polygon(geos, one.points, c->count), runnel_contours_area(&one)};
    }
    /* from the largest on, so that holes are there before the islands in them */
    qsort(rings, contours->count, sizeof *rings, by_size);
    route->shape = GEOSGeom_createEmptyCollection_r(geos, GEOS_MULTIPOLYGON);
    for (size_t i = 0; i < contours->count; i++) {
        GEOSGeometry *before = route->shape;
        route->shape = rings[i].area > 0 ? GEOSUnion_r(geos, before, rings[i].polygon)
                                         : GEOSDifference_r(geos, before, rings[i].polygon);
        ck_assert_ptr_nonnull(route->shape);
        GEOSGeom_destroy_r(geos, before);
        GEOSGeom_destroy_r(geos, rings[i].polygon);
    }
    free(rings);
    GEOSNormalize_r(geos, route->shape);
    return route;
}

region_route *route_of_lines(const runnel_contours *contours) {
    region_route *route = calloc(1, sizeof *route);
    ck_assert_ptr_nonnull(route);
    *route = (region_route){.geos = new_context(), .is_lines = true};
    GEOSGeometry **lines = calloc(contours->count, sizeof *lines);
    ck_assert_ptr_nonnull(lines);
    for (size_t i = 0; i < contours->count; i++) {
        const runnel_contour *c = &contours->items[i];
        unsigned count = (unsigned)c->count + c->closed;
        GEOSCoordSequence *sequence = GEOSCoordSeq_create_r(route->geos, count, 2);
        for (unsigned k = 0; k < count; k++) {
            runnel_point p = contours->points[c->first + k % c->count];
            GEOSCoordSeq_setXY_r(route->geos, sequence, k, p.x_mm, p.y_mm);
        }
        lines[i] = GEOSGeom_createLineString_r(route->geos, sequence);
    }
    route->shape = GEOSGeom_createCollection_r(route->geos, GEOS_MULTILINESTRING, lines,
                                               (unsigned)contours->count);
    free(lines);
    ck_assert_ptr_nonnull(route->shape);
    return route;
}

void route_free(region_route *route) {
    GEOSGeom_destroy_r(route->geos, route->shape);
    GEOS_finish_r(route->geos);
    free(route);
}

static double extrapolated(const double values[2]) {
    return (4 * values[1] - values[0]) / 3;
}

double route_inset_mm2(const region_route *route, double t) {
    double values[2];
    for (int finer = 0; finer < 2; finer++) {
        GEOSGeometry *left = inset(route, (strip_size){t, FEW_CHORDS, 1 + finer});
        values[finer] = area_of(route->geos, left);
        GEOSGeom_destroy_r(route->geos, left);
    }
    return extrapolated(values);
}

double route_around_mm2(const region_route *route, double t) {
    GEOSContextHandle_t geos = route->geos;
    double values[2];
    for (int finer = 0; finer < 2; finer++) {
        strip_size size = {t, FEW_CHORDS, 1 + finer};
        GEOSGeometry *whole = route->is_lines ? strips(geos, route->shape, size, ALL_CORNERS, 0)
                                              : grown(geos, route->shape, size);
        values[finer] = area_of(geos, whole);
        GEOSGeom_destroy_r(geos, whole);
    }
    return extrapolated(values) - (route->is_lines ? 0 : area_of(geos, route->shape));
}

void route_opened(const region_route *route, double sigma, double rho, double *area_mm2,
                  double *border_mm) {
    GEOSContextHandle_t geos = route->geos;
    double areas[2], borders[2];
    for (int finer = 0; finer < 2; finer++) {
        GEOSGeometry *centres = inset(route, (strip_size){sigma, MANY_CHORDS, 1 + finer});
        GEOSGeometry *whole = grown(geos, centres, (strip_size){rho, MANY_CHORDS, 1 + finer});
        areas[finer] = area_of(geos, whole);
        ck_assert_int_eq(GEOSLength_r(geos, whole, &borders[finer]), 1);
        GEOSGeom_destroy_r(geos, centres);
        GEOSGeom_destroy_r(geos, whole);
    }
    *area_mm2 = extrapolated(areas);
    *border_mm = extrapolated(borders);
}

double route_opened_mm2(const region_route *route, double sigma, double rho) {
    double area = 0, border = 0;
    route_opened(route, sigma, rho, &area, &border);
    return area;
}

/* One panel with its three values. */
typedef struct panel {
    double from, to, first, middle, last;
} panel;

static double panel_integral(double (*f)(double, void *), void *state, panel p, double tolerance,
                             int halvings) {
    double centre = 0.5 * (p.from + p.to), width = p.to - p.from;
    panel left = {p.from, centre, p.first, f(0.5 * (p.from + centre), state), p.middle};
    panel right = {centre, p.to, p.middle, f(0.5 * (centre + p.to), state), p.last};
    double whole = width / 6 * (p.first + 4 * p.middle + p.last);
    double halves =
        width / 12 * (left.first + 4 * left.middle + 2 * left.last + 4 * right.middle + right.last);
    if (fabs(halves - whole) <= 15 * tolerance || halvings == 0)
        return halves + (halves - whole) / 15;
    return panel_integral(f, state, left, tolerance / 2, halvings - 1) +
           panel_integral(f, state, right, tolerance / 2, halvings - 1);
}

double route_integral(double (*f)(double x, void *state), void *state, double from, double to,
                      double tolerance) {
    enum { PANELS = 8, MOST_HALVINGS = 14 };
    double sum = 0, width = (to - from) / PANELS;
    for (int i = 0; i < PANELS; i++) {
        double a = from + i * width, b = a + width;
        panel p = {a, b, f(a, state), f(0.5 * (a + b), state), f(b, state)};
        sum += panel_integral(f, state, p, tolerance / PANELS, MOST_HALVINGS);
    }
    return sum;
}

static double inset_at(double t, void *state) {
    return route_inset_mm2(state, t);
}

double route_inset_integral(const region_route *route, double to, double tolerance) {
    region_route copy = *route;
    return route_integral(inset_at, &copy, 0, to, tolerance);
}
