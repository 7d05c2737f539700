/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/units.h"
#include "runnel/write_finish.h"
#include "write/finish_lines.h"

#include <math.h>

static const char *part_name(char part) {
    return part == 'A' ? "A (resin)" : "B (hardener)";
}

static char other_of(char part) {
    return part == 'A' ? 'B' : 'A';
}

/* A mass as the scale shows it. */
static void add_mass(runnel_flow *flow, const runnel_rescue_report *report, double mass_g,
                     const char *unit) {
    int decimals = runnel_bench_decimals(&report->job->scale);
    runnel_flow_number(flow, mass_g, decimals > 1 ? decimals : 1, unit);
}

/* ---- What is in the cup -----------------------------------------------------------------------
 */

static void write_basis(const runnel_rescue_report *report, FILE *out) {
    const runnel_resin *resin = &report->job->resin;
    runnel_flow flow;
    runnel_finish_basis(&flow, out, "resin");
    runnel_flow_add(&flow, resin->name);
    runnel_flow_add(&flow, report->job->resin_changed ? ", with values of its own" : "");
    runnel_flow_add(&flow, report->job->resin_is_default ? " (not given, so taken)" : "");
    runnel_flow_end(&flow);
    runnel_finish_basis(&flow, out, "ratio");
    runnel_bench_ratios(&flow, &resin->ratio, &report->mix.mixture);
    runnel_flow_end(&flow);
    runnel_finish_basis(&flow, out, "bears");
    runnel_flow_add(&flow, "B to A ");
    runnel_bench_plain(&flow, 100 * report->mix.tolerance, "% too much or too little");
    runnel_flow_end(&flow);
}

static void write_part(const runnel_rescue_report *report, const char *label, double mass_g,
                       const runnel_dose *dose, FILE *out) {
    int decimals = runnel_bench_decimals(&report->job->scale);
    runnel_flow flow;
    runnel_figures_number(&flow, out, label, mass_g, decimals > 1 ? decimals : 1, "g");
    if (dose->unit == RUNNEL_DOSE_STROKES) {
        runnel_bench_plain(&flow, dose->amount, dose->amount == 1 ? "stroke of" : "strokes of");
        runnel_flow_add(&flow, RUNNEL_STICK);
        runnel_bench_plain(&flow, dose->stroke_ml, "ml");
    } else if (dose->unit == RUNNEL_DOSE_ML) {
        runnel_bench_plain(&flow, dose->amount, "ml");
    }
    runnel_flow_end(&flow);
}

static void write_cup(const runnel_rescue_report *report, FILE *out) {
    const runnel_rescue *rescue = &report->rescue;
    runnel_flow flow;
    runnel_finish_heading(out, "In the cup");
    write_part(report, "part A (resin)", rescue->part_a_g, &report->mix.part_a, out);
    write_part(report, "part B (hardener)", rescue->part_b_g, &report->mix.part_b, out);
    if (rescue->part_a_g > 0) {
        runnel_figures_start(&flow, out, "that is");
        runnel_flow_tab(&flow, RUNNEL_FIGURES_POINT - 5);
        runnel_flow_add(&flow, "100:");
        runnel_flow_number(&flow, 100 * rescue->part_b_g / rescue->part_a_g, 2, "by weight");
        runnel_flow_end(&flow);
        runnel_figures_line(out, "B to A is off by", 100 * fabs(rescue->ratio_error), 1, "%",
                            rescue->ratio_error < 0 ? "too little hardener" : "too much hardener");
    }
}

/* ---- What to do -------------------------------------------------------------------------------
 */

static void write_addition(const runnel_rescue_report *report, FILE *out) {
    const runnel_rescue *rescue = &report->rescue;
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 2);
    runnel_flow_add(&flow, "Add ");
    add_mass(&flow, report, rescue->add_g, "g of ");
    runnel_flow_add(&flow, part_name(rescue->lacking));
    runnel_flow_add(&flow, ", ");
    runnel_flow_number(&flow, rescue->add_ml, 1, "ml");
    if (!isnan(rescue->add_strokes)) {
        runnel_flow_add(&flow, " or ");
        runnel_flow_number(&flow, rescue->add_strokes, 2, "strokes");
    }
    runnel_flow_add(&flow, ", and stir it in well.");
    runnel_flow_end(&flow);
    runnel_flow_begin(&flow, out, 2);
    runnel_flow_add(&flow, "At least ");
    add_mass(&flow, report, rescue->least_g, "g");
    runnel_flow_add(&flow, " must go in.");
    if (rescue->part_a_g > 0 && rescue->part_b_g > 0)
        runnel_flow_add(&flow, " The pot life has begun, so be quick.");
    runnel_flow_end(&flow);
}

