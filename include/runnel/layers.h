/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A cavity filled in layers, from the areas of its sections.
 */
#ifndef RUNNEL_LAYERS_H
#define RUNNEL_LAYERS_H

#include "runnel/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Most layers that a cavity is filled in. */
#define RUNNEL_LAYERS_MOST 1000

/**
 * A figure of a cavity that depends on a depth below the face, 0 to the deepest point.
 *
 * @param state passed through
 * @param value 0 or more; what is below 0 by rounding counts as 0
 * @return RUNNEL_OK; any other status ends the call that asked, which returns it
 */
typedef runnel_status (*runnel_depth_function)(double depth_mm, void *state, double *value);

/** A cavity as its sections. Open, borrowed. */
typedef struct runnel_hollow {
    runnel_depth_function section; /**< area of the section at a depth, mm2 */
    runnel_depth_function above;   /**< volume between the face and a depth, mm3; NULL = integrate
                                      the sections. Where walls follow an outline, and in a pocket,
                                      it is the volume of the same cut no deeper than that, exact
                                      and much faster; along a path it is not. */
    void *state;
    double deepest_mm;       /**< > 0 */
    double volume_mm3;       /**< as computed elsewhere; NAN = to be had from the sections */
    double volume_error_mm3; /**< bound of that, >= 0; NAN = 0 */
} runnel_hollow;

/** What decides on layers. Zeros and NAN: no limit, no crown, times not known. */
typedef struct runnel_layer_limits {
    double layer_mm;       /**< deepest layer that the resin bears; 0 = one layer is enough */
    double crown_mm;       /**< stands proud of the face and counts as depth: resin heats by all
                              that lies above one another */
    double recoat_from_s;  /**< at the shop's temperature: the next layer not before ... */
    double recoat_until_s; /**< ... and without sanding not after; >= recoat_from_s */
} runnel_layer_limits;

/** One pour. */
typedef struct runnel_layer {
    double bottom_mm;        /**< depth of its lower bound below the face */
    double top_mm;           /**< depth of its upper bound; 0 for one that reaches the face */
    double crown_mm;         /**< of the crown, what this layer pours; bottom_mm is 0 where that is
                                all of it */
    double pour_mm;          /**< thickness, with crown_mm */
    double volume_mm3;       /**< of the cavity between the bounds, without the crown */
    double volume_error_mm3; /**< estimate of the quadrature's error; 0 with `above` */
    double surface_mm2;      /**< section at the upper bound: what lies open while it sets */
    double earliest_s;       /**< after the first pour, when each comes as early as it may; 0 for
                                the first; NAN when not known */
    double latest_s;         /**< the same when each comes as late as it may without sanding */
} runnel_layer;

/** Pours from the bottom up. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_layers {
    runnel_layer *items;
    size_t count;
    double volume_mm3;   /**< of the cavity; the sum over the layers */
    double mismatch_mm3; /**< what all layers by themselves gave beyond that; the last layer
                            makes up for it. 0 when the volume came from the sections */
} runnel_layers;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_layers_clear(runnel_layers *layers);

/**
 * Volume between two depths: the integral of the section, or the difference of `above`. Sections
 * are integrated to 1e-8 of the volume, or to 1e-5 where that is too much for the quadrature.
 *
 * @param top_mm,bottom_mm 0 <= top <= bottom <= deepest
 * @param error_mm3        estimate of the quadrature's error; 0 with `above`
 * @return RUNNEL_OK; RUNNEL_E_RANGE; RUNNEL_E_NOT_COMPUTED when the figures are below 0 or not
 *         finite, or too rough to be integrated; RUNNEL_E_NO_MEMORY; what the function returned
 */
runnel_status runnel_hollow_volume(const runnel_hollow *hollow, double top_mm, double bottom_mm,
                                   double *volume_mm3, double *error_mm3);

/**
 * How high a volume of resin stands.
 *
 * @param volume_mm3 0 to the volume of the hollow; by the error of the quadrature more is taken
 *                   for full
 * @param depth_mm   of the resin's surface below the face: the deepest for nothing, 0 for full;
 *                   found to 1e-6 of the deepest
 * @param error_mm   estimate of its error
 * @return as runnel_hollow_volume; RUNNEL_E_RANGE for more than goes in
 */
runnel_status runnel_fill_level(const runnel_hollow *hollow, double volume_mm3, double *depth_mm,
                                double *error_mm);

/**
 * Splits a cavity into as few layers as the limit allows, all of the same thickness, so that none
 * is hot and none is a mere skin. The crown counts as depth: a low one is part of the last layer, a
 * high one may be layers of its own. The volumes add up to that of the cavity exactly; see
 * `mismatch_mm3`.
 *
 * @param layers an empty one
 * @return RUNNEL_OK; RUNNEL_E_RANGE, also for more than RUNNEL_LAYERS_MOST layers;
 *         RUNNEL_E_IDENTITY when the layers do not add up to the volume that was given, to 1e-6
 *         of it and the errors told; otherwise as runnel_hollow_volume
 */
runnel_status runnel_layers_make(const runnel_hollow *hollow, const runnel_layer_limits *limits,
                                 runnel_layers *layers);

#ifdef __cplusplus
}
#endif
#endif
