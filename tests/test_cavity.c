/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sharp V cutters in outlines against mensuration. "Handbook" below means the mensuration formulas
 * of Machinery's Handbook and of the CRC Standard Mathematical Tables; the numbers are worked from
 * them by hand. Printed figures of eight digits are compared to those digits.
 */
#include "numeric/quadrature.h"
#include "solids.h"

#include <stdlib.h>

/* A printed figure: half a unit of its eighth digit. */
#define PRINTED 1e-7

/* --- whole roofs --- */

START_TEST(pyramid_over_a_square) {
    /* Handbook: A h/3; square 40, 90 degrees: height 20 */
    runnel_cavity f = figures_once(rectangle(40, 40), walls(90, 0));
    ck_near(f.volume_mm3, 1600 * 20 / 3.0, 1e-9);
    ck_near(f.volume_mm3, 10666.667, PRINTED);
    ck_near(f.deepest_mm, 20, 1e-12);
    ck_near(f.deepest_at.x_mm, 20, 1e-12);
    ck_near(f.deepest_at.y_mm, 20, 1e-12);
    ck_near(f.widest_mm, 40, 1e-12);
    ck_near(f.footprint_mm2, 1600, 1e-12);
    ck_near(f.perimeter_mm, 160, 1e-12);
    ck_near(f.wall_mm2, 1600 * sqrt(2), 1e-12); /* four triangles of 40 x 20 sqrt 2 */
    ck_assert(f.volume_error_mm3 < 1e-9 * f.volume_mm3);
    ck_near_or(f.uncut_mm2, 0, 0, 0);
    ck_assert_uint_eq(f.uncut_places, 0);
    /* 2 atan(20/12): the same square to a height of 12, 1600 x 12/3 */
    ck_near(volume_once(rectangle(40, 40), walls(2 * atan(20.0 / 12) * 180 / PI, 0)), 6400, 1e-9);
}
END_TEST

START_TEST(cone_over_a_disc) {
    /* Handbook, cone: pi r^2 h/3; r 6, h 9: 339.29201; half angle atan(6/9) */
    double angle = 2 * atan(6.0 / 9) * 180 / PI;
    runnel_cavity f = figures_once(disc(6), walls(angle, 0));
    ck_near(f.volume_mm3, PI * 36 * 9 / 3, 1e-9);
    ck_near(f.volume_mm3, 339.29201, PRINTED);
    ck_near(f.wall_mm2, PI * 6 * hypot(6, 9), 1e-12); /* Handbook: pi r s, s the slant height */
    ck_near(f.perimeter_mm, 12 * PI, 1e-12);
    ck_near(f.deepest_mm, 9, 1e-12);
    /* disc R 20 at 90 degrees, A r/3 */
    ck_near(volume_once(disc(20), walls(90, 0)), PI * 400 * 20 / 3, 1e-9);
    ck_near(volume_once(disc(20), walls(90, 0)), 8377.5804, PRINTED);
}
END_TEST

START_TEST(frustum_of_a_cone) {
    /* Handbook: pi h (R^2 + R r + r^2)/3; R 10, r 6, h 8: 1642.0058; half angle atan(4/8) */
    runnel_cavity f = figures_once(disc(10), walls(2 * atan(0.5) * 180 / PI, 8));
    ck_near(f.volume_mm3, PI * 8 * (100 + 60 + 36) / 3, 1e-9);
    ck_near(f.volume_mm3, 1642.0058, PRINTED);
    /* sides pi (R + r) s, floor pi r^2 */
    ck_near(f.wall_mm2, PI * 16 * hypot(4, 8) + PI * 36, 1e-9);
    ck_near(f.deepest_mm, 8, 1e-12);
}
END_TEST

