/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Noding, union, offset and distance, by GEOS. The only file that includes it.
 *
 * The non-zero rule is not one of GEOS's own overlays, so the region is put together from its
 * parts: all contours are noded and polygonized into faces, a face is kept when the contours wind
 * around a point inside it, and the kept faces are dissolved along their shared edges.
 */
#include "shape/overlay.h"
#include "base/late.h"
#include "base/memory.h"
#include "runnel/contours.h"
#include "shape/clearance.h"
#include "shape/points.h"

#include <geos_c.h>

#include <math.h>
#include <string.h>

#define CALLS(X)                                                                                   \
    X(GEOSBuffer_r)                                                                                \
    X(GEOSBuildArea_r)                                                                             \
    X(GEOSContext_setErrorMessageHandler_r)                                                        \
    X(GEOSContext_setNoticeMessageHandler_r)                                                       \
    X(GEOSCoordSeq_create_r)                                                                       \
    X(GEOSCoordSeq_getSize_r)                                                                      \
    X(GEOSCoordSeq_getXY_r)                                                                        \
    X(GEOSCoordSeq_setXY_r)                                                                        \
    X(GEOSCoverageUnion_r)                                                                         \
    X(GEOSDistanceIndexed_r)                                                                       \
    X(GEOSGeomGetX_r)                                                                              \
    X(GEOSGeomGetY_r)                                                                              \
    X(GEOSGeomTypeId_r)                                                                            \
    X(GEOSGeom_clone_r)                                                                            \
    X(GEOSGeom_createCollection_r)                                                                 \
    X(GEOSGeom_createLineString_r)                                                                 \
    X(GEOSGeom_destroy_r)                                                                          \
    X(GEOSGeom_getCoordSeq_r)                                                                      \
    X(GEOSGetExteriorRing_r)                                                                       \
    X(GEOSGetGeometryN_r)                                                                          \
    X(GEOSGetInteriorRingN_r)                                                                      \
    X(GEOSGetNumGeometries_r)                                                                      \
    X(GEOSGetNumInteriorRings_r)                                                                   \
    X(GEOSPointOnSurface_r)                                                                        \
    X(GEOSPolygonize_r)                                                                            \
    X(GEOSUnaryUnionPrec_r)                                                                        \
    X(GEOSUnaryUnion_r)                                                                            \
    X(GEOS_finish_r)                                                                               \
    X(GEOS_init_r)                                                                                 \
    X(GEOSisEmpty_r)
RUNNEL_LATE(CALLS, RUNNEL_LATE_GEOS);

/** Points nearer to each other than this are one point: a ten-thousandth of the finest chord step.
 */
#define SAME_POINT_MM 1e-9

static void ignore_message(const char *message, void *state) {
    (void)message;
    (void)state;
}

/** Loads GEOS when it is not there yet, and opens it. */
static runnel_status open_geos(GEOSContextHandle_t *geos) {
    runnel_status status = runnel_late_load(&late);
    if (status)
        return status;
    *geos = lib.GEOS_init_r();
    if (!*geos)
        return RUNNEL_E_NO_MEMORY;
    lib.GEOSContext_setNoticeMessageHandler_r(*geos, ignore_message, NULL);
    lib.GEOSContext_setErrorMessageHandler_r(*geos, ignore_message, NULL);
    return RUNNEL_OK;
}

static GEOSGeometry *line_of(GEOSContextHandle_t geos, const runnel_contours *contours,
                             const runnel_contour *contour) {
    size_t count = contour->count + (contour->closed ? 1 : 0);
    GEOSCoordSequence *sequence = lib.GEOSCoordSeq_create_r(geos, (unsigned)count, 2);
    if (!sequence)
        return NULL;
    for (size_t i = 0; i < count; i++) {
        const runnel_point *p = &contours->points[contour->first + i % contour->count];
        lib.GEOSCoordSeq_setXY_r(geos, sequence, (unsigned)i, p->x_mm, p->y_mm);
    }
    return lib.GEOSGeom_createLineString_r(geos, sequence);
}

