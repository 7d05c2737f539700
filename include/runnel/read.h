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
 *
 * Every problem is told with file, line, column, key and the offending text, in the order of the
 * file; only after what keeps the file from being read as YAML nothing more is looked at. A key is
 * written in small letters, its words parted by blanks, hyphens or underscores alike. `resin`,
 * `scale` and the tint of a colour are a single value or a mapping. References ("&name", "*name")
 * are followed. The file may hold a million values, 32 inside one another.
 *
 * @param text      UTF-8, `length` bytes
 * @param file_name for messages, and font files are looked for beside it
 * @param problems  may be NULL
 * @param job       replaced on success
 * @return RUNNEL_OK, or the worst problem's status with the job left as it was
 */
runnel_status runnel_job_read_yaml(const char *text, size_t length, const char *file_name,
                                   const runnel_tables *tables, runnel_problems *problems,
                                   runnel_job *job);

/**
 * Reads a whole file ("-" is the standard input) of at most 64 MB into memory.
 *
 * @param text   closed with a zero behind `length` bytes; to be freed with runnel_free
 * @param length bytes without that zero
 * @return RUNNEL_OK; RUNNEL_E_NOT_FOUND when it cannot be opened or is a directory, RUNNEL_E_IO,
 *         RUNNEL_E_RANGE when it is larger, all told; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_file_read(const char *path, runnel_problems *problems, char **text,
                               size_t *length);

#ifdef __cplusplus
}
#endif
#endif
