/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "failing.h"
#include "job_tables.h"
#include "runnel/read.h"
#include "runnel/stock_csv.h"
#include "runnel/write_finish.h"
#include "written.h"

#include <jansson.h>

typedef struct stocked {
    runnel_job job;
    runnel_problems problems;
    runnel_stock_file file;
    runnel_stocking made;
    runnel_status status;
} stocked;

static void stock_job(const char *yaml, const char *csv, stocked *of) {
    memset(of, 0, sizeof *of);
    runnel_job_init(&of->job);
    runnel_status status =
        runnel_job_read_yaml(yaml, strlen(yaml), "job.yaml", job_tables(), &of->problems, &of->job);
    if (!status)
        status = runnel_stock_parse(csv, strlen(csv), "stock.csv", &of->problems, &of->file);
    ck_assert_msg(!status, "%s", of->problems.count ? of->problems.items[0].text : "no reason");
    of->status = runnel_stocking_make(&of->job, job_tables(), NULL, &of->problems, &of->file.stock,
                                      &of->made);
}

static void stocked_clear(stocked *of) {
    runnel_stocking_clear(&of->made);
    runnel_stock_file_clear(&of->file);
    runnel_problems_clear(&of->problems);
    runnel_job_clear(&of->job);
}

static char *text_of(const stocked *of, bool taken_out) {
    FILE *file = tmpfile();
    ck_assert_ptr_nonnull(file);
    ck_assert_int_eq(runnel_write_stock_text(&of->job, &of->made, taken_out, file), RUNNEL_OK);
    char *text = contents(file);
    fits(text);
    return text;
}

#define JOB                                                                                        \
    "sealed: yes\nscale: 0.01 g\ncolours: {red: 5 %}\npieces: [{count: 2, cavities: [{measured: "  \
    "10 ml, wall area: 100 cm2, footprint: 20 cm2, colour: red}]}]\n"
#define HEAD "what,part,amount [g],pack size [g],price [EUR]\n"

START_TEST(resin_and_tint) {
    stocked of;
    stock_job(JOB, HEAD "table top 2:1,A,100,500,20\ntable-top 2:1,B,100,500,10\nTint,Red,5,,\n",
              &of);
    const runnel_weighing *weighing = &of.made.plan.batches[0].weighing;
    ck_assert_int_eq(of.status, RUNNEL_OK);
    ck_assert_uint_eq(of.made.needs.count, 3);
    ck_assert_uint_eq(of.made.pieces, 2);
    ck_near(of.made.answer.lines[0].need_g, weighing->part_a_g, 1e-15);
    ck_near(of.made.answer.lines[0].need_mm3, weighing->part_a_g / 1.16 * 1000, 1e-12);
    ck_near(of.made.answer.lines[1].left_g, 100 - weighing->part_b_g, 1e-12);
    ck_assert_str_eq(of.made.needs.items[2].what, "tint");
    ck_near(of.made.answer.lines[2].need_g, weighing->tint_g, 1e-15);
    /* 100 g of A at 0.04 and B at 0.02 EUR a gram; A runs out first: 2 x 1.16 to 0.95 by weight */
    ck_near(of.made.answer.costs[0].used, 0.04 * weighing->part_a_g + 0.02 * weighing->part_b_g,
            1e-12);
    ck_near(of.made.largest_g, 100 * (1 + 0.95 / 2.32), 1e-12);
    ck_assert_int_eq(of.made.largest_limiting, 'A');
    char *text = text_of(&of, false);
    has(text, "There is enough.");
    has(text, "for each piece");
    has(text, "--take-out writes this down.");
    free(text);
    text = text_of(&of, true);
    has(text, "Taken out of the stock");
    has_not(text, "--take-out");
    free(text);
    stocked_clear(&of);
}
END_TEST

