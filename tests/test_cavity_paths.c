/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Cutters that follow paths, against mensuration. "Handbook" below means the mensuration formulas
 * of Machinery's Handbook and of the CRC Standard Mathematical Tables; the numbers are worked from
 * them by hand. Printed figures of eight digits are compared to those digits. The cross-section of
 * a groove is had as the difference of two lengths of it, which takes the ends out.
 */
#include "solids.h"

#include <stdlib.h>

/* A printed figure: half a unit of its eighth digit. */
#define PRINTED 1e-7

/* What 100 mm more of a groove add, per mm. */
typedef struct cross_section {
    double width_mm, area_mm2, wetted_mm;
} cross_section;

static cross_section middle_of(runnel_cut cut) {
    runnel_cavity longer = figures_once(straight(200), cut),
                  shorter = figures_once(straight(100), cut);
    ck_near(longer.perimeter_mm - shorter.perimeter_mm, 200, 1e-12);
    ck_near(longer.deepest_mm, cut.depth_mm, 0);
    ck_near(longer.widest_mm, (longer.footprint_mm2 - shorter.footprint_mm2) / 100, 1e-12);
    return (cross_section){(longer.footprint_mm2 - shorter.footprint_mm2) / 100,
                           (longer.volume_mm3 - shorter.volume_mm3) / 100,
                           (longer.wall_mm2 - shorter.wall_mm2) / 100};
}

/* The same of both ends together: what is left of a length of 100. */
static runnel_cavity ends_of(runnel_cut cut) {
    runnel_cavity longer = figures_once(straight(200), cut),
                  ends = figures_once(straight(100), cut);
    ends.volume_mm3 -= longer.volume_mm3 - ends.volume_mm3;
    ends.wall_mm2 -= longer.wall_mm2 - ends.wall_mm2;
    ends.footprint_mm2 -= longer.footprint_mm2 - ends.footprint_mm2;
    return ends;
}

/* --- V grooves --- */

START_TEST(v_grooves) {
    /* Handbook, triangle: w = 2 d tan(a/2), A = d^2 tan(a/2), sides 2 d/cos(a/2); d 5 */
    const struct {
        double angle_deg, width_mm, area_mm2, wetted_mm;
    } rows[] = {{30, 2.6794919, 6.6987298, 10.352762},
                {45, 4.1421356, 10.355339, 10.823922},
                {60, 5.7735027, 14.433757, 11.547005},
                {90, 10, 25, 14.142136},
                {120, 17.320508, 43.301270, 20}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        cross_section s = middle_of(along(v_cutter(rows[i].angle_deg, 0), 5));
        double half = rows[i].angle_deg * PI / 360;
        ck_near(s.width_mm, rows[i].width_mm, PRINTED);
        ck_near(s.area_mm2, rows[i].area_mm2, PRINTED);
        ck_near(s.wetted_mm, rows[i].wetted_mm, PRINTED);
        ck_near(s.width_mm, 10 * tan(half), 1e-9);
        ck_near(s.area_mm2, 25 * tan(half), 1e-9);
        ck_near(s.wetted_mm, 10 / cos(half), 1e-9);
        /* both ends together are a cone: pi r^2 h/3, pi r s */
        runnel_cavity ends = ends_of(along(v_cutter(rows[i].angle_deg, 0), 5));
        double r = 5 * tan(half);
        ck_near(ends.volume_mm3, PI * r * r * 5 / 3, 1e-9);
        ck_near(ends.wall_mm2, PI * r * 5 / cos(half), 1e-9);
        ck_near(ends.footprint_mm2, PI * r * r, 1e-9);
    }
}
END_TEST

START_TEST(depth_for_a_width) {
    /* the same, turned round: w = 6 at these depths */
    const double angles[] = {30, 45, 60, 90, 120};
    const double depths[] = {11.196152, 7.2426407, 5.1961524, 3, 1.7320508};
    for (int i = 0; i < 5; i++)
        ck_near(middle_of(along(v_cutter(angles[i], 0), depths[i])).width_mm, 6, PRINTED);
}
END_TEST

