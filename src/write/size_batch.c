/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Batches and their cups, as part of the sizes.
 */
#include "write/size.h"

#include "runnel/units.h"
#include "write/bench.h"

#include <math.h>

#define PLUS_MINUS "\xC2\xB1"
/* A cause is told when it does not round to 0 %. */
#define LEAST_SHARE 0.005

/* How far a volume may be off, without digits that are not shown. */
void runnel_size_bound(runnel_flow *flow, double error_mm3, int decimals) {
    double error_ml = error_mm3 / RUNNEL_MM3_PER_ML, least_ml = pow(10, -decimals);
    runnel_flow_add(flow, error_ml < least_ml ? "exact to " : PLUS_MINUS);
    runnel_flow_number(flow, error_ml < least_ml ? least_ml : error_ml, decimals, "ml");
}

void runnel_size_band(runnel_flow *flow, const runnel_band *band, int decimals) {
    bool any = false;
    runnel_flow_number(flow, band->low_mm3 / RUNNEL_MM3_PER_ML, decimals, "to ");
    runnel_flow_number(flow, band->high_mm3 / RUNNEL_MM3_PER_ML, decimals, "ml");
    for (size_t i = 0; i < RUNNEL_BAND_CAUSES; i++) {
        if (!(band->parts[i].share >= LEAST_SHARE))
            continue;
        runnel_flow_add(flow, any ? ", " : ": ");
        runnel_flow_add(flow, runnel_band_cause_text((runnel_band_cause)i));
        runnel_flow_add(flow, " ");
        runnel_flow_number(flow, 100 * band->parts[i].share, 0, "%");
        any = true;
    }
}

/* What is uncertain, and whether the batch is ready for it. */
static void add_allowance(const runnel_job *job, const runnel_plan_batch *batch, runnel_doc *doc) {
    runnel_flow flow;
    runnel_flow_add(runnel_doc_say(doc, &flow), job->size_to == RUNNEL_SIZE_HIGH
                                                    ? "to the high end: "
                                                    : "not counted, though ");
    runnel_flow_add(&flow, "cavities and soak may be ");
    runnel_size_band(&flow, &batch->band, 2);
    runnel_doc_figured(doc, "uncertainty", batch->terms.allowance_mm3 / RUNNEL_MM3_PER_ML, 2, "ml",
                       &flow);
}

static void add_terms(const runnel_job *job, const runnel_plan_batch *batch, runnel_doc *doc) {
    static const char *const raises[] = {
        [RUNNEL_RAISE_NONE] = "by the steps of the scale",
        [RUNNEL_RAISE_SMALLEST] = "for the smallest batch of the scale",
        [RUNNEL_RAISE_ROUNDING] = "for whole steps that keep the ratio"};
    const runnel_terms *terms = &batch->terms;
    const struct {
        const char *label;
        double volume_mm3;
        const char *note;
    } lines[] = {{"cavities", terms->cavity_mm3, ""},
                 {"crown", terms->crown_mm3, "levelled off again"},
                 {"shrinkage", terms->shrinkage_mm3, "lost while it cures"},
                 {"soak", terms->soak_mm3, job->sealed ? "into sealed walls" : "into bare walls"},
                 {"cup loss", terms->cup_loss_mm3,
                  batch->cup_count > 1 ? "stays in the cups" : "stays in the cup"},
                 {"reserve", terms->reserve_mm3, ""}};
    runnel_flow flow;
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
        runnel_doc_figure(doc, lines[i].label, lines[i].volume_mm3 / RUNNEL_MM3_PER_ML, 2, "ml",
                          lines[i].note);
    add_allowance(job, batch, doc);
    runnel_size_bound(runnel_doc_say(doc, &flow), batch->volume_error_mm3, 2);
    runnel_doc_figured(doc, "needed, all pieces", terms->total_mm3 / RUNNEL_MM3_PER_ML, 2, "ml",
                       &flow);
    runnel_doc_figure(doc, "over", batch->surplus_mm3 / RUNNEL_MM3_PER_ML, 2, "ml",
                      raises[batch->raise]);
}

static void add_tint(const runnel_job *job, const runnel_plan_batch *batch, runnel_doc *doc) {
    runnel_flow flow;
    if (!(batch->tint > 0)) {
        runnel_flow_add(runnel_doc_say(doc, &flow), "none");
        runnel_doc_figured(doc, "tint", NAN, 0, "g", &flow);
        return;
    }
    runnel_bench_plain(runnel_doc_say(doc, &flow), 100 * batch->tint, "% of A + B, on top of them");
    if (batch->weighing.tint_g <= 0)
        runnel_flow_add(&flow, "; less than the scale shows");
    runnel_flow_add(&flow, "; at most ");
    runnel_bench_plain(&flow, 100 * job->resin.tint_cap, "%");
    if (job->resin.sure && *job->resin.sure) {
        runnel_flow_add(&flow, " (");
        runnel_flow_add(&flow, job->resin.sure);
        runnel_flow_add(&flow, ")");
    }
    runnel_doc_figured(doc, "tint", batch->weighing.tint_g, runnel_bench_decimals(&job->scale), "g",
                       &flow);
}

