/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/card_words.h"

#include "base/utf8.h"
#include "runnel/units.h"

#include <math.h>

size_t runnel_card_pours(const runnel_weighing *weighing, runnel_card_pour *pours) {
    const double with_tint_g = weighing->part_a_g + weighing->tint_g;
    size_t count = 0;
    pours[count++] = (runnel_card_pour){"cup and stick on it: zero it", "zero", 0, NAN, NAN};
    pours[count++] = (runnel_card_pour){"A (resin) until it shows", "A", weighing->part_a_g,
                                        weighing->part_a_g, weighing->part_a_ml};
    if (weighing->tint_g > 0)
        pours[count++] = (runnel_card_pour){"tint until it shows, stirred in", "tint", with_tint_g,
                                            weighing->tint_g, NAN};
    if (weighing->zero_before_b)
        pours[count++] = (runnel_card_pour){"ZERO IT AGAIN", "ZERO", 0, NAN, NAN};
    pours[count++] =
        (runnel_card_pour){"B (hardener) until it shows", "B",
                           (weighing->zero_before_b ? 0 : with_tint_g) + weighing->part_b_g,
                           weighing->part_b_g, weighing->part_b_ml};
    return count;
}

const char *runnel_card_way(const runnel_weighing *weighing) {
    return weighing->zero_before_b ? "ZERO AGAIN BEFORE B" : "never zeroed in between";
}

double runnel_card_mark(double volume_ml, double diameter_mm) {
    const double pi = 3.14159265358979323846;
    return volume_ml * RUNNEL_MM3_PER_ML / (pi / 4 * diameter_mm * diameter_mm);
}

static void add_mark(runnel_flow *flow, const char *what, double volume_ml, double diameter_mm) {
    runnel_flow_add(flow, what);
    runnel_flow_number(flow, volume_ml, 1, "ml");
    runnel_flow_add(flow, " = ");
    runnel_flow_number(flow, runnel_card_mark(volume_ml, diameter_mm), 1, "mm");
}

void runnel_card_marks(runnel_flow *flow, const runnel_job *job, const runnel_weighing *weighing) {
    const double diameter_mm = job->cup.diameter_mm;
    if (runnel_card_mark(weighing->part_a_ml, diameter_mm) < RUNNEL_CARD_LEAST_MARK_MM) {
        runnel_flow_add(flow, "none: it is too little to be measured in a cup ");
        runnel_bench_plain(flow, diameter_mm, "mm wide");
        return;
    }
    add_mark(flow, "A to ", weighing->part_a_ml, diameter_mm);
    add_mark(flow, ", then B to ", weighing->total_ml, diameter_mm);
    runnel_flow_add(flow, ", in a straight cup ");
    runnel_bench_plain(flow, diameter_mm, "mm");
    runnel_flow_add(flow, " wide inside");
}

void runnel_card_amount(runnel_flow *flow, const runnel_job *job, const runnel_weighing *weighing) {
    runnel_flow_number(flow, weighing->total_g, runnel_bench_decimals(&job->scale), "g");
    runnel_flow_add(flow, " of A + B, ");
    runnel_flow_number(flow, weighing->total_ml, 1, "ml");
}

void runnel_card_batch(runnel_flow *flow, const runnel_job *job, const runnel_plan *plan,
                       size_t index) {
    const runnel_plan_batch *batch = &plan->batches[index];
    runnel_flow_add(flow, "Batch ");
    if (plan->batch_count > 1)
        runnel_flow_format(flow, "%zu of %zu: ", index + 1, plan->batch_count);
    runnel_flow_add(flow, batch->colour);
    runnel_flow_add(flow, ", ");
    runnel_card_amount(flow, job, &batch->weighing);
    if (batch->cup_count > 1)
        runnel_flow_format(flow, ", in %zu cups", batch->cup_count);
    if (batch->layer_count > 1)
        runnel_flow_format(flow, " for %zu layers", batch->layer_count);
}

