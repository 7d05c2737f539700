/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * From cavities to batches: one for each colour, all pieces counted.
 */
#include "plan/make.h"

#include "base/memory.h"
#include "base/sum.h"

#include <math.h>
#include <string.h>

double runnel_soak_of(const runnel_making *making, const runnel_job_piece *piece, bool *assumed) {
    const runnel_job *job = making->job;
    *assumed = false;
    if (job->soak_mm >= 0)
        return job->soak_mm;
    const runnel_wood *wood =
        piece->wood && making->tables ? runnel_tables_wood(making->tables, piece->wood) : NULL;
    double bare = wood ? wood->soak_bare_ml_per_m2 : RUNNEL_SOAK_BARE_ML_PER_M2;
    double sealed = wood ? wood->soak_sealed_ml_per_m2 : RUNNEL_SOAK_SEALED_ML_PER_M2;
    *assumed = !wood;
    return (job->sealed ? sealed : bare) * 1e-3; /* 1 ml/m2 = 1000 mm3 / 1e6 mm2 */
}

/** Share of tint of a colour: its own, none for clear, else the resin's default. */
static double tint_of(const runnel_job *job, const char *colour) {
    for (size_t i = 0; i < job->colour_count; i++)
        if (strcmp(job->colours[i].name, colour) == 0 && job->colours[i].tint >= 0)
            return job->colours[i].tint;
    return strcmp(colour, "clear") == 0 ? 0 : job->resin.tint_default;
}

/** Sums over the cavities of one colour. */
typedef struct colour_sums {
    runnel_sum cavity, error, footprint, margin, wall, soak;
} colour_sums;

static void add_cavity(const runnel_making *making, const runnel_plan_cavity *cavity,
                       const runnel_job_piece *piece, colour_sums *sums) {
    bool assumed;
    double count = (double)cavity->piece_count;
    const runnel_cavity *f = &cavity->figures;
    runnel_sum_add(&sums->cavity, count * f->volume_mm3);
    runnel_sum_add(&sums->error, count * f->volume_error_mm3);
    runnel_sum_add(&sums->footprint, count * f->footprint_mm2);
    runnel_sum_add(&sums->margin, count * cavity->margin_mm2);
    runnel_sum_add(&sums->wall, count * f->wall_mm2);
    runnel_sum_add(&sums->soak, count * f->wall_mm2 * runnel_soak_of(making, piece, &assumed));
}

static void sum_colour(const runnel_making *making, const char *colour, colour_sums *sums) {
    size_t k = 0;
    for (size_t p = 0; p < making->job->piece_count; p++) {
        const runnel_job_piece *piece = &making->job->pieces[p];
        for (size_t c = 0; c < piece->cavity_count; c++, k++)
            if (strcmp(making->plan->cavities[k].colour, colour) == 0)
                add_cavity(making, &making->plan->cavities[k], piece, sums);
    }
}

static runnel_need need_of(const runnel_job *job, const colour_sums *sums) {
    double wall = runnel_sum_value(&sums->wall);
    return (runnel_need){.cavity_mm3 = runnel_sum_value(&sums->cavity),
                         .footprint_mm2 = runnel_sum_value(&sums->footprint),
                         .margin_mm2 = runnel_sum_value(&sums->margin),
                         .crown_mm = job->crown_mm,
                         .soak_wall_mm2 = wall,
                         .soak_mm = wall > 0 ? runnel_sum_value(&sums->soak) / wall : 0,
                         .shrinkage = job->resin.shrinkage,
                         .reserve = job->reserve};
}

/** A cup that keeps nothing. */
static const runnel_cup no_loss = {.fixed_loss_g = 0};

/** What a cavity may take beyond what is likely, in one piece. */
static double own_allowance(const runnel_plan_cavity *cavity) {
    return cavity->band.high_mm3 - cavity->band.likely_mm3;
}

/** What is left of the need of a cavity for one of its layers. */
static void part_need(const runnel_plan_cavity *cavity, size_t layer, runnel_need *need) {
    const runnel_layer *of = &cavity->layers.items[layer - 1];
    double share = (of->bottom_mm - of->top_mm) / cavity->figures.deepest_mm;
    double whole_mm3 = need->cavity_mm3;
    need->cavity_mm3 = isnan(of->volume_mm3) ? share * whole_mm3 : of->volume_mm3;
    need->allowance_mm3 *= whole_mm3 > 0 ? need->cavity_mm3 / whole_mm3 : share;
    need->soak_wall_mm2 *= share;
    need->crown_mm = of->crown_mm;
}

runnel_status runnel_poured_into(const runnel_making *making, const runnel_job_piece *piece,
                                 size_t cavity, size_t layer, double allowance_share,
                                 double *volume_mm3) {
    colour_sums sums = {0};
    runnel_plan_cavity one = making->plan->cavities[cavity]; /* borrows */
    runnel_terms terms;
    one.piece_count = 1;
    add_cavity(making, &one, piece, &sums);
    runnel_need need = need_of(making->job, &sums);
    need.allowance_mm3 = allowance_share * own_allowance(&one);
    if (one.layers.count > 1)
        part_need(&one, layer, &need);
    runnel_status status = runnel_terms_of(&need, &no_loss, &making->plan->mixture,
                                           making->job->resin.viscosity_pa_s, &terms);
    if (!status)
        *volume_mm3 = terms.total_mm3;
    return status;
}

