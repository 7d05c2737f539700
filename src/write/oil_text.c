/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/utf8.h"
#include "runnel/units.h"
#include "runnel/write_finish.h"
#include "write/finish_lines.h"

#include <math.h>

static const double mm2_per_cm2 = 100;

static double ml(double volume_mm3) {
    return volume_mm3 / RUNNEL_MM3_PER_ML;
}

static bool is_taken(const runnel_oiling_plan *oiling, runnel_oiling_taken what) {
    return (oiling->taken & what) != 0;
}

/* ---- What it is worked out with ---------------------------------------------------------------
 */

static void write_taken(const runnel_oiling_plan *oiling, FILE *out) {
    static const struct {
        runnel_oiling_taken bit;
        const char *text;
    } words[] = {{RUNNEL_TAKEN_OIL, "the oil"},
                 {RUNNEL_TAKEN_UPTAKE, "what a coat takes"},
                 {RUNNEL_TAKEN_END_GRAIN, "what end grain takes"},
                 {RUNNEL_TAKEN_OIL_COATS, "the coats"},
                 {RUNNEL_TAKEN_WASTE, "the waste"}};
    const char *between = "Not given, so taken: ";
    bool any = false;
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 0);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        if (!is_taken(oiling, words[i].bit))
            continue;
        runnel_flow_add(&flow, between);
        runnel_flow_add(&flow, words[i].text);
        between = ", ";
        any = true;
    }
    if (!any)
        return;
    runnel_flow_add(&flow, ".");
    runnel_flow_end(&flow);
    fputc('\n', out);
}

static void write_uptake(const runnel_oiling_plan *oiling, FILE *out) {
    const runnel_oil *oil = oiling->oil;
    runnel_flow flow;
    runnel_finish_basis(&flow, out, "a coat");
    runnel_flow_number(&flow, 1000 * oiling->oiling.uptake_mm, 0, "ml/m2 on face grain");
    if (is_taken(oiling, RUNNEL_TAKEN_UPTAKE)) {
        runnel_flow_add(&flow, " (");
        if (isfinite(oil->uptake_low_ml_per_m2) && isfinite(oil->uptake_high_ml_per_m2)) {
            runnel_flow_number(&flow, oil->uptake_low_ml_per_m2, 0, "to");
            runnel_flow_add(&flow, RUNNEL_STICK);
            runnel_flow_number(&flow, oil->uptake_high_ml_per_m2, 0, "");
            runnel_flow_add(&flow, ", ");
        }
        runnel_flow_add(&flow, oil->uptake_sure);
        runnel_flow_add(&flow, ")");
    }
    runnel_flow_end(&flow);
    runnel_finish_basis(&flow, out, "end grain");
    runnel_bench_plain(&flow, oiling->oiling.end_factor, "times as much");
    runnel_flow_add(&flow, is_taken(oiling, RUNNEL_TAKEN_END_GRAIN)
                               ? " (a convention: weigh the bottle to learn your own)"
                               : "");
    runnel_flow_end(&flow);
}

static void write_basis(const runnel_oiling_plan *oiling, FILE *out) {
    runnel_flow flow;
    runnel_layout_paragraph(out, 0, "Worked out with");
    runnel_finish_basis(&flow, out, "oil");
    runnel_flow_add(&flow, oiling->oil->name);
    runnel_flow_add(&flow, oiling->oil->dries ? ", which dries" : ", which stays wet");
    runnel_flow_end(&flow);
    write_uptake(oiling, out);
    runnel_finish_basis(&flow, out, "coats");
    runnel_flow_format(&flow, "%zu", oiling->oiling.coats);
    if (oiling->oiling.fall > 0) {
        runnel_flow_add(&flow, ", each ");
        runnel_bench_plain(&flow, 100 * oiling->oiling.fall, "% less than the one before");
    }
    runnel_flow_end(&flow);
    runnel_finish_basis(&flow, out, "waste");
    runnel_bench_plain(&flow, 100 * oiling->oiling.waste, "% in brush and rag");
    runnel_flow_end(&flow);
}

/* ---- Areas and amounts ------------------------------------------------------------------------
 */

static void area(FILE *out, const char *label, double area_mm2, const char *note) {
    if (area_mm2 > 0)
        runnel_figures_line(out, label, area_mm2 / mm2_per_cm2, 1, "cm2", note);
}

static void write_coats(const runnel_oiling_plan *oiling, const runnel_oil_need *need, FILE *out) {
    const size_t coats = oiling->oiling.coats;
    char label[40];
    runnel_figures_line(out, "first coat", ml(need->first_mm3), 1, "ml", "");
    if (coats < 2)
        return;
    if (oiling->oiling.fall > 0)
        runnel_figures_line(out, "last coat", ml(need->last_mm3), 1, "ml", "");
    snprintf(label, sizeof label, "%zu coats", coats);
    runnel_figures_line(out, label, ml(need->all_mm3), 1, "ml", "");
}

