/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strokes that an inset leaves nothing of: which, where, how long. */
#include "failing.h"
#include "runnel/profile.h"
#include "solids.h"

#include <stdlib.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

/* The union's profile; the contours are cleared. */
static runnel_profile *inside_of(runnel_contours *contours) {
    runnel_contours region = {0};
    runnel_profile *profile = NULL;
    ck_assert_int_eq(runnel_outline_union(contours, &region), RUNNEL_OK);
    runnel_contours_clear(contours);
    ck_assert_int_eq(runnel_profile_inside(&region, &profile), RUNNEL_OK);
    runnel_contours_clear(&region);
    return profile;
}

static runnel_thin_strokes thin(const runnel_profile *profile, double from, double below) {
    runnel_thin_strokes strokes = {0};
    ck_assert_int_eq(runnel_profile_thin_strokes(profile, from, below, &strokes), RUNNEL_OK);
    return strokes;
}

static size_t count_of(const runnel_profile *profile, double from, double below) {
    runnel_thin_strokes strokes = thin(profile, from, below);
    size_t count = strokes.count;
    runnel_thin_strokes_clear(&strokes);
    return count;
}

static void check_stroke(const runnel_thin_stroke *s, double width, double length, double x,
                         double y, double slack) {
    ck_near_or(s->width_mm, width, 1e-12, 1e-12);
    ck_near_or(s->length_mm, length, 1e-9, 1e-9);
    ck_near_or(s->at.x_mm, x, 0, slack);
    ck_near_or(s->at.y_mm, y, 0, slack);
}

START_TEST(a_hairline) {
    /* 100 x 0.8: the centre line of the walls runs from 0.4 to 99.6. */
    runnel_contours contours = {0};
    add_rectangle(&contours, 0, 0, 100, 0.8);
    runnel_profile *profile = inside_of(&contours);
    runnel_thin_strokes strokes = thin(profile, 0, 0.4 + 1e-9);
    ck_assert_uint_eq(strokes.count, 1);
    check_stroke(&strokes.items[0], 0.8, 99.2, 50, 0.4, 49.7);
    ck_near(strokes.items[0].at.y_mm, 0.4, 1e-12);
    runnel_thin_strokes_clear(&strokes);
    runnel_thin_strokes_clear(NULL);
    ck_assert_uint_eq(count_of(profile, 0, 0.4 - 1e-9), 0);
    ck_assert_uint_eq(count_of(profile, 0, 0), 0);
    /* narrower than what is cut at all: not there */
    ck_assert_uint_eq(count_of(profile, 0.41, 0.5), 0);
    ck_assert_uint_eq(count_of(profile, 0.4 - 1e-9, 0.5), 1);
    runnel_profile_free(profile);
}
END_TEST

START_TEST(strokes_of_a_letter) {
    /* An H of two stems 10 wide and 60 high with a bar 0.8 thick and 20 long between them, at half
     * height; with a dot 0.5 square and one 3 square beside it. */
    runnel_contours contours = {0};
    add_rectangle(&contours, 0, 0, 10, 60);
    add_rectangle(&contours, 30, 0, 10, 60);
    add_rectangle(&contours, 5, 29.6, 30, 0.8);
    add_rectangle(&contours, 50, 0, 0.5, 0.5);
    add_rectangle(&contours, 60, 0, 3, 3);
    runnel_profile *profile = inside_of(&contours);
    /* At each end of the bar the middle goes on between the two corners: m = sqrt(0.16 + x^2) is
     * 0.401 at x = 0.0283019 by hand. */
    runnel_thin_strokes strokes = thin(profile, 0, 0.401);
    ck_assert_uint_eq(strokes.count, 2);
    bool bar_first = strokes.items[0].length_mm > 0;
    const runnel_thin_stroke *bar = &strokes.items[bar_first ? 0 : 1];
    const runnel_thin_stroke *dot = &strokes.items[bar_first ? 1 : 0];
    ck_near(bar->width_mm, 0.8, 1e-12);
    ck_near_or(bar->length_mm, 20 + 2 * 0.0283019, 0, 3e-7);
    ck_assert(bar->at.x_mm >= 10 && bar->at.x_mm <= 30);
    ck_near(bar->at.y_mm, 30, 1e-12);
    check_stroke(dot, 0.5, 0, 50.25, 0.25, 1e-9);
    runnel_thin_strokes_clear(&strokes);
    ck_assert_uint_eq(count_of(profile, 0, 0.3), 1);
    ck_assert_uint_eq(count_of(profile, 0, 0.24), 0);
    ck_assert_uint_eq(count_of(profile, 0, 1.6), 3);
    ck_assert_uint_eq(count_of(profile, 0, INFINITY), 3);
    runnel_profile_free(profile);
}
END_TEST

