/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What taking down the face does to cavities. */
#include "failing.h"
#include "runnel/lettering.h"
#include "runnel/level.h"
#include "solids.h"

#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static const double broken[] = {NAN, INFINITY, -INFINITY, -1};

static runnel_levelled level(runnel_shape *shape, runnel_cut cut, double face, double thin) {
    runnel_levelled levelled = {0};
    runnel_status status = runnel_level_cavity(shape, &cut, face, thin, &levelled);
    ck_assert_msg(status == RUNNEL_OK, "%s", runnel_status_name(status));
    return levelled;
}

START_TEST(a_rectangle_is_inset) {
    /* 60 x 40 at 90 degrees, 3 mm off: 54 x 34 = 1836 (mensuration), border 176, share lost 0.235;
     * the ridge was 20 mm deep. */
    runnel_shape *shape = rectangle(60, 40);
    runnel_levelled l = level(shape, walls(90, 0), 3, 0);
    ck_near(l.face_mm, 3, 0);
    ck_near(l.narrowing_mm, 6, 1e-15);
    ck_near(l.footprint_before_mm2, 2400, 1e-13);
    ck_near(l.footprint_mm2, 1836, 1e-12);
    ck_near(l.lost, 0.235, 1e-12);
    ck_near(l.border_before_mm, 200, 1e-13);
    ck_near(l.border_mm, 176, 1e-12);
    ck_near(l.widest_before_mm, 40, 1e-13);
    ck_near(l.widest_mm, 34, 1e-13);
    ck_near(l.narrowest_mm, 34, 1e-12);
    ck_near(l.deepest_before_mm, 20, 1e-13);
    ck_near(l.deepest_mm, 17, 1e-13);
    ck_assert_uint_eq(l.stroke_count, 0);
    runnel_levelled_clear(&l);
    runnel_levelled_clear(NULL);
    /* down to the ridge nothing is left */
    l = level(shape, walls(90, 0), 19.999999, 0);
    ck_near_or(l.footprint_mm2, 20 * 2e-6, 0, 1e-9);
    ck_near_or(l.widest_mm, 2e-6, 0, 1e-12);
    ck_assert_uint_eq(l.gone_count, 0);
    runnel_levelled_clear(&l);
    l = level(shape, walls(90, 0), 20.000001, 0);
    ck_near_or(l.footprint_mm2, 0, 0, 1e-9);
    ck_near(l.lost, 1, 1e-12);
    ck_near(l.widest_mm, 0, 0);
    ck_assert_uint_eq(l.gone_count, 1);
    runnel_levelled_clear(&l);
    l = level(shape, walls(90, 0), 25, 0);
    ck_near(l.narrowing_mm, NAN, 0);
    ck_near(l.footprint_mm2 + l.border_mm + l.deepest_mm, 0, 0);
    ck_assert_uint_eq(l.gone_count, 1);
    runnel_levelled_clear(&l);
    /* a depth limit of 8 is a floor at 8 */
    l = level(shape, walls(90, 8), 7.999, 0);
    ck_near(l.footprint_mm2, 44.002 * 24.002, 1e-12);
    runnel_levelled_clear(&l);
    l = level(shape, walls(90, 8), 8, 0);
    ck_near(l.lost, 1, 0);
    ck_assert_uint_eq(l.gone_count, 1);
    ck_near(l.strokes[0].before_mm, 40, 1e-12);
    ck_near(l.strokes[0].after_mm, 0, 0);
    ck_near(l.strokes[0].length_mm, 20, 1e-9);
    runnel_levelled_clear(&l);
    runnel_shape_free(shape);
}
END_TEST

START_TEST(a_triangle_is_inset) {
    /* Side 60, inset by 3: 1065.6111, side 49.607695 (mensuration); at 60 degrees 3 mm of inset is
     * 3/tan 30 = 5.196152 mm off the face. */
    runnel_shape *shape = regular(3, 60);
    runnel_levelled l = level(shape, walls(60, 0), 5.196152422706632, 0);
    ck_near_or(l.footprint_mm2, 1065.6111, 0, 6e-5);
    ck_near_or(l.border_mm, 3 * 49.607695, 0, 2e-6);
    ck_near(l.narrowing_mm, 6, 1e-14);
    runnel_levelled_clear(&l);
    runnel_shape_free(shape);
}
END_TEST

