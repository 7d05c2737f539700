/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/bench.h"

#include "runnel/units.h"

#include <math.h>

/** A share is told as one of all when it is as good as that. */
#define ALL_BUT 1e-6

static bool is_all(double share) {
    return share >= 1 - ALL_BUT;
}

/* ---- What a cup fills ------------------------------------------------------------------------ */

static void add_share(runnel_flow *flow, double share, size_t piece, bool is_only) {
    runnel_flow_add(flow, ", ");
    runnel_bench_plain(flow, round(1000 * share) / 10, "% of ");
    if (is_only)
        runnel_flow_add(flow, "it");
    else
        runnel_flow_format(flow, "piece" RUNNEL_STICK "%zu", piece);
}

static void add_run(runnel_flow *flow, size_t first, size_t last) {
    if (first == last)
        runnel_flow_format(flow, ", piece" RUNNEL_STICK "%zu", first);
    else if (first < last)
        runnel_flow_format(flow, ", pieces" RUNNEL_STICK "%zu" RUNNEL_STICK "to" RUNNEL_STICK "%zu",
                           first, last);
}

/** The pieces of a fill: parts of the first and of the last, and the whole ones between. */
static void add_pieces(runnel_flow *flow, const runnel_plan_fill *fill, size_t piece_count) {
    bool is_one = fill->first == fill->last;
    size_t first = fill->first, last = fill->last;
    if (!is_all(fill->first_share))
        add_share(flow, fill->first_share, first++, piece_count == 1);
    bool is_parted = !is_one && !is_all(fill->last_share);
    last -= is_parted;
    if (piece_count > 1)
        add_run(flow, first, last);
    if (is_parted)
        add_share(flow, fill->last_share, fill->last, false);
}

void runnel_bench_cup_fills(runnel_flow *flow, const runnel_plan *plan,
                            const runnel_plan_cup *cup) {
    if (!cup->fill_count)
        runnel_flow_add(flow, "the next part of all");
    for (size_t i = 0; i < cup->fill_count; i++) {
        const runnel_plan_fill *fill = &cup->fills[i];
        const runnel_plan_cavity *cavity = &plan->cavities[fill->cavity];
        runnel_flow_add(flow, i ? "; " : "");
        runnel_flow_add(flow, cavity->piece);
        runnel_flow_add(flow, " / ");
        runnel_flow_add(flow, cavity->name);
        if (cavity->layers.count > 1)
            runnel_flow_format(flow,
                               ", layer" RUNNEL_STICK "%zu" RUNNEL_STICK "of" RUNNEL_STICK "%zu",
                               fill->layer, cavity->layers.count);
        add_pieces(flow, fill, cavity->piece_count);
    }
}

void runnel_bench_window(runnel_flow *flow, double earliest_s, double latest_s) {
    if (isnan(earliest_s) || isnan(latest_s)) {
        runnel_flow_add(flow, "in the recoat window, which is not known");
        return;
    }
    runnel_flow_add(flow, "from ");
    runnel_bench_time_from(flow, earliest_s);
    runnel_flow_add(flow, " on and, without sanding, until ");
    runnel_bench_time_until(flow, latest_s);
    runnel_flow_add(flow, " after the first");
}

/* ---- What is to be minded -------------------------------------------------------------------- */

bool runnel_bench_cup_notes(runnel_flow *flow, const runnel_plan_cup *cup) {
    static const struct {
        unsigned note;
        const char *text;
    } notes[] = {
        {RUNNEL_CUP_UNWEIGHABLE, "the scale does not keep its ratio"},
        {RUNNEL_CUP_OVER_MASS, "it is more than the resin bears in one cup"},
        {RUNNEL_CUP_OVER_SIZE, "it is more than the cup should hold"},
        {RUNNEL_CUP_HOT, "it heats itself in a narrow cup: take a wide, shallow dish"},
        {RUNNEL_CUP_LATE, "pour without a break, as the pot life is short for it"},
        {RUNNEL_CUP_RAISED, "more than is poured, as the scale weighs no less"},
    };
    bool any = false;
    for (size_t i = 0; i < sizeof notes / sizeof *notes; i++) {
        if (!(cup->load.notes & notes[i].note))
            continue;
        runnel_flow_add(flow, any ? "; " : "");
        runnel_flow_add(flow, notes[i].text);
        any = true;
    }
    return any;
}

void runnel_bench_pouring(runnel_flow *flow, double pour_s, double pot_share) {
    runnel_flow_add(flow, "takes ");
    runnel_bench_time(flow, pour_s);
    if (isnan(pot_share))
        return;
    runnel_flow_add(flow, ", ");
    runnel_flow_number(flow, 100 * pot_share, 0, "% of the pot life");
}
