/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Another route to the sections of cavities: regions as GEOS polygons, cut and grown by union and
 * difference with rectangles along their sides and sectors at their corners.
 *
 * GEOS's own buffer would be shorter, but it smooths what it is given by a hundredth of the
 * distance. The sectors have chords, and areas are extrapolated from two numbers of them, which
 * makes them good to some 1e-6.
 */
#ifndef RUNNEL_TESTS_REGION_ROUTE_H
#define RUNNEL_TESTS_REGION_ROUTE_H

#include "runnel/contours.h"

#include <stdbool.h>

/** A region or a set of lines. */
typedef struct region_route region_route;

/** Counter-clockwise contours added, clockwise ones taken away, the largest first. Each must be
 * simple. */
region_route *route_of_region(const runnel_contours *contours);
/** Polylines, open or closed. */
region_route *route_of_lines(const runnel_contours *contours);
void route_free(region_route *route);

/** Area of what is left after cutting off all within `t` of the border; of a region. */
double route_inset_mm2(const region_route *route, double t);
/** Area within `t`, outside of a region; around lines. */
double route_around_mm2(const region_route *route, double t);
/** Area and border of the inset by `sigma` grown again by `rho` <= sigma. */
void route_opened(const region_route *route, double sigma, double rho, double *area_mm2,
                  double *border_mm);
double route_opened_mm2(const region_route *route, double sigma, double rho);

/** int_0^to of the inset's area, by the rule below. */
double route_inset_integral(const region_route *route, double to, double tolerance);

/** Integral over [from, to] by Simpson's rule, halved until two steps agree to `tolerance`. */
double route_integral(double (*f)(double x, void *state), void *state, double from, double to,
                      double tolerance);

#endif
