/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/size_doc.h"

#include "runnel/units.h"
#include "runnel/write.h"
#include "write/bench.h"
#include "write/carving_doc.h"
#include "write/size.h"

#include <math.h>

static double ml(double volume_mm3) {
    return volume_mm3 / RUNNEL_MM3_PER_ML;
}

/* ---- Cavities ---------------------------------------------------------------------------------
 */

static void add_size(const runnel_plan_cavity *cavity, runnel_doc *doc) {
    runnel_flow flow;
    if (!(cavity->width_mm > 0 && cavity->height_mm > 0))
        return;
    runnel_flow_number(runnel_doc_say(doc, &flow), cavity->width_mm, 1, "x");
    runnel_flow_add(&flow, RUNNEL_STICK);
    runnel_flow_number(&flow, cavity->height_mm, 1, "mm");
    runnel_flow_add(&flow, " (");
    runnel_flow_number(&flow, cavity->width_mm / RUNNEL_MM_PER_INCH, 2, "x");
    runnel_flow_add(&flow, RUNNEL_STICK);
    runnel_flow_number(&flow, cavity->height_mm / RUNNEL_MM_PER_INCH, 2, "in)");
    runnel_doc_said(doc, RUNNEL_DOC_FACT, "size", &flow);
}

static void add_strokes(const runnel_cavity *figures, runnel_doc *doc) {
    runnel_flow flow;
    runnel_doc_figure(doc, "narrowest stroke", figures->narrowest_mm, 2, "mm", "");
    runnel_doc_figure(doc, "widest stroke", figures->widest_mm, 2, "mm", "");
    if (!figures->uncut_places)
        return;
    runnel_flow_format(runnel_doc_say(doc, &flow), "in %zu %s", figures->uncut_places,
                       figures->uncut_places == 1 ? "place" : "places");
    runnel_doc_figured(doc, "the tip cannot enter", figures->uncut_mm2, 2, "mm2", &flow);
}

static void add_changes(const runnel_cavity *figures, runnel_doc *doc) {
    runnel_flow flow;
    runnel_flow_add(runnel_doc_say(doc, &flow), "more when deeper, ");
    runnel_flow_number(&flow, -ml(figures->depth_minus_mm3), 3, "ml");
    runnel_flow_add(&flow, " less when shallower");
    runnel_doc_figured(doc, "per 0.1 mm of depth", ml(figures->depth_plus_mm3), 3, "ml", &flow);
    if (figures->angle_mm3_per_degree != 0)
        runnel_doc_figure(doc, "per degree of the V", ml(figures->angle_mm3_per_degree), 3, "ml",
                          "for one degree more");
}

/** The areas of the sections that were asked for, a line each. */
static void add_sections(const runnel_plan_cavity *cavity, runnel_doc *doc) {
    for (size_t i = 0; i < cavity->section_count; i++) {
        char level[64], name[96];
        runnel_number_text(cavity->sections[i].level_mm, 2, level, sizeof level);
        snprintf(name, sizeof name, "area at %s mm", level);
        runnel_doc_figure(doc, name, cavity->sections[i].area_mm2 / 100, 2, "cm2",
                          i ? "" : "the face; deeper ones follow");
    }
}

/* The pours of a deep cavity, from the bottom up. */
static void add_layers(const runnel_plan_cavity *cavity, runnel_doc *doc) {
    const runnel_layers *layers = &cavity->layers;
    for (size_t i = 0; i < layers->count; i++) {
        const runnel_layer *layer = &layers->items[i];
        char name[64];
        runnel_flow flow;
        snprintf(name, sizeof name, "layer %zu of %zu", i + 1, layers->count);
        runnel_doc_say(doc, &flow);
        if (isnan(layer->volume_mm3))
            runnel_flow_add(&flow, "by its thickness, ");
        runnel_flow_number(&flow, layer->bottom_mm, 2, "to ");
        runnel_flow_number(&flow, layer->top_mm, 2, "mm deep");
        if (i) {
            runnel_flow_add(&flow, ", ");
            runnel_bench_window(&flow, layer->earliest_s, layer->latest_s);
        }
        runnel_doc_figured(doc, name, ml(layer->volume_mm3), 3, "ml", &flow);
    }
}

