/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "failing.h"
#include "planning.h"

#include <stdlib.h>
#include <string.h>

/*
 * Where cavities lie, what wood is left between them, and the order of pouring. Figures are worked
 * by hand.
 */

static void put(runnel_job_cavity *cavity, double x_mm, double y_mm) {
    cavity->is_placed = true;
    cavity->at_x_mm = x_mm;
    cavity->at_y_mm = y_mm;
}

static void add_board(void) {
    job.soak_mm = 0;
    job.scale.step_g = 0.001;
    add_piece("badge", NULL, 200, 200, 22, 1);
}

/* ---- Bridges ----------------------------------------------------------------------------------*/

/* A frame 12 mm wide and 120 mm across, from 10 mm on: it ends at 22 mm on the inside. */
#define FRAME "polygon 0,0 120,0 120,120 0,120 hole 12,12 108,12 108,108 12,108 mm"

START_TEST(a_thin_bridge) {
    /* A field 70 mm across begins at 23.8 mm. */
    add_board();
    put(add_outline(FRAME, "flat diameter 3 mm", 4, "red"), 10, 10);
    put(add_outline("circle 70 mm", "flat diameter 3 mm", 4, "white"), 23.8, 40);
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.bridge_count, 1);
    ck_assert_uint_eq(plan.bridges[0].one, 0);
    ck_assert_uint_eq(plan.bridges[0].other, 1);
    ck_near(plan.bridges[0].distance_mm, 1.8, 1e-12);
    ck_warned("thin-bridge", "badge",
              "only 1.8 mm of wood between 'cavity 1' in red and 'cavity 2' in white: less than 2 "
              "mm can break away or let one colour into the other; move them apart, or seal it "
              "well");
    job.bridge_mm = 1.5;
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.bridge_count, 0);
    ck_not_warned("thin-bridge");
    job.bridge_mm = 50; /* to the right it is 118 - 93.8 = 24.2 mm, but 1.8 mm is the least */
    must_plan(RUNNEL_OK);
    ck_near(plan.bridges[0].distance_mm, 1.8, 1e-12);
}
END_TEST

START_TEST(at_the_limit) {
    add_board();
    put(add_outline("rectangle 20 x 20 mm", "v 90 deg", 3, "red"), 10, 10);
    runnel_job_cavity *other = add_outline("rectangle 20 x 20 mm", "v 90 deg", 3, "blue");
    put(other, 32, 10);
    must_plan(RUNNEL_OK);
    ck_not_warned("thin-bridge");
    other->at_x_mm = 31.996;
    must_plan(RUNNEL_OK);
    ck_not_warned("thin-bridge");
    other->at_x_mm = 31.99;
    must_plan(RUNNEL_OK);
    ck_near(plan.bridges[0].distance_mm, 1.99, 1e-12);
    ck_assert_ptr_nonnull(warned("thin-bridge"));
}
END_TEST

START_TEST(one_colour_needs_no_bridge) {
    add_board();
    put(add_outline("rectangle 20 x 20 mm", "v 90 deg", 3, "red"), 10, 10);
    put(add_outline("rectangle 20 x 20 mm", "v 90 deg", 3, "red"), 30.5, 10);
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.bridge_count, 0);
    ck_not_warned("thin-bridge");
    ck_not_warned("overlap");
}
END_TEST

START_TEST(overlaps) {
    add_board();
    put(add_outline("rectangle 20 x 20 mm", "v 90 deg", 3, "red"), 10, 10);
    runnel_job_cavity *other = add_outline("rectangle 20 x 20 mm", "v 90 deg", 3, "red");
    put(other, 25, 10);
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.bridge_count, 0); /* it is no bridge between colours */
    ck_warned("overlap", "badge",
              "'cavity 1' and 'cavity 2' touch or overlap at the face; what both hold is counted "
              "twice");
    other->at_x_mm = 30; /* they touch */
    must_plan(RUNNEL_OK);
    ck_assert_ptr_nonnull(warned("overlap"));
    other->colour[0] = 'R'; /* "Red" is another colour */
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.bridge_count, 1);
    ck_near(plan.bridges[0].distance_mm, 0, 0);
    ck_not_warned("thin-bridge");
}
END_TEST

START_TEST(one_inside_the_other) {
    add_board();
    put(add_outline("rectangle 60 x 60 mm", "v 90 deg", 3, "red"), 10, 10);
    put(add_outline("rectangle 5 x 5 mm", "v 90 deg", 3, "blue"), 30, 30);
    must_plan(RUNNEL_OK);
    ck_near(plan.bridges[0].distance_mm, 0, 0);
    ck_assert_ptr_nonnull(warned("overlap"));
}
END_TEST

