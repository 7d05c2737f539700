/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Traced borders of sections. Areas and lengths are the mensuration of insets, of offsets and of
 * discs swept along them, worked by hand; each vertex is also held against its distance from the
 * boundary, measured to every segment.
 */
#include "shape/trace.h"

#include "failing.h"
#include "shape/pieces.h"
#include "solids.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

/** So fine that what chords take from an area is below 1e-7 mm for each mm of arc. */
static const double chord_mm = 1e-7;

static runnel_contours list, rings;

static void setup(void) {
    runnel_contours_init(&list);
    runnel_contours_init(&rings);
}

static void teardown(void) {
    runnel_contours_clear(&list);
    runnel_contours_clear(&rings);
}

static runnel_profile *inside(void) {
    runnel_profile *profile = NULL;
    ck_assert_int_eq(runnel_profile_inside(&list, &profile), RUNNEL_OK);
    return profile;
}

static runnel_profile *outside(double reach_mm) {
    runnel_profile *profile = NULL;
    ck_assert_int_eq(runnel_profile_outside(&list, reach_mm, &profile), RUNNEL_OK);
    return profile;
}

static runnel_profile *around(double reach_mm) {
    runnel_profile *profile = NULL;
    ck_assert_int_eq(runnel_path_node(&list, &list), RUNNEL_OK);
    ck_assert_int_eq(runnel_profile_path(&list, reach_mm, &profile), RUNNEL_OK);
    return profile;
}

static void draw(const runnel_profile *profile, double in_mm, double out_mm) {
    runnel_status status = runnel_profile_trace(profile, in_mm, out_mm, chord_mm, &rings);
    ck_assert_msg(status == RUNNEL_OK, "in %g, out %g: %s", in_mm, out_mm,
                  runnel_status_name(status));
}

/* The way round all rings. */
static double length_of(const runnel_contours *contours) {
    double sum = 0;
    for (size_t i = 0; i < contours->count; i++) {
        const runnel_contour *ring = &contours->items[i];
        ck_assert(ring->closed);
        ck_assert_uint_ge(ring->count, 3);
        const runnel_point *p = contours->points + ring->first;
        for (size_t k = 0; k < ring->count; k++) {
            const runnel_point *q = &p[(k + 1) % ring->count];
            sum += hypot(q->x_mm - p[k].x_mm, q->y_mm - p[k].y_mm);
        }
    }
    return sum;
}

static void check_rings(size_t count, double area_mm2, double border_mm) {
    ck_assert_uint_eq(rings.count, count);
    ck_near_or(runnel_contours_area(&rings), area_mm2, 1e-9, chord_mm * border_mm);
    ck_near(length_of(&rings), border_mm, 1e-6);
}

/* Draws a section and checks how many rings it has, what they enclose and how long they are. */
static void check(const runnel_profile *profile, double in_mm, double out_mm, size_t count,
                  double area_mm2, double border_mm) {
    draw(profile, in_mm, out_mm);
    check_rings(count, area_mm2, border_mm);
}

static double to_segment(runnel_point p, runnel_point a, runnel_point b) {
    double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm, px = p.x_mm - a.x_mm, py = p.y_mm - a.y_mm;
    double share = fmin(1, fmax(0, (px * dx + py * dy) / (dx * dx + dy * dy)));
    return hypot(px - share * dx, py - share * dy);
}

/* Each point of the rings stands as far from the lines of the list as it should. */
static void check_distances(double distance_mm) {
    for (size_t i = 0; i < rings.point_count; i++) {
        double least = INFINITY;
        for (size_t c = 0; c < list.count; c++) {
            const runnel_contour *line = &list.items[c];
            const runnel_point *p = list.points + line->first;
            for (size_t k = 0; k + (line->closed ? 0 : 1) < line->count; k++)
                least = fmin(least, to_segment(rings.points[i], p[k], p[(k + 1) % line->count]));
        }
        ck_near_or(least, distance_mm, 0, 1e-9);
    }
}

/* --- insides --- */

