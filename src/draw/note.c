/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/note.h"

#include "base/memory.h"
#include "runnel/draw.h"
#include "write/care_note.h"

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
        double width_mm =
            block->kind == RUNNEL_DOC_ENTRY
                ? runnel_canvas_text_width(leaf->canvas, RUNNEL_TYPE_BODY, block->label)
                : 0;
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
static void draw_entry(runnel_leaf *leaf, const runnel_doc_block *block, double column_mm) {
    runnel_canvas *canvas = leaf->canvas;
    double label_mm = column_mm - 3, text_mm = runnel_leaf_width(leaf) - column_mm;
    double high_mm = runnel_canvas_text_height(canvas, RUNNEL_TYPE_BODY, text_mm, block->text);
    double label_high_mm =
        runnel_canvas_text_height(canvas, RUNNEL_TYPE_BODY, label_mm, block->label);
    double most_mm = high_mm > label_high_mm ? high_mm : label_high_mm;
    runnel_leaf_need(leaf, most_mm);
    runnel_canvas_text(canvas, RUNNEL_TYPE_BODY, RUNNEL_SIDE_LEFT, leaf->left_mm, leaf->y_mm,
                       label_mm, block->label);
    runnel_canvas_text(canvas, RUNNEL_TYPE_BODY, RUNNEL_SIDE_LEFT, leaf->left_mm + column_mm,
                       leaf->y_mm, text_mm, block->text);
    leaf->y_mm += most_mm + 0.8;
}

static void draw_block(runnel_leaf *leaf, const runnel_doc *doc, size_t index, double column_mm) {
    const runnel_doc_block *block = &doc->blocks[index];
    switch (block->kind) {
    case RUNNEL_DOC_TITLE:
        draw_title(leaf, block);
        break;
    case RUNNEL_DOC_WARNING:
        draw_warning(leaf, doc, index);
        break;
    case RUNNEL_DOC_HEAD:
        runnel_leaf_skip(leaf, 2);
        runnel_leaf_need(leaf, below_head_mm);
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
        draw_entry(leaf, block, column_mm);
        break;
    }
}

runnel_status runnel_note_lay(const runnel_doc *doc, const runnel_paper *paper, runnel_leaf *leaf) {
    runnel_status status = doc->failed ? RUNNEL_E_NO_MEMORY : RUNNEL_OK;
    *leaf = (runnel_leaf){.canvas = NULL};
    if (!status)
        status = runnel_leaf_begin(leaf, paper);
    if (!status) {
        if (runnel_canvas_width(leaf->canvas) < card_mm)
            runnel_canvas_scale_type(leaf->canvas, card_scale);
        double column_mm = column_of(leaf, doc);
        for (size_t i = 0; i < doc->count; i++)
            draw_block(leaf, doc, i, column_mm);
        const runnel_doc_block *title = doc->count ? &doc->blocks[0] : NULL;
        char *whole = title ? runnel_format_text("%s: %s", title->label, title->text) : NULL;
        status = whole ? runnel_leaf_close(leaf, whole) : RUNNEL_E_NO_MEMORY;
        runnel_free(whole);
    }
    if (status)
        runnel_leaf_clear(leaf);
    return status;
}

runnel_status runnel_note_draw(const runnel_doc *doc, const runnel_paper *paper, FILE *out) {
    runnel_leaf leaf;
    runnel_status status = runnel_note_lay(doc, paper, &leaf);
    if (!status)
        status = runnel_canvas_write(leaf.canvas, leaf.title, out);
    runnel_leaf_clear(&leaf);
    return status;
}

runnel_status runnel_draw_upkeep(const runnel_job *job, const runnel_upkeeping *upkeeping,
                                 const runnel_paper *paper, FILE *out) {
    runnel_doc doc = {.count = 0};
    runnel_care_note(job, upkeeping, &doc);
    runnel_status status = runnel_note_draw(&doc, paper, out);
    runnel_doc_clear(&doc);
    return status;
}
