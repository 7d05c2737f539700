/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Stated times of a resin at other temperatures: a constant one, a daily swing, a logged series.
 *
 * All three count an equivalent age: a second at a temperature is as many seconds at the stated one
 * as the cure is faster there. A moment is reached when the age is its stated time. Below the
 * lowest temperature of the resin nothing is extrapolated: there the age stands still.
 */
#ifndef RUNNEL_CURE_H
#define RUNNEL_CURE_H

#include "runnel/resin.h"
#include "runnel/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Moments that the sheet of a resin states. */
typedef enum runnel_cure_moment {
    RUNNEL_CURE_POT_LIFE, /**< of the stated mass in its cup, not of the layer */
    RUNNEL_CURE_GEL,
    RUNNEL_CURE_RECOAT_FROM,
    RUNNEL_CURE_RECOAT_UNTIL, /**< from then on only over a scuffed face */
    RUNNEL_CURE_SANDABLE,
    RUNNEL_CURE_FULL,
    RUNNEL_CURE_MOMENTS
} runnel_cure_moment;

/** "pot life", "gel", "recoat from", "recoat until", "sandable", "full cure"; NULL beyond. */
const char *runnel_cure_moment_name(runnel_cure_moment moment);

/** Stated time of a moment in s; NAN where the sheet does not say, or beyond the moments. */
double runnel_cure_stated(const runnel_resin *resin, runnel_cure_moment moment);

/** How the speed of a cure follows the temperature. */
typedef enum runnel_cure_rule {
    RUNNEL_CURE_ARRHENIUS, /**< by an activation energy; see runnel_time_at */
    RUNNEL_CURE_DOUBLING   /**< twice as fast for each 10 K more (common practice) */
} runnel_cure_rule;

/** Activation energy where the row has none. It makes a cure 2.0 times as fast at 25 as at 15 degC,
 * and lies within published fits of room temperature amine cures: 44 to 57 kJ/mol (Barral et al.,
 * J. Appl. Polym. Sci. 56, 1995, 1029), 52.9 to 64.6 (Pellin et al., ibid. 55, 1995, 1507). */
#define RUNNEL_CURE_USUAL_KJ_PER_MOL 52.0

/** What the speed of a cure depends on. */
typedef struct runnel_cure_law {
    runnel_cure_rule rule;
    double stated_degc;
    double lowest_degc;           /**< NAN = the sheet does not say, and none is kept to */
    double activation_kj_per_mol; /**< for RUNNEL_CURE_ARRHENIUS */
    bool energy_is_usual;         /**< the row had none, so it is RUNNEL_CURE_USUAL_KJ_PER_MOL */
} runnel_cure_law;

/** The law of a resin. @return RUNNEL_OK; RUNNEL_E_MISSING without a stated temperature;
 * RUNNEL_E_RANGE for a rule, a temperature or an energy that is none */
runnel_status runnel_cure_law_of(const runnel_resin *resin, runnel_cure_rule rule,
                                 runnel_cure_law *law);

/** How many times as fast as at the stated temperature; 0 below the lowest one. NAN at or below
 * -273.15 degC or where the law is none. */
double runnel_cure_speed(const runnel_cure_law *law, double degc);

/** When the moments come. All times are from the pour. */
typedef struct runnel_cure {
    /** NAN where the sheet does not say; INFINITY where it is not reached. */
    double reached_s[RUNNEL_CURE_MOMENTS];
    double stood_s[RUNNEL_CURE_MOMENTS]; /**< of this the cure stood still, as it was too cold */
    /** Age at the end of a series, or at its last moment, in s at the stated temperature; NAN for a
     * constant temperature and a swing. */
    double age_s;
    double all_stood_s;  /**< the cure stood still for so long, over a series; NAN as above */
    double coldest_degc; /**< from the pour on to the last moment or the end */
    double warmest_degc;
    /** The warmest until the gel less the temperature at the pour, 0 or more: a board that warms up
     * lets air out into resin that is still fluid. NAN when no gel time is stated. */
    double rise_to_gel_k;
    double
        needed_degc; /**< with RUNNEL_NOT_POSSIBLE the least temperature that would do; else NAN */
} runnel_cure;

/**
 * The moments at a constant temperature.
 *
 * @return RUNNEL_OK; RUNNEL_NOT_POSSIBLE below the lowest temperature, with no moment reached and
 *         the temperature that is needed; RUNNEL_E_RANGE
 */
runnel_status runnel_cure_at(const runnel_resin *resin, const runnel_cure_law *law, double degc,
                             runnel_cure *cure);

/** A day that repeats itself: mean + amplitude cos(2 pi (hour - hour_of_warmest)/24). */
typedef struct runnel_swing {
    double mean_degc;
    double amplitude_k;     /**< from the mean to the warmest, >= 0 */
    double warmest_at_hour; /**< 0 to 24; 15 is usual */
    double poured_at_hour;  /**< 0 to 24 */
} runnel_swing;

/** Temperature so many seconds after the pour. */
double runnel_swing_at(const runnel_swing *swing, double seconds);

/**
 * The moments under a daily swing.
 *
 * @return RUNNEL_OK, also when the cure stands still for a part of each day; RUNNEL_NOT_POSSIBLE
 *         when it does all day, with the mean temperature (at the same swing) from which on the
 *         warmest hour would do; RUNNEL_E_RANGE
 */
runnel_status runnel_cure_swing(const runnel_resin *resin, const runnel_cure_law *law,
                                const runnel_swing *swing, runnel_cure *cure);

/** A reading of a logger; between two the temperature goes straight. */
typedef struct runnel_reading {
    double time_s; /**< from any one moment on */
    double degc;
    double humidity; /**< relative, fraction; NAN = not logged */
} runnel_reading;

/** Temperature of a series at a moment of its clock; before and after it that of its ends.
 * @param readings as runnel_cure_series */
double runnel_series_at(const runnel_reading *readings, size_t count, double time_s);

/**
 * The moments along a series.
 *
 * @param readings in rising order of time, 2 or more
 * @param poured_s when it was poured, on the clock of the series and within it
 * @return RUNNEL_OK, also when not all moments are reached; RUNNEL_NOT_POSSIBLE when it was too
 *         cold all the time; RUNNEL_E_RANGE
 */
runnel_status runnel_cure_series(const runnel_resin *resin, const runnel_cure_law *law,
                                 const runnel_reading *readings, size_t count, double poured_s,
                                 runnel_cure *cure);

#ifdef __cplusplus
}
#endif
#endif
