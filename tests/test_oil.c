/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Amounts of oil and their times; the rows of data/oils.csv are in test_tables_oils.c. */
#include "failing.h"
#include "runnel/cautions.h"
#include "runnel/oil.h"
#include "solids.h"

#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static const double broken[] = {NAN, INFINITY, -INFINITY, -1};

/* 3.785411784 L over 400 x 0.09290304 m2, by hand. */
static const double at_400_ft2_per_gal_mm = 0.1018646;

static runnel_oil_need need_of(runnel_oiling oiling, double face_mm2, double end_mm2) {
    runnel_oil_need need = {0};
    ck_assert_int_eq(runnel_oil_compute(&oiling, face_mm2, end_mm2, &need), RUNNEL_OK);
    return need;
}

START_TEST(published_uptakes) {
    /* Supplier text for pure tung oil: 400 ft2/US gal a coat, which is 101.865 ml/m2, over 0.327 m2
     * 33.3097 ml. "16 oz for 50 ft2" is the same: 473.176473 ml over 4.645152 m2. */
    runnel_oiling oiling = {.uptake_mm = at_400_ft2_per_gal_mm, .end_factor = 1, .coats = 1};
    runnel_oil_need need = need_of(oiling, 0.3042e6, 0.0228e6);
    ck_near_or(need.all_mm3 / 1000, 33.3097, 0, 6e-5);
    oiling.uptake_mm = 0.473176473 / 4.645152;
    need = need_of(oiling, 1e6, 0);
    ck_near_or(need.all_mm3 / 1000, 101.865, 0, 6e-4);
    /* 2.5 to 3.5 ft2 for a fl oz: 29.5735295625 ml over 0.2322576 and 0.32516064 m2. */
    oiling.uptake_mm = 0.0295735295625 / 0.2322576;
    ck_near_or(need_of(oiling, 1e6, 0).all_mm3 / 1000, 127.331, 0, 6e-4);
    oiling.uptake_mm = 0.0295735295625 / 0.32516064;
    ck_near_or(need_of(oiling, 1e6, 0).all_mm3 / 1000, 90.951, 0, 6e-4);
}
END_TEST

START_TEST(end_grain_and_waste) {
    /* By hand: 0.3042 m2 face grain at 60 ml/m2 is 18.252 ml, 0.0228 m2 end grain at three times
     * that 4.104 ml, together 22.356 ml; with a fifth lost 27.945 ml, three coats 83.835 ml. */
    runnel_oiling oiling = {.uptake_mm = 0.060, .waste = 0.2, .coats = 3};
    runnel_oil_need need = need_of(oiling, 0.3042e6, 0.0228e6);
    ck_near(need.first_mm3, 27945, 1e-13);
    ck_near(need.last_mm3, 27945, 1e-13);
    ck_near(need.all_mm3, 83835, 1e-13);
    ck_near(need.face_mm3, 54756, 1e-13);
    ck_near(need.end_mm3, 12312, 1e-13);
    ck_near(need.waste_mm3, 16767, 1e-13);
    /* each coat takes half of the one before: 1 + 1/2 + 1/4 of the first */
    oiling.fall = 0.5;
    need = need_of(oiling, 0.3042e6, 0.0228e6);
    ck_near(need.first_mm3, 27945, 1e-13);
    ck_near(need.last_mm3, 27945.0 / 4, 1e-13);
    ck_near(need.all_mm3, 1.75 * 27945, 1e-13);
    ck_near(RUNNEL_UPTAKE_LOW_MM, 0.040, 0);
    ck_near(RUNNEL_UPTAKE_HIGH_MM, 0.080, 0);
}
END_TEST

START_TEST(coats_sum_up) {
    chance c = {21};
    for (int i = 0; i < 2000; i++) {
        runnel_oiling oiling = {.uptake_mm = chance_between(&c, 0.01, 0.3),
                                .end_factor = chance_between(&c, 0.5, 6),
                                .fall = chance_between(&c, 0, 0.9),
                                .waste = chance_between(&c, 0, 0.5),
                                .coats = 1 + chance_below(&c, 8)};
        double face = chance_between(&c, 0, 1e6), end = chance_between(&c, 0, 1e6), sum = 0;
        runnel_oil_need need = need_of(oiling, face, end);
        for (size_t k = 0; k < oiling.coats; k++) {
            double coat = NAN;
            ck_assert_int_eq(runnel_oil_coat(&oiling, face, end, k, &coat), RUNNEL_OK);
            ck_assert(coat <= need.first_mm3 && coat >= need.last_mm3 * (1 - 1e-12));
            sum += coat;
        }
        ck_near(need.all_mm3, sum, 1e-12);
        ck_near(need.face_mm3 + need.end_mm3 + need.waste_mm3, need.all_mm3, 1e-12);
        runnel_oil_need half = need_of(oiling, face / 2, end / 2);
        ck_near(2 * half.all_mm3, need.all_mm3, 1e-13);
    }
}
END_TEST

