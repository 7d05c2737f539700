/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/units.h"
#include "runnel/write_finish.h"
#include "write/finish_lines.h"

#include <math.h>

/* Columns of the table: points of what is needed, there, and left. */
enum { NEEDED = 34, THERE = 47, LEFT = 60, DIGITS = 1 };

static void add_name(runnel_flow *flow, const char *what, const char *part) {
    runnel_flow_add(flow, what);
    if (!part || !*part)
        return;
    runnel_flow_add(flow, ", ");
    runnel_flow_add(flow, part);
}

/* An amount in g, or in ml where its mass is not known. */
static void column(runnel_flow *flow, size_t point, double mass_g, double volume_mm3) {
    if (isnan(mass_g) && isnan(volume_mm3)) {
        runnel_flow_tab(flow, point - 3);
        runnel_flow_add(flow, "?");
        return;
    }
    runnel_flow_aligned(flow, point, isnan(mass_g) ? volume_mm3 / RUNNEL_MM3_PER_ML : mass_g,
                        DIGITS, DIGITS, isnan(mass_g) ? "ml" : "g");
}

static void write_line(const runnel_stocking *stocking, const runnel_stock_line *line, FILE *out) {
    const runnel_stock_need *need = &stocking->needs.items[line->need];
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 2);
    add_name(&flow, need->what, need->part);
    column(&flow, NEEDED, line->need_g, line->need_mm3);
    if (!line->bottles) {
        runnel_flow_tab(&flow, THERE - 3);
        runnel_flow_add(&flow, "no bottle of that name");
        runnel_flow_end(&flow);
        return;
    }
    column(&flow, THERE, line->there_g, line->there_mm3);
    if (line->is_enough) {
        column(&flow, LEFT, line->left_g, line->left_mm3);
    } else {
        column(&flow, LEFT, line->short_g, line->short_mm3);
        runnel_flow_add(&flow, "short");
    }
    runnel_flow_end(&flow);
    if (line->uncountable) {
        runnel_flow_begin(&flow, out, 4);
        runnel_flow_format(&flow, "%zu %s not counted: its unit says nothing without a density",
                           line->uncountable, line->uncountable == 1 ? "bottle is" : "bottles are");
        runnel_flow_end(&flow);
    }
}

static void write_lines(const runnel_stocking *stocking, FILE *out) {
    runnel_flow flow;
    runnel_flow_begin(&flow, out, NEEDED - 5);
    runnel_flow_add(&flow, "needed");
    runnel_flow_tab(&flow, THERE - 4);
    runnel_flow_add(&flow, "there");
    runnel_flow_tab(&flow, LEFT - 3);
    runnel_flow_add(&flow, "left");
    runnel_flow_end(&flow);
    for (size_t i = 0; i < stocking->answer.count; i++)
        write_line(stocking, &stocking->answer.lines[i], out);
}

static void write_verdict(const runnel_stocking *stocking, FILE *out) {
    const runnel_stock_answer *answer = &stocking->answer;
    runnel_flow flow;
    fputc('\n', out);
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_add(&flow, !answer->count      ? "Nothing is needed."
                           : answer->is_enough ? "There is enough."
                                               : "There is not enough.");
    if (answer->limiting != RUNNEL_STOCK_NONE) {
        const runnel_stock_need *need =
            &stocking->needs.items[answer->lines[answer->limiting].need];
        runnel_flow_add(&flow, answer->times < 1 ? " " : " It makes the job ");
        if (answer->times >= 1)
            runnel_flow_number(&flow, answer->times, 1, "times; ");
        add_name(&flow, need->what, need->part);
        runnel_flow_add(&flow, " runs out first.");
    }
    runnel_flow_end(&flow);
    if (isnan(stocking->largest_g))
        return;
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_add(&flow, "The bottles make ");
    runnel_flow_number(&flow, stocking->largest_g, 1, "g of A + B");
    if (stocking->largest_limiting)
        runnel_flow_format(&flow, ", then %c is empty", stocking->largest_limiting);
    runnel_flow_add(&flow, ".");
    runnel_flow_end(&flow);
}

/* ---- To buy -----------------------------------------------------------------------------------
 */

static void add_pack(runnel_flow *flow, const runnel_stock_item *item) {
    if (!isnan(item->pack_g))
        runnel_bench_plain(flow, item->pack_g, "g");
    else
        runnel_bench_plain(flow, item->pack_mm3 / RUNNEL_MM3_PER_ML, "ml");
}