START_TEST(a_square) {
    add_rectangle(&list, 5, -7, 10, 10);
    runnel_profile *p = inside();
    check(p, 0, 0, 1, 100, 40);
    ck_assert_uint_eq(rings.point_count, 4);
    check(p, 2, 0, 1, 36, 24);
    ck_assert_uint_eq(rings.point_count, 4);
    check_distances(2);
    /* the square 6 x 6 grown by a disc: sides, quarter discs */
    check(p, 2, 1, 1, 36 + 24 + PI, 24 + 2 * PI);
    /* what a disc of radius 2 can reach: the corners' gussets are missing */
    check(p, 2, 2, 1, 100 - (4 - PI) * 4, 24 + 4 * PI);
    check(p, 4.999, 0, 1, 4e-6, 0.008);
    check(p, 5, 5, 1, 25 * PI, 10 * PI);
    runnel_profile_free(p);
}
END_TEST

START_TEST(chords) {
    /* a quarter turn at most, however coarse: a triangle off each corner */
    add_rectangle(&list, 0, 0, 10, 10);
    runnel_profile *p = inside();
    ck_assert_int_eq(runnel_profile_trace(p, 2, 1, 100, &rings), RUNNEL_OK);
    ck_assert_uint_eq(rings.point_count, 8);
    ck_near(runnel_contours_area(&rings), 36 + 24 + 4 * 0.5, 1e-9);
    ck_near(rings.flatten_mm, 100, 0);
    /* n chords over a circle of radius 1 stand off by 1 - cos(pi/n): 24 keep 0.01, as 20 would
     * not do with 5 a quarter: 1 - cos(pi/20) = 0.0123, 1 - cos(pi/24) = 0.0086 */
    ck_assert_int_eq(runnel_profile_trace(p, 2, 1, 0.01, &rings), RUNNEL_OK);
    ck_assert_uint_eq(rings.point_count, 28);
    ck_near(runnel_contours_area(&rings), 36 + 24 + 0.5 * 24 * sin(PI / 12), 1e-9);
    runnel_profile_free(p);
}
END_TEST

START_TEST(an_l) {
    add_ring(&list, 0, 0, 60, 0, 60, 30, 30, 30, 30, 60, 0, 60);
    runnel_profile *p = inside();
    for (double t = 1; t < 15; t += 3) {
        /* five corners of 90 degrees, the reflex one a quarter circle */
        double left = 2700 - 240 * t + (5 - PI / 4) * t * t, border = 240 - 10 * t + PI / 2 * t;
        check(p, t, 0, 1, left, border);
        check_distances(t);
        /* grown by t/2, the reflex corner's arc shrinks: 5 quarter discs and a band of half-width
         */
        double out = t / 2;
        check(p, t, out, 1,
              left + out * (240 - 10 * t) + PI / 4 * (t * t - (t - out) * (t - out)) +
                  5 * PI / 4 * out * out,
              240 - 10 * t + PI / 2 * (t - out) + 5 * PI / 2 * out);
    }
    /* beyond the arms only the elbow is left, between both outer sides and the reflex corner: the
     * square from (t, t) to the arc of radius t about (30, 30), which cuts its sides where
     * (30 - x)^2 = t^2 - (30 - t)^2 */
    double t = 16, w = sqrt(t * t - 14 * 14), reach = 30 - w - t;
    draw(p, t, 0);
    ck_assert_uint_eq(rings.count, 1);
    check_distances(t);
    ck_near(runnel_contours_box(&rings).max_x_mm, t + reach, 1e-9);
    ck_near(runnel_contours_box(&rings).max_y_mm, t + reach, 1e-9);
    double r = 30 * sqrt(2) / (1 + sqrt(2)); /* the largest disc */
    draw(p, r * (1 - 1e-6), 0);
    check_distances(r * (1 - 1e-6));
    ck_assert_int_eq(runnel_profile_trace(p, r * (1 + 1e-6), 0, chord_mm, &rings), RUNNEL_E_SHAPE);
    runnel_profile_free(p);
}
END_TEST

