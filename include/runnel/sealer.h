/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Sealer: how much of it goes on, from its film or its coverage; shellac by its cut; coats and
 * their times.
 *
 * A film is a volume per area, in mm: 1 ml/m2 is 0.001 mm (1 um). Solids are the share of the
 * volume that stays when the coat is dry. Thinner is told in volumes for each volume of the product
 * as it comes, so that "10 % thinned" is 0.1 and the mix is 1.1.
 */
#ifndef RUNNEL_SEALER_H
#define RUNNEL_SEALER_H

#include "runnel/cautions.h"
#include "runnel/status.h"
#include "runnel/steps.h"

#include <stdbool.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- Films and spreading rates ------------------------------------------------------------- */

/** m2/L in one ft2/US gal: 0.09290304 m2 / 3.785411784 L, exact. */
#define RUNNEL_M2_PER_L_OF_FT2_PER_GAL (0.09290304 / 3.785411784)

/**
 * Wet film of a spreading rate, or the spreading rate of a wet film: each is one over the other, as
 * 1 L spread over 1 m2 stands 1 mm high.
 *
 * @param m2_per_l above 0
 * @return RUNNEL_OK; RUNNEL_E_RANGE
 */
runnel_status runnel_film_of_spread(double m2_per_l, double *wet_mm);
runnel_status runnel_spread_of_film(double wet_mm, double *m2_per_l);

/**
 * Dry film that a wet one leaves: wet x solids / (1 + thinner).
 *
 * @param wet_mm  0 or more
 * @param solids  of the product without thinner, above 0, at most 1
 * @param thinner 0 or more
 * @return RUNNEL_OK; RUNNEL_E_RANGE
 */
runnel_status runnel_film_dry(double wet_mm, double solids, double thinner, double *dry_mm);

/** Wet film that leaves a dry one: dry x (1 + thinner) / solids. As above. */
runnel_status runnel_film_wet(double dry_mm, double solids, double thinner, double *wet_mm);

/* ---- How much goes on ---------------------------------------------------------------------- */

/** What the amount is worked out from. */
typedef enum runnel_sealer_by {
    RUNNEL_SEALER_NONE,     /**< not told; never computed with */
    RUNNEL_SEALER_DRY_FILM, /**< `film_mm` when dry, with the solids */
    RUNNEL_SEALER_WET_FILM, /**< `film_mm` as laid on, thinner included */
    RUNNEL_SEALER_COVERAGE  /**< `m2_per_l` of the product as it comes; thinner goes on top */
} runnel_sealer_by;

/** A sealer and how it is laid on. */
typedef struct runnel_sealer {
    runnel_sealer_by by;
    double film_mm;  /**< of one coat, > 0; as `by` says */
    double m2_per_l; /**< > 0; as `by` says */
    double solids;   /**< above 0, at most 1; 0 = not known, which a dry film cannot do with */
    double thinner;  /**< volumes for each volume of product, >= 0 */
    double loss;     /**< share that ends in brush, pot and air and not on the work, 0 to below 1 */
    size_t coats;    /**< 1 or more */
} runnel_sealer;

/** Share lost by brush or roller. Common practice: 10 to 15 %; the higher of the two. */
#define RUNNEL_SEALER_USUAL_LOSS 0.15
/** Most coats that are computed. */
#define RUNNEL_SEALER_MOST_COATS 100

/** Amounts of sealer. Volumes in mm3, losses included. */
typedef struct runnel_sealer_need {
    double area_mm2;     /**< wall and face together */
    double wet_mm;       /**< film of one coat as laid on */
    double dry_mm;       /**< what is left of it; NAN when the solids are not known */
    double spread_m2;    /**< m2 that 1 L of the mix covers, without loss */
    double practical_m2; /**< the same with the loss */
    double coat_mm3;     /**< mix for one coat */
    double coat_product_mm3, coat_thinner_mm3;
    double all_mm3; /**< mix for all coats */
    double all_product_mm3, all_thinner_mm3;
    double lost_mm3; /**< part of `all_mm3` that does not stay on the work */
} runnel_sealer_need;

/**
 * Sealer for carved walls and for the face around them. The walls' area is
 * runnel_cavity.wall_mm2, the margin's is runnel_cavity_margin.
 *
 * @param wall_mm2,face_mm2 0 or more
 * @return RUNNEL_OK; RUNNEL_E_MISSING when it is not told what to work from, or a dry film has no
 *         solids; RUNNEL_E_RANGE
 */
runnel_status runnel_sealer_compute(const runnel_sealer *sealer, double wall_mm2, double face_mm2,
                                    runnel_sealer_need *need);

/* ---- Shellac ------------------------------------------------------------------------------- */

/** Grams of lac in a litre of solvent for each pound of cut: 453.59237 g / 3.785411784 L, exact. */
#define RUNNEL_G_PER_L_OF_LB_PER_GAL (453.59237 / 3.785411784)
/** Dry lac, g/ml; published 1.14 to 1.21 (lac trade text). */
#define RUNNEL_LAC_G_PER_ML 1.15
/** Ethanol of 95 % by volume (190 proof): 6.80 lb/US gal, from memory. */
#define RUNNEL_SPIRIT_G_PER_ML (6.80 * 453.59237 / 3785.411784)

/**
 * Shellac. The cut counts pounds of dry lac for each US gallon of SOLVENT (US Federal
 * Specification TT-S-300A, 1977), not of the finished shellac, which is more.
 */
