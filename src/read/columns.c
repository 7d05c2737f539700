/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "read/columns.h"

#include "base/memory.h"
#include "base/slice.h"
#include "base/suggest.h"
#include "job/rows.h"

#include <math.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

/* Longest number that is looked at; a longer cell is no number. */
#define NUMBER_BYTES 64

static const char *shown(const char *text, char *buffer) {
    return runnel_slice_show(runnel_slice_of(text), buffer);
}

/* ---- Header -------------------------------------------------------------------------------- */

void runnel_columns_clear(runnel_columns *columns) {
    for (size_t i = 0; i < columns->count; i++)
        runnel_free(columns->uses[i].unit);
    runnel_free(columns->uses);
    memset(columns, 0, sizeof *columns);
}

/* "pot life [min]" as it should be. */
static const char *full_name(const runnel_column *column, char *buffer) {
    if (column->unit)
        snprintf(buffer, RUNNEL_SHOWN_SIZE, "%s [%s]", column->name, column->unit);
    else
        snprintf(buffer, RUNNEL_SHOWN_SIZE, "%s", column->name);
    return buffer;
}

static const runnel_column *known_column(const runnel_columns *columns, const char *name) {
    for (size_t i = 0; i < columns->known_count; i++)
        if (runnel_row_name_equal(columns->known[i].name, name))
            return &columns->known[i];
    return NULL;
}

static void tell_unknown(const runnel_columns *columns, const char *name, const runnel_place *place,
                         runnel_problems *problems) {
    const runnel_column *nearest = NULL;
    size_t steps = SIZE_MAX;
    for (size_t i = 0; i < columns->known_count; i++) {
        const char *known = columns->known[i].name;
        size_t distance =
            runnel_nearest(name, &known, 1) ? runnel_word_distance(name, known) : steps;
        if (distance < steps) {
            steps = distance;
            nearest = &columns->known[i];
        }
    }
    char text[RUNNEL_SHOWN_SIZE], right[RUNNEL_SHOWN_SIZE];
    if (nearest)
        runnel_problems_add(problems, RUNNEL_E_UNKNOWN, place,
                            "'%s' is no column of this table; '%s' is near", shown(name, text),
                            full_name(nearest, right));
    else
        runnel_problems_add(problems, RUNNEL_E_UNKNOWN, place, "'%s' is no column of this table",
                            shown(name, text));
}

bool runnel_header_split(char *name, runnel_slice *unit) {
    char *open = strpbrk(name, "[]");
    *unit = (runnel_slice){NULL, NULL};
    if (!open)
        return true;
    char *close = open + strcspn(open, "]");
    if (*open == ']' || close[0] == '\0' || close[1] != '\0')
        return false;
    *unit = runnel_slice_trim((runnel_slice){open + 1, close});
    while (open > name && open[-1] == ' ')
        open--;
    *open = '\0';
    return true;
}

/* Whether the numbers of a column may stand in a unit. */
static bool unit_fits(const runnel_column *column, const char *unit) {
    if (strcmp(column->unit, unit) == 0)
        return true;
    if (column->dimension == RUNNEL_DIMENSION_COUNT || strlen(unit) > NUMBER_BYTES || !*unit)
        return false;
    /* "1 h 30 min" is a time, but "h 30 min" no unit. */
    for (const char *at = unit; (at = strchr(at, ' ')) != NULL; at++)
        if (at[1] >= '0' && at[1] <= '9')
            return false;
    char quantity[2 * NUMBER_BYTES];
    double value;
    snprintf(quantity, sizeof quantity, "1 %s", unit);
    return runnel_quantity_parse(quantity, column->dimension, NULL, NULL, &value) == RUNNEL_OK;
}

static bool check_unit(const runnel_column_use *use, const runnel_place *place,
                       runnel_problems *problems) {
    const runnel_column *column = use->column;
    char right[RUNNEL_SHOWN_SIZE], text[RUNNEL_SHOWN_SIZE];
    full_name(column, right);
    if (use->unit && !column->unit)
        runnel_problems_add(problems, RUNNEL_E_UNIT, place,
                            "'[%s]' behind '%s', which takes no unit", shown(use->unit, text),
                            column->name);
    else if (!use->unit && column->unit)
        runnel_problems_add(problems, RUNNEL_E_UNIT, place,
                            "'%s' needs its unit in brackets, such as '%s'", column->name, right);
    else if (use->unit && !unit_fits(column, use->unit))
        runnel_problems_add(problems, RUNNEL_E_UNIT, place,
                            "'[%s]' is no unit of '%s'; '%s' would be right",
                            shown(use->unit, text), column->name, right);
    else
        return true;
    return false;
}

