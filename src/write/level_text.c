/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/units.h"
#include "runnel/write_finish.h"
#include "write/finish_lines.h"

#include <math.h>
#include <string.h>

/* Strokes or letters that are listed for one cavity; the JSON has them all. */
enum { LISTED_MOST = 30 };

/* Points of the numbers before and after, and of what is said behind. */
enum { BEFORE = 30, AFTER = 44, PLACES = 2 };

static bool is_taken(const runnel_levelling_plan *levelling, runnel_levelling_taken what) {
    return (levelling->taken & what) != 0;
}

/* ---- What it is worked out with ---------------------------------------------------------------
 */

static void write_taken(const runnel_levelling_plan *levelling, FILE *out) {
    static const struct {
        runnel_levelling_taken bit;
        const char *text;
    } words[] = {{RUNNEL_TAKEN_UNDER, "that nothing lies under the zero"},
                 {RUNNEL_TAKEN_PASS, "the depth of a pass"},
                 {RUNNEL_TAKEN_TAKE_OFF, "what sanding takes off the face"}};
    const char *between = "Not given, so taken: ";
    bool any = false;
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 0);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        if (!is_taken(levelling, words[i].bit))
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

static void write_zero(const runnel_levelling_plan *levelling, FILE *out) {
    const runnel_standoff *standoff = &levelling->standoff;
    const size_t count = levelling->under.count;
    runnel_flow flow;
    runnel_finish_basis(&flow, out, "zero");
    switch (levelling->under.what) {
    case RUNNEL_UNDER_NOTHING:
        runnel_flow_add(&flow, "on the bare wood");
        break;
    case RUNNEL_UNDER_PAPER:
        runnel_flow_format(&flow, "on %zu" RUNNEL_STICK "%s of paper: ", count,
                           count == 1 ? "sheet" : "sheets");
        break;
    case RUNNEL_UNDER_TAPE:
        runnel_flow_format(&flow, "on %zu" RUNNEL_STICK "%s of tape: ", count,
                           count == 1 ? "layer" : "layers");
        break;
    case RUNNEL_UNDER_MEASURED:
        runnel_flow_add(&flow, "on what was measured: ");
        break;
    }
    if (levelling->under.what != RUNNEL_UNDER_NOTHING)
        runnel_bench_plain(&flow, standoff->likely_mm, "mm");
    if (standoff->high_mm > standoff->low_mm) {
        runnel_flow_add(&flow, " (");
        runnel_bench_plain(&flow, standoff->low_mm, "to");
        runnel_flow_add(&flow, RUNNEL_STICK);
        runnel_bench_plain(&flow, standoff->high_mm, "mm; measure a stack of ten)");
    }
    runnel_flow_end(&flow);
}

static void basis(FILE *out, const char *label, double value_mm, const char *unit) {
    runnel_flow flow;
    runnel_finish_basis(&flow, out, label);
    runnel_bench_plain(&flow, value_mm, unit);
    runnel_flow_end(&flow);
}

static void write_basis(const runnel_levelling_plan *levelling, FILE *out) {
    const runnel_levelling *how = &levelling->levelling;
    runnel_layout_paragraph(out, 0, "Worked out with");
    basis(out, "crown", how->crown_mm, "mm");
    write_zero(levelling, out);
    if (levelling->below_mm > 0)
        basis(out, "cutter", levelling->below_mm, "mm below that zero");
    basis(out, "pass", how->pass_mm, "mm at most");
    basis(out, "sanding", how->sand_mm, "mm of wood off the face");
    if (how->high_spot_mm > 0)
        basis(out, "high spot", how->high_spot_mm, "mm above where the zero was set");
    if (levelling->veneer_mm > 0)
        basis(out, "veneer", levelling->veneer_mm, "mm");
}

/* ---- The crown --------------------------------------------------------------------------------
 */

static void write_left(const runnel_levelling_plan *levelling, FILE *out) {
    runnel_flow flow;
    runnel_figures_number(&flow, out, "crown left to sand", levelling->steps.left_mm, 2, "mm");
    if (levelling->left_high_mm > levelling->left_low_mm) {
        runnel_flow_number(&flow, levelling->left_low_mm, 2, "to");
        runnel_flow_add(&flow, RUNNEL_STICK);
        runnel_flow_number(&flow, levelling->left_high_mm, 2, "mm");
    }
    runnel_flow_end(&flow);
}

