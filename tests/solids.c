/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "solids.h"

#include "numeric/quadrature.h"

void add_points(runnel_contours *contours, bool closed, size_t numbers, const double *xy) {
    ck_assert_int_eq(runnel_contours_begin(contours, closed), RUNNEL_OK);
    for (size_t i = 0; i + 1 < numbers; i += 2)
        ck_assert_int_eq(runnel_contours_add(contours, xy[i], xy[i + 1]), RUNNEL_OK);
}

void add_rectangle(runnel_contours *contours, double x, double y, double width, double height) {
    double top = y + fabs(height), bottom = y;
    if (height > 0)
        add_ring(contours, x, bottom, x + width, bottom, x + width, top, x, top);
    else
        add_ring(contours, x, bottom, x, top, x + width, top, x + width, bottom);
}

void add_regular(runnel_contours *contours, double x, double y, double radius, size_t count,
                 double turn) {
    ck_assert_int_eq(runnel_contours_begin(contours, true), RUNNEL_OK);
    for (size_t i = 0; i < count; i++) {
        double angle = turn + 2 * PI * (double)i / (double)count;
        ck_assert_int_eq(
            runnel_contours_add(contours, x + radius * cos(angle), y + radius * sin(angle)),
            RUNNEL_OK);
    }
}

void add_turned(runnel_contours *contours, const runnel_contours *from, double turn, double scale,
                double dx, double dy) {
    double c = scale * cos(turn), s = scale * sin(turn);
    for (size_t i = 0; i < from->count; i++) {
        ck_assert_int_eq(runnel_contours_begin(contours, from->items[i].closed), RUNNEL_OK);
        for (size_t k = 0; k < from->items[i].count; k++) {
            runnel_point p = from->points[from->items[i].first + k];
            double x = dx + c * p.x_mm - s * p.y_mm, y = dy + s * p.x_mm + c * p.y_mm;
            ck_assert_int_eq(runnel_contours_add(contours, x, y), RUNNEL_OK);
        }
    }
}

runnel_shape *outline_of(runnel_contours *contours) {
    runnel_shape *shape = NULL;
    runnel_status status = runnel_shape_outline(contours, NULL, &shape);
    runnel_contours_clear(contours);
    ck_assert_msg(status == RUNNEL_OK, "no outline: %s", runnel_status_name(status));
    return shape;
}

runnel_shape *path_of(runnel_contours *contours) {
    runnel_shape *shape = NULL;
    runnel_status status = runnel_shape_path(contours, NULL, &shape);
    runnel_contours_clear(contours);
    ck_assert_msg(status == RUNNEL_OK, "no path: %s", runnel_status_name(status));
    return shape;
}

runnel_shape *rectangle(double width, double height) {
    runnel_contours contours = {0};
    add_rectangle(&contours, 0, 0, width, height);
    return outline_of(&contours);
}

runnel_shape *disc(double radius) {
    runnel_shape *shape = NULL;
    ck_assert_int_eq(runnel_shape_rounded(2 * radius, 2 * radius, radius, false, &shape),
                     RUNNEL_OK);
    return shape;
}

runnel_shape *regular(size_t count, double side) {
    runnel_contours contours = {0};
    add_regular(&contours, 0, 0, side / (2 * sin(PI / (double)count)), count, 0.1);
    return outline_of(&contours);
}

runnel_shape *straight(double length) {
    runnel_contours contours = {0};
    add_line(&contours, 0, 0, length, 0);
    return path_of(&contours);
}

runnel_shape *circle_path(double radius) {
    runnel_shape *shape = NULL;
    ck_assert_int_eq(runnel_shape_rounded(2 * radius, 2 * radius, radius, true, &shape), RUNNEL_OK);
    return shape;
}

runnel_shape *l_shape(void) {
    runnel_contours contours = {0};
    add_ring(&contours, 0, 0, 60, 0, 60, 30, 30, 30, 30, 60, 0, 60);
    return outline_of(&contours);
}

runnel_cutter v_cutter(double angle_deg, double tip_mm) {
    return (runnel_cutter){.kind = RUNNEL_CUTTER_V, .angle_deg = angle_deg, .tip_mm = tip_mm};
}

runnel_cutter round_nose(double radius_mm) {
    return (runnel_cutter){.kind = RUNNEL_CUTTER_ROUND_NOSE, .radius_mm = radius_mm};
}

