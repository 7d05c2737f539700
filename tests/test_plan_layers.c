/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "failing.h"
#include "planning.h"
#include "solids.h"

#include <stdlib.h>
#include <string.h>

/*
 * Cavities deeper than one pour. Figures are worked by hand. The resin is poured at most 6 mm deep
 * and coated again after 4 h and, without sanding, until 10 h at 25 degC; with 52 kJ/mol that is
 * exp(52000/8.314463 (1/293.15 - 1/298.15)) = 1.430149 times as long at 20 degC.
 */
static const double slower = 1.430149;

/* Nothing is needed but what is carved or measured. */
static void plain_job(void) {
    job.crown_mm = job.soak_mm = job.reserve = job.resin.shrinkage = 0;
    job.cup.fixed_loss_g = 0;
    job.scale.step_g = 0.001;
    add_piece("sign", NULL, 300, 200, 40, 1);
}

/* 80 x 50 mm at the face, walls of 45 degrees, 60 x 30 mm at 10 mm: prismoids. */
static void add_tapered(void) {
    add_outline("rectangle 80 x 50 mm", "v 90 deg", 10, "red");
}

static void ck_layer(const runnel_layer *layer, double bottom_mm, double top_mm, double volume_mm3,
                     double surface_mm2) {
    ck_near(layer->bottom_mm, bottom_mm, 1e-12);
    ck_near_or(layer->top_mm, top_mm, 1e-12, 0);
    ck_near(layer->volume_mm3, volume_mm3, 1e-9);
    ck_near(layer->surface_mm2, surface_mm2, 1e-9);
}

START_TEST(two_layers_of_a_tapered_pocket) {
    /* 5/6 (60 x 30 + 4 x 65 x 35 + 70 x 40) and 5/6 (70 x 40 + 4 x 75 x 45 + 80 x 50). */
    plain_job();
    add_tapered();
    must_plan(RUNNEL_OK);
    const runnel_layers *layers = &plan.cavities[0].layers;
    ck_assert_uint_eq(layers->count, 2);
    ck_layer(&layers->items[0], 10, 5, 5 * 13700.0 / 6, 2800);
    ck_layer(&layers->items[1], 5, 0, 5 * 20300.0 / 6, 4000);
    ck_near(layers->items[0].volume_mm3 + layers->items[1].volume_mm3,
            plan.cavities[0].figures.volume_mm3, 1e-15);
    ck_near(layers->items[1].earliest_s, 14400 * slower, 1e-6);
    ck_near(layers->items[1].latest_s, 36000 * slower, 1e-6);
    ck_warned("layers", "sign / cavity 1",
              "10 mm deep, but 'table-top 2:1' is poured at most 6 mm deep at once: pour 2 layers "
              "of 5 mm, each from 5 h 44 min on and, without sanding, until 14 h 18 min after the "
              "one before");
}
END_TEST

START_TEST(the_crown_is_in_the_last_layer) {
    /* 10.4 mm in two: the first one ends at 4.8 mm. */
    plain_job();
    job.crown_mm = 0.4;
    add_tapered();
    must_plan(RUNNEL_OK);
    const runnel_layers *layers = &plan.cavities[0].layers;
    ck_assert_uint_eq(layers->count, 2);
    ck_near(layers->items[0].top_mm, 4.8, 1e-12);
    ck_near(layers->items[0].pour_mm, 5.2, 1e-12);
    ck_near(layers->items[1].pour_mm, 5.2, 1e-12);
    /* 12.4 mm would be two layers of 6.2 mm. */
    job.pieces[0].cavities[0].depth_limit_mm = 12;
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.cavities[0].layers.count, 3);
    /* 15.5 mm with a high one. */
    job.crown_mm = 3.5;
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.cavities[0].layers.count, 3);
    ck_near(plan.cavities[0].layers.items[2].pour_mm, 15.5 / 3, 1e-12);
}
END_TEST

