/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What GEOS does for contours that touch or cross each other.
 */
#ifndef RUNNEL_SHAPE_OVERLAY_H
#define RUNNEL_SHAPE_OVERLAY_H

#include "runnel/contours.h"

/** Segments shorter than this, and corners nearer to a foreign segment, come from crossings that
 * nearly coincide or just miss; contours as near as that are noded on a grid of this step, which
 * moves no point by more than 0.71 steps. */
#define RUNNEL_CLEAR_MM 1e-7

/** Rings with less area are noise of the noding, far below anything that a cutter can make. */
#define RUNNEL_SMALLEST_RING_MM2 1e-9

/** The non-zero union of contours by noding all of them; as runnel_outline_union. */
runnel_status runnel_unite(const runnel_contours *contours, runnel_contours *region);

#endif
