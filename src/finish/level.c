/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/level.h"

#include "base/amount.h"
#include "base/memory.h"

#include <string.h>

static const double pi = 3.14159265358979323846;

/** A pass is not begun for less than this share of a step: what rounding leaves. */
#define LEAST_PASS 1e-6

/* ---- What lies under the zero -------------------------------------------------------------- */

static runnel_status usual_standoff(const runnel_under_zero *under, runnel_standoff *each) {
    switch (under->what) {
    case RUNNEL_UNDER_PAPER:
        *each = (runnel_standoff){RUNNEL_PAPER_MM, RUNNEL_PAPER_MM, RUNNEL_PAPER_HIGH_MM,
                                  "office paper of 75 to 80 g/m2 is about 0.004 in (published); to "
                                  "0.11 mm from memory"};
        return RUNNEL_OK;
    case RUNNEL_UNDER_TAPE:
        *each = (runnel_standoff){0.5 * (RUNNEL_TAPE_LOW_MM + RUNNEL_TAPE_HIGH_MM),
                                  RUNNEL_TAPE_LOW_MM, RUNNEL_TAPE_HIGH_MM,
                                  "paper masking tape, from memory: measure a stack"};
        return RUNNEL_OK;
    case RUNNEL_UNDER_MEASURED:
        return RUNNEL_E_MISSING;
    case RUNNEL_UNDER_NOTHING:
        break;
    }
    return RUNNEL_E_RANGE;
}

runnel_status runnel_standoff_of(const runnel_under_zero *under, runnel_standoff *standoff) {
    runnel_standoff each = {0, 0, 0, "the zero is set on the wood"};
    bool is_stack = under->what == RUNNEL_UNDER_MEASURED && under->count == 0;
    double count = is_stack ? (double)under->stack_count : (double)under->count;
    runnel_status status = RUNNEL_OK;
    if (under->what == RUNNEL_UNDER_NOTHING) {
        *standoff = each;
        return RUNNEL_OK;
    }
    if (!runnel_is_amount(under->stack_mm) || under->count > RUNNEL_LEVEL_MOST ||
        under->stack_count > RUNNEL_LEVEL_MOST)
        return RUNNEL_E_RANGE;
    if (under->stack_mm > 0 && under->stack_count > 0) {
        double mm = under->stack_mm / (double)under->stack_count;
        each = (runnel_standoff){mm, mm, mm, "measured"};
    } else if (under->stack_mm > 0) {
        return RUNNEL_E_RANGE;
    } else {
        status = usual_standoff(under, &each);
    }
    if (!status && !(count >= 1))
        status = RUNNEL_E_RANGE;
    if (!status)
        *standoff = (runnel_standoff){count * each.likely_mm, count * each.low_mm,
                                      count * each.high_mm, each.source};
    return status;
}

runnel_status runnel_paper_mm(double g_per_m2, double bulk_cm3_per_g, double *thickness_mm) {
    double um = g_per_m2 * bulk_cm3_per_g; /* g/m2 x cm3/g = 1e-6 m */
    if (!runnel_is_positive(g_per_m2) || !runnel_is_positive(bulk_cm3_per_g) ||
        !runnel_is_positive(um))
        return RUNNEL_E_RANGE;
    *thickness_mm = um / 1000;
    return RUNNEL_OK;
}

/* ---- Passes -------------------------------------------------------------------------------- */

runnel_status runnel_depth_passes(double depth_mm, double step_mm, size_t *passes) {
    double count = ceil(depth_mm / step_mm - LEAST_PASS);
    if (!runnel_is_amount(depth_mm) || !runnel_is_positive(step_mm) ||
        !(count <= RUNNEL_LEVEL_MOST))
        return RUNNEL_E_RANGE;
    *passes = count > 0 ? (size_t)count : 0;
    return RUNNEL_OK;
}

runnel_status runnel_surfacing_lines(double width_mm, double cutter_mm, double step_mm,
                                     size_t *lines) {
    size_t more = 0;
    if (!runnel_is_positive(width_mm) || !runnel_is_positive(cutter_mm) ||
        !runnel_is_positive(step_mm) || step_mm > cutter_mm)
        return RUNNEL_E_RANGE;
    runnel_status status = runnel_depth_passes(fmax(0, width_mm - cutter_mm), step_mm, &more);
    if (!status)
        *lines = more + 1;
    return status;
}

runnel_status runnel_scallop_mm(double radius_mm, double step_mm, double *height_mm) {
    double half = 0.5 * step_mm;
    if (!runnel_is_positive(radius_mm) || !runnel_is_amount(step_mm) || half > radius_mm)
        return RUNNEL_E_RANGE;
    /* r - root without the difference of near numbers */
    *height_mm = half * half / (radius_mm + sqrt((radius_mm - half) * (radius_mm + half)));
    return RUNNEL_OK;
}

