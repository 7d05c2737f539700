/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "planning.h"

#include <string.h>

/*
 * Low, likely and high of cavities and batches, and what a batch has on top. Figures are worked by
 * hand.
 */

/* Nothing is needed but the cavities, with what they drink and what is uncertain. */
static void plain_job(void) {
    job.size_to = RUNNEL_SIZE_HIGH;
    job.crown_mm = job.soak_mm = job.reserve = job.resin.shrinkage = 0;
    job.cup.fixed_loss_g = 0;
    job.scale.step_g = 0.001;
    add_piece("sign", NULL, 300, 200, 40, 3);
}

/* 60 x 40 mm less the corners that a cutter of radius 1.5 mm leaves, (4 - pi) 2.25 mm2. */
static const double pocket_mm2 = 2400 - 0.8584073464102069 * 2.25;

static void add_pocket(void) {
    add_outline("rectangle 60 x 40 mm", "flat diameter 3 mm", 4, "red");
}

START_TEST(usual_errors) {
    const runnel_band_errors *errors = &job.errors;
    ck_near(errors->depth_mm, 0.1, 0); /* common practice, all four */
    ck_near(errors->angle_deg, 1, 0);
    ck_near(errors->flatness_mm, 0.2, 0);
    ck_near(errors->soak, 0.5, 0);
    ck_assert(job.errors_are_default);
    runnel_job fresh;
    runnel_job_init(&fresh);
    ck_assert_int_eq(fresh.size_to, RUNNEL_SIZE_HIGH);
    runnel_job_clear(&fresh);
}
END_TEST

START_TEST(a_pocket) {
    /* 0.1 mm of depth is a tenth of the area, 0.2 mm twice that; both by the root of the sum of
     * squares, sqrt(5) of the first. */
    plain_job();
    add_pocket();
    must_plan(RUNNEL_OK);
    const runnel_band *band = &plan.cavities[0].band;
    double tenth_mm3 = 0.1 * pocket_mm2;
    ck_near(band->likely_mm3, 4 * pocket_mm2, 1e-9);
    ck_near(band->high_mm3, 4 * pocket_mm2 + sqrt(5) * tenth_mm3, 1e-9);
    ck_near(band->low_mm3, 4 * pocket_mm2 - sqrt(5) * tenth_mm3, 1e-9);
    ck_near(band->parts[RUNNEL_BAND_DEPTH].share, 0.2, 1e-9);
    ck_near(band->parts[RUNNEL_BAND_FLATNESS].share, 0.8, 1e-9);
    ck_near(band->parts[RUNNEL_BAND_ANGLE].share, 0, 0);
    ck_near(band->parts[RUNNEL_BAND_SOAK].share, 0, 0);
    const runnel_plan_batch *b = &plan.batches[0];
    ck_near(b->band.high_mm3, 3 * band->high_mm3, 1e-12);
    ck_near(b->terms.cavity_mm3, 12 * pocket_mm2, 1e-9);
    ck_near(b->terms.allowance_mm3, 3 * sqrt(5) * tenth_mm3, 1e-9);
    ck_near(b->terms.total_mm3, 3 * band->high_mm3, 1e-12);
    ck_near(b->allowance_share, 1, 1e-12);
    job.size_to = RUNNEL_SIZE_LIKELY;
    must_plan(RUNNEL_OK);
    b = &plan.batches[0];
    ck_near(b->terms.allowance_mm3, 0, 0);
    ck_near(b->allowance_share, 0, 0);
    ck_near(b->terms.total_mm3, 12 * pocket_mm2, 1e-9);
    ck_near(b->band.high_mm3, 3 * plan.cavities[0].band.high_mm3, 1e-12);
}
END_TEST

START_TEST(a_measured_hole) {
    /* Nothing of it was cut; 50 cm2 drink 100 ml/m2, 0.5 ml, which may be half of it more. */
    plain_job();
    job.soak_mm = 0.1;
    add_measured(20000, "red")->measured_wall_mm2 = 5000;
    must_plan(RUNNEL_OK);
    const runnel_band *band = &plan.cavities[0].band;
    ck_near(band->low_mm3, 20250, 1e-12);
    ck_near(band->likely_mm3, 20500, 1e-12);
    ck_near(band->high_mm3, 20750, 1e-12);
    ck_near(band->parts[RUNNEL_BAND_SOAK].share, 1, 0);
    ck_near(plan.batches[0].terms.allowance_mm3, 750, 1e-12);
    job.errors.soak = 0;
    must_plan(RUNNEL_OK);
    ck_near(plan.batches[0].terms.allowance_mm3, 0, 0);
    ck_near(plan.cavities[0].band.high_mm3, 20500, 1e-12);
}
END_TEST

