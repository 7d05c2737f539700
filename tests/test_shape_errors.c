/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What shapes and cavities refuse, and that nothing is lost when memory runs out.
 */
#include "failing.h"
#include "solids.h"

#include <stdlib.h>
#include <string.h>

static runnel_contours list;
static runnel_shape *const mark = (runnel_shape *)&list;

static void setup(void) {
    runnel_contours_init(&list);
}

static void teardown(void) {
    runnel_contours_clear(&list);
}

static void ck_refused(runnel_status outline, runnel_status path) {
    runnel_shape *shape = mark;
    ck_assert_str_eq(runnel_status_name(runnel_shape_outline(&list, NULL, &shape)),
                     runnel_status_name(outline));
    ck_assert_ptr_eq(shape, mark);
    ck_assert_str_eq(runnel_status_name(runnel_shape_path(&list, NULL, &shape)),
                     runnel_status_name(path));
    ck_assert_ptr_eq(shape, mark);
    runnel_contours_clear(&list);
}

/* A path is there, an outline is not. */
static void ck_path_only(void) {
    runnel_shape *shape = mark;
    ck_assert_str_eq(runnel_status_name(runnel_shape_outline(&list, NULL, &shape)), "E_SHAPE");
    ck_assert_ptr_eq(shape, mark);
    ck_assert_int_eq(runnel_shape_path(&list, NULL, &shape), RUNNEL_OK);
    ck_assert(runnel_shape_is_path(shape));
    ck_assert(figures_of(shape, along(flat_end(1), 1)).volume_mm3 > 0);
    runnel_shape_free(shape);
    runnel_contours_clear(&list);
}

/* --- shapes --- */

START_TEST(nothing_is_no_shape) {
    ck_refused(RUNNEL_E_SHAPE, RUNNEL_E_SHAPE);
    ck_assert_int_eq(runnel_contours_begin(&list, true), RUNNEL_OK); /* without points */
    ck_refused(RUNNEL_E_SHAPE, RUNNEL_E_SHAPE);
    add_ring(&list, 3, 4); /* a point */
    ck_refused(RUNNEL_E_SHAPE, RUNNEL_E_SHAPE);
    add_line(&list, 3, 4, 3, 4, 3, 4);
    ck_refused(RUNNEL_E_SHAPE, RUNNEL_E_SHAPE);
    runnel_shape_free(NULL);
}
END_TEST

START_TEST(lines_enclose_nothing) {
    add_ring(&list, 0, 0, 10, 5); /* two points */
    ck_path_only();
    add_ring(&list, 0, 0, 10, 0, 30, 0, 5, 0); /* to and fro */
    ck_path_only();
    add_ring(&list, 0, 0, 7, 3, 14, 6); /* aslant */
    ck_path_only();
    add_ring(&list, 0, 0, 10, 10, 20, 0, 10, 10); /* out and back the same way */
    ck_path_only();
}
END_TEST

START_TEST(what_encloses_nothing_beside_what_does) {
    add_ring(&list, 50, 50, 60, 55);
    add_ring(&list, 80, 0);
    add_rectangle(&list, 0, 0, 20, 10);
    runnel_cavity f = figures_once(outline_of(&list), walls(90, 0));
    ck_near(f.footprint_mm2, 200, 1e-12);
    ck_near(f.narrowest_mm, 10, 1e-12);
}
END_TEST

START_TEST(a_hair_is_no_outline) {
    /* a ring whose area is less than that of the rounding of its points */
    add_ring(&list, 0, 0, 10, 1e-14, 20, 0);
    ck_path_only();
    add_ring(&list, 0, 0, 1e-6, 0, 1e-6, 1e-6, 0, 1e-6);
    runnel_shape *shape = mark;
    ck_assert_int_eq(runnel_shape_outline(&list, NULL, &shape), RUNNEL_E_SHAPE);
}
END_TEST

START_TEST(numbers_that_are_none) {
    ck_assert_int_eq(runnel_contours_begin(&list, true), RUNNEL_OK);
    ck_assert_int_eq(runnel_contours_add(&list, NAN, 0), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_contours_add(&list, 0, INFINITY), RUNNEL_E_RANGE);
    ck_assert_uint_eq(list.point_count, 0);
    runnel_contours_clear(&list);
    /* written into the list past its door */
    const double wrong[] = {NAN, INFINITY, -INFINITY};
    for (int i = 0; i < 3; i++) {
        for (size_t k = 0; k < 4; k++) {
            add_rectangle(&list, 0, 0, 20, 10);
            (k & 1 ? &list.points[k].x_mm : &list.points[k].y_mm)[0] = wrong[i];
            ck_refused(RUNNEL_E_RANGE, RUNNEL_E_RANGE);
        }
    }
}
END_TEST

