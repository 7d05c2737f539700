/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * From closed contours near each other to the patches of the region that they enclose by the
 * non-zero rule.
 *
 * A contour that keeps clear of itself and of all others is a border of the region or it is not:
 * that follows from how often the others wind around it. Only contours that touch or cross are
 * noded.
 */
#ifndef RUNNEL_SHAPE_SETTLE_H
#define RUNNEL_SHAPE_SETTLE_H

#include "runnel/contours.h"

/**
 * Rings of a region, patch by patch: within one each outer ring (counter-clockwise) is followed by
 * its holes (clockwise). Patches do not touch each other; the outer rings of one may touch in
 * corners. Zero-initialised is empty.
 */
typedef struct runnel_settled {
    runnel_contours rings;
    size_t *first; /**< ring at which each patch begins, and the number of rings at the end */
    size_t patch_count;
} runnel_settled;

void runnel_settled_clear(runnel_settled *settled);

/**
 * @param contours closed contours in any order and sense; points on the lattice of `step_mm`
 * @param settled  an empty one; without patches when no area is left
 * @return RUNNEL_OK, RUNNEL_E_NO_MEMORY, RUNNEL_E_NOT_COMPUTED
 */
runnel_status runnel_settle(const runnel_contours *contours, double step_mm,
                            runnel_settled *settled);

#endif
