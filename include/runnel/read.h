/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Readers of job files.
 */
#ifndef RUNNEL_READ_H
#define RUNNEL_READ_H

#include "runnel/job.h"

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Reads a job in YAML from memory into an initialised job and checks it (runnel_job_check).
 * Every problem is told with file, line, column, key and the offending text.
 *
 * @param file_name for messages and for paths of fonts relative to it
 * @return RUNNEL_OK, or the worst problem's status with the job left as it was
 */
runnel_status runnel_job_read_yaml(const char *text, size_t length, const char *file_name,
                                   const runnel_tables *tables, runnel_problems *problems,
                                   runnel_job *job);

/** Reads a whole file ("-" = standard input) into memory with a limit of 64 MB. */
runnel_status runnel_file_read(const char *path, runnel_problems *problems, char **text,
                               size_t *length);

#ifdef __cplusplus
}
#endif
#endif
