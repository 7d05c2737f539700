/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/figures.h"

#include <math.h>

void runnel_figures_start(runnel_flow *flow, FILE *out, const char *label) {
    runnel_flow_begin(flow, out, RUNNEL_FIGURES_LABEL);
    runnel_flow_add(flow, label);
}

void runnel_figures_number(runnel_flow *flow, FILE *out, const char *label, double value,
                           int decimals, const char *unit) {
    runnel_figures_start(flow, out, label);
    if (isfinite(value))
        runnel_flow_aligned(flow, RUNNEL_FIGURES_POINT, value, decimals, RUNNEL_FIGURES_PLACES,
                            unit);
    else
        runnel_flow_tab(flow, RUNNEL_FIGURES_POINT);
}

void runnel_figures_line(FILE *out, const char *label, double value, int decimals, const char *unit,
                         const char *note) {
    runnel_flow flow;
    runnel_figures_number(&flow, out, label, value, decimals, unit);
    runnel_flow_add(&flow, isfinite(value) ? note : isnan(value) ? "not known" : "without limit");
    runnel_flow_end(&flow);
}
