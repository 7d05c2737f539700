/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Making and writing of JSON values, for the writers whose output is JSON.
 */
#ifndef RUNNEL_WRITE_JSON_MAKE_H
#define RUNNEL_WRITE_JSON_MAKE_H

#include "runnel/status.h"

#include <jansson.h>
#include <stdbool.h>
#include <stdio.h>

/** A number; what is not known or has no end becomes null, as JSON has no word for it. */
json_t *runnel_json_number(double value);

/** A text, NULL becomes null. Bytes that are not UTF-8 become U+FFFD. */
json_t *runnel_json_string(const char *text);

/**
 * Puts a new value into a new object. Either may be NULL for want of memory, then and when the key
 * does not fit in, `whole` becomes false; the value is the object's or gone in any case.
 */
void runnel_json_put(json_t *object, const char *key, json_t *value, bool *whole);

/** The same for a new array. */
void runnel_json_append(json_t *array, json_t *value, bool *whole);

/** Makes the outermost value; `whole` is true before, and false after a part could not be made. */
typedef json_t *(*runnel_json_function)(const void *from, bool *whole);

/**
 * Makes a value and writes it, closed with a line end. Nothing is written until all is made.
 *
 * @return RUNNEL_OK; RUNNEL_E_NO_MEMORY with nothing written; RUNNEL_E_IO when the stream did not
 *         take all of it, flushed
 */
runnel_status runnel_json_write(runnel_json_function make, const void *from, FILE *out);

#endif
