/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The allocator that the library uses for its own memory.
 */
#ifndef RUNNEL_MEMORY_H
#define RUNNEL_MEMORY_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/** Replacement of malloc, realloc and free. `state` is passed through. */
typedef struct runnel_allocator {
    void *(*resize)(void *old, size_t bytes, void *state); /**< as realloc; old may be NULL */
    void (*release)(void *old, void *state);               /**< as free; old may be NULL */
    void *state;
} runnel_allocator;

/**
 * Sets the allocator for the whole process; NULL goes back to malloc. Call it before any other
 * function, or when nothing that the library gave out is alive. Not safe beside other threads.
 */
void runnel_set_allocator(const runnel_allocator *allocator);

/** Frees a string that the library handed over. NULL is allowed. */
void runnel_free(void *memory);

/** A copy of a text, for a field that owns its text; NULL when memory runs out, or for NULL. */
char *runnel_copy_text(const char *text);

#ifdef __cplusplus
}
#endif
#endif