runnel_status runnel_scallop_step_mm(double radius_mm, double height_mm, double *step_mm) {
    if (!runnel_is_positive(radius_mm) || !runnel_is_amount(height_mm) || height_mm > radius_mm)
        return RUNNEL_E_RANGE;
    *step_mm = 2 * sqrt(height_mm * (2 * radius_mm - height_mm));
    return RUNNEL_OK;
}

static bool is_angle(double angle_deg) {
    return angle_deg > 0 && angle_deg < 180;
}

runnel_status runnel_ridge_mm(double angle_deg, double step_mm, double *height_mm) {
    double found = 0.5 * step_mm / tan(angle_deg * pi / 360);
    if (!is_angle(angle_deg) || !runnel_is_amount(step_mm) || !isfinite(found))
        return RUNNEL_E_RANGE;
    *height_mm = found;
    return RUNNEL_OK;
}

/* ---- The crown ----------------------------------------------------------------------------- */

runnel_status runnel_level_steps_of(const runnel_levelling *l, runnel_level_steps *steps) {
    if (!runnel_is_amount(l->crown_mm) || !isfinite(l->standoff_mm) ||
        !runnel_is_positive(l->pass_mm) || !runnel_is_amount(l->sand_mm) ||
        !runnel_is_amount(l->high_spot_mm))
        return RUNNEL_E_RANGE;
    double above = fmax(l->standoff_mm, 0), into = fmax(-l->standoff_mm, 0);
    runnel_level_steps fresh = {.cut_mm = fmax(l->crown_mm - above, 0) + into,
                                .left_mm = fmin(l->crown_mm, above),
                                .face_mm = into + l->sand_mm,
                                .scratch_mm = fmax(l->high_spot_mm - above, 0)};
    fresh.sanded_mm = fresh.left_mm + l->sand_mm;
    runnel_status status = runnel_depth_passes(fresh.cut_mm, l->pass_mm, &fresh.passes);
    if (status)
        return status;
    if (fresh.passes)
        fresh.each_mm = fresh.cut_mm / (double)fresh.passes;
    *steps = fresh;
    return RUNNEL_OK;
}

/* ---- Veneer -------------------------------------------------------------------------------- */

runnel_status runnel_veneer_check(double face_mm, double veneer_mm, runnel_veneer *verdict,
                                  double *left_mm) {
    if (!runnel_is_amount(face_mm) || !runnel_is_amount(veneer_mm))
        return RUNNEL_E_RANGE;
    double low = veneer_mm > 0 ? veneer_mm : RUNNEL_VENEER_LOW_MM;
    double high = veneer_mm > 0 ? veneer_mm : RUNNEL_VENEER_HIGH_MM;
    *verdict = face_mm < low    ? RUNNEL_VENEER_KEPT
               : face_mm < high ? RUNNEL_VENEER_DOUBTFUL
                                : RUNNEL_VENEER_THROUGH;
    *left_mm = fmax(low - face_mm, 0);
    return RUNNEL_OK;
}

/* ---- Letters when the face is taken down --------------------------------------------------- */

runnel_status runnel_level_narrowing(const runnel_cut *cut, double face_mm, double *narrowing_mm) {
    const runnel_cutter *c = &cut->cutter;
    bool is_v = c->kind == RUNNEL_CUTTER_V;
    if (!runnel_is_amount(face_mm) || (is_v ? !is_angle(c->angle_deg) : !(c->radius_mm > 0)))
        return RUNNEL_E_RANGE;
    if (cut->rule == RUNNEL_CUT_WALLS || is_v) {
        if (!is_v || (cut->rule != RUNNEL_CUT_WALLS && !(face_mm < cut->depth_mm)))
            return RUNNEL_E_RANGE;
        *narrowing_mm = 2 * (face_mm * tan(c->angle_deg * pi / 360));
        return RUNNEL_OK;
    }
    if (!runnel_is_positive(cut->depth_mm) || !(face_mm < cut->depth_mm))
        return RUNNEL_E_RANGE;
    *narrowing_mm = 2 * (runnel_cutter_face_radius_mm(c, cut->depth_mm) -
                         runnel_cutter_face_radius_mm(c, cut->depth_mm - face_mm));
    return RUNNEL_OK;
}

runnel_status runnel_level_gone_mm(const runnel_cutter *cutter, double width_mm, double *face_mm) {
    double tangent = tan(cutter->angle_deg * pi / 360);
    double found = fmax(width_mm - cutter->tip_mm, 0) / (2 * tangent);
    if (cutter->kind != RUNNEL_CUTTER_V || !is_angle(cutter->angle_deg) ||
        !runnel_is_amount(cutter->tip_mm) || !runnel_is_amount(width_mm) || !isfinite(found))
        return RUNNEL_E_RANGE;
    *face_mm = found;
    return RUNNEL_OK;
}

