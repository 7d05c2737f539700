/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Values of options of the commands that work on no job.
 */
#ifndef RUNNEL_CLI_VALUES_H
#define RUNNEL_CLI_VALUES_H

#include "cli/parse.h"

/** What a value must be. */
typedef enum value_range { VALUE_ANY, VALUE_ABOVE_0, VALUE_FROM_0 } value_range;

/** The place of an option in messages, good until the next call. */
runnel_place value_place(option_id id);

/**
 * Reads the quantity of an option, when it is given.
 *
 * @param value untouched when the option is not given, or refused
 * @return whether nothing was refused
 */
bool take_quantity(const cli_arguments *arguments, option_id id, value_range range,
                   runnel_problems *problems, double *value);

/** The same for a plain number. */
bool take_number(const cli_arguments *arguments, option_id id, value_range range,
                 runnel_problems *problems, double *value);

#endif
