/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/doc.h"

#include "base/memory.h"
#include "write/bench.h"
#include "write/finish_lines.h"

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

void runnel_doc_add(runnel_doc *doc, runnel_doc_kind kind, const char *label, const char *text) {
    if (doc->failed)
        return;
    runnel_doc_block block = {kind, runnel_copy_text(label), runnel_copy_text(text)};
    if (block.label && block.text &&
        !runnel_reserve(&doc->blocks, &doc->capacity, doc->count + 1, sizeof *doc->blocks)) {
        doc->blocks[doc->count++] = block;
        return;
    }
    runnel_free(block.label);
    runnel_free(block.text);
    doc->failed = true;
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

void runnel_doc_begin(runnel_doc *doc, const char *what, const runnel_job *job,
                      const runnel_plan *plan) {
    runnel_flow flow;
    runnel_bench_title(runnel_doc_say(doc, &flow), job);
    runnel_doc_said(doc, RUNNEL_DOC_TITLE, what, &flow);
    for (size_t i = 0; i < plan->warning_count; i++)
        runnel_doc_add(doc, RUNNEL_DOC_WARNING,
                       plan->warnings[i].where ? plan->warnings[i].where : "",
                       plan->warnings[i].text);
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
        runnel_finish_heading(out, block->text);
        break;
    case RUNNEL_DOC_TEXT:
        runnel_layout_paragraph(out, 0, block->text);
        break;
    case RUNNEL_DOC_INNER:
        runnel_layout_paragraph(out, 2, block->text);
        break;
    case RUNNEL_DOC_ITEM:
        runnel_finish_item(out, block->label, block->text);
        break;
    case RUNNEL_DOC_ENTRY:
        write_entry(doc, block, out);
        break;
    }
}

runnel_status runnel_doc_write(const runnel_doc *doc, FILE *out) {
    if (doc->failed)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < doc->count; i++)
        write_block(doc, i, out);
    return runnel_layout_close(out);
}
