/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/carving_doc.h"

#include "runnel/units.h"
#include "write/bench.h"

#include <math.h>

static double ml(double volume_mm3) {
    return volume_mm3 / RUNNEL_MM3_PER_ML;
}

/* What is not told is an empty cell. */
static double known(double value) {
    return value > 0 ? value : NAN;
}

void runnel_carving_size(runnel_flow *flow, const runnel_job_piece *piece) {
    if (!(piece->length_mm > 0))
        return;
    runnel_flow_add(flow, ", ");
    runnel_bench_plain(flow, piece->length_mm, "x ");
    runnel_bench_plain(flow, piece->width_mm, piece->thickness_mm > 0 ? "x " : "mm");
    if (piece->thickness_mm > 0)
        runnel_bench_plain(flow, piece->thickness_mm, "mm");
}

static void add_piece_head(const runnel_job_piece *piece, runnel_doc *doc) {
    runnel_flow flow;
    runnel_doc_say(doc, &flow);
    runnel_flow_add(&flow, piece->name);
    runnel_carving_size(&flow, piece);
    if (piece->count > 1)
        runnel_flow_format(&flow, ", %zu" RUNNEL_STICK "pieces", piece->count);
    runnel_doc_said(doc, RUNNEL_DOC_PART, "", &flow);
}

static size_t drawn_of(const runnel_look *look, const runnel_look_piece *piece) {
    size_t count = 0;
    for (size_t i = piece->first; i < piece->first + piece->count; i++)
        count += look->cavities[i].is_known;
    return count;
}

/* What the picture shows, for those who do not see it. */
static void describe(const runnel_plan *plan, const runnel_look *look,
                     const runnel_look_piece *piece, const char *name, runnel_flow *flow) {
    runnel_flow_add(flow, "Plan of ");
    runnel_flow_add(flow, name);
    runnel_flow_add(flow, ", darker where it is deeper.");
    for (size_t i = piece->first; i < piece->first + piece->count; i++) {
        if (!look->cavities[i].is_known)
            continue;
        runnel_flow_add(flow, " ");
        runnel_flow_add(flow, plan->cavities[i].name);
        runnel_flow_add(flow, ": deepest ");
        runnel_flow_number(flow, plan->cavities[i].figures.deepest_mm, 2, "mm.");
    }
}

void runnel_carving_picture(const runnel_job *job, const runnel_plan *plan, const runnel_look *look,
                            size_t piece, runnel_doc *doc) {
    const runnel_look_piece *of = &look->pieces[piece];
    runnel_text_sink caption = {.text = NULL};
    runnel_flow flow;
    if (!drawn_of(look, of))
        return;
    runnel_flow_into(&flow, &caption);
    runnel_flow_add(&flow, "From above, darker where it is deeper");
    if (!of->places_told)
        runnel_flow_add(&flow, "; no places are told, so the cavities stand in the middle");
    runnel_flow_add(&flow, ".");
    runnel_flow_end(&flow);
    describe(plan, look, of, job->pieces[piece].name, runnel_doc_say(doc, &flow));
    runnel_doc_shown(doc, RUNNEL_IMAGE_PLAN, piece, 0, &caption, &flow);
}

/* In mm2 where it is so little that cm2 would say nothing. */
static void add_area(runnel_doc_row *row, double area_mm2) {
    const double least_mm2 = 100;
    if (area_mm2 < least_mm2)
        runnel_row_number(row, known(area_mm2), 1, "mm\xC2\xB2");
    else
        runnel_row_number(row, area_mm2 / 100, 1, "cm\xC2\xB2");
}

static void add_table(const runnel_plan *plan, const runnel_look_piece *piece, runnel_doc *doc) {
    static const char *const heads[] = {"cavity",    "colour",    "volume", "deepest",
                                        "narrowest", "footprint", "walls"};
    runnel_doc_row row = {.count = 0};
    for (size_t i = 0; i < sizeof heads / sizeof *heads; i++)
        runnel_row_text(&row, heads[i]);
    runnel_doc_add_row(doc, &row);
    for (size_t i = 0; i < piece->count; i++) {
        const runnel_plan_cavity *cavity = &plan->cavities[piece->first + i];
        const runnel_cavity *figures = &cavity->figures;
        char name[RUNNEL_DOC_CELL];
        snprintf(name, sizeof name, "%zu" RUNNEL_STICK RUNNEL_STICK "%s", i + 1, cavity->name);
        runnel_row_text(&row, name);
        runnel_row_text(&row, cavity->colour);
        runnel_row_number(&row, ml(figures->volume_mm3), figures->volume_mm3 < 100 ? 4 : 2, "ml");
        runnel_row_number(&row, known(figures->deepest_mm), 2, "mm");
        runnel_row_number(&row, known(figures->narrowest_mm), 2, "mm");
        add_area(&row, figures->footprint_mm2);
        add_area(&row, figures->wall_mm2);
        runnel_doc_add_row(doc, &row);
    }
}

void runnel_carving_section(const runnel_plan *plan, const runnel_look *look, size_t cavity,
                            runnel_doc *doc) {
    const runnel_plan_cavity *planned = &plan->cavities[cavity];
    runnel_text_sink caption = {.text = NULL};
    runnel_flow flow;
    if (!look->cavities[cavity].is_known)
        return;
    runnel_flow_into(&flow, &caption);
    runnel_flow_add(&flow, "Section of ");
    runnel_flow_add(&flow, planned->name);
    runnel_flow_add(&flow, look->cavities[cavity].is_even
                               ? " across the middle of its longest edge."
                               : " at its deepest place, across to the nearest edge.");
    runnel_flow_end(&flow);
    runnel_doc_say(doc, &flow);
    runnel_flow_add(&flow, "Section of ");
    runnel_flow_add(&flow, planned->name);
    runnel_flow_add(&flow, ", ");
    runnel_flow_number(&flow, planned->figures.deepest_mm, 2, "mm deep, ");
    runnel_flow_format(&flow, "in %zu %s, as it is poured with its crown, and levelled and sanded.",
                       planned->layers.count ? planned->layers.count : 1,
                       planned->layers.count > 1 ? "layers" : "layer");
    runnel_doc_shown(doc, RUNNEL_IMAGE_SECTION, cavity, 0, &caption, &flow);
}

void runnel_carving_piece(const runnel_job *job, const runnel_plan *plan, const runnel_look *look,
                          size_t piece, runnel_doc *doc) {
    const runnel_look_piece *of = &look->pieces[piece];
    add_piece_head(&job->pieces[piece], doc);
    runnel_carving_picture(job, plan, look, piece, doc);
    add_table(plan, of, doc);
    if (drawn_of(look, of) < of->count)
        runnel_doc_add(doc, RUNNEL_DOC_TEXT, "",
                       "What was measured, or is not cut, has no shape and is not drawn.");
}
