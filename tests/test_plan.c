/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "planning.h"
#include "runnel/lettering.h"
#include "runnel/memory.h"
#include "runnel/read.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define COUNT(table) (sizeof(table) / sizeof *(table))
#define PI           3.14159265358979323846

static const runnel_plan_cavity *cavity(size_t index) {
    ck_assert_uint_lt(index, plan.cavity_count);
    return &plan.cavities[index];
}

static const runnel_plan_batch *batch(size_t index) {
    ck_assert_uint_lt(index, plan.batch_count);
    return &plan.batches[index];
}

/* ---- One board, worked by hand ----------------------------------------------------------------*/

/*
 * Three boards of maple with a rectangle 60 x 40 mm, V 90 degrees, limit 5 mm. Worked by hand: the
 * section at z is (60 - 2z)(40 - 2z), so the volume is 2400 5 - 200 25/2 + 4 125/3; the slopes
 * stand over 2400 - 50 x 30 = 900 mm2 and are sqrt 2 times as large, the floor is 1500 mm2.
 */
static void add_three_boards(void) {
    add_piece("board", "hard maple", 300, 200, 25, 3);
    add_outline("rectangle 60 x 40 mm", "v 90 deg", 5, "amber");
    job.cup.fixed_loss_g = 4;
    must_plan(RUNNEL_OK);
}

START_TEST(cavities_are_of_one_piece) {
    add_three_boards();
    ck_assert_uint_eq(plan.cavity_count, 1);
    ck_assert_str_eq(cavity(0)->name, "cavity 1");
    ck_assert_str_eq(cavity(0)->piece, "board");
    ck_assert_str_eq(cavity(0)->colour, "amber");
    ck_assert_uint_eq(cavity(0)->piece_count, 3);
    ck_assert(!cavity(0)->measured);
    ck_assert_ptr_null(cavity(0)->font_file);
    ck_near(cavity(0)->figures.volume_mm3, 9666.6666666666667, 1e-12);
    ck_near(cavity(0)->figures.footprint_mm2, 2400, 1e-12);
    ck_near(cavity(0)->figures.wall_mm2, 2772.7922061357857, 1e-12); /* 900 sqrt 2 + 1500 */
    ck_near(cavity(0)->figures.deepest_mm, 5, 1e-12);
    ck_near(cavity(0)->margin_mm2, 203.14159265358979, 1e-12); /* 200 x 1 + pi */
    ck_near(cavity(0)->width_mm, 60, 1e-12);
    ck_near(cavity(0)->height_mm, 40, 1e-12);
}
END_TEST

/* Each term by the formulas of runnel/resin.h, by hand: crown 0.4 mm on 3 (2400 + 200 + pi);
 * shrinkage 2 % of the liquid; 0.04 mm of soak on three walls; 10 % reserve; 4 g at 1.09 g/ml. */
START_TEST(batches_count_the_pieces) {
    add_three_boards();
    ck_assert_uint_eq(plan.batch_count, 1);
    const runnel_terms *t = &batch(0)->terms;
    ck_assert_str_eq(batch(0)->colour, "amber");
    ck_near(t->cavity_mm3, 29000, 1e-12);
    ck_near(t->crown_mm3, 3123.7699111843078, 1e-12);
    ck_near(t->shrinkage_mm3, 655.58714104457771, 1e-12);
    ck_near(t->soak_mm3, 332.73506473629427, 1e-12);
    ck_near(t->reserve_mm3, 3311.209211696518, 1e-12);
    ck_near(t->cup_loss_mm3, 3669.7247706422018, 1e-12);
    ck_near(t->total_mm3, 40093.026099303900, 1e-12);
    ck_near(plan.mixture.density_g_per_ml, 1.09, 1e-15); /* (2 x 1.16 + 0.95)/3 */
}
END_TEST

