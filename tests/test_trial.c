/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "failing.h"
#include "runnel/trial.h"

#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static const double pi = 3.14159265358979323846;
static const runnel_trial_errors exact = {0, 0, 0};

static double between(double low, double high) {
    return low + (high - low) * (rand() / (RAND_MAX + 1.0));
}

/* Width that a cutter leaves: tip + 2 depth tan(angle/2). */
static runnel_trial_cut cut_of(double angle_deg, double tip_mm, double depth_mm) {
    return (runnel_trial_cut){tip_mm + 2 * depth_mm * tan(angle_deg * pi / 360), depth_mm};
}

START_TEST(one_groove_worked_by_hand) {
    /* 60 degrees, tip 0.2 mm, 4 mm deep: 0.2 + 8 x 0.57735 = 4.8188 mm. With 0.1 and 0.05 mm of
     * error sqrt(0.05^2 + (0.57735 x 0.05)^2)/4 = 0.0144338 in the tangent, and 2 x that x 3/4 =
     * 0.0216506 rad = 1.2405 degrees in the angle. */
    runnel_trial_cut cut = {4.818802153517006, 4};
    runnel_trial_errors usual = runnel_trial_usual();
    runnel_trial trial = {0};
    ck_near(usual.width_mm, 0.1, 0); /* common practice */
    ck_near(usual.depth_mm, 0.05, 0);
    ck_near(usual.tip_mm, 0, 0);
    ck_assert_int_eq(runnel_trial_one(&cut, 0.2, &usual, NULL, NULL, &trial), RUNNEL_OK);
    ck_near(trial.angle_deg, 60, 1e-13);
    ck_near(trial.angle_error_deg, 1.2404900146478, 1e-9);
    ck_near(trial.tip_mm, 0.2, 0);
    ck_near(trial.tip_error_mm, 0, 0);
    ck_assert(!trial.is_sharp && !trial.unusual_angle && !trial.unusual_tip);
    /* Sold as 60, 5 mm deep and 5.543 mm wide: 58 degrees (tan 29 = 0.55431). */
    cut = (runnel_trial_cut){5.5430905145276899, 5};
    ck_assert_int_eq(runnel_trial_one(&cut, 0, &exact, NULL, NULL, &trial), RUNNEL_OK);
    ck_near(trial.angle_deg, 58, 1e-13);
    ck_near(trial.angle_error_deg, 0, 0);
    /* A right angle: as wide as twice the depth. A tip known to 0.24 mm beside a width known to
     * 0.1: 0.26 mm, half of it over 2 mm depth, and the angle by as much in radians. */
    cut = (runnel_trial_cut){4.5, 2};
    runnel_trial_errors loose = {0.1, 0, 0.24};
    ck_assert_int_eq(runnel_trial_one(&cut, 0.5, &loose, NULL, NULL, &trial), RUNNEL_OK);
    ck_near(trial.angle_deg, 90, 1e-14);
    ck_near(trial.angle_error_deg, 0.065 * 180 / pi, 1e-13);
    ck_near(trial.tip_error_mm, 0.24, 0);
}
END_TEST

START_TEST(two_grooves_worked_by_hand) {
    /* 60 degrees, tip 0.3 mm, 2 and 6 mm deep: 0.3 + 4 x 0.57735 = 2.6094 and 7.2282 mm. D = 4,
     * r = 1/2. Error 0.1 and 0.05: sqrt(0.1^2 + (1.1547 x 0.05)^2) = 0.1154701, in the tangent
     * sqrt 2 x that/8 = 0.0204124, in the angle 2 x that x 3/4 = 0.0306186 rad = 1.75432 degrees,
     * in the tip that x sqrt(1.5^2 + 0.5^2) = 0.182574 mm. */
    static const runnel_trial_cut upper = {2.609401076758503, 2}, lower = {7.228203230275509, 6};
    runnel_trial_errors usual = runnel_trial_usual();
    for (int turned = 0; turned < 2; turned++) {
        runnel_trial trial = {0};
        ck_assert_int_eq(runnel_trial_two(turned ? &lower : &upper, turned ? &upper : &lower,
                                          &usual, NULL, NULL, &trial),
                         RUNNEL_OK);
        ck_near(trial.angle_deg, 60, 1e-13);
        ck_near(trial.tip_mm, 0.3, 1e-12);
        ck_near(trial.angle_error_deg, 1.7543177953, 1e-8);
        ck_near(trial.tip_error_mm, 0.18257418583505536, 1e-12);
        ck_assert(!trial.is_sharp);
    }
}
END_TEST

