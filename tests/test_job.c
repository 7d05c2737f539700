/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/memory.h"
#include "compare.h"
#include "failing.h"
#include "job/fields.h"
#include "job_tables.h"
#include "runnel/job.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static runnel_job job;
static runnel_problems problems;

static char *copy(const char *text) {
    char *made = runnel_copy_text(text);
    ck_assert_ptr_nonnull(made);
    return made;
}

/* A job of one piece with one outline that a V cutter follows, as from the command line. */
static void setup(void) {
    runnel_job_init(&job);
    runnel_problems_init(&problems);
    runnel_job_piece *piece;
    runnel_job_cavity *made;
    ck_assert_int_eq(runnel_job_add_piece(&job, &piece), RUNNEL_OK);
    ck_assert_int_eq(runnel_job_add_cavity(piece, &made), RUNNEL_OK);
    made->source = RUNNEL_SOURCE_OUTLINE;
    made->form = (runnel_form){.kind = RUNNEL_FORM_CIRCLE, .a_mm = 40};
    made->cut.cutter = (runnel_cutter){RUNNEL_CUTTER_V, 60, 0, 0};
}

static void teardown(void) {
    runnel_job_clear(&job);
    runnel_problems_clear(&problems);
}

/* ---- Holding a job --------------------------------------------------------------------------- */

/* As runnel/job.h says. */
START_TEST(defaults) {
    ck_assert(job.resin_is_default && job.scale_is_default && job.shop_is_default);
    ck_assert(!job.resin_changed && !job.sealed);
    ck_assert_ptr_null(job.name);
    ck_assert_ptr_null(job.file);
    ck_assert_ptr_null(job.resin.name);
    ck_near(job.scale.step_g, 0.1, 0);
    ck_near(job.scale.accuracy_percent, 0, 0);
    ck_near(job.scale.accuracy_counts, 0, 0);
    ck_near(job.shop_degc, 20, 0);
    ck_assert(job.humidity < 0 && job.soak_mm < 0 && isnan(job.cup.fixed_loss_g));
    ck_near(job.crown_mm, 0.4, 0);
    ck_near(job.margin_mm, 1, 0);
    ck_near(job.reserve, 0.1, 0);
    ck_near(job.cup.diameter_mm, 70, 0);
    ck_near(job.cup.drain_s, 60, 0);
    ck_near(job.floor_mm, 5, 0);
    ck_near(job.flatten_mm, 0.001, 0);
    ck_assert_uint_eq(job.pieces[0].count, 1);
}
END_TEST

START_TEST(many_pieces_cavities_and_colours) {
    for (size_t i = 1; i < 40; i++) {
        runnel_job_piece *piece;
        runnel_job_cavity *made;
        runnel_job_colour *colour, *again;
        char name[8] = {'c', (char)('0' + i / 10), (char)('0' + i % 10), '\0'};
        ck_assert_int_eq(runnel_job_add_piece(&job, &piece), RUNNEL_OK);
        for (size_t k = 0; k < i; k++)
            ck_assert_int_eq(runnel_job_add_cavity(piece, &made), RUNNEL_OK);
        ck_assert_uint_eq(piece->cavity_count, i);
        ck_assert_int_eq(runnel_job_colour_named(&job, name, &colour), RUNNEL_OK);
        ck_assert(colour->tint < 0);
        ck_assert_int_eq(runnel_job_colour_named(&job, name, &again), RUNNEL_OK);
        ck_assert_ptr_eq(colour, again);
    }
    ck_assert_uint_eq(job.piece_count, 40);
    ck_assert_uint_eq(job.colour_count, 39);
    ck_assert_str_eq(job.colours[38].name, "c39");
}
END_TEST

START_TEST(clearing_twice_and_nothing) {
    runnel_job_clear(&job);
    runnel_job_clear(&job);
    runnel_job_clear(NULL);
    ck_assert_uint_eq(job.piece_count, 0);
}
END_TEST

START_TEST(resin_by_name) {
    runnel_place place = {.file = "x.yaml", .line = 3, .column = 8, .field = "resin"};
    ck_assert_int_eq(runnel_job_set_resin(&job, "Casting 3:1", job_tables(), &problems, &place),
                     RUNNEL_OK);
    ck_assert_str_eq(job.resin.name, "casting 3:1");
    ck_assert(!job.resin_is_default);
    ck_assert_int_eq(runnel_job_set_resin(&job, "castng 3:1", job_tables(), &problems, &place),
                     RUNNEL_E_UNKNOWN);
    ck_assert_str_eq(job.resin.name, "casting 3:1");
    ck_assert_int_eq(runnel_job_set_resin(&job, "glue", job_tables(), &problems, &place),
                     RUNNEL_E_UNKNOWN);
    ck_assert_int_eq(runnel_job_set_resin(&job, NULL, job_tables(), &problems, &place), RUNNEL_OK);
    ck_assert_str_eq(job.resin.name, "table-top 2:1");
    ck_assert(job.resin_is_default);
    ck_assert_uint_eq(problems.count, 2);
    ck_assert_str_eq(problems.items[0].text,
                     "no resin is called 'castng 3:1'; the nearest name is 'casting 3:1'");
    ck_assert_uint_eq(problems.items[0].line, 3);
    ck_assert_str_eq(problems.items[1].text,
                     "no resin is called 'glue'; 'runnel list resins' shows the names");
}
END_TEST

