/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where cavities lie in pictures and how deep they are: areas of levels and widths of sections by
 * hand, and the same areas by the profile, which is another route. */
#include "failing.h"
#include "planning.h"
#include "runnel/look.h"

#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

/** Chords of round parts take up to 0.06 % of their radius away, on both sides; the shapes here are
 * a few times as wide as their round parts. */
static const double chords = 1.3e-3;

static runnel_look look;

static void make_look(void) {
    must_plan(RUNNEL_OK);
    ck_assert_int_eq(runnel_look_make(&job, planning_tables(),
                                      &(runnel_letters){block_letters, NULL}, &problems, &plan,
                                      RUNNEL_LOOK_ALL, &look),
                     RUNNEL_OK);
    ck_assert_uint_eq(look.cavity_count, plan.cavity_count);
    ck_assert_uint_eq(look.piece_count, job.piece_count);
}

static void clear_look(void) {
    runnel_look_clear(&look);
}

static double tan_half(double angle_deg) {
    return tan(angle_deg / 2 * pi / 180);
}

/** Closed forms of the area at a level. */
static double walls_90(double z) {
    return (60 - 2 * z) * (20 - 2 * z);
}
static double circle_60(double z) {
    double r = 20 - z * tan_half(60);
    return pi * r * r;
}
/* inset by 1 + z, then grown by the 1 of the tip: Steiner's formula */
static double tipped_90(double z) {
    double a = 58 - 2 * z, b = 18 - 2 * z;
    return a * b + 2 * (a + b) + pi;
}
static double pocket_flat(double z) {
    (void)z;
    return 60 * 20 - (4 - pi) * 9;
}
static double groove_round(double z) {
    double above = 3 - z, w = sqrt(above * (6 - above));
    return 50 * 2 * w + pi * w * w;
}

static void check_levels(double (*area_of)(double level)) {
    const runnel_look_cavity *cavity = &look.cavities[0];
    ck_assert(cavity->is_known);
    ck_assert_uint_ge(cavity->level_count, RUNNEL_LOOK_STRAIGHT_LEVELS - 1);
    ck_assert(cavity->levels[0].depth_mm == 0);
    for (size_t i = 0; i < cavity->level_count; i++) {
        const runnel_look_level *level = &cavity->levels[i];
        double area = runnel_contours_area(&level->region), wanted = area_of(level->depth_mm);
        ck_assert_msg(fabs(area - wanted) <= chords * wanted + 0.05,
                      "%g mm deep: %g in place of %g", level->depth_mm, area, wanted);
        ck_assert(!i || level->depth_mm > level[-1].depth_mm);
    }
}

START_TEST(walls_of_a_rectangle) {
    add_piece("board", NULL, 300, 200, 30, 1);
    add_outline("rectangle 60 x 20 mm", "v 90 deg", 0, "red");
    make_look();
    check_levels(walls_90);
    const runnel_look_cavity *cavity = &look.cavities[0];
    /* across the short side, and at each level both walls stand at 45 degrees */
    ck_near(fabs(cavity->along.y_mm), 1, 1e-9);
    for (size_t i = 0; i < cavity->level_count; i++) {
        const runnel_look_level *level = &cavity->levels[i];
        ck_near_or(level->to_mm - level->from_mm, 20 - 2 * level->depth_mm, 0, 1e-5);
    }
}
END_TEST

START_TEST(walls_of_a_circle) {
    add_piece("board", NULL, 300, 200, 30, 1);
    add_outline("circle 40 mm", "v 60 deg", 3, "red");
    make_look();
    check_levels(circle_60);
    ck_near_or(look.cavities[0].levels[look.cavities[0].level_count - 1].depth_mm, 3, 0, 1e-3);
}
END_TEST

START_TEST(walls_of_a_tip) {
    add_piece("board", NULL, 300, 200, 30, 1);
    add_outline("rectangle 60 x 20 mm", "v 90 deg tip 2 mm", 0, "red");
    make_look();
    check_levels(tipped_90);
}
END_TEST

START_TEST(a_pocket) {
    add_piece("board", NULL, 300, 200, 30, 1);
    runnel_job_cavity *cavity = add_outline("rectangle 60 x 20 mm", "flat diameter 6 mm", 0, "red");
    cavity->depth_mm = 4;
    make_look();
    check_levels(pocket_flat);
}
END_TEST

