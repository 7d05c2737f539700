/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What stays in the cup, for one charge of it.
 */
#ifndef RUNNEL_RESIN_LOSS_H
#define RUNNEL_RESIN_LOSS_H

#include "runnel/resin.h"

/**
 * What stays in a cup that gave `poured_mm3`, 0 or more: the fixed loss, or the film of what was in
 * it. Nothing stays of nothing.
 *
 * @return RUNNEL_OK; RUNNEL_E_RANGE; RUNNEL_E_NOT_COMPUTED when no charge of the cup gives so much
 */
runnel_status runnel_cup_loss(const runnel_cup *cup, double density_g_per_ml, double viscosity_pa_s,
                              double poured_mm3, double *loss_mm3);

/**
 * The most that a cup gives when at most `charge_mm3`, above 0, may be in it; 0 when all of it
 * stays.
 *
 * @return RUNNEL_OK; RUNNEL_E_RANGE
 */
runnel_status runnel_cup_gives(const runnel_cup *cup, double density_g_per_ml,
                               double viscosity_pa_s, double charge_mm3, double *poured_mm3);

#endif