/* An L of two hairlines 0.8 and 0.9 wide that meet in a square of 5. */
static runnel_shape *hairlines(void) {
    runnel_contours contours = {0};
    add_rectangle(&contours, 0, 0, 5, 5);
    add_rectangle(&contours, 4, 2.1, 21, 0.8);
    add_rectangle(&contours, 2.05, 4, 0.9, 16);
    return outline_of(&contours);
}

START_TEST(hairlines_vanish) {
    runnel_shape *shape = hairlines();
    /* 0.69 mm at 60 degrees takes 0.79674 mm: the finer one is left with 0.8 - 0.79674. */
    runnel_levelled l = level(shape, walls(60, 0), 0.69, 0);
    ck_assert_uint_eq(l.stroke_count, 0);
    ck_near_or(l.narrowest_mm, 0.00326, 0, 6e-6);
    runnel_levelled_clear(&l);
    l = level(shape, walls(60, 0), 0.69, 0.15);
    ck_assert_uint_eq(l.stroke_count, 2);
    ck_assert_uint_eq(l.gone_count, 0);
    for (size_t i = 0; i < 2; i++)
        ck_near(l.strokes[i].after_mm, l.strokes[i].before_mm - l.narrowing_mm, 1e-12);
    runnel_levelled_clear(&l);
    /* 0.70 mm takes 0.80829: one is gone, the other has 0.09171 left */
    l = level(shape, walls(60, 0), 0.70, 0.1);
    ck_assert_uint_eq(l.stroke_count, 2);
    ck_assert_uint_eq(l.gone_count, 1);
    ck_near(l.narrowest_mm, 0, 0);
    ck_near(l.narrowest_before_mm, 0.8, 1e-12);
    for (size_t i = 0; i < 2; i++) {
        const runnel_level_stroke *s = &l.strokes[i];
        bool is_fine = s->before_mm < 0.85;
        ck_near(s->before_mm, is_fine ? 0.8 : 0.9, 1e-12);
        ck_near_or(s->after_mm, is_fine ? 0 : 0.09171, 0, 6e-6);
        /* the arm lies from x 5 to 25, or from y 5 to 20; its end takes half its width */
        ck_near_or(s->length_mm, is_fine ? 19.6 : 14.55, 0, 0.3);
        ck_assert(is_fine ? s->at.x_mm > 4.9 && s->at.x_mm < 24.7
                          : s->at.y_mm > 4.9 && s->at.y_mm < 19.7);
        ck_near_or(is_fine ? s->at.y_mm : s->at.x_mm, 2.5, 0, 1e-9);
    }
    runnel_levelled_clear(&l);
    /* with a tip of 0.2 the finer one is gone at 0.51962 */
    l = level(shape, walls_tip(60, 0.2, 0), 0.519, 0);
    ck_assert_uint_eq(l.gone_count, 0);
    runnel_levelled_clear(&l);
    l = level(shape, walls_tip(60, 0.2, 0), 0.520, 0);
    ck_assert_uint_eq(l.gone_count, 1);
    ck_near(l.strokes[0].before_mm, 0.8, 1e-12);
    runnel_levelled_clear(&l);
    /* what the tip never cut cannot vanish */
    l = level(shape, walls_tip(60, 0.85, 0), 0.1, 0);
    ck_assert_uint_eq(l.gone_count, 1);
    ck_near(l.strokes[0].before_mm, 0.9, 1e-12);
    runnel_levelled_clear(&l);
    runnel_shape_free(shape);
}
END_TEST

