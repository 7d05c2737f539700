/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Profiles against mensuration. "Handbook" below means the mensuration formulas of Machinery's
 * Handbook and of the CRC Standard Mathematical Tables; the numbers are worked from them by hand.
 */
#include "runnel/profile.h"

#include "shape/moments.h"
#include "solids.h"

#include <stdlib.h>

static runnel_contours list;

static void setup(void) {
    runnel_contours_init(&list);
}

static void teardown(void) {
    runnel_contours_clear(&list);
}

static void check_mismatch(const runnel_profile *profile) {
    ck_near_or(runnel_profile_mismatch(profile), 0, 0, 1e-12);
}

static runnel_profile *inside(const runnel_contours *region) {
    runnel_profile *profile = NULL;
    runnel_status status = runnel_profile_inside(region, &profile);
    ck_assert_msg(status == RUNNEL_OK, "no inside: %s", runnel_status_name(status));
    check_mismatch(profile);
    return profile;
}

static runnel_profile *outside(const runnel_contours *region, double reach) {
    runnel_profile *profile = NULL;
    runnel_status status = runnel_profile_outside(region, reach, &profile);
    ck_assert_msg(status == RUNNEL_OK, "no outside: %s", runnel_status_name(status));
    check_mismatch(profile);
    return profile;
}

static runnel_profile *around(const runnel_contours *lines, double reach) {
    runnel_profile *profile = NULL;
    runnel_status status = runnel_profile_path(lines, reach, &profile);
    ck_assert_msg(status == RUNNEL_OK, "no surroundings: %s", runnel_status_name(status));
    check_mismatch(profile);
    return profile;
}

static runnel_profile *rounded(double width, double height, double radius, runnel_profile_side side,
                               double reach) {
    runnel_profile *profile = NULL;
    ck_assert_int_eq(runnel_profile_rounded_rectangle(width, height, radius, side, reach, &profile),
                     RUNNEL_OK);
    check_mismatch(profile);
    return profile;
}

/* --- insides --- */

START_TEST(rectangle_and_its_insets) {
    add_rectangle(&list, 5, -7, 60, 40);
    runnel_profile *p = inside(&list);
    ck_assert_uint_eq(runnel_profile_segments(p), 4);
    ck_assert_uint_ge(runnel_profile_pieces(p), 4);
    ck_near(runnel_profile_area_mm2(p), 2400, 1e-12);
    /* Handbook, inset of a convex polygon: A - P r + r^2 sum cot(a/2), here 2400 - 600 + 36; the
     * term of the outward offset, pi r^2, would give 1828.27 */
    ck_near(runnel_profile_beyond_mm2(p, 3), 1836, 1e-12);
    ck_near(runnel_profile_border_mm(p, 3), 2 * (54 + 34), 1e-12);
    /* nothing is left at half the shorter side; before it a strip 20.2 x 0.2 */
    ck_near(runnel_profile_beyond_mm2(p, 19.9), 20.2 * 0.2, 1e-9);
    ck_near_or(runnel_profile_beyond_mm2(p, 20), 0, 0, 1e-9);
    ck_near_or(runnel_profile_beyond_mm2(p, 25), 0, 0, 1e-9);
    ck_near_or(runnel_profile_border_mm(p, 25), 0, 0, 1e-9);
    ck_near(runnel_profile_beyond_mm2(p, 0), 2400, 1e-12);
    runnel_profile_free(p);
}
END_TEST

START_TEST(widest_and_narrowest_of_a_rectangle) {
    add_rectangle(&list, 5, -7, 60, 40);
    runnel_profile *p = inside(&list);
    runnel_point at = {0};
    ck_near(runnel_profile_widest(p, &at), 20, 1e-12);
    ck_near_or(at.y_mm, 13, 0, 1e-9); /* on the ridge, which runs from (25, 13) to (45, 13) */
    ck_assert(at.x_mm >= 25 - 1e-9 && at.x_mm <= 45 + 1e-9);
    ck_near(runnel_profile_narrowest(p, &at), 20, 1e-12);
    ck_near_or(at.y_mm, 13, 0, 1e-9);
    ck_near(runnel_profile_widest(p, NULL), 20, 1e-12);
    ck_near(runnel_profile_narrowest(p, NULL), 20, 1e-12);
    runnel_profile_free(p);
}
END_TEST

