/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "planning.h"
#include "runnel/write.h"
#include "written.h"

/*
 * Cups as the sizes and the card show them. The resin is mixed 2:1 by volume of 1.16 and 0.95 g/ml;
 * nothing is needed but what is measured.
 */

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

typedef runnel_status (*plan_writer)(const runnel_job *, const runnel_plan *, FILE *);

static char *written(plan_writer write) {
    FILE *file = tmpfile();
    ck_assert_ptr_nonnull(file);
    ck_assert_int_eq(write(&job, &plan, file), RUNNEL_OK);
    char *text = contents(file);
    fits(text);
    return text;
}

/* The same with each run of blanks and line ends as one blank. */
static char *unwrapped(plan_writer write) {
    char *text = written(write), *to = text;
    for (const char *from = text; *from; from++) {
        bool is_gap = *from == ' ' || *from == '\n';
        if (!is_gap)
            *to++ = *from;
        else if (to > text && to[-1] != ' ')
            *to++ = ' ';
    }
    *to = '\0';
    return text;
}

/* Nothing but what fills the cavities, weighed closely. */
static void with_cups(double pot_life_s) {
    job.crown_mm = job.soak_mm = job.reserve = job.resin.shrinkage = 0;
    job.cup.fixed_loss_g = 0;
    job.scale.step_g = 0.01;
    job.scale_is_default = job.shop_is_default = false;
    job.resin.pot_life_s = pot_life_s;
    job.resin.stated_degc = job.shop_degc;
}

/* Five boards with 2 and 1 ml of one colour, 60 s each. */
static void boards(double pot_life_s) {
    with_cups(pot_life_s);
    add_piece("board", NULL, 300, 200, 20, 5)->pour_s = 60;
    add_measured(2000, "red")->name = text_for_job("name");
    add_measured(1000, "red")->name = text_for_job("knot");
}

START_TEST(sizes_of_cups) {
    /* 40 20 40, 20 40 20, 40 20 40 and 20 s of 170 s; 5, 4, 5 and 1 ml. Of 5 ml 3.333 are A, 3.867
     * g, and 1.667 are B, 1.583 g; 2 % of tint are 0.11 g. */
    static const char *const parts[] = {
        "  pouring   in at most 60 % of the pot life\n",
        "    cup loss                 0.00  ml    stays in the cups\n",
        "    cups      4: as one it would take too long to pour\n",
        "    cup 1     A 3.8",
        " g, tint 0.11 g, B 1.5",
        (" g, for board / name,\n              pieces 1 to 2; board / knot, piece 1; pouring takes "
         "2 min, 59 %\n              of the pot life\n"),
        "    cup 2     A 3.",
        "for board / knot,\n              pieces 2 to 3; board / name, piece 3; ",
        "    cup 4     A 0.7",
        (", for board / knot, piece 5;\n              pouring takes under 1 min, 12 % of the "
         "pot life\n")};
    boards(170);
    must_plan(RUNNEL_OK);
    char *text = written(runnel_write_size_text);
    in_order(text, parts, COUNT(parts));
    has_not(text, "pouring   takes");
    free(text);
}
END_TEST

START_TEST(sizes_of_one_cup) {
    boards(1000); /* 300 s */
    job.brim_mm3 = 250000;
    must_plan(RUNNEL_OK);
    char *text = written(runnel_write_size_text);
    has(text, "    pouring   takes 5 min, 30 % of the pot life\n");
    has(text, "  cup       70 mm wide, 0 g stay in it, holding 250 ml to its brim\n");
    has(text, "stays in the cup\n");
    has_not(text, "    cups ");
    free(text);
    job.shop_degc = 5; /* below the lowest: no pot life is known */
    job.pieces[0].count = 6;
    must_plan(RUNNEL_NOT_POSSIBLE);
    text = written(runnel_write_size_text);
    has(text, "    pouring   takes 6 min\n");
    free(text);
}
END_TEST

