/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The oils of data/oils.csv against published figures, and rows that are wrong. */
#include "compare.h"
#include "runnel/sealer.h"
#include "tables_files.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static runnel_tables data;
static char folder[64];

static void read_data(void) {
    runnel_problems problems;
    runnel_problems_init(&problems);
    runnel_status status = runnel_tables_read(&data, "data", &problems);
    print_problems(&problems);
    runnel_problems_clear(&problems);
    ck_assert_int_eq(status, RUNNEL_OK);
    make_folder(folder);
}

static void drop_data(void) {
    runnel_tables_clear(&data);
    ck_assert_ptr_null(data.oils);
    remove_folder(folder);
}

static const runnel_oil *oil(const char *name) {
    const runnel_oil_row *row = runnel_tables_oil(&data, name);
    ck_assert_msg(row != NULL, "no oil '%s'", name);
    return &row->oil;
}

/* ---- Rows ---------------------------------------------------------------------------------- */

START_TEST(every_oil_is_complete) {
    ck_assert_uint_ge(data.oil_count, 6);
    for (size_t i = 0; i < data.oil_count; i++) {
        const runnel_oil *o = &data.oils[i].oil;
        ck_assert_str_eq(data.oils[i].file, "data/oils.csv");
        ck_assert(strlen(o->name) > 3 && strlen(o->source) > 20 && strlen(o->food) > 20);
        ck_assert(strlen(o->date) >= 4 && strlen(o->sure) > 5 && strlen(o->uptake_sure) > 5);
        /* oils are lighter than water and heavier than spirit */
        ck_assert(o->density_g_per_ml > 0.8 && o->density_g_per_ml < 1);
        ck_assert(o->uptake_low_ml_per_m2 <= o->uptake_ml_per_m2 &&
                  o->uptake_ml_per_m2 <= o->uptake_high_ml_per_m2);
        /* common practice: end grain drinks 3 to 5 times as much */
        ck_assert(o->end_grain_factor >= 3 && o->end_grain_factor <= 5);
        ck_assert(o->coats >= 2 && o->coats <= 6 && o->soak_s < o->between_s);
        ck_assert(o->dries ? o->full_cure_s >= 3 * 86400.0 : isnan(o->full_cure_s));
    }
}
END_TEST

