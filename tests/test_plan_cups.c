/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "failing.h"
#include "job_tables.h"
#include "planning.h"
#include "solids.h"

#include <stdlib.h>
#include <string.h>

/*
 * Batches in cups. Figures are worked by hand. The resin is mixed 2:1 by volume of 1.16 and 0.95
 * g/ml: 1.09 g/ml. On a scale of 0.1 g its smallest batch is 8.16 g, on 0.01 g 0.816 g.
 */

/* Nothing is needed but what is measured and what stays in the cup. */
static void plain_job(double loss_g) {
    job.crown_mm = job.soak_mm = job.reserve = job.resin.shrinkage = 0;
    job.cup.fixed_loss_g = loss_g;
}

/* ---- By time ----------------------------------------------------------------------------------*/

/* 24 blocks with names: 3 ml of grooves and 1.4 ml of crown in all, 40 s each; 4 ml stay in the
 * cup. A pot life of 25 min where it is poured. Common practice of the trade. */
static void place_blocks(double step_g) {
    plain_job(4 * 1.09);
    job.scale.step_g = step_g;
    job.resin.pot_life_s = 25 * 60;
    job.resin.stated_degc = job.shop_degc;
    add_piece("block", NULL, 90, 30, 18, 24)->pour_s = 40;
    add_measured(4400.0 / 24, "black")->name = text_for_job("name");
}

START_TEST(late_rather_than_too_small) {
    /* 16 min are 64 % of the pot life. One cup needs 8.4 ml, 9.156 g; two would need 2.2 + 4 ml
     * each, 6.758 g, which is below 8.16 g. */
    place_blocks(0.1);
    must_plan(RUNNEL_OK);
    const runnel_plan_batch *b = &plan.batches[0];
    ck_assert_uint_eq(b->cup_count, 1);
    ck_assert_uint_eq(b->cups_wanted, 2);
    ck_assert_uint_eq(b->cups_ruled, 0);
    ck_near(b->pour_s, 960, 1e-12);
    const runnel_plan_cup *cup = &b->cups[0];
    ck_assert_uint_eq(cup->load.notes & RUNNEL_CUP_LATE, RUNNEL_CUP_LATE);
    ck_near(cup->load.pour_s, 960, 1e-12);
    ck_near(cup->load.pot_share, 0.64, 1e-12);
    ck_assert_uint_eq(cup->fill_count, 1);
    ck_assert_uint_eq(cup->fills[0].first, 1);
    ck_assert_uint_eq(cup->fills[0].last, 24);
    ck_near(b->terms.total_mm3, 8400, 1e-12);
    ck_assert_uint_eq(plan.warning_count, 1);
    ck_warned("late-pour", "batch black",
              "pouring takes 16 min, 64 % of the pot life of 25 min and more than the 60 % that "
              "should be used, but in 2 cups some would be below 8.16 g, the smallest batch of the "
              "scale: have all at hand, and pour without a break");
}
END_TEST

START_TEST(two_cups_by_time) {
    place_blocks(0.01);
    must_plan(RUNNEL_OK);
    const runnel_plan_batch *b = &plan.batches[0];
    ck_assert_uint_eq(b->cup_count, 2);
    ck_assert_uint_eq(b->cups_ruled, RUNNEL_CUPS_BY_TIME);
    ck_near(b->pour_s, 960, 1e-12);
    for (size_t i = 0; i < 2; i++) {
        const runnel_plan_cup *cup = &b->cups[i];
        ck_assert_uint_eq(cup->fill_count, 1);
        ck_assert_uint_eq(cup->fills[0].cavity, 0);
        ck_assert_uint_eq(cup->fills[0].first, 1 + 12 * i);
        ck_assert_uint_eq(cup->fills[0].last, 12 + 12 * i);
        ck_near(cup->fills[0].first_share, 1, 0);
        ck_near(cup->fills[0].last_share, 1, 0);
        ck_near(cup->load.pour_s, 480, 1e-12);
        ck_near(cup->load.pot_share, 0.32, 1e-12);
        ck_near(cup->load.poured_mm3, 2200, 1e-12);
        ck_near(cup->load.loss_mm3, 4000, 1e-12);
        /* Weighed are 6.2 ml and the steps, in a cup 70 mm wide. */
        ck_near(cup->charge_height_mm,
                cup->load.weighing.total_ml * 1e3 / (3.14159265358979323846 * 35 * 35), 1e-12);
    }
    /* Two cups keep twice as much. */
    ck_near(b->terms.cup_loss_mm3, 8000, 1e-12);
    ck_near(b->terms.total_mm3, 12400, 1e-12);
    ck_not_warned("late-pour");
}
END_TEST

