/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/commands.h"

#include "cli/output.h"

#include <string.h>

/* What the writers get. */
typedef struct listed {
    runnel_list list;
    runnel_status (*write)(const runnel_list *list, FILE *out);
} listed;

static runnel_status write_listed(const void *what, FILE *out) {
    const listed *all = what;
    return all->write(&all->list, out);
}

int run_list(const cli_arguments *arguments) {
    static runnel_status (*const writers[])(const runnel_list *, FILE *) = {
        runnel_write_list_text, runnel_write_list_json, runnel_write_list_csv};
    const char *format = arguments->values[OPTION_FORMAT];
    const char *formats = command_row(COMMAND_LIST)->formats;
    runnel_tables tables = {0};
    runnel_font_entry *fonts = NULL;
    size_t font_count = 0;
    listed all = {.list = {.kind = (runnel_list_kind)word_in(LIST_WORDS, arguments->operand)},
                  .write = writers[format ? word_in(formats, format) : 0]};
    runnel_status status;
    if (all.list.kind == RUNNEL_LIST_FONTS) {
        status = runnel_fonts_list(&fonts, &font_count);
        if (status)
            show_problems(&(runnel_problems){0}, status);
    } else {
        status = read_tables(arguments, &tables);
    }
    all.list.tables = &tables;
    all.list.fonts = fonts;
    all.list.font_count = font_count;
    if (!status)
        status = write_output(arguments->values[OPTION_OUTPUT], write_listed, &all);
    runnel_fonts_free(fonts, font_count);
    runnel_tables_clear(&tables);
    return runnel_status_exit(status);
}