START_TEST(figures_of_eight_have_two_lobes) {
    add_ring(&list, 0, 0, 40, 40, 40, 0, 0, 40);
    /* two triangles of base 40 and height 20, each a pyramid A r/3 over its incircle, r = 2 A/P */
    double area = 400, r = 2 * area / (40 + 40 * sqrt(2));
    runnel_cavity f = figures_once(outline_of(&list), walls(90, 0));
    ck_near(f.footprint_mm2, 800, 1e-12);
    ck_near(f.volume_mm3, 2 * area * r / 3, 1e-9);
}
END_TEST

START_TEST(rings_by_the_non_zero_rule) {
    /* two rings of the same sense, one in the other: no hole; of opposite senses: a hole. The
     * even-odd rule would make a hole of either. */
    add_rectangle(&list, 0, 0, 60, 60);
    add_rectangle(&list, 20, 20, 20, 20);
    ck_near(figures_once(outline_of(&list), walls(90, 0)).volume_mm3, 3600 * 30 / 3.0, 1e-9);
    add_rectangle(&list, 0, 0, 60, 60);
    add_rectangle(&list, 20, 20, 20, -20);
    ck_near(figures_once(outline_of(&list), walls(90, 0)).footprint_mm2, 3200, 1e-12);
    /* a clockwise ring with a counter-clockwise one in it is a hole as well */
    add_rectangle(&list, 0, 0, 60, -60);
    add_rectangle(&list, 20, 20, 20, 20);
    ck_near(figures_once(outline_of(&list), walls(90, 0)).footprint_mm2, 3200, 1e-12);
    /* wound around twice and once back again: still inside */
    add_rectangle(&list, 0, 0, 60, 60);
    add_rectangle(&list, 0, 0, 60, 60);
    add_rectangle(&list, 20, 20, 20, -20);
    ck_near(figures_once(outline_of(&list), walls(90, 0)).footprint_mm2, 3600, 1e-12);
}
END_TEST

START_TEST(overlapping_rings_are_united) {
    /* two rectangles that make an L: its volume by hand, 35250 - 12000 sqrt 2 */
    add_rectangle(&list, 0, 0, 60, 30);
    add_rectangle(&list, 0, 0, 30, 60);
    ck_near(figures_once(outline_of(&list), walls(90, 0)).volume_mm3, 35250 - 12000 * sqrt(2),
            1e-9);
    /* of opposite senses the overlap winds around zero times: it is left out */
    add_rectangle(&list, 0, 0, 60, 30);
    add_rectangle(&list, 0, 0, 30, -60);
    ck_near(figures_once(outline_of(&list), walls(90, 0)).footprint_mm2, 1800, 1e-12);
}
END_TEST

START_TEST(rounded_shapes_out_of_range) {
    runnel_shape *shape = mark;
    const double wrong[] = {0, -1, NAN, INFINITY};
    for (int i = 0; i < 4; i++) {
        ck_assert_int_eq(runnel_shape_rounded(wrong[i], 10, 2, false, &shape), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_shape_rounded(10, wrong[i], 2, true, &shape), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_shape_rounded(10, 10, wrong[i], false, &shape), RUNNEL_E_RANGE);
    }
    ck_assert_int_eq(runnel_shape_rounded(10, 8, 4.01, false, &shape), RUNNEL_E_RANGE);
    ck_assert_ptr_eq(shape, mark);
}
END_TEST

START_TEST(boxes_and_kinds) {
    runnel_shape *shape = l_shape();
    runnel_box box = runnel_shape_box(shape);
    ck_assert(!runnel_shape_is_path(shape));
    ck_assert(box.min_x_mm == 0 && box.min_y_mm == 0 && box.max_x_mm == 60 && box.max_y_mm == 60);
    runnel_shape_free(shape);
    ck_assert_int_eq(runnel_shape_rounded(30, 20, 5, true, &shape), RUNNEL_OK);
    box = runnel_shape_box(shape);
    ck_assert(runnel_shape_is_path(shape));
    ck_assert(box.min_x_mm == 0 && box.min_y_mm == 0 && box.max_x_mm == 30 && box.max_y_mm == 20);
    runnel_shape_free(shape);
}
END_TEST