/* 40.093 ml at 1.09 g/ml are 43.7014 g: of A 2.32/3.27, 31.0052 g, of B 12.6962 g. */
START_TEST(batches_are_weighed) {
    add_three_boards();
    const runnel_weighing *w = &batch(0)->weighing;
    ck_assert(w->part_a_g >= 31.0052 && w->part_a_g <= 31.0052 * 1.02);
    ck_assert(w->part_b_g >= 12.6962 && w->part_b_g <= 12.6962 * 1.02);
    ck_near(w->part_a_g * 10, round(w->part_a_g * 10), 1e-14); /* the scale's steps */
    ck_near(w->part_b_g * 10, round(w->part_b_g * 10), 1e-14);
    ck_near(w->total_g, w->part_a_g + w->part_b_g, 1e-15);
    ck_near(batch(0)->tint, 0.02, 0); /* the resin's */
    ck_near_or(w->tint_g, 0.02 * w->total_g, 0, 0.05);
    /* A cup of 70 mm has a floor of 1225 pi mm2. */
    ck_near(batch(0)->charge_height_mm, w->total_ml * 1000 / (1225 * PI), 1e-14);
}
END_TEST

/* ---- Crown and its margin ---------------------------------------------------------------------*/

/* Footprints by hand. Bands by Steiner's formula for what bulges outwards, perimeter x margin + pi
 * margin^2; the inside of a ring by its circles. */
static const struct {
    bool is_path;
    const char *form, *cutter;
    double depth_mm, margin_mm, footprint_mm2, band_mm2;
} crowns[] = {
    {false, "rectangle 60 x 40 mm", "v 90 deg", 5, 1, 2400, 200 + PI},
    {false, "rectangle 60 x 40 mm", "v 90 deg", 5, 2.5, 2400, 500 + 6.25 * PI},
    {false, "circle 40 mm", "flat diameter 6 mm", 4, 1, 400 * PI, 41 * PI},
    {false, "rounded rectangle 60 x 40 r 10 mm", "flat diameter 6 mm", 4, 1, 2400 - (4 - PI) * 100,
     120 + 21 * PI},
    {true, "line 0,0 100,0 mm", "round-nose radius 3 mm", 3, 1, 600 + 9 * PI, 200 + 7 * PI},
    {true, "line 0,0 60,80 mm", "v 90 deg", 3, 2, 600 + 9 * PI, 2 * (200 + 6 * PI) + 4 * PI},
    {true, "circle 60 mm", "round-nose radius 3 mm", 3, 1, 360 * PI, 67 * PI + 53 * PI},
    {false, "circle 40 mm", "v 60 deg", 0, 0, 400 * PI, 0},
};

START_TEST(crown_with_margin) {
    for (int i = 0; i < 2; i++) {
        planning_again();
        job.crown_mm = i == 0 ? 0.4 : 0;
        job.margin_mm = crowns[_i].margin_mm;
        add_piece("p", "hard maple", 0, 0, 0, 2);
        if (crowns[_i].is_path)
            add_path(crowns[_i].form, crowns[_i].cutter, crowns[_i].depth_mm, NULL);
        else
            add_outline(crowns[_i].form, crowns[_i].cutter, crowns[_i].depth_mm, NULL);
        must_plan(RUNNEL_OK);
        double band = job.crown_mm > 0 ? crowns[_i].band_mm2 : 0;
        ck_near(cavity(0)->figures.footprint_mm2, crowns[_i].footprint_mm2, 1e-12);
        ck_near(cavity(0)->margin_mm2, band, 1e-11); /* a difference of areas */
        ck_near(batch(0)->terms.crown_mm3, job.crown_mm * 2 * (crowns[_i].footprint_mm2 + band),
                1e-12);
    }
}
END_TEST

/* ---- Size at the face -------------------------------------------------------------------------*/

/* By hand: an outline is as large as its box, a groove larger by the cutter's width at the face. */
START_TEST(size_at_the_face) {
    add_piece("p", "hard maple", 0, 0, 0, 1);
    add_path("line 0,0 30,40 mm", "round-nose radius 3 mm", 2, NULL); /* half width sqrt(9 - 1) */
    add_path("rectangle 60 x 40 mm", "flat diameter 4 mm", 2, NULL);
    add_outline("ellipse 60 x 40 mm", "flat diameter 4 mm", 2, NULL);
    add_text("HI\nH", 10, "v 60 deg", 0, NULL)->spacing_mm = 0.5;
    must_plan(RUNNEL_OK);
    ck_near(cavity(0)->width_mm, 30 + 2 * 2.8284271247461903, 1e-14);
    ck_near(cavity(0)->height_mm, 40 + 2 * 2.8284271247461903, 1e-14);
    ck_near(cavity(1)->width_mm, 64, 1e-14);
    ck_near(cavity(1)->height_mm, 44, 1e-14);
    ck_near_or(cavity(2)->width_mm, 60, 0, 2 * 0.001);
    ck_near_or(cavity(2)->height_mm, 40, 0, 2 * 0.001);
    ck_near(cavity(3)->width_mm, 6.5 + 2, 1e-14);
    ck_near(cavity(3)->height_mm, 25, 1e-14);
    ck_assert_str_eq(cavity(3)->font_file, "/fonts/blocks");
}
END_TEST

