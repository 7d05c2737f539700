/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/sum.h"
#include "numeric/root.h"
#include "resin/amount.h"
#include "resin/loss.h"
#include "runnel/resin.h"

#include <math.h>

static const double pi = 3.14159265358979323846;
static const double gravity_m_per_s2 = 9.80665; /* standard gravity, exact (CGPM 1901) */

/* The film of a cup as a function of its charge V: wall V^(3/2) + floor V^(1/2), all in mm. */
typedef struct film {
    double wall;
    double floor;
} film;

/* Film thickness is c sqrt(H) with the height H = V/S of the charge over the floor S. */
static film film_of(double diameter_mm, double viscosity_pa_s, double density_g_per_ml,
                    double drain_s) {
    double kg_per_m3 = 1000 * density_g_per_ml;
    double mm_per_m = 1000;
    double c = sqrt(mm_per_m * viscosity_pa_s / (kg_per_m3 * gravity_m_per_s2 * drain_s));
    double floor_mm2 = pi * diameter_mm * diameter_mm / 4;
    return (film){.wall = 2.0 / 3 * c * pi * diameter_mm / (floor_mm2 * sqrt(floor_mm2)),
                  .floor = c * sqrt(floor_mm2)};
}

static double film_wall_mm3(const film *kept, double charge_mm3) {
    return kept->wall * charge_mm3 * sqrt(charge_mm3);
}

static double film_floor_mm3(const film *kept, double charge_mm3) {
    return kept->floor * sqrt(charge_mm3);
}

runnel_status runnel_cup_film(double diameter_mm, double charge_mm3, double viscosity_pa_s,
                              double density_g_per_ml, double drain_s, double *wall_mm3,
                              double *floor_mm3) {
    if (!runnel_is_positive(diameter_mm) || !runnel_is_amount(charge_mm3) ||
        !runnel_is_positive(viscosity_pa_s) || !runnel_is_positive(density_g_per_ml) ||
        !runnel_is_positive(drain_s))
        return RUNNEL_E_RANGE;
    film kept = film_of(diameter_mm, viscosity_pa_s, density_g_per_ml, drain_s);
    double wall = film_wall_mm3(&kept, charge_mm3), bottom = film_floor_mm3(&kept, charge_mm3);
    if (!isfinite(wall) || !isfinite(bottom))
        return RUNNEL_E_RANGE;
    *wall_mm3 = wall;
    *floor_mm3 = bottom;
    return RUNNEL_OK;
}

typedef struct balance {
    film kept;
    double poured_mm3;
} balance;

/* What the cup gives beyond what is to be poured. */
static double surplus(double charge_mm3, void *state) {
    const balance *of = state;
    return charge_mm3 - film_wall_mm3(&of->kept, charge_mm3) -
           film_floor_mm3(&of->kept, charge_mm3) - of->poured_mm3;
}

/*
 * Charge from which on a cup gives less the more is in it. In u = sqrt(charge) it gives u^2 -
 * wall u^3 - floor u, which dips below 0, then rises to its greatest value at the larger root of
 * 3 wall u^2 - 2 u + floor = 0 and falls from there on. 0 when it gives nothing at all.
 */
static double best_charge_mm3(const film *kept) {
    double under_root = 1 - 3 * kept->wall * kept->floor;
    double u = under_root > 0 ? (1 + sqrt(under_root)) / (3 * kept->wall) : 0;
    return u * u;
}

/* Solves charge - film(charge) = poured: the charge is the only root between `poured` and the best
 * charge. */
static runnel_status film_loss(const film *kept, double poured_mm3, double *loss_mm3) {
    balance of = {*kept, poured_mm3};
    double most_mm3 = best_charge_mm3(kept), charge_mm3, error_mm3;
    if (!isfinite(most_mm3) || !(surplus(most_mm3, &of) > 0))
        return RUNNEL_E_NOT_COMPUTED;
    runnel_status status =
        runnel_root(surplus, &of, poured_mm3, most_mm3, 0, 0, &charge_mm3, &error_mm3);
    if (status != RUNNEL_OK)
        return status == RUNNEL_E_NO_MEMORY ? status : RUNNEL_E_NOT_COMPUTED;
    *loss_mm3 = film_wall_mm3(kept, charge_mm3) + film_floor_mm3(kept, charge_mm3);
    return RUNNEL_OK;
}

static bool cup_is_sound(const runnel_cup *cup, double density_g_per_ml, double viscosity_pa_s) {
    if (!runnel_is_positive(density_g_per_ml))
        return false;
    if (cup->fixed_loss_g >= 0)
        return isfinite(cup->fixed_loss_g / density_g_per_ml);
    return runnel_is_positive(cup->diameter_mm) && runnel_is_positive(cup->drain_s) &&
           runnel_is_positive(viscosity_pa_s);
}

