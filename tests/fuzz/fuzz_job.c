/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The reader of YAML jobs, with any bytes. It never crashes; a refused job leaves the job untouched
 * and tells at least one problem, each with a line; an accepted job passes the check again and is
 * the same after it.
 */
#include "../job_tables.h"
#include "runnel/read.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void demand(bool holds) {
    if (!holds)
        abort();
}

static void check_refused(runnel_status status, const runnel_problems *problems,
                          const runnel_job *before, const runnel_job *job) {
    demand(!memcmp(before, job, sizeof *job));
    demand(problems->count > 0 && !problems->dropped);
    bool worst_is_told = false;
    for (size_t i = 0; i < problems->count; i++) {
        const runnel_problem *problem = &problems->items[i];
        demand(problem->line > 0 && problem->column > 0);
        demand(problem->text[0] && problem->status != RUNNEL_OK);
        demand(!strcmp(problem->file, "fuzz.yaml"));
        demand(!i || problem->line >= problem[-1].line);
        worst_is_told = worst_is_told || problem->status == status;
    }
    demand(worst_is_told);
}

static void check_accepted(const runnel_problems *problems, runnel_job *job) {
    demand(problems->count == 0);
    demand(job->piece_count > 0 && job->resin.name && job->file);
    for (size_t i = 0; i < job->piece_count; i++) {
        demand(job->pieces[i].name && job->pieces[i].cavity_count > 0);
        for (size_t k = 0; k < job->pieces[i].cavity_count; k++)
            demand(job->pieces[i].cavities[k].name && job->pieces[i].cavities[k].colour);
    }
    runnel_job before;
    memcpy(&before, job, sizeof before);
    runnel_problems again;
    runnel_problems_init(&again);
    demand(runnel_job_check(job, job_tables(), &again) == RUNNEL_OK && !again.count);
    demand(!memcmp(&before, job, sizeof *job));
    runnel_problems_clear(&again);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    runnel_job job, before;
    runnel_problems problems;
    memset(&job, 0, sizeof job); /* padding too, as it is compared */
    runnel_job_init(&job);
    memcpy(&before, &job, sizeof job);
    runnel_problems_init(&problems);
    runnel_status status =
        runnel_job_read_yaml((const char *)data, size, "fuzz.yaml", job_tables(), &problems, &job);
    if (status)
        check_refused(status, &problems, &before, &job);
    else
        check_accepted(&problems, &job);
    runnel_job_clear(&job);
    runnel_problems_clear(&problems);
    return 0;
}
