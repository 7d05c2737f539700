/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "runnel/band.h"
#include "runnel/cavity.h"

#include <stdlib.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static const double pi = 3.14159265358979323846;

static double between(double low, double high) {
    return low + (high - low) * (rand() / (RAND_MAX + 1.0));
}

/* --- grooves in closed form --- */

/* A straight V groove, ends aside: length x depth^2 x tan(half the angle). */
typedef struct groove {
    double length_mm, depth_mm, angle_deg;
} groove;

static double groove_volume(double depth_shift_mm, double angle_shift_deg, void *state) {
    const groove *of = state;
    double depth_mm = fmax(0, of->depth_mm + depth_shift_mm);
    return of->length_mm * depth_mm * depth_mm * tan((of->angle_deg + angle_shift_deg) * pi / 360);
}

/* The same run as deep as a stroke of fixed width asks for: length x width^2/4 / tan(half). */
static double fixed_width_volume(double depth_shift_mm, double angle_shift_deg, void *state) {
    const groove *of = state;
    (void)depth_shift_mm;
    return of->length_mm * of->depth_mm * of->depth_mm * tan(of->angle_deg * pi / 360) *
           tan(of->angle_deg * pi / 360) / tan((of->angle_deg + angle_shift_deg) * pi / 360);
}

static double valley(double depth_shift_mm, double angle_shift_deg, void *state) {
    (void)state;
    return 100 + depth_shift_mm * depth_shift_mm + angle_shift_deg;
}

static double returned(double depth_shift_mm, double angle_shift_deg, void *state) {
    (void)angle_shift_deg;
    return depth_shift_mm == 0 ? 100 : *(double *)state;
}

START_TEST(depth_worked_by_hand) {
    /* Volume goes with the square: 3.0 mm cut 3.3 deep is 1.1^2 = +21 %, cut 2.7 deep 0.9^2 = -19
     * %; the same for 0.5 mm on 5 mm. */
    static const double rows[][2] = {{3, 0.3}, {5, 0.5}};
    for (size_t i = 0; i < COUNT(rows); i++)
        for (int is_flatness = 0; is_flatness < 2; is_flatness++) {
            groove of = {100, rows[i][0], 60};
            runnel_band_errors errors = {0};
            *(is_flatness ? &errors.flatness_mm : &errors.depth_mm) = rows[i][1];
            runnel_band band = {0};
            double likely_mm3 = 100 * rows[i][0] * rows[i][0] * tan(pi / 6);
            size_t cause = is_flatness ? RUNNEL_BAND_FLATNESS : RUNNEL_BAND_DEPTH;
            ck_assert_int_eq(runnel_band_of(groove_volume, &of, 0, &errors, &band), RUNNEL_OK);
            ck_near(band.likely_mm3, likely_mm3, 1e-14);
            ck_near(band.low_mm3, 0.81 * likely_mm3, 1e-12);
            ck_near(band.high_mm3, 1.21 * likely_mm3, 1e-12);
            ck_near(band.least_mm3, 0.81 * likely_mm3, 1e-12);
            ck_near(band.most_mm3, 1.21 * likely_mm3, 1e-12);
            ck_near(band.parts[cause].share, 1, 0);
            ck_near(band.parts[RUNNEL_BAND_ANGLE].share, 0, 0);
        }
}
END_TEST

