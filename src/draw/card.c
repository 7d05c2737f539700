/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The mixing card on paper: one cup a block, with what the scale has to show in figures that can be
 * read at arm's length.
 */
#include "draw/card.h"
#include "draw/cup.h"
#include "draw/note.h"
#include "draw/view.h"
#include "runnel/draw.h"
#include "runnel/units.h"
#include "write/bench.h"
#include "write/card_doc.h"
#include "write/card_words.h"
#include "write/doc.h"

#include <math.h>

/* Sizes of a block, mm. */
static const double pad_mm = 2.5, fact_mm = 22, line_mm = 9, blank_mm = 7, head_mm = 4;
/* Below this width the picture of the cup and the figures are smaller. */
static const double narrow_mm = 150, tiny_mm = 110;

/* Columns of a block, mm: the picture of the cup, the gap beside it, the three columns of figures,
 * and the height of a row. */
typedef struct columns {
    double cup_mm, gap_mm, shows_mm, alone_mm, volume_mm, row_mm;
} columns;

static const columns wide = {28, 3, 42, 24, 20, 11}, middle = {20, 3, 33, 19, 17, 9},
                     small = {13, 2, 23, 15.5, 15, 7.5};

/* The card in work. */
typedef struct card {
    const runnel_job *job;
    const runnel_plan *plan;
    const runnel_look *look;
    runnel_leaf leaf;
    bool narrow;
    const columns *at;
    runnel_type figure;
    int decimals;
} card;

/* ---- Head ------------------------------------------------------------------------------------ */

static const char *title_of(card *c) {
    runnel_flow flow;
    runnel_flow_add(runnel_leaf_say(&c->leaf, &flow), "Mixing card: ");
    runnel_bench_title(&flow, c->job);
    return runnel_leaf_said(&c->leaf, &flow);
}

static void draw_head(card *c) {
    runnel_leaf *leaf = &c->leaf;
    runnel_doc doc = {.count = 0};
    runnel_flow flow;
    runnel_doc_begin(&doc, "Mixing card", c->job, c->plan);
    runnel_note_blocks(leaf, &doc);
    for (int i = 0; i < RUNNEL_CARD_HEADS; i++) {
        const runnel_card_head head = (runnel_card_head)i;
        const char *label = runnel_card_head_label(c->plan, head);
        if (!label)
            continue;
        runnel_card_say_head(runnel_leaf_say(leaf, &flow), c->job, c->plan, head);
        runnel_leaf_fact(leaf, label, fact_mm, runnel_leaf_said(leaf, &flow));
    }
}

/* ---- What goes on the scale ------------------------------------------------------------------ */

/* What the scale shows, with its unit. @param text 80 bytes */
static const char *shown(const card *c, const runnel_card_pour *pour, char *text) {
    char digits[64];
    snprintf(text, 80, "%s" RUNNEL_STICK "g",
             runnel_number_text(pour->shows_g, c->decimals, digits, sizeof digits));
    return text;
}

/* The largest type in which all of a cup's figures have room in their column. */
static runnel_type figure_of(card *c, const runnel_card_pour *pours, size_t count) {
    static const runnel_type smaller[] = {RUNNEL_TYPE_FIGURE, RUNNEL_TYPE_TITLE, RUNNEL_TYPE_HEAD,
                                          RUNNEL_TYPE_STRONG, RUNNEL_TYPE_SMALL};
    size_t type = 0;
    while (smaller[type] != c->figure)
        type++;
    for (size_t i = 0; i < count; i++) {
        char text[80];
        shown(c, &pours[i], text);
        while (smaller[type] != RUNNEL_TYPE_SMALL &&
               runnel_canvas_text_width(c->leaf.canvas, smaller[type], text) > c->at->shows_mm)
            type++;
    }
    return smaller[type];
}

