/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Names as keys: how they are written does not count.
 */
#ifndef RUNNEL_BASE_KEY_H
#define RUNNEL_BASE_KEY_H

#include <stdbool.h>
#include <stddef.h>

/**
 * Whether two names are the same key. Case (a to z), blanks, hyphens and underscores do not count,
 * but between two digits a run of them counts as one blank.
 *
 * @param one_length,other_length bytes of the names, which need not be closed with a zero
 */
bool runnel_key_equal(const char *one, size_t one_length, const char *other, size_t other_length);

#endif
