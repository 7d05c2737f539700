/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "failing.h"
#include "job_tables.h"
#include "runnel/read.h"
#include "runnel/write_finish.h"
#include "written.h"

#include <jansson.h>

/* The tables of job_tables.h with two oils; the figures are invented. */
static const runnel_tables *oil_tables(void) {
    static char names[][12] = {"mineral oil", "nut oil"}, sure[] = "from memory", none[] = "",
                food[] = "only when cured", date[] = "2026-01-01";
    static runnel_oil_row rows[2];
    static runnel_tables tables;
    rows[0].oil = (runnel_oil){.name = names[0],
                               .density_g_per_ml = 0.85,
                               .uptake_ml_per_m2 = 60,
                               .uptake_low_ml_per_m2 = NAN,
                               .uptake_high_ml_per_m2 = NAN,
                               .end_grain_factor = 3,
                               .coats = 4,
                               .soak_s = NAN,
                               .between_s = 3600,
                               .full_cure_s = NAN,
                               .food = none,
                               .source = none,
                               .date = date,
                               .sure = sure,
                               .uptake_sure = sure};
    rows[1].oil = rows[0].oil;
    rows[1].oil.name = names[1];
    rows[1].oil.dries = rows[1].oil.nut = true;
    rows[1].oil.soak_s = 1200;
    rows[1].oil.full_cure_s = 7 * 86400;
    rows[1].oil.food = food;
    tables = *job_tables();
    tables.oils = rows;
    tables.oil_count = 2;
    return &tables;
}

typedef struct oiled {
    runnel_job job;
    runnel_problems problems;
    runnel_oiling_plan made;
    runnel_status status;
} oiled;

static void oil_job(const char *yaml, oiled *of) {
    memset(of, 0, sizeof *of);
    runnel_job_init(&of->job);
    runnel_status status =
        runnel_job_read_yaml(yaml, strlen(yaml), "job.yaml", oil_tables(), &of->problems, &of->job);
    ck_assert_msg(!status, "%s", of->problems.count ? of->problems.items[0].text : "no reason");
    of->status = runnel_oiling_make(&of->job, oil_tables(), NULL, &of->problems, &of->made);
}

static void oiled_clear(oiled *of) {
    runnel_oiling_clear(&of->made);
    runnel_problems_clear(&of->problems);
    runnel_job_clear(&of->job);
}

static char *text_of(const oiled *of) {
    FILE *file = tmpfile();
    ck_assert_ptr_nonnull(file);
    ck_assert_int_eq(runnel_write_oil_text(&of->job, &of->made, file), RUNNEL_OK);
    char *text = contents(file);
    fits(text);
    return text;
}

#define SQUARE "{outline: rectangle 60 x 40 mm, cutter: v 90 deg, depth limit: 4 mm}"

START_TEST(kinds_of_piece_add_up) {
    /* 200 x 100 x 20 mm: faces 2 x 20000 and 2 x 4000, ends 2 x 2000 mm2, less 2400 mm2 of resin */
    oiled of;
    oil_job("oil: {waste: 0 %, coats: 2, fall: 50 %}\n"
            "pieces:\n- {name: one, count: 4, size: 200 x 100 x 20 mm, cavities: [" SQUARE "]}\n"
            "- {name: two, size: 200 x 100 x 20 mm, grain: width, cavities: [{measured: 5 ml, "
            "footprint: 10 cm2}]}\n",
            &of);
    ck_assert_int_eq(of.status, RUNNEL_OK);
    ck_assert_uint_eq(of.made.part_count, 2);
    ck_near(of.made.parts[0].area.face_mm2, 45600, 1e-12);
    ck_near(of.made.parts[0].area.end_mm2, 4000, 1e-12);
    ck_near(of.made.parts[0].area.resin_mm2, 2400, 1e-12);
    ck_near(of.made.parts[1].area.face_mm2, 43000, 1e-12); /* the ends are 200 x 20 mm now */
    ck_near(of.made.parts[1].area.end_mm2, 8000, 1e-12);
    ck_near(of.made.face_mm2, 4 * 45600 + 43000, 1e-12);
    ck_near(of.made.end_mm2, 4 * 4000 + 8000, 1e-12);
    /* 0.06 mm on face grain, three times that on end grain; then half of it */
    ck_near(of.made.coats_mm3[0], 0.06 * (225400 + 3 * 24000), 1e-12);
    ck_near(of.made.coats_mm3[1], of.made.coats_mm3[0] / 2, 1e-12);
    ck_near(of.made.all.all_mm3, 1.5 * of.made.coats_mm3[0], 1e-12);
    ck_near(of.made.parts[0].all.all_mm3 + of.made.parts[1].all.all_mm3, of.made.all.all_mm3,
            1e-12);
    ck_assert_uint_eq(of.made.taken, RUNNEL_TAKEN_OIL | RUNNEL_TAKEN_UPTAKE |
                                         RUNNEL_TAKEN_END_GRAIN | RUNNEL_TAKEN_OIL_ORDER);
    ck_assert(!of.made.times_known); /* the row has no soak */
    ck_assert_ptr_null(of.made.wax);
    char *text = text_of(&of);
    has(text, "2, each 50 % less than the one before\n");
    has(text, "wiped dry after          not known");
    has_not(text, "Where food touches it");
    has_not(text, "Cloths wet");
    free(text);
    oiled_clear(&of);
}
END_TEST

