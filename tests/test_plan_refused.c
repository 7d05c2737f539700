/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "failing.h"
#include "planning.h"

#include <stdlib.h>
#include <string.h>

/* ---- Refusals ---------------------------------------------------------------------------------*/

/* A refused plan is what it was, bit for bit. */
static void must_fail(runnel_letter_function letter, runnel_status wanted) {
    ck_assert_int_eq(runnel_job_check(&job, planning_tables(), &problems), RUNNEL_OK);
    runnel_plan before;
    memset(&before, 0x5A, sizeof before);
    runnel_plan after = before;
    runnel_status status = runnel_plan_make(&job, planning_tables(),
                                            &(runnel_letters){letter, NULL}, &problems, &after);
    ck_assert_str_eq(runnel_status_name(status), runnel_status_name(wanted));
    ck_assert_mem_eq(&before, &after, sizeof before);
}

static void ck_problem(size_t index, runnel_status status, const char *file, size_t line,
                       const char *field, const char *text) {
    ck_assert_uint_lt(index, problems.count);
    const runnel_problem *problem = &problems.items[index];
    ck_assert_str_eq(problem->text, text);
    ck_assert_str_eq(problem->file, file);
    ck_assert_uint_eq(problem->line, line);
    ck_assert_str_eq(problem->field, field);
    ck_assert_int_eq(problem->status, status);
}

START_TEST(failures_told_together) {
    job.file = text_for_job("x.yaml");
    add_piece("one", NULL, 0, 0, 0, 1);
    runnel_job_cavity *text = add_text("A", 10, "v 60 deg", 0, NULL);
    runnel_free(text->font);
    text->font = text_for_job("none");
    text->line = 7;
    add_outline("circle 20 mm", "v 60 deg", 0, NULL);
    add_piece("two", NULL, 0, 0, 0, 1);
    runnel_job_cavity *flat = add_outline("polygon 0,0 60,0 60,40 mm", "v 60 deg", 0, NULL);
    flat->line = 12;
    for (size_t i = 0; i < flat->form.corners.point_count; i++)
        flat->form.corners.points[i].y_mm = 0; /* no area, as a program may ask for */
    text = add_text("B", 10, "v 60 deg", 0, NULL);
    runnel_free(text->font);
    text->font = text_for_job("broken");
    text->line = 15;
    must_fail(block_letters, RUNNEL_E_FONT); /* of the first */
    ck_assert_uint_eq(problems.count, 3);
    ck_problem(0, RUNNEL_E_FONT, "x.yaml", 7, "pieces[0].cavities[0].text", "no font 'none'");
    ck_problem(1, RUNNEL_E_SHAPE, "x.yaml", 12, "pieces[1].cavities[0].outline",
               "'cavity 1' in 'two': a shape has no area or no length, or crosses itself");
    ck_problem(2, RUNNEL_E_NOT_COMPUTED, "x.yaml", 15, "pieces[1].cavities[1].text",
               "'cavity 2' in 'two': the answer cannot be computed");
}
END_TEST

START_TEST(text_without_letters) {
    add_piece("p", NULL, 0, 0, 0, 1);
    add_text("A", 10, "v 60 deg", 0, NULL);
    must_fail(NULL, RUNNEL_E_NOT_COMPUTED);
    ck_assert_uint_eq(problems.count, 1);
    ck_problem(0, RUNNEL_E_NOT_COMPUTED, "command line", 0, "--text", "text cannot be set here");
}
END_TEST

START_TEST(more_sections_than_there_may_be) {
    job.section_step_mm = 0.001; /* 34.6 mm, 20 cot 30 deg, in more than 10000 of them */
    add_piece("p", NULL, 0, 0, 0, 1);
    add_outline("circle 40 mm", "v 60 deg", 0, NULL);
    must_fail(NULL, RUNNEL_E_RANGE);
    ck_assert_uint_eq(problems.count, 1);
    ck_problem(0, RUNNEL_E_RANGE, "command line", 0, "--sections",
               "'cavity 1' in 'p' is 34.641 mm deep: sections '0.001 mm' apart would be more than "
               "10000; at least 0.00347 mm are needed");
}
END_TEST

