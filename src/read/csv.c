/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "read/csv.h"

#include "base/memory.h"
#include "base/utf8.h"

#include <csv.h>
#include <stdbool.h>
#include <string.h>

/* So many rows with wrong quotes mean that the file is no CSV table. */
#define WRONG_ROWS 100

/* Block by which libcsv's buffer for one cell grows. */
#define CELL_BLOCK 4096

/* Where reading stands. libcsv knows no places, so it is handed the text in portions that it can
 * end a cell in at their last byte only. */
typedef struct reader {
    struct csv_parser parser;
    runnel_csv *csv;
    runnel_problems *problems;
    const char *file, *text;
    size_t length, at;
    size_t line, column; /* of the byte at `at` */
    bool in_row, in_cell;
    size_t row_at, row_line, row_cells;     /* start of the row: byte, line, cells before it */
    size_t cell_at, cell_line, cell_column; /* start of the cell */
    size_t wrong_rows;
    runnel_status status;
} reader;

void runnel_csv_clear(runnel_csv *csv) {
    runnel_free(csv->text);
    runnel_free(csv->cells);
    runnel_free(csv->rows);
    memset(csv, 0, sizeof *csv);
}

static runnel_status refuse(const reader *in, size_t line, size_t column, const char *text) {
    runnel_place place = {in->file, line, column, NULL};
    return runnel_problems_add(in->problems, RUNNEL_E_SYNTAX, &place, "%s", text);
}

/* ---- What libcsv calls --------------------------------------------------------------------- */

static void *resize_bytes(void *old, size_t bytes) {
    return runnel_resize(old, bytes, 1);
}

static void take_cell(void *bytes, size_t length, void *data) {
    reader *in = data;
    runnel_csv *csv = in->csv;
    in->in_cell = false;
    if (in->status != RUNNEL_OK)
        return;
    if (runnel_reserve(&csv->text, &csv->text_capacity, csv->text_length + length + 1, 1) ||
        runnel_reserve(&csv->cells, &csv->cell_capacity, csv->cell_count + 1, sizeof *csv->cells)) {
        in->status = RUNNEL_E_NO_MEMORY;
        return;
    }
    if (length)
        memcpy(csv->text + csv->text_length, bytes, length);
    csv->text[csv->text_length + length] = '\0';
    csv->cells[csv->cell_count++] =
        (runnel_csv_cell){csv->text_length, in->cell_line, in->cell_column};
    csv->text_length += length + 1;
}

static void take_row(int terminator, void *data) {
    (void)terminator;
    reader *in = data;
    runnel_csv *csv = in->csv;
    in->in_row = false;
    if (in->status != RUNNEL_OK)
        return;
    bool empty = true;
    for (size_t i = in->row_cells; i < csv->cell_count; i++)
        empty = empty && csv->text[csv->cells[i].text] == '\0';
    if (empty) {
        csv->cell_count = in->row_cells;
        return;
    }
    if (runnel_reserve(&csv->rows, &csv->row_capacity, csv->row_count + 1, sizeof *csv->rows)) {
        in->status = RUNNEL_E_NO_MEMORY;
        return;
    }
    csv->rows[csv->row_count++] = (runnel_csv_row){in->row_cells, csv->cell_count - in->row_cells};
}

/* csv_init allocates nothing and cannot fail. */
static void start_parser(reader *in) {
    csv_init(&in->parser, CSV_STRICT | CSV_STRICT_FINI);
    csv_set_realloc_func(&in->parser, resize_bytes);
    csv_set_free_func(&in->parser, runnel_free);
    csv_set_blk_size(&in->parser, CELL_BLOCK);
    csv_set_delim(&in->parser, (unsigned char)in->csv->separator);
}

/* ---- Places -------------------------------------------------------------------------------- */

static bool is_line_end(char byte) {
    return byte == '\n' || byte == '\r';
}

static bool is_blank(char byte) {
    return byte == ' ' || byte == '\t';
}

/* Moves over a byte: a line ends after LF and after a CR without one; a character is counted at
 * its first byte. */
