/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "comma.h"
#include "planning.h"
#include "runnel/memory.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/*
 * Each warning raised and not raised, at its limits. Figures are worked by hand. Where the text
 * advises something, the job is planned again with it.
 */

#define RESIN "'table-top 2:1'"

/* A job that nothing is wrong with: three boards with a rectangle, some 44 g of resin. */
static void add_sound(double thickness_mm, const char *cutter, double limit_mm) {
    add_piece("sign", "hard maple", 300, 200, thickness_mm, 3);
    add_outline("rectangle 60 x 40 mm", cutter, limit_mm, NULL);
}

/* The cavity that was added last. */
static runnel_job_cavity *last(void) {
    runnel_job_piece *piece = &job.pieces[job.piece_count - 1];
    return &piece->cavities[piece->cavity_count - 1];
}

START_TEST(nothing_to_warn_of) {
    add_sound(25, "v 90 deg tip 0.2 mm", 5);
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.warning_count, 0);
}
END_TEST

/* ---- Shop -------------------------------------------------------------------------------------*/

START_TEST(too_cold) {
    add_sound(25, "v 90 deg", 5);
    job.shop_degc = 11.9;
    must_plan(RUNNEL_NOT_POSSIBLE);
    ck_assert_uint_eq(plan.warning_count, 1);
    ck_warned("too-cold", "shop",
              "11.9 °C is below the 12 °C that " RESIN " needs; below it no time can be told: warm "
              "the shop and the board, or take a resin for the cold");
    ck_assert(plan.batches[0].terms.total_mm3 > 0); /* a plan all the same */
    job.shop_degc = 12;
    must_plan(RUNNEL_OK);
    ck_not_warned("too-cold");
    job.shop_degc = -5;
    job.resin.lowest_degc = NAN; /* not stated */
    must_plan(RUNNEL_OK);
    ck_not_warned("too-cold");
}
END_TEST

START_TEST(damp) {
    add_sound(25, "v 90 deg", 5);
    job.humidity = 0.81;
    must_plan(RUNNEL_OK);
    ck_warned("damp", "shop",
              "81 % humidity: above 80 % hardeners tend to blush, a waxy film; wash it off with "
              "water before the next coat");
    job.humidity = 0.80;
    must_plan(RUNNEL_OK);
    ck_not_warned("damp");
    job.humidity = -1; /* not given */
    must_plan(RUNNEL_OK);
    ck_not_warned("damp");
}
END_TEST

/* ---- Depth ------------------------------------------------------------------------------------*/

/* 40 mm between walls at 60 degrees: 20/tan 30 = 34.641 mm. */
START_TEST(too_deep) {
    add_sound(38, "v 60 deg", 0);
    must_plan(RUNNEL_OK);
    ck_warned(
        "too-deep", "sign / cavity 1",
        "deepest 34.64 mm in a board of 38 mm leaves 3.36 mm of wood, not the 5 mm asked for; "
        "a depth limit of 33 mm fits");
    ck_not_warned("cuts-through");
    last()->depth_limit_mm = advised("too-deep", "depth limit of ");
    must_plan(RUNNEL_OK);
    ck_not_warned("too-deep");
    ck_assert(plan.cavities[0].figures.deepest_mm <= 38 - 5 + 1e-9);
}
END_TEST

START_TEST(too_deep_by_a_hair) {
    add_sound(8.1, "v 60 deg", 3.1); /* 8.1 - 5 is less than 3.1 in binary */
    must_plan(RUNNEL_OK);
    ck_not_warned("too-deep");
    last()->depth_limit_mm = 3.104;
    must_plan(RUNNEL_OK);
    ck_not_warned("too-deep");
    last()->depth_limit_mm = 3.11;
    must_plan(RUNNEL_OK);
    ck_warned(
        "too-deep", "sign / cavity 1",
        "deepest 3.11 mm in a board of 8.1 mm leaves 4.99 mm of wood, not the 5 mm asked for; "
        "a depth limit of 3.1 mm fits");
}
END_TEST

START_TEST(too_deep_along_a_path) {
    add_piece("sign", "hard maple", 300, 200, 12, 1);
    add_path("line 0,0 100,0 mm", "round-nose radius 3 mm", 8, NULL);
    must_plan(RUNNEL_OK);
    ck_warned("too-deep", "sign / cavity 1",
              "deepest 8 mm in a board of 12 mm leaves 4 mm of wood, not the 5 mm asked for; a "
              "depth of 7 mm fits");
    last()->depth_mm = advised("too-deep", "depth of ");
    must_plan(RUNNEL_OK);
    ck_not_warned("too-deep");
    job.floor_mm = 4;
    last()->depth_mm = 8;
    must_plan(RUNNEL_OK);
    ck_not_warned("too-deep");
}
END_TEST