START_TEST(cup_that_keeps_all) {
    job.resin.viscosity_pa_s = 1000;
    job.cup.diameter_mm = 10;
    job.cup.drain_s = 1;
    add_piece("p", NULL, 0, 0, 0, 1);
    add_measured(20000, "red");
    must_fail(NULL, RUNNEL_E_NOT_COMPUTED);
    ck_assert_uint_eq(problems.count, 1);
    ck_problem(0, RUNNEL_E_NOT_COMPUTED, "command line", 0, "red",
               "batch 'red': the film left in a cup would be all that it may hold; give a wider or "
               "higher cup, a longer drain time or a fixed loss");
}
END_TEST

START_TEST(failures_without_a_list) {
    add_piece("p", NULL, 0, 0, 0, 1);
    add_text("A", 10, "v 60 deg", 0, NULL);
    ck_assert_int_eq(runnel_job_check(&job, planning_tables(), NULL), RUNNEL_OK);
    ck_assert_int_eq(runnel_plan_make(&job, planning_tables(), NULL, NULL, &plan),
                     RUNNEL_E_NOT_COMPUTED);
    ck_assert_uint_eq(plan.cavity_count, 0);
}
END_TEST

/* ---- Want of memory ---------------------------------------------------------------------------*/

/* A job that warns of much, with advice that has to be tried. */
static void add_much(void) {
    runnel_job_colour *colour;
    ck_assert_int_eq(runnel_job_colour_named(&job, "unused", &colour), RUNNEL_OK);
    job.section_step_mm = 1;
    job.shop_degc = 10;
    job.humidity = 0.9;
    job.resin.density_a_g_per_ml = 1.3;
    add_piece("one", NULL, 100, 50, 12, 2);
    add_text("AB\nC", 60, "v 30 deg", 0, "red");
    add_path("line 0,0 40,0 mm", "round-nose radius 3 mm", 8, "red");
    add_piece("two", "white oak", 0, 0, 0, 1);
    add_measured(30, "blue");
    ck_assert_int_eq(runnel_job_check(&job, planning_tables(), &problems), RUNNEL_OK);
}

/* Every allocation fails in turn, alone (0) or with all after it (1). */
START_TEST(memory_runs_out) {
    runnel_status status = RUNNEL_E_NO_MEMORY;
    size_t fail_at = 0;
    add_much();
    for (; status; fail_at++) {
        failing count = {.fail_at = fail_at, .for_good = _i == 1};
        runnel_plan made = {0};
        start_failing(&count);
        status = runnel_plan_make(&job, planning_tables(), &(runnel_letters){block_letters, NULL},
                                  NULL, &made);
        if (status != RUNNEL_OK && status != RUNNEL_NOT_POSSIBLE)
            ck_assert_ptr_null(made.cavities);
        runnel_plan_clear(&made);
        runnel_set_allocator(NULL);
        ck_assert_msg(count.alive == 0, "%zu blocks left after %zu", count.alive, fail_at);
        if (status == RUNNEL_NOT_POSSIBLE) {
            ck_assert_msg(count.calls <= fail_at, "failure %zu went unseen", fail_at);
            break;
        }
        ck_assert_msg(status == RUNNEL_E_NO_MEMORY, "%s after %zu", runnel_status_name(status),
                      fail_at);
    }
    ck_assert_uint_gt(fail_at, 200);
}
END_TEST

static void add_tests(TCase *cases) {
    tcase_add_test(cases, failures_told_together);
    tcase_add_test(cases, text_without_letters);
    tcase_add_test(cases, more_sections_than_there_may_be);
    tcase_add_test(cases, cup_that_keeps_all);
    tcase_add_test(cases, failures_without_a_list);
    tcase_add_loop_test(cases, memory_runs_out, 0, 2);
}

int main(void) {
    return planning_main("plan, refused", add_tests);
}
