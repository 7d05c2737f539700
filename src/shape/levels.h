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
typedef struct runnel_level_sums {
    double area, first, fan_first;    /**< wholly below */
    double length, angle, area_above; /**< wholly above */
    /* linear pieces that span the level, with k = ds/dm and m from a to b: */
    double k, k_a2, k_a3, k_b, k_b2;
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
