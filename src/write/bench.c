/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/bench.h"

#include "base/utf8.h"
#include "runnel/units.h"

#include <math.h>
#include <string.h>

enum { TIME_SIZE = 64 };

void runnel_bench_title(runnel_flow *flow, const runnel_job *job) {
    runnel_flow_add(flow, job->name ? job->name : job->file ? job->file : "one cavity");
}

void runnel_bench_warning_head(FILE *out, size_t count) {
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_format(&flow, "%zu %s", count,
                       count == 1 ? "WARNING. Read it" : "WARNINGS. Read them");
    runnel_flow_add(&flow, " before a can is opened:");
    runnel_flow_end(&flow);
}

void runnel_bench_warning(FILE *out, const char *where, const char *text) {
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 2);
    runnel_flow_add(&flow, "!");
    runnel_flow_tab(&flow, 4);
    if (where && *where) {
        runnel_flow_add(&flow, where);
        runnel_flow_add(&flow, ": ");
    }
    runnel_flow_add(&flow, text);
    runnel_flow_end(&flow);
}

void runnel_bench_warnings(FILE *out, const runnel_plan *plan) {
    if (!plan->warning_count)
        return;
    runnel_bench_warning_head(out, plan->warning_count);
    for (size_t i = 0; i < plan->warning_count; i++)
        runnel_bench_warning(out, plan->warnings[i].where, plan->warnings[i].text);
    fputc('\n', out);
}

void runnel_bench_plain(runnel_flow *flow, double value, const char *unit) {
    enum { PLACES = 4 };
    char digits[64];
    runnel_number_text(value, PLACES, digits, sizeof digits);
    size_t end = strlen(digits);
    while (strchr(digits, '.') && digits[end - 1] == '0')
        end--;
    end -= digits[end - 1] == '.';
    digits[end] = '\0';
    runnel_flow_add(flow, digits);
    if (*unit)
        runnel_flow_add(flow, RUNNEL_STICK);
    runnel_flow_add(flow, unit);
}

void runnel_bench_ratio(runnel_flow *flow, const runnel_ratio *ratio) {
    runnel_bench_plain(flow, ratio->part_a, "");
    runnel_flow_add(flow, ":");
    runnel_bench_plain(flow, ratio->part_b, "");
    runnel_flow_add(flow, ratio->basis == RUNNEL_BASIS_VOLUME ? RUNNEL_STICK "by volume"
                                                              : RUNNEL_STICK "by weight");
}

void runnel_bench_ratios(runnel_flow *flow, const runnel_ratio *ratio,
                         const runnel_mixture *mixture) {
    bool by_volume = ratio->basis == RUNNEL_BASIS_VOLUME;
    double other =
        by_volume ? mixture->weight_b / mixture->weight_a : mixture->volume_b / mixture->volume_a;
    runnel_bench_ratio(flow, ratio);
    runnel_flow_add(flow, ", which is 100:");
    runnel_flow_number(flow, 100 * other, 2, by_volume ? "by weight" : "by volume");
}

/* Kept together. */
static void add_time(runnel_flow *flow, const char *text) {
    for (const char *at = text; *at; at++)
        runnel_flow_add(flow, *at == ' ' ? RUNNEL_STICK : (char[]){*at, '\0'});
}

void runnel_bench_time(runnel_flow *flow, double seconds) {
    char text[TIME_SIZE];
    add_time(flow, runnel_time_text(seconds, text, sizeof text));
}

void runnel_bench_time_from(runnel_flow *flow, double seconds) {
    char text[TIME_SIZE];
    add_time(flow, runnel_time_from_text(seconds, text, sizeof text));
}

void runnel_bench_time_until(runnel_flow *flow, double seconds) {
    char text[TIME_SIZE];
    add_time(flow, runnel_time_until_text(seconds, text, sizeof text));
}

void runnel_bench_parts(runnel_flow *flow, const runnel_job *job, const runnel_weighing *weighing) {
    const int decimals = runnel_bench_decimals(&job->scale);
    runnel_flow_add(flow, "A" RUNNEL_STICK);
    runnel_flow_number(flow, weighing->part_a_g, decimals, "g, ");
    if (weighing->tint_g > 0) {
        runnel_flow_add(flow, "tint" RUNNEL_STICK);
        runnel_flow_number(flow, weighing->tint_g, decimals, "g, ");
    }
    runnel_flow_add(flow, "B" RUNNEL_STICK);
    runnel_flow_number(flow, weighing->part_b_g, decimals, "g");
}

void runnel_bench_top_up(runnel_flow *flow, const runnel_job *job, const runnel_plan_batch *batch) {
    runnel_bench_plain(flow, 100 * job->top_up, "% of the cavities");
    runnel_flow_add(flow, ", for pinholes that show once it is level: mixed anew then, of the same "
                          "bottles, ");
    runnel_bench_parts(flow, job, &batch->top_up);
    if (batch->top_up.zero_before_b)
        runnel_flow_add(flow, ", zeroed before B");
}

