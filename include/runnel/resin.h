/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Two-part resin: ratios, densities, the terms of a batch and what goes on the scale.
 */
#ifndef RUNNEL_RESIN_H
#define RUNNEL_RESIN_H

#include "runnel/status.h"

#include <stdbool.h>

#ifdef __cplusplus
extern "C" {
#endif

/** What the two numbers of a ratio count. */
typedef enum runnel_basis {
    RUNNEL_BASIS_NONE, /**< not told; never computed with */
    RUNNEL_BASIS_VOLUME,
    RUNNEL_BASIS_WEIGHT
} runnel_basis;

/** Part A (resin) to part B (hardener). */
typedef struct runnel_ratio {
    double part_a;
    double part_b;
    runnel_basis basis;
} runnel_ratio;

/** One resin: a row of data/resins.csv, or the user's own. Times hold at `stated_degc`; NAN means
 * the sheet does not say. */
typedef struct runnel_resin {
    char *name; /**< owned, key of the row */
    char *kind; /**< owned, one of thin coating, table-top, casting, laminating */
    runnel_ratio ratio;
    double density_a_g_per_ml;
    double density_b_g_per_ml;
    double viscosity_pa_s; /**< of the fresh mix */
    double shrinkage;      /**< volume lost from liquid mix to cured solid, fraction */
    double stated_degc;
    double lowest_degc; /**< below it nothing is extrapolated */
    double pot_life_s;
    double pot_mass_g; /**< the mass that the pot life was stated for */
    double gel_s;
    double recoat_from_s;
    double recoat_until_s;
    double sandable_s;
    double full_cure_s;
    double deepest_layer_mm;
    double largest_mass_g;
    double ratio_tolerance; /**< fraction, such as 0.03 */
    double tint_default;    /**< of the mass of A + B, fraction */
    double tint_cap;        /**< of the mass of A + B, fraction */
    double activation_kj_per_mol;
    double reaction_j_per_g; /**< heat of reaction of the mix; not stated unless above 0: see
                                runnel_resin_heat_of */
    char *source;            /**< owned */
    char *date;              /**< owned, ISO 8601 */
    char *sure; /**< owned: "published", "computed", "common practice", "from memory" */
} runnel_resin;

/** Frees what a resin owns and zeroes it. NULL is allowed. */
void runnel_resin_clear(runnel_resin *resin);
/** Deep copy into an empty resin, which stays empty on failure. @return RUNNEL_OK or
 * RUNNEL_E_NO_MEMORY */
runnel_status runnel_resin_copy(const runnel_resin *from, runnel_resin *to);

/** A mixture of A and B by ideal mixing of volumes: 1/density = wA/densityA + wB/densityB. */
typedef struct runnel_mixture {
    double weight_a; /**< share of A in the mass, 0 to 1 */
    double weight_b;
    double volume_a; /**< share of A in the volume, 0 to 1 */
    double volume_b;
    double density_g_per_ml;
} runnel_mixture;

/** Mixture of a ratio. @return RUNNEL_E_UNIT without a basis; RUNNEL_E_RANGE unless all are > 0 and
 * finite. */
runnel_status runnel_mixture_of(const runnel_ratio *ratio, double density_a_g_per_ml,
                                double density_b_g_per_ml, runnel_mixture *mixture);

/** How far a pair of ratios, one by volume and one by weight, contradict each other under the
 * densities: (B/A from the volume ratio) / (B/A of the weight ratio) - 1, both by weight.
 * @return RUNNEL_E_UNIT when a basis is not the one that the name says; RUNNEL_E_RANGE */
runnel_status runnel_ratio_contradiction(const runnel_ratio *by_volume,
                                         const runnel_ratio *by_weight, double density_a_g_per_ml,
                                         double density_b_g_per_ml, double *difference);

/** The cup that the batch is mixed in. */
typedef struct runnel_cup {
    double diameter_mm;
    double drain_s;      /**< how long it is left to drain into the pour */
    double fixed_loss_g; /**< what stays in cup and on stick, when weighed; replaces the film if >=
                            0; NAN or < 0 = use the film */
} runnel_cup;

/**
 * Volume of the film that stays in a straight cup that held `charge_mm3` and was emptied:
 * wall film h(z,t) = sqrt(mu z/(rho g t)) (Jeffreys 1930; Bird, Stewart & Lightfoot, problem 2D.2),
 * mean 2/3 of the film at the height of the charge, and on the floor a film as thick as the wall's
 * at that height. g = 9.80665 m/s2 (standard gravity, exact).
 *
 * @param charge_mm3 0 or more; all others above 0
 * @return RUNNEL_OK; RUNNEL_E_RANGE
 */
runnel_status runnel_cup_film(double diameter_mm, double charge_mm3, double viscosity_pa_s,
                              double density_g_per_ml, double drain_s, double *wall_mm3,
                              double *floor_mm3);

/** What a batch must fill, all pieces counted. */
typedef struct runnel_need {
    double cavity_mm3;
    double footprint_mm2; /**< the crown stands on it ... */
    double margin_mm2;    /**< ... and on this band around it */
    double crown_mm;
    double soak_wall_mm2; /**< carved surface that drinks */
    double soak_mm;       /**< resin drunk, mm3 per mm2; 1 ml/m2 is 0.001 mm */
    double shrinkage;     /**< fraction of the liquid volume */
    double reserve;       /**< fraction of all but the cup loss */
    double allowance_mm3; /**< for what is uncertain, on top of cavity and soak */
} runnel_need;

/** Terms of a batch, each as a volume of mixed resin, and their sum. */
typedef struct runnel_terms {
    double cavity_mm3;
    double crown_mm3;
    double shrinkage_mm3;
    double soak_mm3;
    double allowance_mm3;
    double reserve_mm3;
    double cup_loss_mm3;
    double total_mm3;
} runnel_terms;

/**
 * Adds up a batch: shrinkage = (cavity + crown) S/(1 - S); reserve on cavity + crown + shrinkage +
 * soak + allowance; the cup loss solves loss(total) = total - rest, as the film depends on the
 * charge. Where nothing is needed nothing is mixed, and all terms are 0.
 *
 * @param need           all fields 0 or more, shrinkage below 1
 * @param cup            a fixed loss (>= 0) leaves diameter and drain time unused, viscosity too
 * @param viscosity_pa_s of the mix, > 0
 * @return RUNNEL_OK; RUNNEL_E_RANGE; RUNNEL_E_NOT_COMPUTED when the film would keep more than the
 *         cup can give (a mix too thick, a cup too narrow or a drain time too short)
 */
runnel_status runnel_terms_of(const runnel_need *need, const runnel_cup *cup,
                              const runnel_mixture *mixture, double viscosity_pa_s,
                              runnel_terms *terms);

/**
 * A scale. A reading is off by at most half a step from rounding, plus the larger of the counts and
 * the percentage of its accuracy: "1 % or 1 count, whichever is more".
 */
typedef struct runnel_scale {
    double step_g;           /**< smallest step shown, > 0 */
    double accuracy_counts;  /**< error in steps beyond the rounding, >= 0 */
    double accuracy_percent; /**< error in percent of the reading, >= 0 */
} runnel_scale;

/** What goes on the scale. */
typedef struct runnel_weighing {
    double part_a_g; /**< multiples of the step */
    double part_b_g;
    double tint_g; /**< on top of A and B; nearest multiple of the step (0 when below half of one)
                    */
    double part_a_ml;
    double part_b_ml;
    double total_g;        /**< A + B */
    double total_ml;       /**< of the mix, A + B */
    double rounding_error; /**< of B/A against the ratio, fraction, signed */
    double ratio_error; /**< worst case of B/A against the ratio: the rounding above and the error
                           of both parts in the way that they are weighed, fraction, >= 0; INFINITY
                           when a part may be 0 */
    bool zero_before_b; /**< the scale is zeroed before B, so that B is one reading; else all is
                           added up in one cup, and B is the difference of two */
} runnel_weighing;

/**
 * Rounds a batch to the scale so that the need is met and the ratio kept. Both parts are at least
 * what the need asks for (to 1e-12 of it) and at most 2 % or two steps above it, whichever is more.
 * Of those pairs it takes the smallest whose ratio is within 0.001 of the best one's, as such a
 * difference is lost in any tolerance of a ratio and is not worth more resin; of equal size the one
 * nearer to the ratio.
 *
 * The error is that of two readings, the scale zeroed before each: zero_before_b is true.
 *
 * @param total_mm3 mixed volume that is needed, > 0
 * @param tint      share of the mass of A + B, >= 0
 * @return RUNNEL_OK; RUNNEL_E_RANGE, also for a step below 1e-12 of a part
 */
runnel_status runnel_weigh(const runnel_mixture *mixture, double density_a_g_per_ml,
                           double density_b_g_per_ml, double total_mm3, double tint,
                           const runnel_scale *scale, runnel_weighing *weighing);

/**
 * Worst error of B/A where all is added up in one cup that is never zeroed in between, as a
 * fraction of the B/A that is shown, >= 0: B is what two readings differ by, and off by half a step
 * and the counts of each; of the percentage, a gain that both readings share, by that of B alone.
 * @return NAN for what runnel_scale_ratio_range refuses
 */
double runnel_scale_added_error(const runnel_scale *scale, double part_a_g, double part_b_g);

/**
 * Errors of B/A for two masses read on a scale that is zeroed before each, as fractions of the B/A
 * that was read: low <= 0 when B is less and A more than shown, high >= 0 the other way; high is
 * INFINITY when A may be 0.
 *
 * @return RUNNEL_OK; RUNNEL_E_RANGE
 */
runnel_status runnel_scale_ratio_range(const runnel_scale *scale, double part_a_g, double part_b_g,
                                       double *low, double *high);

/** Worst relative error of B/A for two masses read on a scale that is zeroed before each, fraction:
 * the larger of the two of runnel_scale_ratio_range. NAN for what that refuses. */
double runnel_scale_ratio_error(const runnel_scale *scale, double part_a_g, double part_b_g);

/**
 * Smallest batch (A + B, g) that can be weighed in the ratio: from it on the worst error of B/A
 * that the readings of both parts may have, step and accuracy, stays within `tolerance`. With off_a
 * and off_b the errors of the readings a and b it is the least mass with (b + off_b)/(a - off_a) <=
 * (1 + tolerance) b/a. On the step alone that is h (1/weight_b + (1 +
 * tolerance)/weight_a)/tolerance with h half a step. Rounding the parts to whole steps comes on
 * top: see runnel_weigh_allowed.
 *
 * @param tolerance fraction, > 0
 * @param mass_g    INFINITY with RUNNEL_NOT_POSSIBLE
 * @return RUNNEL_OK; RUNNEL_E_RANGE; RUNNEL_NOT_POSSIBLE when the percentage of the accuracy takes
 *         up the tolerance by itself (from tolerance/(2 + tolerance) on), so that no batch will do
 */
runnel_status runnel_scale_smallest_batch(const runnel_scale *scale, const runnel_mixture *mixture,
                                          double tolerance, double *mass_g);

/** Why a batch is larger than what was asked for. */
typedef enum runnel_raise {
    RUNNEL_RAISE_NONE,     /**< it is not: as it was asked for it can be weighed */
    RUNNEL_RAISE_SMALLEST, /**< it was below the smallest batch of the scale */
    RUNNEL_RAISE_ROUNDING  /**< it was not, but no whole steps near it keep the ratio well enough */
} runnel_raise;

/** A batch that the scale can weigh within the tolerance of its ratio. */
typedef struct runnel_allowed {
    double asked_g;    /**< A + B that was asked for */
    double smallest_g; /**< by runnel_scale_smallest_batch; INFINITY when there is none */
    runnel_raise raise;
    runnel_weighing
        weighing; /**< added up in one cup where that keeps the tolerance, else zeroed
                     before B; ratio_error is within the tolerance when the call returned OK */
} runnel_allowed;

/**
 * Weighs a batch as runnel_weigh does, and takes more when that would break the tolerance of the
 * ratio: the smallest sum of whole steps, both parts at least what the need asks for, that keeps it
 * (from 1000 steps on to a thousandth). It looks as far as twice the larger of need and smallest
 * batch, and 100 steps on.
 *
 * @param tolerance of B/A, fraction, > 0
 * @return RUNNEL_OK; RUNNEL_E_RANGE; RUNNEL_NOT_POSSIBLE, with the batch as it was asked for, when
 *         none is found that the scale can weigh well enough
 */
runnel_status runnel_weigh_allowed(const runnel_mixture *mixture, double density_a_g_per_ml,
                                   double density_b_g_per_ml, double total_mm3, double tint,
                                   const runnel_scale *scale, double tolerance,
                                   runnel_allowed *allowed);

/**
 * Time at a shop temperature for a time stated at another: Arrhenius with the activation energy,
 * t2 = t1 exp(E/R (1/T2 - 1/T1)), R = 8.31446261815324 J/(mol K) (exact since 2019, CODATA 2018).
 * About 51 kJ/mol halves the time for 10 degrees more near 25 degC. Whether the resin cures at all
 * when it is so cold is not looked at here.
 *
 * @param stated_s              0 or more
 * @param activation_kj_per_mol 0 or more
 * @return RUNNEL_OK; RUNNEL_E_RANGE, also for temperatures at or below -273.15 degC
 */
runnel_status runnel_time_at(double stated_s, double stated_degc, double shop_degc,
                             double activation_kj_per_mol, double *seconds);

/**
 * Epoxide equivalent weight of a blend, g/eq: mass / sum(mass_i / eew_i).
 *
 * @param mass 0 or more each, any one unit
 * @param eew  above 0 each; INFINITY for a filler, which has no epoxide
 * @return RUNNEL_OK; RUNNEL_E_RANGE, also when nothing in the blend has epoxide
 */
runnel_status runnel_blend_eew(const double *mass, const double *eew, size_t count, double *blend);
/** Parts of amine per hundred of resin by weight: 100 AHEW/EEW, both > 0.
 * @return RUNNEL_OK; RUNNEL_E_RANGE */
runnel_status runnel_amine_phr(double ahew, double eew, double *phr);

/** Published range of density, for warnings. */
typedef struct runnel_density_range {
    double low_g_per_ml, high_g_per_ml;
    const char *source;
} runnel_density_range;
/** Range for part A, part B or the fresh mix ('A', 'B', 'M'); NAN and NULL for another letter. */
runnel_density_range runnel_density_published(char part);

#ifdef __cplusplus
}
#endif
#endif
