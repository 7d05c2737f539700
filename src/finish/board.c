/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Surface of a board with chamfers and recesses.
 *
 * A chamfer of setback c is the plane through the two lines c away from an edge. With u from 0 to c
 * across it, it ends in a corner of the board where the next chamfers begin: not shortened when
 * neither of the other two edges there has one, by u when one of them has, by max(u, c - u) when
 * both have. Means of these over u: 0, c/2, 3c/4. A face loses a strip c wide along each chamfered
 * edge of its own, and a triangle of c^2/2 in a corner where only the edge that stands on it is
 * chamfered.
 */
#include "runnel/oil.h"

#include "base/amount.h"
#include "base/sum.h"

/** The three directions: along the length, the width and the thickness. */
enum { ALONG_LENGTH, ALONG_WIDTH, ALONG_THICKNESS, AXES };

/** A face lies across an axis, at its low end (0) or its high end (1). */
static const struct {
    int axis, end;
} faces[RUNNEL_FACE_COUNT] = {
    [RUNNEL_FACE_TOP] = {ALONG_THICKNESS, 1}, [RUNNEL_FACE_BOTTOM] = {ALONG_THICKNESS, 0},
    [RUNNEL_FACE_FRONT] = {ALONG_WIDTH, 0},   [RUNNEL_FACE_BACK] = {ALONG_WIDTH, 1},
    [RUNNEL_FACE_LEFT] = {ALONG_LENGTH, 0},   [RUNNEL_FACE_RIGHT] = {ALONG_LENGTH, 1}};

/** The edge along `axis` at the ends `low` and `high` of the two other axes, in rising order. */
static const runnel_board_edge edges[AXES][2][2] = {
    [ALONG_LENGTH] = {{RUNNEL_EDGE_BOTTOM_FRONT, RUNNEL_EDGE_TOP_FRONT},
                      {RUNNEL_EDGE_BOTTOM_BACK, RUNNEL_EDGE_TOP_BACK}},
    [ALONG_WIDTH] = {{RUNNEL_EDGE_BOTTOM_LEFT, RUNNEL_EDGE_TOP_LEFT},
                     {RUNNEL_EDGE_BOTTOM_RIGHT, RUNNEL_EDGE_TOP_RIGHT}},
    [ALONG_THICKNESS] = {{RUNNEL_EDGE_FRONT_LEFT, RUNNEL_EDGE_BACK_LEFT},
                         {RUNNEL_EDGE_FRONT_RIGHT, RUNNEL_EDGE_BACK_RIGHT}}};

/** The board in these terms. */
typedef struct solid {
    double size[AXES];
    int end_axis; /**< across which there is end grain */
    double chamfer;
    unsigned chamfered, oiled;
} solid;

/** The two axes other than one, in rising order. */
static void other_axes(int axis, int *low, int *high) {
    *low = axis == ALONG_LENGTH ? ALONG_WIDTH : ALONG_LENGTH;
    *high = axis == ALONG_THICKNESS ? ALONG_WIDTH : ALONG_THICKNESS;
}

/** Whether the edge along `axis` through a corner is chamfered; the corner by its end on each axis.
 */
static bool is_chamfered(const solid *s, int axis, const int corner[AXES]) {
    int low, high;
    other_axes(axis, &low, &high);
    return (s->chamfered & RUNNEL_EDGE_BIT(edges[axis][corner[low]][corner[high]])) != 0;
}

static runnel_face face_at(int axis, int end) {
    runnel_face face = RUNNEL_FACE_TOP;
    while (faces[face].axis != axis || faces[face].end != end)
        face++;
    return face;
}

static bool is_oiled(const solid *s, int axis, int end) {
    return (s->oiled & RUNNEL_FACE_BIT(face_at(axis, end))) != 0;
}

/** Area of a face without its chamfers. */
static double face_area(const solid *s, runnel_face face) {
    int a, b, corner[AXES];
    other_axes(faces[face].axis, &a, &b);
    double sides[2] = {s->size[a], s->size[b]}, triangles = 0;
    corner[faces[face].axis] = faces[face].end;
    for (int end = 0; end < 2; end++) {
        corner[a] = corner[b] = end; /* the edge along a does not depend on the end of a */
        sides[1] -= is_chamfered(s, a, corner) ? s->chamfer : 0;
        sides[0] -= is_chamfered(s, b, corner) ? s->chamfer : 0;
    }
    for (int k = 0; k < 4; k++) {
        corner[a] = k & 1;
        corner[b] = k >> 1;
        if (is_chamfered(s, faces[face].axis, corner) && !is_chamfered(s, a, corner) &&
            !is_chamfered(s, b, corner))
            triangles += 0.5 * s->chamfer * s->chamfer;
    }
    return sides[0] * sides[1] - triangles;
}

