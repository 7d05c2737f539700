/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "failing.h"
#include "job_tables.h"
#include "runnel/read.h"
#include "runnel/write_finish.h"
#include "written.h"

#include <jansson.h>

typedef struct sheeted {
    runnel_job job;
    runnel_problems problems;
    runnel_sheet made;
    runnel_status status;
} sheeted;

static void sheet_job_of(const char *yaml, const runnel_tables *tables, sheeted *of) {
    memset(of, 0, sizeof *of);
    runnel_job_init(&of->job);
    runnel_status status =
        runnel_job_read_yaml(yaml, strlen(yaml), "job.yaml", tables, &of->problems, &of->job);
    ck_assert_msg(!status, "%s", of->problems.count ? of->problems.items[0].text : "no reason");
    of->status = runnel_sheet_make(&of->job, tables, NULL, &of->problems, NULL, &of->made);
}

static void sheet_job(const char *yaml, sheeted *of) {
    sheet_job_of(yaml, job_tables(), of);
}

static void sheeted_clear(sheeted *of) {
    runnel_sheet_clear(&of->made);
    runnel_problems_clear(&of->problems);
    runnel_job_clear(&of->job);
}

static char *text_of(const sheeted *of) {
    FILE *file = tmpfile();
    ck_assert_ptr_nonnull(file);
    ck_assert_int_eq(runnel_write_sheet_text(&of->job, &of->made, file), RUNNEL_OK);
    char *text = contents(file);
    fits(text);
    return text;
}

#define SQUARE "{outline: rectangle 60 x 40 mm, cutter: v 90 deg, depth limit: 4 mm}"

/* A warning of a cavity comes from the plan and from each part; it is told once. */
START_TEST(warnings_are_told_once) {
    sheeted of;
    sheet_job("sealer: shellac with wax\nlevel: {take off: 4 mm}\n"
              "pieces: [{size: 200 x 100 x 6 mm, cavities: [" SQUARE "]}]\n",
              &of);
    size_t deep = 0, waxy = 0, gone = 0;
    ck_assert_int_eq(of.status, RUNNEL_NOT_POSSIBLE);
    for (size_t i = 0; i < of.made.plan.warning_count; i++) {
        deep += !strcmp(of.made.plan.warnings[i].code, "too-deep");
        waxy += !strcmp(of.made.plan.warnings[i].code, "waxy-sealer");
        gone += !strcmp(of.made.plan.warnings[i].code, "all-gone");
    }
    ck_assert_uint_eq(deep, 1);
    ck_assert_uint_eq(waxy, 1);
    ck_assert_uint_eq(gone, 1);
    sheeted_clear(&of);
}
END_TEST

START_TEST(parts_are_those_of_the_job) {
    static const char *const parts[] = {"Job sheet: badge\n", "1  Carve\n",          "2  Seal\n",
                                        "3  Mix and pour\n",  "4  Level and sand\n", "names no oil",
                                        "Take care\n"};
    sheeted of;
    sheet_job("job: badge\nsealed: yes\npieces: [{count: 2, cavities: [" SQUARE "]}]\n", &of);
    ck_assert_int_eq(of.status, RUNNEL_OK);
    ck_assert(of.made.sealed && !of.made.oiled);
    char *text = text_of(&of);
    in_order(text, parts, sizeof parts / sizeof *parts);
    has(text, "in each of 2 pieces");
    free(text);
    FILE *file = tmpfile();
    ck_assert_int_eq(runnel_write_sheet_json(&of.job, &of.made, file), RUNNEL_OK);
    text = contents(file);
    json_t *root = json_loads(text, 0, NULL);
    ck_assert(json_is_object(json_object_get(root, "seal")));
    ck_assert(json_is_null(json_object_get(root, "oil")));
    ck_assert_uint_eq(json_array_size(json_object_get(root, "batches")), 1);
    json_decref(root);
    free(text);
    FILE *full = fopen("/dev/full", "w");
    ck_assert_int_eq(runnel_write_sheet_json(&of.job, &of.made, full), RUNNEL_E_IO);
    ck_assert_int_eq(runnel_write_sheet_text(&of.job, &of.made, full), RUNNEL_E_IO);
    fclose(full);
    sheeted_clear(&of);
    sheet_job("sealer: {kind: lacquer, coverage: 9 m2/L}\nshop: {temperature: 5 °C}\n"
              "pieces: [{cavities: [{measured: 5 ml, wall area: 9 cm2}]}]\n",
              &of);
    text = text_of(&of);
    has(text, "resin may follow when it is hard, see the can\n");
    has(text, "not before it is hard, see its sheet\n");
    free(text);
    sheeted_clear(&of);
}
END_TEST

