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
    RUNNEL_DOC_ENTRY,   /**< a label, or none to go on with the one before, and text in a column */
    RUNNEL_DOC_STEP,    /**< a head of one of some steps; its label is the number */
    RUNNEL_DOC_UNDER,   /**< goes on with the paragraph before it, below that */
    RUNNEL_DOC_ROW,     /**< of a table: cells parted by tabs; the first row holds the heads. All
                             but the first column stand on the right */
    RUNNEL_DOC_PART,    /**< a head below a head */
    RUNNEL_DOC_FIGURE, /**< a label, a number, its unit and a note: number, unit and note are parted
                            by tabs in the text */
    RUNNEL_DOC_FACT,   /**< a label and text among figures */
    RUNNEL_DOC_GAP,    /**< a space between figures */
    RUNNEL_DOC_IMAGE   /**< a picture: what stands below it as label, and for those who do not see
                            it as text. Not shown by text alone */
} runnel_doc_kind;

/** What a picture shows. */
typedef enum runnel_doc_image {
    RUNNEL_IMAGE_PLAN,    /**< a piece, its cavities shaded by depth; `index` of the piece */
    RUNNEL_IMAGE_SECTION, /**< through a stroke, before and after levelling; `index` of the cavity
                           */
    RUNNEL_IMAGE_COLOUR,  /**< the pieces, the cavities of a batch dark; `index` of the batch */
    RUNNEL_IMAGE_CUP,     /**< the levels in the cup; `index` of the batch, `part` of the cup */
    RUNNEL_IMAGE_DAYS,    /**< the days as bars */
    RUNNEL_IMAGE_CURE     /**< conversion and temperature over time; 0 the cup, 1 the layer */
} runnel_doc_image;

/** One of them. */
typedef struct runnel_doc_block {
    runnel_doc_kind kind;
    char *label, *text; /**< owned; the label may be "" */
    runnel_doc_image image;
    size_t index, part; /**< of what the picture shows */
} runnel_doc_block;

/** A document. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_doc {
    runnel_doc_block *blocks;
    size_t count, capacity;
    size_t column;         /**< of entries, in columns of text */
    size_t inner;          /**< indent of what is inner, in columns of text; 0 = 2 */
    bool large;            /**< the second column of its tables is to be read at arm's length */
    runnel_text_sink line; /**< in work */
    bool failed;
} runnel_doc;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_doc_clear(runnel_doc *doc);

/** Adds a block. */
void runnel_doc_add(runnel_doc *doc, runnel_doc_kind kind, const char *label, const char *text);

/** Adds a picture. */
void runnel_doc_show(runnel_doc *doc, runnel_doc_image image, size_t index, size_t part,
                     const char *label, const char *text);

/** Adds a picture whose text was built by runnel_doc_say. @param caption cleared; NULL for none */
void runnel_doc_shown(runnel_doc *doc, runnel_doc_image image, size_t index, size_t part,
                      runnel_text_sink *caption, runnel_flow *flow);

/** Starts the text of a block, to be built by a flow, and adds it. */
runnel_flow *runnel_doc_say(runnel_doc *doc, runnel_flow *flow);
void runnel_doc_said(runnel_doc *doc, runnel_doc_kind kind, const char *label, runnel_flow *flow);

/** Room for a cell of a row, in bytes; a longer one is cut. */
#define RUNNEL_DOC_CELL 256

/** A cell of a row, from 0. @param cell RUNNEL_DOC_CELL bytes @return whether there is one */
bool runnel_doc_cell(const runnel_doc_block *block, size_t column, char *cell);

/** Most columns of a table. */
#define RUNNEL_DOC_COLUMNS 8

/** A row in work. Zero-initialised is empty. */
typedef struct runnel_doc_row {
    char cells[RUNNEL_DOC_COLUMNS][RUNNEL_DOC_CELL];
    size_t count;
} runnel_doc_row;

/** The first row of the table that a row is in, which holds the heads: its place among the blocks.
 */
size_t runnel_doc_heads(const runnel_doc *doc, size_t index);

/** Adds a cell, of text or of a number with its unit; what is NAN is an empty one. */
void runnel_row_text(runnel_doc_row *row, const char *text);
void runnel_row_number(runnel_doc_row *row, double value, int decimals, const char *unit);
/** Adds the row to the document, and empties it. */
void runnel_doc_add_row(runnel_doc *doc, runnel_doc_row *row);

/** Adds a figure, and one whose note was built by runnel_doc_say. A NAN is "not known", an infinity
 * "without limit"; with a note of its own it is left out. */
void runnel_doc_figure(runnel_doc *doc, const char *label, double value, int decimals,
                       const char *unit, const char *note);
void runnel_doc_figured(runnel_doc *doc, const char *label, double value, int decimals,
                        const char *unit, runnel_flow *flow);
/** The text of a figure as one: "4.46 ml, exact to 0.001 ml". @param text RUNNEL_DOC_FIGURE_SIZE
 * bytes; a longer note is cut @return text */
const char *runnel_doc_figure_text(const runnel_doc_block *block, char *text);
#define RUNNEL_DOC_FIGURE_SIZE 1024

/** Adds the title, "Care: bread board", and the warnings of a plan. */
void runnel_doc_begin(runnel_doc *doc, const char *what, const runnel_job *job,
                      const runnel_plan *plan);

/** Writes it as lines of text, and clears it. @return RUNNEL_OK; RUNNEL_E_NO_MEMORY; RUNNEL_E_IO */
runnel_status runnel_doc_write(runnel_doc *doc, FILE *out);

#endif
