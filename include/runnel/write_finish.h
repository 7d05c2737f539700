/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Outputs of what is done before, beside and after the resin: text for the bench, and JSON. The
 * rules of runnel/write.h hold here too.
 */
#ifndef RUNNEL_WRITE_FINISH_H
#define RUNNEL_WRITE_FINISH_H

#include "runnel/damping.h"
#include "runnel/levelling.h"
#include "runnel/oiling.h"
#include "runnel/rescue.h"
#include "runnel/sealing.h"
#include "runnel/sheet.h"
#include "runnel/stocking.h"
#include "runnel/trial.h"

#include <stdio.h>

#ifdef __cplusplus
extern "C" {
#endif

/** Sealing as text: warnings first, then what was taken, the amounts of each kind of piece, what to
 * dissolve, times, order and cautions. */
runnel_status runnel_write_seal_text(const runnel_job *job, const runnel_sealing *sealing,
                                     FILE *out);
/**
 * Sealing as one JSON object:
 *
 * - job, file
 * - sealer: kind, cut_lb_per_gal, lac_g_per_l (of solvent), coverage_m2_per_l (of the mix, without
 *   loss), wet_film_um, dry_film_um, solids_percent, thinner_percent, loss_percent, coats,
 *   face_margin_mm, taken[] (keys that the job did not tell)
 * - pieces[]: piece, count, wall_mm2, face_mm2 (of one), coat_ml and all_ml (of one), and
 *   all_pieces_coat_ml, all_pieces_ml
 * - total: wall_mm2, face_mm2, coat_ml, all_ml, product_ml, thinner_ml, lost_ml; for shellac
 *   flake_g, solvent_ml, solvent_g; for clear resin part_a_g and part_b_g of one coat
 * - times, counted from the first coat: recoat_from_min, recoat_to_min, last_coat_from_min,
 *   last_coat_to_min, pour_from_min, pour_to_min, pour_until_min (clear resin: while it still
 *   bonds), source
 * - order[] and faults[]: code, earlier, later, is_wrong, text
 * - cautions[]: code, text, source, ask
 * - warnings[]: code, text, where
 */
runnel_status runnel_write_seal_json(const runnel_job *job, const runnel_sealing *sealing,
                                     FILE *out);

/** Levelling as text: warnings first, then what was taken, the crown and the passes, each cavity
 * before and after with the strokes that go, and cautions. */
runnel_status runnel_write_level_text(const runnel_job *job, const runnel_levelling_plan *levelling,
                                      FILE *out);
/**
 * Levelling as one JSON object:
 *
 * - job, file
 * - level: zero_on ("wood", "paper", "tape", "measured"), zero_count, standoff_mm,
 *   standoff_low_mm, standoff_high_mm (thickness under the zero), below_mm, crown_mm, pass_mm,
 *   take_off_mm, thin_mm, high_spot_mm, veneer_mm, source, taken[] (keys that the job did not tell)
 * - crown: cut_mm, passes, each_mm, left_mm, left_low_mm, left_high_mm, sanded_mm, face_mm,
 *   scratch_mm, sandable_min (after the pour), veneer_left_mm
 * - cavities[], each for one piece: name, piece, colour, count, known; narrowing_mm, footprint_mm2,
 *   edge_mm, narrowest_mm, widest_mm, deepest_mm, each also as before_...; lost_percent, gone
 *   (strokes); strokes[]: letter, place (of the letter in the text), x_mm, y_mm, before_mm,
 * after_mm, length_mm
 * - cautions[], warnings[]
 */
runnel_status runnel_write_level_json(const runnel_job *job, const runnel_levelling_plan *levelling,
                                      FILE *out);

/** A trial groove, or two, and what it told. */
typedef struct runnel_trial_report {
    runnel_trial_cut cuts[2];
    size_t cut_count; /**< 1 or 2 */
    runnel_trial_errors errors;
    bool tip_is_given;  /**< else one groove's tip was taken as sharp */
    double sold_as_deg; /**< the angle that the cutter goes by; 0 = not given */
    runnel_trial trial;
} runnel_trial_report;

/** A trial as text, with the cutter in the form that a job takes. */
runnel_status runnel_write_trial_text(const runnel_trial_report *report, FILE *out);
/** A trial as one JSON object: grooves[] (width_mm, depth_mm), width_error_mm, depth_error_mm,
 * angle_deg, angle_error_deg, tip_mm, tip_error_mm, is_sharp, unusual_angle, unusual_tip, cutter
 * (as a job takes it); with sold_as_deg also between_walls_percent and at_depth_percent, by which
 * the resin is more than the angle sold would make it. */
runnel_status runnel_write_trial_json(const runnel_trial_report *report, FILE *out);

/** A mix that was weighed wrongly, and the answer. */
typedef struct runnel_rescue_report {
    const runnel_job *job; /**< for its resin and its scale; borrowed */
    runnel_rescue_case mix;
    runnel_rescue rescue;
} runnel_rescue_report;

/** A rescue as text: what is in the cup, what to do, what becomes of it. */
runnel_status runnel_write_rescue_text(const runnel_rescue_report *report, FILE *out);
/** A rescue as one JSON object: resin, tolerance_percent, verdict ("fine", "add", "nearly", "not"),
 * lacking ("A", "B" or null), the figures of runnel_rescue with shares in percent, limits[]
 * ("stock", "room", "mass", "scale"), warnings[] ("few-strokes", "metered-twice"). */
runnel_status runnel_write_rescue_json(const runnel_rescue_report *report, FILE *out);

/** Oiling as text: warnings first, then what was taken, areas and amounts of each kind of piece,
 * times, the wax to melt, what is to be known where food touches it, order and cautions. */
runnel_status runnel_write_oil_text(const runnel_job *job, const runnel_oiling_plan *oiling,
                                    FILE *out);
/**
 * Oiling as one JSON object:
 *
 * - job, file
 * - oil: kind, dries, nut, uptake_ml_per_m2, end_grain_factor, fall_percent, waste_percent, coats,
 *   food, source, taken[] (keys that the job did not tell)
 * - pieces[]: piece, count, and of one of them face_mm2, end_mm2, total_mm2, chamfer_mm2,
 *   recess_mm2, resin_mm2 (left out), juice_ml, first_coat_ml, all_ml; all_pieces_ml
 * - total: face_mm2, end_mm2, first_coat_ml, last_coat_ml, all_ml, face_ml and end_ml (without the
 *   waste), waste_ml, coats_ml[]
 * - times: soak_min, between_min, last_coat_min, wiped_min, cured_min (from the first coat)
 * - wax: null, or kind, coats, oil_per_wax (by weight), oil_g, oil_ml, wax_g, total_g
 * - order[], faults[], cautions[], warnings[]
 */
runnel_status runnel_write_oil_json(const runnel_job *job, const runnel_oiling_plan *oiling,
                                    FILE *out);

/** A job against the stock as text: warnings first, what is needed, there and left, what to buy,
 * the cost, and the bottles after the job. `taken_out` tells that the stock says so now. */
runnel_status runnel_write_stock_text(const runnel_job *job, const runnel_stocking *stocking,
                                      bool taken_out, FILE *out);
/**
 * A job against the stock as one JSON object: job, file, is_enough, times, pieces, largest_batch_g,
 * runs_out_first ("A", "B" or null), lines[] (what, part, bottles, uncountable, need_g, need_ml,
 * there_g, there_ml, short_g, short_ml, left_g, left_ml, share, used_cost, buy_cost, is_enough,
 * packs, pack_g, pack_ml, currency), costs[] (currency, used, used_per_piece, buy), unpriced,
 * bottles[] (what, part, opened, before_g, before_ml, after_g, after_ml), taken_out, warnings[].
 */
runnel_status runnel_write_stock_json(const runnel_job *job, const runnel_stocking *stocking,
                                      bool taken_out, FILE *out);

/** A whole job as text: warnings first, then each step with its figures, the days, the shopping
 * list and all cautions. */
runnel_status runnel_write_sheet_text(const runnel_job *job, const runnel_sheet *sheet, FILE *out);
/**
 * A whole job as one JSON object: job, file; cavities[] (name, piece, colour, count, volume_ml,
 * footprint_mm2, wall_mm2, deepest_mm); batches[] as in runnel_write_json; seal (null, or sealer,
 * pieces, total, times as in runnel_write_seal_json), level (level, crown, cavities), oil (null, or
 * oil, pieces, total, times, wax), coating (null, or coats, area_mm2, coat_ml, coats_ml: of all);
 * timeline (null without a first or a last day, or as in runnel_write_timeline_json); needs[]
 * (what, part or null, mass_g and volume_ml, of which one may be null); cautions[], warnings[].
 */
runnel_status runnel_write_sheet_json(const runnel_job *job, const runnel_sheet *sheet, FILE *out);

/** Damp as text: warnings first, the air of the shop and of the destination, and each piece with
 * its bands of resin. */
runnel_status runnel_write_damp_text(const runnel_job *job, const runnel_damping *damping,
                                     FILE *out);
/**
 * Damp as one JSON object: job, file; shop and destination (degc, humidity_percent,
 * moisture_percent), dew_degc, from_percent, to_percent, is_measured; pieces[] (piece, count, wood,
 * across_mm, flat_change_mm, quarter_change_mm, bands[] (cavity, across_mm, change_mm,
 * strain_percent, is_long)); warnings[]. What is not known is null.
 */
runnel_status runnel_write_damp_json(const runnel_job *job, const runnel_damping *damping,
                                     FILE *out);

#ifdef __cplusplus
}
#endif
#endif
