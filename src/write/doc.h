/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A text for people as blocks, apart from how it is shown: as lines, or drawn on paper.
 *
 * The first failure stays: after it nothing is added, and showing returns it.
 */
#ifndef RUNNEL_WRITE_DOC_H
#define RUNNEL_WRITE_DOC_H

#include "runnel/plan.h"
#include "write/layout.h"

/** What stands above warnings. */
#define RUNNEL_DOC_READ_FIRST "Read before a can is opened"

/** What a block is. */
typedef enum runnel_doc_kind {
    RUNNEL_DOC_TITLE,   /**< what it is, as label, and of what */
    RUNNEL_DOC_WARNING, /**< to be read first; its label tells where */
    RUNNEL_DOC_HEAD,    /**< of what follows */
    RUNNEL_DOC_TEXT,    /**< a paragraph */
    RUNNEL_DOC_INNER,   /**< a paragraph below a head */
    RUNNEL_DOC_ITEM,    /**< of a list; its label is the mark before it */
    RUNNEL_DOC_ENTRY    /**< a label, or none to go on with the one before, and text in a column */
} runnel_doc_kind;

/** One of them. */
typedef struct runnel_doc_block {
    runnel_doc_kind kind;
    char *label, *text; /**< owned; the label may be "" */
} runnel_doc_block;

/** A document. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_doc {
    runnel_doc_block *blocks;
    size_t count, capacity;
    size_t column;         /**< of entries, in columns of text */
    runnel_text_sink line; /**< in work */
    bool failed;
} runnel_doc;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_doc_clear(runnel_doc *doc);

/** Adds a block. */
void runnel_doc_add(runnel_doc *doc, runnel_doc_kind kind, const char *label, const char *text);

/** Starts the text of a block, to be built by a flow, and adds it. */
runnel_flow *runnel_doc_say(runnel_doc *doc, runnel_flow *flow);
void runnel_doc_said(runnel_doc *doc, runnel_doc_kind kind, const char *label, runnel_flow *flow);

/** Adds the title, "Care: bread board", and the warnings of a plan. */
void runnel_doc_begin(runnel_doc *doc, const char *what, const runnel_job *job,
                      const runnel_plan *plan);

/** Writes it as lines of text. @return RUNNEL_OK; RUNNEL_E_NO_MEMORY; RUNNEL_E_IO */
runnel_status runnel_doc_write(const runnel_doc *doc, FILE *out);

#endif
