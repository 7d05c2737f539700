/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/parse.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

int misuse(command_id command, const char *format, ...) {
    va_list arguments;
    fputs("runnel: ", stderr);
    va_start(arguments, format);
    vfprintf(stderr, format, arguments);
    va_end(arguments);
    if (command == COMMAND_NONE)
        fputs("\nTry 'runnel --help'.\n", stderr);
    else
        fprintf(stderr, "\nTry 'runnel %s --help'.\n", command_row(command)->name);
    return runnel_status_exit(RUNNEL_E_USAGE);
}

/* ---- Options ----------------------------------------------------------------------------------
 */

/* Tells of a name that is none of `names`, with the nearest of them. */
static bool refuse(command_id command, const char *what, const char *dashes, const char *name,
                   size_t length, const char *const *names, size_t count) {
    enum { LONGEST = 60 };
    char word[LONGEST + 1];
    snprintf(word, sizeof word, "%.*s", (int)(length < LONGEST ? length : LONGEST), name);
    const char *nearest = runnel_nearest(word, names, count);
    /* A name cut short was hardly meant for another short one. */
    for (size_t i = count; i-- > 0 && *word;)
        if (names[i] && !strncmp(names[i], word, strlen(word)))
            nearest = names[i];
    if (nearest)
        misuse(command, "%s '%s%s' is not known; the nearest is '%s%s'", what, dashes, word, dashes,
               nearest);
    else
        misuse(command, "%s '%s%s' is not known", what, dashes, word);
    return false;
}

static bool takes(command_id command, option_id id) {
    return option_row(id)->commands & TAKES(command);
}

static bool refuse_option(command_id command, const char *name, size_t length) {
    const char *names[OPTION_IDS];
    size_t count = 0;
    for (int i = 0; i < OPTION_IDS; i++)
        if (takes(command, (option_id)i))
            names[count++] = option_row((option_id)i)->name;
    return refuse(command, "the option", "--", name, length, names, count);
}

/* The option of a name; OPTION_IDS when there is none. */
static option_id option_named(const char *name, size_t length) {
    int id = 0;
    while (id < OPTION_IDS && (strlen(option_row((option_id)id)->name) != length ||
                               strncmp(option_row((option_id)id)->name, name, length) != 0))
        id++;
    return (option_id)id;
}

static option_id option_lettered(char letter) {
    int id = 0;
    while (id < OPTION_IDS && option_row((option_id)id)->letter != letter)
        id++;
    return (option_id)id;
}

/* Whether a word is an option that is known, so that it was hardly meant as a value. */
static bool is_option(const char *word) {
    return !strncmp(word, "--", 2) && word[2] &&
           option_named(word + 2, strcspn(word + 2, "=")) < OPTION_IDS;
}

/* Words that are still to be read. */
typedef struct cli_words {
    char **at, **end;
} cli_words;

/* Tells of an option of other commands; it may be the beginning of one of this. */
static bool refuse_of(command_id command, const char *name) {
    int id = 0;
    while (id < OPTION_IDS && (!takes(command, (option_id)id) ||
                               strncmp(option_row((option_id)id)->name, name, strlen(name)) != 0))
        id++;
    const char *meant = id < OPTION_IDS ? option_row((option_id)id)->name : NULL;
    misuse(command, "'--%s' is no option of 'runnel %s'%s%s%s", name, command_row(command)->name,
           meant ? "; the nearest is '--" : "", meant ? meant : "", meant ? "'" : "");
    return false;
}

/* Takes the value of an option: behind the sign '=' or as the next word. */
static bool take_value(cli_arguments *arguments, option_id id, const char *inside,
                       cli_words *rest) {
    const cli_option *option = option_row(id);
    command_id command = arguments->command;
    if (!takes(command, id))
        return refuse_of(command, option->name);
    if (arguments->values[id]) {
        misuse(command, "'--%s' is given twice", option->name);
        return false;
    }
    if (!option->value && inside) {
        misuse(command, "'--%s' takes no value", option->name);
        return false;
    }
    if (!option->value) {
        arguments->values[id] = "";
        return true;
    }
    if (!inside && (rest->at == rest->end || is_option(*rest->at))) {
        misuse(command, "'--%s' needs a value (%s)", option->name, option->value);
        return false;
    }
    arguments->values[id] = inside ? inside : *rest->at++;
    return true;
}