/** All contours of at least `least` points as one collection of lines; NULL on failure. */
static GEOSGeometry *lines_of(GEOSContextHandle_t geos, const runnel_contours *contours,
                              size_t least) {
    GEOSGeometry **lines = runnel_zeroed(contours->count + 1, sizeof *lines);
    if (!lines)
        return NULL;
    unsigned count = 0;
    bool complete = true;
    for (size_t i = 0; i < contours->count && complete; i++) {
        if (contours->items[i].count < least)
            continue;
        lines[count] = line_of(geos, contours, &contours->items[i]);
        complete = lines[count] != NULL;
        count += complete;
    }
    GEOSGeometry *all = NULL;
    if (complete)
        all = lib.GEOSGeom_createCollection_r(geos, GEOS_MULTILINESTRING, lines, count);
    if (!all)
        for (unsigned i = 0; i < count; i++)
            lib.GEOSGeom_destroy_r(geos, lines[i]);
    runnel_free(lines);
    return all;
}

/** Boxes of the contours, so that winding looks only at those that reach the point's row. */
static runnel_box *boxes_of(const runnel_contours *contours) {
    runnel_box *boxes = runnel_zeroed(contours->count + 1, sizeof *boxes);
    for (size_t i = 0; boxes && i < contours->count; i++) {
        const runnel_contour *c = &contours->items[i];
        boxes[i] = runnel_points_box(contours->points + c->first, c->count);
    }
    return boxes;
}

/** How often the contours wind around a point that lies on none of them. */
static int winding(const runnel_contours *contours, const runnel_box *boxes, double x, double y) {
    int turns = 0;
    for (size_t i = 0; i < contours->count; i++) {
        const runnel_box *box = &boxes[i];
        if (y < box->min_y_mm || y > box->max_y_mm || x < box->min_x_mm || x > box->max_x_mm)
            continue;
        const runnel_contour *c = &contours->items[i];
        const runnel_point *points = contours->points + c->first;
        for (size_t k = 0; k < c->count; k++) {
            runnel_point a = points[k], b = points[k + 1 < c->count ? k + 1 : 0];
            if ((a.y_mm <= y) == (b.y_mm <= y))
                continue;
            double side = (b.x_mm - a.x_mm) * (y - a.y_mm) - (x - a.x_mm) * (b.y_mm - a.y_mm);
            if (a.y_mm <= y && side > 0)
                turns++;
            if (a.y_mm > y && side < 0)
                turns--;
        }
    }
    return turns;
}

static void reverse_points(runnel_point *points, size_t count) {
    for (size_t i = 0; i < count / 2; i++) {
        runnel_point swap = points[i];
        points[i] = points[count - 1 - i];
        points[count - 1 - i] = swap;
    }
}

static bool same_point(runnel_point a, runnel_point b) {
    return hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm) <= SAME_POINT_MM;
}

/** Copies a GEOS line into a new contour, without points on top of each other. */
static runnel_status take_line(GEOSContextHandle_t geos, const GEOSGeometry *line, bool closed,
                               runnel_contours *to) {
    const GEOSCoordSequence *sequence = lib.GEOSGeom_getCoordSeq_r(geos, line);
    unsigned count = 0;
    if (!sequence || !lib.GEOSCoordSeq_getSize_r(geos, sequence, &count))
        return RUNNEL_E_NOT_COMPUTED;
    runnel_status status = runnel_contours_begin(to, closed);
    runnel_point last = {0}, next = {0};
    for (unsigned i = 0; i < count && !status; i++) {
        lib.GEOSCoordSeq_getXY_r(geos, sequence, i, &next.x_mm, &next.y_mm);
        bool keep = i == 0 || !same_point(last, next) || (!closed && i == count - 1);
        if (keep) {
            status = runnel_contours_add(to, next.x_mm, next.y_mm);
            last = next;
        }
    }
    if (!status && closed) {
        runnel_contour *c = &to->items[to->count - 1];
        while (c->count > 1 && same_point(to->points[c->first], to->points[to->point_count - 1])) {
            c->count--;
            to->point_count--;
        }
    }
    return status;
}

