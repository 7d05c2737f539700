/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Whether a boundary is clean: no corner lies on, or all but on, a segment that does not end in it.
 */
#ifndef RUNNEL_SHAPE_CLEARANCE_H
#define RUNNEL_SHAPE_CLEARANCE_H

#include "runnel/contours.h"

/**
 * Looks for a segment shorter than `least_mm`, or a corner nearer than that to a segment that it is
 * not an end of.
 *
 * @param contours rings of a region (`is_path` false) or open lines
 * @return RUNNEL_OK, RUNNEL_E_SHAPE when there is nothing to look at, or RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_contours_clear_of(const runnel_contours *contours, bool is_path,
                                       double least_mm, bool *is_clear);

#endif