START_TEST(amount_refusals) {
    const runnel_oiling good = {.uptake_mm = 0.06, .end_factor = 3, .coats = 2};
    runnel_oil_need need = {.all_mm3 = 7};
    double coat = 7;
    for (size_t i = 0; i < COUNT(broken); i++)
        for (int field = 0; field < 6; field++) {
            runnel_oiling bad = good;
            double area[] = {1, 1};
            double *fields[] = {&bad.uptake_mm, &bad.end_factor, &bad.fall,
                                &bad.waste,     &area[0],        &area[1]};
            *fields[field] = broken[i];
            ck_assert_int_eq(runnel_oil_compute(&bad, area[0], area[1], &need), RUNNEL_E_RANGE);
            ck_assert_int_eq(runnel_oil_coat(&bad, area[0], area[1], 0, &coat), RUNNEL_E_RANGE);
        }
    runnel_oiling bad[] = {good, good, good, good, good};
    bad[0].uptake_mm = 0;
    bad[1].fall = 1;
    bad[2].waste = 1;
    bad[3].coats = 0;
    bad[4].coats = 101;
    for (size_t i = 0; i < COUNT(bad); i++)
        ck_assert_int_eq(runnel_oil_compute(&bad[i], 1, 1, &need), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_oil_coat(&good, 1, 1, 2, &coat), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_oil_coat(&good, 1e308, 1e308, 0, &coat), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_oil_compute(&good, 1e308, 1e308, &need), RUNNEL_E_RANGE);
    ck_near(need.all_mm3 + coat, 14, 0);
    ck_near(need_of(good, 0, 0).all_mm3, 0, 0);
}
END_TEST

START_TEST(times_of_coats) {
    runnel_oil_times times = {0};
    /* Three coats a day apart, each wiped off after 20 min, 30 days to full cure. */
    runnel_oil drying = {
        .dries = true, .soak_s = 1200, .between_s = 86400, .full_cure_s = 30 * 86400.0};
    ck_assert_int_eq(runnel_oil_times_of(&drying, 3, &times), RUNNEL_OK);
    ck_near(times.last_coat_s, 2 * 86400, 0);
    ck_near(times.wiped_s, 2 * 86400 + 1200, 0);
    ck_near(times.cured_s, 32 * 86400, 0);
    drying.full_cure_s = NAN;
    ck_assert_int_eq(runnel_oil_times_of(&drying, 1, &times), RUNNEL_OK);
    ck_near(times.last_coat_s, 0, 0);
    ck_near(times.cured_s, NAN, 0);
    /* one that stays wet never cures: it is ready when it is wiped off */
    runnel_oil wet = {.soak_s = 1800, .between_s = 3600, .full_cure_s = NAN};
    ck_assert_int_eq(runnel_oil_times_of(&wet, 4, &times), RUNNEL_OK);
    ck_near(times.last_coat_s, 3 * 3600, 0);
    ck_near(times.cured_s, 3 * 3600 + 1800, 0);
    /* what is not known */
    times.cured_s = 7;
    runnel_oil bad = wet;
    bad.between_s = NAN;
    ck_assert_int_eq(runnel_oil_times_of(&bad, 2, &times), RUNNEL_E_MISSING);
    bad.soak_s = NAN;
    ck_assert_int_eq(runnel_oil_times_of(&bad, 1, &times), RUNNEL_E_MISSING);
    bad = wet;
    bad.between_s = -1;
    ck_assert_int_eq(runnel_oil_times_of(&bad, 2, &times), RUNNEL_E_RANGE);
    bad = wet;
    bad.full_cure_s = -1;
    ck_assert_int_eq(runnel_oil_times_of(&bad, 2, &times), RUNNEL_E_RANGE);
    bad = wet;
    bad.soak_s = INFINITY;
    ck_assert_int_eq(runnel_oil_times_of(&bad, 2, &times), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_oil_times_of(&wet, 0, &times), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_oil_times_of(&wet, 101, &times), RUNNEL_E_RANGE);
    ck_near(times.cured_s, 7, 0);
    bad = wet;
    bad.between_s = NAN;
    ck_assert_int_eq(runnel_oil_times_of(&bad, 1, &times), RUNNEL_OK);
}
END_TEST

START_TEST(copies_and_their_memory) {
    char name[] = "walnut oil", food[] = "nuts", source[] = "own", date[] = "2026",
         sure[] = "from "
                  "memory";
    const runnel_oil from = {.name = name,
                             .dries = true,
                             .nut = true,
                             .density_g_per_ml = 0.92,
                             .food = food,
                             .source = source,
                             .date = date,
                             .sure = sure};
    bool failed = true;
    for (size_t fail_at = 0; failed; fail_at++) {
        failing count = {.fail_at = fail_at};
        runnel_oil to = {0};
        start_failing(&count);
        runnel_status status = runnel_oil_copy(&from, &to);
        failed = count.calls > fail_at;
        ck_assert_int_eq(status, failed ? RUNNEL_E_NO_MEMORY : RUNNEL_OK);
        ck_assert(failed ? !to.name : strcmp(to.name, name) == 0 && to.name != name);
        ck_assert(failed || (strcmp(to.sure, sure) == 0 && !to.uptake_sure && to.nut));
        runnel_oil_clear(&to);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
        ck_assert_ptr_null(to.name);
        ck_assert(failed || fail_at == 5);
    }
    runnel_oil_clear(NULL);
    ck_assert_uint_eq(runnel_oil_step_bit(&from), RUNNEL_STEP_BIT(RUNNEL_STEP_OIL_DRYING));
    ck_assert_uint_eq(runnel_oil_cases(&from), RUNNEL_CASE_NUT_OIL);
    const runnel_oil mineral = {0};
    ck_assert_uint_eq(runnel_oil_step_bit(&mineral), RUNNEL_STEP_BIT(RUNNEL_STEP_OIL));
    ck_assert_uint_eq(runnel_oil_cases(&mineral), 0);
}
END_TEST

int main(void) {
    const TTest *const tests[] = {published_uptakes, end_grain_and_waste, coats_sum_up,
                                  amount_refusals,   times_of_coats,      copies_and_their_memory};
    Suite *suite = suite_create("oil");
    TCase *cases = tcase_create("oil");
    for (size_t i = 0; i < COUNT(tests); i++)
        tcase_add_test(cases, tests[i]);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