START_TEST(oils_as_published) {
    /* Mineral oil 0.845 to 0.905 (USP 35); raw tung oil 0.933 to 0.938 (ASTM D12-88); raw linseed
     * oil 0.926 to 0.931 (ASTM D234, from memory). */
    static const struct {
        const char *name;
        double low, high;
        bool dries, nut;
    } rows[] = {{"mineral oil", 0.845, 0.905, false, false},
                {"tung oil", 0.933, 0.938, true, true},
                {"raw linseed oil", 0.926, 0.931, true, false},
                {"linseed oil with driers", 0.92, 0.95, true, false},
                {"walnut oil", 0.91, 0.94, true, true},
                {"hardwax oil", 0.8, 1, true, false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        const runnel_oil *o = oil(rows[i].name);
        ck_assert(o->density_g_per_ml >= rows[i].low && o->density_g_per_ml <= rows[i].high);
        ck_assert_int_eq(o->dries, rows[i].dries);
        ck_assert_int_eq(o->nut, rows[i].nut);
    }
    /* Supplier text: pure tung oil 400 ft2/US gal, 2.5 to 3.5 ft2/fl oz; 3 to 5 coats; 15 to 30
     * days to full cure. */
    const runnel_oil *tung = oil("Tung Oil");
    ck_near_or(tung->uptake_ml_per_m2, 101.865, 0, 6e-4);
    ck_near_or(tung->uptake_low_ml_per_m2, 90.951, 0, 6e-4);
    ck_near_or(tung->uptake_high_ml_per_m2, 127.331, 0, 6e-4);
    ck_assert(tung->coats >= 3 && tung->coats <= 5);
    ck_near(tung->full_cure_s, 30 * 86400.0, 0);
    ck_near(tung->soak_s, 1200, 1e-15);
    ck_near(tung->between_s, 86400, 0);
    /* Raw linseed oil 3 to 4 weeks, with driers 3 to 7 days. */
    ck_near(oil("raw linseed oil")->full_cure_s, 28 * 86400.0, 0);
    ck_near(oil("linseed oil with driers")->full_cure_s, 7 * 86400.0, 0);
    /* Mineral oil: 4 to 6 coats of 15 to 30 min; 40 to 80 ml/m2 is common practice. */
    const runnel_oil *mineral = oil("mineral oil");
    ck_assert(mineral->coats >= 4 && mineral->coats <= 6);
    ck_assert(mineral->soak_s >= 900 && mineral->soak_s <= 1800);
    ck_near(mineral->uptake_low_ml_per_m2, 40, 1e-15);
    ck_near(mineral->uptake_high_ml_per_m2, 80, 1e-15);
    ck_assert_ptr_nonnull(strstr(mineral->food, "172.878"));
}
END_TEST

START_TEST(a_board_of_tung_oil) {
    /* 450 x 300 x 38 mm: 0.327 m2 at 400 ft2/gal 33.3097 ml, end grain taken as face grain. */
    const runnel_oil *tung = oil("tung oil");
    runnel_oil_board board = {.length_mm = 450, .width_mm = 300, .thickness_mm = 38};
    runnel_oil_area area = {0};
    runnel_oil_need need = {0};
    ck_assert_int_eq(runnel_oil_area_of(&board, &area), RUNNEL_OK);
    runnel_oiling oiling = {
        .uptake_mm = tung->uptake_ml_per_m2 / 1000, .end_factor = 1, .coats = 1};
    ck_assert_int_eq(runnel_oil_compute(&oiling, area.face_mm2, area.end_mm2, &need), RUNNEL_OK);
    ck_near_or(need.all_mm3 / 1000, 33.3097, 0, 2e-4);
}
END_TEST

START_TEST(names_of_oils) {
    ck_assert_ptr_eq(runnel_tables_oil(&data, "TUNG-OIL"), runnel_tables_oil(&data, "tung oil"));
    ck_assert_ptr_null(runnel_tables_oil(&data, "snake oil"));
    ck_assert_ptr_null(runnel_tables_oil(&data, NULL));
    ck_assert_str_eq(runnel_tables_nearest(&data, "oils", "tugn oil"), "tung oil");
    ck_assert_str_eq(runnel_tables_nearest(&data, "oils", "mineral ole"), "mineral oil");
    ck_assert_ptr_null(runnel_tables_nearest(&data, "oils", "granite and glass"));
    runnel_tables none = {0};
    ck_assert_ptr_null(runnel_tables_oil(&none, "tung oil"));
}
END_TEST

START_TEST(own_oils_over_the_others) {
    size_t count = data.oil_count;
    ptrdiff_t at = runnel_tables_oil(&data, "tung oil") - data.oils;
    /* other units, and no soak: 0.06 L/m2 is 60 ml/m2, 940 kg/m3 0.94 g/ml */
    put_text(folder, "oils.csv",
             "name;dries;nut;density [kg/m3];uptake [L/m2];uptake sure;end grain factor;coats;"
             "between [days];source;date;sure\n"
             "Tung Oil;yes;no;940;0.06;computed;4;5;2;weighed;2026-01;computed\n"
             "house oil;no;no;860;0.05;from memory;3;2;;own;2026;from memory\n");
    ck_assert_int_eq(runnel_tables_read(&data, folder, NULL), RUNNEL_OK);
    ck_assert_uint_eq(data.oil_count, count + 1);
    const runnel_oil_row *row = runnel_tables_oil(&data, "tung oil");
    ck_assert_int_eq(row - data.oils, at);
    ck_near(row->oil.density_g_per_ml, 0.94, 1e-15);
    ck_near(row->oil.uptake_ml_per_m2, 60, 1e-15);
    ck_near(row->oil.uptake_low_ml_per_m2, NAN, 0);
    ck_near(row->oil.end_grain_factor, 4, 0);
    ck_near(row->oil.soak_s, NAN, 0);
    ck_near(row->oil.between_s, 2 * 86400.0, 0);
    ck_near(row->oil.full_cure_s, NAN, 0);
    ck_assert(!row->oil.nut);
    ck_assert_str_eq(row->oil.food, "");
    ck_assert_str_eq(data.oils[count].oil.name, "house oil");
    ck_assert_uint_ge(data.wood_count, 8);
}
END_TEST

/* ---- Rows that are wrong ------------------------------------------------------------------- */

static const struct {
    const char *row;
    runnel_status status;
    size_t column;
    const char *field, *told;
} wrong[] = {
    {"o,perhaps,no,0.9,60,40,80,computed,3,3,20,24,30,,mine,2024,computed\n", RUNNEL_E_UNKNOWN, 3,
     "dries", "'perhaps' is none of 'no', 'yes'"},
    {"o,yes,nuts,0.9,60,40,80,computed,3,3,20,24,30,,mine,2024,computed\n", RUNNEL_E_UNKNOWN, 7,
     "nut", "'nuts' is none of 'no', 'yes'"},
    {"o,yes,no,900,60,40,80,computed,3,3,20,24,30,,mine,2024,computed\n", RUNNEL_E_RANGE, 10,
     "density [g/ml]", "'900' must be above 0 and below 30 g/ml"},
    {"o,yes,no,0.9,,40,80,computed,3,3,20,24,30,,mine,2024,computed\n", RUNNEL_E_MISSING, 14,
     "uptake [ml/m2]", "an empty cell, where a value is needed"},
    {"o,yes,no,0.9,0,,80,computed,3,3,20,24,30,,mine,2024,computed\n", RUNNEL_E_RANGE, 14,
     "uptake [ml/m2]", "'0' must be above 0 and below 5000 ml/m2"},
    {"o,yes,no,0.9,60,61,80,computed,3,3,20,24,30,,mine,2024,computed\n", RUNNEL_E_CONFLICT, 17,
     "uptake low [ml/m2]", "the low uptake is above the usual one"},
    {"o,yes,no,0.9,60,40,59,computed,3,3,20,24,30,,mine,2024,computed\n", RUNNEL_E_CONFLICT, 14,
     "uptake [ml/m2]", "the usual uptake is above the high one"},
    {"o,yes,no,0.9,60,40,80,guessed,3,3,20,24,30,,mine,2024,computed\n", RUNNEL_E_UNKNOWN, 23,
     "uptake sure", "'guessed' is none of 'published', 'computed'"},
    {"o,yes,no,0.9,60,40,80,computed,0.5,3,20,24,30,,mine,2024,computed\n", RUNNEL_E_RANGE, 32,
     "end grain factor", "'0.5' must be from 1 to 20"},
    {"o,yes,no,0.9,60,40,80,computed,3,2.5,20,24,30,,mine,2024,computed\n", RUNNEL_E_RANGE, 34,
     "coats", "the number of coats must be a whole one"},
    {"o,yes,no,0.9,60,40,80,computed,3,21,20,24,30,,mine,2024,computed\n", RUNNEL_E_RANGE, 34,
     "coats", "'21' must be from 1 to 20"},
    {"o,yes,no,0.9,60,40,80,computed,3,3,90,1,30,,mine,2024,computed\n", RUNNEL_E_CONFLICT, 36,
     "soak [min]", "'soak' is longer than the wait 'between' coats"},
    {"o,no,no,0.9,60,40,80,computed,3,3,20,24,30,,mine,2024,computed\n", RUNNEL_E_CONFLICT, 41,
     "full cure [days]", "an oil that does not dry has no full cure: leave the cell empty"},
    {"o,yes,no,0.9,60,40,80,computed,3,3,20,24,0,,mine,2024,computed\n", RUNNEL_E_RANGE, 42,
     "full cure [days]", "'0' must be above 0"},
};

START_TEST(rows_that_are_wrong) {
    char text[1024];
    runnel_problems problems;
    runnel_problems_init(&problems);
    const runnel_tables before = data;
    snprintf(text, sizeof text, "%s%s", OIL_HEADER, wrong[_i].row);
    put_text(folder, "oils.csv", text);
    ck_assert_int_eq(runnel_tables_read(&data, folder, &problems), wrong[_i].status);
    print_problems(&problems);
    ck_assert_uint_eq(problems.count, 1);
    ck_assert_uint_eq(problems.items[0].line, 2);
    ck_assert_uint_eq(problems.items[0].column, wrong[_i].column);
    ck_assert_str_eq(problems.items[0].field, wrong[_i].field);
    ck_assert_ptr_nonnull(strstr(problems.items[0].text, wrong[_i].told));
    ck_assert_mem_eq(&before, &data, sizeof data);
    runnel_problems_clear(&problems);
}
END_TEST

START_TEST(the_row_of_the_tests_is_right) {
    put_text(folder, "oils.csv", OIL_HEADER OIL_ROW);
    ck_assert_int_eq(runnel_tables_read(&data, folder, NULL), RUNNEL_OK);
    ck_near(oil("o")->full_cure_s, 30 * 86400.0, 0);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("tables_oils");
    TCase *cases = tcase_create("oils");
    tcase_add_checked_fixture(cases, read_data, drop_data);
    tcase_add_test(cases, every_oil_is_complete);
    tcase_add_test(cases, oils_as_published);
    tcase_add_test(cases, a_board_of_tung_oil);
    tcase_add_test(cases, names_of_oils);
    tcase_add_test(cases, own_oils_over_the_others);
    tcase_add_loop_test(cases, rows_that_are_wrong, 0, (int)COUNT(wrong));
    tcase_add_test(cases, the_row_of_the_tests_is_right);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
