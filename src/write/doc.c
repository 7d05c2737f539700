/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/doc.h"

#include "base/memory.h"
#include "runnel/units.h"
#include "write/bench.h"
#include "write/figures.h"
#include "write/finish_lines.h"

#include <math.h>
#include <string.h>

void runnel_doc_clear(runnel_doc *doc) {
    if (!doc)
        return;
    for (size_t i = 0; i < doc->count; i++) {
        runnel_free(doc->blocks[i].label);
        runnel_free(doc->blocks[i].text);
    }
    runnel_free(doc->blocks);
    runnel_text_clear(&doc->line);
    memset(doc, 0, sizeof *doc);
}

static void add(runnel_doc *doc, runnel_doc_block block, const char *label, const char *text) {
    if (doc->failed)
        return;
    block.label = runnel_copy_text(label);
    block.text = runnel_copy_text(text);
    if (block.label && block.text &&
        !runnel_reserve(&doc->blocks, &doc->capacity, doc->count + 1, sizeof *doc->blocks)) {
        doc->blocks[doc->count++] = block;
        return;
    }
    runnel_free(block.label);
    runnel_free(block.text);
    doc->failed = true;
}

void runnel_doc_add(runnel_doc *doc, runnel_doc_kind kind, const char *label, const char *text) {
    add(doc, (runnel_doc_block){.kind = kind}, label, text);
}

void runnel_doc_show(runnel_doc *doc, runnel_doc_image image, size_t index, size_t part,
                     const char *label, const char *text) {
    add(doc,
        (runnel_doc_block){.kind = RUNNEL_DOC_IMAGE, .image = image, .index = index, .part = part},
        label, text);
}

bool runnel_doc_cell(const runnel_doc_block *block, size_t column, char *cell) {
    const char *at = block->text;
    for (; column && at; column--)
        at = strchr(at, '\t') ? strchr(at, '\t') + 1 : NULL;
    size_t length = at ? strcspn(at, "\t") : 0;
    if (length >= RUNNEL_DOC_CELL) {
        length = RUNNEL_DOC_CELL - 1;
        while (length && ((unsigned char)at[length] & 0xC0) == 0x80)
            length--;
    }
    memcpy(cell, at ? at : "", length);
    cell[length] = '\0';
    return at != NULL;
}

size_t runnel_doc_heads(const runnel_doc *doc, size_t index) {
    while (index && doc->blocks[index - 1].kind == RUNNEL_DOC_ROW)
        index--;
    return index;
}

void runnel_row_text(runnel_doc_row *row, const char *text) {
    if (row->count == RUNNEL_DOC_COLUMNS)
        return;
    char *cell = row->cells[row->count++], plain[RUNNEL_DOC_CELL] = "";
    for (size_t i = 0; text[i] && i + 1 < sizeof plain; i++) /* no tab, no line end */
        plain[i] = (unsigned char)text[i] < ' ' ? ' ' : text[i];
    size_t length = strlen(plain);
    while (length && text[length] && ((unsigned char)text[length] & 0xC0) == 0x80)
        length--;
    memcpy(cell, plain, length);
    cell[length] = '\0';
}

void runnel_row_number(runnel_doc_row *row, double value, int decimals, const char *unit) {
    char digits[64], text[RUNNEL_DOC_CELL] = "";
    if (!isnan(value))
        snprintf(text, sizeof text, "%s%s%s",
                 runnel_number_text(value, decimals, digits, sizeof digits),
                 *unit ? RUNNEL_STICK : "", unit);
    runnel_row_text(row, text);
}

void runnel_doc_add_row(runnel_doc *doc, runnel_doc_row *row) {
    char text[RUNNEL_DOC_COLUMNS * (RUNNEL_DOC_CELL + 1)] = "";
    size_t at = 0;
    for (size_t i = 0; i < row->count; i++)
        at += (size_t)snprintf(text + at, sizeof text - at, "%s%s", i ? "\t" : "", row->cells[i]);
    runnel_doc_add(doc, RUNNEL_DOC_ROW, "", text);
    row->count = 0;
}

runnel_flow *runnel_doc_say(runnel_doc *doc, runnel_flow *flow) {
    runnel_flow_into(flow, &doc->line);
    return flow;
}

void runnel_doc_said(runnel_doc *doc, runnel_doc_kind kind, const char *label, runnel_flow *flow) {
    runnel_flow_end(flow);
    doc->failed = doc->failed || doc->line.failed;
    runnel_doc_add(doc, kind, label, doc->line.text ? doc->line.text : "");
}

/* ---- Figures ----------------------------------------------------------------------------------
 */

static void add_figure(runnel_doc *doc, const char *label, double value, int decimals,
                       const char *unit, const char *note) {
    char digits[64] = "";
    if (isfinite(value))
        runnel_number_text(value, decimals, digits, sizeof digits);
    char *text = runnel_format_text("%s\t%s\t%s", digits, isfinite(value) ? unit : "", note);
    doc->failed = doc->failed || !text;
    if (text)
        runnel_doc_add(doc, RUNNEL_DOC_FIGURE, label, text);
    runnel_free(text);
}

