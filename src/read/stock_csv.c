/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/stock_csv.h"

#include "base/memory.h"
#include "job/rows.h"
#include "read/columns.h"
#include "runnel/read.h"
#include "runnel/tables.h"
#include "runnel/units.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

/* Most columns, the user's own among them. */
#define MOST_COLUMNS 200
/* Longest number that is looked at, and longest unit. */
#define NUMBER_BYTES 64

/* What a column is for. */
typedef enum stock_role {
    WHAT,
    PART,
    AMOUNT_G,
    AMOUNT_ML,
    PACK_G,
    PACK_ML,
    PRICE,
    CURRENCY,
    OPENED,
    ROLES,
    OWN = ROLES /* the user's own */
} stock_role;

/* Names of columns. One that measures is the role given for masses, the next one for volumes. */
static const struct column_name {
    const char *name;
    stock_role role;
    bool is_measured;
} names[] = {
    {"what", WHAT, false},           {"part", PART, false},         {"colour", PART, false},
    {"part or colour", PART, false}, {"amount", AMOUNT_G, true},    {"pack size", PACK_G, true},
    {"price", PRICE, false},         {"currency", CURRENCY, false}, {"opened", OPENED, false}};
enum { NAMES = sizeof names / sizeof *names };

/* A column that is used. */
typedef struct use {
    bool is_there;
    size_t index;            /* of its cells */
    const char *header;      /* as in the file */
    char unit[NUMBER_BYTES]; /* as in the file; "" for none */
    double per_unit;         /* g or mm3 */
} use;

/* Reading of one file. */
typedef struct reader {
    const char *path;
    runnel_csv csv;
    runnel_problems *problems;
    use uses[ROLES];
    size_t width;         /* cells of the header */
    bool is_named[ROLES]; /* in the header, be it readable or not */
    bool is_sound;        /* its header */
    runnel_stock stock;
    runnel_stock_cell *cells;
    size_t cell_capacity;
    runnel_status status; /* RUNNEL_OK or want of memory */
} reader;

static const char *shown(const char *text, char *buffer) {
    return runnel_slice_show(runnel_slice_of(text), buffer);
}

void runnel_stock_file_clear(runnel_stock_file *file) {
    if (!file)
        return;
    runnel_free(file->path);
    runnel_free(file->text);
    runnel_free(file->cells);
    runnel_stock_clear(&file->stock);
    memset(file, 0, sizeof *file);
}

/* ---- Header -------------------------------------------------------------------------------- */

/* Finds out what a unit measures; false when it is neither a mass nor a volume. */
static bool measure_unit(runnel_slice unit, use *of, bool *is_volume) {
    char one[NUMBER_BYTES + 4];
    size_t length = (size_t)(unit.end - unit.at);
    if (!length || length >= sizeof of->unit || (*unit.at >= '0' && *unit.at <= '9'))
        return false;
    memcpy(of->unit, unit.at, length);
    of->unit[length] = '\0';
    snprintf(one, sizeof one, "1 %s", of->unit);
    *is_volume = runnel_quantity_parse(one, RUNNEL_VOLUME, NULL, NULL, &of->per_unit) == RUNNEL_OK;
    return *is_volume ||
           runnel_quantity_parse(one, RUNNEL_MASS, NULL, NULL, &of->per_unit) == RUNNEL_OK;
}

static const struct column_name *known_name(const char *name) {
    for (size_t i = 0; i < NAMES; i++)
        if (runnel_row_name_equal(names[i].name, name))
            return &names[i];
    return NULL;
}

static bool has(const reader *in, stock_role role) {
    return in->uses[role].is_there;
}

