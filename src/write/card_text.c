/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/write.h"

#include "runnel/units.h"
#include "write/card_doc.h"
#include "write/card_words.h"
#include "write/finish_lines.h"

#include <math.h>

/* Columns of the card: where the steps begin, and the points of the three columns of figures. */
enum { STEP = 5, SHOWS = 44, ALONE = 57, VOLUME = 69, LABEL = 11 };

#define GAP RUNNEL_STICK RUNNEL_STICK RUNNEL_STICK RUNNEL_STICK

/* ---- Head -------------------------------------------------------------------------------------
 */

static void labelled(runnel_flow *flow, FILE *out, size_t margin, const char *label) {
    runnel_flow_begin(flow, out, margin);
    runnel_flow_add(flow, label);
    runnel_flow_tab(flow, margin + LABEL);
}

static void write_head(const runnel_job *job, const runnel_plan *plan, FILE *out) {
    runnel_flow flow;
    runnel_finish_head(out, "Mixing card", job, plan);
    for (int i = 0; i < RUNNEL_CARD_HEADS; i++) {
        const runnel_card_head head = (runnel_card_head)i;
        const char *label = runnel_card_head_label(plan, head);
        if (!label)
            continue;
        labelled(&flow, out, 0, label);
        runnel_card_say_head(&flow, job, plan, head);
        runnel_flow_end(&flow);
    }
}

/* ---- What goes on the scale -------------------------------------------------------------------
 */

static void write_pour(FILE *out, int number, const runnel_card_pour *step, int decimals) {
    runnel_flow flow;
    fputc('\n', out);
    runnel_flow_begin(&flow, out, 2);
    runnel_flow_format(&flow, "%d", number);
    runnel_flow_tab(&flow, STEP);
    runnel_flow_add(&flow, step->text);
    runnel_flow_aligned(&flow, SHOWS, step->shows_g, decimals, decimals, "g");
    if (!isnan(step->alone_g))
        runnel_flow_aligned(&flow, ALONE, step->alone_g, decimals, decimals, "g");
    if (!isnan(step->volume_ml))
        runnel_flow_aligned(&flow, VOLUME, step->volume_ml, 1, 1, "ml");
    runnel_flow_end(&flow);
}

static void write_scale(const runnel_job *job, const runnel_weighing *weighing, FILE *out) {
    const int decimals = runnel_bench_decimals(&job->scale);
    runnel_card_pour pours[RUNNEL_CARD_POURS];
    const size_t count = runnel_card_pours(weighing, pours);
    runnel_flow flow;
    runnel_flow_begin(&flow, out, STEP);
    runnel_flow_add(&flow, runnel_card_way(weighing));
    runnel_flow_add(&flow, ":");
    runnel_flow_tab(&flow, SHOWS - 7);
    runnel_flow_add(&flow, "SCALE" RUNNEL_STICK "SHOWS");
    runnel_flow_tab(&flow, ALONE - 1);
    runnel_flow_add(&flow, "alone");
    runnel_flow_tab(&flow, VOLUME - 1);
    runnel_flow_add(&flow, "volume");
    runnel_flow_end(&flow);
    for (size_t i = 0; i < count; i++)
        write_pour(out, (int)i + 1, &pours[i], decimals);
}

static void write_remedy(const runnel_plan *plan, const runnel_plan_batch *batch, FILE *out) {
    runnel_flow flow;
    runnel_flow_begin(&flow, out, STEP);
    runnel_card_remedy(&flow, plan, batch);
    runnel_flow_end(&flow);
}

static void write_master(const runnel_job *job, const runnel_plan_batch *batch, FILE *out) {
    runnel_flow flow;
    if (!(batch->weighing.tint_g > 0))
        return;
    runnel_flow_begin(&flow, out, STEP);
    runnel_card_master(&flow, job, batch);
    runnel_flow_end(&flow);
}

/* ---- Cup, clock and pen -----------------------------------------------------------------------
 */

/* The batch or cup is told above already, and how it is stirred below. */
static void write_facts(const runnel_card_cup *of, FILE *out) {
    runnel_flow flow;
    for (int i = RUNNEL_CARD_MARKS; i < RUNNEL_CARD_FACTS; i++) {
        const runnel_card_fact fact = (runnel_card_fact)i;
        const char *label = runnel_card_fact_label(of, fact);
        if (!label || fact == RUNNEL_CARD_STIRRING)
            continue;
        labelled(&flow, out, STEP, label);
        runnel_card_say_fact(&flow, of, fact);
        runnel_flow_end(&flow);
    }
}

