/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * An allocator for tests that fails when it is told to and counts what lives.
 */
#ifndef RUNNEL_TESTS_FAILING_H
#define RUNNEL_TESTS_FAILING_H

#include "runnel/memory.h"

#include <stdbool.h>
#include <stdlib.h>

/** Fails at the call `fail_at` (from 0), and at all after it if `for_good`; `calls` is above
 * `fail_at` when it did. */
typedef struct failing {
    size_t calls, fail_at, alive;
    bool for_good;
} failing;

static inline void *failing_resize(void *old, size_t bytes, void *state) {
    failing *count = state;
    size_t call = count->calls++;
    if (call == count->fail_at || (count->for_good && call > count->fail_at))
        return NULL;
    void *fresh = realloc(old, bytes);
    if (fresh && !old)
        count->alive++;
    return fresh;
}

static inline void failing_release(void *old, void *state) {
    if (old)
        ((failing *)state)->alive--;
    free(old);
}

/** Takes the place of the allocator until runnel_set_allocator(NULL). */
static inline void start_failing(failing *count) {
    runnel_set_allocator(&(runnel_allocator){failing_resize, failing_release, count});
}

#endif
