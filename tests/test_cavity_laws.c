/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Laws that hold for every cavity, whatever its shape: sums over sections, similarity, motion,
 * monotony, union. Nothing here is compared to a number that the library gave.
 */
#include "numeric/quadrature.h"
#include "solids.h"

#include <stdlib.h>

/* --- shapes and cuts --- */

static void l_contours(runnel_contours *c) {
    add_ring(c, 0, 0, 60, 0, 60, 30, 30, 30, 30, 60, 0, 60);
}

static void cross_contours(runnel_contours *c) {
    add_rectangle(c, 0, 25, 60, 10);
    add_rectangle(c, 25, 0, 10, 60);
}

static void frame_contours(runnel_contours *c) {
    add_rectangle(c, 0, 0, 60, 50);
    add_ring(c, 12, 14, 14, 33, 40, 38, 45, 12);
}

static void star_contours(runnel_contours *c) {
    chance random = {77};
    add_star(c, &random, 30, 30, 10, 30, 17);
}

static void neck_contours(runnel_contours *c) {
    add_ring(c, 0, 0, 20, 0, 28, 8, 36, 0, 60, 0, 60, 20, 36, 20, 28, 12, 20, 20, 0, 20);
}

static void scribble_contours(runnel_contours *c) {
    chance random = {78};
    add_scribble(c, &random, 50, 7);
    add_ring(c, 10, 10, 40, 12, 25, 40);
}

typedef void (*contours_function)(runnel_contours *c);
static const contours_function outlines[] = {l_contours, cross_contours, frame_contours,
                                             star_contours, neck_contours};
enum { OUTLINES = sizeof outlines / sizeof *outlines };

/* Cuts of outlines, then of paths; all sizes stand in the unit given. */
enum { OUTLINE_CUTS = 9, PATH_CUTS = 5 };

static runnel_cut outline_cut(int number, double unit) {
    switch (number) {
    case 0:
        return walls(60, 0);
    case 1:
        return walls(97, 3 * unit);
    case 2:
        return walls_tip(60, 0.5 * unit, 0);
    case 3:
        return walls_tip(90, 3.7 * unit, 2.5 * unit);
    case 4:
        return pocket(flat_end(1.5 * unit), 4 * unit);
    case 5:
        return pocket(round_nose(2 * unit), 1.2 * unit);
    case 6:
        return pocket(round_nose(2 * unit), 5 * unit);
    case 7:
        return pocket(v_cutter(40, 0.4 * unit), 3 * unit);
    default:
        return pocket(v_cutter(90, 0), 2 * unit);
    }
}

static runnel_cut path_cut(int number, double unit) {
    switch (number) {
    case 0:
        return along(v_cutter(60, 0), 4 * unit);
    case 1:
        return along(v_cutter(90, 0.6 * unit), 3 * unit);
    case 2:
        return along(round_nose(3 * unit), 2 * unit);
    case 3:
        return along(round_nose(3 * unit), 4 * unit);
    default:
        return along(flat_end(2 * unit), 5 * unit);
    }
}

enum { ALL_CASES = OUTLINES * OUTLINE_CUTS + PATH_CUTS };

/* One of all cases, turned by an angle, scaled, and moved. */
static runnel_shape *case_shape(int number, double turn, double scale, double dx, double dy) {
    runnel_contours plain = {0}, moved = {0};
    bool is_path = number >= OUTLINES * OUTLINE_CUTS;
    (is_path ? scribble_contours : outlines[number / OUTLINE_CUTS])(&plain);
    add_turned(&moved, &plain, turn, scale, dx, dy);
    runnel_contours_clear(&plain);
    return is_path ? path_of(&moved) : outline_of(&moved);
}

static runnel_cut case_cut(int number, double unit) {
    bool is_path = number >= OUTLINES * OUTLINE_CUTS;
    return is_path ? path_cut(number - OUTLINES * OUTLINE_CUTS, unit)
                   : outline_cut(number % OUTLINE_CUTS, unit);
}

/* --- sums over sections --- */

