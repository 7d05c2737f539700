/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Profiles of random and of awkward shapes against brute force.
 */
#include "brute.h"

#include <stdlib.h>

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
    compare_with_brute(profile, c, samples);
    runnel_profile_free(profile);
    const double reaches[] = {0.1, 3, 40};
    for (int i = 0; i < 3; i++) {
        status = runnel_profile_outside(&region, reaches[i], &profile);
        ck_assert_msg(!status, "outside: %s", runnel_status_name(status));
        ck_near_or(runnel_profile_mismatch(profile), 0, 0, 1e-9);
        compare_with_brute(profile, c, samples / 2);
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
        compare_with_brute(profile, c, samples);
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
