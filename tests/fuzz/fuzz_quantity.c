/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Quantities, lengths and numbers. What is read is finite, and its exact text with the unit of the
 * dimension reads back to the same value; what is refused is told and leaves the value alone.
 */
#include "runnel/units.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const double untouched = -123456.75;

static void require(int holds, const char *what, const char *text) {
    if (holds)
        return;
    fprintf(stderr, "%s: '%s'\n", what, text);
    abort();
}

/* A share is written in percent: its exact text with a power of ten that is greater by two. */
static void write_back(double value, runnel_dimension dimension, char *text, size_t size) {
    char digits[64];
    runnel_number_exact(value, digits, sizeof digits);
    if (dimension != RUNNEL_FRACTION) {
        snprintf(text, size, "%s %s", digits, runnel_dimension_unit(dimension));
        return;
    }
    char *mark = strchr(digits, 'e');
    long power = mark ? strtol(mark + 1, NULL, 10) : 0;
    if (mark)
        *mark = '\0';
    snprintf(text, size, "%se%ld %%", digits, power + 2);
}

static void judge(runnel_status status, const runnel_problems *problems, size_t most,
                  const char *text) {
    require((status == RUNNEL_OK) == (problems->count == 0), "refused without a word", text);
    require(problems->count <= most && problems->dropped == 0, "too many problems", text);
    for (size_t i = 0; i < problems->count; i++) {
        require(problems->items[i].text[0] == '\'', "the text is not quoted", text);
        require(strlen(problems->items[i].text) < 1000, "a long message", text);
    }
}

static void try_quantity(const char *text, runnel_dimension dimension) {
    char again[128];
    double value = untouched, back = untouched;
    runnel_problems problems = {0};
    runnel_status status = runnel_quantity_parse(text, dimension, &problems, NULL, &value);
    judge(status, &problems, 1, text);
    runnel_problems_clear(&problems);
    if (status) {
        require(value == untouched, "the value was touched", text);
        return;
    }
    require(isfinite(value), "not finite", text);
    write_back(value, dimension, again, sizeof again);
    require(runnel_quantity_parse(again, dimension, NULL, NULL, &back) == RUNNEL_OK,
            "its own text is refused", again);
    require(back == value, "another value comes back", again);
}

static void try_lengths(const char *text, size_t wanted) {
    double values[8];
    runnel_problems problems = {0};
    for (size_t i = 0; i < 8; i++)
        values[i] = untouched;
    runnel_status status = runnel_lengths_parse(text, wanted, &problems, NULL, values);
    judge(status, &problems, 8, text);
    runnel_problems_clear(&problems);
    for (size_t i = 0; i < 8; i++)
        if (status || i >= wanted)
            require(values[i] == untouched, "a value was touched", text);
        else
            require(isfinite(values[i]), "not finite", text);
}

static void try_number(const char *text) {
    char again[64];
    double value = untouched, back = untouched;
    size_t count = 7;
    runnel_problems problems = {0};
    runnel_status status = runnel_number_parse(text, &problems, NULL, &value);
    judge(status, &problems, 1, text);
    runnel_problems_clear(&problems);
    if (status) {
        require(value == untouched, "the value was touched", text);
    } else {
        require(isfinite(value), "not finite", text);
        runnel_number_exact(value, again, sizeof again);
        require(runnel_number_parse(again, NULL, NULL, &back) == RUNNEL_OK && back == value,
                "another value comes back", again);
    }
    status = runnel_count_parse(text, 1000, &problems, NULL, &count);
    judge(status, &problems, 1, text);
    runnel_problems_clear(&problems);
    require(status ? count == 7 : count <= 1000, "a count beyond its limit", text);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    char *text = malloc(size + 1);
    if (!text)
        return 0;
    if (size)
        memcpy(text, data, size);
    text[size] = '\0';
    for (int dimension = 0; dimension < RUNNEL_DIMENSION_COUNT; dimension++)
        try_quantity(text, (runnel_dimension)dimension);
    for (size_t wanted = 1; wanted <= 8; wanted++)
        try_lengths(text, wanted);
    try_number(text);
    free(text);
    return 0;
}
