/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/memory.h"
#include "failing.h"
#include "plans.h"
#include "runnel/levelling.h"
#include "runnel/write_finish.h"
#include "written.h"

#include <jansson.h>

typedef struct levelled {
    runnel_job job;
    runnel_problems problems;
    runnel_levelling_plan made;
    runnel_status status;
} levelled;

/* Two bars 10 mm high for two letters: 0.8 mm wide from x 0, and 0.9 mm wide from x 5. */
static runnel_status two_bars(const runnel_text *text, runnel_problems *problems,
                              const runnel_place *place, runnel_lettering *lettering) {
    static const double left_mm[] = {0, 5}, width_mm[] = {0.8, 0.9};
    runnel_lettering fresh = {.cluster_count = 0};
    (void)problems;
    (void)place;
    (void)text;
    runnel_contours_init(&fresh.contours);
    runnel_status status = runnel_reserve((void **)&fresh.clusters, &fresh.cluster_capacity, 2,
                                          sizeof *fresh.clusters);
    for (size_t i = 0; i < 2 && !status; i++) {
        const double x = left_mm[i], far = x + width_mm[i];
        status = runnel_contours_begin(&fresh.contours, true);
        for (size_t k = 0; k < 4 && !status; k++)
            status =
                runnel_contours_add(&fresh.contours, k == 0 || k == 3 ? x : far, k < 2 ? 0 : 10);
        fresh.clusters[fresh.cluster_count++] =
            (runnel_cluster){.first_byte = i, .byte_count = 1, .box = {x, 0, far, 10}};
    }
    if (status)
        runnel_lettering_clear(&fresh);
    else
        *lettering = fresh;
    return status;
}

static void level_job(const char *yaml, levelled *of) {
    memset(of, 0, sizeof *of);
    runnel_job_init(&of->job);
    runnel_status status =
        runnel_job_read_yaml(yaml, strlen(yaml), "job.yaml", job_tables(), &of->problems, &of->job);
    ck_assert_msg(!status, "%s", of->problems.count ? of->problems.items[0].text : "no reason");
    of->status = runnel_levelling_make(&of->job, job_tables(), &(runnel_letters){two_bars, NULL},
                                       &of->problems, &of->made);
}

static void levelled_clear(levelled *of) {
    runnel_levelling_clear(&of->made);
    runnel_problems_clear(&of->problems);
    runnel_job_clear(&of->job);
}

#define TEXT "{text: IJ, font: any, cap height: 10 mm, cutter: v 60 deg}"

/* 0.7 mm off narrows a V of 60 degrees by 2 x 0.7 tan 30 deg = 0.80829 mm: of the bar of 0.8 mm
 * nothing is left, of the other 0.09171 mm. */
START_TEST(strokes_go_by_their_letters) {
    levelled of;
    level_job("level: {take off: 0.7 mm}\npieces: [{count: 2, cavities: [" TEXT
              ", {measured: 5 ml}]}]\n",
              &of);
    ck_assert_int_eq(of.status, RUNNEL_OK);
    ck_assert_uint_eq(of.made.cavity_count, 2);
    const runnel_levelling_cavity *first = &of.made.cavities[0];
    ck_assert(first->known && !of.made.cavities[1].known);
    ck_assert_uint_eq(first->stroke_count, 2);
    for (size_t i = 0; i < 2; i++) {
        const runnel_levelling_stroke *stroke = &first->strokes[i];
        ck_assert_uint_le(stroke->place, 1);
        ck_assert_str_eq(stroke->letter, stroke->place ? "J" : "I");
        ck_near(stroke->stroke.before_mm, stroke->place ? 0.9 : 0.8, 1e-9);
        ck_near_or(stroke->stroke.after_mm, stroke->place ? 0.09171 : 0, 0, 6e-6);
    }
    ck_assert_uint_eq(first->figures.gone_count, 1);
    ck_assert_uint_eq(of.made.plan.warning_count, 2);
    ck_assert_str_eq(of.made.plan.warnings[0].code, "strokes-gone");
    ck_assert_str_eq(of.made.plan.warnings[1].code, "not-known");
    ck_assert_uint_eq(of.made.taken, RUNNEL_TAKEN_UNDER | RUNNEL_TAKEN_PASS | RUNNEL_TAKEN_THIN);
    FILE *file = tmpfile();
    ck_assert_int_eq(runnel_write_level_text(&of.job, &of.made, file), RUNNEL_OK);
    char *text = contents(file);
    has(text, "in each of 2 pieces");
    has(text,
        "1 stroke gone, 1 left no wider than 0.5 mm:\n      I   1 gone, up to 0.80 mm wide\n");
    has(text, "      J   1 left thin, down to 0.09 mm\n");
    fits(text);
    free(text);
    levelled_clear(&of);
}
END_TEST