START_TEST(a_taper) {
    /* 40 long, 0.5 wide at one end and 2 at the other. With k = 0.75/40 and cos b = 1/sqrt(1 + k^2)
     * = 0.99982427 by hand: the disc in the narrow end touches three sides, m = x = 0.25 cos b/(1 -
     * k cos b) = 0.254731; m reaches 0.5 at x = (0.5/cos b - 0.25)/k = 13.338020. */
    runnel_contours contours = {0};
    add_ring(&contours, 0, -0.25, 40, -1, 40, 1, 0, 0.25);
    runnel_profile *profile = inside_of(&contours);
    runnel_thin_strokes strokes = thin(profile, 0, 0.5);
    ck_assert_uint_eq(strokes.count, 1);
    ck_near_or(strokes.items[0].width_mm, 2 * 0.254731, 0, 2e-6);
    ck_near_or(strokes.items[0].length_mm, 13.338020 - 0.254731, 0, 2e-6);
    ck_near_or(strokes.items[0].at.x_mm, 0.254731, 0, 1e-6);
    runnel_thin_strokes_clear(&strokes);
    /* of that only what is at least 0.4 wide on either side: from (0.4/cos b - 0.25)/k = 8.003749
     */
    strokes = thin(profile, 0.4, 0.5);
    ck_assert_uint_eq(strokes.count, 1);
    ck_near(strokes.items[0].width_mm, 0.8, 1e-12);
    ck_near_or(strokes.items[0].length_mm, 13.338020 - 8.003749, 0, 2e-6);
    ck_near_or(strokes.items[0].at.x_mm, 8.003749, 0, 1e-6);
    runnel_thin_strokes_clear(&strokes);
    runnel_profile_free(profile);
}
END_TEST

/* A ring of constant width, its circles as polygons: one stroke, whatever the many corners. */
START_TEST(a_ring) {
    enum { CORNERS = 180 };
    runnel_contours contours = {0}, hole = {0};
    add_regular(&contours, 5, 7, 20, CORNERS, 0);
    add_regular(&hole, 5, 7, 19, CORNERS, 0);
    /* the hole clockwise */
    ck_assert_int_eq(runnel_contours_begin(&contours, true), RUNNEL_OK);
    for (size_t i = hole.point_count; i-- > 0;)
        ck_assert_int_eq(runnel_contours_add(&contours, hole.points[i].x_mm, hole.points[i].y_mm),
                         RUNNEL_OK);
    runnel_contours_clear(&hole);
    runnel_profile *profile = inside_of(&contours);
    runnel_thin_strokes strokes = thin(profile, 0, 0.51);
    ck_assert_uint_eq(strokes.count, 1);
    /* between the sides of the polygons: the difference of their apothems, cos(1 degree) */
    ck_near(strokes.items[0].width_mm, cos(PI / CORNERS), 1e-12);
    ck_near(strokes.items[0].length_mm, 2 * PI * 19.5, 1e-3);
    ck_near(hypot(strokes.items[0].at.x_mm - 5, strokes.items[0].at.y_mm - 7), 19.5, 1e-3);
    runnel_thin_strokes_clear(&strokes);
    ck_assert_uint_eq(count_of(profile, 0, 0.499), 0);
    runnel_profile_free(profile);
}
END_TEST

