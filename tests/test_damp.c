/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "runnel/damp.h"

#include <stdlib.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static double dew_of(double degc, double humidity) {
    double dew = NAN;
    ck_assert_int_eq(runnel_dew_point(degc, humidity, &dew), RUNNEL_OK);
    return dew;
}

static double moisture_of(double degc, double humidity) {
    double percent = NAN;
    ck_assert_int_eq(runnel_wood_moisture(degc, humidity, &percent), RUNNEL_OK);
    return percent;
}

START_TEST(dew_points) {
    /* At 100 % the air is at its dew point. */
    for (double degc = -40; degc <= 50; degc += 10)
        ck_near_or(dew_of(degc, 1), degc, 1e-12, 1e-12);
    /* A damp garage, 12 degC and 85 %, worked by hand: 9.6 degC. */
    ck_near_or(dew_of(12, 0.85), 9.6, 0, 0.051);
    /* From vapour pressures of the steam tables (hPa over water): 23.39 at 20, 11.7 at 50 % is that
     * of 9.27 degC; 31.69 at 25, 60 % is 19.01, of 16.7 degC. */
    ck_near_or(dew_of(20, 0.5), 9.27, 0, 0.05);
    ck_near_or(dew_of(25, 0.6), 16.7, 0, 0.06);
    double kept = -7;
    static const double wrong[][2] = {{-41, 0.5}, {51, 0.5},  {20, 0},
                                      {20, 1.01}, {NAN, 0.5}, {20, NAN}};
    for (size_t i = 0; i < COUNT(wrong); i++)
        ck_assert_int_eq(runnel_dew_point(wrong[i][0], wrong[i][1], &kept), RUNNEL_E_RANGE);
    ck_near(kept, -7, 0);
}
END_TEST

START_TEST(dry_and_damp_faces) {
    runnel_damp damp;
    /* 12 degC and 85 %: 2.4 K above the dew point, and humid. */
    ck_assert_int_eq(runnel_damp_of(12, 0.85, 12, &damp), RUNNEL_OK);
    ck_near_or(damp.gap_k, 2.4, 0, 0.051);
    ck_assert(damp.is_near_dew && damp.is_humid);
    ck_near_or(damp.least_board_degc, 12.6, 0, 0.051);
    /* The same air with a board that is kept warm. */
    ck_assert_int_eq(runnel_damp_of(12, 0.80, 20, &damp), RUNNEL_OK);
    ck_assert(!damp.is_near_dew && !damp.is_humid);
    /* A cold board carried into a warm shop. */
    ck_assert_int_eq(runnel_damp_of(22, 0.55, 13, &damp), RUNNEL_OK);
    ck_assert(damp.is_near_dew && !damp.is_humid);
    ck_near_or(damp.moisture_percent, 10, 0, 0.5);
    ck_assert_int_eq(runnel_damp_of(-10, 0.55, 13, &damp), RUNNEL_OK);
    ck_assert(isnan(damp.moisture_percent));
    damp.gap_k = -7;
    ck_assert_int_eq(runnel_damp_of(22, 0.55, 101, &damp), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_damp_of(22, 0, 13, &damp), RUNNEL_E_RANGE);
    ck_near(damp.gap_k, -7, 0);
}
END_TEST

/* The dampest air is that with the highest dew point, not the most humid: by Magnus' formula 13
 * degC at 72 % has 8.07 degC, 24 at 71 % 18.42. At the ends of a span it is that between two
 * readings. */
START_TEST(dampest_of_a_span) {
    static const runnel_reading log[] = {{0, 13, 0.72},   {100, 24, 0.71}, {200, 25, 0.60},
                                         {300, 10, 0.60}, {400, 20, NAN},  {500, 30, 0.95}};
    runnel_damp_span span;
    ck_assert_int_eq(runnel_damp_over(log, COUNT(log), 0, 300, &span), RUNNEL_OK);
    ck_near(span.dampest.time_s, 100, 0);
    ck_near(span.most_humidity, 0.72, 0);
    ck_near(span.coldest_degc, 10, 0);
    ck_near(span.warmest_degc, 25, 0);
    /* between 0 and 100 s only: half way 18.5 degC and 71.5 % */
    ck_assert_int_eq(runnel_damp_over(log, COUNT(log), 0, 50, &span), RUNNEL_OK);
    ck_near(span.dampest.time_s, 50, 0);
    ck_near(span.dampest.degc, 18.5, 1e-12);
    ck_near(span.dampest.humidity, 0.715, 1e-12);
    ck_near(span.coldest_degc, 13, 0);
    /* a span within two readings has both its ends, and readings without humidity tell no dew */
    ck_assert_int_eq(runnel_damp_over(log, COUNT(log), 210, 220, &span), RUNNEL_OK);
    ck_near(span.warmest_degc, 23.5, 1e-12);
    ck_near(span.coldest_degc, 22, 1e-12);
    ck_assert_int_eq(runnel_damp_over(log, COUNT(log), 350, 450, &span), RUNNEL_OK);
    ck_assert(isnan(span.dampest.humidity) && isnan(span.most_humidity));
    ck_near(span.coldest_degc, 15, 1e-12);
    ck_assert_int_eq(runnel_damp_over(log, COUNT(log), 20, INFINITY, &span), RUNNEL_OK);
    ck_near(span.dampest.time_s, 500, 0);
    ck_assert_int_eq(runnel_damp_over(log, COUNT(log), 501, 600, &span), RUNNEL_E_RANGE);
}
END_TEST