static runnel_status take_ring(GEOSContextHandle_t geos, const GEOSGeometry *ring, bool hole,
                               runnel_contours *to) {
    runnel_status status = take_line(geos, ring, true, to);
    if (status)
        return status;
    runnel_contour *c = &to->items[to->count - 1];
    double area = runnel_points_area(to->points + c->first, c->count);
    if (c->count < 3 || fabs(area) < RUNNEL_SMALLEST_RING_MM2) {
        to->point_count = c->first;
        to->count--;
    } else if ((area < 0) != hole) {
        reverse_points(to->points + c->first, c->count);
    }
    return RUNNEL_OK;
}

static runnel_status take_polygons(GEOSContextHandle_t geos, const GEOSGeometry *all,
                                   runnel_contours *to) {
    runnel_status status = RUNNEL_OK;
    int parts = lib.GEOSGetNumGeometries_r(geos, all);
    for (int i = 0; i < parts && !status; i++) {
        const GEOSGeometry *part = lib.GEOSGetGeometryN_r(geos, all, i);
        if (!part || lib.GEOSGeomTypeId_r(geos, part) != GEOS_POLYGON ||
            lib.GEOSisEmpty_r(geos, part) == 1)
            continue;
        status = take_ring(geos, lib.GEOSGetExteriorRing_r(geos, part), false, to);
        int holes = lib.GEOSGetNumInteriorRings_r(geos, part);
        for (int k = 0; k < holes && !status; k++)
            status = take_ring(geos, lib.GEOSGetInteriorRingN_r(geos, part, k), true, to);
    }
    return status;
}

/** Whether the contours wind around the inside of a face; false as well when GEOS gives no point.
 */
static bool is_inside(GEOSContextHandle_t geos, const runnel_contours *contours,
                      const runnel_box *boxes, const GEOSGeometry *face) {
    GEOSGeometry *point = lib.GEOSPointOnSurface_r(geos, face);
    double x = 0, y = 0;
    bool inside = point && lib.GEOSisEmpty_r(geos, point) == 0 &&
                  lib.GEOSGeomGetX_r(geos, point, &x) == 1 &&
                  lib.GEOSGeomGetY_r(geos, point, &y) == 1 && winding(contours, boxes, x, y) != 0;
    lib.GEOSGeom_destroy_r(geos, point);
    return inside;
}

/** The faces that the contours wind around, as one collection of copies; NULL on failure. */
static GEOSGeometry *inside_faces(GEOSContextHandle_t geos, const runnel_contours *contours,
                                  const GEOSGeometry *faces) {
    int parts = lib.GEOSGetNumGeometries_r(geos, faces);
    GEOSGeometry **kept = runnel_zeroed((size_t)(parts > 0 ? parts : 0) + 1, sizeof *kept);
    runnel_box *boxes = boxes_of(contours);
    GEOSGeometry *all = NULL;
    unsigned count = 0;
    for (int i = 0; kept && boxes && i < parts; i++) {
        const GEOSGeometry *face = lib.GEOSGetGeometryN_r(geos, faces, i);
        if (is_inside(geos, contours, boxes, face)) {
            kept[count] = lib.GEOSGeom_clone_r(geos, face);
            count += kept[count] != NULL;
        }
    }
    if (kept && boxes)
        all = lib.GEOSGeom_createCollection_r(geos, GEOS_GEOMETRYCOLLECTION, kept, count);
    for (unsigned i = 0; !all && i < count; i++)
        lib.GEOSGeom_destroy_r(geos, kept[i]);
    runnel_free(kept);
    runnel_free(boxes);
    return all;
}

/** Lines cut wherever they meet; on the grid, or as exact as they come. NULL on failure. */
static GEOSGeometry *node_lines(GEOSContextHandle_t geos, const GEOSGeometry *lines, bool on_grid) {
    return on_grid ? lib.GEOSUnaryUnionPrec_r(geos, lines, RUNNEL_CLEAR_MM)
                   : lib.GEOSUnaryUnion_r(geos, lines);
}