static void add_name(const runnel_plan_cavity *cavity, runnel_doc *doc) {
    runnel_flow flow;
    runnel_flow_add(runnel_doc_say(doc, &flow), cavity->piece);
    runnel_flow_add(&flow, " / ");
    runnel_flow_add(&flow, cavity->name);
    runnel_flow_add(&flow, ", ");
    runnel_flow_add(&flow, cavity->colour);
    if (cavity->piece_count > 1)
        runnel_flow_format(&flow, ", in each of %zu" RUNNEL_STICK "pieces", cavity->piece_count);
    runnel_doc_said(doc, RUNNEL_DOC_PART, "", &flow);
}

static void add_cavity(const runnel_plan_cavity *cavity, runnel_doc *doc) {
    const runnel_cavity *figures = &cavity->figures;
    runnel_flow flow;
    add_name(cavity, doc);
    add_size(cavity, doc);
    runnel_doc_say(doc, &flow);
    if (cavity->measured)
        runnel_flow_add(&flow, "measured");
    else
        runnel_size_bound(&flow, figures->volume_error_mm3, 3);
    runnel_doc_figured(doc, "volume", ml(figures->volume_mm3), 3, "ml", &flow);
    runnel_size_band(runnel_doc_say(doc, &flow), &cavity->band, 3);
    runnel_doc_figured(doc, "likely, with its soak", ml(cavity->band.likely_mm3), 3, "ml", &flow);
    runnel_doc_figure(doc, "footprint at the face", figures->footprint_mm2 / 100, 2, "cm2", "");
    runnel_doc_figure(doc, "carved walls", figures->wall_mm2 / 100, 2, "cm2", "floors included");
    runnel_doc_figure(doc, "deepest", figures->deepest_mm, 2, "mm", "");
    if (!cavity->measured) {
        add_strokes(figures, doc);
        add_changes(figures, doc);
        add_sections(cavity, doc);
    }
    add_layers(cavity, doc);
    if (cavity->font_file)
        runnel_doc_add(doc, RUNNEL_DOC_FACT, "font", cavity->font_file);
}

/* Each piece comes with its picture before its first cavity. */
static void add_cavities(const runnel_job *job, const runnel_plan *plan, const runnel_look *look,
                         runnel_doc *doc) {
    size_t piece = 0;
    runnel_doc_add(doc, RUNNEL_DOC_HEAD, "", "Cavities, each for one piece");
    for (size_t i = 0; i < plan->cavity_count; i++) {
        while (look && piece < look->piece_count && look->pieces[piece].first <= i)
            runnel_carving_piece(job, plan, look, piece++, doc);
        add_cavity(&plan->cavities[i], doc);
        if (look)
            runnel_carving_section(plan, look, i, doc);
    }
}

/* ---- All --------------------------------------------------------------------------------------
 */

void runnel_size_doc(const runnel_job *job, const runnel_plan *plan, const runnel_look *look,
                     runnel_doc *doc) {
    runnel_flow flow;
    doc->column = 12;
    runnel_doc_begin(doc, "Sizes", job, plan);
    runnel_size_basis(job, plan, doc);
    add_cavities(job, plan, look, doc);
    if (plan->batch_count > 1) {
        runnel_flow_add(runnel_doc_say(doc, &flow), "Order of pouring: ");
        runnel_bench_order(&flow, plan);
        runnel_doc_said(doc, RUNNEL_DOC_HEAD, "", &flow);
    }
    for (size_t i = 0; i < plan->batch_count; i++)
        runnel_size_batch(job, plan, &plan->batches[i], doc);
    for (size_t i = 0; runnel_bench_says_nothing(runnel_doc_say(doc, &flow), plan, i); i++)
        runnel_doc_said(doc, RUNNEL_DOC_HEAD, "", &flow);
}

runnel_status runnel_write_size_text(const runnel_job *job, const runnel_plan *plan, FILE *out) {
    runnel_doc doc = {.count = 0};
    runnel_size_doc(job, plan, NULL, &doc);
    return runnel_doc_write(&doc, out);
}
