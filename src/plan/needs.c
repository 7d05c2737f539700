/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan/needs.h"

#include "base/memory.h"
#include "runnel/units.h"

#include <math.h>

/* Adds a need, unless nothing of it is needed. NAN is "not known". */
static runnel_status add(runnel_needs *needs, const char *what, const char *part, double mass_g,
                         double volume_mm3) {
    if (!(mass_g > 0) && !(volume_mm3 > 0))
        return RUNNEL_OK;
    runnel_status status =
        runnel_reserve(&needs->items, &needs->capacity, needs->count + 1, sizeof *needs->items);
    if (!status)
        needs->items[needs->count++] = (runnel_stock_need){
            .what = what, .part = part, .mass_g = mass_g, .volume_mm3 = volume_mm3};
    return status;
}

runnel_status runnel_needs_resin(const runnel_job *job, const runnel_plan *plan,
                                 runnel_needs *needs) {
    double a_g = 0, b_g = 0;
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < plan->batch_count; i++) {
        a_g += plan->batches[i].weighing.part_a_g;
        b_g += plan->batches[i].weighing.part_b_g;
    }
    status = add(needs, job->resin.name, "A", a_g,
                 a_g / job->resin.density_a_g_per_ml * RUNNEL_MM3_PER_ML);
    if (!status)
        status = add(needs, job->resin.name, "B", b_g,
                     b_g / job->resin.density_b_g_per_ml * RUNNEL_MM3_PER_ML);
    for (size_t i = 0; i < plan->batch_count && !status; i++)
        status = add(needs, RUNNEL_STOCK_TINT, plan->batches[i].colour,
                     plan->batches[i].weighing.tint_g, NAN);
    return status;
}

runnel_status runnel_needs_sealer(const runnel_job *job, const runnel_sealing *sealing,
                                  runnel_needs *needs) {
    const runnel_resin *resin = &job->resin;
    const double coats = (double)sealing->sealer.coats;
    const double a_g = coats * sealing->weighing.part_a_g, b_g = coats * sealing->weighing.part_b_g;
    const runnel_sealer_kind_row *kind = runnel_sealer_kind_of(sealing->kind);
    runnel_status status;
    if (sealing->kind == RUNNEL_SEALER_RESIN) {
        status =
            add(needs, resin->name, "A", a_g, a_g / resin->density_a_g_per_ml * RUNNEL_MM3_PER_ML);
        return status ? status
                      : add(needs, resin->name, "B", b_g,
                            b_g / resin->density_b_g_per_ml * RUNNEL_MM3_PER_ML);
    }
    if (!kind->by_cut)
        return add(needs, kind->name, NULL, NAN, sealing->all.all_product_mm3);
    status = add(needs, RUNNEL_STOCK_SHELLAC, NULL, sealing->dissolve.lac_g, NAN);
    const double spirit_mm3 = sealing->dissolve.solvent_mm3 + sealing->all.all_thinner_mm3;
    return status ? status
                  : add(needs, RUNNEL_STOCK_SPIRIT, NULL,
                        spirit_mm3 / RUNNEL_MM3_PER_ML * RUNNEL_SPIRIT_G_PER_ML, spirit_mm3);
}

runnel_status runnel_needs_oil(const runnel_oiling_plan *oiling, runnel_needs *needs) {
    const runnel_oil *oil = oiling->oil;
    const double oil_mm3 = oiling->all.all_mm3 + oiling->melt.oil_mm3;
    runnel_status status =
        add(needs, oil->name, NULL, oil_mm3 / RUNNEL_MM3_PER_ML * oil->density_g_per_ml, oil_mm3);
    if (!status && oiling->wax)
        status = add(needs, oiling->wax->name, NULL, oiling->melt.wax_g, NAN);
    return status;
}

runnel_status runnel_needs_coating(double volume_mm3, runnel_needs *needs) {
    return add(needs, RUNNEL_STOCK_COATING, NULL, NAN, volume_mm3);
}
