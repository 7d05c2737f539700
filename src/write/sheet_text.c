/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/sheet.h"

#include "plan/working.h"
#include "runnel/units.h"
#include "runnel/write_finish.h"
#include "write/card_doc.h"
#include "write/card_words.h"
#include "write/carving_doc.h"
#include "write/days_doc.h"
#include "write/doc.h"

#include <math.h>
#include <string.h>

#define BIT(step) RUNNEL_STEP_BIT(RUNNEL_STEP_##step)

void runnel_sheet_cautions(const runnel_sheet *sheet, unsigned *steps, unsigned *cases) {
    *steps = BIT(CARVE) | BIT(MIX) | BIT(POUR) | BIT(LEVEL) | BIT(SAND);
    *cases = 0;
    if (sheet->sealed) {
        *steps |= sheet->sealing.steps;
        *cases |= sheet->sealing.cases;
    }
    if (sheet->oiled) {
        *steps |= sheet->oiling.steps | BIT(RAISE_GRAIN);
        *cases |= sheet->oiling.cases;
    }
    if (sheet->coated)
        *cases |= RUNNEL_CASE_SOLVENT;
}

static double ml(double volume_mm3) {
    return volume_mm3 / RUNNEL_MM3_PER_ML;
}

/* The document in work. */
typedef struct sheet_doc {
    const runnel_job *job;
    const runnel_sheet *sheet;
    const runnel_look *look; /* NULL without pictures */
    runnel_doc *doc;
    int number; /* of the step before */
    runnel_flow flow;
} sheet_doc;

static void heading(sheet_doc *d, const char *text) {
    char number[24];
    snprintf(number, sizeof number, "%d", ++d->number);
    runnel_doc_add(d->doc, RUNNEL_DOC_STEP, number, text);
}

/* A line of a step: begun, and added. */
static runnel_flow *say(sheet_doc *d) {
    return runnel_doc_say(d->doc, &d->flow);
}

static void said(sheet_doc *d) {
    runnel_doc_said(d->doc, RUNNEL_DOC_INNER, "", &d->flow);
}

/* A line that goes on with the one before. */
static void said_under(sheet_doc *d) {
    runnel_doc_said(d->doc, RUNNEL_DOC_UNDER, "", &d->flow);
}

static const char *coats_word(size_t coats) {
    return coats == 1 ? "coat" : "coats";
}

/* ---- Carving ----------------------------------------------------------------------------------
 */

static void add_blank(sheet_doc *d, const runnel_job_piece *piece) {
    runnel_flow *flow = say(d);
    runnel_flow_add(flow, piece->name);
    if (piece->wood) {
        runnel_flow_add(flow, ", ");
        runnel_flow_add(flow, piece->wood);
    }
    runnel_carving_size(flow, piece);
    runnel_flow_format(flow, ", %zu" RUNNEL_STICK "%s", piece->count,
                       piece->count == 1 ? "piece" : "pieces");
    said(d);
}

static void add_cavity(sheet_doc *d, const runnel_plan_cavity *cavity) {
    runnel_flow *flow = say(d);
    runnel_flow_add(flow, cavity->piece);
    runnel_flow_add(flow, " / ");
    runnel_flow_add(flow, cavity->name);
    if (cavity->piece_count > 1)
        runnel_flow_format(flow, ", in each of %zu" RUNNEL_STICK "pieces", cavity->piece_count);
    runnel_flow_add(flow, ": ");
    runnel_flow_number(flow, ml(cavity->figures.volume_mm3), 2, "ml");
    if (cavity->figures.deepest_mm > 0) {
        runnel_flow_add(flow, ", deepest ");
        runnel_flow_number(flow, cavity->figures.deepest_mm, 2, "mm");
    }
    if (cavity->width_mm > 0 && cavity->height_mm > 0) {
        runnel_flow_add(flow, ", ");
        runnel_flow_number(flow, cavity->width_mm, 1, "x");
        runnel_flow_add(flow, RUNNEL_STICK);
        runnel_flow_number(flow, cavity->height_mm, 1, "mm");
    }
    said_under(d);
}

/* A series of more pieces than that is drawn by runnel_draw_size alone. */
static const size_t pictured_pieces = 6;

