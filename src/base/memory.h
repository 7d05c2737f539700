/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Allocation inside the library: every block goes through the hook of runnel/memory.h.
 */
#ifndef RUNNEL_BASE_MEMORY_H
#define RUNNEL_BASE_MEMORY_H

#include "runnel/memory.h"
#include "runnel/status.h"

#include <stdarg.h>

/** As realloc(old, count * size) with overflow check; NULL on failure (old stays valid). */
void *runnel_resize(void *old, size_t count, size_t size);

/** As calloc; NULL on failure. */
void *runnel_zeroed(size_t count, size_t size);

/** Copy of the first `length` bytes, closed with a zero; NULL on failure. */
char *runnel_copy_bytes(const char *text, size_t length);

/** As runnel_format_text, with the arguments as a list. */
char *runnel_format_list(const char *format, va_list arguments) RUNNEL_PRINTF(1, 0);

/** Formatted text in a new block; NULL on failure. */
char *runnel_format_text(const char *format, ...) RUNNEL_PRINTF(1, 2);

/**
 * Makes room for at least `needed` items of `size` bytes in a growing array.
 *
 * @param items    address of the array pointer (any object pointer type)
 * @param capacity current capacity, updated
 */
runnel_status runnel_reserve(void *items, size_t *capacity, size_t needed, size_t size);

#endif
