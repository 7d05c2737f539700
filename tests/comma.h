/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A program in a locale with a decimal comma, in which no number may come out otherwise.
 */
#ifndef RUNNEL_TESTS_COMMA_H
#define RUNNEL_TESTS_COMMA_H

/** Goes over to such a locale, made in a new folder where the system has none. Where that fails the
 * test stays in the C locale and says so. */
void comma_begin(void);
/** Goes back to the C locale and removes the folder. */
void comma_end(void);

#endif