void runnel_doc_figure(runnel_doc *doc, const char *label, double value, int decimals,
                       const char *unit, const char *note) {
    add_figure(doc, label, value, decimals, unit,
               isfinite(value) ? note
               : isnan(value)  ? "not known"
                               : "without limit");
}

void runnel_doc_figured(runnel_doc *doc, const char *label, double value, int decimals,
                        const char *unit, runnel_flow *flow) {
    runnel_flow_end(flow);
    doc->failed = doc->failed || doc->line.failed;
    add_figure(doc, label, value, decimals, unit, doc->line.text ? doc->line.text : "");
}

const char *runnel_doc_figure_text(const runnel_doc_block *block, char *text) {
    char digits[RUNNEL_DOC_CELL], unit[RUNNEL_DOC_CELL];
    const char *note = strrchr(block->text, '\t');
    runnel_doc_cell(block, 0, digits);
    runnel_doc_cell(block, 1, unit);
    note = note ? note + 1 : "";
    snprintf(text, RUNNEL_DOC_FIGURE_SIZE, "%s%s%s%s%s", digits, *unit ? RUNNEL_STICK : "", unit,
             *digits && *note ? ", " : "", note);
    return text;
}

static void add_warnings(runnel_doc *doc, const runnel_plan *plan) {
    for (size_t i = 0; i < plan->warning_count; i++)
        runnel_doc_add(doc, RUNNEL_DOC_WARNING,
                       plan->warnings[i].where ? plan->warnings[i].where : "",
                       plan->warnings[i].text);
}

void runnel_doc_begin(runnel_doc *doc, const char *what, const runnel_job *job,
                      const runnel_plan *plan) {
    runnel_flow flow;
    runnel_bench_title(runnel_doc_say(doc, &flow), job);
    runnel_doc_said(doc, RUNNEL_DOC_TITLE, what, &flow);
    add_warnings(doc, plan);
}

void runnel_doc_shown(runnel_doc *doc, runnel_doc_image image, size_t index, size_t part,
                      runnel_text_sink *caption, runnel_flow *flow) {
    runnel_flow_end(flow);
    doc->failed = doc->failed || doc->line.failed || (caption && caption->failed);
    runnel_doc_show(doc, image, index, part, caption && caption->text ? caption->text : "",
                    doc->line.text ? doc->line.text : "");
    runnel_text_clear(caption);
}

/* ---- As text --------------------------------------------------------------------------------- */

static size_t warnings_of(const runnel_doc *doc) {
    size_t count = 0;
    for (size_t i = 0; i < doc->count; i++)
        count += doc->blocks[i].kind == RUNNEL_DOC_WARNING;
    return count;
}

static void write_title(const runnel_doc_block *block, FILE *out) {
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_add(&flow, block->label);
    runnel_flow_add(&flow, ": ");
    runnel_flow_add(&flow, block->text);
    runnel_flow_end(&flow);
    fputc('\n', out);
}

static void write_warning(const runnel_doc *doc, size_t index, FILE *out) {
    const runnel_doc_block *block = &doc->blocks[index];
    if (!index || doc->blocks[index - 1].kind != RUNNEL_DOC_WARNING)
        runnel_bench_warning_head(out, warnings_of(doc));
    runnel_bench_warning(out, block->label, block->text);
    if (index + 1 == doc->count || doc->blocks[index + 1].kind != RUNNEL_DOC_WARNING)
        fputc('\n', out);
}

static void write_entry(const runnel_doc *doc, const runnel_doc_block *block, FILE *out) {
    runnel_flow flow;
    if (*block->label) {
        runnel_flow_begin(&flow, out, 2);
        runnel_flow_add(&flow, block->label);
        runnel_flow_tab(&flow, doc->column);
    } else {
        runnel_flow_begin(&flow, out, doc->column);
    }
    runnel_flow_add(&flow, block->text);
    runnel_flow_end(&flow);
}

/* What stands before a block as lines; RUNNEL_DOC_TITLE where nothing does. */
static runnel_doc_kind kind_before(const runnel_doc *doc, size_t index) {
    while (index && doc->blocks[index - 1].kind == RUNNEL_DOC_IMAGE)
        index--;
    return index ? doc->blocks[index - 1].kind : RUNNEL_DOC_TITLE;
}

/* An empty line, but behind title and warnings, which have one. */
static void part(const runnel_doc *doc, size_t index, FILE *out) {
    const runnel_doc_kind before = kind_before(doc, index);
    if (before != RUNNEL_DOC_TITLE && before != RUNNEL_DOC_WARNING)
        fputc('\n', out);
}