START_TEST(a_frame_and_a_ring) {
    add_rectangle(&list, 0, 0, 100, 80);
    add_rectangle(&list, 30, 20, 40, -40);
    runnel_profile *p = inside();
    double t = 4;
    check(p, t, 0, 2, 92 * 72 - (1600 + 160 * t + PI * t * t), 2 * (92 + 72) + 160 + 2 * PI * t);
    check_distances(t);
    double hole = 0, outer = 0;
    for (size_t i = 0; i < 2; i++) {
        runnel_contours one = {
            .points = rings.points, .point_count = rings.point_count, .items = &rings.items[i]};
        one.count = 1;
        double area = runnel_contours_area(&one);
        *(area < 0 ? &hole : &outer) = area;
    }
    ck_near(outer, 92 * 72, 1e-9); /* counter-clockwise */
    ck_near(hole, -(1600 + 160 * t + PI * t * t), 1e-9);
    /* past 10 the sides above and below the hole are gone: two parts */
    draw(p, 11, 0);
    ck_assert_uint_eq(rings.count, 2);
    check_distances(11);
    ck_assert_double_gt(runnel_contours_area(&rings), 0);
    runnel_profile_free(p);
    /* two polygons about one centre, many-sided: n r^2 tan(pi/n) by the inner radius r */
    runnel_contours_clear(&list);
    size_t n = 64;
    double k = (double)n * tan(PI / (double)n), half = cos(PI / (double)n);
    add_regular(&list, 0, 0, 30 / half, n, 0.1);
    add_regular(&list, 0, 0, 10 / half, n, 0.1);
    for (size_t i = 0; i < n / 2; i++) { /* the hole runs clockwise */
        runnel_point *one = &list.points[n + i], *other = &list.points[2 * n - 1 - i], swap = *one;
        *one = *other;
        *other = swap;
    }
    p = inside();
    for (t = 0.5; t < 10; t += 2) {
        double r = 30 - t;
        check(p, t, 0, 2, k * r * r - (k * 100 + 2 * k * 10 * t + PI * t * t),
              2 * k * r + 2 * k * 10 + 2 * PI * t);
        check_distances(t);
    }
    ck_assert_int_eq(runnel_profile_trace(p, 10.1, 0, chord_mm, &rings), RUNNEL_E_SHAPE);
    runnel_profile_free(p);
}
END_TEST

START_TEST(a_slot_as_wide_as_the_disc) {
    /* walls just as far apart as the disc is wide: it goes along all of it, and nothing is left of
     * the inset but a line */
    add_rectangle(&list, 0, 0, 100, 0.8);
    runnel_profile *p = inside();
    check(p, 0.4, 0.4, 1, 99.2 * 0.8 + PI * 0.16, 2 * 99.2 + 0.8 * PI);
    check(p, 0.4, 0.1, 1, 99.2 * 0.2 + PI * 0.01, 2 * 99.2 + 0.2 * PI);
    ck_assert_int_eq(runnel_profile_trace(p, 0.4 + 1e-9, 0.4, chord_mm, &rings), RUNNEL_E_SHAPE);
    runnel_profile_free(p);
}
END_TEST

/* A cross of two bars of half-width 1 and half-length 10. */
static void add_cross(void) {
    add_ring(&list, -1, -10, 1, -10, 1, -1, 10, -1, 10, 1, 1, 1, 1, 10, -1, 10, -1, 1, -10, 1, -10,
             -1, -1, -1);
}

START_TEST(levels_of_corners_of_the_axis) {
    /* a disc of radius 1 just goes along the arms, which are gone past it; the star in the middle,
     * between arcs of radius t about (1, 1) and its like, is gone at the root of 2, where all meet
     */
    add_cross();
    runnel_profile *p = inside();
    check(p, 1, 1, 1, 2 * 18 * 2 + 2 * PI - 4, 4 * 16 + 4 * PI);
    draw(p, 1 + 1e-6, 0);
    ck_assert_uint_eq(rings.count, 1);
    check_distances(1 + 1e-6);
    /* a square of 2 x 2 less four quarter discs of radius 1 */
    ck_near_or(runnel_contours_area(&rings), 4 - PI, 0, 1e-4);
    draw(p, sqrt(2) * (1 - 1e-9), 0.5);
    ck_near_or(runnel_contours_area(&rings), PI / 4, 0, 1e-6);
    draw(p, sqrt(2), 0.5);
    ck_near_or(runnel_contours_area(&rings), PI / 4, 0, 1e-4);
    runnel_profile_free(p);
    /* all corners of a regular polygon meet in its middle */
    for (size_t n = 3; n < 40; n++) {
        runnel_contours_clear(&list);
        add_regular(&list, 3, 4, 10, n, 0.7);
        p = inside();
        double r = 10 * cos(PI / (double)n);
        check(p, r, r, 1, PI * r * r, 2 * PI * r);
        ck_assert_int_eq(runnel_profile_trace(p, r * (1 + 1e-9), 0, chord_mm, &rings),
                         RUNNEL_E_SHAPE);
        runnel_profile_free(p);
    }
}
END_TEST

