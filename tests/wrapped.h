/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Whether the tests run within a program that looks at each of their steps, such as memcheck.
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

#endif
