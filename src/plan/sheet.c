/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/sheet.h"

#include "plan/needs.h"
#include "plan/side.h"
#include "plan/working.h"

#include <math.h>
#include <string.h>

void runnel_sheet_clear(runnel_sheet *sheet) {
    if (!sheet)
        return;
    runnel_plan_clear(&sheet->plan);
    runnel_sealing_clear(&sheet->sealing);
    runnel_levelling_clear(&sheet->levelling);
    runnel_oiling_clear(&sheet->oiling);
    runnel_timings_clear(&sheet->timings);
    runnel_needs_clear(&sheet->needs);
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

/* What a coating takes; the areas are those that oil would go on. A job without sizes has none. */
static runnel_status coat(runnel_making *making, runnel_coating *coating) {
    const runnel_job *job = making->job;
    runnel_making quiet = *making;
    runnel_oiling_plan oiling = {.part_count = 0};
    runnel_coating made = {
        .rule = runnel_tables_upkeep(making->tables, RUNNEL_FINISH_COATING, job->upkeep.use),
        .coats = RUNNEL_COATING_COATS,
        .area_mm2 = NAN,
        .coat_mm3 = NAN,
        .all_mm3 = NAN};
    if (made.rule && made.rule->coats >= 1)
        made.coats = (size_t)made.rule->coats;
    quiet.problems = NULL;
    runnel_status status = runnel_oiling_beside(&quiet, &oiling);
    if (status == RUNNEL_E_NO_MEMORY)
        return status;
    if (!status || status == RUNNEL_NOT_POSSIBLE) {
        made.area_mm2 = 0;
        for (size_t i = 0; i < oiling.part_count; i++) {
            const runnel_oil_area *area = &oiling.parts[i].area;
            made.area_mm2 +=
                (double)oiling.parts[i].count * (area->face_mm2 + area->end_mm2 + area->resin_mm2);
        }
        if (made.rule) { /* ml/m2 are 1e-3 mm */
            made.coat_mm3 = made.area_mm2 * made.rule->coat_ml_per_m2 * 1e-3;
            made.all_mm3 = made.coat_mm3 * (double)made.coats;
        }
    }
    runnel_oiling_clear(&oiling);
    *coating = made;
    return RUNNEL_OK;
}

static runnel_status plan_days(runnel_making *making, const runnel_zone *zone,
                               runnel_sheet *sheet) {
    runnel_timings *timings = &sheet->timings;
    runnel_status status = runnel_timings_beside(making, sheet, zone, timings);
    if (status && status != RUNNEL_NOT_POSSIBLE)
        return status;
    return take(making, status, &timings->items[0].plan);
}

static runnel_status list_needs(const runnel_job *job, runnel_sheet *sheet) {
    runnel_status status = runnel_needs_resin(job, &sheet->plan, &sheet->needs);
    if (!status && sheet->sealed)
        status = runnel_needs_sealer(job, &sheet->sealing, &sheet->needs);
    if (!status && sheet->oiled)
        status = runnel_needs_oil(&sheet->oiling, &sheet->needs);
    if (!status && sheet->coated)
        status = runnel_needs_coating(sheet->coating.all_mm3, &sheet->needs);
    return status;
}

/* All parts but the days; `making` with the sheet's plan. */
static runnel_status make_parts(runnel_making *making, runnel_sheet *sheet) {
    runnel_status status = runnel_plan_make(making->job, making->tables, making->letters,
                                            making->problems, &sheet->plan);
    making->impossible = status == RUNNEL_NOT_POSSIBLE;
    if (making->impossible)
        status = RUNNEL_OK;
    if (!status && sheet->sealed)
        status = take(making, runnel_sealing_beside(making, &sheet->sealing), &sheet->sealing.plan);
    if (!status)
        status = take(making, runnel_levelling_beside(making, &sheet->levelling),
                      &sheet->levelling.plan);
    if (!status && sheet->oiled)
        status = take(making, runnel_oiling_beside(making, &sheet->oiling), &sheet->oiling.plan);
    if (!status && sheet->coated)
        status = coat(making, &sheet->coating);
    return status ? status : list_needs(making->job, sheet);
}

/* With its days or without. */
static runnel_status make_sheet(runnel_making *making, bool timed, const runnel_zone *zone,
                                runnel_sheet *sheet) {
    const runnel_job *job = making->job;
    runnel_sheet made = {.sealed = job->sealed || runnel_side_names_sealer(&job->sealer),
                         .oiled = job->oil.name != NULL,
                         .timed = timed};
    made.coated = !made.oiled && runnel_use_is_outdoors(job->upkeep.use);
    making->plan = &made.plan;
    runnel_status status = make_parts(making, &made);
    if (!status && timed)
        status = plan_days(making, zone, &made);
    if (status) {
        making->plan = NULL;
        runnel_sheet_clear(&made);
        return status;
    }
    *sheet = made;
    making->plan = &sheet->plan;
    return making->impossible ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK;
}

runnel_status runnel_sheet_make(const runnel_job *job, const runnel_tables *tables,
                                const runnel_letters *letters, runnel_problems *problems,
                                const runnel_zone *zone, runnel_sheet *sheet) {
    runnel_making making = {.job = job, .tables = tables, .letters = letters, .problems = problems};
    return make_sheet(&making, job->days.start.month || job->days.ready_by.month, zone, sheet);
}

runnel_status runnel_sheet_parts(const runnel_job *job, const runnel_tables *tables,
                                 const runnel_letters *letters, runnel_problems *problems,
                                 runnel_sheet *sheet) {
    runnel_making making = {.job = job, .tables = tables, .letters = letters, .problems = problems};
    return make_sheet(&making, false, NULL, sheet);
}
