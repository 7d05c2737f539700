/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Profiles against brute force. At random points of the boundary the radius of the largest disc is
 * sought over all segments as plain sets of points, by calculus and in long double: no trees, no
 * corners, no sides, nothing of the walk that is under test. The pieces must also tile each
 * element without a gap.
 */
#include "shape/curves.h"
#include "shape/pieces.h"
#include "solids.h"

#include <float.h>
#include <stdlib.h>

/* Smallest angle, rad, at which a segment counts as rising above the tangent at its own end. */
#define LEAST_RISE 1e-12L

/* --- the largest disc by brute force --- */

typedef struct touching {
    long double x, y, nx, ny;
} touching;

/* Radius at which a disc that touches at p reaches the point q; infinite for one not ahead. */
static long double reach_point(const touching *p, long double qx, long double qy) {
    long double rx = qx - p->x, ry = qy - p->y, ahead = rx * p->nx + ry * p->ny;
    long double square = rx * rx + ry * ry;
    return ahead > LEAST_RISE * sqrtl(square) ? square / (2 * ahead) : INFINITY;
}

/* The same for all points of a segment: least of |r|^2 / 2 n.r over it, r = a + u (b - a) - p. */
static long double reach_segment(const touching *p, const runnel_edge *a, const runnel_edge *b) {
    long double ax = a->x - p->x, ay = a->y - p->y;
    long double gx = (long double)b->x - a->x, gy = (long double)b->y - a->y;
    long double d0 = ax * ax + ay * ay, d1 = 2 * (ax * gx + ay * gy), d2 = gx * gx + gy * gy;
    long double n0 = ax * p->nx + ay * p->ny, n1 = gx * p->nx + gy * p->ny;
    long double best = fminl(reach_point(p, a->x, a->y), reach_point(p, b->x, b->y));
    /* where the derivative vanishes: d2 n1 u^2 + 2 d2 n0 u + d1 n0 - d0 n1 = 0 */
    long double qa = d2 * n1, qb = d2 * n0, qc = d1 * n0 - d0 * n1, inside = qb * qb - qa * qc;
    if (inside < 0)
        return best;
    long double q = -(qb + copysignl(sqrtl(inside), qb));
    long double roots[2] = {qa != 0 ? q / qa : -1, q != 0 ? qc / q : -1};
    for (int i = 0; i < 2; i++)
        if (roots[i] > 0 && roots[i] < 1)
            best = fminl(best, reach_point(p, a->x + roots[i] * gx, a->y + roots[i] * gy));
    return best;
}

/* Where the element touches at a parameter: s along a segment, or an angle clockwise from the
 * normal of the segment before the corner. */
static touching touching_at(const runnel_boundary *b, const runnel_element *element, double at) {
    const runnel_edge *e = &b->edges[element->edge];
    const runnel_edge *from = element->fan ? &b->edges[e->previous] : e;
    const runnel_edge *to = &b->edges[from->next];
    long double dx = (long double)to->x - from->x, dy = (long double)to->y - from->y;
    long double length = sqrtl(dx * dx + dy * dy), ux = dx / length, uy = dy / length;
    if (!element->fan)
        return (touching){e->x + at * ux, e->y + at * uy, -uy, ux};
    long double c = cosl(at), s = sinl(at);
    return (touching){e->x, e->y, -uy * c + ux * s, ux * c + uy * s};
}

static double brute(const runnel_boundary *b, const runnel_element *element, double at,
                    double reach) {
    touching p = touching_at(b, element, at);
    long double best = reach;
    for (uint32_t i = 0; i < b->count; i++)
        if (element->fan || (i != element->edge && b->edges[i].twin != element->edge))
            best = fminl(best, reach_segment(&p, &b->edges[i], &b->edges[b->edges[i].next]));
    return (double)best;
}

/* --- m by the pieces --- */

/* x of a piece at a parameter between its ends. */
static double x_at(const runnel_piece *piece, double at) {
    double sign = piece->x1 >= piece->x0 ? 1 : -1, gone = at - piece->from;
    switch (piece->kind) {
    case RUNNEL_PIECE_LINE:
        return gone / (piece->to - piece->from);
    case RUNNEL_PIECE_POINT:
        return piece->x0 + gone;
    case RUNNEL_PIECE_FAN_LINE:
        return piece->h * tan(atan(piece->x0 / piece->h) + sign * gone / 2);
    case RUNNEL_PIECE_FAN_POINT:
        return piece->h * tan(atan(piece->x0 / piece->h) + sign * gone);
    case RUNNEL_PIECE_CONST:
    case RUNNEL_PIECE_FAN_CONST:
        break;
    }
    return 0;
}