static void draw_pour(card *c, const runnel_card_pour *pour, runnel_type figure, int number,
                      double x_mm, double y_mm, double width_mm) {
    runnel_canvas *canvas = c->leaf.canvas;
    const double alone_mm = c->at->alone_mm, volume_mm = c->at->volume_mm;
    const double shows_mm = c->at->shows_mm;
    char text[80], digits[64];
    double right = x_mm + width_mm, low = y_mm + (c->narrow ? 1.6 : 3.6);
    snprintf(text, sizeof text, "%d", number);
    runnel_canvas_text(canvas, RUNNEL_TYPE_STRONG, RUNNEL_SIDE_LEFT, x_mm, low, 0, text);
    runnel_canvas_text(canvas, RUNNEL_TYPE_BODY, RUNNEL_SIDE_LEFT, x_mm + 4.5, low,
                       width_mm - 4.5 - shows_mm - alone_mm - volume_mm,
                       c->narrow ? pour->short_text : pour->text);
    double lower_mm = runnel_canvas_text_height(canvas, c->figure, 0, "0") -
                      runnel_canvas_text_height(canvas, figure, 0, "0");
    runnel_canvas_text(canvas, figure, RUNNEL_SIDE_RIGHT, right - volume_mm - alone_mm - shows_mm,
                       y_mm + 0.7 * lower_mm, shows_mm, shown(c, pour, text));
    if (!isnan(pour->alone_g)) {
        snprintf(text, sizeof text, "%s" RUNNEL_STICK "g",
                 runnel_number_text(pour->alone_g, c->decimals, digits, sizeof digits));
        runnel_canvas_text(canvas, RUNNEL_TYPE_BODY, RUNNEL_SIDE_RIGHT,
                           right - volume_mm - alone_mm, low, alone_mm, text);
    }
    if (!isnan(pour->volume_ml)) {
        snprintf(text, sizeof text, "%s" RUNNEL_STICK "ml",
                 runnel_number_text(pour->volume_ml, 1, digits, sizeof digits));
        runnel_canvas_text(canvas, RUNNEL_TYPE_BODY, RUNNEL_SIDE_RIGHT, right - volume_mm, low,
                           volume_mm, text);
    }
}

static void draw_columns(card *c, double x_mm, double y_mm, double width_mm) {
    runnel_canvas *canvas = c->leaf.canvas;
    const double alone_mm = c->at->alone_mm, volume_mm = c->at->volume_mm;
    const double shows_mm = c->at->shows_mm;
    double right = x_mm + width_mm;
    runnel_canvas_text(canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_RIGHT,
                       right - volume_mm - alone_mm - shows_mm, y_mm, shows_mm, "SCALE SHOWS");
    runnel_canvas_text(canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_RIGHT, right - volume_mm - alone_mm,
                       y_mm, alone_mm, "alone");
    runnel_canvas_text(canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_RIGHT, right - volume_mm, y_mm,
                       volume_mm, "volume");
}

/* The picture on the left, the figures on the right. @return their height */
static double draw_weighing(card *c, const runnel_weighing *weighing) {
    runnel_leaf *leaf = &c->leaf;
    runnel_card_pour pours[RUNNEL_CARD_POURS];
    size_t count = runnel_card_pours(weighing, pours);
    const double cup_mm = c->at->cup_mm, gap_mm = c->at->gap_mm;
    const double row_mm = c->at->row_mm, rows_mm = head_mm + row_mm * (double)count;
    double x_mm = leaf->left_mm + pad_mm, y_mm = leaf->y_mm;
    double width_mm = runnel_leaf_width(leaf) - 2 * pad_mm - cup_mm - gap_mm;
    runnel_cup_draw(leaf->canvas, c->job, weighing, !c->narrow,
                    &(runnel_ink_box){x_mm, y_mm, cup_mm, rows_mm});
    draw_columns(c, x_mm + cup_mm + gap_mm, y_mm, width_mm);
    const runnel_type figure = figure_of(c, pours, count);
    for (size_t i = 0; i < count; i++)
        draw_pour(c, &pours[i], figure, (int)i + 1, x_mm + cup_mm + gap_mm,
                  y_mm + head_mm + row_mm * (double)i, width_mm);
    return rows_mm;
}

/* ---- Blocks ---------------------------------------------------------------------------------- */

/* A label and a text inside of a block. @return the height; nothing is drawn with `dry` */
static double fact(card *c, const char *label, const char *text, double y_mm, bool dry) {
    runnel_canvas *canvas = c->leaf.canvas;
    double x_mm = c->leaf.left_mm + pad_mm, width_mm = runnel_leaf_width(&c->leaf) - 2 * pad_mm;
    if (!dry) {
        runnel_canvas_text(canvas, RUNNEL_TYPE_STRONG, RUNNEL_SIDE_LEFT, x_mm, y_mm, 0, label);
        runnel_canvas_text(canvas, RUNNEL_TYPE_BODY, RUNNEL_SIDE_LEFT, x_mm + fact_mm, y_mm,
                           width_mm - fact_mm, text);
    }
    return runnel_canvas_text_height(canvas, RUNNEL_TYPE_BODY, width_mm - fact_mm, text) + 0.5;
}

