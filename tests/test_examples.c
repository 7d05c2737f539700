/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "runnel/memory.h"
#include "runnel/read.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The job files of share/examples over the tables of data, as the command reads them. */

static runnel_tables tables;
static runnel_problems problems;
static runnel_job job;

static void setup(void) {
    runnel_job_init(&job);
    runnel_problems_init(&problems);
    ck_assert_int_eq(runnel_tables_read(&tables, "data", &problems), RUNNEL_OK);
}

static void teardown(void) {
    runnel_job_clear(&job);
    runnel_problems_clear(&problems);
    runnel_tables_clear(&tables);
}

static void read_example(const char *path) {
    char *text;
    size_t length;
    ck_assert_int_eq(runnel_file_read(path, &problems, &text, &length), RUNNEL_OK);
    runnel_status status = runnel_job_read_yaml(text, length, path, &tables, &problems, &job);
    runnel_free(text);
    for (size_t i = 0; i < problems.count; i++)
        printf("%s:%zu: %s\n", path, problems.items[i].line, problems.items[i].text);
    fflush(stdout);
    ck_assert_int_eq(status, RUNNEL_OK);
}

static const struct {
    const char *path;
    size_t pieces, cavities; /* cavities of the first piece */
} examples[] = {
    {"share/examples/mill-bakery.yaml", 1, 2},  {"share/examples/house-sign.yaml", 1, 2},
    {"share/examples/place-blocks.yaml", 3, 1}, {"share/examples/ash-tray.yaml", 1, 1},
    {"share/examples/walnut-badge.yaml", 1, 2},
};

START_TEST(example) {
    read_example(examples[_i].path);
    ck_assert_uint_eq(job.piece_count, examples[_i].pieces);
    ck_assert_uint_eq(job.pieces[0].cavity_count, examples[_i].cavities);
    for (size_t i = 0; i < job.piece_count; i++)
        ck_assert_ptr_nonnull(runnel_tables_wood(&tables, job.pieces[i].wood));
}
END_TEST

START_TEST(mill_bakery) {
    read_example("share/examples/mill-bakery.yaml");
    const runnel_job_piece *board = &job.pieces[0];
    ck_assert_uint_eq(board->count, 2);
    ck_assert_str_eq(board->wood, "hard maple");
    ck_near(board->thickness_mm, 25, 0);
    ck_assert_str_eq(board->cavities[0].text, "RYE &\nSALT");
    ck_assert_str_eq(board->cavities[0].font, "EB Garamond");
    ck_assert_int_eq(board->cavities[0].cut.rule, RUNNEL_CUT_WALLS);
    ck_near(board->cavities[0].cut.depth_mm, 4, 0);
    ck_assert_int_eq(board->cavities[1].cut.rule, RUNNEL_CUT_PATH);
    ck_assert_int_eq(board->cavities[1].form.kind, RUNNEL_FORM_ROUNDED_RECTANGLE);
    ck_near(board->cavities[1].form.a_mm, 380, 0);
    ck_near(board->cavities[1].form.b_mm, 220, 0);
    ck_near(board->cavities[1].form.r_mm, 20, 0);
    ck_assert_uint_eq(job.colour_count, 2);
    for (size_t i = 0; i < 2; i++)
        ck_assert_str_eq(board->cavities[i].colour, job.colours[i].name);
}
END_TEST

static Suite *suite(void) {
    Suite *suite = suite_create("examples");
    TCase *jobs = tcase_create("jobs");
    tcase_add_checked_fixture(jobs, setup, teardown);
    tcase_set_timeout(jobs, 60); /* under memcheck */
    tcase_add_loop_test(jobs, example, 0, (int)(sizeof examples / sizeof *examples));
    tcase_add_test(jobs, mill_bakery);
    suite_add_tcase(suite, jobs);
    return suite;
}

int main(void) {
    SRunner *runner = srunner_create(suite());
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
