/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Small tables for tests of jobs, apart from those in data/, so that no test hangs on their rows.
 * The figures are invented.
 */
#ifndef RUNNEL_TESTS_JOB_TABLES_H
#define RUNNEL_TESTS_JOB_TABLES_H

#include "runnel/tables.h"

#include <math.h>
#include <stdio.h>

/** Tables of two resins, three cutters and two woods, and each work in 10 min and 5 min a piece;
 * never to be cleared. */
static inline const runnel_tables *job_tables(void) {
    static char names[][20] = {"table-top 2:1",  "casting 3:1", "v-60",     "flat-6mm",
                               "round-nose-3mm", "hard maple",  "white oak"};
    static char kind[] = "table-top", source[] = "invented", date[] = "2026-01-01",
                sure[] = "from memory", none[] = "";
    static runnel_resin_row resins[2];
    static runnel_cutter_row cutters[3];
    static runnel_wood woods[2];
    resins[0].resin = (runnel_resin){.name = names[0],
                                     .kind = kind,
                                     .ratio = {2, 1, RUNNEL_BASIS_VOLUME},
                                     .density_a_g_per_ml = 1.16,
                                     .density_b_g_per_ml = 0.95,
                                     .viscosity_pa_s = 1.5,
                                     .shrinkage = 0.02,
                                     .stated_degc = 25,
                                     .lowest_degc = 12,
                                     .pot_life_s = 1800,
                                     .pot_mass_g = 150,
                                     .gel_s = 7200,
                                     .recoat_from_s = 14400,
                                     .recoat_until_s = 36000,
                                     .sandable_s = 86400,
                                     .full_cure_s = 604800,
                                     .deepest_layer_mm = 6,
                                     .largest_mass_g = 500,
                                     .ratio_tolerance = 0.03,
                                     .tint_default = 0.02,
                                     .tint_cap = 0.05,
                                     .activation_kj_per_mol = 52,
                                     .reaction_j_per_g = NAN,
                                     .source = source,
                                     .date = date,
                                     .sure = sure};
    resins[1].resin = resins[0].resin; /* as a sheet that tells no times */
    resins[1].resin.name = names[1];
    resins[1].resin.ratio = (runnel_ratio){3, 1, RUNNEL_BASIS_VOLUME};
    resins[1].resin.stated_degc = resins[1].resin.pot_life_s = resins[1].resin.pot_mass_g = NAN;
    resins[1].resin.gel_s = resins[1].resin.recoat_from_s = resins[1].resin.recoat_until_s = NAN;
    resins[1].resin.sandable_s = resins[1].resin.full_cure_s = NAN;
    cutters[0] = (runnel_cutter_row){.name = names[2], .cutter = {RUNNEL_CUTTER_V, 60, 0.2, 0}};
    cutters[1] = (runnel_cutter_row){.name = names[3], .cutter = {RUNNEL_CUTTER_FLAT, 0, 0, 3}};
    cutters[2] =
        (runnel_cutter_row){.name = names[4], .cutter = {RUNNEL_CUTTER_ROUND_NOSE, 0, 0, 1.5}};
    woods[0] = (runnel_wood){.name = names[5], .also = none, .botanical = none};
    woods[1] = (runnel_wood){.name = names[6], .also = none, .botanical = none};
    static char work_names[RUNNEL_WORK_COUNT][20];
    static runnel_work_row works[RUNNEL_WORK_COUNT];
    for (int i = 0; i < RUNNEL_WORK_COUNT; i++) {
        snprintf(work_names[i], sizeof work_names[i], "%s", runnel_work_text((runnel_work)i));
        works[i] = (runnel_work_row){.name = work_names[i],
                                     .setup_s = 600,
                                     .each_s = 300,
                                     .divides = i != RUNNEL_WORK_POUR && i != RUNNEL_WORK_OIL};
    }
    static const runnel_tables tables = {.works = works,
                                         .work_count = RUNNEL_WORK_COUNT,
                                         .resins = resins,
                                         .resin_count = 2,
                                         .cutters = cutters,
                                         .cutter_count = 3,
                                         .woods = woods,
                                         .wood_count = 2};
    return &tables;
}

#endif