START_TEST(triangle_and_its_inset) {
    add_regular(&list, 0, 0, 60 / sqrt(3), 3, 0.3);
    runnel_profile *p = inside(&list);
    /* Handbook, equilateral triangle: area side^2 sqrt(3)/4; the inset by 3 is one of side
     * 60 - 2 x 3 cot 30 = 49.607695154586734, area 1065.6110829 */
    ck_near(runnel_profile_area_mm2(p), 3600 * sqrt(3) / 4, 1e-12);
    ck_near(runnel_profile_beyond_mm2(p, 3), 49.607695154586734 * 49.607695154586734 * sqrt(3) / 4,
            1e-12);
    ck_near(runnel_profile_beyond_mm2(p, 3), 1065.6111, 1e-7);
    ck_near(runnel_profile_border_mm(p, 3), 3 * 49.607695154586734, 1e-12);
    /* incircle: side/(2 sqrt 3); no two walls are near parallel, so the widest place is told */
    ck_near(runnel_profile_widest(p, NULL), 60 / (2 * sqrt(3)), 1e-12);
    ck_near(runnel_profile_narrowest(p, NULL), 60 / (2 * sqrt(3)), 1e-12);
    runnel_profile_free(p);
}
END_TEST

START_TEST(l_shape_and_its_insets) {
    add_ring(&list, 0, 0, 60, 0, 60, 30, 30, 30, 30, 60, 0, 60);
    runnel_profile *p = inside(&list);
    ck_near(runnel_profile_area_mm2(p), 2700, 1e-12);
    /* by hand: five corners of 90 degrees give + t^2 each, the reflex one a quarter disc:
     * A - P t + 5 t^2 - pi t^2/4, while the arms last (t < 15) */
    for (double t = 1; t < 15; t += 3) {
        ck_near(runnel_profile_beyond_mm2(p, t), 2700 - 240 * t + (5 - PI / 4) * t * t, 1e-12);
        ck_near(runnel_profile_border_mm(p, t), 240 - 10 * t + PI / 2 * t, 1e-12);
    }
    /* the largest disc touches both outer sides and the reflex corner: r sqrt 2 = 30 sqrt 2 - r */
    runnel_point at = {0};
    double r = 30 * sqrt(2) / (1 + sqrt(2));
    ck_near(runnel_profile_widest(p, &at), r, 1e-12);
    ck_near(at.x_mm, r, 1e-12);
    ck_near(at.y_mm, r, 1e-12);
    ck_near(runnel_profile_narrowest(p, &at), 15, 1e-12); /* half an arm */
    ck_assert(fabs(at.x_mm - 15) < 1e-9 || fabs(at.y_mm - 15) < 1e-9);
    runnel_profile_free(p);
}
END_TEST

START_TEST(frame_with_a_hole) {
    add_rectangle(&list, 0, 0, 100, 80);
    add_rectangle(&list, 30, 20, 40, -40);
    runnel_profile *p = inside(&list);
    ck_near(runnel_profile_area_mm2(p), 8000 - 1600, 1e-12);
    /* outer inset less the hole grown: rounded at its corners */
    double t = 4;
    ck_near(runnel_profile_beyond_mm2(p, t), 92 * 72 - (1600 + 160 * t + PI * t * t), 1e-12);
    ck_near(runnel_profile_border_mm(p, t), 2 * (92 + 72) + 160 + 2 * PI * t, 1e-12);
    /* narrowest: 20 above and below the hole, where it faces the long sides */
    runnel_point at = {0};
    ck_near(runnel_profile_narrowest(p, &at), 10, 1e-12);
    ck_assert(at.x_mm >= 30 - 1e-9 && at.x_mm <= 70 + 1e-9);
    ck_assert(fabs(at.y_mm - 10) < 1e-9 || fabs(at.y_mm - 70) < 1e-9);
    runnel_profile_free(p);
}
END_TEST

