/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The arguments of the command, taken apart by the table of options.
 */
#ifndef RUNNEL_CLI_PARSE_H
#define RUNNEL_CLI_PARSE_H

#include "cli/options.h"

/** Most job files of a command that takes several. */
#define CLI_OPERANDS 64

/** What the command was called with; borrowed from the arguments of the program. */
typedef struct cli_arguments {
    command_id command;
    const char *values[OPTION_IDS]; /**< NULL = not given; "" for a flag */
    const char *operand;            /**< the job file, list or command behind the name, or NULL */
    const char *operands[CLI_OPERANDS]; /**< all of them; more than one are job files */
    size_t operand_count;
    bool man_page, completion; /**< asked for in place of a command */
} cli_arguments;

/**
 * Takes the arguments apart.
 *
 * @return whether they are right; otherwise what is wrong has been told on standard error
 */
bool parse_arguments(int count, char **words, cli_arguments *arguments);

/** Whether one cavity is told by options. */
bool has_shape(const cli_arguments *arguments);

/** Tells on standard error how the command was called wrongly. @return the exit code for that */
int misuse(command_id command, const char *format, ...) RUNNEL_PRINTF(2, 3);

#endif
