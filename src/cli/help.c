/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/commands.h"

#include <stdio.h>
#include <string.h>

enum { COLUMNS = 78, HELP_COLUMN = 29 };

/* Bytes of the word at the start; what stands in quotes is one word. */
static size_t word_length(const char *text) {
    bool quoted = *text == '\'' || !strncmp(text, "('", 2);
    size_t length = quoted ? strcspn(text, "'") + 1 : 0;
    if (quoted)
        length += strcspn(text + length, "'");
    return length + strcspn(text + length, " ");
}

/* Prints words in lines that begin at `indent`; the first line is at `column` already. */
static void wrap(const char *text, size_t indent, size_t column) {
    size_t at = column;
    while (*text) {
        size_t length = word_length(text);
        if (at > indent && at + 1 + length > COLUMNS) {
            putchar('\n');
            at = 0;
        }
        for (; at < indent; at++)
            putchar(' ');
        if (at > indent) {
            putchar(' ');
            at++;
        }
        printf("%.*s", (int)length, text);
        at += length;
        text += length + (text[length] == ' ');
    }
    putchar('\n');
}

static void show_option(const cli_option *option) {
    char left[60], text[OPTION_HELP_SIZE];
    int width = option->letter
                    ? snprintf(left, sizeof left, "  -%c, --%s", option->letter, option->name)
                    : snprintf(left, sizeof left, "  --%s", option->name);
    if (option->value)
        width += snprintf(left + width, sizeof left - (size_t)width, " %s", option->value);
    fputs(left, stdout);
    if (width >= HELP_COLUMN - 1) {
        putchar('\n');
        width = 0;
    }
    wrap(option_help(option, text), HELP_COLUMN, (size_t)width);
}

static void show_options(command_id command) {
    for (int group = 0; group < GROUP_COUNT; group++) {
        bool any = false;
        for (int i = 0; i < OPTION_IDS; i++) {
            const cli_option *option = option_row((option_id)i);
            if (!(option->commands & TAKES(command)) || option->group != (option_group)group)
                continue;
            if (!any)
                printf("\n%s:\n", option_group_title((option_group)group));
            any = true;
            show_option(option);
        }
    }
}

static void show_command(command_id id) {
    const cli_command *command = command_row(id);
    printf("Usage: runnel %s [OPTION]...%s%s\n", command->name, *command->operands ? " " : "",
           command->operands);
    const bool shaped = command->operand == OPERAND_JOB || command->operand == OPERAND_JOBS;
    if (shaped)
        printf("       runnel %s --text TEXT --font FONT --cap-height LENGTH\n"
               "           --cutter CUTTER\n"
               "       runnel %s --outline SHAPE --cutter CUTTER [--depth-limit LENGTH]\n"
               "       runnel %s --path SHAPE --cutter CUTTER --depth LENGTH\n",
               command->name, command->name, command->name);
    if (command->operand == OPERAND_BOARD)
        printf("       runnel %s --size SIZE [OPTION]...\n", command->name);
    putchar('\n');
    wrap(command->about, 0, 0);
    show_options(id);
    if (shaped || command->operand == OPERAND_BOARD) {
        putchar('\n');
        wrap("A value with blanks stands in quotes: --cutter 'v 60 deg'. Beside a job file only "
             "those options stand that are not about one cavity, its piece and its colour; they "
             "go before what the file says.",
             0, 0);
    }
}

static void show_all(void) {
    puts("Usage: runnel COMMAND [OPTION]...\n");
    wrap("Sizes the resin for carved, resin-inlaid boards and signs: what the cavities hold, what "
         "has to be mixed, and what goes on the scale; and the sealer below it, the levelling and "
         "the oil after it.",
         0, 0);
    puts("\nCommands:");
    for (int i = COMMAND_NONE + 1; i < COMMAND_COUNT; i++) {
        const cli_command *command = command_row((command_id)i);
        int width = printf("  runnel %s%s%s", command->name, *command->operands ? " " : "",
                           command->operands);
        if (width > 43) {
            putchar('\n');
            width = 0;
        }
        wrap(command->summary, 44, (size_t)width);
    }
    puts("\nOptions in place of a command:");
    puts("  -h, --help           show this help");
    puts("  --version            show the version");
    puts("  --man-page           show the manual page, for man");
    puts("  --bash-completion    show the completions, for bash");
    puts("\n'runnel COMMAND --help' shows the options of a command. For a first try:\n");
    puts("  runnel size --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg'");
}

void show_help(command_id command) {
    if (command == COMMAND_NONE)
        show_all();
    else
        show_command(command);
}