START_TEST(pyramids_over_regular_polygons) {
    /* Handbook: every polygon about an incircle of radius r has the pyramid A h/3; at 90 degrees
     * h = r. Triangle of side 60: 9000. Area of a regular polygon: n s^2 cot(pi/n)/4. */
    ck_near(volume_once(regular(3, 60), walls(90, 0)), 9000, 1e-9);
    for (size_t n = 3; n < 12; n++) {
        double cot = 1 / tan(PI / (double)n), area = (double)n * 100 * cot / 4, r = 5 * cot;
        runnel_cavity f = figures_once(regular(n, 10), walls(60, 0));
        ck_near(f.volume_mm3, area * r * sqrt(3) / 3, 1e-9);
        ck_near(f.deepest_mm, r * sqrt(3), 1e-12);
        ck_near(f.wall_mm2, 2 * area, 1e-9);
        ck_near(f.perimeter_mm, 10 * (double)n, 1e-12);
    }
}
END_TEST

START_TEST(any_triangle_is_a_pyramid) {
    /* 13, 14, 15: area 84, inradius 4 (Heron); 13, 20, 21: area 126, inradius 14/3 */
    runnel_contours c = {0};
    add_ring(&c, 0, 0, 14, 0, 5, 12);
    ck_near(volume_once(outline_of(&c), walls(90, 0)), 84 * 4 / 3.0, 1e-9);
    add_ring(&c, 0, 0, 21, 0, 5, 12);
    ck_near(volume_once(outline_of(&c), walls(90, 0)), 126 * (14.0 / 3) / 3, 1e-9);
}
END_TEST

START_TEST(hip_roof) {
    /* Handbook, wedge: b h (2a + c)/6; eaves 60 x 40, ridge 20.
     * 90 degrees: h 20: 18666.667; 60 degrees: h 20 sqrt 3 = 34.641016: 32331.615 */
    runnel_cavity f = figures_once(rectangle(60, 40), walls(90, 0));
    ck_near(f.volume_mm3, 40.0 * 20 * (120 + 20) / 6, 1e-9);
    ck_near(f.volume_mm3, 18666.667, PRINTED);
    ck_near(f.deepest_mm, 20, 1e-12);
    /* sloping walls: plan area over sin of the half angle */
    ck_near(f.wall_mm2, 3394.1125, PRINTED);
    f = figures_once(rectangle(60, 40), walls(60, 0));
    ck_near(f.volume_mm3, 40 * 20 * sqrt(3) * (120 + 20) / 6, 1e-9);
    ck_near(f.volume_mm3, 32331.615, PRINTED);
    ck_near(f.deepest_mm, 34.641016, PRINTED);
    ck_near(f.wall_mm2, 4800, 1e-9);
    ck_near(f.narrowest_mm, 40, 1e-12);
    ck_near(f.widest_mm, 40, 1e-12);
}
END_TEST

START_TEST(capped_hip_roof) {
    /* Handbook, prismoidal formula h (A1 + 4 Am + A2)/6; 60 x 40, 8 deep, inset at the floor 8 and
     * 8/sqrt 3 = 4.6188022: 13482.667 and 15732.514 */
    runnel_cavity f = figures_once(rectangle(60, 40), walls(90, 8));
    ck_near(f.volume_mm3, 8 * (60 * 40 + 4 * 52 * 32 + 44 * 24) / 6.0, 1e-9);
    ck_near(f.volume_mm3, 13482.667, PRINTED);
    ck_near(f.deepest_mm, 8, 1e-12);
    ck_near(f.wall_mm2, (2400 - 44 * 24) * sqrt(2) + 44 * 24, 1e-9);
    f = figures_once(rectangle(60, 40), walls(60, 8));
    ck_near(f.volume_mm3, 15732.514, PRINTED);
    ck_near(f.wall_mm2, 1676.8542 + 1561.5729, PRINTED); /* walls and floor, as for the roof */
    ck_near(f.footprint_mm2, 2400, 1e-12);
    /* a limit deeper than the roof changes nothing */
    f = figures_once(rectangle(60, 40), walls(90, 21));
    ck_near(f.volume_mm3, 18666.667, PRINTED);
    ck_near(f.deepest_mm, 20, 1e-12);
}
END_TEST

