/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Cutters that do not come to a point: V cutters with a flat tip in outlines, and pockets. What the
 * tip can reach is the opening of the outline: worked by hand for rectangle, disc, triangle, L and
 * for strokes with necks. "Handbook" means the mensuration formulas of Machinery's Handbook and of
 * the CRC Standard Mathematical Tables.
 */
#include "numeric/quadrature.h"
#include "solids.h"

#include <stdlib.h>

/* A printed figure: half a unit of its eighth digit. */
#define PRINTED 1e-7

/* What a round tip of radius r leaves in a corner, beside what a sharp one would: r^2 (cot(a/2) -
 * (pi - a)/2); in a square corner (1 - pi/4) r^2: Handbook, fillet; r 3: 1.9314165. */
static const double square_corner = 1 - PI / 4;

/* Two squares of 20 joined by a channel, both along the x axis. */
static void add_dumb_bell(runnel_contours *c, double channel, double width) {
    double h = width / 2, x = channel / 2, far = x + 20;
    add_ring(c, -far, -10, -x, -10, -x, -h, x, -h, x, -10, far, -10, far, 10, x, 10, x, h, -x, h,
             -x, 10, -far, 10);
}

/* What a disc of radius r pokes into the mouth of a channel narrower than 2 r: Handbook, segment of
 * a circle with this chord. */
static double mouth(double r, double width) {
    double rise = sqrt(r * r - width * width / 4);
    return r * r * asin(width / 2 / r) - width / 2 * rise;
}

/* Handbook: what two discs of radius r at a distance have in common. */
static double lens(double r, double distance) {
    if (distance >= 2 * r)
        return 0;
    return 2 * r * r * acos(distance / 2 / r) - distance * sqrt(r * r - distance * distance / 4);
}

/* --- V cutter with a flat tip, walls along the outline --- */

START_TEST(tip_in_a_rectangle) {
    /* section at the inset t: (L - 2 t)(W - 2 t) - (4 - pi) r^2; 60 x 40, r 2, down to t = 18:
     * 43200 - 32400 + 7776 - 72 (4 - pi) at 90 degrees */
    runnel_cavity f = figures_once(rectangle(60, 40), walls_tip(90, 4, 0));
    ck_near(f.volume_mm3, 18576 - 72 * (4 - PI), 1e-9);
    ck_near(f.deepest_mm, 18, 1e-12);
    ck_near(f.footprint_mm2, 2400 - (4 - PI) * 4, 1e-12);
    ck_near(f.uncut_mm2, (4 - PI) * 4, 1e-9);
    ck_assert_uint_eq(f.uncut_places, 0);
    ck_near(f.perimeter_mm, 200 - (8 - 2 * PI) * 2, 1e-12);
    /* with a limit: 6 deep at 60 degrees, t = 6/sqrt 3 */
    double t = 6 / sqrt(3), plan = 2400 * t - 100 * t * t + 4 * t * t * t / 3 - (4 - PI) * 4 * t;
    f = figures_once(rectangle(60, 40), walls_tip(60, 4, 6));
    ck_near(f.volume_mm3, plan * sqrt(3), 1e-9);
    ck_near(f.deepest_mm, 6, 1e-12);
    runnel_shape *shape = rectangle(60, 40);
    ck_near(section_of(shape, walls_tip(60, 4, 6), 3),
            (60 - 2 * sqrt(3)) * (40 - 2 * sqrt(3)) - (4 - PI) * 4, 1e-12);
    ck_near_or(section_of(shape, walls_tip(60, 4, 6), 6.01), 0, 0, 0);
    runnel_shape_free(shape);
}
END_TEST

static double corner_wall(double angle, void *state) {
    double k = *(double *)state;
    return sqrt(k * k + 1 + sin(2 * angle));
}

