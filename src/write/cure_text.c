/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/utf8.h"
#include "runnel/units.h"
#include "runnel/write_cure.h"
#include "write/bench.h"
#include "write/cure_doc.h"

#include <math.h>

/* Farther from the stated temperature than this the times are rough, whatever the rule. */
static const double far_k = 15;

/* A board that warms up by more until the gel lets out air that shows (common practice). */
static const double rise_of_bubbles_k = 2;

static void add_degc(runnel_flow *flow, const char *before, double degc) {
    runnel_flow_add(flow, before);
    runnel_bench_plain(flow, round(10 * degc) / 10, RUNNEL_DEGC);
}

static void add_clock(runnel_flow *flow, double hour) {
    int minutes = (int)floor(60 * hour + 0.5);
    runnel_flow_format(flow, "%02d:%02d", minutes / 60, minutes % 60);
}

/* ---- Worked out with ----------------------------------------------------------------------- */

static void write_temperature(const runnel_cure_report *report, runnel_doc *doc) {
    const runnel_swing *swing = &report->swing;
    char stamp[RUNNEL_STAMP_SIZE];
    runnel_flow flow;
    runnel_doc_say(doc, &flow);
    if (report->over == RUNNEL_CURE_OVER_CONSTANT) {
        add_degc(&flow, "", report->job->shop_degc);
        runnel_flow_add(&flow, ", day and night");
    } else if (report->over == RUNNEL_CURE_OVER_SWING) {
        add_degc(&flow, "", report->cure.coldest_degc);
        add_degc(&flow, " to ", report->cure.warmest_degc);
        runnel_flow_add(&flow, " each day, warmest at ");
        add_clock(&flow, swing->warmest_at_hour);
        runnel_flow_add(&flow, "; poured at ");
        add_clock(&flow, swing->poured_at_hour);
    } else {
        runnel_flow_format(&flow, "%zu readings, from ", report->log_count);
        add_degc(&flow, "", report->cure.coldest_degc);
        add_degc(&flow, " to ", report->cure.warmest_degc);
        runnel_flow_add(&flow, " after the pour; poured ");
        runnel_flow_add(&flow, runnel_stamp_text(&report->poured, stamp));
    }
    runnel_doc_said(doc, RUNNEL_DOC_ENTRY, "temperature", &flow);
}

static void write_basis(const runnel_cure_report *report, runnel_doc *doc) {
    const runnel_resin *resin = &report->job->resin;
    runnel_flow flow;
    runnel_doc_say(doc, &flow);
    runnel_flow_add(&flow, resin->name);
    runnel_flow_add(&flow, report->job->resin_changed ? ", with values of its own" : "");
    runnel_flow_add(&flow, report->job->resin_is_default ? " (not given, so taken)" : "");
    add_degc(&flow, "; its times hold at ", report->law.stated_degc);
    runnel_doc_said(doc, RUNNEL_DOC_ENTRY, "resin", &flow);
    write_temperature(report, doc);
    runnel_doc_say(doc, &flow);
    if (report->law.rule == RUNNEL_CURE_DOUBLING) {
        runnel_flow_add(&flow, "twice as fast for 10 " RUNNEL_DEGC " more");
    } else {
        runnel_flow_add(&flow, "activation energy of ");
        runnel_bench_plain(&flow, report->law.activation_kj_per_mol, "kJ/mol");
        runnel_flow_add(&flow, report->law.energy_is_usual ? " (not given, so the usual one)" : "");
    }
    runnel_doc_said(doc, RUNNEL_DOC_ENTRY, "rule", &flow);
}

/* ---- The moments --------------------------------------------------------------------------- */

static void add_when(runnel_flow *flow, const runnel_cure_report *report, double reached_s) {
    char text[RUNNEL_STAMP_SIZE];
    runnel_stamp when = report->poured;
    when.seconds += reached_s;
    runnel_flow_add(flow, ", ");
    runnel_flow_add(flow, runnel_stamp_text(&when, text));
}