/* ---- What is lost -----------------------------------------------------------------------------*/

/* Wall film of Jeffreys: thickness sqrt(mu z/(rho g t)), in mean 2/3 of that at the height of the
 * charge; the floor as thick as the wall there. Put together anew, in SI units. */
static double film_mm3(double charge_mm3, double diameter_mm, double viscosity, double kg_per_m3,
                       double drain_s) {
    double diameter = diameter_mm / 1000, charge = charge_mm3 * 1e-9;
    double floor = PI / 4 * diameter * diameter, height = charge / floor;
    double film = sqrt(viscosity * height / (kg_per_m3 * 9.80665 * drain_s));
    return (2.0 / 3 * film * PI * diameter * height + film * floor) * 1e9;
}

START_TEST(film_in_the_cup) {
    add_piece("p", "hard maple", 0, 0, 0, 1);
    add_outline("rectangle 60 x 40 mm", "v 90 deg", 5, NULL);
    must_plan(RUNNEL_OK);
    const runnel_terms *t = &batch(0)->terms;
    ck_near(t->cup_loss_mm3, film_mm3(t->total_mm3, 70, 1.5, 1090, 60), 1e-9); /* solved */
    ck_assert(t->cup_loss_mm3 > 100);
}
END_TEST

START_TEST(terms_add_up) {
    add_piece("p", "hard maple", 0, 0, 0, 7);
    add_outline("circle 30 mm", "v 60 deg", 3, "red");
    add_path("circle 50 mm", "round-nose radius 2 mm", 2, "red");
    add_measured(1234, "blue");
    must_plan(RUNNEL_OK);
    for (size_t i = 0; i < 2; i++) {
        const runnel_terms *t = &batch(i)->terms;
        double poured = t->cavity_mm3 + t->crown_mm3 + t->shrinkage_mm3 + t->soak_mm3;
        ck_near(t->reserve_mm3, 0.1 * poured, 1e-14);
        ck_near(t->shrinkage_mm3, (t->cavity_mm3 + t->crown_mm3) * 0.02 / 0.98, 1e-14);
        ck_near(t->total_mm3, poured + t->reserve_mm3 + t->cup_loss_mm3, 1e-14);
    }
    ck_near(batch(1)->terms.cavity_mm3, 7 * 1234, 0);
}
END_TEST

START_TEST(errors_add_up) {
    add_piece("p", "hard maple", 0, 0, 0, 3);
    add_outline("ellipse 60 x 40 mm", "flat diameter 6 mm", 4, NULL);
    add_outline("ellipse 50 x 20 mm", "v 60 deg", 0, NULL);
    must_plan(RUNNEL_OK);
    /* pi/4 60 40 4: the chords lie inside, by no more than is told. */
    double exact = 2400 * PI, got = cavity(0)->figures.volume_mm3;
    ck_assert(got < exact && exact - got <= cavity(0)->figures.volume_error_mm3);
    ck_assert(cavity(0)->figures.volume_error_mm3 < 1); /* perimeter 159 mm x 0.001 mm x 4 mm */
    ck_near(batch(0)->volume_error_mm3,
            3 * (cavity(0)->figures.volume_error_mm3 + cavity(1)->figures.volume_error_mm3), 1e-14);
}
END_TEST

START_TEST(sections_by_step) {
    job.section_step_mm = 2;
    add_piece("p", "hard maple", 0, 0, 0, 1);
    add_outline("rectangle 60 x 40 mm", "v 90 deg", 5, NULL);
    add_measured(1000, NULL);
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(cavity(0)->section_count, 3);
    const double areas[] = {2400, 56 * 36, 52 * 32}; /* (60 - 2z)(40 - 2z) */
    for (size_t i = 0; i < 3; i++) {
        ck_near(cavity(0)->sections[i].level_mm, 2.0 * (double)i, 0);
        ck_near(cavity(0)->sections[i].area_mm2, areas[i], 1e-12);
    }
    ck_assert_ptr_null(cavity(1)->sections);
}
END_TEST