START_TEST(prismoid_and_two_traps) {
    /* Handbook, prismoid 80 x 50 to 60 x 30, 10 deep, mid 70 x 40: 28333.333. Not the average of
     * the ends (29000), not the root formula of similar ends (28277.605). */
    double volume = volume_once(rectangle(80, 50), walls(90, 10));
    ck_near(volume, 10 * (4000 + 4 * 2800 + 1800) / 6.0, 1e-9);
    ck_near(volume, 28333.333, PRINTED);
    ck_assert(fabs(volume - 29000) > 600 && fabs(volume - 28277.605) > 50);
    /* similar ends: h (A1 + A2 + sqrt(A1 A2))/3 holds, 40 x 40 to 20 x 20, 10 deep */
    ck_near(volume_once(rectangle(40, 40), walls(90, 10)), 10 * (1600 + 400 + 800) / 3.0, 1e-9);
}
END_TEST

/* --- a reflex corner --- */

/* Depth over the L: distance to the nearest point of its edge. */
static double distance_in_l(double x, double y) {
    const double e[7][2] = {{0, 0}, {60, 0}, {60, 30}, {30, 30}, {30, 60}, {0, 60}, {0, 0}};
    double best = INFINITY;
    for (int i = 0; i < 6; i++) {
        double ux = e[i + 1][0] - e[i][0], uy = e[i + 1][1] - e[i][1];
        double t = ((x - e[i][0]) * ux + (y - e[i][1]) * uy) / (ux * ux + uy * uy);
        t = fmin(fmax(t, 0), 1);
        best = fmin(best, hypot(x - e[i][0] - t * ux, y - e[i][1] - t * uy));
    }
    return best;
}

static double l_at(double y, void *state) {
    return distance_in_l(*(double *)state, y);
}

static double l_column(double x, void *state) {
    double value = NAN, error = 0, gap = 0, rest = 0;
    (void)state;
    /* split where the edge ends, so that the quadrature meets no step */
    ck_assert_int_eq(runnel_integrate(l_at, &x, 0, 30, 1e-9, 1e-11, &value, &error), RUNNEL_OK);
    if (x <= 30)
        ck_assert_int_eq(runnel_integrate(l_at, &x, 30, 60, 1e-9, 1e-11, &rest, &gap), RUNNEL_OK);
    return value + rest;
}

START_TEST(l_shape_is_no_mitred_roof) {
    /*
     * 60 x 60 less 30 x 30 at 90 degrees. By hand: the two arms beyond the inner square are half
     * roofs, 225 x 15 + 4500/2 each. In the inner square, with polar coordinates about the reflex
     * corner, the depth is min(r, 30 - r cos t), which change over at r = 30/(1 + cos t); the
     * integral of depth x r dr is 4500/cos^2 t - 4500/(1 + cos t)^2, and over both halves
     * 2 (4500 tan(pi/4) - 2250 (q + q^3/3)) with q = tan(pi/8) = sqrt 2 - 1. In all
     * 35250 - 12000 sqrt 2 = 18279.43725152.
     */
    double by_hand = 35250 - 12000 * sqrt(2);
    ck_near(by_hand, 18279.43725152, 1e-12);
    runnel_cavity f = figures_once(l_shape(), walls(90, 0));
    ck_near(f.volume_mm3, by_hand, 1e-9);
    /* a roof with mitred edges, whose walls meet in straight lines, would hold 18000 */
    ck_assert(fabs(f.volume_mm3 - 18000) > 279);
    /* the same by quadrature of the distance over the plane */
    double left = NAN, right = NAN, error = 0;
    ck_assert_int_eq(runnel_integrate(l_column, NULL, 0, 30, 1e-7, 1e-10, &left, &error),
                     RUNNEL_OK);
    ck_assert_int_eq(runnel_integrate(l_column, NULL, 30, 60, 1e-7, 1e-10, &right, &error),
                     RUNNEL_OK);
    ck_near(f.volume_mm3, left + right, 1e-9);
    ck_near(f.wall_mm2, 2700 * sqrt(2), 1e-9);
    ck_near(f.deepest_mm, 30 * sqrt(2) / (1 + sqrt(2)), 1e-12);
    ck_near(f.narrowest_mm, 30, 1e-12);
    ck_near(f.widest_mm, 60 * sqrt(2) / (1 + sqrt(2)), 1e-12);
}
END_TEST

