/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The reference tables: their columns, and what a row must agree with in itself.
 */
#ifndef RUNNEL_READ_FORMATS_H
#define RUNNEL_READ_FORMATS_H

#include "read/columns.h"
#include "runnel/tables.h"

/** A kind of table. Offsets of fields in its row, and of its rows in runnel_tables. */
typedef struct runnel_table_format {
    const char *file_name;
    const runnel_column *columns;
    size_t column_count;
    size_t row_size, name, file;
    size_t rows, count, capacity;
    void (*clear)(void *row);
    /** Checks a row whose cells are right one by one, tells what is wrong, and fills in what
     * follows from the cells. */
    runnel_status (*finish)(const runnel_row_source *source, void *row);
} runnel_table_format;

enum { RUNNEL_TABLE_FORMATS = 6 };

/** Resins, cutters, woods, oils, rules of upkeep, work. */
extern const runnel_table_format runnel_table_formats[RUNNEL_TABLE_FORMATS];

#endif