START_TEST(wall_of_a_tip_in_a_rectangle) {
    /* By hand: floor A(t); plane slopes of plan width t whose length falls from P - 8 r by 8 per
     * mm, over sin a; in each corner the arc of radius r moves along (1, 1, -cot a): an area of
     * r t int_0^(pi/2) sqrt(cot^2 a + 1 + sin 2 u) du. That arc is taken as its mean slope, which
     * is why the tolerance is wide. */
    const double angles[] = {30, 60, 90, 120}, radii[] = {0.05, 0.25, 0.5, 1};
    for (int i = 0; i < 16; i++) {
        double half = angles[i % 4] * PI / 360, k = 1 / tan(half), arc = 0, error = 0;
        double t = 5, r = radii[i / 4];
        ck_assert_int_eq(runnel_integrate(corner_wall, &k, 0, PI / 2, 0, 1e-12, &arc, &error),
                         RUNNEL_OK);
        double slopes = (200 - 8 * r) * t - 4 * t * t;
        double floor = (60 - 2 * t) * (40 - 2 * t) - (4 - PI) * r * r;
        runnel_cavity f = figures_once(rectangle(60, 40), walls_tip(angles[i % 4], 2 * r, t * k));
        ck_near(f.wall_mm2, floor + slopes / sin(half) + 4 * r * t * arc, 1e-3);
    }
}
END_TEST

START_TEST(tip_in_a_disc) {
    /* a disc keeps its shape: frustum of a cone from 20 to 2, Handbook pi h (R^2 + R r + r^2)/3 */
    runnel_cavity f = figures_once(disc(20), walls_tip(90, 4, 0));
    ck_near(f.volume_mm3, PI * 18 * (400 + 40 + 4) / 3, 1e-9);
    ck_near(f.footprint_mm2, 400 * PI, 1e-9);
    ck_near_or(f.uncut_mm2, 0, 0, 1e-9);
    ck_near(f.perimeter_mm, 40 * PI, 1e-9);
    ck_near(f.wall_mm2, PI * 22 * 18 * sqrt(2) + 4 * PI, 1e-9);
    ck_near(f.deepest_mm, 18, 1e-12);
    f = figures_once(disc(20), walls_tip(90, 4, 5));
    ck_near(f.volume_mm3, PI * 5 * (400 + 300 + 225) / 3, 1e-9);
}
END_TEST

START_TEST(tip_in_a_triangle) {
    /* 13, 14, 15: area 84, perimeter 42, inradius 4; sum of cot(a/2) = P^2/4A = 5.25. Section at
     * inset t: 84 (1 - t/4)^2 - r^2 (5.25 - pi), down to t = 4 - r; r 1, 90 degrees */
    runnel_contours c = {0};
    add_ring(&c, 0, 0, 14, 0, 5, 12);
    double lost = 5.25 - PI;
    runnel_cavity f = figures_once(outline_of(&c), walls_tip(90, 2, 0));
    ck_near(f.volume_mm3, 84 * 4 / 3.0 * (1 - 1.0 / 64) - 3 * lost, 1e-9);
    ck_near(f.footprint_mm2, 84 - lost, 1e-10);
    ck_near(f.uncut_mm2, lost, 1e-9);
    ck_near(f.perimeter_mm, 42 - 2 * lost, 1e-10); /* d(area)/d(r) of the corners */
}
END_TEST

START_TEST(tip_in_an_l) {
    /* section at t < 15 - r: 2700 - 240 t + (5 - pi/4) t^2 - 5 (4 - pi)/4 r^2; limit 6 */
    double t = 6, r = 1.5, lost = 5 * square_corner * r * r;
    runnel_cavity f = figures_once(l_shape(), walls_tip(90, 3, 6));
    ck_near(f.volume_mm3, 2700 * t - 120 * t * t + (5 - PI / 4) * t * t * t / 3 - lost * t, 1e-9);
    ck_near(f.footprint_mm2, 2700 - lost, 1e-12);
    ck_near(f.perimeter_mm, 240 - 5 * (2 - PI / 2) * r, 1e-12);
}
END_TEST