void runnel_levelled_clear(runnel_levelled *levelled) {
    if (!levelled)
        return;
    runnel_free(levelled->strokes);
    memset(levelled, 0, sizeof *levelled);
}

/* Depth below which nothing is cut; infinite for walls that run together. */
static double floor_of(const runnel_cut *cut) {
    return cut->rule == RUNNEL_CUT_WALLS && cut->depth_mm == 0 ? INFINITY : cut->depth_mm;
}

/* Width that is left of a stroke; 0 when the cutter does not reach into what is left of it. */
static double width_after(const runnel_cut *cut, const runnel_levelled *l, double before_mm) {
    double half = 0.5 * before_mm, lack = 0.5 * l->narrowing_mm;
    bool is_cut = l->footprint_mm2 > 0;
    if (cut->rule == RUNNEL_CUT_WALLS)
        is_cut = is_cut && half > lack + 0.5 * cut->cutter.tip_mm;
    else if (cut->rule == RUNNEL_CUT_POCKET)
        is_cut = is_cut && half >= runnel_cutter_face_radius_mm(&cut->cutter, cut->depth_mm);
    return is_cut ? before_mm - l->narrowing_mm : 0;
}

static runnel_status take_strokes(const runnel_cut *cut, const runnel_thin_strokes *from,
                                  runnel_levelled *l) {
    runnel_status status =
        runnel_reserve(&l->strokes, &l->stroke_capacity, from->count, sizeof *l->strokes);
    for (size_t i = 0; i < from->count && !status; i++) {
        const runnel_thin_stroke *stroke = &from->items[i];
        double after_mm = width_after(cut, l, stroke->width_mm);
        l->strokes[l->stroke_count++] =
            (runnel_level_stroke){stroke->at, stroke->width_mm, after_mm, stroke->length_mm};
        l->gone_count += after_mm == 0;
    }
    return status;
}

static void take_figures(const runnel_cut *cut, const runnel_cavity *figures, runnel_levelled *l) {
    l->footprint_before_mm2 = figures->footprint_mm2;
    if (figures->footprint_mm2 > 0)
        l->lost = fmin(fmax(1 - l->footprint_mm2 / figures->footprint_mm2, 0), 1);
    l->narrowest_before_mm = figures->narrowest_mm;
    l->widest_before_mm = figures->widest_mm;
    l->deepest_before_mm = figures->deepest_mm;
    l->narrowest_mm = width_after(cut, l, figures->narrowest_mm);
    l->widest_mm = width_after(cut, l, figures->widest_mm);
    l->deepest_mm = l->footprint_mm2 > 0 ? fmax(figures->deepest_mm - l->face_mm, 0) : 0;
}

/* The new face: the section at its level, where the floor is not reached. */
static runnel_status take_section(runnel_shape *shape, const runnel_cut *cut, runnel_levelled *l) {
    double area = 0, border = 0;
    runnel_status status = runnel_cavity_section(shape, cut, l->face_mm, &area);
    if (!status)
        status = runnel_cavity_border(shape, cut, l->face_mm, &border);
    if (status || !(area > 0) || l->face_mm >= floor_of(cut))
        return status;
    l->footprint_mm2 = area;
    l->border_mm = border;
    return runnel_level_narrowing(cut, l->face_mm, &l->narrowing_mm);
}

runnel_status runnel_level_cavity(runnel_shape *shape, const runnel_cut *cut, double face_mm,
                                  double thin_mm, runnel_levelled *levelled) {
    runnel_levelled fresh = {.face_mm = face_mm, .narrowing_mm = NAN};
    runnel_thin_strokes thin = {0};
    runnel_cavity figures;
    if (!runnel_is_amount(face_mm) || !runnel_is_amount(thin_mm))
        return RUNNEL_E_RANGE;
    runnel_status status = runnel_cavity_compute(shape, cut, &figures);
    if (!status)
        status = take_section(shape, cut, &fresh);
    if (!status)
        status = runnel_cavity_border(shape, cut, 0, &fresh.border_before_mm);
    if (!status)
        status = runnel_cavity_thin_strokes(shape, cut, face_mm, thin_mm, &thin);
    if (!status) {
        take_figures(cut, &figures, &fresh);
        status = take_strokes(cut, &thin, &fresh);
    }
    runnel_thin_strokes_clear(&thin);
    if (status) {
        runnel_levelled_clear(&fresh);
        return status;
    }
    runnel_levelled_clear(levelled);
    *levelled = fresh;
    return RUNNEL_OK;
}
