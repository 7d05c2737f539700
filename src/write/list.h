/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The columns of the lists, for all their writers.
 */
#ifndef RUNNEL_WRITE_LIST_H
#define RUNNEL_WRITE_LIST_H

#include "runnel/write.h"

#include <stdbool.h>

/** What a column holds. */
typedef enum runnel_list_holds {
    RUNNEL_HOLDS_TEXT,
    RUNNEL_HOLDS_NUMBER,
    RUNNEL_HOLDS_FLAG,
    RUNNEL_HOLDS_WORD
} runnel_list_holds;

/** One column. A number is shown as value x times / over. */
typedef struct runnel_list_column {
    const char *title; /**< in CSV, with its unit; NULL = not in CSV */
    const char *key;   /**< in JSON */
    runnel_list_holds holds;
    size_t offset; /**< of the char *, double or bool in the row */
    double csv_times, csv_over, json_times, json_over;
    const char *(*word)(const void *row); /**< of a word */
    bool (*has)(const void *row);         /**< whether a row has the number; NULL = every row */
} runnel_list_column;

/** Columns of a list. */
const runnel_list_column *runnel_list_columns(runnel_list_kind kind, size_t *count);

/** How many rows a list has. */
size_t runnel_list_rows(const runnel_list *list);

/** One row of it. */
const void *runnel_list_row(const runnel_list *list, size_t index);

/** Text of a column: a text or a word. */
const char *runnel_list_text(const runnel_list_column *column, const void *row);

/** Number of a column in its inside unit; NAN when the row has none. */
double runnel_list_number(const runnel_list_column *column, const void *row);

/** Whether a column of that kind is set. */
bool runnel_list_flag(const runnel_list_column *column, const void *row);

/** "v", "round-nose" or "flat". */
const char *runnel_cutter_word(runnel_cutter_kind kind);

#endif