START_TEST(json_has_each_stroke) {
    levelled of;
    level_job("level: {take off: 0.7 mm, zero on: 'paper 2, 10 measure 1.1 mm', veneer: 1 mm}\n"
              "pieces: [{cavities: [" TEXT "]}]\n",
              &of);
    FILE *file = tmpfile();
    ck_assert_int_eq(runnel_write_level_json(&of.job, &of.made, file), RUNNEL_OK);
    char *text = contents(file);
    json_error_t error;
    json_t *root = json_loads(text, 0, &error);
    ck_assert_msg(root != NULL, "%s", error.text);
    json_t *level = json_object_get(root, "level"), *crown = json_object_get(root, "crown");
    ck_assert_str_eq(json_string_value(json_object_get(level, "zero_on")), "paper");
    ck_near(json_number_value(json_object_get(level, "zero_count")), 2, 0);
    ck_near(json_number_value(json_object_get(level, "standoff_mm")), 0.22, 1e-12);
    ck_near(json_number_value(json_object_get(crown, "cut_mm")), 0.18, 1e-12); /* of 0.4 mm */
    ck_near(json_number_value(json_object_get(crown, "veneer_left_mm")), 0.3, 1e-12);
    json_t *cavity = json_array_get(json_object_get(root, "cavities"), 0);
    ck_assert_uint_eq(json_array_size(json_object_get(cavity, "strokes")), 2);
    ck_near(json_number_value(json_object_get(cavity, "gone")), 1, 0);
    ck_near(json_number_value(json_object_get(cavity, "narrowing_mm")), 0.8082903768654762, 1e-12);
    json_decref(root);
    free(text);
    levelled_clear(&of);
}
END_TEST

/* Whether the pour has cured long enough depends on the shop: 24 h at 25 degC as the sheet of
 * job_tables.h says, and below its 12 degC nothing is known. */
START_TEST(time_of_levelling) {
    levelled of;
    level_job("shop: {temperature: 25 °C}\npieces: [{cavities: [" TEXT "]}]\n", &of);
    ck_near(of.made.sandable_s, 86400, 1e-12);
    levelled_clear(&of);
    level_job("shop: {temperature: 11 °C}\npieces: [{cavities: [" TEXT "]}]\n", &of);
    ck_assert_int_eq(of.status, RUNNEL_OK);
    ck_assert(isnan(of.made.sandable_s));
    levelled_clear(&of);
}
END_TEST

START_TEST(many_strokes_are_cut_short) {
    char polygon[4000] = "pieces:\n- cavities:\n  - cutter: v 60 deg\n    outline: polygon 0,0 "
                         "200,0";
    for (int i = 0; i < 40; i++) { /* a comb of 40 teeth 0.5 mm wide */
        size_t used = strlen(polygon);
        snprintf(polygon + used, sizeof polygon - used, " %d,20 %g,20 %g,10 %d,10", 200 - 5 * i,
                 200 - 5 * i - 0.5, 200 - 5 * i - 0.5, 195 - 5 * i);
    }
    snprintf(polygon + strlen(polygon), sizeof polygon - strlen(polygon), " mm\n");
    levelled of;
    level_job(polygon, &of);
    runnel_levelling_clear(&of.made);
    of.job.level.take_off_mm = 0.6;
    ck_assert_int_eq(runnel_levelling_make(&of.job, job_tables(), NULL, NULL, &of.made), RUNNEL_OK);
    ck_assert_uint_eq(of.made.cavities[0].stroke_count, 40);
    FILE *file = tmpfile();
    ck_assert_int_eq(runnel_write_level_text(&of.job, &of.made, file), RUNNEL_OK);
    char *text = contents(file);
    has(text, "40 strokes gone, 0 left no wider than 0.5 mm:");
    has(text, "and 10 more, all of them in the JSON");
    fits(text);
    free(text);
    levelled_clear(&of);
}
END_TEST

START_TEST(streams_that_take_nothing) {
    levelled of;
    level_job("pieces: [{cavities: [" TEXT "]}]\n", &of);
    FILE *full = fopen("/dev/full", "w");
    ck_assert_ptr_nonnull(full);
    ck_assert_int_eq(runnel_write_level_text(&of.job, &of.made, full), RUNNEL_E_IO);
    ck_assert_int_eq(runnel_write_level_json(&of.job, &of.made, full), RUNNEL_E_IO);
    fclose(full);
    levelled_clear(&of);
}
END_TEST

START_TEST(memory_may_run_out) {
    levelled of;
    level_job("level: {take off: 0.7 mm, zero on: 1 mm, high spot: 2 mm, veneer: 0.5 mm}\n"
              "pieces: [{cavities: [" TEXT ", {measured: 5 ml}]}]\n",
              &of);
    ck_assert_int_eq(of.status, RUNNEL_NOT_POSSIBLE);
    runnel_status status = RUNNEL_E_NO_MEMORY;
    for (size_t n = 0; status == RUNNEL_E_NO_MEMORY; n++) {
        failing count = {.fail_at = n};
        runnel_levelling_plan again = {.cavity_count = 0};
        ck_assert_uint_lt(n, 100000);
        start_failing(&count);
        status = runnel_levelling_make(&of.job, job_tables(), &(runnel_letters){two_bars, NULL},
                                       NULL, &again);
        runnel_levelling_clear(&again);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
        if (count.calls > n)
            ck_assert_int_eq(status, RUNNEL_E_NO_MEMORY);
    }
    ck_assert_int_eq(status, RUNNEL_NOT_POSSIBLE);
    levelled_clear(&of);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("levelling");
    TCase *levelling = tcase_create("levelling");
    tcase_add_test(levelling, strokes_go_by_their_letters);
    tcase_add_test(levelling, json_has_each_stroke);
    tcase_add_test(levelling, time_of_levelling);
    tcase_add_test(levelling, many_strokes_are_cut_short);
    tcase_add_test(levelling, streams_that_take_nothing);
    tcase_add_test(levelling, memory_may_run_out);
    suite_add_tcase(suite, levelling);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