START_TEST(board_too_thin) {
    add_sound(5, "v 60 deg", 2);
    must_plan(RUNNEL_OK);
    ck_warned("too-deep", "sign / cavity 1",
              "deepest 2 mm in a board of 5 mm leaves 3 mm of wood, not the 5 mm asked for; the "
              "board is too thin for any carving");
}
END_TEST

START_TEST(cuts_through) {
    add_sound(30, "v 60 deg", 0);
    must_plan(RUNNEL_NOT_POSSIBLE);
    ck_warned("cuts-through", "sign / cavity 1",
              "deepest 34.64 mm in a board of 30 mm leaves 0 mm of wood, not the 5 mm asked for; a "
              "depth limit of 25 mm fits");
    ck_not_warned("too-deep");
    last()->depth_limit_mm = 30; /* as deep as the board */
    must_plan(RUNNEL_NOT_POSSIBLE);
    last()->depth_limit_mm = 29.9;
    must_plan(RUNNEL_OK);
    ck_not_warned("cuts-through");
    ck_assert_ptr_nonnull(warned("too-deep"));
    last()->depth_limit_mm = 25;
    must_plan(RUNNEL_OK);
    ck_not_warned("too-deep");
    planning_again();
    add_sound(0, "v 60 deg", 0); /* nobody knows how thick: with no size */
    job.pieces[0].length_mm = job.pieces[0].width_mm = 0;
    must_plan(RUNNEL_OK);
    ck_not_warned("cuts-through");
}
END_TEST

/* A knot hole is as deep as it is; only where it goes through there is something to do. */
START_TEST(goes_through) {
    add_piece("sign", "hard maple", 300, 200, 25, 1);
    add_measured(20000, NULL)->measured_deepest_mm = 25;
    must_plan(RUNNEL_OK);
    ck_warned("goes-through", "sign / cavity 1",
              "25 mm deep in a board of 25 mm: close it from below, and seal its walls, before the "
              "pour");
    ck_not_warned("cuts-through");
    last()->measured_deepest_mm = 24;
    must_plan(RUNNEL_OK);
    ck_not_warned("goes-through");
    ck_not_warned("too-deep");
    last()->measured_deepest_mm = 0;
    must_plan(RUNNEL_OK);
    ck_not_warned("goes-through");
}
END_TEST

/* Block letters 60 mm high have strokes of 12 mm: 6/tan 30 = 10.392 mm deep. They are 7 mm deep at
 * a height of 70 tan 30 = 40.41 mm. */
START_TEST(letters_too_deep) {
    add_piece("sign", "hard maple", 300, 200, 12, 1);
    add_text("HIL", 60, "v 60 deg", 0, NULL);
    must_plan(RUNNEL_OK);
    ck_warned(
        "too-deep", "sign / cavity 1",
        "deepest 10.39 mm in a board of 12 mm leaves 1.61 mm of wood, not the 5 mm asked for; "
        "a depth limit of 7 mm fits, or a cap height of 40.4 mm");
    last()->cap_height_mm = advised("too-deep", "cap height of ");
    must_plan(RUNNEL_OK);
    ck_not_warned("too-deep");
    last()->cap_height_mm += 0.1;
    must_plan(RUNNEL_OK);
    ck_assert_ptr_nonnull(warned("too-deep"));
    last()->cap_height_mm = 60;
    last()->depth_limit_mm = 7;
    must_plan(RUNNEL_OK);
    ck_not_warned("too-deep");
}
END_TEST

/* A tip of 1 mm takes 0.5 mm of each side: (0.1 h - 0.5)/tan 30 = 7 at h = 45.41 mm; the height is
 * asked for as it was given. */
START_TEST(letters_too_deep_with_a_tip) {
    add_piece("sign", "hard maple", 300, 200, 12, 1);
    runnel_job_cavity *text = add_text("HIL", 0, "v 60 deg tip 1 mm", 0, NULL);
    text->text_height_mm = 60;
    must_plan(RUNNEL_OK);
    ck_assert_ptr_nonnull(strstr(warned("too-deep")->text,
                                 "a depth limit of 7 mm fits, or a text height of 45.4 mm"));
    last()->text_height_mm = 45.4;
    must_plan(RUNNEL_OK);
    ck_not_warned("too-deep");
}
END_TEST