/** Weighs the mix that will fill pinholes once the batch is level. */
static runnel_status weigh_top_up(const runnel_making *making, runnel_plan_batch *batch) {
    runnel_need need = {.cavity_mm3 = making->job->top_up * batch->terms.cavity_mm3};
    runnel_terms terms;
    runnel_allowed allowed = {0};
    if (!(need.cavity_mm3 > 0))
        return RUNNEL_OK;
    runnel_status status = runnel_weigh_need(making, &need, batch->tint, &terms, &allowed);
    if (status == RUNNEL_NOT_POSSIBLE) { /* told of the batch itself */
        batch->top_up_mm3 = batch->top_up.part_a_g = batch->top_up.part_b_g = NAN;
        batch->top_up.tint_g = NAN;
        return RUNNEL_OK;
    }
    if (status)
        return status;
    batch->top_up_mm3 = need.cavity_mm3;
    batch->top_up = allowed.weighing;
    return RUNNEL_OK;
}

/** Sums up and pours a batch; `total_mm3` stays 0 when nothing is needed. */
static runnel_status fill_batch(const runnel_making *making, runnel_plan_batch *batch) {
    const runnel_job *job = making->job;
    colour_sums sums = {0};
    sum_colour(making, batch->colour, &sums);
    runnel_need need = need_of(job, &sums);
    batch->volume_error_mm3 = runnel_sum_value(&sums.error);
    batch->tint = tint_of(job, batch->colour);
    runnel_status status = runnel_band_batch(making, batch);
    if (status)
        return status;
    if (job->size_to == RUNNEL_SIZE_HIGH)
        need.allowance_mm3 = batch->band.high_mm3 - batch->band.likely_mm3;
    status = runnel_terms_of(&need, &no_loss, &making->plan->mixture, job->resin.viscosity_pa_s,
                             &batch->terms);
    if (status || !(batch->terms.total_mm3 > 0))
        return status;
    status = runnel_shop_time(job, job->resin.pot_life_s, &batch->pot_life_s);
    if (!status)
        status = runnel_batch_pour(making, &need, batch);
    return status ? status : weigh_top_up(making, batch);
}

/** Tells why a batch could not be worked out. */
static runnel_status tell(const runnel_making *making, const char *colour, runnel_status status) {
    runnel_place place = {.file = making->job->file ? making->job->file : "command line",
                          .field = colour};
    return runnel_problems_add(making->problems, status, &place, "batch '%s': %s", colour,
                               status == RUNNEL_E_NOT_COMPUTED
                                   ? "the film left in a cup would be all that it may hold; give "
                                     "a wider or higher cup, a longer drain time or a fixed loss"
                                   : runnel_status_text(status));
}

/** Whether a cavity is the first of its colour. */
static bool is_new(const runnel_plan *plan, size_t cavity) {
    for (size_t i = 0; i < cavity; i++)
        if (strcmp(plan->cavities[i].colour, plan->cavities[cavity].colour) == 0)
            return false;
    return true;
}

/** Makes the batch of a colour and appends it, unless nothing is needed of it. */
static runnel_status add_batch(runnel_making *making, const char *colour) {
    runnel_plan *plan = making->plan;
    runnel_plan_batch batch = {.colour = runnel_copy_text(colour)};
    runnel_status status = runnel_reserve(&plan->batches, &plan->batch_capacity,
                                          plan->batch_count + 1, sizeof *plan->batches);
    if (status || !batch.colour) {
        status = RUNNEL_E_NO_MEMORY;
    } else {
        status = fill_batch(making, &batch);
        if (status)
            tell(making, colour, status);
    }
    if (status || !(batch.terms.total_mm3 > 0))
        runnel_plan_batch_clear(&batch);
    else
        plan->batches[plan->batch_count++] = batch;
    return status;
}

/** Whether two colours are in one piece. */
static bool are_neighbours(const runnel_job *job, const char *one, const char *other) {
    for (size_t p = 0; p < job->piece_count; p++) {
        bool has_one = false, has_other = false;
        for (size_t c = 0; c < job->pieces[p].cavity_count; c++) {
            const char *colour = job->pieces[p].cavities[c].colour;
            has_one = has_one || strcmp(colour, one) == 0;
            has_other = has_other || strcmp(colour, other) == 0;
        }
        if (has_one && has_other)
            return true;
    }
    return false;
}

/** Sets when each batch may be poured: not before the last layer of each one before it that is in
 * the same piece has gelled. */
static runnel_status set_order(const runnel_making *making) {
    const runnel_job *job = making->job;
    runnel_plan *plan = making->plan;
    double gel_s, recoat_s;
    runnel_status status = runnel_shop_time(job, job->resin.gel_s, &gel_s);
    if (!status)
        status = runnel_shop_time(job, job->resin.recoat_from_s, &recoat_s);
    for (size_t i = 0; i < plan->batch_count && !status; i++) {
        runnel_plan_batch *batch = &plan->batches[i];
        batch->not_before_s = 0;
        for (size_t k = 0; k < i; k++) {
            const runnel_plan_batch *before = &plan->batches[k];
            double layers_s =
                before->layer_count > 1 ? (double)(before->layer_count - 1) * recoat_s : 0;
            double gelled_s = before->not_before_s + layers_s + gel_s;
            if (!are_neighbours(job, before->colour, batch->colour))
                continue;
            if (isnan(gelled_s) || gelled_s > batch->not_before_s)
                batch->not_before_s = gelled_s;
        }
    }
    return status;
}

runnel_status runnel_batches_make(runnel_making *making) {
    const runnel_plan *plan = making->plan;
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < plan->cavity_count && !status; i++)
        if (is_new(plan, i))
            status = add_batch(making, plan->cavities[i].colour);
    return status ? status : set_order(making);
}
