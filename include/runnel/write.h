/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Outputs: text for the bench and JSON.
 */
#ifndef RUNNEL_WRITE_H
#define RUNNEL_WRITE_H

#include "runnel/job.h"
#include "runnel/plan.h"

#include <stdio.h>

#ifdef __cplusplus
extern "C" {
#endif

/** The sizes: cavities, terms of each batch, warnings, as text. */
runnel_status runnel_write_size_text(const runnel_job *job, const runnel_plan *plan, FILE *out);
/** The mixing card as text. */
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
 * - mixture: weight_a, weight_b, volume_a, volume_b (shares), density_g_per_ml
 * - cavities[], each for one piece: name, piece, colour, count (of pieces), measured,
 * footprint_mm2, volume_ml, volume_error_ml, wall_mm2, deepest_mm, narrowest_mm, widest_mm,
 * perimeter_mm, margin_mm2, width_mm, height_mm, uncut_mm2, per_tenth_mm_deeper_ml,
 * per_tenth_mm_shallower_ml, per_degree_ml, uncut_places, font_file
 * - batches[], all pieces counted: colour, cavity_ml, crown_ml, shrinkage_ml, soak_ml, cup_loss_ml,
 *   reserve_ml, total_ml (their sum, the need), total_g (weighed, A + B), part_a_g, part_b_g,
 *   part_a_ml, part_b_ml, weighed_ml, tint_g, tint_percent, ratio_error_percent,
 *   rounding_error_percent, pot_life_min, charge_height_mm, volume_error_ml
 * - warnings[]: code, text, where
 *
 * @return RUNNEL_OK; RUNNEL_E_NO_MEMORY with nothing written; RUNNEL_E_IO when the stream did not
 *         take all of it, flushed
 */
runnel_status runnel_write_json(const runnel_job *job, const runnel_plan *plan, FILE *out);

#ifdef __cplusplus
}
#endif
#endif
