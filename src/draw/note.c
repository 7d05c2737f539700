/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/note.h"

#include "base/memory.h"
#include "runnel/draw.h"
#include "write/care_note.h"
#include "write/cure_doc.h"
#include "write/days_doc.h"
#include "write/html.h"
#include "write/sheet.h"
#include "write/size_doc.h"

#include <math.h>
#include <string.h>

/* Indent of the text behind a mark, and the room that a head wants below it, mm. */
static const double item_mm = 5, below_head_mm = 12;
/* Type on a postcard, which is held in the hand, and the paper below which it is one. */
static const double card_scale = 0.8, card_mm = 110;
/* A column of entries may be this share of the width. */
static const double column_share = 0.46;

/* As wide as the widest label, as far as that leaves room. */
static double column_of(const runnel_leaf *leaf, const runnel_doc *doc) {
    double widest_mm = 0;
    for (size_t i = 0; i < doc->count; i++) {
        const runnel_doc_block *block = &doc->blocks[i];
        bool labelled = block->kind == RUNNEL_DOC_ENTRY || block->kind == RUNNEL_DOC_FIGURE ||
                        block->kind == RUNNEL_DOC_FACT;
        double width_mm =
            labelled ? runnel_canvas_text_width(leaf->canvas, RUNNEL_TYPE_BODY, block->label) : 0;
        if (width_mm > widest_mm)
            widest_mm = width_mm;
    }
    double most_mm = column_share * runnel_leaf_width(leaf);
    return (widest_mm < most_mm ? widest_mm : most_mm) + 3;
}

static void draw_title(runnel_leaf *leaf, const runnel_doc_block *block) {
    runnel_leaf_text(leaf, RUNNEL_TYPE_TITLE, 0, block->label);
    runnel_leaf_text(leaf, RUNNEL_TYPE_HEAD, 0, block->text);
    runnel_leaf_skip(leaf, 1.5);
}

static void draw_warning(runnel_leaf *leaf, const runnel_doc *doc, size_t index) {
    const runnel_doc_block *block = &doc->blocks[index];
    bool first = !index || doc->blocks[index - 1].kind != RUNNEL_DOC_WARNING;
    bool last = index + 1 == doc->count || doc->blocks[index + 1].kind != RUNNEL_DOC_WARNING;
    char *text =
        runnel_format_text("!  %s%s%s", block->label, *block->label ? ": " : "", block->text);
    if (!text) {
        leaf->text.failed = true;
        return;
    }
    if (first) {
        runnel_leaf_rule(leaf, RUNNEL_LEAF_BAR);
        runnel_leaf_text(leaf, RUNNEL_TYPE_HEAD, 0, RUNNEL_DOC_READ_FIRST);
    }
    runnel_leaf_text(leaf, RUNNEL_TYPE_BODY, 0, text);
    if (last) {
        runnel_leaf_rule(leaf, RUNNEL_LEAF_BAR);
        runnel_leaf_skip(leaf, 2);
    }
    runnel_free(text);
}

/* The label stands in its column and may take lines of its own there. */
static void draw_entry(runnel_leaf *leaf, const char *label, const char *text, double column_mm) {
    runnel_canvas *canvas = leaf->canvas;
    double label_mm = column_mm - 3, text_mm = runnel_leaf_width(leaf) - column_mm;
    double high_mm = runnel_canvas_text_height(canvas, RUNNEL_TYPE_BODY, text_mm, text);
    double label_high_mm = runnel_canvas_text_height(canvas, RUNNEL_TYPE_BODY, label_mm, label);
    double most_mm = high_mm > label_high_mm ? high_mm : label_high_mm;
    runnel_leaf_need(leaf, most_mm);
    runnel_canvas_text(canvas, RUNNEL_TYPE_BODY, RUNNEL_SIDE_LEFT, leaf->left_mm, leaf->y_mm,
                       label_mm, label);
    runnel_canvas_text(canvas, RUNNEL_TYPE_BODY, RUNNEL_SIDE_LEFT, leaf->left_mm + column_mm,
                       leaf->y_mm, text_mm, text);
    leaf->y_mm += most_mm + 0.8;
}

/* ---- Tables -----------------------------------------------------------------------------------
 */

static size_t columns_of(const runnel_doc_block *block) {
    char cell[RUNNEL_DOC_CELL];
    size_t count = 0;
    while (runnel_doc_cell(block, count, cell))
        count++;
    return count;
}

