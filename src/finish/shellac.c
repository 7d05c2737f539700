/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/amount.h"
#include "runnel/sealer.h"

static const double ml_per_l = 1000; /* exact */
static const double mm3_per_ml = 1000;

/** More lac than any solvent takes up; the standard's highest cut is 8 lb. */
#define MOST_CUT_LB_PER_GAL 20

static double or_default(double value, double usual) {
    return value == 0 ? usual : value;
}

static bool is_cut(double lb_per_gal) {
    return lb_per_gal > 0 && lb_per_gal <= MOST_CUT_LB_PER_GAL;
}

runnel_status runnel_shellac_of(const runnel_shellac *shellac, runnel_shellac_figures *figures) {
    double lac_g_per_ml = or_default(shellac->lac_g_per_ml, RUNNEL_LAC_G_PER_ML);
    double solvent_g_per_ml = or_default(shellac->solvent_g_per_ml, RUNNEL_SPIRIT_G_PER_ML);
    if (!is_cut(shellac->cut_lb_per_gal) || !runnel_is_positive(lac_g_per_ml) ||
        !runnel_is_positive(solvent_g_per_ml))
        return RUNNEL_E_RANGE;
    double lac_g = shellac->cut_lb_per_gal * RUNNEL_G_PER_L_OF_LB_PER_GAL;
    double lac_ml = lac_g / lac_g_per_ml, solvent_g = solvent_g_per_ml * ml_per_l;
    runnel_shellac_figures fresh = {.lac_g_per_l = lac_g,
                                    .mass_share = lac_g / (lac_g + solvent_g),
                                    .volume_share = lac_ml / (lac_ml + ml_per_l),
                                    .finished_per_solvent = (lac_ml + ml_per_l) / ml_per_l};
    fresh.finished_g_per_l = lac_g / fresh.finished_per_solvent;
    fresh.density_g_per_ml = (lac_g + solvent_g) / (lac_ml + ml_per_l);
    /* Densities near the ends of what a double holds leave nothing of lac or solvent. */
    if (!runnel_is_positive(fresh.mass_share) || !runnel_is_positive(fresh.volume_share) ||
        !runnel_is_positive(fresh.finished_g_per_l) || !runnel_is_positive(fresh.density_g_per_ml))
        return RUNNEL_E_RANGE;
    *figures = fresh;
    return RUNNEL_OK;
}

runnel_status runnel_shellac_dissolve(const runnel_shellac *shellac, double finished_mm3,
                                      runnel_shellac_batch *batch) {
    runnel_shellac_figures figures;
    runnel_status status = runnel_shellac_of(shellac, &figures);
    if (status || !runnel_is_amount(finished_mm3))
        return status ? status : RUNNEL_E_RANGE;
    double solvent_ml = finished_mm3 / mm3_per_ml / figures.finished_per_solvent;
    double solvent_g_per_ml = or_default(shellac->solvent_g_per_ml, RUNNEL_SPIRIT_G_PER_ML);
    batch->lac_g = solvent_ml / ml_per_l * figures.lac_g_per_l;
    batch->solvent_mm3 = solvent_ml * mm3_per_ml;
    batch->solvent_g = solvent_ml * solvent_g_per_ml;
    batch->finished_g = batch->lac_g + batch->solvent_g;
    return RUNNEL_OK;
}

/* The lac stays the same: solvent holds it at one cut, then at the other. */
runnel_status runnel_shellac_thin(const runnel_shellac *have, double wanted_cut, double have_mm3,
                                  double *solvent_mm3, double *finished_mm3) {
    runnel_shellac_batch batch;
    runnel_status status = runnel_shellac_dissolve(have, have_mm3, &batch);
    if (status)
        return status;
    if (!is_cut(wanted_cut) || wanted_cut > have->cut_lb_per_gal)
        return RUNNEL_E_RANGE;
    double added_mm3 = batch.solvent_mm3 * (have->cut_lb_per_gal - wanted_cut) / wanted_cut;
    if (!isfinite(have_mm3 + added_mm3))
        return RUNNEL_E_RANGE;
    *solvent_mm3 = added_mm3;
    *finished_mm3 = have_mm3 + added_mm3;
    return RUNNEL_OK;
}

const runnel_shellac_minimum *runnel_shellac_minima(size_t *count) {
    static const runnel_shellac_minimum minima[] = {{3, 0.285, 0.280},   {4, 0.350, 0.345},
                                                    {4.5, 0.375, 0.370}, {5, 0.400, 0.395},
                                                    {6, 0.440, 0.435},   {8, 0.510, 0.505}};
    *count = sizeof minima / sizeof *minima;
    return minima;
}