static void write_purchase(const runnel_stocking *stocking, const runnel_stock_line *line,
                           FILE *out) {
    const runnel_stock_need *need = &stocking->needs.items[line->need];
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 2);
    add_name(&flow, need->what, need->part);
    runnel_flow_add(&flow, ": ");
    if (line->buy == RUNNEL_STOCK_NONE) {
        runnel_flow_add(&flow, "at least ");
        if (isnan(line->short_g))
            runnel_flow_number(&flow, line->short_mm3 / RUNNEL_MM3_PER_ML, 1, "ml");
        else
            runnel_flow_number(&flow, line->short_g, 1, "g");
        runnel_flow_add(&flow, " (the stock tells no pack size)");
    } else {
        runnel_flow_format(&flow, "%zu %s of ", line->packs, line->packs == 1 ? "pack" : "packs");
        add_pack(&flow, &stocking->stock->items[line->buy]);
        if (!isnan(line->buy_cost) && line->currency) {
            runnel_flow_add(&flow, ", ");
            runnel_flow_number(&flow, line->buy_cost, 2, line->currency);
        }
    }
    runnel_flow_end(&flow);
}

static void write_purchases(const runnel_stocking *stocking, FILE *out) {
    if (stocking->answer.is_enough)
        return;
    runnel_finish_heading(out, "To buy");
    for (size_t i = 0; i < stocking->answer.count; i++)
        if (!stocking->answer.lines[i].is_enough)
            write_purchase(stocking, &stocking->answer.lines[i], out);
}

static void write_costs(const runnel_stocking *stocking, FILE *out) {
    const runnel_stock_answer *answer = &stocking->answer;
    if (answer->cost_count)
        runnel_finish_heading(out, "Cost");
    for (size_t i = 0; i < answer->cost_count; i++) {
        const runnel_stock_cost *cost = &answer->costs[i];
        runnel_figures_line(out, "what the job uses", cost->used, 2, cost->currency, "");
        if (stocking->pieces > 1)
            runnel_figures_line(out, "for each piece", cost->used_per_piece, 2, cost->currency, "");
        if (!answer->is_enough)
            runnel_figures_line(out, "what is to be bought", cost->buy, 2, cost->currency, "");
    }
    if (answer->cost_count && answer->unpriced) {
        runnel_flow flow;
        runnel_flow_begin(&flow, out, RUNNEL_FIGURES_LABEL);
        runnel_flow_format(&flow, "without %zu of the above, whose price is not told",
                           answer->unpriced);
        runnel_flow_end(&flow);
    }
}

/* ---- The bottles ------------------------------------------------------------------------------
 */

static bool is_grams(const runnel_stock_item *item) {
    return !isnan(item->amount_g);
}

static double amount_of(const runnel_stock_item *item) {
    return is_grams(item) ? item->amount_g : item->amount_mm3;
}

static void write_bottles(const runnel_stocking *stocking, bool taken_out, FILE *out) {
    const runnel_stock *stock = stocking->stock;
    bool any = false;
    for (size_t i = 0; i < stock->count && stocking->answer.is_enough; i++) {
        const runnel_stock_item *item = &stock->items[i];
        const double before = amount_of(item), after = stocking->answer.left[i];
        const double unit = is_grams(item) ? 1 : RUNNEL_MM3_PER_ML;
        runnel_flow flow;
        if (!(before > after))
            continue;
        if (!any)
            runnel_finish_heading(out,
                                  taken_out ? "Taken out of the stock" : "The bottles after it");
        any = true;
        runnel_flow_begin(&flow, out, 2);
        add_name(&flow, item->what, item->part);
        runnel_flow_add(&flow, *item->opened ? ", opened " : "");
        runnel_flow_add(&flow, item->opened);
        runnel_flow_aligned(&flow, THERE, before / unit, DIGITS, DIGITS,
                            is_grams(item) ? "g" : "ml");
        runnel_flow_aligned(&flow, LEFT, after / unit, DIGITS, DIGITS, is_grams(item) ? "g" : "ml");
        runnel_flow_end(&flow);
    }
    if (any && !taken_out)
        runnel_layout_paragraph(out, 2,
                                "The file still says what it said; --take-out writes this down.");
}

runnel_status runnel_write_stock_text(const runnel_job *job, const runnel_stocking *stocking,
                                      bool taken_out, FILE *out) {
    runnel_finish_head(out, "Stock", job, &stocking->plan);
    write_lines(stocking, out);
    write_verdict(stocking, out);
    write_purchases(stocking, out);
    write_costs(stocking, out);
    write_bottles(stocking, taken_out, out);
    return runnel_layout_close(out);
}
