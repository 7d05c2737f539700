/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/wax.h"

#include "base/amount.h"

#include <string.h>

static const double mm3_per_ml = 1000; /* exact */

static const runnel_wax waxes[] = {
    {"beeswax", RUNNEL_BEESWAX_G_PER_ML, 62, 64,
     "melts at about 146 F (63.3 degC): published recipes; density from memory"},
    {"carnauba wax", 0.99, 82, 86, "from memory"},
    {"paraffin wax", 0.90, 46, 68, "from memory; it melts lower or higher by its grade"},
};

enum { WAXES = sizeof waxes / sizeof *waxes, MOST_COATS = 100 };

const runnel_wax *runnel_waxes(size_t *count) {
    *count = WAXES;
    return waxes;
}

const runnel_wax *runnel_wax_find(const char *name) {
    for (size_t i = 0; name && i < WAXES; i++)
        if (strcmp(waxes[i].name, name) == 0)
            return &waxes[i];
    return NULL;
}

static bool is_basis(runnel_basis basis) {
    return basis == RUNNEL_BASIS_VOLUME || basis == RUNNEL_BASIS_WEIGHT;
}

/* Mass of an amount, in g where a volume is in ml. */
static double mass_of(double amount, runnel_basis by, double g_per_ml) {
    return by == RUNNEL_BASIS_VOLUME ? amount * g_per_ml : amount;
}

runnel_status runnel_wax_blend_of(const runnel_wax_recipe *recipe, runnel_wax_blend *blend) {
    if (!is_basis(recipe->oil_by) || !is_basis(recipe->wax_by))
        return RUNNEL_E_UNIT;
    double oil_g_per_ml =
        recipe->oil_g_per_ml == 0 ? RUNNEL_WAX_OIL_G_PER_ML : recipe->oil_g_per_ml;
    double wax_g_per_ml =
        recipe->wax_g_per_ml == 0 ? RUNNEL_BEESWAX_G_PER_ML : recipe->wax_g_per_ml;
    if (!runnel_is_positive(recipe->oil) || !runnel_is_positive(recipe->wax) ||
        !runnel_is_positive(oil_g_per_ml) || !runnel_is_positive(wax_g_per_ml))
        return RUNNEL_E_RANGE;
    double oil_g = mass_of(recipe->oil, recipe->oil_by, oil_g_per_ml);
    double wax_g = mass_of(recipe->wax, recipe->wax_by, wax_g_per_ml);
    runnel_wax_blend fresh = {.oil_share = oil_g / (oil_g + wax_g),
                              .wax_share = wax_g / (oil_g + wax_g),
                              .oil_per_wax = oil_g / wax_g,
                              .oil_g_per_ml = oil_g_per_ml};
    fresh.density_g_per_ml = 1 / (fresh.oil_share / oil_g_per_ml + fresh.wax_share / wax_g_per_ml);
    /* Amounts near the ends of what a double holds leave no share of one of them. */
    if (!runnel_is_positive(fresh.oil_share) || !runnel_is_positive(fresh.wax_share) ||
        !runnel_is_positive(fresh.oil_per_wax) || !runnel_is_positive(fresh.density_g_per_ml))
        return RUNNEL_E_RANGE;
    *blend = fresh;
    return RUNNEL_OK;
}

runnel_status runnel_wax_for_mass(const runnel_wax_blend *blend, double mass_g,
                                  runnel_wax_batch *batch) {
    if (!runnel_is_amount(mass_g))
        return RUNNEL_E_RANGE;
    runnel_wax_batch fresh = {
        .oil_g = mass_g * blend->oil_share, .wax_g = mass_g * blend->wax_share, .total_g = mass_g};
    fresh.oil_mm3 = fresh.oil_g / blend->oil_g_per_ml * mm3_per_ml;
    fresh.total_mm3 = mass_g / blend->density_g_per_ml * mm3_per_ml;
    if (!isfinite(fresh.oil_mm3) || !isfinite(fresh.total_mm3))
        return RUNNEL_E_RANGE;
    *batch = fresh;
    return RUNNEL_OK;
}

runnel_status runnel_wax_for_area(const runnel_wax_blend *blend, double area_mm2, double coat_mm,
                                  size_t coats, double waste, runnel_wax_batch *batch) {
    double film_mm = coat_mm == 0 ? RUNNEL_WAX_COAT_MM : coat_mm;
    if (!runnel_is_amount(area_mm2) || !runnel_is_positive(film_mm) || coats < 1 ||
        coats > MOST_COATS || !runnel_is_share(waste))
        return RUNNEL_E_RANGE;
    double mm3 = (double)coats * film_mm * area_mm2 / (1 - waste);
    return runnel_wax_for_mass(blend, mm3 / mm3_per_ml * blend->density_g_per_ml, batch);
}
