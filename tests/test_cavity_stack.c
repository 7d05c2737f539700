/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sections and volumes of cavities against another route: polygons cut and grown by GEOS, level by
 * level (see region_route.h). Shapes are random but the same everywhere.
 */
#include "region_route.h"
#include "solids.h"
#include "wrapped.h"

#include <stdlib.h>
#include <string.h>

/* The other route's own error, as its discs have 512 corners: of one step, and of an opening, which
 * grows along chords what has been cut along chords. */
#define ROUTE_ERROR   1e-6
#define OPENING_ERROR 1e-5

/* One shape by both routes. */
typedef struct both {
    runnel_shape *shape;
    region_route *route;
    double area_mm2;
    double widest_mm;
} both;

/* Takes the contours over. */
static both region_of(runnel_contours *contours) {
    both b = {.route = route_of_region(contours)};
    b.area_mm2 = route_inset_mm2(b.route, 0);
    b.shape = outline_of(contours);
    runnel_cavity f = figures_of(b.shape, walls(90, 0));
    ck_near(f.footprint_mm2, b.area_mm2, 1e-9);
    b.widest_mm = f.deepest_mm;
    return b;
}

static void clear(both *b) {
    runnel_shape_free(b->shape);
    route_free(b->route);
}

/* A shape by its number: stars, stars with holes and islands, unions. */
static both shape_number(size_t number) {
    chance c = {100 + number};
    runnel_contours list = {0};
    size_t kind = number % 4;
    if (kind == 0) {
        add_star(&list, &c, 0, 0, 5, 30, 5 + chance_below(&c, 25));
    } else if (kind == 1) {
        add_star(&list, &c, 0, 0, 25, 40, 20);
        runnel_contours holes = {0};
        add_star(&holes, &c, -8, 3, 3, 8, 7);
        add_star(&holes, &c, 9, -4, 3, 8, 9);
        for (size_t i = 0; i < holes.count; i++) { /* turned round */
            ck_assert_int_eq(runnel_contours_begin(&list, true), RUNNEL_OK);
            for (size_t k = holes.items[i].count; k-- > 0;) {
                runnel_point p = holes.points[holes.items[i].first + k];
                ck_assert_int_eq(runnel_contours_add(&list, p.x_mm, p.y_mm), RUNNEL_OK);
            }
        }
        runnel_contours_clear(&holes);
    } else if (kind == 2) {
        for (size_t k = 3 + chance_below(&c, 6); k > 0; k--) {
            double x = chance_between(&c, 0, 50), y = chance_between(&c, 0, 50);
            add_star(&list, &c, x, y, 3, 18, 3 + chance_below(&c, 9));
        }
    } else { /* letters in thought: bars over each other, some aslant */
        for (int k = 0; k < 4; k++) {
            runnel_contours bar = {0};
            add_rectangle(&bar, 0, 0, chance_between(&c, 20, 45), chance_between(&c, 3, 8));
            add_turned(&list, &bar, k * PI / 2 + chance_between(&c, -0.2, 0.2), 1,
                       chance_between(&c, -6, 6), chance_between(&c, -6, 6));
            runnel_contours_clear(&bar);
        }
    }
    return region_of(&list);
}

enum { SHAPES = 32, LEVELS = 3 };

/* --- sections --- */

START_TEST(sharp_walls) {
    both b = shape_number((size_t)_i);
    runnel_cut cut = walls(70, 0);
    double tangent = tan(35 * PI / 180);
    for (int i = 1; i <= LEVELS; i++) {
        double t = b.widest_mm * i / (LEVELS + 1);
        ck_near_or(section_of(b.shape, cut, t / tangent), route_inset_mm2(b.route, t), 0,
                   ROUTE_ERROR * b.area_mm2);
    }
    clear(&b);
}
END_TEST

