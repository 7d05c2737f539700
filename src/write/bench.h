/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What the sizes and the card, as text for the bench, have in common.
 */
#ifndef RUNNEL_WRITE_BENCH_H
#define RUNNEL_WRITE_BENCH_H

#include "runnel/plan.h"
#include "write/layout.h"

/** Adds the job's name; a job without one goes by its file, or as the command line's. */
void runnel_bench_title(runnel_flow *flow, const runnel_job *job);

/** The warnings, which are to be read before a can is opened; nothing when there is none. */
void runnel_bench_warnings(FILE *out, const runnel_plan *plan);

/** The line above so many warnings, and one of them; `where` may be NULL or "". */
void runnel_bench_warning_head(FILE *out, size_t count);
void runnel_bench_warning(FILE *out, const char *where, const char *text);

/** Adds a ratio as "2:1 by volume". */
void runnel_bench_ratio(runnel_flow *flow, const runnel_ratio *ratio);

/** Adds a ratio, and what the mixture that it makes is on the other basis. */
void runnel_bench_ratios(runnel_flow *flow, const runnel_ratio *ratio,
                         const runnel_mixture *mixture);

/** Adds a time as runnel_time_text has it, kept together; and the earliest and the latest time at
 * which something may be done, never told too early or too late. */
void runnel_bench_time(runnel_flow *flow, double seconds);
void runnel_bench_time_from(runnel_flow *flow, double seconds);
void runnel_bench_time_until(runnel_flow *flow, double seconds);

/** Adds how long a batch can be poured, and for which mass and temperature that holds. */
void runnel_bench_pot_life(runnel_flow *flow, const runnel_job *job,
                           const runnel_plan_batch *batch);

/** Adds what a batch fills: "bread board / lettering, 2 pieces; ...". */
void runnel_bench_fills(runnel_flow *flow, const runnel_plan *plan, const char *colour);

/** Adds what a cup fills: "board / lettering, pieces 1 to 10; board / border, 45 % of piece 3". */
void runnel_bench_cup_fills(runnel_flow *flow, const runnel_plan *plan, const runnel_plan_cup *cup);

/** Adds when a later layer is due: "from 4 h on and, without sanding, until 12 h after the first".
 */
void runnel_bench_window(runnel_flow *flow, double earliest_s, double latest_s);

/** Adds what is to be minded of a cup, and tells whether there was anything. */
bool runnel_bench_cup_notes(runnel_flow *flow, const runnel_plan_cup *cup);

/** Adds how long pouring takes, of the pot life too where that is known. */
void runnel_bench_pouring(runnel_flow *flow, double pour_s, double pot_share);

/** Adds what goes on the scale, as in "A 4.2 g, tint 0.1 g, B 1.8 g". */
void runnel_bench_parts(runnel_flow *flow, const runnel_job *job, const runnel_weighing *weighing);

/** Adds what the top-up of a batch is for, and its weights. */
void runnel_bench_top_up(runnel_flow *flow, const runnel_job *job, const runnel_plan_batch *batch);

/** Adds in which order the batches are poured, and with what waits; for several batches only. */
void runnel_bench_order(runnel_flow *flow, const runnel_plan *plan);

/** Adds the sentence of that number, from 0, on what nothing is to be mixed of: all of it, or a
 * colour. @return whether there is one */
bool runnel_bench_says_nothing(runnel_flow *flow, const runnel_plan *plan, size_t index);

/** Says of which colours nothing is to be mixed, a paragraph each; of all of them in one. */
void runnel_bench_nothing(FILE *out, const runnel_plan *plan);

/** Places after the point that a scale of this step shows. */
int runnel_bench_decimals(const runnel_scale *scale);

/** Adds a plain number without needless zeros behind the point, as in "0.4 mm". */
void runnel_bench_plain(runnel_flow *flow, double value, const char *unit);

#endif