START_TEST(paths_are_as_wide_as_their_cutter) {
    /* A ring 100 mm across in the middle of the cutter, 6 mm wide: its box begins at 10 mm, its
     * middle is 50 mm to the right of 13 mm, and its inner edge goes from 16 to 110 mm. */
    add_board();
    put(add_path("circle 100 mm", "flat radius 3 mm", 3, "red"), 10, 10);
    runnel_job_cavity *field = add_outline("rectangle 20 x 20 mm", "v 90 deg", 3, "blue");
    put(field, 17.5, 53);
    job.flatten_mm = 1e-5;
    must_plan(RUNNEL_OK);
    /* The corners of the field, at 17.5, 53 and 73 mm, are 10 mm from the height of the middle. */
    ck_near_or(plan.bridges[0].distance_mm, 47 - hypot(63 - 17.5, 10), 0, 1e-5);
    ck_near(plan.cavities[0].width_mm, 106, 1e-12);
    field->at_x_mm = 53; /* in the middle of the ring there is nothing */
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.bridge_count, 0);
    ck_assert_uint_eq(plan.warning_count, 0);
}
END_TEST

START_TEST(letters_and_other_forms) {
    /* A block letter 40 mm high is 8 mm wide. An ellipse, and a rectangle with round corners whose
     * corner, 10 mm in radius, is the nearest part. */
    add_board();
    put(add_text("H", 40, "v 60 deg", 0, "red"), 20, 20);
    put(add_outline("ellipse 30 x 20 mm", "v 60 deg", 3, "blue"), 29.5, 30);
    put(add_outline("rounded rectangle 40 x 40 r 10 mm", "v 60 deg", 3, "white"), 25, 61.5);
    job.bridge_mm = 5;
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.bridge_count, 2);
    ck_near(plan.bridges[0].distance_mm, 1.5, 1e-12);
    ck_assert_uint_eq(plan.bridges[1].one, 0);
    ck_assert_uint_eq(plan.bridges[1].other, 2);
    /* The letter's corner at 28, 60; the centre of the corner at 35, 71.5. */
    ck_near_or(plan.bridges[1].distance_mm, hypot(7, 11.5) - 10, 0, 0.001);
}
END_TEST

START_TEST(what_is_not_looked_at) {
    /* Without a place, in another piece, or without a volume. */
    add_board();
    put(add_outline("rectangle 20 x 20 mm", "v 90 deg", 3, "red"), 10, 10);
    add_outline("rectangle 20 x 20 mm", "v 90 deg", 3, "blue");
    put(add_outline("rectangle 1 x 1 mm", "flat radius 3 mm", 3, "blue"), 20, 20);
    add_piece("other", NULL, 200, 200, 22, 1);
    put(add_outline("rectangle 20 x 20 mm", "v 90 deg", 3, "blue"), 10, 10);
    must_plan(RUNNEL_NOT_POSSIBLE);
    ck_assert_uint_eq(plan.bridge_count, 0);
    ck_not_warned("overlap");
    ck_not_warned("thin-bridge");
}
END_TEST

/* ---- Edges ------------------------------------------------------------------------------------*/

START_TEST(edges) {
    add_board();
    runnel_job_cavity *field = add_outline("rectangle 60 x 40 mm", "v 90 deg", 3, NULL);
    put(field, 140, 160);
    must_plan(RUNNEL_OK);
    ck_not_warned("beyond-edge");
    put(field, 150, 100);
    must_plan(RUNNEL_OK);
    ck_warned("beyond-edge", "badge / cavity 1",
              "it reaches 10 mm beyond the right edge, where the resin would run out");
    put(field, 0, 162.5);
    must_plan(RUNNEL_OK);
    ck_warned("beyond-edge", "badge / cavity 1",
              "it reaches 2.5 mm beyond the upper edge, where the resin would run out");
    put(field, 150, 162.5);
    must_plan(RUNNEL_OK);
    ck_warned("beyond-edge", "badge / cavity 1",
              "it reaches 10 mm beyond the right edge and 2.5 mm beyond the upper edge, where the "
              "resin would run out");
    job.pieces[0].length_mm = 50; /* wider than the piece: that is told already */
    job.pieces[0].width_mm = 30;
    must_plan(RUNNEL_NOT_POSSIBLE);
    ck_not_warned("beyond-edge");
    job.pieces[0].length_mm = job.pieces[0].width_mm = job.pieces[0].thickness_mm = 0;
    must_plan(RUNNEL_OK);
    ck_not_warned("beyond-edge");
}
END_TEST

START_TEST(a_place_out_of_range) {
    add_board();
    runnel_job_cavity *field = add_outline("rectangle 60 x 40 mm", "v 90 deg", 3, NULL);
    put(field, -1, 10);
    ck_assert_int_eq(runnel_job_check(&job, planning_tables(), &problems), RUNNEL_E_RANGE);
    put(field, 1, 10001);
    ck_assert_int_eq(runnel_job_check(&job, planning_tables(), &problems), RUNNEL_E_RANGE);
    ck_assert_uint_eq(problems.count, 2);
    ck_assert_str_eq(problems.items[1].text,
                     "'10001 mm' is out of range: 'at' must be 0 m to 10 m each way");
    runnel_problems_clear(&problems);
    add_measured(5000, NULL);
    put(&job.pieces[0].cavities[1], 10, 10);
    put(&job.pieces[0].cavities[0], 10, 10);
    ck_assert_int_eq(runnel_job_check(&job, planning_tables(), &problems), RUNNEL_E_CONFLICT);
    ck_assert_str_eq(problems.items[0].text, "'at' does not go with 'measured'");
}
END_TEST