static void write_step(const runnel_doc *doc, size_t index, FILE *out) {
    runnel_flow flow;
    part(doc, index, out);
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_add(&flow, doc->blocks[index].label);
    runnel_flow_tab(&flow, 3);
    runnel_flow_add(&flow, doc->blocks[index].text);
    runnel_flow_end(&flow);
}

/* The widest cell of a column, in all rows of the table that a row is in. */
static size_t column_width(const runnel_doc *doc, size_t index, size_t column) {
    size_t widest = 0;
    for (index = runnel_doc_heads(doc, index);
         index < doc->count && doc->blocks[index].kind == RUNNEL_DOC_ROW; index++) {
        char cell[RUNNEL_DOC_CELL];
        if (runnel_doc_cell(&doc->blocks[index], column, cell) &&
            runnel_layout_width(cell) > widest)
            widest = runnel_layout_width(cell);
    }
    return widest;
}

static void write_row(const runnel_doc *doc, size_t index, FILE *out) {
    enum { APART = 2 };
    char cell[RUNNEL_DOC_CELL];
    size_t at = doc->inner ? doc->inner : 2;
    runnel_flow flow;
    runnel_flow_begin(&flow, out, at);
    for (size_t column = 0; runnel_doc_cell(&doc->blocks[index], column, cell); column++) {
        size_t width = column_width(doc, index, column), own = runnel_layout_width(cell);
        runnel_flow_tab(&flow, at + (column ? width - own : 0));
        runnel_flow_add(&flow, cell);
        at += width + APART;
    }
    runnel_flow_end(&flow);
}

static void write_figure(const runnel_doc_block *block, FILE *out) {
    char digits[RUNNEL_DOC_CELL], unit[RUNNEL_DOC_CELL];
    const char *note = strrchr(block->text, '\t');
    runnel_flow flow;
    runnel_doc_cell(block, 0, digits);
    runnel_doc_cell(block, 1, unit);
    runnel_figures_start(&flow, out, block->label);
    if (*digits)
        runnel_flow_aligned_text(&flow, RUNNEL_FIGURES_POINT, digits, RUNNEL_FIGURES_PLACES, unit);
    else
        runnel_flow_tab(&flow, RUNNEL_FIGURES_POINT);
    runnel_flow_add(&flow, note ? note + 1 : "");
    runnel_flow_end(&flow);
}

static void write_fact(const runnel_doc_block *block, FILE *out) {
    enum { FACT = 14 };
    runnel_flow flow;
    runnel_figures_start(&flow, out, block->label);
    runnel_flow_tab(&flow, FACT);
    runnel_flow_add(&flow, block->text);
    runnel_flow_end(&flow);
}

static void write_part(const runnel_doc *doc, size_t index, FILE *out) {
    if (kind_before(doc, index) != RUNNEL_DOC_HEAD)
        part(doc, index, out);
    runnel_layout_paragraph(out, 2, doc->blocks[index].text);
}

static void write_block(const runnel_doc *doc, size_t index, FILE *out) {
    const runnel_doc_block *block = &doc->blocks[index];
    switch (block->kind) {
    case RUNNEL_DOC_TITLE:
        write_title(block, out);
        break;
    case RUNNEL_DOC_WARNING:
        write_warning(doc, index, out);
        break;
    case RUNNEL_DOC_HEAD:
        part(doc, index, out);
        runnel_layout_paragraph(out, 0, block->text);
        break;
    case RUNNEL_DOC_TEXT:
        runnel_layout_paragraph(out, 0, block->text);
        break;
    case RUNNEL_DOC_INNER:
        runnel_layout_paragraph(out, doc->inner ? doc->inner : 2, block->text);
        break;
    case RUNNEL_DOC_UNDER:
        runnel_layout_paragraph(out, (doc->inner ? doc->inner : 2) + 2, block->text);
        break;
    case RUNNEL_DOC_STEP:
        write_step(doc, index, out);
        break;
    case RUNNEL_DOC_ROW:
        write_row(doc, index, out);
        break;
    case RUNNEL_DOC_PART:
        write_part(doc, index, out);
        break;
    case RUNNEL_DOC_FIGURE:
        write_figure(block, out);
        break;
    case RUNNEL_DOC_FACT:
        write_fact(block, out);
        break;
    case RUNNEL_DOC_GAP:
        fputc('\n', out);
        break;
    case RUNNEL_DOC_IMAGE:
        break;
    case RUNNEL_DOC_ITEM:
        runnel_finish_item(out, block->label, block->text);
        break;
    case RUNNEL_DOC_ENTRY:
        write_entry(doc, block, out);
        break;
    }
}

runnel_status runnel_doc_write(runnel_doc *doc, FILE *out) {
    runnel_status status = doc->failed ? RUNNEL_E_NO_MEMORY : RUNNEL_OK;
    for (size_t i = 0; i < doc->count && !status; i++)
        write_block(doc, i, out);
    runnel_doc_clear(doc);
    return status ? status : runnel_layout_close(out);
}
