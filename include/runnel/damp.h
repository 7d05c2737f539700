/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Damp: water that falls on the resin, and what the air does to the wood.
 */
#ifndef RUNNEL_DAMP_H
#define RUNNEL_DAMP_H

#include "runnel/cure.h"
#include "runnel/status.h"

#include <stdbool.h>

#ifdef __cplusplus
extern "C" {
#endif

/** Least gap between dew point and board: 3 K. Below it a film of water may fall on the face, and
 * amine blush with it (rule of coating work: ISO 8502-4 and common practice). */
#define RUNNEL_DAMP_GAP_K 3.0
/** Highest humidity for resin that cures, a fraction (common practice). */
#define RUNNEL_DAMP_HUMIDITY 0.80
/** Longest band of resin across the grain that follows the wood as a rule (common practice, from
 * memory). */
#define RUNNEL_DAMP_BAND_MM 100.0

/**
 * Dew point by Magnus' formula over water, with 17.625 and 243.04 K (Alduchov & Eskridge, J. Appl.
 * Meteorol. 35, 1996, 601; its vapour pressures are within 0.4 % from -40 to 50 degC).
 *
 * @param air_degc -40 to 50
 * @param humidity relative, fraction, above 0 and at most 1
 * @return RUNNEL_OK; RUNNEL_E_RANGE
 */
runnel_status runnel_dew_point(double air_degc, double humidity, double *dew_degc);

/** Whether a face stays dry. */
typedef struct runnel_damp {
    double dew_degc;
    double gap_k;            /**< board less dew point */
    bool is_near_dew;        /**< the gap is below RUNNEL_DAMP_GAP_K */
    bool is_humid;           /**< above RUNNEL_DAMP_HUMIDITY */
    double least_board_degc; /**< the coldest that the board may be */
    double moisture_percent; /**< that wood comes to in this air; NAN where it is not known */
} runnel_damp;

/** Looks at a board in the air of a shop. @return as runnel_dew_point; the board from -40 to 100 */
runnel_status runnel_damp_of(double air_degc, double humidity, double board_degc,
                             runnel_damp *damp);

/** The air over a span of time. A board follows the air slowly, so that the coldest counts against
 * the dampest, whenever each of them was. */
typedef struct runnel_damp_span {
    runnel_reading dampest; /**< with the highest dew point; its humidity NAN when none is known */
    double most_humidity;   /**< fraction; NAN when none is known */
    double coldest_degc, warmest_degc;
} runnel_damp_span;

/**
 * Looks through the readings from a moment to another; at both ends the air is that between their
 * neighbours. Readings without a humidity, or beyond the range of runnel_dew_point, tell no dew.
 *
 * @param readings in rising order of time, 2 or more
 * @param from_s,to_s on their clock; before the first and after the last reading there is none
 * @return RUNNEL_OK; RUNNEL_E_RANGE for a span that no reading is in or about
 */
runnel_status runnel_damp_over(const runnel_reading *readings, size_t count, double from_s,
                               double to_s, runnel_damp_span *span);

/**
 * Moisture content in percent of the dry mass that wood of any kind comes to (Wood Handbook
 * FPL-GTR-190, equation 4-5, with the coefficients for degrees Celsius; Simpson, FPL-RN-0268).
 * Within 0.06 of its table 4-2.
 *
 * @param air_degc -1.2 to 132.3, as the table
 * @param humidity fraction, 0 to 1
 * @return RUNNEL_OK; RUNNEL_E_RANGE
 */
runnel_status runnel_wood_moisture(double air_degc, double humidity, double *percent);

/**
 * Change of width across the grain: width x coefficient x change of moisture (Wood Handbook,
 * chapter 13, for 6 to 14 %).
 *
 * @param width_mm     >= 0
 * @param coefficient  share per 1 % (runnel_wood.coefficient_tangential for flat-sawn boards,
 *                     coefficient_radial for quarter-sawn ones), 0 to 0.01
 * @param from_percent,to_percent moisture, 0 to 30
 * @param change_mm    above 0 when it swells
 * @return RUNNEL_OK; RUNNEL_E_RANGE
 */
runnel_status runnel_wood_movement(double width_mm, double coefficient, double from_percent,
                                   double to_percent, double *change_mm);

/** The same from the shrinkage of green wood to dry, for any moisture: width (to - from)/(3000/S -
 * 30 + from), S in percent, above 0 and below 30 (Wood Handbook, chapter 13). */
runnel_status runnel_wood_movement_wide(double width_mm, double shrinkage_percent,
                                        double from_percent, double to_percent, double *change_mm);

/**
 * The same of a wood, by what is known of it: from 6 to 14 % by its coefficient; beyond, where the
 * two part (by 6 % from 28 to 8 %), by its shrinkage. Where a row's coefficient is not that of its
 * shrinkage, within 2 %, as it is of a mixture or of a wood that begins to shrink below 30 %, the
 * coefficient holds, in the same form: width (to - from)/(1/coefficient - 10 + from).
 *
 * @param coefficient       NAN = not known
 * @param shrinkage_percent from green to dry, NAN = not known
 * @return RUNNEL_OK; RUNNEL_E_RANGE, also when neither is known
 */
runnel_status runnel_wood_change(double width_mm, double coefficient, double shrinkage_percent,
                                 double from_percent, double to_percent, double *change_mm);

/** Coefficient per 1 % from a shrinkage in percent, 1/(3000/S - 20), for moistures around 10 %; NAN
 * unless S is above 0 and below 30. */
double runnel_wood_coefficient(double shrinkage_percent);

/** A band of resin that lies across the grain. */
typedef struct runnel_damp_band {
    double change_mm; /**< how much the wood along it changes, which the resin does not */
    double strain;    /**< the same as a share of its length */
    bool is_long;     /**< above RUNNEL_DAMP_BAND_MM: it may crack or come loose at its ends */
} runnel_damp_band;

/** What a change of moisture does to a band. @param length_mm across the grain
 * @return as runnel_wood_change */
runnel_status runnel_damp_band_of(double length_mm, double coefficient, double shrinkage_percent,
                                  double from_percent, double to_percent, runnel_damp_band *band);

#ifdef __cplusplus
}
#endif
#endif
