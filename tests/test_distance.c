/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/contours.h"
#include "runnel/memory.h"

#include "compare.h"
#include "failing.h"

#include <stdlib.h>

/* Distances between shapes, worked by hand. */

static runnel_contours one, other;

static void setup(void) {
    runnel_contours_init(&one);
    runnel_contours_init(&other);
}

static void teardown(void) {
    runnel_contours_clear(&one);
    runnel_contours_clear(&other);
}

/* Adds a rectangle, counter-clockwise or, as a hole, clockwise. */
static void add_rectangle(runnel_contours *to, double x, double y, double w, double h, bool hole) {
    const double corners[][2] = {{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}};
    ck_assert_int_eq(runnel_contours_begin(to, true), RUNNEL_OK);
    for (size_t i = 0; i < 4; i++) {
        const double *p = corners[hole ? 3 - i : i];
        ck_assert_int_eq(runnel_contours_add(to, p[0], p[1]), RUNNEL_OK);
    }
}

static void add_line(runnel_contours *to, double x0, double y0, double x1, double y1) {
    ck_assert_int_eq(runnel_contours_begin(to, false), RUNNEL_OK);
    ck_assert_int_eq(runnel_contours_add(to, x0, y0), RUNNEL_OK);
    ck_assert_int_eq(runnel_contours_add(to, x1, y1), RUNNEL_OK);
}

/* Either way round it is the same. */
static void ck_distance(bool one_is_path, bool other_is_path, double wanted_mm) {
    double got_mm = -1;
    ck_assert_int_eq(runnel_contours_distance(&one, one_is_path, &other, other_is_path, &got_mm),
                     RUNNEL_OK);
    ck_near_or(got_mm, wanted_mm, 1e-15, 0);
    ck_assert_int_eq(runnel_contours_distance(&other, other_is_path, &one, one_is_path, &got_mm),
                     RUNNEL_OK);
    ck_near_or(got_mm, wanted_mm, 1e-15, 0);
}

START_TEST(side_by_side) {
    add_rectangle(&one, 0, 0, 10, 10, false);
    add_rectangle(&other, 11.75, 2, 5, 5, false);
    ck_distance(false, false, 1.75);
    ck_distance(true, true, 1.75);
}
END_TEST

START_TEST(corner_to_corner) {
    add_rectangle(&one, 0, 0, 10, 10, false);
    add_rectangle(&other, 13, 14, 5, 5, false);
    ck_distance(false, false, 5); /* 3, 4, 5 */
}
END_TEST

START_TEST(one_within_the_other) {
    add_rectangle(&one, 0, 0, 10, 10, false);
    add_rectangle(&other, 4, 3, 2, 2, false);
    ck_distance(false, false, 0);
    ck_distance(true, false, 3); /* a ring around it */
    ck_distance(false, true, 0);
    ck_distance(true, true, 3);
}
END_TEST

START_TEST(within_a_hole) {
    add_rectangle(&one, 0, 0, 10, 10, false);
    add_rectangle(&one, 2, 2, 6, 6, true);
    add_rectangle(&other, 3.5, 4, 2, 2, false);
    ck_distance(false, false, 1.5);
}
END_TEST

START_TEST(two_parts_of_which_one_is_within) {
    add_rectangle(&one, 0, 0, 10, 10, false);
    add_rectangle(&other, 40, 40, 2, 2, false);
    ck_distance(false, false, 30 * sqrt(2));
    add_rectangle(&other, 4, 4, 2, 2, false);
    ck_distance(false, false, 0);
}
END_TEST

START_TEST(crossing_and_touching) {
    add_rectangle(&one, 0, 0, 10, 10, false);
    add_rectangle(&other, 5, 5, 10, 10, false);
    ck_distance(false, false, 0);
    runnel_contours_clear(&other);
    add_rectangle(&other, 10, 0, 10, 10, false);
    ck_distance(false, false, 0);
    runnel_contours_clear(&other);
    add_line(&other, -5, 5, 15, 5);
    ck_distance(false, true, 0);
}
END_TEST

START_TEST(lines) {
    add_line(&one, 0, 0, 10, 0);
    add_line(&other, 3, 2, 20, 8);
    ck_distance(true, true, 2);
    add_rectangle(&other, 2, -6, 5, 5.5, false); /* its upper edge is at -0.5 */
    ck_distance(true, false, 0.5);
}
END_TEST

START_TEST(overlapping_strokes_are_one_region) {
    /* Of a cross made of two bars, the middle is inside though both wind around it. */
    add_rectangle(&one, 0, 4, 10, 2, false);
    add_rectangle(&one, 4, 0, 2, 10, false);
    add_rectangle(&other, 4.9, 4.9, 0.2, 0.2, false);
    ck_distance(false, false, 0);
    runnel_contours_clear(&other);
    add_rectangle(&other, 7, 7, 1, 1, false);
    ck_distance(false, false, 1);
}
END_TEST

START_TEST(nothing_to_measure) {
    double mm = 7;
    add_rectangle(&one, 0, 0, 10, 10, false);
    ck_assert_int_eq(runnel_contours_distance(&one, false, &other, false, &mm), RUNNEL_E_SHAPE);
    ck_assert_int_eq(runnel_contours_begin(&other, false), RUNNEL_OK);
    ck_assert_int_eq(runnel_contours_add(&other, 1, 1), RUNNEL_OK); /* a point is no line */
    ck_assert_int_eq(runnel_contours_distance(&other, true, &one, false, &mm), RUNNEL_E_SHAPE);
    ck_near(mm, 7, 0);
}
END_TEST

START_TEST(memory_that_runs_out) {
    add_rectangle(&one, 0, 0, 10, 10, false);
    add_rectangle(&other, 11.75, 2, 5, 5, false);
    runnel_status status = RUNNEL_E_NO_MEMORY;
    size_t allowed = 0;
    for (; status == RUNNEL_E_NO_MEMORY && allowed < 100; allowed++) {
        double mm = 7;
        failing of = {.fail_at = allowed, .for_good = true};
        start_failing(&of);
        status = runnel_contours_distance(&one, false, &other, false, &mm);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(of.alive, 0);
        ck_near(mm, status ? 7 : 1.75, 0);
    }
    ck_assert_int_eq(status, RUNNEL_OK);
    ck_assert_uint_gt(allowed, 3);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("distance");
    TCase *cases = tcase_create("distance");
    tcase_add_checked_fixture(cases, setup, teardown);
    tcase_add_test(cases, side_by_side);
    tcase_add_test(cases, corner_to_corner);
    tcase_add_test(cases, one_within_the_other);
    tcase_add_test(cases, within_a_hole);
    tcase_add_test(cases, two_parts_of_which_one_is_within);
    tcase_add_test(cases, crossing_and_touching);
    tcase_add_test(cases, lines);
    tcase_add_test(cases, overlapping_strokes_are_one_region);
    tcase_add_test(cases, nothing_to_measure);
    tcase_add_test(cases, memory_that_runs_out);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
