/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The sums of a profile by levels of m, so that a new angle or depth costs next to nothing.
 *
 * The range of m is cut into equal levels. For a T within a level, pieces that lie wholly below or
 * above the level are constants; linear pieces that span it add polynomials in T; only pieces that
 * begin or end in it, and curved ones that span it, are looked at one by one.
 */
#ifndef RUNNEL_SHAPE_LEVELS_H
#define RUNNEL_SHAPE_LEVELS_H

#include "runnel/status.h"

#include <stddef.h>
#include <stdint.h>

struct runnel_piece;

/** What the pieces that a level does not meet one by one amount to. */
enum {
    /* wholly below */
    RUNNEL_LEVEL_AREA,
    RUNNEL_LEVEL_FIRST,
    RUNNEL_LEVEL_FAN_FIRST,
    /* wholly above */
    RUNNEL_LEVEL_LENGTH,
    RUNNEL_LEVEL_ANGLE,
    RUNNEL_LEVEL_AREA_ABOVE,
    /* linear pieces that span the level, with k = ds/dm and m from a to b: k, k a^2, ... */
    RUNNEL_LEVEL_K,
    RUNNEL_LEVEL_K_A2,
    RUNNEL_LEVEL_K_A3,
    RUNNEL_LEVEL_K_B,
    RUNNEL_LEVEL_K_B2,
    RUNNEL_LEVEL_TERMS
};
typedef struct runnel_level_sums {
    double of[RUNNEL_LEVEL_TERMS];
} runnel_level_sums;

/** Zeroed is "none". */
typedef struct runnel_levels {
    size_t count;            /**< levels over [0, top] */
    double top_mm;           /**< greatest finite m */
    runnel_level_sums *sums; /**< one for each level, and one for T above all */
    uint32_t *first; /**< level i looks at pieces listed[first[i]] ... listed[first[i + 1] - 1] */
    uint32_t *listed;
} runnel_levels;

/** Builds the levels of pieces. */
runnel_status runnel_levels_build(const struct runnel_piece *pieces, size_t count,
                                  runnel_levels *levels);
void runnel_levels_clear(runnel_levels *levels);

/** The level that holds T; `count` when T is above all. */
size_t runnel_levels_find(const runnel_levels *levels, double t_mm);

#endif