typedef struct runnel_shellac {
    double cut_lb_per_gal;   /**< above 0, at most 20 */
    double lac_g_per_ml;     /**< > 0; 0 = RUNNEL_LAC_G_PER_ML */
    double solvent_g_per_ml; /**< > 0; 0 = RUNNEL_SPIRIT_G_PER_ML */
} runnel_shellac;

/** What a cut amounts to, by ideal mixing of volumes (as ASTM D5201 assumes). */
typedef struct runnel_shellac_figures {
    double lac_g_per_l;          /**< of solvent */
    double mass_share;           /**< of lac in the mass: non-volatile, 0 to 1 */
    double volume_share;         /**< of lac in the volume: the solids, 0 to 1 */
    double finished_per_solvent; /**< volume of shellac for a volume of solvent */
    double finished_g_per_l;     /**< lac in a litre of finished shellac */
    double density_g_per_ml;     /**< of the finished shellac */
} runnel_shellac_figures;

/** Figures of a cut. @return RUNNEL_OK; RUNNEL_E_RANGE */
runnel_status runnel_shellac_of(const runnel_shellac *shellac, runnel_shellac_figures *figures);

/** What to dissolve. */
typedef struct runnel_shellac_batch {
    double lac_g;
    double solvent_mm3;
    double solvent_g;
    double finished_g;
} runnel_shellac_batch;

/** Flake and solvent for a wanted volume of finished shellac, >= 0.
 * @return RUNNEL_OK; RUNNEL_E_RANGE */
runnel_status runnel_shellac_dissolve(const runnel_shellac *shellac, double finished_mm3,
                                      runnel_shellac_batch *batch);

/**
 * Solvent to be added to shellac of one cut, to make it one of a lower cut.
 *
 * @param have         what there is, its cut the higher one
 * @param wanted_cut   lb/US gal, above 0, at most that of `have`
 * @param have_mm3     how much there is, >= 0
 * @param solvent_mm3  to be added
 * @param finished_mm3 what it makes
 * @return RUNNEL_OK; RUNNEL_E_RANGE
 */
runnel_status runnel_shellac_thin(const runnel_shellac *have, double wanted_cut, double have_mm3,
                                  double *solvent_mm3, double *finished_mm3);

/** Least non-volatile share that a standard asks of a cut. Ideal mixing gives 2 to 3 points more,
 * as the standard leaves room for moisture and tolerance. */
typedef struct runnel_shellac_minimum {
    double cut_lb_per_gal;
    double orange_share;   /**< of the mass, 0 to 1 */
    double bleached_share; /**< regular and refined */
} runnel_shellac_minimum;

/** The minima of ASTM D360-89(2001), by rising cut. */
const runnel_shellac_minimum *runnel_shellac_minima(size_t *count);

/* ---- Times --------------------------------------------------------------------------------- */

/** Drying of one coat. */
typedef struct runnel_drying {
    double handle_s;                   /**< dry enough to be handled */
    double recoat_from_s, recoat_to_s; /**< usual wait before the next coat, quick and careful */
    double hard_s;                     /**< hard all through: what goes on it may be poured */
    const char *source;
} runnel_drying;

/** Shellac: 1 h to handle, 2 to 3 h to recoat, 24 h to full hardness (US Army TM 43-0139,
 * paragraph 2-23). */
extern const runnel_drying runnel_drying_shellac;

/** When the coats are done, counted from the first one. */
typedef struct runnel_sealer_times {
    double last_coat_from_s, last_coat_to_s; /**< last coat laid on, quick and careful waits */
    double ready_from_s, ready_to_s;         /**< hard, ready for the resin */
} runnel_sealer_times;

/** Times of so many coats, at least 1 and at most RUNNEL_SEALER_MOST_COATS.
 * @return RUNNEL_OK; RUNNEL_E_RANGE, also for times that are not known or do not follow */
runnel_status runnel_sealer_times_of(const runnel_drying *drying, size_t coats,
                                     runnel_sealer_times *times);

/* ---- Kinds --------------------------------------------------------------------------------- */

/** What the sealer is. */
typedef enum runnel_sealer_kind {
    RUNNEL_SEALER_SHELLAC,      /**< dewaxed */
    RUNNEL_SEALER_WAXY_SHELLAC, /**< not dewaxed: resin lets go of it */
    RUNNEL_SEALER_SANDING,      /**< sanding sealer in thinner */
    RUNNEL_SEALER_LACQUER,      /**< in thinner, brushed or sprayed */
    RUNNEL_SEALER_WATER,        /**< any that is thinned with water */
    RUNNEL_SEALER_RESIN,        /**< a thin coat of the clear resin itself */
    RUNNEL_SEALER_KINDS
} runnel_sealer_kind;

/** What is known of a kind. */
typedef struct runnel_sealer_kind_row {
    const char *name;            /**< as it is written, such as "sanding sealer" */
    runnel_step step;            /**< RUNNEL_STEP_SEAL or RUNNEL_STEP_SEAL_WAXY */
    unsigned cases;              /**< set of runnel_caution_case */
    bool by_cut;                 /**< dissolved by the cut */
    const runnel_drying *drying; /**< NULL: as the can says, or for resin as its sheet does */
} runnel_sealer_kind_row;

/** Row of a kind. */
const runnel_sealer_kind_row *runnel_sealer_kind_of(runnel_sealer_kind kind);

#ifdef __cplusplus
}
#endif
#endif
