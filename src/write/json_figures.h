/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Numbers of a struct as the members of a JSON object, by tables of their keys.
 */
#ifndef RUNNEL_WRITE_JSON_FIGURES_H
#define RUNNEL_WRITE_JSON_FIGURES_H

#include "write/json_make.h"

#include <stddef.h>

/** A number of a struct and the key that it goes by: value x times / over. */
typedef struct runnel_json_figure {
    const char *key;
    size_t offset;
    double times, over;
} runnel_json_figure;

/** Rows of a table: a number as it is, a volume of mm3 in ml, a time of seconds in minutes or
 * hours, a share in percent. */
#define RUNNEL_JSON_PLAIN(key, type, member)                                                       \
    { key, offsetof(type, member), 1, 1 }
#define RUNNEL_JSON_ML(key, type, member)                                                          \
    { key, offsetof(type, member), 1, 1000 }
#define RUNNEL_JSON_MINUTES(key, type, member)                                                     \
    { key, offsetof(type, member), 1, 60 }
#define RUNNEL_JSON_HOURS(key, type, member)                                                       \
    { key, offsetof(type, member), 1, 3600 }
#define RUNNEL_JSON_PERCENT(key, type, member)                                                     \
    { key, offsetof(type, member), 100, 1 }

/** Puts the numbers of a struct into an object, in the order of the table. */
void runnel_json_put_figures(json_t *object, const void *record, const runnel_json_figure *figures,
                             size_t count, bool *whole);

/** The same for a table that is an array. */
#define RUNNEL_JSON_FIGURES(object, record, figures, whole)                                        \
    runnel_json_put_figures((object), (record), (figures), sizeof(figures) / sizeof *(figures),    \
                            (whole))

#endif