START_TEST(card_of_cups) {
    static const char *const parts[] = {
        "Batch red, 16.",
        " g of A + B, 15.",
        " ml, in 4 cups\n",
        "     for board / name, 5 pieces; board / knot, 5 pieces\n",
        "     Too much A?",
        "  Cup 1 of 4, 5.4",
        " ml\n     for board / name, pieces 1 to 2; board / knot, piece 1\n",
        "never zeroed in between:",
        "  1  cup and stick on it",
        "  4  B (hardener) until it shows",
        "     Cup marks  none",
        "     Pot life   about 3 min at 20 \302\260C for 150 g in a cup\n",
        "     Pouring    takes 2 min, 59 % of the pot life\n",
        "     Weighed    A _",
        "     B went in  ____:____ h",
        "  Cup 2 of 4, ",
        "     for board / knot, pieces 2 to 3; board / name, piece 3\n",
        "  Cup 3 of 4, ",
        "  Cup 4 of 4, ",
        "     for board / knot, piece 5\n",
        "Mixing\n"};
    boards(170);
    must_plan(RUNNEL_OK);
    char *text = written(runnel_write_card_text);
    in_order(text, parts, COUNT(parts));
    has_not(text, "Mind");
    free(text);
    /* Tint 0.11 + 0.09 + 0.11 + 0.02 g, A 15/3.27 x 2.32 x 1.09 = 11.6 g. */
    text = unwrapped(runnel_write_card_text);
    in_order(text,
             (const char *const[]){"One colour for all cups: stir 0.33 g of tint into 11.6",
                                   " g of A at first, and weigh A and tint of each cup together "
                                   "from it. ",
                                   "Cup 1 of 4"},
             3);
    free(text);
    job.resin.tint_default = 0;
    must_plan(RUNNEL_OK);
    text = written(runnel_write_card_text);
    has_not(text, "One colour");
    free(text);
}
END_TEST

START_TEST(card_of_one_cup) {
    /* 6 ml in a cup that is too small for what the scale can weigh, and a pot life too short. */
    boards(160); /* 120 s are 75 % */
    job.pieces[0].count = 2;
    job.scale.step_g = 0.3;
    job.resin.largest_mass_g = 20;
    job.brim_mm3 = 12000;
    must_plan(RUNNEL_NOT_POSSIBLE);
    char *text = unwrapped(runnel_write_card_text);
    has(text,
        "Pouring takes 2 min, 75 % of the pot life Mind it is more than the resin bears in one "
        "cup; it is more than the cup should hold; pour without a break, as the pot life is "
        "short for it; more than is poured, as the scale weighs no less Weighed");
    free(text);
}
END_TEST

START_TEST(card_of_a_hot_cup) {
    /* 500 ml are 545 g: the pot life of 150 g, 30 min, is 30 (150/545)^(1/3) = 19.5 min for it. */
    boards(1800);
    job.resin.largest_mass_g = 600;
    job.pieces[0].cavities[0].measured_mm3 = 99000;
    must_plan(RUNNEL_OK);
    char *text = written(runnel_write_card_text);
    has(text,
        "     Pot life   about 30 min at 20 \302\260C for 150 g in a cup; about 20 min for so\n");
    has(text, "     Mind       it heats itself in a narrow cup: take a wide, shallow dish\n");
    free(text);
}
END_TEST

START_TEST(card_of_a_scale_that_will_not_do) {
    boards(1800);
    job.scale.accuracy_percent = 2;
    must_plan(RUNNEL_NOT_POSSIBLE);
    char *text = written(runnel_write_card_text);
    has(text, "     Mind       the scale does not keep its ratio\n");
    free(text);
}
END_TEST

START_TEST(parts_of_cavities) {
    /* 2 boards with a hole of 700 ml: 1526 g, of which a cup may have 500 g, so four cups. */
    with_cups(1e5);
    add_piece("board", NULL, 300, 200, 20, 2);
    add_measured(1, "red")->name = text_for_job("name");
    job.pieces[0].cavities[0].measured_mm3 = 7e5;
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.batches[0].cup_count, 4);
    char *text = unwrapped(runnel_write_size_text);
    has(text, "cups 4: as one it would be too heavy for the resin cup 1 A ");
    has(text, ", for board / name, 50 % of piece 1 ");
    has(text, ", for board / name, 50 % of piece 2 ");
    free(text);
    /* One board with all of it. */
    job.pieces[0].count = 1;
    job.pieces[0].cavities[0].measured_mm3 = 1e6;
    must_plan(RUNNEL_OK);
    text = unwrapped(runnel_write_size_text);
    has(text, ", for board / name, 33.3 % of it ");
    free(text);
}
END_TEST

/* A hole 10 mm deep in layers of 6 mm, coated again after 4 h, until 10 h, at 25 degC: 1.430149
 * times as long at 20 degC. */
