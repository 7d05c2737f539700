/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/log_csv.h"

#include "base/memory.h"
#include "base/slice.h"
#include "read/csv.h"
#include "runnel/read.h"
#include "runnel/units.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    HEADER_ROWS = 20,   /* looked through for the header */
    MOST_COLUMNS = 200, /* of a row that is one */
    MOST_TOLD = 100,    /* lines with problems */
    CELL_BYTES = 80     /* of a stamp or a number */
};

static const double coldest_degc = -60, warmest_degc = 150; /* beyond any logger of a shop */

/* A stretch without readings is a gap when it is so many usual steps long. */
static const double steps_of_gap = 3;

typedef enum log_role { DATE, TIME, TEMPERATURE, HUMIDITY, ROLES } log_role;

static const char *const role_names[ROLES] = {"date", "time", "temperature", "humidity"};

/* Words of a header that tell what its column is; the first that is found counts. */
static const struct {
    const char *word;
    log_role role;
} words[] = {
    {"timestamp", TIME},          {"datetime", TIME},    {"time", TIME},         {"date", DATE},
    {"temperature", TEMPERATURE}, {"temp", TEMPERATURE}, {"humidity", HUMIDITY}, {"rh", HUMIDITY}};

typedef struct reader {
    const char *path;
    runnel_csv csv;
    runnel_problems *problems;
    size_t told;   /* lines */
    size_t header; /* its row */
    bool has[ROLES];
    size_t columns[ROLES];
    bool is_fahrenheit;
    bool is_sound;
    runnel_day_order order;
    runnel_log log;
    size_t capacity, gap_capacity;
    size_t *lines; /* of the readings */
    size_t line_capacity;
    size_t with_offset_line, without_line; /* of the first stamps of either kind */
    bool is_offset_told;
    runnel_status status; /* RUNNEL_OK or want of memory */
} reader;

void runnel_log_clear(runnel_log *log) {
    if (!log)
        return;
    runnel_free(log->readings);
    runnel_free(log->gaps);
    memset(log, 0, sizeof *log);
}

static const char *shown(const char *text, char *buffer) {
    return runnel_slice_show(runnel_slice_of(text), buffer);
}

static const char *cell_text(const reader *in, const runnel_csv_row *row, size_t index) {
    return index < row->count ? in->csv.text + in->csv.cells[row->first + index].text : "";
}

static size_t line_of(const reader *in, const runnel_csv_row *row) {
    return in->csv.cells[row->first].line;
}

/* Where a cell of a role stands, or the row's first one when the row is too short. */
static runnel_place place_of(const reader *in, const runnel_csv_row *row, log_role role) {
    const runnel_csv_row *header = &in->csv.rows[in->header];
    size_t index = in->has[role] && in->columns[role] < row->count ? in->columns[role] : 0;
    const runnel_csv_cell *cell = &in->csv.cells[row->first + index];
    const char *field = in->has[role] ? cell_text(in, header, in->columns[role]) : NULL;
    return (runnel_place){in->path, cell->line, cell->column, field};
}

/* ---- Header -------------------------------------------------------------------------------- */