START_TEST(angle_worked_by_hand) {
    /* 58 degrees sold as 60: tan 29/tan 30 = 0.5543/0.5774, -4.0 % at the same depth, and the
     * reverse, +4.2 %, at the same width. */
    groove of = {100, 5, 60};
    runnel_band_errors errors = {.angle_deg = 2};
    runnel_band band = {0};
    ck_assert_int_eq(runnel_band_of(groove_volume, &of, 0, &errors, &band), RUNNEL_OK);
    ck_near_or(band.low_mm3 / band.likely_mm3, 0.960, 0, 0.0005);
    ck_near(band.low_mm3 / band.likely_mm3, 0.55430905145276899 / 0.57735026918962573, 1e-12);
    /* 62 degrees: tan 31/tan 30 = 0.60086/0.57735. */
    ck_near(band.high_mm3 / band.likely_mm3, 0.60086061902756041 / 0.57735026918962573, 1e-12);
    ck_assert_int_eq(runnel_band_of(fixed_width_volume, &of, 0, &errors, &band), RUNNEL_OK);
    ck_near_or(band.high_mm3 / band.likely_mm3, 1.042, 0, 0.0005);
    ck_near(band.high_mm3 / band.likely_mm3, 0.57735026918962573 / 0.55430905145276899, 1e-12);
}
END_TEST

START_TEST(causes_together) {
    /* Depth and flatness each +21/-19 %, as independent +21 x sqrt 2 and -19 x sqrt 2 %, as the
     * worst +42/-38 %; half the band each. Soak of 10 % of the volume, known to half. */
    groove of = {100, 5, 60};
    double volume_mm3 = 2500 * tan(pi / 6);
    runnel_band_errors errors = {0.5, 0, 0.5, 0};
    runnel_band band = {0};
    ck_assert_int_eq(runnel_band_of(groove_volume, &of, 0, &errors, &band), RUNNEL_OK);
    ck_near(band.high_mm3, volume_mm3 * (1 + 0.21 * 1.4142135623730951), 1e-12);
    ck_near(band.low_mm3, volume_mm3 * (1 - 0.19 * 1.4142135623730951), 1e-12);
    ck_near(band.most_mm3, volume_mm3 * 1.42, 1e-12);
    ck_near(band.least_mm3, volume_mm3 * 0.62, 1e-12);
    ck_near(band.parts[RUNNEL_BAND_DEPTH].share, 0.5, 1e-14);
    ck_near(band.parts[RUNNEL_BAND_FLATNESS].share, 0.5, 1e-14);
    errors.soak = 0.5;
    errors.flatness_mm = 0;
    ck_assert_int_eq(runnel_band_of(groove_volume, &of, 0.1 * volume_mm3, &errors, &band),
                     RUNNEL_OK);
    ck_near(band.likely_mm3, 1.1 * volume_mm3, 1e-14);
    ck_near(band.parts[RUNNEL_BAND_SOAK].up_mm3, 0.05 * volume_mm3, 1e-12);
    ck_near(band.parts[RUNNEL_BAND_SOAK].down_mm3, 0.05 * volume_mm3, 1e-12);
    /* (0.05 + 0.05)^2 beside (0.21 + 0.19)^2: 1 to 16. */
    ck_near(band.parts[RUNNEL_BAND_SOAK].share, 1.0 / 17, 1e-12);
    ck_near(band.parts[RUNNEL_BAND_DEPTH].share, 16.0 / 17, 1e-12);
    ck_near(band.high_mm3, volume_mm3 * (1.1 + sqrt(0.21 * 0.21 + 0.05 * 0.05)), 1e-12);
    /* A soak that may be three times as much is never less than nothing. */
    errors.soak = 2;
    ck_assert_int_eq(runnel_band_of(groove_volume, &of, 100, &errors, &band), RUNNEL_OK);
    ck_near(band.parts[RUNNEL_BAND_SOAK].up_mm3, 200, 1e-12);
    ck_near(band.parts[RUNNEL_BAND_SOAK].down_mm3, 100, 1e-12);
}
END_TEST