/* Finds the column of the use at `at` by its name, a copy that may be cut. */
static runnel_status find_column(runnel_columns *columns, size_t at, char *name,
                                 const runnel_place *place, runnel_problems *problems) {
    runnel_column_use *use = &columns->uses[at];
    char text[RUNNEL_SHOWN_SIZE];
    runnel_slice unit;
    if (!*name)
        return runnel_problems_add(problems, RUNNEL_E_SYNTAX, place, "column %zu has no name",
                                   at + 1);
    if (!runnel_header_split(name, &unit))
        return runnel_problems_add(problems, RUNNEL_E_SYNTAX, place,
                                   "'%s' is not a name with its unit in brackets behind it, such "
                                   "as 'tip [mm]'",
                                   shown(use->header, text));
    const runnel_column *column = known_column(columns, name);
    if (!column) {
        tell_unknown(columns, name, place, problems);
        return RUNNEL_E_UNKNOWN;
    }
    for (size_t i = 0; i < at; i++)
        if (columns->uses[i].column == column)
            return runnel_problems_add(problems, RUNNEL_E_CONFLICT, place,
                                       "'%s' stands twice, in the columns %zu and %zu",
                                       column->name, i + 1, at + 1);
    if (unit.at) {
        use->unit = runnel_copy_bytes(unit.at, (size_t)(unit.end - unit.at));
        if (!use->unit)
            return RUNNEL_E_NO_MEMORY;
    }
    use->column = column;
    use->readable = check_unit(use, place, problems);
    return RUNNEL_OK;
}

static void tell_missing(const runnel_columns *columns, const runnel_place *place,
                         runnel_problems *problems) {
    for (size_t k = 0; k < columns->known_count; k++) {
        bool there = !columns->known[k].needed;
        for (size_t i = 0; i < columns->count && !there; i++)
            there = columns->uses[i].column == &columns->known[k];
        char right[RUNNEL_SHOWN_SIZE];
        if (!there)
            runnel_problems_add(problems, RUNNEL_E_MISSING, place, "the column '%s' is missing",
                                full_name(&columns->known[k], right));
    }
}

runnel_status runnel_columns_find(const runnel_csv *csv, const char *file,
                                  const runnel_column *known, size_t known_count,
                                  runnel_problems *problems, runnel_columns *columns) {
    const runnel_csv_row *header = &csv->rows[0];
    const runnel_csv_cell *cells = &csv->cells[header->first];
    runnel_place line = {file, cells->line, 0, NULL};
    *columns = (runnel_columns){.known = known, .known_count = known_count};
    /* Of a header far too long not each cell is told. */
    if (header->count > 4 * known_count) {
        runnel_problems_add(problems, RUNNEL_E_SYNTAX, &line,
                            "%zu columns, where this table has %zu at most", header->count,
                            known_count);
        return RUNNEL_OK;
    }
    columns->uses = runnel_zeroed(header->count, sizeof *columns->uses);
    runnel_status status = columns->uses ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < header->count && status != RUNNEL_E_NO_MEMORY; i++) {
        const char *text = csv->text + cells[i].text;
        runnel_place place = {file, cells[i].line, cells[i].column, *text ? text : NULL};
        char *name = runnel_copy_text(text);
        columns->uses[i].header = text;
        columns->count++;
        status = name ? find_column(columns, i, name, &place, problems) : RUNNEL_E_NO_MEMORY;
        runnel_free(name);
    }
    if (status == RUNNEL_E_NO_MEMORY) {
        runnel_columns_clear(columns);
        return status;
    }
    tell_missing(columns, &line, problems);
    return RUNNEL_OK;
}

/* ---- Cells --------------------------------------------------------------------------------- */

/* What a cell is read for: its text, the column in use, and where problems go. */
typedef struct cell_input {
    const char *text;
    const runnel_column_use *use;
    const runnel_place *place;
    runnel_problems *problems;
    char *row;
} cell_input;

static void *field(const cell_input *in) {
    return in->row + in->use->column->offset;
}

static runnel_status keep_text(const cell_input *in, const char *text) {
    char *copy = runnel_copy_text(text);
    if (!copy)
        return RUNNEL_E_NO_MEMORY;
    memcpy(field(in), &copy, sizeof copy);
    return RUNNEL_OK;
}