START_TEST(tip_wider_than_the_stroke) {
    runnel_cavity f = figures_once(rectangle(100, 3), walls_tip(60, 4, 5));
    ck_near_or(f.volume_mm3, 0, 0, 0);
    ck_near_or(f.footprint_mm2, 0, 0, 0);
    ck_near_or(f.wall_mm2, 0, 0, 0);
    ck_near_or(f.deepest_mm, 0, 0, 0);
    ck_near(f.uncut_mm2, 300, 1e-12);
    ck_assert_uint_eq(f.uncut_places, 1);
    f = figures_once(disc(1), walls_tip(60, 4, 5));
    ck_near_or(f.volume_mm3, 0, 0, 0);
    ck_near(f.uncut_mm2, PI, 1e-12);
}
END_TEST

START_TEST(tip_that_vanishes) {
    /* ever smaller tips near the sharp one; what is lost in corners and along the ridge is of the
     * order of the square of the tip */
    double sharp = volume_once(l_shape(), walls(60, 0));
    for (double tip = 1; tip > 1e-7; tip /= 10) {
        double lost = sharp - volume_once(l_shape(), walls_tip(60, tip, 0));
        ck_assert_msg(fabs(lost) <= 100 * tip * tip + 1e-12 * sharp, "tip %g: %.17g lost of %.17g",
                      tip, lost, sharp);
        ck_assert(tip < 1e-5 || lost > 0);
    }
}
END_TEST

START_TEST(a_tip_at_a_long_neck) {
    /* channel 20 long, 3 wide, tip 4: the tip pokes into both mouths, far from each other */
    runnel_contours c = {0};
    add_dumb_bell(&c, 20, 3);
    runnel_cavity f = figures_once(outline_of(&c), walls_tip(90, 4, 1));
    double cut = 800 - 8 * square_corner * 4 + 2 * mouth(2, 3);
    ck_near(f.footprint_mm2, cut, 1e-9);
    ck_near(f.uncut_mm2, 860 - cut, 1e-9);
    ck_assert_uint_eq(f.uncut_places, 1);
    ck_near(f.narrowest_mm, 3, 1e-12);
    ck_near(f.widest_mm, 20, 1e-12);
}
END_TEST

START_TEST(a_tip_at_short_necks) {
    /* the two mouths come so near that their segments overlap: a lens of two discs whose centres
     * stand 2 sqrt(r^2 - (w/2)^2) + length apart. The lens is had by quadrature. */
    for (double width = 0.5; width < 4; width += 0.35) {
        for (double channel = 0.1; channel < 2.5; channel += 0.3) {
            runnel_contours c = {0};
            add_dumb_bell(&c, channel, width);
            runnel_cavity f = figures_once(outline_of(&c), walls_tip(90, 4, 1));
            double apart = 2 * sqrt(4 - width * width / 4) + channel;
            double cut = 800 - 8 * square_corner * 4 + 2 * mouth(2, width) - lens(2, apart);
            ck_near_or(f.footprint_mm2, cut, 0, 2e-3 * lens(2, apart) + 1e-9);
        }
    }
}
END_TEST

START_TEST(places_that_are_not_cut) {
    /* a comb: a bar of 60 x 20 with `teeth` teeth, 2 wide, that a tip of 3 cannot enter */
    for (int teeth = 1; teeth <= 4; teeth++) {
        runnel_contours c = {0};
        add_rectangle(&c, 0, 0, 60, 20);
        for (int i = 0; i < teeth; i++)
            add_rectangle(&c, 5 + 12 * i, 10, 2, 30);
        runnel_cavity f = figures_once(outline_of(&c), walls_tip(60, 3, 2));
        ck_assert_uint_eq(f.uncut_places, (size_t)teeth);
        ck_near(f.narrowest_mm, 2, 1e-12);
        double cut = 1200 - 4 * square_corner * 2.25 + teeth * mouth(1.5, 2);
        ck_near(f.footprint_mm2, cut, 1e-9);
    }
}
END_TEST

