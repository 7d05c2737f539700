/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/finish_lines.h"

#include "runnel/cautions.h"

#include <math.h>

void runnel_finish_head(FILE *out, const char *what, const runnel_job *job,
                        const runnel_plan *plan) {
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_add(&flow, what);
    runnel_flow_add(&flow, ": ");
    runnel_bench_title(&flow, job);
    runnel_flow_end(&flow);
    fputc('\n', out);
    runnel_bench_warnings(out, plan);
}

void runnel_finish_heading(FILE *out, const char *text) {
    fputc('\n', out);
    runnel_layout_paragraph(out, 0, text);
}

void runnel_finish_basis(runnel_flow *flow, FILE *out, const char *label) {
    runnel_flow_begin(flow, out, 2);
    runnel_flow_add(flow, label);
    runnel_flow_tab(flow, 14);
}

void runnel_finish_item(FILE *out, const char *mark, const char *text) {
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 2);
    runnel_flow_add(&flow, mark);
    runnel_flow_tab(&flow, 5);
    runnel_flow_add(&flow, text);
    runnel_flow_end(&flow);
}

static void write_times(FILE *out, const char *label, void (*add)(runnel_flow *, double),
                        double from_s, double to_s, const char *note) {
    runnel_flow flow;
    runnel_figures_start(&flow, out, label);
    runnel_flow_tab(&flow, RUNNEL_FIGURES_POINT - 1);
    if (isnan(from_s)) {
        runnel_flow_add(&flow, "not known; see the can or its sheet");
        runnel_flow_end(&flow);
        return;
    }
    add(&flow, from_s);
    if (to_s > from_s) {
        runnel_flow_add(&flow, " to ");
        add(&flow, to_s);
    }
    runnel_flow_add(&flow, *note ? " " : "");
    runnel_flow_add(&flow, note);
    runnel_flow_end(&flow);
}

void runnel_finish_times(FILE *out, const char *label, double from_s, double to_s,
                         const char *note) {
    write_times(out, label, runnel_bench_time_from, from_s, to_s, note);
}

void runnel_finish_latest(FILE *out, const char *label, double until_s, const char *note) {
    write_times(out, label, runnel_bench_time_until, until_s, until_s, note);
}

void runnel_finish_order(FILE *out, const runnel_order *order, const runnel_order_faults *faults,
                         bool taken) {
    runnel_flow flow;
    runnel_finish_heading(out, "Order of the steps");
    runnel_flow_begin(&flow, out, 2);
    for (size_t i = 0; i < order->count; i++) {
        runnel_flow_add(&flow, i ? ", " : "");
        runnel_flow_add(&flow, runnel_step_text(order->steps[i]));
    }
    runnel_flow_end(&flow);
    if (faults->count)
        runnel_layout_paragraph(out, 2, "Out of order: see the warnings.");
    else
        runnel_layout_paragraph(out, 2,
                                taken ? "The usual order: no oil and no wax before the resin."
                                      : "Nothing in it is out of order.");
}

void runnel_finish_cautions(FILE *out, unsigned steps, unsigned cases) {
    runnel_finish_heading(out, "Take care");
    for (const runnel_caution *c = runnel_caution_next(NULL, steps, cases); c;
         c = runnel_caution_next(c, steps, cases))
        runnel_finish_item(out, "-", c->text);
}

void runnel_finish_between(runnel_flow *flow, size_t index, size_t count) {
    runnel_flow_add(flow, !index ? "" : index + 1 == count ? " and " : ", ");
}