static const runnel_piece *piece_at(const runnel_profile *profile, const runnel_element *element,
                                    double at) {
    for (size_t i = 0; i < profile->count; i++) {
        const runnel_piece *p = &profile->pieces[i];
        if (p->edge == element->edge && runnel_piece_is_fan(p) == element->fan && at >= p->from &&
            at <= p->to)
            return p;
    }
    return NULL;
}

/* How near the brute force comes. Memcheck does long double in the digits of double, which leaves
 * few of them in the thinnest gaps; there it is the memory that is looked at. */
static double brute_tolerance(void) {
    volatile long double one = 1;
    return one + LDBL_EPSILON > one ? 1e-8 : 1e-3;
}

static void compare_at(const runnel_profile *profile, const runnel_element *element, double at) {
    const runnel_piece *piece = piece_at(profile, element, at);
    ck_assert_msg(piece != NULL, "no piece at %.17g of %s %u", at, element->fan ? "fan" : "segment",
                  element->edge);
    double m = fmin(runnel_piece_m(piece, x_at(piece, at)), profile->reach_mm);
    double want = brute(&profile->boundary, element, at, profile->reach_mm);
    double size = profile->boundary.size_mm;
    /* 1/m is what is continuous; far above the size of the shape m does not matter */
    ck_assert_msg(runnel_near(1 / m, 1 / want, brute_tolerance(), 1e-9 / size),
                  "%s %u at %.17g of %.17g: m %.17g, brute force %.17g",
                  element->fan ? "fan" : "segment", element->edge, at, element->length, m, want);
}

/* Each element's pieces follow each other from 0 to its length. */
static void check_tiling(const runnel_profile *profile) {
    const runnel_boundary *b = &profile->boundary;
    double covered = 0, wanted = 0;
    for (size_t i = 0; i < profile->count; i++) {
        const runnel_piece *p = &profile->pieces[i];
        ck_assert(p->to > p->from);
        ck_assert(p->low >= 0 && p->low <= p->high);
        covered += p->to - p->from;
        bool same = i > 0 && profile->pieces[i - 1].edge == p->edge &&
                    runnel_piece_is_fan(&profile->pieces[i - 1]) == runnel_piece_is_fan(p);
        ck_near_or(p->from, same ? profile->pieces[i - 1].to : 0, 0, 0);
    }
    for (uint32_t i = 0; i < b->count; i++) {
        wanted += runnel_element_segment(b, i).length;
        if (b->edges[i].reflex)
            wanted += runnel_element_fan(b, i).length;
    }
    ck_near(covered, wanted, 1e-9);
}

static void compare(const runnel_profile *profile, chance *c, size_t samples) {
    const runnel_boundary *b = &profile->boundary;
    check_tiling(profile);
    for (size_t i = 0; i < samples; i++) {
        uint32_t edge = (uint32_t)chance_below(c, b->count);
        runnel_element element = runnel_element_segment(b, edge);
        compare_at(profile, &element, chance_between(c, 0, element.length));
        if (!b->edges[edge].reflex)
            continue;
        element = runnel_element_fan(b, edge);
        if (element.length > 0)
            compare_at(profile, &element, chance_between(c, 0, element.length));
    }
}

/* --- area of a union by a scan --- */

/* A side that a scan line crosses. */
typedef struct crossed {
    double x;
    int sense;
} crossed;

static int by_x(const void *left, const void *right) {
    const crossed *a = left, *b = right;
    return (a->x > b->x) - (a->x < b->x);
}

static int by_value(const void *left, const void *right) {
    const double *a = left, *b = right;
    return (*a > *b) - (*a < *b);
}

/* Ends of the k-th side of one closed contour. */
static void side_of(const runnel_contours *c, size_t k, runnel_point *a, runnel_point *b) {
    *a = c->points[k];
    *b = c->points[k + 1 < c->point_count ? k + 1 : 0];
}

/* Length of a row that the contour winds around. */
static double covered_length(const runnel_contours *c, double y) {
    crossed list[64] = {{0}};
    size_t count = 0;
    for (size_t k = 0; k < c->point_count; k++) {
        runnel_point a, b;
        side_of(c, k, &a, &b);
        if ((a.y_mm <= y) == (b.y_mm <= y))
            continue;
        list[count++] = (crossed){a.x_mm + (y - a.y_mm) * (b.x_mm - a.x_mm) / (b.y_mm - a.y_mm),
                                  a.y_mm <= y ? 1 : -1};
    }
    qsort(list, count, sizeof *list, by_x);
    double length = 0;
    int turns = 0;
    for (size_t i = 0; i + 1 < count; i++) {
        turns += list[i].sense;
        length += turns ? list[i + 1].x - list[i].x : 0;
    }
    return length;
}