START_TEST(causes_of_two_cavities) {
    /* The depth of one and the soak of the other: sqrt(5) t and 250 mm3 each on their own, and the
     * root of the sum of squares together. */
    plain_job();
    job.pieces[0].count = 1;
    add_pocket();
    add_measured(20000, "red")->measured_wall_mm2 = 5000;
    job.soak_mm = 0;
    must_plan(RUNNEL_OK);
    double depth_mm3 = sqrt(5) * 0.1 * pocket_mm2;
    ck_near(plan.batches[0].terms.allowance_mm3, depth_mm3, 1e-9);
    job.soak_mm = 0.1;
    must_plan(RUNNEL_OK);
    const runnel_plan_batch *b = &plan.batches[0];
    double wall_mm2 = plan.cavities[0].figures.wall_mm2;
    double soak_mm3 = 0.05 * (wall_mm2 + 5000);
    double both_mm3 = hypot(depth_mm3, soak_mm3);
    ck_near(b->terms.allowance_mm3, both_mm3, 1e-9);
    ck_near(b->allowance_share, both_mm3 / (hypot(depth_mm3, 0.05 * wall_mm2) + 250), 1e-9);
    ck_near(b->band.parts[RUNNEL_BAND_SOAK].share, soak_mm3 * soak_mm3 / (both_mm3 * both_mm3),
            1e-9);
    ck_near(b->cups[0].load.poured_mm3, b->terms.total_mm3, 1e-12);
}
END_TEST

START_TEST(a_v) {
    /* A V has its angle, too. Over the depth by the parabola through the three volumes, which the
     * figures of the cavity are: at 0.1 mm those themselves, at 0.2 mm 3 of the one and 1 of the
     * other. */
    plain_job();
    job.pieces[0].count = 1;
    add_outline("rectangle 60 x 40 mm", "v 60 deg", 5, "red");
    must_plan(RUNNEL_OK);
    const runnel_cavity *f = &plan.cavities[0].figures;
    const runnel_band *band = &plan.cavities[0].band;
    double up1 = f->depth_plus_mm3, down1 = -f->depth_minus_mm3;
    double up2 = 3 * up1 - down1, down2 = 3 * down1 - up1;
    double turn = fabs(f->angle_mm3_per_degree);
    ck_near(band->parts[RUNNEL_BAND_DEPTH].up_mm3, up1, 1e-9);
    ck_near(band->parts[RUNNEL_BAND_FLATNESS].up_mm3, up2, 1e-9);
    ck_near(band->parts[RUNNEL_BAND_FLATNESS].down_mm3, down2, 1e-9);
    ck_near(band->parts[RUNNEL_BAND_ANGLE].up_mm3, turn, 1e-9);
    ck_near(band->high_mm3, f->volume_mm3 + sqrt(up1 * up1 + up2 * up2 + turn * turn), 1e-12);
}
END_TEST

START_TEST(reserve_and_crown) {
    /* The reserve is on all but the cup loss; crown and shrinkage know nothing of the allowance. */
    plain_job();
    add_measured(20000, "red")->measured_wall_mm2 = 5000;
    job.pieces[0].cavities[0].measured_footprint_mm2 = 1000;
    job.soak_mm = 0.1;
    job.crown_mm = 0.5;
    job.reserve = 0.1;
    job.resin.shrinkage = 0.02;
    must_plan(RUNNEL_OK);
    const runnel_terms *t = &plan.batches[0].terms;
    ck_near(t->allowance_mm3, 750, 1e-12);
    ck_near(t->shrinkage_mm3, 61500 * 0.02 / 0.98, 1e-12);
    ck_near(t->reserve_mm3, 0.1 * (61500 / 0.98 + 1500 + 750), 1e-12);
    ck_near(t->total_mm3, 1.1 * (61500 / 0.98 + 1500 + 750), 1e-12);
}
END_TEST

START_TEST(layers_share_it) {
    /* 80 x 50 mm at the face, 70 x 40 at 5 mm, 60 x 30 at 10 mm: the lower layer has 137 of 340
     * parts, and as much of the allowance. */
    plain_job();
    job.pieces[0].count = 1;
    add_outline("rectangle 80 x 50 mm", "v 90 deg", 10, "red");
    must_plan(RUNNEL_OK);
    const runnel_plan_batch *b = &plan.batches[0];
    ck_assert_uint_eq(b->cup_count, 2);
    ck_near(b->cups[0].load.poured_mm3, b->terms.total_mm3 * 137 / 340, 1e-9);
    ck_near(b->cups[1].load.poured_mm3, b->terms.total_mm3 * 203 / 340, 1e-9);
}
END_TEST

START_TEST(nothing_cut) {
    /* What might be cut if the cutter ran deeper is no reason to mix a batch. */
    plain_job();
    add_outline("rectangle 1 x 1 mm", "flat radius 3 mm", 2, "red");
    must_plan(RUNNEL_NOT_POSSIBLE);
    ck_near(plan.cavities[0].band.high_mm3, 0, 0);
    ck_assert_uint_eq(plan.batch_count, 0);
}
END_TEST

static void add_tests(TCase *cases) {
    tcase_add_test(cases, usual_errors);
    tcase_add_test(cases, a_pocket);
    tcase_add_test(cases, a_measured_hole);
    tcase_add_test(cases, causes_of_two_cavities);
    tcase_add_test(cases, a_v);
    tcase_add_test(cases, reserve_and_crown);
    tcase_add_test(cases, layers_share_it);
    tcase_add_test(cases, nothing_cut);
}

int main(void) {
    return planning_main("plan, band", add_tests);
}