START_TEST(sections_add_up_to_the_volume) {
    runnel_shape *shape = case_shape(_i, 0.3, 1, 0, 0);
    runnel_cut cut = case_cut(_i, 1);
    runnel_cavity f = figures_of(shape, cut);
    ck_near(section_of(shape, cut, 0), f.footprint_mm2, 1e-10);
    ck_near_or(section_of(shape, cut, f.deepest_mm * (1 + 1e-9)), 0, 0, 0);
    /* where tips face each other at necks the volume is had by quadrature, and its error told */
    double allowed = fmax(1e-8 * f.volume_mm3, f.volume_error_mm3);
    ck_assert(allowed < 1e-5 * f.volume_mm3);
    ck_near_or(f.volume_mm3, stacked_volume(shape, cut, f.deepest_mm), 0, allowed);
    runnel_shape_free(shape);
}
END_TEST

START_TEST(sections_of_exact_shapes_add_up) {
    for (int i = 0; i < OUTLINE_CUTS + PATH_CUTS; i++) {
        bool is_path = i >= OUTLINE_CUTS;
        runnel_cut cut = is_path ? path_cut(i - OUTLINE_CUTS, 1) : outline_cut(i, 1);
        for (double radius = 7; radius <= 15; radius += 8) {
            runnel_shape *shape = NULL;
            ck_assert_int_eq(runnel_shape_rounded(50, 30, radius, is_path, &shape), RUNNEL_OK);
            runnel_cavity f = figures_of(shape, cut);
            ck_near(section_of(shape, cut, 0), f.footprint_mm2, 1e-10);
            ck_near(f.volume_mm3, stacked_volume(shape, cut, f.deepest_mm), 1e-8);
            runnel_shape_free(shape);
        }
    }
}
END_TEST

START_TEST(volume_above_a_level) {
    /* all sections down to it, or told not to be had where they change with the depth of cut */
    runnel_shape *shape = case_shape(_i, 0.3, 1, 0, 0);
    runnel_cut cut = case_cut(_i, 1);
    runnel_cavity f = figures_of(shape, cut);
    bool is_had = cut.rule == RUNNEL_CUT_WALLS ||
                  (cut.rule == RUNNEL_CUT_POCKET && cut.cutter.kind == RUNNEL_CUTTER_FLAT);
    for (int k = 0; k <= 5; k++) {
        double above = -7, level = f.deepest_mm * k / 4;
        runnel_status status = runnel_cavity_above(shape, &cut, level, &above);
        ck_assert_int_eq(status, is_had ? RUNNEL_OK : RUNNEL_E_NOT_COMPUTED);
        if (!is_had)
            ck_near(above, -7, 0);
        else if (k == 0)
            ck_near_or(above, 0, 0, 1e-9);
        else
            ck_near_or(above, stacked_volume(shape, cut, fmin(level, f.deepest_mm)), 0,
                       fmax(1e-8 * f.volume_mm3, f.volume_error_mm3));
    }
    runnel_shape_free(shape);
}
END_TEST

START_TEST(sections_shrink_with_depth) {
    runnel_shape *shape = case_shape(_i, 0, 1, 0, 0);
    runnel_cut cut = case_cut(_i, 1);
    runnel_cavity f = figures_of(shape, cut);
    double last = INFINITY;
    for (int k = 0; k <= 40; k++) {
        double area = section_of(shape, cut, f.deepest_mm * k / 40);
        ck_assert(area <= last * (1 + 1e-12) + 1e-9);
        last = area;
    }
    ck_assert(f.volume_mm3 <= f.footprint_mm2 * f.deepest_mm * (1 + 1e-12));
    ck_assert(f.wall_mm2 >= f.footprint_mm2 * (1 - 1e-9));
    runnel_shape_free(shape);
}
END_TEST

static double border_of(runnel_shape *shape, runnel_cut cut, double level) {
    double length = NAN;
    ck_assert_int_eq(runnel_cavity_border(shape, &cut, level, &length), RUNNEL_OK);
    return length;
}