START_TEST(first_moment_of_solids) {
    /* Handbook, hip roof as wedge b h (2a + c)/6, eaves 60 x 40, ridge 20, height 20 */
    add_rectangle(&list, 0, 0, 60, 40);
    runnel_profile *p = inside(&list);
    runnel_moments m = runnel_profile_moments(p, 20);
    ck_near(m.first, 40.0 * 20 * (2 * 60 + 20) / 6, 1e-12);
    ck_near(m.area, 2400, 1e-12);
    ck_near_or(m.beyond, 0, 0, 1e-9);
    ck_near_or(m.fan_first, 0, 0, 0); /* no reflex corner */
    /* below 8: ramps over the roof's rim; prismoid of height 8 between 60 x 40 and 44 x 24, mid
     * 52 x 32, stands for int min(d, 8) dA */
    m = runnel_profile_moments(p, 8);
    ck_near(m.first + 8 * m.beyond, 8 * (2400 + 4 * 52 * 32 + 44 * 24) / 6.0, 1e-12);
    ck_near(m.beyond, 44 * 24, 1e-12);
    ck_near(m.length, 2 * (44 + 24), 1e-12);
    ck_near_or(m.angle, 0, 0, 0);
    runnel_profile_free(p);
}
END_TEST

START_TEST(rings_that_touch_at_corners) {
    /* two squares that share a corner, as one region */
    add_rectangle(&list, 0, 0, 20, 20);
    add_rectangle(&list, 20, 20, 20, 20);
    runnel_profile *p = inside(&list);
    ck_near(runnel_profile_area_mm2(p), 800, 1e-12);
    ck_near(runnel_profile_beyond_mm2(p, 4), 2 * 144, 1e-12);
    ck_near(runnel_profile_moments(p, 20).first, 2 * 400 * 10 / 3.0, 1e-12); /* two pyramids */
    runnel_profile_free(p);
}
END_TEST

START_TEST(a_corner_halfway_along_a_side_changes_nothing) {
    add_ring(&list, 0, 0, 10, 0, 30, 0, 60, 0, 60, 40, 25, 40, 0, 40, 0, 39.5);
    runnel_profile *p = inside(&list);
    ck_near(runnel_profile_area_mm2(p), 2400, 1e-12);
    ck_near(runnel_profile_beyond_mm2(p, 3), 1836, 1e-12);
    ck_near(runnel_profile_moments(p, 20).first, 40.0 * 20 * (2 * 60 + 20) / 6, 1e-12);
    ck_near(runnel_profile_widest(p, NULL), 20, 1e-12);
    ck_near(runnel_profile_narrowest(p, NULL), 20, 1e-12);
    runnel_profile_free(p);
}
END_TEST

/* --- outsides and surroundings --- */

START_TEST(rectangle_grown) {
    add_rectangle(&list, 0, 0, 60, 40);
    runnel_profile *p = outside(&list, 25);
    /* Handbook, parallel curve of a convex figure (Steiner): A + P r + pi r^2, P + 2 pi r; by 3:
     * 3028.2743 and 218.84956 */
    for (double r = 1; r <= 25; r += 2) {
        ck_near(runnel_profile_moments(p, r).area, 200 * r + PI * r * r, 1e-12);
        ck_near(runnel_profile_border_mm(p, r), 200 + 2 * PI * r, 1e-12);
    }
    ck_near(2400 + runnel_profile_moments(p, 3).area, 3028.2743, 1e-7);
    ck_near(runnel_profile_border_mm(p, 3), 218.84956, 1e-7);
    ck_near(runnel_profile_area_mm2(p), 200 * 25 + PI * 625, 1e-12);
    runnel_point at = {0};
    ck_near(runnel_profile_widest(p, &at), 25, 1e-12); /* infinite counts as the reach */
    double dx = fmax(fmax(-at.x_mm, at.x_mm - 60), 0), dy = fmax(fmax(-at.y_mm, at.y_mm - 40), 0);
    ck_near(hypot(dx, dy), 25, 1e-12);
    ck_near(runnel_profile_narrowest(p, NULL), 25, 1e-12);
    /* beyond the reach nothing is known: cut to it */
    ck_near(runnel_profile_moments(p, 40).area, 200 * 25 + PI * 625, 1e-12);
    runnel_profile_free(p);
}
END_TEST

START_TEST(outside_of_two_squares) {
    /* squares of 20 at a gap of 6: their bands of 5 overlap in the gap, by hand:
     * two Steiner bands, less the overlap of two rectangles 2 x 5 wide on a gap of 6 (length 20,
     * width 4), less twice the overlap of two discs of radius 5 at a distance of 6, above and below
     * the gap (each a lens cut in half by the line through the corners) */
    add_rectangle(&list, 0, 0, 20, 20);
    add_rectangle(&list, 26, 0, 20, 20);
    runnel_profile *p = outside(&list, 5);
    double lens =
        2 * 25 * acos(3.0 / 5) - 6 * 4; /* Handbook: 2 r^2 acos(d/2r) - d sqrt(r^2-d^2/4) */
    ck_near(runnel_profile_area_mm2(p), 2 * (80 * 5 + PI * 25) - 20 * 4 - lens, 1e-12);
    runnel_profile_free(p);
}
END_TEST

