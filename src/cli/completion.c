/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/commands.h"

#include <stdio.h>

/* What a value is completed with, as the shell words behind its case. */
static const char *const completions[] = {
    [VALUES_NONE] = NULL,
    [VALUES_ANY] = ":",
    [VALUES_FILE] = "_runnel_files",
    [VALUES_FOLDER] = "_runnel_folders",
    [VALUES_ALIGN] = ("_runnel_words " ALIGN_WORDS),
    [VALUES_SIZE_TO] = ("_runnel_words " SIZE_TO_WORDS),
    [VALUES_FORMAT] = NULL, /* by the command */
    [VALUES_RESINS] = "_runnel_rows resins",
    [VALUES_CUTTERS] = "_runnel_rows cutters",
    [VALUES_WOODS] = "_runnel_rows woods",
    [VALUES_FONTS] = "_runnel_rows fonts",
    [VALUES_OILS] = "_runnel_rows oils",
    [VALUES_PAPERS] = "_runnel_words a4 letter a5 4x6",
    [VALUES_USES] = "_runnel_words rare weekly daily wet sheltered 'open air'",
    [VALUES_WASHINGS] = "_runnel_words wiped rinsed scrubbed",
    [VALUES_WATER] = "_runnel_words beads 'soaks in'",
    [VALUES_SEALERS] = ("_runnel_words shellac 'shellac with wax' 'sanding sealer' lacquer "
                        "'water-based sealer' 'clear resin'"),
};

static const char head[] =
    "# SPDX-License-Identifier: GPL-3.0-or-later\n"
    "# Completions of runnel for bash, written by 'runnel --bash-completion'.\n"
    "\n"
    "# Offers those of the lines on standard input that begin with the word in work, quoted.\n"
    "_runnel_lines() {\n"
    "    local line start=${cur#[\\'\\\"]}\n"
    "    while IFS= read -r line; do\n"
    "        [[ $line == \"$start\"* ]] || continue\n"
    "        [[ $cur == \"$start\" ]] && line=$(printf %q \"$line\")\n"
    "        COMPREPLY+=(\"$line\")\n"
    "    done\n"
    "}\n"
    "_runnel_words() { _runnel_lines < <(printf '%s\\n' \"$@\"); }\n"
    "_runnel_rows() {\n"
    "    _runnel_lines < <(runnel list \"$1\" --format csv 2>/dev/null |\n"
    "        sed -n '2,$ { s/^\"\\([^\"]*\\)\".*/\\1/p; t\n"
    "            s/,.*//p; }')\n"
    "}\n"
    "_runnel_files() { _runnel_lines < <(compgen -f -- \"$cur\"); }\n"
    "_runnel_folders() { _runnel_lines < <(compgen -d -- \"$cur\"); }\n"
    "\n"
    "_runnel() {\n"
    "    local cur=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n"
    "    local command=${COMP_WORDS[1]}\n"
    "    COMPREPLY=()\n"
    "    if ((COMP_CWORD == 1)); then\n";

/* All commands, or all options of one. */
static void print_names(command_id command) {
    for (int i = COMMAND_NONE + 1; !command && i < COMMAND_COUNT; i++)
        printf(" %s", command_row((command_id)i)->name);
    for (int i = 0; command && i < OPTION_IDS; i++)
        if (option_row((option_id)i)->commands & TAKES(command))
            printf(" --%s", option_row((option_id)i)->name);
}

static void print_values(void) {
    puts("    case $before in");
    for (int i = 0; i < OPTION_IDS; i++) {
        const cli_option *option = option_row((option_id)i);
        const char *completion = completions[option->values];
        if (!completion)
            continue;
        printf("    --%s", option->name);
        if (option->letter)
            printf(" | -%c", option->letter);
        printf(") %s; return ;;\n", completion);
    }
    puts("    --format)\n        case $command in");
    for (int i = COMMAND_NONE + 1; i < COMMAND_COUNT; i++)
        if (command_row((command_id)i)->formats)
            printf("        %s) _runnel_words %s ;;\n", command_row((command_id)i)->name,
                   command_row((command_id)i)->formats);
    puts("        esac\n        return ;;\n    esac");
}

void show_completion(void) {
    fputs(head, stdout);
    printf("        _runnel_words");
    print_names(COMMAND_NONE);
    puts(" --help --version --man-page --bash-completion\n        return\n    fi");
    print_values();
    puts("    case $command in");
    for (int i = COMMAND_NONE + 1; i < COMMAND_COUNT; i++) {
        printf("    %s)\n        if [[ $cur == -* ]]; then _runnel_words",
               command_row((command_id)i)->name);
        print_names((command_id)i);
        puts("");
        const command_operand operand = command_row((command_id)i)->operand;
        if (operand == OPERAND_LIST) {
            puts("        else _runnel_words " LIST_WORDS);
        } else if (operand == OPERAND_NONE) {
            puts("        else COMPREPLY=()");
        } else if (operand == OPERAND_COMMAND) {
            printf("        else _runnel_words");
            print_names(COMMAND_NONE);
            puts("");
        } else {
            puts("        else _runnel_files");
        }
        puts("        fi ;;");
    }
    puts("    esac\n}\ncomplete -o filenames -o noquote -F _runnel runnel 2>/dev/null ||\n"
         "    complete -F _runnel runnel");
}