START_TEST(moisture_of_wood) {
    /* Wood Handbook FPL-GTR-190, table 4-2 (degF, % and % moisture), as a dealer reprints it. */
    static const double table[][3] = {
        {30, 50, 9.5},  {50, 50, 9.5},  {50, 80, 16.4},  {70, 10, 2.5},  {70, 30, 6.2},
        {70, 50, 9.2},  {70, 65, 12.0}, {70, 80, 16.0},  {70, 90, 20.5}, {80, 50, 9.1},
        {80, 65, 11.7}, {90, 40, 7.4},  {100, 65, 11.2}, {130, 80, 14.0}};
    for (size_t i = 0; i < COUNT(table); i++)
        ck_near_or(moisture_of((table[i][0] - 32) / 1.8, table[i][1] / 100), table[i][2], 0, 0.06);
    /* The equation worked by hand. */
    ck_near(moisture_of(20, 0.5), 9.271141, 1e-6);
    ck_near(moisture_of(20, 0.65), 11.996267, 1e-6);
    ck_near(moisture_of(15, 0.6), 11.138730, 1e-6);
    ck_near(moisture_of(25, 0.4), 7.608178, 1e-6);
    ck_near(moisture_of(30, 0.3), 5.985394, 1e-6);
    ck_near(moisture_of(0, 0.5), 9.519403, 1e-6);
    ck_near(moisture_of(20, 0), 0, 0);
    double kept = -7;
    ck_assert_int_eq(runnel_wood_moisture(-2, 0.5, &kept), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_wood_moisture(133, 0.5, &kept), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_wood_moisture(20, 1.01, &kept), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_wood_moisture(20, -0.01, &kept), RUNNEL_E_RANGE);
    ck_near(kept, -7, 0);
}
END_TEST

START_TEST(movement) {
    double mm = NAN;
    /* Wood Handbook table 13-5 coefficients. 300 mm of sugar maple from 8 to 12 %: 4.236 mm
     * flat-sawn, 1.980 mm quarter-sawn; 250 mm of walnut from 6 to 9 %: 2.055 mm. */
    ck_assert_int_eq(runnel_wood_movement(300, 0.00353, 8, 12, &mm), RUNNEL_OK);
    ck_near(mm, 4.236, 1e-12);
    ck_assert_int_eq(runnel_wood_movement(300, 0.00165, 12, 8, &mm), RUNNEL_OK);
    ck_near(mm, -1.980, 1e-12);
    ck_assert_int_eq(runnel_wood_movement(250, 0.00274, 6, 9, &mm), RUNNEL_OK);
    ck_near(mm, 2.055, 1e-12);
    /* Red alder, 8 in, 6 % with 0.0026: 0.1248 in (printed example of a woodworking magazine). */
    ck_assert_int_eq(runnel_wood_movement(8, 0.0026, 6, 12, &mm), RUNNEL_OK);
    ck_near(mm, 0.1248, 1e-12);
    /* By the shrinkage of maple, 9.9 %: 1200/(303.0303 - 22) = 4.27000 worked by hand. */
    ck_assert_int_eq(runnel_wood_movement_wide(300, 9.9, 8, 12, &mm), RUNNEL_OK);
    ck_near(mm, 1200 / 281.030303030303, 1e-12);
    /* White oak of 12 in from 14 to 5 % loses about 3/8 in (told by a maker; 0.0365 a percent). */
    ck_assert_int_eq(runnel_wood_movement(12, 0.00365, 14, 5, &mm), RUNNEL_OK);
    ck_near(mm, -3.0 / 8, 0.06);
    /* Table 4-3's shrinkages make table 13-5's coefficients: maple, cherry, beech, walnut, ash. */
    static const double pairs[][2] = {{9.9, 0.00353}, {7.1, 0.00248}, {11.9, 0.00431},
                                      {7.8, 0.00274}, {4.8, 0.00165}, {4.9, 0.00169}};
    for (size_t i = 0; i < COUNT(pairs); i++)
        ck_near_or(runnel_wood_coefficient(pairs[i][0]), pairs[i][1], 0, 0.0000051);
    ck_assert(isnan(runnel_wood_coefficient(0)) && isnan(runnel_wood_coefficient(30)));
    mm = -7;
    ck_assert_int_eq(runnel_wood_movement(-1, 0.003, 8, 12, &mm), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_wood_movement(1, 0.3, 8, 12, &mm), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_wood_movement(1, 0.003, -1, 12, &mm), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_wood_movement(1, 0.003, 8, 31, &mm), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_wood_movement_wide(1, 0, 8, 12, &mm), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_wood_movement_wide(NAN, 9, 8, 12, &mm), RUNNEL_E_RANGE);
    ck_near(mm, -7, 0);
}
END_TEST