runnel_status runnel_cup_loss(const runnel_cup *cup, double density_g_per_ml, double viscosity_pa_s,
                              double poured_mm3, double *loss_mm3) {
    if (!cup_is_sound(cup, density_g_per_ml, viscosity_pa_s))
        return RUNNEL_E_RANGE;
    if (poured_mm3 == 0) {
        *loss_mm3 = 0;
        return RUNNEL_OK;
    }
    if (cup->fixed_loss_g >= 0) {
        *loss_mm3 = 1000 * (cup->fixed_loss_g / density_g_per_ml);
        return RUNNEL_OK;
    }
    film kept = film_of(cup->diameter_mm, viscosity_pa_s, density_g_per_ml, cup->drain_s);
    return film_loss(&kept, poured_mm3, loss_mm3);
}

runnel_status runnel_cup_gives(const runnel_cup *cup, double density_g_per_ml,
                               double viscosity_pa_s, double charge_mm3, double *poured_mm3) {
    if (!cup_is_sound(cup, density_g_per_ml, viscosity_pa_s) || !runnel_is_positive(charge_mm3))
        return RUNNEL_E_RANGE;
    double given_mm3;
    if (cup->fixed_loss_g >= 0) {
        given_mm3 = charge_mm3 - 1000 * (cup->fixed_loss_g / density_g_per_ml);
    } else {
        film kept = film_of(cup->diameter_mm, viscosity_pa_s, density_g_per_ml, cup->drain_s);
        double used_mm3 = fmin(charge_mm3, best_charge_mm3(&kept));
        given_mm3 = used_mm3 - film_wall_mm3(&kept, used_mm3) - film_floor_mm3(&kept, used_mm3);
    }
    *poured_mm3 = fmax(0, given_mm3);
    return RUNNEL_OK;
}

static bool need_is_sound(const runnel_need *need) {
    return runnel_is_amount(need->cavity_mm3) && runnel_is_amount(need->footprint_mm2) &&
           runnel_is_amount(need->margin_mm2) && runnel_is_amount(need->crown_mm) &&
           runnel_is_amount(need->soak_wall_mm2) && runnel_is_amount(need->soak_mm) &&
           runnel_is_amount(need->shrinkage) && need->shrinkage < 1 &&
           runnel_is_amount(need->reserve) && runnel_is_amount(need->allowance_mm3);
}

static double poured_of(const runnel_terms *terms) {
    runnel_sum sum = {0};
    runnel_sum_add(&sum, terms->cavity_mm3);
    runnel_sum_add(&sum, terms->crown_mm3);
    runnel_sum_add(&sum, terms->shrinkage_mm3);
    runnel_sum_add(&sum, terms->soak_mm3);
    runnel_sum_add(&sum, terms->allowance_mm3);
    runnel_sum_add(&sum, terms->reserve_mm3);
    return runnel_sum_value(&sum);
}

runnel_status runnel_terms_of(const runnel_need *need, const runnel_cup *cup,
                              const runnel_mixture *mixture, double viscosity_pa_s,
                              runnel_terms *terms) {
    if (!need_is_sound(need))
        return RUNNEL_E_RANGE;
    runnel_terms fresh = {.cavity_mm3 = need->cavity_mm3};
    fresh.crown_mm3 = need->crown_mm * (need->footprint_mm2 + need->margin_mm2);
    double solid_mm3 = fresh.cavity_mm3 + fresh.crown_mm3;
    fresh.shrinkage_mm3 = solid_mm3 * need->shrinkage / (1 - need->shrinkage);
    fresh.soak_mm3 = need->soak_wall_mm2 * need->soak_mm;
    fresh.allowance_mm3 = need->allowance_mm3;
    fresh.reserve_mm3 = need->reserve * poured_of(&fresh);
    double poured_mm3 = poured_of(&fresh);
    if (!isfinite(poured_mm3))
        return RUNNEL_E_RANGE;
    runnel_status status = runnel_cup_loss(cup, mixture->density_g_per_ml, viscosity_pa_s,
                                           poured_mm3, &fresh.cup_loss_mm3);
    if (status != RUNNEL_OK)
        return status;
    fresh.total_mm3 = poured_mm3 + fresh.cup_loss_mm3;
    if (!isfinite(fresh.total_mm3))
        return RUNNEL_E_RANGE;
    *terms = fresh;
    return RUNNEL_OK;
}
