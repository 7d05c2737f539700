/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "planning.h"
#include "runnel/memory.h"
#include "solids.h"
#include "wrapped.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/*
 * What holds for any job, tried on many: the same ones on every run.
 */

/* How many; memcheck takes its time. */
static int jobs(void) {
    return is_wrapped() ? 30 : is_long() ? 500 : 120;
}

/* ---- Jobs by chance ---------------------------------------------------------------------------*/

static const char *const colours[] = {"amber", "slate", NULL};
static const char *const woods[] = {"hard maple", "white oak", NULL};

static void add_polygon(chance *c, runnel_job_cavity *cavity) {
    cavity->form.kind = RUNNEL_FORM_POLYGON;
    double outer = chance_between(c, 5, 60);
    add_star(&cavity->form.corners, c, 0, 0, 0.3 * outer, outer, 3 + chance_below(c, 12));
}

static void add_polyline(chance *c, runnel_job_cavity *cavity) {
    cavity->form.kind = RUNNEL_FORM_POLYLINE;
    add_scribble(&cavity->form.corners, c, 80, 2 + chance_below(c, 5));
}

/* A rectangle, rounded or not, a circle or an ellipse. */
static void add_primitive(chance *c, runnel_job_cavity *cavity) {
    static const runnel_form_kind kinds[] = {RUNNEL_FORM_RECTANGLE, RUNNEL_FORM_ROUNDED_RECTANGLE,
                                             RUNNEL_FORM_CIRCLE, RUNNEL_FORM_ELLIPSE};
    runnel_form *form = &cavity->form;
    form->kind = kinds[chance_below(c, 4)];
    form->a_mm = chance_between(c, 4, 120);
    form->b_mm = chance_between(c, 4, 120);
    form->r_mm = chance_between(c, 0.1, 0.5) * fmin(form->a_mm, form->b_mm);
}

static void add_cavity(chance *c) {
    static const char *const v[] = {"v 30 deg", "v 60 deg", "v 90 deg tip 0.4 mm"};
    static const char *const other[] = {"round-nose radius 3 mm", "flat radius 1.5 mm", "v 60 deg"};
    bool is_path = chance_below(c, 2), by_walls = !is_path && chance_below(c, 4) > 0;
    const char *colour = colours[chance_below(c, 3)];
    const char *cutter = by_walls ? v[chance_below(c, 3)] : other[chance_below(c, is_path ? 3 : 2)];
    double depth_mm = chance_between(c, 0.5, 8);
    runnel_job_cavity *cavity = is_path ? add_path("circle 9 mm", cutter, depth_mm, colour)
                                        : add_outline("circle 9 mm", cutter, depth_mm, colour);
    if (chance_below(c, 3) > 0)
        add_primitive(c, cavity);
    else if (is_path)
        add_polyline(c, cavity);
    else
        add_polygon(c, cavity);
}

/* A job of up to three pieces with up to three cavities each. */
static void add_job(chance *c) {
    job.flatten_mm = 0.05; /* few chords, for the sake of time */
    job.crown_mm = chance_between(c, 0, 1);
    job.margin_mm = chance_between(c, 0, 3);
    job.reserve = chance_between(c, 0, 0.3);
    job.sealed = chance_below(c, 2);
    job.size_to = chance_below(c, 2) ? RUNNEL_SIZE_HIGH : RUNNEL_SIZE_LIKELY;
    job.resin.shrinkage = chance_between(c, 0, 0.06);
    if (chance_below(c, 2))
        job.cup.fixed_loss_g = chance_between(c, 0, 10);
    for (size_t pieces = 1 + chance_below(c, 3); pieces; pieces--) {
        add_piece(NULL, woods[chance_below(c, 3)], 300, 200, 40, 1 + chance_below(c, 9));
        for (size_t cavities = 1 + chance_below(c, 3); cavities; cavities--)
            add_cavity(c);
    }
}

/* Plans without a word, into `made`. */
static void plan_quietly(runnel_plan *made) {
    runnel_status status = runnel_job_check(&job, planning_tables(), &problems);
    ck_assert_msg(!status, "%s", problems.count ? problems.items[0].text : "");
    runnel_plan_clear(made);
    status = runnel_plan_make(&job, planning_tables(), NULL, &problems, made);
    ck_assert_msg(!status || status == RUNNEL_NOT_POSSIBLE, "%s: %s", runnel_status_name(status),
                  problems.count ? problems.items[0].text : "");
}

/* ---- Properties -------------------------------------------------------------------------------*/