/* Area that one closed contour winds around: between the heights of corners and crossings its rows
 * are of linear length, so the middle row tells the strip. */
static double scanned_area(const runnel_contours *c) {
    static double heights[4096];
    size_t count = 0;
    for (size_t i = 0; i < c->point_count; i++) {
        heights[count++] = c->points[i].y_mm;
        for (size_t k = 0; k < i; k++) {
            runnel_point a, b, p, q;
            side_of(c, i, &a, &b);
            side_of(c, k, &p, &q);
            double gx = b.x_mm - a.x_mm, gy = b.y_mm - a.y_mm;
            double hx = q.x_mm - p.x_mm, hy = q.y_mm - p.y_mm, cross = gx * hy - gy * hx;
            double u = ((p.x_mm - a.x_mm) * hy - (p.y_mm - a.y_mm) * hx) / cross;
            if (u > 0 && u < 1)
                heights[count++] = a.y_mm + u * gy;
        }
    }
    qsort(heights, count, sizeof *heights, by_value);
    double area = 0;
    for (size_t i = 0; i + 1 < count; i++)
        area +=
            (heights[i + 1] - heights[i]) * covered_length(c, 0.5 * (heights[i] + heights[i + 1]));
    return area;
}

/* --- shapes --- */

/* Inside and, to several reaches, outside of what the contours make; they are cleared. */
static void compare_region(runnel_contours *contours, chance *c, size_t samples) {
    runnel_contours region = {0};
    ck_assert_int_eq(runnel_outline_union(contours, &region), RUNNEL_OK);
    runnel_profile *profile = NULL;
    runnel_status status = runnel_profile_inside(&region, &profile);
    ck_assert_msg(!status, "inside: %s", runnel_status_name(status));
    ck_near(runnel_profile_area_mm2(profile), runnel_contours_area(&region), 1e-9);
    ck_near_or(runnel_profile_mismatch(profile), 0, 0, 1e-9);
    compare(profile, c, samples);
    runnel_profile_free(profile);
    const double reaches[] = {0.1, 3, 40};
    for (int i = 0; i < 3; i++) {
        status = runnel_profile_outside(&region, reaches[i], &profile);
        ck_assert_msg(!status, "outside: %s", runnel_status_name(status));
        ck_near_or(runnel_profile_mismatch(profile), 0, 0, 1e-9);
        compare(profile, c, samples / 2);
        runnel_profile_free(profile);
    }
    runnel_contours_clear(&region);
    runnel_contours_clear(contours);
}

static void compare_path(runnel_contours *contours, chance *c, size_t samples) {
    runnel_contours lines = {0};
    ck_assert_int_eq(runnel_path_node(contours, &lines), RUNNEL_OK);
    const double reaches[] = {0.1, 3, 40};
    for (int i = 0; i < 3; i++) {
        runnel_profile *profile = NULL;
        runnel_status status = runnel_profile_path(&lines, reaches[i], &profile);
        ck_assert_msg(!status, "path: %s", runnel_status_name(status));
        ck_near_or(runnel_profile_mismatch(profile), 0, 0, 1e-9);
        compare(profile, c, samples);
        runnel_profile_free(profile);
    }
    runnel_contours_clear(&lines);
    runnel_contours_clear(contours);
}

/* --- regions --- */

START_TEST(random_stars) {
    chance c = {1};
    for (size_t i = 0; i < 40; i++) {
        runnel_contours list = {0};
        add_star(&list, &c, 0, 0, chance_between(&c, 2, 20), 40, 5 + chance_below(&c, 60));
        compare_region(&list, &c, 100);
    }
}
END_TEST

START_TEST(random_unions) {
    /* many stars over each other: holes, islands, slivers */
    chance c = {2};
    for (size_t i = 0; i < 30; i++) {
        runnel_contours list = {0};
        for (size_t k = 2 + chance_below(&c, 12); k > 0; k--) {
            double x = chance_between(&c, 0, 80), y = chance_between(&c, 0, 80);
            add_star(&list, &c, x, y, 3, 25, 3 + chance_below(&c, 12));
        }
        compare_region(&list, &c, 100);
    }
}
END_TEST