START_TEST(levels_that_rounding_decides) {
    /* The cross turned, so that walls of one arm have rounding of their own, at levels which a disc
     * that fits, as fits are counted, meets to the last digit. What is left is the star. */
    runnel_contours cross = {0};
    for (int k = 0; k < 20; k++) {
        add_cross();
        add_turned(&cross, &list, 0.1 * k, 1, 7, -3);
        runnel_contours_clear(&list);
        ck_assert_int_eq(runnel_contours_append(&list, &cross, 1, 0, 0), RUNNEL_OK);
        runnel_contours_clear(&cross);
        runnel_profile *p = inside();
        for (size_t i = 0; i < p->count; i++) {
            double tie = p->pieces[i].low / (1 - RUNNEL_FIT_SHARE);
            if (fabs(tie - 1) > 1e-9)
                continue;
            draw(p, tie, 0);
            ck_near_or(runnel_contours_area(&rings), 4 - PI, 0, 1e-6);
        }
        runnel_profile_free(p);
        runnel_contours_clear(&list);
    }
}
END_TEST

START_TEST(a_neck) {
    /* an hourglass: two trapezes that meet in a neck of 2 between reflex corners; m is least in the
     * middle of it, 1. Four corners of 45 degrees, whose half has the cotangent 1 + root of 2, and
     * two fans of 90 degrees; past 1 the circles about the reflex corners share a lens, whose half
     * angle at their centres is acos(1/t), within the fans up to 45 degrees. */
    add_ring(&list, -11, -10, 11, -10, 1, 0, 11, 10, -11, 10, -1, 0);
    runnel_profile *p = inside();
    const double levels[] = {0.9, 1 - 1e-9, 1 - 1e-13, 1, 1 + 1e-13, 1 + 1e-9, 1.1, 1.3};
    for (size_t i = 0; i < COUNT(levels); i++) {
        double t = levels[i], a = t > 1 ? acos(1 / t) : 0;
        double left = 240 - (44 + 40 * sqrt(2)) * t + (4 * (1 + sqrt(2)) - PI / 2) * t * t;
        draw(p, t, 0);
        ck_assert_uint_eq(rings.count, t < 1 + 1e-12 ? 1 : 2);
        ck_near_or(runnel_contours_area(&rings), left + t * t * (2 * a - sin(2 * a)), 1e-9, 1e-6);
        check_distances(t);
    }
    runnel_profile_free(p);
}
END_TEST

START_TEST(rings_that_overlap_at_a_neck) {
    /* The same, and a disc of radius t = 1.1 that cannot pass: it turns about (0, h) above and
     * (0, -h) below, h^2 = t^2 - 1, and sweeps a circle segment over the chord between the reflex
     * corners each way, of half angle asin(1/t) and so of area t^2 asin(1/t) - h. Both segments lie
     * within what the disc reaches on the other side. */
    add_ring(&list, -11, -10, 11, -10, 1, 0, 11, 10, -11, 10, -1, 0);
    runnel_profile *p = inside();
    runnel_contours both = {0};
    double t = 1.1, h = sqrt(t * t - 1);
    draw(p, t, t);
    ck_assert_uint_eq(rings.count, 2);
    ck_assert_int_eq(runnel_outline_union(&rings, &both), RUNNEL_OK);
    ck_assert_uint_eq(both.count, 1);
    ck_near(runnel_contours_area(&both),
            runnel_contours_area(&rings) - 2 * (t * t * asin(1 / t) - h), 1e-7);
    /* of the whole, only gussets in the four corners of 45 degrees are missing: each
     * t^2 (cot 22.5 - (pi - pi/4)/2) */
    ck_near(runnel_contours_area(&both), 240 - 4 * t * t * (1 + sqrt(2) - 3 * PI / 8), 1e-7);
    runnel_contours_clear(&both);
    runnel_profile_free(p);
}
END_TEST

START_TEST(rings_that_touch) {
    add_rectangle(&list, 0, 0, 20, 20);
    add_rectangle(&list, 20, 20, 20, 20);
    runnel_profile *p = inside();
    check(p, 4, 0, 2, 2 * 144, 2 * 48);
    check(p, 0, 0, 2, 800, 160);
    runnel_profile_free(p);
}
END_TEST

/* --- outsides and paths --- */

