/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/sum.h"
#include "resin/amount.h"
#include "runnel/resin.h"

#include <math.h>

static const double gas_j_per_mol_k = 8.31446261815324; /* exact, CODATA 2018 */
static const double kelvin_at_0_degc = 273.15;          /* exact */

runnel_status runnel_time_at(double stated_s, double stated_degc, double shop_degc,
                             double activation_kj_per_mol, double *seconds) {
    double stated_k = stated_degc + kelvin_at_0_degc, shop_k = shop_degc + kelvin_at_0_degc;
    if (!runnel_is_amount(stated_s) || !runnel_is_positive(stated_k) ||
        !runnel_is_positive(shop_k) || !runnel_is_amount(activation_kj_per_mol))
        return RUNNEL_E_RANGE;
    /* 1/T2 - 1/T1 as one quotient, so that equal temperatures give exactly the stated time. */
    double per_kelvin = (stated_k - shop_k) / (stated_k * shop_k);
    double found = stated_s * exp(1000 * activation_kj_per_mol / gas_j_per_mol_k * per_kelvin);
    if (!isfinite(found))
        return RUNNEL_E_RANGE;
    *seconds = found;
    return RUNNEL_OK;
}

runnel_status runnel_blend_eew(const double *mass, const double *eew, size_t count, double *blend) {
    runnel_sum total = {0}, equivalents = {0};
    for (size_t i = 0; i < count; i++) {
        if (!runnel_is_amount(mass[i]) || !(eew[i] > 0)) /* infinity is a filler, NAN is refused */
            return RUNNEL_E_RANGE;
        runnel_sum_add(&total, mass[i]);
        runnel_sum_add(&equivalents, mass[i] / eew[i]);
    }
    double found = runnel_sum_value(&total) / runnel_sum_value(&equivalents);
    if (!runnel_is_positive(found))
        return RUNNEL_E_RANGE;
    *blend = found;
    return RUNNEL_OK;
}

runnel_status runnel_amine_phr(double ahew, double eew, double *phr) {
    if (!runnel_is_positive(ahew) || !runnel_is_positive(eew))
        return RUNNEL_E_RANGE;
    double found = 100 * ahew / eew;
    if (!runnel_is_positive(found))
        return RUNNEL_E_RANGE;
    *phr = found;
    return RUNNEL_OK;
}