static void add_carving(sheet_doc *d) {
    const bool pictured = d->look && d->job->piece_count <= pictured_pieces;
    size_t cavity = 0;
    heading(d, "Carve");
    for (size_t i = 0; i < d->job->piece_count; i++) {
        add_blank(d, &d->job->pieces[i]);
        for (size_t k = 0; k < d->job->pieces[i].cavity_count; k++)
            add_cavity(d, &d->sheet->plan.cavities[cavity++]);
        if (pictured)
            runnel_carving_picture(d->job, &d->sheet->plan, d->look, i, d->doc);
    }
    if (d->look && !pictured)
        runnel_doc_add(d->doc, RUNNEL_DOC_INNER, "", "'runnel size -o FILE' draws each piece");
}

/* ---- Sealing ----------------------------------------------------------------------------------
 */

static void add_dissolving(sheet_doc *d) {
    const runnel_sealing *sealing = &d->sheet->sealing;
    if (!(sealing->cut_lb_per_gal > 0))
        return;
    runnel_flow *flow = say(d);
    runnel_flow_add(flow, "dissolve ");
    runnel_flow_number(flow, sealing->dissolve.lac_g, 1, "g of flake in ");
    runnel_flow_number(flow, ml(sealing->dissolve.solvent_mm3), 1, "ml of spirit, a ");
    runnel_bench_plain(flow, sealing->cut_lb_per_gal, "lb cut");
    said(d);
}

static void add_sealing(sheet_doc *d) {
    const runnel_sealing *sealing = &d->sheet->sealing;
    if (!d->sheet->sealed)
        return;
    heading(d, "Seal");
    runnel_flow *flow = say(d);
    runnel_flow_add(flow, runnel_sealer_kind_of(sealing->kind)->name);
    runnel_flow_format(flow, ", %zu %s on walls and face: ", sealing->sealer.coats,
                       coats_word(sealing->sealer.coats));
    runnel_flow_number(flow, ml(sealing->all.coat_mm3), 1, "ml a coat, ");
    runnel_flow_number(flow, ml(sealing->all.all_mm3), 1, "ml in all");
    said(d);
    add_dissolving(d);
    flow = say(d);
    runnel_flow_add(flow, "resin may follow ");
    if (sealing->times_known) {
        runnel_bench_time_from(flow, sealing->times.ready_from_s);
        runnel_flow_add(flow, " after the first coat");
    } else {
        runnel_flow_add(flow, "when it is hard, see the can");
    }
    said(d);
}

/* ---- Resin ------------------------------------------------------------------------------------
 */

static void add_batch(sheet_doc *d, size_t index) {
    const runnel_plan *plan = &d->sheet->plan;
    const runnel_plan_batch *batch = &plan->batches[index];
    const runnel_weighing *weighing = &batch->weighing;
    runnel_flow *flow = say(d);
    runnel_flow_add(flow, batch->colour);
    runnel_flow_add(flow, ": ");
    runnel_bench_parts(flow, d->job, weighing);
    runnel_flow_add(flow, ", ");
    runnel_flow_number(flow, weighing->total_ml, 1, "ml");
    if (batch->cup_count > 1)
        runnel_flow_format(flow, ", in %zu cups, each weighed as the card says", batch->cup_count);
    said(d);
    flow = say(d);
    runnel_flow_add(flow, "for ");
    runnel_bench_fills(flow, plan, batch->colour);
    said_under(d);
    flow = say(d);
    runnel_flow_add(flow, "pot life ");
    runnel_bench_pot_life(flow, d->job, batch);
    said_under(d);
    if (batch->top_up_mm3 > 0) {
        flow = say(d);
        runnel_flow_add(flow, "top-up ");
        runnel_bench_top_up(flow, d->job, batch);
        said_under(d);
    }
    if (d->look && plan->batch_count > 1) /* of one alone the picture above tells as much */
        runnel_card_colour(plan, d->look, index, d->doc);
}

static void add_resin(sheet_doc *d) {
    const runnel_plan *plan = &d->sheet->plan;
    heading(d, "Mix and pour");
    runnel_flow *flow = say(d);
    runnel_flow_add(flow, d->job->resin.name);
    runnel_flow_add(flow, d->job->resin_is_default ? " (not given, so taken), " : ", ");
    runnel_bench_ratios(flow, &d->job->resin.ratio, &plan->mixture);
    said(d);
    for (size_t i = 0; i < plan->batch_count; i++)
        add_batch(d, i);
    if (plan->batch_count > 1) {
        runnel_bench_order(say(d), plan);
        said(d);
    }
    for (size_t i = 0; runnel_bench_says_nothing(say(d), plan, i); i++)
        said(d);
}

/* ---- Levelling --------------------------------------------------------------------------------
 */