/* A pot life is about so long; the others are bounds. */
static void add_moment(runnel_flow *flow, runnel_cure_moment moment, double reached_s) {
    if (moment == RUNNEL_CURE_POT_LIFE)
        runnel_bench_time(flow, reached_s);
    else if (moment == RUNNEL_CURE_RECOAT_UNTIL)
        runnel_bench_time_until(flow, reached_s);
    else
        runnel_bench_time_from(flow, reached_s);
}

static void write_moment(const runnel_cure_report *report, runnel_cure_moment moment,
                         runnel_doc *doc) {
    double stated_s = runnel_cure_stated(&report->job->resin, moment);
    double reached_s = report->cure.reached_s[moment], stood_s = report->cure.stood_s[moment];
    runnel_flow flow;
    if (isnan(stated_s))
        return;
    runnel_doc_say(doc, &flow);
    if (isfinite(reached_s))
        add_moment(&flow, moment, reached_s);
    else
        runnel_flow_add(&flow, "not reached");
    if (isfinite(reached_s) && report->over == RUNNEL_CURE_OVER_LOG)
        add_when(&flow, report, reached_s);
    runnel_flow_add(&flow, " (stated: ");
    runnel_bench_time(&flow, stated_s);
    if (moment == RUNNEL_CURE_POT_LIFE && !isnan(report->job->resin.pot_mass_g)) {
        runnel_flow_add(&flow, " for ");
        runnel_bench_plain(&flow, report->job->resin.pot_mass_g, "g");
        runnel_flow_add(&flow, " in the cup");
    }
    runnel_flow_add(&flow, ")");
    if (stood_s >= 60) {
        runnel_flow_add(&flow, "; of it too cold for ");
        runnel_bench_time(&flow, stood_s);
    }
    runnel_doc_said(doc, RUNNEL_DOC_ENTRY, runnel_cure_moment_name(moment), &flow);
}

static void write_no(const runnel_cure_report *report, runnel_doc *doc) {
    runnel_flow flow;
    runnel_doc_say(doc, &flow);
    add_degc(&flow, "NO: this resin does not cure below ", report->law.lowest_degc);
    add_degc(&flow, ", and nothing is extrapolated. What helps: at least ",
             report->cure.needed_degc);
    runnel_flow_add(&flow, report->over == RUNNEL_CURE_OVER_SWING
                               ? " in the mean of the day with this swing, better at night too."
                               : " at the board until it has cured, under a tent with a heater, or "
                                 "a resin that cures colder.");
    runnel_doc_said(doc, RUNNEL_DOC_TEXT, "", &flow);
}

/* ---- What to mind -------------------------------------------------------------------------- */

static void write_log_notes(const runnel_cure_report *report, runnel_doc *doc) {
    runnel_flow flow;
    if (report->gap_count) {
        runnel_doc_say(doc, &flow);
        runnel_flow_format(&flow, "%zu %s in the log, the first before line %zu, the longest of ",
                           report->gap_count, report->gap_count == 1 ? "gap" : "gaps",
                           report->gap_line);
        runnel_bench_time(&flow, report->longest_gap_s);
        runnel_flow_add(&flow, ": the temperature is taken to go straight over it.");
        runnel_doc_said(doc, RUNNEL_DOC_INNER, "", &flow);
    }
    if (report->repeated) {
        runnel_doc_say(doc, &flow);
        runnel_flow_format(&flow, "%zu repeated %s left out, the first on line %zu.",
                           report->repeated, report->repeated == 1 ? "row" : "rows",
                           report->repeated_line);
        runnel_doc_said(doc, RUNNEL_DOC_INNER, "", &flow);
    }
    if (report->empty) {
        runnel_doc_say(doc, &flow);
        runnel_flow_format(&flow, "%zu %s without a temperature left out, the first on line %zu.",
                           report->empty, report->empty == 1 ? "row" : "rows", report->empty_line);
        runnel_doc_said(doc, RUNNEL_DOC_INNER, "", &flow);
    }
    if (report->is_possible && isfinite(report->job->resin.full_cure_s) &&
        !isfinite(report->cure.reached_s[RUNNEL_CURE_FULL])) {
        runnel_doc_say(doc, &flow);
        runnel_flow_add(&flow, "The log ends at ");
        runnel_flow_number(&flow, 100 * report->cure.age_s / report->job->resin.full_cure_s, 0,
                           "%");
        runnel_flow_add(&flow, " of the full cure; what is left takes ");
        runnel_bench_time(&flow, report->job->resin.full_cure_s - report->cure.age_s);
        add_degc(&flow, " at ", report->law.stated_degc);
        runnel_flow_add(&flow, ".");
        runnel_doc_said(doc, RUNNEL_DOC_INNER, "", &flow);
    }
}

