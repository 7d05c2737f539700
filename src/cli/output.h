/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Where the output goes, and how problems are shown.
 */
#ifndef RUNNEL_CLI_OUTPUT_H
#define RUNNEL_CLI_OUTPUT_H

#include "runnel/runnel.h"

#include <stdio.h>

/** Writes one output into a stream. */
typedef runnel_status (*cli_writer)(const void *what, FILE *out);

/**
 * Has an output written: to standard output when `path` is NULL, otherwise to a file, whole or not
 * at all. The file is written under another name beside its place and then put there, following
 * links and keeping the rights of a file that was there; what is no plain file, such as a pipe, is
 * written in its place. What fails is told on standard error.
 *
 * @return RUNNEL_OK or what failed
 */
runnel_status write_output(const char *path, cli_writer writer, const void *what);

/** Closes standard output, telling of an output that did not arrive. @return whether it did */
bool close_standard_output(void);

/** Shows problems on standard error, one a line, or the status where there is none. */
void show_problems(const runnel_problems *problems, runnel_status status);

#endif
