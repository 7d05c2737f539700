/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * From a job to its cavities, batches and warnings. Pure: no file, clock or font is opened here;
 * lettering comes through a function pointer.
 */
#ifndef RUNNEL_PLAN_H
#define RUNNEL_PLAN_H

#include "runnel/band.h"
#include "runnel/cavity.h"
#include "runnel/cups.h"
#include "runnel/job.h"
#include "runnel/layers.h"
#include "runnel/resin.h"
#include "runnel/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Area of a cavity's section at a level below the face. */
typedef struct runnel_section {
    double level_mm;
    double area_mm2;
} runnel_section;

/** Most levels of one cavity. */
#define RUNNEL_SECTIONS_MOST 10000

/** A cavity of a plan, per one piece. Strings and sections are owned. */
typedef struct runnel_plan_cavity {
    char *name, *piece, *colour;
    size_t piece_count;
    runnel_cavity figures;
    double margin_mm2;          /**< band under the crown's overlap */
    double width_mm, height_mm; /**< of its box at the face */
    runnel_band band;           /**< of its volume and its soak; of a measured one the soak alone */
    bool measured;              /**< volume was measured, not computed */
    char *font_file;            /**< font really used, or NULL */
    runnel_layers layers; /**< of a cavity deeper than one pour, else empty; volumes and surfaces
                               are NAN when the depth alone is known, as of a measured cavity */
    runnel_section *sections; /**< from the face down, by the job's step; NULL when not asked for */
    size_t section_count;
} runnel_plan_cavity;

/** What a cup gives to one cavity. */
typedef struct runnel_plan_fill {
    size_t cavity;      /**< in the plan's list */
    size_t layer;       /**< of the cavity, from 1 */
    size_t first, last; /**< its pieces, from 1 */
    double first_share; /**< of the cavity in the first of them that this cup gives; 1 = all */
    double last_share;  /**< and in the last of them */
} runnel_plan_fill;

/** One cup of a batch. */
typedef struct runnel_plan_cup {
    size_t layer;         /**< of the batch, from 1; not before the recoat time of the one before */
    runnel_cup_load load; /**< pour_s and pot_share are NAN when some pour time is not known; then
                             cups are not split by time */
    double earliest_s;    /**< of its layer, after the first one; NAN when not known */
    double latest_s;      /**< the same when nothing is to be sanded in between */
    double charge_height_mm; /**< height of the mix in the cup */
    runnel_plan_fill *fills; /**< owned; NULL in a job of very many pieces: the next part of all */
    size_t fill_count, fill_capacity;
} runnel_plan_cup;

/** Most cavities, each piece counted, that are dealt out to cups one by one. */
#define RUNNEL_POURS_MOST 10000

/** A batch: all resin of one colour, all pieces counted. It is never weighed so small that the
 * scale would break the tolerance of the ratio; a colour of which nothing is needed has none. */
typedef struct runnel_plan_batch {
    char *colour;
    runnel_terms terms;       /**< what is needed; the cup loss is that of all cups */
    runnel_weighing weighing; /**< sum of all cups, the errors those of the worst */
    double surplus_mm3;       /**< weighed beyond the need, by whole steps or by `raise` */
    runnel_raise raise;       /**< why more is weighed than whole steps ask for, in some cup */
    double smallest_g;        /**< smallest batch of the scale; INFINITY when there is none */
    runnel_band band;         /**< of all its cavities with their soak */
    double allowance_share;   /**< of the cavities' own ways from likely to high that it has on top:
                                   below 1 as it is not all at its worst at once */
    double top_up_mm3;        /**< wanted for pinholes once it is level, not in the above; 0 for
                                   none; NAN, with its masses, when no batch can be weighed */
    runnel_weighing top_up;   /**< that as a mix of its own, no smaller than the smallest batch */
    double tint;              /**< share used */
    double volume_error_mm3;  /**< bound of the cavity term */
    double charge_height_mm;  /**< height of the mix in the fullest cup */
    double pour_s;            /**< of all pouring; where the job does not tell, each piece and layer
                                   takes what the tables tell; NAN when they do not */
    runnel_plan_cup *cups;    /**< in the order of pouring; owned */
    size_t cup_count;         /**< 0 when more than RUNNEL_CUPS_MOST would be needed */
    size_t layer_count;       /**< most layers of one of its cavities; the last ones go together */
    size_t cups_wanted;       /**< cups that the limits ask for */
    unsigned cups_ruled;      /**< RUNNEL_CUPS_BY_*: the limits that made them more than one */
    double not_before_s;      /**< when it may be poured, after the first batch: not before its
                                   neighbours have gelled; NAN when that is not known */
    double pot_life_s; /**< at the shop's temperature, of the stated mass; NAN when too cold or
                          unknown */
} runnel_plan_batch;

