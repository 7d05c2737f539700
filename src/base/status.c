/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/status.h"

#include "base/memory.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static const struct {
    const char *name;
    int exit_code;
    const char *text;
} table[] = {
#define X(name, exit_code, text) {#name, exit_code, text},
#include "runnel/errors.def"
#undef X
};

const char *runnel_status_text(runnel_status status) {
    return (unsigned)status < RUNNEL_STATUS_COUNT ? table[status].text : "unknown status";
}

const char *runnel_status_name(runnel_status status) {
    return (unsigned)status < RUNNEL_STATUS_COUNT ? table[status].name : "UNKNOWN";
}

int runnel_status_exit(runnel_status status) {
    return (unsigned)status < RUNNEL_STATUS_COUNT ? table[status].exit_code : 5;
}

void runnel_problems_init(runnel_problems *problems) {
    memset(problems, 0, sizeof *problems);
}

static void clear_problem(runnel_problem *problem) {
    runnel_free(problem->file);
    runnel_free(problem->field);
    runnel_free(problem->text);
}

void runnel_problems_clear(runnel_problems *problems) {
    if (!problems)
        return;
    for (size_t i = 0; i < problems->count; i++)
        clear_problem(&problems->items[i]);
    runnel_free(problems->items);
    runnel_problems_init(problems);
}

runnel_status runnel_problems_add(runnel_problems *problems, runnel_status status,
                                  const runnel_place *place, const char *format, ...) {
    if (!problems)
        return status;
    runnel_problem problem = {.status = status};
    va_list arguments;
    va_start(arguments, format);
    problem.text = runnel_format_list(format, arguments);
    va_end(arguments);
    if (place) {
        problem.file = runnel_copy_text(place->file);
        problem.field = runnel_copy_text(place->field);
        problem.line = place->line;
        problem.column = place->column;
    }
    if (!problem.text || (place && place->file && !problem.file) ||
        (place && place->field && !problem.field) ||
        runnel_reserve(&problems->items, &problems->capacity, problems->count + 1,
                       sizeof *problems->items)) {
        clear_problem(&problem);
        problems->dropped++;
        return status;
    }
    problems->items[problems->count++] = problem;
    return status;
}

runnel_status runnel_problems_status(const runnel_problems *problems) {
    if (problems->dropped)
        return RUNNEL_E_NO_MEMORY;
    runnel_status worst = RUNNEL_OK;
    for (size_t i = 0; i < problems->count; i++)
        if (runnel_status_exit(problems->items[i].status) > runnel_status_exit(worst))
            worst = problems->items[i].status;
    return worst;
}

void runnel_problems_append(runnel_problems *problems, const runnel_problems *more) {
    for (size_t i = 0; problems && i < more->count; i++) {
        const runnel_problem *item = &more->items[i];
        runnel_place place = {item->file, item->line, item->column, item->field};
        runnel_problems_add(problems, item->status, &place, "%s", item->text);
    }
    if (problems)
        problems->dropped += more->dropped;
}
