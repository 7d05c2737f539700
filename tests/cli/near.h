/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Numbers in a JSON text against expected ones. Each line of those is: path, wanted number,
 * relative tolerance, and if needed an absolute one:
 *
 *     cavities[0].volume_ml         18.666666666667  1e-9
 *     batches[colour=amber].tint_g  0                0     1e-12
 *     length(warnings)              2                0
 *
 * [3] takes an item by its place, [key=text] the first item whose member `key` is that text.
 * Text from # to the end of the line is a comment: there the source of the number belongs.
 */
#ifndef RUNNEL_TESTS_CLI_NEAR_H
#define RUNNEL_TESTS_CLI_NEAR_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

/** Says in `report` which numbers are off or missing. @return whether all are right */
bool numbers_are_near(const char *json, size_t size, const char *expected, FILE *report);

#endif
