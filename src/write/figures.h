/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Lines of a label, a number and its unit, the numbers with their points in one column, and of what
 * is to be said of it.
 */
#ifndef RUNNEL_WRITE_FIGURES_H
#define RUNNEL_WRITE_FIGURES_H

#include "write/layout.h"

/** Columns of the text: the labels, and the points of the numbers. */
enum { RUNNEL_FIGURES_LABEL = 4, RUNNEL_FIGURES_POINT = 30, RUNNEL_FIGURES_PLACES = 3 };

/** Begins a line with its label. */
void runnel_figures_start(runnel_flow *flow, FILE *out, const char *label);

/** A label and a number, left out when it is not finite; what is added then stands behind the
 * unit. */
void runnel_figures_number(runnel_flow *flow, FILE *out, const char *label, double value,
                           int decimals, const char *unit);

/** A whole line. A NAN is "not known", an infinity "without limit". */
void runnel_figures_line(FILE *out, const char *label, double value, int decimals, const char *unit,
                         const char *note);

#endif
