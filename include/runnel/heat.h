/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * How warm resin gets by its own heat: in the cup, and as a layer on wood.
 *
 * An estimate: the rate law is anchored to one stated time, and the heat of reaction of a product
 * is seldom known. The layer is endless to its sides; a narrow groove loses more heat and stays
 * cooler. The sheet's deepest layer and largest mass hold where they ask for less.
 */
#ifndef RUNNEL_HEAT_H
#define RUNNEL_HEAT_H

#include "runnel/kinetics.h"

#ifdef __cplusplus
extern "C" {
#endif

/** At or above it a run ends: resin that hot decomposes, and no law here holds for it. */
#define RUNNEL_HEAT_CEILING_DEGC 300.0

/** What the heat of a mix depends on. */
typedef struct runnel_resin_heat {
    double reaction_j_per_g;       /**< >= 0 */
    double cp_j_per_g_k;           /**< > 0 */
    double conductivity_w_per_m_k; /**< > 0 */
    double density_g_per_ml;       /**< > 0 */
} runnel_resin_heat;

/** 400 J/g (100 kJ/mol of epoxide over 190 + 60 g/eq, a polyether diamine; common practice), 1.9
 * J/(g K) (between 2.09 of the liquid, data sheet of undiluted resin, and 1.5 of the cured), 0.2
 * W/(m K) (0.23: Crawford, Plastics Engineering, Table 1.8), 1.1 g/ml. */
runnel_resin_heat runnel_resin_heat_usual(void);

/**
 * The same of a resin: its density, and the heat of reaction that it states, else that of the
 * epoxide in its ratio (runnel_heat_of_share): 100 kJ/mol over 190 g/eq, the middle of 185 to 192
 * of undiluted liquid resin (data sheet, ASTM D1652).
 *
 * @param low, high bounds of the heat of reaction, J/g: as stated, else from 98 kJ/mol over 200
 * g/eq (a tenth of diluent) to 122 over 182 (Rozenberg, Adv. Polym. Sci. 75, 1986, 113, from
 * memory; 182 g/eq: the least of the trade); NULL = not wanted
 * @return the usual heat where neither heat nor ratio are known, with no bounds about it
 */
runnel_resin_heat runnel_resin_heat_of(const runnel_resin *resin, double *low, double *high);

/** Temperature of the air from the start of a run on, where it does not stay. */
typedef struct runnel_heat_air {
    double (*degc_at)(double time_s, const void *of); /**< finite from 0 s on */
    const void *of;                                   /**< borrowed */
    double longest_s;                                 /**< no step over it is longer, > 0 */
} runnel_heat_air;

/** Resin in a straight cup, all at one temperature. */
typedef struct runnel_heat_cup {
    runnel_kinetics kinetics;
    runnel_resin_heat resin;
    double mass_g;          /**< > 0 */
    double diameter_mm;     /**< > 0; top, bottom and wetted wall lose heat */
    double loss_w_per_m2_k; /**< >= 0; through still air and a thin wall about 8 */
    double start_degc, air_degc;
    const runnel_heat_air *air; /**< in place of air_degc; borrowed; NULL = it stays */
    double gel;                 /**< conversion at the gel point, above 0 and below 1 */
} runnel_heat_cup;

/** A layer of resin on wood, with air above the resin and below the wood. */
typedef struct runnel_heat_layer {
    runnel_kinetics kinetics;
    runnel_resin_heat resin;
    double depth_mm; /**< > 0 */
    double wood_mm;  /**< > 0, below the resin */
    double wood_conductivity_w_per_m_k, wood_cp_j_per_g_k, wood_density_g_per_ml; /**< > 0 */
    double top_loss_w_per_m2_k, bottom_loss_w_per_m2_k; /**< >= 0; still air about 8 */
    double start_degc, wood_degc, air_degc;
    const runnel_heat_air *air; /**< as of the cup, above and below */
    double gel;
} runnel_heat_layer;

/** A layer of usual resin at one temperature: wood of 25 mm with 0.15 W/(m K), 1.6 J/(g K) and 0.65
 * g/ml (Wood Handbook FPL-GTR-190, chapter 4, for hardwood near 8 % moisture, from memory), 8
 * W/(m2 K) to the air on both sides. Kinetics, depth and gel are the caller's. */
runnel_heat_layer runnel_heat_layer_usual(double degc);

/** What a run finds. */
typedef struct runnel_heat_run {
    double peak_degc, peak_s; /**< the warmest, anywhere in the resin, and when */
    double gel_s;             /**< from when on the resin has gelled, in a layer its mean; INFINITY
                                 when it has not */
    double end_s;
    double conversion; /**< at the end, the mean */
    double top_degc;   /**< of the resin at the end: at its top ... */
    double under_degc; /**< ... and where it meets the wood; in a cup both the same */
    bool ran_away;     /**< it reached the ceiling, and the run ended there */
    double imbalance;  /**< what the sum of heat made, kept and lost misses, as a share of the heat
                          that was made and lost */
} runnel_heat_run;

/** A moment of a run: the mean conversion, and the warmest of the resin. */
typedef struct runnel_heat_point {
    double time_s, conversion, degc;
} runnel_heat_point;

/** Moments in their order, from the start to the end. Zero-initialised is empty; owned by the
 * caller. */
typedef struct runnel_heat_curve {
    runnel_heat_point *points;
    size_t count, capacity;
} runnel_heat_curve;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_heat_curve_clear(runnel_heat_curve *curve);

/** Moments that a curve is made of, about; where it bends there are more. */
#define RUNNEL_HEAT_POINTS 300

/**
 * @param for_s how long, > 0; 0 = twenty times the gel time at the temperature of the start
 * @return RUNNEL_OK; RUNNEL_E_RANGE; RUNNEL_E_NOT_COMPUTED; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_heat_in_cup(const runnel_heat_cup *cup, double for_s, runnel_heat_run *run);

/** The same of a layer, by finite volumes: 24 in the resin, 16 in the wood, thin ones near the
 * resin. */
runnel_status runnel_heat_in_layer(const runnel_heat_layer *layer, double for_s,
                                   runnel_heat_run *run);

/** The same with its curve. @param curve replaced on success; an empty one at first */
runnel_status runnel_heat_cup_curve(const runnel_heat_cup *cup, double for_s, runnel_heat_run *run,
                                    runnel_heat_curve *curve);
runnel_status runnel_heat_layer_curve(const runnel_heat_layer *layer, double for_s,
                                      runnel_heat_run *run, runnel_heat_curve *curve);

/**
 * The thickest layer whose peak stays at or below a limit, to 1 %.
 *
 * @param layer      its depth is not looked at
 * @param limit_degc above start and air
 * @param for_s      how long it is looked at, as runnel_heat_in_layer
 * @param most_mm    the thickest that is looked at, above 0.1
 * @param depth_mm   most_mm when even that does; 0.1 with RUNNEL_NOT_POSSIBLE when not even that
 * does
 * @return as runnel_heat_in_layer, and RUNNEL_NOT_POSSIBLE
 */
runnel_status runnel_heat_thickest_layer(const runnel_heat_layer *layer, double limit_degc,
                                         double for_s, double most_mm, double *depth_mm);

/** The largest mass in a cup whose peak until the pour is over stays at or below a limit, to 1 %;
 * as runnel_heat_thickest_layer, from 1 g to `most_g`.
 * @param until_s when the cup is empty, > 0; 0 = it is left standing */
runnel_status runnel_heat_largest_cup(const runnel_heat_cup *cup, double limit_degc, double until_s,
                                      double most_g, double *mass_g);

/** What a sheet states of the speed of a cure. NAN or 0 = it does not. */
typedef struct runnel_heat_stated {
    double gel_s;          /**< of a thin layer that keeps its temperature */
    double pot_life_s;     /**< in a cup, where it heats itself: by then ... */
    double pot_conversion; /**< ... so much has reacted, above 0 and below 1 */
} runnel_heat_stated;

/** A law for that, and what it makes of it. */
typedef struct runnel_heat_law {
    runnel_kinetics kinetics;
    double gel_s;      /**< of a thin layer, by the law */
    double pot_life_s; /**< in the cup, by the law; NAN when none is stated */
    bool fits;         /**< both as stated, within 2 % */
} runnel_heat_law;

/**
 * The one rate law that agrees with both the gel time and the pot life: the first tells its speed,
 * the second how much of it comes from the start (k1/k2, from 0.002 to 5). Where no such law does
 * both, the one that is the faster: the sheet then contradicts itself or the model.
 *
 * @param shape its k1_share counts where only one time is stated
 * @param cup   of the pot life; its kinetics and its gel are not looked at; mass 0 = no pot life
 * @return RUNNEL_OK; RUNNEL_E_RANGE, also when nothing is stated; RUNNEL_E_NOT_COMPUTED;
 *         RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_heat_fit(const runnel_kinetics_shape *shape, const runnel_heat_cup *cup,
                              const runnel_heat_stated *stated, runnel_heat_law *law);

/**
 * A rate law that gels after a stated time in a cup, where it heats itself.
 *
 * @param cup   its kinetics are not looked at, its gel point is that of the shape
 * @param gel_s > 0
 * @return RUNNEL_OK; RUNNEL_E_RANGE; RUNNEL_E_NOT_COMPUTED; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_heat_anchor(const runnel_kinetics_shape *shape, const runnel_heat_cup *cup,
                                 double gel_s, runnel_kinetics *kinetics);

#ifdef __cplusplus
}
#endif
#endif
