/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/work.h"

#include "cli/commands.h"
#include "cli/draft.h"
#include "cli/output.h"

#include <string.h>

bool is_drawn(const cli_arguments *arguments) {
    const char *format = arguments->values[OPTION_FORMAT];
    return format && word_in(DRAWN_WORDS, format) >= 0;
}

/* ---- Letters --------------------------------------------------------------------------------- */

static runnel_letters letters = {runnel_lettering_set, NULL};

const runnel_letters *shared_letters(void) {
    /* without memory for a store it goes on without one */
    if (!letters.store && runnel_store_new(RUNNEL_STORE_USUAL_BYTES, &letters.store))
        letters.store = NULL;
    return &letters;
}

void forget_letters(void) {
    runnel_store_free(letters.store);
    letters.store = NULL;
}

/* ---- Work ------------------------------------------------------------------------------------ */

/* What the writers get. */
typedef struct worked {
    const runnel_job *job;
    const void *made;
    runnel_status (*write)(const runnel_job *job, const void *made, FILE *out);
    const cli_work *work;
    runnel_paper paper;
} worked;

static runnel_status write_worked(const void *what, FILE *out) {
    const worked *all = what;
    return all->write(all->job, all->made, out);
}

static runnel_status draw_worked(const void *what, FILE *out) {
    const worked *all = what;
    return all->work->draw(all->job, all->made, &all->paper, out);
}

static runnel_status make(const cli_arguments *arguments, const runnel_tables *tables,
                          const cli_work *work, runnel_job *job, runnel_paper *paper) {
    runnel_problems problems;
    runnel_problems_init(&problems);
    runnel_status sheet = read_paper(arguments, &problems, paper);
    runnel_status status = draft_job(arguments, tables, &problems, job);
    if (!status)
        status = work->make(job, tables, &problems, work->made);
    if (sheet && (!status || status == RUNNEL_NOT_POSSIBLE))
        status = sheet;
    if (status && status != RUNNEL_NOT_POSSIBLE)
        show_problems(&problems, status);
    runnel_problems_clear(&problems);
    return status;
}

int run_work(const cli_arguments *arguments, const cli_work *work) {
    const char *format = arguments->values[OPTION_FORMAT];
    runnel_tables tables = {0};
    runnel_job job;
    runnel_paper paper;
    runnel_job_init(&job);
    runnel_status status = read_tables(arguments, &tables);
    if (!status)
        status = make(arguments, &tables, work, &job, &paper);
    if (!status || status == RUNNEL_NOT_POSSIBLE) {
        worked all = {&job, work->made, work->text, work, paper};
        if (format && !strcmp(format, "json"))
            all.write = work->json;
        else if (format && !strcmp(format, "ics"))
            all.write = work->ics;
        runnel_status written =
            write_output(arguments->values[OPTION_OUTPUT],
                         is_drawn(arguments) ? draw_worked : write_worked, &all);
        status = written ? written : status;
    }
    work->clear(work->made);
    runnel_job_clear(&job);
    runnel_tables_clear(&tables);
    return runnel_status_exit(status);
}

runnel_status read_issue(const cli_arguments *arguments, runnel_problems *problems,
                         runnel_calendar_issue *issue) {
    const char *written = is_drawn(arguments) ? NULL : arguments->values[OPTION_WRITTEN];
    const char *revision = arguments->values[OPTION_REVISION];
    runnel_place place = {.file = "command line", .field = "--written"};
    runnel_status first =
        written ? runnel_date_parse(written, problems, &place, &issue->stamp) : RUNNEL_OK;
    place.field = "--revision";
    runnel_status second = revision ? runnel_count_parse(revision, RUNNEL_CALENDAR_MOST, problems,
                                                         &place, &issue->revision)
                                    : RUNNEL_OK;
    return first ? first : second;
}

runnel_status read_paper(const cli_arguments *arguments, runnel_problems *problems,
                         runnel_paper *paper) {
    const char *size = arguments->values[OPTION_PAPER];
    const char *written = is_drawn(arguments) ? arguments->values[OPTION_WRITTEN] : NULL;
    runnel_place place = {.file = "command line", .field = "--paper"};
    *paper = (runnel_paper){.size = RUNNEL_PAPER_A4};
    if (is_drawn(arguments))
        paper->kind = (runnel_paper_kind)word_in(DRAWN_WORDS, arguments->values[OPTION_FORMAT]);
    runnel_status first =
        size ? runnel_paper_parse(size, problems, &place, &paper->size) : RUNNEL_OK;
    place.field = "--written";
    runnel_status second =
        written ? runnel_date_parse(written, problems, &place, &paper->written) : RUNNEL_OK;
    return first ? first : second;
}

/* ---- Zones ----------------------------------------------------------------------------------- */

/* The days that a zone is needed for, generously. Days that there are not are told elsewhere. */
static bool find_span(const runnel_job *jobs, size_t count, runnel_date *from, runnel_date *to) {
    enum { BEFORE = 2 * 366, AFTER = 4 * 366 };
    bool any = false;
    for (size_t i = 0; i < count; i++) {
        const runnel_job_days *days = &jobs[i].days;
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

runnel_status read_zone(const cli_arguments *arguments, const runnel_job *jobs, size_t count,
                        runnel_problems *problems, cli_zone *zone) {
    runnel_date from = {0, 0, 0}, to = {0, 0, 0};
    const runnel_job *first = NULL;
    for (size_t i = count; i-- > 0;)
        if (jobs[i].days.zone)
            first = &jobs[i];
    if (!first || !find_span(jobs, count, &from, &to))
        return RUNNEL_OK;
    bool by_option = arguments->values[OPTION_ZONE];
    runnel_place place = {.file = by_option ? "command line" : first->file,
                          .field = by_option ? "--zone" : "days.zone"};
    runnel_status status =
        runnel_zone_read(first->days.zone, from, to, problems, &place, &zone->changes);
    zone->zone = (runnel_zone){zone->changes.items, zone->changes.count};
    return status;
}

const runnel_zone *zone_of(const cli_zone *zone) {
    return zone->zone.count ? &zone->zone : NULL;
}