START_TEST(another_share_of_the_pot_life) {
    place_blocks(0.01);
    job.usable_share = 0.65;
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.batches[0].cup_count, 1);
    job.usable_share = 0.16; /* 4 min, six blocks */
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.batches[0].cup_count, 4);
    ck_assert_uint_eq(plan.batches[0].cups[3].fills[0].first, 19);
}
END_TEST

START_TEST(a_time_by_the_tables) {
    /* 5 min a piece and layer, and 24 pieces, are 120 min; half of a pot life of 40 min is 20 min,
     * so six cups of four pieces. A piece that tells its own time is not asked of the tables. */
    runnel_tables tables = *planning_tables();
    tables.works = job_tables()->works;
    tables.work_count = job_tables()->work_count;
    place_blocks(0.001);
    job.pieces[0].pour_s = 0;
    job.resin.pot_life_s = 2400;
    job.shop_degc = job.resin.stated_degc;
    job.usable_share = 0.5;
    ck_assert_int_eq(runnel_job_check(&job, &tables, &problems), RUNNEL_OK);
    ck_assert_int_eq(
        runnel_plan_make(&job, &tables, &(runnel_letters){block_letters, NULL}, &problems, &plan),
        RUNNEL_OK);
    ck_near(plan.batches[0].pour_s, 7200, 1e-12);
    ck_assert_uint_eq(plan.batches[0].cup_count, 6);
    for (size_t i = 0; i < 6; i++)
        ck_near(plan.batches[0].cups[i].load.pour_s, 1200, 1e-9);
    runnel_plan_clear(&plan);
    job.pieces[0].pour_s = 40;
    ck_assert_int_eq(
        runnel_plan_make(&job, &tables, &(runnel_letters){block_letters, NULL}, &problems, &plan),
        RUNNEL_OK);
    ck_near(plan.batches[0].pour_s, 960, 1e-12);
}
END_TEST

START_TEST(a_time_that_is_not_known) {
    /* One colour, one cavity without a time: then no time is known and none rules. */
    place_blocks(0.01);
    add_piece("guest", NULL, 90, 30, 18, 1);
    add_measured(200, "black");
    must_plan(RUNNEL_OK);
    const runnel_plan_batch *b = &plan.batches[0];
    ck_assert_uint_eq(b->cup_count, 1);
    ck_near(b->pour_s, NAN, 0);
    ck_near(b->cups[0].load.pour_s, NAN, 0);
    ck_near(b->cups[0].load.pot_share, NAN, 0);
    ck_not_warned("late-pour");
}
END_TEST

/* Five boards with 2 and 1 ml of one colour, 60 s each: 40 and 20 s. Another colour takes 60 s. */
static void boards(double pot_life_s) {
    plain_job(0);
    job.scale.step_g = 0.01;
    job.resin.pot_life_s = pot_life_s;
    job.resin.stated_degc = job.shop_degc;
    add_piece("board", NULL, 300, 200, 20, 5)->pour_s = 60;
    add_measured(2000, "red");
    add_measured(1000, "red");
    add_measured(500, "blue");
}

static void ck_fill(const runnel_plan_fill *fill, size_t cavity, size_t first, size_t last) {
    ck_assert_uint_eq(fill->cavity, cavity);
    ck_assert_uint_eq(fill->first, first);
    ck_assert_uint_eq(fill->last, last);
    ck_near(fill->first_share, 1, 0);
    ck_near(fill->last_share, 1, 0);
}