START_TEST(capped_l_shape) {
    /* section of the L at depth t < 15: 2700 - 240 t + 5 t^2 - pi t^2/4; down to 9, by hand */
    double t = 9, want = 2700 * t - 120 * t * t + (5 - PI / 4) * t * t * t / 3;
    ck_near(volume_once(l_shape(), walls(90, 9)), want, 1e-9);
}
END_TEST

START_TEST(hole_in_a_square) {
    /* a square 60 with a square hole 20 in its middle, limit 8 at 90 degrees: outer prismoid less
     * the hole grown: sections 3600 - 240 t + 4 t^2 - (400 + 80 t + pi t^2) */
    runnel_contours c = {0};
    add_rectangle(&c, 0, 0, 60, 60);
    add_rectangle(&c, 20, 20, 20, -20);
    double t = 8, want = 3200 * t - 160 * t * t + (4 - PI) * t * t * t / 3;
    runnel_cavity f = figures_once(outline_of(&c), walls(90, 8));
    ck_near(f.volume_mm3, want, 1e-9);
    ck_near(f.footprint_mm2, 3200, 1e-12);
    ck_near(f.perimeter_mm, 320, 1e-12);
    ck_near(f.narrowest_mm, 20, 1e-12);
    double floor = 3200 - 320 * t + (4 - PI) * t * t;
    ck_near(f.wall_mm2, (3200 - floor) * sqrt(2) + floor, 1e-9);
}
END_TEST

/* --- sections, margins and what-ifs --- */

START_TEST(sections_of_a_rectangle) {
    runnel_shape *shape = rectangle(60, 40);
    double z = 5, s = z / sqrt(3); /* inset at 60 degrees */
    ck_near(section_of(shape, walls(60, 0), z), (60 - 2 * s) * (40 - 2 * s), 1e-12);
    ck_near(section_of(shape, walls(60, 0), 0), 2400, 1e-12);
    ck_near_or(section_of(shape, walls(60, 0), 34.642), 0, 0, 1e-9);
    ck_near_or(section_of(shape, walls(60, 0), 99), 0, 0, 0);
    ck_near(section_of(shape, walls(60, 8), 8), 1561.5729, PRINTED);
    ck_near_or(section_of(shape, walls(60, 8), 8.001), 0, 0, 0);
    runnel_shape_free(shape);
}
END_TEST

START_TEST(margins_of_a_rectangle) {
    /* Handbook, parallel curve: P r + pi r^2; by 3 from 60 x 40: 3028.2743 - 2400 */
    runnel_shape *shape = rectangle(60, 40);
    ck_near(margin_of(shape, walls(60, 0), 3), 600 + 9 * PI, 1e-12);
    ck_near(2400 + margin_of(shape, walls(60, 0), 3), 3028.2743, PRINTED);
    ck_near_or(margin_of(shape, walls(60, 0), 0), 0, 0, 1e-12);
    ck_near(margin_of(shape, walls(60, 0), 30), 6000 + 900 * PI, 1e-12);
    runnel_shape_free(shape);
    shape = disc(20);
    ck_near(margin_of(shape, walls(60, 0), 3), PI * (23 * 23 - 400), 1e-12);
    runnel_shape_free(shape);
}
END_TEST

START_TEST(margins_in_a_gap_count_once) {
    /* two squares 20 at a gap of 6, band of 5: see the lens of two discs in the Handbook,
     * 2 r^2 acos(d/2r) - d sqrt(r^2 - d^2/4) with r 5, d 6 */
    runnel_contours c = {0};
    add_rectangle(&c, 0, 0, 20, 20);
    add_rectangle(&c, 26, 0, 20, 20);
    runnel_shape *shape = outline_of(&c);
    double lens = 50 * acos(0.6) - 24;
    ck_near(margin_of(shape, walls(60, 0), 5), 2 * (400 + 25 * PI) - 80 - lens, 1e-12);
    runnel_shape_free(shape);
}
END_TEST