START_TEST(triangle_ring_around_a_disc) {
    /* Pappus: a triangle w 3 wide and d 3 deep, wall at r0 = 20, turned about the centre:
     * (w d/2) 2 pi (r0 + w/3) = 593.76101 */
    runnel_profile *p = rounded(40, 40, 20, RUNNEL_SIDE_OUTSIDE, 10);
    runnel_moments m = runnel_profile_moments(p, 3);
    ck_near(3 * m.area - m.first, 9.0 / 2 * 2 * PI * 21, 1e-12);
    ck_near(3 * m.area - m.first, 593.76101, 1e-8);
    ck_near(m.area, PI * (23 * 23 - 20 * 20), 1e-12);
    runnel_profile_free(p);
}
END_TEST

START_TEST(slot_around_a_line) {
    add_line(&list, 0, 0, 100, 0);
    runnel_profile *p = around(&list, 10);
    ck_assert_uint_eq(runnel_profile_segments(p), 2); /* both sides */
    /* Handbook: L D + pi D^2/4, 2 L + pi D; D 6: 628.27433 and 218.84956 */
    ck_near(runnel_profile_moments(p, 3).area, 600 + PI * 9, 1e-12);
    ck_near(runnel_profile_moments(p, 3).area, 628.27433, 1e-8);
    ck_near(runnel_profile_border_mm(p, 3), 218.84956, 1e-7);
    ck_near(runnel_profile_area_mm2(p), 2000 + PI * 100, 1e-12);
    runnel_profile_free(p);
}
END_TEST

START_TEST(cross_of_two_lines) {
    /* noded by hand: four arms of 50 from one point. By r: two slots 100 long less the square in
     * common, 2 r x 2 r */
    add_line(&list, -50, 0, 0, 0);
    add_line(&list, 0, 0, 50, 0);
    add_line(&list, 0, -50, 0, 0);
    add_line(&list, 0, 0, 0, 50);
    runnel_profile *p = around(&list, 10);
    for (double r = 1; r <= 10; r += 3) {
        ck_near(runnel_profile_moments(p, r).area, 2 * (100 * 2 * r + PI * r * r) - 4 * r * r,
                1e-12);
        ck_near(runnel_profile_border_mm(p, r), 2 * (200 + 2 * PI * r) - 16 * r + 8 * r, 1e-12);
    }
    runnel_profile_free(p);
}
END_TEST

START_TEST(noding_of_a_cross) {
    add_line(&list, -50, 0, 50, 0);
    add_line(&list, 0, -50, 0, 50);
    runnel_contours lines = {0};
    ck_assert_int_eq(runnel_path_node(&list, &lines), RUNNEL_OK);
    ck_assert_uint_eq(lines.count, 4);
    runnel_profile *p = around(&lines, 10);
    ck_near(runnel_profile_area_mm2(p), 2 * (2000 + PI * 100) - 400, 1e-12);
    runnel_profile_free(p);
    runnel_contours_clear(&lines);
}
END_TEST

START_TEST(a_bent_line) {
    /* two legs of 40 at a right angle: outside of the bend a quarter disc, inside the legs' bands
     * share the square r x r, as each is cut at the diagonal */
    add_line(&list, 40, 0, 0, 0, 0, 40);
    runnel_profile *p = around(&list, 10);
    for (double r = 1; r <= 10; r += 3)
        ck_near(runnel_profile_moments(p, r).area, 4 * 40 * r + PI * r * r + PI * r * r / 4 - r * r,
                1e-12);
    runnel_profile_free(p);
}
END_TEST

/* --- shapes with arcs --- */

