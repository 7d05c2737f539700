/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Sets of moments as spans. Every result is in order, its spans apart; results are replaced and
 * must not be the input.
 */
#ifndef RUNNEL_CLOCK_SPANS_H
#define RUNNEL_CLOCK_SPANS_H

#include "runnel/timeline.h"

/** Adds a span to a list that need not be in order yet; one that ends before it begins is none. */
runnel_status runnel_spans_add(runnel_spans *spans, double from_s, double to_s);

/** Puts a list in order and joins what meets. */
void runnel_spans_join(runnel_spans *spans);

/** What is in both. */
runnel_status runnel_spans_common(const runnel_spans *a, const runnel_spans *b, runnel_spans *both);

/** The first moment of a set from one on, and the last up to one; NAN when there is none. */
double runnel_spans_first(const runnel_spans *spans, double from_s);
double runnel_spans_last(const runnel_spans *spans, double to_s);

#endif