START_TEST(deeper_and_shallower) {
    /* by hand at 90 degrees, g = 0.1: deeper adds g A and, around the edge, a ring whose section is
     * a triangle: P g^2/2 + 2 pi g^3/6; shallower takes the top layer, prismoidal */
    double g = 0.1;
    runnel_cavity f = figures_once(rectangle(60, 40), walls(90, 0));
    ck_near(f.depth_plus_mm3, 2400 * g + 200 * g * g / 2 + PI * g * g * g / 3, 1e-9);
    ck_near(f.depth_minus_mm3, -g * (2400 + 4 * 59.9 * 39.9 + 59.8 * 39.8) / 6, 1e-9);
    /* a limit does not matter for either */
    f = figures_once(rectangle(60, 40), walls(90, 8));
    ck_near(f.depth_plus_mm3, 2400 * g + 200 * g * g / 2 + PI * g * g * g / 3, 1e-9);
    ck_near(f.depth_minus_mm3, -g * (2400 + 4 * 59.9 * 39.9 + 59.8 * 39.8) / 6, 1e-9);
    /* less deep than the step: nothing is left */
    f = figures_once(rectangle(60, 40), walls(90, 0.08));
    ck_near(f.depth_minus_mm3, -f.volume_mm3, 1e-12);
    /* disc: Pappus, a triangle g x g outside of radius R */
    f = figures_once(disc(20), walls(90, 0));
    ck_near(f.depth_plus_mm3, g * PI * 400 + g * g / 2 * 2 * PI * (20 + g / 3), 1e-9);
    ck_near(f.depth_minus_mm3, -g * PI * (400 + 20 * 19.9 + 19.9 * 19.9) / 3, 1e-9);
}
END_TEST

START_TEST(deeper_around_a_reflex_corner) {
    /* By hand: the outside of the L within t of it is P t + 5 pi t^2/4 - t^2, five corners rounded
     * and the square in the inner one counted once; 0.1 deeper fills the integral of that up to g =
     * 0.1 tan a, times cot a, and 0.1 of the footprint. A limit changes nothing. */
    const double angles[] = {30, 60, 90, 120};
    for (int i = 0; i < 8; i++) {
        double tangent = tan(angles[i / 2] * PI / 360), g = 0.1 * tangent;
        double ring = (240 * g * g / 2 + (5 * PI / 4 - 1) * g * g * g / 3) / tangent;
        runnel_cavity f = figures_once(l_shape(), walls(angles[i / 2], i % 2 * 3.0));
        ck_near(f.depth_plus_mm3, 270 + ring, 1e-9);
        /* shallower: the top layer, sections 2700 - 240 t + (5 - pi/4) t^2 */
        double top = (2700 * g - 240 * g * g / 2 + (5 - PI / 4) * g * g * g / 3) / tangent;
        ck_near(f.depth_minus_mm3, -top, 1e-9);
    }
}
END_TEST

START_TEST(deeper_is_a_shape_that_has_grown) {
    /* without a reflex corner, the same tool path 0.1 deeper cuts the outline grown by 0.1 tan a:
     * another shape altogether, and shallower one that has shrunk */
    const double angles[] = {30, 60, 90, 120};
    for (int i = 0; i < 4; i++) {
        double g = 0.1 * tan(angles[i] * PI / 360);
        runnel_shape *larger = NULL;
        ck_assert_int_eq(runnel_shape_rounded(60 + 2 * g, 40 + 2 * g, g, false, &larger),
                         RUNNEL_OK);
        runnel_cavity f = figures_once(rectangle(60, 40), walls(angles[i], 0));
        ck_near(f.depth_plus_mm3, volume_once(larger, walls(angles[i], 0)) - f.volume_mm3, 1e-9);
        double smaller = volume_once(rectangle(60 - 2 * g, 40 - 2 * g), walls(angles[i], 0));
        ck_near(f.depth_minus_mm3, smaller - f.volume_mm3, 1e-9);
    }
}
END_TEST

