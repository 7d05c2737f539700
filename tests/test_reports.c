/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The reports that need no plan: trial grooves, and mixes that were weighed wrongly. What they say
 * of real figures is in the cases of the command.
 */
#include "failing.h"
#include "job_tables.h"
#include "runnel/write_finish.h"
#include "written.h"

#include <jansson.h>
#include <math.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

/* ---- Trials ---------------------------------------------------------------------------------- */

static char *trial_text(const runnel_trial_report *report) {
    FILE *file = tmpfile();
    ck_assert_ptr_nonnull(file);
    ck_assert_int_eq(runnel_write_trial_text(report, file), RUNNEL_OK);
    return contents(file);
}

START_TEST(trial_of_two) {
    const runnel_trial_report report = {
        .cuts = {{3.9, 2}, {9.9, 5}},
        .cut_count = 2,
        .errors = {0.1, 0.05, 0},
        .sold_as_deg = 60,
        .trial = {
            .angle_deg = 90, .angle_error_deg = 2.04, .tip_error_mm = 0.25, .is_sharp = true}};
    static const char *const parts[] = {"Two trial grooves\n",
                                        "width at the face        3.90  mm    \xC2\xB1"
                                        "0.10 mm\n",
                                        "depth of the other       5.00  mm    \xC2\xB1"
                                        "0.05 mm\n",
                                        "included angle          90.0   deg   \xC2\xB1"
                                        "2.0 deg\n",
                                        "tip flat                 0.00  mm    \xC2\xB1"
                                        "0.25 mm\n",
                                        "    v 90 deg\n",
                                        /* tan 30 deg = 0.57735, tan 45 deg = 1 */
                                        "between walls           42.3   %     less resin",
                                        "at a set depth          73.2   %     more resin",
                                        "Grooves of more different depth"};
    char *text = trial_text(&report);
    in_order(text, parts, COUNT(parts));
    has_not(text, "second groove");
    fits(text);
    free(text);
}
END_TEST

START_TEST(cutter_as_a_job_takes_it) {
    static const struct {
        double angle_deg, tip_mm;
        const char *cutter;
    } rows[] = {{59.96, 0.204, "    v 60 deg tip 0.2 mm\n"},
                {58.24, 0.004, "    v 58.2 deg\n"},
                {100, 1.25, "    v 100 deg tip 1.25 mm\n"}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_trial_report report = {.cut_count = 1,
                                      .trial = {.angle_deg = rows[i].angle_deg,
                                                .tip_mm = rows[i].tip_mm,
                                                .unusual_tip = i == 2}};
        char *text = trial_text(&report);
        has(text, rows[i].cutter);
        free(text);
    }
}
END_TEST

/* ---- Rescues --------------------------------------------------------------------------------- */

static runnel_job job;

static void job_setup(void) {
    runnel_job_init(&job);
    ck_assert_int_eq(runnel_job_set_resin(&job, NULL, job_tables(), NULL, NULL), RUNNEL_OK);
}

static void job_teardown(void) {
    runnel_job_clear(&job);
}

static char *rescue_text(const runnel_rescue_report *report) {
    FILE *file = tmpfile();
    ck_assert_ptr_nonnull(file);
    ck_assert_int_eq(runnel_write_rescue_text(report, file), RUNNEL_OK);
    return contents(file);
}

static runnel_rescue_report report_of(runnel_verdict verdict) {
    return (runnel_rescue_report){.job = &job,
                                  .mix = {.mixture = {0.7, 0.3, 0.66, 0.34, 1.09},
                                          .tolerance = 0.03,
                                          .part_a = {100, RUNNEL_DOSE_GRAMS, 0},
                                          .part_b = {7.5, RUNNEL_DOSE_STROKES, 4}},
                                  .rescue = {.part_a_g = 100,
                                             .part_b_g = 28.5,
                                             .ratio_error = -0.335,
                                             .verdict = verdict,
                                             .lacking = 'B',
                                             .exact_g = 14.4,
                                             .least_g = 13.1,
                                             .add_g = 14.25,
                                             .add_ml = 15,
                                             .add_strokes = 3.75,
                                             .ratio_error_after = -0.001,
                                             .total_g = 142.75,
                                             .total_ml = 130,
                                             .over_wanted_g = -7.25,
                                             .serves_g = 66.5,
                                             .excess_g = 33.5,
                                             .right_g = 95}};
}