/* --- cuts --- */

static void ck_cut_refused(runnel_shape *shape, runnel_cut cut) {
    runnel_cavity figures;
    memset(&figures, 0x5a, sizeof figures);
    double area = -7;
    ck_assert_int_eq(runnel_cavity_compute(shape, &cut, &figures), RUNNEL_E_RANGE);
    for (size_t i = 0; i < sizeof figures; i++)
        ck_assert_uint_eq(((const unsigned char *)&figures)[i], 0x5a);
    ck_assert_int_eq(runnel_cavity_section(shape, &cut, 1, &area), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_cavity_above(shape, &cut, 1, &area), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_cavity_border(shape, &cut, 1, &area), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_cavity_margin(shape, &cut, 1, &area), RUNNEL_E_RANGE);
    ck_near(area, -7, 0);
}

START_TEST(cutters_out_of_range) {
    runnel_shape *outline = rectangle(60, 40), *path = straight(100);
    const double angles[] = {0, -10, 180, 200, NAN, INFINITY};
    for (int i = 0; i < 6; i++) {
        ck_cut_refused(outline, walls(angles[i], 0));
        ck_cut_refused(outline, pocket(v_cutter(angles[i], 0), 3));
        ck_cut_refused(path, along(v_cutter(angles[i], 0), 3));
    }
    const double tips[] = {-0.1, NAN, INFINITY};
    for (int i = 0; i < 3; i++) {
        ck_cut_refused(outline, walls_tip(60, tips[i], 0));
        ck_cut_refused(path, along(v_cutter(60, tips[i]), 3));
    }
    const double radii[] = {0, -1, NAN, INFINITY};
    for (int i = 0; i < 4; i++) {
        ck_cut_refused(outline, pocket(round_nose(radii[i]), 3));
        ck_cut_refused(outline, pocket(flat_end(radii[i]), 3));
        ck_cut_refused(path, along(flat_end(radii[i]), 3));
    }
    ck_cut_refused(outline, pocket((runnel_cutter){0}, 3));
    runnel_shape_free(outline);
    runnel_shape_free(path);
}
END_TEST

START_TEST(depths_out_of_range) {
    runnel_shape *outline = rectangle(60, 40), *path = straight(100);
    const double depths[] = {-1, NAN, INFINITY};
    for (int i = 0; i < 3; i++) {
        ck_cut_refused(outline, walls(60, depths[i]));
        ck_cut_refused(outline, pocket(flat_end(3), depths[i]));
        ck_cut_refused(path, along(round_nose(3), depths[i]));
    }
    ck_cut_refused(outline, pocket(flat_end(3), 0));
    ck_cut_refused(path, along(v_cutter(60, 0), 0));
    double area = -7;
    runnel_cut cut = walls(60, 0);
    const double levels[] = {-0.1, NAN};
    for (int i = 0; i < 2; i++) {
        ck_assert_int_eq(runnel_cavity_section(outline, &cut, levels[i], &area), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_cavity_margin(outline, &cut, levels[i], &area), RUNNEL_E_RANGE);
    }
    ck_assert_int_eq(runnel_cavity_margin(outline, &cut, INFINITY, &area), RUNNEL_E_RANGE);
    ck_near(area, -7, 0);
    runnel_shape_free(outline);
    runnel_shape_free(path);
}
END_TEST

START_TEST(rules_that_do_not_go_with_the_shape) {
    runnel_shape *outline = rectangle(60, 40), *path = straight(100);
    ck_cut_refused(path, walls(60, 0));
    ck_cut_refused(path, pocket(flat_end(3), 3));
    ck_cut_refused(outline, along(flat_end(3), 3));
    /* walls are for V cutters alone */
    ck_cut_refused(outline, (runnel_cut){flat_end(3), RUNNEL_CUT_WALLS, 3});
    ck_cut_refused(outline, (runnel_cut){round_nose(3), RUNNEL_CUT_WALLS, 3});
    ck_cut_refused(outline, (runnel_cut){v_cutter(60, 0), (runnel_cut_rule)17, 3});
    runnel_shape_free(outline);
    runnel_shape_free(path);
}
END_TEST

/* --- want of memory --- */

