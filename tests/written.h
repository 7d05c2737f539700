/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Help for tests of the writers: what was written, and what must be in it.
 */
#ifndef RUNNEL_TESTS_WRITTEN_H
#define RUNNEL_TESTS_WRITTEN_H

#include "write/layout.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

/** What stands in a temporary file, which is closed; to be freed. */
static inline char *contents(FILE *file) {
    long size = ftell(file);
    ck_assert_int_ge(size, 0);
    char *text = calloc((size_t)size + 1, 1);
    rewind(file);
    ck_assert_uint_eq(fread(text, 1, (size_t)size, file), (size_t)size);
    fclose(file);
    return text;
}

/** Fails unless a text holds another. */
static inline void has(const char *text, const char *wanted) {
    ck_assert_msg(strstr(text, wanted) != NULL, "no '%s' in:\n%s", wanted, text);
}

/** Fails when a text holds another. */
static inline void has_not(const char *text, const char *unwanted) {
    ck_assert_msg(strstr(text, unwanted) == NULL, "'%s' in:\n%s", unwanted, text);
}

/** Fails unless a text holds others one after the other. */
static inline void in_order(const char *text, const char *const *parts, size_t count) {
    for (size_t i = 0; i < count; i++) {
        const char *found = strstr(text, parts[i]);
        ck_assert_msg(found != NULL, "no '%s' any more in:\n%s", parts[i], text);
        text = found + strlen(parts[i]);
    }
}

/** Fails when a line is wider than 78 columns or ends in a blank. */
static inline void fits(const char *text) {
    char line[2000];
    while (*text) {
        size_t length = strcspn(text, "\n");
        ck_assert_uint_lt(length, sizeof line);
        memcpy(line, text, length);
        line[length] = '\0';
        ck_assert_msg(runnel_layout_width(line) <= 78, "%s", line);
        ck_assert_msg(!length || line[length - 1] != ' ', "'%s'", line);
        text += length + (text[length] == '\n');
    }
}

#endif
