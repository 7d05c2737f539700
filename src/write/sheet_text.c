/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/sheet.h"

#include "runnel/units.h"
#include "runnel/write_finish.h"
#include "write/finish_lines.h"

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

/* A step with its number; more of it follows. */
static void heading(FILE *out, int *number, const char *text) {
    runnel_flow flow;
    if (*number)
        fputc('\n', out);
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_format(&flow, "%d", ++*number);
    runnel_flow_tab(&flow, 3);
    runnel_flow_add(&flow, text);
    runnel_flow_end(&flow);
}

/* ---- Carving ----------------------------------------------------------------------------------
 */

static void write_carving(const runnel_sheet *sheet, int *number, FILE *out) {
    heading(out, number, "Carve");
    for (size_t i = 0; i < sheet->plan.cavity_count; i++) {
        const runnel_plan_cavity *cavity = &sheet->plan.cavities[i];
        runnel_flow flow;
        runnel_flow_begin(&flow, out, 4);
        runnel_flow_add(&flow, cavity->piece);
        runnel_flow_add(&flow, " / ");
        runnel_flow_add(&flow, cavity->name);
        if (cavity->piece_count > 1)
            runnel_flow_format(&flow, ", in each of %zu" RUNNEL_STICK "pieces",
                               cavity->piece_count);
        runnel_flow_add(&flow, ": ");
        runnel_flow_number(&flow, ml(cavity->figures.volume_mm3), 2, "ml");
        if (cavity->figures.deepest_mm > 0) {
            runnel_flow_add(&flow, ", deepest ");
            runnel_flow_number(&flow, cavity->figures.deepest_mm, 2, "mm");
        }
        if (cavity->width_mm > 0 && cavity->height_mm > 0) {
            runnel_flow_add(&flow, ", ");
            runnel_flow_number(&flow, cavity->width_mm, 1, "x");
            runnel_flow_add(&flow, RUNNEL_STICK);
            runnel_flow_number(&flow, cavity->height_mm, 1, "mm");
        }
        runnel_flow_end(&flow);
    }
}

/* ---- Sealing ----------------------------------------------------------------------------------
 */

static void write_dissolving(const runnel_sealing *sealing, FILE *out) {
    runnel_flow flow;
    if (!(sealing->cut_lb_per_gal > 0))
        return;
    runnel_flow_begin(&flow, out, 4);
    runnel_flow_add(&flow, "dissolve ");
    runnel_flow_number(&flow, sealing->dissolve.lac_g, 1, "g of flake in ");
    runnel_flow_number(&flow, ml(sealing->dissolve.solvent_mm3), 1, "ml of spirit, a ");
    runnel_bench_plain(&flow, sealing->cut_lb_per_gal, "lb cut");
    runnel_flow_end(&flow);
}

static void write_sealing(const runnel_sheet *sheet, int *number, FILE *out) {
    const runnel_sealing *sealing = &sheet->sealing;
    runnel_flow flow;
    if (!sheet->sealed)
        return;
    heading(out, number, "Seal");
    runnel_flow_begin(&flow, out, 4);
    runnel_flow_add(&flow, runnel_sealer_kind_of(sealing->kind)->name);
    runnel_flow_format(&flow, ", %zu %s on walls and face: ", sealing->sealer.coats,
                       sealing->sealer.coats == 1 ? "coat" : "coats");
    runnel_flow_number(&flow, ml(sealing->all.coat_mm3), 1, "ml a coat, ");
    runnel_flow_number(&flow, ml(sealing->all.all_mm3), 1, "ml in all");
    runnel_flow_end(&flow);
    write_dissolving(sealing, out);
    runnel_flow_begin(&flow, out, 4);
    runnel_flow_add(&flow, "resin may follow ");
    if (sealing->times_known) {
        runnel_bench_time(&flow, sealing->times.ready_from_s);
        runnel_flow_add(&flow, " after the first coat");
    } else {
        runnel_flow_add(&flow, "when it is hard, see the can");
    }
    runnel_flow_end(&flow);
}

/* ---- Resin ------------------------------------------------------------------------------------
 */

