/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Cure by chemistry: conversion by an autocatalytic rate law, gel point, glass transition, heat of
 * reaction. All of it is an estimate; where the sheet of a resin says something, the sheet holds.
 *
 * The law is
 *
 *     da/dt = (k1 + k2 a^m) (1 - a)^(n/2) (r - a)^(n/2),  k = k(reference) exp(-E/R (1/T -
 * 1/T_ref))
 *
 * (Kamal & Sourour, Polym. Eng. Sci. 13, 1973, 59, with a last conversion r; r = 1 gives their
 * (1 - a)^n). Scanning calorimetry underpredicts what cures at room temperature (Bashir, Coatings
 * 13, 2023, 592), and a mass of resin heats itself; see runnel/heat.h.
 */
#ifndef RUNNEL_KINETICS_H
#define RUNNEL_KINETICS_H

#include "runnel/resin.h"
#include "runnel/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** A rate law. */
typedef struct runnel_kinetics {
    double k1_per_s;                     /**< at the reference, > 0: it starts the reaction */
    double k2_per_s;                     /**< at the reference, >= 0 */
    double e1_kj_per_mol, e2_kj_per_mol; /**< activation energies, >= 0 */
    double m;                            /**< >= 0 */
    double n;                            /**< > 0 */
    double last; /**< r: the conversion that it stalls at, > 0; above 1 it ends at 1 */
    double reference_degc;
} runnel_kinetics;

/** Rate of conversion in 1/s. NAN outside of the law's range or at or below -273.15 degC; 0 from
 * the last conversion on. */
double runnel_kinetics_rate(const runnel_kinetics *kinetics, double degc, double conversion);

/** Time to a conversion at one temperature, from 0 on.
 * @param seconds INFINITY with RUNNEL_NOT_POSSIBLE
 * @return RUNNEL_OK; RUNNEL_NOT_POSSIBLE from the last conversion on; RUNNEL_E_RANGE;
 *         RUNNEL_E_NOT_COMPUTED; RUNNEL_E_NO_MEMORY */
runnel_status runnel_kinetics_time(const runnel_kinetics *kinetics, double degc, double conversion,
                                   double *seconds);

/** Conversion after a time at one temperature.
 * @return RUNNEL_OK; RUNNEL_E_RANGE; RUNNEL_E_NOT_COMPUTED; RUNNEL_E_NO_MEMORY */
runnel_status runnel_kinetics_conversion(const runnel_kinetics *kinetics, double degc,
                                         double seconds, double *conversion);

/** Shape of a law whose speed is not known. */
typedef struct runnel_kinetics_shape {
    double k1_share; /**< k1/k2, > 0 */
    double m, n;
    double gel;                   /**< conversion at the gel point, above 0 and below 1 */
    double activation_kj_per_mol; /**< of both constants */
} runnel_kinetics_shape;

/** The usual shape: k1/k2 0.02, m 1, n 2 (Sourour & Kamal, Thermochim. Acta 14, 1976, 41, at
 * stoichiometry), gel at 0.57735 (four-functional amine; see runnel_gel_conversion), and
 * RUNNEL_CURE_USUAL_KJ_PER_MOL. The share is common practice: a slow start and an S-shaped curve.
 */
runnel_kinetics_shape runnel_kinetics_usual(void);

/**
 * A law that gels after a stated time at a temperature that stays, as a thin layer does. For a time
 * that was stated for a mass in a cup see runnel_heat_anchor.
 *
 * @param gel_s > 0
 * @return RUNNEL_OK; RUNNEL_E_RANGE; RUNNEL_E_NOT_COMPUTED; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_kinetics_anchor(const runnel_kinetics_shape *shape, double gel_s, double degc,
                                     runnel_kinetics *kinetics);

/** Conversion at which a mix has become so many times as thick as it was at the same temperature:
 * gel (1 - times^(-1/2)), from times = (gel/(gel - a))^2 (Castro & Macosko, AIChE J. 28, 1982, 250,
 * from memory, with the exponent that they have for small conversions, about 2). A pot life ends
 * when it is twice as thick, or up to ten times, by what a sheet calls so (common practice).
 * @param gel as runnel_gel_conversion @param times at least 1 @return NAN out of range */
