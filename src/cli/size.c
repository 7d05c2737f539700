/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/commands.h"

#include "cli/draft.h"
#include "cli/output.h"
#include "cli/work.h"

#include <stdlib.h>
#include <string.h>

runnel_status read_tables(const cli_arguments *arguments, runnel_tables *tables) {
    runnel_problems problems;
    runnel_problems_init(&problems);
    const runnel_table_places places = {.installed = RUNNEL_DATA_DIR,
                                        .xdg_data_home = getenv("XDG_DATA_HOME"),
                                        .home = getenv("HOME"),
                                        .environment = getenv("RUNNEL_DATA"),
                                        .option = arguments->values[OPTION_DATA]};
    runnel_status status = runnel_tables_read_places(&places, &problems, tables);
    if (status)
        show_problems(&problems, status);
    runnel_problems_clear(&problems);
    return status;
}

/* What the writers get. */
typedef struct sized {
    runnel_job job;
    runnel_plan plan;
    runnel_look look; /* of what is drawn only */
    runnel_paper paper;
    bool is_card;
    runnel_status (*write)(const runnel_job *job, const runnel_plan *plan, FILE *out);
} sized;

static runnel_status write_sized(const void *what, FILE *out) {
    const sized *all = what;
    return all->write(&all->job, &all->plan, out);
}

static runnel_status draw_sized(const void *what, FILE *out) {
    const sized *all = what;
    return all->is_card ? runnel_draw_card(&all->job, &all->plan, &all->look, &all->paper, out)
                        : runnel_draw_size(&all->job, &all->plan, &all->look, &all->paper, out);
}

static runnel_status write_all(const cli_arguments *arguments, sized *all) {
    const char *format = arguments->values[OPTION_FORMAT];
    all->write = all->is_card ? runnel_write_card_text : runnel_write_size_text;
    if (format && !strcmp(format, "json"))
        all->write = runnel_write_json;
    return write_output(arguments->values[OPTION_OUTPUT],
                        is_drawn(arguments) ? draw_sized : write_sized, all);
}

/* From the arguments to the plan. A plan whose answer is no is a plan all the same. */
static runnel_status make(const cli_arguments *arguments, const runnel_tables *tables, sized *all) {
    runnel_problems problems;
    runnel_problems_init(&problems);
    runnel_status sheet = read_paper(arguments, &problems, &all->paper), look = RUNNEL_OK;
    runnel_status status = draft_job(arguments, tables, &problems, &all->job);
    status = status ? status : sheet;
    if (!status)
        status = runnel_plan_make(&all->job, tables, shared_letters(), &problems, &all->plan);
    if (is_drawn(arguments) && (!status || status == RUNNEL_NOT_POSSIBLE))
        look = runnel_look_make(&all->job, tables, shared_letters(), &problems, &all->plan,
                                all->is_card ? RUNNEL_LOOK_FACE : RUNNEL_LOOK_ALL, &all->look);
    status = look ? look : status;
    if (status && status != RUNNEL_NOT_POSSIBLE)
        show_problems(&problems, status);
    runnel_problems_clear(&problems);
    return status;
}

int run_size_or_card(const cli_arguments *arguments) {
    runnel_tables tables = {0};
    sized all = {.is_card = arguments->command == COMMAND_CARD};
    runnel_job_init(&all.job);
    runnel_status status = read_tables(arguments, &tables);
    if (!status)
        status = make(arguments, &tables, &all);
    if (!status || status == RUNNEL_NOT_POSSIBLE) {
        runnel_status written = write_all(arguments, &all);
        status = written ? written : status;
    }
    runnel_look_clear(&all.look);
    runnel_plan_clear(&all.plan);
    runnel_job_clear(&all.job);
    runnel_tables_clear(&tables);
    return runnel_status_exit(status);
}