static void add_part(const runnel_job *job, runnel_doc *doc, const char *label, double mass_g,
                     double volume_ml) {
    runnel_flow flow;
    runnel_flow_number(runnel_doc_say(doc, &flow), volume_ml, 2, "ml");
    runnel_doc_figured(doc, label, mass_g, runnel_bench_decimals(&job->scale), "g", &flow);
}

static const char *const limits[] = {"it would be too heavy for the resin",
                                     "it would take too long to pour",
                                     "it would be too much for the cup"};

/* How many cups there are, and why. */
static void add_count(const runnel_plan_batch *batch, runnel_doc *doc) {
    runnel_flow flow;
    bool any = false;
    runnel_flow_format(runnel_doc_say(doc, &flow), "%zu", batch->cup_count);
    if (batch->layer_count > 1)
        runnel_flow_format(&flow, ", for %zu layers", batch->layer_count);
    for (size_t i = 0; i < sizeof limits / sizeof *limits; i++) {
        if (!(batch->cups_ruled & 1u << i))
            continue;
        runnel_flow_add(&flow, any ? ", and " : ": as one ");
        runnel_flow_add(&flow, limits[i]);
        any = true;
    }
    runnel_doc_said(doc, RUNNEL_DOC_FACT, "cups", &flow);
}

static void add_cup(const runnel_job *job, const runnel_plan *plan, const runnel_plan_cup *cup,
                    size_t number, runnel_doc *doc) {
    char label[32];
    runnel_flow flow;
    snprintf(label, sizeof label, "cup %zu", number);
    runnel_bench_parts(runnel_doc_say(doc, &flow), job, &cup->load.weighing);
    runnel_flow_add(&flow, ", for ");
    runnel_bench_cup_fills(&flow, plan, cup);
    if (cup->layer > 1) {
        runnel_flow_add(&flow, "; ");
        runnel_bench_window(&flow, cup->earliest_s, cup->latest_s);
    }
    if (!isnan(cup->load.pour_s)) {
        runnel_flow_add(&flow, "; pouring ");
        runnel_bench_pouring(&flow, cup->load.pour_s, cup->load.pot_share);
    }
    runnel_doc_said(doc, RUNNEL_DOC_FACT, label, &flow);
}

static void add_cups(const runnel_job *job, const runnel_plan *plan, const runnel_plan_batch *batch,
                     runnel_doc *doc) {
    runnel_flow flow;
    if (batch->cup_count == 1 && !isnan(batch->pour_s)) {
        runnel_bench_pouring(runnel_doc_say(doc, &flow), batch->pour_s,
                             batch->cups[0].load.pot_share);
        runnel_doc_said(doc, RUNNEL_DOC_FACT, "pouring", &flow);
    }
    if (batch->cup_count < 2)
        return;
    add_count(batch, doc);
    for (size_t i = 0; i < batch->cup_count; i++)
        add_cup(job, plan, &batch->cups[i], i + 1, doc);
}

static void add_weighing(const runnel_job *job, const runnel_plan *plan,
                         const runnel_plan_batch *batch, runnel_doc *doc) {
    const runnel_weighing *weighing = &batch->weighing;
    runnel_flow flow;
    add_part(job, doc, "part A (resin)", weighing->part_a_g, weighing->part_a_ml);
    add_part(job, doc, "part B (hardener)", weighing->part_b_g, weighing->part_b_ml);
    add_part(job, doc, "A + B", weighing->total_g, weighing->total_ml);
    add_tint(job, batch, doc);
    runnel_bench_ratios(runnel_doc_say(doc, &flow), &job->resin.ratio, &plan->mixture);
    runnel_doc_said(doc, RUNNEL_DOC_FACT, "ratio", &flow);
    runnel_doc_figure(doc, "ratio error, rounding", 100 * weighing->rounding_error, 2, "%", "");
    runnel_doc_figure(doc, "ratio error, at worst", 100 * weighing->ratio_error, 2, "%",
                      weighing->zero_before_b ? "when both are off, zeroed for B"
                                              : "when all readings are off");
    runnel_bench_pot_life(runnel_doc_say(doc, &flow), job, batch);
    runnel_doc_said(doc, RUNNEL_DOC_FACT, "pot life", &flow);
    add_cups(job, plan, batch, doc);
    if (batch->top_up_mm3 > 0) {
        runnel_bench_top_up(runnel_doc_say(doc, &flow), job, batch);
        runnel_doc_figured(doc, "top-up, extra", batch->top_up_mm3 / RUNNEL_MM3_PER_ML, 2, "ml",
                           &flow);
    }
}

void runnel_size_batch(const runnel_job *job, const runnel_plan *plan,
                       const runnel_plan_batch *batch, runnel_doc *doc) {
    runnel_flow flow;
    runnel_flow_add(runnel_doc_say(doc, &flow), "Batch ");
    runnel_flow_add(&flow, batch->colour);
    runnel_flow_add(&flow, ", all pieces counted");
    runnel_doc_said(doc, RUNNEL_DOC_HEAD, "", &flow);
    runnel_bench_fills(runnel_doc_say(doc, &flow), plan, batch->colour);
    runnel_doc_said(doc, RUNNEL_DOC_INNER, "", &flow);
    runnel_doc_add(doc, RUNNEL_DOC_GAP, "", "");
    add_terms(job, batch, doc);
    runnel_doc_add(doc, RUNNEL_DOC_GAP, "", "");
    add_weighing(job, plan, batch, doc);
}
