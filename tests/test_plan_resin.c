/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "planning.h"
#include "runnel/memory.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/*
 * Warnings of the resin, the colours and the batches, raised and not raised. Figures are worked by
 * hand. The resin is mixed 2:1 by volume of 1.16 and 0.95 g/ml: 1.09 g/ml, B/A 0.95/2.32 = 0.409483
 * by weight.
 */

#define RESIN "'table-top 2:1'"

/* A hole of such a volume and nothing lost: what is mixed is what is measured. */
static void add_exactly(double volume_mm3, const char *colour) {
    job.crown_mm = job.reserve = job.resin.shrinkage = 0;
    job.cup.fixed_loss_g = 0;
    add_piece("p", "hard maple", 300, 200, 50, 1);
    add_measured(volume_mm3, colour);
}

/* ---- Resin ------------------------------------------------------------------------------------*/

static const struct {
    double density_a, density_b;
    const char *begin;
} densities[] = {
    {1.16, 0.95, NULL},
    {1.20, 0.89, NULL}, /* 1.0967 mixed */
    {1.10, 1.10, NULL},
    {1.3, 0.95, "part A at 1.3 g/ml is outside the published 1.05 to 1.2 g/ml ("},
    {1.04, 1.1, "part A at 1.04 g/ml is outside the published 1.05 to 1.2 g/ml ("},
    {1.16, 1.2, "part B at 1.2 g/ml is outside the published 0.89 to 1.1 g/ml ("},
    {1.16, 0.885, "part B at 0.885 g/ml is outside the published 0.89 to 1.1 g/ml ("},
    {1.05, 0.89, "the mix at 0.9967 g/ml is outside the published 1.05 to 1.2 g/ml ("},
};

START_TEST(density) {
    add_exactly(20000, NULL);
    job.resin.density_a_g_per_ml = densities[_i].density_a;
    job.resin.density_b_g_per_ml = densities[_i].density_b;
    must_plan(RUNNEL_OK);
    const char *begin = densities[_i].begin;
    if (!begin) {
        ck_not_warned("density");
        return;
    }
    const runnel_warning *found = warned("density");
    ck_assert_ptr_nonnull(found);
    ck_assert_str_eq(found->where, "resin");
    ck_assert_msg(strncmp(found->text, begin, strlen(begin)) == 0, "%s", found->text);
    ck_assert_uint_gt(strlen(found->text), strlen(begin) + 40); /* and the source */
    ck_assert_uint_eq(plan.warning_count, 1);
}
END_TEST

/* By weight the volume ratio gives 0.409483; over that of the other ratio, less 1. */
static const struct {
    runnel_ratio ratio, other;
    const char *text;
} ratios[] = {
    {{2, 1, RUNNEL_BASIS_VOLUME}, {0, 0, RUNNEL_BASIS_NONE}, NULL},
    {{2, 1, RUNNEL_BASIS_VOLUME}, {100, 41, RUNNEL_BASIS_WEIGHT}, NULL},   /* -0.13 % */
    {{2, 1, RUNNEL_BASIS_VOLUME}, {100, 40.2, RUNNEL_BASIS_WEIGHT}, NULL}, /* +1.86 % */
    {{2, 1, RUNNEL_BASIS_VOLUME},
     {100, 40, RUNNEL_BASIS_WEIGHT}, /* +2.37 % */
     "2:1 by volume and 100:40 by weight do not go together at 1.16 and 0.95 g/ml: the first gives "
     "2.4 % more hardener; look at the sheet again"},
    {{2, 1, RUNNEL_BASIS_VOLUME},
     {2, 1, RUNNEL_BASIS_WEIGHT}, /* -18.1 % */
     "2:1 by volume and 2:1 by weight do not go together at 1.16 and 0.95 g/ml: the first gives "
     "18.1 % less hardener; look at the sheet again"},
    {{100, 44.5, RUNNEL_BASIS_WEIGHT},
     {2, 1, RUNNEL_BASIS_VOLUME}, /* -7.98 % */
     "2:1 by volume and 100:44.5 by weight do not go together at 1.16 and 0.95 g/ml: the first "
     "gives 8 % less hardener; look at the sheet again"},
};

START_TEST(ratio_contradiction) {
    add_exactly(20000, NULL);
    job.resin.ratio = ratios[_i].ratio;
    job.other_ratio = ratios[_i].other;
    must_plan(RUNNEL_OK);
    if (ratios[_i].text)
        ck_warned("ratio-contradiction", "resin", ratios[_i].text);
    else
        ck_not_warned("ratio-contradiction");
}
END_TEST