static void deep_hole(void) {
    boards(1e5);
    job.resin.stated_degc = 25;
    job.pieces[0].count = 1;
    job.pieces[0].pour_s = 0;
    job.pieces[0].cavities[0].measured_deepest_mm = 10;
}

START_TEST(sizes_of_layers) {
    static const char *const parts[] = {
        (" deepest 10.00 mm layer 1 of 2 by its thickness, 10.00 to 5.00 mm deep layer 2 of 2 by "
         "its thickness, 5.00 to 0.00 mm deep, from 5 h 44 min on and, without sanding, until "
         "14 h 18 min after the first "),
        " cups 2, for 2 layers cup 1 A 0.7", " for board / name, layer 1 of 2 cup 2 A 1.5",
        (" for board / name, layer 2 of 2; board / knot; from 5 h 44 min on and, without sanding, "
         "until 14 h 18 min after the first")};
    deep_hole();
    must_plan(RUNNEL_OK);
    char *text = unwrapped(runnel_write_size_text);
    in_order(text, parts, COUNT(parts));
    free(text);
    runnel_job_cavity *name = &job.pieces[0].cavities[0]; /* 100 pi x 6 mm instead */
    name->source = RUNNEL_SOURCE_PATH;
    name->form.kind = RUNNEL_FORM_CIRCLE;
    name->form.a_mm = 100;
    name->cut.cutter = (runnel_cutter){RUNNEL_CUTTER_FLAT, 0, 0, 3};
    name->measured_mm3 = name->measured_deepest_mm = 0;
    name->depth_mm = 10;
    must_plan(RUNNEL_OK);
    text = unwrapped(runnel_write_size_text);
    has(text, " layer 1 of 2 9.425 ml 10.00 to 5.00 mm deep "); /* 100 pi x 6 x 5 mm3 */
    free(text);
}
END_TEST

START_TEST(card_of_layers) {
    static const char *const parts[] = {
        "Batch red, ",
        ", in 2 cups for 2 layers for board / name; board / knot ",
        "Cup 1 of 2, ",
        " for board / name, layer 1 of 2 ZERO AGAIN BEFORE B",
        "Cup 2 of 2, ",
        (" for board / name, layer 2 of 2; board / knot When from 5 h 44 min on and, without "
         "sanding, until 14 h 18 min after the first never zeroed")};
    deep_hole();
    must_plan(RUNNEL_OK);
    char *text = unwrapped(runnel_write_card_text);
    in_order(text, parts, COUNT(parts));
    free(text);
    job.resin.recoat_until_s = NAN;
    must_plan(RUNNEL_OK);
    text = unwrapped(runnel_write_card_text);
    has(text, "When in the recoat window, which is not known");
    free(text);
}
END_TEST

START_TEST(order_of_pouring) {
    /* 2 h to gel at 25 degC are 2.860 h at 20 degC. */
    static const plan_writer writers[] = {runnel_write_size_text, runnel_write_card_text};
    static const char *const begin[] = {"Order of pouring: ", "Order "};
    boards(1e5);
    job.resin.stated_degc = 25;
    add_measured(20000, "white");
    add_piece("other", NULL, 300, 200, 20, 1);
    add_measured(20000, "green");
    for (size_t i = 0; i < COUNT(writers); i++) {
        job.resin.gel_s = 7200;
        must_plan(RUNNEL_OK);
        char *text = unwrapped(writers[i]);
        has(text, begin[i]);
        has(text, "red at first; white from 2 h 52 min on, when its neighbours have gelled; green "
                  "at any time ");
        free(text);
        job.resin.gel_s = NAN;
        must_plan(RUNNEL_OK);
        text = unwrapped(writers[i]);
        has(text, "white when its neighbours have gelled, which is not known; green at any time ");
        free(text);
    }
}
END_TEST

static void add_tests(TCase *cases) {
    tcase_add_test(cases, sizes_of_cups);
    tcase_add_test(cases, sizes_of_one_cup);
    tcase_add_test(cases, card_of_cups);
    tcase_add_test(cases, card_of_one_cup);
    tcase_add_test(cases, card_of_a_hot_cup);
    tcase_add_test(cases, card_of_a_scale_that_will_not_do);
    tcase_add_test(cases, parts_of_cavities);
    tcase_add_test(cases, sizes_of_layers);
    tcase_add_test(cases, card_of_layers);
    tcase_add_test(cases, order_of_pouring);
}

int main(void) {
    return planning_main("write, cups", add_tests);
}
