/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/memory.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void *plain_resize(void *old, size_t bytes, void *state) {
    (void)state;
    return realloc(old, bytes);
}

static void plain_release(void *old, void *state) {
    (void)state;
    free(old);
}

static const runnel_allocator plain = {plain_resize, plain_release, NULL};
static runnel_allocator current = {plain_resize, plain_release, NULL};

void runnel_set_allocator(const runnel_allocator *allocator) {
    current = allocator ? *allocator : plain;
}

void runnel_free(void *memory) {
    if (memory)
        current.release(memory, current.state);
}

void *runnel_resize(void *old, size_t count, size_t size) {
    if (size && count > SIZE_MAX / size)
        return NULL;
    size_t bytes = count * size;
    return current.resize(old, bytes ? bytes : 1, current.state);
}

void *runnel_zeroed(size_t count, size_t size) {
    void *block = runnel_resize(NULL, count, size);
    if (block)
        memset(block, 0, count * size);
    return block;
}

char *runnel_copy_bytes(const char *text, size_t length) {
    char *copy = runnel_resize(NULL, length + 1, 1);
    if (copy) {
        memcpy(copy, text, length);
        copy[length] = '\0';
    }
    return copy;
}

char *runnel_copy_text(const char *text) {
    return text ? runnel_copy_bytes(text, strlen(text)) : NULL;
}

char *runnel_format_list(const char *format, va_list arguments) {
    va_list again;
    va_copy(again, arguments);
    int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    char *text = length < 0 ? NULL : runnel_resize(NULL, (size_t)length + 1, 1);
    if (text)
        vsnprintf(text, (size_t)length + 1, format, arguments);
    return text;
}

char *runnel_format_text(const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    char *text = runnel_format_list(format, arguments);
    va_end(arguments);
    return text;
}

runnel_status runnel_reserve(void *items, size_t *capacity, size_t needed, size_t size) {
    if (needed <= *capacity)
        return RUNNEL_OK;
    size_t wanted = *capacity ? *capacity : 8;
    while (wanted < needed)
        wanted = wanted > SIZE_MAX / 2 ? needed : wanted * 2;
    void *old;
    memcpy(&old, items, sizeof old);
    void *fresh = runnel_resize(old, wanted, size);
    if (!fresh)
        return RUNNEL_E_NO_MEMORY;
    memcpy(items, &fresh, sizeof fresh);
    *capacity = wanted;
    return RUNNEL_OK;
}
