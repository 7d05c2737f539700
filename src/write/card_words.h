/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What the mixing card says, as text and on paper alike.
 */
#ifndef RUNNEL_WRITE_CARD_WORDS_H
#define RUNNEL_WRITE_CARD_WORDS_H

#include "write/bench.h"

/** One thing that goes on the scale, the cup left standing on it. A NAN is left out. */
typedef struct runnel_card_pour {
    const char *text, *short_text;
    double shows_g, alone_g, volume_ml;
} runnel_card_pour;

/** Most of them. */
#define RUNNEL_CARD_POURS 5

/** All of them in their order. @return how many */
size_t runnel_card_pours(const runnel_weighing *weighing, runnel_card_pour *pours);

/** Whether the scale is zeroed before B, in a few words. */
const char *runnel_card_way(const runnel_weighing *weighing);

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

/** Adds what to do when too much of a part went in, and when the tint is too little for the scale.
 */
void runnel_card_remedy(runnel_flow *flow, const runnel_plan *plan, const runnel_plan_batch *batch);

/** Adds how all cups of a tinted batch get one colour. */
void runnel_card_master(runnel_flow *flow, const runnel_job *job, const runnel_plan_batch *batch);

/** How long it is stirred: common practice. */
#define RUNNEL_CARD_MIXING                                                                         \
    "about 3 minutes, then 1 more in a second, clean cup; they come off the pot life"

/** How it is mixed, step by step; borrowed. */
const char *const *runnel_card_steps(size_t *count);

/** What a card says of the whole job. */
typedef enum runnel_card_head {
    RUNNEL_CARD_RESIN,
    RUNNEL_CARD_RATIO,
    RUNNEL_CARD_SCALE,
    RUNNEL_CARD_SHOP,
    RUNNEL_CARD_ORDER, /**< of batches; for several only */
    RUNNEL_CARD_HEADS
} runnel_card_head;

/** Its label; NULL when there is nothing to be said. */
const char *runnel_card_head_label(const runnel_plan *plan, runnel_card_head head);
void runnel_card_say_head(runnel_flow *flow, const runnel_job *job, const runnel_plan *plan,
                          runnel_card_head head);

/** What a card says of a cup below its weights. */
typedef enum runnel_card_fact {
    RUNNEL_CARD_FILLS, /**< of one of several */
    RUNNEL_CARD_WHEN,  /**< of a later layer */
    RUNNEL_CARD_MARKS,
    RUNNEL_CARD_POT_LIFE,
    RUNNEL_CARD_STIRRING,
    RUNNEL_CARD_POURING,
    RUNNEL_CARD_MIND,
    RUNNEL_CARD_FACTS
} runnel_card_fact;

/** A cup of a batch; `cup` is NULL for a batch that was not dealt out. */
typedef struct runnel_card_cup {
    const runnel_job *job;
    const runnel_plan *plan;
    const runnel_plan_batch *batch;
    const runnel_plan_cup *cup;
    size_t index;
} runnel_card_cup;

/** The cup of that number. */
runnel_card_cup runnel_card_cup_of(const runnel_job *job, const runnel_plan *plan, size_t batch,
                                   size_t cup);
/** How many blocks a batch has: one a cup, or one in all. */
size_t runnel_card_blocks(const runnel_plan_batch *batch);
/** What is weighed of it. */
const runnel_weighing *runnel_card_weighing(const runnel_card_cup *of);
/** Adds "slate, cup 2 of 4: 22.4 g of A + B, 19.8 ml". */
void runnel_card_name(runnel_flow *flow, const runnel_card_cup *of);
/** The label of a fact; NULL when there is nothing to be said. */
const char *runnel_card_fact_label(const runnel_card_cup *of, runnel_card_fact fact);
void runnel_card_say_fact(runnel_flow *flow, const runnel_card_cup *of, runnel_card_fact fact);

/** Adds which end of what the cavities may take the batch is ready for. */
void runnel_card_sized(runnel_flow *flow, const runnel_job *job, const runnel_plan_batch *batch);

/** Adds what is mixed later, when pinholes show; for a batch that has a top-up. */
void runnel_card_top_up(runnel_flow *flow, const runnel_job *job, const runnel_plan_batch *batch);

#endif