/* What is poured too much cannot be taken out again, but the other part can follow it. */
void runnel_card_remedy(runnel_flow *flow, const runnel_plan *plan,
                        const runnel_plan_batch *batch) {
    const double b_per_a = plan->mixture.weight_b / plan->mixture.weight_a;
    runnel_flow_add(flow, "Too much A? Add ");
    runnel_flow_number(flow, b_per_a, 3, "g");
    runnel_flow_add(flow, " more B for each gram of it. Too much B? Add ");
    runnel_flow_number(flow, 1 / b_per_a, 3, "g");
    runnel_flow_add(flow, " more A.");
    if (batch->tint > 0 && batch->weighing.tint_g <= 0)
        runnel_flow_add(flow, " The tint is less than the scale shows: mix a larger batch, or add "
                              "it by eye.");
}

/* Cups that are tinted each for itself differ at sight. */
void runnel_card_master(runnel_flow *flow, const runnel_job *job, const runnel_plan_batch *batch) {
    const runnel_weighing *weighing = &batch->weighing;
    const int decimals = runnel_bench_decimals(&job->scale);
    runnel_flow_add(flow, "One colour for all cups: stir ");
    runnel_flow_number(flow, weighing->tint_g, decimals, "g");
    runnel_flow_add(flow, " of tint into ");
    runnel_flow_number(flow, weighing->part_a_g, decimals, "g");
    runnel_flow_add(flow, " of A at first, and weigh A and tint of each cup together from it.");
}

/* ---- Of the whole job -------------------------------------------------------------------------
 */

const char *runnel_card_head_label(const runnel_plan *plan, runnel_card_head head) {
    static const char *const labels[RUNNEL_CARD_HEADS] = {"Resin", "Ratio", "Scale", "Shop",
                                                          "Order"};
    return head == RUNNEL_CARD_ORDER && plan->batch_count < 2 ? NULL : labels[head];
}

void runnel_card_say_head(runnel_flow *flow, const runnel_job *job, const runnel_plan *plan,
                          runnel_card_head head) {
    static const char taken[] = " (not given, so taken)";
    switch (head) {
    case RUNNEL_CARD_RESIN:
        runnel_flow_add(flow, job->resin.name);
        runnel_flow_add(flow, job->resin_is_default ? taken : "");
        break;
    case RUNNEL_CARD_RATIO:
        runnel_bench_ratios(flow, &job->resin.ratio, &plan->mixture);
        runnel_flow_add(flow, ". Hold it against the label of the can.");
        break;
    case RUNNEL_CARD_SCALE:
        runnel_bench_plain(flow, job->scale.step_g, "g a step");
        runnel_flow_add(flow, job->scale_is_default ? taken : "");
        break;
    case RUNNEL_CARD_SHOP:
        runnel_bench_plain(flow, job->shop_degc, RUNNEL_DEGC);
        runnel_flow_add(flow, job->shop_is_default ? taken : "");
        break;
    case RUNNEL_CARD_ORDER:
        runnel_bench_order(flow, plan);
        break;
    case RUNNEL_CARD_HEADS:
        break;
    }
}

/* ---- Of a cup ---------------------------------------------------------------------------------
 */

runnel_card_cup runnel_card_cup_of(const runnel_job *job, const runnel_plan *plan, size_t batch,
                                   size_t cup) {
    const runnel_plan_batch *of = &plan->batches[batch];
    return (runnel_card_cup){job, plan, of, of->cup_count ? &of->cups[cup] : NULL, cup};
}

size_t runnel_card_blocks(const runnel_plan_batch *batch) {
    return batch->cup_count ? batch->cup_count : 1;
}

const runnel_weighing *runnel_card_weighing(const runnel_card_cup *of) {
    return of->batch->cup_count > 1 ? &of->cup->load.weighing : &of->batch->weighing;
}

void runnel_card_name(runnel_flow *flow, const runnel_card_cup *of) {
    runnel_flow_add(flow, of->batch->colour);
    if (of->batch->cup_count > 1)
        runnel_flow_format(flow, ", cup" RUNNEL_STICK "%zu of %zu", of->index + 1,
                           of->batch->cup_count);
    runnel_flow_add(flow, ": ");
    runnel_card_amount(flow, of->job, runnel_card_weighing(of));
}

