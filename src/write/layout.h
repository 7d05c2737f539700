/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Lines of text for people: wrapped words, labels, and numbers with their points in one column.
 *
 * Everything goes straight into the stream, nothing is allocated; whether the stream took it is
 * asked once at the end (runnel_layout_close). Blanks end a word, the no-break space RUNNEL_STICK
 * does not and comes out as a plain one. Control characters, marks that turn the direction of
 * writing and bytes that are not UTF-8 come out as '?'.
 */
#ifndef RUNNEL_WRITE_LAYOUT_H
#define RUNNEL_WRITE_LAYOUT_H

#include "runnel/status.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>

/** No line is longer, in columns. */
#define RUNNEL_LINE_COLUMNS 78

/** A blank that no line ends at, as between a number and its unit. */
#define RUNNEL_STICK "\xC2\xA0"

/** A text that grows. Zero-initialised is empty; freed with runnel_text_clear. */
typedef struct runnel_text_sink {
    char *text; /**< closed with a zero; NULL as long as it is empty */
    size_t length, capacity;
    bool failed; /**< memory ran out, and something is missing */
} runnel_text_sink;

/** Frees the text and leaves it empty. NULL is allowed. */
void runnel_text_clear(runnel_text_sink *sink);

/** Words on their way into lines. */
typedef struct runnel_flow {
    FILE *out;
    runnel_text_sink *sink; /**< in place of the stream: one line without end */
    size_t column;          /**< columns of the line in work that are written */
    size_t indent; /**< where the next word may begin at the earliest, and where lines go on */
    char word[4 * RUNNEL_LINE_COLUMNS + 8];
    size_t bytes, width; /**< of the word in work */
    bool blank;          /**< one stands before the word */
} runnel_flow;

/** Starts at the beginning of a line, with all lines indented. */
void runnel_flow_begin(runnel_flow *flow, FILE *out, size_t indent);

/** Starts a line that goes into a text, in place of what that holds, and is never broken; blanks
 * that no line ends at stay what they are. */
void runnel_flow_into(runnel_flow *flow, runnel_text_sink *sink);

/** Adds text. */
void runnel_flow_add(runnel_flow *flow, const char *text);

/** Adds what printf would, up to 250 bytes: no text of the user's, whose length is not known. */
void runnel_flow_format(runnel_flow *flow, const char *format, ...) RUNNEL_PRINTF(2, 3);

/** Adds a number and its unit ("" for none), kept together. */
void runnel_flow_number(runnel_flow *flow, double value, int decimals, const char *unit);

/** Moves the indent: the next word begins there or, when the line is longer already, behind a
 * blank. */
void runnel_flow_tab(runnel_flow *flow, size_t indent);

/**
 * Adds a number with its point at `point_column`, its unit behind the room for `places` digits, and
 * moves the indent behind a unit of up to three letters.
 *
 * @param decimals at most `places`
 */
void runnel_flow_aligned(runnel_flow *flow, size_t point_column, double value, int decimals,
                         int places, const char *unit);

/** The same of a number that is written already. */
void runnel_flow_aligned_text(runnel_flow *flow, size_t point_column, const char *digits,
                              int places, const char *unit);

/** Ends the line; an empty flow gives an empty line. */
void runnel_flow_end(runnel_flow *flow);

/** A whole paragraph. */
void runnel_layout_paragraph(FILE *out, size_t indent, const char *text);

/** A line of one character over so many columns. */
void runnel_layout_rule(FILE *out, size_t indent, size_t columns, char mark);

/** Columns that a text takes on a terminal: none for marks over letters, two for wide letters. */
size_t runnel_layout_width(const char *text);

/** Flushes. @return RUNNEL_OK, or RUNNEL_E_IO when the stream has not taken everything */
runnel_status runnel_layout_close(FILE *out);

/** Whether a mark for writing from left to right is to stand between two characters: behind a
 * letter of a script that is written the other way, before punctuation, so that what follows, such
 * as a number, stays behind the name that it belongs to. For outputs that put letters into their
 * order by the Unicode Bidirectional Algorithm (UAX 9). */
bool runnel_layout_wants_mark(uint32_t before, uint32_t point);
#define RUNNEL_LAYOUT_MARK "\xE2\x80\x8E"

#endif
