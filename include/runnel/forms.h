/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The written forms of shapes, cutters, ratios and scales, the same in a job file and in an option.
 */
#ifndef RUNNEL_FORMS_H
#define RUNNEL_FORMS_H

#include "runnel/cavity.h"
#include "runnel/contours.h"
#include "runnel/level.h"
#include "runnel/oil.h"
#include "runnel/resin.h"
#include "runnel/sealer.h"
#include "runnel/status.h"
#include "runnel/steps.h"
#include "runnel/upkeep.h"
#include "runnel/wax.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Kinds of primitive shape. */
typedef enum runnel_form_kind {
    RUNNEL_FORM_NONE,
    RUNNEL_FORM_RECTANGLE,         /**< a x b */
    RUNNEL_FORM_ROUNDED_RECTANGLE, /**< a x b, corner radius r */
    RUNNEL_FORM_CIRCLE,            /**< diameter a */
    RUNNEL_FORM_ELLIPSE,           /**< axes a x b (whole lengths) */
    RUNNEL_FORM_POLYGON,           /**< corners; several rings after "hole" */
    RUNNEL_FORM_LINE,              /**< two points */
    RUNNEL_FORM_POLYLINE           /**< two points or more */
} runnel_form_kind;

/** A primitive shape, sizes in mm. Rectangles, circles and ellipses stand with their lower left
 * corner of the box at the origin. Zero-initialised is "none"; clear it after use. */
typedef struct runnel_form {
    runnel_form_kind kind;
    double a_mm, b_mm, r_mm;
    runnel_contours corners; /**< line and polyline (open) and a path's polygon (closed) as written;
                                an outline's polygon: the outer ring first and counter-clockwise,
                                holes clockwise */
} runnel_form;

/** Frees the corners. */
void runnel_form_clear(runnel_form *form);

/**
 * Reads an outline: "rectangle 60 x 40 mm", "rounded rectangle 380 x 220 r 20 mm",
 * "circle 40 mm" (diameter), "ellipse 60 x 40 mm",
 * "polygon 0,0 60,0 60,60 30,60 30,30 0,30 mm", a polygon's holes after the word "hole":
 * "polygon 0,0 60,0 60,40 0,40 hole 20,10 40,10 40,30 20,30 mm".
 * Sizes must be above 0, a corner radius above 0 and at most half the shorter side; nothing is
 * wider than 1 km. A polygon needs three corners that enclose an area, must not cross or touch
 * itself, and has its holes inside the first ring and apart from each other; up to 5000 corners.
 * Lengths may carry any length unit; the unit of all points, or of sizes without their own, stands
 * at the end. Words are alike in either case.
 *
 * @param form an empty form, filled on success
 * @return RUNNEL_OK; RUNNEL_E_UNKNOWN for another word; RUNNEL_E_SYNTAX; RUNNEL_E_UNIT;
 *         RUNNEL_E_RANGE; RUNNEL_E_SHAPE when nothing is enclosed or sides meet;
 *         RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_form_parse_outline(const char *text, runnel_problems *problems,
                                        const runnel_place *place, runnel_form *form);

/**
 * Reads a path, the centre line of the cutter: "line 0,0 100,0 mm", "polyline 0,0 50,0 50,30 mm",
 * "rectangle ...", "rounded rectangle ...", "circle ...", "ellipse ..." and "polygon ..." (closed).
 * Its points may cross and touch; some two of them must differ.
 */
runnel_status runnel_form_parse_path(const char *text, runnel_problems *problems,
                                     const runnel_place *place, runnel_form *form);

/** Reads a cutter written out: "v 60 deg", "v 60 deg tip 0.2 mm", "round-nose radius 3 mm",
 * "round-nose diameter 6 mm", "flat diameter 6 mm", "flat radius 3 mm". Row names are the caller's.
 * @return RUNNEL_OK; RUNNEL_E_UNKNOWN for another word; RUNNEL_E_SYNTAX; RUNNEL_E_UNIT;
 *         RUNNEL_E_RANGE unless the angle is above 0 and below 180 deg, the tip 0 or more, a radius
 *         above 0 */
runnel_status runnel_cutter_parse(const char *text, runnel_problems *problems,
                                  const runnel_place *place, runnel_cutter *cutter);

/** Whether a text is meant as a written-out cutter, so that a row name is not searched for: "v"
 * with more than a number, "round-nose" or "flat" with a word behind it. "v 60" and "flat 6mm" may
 * be rows. */
bool runnel_cutter_is_form(const char *text);

/**
 * Reads a ratio with its basis: "2:1 by volume", "100:44 by weight", "100 : 13 by mass".
 * Without a basis it is refused with the reason (RUNNEL_E_UNIT). Both parts above 0.
 */
runnel_status runnel_ratio_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, runnel_ratio *ratio);

/**
 * Reads a cut of shellac: "2 lb", "2 lb cut" (pounds of flake to a US gallon of spirit), or the
 * same in other units, "240 g/L".
 *
 * @param lb_per_gal pounds to a US gallon of solvent
 * @return RUNNEL_OK; RUNNEL_E_SYNTAX; RUNNEL_E_RANGE
 */
runnel_status runnel_cut_parse(const char *text, runnel_problems *problems,
                               const runnel_place *place, double *lb_per_gal);

