/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Levelling: what stands under the zero of the cutter, how the crown comes off, and what happens to
 * the letters when the face is taken down.
 */
#ifndef RUNNEL_LEVEL_H
#define RUNNEL_LEVEL_H

#include "runnel/cavity.h"
#include "runnel/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- What lies under the zero -------------------------------------------------------------- */

/** What the cutter's zero is set on. */
typedef enum runnel_under {
    RUNNEL_UNDER_NOTHING, /**< the bare wood */
    RUNNEL_UNDER_PAPER,   /**< sheets of office paper, 80 g/m2 */
    RUNNEL_UNDER_TAPE,    /**< layers of paper masking tape */
    RUNNEL_UNDER_MEASURED /**< anything, of a measured thickness */
} runnel_under;

/** Sheets or layers under the zero. Measuring beats the usual figures: put a stack of, say, ten in
 * the caliper. */
typedef struct runnel_under_zero {
    runnel_under what;
    size_t count;       /**< sheets or layers, 1 or more; MEASURED: 0 = the whole stack */
    double stack_mm;    /**< measured thickness of a stack, 0 = not measured */
    size_t stack_count; /**< sheets in that stack, 1 or more; not used without it */
} runnel_under_zero;

/** A thickness and how far it may be off. */
typedef struct runnel_standoff {
    double likely_mm, low_mm, high_mm;
    const char *source;
} runnel_standoff;

/** One sheet of office paper of 75 to 80 g/m2: about 0.10 mm (published, "0.004 in"); to 0.11 mm
 * from memory. */
#define RUNNEL_PAPER_MM      0.10
#define RUNNEL_PAPER_HIGH_MM 0.11
/** One layer of paper masking tape, from memory: no published figure found, so measure a stack. */
#define RUNNEL_TAPE_LOW_MM  0.10
#define RUNNEL_TAPE_HIGH_MM 0.15
/** Most sheets, layers or passes that are counted. */
#define RUNNEL_LEVEL_MOST 10000

/** Thickness of what lies under the zero. @return RUNNEL_OK; RUNNEL_E_MISSING for a measured
 * thickness that is not given; RUNNEL_E_RANGE */
runnel_status runnel_standoff_of(const runnel_under_zero *under, runnel_standoff *standoff);

/** Thickness of a sheet by its grammage and bulk (printing trade): 80 g/m2 x 1.5 cm3/g = 0.120 mm.
 * @return RUNNEL_OK; RUNNEL_E_RANGE unless both are > 0 */
runnel_status runnel_paper_mm(double g_per_m2, double bulk_cm3_per_g, double *thickness_mm);

/* ---- The crown ----------------------------------------------------------------------------- */

/** How a crown is taken off. */
typedef struct runnel_levelling {
    double crown_mm;     /**< resin above the face, >= 0 */
    double standoff_mm;  /**< of the cut above the face; below 0 the cutter goes into the wood */
    double pass_mm;      /**< most that one pass takes, > 0 */
    double sand_mm;      /**< wood that sanding takes off the face afterwards, >= 0 */
    double high_spot_mm; /**< how much the highest place of the face stands above the one that the
                            zero was set on, >= 0 */
} runnel_levelling;

/** What comes off, and by what. */
typedef struct runnel_level_steps {
    double cut_mm;     /**< that the cutter takes, of resin and wood */
    size_t passes;     /**< whole number of passes for it, 0 when it does not touch */
    double each_mm;    /**< of each pass when all are alike; 0 without passes */
    double left_mm;    /**< resin above the face that is left to sand */
    double sanded_mm;  /**< all that is sanded: what is left, and the wood */
    double face_mm;    /**< that the face loses, by cutter and paper: what narrows the letters */
    double scratch_mm; /**< how much deeper than that the cutter goes into the highest place of the
                          face; 0 when it passes above it */
} runnel_level_steps;

/** Steps of levelling. @return RUNNEL_OK; RUNNEL_E_RANGE, also for more than RUNNEL_LEVEL_MOST
 * passes */
runnel_status runnel_level_steps_of(const runnel_levelling *levelling, runnel_level_steps *steps);

/* ---- Passes -------------------------------------------------------------------------------- */

/** Whole passes of at most `step_mm` for `depth_mm`: ceil(depth/step). A pass is not begun for less
 * than a millionth of a step. @return RUNNEL_OK; RUNNEL_E_RANGE */
runnel_status runnel_depth_passes(double depth_mm, double step_mm, size_t *passes);

/** Lines side by side that surface a width from edge to edge: ceil((width - cutter)/step) + 1; one
 * for a cutter as wide as the board. `step_mm` is at most the cutter's diameter.
 * @return RUNNEL_OK; RUNNEL_E_RANGE */