/* What is said of a cup below its figures. @return the height of all */
static double facts(card *c, const runnel_card_cup *of, double y_mm, bool dry) {
    runnel_flow flow;
    double from_mm = y_mm;
    for (int i = 0; i < RUNNEL_CARD_FACTS; i++) {
        const runnel_card_fact kind = (runnel_card_fact)i;
        const char *label = runnel_card_fact_label(of, kind);
        if (!label)
            continue;
        runnel_card_say_fact(runnel_leaf_say(&c->leaf, &flow), of, kind);
        y_mm += fact(c, label, runnel_leaf_said(&c->leaf, &flow), y_mm, dry);
    }
    return y_mm - from_mm;
}

static void draw_blank(card *c, double x_mm, double y_mm, double width_mm, const char *before,
                       const char *behind) {
    runnel_canvas *canvas = c->leaf.canvas;
    double first = runnel_canvas_text_width(canvas, RUNNEL_TYPE_BODY, before) + 1.5;
    double last = runnel_canvas_text_width(canvas, RUNNEL_TYPE_BODY, behind) + 1;
    runnel_canvas_text(canvas, RUNNEL_TYPE_BODY, RUNNEL_SIDE_LEFT, x_mm, y_mm, 0, before);
    runnel_canvas_line(canvas, x_mm + first, y_mm + 4, x_mm + width_mm - last - 2, y_mm + 4,
                       RUNNEL_LEAF_HAIR);
    runnel_canvas_text(canvas, RUNNEL_TYPE_BODY, RUNNEL_SIDE_LEFT, x_mm + width_mm - last - 1, y_mm,
                       0, behind);
}

/* Where the pen goes: what was really weighed, and the clock. */
static void draw_pen(card *c, const runnel_weighing *weighing, double y_mm) {
    double x_mm = c->leaf.left_mm + pad_mm, width_mm = runnel_leaf_width(&c->leaf) - 2 * pad_mm;
    double part = width_mm / 3;
    draw_blank(c, x_mm, y_mm, part, "really A", "g");
    if (weighing->tint_g > 0)
        draw_blank(c, x_mm + part, y_mm, part, "tint", "g");
    draw_blank(c, x_mm + 2 * part, y_mm, part, "B", "g");
    y_mm += blank_mm;
    draw_blank(c, x_mm, y_mm, part, "B in at", "h");
    draw_blank(c, x_mm + part, y_mm, part, "use by", "h");
    draw_blank(c, x_mm + 2 * part, y_mm, part, "on", "");
}

static const char *name_block(card *c, const runnel_card_cup *of) {
    runnel_flow flow;
    runnel_card_name(runnel_leaf_say(&c->leaf, &flow), of);
    return runnel_leaf_said(&c->leaf, &flow);
}

static double name_height(card *c, const runnel_card_cup *of) {
    const double air_mm = 1.5;
    return runnel_canvas_text_height(c->leaf.canvas, RUNNEL_TYPE_STRONG,
                                     runnel_leaf_width(&c->leaf) - 2 * pad_mm, name_block(c, of)) +
           air_mm;
}

static double block_height(card *c, const runnel_card_cup *of) {
    runnel_card_pour pours[RUNNEL_CARD_POURS];
    size_t count = runnel_card_pours(runnel_card_weighing(of), pours);
    double rows_mm = head_mm + c->at->row_mm * (double)count;
    return pad_mm + name_height(c, of) + rows_mm + 2 + facts(c, of, 0, true) + 2 * blank_mm + 2;
}