START_TEST(walls_with_a_tip) {
    both b = shape_number((size_t)_i);
    const double shares[] = {0.02, 0.2, 0.5};
    double rho = b.widest_mm * shares[_i / 4 % 3];
    runnel_cut cut = walls_tip(90, 2 * rho, 0);
    double t = (b.widest_mm - rho) * 0.4;
    ck_near_or(section_of(b.shape, cut, t), route_opened_mm2(b.route, t + rho, rho), 0,
               OPENING_ERROR * b.area_mm2);
    runnel_cavity f = figures_of(b.shape, cut);
    double area = 0, border = 0;
    route_opened(b.route, rho, rho, &area, &border);
    ck_near_or(f.footprint_mm2, area, 0, OPENING_ERROR * b.area_mm2);
    ck_near(f.perimeter_mm, border, 5e-5);
    ck_near_or(f.footprint_mm2 + f.uncut_mm2, b.area_mm2, 0, OPENING_ERROR * b.area_mm2);
    clear(&b);
}
END_TEST

START_TEST(pockets_of_round_nose) {
    both b = shape_number((size_t)_i);
    const double shares[] = {0.1, 0.3, 0.7};
    double r = b.widest_mm * shares[_i / 4 % 3], area = 0, border = 0;
    runnel_cut cut = pocket(round_nose(r), 1.3 * r);
    /* above the tip of the ball: rho^2 = h (2 r - h) */
    double h = 0.4 * r, rho = sqrt(h * (2 * r - h));
    ck_near_or(section_of(b.shape, cut, 1.3 * r - h), route_opened_mm2(b.route, r, rho), 0,
               OPENING_ERROR * b.area_mm2);
    runnel_cavity f = figures_of(b.shape, cut);
    route_opened(b.route, r, r, &area, &border);
    ck_near_or(f.footprint_mm2, area, 0, OPENING_ERROR * b.area_mm2);
    ck_near(f.perimeter_mm, border, 5e-5);
    clear(&b);
}
END_TEST

START_TEST(margins) {
    both b = shape_number((size_t)_i);
    const double margins_mm[] = {0.1, 1, 5, 20};
    for (int i = 0; i < 4; i++)
        ck_near_or(margin_of(b.shape, walls(60, 0), margins_mm[i]),
                   route_around_mm2(b.route, margins_mm[i]), 0, ROUTE_ERROR * b.area_mm2);
    clear(&b);
}
END_TEST

START_TEST(paths) {
    chance c = {500 + (uint64_t)_i};
    runnel_contours list = {0};
    for (size_t k = 1 + chance_below(&c, 4); k > 0; k--) {
        add_scribble(&list, &c, 50, 2 + chance_below(&c, 7));
        if (chance_below(&c, 3) == 0)
            runnel_contours_close(&list);
    }
    region_route *route = route_of_lines(&list);
    runnel_shape *shape = path_of(&list);
    const double radii[] = {0.2, 1, 4, 15};
    for (int i = 0; i < 4; i++) {
        double area = route_around_mm2(route, radii[i]);
        runnel_cavity f = figures_of(shape, along(flat_end(radii[i]), 2));
        ck_near(f.footprint_mm2, area, ROUTE_ERROR);
        ck_near(f.volume_mm3, 2 * area, ROUTE_ERROR);
        ck_near(section_of(shape, along(v_cutter(90, 0), radii[i] + 1), 1), area, ROUTE_ERROR);
    }
    runnel_shape_free(shape);
    route_free(route);
}
END_TEST

/* --- volumes --- */

/* A section of the other route as a function of the level. */
typedef struct stack {
    const region_route *route;
    double rho, face, depth; /* tip; round nose: radius, and depth of a pocket */
} stack;

static double opened_at(double t, void *state) {
    const stack *s = state;
    return route_opened_mm2(s->route, t + s->rho, s->rho);
}

static double ball_at(double height, void *state) {
    const stack *s = state;
    return route_opened_mm2(s->route, s->face, sqrt(height * (2 * s->face - height)));
}