/* How deep the passes go, in hundredths that add up to the cut that is told. */
static void say_passes(runnel_flow *flow, const runnel_level_steps *steps) {
    const double hundredths = 100;
    size_t cut = (size_t)llround(hundredths * steps->cut_mm), passes = steps->passes;
    if (!passes)
        return;
    size_t each = cut / passes, deeper = cut % passes;
    if (deeper)
        runnel_flow_format(flow, "%zu of ", deeper);
    else
        runnel_flow_add(flow, passes == 1 ? "of " : "of each ");
    runnel_flow_number(flow, (double)(each + (deeper > 0)) / hundredths, 2, "mm");
    if (!deeper)
        return;
    runnel_flow_format(flow, ", then %zu of ", passes - deeper);
    runnel_flow_number(flow, (double)each / hundredths, 2, "mm");
}

static void write_crown(const runnel_levelling_plan *levelling, FILE *out) {
    const runnel_level_steps *steps = &levelling->steps;
    runnel_flow flow;
    runnel_finish_heading(out, "Cutter and paper");
    runnel_figures_line(out, "the cutter takes off", steps->cut_mm, 2, "mm", "");
    runnel_figures_start(&flow, out, "passes");
    runnel_flow_aligned(&flow, RUNNEL_FIGURES_POINT, (double)steps->passes, 0,
                        RUNNEL_FIGURES_PLACES, "");
    say_passes(&flow, steps);
    runnel_flow_end(&flow);
    write_left(levelling, out);
    runnel_figures_line(out, "sanded off in all", steps->sanded_mm, 2, "mm", "with the wood");
    runnel_figures_line(out, "the face loses", steps->face_mm, 2, "mm",
                        "off letters and wood alike");
    if (levelling->veneer_mm > 0)
        runnel_figures_line(out, "veneer left", levelling->veneer_left_mm, 2, "mm", "");
    runnel_finish_times(out, "not before", levelling->sandable_s, levelling->sandable_s,
                        "after the pour; a nail must leave no mark");
}

/* ---- Cavities ---------------------------------------------------------------------------------
 */

static void row(FILE *out, const char *label, double before, double after, const char *unit,
                const char *note) {
    runnel_flow flow;
    runnel_figures_start(&flow, out, label);
    runnel_flow_aligned(&flow, BEFORE, before, PLACES, PLACES, unit);
    runnel_flow_aligned(&flow, AFTER, after, PLACES, PLACES, unit);
    runnel_flow_add(&flow, note);
    runnel_flow_end(&flow);
}

static void write_stroke(const runnel_level_stroke *stroke, FILE *out) {
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 6);
    runnel_flow_add(&flow, "at x ");
    runnel_flow_number(&flow, stroke->at.x_mm, 1, "mm");
    runnel_flow_add(&flow, ", y ");
    runnel_flow_number(&flow, stroke->at.y_mm, 1, "mm");
    runnel_flow_add(&flow, ", ");
    runnel_flow_number(&flow, stroke->before_mm, 2, "mm wide for ");
    runnel_flow_number(&flow, stroke->length_mm, 1, "mm: ");
    if (stroke->after_mm > 0)
        runnel_flow_number(&flow, stroke->after_mm, 2, "mm left");
    else
        runnel_flow_add(&flow, "gone");
    runnel_flow_end(&flow);
}

/* What becomes of the strokes of one letter. */
typedef struct lost_letter {
    size_t gone, thin;
    double widest_gone_mm, least_left_mm;
} lost_letter;

static lost_letter letter_of(const runnel_levelling_cavity *levelled, size_t place) {
    lost_letter letter = {0, 0, 0, INFINITY};
    for (size_t i = 0; i < levelled->stroke_count; i++) {
        const runnel_level_stroke *stroke = &levelled->strokes[i].stroke;
        if (levelled->strokes[i].place != place)
            continue;
        bool gone = !(stroke->after_mm > 0);
        letter.gone += gone;
        letter.thin += !gone;
        if (gone)
            letter.widest_gone_mm = fmax(letter.widest_gone_mm, stroke->before_mm);
        else
            letter.least_left_mm = fmin(letter.least_left_mm, stroke->after_mm);
    }
    return letter;
}

static void write_letter(const runnel_levelling_cavity *levelled,
                         const runnel_levelling_stroke *first, FILE *out) {
    const lost_letter letter = letter_of(levelled, first->place);
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 6);
    runnel_flow_add(&flow, first->letter);
    runnel_flow_tab(&flow, 10);
    if (letter.gone) {
        runnel_flow_format(&flow, "%zu gone, up to ", letter.gone);
        runnel_flow_number(&flow, letter.widest_gone_mm, 2, "mm wide");
    }
    runnel_flow_add(&flow, letter.gone && letter.thin ? "; " : "");
    if (letter.thin) {
        runnel_flow_format(&flow, "%zu left thin, down to ", letter.thin);
        runnel_flow_number(&flow, letter.least_left_mm, 2, "mm");
    }
    runnel_flow_end(&flow);
}

/* Letters once each, at their first stroke; other strokes one by one. */
static bool is_listed(const runnel_levelling_cavity *levelled, size_t index) {
    for (size_t i = 0; levelled->strokes[index].letter && i < index; i++)
        if (levelled->strokes[i].place == levelled->strokes[index].place)
            return false;
    return true;
}