/* One cup, or all of a batch that was not dealt out. */
static void draw_block(card *c, const runnel_card_cup *of) {
    runnel_leaf *leaf = &c->leaf;
    const runnel_weighing *weighing = runnel_card_weighing(of);
    const double height_mm = block_height(c, of), name_mm = name_height(c, of);
    runnel_leaf_need(leaf, height_mm);
    const double top_mm = leaf->y_mm;
    leaf->y_mm += pad_mm;
    runnel_canvas_text(leaf->canvas, RUNNEL_TYPE_STRONG, RUNNEL_SIDE_LEFT, leaf->left_mm + pad_mm,
                       leaf->y_mm, runnel_leaf_width(leaf) - 2 * pad_mm, name_block(c, of));
    leaf->y_mm += name_mm;
    leaf->y_mm += draw_weighing(c, weighing) + 2;
    leaf->y_mm += facts(c, of, leaf->y_mm, false) + 1;
    draw_pen(c, weighing, leaf->y_mm);
    runnel_canvas_box(leaf->canvas,
                      &(runnel_ink_box){leaf->left_mm, top_mm, runnel_leaf_width(leaf), height_mm},
                      -1, RUNNEL_LEAF_HAIR);
    leaf->y_mm = top_mm + height_mm + 3;
}

/* What stands above the cups of a batch, paragraph by paragraph. */
enum { HEAD_BATCH, HEAD_FILLS, HEAD_SIZED, HEAD_REMEDY, HEAD_MASTER, HEADS };

/* @return NULL when it says nothing; borrowed */
static const char *say_head(card *c, size_t index, int which) {
    const runnel_plan_batch *batch = &c->plan->batches[index];
    runnel_flow flow;
    runnel_leaf_say(&c->leaf, &flow);
    if (which == HEAD_BATCH)
        runnel_card_batch(&flow, c->job, c->plan, index);
    if (which == HEAD_FILLS) {
        runnel_flow_add(&flow, "for ");
        runnel_bench_fills(&flow, c->plan, batch->colour);
    }
    if (which == HEAD_SIZED)
        runnel_card_sized(&flow, c->job, batch);
    if (which == HEAD_REMEDY)
        runnel_card_remedy(&flow, c->plan, batch);
    if (which == HEAD_MASTER && !(batch->cup_count > 1 && batch->weighing.tint_g > 0))
        return NULL;
    if (which == HEAD_MASTER)
        runnel_card_master(&flow, c->job, batch);
    return runnel_leaf_said(&c->leaf, &flow);
}

static runnel_type type_of_head(int which) {
    return which == HEAD_BATCH ? RUNNEL_TYPE_HEAD : RUNNEL_TYPE_BODY;
}

static double heads_height(card *c, size_t index) {
    const double air_mm = 0.8, rule_and_gaps_mm = 4;
    double sum_mm = rule_and_gaps_mm;
    for (int i = 0; i < HEADS; i++) {
        const char *text = say_head(c, index, i);
        if (text)
            sum_mm += air_mm + runnel_canvas_text_height(c->leaf.canvas, type_of_head(i),
                                                         runnel_leaf_width(&c->leaf), text);
    }
    return sum_mm;
}

/* The head of a batch stands on one page with its first cup, where a page has room for both. */
static double first_height(card *c, size_t index, double thumb_mm) {
    const runnel_card_cup first = runnel_card_cup_of(c->job, c->plan, index, 0);
    return heads_height(c, index) + block_height(c, &first) +
           runnel_view_colour_height(c->look, c->plan, c->plan->batches[index].colour, thumb_mm,
                                     runnel_leaf_width(&c->leaf));
}

/* How high the pieces are drawn: less where both then have room on this page. */
static double fit_thumb(card *c, size_t index) {
    static const double thumbs_mm[] = {RUNNEL_VIEW_THUMB, 24, 15};
    for (size_t i = 0; i < sizeof thumbs_mm / sizeof *thumbs_mm; i++)
        if (c->leaf.y_mm + first_height(c, index, thumbs_mm[i]) <= c->leaf.bottom_mm)
            return thumbs_mm[i];
    return RUNNEL_VIEW_THUMB;
}

static void draw_heads(card *c, size_t index, double thumb_mm, double seen_mm) {
    runnel_leaf *leaf = &c->leaf;
    runnel_leaf_rule(leaf, RUNNEL_LEAF_RULE);
    for (int i = 0; i < HEADS; i++) {
        const char *text = say_head(c, index, i);
        if (text)
            runnel_leaf_text(leaf, type_of_head(i), 0, text);
        if (i != HEAD_SIZED)
            continue;
        runnel_leaf_skip(leaf, 1);
        runnel_leaf_need(leaf, seen_mm);
        runnel_view_colour(
            leaf->canvas, c->look, c->plan, c->plan->batches[index].colour, thumb_mm,
            &(runnel_ink_box){leaf->left_mm, leaf->y_mm, runnel_leaf_width(leaf), seen_mm});
        leaf->y_mm += seen_mm;
    }
    runnel_leaf_skip(leaf, 1);
}

