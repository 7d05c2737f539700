/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/contours.h"
#include "runnel/memory.h"

#include "compare.h"
#include "failing.h"

#include <stdlib.h>

static runnel_contours list;

static void setup(void) {
    runnel_contours_init(&list);
}

static void teardown(void) {
    runnel_contours_clear(&list);
}

static void start_at(double x_mm, double y_mm, bool closed) {
    ck_assert_int_eq(runnel_contours_begin(&list, closed), RUNNEL_OK);
    ck_assert_int_eq(runnel_contours_add(&list, x_mm, y_mm), RUNNEL_OK);
}

static void line_to(double x_mm, double y_mm) {
    ck_assert_int_eq(runnel_contours_add(&list, x_mm, y_mm), RUNNEL_OK);
}

/* Distance of a point from the nearest chord of the last contour. */
static double gap_to_chords(double x, double y) {
    const runnel_contour *contour = &list.items[list.count - 1];
    double best = INFINITY;
    for (size_t i = 0; i + 1 < contour->count; i++) {
        runnel_point a = list.points[contour->first + i], b = list.points[contour->first + i + 1];
        double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm;
        double t = ((x - a.x_mm) * dx + (y - a.y_mm) * dy) / (dx * dx + dy * dy);
        t = fmin(1, fmax(0, t));
        best = fmin(best, hypot(a.x_mm + t * dx - x, a.y_mm + t * dy - y));
    }
    return best;
}

START_TEST(empty_list) {
    runnel_box box = runnel_contours_box(&list);
    ck_assert(box.min_x_mm > box.max_x_mm && box.min_y_mm > box.max_y_mm);
    ck_near(runnel_contours_area(&list), 0, 0);
    runnel_contours_close(&list); /* nothing to close is no fault */
    ck_assert_uint_eq(list.count, 0);
    runnel_contours_clear(NULL);
}
END_TEST

START_TEST(points_need_a_contour) {
    runnel_point p = {1, 1};
    ck_assert_int_eq(runnel_contours_add(&list, 0, 0), RUNNEL_E_SHAPE);
    ck_assert_int_eq(runnel_contours_begin(&list, false), RUNNEL_OK);
    ck_assert_int_eq(runnel_contours_quadratic(&list, p, p, 0.1), RUNNEL_E_SHAPE);
    ck_assert_int_eq(runnel_contours_cubic(&list, p, p, p, 0.1), RUNNEL_E_SHAPE);
    ck_assert_int_eq(runnel_contours_arc(&list, p, 90, 0.1), RUNNEL_E_SHAPE);
    ck_assert_uint_eq(list.point_count, 0);
}
END_TEST

START_TEST(curve_needs_a_point_of_its_own_contour) {
    start_at(5, 5, true);
    ck_assert_int_eq(runnel_contours_begin(&list, false), RUNNEL_OK);
    runnel_point p = {1, 1};
    ck_assert_int_eq(runnel_contours_quadratic(&list, p, p, 0.1), RUNNEL_E_SHAPE);
    /* A point equal to the last one of the contour before is no repetition. */
    line_to(5, 5);
    ck_assert_uint_eq(list.point_count, 2);
}
END_TEST

START_TEST(unusable_numbers) {
    start_at(0, 0, false);
    runnel_point ok = {1, 1}, bad = {NAN, 0}, far = {INFINITY, 0}, large = {1e300, 1e300};
    ck_assert_int_eq(runnel_contours_add(&list, NAN, 0), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_add(&list, 0, INFINITY), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_quadratic(&list, ok, bad, 0.1), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_quadratic(&list, far, ok, 0.1), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_quadratic(&list, ok, ok, 0), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_quadratic(&list, ok, ok, -1), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_quadratic(&list, ok, ok, NAN), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_quadratic(&list, large, ok, 0.1), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_cubic(&list, bad, ok, ok, 0.1), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_cubic(&list, ok, bad, ok, 0.1), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_cubic(&list, ok, ok, bad, 0.1), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_cubic(&list, ok, ok, ok, INFINITY), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_arc(&list, bad, 90, 0.1), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_arc(&list, ok, NAN, 0.1), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_arc(&list, ok, 361, 0.1), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_arc(&list, ok, 90, 0), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_append(&list, &list, NAN, 0, 0), RUNNEL_E_RANGE);
    ck_assert_uint_eq(list.point_count, 1);
    ck_near(list.flatten_mm, 0, 0);
}
END_TEST