static void step(reader *in) {
    const char *byte = in->text + in->at++;
    bool ends = *byte == '\n' || (*byte == '\r' && (in->at >= in->length || byte[1] != '\n'));
    if (ends) {
        in->line++;
        in->column = 1;
    } else if (((unsigned char)*byte & 0xC0) != 0x80) {
        in->column++;
    }
}

/* Notes where a row and a cell begin, when they begin here. */
static void mark_start(reader *in) {
    if (!in->in_row) {
        in->in_row = true;
        in->row_at = in->at;
        in->row_line = in->line;
        in->row_cells = in->csv->cell_count;
    }
    if (!in->in_cell) {
        in->in_cell = true;
        in->cell_at = in->at;
        in->cell_line = in->line;
        in->cell_column = in->column;
    }
}

/* Bytes from `at` that can be fed at once: a run of plain ones, or one that may end a cell. */
static size_t portion(const reader *in) {
    const char stops[] = {in->csv->separator, '"', '\n', '\r', ' ', '\t'};
    size_t end = in->at;
    while (end < in->length && !memchr(stops, in->text[end], sizeof stops))
        end++;
    return end > in->at ? end - in->at : 1;
}

/* ---- Wrong quotes -------------------------------------------------------------------------- */

static void tell_wrong_quote(const reader *in) {
    runnel_place place = {in->file, in->line, in->column, NULL};
    size_t bytes;
    char character[8] = "";
    memcpy(character, in->text + in->at, in->length - in->at < 4 ? in->length - in->at : 4);
    runnel_utf8_next(character, &bytes);
    if (in->at >= in->length) {
        place.line = in->cell_line;
        place.column = in->cell_column;
        runnel_problems_add(in->problems, RUNNEL_E_SYNTAX, &place,
                            "the double quote '\"' that opens here is never closed");
    } else if (in->text[in->cell_at] != '"') {
        runnel_problems_add(in->problems, RUNNEL_E_SYNTAX, &place,
                            "a double quote '\"' in a cell that does not begin with one: put the "
                            "whole cell in double quotes and write those within it twice");
    } else {
        runnel_problems_add(in->problems, RUNNEL_E_SYNTAX, &place,
                            "'%.*s' after the closing double quote of a cell that begins on line "
                            "%zu, column %zu: either that quote is unmatched, or one within the "
                            "cell must be written twice",
                            (int)bytes, character, in->cell_line, in->cell_column);
    }
}

/* Leaves the row out and goes to the line after its first, as an unmatched quote swallows sound
 * rows. Each line is read twice at most: one that a quote swallowed whole has its own quotes in
 * pairs, and then leaves none open. */
static void drop_row(reader *in) {
    tell_wrong_quote(in);
    csv_free(&in->parser);
    start_parser(in);
    in->csv->cell_count = in->row_cells;
    in->in_row = in->in_cell = false;
    in->at = in->row_at;
    in->line = in->row_line;
    while (in->at < in->length && in->line == in->row_line)
        step(in);
    if (++in->wrong_rows < WRONG_ROWS)
        return;
    refuse(in, in->line, 0, "reading stops here: too many wrong quotes for a CSV table");
    in->at = in->length;
}

/* ---- Reading ------------------------------------------------------------------------------- */

static void feed(reader *in) {
    char byte = in->text[in->at];
    size_t length = portion(in);
    bool skipped = is_blank(byte) || (is_line_end(byte) && !in->in_row);
    if (!skipped)
        mark_start(in);
    size_t taken = csv_parse(&in->parser, in->text + in->at, length, take_cell, take_row, in);
    for (size_t i = 0; i < taken && i < length; i++)
        step(in);
    if (taken == length)
        return;
    if (csv_error(&in->parser) == CSV_EPARSE)
        drop_row(in);
    else
        in->status = RUNNEL_E_NO_MEMORY;
}

static void feed_end(reader *in) {
    if (in->in_row)
        mark_start(in);
    if (csv_fini(&in->parser, take_cell, take_row, in) != 0)
        drop_row(in);
}