static void draw_batch(card *c, size_t index) {
    runnel_leaf *leaf = &c->leaf;
    const runnel_plan_batch *batch = &c->plan->batches[index];
    runnel_leaf_skip(leaf, 3);
    const double thumb_mm = fit_thumb(c, index);
    const double seen_mm = runnel_view_colour_height(c->look, c->plan, batch->colour, thumb_mm,
                                                     runnel_leaf_width(leaf));
    const double first_mm = first_height(c, index, thumb_mm);
    runnel_leaf_need(leaf, first_mm < leaf->bottom_mm - leaf->top_mm
                               ? first_mm
                               : heads_height(c, index) + seen_mm);
    draw_heads(c, index, thumb_mm, seen_mm);
    for (size_t i = 0; i < runnel_card_blocks(batch); i++) {
        const runnel_card_cup of = runnel_card_cup_of(c->job, c->plan, index, i);
        draw_block(c, &of);
    }
    if (batch->top_up_mm3 > 0) {
        runnel_flow flow;
        runnel_card_top_up(runnel_leaf_say(leaf, &flow), c->job, batch);
        runnel_leaf_fact(leaf, "Top-up", fact_mm, runnel_leaf_said(leaf, &flow));
    }
}

/* Of what nothing is to be mixed. */
static void draw_nothing(card *c) {
    runnel_flow flow;
    for (size_t i = 0; runnel_bench_says_nothing(runnel_leaf_say(&c->leaf, &flow), c->plan, i); i++)
        runnel_leaf_text(&c->leaf, RUNNEL_TYPE_HEAD, 0, runnel_leaf_said(&c->leaf, &flow));
}

/* ---- The same on every card ------------------------------------------------------------------ */

static void draw_notes(card *c) {
    runnel_doc doc = {.count = 0};
    runnel_leaf_skip(&c->leaf, 3);
    runnel_leaf_need(&c->leaf, 3 * line_mm);
    runnel_leaf_rule(&c->leaf, RUNNEL_LEAF_RULE);
    runnel_card_notes(&doc);
    runnel_note_blocks(&c->leaf, &doc);
}

runnel_status runnel_card_lay(const runnel_job *job, const runnel_plan *plan,
                              const runnel_look *look, const runnel_paper *paper,
                              runnel_leaf *leaf) {
    card c = {
        .job = job, .plan = plan, .look = look, .decimals = runnel_bench_decimals(&job->scale)};
    runnel_status status = runnel_leaf_begin(&c.leaf, paper);
    if (!status) {
        c.narrow = runnel_leaf_width(&c.leaf) < narrow_mm;
        const bool tiny = runnel_leaf_width(&c.leaf) < tiny_mm;
        c.at = tiny ? &small : c.narrow ? &middle : &wide;
        c.figure = tiny ? RUNNEL_TYPE_HEAD : c.narrow ? RUNNEL_TYPE_TITLE : RUNNEL_TYPE_FIGURE;
        draw_head(&c);
        for (size_t i = 0; i < plan->batch_count; i++)
            draw_batch(&c, i);
        draw_nothing(&c);
        if (plan->batch_count)
            draw_notes(&c);
        status = runnel_leaf_close(&c.leaf, title_of(&c));
    }
    if (status)
        runnel_leaf_clear(&c.leaf);
    *leaf = c.leaf;
    return status;
}

static runnel_status write_page(const runnel_job *job, const runnel_plan *plan,
                                const runnel_look *look, const runnel_paper *paper, FILE *out) {
    const runnel_gallery gallery = {.job = job, .plan = plan, .look = look};
    runnel_doc doc = {.count = 0};
    runnel_card_doc(job, plan, look, &doc);
    return runnel_note_draw(&doc, &gallery, paper, out);
}

runnel_status runnel_draw_card(const runnel_job *job, const runnel_plan *plan,
                               const runnel_look *look, const runnel_paper *paper, FILE *out) {
    runnel_leaf leaf;
    if (paper->kind == RUNNEL_PAPER_HTML)
        return write_page(job, plan, look, paper, out);
    runnel_status status = runnel_card_lay(job, plan, look, paper, &leaf);
    return status ? status : runnel_leaf_write(&leaf, out);
}