/* L of 60 x 60 less 30 x 30: 3600 - 900 = 2700 mm2; the other way round negative. */
START_TEST(area_and_box_of_an_l) {
    static const double corners[6][2] = {{0, 0}, {60, 0}, {60, 60}, {30, 60}, {30, 30}, {0, 30}};
    start_at(0, 0, false);
    for (int i = 1; i < 6; i++)
        line_to(corners[i][0], corners[i][1]);
    ck_near(runnel_contours_area(&list), 0, 0); /* open: encloses nothing */
    line_to(0, 0);
    ck_assert_uint_eq(list.items[0].count, 7);
    runnel_contours_close(&list);
    ck_assert_uint_eq(list.items[0].count, 6);
    ck_assert_uint_eq(list.point_count, 6);
    ck_assert(list.items[0].closed);
    ck_near(runnel_contours_area(&list), 2700, 0);
    runnel_box box = runnel_contours_box(&list);
    ck_near(box.min_x_mm, 0, 0);
    ck_near(box.min_y_mm, 0, 0);
    ck_near(box.max_x_mm, 60, 0);
    ck_near(box.max_y_mm, 60, 0);
    start_at(corners[5][0], corners[5][1], true);
    for (int i = 4; i >= 0; i--)
        line_to(corners[i][0], corners[i][1]);
    ck_near(runnel_contours_area(&list), 0, 0); /* 2700 - 2700 */
}
END_TEST

/* A square of 2^-10 mm side, 2^20 mm away: all numbers are powers of two, so 2^-20 mm2 exactly. */
START_TEST(area_far_from_the_origin) {
    double side = 0.0009765625, away = 1048576;
    start_at(away, away, true);
    line_to(away + side, away);
    line_to(away + side, away + side);
    line_to(away, away + side);
    ck_near(runnel_contours_area(&list), 9.5367431640625e-07, 0);
}
END_TEST

START_TEST(repeated_points_are_left_out) {
    start_at(1, 2, true);
    line_to(1, 2);
    line_to(3, 4);
    line_to(3, 4);
    ck_assert_uint_eq(list.items[0].count, 2);
    runnel_contours_close(&list);
    ck_assert_uint_eq(list.items[0].count, 2);
    start_at(7, 7, false);
    runnel_contours_close(&list); /* a single point is not taken for its own repetition */
    ck_assert_uint_eq(list.items[1].count, 1);
}
END_TEST

/*
 * Parabola through (0,0), (10,20), (20,0): height 10 at the middle, area under it 2/3 * 20 * 10 =
 * 400/3 mm2 (Archimedes). The second derivative is 2 |p0 - 2 p1 + p2| = 80 mm, so n equal chords
 * miss by 80 / 8 / n^2 = 10 / n^2: for 0.001 mm exactly n = 100. Over one step of n the parabola
 * rises by 10 / n^2 above its chord, so every chord cuts off the same area and together they leave
 * out the share 1 / n^2 of the whole.
 */
START_TEST(quadratic_by_archimedes) {
    start_at(0, 0, true);
    ck_assert_int_eq(
        runnel_contours_quadratic(&list, (runnel_point){10, 20}, (runnel_point){20, 0}, 0.001),
        RUNNEL_OK);
    ck_assert_uint_eq(list.items[0].count, 101);
    ck_near(list.flatten_mm, 0.001, 1e-12);
    ck_assert(list.flatten_mm <= 0.001);
    /* The contour runs clockwise. */
    ck_near(runnel_contours_area(&list), -400.0 / 3 * (1 - 1e-4), 1e-12);
    ck_near(list.points[100].x_mm, 20, 0);
    ck_near(list.points[100].y_mm, 0, 0);
    ck_near(list.points[50].y_mm, 10, 1e-15);
}
END_TEST