START_TEST(a_time_of_a_piece_is_parted) {
    /* 40 20 40 20 ... s, 150 s usable: with three cups the fullest has 120 s at the least. */
    boards(250);
    must_plan(RUNNEL_OK);
    const runnel_plan_batch *b = &plan.batches[0];
    ck_near(b->pour_s, 300, 1e-12);
    ck_near(plan.batches[1].pour_s, 300, 1e-12);
    ck_assert_uint_eq(b->cup_count, 3);
    ck_near(b->cups[0].load.pour_s, 120, 1e-12);
    ck_near(b->cups[1].load.pour_s, 120, 1e-12);
    ck_near(b->cups[2].load.pour_s, 60, 1e-12);
    for (size_t i = 0; i < 3; i++) {
        ck_assert_uint_eq(b->cups[i].fill_count, 2);
        ck_fill(&b->cups[i].fills[0], 0, 2 * i + 1, i == 2 ? 5 : 2 * i + 2);
        ck_fill(&b->cups[i].fills[1], 1, 2 * i + 1, i == 2 ? 5 : 2 * i + 2);
    }
}
END_TEST

START_TEST(cups_within_a_piece) {
    /* 102 s usable: 40 20 40, 20 40 20, 40 20 40, 20. Fewer than four cups do not do. */
    boards(170);
    must_plan(RUNNEL_OK);
    const runnel_plan_batch *b = &plan.batches[0];
    ck_assert_uint_eq(b->cup_count, 4);
    ck_fill(&b->cups[0].fills[0], 0, 1, 2);
    ck_fill(&b->cups[0].fills[1], 1, 1, 1);
    ck_fill(&b->cups[1].fills[0], 1, 2, 3);
    ck_fill(&b->cups[1].fills[1], 0, 3, 3);
    ck_fill(&b->cups[2].fills[0], 0, 4, 5);
    ck_fill(&b->cups[2].fills[1], 1, 4, 4);
    ck_assert_uint_eq(b->cups[3].fill_count, 1);
    ck_fill(&b->cups[3].fills[0], 1, 5, 5);
}
END_TEST

/* ---- By mass and size -------------------------------------------------------------------------*/

START_TEST(one_hole_in_three_cups) {
    /* 1000 ml are 1090 g, at most 500 g in a cup: a third each. */
    plain_job(0);
    job.resin.pot_life_s = NAN;
    add_piece("slab", NULL, 900, 400, 50, 1);
    add_measured(1e6, NULL);
    must_plan(RUNNEL_OK);
    const runnel_plan_batch *b = &plan.batches[0];
    ck_assert_uint_eq(b->cup_count, 3);
    ck_assert_uint_eq(b->cups_ruled, RUNNEL_CUPS_BY_MASS);
    for (size_t i = 0; i < 3; i++) {
        ck_near(b->cups[i].load.poured_mm3, 1e6 / 3, 1e-12);
        ck_near(b->cups[i].fills[0].first_share, 1.0 / 3, 1e-12);
        ck_near(b->cups[i].fills[0].last_share, 1.0 / 3, 1e-12);
        ck_assert_uint_eq(b->cups[i].fills[0].first, 1);
        ck_assert_uint_eq(b->cups[i].fills[0].last, 1);
    }
    ck_near(b->pot_life_s, NAN, 0);
}
END_TEST

START_TEST(a_small_cup) {
    /* Filled to three quarters, 250 ml to the brim are 187.5 ml: 300 ml are two cups of 150 ml. */
    plain_job(0);
    job.brim_mm3 = 250000;
    add_piece("slab", NULL, 900, 400, 50, 2);
    add_measured(150000, NULL);
    must_plan(RUNNEL_OK);
    const runnel_plan_batch *b = &plan.batches[0];
    ck_assert_uint_eq(b->cup_count, 2);
    ck_assert_uint_eq(b->cups_ruled, RUNNEL_CUPS_BY_SIZE);
    ck_near(b->cups[1].load.poured_mm3, 150000, 1e-12);
    ck_fill(&b->cups[1].fills[0], 0, 2, 2);
}
END_TEST

