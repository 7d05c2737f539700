/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Columns of a reference table: found by the header, their cells read into the fields of a row.
 */
#ifndef RUNNEL_READ_COLUMNS_H
#define RUNNEL_READ_COLUMNS_H

#include "base/slice.h"
#include "read/csv.h"
#include "runnel/units.h"

#include <stdbool.h>

/** What the cells of a column hold. */
typedef enum runnel_column_kind {
    RUNNEL_COLUMN_TEXT,   /**< any text */
    RUNNEL_COLUMN_DATE,   /**< YYYY, YYYY-MM or YYYY-MM-DD, kept as text */
    RUNNEL_COLUMN_WORD,   /**< one of a few words */
    RUNNEL_COLUMN_NUMBER, /**< a plain number, NAN where the cell is empty */
} runnel_column_kind;

/** Limits of a number, in the unit of the field. */
typedef struct runnel_column_range {
    double low, high;
    bool open;        /**< the limits themselves are outside */
    const char *text; /**< what a value must be, such as "above 0" */
} runnel_column_range;

/** One column that a table may have. */
typedef struct runnel_column {
    const char *name;
    runnel_column_kind kind;
    bool needed;              /**< the header must have it and no cell may be empty */
    size_t offset;            /**< of the field in the row: char * or double */
    const char *const *words; /**< word: closed with NULL; a text field gets a copy ... */
    void (*take)(size_t word,
                 void *row);    /**< ... or, if not NULL, this gets the place in `words` */
    const char *unit;           /**< number: as the header may show it; NULL for none */
    runnel_dimension dimension; /**< number: what is measured; RUNNEL_DIMENSION_COUNT for what only
                                   `unit` measures */
    double per;                 /**< number: fields' units in one unit of the dimension. Unless it
                                   is 1, `unit` is the field's own unit and taken as it stands */
    const runnel_column_range *range; /**< number */
} runnel_column;

/** A column of a file. */
typedef struct runnel_column_use {
    const runnel_column *column; /**< NULL when it is not known, or stands twice */
    const char *header;          /**< as in the file */
    char *unit;                  /**< as in the file, owned; NULL for none */
    bool readable;               /**< the unit is right */
} runnel_column_use;

/** The columns of a file. Zero-initialised is empty; owned by the caller; borrows the CSV text. */
typedef struct runnel_columns {
    const runnel_column *known;
    size_t known_count;
    runnel_column_use *uses;
    size_t count;
} runnel_columns;

/** Frees it and leaves it empty. */
void runnel_columns_clear(runnel_columns *columns);

/**
 * Finds the columns in the header, the first row. What is unknown, twice, missing, or has no unit
 * or a wrong one is told.
 *
 * @param csv      at least one row
 * @param problems not NULL
 * @param columns  an empty one
 * @return RUNNEL_OK when it can be used, even if something was told; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_columns_find(const runnel_csv *csv, const char *file,
                                  const runnel_column *known, size_t known_count,
                                  runnel_problems *problems, runnel_columns *columns);

/**
 * Cuts "name [unit]" in two.
 *
 * @param name closed behind the name
 * @param unit within `name`; NULL ends without brackets
 * @return false when the brackets are not at the end, or are no pair
 */
bool runnel_header_split(char *name, runnel_slice *unit);

/** Whether a text is YYYY, YYYY-MM or YYYY-MM-DD and such a day there is. */
bool runnel_is_date(const char *text);

/** A row of a file, for reading it and for telling where its cells stand. Borrowed. */
typedef struct runnel_row_source {
    const char *file;
    const runnel_columns *columns;
    const runnel_csv *csv;
    const runnel_csv_row *cells;
    runnel_problems *problems;
} runnel_row_source;

/**
 * Reads the cells of one row into the fields of `row`, a zeroed one. A number without a cell
 * becomes NAN, a text "". What is wrong is told.
 *
 * @return RUNNEL_OK when all is right; RUNNEL_E_NO_MEMORY; else another status
 */
runnel_status runnel_row_read(const runnel_row_source *source, void *row);

/** Tells a problem of the cell that fills the field at `offset`; of the row's first cell when the
 * file has no such column. @return status */
runnel_status runnel_row_problem(const runnel_row_source *source, runnel_status status,
                                 size_t offset, const char *format, ...) RUNNEL_PRINTF(4, 5);

#endif
