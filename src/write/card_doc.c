/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/card_doc.h"

#include "runnel/cautions.h"
#include "write/card_words.h"

#include <math.h>
#include <string.h>

/* Cups of a page of which each has its picture; more would make it too large to be sent. */
static const size_t pictured_cups = 60;

void runnel_card_colour(const runnel_plan *plan, const runnel_look *look, size_t batch,
                        runnel_doc *doc) {
    const char *colour = plan->batches[batch].colour;
    runnel_text_sink caption = {.text = NULL};
    runnel_flow flow;
    bool any = false;
    for (size_t i = 0; i < look->cavity_count && !any; i++)
        any = look->cavities[i].is_known && !strcmp(plan->cavities[i].colour, colour);
    if (!any)
        return;
    runnel_flow_into(&flow, &caption);
    runnel_flow_add(&flow, "Dark: what this batch fills.");
    runnel_flow_end(&flow);
    runnel_doc_say(doc, &flow);
    runnel_flow_add(&flow, "The pieces from above; dark is what is filled with ");
    runnel_flow_add(&flow, colour);
    runnel_flow_add(&flow, ": ");
    runnel_bench_fills(&flow, plan, colour);
    runnel_doc_shown(doc, RUNNEL_IMAGE_COLOUR, batch, 0, &caption, &flow);
}

void runnel_card_cautions(unsigned steps, unsigned cases, runnel_doc *doc) {
    runnel_doc_add(doc, RUNNEL_DOC_HEAD, "", "Take care");
    for (const runnel_caution *caution = runnel_caution_next(NULL, steps, cases); caution;
         caution = runnel_caution_next(caution, steps, cases))
        runnel_doc_add(doc, RUNNEL_DOC_ITEM, "!", caution->text);
}

/* ---- A cup ------------------------------------------------------------------------------------
 */

static void add_scale(const runnel_card_cup *of, runnel_doc *doc) {
    const char *const heads[] = {runnel_card_way(runnel_card_weighing(of)), "scale shows", "alone",
                                 "volume"};
    const int decimals = runnel_bench_decimals(&of->job->scale);
    runnel_card_pour pours[RUNNEL_CARD_POURS];
    const size_t count = runnel_card_pours(runnel_card_weighing(of), pours);
    runnel_doc_row row = {.count = 0};
    for (size_t i = 0; i < sizeof heads / sizeof *heads; i++)
        runnel_row_text(&row, heads[i]);
    runnel_doc_add_row(doc, &row);
    for (size_t i = 0; i < count; i++) {
        char text[RUNNEL_DOC_CELL];
        snprintf(text, sizeof text, "%zu" RUNNEL_STICK RUNNEL_STICK "%s", i + 1, pours[i].text);
        runnel_row_text(&row, text);
        runnel_row_number(&row, pours[i].shows_g, decimals, "g");
        runnel_row_number(&row, pours[i].alone_g, decimals, "g");
        runnel_row_number(&row, pours[i].volume_ml, 1, "ml");
        runnel_doc_add_row(doc, &row);
    }
}

static void add_facts(const runnel_card_cup *of, runnel_doc *doc) {
    runnel_flow flow;
    for (int i = 0; i < RUNNEL_CARD_FACTS; i++) {
        const char *label = runnel_card_fact_label(of, (runnel_card_fact)i);
        if (!label)
            continue;
        runnel_card_say_fact(runnel_doc_say(doc, &flow), of, (runnel_card_fact)i);
        runnel_doc_said(doc, RUNNEL_DOC_ENTRY, label, &flow);
    }
}

static void add_pen(const runnel_card_cup *of, runnel_doc *doc) {
#define BLANK RUNNEL_STICK "__________" RUNNEL_STICK
    runnel_doc_add(doc, RUNNEL_DOC_ENTRY, "Really weighed",
                   runnel_card_weighing(of)->tint_g > 0 ? "A" BLANK "g, tint" BLANK "g, B" BLANK "g"
                                                        : "A" BLANK "g, B" BLANK "g");
    runnel_doc_add(doc, RUNNEL_DOC_ENTRY, "Clock", "B in at" BLANK "h, use by" BLANK "h, on" BLANK);
#undef BLANK
}