/* ---- Size -------------------------------------------------------------------------------------*/

/* Four blocks are 3 x 0.6 h + 0.2 h = 2 h wide and h high. */
START_TEST(too_wide) {
    add_piece("sign", "hard maple", 150, 120, 0, 1)->thickness_mm = 80;
    add_text("HOLM", 100, "v 60 deg", 5, NULL);
    must_plan(RUNNEL_NOT_POSSIBLE);
    ck_warned("too-wide", "sign / cavity 1",
              "200 x 100 mm does not fit on a piece of 150 x 120 mm; a cap height of 75 mm fits "
              "without any border");
    last()->cap_height_mm = advised("too-wide", "cap height of ");
    must_plan(RUNNEL_OK);
    ck_not_warned("too-wide");
    last()->cap_height_mm += 0.1;
    must_plan(RUNNEL_NOT_POSSIBLE);
}
END_TEST

/* Letters that do not fit, and the height that is advised. */
static const struct {
    const char *text;
    bool single_line;
    double height_mm, spacing_mm, length_mm, width_mm, advised_mm;
} wide[] = {
    {"HOLM", false, 100, 5, 150, 120, 67.5},  /* 2 h + 15 = 150 */
    {"HOLM", false, 100, -5, 150, 120, 82.5}, /* 2 h - 15 = 150 */
    {"H\nH", false, 60, 0, 300, 100, 40},     /* 2.5 h = 100 */
    {"HO", false, 30, 0, 30, 25, 25},         /* letters are not turned */
    {"HOLM", true, 100, 0, 150, 120, 81.1},   /* 1.8 h and the groove's 4 mm */
    {"HOLM", true, 100, 20, 100, 120, 20},    /* 1.8 h + 60 + 4 = 100 */
    {"HOLM", false, 100, 60, 100, 120, 0},    /* the spacing alone is more */
};

START_TEST(letters_too_wide) {
    add_piece("sign", "hard maple", wide[_i].length_mm, wide[_i].width_mm, 80, 1);
    runnel_job_cavity *text = add_text(wide[_i].text, wide[_i].height_mm, "v 90 deg", 0, NULL);
    text->single_line = wide[_i].single_line;
    text->spacing_mm = wide[_i].spacing_mm;
    if (wide[_i].single_line)
        text->depth_mm = 2;
    must_plan(RUNNEL_NOT_POSSIBLE);
    ck_assert_ptr_nonnull(warned("too-wide"));
    if (wide[_i].advised_mm == 0) {
        ck_assert_ptr_null(strstr(warned("too-wide")->text, "height"));
        return;
    }
    double height_mm = advised("too-wide", "cap height of ");
    ck_assert(height_mm <= wide[_i].advised_mm + 1e-9 && height_mm > 0.95 * wide[_i].advised_mm);
    if (wide[_i].spacing_mm >= 0)
        ck_near(height_mm, wide[_i].advised_mm, 1e-12);
    last()->cap_height_mm = height_mm;
    must_plan(RUNNEL_OK);
    ck_assert(plan.cavities[0].width_mm <= wide[_i].length_mm + 1e-9);
    ck_assert(plan.cavities[0].height_mm <= wide[_i].width_mm + 1e-9);
}
END_TEST

/* A drawing may be turned, and a border may be as long as the piece. */
static const struct {
    const char *outline;
    double length_mm, width_mm;
    const char *text;
} drawings[] = {
    {"rectangle 60 x 40 mm", 60, 40, NULL},
    {"rectangle 60 x 40 mm", 50, 70, NULL},
    {"rectangle 60 x 40 mm", 60, 39.996, NULL},
    {"rectangle 60 x 40 mm", 50, 50, "60 x 40 mm does not fit on a piece of 50 x 50 mm"},
    {"rectangle 60 x 40 mm", 100, 39.99, "60 x 40 mm does not fit on a piece of 100 x 39.99 mm"},
};

START_TEST(drawings_too_wide) {
    add_piece("sign", "hard maple", drawings[_i].length_mm, drawings[_i].width_mm, 25, 1);
    add_outline(drawings[_i].outline, "v 60 deg", 3, NULL);
    must_plan(drawings[_i].text ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK);
    if (drawings[_i].text)
        ck_warned("too-wide", "sign / cavity 1", drawings[_i].text);
    else
        ck_not_warned("too-wide");
}
END_TEST