static void scale_job(double k) {
    job.flatten_mm *= k;
    for (size_t p = 0; p < job.piece_count; p++) {
        for (size_t i = 0; i < job.pieces[p].cavity_count; i++) {
            runnel_job_cavity *cavity = &job.pieces[p].cavities[i];
            runnel_form *form = &cavity->form;
            form->a_mm *= k;
            form->b_mm *= k;
            form->r_mm *= k;
            for (size_t n = 0; n < form->corners.point_count; n++) {
                form->corners.points[n].x_mm *= k;
                form->corners.points[n].y_mm *= k;
            }
            cavity->cut.cutter.tip_mm *= k;
            cavity->cut.cutter.radius_mm *= k;
            cavity->depth_mm *= k;
            cavity->depth_limit_mm *= k;
        }
    }
    for (size_t p = 0; p < job.piece_count; p++)
        job.pieces[p].thickness_mm = 1000; /* whatever the depth, it does not come out */
}

/* k times as large in all lengths, k^3 times the volume. */
START_TEST(volume_goes_with_the_cube) {
    chance c = {1};
    runnel_plan larger = {0};
    const int count = jobs();
    for (int i = 0; i < count; i++) {
        planning_again();
        add_job(&c);
        plan_quietly(&plan);
        double k = chance_between(&c, 0.4, 2.5);
        scale_job(k);
        plan_quietly(&larger);
        ck_assert_uint_eq(larger.cavity_count, plan.cavity_count);
        for (size_t n = 0; n < plan.cavity_count; n++) {
            const runnel_cavity *f = &plan.cavities[n].figures, *g = &larger.cavities[n].figures;
            ck_near_or(g->volume_mm3, k * k * k * f->volume_mm3, 1e-9, 1e-9);
            ck_near_or(g->footprint_mm2, k * k * f->footprint_mm2, 1e-9, 1e-9);
            ck_near_or(g->wall_mm2, k * k * f->wall_mm2, 1e-9, 1e-9);
            ck_near_or(g->deepest_mm, k * f->deepest_mm, 1e-9, 0);
        }
    }
    runnel_plan_clear(&larger);
}
END_TEST

static char *copy(const char *text) {
    return text_for_job(text);
}

/* A copy of a cavity in the last piece. */
static void add_copy(const runnel_job_cavity *from) {
    runnel_job_cavity *to;
    runnel_job_piece *piece = &job.pieces[job.piece_count - 1];
    ck_assert_int_eq(runnel_job_add_cavity(piece, &to), RUNNEL_OK);
    *to = *from;
    to->name = to->cutter_name = NULL;
    to->colour = copy(from->colour);
    runnel_contours_init(&to->form.corners);
    ck_assert_int_eq(runnel_contours_append(&to->form.corners, &from->form.corners, 1, 0, 0),
                     RUNNEL_OK);
}

/* Takes some of a piece's copies out into a piece of their own at the end. */
static void split_piece(size_t index, size_t out) {
    runnel_job_piece *from = &job.pieces[index];
    from->count -= out;
    add_piece(NULL, from->wood, from->length_mm, from->width_mm, from->thickness_mm, out);
    for (size_t i = 0; i < job.pieces[index].cavity_count; i++)
        add_copy(&job.pieces[index].cavities[i]);
}

/* The batch of a colour. */
static const runnel_plan_batch *batch_of(const runnel_plan *of, const char *colour) {
    for (size_t i = 0; i < of->batch_count; i++)
        if (strcmp(of->batches[i].colour, colour) == 0)
            return &of->batches[i];
    ck_abort_msg("no batch '%s'", colour);
    return NULL;
}

static void ck_same_batch(const runnel_plan_batch *one, const runnel_plan_batch *other) {
    ck_near(other->terms.cavity_mm3, one->terms.cavity_mm3, 1e-13);
    ck_near(other->terms.crown_mm3, one->terms.crown_mm3, 1e-13);
    ck_near(other->terms.shrinkage_mm3, one->terms.shrinkage_mm3, 1e-13);
    ck_near(other->terms.soak_mm3, one->terms.soak_mm3, 1e-13);
    ck_near_or(other->terms.allowance_mm3, one->terms.allowance_mm3, 1e-12, 1e-9);
    ck_near(other->terms.reserve_mm3, one->terms.reserve_mm3, 1e-13);
    ck_near(other->terms.total_mm3 - other->terms.cup_loss_mm3,
            one->terms.total_mm3 - one->terms.cup_loss_mm3, 1e-12);
    ck_assert_int_eq(other->cup_count == 1, one->cup_count == 1);
    /* Cavities are not parted, so several cups are filled otherwise when the order is another. */
    if (one->cup_count == 1)
        ck_near(other->terms.cup_loss_mm3, one->terms.cup_loss_mm3, 1e-12); /* a root */
    ck_near(other->volume_error_mm3, one->volume_error_mm3, 1e-13);
}