START_TEST(a_cup_below_the_smallest_batch) {
    /* 8.16 g are 7.5 ml; three quarters of a cup of 8 ml are 6 ml. */
    plain_job(0);
    job.brim_mm3 = 8000;
    add_piece("p", NULL, 100, 100, 20, 1);
    add_measured(5000, NULL);
    must_plan(RUNNEL_NOT_POSSIBLE);
    ck_assert_ptr_nonnull(warned("small-batch"));
    ck_warned("small-cup", "batch clear",
              "7.9 ml, the least that this scale can weigh, are more than 75 % of a cup of 8 ml, "
              "and the rest is needed for stirring; take a larger cup");
}
END_TEST

START_TEST(a_resin_that_bears_less_than_the_smallest_batch) {
    /* 6.1 + 2.5 g are the first whole steps that keep the ratio: see test_plan_resin.c. */
    plain_job(0);
    job.resin.largest_mass_g = 8;
    add_piece("p", NULL, 100, 100, 20, 1);
    add_measured(5000, NULL);
    must_plan(RUNNEL_NOT_POSSIBLE);
    ck_warned("large-mass", "batch clear",
              "8.6 g, the least that this scale can weigh, are over the 8 g that 'table-top 2:1' "
              "bears in one cup: it can heat itself, smoke and burn; take a finer scale");
}
END_TEST

START_TEST(raised_in_some_cups) {
    /* 4 g that stay in each cup, 5 and 20 g to be poured, and a brim that keeps them apart: 22.5 ml
     * are 24.525 g. The first cup needs 9.1 g and is not raised on 0.1 g, but on 0.12 g, from 9.8 g
     * on. */
    plain_job(4);
    job.scale.step_g = 0.12;
    job.brim_mm3 = 30000;
    add_piece("p", NULL, 100, 100, 20, 1);
    add_measured(5000 / 1.09, "red");
    add_measured(20000 / 1.09, "red");
    must_plan(RUNNEL_OK);
    const runnel_plan_batch *b = &plan.batches[0];
    ck_assert_uint_eq(b->cup_count, 2);
    ck_assert_uint_eq(b->cups[0].load.notes & RUNNEL_CUP_RAISED, RUNNEL_CUP_RAISED);
    ck_assert_uint_eq(b->cups[1].load.notes & RUNNEL_CUP_RAISED, 0);
    ck_assert_int_eq(b->raise, RUNNEL_RAISE_SMALLEST);
    const char *begin = "1 of 2 cups: 9 g would do, but below 9.79 g a scale that shows 0.12 g";
    ck_assert_msg(strncmp(warned("small-batch")->text, begin, strlen(begin)) == 0, "%s",
                  warned("small-batch")->text);
}
END_TEST

/* ---- Very much --------------------------------------------------------------------------------*/

START_TEST(very_many_pieces) {
    /* More than are dealt out one by one: 20000 of 0.05 ml are parted anywhere. */
    plain_job(0);
    add_piece("tag", NULL, 50, 20, 5, 20000)->pour_s = 1;
    add_measured(50, NULL);
    job.resin.pot_life_s = 1e6;
    job.resin.stated_degc = job.shop_degc;
    must_plan(RUNNEL_OK);
    const runnel_plan_batch *b = &plan.batches[0];
    ck_assert_uint_eq(b->cup_count, 3);
    ck_near(b->pour_s, 20000, 1e-12);
    ck_assert_uint_eq(b->cups[0].fill_count, 0);
    ck_near(b->cups[0].load.poured_mm3, 1e6 / 3, 1e-12);
}
END_TEST

START_TEST(very_many_cups) {
    /* 545 kg in cups of 500 g; the film of one cup that holds them all is not asked for. */
    plain_job(0);
    add_piece("lake", NULL, 0, 0, 0, 1);
    add_measured(5e8, NULL);
    must_plan(RUNNEL_NOT_POSSIBLE);
    const runnel_plan_batch *b = &plan.batches[0];
    ck_assert_uint_eq(b->cup_count, 0);
    ck_assert_ptr_null(b->cups);
    ck_near(b->terms.total_mm3, 5e8, 1e-12);
    ck_assert(b->weighing.total_g >= 545000 * (1 - 1e-12) && b->weighing.total_g < 545001);
    ck_assert_uint_eq(plan.warning_count, 1);
    ck_assert_ptr_nonnull(
        strstr(warned("many-cups")->text, " would take more than 1000 cups; make several jobs"));
}
END_TEST