static void add_levelled(sheet_doc *d, const runnel_levelling_cavity *cavity) {
    if (!cavity->known || isnan(cavity->figures.narrowing_mm))
        return;
    runnel_flow *flow = say(d);
    runnel_flow_add(flow, cavity->planned->piece);
    runnel_flow_add(flow, " / ");
    runnel_flow_add(flow, cavity->planned->name);
    runnel_flow_add(flow, ": strokes ");
    runnel_flow_number(flow, cavity->figures.narrowing_mm, 2, "mm narrower");
    if (cavity->figures.gone_count)
        runnel_flow_format(flow, ", %zu gone", cavity->figures.gone_count);
    said(d);
}

static void add_grits(sheet_doc *d) {
    const runnel_grits grits = runnel_work_grits(d->job);
    runnel_flow *flow = say(d);
    runnel_flow_add(flow, "sand with grit ");
    for (size_t i = 0; i < grits.count; i++)
        runnel_flow_format(flow, i ? ", %d" : "%d", grits.numbers[i]);
    runnel_flow_add(flow, ", none left out");
    said(d);
}

static void add_levelling(sheet_doc *d) {
    const runnel_levelling_plan *levelling = &d->sheet->levelling;
    const runnel_level_steps *steps = &levelling->steps;
    heading(d, "Level and sand");
    runnel_flow *flow = say(d);
    runnel_flow_add(flow, "not before ");
    if (isnan(levelling->sandable_s)) {
        runnel_flow_add(flow, "it is hard, see its sheet");
    } else {
        runnel_bench_time_from(flow, levelling->sandable_s);
        runnel_flow_add(flow, " after the pour");
    }
    said(d);
    flow = say(d);
    runnel_flow_add(flow, "the cutter takes ");
    runnel_flow_number(flow, steps->cut_mm, 2, "mm");
    runnel_flow_format(flow, " in %zu %s; ", steps->passes, steps->passes == 1 ? "pass" : "passes");
    runnel_flow_number(flow, steps->sanded_mm, 2, "mm are sanded, ");
    runnel_flow_number(flow, levelling->levelling.sand_mm, 2, "mm of them wood");
    said(d);
    for (size_t i = 0; i < levelling->cavity_count; i++)
        add_levelled(d, &levelling->cavities[i]);
    add_grits(d);
}

/* ---- Oil and wax ------------------------------------------------------------------------------
 */

static void add_oil_times(sheet_doc *d) {
    const runnel_oiling_plan *oiling = &d->sheet->oiling;
    if (!oiling->times_known)
        return;
    runnel_flow *flow = say(d);
    runnel_flow_add(flow, "wipe dry after ");
    runnel_bench_time(flow, oiling->oil->soak_s);
    if (oiling->oiling.coats > 1) {
        runnel_flow_add(flow, ", next coat after ");
        runnel_bench_time(flow, oiling->oil->between_s);
    }
    if (oiling->oil->dries && !isnan(oiling->times.cured_s)) {
        runnel_flow_add(flow, ", cured ");
        runnel_bench_time_from(flow, oiling->times.cured_s);
        runnel_flow_add(flow, " after the first");
    }
    said(d);
}

static void add_coating(sheet_doc *d) {
    const runnel_coating *coating = &d->sheet->coating;
    heading(d, "Coat against sun and rain, all faces and the resin too");
    runnel_flow *flow = say(d);
    runnel_flow_format(flow, "clear outdoor coating that holds off the sun, %zu %s", coating->coats,
                       coats_word(coating->coats));
    if (!isnan(coating->coat_mm3)) {
        runnel_flow_add(flow, ": ");
        runnel_flow_number(flow, ml(coating->coat_mm3), 1, "ml a coat, ");
        runnel_flow_number(flow, ml(coating->all_mm3), 1, "ml in all");
    } else {
        runnel_flow_add(flow, "; how much is not known without the sizes of the pieces");
    }
    said(d);
    runnel_doc_add(d->doc, RUNNEL_DOC_INNER, "",
                   "the next coat on the next day, rubbed down lightly in between; its can goes "
                   "before that");
}

