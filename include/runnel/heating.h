/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What its own heat does to the resin of a job: in the cup and as a layer, from the times that its
 * sheet states. An estimate, as all of runnel/heat.h; the sheet's deepest layer and largest mass
 * hold where they ask for less.
 */
#ifndef RUNNEL_HEATING_H
#define RUNNEL_HEATING_H

#include "runnel/cure.h"
#include "runnel/heat.h"
#include "runnel/resin.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Warmest that resin should get: above it yellows, foams and shrinks away, and the wood below lets
 * out air (common practice). */
#define RUNNEL_HEATING_LIMIT_DEGC 60.0

/** What is looked at. 0 = the usual, but for degc. */
typedef struct runnel_heating_case {
    double degc;        /**< of resin, wood and air, at the pour */
    double mass_g;      /**< in the cup; usually the mass that the pot life holds for */
    double diameter_mm; /**< of the cup; usually 70 mm */
    double until_s;    /**< the cup is empty then; usually when it has stood for the pot life of its
                          mass */
    double layer_mm;   /**< usually the deepest layer that the sheet allows */
    double wood_mm;    /**< below the layer; usually 25 mm */
    double limit_degc; /**< usually RUNNEL_HEATING_LIMIT_DEGC */
    /** The air from the pour on, and the moments that come in it; both borrowed, for as long as the
     * heating is used; NULL = it stays at degc. The heat is then looked at until the resin can be
     * sanded, or for three times the gel. */
    const runnel_heat_air *air;
    const runnel_cure *cure; /**< with `air` */
} runnel_heating_case;

/** What is found. The case with what was usual filled in. */
typedef struct runnel_heating {
    runnel_heating_case of;
    bool has_cup;                       /**< pot life and mass are known */
    runnel_heat_run cup;                /**< left standing */
    double cup_degc;                    /**< the warmest until it is empty */
    double cup_low_degc, cup_high_degc; /**< doubt of the peak of the cup left standing */
    double largest_g;  /**< in such a cup, staying below the limit until it is empty: 0 when no
                          mass does, INFINITY when twenty times as much does, too */
    bool is_too_large; /**< the cup gets warmer than the limit before it is empty, and the sheet
                          does not allow that mass */
    bool has_layer;    /**< gel and a depth are known */
    runnel_heat_run layer;
    double layer_low_degc, layer_high_degc; /**< doubt of its peak */
    double thickest_mm; /**< a layer that stays below the limit; the same of depths */
    bool is_too_thick;  /**< the layer gets warmer than the limit, and is deeper than the sheet
                             allows or the sheet does not say */
    bool energy_is_usual;
    runnel_heat_law law; /**< of cup and layer alike, where there is either */
    double reaction_j_per_g, reaction_low_j_per_g, reaction_high_j_per_g;
    bool sheet_allows_layer; /**< it is no deeper than the sheet's deepest one */
    bool contradicts_sheet; /**< the layer gets warmer than the limit, although the sheet allows it:
                               the sheet holds, and the estimate is in doubt */
} runnel_heating;

/**
 * Works them out by one law (runnel_heat_fit): at the stated temperature a thin film gels after the
 * gel time, and in the cup that the pot life was stated for the mix is twice as thick after it.
 *
 * The doubt of the peaks is that of two more laws: one with the least heat of reaction, where the
 * pot life ends at one and a half times as thick, and one with the most, where it ends at four
 * times as thick.
 *
 * @return RUNNEL_OK, also when the sheet says nothing; RUNNEL_NOT_POSSIBLE below the lowest
 *         temperature, where nothing is extrapolated; RUNNEL_E_RANGE; as runnel_heat_in_cup
 */
runnel_status runnel_heating_make(const runnel_resin *resin, const runnel_heating_case *of,
                                  runnel_heating *heating);

/** The curves of what was found, over the times that matter: of the cup from B going in until its
 * peak or its pot life have passed for half as long again, of the layer until it can be sanded and
 * a little longer, but at least three times the gel. Empty where there is no cup or layer. */
typedef struct runnel_heating_curves {
    runnel_heat_curve cup, layer;
    double pot_life_s, gel_s, sandable_s; /**< of the sheet, at the temperature of the case; NAN
                                             when not stated */
} runnel_heating_curves;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_heating_curves_clear(runnel_heating_curves *curves);

/** Makes them. @param heating of the same resin @param curves an empty one @return as
 * runnel_heating_make */
runnel_status runnel_heating_curves_make(const runnel_resin *resin, const runnel_heating *heating,
                                         runnel_heating_curves *curves);

#ifdef __cplusplus
}
#endif
#endif