static runnel_status unite(GEOSContextHandle_t geos, const runnel_contours *contours, bool on_grid,
                           runnel_contours *region) {
    runnel_status status = RUNNEL_E_NOT_COMPUTED;
    GEOSGeometry *noded = NULL, *faces = NULL, *kept = NULL, *whole = NULL;
    GEOSGeometry *lines = lines_of(geos, contours, 3);
    if (!lines)
        return RUNNEL_E_NO_MEMORY;
    noded = node_lines(geos, lines, on_grid);
    if (!noded)
        goto cleanup;
    faces = lib.GEOSPolygonize_r(geos, (const GEOSGeometry *const *)&noded, 1);
    if (!faces)
        goto cleanup;
    kept = inside_faces(geos, contours, faces);
    if (!kept) {
        status = RUNNEL_E_NO_MEMORY;
        goto cleanup;
    }
    whole = lib.GEOSCoverageUnion_r(geos, kept);
    if (!whole) /* faces that meet in a way which it takes for an overlap */
        whole = lib.GEOSUnaryUnion_r(geos, kept);
    if (!whole) /* it loses its way where parts of the region touch each other in points */
        whole = lib.GEOSUnaryUnion_r(geos, kept);
    status = whole ? take_polygons(geos, whole, region) : RUNNEL_E_NOT_COMPUTED;
    if (!status && region->count == 0)
        status = RUNNEL_E_SHAPE;
cleanup:
    lib.GEOSGeom_destroy_r(geos, lines);
    lib.GEOSGeom_destroy_r(geos, noded);
    lib.GEOSGeom_destroy_r(geos, faces);
    lib.GEOSGeom_destroy_r(geos, kept);
    lib.GEOSGeom_destroy_r(geos, whole);
    return status;
}

static runnel_status node_path(GEOSContextHandle_t geos, const runnel_contours *path, bool on_grid,
                               runnel_contours *lines) {
    GEOSGeometry *all = lines_of(geos, path, 2);
    if (!all)
        return RUNNEL_E_NO_MEMORY;
    GEOSGeometry *noded = node_lines(geos, all, on_grid);
    runnel_status status = noded ? RUNNEL_OK : RUNNEL_E_NOT_COMPUTED;
    int parts = noded ? lib.GEOSGetNumGeometries_r(geos, noded) : 0;
    for (int i = 0; i < parts && !status; i++) {
        const GEOSGeometry *part = lib.GEOSGetGeometryN_r(geos, noded, i);
        if (part && lib.GEOSGeomTypeId_r(geos, part) == GEOS_LINESTRING &&
            lib.GEOSisEmpty_r(geos, part) == 0)
            status = take_line(geos, part, false, lines);
    }
    if (!status && lines->count == 0)
        status = RUNNEL_E_SHAPE;
    lib.GEOSGeom_destroy_r(geos, all);
    lib.GEOSGeom_destroy_r(geos, noded);
    return status;
}

/** One of the two above. */
typedef runnel_status (*overlay_function)(GEOSContextHandle_t geos, const runnel_contours *from,
                                          bool on_grid, runnel_contours *to);

/** Runs an overlay as exact as it comes, and again on the grid when the outcome is not clean. */
static runnel_status overlay(overlay_function run, bool is_path, const runnel_contours *from,
                             runnel_contours *to) {
    runnel_contours result;
    bool is_clear = false;
    for (size_t i = 0; i < from->point_count; i++)
        if (!isfinite(from->points[i].x_mm) || !isfinite(from->points[i].y_mm))
            return RUNNEL_E_RANGE;
    GEOSContextHandle_t geos = NULL;
    runnel_status status = open_geos(&geos);
    if (status)
        return status;
    runnel_contours_init(&result);
    status = run(geos, from, false, &result);
    if (!status)
        status = runnel_contours_clear_of(&result, is_path, RUNNEL_CLEAR_MM, &is_clear);
    result.flatten_mm = from->flatten_mm;
    if (!is_clear && (!status || status == RUNNEL_E_NOT_COMPUTED)) {
        runnel_contours_clear(&result);
        status = run(geos, from, true, &result);
        result.flatten_mm = from->flatten_mm + 0.71 * RUNNEL_CLEAR_MM;
    }
    lib.GEOS_finish_r(geos);
    if (status) {
        runnel_contours_clear(&result);
        return status;
    }
    runnel_contours_clear(to);
    *to = result;
    return RUNNEL_OK;
}

runnel_status runnel_unite(const runnel_contours *contours, runnel_contours *region) {
    return overlay(unite, false, contours, region);
}

runnel_status runnel_path_node(const runnel_contours *path, runnel_contours *lines) {
    return overlay(node_path, true, path, lines);
}

