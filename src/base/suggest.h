/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The known name that somebody probably meant.
 */
#ifndef RUNNEL_BASE_SUGGEST_H
#define RUNNEL_BASE_SUGGEST_H

#include <stddef.h>

/**
 * Steps from one word to another: characters put in, left out or exchanged, and neighbours swapped
 * (Damerau 1964, Levenshtein 1966; each neighbouring pair is touched once). Letters a to z count
 * alike in either case.
 *
 * @return the number of steps; SIZE_MAX when a word has more than 128 characters
 */
size_t runnel_word_distance(const char *one, const char *other);

/**
 * The known name nearest to a word.
 *
 * @param word  what was written, UTF-8
 * @param known names, UTF-8; a NULL among them is passed over
 * @param count how many names
 * @return the first of the nearest names (borrowed); NULL when none is near, that is when the
 *         steps are more than 2 and more than a third of the word's characters, or when the two
 *         have nothing in common
 */
const char *runnel_nearest(const char *word, const char *const *known, size_t count);

#endif