START_TEST(cutter_by_name_or_written_out) {
    runnel_cutter cutter = {0};
    ck_assert_int_eq(runnel_job_cutter("V 60", job_tables(), &problems, NULL, &cutter), RUNNEL_OK);
    ck_near(cutter.tip_mm, 0.2, 0); /* of the row */
    ck_assert_int_eq(runnel_job_cutter("v 60 deg", job_tables(), &problems, NULL, &cutter),
                     RUNNEL_OK);
    ck_near(cutter.tip_mm, 0, 0);
    ck_near(cutter.angle_deg, 60, 0);
    ck_assert_uint_eq(problems.count, 0);
    ck_assert_int_eq(runnel_job_cutter("flt-6mm", job_tables(), &problems, NULL, &cutter),
                     RUNNEL_E_UNKNOWN);
    ck_assert_int_eq(runnel_job_cutter("chisel", job_tables(), &problems, NULL, &cutter),
                     RUNNEL_E_UNKNOWN);
    ck_assert_str_eq(problems.items[0].text,
                     "no cutter is called 'flt-6mm'; the nearest name is 'flat-6mm'; a cutter may "
                     "also be written out, such as 'v 60 deg'");
    ck_assert_str_eq(problems.items[1].text,
                     "no cutter is called 'chisel'; 'runnel list cutters' shows the names; a "
                     "cutter may also be written out, such as 'v 60 deg'");
}
END_TEST

/* 18 / 0.998207 = 18.032331971... (bc); water at 20 degC 0.998207 g/ml (Tanaka et al. 2001). */
START_TEST(measured_by_volume_or_by_water) {
    double volume_mm3 = 0;
    ck_assert_int_eq(runnel_measured_parse("18 ml", &problems, NULL, &volume_mm3), RUNNEL_OK);
    ck_near(volume_mm3, 18000, 1e-15);
    ck_assert_int_eq(runnel_measured_parse("18 g", &problems, NULL, &volume_mm3), RUNNEL_OK);
    ck_near(volume_mm3, 18032.331971224405, 1e-14);
    ck_assert_uint_eq(problems.count, 0);
    ck_assert_int_eq(runnel_measured_parse("18 oz", &problems, NULL, &volume_mm3), RUNNEL_E_UNIT);
    ck_assert_int_eq(runnel_measured_parse("18 mm", &problems, NULL, &volume_mm3), RUNNEL_E_UNIT);
    ck_assert_int_eq(runnel_measured_parse("18 mm", NULL, NULL, &volume_mm3), RUNNEL_E_UNIT);
    ck_near(volume_mm3, 18032.331971224405, 1e-14);
    ck_assert_uint_eq(problems.count, 2);
    ck_assert_str_eq(problems.items[1].text,
                     "'18 mm' is a length; a volume is needed, in ml, L, cm3, in3, US fl oz or "
                     "imperial fl oz, such as '250 ml'; the mass of the water that fills the "
                     "cavity is as good, such as '18 g'");
}
END_TEST

/* ---- The table of fields --------------------------------------------------------------------- */

START_TEST(every_field_has_a_row) {
    for (int i = 0; i < RUNNEL_FIELD_COUNT_OF; i++) {
        const runnel_field *row = runnel_field_row((runnel_field_id)i);
        ck_assert_msg(row->key && *row->key, "field %d has no key", i);
        ck_assert_msg(!row->range || row->low < row->high, "%s has no range", row->key);
        for (int k = 0; k < i; k++) {
            const runnel_field *other = runnel_field_row((runnel_field_id)k);
            ck_assert_msg(other->scope != row->scope || strcmp(other->key, row->key) != 0,
                          "%s stands twice", row->key);
        }
    }
}
END_TEST

START_TEST(paths_of_fields) {
    char path[80];
    runnel_spot spot = {2, 5};
    runnel_field_path(&job, spot, RUNNEL_FIELD_CAP_HEIGHT, path, sizeof path);
    ck_assert_str_eq(path, "--cap-height");
    job.file = copy("x.yaml");
    runnel_field_path(&job, spot, RUNNEL_FIELD_CAP_HEIGHT, path, sizeof path);
    ck_assert_str_eq(path, "pieces[2].cavities[5].cap height");
    runnel_field_path(&job, spot, RUNNEL_FIELD_WOOD, path, sizeof path);
    ck_assert_str_eq(path, "pieces[2].wood");
    runnel_field_path(&job, spot, RUNNEL_FIELD_HUMIDITY, path, sizeof path);
    ck_assert_str_eq(path, "shop.humidity");
    runnel_field_path(&job, spot, RUNNEL_FIELD_CROWN, path, sizeof path);
    ck_assert_str_eq(path, "crown");
}
END_TEST