static bool take_option(cli_arguments *arguments, const char *word, cli_words *rest) {
    if (word[1] == '-') {
        size_t length = strcspn(word + 2, "=");
        option_id id = option_named(word + 2, length);
        if (id == OPTION_IDS)
            return refuse_option(arguments->command, word + 2, length);
        return take_value(arguments, id, word[2 + length] ? word + 3 + length : NULL, rest);
    }
    option_id id = option_lettered(word[1]);
    if (id == OPTION_IDS) {
        misuse(arguments->command, "the option '%.60s' is not known", word);
        return false;
    }
    return take_value(arguments, id, word[2] ? word + 2 : NULL, rest);
}

static bool take_operand(cli_arguments *arguments, const char *word) {
    bool several = command_row(arguments->command)->operand == OPERAND_JOBS;
    if (arguments->operand_count == (several ? CLI_OPERANDS : 1)) {
        misuse(arguments->command, "'%.60s' is one too many", word);
        return false;
    }
    arguments->operands[arguments->operand_count++] = word;
    arguments->operand = arguments->operands[0];
    return true;
}

static bool take_words(cli_arguments *arguments, cli_words *rest) {
    bool options = true;
    while (rest->at < rest->end) {
        const char *word = *rest->at++;
        if (options && !strcmp(word, "--"))
            options = false;
        else if (options && word[0] == '-' && word[1]) {
            if (!take_option(arguments, word, rest))
                return false;
        } else if (!take_operand(arguments, word)) {
            return false;
        }
    }
    return true;
}

/* ---- What goes together -----------------------------------------------------------------------
 */

/* Beside a job file only what is not about one cavity and its piece. */
static bool check_over_file(const cli_arguments *arguments) {
    for (int i = 0; i < OPTION_IDS; i++) {
        const cli_option *option = option_row((option_id)i);
        if (!arguments->values[i] || option->over_file)
            continue;
        misuse(arguments->command,
               "'--%s' is for one cavity without a job file; change '%.60s' in its place",
               option->name, arguments->operand);
        return false;
    }
    return true;
}

bool has_shape(const cli_arguments *arguments) {
    const char *const *values = arguments->values;
    return values[OPTION_TEXT] || values[OPTION_OUTLINE] || values[OPTION_PATH] ||
           values[OPTION_MEASURED];
}

static bool check_shape(const cli_arguments *arguments) {
    if (arguments->operand)
        return check_over_file(arguments);
    if (!has_shape(arguments))
        misuse(arguments->command,
               "a job file is needed, or one of '--text', '--outline', '--path' and '--measured'");
    return has_shape(arguments);
}

static bool check_board(const cli_arguments *arguments) {
    if (arguments->operand)
        return check_over_file(arguments);
    if (!arguments->values[OPTION_SIZE])
        misuse(arguments->command, "a job file is needed, or the '--size' of a board");
    return arguments->values[OPTION_SIZE];
}

/* "text, json or csv" */
static const char *enumerate(const char *words, char *buffer, size_t size) {
    size_t used = 0;
    for (const char *at = words; *at && used < size;) {
        size_t length = strcspn(at, " ");
        const char *rest = at + length + (at[length] == ' ');
        const char *between = at == words ? "" : *rest ? ", " : " or ";
        used += (size_t)snprintf(buffer + used, size - used, "%s%.*s", between, (int)length, at);
        at = rest;
    }
    return buffer;
}

/* The format that the name of a file ends in, of those that there are; NULL for another end. */
static const char *ending_of(const char *path) {
    const char *dot = path ? strrchr(path, '.') : NULL;
    return dot && word_in(FORMAT_WORDS, dot + 1) >= 0 ? dot + 1 : NULL;
}

static bool check_format(cli_arguments *arguments) {
    char list[60];
    const char *ending = ending_of(arguments->values[OPTION_OUTPUT]);
    const char *formats = command_row(arguments->command)->formats;
    if (!arguments->values[OPTION_FORMAT] && ending && word_in(formats, ending) < 0) {
        misuse(arguments->command, "'%.60s' ends in .%s, but this command writes %s",
               arguments->values[OPTION_OUTPUT], ending, enumerate(formats, list, sizeof list));
        return false;
    }
    if (!arguments->values[OPTION_FORMAT])
        arguments->values[OPTION_FORMAT] = ending;
    const char *format = arguments->values[OPTION_FORMAT];
    if (!format || word_in(formats, format) >= 0)
        return true;
    misuse(arguments->command, "'--format' is %s, not '%.60s'",
           enumerate(formats, list, sizeof list), format);
    return false;
}