/* Reads the unit of a known column into a use, and settles its role. */
static bool take_unit(reader *in, const struct column_name *known, runnel_slice unit,
                      const runnel_place *place, use *of, stock_role *role) {
    bool is_volume = false;
    char text[RUNNEL_SHOWN_SIZE];
    *role = known->role;
    if (known->is_measured && !unit.at) {
        runnel_problems_add(in->problems, RUNNEL_E_UNIT, place,
                            "'%s' needs its unit in brackets: '%s [g]' or '%s [ml]'", known->name,
                            known->name, known->name);
        return false;
    }
    if (known->is_measured && !measure_unit(unit, of, &is_volume)) {
        runnel_problems_add(in->problems, RUNNEL_E_UNIT, place,
                            "'[%s]' is no unit of '%s'; '%s [g]' or '%s [ml]' would be right",
                            runnel_slice_show(unit, text), known->name, known->name, known->name);
        return false;
    }
    if (is_volume)
        *role = known->role == AMOUNT_G ? AMOUNT_ML : PACK_ML;
    size_t length = (size_t)(unit.end - unit.at);
    if (known->role == PRICE && unit.at && length < sizeof of->unit) {
        memcpy(of->unit, unit.at, length); /* closed with a zero before */
    } else if (!known->is_measured && unit.at) {
        runnel_problems_add(in->problems, RUNNEL_E_UNIT, place,
                            "'[%s]' behind '%s', which takes no unit",
                            runnel_slice_show(unit, text), known->name);
        return false;
    }
    return true;
}

static void take_column(reader *in, size_t index, char *name, const runnel_place *place) {
    use fresh = {.is_there = true, .index = index, .header = place->field};
    runnel_slice unit;
    stock_role role;
    char text[RUNNEL_SHOWN_SIZE];
    bool is_pair = runnel_header_split(name, &unit);
    const struct column_name *known = is_pair ? known_name(name) : NULL;
    if (!known)
        return; /* the user's own; see tell_near */
    in->is_named[known->role] = true;
    if (!take_unit(in, known, unit, place, &fresh, &role)) {
        in->is_sound = false;
        return;
    }
    if (has(in, role)) {
        runnel_problems_add(in->problems, RUNNEL_E_CONFLICT, place,
                            "'%s' is there already, in column %zu as '%s'", known->name,
                            in->uses[role].index + 1, shown(in->uses[role].header, text));
        in->is_sound = false;
        return;
    }
    in->uses[role] = fresh;
}

/* A column that nobody knows is the user's own, but for one whose name is near to a column that the
 * file has not. */
static void tell_near(reader *in, const char *header, const runnel_place *place) {
    const char *missing[NAMES];
    char name[NUMBER_BYTES], text[RUNNEL_SHOWN_SIZE];
    size_t count = 0;
    for (size_t i = 0; i < NAMES; i++)
        if (!has(in, names[i].role) && !(names[i].is_measured && has(in, names[i].role + 1)))
            missing[count++] = names[i].name;
    snprintf(name, sizeof name, "%.*s", (int)strcspn(header, "["), header);
    const char *near = known_name(name) ? NULL : runnel_nearest(name, missing, count);
    if (!near)
        return;
    runnel_problems_add(in->problems, RUNNEL_E_UNKNOWN, place,
                        "'%s' is no column of a stock; '%s' is near, which is not there. A column "
                        "of your own needs another name",
                        shown(header, text), near);
    in->is_sound = false;
}

static void tell_missing(reader *in, const runnel_place *line) {
    if (!in->is_named[WHAT])
        runnel_problems_add(in->problems, RUNNEL_E_MISSING, line, "the column 'what' is missing");
    if (!in->is_named[AMOUNT_G])
        runnel_problems_add(in->problems, RUNNEL_E_MISSING, line,
                            "the column 'amount [g]' or 'amount [ml]' is missing");
    in->is_sound = in->is_sound && has(in, WHAT) && (has(in, AMOUNT_G) || has(in, AMOUNT_ML));
}

static const char *cell_text(const reader *in, const runnel_csv_row *row, size_t index) {
    return in->csv.text + in->csv.cells[row->first + index].text;
}

static runnel_place place_of(const reader *in, const runnel_csv_row *row, size_t index,
                             const char *header) {
    const runnel_csv_cell *cell = &in->csv.cells[row->first + index];
    return (runnel_place){in->path, cell->line, cell->column, header && *header ? header : NULL};
}

