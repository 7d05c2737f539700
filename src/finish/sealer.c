/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/sealer.h"

#include "base/amount.h"

static const double mm3_per_l = 1e6; /* exact */
static const double mm2_per_m2 = 1e6;

/* ---- Films and spreading rates ------------------------------------------------------------- */

runnel_status runnel_film_of_spread(double m2_per_l, double *wet_mm) {
    double found = 1 / m2_per_l;
    if (!runnel_is_positive(m2_per_l) || !runnel_is_positive(found))
        return RUNNEL_E_RANGE;
    *wet_mm = found;
    return RUNNEL_OK;
}

runnel_status runnel_spread_of_film(double wet_mm, double *m2_per_l) {
    return runnel_film_of_spread(wet_mm, m2_per_l);
}

static bool is_solids(double solids) {
    return solids > 0 && solids <= 1;
}

runnel_status runnel_film_dry(double wet_mm, double solids, double thinner, double *dry_mm) {
    if (!runnel_is_amount(wet_mm) || !is_solids(solids) || !runnel_is_amount(thinner))
        return RUNNEL_E_RANGE;
    *dry_mm = wet_mm * solids / (1 + thinner);
    return RUNNEL_OK;
}

runnel_status runnel_film_wet(double dry_mm, double solids, double thinner, double *wet_mm) {
    if (!runnel_is_amount(dry_mm) || !is_solids(solids) || !runnel_is_amount(thinner))
        return RUNNEL_E_RANGE;
    double found = dry_mm * (1 + thinner) / solids;
    if (!isfinite(found))
        return RUNNEL_E_RANGE;
    *wet_mm = found;
    return RUNNEL_OK;
}

/* ---- How much goes on ---------------------------------------------------------------------- */

/* Film of the mix as laid on. */
static runnel_status wet_film(const runnel_sealer *sealer, double *wet_mm) {
    double product_mm = NAN;
    runnel_status status;
    switch (sealer->by) {
    case RUNNEL_SEALER_DRY_FILM:
        if (sealer->solids == 0)
            return RUNNEL_E_MISSING;
        return runnel_film_wet(sealer->film_mm, sealer->solids, sealer->thinner, wet_mm);
    case RUNNEL_SEALER_WET_FILM:
        *wet_mm = sealer->film_mm;
        return RUNNEL_OK;
    case RUNNEL_SEALER_COVERAGE:
        status = runnel_film_of_spread(sealer->m2_per_l, &product_mm);
        if (!status)
            *wet_mm = product_mm * (1 + sealer->thinner);
        return status;
    case RUNNEL_SEALER_NONE:
        break;
    }
    return RUNNEL_E_MISSING;
}

static bool sealer_is_sound(const runnel_sealer *sealer) {
    return (sealer->solids == 0 || is_solids(sealer->solids)) &&
           runnel_is_amount(sealer->thinner) && runnel_is_share(sealer->loss) &&
           sealer->coats >= 1 && sealer->coats <= RUNNEL_SEALER_MOST_COATS;
}

runnel_status runnel_sealer_compute(const runnel_sealer *sealer, double wall_mm2, double face_mm2,
                                    runnel_sealer_need *need) {
    double wet_mm = NAN;
    if (!sealer_is_sound(sealer) || !runnel_is_amount(wall_mm2) || !runnel_is_amount(face_mm2))
        return RUNNEL_E_RANGE;
    runnel_status status = wet_film(sealer, &wet_mm);
    if (status)
        return status;
    if (!runnel_is_positive(wet_mm))
        return RUNNEL_E_RANGE;
    runnel_sealer_need fresh = {.area_mm2 = wall_mm2 + face_mm2, .wet_mm = wet_mm, .dry_mm = NAN};
    if (sealer->solids > 0)
        fresh.dry_mm = wet_mm * sealer->solids / (1 + sealer->thinner);
    double coats = (double)sealer->coats, product = 1 / (1 + sealer->thinner);
    fresh.spread_m2 = mm3_per_l / wet_mm / mm2_per_m2;
    fresh.practical_m2 = fresh.spread_m2 * (1 - sealer->loss);
    fresh.coat_mm3 = fresh.area_mm2 * wet_mm / (1 - sealer->loss);
    fresh.coat_product_mm3 = fresh.coat_mm3 * product;
    fresh.coat_thinner_mm3 = fresh.coat_product_mm3 * sealer->thinner;
    fresh.all_mm3 = coats * fresh.coat_mm3;
    fresh.all_product_mm3 = coats * fresh.coat_product_mm3;
    fresh.all_thinner_mm3 = coats * fresh.coat_thinner_mm3;
    fresh.lost_mm3 = fresh.all_mm3 * sealer->loss;
    if (!isfinite(fresh.all_mm3) || !isfinite(fresh.spread_m2))
        return RUNNEL_E_RANGE;
    *need = fresh;
    return RUNNEL_OK;
}

/* ---- Times --------------------------------------------------------------------------------- */

const runnel_drying runnel_drying_shellac = {.handle_s = 1 * 3600.0,
                                             .recoat_from_s = 2 * 3600.0,
                                             .recoat_to_s = 3 * 3600.0,
                                             .hard_s = 24 * 3600.0,
                                             .source = "US Army TM 43-0139, paragraph 2-23"};

runnel_status runnel_sealer_times_of(const runnel_drying *drying, size_t coats,
                                     runnel_sealer_times *times) {
    if (!runnel_is_amount(drying->recoat_from_s) || !runnel_is_amount(drying->recoat_to_s) ||
        !runnel_is_amount(drying->hard_s) || drying->recoat_from_s > drying->recoat_to_s ||
        coats < 1 || coats > RUNNEL_SEALER_MOST_COATS)
        return RUNNEL_E_RANGE;
    double waits = (double)(coats - 1);
    times->last_coat_from_s = waits * drying->recoat_from_s;
    times->last_coat_to_s = waits * drying->recoat_to_s;
    times->ready_from_s = times->last_coat_from_s + drying->hard_s;
    times->ready_to_s = times->last_coat_to_s + drying->hard_s;
    return RUNNEL_OK;
}