/* ---- The film ---------------------------------------------------------------------------------*/

START_TEST(a_cup_that_the_film_rules) {
    /* A thick mix in a tube 5 mm wide that drains for a second gives next to nothing: no number of
     * tubes is an answer. */
    plain_job(0);
    job.cup = (runnel_cup){.diameter_mm = 5, .drain_s = 1, .fixed_loss_g = NAN};
    add_piece("p", NULL, 100, 100, 20, 1);
    add_measured(5000, "red");
    for (int i = 0; i < 2; i++) {
        runnel_plan made = {0};
        job.scale.step_g = i ? 0.0001 : 0.1;
        ck_assert_int_eq(runnel_job_check(&job, planning_tables(), &problems), RUNNEL_OK);
        ck_assert_int_eq(runnel_plan_make(&job, planning_tables(), NULL, &problems, &made),
                         RUNNEL_E_NOT_COMPUTED);
        ck_assert_uint_eq(problems.count, (size_t)i + 1);
    }
}
END_TEST

/* ---- What holds for any job -------------------------------------------------------------------*/

enum { JOBS = 1000 };

static void add_chance_job(chance *c) {
    static const char *const colours[] = {"red", "blue", NULL};
    static const double steps_g[] = {0.01, 0.1, 1};
    job.scale.step_g = steps_g[chance_below(c, 3)];
    job.cup.fixed_loss_g = chance_below(c, 2) ? chance_between(c, 0, 5) : NAN;
    job.brim_mm3 = chance_below(c, 2) ? chance_between(c, 1e5, 1e6) : 0;
    job.resin.largest_mass_g = chance_below(c, 2) ? chance_between(c, 100, 1000) : NAN;
    job.size_to = chance_below(c, 2) ? RUNNEL_SIZE_HIGH : RUNNEL_SIZE_LIKELY;
    bool timed = chance_below(c, 2);
    for (size_t pieces = 1 + chance_below(c, 3); pieces; pieces--) {
        runnel_job_piece *piece = add_piece(NULL, NULL, 300, 200, 40, 1 + chance_below(c, 40));
        if (timed)
            piece->pour_s = chance_between(c, 1, 200);
        for (size_t cavities = 1 + chance_below(c, 3); cavities; cavities--)
            add_measured(exp(chance_between(c, 4, 11)), colours[chance_below(c, 3)])
                ->measured_wall_mm2 = chance_between(c, 1, 10000);
    }
}

/* The pieces of each cavity that cups give to, counted with their shares. */
static void count_fills(const runnel_plan_batch *b, double *given) {
    for (size_t i = 0; i < b->cup_count; i++) {
        for (size_t k = 0; k < b->cups[i].fill_count; k++) {
            const runnel_plan_fill *fill = &b->cups[i].fills[k];
            ck_assert_uint_ge(fill->first, 1);
            ck_assert_uint_le(fill->first, fill->last);
            given[fill->cavity] += fill->first_share;
            if (fill->last > fill->first)
                given[fill->cavity] += fill->last_share + (double)(fill->last - fill->first) - 1;
        }
    }
}

static void ck_cup(const runnel_cup_load *load) {
    double most_g = job.resin.largest_mass_g, most_mm3 = 0.75 * job.brim_mm3;
    if (!(load->notes & RUNNEL_CUP_OVER_MASS))
        ck_assert(!(load->weighing.total_g > most_g * (1 + 1e-9)));
    if (!(load->notes & RUNNEL_CUP_OVER_SIZE) && job.brim_mm3 > 0)
        ck_assert(load->weighing.total_ml * 1e3 <= most_mm3 * (1 + 1e-9));
    if (!(load->notes & RUNNEL_CUP_LATE))
        ck_assert(!(load->pot_share > job.usable_share * (1 + 1e-8)));
    if (!(load->notes & RUNNEL_CUP_UNWEIGHABLE))
        ck_assert(load->weighing.ratio_error <= 0.03);
    ck_assert(load->weighing.total_ml * 1e3 >= (load->poured_mm3 + load->loss_mm3) * (1 - 1e-9));
}

