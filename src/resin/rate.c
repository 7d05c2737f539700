/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/sum.h"
#include "resin/amount.h"
#include "resin/arrhenius.h"
#include "runnel/cure.h"
#include "runnel/resin.h"

#include <math.h>

runnel_status runnel_time_at(double stated_s, double stated_degc, double shop_degc,
                             double activation_kj_per_mol, double *seconds) {
    double stated_k = stated_degc + RUNNEL_KELVIN_AT_0_DEGC,
           shop_k = shop_degc + RUNNEL_KELVIN_AT_0_DEGC;
    if (!runnel_is_amount(stated_s) || !runnel_is_positive(stated_k) ||
        !runnel_is_positive(shop_k) || !runnel_is_amount(activation_kj_per_mol))
        return RUNNEL_E_RANGE;
    double found = stated_s * runnel_arrhenius(shop_k, stated_k, activation_kj_per_mol);
    if (!isfinite(found))
        return RUNNEL_E_RANGE;
    *seconds = found;
    return RUNNEL_OK;
}

double runnel_cure_speed(const runnel_cure_law *law, double degc) {
    double stated_k = law->stated_degc + RUNNEL_KELVIN_AT_0_DEGC,
           at_k = degc + RUNNEL_KELVIN_AT_0_DEGC;
    if (!runnel_is_positive(stated_k) || !runnel_is_positive(at_k))
        return NAN;
    if (degc < law->lowest_degc)
        return 0;
    if (law->rule == RUNNEL_CURE_DOUBLING)
        return exp2((at_k - stated_k) / 10);
    return runnel_is_amount(law->activation_kj_per_mol)
               ? runnel_arrhenius(stated_k, at_k, law->activation_kj_per_mol)
               : NAN;
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
