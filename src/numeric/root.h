/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Root of a function of one variable between two points where it changes its sign.
 */
#ifndef RUNNEL_NUMERIC_ROOT_H
#define RUNNEL_NUMERIC_ROOT_H

#include "runnel/status.h"

/**
 * Finds x with f(x) = 0 by Brent's method (R. P. Brent, Algorithms for Minimization without
 * Derivatives, 1973, chapter 4; GSL's solver).
 *
 * @param f        the function; `state` is passed through
 * @param low,high finite ends, in any order; f must have different signs there, or be 0 at one
 * @param absolute stop when the root is bracketed within this, in the unit of x, >= 0 ...
 * @param relative ... or within this share of |x|, >= 0; either suffices. A share below four times
 *                 DBL_EPSILON counts as that, so 0 and 0 ask for all that a double can hold.
 * @param value    the root
 * @param error    width of the bracket that is left: |value - root| <= error; 0 where f(value) is
 *                 exactly 0
 * @return RUNNEL_OK; RUNNEL_E_RANGE for ends or tolerances outside their range or without a change
 *         of sign; RUNNEL_E_NOT_COMPUTED when f is not finite somewhere or 200 steps did not do;
 *         RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_root(double (*f)(double x, void *state), void *state, double low, double high,
                          double absolute, double relative, double *value, double *error);

#endif