static void read_header(reader *in) {
    const runnel_csv_row *row = &in->csv.rows[0];
    runnel_place line = {in->path, in->csv.cells[row->first].line, 0, NULL};
    in->width = row->count;
    in->is_sound = true;
    if (row->count > MOST_COLUMNS) {
        runnel_problems_add(in->problems, RUNNEL_E_SYNTAX, &line,
                            "%zu columns, where a stock has %d at most", row->count, MOST_COLUMNS);
        in->is_sound = false;
        return;
    }
    for (size_t i = 0; i < row->count && in->status == RUNNEL_OK; i++) {
        runnel_place place = place_of(in, row, i, cell_text(in, row, i));
        char *name = runnel_copy_text(cell_text(in, row, i));
        in->status = name ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
        if (name)
            take_column(in, i, name, &place);
        runnel_free(name);
    }
    for (size_t i = 0; i < row->count && in->status == RUNNEL_OK; i++) {
        runnel_place place = place_of(in, row, i, cell_text(in, row, i));
        tell_near(in, cell_text(in, row, i), &place);
    }
    tell_missing(in, &line);
}

/* ---- Rows ---------------------------------------------------------------------------------- */

/* One row while it is read. */
typedef struct row_reader {
    reader *in;
    const runnel_csv_row *row;
    bool is_sound;
} row_reader;

/* The text of a role's cell, "" without such a column. */
static const char *text_of(const row_reader *of, stock_role role) {
    const use *column = &of->in->uses[role];
    return column->is_there ? cell_text(of->in, of->row, column->index) : "";
}

static runnel_place place_of_role(const row_reader *of, stock_role role) {
    const use *column = &of->in->uses[role];
    return place_of(of->in, of->row, column->index, column->header);
}

/* Reads the number of a role's cell, in the unit of its column where it measures; NAN for an empty
 * one. */
static double number_of(row_reader *of, stock_role role, bool may_be_0) {
    const char *text = text_of(of, role);
    const use *column = &of->in->uses[role];
    runnel_place place = place_of_role(of, role);
    char quantity[3 * NUMBER_BYTES], buffer[RUNNEL_SHOWN_SIZE];
    double value = NAN;
    if (!*text)
        return NAN;
    if (runnel_number_parse(text, of->in->problems, &place, &value) != RUNNEL_OK) {
        of->is_sound = false;
        return NAN;
    }
    bool fits = strlen(text) < NUMBER_BYTES;
    if (fits && column->per_unit > 0) {
        snprintf(quantity, sizeof quantity, "%s %s", text, column->unit);
        runnel_dimension dimension =
            role == AMOUNT_G || role == PACK_G ? RUNNEL_MASS : RUNNEL_VOLUME;
        fits = runnel_quantity_parse(quantity, dimension, NULL, NULL, &value) == RUNNEL_OK;
    }
    fits = fits && value <= RUNNEL_STOCK_MOST;
    if (fits && (value > 0 || (may_be_0 && value == 0)))
        return value;
    runnel_problems_add(of->in->problems, RUNNEL_E_RANGE, &place, "'%s' must be %s%s",
                        shown(text, buffer), may_be_0 ? "0 or more" : "above 0",
                        fits ? "" : ", and at most 1e12 in g, mm3 or money");
    of->is_sound = false;
    return NAN;
}

static void check_pair(row_reader *of, stock_role mass, const char *what, bool is_needed) {
    bool has_mass = *text_of(of, mass) != '\0', has_volume = *text_of(of, mass + 1) != '\0';
    runnel_place first = place_of(of->in, of->row, 0, NULL);
    char one[RUNNEL_SHOWN_SIZE], other[RUNNEL_SHOWN_SIZE];
    if (has_mass && has_volume) {
        runnel_place place = place_of_role(of, mass + 1);
        runnel_problems_add(
            of->in->problems, RUNNEL_E_CONFLICT, &place, "'%s' beside '%s': fill in one %s only",
            shown(text_of(of, mass + 1), one), shown(text_of(of, mass), other), what);
        of->is_sound = false;
    } else if (is_needed && !has_mass && !has_volume && of->in->is_sound) {
        runnel_place place = first;
        if (has(of->in, mass) != has(of->in, mass + 1))
            place = place_of_role(of, has(of->in, mass) ? mass : mass + 1);
        runnel_problems_add(of->in->problems, RUNNEL_E_MISSING, &place,
                            "no %s, where one is needed; an empty bottle has 0", what);
        of->is_sound = false;
    }
}

