/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The walk along a boundary that finds the pieces of its profile.
 */
#ifndef RUNNEL_SHAPE_WALK_H
#define RUNNEL_SHAPE_WALK_H

#include "shape/pieces.h"

/**
 * Appends the pieces of profile->boundary, element by element in the order of its edges.
 *
 * @param reach largest m of interest, or infinite for a domain that its boundary closes
 * @return RUNNEL_OK or RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_boundary_walk(runnel_profile *profile, double reach);

#endif
