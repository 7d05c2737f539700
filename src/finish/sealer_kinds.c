/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/sealer.h"

static const runnel_sealer_kind_row rows[RUNNEL_SEALER_KINDS] = {
    [RUNNEL_SEALER_SHELLAC] = {"shellac", RUNNEL_STEP_SEAL, RUNNEL_CASE_SOLVENT, true,
                               &runnel_drying_shellac},
    [RUNNEL_SEALER_WAXY_SHELLAC] = {"shellac with wax", RUNNEL_STEP_SEAL_WAXY, RUNNEL_CASE_SOLVENT,
                                    true, &runnel_drying_shellac},
    [RUNNEL_SEALER_SANDING] = {"sanding sealer", RUNNEL_STEP_SEAL, RUNNEL_CASE_SOLVENT, false,
                               NULL},
    [RUNNEL_SEALER_LACQUER] = {"lacquer", RUNNEL_STEP_SEAL, RUNNEL_CASE_SOLVENT, false, NULL},
    [RUNNEL_SEALER_WATER] = {"water-based sealer", RUNNEL_STEP_SEAL, 0, false, NULL},
    [RUNNEL_SEALER_RESIN] = {"clear resin", RUNNEL_STEP_SEAL, 0, false, NULL},
};

const runnel_sealer_kind_row *runnel_sealer_kind_of(runnel_sealer_kind kind) {
    return &rows[kind];
}