START_TEST(outsides) {
    add_rectangle(&list, 0, 0, 60, 40);
    runnel_profile *p = outside(12);
    for (double t = 0.5; t <= 12; t += 11.5 / 4) {
        check(p, 0, t, 1, 2400 + 200 * t + PI * t * t, 200 + 2 * PI * t);
        check_distances(t);
    }
    runnel_profile_free(p);
    /* two squares 20 apart: past 10 they join. Two grown squares less what both hold, a band 20
     * long and 2 (t - 10) wide with half a lens of two circles at either end; its border is no
     * border. */
    runnel_contours_clear(&list);
    add_rectangle(&list, 0, 0, 20, 20);
    add_rectangle(&list, 40, 0, 20, 20);
    p = outside(12);
    check(p, 0, 9, 2, 2 * (400 + 80 * 9 + PI * 81), 2 * (80 + 18 * PI));
    double t = 12, a = acos(10 / t), lens = t * t * (2 * a - sin(2 * a));
    check(p, 0, t, 1, 2 * (400 + 80 * t + PI * t * t) - 20 * 2 * (t - 10) - lens,
          2 * (80 + 2 * PI * t) - 2 * 20 - 4 * t * a);
    check_distances(t);
    runnel_profile_free(p);
    /* a frame grows into its opening, which is gone at half its width */
    runnel_contours_clear(&list);
    add_rectangle(&list, 0, 0, 100, 80);
    add_rectangle(&list, 30, 20, 40, -40);
    p = outside(25);
    check(p, 0, 5, 2, 8000 + 360 * 5 + 25 * PI - 900, 360 + 10 * PI + 120);
    check(p, 0, 20.001, 1, 8000 + 360 * 20.001 + 20.001 * 20.001 * PI, 360 + 40.002 * PI);
    check(p, 0, 25, 1, 8000 + 360 * 25 + 625 * PI, 360 + 50 * PI);
    runnel_profile_free(p);
}
END_TEST

START_TEST(paths) {
    add_line(&list, 0, 0, 30, 0);
    runnel_profile *p = around(5);
    check(p, 0, 5, 1, 300 + 25 * PI, 60 + 10 * PI);
    check_distances(5);
    runnel_profile_free(p);
    /* a cross: two slots less the square that both hold */
    runnel_contours_clear(&list);
    add_line(&list, -20, 0, 20, 0);
    add_line(&list, 0, -20, 0, 20);
    p = around(3);
    check(p, 0, 2, 1, 2 * (160 + 4 * PI) - 16, 2 * (80 + 4 * PI) - 16);
    check_distances(2);
    runnel_profile_free(p);
    /* a closed line has an outer and an inner border, the latter with sharp corners */
    runnel_contours_clear(&list);
    add_rectangle(&list, 0, 0, 40, 30);
    p = around(16);
    check(p, 0, 4, 2, 1200 + 140 * 4 + 16 * PI - 32 * 22, 140 + 8 * PI + 2 * (32 + 22));
    check_distances(4);
    check(p, 0, 16, 1, 1200 + 140 * 16 + 256 * PI, 140 + 32 * PI);
    runnel_profile_free(p);
}
END_TEST

/* --- rounded shapes --- */

static void check_rounded(double radius, runnel_profile_side side, double in, double out,
                          size_t count, double area, double border) {
    ck_assert_int_eq(runnel_rounded_trace(60, 40, radius, side, in, out, chord_mm, &rings),
                     RUNNEL_OK);
    check_rings(count, area, border);
}

/* Area and border of a rectangle with corners of radius r. */
static double rounded_area(double width, double height, double r) {
    return width * height - (4 - PI) * r * r;
}

static double rounded_border(double width, double height, double r) {
    return 2 * (width + height) - (8 - 2 * PI) * r;
}