static double around_at(double t, void *state) {
    const stack *s = state;
    return t > 0 ? route_around_mm2(s->route, t) : 0;
}

/* Integral over the whole rise of a tip. At its end the section jumps from the tip's own area to
 * nothing, so the last piece is taken by hand. */
static double whole_rise(stack *s, double rise, double tolerance) {
    double last = 2e-4 * rise;
    return route_integral(opened_at, s, 0, rise - last, tolerance) +
           last * opened_at(rise - last, s);
}

START_TEST(volumes_of_walls) {
    both b = shape_number((size_t)_i);
    double cotangent = 1 / tan(PI / 6), all = b.area_mm2 * b.widest_mm;
    stack s = {.route = b.route};
    double volume = cotangent * route_inset_integral(b.route, b.widest_mm, 1e-6 * all);
    ck_near(figures_of(b.shape, walls(60, 0)).volume_mm3, volume, 1e-5);
    /* a limit */
    double limit = 0.4 * b.widest_mm;
    volume = cotangent * route_inset_integral(b.route, limit, 1e-6 * all);
    ck_near(figures_of(b.shape, walls(60, limit * cotangent)).volume_mm3, volume, 1e-5);
    if (_i % 4 == 3) { /* bars: a tip */
        s.rho = 0.15 * b.widest_mm;
        volume = cotangent * whole_rise(&s, b.widest_mm - s.rho, 1e-6 * all);
        ck_near(figures_of(b.shape, walls_tip(60, 2 * s.rho, 0)).volume_mm3, volume, 1e-5);
    }
    clear(&b);
}
END_TEST

START_TEST(volumes_of_pockets) {
    both b = shape_number((size_t)_i);
    double r = 0.3 * b.widest_mm;
    stack s = {.route = b.route, .face = r};
    double volume = route_integral(ball_at, &s, 0, r, 3e-6 * b.area_mm2 * r);
    ck_near(figures_of(b.shape, pocket(round_nose(r), r)).volume_mm3, volume, 1e-5);
    clear(&b);
}
END_TEST

START_TEST(volumes_of_grooves) {
    chance c = {900 + (uint64_t)_i};
    runnel_contours list = {0};
    add_scribble(&list, &c, 50, 6);
    region_route *route = route_of_lines(&list);
    runnel_shape *shape = path_of(&list);
    stack s = {.route = route};
    double r = 3, all = route_around_mm2(route, r) * r;
    double volume = route_integral(around_at, &s, 0, r, 1e-6 * all);
    ck_near(figures_of(shape, along(v_cutter(90, 0), r)).volume_mm3, volume, 1e-5);
    runnel_shape_free(shape);
    route_free(route);
}
END_TEST

/* --- necks --- */

/* An hour-glass: a neck of some width between two bodies, with flanks at some angle. */
static void add_hour_glass(runnel_contours *c, double neck, double length, double flank) {
    double h = neck / 2, x = length / 2, far = x + 15, top = h + 15 * tan(flank);
    add_ring(c, -far, -top, -x, -h, x, -h, far, -top, far, top, x, h, -x, h, -far, top);
}

START_TEST(necks_of_hour_glasses) {
    /* tip 4; necks somewhat narrower and wider than it, long and short, flat and steep flanks */
    const double necks[] = {3, 3.9, 4.1, 5}, lengths[] = {0.05, 0.6, 2};
    const double flanks[] = {0.15, 0.5, 1};
    double flank = flanks[_i % 3], neck = necks[_i / 3 % 4], length = lengths[_i / 12];
    runnel_contours list = {0};
    add_hour_glass(&list, neck, length, flank);
    both b = region_of(&list);
    for (double t = 0; t < 0.8; t += 0.12)
        ck_near_or(section_of(b.shape, walls_tip(90, 4, 0), t), route_opened_mm2(b.route, 2 + t, 2),
                   0, OPENING_ERROR * b.area_mm2);
    ck_near_or(section_of(b.shape, pocket(flat_end(2), 3), 1), route_opened_mm2(b.route, 2, 2), 0,
               OPENING_ERROR * b.area_mm2);
    ck_near_or(section_of(b.shape, pocket(v_cutter(90, 1), 1.5), 0.7),
               route_opened_mm2(b.route, 2, 1.3), 0, OPENING_ERROR * b.area_mm2);
    clear(&b);
}
END_TEST

