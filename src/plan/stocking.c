/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/stocking.h"

#include "base/memory.h"
#include "plan/needs.h"
#include "plan/side.h"
#include "runnel/oiling.h"
#include "runnel/sealing.h"
#include "runnel/units.h"

#include <math.h>
#include <string.h>

void runnel_stocking_clear(runnel_stocking *stocking) {
    if (!stocking)
        return;
    runnel_needs_clear(&stocking->needs);
    runnel_stock_answer_clear(&stocking->answer);
    runnel_plan_clear(&stocking->plan);
    memset(stocking, 0, sizeof *stocking);
}

/* What the plans of sealing and oiling borrow lives as long as job and tables. */
static runnel_status add_finish(const runnel_job *job, const runnel_tables *tables,
                                const runnel_letters *letters, runnel_problems *problems,
                                runnel_stocking *stocking) {
    runnel_sealing sealing = {.part_count = 0};
    runnel_oiling_plan oiling = {.part_count = 0};
    runnel_status status = RUNNEL_OK;
    if (runnel_side_names_sealer(&job->sealer)) {
        status = runnel_sealing_make(job, tables, letters, problems, &sealing);
        if (!status || status == RUNNEL_NOT_POSSIBLE)
            status = runnel_needs_sealer(job, &sealing, &stocking->needs);
    }
    if (!status && job->oil.name) {
        status = runnel_oiling_make(job, tables, letters, problems, &oiling);
        if (!status || status == RUNNEL_NOT_POSSIBLE)
            status = runnel_needs_oil(&oiling, &stocking->needs);
    }
    runnel_sealing_clear(&sealing);
    runnel_oiling_clear(&oiling);
    return status;
}

/* What the bottles of the resin make, if there are any. */
static runnel_status find_largest(const runnel_job *job, runnel_stocking *stocking) {
    double there_g[2] = {NAN, NAN};
    stocking->largest_g = NAN;
    for (size_t i = 0; i < stocking->answer.count; i++) {
        const runnel_stock_line *line = &stocking->answer.lines[i];
        const runnel_stock_need *need = &stocking->needs.items[line->need];
        if (line->bottles && need->part && need->what == job->resin.name)
            there_g[need->part[0] == 'B'] = line->there_g;
    }
    if (isnan(there_g[0]) || isnan(there_g[1]))
        return RUNNEL_OK;
    return runnel_stock_largest_batch(&stocking->plan.mixture, there_g[0], there_g[1],
                                      &stocking->largest_g, &stocking->largest_limiting);
}

runnel_status runnel_stocking_make(const runnel_job *job, const runnel_tables *tables,
                                   const runnel_letters *letters, runnel_problems *problems,
                                   const runnel_stock *stock, runnel_stocking *stocking) {
    runnel_stocking made = {.stock = stock};
    runnel_status planned = runnel_plan_make(job, tables, letters, problems, &made.plan);
    if (planned && planned != RUNNEL_NOT_POSSIBLE)
        return planned;
    for (size_t i = 0; i < job->piece_count; i++)
        made.pieces += job->pieces[i].count;
    runnel_status status = runnel_needs_resin(job, &made.plan, &made.needs);
    if (!status)
        status = add_finish(job, tables, letters, problems, &made);
    if (!status)
        status = runnel_stock_check(stock, made.needs.items, made.needs.count, made.pieces,
                                    &made.answer);
    bool is_short = status == RUNNEL_NOT_POSSIBLE;
    if (!status || is_short)
        status = find_largest(job, &made);
    if (status) {
        runnel_stocking_clear(&made);
        return status;
    }
    *stocking = made;
    return is_short || planned ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK;
}