/* ---- Strokes ----------------------------------------------------------------------------------*/

START_TEST(nothing_cut) {
    add_piece("sign", "hard maple", 300, 200, 25, 1);
    add_outline("rectangle 60 x 2 mm", "v 60 deg tip 0.9 mm", 0, NULL);
    must_plan(RUNNEL_OK);
    ck_not_warned("nothing-cut");
    last()->cut.cutter.tip_mm = 3;
    must_plan(RUNNEL_NOT_POSSIBLE);
    ck_warned("nothing-cut", "sign / cavity 1",
              "the cutter, 3 mm wide, enters no part of the shape, whose widest place is 2 mm");
    ck_not_warned("thin-strokes");
    ck_assert_uint_eq(plan.batch_count, 0); /* and nothing is mixed for it */
    ck_not_warned("small-batch");
    planning_again();
    add_piece("sign", "hard maple", 300, 200, 25, 1);
    add_outline("circle 5 mm", "flat diameter 6 mm", 3, NULL);
    must_plan(RUNNEL_NOT_POSSIBLE);
    ck_warned("nothing-cut", "sign / cavity 1",
              "the cutter, 6 mm wide, enters no part of the shape, whose widest place is 5 mm");
}
END_TEST

/*
 * Two squares 20 x 20 and a neck of 20 x 1 mm between them. A tip of 1.5 mm leaves of the neck 20
 * less two bulges, segments of the disc with a chord of 1: 0.75^2 asin(2/3) - 0.5 sqrt(0.3125) =
 * 0.1310; and of each of the 8 corners (1 - pi/4) 0.75^2 = 0.1207; together 20.70 mm2.
 */
START_TEST(thin_strokes) {
    static const char neck[] = "polygon 0,0 20,0 20,9.5 40,9.5 40,0 60,0 60,20 40,20 40,10.5 "
                               "20,10.5 20,20 0,20 mm";
    add_piece("sign", "hard maple", 300, 200, 25, 1);
    add_outline(neck, "v 90 deg tip 1.5 mm", 0, NULL);
    must_plan(RUNNEL_OK);
    const runnel_warning *thin = warned("thin-strokes");
    ck_assert_ptr_nonnull(thin);
    static const char begin[] = "1 place narrower than the cutter's 1.5 mm stays uncut, with sharp "
                                "corners 20.7 mm2 in all; the narrowest, 1 mm, is at x ";
    ck_assert_msg(strncmp(thin->text, begin, sizeof begin - 1) == 0, "%s", thin->text);
    double x_mm = advised("thin-strokes", "is at x ");
    ck_assert(x_mm >= 20 && x_mm <= 40);
    ck_near(advised("thin-strokes", " y "), 10, 1e-12);
    last()->cut.cutter.tip_mm = 0.95; /* enters; the sharp corners are not told */
    must_plan(RUNNEL_OK);
    ck_not_warned("thin-strokes");
}
END_TEST

/* The i is 0.05 x 20 = 1 mm wide and 0.6 x 20 mm behind the H. */
START_TEST(thin_letters) {
    add_piece("sign", "hard maple", 300, 200, 25, 1);
    add_text("Hi Hi", 20, "v 90 deg tip 1.5 mm", 0, NULL);
    must_plan(RUNNEL_OK);
    const runnel_warning *thin = warned("thin-strokes");
    ck_assert_ptr_nonnull(thin);
    ck_assert_msg(strstr(thin->text, "2 places narrower than the cutter's 1.5 mm stay uncut"), "%s",
                  thin->text);
    ck_assert_msg(strstr(thin->text, "the narrowest, 1 mm, is at 'i', x "), "%s", thin->text);
    double x_mm = advised("thin-strokes", "'i', x ");
    ck_assert(x_mm == 12.5 || x_mm == 48.5);
}
END_TEST

static const struct {
    double tip_mm;
    const char *text;
} tips[] = {
    {0, NULL},
    {0.05, NULL},
    {1, NULL},
    {0.01, "a tip flat of 0.01 mm (0.0004 in) is unusual; was it meant in the other unit?"},
    {1.5, "a tip flat of 1.5 mm (0.0591 in) is unusual; was it meant in the other unit?"},
};