START_TEST(volumes_at_necks) {
    const double necks[] = {3, 3.9, 4.1, 5};
    runnel_contours list = {0};
    add_hour_glass(&list, necks[_i], 0.3, 0.5);
    both b = region_of(&list);
    stack s = {.route = b.route, .rho = 2};
    double all = b.area_mm2 * b.widest_mm;
    double volume = whole_rise(&s, b.widest_mm - 2, 1e-7 * all);
    ck_near(figures_of(b.shape, walls_tip(90, 4, 0)).volume_mm3, volume, 1e-5);
    s.face = 2;
    volume = route_integral(ball_at, &s, 0, 2, 1e-7 * all);
    ck_near(figures_of(b.shape, pocket(round_nose(2), 2)).volume_mm3, volume, 1e-5);
    clear(&b);
}
END_TEST

START_TEST(necks_between_many_places) {
    /* discs in a row and in a triangle, that all but touch: several places face each other */
    double apart = 9.6 + 0.15 * _i;
    runnel_contours list = {0};
    for (int i = 0; i < 3; i++)
        add_regular(&list, apart * cos(2.1 * i), apart * sin(2.1 * i), 9.4, 24, 0.01);
    both b = region_of(&list);
    for (double t = 0; t < 1; t += 0.4)
        ck_near_or(section_of(b.shape, walls_tip(90, 8, 0), t), route_opened_mm2(b.route, 4 + t, 4),
                   0, OPENING_ERROR * b.area_mm2);
    clear(&b);
}
END_TEST

/* How many of a test's cases are run; memcheck, which takes its time, has seen enough with the
 * first. */
static int cases(int all, int some) {
    if (is_wrapped())
        return some > 0 ? 1 : 0;
    return is_long() ? all : some;
}

int main(void) {
    Suite *suite = suite_create("cavity_stack");
    TCase *sections = tcase_create("sections");
    tcase_set_timeout(sections, 600);
    tcase_add_loop_test(sections, sharp_walls, 0, cases(SHAPES, SHAPES));
    tcase_add_loop_test(sections, margins, 0, cases(SHAPES, SHAPES));
    tcase_add_loop_test(sections, paths, 0, cases(SHAPES, SHAPES));
    suite_add_tcase(suite, sections);
    TCase *openings = tcase_create("openings");
    tcase_set_timeout(openings, 600);
    tcase_add_loop_test(openings, walls_with_a_tip, 0, cases(SHAPES, 4));
    tcase_add_loop_test(openings, pockets_of_round_nose, 0, cases(SHAPES, 4));
    suite_add_tcase(suite, openings);
    TCase *volumes = tcase_create("volumes");
    tcase_set_timeout(volumes, 1200);
    tcase_add_loop_test(volumes, volumes_of_walls, 0, cases(8, 1));
    tcase_add_loop_test(volumes, volumes_of_pockets, 0, cases(4, 0));
    tcase_add_loop_test(volumes, volumes_of_grooves, 0, cases(4, 1));
    suite_add_tcase(suite, volumes);
    TCase *necks = tcase_create("necks");
    tcase_set_timeout(necks, 1200);
    tcase_add_loop_test(necks, necks_of_hour_glasses, 0, cases(36, 6));
    tcase_add_loop_test(necks, volumes_at_necks, 0, cases(4, 0));
    tcase_add_loop_test(necks, necks_between_many_places, 0, cases(3, 1));
    suite_add_tcase(suite, necks);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
