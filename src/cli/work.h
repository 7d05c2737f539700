/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What the commands that work on a job have in common: tables, job, something made from them, and
 * that written as text or JSON.
 */
#ifndef RUNNEL_CLI_WORK_H
#define RUNNEL_CLI_WORK_H

#include "cli/parse.h"

/** What one of them does. `made` is what is made, empty at first. */
typedef struct cli_work {
    /** RUNNEL_NOT_POSSIBLE with something made is an answer, too. */
    runnel_status (*make)(const runnel_job *job, const runnel_tables *tables,
                          runnel_problems *problems, void *made);
    runnel_status (*text)(const runnel_job *job, const void *made, FILE *out);
    runnel_status (*json)(const runnel_job *job, const void *made, FILE *out);
    runnel_status (*ics)(const runnel_job *job, const void *made, FILE *out); /**< or NULL */
    runnel_status (*draw)(const runnel_job *job, const void *made, const runnel_paper *paper,
                          FILE *out); /**< or NULL */
    void (*clear)(void *made);
    void *made;
} cli_work;

/** Reads --written and --revision. */
runnel_status read_issue(const cli_arguments *arguments, runnel_problems *problems,
                         runnel_calendar_issue *issue);

/** The letters of all jobs of a run, with the store of their shapes; borrowed. */
const runnel_letters *shared_letters(void);
/** Frees that store. */
void forget_letters(void);

/** Whether the output is drawn, not written. */
bool is_drawn(const cli_arguments *arguments);

/** Reads --paper, --written and the kind of the drawing. */
runnel_status read_paper(const cli_arguments *arguments, runnel_problems *problems,
                         runnel_paper *paper);

/** The zone of a shop's clock. Zero-initialised is none; its changes are cleared by the owner. */
typedef struct cli_zone {
    runnel_zone_changes changes;
    runnel_zone zone;
} cli_zone;

/** Reads the zone that jobs name, for their days and generously around them; none when they name
 * none, or no day. What is wrong is told. */
runnel_status read_zone(const cli_arguments *arguments, const runnel_job *jobs, size_t count,
                        runnel_problems *problems, cli_zone *zone);
/** NULL when there is none. */
const runnel_zone *zone_of(const cli_zone *zone);

/** Does it. @return the exit code */
int run_work(const cli_arguments *arguments, const cli_work *work);

#endif
