/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/tables.h"

#include "base/memory.h"
#include "base/slice.h"
#include "job/rows.h"
#include "read/formats.h"
#include "runnel/read.h"

#include <errno.h>
#include <string.h>
#include <sys/stat.h>

/* ---- Rows of any table --------------------------------------------------------------------- */

typedef const runnel_table_format table_format;

static void *pointer_at(const void *base, size_t offset) {
    void *pointer;
    memcpy(&pointer, (const char *)base + offset, sizeof pointer);
    return pointer;
}

static size_t *size_at(runnel_tables *tables, size_t offset) {
    return (size_t *)(void *)((char *)tables + offset);
}

static char *row_at(table_format *format, runnel_tables *tables, size_t index) {
    return (char *)pointer_at(tables, format->rows) + index * format->row_size;
}

/* Moves the rows of `from` over those of `to`, which has room for all of them. */
static void move_rows(table_format *format, runnel_tables *from, runnel_tables *to) {
    size_t *count = size_at(to, format->count), *moved = size_at(from, format->count);
    for (size_t i = 0; i < *moved; i++) {
        char *row = row_at(format, from, i);
        const char *name = pointer_at(row, format->name);
        size_t k = 0;
        while (k < *count &&
               !runnel_row_name_equal(pointer_at(row_at(format, to, k), format->name), name))
            k++;
        if (k < *count)
            format->clear(row_at(format, to, k));
        else
            ++*count;
        memcpy(row_at(format, to, k), row, format->row_size);
    }
    *moved = 0;
}

static runnel_status make_room(table_format *format, size_t more, runnel_tables *tables) {
    return runnel_reserve((char *)tables + format->rows, size_at(tables, format->capacity),
                          *size_at(tables, format->count) + more, format->row_size);
}

/* ---- One file ------------------------------------------------------------------------------ */

static size_t same_name(table_format *format, runnel_tables *fresh, const void *row) {
    size_t count = *size_at(fresh, format->count), i = 0;
    const char *name = pointer_at(row, format->name);
    while (i < count &&
           !runnel_row_name_equal(pointer_at(row_at(format, fresh, i), format->name), name))
        i++;
    return i;
}

/* Takes a sound row; `lines` are those of the rows before it. */
static runnel_status keep_row(table_format *format, const runnel_row_source *source, size_t *lines,
                              void *row, runnel_tables *fresh) {
    size_t *count = size_at(fresh, format->count), twin = same_name(format, fresh, row);
    char text[RUNNEL_SHOWN_SIZE];
    if (twin < *count)
        return runnel_row_problem(
            source, RUNNEL_E_CONFLICT, format->name, "'%s' stands twice, first on line %zu",
            runnel_slice_show(runnel_slice_of(pointer_at(row, format->name)), text), lines[twin]);
    char *file = runnel_copy_text(source->file);
    if (!file)
        return RUNNEL_E_NO_MEMORY;
    memcpy((char *)row + format->file, &file, sizeof file);
    lines[*count] = source->csv->cells[source->cells->first].line;
    memcpy(row_at(format, fresh, *count), row, format->row_size);
    memset(row, 0, format->row_size);
    ++*count;
    return RUNNEL_OK;
}

static runnel_status read_rows(table_format *format, runnel_row_source *source,
                               runnel_tables *fresh) {
    size_t count = source->csv->row_count - 1;
    runnel_status status = RUNNEL_E_NO_MEMORY;
    size_t *lines = runnel_zeroed(count, sizeof *lines);
    void *row = runnel_zeroed(1, format->row_size);
    if (!lines || !row || make_room(format, count, fresh) != RUNNEL_OK)
        goto cleanup;
    status = RUNNEL_OK;
    for (size_t i = 0; i < count && status != RUNNEL_E_NO_MEMORY; i++) {
        source->cells = &source->csv->rows[i + 1];
        status = runnel_row_read(source, row);
        if (status == RUNNEL_OK)
            status = format->finish(source, row);
        if (status == RUNNEL_OK)
            status = keep_row(format, source, lines, row, fresh);
        format->clear(row);
    }
cleanup:
    runnel_free(lines);
    runnel_free(row);
    return status == RUNNEL_E_NO_MEMORY ? status : RUNNEL_OK;
}

