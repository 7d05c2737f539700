/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What the mixing card says, as text and on paper alike.
 */
#ifndef RUNNEL_WRITE_CARD_WORDS_H
#define RUNNEL_WRITE_CARD_WORDS_H

#include "write/bench.h"

/** One thing that goes on the scale, which is never zeroed in between. A NAN is left out. */
typedef struct runnel_card_pour {
    const char *text, *short_text;
    double shows_g, alone_g, volume_ml;
} runnel_card_pour;

/** Most of them. */
#define RUNNEL_CARD_POURS 4

/** All of them in their order. @return how many */
size_t runnel_card_pours(const runnel_weighing *weighing, runnel_card_pour *pours);

/** How high a volume stands in a straight cup, mm. */
double runnel_card_mark(double volume_ml, double diameter_mm);

/** A lower mark cannot be hit with the eye. Common practice. */
#define RUNNEL_CARD_LEAST_MARK_MM 3.0

/** Adds how high A, and then B, stand in the job's cup; or that it is too little for marks. */
void runnel_card_marks(runnel_flow *flow, const runnel_job *job, const runnel_weighing *weighing);

/** Adds "224.1 g of A + B, 198.3 ml". */
void runnel_card_amount(runnel_flow *flow, const runnel_job *job, const runnel_weighing *weighing);

/** Adds "Batch 1 of 2: black, 224.1 g of A + B, 198.3 ml, in 3 cups for 2 layers". */
void runnel_card_batch(runnel_flow *flow, const runnel_job *job, const runnel_plan *plan,
                       size_t index);

/** Adds what to do when too much of a part went in. */
void runnel_card_remedy(runnel_flow *flow, const runnel_plan *plan);

/** Adds how all cups of a tinted batch get one colour. */
void runnel_card_master(runnel_flow *flow, const runnel_job *job, const runnel_plan_batch *batch);

/** How long it is stirred: common practice. */
#define RUNNEL_CARD_MIXING                                                                         \
    "about 3 minutes, then 1 more in a second, clean cup; they come off the pot life"

/** How it is mixed, step by step; borrowed. */
const char *const *runnel_card_steps(size_t *count);

#endif
