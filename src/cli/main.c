/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/commands.h"
#include "cli/output.h"
#include "cli/work.h"

static int run_command(const cli_arguments *arguments) {
    static int (*const commands[COMMAND_COUNT])(const cli_arguments *) = {
        [COMMAND_SIZE] = run_size_or_card, [COMMAND_CARD] = run_size_or_card,
        [COMMAND_SHEET] = run_sheet,       [COMMAND_SEAL] = run_seal,
        [COMMAND_LEVEL] = run_level,       [COMMAND_OIL] = run_oil,
        [COMMAND_STOCK] = run_stock,       [COMMAND_TRIAL] = run_trial,
        [COMMAND_TIMELINE] = run_timeline, [COMMAND_UPKEEP] = run_upkeep,
        [COMMAND_DAMP] = run_damp,         [COMMAND_RESCUE] = run_rescue,
        [COMMAND_CURE] = run_cure,         [COMMAND_LIST] = run_list};
    return commands[arguments->command](arguments);
}

static int run(const cli_arguments *arguments) {
    if (arguments->man_page)
        show_man_page();
    else if (arguments->completion)
        show_completion();
    else if (arguments->values[OPTION_VERSION])
        puts("runnel " RUNNEL_VERSION);
    else if (arguments->values[OPTION_HELP])
        show_help(arguments->command);
    else if (arguments->command == COMMAND_HELP)
        show_help(arguments->operand ? command_named(arguments->operand) : COMMAND_NONE);
    else
        return run_command(arguments);
    return runnel_status_exit(RUNNEL_OK);
}

int main(int argc, char **argv) {
    cli_arguments arguments;
    if (!parse_arguments(argc, argv, &arguments))
        return runnel_status_exit(RUNNEL_E_USAGE);
    int code = run(&arguments);
    forget_letters();
    return close_standard_output() ? code : runnel_status_exit(RUNNEL_E_IO);
}