START_TEST(grooves_and_pockets) {
    /* A groove 100 long by a round nose of 3 mm, 2 deep, 0.8 off: 4.8 wide with round ends, 480 +
     * pi 2.4^2 = 498.09557; before 565.68542 + pi 8 = 590.81817. */
    runnel_shape *line = straight(100);
    runnel_levelled l = level(line, along(round_nose(3), 2), 0.8, 5);
    ck_near_or(l.footprint_before_mm2, 590.81817, 0, 6e-6);
    ck_near_or(l.footprint_mm2, 498.09557, 0, 6e-6);
    ck_near(l.narrowest_mm, 4.8, 1e-14);
    ck_near(l.border_mm, 200 + PI * 4.8, 1e-12);
    ck_near(l.deepest_mm, 1.2, 1e-14);
    ck_assert_uint_eq(l.stroke_count, 0);
    runnel_levelled_clear(&l);
    l = level(line, along(round_nose(3), 2), 2, 0);
    ck_near(l.footprint_mm2 + l.border_mm + l.widest_mm + l.deepest_mm, 0, 0);
    ck_near(l.lost, 1, 0);
    runnel_levelled_clear(&l);
    runnel_shape_free(line);
    /* A pocket keeps its outline: 60 x 40 less the corners (1 - pi/4) r^2 each, 2392.2743, border
     * 194.84956 (mensuration). */
    runnel_shape *shape = rectangle(60, 40);
    l = level(shape, pocket(flat_end(3), 5), 4.9, 0);
    ck_near_or(l.footprint_mm2, 2392.2743, 0, 6e-5);
    ck_near_or(l.border_mm, 194.84956, 0, 6e-6);
    ck_near(l.lost, 0, 1e-15);
    ck_near(l.narrowest_mm, 40, 1e-12);
    runnel_levelled_clear(&l);
    l = level(shape, pocket(flat_end(3), 5), 5, 0);
    ck_near(l.lost, 1, 0);
    ck_near(l.footprint_mm2, 0, 0);
    ck_assert_uint_eq(l.gone_count, 1);
    runnel_levelled_clear(&l);
    /* by a round nose of 3, 2 deep, 0.8 off: 0.4284271 in from each side, corners of radius 2.4 */
    l = level(shape, pocket(round_nose(3), 2), 0.8, 0);
    double w = 60 - 0.8568542495, h = 40 - 0.8568542495;
    ck_near(l.footprint_mm2, w * h - (4 - PI) * 2.4 * 2.4, 1e-10);
    ck_near(l.border_mm, 2 * (w + h) - (8 - 2 * PI) * 2.4, 1e-10);
    ck_near(l.narrowest_mm, h, 1e-10);
    runnel_levelled_clear(&l);
    runnel_shape_free(shape);
    /* a bar too thin for the cutter was never there */
    shape = hairlines();
    l = level(shape, pocket(flat_end(0.42), 2), 2, 0);
    ck_assert_uint_eq(l.gone_count, 1);
    ck_near(l.narrowest_mm, 0, 0);
    runnel_levelled_clear(&l);
    l = level(shape, pocket(flat_end(0.42), 2), 1, 0);
    ck_assert_uint_eq(l.stroke_count, 0);
    ck_near(l.narrowest_mm, 0, 0);
    runnel_levelled_clear(&l);
    runnel_shape_free(shape);
}
END_TEST

/* Sharp walls: the border is how fast the footprint goes, dA = -border x tan(half the angle) dr.
 * With a tip: of one set of centres, how fast it grows with the tip's radius, dA = border d rho. */
