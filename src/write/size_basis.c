/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the sizes are worked out with.
 */
#include "write/size.h"

#include "base/utf8.h"
#include "runnel/units.h"
#include "write/bench.h"

#include <math.h>
static void said(runnel_doc *doc, const char *label, runnel_flow *flow) {
    runnel_doc_said(doc, RUNNEL_DOC_ENTRY, label, flow);
}

static void add_defaults(const runnel_job *job, runnel_doc *doc) {
    const bool any = job->resin_is_default || job->scale_is_default || job->shop_is_default;
    runnel_flow flow;
    if (!any)
        return;
    runnel_flow_add(runnel_doc_say(doc, &flow), "Not given, so taken:");
    if (job->resin_is_default) {
        runnel_flow_add(&flow, " resin ");
        runnel_flow_add(&flow, job->resin.name);
    }
    if (job->scale_is_default) {
        runnel_flow_add(&flow, job->resin_is_default ? ", a scale of " : " a scale of ");
        runnel_bench_plain(&flow, job->scale.step_g, "g a step");
    }
    if (job->shop_is_default) {
        runnel_flow_add(&flow, job->resin_is_default || job->scale_is_default ? ", a shop at "
                                                                              : " a shop at ");
        runnel_bench_plain(&flow, job->shop_degc, RUNNEL_DEGC);
    }
    runnel_doc_said(doc, RUNNEL_DOC_TEXT, "", &flow);
}

static void add_resin(const runnel_job *job, const runnel_plan *plan, runnel_doc *doc) {
    const runnel_resin *resin = &job->resin;
    runnel_flow flow;
    runnel_flow_add(runnel_doc_say(doc, &flow), resin->name);
    runnel_flow_add(&flow, job->resin_changed ? ", with the job's own values" : "");
    said(doc, "resin", &flow);
    runnel_bench_ratios(runnel_doc_say(doc, &flow), &job->resin.ratio, &plan->mixture);
    if (job->other_ratio.basis != RUNNEL_BASIS_NONE) {
        runnel_flow_add(&flow, "; the sheet says ");
        runnel_bench_ratio(&flow, &job->other_ratio);
    }
    said(doc, "ratio", &flow);
    runnel_flow_add(runnel_doc_say(doc, &flow), "A ");
    runnel_flow_number(&flow, resin->density_a_g_per_ml, 3, "g/ml");
    runnel_flow_add(&flow, ", B ");
    runnel_flow_number(&flow, resin->density_b_g_per_ml, 3, "g/ml");
    runnel_flow_add(&flow, ", mixed ");
    runnel_flow_number(&flow, plan->mixture.density_g_per_ml, 3, "g/ml");
    said(doc, "density", &flow);
}

static void add_shop(const runnel_job *job, runnel_doc *doc) {
    const runnel_scale *scale = &job->scale;
    const bool percent = scale->accuracy_percent > 0, counts = scale->accuracy_counts > 0;
    runnel_flow flow;
    runnel_bench_plain(runnel_doc_say(doc, &flow), scale->step_g, "g a step");
    runnel_flow_add(&flow, percent || counts ? ", right to " : "");
    if (percent)
        runnel_bench_plain(&flow, scale->accuracy_percent, "%");
    runnel_flow_add(&flow, percent && counts ? " or " : "");
    if (counts)
        runnel_bench_plain(&flow, scale->accuracy_counts,
                           scale->accuracy_counts == 1 ? "count" : "counts");
    runnel_flow_add(&flow, percent && counts ? ", the larger of them" : "");
    said(doc, "scale", &flow);
    runnel_bench_plain(runnel_doc_say(doc, &flow), job->shop_degc, RUNNEL_DEGC);
    if (job->humidity >= 0) {
        runnel_flow_add(&flow, ", ");
        runnel_bench_plain(&flow, 100 * job->humidity, "% humidity");
    }
    said(doc, "shop", &flow);
}

/** How many pieces name their wood: all, some or none. */
static const char *soak_basis(const runnel_job *job) {
    size_t named = 0;
    for (size_t i = 0; i < job->piece_count; i++)
        named += job->pieces[i].wood != NULL;
    if (named == job->piece_count)
        return ", soak by the table of woods";
    return named ? "; the soak is that of the wood in its table, a middling one where none is named"
                 : "; a middling soak, as no wood is named";
}

