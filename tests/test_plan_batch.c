/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "failing.h"
#include "planning.h"

#include <stdlib.h>

/*
 * Which batches there are, and what is mixed beyond the need. The resin is mixed 2:1 by volume of
 * 1.16 and 0.95 g/ml.
 */

/* A cavity of which a cutter that is wider than the shape takes nothing out. */
static void add_uncut(const char *colour) {
    add_outline("rectangle 1 x 1 mm", "flat 6 mm", 2, colour);
}

START_TEST(large_enough) {
    /* 20/0.98 ml are 22.244898 g, of which 15.7823 g are A and 6.4626 g are B. Weighed are at
     * least 158 and 65 steps, and at most 2 % or two steps more. */
    job.crown_mm = job.reserve = 0;
    job.cup.fixed_loss_g = 0;
    add_piece("p", "hard maple", 300, 200, 50, 1);
    add_measured(20000, NULL);
    must_plan(RUNNEL_OK);
    const runnel_plan_batch *batch = &plan.batches[0];
    ck_assert_int_eq(batch->raise, RUNNEL_RAISE_NONE);
    ck_assert_double_ge(batch->weighing.part_a_g, 15.8 - 1e-12);
    ck_assert_double_le(batch->weighing.part_a_g, 16.1 + 1e-12);
    ck_assert_double_ge(batch->weighing.part_b_g, 6.5 - 1e-12);
    ck_assert_double_le(batch->weighing.part_b_g, 6.7 + 1e-12);
    ck_near(batch->surplus_mm3,
            1000 * (batch->weighing.part_a_g / 1.16 + batch->weighing.part_b_g / 0.95) -
                20000 / 0.98,
            1e-9);
    ck_assert_uint_eq(plan.warning_count, 0);
}
END_TEST

START_TEST(nothing_needed) {
    add_piece("p", "hard maple", 300, 200, 50, 1);
    add_uncut("red");
    must_plan(RUNNEL_NOT_POSSIBLE); /* as nothing is cut */
    ck_assert_uint_eq(plan.batch_count, 0);
    ck_assert_uint_eq(plan.warning_count, 1);
    ck_assert_ptr_nonnull(warned("nothing-cut"));
}
END_TEST

START_TEST(nothing_needed_of_one_colour) {
    add_piece("p", "hard maple", 300, 200, 50, 1);
    add_uncut("red");
    add_measured(20000, "blue");
    must_plan(RUNNEL_NOT_POSSIBLE);
    ck_assert_uint_eq(plan.batch_count, 1);
    ck_assert_str_eq(plan.batches[0].colour, "blue");
    ck_assert_uint_eq(plan.warning_count, 1);
}
END_TEST

START_TEST(batches_in_order_of_first_use) {
    add_piece("one", "hard maple", 300, 200, 50, 1);
    add_measured(20000, "red");
    add_measured(30000, "blue");
    add_piece("two", "hard maple", 300, 200, 50, 2);
    add_measured(5000, "red");
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.batch_count, 2);
    ck_assert_str_eq(plan.batches[0].colour, "red");
    ck_assert_str_eq(plan.batches[1].colour, "blue");
    ck_near(plan.batches[0].terms.cavity_mm3, 30000, 1e-15); /* 20 + 2 x 5 ml */
    ck_near(plan.batches[1].terms.cavity_mm3, 30000, 1e-15);
}
END_TEST

START_TEST(a_top_up_that_none_can_weigh) {
    /* A tenth of 10 ml; on a scale that is 20 % off no batch keeps 3 % of the ratio. */
    add_piece("sign", NULL, 300, 200, 25, 1);
    add_measured(10000, "red");
    job.top_up = 0.1;
    must_plan(RUNNEL_OK);
    ck_near(plan.batches[0].top_up_mm3, 1000, 1e-12);
    ck_assert(plan.batches[0].top_up.part_a_g > 0);
    job.scale.accuracy_percent = 20;
    must_plan(RUNNEL_NOT_POSSIBLE);
    const runnel_plan_batch *b = &plan.batches[0];
    ck_assert(isnan(b->top_up_mm3) && isnan(b->top_up.part_a_g) && isnan(b->top_up.part_b_g) &&
              isnan(b->top_up.tint_g));
    ck_assert_ptr_nonnull(warned("no-batch"));
    job.top_up = 0;
    must_plan(RUNNEL_NOT_POSSIBLE);
    ck_near(plan.batches[0].top_up_mm3, 0, 0);
}
END_TEST

START_TEST(every_allocation_may_fail) {
    add_piece("p", NULL, 300, 200, 50, 1);
    add_measured(2000, "red"); /* raised */
    add_measured(3000, "blue");
    add_uncut("white");
    must_plan(RUNNEL_NOT_POSSIBLE);
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
    ck_assert_int_eq(status, RUNNEL_NOT_POSSIBLE);
    ck_assert_uint_gt(allowed, 20);
}
END_TEST

static void add_tests(TCase *cases) {
    tcase_add_test(cases, large_enough);
    tcase_add_test(cases, nothing_needed);
    tcase_add_test(cases, nothing_needed_of_one_colour);
    tcase_add_test(cases, batches_in_order_of_first_use);
    tcase_add_test(cases, a_top_up_that_none_can_weigh);
    tcase_add_test(cases, every_allocation_may_fail);
}

int main(void) {
    return planning_main("plan, batches", add_tests);
}