START_TEST(v_groove_with_a_flat_tip) {
    /* Handbook, trapezium: w = t + 2 d tan, A = t d + d^2 tan, wetted t + 2 d/cos; 60, t 0.2, d 5
     */
    runnel_cut cut = along(v_cutter(60, 0.2), 5);
    cross_section s = middle_of(cut);
    ck_near(s.width_mm, 5.9735027, PRINTED);
    ck_near(s.area_mm2, 15.433757, PRINTED);
    ck_near(s.wetted_mm, 11.747005, PRINTED);
    ck_near(s.area_mm2, 0.2 * 5 + 25 / sqrt(3), 1e-9);
    /* ends: a frustum from 0.1 to 0.1 + 5/sqrt 3 */
    double r = 0.1, top = 0.1 + 5 / sqrt(3);
    runnel_cavity ends = ends_of(cut);
    ck_near(ends.volume_mm3, PI * 5 * (r * r + r * top + top * top) / 3, 1e-9);
    ck_near(ends.wall_mm2, PI * (r + top) * 10 / sqrt(3) + PI * r * r, 1e-9);
}
END_TEST

START_TEST(v_groove_of_100) {
    /* 60 degrees, 5 deep, 100 long and two half cones: 1443.3757 + 43.633231 = 1487.0089 */
    runnel_cavity f = figures_once(straight(100), along(v_cutter(60, 0), 5));
    ck_near(f.volume_mm3, 1487.0089, PRINTED);
    ck_near(f.volume_mm3, 2500 / sqrt(3) + PI * 25 / 3 * 5 / 3, 1e-9);
    ck_near(f.wall_mm2, 2 * f.footprint_mm2, 1e-12);
    ck_near(f.perimeter_mm, 200 + 2 * PI * 5 / sqrt(3), 1e-12);
    ck_assert(f.volume_error_mm3 < 1e-9 * f.volume_mm3);
}
END_TEST

START_TEST(what_ifs_of_a_v_groove) {
    /* V(d) = L d^2 tan + pi d^3 tan^2/3 with L 100, 60 degrees; dV/da per degree of included angle:
     * (L d^2 + 2 pi d^3 tan/3)/(2 cos^2) pi/180; told as a difference over one degree */
    double tangent = 1 / sqrt(3);
    runnel_cavity f = figures_once(straight(100), along(v_cutter(60, 0), 5));
    double v[3];
    for (int i = 0; i < 3; i++) {
        double d = 5 + (i - 1) * 0.1;
        v[i] = 100 * d * d * tangent + PI * d * d * d / 9;
    }
    ck_near(f.depth_plus_mm3, v[2] - v[1], 1e-9);
    ck_near(f.depth_minus_mm3, v[0] - v[1], 1e-9);
    double slope = (2500 + 2 * PI * 125 * tangent / 3) / (2 * 0.75) * PI / 180;
    ck_near(f.angle_mm3_per_degree, slope, 1e-3);
    /* less deep than the step: nothing is left */
    f = figures_once(straight(100), along(v_cutter(60, 0), 0.05));
    ck_near(f.depth_minus_mm3, -f.volume_mm3, 1e-12);
}
END_TEST

/* --- round nose --- */

START_TEST(round_nose_grooves) {
    /* Handbook, circular segment: R^2 (t - sin t)/2, t = 2 acos((R - h)/R), chord 2 sqrt(h (2R -
     * h)), arc R t; deeper than R a half circle below straight sides: pi R^2/2 + 2 R (d - R),
     * wetted pi R + 2 (d - R). R 3. */
    const struct {
        double depth_mm, width_mm, area_mm2, wetted_mm;
    } rows[] = {{1.2, 4.8, 4.0256570, 5.5637713},
                {2, 5.6568542, 8.2502076, 7.3857565},
                {3, 6, 14.137167, 9.4247780},
                {4, 6, 20.137167, 11.424778},
                {8, 6, 44.137167, 19.424778}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        cross_section s = middle_of(along(round_nose(3), rows[i].depth_mm));
        double d = rows[i].depth_mm, h = fmin(d, 3), t = 2 * acos((3 - h) / 3);
        ck_near(s.width_mm, rows[i].width_mm, PRINTED);
        ck_near(s.area_mm2, rows[i].area_mm2, PRINTED);
        ck_near(s.wetted_mm, rows[i].wetted_mm, PRINTED);
        ck_near(s.area_mm2, 4.5 * (t - sin(t)) + 6 * (d - h), 1e-9);
        ck_near(s.wetted_mm, 3 * t + 2 * (d - h), 1e-9);
    }
    /* deeper than the radius is no segment: that of depth 4 in a circle of 3 would be 20.02 */
    double t = 2 * acos((3 - 4) / 3.0), segment = 4.5 * (t - sin(t));
    ck_assert(fabs(middle_of(along(round_nose(3), 4)).area_mm2 - segment) > 0.1);
}
END_TEST

