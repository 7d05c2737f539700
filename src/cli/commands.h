/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What the commands do. Each returns the exit code.
 */
#ifndef RUNNEL_CLI_COMMANDS_H
#define RUNNEL_CLI_COMMANDS_H

#include "cli/parse.h"

/** `runnel size` and `runnel card`. */
int run_size_or_card(const cli_arguments *arguments);

/** `runnel sheet`. */
int run_sheet(const cli_arguments *arguments);

/** `runnel seal`. */
int run_seal(const cli_arguments *arguments);

/** `runnel level`. */
int run_level(const cli_arguments *arguments);

/** `runnel oil`. */
int run_oil(const cli_arguments *arguments);

/** `runnel upkeep`. */
int run_upkeep(const cli_arguments *arguments);

/** `runnel damp`. */
int run_damp(const cli_arguments *arguments);

/** `runnel stock`. */
int run_stock(const cli_arguments *arguments);

/** `runnel timeline`. */
int run_timeline(const cli_arguments *arguments);

/** `runnel trial`. */
int run_trial(const cli_arguments *arguments);

/** `runnel rescue`. */
int run_rescue(const cli_arguments *arguments);

/** `runnel cure`. */
int run_cure(const cli_arguments *arguments);

/** `runnel list`. */
int run_list(const cli_arguments *arguments);

/** Reads the tables from where they may stand. Problems are shown. */
runnel_status read_tables(const cli_arguments *arguments, runnel_tables *tables);

/** Shows the help of a command, or of all for COMMAND_NONE, on standard output. */
void show_help(command_id command);

/** Shows the manual page, in the language of man(7). */
void show_man_page(void);

/** Shows the completions for bash. */
void show_completion(void);

#endif
