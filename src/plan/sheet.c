/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/sheet.h"

#include "plan/side.h"

#include <string.h>

void runnel_sheet_clear(runnel_sheet *sheet) {
    if (!sheet)
        return;
    runnel_plan_clear(&sheet->plan);
    runnel_sealing_clear(&sheet->sealing);
    runnel_levelling_clear(&sheet->levelling);
    runnel_oiling_clear(&sheet->oiling);
    memset(sheet, 0, sizeof *sheet);
}

static bool has_warning(const runnel_plan *plan, const runnel_warning *sought) {
    for (size_t i = 0; i < plan->warning_count; i++)
        if (!strcmp(plan->warnings[i].code, sought->code) &&
            !strcmp(plan->warnings[i].where, sought->where) &&
            !strcmp(plan->warnings[i].text, sought->text))
            return true;
    return false;
}

/* Adds the warnings of a part that are not there yet. */
static runnel_status join(runnel_making *making, const runnel_plan *part) {
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < part->warning_count && !status; i++) {
        const runnel_warning *warning = &part->warnings[i];
        if (!has_warning(making->plan, warning))
            status = runnel_warn(making, warning->code, warning->where, "%s", warning->text);
    }
    return status;
}

/* What a part came to: its warnings are joined, and a "no" is noted. */
static runnel_status take(runnel_making *making, runnel_status status, const runnel_plan *part) {
    if (status && status != RUNNEL_NOT_POSSIBLE)
        return status;
    making->impossible = making->impossible || status;
    return join(making, part);
}

runnel_status runnel_sheet_make(const runnel_job *job, const runnel_tables *tables,
                                runnel_letter_function letter, runnel_problems *problems,
                                runnel_sheet *sheet) {
    runnel_sheet made = {.sealed = job->sealed || runnel_side_names_sealer(&job->sealer),
                         .oiled = job->oil.name != NULL};
    runnel_making making = {
        .job = job, .tables = tables, .letter = letter, .problems = problems, .plan = &made.plan};
    runnel_status status = runnel_plan_make(job, tables, letter, problems, &made.plan);
    making.impossible = status == RUNNEL_NOT_POSSIBLE;
    if (making.impossible)
        status = RUNNEL_OK;
    if (!status && made.sealed)
        status = take(&making, runnel_sealing_make(job, tables, letter, problems, &made.sealing),
                      &made.sealing.plan);
    if (!status)
        status =
            take(&making, runnel_levelling_make(job, tables, letter, problems, &made.levelling),
                 &made.levelling.plan);
    if (!status && made.oiled)
        status = take(&making, runnel_oiling_make(job, tables, letter, problems, &made.oiling),
                      &made.oiling.plan);
    if (status) {
        runnel_sheet_clear(&made);
        return status;
    }
    *sheet = made;
    return making.impossible ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK;
}