START_TEST(a_crown_makes_a_layer) {
    /* 6 mm and 3 mm of crown are two of 4.5 mm; 5.6 and 0.4 mm are one. */
    plain_job();
    job.crown_mm = 3;
    add_outline("rectangle 80 x 50 mm", "flat diameter 3 mm", 6, "red");
    must_plan(RUNNEL_OK);
    const runnel_layers *layers = &plan.cavities[0].layers;
    ck_assert_uint_eq(layers->count, 2);
    ck_near(layers->items[0].top_mm, 1.5, 1e-12);
    ck_near(layers->items[1].crown_mm, 3, 1e-12);
    ck_warned("layers", "sign / cavity 1",
              "6 mm deep and 3 mm of crown, but 'table-top 2:1' is poured at most 6 mm deep at "
              "once: pour 2 layers of 4.5 mm, each from 5 h 44 min on and, without sanding, until "
              "14 h 18 min after the one before");
    job.crown_mm = 0.4;
    job.pieces[0].cavities[0].depth_mm = 5.6;
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.cavities[0].layers.count, 0);
    ck_not_warned("layers");
}
END_TEST

START_TEST(a_crown_in_two_layers) {
    /* 2 mm of a disc of 80 mm, and 9 mm on top of that with a margin of 1 mm all around, are two
     * layers of 5.5 mm: the cavity and 3.5 mm of crown, then the rest of it. */
    const double pi = 3.14159265358979323846;
    plain_job();
    job.crown_mm = 9;
    job.margin_mm = 1;
    add_outline("circle 80 mm", "flat diameter 3 mm", 2, "red");
    must_plan(RUNNEL_OK);
    const runnel_plan_batch *b = &plan.batches[0];
    double face_mm2 = 1600 * pi, crown_mm2 = 1681 * pi;
    ck_assert_uint_eq(b->cup_count, 2);
    ck_near(b->cups[0].load.poured_mm3, 2 * face_mm2 + 3.5 * crown_mm2, 1e-9);
    ck_near(b->cups[1].load.poured_mm3, 5.5 * crown_mm2, 1e-9);
    ck_near(b->terms.total_mm3, 2 * face_mm2 + 9 * crown_mm2, 1e-9);
    /* Where nobody told the footprint it makes no layer of its own: 2 + 3 mm are one. */
    planning_again();
    plain_job();
    job.crown_mm = 9;
    add_measured(30000, "red")->measured_deepest_mm = 2;
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.cavities[0].layers.count, 0);
    ck_not_warned("layers");
}
END_TEST

START_TEST(a_groove_along_a_path) {
    /* A round-nose cutter of radius 3 mm, 8 mm deep along 100 mm: below 4 mm half a circle and 1 mm
     * of straight walls, with half balls and half discs at the ends; above it walls alone. */
    const double pi = 3.14159265358979323846;
    double straight_mm2 = 600 + 9 * pi;
    plain_job();
    add_path("line 0,0 100,0 mm", "round-nose radius 3 mm", 8, "red");
    must_plan(RUNNEL_OK);
    const runnel_layers *layers = &plan.cavities[0].layers;
    ck_assert_uint_eq(layers->count, 2);
    ck_near(layers->items[0].volume_mm3, 450 * pi + 18 * pi + straight_mm2, 1e-7);
    ck_near(layers->items[1].volume_mm3, 4 * straight_mm2, 1e-7);
    ck_near(layers->items[0].volume_mm3 + layers->items[1].volume_mm3,
            plan.cavities[0].figures.volume_mm3, 1e-15);
}
END_TEST

START_TEST(a_pocket_of_a_round_nose) {
    /* A disc 40 mm across, cleared by a ball of radius 4 mm to 8 mm: its floor is 32 mm across and
     * rounds up over 4 mm. So above 4 mm the walls are straight. */
    const double pi = 3.14159265358979323846;
    plain_job();
    add_outline("circle 40 mm", "round-nose radius 4 mm", 8, "red");
    must_plan(RUNNEL_OK);
    const runnel_layers *layers = &plan.cavities[0].layers;
    ck_assert_uint_eq(layers->count, 2);
    ck_near(layers->items[1].volume_mm3, 400 * pi * 4, 1e-7);
}
END_TEST