START_TEST(borders_are_slopes_of_sections) {
    /* Where the edge of the section moves by a common distance with the level, its length is the
     * slope of the area: everywhere but on the rounded corners that a tip leaves in an outline. */
    runnel_shape *shape = case_shape(_i, 0.3, 1, 0, 0);
    runnel_cut cut = case_cut(_i, 1);
    runnel_cavity f = figures_of(shape, cut);
    ck_near(border_of(shape, cut, 0), f.perimeter_mm, 1e-9);
    bool is_moving = cut.rule != RUNNEL_CUT_WALLS || cut.cutter.tip_mm == 0;
    for (int k = 1; k < 8 && is_moving && cut.cutter.kind != RUNNEL_CUTTER_FLAT; k++) {
        double level = f.deepest_mm * k / 8.3, h = 1e-5;
        double rise = (section_of(shape, cut, level - h) - section_of(shape, cut, level + h));
        double moved = 2 * h * tan(cut.cutter.angle_deg * PI / 360);
        if (cut.cutter.kind == RUNNEL_CUTTER_ROUND_NOSE) {
            double r = cut.cutter.radius_mm, up = fmin(r, cut.depth_mm - level + h);
            double down = fmin(r, cut.depth_mm - level - h);
            moved = sqrt(up * (2 * r - up)) - sqrt(down * (2 * r - down));
        }
        ck_near_or(rise, moved * border_of(shape, cut, level), 1e-3, 1e-10 * f.footprint_mm2);
    }
    runnel_shape_free(shape);
}
END_TEST

/* A margin by how far it lies below 0.1 mm, for quadrature. */
typedef struct rise {
    runnel_shape *shape;
    runnel_cut cut;
} rise;

static double ring_at(double height, void *state) {
    const rise *r = state;
    return margin_of(r->shape, r->cut, height * tan(r->cut.cutter.angle_deg * PI / 360));
}

START_TEST(a_tenth_deeper_or_shallower) {
    /* walls 0.1 shallower: the top layer is missing; sharp ones 0.1 deeper: all of it lies 0.1
     * lower, and above it the outline has grown level by level */
    for (int i = 0; i < OUTLINES * 4; i++) {
        runnel_contours c = {0};
        outlines[i / 4](&c);
        runnel_shape *shape = outline_of(&c);
        runnel_cut cut = outline_cut(i % 4, 1);
        runnel_cavity f = figures_of(shape, cut);
        ck_near(-f.depth_minus_mm3, stacked_volume(shape, cut, 0.1), 1e-6);
        rise r = {shape, cut};
        double ring = NAN, error = 0;
        ck_assert_int_eq(runnel_integrate(ring_at, &r, 0, 0.1, 0, 1e-9, &ring, &error), RUNNEL_OK);
        ck_near(f.depth_plus_mm3, 0.1 * f.footprint_mm2 + ring,
                cut.cutter.tip_mm > 0 ? 1e-3 : 1e-9);
        runnel_shape_free(shape);
    }
}
END_TEST

/* --- similarity and motion --- */

static void check_alike(const runnel_cavity *a, const runnel_cavity *b, double k, double relative) {
    ck_near(b->volume_mm3, k * k * k * a->volume_mm3, relative);
    ck_near(b->footprint_mm2, k * k * a->footprint_mm2, relative);
    ck_near(b->wall_mm2, k * k * a->wall_mm2, relative);
    ck_near(b->perimeter_mm, k * a->perimeter_mm, relative);
    ck_near(b->deepest_mm, k * a->deepest_mm, relative);
    ck_near(b->widest_mm, k * a->widest_mm, relative);
    ck_near(b->narrowest_mm, k * a->narrowest_mm, relative);
    ck_near_or(b->uncut_mm2, k * k * a->uncut_mm2, relative, 1e-9 * k * k * a->footprint_mm2);
    ck_assert_uint_eq(a->uncut_places, b->uncut_places);
    ck_near(b->angle_mm3_per_degree, k * k * k * a->angle_mm3_per_degree, 1e-6);
}

/* Quadrature at necks may halve its panels differently: its own error, as a share. */
static double tolerance_of(const runnel_cavity *f) {
    return fmax(1e-10, 2 * f->volume_error_mm3 / f->volume_mm3);
}

START_TEST(similar_shapes) {
    runnel_shape *plain = case_shape(_i, 0, 1, 0, 0);
    runnel_cavity f = figures_of(plain, case_cut(_i, 1));
    const double scales[] = {0.1, 0.5, 3, 25.4};
    for (int k = 0; k < 4; k++) {
        runnel_shape *scaled = case_shape(_i, 0, scales[k], 0, 0);
        runnel_cavity g = figures_once(scaled, case_cut(_i, scales[k]));
        check_alike(&f, &g, scales[k], tolerance_of(&f));
    }
    runnel_shape_free(plain);
}
END_TEST