START_TEST(a_groove) {
    add_piece("board", NULL, 300, 200, 30, 1);
    add_path("line 0,0 50,0 mm", "round-nose diameter 6 mm", 3, "red");
    make_look();
    check_levels(groove_round);
    const runnel_look_level *face = &look.cavities[0].levels[0];
    ck_near_or(face->to_mm - face->from_mm, 6, 0, 0.02);
}
END_TEST

/** Letters by the profile: areas that come from the integral of the identity, not from insets. */
START_TEST(letters_by_the_profile) {
    static const char *const cutters[] = {"v 60 deg", "v 90 deg tip 0.5 mm"};
    for (size_t c = 0; c < 2; c++) {
        planning_again();
        job.section_step_mm = 0.5;
        add_piece("board", NULL, 300, 200, 30, 1);
        add_text("HOLM", 30, cutters[c], 2.5, "red");
        make_look();
        const runnel_plan_cavity *planned = &plan.cavities[0];
        ck_assert_uint_eq(planned->section_count, 6);
        ck_near_or(runnel_contours_area(&look.cavities[0].levels[0].region),
                   planned->sections[0].area_mm2, chords, 0);
        size_t between = 0;
        for (size_t i = 1; i < look.cavities[0].level_count; i++) {
            const runnel_look_level *level = &look.cavities[0].levels[i];
            size_t above = (size_t)floor(level->depth_mm / 0.5);
            double area = runnel_contours_area(&level->region);
            ck_assert_double_le(area, planned->sections[above].area_mm2 * (1 + chords));
            if (above + 1 < planned->section_count)
                ck_assert_double_ge(area, planned->sections[above + 1].area_mm2 * (1 - chords));
            between++;
        }
        ck_assert_uint_ge(between, RUNNEL_LOOK_STRAIGHT_LEVELS - 2);
        runnel_look_clear(&look);
    }
}
END_TEST

START_TEST(places) {
    add_piece("board", NULL, 300, 200, 30, 1);
    runnel_job_cavity *placed = add_outline("rectangle 60 x 20 mm", "v 90 deg", 0, "red");
    placed->is_placed = true;
    placed->at_x_mm = 10;
    placed->at_y_mm = 25;
    add_piece("badge", NULL, 100, 80, 30, 1);
    add_outline("rectangle 40 x 20 mm", "v 90 deg", 0, "red");
    add_measured(1000, "red");
    add_outline("circle 10 mm", "v 90 deg", 0, "red");
    add_piece("scrap", NULL, 0, 0, 0, 1);
    add_outline("circle 10 mm", "v 90 deg", 0, "red");
    make_look();
    const runnel_look_cavity *first = &look.cavities[0];
    ck_assert(look.pieces[0].places_told);
    ck_near(first->box.min_x_mm, 10, 1e-12);
    ck_near(first->box.min_y_mm, 25, 1e-12);
    ck_assert(first->deepest_at.x_mm > 10 && first->deepest_at.x_mm < 70);
    ck_near(first->deepest_at.y_mm, 35, 1e-9);
    ck_near(look.pieces[0].box.max_x_mm, 300, 1e-12);
    /* 20 + 5 + 10 mm of 80 in the middle: from 57.5 down to 22.5 */
    ck_assert(!look.pieces[1].places_told);
    ck_near(look.cavities[1].box.max_y_mm, 57.5, 1e-9);
    ck_near(look.cavities[1].box.min_x_mm, 30, 1e-9);
    ck_assert(!look.cavities[2].is_known);
    ck_near(look.cavities[3].box.min_y_mm, 22.5, 1e-9);
    ck_near(look.cavities[3].box.min_x_mm, 45, 1e-9);
    ck_near(look.pieces[2].box.max_x_mm - look.pieces[2].box.min_x_mm, 10, 1e-9);
}
END_TEST

/** The face alone is that of all levels. */
START_TEST(the_face_alone) {
    runnel_look face = {.piece_count = 0};
    add_piece("board", NULL, 300, 200, 30, 1);
    add_text("HOLM", 30, "v 60 deg", 2.5, "red");
    make_look();
    ck_assert_int_eq(runnel_look_make(&job, planning_tables(),
                                      &(runnel_letters){block_letters, NULL}, NULL, &plan,
                                      RUNNEL_LOOK_FACE, &face),
                     RUNNEL_OK);
    ck_assert_uint_eq(face.cavities[0].level_count, 1);
    ck_near(runnel_contours_area(&face.cavities[0].levels[0].region),
            runnel_contours_area(&look.cavities[0].levels[0].region), 1e-12);
    ck_near(face.cavities[0].box.max_x_mm, look.cavities[0].box.max_x_mm, 1e-12);
    runnel_look_clear(&face);
}
END_TEST

