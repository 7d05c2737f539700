/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What the suites of profiles and cavities share: shapes, cuts, calls that must succeed, and a
 * source of random numbers that gives the same ones everywhere.
 */
#ifndef RUNNEL_TESTS_SOLIDS_H
#define RUNNEL_TESTS_SOLIDS_H

#include "runnel/cavity.h"

#include "compare.h"

#include <stdint.h>

#define PI 3.14159265358979323846

/** Adds a contour through x, y, x, y, ... */
void add_points(runnel_contours *contours, bool closed, size_t numbers, const double *xy);
#define add_ring(contours, ...)                                                                    \
    add_points((contours), true, sizeof((double[]){__VA_ARGS__}) / sizeof(double),                 \
               (double[]){__VA_ARGS__})
#define add_line(contours, ...)                                                                    \
    add_points((contours), false, sizeof((double[]){__VA_ARGS__}) / sizeof(double),                \
               (double[]){__VA_ARGS__})
/** Adds a rectangle from its lower left corner, counter-clockwise; clockwise (a hole) when the
 * height is given negative. */
void add_rectangle(runnel_contours *contours, double x, double y, double width, double height);
/** Adds a regular polygon of `count` corners, the first one at `turn_rad` about the centre. */
void add_regular(runnel_contours *contours, double x, double y, double radius, size_t count,
                 double turn_rad);
/** Adds a copy turned by an angle, scaled and then moved. */
void add_turned(runnel_contours *contours, const runnel_contours *from, double turn_rad,
                double scale, double dx, double dy);

/** A shape of the contours, which are cleared; must succeed. */
runnel_shape *outline_of(runnel_contours *contours);
runnel_shape *path_of(runnel_contours *contours);
runnel_shape *rectangle(double width, double height);
runnel_shape *disc(double radius);
/** A regular polygon with this side. */
runnel_shape *regular(size_t count, double side);
/** A straight path along x. */
runnel_shape *straight(double length);
/** A circle as path, exact. */
runnel_shape *circle_path(double radius);
/** The square 60 x 60 less its quarter 30 x 30. */
runnel_shape *l_shape(void);

runnel_cutter v_cutter(double angle_deg, double tip_mm);
runnel_cutter round_nose(double radius_mm);
runnel_cutter flat_end(double radius_mm);
runnel_cut walls(double angle_deg, double limit_mm);
runnel_cut walls_tip(double angle_deg, double tip_mm, double limit_mm);
runnel_cut pocket(runnel_cutter cutter, double depth_mm);
runnel_cut along(runnel_cutter cutter, double depth_mm);

/** Figures of a cut; must succeed. */
runnel_cavity figures_of(runnel_shape *shape, runnel_cut cut);
/** The same, and the shape is freed. */
runnel_cavity figures_once(runnel_shape *shape, runnel_cut cut);
double volume_once(runnel_shape *shape, runnel_cut cut);
double section_of(runnel_shape *shape, runnel_cut cut, double level_mm);
double margin_of(runnel_shape *shape, runnel_cut cut, double margin_mm);
/** int of the section over the depth, by adaptive quadrature to a relative 1e-10. */
double stacked_volume(runnel_shape *shape, runnel_cut cut, double deepest_mm);

/** Random numbers: the same sequence for the same seed (Knuth's MMIX linear congruential). */
typedef struct chance {
    uint64_t state;
} chance;
double chance_between(chance *c, double low, double high);
size_t chance_below(chance *c, size_t count);
/** Adds a star-shaped polygon about a point: corners at rising angles, radii between the two. */
void add_star(runnel_contours *contours, chance *c, double x, double y, double inner, double outer,
              size_t corners);
/** Adds an open polyline of random points in a square. */
void add_scribble(runnel_contours *contours, chance *c, double size, size_t points);

#endif
