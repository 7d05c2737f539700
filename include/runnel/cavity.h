/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What a cutter leaves: volume, section, wall area of a cavity.
 */
#ifndef RUNNEL_CAVITY_H
#define RUNNEL_CAVITY_H

#include "runnel/contours.h"
#include "runnel/profile.h"
#include "runnel/status.h"
#include "runnel/store.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Kinds of cutter. */
typedef enum runnel_cutter_kind {
    RUNNEL_CUTTER_NONE,
    RUNNEL_CUTTER_V,          /**< included angle, flat at the tip */
    RUNNEL_CUTTER_ROUND_NOSE, /**< half ball with a straight shank above it */
    RUNNEL_CUTTER_FLAT        /**< cylinder */
} runnel_cutter_kind;

/** A cutter. Unused fields are 0. */
typedef struct runnel_cutter {
    runnel_cutter_kind kind;
    double angle_deg; /**< V: included angle, above 0 and below 180 */
    double tip_mm;    /**< V: diameter of the flat at the tip, >= 0 */
    double radius_mm; /**< round-nose and flat: radius, > 0 */
} runnel_cutter;

/** How a shape is cut. */
typedef enum runnel_cut_rule {
    RUNNEL_CUT_WALLS,  /**< V: the walls follow the outline, as deep as its width allows, at most
                          `depth_mm` (0 = no limit) */
    RUNNEL_CUT_POCKET, /**< any cutter: inside the outline at constant `depth_mm` */
    RUNNEL_CUT_PATH    /**< the centre follows the path at constant `depth_mm` */
} runnel_cut_rule;

/** A cavity to be computed. */
typedef struct runnel_cut {
    runnel_cutter cutter;
    runnel_cut_rule rule;
    double depth_mm; /**< limit or depth, as the rule says */
} runnel_cut;

/** What a cut gives. Areas at the face unless told otherwise. */
typedef struct runnel_cavity {
    double footprint_mm2; /**< area of the cavity at the face */
    double volume_mm3;
    double volume_error_mm3; /**< bound: area identity, quadrature, and flattening of curves */
    double wall_mm2;         /**< carved surface, floors included */
    double perimeter_mm;     /**< length of the cavity's edge at the face */
    double deepest_mm;
    runnel_point deepest_at;
    double
        narrowest_mm; /**< narrowest stroke at the face: the least width between walls that run
                         within 30 degrees of parallel; the greatest width where there are none */
    runnel_point narrowest_at;
    double widest_mm;
    double uncut_mm2;            /**< area inside the outline that the tip cannot enter */
    size_t uncut_places;         /**< number of stroke portions narrower than the tip */
    double depth_plus_mm3;       /**< change of volume when the cutter runs 0.1 mm deeper */
    double depth_minus_mm3;      /**< change when it runs 0.1 mm shallower (negative) */
    double angle_mm3_per_degree; /**< change per degree of included angle, tool path kept; 0 if not
                                    V */
} runnel_cavity;

/** The shape that is cut, with its profiles; made by one of the functions below. Opaque. */
typedef struct runnel_shape runnel_shape;

/** A region: any closed contours; their non-zero union is taken.
 * @param store keeps what other shapes may need as well; outlives the shape. NULL for none */
runnel_status runnel_shape_outline(const runnel_contours *contours, runnel_store *store,
                                   runnel_shape **shape);
/** A path: any polylines; they are noded. @param store as above */
runnel_status runnel_shape_path(const runnel_contours *contours, runnel_store *store,
                                runnel_shape **shape);
/** An exact circle or rounded rectangle (radius as in runnel_profile_rounded_rectangle). */
runnel_status runnel_shape_rounded(double width_mm, double height_mm, double radius_mm,
                                   bool is_path, runnel_shape **shape);
/** Frees a shape; NULL is allowed. */
void runnel_shape_free(runnel_shape *shape);
/** Box of the shape itself (an outline's edge, a path's centre line). */
runnel_box runnel_shape_box(const runnel_shape *shape);
/** Whether it is a path. */
bool runnel_shape_is_path(const runnel_shape *shape);

/** Tells ahead of the figures that runnel_cavity_margin will be asked for too, so that one profile
 * around the shape serves both. */
void runnel_cavity_expect_margin(runnel_shape *shape, const runnel_cut *cut, double margin_mm);

/**
 * Computes a cavity. The profile of the shape is made at the first call and kept.
 *
 * @return RUNNEL_OK; RUNNEL_E_RANGE for a cutter or depth outside its range or a rule that does not
 *         go with the shape; RUNNEL_E_IDENTITY; RUNNEL_E_NO_MEMORY; RUNNEL_E_NOT_COMPUTED
 */
runnel_status runnel_cavity_compute(runnel_shape *shape, const runnel_cut *cut,
                                    runnel_cavity *cavity);

/** Half the width that a cutter leaves at the face when it runs `depth_mm` deep, mm. */
double runnel_cutter_face_radius_mm(const runnel_cutter *cutter, double depth_mm);

/** Area of the cavity's section at `level_mm` below the face, mm2; 0 below the deepest point. */
runnel_status runnel_cavity_section(runnel_shape *shape, const runnel_cut *cut, double level_mm,
                                    double *area_mm2);

/**
 * Volume of the cavity between the face and `level_mm` below it, mm3, where no section depends on
 * how deep the cutter runs: between walls, and in a pocket cleared by a flat end.
 *
 * @param level_mm >= 0
 * @return as runnel_cavity_compute; RUNNEL_E_NOT_COMPUTED for other cuts, whose sections are to be
 *         integrated
 */
runnel_status runnel_cavity_above(runnel_shape *shape, const runnel_cut *cut, double level_mm,
                                  double *volume_mm3);

/**
 * The region of that section, for pictures: as runnel_profile_trace has it of each distinct patch,
 * placed where it stands. Where the trace is not to be had, runnel_contours_offset is asked.
 *
 * @param chord_mm how far chords may stand off an arc, > 0
 * @param region   an initialised list; replaced on success
 * @return as runnel_cavity_compute; RUNNEL_E_SHAPE when nothing is left
 */
runnel_status runnel_cavity_level(runnel_shape *shape, const runnel_cut *cut, double level_mm,
                                  double chord_mm, runnel_contours *region);

/** Length of the edge of that section, mm. Errors as for the section. */
runnel_status runnel_cavity_border(runnel_shape *shape, const runnel_cut *cut, double level_mm,
                                   double *length_mm);

/**
 * Strokes of an outline that are cut at the face, but at `level_mm` below it are gone, or no wider
 * than `thin_mm`. Widths are those of the outline itself. A path has one width everywhere and gives
 * none.
 *
 * @param thin_mm >= 0; 0 for those that are gone
 * @param strokes replaced on success; see runnel_profile_thin_strokes
 * @return as runnel_cavity_compute
 */
runnel_status runnel_cavity_thin_strokes(runnel_shape *shape, const runnel_cut *cut,
                                         double level_mm, double thin_mm,
                                         runnel_thin_strokes *strokes);

/**
 * Area of the band around the cavity's edge at the face, out to `margin_mm`, mm2. Where edges are
 * near each other the band is counted once. Around a pocket it is that of the outline, which is
 * somewhat more than around the rounded corners that the cutter leaves.
 */
runnel_status runnel_cavity_margin(runnel_shape *shape, const runnel_cut *cut, double margin_mm,
                                   double *area_mm2);

#ifdef __cplusplus
}
#endif
#endif