static void write_batch(const runnel_job *job, const runnel_plan *plan,
                        const runnel_plan_batch *batch, FILE *out) {
    const runnel_weighing *weighing = &batch->weighing;
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 4);
    runnel_flow_add(&flow, batch->colour);
    runnel_flow_add(&flow, ": ");
    runnel_bench_parts(&flow, job, weighing);
    runnel_flow_add(&flow, ", ");
    runnel_flow_number(&flow, weighing->total_ml, 1, "ml");
    if (batch->cup_count > 1)
        runnel_flow_format(&flow, ", in %zu cups, each weighed as the card says", batch->cup_count);
    runnel_flow_end(&flow);
    runnel_flow_begin(&flow, out, 6);
    runnel_flow_add(&flow, "for ");
    runnel_bench_fills(&flow, plan, batch->colour);
    runnel_flow_end(&flow);
    runnel_flow_begin(&flow, out, 6);
    runnel_flow_add(&flow, "pot life ");
    runnel_bench_pot_life(&flow, job, batch);
    runnel_flow_end(&flow);
    if (!(batch->top_up_mm3 > 0))
        return;
    runnel_flow_begin(&flow, out, 6);
    runnel_flow_add(&flow, "top-up ");
    runnel_bench_top_up(&flow, job, batch);
    runnel_flow_end(&flow);
}

static void write_resin(const runnel_job *job, const runnel_sheet *sheet, int *number, FILE *out) {
    runnel_flow flow;
    heading(out, number, "Mix and pour");
    runnel_flow_begin(&flow, out, 4);
    runnel_flow_add(&flow, job->resin.name);
    runnel_flow_add(&flow, job->resin_is_default ? " (not given, so taken), " : ", ");
    runnel_bench_ratios(&flow, &job->resin.ratio, &sheet->plan.mixture);
    runnel_flow_end(&flow);
    for (size_t i = 0; i < sheet->plan.batch_count; i++)
        write_batch(job, &sheet->plan, &sheet->plan.batches[i], out);
    if (sheet->plan.batch_count > 1) {
        runnel_flow_begin(&flow, out, 4);
        runnel_bench_order(&flow, &sheet->plan);
        runnel_flow_end(&flow);
    }
    runnel_bench_nothing(out, &sheet->plan);
}

/* ---- Levelling --------------------------------------------------------------------------------
 */

static void write_levelling(const runnel_sheet *sheet, int *number, FILE *out) {
    const runnel_levelling_plan *levelling = &sheet->levelling;
    const runnel_level_steps *steps = &levelling->steps;
    runnel_flow flow;
    heading(out, number, "Level and sand");
    runnel_flow_begin(&flow, out, 4);
    runnel_flow_add(&flow, "not before ");
    if (isnan(levelling->sandable_s)) {
        runnel_flow_add(&flow, "it is hard, see its sheet");
    } else {
        runnel_bench_time(&flow, levelling->sandable_s);
        runnel_flow_add(&flow, " after the pour");
    }
    runnel_flow_end(&flow);
    runnel_flow_begin(&flow, out, 4);
    runnel_flow_add(&flow, "the cutter takes ");
    runnel_flow_number(&flow, steps->cut_mm, 2, "mm");
    runnel_flow_format(&flow, " in %zu %s; ", steps->passes,
                       steps->passes == 1 ? "pass" : "passes");
    runnel_flow_number(&flow, steps->sanded_mm, 2, "mm are sanded, ");
    runnel_flow_number(&flow, levelling->levelling.sand_mm, 2, "mm of them wood");
    runnel_flow_end(&flow);
    for (size_t i = 0; i < levelling->cavity_count; i++) {
        const runnel_levelling_cavity *cavity = &levelling->cavities[i];
        if (!cavity->known || isnan(cavity->figures.narrowing_mm))
            continue;
        runnel_flow_begin(&flow, out, 4);
        runnel_flow_add(&flow, cavity->planned->piece);
        runnel_flow_add(&flow, " / ");
        runnel_flow_add(&flow, cavity->planned->name);
        runnel_flow_add(&flow, ": strokes ");
        runnel_flow_number(&flow, cavity->figures.narrowing_mm, 2, "mm narrower");
        if (cavity->figures.gone_count)
            runnel_flow_format(&flow, ", %zu gone", cavity->figures.gone_count);
        runnel_flow_end(&flow);
    }
}