START_TEST(every_verdict) {
    runnel_rescue_report report = report_of(RUNNEL_RESCUE_ADD);
    char *text = rescue_text(&report);
    has(text, "7.5 strokes of 4 ml\n");
    has(text, "Add 14.2 g of B (hardener), 15.0 ml or 3.75 strokes, and stir it in well.\n");
    has(text, "against what was wanted  7.2   g     short\n");
    fits(text);
    free(text);
    report = report_of(RUNNEL_RESCUE_NEARLY);
    report.rescue.limits = RUNNEL_RESCUE_STOCK | RUNNEL_RESCUE_ROOM;
    text = rescue_text(&report);
    has(text, "not all, but enough");
    has(text, "another one\n");
    has(text, "larger one first\n");
    fits(text);
    free(text);
    report = report_of(RUNNEL_RESCUE_NOT);
    report.rescue.limits = RUNNEL_RESCUE_MASS | RUNNEL_RESCUE_SCALE;
    report.rescue.warnings = RUNNEL_RESCUE_FEW_STROKES | RUNNEL_RESCUE_METERED_TWICE;
    text = rescue_text(&report);
    has(text, "cannot be put right: 14.4 g of B would have to be added, at least 13.1 g");
    has(text, "What there is of B serves 66.5 g of A, 95.0 g in all; 33.5 g of A are too");
    has(text, "divide it into two cups first");
    has(text, "too coarse");
    has(text, "applied twice");
    has(text, "too few to trust");
    fits(text);
    free(text);
    report = report_of(RUNNEL_RESCUE_FINE);
    text = rescue_text(&report);
    has(text, "Nothing: it is within");
    has_not(text, "Add ");
    free(text);
}
END_TEST

START_TEST(json_of_both) {
    runnel_rescue_report rescue = report_of(RUNNEL_RESCUE_NOT);
    const runnel_trial_report trial = {.cut_count = 1, .trial = {.angle_deg = 60}};
    rescue.rescue.over_wanted_g = NAN;
    FILE *file = tmpfile();
    ck_assert_int_eq(runnel_write_rescue_json(&rescue, file), RUNNEL_OK);
    char *text = contents(file);
    json_t *root = json_loads(text, 0, NULL);
    ck_assert_str_eq(json_string_value(json_object_get(root, "verdict")), "not");
    ck_assert(json_is_null(json_object_get(root, "over_wanted_g")));
    ck_assert_double_eq(json_number_value(json_object_get(root, "ratio_error_percent")), -33.5);
    json_decref(root);
    free(text);
    for (size_t n = 0; n < 1000; n++) {
        failing count = {.fail_at = n, .for_good = true};
        file = tmpfile();
        start_failing(&count);
        runnel_status one = runnel_write_rescue_json(&rescue, file);
        bool failed = count.calls > n;
        count.calls = 0;
        runnel_status other = runnel_write_trial_json(&trial, file);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
        fclose(file);
        ck_assert_int_eq(one, failed ? RUNNEL_E_NO_MEMORY : RUNNEL_OK);
        ck_assert_int_eq(other, count.calls > n ? RUNNEL_E_NO_MEMORY : RUNNEL_OK);
    }
}
END_TEST

START_TEST(streams_that_take_nothing) {
    const runnel_rescue_report rescue = report_of(RUNNEL_RESCUE_ADD);
    const runnel_trial_report trial = {.cut_count = 1, .trial = {.angle_deg = 60}};
    FILE *full = fopen("/dev/full", "w");
    ck_assert_ptr_nonnull(full);
    ck_assert_int_eq(runnel_write_rescue_text(&rescue, full), RUNNEL_E_IO);
    ck_assert_int_eq(runnel_write_rescue_json(&rescue, full), RUNNEL_E_IO);
    ck_assert_int_eq(runnel_write_trial_text(&trial, full), RUNNEL_E_IO);
    ck_assert_int_eq(runnel_write_trial_json(&trial, full), RUNNEL_E_IO);
    fclose(full);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("reports");
    TCase *reports = tcase_create("reports");
    tcase_add_checked_fixture(reports, job_setup, job_teardown);
    tcase_add_test(reports, trial_of_two);
    tcase_add_test(reports, cutter_as_a_job_takes_it);
    tcase_add_test(reports, every_verdict);
    tcase_add_test(reports, json_of_both);
    tcase_add_test(reports, streams_that_take_nothing);
    suite_add_tcase(suite, reports);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
