/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/units.h"
#include "runnel/write_finish.h"
#include "write/finish_lines.h"

#include <math.h>

static const double mm2_per_cm2 = 100;

static bool is_taken(const runnel_sealing *sealing, runnel_sealing_taken what) {
    return (sealing->taken & what) != 0;
}

/* ---- What it is worked out with ---------------------------------------------------------------
 */

static void add_kind(runnel_flow *flow, const runnel_sealing *sealing) {
    runnel_flow_add(flow, sealing->kind == RUNNEL_SEALER_SHELLAC ? "dewaxed " : "");
    runnel_flow_add(flow, runnel_sealer_kind_of(sealing->kind)->name);
}

/* What nobody has told. */
static void write_taken(const runnel_sealing *sealing, FILE *out) {
    runnel_flow flow;
    const unsigned shown = RUNNEL_TAKEN_KIND | RUNNEL_TAKEN_CUT | RUNNEL_TAKEN_COVERAGE |
                           RUNNEL_TAKEN_COATS | RUNNEL_TAKEN_LOSS;
    static const struct {
        runnel_sealing_taken bit;
        const char *text;
    } words[] = {{RUNNEL_TAKEN_KIND, "the sealer"},
                 {RUNNEL_TAKEN_CUT, "its cut"},
                 {RUNNEL_TAKEN_COVERAGE, "its coverage (cans say 7 to 12" RUNNEL_STICK "m2/L)"},
                 {RUNNEL_TAKEN_COATS, "the coats"},
                 {RUNNEL_TAKEN_LOSS, "the loss"}};
    const char *between = "Not given, so taken: ";
    if (!(sealing->taken & shown))
        return;
    runnel_flow_begin(&flow, out, 0);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        if (!is_taken(sealing, words[i].bit))
            continue;
        runnel_flow_add(&flow, between);
        runnel_flow_add(&flow, words[i].text);
        between = ", ";
    }
    runnel_flow_add(&flow, ".");
    runnel_flow_end(&flow);
    fputc('\n', out);
}

static void write_kind(const runnel_sealing *sealing, FILE *out) {
    runnel_flow flow;
    runnel_finish_basis(&flow, out, "sealer");
    add_kind(&flow, sealing);
    if (sealing->cut_lb_per_gal > 0) {
        runnel_flow_add(&flow, ", ");
        runnel_bench_plain(&flow, sealing->cut_lb_per_gal, "lb cut");
        runnel_flow_add(&flow, ": ");
        runnel_flow_number(&flow, sealing->shellac.lac_g_per_l / 10, 1, "g of flake");
        runnel_flow_add(&flow, " to 100" RUNNEL_STICK "ml of spirit");
    }
    if (sealing->sealer.thinner > 0) {
        runnel_flow_add(&flow, ", thinned with ");
        runnel_bench_plain(&flow, 100 * sealing->sealer.thinner, "% of its volume");
    }
    runnel_flow_end(&flow);
}

static void write_film(const runnel_sealing *sealing, FILE *out) {
    const runnel_sealer_need *all = &sealing->all;
    runnel_flow flow;
    runnel_finish_basis(&flow, out, "coverage");
    runnel_flow_number(&flow, all->spread_m2, 1, "m2/L");
    runnel_flow_add(&flow, " (");
    runnel_flow_number(&flow, all->spread_m2 / RUNNEL_M2_PER_L_OF_FT2_PER_GAL, 0, "ft2/US gal)");
    runnel_flow_end(&flow);
    runnel_finish_basis(&flow, out, "film");
    runnel_flow_number(&flow, 1000 * all->wet_mm, 0, "\xC2\xB5m wet");
    if (!isnan(all->dry_mm)) {
        runnel_flow_add(&flow, ", ");
        runnel_flow_number(&flow, 1000 * all->dry_mm, 0, "\xC2\xB5m dry");
    }
    runnel_flow_end(&flow);
}

static void write_basis(const runnel_sealing *sealing, FILE *out) {
    runnel_flow flow;
    runnel_layout_paragraph(out, 0, "Worked out with");
    write_kind(sealing, out);
    write_film(sealing, out);
    runnel_finish_basis(&flow, out, "coats");
    runnel_flow_format(&flow, "%zu", sealing->sealer.coats);
    runnel_flow_end(&flow);
    runnel_finish_basis(&flow, out, "lost");
    runnel_bench_plain(&flow, 100 * sealing->sealer.loss, "% in brush and pot");
    runnel_flow_end(&flow);
    runnel_finish_basis(&flow, out, "face");
    if (sealing->face_margin_mm > 0) {
        runnel_bench_plain(&flow, sealing->face_margin_mm, "mm beside the edges");
        runnel_flow_add(&flow, is_taken(sealing, RUNNEL_TAKEN_FACE) ? ", as far as the crown" : "");
    } else {
        runnel_flow_add(&flow, "none of it, the walls alone");
    }
    runnel_flow_end(&flow);
}

/* ---- Amounts ----------------------------------------------------------------------------------
 */

static double ml(double volume_mm3) {
    return volume_mm3 / RUNNEL_MM3_PER_ML;
}

/* "one coat" and "2 coats", of one kind of piece or of all. */
static void write_coats(const runnel_sealing *sealing, const runnel_sealer_need *need, FILE *out) {
    char label[40];
    runnel_figures_line(out, "one coat", ml(need->coat_mm3), 1, "ml", "");
    if (sealing->sealer.coats < 2)
        return;
    snprintf(label, sizeof label, "%zu coats", sealing->sealer.coats);
    runnel_figures_line(out, label, ml(need->all_mm3), 1, "ml", "");
}