/** Wood between two cavities of one piece and of two colours, whose places are told. */
typedef struct runnel_bridge {
    size_t one, other;  /**< cavities in the plan's list, the first one first */
    double distance_mm; /**< at the face; 0 where they touch or overlap */
} runnel_bridge;

/**
 * A warning: data, shown on card, JSON and text. Numbers in the text have a decimal point whatever
 * the locale.
 *
 * The codes. Those of the first row say that the job cannot be done as asked:
 * - "too-cold" (below the resin's lowest temperature), "cuts-through" (the cutter comes out below),
 *   "too-wide" (does not fit on the piece), "nothing-cut" (the tip enters no part), "no-batch" (the
 *   scale keeps the ratio with no batch at all), "large-mass", "small-cup" (the least that can be
 *   weighed is more than the resin or the cup bears), "many-cups" (more than anyone mixes);
 * - of a cavity: "too-deep" (less wood left than asked for), "thin-strokes" (parts that the tip
 *   cannot enter), "layers" (deeper than one pour), "odd-tip" (likely the wrong unit),
 *   "odd-angle" (a V that by its error may be none),
 *   "soak-assumed" (no wood named), "goes-through" (a measured hole as deep as the board),
 *   "beyond-edge" (it opens at the edge of the piece), "thin-film" (cures slowly), "dip" (may sink
 *   below the face as it hardens);
 * - of two cavities of a piece: "thin-bridge" (little wood between two colours), "overlap" (at the
 *   face they touch or overlap);
 * - of the resin: "density" (outside what is published), "ratio-contradiction" (two ratios more
 *   than 2 % apart), "usual-energy" (its sheet has none); of the shop: "damp" (above 80 %); of the
 * colours: "colour-unused";
 * - of a batch: "tint-cap", "tint-below-step", "small-batch" (more is weighed than needed, as the
 *   scale does not keep the ratio of less), "hot-cup" (heats itself), "pot-life-mass" (more in a
 *   cup than the pot life was stated for), "late-pour" (takes longer than the usable share of it).
 *
 * Up to 0.005 mm beyond a limit is not told.
 */
typedef struct runnel_warning {
    char *code; /**< one of the above; stable */
    char *text;
    char *where; /**< "piece / cavity", "batch amber", "resin", ... */
} runnel_warning;

/** A plan. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_plan {
    runnel_plan_cavity *cavities;
    size_t cavity_count, cavity_capacity;
    runnel_plan_batch *batches;
    size_t batch_count, batch_capacity;
    runnel_bridge *bridges; /**< those narrower than the job's least */
    size_t bridge_count, bridge_capacity;
    runnel_warning *warnings;
    size_t warning_count, warning_capacity;
    runnel_mixture mixture;
} runnel_plan;

/** Frees all. */
void runnel_plan_clear(runnel_plan *plan);

/** Sets a text; runnel_lettering_set is one. */
typedef runnel_status (*runnel_letter_function)(const runnel_text *text, runnel_problems *problems,
                                                const runnel_place *place,
                                                runnel_lettering *lettering);

/** Where letters come from, and where what was worked out for them is kept. */
typedef struct runnel_letters {
    runnel_letter_function set; /**< NULL when there is no text to be set */
    runnel_store *store;        /**< for all shapes; NULL: nothing is kept */
} runnel_letters;

/**
 * Makes the plan of a checked job. Every cavity that cannot be computed is told, then it fails
 * once.
 *
 * @param letters sets the texts; may be NULL when the job has none
 * @param plan   an empty one
 * @return RUNNEL_OK, or RUNNEL_NOT_POSSIBLE with a filled plan when it holds a warning that says
 *         that the job cannot be done as asked (shop below the resin's lowest temperature, ...);
 *         otherwise the problem's status, the plan untouched
 */
runnel_status runnel_plan_make(const runnel_job *job, const runnel_tables *tables,
                               const runnel_letters *letters, runnel_problems *problems,
                               runnel_plan *plan);

#ifdef __cplusplus
}
#endif
#endif
