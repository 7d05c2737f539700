/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * How far a stop lets a disc grow along an element, and where two stops change over.
 */
#ifndef RUNNEL_SHAPE_CURVES_H
#define RUNNEL_SHAPE_CURVES_H

#include "shape/discs.h"

/** A segment, or the fan of a reflex corner. */
typedef struct runnel_element {
    bool fan;
    uint32_t edge;         /**< segment or corner */
    double x, y;           /**< start of the segment, or the corner */
    double ux, uy, nx, ny; /**< of the segment, or of the one before the corner */
    double length;         /**< mm or rad */
    runnel_disc start;     /**< the disc at parameter 0, with no bound yet */
} runnel_element;

/** The segment `edge`. */
runnel_element runnel_element_segment(const runnel_boundary *boundary, uint32_t edge);

/** The fan of the reflex corner `edge`; its length is 0 where the boundary goes straight on. */
runnel_element runnel_element_fan(const runnel_boundary *boundary, uint32_t edge);

/** A disc that touches at a parameter, with no bound yet (radius infinite). */
runnel_disc runnel_element_disc(const runnel_element *element, double at);

/** Radius that one stop alone allows a disc; infinite where it does not reach. What the disc knew
 * of its bound is lost. */
double runnel_disc_bound(const runnel_boundary *boundary, runnel_disc *disc, runnel_stop stop,
                         double reach);

/** Radius that one stop alone allows at a parameter; infinite where it does not reach. */
double runnel_element_bound(const runnel_boundary *boundary, const runnel_element *element,
                            runnel_stop stop, double reach, double at);

/** Radius at which the disc at a parameter reaches the line of a segment, wherever its foot. */
double runnel_element_line(const runnel_boundary *boundary, const runnel_element *element,
                           uint32_t edge, double at);

/**
 * A parameter in [from, to] at which to look next, when `first` rules at `from` and `second` at
 * `to`: the change-over where a closed form gives it (an end of the interval when two joined stops
 * agree there), else an end of validity, else the middle.
 */
double runnel_element_crossing(const runnel_boundary *boundary, const runnel_element *element,
                               runnel_stop first, runnel_stop second, double reach, double from,
                               double to);

/** For a fan stopped by a segment: the parameter that points straight away from that segment. */
double runnel_element_away(const runnel_boundary *boundary, const runnel_element *fan,
                           uint32_t edge);

/** Parameter nearest to a point that may intrude: its foot, or the direction to it. */
double runnel_element_towards(const runnel_element *element, double x, double y);

#endif