START_TEST(change_with_the_angle) {
    /* By hand: the tool path is kept, so a wall turns about its foot at the tip: the depth grows by
     * (m - t)/sin^2 a per rad of half angle, m where the normal ends. Rectangle without limit: no
     * reflex corner, so the integral of m - t is that of t: the roof's volume at 90 degrees. */
    runnel_cavity f = figures_once(rectangle(60, 40), walls(60, 0));
    ck_near(f.angle_mm3_per_degree, 18666.666666666668 / 0.25 * PI / 360, 1e-9);
    /* with a limit of 4 at 90 degrees: over the rim only, integral of t P(t) = t (200 - 8 t) */
    f = figures_once(rectangle(60, 40), walls(90, 4));
    ck_near(f.angle_mm3_per_degree, (100 * 16 - 8 * 64 / 3.0) / 0.5 * PI / 360, 1e-9);
    /* disc: integral of (R - t) 2 pi (R - t) = 2 pi R^3/3 */
    f = figures_once(disc(20), walls(90, 0));
    ck_near(f.angle_mm3_per_degree, 2 * PI * 8000 / 3 / 0.5 * PI / 360, 1e-9);
}
END_TEST

START_TEST(wall_factor) {
    /* wall over footprint is 1/sin(half angle): 2, 1.41 and 3.86 for 60, 90 and 30 degrees */
    const double angles[] = {60, 90, 30}, factors[] = {2, 1.41, 3.86};
    for (int i = 0; i < 3; i++) {
        runnel_cavity f = figures_once(l_shape(), walls(angles[i], 0));
        ck_near_or(f.wall_mm2 / f.footprint_mm2, factors[i], 0, 0.005);
        ck_near(f.wall_mm2 / f.footprint_mm2, 1 / sin(angles[i] * PI / 360), 1e-12);
    }
}
END_TEST

/* --- widths --- */

START_TEST(widths_of_a_cross) {
    /* two bars 60 x 10: a disc in the middle touches the four inner corners */
    runnel_contours c = {0};
    add_rectangle(&c, 0, 25, 60, 10);
    add_rectangle(&c, 25, 0, 10, 60);
    runnel_cavity f = figures_once(outline_of(&c), walls(90, 0));
    ck_near(f.narrowest_mm, 10, 1e-12);
    ck_near(f.widest_mm, 10 * sqrt(2), 1e-12);
    ck_near(f.deepest_mm, 5 * sqrt(2), 1e-12);
    ck_near(f.deepest_at.x_mm, 30, 1e-12);
    ck_near(f.deepest_at.y_mm, 30, 1e-12);
}
END_TEST

START_TEST(widths_of_a_tapered_bar) {
    /* 100 long, 10 wide at one end and 4 at the other, so each wall leans by atan 0.03. Discs
     * between both walls and an end: from the narrow end r = (2 + 0.03 r) cos, from the wide one
     * r = (5 - 0.03 r) cos; the corners beyond them do not count as strokes. */
    runnel_contours c = {0};
    add_ring(&c, 0, -5, 100, -2, 100, 2, 0, 5);
    double cosine = 1 / sqrt(1 + 0.03 * 0.03);
    runnel_cavity f = figures_once(outline_of(&c), walls(60, 0));
    ck_near(f.narrowest_mm, 4 * cosine / (1 - 0.03 * cosine), 1e-12);
    ck_near(f.widest_mm, 10 * cosine / (1 + 0.03 * cosine), 1e-12);
    ck_near(f.narrowest_at.x_mm, 100 - f.narrowest_mm / 2, 1e-9);
    ck_near_or(f.narrowest_at.y_mm, 0, 0, 1e-9);
}
END_TEST

START_TEST(widths_of_a_wedge) {
    /* walls that part by 40 degrees are no stroke: the widest place is told for both */
    runnel_contours c = {0};
    add_ring(&c, 0, 0, 30, -30 * tan(PI / 9), 30, 30 * tan(PI / 9));
    runnel_cavity f = figures_once(outline_of(&c), walls(60, 0));
    ck_near(f.narrowest_mm, f.widest_mm, 1e-12);
}
END_TEST