static runnel_status read_table(table_format *format, runnel_row_source *source,
                                runnel_columns *columns, runnel_tables *fresh) {
    const runnel_csv *csv = source->csv;
    runnel_place place = {source->file, 1, 0, NULL};
    if (!csv->row_count) {
        runnel_problems_add(source->problems, RUNNEL_E_MISSING, &place,
                            "an empty table: a header line with the columns is needed");
        return RUNNEL_OK;
    }
    if (csv->row_count - 1 > RUNNEL_TABLE_ROWS) {
        runnel_problems_add(source->problems, RUNNEL_E_RANGE, &place,
                            "%zu rows, where a table has %d at most", csv->row_count - 1,
                            RUNNEL_TABLE_ROWS);
        return RUNNEL_OK;
    }
    runnel_status status = runnel_columns_find(csv, source->file, format->columns,
                                               format->column_count, source->problems, columns);
    if (status != RUNNEL_OK || !columns->count)
        return status;
    source->columns = columns;
    return read_rows(format, source, fresh);
}

/* Reads a file into empty tables; problems are told, only want of memory is returned. */
static runnel_status read_file(table_format *format, const char *path, runnel_problems *problems,
                               runnel_tables *fresh) {
    char *text = NULL;
    size_t length = 0;
    runnel_csv csv = {0};
    runnel_columns columns = {0};
    runnel_row_source source = {.file = path, .csv = &csv, .problems = problems};
    runnel_status status = runnel_file_read(path, problems, &text, &length);
    if (status == RUNNEL_OK)
        status = runnel_csv_parse(text, length, path, problems, &csv);
    /* Wrong quotes leave the sound rows, which are looked at too. */
    if (status == RUNNEL_OK || (status == RUNNEL_E_SYNTAX && csv.row_count))
        status = read_table(format, &source, &columns, fresh);
    runnel_columns_clear(&columns);
    runnel_csv_clear(&csv);
    runnel_free(text);
    return status == RUNNEL_E_NO_MEMORY ? status : RUNNEL_OK;
}

/* ---- Directories --------------------------------------------------------------------------- */

/* What cannot be looked at may be there: reading it will tell why. */
static bool exists(const char *path) {
    struct stat entry;
    return stat(path, &entry) == 0 || (errno != ENOENT && errno != ENOTDIR);
}

/* Reads a file over `all`; `found` is set when there is one. */
static runnel_status add_file(table_format *format, const char *directory,
                              runnel_problems *problems, runnel_tables *all, bool *found) {
    runnel_tables fresh = {0};
    size_t length = strlen(directory);
    char *path = runnel_format_text(
        "%s%s%s", directory, length && directory[length - 1] == '/' ? "" : "/", format->file_name);
    if (!path)
        return RUNNEL_E_NO_MEMORY;
    runnel_status status = RUNNEL_OK;
    if (exists(path)) {
        *found = true;
        status = read_file(format, path, problems, &fresh);
        if (status == RUNNEL_OK)
            status = make_room(format, *size_at(&fresh, format->count), all);
        if (status == RUNNEL_OK)
            move_rows(format, &fresh, all);
    }
    runnel_tables_clear(&fresh);
    runnel_free(path);
    return status;
}

static runnel_status add_directory(const char *directory, bool may_lack, runnel_problems *problems,
                                   runnel_tables *all) {
    bool found = false;
    runnel_place place = {directory, 0, 0, NULL};
    for (size_t i = 0; i < RUNNEL_TABLE_FORMATS; i++) {
        runnel_status status = add_file(&runnel_table_formats[i], directory, problems, all, &found);
        if (status != RUNNEL_OK)
            return status;
    }
    if (found || may_lack)
        return RUNNEL_OK;
    if (!exists(directory))
        runnel_problems_add(problems, RUNNEL_E_NOT_FOUND, &place,
                            "there is no directory '%s' for tables", directory);
    else
        runnel_problems_add(problems, RUNNEL_E_NOT_FOUND, &place,
                            "'%s' holds none of 'resins.csv', 'cutters.csv', 'woods.csv', "
                            "'oils.csv', 'upkeep.csv' and 'work.csv'",
                            directory);
    return RUNNEL_OK;
}

/* Tells the problems to the caller; false when not all could be. */
static bool tell_all(const runnel_problems *from, runnel_problems *to) {
    if (!to)
        return true;
    size_t dropped = to->dropped;
    for (size_t i = 0; i < from->count; i++) {
        const runnel_problem *item = &from->items[i];
        runnel_place place = {item->file, item->line, item->column, item->field};
        runnel_problems_add(to, item->status, &place, "%s", item->text);
    }
    to->dropped += from->dropped;
    return to->dropped == dropped;
}

