/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Plans for tests, from job files over the tables of job_tables.h, and their warnings.
 */
#ifndef RUNNEL_TESTS_PLANS_H
#define RUNNEL_TESTS_PLANS_H

#include "compare.h"
#include "job_tables.h"
#include "runnel/plan.h"
#include "runnel/read.h"

#include <string.h>

/** A job and what came of it. */
typedef struct planned {
    runnel_job job;
    runnel_problems problems; /**< of the plan; those of the job end the test */
    runnel_plan plan;
    runnel_status status;
} planned;

/** Reads a job that must be right, and plans it; the caller clears it. */
static inline void plan_job(const char *yaml, planned *made) {
    memset(made, 0, sizeof *made);
    runnel_job_init(&made->job);
    runnel_status status = runnel_job_read_yaml(yaml, strlen(yaml), "job.yaml", job_tables(),
                                                &made->problems, &made->job);
    ck_assert_msg(!status, "%s", made->problems.count ? made->problems.items[0].text : "no reason");
    made->status = runnel_plan_make(&made->job, job_tables(), NULL, &made->problems, &made->plan);
}

static inline void planned_clear(planned *made) {
    runnel_plan_clear(&made->plan);
    runnel_problems_clear(&made->problems);
    runnel_job_clear(&made->job);
}

/** How many warnings have a code. */
static inline size_t warning_count(const planned *made, const char *code) {
    size_t count = 0;
    for (size_t i = 0; i < made->plan.warning_count; i++)
        count += strcmp(made->plan.warnings[i].code, code) == 0;
    return count;
}

/** Fails unless exactly one warning has the code; its place and text must be as given. */
static inline void warns(const planned *made, const char *code, const char *where,
                         const char *text) {
    ck_assert_msg(warning_count(made, code) == 1, "%zu warnings '%s'", warning_count(made, code),
                  code);
    for (size_t i = 0; i < made->plan.warning_count; i++) {
        if (strcmp(made->plan.warnings[i].code, code) != 0)
            continue;
        ck_assert_str_eq(made->plan.warnings[i].where, where);
        ck_assert_str_eq(made->plan.warnings[i].text, text);
    }
}

#endif