START_TEST(random_tangles) {
    /* closed polylines that cross themselves all over */
    chance c = {3};
    for (size_t i = 0; i < 60; i++) {
        runnel_contours list = {0}, region = {0};
        add_scribble(&list, &c, 60, 4 + chance_below(&c, 20));
        runnel_contours_close(&list);
        ck_assert_int_eq(runnel_outline_union(&list, &region), RUNNEL_OK);
        ck_near(runnel_contours_area(&region), scanned_area(&list), 1e-9);
        runnel_contours_clear(&region);
        compare_region(&list, &c, 100);
    }
}
END_TEST

START_TEST(islands_in_strips) {
    /* holes far smaller than the strip, in the middle and off it: seen from both walls only in
     * between two places that see each other */
    chance c = {4};
    for (double size = 1; size > 1e-6; size /= 10) {
        runnel_contours list = {0};
        add_rectangle(&list, 0, 0, 300, 10);
        add_rectangle(&list, 100, 5 - size / 2, size, -size);
        add_rectangle(&list, 170, 2, size, -size);
        add_rectangle(&list, 230 + chance_between(&c, 0, 9), 9, size / 2, -size / 3);
        compare_region(&list, &c, 200);
    }
    /* an island with islands around it, and rings within rings */
    runnel_contours list = {0};
    for (int i = 0; i < 6; i++)
        add_regular(&list, 0, 0, 60 - 9 * i, 5 + (size_t)i, 0.1 * i);
    for (size_t i = 1; i < 6; i += 2) { /* every other one is a hole */
        runnel_contour *ring = &list.items[i];
        for (size_t k = 0; k < ring->count / 2; k++) {
            runnel_point *a = &list.points[ring->first + k];
            runnel_point *b = &list.points[ring->first + ring->count - 1 - k], swap = *a;
            *a = *b;
            *b = swap;
        }
    }
    compare_region(&list, &c, 300);
}
END_TEST

START_TEST(collinear_and_repeated_points) {
    chance c = {5};
    runnel_contours list = {0};
    add_ring(&list, 0, 0, 10, 0, 10, 0, 20, 0, 30, 0, 60, 0, 60, 20, 60, 20, 60, 40, 30, 40, 30, 40,
             0, 40, 0, 10, 0, 0);
    compare_region(&list, &c, 300);
    /* every side of a star in many steps, along lines that rounding bends */
    chance shape = {6};
    runnel_contours star = {0};
    add_star(&star, &shape, 7, 3, 10, 40, 9);
    ck_assert_int_eq(runnel_contours_begin(&list, true), RUNNEL_OK);
    for (size_t i = 0; i < star.point_count; i++) {
        runnel_point a = star.points[i], b = star.points[(i + 1) % star.point_count];
        for (double u = 0; u < 0.99; u += 1.0 / 7)
            ck_assert_int_eq(runnel_contours_add(&list, a.x_mm + u * (b.x_mm - a.x_mm),
                                                 a.y_mm + u * (b.y_mm - a.y_mm)),
                             RUNNEL_OK);
    }
    runnel_contours_clear(&star);
    compare_region(&list, &c, 300);
}
END_TEST

START_TEST(nearly_straight_corners) {
    chance c = {7};
    for (double bend = 1e-2; bend > 1e-13; bend /= 10) {
        runnel_contours list = {0};
        add_ring(&list, 0, 0, 20, bend, 40, -bend, 60, 0, 60, 40, 30, 40 + bend, 20, 40 - bend, 0,
                 40);
        compare_region(&list, &c, 60);
    }
    for (size_t corners = 100; corners < 5000; corners *= 7) {
        runnel_contours list = {0};
        add_regular(&list, 100, 100, 30, corners, 0.05);
        compare_region(&list, &c, 60);
    }
}
END_TEST

START_TEST(rings_that_touch) {
    chance c = {8};
    runnel_contours list = {0};
    /* a hole that touches the outer ring with a corner: on a side, and in a corner of it */
    add_rectangle(&list, 0, 0, 60, 40);
    add_ring(&list, 0, 20, 15, 30, 15, 10);
    compare_region(&list, &c, 300);
    add_rectangle(&list, 0, 0, 60, 40);
    add_ring(&list, 0, 0, 10, 20, 20, 10);
    compare_region(&list, &c, 300);
    /* two holes that touch each other, and two squares that share a corner */
    add_rectangle(&list, 0, 0, 60, 40);
    add_rectangle(&list, 10, 10, 10, -10);
    add_rectangle(&list, 20, 20, 10, -10);
    compare_region(&list, &c, 300);
    add_rectangle(&list, 0, 0, 20, 20);
    add_rectangle(&list, 20, 20, 20, 20);
    compare_region(&list, &c, 300);
}
END_TEST