START_TEST(ends_of_round_nose_grooves) {
    /* Handbook, spherical cap: pi h^2 (3 R - h)/3, curved area 2 pi R h; R 10, h 4: 435.63418 and
     * 251.32741, base radius 8 */
    runnel_cavity ends = ends_of(along(round_nose(10), 4));
    ck_near(ends.volume_mm3, 435.63418, PRINTED);
    ck_near(ends.volume_mm3, PI * 16 * 26 / 3, 1e-9);
    ck_near(ends.wall_mm2, 251.32741, PRINTED);
    ck_near(ends.footprint_mm2, PI * 64, 1e-9);
    /* deeper than the radius: half ball and cylinder */
    ends = ends_of(along(round_nose(3), 8));
    ck_near(ends.volume_mm3, 2 * PI * 27 / 3 + PI * 9 * 5, 1e-9);
    ck_near(ends.wall_mm2, 2 * PI * 9 + 2 * PI * 3 * 5, 1e-9);
}
END_TEST

START_TEST(round_slot_of_100) {
    /* 44.137167 x 100 and ends (2/3) pi r^3 + pi r^2 (d - r): 4611.6370 */
    runnel_cavity f = figures_once(straight(100), along(round_nose(3), 8));
    ck_near(f.volume_mm3, 4611.6370, PRINTED);
    ck_near(f.volume_mm3, 100 * (PI * 4.5 + 30) + 18 * PI + 45 * PI, 1e-9);
    ck_near_or(f.angle_mm3_per_degree, 0, 0, 0);
    ck_near(f.depth_plus_mm3, 0.1 * (600 + 9 * PI), 1e-9);
    ck_near(f.depth_minus_mm3, -0.1 * (600 + 9 * PI), 1e-9);
}
END_TEST

/* --- flat end --- */

START_TEST(slot_of_a_flat_cutter) {
    /* Handbook: L D + pi D^2/4, 2 L + pi D; L 100, D 6: 628.27433, 218.84956; 5 deep 3141.3717 */
    runnel_cavity f = figures_once(straight(100), along(flat_end(3), 5));
    ck_near(f.footprint_mm2, 628.27433, PRINTED);
    ck_near(f.perimeter_mm, 218.84956, PRINTED);
    ck_near(f.volume_mm3, 3141.3717, PRINTED);
    ck_near(f.volume_mm3, 5 * (600 + 9 * PI), 1e-9);
    ck_near(f.wall_mm2, 600 + 9 * PI + 5 * (200 + 6 * PI), 1e-9);
    ck_near(f.depth_plus_mm3, 0.1 * (600 + 9 * PI), 1e-9);
    ck_near_or(f.angle_mm3_per_degree, 0, 0, 0);
    ck_near(f.widest_mm, 6, 0);
    ck_near(f.narrowest_mm, 6, 0);
}
END_TEST

/* --- rings --- */

START_TEST(round_ring_groove) {
    /* Pappus: (pi r^2/2) 2 pi R; R 50, r 3: 4441.3220, half of the torus 8882.6440 */
    runnel_cavity f = figures_once(circle_path(50), along(round_nose(3), 3));
    ck_near(f.volume_mm3, 4441.3220, PRINTED);
    ck_near(f.volume_mm3, PI * PI * 9 * 50, 1e-9);
    ck_near(2 * f.volume_mm3, 8882.6440, PRINTED);
    ck_near(f.volume_mm3 / 4, 1110.3305, PRINTED); /* a quarter turn without ends */
    ck_near(f.wall_mm2, 3 * PI * 2 * PI * 50, 1e-9);
    ck_near(f.perimeter_mm, 2 * PI * (53 + 47), 1e-12);
    /* deeper than the radius */
    f = figures_once(circle_path(50), along(round_nose(3), 5));
    ck_near(f.volume_mm3, PI * PI * 9 * 50 + 6 * 2 * 2 * PI * 50, 1e-9);
}
END_TEST