/* Seven boards are three boards and four boards. */
START_TEST(a_piece_in_two_parts) {
    chance c = {2};
    runnel_plan parted = {0};
    const int count = jobs();
    for (int i = 0; i < count; i++) {
        planning_again();
        add_job(&c);
        size_t index = chance_below(&c, job.piece_count);
        size_t out = 1 + chance_below(&c, 5);
        job.pieces[index].count = out + 1 + chance_below(&c, 5);
        plan_quietly(&plan);
        split_piece(index, out);
        plan_quietly(&parted);
        ck_assert_uint_eq(parted.batch_count, plan.batch_count);
        for (size_t n = 0; n < plan.batch_count; n++)
            ck_same_batch(&plan.batches[n], batch_of(&parted, plan.batches[n].colour));
    }
    runnel_plan_clear(&parted);
}
END_TEST

/* Changes that can only make more of it, one after the other. */
static void more_crown(chance *c) {
    job.crown_mm += chance_between(c, 0, 1);
}
static void more_margin(chance *c) {
    job.margin_mm += chance_between(c, 0, 2);
}
static void more_reserve(chance *c) {
    job.reserve += chance_between(c, 0, 0.2);
}
static void more_soak(chance *c) {
    job.soak_mm = chance_between(c, 0.08, 0.2); /* above that of any wood here */
}
static void more_shrinkage(chance *c) {
    job.resin.shrinkage += chance_between(c, 0, 0.03);
}
static void one_more_piece(chance *c) {
    job.pieces[chance_below(c, job.piece_count)].count++;
}

START_TEST(more_never_needs_less) {
    static void (*const more[])(chance *) = {more_crown,     more_margin,    more_reserve,
                                             more_shrinkage, one_more_piece, more_soak};
    chance c = {3};
    runnel_plan after = {0};
    const int count = jobs();
    for (int i = 0; i < count; i++) {
        planning_again();
        add_job(&c);
        plan_quietly(&plan);
        more[i % 6](&c);
        plan_quietly(&after);
        for (size_t n = 0; n < plan.batch_count; n++) {
            double before_mm3 = plan.batches[n].terms.total_mm3;
            ck_assert_msg(after.batches[n].terms.total_mm3 >= before_mm3 * (1 - 1e-14),
                          "job %d: %.17g after %.17g", i, after.batches[n].terms.total_mm3,
                          before_mm3);
        }
    }
    runnel_plan_clear(&after);
}
END_TEST

/* What is weighed covers what is needed, of either part, and adds up; the figures make sense. */
START_TEST(needs_are_met) {
    chance c = {4};
    const int count = jobs();
    for (int i = 0; i < count; i++) {
        planning_again();
        add_job(&c);
        job.scale.step_g = i % 2 ? 0.1 : 1;
        plan_quietly(&plan);
        for (size_t n = 0; n < plan.batch_count; n++) {
            const runnel_plan_batch *b = &plan.batches[n];
            double need_g = b->terms.total_mm3 / 1000 * 1.09;
            ck_assert(b->weighing.part_a_g >= need_g * (2.32 / 3.27) * (1 - 1e-11));
            ck_assert(b->weighing.part_b_g >= need_g * (0.95 / 3.27) * (1 - 1e-11));
        }
        for (size_t n = 0; n < plan.cavity_count; n++) {
            const runnel_plan_cavity *p = &plan.cavities[n];
            const runnel_cavity *f = &p->figures;
            double deepest_mm3 = f->footprint_mm2 * f->deepest_mm;
            ck_assert(f->volume_mm3 <= deepest_mm3 * (1 + 1e-9));
            ck_assert(f->footprint_mm2 <= p->width_mm * p->height_mm * (1 + 1e-9));
            ck_assert(f->wall_mm2 >= f->footprint_mm2 * (1 - 1e-9));
            ck_assert(p->margin_mm2 >= 0);
            /* A wall may stand off by the chord error. */
            double off_mm3 = 0.05 * f->wall_mm2 + 1e-9 * (1 + f->volume_mm3);
            ck_assert(f->volume_error_mm3 >= 0 && f->volume_error_mm3 <= off_mm3);
        }
    }
}
END_TEST

static void add_tests(TCase *cases) {
    tcase_add_test(cases, volume_goes_with_the_cube);
    tcase_add_test(cases, a_piece_in_two_parts);
    tcase_add_test(cases, more_never_needs_less);
    tcase_add_test(cases, needs_are_met);
}

int main(void) {
    return planning_main("plan, by chance", add_tests);
}
