/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Reading a job file from a string, for the suites of the YAML reader.
 */
#ifndef RUNNEL_TESTS_YAML_READING_H
#define RUNNEL_TESTS_YAML_READING_H

#include "job_tables.h"
#include "runnel/memory.h"
#include "runnel/read.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static runnel_job job;
static runnel_problems problems;

static void setup(void) {
    runnel_job_init(&job);
    runnel_problems_init(&problems);
}

static void teardown(void) {
    runnel_job_clear(&job);
    runnel_problems_clear(&problems);
}

/* A copy that ends where the text ends, so that reading behind it is seen by the sanitizers. */
static inline runnel_status read_bytes(const char *text, size_t length) {
    char *exact = malloc(length ? length : 1);
    ck_assert_ptr_nonnull(exact);
    memcpy(exact, text, length);
    runnel_status status =
        runnel_job_read_yaml(exact, length, "orders/x.yaml", job_tables(), &problems, &job);
    free(exact);
    return status;
}

static inline runnel_status read_text(const char *text) {
    return read_bytes(text, strlen(text));
}

/* Prints all problems when there is another number of them. */
static inline void ck_problem_count(size_t count) {
    if (problems.count != count)
        for (size_t i = 0; i < problems.count; i++)
            printf("%zu:%zu: %s: %s\n", problems.items[i].line, problems.items[i].column,
                   problems.items[i].field ? problems.items[i].field : "-", problems.items[i].text);
    fflush(stdout);
    ck_assert_uint_eq(problems.count, count);
}

static inline void ck_problem(size_t index, runnel_status status, size_t line, size_t column,
                              const char *field, const char *text) {
    ck_assert_uint_lt(index, problems.count);
    const runnel_problem *problem = &problems.items[index];
    ck_assert_str_eq(problem->text, text);
    ck_assert_uint_eq(problem->line, line);
    ck_assert_uint_eq(problem->column, column);
    if (field)
        ck_assert_str_eq(problem->field, field);
    else
        ck_assert_ptr_null(problem->field);
    ck_assert_str_eq(problem->file, "orders/x.yaml");
    ck_assert_int_eq(problem->status, status);
}

#endif
