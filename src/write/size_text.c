/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/write.h"

#include "runnel/units.h"
#include "write/bench.h"
#include "write/figures.h"
#include "write/size.h"

#include <math.h>
#include <string.h>

#define DEGC                                                                                       \
    "\xC2\xB0"                                                                                     \
    "C"

/* ---- What it is worked out with ---------------------------------------------------------------
 */

/* What nobody has told. */
static void write_defaults(const runnel_job *job, FILE *out) {
    const bool any = job->resin_is_default || job->scale_is_default || job->shop_is_default;
    runnel_flow flow;
    if (!any)
        return;
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_add(&flow, "Not given, so taken:");
    if (job->resin_is_default) {
        runnel_flow_add(&flow, " resin ");
        runnel_flow_add(&flow, job->resin.name);
    }
    if (job->scale_is_default) {
        runnel_flow_add(&flow, job->resin_is_default ? ", a scale of " : " a scale of ");
        runnel_bench_plain(&flow, job->scale.step_g, "g a step");
    }
    if (job->shop_is_default) {
        runnel_flow_add(&flow, job->resin_is_default || job->scale_is_default ? ", a shop at "
                                                                              : " a shop at ");
        runnel_bench_plain(&flow, job->shop_degc, DEGC);
    }
    runnel_flow_end(&flow);
    fputc('\n', out);
}

static void basis_line(runnel_flow *flow, FILE *out, const char *label) {
    runnel_flow_begin(flow, out, 2);
    runnel_flow_add(flow, label);
    runnel_flow_tab(flow, 12);
}

static void write_resin(const runnel_job *job, const runnel_plan *plan, FILE *out) {
    const runnel_resin *resin = &job->resin;
    runnel_flow flow;
    basis_line(&flow, out, "resin");
    runnel_flow_add(&flow, resin->name);
    runnel_flow_add(&flow, job->resin_changed ? ", with the job's own values" : "");
    runnel_flow_end(&flow);
    basis_line(&flow, out, "ratio");
    runnel_bench_ratios(&flow, &job->resin.ratio, &plan->mixture);
    if (job->other_ratio.basis != RUNNEL_BASIS_NONE) {
        runnel_flow_add(&flow, "; the sheet says ");
        runnel_bench_ratio(&flow, &job->other_ratio);
    }
    runnel_flow_end(&flow);
    basis_line(&flow, out, "density");
    runnel_flow_add(&flow, "A ");
    runnel_flow_number(&flow, resin->density_a_g_per_ml, 3, "g/ml");
    runnel_flow_add(&flow, ", B ");
    runnel_flow_number(&flow, resin->density_b_g_per_ml, 3, "g/ml");
    runnel_flow_add(&flow, ", mixed ");
    runnel_flow_number(&flow, plan->mixture.density_g_per_ml, 3, "g/ml");
    runnel_flow_end(&flow);
}

static void write_shop(const runnel_job *job, FILE *out) {
    const runnel_scale *scale = &job->scale;
    runnel_flow flow;
    basis_line(&flow, out, "scale");
    runnel_bench_plain(&flow, scale->step_g, "g a step");
    const bool percent = scale->accuracy_percent > 0, counts = scale->accuracy_counts > 0;
    runnel_flow_add(&flow, percent || counts ? ", right to " : "");
    if (percent)
        runnel_bench_plain(&flow, scale->accuracy_percent, "%");
    runnel_flow_add(&flow, percent && counts ? " or " : "");
    if (counts)
        runnel_bench_plain(&flow, scale->accuracy_counts,
                           scale->accuracy_counts == 1 ? "count" : "counts");
    runnel_flow_add(&flow, percent && counts ? ", the larger of them" : "");
    runnel_flow_end(&flow);
    basis_line(&flow, out, "shop");
    runnel_bench_plain(&flow, job->shop_degc, DEGC);
    if (job->humidity >= 0) {
        runnel_flow_add(&flow, ", ");
        runnel_bench_plain(&flow, 100 * job->humidity, "% humidity");
    }
    runnel_flow_end(&flow);
}

/** How many pieces name their wood: all, some or none. */
static const char *soak_basis(const runnel_job *job) {
    size_t named = 0;
    for (size_t i = 0; i < job->piece_count; i++)
        named += job->pieces[i].wood != NULL;
    if (named == job->piece_count)
        return ", soak by the table of woods";
    return named ? "; the soak is that of the wood in its table, a middling one where none is named"
                 : "; a middling soak, as no wood is named";
}

static bool has_pour_time(const runnel_job *job) {
    for (size_t p = 0; p < job->piece_count; p++) {
        bool any = job->pieces[p].pour_s > 0;
        for (size_t c = 0; c < job->pieces[p].cavity_count && !any; c++)
            any = job->pieces[p].cavities[c].pour_s > 0;
        if (any)
            return true;
    }
    return false;
}