/* The widest cell of a column, in all rows of the table that a row is in. */
static double widest_in(runnel_leaf *leaf, const runnel_doc *doc, size_t index, size_t column) {
    double widest_mm = 0;
    for (index = runnel_doc_heads(doc, index);
         index < doc->count && doc->blocks[index].kind == RUNNEL_DOC_ROW; index++) {
        char cell[RUNNEL_DOC_CELL];
        if (runnel_doc_cell(&doc->blocks[index], column, cell))
            widest_mm =
                fmax(widest_mm, runnel_canvas_text_width(leaf->canvas, RUNNEL_TYPE_BODY, cell));
    }
    return widest_mm;
}

/* Between columns. */
static const double columns_apart_mm = 4;

/* Widths of the columns with the space before them; the first one takes what the others leave.
 * @return false where that is too little */
static bool set_columns(runnel_leaf *leaf, const runnel_doc *doc, size_t index, size_t count,
                        double *width_mm) {
    const double least_share = 0.25;
    double room_mm = runnel_leaf_width(leaf);
    for (size_t i = 0; i < count; i++) {
        width_mm[i] = widest_in(leaf, doc, index, i) + (i ? columns_apart_mm : 0.5);
        room_mm -= i ? width_mm[i] : 0;
    }
    bool fits = room_mm >= fmin(width_mm[0], least_share * runnel_leaf_width(leaf));
    width_mm[0] = fmin(width_mm[0], room_mm);
    return fits;
}

/* A row where there is no room for columns: each cell behind the head of its column. */
static void draw_listed(runnel_leaf *leaf, const runnel_doc *doc, size_t index) {
    const runnel_doc_block *block = &doc->blocks[index],
                           *heads = &doc->blocks[runnel_doc_heads(doc, index)];
    char cell[RUNNEL_DOC_CELL], head[RUNNEL_DOC_CELL];
    bool any = false;
    runnel_flow flow;
    if (block == heads)
        return;
    runnel_leaf_need(leaf, below_head_mm);
    runnel_doc_cell(block, 0, cell);
    runnel_leaf_text(leaf, RUNNEL_TYPE_STRONG, 0, cell);
    runnel_leaf_say(leaf, &flow);
    for (size_t i = 1; runnel_doc_cell(block, i, cell); i++) {
        if (!*cell)
            continue;
        runnel_doc_cell(heads, i, head);
        runnel_flow_add(&flow, any ? ", " : "");
        runnel_flow_add(&flow, head);
        runnel_flow_add(&flow, RUNNEL_STICK);
        runnel_flow_add(&flow, cell);
        any = true;
    }
    runnel_leaf_text(leaf, RUNNEL_TYPE_BODY, item_mm, runnel_leaf_said(leaf, &flow));
}

static void draw_row(runnel_leaf *leaf, const runnel_doc *doc, size_t index) {
    const runnel_doc_block *block = &doc->blocks[index];
    const bool is_head = index == runnel_doc_heads(doc, index);
    double width_mm[RUNNEL_DOC_COLUMNS] = {0}, high_mm = 0, x_mm = leaf->left_mm;
    char cell[RUNNEL_DOC_CELL];
    if (!set_columns(leaf, doc, index, columns_of(block), width_mm)) {
        draw_listed(leaf, doc, index);
        return;
    }
    for (size_t i = 0; runnel_doc_cell(block, i, cell); i++)
        high_mm = fmax(high_mm, runnel_canvas_text_height(leaf->canvas, RUNNEL_TYPE_BODY,
                                                          i ? 0 : width_mm[i], cell));
    runnel_leaf_need(leaf, high_mm + (is_head ? below_head_mm : 1));
    for (size_t i = 0; runnel_doc_cell(block, i, cell); i++) {
        const double before_mm = i ? columns_apart_mm - 1 : 0; /* no line is broken by rounding */
        runnel_canvas_text(leaf->canvas, RUNNEL_TYPE_BODY, i ? RUNNEL_SIDE_RIGHT : RUNNEL_SIDE_LEFT,
                           x_mm + before_mm, leaf->y_mm, width_mm[i] - before_mm, cell);
        x_mm += width_mm[i];
    }
    leaf->y_mm += high_mm + 0.4;
    if (is_head) {
        runnel_canvas_line(leaf->canvas, leaf->left_mm, leaf->y_mm, x_mm, leaf->y_mm,
                           RUNNEL_LEAF_HAIR);
        leaf->y_mm += 0.8;
    }
}

/* ---- Pictures ---------------------------------------------------------------------------------
 */

static const double caption_mm = 6;

/* The room that a head wants below it: with a picture that follows, where a page has room for that.
 */
