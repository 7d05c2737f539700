/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The stock as a CSV file: reading it, and writing down what is left.
 *
 * The file is as told in runnel/tables.h. Its columns, in any order:
 *
 * | column | what stands in it |
 * |---|---|
 * | what | name of a resin, tint, oil, ...; needed |
 * | part, colour, or part or colour | A, B, or a colour |
 * | amount [g], amount [ml] | what is in the bottle, in any unit of mass or volume; one of the two
 * columns, or both with one filled in each row | | pack size [g], pack size [ml] | what a new one
 * holds | | price | of a new one; price [EUR] tells the currency of all | | currency | of the
 * price, any text | | opened | YYYY, YYYY-MM or YYYY-MM-DD |
 *
 * All other columns are the user's own and stay as they are.
 */
#ifndef RUNNEL_STOCK_CSV_H
#define RUNNEL_STOCK_CSV_H

#include "runnel/stock.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Most that an amount, a pack or a price may be: g, mm3, or money. */
#define RUNNEL_STOCK_MOST 1e12

/** Where the amount of an item stands. */
typedef struct runnel_stock_cell {
    size_t at, length;    /**< bytes of the number in the text */
    size_t line, column;  /**< from 1, in characters */
    double per_unit;      /**< g or mm3 in the unit of its column */
    double smallest_unit; /**< step to which it is written, in that unit: 0.01 g, 0.01 ml */
} runnel_stock_cell;

/** A stock file. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_stock_file {
    char *path; /**< as the user gave it */
    char *text; /**< the whole file, closed with a zero */
    size_t length;
    runnel_stock stock;
    runnel_stock_cell *cells; /**< one for each item of the stock */
} runnel_stock_file;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_stock_file_clear(runnel_stock_file *file);

/**
 * Takes a stock file apart. All problems are told with file, line, column (in characters) and
 * header, and then nothing is taken.
 *
 * @param text     `length` bytes
 * @param path     for messages, and kept
 * @param problems may be NULL
 * @param file     an empty one; untouched on failure
 */
runnel_status runnel_stock_parse(const char *text, size_t length, const char *path,
                                 runnel_problems *problems, runnel_stock_file *file);

/** Reads a stock file ("-" is the standard input); see runnel_file_read and runnel_stock_parse. */
runnel_status runnel_stock_read(const char *path, runnel_problems *problems,
                                runnel_stock_file *file);

/**
 * The text of the file with new amounts. Only the numbers that change are written anew, to 0.01 g
 * or 0.01 ml or as fine as their unit asks; all else stays byte for byte.
 *
 * @param left   of each item of the stock, in g or mm3 as its amount, 0 to RUNNEL_STOCK_MOST
 *               (runnel_stock_answer.left)
 * @param text   closed with a zero behind `length` bytes; to be freed with runnel_free
 * @return RUNNEL_OK; RUNNEL_E_RANGE; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_stock_text(const runnel_stock_file *file, const double *left, char **text,
                                size_t *length);

/**
 * Writes the new amounts to the file that they came from: to a file beside it, which then takes its
 * place with its permissions, so that at no time a half-written one stands there. A symbolic link
 * is followed. Nothing is written when no number changes.
 *
 * @param problems may be NULL
 * @return RUNNEL_OK; RUNNEL_E_CONFLICT when the file is not as it was read, or is the standard
 *         input; RUNNEL_E_NOT_FOUND, RUNNEL_E_IO, all told; RUNNEL_E_RANGE; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_stock_write(const runnel_stock_file *file, const double *left,
                                 runnel_problems *problems);

#ifdef __cplusplus
}
#endif
#endif
