/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The real included angle and tip of a V cutter, from a trial groove that was measured.
 */
#ifndef RUNNEL_TRIAL_H
#define RUNNEL_TRIAL_H

#include "runnel/status.h"

#include <stdbool.h>

#ifdef __cplusplus
extern "C" {
#endif

/** A groove as it was measured. */
typedef struct runnel_trial_cut {
    double width_mm; /**< across, at the face */
    double depth_mm; /**< of the tip below the face */
} runnel_trial_cut;

/** How far off the readings may be, either way, each >= 0. Zero is exact. */
typedef struct runnel_trial_errors {
    double width_mm;
    double depth_mm;
    double tip_mm; /**< of a tip flat that is given */
} runnel_trial_errors;

/* What is usual. Common practice. */
#define RUNNEL_TRIAL_WIDTH_MM 0.1  /**< calliper or rule on a fuzzy edge */
#define RUNNEL_TRIAL_DEPTH_MM 0.05 /**< the machine's depth or a depth gauge */

/** Those two, and a tip that is taken as it is given. */
runnel_trial_errors runnel_trial_usual(void);

/** What a trial tells. The errors are of first order, from readings that are off independently. */
typedef struct runnel_trial {
    double angle_deg; /**< included */
    double angle_error_deg;
    double tip_mm; /**< diameter of the flat: as given, or found */
    double tip_error_mm;
    bool is_sharp;      /**< the tip found was below 0 by less than its error, and is taken as 0 */
    bool unusual_angle; /**< outside 10 to 150 degrees, which few V cutters are */
    bool unusual_tip;   /**< above 1 mm, or above 0 and below 0.05: a wrong unit? */
} runnel_trial;

/**
 * One groove and the tip flat: tan(angle/2) = (width - tip)/(2 depth).
 *
 * @param tip_mm   0 for a sharp tip
 * @param problems where each reason to refuse is told, or NULL
 * @param place    copied into the problems, or NULL; its field is kept when it has one
 * @return RUNNEL_OK; RUNNEL_E_RANGE for a reading that is none; RUNNEL_E_CONFLICT for a groove that
 *         is not wider than the tip, or so little that the measuring cannot tell
 */
runnel_status runnel_trial_one(const runnel_trial_cut *cut, double tip_mm,
                               const runnel_trial_errors *errors, runnel_problems *problems,
                               const runnel_place *place, runnel_trial *trial);

/**
 * Two grooves of different depth: tan(angle/2) = half the difference of the widths over that of the
 * depths, tip = width - 2 depth tan(angle/2). An error of the zero that both share does not touch
 * the angle, but the tip.
 *
 * @return RUNNEL_OK; RUNNEL_E_RANGE for a reading that is none; RUNNEL_E_CONFLICT when the depths
 *         or the widths are nearer to each other than the measuring can tell, when the deeper
 * groove is the narrower, or when the tip comes out below 0 by more than its error
 */
runnel_status runnel_trial_two(const runnel_trial_cut *one, const runnel_trial_cut *other,
                               const runnel_trial_errors *errors, runnel_problems *problems,
                               const runnel_place *place, runnel_trial *trial);

#ifdef __cplusplus
}
#endif
#endif