/* Wood Handbook, chapter 13: within 6 to 14 % by the coefficient, beyond by the shrinkage. 300 mm
 * of maple from 28 to 8 %: -6000/(3000/9.9 + 28 - 30) = -19.932 mm, where the coefficient has
 * -21.18. By the coefficient alone -6000/(1/0.00353 - 10 + 28) = -19.915. Red oak of commerce has
 * 0.00369, its shrinkage of 8.6 % would make 0.00304: from 5 to 12 % of 200 mm 1400/(1/0.00369 - 5)
 * = 5.263.
 */
START_TEST(change_over_any_moisture) {
    double mm = NAN;
    ck_assert_int_eq(runnel_wood_change(300, 0.00353, 9.9, 8, 12, &mm), RUNNEL_OK);
    ck_near(mm, 4.236, 1e-12);
    ck_assert_int_eq(runnel_wood_change(300, 0.00353, 9.9, 14, 6, &mm), RUNNEL_OK);
    ck_near(mm, -8.472, 1e-12);
    ck_assert_int_eq(runnel_wood_change(300, 0.00353, 9.9, 28, 8, &mm), RUNNEL_OK);
    ck_near_or(mm, -19.932, 0, 0.0006);
    ck_assert_int_eq(runnel_wood_change(300, 0.00353, NAN, 28, 8, &mm), RUNNEL_OK);
    ck_near_or(mm, -19.9146, 0, 0.0006);
    ck_assert_int_eq(runnel_wood_change(300, NAN, 9.9, 8, 12, &mm), RUNNEL_OK);
    ck_near(mm, 1200 / 281.030303030303, 1e-12);
    ck_assert_int_eq(runnel_wood_change(200, 0.00369, 8.6, 5, 12, &mm), RUNNEL_OK);
    ck_near_or(mm, 5.263, 0, 0.0006);
    ck_assert_int_eq(runnel_wood_change(200, 0, NAN, 5, 12, &mm), RUNNEL_OK);
    ck_near(mm, 0, 0);
    ck_assert_int_eq(runnel_wood_change(200, NAN, NAN, 8, 12, &mm), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_wood_change(200, 0.00369, 8.6, 5, 31, &mm), RUNNEL_E_RANGE);
    /* a band is looked at the same way */
    runnel_damp_band band;
    ck_assert_int_eq(runnel_damp_band_of(300, 0.00353, 9.9, 28, 8, &band), RUNNEL_OK);
    ck_near_or(band.change_mm, -19.932, 0, 0.0006);
    ck_near_or(band.strain, -19.932 / 300, 0, 0.000002);
}
END_TEST

START_TEST(bands) {
    runnel_damp_band band;
    ck_assert_int_eq(runnel_damp_band_of(250, 0.00353, 9.9, 9, 7, &band), RUNNEL_OK);
    ck_near(band.change_mm, -1.765, 1e-12);
    ck_near(band.strain, -0.00706, 1e-12);
    ck_assert(band.is_long);
    ck_assert_int_eq(runnel_damp_band_of(100, 0.00353, 9.9, 9, 7, &band), RUNNEL_OK);
    ck_assert(!band.is_long);
    band.strain = -7;
    ck_assert_int_eq(runnel_damp_band_of(100, 0.00353, 9.9, 9, 70, &band), RUNNEL_E_RANGE);
    ck_near(band.strain, -7, 0);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("damp");
    TCase *all = tcase_create("all");
    tcase_add_test(all, dew_points);
    tcase_add_test(all, dry_and_damp_faces);
    tcase_add_test(all, moisture_of_wood);
    tcase_add_test(all, dampest_of_a_span);
    tcase_add_test(all, movement);
    tcase_add_test(all, change_over_any_moisture);
    tcase_add_test(all, bands);
    suite_add_tcase(suite, all);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