/* What is to be there is what the parts take, each once. */
START_TEST(needs_are_those_of_the_parts) {
    static const struct {
        const char *what, *part;
    } wanted[] = {{"table-top 2:1", "A"}, {"table-top 2:1", "B"}, {"tint", "red"},
                  {"shellac", NULL},      {"spirit", NULL},       {"mineral oil", NULL},
                  {"beeswax", NULL}};
    const size_t count = sizeof wanted / sizeof *wanted;
    sheeted of;
    runnel_tables data = {0};
    ck_assert_int_eq(runnel_tables_read(&data, "data", NULL), RUNNEL_OK);
    sheet_job_of("sealer: shellac\noil: mineral oil\nwax: \"4:1 by weight\"\ncolours: {red: 3 %}\n"
                 "pieces: [{size: 200 x 100 x 20 mm, cavities: [{outline: rectangle 60 x 40 mm, "
                 "cutter: v 90 deg, depth limit: 4 mm, colour: red}]}]\n",
                 &data, &of);
    const runnel_needs *needs = &of.made.needs;
    ck_assert_uint_eq(needs->count, count);
    for (size_t i = 0; i < count; i++) {
        ck_assert_str_eq(needs->items[i].what, wanted[i].what);
        ck_assert(!needs->items[i].part == !wanted[i].part);
        if (wanted[i].part)
            ck_assert_str_eq(needs->items[i].part, wanted[i].part);
    }
    const runnel_weighing *weighing = &of.made.plan.batches[0].weighing;
    ck_near(needs->items[0].mass_g, weighing->part_a_g, 1e-12);
    ck_near(needs->items[1].mass_g, weighing->part_b_g, 1e-12);
    ck_near(needs->items[2].mass_g, weighing->tint_g, 1e-12);
    /* melted into four times its weight of oil */
    ck_near(needs->items[6].mass_g * 4, of.made.oiling.melt.oil_g, 1e-12);
    ck_near(needs->items[5].volume_mm3, of.made.oiling.all.all_mm3 + of.made.oiling.melt.oil_mm3,
            1e-12);
    char *text = text_of(&of);
    has(text, "Shopping list\n");
    has(text, "table-top 2:1, part A");
    has(text, "tint red");
    has(text, "names no first and no last day");
    free(text);
    sheeted_clear(&of);
    runnel_tables_clear(&data);
}
END_TEST

static void same_warnings(const runnel_plan *one, const runnel_plan *other) {
    ck_assert_uint_eq(one->warning_count, other->warning_count);
    for (size_t i = 0; i < one->warning_count; i++) {
        ck_assert_str_eq(one->warnings[i].code, other->warnings[i].code);
        ck_assert_str_eq(one->warnings[i].where, other->warnings[i].where);
        ck_assert_str_eq(one->warnings[i].text, other->warnings[i].text);
    }
}