START_TEST(a_tip_below_nothing) {
    /* A sharp 90 degree V cut 0.05 mm less deep than told: tip -0.1 mm, within the error of a tip
     * from 2 and 5 mm (0.254), so sharp. With 0.4 mm of zero error it is refused. */
    runnel_trial_cut upper = {3.9, 2}, lower = {9.9, 5};
    runnel_trial_errors usual = runnel_trial_usual();
    runnel_trial trial = {0};
    runnel_problems problems;
    runnel_problems_init(&problems);
    ck_assert_int_eq(runnel_trial_two(&upper, &lower, &usual, &problems, NULL, &trial), RUNNEL_OK);
    ck_near(trial.angle_deg, 90, 1e-13);
    ck_near(trial.tip_mm, 0, 0);
    ck_assert(trial.is_sharp);
    ck_near_or(trial.tip_error_mm, 0.254, 0, 0.0005);
    ck_assert_uint_eq(problems.count, 0);
    runnel_trial_cut upper_off = {3.2, 2}, lower_off = {9.2, 5};
    trial.angle_deg = 7;
    ck_assert_int_eq(runnel_trial_two(&upper_off, &lower_off, &usual, &problems, NULL, &trial),
                     RUNNEL_E_CONFLICT);
    ck_near(trial.angle_deg, 7, 0);
    ck_assert_uint_eq(problems.count, 1);
    ck_assert_str_eq(problems.items[0].text,
                     "the readings make a tip of '-0.800' mm, as if both grooves were 0.40 mm less "
                     "deep than told; check the zero");
    runnel_problems_clear(&problems);
    /* Exact readings of a sharp cutter are not refused by a rounding. */
    for (double angle_deg = 12; angle_deg < 150; angle_deg += 0.7) {
        upper = cut_of(angle_deg, 0, 1.1);
        lower = cut_of(angle_deg, 0, 3.7);
        ck_assert_int_eq(runnel_trial_two(&upper, &lower, &exact, NULL, NULL, &trial), RUNNEL_OK);
        ck_near(trial.angle_deg, angle_deg, 1e-12);
        ck_near_or(trial.tip_mm, 0, 0, 1e-12);
    }
}
END_TEST