static void ck_batch(const runnel_plan_batch *b) {
    double poured_mm3 = 0, loss_mm3 = 0, mass_g = 0, surplus_mm3 = 0;
    for (size_t i = 0; i < b->cup_count; i++) {
        const runnel_cup_load *load = &b->cups[i].load;
        ck_cup(load);
        poured_mm3 += load->poured_mm3;
        loss_mm3 += load->loss_mm3;
        mass_g += load->weighing.total_g;
        surplus_mm3 += load->surplus_mm3;
    }
    const runnel_terms *t = &b->terms;
    ck_near(t->cavity_mm3 + t->crown_mm3 + t->shrinkage_mm3 + t->soak_mm3 + t->allowance_mm3 +
                t->reserve_mm3,
            poured_mm3, 1e-11);
    ck_near_or(t->cup_loss_mm3, loss_mm3, 1e-11, 0);
    ck_near(t->total_mm3, poured_mm3 + loss_mm3, 1e-11);
    ck_near(b->weighing.total_g, mass_g, 1e-12);
    ck_near_or(b->surplus_mm3, surplus_mm3, 1e-9, 1e-9 * t->total_mm3);
}

START_TEST(cups_make_up_their_batch) {
    chance c = {1};
    size_t parted = 0;
    for (int i = 0; i < JOBS; i++) {
        double given[9] = {0};
        planning_again();
        add_chance_job(&c);
        ck_assert_int_eq(runnel_job_check(&job, planning_tables(), &problems), RUNNEL_OK);
        runnel_status status = runnel_plan_make(&job, planning_tables(), NULL, &problems, &plan);
        ck_assert(!status || status == RUNNEL_NOT_POSSIBLE);
        for (size_t n = 0; n < plan.batch_count; n++) {
            ck_assert_uint_ge(plan.batches[n].cup_count, 1);
            ck_batch(&plan.batches[n]);
            count_fills(&plan.batches[n], given);
            parted += plan.batches[n].cup_count > 1;
        }
        for (size_t k = 0; k < plan.cavity_count; k++)
            ck_near(given[k], (double)plan.cavities[k].piece_count, 1e-9);
    }
    ck_assert_uint_gt(parted, JOBS / 5);
}
END_TEST

START_TEST(every_allocation_may_fail) {
    boards(170);
    must_plan(RUNNEL_OK);
    runnel_status status = RUNNEL_E_NO_MEMORY;
    size_t allowed = 0;
    for (; status == RUNNEL_E_NO_MEMORY && allowed < 20000; allowed++) {
        failing of = {.fail_at = allowed, .for_good = true};
        runnel_plan made = {0};
        start_failing(&of);
        status = runnel_plan_make(&job, planning_tables(), NULL, NULL, &made);
        runnel_plan_clear(&made);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(of.alive, 0);
        ck_assert(status == RUNNEL_E_NO_MEMORY || of.calls <= allowed);
    }
    ck_assert_int_eq(status, RUNNEL_OK);
    ck_assert_uint_gt(allowed, 30);
}
END_TEST

static void add_tests(TCase *cases) {
    tcase_add_test(cases, late_rather_than_too_small);
    tcase_add_test(cases, two_cups_by_time);
    tcase_add_test(cases, another_share_of_the_pot_life);
    tcase_add_test(cases, a_time_by_the_tables);
    tcase_add_test(cases, a_time_that_is_not_known);
    tcase_add_test(cases, a_time_of_a_piece_is_parted);
    tcase_add_test(cases, cups_within_a_piece);
    tcase_add_test(cases, one_hole_in_three_cups);
    tcase_add_test(cases, a_small_cup);
    tcase_add_test(cases, a_cup_below_the_smallest_batch);
    tcase_add_test(cases, a_resin_that_bears_less_than_the_smallest_batch);
    tcase_add_test(cases, raised_in_some_cups);
    tcase_add_test(cases, very_many_pieces);
    tcase_add_test(cases, very_many_cups);
    tcase_add_test(cases, a_cup_that_the_film_rules);
    tcase_add_test(cases, cups_make_up_their_batch);
    tcase_add_test(cases, every_allocation_may_fail);
}

int main(void) {
    return planning_main("plan, cups", add_tests);
}