static void check_texts(row_reader *of) {
    const char *opened = text_of(of, OPENED);
    char text[RUNNEL_SHOWN_SIZE];
    if (has(of->in, WHAT) && !*text_of(of, WHAT)) {
        runnel_place place = place_of_role(of, WHAT);
        runnel_problems_add(of->in->problems, RUNNEL_E_MISSING, &place,
                            "an empty cell, where a name is needed");
        of->is_sound = false;
    }
    if (*opened && !runnel_is_date(opened)) {
        runnel_place place = place_of_role(of, OPENED);
        runnel_problems_add(of->in->problems, RUNNEL_E_SYNTAX, &place,
                            "'%s' is not a date as YYYY-MM-DD, YYYY-MM or YYYY",
                            shown(opened, text));
        of->is_sound = false;
    }
}

static void note_cell(const row_reader *of, runnel_stock_cell *cell) {
    stock_role role = *text_of(of, AMOUNT_G) ? AMOUNT_G : AMOUNT_ML;
    const use *column = &of->in->uses[role];
    runnel_place place = place_of_role(of, role);
    double step = role == AMOUNT_G ? 0.01 : 10; /* 0.01 ml are 10 mm3 */
    *cell = (runnel_stock_cell){.line = place.line,
                                .column = place.column,
                                .per_unit = column->per_unit,
                                .smallest_unit = step / column->per_unit};
}

/* Keeps a sound row. The strings are borrowed from the table. */
static runnel_status keep(const row_reader *of, runnel_stock_item *item) {
    reader *in = of->in;
    if (runnel_reserve(&in->cells, &in->cell_capacity, in->stock.count + 1, sizeof *in->cells))
        return RUNNEL_E_NO_MEMORY;
    note_cell(of, &in->cells[in->stock.count]);
    return runnel_stock_add(&in->stock, item);
}

static runnel_status read_row(reader *in, const runnel_csv_row *row) {
    row_reader of = {in, row, true};
    if (row->count != in->width) {
        runnel_place place =
            place_of(in, row, row->count > in->width ? in->width : row->count - 1, NULL);
        runnel_problems_add(in->problems, RUNNEL_E_SYNTAX, &place,
                            "%zu cells, where the header has %zu%s", row->count, in->width,
                            row->count > in->width
                                ? "; a text with a separator in it needs double quotes, a number a "
                                  "decimal point"
                                : "");
        return RUNNEL_OK;
    }
    check_texts(&of);
    check_pair(&of, AMOUNT_G, "amount", true);
    check_pair(&of, PACK_G, "pack size", false);
    runnel_stock_item item = {.amount_g = number_of(&of, AMOUNT_G, true),
                              .amount_mm3 = number_of(&of, AMOUNT_ML, true),
                              .pack_g = number_of(&of, PACK_G, false),
                              .pack_mm3 = number_of(&of, PACK_ML, false),
                              .price = number_of(&of, PRICE, true)};
    /* Never changed through these: the stock makes its own copies. */
    const char *texts[] = {text_of(&of, WHAT), text_of(&of, PART), text_of(&of, CURRENCY),
                           text_of(&of, OPENED)};
    char **fields[] = {&item.what, &item.part, &item.currency, &item.opened};
    if (!*texts[2] && has(in, PRICE))
        texts[2] = in->uses[PRICE].unit;
    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++)
        memcpy(fields[i], &texts[i], sizeof texts[i]);
    return of.is_sound && in->is_sound ? keep(&of, &item) : RUNNEL_OK;
}

static void read_rows(reader *in) {
    runnel_place place = {in->path, 1, 0, NULL};
    if (!in->csv.row_count) {
        runnel_problems_add(in->problems, RUNNEL_E_MISSING, &place,
                            "an empty table: a header line with the columns is needed");
        return;
    }
    if (in->csv.row_count - 1 > RUNNEL_TABLE_ROWS) {
        runnel_problems_add(in->problems, RUNNEL_E_RANGE, &place,
                            "%zu rows, where a table has %d at most", in->csv.row_count - 1,
                            RUNNEL_TABLE_ROWS);
        return;
    }
    read_header(in);
    for (size_t i = 1; i < in->csv.row_count && in->status == RUNNEL_OK && in->width; i++)
        in->status = read_row(in, &in->csv.rows[i]);
}