static double wanted_below(const runnel_leaf *leaf, const runnel_doc *doc,
                           const runnel_gallery *gallery, size_t index) {
    const runnel_doc_block *next = index + 1 < doc->count ? &doc->blocks[index + 1] : NULL;
    if (!gallery || !next || next->kind != RUNNEL_DOC_IMAGE)
        return below_head_mm;
    double all_mm =
        below_head_mm + caption_mm + runnel_gallery_height(gallery, next, runnel_leaf_width(leaf));
    return all_mm < leaf->bottom_mm - leaf->top_mm ? all_mm : below_head_mm;
}

static void draw_image(runnel_leaf *leaf, const runnel_gallery *gallery,
                       const runnel_doc_block *block) {
    const double width_mm = runnel_leaf_width(leaf);
    if (!gallery)
        return;
    double high_mm = runnel_gallery_height(gallery, block, width_mm);
    if (!(high_mm > 0))
        return;
    runnel_leaf_skip(leaf, 1.5);
    runnel_leaf_need(leaf, high_mm + caption_mm);
    runnel_gallery_draw(gallery, block, leaf->canvas,
                        &(runnel_ink_box){leaf->left_mm, leaf->y_mm, width_mm, high_mm});
    leaf->y_mm += high_mm + 1;
    if (*block->label)
        runnel_leaf_text(leaf, RUNNEL_TYPE_SMALL, 0, block->label);
    leaf->y_mm += 1.5;
}

static void draw_step(runnel_leaf *leaf, const runnel_doc_block *block, double below_mm) {
    char *text = runnel_format_text("%s   %s", block->label, block->text);
    if (!text) {
        leaf->text.failed = true;
        return;
    }
    runnel_leaf_skip(leaf, 2);
    runnel_leaf_need(leaf, below_mm);
    runnel_leaf_text(leaf, RUNNEL_TYPE_HEAD, 0, text);
    runnel_free(text);
}

static void draw_block(runnel_leaf *leaf, const runnel_doc *doc, const runnel_gallery *gallery,
                       size_t index, double column_mm) {
    const runnel_doc_block *block = &doc->blocks[index];
    char text[RUNNEL_DOC_FIGURE_SIZE];
    if (index && doc->blocks[index - 1].kind == RUNNEL_DOC_ROW && block->kind != RUNNEL_DOC_ROW)
        runnel_leaf_skip(leaf, 1.5);
    switch (block->kind) {
    case RUNNEL_DOC_TITLE:
        draw_title(leaf, block);
        break;
    case RUNNEL_DOC_WARNING:
        draw_warning(leaf, doc, index);
        break;
    case RUNNEL_DOC_HEAD:
        runnel_leaf_skip(leaf, 2);
        runnel_leaf_need(leaf, wanted_below(leaf, doc, gallery, index));
        runnel_leaf_text(leaf, RUNNEL_TYPE_HEAD, 0, block->text);
        break;
    case RUNNEL_DOC_TEXT:
    case RUNNEL_DOC_INNER:
        runnel_leaf_text(leaf, RUNNEL_TYPE_BODY, 0, block->text);
        break;
    case RUNNEL_DOC_ITEM:
        runnel_leaf_fact(leaf, block->label, item_mm, block->text);
        break;
    case RUNNEL_DOC_ENTRY:
    case RUNNEL_DOC_FACT:
        draw_entry(leaf, block->label, block->text, column_mm);
        break;
    case RUNNEL_DOC_FIGURE:
        draw_entry(leaf, block->label, runnel_doc_figure_text(block, text), column_mm);
        break;
    case RUNNEL_DOC_PART:
        runnel_leaf_skip(leaf, 1);
        runnel_leaf_need(leaf, wanted_below(leaf, doc, gallery, index));
        runnel_leaf_text(leaf, RUNNEL_TYPE_STRONG, 0, block->text);
        break;
    case RUNNEL_DOC_GAP:
        runnel_leaf_skip(leaf, 1.5);
        break;
    case RUNNEL_DOC_STEP:
        draw_step(leaf, block, wanted_below(leaf, doc, gallery, index));
        break;
    case RUNNEL_DOC_UNDER:
        runnel_leaf_text(leaf, RUNNEL_TYPE_BODY, item_mm, block->text);
        break;
    case RUNNEL_DOC_ROW:
        draw_row(leaf, doc, index);
        break;
    case RUNNEL_DOC_IMAGE:
        draw_image(leaf, gallery, block);
        break;
    }
}