START_TEST(border_is_the_slope_of_the_area) {
    chance c = {9};
    const double e = 1e-4;
    for (int i = 0; i < 60; i++) {
        runnel_contours contours = {0};
        add_star(&contours, &c, 0, 0, 5, 9, 5 + chance_below(&c, 12));
        runnel_shape *shape = outline_of(&contours);
        double angle = chance_between(&c, 20, 120), tangent = tan(angle * PI / 360);
        double face = chance_between(&c, 0.05, 0.6) / tangent;
        runnel_levelled l = level(shape, walls(angle, 0), face, 0);
        double fall = section_of(shape, walls(angle, 0), face - e) -
                      section_of(shape, walls(angle, 0), face + e);
        /* a corner of the outline may run out within the step */
        ck_near(l.border_mm * tangent, fall / (2 * e), 1e-5);
        runnel_levelled_clear(&l);
        double rho = 0.2, lack = e / tangent;
        l = level(shape, walls_tip(angle, 2 * rho, 0), face, 0);
        double rise = section_of(shape, walls_tip(angle, 2 * (rho + e), 0), face - lack) -
                      section_of(shape, walls_tip(angle, 2 * (rho - e), 0), face + lack);
        ck_near(l.border_mm, rise / (2 * e), 1e-5);
        runnel_levelled_clear(&l);
        runnel_shape_free(shape);
    }
}
END_TEST

START_TEST(a_tip_rounds_the_corners) {
    /* 60 x 40 at 90 degrees with a tip 1 mm wide, 3 off: 54 x 34 with corners of radius 0.5. */
    runnel_shape *shape = rectangle(60, 40);
    runnel_levelled l = level(shape, walls_tip(90, 1, 0), 3, 0);
    ck_near(l.footprint_before_mm2, 2400 - (4 - PI) * 0.25, 1e-12);
    ck_near(l.footprint_mm2, 1836 - (4 - PI) * 0.25, 1e-12);
    ck_near(l.border_before_mm, 200 - (8 - 2 * PI) * 0.5, 1e-12);
    ck_near(l.border_mm, 176 - (8 - 2 * PI) * 0.5, 1e-12);
    ck_near(l.widest_mm, 34, 1e-13);
    runnel_levelled_clear(&l);
    runnel_shape_free(shape);
}
END_TEST

/* More off the face never leaves more. */
START_TEST(more_off_leaves_less) {
    chance c = {10};
    for (int i = 0; i < 40; i++) {
        runnel_contours contours = {0};
        add_star(&contours, &c, 0, 0, 0.5, 9, 5 + chance_below(&c, 12));
        runnel_shape *shape = outline_of(&contours);
        double footprint = INFINITY, widest = INFINITY, lost = 0;
        for (double face = 0; face < 16.5; face += 0.55) {
            runnel_levelled l = level(shape, walls(60, 0), face, 0.2);
            ck_assert(l.footprint_mm2 <= footprint && l.widest_mm <= widest && l.lost >= lost);
            ck_assert(l.gone_count <= l.stroke_count);
            ck_near_or(l.lost, 1 - l.footprint_mm2 / l.footprint_before_mm2, 1e-12, 1e-12);
            footprint = l.footprint_mm2;
            widest = l.widest_mm;
            lost = l.lost;
            runnel_levelled_clear(&l);
        }
        ck_near(lost, 1, 0);
        runnel_shape_free(shape);
    }
}
END_TEST

/* Each stroke of a text that goes lies in the box of one of its letters, and is thin enough. */
START_TEST(letters_of_a_text) {
    runnel_text text = {.text = "Zo\xC3\xAB HILL",
                        .font = "/usr/share/fonts/opentype/ebgaramond/EBGaramond12-Regular.otf",
                        .cap_height_mm = 12};
    runnel_lettering set = {0};
    runnel_shape *shape = NULL;
    ck_assert_int_eq(runnel_lettering_set(&text, NULL, NULL, &set), RUNNEL_OK);
    ck_assert_int_eq(runnel_shape_outline(&set.contours, NULL, &shape), RUNNEL_OK);
    runnel_levelled l = level(shape, walls(60, 0), 0.5, 0);
    ck_assert_uint_gt(l.gone_count, 5);
    ck_assert_uint_lt(l.gone_count, 100);
    ck_assert_uint_eq(l.gone_count, l.stroke_count);
    size_t letters = 0;
    for (size_t i = 0; i < l.stroke_count; i++) {
        const runnel_level_stroke *s = &l.strokes[i];
        size_t held = 0;
        for (size_t k = 0; k < set.cluster_count; k++) {
            const runnel_box *b = &set.clusters[k].box;
            held += s->at.x_mm >= b->min_x_mm && s->at.x_mm <= b->max_x_mm &&
                    s->at.y_mm >= b->min_y_mm && s->at.y_mm <= b->max_y_mm;
        }
        letters += held == 1;
        ck_assert(s->before_mm <= 0.57736 && s->before_mm > 0);
        ck_near(s->after_mm, 0, 0);
    }
    ck_assert_uint_eq(letters, l.stroke_count);
    ck_assert(l.lost > 0.2 && l.lost < 0.9);
    runnel_levelled_clear(&l);
    runnel_shape_free(shape);
    runnel_lettering_clear(&set);
}
END_TEST

