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

static bool is_untouched(const runnel_job *job) {
    return !job->name && !job->file && !job->resin.name && job->resin_is_default && !job->colours &&
           !job->colour_count && !job->pieces && !job->piece_count;
}

static void check_refused(runnel_status status, const runnel_problems *problems,
                          const runnel_job *job) {
    demand(is_untouched(job));
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
    const runnel_job before = *job;
    runnel_problems again;
    runnel_problems_init(&again);
    demand(runnel_job_check(job, job_tables(), &again) == RUNNEL_OK && !again.count);
    demand(job->pieces == before.pieces && job->piece_count == before.piece_count &&
           job->colours == before.colours && job->colour_count == before.colour_count &&
           job->resin.name == before.resin.name);
    runnel_problems_clear(&again);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    runnel_job job;
    runnel_problems problems;
    runnel_job_init(&job);
    runnel_problems_init(&problems);
    runnel_status status =
        runnel_job_read_yaml((const char *)data, size, "fuzz.yaml", job_tables(), &problems, &job);
    if (status)
        check_refused(status, &problems, &job);
    else
        check_accepted(&problems, &job);
    runnel_job_clear(&job);
    runnel_problems_clear(&problems);
    return 0;
}
