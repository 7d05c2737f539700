/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The known name that somebody probably meant.
 */
#ifndef RUNNEL_BASE_SUGGEST_H
#define RUNNEL_BASE_SUGGEST_H

#include "runnel/status.h"

#include <stddef.h>

/**
 * Steps from one word to another: characters put in, left out or exchanged, and neighbours swapped
 * (Damerau 1964, Levenshtein 1966; each neighbouring pair is touched once). Letters a to z count
 * alike in either case.
 *
 * @return the number of steps; SIZE_MAX when a word has more than 128 characters
 */
size_t runnel_word_distance(const char *one, const char *other);

#endif
