/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/utf8.h"
#include "runnel/units.h"
#include "write/bench.h"
#include "write/list.h"

#include <math.h>
#include <string.h>

enum { LABEL = 12, CUTTER = 24 };

/* A number as behind a label, with what stands before it; nothing when it is not known. */
static void add_known(runnel_flow *flow, const char *before, double value, const char *unit) {
    if (!isfinite(value))
        return;
    runnel_flow_add(flow, before);
    runnel_bench_plain(flow, value, unit);
}

static void add_time(runnel_flow *flow, const char *before, double seconds) {
    if (!isfinite(seconds))
        return;
    runnel_flow_add(flow, before);
    runnel_bench_time(flow, seconds);
}

static void labelled(runnel_flow *flow, FILE *out, const char *label) {
    runnel_flow_begin(flow, out, 2);
    runnel_flow_add(flow, label);
    runnel_flow_tab(flow, LABEL);
}

/* ---- Resins -----------------------------------------------------------------------------------
 */

static void write_ratio(const runnel_resin *resin, FILE *out) {
    runnel_flow flow;
    runnel_mixture mixture;
    labelled(&flow, out, "ratio");
    if (runnel_mixture_of(&resin->ratio, resin->density_a_g_per_ml, resin->density_b_g_per_ml,
                          &mixture)) {
        runnel_bench_ratio(&flow, &resin->ratio);
    } else {
        runnel_bench_ratios(&flow, &resin->ratio, &mixture);
    }
    add_known(&flow, ", within ", 100 * resin->ratio_tolerance, "%");
    runnel_flow_end(&flow);
}

static void write_times(const runnel_resin *resin, FILE *out) {
    runnel_flow flow;
    labelled(&flow, out, "times");
    add_known(&flow, "at ", resin->stated_degc, RUNNEL_DEGC ":");
    add_time(&flow, " pot life ", resin->pot_life_s);
    add_known(&flow, " for ", resin->pot_mass_g, "g");
    add_time(&flow, ", gel ", resin->gel_s);
    add_time(&flow, ", recoat from ", resin->recoat_from_s);
    add_time(&flow, " until ", resin->recoat_until_s);
    add_time(&flow, ", sandable ", resin->sandable_s);
    add_time(&flow, ", full cure ", resin->full_cure_s);
    runnel_flow_end(&flow);
}

static void write_resin(const void *row, FILE *out) {
    const runnel_resin *resin = &((const runnel_resin_row *)row)->resin;
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_add(&flow, resin->name);
    runnel_flow_add(&flow, " (");
    runnel_flow_add(&flow, resin->kind);
    runnel_flow_add(&flow, ")");
    runnel_flow_end(&flow);
    write_ratio(resin, out);
    labelled(&flow, out, "density");
    add_known(&flow, "A ", resin->density_a_g_per_ml, "g/ml,");
    add_known(&flow, " B ", resin->density_b_g_per_ml, "g/ml");
    runnel_flow_end(&flow);
    write_times(resin, out);
    labelled(&flow, out, "limits");
    runnel_flow_add(&flow, "tint");
    add_known(&flow, " ", 100 * resin->tint_default, "%,");
    add_known(&flow, " at most ", 100 * resin->tint_cap, "%");
    add_known(&flow, ", shop from ", resin->lowest_degc, RUNNEL_DEGC);
    add_known(&flow, ", layers to ", resin->deepest_layer_mm, "mm");
    add_known(&flow, ", to ", resin->largest_mass_g, "g at a time");
    runnel_flow_end(&flow);
    labelled(&flow, out, "mix");
    add_known(&flow, "viscosity ", resin->viscosity_pa_s, "Pa" RUNNEL_STICK "s,");
    add_known(&flow, " shrinks by ", 100 * resin->shrinkage, "%");
    runnel_flow_end(&flow);
    fputc('\n', out);
}

/* ---- Cutters ----------------------------------------------------------------------------------
 */

static void write_cutter(const void *row, FILE *out) {
    const runnel_cutter_row *cutter = row;
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_add(&flow, cutter->name);
    runnel_flow_tab(&flow, CUTTER);
    runnel_flow_add(&flow, runnel_cutter_word(cutter->cutter.kind));
    if (cutter->cutter.kind == RUNNEL_CUTTER_V) {
        add_known(&flow, " ", cutter->cutter.angle_deg, "deg");
        if (cutter->cutter.tip_mm > 0)
            add_known(&flow, ", tip ", cutter->cutter.tip_mm, "mm");
        else
            runnel_flow_add(&flow, ", sharp");
        add_known(&flow, ", body ", cutter->diameter_mm, "mm");
    } else {
        add_known(&flow, " diameter ", cutter->diameter_mm, "mm");
    }
    runnel_flow_end(&flow);
}