START_TEST(straight_curves_need_one_chord) {
    start_at(0, 0, false);
    ck_assert_int_eq(
        runnel_contours_quadratic(&list, (runnel_point){1, 1}, (runnel_point){2, 2}, 1e-9),
        RUNNEL_OK);
    ck_assert_int_eq(runnel_contours_cubic(&list, (runnel_point){3, 3}, (runnel_point){4, 4},
                                           (runnel_point){5, 5}, 1e-9),
                     RUNNEL_OK);
    ck_assert_uint_eq(list.point_count, 3);
    ck_near(list.flatten_mm, 0, 0);
}
END_TEST

/* Cubics with a bend, an inflexion, a loop and a cusp. */
static const double cubics[][8] = {
    {0, 0, 0, 10, 10, 20, 30, 20}, {0, 0, 20, 0, -10, 15, 10, 15}, {0, 0, 30, 20, -20, 20, 10, 0},
    {0, 0, 10, 10, 0, 10, 10, 0},  {0, 0, 40, 0, 40, 0, 40, 0.5},
};
static const double tolerances[] = {1, 0.05, 0.001, 0.00001};

static double power_form(double p0, double p1, double p2, double p3, double t) {
    return p0 +
           t * (3 * (p1 - p0) + t * (3 * (p0 - 2 * p1 + p2) + t * (p3 - 3 * p2 + 3 * p1 - p0)));
}

/* The curve is sampled finely in power form, another route than the Bernstein form in use. */
START_TEST(cubic_stays_within_tolerance) {
    const double *c = cubics[_i];
    for (size_t k = 0; k < sizeof tolerances / sizeof *tolerances; k++) {
        double tolerance_mm = tolerances[k];
        runnel_contours_clear(&list);
        start_at(c[0], c[1], false);
        ck_assert_int_eq(runnel_contours_cubic(&list, (runnel_point){c[2], c[3]},
                                               (runnel_point){c[4], c[5]},
                                               (runnel_point){c[6], c[7]}, tolerance_mm),
                         RUNNEL_OK);
        ck_assert(list.flatten_mm > 0 && list.flatten_mm <= tolerance_mm);
        for (int i = 0; i <= 1000; i++) {
            double t = i / 1000.0;
            double gap = gap_to_chords(power_form(c[0], c[2], c[4], c[6], t),
                                       power_form(c[1], c[3], c[5], c[7], t));
            ck_assert_msg(gap <= list.flatten_mm * (1 + 1e-9) + 1e-13,
                          "curve %d at %g: gap %.3g, bound %.3g", _i, t, gap, list.flatten_mm);
        }
        ck_near(list.points[list.point_count - 1].x_mm, c[6], 0);
        ck_near(list.points[list.point_count - 1].y_mm, c[7], 0);
    }
}
END_TEST

/*
 * A chord of length l in a curve of curvature k misses it by k l^2 / 8, so no fewer chords than the
 * integral of sqrt(k / (8 tolerance)) along the curve can do, but for the ends of the steps. Here
 * with k = |C' x C''| / |C'|^3, by the midpoint rule.
 */
START_TEST(cubic_takes_few_chords) {
    const double c[8] = {0, 0, 40, 0, 40, 0, 40, 0.5};
    double tolerance_mm = 0.001, least = 0;
    int steps = 100000;
    for (int i = 0; i < steps; i++) {
        double t = (i + 0.5) / steps, s = 1 - t;
        double dx = 3 * (s * s * 40 + 0 + 0), dy = 3 * t * t * 0.5;
        double ex = 6 * (s * (0 - 80 + 40) + t * (40 - 80 + 40)), ey = 6 * t * 0.5;
        double across = fabs(dx * ey - dy * ex), speed = hypot(dx, dy);
        least += sqrt(across / speed / (8 * tolerance_mm)) / steps;
    }
    start_at(0, 0, false);
    ck_assert_int_eq(runnel_contours_cubic(&list, (runnel_point){c[2], c[3]},
                                           (runnel_point){c[4], c[5]}, (runnel_point){c[6], c[7]},
                                           tolerance_mm),
                     RUNNEL_OK);
    double chords = (double)list.items[0].count - 1;
    ck_assert_msg(chords >= least && chords <= 1.2 * least + 3, "%g chords, at least %g", chords,
                  least);
}
END_TEST