/* The parts share one plan of the job, and come to the same as each made by itself. */
START_TEST(parts_are_those_made_alone) {
    const runnel_job *job;
    sheeted of;
    runnel_tables data = {0};
    runnel_sealing sealing = {.part_count = 0};
    runnel_levelling_plan levelling = {.cavity_count = 0};
    runnel_oiling_plan oiling = {.part_count = 0};
    runnel_timings timings = {.count = 0};
    ck_assert_int_eq(runnel_tables_read(&data, "data", NULL), RUNNEL_OK);
    sheet_job_of("sealer: shellac\noil: mineral oil\ncolours: {red: 3 %, blue: 2 %}\n"
                 "days: {start: 2026-11-30, ready by: 2026-12-03}\n"
                 "pieces: [{size: 200 x 100 x 20 mm, count: 3, cavities: ["
                 "{outline: rectangle 60 x 40 mm, cutter: v 90 deg, colour: red},"
                 "{measured: 5 ml, deepest: 9 mm, colour: blue}]}]\n",
                 &data, &of);
    job = &of.job;
    ck_assert_msg(of.status == RUNNEL_OK || of.status == RUNNEL_NOT_POSSIBLE, "%s",
                  of.problems.count ? of.problems.items[0].text : "");
    ck_assert(of.made.sealed && of.made.oiled && of.made.timed);
    runnel_sealing_make(job, &data, NULL, NULL, &sealing);
    same_warnings(&of.made.sealing.plan, &sealing.plan);
    ck_assert_uint_eq(of.made.sealing.plan.batch_count, 2);
    ck_assert_double_gt(sealing.all.all_mm3, 0);
    ck_assert_double_eq(of.made.sealing.all.all_mm3, sealing.all.all_mm3);
    runnel_levelling_make(job, &data, NULL, NULL, &levelling);
    same_warnings(&of.made.levelling.plan, &levelling.plan);
    ck_assert_uint_eq(of.made.levelling.cavity_count, levelling.cavity_count);
    ck_assert_double_eq(of.made.levelling.sandable_s, levelling.sandable_s);
    runnel_oiling_make(job, &data, NULL, NULL, &oiling);
    same_warnings(&of.made.oiling.plan, &oiling.plan);
    ck_assert_double_gt(oiling.all.all_mm3, 0);
    ck_assert_double_eq(of.made.oiling.all.all_mm3, oiling.all.all_mm3);
    runnel_timings_make(job, 1, &data, NULL, NULL, NULL, &timings);
    const runnel_timing *shared = &of.made.timings.items[0], *alone = &timings.items[0];
    same_warnings(&shared->plan, &alone->plan);
    ck_assert(alone->is_planned && shared->is_planned);
    ck_assert_double_eq(shared->ships_s, alone->ships_s);
    ck_assert_uint_eq(shared->step_count, alone->step_count);
    ck_assert_uint_gt(alone->remedy_count, 0);
    ck_assert_uint_eq(shared->remedy_count, alone->remedy_count);
    for (size_t i = 0; i < alone->remedy_count; i++)
        ck_assert_double_eq(shared->remedies[i].ships_s, alone->remedies[i].ships_s);
    runnel_sealing_clear(&sealing);
    runnel_levelling_clear(&levelling);
    runnel_oiling_clear(&oiling);
    runnel_timings_clear(&timings);
    sheeted_clear(&of);
    runnel_tables_clear(&data);
}
END_TEST

START_TEST(memory_may_run_out) {
    sheeted of;
    sheet_job("sealer: shellac with wax\n"
              "pieces: [{cavities: [" SQUARE ", {measured: 5 ml, deepest: 9 mm}]}]\n",
              &of);
    runnel_status status = RUNNEL_E_NO_MEMORY;
    for (size_t n = 0; status == RUNNEL_E_NO_MEMORY; n++) {
        failing count = {.fail_at = n};
        runnel_sheet again = {.sealed = false};
        ck_assert_uint_lt(n, 100000);
        start_failing(&count);
        status = runnel_sheet_make(&of.job, job_tables(), NULL, NULL, NULL, &again);
        runnel_sheet_clear(&again);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
        if (count.calls > n)
            ck_assert_int_eq(status, RUNNEL_E_NO_MEMORY);
    }
    ck_assert_int_eq(status, RUNNEL_NOT_POSSIBLE);
    FILE *file = tmpfile();
    status = RUNNEL_E_NO_MEMORY;
    for (size_t n = 0; status == RUNNEL_E_NO_MEMORY; n++) {
        failing count = {.fail_at = n, .for_good = true};
        start_failing(&count);
        status = runnel_write_sheet_json(&of.job, &of.made, file);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
    }
    fclose(file);
    sheeted_clear(&of);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("sheet");
    TCase *sheet = tcase_create("sheet");
    tcase_add_test(sheet, warnings_are_told_once);
    tcase_add_test(sheet, parts_are_those_of_the_job);
    tcase_add_test(sheet, needs_are_those_of_the_parts);
    tcase_add_test(sheet, parts_are_those_made_alone);
    tcase_add_test(sheet, memory_may_run_out);
    suite_add_tcase(suite, sheet);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
