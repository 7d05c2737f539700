/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/memory.h"
#include "resin/amount.h"
#include "runnel/resin.h"

#include <math.h>
#include <string.h>

void runnel_resin_clear(runnel_resin *resin) {
    if (!resin)
        return;
    runnel_free(resin->name);
    runnel_free(resin->kind);
    runnel_free(resin->source);
    runnel_free(resin->date);
    runnel_free(resin->sure);
    memset(resin, 0, sizeof *resin);
}

/* Copies a text that may be absent; false without memory. */
static bool copied(const char *from, char **to) {
    *to = runnel_copy_text(from);
    return *to || !from;
}

runnel_status runnel_resin_copy(const runnel_resin *from, runnel_resin *to) {
    runnel_resin fresh = *from;
    fresh.name = fresh.kind = fresh.source = fresh.date = fresh.sure = NULL;
    bool whole = copied(from->name, &fresh.name) && copied(from->kind, &fresh.kind) &&
                 copied(from->source, &fresh.source) && copied(from->date, &fresh.date) &&
                 copied(from->sure, &fresh.sure);
    if (!whole) {
        runnel_resin_clear(&fresh);
        return RUNNEL_E_NO_MEMORY;
    }
    *to = fresh;
    return RUNNEL_OK;
}

runnel_status runnel_mixture_of(const runnel_ratio *ratio, double density_a_g_per_ml,
                                double density_b_g_per_ml, runnel_mixture *mixture) {
    if (ratio->basis != RUNNEL_BASIS_VOLUME && ratio->basis != RUNNEL_BASIS_WEIGHT)
        return RUNNEL_E_UNIT;
    if (!runnel_is_positive(ratio->part_a) || !runnel_is_positive(ratio->part_b) ||
        !runnel_is_positive(density_a_g_per_ml) || !runnel_is_positive(density_b_g_per_ml))
        return RUNNEL_E_RANGE;
    bool by_volume = ratio->basis == RUNNEL_BASIS_VOLUME;
    double ml_a = by_volume ? ratio->part_a : ratio->part_a / density_a_g_per_ml;
    double ml_b = by_volume ? ratio->part_b : ratio->part_b / density_b_g_per_ml;
    double g_a = by_volume ? ratio->part_a * density_a_g_per_ml : ratio->part_a;
    double g_b = by_volume ? ratio->part_b * density_b_g_per_ml : ratio->part_b;
    runnel_mixture fresh = {.weight_a = g_a / (g_a + g_b),
                            .weight_b = g_b / (g_a + g_b),
                            .volume_a = ml_a / (ml_a + ml_b),
                            .volume_b = ml_b / (ml_a + ml_b),
                            .density_g_per_ml = (g_a + g_b) / (ml_a + ml_b)};
    /* Parts near the ends of what a double holds overflow or leave no share of one part. */
    if (!runnel_is_positive(fresh.weight_a) || !runnel_is_positive(fresh.weight_b) ||
        !runnel_is_positive(fresh.volume_a) || !runnel_is_positive(fresh.volume_b) ||
        !runnel_is_positive(fresh.density_g_per_ml))
        return RUNNEL_E_RANGE;
    *mixture = fresh;
    return RUNNEL_OK;
}

runnel_status runnel_ratio_contradiction(const runnel_ratio *by_volume,
                                         const runnel_ratio *by_weight, double density_a_g_per_ml,
                                         double density_b_g_per_ml, double *difference) {
    if (by_volume->basis != RUNNEL_BASIS_VOLUME || by_weight->basis != RUNNEL_BASIS_WEIGHT)
        return RUNNEL_E_UNIT;
    runnel_mixture from_volume, from_weight;
    runnel_status status =
        runnel_mixture_of(by_volume, density_a_g_per_ml, density_b_g_per_ml, &from_volume);
    if (status == RUNNEL_OK)
        status = runnel_mixture_of(by_weight, density_a_g_per_ml, density_b_g_per_ml, &from_weight);
    if (status != RUNNEL_OK)
        return status;
    double volume_b_per_a = from_volume.weight_b / from_volume.weight_a;
    double weight_b_per_a = from_weight.weight_b / from_weight.weight_a;
    double found = volume_b_per_a / weight_b_per_a - 1;
    if (!isfinite(found))
        return RUNNEL_E_RANGE;
    *difference = found;
    return RUNNEL_OK;
}

runnel_density_range runnel_density_published(char part) {
    static const runnel_density_range part_a = {
        1.05, 1.20,
        "1.16 g/ml for undiluted liquid epoxy resin (DGEBA, 185 to 192 g/eq) at 25 degC by ASTM "
        "D1475, a resin maker's data sheet of 2015; down to 1.05 with reactive thinners, common "
        "practice"};
    static const runnel_density_range part_b = {
        0.89, 1.10,
        "0.90 g/ml for ethylenediamine (NIOSH NMAM 2540, table 1) to 1.032 for m-xylylenediamine "
        "(NIOSH Pocket Guide) and 1.045 for benzyl alcohol (Perry's Handbook, 8th edition, table "
        "2-32); widened to 0.89 and 1.10, common practice"};
    static const runnel_density_range mix = {
        1.05, 1.20,
        "1.10 to 1.14 g/ml by ideal mixing of liquid epoxy resin (1.16, ASTM D1475) with common "
        "amines (NIOSH NMAM 2540); 1.20 is the cured solid (Crawford, Plastics Engineering, table "
        "1.8); down to 1.05 for thinned resins at 1:1, common practice"};
    static const runnel_density_range unknown = {NAN, NAN, NULL};
    switch (part) {
    case 'A':
        return part_a;
    case 'B':
        return part_b;
    case 'M':
        return mix;
    default:
        return unknown;
    }
}