/* How far what is told may be off, and what is made of it. */
static void write_errors(const runnel_job *job, FILE *out) {
    const runnel_band_errors *errors = &job->errors;
    runnel_flow flow;
    basis_line(&flow, out, "errors");
    runnel_bench_plain(&flow, errors->depth_mm, "mm of depth, ");
    runnel_bench_plain(&flow, errors->angle_deg, "deg of a V, ");
    runnel_bench_plain(&flow, errors->flatness_mm, "mm of the board, ");
    runnel_bench_plain(&flow, 100 * errors->soak, "% of the soak");
    runnel_flow_add(&flow, job->errors_are_default ? " (not given, so taken)" : "");
    runnel_flow_add(&flow, job->size_to == RUNNEL_SIZE_HIGH
                               ? "; batches are sized to the high end of them"
                               : "; batches are sized to what is likely");
    runnel_flow_end(&flow);
}

static void write_pour(const runnel_job *job, FILE *out) {
    runnel_flow flow;
    basis_line(&flow, out, "crown");
    runnel_bench_plain(&flow, job->crown_mm, "mm high, to ");
    runnel_bench_plain(&flow, job->margin_mm, "mm beyond the edges");
    runnel_flow_end(&flow);
    basis_line(&flow, out, "walls");
    runnel_flow_add(&flow, job->sealed ? "sealed" : "bare");
    if (job->soak_mm >= 0) {
        runnel_flow_add(&flow, ", soaking up ");
        runnel_bench_plain(&flow, 1000 * job->soak_mm, "ml/m2");
    } else {
        runnel_flow_add(&flow, soak_basis(job));
    }
    runnel_flow_end(&flow);
    basis_line(&flow, out, "cup");
    runnel_bench_plain(&flow, job->cup.diameter_mm, "mm wide, ");
    if (job->cup.fixed_loss_g >= 0) {
        runnel_bench_plain(&flow, job->cup.fixed_loss_g, "g stay in it");
    } else {
        runnel_flow_add(&flow, "left to drain for ");
        runnel_bench_plain(&flow, job->cup.drain_s, "s");
    }
    if (job->brim_mm3 > 0) {
        runnel_flow_add(&flow, ", holding ");
        runnel_bench_plain(&flow, job->brim_mm3 / RUNNEL_MM3_PER_ML, "ml to its brim");
    }
    runnel_flow_end(&flow);
    if (has_pour_time(job)) {
        basis_line(&flow, out, "pouring");
        runnel_flow_add(&flow, "in at most ");
        runnel_bench_plain(&flow, 100 * job->usable_share, "% of the pot life");
        runnel_flow_end(&flow);
    }
    basis_line(&flow, out, "reserve");
    runnel_bench_plain(&flow, 100 * job->reserve, "%");
    runnel_flow_end(&flow);
    write_errors(job, out);
}

/* ---- Cavities ---------------------------------------------------------------------------------
 */

static void write_size(const runnel_plan_cavity *cavity, FILE *out) {
    runnel_flow flow;
    if (!(cavity->width_mm > 0 && cavity->height_mm > 0))
        return;
    char width[64];
    runnel_number_text(cavity->width_mm, 1, width, sizeof width);
    runnel_figures_start(&flow, out, "size");
    runnel_flow_tab(&flow, RUNNEL_FIGURES_POINT - strcspn(width, "."));
    runnel_flow_number(&flow, cavity->width_mm, 1, "x");
    runnel_flow_add(&flow, RUNNEL_STICK);
    runnel_flow_number(&flow, cavity->height_mm, 1, "mm");
    runnel_flow_add(&flow, " (");
    runnel_flow_number(&flow, cavity->width_mm / RUNNEL_MM_PER_INCH, 2, "x");
    runnel_flow_add(&flow, RUNNEL_STICK);
    runnel_flow_number(&flow, cavity->height_mm / RUNNEL_MM_PER_INCH, 2, "in)");
    runnel_flow_end(&flow);
}

static void write_strokes(const runnel_cavity *figures, FILE *out) {
    runnel_flow flow;
    runnel_figures_line(out, "narrowest stroke", figures->narrowest_mm, 2, "mm", "");
    runnel_figures_line(out, "widest stroke", figures->widest_mm, 2, "mm", "");
    if (!figures->uncut_places)
        return;
    runnel_figures_number(&flow, out, "the tip cannot enter", figures->uncut_mm2, 2, "mm2");
    runnel_flow_format(&flow, "in %zu %s", figures->uncut_places,
                       figures->uncut_places == 1 ? "place" : "places");
    runnel_flow_end(&flow);
}

static void write_changes(const runnel_cavity *figures, FILE *out) {
    runnel_flow flow;
    runnel_figures_number(&flow, out, "per 0.1 mm of depth",
                          figures->depth_plus_mm3 / RUNNEL_MM3_PER_ML, 3, "ml");
    runnel_flow_add(&flow, "more when deeper, ");
    runnel_flow_number(&flow, -figures->depth_minus_mm3 / RUNNEL_MM3_PER_ML, 3, "ml");
    runnel_flow_add(&flow, " less when shallower");
    runnel_flow_end(&flow);
    if (figures->angle_mm3_per_degree != 0)
        runnel_figures_line(out, "per degree of the V",
                            figures->angle_mm3_per_degree / RUNNEL_MM3_PER_ML, 3, "ml",
                            "for one degree more");
}

