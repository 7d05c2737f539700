/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/level.h"
#include "solids.h"

#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static const double broken[] = {NAN, INFINITY, -INFINITY, -1};

/* ---- Standoff ------------------------------------------------------------------------------ */

START_TEST(what_lies_under_the_zero) {
    /* Paper of 75 to 80 g/m2 about 0.10 mm (published), to 0.11 from memory; masking tape 0.10 to
     * 0.15 from memory; ten layers measured as 1.31 mm make two of them 0.262 mm by hand. */
    static const struct {
        runnel_under_zero under;
        double likely, low, high;
        const char *source;
    } rows[] = {
        {{RUNNEL_UNDER_NOTHING, 0, 0, 0}, 0, 0, 0, "on the wood"},
        {{RUNNEL_UNDER_PAPER, 1, 0, 0}, 0.10, 0.10, 0.11, "0.004 in"},
        {{RUNNEL_UNDER_PAPER, 3, 0, 0}, 0.30, 0.30, 0.33, "0.004 in"},
        {{RUNNEL_UNDER_TAPE, 2, 0, 0}, 0.25, 0.20, 0.30, "measure a stack"},
        {{RUNNEL_UNDER_TAPE, 2, 1.31, 10}, 0.262, 0.262, 0.262, "measured"},
        {{RUNNEL_UNDER_PAPER, 4, 0.52, 5}, 0.416, 0.416, 0.416, "measured"},
        {{RUNNEL_UNDER_MEASURED, 0, 0.31, 1}, 0.31, 0.31, 0.31, "measured"},
        {{RUNNEL_UNDER_MEASURED, 3, 0.5, 5}, 0.3, 0.3, 0.3, "measured"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_standoff standoff = {0};
        ck_assert_int_eq(runnel_standoff_of(&rows[i].under, &standoff), RUNNEL_OK);
        ck_near(standoff.likely_mm, rows[i].likely, 1e-14);
        ck_near(standoff.low_mm, rows[i].low, 1e-14);
        ck_near(standoff.high_mm, rows[i].high, 1e-14);
        ck_assert_ptr_nonnull(strstr(standoff.source, rows[i].source));
    }
    /* 80 g/m2 of bulk 1.5 cm3/g: 120 um (printing glossary) */
    double thickness = NAN;
    ck_assert_int_eq(runnel_paper_mm(80, 1.5, &thickness), RUNNEL_OK);
    ck_near(thickness, 0.120, 1e-15);
}
END_TEST

START_TEST(standoff_refusals) {
    static const struct {
        runnel_under_zero under;
        runnel_status status;
    } rows[] = {
        {{RUNNEL_UNDER_PAPER, 0, 0, 0}, RUNNEL_E_RANGE},
        {{RUNNEL_UNDER_TAPE, 10001, 0, 0}, RUNNEL_E_RANGE},
        {{RUNNEL_UNDER_TAPE, 1, -1, 1}, RUNNEL_E_RANGE},
        {{RUNNEL_UNDER_TAPE, 1, NAN, 1}, RUNNEL_E_RANGE},
        {{RUNNEL_UNDER_TAPE, 1, INFINITY, 1}, RUNNEL_E_RANGE},
        {{RUNNEL_UNDER_TAPE, 1, 1, 0}, RUNNEL_E_RANGE},
        {{RUNNEL_UNDER_TAPE, 1, 1, 10001}, RUNNEL_E_RANGE},
        {{RUNNEL_UNDER_MEASURED, 1, 0, 0}, RUNNEL_E_MISSING},
        {{RUNNEL_UNDER_MEASURED, 0, 0, 0}, RUNNEL_E_MISSING},
        {{(runnel_under)99, 1, 0, 0}, RUNNEL_E_RANGE},
    };
    runnel_standoff standoff = {.likely_mm = 7};
    double thickness = 7;
    for (size_t i = 0; i < COUNT(rows); i++)
        ck_assert_int_eq(runnel_standoff_of(&rows[i].under, &standoff), rows[i].status);
    for (size_t i = 0; i < COUNT(broken); i++) {
        ck_assert_int_eq(runnel_paper_mm(broken[i], 1.5, &thickness), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_paper_mm(80, broken[i], &thickness), RUNNEL_E_RANGE);
    }
    ck_assert_int_eq(runnel_paper_mm(0, 1.5, &thickness), RUNNEL_E_RANGE);
    ck_near(standoff.likely_mm + thickness, 14, 0);
}
END_TEST

/* ---- The crown ----------------------------------------------------------------------------- */

static const struct {
    runnel_levelling in;    /* crown, standoff, pass, sand, high spot */
    runnel_level_steps out; /* cut, passes, each, left, sanded, face, scratch */
} crowns[] = {
    /* By hand. Crown 0.4 over two layers of tape (0.25): 0.15 in one pass of 0.3, 0.25 to sand. */
    {{0.4, 0.25, 0.3, 0, 0}, {0.15, 1, 0.15, 0.25, 0.25, 0, 0}},
    /* crown 1.3, one sheet: 1.2 in four passes of 0.3, and 0.05 off the wood with the paper */
    {{1.3, 0.1, 0.3, 0.05, 0}, {1.2, 4, 0.3, 0.1, 0.15, 0.05, 0}},
    /* 0.4 - 0.1 is three passes of 0.1, whatever the last bits say */
    {{0.4, 0.1, 0.1, 0, 0}, {0.3, 3, 0.1, 0.1, 0.1, 0, 0}},
    {{0.41, 0.1, 0.1, 0, 0}, {0.31, 4, 0.0775, 0.1, 0.1, 0, 0}},
    /* a crown below the standoff is not touched */
    {{0.2, 0.3, 0.5, 0.1, 0}, {0, 0, 0, 0.2, 0.3, 0.1, 0}},
    {{0, 0, 0.5, 0, 0}, {0, 0, 0, 0, 0, 0, 0}},
    /* 0.5 into the wood: 0.9 in two passes, nothing of the resin left */
    {{0.4, -0.5, 0.5, 0.1, 0}, {0.9, 2, 0.45, 0, 0.1, 0.6, 0}},
    /* a board 0.4 out of flat under 0.1 of paper is scratched 0.3 deep */
    {{0.5, 0.1, 0.5, 0, 0.4}, {0.4, 1, 0.4, 0.1, 0.1, 0, 0.3}},
    {{0.5, -0.2, 1, 0, 0.4}, {0.7, 1, 0.7, 0, 0, 0.2, 0.4}},
};

START_TEST(crown_comes_off) {
    runnel_level_steps steps = {0};
    ck_assert_int_eq(runnel_level_steps_of(&crowns[_i].in, &steps), RUNNEL_OK);
    ck_near_or(steps.cut_mm, crowns[_i].out.cut_mm, 1e-14, 1e-15);
    ck_assert_uint_eq(steps.passes, crowns[_i].out.passes);
    ck_near(steps.each_mm, crowns[_i].out.each_mm, 1e-14);
    ck_near(steps.left_mm, crowns[_i].out.left_mm, 1e-14);
    ck_near(steps.sanded_mm, crowns[_i].out.sanded_mm, 1e-14);
    ck_near(steps.face_mm, crowns[_i].out.face_mm, 1e-14);
    ck_near(steps.scratch_mm, crowns[_i].out.scratch_mm, 1e-14);
}
END_TEST

START_TEST(crown_properties) {
    chance c = {31};
    for (int i = 0; i < 3000; i++) {
        runnel_levelling l = {chance_between(&c, 0, 2), chance_between(&c, -1, 1),
                              chance_between(&c, 0.05, 1), chance_between(&c, 0, 0.3),
                              chance_between(&c, 0, 0.5)};
        runnel_level_steps s = {0};
        ck_assert_int_eq(runnel_level_steps_of(&l, &s), RUNNEL_OK);
        /* crown and wood: all is cut or sanded */
        ck_near_or(s.cut_mm + s.sanded_mm, l.crown_mm + s.face_mm, 1e-14, 1e-15);
        ck_assert(s.each_mm <= l.pass_mm * (1 + 2e-6));
        ck_assert(s.passes == 0 || (double)(s.passes - 1) * l.pass_mm < s.cut_mm);
        ck_assert(s.left_mm <= l.crown_mm && s.left_mm >= 0);
    }
}
END_TEST

START_TEST(crown_refusals) {
    const runnel_levelling good = {0.4, 0.1, 0.1, 0, 0};
    runnel_level_steps steps = {.cut_mm = 7};
    for (size_t i = 0; i < COUNT(broken); i++)
        for (int field = 0; field < 5; field++) {
            runnel_levelling bad = good;
            double *fields[] = {&bad.crown_mm, &bad.standoff_mm, &bad.pass_mm, &bad.sand_mm,
                                &bad.high_spot_mm};
            *fields[field] = broken[i];
            if (field == 1 && broken[i] == -1)
                continue;
            ck_assert_int_eq(runnel_level_steps_of(&bad, &steps), RUNNEL_E_RANGE);
        }
    runnel_levelling bad = good;
    bad.pass_mm = 0;
    ck_assert_int_eq(runnel_level_steps_of(&bad, &steps), RUNNEL_E_RANGE);
    bad.pass_mm = 1e-6;
    ck_assert_int_eq(runnel_level_steps_of(&bad, &steps), RUNNEL_E_RANGE);
    ck_near(steps.cut_mm, 7, 0);
}
END_TEST

/* ---- Passes -------------------------------------------------------------------------------- */

START_TEST(passes_and_ridges) {
    size_t count = 0;
    double value = NAN;
    /* Counted: 5 mm by 2 is 3; 300 wide, cutter 25, lines 17.5 apart is ceil(275/17.5) + 1 = 17. */
    ck_assert_int_eq(runnel_depth_passes(5, 2, &count), RUNNEL_OK);
    ck_assert_uint_eq(count, 3);
    ck_assert_int_eq(runnel_depth_passes(0, 2, &count), RUNNEL_OK);
    ck_assert_uint_eq(count, 0);
    ck_assert_int_eq(runnel_surfacing_lines(300, 25, 17.5, &count), RUNNEL_OK);
    ck_assert_uint_eq(count, 17);
    ck_assert_int_eq(runnel_surfacing_lines(20, 25, 17.5, &count), RUNNEL_OK);
    ck_assert_uint_eq(count, 1);
    ck_assert_int_eq(runnel_surfacing_lines(50, 25, 25, &count), RUNNEL_OK);
    ck_assert_uint_eq(count, 2);
    /* Ridge of a round nose by geometry, radius and step. */
    static const double scallops[][3] = {
        {3, 0.5, 0.0104348}, {3, 1, 0.0419601}, {6, 2, 0.0839202}, {12.7, 5, 0.2484941}};
    for (size_t i = 0; i < COUNT(scallops); i++) {
        double step = NAN;
        ck_assert_int_eq(runnel_scallop_mm(scallops[i][0], scallops[i][1], &value), RUNNEL_OK);
        ck_near_or(value, scallops[i][2], 0, 6e-8);
        ck_assert_int_eq(runnel_scallop_step_mm(scallops[i][0], value, &step), RUNNEL_OK);
        ck_near(step, scallops[i][1], 1e-13);
    }
    ck_assert_int_eq(runnel_scallop_step_mm(3, 0.05, &value), RUNNEL_OK);
    ck_near_or(value, 1.09087, 0, 6e-6);
    ck_assert_int_eq(runnel_scallop_mm(3, 6, &value), RUNNEL_OK);
    ck_near(value, 3, 1e-15);
    ck_assert_int_eq(runnel_ridge_mm(60, 1, &value), RUNNEL_OK);
    ck_near_or(value, 0.8660254, 0, 6e-8);
}
END_TEST

START_TEST(passes_refusals) {
    size_t count = 7;
    double value = 7;
    for (size_t i = 0; i < COUNT(broken); i++) {
        double b = broken[i];
        ck_assert_int_eq(runnel_depth_passes(b, 1, &count), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_depth_passes(1, b, &count), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_surfacing_lines(b, 25, 10, &count), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_surfacing_lines(300, b, 10, &count), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_surfacing_lines(300, 25, b, &count), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_scallop_mm(b, 1, &value), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_scallop_mm(3, b, &value), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_scallop_step_mm(b, 1, &value), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_scallop_step_mm(3, b, &value), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_ridge_mm(b, 1, &value), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_ridge_mm(60, b, &value), RUNNEL_E_RANGE);
    }
    ck_assert_int_eq(runnel_depth_passes(1, 0, &count), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_depth_passes(1e9, 1, &count), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_surfacing_lines(300, 25, 26, &count), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_scallop_mm(3, 6.1, &value), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_scallop_step_mm(3, 3.1, &value), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_ridge_mm(180, 1, &value), RUNNEL_E_RANGE);
    ck_assert_uint_eq(count, 7);
    ck_near(value, 7, 0);
}
END_TEST

/* ---- Narrowing ----------------------------------------------------------------------------- */

START_TEST(half_a_millimetre_off_the_face) {
    /* 2 x 0.5 x tan(half the angle): 60 degrees 0.58, 90 degrees 1.0, 30 degrees 0.27 mm. */
    static const double rows[][2] = {{60, 0.577350}, {90, 1}, {30, 0.267949}};
    double narrowing = NAN, gone = NAN;
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_cut cut = walls(rows[i][0], 0);
        ck_assert_int_eq(runnel_level_narrowing(&cut, 0.5, &narrowing), RUNNEL_OK);
        ck_near_or(narrowing, rows[i][1], 0, 6e-7);
    }
    /* A hairline of 0.8 mm at 60 degrees is gone at 0.8/(2 x 0.57735) = 0.69282; with a tip of 0.2
     * at 0.6/(2 x 0.57735) = 0.51962. */
    runnel_cutter v = v_cutter(60, 0);
    ck_assert_int_eq(runnel_level_gone_mm(&v, 0.8, &gone), RUNNEL_OK);
    ck_near_or(gone, 0.69282, 0, 6e-6);
    v.tip_mm = 0.2;
    ck_assert_int_eq(runnel_level_gone_mm(&v, 0.8, &gone), RUNNEL_OK);
    ck_near_or(gone, 0.51962, 0, 6e-6);
    ck_assert_int_eq(runnel_level_gone_mm(&v, 0.1, &gone), RUNNEL_OK);
    ck_near(gone, 0, 0);
    /* A round nose of 3 mm: 2 mm deep it is 5.6568542 wide, 1.2 mm deep 4.8; above the ball
     * nothing changes, nor with a flat end. */
    runnel_cut groove = along(round_nose(3), 2);
    ck_assert_int_eq(runnel_level_narrowing(&groove, 0.8, &narrowing), RUNNEL_OK);
    ck_near_or(narrowing, 0.8568542, 0, 6e-8);
    groove.depth_mm = 8;
    ck_assert_int_eq(runnel_level_narrowing(&groove, 4.9, &narrowing), RUNNEL_OK);
    ck_near(narrowing, 0, 0);
    runnel_cut slot = pocket(flat_end(3), 4);
    ck_assert_int_eq(runnel_level_narrowing(&slot, 3.9, &narrowing), RUNNEL_OK);
    ck_near(narrowing, 0, 0);
    runnel_cut v_groove = along(v_cutter(90, 0.3), 4);
    ck_assert_int_eq(runnel_level_narrowing(&v_groove, 1, &narrowing), RUNNEL_OK);
    ck_near(narrowing, 2, 1e-15);
}
END_TEST