/** Whether the job tells how long any pouring takes. */
static bool has_pour_time(const runnel_job *job) {
    for (size_t p = 0; p < job->piece_count; p++) {
        bool any = job->pieces[p].pour_s > 0;
        for (size_t c = 0; c < job->pieces[p].cavity_count && !any; c++)
            any = job->pieces[p].cavities[c].pour_s > 0;
        if (any)
            return true;
    }
    return false;
}

static bool is_pour_time_known(const runnel_plan *plan) {
    for (size_t i = 0; i < plan->batch_count; i++)
        if (!isnan(plan->batches[i].pour_s))
            return true;
    return false;
}

/* How far what is told may be off, and what is made of it. */
static void add_errors(const runnel_job *job, runnel_doc *doc) {
    const runnel_band_errors *errors = &job->errors;
    runnel_flow flow;
    runnel_bench_plain(runnel_doc_say(doc, &flow), errors->depth_mm, "mm of depth, ");
    runnel_bench_plain(&flow, errors->angle_deg, "deg of a V, ");
    runnel_bench_plain(&flow, errors->flatness_mm, "mm of the board, ");
    runnel_bench_plain(&flow, 100 * errors->soak, "% of the soak");
    runnel_flow_add(&flow, job->errors_are_default ? " (not given, so taken)" : "");
    runnel_flow_add(&flow, job->size_to == RUNNEL_SIZE_HIGH
                               ? "; batches are sized to the high end of them"
                               : "; batches are sized to what is likely");
    said(doc, "errors", &flow);
}

static void add_cup(const runnel_job *job, runnel_doc *doc) {
    runnel_flow flow;
    runnel_bench_plain(runnel_doc_say(doc, &flow), job->cup.diameter_mm, "mm wide, ");
    if (job->cup.fixed_loss_g >= 0) {
        runnel_bench_plain(&flow, job->cup.fixed_loss_g, "g stay in it");
    } else {
        runnel_flow_add(&flow, "left to drain for ");
        runnel_bench_plain(&flow, job->cup.drain_s, "s");
    }
    if (job->brim_mm3 > 0) {
        runnel_flow_add(&flow, ", holding ");
        runnel_bench_plain(&flow, job->brim_mm3 / RUNNEL_MM3_PER_ML, "ml to its brim");
    }
    said(doc, "cup", &flow);
}

static void add_pour(const runnel_job *job, const runnel_plan *plan, runnel_doc *doc) {
    runnel_flow flow;
    runnel_bench_plain(runnel_doc_say(doc, &flow), job->crown_mm, "mm high, to ");
    runnel_bench_plain(&flow, job->margin_mm, "mm beyond the edges");
    said(doc, "crown", &flow);
    runnel_flow_add(runnel_doc_say(doc, &flow), job->sealed ? "sealed" : "bare");
    if (job->soak_mm >= 0) {
        runnel_flow_add(&flow, ", soaking up ");
        runnel_bench_plain(&flow, 1000 * job->soak_mm, "ml/m2");
    } else {
        runnel_flow_add(&flow, soak_basis(job));
    }
    said(doc, "walls", &flow);
    add_cup(job, doc);
    if (is_pour_time_known(plan)) {
        runnel_flow_add(runnel_doc_say(doc, &flow), "in at most ");
        runnel_bench_plain(&flow, 100 * job->usable_share, "% of the pot life");
        runnel_flow_add(&flow, has_pour_time(job) ? "" : "; minutes by 'runnel list work'");
        said(doc, "pouring", &flow);
    }
    runnel_bench_plain(runnel_doc_say(doc, &flow), 100 * job->reserve, "%");
    said(doc, "reserve", &flow);
    add_errors(job, doc);
}

void runnel_size_basis(const runnel_job *job, const runnel_plan *plan, runnel_doc *doc) {
    add_defaults(job, doc);
    runnel_doc_add(doc, RUNNEL_DOC_HEAD, "", "Worked out with");
    add_resin(job, plan, doc);
    add_shop(job, doc);
    add_pour(job, plan, doc);
}