static void write_part(const runnel_oiling_plan *oiling, const runnel_oiling_part *part,
                       FILE *out) {
    const runnel_oil_area *of = &part->area;
    runnel_flow flow;
    fputc('\n', out);
    runnel_flow_begin(&flow, out, 2);
    runnel_flow_add(&flow, part->piece);
    if (part->count > 1)
        runnel_flow_format(&flow, ", each of %zu" RUNNEL_STICK "pieces", part->count);
    runnel_flow_end(&flow);
    area(out, "face grain", of->face_mm2, "");
    area(out, "end grain", of->end_mm2, "");
    area(out, "of that chamfers", of->chamfer_mm2, "");
    area(out, "of that in recesses", of->wall_mm2, "");
    area(out, "resin, left out", of->resin_mm2, "");
    if (of->juice_mm3 > 0)
        runnel_figures_line(out, "the groove holds", ml(of->juice_mm3), 0, "ml", "brim-full");
    write_coats(oiling, &part->one, out);
}

static void write_all(const runnel_oiling_plan *oiling, FILE *out) {
    const runnel_oil_need *all = &oiling->all;
    size_t pieces = 0;
    runnel_flow flow;
    for (size_t i = 0; i < oiling->part_count; i++)
        pieces += oiling->parts[i].count;
    if (pieces > 1) {
        fputc('\n', out);
        runnel_layout_paragraph(out, 2, "all pieces");
        area(out, "face grain", oiling->face_mm2, "");
        area(out, "end grain", oiling->end_mm2, "");
        write_coats(oiling, all, out);
    }
    runnel_figures_number(&flow, out, "that is", ml(all->all_mm3) * oiling->oil->density_g_per_ml,
                          1, "g");
    runnel_flow_number(&flow, oiling->oil->density_g_per_ml, 2, "g/ml");
    runnel_flow_end(&flow);
    runnel_figures_line(out, "of that waste", ml(all->waste_mm3), 1, "ml", "");
}

static void write_wax(const runnel_oiling_plan *oiling, FILE *out) {
    const runnel_wax_batch *melt = &oiling->melt;
    runnel_flow flow;
    if (!oiling->wax)
        return;
    fputc('\n', out);
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_add(&flow, "Wax, last of all: melt together for ");
    runnel_flow_format(&flow, "%zu %s", oiling->wax_coats,
                       oiling->wax_coats == 1 ? "thin coat" : "thin coats");
    runnel_flow_end(&flow);
    runnel_figures_number(&flow, out, oiling->oil->name, melt->oil_g, 1, "g");
    runnel_flow_add(&flow, "or ");
    runnel_flow_number(&flow, ml(melt->oil_mm3), 1, "ml");
    runnel_flow_end(&flow);
    runnel_figures_line(out, oiling->wax->name, melt->wax_g, 1, "g", "");
    runnel_figures_number(&flow, out, "makes", melt->total_g, 1, "g");
    runnel_flow_number(&flow, oiling->blend.oil_per_wax, 2,
                       "parts of oil to one of wax, by weight");
    runnel_flow_end(&flow);
    runnel_figures_start(&flow, out, "it melts at about");
    runnel_flow_tab(&flow, RUNNEL_FIGURES_POINT - 2);
    runnel_flow_number(&flow, oiling->wax->melts_low_degc, 0, "to");
    runnel_flow_add(&flow, RUNNEL_STICK);
    runnel_flow_number(&flow, oiling->wax->melts_high_degc, 0, RUNNEL_DEGC);
    runnel_flow_end(&flow);
    if (oiling->oil->dries)
        runnel_layout_paragraph(out, RUNNEL_FIGURES_LABEL,
                                "Not before the oil is cured: see the times.");
}

/* ---- Times ------------------------------------------------------------------------------------
 */

static void write_times(const runnel_oiling_plan *oiling, FILE *out) {
    const runnel_oil *oil = oiling->oil;
    const runnel_oil_times *times = &oiling->times;
    const bool several = oiling->oiling.coats > 1;
    runnel_finish_heading(out, "Times");
    runnel_finish_times(out, "wiped dry after", oil->soak_s, oil->soak_s, "");
    if (several)
        runnel_finish_times(out, "coat to coat", oil->between_s, oil->between_s, "");
    if (!oiling->times_known)
        return;
    if (several)
        runnel_finish_times(out, "last coat", times->last_coat_s, times->last_coat_s,
                            "after the first one");
    if (oil->dries)
        runnel_finish_times(out, "cured, ready for use", times->cured_s, times->cured_s,
                            "after the first coat");
}

static void write_food(const runnel_oiling_plan *oiling, FILE *out) {
    if (!oiling->oil->food || !*oiling->oil->food)
        return;
    runnel_finish_heading(out, "Where food touches it");
    runnel_layout_paragraph(out, 2, oiling->oil->food);
}

runnel_status runnel_write_oil_text(const runnel_job *job, const runnel_oiling_plan *oiling,
                                    FILE *out) {
    runnel_finish_head(out, "Oiling", job, &oiling->plan);
    write_taken(oiling, out);
    write_basis(oiling, out);
    runnel_finish_heading(out, "Wood and oil");
    for (size_t i = 0; i < oiling->part_count; i++)
        write_part(oiling, &oiling->parts[i], out);
    write_all(oiling, out);
    write_times(oiling, out);
    write_wax(oiling, out);
    write_food(oiling, out);
    runnel_finish_order(out, &oiling->order, &oiling->faults,
                        is_taken(oiling, RUNNEL_TAKEN_OIL_ORDER));
    runnel_finish_cautions(out, oiling->steps, oiling->cases);
    return runnel_layout_close(out);
}