static void write_after(const runnel_rescue_report *report, FILE *out) {
    const runnel_rescue *rescue = &report->rescue;
    int decimals = runnel_bench_decimals(&report->job->scale);
    runnel_flow flow;
    fputc('\n', out);
    runnel_figures_number(&flow, out, "then A + B in the cup", rescue->total_g,
                          decimals > 1 ? decimals : 1, "g");
    runnel_flow_number(&flow, rescue->total_ml, 1, "ml");
    runnel_flow_end(&flow);
    runnel_figures_line(out, "B to A is off by", 100 * fabs(rescue->ratio_error_after), 1, "%", "");
    if (!isnan(rescue->over_wanted_g))
        runnel_figures_line(out, "against what was wanted", fabs(rescue->over_wanted_g),
                            decimals > 1 ? decimals : 1, "g",
                            rescue->over_wanted_g < 0 ? "short" : "more");
}

static void write_limits(const runnel_rescue_report *report, FILE *out) {
    static const struct {
        unsigned bit;
        const char *text;
    } rows[] = {
        {RUNNEL_RESCUE_STOCK, "there is not enough left in the bottle: look for another one"},
        {RUNNEL_RESCUE_ROOM, "the cup is too small: pour it over into a larger one first"},
        {RUNNEL_RESCUE_MASS, "so much in one cup heats itself: divide it into two cups first, and "
                             "add half to each"},
        {RUNNEL_RESCUE_SCALE, "the scale is too coarse for so little: take a finer one"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (report->rescue.limits & rows[i].bit)
            runnel_finish_item(out, "-", rows[i].text);
}

static void write_not(const runnel_rescue_report *report, FILE *out) {
    const runnel_rescue *rescue = &report->rescue;
    const char lacking = rescue->lacking;
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 2);
    runnel_flow_add(&flow, "It cannot be put right: ");
    add_mass(&flow, report, rescue->exact_g, "g");
    runnel_flow_format(&flow, " of %c would have to be added, at least ", lacking);
    add_mass(&flow, report, rescue->least_g, "g");
    runnel_flow_add(&flow, ", and");
    runnel_flow_end(&flow);
    write_limits(report, out);
    runnel_flow_begin(&flow, out, 2);
    runnel_flow_format(&flow, "What there is of %c serves ", lacking);
    add_mass(&flow, report, rescue->serves_g, "g");
    runnel_flow_format(&flow, " of %c, ", other_of(lacking));
    add_mass(&flow, report, rescue->right_g, "g");
    runnel_flow_add(&flow, " in all; ");
    add_mass(&flow, report, rescue->excess_g, "g");
    runnel_flow_format(&flow, " of %c are too much, and nothing can be taken out of a mix.",
                       other_of(lacking));
    runnel_flow_end(&flow);
    runnel_layout_paragraph(out, 2,
                            "Do not pour it: it stays soft or sticky. Let it go off in the open, "
                            "spread out thin, on what cannot burn.");
}

static void write_verdict(const runnel_rescue_report *report, FILE *out) {
    const runnel_rescue *rescue = &report->rescue;
    runnel_finish_heading(out, "What to do");
    switch (rescue->verdict) {
    case RUNNEL_RESCUE_FINE:
        runnel_layout_paragraph(out, 2, "Nothing: it is within what the resin bears. Stir well.");
        return;
    case RUNNEL_RESCUE_ADD:
        write_addition(report, out);
        break;
    case RUNNEL_RESCUE_NEARLY:
        write_addition(report, out);
        runnel_layout_paragraph(out, 2, "That is not all, but enough for the resin:");
        write_limits(report, out);
        break;
    case RUNNEL_RESCUE_NOT:
        write_not(report, out);
        return;
    }
    write_after(report, out);
}

static void write_warnings(const runnel_rescue_report *report, FILE *out) {
    if (report->rescue.warnings)
        runnel_finish_heading(out, "For the next time");
    if (report->rescue.warnings & RUNNEL_RESCUE_METERED_TWICE)
        runnel_finish_item(out, "-",
                           "The pumps give the ratio by one stroke of each. With the ratio in "
                           "strokes as well it is applied twice: pump as often from either.");
    if (report->rescue.warnings & RUNNEL_RESCUE_FEW_STROKES)
        runnel_finish_item(out, "-",
                           "So few strokes are too few to trust, as a bubble in one is a large "
                           "share of them: weigh such a batch.");
}

runnel_status runnel_write_rescue_text(const runnel_rescue_report *report, FILE *out) {
    runnel_layout_paragraph(out, 0, "A mix that was weighed wrongly");
    write_basis(report, out);
    write_cup(report, out);
    write_verdict(report, out);
    write_warnings(report, out);
    return runnel_layout_close(out);
}
