/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Parts of a text: walking over blanks and words, and showing a part in a message.
 */
#ifndef RUNNEL_BASE_SLICE_H
#define RUNNEL_BASE_SLICE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/** The bytes from `at` up to `end` of a text that is closed with a zero at or behind `end`; both
 * stand on borders of characters. Borrowed. */
typedef struct runnel_slice {
    const char *at;
    const char *end;
} runnel_slice;

/** Room that runnel_slice_show needs at most. */
#define RUNNEL_SHOWN_SIZE 256

/** A whole text. */
runnel_slice runnel_slice_of(const char *text);

/** The character at the start, 0 at the end; `length` (may be NULL) tells its bytes. */
uint32_t runnel_slice_peek(runnel_slice slice, size_t *length);

/** Steps over the character at the start. */
void runnel_slice_step(runnel_slice *slice);

/** Whether a character is a blank: space, tab, line end, the no-break and the typographic ones. */
bool runnel_is_blank(uint32_t point);

/** Steps over blanks; whether there were any. */
bool runnel_slice_skip_blanks(runnel_slice *slice);

/** The slice without blanks at either end. */
runnel_slice runnel_slice_trim(runnel_slice slice);

/** Steps over a word of small ASCII letters when it stands at the start, in either case, and no
 * further letter follows; whether it did. */
bool runnel_slice_take_word(runnel_slice *slice, const char *word);

/**
 * Copies a part of an input for use inside a message: at most 60 characters, then "..."; line ends
 * and tabs become spaces, other control characters, marks that turn the direction of writing and
 * bytes that are not UTF-8 become '?'.
 *
 * @param buffer RUNNEL_SHOWN_SIZE bytes
 * @return buffer
 */
const char *runnel_slice_show(runnel_slice slice, char *buffer);

#endif