static bool is_letter(char byte) {
    return (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z');
}

static bool is_word(const char *at, size_t length, const char *word) {
    if (strlen(word) != length)
        return false;
    for (size_t i = 0; i < length; i++)
        if ((at[i] | 0x20) != word[i])
            return false;
    return true;
}

/* What a header's column is; ROLES for another one. */
static log_role role_of(const char *header) {
    for (const char *at = header; *at; at++) {
        size_t length = 0;
        while (is_letter(at[length]))
            length++;
        for (size_t i = 0; length && i < sizeof words / sizeof *words; i++)
            if (is_word(at, length, words[i].word))
                return words[i].role;
        at += length ? length - 1 : 0;
    }
    return ROLES;
}

/* The unit of a header: what is in its last brackets, or its last word. */
static void unit_of(const char *header, char *unit, size_t size) {
    const char *open = strrchr(header, '['), *round = strrchr(header, '(');
    if (round && (!open || round > open))
        open = round;
    const char *start = open ? open + 1 : header + strlen(header);
    while (!open && start > header && start[-1] != ' ' && start[-1] != ',')
        start--;
    snprintf(unit, size, "%.*s", (int)strcspn(start, "])"), start);
}

/* Whether a temperature has a unit, and which. 32 of it are 0 or 32 °C. */
static bool take_scale(reader *in, const char *header) {
    char unit[CELL_BYTES], freezing[CELL_BYTES + 4];
    double degc = NAN;
    unit_of(header, unit, sizeof unit);
    snprintf(freezing, sizeof freezing, "32 %s", unit);
    if (runnel_quantity_parse(freezing, RUNNEL_TEMPERATURE, NULL, NULL, &degc) != RUNNEL_OK)
        return false;
    in->is_fahrenheit = degc < 16;
    return true;
}

static void take_column(reader *in, const runnel_csv_row *row, size_t index) {
    const char *header = cell_text(in, row, index);
    log_role role = role_of(header);
    if (role == ROLES)
        return;
    char text[RUNNEL_SHOWN_SIZE];
    const runnel_csv_cell *cell = &in->csv.cells[row->first + index];
    runnel_place place = {in->path, cell->line, cell->column, header};
    if (in->has[role]) {
        runnel_problems_add(in->problems, RUNNEL_E_CONFLICT, &place,
                            "a second column of %s, after '%s'; leave one out or rename it",
                            role_names[role], shown(cell_text(in, row, in->columns[role]), text));
        in->is_sound = false;
        return;
    }
    in->has[role] = true;
    in->columns[role] = index;
    if (role == TEMPERATURE && !take_scale(in, header)) {
        runnel_problems_add(in->problems, RUNNEL_E_UNIT, &place,
                            "'%s' has no unit of temperature; 'temperature [°C]' or 'temperature "
                            "[°F]' would be right",
                            shown(header, text));
        in->is_sound = false;
    }
    if (role == HUMIDITY && !strchr(header, '%')) {
        runnel_problems_add(in->problems, RUNNEL_E_UNIT, &place,
                            "'%s' has no unit; 'humidity [%%]' would be right",
                            shown(header, text));
        in->is_sound = false;
    }
}

static bool is_header(const reader *in, const runnel_csv_row *row) {
    bool has_time = false, has_temperature = false;
    for (size_t i = 0; i < row->count && i < MOST_COLUMNS; i++) {
        log_role role = role_of(cell_text(in, row, i));
        has_time = has_time || role == TIME || role == DATE;
        has_temperature = has_temperature || role == TEMPERATURE;
    }
    return has_time && has_temperature && row->count <= MOST_COLUMNS;
}

static void read_header(reader *in) {
    runnel_place place = {in->path, 1, 0, NULL};
    in->is_sound = true;
    for (in->header = 0; in->header < in->csv.row_count && in->header < HEADER_ROWS; in->header++)
        if (is_header(in, &in->csv.rows[in->header]))
            break;
    if (in->header == in->csv.row_count || in->header == HEADER_ROWS) {
        in->is_sound = false;
        runnel_problems_add(in->problems, RUNNEL_E_MISSING, &place,
                            "no header line with a column of time and one of temperature, such as "
                            "'time' and 'temperature [°C]'");
        return;
    }
    const runnel_csv_row *row = &in->csv.rows[in->header];
    for (size_t i = 0; i < row->count; i++)
        take_column(in, row, i);
}

/* ---- Stamps -------------------------------------------------------------------------------- */

/* The stamp of a row; false when it is too long to be one. */
static bool stamp_text(const reader *in, const runnel_csv_row *row, char *text) {
    const char *date = in->has[DATE] ? cell_text(in, row, in->columns[DATE]) : "";
    const char *clock = in->has[TIME] ? cell_text(in, row, in->columns[TIME]) : "";
    int length = snprintf(text, CELL_BYTES, "%s%s%s", date, *date && *clock ? " " : "", clock);
    return length < CELL_BYTES;
}

static log_role stamp_role(const reader *in) {
    return in->has[DATE] ? DATE : TIME;
}

/* Looks through all stamps for what comes first, day or month. */
static void find_order(reader *in) {
    size_t lines[3] = {0, 0, 0};
    char text[CELL_BYTES];
    for (size_t i = in->header + 1; i < in->csv.row_count; i++) {
        const runnel_csv_row *row = &in->csv.rows[i];
        runnel_day_order shows = RUNNEL_DAY_UNKNOWN;
        runnel_stamp stamp;
        if (!stamp_text(in, row, text) ||
            runnel_stamp_read(text, RUNNEL_DAY_UNKNOWN, &shows, &stamp) != RUNNEL_STAMP_FINE)
            continue;
        if (!lines[shows])
            lines[shows] = line_of(in, row);
    }
    size_t day = lines[RUNNEL_DAY_FIRST], month = lines[RUNNEL_MONTH_FIRST];
    in->order = day ? RUNNEL_DAY_FIRST : month ? RUNNEL_MONTH_FIRST : RUNNEL_DAY_UNKNOWN;
    if (!day || !month)
        return;
    runnel_place place = {in->path, day > month ? day : month, 0, NULL};
    runnel_problems_add(in->problems, RUNNEL_E_CONFLICT, &place,
                        "the stamps show the day first on line %zu and the month first on line %zu",
                        day, month);
    in->is_sound = false;
}

/* ---- Rows ---------------------------------------------------------------------------------- */

static runnel_status tell(reader *in, const runnel_csv_row *row, log_role role,
                          runnel_status status, const char *text, const char *what) {
    char buffer[RUNNEL_SHOWN_SIZE];
    runnel_place place = place_of(in, row, role);
    return runnel_problems_add(in->problems, status, &place, "'%s' %s", shown(text, buffer), what);
}

static bool take_stamp(reader *in, const runnel_csv_row *row, runnel_stamp *stamp) {
    char text[CELL_BYTES];
    bool fits = stamp_text(in, row, text);
    runnel_stamp_fault fault =
        fits ? runnel_stamp_read(text, in->order, NULL, stamp) : RUNNEL_STAMP_NONE;
    if (fault != RUNNEL_STAMP_FINE) {
        tell(in, row, stamp_role(in), RUNNEL_E_SYNTAX, text, runnel_stamp_fault_text(fault));
        return false;
    }
    size_t *first = stamp->has_offset ? &in->with_offset_line : &in->without_line;
    size_t other = stamp->has_offset ? in->without_line : in->with_offset_line;
    if (!*first)
        *first = line_of(in, row);
    if (!other || in->is_offset_told)
        return true;
    in->is_offset_told = true;
    runnel_place place = place_of(in, row, stamp_role(in));
    runnel_problems_add(in->problems, RUNNEL_E_CONFLICT, &place,
                        "'%s' has %s offset from UTC, other than the stamp on line %zu", text,
                        stamp->has_offset ? "an" : "no", other);
    return false;
}

/* A plain number; with semicolons between cells its sign may be a comma. */
static bool take_number(reader *in, const runnel_csv_row *row, log_role role, double *value) {
    const char *cell = cell_text(in, row, in->columns[role]);
    char text[CELL_BYTES];
    if (strlen(cell) >= sizeof text) {
        tell(in, row, role, RUNNEL_E_SYNTAX, cell, "is too long for a number");
        return false;
    }
    memcpy(text, cell, strlen(cell) + 1);
    char *comma = strchr(text, ',');
    if (in->csv.separator == ';' && comma && !strchr(text, '.'))
        *comma = '.';
    runnel_place place = place_of(in, row, role);
    return runnel_number_parse(text, in->problems, &place, value) == RUNNEL_OK;
}

static bool take_degc(reader *in, const runnel_csv_row *row, double *degc) {
    double value = NAN;
    if (!take_number(in, row, TEMPERATURE, &value))
        return false;
    *degc = in->is_fahrenheit ? (value - 32) * 5 / 9 : value; /* exact definition */
    if (*degc >= coldest_degc && *degc <= warmest_degc)
        return true;
    tell(in, row, TEMPERATURE, RUNNEL_E_RANGE, cell_text(in, row, in->columns[TEMPERATURE]),
         "is out of range: a temperature must be -60 °C to 150 °C");
    return false;
}

static bool take_humidity(reader *in, const runnel_csv_row *row, double *humidity) {
    double percent = NAN;
    *humidity = NAN;
    if (!in->has[HUMIDITY] || !*cell_text(in, row, in->columns[HUMIDITY]))
        return true;
    if (!take_number(in, row, HUMIDITY, &percent))
        return false;
    *humidity = fmin(percent, 100) / 100;
    if (percent >= 0 && percent <= 110)
        return true;
    tell(in, row, HUMIDITY, RUNNEL_E_RANGE, cell_text(in, row, in->columns[HUMIDITY]),
         "is out of range: a humidity must be 0 to 110 %");
    return false;
}

static bool is_same(double one, double other) {
    return one == other || (isnan(one) && isnan(other));
}

/* Whether a reading comes after the last one; one that repeats it is left out. */
static bool is_next(reader *in, const runnel_csv_row *row, const runnel_reading *reading,
                    bool *is_sound) {
    if (!in->log.count)
        return true;
    const runnel_reading *last = &in->log.readings[in->log.count - 1];
    size_t last_line = in->lines[in->log.count - 1];
    runnel_place place = place_of(in, row, stamp_role(in));
    char text[CELL_BYTES];
    stamp_text(in, row, text);
    if (reading->time_s > last->time_s)
        return true;
    if (reading->time_s == last->time_s && is_same(reading->degc, last->degc) &&
        is_same(reading->humidity, last->humidity)) {
        if (!in->log.repeated++)
            in->log.repeated_line = place.line;
        return false;
    }
    *is_sound = false;
    if (reading->time_s == last->time_s)
        runnel_problems_add(in->problems, RUNNEL_E_CONFLICT, &place,
                            "'%s' stands on line %zu as well, with another reading", text,
                            last_line);
    else
        runnel_problems_add(in->problems, RUNNEL_E_CONFLICT, &place,
                            "'%s' is before the stamp on line %zu; the earliest comes first, and "
                            "where clocks were set back stamps need their offset, such as '+01:00'",
                            text, last_line);
    return false;
}

static void keep(reader *in, const runnel_csv_row *row, const runnel_stamp *stamp,
                 const runnel_reading *reading) {
    runnel_log *log = &in->log;
    if (runnel_reserve(&log->readings, &in->capacity, log->count + 1, sizeof *log->readings) ||
        runnel_reserve(&in->lines, &in->line_capacity, log->count + 1, sizeof *in->lines)) {
        in->status = RUNNEL_E_NO_MEMORY;
        return;
    }
    if (!log->count)
        log->first = *stamp;
    log->has_humidity = log->has_humidity || !isnan(reading->humidity);
    in->lines[log->count] = line_of(in, row);
    log->readings[log->count++] = *reading;
}

/* False when something of the row was told. */
static bool read_row(reader *in, const runnel_csv_row *row) {
    runnel_stamp stamp;
    runnel_reading reading;
    if (!*cell_text(in, row, in->columns[TEMPERATURE])) {
        if (!in->log.empty++)
            in->log.empty_line = line_of(in, row);
        return true;
    }
    bool is_sound = take_stamp(in, row, &stamp);
    is_sound = take_degc(in, row, &reading.degc) && is_sound;
    is_sound = take_humidity(in, row, &reading.humidity) && is_sound;
    if (!is_sound)
        return false;
    reading.time_s = stamp.seconds;
    if (is_next(in, row, &reading, &is_sound))
        keep(in, row, &stamp, &reading);
    return is_sound;
}

static void read_rows(reader *in) {
    find_order(in);
    for (size_t i = in->header + 1; i < in->csv.row_count && in->status == RUNNEL_OK; i++) {
        const runnel_csv_row *row = &in->csv.rows[i];
        runnel_place place = {in->path, line_of(in, row), 0, NULL};
        if (in->log.count >= RUNNEL_LOG_MOST) {
            runnel_problems_add(in->problems, RUNNEL_E_RANGE, &place,
                                "more than %d readings: cut the log", RUNNEL_LOG_MOST);
            return;
        }
        if (read_row(in, row) || ++in->told < MOST_TOLD)
            continue;
        runnel_problems_add(in->problems, RUNNEL_E_SYNTAX, &place,
                            "reading stops here: %d lines with problems", MOST_TOLD);
        return;
    }
    runnel_place place = {in->path, line_of(in, &in->csv.rows[in->header]), 0, NULL};
    if (in->status == RUNNEL_OK && in->log.count < 2 && !in->told)
        runnel_problems_add(in->problems, RUNNEL_E_MISSING, &place,
                            "%s below the header, where a log needs two at least",
                            in->log.count ? "a single reading" : "no reading");
}

/* ---- Gaps ---------------------------------------------------------------------------------- */

static int by_size(const void *one, const void *other) {
    double a = *(const double *)one, b = *(const double *)other;
    return (a > b) - (a < b);
}

static runnel_status find_step(runnel_log *log) {
    double *steps = runnel_resize(NULL, log->count - 1, sizeof *steps);
    if (!steps)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i + 1 < log->count; i++)
        steps[i] = log->readings[i + 1].time_s - log->readings[i].time_s;
    qsort(steps, log->count - 1, sizeof *steps, by_size);
    log->step_s = steps[(log->count - 2) / 2];
    runnel_free(steps);
    return RUNNEL_OK;
}