void runnel_note_blocks(runnel_leaf *leaf, runnel_doc *doc) {
    const double column_mm = column_of(leaf, doc);
    leaf->text.failed = leaf->text.failed || doc->failed;
    for (size_t i = 0; i < doc->count; i++)
        draw_block(leaf, doc, NULL, i, column_mm);
    runnel_doc_clear(doc);
}

runnel_status runnel_note_lay(const runnel_doc *doc, const runnel_gallery *gallery,
                              const runnel_paper *paper, runnel_leaf *leaf) {
    runnel_status status = doc->failed ? RUNNEL_E_NO_MEMORY : RUNNEL_OK;
    *leaf = (runnel_leaf){.canvas = NULL};
    if (!status)
        status = runnel_leaf_begin(leaf, paper);
    if (!status) {
        if (runnel_canvas_width(leaf->canvas) < card_mm)
            runnel_canvas_scale_type(leaf->canvas, card_scale);
        double column_mm = column_of(leaf, doc);
        for (size_t i = 0; i < doc->count; i++)
            draw_block(leaf, doc, gallery, i, column_mm);
        const runnel_doc_block *title = doc->count ? &doc->blocks[0] : NULL;
        char *whole = title ? runnel_format_text("%s: %s", title->label, title->text) : NULL;
        status = whole ? runnel_leaf_close(leaf, whole) : RUNNEL_E_NO_MEMORY;
        runnel_free(whole);
    }
    if (status)
        runnel_leaf_clear(leaf);
    return status;
}

static runnel_status draw_doc(const runnel_doc *doc, const runnel_gallery *gallery,
                              const runnel_paper *paper, FILE *out) {
    runnel_leaf leaf;
    if (paper->kind == RUNNEL_PAPER_HTML)
        return runnel_doc_write_html(doc, gallery ? runnel_gallery_embed : NULL, gallery, out);
    runnel_status status = runnel_note_lay(doc, gallery, paper, &leaf);
    return status ? status : runnel_leaf_write(&leaf, out);
}

runnel_status runnel_note_draw(runnel_doc *doc, const runnel_gallery *gallery,
                               const runnel_paper *paper, FILE *out) {
    runnel_status status = draw_doc(doc, gallery, paper, out);
    runnel_doc_clear(doc);
    return status;
}

/* ---- Outputs ----------------------------------------------------------------------------------
 */

runnel_status runnel_draw_upkeep(const runnel_job *job, const runnel_upkeeping *upkeeping,
                                 const runnel_paper *paper, FILE *out) {
    runnel_doc doc = {.count = 0};
    runnel_care_note(job, upkeeping, &doc);
    return runnel_note_draw(&doc, NULL, paper, out);
}

runnel_status runnel_draw_size(const runnel_job *job, const runnel_plan *plan,
                               const runnel_look *look, const runnel_paper *paper, FILE *out) {
    const runnel_gallery gallery = {.job = job, .plan = plan, .look = look};
    runnel_doc doc = {.count = 0};
    runnel_size_doc(job, plan, look, &doc);
    return runnel_note_draw(&doc, &gallery, paper, out);
}

runnel_status runnel_draw_sheet(const runnel_job *job, const runnel_sheet *sheet,
                                const runnel_look *look, const runnel_paper *paper, FILE *out) {
    const runnel_gallery gallery = {
        .job = job, .plan = &sheet->plan, .look = look, .timings = &sheet->timings};
    runnel_doc doc = {.count = 0};
    runnel_sheet_doc(job, sheet, look, &doc);
    return runnel_note_draw(&doc, &gallery, paper, out);
}

runnel_status runnel_draw_timeline(const runnel_job *jobs, const runnel_timings *timings,
                                   const runnel_paper *paper, FILE *out) {
    const runnel_gallery gallery = {.timings = timings};
    runnel_doc doc = {.count = 0};
    runnel_timeline_doc(jobs, timings, &doc);
    return runnel_note_draw(&doc, &gallery, paper, out);
}

runnel_status runnel_draw_cure(const runnel_cure_report *report, const runnel_paper *paper,
                               FILE *out) {
    runnel_heating_curves curves = {.pot_life_s = NAN};
    const runnel_gallery gallery = {.heating = &report->heating, .curves = &curves};
    runnel_doc doc = {.count = 0};
    runnel_status status =
        runnel_heating_curves_make(&report->job->resin, &report->heating, &curves);
    if (!status) {
        runnel_cure_doc(report, true, &doc);
        status = runnel_note_draw(&doc, &gallery, paper, out);
    }
    runnel_heating_curves_clear(&curves);
    return status;
}
