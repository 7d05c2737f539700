/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/json_make.h"
#include "write/list.h"

static json_t *value_of(const runnel_list_column *column, const void *row) {
    if (column->holds == RUNNEL_HOLDS_NUMBER)
        return runnel_json_number(runnel_list_number(column, row) * column->json_times /
                                  column->json_over);
    if (column->holds == RUNNEL_HOLDS_FLAG)
        return json_boolean(runnel_list_flag(column, row));
    return runnel_json_string(runnel_list_text(column, row));
}

static json_t *array_of(const void *from, bool *whole) {
    const runnel_list *list = from;
    size_t count, rows = runnel_list_rows(list);
    const runnel_list_column *columns = runnel_list_columns(list->kind, &count);
    json_t *array = json_array();
    for (size_t i = 0; i < rows; i++) {
        json_t *object = json_object();
        for (size_t k = 0; k < count; k++)
            runnel_json_put(object, columns[k].key, value_of(&columns[k], runnel_list_row(list, i)),
                            whole);
        runnel_json_append(array, object, whole);
    }
    return array;
}

runnel_status runnel_write_list_json(const runnel_list *list, FILE *out) {
    return runnel_json_write(array_of, list, out);
}