runnel_cutter flat_end(double radius_mm) {
    return (runnel_cutter){.kind = RUNNEL_CUTTER_FLAT, .radius_mm = radius_mm};
}

runnel_cut walls(double angle_deg, double limit_mm) {
    return walls_tip(angle_deg, 0, limit_mm);
}

runnel_cut walls_tip(double angle_deg, double tip_mm, double limit_mm) {
    return (runnel_cut){v_cutter(angle_deg, tip_mm), RUNNEL_CUT_WALLS, limit_mm};
}

runnel_cut pocket(runnel_cutter cutter, double depth_mm) {
    return (runnel_cut){cutter, RUNNEL_CUT_POCKET, depth_mm};
}

runnel_cut along(runnel_cutter cutter, double depth_mm) {
    return (runnel_cut){cutter, RUNNEL_CUT_PATH, depth_mm};
}

runnel_cavity figures_of(runnel_shape *shape, runnel_cut cut) {
    runnel_cavity figures = {0};
    runnel_status status = runnel_cavity_compute(shape, &cut, &figures);
    ck_assert_msg(status == RUNNEL_OK, "no cavity: %s", runnel_status_name(status));
    ck_assert(figures.volume_error_mm3 >= 0);
    return figures;
}

runnel_cavity figures_once(runnel_shape *shape, runnel_cut cut) {
    runnel_cavity figures = figures_of(shape, cut);
    runnel_shape_free(shape);
    return figures;
}

double volume_once(runnel_shape *shape, runnel_cut cut) {
    return figures_once(shape, cut).volume_mm3;
}

double section_of(runnel_shape *shape, runnel_cut cut, double level_mm) {
    double area = NAN;
    runnel_status status = runnel_cavity_section(shape, &cut, level_mm, &area);
    ck_assert_msg(status == RUNNEL_OK, "no section: %s", runnel_status_name(status));
    return area;
}

double margin_of(runnel_shape *shape, runnel_cut cut, double margin_mm) {
    double area = NAN;
    runnel_status status = runnel_cavity_margin(shape, &cut, margin_mm, &area);
    ck_assert_msg(status == RUNNEL_OK, "no margin: %s", runnel_status_name(status));
    return area;
}

typedef struct sections {
    runnel_shape *shape;
    runnel_cut cut;
} sections;

static double section_at(double level_mm, void *state) {
    const sections *s = state;
    return section_of(s->shape, s->cut, level_mm);
}

double stacked_volume(runnel_shape *shape, runnel_cut cut, double deepest_mm) {
    sections s = {shape, cut};
    double volume = NAN, error = 0;
    runnel_status status =
        runnel_integrate(section_at, &s, 0, deepest_mm, 0, 1e-10, &volume, &error);
    ck_assert_msg(status == RUNNEL_OK, "sections do not add up: %s", runnel_status_name(status));
    return volume;
}

double chance_between(chance *c, double low, double high) {
    c->state = c->state * 6364136223846793005U + 1442695040888963407U;
    return low + (high - low) * (double)(c->state >> 11) / 9007199254740992.0;
}

size_t chance_below(chance *c, size_t count) {
    return (size_t)chance_between(c, 0, (double)count) % count;
}

void add_star(runnel_contours *contours, chance *c, double x, double y, double inner, double outer,
              size_t corners) {
    ck_assert_int_eq(runnel_contours_begin(contours, true), RUNNEL_OK);
    for (size_t i = 0; i < corners; i++) {
        double angle = 2 * PI * ((double)i + chance_between(c, 0, 0.8)) / (double)corners;
        double radius = chance_between(c, inner, outer);
        ck_assert_int_eq(
            runnel_contours_add(contours, x + radius * cos(angle), y + radius * sin(angle)),
            RUNNEL_OK);
    }
}

void add_scribble(runnel_contours *contours, chance *c, double size, size_t points) {
    ck_assert_int_eq(runnel_contours_begin(contours, false), RUNNEL_OK);
    for (size_t i = 0; i < points; i++) {
        double x = chance_between(c, 0, size), y = chance_between(c, 0, size);
        ck_assert_int_eq(runnel_contours_add(contours, x, y), RUNNEL_OK);
    }
}
