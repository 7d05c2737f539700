/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/commands.h"
#include "cli/draft.h"
#include "cli/output.h"
#include "cli/work.h"

#include <string.h>

/* All that one run works with. */
typedef struct stock_run {
    runnel_tables tables;
    runnel_job job;
    runnel_stock_file file;
    runnel_stocking stocking;
    bool taken_out;
} stock_run;

static runnel_status write_stock(const void *what, FILE *out) {
    const stock_run *run = what;
    return runnel_write_stock_text(&run->job, &run->stocking, run->taken_out, out);
}

static runnel_status write_json(const void *what, FILE *out) {
    const stock_run *run = what;
    return runnel_write_stock_json(&run->job, &run->stocking, run->taken_out, out);
}

/* Job and stock are both looked at, so that all problems of both are told. */
static runnel_status make(const cli_arguments *arguments, stock_run *run,
                          runnel_problems *problems) {
    runnel_status status = draft_job(arguments, &run->tables, problems, &run->job);
    runnel_status read =
        status == RUNNEL_E_NO_MEMORY
            ? status
            : runnel_stock_read(arguments->values[OPTION_STOCK], problems, &run->file);
    if (!status)
        status = read;
    if (!status)
        status = runnel_stocking_make(&run->job, &run->tables, shared_letters(), problems,
                                      &run->file.stock, &run->stocking);
    return status;
}

/* Only what there is enough of is taken out, and only when that was asked for. */
static runnel_status take_out(const cli_arguments *arguments, stock_run *run,
                              runnel_problems *problems) {
    if (!arguments->values[OPTION_TAKE_OUT])
        return RUNNEL_OK;
    runnel_status status = runnel_stock_write(&run->file, run->stocking.answer.left, problems);
    run->taken_out = !status;
    return status;
}

static runnel_status work(const cli_arguments *arguments, stock_run *run) {
    const char *format = arguments->values[OPTION_FORMAT];
    runnel_problems problems;
    runnel_problems_init(&problems);
    runnel_status status = make(arguments, run, &problems);
    if (!status)
        status = take_out(arguments, run, &problems);
    if (!status || status == RUNNEL_NOT_POSSIBLE) {
        runnel_status written =
            write_output(arguments->values[OPTION_OUTPUT],
                         format && !strcmp(format, "json") ? write_json : write_stock, run);
        status = written ? written : status;
    } else {
        show_problems(&problems, status);
    }
    runnel_problems_clear(&problems);
    return status;
}

int run_stock(const cli_arguments *arguments) {
    stock_run run = {.taken_out = false};
    if (!arguments->values[OPTION_STOCK]) {
        misuse(COMMAND_STOCK, "the '--stock' is needed, a file of what is in the bottles");
        return runnel_status_exit(RUNNEL_E_USAGE);
    }
    runnel_job_init(&run.job);
    runnel_status status = read_tables(arguments, &run.tables);
    if (!status)
        status = work(arguments, &run);
    runnel_stocking_clear(&run.stocking);
    runnel_stock_file_clear(&run.file);
    runnel_job_clear(&run.job);
    runnel_tables_clear(&run.tables);
    return runnel_status_exit(status);
}