/** A border goes around what stands in the middle. */
START_TEST(around_each_other) {
    add_piece("board", NULL, 300, 200, 30, 1);
    add_outline("rectangle 60 x 20 mm", "v 90 deg", 0, "red");
    add_path("rectangle 280 x 180 mm", "round-nose diameter 6 mm", 2, "red");
    make_look();
    for (size_t i = 0; i < 2; i++) {
        const runnel_box *box = &look.cavities[i].box;
        ck_near(box->min_x_mm + box->max_x_mm, 300, 1e-9);
        ck_near(box->min_y_mm + box->max_y_mm, 200, 1e-9);
    }
    ck_assert_double_lt(look.pieces[0].box.max_y_mm, 200 + 1e-9);
    /* the section is across the middle of the longest side: 2 sqrt(9 - 1) wide */
    const runnel_look_cavity *border = &look.cavities[1];
    ck_assert(border->is_even);
    ck_near(fabs(border->along.y_mm), 1, 1e-9);
    ck_near_or(border->levels[0].to_mm - border->levels[0].from_mm, 2 * sqrt(8), 0, 1e-5);
    ck_near_or(border->section_at.x_mm, 150, 0, 1e-3);
}
END_TEST

START_TEST(memory_may_run_out) {
    add_piece("board", NULL, 300, 200, 30, 1);
    add_text("IH", 20, "v 60 deg", 3, "red");
    add_path("line 0,0 50,0 mm", "round-nose diameter 6 mm", 3, "red");
    must_plan(RUNNEL_OK);
    runnel_status status = RUNNEL_E_NO_MEMORY;
    for (size_t n = 0; status == RUNNEL_E_NO_MEMORY; n += 1 + n / 50) {
        failing count = {.fail_at = n};
        ck_assert_uint_lt(n, 100000);
        start_failing(&count);
        status = runnel_look_make(&job, planning_tables(), &(runnel_letters){block_letters, NULL},
                                  NULL, &plan, RUNNEL_LOOK_ALL, &look);
        runnel_set_allocator(NULL);
        if (status)
            ck_assert_uint_eq(count.alive, 0);
    }
    ck_assert_int_eq(status, RUNNEL_OK);
}
END_TEST

START_TEST(what_is_left_by_an_offset) {
    runnel_contours from, region;
    runnel_contours_init(&from);
    runnel_contours_init(&region);
    const double x[] = {0, 30, 30, 0}, y[] = {0, 0, 10, 10};
    ck_assert_int_eq(runnel_contours_begin(&from, true), RUNNEL_OK);
    for (size_t i = 0; i < 4; i++)
        ck_assert_int_eq(runnel_contours_add(&from, x[i], y[i]), RUNNEL_OK);
    ck_assert_int_eq(runnel_contours_offset(&from, false, -2, &region), RUNNEL_OK);
    ck_near(runnel_contours_area(&region), 26 * 6, 1e-12);
    /* Steiner: area + perimeter t + pi t^2 */
    ck_assert_int_eq(runnel_contours_offset(&from, false, 3, &region), RUNNEL_OK);
    ck_near_or(runnel_contours_area(&region), 300 + 80 * 3 + pi * 9, 0, 9 * pi * chords);
    ck_assert_int_eq(runnel_contours_offset(&from, false, -5.1, &region), RUNNEL_E_SHAPE);
    ck_near_or(runnel_contours_area(&region), 300 + 80 * 3 + pi * 9, 0, 9 * pi * chords);
    runnel_contours_clear(&region);
    runnel_contours_clear(&from);
}
END_TEST

static void add_tests(TCase *cases) {
    tcase_add_checked_fixture(cases, NULL, clear_look);
    tcase_add_test(cases, walls_of_a_rectangle);
    tcase_add_test(cases, walls_of_a_circle);
    tcase_add_test(cases, walls_of_a_tip);
    tcase_add_test(cases, a_pocket);
    tcase_add_test(cases, a_groove);
    tcase_add_test(cases, letters_by_the_profile);
    tcase_add_test(cases, places);
    tcase_add_test(cases, the_face_alone);
    tcase_add_test(cases, around_each_other);
    tcase_add_test(cases, memory_may_run_out);
    tcase_add_test(cases, what_is_left_by_an_offset);
}

int main(void) {
    return planning_main("look", add_tests);
}