START_TEST(layers_of_a_batch) {
    /* The tapered pocket in two layers, a shallow one in one, both of one colour: the surfaces are
     * poured together. */
    plain_job();
    add_tapered();
    add_outline("rectangle 20 x 10 mm", "flat diameter 3 mm", 3, "red");
    must_plan(RUNNEL_OK);
    const runnel_plan_batch *b = &plan.batches[0];
    double shallow_mm3 = plan.cavities[1].figures.volume_mm3;
    ck_assert_uint_eq(b->layer_count, 2);
    ck_assert_uint_eq(b->cup_count, 2);
    ck_assert_uint_eq(b->cups_ruled, 0);
    ck_assert_uint_eq(b->cups[0].layer, 1);
    ck_assert_uint_eq(b->cups[0].fill_count, 1);
    ck_assert_uint_eq(b->cups[0].fills[0].layer, 1);
    ck_near(b->cups[0].load.poured_mm3, 5 * 13700.0 / 6, 1e-9);
    ck_near(b->cups[0].earliest_s, 0, 0);
    ck_near(b->cups[0].latest_s, 0, 0);
    ck_assert_uint_eq(b->cups[1].layer, 2);
    ck_assert_uint_eq(b->cups[1].fill_count, 2);
    ck_assert_uint_eq(b->cups[1].fills[0].cavity, 0);
    ck_assert_uint_eq(b->cups[1].fills[0].layer, 2);
    ck_assert_uint_eq(b->cups[1].fills[1].cavity, 1);
    ck_assert_uint_eq(b->cups[1].fills[1].layer, 1);
    ck_near(b->cups[1].load.poured_mm3, 5 * 20300.0 / 6 + shallow_mm3, 1e-9);
    ck_near(b->cups[1].earliest_s, 14400 * slower, 1e-6);
    ck_near(b->cups[1].latest_s, 36000 * slower, 1e-6);
}
END_TEST

START_TEST(terms_of_a_layer) {
    /* The first layer takes no crown, and half of the soak, as it is half as deep: (11416.667/0.98
     * + wall x 0.1/2) x 1.1. A time of 60 s goes with the volume. */
    plain_job();
    job.soak_mm = 0.1;
    job.reserve = 0.1;
    job.resin.shrinkage = 0.02;
    job.resin.pot_life_s = 3600;
    add_tapered();
    job.pieces[0].pour_s = 60;
    must_plan(RUNNEL_OK);
    const runnel_plan_batch *b = &plan.batches[0];
    double first_mm3 = (5 * 13700.0 / 6 / 0.98 + plan.cavities[0].figures.wall_mm2 * 0.05) * 1.1;
    ck_near(b->cups[0].load.poured_mm3, first_mm3, 1e-9);
    ck_near(b->cups[0].load.poured_mm3 + b->cups[1].load.poured_mm3, b->terms.total_mm3, 1e-12);
    ck_near(b->pour_s, 60, 1e-12);
    ck_near(b->cups[0].load.pour_s, 60 * first_mm3 / b->terms.total_mm3, 1e-9);
    /* With a crown, the last layer has all of it. */
    job.crown_mm = 0.5;
    must_plan(RUNNEL_OK);
    b = &plan.batches[0];
    const runnel_layers *layers = &plan.cavities[0].layers;
    double share = layers->items[1].bottom_mm / 10;
    ck_near(b->cups[1].load.poured_mm3,
            ((layers->items[1].volume_mm3 + b->terms.crown_mm3) / 0.98 +
             plan.cavities[0].figures.wall_mm2 * 0.1 * share) *
                1.1,
            1e-9);
}
END_TEST