START_TEST(widths_of_letters) {
    /* an E of a stem 12 wide and arms 8, 6 and 7 wide; and a serif of 1.5 at its foot */
    runnel_contours c = {0};
    add_rectangle(&c, 0, 0, 12, 70);
    add_rectangle(&c, 6, 62, 40, 8);
    add_rectangle(&c, 6, 32, 30, 6);
    add_rectangle(&c, 6, 0, 44, 7);
    runnel_cavity f = figures_once(outline_of(&c), walls(60, 0));
    ck_near(f.narrowest_mm, 6, 1e-12);
    ck_near(f.narrowest_at.y_mm, 35, 1e-12);
    ck_assert(f.narrowest_at.x_mm > 12 - 1e-9);
    add_rectangle(&c, 0, 0, 12, 70);
    add_rectangle(&c, 6, 62, 40, 8);
    add_rectangle(&c, 6, 32, 30, 6);
    add_rectangle(&c, 6, 0, 44, 7);
    add_rectangle(&c, -9, 0, 20, 1.5);
    f = figures_once(outline_of(&c), walls(60, 0));
    ck_near(f.narrowest_mm, 1.5, 1e-12);
    ck_near(f.narrowest_at.y_mm, 0.75, 1e-12);
    /* an O: a ring of two squares, 80 and 60 */
    add_rectangle(&c, 0, 0, 80, 80);
    add_rectangle(&c, 10, 10, 60, -60);
    f = figures_once(outline_of(&c), walls(60, 0));
    ck_near(f.narrowest_mm, 10, 1e-12);
    /* in a corner, a disc that touches both outer sides and the inner corner: r sqrt 2 + r = 10
     * sqrt 2 */
    ck_near(f.widest_mm, 2 * 10 * sqrt(2) / (1 + sqrt(2)), 1e-12);
}
END_TEST

START_TEST(flattened_curves_stay_within_the_bound) {
    /* a circle in chords against the exact cone, pi r^3/3 at 90 degrees */
    for (double tolerance = 0.1; tolerance > 1e-6; tolerance /= 10) {
        runnel_contours c = {0};
        add_ring(&c, 20, 0);
        ck_assert_int_eq(runnel_contours_arc(&c, (runnel_point){0, 0}, 360, tolerance), RUNNEL_OK);
        runnel_contours_close(&c);
        runnel_cavity f = figures_once(outline_of(&c), walls(90, 0));
        double gap = PI * 8000 / 3 - f.volume_mm3;
        ck_assert(gap > 0 && gap <= f.volume_error_mm3);
        ck_assert(f.volume_error_mm3 <= tolerance * PI * 400 * 1.001);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("cavity");
    TCase *roofs = tcase_create("roofs");
    tcase_add_test(roofs, pyramid_over_a_square);
    tcase_add_test(roofs, cone_over_a_disc);
    tcase_add_test(roofs, frustum_of_a_cone);
    tcase_add_test(roofs, pyramids_over_regular_polygons);
    tcase_add_test(roofs, any_triangle_is_a_pyramid);
    tcase_add_test(roofs, hip_roof);
    tcase_add_test(roofs, capped_hip_roof);
    tcase_add_test(roofs, prismoid_and_two_traps);
    suite_add_tcase(suite, roofs);
    TCase *reflex = tcase_create("reflex corners");
    tcase_add_test(reflex, l_shape_is_no_mitred_roof);
    tcase_add_test(reflex, capped_l_shape);
    tcase_add_test(reflex, hole_in_a_square);
    suite_add_tcase(suite, reflex);
    TCase *what_ifs = tcase_create("sections and what-ifs");
    tcase_add_test(what_ifs, sections_of_a_rectangle);
    tcase_add_test(what_ifs, margins_of_a_rectangle);
    tcase_add_test(what_ifs, margins_in_a_gap_count_once);
    tcase_add_test(what_ifs, deeper_and_shallower);
    tcase_add_test(what_ifs, deeper_around_a_reflex_corner);
    tcase_add_test(what_ifs, deeper_is_a_shape_that_has_grown);
    tcase_add_test(what_ifs, change_with_the_angle);
    tcase_add_test(what_ifs, wall_factor);
    suite_add_tcase(suite, what_ifs);
    TCase *widths = tcase_create("widths");
    tcase_add_test(widths, widths_of_a_cross);
    tcase_add_test(widths, widths_of_a_tapered_bar);
    tcase_add_test(widths, widths_of_a_wedge);
    tcase_add_test(widths, widths_of_letters);
    tcase_add_test(widths, flattened_curves_stay_within_the_bound);
    suite_add_tcase(suite, widths);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
