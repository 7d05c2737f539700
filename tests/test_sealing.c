/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "failing.h"
#include "plans.h"
#include "runnel/write_finish.h"
#include "written.h"

#include <jansson.h>

/* 60 x 40 mm by a V of 90 degrees: walls of 2400/sin 45 deg = 3394.1125496954 mm2, and for a band
 * of 1 mm around it 200 + pi mm2. */
#define ROOF     "{outline: rectangle 60 x 40 mm, cutter: v 90 deg}"
#define WALL_MM2 3394.1125496954282
#define BAND_MM2 203.14159265358979

typedef struct sealed {
    runnel_job job;
    runnel_problems problems;
    runnel_sealing sealing;
    runnel_status status;
} sealed;

static void seal_job(const char *yaml, sealed *made) {
    memset(made, 0, sizeof *made);
    runnel_job_init(&made->job);
    runnel_status status = runnel_job_read_yaml(yaml, strlen(yaml), "job.yaml", job_tables(),
                                                &made->problems, &made->job);
    ck_assert_msg(!status, "%s", made->problems.count ? made->problems.items[0].text : "no reason");
    made->status =
        runnel_sealing_make(&made->job, job_tables(), NULL, &made->problems, &made->sealing);
}

static void sealed_clear(sealed *made) {
    runnel_sealing_clear(&made->sealing);
    runnel_problems_clear(&made->problems);
    runnel_job_clear(&made->job);
}

static char *written_text(const sealed *made) {
    FILE *file = tmpfile();
    ck_assert_ptr_nonnull(file);
    ck_assert_int_eq(runnel_write_seal_text(&made->job, &made->sealing, file), RUNNEL_OK);
    return contents(file);
}

static const char *warning(const sealed *made, size_t index) {
    ck_assert_uint_lt(index, made->sealing.plan.warning_count);
    return made->sealing.plan.warnings[index].code;
}

START_TEST(no_more_face_than_there_is) {
    /* 200 x 200 mm less two of 60 x 40 mm; without a size the bands are as wide as told: around 60
     * x 40 mm 200 w + pi w^2. */
    sealed made;
    seal_job("sealed: yes\nsealer: {kind: lacquer, wet film: 100 um, face margin: 500 mm}\n"
             "pieces:\n- {name: one, size: 200 x 200 x 20 mm, cavities: [" ROOF ", " ROOF "]}\n"
             "- {name: two, cavities: [" ROOF "]}\n",
             &made);
    ck_near(made.sealing.parts[0].face_mm2, 40000 - 4800, 1e-9);
    ck_near(made.sealing.parts[1].face_mm2, 100000 + 250000 * 3.14159265358979323846, 1e-9);
    sealed_clear(&made);
}
END_TEST

START_TEST(kinds_of_piece_add_up) {
    /* wet film 0.1 mm, a fifth lost: area x 0.1 mm / 0.8 */
    sealed made;
    seal_job("sealed: yes\n"
             "sealer: {kind: lacquer, wet film: 100 um, loss: 20 %, coats: 3}\n"
             "pieces:\n- {name: one, count: 4, cavities: [" ROOF "]}\n"
             "- {name: two, cavities: [" ROOF ", " ROOF "]}\n",
             &made);
    const runnel_sealing *sealing = &made.sealing;
    ck_assert_int_eq(made.status, RUNNEL_OK);
    ck_assert_uint_eq(sealing->plan.warning_count, 0);
    ck_assert_uint_eq(sealing->part_count, 2);
    ck_assert_str_eq(sealing->parts[1].piece, "two");
    ck_near(sealing->parts[0].wall_mm2, WALL_MM2, 1e-12);
    ck_near(sealing->parts[0].face_mm2, BAND_MM2, 1e-9);
    ck_near(sealing->parts[1].wall_mm2, 2 * WALL_MM2, 1e-12);
    ck_near(sealing->parts[1].face_mm2, 2 * BAND_MM2, 1e-9);
    ck_near(sealing->wall_mm2, 6 * WALL_MM2, 1e-12);
    ck_near(sealing->all.coat_mm3, 6 * (WALL_MM2 + BAND_MM2) * 0.1 / 0.8, 1e-9);
    ck_near(sealing->all.all_mm3, 3 * sealing->all.coat_mm3, 1e-12);
    ck_near(sealing->parts[0].all.all_mm3 + sealing->parts[1].all.all_mm3, sealing->all.all_mm3,
            1e-12);
    ck_assert_uint_eq(sealing->taken, RUNNEL_TAKEN_FACE | RUNNEL_TAKEN_ORDER);
    ck_assert(!sealing->times_known);
    ck_assert_uint_eq(sealing->cases, RUNNEL_CASE_SOLVENT);
    sealed_clear(&made);
}
END_TEST

