/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/commands.h"
#include "cli/draft.h"
#include "cli/output.h"
#include "cli/work.h"

#include <string.h>

/* All that one run works with. */
typedef struct timeline_run {
    const cli_arguments *arguments;
    runnel_tables tables;
    runnel_problems problems;
    runnel_job jobs[CLI_OPERANDS];
    size_t count;
    cli_zone zone;
    runnel_calendar_issue issue;
    runnel_paper paper;
    runnel_timings timings;
} timeline_run;

static runnel_status write_text(const void *what, FILE *out) {
    const timeline_run *run = what;
    return runnel_write_timeline_text(run->jobs, &run->timings, out);
}

static runnel_status write_json(const void *what, FILE *out) {
    const timeline_run *run = what;
    return runnel_write_timeline_json(run->jobs, &run->timings, out);
}

static runnel_status write_ics(const void *what, FILE *out) {
    const timeline_run *run = what;
    return runnel_write_timeline_ics(run->jobs, &run->timings, &run->issue, out);
}

static runnel_status draw(const void *what, FILE *out) {
    const timeline_run *run = what;
    return runnel_draw_timeline(run->jobs, &run->timings, &run->paper, out);
}

/* All jobs are read, so that all problems are told. */
static runnel_status read_jobs(timeline_run *run) {
    const size_t files = run->arguments->operand_count;
    runnel_status worst = RUNNEL_OK;
    for (size_t i = 0; i < (files ? files : 1); i++) {
        cli_arguments one = *run->arguments;
        one.operand = files ? run->arguments->operands[i] : NULL;
        runnel_job_init(&run->jobs[run->count]);
        runnel_status status =
            draft_job(&one, &run->tables, &run->problems, &run->jobs[run->count++]);
        if (status == RUNNEL_E_NO_MEMORY)
            return status;
        worst = worst ? worst : status;
    }
    return worst;
}

static runnel_status make(timeline_run *run) {
    runnel_status status = read_jobs(run);
    runnel_status issue = status == RUNNEL_E_NO_MEMORY
                              ? status
                              : read_issue(run->arguments, &run->problems, &run->issue);
    runnel_status zone =
        status ? status
               : read_zone(run->arguments, run->jobs, run->count, &run->problems, &run->zone);
    runnel_status paper = status == RUNNEL_E_NO_MEMORY
                              ? status
                              : read_paper(run->arguments, &run->problems, &run->paper);
    if (status || issue || zone || paper)
        return status ? status : issue ? issue : zone ? zone : paper;
    return runnel_timings_make(run->jobs, run->count, &run->tables, shared_letters(),
                               &run->problems, zone_of(&run->zone), &run->timings);
}

int run_timeline(const cli_arguments *arguments) {
    const char *format = arguments->values[OPTION_FORMAT];
    static timeline_run all; /* too much for a stack */
    timeline_run *run = &all;
    run->arguments = arguments;
    runnel_problems_init(&run->problems);
    runnel_status status = read_tables(arguments, &run->tables);
    if (!status) {
        status = make(run);
        if (!status || status == RUNNEL_NOT_POSSIBLE) {
            runnel_status written = write_output(arguments->values[OPTION_OUTPUT],
                                                 !format                   ? write_text
                                                 : is_drawn(arguments)     ? draw
                                                 : !strcmp(format, "json") ? write_json
                                                 : !strcmp(format, "ics")  ? write_ics
                                                                           : write_text,
                                                 run);
            status = written ? written : status;
        } else {
            show_problems(&run->problems, status);
        }
    }
    runnel_timings_clear(&run->timings);
    runnel_zone_changes_clear(&run->zone.changes);
    for (size_t i = 0; i < run->count; i++)
        runnel_job_clear(&run->jobs[i]);
    runnel_problems_clear(&run->problems);
    runnel_tables_clear(&run->tables);
    return runnel_status_exit(status);
}