START_TEST(places_are_counted_wherever_a_ring_begins) {
    /* two channels in a row; the same ring from each of its corners */
    const double ring[][2] = {{0, 0},   {20, 0},  {20, 9},  {40, 9},   {40, 0},  {60, 0},  {60, 9},
                              {80, 9},  {80, 0},  {100, 0}, {100, 20}, {80, 20}, {80, 11}, {60, 11},
                              {60, 20}, {40, 20}, {40, 11}, {20, 11},  {20, 20}, {0, 20}};
    for (size_t first = 0; first < 20; first++) {
        runnel_contours c = {0};
        ck_assert_int_eq(runnel_contours_begin(&c, true), RUNNEL_OK);
        for (size_t i = 0; i < 20; i++) {
            const double *p = ring[(first + i) % 20];
            ck_assert_int_eq(runnel_contours_add(&c, p[0], p[1]), RUNNEL_OK);
        }
        runnel_cavity f = figures_once(outline_of(&c), walls_tip(60, 3, 2));
        ck_assert_uint_eq(f.uncut_places, 2);
    }
}
END_TEST

/* --- pockets --- */

START_TEST(flat_cutter_in_a_rectangle) {
    /* Handbook, fillet: (1 - pi/4) r^2 are left in each corner; 60 x 40, r 3: 2392.2743, P
     * 194.84956 */
    runnel_cavity f = figures_once(rectangle(60, 40), pocket(flat_end(3), 5));
    ck_near(square_corner * 9, 1.9314165, PRINTED);
    ck_near(f.footprint_mm2, 2400 - 4 * square_corner * 9, 1e-12);
    ck_near(f.footprint_mm2, 2392.2743, PRINTED);
    ck_near(f.perimeter_mm, 194.84956, PRINTED);
    ck_near(f.volume_mm3, 5 * 2392.2743, PRINTED);
    ck_near(f.volume_mm3, 5 * (2400 - 4 * square_corner * 9), 1e-12);
    ck_near(f.wall_mm2, f.footprint_mm2 + 5 * f.perimeter_mm, 1e-12);
    ck_near(f.uncut_mm2, 4 * square_corner * 9, 1e-9);
    ck_near(f.depth_plus_mm3, 0.1 * f.footprint_mm2, 1e-9);
    ck_near(f.depth_minus_mm3, -0.1 * f.footprint_mm2, 1e-9);
    ck_near(f.deepest_mm, 5, 0);
    ck_assert_uint_eq(f.uncut_places, 0);
    ck_near_or(f.angle_mm3_per_degree, 0, 0, 0);
}
END_TEST

/* int rho dz and int rho^2 dz of a round nose r over a depth d: quarter disc or less, cap over pi,
 * and the shank above it. */
static void round_sums(double r, double d, double *first, double *second) {
    double h = fmin(d, r), t = 2 * acos((r - h) / r);
    *first = r * r * (t - sin(t)) / 4 + r * (d - h);
    *second = h * h * (3 * r - h) / 3 + r * r * (d - h);
}

START_TEST(round_nose_in_a_rectangle) {
    /* The centres fill (L - 2 w)(W - 2 w); grown by rho at each level: A B + 2 (A + B) rho + pi
     * rho^2. r 3; depth 2, 3 and 5. */
    const double depths[] = {2, 3, 5};
    for (int i = 0; i < 3; i++) {
        double d = depths[i], h = fmin(d, 3), w = sqrt(h * (6 - h)), s1 = 0, s2 = 0;
        double a = 60 - 2 * w, b = 40 - 2 * w, arc = 3 * acos((3 - h) / 3) + d - h;
        round_sums(3, d, &s1, &s2);
        runnel_cavity f = figures_once(rectangle(60, 40), pocket(round_nose(3), d));
        ck_near(f.volume_mm3, a * b * d + 2 * (a + b) * s1 + PI * s2, 1e-9);
        ck_near(f.footprint_mm2, 2400 - 4 * square_corner * w * w, 1e-12);
        /* floor, four sides and four quarter zones of the ball: 2 pi r h in all */
        ck_near(f.wall_mm2, a * b + 2 * (a + b) * arc + 2 * PI * 3 * (h + d - h), 1e-9);
    }
}
END_TEST

