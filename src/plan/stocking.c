/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/stocking.h"

#include "base/memory.h"
#include "plan/side.h"
#include "runnel/oiling.h"
#include "runnel/sealing.h"
#include "runnel/units.h"

#include <math.h>
#include <string.h>

void runnel_stocking_clear(runnel_stocking *stocking) {
    if (!stocking)
        return;
    runnel_free(stocking->needs);
    runnel_stock_answer_clear(&stocking->answer);
    runnel_plan_clear(&stocking->plan);
    memset(stocking, 0, sizeof *stocking);
}

/* Adds a need, unless nothing of it is needed. NAN is "not known". */
static runnel_status add(runnel_stocking *stocking, const char *what, const char *part,
                         double mass_g, double volume_mm3) {
    if (!(mass_g > 0) && !(volume_mm3 > 0))
        return RUNNEL_OK;
    runnel_status status = runnel_reserve(&stocking->needs, &stocking->need_capacity,
                                          stocking->need_count + 1, sizeof *stocking->needs);
    if (!status)
        stocking->needs[stocking->need_count++] = (runnel_stock_need){
            .what = what, .part = part, .mass_g = mass_g, .volume_mm3 = volume_mm3};
    return status;
}

static runnel_status add_resin(const runnel_job *job, runnel_stocking *stocking) {
    double a_g = 0, b_g = 0;
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < stocking->plan.batch_count; i++) {
        a_g += stocking->plan.batches[i].weighing.part_a_g;
        b_g += stocking->plan.batches[i].weighing.part_b_g;
    }
    status = add(stocking, job->resin.name, "A", a_g,
                 a_g / job->resin.density_a_g_per_ml * RUNNEL_MM3_PER_ML);
    if (!status)
        status = add(stocking, job->resin.name, "B", b_g,
                     b_g / job->resin.density_b_g_per_ml * RUNNEL_MM3_PER_ML);
    for (size_t i = 0; i < stocking->plan.batch_count && !status; i++)
        status = add(stocking, RUNNEL_STOCK_TINT, stocking->plan.batches[i].colour,
                     stocking->plan.batches[i].weighing.tint_g, NAN);
    return status;
}

/* The sealer that the job names. Resin for sealing is on top of that for the cavities. */
static runnel_status add_sealer(const runnel_job *job, const runnel_sealing *sealing,
                                runnel_stocking *stocking) {
    const runnel_resin *resin = &job->resin;
    const double coats = (double)sealing->sealer.coats;
    const double a_g = coats * sealing->weighing.part_a_g, b_g = coats * sealing->weighing.part_b_g;
    const runnel_sealer_kind_row *kind = runnel_sealer_kind_of(sealing->kind);
    runnel_status status;
    if (sealing->kind == RUNNEL_SEALER_RESIN) {
        status = add(stocking, resin->name, "A", a_g,
                     a_g / resin->density_a_g_per_ml * RUNNEL_MM3_PER_ML);
        return status ? status
                      : add(stocking, resin->name, "B", b_g,
                            b_g / resin->density_b_g_per_ml * RUNNEL_MM3_PER_ML);
    }
    if (!kind->by_cut)
        return add(stocking, kind->name, NULL, NAN, sealing->all.all_product_mm3);
    status = add(stocking, RUNNEL_STOCK_SHELLAC, NULL, sealing->dissolve.lac_g, NAN);
    const double spirit_mm3 = sealing->dissolve.solvent_mm3 + sealing->all.all_thinner_mm3;
    return status ? status
                  : add(stocking, RUNNEL_STOCK_SPIRIT, NULL,
                        spirit_mm3 / RUNNEL_MM3_PER_ML * RUNNEL_SPIRIT_G_PER_ML, spirit_mm3);
}

static runnel_status add_oil(const runnel_oiling_plan *oiling, runnel_stocking *stocking) {
    const runnel_oil *oil = oiling->oil;
    const double oil_mm3 = oiling->all.all_mm3 + oiling->melt.oil_mm3;
    runnel_status status = add(stocking, oil->name, NULL,
                               oil_mm3 / RUNNEL_MM3_PER_ML * oil->density_g_per_ml, oil_mm3);
    if (!status && oiling->wax)
        status = add(stocking, oiling->wax->name, NULL, oiling->melt.wax_g, NAN);
    return status;
}

/* What the plans of sealing and oiling borrow lives as long as job and tables. */
static runnel_status add_finish(const runnel_job *job, const runnel_tables *tables,
                                runnel_letter_function letter, runnel_problems *problems,
                                runnel_stocking *stocking) {
    runnel_sealing sealing = {.part_count = 0};
    runnel_oiling_plan oiling = {.part_count = 0};
    runnel_status status = RUNNEL_OK;
    if (runnel_side_names_sealer(&job->sealer)) {
        status = runnel_sealing_make(job, tables, letter, problems, &sealing);
        if (!status || status == RUNNEL_NOT_POSSIBLE)
            status = add_sealer(job, &sealing, stocking);
    }
    if (!status && job->oil.name) {
        status = runnel_oiling_make(job, tables, letter, problems, &oiling);
        if (!status || status == RUNNEL_NOT_POSSIBLE)
            status = add_oil(&oiling, stocking);
    }
    runnel_sealing_clear(&sealing);
    runnel_oiling_clear(&oiling);
    return status;
}

/* What the bottles of the resin make, if there are any. */
static runnel_status find_largest(const runnel_job *job, runnel_stocking *stocking) {
    double there_g[2] = {NAN, NAN};
    stocking->largest_g = NAN;
    for (size_t i = 0; i < stocking->answer.count; i++) {
        const runnel_stock_line *line = &stocking->answer.lines[i];
        const runnel_stock_need *need = &stocking->needs[line->need];
        if (line->bottles && need->part && need->what == job->resin.name)
            there_g[need->part[0] == 'B'] = line->there_g;
    }
    if (isnan(there_g[0]) || isnan(there_g[1]))
        return RUNNEL_OK;
    return runnel_stock_largest_batch(&stocking->plan.mixture, there_g[0], there_g[1],
                                      &stocking->largest_g, &stocking->largest_limiting);
}

runnel_status runnel_stocking_make(const runnel_job *job, const runnel_tables *tables,
                                   runnel_letter_function letter, runnel_problems *problems,
                                   const runnel_stock *stock, runnel_stocking *stocking) {
    runnel_stocking made = {.stock = stock};
    runnel_status planned = runnel_plan_make(job, tables, letter, problems, &made.plan);
    if (planned && planned != RUNNEL_NOT_POSSIBLE)
        return planned;
    for (size_t i = 0; i < job->piece_count; i++)
        made.pieces += job->pieces[i].count;
    runnel_status status = add_resin(job, &made);
    if (!status)
        status = add_finish(job, tables, letter, problems, &made);
    if (!status)
        status = runnel_stock_check(stock, made.needs, made.need_count, made.pieces, &made.answer);
    bool is_short = status == RUNNEL_NOT_POSSIBLE;
    if (!status || is_short)
        status = find_largest(job, &made);
    if (status) {
        runnel_stocking_clear(&made);
        return status;
    }
    *stocking = made;
    return is_short || planned ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK;
}