static runnel_status read_text(const cell_input *in) {
    return keep_text(in, in->text);
}

static runnel_status read_word(const cell_input *in) {
    const char *const *words = in->use->column->words;
    size_t count = 0;
    for (; words[count]; count++) {
        if (!runnel_row_name_equal(words[count], in->text))
            continue;
        if (!in->use->column->take)
            return keep_text(in, words[count]);
        in->use->column->take(count, in->row);
        return RUNNEL_OK;
    }
    char list[RUNNEL_SHOWN_SIZE] = "", text[RUNNEL_SHOWN_SIZE];
    for (size_t i = 0, used = 0; i < count && used < sizeof list; i++)
        used +=
            (size_t)snprintf(list + used, sizeof list - used, "%s'%s'", i ? ", " : "", words[i]);
    const char *nearest = runnel_nearest(in->text, words, count);
    return runnel_problems_add(in->problems, RUNNEL_E_UNKNOWN, in->place,
                               "'%s' is none of %s%s%s%s", shown(in->text, text), list,
                               nearest ? "; '" : "", nearest ? nearest : "",
                               nearest ? "' is near" : "");
}

/* Two digits as a number, -1 for anything else. */
static int two_digits(const char *text) {
    for (size_t i = 0; i < 2; i++)
        if (text[i] < '0' || text[i] > '9')
            return -1;
    return 10 * (text[0] - '0') + (text[1] - '0');
}

bool runnel_is_date(const char *text) {
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    size_t length = strlen(text);
    if ((length != 4 && length != 7 && length != 10) || two_digits(text) < 0 ||
        two_digits(text + 2) < 0)
        return false;
    int year = 100 * two_digits(text) + two_digits(text + 2);
    bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    int month = length < 7 ? 1 : two_digits(text + 5);
    int day = length < 10 ? 1 : two_digits(text + 8);
    return (length < 7 || text[4] == '-') && (length < 10 || text[7] == '-') && month >= 1 &&
           month <= 12 && day >= 1 && day <= days[month - 1] + (leap && month == 2);
}

static runnel_status read_date(const cell_input *in) {
    char text[RUNNEL_SHOWN_SIZE];
    if (runnel_is_date(in->text))
        return keep_text(in, in->text);
    return runnel_problems_add(in->problems, RUNNEL_E_SYNTAX, in->place,
                               "'%s' is not a date such as 2024-05-31, 2024-05 or 2024",
                               shown(in->text, text));
}

/* Units and words do not belong into a cell. Fractions may be of length only, which the reader of
 * quantities judges. */
static bool is_plain(const char *text) {
    return strlen(text) <= NUMBER_BYTES && !text[strspn(text, "0123456789+-.,eE/ ")];
}

static runnel_status refuse_number(const cell_input *in) {
    const char *unit = in->use->column->unit ? in->use->unit : NULL;
    char text[RUNNEL_SHOWN_SIZE];
    double value;
    shown(in->text, text);
    if (!is_plain(in->text) && unit)
        return runnel_problems_add(in->problems, RUNNEL_E_SYNTAX, in->place,
                                   "'%s' is not a plain number; its unit, '%s', stands in the "
                                   "header, and an unknown value is an empty cell",
                                   text, unit);
    if (!is_plain(in->text))
        return runnel_problems_add(in->problems, RUNNEL_E_SYNTAX, in->place,
                                   "'%s' is not a plain number", text);
    runnel_status status = runnel_number_parse(in->text, in->problems, in->place, &value);
    if (status != RUNNEL_OK)
        return status;
    return runnel_problems_add(in->problems, RUNNEL_E_RANGE, in->place,
                               "'%s' is more than can be computed with", text);
}

/* The value in the field's unit; false when the cell is no number. */
static bool measure(const cell_input *in, double *value) {
    const runnel_column *column = in->use->column;
    const char *unit = in->use->unit;
    if (!is_plain(in->text))
        return false;
    bool own = !unit || column->dimension == RUNNEL_DIMENSION_COUNT ||
               (column->per != 1 && strcmp(unit, column->unit) == 0);
    if (own)
        return runnel_number_parse(in->text, NULL, NULL, value) == RUNNEL_OK;
    char quantity[3 * NUMBER_BYTES];
    snprintf(quantity, sizeof quantity, "%s %s", in->text, unit);
    if (runnel_quantity_parse(quantity, column->dimension, NULL, NULL, value) != RUNNEL_OK)
        return false;
    *value *= column->per;
    return isfinite(*value);
}

