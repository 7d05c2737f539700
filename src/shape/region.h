/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A region, or the lines of a path, as patches and the places where each stands.
 *
 * A patch is a connected part: an outer ring and its holes, or lines that meet. It has coordinates
 * of its own, from the lower left of its box; a letter that stands in many places is one patch. All
 * coordinates lie on a lattice, so that moving a patch moves it exactly.
 */
#ifndef RUNNEL_SHAPE_REGION_H
#define RUNNEL_SHAPE_REGION_H

#include "base/store.h"
#include "runnel/contours.h"

/** A patch as the store keeps it. */
typedef struct runnel_patch {
    runnel_contours contours; /**< rings as runnel_outline_union leaves them, or noded lines */
    runnel_box box;
} runnel_patch;

/** A patch where it stands. */
typedef struct runnel_print {
    runnel_kept *kept; /**< a reference to the patch; NULL in a region that knows no patches */
    double dx_mm, dy_mm;
} runnel_print;

/** Zero-initialised is empty. */
typedef struct runnel_region {
    bool is_path;
    runnel_store *store;
    bool owns_store; /**< none was given: one for this region alone */
    runnel_print *prints;
    size_t count, capacity;
    runnel_box box;
    double flatten_mm; /**< as of runnel_contours */
} runnel_region;

/**
 * Finds the patches of contours.
 *
 * @param contours closed contours, of which the non-zero union is taken, or any polylines
 * @param store    NULL for one of its own
 * @param region   an empty one; to be cleared before the store is freed
 * @return RUNNEL_OK; RUNNEL_E_SHAPE when nothing is left; RUNNEL_E_RANGE for points that are not
 *         finite; RUNNEL_E_NO_MEMORY; RUNNEL_E_NOT_COMPUTED
 */
runnel_status runnel_region_make(const runnel_contours *contours, bool is_path, runnel_store *store,
                                 runnel_region *region);
void runnel_region_clear(runnel_region *region);

/** Adds the contours of all patches where they stand. */
runnel_status runnel_region_contours(const runnel_region *region, runnel_contours *contours);

/** The patch of a print; borrowed. */
const runnel_patch *runnel_print_patch(const runnel_print *print);

/** Its box where it stands. */
runnel_box runnel_print_box(const runnel_print *print);

#endif