START_TEST(v_cutter_clearing_a_rectangle) {
    /* 60 degrees, tip 1, 4 deep: rho from 0.5 to 0.5 + 4/sqrt 3 = w */
    double w = 0.5 + 4 / sqrt(3), a = 60 - 2 * w, b = 40 - 2 * w;
    double s1 = 4 * (0.5 + w) / 2, s2 = 4 * (0.25 + 0.5 * w + w * w) / 3;
    runnel_cavity f = figures_once(rectangle(60, 40), pocket(v_cutter(60, 1), 4));
    ck_near(f.volume_mm3, a * b * 4 + 2 * (a + b) * s1 + PI * s2, 1e-9);
    ck_near(f.footprint_mm2, 2400 - 4 * square_corner * w * w, 1e-12);
    double slant = 4 / cos(PI / 6), floor = a * b + (a + b) + PI / 4;
    ck_near(f.wall_mm2, floor + 2 * (a + b) * slant + PI * (0.5 + w) * slant, 1e-9);
    /* level 1: rho = 0.5 + 3/sqrt 3 */
    double rho = 0.5 + sqrt(3);
    runnel_shape *shape = rectangle(60, 40);
    ck_near(section_of(shape, pocket(v_cutter(60, 1), 4), 1),
            a * b + 2 * (a + b) * rho + PI * rho * rho, 1e-12);
    ck_near_or(section_of(shape, pocket(v_cutter(60, 1), 4), 4.01), 0, 0, 0);
    runnel_shape_free(shape);
}
END_TEST

START_TEST(pockets_in_a_disc_and_a_triangle) {
    /* disc R: frustum or ball zone around a cylinder, by Pappus: pi (R - w)^2 d + 2 pi (R - w) s1 +
     * pi s2 */
    double s1 = 0, s2 = 0;
    round_sums(3, 3, &s1, &s2);
    runnel_cavity f = figures_once(disc(20), pocket(round_nose(3), 3));
    ck_near(f.volume_mm3, PI * 289 * 3 + 2 * PI * 17 * s1 + PI * s2, 1e-9);
    ck_near(f.footprint_mm2, 400 * PI, 1e-9);
    /* 13, 14, 15: centres 84 (1 - w/4)^2, perimeter 42 (1 - w/4) */
    runnel_contours c = {0};
    add_ring(&c, 0, 0, 14, 0, 5, 12);
    round_sums(1, 2.5, &s1, &s2);
    f = figures_once(outline_of(&c), pocket(round_nose(1), 2.5));
    ck_near(f.volume_mm3, 84 * 0.5625 * 2.5 + 42 * 0.75 * s1 + PI * s2, 1e-9);
    ck_near(f.uncut_mm2, 5.25 - PI, 1e-9);
}
END_TEST

START_TEST(pocket_in_an_l) {
    /* with u = w - rho: 2700 - 240 u + (5 - pi/4) u^2 - 5 (1 - pi/4) rho^2; r 3, depth 3 */
    double s1 = 0, s2 = 0, r = 3;
    round_sums(r, r, &s1, &s2);
    double u1 = r * r - s1, u2 = r * r * r - 2 * r * s1 + s2;
    runnel_cavity f = figures_once(l_shape(), pocket(round_nose(3), 3));
    ck_near(f.volume_mm3, 2700 * r - 240 * u1 + (5 - PI / 4) * u2 - 5 * square_corner * s2, 1e-9);
    ck_near(f.footprint_mm2, 2700 - 5 * square_corner * 9, 1e-12);
    f = figures_once(l_shape(), pocket(flat_end(3), 4));
    ck_near(f.volume_mm3, 4 * (2700 - 5 * square_corner * 9), 1e-12);
    ck_near(f.wall_mm2, f.footprint_mm2 + 4 * f.perimeter_mm, 1e-12);
}
END_TEST