/* ---- Colours ----------------------------------------------------------------------------------*/

START_TEST(colours_in_order_of_first_use) {
    runnel_job_colour *listed; /* the order of the list does not count */
    ck_assert_int_eq(runnel_job_colour_named(&job, "slate", &listed), RUNNEL_OK);
    ck_assert_int_eq(runnel_job_colour_named(&job, "amber", &listed), RUNNEL_OK);
    add_piece("one", "hard maple", 0, 0, 0, 2);
    add_measured(100, "amber");
    add_measured(20, NULL);
    add_measured(7, "slate");
    add_piece("two", "hard maple", 0, 0, 0, 5);
    add_measured(3, "slate");
    add_measured(1000, "amber");
    add_measured(400, "Amber"); /* another name */
    must_plan(RUNNEL_OK);
    static const struct {
        const char *colour;
        double cavity_mm3;
    } wanted[] = {{"amber", 5200}, {"clear", 40}, {"slate", 29}, {"Amber", 2000}};
    ck_assert_uint_eq(plan.batch_count, COUNT(wanted));
    for (size_t i = 0; i < COUNT(wanted); i++) {
        ck_assert_str_eq(batch(i)->colour, wanted[i].colour);
        ck_near(batch(i)->terms.cavity_mm3, wanted[i].cavity_mm3, 0);
    }
}
END_TEST

START_TEST(tints) {
    runnel_job_colour *colour;
    ck_assert_int_eq(runnel_job_colour_named(&job, "amber", &colour), RUNNEL_OK);
    colour->tint = 0.035;
    ck_assert_int_eq(runnel_job_colour_named(&job, "water", &colour), RUNNEL_OK);
    colour->tint = 0;
    add_piece("p", "hard maple", 0, 0, 0, 1);
    add_measured(20000, "amber");
    add_measured(20000, "red");
    add_measured(20000, "water");
    add_measured(20000, "clear");
    must_plan(RUNNEL_OK);
    static const double wanted[] = {0.035, 0.02, 0, 0}; /* own, the resin's, none, none */
    for (size_t i = 0; i < 4; i++) {
        ck_near(batch(i)->tint, wanted[i], 0);
        ck_near_or(batch(i)->weighing.tint_g, wanted[i] * batch(i)->weighing.total_g, 0, 0.05);
    }
    planning_again();
    ck_assert_int_eq(runnel_job_colour_named(&job, "clear", &colour), RUNNEL_OK);
    colour->tint = 0.01;
    add_piece("p", "hard maple", 0, 0, 0, 1);
    add_measured(20000, NULL);
    must_plan(RUNNEL_OK);
    ck_near(batch(0)->tint, 0.01, 0); /* even clear, when it is listed */
}
END_TEST

/* ---- Soak -------------------------------------------------------------------------------------*/

/* 1 ml/m2 is 0.001 mm. The figures of the woods are those of planning_tables, those without a wood
 * those of a middling one (60 bare and 8 sealed, from memory of the trade). */
static const struct {
    const char *wood;
    bool sealed;
    double override_mm, soak_mm;
} soaks[] = {
    {"hard maple", false, -1, 0.040}, {"hard maple", true, -1, 0.005},
    {"White Oak", false, -1, 0.080},  {"white oak", true, -1, 0.008},
    {NULL, false, -1, 0.060},         {NULL, true, -1, 0.008},
    {"hard maple", false, 0.1, 0.1},  {NULL, true, 0.1, 0.1},
    {"hard maple", false, 0, 0},
};

START_TEST(soak) {
    job.sealed = soaks[_i].sealed;
    job.soak_mm = soaks[_i].override_mm;
    add_piece("p", soaks[_i].wood, 0, 0, 0, 4);
    add_measured(100, NULL)->measured_wall_mm2 = 5000;
    add_measured(100, NULL); /* no wall told: nothing is drunk */
    must_plan(RUNNEL_OK);
    ck_near(batch(0)->terms.soak_mm3, 4 * 5000 * soaks[_i].soak_mm, 1e-15);
}
END_TEST