START_TEST(sealers_that_the_job_names) {
    stocked of;
    stock_job("sealer: {cut: 2 lb, thinner: 50 %}\n" JOB, HEAD "spirit,,1,,\n", &of);
    ck_assert_int_eq(of.status, RUNNEL_NOT_POSSIBLE);
    ck_assert_uint_eq(of.made.needs.count, 5);
    ck_assert_str_eq(of.made.needs.items[3].what, "shellac");
    ck_assert_str_eq(of.made.needs.items[4].what, "spirit");
    /* walls of 2 x 100 cm2 by 9.817 m2/L, two coats, 15 % lost; half as much spirit on top */
    double product_ml = 2 * 0.02 / 9.8169548 * 1000 / 0.85;
    ck_near(of.made.needs.items[4].volume_mm3, (product_ml / 1.2084 + product_ml / 2) * 1000, 1e-4);
    ck_near(of.made.needs.items[3].mass_g, product_ml / 1.2084 * 0.23965286, 1e-4);
    ck_assert(isnan(of.made.largest_g));
    char *text = text_of(&of, false);
    has(text, "no bottle of that name");
    has(text, "There is not enough.");
    has(text, "the stock tells no pack size");
    free(text);
    stocked_clear(&of);
    stock_job("sealer: {kind: lacquer, coverage: 10 m2/L, loss: 0 %, coats: 1}\n" JOB,
              "what,amount [ml]\nLacquer,50\n", &of);
    ck_assert_str_eq(of.made.needs.items[3].what, "lacquer");
    ck_near(of.made.needs.items[3].volume_mm3, 2000, 1e-12); /* 0.02 m2 / 10 m2/L */
    ck_near(of.made.answer.lines[3].left_mm3, 48000, 1e-12);
    stocked_clear(&of);
    stock_job("sealer: {kind: clear resin, wet film: 0.5 mm, coats: 2}\n" JOB, HEAD, &of);
    ck_assert_uint_eq(of.made.needs.count, 5);
    ck_assert_uint_eq(of.made.answer.count, 3); /* A and B of one name each */
    ck_near(of.made.answer.lines[0].need_g,
            of.made.needs.items[0].mass_g + of.made.needs.items[3].mass_g, 1e-12);
    stocked_clear(&of);
}
END_TEST

START_TEST(json_says_all) {
    stocked of;
    stock_job(JOB, HEAD "table-top 2:1,A,100,500,20\ntable-top 2:1,B,1,500,10\n", &of);
    ck_assert_int_eq(of.status, RUNNEL_NOT_POSSIBLE);
    FILE *file = tmpfile();
    ck_assert_int_eq(runnel_write_stock_json(&of.job, &of.made, false, file), RUNNEL_OK);
    char *text = contents(file);
    json_error_t error;
    json_t *root = json_loads(text, 0, &error);
    ck_assert_msg(root != NULL, "%s", error.text);
    json_t *lines = json_object_get(root, "lines"), *b = json_array_get(lines, 1);
    ck_assert(json_is_false(json_object_get(root, "is_enough")));
    ck_assert_str_eq(json_string_value(json_object_get(b, "part")), "B");
    ck_near(json_number_value(json_object_get(b, "packs")), 1, 0);
    ck_near(json_number_value(json_object_get(b, "pack_g")), 500, 0);
    ck_near(json_number_value(json_object_get(b, "buy_cost")), 10, 1e-12);
    ck_assert(json_is_null(json_object_get(json_array_get(lines, 2), "pack_g")));
    ck_assert_uint_eq(json_array_size(json_object_get(root, "bottles")), 2);
    json_decref(root);
    free(text);
    FILE *full = fopen("/dev/full", "w");
    ck_assert_int_eq(runnel_write_stock_json(&of.job, &of.made, false, full), RUNNEL_E_IO);
    ck_assert_int_eq(runnel_write_stock_text(&of.job, &of.made, false, full), RUNNEL_E_IO);
    fclose(full);
    stocked_clear(&of);
}
END_TEST

START_TEST(memory_may_run_out) {
    stocked of;
    stock_job("sealer: {cut: 2 lb}\n" JOB, HEAD "table-top 2:1,A,100,500,20\nshellac,,1,50,5\n",
              &of);
    runnel_status status = RUNNEL_E_NO_MEMORY;
    for (size_t n = 0; status == RUNNEL_E_NO_MEMORY; n++) {
        failing count = {.fail_at = n};
        runnel_stocking again = {.pieces = 0};
        ck_assert_uint_lt(n, 100000);
        start_failing(&count);
        status = runnel_stocking_make(&of.job, job_tables(), NULL, NULL, &of.file.stock, &again);
        runnel_stocking_clear(&again);
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
        status = runnel_write_stock_json(&of.job, &of.made, false, file);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
    }
    fclose(file);
    stocked_clear(&of);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("stocking");
    TCase *stocking = tcase_create("stocking");
    tcase_add_test(stocking, resin_and_tint);
    tcase_add_test(stocking, sealers_that_the_job_names);
    tcase_add_test(stocking, json_says_all);
    tcase_add_test(stocking, memory_may_run_out);
    suite_add_tcase(suite, stocking);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
