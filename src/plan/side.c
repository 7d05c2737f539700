/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan/side.h"

#include "base/memory.h"

#include <math.h>
#include <string.h>

/* Warnings of cavities, and which of them say that the job cannot be done as asked. */
static const struct {
    const char *code;
    bool impossible;
} kept[] = {{"cuts-through", true}, {"too-wide", true},      {"nothing-cut", true},
            {"too-deep", false},    {"thin-strokes", false}, {"odd-tip", false},
            {"odd-angle", false},   {"goes-through", false}};

static bool is_kept(runnel_making *making, const runnel_warning *warning) {
    for (size_t i = 0; i < sizeof kept / sizeof *kept; i++) {
        if (strcmp(kept[i].code, warning->code) != 0)
            continue;
        making->impossible = making->impossible || kept[i].impossible;
        return true;
    }
    return false;
}

static void keep_warnings(runnel_making *making) {
    runnel_plan *plan = making->plan;
    size_t count = 0;
    for (size_t i = 0; i < plan->warning_count; i++) {
        runnel_warning *warning = &plan->warnings[i];
        if (is_kept(making, warning)) {
            plan->warnings[count++] = *warning;
            continue;
        }
        runnel_free(warning->code);
        runnel_free(warning->text);
        runnel_free(warning->where);
    }
    plan->warning_count = count;
}

/* ---- The plan of a side ------------------------------------------------------------------------
 */

runnel_status runnel_side_plan(runnel_making *making, const runnel_making *of, runnel_plan *plan) {
    *making = *of;
    making->plan = plan;
    making->impossible = false;
    runnel_status status = RUNNEL_OK;
    if (of->plan)
        status = runnel_plan_copy(of->plan, plan);
    else
        status = runnel_plan_make(of->job, of->tables, of->letters, of->problems, plan);
    if (status && status != RUNNEL_NOT_POSSIBLE)
        return status;
    keep_warnings(making);
    return RUNNEL_OK;
}

runnel_status runnel_side_warn_cavity(runnel_making *making, const char *code,
                                      const runnel_plan_cavity *planned, const char *text) {
    char *where = runnel_format_text("%s / %s", planned->piece, planned->name);
    runnel_status status =
        where ? runnel_warn(making, code, where, "%s", text) : RUNNEL_E_NO_MEMORY;
    runnel_free(where);
    return status;
}

runnel_status runnel_side_tell_cavity(const runnel_making *making, const runnel_job_cavity *cavity,
                                      runnel_status status) {
    char path[RUNNEL_PLACE_SIZE];
    runnel_place place = runnel_place_of(making->job, cavity, RUNNEL_ASPECT_SHAPE, path);
    return runnel_problems_add(making->problems, status, &place, "'%s': %s", cavity->name,
                               runnel_status_text(status));
}

double runnel_side_time_at_shop(const runnel_job *job, double stated_s) {
    double seconds = NAN;
    return runnel_shop_time(job, stated_s, &seconds) ? (double)NAN : seconds;
}

bool runnel_side_names_sealer(const runnel_job_sealer *sealer) {
    return !sealer->kind_is_default || sealer->cut_lb_per_gal > 0 || sealer->m2_per_l > 0 ||
           sealer->dry_film_mm > 0 || sealer->wet_film_mm > 0 || sealer->thinner > 0 ||
           sealer->loss >= 0 || sealer->coats || sealer->face_margin_mm >= 0;
}

runnel_status runnel_side_warn_order(runnel_making *making, const runnel_order *order,
                                     const runnel_order_faults *faults) {
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < faults->count && !status; i++) {
        const runnel_order_fault *fault = &faults->items[i];
        status = runnel_warn(making, fault->code, "order", "'%s' before '%s': %s",
                             runnel_step_text(order->steps[fault->earlier]),
                             runnel_step_text(order->steps[fault->later]), fault->text);
        making->impossible = making->impossible || fault->is_wrong;
    }
    return status;
}

void runnel_side_usual_order(runnel_step seal, runnel_step oil, runnel_order *order) {
    const runnel_step steps[] = {
        RUNNEL_STEP_CARVE,       seal, RUNNEL_STEP_POUR, RUNNEL_STEP_LEVEL, RUNNEL_STEP_SAND,
        RUNNEL_STEP_RAISE_GRAIN, oil,  RUNNEL_STEP_WAX};
    memcpy(order->steps, steps, sizeof steps);
    order->count = sizeof steps / sizeof *steps;
}