static void write_notes(const runnel_cure_report *report, runnel_doc *doc) {
    const runnel_cure *cure = &report->cure;
    double far = fmax(cure->warmest_degc - report->law.stated_degc,
                      report->law.stated_degc - cure->coldest_degc);
    runnel_doc_add(doc, RUNNEL_DOC_HEAD, "", "To be minded");
    if (cure->rise_to_gel_k > rise_of_bubbles_k) {
        runnel_flow flow;
        runnel_doc_say(doc, &flow);
        runnel_flow_add(&flow, "It gets warmer by ");
        runnel_flow_number(&flow, cure->rise_to_gel_k, 0, "K");
        runnel_flow_add(&flow, " before the gel: the wood lets out air. Pour while the temperature "
                               "falls, or seal the walls well.");
        runnel_doc_said(doc, RUNNEL_DOC_INNER, "", &flow);
    }
    if (far > far_k)
        runnel_doc_add(doc, RUNNEL_DOC_INNER, "",
                       "Far from the stated temperature the times are rough: try it on a "
                       "scrap.");
    if (report->over == RUNNEL_CURE_OVER_LOG)
        write_log_notes(report, doc);
    runnel_doc_add(doc, RUNNEL_DOC_INNER, "",
                   "The temperature of the board counts, not that of the room. A thin "
                   "film is slower, a thick layer and a full cup faster than this.");
    runnel_doc_add(doc, RUNNEL_DOC_INNER, "",
                   "An estimate: where the resin's sheet says more, it holds.");
}

static void write_damp(const runnel_cure_report *report, runnel_doc *doc) {
    const runnel_damp *damp = &report->damp;
    if (!report->has_damp)
        return;
    runnel_doc_add(doc, RUNNEL_DOC_HEAD, "", "Damp");
    runnel_doc_figure(doc, "air", report->air_degc, 1, RUNNEL_DEGC, "");
    runnel_doc_figure(doc, "its humidity", 100 * report->humidity, 0, "%",
                      report->job->humidity < 0 ? "the dampest air from the pour until it is hard"
                                                : "");
    if (report->most_humidity > report->humidity)
        runnel_doc_figure(doc, "humidity up to", 100 * report->most_humidity, 0, "%",
                          "while it was colder");
    runnel_doc_figure(doc, "dew point", damp->dew_degc, 1, RUNNEL_DEGC, "");
    runnel_doc_figure(doc, "board", report->board_degc, 1, RUNNEL_DEGC, "");
    runnel_doc_figure(doc, "board above it", damp->gap_k, 1, "K",
                      damp->is_near_dew ? "TOO NEAR: water falls on the face, and resin blushes"
                                        : "");
    runnel_doc_figure(doc, "board at least", damp->least_board_degc, 1, RUNNEL_DEGC, "");
    runnel_doc_figure(doc, "wood comes to", damp->moisture_percent, 1, "%", "moisture in this air");
    if (damp->is_humid)
        runnel_doc_add(doc, RUNNEL_DOC_INNER, "",
                       "TOO HUMID: above 80 % a waxy film may form. Wash it off with "
                       "water and dry it with paper before sanding or the next layer.");
}

/* ---- Heat ---------------------------------------------------------------------------------- */

/* With its doubt, which ends where resin smokes. */
static void add_peak(runnel_flow *flow, const runnel_heat_run *run, double low_degc,
                     double high_degc) {
    if (run->ran_away) {
        runnel_flow_add(flow, "runs away, and smokes, after ");
    } else {
        add_degc(flow, "peak ", round(run->peak_degc));
        runnel_flow_add(flow, " after ");
    }
    runnel_bench_time(flow, run->peak_s);
    if (run->ran_away || !(high_degc - low_degc >= 1))
        return;
    add_degc(flow, "; from ", floor(low_degc));
    add_degc(flow, " to ", ceil(high_degc));
    runnel_flow_add(flow, " by what is not known of it");
}