/*
 * A full circle closes on its own start. Inscribed regular n-gon: area n/2 r^2 sin(2 pi / n),
 * sagitta r (1 - cos(pi / n)). r = 20, tolerance 0.001: pi / acos(1 - 0.00005) = 314.15 -> 315.
 */
START_TEST(full_circle) {
    start_at(20 + 0.1, 0.3, false);
    ck_assert_int_eq(runnel_contours_arc(&list, (runnel_point){0.1, 0.3}, 360, 0.001), RUNNEL_OK);
    runnel_contours_close(&list);
    ck_assert_uint_eq(list.items[0].count, 315);
    double angle = 2 * 3.14159265358979323846 / 315;
    ck_near(runnel_contours_area(&list), 315 / 2.0 * 400 * sin(angle), 1e-13);
    ck_near(list.flatten_mm, 20 * (1 - cos(angle / 2)), 1e-9);
    ck_assert(list.flatten_mm <= 0.001);
    for (size_t i = 0; i < list.point_count; i++)
        ck_near(hypot(list.points[i].x_mm - 0.1, list.points[i].y_mm - 0.3), 20, 1e-15);
}
END_TEST

START_TEST(arcs_of_either_sense) {
    start_at(10, 0, false);
    ck_assert_int_eq(runnel_contours_arc(&list, (runnel_point){0, 0}, 90, 0.01), RUNNEL_OK);
    ck_near(list.points[list.point_count - 1].x_mm, 0, 0);
    ck_near(list.points[list.point_count - 1].y_mm, 10, 0);
    ck_assert(list.points[1].y_mm > 0);
    start_at(10, 0, false);
    ck_assert_int_eq(runnel_contours_arc(&list, (runnel_point){0, 0}, -180, 0.01), RUNNEL_OK);
    ck_near(list.points[list.point_count - 1].x_mm, -10, 0);
    ck_near_or(list.points[list.point_count - 1].y_mm, 0, 0, 1e-15);
    ck_assert(list.points[list.items[1].first + 1].y_mm < 0);
    size_t before = list.point_count;
    ck_assert_int_eq(runnel_contours_arc(&list, (runnel_point){0, 0}, 0, 0.01), RUNNEL_OK);
    ck_assert_uint_eq(list.point_count, before);
    /* 30 degrees: cos = sqrt(3)/2, sin = 1/2. */
    start_at(2, 0, false);
    ck_assert_int_eq(runnel_contours_arc(&list, (runnel_point){0, 0}, 30, 0.01), RUNNEL_OK);
    ck_near(list.points[list.point_count - 1].x_mm, 1.7320508075688772, 4e-16);
    ck_near(list.points[list.point_count - 1].y_mm, 1, 4e-16);
}
END_TEST

/* However coarse the tolerance, a circle keeps four corners: a square of area 2 r^2. */
START_TEST(coarse_circle) {
    start_at(1, 0, false);
    ck_assert_int_eq(runnel_contours_arc(&list, (runnel_point){0, 0}, -360, 100), RUNNEL_OK);
    runnel_contours_close(&list);
    ck_assert_uint_eq(list.items[0].count, 4);
    ck_near(runnel_contours_area(&list), -2, 1e-15);
    ck_near(list.flatten_mm, 0.29289321881345248, 1e-14); /* 1 - sqrt(2)/2 */
}
END_TEST