START_TEST(soak_of_two_woods_in_one_batch) {
    add_piece("a", "hard maple", 0, 0, 0, 2);
    add_measured(100, NULL)->measured_wall_mm2 = 1000;
    add_piece("b", "white oak", 0, 0, 0, 1);
    add_measured(100, NULL)->measured_wall_mm2 = 3000;
    must_plan(RUNNEL_OK);
    ck_near(batch(0)->terms.soak_mm3, 2 * 1000 * 0.04 + 3000 * 0.08, 1e-14);
}
END_TEST

START_TEST(measured_figures) {
    add_piece("p", "hard maple", 300, 200, 30, 2);
    runnel_job_cavity *knot = add_measured(6500, "slate");
    knot->measured_footprint_mm2 = 420;
    knot->measured_wall_mm2 = 1100;
    knot->measured_deepest_mm = 5;
    must_plan(RUNNEL_OK);
    ck_assert(cavity(0)->measured);
    ck_near(cavity(0)->figures.volume_mm3, 6500, 0);
    ck_near(cavity(0)->figures.footprint_mm2, 420, 0);
    ck_near(cavity(0)->figures.wall_mm2, 1100, 0);
    ck_near(cavity(0)->figures.deepest_mm, 5, 0);
    ck_near(cavity(0)->margin_mm2, 0, 0);
    ck_near(batch(0)->terms.crown_mm3, 0.4 * 840, 1e-15);
}
END_TEST

/* ---- Time -------------------------------------------------------------------------------------*/

/*
 * Arrhenius by hand with R = 8.31446261815324 J/(mol K): 1800 s at 25 degC with 52 kJ/mol become
 * 1800 exp(52000/R (1/(T + 273.15) - 1/298.15)). Below the lowest temperature, 12 degC, and where
 * no pot life is stated, nothing is told.
 */
static const struct {
    double shop_degc, lowest_degc, pot_life_s;
} times[] = {
    {25, 12, 1800},
    {20, 12, 2574.2683024807815},
    {30, 12, 1273.5522266189072},
    {12, 12, 4683.7967350771287},
    {11.9, 12, NAN},
    {12, NAN, 4683.7967350771287},
};

START_TEST(pot_life) {
    job.shop_degc = times[_i].shop_degc;
    job.resin.lowest_degc = times[_i].lowest_degc;
    add_piece("p", "hard maple", 0, 0, 0, 1);
    add_measured(10000, NULL);
    must_plan(job.shop_degc < job.resin.lowest_degc ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK);
    ck_near(batch(0)->pot_life_s, times[_i].pot_life_s, 1e-13);
    job.resin.pot_life_s = NAN;
    must_plan(job.shop_degc < job.resin.lowest_degc ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK);
    ck_near(batch(0)->pot_life_s, NAN, 0);
}
END_TEST

/* ---- Figures of the trade ---------------------------------------------------------------------*/

/* A tray with a border, by hand: the rounded rectangle 320 x 220 mm of radius 25 is 2 (270 + 170) +
 * 50 pi = 1037.08 mm long, the half disc of a round-nose 6 mm 4.5 pi = 14.137 mm2; by Pappus the
 * volume is their product, 14661 mm3 (the trade reckons 14.7 ml). */
START_TEST(tray) {
    add_piece("tray", "hard maple", 457.2, 330.2, 19, 1);
    add_path("rounded rectangle 320 x 220 r 25 mm", "round-nose diameter 6 mm", 3, "copper");
    must_plan(RUNNEL_OK);
    ck_near(cavity(0)->figures.volume_mm3, 14661.367898460685, 1e-12);
    ck_near_or(cavity(0)->figures.volume_mm3, 14700, 0, 50);
    ck_near(cavity(0)->figures.footprint_mm2, 6 * 1037.0796326794897, 1e-12);
}
END_TEST

/*
 * A house sign: a variable sans at weight 600, caps of 70 mm, V 60 degrees, at most 8 mm deep and
 * without a limit. Beside it the sums over a raster of 0.05 mm with the Euclidean distance to the
 * nearest point outside (Felzenszwalb and Huttenlocher 2012), made for this test by a program of
 * its own; at 0.1 mm they are 0.19 and 0.23 % less. The trade reckons 118 cm2, 59 and 63 ml,
 * of a face whose strokes are some 3 % wider.
 */