/* ---- Woods, oils, fonts
 * --------------------------------------------------------------------------
 */

static void write_wood(const void *row, FILE *out) {
    const runnel_wood *wood = row;
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_add(&flow, wood->name);
    runnel_flow_add(&flow, *wood->also ? ", also " : "");
    runnel_flow_add(&flow, wood->also);
    runnel_flow_add(&flow, *wood->botanical ? " (" : "");
    runnel_flow_add(&flow, wood->botanical);
    runnel_flow_add(&flow, *wood->botanical ? ")" : "");
    runnel_flow_end(&flow);
    labelled(&flow, out, "density");
    runnel_bench_plain(&flow, wood->density_kg_per_m3, "kg/m3,");
    runnel_flow_add(&flow, wood->open_pored ? " open pores" : " closed pores");
    runnel_flow_end(&flow);
    labelled(&flow, out, "soaks up");
    runnel_bench_plain(&flow, wood->soak_bare_ml_per_m2, "ml/m2 bare,");
    add_known(&flow, " ", wood->soak_sealed_ml_per_m2, "ml/m2 sealed (");
    runnel_flow_add(&flow, wood->soak_sure);
    runnel_flow_add(&flow, ")");
    runnel_flow_end(&flow);
    if (isfinite(wood->shrinkage_radial_percent) && isfinite(wood->shrinkage_tangential_percent)) {
        labelled(&flow, out, "shrinks by");
        runnel_bench_plain(&flow, wood->shrinkage_radial_percent, "% radially,");
        add_known(&flow, " ", wood->shrinkage_tangential_percent,
                  "% tangentially, green to oven-dry");
        runnel_flow_end(&flow);
    }
    fputc('\n', out);
}

static void add_stage(runnel_flow *flow, double every_s, double times) {
    if (!(times > 0) || !isfinite(every_s))
        return;
    runnel_bench_plain(flow, every_s / 86400, "days,");
    runnel_flow_add(flow, " ");
    runnel_bench_plain(flow, times, "times, then ");
}

static void write_rule(const void *row, FILE *out) {
    const runnel_upkeep_rule *rule = &((const runnel_upkeep_row *)row)->rule;
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_add(&flow, rule->name);
    runnel_flow_end(&flow);
    labelled(&flow, out, "every");
    add_stage(&flow, rule->first_s, rule->first_times);
    add_stage(&flow, rule->second_s, rule->second_times);
    runnel_bench_plain(&flow, rule->steady_s / 86400, "days");
    add_time(&flow, "; not before ", rule->wait_s);
    runnel_flow_end(&flow);
    labelled(&flow, out, "beside");
    runnel_bench_plain(&flow, 100 * rule->share, "% of a first coat");
    add_known(&flow, ", ", rule->coat_ml_per_m2, "ml/m2");
    add_time(&flow, "; looked over after ", rule->look_s);
    add_time(&flow, "; sanded after ", rule->sand_s);
    runnel_flow_end(&flow);
    labelled(&flow, out, "times");
    runnel_bench_plain(&flow, rule->wiped, "wiped,");
    add_known(&flow, " ", rule->scrubbed, "scrubbed,");
    add_known(&flow, " ", rule->open_pores, "open pores,");
    add_known(&flow, " ", rule->beads, "water beads,");
    add_known(&flow, " ", rule->soaks_in, "it soaks in");
    runnel_flow_end(&flow);
    fputc('\n', out);
}

static void write_work(const void *row, FILE *out) {
    const runnel_work_row *work = row;
    const double minute_s = 60;
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 2);
    runnel_flow_add(&flow, work->name);
    runnel_flow_tab(&flow, 15);
    runnel_bench_plain(&flow, work->setup_s / minute_s, "min, and");
    runnel_flow_add(&flow, " ");
    runnel_bench_plain(&flow, work->each_s / minute_s, "min a piece, once for ");
    runnel_flow_add(&flow, work->once_for);
    runnel_flow_add(&flow, work->divides ? "; may be left and taken up again" : "");
    runnel_flow_end(&flow);
}