START_TEST(quarter_turn_as_chords) {
    /* the quarter turn 1110.3305 with two half ends, together half a ball: (2/3) pi r^3; the chords
     * stay within 1e-5 of the arc of 50 */
    runnel_contours c = {0};
    add_line(&c, 50, 0);
    ck_assert_int_eq(runnel_contours_arc(&c, (runnel_point){0, 0}, 90, 1e-5), RUNNEL_OK);
    runnel_cavity f = figures_once(path_of(&c), along(round_nose(3), 3));
    ck_near(f.volume_mm3, 1110.3305 + 18 * PI, 1e-6);
    ck_assert(fabs(f.volume_mm3 - PI * PI * 9 * 50 / 4 - 18 * PI) <= f.volume_error_mm3);
}
END_TEST

START_TEST(v_ring_groove) {
    /* Pappus: d^2 tan(a/2) 2 pi R; 60 degrees, d 5, R 50: 4534.4984 */
    runnel_cavity f = figures_once(circle_path(50), along(v_cutter(60, 0), 5));
    ck_near(f.volume_mm3, 4534.4984, PRINTED);
    ck_near(f.volume_mm3, 25 / sqrt(3) * 2 * PI * 50, 1e-9);
    ck_near(f.footprint_mm2, 10 / sqrt(3) * 2 * PI * 50, 1e-9);
}
END_TEST

START_TEST(ring_that_closes_its_middle) {
    /* circle of radius 2, cutter 3 wide at the face: the middle is cut away as well. By hand, with
     * depth D - |p - 2| D/3 at the distance p from the centre: integral of 2 pi p z over 0..5. */
    double d = 3, k = d / 3;
    double inner = (d - 2 * k) * 2 + k * 8 / 3, outer = (d + 2 * k) * 21 / 2 - k * 117 / 3;
    runnel_cavity f = figures_once(circle_path(2), along(v_cutter(90, 0), d));
    ck_near(f.volume_mm3, 2 * PI * (inner + outer), 1e-9);
    ck_near(f.footprint_mm2, 25 * PI, 1e-9);
    ck_near(f.perimeter_mm, 10 * PI, 1e-9);
    f = figures_once(circle_path(2), along(flat_end(3), 4));
    ck_near(f.volume_mm3, 100 * PI, 1e-9);
    ck_near(f.wall_mm2, 25 * PI + 40 * PI, 1e-9);
}
END_TEST

/* --- crossings and bends --- */

START_TEST(cross_of_flat_slots) {
    /* two slots 100 x 6 less the square in common */
    runnel_contours c = {0};
    add_line(&c, -50, 0, 50, 0);
    add_line(&c, 0, -50, 0, 50);
    runnel_cavity f = figures_once(path_of(&c), along(flat_end(3), 5));
    ck_near(f.footprint_mm2, 2 * (600 + 9 * PI) - 36, 1e-9);
    ck_near(f.volume_mm3, 5 * (2 * (600 + 9 * PI) - 36), 1e-9);
    ck_near(f.perimeter_mm, 2 * (200 + 6 * PI) - 24, 1e-9);
}
END_TEST

START_TEST(cross_of_v_grooves) {
    /* In the square that two V grooves of 90 degrees share, 2 d x 2 d, the deeper one counts; the
     * part that both cut is the pyramid under it, (2 d)^2 d/3. */
    runnel_contours c = {0};
    add_line(&c, -50, 0, 50, 0);
    add_line(&c, 0, -50, 0, 50);
    double d = 4, one = 100 * d * d + PI * d * d * d / 3;
    runnel_cavity f = figures_once(path_of(&c), along(v_cutter(90, 0), d));
    ck_near(f.volume_mm3, 2 * one - 4 * d * d * d / 3, 1e-9);
}
END_TEST

START_TEST(cross_of_round_grooves) {
    /* what two half-round grooves share is half of the body common to two cylinders: (16/3) r^3/2
     * (Archimedes, The Method) */
    runnel_contours c = {0};
    add_line(&c, -50, 0, 50, 0);
    add_line(&c, 0, -50, 0, 50);
    double r = 4, one = 100 * PI * r * r / 2 + 2 * PI * r * r * r / 3;
    runnel_cavity f = figures_once(path_of(&c), along(round_nose(r), r));
    ck_near(f.volume_mm3, 2 * one - 8 * r * r * r / 3, 1e-9);
}
END_TEST

