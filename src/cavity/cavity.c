/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * From cutter, shape and depth to the figures of a cavity. What is exact, and where bounds come
 * from, stands in cut_*.c beside each rule.
 */
#include "cavity/cut.h"

#include "base/memory.h"

#include <math.h>

static runnel_status new_shape(runnel_shape **shape, bool is_path) {
    *shape = runnel_zeroed(1, sizeof **shape);
    if (!*shape)
        return RUNNEL_E_NO_MEMORY;
    (*shape)->is_path = is_path;
    return RUNNEL_OK;
}

static runnel_status take_contours(const runnel_contours *contours, bool is_path,
                                   runnel_store *store, runnel_shape **shape) {
    runnel_shape *made = NULL;
    runnel_status status = new_shape(&made, is_path);
    if (!status)
        status = runnel_region_make(contours, is_path, store, &made->region);
    if (status) {
        runnel_shape_free(made);
        return status;
    }
    made->box = made->region.box;
    *shape = made;
    return RUNNEL_OK;
}

runnel_status runnel_shape_outline(const runnel_contours *contours, runnel_store *store,
                                   runnel_shape **shape) {
    return take_contours(contours, false, store, shape);
}

runnel_status runnel_shape_path(const runnel_contours *contours, runnel_store *store,
                                runnel_shape **shape) {
    return take_contours(contours, true, store, shape);
}

runnel_status runnel_shape_rounded(double width_mm, double height_mm, double radius_mm,
                                   bool is_path, runnel_shape **shape) {
    if (!(width_mm > 0) || !(height_mm > 0) || !(radius_mm > 0) ||
        !(2 * radius_mm <= fmin(width_mm, height_mm)) || !isfinite(width_mm) ||
        !isfinite(height_mm))
        return RUNNEL_E_RANGE;
    runnel_shape *made = NULL;
    runnel_status status = new_shape(&made, is_path);
    if (status)
        return status;
    made->is_rounded = true;
    made->width_mm = width_mm;
    made->height_mm = height_mm;
    made->radius_mm = radius_mm;
    made->box = (runnel_box){0, 0, width_mm, height_mm};
    *shape = made;
    return RUNNEL_OK;
}

void runnel_shape_free(runnel_shape *shape) {
    if (!shape)
        return;
    runnel_compound_clear(&shape->inside);
    runnel_compound_clear(&shape->around);
    runnel_region_clear(&shape->region);
    runnel_free(shape);
}

runnel_box runnel_shape_box(const runnel_shape *shape) {
    return shape->box;
}

runnel_point runnel_shape_start(const runnel_shape *shape) {
    if (shape->is_rounded)
        return (runnel_point){shape->radius_mm, 0};
    const runnel_print *first = &shape->region.prints[0];
    runnel_point start = runnel_print_patch(first)->contours.points[0];
    return (runnel_point){start.x_mm + first->dx_mm, start.y_mm + first->dy_mm};
}

bool runnel_shape_is_path(const runnel_shape *shape) {
    return shape->is_path;
}

/** One exact profile as a compound. */
static runnel_status round_compound(const runnel_shape *shape, runnel_profile_side side,
                                    double reach, runnel_compound *compound) {
    runnel_profile *made = NULL;
    runnel_status status = runnel_profile_rounded_rectangle(shape->width_mm, shape->height_mm,
                                                            shape->radius_mm, side, reach, &made);
    if (!status)
        status = runnel_compound_of(made, compound);
    if (status)
        runnel_profile_free(made);
    return status;
}

runnel_status runnel_shape_inside(runnel_shape *shape, const runnel_compound **inside) {
    runnel_status status = RUNNEL_OK;
    if (!shape->inside.part_count && shape->is_rounded)
        status = round_compound(shape, RUNNEL_SIDE_INSIDE, 0, &shape->inside);
    else if (!shape->inside.part_count)
        status = runnel_compound_inside(&shape->region, &shape->inside);
    if (!status)
        *inside = &shape->inside;
    return status;
}

runnel_status runnel_shape_around(runnel_shape *shape, double reach_mm,
                                  const runnel_compound **around) {
    double reach = fmax(reach_mm, shape->least_reach_mm);
    runnel_compound made = {0};
    runnel_status status = RUNNEL_OK;
    if (shape->around.part_count && shape->around.reach_mm >= reach) {
        *around = &shape->around;
        return RUNNEL_OK;
    }
    if (shape->is_rounded)
        status = round_compound(shape, shape->is_path ? RUNNEL_SIDE_BOTH : RUNNEL_SIDE_OUTSIDE,
                                reach, &made);
    else
        status = runnel_compound_around(&shape->region, reach, &made);
    if (status)
        return status;
    runnel_compound_clear(&shape->around);
    shape->around = made;
    *around = &shape->around;
    return RUNNEL_OK;
}