START_TEST(rounded) {
    const runnel_profile_side in = RUNNEL_SIDE_INSIDE, both = RUNNEL_SIDE_BOTH;
    check_rounded(10, in, 0, 0, 1, rounded_area(60, 40, 10), rounded_border(60, 40, 10));
    check_rounded(10, in, 4, 0, 1, rounded_area(52, 32, 6), rounded_border(52, 32, 6));
    check_rounded(10, in, 15, 0, 1, 30 * 10, 80); /* sharp corners */
    check_rounded(10, in, 15, 3, 1, rounded_area(36, 16, 3), rounded_border(36, 16, 3));
    check_rounded(10, in, 15, 15, 1, rounded_area(60, 40, 15), rounded_border(60, 40, 15));
    check_rounded(10, in, 20, 20, 1, 800 + 400 * PI, 40 + 40 * PI); /* along the ridge */
    check_rounded(10, RUNNEL_SIDE_OUTSIDE, 0, 5, 1, rounded_area(70, 50, 15),
                  rounded_border(70, 50, 15));
    runnel_box box = runnel_contours_box(&rings);
    ck_near(box.min_x_mm, -5, 1e-12);
    ck_near(box.max_x_mm, 65, 1e-12);
    ck_near(box.min_y_mm, -5, 1e-12);
    ck_near(box.max_y_mm, 45, 1e-12);
    /* around the line: up to the corners' radius, and past it */
    check_rounded(10, both, 0, 5, 2, rounded_area(70, 50, 15) - rounded_area(50, 30, 5),
                  rounded_border(70, 50, 15) + rounded_border(50, 30, 5));
    check_rounded(10, both, 0, 12, 2, rounded_area(84, 64, 22) - 36 * 16,
                  rounded_border(84, 64, 22) + 2 * (36 + 16));
    check_rounded(10, both, 0, 20, 1, rounded_area(100, 80, 30), rounded_border(100, 80, 30));
    /* a circle */
    ck_assert_int_eq(runnel_rounded_trace(20, 20, 10, in, 4, 1, chord_mm, &rings), RUNNEL_OK);
    check_rings(1, 49 * PI, 14 * PI);
    ck_assert_int_eq(runnel_rounded_trace(20, 20, 10, in, 10, 0, chord_mm, &rings), RUNNEL_E_SHAPE);
    ck_assert_int_eq(runnel_rounded_trace(20, 20, 10, in, 11, 11, chord_mm, &rings),
                     RUNNEL_E_SHAPE);
    check_rings(1, 49 * PI, 14 * PI);
}
END_TEST

START_TEST(a_circle_as_polygon_nears_the_exact_one) {
    /* inside and outside of 360 corners between the circles through corners and sides */
    add_regular(&list, 20, 20, 20, 360, 0);
    runnel_profile *p = inside(), *q = outside(3);
    double flat = 20 * (1 - cos(PI / 360));
    draw(p, 5, 2);
    double polygon = runnel_contours_area(&rings);
    ck_assert_int_eq(runnel_rounded_trace(40, 40, 20, RUNNEL_SIDE_INSIDE, 5, 2, chord_mm, &rings),
                     RUNNEL_OK);
    double circle = runnel_contours_area(&rings);
    ck_assert(polygon < circle && polygon > circle - 2 * PI * 17 * flat);
    draw(q, 0, 3);
    polygon = runnel_contours_area(&rings);
    ck_assert_int_eq(runnel_rounded_trace(40, 40, 20, RUNNEL_SIDE_OUTSIDE, 0, 3, chord_mm, &rings),
                     RUNNEL_OK);
    circle = runnel_contours_area(&rings);
    ck_assert(polygon < circle && polygon > circle - 2 * PI * 23 * flat);
    runnel_profile_free(p);
    runnel_profile_free(q);
}
END_TEST

/* --- refusals --- */

START_TEST(refused) {
    add_rectangle(&list, 0, 0, 10, 10);
    runnel_profile *p = inside(), *q = outside(3), *exact = NULL;
    ck_assert_int_eq(runnel_profile_rounded_rectangle(10, 10, 1, RUNNEL_SIDE_INSIDE, 0, &exact),
                     RUNNEL_OK);
    draw(p, 2, 1);
    static const double bad[][3] = {{-1, 0, 1},  {1, 2, 1},        {1, -1, 1}, {NAN, 0, 1},
                                    {1, NAN, 1}, {INFINITY, 1, 1}, {1, 0, 0},  {1, 0, NAN}};
    for (size_t i = 0; i < COUNT(bad); i++) {
        ck_assert_int_eq(runnel_profile_trace(p, bad[i][0], bad[i][1], bad[i][2], &rings),
                         RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_rounded_trace(10, 10, 1, RUNNEL_SIDE_INSIDE, bad[i][0], bad[i][1],
                                              bad[i][2], &rings),
                         RUNNEL_E_RANGE);
    }
    static const double bad_outside[][2] = {{0, 0}, {0, -1}, {1, 1}, {0, 3.1}, {0, NAN}};
    for (size_t i = 0; i < COUNT(bad_outside); i++)
        ck_assert_int_eq(
            runnel_profile_trace(q, bad_outside[i][0], bad_outside[i][1], chord_mm, &rings),
            RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_profile_trace(exact, 1, 0, chord_mm, &rings), RUNNEL_E_RANGE);
    static const double bad_sizes[][3] = {{0, 10, 1}, {10, 0, 1}, {10, 10, 0}, {10, 10, 6}};
    for (size_t i = 0; i < COUNT(bad_sizes); i++)
        ck_assert_int_eq(runnel_rounded_trace(bad_sizes[i][0], bad_sizes[i][1], bad_sizes[i][2],
                                              RUNNEL_SIDE_BOTH, 0, 1, chord_mm, &rings),
                         RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_profile_trace(p, 5.1, 0, chord_mm, &rings), RUNNEL_E_SHAPE);
    check_rings(1, 36 + 24 + PI, 24 + 2 * PI); /* as it was */
    runnel_profile_free(p);
    runnel_profile_free(q);
    runnel_profile_free(exact);
}
END_TEST

