/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/upkeeping.h"

#include "base/memory.h"

#include <string.h>

void runnel_upkeeping_clear(runnel_upkeeping *upkeeping) {
    if (!upkeeping)
        return;
    runnel_oiling_clear(&upkeeping->oiling);
    runnel_free(upkeeping->parts);
    memset(upkeeping, 0, sizeof *upkeeping);
}

/* What the functions below work on. */
typedef struct keeping {
    const runnel_job *job;
    const runnel_tables *tables;
    runnel_problems *problems;
    runnel_upkeeping *upkeeping;
} keeping;

/* Tells a problem of a key of the upkeep, or of its option. @return status */
static runnel_status tell(const keeping *keep, runnel_status status, const char *key,
                          const char *option, const char *text) {
    const char *file = keep->job->file;
    runnel_place place = {.file = file ? file : "command line", .field = file ? key : option};
    return runnel_problems_add(keep->problems, status, &place, "%s", text);
}

static void take_told(const keeping *keep) {
    const runnel_job_upkeep *told = &keep->job->upkeep;
    runnel_upkeeping *upkeeping = keep->upkeeping;
    upkeeping->use = told->use ? told->use : RUNNEL_DEFAULT_USE;
    upkeeping->washing = told->washing ? told->washing : RUNNEL_WASHING_RINSED;
    upkeeping->water = told->water;
    upkeeping->delivered = told->delivered;
    upkeeping->oiled = told->oiled;
    upkeeping->taken = (told->use ? 0u : RUNNEL_TAKEN_USE) |
                       (told->washing ? 0u : RUNNEL_TAKEN_WASHING) |
                       (keep->job->oil.name ? 0u : RUNNEL_TAKEN_KEEP_OIL);
}

/* Both dates that a job tells. */
static runnel_status check_dates(const keeping *keep) {
    const runnel_job_upkeep *told = &keep->job->upkeep;
    if (!told->delivered.year)
        return tell(keep, RUNNEL_E_MISSING, "upkeep.delivered", "--delivered",
                    "the day of delivery is needed, such as '2026-12-24'");
    if (told->oiled.year && runnel_date_days_between(told->delivered, told->oiled) < 0)
        return tell(keep, RUNNEL_E_CONFLICT, "upkeep.oiled", "--oiled",
                    "its owner's last coat is before the delivery");
    return RUNNEL_OK;
}

static runnel_status find_rule(const keeping *keep) {
    runnel_upkeeping *upkeeping = keep->upkeeping;
    const runnel_oil *oil = upkeeping->oiling.oil;
    const bool outdoors = runnel_use_is_outdoors(upkeeping->use);
    const bool coated = outdoors && !keep->job->oil.name;
    runnel_upkeep_finish finish = coated       ? RUNNEL_FINISH_COATING
                                  : oil->dries ? RUNNEL_FINISH_DRYING_OIL
                                               : RUNNEL_FINISH_WET_OIL;
    upkeeping->oil = coated ? NULL : oil;
    upkeeping->rule = runnel_tables_upkeep(keep->tables, finish, upkeeping->use);
    if (upkeeping->rule)
        return RUNNEL_OK;
    return tell(keep, RUNNEL_E_CONFLICT, "upkeep.use", "--use",
                outdoors && finish == RUNNEL_FINISH_WET_OIL
                    ? "an oil that stays wet is washed out outdoors: take one that dries, or leave "
                      "the oil out for a coating"
                    : "the tables have no rule of upkeep for this finish and use");
}

static runnel_status add_part(const keeping *keep, size_t index) {
    runnel_upkeeping *upkeeping = keep->upkeeping;
    const runnel_oiling_part *oiled = &upkeeping->oiling.parts[index];
    const char *wood_name = keep->job->pieces[index].wood;
    const runnel_wood *wood = wood_name ? runnel_tables_wood(keep->tables, wood_name) : NULL;
    runnel_upkeeping_part *part = &upkeeping->parts[upkeeping->part_count++];
    *part = (runnel_upkeeping_part){.piece = oiled->piece,
                                    .count = oiled->count,
                                    .wood_is_known = wood != NULL,
                                    .open_pored = wood && wood->open_pored,
                                    .face_mm2 = oiled->area.face_mm2,
                                    .end_mm2 = oiled->area.end_mm2};
    if (!upkeeping->oil)
        part->face_mm2 += oiled->area.resin_mm2;
    if (!wood)
        upkeeping->taken |= RUNNEL_TAKEN_PORES;
    runnel_upkeep_case of = {.rule = upkeeping->rule,
                             .washing = upkeeping->washing,
                             .water = upkeeping->water,
                             .open_pored = part->open_pored,
                             .delivered = upkeeping->delivered,
                             .oiled = upkeeping->oiled,
                             .face_mm2 = part->face_mm2,
                             .end_mm2 = part->end_mm2,
                             .oiling = upkeeping->oiling.oiling};
    runnel_status status = runnel_upkeep_compute(&of, &part->upkeep);
    if (status == RUNNEL_E_RANGE)
        return tell(keep, status, "upkeep.delivered", "--delivered",
                    "the dates of the upkeep do not fit into the calendar");
    return status;
}

static runnel_status add_parts(const keeping *keep) {
    runnel_upkeeping *upkeeping = keep->upkeeping;
    const size_t count = upkeeping->oiling.part_count;
    runnel_status status = RUNNEL_OK;
    upkeeping->parts = runnel_zeroed(count, sizeof *upkeeping->parts);
    if (!upkeeping->parts)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < count && !status; i++)
        status = add_part(keep, i);
    return status;
}

/* Cautions for whoever looks after a piece; a coating is no oil, and food lies on what is used. */
static void set_cautions(runnel_upkeeping *upkeeping) {
    const runnel_oil *oil = upkeeping->oil;
    upkeeping->steps = oil ? runnel_oil_step_bit(oil) : RUNNEL_STEP_BIT(RUNNEL_STEP_SAND);
    upkeeping->cases = oil ? runnel_oil_cases(oil) : RUNNEL_CASE_SOLVENT;
    if (!runnel_use_is_outdoors(upkeeping->use))
        upkeeping->steps |= RUNNEL_STEP_BIT(RUNNEL_STEP_FOOD);
}

runnel_status runnel_upkeeping_make(const runnel_job *job, const runnel_tables *tables,
                                    const runnel_letters *letters, runnel_problems *problems,
                                    runnel_upkeeping *upkeeping) {
    runnel_upkeeping made = {.part_count = 0};
    const keeping keep = {job, tables, problems, &made};
    take_told(&keep);
    runnel_status dates = check_dates(&keep);
    runnel_status oiled = runnel_oiling_make(job, tables, letters, problems, &made.oiling);
    runnel_status status = oiled == RUNNEL_NOT_POSSIBLE ? RUNNEL_OK : oiled;
    if (!status)
        status = find_rule(&keep);
    /* Memory that ran out goes before a date that was not told. */
    if (dates && status != RUNNEL_E_NO_MEMORY)
        status = dates;
    if (!status)
        status = add_parts(&keep);
    if (status) {
        runnel_upkeeping_clear(&made);
        return status;
    }
    set_cautions(&made);
    *upkeeping = made;
    return oiled;
}