/* Moves all rows over those of `tables`, or none: the new arrays are made first. */
static runnel_status take_all(runnel_tables *all, runnel_tables *tables) {
    runnel_tables merged = {0};
    for (size_t i = 0; i < RUNNEL_TABLE_FORMATS; i++) {
        table_format *format = &runnel_table_formats[i];
        size_t room = *size_at(tables, format->count) + *size_at(all, format->count);
        if (make_room(format, room, &merged) != RUNNEL_OK) {
            runnel_tables_clear(&merged);
            return RUNNEL_E_NO_MEMORY;
        }
    }
    for (size_t i = 0; i < RUNNEL_TABLE_FORMATS; i++) {
        move_rows(&runnel_table_formats[i], tables, &merged);
        move_rows(&runnel_table_formats[i], all, &merged);
    }
    runnel_tables_clear(tables);
    *tables = merged;
    return RUNNEL_OK;
}

/* A directory to be read, and whether it may be without tables. */
typedef struct table_place {
    const char *directory;
    bool may_lack;
} table_place;

static void tell_lacking(runnel_tables *all, runnel_problems *problems) {
    for (size_t i = 0; i < RUNNEL_TABLE_FORMATS; i++) {
        table_format *format = &runnel_table_formats[i];
        if (!*size_at(all, format->count))
            runnel_problems_add(problems, RUNNEL_E_NOT_FOUND, NULL,
                                "'%s' is found in none of the directories for tables",
                                format->file_name);
    }
}

static runnel_status read_in_order(const table_place *places, size_t count, bool need_each,
                                   runnel_problems *problems, runnel_tables *tables) {
    runnel_tables all = {0};
    runnel_problems told;
    runnel_problems_init(&told);
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < count && status == RUNNEL_OK; i++)
        if (places[i].directory && *places[i].directory)
            status = add_directory(places[i].directory, places[i].may_lack, &told, &all);
    if (status == RUNNEL_OK && need_each && !told.count)
        tell_lacking(&all, &told);
    if (status == RUNNEL_OK)
        status = runnel_problems_status(&told);
    if (status == RUNNEL_OK)
        status = take_all(&all, tables);
    if (!tell_all(&told, problems))
        status = RUNNEL_E_NO_MEMORY;
    runnel_problems_clear(&told);
    runnel_tables_clear(&all);
    return status;
}

runnel_status runnel_tables_read_all(const char *const *directories, size_t count,
                                     runnel_problems *problems, runnel_tables *tables) {
    table_place *places = runnel_zeroed(count, sizeof *places);
    if (!places)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < count; i++)
        places[i].directory = directories[i];
    runnel_status status = read_in_order(places, count, false, problems, tables);
    runnel_free(places);
    return status;
}

runnel_status runnel_tables_read(runnel_tables *tables, const char *directory,
                                 runnel_problems *problems) {
    return read_in_order(&(table_place){directory, false}, 1, false, problems, tables);
}

static bool given(const char *text) {
    return text && *text;
}

/* The folder "runnel" of the user's data home, after the XDG Base Directory Specification 0.8:
 * without the variable, or with a path that is not absolute, ~/.local/share stands in. */
static char *user_directory(const runnel_table_places *places, bool *none) {
    bool by_variable = given(places->xdg_data_home) && places->xdg_data_home[0] == '/';
    *none = !by_variable && !given(places->home);
    if (*none)
        return NULL;
    return by_variable ? runnel_format_text("%s/runnel", places->xdg_data_home)
                       : runnel_format_text("%s/.local/share/runnel", places->home);
}

runnel_status runnel_tables_read_places(const runnel_table_places *places,
                                        runnel_problems *problems, runnel_tables *tables) {
    bool none;
    char *user = user_directory(places, &none);
    if (!user && !none)
        return RUNNEL_E_NO_MEMORY;
    const table_place order[] = {
        /* Installed tables may lack where the others make up for them. */
        {places->installed, true},
        {user, true},
        {given(places->option) ? places->option : places->environment, false},
    };
    runnel_status status =
        read_in_order(order, sizeof order / sizeof *order, true, problems, tables);
    runnel_free(user);
    return status;
}
