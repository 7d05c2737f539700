/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Parts that the texts about sealing, levelling and oil have in common.
 */
#ifndef RUNNEL_WRITE_FINISH_LINES_H
#define RUNNEL_WRITE_FINISH_LINES_H

#include "runnel/forms.h"
#include "runnel/plan.h"
#include "write/bench.h"
#include "write/figures.h"

/** The title of a sheet, and the warnings. */
void runnel_finish_head(FILE *out, const char *what, const runnel_job *job,
                        const runnel_plan *plan);

/** A heading behind an empty line. */
void runnel_finish_heading(FILE *out, const char *text);

/** Begins a line of "Worked out with". */
void runnel_finish_basis(runnel_flow *flow, FILE *out, const char *label);

/** An item of a list: a mark and its text. */
void runnel_finish_item(FILE *out, const char *mark, const char *text);

/** A line with a label, a note, and the time after which something may be done, or a span of such
 * times, "2 h to 3 h"; and until when something may be done. */
void runnel_finish_times(FILE *out, const char *label, double from_s, double to_s,
                         const char *note);
void runnel_finish_latest(FILE *out, const char *label, double until_s, const char *note);

/** The order of steps, and whether anything is out of order. */
void runnel_finish_order(FILE *out, const runnel_order *order, const runnel_order_faults *faults,
                         bool taken);

/** "Take care", with the cautions of these steps. */
void runnel_finish_cautions(FILE *out, unsigned steps, unsigned cases);

/** Adds words with commas and a last "and" between them: call with how many there are. */
void runnel_finish_between(runnel_flow *flow, size_t index, size_t count);

#endif