/** Area of the chamfer along `axis`. */
static double chamfer_area(const solid *s, int axis, int corner[AXES]) {
    static const double shortening[] = {0, 0.5, 0.75};
    const double root_2 = 1.41421356237309504880;
    int a, b;
    other_axes(axis, &a, &b);
    double length = s->size[axis];
    for (int end = 0; end < 2; end++) {
        corner[axis] = end;
        length -= shortening[is_chamfered(s, a, corner) + is_chamfered(s, b, corner)] * s->chamfer;
    }
    return root_2 * s->chamfer * length;
}

/** Adds all chamfers that take oil. */
static void add_chamfers(const solid *s, runnel_sum *face_grain, runnel_sum *end_grain,
                         runnel_sum *chamfers) {
    for (int axis = 0; axis < AXES; axis++)
        for (int k = 0; k < 4; k++) {
            int a, b, corner[AXES] = {0};
            other_axes(axis, &a, &b);
            corner[a] = k & 1;
            corner[b] = k >> 1;
            if (!is_chamfered(s, axis, corner) ||
                (!is_oiled(s, a, corner[a]) && !is_oiled(s, b, corner[b])))
                continue;
            double area = chamfer_area(s, axis, corner);
            runnel_sum_add(a == s->end_axis || b == s->end_axis ? end_grain : face_grain, area);
            runnel_sum_add(chamfers, area);
        }
}

/* ---- The board ----------------------------------------------------------------------------- */

static bool grain_axis(runnel_grain grain, int *axis) {
    static const int axes[] = {[RUNNEL_GRAIN_LENGTH] = ALONG_LENGTH,
                               [RUNNEL_GRAIN_WIDTH] = ALONG_WIDTH,
                               [RUNNEL_GRAIN_THICKNESS] = ALONG_THICKNESS};
    if ((unsigned)grain >= sizeof axes / sizeof *axes)
        return false;
    *axis = axes[grain];
    return true;
}

/** Whether chamfers leave room for each other: an edge along one axis takes from the two others. */
static bool chamfers_fit(const solid *s) {
    static const unsigned along[AXES] = {
        [ALONG_LENGTH] =
            RUNNEL_EDGE_BIT(RUNNEL_EDGE_TOP_FRONT) | RUNNEL_EDGE_BIT(RUNNEL_EDGE_TOP_BACK) |
            RUNNEL_EDGE_BIT(RUNNEL_EDGE_BOTTOM_FRONT) | RUNNEL_EDGE_BIT(RUNNEL_EDGE_BOTTOM_BACK),
        [ALONG_WIDTH] =
            RUNNEL_EDGE_BIT(RUNNEL_EDGE_TOP_LEFT) | RUNNEL_EDGE_BIT(RUNNEL_EDGE_TOP_RIGHT) |
            RUNNEL_EDGE_BIT(RUNNEL_EDGE_BOTTOM_LEFT) | RUNNEL_EDGE_BIT(RUNNEL_EDGE_BOTTOM_RIGHT),
        [ALONG_THICKNESS] = RUNNEL_EDGES_UPRIGHT};
    for (int axis = 0; axis < AXES; axis++)
        if ((s->chamfered & ~along[axis]) && !(2 * s->chamfer <= s->size[axis]))
            return false;
    return true;
}

static bool take_board(const runnel_oil_board *board, solid *s) {
    *s = (solid){.size = {board->length_mm, board->width_mm, board->thickness_mm},
                 .chamfer = board->chamfer_mm,
                 .chamfered = board->edges,
                 .oiled = board->faces ? board->faces : RUNNEL_FACES_ALL};
    return runnel_is_positive(board->length_mm) && runnel_is_positive(board->width_mm) &&
           runnel_is_positive(board->thickness_mm) && runnel_is_amount(board->chamfer_mm) &&
           grain_axis(board->grain, &s->end_axis) && !(board->edges & ~RUNNEL_EDGES_ALL) &&
           !(board->faces & ~RUNNEL_FACES_ALL) && chamfers_fit(s);
}

/** Running sums of an area. */
typedef struct area_sums {
    runnel_sum face_grain, end_grain, chamfers, walls, resin, juice;
} area_sums;

/** Adds a recess; `left` is what its face has left for it. */
static runnel_status add_recess(const solid *s, const runnel_recess *recess, double *left,
                                area_sums *sums) {
    if ((unsigned)recess->face >= RUNNEL_FACE_COUNT || recess->count < 1 ||
        (unsigned)recess->kind > RUNNEL_RECESS_PLAIN || !runnel_is_amount(recess->footprint_mm2) ||
        !runnel_is_amount(recess->wall_mm2) || !runnel_is_amount(recess->volume_mm3))
        return RUNNEL_E_RANGE;
    double count = (double)recess->count, footprint = count * recess->footprint_mm2;
    left[recess->face] -= footprint;
    if (left[recess->face] < 0)
        return RUNNEL_E_CONFLICT;
    if (recess->kind == RUNNEL_RECESS_JUICE)
        runnel_sum_add(&sums->juice, count * recess->volume_mm3);
    if (!(s->oiled & RUNNEL_FACE_BIT(recess->face)))
        return RUNNEL_OK;
    bool is_end = faces[recess->face].axis == s->end_axis;
    runnel_sum *grain = is_end ? &sums->end_grain : &sums->face_grain;
    runnel_sum_add(grain, -footprint);
    if (recess->kind == RUNNEL_RECESS_RESIN) {
        runnel_sum_add(&sums->resin, footprint);
    } else {
        runnel_sum_add(grain, count * recess->wall_mm2);
        runnel_sum_add(&sums->walls, count * recess->wall_mm2);
    }
    return RUNNEL_OK;
}