START_TEST(combs_and_thin_gaps) {
    chance c = {9};
    for (double gap = 1; gap > 1e-5; gap /= 10) {
        runnel_contours list = {0};
        add_rectangle(&list, 0, 0, 60, 10);
        for (int i = 0; i < 10; i++)
            add_rectangle(&list, 6 * i, 5, 6 - gap, 25 + i);
        compare_region(&list, &c, 100);
    }
}
END_TEST

START_TEST(far_from_the_origin) {
    chance c = {10};
    for (double far = 1e3; far < 1e6; far *= 10) {
        runnel_contours list = {0};
        add_star(&list, &c, far, -far, 10, 40, 30);
        compare_region(&list, &c, 100);
    }
}
END_TEST

/* --- paths --- */

START_TEST(random_scribbles) {
    chance c = {11};
    for (size_t i = 0; i < 30; i++) {
        runnel_contours list = {0};
        for (size_t k = 1 + chance_below(&c, 4); k > 0; k--)
            add_scribble(&list, &c, 60, 2 + chance_below(&c, 8));
        compare_path(&list, &c, 60);
    }
}
END_TEST

START_TEST(paths_that_turn_back_close_and_meet) {
    chance c = {12};
    runnel_contours list = {0};
    add_line(&list, 0, 0, 50, 0, 0, 0); /* to and fro */
    compare_path(&list, &c, 100);
    add_line(&list, 0, 0, 50, 0, 0, 0.01); /* a hairpin */
    compare_path(&list, &c, 100);
    add_ring(&list, 0, 0, 50, 0, 40, 30, 10, 30); /* closed */
    compare_path(&list, &c, 100);
    add_line(&list, 0, 0, 50, 0, 50, 20, 20, 20, 20, -20); /* crosses itself */
    compare_path(&list, &c, 100);
    add_line(&list, 0, 0, 50, 0); /* a T, and one that ends in a corner */
    add_line(&list, 20, 30, 20, 0);
    add_line(&list, 50, 0, 70, 20);
    compare_path(&list, &c, 100);
    add_line(&list, 0, 0, 50, 0); /* segments over each other, in part */
    add_line(&list, 60, 0, 20, 0);
    add_line(&list, 30, 0, 40, 0, 40, 10);
    compare_path(&list, &c, 100);
    add_line(&list, 0, 0, 10, 0, 20, 0, 20, 0, 30, 0); /* straight on, and a point twice */
    compare_path(&list, &c, 100);
}
END_TEST

START_TEST(stars_and_grids_of_lines) {
    chance c = {13};
    runnel_contours list = {0};
    for (int i = 0; i < 9; i++) /* many lines through one point */
        add_line(&list, 30 * cos(i * 0.7), 30 * sin(i * 0.7), 0, 0);
    compare_path(&list, &c, 100);
    for (int i = 0; i < 6; i++) { /* a grid, with cells that its lines close */
        add_line(&list, 0, 10 * i, 50, 10 * i);
        add_line(&list, 10 * i, 0, 10 * i, 50);
    }
    compare_path(&list, &c, 200);
    for (int i = 0; i < 8; i++) /* short strokes apart from each other, some within a closed one */
        add_line(&list, 5 * i, 12, 5 * i + 1, 12.5);
    add_ring(&list, -5, 0, 25, 0, 25, 25, -5, 25);
    compare_path(&list, &c, 200);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("profile_brute");
    TCase *regions = tcase_create("regions");
    tcase_set_timeout(regions, 300);
    tcase_add_test(regions, random_stars);
    tcase_add_test(regions, random_unions);
    tcase_add_test(regions, random_tangles);
    tcase_add_test(regions, islands_in_strips);
    tcase_add_test(regions, collinear_and_repeated_points);
    tcase_add_test(regions, nearly_straight_corners);
    tcase_add_test(regions, rings_that_touch);
    tcase_add_test(regions, combs_and_thin_gaps);
    tcase_add_test(regions, far_from_the_origin);
    suite_add_tcase(suite, regions);
    TCase *paths = tcase_create("paths");
    tcase_set_timeout(paths, 300);
    tcase_add_test(paths, random_scribbles);
    tcase_add_test(paths, paths_that_turn_back_close_and_meet);
    tcase_add_test(paths, stars_and_grids_of_lines);
    suite_add_tcase(suite, paths);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
