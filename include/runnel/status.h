/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Outcomes of calls, and the list of problems that a reader found.
 *
 * Every function that can fail returns a runnel_status and leaves its results
 * through the last out-parameters, which stay untouched on failure.
 */
#ifndef RUNNEL_STATUS_H
#define RUNNEL_STATUS_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

#if defined(__GNUC__)
#define RUNNEL_PRINTF(format_index, first_index)                                                   \
    __attribute__((format(printf, format_index, first_index)))
#else
#define RUNNEL_PRINTF(format_index, first_index)
#endif

/** Outcome of a call; RUNNEL_OK is 0. The texts and exit codes stand in errors.def. */
typedef enum runnel_status {
#define X(name, exit_code, text) RUNNEL_##name,
#include "runnel/errors.def"
#undef X
    RUNNEL_STATUS_COUNT
} runnel_status;

/** Text of a status, one short clause without a full stop; "unknown status" beyond the table. */
const char *runnel_status_text(runnel_status status);

/** Name of a status as in the enum, without the prefix, such as "E_RANGE". */
const char *runnel_status_name(runnel_status status);

/** Exit code of the command for a status, 0 to 5; 5 beyond the table. */
int runnel_status_exit(runnel_status status);

/** Where something stands in an input. Borrowed strings; zero or NULL means "not known". */
typedef struct runnel_place {
    const char *file;  /**< file name as the user gave it, or "command line" */
    size_t line;       /**< from 1; 0 = not known */
    size_t column;     /**< from 1, in characters; 0 = not known */
    const char *field; /**< key or option, such as "pieces[0].size" or "--cutter" */
} runnel_place;

/** One problem, with its own copies of the strings. */
typedef struct runnel_problem {
    runnel_status status;
    char *file;
    size_t line;
    size_t column;
    char *field;
    char *text; /**< what is wrong, the offending text in quotes, and what would be right */
} runnel_problem;

/** All problems found by one reader. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_problems {
    runnel_problem *items;
    size_t count;
    size_t capacity;
    size_t dropped; /**< problems that could not be kept for want of memory */
} runnel_problems;

/** Makes an empty list. */
void runnel_problems_init(runnel_problems *problems);

/** Frees all that the list holds and leaves it empty. NULL is allowed. */
void runnel_problems_clear(runnel_problems *problems);

/** Adds all problems of another list, which stays as it is. @param problems may be NULL */
void runnel_problems_append(runnel_problems *problems, const runnel_problems *more);

/**
 * Adds a problem.
 *
 * @param problems the list, or NULL to keep nothing
 * @param status   the kind of problem, returned again so that a caller can write `return add(...)`
 * @param place    where it stands, or NULL
 * @param format   printf format of the text
 * @return status
 */
runnel_status runnel_problems_add(runnel_problems *problems, runnel_status status,
                                  const runnel_place *place, const char *format, ...)
    RUNNEL_PRINTF(4, 5);

/**
 * The status to fail with after all problems are gathered: the one of the problem whose exit code
 * is highest (the first of those), RUNNEL_E_NO_MEMORY if any was dropped, RUNNEL_OK if there is
 * none.
 */
runnel_status runnel_problems_status(const runnel_problems *problems);

/**
 * The known name nearest to a misspelt one, for the text of a problem.
 *
 * @param word  what was written, UTF-8
 * @param known names, UTF-8; a NULL among them is passed over
 * @param count how many names
 * @return the first of the nearest names (borrowed); NULL when none is near, that is when the
 *         steps (characters put in, left out or exchanged, neighbours swapped) are more than 2 and
 *         more than a third of the word's characters, or when the two have nothing in common
 */
const char *runnel_nearest(const char *word, const char *const *known, size_t count);

#ifdef __cplusplus
}
#endif
#endif
