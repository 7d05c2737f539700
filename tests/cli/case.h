/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * One case of the command; what a case is stands in cases.c.
 */
#ifndef RUNNEL_TESTS_CLI_CASE_H
#define RUNNEL_TESTS_CLI_CASE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

/** What all cases share. */
typedef struct case_surroundings {
    const char *command; /**< path of the command under test */
    const char *wrapper; /**< words to be put in front of it; may be empty */
    const char *runnel;  /**< path of what starts the command with its wrapper */
    const char *all;     /**< folder of the whole run: home/ and cache/ are below it */
    const char *source;  /**< root of the sources */
    unsigned seconds;    /**< that a case may last */
} case_surroundings;

/**
 * Runs one case in a folder of its own, which is gone afterwards, and says in `report` what is
 * wrong. To be called in a process of its own: it takes over its signals, and keeps what it
 * allocates.
 * @param path  the .cmd file, absolute
 * @param work  an absolute path that is free
 * @return whether nothing is wrong
 */
bool run_case(const case_surroundings *around, const char *path, const char *work, FILE *report);

#endif