static runnel_status read_rows(reader *in) {
    start_parser(in);
    do {
        while (in->at < in->length && in->status == RUNNEL_OK)
            feed(in);
        if (in->status == RUNNEL_OK)
            feed_end(in);
        /* An unmatched quote sends the end back to the line after it. */
    } while (in->at < in->length && in->status == RUNNEL_OK);
    csv_free(&in->parser);
    if (in->status != RUNNEL_OK)
        return in->status;
    return in->wrong_rows ? RUNNEL_E_SYNTAX : RUNNEL_OK;
}

/* ---- Before the first row ------------------------------------------------------------------ */

static bool starts_with(const reader *in, const char *mark, size_t length) {
    return in->length >= length && memcmp(in->text, mark, length) == 0;
}

static runnel_status check_text(reader *in) {
    if (starts_with(in, "\xFF\xFE", 2) || starts_with(in, "\xFE\xFF", 2))
        return refuse(in, 1, 1, "the file is in UTF-16: save it as CSV in UTF-8");
    if (starts_with(in, "\xEF\xBB\xBF", 3))
        in->at = 3;
    reader walk = *in;
    while (walk.at < walk.length) {
        size_t bytes = 1, left = walk.length - walk.at;
        char ahead[5] = "";
        if (walk.text[walk.at] == '\0')
            return refuse(&walk, walk.line, walk.column,
                          "a zero byte: this is a binary file, not a CSV table");
        memcpy(ahead, walk.text + walk.at, left < 4 ? left : 4);
        uint32_t point = runnel_utf8_next(ahead, &bytes);
        if (point >= 0xDC80 && point <= 0xDCFF && bytes == 1)
            return refuse(&walk, walk.line, walk.column,
                          "a byte that is not UTF-8: save the table as CSV in UTF-8");
        while (bytes-- > 0)
            step(&walk);
    }
    return RUNNEL_OK;
}

/* A first line "sep=;" as spreadsheets write it. */
static runnel_status take_separator_line(reader *in) {
    const char *line = in->text + in->at;
    size_t left = in->length - in->at;
    if (left < 5 || (line[0] | 0x20) != 's' || (line[1] | 0x20) != 'e' || (line[2] | 0x20) != 'p' ||
        line[3] != '=' || (left > 5 && !is_line_end(line[5])))
        return RUNNEL_OK;
    if (line[4] != ',' && line[4] != ';')
        return refuse(in, in->line, 5, "a separator other than ',' or ';'");
    in->csv->separator = line[4];
    for (size_t first = in->line; in->at < in->length && in->line == first;)
        step(in);
    return RUNNEL_OK;
}

/* Comma or semicolon, whichever the header line has more of outside of quotes. */
static runnel_status tell_separator(reader *in) {
    reader walk = *in;
    while (walk.at < walk.length &&
           (is_line_end(walk.text[walk.at]) || is_blank(walk.text[walk.at])))
        step(&walk);
    size_t commas = 0, semicolons = 0, tabs = 0;
    bool quoted = false;
    for (; walk.at < walk.length && (quoted || !is_line_end(walk.text[walk.at])); step(&walk)) {
        char byte = walk.text[walk.at];
        quoted = quoted != (byte == '"');
        commas += !quoted && byte == ',';
        semicolons += !quoted && byte == ';';
        tabs += !quoted && byte == '\t';
    }
    if (tabs && !commas && !semicolons)
        return refuse(in, in->line, 0, "cells separated by tabs: use ',' or ';'");
    in->csv->separator = semicolons > commas ? ';' : ',';
    return RUNNEL_OK;
}

runnel_status runnel_csv_parse(const char *text, size_t length, const char *file,
                               runnel_problems *problems, runnel_csv *csv) {
    reader in = {.csv = csv,
                 .problems = problems,
                 .file = file,
                 .text = text,
                 .length = length,
                 .line = 1,
                 .column = 1};
    runnel_status status = check_text(&in);
    if (status == RUNNEL_OK)
        status = take_separator_line(&in);
    if (status == RUNNEL_OK && !csv->separator)
        status = tell_separator(&in);
    return status == RUNNEL_OK ? read_rows(&in) : status;
}