START_TEST(narrowing_refusals) {
    double value = 7;
    runnel_cutter v = v_cutter(60, 0), flat = flat_end(3);
    const runnel_cut bad[] = {walls(0, 0),
                              walls(180, 0),
                              walls(NAN, 0),
                              along(v_cutter(60, 0), 0.5),
                              along(round_nose(3), 0.5),
                              along(round_nose(3), INFINITY),
                              along(round_nose(NAN), 5),
                              pocket(flat_end(0), 5),
                              {flat_end(3), RUNNEL_CUT_WALLS, 5}};
    for (size_t i = 0; i < COUNT(bad); i++)
        ck_assert_int_eq(runnel_level_narrowing(&bad[i], 0.5, &value), RUNNEL_E_RANGE);
    runnel_cut good = walls(60, 0);
    for (size_t i = 0; i < COUNT(broken); i++) {
        ck_assert_int_eq(runnel_level_narrowing(&good, broken[i], &value), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_level_gone_mm(&v, broken[i], &value), RUNNEL_E_RANGE);
        runnel_cutter tip = v_cutter(60, broken[i]), angle = v_cutter(broken[i], 0);
        ck_assert_int_eq(runnel_level_gone_mm(&tip, 1, &value), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_level_gone_mm(&angle, 1, &value), RUNNEL_E_RANGE);
    }
    ck_assert_int_eq(runnel_level_gone_mm(&flat, 1, &value), RUNNEL_E_RANGE);
    ck_near(value, 7, 0);
}
END_TEST