static bool check_list(const cli_arguments *arguments) {
    static const char *const lists[] = {"resins", "cutters", "woods", "oils",
                                        "upkeep", "work",    "fonts"};
    if (!arguments->operand) {
        char list[60];
        misuse(COMMAND_LIST, "what is to be listed? %s", enumerate(LIST_WORDS, list, sizeof list));
        return false;
    }
    if (word_in(LIST_WORDS, arguments->operand) >= 0)
        return true;
    return refuse(COMMAND_LIST, "the list", "", arguments->operand, strlen(arguments->operand),
                  lists, sizeof lists / sizeof *lists);
}

static bool check_none(const cli_arguments *arguments) {
    if (!arguments->operand)
        return true;
    misuse(arguments->command, "'%.60s' is one too many", arguments->operand);
    return false;
}

static bool refuse_command(const char *name) {
    const char *names[COMMAND_COUNT] = {NULL};
    for (int i = COMMAND_NONE + 1; i < COMMAND_COUNT; i++)
        names[i] = command_row((command_id)i)->name;
    return refuse(COMMAND_NONE, "the command", "", name, strlen(name), names, COMMAND_COUNT);
}

static bool check_all(cli_arguments *arguments) {
    if (arguments->values[OPTION_HELP] || arguments->values[OPTION_VERSION])
        return true;
    if (arguments->values[OPTION_SEALED] && arguments->values[OPTION_BARE]) {
        misuse(arguments->command, "'--sealed' and '--bare' contradict each other");
        return false;
    }
    switch (command_row(arguments->command)->operand) {
    case OPERAND_JOB:
    case OPERAND_JOBS:
        return check_shape(arguments) && check_format(arguments);
    case OPERAND_LIST:
        return check_list(arguments) && check_format(arguments);
    case OPERAND_COMMAND:
        return !arguments->operand || command_named(arguments->operand) ||
               refuse_command(arguments->operand);
    case OPERAND_BOARD:
        return check_board(arguments) && check_format(arguments);
    case OPERAND_SETTINGS:
        return check_format(arguments);
    case OPERAND_NONE:
        return check_none(arguments) && check_format(arguments);
    }
    return true;
}

static bool refuse_no_command(void) {
    char names[200] = "", list[240];
    for (int i = COMMAND_NONE + 1; i < COMMAND_COUNT; i++) {
        size_t used = strlen(names);
        snprintf(names + used, sizeof names - used, "%s%s", used ? " " : "",
                 command_row((command_id)i)->name);
    }
    misuse(COMMAND_NONE, "a command is needed: %s", enumerate(names, list, sizeof list));
    return false;
}

/* Options that stand alone, in place of a command. */
static bool take_alone(const char *word, cli_arguments *arguments) {
    if (!strcmp(word, "--help") || !strcmp(word, "-h"))
        arguments->values[OPTION_HELP] = "";
    else if (!strcmp(word, "--version"))
        arguments->values[OPTION_VERSION] = "";
    else if (!strcmp(word, "--man-page"))
        arguments->man_page = true;
    else if (!strcmp(word, "--bash-completion"))
        arguments->completion = true;
    else
        return false;
    return true;
}

bool parse_arguments(int count, char **program, cli_arguments *arguments) {
    *arguments = (struct cli_arguments){.command = COMMAND_NONE};
    cli_words rest = {program + (count > 0), program + count};
    if (rest.at == rest.end) {
        return refuse_no_command();
    }
    const char *word = *rest.at++;
    if (take_alone(word, arguments)) {
        if (rest.at == rest.end)
            return true;
        misuse(COMMAND_NONE, "'%s' stands alone", word);
        return false;
    }
    if (word[0] == '-' && word[1]) {
        misuse(COMMAND_NONE, "'%.60s' stands before the command; options come after it", word);
        return false;
    }
    arguments->command = command_named(word);
    if (!arguments->command)
        return refuse_command(word);
    return take_words(arguments, &rest) && check_all(arguments);
}