START_TEST(no_errors_no_band) {
    groove of = {100, 5, 60};
    runnel_band_errors none = {0};
    runnel_band band = {0};
    ck_assert_int_eq(runnel_band_of(groove_volume, &of, 10, &none, &band), RUNNEL_OK);
    ck_near(band.low_mm3, band.likely_mm3, 0);
    ck_near(band.high_mm3, band.likely_mm3, 0);
    ck_near(band.least_mm3, band.likely_mm3, 0);
    ck_near(band.most_mm3, band.likely_mm3, 0);
    for (size_t i = 0; i < RUNNEL_BAND_CAUSES; i++)
        ck_near(band.parts[i].share, 0, 0);
    /* Deeper and shallower both give more: nothing is taken away. */
    runnel_band_errors errors = {2, 0, 0, 0};
    ck_assert_int_eq(runnel_band_of(valley, NULL, 0, &errors, &band), RUNNEL_OK);
    ck_near(band.low_mm3, 100, 0);
    ck_near(band.high_mm3, 104, 0);
}
END_TEST

START_TEST(usual_errors) {
    runnel_band_errors usual = runnel_band_usual(); /* common practice */
    ck_near(usual.depth_mm, 0.1, 0);
    ck_near(usual.angle_deg, 1, 0);
    ck_near(usual.flatness_mm, 0.2, 0);
    ck_near(usual.soak, 0.5, 0);
    static const char *const names[] = {"depth zero", "included angle", "flatness of the board",
                                        "soak"};
    for (size_t i = 0; i < RUNNEL_BAND_CAUSES; i++)
        ck_assert_str_eq(runnel_band_cause_text((runnel_band_cause)i), names[i]);
    ck_assert_str_eq(runnel_band_cause_text(RUNNEL_BAND_CAUSES), "unknown");
}
END_TEST

/* --- from the figures of a cavity --- */

START_TEST(figures_of_a_groove) {
    /* V of 60 degrees 5 mm deep: k z^2 with k = 57.735. 0.1 deeper 26.01 k, shallower 24.01 k; half
     * a millimetre is +21/-19 % again, since the parabola is the groove's own. */
    double k = 100 * tan(pi / 6);
    runnel_band_figures figures = {25 * k, 1.01 * k, -0.99 * k,
                                   25 * 100 / (cos(pi / 6) * cos(pi / 6)) * pi / 360};
    runnel_band_errors errors = {0.5, 0, 0, 0};
    runnel_band band = {0};
    ck_assert_int_eq(runnel_band_of_figures(&figures, 0, &errors, &band), RUNNEL_OK);
    ck_near(band.high_mm3, 1.21 * 25 * k, 1e-11);
    ck_near(band.low_mm3, 0.81 * 25 * k, 1e-11);
    /* A degree more or less, by the slope: 0.5 x pi/180/(sin 30 cos 30) = +-2.015 %. */
    errors = (runnel_band_errors){0, 1, 0, 0};
    ck_assert_int_eq(runnel_band_of_figures(&figures, 0, &errors, &band), RUNNEL_OK);
    ck_near(band.high_mm3, 25 * k * (1 + 0.020153326269269), 1e-11);
    ck_near(band.low_mm3, 25 * k * (1 - 0.020153326269269), 1e-11);
    /* A hairline of 0.1 mm depth under 0.3 mm of error is not cut at all. */
    figures = (runnel_band_figures){0.01 * k, 0.03 * k, -0.01 * k, 0};
    errors = (runnel_band_errors){0.1, 0, 0, 0};
    ck_assert_int_eq(runnel_band_of_figures(&figures, 0, &errors, &band), RUNNEL_OK);
    ck_near_or(band.low_mm3, 0, 0, 1e-15);
    ck_near(band.high_mm3, 0.04 * k, 1e-12);
    /* Nor is it under 0.3 mm, where the parabola would be at 0.04 k again; the board and the zero
     * both, 0.3 mm and 0.1 mm deeper: 0.16 k and 0.04 k, less 0.01 k each. */
    errors = (runnel_band_errors){0.3, 0, 0.1, 0};
    ck_assert_int_eq(runnel_band_of_figures(&figures, 0, &errors, &band), RUNNEL_OK);
    ck_near(band.low_mm3, 0, 0);
    ck_near(band.parts[RUNNEL_BAND_DEPTH].down_mm3, 0.01 * k, 1e-12);
    ck_near(band.high_mm3, (0.01 + hypot(0.15, 0.03)) * k, 1e-12);
    /* What widens less and less below is no shallower for more depth: 4 z - z^2 around z = 1.9,
     * 0.4 mm deeper as at its vertex of 2 mm. */
    runnel_band_figures rounded = {3.99, 0.01, -0.03, 0};
    errors = (runnel_band_errors){0.4, 0, 0, 0};
    ck_assert_int_eq(runnel_band_of_figures(&rounded, 0, &errors, &band), RUNNEL_OK);
    ck_near(band.high_mm3, 4, 1e-12);
    ck_near(band.low_mm3, 4 * 1.5 - 2.25, 1e-12);
    errors = (runnel_band_errors){0.1, 0, 0, 0};
    figures.depth_minus_mm3 = -0.02 * k;
    ck_assert_int_eq(runnel_band_of_figures(&figures, 0, &errors, &band), RUNNEL_OK);
    ck_near(band.low_mm3, 0, 0);
}
END_TEST

