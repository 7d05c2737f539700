/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/commands.h"
#include "cli/draft.h"
#include "cli/output.h"

#include <stdio.h>
#include <string.h>

/** Most days off that may be given, and the longest list of them. */
enum { MOST_DAYS_OFF = 400, LONGEST_LIST = 16 * MOST_DAYS_OFF };

/* All that one run works with. */
typedef struct timeline_run {
    runnel_tables tables;
    runnel_job job;
    runnel_timing_order order;
    runnel_date days_off[MOST_DAYS_OFF];
    runnel_timing timing;
} timeline_run;

static runnel_status write_text(const void *what, FILE *out) {
    const timeline_run *run = what;
    return runnel_write_timeline_text(&run->job, &run->order, &run->timing, out);
}

static runnel_status write_json(const void *what, FILE *out) {
    const timeline_run *run = what;
    return runnel_write_timeline_json(&run->job, &run->order, &run->timing, out);
}

static runnel_place place_of(const char *option) {
    return (runnel_place){.file = "command line", .field = option};
}

static runnel_status take_date(const char *text, const char *option, runnel_problems *problems,
                               runnel_date *date) {
    runnel_place place = place_of(option);
    return text ? runnel_date_parse(text, problems, &place, date) : RUNNEL_OK;
}

static runnel_status take_days_off(const char *text, runnel_problems *problems, timeline_run *run) {
    runnel_place place = place_of("--days-off");
    char list[LONGEST_LIST];
    runnel_status worst = RUNNEL_OK;
    if (!text)
        return RUNNEL_OK;
    if (strlen(text) >= sizeof list)
        return runnel_problems_add(problems, RUNNEL_E_RANGE, &place, "the list is too long");
    memcpy(list, text, strlen(text) + 1);
    for (char *item = strtok(list, ","); item; item = strtok(NULL, ",")) {
        if (run->order.off_count == MOST_DAYS_OFF)
            return runnel_problems_add(problems, RUNNEL_E_RANGE, &place, "there may be %d days off",
                                       MOST_DAYS_OFF);
        runnel_status status =
            runnel_date_parse(item, problems, &place, &run->days_off[run->order.off_count]);
        run->order.off_count += !status;
        worst = worst ? worst : status;
    }
    run->order.days_off = run->days_off;
    return worst;
}

/* All options are looked at, so that all problems are told. */
static runnel_status take_order(const cli_arguments *arguments, timeline_run *run,
                                runnel_problems *problems) {
    runnel_timing_order *order = &run->order;
    runnel_place place = place_of("--hours");
    order->hours =
        arguments->values[OPTION_HOURS] ? arguments->values[OPTION_HOURS] : RUNNEL_DEFAULT_HOURS;
    take_date(arguments->values[OPTION_START], "--start", problems, &order->start);
    take_date(arguments->values[OPTION_READY_BY], "--ready-by", problems, &order->ready_by);
    runnel_week_parse(order->hours, problems, &place, &order->week);
    take_days_off(arguments->values[OPTION_DAYS_OFF], problems, run);
    runnel_status status = runnel_problems_status(problems);
    if (!status && order->start.month && order->ready_by.month &&
        runnel_date_days_between(order->start, order->ready_by) < 0) {
        place = place_of("--ready-by");
        status = runnel_problems_add(
            problems, RUNNEL_E_CONFLICT, &place, "'%s' is before the start '%s'",
            arguments->values[OPTION_READY_BY], arguments->values[OPTION_START]);
    }
    return status;
}

static runnel_status work(const cli_arguments *arguments, timeline_run *run) {
    const char *format = arguments->values[OPTION_FORMAT];
    runnel_problems problems;
    runnel_problems_init(&problems);
    runnel_status status = draft_job(arguments, &run->tables, &problems, &run->job);
    runnel_status taken =
        status == RUNNEL_E_NO_MEMORY ? status : take_order(arguments, run, &problems);
    if (!status)
        status = taken;
    if (!status)
        status = runnel_timing_make(&run->job, &run->tables, runnel_lettering_set, &problems,
                                    &run->order, &run->timing);
    if (!status || status == RUNNEL_NOT_POSSIBLE) {
        runnel_status written =
            write_output(arguments->values[OPTION_OUTPUT],
                         format && !strcmp(format, "json") ? write_json : write_text, run);
        status = written ? written : status;
    } else {
        show_problems(&problems, status);
    }
    runnel_problems_clear(&problems);
    return status;
}

int run_timeline(const cli_arguments *arguments) {
    timeline_run run = {.order = {.off_count = 0}};
    if (!arguments->values[OPTION_START] && !arguments->values[OPTION_READY_BY]) {
        misuse(COMMAND_TIMELINE, "'--start' or '--ready-by' is needed, a day such as '2026-11-25'");
        return runnel_status_exit(RUNNEL_E_USAGE);
    }
    runnel_job_init(&run.job);
    runnel_status status = read_tables(arguments, &run.tables);
    if (!status)
        status = work(arguments, &run);
    runnel_timing_clear(&run.timing);
    runnel_job_clear(&run.job);
    runnel_tables_clear(&run.tables);
    return runnel_status_exit(status);
}