runnel_status runnel_oil_area_of(const runnel_oil_board *board, runnel_oil_area *area) {
    solid s;
    area_sums sums = {0};
    double left[RUNNEL_FACE_COUNT];
    if (!take_board(board, &s))
        return RUNNEL_E_RANGE;
    for (runnel_face face = RUNNEL_FACE_TOP; face < RUNNEL_FACE_COUNT; face++) {
        left[face] = face_area(&s, face);
        if (s.oiled & RUNNEL_FACE_BIT(face))
            runnel_sum_add(faces[face].axis == s.end_axis ? &sums.end_grain : &sums.face_grain,
                           left[face]);
    }
    add_chamfers(&s, &sums.face_grain, &sums.end_grain, &sums.chamfers);
    for (size_t i = 0; i < board->recess_count; i++) {
        runnel_status status = add_recess(&s, &board->recesses[i], left, &sums);
        if (status)
            return status;
    }
    runnel_oil_area fresh = {.face_mm2 = runnel_sum_value(&sums.face_grain),
                             .end_mm2 = runnel_sum_value(&sums.end_grain),
                             .chamfer_mm2 = runnel_sum_value(&sums.chamfers),
                             .wall_mm2 = runnel_sum_value(&sums.walls),
                             .resin_mm2 = runnel_sum_value(&sums.resin),
                             .juice_mm3 = runnel_sum_value(&sums.juice)};
    fresh.total_mm2 = fresh.face_mm2 + fresh.end_mm2;
    if (!isfinite(fresh.total_mm2) || !isfinite(fresh.juice_mm3))
        return RUNNEL_E_RANGE;
    *area = fresh;
    return RUNNEL_OK;
}

/* ---- Grooves and slots --------------------------------------------------------------------- */

static runnel_status cut_path(runnel_shape *shape, double nose_mm, double depth_mm,
                              runnel_cavity *figures) {
    runnel_cut cut = {{RUNNEL_CUTTER_ROUND_NOSE, 0, 0, nose_mm}, RUNNEL_CUT_PATH, depth_mm};
    return runnel_cavity_compute(shape, &cut, figures);
}

/* A path through corners. */
static runnel_status path_of(const runnel_point *points, size_t count, bool closed,
                             runnel_shape **shape) {
    runnel_contours contours;
    runnel_contours_init(&contours);
    runnel_status status = runnel_contours_begin(&contours, closed);
    for (size_t i = 0; i < count && !status; i++)
        status = runnel_contours_add(&contours, points[i].x_mm, points[i].y_mm);
    if (!status)
        status = runnel_shape_path(&contours, NULL, shape);
    runnel_contours_clear(&contours);
    return status;
}

runnel_status runnel_juice_groove(double length_mm, double width_mm, double corner_mm,
                                  double nose_mm, double depth_mm, runnel_cavity *figures) {
    if (!runnel_is_positive(length_mm) || !runnel_is_positive(width_mm) ||
        !runnel_is_amount(corner_mm))
        return RUNNEL_E_RANGE;
    const runnel_point corners[] = {{0, 0}, {length_mm, 0}, {length_mm, width_mm}, {0, width_mm}};
    runnel_shape *shape = NULL;
    runnel_status status = corner_mm > 0
                               ? runnel_shape_rounded(length_mm, width_mm, corner_mm, true, &shape)
                               : path_of(corners, sizeof corners / sizeof *corners, true, &shape);
    if (!status)
        status = cut_path(shape, nose_mm, depth_mm, figures);
    runnel_shape_free(shape);
    return status;
}

runnel_status runnel_slot(double length_mm, double nose_mm, double depth_mm,
                          runnel_cavity *figures) {
    runnel_cutter nose = {RUNNEL_CUTTER_ROUND_NOSE, 0, 0, nose_mm};
    if (!runnel_is_positive(length_mm) || !runnel_is_positive(nose_mm) ||
        !runnel_is_positive(depth_mm))
        return RUNNEL_E_RANGE;
    double run_mm = length_mm - 2 * runnel_cutter_face_radius_mm(&nose, depth_mm);
    if (!runnel_is_positive(run_mm))
        return RUNNEL_E_RANGE;
    const runnel_point ends[] = {{0, 0}, {run_mm, 0}};
    runnel_shape *shape = NULL;
    runnel_status status = path_of(ends, 2, false, &shape);
    if (!status)
        status = cut_path(shape, nose_mm, depth_mm, figures);
    runnel_shape_free(shape);
    return status;
}