/* A real cavity computed again beside its own figures. */
typedef struct carving {
    runnel_shape *shape;
    runnel_cut cut;
} carving;

static double carved(double depth_shift_mm, double angle_shift_deg, void *state) {
    const carving *of = state;
    runnel_cut cut = of->cut;
    runnel_cavity figures;
    cut.depth_mm += depth_shift_mm;
    cut.cutter.angle_deg += angle_shift_deg;
    if (runnel_cavity_compute(of->shape, &cut, &figures) != RUNNEL_OK)
        return NAN;
    return figures.volume_mm3;
}

START_TEST(figures_beside_the_cavity) {
    /* A path of 100 x 60 mm by a V of 60 degrees 4 mm deep: the usual errors by both ways. */
    carving of = {NULL, {{RUNNEL_CUTTER_V, 60, 0.2, 0}, RUNNEL_CUT_PATH, 4}};
    ck_assert_int_eq(runnel_shape_rounded(100, 60, 10, true, &of.shape), RUNNEL_OK);
    runnel_cavity c = {0};
    ck_assert_int_eq(runnel_cavity_compute(of.shape, &of.cut, &c), RUNNEL_OK);
    runnel_band_figures figures = {c.volume_mm3, c.depth_plus_mm3, c.depth_minus_mm3,
                                   c.angle_mm3_per_degree};
    runnel_band_errors usual = runnel_band_usual();
    runnel_band again = {0}, quick = {0};
    ck_assert_int_eq(runnel_band_of(carved, &of, 50, &usual, &again), RUNNEL_OK);
    ck_assert_int_eq(runnel_band_of_figures(&figures, 50, &usual, &quick), RUNNEL_OK);
    ck_near(quick.likely_mm3, again.likely_mm3, 1e-12);
    ck_near(quick.low_mm3, again.low_mm3, 1e-4);
    ck_near(quick.high_mm3, again.high_mm3, 1e-4);
    for (size_t i = 0; i < RUNNEL_BAND_CAUSES; i++)
        ck_near_or(quick.parts[i].share, again.parts[i].share, 0, 0.002);
    runnel_shape_free(of.shape);
}
END_TEST

/* --- several --- */