/* ---- Where the numbers stand --------------------------------------------------------------- */

/* A byte of a text and its place, as the reader of CSV counts them. */
typedef struct walk {
    const char *text;
    size_t length, at, line, column;
} walk;

static void step(walk *of) {
    char byte = of->text[of->at++];
    bool ends =
        byte == '\n' || (byte == '\r' && (of->at >= of->length || of->text[of->at] != '\n'));
    if (ends) {
        of->line++;
        of->column = 1;
    } else if (((unsigned char)byte & 0xC0) != 0x80) {
        of->column++;
    }
}

/* Finds the number that begins at the place of a cell, within its quotes. */
static void find_cell(walk *of, char separator, runnel_stock_cell *cell) {
    while (of->at < of->length &&
           (of->line < cell->line || (of->line == cell->line && of->column < cell->column)))
        step(of);
    size_t at = of->at;
    bool is_quoted = at < of->length && of->text[at] == '"';
    const char ends[] = {is_quoted ? '"' : separator, '\n', '\r'};
    at += is_quoted;
    size_t end = at;
    while (end < of->length && !memchr(ends, of->text[end], sizeof ends))
        end++;
    while (end > at && (of->text[end - 1] == ' ' || of->text[end - 1] == '\t'))
        end--;
    cell->at = at;
    cell->length = end - at;
}

static void find_cells(const reader *in, const char *text, size_t length) {
    walk of = {.text = text, .length = length, .line = 1, .column = 1};
    if (length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0)
        of.at = 3;
    for (size_t i = 0; i < in->stock.count; i++)
        find_cell(&of, in->csv.separator, &in->cells[i]);
}

/* ---- Files --------------------------------------------------------------------------------- */

/* Moves all that was read into a file, or nothing. */
static runnel_status take_all(reader *in, const char *text, size_t length,
                              runnel_stock_file *file) {
    runnel_stock_file fresh = {.path = runnel_copy_text(in->path),
                               .text = runnel_copy_bytes(text, length),
                               .length = length};
    if (!fresh.path || !fresh.text) {
        runnel_stock_file_clear(&fresh);
        return RUNNEL_E_NO_MEMORY;
    }
    find_cells(in, text, length);
    fresh.stock = in->stock;
    fresh.cells = in->cells;
    in->stock = (runnel_stock){0};
    in->cells = NULL;
    *file = fresh;
    return RUNNEL_OK;
}

runnel_status runnel_stock_parse(const char *text, size_t length, const char *path,
                                 runnel_problems *problems, runnel_stock_file *file) {
    runnel_problems told;
    runnel_problems_init(&told);
    reader in = {.path = path, .problems = &told, .status = RUNNEL_OK};
    runnel_status status = runnel_csv_parse(text, length, path, &told, &in.csv);
    /* Wrong quotes leave the sound rows, which are looked at too. */
    if (status == RUNNEL_OK || (status == RUNNEL_E_SYNTAX && in.csv.row_count))
        read_rows(&in);
    if (status != RUNNEL_E_NO_MEMORY)
        status = in.status;
    if (status == RUNNEL_OK)
        status = runnel_problems_status(&told);
    if (status == RUNNEL_OK)
        status = take_all(&in, text, length, file);
    runnel_problems_append(problems, &told);
    runnel_problems_clear(&told);
    runnel_csv_clear(&in.csv);
    runnel_stock_clear(&in.stock);
    runnel_free(in.cells);
    return status;
}

runnel_status runnel_stock_read(const char *path, runnel_problems *problems,
                                runnel_stock_file *file) {
    char *text = NULL;
    size_t length = 0;
    runnel_status status = runnel_file_read(path, problems, &text, &length);
    if (status != RUNNEL_OK)
        return status;
    status = runnel_stock_parse(text, length, path, problems, file);
    runnel_free(text);
    return status;
}