runnel_status runnel_cut_places(const runnel_compound *inside, double radius_mm, size_t *places) {
    const double rounding = 1e-9; /* as a share of the radius */
    return runnel_compound_count_strokes(inside, 0, radius_mm * (1 - rounding), places);
}

/** Whether cutter, rule, depth and shape go together. */
static bool is_valid(const runnel_shape *shape, const runnel_cut *cut) {
    const runnel_cutter *c = &cut->cutter;
    bool is_v = c->kind == RUNNEL_CUTTER_V && c->angle_deg > 0 && c->angle_deg < 180 &&
                c->tip_mm >= 0 && isfinite(c->tip_mm);
    bool is_round = (c->kind == RUNNEL_CUTTER_ROUND_NOSE || c->kind == RUNNEL_CUTTER_FLAT) &&
                    c->radius_mm > 0 && isfinite(c->radius_mm);
    if (!isfinite(cut->depth_mm) || (!is_v && !is_round))
        return false;
    switch (cut->rule) {
    case RUNNEL_CUT_WALLS:
        return is_v && !shape->is_path && cut->depth_mm >= 0;
    case RUNNEL_CUT_POCKET:
        return !shape->is_path && cut->depth_mm > 0;
    case RUNNEL_CUT_PATH:
        return shape->is_path && cut->depth_mm > 0;
    }
    return false;
}

runnel_status runnel_cavity_compute(runnel_shape *shape, const runnel_cut *cut,
                                    runnel_cavity *cavity) {
    if (!is_valid(shape, cut))
        return RUNNEL_E_RANGE;
    runnel_cavity figures = {0};
    runnel_status status = RUNNEL_E_RANGE;
    switch (cut->rule) {
    case RUNNEL_CUT_WALLS:
        status = runnel_cut_walls(shape, cut, &figures);
        break;
    case RUNNEL_CUT_POCKET:
        status = runnel_cut_pocket(shape, cut, &figures);
        break;
    case RUNNEL_CUT_PATH:
        status = runnel_cut_path(shape, cut, &figures);
        break;
    }
    if (!status)
        *cavity = figures;
    return status;
}

runnel_status runnel_cavity_section(runnel_shape *shape, const runnel_cut *cut, double level_mm,
                                    double *area_mm2) {
    if (!is_valid(shape, cut) || !(level_mm >= 0))
        return RUNNEL_E_RANGE;
    switch (cut->rule) {
    case RUNNEL_CUT_WALLS:
        return runnel_cut_walls_section(shape, cut, level_mm, area_mm2);
    case RUNNEL_CUT_POCKET:
        return runnel_cut_pocket_section(shape, cut, level_mm, area_mm2);
    case RUNNEL_CUT_PATH:
        return runnel_cut_path_section(shape, cut, level_mm, area_mm2);
    }
    return RUNNEL_E_RANGE;
}

runnel_status runnel_cavity_above(runnel_shape *shape, const runnel_cut *cut, double level_mm,
                                  double *volume_mm3) {
    double area_mm2 = 0;
    if (!is_valid(shape, cut) || !(level_mm >= 0))
        return RUNNEL_E_RANGE;
    if (cut->rule == RUNNEL_CUT_WALLS)
        return runnel_cut_walls_above(shape, cut, level_mm, volume_mm3);
    if (cut->rule != RUNNEL_CUT_POCKET || cut->cutter.kind != RUNNEL_CUTTER_FLAT)
        return RUNNEL_E_NOT_COMPUTED;
    runnel_status status = runnel_cut_pocket_section(shape, cut, 0, &area_mm2);
    if (!status)
        *volume_mm3 = area_mm2 * fmin(level_mm, cut->depth_mm);
    return status;
}

/** Half the width of a path's cavity at the face; an outline's edge is that of its cavity. */
static double face_of(const runnel_shape *shape, const runnel_cut *cut) {
    return shape->is_path ? runnel_cutter_radius_at(&cut->cutter, cut->depth_mm, 0) : 0;
}

void runnel_cavity_expect_margin(runnel_shape *shape, const runnel_cut *cut, double margin_mm) {
    if (is_valid(shape, cut) && isfinite(margin_mm))
        shape->least_reach_mm = fmax(shape->least_reach_mm, face_of(shape, cut) + margin_mm);
}

runnel_status runnel_cavity_margin(runnel_shape *shape, const runnel_cut *cut, double margin_mm,
                                   double *area_mm2) {
    if (!is_valid(shape, cut) || !(margin_mm >= 0) || !isfinite(margin_mm))
        return RUNNEL_E_RANGE;
    double face = face_of(shape, cut);
    const runnel_compound *around = NULL;
    runnel_status status = runnel_shape_around(shape, face + margin_mm, &around);
    if (!status)
        *area_mm2 = runnel_compound_moments(around, face + margin_mm).area -
                    runnel_compound_moments(around, face).area;
    return status;
}