START_TEST(pocket_around_an_island) {
    /* corners of the island are cut sharp: only the outer four keep something */
    runnel_contours c = {0};
    add_rectangle(&c, 0, 0, 60, 60);
    add_rectangle(&c, 20, 20, 20, -20);
    runnel_cavity f = figures_once(outline_of(&c), pocket(flat_end(3), 5));
    ck_near(f.footprint_mm2, 3200 - 4 * square_corner * 9, 1e-12);
    ck_near(f.perimeter_mm, 320 - 4 * (2 - PI / 2) * 3, 1e-12);
    ck_near(f.volume_mm3, 5 * f.footprint_mm2, 1e-12);
}
END_TEST

START_TEST(cutter_wider_than_the_pocket) {
    runnel_cavity f = figures_once(rectangle(60, 5), pocket(flat_end(3), 5));
    ck_near_or(f.volume_mm3, 0, 0, 0);
    ck_near_or(f.footprint_mm2, 0, 0, 0);
    ck_near_or(f.wall_mm2, 0, 0, 0);
    ck_near_or(f.perimeter_mm, 0, 0, 0);
    ck_near_or(f.deepest_mm, 0, 0, 0);
    ck_near(f.uncut_mm2, 300, 1e-12);
    ck_assert_uint_eq(f.uncut_places, 1);
}
END_TEST

START_TEST(a_slot_as_wide_as_the_cutter) {
    /* 60 x 6 and a cutter of 6, whichever way it is turned: 54 x 6 and two half discs */
    for (int i = 0; i < 40; i++) {
        runnel_contours plain = {0}, turned = {0};
        add_rectangle(&plain, 0, 0, 60, 6);
        add_turned(&turned, &plain, 0.1 * i, 1, 37.7 * i, -12.1 * i);
        runnel_contours_clear(&plain);
        runnel_shape *shape = outline_of(&turned);
        runnel_cavity f = figures_of(shape, pocket(flat_end(3), 5));
        double slot = 54 * 6 + 9 * PI;
        ck_near(f.footprint_mm2, slot, 1e-9);
        ck_near(f.volume_mm3, 5 * slot, 1e-9);
        ck_near(f.perimeter_mm, 108 + 6 * PI, 1e-9);
        ck_near(f.wall_mm2, slot + 5 * (108 + 6 * PI), 1e-9);
        ck_near(f.deepest_mm, 5, 0);
        ck_assert_uint_eq(f.uncut_places, 0);
        /* Handbook: round nose, 54 times the half circle and half a ball */
        f = figures_of(shape, pocket(round_nose(3), 3));
        ck_near(f.volume_mm3, 54 * 4.5 * PI + 18 * PI, 1e-9);
        ck_near_or(section_of(shape, pocket(round_nose(3), 3), 3), 0, 0, 1e-9);
        runnel_shape_free(shape);
    }
}
END_TEST

START_TEST(a_neck_as_wide_as_the_cutter) {
    /* the cutter passes, whichever way it is turned: two squares 20, the channel 4 wide, and no
     * corner is left at its mouths, as they are cut sharp */
    for (int i = 0; i < 40; i++) {
        runnel_contours plain = {0}, turned = {0};
        add_dumb_bell(&plain, 7, 4);
        add_turned(&turned, &plain, 0.1 * i, 1, 37.7 * i, -12.1 * i);
        runnel_contours_clear(&plain);
        runnel_cavity f = figures_once(outline_of(&turned), pocket(flat_end(2), 5));
        ck_near(f.footprint_mm2, 828 - 8 * square_corner * 4, 1e-9);
        ck_near(f.volume_mm3, 5 * (828 - 8 * square_corner * 4), 1e-9);
        ck_assert_uint_eq(f.uncut_places, 0);
    }
}
END_TEST