const char *runnel_card_fact_label(const runnel_card_cup *of, runnel_card_fact fact) {
    static const char *const labels[RUNNEL_CARD_FACTS] = {
        "For", "When", "Cup marks", "Pot life", "Mixing", "Pouring", "Mind"};
    const runnel_plan_cup *cup = of->cup;
    bool there = fact == RUNNEL_CARD_FILLS     ? cup && of->batch->cup_count > 1
                 : fact == RUNNEL_CARD_WHEN    ? cup && cup->layer > 1
                 : fact == RUNNEL_CARD_POURING ? cup && !isnan(cup->load.pour_s)
                 : fact == RUNNEL_CARD_MIND    ? cup && cup->load.notes
                                               : true;
    return there ? labels[fact] : NULL;
}

static void say_pot_life(runnel_flow *flow, const runnel_card_cup *of) {
    runnel_bench_pot_life(flow, of->job, of->batch);
    if (!of->cup || !(of->cup->load.pot_life_s < of->batch->pot_life_s))
        return;
    runnel_flow_add(flow, "; about ");
    runnel_bench_time(flow, of->cup->load.pot_life_s);
    runnel_flow_add(flow, " for so much");
}

void runnel_card_say_fact(runnel_flow *flow, const runnel_card_cup *of, runnel_card_fact fact) {
    switch (fact) {
    case RUNNEL_CARD_FILLS:
        runnel_bench_cup_fills(flow, of->plan, of->cup);
        break;
    case RUNNEL_CARD_WHEN:
        runnel_bench_window(flow, of->cup->earliest_s, of->cup->latest_s);
        break;
    case RUNNEL_CARD_MARKS:
        runnel_card_marks(flow, of->job, runnel_card_weighing(of));
        break;
    case RUNNEL_CARD_POT_LIFE:
        say_pot_life(flow, of);
        break;
    case RUNNEL_CARD_STIRRING:
        runnel_flow_add(flow, RUNNEL_CARD_MIXING);
        break;
    case RUNNEL_CARD_POURING:
        runnel_bench_pouring(flow, of->cup->load.pour_s, of->cup->load.pot_share);
        break;
    case RUNNEL_CARD_MIND:
        runnel_bench_cup_notes(flow, of->cup);
        break;
    case RUNNEL_CARD_FACTS:
        break;
    }
}

/* ---- Of a batch -------------------------------------------------------------------------------
 */

void runnel_card_sized(runnel_flow *flow, const runnel_job *job, const runnel_plan_batch *batch) {
    if (job->size_to == RUNNEL_SIZE_HIGH) {
        runnel_flow_add(flow, "sized to the high end: ");
        runnel_flow_number(flow, batch->terms.allowance_mm3 / RUNNEL_MM3_PER_ML, 1,
                           "ml of it are for errors of depth, angle, board and soak");
    } else {
        runnel_flow_add(flow, "sized to what is likely, with nothing for errors of depth, angle, "
                              "board and soak");
    }
}

void runnel_card_top_up(runnel_flow *flow, const runnel_job *job, const runnel_plan_batch *batch) {
    runnel_flow_number(flow, batch->top_up_mm3 / RUNNEL_MM3_PER_ML, 1, "ml, ");
    runnel_bench_top_up(flow, job, batch);
}

/* ---- The same on every card -------------------------------------------------------------------
 */

static const char *const steps[] = {
    "Let both bottles come to the warmth of the shop. Where one is cloudy or grainy, stand it in "
    "warm water until it is clear, and let it cool again.",
    "Weigh as above, slowly towards the end of each part.",
    "Stir the tint into A until no lump and no streak is left. B comes last, as the pot life "
    "begins with it.",
    "Stir slowly for about 3 minutes. Scrape wall, bottom and stick again and again; beat no air "
    "into it.",
    "Pour it over into a second, clean cup, let the first one drain, and stir for another minute: "
    "what stayed unmixed on the wall is left behind.",
    "Pour soon. Spread out in the cavities the mix stays cooler than in the cup, and pours longer.",
};

const char *const *runnel_card_steps(size_t *count) {
    *count = sizeof steps / sizeof *steps;
    return steps;
}