/* A mix that cannot be worked out is told, not planned. */
START_TEST(mix_beyond_numbers) {
    add_exactly(20000, NULL);
    ck_assert_int_eq(runnel_job_check(&job, planning_tables(), &problems), RUNNEL_OK);
    job.resin.ratio = (runnel_ratio){1e300, 1e-300, RUNNEL_BASIS_VOLUME};
    ck_assert_int_eq(runnel_plan_make(&job, planning_tables(), NULL, &problems, &plan),
                     RUNNEL_E_RANGE);
    ck_assert_uint_eq(problems.count, 1);
    ck_assert_str_eq(problems.items[0].field, "resin");
    ck_assert_ptr_nonnull(strstr(problems.items[0].text, "the mix of " RESIN ": "));
    ck_assert_uint_eq(plan.cavity_count, 0);
}
END_TEST

/* ---- Colours ----------------------------------------------------------------------------------*/

START_TEST(colour_unused) {
    runnel_job_colour *colour;
    ck_assert_int_eq(runnel_job_colour_named(&job, "amber", &colour), RUNNEL_OK);
    ck_assert_int_eq(runnel_job_colour_named(&job, "slate", &colour), RUNNEL_OK);
    add_exactly(20000, "amber");
    must_plan(RUNNEL_OK);
    ck_warned("colour-unused", "colours", "'slate' is listed but no cavity has it");
    add_measured(20000, "slate");
    must_plan(RUNNEL_OK);
    ck_not_warned("colour-unused");
}
END_TEST

START_TEST(tint_cap) {
    runnel_job_colour *colour;
    ck_assert_int_eq(runnel_job_colour_named(&job, "amber", &colour), RUNNEL_OK);
    colour->tint = 0.0625;
    add_exactly(20000, "amber");
    must_plan(RUNNEL_OK);
    ck_warned("tint-cap", "batch amber",
              "tint at 6.25 % is over the 5 % that " RESIN " bears; more leaves it soft");
    job.colours[0].tint = 0.05;
    must_plan(RUNNEL_OK);
    ck_not_warned("tint-cap");
}
END_TEST

/*
 * 2 ml are 2.18 g. By the half steps alone 0.05 (1/0.290520 + 1.03/0.709480)/0.03 = 8.16 g are the
 * least on a scale of 0.1 g. Of the whole steps from there on 6.1 and 2.5 g are the first whose
 * readings keep 3 %: (2.55/6.05)/0.409483 - 1 = +2.93 %, (2.45/6.15)/0.409483 - 1 = -2.71 %; of 5.9
 * and 2.4 g the latter is -3.55 %. They are 5.259 + 2.632 ml, 5.9 ml more than needed.
 */
START_TEST(small_batch) {
    add_exactly(2000, "amber");
    must_plan(RUNNEL_OK);
    const runnel_plan_batch *b = &plan.batches[0];
    ck_near(b->weighing.part_a_g, 6.1, 1e-15);
    ck_near(b->weighing.part_b_g, 2.5, 1e-15);
    ck_near(b->surplus_mm3, 6100 / 1.16 + 2500 / 0.95 - 2000, 1e-13);
    ck_assert_int_eq(b->raise, RUNNEL_RAISE_SMALLEST);
    ck_warned("small-batch", "batch amber",
              "2.18 g would do, but below 8.16 g a scale that shows 0.1 g does not keep the ratio "
              "within the 3 % that " RESIN " allows: mix 8.6 g, which leaves 5.9 ml over, or take "
              "a finer scale");
    job.scale.step_g = 0.01;
    must_plan(RUNNEL_OK);
    ck_not_warned("small-batch");
    job.scale.step_g = 0.1;
    job.pieces[0].cavities[0].measured_mm3 = 30000; /* 32.7 g */
    must_plan(RUNNEL_OK);
    ck_not_warned("small-batch");
}
END_TEST

/* 0.5 % of the 8.6 g above are 0.043 g, less than half a step; 0.6 % are 0.052 g. */
START_TEST(tint_below_step) {
    runnel_job_colour *colour;
    ck_assert_int_eq(runnel_job_colour_named(&job, "amber", &colour), RUNNEL_OK);
    colour->tint = 0.005;
    add_exactly(2000, "amber");
    must_plan(RUNNEL_OK);
    ck_warned(
        "tint-below-step", "batch amber",
        "0.043 g of tint is less than the scale can show; weigh it for a larger batch of part "
        "A and take a share");
    job.colours[0].tint = 0.006;
    must_plan(RUNNEL_OK);
    ck_not_warned("tint-below-step");
    job.colours[0].tint = 0; /* none is wanted */
    must_plan(RUNNEL_OK);
    ck_not_warned("tint-below-step");
}
END_TEST

/* 2 % off each way is more than 3 % in the ratio, whatever the batch: 1.02/0.98 - 1 = 4.08 %. At
 * 545 g the half steps add 0.05/158.3 + 0.05/386.7 = 0.045 % and the rounding up to as much: 4.12
 * to 4.18 %. */
