/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/commands.h"
#include "cli/output.h"
#include "cli/work.h"

/* The upkeep, and when its calendar is written. */
typedef struct kept {
    const cli_arguments *arguments;
    runnel_upkeeping upkeeping;
    runnel_calendar_issue issue;
} kept;

static runnel_status make(const runnel_job *job, const runnel_tables *tables,
                          runnel_problems *problems, void *made) {
    kept *all = made;
    runnel_status issue = read_issue(all->arguments, problems, &all->issue);
    runnel_status status =
        runnel_upkeeping_make(job, tables, shared_letters(), problems, &all->upkeeping);
    return issue ? issue : status;
}

static runnel_status write_text(const runnel_job *job, const void *made, FILE *out) {
    return runnel_write_upkeep_text(job, &((const kept *)made)->upkeeping, out);
}

static runnel_status write_json(const runnel_job *job, const void *made, FILE *out) {
    return runnel_write_upkeep_json(job, &((const kept *)made)->upkeeping, out);
}

static runnel_status write_ics(const runnel_job *job, const void *made, FILE *out) {
    const kept *all = made;
    return runnel_write_upkeep_ics(job, &all->upkeeping, &all->issue, out);
}

static runnel_status draw(const runnel_job *job, const void *made, const runnel_paper *paper,
                          FILE *out) {
    return runnel_draw_upkeep(job, &((const kept *)made)->upkeeping, paper, out);
}

static void clear(void *made) {
    runnel_upkeeping_clear(&((kept *)made)->upkeeping);
}

int run_upkeep(const cli_arguments *arguments) {
    kept all = {.arguments = arguments};
    return run_work(arguments, &(cli_work){.make = make,
                                           .text = write_text,
                                           .json = write_json,
                                           .ics = write_ics,
                                           .draw = draw,
                                           .clear = clear,
                                           .made = &all});
}
