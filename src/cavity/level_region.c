/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The region of a cavity's section: each distinct patch traced once, and placed where it stands.
 */
#include "base/memory.h"
#include "cavity/cut.h"
#include "shape/trace.h"

#include <math.h>

/** What is traced: an inset, grown again. */
typedef struct level {
    double in_mm, out_mm, chord_mm;
    bool is_path;
} level;

/** By GEOS, from the contours themselves. */
static runnel_status offset_patch(const runnel_contours *contours, const level *at,
                                  runnel_contours *region) {
    if (at->is_path)
        return runnel_contours_offset(contours, true, at->out_mm, region);
    runnel_status status = runnel_contours_offset(contours, false, -at->in_mm, region);
    if (!status && at->out_mm > 0)
        status = runnel_contours_offset(region, false, at->out_mm, region);
    return status;
}

static runnel_status trace_patch(const runnel_profile *profile, const runnel_contours *contours,
                                 const level *at, runnel_contours *region) {
    runnel_status status = profile->is_part ? RUNNEL_E_NOT_COMPUTED
                                            : runnel_profile_trace(profile, at->in_mm, at->out_mm,
                                                                   at->chord_mm, region);
    if (!status && at->out_mm > 0) /* rings may overlap at necks */
        status = runnel_outline_union(region, region);
    return status == RUNNEL_E_NOT_COMPUTED ? offset_patch(contours, at, region) : status;
}

/** Traces each part of a compound once; those without anything left stay empty. */
static runnel_status trace_parts(const runnel_shape *shape, const runnel_compound *compound,
                                 const level *at, runnel_contours *each) {
    runnel_status status = RUNNEL_OK;
    size_t known = 0;
    for (size_t i = 0; i < compound->print_count && !status; i++) {
        size_t part = compound->prints[i].part;
        if (part < known)
            continue;
        known = part + 1;
        status =
            trace_patch(compound->parts[part].profile,
                        &runnel_print_patch(&shape->region.prints[i])->contours, at, &each[part]);
        if (status == RUNNEL_E_SHAPE)
            status = RUNNEL_OK;
    }
    return status;
}

static runnel_status place_parts(const runnel_compound *compound, const runnel_contours *each,
                                 runnel_contours *all) {
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < compound->print_count && !status; i++) {
        const runnel_compound_print *print = &compound->prints[i];
        status = runnel_contours_append(all, &each[print->part], 1, print->dx_mm, print->dy_mm);
    }
    return status;
}

/** The patches of a region one by one, or the lines of a path that keep clear of all others. */
static runnel_status level_of_patches(const runnel_shape *shape, const runnel_compound *compound,
                                      const level *at, runnel_contours *region) {
    runnel_contours *each = runnel_zeroed(compound->part_count + 1, sizeof *each);
    runnel_status status = each ? trace_parts(shape, compound, at, each) : RUNNEL_E_NO_MEMORY;
    if (!status)
        status = place_parts(compound, each, region);
    for (size_t i = 0; each && i < compound->part_count; i++)
        runnel_contours_clear(&each[i]);
    runnel_free(each);
    return status;
}

/** Whether each patch has been walked by itself. */
static bool are_apart(const runnel_compound *compound, const runnel_region *region) {
    bool apart = compound->print_count == region->count;
    for (size_t i = 0; i < compound->part_count; i++)
        apart = apart && !compound->parts[i].profile->is_part;
    return apart;
}

/** Lines that come near each other, as one. */
static runnel_status level_of_path(const runnel_shape *shape, const level *at,
                                   runnel_contours *region) {
    runnel_contours all = {0};
    runnel_profile *around = NULL;
    runnel_status status = runnel_region_contours(&shape->region, &all);
    if (!status)
        status = runnel_profile_path(&all, at->out_mm, &around);
    if (!status)
        status = trace_patch(around, &all, at, region);
    runnel_profile_free(around);
    runnel_contours_clear(&all);
    return status;
}

static runnel_status level_of(runnel_shape *shape, const level *at, runnel_contours *region) {
    const runnel_compound *compound = NULL;
    if (shape->is_rounded)
        return runnel_rounded_trace(shape->width_mm, shape->height_mm, shape->radius_mm,
                                    shape->is_path ? RUNNEL_SIDE_BOTH : RUNNEL_SIDE_INSIDE,
                                    at->in_mm, at->out_mm, at->chord_mm, region);
    runnel_status status = shape->is_path ? runnel_shape_around(shape, at->out_mm, &compound)
                                          : runnel_shape_inside(shape, &compound);
    if (status)
        return status;
    if (shape->is_path && !are_apart(compound, &shape->region))
        return level_of_path(shape, at, region);
    return level_of_patches(shape, compound, at, region);
}

runnel_status runnel_cavity_level(runnel_shape *shape, const runnel_cut *cut, double level_mm,
                                  double chord_mm, runnel_contours *region) {
    double area_mm2 = 0;
    runnel_contours made = {0};
    runnel_status status = runnel_cavity_section(shape, cut, level_mm, &area_mm2);
    if (status)
        return status;
    runnel_section_terms t = runnel_section_terms_of(cut, level_mm);
    level at = {t.centres, t.disc, chord_mm, shape->is_path};
    if (shape->is_path)
        at.in_mm = 0;
    status = area_mm2 > 0 ? level_of(shape, &at, &made) : RUNNEL_E_SHAPE;
    if (!status && !made.count)
        status = RUNNEL_E_SHAPE;
    if (status) {
        runnel_contours_clear(&made);
        return status;
    }
    runnel_contours_clear(region);
    *region = made;
    return RUNNEL_OK;
}
