/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/units.h"
#include "write/layout.h"
#include "write/list.h"

#include <math.h>
#include <string.h>

/* Quoted where it must be (RFC 4180). */
static void write_text(const char *text, FILE *out) {
    if (!text[strcspn(text, ",;\"\r\n")]) {
        fputs(text, out);
        return;
    }
    fputc('"', out);
    for (; *text; text++) {
        if (*text == '"')
            fputc('"', out);
        fputc(*text, out);
    }
    fputc('"', out);
}

/* A value in the unit of the title, without the last digits that the change of unit has left; an
 * unknown one is an empty cell. */
static void write_number(double value, FILE *out) {
    const double keep = 1e9;
    char text[64];
    if (isfinite(value))
        fputs(runnel_number_exact(nearbyint(value * keep) / keep, text, sizeof text), out);
}

static void write_cell(const runnel_list_column *column, const void *row, FILE *out) {
    if (column->holds == RUNNEL_HOLDS_NUMBER)
        write_number(runnel_list_number(column, row) * column->csv_times / column->csv_over, out);
    else if (column->holds == RUNNEL_HOLDS_FLAG)
        fputs(runnel_list_flag(column, row) ? "yes" : "no", out);
    else
        write_text(runnel_list_text(column, row), out);
}

runnel_status runnel_write_list_csv(const runnel_list *list, FILE *out) {
    size_t count, rows = runnel_list_rows(list);
    const runnel_list_column *columns = runnel_list_columns(list->kind, &count);
    for (size_t i = 0; i <= rows; i++) {
        for (size_t k = 0; k < count; k++) {
            if (!columns[k].title)
                continue;
            if (k)
                fputc(',', out);
            if (i)
                write_cell(&columns[k], runnel_list_row(list, i - 1), out);
            else
                write_text(columns[k].title, out);
        }
        fputc('\n', out);
    }
    return runnel_layout_close(out);
}