START_TEST(a_measured_hole) {
    /* 10 mm deep, and the shape is not known: two layers of equal thickness, half of it each. */
    plain_job();
    add_measured(30000, "red")->measured_deepest_mm = 10;
    must_plan(RUNNEL_OK);
    const runnel_layers *layers = &plan.cavities[0].layers;
    ck_assert_uint_eq(layers->count, 2);
    ck_near(layers->items[0].top_mm, 5, 1e-12);
    ck_near(layers->items[0].volume_mm3, NAN, 0);
    ck_near(layers->items[0].volume_error_mm3, NAN, 0);
    ck_near(layers->items[1].surface_mm2, NAN, 0);
    ck_near(layers->volume_mm3, NAN, 0);
    ck_near(plan.batches[0].cups[0].load.poured_mm3, 15000, 1e-12);
    ck_near(plan.batches[0].cups[1].load.poured_mm3, 15000, 1e-12);
    ck_warned("layers", "sign / cavity 1",
              "10 mm deep, but 'table-top 2:1' is poured at most 6 mm deep at once: pour 2 layers "
              "of 5 mm, each from 5 h 44 min on and, without sanding, until 14 h 18 min after the "
              "one before; what goes into each is by its thickness, as the shape is not known");
    job.pieces[0].cavities[0].measured_deepest_mm = 0; /* not known */
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.cavities[0].layers.count, 0);
    ck_assert_uint_eq(plan.batches[0].layer_count, 1);
}
END_TEST

START_TEST(times_that_are_not_known) {
    plain_job();
    job.shop_degc = 5; /* below the lowest */
    add_tapered();
    must_plan(RUNNEL_NOT_POSSIBLE);
    ck_near(plan.cavities[0].layers.items[1].earliest_s, NAN, 0);
    ck_near(plan.batches[0].cups[1].earliest_s, NAN, 0);
    ck_near(plan.batches[0].cups[1].latest_s, NAN, 0);
    ck_warned("layers", "sign / cavity 1",
              "10 mm deep, but 'table-top 2:1' is poured at most 6 mm deep at once: pour 2 layers "
              "of 5 mm and keep to the recoat window");
}
END_TEST

START_TEST(layers_without_number) {
    plain_job();
    job.resin.deepest_layer_mm = 0.009;
    add_tapered();
    must_plan(RUNNEL_OK);
    ck_assert_uint_eq(plan.cavities[0].layers.count, 0);
    ck_warned("layers", "sign / cavity 1",
              "10 mm deep, but 'table-top 2:1' is poured at most 0.01 mm deep at once, which makes "
              "more than 1000 layers");
}
END_TEST

/* ---- What holds for any job -------------------------------------------------------------------*/

enum { JOBS = 300 };

static void add_chance_cavity(chance *c) {
    static const char *const colours[] = {"red", "blue"};
    const char *colour = colours[chance_below(c, 2)];
    double depth_mm = chance_between(c, 1, 16);
    switch (chance_below(c, 4)) {
    case 0:
        add_outline("circle 60 mm", "v 60 deg", depth_mm, colour)->form.a_mm =
            chance_between(c, 10, 90);
        break;
    case 1: {
        runnel_form *form = &add_outline("circle 60 mm", "v 90 deg", depth_mm, colour)->form;
        form->kind = RUNNEL_FORM_POLYGON;
        add_star(&form->corners, c, 0, 0, 10, 40, 3 + chance_below(c, 6));
        break;
    }
    case 2:
        add_path("rectangle 60 x 40 mm", "flat radius 2 mm", depth_mm, colour);
        break;
    default:
        add_measured(chance_between(c, 100, 50000), colour)->measured_deepest_mm = depth_mm;
    }
}