static void write_oil(const void *row, FILE *out) {
    const runnel_oil *oil = &((const runnel_oil_row *)row)->oil;
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_add(&flow, oil->name);
    runnel_flow_add(&flow, oil->dries ? ", dries" : ", stays wet");
    runnel_flow_add(&flow, oil->nut ? ", of nuts or what is called so" : "");
    runnel_flow_end(&flow);
    labelled(&flow, out, "a coat");
    runnel_bench_plain(&flow, oil->uptake_ml_per_m2, "ml/m2");
    add_known(&flow, " (", oil->uptake_low_ml_per_m2, "to");
    add_known(&flow, RUNNEL_STICK, oil->uptake_high_ml_per_m2, "ml/m2)");
    runnel_flow_add(&flow, " (");
    runnel_flow_add(&flow, oil->uptake_sure);
    runnel_flow_add(&flow, "), on end grain ");
    runnel_bench_plain(&flow, oil->end_grain_factor, "times as much");
    runnel_flow_end(&flow);
    labelled(&flow, out, "coats");
    runnel_bench_plain(&flow, oil->coats, "");
    add_time(&flow, ", wiped off after ", oil->soak_s);
    add_time(&flow, ", ", oil->between_s);
    runnel_flow_add(&flow, isfinite(oil->between_s) ? " apart" : "");
    add_time(&flow, ", cured after ", oil->full_cure_s);
    runnel_flow_end(&flow);
    if (oil->food && *oil->food) {
        labelled(&flow, out, "food");
        runnel_flow_add(&flow, oil->food);
        runnel_flow_end(&flow);
    }
    fputc('\n', out);
}

static void write_font(const void *row, FILE *out) {
    const runnel_font_entry *font = row;
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_add(&flow, font->family);
    runnel_flow_tab(&flow, 2);
    runnel_flow_end(&flow);
    runnel_layout_paragraph(out, 2, font->styles);
    runnel_layout_paragraph(out, 2, font->file);
}

/* ---- Sources ----------------------------------------------------------------------------------
 */

static const char *text_of(const runnel_list *list, size_t row, const char *key) {
    size_t count;
    const runnel_list_column *columns = runnel_list_columns(list->kind, &count);
    for (size_t i = 0; i < count; i++)
        if (!strcmp(columns[i].key, key))
            return runnel_list_text(&columns[i], runnel_list_row(list, row));
    return "";
}

static bool same_source(const runnel_list *list, size_t one, size_t other) {
    static const char *const keys[] = {"source", "date", "sure", "file"};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        if (strcmp(text_of(list, one, keys[i]), text_of(list, other, keys[i])) != 0)
            return false;
    return true;
}

/* Each source once, with the rows that have it. */
static void write_sources(const runnel_list *list, FILE *out) {
    size_t rows = runnel_list_rows(list);
    runnel_layout_paragraph(out, 0, "Sources");
    for (size_t i = 0; i < rows; i++) {
        runnel_flow flow;
        bool told = false;
        for (size_t k = 0; k < i && !told; k++)
            told = same_source(list, i, k);
        if (told)
            continue;
        runnel_flow_begin(&flow, out, 2);
        for (size_t k = i; k < rows; k++) {
            if (!same_source(list, i, k))
                continue;
            runnel_flow_add(&flow, k == i ? "" : ", ");
            runnel_flow_add(&flow, text_of(list, k, "name"));
        }
        runnel_flow_add(&flow, ":");
        runnel_flow_tab(&flow, 4);
        const char *const parts[] = {
            text_of(list, i, "source"), " [", text_of(list, i, "sure"), ", ",
            text_of(list, i, "date"),   ", ", text_of(list, i, "file"), "]"};
        for (size_t k = 0; k < sizeof parts / sizeof *parts; k++)
            runnel_flow_add(&flow, parts[k]);
        runnel_flow_end(&flow);
    }
}

/* ---- Lists ------------------------------------------------------------------------------------
 */

runnel_status runnel_write_list_text(const runnel_list *list, FILE *out) {
    static const struct {
        void (*row)(const void *row, FILE *out);
        const char *none;
    } ways[RUNNEL_LIST_COUNT] = {[RUNNEL_LIST_RESINS] = {write_resin, "no resins"},
                                 [RUNNEL_LIST_CUTTERS] = {write_cutter, "no cutters"},
                                 [RUNNEL_LIST_WOODS] = {write_wood, "no woods"},
                                 [RUNNEL_LIST_OILS] = {write_oil, "no oils"},
                                 [RUNNEL_LIST_UPKEEP] = {write_rule, "no rules of upkeep"},
                                 [RUNNEL_LIST_WORK] = {write_work, "no work"},
                                 [RUNNEL_LIST_FONTS] = {write_font, "no fonts with outlines"}};
    size_t rows = runnel_list_rows(list);
    for (size_t i = 0; i < rows; i++)
        ways[list->kind].row(runnel_list_row(list, i), out);
    if (!rows)
        runnel_layout_paragraph(out, 0, ways[list->kind].none);
    else if (list->kind != RUNNEL_LIST_FONTS) {
        if (list->kind == RUNNEL_LIST_CUTTERS || list->kind == RUNNEL_LIST_WORK)
            fputc('\n', out);
        write_sources(list, out);
    }
    return runnel_layout_close(out);
}