static void write_cup(const runnel_heating *heat, runnel_doc *doc) {
    runnel_flow flow;
    runnel_doc_say(doc, &flow);
    runnel_bench_plain(&flow, heat->of.mass_g, "g in a cup of ");
    runnel_bench_plain(&flow, heat->of.diameter_mm, "mm, left standing: ");
    add_peak(&flow, &heat->cup, heat->cup_low_degc, heat->cup_high_degc);
    runnel_doc_said(doc, RUNNEL_DOC_INNER, "", &flow);
    runnel_doc_say(doc, &flow);
    runnel_flow_add(&flow, heat->is_too_large ? "CUP TOO LARGE: poured within " : "poured within ");
    runnel_bench_time(&flow, heat->of.until_s);
    add_degc(&flow, " it gets ", round(heat->cup_degc));
    if (!(heat->largest_g > 0)) {
        add_degc(&flow, "; below ", heat->of.limit_degc);
        runnel_flow_add(&flow, " no cup stays");
    } else if (isfinite(heat->largest_g)) {
        add_degc(&flow, "; below ", heat->of.limit_degc);
        runnel_flow_add(&flow, " stay up to ");
        runnel_flow_number(&flow, floor(heat->largest_g), 0, "g");
    }
    runnel_doc_said(doc, RUNNEL_DOC_UNDER, "", &flow);
}

static void write_layer(const runnel_heating *heat, runnel_doc *doc) {
    runnel_flow flow;
    runnel_doc_say(doc, &flow);
    runnel_flow_add(&flow, "a layer of ");
    runnel_bench_plain(&flow, heat->of.layer_mm, "mm on ");
    runnel_bench_plain(&flow, heat->of.wood_mm, "mm of wood: ");
    add_peak(&flow, &heat->layer, heat->layer_low_degc, heat->layer_high_degc);
    runnel_doc_said(doc, RUNNEL_DOC_INNER, "", &flow);
    runnel_doc_say(doc, &flow);
    runnel_flow_add(&flow, heat->is_too_thick ? "TOO THICK" : "");
    add_degc(&flow, heat->is_too_thick ? ": below " : "below ", heat->of.limit_degc);
    if (!(heat->thickest_mm > 0)) {
        runnel_flow_add(&flow, " no layer stays");
    } else if (!isfinite(heat->thickest_mm)) {
        runnel_flow_add(&flow, " stays any layer by this");
    } else {
        runnel_flow_add(&flow, " stays a layer of up to ");
        runnel_flow_number(&flow, floor(10 * heat->thickest_mm) / 10, 1, "mm");
    }
    if (heat->contradicts_sheet)
        runnel_flow_add(&flow, "; but the resin's sheet allows this depth, and it holds: this "
                               "estimate is in doubt, and for this resin too hot");
    else if (heat->layer_high_degc > heat->of.limit_degc && !heat->is_too_thick &&
             heat->sheet_allows_layer)
        runnel_flow_add(&flow, "; the resin's sheet allows this depth, which speaks for the cool "
                               "end of the doubt");
    runnel_doc_said(doc, RUNNEL_DOC_UNDER, "", &flow);
}

/* What the estimate stands on. */
static void write_heat_basis(const runnel_heating *heat, runnel_doc *doc) {
    runnel_flow flow;
    runnel_doc_say(doc, &flow);
    runnel_flow_add(&flow, "heat of reaction ");
    runnel_flow_number(&flow, heat->reaction_j_per_g, 0, "J/g");
    if (heat->reaction_high_j_per_g > heat->reaction_low_j_per_g) {
        runnel_flow_add(&flow, " by the epoxide in its ratio (");
        runnel_flow_format(&flow, "%.0f to ", heat->reaction_low_j_per_g);
        runnel_flow_number(&flow, heat->reaction_high_j_per_g, 0, "J/g)");
    } else {
        runnel_flow_add(&flow, ", as stated");
    }
    runnel_flow_add(&flow, heat->law.pot_life_s > 0 ? "; one speed of cure, by gel and pot life"
                                                    : "; speed of cure by the gel alone");
    runnel_doc_said(doc, RUNNEL_DOC_INNER, "", &flow);
    if (heat->law.fits)
        return;
    runnel_doc_say(doc, &flow);
    runnel_flow_add(&flow, "IN DOUBT: no speed of cure fits both the gel and the pot life that are "
                           "stated. Taken is the faster one, by which a thin film gels in ");
    runnel_bench_time(&flow, heat->law.gel_s);
    runnel_flow_add(&flow, " and the pot life is ");
    runnel_bench_time(&flow, heat->law.pot_life_s);
    runnel_doc_said(doc, RUNNEL_DOC_INNER, "", &flow);
}

