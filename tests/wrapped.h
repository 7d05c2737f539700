/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * How much the tests are to do: whether all that they can is asked for, and whether they run within
 * a program that looks at each of their steps, such as memcheck.
 */
#ifndef RUNNEL_TESTS_WRAPPED_H
#define RUNNEL_TESTS_WRAPPED_H

#include <stdbool.h>
#include <stdlib.h>

/** Such a program takes its time, so that tests that repeat much repeat less. */
static inline bool is_wrapped(void) {
    const char *wrapper = getenv("RUNNEL_WRAPPER");
    return wrapper && *wrapper;
}

/** The long forms of the tests are asked for; else those that would take minutes try a sample. */
static inline bool is_long(void) {
    const char *asked = getenv("RUNNEL_LONG");
    return asked && *asked;
}

#endif