START_TEST(arms_of_a_cross) {
    /* Two bars 0.8 wide that cross: in the middle a disc of 0.4 sqrt(2) = 0.566 has room, so the
     * four arms vanish one by one before. */
    runnel_contours contours = {0};
    add_rectangle(&contours, -10, -0.4, 20, 0.8);
    add_rectangle(&contours, -0.4, -10, 0.8, 20);
    runnel_profile *profile = inside_of(&contours);
    runnel_thin_strokes strokes = thin(profile, 0, 0.4 + 1e-9);
    ck_assert_uint_eq(strokes.count, 4);
    for (size_t i = 0; i < 4; i++) {
        /* from 0.4 off the end to 0.4 off the middle, where the corners come in */
        ck_near_or(strokes.items[i].length_mm, 9.2, 0, 1e-4);
        ck_near(strokes.items[i].width_mm, 0.8, 1e-9);
    }
    runnel_thin_strokes_clear(&strokes);
    ck_assert_uint_eq(count_of(profile, 0, 0.56), 4);
    ck_assert_uint_eq(count_of(profile, 0, 0.57), 1);
    runnel_profile_free(profile);
}
END_TEST

START_TEST(corners_alone_do_not_count) {
    /* A right angle and a needle of 20 degrees: whatever an inset takes off their tips, the shape
     * itself stays until its inscribed circle is gone. */
    runnel_contours contours = {0};
    add_ring(&contours, 0, 0, 30, 0, 0, 30 * tan(PI / 9));
    runnel_profile *profile = inside_of(&contours);
    /* inradius = (a + b - c)/2, with a 30, b 30 tan 20 deg = 10.9191, c 30/cos 20 deg = 31.9253 */
    double inradius = 0.5 * (30 + 10.919107 - 31.925334);
    ck_assert_uint_eq(count_of(profile, 0, 0.99 * inradius), 0);
    runnel_thin_strokes strokes = thin(profile, 0, 1.01 * inradius);
    ck_assert_uint_eq(strokes.count, 1);
    ck_near(strokes.items[0].width_mm, 2 * inradius, 1e-6);
    ck_near_or(strokes.items[0].length_mm, 0, 0, 1e-9);
    ck_near_or(strokes.items[0].at.x_mm, inradius, 0, 1e-5);
    ck_near_or(strokes.items[0].at.y_mm, inradius, 0, 1e-5);
    runnel_thin_strokes_clear(&strokes);
    runnel_profile_free(profile);
}
END_TEST

START_TEST(exact_shapes) {
    /* width, height, radius; length of the one stroke: the longer side less the shorter one */
    static const double rows[][4] = {
        {20, 3, 1.5, 17}, {20, 3, 0.5, 17}, {3, 20, 1.5, 17}, {3, 3, 1.5, 0}, {3, 3, 1, 0}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        const double *r = rows[i];
        runnel_profile *profile = NULL;
        ck_assert_int_eq(
            runnel_profile_rounded_rectangle(r[0], r[1], r[2], RUNNEL_SIDE_INSIDE, 0, &profile),
            RUNNEL_OK);
        runnel_thin_strokes strokes = thin(profile, 0, 1.5);
        ck_assert_uint_eq(strokes.count, 1);
        check_stroke(&strokes.items[0], 3, r[3], r[0] / 2, r[1] / 2, 1e-12);
        runnel_thin_strokes_clear(&strokes);
        ck_assert_uint_eq(count_of(profile, 0, 1.499), 0);
        ck_assert_uint_eq(count_of(profile, 1.501, 2), 0);
        runnel_profile_free(profile);
    }
}
END_TEST

static double length_of(const runnel_thin_strokes *strokes) {
    double sum = 0;
    for (size_t i = 0; i < strokes->count; i++)
        sum += strokes->items[i].length_mm;
    return sum;
}

/* Turned and scaled shapes have the same strokes; a larger limit finds no less; when nothing is
 * left beyond the limit, each part of the region is listed, and never before. */
