/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Blends of oil and wax: recipes of any measure turned into shares by weight, and what to melt for
 * a wanted amount or area. Wax is the last coat; over an oil that dries only when that is cured.
 * The caution for melting is "melting-wax" of runnel/cautions.h.
 */
#ifndef RUNNEL_WAX_H
#define RUNNEL_WAX_H

#include "runnel/resin.h"
#include "runnel/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** White mineral oil, g/ml: working value within 0.845 to 0.905 (USP 35). */
#define RUNNEL_WAX_OIL_G_PER_ML 0.85
/** Solid beeswax, g/ml, from memory. */
#define RUNNEL_BEESWAX_G_PER_ML 0.96

/** A kind of wax. */
typedef struct runnel_wax {
    const char *name;
    double density_g_per_ml; /**< solid */
    double melts_low_degc, melts_high_degc;
    const char *source;
} runnel_wax;

/** All kinds; beeswax is the first. */
const runnel_wax *runnel_waxes(size_t *count);
/** A kind by its name; NULL when there is none. */
const runnel_wax *runnel_wax_find(const char *name);

/**
 * A recipe: so much oil to so much wax, each by weight or by volume. Where both are measured alike
 * any unit does, as only the ratio counts; else weights are in g and volumes in ml.
 */
typedef struct runnel_wax_recipe {
    double oil; /**< > 0 */
    runnel_basis oil_by;
    double wax; /**< > 0; a volume is that of solid wax, not of shavings or pellets */
    runnel_basis wax_by;
    double oil_g_per_ml; /**< 0 = RUNNEL_WAX_OIL_G_PER_ML */
    double wax_g_per_ml; /**< of the solid wax; 0 = RUNNEL_BEESWAX_G_PER_ML */
} runnel_wax_recipe;

/** A blend by weight. */
typedef struct runnel_wax_blend {
    double oil_share, wax_share; /**< of the mass, 0 to 1 */
    double oil_per_wax;          /**< by mass: 4 is "4:1 by weight" */
    double oil_g_per_ml;
    double density_g_per_ml; /**< by ideal mixing of volumes */
} runnel_wax_blend;

/** Blend of a recipe. @return RUNNEL_OK; RUNNEL_E_UNIT when it is not told what a number counts, as
 * "4:1" by volume and by weight are two things; RUNNEL_E_RANGE */
runnel_status runnel_wax_blend_of(const runnel_wax_recipe *recipe, runnel_wax_blend *blend);

/** What to melt together. */
typedef struct runnel_wax_batch {
    double oil_g, wax_g;
    double oil_mm3; /**< the oil's volume, for those without a scale */
    double total_g;
    double total_mm3; /**< of the blend */
} runnel_wax_batch;

/** Oil and wax for a wanted mass, >= 0. @return RUNNEL_OK; RUNNEL_E_RANGE */
runnel_status runnel_wax_for_mass(const runnel_wax_blend *blend, double mass_g,
                                  runnel_wax_batch *batch);

/** One thin coat, rubbed in and wiped off: 15 ml/m2, from memory; weigh the tin before and after to
 * learn your own. */
#define RUNNEL_WAX_COAT_MM 0.015

/**
 * Oil and wax for an area.
 *
 * @param area_mm2 0 or more
 * @param coat_mm  volume of a coat for each area, >= 0; 0 = RUNNEL_WAX_COAT_MM
 * @param coats    1 or more
 * @param waste    share that stays in rag and tin, 0 to below 1
 * @return RUNNEL_OK; RUNNEL_E_RANGE
 */
runnel_status runnel_wax_for_area(const runnel_wax_blend *blend, double area_mm2, double coat_mm,
                                  size_t coats, double waste, runnel_wax_batch *batch);

#ifdef __cplusplus
}
#endif
#endif
