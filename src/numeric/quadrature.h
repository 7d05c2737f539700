/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Integrals of a function of one variable: adaptive with an error estimate, and fixed
 * Gauss-Legendre rules for smooth pieces.
 */
#ifndef RUNNEL_NUMERIC_QUADRATURE_H
#define RUNNEL_NUMERIC_QUADRATURE_H

#include "runnel/status.h"

/**
 * Integral of f from `from` to `to` by doubly adaptive Clenshaw-Curtis quadrature (Gonnet, ACM
 * Trans. Math. Softw. 37, 2010; GSL's cquad). Kinks inside are found by bisection; a caller who
 * knows them splits there.
 *
 * @param f        finite on the closed interval; `state` is passed through
 * @param from,to  finite; from > to gives the negative integral
 * @param absolute wanted error in the unit of the integral, >= 0 ...
 * @param relative ... or as a share of it, >= 0; either suffices. A share below 1e-13 counts as
 *                 that, as rounding would keep a tighter one from being met.
 * @param value    the integral
 * @param error    estimate of |value - integral|
 * @return RUNNEL_OK; RUNNEL_E_RANGE for ends or tolerances outside their range;
 *         RUNNEL_E_NOT_COMPUTED when f is not finite somewhere or the error stays above both
 *         tolerances; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_integrate(double (*f)(double x, void *state), void *state, double from,
                               double to, double absolute, double relative, double *value,
                               double *error);

/** Most points of a fixed rule. The sizes are 1 to 20, 32 and 64: for those GSL holds the nodes to
 * full precision, while it computes the sizes between to 1e-10 only. */
#define RUNNEL_GAUSS_MOST 64

/** A Gauss-Legendre rule on [-1, 1], nodes in rising order; exact for polynomials of degree
 * 2 points - 1. Open, owned by the caller, holds no pointer. */
typedef struct runnel_gauss_rule {
    size_t points;
    double node[RUNNEL_GAUSS_MOST];
    double weight[RUNNEL_GAUSS_MOST]; /**< their sum is 2 */
} runnel_gauss_rule;

/**
 * Fills a rule, for loops that call no function: the integral of f over [a, b] is
 * h sum(weight[i] f(m + h node[i])) with m = (a + b)/2, h = (b - a)/2.
 *
 * @param points 1 to 20, 32 or 64
 * @return RUNNEL_OK; RUNNEL_E_RANGE; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_gauss_rule_of(size_t points, runnel_gauss_rule *rule);

/**
 * Integral of f by a Gauss-Legendre rule of fixed size. No error estimate: for smooth pieces whose
 * degree is known. The rule is made at the first use of its size and kept until the process ends;
 * several threads may call at once.
 *
 * @param points 1 to 20, 32 or 64
 * @return the integral; NAN for another size or, at the first use, without memory
 */
double runnel_gauss_legendre(double (*f)(double x, void *state), void *state, double from,
                             double to, size_t points);

#endif