START_TEST(odd_tip) {
    add_sound(25, "v 90 deg", 5);
    last()->cut.cutter.tip_mm = tips[_i].tip_mm;
    must_plan(RUNNEL_OK);
    if (tips[_i].text)
        ck_warned("odd-tip", "sign / cavity 1", tips[_i].text);
    else
        ck_not_warned("odd-tip");
}
END_TEST

START_TEST(odd_angle) {
    /* 179.9 and 1 deg are more than straight, 178.9 and 1 deg are not; 2 - 2 deg are nothing. */
    add_sound(25, "v 90 deg", 5);
    job.errors.angle_deg = 1;
    last()->cut.cutter.angle_deg = 178.9;
    must_plan(RUNNEL_OK);
    ck_not_warned("odd-angle");
    last()->cut.cutter.angle_deg = 179.9;
    must_plan(RUNNEL_OK);
    ck_warned(
        "odd-angle", "sign / cavity 1",
        "a V of 179.9 deg that may be off by 1 deg may be none at all: measure the cutter with a "
        "trial groove, and give its angle and its error");
    last()->cut.cutter.angle_deg = 2;
    job.errors.angle_deg = 2;
    must_plan(RUNNEL_OK);
    ck_assert_ptr_nonnull(warned("odd-angle"));
}
END_TEST

/* ---- Pour -------------------------------------------------------------------------------------*/

/* With a crown of 0.4 mm: 6 mm just fit, 6.4 and 6.9 mm go in two, 12.4 and 12.5 mm in three. 4 h
 * and 10 h at 25 degC are 1.430149 times as long at 20 degC (see test_rate.c): 343.24 min, told as
 * the next full minute, and 858.09 min, told as the one before. */
#define NEXT                                                                                       \
    " mm, each from 5 h 44 min on and, without sanding, until 14 h 18 min after the one before"
#define CROWN " deep and 0.4 mm of crown"

static const struct {
    double limit_mm, layer_mm;
    const char *text;
} layers[] = {
    {5.6, 6, NULL},
    {5.604, 6, NULL},
    {6, 6,
     "6 mm" CROWN ", but " RESIN " is poured at most 6 mm deep at once: pour 2 layers of 3.2" NEXT},
    {6.5, NAN, NULL},
    {6.5, 6,
     "6.5 mm" CROWN ", but " RESIN
     " is poured at most 6 mm deep at once: pour 2 layers of 3.45" NEXT},
    {12, 6,
     "12 mm" CROWN ", but " RESIN
     " is poured at most 6 mm deep at once: pour 3 layers of 4.13" NEXT},
    {12.1, 6,
     "12.1 mm" CROWN ", but " RESIN
     " is poured at most 6 mm deep at once: pour 3 layers of 4.17" NEXT},
};

START_TEST(layers_to_pour) {
    add_sound(25, "v 60 deg", layers[_i].limit_mm);
    job.resin.deepest_layer_mm = layers[_i].layer_mm;
    must_plan(RUNNEL_OK);
    if (layers[_i].text)
        ck_warned("layers", "sign / cavity 1", layers[_i].text);
    else
        ck_not_warned("layers");
}
END_TEST

START_TEST(soak_assumed) {
    add_piece("sign", NULL, 300, 200, 25, 1);
    add_outline("rectangle 60 x 40 mm", "v 90 deg", 5, NULL);
    must_plan(RUNNEL_OK);
    ck_warned("soak-assumed", "sign / cavity 1",
              "no wood is named: a soak of 60 ml per m2 of bare wall is assumed");
    job.sealed = true;
    must_plan(RUNNEL_OK);
    ck_warned("soak-assumed", "sign / cavity 1",
              "no wood is named: a soak of 8 ml per m2 of sealed wall is assumed");
    job.soak_mm = 0.02; /* told */
    must_plan(RUNNEL_OK);
    ck_not_warned("soak-assumed");
    job.soak_mm = -1;
    job.pieces[0].wood = text_for_job("white oak");
    must_plan(RUNNEL_OK);
    ck_not_warned("soak-assumed");
    planning_again();
    add_piece("sign", NULL, 300, 200, 25, 1);
    add_measured(10000, NULL); /* no wall that drinks */
    must_plan(RUNNEL_OK);
    ck_not_warned("soak-assumed");
}
END_TEST

/* ---- Texts in any locale ----------------------------------------------------------------------*/

START_TEST(decimal_point_in_every_locale) {
    comma_begin();
    add_sound(8.5, "v 60 deg", 4.25);
    must_plan(RUNNEL_OK);
    comma_end();
    ck_warned(
        "too-deep", "sign / cavity 1",
        "deepest 4.25 mm in a board of 8.5 mm leaves 4.25 mm of wood, not the 5 mm asked for; "
        "a depth limit of 3.5 mm fits");
}
END_TEST