static runnel_status find_gaps(reader *in) {
    runnel_log *log = &in->log;
    runnel_status status = find_step(log);
    for (size_t i = 0; i + 1 < log->count && status == RUNNEL_OK; i++) {
        double from_s = log->readings[i].time_s, until_s = log->readings[i + 1].time_s;
        if (until_s - from_s <= steps_of_gap * log->step_s)
            continue;
        status =
            runnel_reserve(&log->gaps, &in->gap_capacity, log->gap_count + 1, sizeof *log->gaps);
        if (status == RUNNEL_OK)
            log->gaps[log->gap_count++] = (runnel_log_gap){in->lines[i + 1], from_s, until_s};
    }
    return status;
}

/* ---- Files --------------------------------------------------------------------------------- */

runnel_status runnel_log_parse(const char *text, size_t length, const char *path,
                               runnel_problems *problems, runnel_log *log) {
    runnel_problems told;
    runnel_problems_init(&told);
    reader in = {.path = path, .problems = &told, .status = RUNNEL_OK};
    runnel_status status = runnel_csv_parse(text, length, path, &told, &in.csv);
    if (status == RUNNEL_OK) {
        read_header(&in);
        if (in.is_sound)
            read_rows(&in);
        status = in.status;
    }
    if (status == RUNNEL_OK)
        status = runnel_problems_status(&told);
    if (status == RUNNEL_OK)
        status = find_gaps(&in);
    if (status == RUNNEL_OK) {
        *log = in.log;
        in.log = (runnel_log){0};
    }
    runnel_problems_append(problems, &told);
    runnel_problems_clear(&told);
    runnel_csv_clear(&in.csv);
    runnel_log_clear(&in.log);
    runnel_free(in.lines);
    return status;
}

runnel_status runnel_log_read(const char *path, runnel_problems *problems, runnel_log *log) {
    char *text = NULL;
    size_t length = 0;
    runnel_status status = runnel_file_read(path, problems, &text, &length);
    if (status != RUNNEL_OK)
        return status;
    status = runnel_log_parse(text, length, path, problems, log);
    runnel_free(text);
    return status;
}