static void write_heat(const runnel_cure_report *report, runnel_doc *doc) {
    const runnel_heating *heat = &report->heating;
    runnel_flow flow;
    if (!heat->has_cup && !heat->has_layer)
        return;
    runnel_doc_say(doc, &flow);
    add_degc(&flow, "Heat, at ", heat->of.degc);
    runnel_flow_add(&flow, report->over == RUNNEL_CURE_OVER_CONSTANT
                               ? ""
                               : " at the pour and from then on as told above");
    runnel_doc_said(doc, RUNNEL_DOC_HEAD, "", &flow);
    if (heat->has_cup)
        write_cup(heat, doc);
    if (heat->has_layer)
        write_layer(heat, doc);
    write_heat_basis(heat, doc);
    runnel_doc_add(doc, RUNNEL_DOC_INNER, "",
                   "An estimate, for a layer without end to its sides: a narrow groove "
                   "stays cooler. Where the resin's sheet allows less mass or depth, it "
                   "holds.");
}

/* Of the cup, 0, or of the layer, 1. */
static void add_picture(const runnel_heating *heat, size_t which, runnel_doc *doc) {
    runnel_text_sink caption = {.text = NULL};
    runnel_flow flow;
    runnel_flow_into(&flow, &caption);
    runnel_flow_add(&flow, which ? "In the layer. Line: how much of it has reacted, the mean; "
                                   "dashes: how warm it is at its warmest"
                                 : "In the cup, left standing. Line: how much of it has reacted; "
                                   "dashes: how warm it is");
    add_degc(&flow, "; thin line: no warmer than ", heat->of.limit_degc);
    runnel_flow_add(&flow, ".");
    runnel_flow_end(&flow);
    runnel_doc_say(doc, &flow);
    runnel_flow_add(&flow, "Curves of how much has reacted, and how warm it is: ");
    if (which)
        add_peak(&flow, &heat->layer, heat->layer_low_degc, heat->layer_high_degc);
    else
        add_peak(&flow, &heat->cup, heat->cup_low_degc, heat->cup_high_degc);
    runnel_doc_shown(doc, RUNNEL_IMAGE_CURE, which, 0, &caption, &flow);
}

static void add_pictures(const runnel_heating *heat, runnel_doc *doc) {
    if (heat->has_cup)
        add_picture(heat, 0, doc);
    if (heat->has_layer)
        add_picture(heat, 1, doc);
}

void runnel_cure_doc(const runnel_cure_report *report, bool pictured, runnel_doc *doc) {
    doc->column = 18;
    runnel_doc_add(doc, RUNNEL_DOC_TITLE, "Cure", report->job->resin.name);
    if (!report->is_possible)
        write_no(report, doc);
    runnel_doc_add(doc, RUNNEL_DOC_HEAD, "", "Worked out with");
    write_basis(report, doc);
    if (report->is_possible) {
        runnel_doc_add(doc, RUNNEL_DOC_HEAD, "", "Times from the pour");
        for (unsigned i = 0; i < RUNNEL_CURE_MOMENTS; i++)
            write_moment(report, (runnel_cure_moment)i, doc);
    }
    write_heat(report, doc);
    if (pictured)
        add_pictures(&report->heating, doc);
    write_damp(report, doc);
    write_notes(report, doc);
}

runnel_status runnel_write_cure_text(const runnel_cure_report *report, FILE *out) {
    runnel_doc doc = {.count = 0};
    runnel_cure_doc(report, false, &doc);
    return runnel_doc_write(&doc, out);
}