static void write_strokes(const runnel_levelling_plan *levelling,
                          const runnel_levelling_cavity *levelled, FILE *out) {
    const size_t gone = levelled->figures.gone_count;
    size_t listed = 0;
    runnel_flow flow;
    if (!levelled->stroke_count)
        return;
    runnel_flow_begin(&flow, out, RUNNEL_FIGURES_LABEL);
    runnel_flow_format(&flow, "%zu %s gone, %zu left no wider than ", gone,
                       gone == 1 ? "stroke" : "strokes", levelled->stroke_count - gone);
    runnel_bench_plain(&flow, levelling->thin_mm, "mm:");
    runnel_flow_end(&flow);
    for (size_t i = 0; i < levelled->stroke_count; i++) {
        if (!is_listed(levelled, i) || listed++ >= LISTED_MOST)
            continue;
        if (levelled->strokes[i].letter)
            write_letter(levelled, &levelled->strokes[i], out);
        else
            write_stroke(&levelled->strokes[i].stroke, out);
    }
    if (listed <= LISTED_MOST)
        return;
    runnel_flow_begin(&flow, out, 6);
    runnel_flow_format(&flow, "and %zu more, all of them in the JSON", listed - LISTED_MOST);
    runnel_flow_end(&flow);
}

static void write_figures(const runnel_levelled *figures, FILE *out) {
    char lost[40];
    runnel_number_text(100 * figures->lost, 1, lost, sizeof lost - 10);
    size_t end = strlen(lost);
    snprintf(lost + end, sizeof lost - end, RUNNEL_STICK "%% less");
    runnel_flow flow;
    runnel_flow_begin(&flow, out, BEFORE - 2);
    runnel_flow_add(&flow, "before");
    runnel_flow_tab(&flow, AFTER - 2);
    runnel_flow_add(&flow, "after");
    runnel_flow_end(&flow);
    row(out, "footprint", figures->footprint_before_mm2 / 100, figures->footprint_mm2 / 100, "cm2",
        lost);
    row(out, "length of the edge", figures->border_before_mm, figures->border_mm, "mm", "");
    row(out, "narrowest stroke", figures->narrowest_before_mm, figures->narrowest_mm, "mm",
        figures->narrowest_mm > 0 ? "" : "gone");
    row(out, "widest stroke", figures->widest_before_mm, figures->widest_mm, "mm", "");
    row(out, "deepest", figures->deepest_before_mm, figures->deepest_mm, "mm", "");
    if (!isnan(figures->narrowing_mm))
        runnel_figures_line(out, "strokes get narrower by", figures->narrowing_mm, 2, "mm", "");
}

static void write_cavity(const runnel_levelling_plan *levelling,
                         const runnel_levelling_cavity *levelled, FILE *out) {
    const runnel_plan_cavity *planned = levelled->planned;
    runnel_flow flow;
    fputc('\n', out);
    runnel_flow_begin(&flow, out, 2);
    runnel_flow_add(&flow, planned->piece);
    runnel_flow_add(&flow, " / ");
    runnel_flow_add(&flow, planned->name);
    if (planned->piece_count > 1)
        runnel_flow_format(&flow, ", in each of %zu" RUNNEL_STICK "pieces", planned->piece_count);
    runnel_flow_end(&flow);
    if (!levelled->known) {
        runnel_layout_paragraph(out, RUNNEL_FIGURES_LABEL, "measured, so its shape is not known");
        return;
    }
    write_figures(&levelled->figures, out);
    if (levelled->dip_mm > 0)
        runnel_figures_line(out, "may dip by, at most", levelled->dip_mm, 2, "mm",
                            "over the deepest place as it hardens, from the crown down");
    write_strokes(levelling, levelled, out);
}

runnel_status runnel_write_level_text(const runnel_job *job, const runnel_levelling_plan *levelling,
                                      FILE *out) {
    runnel_flow flow;
    runnel_finish_head(out, "Levelling", job, &levelling->plan);
    write_taken(levelling, out);
    write_basis(levelling, out);
    write_crown(levelling, out);
    fputc('\n', out);
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_add(&flow, "Cavities, when ");
    runnel_flow_number(&flow, levelling->steps.face_mm, 2, "mm are off the face");
    runnel_flow_end(&flow);
    for (size_t i = 0; i < levelling->cavity_count; i++)
        write_cavity(levelling, &levelling->cavities[i], out);
    runnel_finish_cautions(
        out, RUNNEL_STEP_BIT(RUNNEL_STEP_LEVEL) | RUNNEL_STEP_BIT(RUNNEL_STEP_SAND), 0);
    return runnel_layout_close(out);
}