START_TEST(a_profile_that_is_wrong) {
    /* a disc that is not as large as it should be, an area that is not: no picture, and what stood
     * in the list stays */
    add_ring(&list, 0, 0, 60, 0, 60, 30, 30, 30, 30, 60, 0, 60);
    runnel_profile *p = inside();
    draw(p, 5, 0);
    double area = runnel_contours_area(&rings);
    for (size_t i = 0; i < p->count; i++) {
        runnel_piece kept = p->pieces[i];
        if (!(kept.low < 4 && kept.high > 4))
            continue;
        p->pieces[i].x0 += kept.x0 > kept.x1 ? 0.01 : 0;
        p->pieces[i].x1 += kept.x0 > kept.x1 ? 0 : 0.01;
        ck_assert_int_eq(runnel_profile_trace(p, 4, 0, chord_mm, &rings), RUNNEL_E_NOT_COMPUTED);
        p->pieces[i] = kept;
    }
    p->boundary.area_mm2 += 0.01;
    ck_assert_int_eq(runnel_profile_trace(p, 4, 0, chord_mm, &rings), RUNNEL_E_NOT_COMPUTED);
    p->boundary.area_mm2 -= 0.01;
    ck_near(runnel_contours_area(&rings), area, 0);
    draw(p, 4, 0);
    runnel_profile_free(p);
}
END_TEST

START_TEST(memory_runs_out) {
    add_cross();
    runnel_profile *p = inside();
    draw(p, 0.5, 0.2);
    double area = runnel_contours_area(&rings);
    bool failed = true;
    for (size_t fail_at = 0; failed; fail_at++) {
        failing count = {.fail_at = fail_at};
        runnel_contours made = {0}, exact = {0};
        start_failing(&count);
        runnel_status status = runnel_profile_trace(p, 0.5, 0.2, chord_mm, &made);
        if (!status)
            status = runnel_rounded_trace(40, 30, 5, RUNNEL_SIDE_BOTH, 0, 2, chord_mm, &exact);
        failed = count.calls > fail_at;
        ck_assert_int_eq(status, failed ? RUNNEL_E_NO_MEMORY : RUNNEL_OK);
        ck_assert(failed || runnel_contours_area(&made) == area);
        ck_assert_uint_eq(exact.count, failed ? 0 : 2);
        runnel_contours_clear(&made);
        runnel_contours_clear(&exact);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
        ck_assert(failed || fail_at > 8);
    }
    runnel_profile_free(p);
}
END_TEST

int main(void) {
    const TTest *const tests[] = {a_square,
                                  chords,
                                  an_l,
                                  a_frame_and_a_ring,
                                  a_slot_as_wide_as_the_disc,
                                  levels_of_corners_of_the_axis,
                                  levels_that_rounding_decides,
                                  a_neck,
                                  rings_that_overlap_at_a_neck,
                                  rings_that_touch,
                                  outsides,
                                  paths,
                                  rounded,
                                  a_circle_as_polygon_nears_the_exact_one,
                                  refused,
                                  a_profile_that_is_wrong,
                                  memory_runs_out};
    Suite *suite = suite_create("trace");
    TCase *cases = tcase_create("trace");
    tcase_add_checked_fixture(cases, setup, teardown);
    for (size_t i = 0; i < COUNT(tests); i++)
        tcase_add_test(cases, tests[i]);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? 1 : 0;
}