void runnel_bench_pot_life(runnel_flow *flow, const runnel_job *job,
                           const runnel_plan_batch *batch) {
    const runnel_resin *resin = &job->resin;
    if (isnan(batch->pot_life_s)) {
        runnel_flow_add(flow, "not known");
        if (job->shop_degc < resin->lowest_degc) {
            runnel_flow_add(flow, ": the shop is below the ");
            runnel_bench_plain(flow, resin->lowest_degc, RUNNEL_DEGC);
            runnel_flow_add(flow, " that this resin needs");
        }
        return;
    }
    runnel_flow_add(flow, "about ");
    runnel_bench_time(flow, batch->pot_life_s);
    runnel_flow_add(flow, " at ");
    runnel_bench_plain(flow, job->shop_degc, RUNNEL_DEGC);
    runnel_flow_add(flow, " for ");
    runnel_bench_plain(flow, resin->pot_mass_g, "g");
    runnel_flow_add(flow, " in a cup");
}

void runnel_bench_fills(runnel_flow *flow, const runnel_plan *plan, const char *colour) {
    bool any = false;
    for (size_t i = 0; i < plan->cavity_count; i++) {
        const runnel_plan_cavity *cavity = &plan->cavities[i];
        if (strcmp(cavity->colour, colour) != 0)
            continue;
        runnel_flow_add(flow, any ? "; " : "");
        runnel_flow_add(flow, cavity->piece);
        runnel_flow_add(flow, " / ");
        runnel_flow_add(flow, cavity->name);
        if (cavity->piece_count > 1)
            runnel_flow_format(flow, ", %zu" RUNNEL_STICK "pieces", cavity->piece_count);
        any = true;
    }
}

void runnel_bench_order(runnel_flow *flow, const runnel_plan *plan) {
    for (size_t i = 0; i < plan->batch_count; i++) {
        const runnel_plan_batch *batch = &plan->batches[i];
        runnel_flow_add(flow, i ? "; " : "");
        runnel_flow_add(flow, batch->colour);
        if (!i) {
            runnel_flow_add(flow, " at first");
        } else if (isnan(batch->not_before_s)) {
            runnel_flow_add(flow, " when its neighbours have gelled, which is not known");
        } else if (batch->not_before_s > 0) {
            runnel_flow_add(flow, " from ");
            runnel_bench_time_from(flow, batch->not_before_s);
            runnel_flow_add(flow, " on, when its neighbours have gelled");
        } else {
            runnel_flow_add(flow, " at any time");
        }
    }
}

static bool is_first_of_colour(const runnel_plan *plan, size_t cavity) {
    for (size_t i = 0; i < cavity; i++)
        if (strcmp(plan->cavities[i].colour, plan->cavities[cavity].colour) == 0)
            return false;
    return true;
}

static bool has_batch(const runnel_plan *plan, const char *colour) {
    for (size_t i = 0; i < plan->batch_count; i++)
        if (strcmp(plan->batches[i].colour, colour) == 0)
            return true;
    return false;
}

bool runnel_bench_says_nothing(runnel_flow *flow, const runnel_plan *plan, size_t index) {
    if (!plan->batch_count) {
        runnel_flow_add(flow, "Nothing is to be mixed: no cavity holds any resin.");
        return index == 0;
    }
    for (size_t i = 0; i < plan->cavity_count; i++) {
        const char *colour = plan->cavities[i].colour;
        if (has_batch(plan, colour) || !is_first_of_colour(plan, i) || index--)
            continue;
        runnel_flow_add(flow, "Nothing is to be mixed of ");
        runnel_flow_add(flow, colour);
        runnel_flow_add(flow, ": no cavity of it holds any resin.");
        return true;
    }
    return false;
}

void runnel_bench_nothing(FILE *out, const runnel_plan *plan) {
    runnel_text_sink line = {.text = NULL};
    runnel_flow flow;
    runnel_flow_into(&flow, &line);
    for (size_t i = 0; runnel_bench_says_nothing(&flow, plan, i); i++) {
        runnel_flow_end(&flow);
        fputc('\n', out);
        runnel_layout_paragraph(out, 0, line.text ? line.text : "");
        runnel_flow_into(&flow, &line);
    }
    runnel_text_clear(&line);
}

int runnel_bench_decimals(const runnel_scale *scale) {
    enum { MOST = 6 };
    double step = scale->step_g;
    int decimals = 0;
    /* A step such as 0.1 is not exact in binary: what is left is measured against the step. */
    while (decimals < MOST && fabs(step - nearbyint(step)) > 1e-9 * step) {
        step *= 10;
        decimals++;
    }
    return decimals;
}