/* ---- Order ------------------------------------------------------------------------------------*/

/* 2 h to gel and 4 h to the next coat at 25 degC, 52 kJ/mol: 1.430149 times as long at 20 degC. */
static const double slower = 1.430149;

START_TEST(neighbours_wait) {
    add_board();
    add_measured(20000, "red");
    add_measured(20000, "white");
    add_piece("other", NULL, 200, 200, 22, 1);
    add_measured(20000, "green");
    add_piece("third", NULL, 200, 200, 22, 1);
    add_measured(20000, "white");
    add_measured(20000, "blue");
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.batch_count, 4);
    ck_near(plan.batches[0].not_before_s, 0, 0);                 /* red */
    ck_near(plan.batches[1].not_before_s, 7200 * slower, 1e-6);  /* white, after red */
    ck_near(plan.batches[2].not_before_s, 0, 0);                 /* green, alone */
    ck_near(plan.batches[3].not_before_s, 14400 * slower, 1e-6); /* blue, after white */
    job.resin.gel_s = NAN;
    must_plan(RUNNEL_OK);
    ck_near(plan.batches[0].not_before_s, 0, 0);
    ck_near(plan.batches[1].not_before_s, NAN, 0);
    ck_near(plan.batches[2].not_before_s, 0, 0);
    ck_near(plan.batches[3].not_before_s, NAN, 0);
}
END_TEST

START_TEST(neighbours_wait_for_the_last_layer) {
    add_board();
    add_measured(20000, "red")->measured_deepest_mm = 10; /* two layers */
    add_measured(20000, "white");
    must_plan(RUNNEL_OK);
    ck_near(plan.batches[1].not_before_s, (14400 + 7200) * slower, 1e-6);
}
END_TEST

START_TEST(an_energy_that_is_not_known) {
    /* Then the usual one holds, and is told; the times of the temperature they are stated for need
     * none. */
    add_board();
    add_measured(20000, "red");
    add_measured(20000, "white");
    job.resin.activation_kj_per_mol = NAN;
    must_plan(RUNNEL_OK);
    ck_near(plan.batches[1].not_before_s, 7200 * slower, 1e-6);
    ck_near(plan.batches[1].pot_life_s, 1800 * slower, 1e-6);
    ck_assert_ptr_nonnull(warned("usual-energy"));
    job.shop_degc = 25;
    must_plan(RUNNEL_OK);
    ck_assert_ptr_null(warned("usual-energy"));
    ck_near(plan.batches[1].not_before_s, 7200, 0);
    ck_near(plan.batches[1].pot_life_s, 1800, 0);
}
END_TEST

START_TEST(every_allocation_may_fail) {
    add_board();
    put(add_outline("circle 40 mm", "v 60 deg", 3, "red"), 10, 10);
    put(add_outline("circle 40 mm", "v 60 deg", 3, "blue"), 51, 10);
    put(add_outline("circle 40 mm", "v 60 deg", 3, "red"), 180, 10);
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.bridge_count, 1);
    runnel_status status = RUNNEL_E_NO_MEMORY;
    size_t allowed = 0;
    for (; status == RUNNEL_E_NO_MEMORY && allowed < 20000; allowed++) {
        failing of = {.fail_at = allowed, .for_good = true};
        runnel_plan made = {0};
        start_failing(&of);
        status = runnel_plan_make(&job, planning_tables(), NULL, NULL, &made);
        runnel_plan_clear(&made);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(of.alive, 0);
        ck_assert(status == RUNNEL_E_NO_MEMORY || of.calls <= allowed);
    }
    ck_assert_int_eq(status, RUNNEL_OK);
    ck_assert_uint_gt(allowed, 30);
}
END_TEST

static void add_tests(TCase *cases) {
    tcase_add_test(cases, a_thin_bridge);
    tcase_add_test(cases, at_the_limit);
    tcase_add_test(cases, one_colour_needs_no_bridge);
    tcase_add_test(cases, overlaps);
    tcase_add_test(cases, one_inside_the_other);
    tcase_add_test(cases, paths_are_as_wide_as_their_cutter);
    tcase_add_test(cases, letters_and_other_forms);
    tcase_add_test(cases, what_is_not_looked_at);
    tcase_add_test(cases, edges);
    tcase_add_test(cases, a_place_out_of_range);
    tcase_add_test(cases, neighbours_wait);
    tcase_add_test(cases, neighbours_wait_for_the_last_layer);
    tcase_add_test(cases, an_energy_that_is_not_known);
    tcase_add_test(cases, every_allocation_may_fail);
}

int main(void) {
    return planning_main("plan, places", add_tests);
}