START_TEST(closed_square_path) {
    /* flat cutter r around a square of 40: by r outside with rounded corners, inside sharp */
    runnel_contours c = {0};
    add_rectangle(&c, 0, 0, 40, 40);
    runnel_cavity f = figures_once(path_of(&c), along(flat_end(3), 2));
    ck_near(f.footprint_mm2, 160 * 3 + 9 * PI + 1600 - 34 * 34, 1e-9);
    ck_near(f.perimeter_mm, 160 + 6 * PI + 4 * 34, 1e-9);
}
END_TEST

START_TEST(a_line_to_and_fro_is_one_line) {
    runnel_contours c = {0};
    add_line(&c, 0, 0, 100, 0, 20, 0, 70, 0);
    add_line(&c, 100, 0, 0, 0);
    runnel_cavity f = figures_once(path_of(&c), along(v_cutter(60, 0), 5));
    ck_near(f.volume_mm3, 1487.0089, PRINTED);
}
END_TEST

START_TEST(sections_of_grooves) {
    runnel_shape *line = straight(100);
    /* V: half width (d - z) tan; round nose: sqrt(h (2 r - h)) with h = d - z */
    double r = 3 / sqrt(3);
    ck_near(section_of(line, along(v_cutter(60, 0), 5), 2), 200 * r + PI * r * r, 1e-12);
    r = sqrt(2 * (6 - 2.0));
    ck_near(section_of(line, along(round_nose(3), 8), 6), 200 * r + PI * r * r, 1e-12);
    ck_near(section_of(line, along(round_nose(3), 8), 4), 600 + PI * 9, 1e-12);
    ck_near(section_of(line, along(flat_end(3), 5), 5), 600 + PI * 9, 1e-12);
    ck_near_or(section_of(line, along(flat_end(3), 5), 5.001), 0, 0, 0);
    ck_near(margin_of(line, along(flat_end(3), 5), 2), 400 + PI * (25 - 9), 1e-12);
    runnel_shape_free(line);
}
END_TEST

START_TEST(half_width_of_cutters) {
    runnel_cutter v = v_cutter(60, 0.2), round = round_nose(3), flat = flat_end(3), none = {0};
    ck_near(runnel_cutter_face_radius_mm(&v, 5), 0.1 + 5 / sqrt(3), 1e-12);
    ck_near(runnel_cutter_face_radius_mm(&round, 1.2), 2.4, 1e-12); /* chord 4.8 */
    ck_near(runnel_cutter_face_radius_mm(&round, 8), 3, 0);
    ck_near(runnel_cutter_face_radius_mm(&flat, 0.5), 3, 0);
    ck_near_or(runnel_cutter_face_radius_mm(&none, 5), 0, 0, 0);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("cavity_paths");
    TCase *grooves = tcase_create("grooves");
    tcase_add_test(grooves, v_grooves);
    tcase_add_test(grooves, depth_for_a_width);
    tcase_add_test(grooves, v_groove_with_a_flat_tip);
    tcase_add_test(grooves, v_groove_of_100);
    tcase_add_test(grooves, what_ifs_of_a_v_groove);
    tcase_add_test(grooves, round_nose_grooves);
    tcase_add_test(grooves, ends_of_round_nose_grooves);
    tcase_add_test(grooves, round_slot_of_100);
    tcase_add_test(grooves, slot_of_a_flat_cutter);
    suite_add_tcase(suite, grooves);
    TCase *rings = tcase_create("rings");
    tcase_add_test(rings, round_ring_groove);
    tcase_add_test(rings, quarter_turn_as_chords);
    tcase_add_test(rings, v_ring_groove);
    tcase_add_test(rings, ring_that_closes_its_middle);
    suite_add_tcase(suite, rings);
    TCase *crossings = tcase_create("crossings");
    tcase_add_test(crossings, cross_of_flat_slots);
    tcase_add_test(crossings, cross_of_v_grooves);
    tcase_add_test(crossings, cross_of_round_grooves);
    tcase_add_test(crossings, closed_square_path);
    tcase_add_test(crossings, a_line_to_and_fro_is_one_line);
    tcase_add_test(crossings, sections_of_grooves);
    tcase_add_test(crossings, half_width_of_cutters);
    suite_add_tcase(suite, crossings);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