START_TEST(moved_and_turned_shapes) {
    runnel_shape *plain = case_shape(_i, 0, 1, 0, 0);
    runnel_cavity f = figures_of(plain, case_cut(_i, 1));
    const double motions[][3] = {{0, 100, -30}, {0.5, 0, 0}, {PI / 2, 7, 7}, {2.2, -800, 900}};
    for (int k = 0; k < 4; k++) {
        runnel_shape *moved = case_shape(_i, motions[k][0], 1, motions[k][1], motions[k][2]);
        runnel_cavity g = figures_once(moved, case_cut(_i, 1));
        check_alike(&f, &g, 1, tolerance_of(&f));
        ck_near(g.depth_plus_mm3, f.depth_plus_mm3, 1e-6);
        ck_near(g.depth_minus_mm3, f.depth_minus_mm3, 1e-6);
    }
    runnel_shape_free(plain);
}
END_TEST

START_TEST(mirrored_and_reversed_contours) {
    /* the sense of a contour does not matter, nor where it begins */
    for (int i = 0; i < OUTLINE_CUTS; i++) {
        runnel_contours c = {0}, back = {0};
        l_contours(&c);
        add_ring(&back, 30, 60, 30, 30, 60, 30, 60, 0, 0, 0, 0, 60);
        runnel_cavity f = figures_once(outline_of(&c), outline_cut(i, 1));
        runnel_cavity g = figures_once(outline_of(&back), outline_cut(i, 1));
        check_alike(&f, &g, 1, 1e-12);
    }
}
END_TEST

/* --- monotony and sums --- */

START_TEST(deeper_limits_hold_more) {
    for (int i = 0; i < OUTLINES; i++) {
        runnel_contours c = {0};
        outlines[i](&c);
        runnel_shape *shape = outline_of(&c);
        for (double tip = 0; tip < 2.5; tip += 1.2) {
            double whole = figures_of(shape, walls_tip(80, tip, 0)).volume_mm3, last = 0;
            for (double limit = 0.25; limit < 80; limit *= 1.5) {
                double volume = figures_of(shape, walls_tip(80, tip, limit)).volume_mm3;
                ck_assert(volume >= last * (1 - 1e-9) && volume <= whole * (1 + 1e-5));
                last = volume;
            }
            ck_near(last, whole, 1e-5);
        }
        runnel_shape_free(shape);
    }
}
END_TEST

START_TEST(blunter_angles_hold_less) {
    for (int i = 0; i < OUTLINES; i++) {
        runnel_contours c = {0};
        outlines[i](&c);
        runnel_shape *shape = outline_of(&c);
        double last = INFINITY, sharp = figures_of(shape, walls(90, 0)).volume_mm3;
        for (double angle = 10; angle < 180; angle += 10) {
            double volume = figures_of(shape, walls(angle, 0)).volume_mm3;
            ck_assert(volume < last);
            /* depth goes by the cotangent */
            ck_near(volume, sharp / tan(angle * PI / 360), 1e-10);
            last = volume;
        }
        runnel_shape_free(shape);
    }
}
END_TEST

START_TEST(shapes_apart_add_up) {
    for (int i = 0; i < OUTLINE_CUTS; i++) {
        runnel_contours one = {0}, other = {0}, both = {0};
        star_contours(&one);
        l_contours(&other);
        add_turned(&both, &one, 0, 1, 0, 0);
        add_turned(&both, &other, 0, 1, 200, 0);
        runnel_cavity a = figures_once(outline_of(&one), outline_cut(i, 1));
        runnel_cavity b = figures_once(outline_of(&other), outline_cut(i, 1));
        runnel_cavity f = figures_once(outline_of(&both), outline_cut(i, 1));
        double allowed = fmax(1e-10, 3 * f.volume_error_mm3 / f.volume_mm3);
        ck_near(f.volume_mm3, a.volume_mm3 + b.volume_mm3, allowed);
        ck_near(f.footprint_mm2, a.footprint_mm2 + b.footprint_mm2, 1e-9);
        ck_near(f.wall_mm2, a.wall_mm2 + b.wall_mm2, 1e-9);
        ck_near(f.perimeter_mm, a.perimeter_mm + b.perimeter_mm, 1e-9);
        ck_near(f.deepest_mm, fmax(a.deepest_mm, b.deepest_mm), 1e-10);
        ck_near(f.narrowest_mm, fmin(a.narrowest_mm, b.narrowest_mm), 1e-10);
        ck_assert_uint_eq(f.uncut_places, a.uncut_places + b.uncut_places);
    }
}
END_TEST