START_TEST(resin_seals_by_its_own_sheet) {
    /* At the 25 degC of the sheet in job_tables.h: recoat from 4 h to 10 h. Two coats: the second
     * after 4 h, the pour after 8 h. Of each coat both parts stay in 2:1 by volume, 100:40.95 by
     * weight with 1.16 and 0.95 g/ml. */
    sealed made;
    seal_job("sealed: yes\nshop: {temperature: 25 °C}\nscale: 0.01 g\n"
             "sealer: {kind: clear resin, wet film: 0.5 mm, loss: 0 %, face margin: 0 mm}\n"
             "pieces: [{count: 10, cavities: [" ROOF "]}]\n",
             &made);
    const runnel_sealing *sealing = &made.sealing;
    ck_assert_int_eq(made.status, RUNNEL_OK);
    ck_assert(sealing->times_known);
    ck_near(sealing->times.ready_from_s, 8 * 3600, 1e-12);
    ck_near(sealing->until_s, 10 * 3600, 1e-12);
    ck_near(sealing->weighing.part_b_g / sealing->weighing.part_a_g, 0.4095, 2e-3);
    ck_assert_double_ge(sealing->weighing.total_ml, 10 * WALL_MM2 * 0.5 / 1000);
    ck_near(sealing->weighing.total_ml, 10 * WALL_MM2 * 0.5 / 1000, 5e-3);
    ck_near(sealing->sealer.solids, 0.98, 1e-12); /* shrinks by 2 % */
    char *text = written_text(&made);
    has(text, "Weigh for each coat");
    has(text, "but no later than        10 h after the last coat");
    has(text, "goggles");
    has_not(text, "flame");
    fits(text);
    free(text);
    sealed_clear(&made);
}
END_TEST

START_TEST(resin_of_unknown_times) {
    sealed made;
    seal_job("sealed: yes\nresin: casting 3:1\nsealer: {kind: clear resin, coverage: 5 m2/L}\n"
             "pieces: [{cavities: [" ROOF "]}]\n",
             &made);
    ck_assert(!made.sealing.times_known);
    ck_assert(isnan(made.sealing.until_s));
    char *text = written_text(&made);
    has(text, "coat to coat             not known; see the can");
    has_not(text, "no later than");
    free(text);
    sealed_clear(&made);
    seal_job("sealed: yes\nshop: {temperature: 5 °C}\n" /* below the 12 °C that it needs */
             "sealer: {kind: clear resin, coverage: 5 m2/L}\npieces: [{cavities: [" ROOF "]}]\n",
             &made);
    ck_assert_int_eq(made.status, RUNNEL_OK);
    ck_assert(!made.sealing.times_known);
    sealed_clear(&made);
}
END_TEST

START_TEST(faults_of_the_order_are_warnings) {
    sealed made;
    seal_job("sealer: shellac with wax\norder: carve, oil, seal, pour, oil, sand\n"
             "pieces: [{cavities: [" ROOF ", {measured: 5 ml}]}]\n",
             &made);
    ck_assert_int_eq(made.status, RUNNEL_NOT_POSSIBLE);
    ck_assert_str_eq(warning(&made, 0), "walls-unknown");
    ck_assert_str_eq(made.sealing.plan.warnings[0].where, "piece 1 / cavity 2");
    ck_assert_str_eq(warning(&made, 1), "sealer-over-oil");
    ck_assert_str_eq(warning(&made, 2), "oil-before-resin");
    ck_assert_str_eq(warning(&made, 3), "waxy-sealer");
    ck_assert_str_eq(warning(&made, 4), "sand-after-oil");
    ck_assert_str_eq(warning(&made, 5), "bare-job");
    ck_assert_uint_eq(made.sealing.plan.warning_count, 6);
    char *text = written_text(&made);
    has(text, "6 WARNINGS");
    has(text, "Out of order");
    fits(text);
    free(text);
    sealed_clear(&made);
}
END_TEST

START_TEST(doubt_alone_is_no_no) {
    sealed made;
    seal_job("sealed: yes\norder: carve, seal, pour, oil, sand\npieces: [{cavities: [" ROOF "]}]\n",
             &made);
    ck_assert_int_eq(made.status, RUNNEL_OK);
    ck_assert_uint_eq(made.sealing.plan.warning_count, 1);
    ck_assert_str_eq(warning(&made, 0), "sand-after-oil");
    sealed_clear(&made);
}
END_TEST

