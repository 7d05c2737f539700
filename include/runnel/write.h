/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Outputs: text for the bench, JSON, and the lists of what there is.
 *
 * Text is UTF-8 in lines of at most 78 columns, without colour. All writers return RUNNEL_OK, or
 * RUNNEL_E_IO when the stream did not take all of it, flushed; those of JSON and the text of a list
 * may return RUNNEL_E_NO_MEMORY, with nothing written.
 */
#ifndef RUNNEL_WRITE_H
#define RUNNEL_WRITE_H

#include "runnel/job.h"
#include "runnel/lettering.h"
#include "runnel/plan.h"
#include "runnel/tables.h"

#include <stdio.h>

#ifdef __cplusplus
extern "C" {
#endif

/** The sizes as text: warnings first, then what they are worked out with, cavities, terms and
 * weighing of each batch. */
runnel_status runnel_write_size_text(const runnel_job *job, const runnel_plan *plan, FILE *out);
/** The mixing card as text: warnings, for each batch what goes on the scale, what to do. */
runnel_status runnel_write_card_text(const runnel_job *job, const runnel_plan *plan, FILE *out);
/**
 * Everything as one JSON object, closed with a newline. Keys keep their order; numbers have 17
 * digits and read back to the same double; what is not known or has no end is null; bytes that are
 * not UTF-8 become U+FFFD. The unit is in the key.
 *
 * - job, file
 * - resin: name, kind, is_default, changed, ratio and other_ratio (part_a, part_b, basis "volume"
 * or "weight"), its figures, source, date, sure
 * - shop: temperature_degc, humidity_percent, is_default
 * - scale: step_g, accuracy_counts, accuracy_percent, is_default
 * - errors: depth_mm, angle_deg, flatness_mm, soak_percent, is_default; size_to: "high" or "likely"
 * - mixture: weight_a, weight_b, volume_a, volume_b (shares), density_g_per_ml
 * - cavities[], each for one piece: name, piece, colour, count (of pieces), measured,
 *   footprint_mm2, volume_ml, volume_error_ml, low_ml, likely_ml, high_ml (with its soak),
 * wall_mm2, deepest_mm, narrowest_mm, widest_mm, perimeter_mm, margin_mm2, width_mm, height_mm,
 * uncut_mm2, per_tenth_mm_deeper_ml, per_tenth_mm_shallower_ml, per_degree_ml, band_shares
 * (depth_percent, angle_percent, flatness_percent, soak_percent), uncut_places, font_file,
 * sections[] (level_mm, area_mm2; from the face down, empty when not asked for), layers[] (from the
 * bottom up, empty when it is one pour: bottom_mm, top_mm, crown_mm, pour_mm with that, volume_ml,
 * volume_error_ml, surface_mm2, earliest_h and latest_h after the first)
 * - batches[], all pieces counted: colour, cavity_ml, crown_ml, shrinkage_ml, soak_ml, allowance_ml
 * (from likely_ml to high_ml, unless sized to likely), cup_loss_ml, reserve_ml, total_ml (their
 * sum, the need), surplus_ml (weighed beyond it), total_g (weighed, A + B), part_a_g, part_b_g,
 * part_a_ml, part_b_ml, weighed_ml, tint_g, tint_percent, ratio_error_percent,
 * rounding_error_percent, pot_life_min, charge_height_mm, volume_error_ml, low_ml, likely_ml,
 * high_ml (cavities and soak), band_shares, smallest_g (batch that the scale can weigh), pour_min,
 * raise ("none", "smallest batch", "whole steps": why more is weighed than steps of the scale ask
 * for), layers (how many), cups_wanted (by the limits), limits[] ("mass", "time", "size": what made
 * more cups than one), cups[]
 * - batches[].cups[], in the order of pouring: layer (from 1), poured_ml, loss_ml (stays in it),
 * surplus_ml, total_g, part_a_g, part_b_g, part_a_ml, part_b_ml, weighed_ml, tint_g,
 * ratio_error_percent, rounding_error_percent, pour_min, pot_share_percent (of the pot life, that
 * pouring takes), pot_life_min (of its mass, estimated), charge_height_mm, earliest_h, latest_h (of
 * its layer), limits[], notes[] ("raised", "rounded", "late", "hot", "over mass", "over size",
 *   "unweighable"), fills[] (piece, cavity, layer (of the cavity), first, last: of its copies, from
 * 1, first_share_percent, last_share_percent: of the cavity in those two)
 * - pour_order[]: colour, not_before_h (after the first one: when the neighbours have gelled)
 * - bridges[], those that are narrower than the job's least: piece, one, other (cavities of two
 *   colours), distance_mm
 * - warnings[]: code, text, where
 *
 * @return RUNNEL_OK; RUNNEL_E_NO_MEMORY with nothing written; RUNNEL_E_IO when the stream did not
 *         take all of it, flushed
 */
runnel_status runnel_write_json(const runnel_job *job, const runnel_plan *plan, FILE *out);

/** Lists that can be written. */
typedef enum runnel_list_kind {
    RUNNEL_LIST_RESINS,
    RUNNEL_LIST_CUTTERS,
    RUNNEL_LIST_WOODS,
    RUNNEL_LIST_OILS,
    RUNNEL_LIST_UPKEEP,
    RUNNEL_LIST_WORK,
    RUNNEL_LIST_FONTS,
    RUNNEL_LIST_COUNT
} runnel_list_kind;

/** What a list is written from; borrowed. */
typedef struct runnel_list {
    runnel_list_kind kind;
    const runnel_tables *tables;    /**< all but fonts */
    const runnel_font_entry *fonts; /**< fonts */
    size_t font_count;
} runnel_list;

/** A list as text, with the sources of its rows at the end. */
runnel_status runnel_write_list_text(const runnel_list *list, FILE *out);
/** A list as CSV, which runnel_tables_read takes as a table again. */
runnel_status runnel_write_list_csv(const runnel_list *list, FILE *out);
/** A list as a JSON array of objects. Keys are those of a job's resin where they name the same;
 * `file` is the table that the row came from. */
runnel_status runnel_write_list_json(const runnel_list *list, FILE *out);

#ifdef __cplusplus
}
#endif
#endif
