/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Low, likely and high: how much of what a cavity takes is uncertain on a real bench, and why.
 */
#ifndef RUNNEL_BAND_H
#define RUNNEL_BAND_H

#include "runnel/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Where uncertainty comes from. */
typedef enum runnel_band_cause {
    RUNNEL_BAND_DEPTH,    /**< where the cutter's zero really is */
    RUNNEL_BAND_ANGLE,    /**< the included angle of the cutter against the one it is sold by */
    RUNNEL_BAND_FLATNESS, /**< the board, which moves the depth as an error of the zero does */
    RUNNEL_BAND_SOAK,     /**< how much the grain drinks */
    RUNNEL_BAND_CAUSES
} runnel_band_cause;

/** Name of a cause, such as "depth zero"; "unknown" beyond the last. */
const char *runnel_band_cause_text(runnel_band_cause cause);

/** Errors that go either way, all >= 0. Zero is none; see runnel_band_usual for what is usual. */
typedef struct runnel_band_errors {
    double depth_mm;
    double angle_deg;   /**< of the included angle */
    double flatness_mm; /**< of the board over the cavity */
    double soak;        /**< fraction of the soak */
} runnel_band_errors;

/* What is usual where nobody measured. Common practice. */
#define RUNNEL_BAND_DEPTH_MM    0.1 /**< touching off by paper or by eye */
#define RUNNEL_BAND_ANGLE_DEG   1.0
#define RUNNEL_BAND_FLATNESS_MM 0.2 /**< a planed and clamped board */
#define RUNNEL_BAND_SOAK_SHARE  0.5

/** The four of them. */
runnel_band_errors runnel_band_usual(void);

/** What one cause does. */
typedef struct runnel_band_part {
    double down_mm3; /**< takes away at worst, >= 0 */
    double up_mm3;   /**< adds at worst, >= 0 */
    double share;    /**< of the band: of its variance, where the standard deviation of a cause goes
                        with (down + up)/2. The shares sum to 1; all are 0 when there is no band. */
} runnel_band_part;

/** A volume that is known between two others. `low` and `high` take the causes as independent (root
 * of the sum of squares, each side for itself): all at their worst at once is rare, and the batch
 * that is sized for it is wasted as a rule. `least` and `most` are for that case: plain sums. */
typedef struct runnel_band {
    double likely_mm3;
    double low_mm3, high_mm3;
    double least_mm3, most_mm3;
    runnel_band_part parts[RUNNEL_BAND_CAUSES];
} runnel_band;

/**
 * Volume of a cavity when everything is cut deeper by one shift (negative: shallower) and by a
 * cutter whose included angle is larger by the other; what the machine is told stays as it is.
 * NAN when it cannot be computed; no cut at all is 0.
 */
typedef double (*runnel_shifted_volume)(double depth_shift_mm, double angle_shift_deg, void *state);

/**
 * Band of a cavity by computing it again at each error, the others being 0.
 *
 * @param state    passed through
 * @param soak_mm3 what its grain drinks, >= 0; part of the likely volume. 0 leaves the soak out
 * @return RUNNEL_OK; RUNNEL_E_RANGE; RUNNEL_E_NOT_COMPUTED when a volume is not >= 0 and finite
 */
runnel_status runnel_band_of(runnel_shifted_volume volume, void *state, double soak_mm3,
                             const runnel_band_errors *errors, runnel_band *band);

/** Figures of a cavity as runnel_cavity has them. */
typedef struct runnel_band_figures {
    double volume_mm3;           /**< >= 0 */
    double depth_plus_mm3;       /**< when cut 0.1 mm deeper */
    double depth_minus_mm3;      /**< when cut 0.1 mm shallower (negative) */
    double angle_mm3_per_degree; /**< 0 if not V */
} runnel_band_figures;

/**
 * Band of a cavity without computing it again: over the depth by the parabola through its three
 * volumes, which is exact for a straight V groove, and beyond its vertex by that, as less depth is
 * never more volume; over the angle by the slope. Good for errors of
 * a few tenths of a millimetre and a few degrees.
 *
 * @return as runnel_band_of
 */
runnel_status runnel_band_of_figures(const runnel_band_figures *figures, double soak_mm3,
                                     const runnel_band_errors *errors, runnel_band *band);

/**
 * Band of several cavities together. One zero, one cutter and one wood serve them all, so what a
 * cause does to them adds up; only then the causes are joined.
 *
 * @param counts how often each is there, >= 0; NULL = once
 * @param count  0 gives a band of nothing
 * @param sum    may be one of `bands`
 * @return RUNNEL_OK; RUNNEL_E_RANGE
 */
runnel_status runnel_band_add(const runnel_band *bands, const double *counts, size_t count,
                              runnel_band *sum);

#ifdef __cplusplus
}
#endif
#endif