static void add_cup(const runnel_card_cup *of, size_t batch, bool pictured, runnel_doc *doc) {
    runnel_flow flow;
    runnel_card_name(runnel_doc_say(doc, &flow), of);
    runnel_doc_said(doc, RUNNEL_DOC_HEAD, "", &flow);
    add_scale(of, doc);
    if (pictured) {
        runnel_flow_add(runnel_doc_say(doc, &flow), "The cup with its levels: ");
        runnel_card_say_fact(&flow, of, RUNNEL_CARD_MARKS);
        runnel_doc_shown(doc, RUNNEL_IMAGE_CUP, batch, of->index, NULL, &flow);
    }
    add_facts(of, doc);
    add_pen(of, doc);
}

/* ---- All --------------------------------------------------------------------------------------
 */

static void add_batch(const runnel_job *job, const runnel_plan *plan, const runnel_look *look,
                      size_t index, runnel_doc *doc) {
    const runnel_plan_batch *batch = &plan->batches[index];
    const size_t blocks = runnel_card_blocks(batch);
    runnel_flow flow;
    runnel_card_batch(runnel_doc_say(doc, &flow), job, plan, index);
    runnel_doc_said(doc, RUNNEL_DOC_HEAD, "", &flow);
    runnel_flow_add(runnel_doc_say(doc, &flow), "for ");
    runnel_bench_fills(&flow, plan, batch->colour);
    runnel_flow_add(&flow, "; ");
    runnel_card_sized(&flow, job, batch);
    runnel_doc_said(doc, RUNNEL_DOC_TEXT, "", &flow);
    runnel_card_colour(plan, look, index, doc);
    runnel_card_remedy(runnel_doc_say(doc, &flow), plan, batch);
    runnel_doc_said(doc, RUNNEL_DOC_TEXT, "", &flow);
    if (batch->cup_count > 1 && batch->weighing.tint_g > 0) {
        runnel_card_master(runnel_doc_say(doc, &flow), job, batch);
        runnel_doc_said(doc, RUNNEL_DOC_TEXT, "", &flow);
    }
    for (size_t i = 0; i < blocks; i++) {
        const runnel_card_cup of = runnel_card_cup_of(job, plan, index, i);
        add_cup(&of, index, blocks <= pictured_cups, doc);
    }
    if (batch->top_up_mm3 > 0) {
        runnel_card_top_up(runnel_doc_say(doc, &flow), job, batch);
        runnel_doc_said(doc, RUNNEL_DOC_ENTRY, "Top-up", &flow);
    }
}

void runnel_card_notes(runnel_doc *doc) {
    size_t count;
    const char *const *steps = runnel_card_steps(&count);
    char number[24];
    runnel_doc_add(doc, RUNNEL_DOC_HEAD, "", "Mixing");
    for (size_t i = 0; i < count; i++) {
        snprintf(number, sizeof number, "%zu", i + 1);
        runnel_doc_add(doc, RUNNEL_DOC_ITEM, number, steps[i]);
    }
    runnel_card_cautions(RUNNEL_STEP_BIT(RUNNEL_STEP_MIX), 0, doc);
}

void runnel_card_doc(const runnel_job *job, const runnel_plan *plan, const runnel_look *look,
                     runnel_doc *doc) {
    runnel_flow flow;
    doc->large = true;
    runnel_doc_begin(doc, "Mixing card", job, plan);
    for (int i = 0; i < RUNNEL_CARD_HEADS; i++) {
        const char *label = runnel_card_head_label(plan, (runnel_card_head)i);
        if (!label)
            continue;
        runnel_card_say_head(runnel_doc_say(doc, &flow), job, plan, (runnel_card_head)i);
        runnel_doc_said(doc, RUNNEL_DOC_ENTRY, label, &flow);
    }
    for (size_t i = 0; i < plan->batch_count; i++)
        add_batch(job, plan, look, i, doc);
    for (size_t i = 0; runnel_bench_says_nothing(runnel_doc_say(doc, &flow), plan, i); i++)
        runnel_doc_said(doc, RUNNEL_DOC_TEXT, "", &flow);
    if (plan->batch_count)
        runnel_card_notes(doc);
}