START_TEST(values_in_messages) {
    char text[80];
    const runnel_field *length = runnel_field_row(RUNNEL_FIELD_CROWN);
    const runnel_field *share = runnel_field_row(RUNNEL_FIELD_RESERVE);
    const runnel_field *percent = runnel_field_row(RUNNEL_FIELD_ACCURACY);
    const runnel_field *soak = runnel_field_row(RUNNEL_FIELD_SOAK);
    const runnel_field *energy = runnel_field_row(RUNNEL_FIELD_ENERGY);
    const runnel_field *heat = runnel_field_row(RUNNEL_FIELD_REACTION);
    const runnel_field *bare = runnel_field_row(RUNNEL_FIELD_COUNTS);
    ck_assert_str_eq(runnel_field_show(length, 12.5, text, sizeof text), "12.5 mm");
    ck_assert_str_eq(runnel_field_show(length, -100, text, sizeof text), "-100 mm");
    ck_assert_str_eq(runnel_field_show(share, 0.07, text, sizeof text), "7 %");
    ck_assert_str_eq(runnel_field_show(percent, 0.5, text, sizeof text), "0.5 %");
    ck_assert_str_eq(runnel_field_show(soak, 0.02, text, sizeof text), "20 ml/m2");
    ck_assert_str_eq(runnel_field_show(energy, 52, text, sizeof text), "52 kJ/mol");
    ck_assert_str_eq(runnel_field_show(heat, 350, text, sizeof text), "350 J/g");
    ck_assert_str_eq(runnel_field_show(bare, 1, text, sizeof text), "1");
}
END_TEST

/* ---- Memory ---------------------------------------------------------------------------------- */

static runnel_status build_and_check(runnel_job *made, runnel_problems *told) {
    runnel_job_piece *piece;
    runnel_job_cavity *first, *second;
    runnel_job_colour *colour;
    runnel_status status = runnel_job_add_piece(made, &piece);
    if (!status)
        status = runnel_job_add_cavity(piece, &first);
    if (!status) {
        *first = (runnel_job_cavity){.source = RUNNEL_SOURCE_MEASURED, .measured_mm3 = 5000};
        status = runnel_job_add_cavity(piece, &second);
    }
    if (!status) {
        *second = (runnel_job_cavity){.source = RUNNEL_SOURCE_MEASURED, .measured_mm3 = 5000};
        status = runnel_job_colour_named(made, "red", &colour);
    }
    return status ? status : runnel_job_check(made, job_tables(), told);
}

START_TEST(memory_runs_out) {
    bool failed = true;
    size_t fail_at = 0;
    for (; failed; fail_at++) {
        failing count = {.fail_at = fail_at, .for_good = _i == 1};
        start_failing(&count);
        runnel_job made;
        runnel_problems told;
        runnel_job_init(&made);
        runnel_problems_init(&told);
        runnel_status status = build_and_check(&made, &told);
        failed = count.calls > fail_at;
        ck_assert_int_eq(status, failed ? RUNNEL_E_NO_MEMORY : RUNNEL_OK);
        if (failed && made.piece_count && made.pieces[0].cavity_count) {
            ck_assert_ptr_null(made.pieces[0].name);
            ck_assert_ptr_null(made.pieces[0].cavities[0].colour);
            ck_assert_ptr_null(made.resin.name);
        }
        runnel_job_clear(&made);
        runnel_problems_clear(&told);
        ck_assert_uint_eq(count.alive, 0);
        runnel_set_allocator(NULL);
    }
    ck_assert_uint_gt(fail_at, 15);
}
END_TEST

/* ---- Running --------------------------------------------------------------------------------- */

static Suite *suite(void) {
    Suite *suite = suite_create("job");
    TCase *holding = tcase_create("holding");
    tcase_add_checked_fixture(holding, setup, teardown);
    tcase_set_timeout(holding, 60); /* under memcheck */
    tcase_add_test(holding, defaults);
    tcase_add_test(holding, many_pieces_cavities_and_colours);
    tcase_add_test(holding, clearing_twice_and_nothing);
    tcase_add_test(holding, resin_by_name);
    tcase_add_test(holding, cutter_by_name_or_written_out);
    tcase_add_test(holding, measured_by_volume_or_by_water);
    tcase_add_test(holding, every_field_has_a_row);
    tcase_add_test(holding, paths_of_fields);
    tcase_add_test(holding, values_in_messages);
    tcase_add_loop_test(holding, memory_runs_out, 0, 2);
    suite_add_tcase(suite, holding);
    return suite;
}

int main(void) {
    SRunner *runner = srunner_create(suite());
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
