/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A mix that was weighed wrongly: how far off it is, and what to add.
 */
#ifndef RUNNEL_RESCUE_H
#define RUNNEL_RESCUE_H

#include "runnel/resin.h"

#ifdef __cplusplus
extern "C" {
#endif

/** What an amount of a part was measured in. */
typedef enum runnel_dose_unit {
    RUNNEL_DOSE_NONE, /**< not told; never computed with */
    RUNNEL_DOSE_GRAMS,
    RUNNEL_DOSE_ML,
    RUNNEL_DOSE_STROKES /**< of a metering pump */
} runnel_dose_unit;

/** An amount of one part. */
typedef struct runnel_dose {
    double amount; /**< in the unit, >= 0 */
    runnel_dose_unit unit;
    double stroke_ml; /**< what one stroke gives, > 0; only for strokes */
} runnel_dose;

/** Mass of a dose. @return RUNNEL_OK; RUNNEL_E_UNIT without a unit; RUNNEL_E_RANGE */
runnel_status runnel_dose_mass(const runnel_dose *dose, double density_g_per_ml, double *mass_g);

/** Fewer strokes than this of a pump are too few to trust: a bubble in one is a large share of
 * them. Common practice: weigh such a batch. */
#define RUNNEL_FEWEST_STROKES 2

/** A mix in the cup. Zeros and NAN: not told, no limit. */
typedef struct runnel_rescue_case {
    runnel_mixture mixture; /**< as it should be */
    double density_a_g_per_ml, density_b_g_per_ml;
    double tolerance;            /**< of B/A, fraction, > 0 */
    runnel_dose part_a, part_b;  /**< what is in the cup; not both nothing */
    double wanted_g;             /**< A + B that was to be mixed */
    double step_g;               /**< of the scale that the rest is weighed on */
    bool knows_stock;            /**< whether the two below are told; 0 is then an empty bottle */
    double stock_a_g, stock_b_g; /**< left to add */
    double room_mm3;             /**< what the cup may hold of A + B */
    double largest_mass_g;       /**< A + B in one cup */
} runnel_rescue_case;

/** What becomes of the mix. */
typedef enum runnel_verdict {
    RUNNEL_RESCUE_FINE,   /**< within the tolerance as it is */
    RUNNEL_RESCUE_ADD,    /**< right when `add_g` is added */
    RUNNEL_RESCUE_NEARLY, /**< not all can be added, but enough for the tolerance */
    RUNNEL_RESCUE_NOT     /**< it cannot be put right */
} runnel_verdict;

/** What keeps from adding all; bits. */
enum {
    RUNNEL_RESCUE_STOCK = 1, /**< the bottle */
    RUNNEL_RESCUE_ROOM = 2,  /**< the cup: pour over into a larger one */
    RUNNEL_RESCUE_MASS = 4,  /**< it would heat itself: divide into two cups first */
    RUNNEL_RESCUE_SCALE = 8  /**< the step of the scale is too coarse for so little */
};

/** What is to be told besides; bits. */
enum {
    RUNNEL_RESCUE_FEW_STROKES = 1,  /**< fewer than RUNNEL_FEWEST_STROKES of a part */
    RUNNEL_RESCUE_METERED_TWICE = 2 /**< the pumps give the ratio by one stroke each, and the ratio
                                       was pumped in strokes as well */
};

/** The answer. */
typedef struct runnel_rescue {
    double part_a_g, part_b_g; /**< in the cup */
    double ratio_error;        /**< of B/A, fraction, signed; -1 without B, INFINITY without A */
    runnel_verdict verdict;
    char lacking;   /**< 'A' or 'B', which there is too little of; 0 when it is right */
    double exact_g; /**< of that part, to be right */
    double least_g; /**< of that part, to be within the tolerance; 0 when it is */
    double add_g;   /**< of that part: nothing when it is fine; else all, or what the limits
                       leave */
    double add_ml;
    double add_strokes; /**< of the same pump; NAN when the part was not pumped */
    double ratio_error_after;
    double total_g, total_ml; /**< A + B with what is added */
    double over_wanted_g;     /**< total beyond what was wanted, negative when short; NAN if not
                                 told */
    double serves_g;          /**< of the other part: what the part that lacks serves as it is */
    double excess_g;          /**< of the other part: what is there beyond that */
    double right_g;           /**< A + B of a right mix without adding */
    unsigned limits;          /**< what keeps from adding all; bits */
    unsigned warnings;        /**< bits */
} runnel_rescue;

/**
 * Looks at a mix. Only the part that lacks is ever added; nothing can be taken out of a cup.
 *
 * @return RUNNEL_OK; RUNNEL_NOT_POSSIBLE with all filled in when the verdict is RUNNEL_RESCUE_NOT;
 *         RUNNEL_E_UNIT for a dose without its unit; RUNNEL_E_RANGE
 */
runnel_status runnel_rescue_of(const runnel_rescue_case *mix, runnel_rescue *rescue);

#ifdef __cplusplus
}
#endif
#endif