START_TEST(house_sign) {
    static const char font[] = "/usr/share/fonts/truetype/inter-vf/Inter.var.ttf";
    const char *all = getenv("RUNNEL_ALL_FONTS");
    if (access(font, R_OK) != 0) {
        ck_assert_msg(!all || strcmp(all, "1") != 0, "%s is missing", font);
        printf("SKIPPED: %s is not installed\n", font);
        return;
    }
    static const double limits_mm[] = {8, 0}, raster_mm3[] = {55495.8, 59263.9},
                        trade_mm3[] = {59000, 63000};
    for (size_t i = 0; i < 2; i++) {
        planning_again();
        add_piece("sign", "white oak", 600, 180, 27, 1);
        runnel_job_cavity *text = add_text("HOLM 27", 70, "v 60 deg", limits_mm[i], "black");
        runnel_free(text->font);
        text->font = text_for_job(font);
        text->axes = text_for_job("wght=600");
        ck_assert_int_eq(runnel_job_check(&job, planning_tables(), &problems), RUNNEL_OK);
        ck_assert_int_eq(runnel_plan_make(&job, planning_tables(),
                                          &(runnel_letters){runnel_lettering_set, NULL}, &problems,
                                          &plan),
                         RUNNEL_OK);
        ck_near(cavity(0)->figures.footprint_mm2, 11521.7, 0.0003);
        ck_near(cavity(0)->figures.volume_mm3, raster_mm3[i], 0.004);
        ck_near(cavity(0)->figures.footprint_mm2, 11800, 0.03);
        ck_near(cavity(0)->figures.volume_mm3, trade_mm3[i], 0.06);
        ck_assert_str_eq(cavity(0)->font_file, font);
    }
}
END_TEST

/* ---- From a file ------------------------------------------------------------------------------*/

static const char written[] = "resin: table-top 2:1\n"
                              "size to: likely\n"
                              "cup: {loss: 4 g}\n"
                              "pieces:\n"
                              "- name: board\n"
                              "  wood: hard maple\n"
                              "  size: 30 x 20 cm x 25 mm\n"
                              "  count: 3\n"
                              "  cavities:\n"
                              "  - outline: rectangle 60 x 40 mm\n"
                              "    cutter: v 90 deg\n"
                              "    depth limit: 5 mm\n"
                              "    colour: amber\n";

/* The same three boards as above. */
START_TEST(from_a_file) {
    ck_assert_int_eq(runnel_job_read_yaml(written, strlen(written), "x.yaml", planning_tables(),
                                          &problems, &job),
                     RUNNEL_OK);
    ck_assert_int_eq(runnel_plan_make(&job, planning_tables(), NULL, &problems, &plan), RUNNEL_OK);
    ck_near(batch(0)->terms.total_mm3, 40093.026099303900, 1e-12);
    ck_assert_uint_eq(plan.warning_count, 0);
}
END_TEST

START_TEST(clear_takes_nothing) {
    runnel_plan_clear(NULL);
    add_three_boards();
    runnel_plan_clear(&plan);
    ck_assert_ptr_null(plan.cavities);
    ck_assert_ptr_null(plan.batches);
    ck_assert_ptr_null(plan.warnings);
    runnel_plan_clear(&plan);
}
END_TEST

static void add_tests(TCase *cases) {
    tcase_add_test(cases, cavities_are_of_one_piece);
    tcase_add_test(cases, batches_count_the_pieces);
    tcase_add_test(cases, batches_are_weighed);
    tcase_add_test(cases, size_at_the_face);
    tcase_add_test(cases, film_in_the_cup);
    tcase_add_test(cases, terms_add_up);
    tcase_add_test(cases, errors_add_up);
    tcase_add_test(cases, sections_by_step);
    tcase_add_test(cases, colours_in_order_of_first_use);
    tcase_add_test(cases, tints);
    tcase_add_test(cases, soak_of_two_woods_in_one_batch);
    tcase_add_test(cases, measured_figures);
    tcase_add_test(cases, tray);
    tcase_add_test(cases, house_sign);
    tcase_add_test(cases, from_a_file);
    tcase_add_test(cases, clear_takes_nothing);
    tcase_add_loop_test(cases, crown_with_margin, 0, COUNT(crowns));
    tcase_add_loop_test(cases, soak, 0, COUNT(soaks));
    tcase_add_loop_test(cases, pot_life, 0, COUNT(times));
}

int main(void) {
    return planning_main("plan", add_tests);
}