START_TEST(sum_worked_by_hand) {
    /* Two grooves alike and one of half the length: two and a half times one, shares the same. */
    groove whole = {100, 5, 60}, half = {50, 5, 60};
    runnel_band_errors errors = {0.5, 1, 0.2, 0.5};
    runnel_band bands[2] = {{0}}, sum = {0};
    ck_assert_int_eq(runnel_band_of(groove_volume, &whole, 20, &errors, &bands[0]), RUNNEL_OK);
    ck_assert_int_eq(runnel_band_of(groove_volume, &half, 10, &errors, &bands[1]), RUNNEL_OK);
    static const double counts[] = {2, 1};
    ck_assert_int_eq(runnel_band_add(bands, counts, 2, &sum), RUNNEL_OK);
    ck_near(sum.likely_mm3, 2.5 * bands[0].likely_mm3, 1e-13);
    ck_near(sum.low_mm3, 2.5 * bands[0].low_mm3, 1e-12);
    ck_near(sum.high_mm3, 2.5 * bands[0].high_mm3, 1e-12);
    ck_near(sum.least_mm3, 2.5 * bands[0].least_mm3, 1e-12);
    ck_near(sum.most_mm3, 2.5 * bands[0].most_mm3, 1e-12);
    for (size_t i = 0; i < RUNNEL_BAND_CAUSES; i++)
        ck_near(sum.parts[i].share, bands[0].parts[i].share, 1e-12);
    ck_assert_int_eq(runnel_band_add(bands, NULL, 2, &bands[0]), RUNNEL_OK);
    ck_near(bands[0].likely_mm3, 3 * bands[1].likely_mm3, 1e-13);
    ck_assert_int_eq(runnel_band_add(NULL, NULL, 0, &sum), RUNNEL_OK);
    ck_near(sum.likely_mm3 + sum.high_mm3 + sum.low_mm3 + sum.most_mm3 + sum.least_mm3, 0, 0);
}
END_TEST

START_TEST(thousands_of_bands) {
    srand(1);
    for (int round = 0; round < 5000; round++) {
        groove of = {between(1, 2000), between(0.5, 12), between(20, 120)};
        runnel_band_errors errors = {between(0, 0.4), between(0, 3), between(0, 0.5),
                                     between(0, 1)};
        runnel_band_errors wider = {
            errors.depth_mm * between(1, 1.5), errors.angle_deg * between(1, 1.5),
            errors.flatness_mm * between(1, 1.5), errors.soak * between(1, 1.5)};
        double soak_mm3 = between(0, 500), shares = 0;
        runnel_band band = {0}, wide = {0}, parts[2] = {{0}}, sum = {0};
        ck_assert_int_eq(runnel_band_of(groove_volume, &of, soak_mm3, &errors, &band), RUNNEL_OK);
        ck_assert(0 <= band.least_mm3 && band.least_mm3 <= band.low_mm3 &&
                  band.low_mm3 <= band.likely_mm3 && band.likely_mm3 <= band.high_mm3 &&
                  band.high_mm3 <= band.most_mm3);
        for (size_t i = 0; i < RUNNEL_BAND_CAUSES; i++) {
            ck_assert(band.parts[i].share >= 0);
            ck_assert(band.parts[i].up_mm3 >= 0 && band.parts[i].down_mm3 >= 0);
            shares += band.parts[i].share;
        }
        ck_near(shares, 1, 1e-14);
        /* Knowing less never narrows the band. */
        ck_assert_int_eq(runnel_band_of(groove_volume, &of, soak_mm3, &wider, &wide), RUNNEL_OK);
        ck_assert(wide.low_mm3 <= band.low_mm3 && wide.high_mm3 >= band.high_mm3);
        ck_assert(wide.least_mm3 <= band.least_mm3 && wide.most_mm3 >= band.most_mm3);
        /* Cutting a groove in two changes nothing. */
        double share = between(0, 1);
        groove one = of, other = of;
        one.length_mm *= share;
        other.length_mm *= 1 - share;
        ck_assert_int_eq(runnel_band_of(groove_volume, &one, share * soak_mm3, &errors, &parts[0]),
                         RUNNEL_OK);
        ck_assert_int_eq(
            runnel_band_of(groove_volume, &other, (1 - share) * soak_mm3, &errors, &parts[1]),
            RUNNEL_OK);
        ck_assert_int_eq(runnel_band_add(parts, NULL, 2, &sum), RUNNEL_OK);
        ck_near(sum.likely_mm3, band.likely_mm3, 1e-12);
        ck_near(sum.high_mm3, band.high_mm3, 1e-12);
        ck_near_or(sum.low_mm3, band.low_mm3, 1e-12, 1e-12 * band.likely_mm3);
    }
}
END_TEST

