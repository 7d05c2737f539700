/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Writers of the times of a cure.
 */
#ifndef RUNNEL_WRITE_CURE_H
#define RUNNEL_WRITE_CURE_H

#include "runnel/cure.h"
#include "runnel/damp.h"
#include "runnel/heating.h"
#include "runnel/job.h"
#include "runnel/stamp.h"

#include <stdio.h>

#ifdef __cplusplus
extern "C" {
#endif

/** What the temperature does. */
typedef enum runnel_cure_over {
    RUNNEL_CURE_OVER_CONSTANT,
    RUNNEL_CURE_OVER_SWING,
    RUNNEL_CURE_OVER_LOG
} runnel_cure_over;

/** A cure and what it was worked out from. */
typedef struct runnel_cure_report {
    const runnel_job *job; /**< for its resin, shop temperature and humidity; borrowed */
    runnel_cure_law law;
    runnel_cure_over over;
    runnel_swing swing; /**< RUNNEL_CURE_OVER_SWING */
    /* RUNNEL_CURE_OVER_LOG: */
    runnel_stamp poured;
    size_t log_count, gap_count, gap_line, repeated, repeated_line, empty, empty_line;
    double log_s;         /**< from the pour to the end of the log */
    double longest_gap_s; /**< 0 without a gap */
    runnel_cure cure;
    bool is_possible;
    bool has_damp;         /**< a humidity was given, or logged */
    runnel_damp_span span; /**< of the air from the pour until it is hard */
    double humidity, air_degc, board_degc;
    double most_humidity; /**< of that air at any time */
    runnel_damp damp;
    runnel_heating heating; /**< with neither cup nor layer where the sheet says too little */
} runnel_cure_report;

/** A cure as text: what it was worked out with, the moments, what to mind. */
runnel_status runnel_write_cure_text(const runnel_cure_report *report, FILE *out);

/**
 * A cure as one JSON object: resin, is_possible, needed_degc, over ("constant", "swing", "log"),
 * rule ("activation energy", "doubling"), activation_kj_per_mol (null with doubling),
 * energy_is_usual, stated_degc, lowest_degc, pot_mass_g, coldest_degc, warmest_degc, rise_to_gel_k,
 * age_h and stood_h (of a log, else null), moments[] (name, stated_h, reached_h: null when it is
 * not stated or not reached, is_reached, stood_h, and of a log `when`), log (null, or readings,
 * hours, gaps, longest_gap_h, repeated, empty), damp (null, or humidity_percent,
 * most_humidity_percent, air_degc, board_degc, dew_degc, gap_k, least_board_degc, moisture_percent,
 * is_near_dew, is_humid), heat (degc: at the pour, limit_degc, reaction_j_per_g,
 * reaction_low_j_per_g, reaction_high_j_per_g, law_gel_min, law_pot_life_min: at the stated
 * temperature, law_fits, contradicts_sheet, cup (null, or mass_g, diameter_mm, until_min, cup_degc:
 * by then, peak_degc, peak_low_degc, peak_high_degc, peak_min, gel_min, largest_g, is_too_large),
 * layer (null, or depth_mm, wood_mm, peak_degc, peak_low_degc, peak_high_degc, peak_min, gel_min,
 * thickest_mm, is_too_thick)).
 */
runnel_status runnel_write_cure_json(const runnel_cure_report *report, FILE *out);

#ifdef __cplusplus
}
#endif
#endif