START_TEST(unusual_cutters) {
    static const struct {
        double angle_deg, tip_mm;
        bool angle, tip;
    } rows[] = {{9, 0.2, true, false},    {11, 0.2, false, false},  {149, 0.2, false, false},
                {151, 0.2, true, false},  {60, 0.01, false, true}, /* .01 in entered as mm */
                {60, 0.06, false, false}, {60, 0.99, false, false}, {60, 1.01, false, true},
                {60, 0, false, false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_trial_cut cut = cut_of(rows[i].angle_deg, rows[i].tip_mm, 3);
        runnel_trial trial = {0};
        ck_assert_int_eq(runnel_trial_one(&cut, rows[i].tip_mm, &exact, NULL, NULL, &trial),
                         RUNNEL_OK);
        ck_assert_int_eq(trial.unusual_angle, rows[i].angle);
        ck_assert_int_eq(trial.unusual_tip, rows[i].tip);
    }
}
END_TEST

/* The errors against readings that are moved one by one. */
START_TEST(thousands_of_grooves) {
    srand(2);
    for (int round = 0; round < 3000; round++) {
        double angle_deg = between(15, 140), tip_mm = between(0, 1);
        runnel_trial_cut upper = cut_of(angle_deg, tip_mm, between(1, 4));
        runnel_trial_cut lower = cut_of(angle_deg, tip_mm, upper.depth_mm + between(2, 6));
        runnel_trial_errors errors = {between(0, 0.1), between(0, 0.05), between(0, 0.1)};
        runnel_trial one = {0}, two = {0}, moved = {0};
        ck_assert_int_eq(runnel_trial_one(&upper, tip_mm, &errors, NULL, NULL, &one), RUNNEL_OK);
        ck_assert_int_eq(runnel_trial_two(&upper, &lower, &errors, NULL, NULL, &two), RUNNEL_OK);
        ck_near(one.angle_deg, angle_deg, 1e-12);
        ck_near(two.angle_deg, angle_deg, 1e-10);
        ck_near_or(two.tip_mm, tip_mm, 0, 1e-12);
        double squares = 0, two_squares = 0, tip_squares = 0, small = 1e-6;
        for (int i = 0; i < 4; i++) {
            runnel_trial_cut a = upper, b = lower;
            double *readings[] = {&a.width_mm, &a.depth_mm, &b.width_mm, &b.depth_mm};
            double off = i % 2 ? errors.depth_mm : errors.width_mm;
            *readings[i] += small;
            if (i < 2) {
                ck_assert_int_eq(runnel_trial_one(&a, tip_mm, &exact, NULL, NULL, &moved),
                                 RUNNEL_OK);
                squares += pow((moved.angle_deg - angle_deg) / small * off, 2);
            }
            if (tip_mm < 0.01) /* a tip moved below 0 is refused */
                continue;
            ck_assert_int_eq(runnel_trial_two(&a, &b, &exact, NULL, NULL, &moved), RUNNEL_OK);
            two_squares += pow((moved.angle_deg - two.angle_deg) / small * off, 2);
            tip_squares += pow((moved.tip_mm - two.tip_mm) / small * off, 2);
        }
        ck_assert_int_eq(runnel_trial_one(&upper, tip_mm + small, &exact, NULL, NULL, &moved),
                         RUNNEL_OK);
        squares += pow((moved.angle_deg - angle_deg) / small * errors.tip_mm, 2);
        ck_near_or(one.angle_error_deg, sqrt(squares), 1e-4, 1e-9);
        if (tip_mm >= 0.01) {
            ck_near_or(two.angle_error_deg, sqrt(two_squares), 1e-4, 1e-9);
            ck_near_or(two.tip_error_mm, sqrt(tip_squares), 1e-4, 1e-9);
        }
        /* Deeper grooves tell the angle better. */
        runnel_trial deeper = {0};
        ck_assert_int_eq(runnel_trial_one(&lower, tip_mm, &errors, NULL, NULL, &deeper), RUNNEL_OK);
        ck_assert(deeper.angle_error_deg <= one.angle_error_deg);
    }
}
END_TEST

/* --- refusals --- */

static void refused(runnel_status status, runnel_status want, runnel_problems *problems,
                    const char *field, const char *text) {
    ck_assert_int_eq(status, want);
    ck_assert_uint_eq(problems->count, 1);
    ck_assert_int_eq(problems->items[0].status, want);
    ck_assert_str_eq(problems->items[0].field, field);
    ck_assert_str_eq(problems->items[0].text, text);
    runnel_problems_clear(problems);
}

START_TEST(readings_that_cannot_be) {
    runnel_trial_errors usual = runnel_trial_usual();
    runnel_trial trial = {.angle_deg = 7};
    runnel_problems problems;
    runnel_problems_init(&problems);
    static const struct {
        runnel_trial_cut cut;
        double tip_mm;
        const char *text;
    } one[] = {
        {{0.2, 4},
         0.2,
         "'0.2' mm is not wider than the tip of '0.2' mm: a V groove is; measure across the face, "
         "and check the depth and the tip"},
        {{0.1, 4},
         0.25,
         "'0.1' mm is not wider than the tip of '0.25' mm: a V groove is; measure across the face, "
         "and check the depth and the tip"},
        {{0.25, 0.1},
         0.2,
         "'0.25' mm is wider than the tip by less than can be measured: the tip has '0.2' mm; cut "
         "deeper"}};
    for (size_t i = 0; i < COUNT(one); i++)
        refused(runnel_trial_one(&one[i].cut, one[i].tip_mm, &usual, &problems, NULL, &trial),
                RUNNEL_E_CONFLICT, &problems, "width", one[i].text);
    static const struct {
        runnel_trial_cut upper, lower;
        const char *field, *text;
    } two[] = {{{3, 2},
                {3.1, 2.05},
                "depth",
                "'2' mm and '2.05' mm are nearer to each other than can be measured; cut one much "
                "deeper"},
               {{5, 2},
                {4, 6},
                "width",
                "'4' mm of the deeper groove is narrower than '5' mm of "
                "the other"},
               {{5, 2},
                {5.1, 6},
                "width",
                "'5' mm and '5.1' mm are nearer to each other than can be measured; cut one much "
                "deeper"}};
    for (size_t i = 0; i < COUNT(two); i++)
        for (int turned = 0; turned < 2; turned++)
            refused(runnel_trial_two(turned ? &two[i].lower : &two[i].upper,
                                     turned ? &two[i].upper : &two[i].lower, &usual, &problems,
                                     NULL, &trial),
                    RUNNEL_E_CONFLICT, &problems, two[i].field, two[i].text);
    ck_near(trial.angle_deg, 7, 0);
}
END_TEST

START_TEST(readings_that_are_none) {
    runnel_trial trial = {.angle_deg = 7};
    runnel_problems problems;
    runnel_problems_init(&problems);
    /* All at once, each with its place. */
    runnel_trial_cut none = {0, -1};
    runnel_trial_errors wrong = {-0.1, NAN, INFINITY};
    runnel_place place = {"bench.yaml", 3, 5, NULL};
    ck_assert_int_eq(runnel_trial_one(&none, -2, &wrong, &problems, &place, &trial),
                     RUNNEL_E_RANGE);
    static const char *const fields[] = {"width",       "depth",       "tip",
                                         "width error", "depth error", "tip error"};
    static const char *const texts[] = {"'0' mm must be above 0",     "'-1' mm must be above 0",
                                        "'-2' mm must be 0 or more",  "'-0.1' mm must be 0 or more",
                                        "'nan' mm must be 0 or more", "'inf' mm must be 0 or more"};
    ck_assert_uint_eq(problems.count, 6);
    for (size_t i = 0; i < 6; i++) {
        ck_assert_int_eq(problems.items[i].status, RUNNEL_E_RANGE);
        ck_assert_str_eq(problems.items[i].file, "bench.yaml");
        ck_assert_uint_eq(problems.items[i].line, 3);
        ck_assert_uint_eq(problems.items[i].column, 5);
        ck_assert_str_eq(problems.items[i].field, fields[i]);
        ck_assert_str_eq(problems.items[i].text, texts[i]);
    }
    runnel_problems_clear(&problems);
    place.field = "--trial";
    ck_assert_int_eq(runnel_trial_two(&none, &none, &exact, &problems, &place, &trial),
                     RUNNEL_E_RANGE);
    ck_assert_uint_eq(problems.count, 4);
    ck_assert_str_eq(problems.items[3].field, "--trial");
    runnel_problems_clear(&problems);
    static const double bad[] = {NAN, INFINITY, -INFINITY, 0};
    for (size_t i = 0; i < COUNT(bad); i++) {
        runnel_trial_cut wide = {bad[i], 1}, deep = {1, bad[i]}, fine = {9, 8};
        ck_assert_int_eq(runnel_trial_one(&wide, 0, &exact, NULL, NULL, &trial), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_trial_one(&deep, 0, &exact, NULL, NULL, &trial), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_trial_two(&wide, &fine, &exact, NULL, NULL, &trial),
                         RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_trial_two(&fine, &deep, &exact, NULL, NULL, &trial),
                         RUNNEL_E_RANGE);
    }
    ck_near(trial.angle_deg, 7, 0);
}
END_TEST

START_TEST(memory_that_runs_out) {
    /* The outcome stays the same when a message cannot be kept, and the list says so. */
    runnel_trial_cut none = {0, -1};
    for (size_t fail_at = 0; fail_at < 8; fail_at++) {
        failing count = {.fail_at = fail_at};
        runnel_problems problems;
        runnel_trial trial = {.angle_deg = 7};
        runnel_problems_init(&problems);
        start_failing(&count);
        ck_assert_int_eq(runnel_trial_one(&none, 0, &exact, &problems, NULL, &trial),
                         RUNNEL_E_RANGE);
        ck_assert_uint_eq(problems.count + problems.dropped, 2);
        runnel_problems_clear(&problems);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("trial");
    TCase *trial = tcase_create("trial");
    tcase_set_timeout(trial, 60); /* under valgrind too */
    tcase_add_test(trial, one_groove_worked_by_hand);
    tcase_add_test(trial, two_grooves_worked_by_hand);
    tcase_add_test(trial, a_tip_below_nothing);
    tcase_add_test(trial, unusual_cutters);
    tcase_add_test(trial, thousands_of_grooves);
    tcase_add_test(trial, readings_that_cannot_be);
    tcase_add_test(trial, readings_that_are_none);
    tcase_add_test(trial, memory_that_runs_out);
    suite_add_tcase(suite, trial);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