/* ---- Veneer -------------------------------------------------------------------------------- */

START_TEST(veneers) {
    /* Usual veneers are 0.3 to 0.6 mm (common practice). */
    static const struct {
        double face, veneer;
        runnel_veneer verdict;
        double left;
    } rows[] = {{0.1, 0, RUNNEL_VENEER_KEPT, 0.2},     {0.3, 0, RUNNEL_VENEER_DOUBTFUL, 0},
                {0.5, 0, RUNNEL_VENEER_DOUBTFUL, 0},   {0.6, 0, RUNNEL_VENEER_THROUGH, 0},
                {0.5, 0.55, RUNNEL_VENEER_KEPT, 0.05}, {0.55, 0.55, RUNNEL_VENEER_THROUGH, 0},
                {0, 0, RUNNEL_VENEER_KEPT, 0.3}};
    runnel_veneer verdict = RUNNEL_VENEER_KEPT;
    double left = NAN;
    for (size_t i = 0; i < COUNT(rows); i++) {
        ck_assert_int_eq(runnel_veneer_check(rows[i].face, rows[i].veneer, &verdict, &left),
                         RUNNEL_OK);
        ck_assert_int_eq(verdict, rows[i].verdict);
        ck_near_or(left, rows[i].left, 1e-12, 1e-15);
    }
    left = 7;
    for (size_t i = 0; i < COUNT(broken); i++) {
        ck_assert_int_eq(runnel_veneer_check(broken[i], 0.5, &verdict, &left), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_veneer_check(0.1, broken[i], &verdict, &left), RUNNEL_E_RANGE);
    }
    ck_near(left, 7, 0);
}
END_TEST

int main(void) {
    const TTest *const tests[] = {what_lies_under_the_zero,
                                  standoff_refusals,
                                  crown_properties,
                                  crown_refusals,
                                  passes_and_ridges,
                                  passes_refusals,
                                  half_a_millimetre_off_the_face,
                                  narrowing_refusals,
                                  veneers};
    Suite *suite = suite_create("level");
    TCase *cases = tcase_create("level");
    tcase_add_loop_test(cases, crown_comes_off, 0, (int)COUNT(crowns));
    for (size_t i = 0; i < COUNT(tests); i++)
        tcase_add_test(cases, tests[i]);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
