/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The check of a job for a reader that knows where each value stands.
 */
#ifndef RUNNEL_JOB_CHECK_H
#define RUNNEL_JOB_CHECK_H

#include "job/fields.h"

/** What a reader knows of a value. */
typedef struct runnel_told {
    size_t line, column; /**< 0 = not known */
    const char *text;    /**< as written, borrowed; NULL = not a single value */
    bool refused;        /**< a problem was told already; the field in the job holds no value */
} runnel_told;

/**
 * Asks a reader for a value.
 *
 * @param id   the key; RUNNEL_FIELD_COUNT_OF asks for the place of the whole job
 * @param told filled in
 * @return whether the key was given
 */
typedef bool (*runnel_told_function)(const void *state, runnel_spot spot, runnel_field_id id,
                                     runnel_told *told);

/**
 * As runnel_job_check. Values that the reader refused are taken as given, and nothing is told of
 * them again; the others are told with their own place and as written.
 *
 * @param ask may be NULL
 */
runnel_status runnel_job_check_told(runnel_job *job, const runnel_tables *tables,
                                    runnel_told_function ask, const void *state,
                                    runnel_problems *problems);

/** A name as it will be, with the missing ones filled in. */
typedef struct runnel_label {
    const char *name;
    char *own; /**< the same when it was filled in, to be handed over; else NULL */
    size_t index;
    size_t first; /**< index of the first of the same name; its own when it is the first */
} runnel_label;

/** All that a job lacks and a check fills in, made beforehand so that filling in cannot fail. */
typedef struct runnel_filling {
    runnel_label *pieces;
    runnel_label **cavities; /**< one array a piece, NULL for one without cavities */
    char **colours;          /**< copies of the default colour, one a cavity without colour */
    size_t colour_count;
    runnel_resin resin; /**< the default row for a job without a resin */
} runnel_filling;

/** Makes the names of pieces and cavities. The filling must be zero before; on failure too it is
 * to be cleared. @return RUNNEL_OK or RUNNEL_E_NO_MEMORY */
runnel_status runnel_filling_names(const runnel_job *job, runnel_filling *filling);

/** Fills in a job without problems: names, colours, resin. @return RUNNEL_OK; RUNNEL_E_MISSING
 * without a resin and without the default one in the tables, RUNNEL_E_NO_MEMORY, both with the job
 * left as it was */
runnel_status runnel_filling_take(const runnel_tables *tables, runnel_filling *filling,
                                  runnel_job *job);

/** Frees what was not filled in. */
void runnel_filling_clear(const runnel_job *job, runnel_filling *filling);

#endif