START_TEST(no_batch) {
    add_exactly(500000, NULL);
    job.scale.accuracy_percent = 2;
    must_plan(RUNNEL_NOT_POSSIBLE);
    const runnel_warning *none = warned("no-batch");
    ck_assert_ptr_nonnull(none);
    double off_percent = advised("no-batch", " g may be ");
    ck_assert(off_percent == 4.1 || off_percent == 4.2);
    ck_assert_ptr_nonnull(strstr(none->text,
                                 " % off in the ratio, and on this scale no batch keeps "
                                 "the 3 % that " RESIN " allows; take a better scale"));
    ck_not_warned("small-batch");
    job.scale.accuracy_percent = 100; /* there may be nothing in the cup */
    must_plan(RUNNEL_NOT_POSSIBLE);
    ck_assert_ptr_nonnull(strstr(warned("no-batch")->text, " g may be 100 and more % off "));
    job.scale.accuracy_percent = 1; /* 1.01/0.99 - 1 = 2.02 % */
    must_plan(RUNNEL_OK);
    ck_not_warned("no-batch");
}
END_TEST

/* ---- Mass -------------------------------------------------------------------------------------*/

/* By volume: 90 ml are 98.1 g, 100 ml 109 g, 200 ml 218 g, 460 ml 501.4 g, 1000 ml 1090 g. A pot
 * life of 30 min at 25 degC is 30 exp(52000/8.314463 (1/293.15 - 1/298.15)) = 42.90 min at 20 degC
 * for 150 g; for m g it is less by the cube root of 150/m: 37.9 min for 218 g, 28.7 for 499 g, 36.2
 * for 251 g, 31.9 for 363 g, 22.2 for 1090 g. */
static const struct {
    double volume_mm3, largest_g, pot_g;
    size_t cups;
    const char *hot, *sooner, *end; /* beginnings and end of warnings; NULL = there is none */
} masses[] = {
    {90000, 500, 150, 1, NULL, NULL, NULL},
    {100000, 500, 150, 1, "109", NULL, NULL},
    {137000, 500, 150, 1, "149", NULL, NULL}, /* 149.3 g */
    {200000, 500, 150, 1, "218", "218", "in about 38 min"},
    {458000, 500, 150, 1, "499", "499", "in about 29 min"},
    {460000, 500, 150, 2, "2 of 2 cups: 250", "250", "in about 36 min"},
    {1000000, 500, 150, 3, "3 of 3 cups: 363", "363", "in about 32 min"},
    {1000000, NAN, 150, 1, "1090", "1090", "in about 22 min"},
    {1000000, NAN, NAN, 1, "1090", NULL, NULL},
};

/* Fails unless the text of a warning begins and ends so. */
static void ck_text(const char *code, const char *begin, const char *end) {
    ck_assert_ptr_nonnull(warned(code));
    const char *text = warned(code)->text;
    ck_assert_str_eq(warned(code)->where, "batch clear");
    ck_assert_msg(strncmp(text, begin, strlen(begin)) == 0, "%s", text);
    ck_assert_msg(strcmp(text + strlen(text) - strlen(end), end) == 0, "%s", text);
}

START_TEST(mass) {
    add_exactly(masses[_i].volume_mm3, NULL);
    job.resin.largest_mass_g = masses[_i].largest_g;
    job.resin.pot_mass_g = masses[_i].pot_g;
    if (isnan(masses[_i].pot_g))
        job.resin.pot_life_s = NAN; /* it cannot be stated without its mass */
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.batches[0].cup_count, masses[_i].cups);
    size_t told = masses[_i].hot ? 1 : 0;
    told += masses[_i].sooner ? 1 : 0;
    ck_assert_uint_eq(plan.warning_count, told);
    if (masses[_i].hot)
        ck_text("hot-cup", masses[_i].hot,
                " g in a narrow cup heat themselves, as all from 100 g on do: take a wide, shallow "
                "dish, and pour soon");
    if (masses[_i].sooner) {
        char begin[80];
        snprintf(begin, sizeof begin, "the pot life was stated for 150 g; %s", masses[_i].sooner);
        ck_text("pot-life-mass", begin, masses[_i].end);
        ck_assert_ptr_nonnull(strstr(warned("pot-life-mass")->text, " g in one cup set sooner, "));
    }
}
END_TEST

static void add_tests(TCase *cases) {
    tcase_add_loop_test(cases, density, 0, (int)(sizeof densities / sizeof *densities));
    tcase_add_loop_test(cases, ratio_contradiction, 0, (int)(sizeof ratios / sizeof *ratios));
    tcase_add_test(cases, mix_beyond_numbers);
    tcase_add_test(cases, colour_unused);
    tcase_add_test(cases, tint_cap);
    tcase_add_test(cases, small_batch);
    tcase_add_test(cases, tint_below_step);
    tcase_add_test(cases, no_batch);
    tcase_add_loop_test(cases, mass, 0, (int)(sizeof masses / sizeof *masses));
}

int main(void) {
    return planning_main("plan, resin", add_tests);
}