/* How often each layer of a cavity is filled, and that the sums are right. */
static void ck_layers(size_t cavity) {
    const runnel_plan_cavity *of = &plan.cavities[cavity];
    size_t layers = of->layers.count ? of->layers.count : 1;
    double filled[8] = {0}, volume_mm3 = 0;
    ck_assert_uint_le(layers, 8);
    for (size_t n = 0; n < plan.batch_count; n++) {
        const runnel_plan_batch *b = &plan.batches[n];
        for (size_t i = 0; i < b->cup_count; i++) {
            for (size_t k = 0; k < b->cups[i].fill_count; k++) {
                const runnel_plan_fill *fill = &b->cups[i].fills[k];
                if (fill->cavity != cavity)
                    continue;
                ck_assert_uint_le(fill->layer, layers);
                /* Last layers go together. */
                ck_assert_uint_eq(b->cups[i].layer - fill->layer, b->layer_count - layers);
                filled[fill->layer - 1] += fill->first_share;
                if (fill->last > fill->first)
                    filled[fill->layer - 1] +=
                        fill->last_share + (double)(fill->last - fill->first) - 1;
            }
        }
    }
    for (size_t i = 0; i < layers; i++)
        ck_near(filled[i], (double)of->piece_count, 1e-9);
    for (size_t i = 0; i < of->layers.count; i++) {
        ck_assert(of->layers.items[i].pour_mm <= 6 * (1 + 1e-9));
        volume_mm3 += of->layers.items[i].volume_mm3;
    }
    if (of->layers.count && !of->measured)
        ck_near(volume_mm3, of->figures.volume_mm3, 1e-13);
}

static void ck_batch(const runnel_plan_batch *b) {
    double poured_mm3 = 0;
    for (size_t i = 0; i < b->cup_count; i++)
        poured_mm3 += b->cups[i].load.poured_mm3;
    ck_near(b->terms.total_mm3 - b->terms.cup_loss_mm3, poured_mm3, 1e-10);
}

START_TEST(layers_make_up_their_cavity) {
    chance c = {7};
    size_t several = 0;
    for (int i = 0; i < JOBS; i++) {
        planning_again();
        job.flatten_mm = 0.05;
        job.crown_mm = chance_between(&c, 0, 10);
        job.size_to = chance_below(&c, 2) ? RUNNEL_SIZE_HIGH : RUNNEL_SIZE_LIKELY;
        add_piece("sign", NULL, 400, 400, 60, 1 + chance_below(&c, 4));
        for (size_t n = 1 + chance_below(&c, 4); n; n--)
            add_chance_cavity(&c);
        ck_assert_int_eq(runnel_job_check(&job, planning_tables(), &problems), RUNNEL_OK);
        runnel_status status = runnel_plan_make(&job, planning_tables(), NULL, &problems, &plan);
        ck_assert_msg(!status || status == RUNNEL_NOT_POSSIBLE, "%s", runnel_status_name(status));
        for (size_t n = 0; n < plan.batch_count; n++)
            ck_batch(&plan.batches[n]);
        for (size_t k = 0; k < plan.cavity_count; k++) {
            ck_layers(k);
            several += plan.cavities[k].layers.count > 1;
        }
    }
    ck_assert_uint_gt(several, JOBS / 2);
}
END_TEST

START_TEST(every_allocation_may_fail) {
    plain_job();
    add_measured(30000, "red")->measured_deepest_mm = 10;
    add_measured(5000, "red");
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
    ck_assert_uint_gt(allowed, 20);
}
END_TEST

static void add_tests(TCase *cases) {
    tcase_add_test(cases, two_layers_of_a_tapered_pocket);
    tcase_add_test(cases, the_crown_is_in_the_last_layer);
    tcase_add_test(cases, a_crown_makes_a_layer);
    tcase_add_test(cases, a_crown_in_two_layers);
    tcase_add_test(cases, a_groove_along_a_path);
    tcase_add_test(cases, a_pocket_of_a_round_nose);
    tcase_add_test(cases, layers_of_a_batch);
    tcase_add_test(cases, terms_of_a_layer);
    tcase_add_test(cases, a_measured_hole);
    tcase_add_test(cases, times_that_are_not_known);
    tcase_add_test(cases, layers_without_number);
    tcase_add_test(cases, layers_make_up_their_cavity);
    tcase_add_test(cases, every_allocation_may_fail);
}

int main(void) {
    return planning_main("plan, layers", add_tests);
}