runnel_status runnel_surfacing_lines(double width_mm, double cutter_mm, double step_mm,
                                     size_t *lines);

/** Height of the ridge that a round nose leaves between lines `step_mm` apart, step <= 2 radius:
 * r - sqrt(r^2 - (step/2)^2). @return RUNNEL_OK; RUNNEL_E_RANGE */
runnel_status runnel_scallop_mm(double radius_mm, double step_mm, double *height_mm);
/** The step that leaves a ridge of a height, at most the radius. @return RUNNEL_OK; RUNNEL_E_RANGE
 */
runnel_status runnel_scallop_step_mm(double radius_mm, double height_mm, double *step_mm);
/** Height of the ridge that a V cutter leaves: (step/2)/tan(half the angle). @return RUNNEL_OK;
 * RUNNEL_E_RANGE */
runnel_status runnel_ridge_mm(double angle_deg, double step_mm, double *height_mm);

/* ---- Letters when the face is taken down --------------------------------------------------- */

/**
 * How much narrower a stroke gets when the face is taken down: 2 r tan(half the angle) for a V; for
 * a round nose by its profile, for a flat end nothing.
 *
 * @param cut       a V along an outline gives the same at any depth; else `depth_mm` counts
 * @param face_mm   taken off the face, >= 0
 * @return RUNNEL_OK; RUNNEL_E_RANGE, also where all of a constant depth is taken
 */
runnel_status runnel_level_narrowing(const runnel_cut *cut, double face_mm, double *narrowing_mm);

/** What a V stroke bears: the depth at which one of this width is gone, width/(2 tan(half the
 * angle)). A tip does not cut the last of it: the width less the tip counts.
 * @return RUNNEL_OK; RUNNEL_E_RANGE */
runnel_status runnel_level_gone_mm(const runnel_cutter *cutter, double width_mm, double *face_mm);

/** A stroke that vanishes or gets thin. */
typedef struct runnel_level_stroke {
    runnel_point at;  /**< its narrowest place, in the shape's own place */
    double before_mm; /**< width there */
    double after_mm;  /**< 0 when it is gone */
    double length_mm; /**< how much of it is so narrow, along the middle */
} runnel_level_stroke;

/** A cavity before and after. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_levelled {
    double face_mm;      /**< taken off */
    double narrowing_mm; /**< of each stroke; NAN when nothing is left */
    double footprint_before_mm2, footprint_mm2;
    double lost;                              /**< share of the footprint, 0 to 1 */
    double border_before_mm, border_mm;       /**< length of the edge */
    double narrowest_before_mm, narrowest_mm; /**< stroke; 0 when it is gone */
    double widest_before_mm, widest_mm;
    double deepest_before_mm, deepest_mm;
    runnel_level_stroke *strokes; /**< gone or thin, in the order of the outline */
    size_t stroke_count, gone_count, stroke_capacity;
} runnel_levelled;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_levelled_clear(runnel_levelled *levelled);

/**
 * What taking down the face does to a cavity: each section becomes the new face, so a V carving
 * that follows an outline becomes the outline's inset by face x tan(half the angle).
 *
 * @param face_mm  taken off, >= 0
 * @param thin_mm  strokes that are left no wider than this are listed too, >= 0
 * @param levelled replaced on success
 * @return as runnel_cavity_compute
 */
runnel_status runnel_level_cavity(runnel_shape *shape, const runnel_cut *cut, double face_mm,
                                  double thin_mm, runnel_levelled *levelled);

/* ---- Veneer -------------------------------------------------------------------------------- */

/** Usual thickness of a face veneer: 0.3 to 0.6 mm (common practice). */
#define RUNNEL_VENEER_LOW_MM  0.3
#define RUNNEL_VENEER_HIGH_MM 0.6

/** What becomes of a veneer. */
typedef enum runnel_veneer {
    RUNNEL_VENEER_KEPT,
    RUNNEL_VENEER_DOUBTFUL, /**< through if it is one of the thinner ones */
    RUNNEL_VENEER_THROUGH
} runnel_veneer;

/**
 * Holds what is taken off the face against the veneer.
 *
 * @param veneer_mm its thickness; 0 = not known, a usual one
 * @param left_mm   what is left of it, or of the thinnest usual one; 0 when it is through
 * @return RUNNEL_OK; RUNNEL_E_RANGE
 */
runnel_status runnel_veneer_check(double face_mm, double veneer_mm, runnel_veneer *verdict,
                                  double *left_mm);

#ifdef __cplusplus
}
#endif
#endif