static void add_oiling(sheet_doc *d) {
    const runnel_oiling_plan *oiling = &d->sheet->oiling;
    if (d->sheet->coated) {
        add_coating(d);
        return;
    }
    if (!d->sheet->oiled) {
        runnel_doc_add(d->doc, RUNNEL_DOC_HEAD, "", "Oil");
        runnel_doc_add(d->doc, RUNNEL_DOC_INNER, "",
                       "The job names no oil; 'runnel oil' tells how much.");
        return;
    }
    heading(d, "Raise the grain, knock it down, and oil");
    runnel_flow *flow = say(d);
    runnel_flow_add(flow, oiling->oil->name);
    runnel_flow_format(flow, ", %zu %s: ", oiling->oiling.coats, coats_word(oiling->oiling.coats));
    runnel_flow_number(flow, ml(oiling->all.first_mm3), 1, "ml for the first, ");
    runnel_flow_number(flow, ml(oiling->all.all_mm3), 1, "ml in all");
    said(d);
    add_oil_times(d);
    if (!oiling->wax)
        return;
    heading(d, "Wax");
    flow = say(d);
    runnel_flow_add(flow, "melt ");
    runnel_flow_number(flow, oiling->melt.wax_g, 1, "g of ");
    runnel_flow_add(flow, oiling->wax->name);
    runnel_flow_add(flow, " into ");
    runnel_flow_number(flow, oiling->melt.oil_g, 1, "g of the oil");
    said(d);
}

/* ---- Days and what is to be there -------------------------------------------------------------
 */

static void add_days(sheet_doc *d) {
    if (!d->sheet->timed) {
        runnel_doc_add(d->doc, RUNNEL_DOC_HEAD, "", "Days");
        runnel_doc_add(d->doc, RUNNEL_DOC_INNER, "",
                       "The job names no first and no last day; 'runnel timeline' plans them.");
        return;
    }
    runnel_doc_add(d->doc, RUNNEL_DOC_HEAD, "", "Days");
    runnel_days_doc(d->job, &d->sheet->timings, d->doc);
}

static void add_need(sheet_doc *d, const runnel_stock_need *need) {
    runnel_doc_row row = {.count = 0};
    char name[RUNNEL_DOC_CELL];
    const bool is_part = need->part && !need->part[1] && strchr("AB", need->part[0]);
    const int decimals = runnel_bench_decimals(&d->job->scale);
    snprintf(name, sizeof name, "%s%s%s", need->what,
             !need->part ? ""
             : is_part   ? ", part "
                         : " ",
             need->part ? need->part : "");
    runnel_row_text(&row, name);
    runnel_row_number(&row, need->mass_g, decimals, "g");
    runnel_row_number(&row, ml(need->volume_mm3), 1, "ml");
    runnel_doc_add_row(d->doc, &row);
}

static void add_needs(sheet_doc *d) {
    const runnel_needs *needs = &d->sheet->needs;
    runnel_doc_row row = {.count = 0};
    size_t cups = 0;
    runnel_doc_add(d->doc, RUNNEL_DOC_HEAD, "", "Shopping list");
    if (needs->count) {
        runnel_row_text(&row, "what the job takes");
        runnel_row_text(&row, "mass");
        runnel_row_text(&row, "volume");
        runnel_doc_add_row(d->doc, &row);
    }
    for (size_t i = 0; i < needs->count; i++)
        add_need(d, &needs->items[i]);
    for (size_t i = 0; i < d->sheet->plan.batch_count; i++)
        cups += runnel_card_blocks(&d->sheet->plan.batches[i]);
    runnel_flow *flow = say(d);
    if (cups)
        runnel_flow_format(flow,
                           "%zu mixing %s and as many clean ones to pour over, sticks, gloves; ",
                           cups, cups == 1 ? "cup" : "cups");
    runnel_flow_add(flow, "a dust mask, abrasives, cloths and a tin with a lid for them");
    said(d);
    runnel_doc_add(d->doc, RUNNEL_DOC_INNER, "",
                   "top-ups for pinholes come on top; 'runnel stock' holds it against what is in "
                   "the bottles");
}

void runnel_sheet_doc(const runnel_job *job, const runnel_sheet *sheet, const runnel_look *look,
                      runnel_doc *doc) {
    sheet_doc d = {.job = job, .sheet = sheet, .look = look, .doc = doc};
    unsigned steps, cases;
    doc->inner = 4;
    doc->column = 18;
    runnel_doc_begin(doc, "Job sheet", job, &sheet->plan);
    add_carving(&d);
    add_sealing(&d);
    add_resin(&d);
    add_levelling(&d);
    add_oiling(&d);
    add_days(&d);
    add_needs(&d);
    runnel_sheet_cautions(sheet, &steps, &cases);
    runnel_card_cautions(steps, cases, doc);
}

runnel_status runnel_write_sheet_text(const runnel_job *job, const runnel_sheet *sheet, FILE *out) {
    runnel_doc doc = {.count = 0};
    runnel_sheet_doc(job, sheet, NULL, &doc);
    return runnel_doc_write(&doc, out);
}
