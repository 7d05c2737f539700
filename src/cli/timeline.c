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
    runnel_zone_changes changes;
    runnel_zone zone;
    runnel_calendar_issue issue;
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

/* The days that a zone is needed for, generously. Days that there are not are told elsewhere. */
static bool find_span(const timeline_run *run, runnel_date *from, runnel_date *to) {
    enum { BEFORE = 2 * 366, AFTER = 4 * 366 };
    bool any = false;
    for (size_t i = 0; i < run->count; i++) {
        const runnel_job_days *days = &run->jobs[i].days;
        const runnel_date both[] = {days->start, days->ready_by};
        for (size_t k = 0; k < 2; k++) {
            if (!both[k].month)
                continue;
            if (!any || runnel_date_days_between(both[k], *from) > 0)
                *from = both[k];
            if (!any || runnel_date_days_between(*to, both[k]) > 0)
                *to = both[k];
            any = true;
        }
    }
    return any && !runnel_date_add_days(*from, -BEFORE, from) &&
           !runnel_date_add_days(*to, AFTER, to);
}

static runnel_status read_zone(timeline_run *run) {
    runnel_date from = {0, 0, 0}, to = {0, 0, 0};
    const runnel_job *first = NULL;
    for (size_t i = run->count; i-- > 0;)
        if (run->jobs[i].days.zone)
            first = &run->jobs[i];
    if (!first || !find_span(run, &from, &to))
        return RUNNEL_OK;
    bool by_option = run->arguments->values[OPTION_ZONE];
    runnel_place place = {.file = by_option ? "command line" : first->file,
                          .field = by_option ? "--zone" : "days.zone"};
    runnel_status status =
        runnel_zone_read(first->days.zone, from, to, &run->problems, &place, &run->changes);
    run->zone = (runnel_zone){run->changes.items, run->changes.count};
    return status;
}

static runnel_status make(timeline_run *run) {
    runnel_status status = read_jobs(run);
    runnel_status issue = status == RUNNEL_E_NO_MEMORY
                              ? status
                              : read_issue(run->arguments, &run->problems, &run->issue);
    runnel_status zone = status ? status : read_zone(run);
    if (status || issue || zone)
        return status ? status : issue ? issue : zone;
    return runnel_timings_make(run->jobs, run->count, &run->tables, runnel_lettering_set,
                               &run->problems, run->zone.count ? &run->zone : NULL, &run->timings);
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
    runnel_zone_changes_clear(&run->changes);
    for (size_t i = 0; i < run->count; i++)
        runnel_job_clear(&run->jobs[i]);
    runnel_problems_clear(&run->problems);
    runnel_tables_clear(&run->tables);
    return runnel_status_exit(status);
}