/** Reads a kind of sealer by its name, such as "sanding sealer"; alike in either case.
 * @return RUNNEL_OK; RUNNEL_E_UNKNOWN with the nearest name told */
runnel_status runnel_sealer_kind_parse(const char *text, runnel_problems *problems,
                                       const runnel_place *place, runnel_sealer_kind *kind);

/**
 * Reads what lies under the zero of the cutter: "wood" for nothing, "paper 2" and "tape 3" for
 * sheets and layers, a measured thickness such as "0.3 mm", or "paper 2, 10 measure 1.05 mm" for
 * sheets of which a stack was measured.
 *
 * @return RUNNEL_OK; RUNNEL_E_UNKNOWN for another word; RUNNEL_E_SYNTAX; RUNNEL_E_RANGE; as
 *         runnel_quantity_parse
 */
runnel_status runnel_under_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, runnel_under_zero *under);

/** Most steps of an order. */
#define RUNNEL_ORDER_MOST 40

/** An order of steps. */
typedef struct runnel_order {
    runnel_step steps[RUNNEL_ORDER_MOST];
    size_t count;
} runnel_order;

/**
 * Reads an order of steps by the words of runnel_step_text, with commas between: "carve, seal,
 * pour, level, sand, raise the grain, oil, wax".
 *
 * @return RUNNEL_OK; RUNNEL_E_UNKNOWN with the nearest name told; RUNNEL_E_SYNTAX for an empty
 *         step; RUNNEL_E_RANGE for more than RUNNEL_ORDER_MOST
 */
runnel_status runnel_order_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, runnel_order *order);

/** Most grits of a list. */
#define RUNNEL_GRITS_MOST 12

/** Grits of sanding, from coarse to fine. */
typedef struct runnel_grits {
    int numbers[RUNNEL_GRITS_MOST];
    size_t count;
} runnel_grits;

/**
 * Reads grits with commas between, "80, 120, 150", each of 12 to 5000 (ISO 6344 has P12 to P5000).
 *
 * @return RUNNEL_OK; RUNNEL_E_SYNTAX for what is no whole number; RUNNEL_E_RANGE, also for more
 *         than RUNNEL_GRITS_MOST; RUNNEL_E_CONFLICT when one is not finer than the one before
 */
runnel_status runnel_grits_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, runnel_grits *grits);

/** Recesses cut by a round nose that are not filled: a groove for juice along a rectangle, or slots
 * such as finger holds. Zero-initialised is none. */
typedef struct runnel_groove_form {
    size_t count;     /**< 0 = none */
    double length_mm; /**< of the centre line; of a slot from end to end at the face */
    double width_mm;  /**< of the centre line; 0 = a slot */
    double corner_mm; /**< radius of its corners */
    double nose_mm;   /**< radius of the round nose */
    double depth_mm;  /**< may be more than that radius */
    runnel_face face;
} runnel_groove_form;

/**
 * Reads a groove for juice: its centre line, the cutter and the depth, "rounded rectangle 380 x 220
 * r 20 mm, round-nose radius 6 mm, 5 mm deep". It is in the top.
 *
 * @return RUNNEL_OK; RUNNEL_E_SYNTAX; RUNNEL_E_UNKNOWN; RUNNEL_E_UNIT; RUNNEL_E_RANGE
 */
runnel_status runnel_juice_groove_parse(const char *text, runnel_problems *problems,
                                        const runnel_place *place, runnel_groove_form *groove);

/** Reads slots: "2 of 100 mm, round-nose radius 8 mm, 10 mm deep, in the left"; without the number
 * one, without the face in the bottom. The same returns. */
runnel_status runnel_finger_holds_parse(const char *text, runnel_problems *problems,
                                        const runnel_place *place, runnel_groove_form *groove);

/** Reads which way the grain runs: "length", "width", or "end grain" for an end grain board.
 * @return RUNNEL_OK; RUNNEL_E_UNKNOWN */
runnel_status runnel_grain_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, runnel_grain *grain);

/** Reads which edges have chamfers: "all", "top", "bottom", "top and bottom" or "upright", as a set
 * of RUNNEL_EDGE_BIT. @return RUNNEL_OK; RUNNEL_E_UNKNOWN */
runnel_status runnel_edges_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, unsigned *edges);

/** Reads a recipe of oil to wax: "4:1 by weight", "4:1 by volume", or amounts, "5 ml : 1 g".
 * A ratio of less oil than wax is likely turned round and has to be given as amounts.
 * @return as runnel_ratio_parse and runnel_quantity_parse; RUNNEL_E_CONFLICT for such a ratio */
runnel_status runnel_recipe_parse(const char *text, runnel_problems *problems,
                                  const runnel_place *place, runnel_wax_recipe *recipe);

/** Reads how a piece is used: "rare", "weekly", "daily", "wet", "sheltered" or "open air"; how it
 * is washed: "wiped", "rinsed" or "scrubbed"; what a drop of water does: "beads" or "soaks in".
 * @return RUNNEL_OK; RUNNEL_E_UNKNOWN with the nearest word told */
runnel_status runnel_use_parse(const char *text, runnel_problems *problems,
                               const runnel_place *place, runnel_use *use);
runnel_status runnel_washing_parse(const char *text, runnel_problems *problems,
                                   const runnel_place *place, runnel_washing *washing);
runnel_status runnel_water_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, runnel_water *water);

#ifdef __cplusplus
}
#endif
#endif