START_TEST(random_shapes) {
    chance c = {77};
    size_t found = 0;
    for (int round = 0; round < 200; round++) {
        runnel_contours contours = {0}, turned = {0};
        size_t parts = 1 + chance_below(&c, 3);
        for (size_t i = 0; i < parts; i++)
            add_star(&contours, &c, 30 * (double)i, 0, 0.4, 9, 5 + chance_below(&c, 20));
        add_turned(&turned, &contours, chance_between(&c, 0, 6), 2, 11, -3);
        runnel_profile *one = inside_of(&contours), *other = inside_of(&turned);
        double longest = 0, widest = runnel_profile_widest(one, NULL);
        for (int step = 1; step <= 12; step++) {
            double t = widest * (0.1 * step + 0.013);
            runnel_thin_strokes a = thin(one, 0, t), b = thin(other, 0, 2 * t);
            ck_assert_uint_eq(a.count, b.count);
            ck_near_or(length_of(&b), 2 * length_of(&a), 1e-6, 1e-6);
            ck_assert(length_of(&a) >= longest - 1e-9);
            longest = length_of(&a);
            for (size_t i = 0; i < a.count; i++)
                ck_assert(a.items[i].width_mm <= 2 * t && a.items[i].width_mm > 0);
            if (t > widest)
                ck_assert_uint_eq(a.count, parts);
            ck_assert(t > widest || runnel_profile_beyond_mm2(one, t) > 0);
            found += a.count;
            runnel_thin_strokes_clear(&a);
            runnel_thin_strokes_clear(&b);
        }
        ck_assert_uint_eq(count_of(one, 0, INFINITY), parts);
        runnel_profile_free(one);
        runnel_profile_free(other);
    }
    ck_assert_uint_gt(found, 1000);
}
END_TEST

START_TEST(refusals) {
    runnel_contours contours = {0};
    add_rectangle(&contours, 0, 0, 10, 1);
    runnel_profile *profile = NULL, *outside = NULL;
    ck_assert_int_eq(runnel_profile_outside(&contours, 5, &outside), RUNNEL_OK);
    ck_assert_int_eq(runnel_profile_inside(&contours, &profile), RUNNEL_OK);
    runnel_contours_clear(&contours);
    runnel_thin_strokes strokes = thin(profile, 0, 1);
    ck_assert_int_eq(runnel_profile_thin_strokes(outside, 0, 1, &strokes), RUNNEL_E_RANGE);
    static const double bad[][2] = {{-1, 1}, {NAN, 1}, {0, NAN}, {1, 0.5}, {0, -1}};
    for (size_t i = 0; i < COUNT(bad); i++)
        ck_assert_int_eq(runnel_profile_thin_strokes(profile, bad[i][0], bad[i][1], &strokes),
                         RUNNEL_E_RANGE);
    ck_assert_uint_eq(strokes.count, 1);
    ck_near(strokes.items[0].width_mm, 1, 1e-12);
    runnel_thin_strokes_clear(&strokes);
    ck_assert_ptr_null(strokes.items);
    runnel_profile_free(profile);
    runnel_profile_free(outside);
}
END_TEST

START_TEST(memory_runs_out) {
    chance c = {5};
    runnel_contours contours = {0};
    for (int i = 0; i < 10; i++)
        add_star(&contours, &c, 30.0 * i, 0, 1, 9, 25);
    runnel_profile *profile = inside_of(&contours);
    size_t all = count_of(profile, 0, INFINITY);
    ck_assert_uint_eq(all, 10);
    bool failed = true;
    for (size_t fail_at = 0; failed; fail_at++) {
        failing count = {.fail_at = fail_at};
        runnel_thin_strokes strokes = {0};
        start_failing(&count);
        runnel_status status = runnel_profile_thin_strokes(profile, 0, INFINITY, &strokes);
        failed = count.calls > fail_at;
        ck_assert_int_eq(status, failed ? RUNNEL_E_NO_MEMORY : RUNNEL_OK);
        ck_assert_uint_eq(strokes.count, failed ? 0 : all);
        runnel_thin_strokes_clear(&strokes);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
        ck_assert(failed || fail_at > 5);
    }
    runnel_profile_free(profile);
}
END_TEST

int main(void) {
    const TTest *const tests[] = {a_hairline,     strokes_of_a_letter, a_taper,
                                  a_ring,         arms_of_a_cross,     corners_alone_do_not_count,
                                  exact_shapes,   random_shapes,       refusals,
                                  memory_runs_out};
    Suite *suite = suite_create("narrowing");
    TCase *cases = tcase_create("narrowing");
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