static void write_pen(const runnel_weighing *weighing, FILE *out) {
    const bool tinted = weighing->tint_g > 0;
    runnel_flow flow;
    fputc('\n', out);
    labelled(&flow, out, STEP, "Weighed");
    runnel_flow_add(&flow, "A" RUNNEL_STICK "_________" RUNNEL_STICK "g");
    runnel_flow_add(&flow, tinted ? GAP "tint" RUNNEL_STICK "_________" RUNNEL_STICK "g" : "");
    runnel_flow_add(&flow, GAP "B" RUNNEL_STICK "_________" RUNNEL_STICK "g");
    runnel_flow_end(&flow);
    fputc('\n', out);
    labelled(&flow, out, STEP, "B went in");
    runnel_flow_add(&flow, "____:____" RUNNEL_STICK "h, use by" RUNNEL_STICK
                           "____:____" RUNNEL_STICK "h, on" RUNNEL_STICK "______________");
    runnel_flow_end(&flow);
}

/* ---- Batches and cups -------------------------------------------------------------------------
 */

static void write_head_of_batch(const runnel_job *job, const runnel_plan *plan, size_t index,
                                FILE *out) {
    const runnel_plan_batch *batch = &plan->batches[index];
    runnel_flow flow;
    fputc('\n', out);
    runnel_layout_rule(out, 0, RUNNEL_LINE_COLUMNS, '-');
    runnel_flow_begin(&flow, out, 0);
    runnel_card_batch(&flow, job, plan, index);
    runnel_flow_end(&flow);
    runnel_flow_begin(&flow, out, STEP);
    runnel_flow_add(&flow, "for ");
    runnel_bench_fills(&flow, plan, batch->colour);
    runnel_flow_end(&flow);
    runnel_flow_begin(&flow, out, STEP);
    runnel_card_sized(&flow, job, batch);
    runnel_flow_end(&flow);
}

/* The only cup of a batch, or all of a batch that was not dealt out. */
static void write_only(const runnel_job *job, const runnel_plan *plan, size_t index, FILE *out) {
    const runnel_card_cup of = runnel_card_cup_of(job, plan, index, 0);
    fputc('\n', out);
    write_scale(job, &of.batch->weighing, out);
    fputc('\n', out);
    write_remedy(plan, of.batch, out);
    fputc('\n', out);
    write_facts(&of, out);
    write_pen(&of.batch->weighing, out);
}

static void write_cup(const runnel_card_cup *of, FILE *out) {
    const runnel_weighing *weighing = runnel_card_weighing(of);
    runnel_flow flow;
    fputc('\n', out);
    runnel_layout_rule(out, 2, RUNNEL_LINE_COLUMNS - 2, '-');
    runnel_flow_begin(&flow, out, 2);
    runnel_flow_format(&flow, "Cup %zu of %zu", of->index + 1, of->batch->cup_count);
    runnel_flow_add(&flow, ", ");
    runnel_card_amount(&flow, of->job, weighing);
    runnel_flow_end(&flow);
    runnel_flow_begin(&flow, out, STEP);
    runnel_flow_add(&flow, "for ");
    runnel_card_say_fact(&flow, of, RUNNEL_CARD_FILLS);
    runnel_flow_end(&flow);
    if (runnel_card_fact_label(of, RUNNEL_CARD_WHEN)) {
        labelled(&flow, out, STEP, runnel_card_fact_label(of, RUNNEL_CARD_WHEN));
        runnel_card_say_fact(&flow, of, RUNNEL_CARD_WHEN);
        runnel_flow_end(&flow);
    }
    fputc('\n', out);
    write_scale(of->job, weighing, out);
    fputc('\n', out);
    write_facts(of, out);
    write_pen(weighing, out);
}

/* What is mixed later, when pinholes show. */
static void write_top_up(const runnel_job *job, const runnel_plan_batch *batch, FILE *out) {
    runnel_flow flow;
    if (!(batch->top_up_mm3 > 0))
        return;
    fputc('\n', out);
    labelled(&flow, out, STEP, "Top-up");
    runnel_card_top_up(&flow, job, batch);
    runnel_flow_end(&flow);
}

static void write_batch(const runnel_job *job, const runnel_plan *plan, size_t index, FILE *out) {
    const runnel_plan_batch *batch = &plan->batches[index];
    write_head_of_batch(job, plan, index, out);
    if (batch->cup_count <= 1) {
        write_only(job, plan, index, out);
    } else {
        fputc('\n', out);
        write_remedy(plan, batch, out);
        write_master(job, batch, out);
        for (size_t i = 0; i < batch->cup_count; i++) {
            const runnel_card_cup of = runnel_card_cup_of(job, plan, index, i);
            write_cup(&of, out);
        }
    }
    write_top_up(job, batch, out);
}

runnel_status runnel_write_card_text(const runnel_job *job, const runnel_plan *plan, FILE *out) {
    runnel_doc notes = {.count = 0};
    write_head(job, plan, out);
    for (size_t i = 0; i < plan->batch_count; i++)
        write_batch(job, plan, i, out);
    runnel_bench_nothing(out, plan);
    if (plan->batch_count) {
        fputc('\n', out);
        runnel_layout_rule(out, 0, RUNNEL_LINE_COLUMNS, '-');
        fputc('\n', out);
        runnel_card_notes(&notes);
    }
    return runnel_doc_write(&notes, out);
}
