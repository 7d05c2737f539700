/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A batch split into cups: by the largest mass, by the time that pouring takes, by the size of the
 * cup, and never below the smallest batch of the scale without saying so.
 */
#ifndef RUNNEL_CUPS_H
#define RUNNEL_CUPS_H

#include "runnel/resin.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Filled to this share a cup can still be stirred; the rest is for that, the tint and the steps of
 * the scale. Common practice. */
#define RUNNEL_CUPS_BRIM_SHARE 0.75
/** Share of the pot life in which a cup should be poured; the rest is for mixing and because resin
 * thickens long before it sets. Common practice. */
#define RUNNEL_CUPS_USABLE_SHARE 0.6
/** From this mass of A + B on a narrow cup heats itself: a wide, shallow dish. Common practice. */
#define RUNNEL_CUPS_HEAT_G 100.0
/** Most cups that a batch is split into. */
#define RUNNEL_CUPS_MOST 1000

/** One thing to pour, such as one cavity or all of a piece, without what stays in the cup. A whole
 * batch that may be divided anywhere is one pour. */
typedef struct runnel_pour {
    double volume_mm3; /**< of mixed resin, > 0 */
    double pour_s;     /**< how long pouring it takes, >= 0 */
} runnel_pour;

/** What is to be split, and the limits. Numbers of which 0 is a default may also be NAN. */
typedef struct runnel_cups_order {
    runnel_mixture mixture;
    double density_a_g_per_ml, density_b_g_per_ml;
    double viscosity_pa_s; /**< of the mix; only for a cup whose loss is a film */
    double tint;           /**< share of the mass of A + B */
    runnel_scale scale;
    double tolerance; /**< of B/A, fraction, > 0 */
    runnel_cup cup;   /**< what stays in each cup */

    double largest_mass_g; /**< A + B in one cup; 0 = no limit */
    double brim_mm3;       /**< what the cup holds to its brim; 0 = no limit */
    double brim_share;     /**< up to which it is filled with A + B; 0 = RUNNEL_CUPS_BRIM_SHARE */
    double pot_life_s;     /**< at the shop's temperature; 0 = not known, no limit */
    double pot_mass_g;     /**< the mass that it was stated for; 0 = not known */
    double usable_share;   /**< at most 1; 0 = RUNNEL_CUPS_USABLE_SHARE */
    double heat_g;         /**< 0 = RUNNEL_CUPS_HEAT_G */
} runnel_cups_order;

/** Limits that keep two cups from being one; bits. */
enum {
    RUNNEL_CUPS_BY_MASS = 1,
    RUNNEL_CUPS_BY_TIME = 2, /**< the usable share of the pot life of the mass in it */
    RUNNEL_CUPS_BY_SIZE = 4
};

/** What is to be told of a cup; bits. */
enum {
    RUNNEL_CUP_RAISED = 1,       /**< below the smallest batch: more is mixed */
    RUNNEL_CUP_ROUNDED = 2,      /**< a little more is mixed, so that whole steps keep the ratio */
    RUNNEL_CUP_LATE = 4,         /**< longer than the usable share of the pot life of its mass:
                                    in more cups each would fall below the smallest batch */
    RUNNEL_CUP_HOT = 8,          /**< heavy enough to heat itself */
    RUNNEL_CUP_OVER_MASS = 16,   /**< what can be weighed is more than the largest mass */
    RUNNEL_CUP_OVER_SIZE = 32,   /**< what can be weighed is more than the cup may hold */
    RUNNEL_CUP_UNWEIGHABLE = 64, /**< no batch on this scale keeps the ratio */
    RUNNEL_CUP_BAD = RUNNEL_CUP_OVER_MASS | RUNNEL_CUP_OVER_SIZE | RUNNEL_CUP_UNWEIGHABLE
};

/** One cup. Pours are taken in their order. */
typedef struct runnel_cup_load {
    size_t first_pour, last_pour;   /**< from 0; both are in it */
    double first_share, last_share; /**< shares of those two that this cup gives; 1 = whole */
    double poured_mm3;
    double loss_mm3;    /**< stays in the cup */
    double pour_s;      /**< time of pouring */
    double pot_share;   /**< that time as a share of the pot life of this mass, or of the stated one
                           where its mass is not known; NAN when no pot life is known */
    double pot_life_s;  /**< of this mass (runnel_pot_life_of_mass); NAN when not known */
    double surplus_mm3; /**< mixed beyond what is poured and what stays, >= 0 but for rounding */
    unsigned limits;    /**< RUNNEL_CUPS_BY_*: why it is not one with the next cup (the last one:
                           with the one before); 0 for a cup that is alone */
    unsigned notes;     /**< RUNNEL_CUP_* */
    runnel_weighing weighing;
} runnel_cup_load;

/** A batch in cups. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_cups {
    runnel_cup_load *items;
    size_t count;
    size_t wanted;     /**< cups that the limits ask for; more than count where cups are LATE */
    unsigned ruled;    /**< limits of all cups together */
    double smallest_g; /**< smallest batch of the scale; INFINITY when there is none */
    double poured_mm3; /**< sum over the cups, which is that of the pours */
    double loss_mm3;
    double mixed_g; /**< A + B in all cups */
} runnel_cups;

/** Pot life of a mass, an estimate: the stated one times the cube root of stated mass/mass, as
 * surface to volume of like cups, and never more than stated. Where the stated mass is not known (0
 * or NAN) it is that which was stated. */
double runnel_pot_life_of_mass(double pot_life_s, double pot_mass_g, double mass_g);

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_cups_clear(runnel_cups *cups);

/**
 * Splits a batch into as few cups as the limits allow, and those as evenly as the pours allow: the
 * largest use that a cup makes of a limit is as small as can be. Pours stay whole, but for those
 * that are more than one cup can give in its usable time; they are divided where a cup is full.
 *
 * Where a cup would be below the smallest batch there are fewer cups with more each, as long as
 * mass and size allow and no cup takes longer than the whole pot life (RUNNEL_CUP_LATE). Where that
 * does not help, more is mixed (RUNNEL_CUP_RAISED).
 *
 * @param count of pours; 0 gives no cups
 * @param cups  an empty one
 * @return RUNNEL_OK; RUNNEL_NOT_POSSIBLE with all filled in when a cup bears a note of
 *         RUNNEL_CUP_BAD; RUNNEL_E_RANGE, also for more than RUNNEL_CUPS_MOST cups;
 *         RUNNEL_E_NOT_COMPUTED when what stays in a cup is all that it may hold;
 *         RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_cups_split(const runnel_cups_order *order, const runnel_pour *pours,
                                size_t count, runnel_cups *cups);

#ifdef __cplusplus
}
#endif
#endif