/** The areas of the sections that were asked for, a line each. */
static void write_sections(const runnel_plan_cavity *cavity, FILE *out) {
    for (size_t i = 0; i < cavity->section_count; i++) {
        char level[64], name[96];
        runnel_number_text(cavity->sections[i].level_mm, 2, level, sizeof level);
        snprintf(name, sizeof name, "area at %s mm", level);
        runnel_figures_line(out, name, cavity->sections[i].area_mm2 / 100, 2, "cm2",
                            i ? "" : "the face; deeper ones follow");
    }
}

/* The pours of a deep cavity, from the bottom up. */
static void write_layers(const runnel_plan_cavity *cavity, FILE *out) {
    const runnel_layers *layers = &cavity->layers;
    runnel_flow flow;
    for (size_t i = 0; i < layers->count; i++) {
        const runnel_layer *layer = &layers->items[i];
        char name[64];
        snprintf(name, sizeof name, "layer %zu of %zu", i + 1, layers->count);
        runnel_figures_number(&flow, out, name, layer->volume_mm3 / RUNNEL_MM3_PER_ML, 3, "ml");
        if (isnan(layer->volume_mm3))
            runnel_flow_add(&flow, "by its thickness, ");
        runnel_flow_number(&flow, layer->bottom_mm, 2, "to ");
        runnel_flow_number(&flow, layer->top_mm, 2, "mm deep");
        if (i) {
            runnel_flow_add(&flow, ", ");
            runnel_bench_window(&flow, layer->earliest_s, layer->latest_s);
        }
        runnel_flow_end(&flow);
    }
}

static void write_cavity(const runnel_plan_cavity *cavity, FILE *out) {
    const runnel_cavity *figures = &cavity->figures;
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 2);
    runnel_flow_add(&flow, cavity->piece);
    runnel_flow_add(&flow, " / ");
    runnel_flow_add(&flow, cavity->name);
    runnel_flow_add(&flow, ", ");
    runnel_flow_add(&flow, cavity->colour);
    if (cavity->piece_count > 1)
        runnel_flow_format(&flow, ", in each of %zu" RUNNEL_STICK "pieces", cavity->piece_count);
    runnel_flow_end(&flow);
    write_size(cavity, out);
    runnel_figures_number(&flow, out, "volume", figures->volume_mm3 / RUNNEL_MM3_PER_ML, 3, "ml");
    if (cavity->measured)
        runnel_flow_add(&flow, "measured");
    else
        runnel_size_bound(&flow, figures->volume_error_mm3, 3);
    runnel_flow_end(&flow);
    runnel_figures_number(&flow, out, "likely, with its soak",
                          cavity->band.likely_mm3 / RUNNEL_MM3_PER_ML, 3, "ml");
    runnel_size_band(&flow, &cavity->band, 3);
    runnel_flow_end(&flow);
    runnel_figures_line(out, "footprint at the face", figures->footprint_mm2 / 100, 2, "cm2", "");
    runnel_figures_line(out, "carved walls", figures->wall_mm2 / 100, 2, "cm2", "floors included");
    runnel_figures_line(out, "deepest", figures->deepest_mm, 2, "mm", "");
    if (!cavity->measured) {
        write_strokes(figures, out);
        write_changes(figures, out);
        write_sections(cavity, out);
    }
    write_layers(cavity, out);
    if (cavity->font_file) {
        runnel_figures_start(&flow, out, "font");
        runnel_flow_tab(&flow, 14);
        runnel_flow_add(&flow, cavity->font_file);
        runnel_flow_end(&flow);
    }
    fputc('\n', out);
}

runnel_status runnel_write_size_text(const runnel_job *job, const runnel_plan *plan, FILE *out) {
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 0);
    runnel_bench_title(&flow, job);
    runnel_flow_end(&flow);
    fputc('\n', out);
    runnel_bench_warnings(out, plan);
    write_defaults(job, out);
    runnel_layout_paragraph(out, 0, "Worked out with");
    write_resin(job, plan, out);
    write_shop(job, out);
    write_pour(job, out);
    fputc('\n', out);
    runnel_layout_paragraph(out, 0, "Cavities, each for one piece");
    for (size_t i = 0; i < plan->cavity_count; i++)
        write_cavity(&plan->cavities[i], out);
    if (plan->batch_count > 1) {
        runnel_flow_begin(&flow, out, 0);
        runnel_flow_add(&flow, "Order of pouring: ");
        runnel_bench_order(&flow, plan);
        runnel_flow_end(&flow);
        fputc('\n', out);
    }
    for (size_t i = 0; i < plan->batch_count; i++) {
        if (i)
            fputc('\n', out);
        runnel_size_batch(job, plan, &plan->batches[i], out);
    }
    runnel_bench_nothing(out, plan);
    return runnel_layout_close(out);
}