START_TEST(circle_inside_and_outside) {
    runnel_profile *p = rounded(40, 40, 20, RUNNEL_SIDE_INSIDE, 0);
    ck_near(runnel_profile_area_mm2(p), PI * 400, 1e-12);
    ck_near(runnel_profile_beyond_mm2(p, 5), PI * 225, 1e-12);
    ck_near(runnel_profile_border_mm(p, 5), 2 * PI * 15, 1e-12);
    /* Handbook, cone: pi r^2 h/3 with h = r */
    ck_near(runnel_profile_moments(p, 20).first, PI * 8000 / 3, 1e-12);
    runnel_point at = {0};
    ck_near(runnel_profile_widest(p, &at), 20, 1e-12);
    ck_near(at.x_mm, 20, 1e-12);
    ck_near(at.y_mm, 20, 1e-12);
    runnel_profile_free(p);
    p = rounded(40, 40, 20, RUNNEL_SIDE_BOTH, 8);
    ck_near(runnel_profile_area_mm2(p), PI * (28 * 28 - 12 * 12), 1e-12);
    ck_near(runnel_profile_border_mm(p, 5), 2 * PI * (25 + 15), 1e-12);
    runnel_profile_free(p);
}
END_TEST

START_TEST(rounded_rectangle_and_slot) {
    runnel_profile *p = rounded(60, 40, 5, RUNNEL_SIDE_INSIDE, 0);
    ck_near(runnel_profile_area_mm2(p), 2400 - (4 - PI) * 25, 1e-12);
    /* inset by 2: 56 x 36 with corners of 3; inset by 8: sharp, 44 x 24 */
    ck_near(runnel_profile_beyond_mm2(p, 2), 56 * 36 - (4 - PI) * 9, 1e-12);
    ck_near(runnel_profile_border_mm(p, 2), 2 * (56 + 36) - (8 - 2 * PI) * 3, 1e-12);
    ck_near(runnel_profile_beyond_mm2(p, 8), 44 * 24, 1e-12);
    ck_near(runnel_profile_border_mm(p, 8), 2 * (44 + 24), 1e-12);
    ck_near(runnel_profile_widest(p, NULL), 20, 1e-12);
    runnel_profile_free(p);
    p = rounded(60, 40, 5, RUNNEL_SIDE_OUTSIDE, 30);
    double perimeter = 200 - (8 - 2 * PI) * 5;
    ck_near(runnel_profile_moments(p, 7).area, perimeter * 7 + PI * 49, 1e-12);
    runnel_profile_free(p);
    p = rounded(20, 100, 10, RUNNEL_SIDE_INSIDE, 0); /* a slot: straight 80, D 20 */
    ck_near(runnel_profile_area_mm2(p), 80 * 20 + PI * 100, 1e-12);
    ck_near(runnel_profile_beyond_mm2(p, 4), 80 * 12 + PI * 36, 1e-12);
    runnel_profile_free(p);
}
END_TEST

START_TEST(a_polygon_of_many_sides_nears_the_circle) {
    /* a regular polygon of n sides about a circle of radius R has the area n R^2 tan(pi/n), and it
     * is A r/3 for the solid over it; the circle is its limit */
    const size_t n = 720;
    double r = 20, corner = r / cos(PI / 720);
    add_regular(&list, 3, 4, corner, n, 0);
    runnel_profile *p = inside(&list);
    double area = 720 * r * r * tan(PI / 720);
    ck_near(runnel_profile_area_mm2(p), area, 1e-12);
    ck_near(runnel_profile_moments(p, 30).first, area * r / 3, 1e-10);
    runnel_profile *circle = rounded(40, 40, 20, RUNNEL_SIDE_INSIDE, 0);
    ck_near(runnel_profile_area_mm2(p), runnel_profile_area_mm2(circle), 1e-5);
    runnel_profile_free(circle);
    runnel_profile_free(p);
}
END_TEST

/* --- refusals --- */

