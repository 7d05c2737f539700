/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Rings that touch at common corners.
 *
 * Where they do, a corner of a ring need not be a corner of the domain: the domain has several
 * wedges there, and the wedge between two rings is bounded by a segment of either. A hole that
 * touches its outer ring is the plainest case.
 */
#ifndef RUNNEL_SHAPE_WEDGES_H
#define RUNNEL_SHAPE_WEDGES_H

#include "shape/boundary.h"

/**
 * Strings the edges anew at corners that several rings share, so that each segment is followed by
 * the one that bounds the same wedge of the domain. Parts stay as they are, cycles may join and
 * part. Nothing changes where no corner is shared.
 *
 * @param boundary edges with x, y, next, previous, cycle; cycles and parts as contiguous runs
 * @return RUNNEL_OK or RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_boundary_part_wedges(runnel_boundary *boundary);

#endif
