/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * CSV text taken apart into cells that know where they stood.
 */
#ifndef RUNNEL_READ_CSV_H
#define RUNNEL_READ_CSV_H

#include "runnel/status.h"

/** A cell. Its text is closed with a zero, without the blanks around it and the quotes. */
typedef struct runnel_csv_cell {
    size_t text;         /**< start in runnel_csv.text */
    size_t line, column; /**< of its first character, from 1, in characters */
} runnel_csv_cell;

/** A row that holds at least one cell that is not empty. */
typedef struct runnel_csv_row {
    size_t first, count; /**< its cells */
} runnel_csv_row;

/** The rows of a file. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_csv {
    char *text;
    size_t text_length, text_capacity;
    runnel_csv_cell *cells;
    size_t cell_count, cell_capacity;
    runnel_csv_row *rows;
    size_t row_count, row_capacity;
    char separator; /**< comma or semicolon */
} runnel_csv;

/** Frees all and leaves it empty. */
void runnel_csv_clear(runnel_csv *csv);

/**
 * Takes a CSV text apart. Rows of empty cells only are left out. A row with a wrong quote is told,
 * left out, and reading goes on with the line after its first; after 100 such rows it stops.
 *
 * @param text     need not be closed with a zero
 * @param file     for messages
 * @param problems where problems are told; not NULL
 * @param csv      an empty one; holds the sound rows, also when a wrong quote was told
 * @return RUNNEL_OK when all rows are sound; RUNNEL_E_SYNTAX; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_csv_parse(const char *text, size_t length, const char *file,
                               runnel_problems *problems, runnel_csv *csv);

#endif