/* Everything that a shape can be asked, once through. */
static runnel_status ask_all(bool is_path, runnel_cut cut) {
    runnel_contours contours = {0};
    runnel_shape *shape = NULL;
    runnel_cavity figures;
    double area = 0;
    const double xy[] = {0, 0, 20, 0, 30, 9, 40, 0, 60, 0, 60, 20, 40, 20, 30, 11, 20, 20, 0, 20};
    runnel_status status = runnel_contours_begin(&contours, !is_path);
    for (size_t i = 0; i < 20 && !status; i += 2)
        status = runnel_contours_add(&contours, xy[i], xy[i + 1]);
    if (!status)
        status = is_path ? runnel_shape_path(&contours, NULL, &shape)
                         : runnel_shape_outline(&contours, NULL, &shape);
    if (!status)
        status = runnel_cavity_compute(shape, &cut, &figures);
    if (!status)
        status = runnel_cavity_section(shape, &cut, 0.5, &area);
    if (!status)
        status = runnel_cavity_border(shape, &cut, 0.5, &area);
    if (!status)
        status = runnel_cavity_margin(shape, &cut, 6, &area);
    runnel_shape_free(shape);
    runnel_contours_clear(&contours);
    return status;
}

START_TEST(memory_that_runs_out) {
    const runnel_cut cuts[] = {walls(60, 0), walls_tip(90, 2.5, 2), pocket(round_nose(1.5), 3),
                               along(v_cutter(60, 0.2), 3)};
    for (int which = 0; which < 8; which++) {
        bool for_good = which % 2;
        runnel_cut cut = cuts[which / 2];
        runnel_status status = RUNNEL_E_NO_MEMORY;
        size_t fail_at = 0;
        for (; status; fail_at++) {
            failing count = {.fail_at = fail_at, .for_good = for_good};
            start_failing(&count);
            status = ask_all(cut.rule == RUNNEL_CUT_PATH, cut);
            runnel_set_allocator(NULL);
            ck_assert_msg(count.alive == 0, "%zu blocks lost after %zu", count.alive, fail_at);
            ck_assert_msg(!status || status == RUNNEL_E_NO_MEMORY, "%s after %zu allocations",
                          runnel_status_name(status), fail_at);
            /* it can only come out right when nothing has failed */
            ck_assert_msg(status || count.calls <= fail_at, "failure %zu went unseen", fail_at);
        }
        ck_assert_uint_gt(fail_at, 20);
    }
}
END_TEST

START_TEST(touching_rings_when_memory_runs_out) {
    runnel_status status = RUNNEL_E_NO_MEMORY;
    add_rectangle(&list, 0, 0, 60, 40);
    add_ring(&list, 0, 20, 15, 30, 15, 10); /* a hole that touches the outer ring */
    for (size_t fail_at = 0; status; fail_at++) {
        failing count = {.fail_at = fail_at};
        runnel_shape *shape = NULL;
        runnel_cavity figures;
        runnel_cut cut = walls(60, 0);
        start_failing(&count);
        status = runnel_shape_outline(&list, NULL, &shape);
        if (!status)
            status = runnel_cavity_compute(shape, &cut, &figures);
        runnel_shape_free(shape);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
        ck_assert(!status || status == RUNNEL_E_NO_MEMORY);
        ck_assert(status || count.calls <= fail_at);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("shape_errors");
    TCase *shapes = tcase_create("shapes");
    tcase_add_checked_fixture(shapes, setup, teardown);
    tcase_add_test(shapes, nothing_is_no_shape);
    tcase_add_test(shapes, lines_enclose_nothing);
    tcase_add_test(shapes, what_encloses_nothing_beside_what_does);
    tcase_add_test(shapes, a_hair_is_no_outline);
    tcase_add_test(shapes, numbers_that_are_none);
    tcase_add_test(shapes, figures_of_eight_have_two_lobes);
    tcase_add_test(shapes, rings_by_the_non_zero_rule);
    tcase_add_test(shapes, overlapping_rings_are_united);
    tcase_add_test(shapes, rounded_shapes_out_of_range);
    tcase_add_test(shapes, boxes_and_kinds);
    suite_add_tcase(suite, shapes);
    TCase *cuts = tcase_create("cuts");
    tcase_add_test(cuts, cutters_out_of_range);
    tcase_add_test(cuts, depths_out_of_range);
    tcase_add_test(cuts, rules_that_do_not_go_with_the_shape);
    suite_add_tcase(suite, cuts);
    TCase *memory = tcase_create("memory");
    tcase_set_timeout(memory, 300);
    tcase_add_checked_fixture(memory, setup, teardown);
    tcase_add_test(memory, memory_that_runs_out);
    tcase_add_test(memory, touching_rings_when_memory_runs_out);
    suite_add_tcase(suite, memory);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