double runnel_conversion_of_thickening(double gel, double times);

/** Conversion of the deficient group at the gel point, 1/sqrt(r (f - 1) (g - 1)).
 *
 * Flory, Principles of Polymer Chemistry, 1953, chapter IX; Stockmayer 1952. Rings put the real one
 * above it.
 * @param amine_functions   f, active hydrogens of the amine, above 1
 * @param epoxide_functions g, above 1
 * @param ratio             r, the deficient groups to the others, above 0 and at most 1
 * @return NAN out of range; above 1 it never gels */
double runnel_gel_conversion(double amine_functions, double epoxide_functions, double ratio);

/** Glass transition and conversion: Tg = Tg0 + (Tginf - Tg0) L a/(1 - (1 - L) a) (DiBenedetto's
 * equation as Pascault & Williams write it, J. Polym. Sci. B 28, 1990, 85). */
typedef struct runnel_glass {
    double fresh_degc; /**< Tg0 of the fresh mix */
    double cured_degc; /**< Tginf, above it */
    double lambda;     /**< L, change of heat capacity of the cured to that of the fresh, > 0 */
} runnel_glass;

/** Glass transition at a conversion from 0 to 1; NAN out of range. */
double runnel_glass_at(const runnel_glass *glass, double conversion);

/** Conversion at which the glass transition reaches a temperature, so that the cure stalls some 10
 * to 25 K later (common practice): 0 below the fresh one, 1 from the cured one on; NAN out of
 * range. */
double runnel_glass_conversion(const runnel_glass *glass, double degc);

/** Heat of reaction in J/g of a mix in equivalents: 1000 H/(EEW + AHEW).
 * @param kj_per_mol of epoxide; 98 to 122 for amines (Rozenberg, Adv. Polym. Sci. 75, 1986, 113,
 *                   from memory)
 * @return NAN unless all are above 0 */
double runnel_heat_of_mix(double kj_per_mol, double eew, double ahew);

/** Heat of reaction in J/g of a mix that holds so much of part A: all of its epoxide reacts, 1000 H
 * weight_a/EEW. Where A and B meet in equivalents it is that of runnel_heat_of_mix.
 * @param eew      of part A, g/eq
 * @param weight_a share of A in the mass, above 0 and at most 1
 * @return NAN out of range */
double runnel_heat_of_share(double kj_per_mol, double eew, double weight_a);

/** Rise in K of a mass that loses no heat and cures to the end: heat/cp. NAN unless both are above
 * 0. */
double runnel_heat_adiabatic_rise(double reaction_j_per_g, double cp_j_per_g_k);

/** Where a rise in temperature makes a reaction e times as fast: R T^2/E, in K. NAN out of range.
 */
double runnel_heat_characteristic_k(double degc, double activation_kj_per_mol);

/** Time in s until a mass that loses no heat reacts fastest, cp (R T^2/E)/(heat x rate) (Townsend &
 * Tou, Thermochim. Acta 37, 1980, 1). NAN out of range. */
double runnel_heat_time_to_fastest(double degc, double activation_kj_per_mol,
                                   double reaction_j_per_g, double cp_j_per_g_k, double rate_per_s);

/** Depth in mm of resin over an insulating floor (wood) with its top at a temperature, from which
 * on it runs away: sqrt(0.878 lambda (R T^2/E)/q), q the heat of reaction in W/m3 (Frank-
 * Kamenetskii's slab of twice the depth between two such faces). NAN out of range. */
double runnel_heat_runaway_depth(double degc, double activation_kj_per_mol,
                                 double conductivity_w_per_m_k, double watt_per_m3);

#ifdef __cplusplus
}
#endif
#endif