/* Of the plan's warnings those stay that are about the carving. */
START_TEST(warnings_of_the_resin_stay_out) {
    sealed made;
    seal_job("sealed: yes\nshop: {temperature: 5 °C}\nscale: 1 g\n"
             "pieces: [{size: 200 x 100 x 18 mm, cavities: [" ROOF "]}]\n",
             &made);
    ck_assert_int_eq(made.status, RUNNEL_NOT_POSSIBLE); /* 20 mm deep in 18 mm */
    ck_assert_uint_eq(made.sealing.plan.warning_count, 1);
    ck_assert_str_eq(warning(&made, 0), "cuts-through");
    sealed_clear(&made);
}
END_TEST

START_TEST(json_says_all) {
    sealed made;
    seal_job("job: badge\nsealed: yes\nsealer: {cut: 3 lb, thinner: 50 %}\n"
             "pieces: [{cavities: [" ROOF "]}]\n",
             &made);
    FILE *file = tmpfile();
    ck_assert_int_eq(runnel_write_seal_json(&made.job, &made.sealing, file), RUNNEL_OK);
    char *text = contents(file);
    json_error_t error;
    json_t *root = json_loads(text, 0, &error);
    ck_assert_msg(root != NULL, "%s", error.text);
    json_t *sealer = json_object_get(root, "sealer"), *total = json_object_get(root, "total");
    ck_assert_str_eq(json_string_value(json_object_get(root, "job")), "badge");
    ck_assert_str_eq(json_string_value(json_object_get(sealer, "kind")), "shellac");
    ck_near(json_number_value(json_object_get(sealer, "cut_lb_per_gal")), 3, 1e-15);
    ck_near(json_number_value(json_object_get(sealer, "thinner_percent")), 50, 1e-15);
    ck_assert_uint_eq(json_array_size(json_object_get(sealer, "taken")), 6);
    /* 3 lb cut: 23.81 % by volume; in 1 1/2 times the volume */
    double wet = json_number_value(json_object_get(sealer, "wet_film_um"));
    ck_near(json_number_value(json_object_get(sealer, "dry_film_um")), wet * 0.2381 / 1.5, 3e-4);
    ck_near(json_number_value(json_object_get(total, "thinner_ml")),
            json_number_value(json_object_get(total, "product_ml")) / 2, 1e-12);
    ck_assert_uint_eq(json_array_size(json_object_get(root, "order")), 8);
    ck_assert_uint_eq(json_array_size(json_object_get(root, "faults")), 0);
    ck_assert_uint_eq(json_array_size(json_object_get(root, "cautions")), 2);
    json_decref(root);
    free(text);
    sealed_clear(&made);
}
END_TEST

START_TEST(streams_that_take_nothing) {
    sealed made;
    seal_job("pieces: [{cavities: [" ROOF "]}]\n", &made);
    FILE *full = fopen("/dev/full", "w");
    ck_assert_ptr_nonnull(full);
    ck_assert_int_eq(runnel_write_seal_text(&made.job, &made.sealing, full), RUNNEL_E_IO);
    ck_assert_int_eq(runnel_write_seal_json(&made.job, &made.sealing, full), RUNNEL_E_IO);
    fclose(full);
    sealed_clear(&made);
}
END_TEST

START_TEST(memory_may_run_out) {
    sealed made;
    seal_job("sealer: shellac with wax\npieces: [{cavities: [" ROOF ", {measured: 5 ml}]}]\n",
             &made);
    runnel_status status = RUNNEL_E_NO_MEMORY;
    for (size_t n = 0; status == RUNNEL_E_NO_MEMORY; n++) {
        failing count = {.fail_at = n};
        runnel_sealing again = {.part_count = 0};
        ck_assert_uint_lt(n, 100000);
        start_failing(&count);
        status = runnel_sealing_make(&made.job, job_tables(), NULL, NULL, &again);
        runnel_sealing_clear(&again);
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
        status = runnel_write_seal_json(&made.job, &made.sealing, file);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
    }
    ck_assert_int_eq(status, RUNNEL_OK);
    fclose(file);
    sealed_clear(&made);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("sealing");
    TCase *sealing = tcase_create("sealing");
    tcase_add_test(sealing, no_more_face_than_there_is);
    tcase_add_test(sealing, kinds_of_piece_add_up);
    tcase_add_test(sealing, resin_seals_by_its_own_sheet);
    tcase_add_test(sealing, resin_of_unknown_times);
    tcase_add_test(sealing, faults_of_the_order_are_warnings);
    tcase_add_test(sealing, doubt_alone_is_no_no);
    tcase_add_test(sealing, warnings_of_the_resin_stay_out);
    tcase_add_test(sealing, json_says_all);
    tcase_add_test(sealing, streams_that_take_nothing);
    tcase_add_test(sealing, memory_may_run_out);
    suite_add_tcase(suite, sealing);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