static runnel_status read_number(const cell_input *in) {
    const runnel_column_range *range = in->use->column->range;
    double value;
    if (!measure(in, &value))
        return refuse_number(in);
    bool inside = range->open ? value > range->low && value < range->high
                              : value >= range->low && value <= range->high;
    char text[RUNNEL_SHOWN_SIZE];
    if (!inside)
        return runnel_problems_add(in->problems, RUNNEL_E_RANGE, in->place, "'%s' must be %s",
                                   shown(in->text, text), range->text);
    memcpy(field(in), &value, sizeof value);
    return RUNNEL_OK;
}

static runnel_status read_cell(const cell_input *in) {
    static runnel_status (*const readers[])(const cell_input *) = {
        [RUNNEL_COLUMN_TEXT] = read_text,
        [RUNNEL_COLUMN_DATE] = read_date,
        [RUNNEL_COLUMN_WORD] = read_word,
        [RUNNEL_COLUMN_NUMBER] = read_number,
    };
    const runnel_column *column = in->use->column;
    if (*in->text)
        return readers[column->kind](in);
    if (column->needed)
        return runnel_problems_add(in->problems, RUNNEL_E_MISSING, in->place,
                                   "an empty cell, where a value is needed");
    return RUNNEL_OK;
}

/* ---- Rows ---------------------------------------------------------------------------------- */

static void make_unknown(const runnel_columns *columns, char *row) {
    static const double unknown = NAN;
    for (size_t i = 0; i < columns->known_count; i++)
        if (columns->known[i].kind == RUNNEL_COLUMN_NUMBER)
            memcpy(row + columns->known[i].offset, &unknown, sizeof unknown);
}

/* Texts that no cell has filled become "". */
static runnel_status fill_texts(const runnel_columns *columns, char *row) {
    for (size_t i = 0; i < columns->known_count; i++) {
        char *text;
        if (columns->known[i].kind != RUNNEL_COLUMN_TEXT)
            continue;
        memcpy(&text, row + columns->known[i].offset, sizeof text);
        if (text)
            continue;
        text = runnel_copy_text("");
        if (!text)
            return RUNNEL_E_NO_MEMORY;
        memcpy(row + columns->known[i].offset, &text, sizeof text);
    }
    return RUNNEL_OK;
}

static runnel_status tell_count(const runnel_row_source *source) {
    size_t got = source->cells->count, want = source->columns->count;
    const runnel_csv_cell *cells = &source->csv->cells[source->cells->first];
    const runnel_csv_cell *cell = &cells[got > want ? want : got - 1];
    runnel_place place = {source->file, cell->line, cell->column, NULL};
    return runnel_problems_add(source->problems, RUNNEL_E_SYNTAX, &place,
                               "%zu cells, where the header has %zu%s", got, want,
                               got > want ? "; a text with a separator in it needs double quotes, "
                                            "a number a decimal point"
                                          : "");
}

runnel_status runnel_row_read(const runnel_row_source *source, void *row) {
    const runnel_columns *columns = source->columns;
    if (source->cells->count != columns->count)
        return tell_count(source);
    make_unknown(columns, row);
    runnel_status worst = RUNNEL_OK;
    for (size_t i = 0; i < columns->count && worst != RUNNEL_E_NO_MEMORY; i++) {
        const runnel_column_use *use = &columns->uses[i];
        const runnel_csv_cell *at = &source->csv->cells[source->cells->first + i];
        runnel_place place = {source->file, at->line, at->column, use->header};
        cell_input in = {source->csv->text + at->text, use, &place, source->problems, row};
        runnel_status status = use->readable ? read_cell(&in) : RUNNEL_OK;
        worst = status == RUNNEL_OK ? worst : status;
    }
    return worst == RUNNEL_OK ? fill_texts(columns, row) : worst;
}

runnel_status runnel_row_problem(const runnel_row_source *source, runnel_status status,
                                 size_t offset, const char *format, ...) {
    const runnel_csv_cell *cells = &source->csv->cells[source->cells->first];
    runnel_place place = {source->file, cells->line, cells->column, NULL};
    for (size_t i = 0; i < source->columns->count; i++) {
        const runnel_column_use *use = &source->columns->uses[i];
        if (use->column && use->column->offset == offset)
            place = (runnel_place){source->file, cells[i].line, cells[i].column, use->header};
    }
    char text[2 * RUNNEL_SHOWN_SIZE];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    return runnel_problems_add(source->problems, status, &place, "%s", text);
}