START_TEST(append_scales_then_moves) {
    runnel_contours from;
    runnel_contours_init(&from);
    ck_assert_int_eq(runnel_contours_begin(&from, true), RUNNEL_OK);
    ck_assert_int_eq(runnel_contours_add(&from, 1, 2), RUNNEL_OK);
    ck_assert_int_eq(runnel_contours_begin(&from, false), RUNNEL_OK);
    ck_assert_int_eq(runnel_contours_add(&from, 3, 4), RUNNEL_OK);
    from.flatten_mm = 0.25;
    start_at(9, 9, false);
    ck_assert_int_eq(runnel_contours_append(&list, &from, 2, 10, 100), RUNNEL_OK);
    ck_assert_uint_eq(list.count, 3);
    ck_assert_uint_eq(list.items[1].first, 1);
    ck_assert(list.items[1].closed && !list.items[2].closed);
    ck_assert_uint_eq(list.items[2].first, 2);
    ck_near(list.points[1].x_mm, 12, 0);
    ck_near(list.points[1].y_mm, 104, 0);
    ck_near(list.points[2].x_mm, 16, 0);
    ck_near(list.points[2].y_mm, 108, 0);
    ck_near(list.flatten_mm, 0.5, 0);
    ck_assert_int_eq(runnel_contours_append(&list, &list, 1, 0, 0), RUNNEL_OK);
    ck_assert_uint_eq(list.count, 6);
    ck_assert_uint_eq(list.items[5].first, 5);
    ck_near(list.points[5].x_mm, 16, 0);
    runnel_contours_clear(&from);
}
END_TEST

static runnel_status draw(runnel_contours *target) {
    runnel_point p = {3, 4}, q = {5, -6}, r = {7, 8}, centre = {0, 8};
    runnel_status status = runnel_contours_begin(target, false);
    if (!status)
        status = runnel_contours_add(target, 0, 0);
    if (!status)
        status = runnel_contours_quadratic(target, p, q, 0.001);
    if (!status)
        status = runnel_contours_cubic(target, p, q, r, 0.00001);
    if (!status)
        status = runnel_contours_arc(target, centre, 360, 1e-7);
    if (!status)
        status = runnel_contours_append(target, target, 1, 0, 0);
    return status;
}

START_TEST(want_of_memory) {
    size_t failures = 0, budget = 0;
    for (;; budget++) {
        failing count = {.fail_at = budget, .for_good = true};
        start_failing(&count);
        runnel_contours target;
        runnel_contours_init(&target);
        runnel_status status = draw(&target);
        size_t held = target.point_count;
        if (target.count)
            ck_assert_uint_eq(
                target.items[target.count - 1].first + target.items[target.count - 1].count, held);
        runnel_contours_clear(&target);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
        if (!status)
            break;
        ck_assert_int_eq(status, RUNNEL_E_NO_MEMORY);
        failures++;
    }
    ck_assert_uint_eq(failures, budget);
    ck_assert_uint_ge(failures, 5);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("contours");
    TCase *tests = tcase_create("lists");
    tcase_add_checked_fixture(tests, setup, teardown);
    tcase_add_test(tests, empty_list);
    tcase_add_test(tests, points_need_a_contour);
    tcase_add_test(tests, curve_needs_a_point_of_its_own_contour);
    tcase_add_test(tests, unusable_numbers);
    tcase_add_test(tests, area_and_box_of_an_l);
    tcase_add_test(tests, area_far_from_the_origin);
    tcase_add_test(tests, repeated_points_are_left_out);
    tcase_add_test(tests, quadratic_by_archimedes);
    tcase_add_test(tests, straight_curves_need_one_chord);
    tcase_add_loop_test(tests, cubic_stays_within_tolerance, 0,
                        (int)(sizeof cubics / sizeof *cubics));
    tcase_add_test(tests, cubic_takes_few_chords);
    tcase_add_test(tests, full_circle);
    tcase_add_test(tests, arcs_of_either_sense);
    tcase_add_test(tests, coarse_circle);
    tcase_add_test(tests, append_scales_then_moves);
    tcase_add_test(tests, want_of_memory);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