START_TEST(refused_reaches) {
    runnel_profile *mark = (runnel_profile *)&list, *p = mark;
    const double wrong[] = {0, -1, INFINITY, NAN};
    add_rectangle(&list, 0, 0, 10, 10);
    for (size_t i = 0; i < 4; i++) {
        ck_assert_int_eq(runnel_profile_outside(&list, wrong[i], &p), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_profile_path(&list, wrong[i], &p), RUNNEL_E_RANGE);
        ck_assert_int_eq(
            runnel_profile_rounded_rectangle(9, 9, 1, RUNNEL_SIDE_OUTSIDE, wrong[i], &p),
            RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_profile_rounded_rectangle(9, 9, 1, RUNNEL_SIDE_BOTH, wrong[i], &p),
                         RUNNEL_E_RANGE);
        ck_assert_int_eq(
            runnel_profile_rounded_rectangle(9, 9, wrong[i], RUNNEL_SIDE_INSIDE, 0, &p),
            RUNNEL_E_RANGE);
        ck_assert_int_eq(
            runnel_profile_rounded_rectangle(wrong[i], 9, 1, RUNNEL_SIDE_INSIDE, 0, &p),
            RUNNEL_E_RANGE);
        ck_assert_int_eq(
            runnel_profile_rounded_rectangle(9, wrong[i], 1, RUNNEL_SIDE_INSIDE, 0, &p),
            RUNNEL_E_RANGE);
    }
    ck_assert_int_eq(runnel_profile_rounded_rectangle(9, 8, 4.001, RUNNEL_SIDE_INSIDE, 0, &p),
                     RUNNEL_E_RANGE);
    ck_assert_ptr_eq(p, mark);
    runnel_profile_free(NULL);
}
END_TEST

START_TEST(refused_regions) {
    runnel_profile *mark = (runnel_profile *)&list, *p = mark;
    runnel_contours empty = {0};
    ck_assert_int_eq(runnel_profile_inside(&empty, &p), RUNNEL_E_SHAPE);
    ck_assert_int_eq(runnel_profile_outside(&empty, 1, &p), RUNNEL_E_SHAPE);
    ck_assert_int_eq(runnel_profile_path(&empty, 1, &p), RUNNEL_E_SHAPE);
    /* a hole that crosses its outer ring: the areas of the pieces cannot agree with the shoelace
     * formula */
    add_rectangle(&list, 0, 0, 20, 20);
    add_rectangle(&list, 10, 30, 20, -20);
    ck_assert_int_eq(runnel_profile_inside(&list, &p), RUNNEL_E_IDENTITY);
    ck_assert_ptr_eq(p, mark);
}
END_TEST

START_TEST(refused_bow_tie) {
    runnel_profile *mark = (runnel_profile *)&list, *p = mark;
    add_ring(&list, 0, 0, 40, 30, 40, 0, 0, 20);
    ck_assert_int_eq(runnel_profile_inside(&list, &p), RUNNEL_E_IDENTITY);
    ck_assert_ptr_eq(p, mark);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("profile");
    TCase *insides = tcase_create("insides");
    tcase_add_checked_fixture(insides, setup, teardown);
    tcase_add_test(insides, rectangle_and_its_insets);
    tcase_add_test(insides, widest_and_narrowest_of_a_rectangle);
    tcase_add_test(insides, triangle_and_its_inset);
    tcase_add_test(insides, l_shape_and_its_insets);
    tcase_add_test(insides, frame_with_a_hole);
    tcase_add_test(insides, first_moment_of_solids);
    tcase_add_test(insides, rings_that_touch_at_corners);
    tcase_add_test(insides, a_corner_halfway_along_a_side_changes_nothing);
    suite_add_tcase(suite, insides);
    TCase *outsides = tcase_create("outsides");
    tcase_add_checked_fixture(outsides, setup, teardown);
    tcase_add_test(outsides, rectangle_grown);
    tcase_add_test(outsides, outside_of_two_squares);
    tcase_add_test(outsides, triangle_ring_around_a_disc);
    tcase_add_test(outsides, slot_around_a_line);
    tcase_add_test(outsides, cross_of_two_lines);
    tcase_add_test(outsides, noding_of_a_cross);
    tcase_add_test(outsides, a_bent_line);
    suite_add_tcase(suite, outsides);
    TCase *arcs = tcase_create("arcs");
    tcase_add_checked_fixture(arcs, setup, teardown);
    tcase_add_test(arcs, circle_inside_and_outside);
    tcase_add_test(arcs, rounded_rectangle_and_slot);
    tcase_add_test(arcs, a_polygon_of_many_sides_nears_the_circle);
    suite_add_tcase(suite, arcs);
    TCase *refusals = tcase_create("refusals");
    tcase_add_checked_fixture(refusals, setup, teardown);
    tcase_add_test(refusals, refused_reaches);
    tcase_add_test(refusals, refused_regions);
    tcase_add_test(refusals, refused_bow_tie);
    suite_add_tcase(suite, refusals);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