/* ---- Offset -----------------------------------------------------------------------------------
 */

/** Chords of a quarter turn: they stand off by 0.06 % of the distance at most. */
#define OFFSET_CHORDS 24

runnel_status runnel_contours_offset(const runnel_contours *from, bool is_path, double distance_mm,
                                     runnel_contours *region) {
    runnel_contours result;
    GEOSGeometry *lines = NULL, *base = NULL, *moved = NULL;
    GEOSContextHandle_t geos = NULL;
    runnel_status status = open_geos(&geos);
    if (status)
        return status;
    status = RUNNEL_E_NO_MEMORY;
    runnel_contours_init(&result);
    lines = lines_of(geos, from, is_path ? 2 : 3);
    if (!lines)
        goto cleanup;
    status = RUNNEL_E_NOT_COMPUTED;
    base = is_path ? lib.GEOSGeom_clone_r(geos, lines) : lib.GEOSBuildArea_r(geos, lines);
    if (base)
        moved = lib.GEOSBuffer_r(geos, base, distance_mm, OFFSET_CHORDS);
    if (!moved)
        goto cleanup;
    status = take_polygons(geos, moved, &result);
    if (!status && !result.count)
        status = RUNNEL_E_SHAPE;
    if (status)
        goto cleanup;
    result.flatten_mm = from->flatten_mm;
    runnel_contours_clear(region);
    *region = result;
    runnel_contours_init(&result);
cleanup:
    runnel_contours_clear(&result);
    lib.GEOSGeom_destroy_r(geos, lines);
    lib.GEOSGeom_destroy_r(geos, base);
    lib.GEOSGeom_destroy_r(geos, moved);
    lib.GEOS_finish_r(geos);
    return status;
}

/* ---- Distance -------------------------------------------------------------------------------- */

/** Whether a contour of `other` begins inside the region of `region`. Where their lines do not meet
 * that goes for the whole contour. */
static runnel_status begins_inside(const runnel_contours *region, const runnel_contours *other,
                                   bool *inside) {
    runnel_box *boxes = boxes_of(region);
    if (!boxes)
        return RUNNEL_E_NO_MEMORY;
    *inside = false;
    for (size_t i = 0; i < other->count && !*inside; i++) {
        const runnel_point *p = &other->points[other->items[i].first];
        *inside = other->items[i].count > 0 && winding(region, boxes, p->x_mm, p->y_mm) != 0;
    }
    runnel_free(boxes);
    return RUNNEL_OK;
}

/** Distance of the lines alone. */
static runnel_status line_distance(const runnel_contours *one, const runnel_contours *other,
                                   double *distance_mm) {
    GEOSGeometry *lines = NULL, *others = NULL;
    GEOSContextHandle_t geos = NULL;
    runnel_status status = open_geos(&geos);
    if (status)
        return status;
    status = RUNNEL_E_NO_MEMORY;
    lines = lines_of(geos, one, 2);
    others = lines_of(geos, other, 2);
    if (!lines || !others)
        goto cleanup;
    if (lib.GEOSisEmpty_r(geos, lines) != 0 || lib.GEOSisEmpty_r(geos, others) != 0)
        status = RUNNEL_E_SHAPE;
    else if (lib.GEOSDistanceIndexed_r(geos, lines, others, distance_mm) == 1)
        status = RUNNEL_OK;
    else
        status = RUNNEL_E_NOT_COMPUTED;
cleanup:
    lib.GEOSGeom_destroy_r(geos, lines);
    lib.GEOSGeom_destroy_r(geos, others);
    lib.GEOS_finish_r(geos);
    return status;
}

runnel_status runnel_contours_distance(const runnel_contours *one, bool one_is_path,
                                       const runnel_contours *other, bool other_is_path,
                                       double *distance_mm) {
    double found_mm;
    bool inside = false;
    runnel_status status = line_distance(one, other, &found_mm);
    if (!status && !one_is_path)
        status = begins_inside(one, other, &inside);
    if (!status && !other_is_path && !inside)
        status = begins_inside(other, one, &inside);
    if (!status)
        *distance_mm = inside ? 0 : found_mm;
    return status;
}