START_TEST(nut_oil_and_wax) {
    oiled of;
    oil_job("oil: Nut Oil\nwax: {recipe: '5 ml : 1 g', coats: 2, waste: 0 %, coat: 20 ml/m2}\n"
            "pieces: [{size: 200 x 100 x 20 mm, cavities: [" SQUARE "]}]\n",
            &of);
    ck_assert_int_eq(of.status, RUNNEL_OK);
    ck_assert_str_eq(of.made.oil->name, "nut oil");
    ck_near(of.made.blend.oil_per_wax, 4.25, 1e-12); /* 5 x 0.85 */
    ck_near(of.made.melt.total_mm3, 49600 * 0.040, 1e-12);
    ck_assert(of.made.times_known);
    ck_near(of.made.times.cured_s, 3 * 3600 + 7 * 86400, 1e-12);
    ck_assert_int_eq(of.made.order.steps[6], RUNNEL_STEP_OIL_DRYING);
    ck_assert_int_eq(of.made.order.steps[7], RUNNEL_STEP_WAX);
    char *text = text_of(&of);
    has(text, "melt together for 2 thin coats\n");
    has(text, "4.25 parts of oil to one of wax");
    has(text, "Not before the oil is cured");
    has(text, "  only when cured\n");
    has(text, "Cloths wet with an oil that dries");
    has(text, "This oil comes from nuts");
    free(text);
    oiled_clear(&of);
}
END_TEST

START_TEST(order_is_checked) {
    oiled of;
    oil_job("oil: nut oil\norder: carve, pour, oil, sand, oil\n"
            "pieces: [{size: 200 x 100 x 20 mm, cavities: [{measured: 5 ml}]}]\n",
            &of);
    ck_assert_int_eq(of.status, RUNNEL_OK);
    ck_assert_uint_eq(of.made.plan.warning_count, 2);
    ck_assert_str_eq(of.made.plan.warnings[0].code, "footprint-unknown");
    ck_assert_str_eq(of.made.plan.warnings[1].code, "sand-after-oil");
    ck_assert_int_eq(of.made.order.steps[2], RUNNEL_STEP_OIL_DRYING);
    oiled_clear(&of);
}
END_TEST

START_TEST(boards_that_cannot_be) {
    static const struct {
        const char *piece, *field, *text;
        runnel_status status;
    } rows[] = {
        {"cavities: [" SQUARE "]", "size",
         "'piece 1' needs its size to be oiled, such as '450 x 300 x 38 mm'", RUNNEL_E_MISSING},
        {"size: 50 x 41 x 20 mm, cavities: [" SQUARE "]", "size",
         "what is carved into 'piece 1' takes more of a face than it has", RUNNEL_E_CONFLICT},
        {"size: 200 x 100 x 20 mm, chamfer: 11 mm, cavities: [" SQUARE "]", "size",
         "the chamfers of 'piece 1' take more than half of a side", RUNNEL_E_RANGE},
        {"size: 200 x 100 x 20 mm, finger holds: '10 mm, round-nose radius 8 mm, 10 mm deep', "
         "cavities: [" SQUARE "]",
         "finger holds", "the finger holds of 'piece 1': ", RUNNEL_E_RANGE},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char yaml[400];
        oiled of;
        snprintf(yaml, sizeof yaml, "pieces: [{%s}]\n", rows[i].piece);
        oil_job(yaml, &of);
        ck_assert_int_eq(of.status, rows[i].status);
        ck_assert_uint_eq(of.problems.count, 1);
        ck_assert_str_eq(of.problems.items[0].field, rows[i].field);
        ck_assert_uint_eq(of.problems.items[0].line, 1);
        ck_assert(!strncmp(of.problems.items[0].text, rows[i].text, strlen(rows[i].text)));
        ck_assert_uint_eq(of.made.part_count, 0);
        oiled_clear(&of);
    }
}
END_TEST