START_TEST(cavity_refusals) {
    runnel_shape *shape = rectangle(60, 40);
    runnel_cut cut = walls(60, 0), bad = along(round_nose(3), 2), pit = pocket(flat_end(3), 2);
    runnel_levelled l = level(shape, cut, 1, 100);
    double length = 7;
    runnel_thin_strokes strokes = {0};
    ck_assert_uint_eq(l.stroke_count, 1);
    for (size_t i = 0; i < COUNT(broken); i++) {
        ck_assert_int_eq(runnel_level_cavity(shape, &cut, broken[i], 0, &l), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_level_cavity(shape, &cut, 1, broken[i], &l), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_cavity_thin_strokes(shape, &cut, 1, broken[i], &strokes),
                         RUNNEL_E_RANGE);
    }
    ck_assert_int_eq(runnel_level_cavity(shape, &bad, 1, 0, &l), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_cavity_border(shape, &bad, 1, &length), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_cavity_border(shape, &cut, -1, &length), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_cavity_border(shape, &cut, NAN, &length), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_cavity_thin_strokes(shape, &cut, -1, 0, &strokes), RUNNEL_E_RANGE);
    ck_assert_uint_eq(l.stroke_count, 1);
    ck_near(length, 7, 0);
    ck_assert_uint_eq(strokes.count, 0);
    /* below the floor there is no edge; above it a pocket keeps all strokes */
    ck_assert_int_eq(runnel_cavity_border(shape, &pit, 2.1, &length), RUNNEL_OK);
    ck_near(length, 0, 0);
    ck_assert_int_eq(runnel_cavity_thin_strokes(shape, &pit, 1, 0, &strokes), RUNNEL_OK);
    ck_assert_uint_eq(strokes.count, 0);
    runnel_levelled_clear(&l);
    ck_assert_ptr_null(l.strokes);
    runnel_shape_free(shape);
}
END_TEST

START_TEST(memory_runs_out) {
    bool failed = true;
    for (size_t fail_at = 0; failed; fail_at++) {
        runnel_shape *shape = hairlines();
        failing count = {.fail_at = fail_at};
        runnel_levelled l = {.face_mm = 7};
        runnel_cut cut = walls(60, 0);
        start_failing(&count);
        runnel_status status = runnel_level_cavity(shape, &cut, 0.7, 0.1, &l);
        failed = count.calls > fail_at;
        ck_assert_int_eq(status, failed ? RUNNEL_E_NO_MEMORY : RUNNEL_OK);
        ck_near(l.face_mm, failed ? 7 : 0.7, 0);
        runnel_levelled_clear(&l);
        runnel_set_allocator(NULL);
        runnel_shape_free(shape);
        ck_assert(failed || fail_at > 10);
    }
}
END_TEST

int main(void) {
    const TTest *const tests[] = {a_rectangle_is_inset,     a_triangle_is_inset,
                                  a_tip_rounds_the_corners, hairlines_vanish,
                                  grooves_and_pockets,      border_is_the_slope_of_the_area,
                                  more_off_leaves_less,     letters_of_a_text,
                                  cavity_refusals,          memory_runs_out};
    Suite *suite = suite_create("levelled");
    TCase *cases = tcase_create("levelled");
    tcase_set_timeout(cases, 120);
    for (size_t i = 0; i < COUNT(tests); i++)
        tcase_add_test(cases, tests[i]);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