/* A film hardly warms itself: common practice, below half a mm. */
START_TEST(thin_film) {
    add_piece("sign", "hard maple", 300, 200, 25, 1);
    add_path("line 0,0 40,0 mm", "flat diameter 3 mm", 0.49, NULL);
    must_plan(RUNNEL_OK);
    ck_warned("thin-film", "sign / cavity 1",
              "only 0.49 mm deep: so thin a film hardly warms itself and cures more slowly than is "
              "stated; give it longer before it is levelled");
    last()->depth_mm = 0.5;
    must_plan(RUNNEL_OK);
    ck_not_warned("thin-film");
}
END_TEST

/* 3 % of 10 mm are 0.3 mm, of the last layer only where there are several; less where the resin
 * shrinks less in all. */
START_TEST(dip) {
    add_piece("sign", "hard maple", 300, 200, 38, 1);
    add_path("line 0,0 40,0 mm", "flat diameter 3 mm", 10, NULL);
    job.resin.shrinkage = 0.05;
    job.resin.deepest_layer_mm = 20;
    job.crown_mm = 0.29;
    must_plan(RUNNEL_OK);
    ck_warned("dip", "sign / cavity 1",
              "as it hardens, resin over the deepest place may sink by 0.3 mm, which is more than "
              "the crown of 0.29 mm: pour it higher, in thinner layers, or plan a top-up");
    job.crown_mm = 0.3;
    must_plan(RUNNEL_OK);
    ck_not_warned("dip");
    job.crown_mm = 0.14; /* two layers of 5 mm and the crown: 0.15 mm */
    job.resin.deepest_layer_mm = 6;
    must_plan(RUNNEL_OK);
    ck_assert_ptr_nonnull(warned("dip"));
    job.crown_mm = 0.16;
    must_plan(RUNNEL_OK);
    ck_not_warned("dip");
    job.crown_mm = 0.14;
    job.resin.shrinkage = 0.01;
    must_plan(RUNNEL_OK);
    ck_not_warned("dip");
}
END_TEST

/* However long the names are, nothing of the text is lost. */
START_TEST(long_names) {
    char name[1001];
    memset(name, 'a', 1000);
    name[1000] = '\0';
    add_piece(name, "hard maple", 300, 200, 38, 1);
    add_outline("rectangle 60 x 40 mm", "v 60 deg", 0, NULL)->name = text_for_job(name);
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(strlen(warned("too-deep")->where), 2003);
    ck_assert_ptr_nonnull(strstr(warned("too-deep")->text, "a depth limit of 33 mm fits"));
}
END_TEST

static void add_tests(TCase *cases) {
    tcase_add_test(cases, nothing_to_warn_of);
    tcase_add_test(cases, too_cold);
    tcase_add_test(cases, damp);
    tcase_add_test(cases, too_deep);
    tcase_add_test(cases, too_deep_by_a_hair);
    tcase_add_test(cases, too_deep_along_a_path);
    tcase_add_test(cases, board_too_thin);
    tcase_add_test(cases, cuts_through);
    tcase_add_test(cases, goes_through);
    tcase_add_test(cases, letters_too_deep);
    tcase_add_test(cases, letters_too_deep_with_a_tip);
    tcase_add_test(cases, too_wide);
    tcase_add_test(cases, nothing_cut);
    tcase_add_test(cases, thin_strokes);
    tcase_add_test(cases, thin_letters);
    tcase_add_test(cases, soak_assumed);
    tcase_add_test(cases, decimal_point_in_every_locale);
    tcase_add_test(cases, long_names);
    tcase_add_test(cases, thin_film);
    tcase_add_test(cases, dip);
    tcase_add_loop_test(cases, letters_too_wide, 0, (int)(sizeof wide / sizeof *wide));
    tcase_add_loop_test(cases, drawings_too_wide, 0, (int)(sizeof drawings / sizeof *drawings));
    tcase_add_loop_test(cases, odd_tip, 0, (int)(sizeof tips / sizeof *tips));
    tcase_add_test(cases, odd_angle);
    tcase_add_loop_test(cases, layers_to_pour, 0, (int)(sizeof layers / sizeof *layers));
}

int main(void) {
    return planning_main("plan, warnings", add_tests);
}