START_TEST(json_says_all) {
    oiled of;
    oil_job("oil: nut oil\nwax: 4:1 by weight\n"
            "pieces: [{size: 200 x 100 x 20 mm, juice groove: 'rectangle 150 x 60 mm, round-nose "
            "radius 3 mm, 3 mm deep', cavities: [{measured: 5 ml, footprint: 4 cm2}]}]\n",
            &of);
    FILE *file = tmpfile();
    ck_assert_int_eq(runnel_write_oil_json(&of.job, &of.made, file), RUNNEL_OK);
    char *text = contents(file);
    json_error_t error;
    json_t *root = json_loads(text, 0, &error);
    ck_assert_msg(root != NULL, "%s", error.text);
    json_t *piece = json_array_get(json_object_get(root, "pieces"), 0);
    /* half a round of 3 mm along 420 mm, at the corners a little less: within a hundredth */
    ck_near(json_number_value(json_object_get(piece, "juice_ml")), 14.137167 * 0.42, 1e-2);
    ck_near(json_number_value(json_object_get(piece, "resin_mm2")), 400, 1e-12);
    ck_assert_uint_eq(json_array_size(json_object_get(json_object_get(root, "total"), "coats_ml")),
                      4);
    ck_near(json_number_value(json_object_get(json_object_get(root, "wax"), "oil_per_wax")), 4,
            1e-12);
    ck_assert(json_is_true(json_object_get(json_object_get(root, "oil"), "nut")));
    json_decref(root);
    free(text);
    FILE *full = fopen("/dev/full", "w");
    ck_assert_int_eq(runnel_write_oil_json(&of.job, &of.made, full), RUNNEL_E_IO);
    ck_assert_int_eq(runnel_write_oil_text(&of.job, &of.made, full), RUNNEL_E_IO);
    fclose(full);
    oiled_clear(&of);
}
END_TEST

START_TEST(memory_may_run_out) {
    oiled of;
    oil_job("oil: nut oil\nwax: 4:1 by weight\norder: carve, oil, pour\n"
            "pieces: [{size: 200 x 100 x 20 mm, juice groove: 'rectangle 150 x 60 mm, round-nose "
            "radius 3 mm, 3 mm deep', cavities: [" SQUARE ", {measured: 5 ml}]}]\n",
            &of);
    ck_assert_int_eq(of.status, RUNNEL_NOT_POSSIBLE);
    runnel_status status = RUNNEL_E_NO_MEMORY;
    for (size_t n = 0; status == RUNNEL_E_NO_MEMORY; n++) {
        failing count = {.fail_at = n};
        runnel_oiling_plan again = {.part_count = 0};
        ck_assert_uint_lt(n, 100000);
        start_failing(&count);
        status = runnel_oiling_make(&of.job, oil_tables(), NULL, NULL, &again);
        runnel_oiling_clear(&again);
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
        status = runnel_write_oil_json(&of.job, &of.made, file);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
    }
    fclose(file);
    oiled_clear(&of);
}
END_TEST

START_TEST(tables_without_the_usual_oil) {
    oiled of;
    oil_job("pieces: [{size: 200 x 100 x 20 mm, cavities: [" SQUARE "]}]\n", &of);
    runnel_oiling_plan none = {.part_count = 0};
    ck_assert_int_eq(runnel_oiling_make(&of.job, job_tables(), NULL, &of.problems, &none),
                     RUNNEL_E_MISSING);
    ck_assert_uint_eq(of.problems.count, 1);
    oiled_clear(&of);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("oiling");
    TCase *oiling = tcase_create("oiling");
    tcase_add_test(oiling, kinds_of_piece_add_up);
    tcase_add_test(oiling, nut_oil_and_wax);
    tcase_add_test(oiling, order_is_checked);
    tcase_add_test(oiling, boards_that_cannot_be);
    tcase_add_test(oiling, json_says_all);
    tcase_add_test(oiling, memory_may_run_out);
    tcase_add_test(oiling, tables_without_the_usual_oil);
    suite_add_tcase(suite, oiling);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