START_TEST(a_rectangle_in_parts) {
    /* halves that share an edge, and strips that overlap, are the whole again */
    for (int i = 0; i < OUTLINE_CUTS; i++) {
        runnel_contours halves = {0}, strips = {0};
        add_rectangle(&halves, 0, 0, 35, 40);
        add_rectangle(&halves, 35, 0, 25, 40);
        for (int k = 0; k < 5; k++)
            add_rectangle(&strips, 11 * k, 0, 16, 40);
        runnel_cavity f = figures_once(rectangle(60, 40), outline_cut(i, 1));
        runnel_cavity g = figures_once(outline_of(&halves), outline_cut(i, 1));
        check_alike(&f, &g, 1, 1e-10);
        g = figures_once(outline_of(&strips), outline_cut(i, 1));
        check_alike(&f, &g, 1, 1e-10);
    }
    /* two that do not touch hold the sum; with a wall between them, less than the whole */
    runnel_contours apart = {0};
    add_rectangle(&apart, 0, 0, 30, 40);
    add_rectangle(&apart, 31, 0, 30, 40);
    double two = volume_once(outline_of(&apart), walls(90, 0));
    ck_near(two, 2 * volume_once(rectangle(30, 40), walls(90, 0)), 1e-10);
    ck_assert(two < volume_once(rectangle(61, 40), walls(90, 0)));
}
END_TEST

START_TEST(reach_does_not_matter) {
    /* the surroundings may have been computed to a larger reach before */
    for (int i = 0; i < PATH_CUTS; i++) {
        runnel_contours c = {0}, again = {0};
        scribble_contours(&c);
        scribble_contours(&again);
        runnel_shape *far = path_of(&c);
        figures_of(far, along(flat_end(40), 1));
        runnel_cavity f = figures_once(far, path_cut(i, 1));
        runnel_cavity g = figures_once(path_of(&again), path_cut(i, 1));
        check_alike(&f, &g, 1, 1e-11);
        ck_near(f.depth_plus_mm3, g.depth_plus_mm3, 1e-8);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("cavity_laws");
    TCase *sums = tcase_create("sums");
    tcase_set_timeout(sums, 300);
    tcase_add_loop_test(sums, sections_add_up_to_the_volume, 0, ALL_CASES);
    tcase_add_test(sums, sections_of_exact_shapes_add_up);
    tcase_add_loop_test(sums, volume_above_a_level, 0, ALL_CASES);
    tcase_add_test(sums, a_tenth_deeper_or_shallower);
    tcase_add_loop_test(sums, borders_are_slopes_of_sections, 0, ALL_CASES);
    tcase_add_loop_test(sums, sections_shrink_with_depth, 0, ALL_CASES);
    suite_add_tcase(suite, sums);
    TCase *motions = tcase_create("similarity and motion");
    tcase_set_timeout(motions, 300);
    tcase_add_loop_test(motions, similar_shapes, 0, ALL_CASES);
    tcase_add_loop_test(motions, moved_and_turned_shapes, 0, ALL_CASES);
    tcase_add_test(motions, mirrored_and_reversed_contours);
    suite_add_tcase(suite, motions);
    TCase *orders = tcase_create("monotony and sums");
    tcase_set_timeout(orders, 300);
    tcase_add_test(orders, deeper_limits_hold_more);
    tcase_add_test(orders, blunter_angles_hold_less);
    tcase_add_test(orders, shapes_apart_add_up);
    tcase_add_test(orders, a_rectangle_in_parts);
    tcase_add_test(orders, reach_does_not_matter);
    suite_add_tcase(suite, orders);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