START_TEST(a_cutter_that_ends_at_a_meeting_of_corners) {
    /* A square 40 with a corner cut off so that the two bisectors at the cut meet at the inset t0 =
     * c/(2 - sqrt 2) of legs c: what is left in the two corners of 135 degrees by a cutter of just
     * that radius, of less, and of more. Fillet of angle a: r^2 (cot(a/2) - (pi - a)/2). */
    double c = 4, t0 = c / (2 - sqrt(2)), flat = 1600 - c * c / 2;
    double blunt = 2 * (1 / tan(67.5 * PI / 180) - PI / 8);
    for (double r = t0 - 1; r < t0 + 1.5; r += 0.5) {
        runnel_contours list = {0};
        add_ring(&list, 0, 0, 40, 0, 40, 40 - c, 40 - c, 40, 0, 40);
        runnel_cavity f = figures_once(outline_of(&list), pocket(flat_end(r), 1));
        double cut = flat - 3 * square_corner * r * r - blunt * r * r;
        if (r > t0) /* the cut side is out of reach: a fillet in the whole corner */
            cut = 1600 - 4 * square_corner * r * r;
        ck_near(f.footprint_mm2, cut, 1e-9);
    }
}
END_TEST

START_TEST(pockets_at_short_necks) {
    /* as for the tip: flat cutter of radius 2 */
    for (double width = 0.5; width < 4; width += 0.7) {
        for (double channel = 0.1; channel < 2.5; channel += 0.6) {
            runnel_contours c = {0};
            add_dumb_bell(&c, channel, width);
            runnel_cavity f = figures_once(outline_of(&c), pocket(flat_end(2), 3));
            double apart = 2 * sqrt(4 - width * width / 4) + channel;
            double cut = 800 - 8 * square_corner * 4 + 2 * mouth(2, width) - lens(2, apart);
            ck_near_or(f.footprint_mm2, cut, 0, 2e-3 * lens(2, apart) + 1e-9);
            ck_near_or(f.volume_mm3, 3 * cut, 0, 6e-3 * lens(2, apart) + 1e-7);
            ck_assert(fabs(f.volume_mm3 - 3 * cut) <= f.volume_error_mm3 + 1e-9 * f.volume_mm3);
        }
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("cavity_tip");
    TCase *tips = tcase_create("tips");
    tcase_add_test(tips, tip_in_a_rectangle);
    tcase_add_test(tips, wall_of_a_tip_in_a_rectangle);
    tcase_add_test(tips, tip_in_a_disc);
    tcase_add_test(tips, tip_in_a_triangle);
    tcase_add_test(tips, tip_in_an_l);
    tcase_add_test(tips, tip_wider_than_the_stroke);
    tcase_add_test(tips, tip_that_vanishes);
    tcase_add_test(tips, a_tip_at_a_long_neck);
    tcase_add_test(tips, a_tip_at_short_necks);
    tcase_add_test(tips, places_that_are_not_cut);
    tcase_add_test(tips, places_are_counted_wherever_a_ring_begins);
    suite_add_tcase(suite, tips);
    TCase *pockets = tcase_create("pockets");
    tcase_add_test(pockets, flat_cutter_in_a_rectangle);
    tcase_add_test(pockets, round_nose_in_a_rectangle);
    tcase_add_test(pockets, v_cutter_clearing_a_rectangle);
    tcase_add_test(pockets, pockets_in_a_disc_and_a_triangle);
    tcase_add_test(pockets, pocket_in_an_l);
    tcase_add_test(pockets, pocket_around_an_island);
    tcase_add_test(pockets, cutter_wider_than_the_pocket);
    tcase_add_test(pockets, a_slot_as_wide_as_the_cutter);
    tcase_add_test(pockets, a_neck_as_wide_as_the_cutter);
    tcase_add_test(pockets, a_cutter_that_ends_at_a_meeting_of_corners);
    tcase_add_test(pockets, pockets_at_short_necks);
    suite_add_tcase(suite, pockets);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
