/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How much the cavities may take, and what a batch has on top for it.
 */
#include "plan/make.h"

#include <string.h>

runnel_status runnel_band_cavity(const runnel_making *making, const runnel_job_piece *piece,
                                 runnel_plan_cavity *planned) {
    const runnel_cavity *of = &planned->figures;
    bool assumed;
    if (!(of->volume_mm3 > 0))
        return RUNNEL_OK;
    const runnel_band_figures figures = {.volume_mm3 = of->volume_mm3,
                                         .depth_plus_mm3 = of->depth_plus_mm3,
                                         .depth_minus_mm3 = of->depth_minus_mm3,
                                         .angle_mm3_per_degree = of->angle_mm3_per_degree};
    double soak_mm3 = of->wall_mm2 * runnel_soak_of(making, piece, &assumed);
    return runnel_band_of_figures(&figures, soak_mm3, &making->job->errors, &planned->band);
}

runnel_status runnel_band_batch(const runnel_making *making, runnel_plan_batch *batch) {
    const runnel_plan *plan = making->plan;
    runnel_band sum = {0};
    double each_mm3 = 0;
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < plan->cavity_count && !status; i++) {
        const runnel_plan_cavity *cavity = &plan->cavities[i];
        const double counts[] = {1, (double)cavity->piece_count};
        if (strcmp(cavity->colour, batch->colour) != 0)
            continue;
        const runnel_band both[] = {sum, cavity->band};
        status = runnel_band_add(both, counts, 2, &sum);
        each_mm3 += counts[1] * (cavity->band.high_mm3 - cavity->band.likely_mm3);
    }
    batch->band = sum;
    bool is_high = making->job->size_to == RUNNEL_SIZE_HIGH;
    double allowance_mm3 = is_high ? sum.high_mm3 - sum.likely_mm3 : 0;
    batch->allowance_share = each_mm3 > 0 ? allowance_mm3 / each_mm3 : 0;
    return status;
}
