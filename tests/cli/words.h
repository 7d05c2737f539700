/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Words of a line as the shell takes them apart, where that is beyond doubt.
 */
#ifndef RUNNEL_TESTS_CLI_WORDS_H
#define RUNNEL_TESTS_CLI_WORDS_H

#include <stdbool.h>
#include <stddef.h>

enum { MOST_WORDS = 200, LONGEST_WORDS = 16000 };

/** Words to start a program with. All zeros is none. */
typedef struct words {
    char *items[MOST_WORDS + 1]; /**< NULL behind the last one */
    size_t count;
    char letters[LONGEST_WORDS]; /**< of all words, each with a zero behind it */
    size_t length;
} words;

/**
 * Adds the words of one line: blanks part them, and '...' and "..." keep what is between them.
 * @return false when the line holds more than that, such as a character that the shell may take for
 *         something else, or is too long; what was added is then of no use
 */
bool split_words(const char *line, words *to);

/** Adds one word as it is. @return false when there is no room */
bool add_word(const char *word, words *to);

#endif