static void write_areas(double wall_mm2, double face_mm2, FILE *out) {
    runnel_figures_line(out, "carved walls", wall_mm2 / mm2_per_cm2, 1, "cm2", "floors included");
    runnel_figures_line(out, "face beside them", face_mm2 / mm2_per_cm2, 1, "cm2", "");
}

static void write_part(const runnel_sealing *sealing, const runnel_sealing_part *part, FILE *out) {
    runnel_flow flow;
    fputc('\n', out);
    runnel_flow_begin(&flow, out, 2);
    runnel_flow_add(&flow, part->piece);
    if (part->count > 1)
        runnel_flow_format(&flow, ", each of %zu" RUNNEL_STICK "pieces", part->count);
    runnel_flow_end(&flow);
    write_areas(part->wall_mm2, part->face_mm2, out);
    write_coats(sealing, &part->one, out);
}

static void write_all(const runnel_sealing *sealing, FILE *out) {
    const runnel_sealer_need *all = &sealing->all;
    size_t pieces = 0;
    for (size_t i = 0; i < sealing->part_count; i++)
        pieces += sealing->parts[i].count;
    if (pieces > 1) {
        fputc('\n', out);
        runnel_layout_paragraph(out, 2, "all pieces");
        write_areas(sealing->wall_mm2, sealing->face_mm2, out);
        write_coats(sealing, all, out);
    }
    runnel_figures_line(out, "of that lost", ml(all->lost_mm3), 1, "ml", "in brush and pot");
    if (sealing->sealer.thinner > 0) {
        runnel_figures_line(out, "of that sealer", ml(all->all_product_mm3), 1, "ml",
                            "as it comes");
        runnel_figures_line(out, "of that thinner", ml(all->all_thinner_mm3), 1, "ml", "");
    }
}

static void write_making(const runnel_job *job, const runnel_sealing *sealing, FILE *out) {
    runnel_flow flow;
    if (sealing->cut_lb_per_gal > 0) {
        runnel_finish_heading(out, "Dissolve for all coats");
        runnel_figures_line(out, "flake", sealing->dissolve.lac_g, 1, "g", "dry");
        runnel_figures_number(&flow, out, "spirit", ml(sealing->dissolve.solvent_mm3), 1, "ml");
        runnel_flow_add(&flow, "or ");
        runnel_flow_number(&flow, sealing->dissolve.solvent_g, 1, "g");
        runnel_flow_end(&flow);
        runnel_figures_line(out, "makes", ml(sealing->all.all_product_mm3), 1, "ml",
                            "use it fresh; old shellac stays soft");
    } else if (sealing->weighing.total_g > 0) {
        int decimals = runnel_bench_decimals(&job->scale);
        runnel_finish_heading(out, "Weigh for each coat, no tint in it");
        runnel_figures_line(out, "part A (resin)", sealing->weighing.part_a_g, decimals, "g", "");
        runnel_figures_line(out, "part B (hardener)", sealing->weighing.part_b_g, decimals, "g",
                            "");
    }
}

/* ---- Times ------------------------------------------------------------------------------------
 */

static void write_source(const char *source, FILE *out) {
    runnel_flow flow;
    if (!source)
        return;
    runnel_figures_start(&flow, out, "source");
    runnel_flow_tab(&flow, RUNNEL_FIGURES_POINT - 1);
    runnel_flow_add(&flow, source);
    runnel_flow_end(&flow);
}

static void write_times(const runnel_sealing *sealing, FILE *out) {
    const runnel_drying *drying = &sealing->drying;
    const runnel_sealer_times *times = &sealing->times;
    const bool is_resin = sealing->kind == RUNNEL_SEALER_RESIN;
    runnel_finish_heading(out, "Times");
    if (!isnan(drying->handle_s))
        runnel_finish_times(out, "dry to the touch", drying->handle_s, drying->handle_s, "");
    if (sealing->sealer.coats > 1)
        runnel_finish_times(out, "coat to coat", drying->recoat_from_s, drying->recoat_to_s, "");
    runnel_finish_times(out, is_resin ? "tacky, to be poured on" : "hard, to be poured on",
                        drying->hard_s, drying->hard_s, "after the last coat");
    if (sealing->times_known)
        runnel_finish_times(out, "so the resin may follow", times->ready_from_s, times->ready_to_s,
                            "after the first coat");
    if (is_resin && !isnan(sealing->until_s))
        runnel_finish_latest(out, "but no later than", sealing->until_s,
                             "after the last coat; then wash and scuff it first");
    if (!is_resin)
        write_source(drying->source, out);
    if (!is_resin && drying->source)
        runnel_layout_paragraph(out, RUNNEL_FIGURES_LABEL,
                                "Cold or damp air takes longer. Press a nail into it: no mark may "
                                "stay.");
}

runnel_status runnel_write_seal_text(const runnel_job *job, const runnel_sealing *sealing,
                                     FILE *out) {
    runnel_finish_head(out, "Sealing", job, &sealing->plan);
    write_taken(sealing, out);
    write_basis(sealing, out);
    runnel_finish_heading(out, "Sealer");
    for (size_t i = 0; i < sealing->part_count; i++)
        write_part(sealing, &sealing->parts[i], out);
    write_all(sealing, out);
    write_making(job, sealing, out);
    write_times(sealing, out);
    runnel_finish_order(out, &sealing->order, &sealing->faults,
                        is_taken(sealing, RUNNEL_TAKEN_ORDER));
    runnel_finish_cautions(out, sealing->steps, sealing->cases);
    return runnel_layout_close(out);
}