START_TEST(refusals) {
    groove of = {100, 5, 60};
    runnel_band_errors errors = runnel_band_usual();
    runnel_band band = {.likely_mm3 = 7}, sound = {.likely_mm3 = 1};
    static const double bad[] = {-1, NAN, INFINITY};
    ck_assert_int_eq(runnel_band_of(NULL, &of, 0, &errors, &band), RUNNEL_E_RANGE);
    for (size_t i = 0; i < COUNT(bad); i++) {
        double value = bad[i];
        ck_assert_int_eq(runnel_band_of(groove_volume, &of, value, &errors, &band), RUNNEL_E_RANGE);
        for (size_t k = 0; k < 4; k++) {
            runnel_band_errors wrong = errors;
            double *members[] = {&wrong.depth_mm, &wrong.angle_deg, &wrong.flatness_mm,
                                 &wrong.soak};
            *members[k] = value;
            ck_assert_int_eq(runnel_band_of(groove_volume, &of, 0, &wrong, &band), RUNNEL_E_RANGE);
        }
        ck_assert_int_eq(runnel_band_of(returned, &value, 0, &errors, &band),
                         RUNNEL_E_NOT_COMPUTED);
        runnel_band_figures figures = {value, 1, -1, 0};
        ck_assert_int_eq(runnel_band_of_figures(&figures, 0, &errors, &band), RUNNEL_E_RANGE);
        runnel_band wrong = sound;
        wrong.likely_mm3 = value;
        ck_assert_int_eq(runnel_band_add(&wrong, NULL, 1, &band), RUNNEL_E_RANGE);
        wrong = sound;
        wrong.parts[2].up_mm3 = value;
        ck_assert_int_eq(runnel_band_add(&wrong, NULL, 1, &band), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_band_add(&sound, &value, 1, &band), RUNNEL_E_RANGE);
    }
    runnel_band_figures figures = {1, NAN, -1, 0};
    ck_assert_int_eq(runnel_band_of_figures(&figures, 0, &errors, &band), RUNNEL_E_RANGE);
    figures = (runnel_band_figures){1, 1, INFINITY, 0};
    ck_assert_int_eq(runnel_band_of_figures(&figures, 0, &errors, &band), RUNNEL_E_RANGE);
    figures = (runnel_band_figures){1, 1, -1, NAN};
    ck_assert_int_eq(runnel_band_of_figures(&figures, 0, &errors, &band), RUNNEL_E_RANGE);
    groove huge = {1e308, 1, 90};
    errors.depth_mm = 2;
    ck_assert_int_eq(runnel_band_of(groove_volume, &huge, 0, &errors, &band),
                     RUNNEL_E_NOT_COMPUTED);
    double most = 1.5e308;
    ck_assert_int_eq(runnel_band_of(returned, &most, 0, &errors, &band), RUNNEL_E_RANGE);
    ck_near(band.likely_mm3, 7, 0);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("band");
    TCase *band = tcase_create("band");
    tcase_set_timeout(band, 60); /* under valgrind too */
    tcase_add_test(band, depth_worked_by_hand);
    tcase_add_test(band, angle_worked_by_hand);
    tcase_add_test(band, causes_together);
    tcase_add_test(band, no_errors_no_band);
    tcase_add_test(band, usual_errors);
    tcase_add_test(band, figures_of_a_groove);
    tcase_add_test(band, figures_beside_the_cavity);
    tcase_add_test(band, sum_worked_by_hand);
    tcase_add_test(band, thousands_of_bands);
    tcase_add_test(band, refusals);
    suite_add_tcase(suite, band);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