/* ---- Oil and wax ------------------------------------------------------------------------------
 */

static void write_oil_times(const runnel_oiling_plan *oiling, FILE *out) {
    runnel_flow flow;
    if (!oiling->times_known)
        return;
    runnel_flow_begin(&flow, out, 4);
    runnel_flow_add(&flow, "wipe dry after ");
    runnel_bench_time(&flow, oiling->oil->soak_s);
    if (oiling->oiling.coats > 1) {
        runnel_flow_add(&flow, ", next coat after ");
        runnel_bench_time(&flow, oiling->oil->between_s);
    }
    if (oiling->oil->dries && !isnan(oiling->times.cured_s)) {
        runnel_flow_add(&flow, ", cured ");
        runnel_bench_time(&flow, oiling->times.cured_s);
        runnel_flow_add(&flow, " after the first");
    }
    runnel_flow_end(&flow);
}

static void write_coating(const runnel_coating *coating, int *number, FILE *out) {
    runnel_flow flow;
    heading(out, number, "Coat against sun and rain, all faces and the resin too");
    runnel_flow_begin(&flow, out, 4);
    runnel_flow_format(&flow, "clear outdoor coating that holds off the sun, %zu %s",
                       coating->coats, coating->coats == 1 ? "coat" : "coats");
    if (!isnan(coating->coat_mm3)) {
        runnel_flow_add(&flow, ": ");
        runnel_flow_number(&flow, ml(coating->coat_mm3), 1, "ml a coat, ");
        runnel_flow_number(&flow, ml(coating->all_mm3), 1, "ml in all");
    } else {
        runnel_flow_add(&flow, "; how much is not known without the sizes of the pieces");
    }
    runnel_flow_end(&flow);
    runnel_layout_paragraph(out, 4,
                            "the next coat on the next day, rubbed down lightly in between; its "
                            "can goes before that");
}

static void write_oiling(const runnel_sheet *sheet, int *number, FILE *out) {
    const runnel_oiling_plan *oiling = &sheet->oiling;
    runnel_flow flow;
    if (sheet->coated) {
        write_coating(&sheet->coating, number, out);
        return;
    }
    if (!sheet->oiled) {
        fputc('\n', out);
        runnel_layout_paragraph(out, 3, "The job names no oil; 'runnel oil' tells how much.");
        return;
    }
    heading(out, number, "Raise the grain, knock it down, and oil");
    runnel_flow_begin(&flow, out, 4);
    runnel_flow_add(&flow, oiling->oil->name);
    runnel_flow_format(&flow, ", %zu %s: ", oiling->oiling.coats,
                       oiling->oiling.coats == 1 ? "coat" : "coats");
    runnel_flow_number(&flow, ml(oiling->all.first_mm3), 1, "ml for the first, ");
    runnel_flow_number(&flow, ml(oiling->all.all_mm3), 1, "ml in all");
    runnel_flow_end(&flow);
    write_oil_times(oiling, out);
    if (!oiling->wax)
        return;
    heading(out, number, "Wax");
    runnel_flow_begin(&flow, out, 4);
    runnel_flow_add(&flow, "melt ");
    runnel_flow_number(&flow, oiling->melt.wax_g, 1, "g of ");
    runnel_flow_add(&flow, oiling->wax->name);
    runnel_flow_add(&flow, " into ");
    runnel_flow_number(&flow, oiling->melt.oil_g, 1, "g of the oil");
    runnel_flow_end(&flow);
}

runnel_status runnel_write_sheet_text(const runnel_job *job, const runnel_sheet *sheet, FILE *out) {
    unsigned steps, cases;
    int number = 0;
    runnel_finish_head(out, "Job sheet", job, &sheet->plan);
    write_carving(sheet, &number, out);
    write_sealing(sheet, &number, out);
    write_resin(job, sheet, &number, out);
    write_levelling(sheet, &number, out);
    write_oiling(sheet, &number, out);
    runnel_sheet_cautions(sheet, &steps, &cases);
    runnel_finish_cautions(out, steps, cases);
    return runnel_layout_close(out);
}
