/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a maker has to know of a batch and its cups.
 */
#include "plan/make.h"

#include "base/memory.h"
#include "runnel/units.h"

#include <math.h>
#include <stdio.h>

/** Room for a time as text. */
#define TIME_SIZE 48

static runnel_status warn_tint(runnel_making *making, const runnel_plan_batch *batch,
                               const char *where) {
    const runnel_resin *resin = &making->job->resin;
    if (batch->tint > resin->tint_cap)
        return runnel_warn(making, "tint-cap", where,
                           "tint at %s %% is over the %s %% that '%s' bears; more leaves it soft",
                           FIGURE(100 * batch->tint, 2), FIGURE(100 * resin->tint_cap, 2),
                           resin->name);
    if (batch->tint > 0 && batch->weighing.total_g > 0 && !(batch->weighing.tint_g > 0))
        return runnel_warn(making, "tint-below-step", where,
                           "%s g of tint is less than the scale can show; weigh it for a larger "
                           "batch of part A and take a share",
                           FIGURE(batch->tint * batch->weighing.total_g, 4));
    return RUNNEL_OK;
}

/* ---- Cups with a note -------------------------------------------------------------------------
 */

/** How many cups bear a note; the heaviest of them. */
static size_t noted(const runnel_plan_batch *batch, unsigned note,
                    const runnel_cup_load **heaviest) {
    size_t count = 0;
    for (size_t i = 0; i < batch->cup_count; i++) {
        const runnel_cup_load *load = &batch->cups[i].load;
        if (!(load->notes & note))
            continue;
        if (!count++ || load->weighing.total_g > (*heaviest)->weighing.total_g)
            *heaviest = load;
    }
    return count;
}

/** The heaviest cup; NULL when there is none. */
static const runnel_cup_load *heaviest_of(const runnel_plan_batch *batch) {
    const runnel_cup_load *heaviest = NULL;
    for (size_t i = 0; i < batch->cup_count; i++) {
        const runnel_cup_load *load = &batch->cups[i].load;
        if (!heaviest || load->weighing.total_g > heaviest->weighing.total_g)
            heaviest = load;
    }
    return heaviest;
}

/** Which cups are meant, for the start of a text: "" for the only one. */
static const char *meant(const runnel_plan_batch *batch, size_t count, char *buffer, size_t size) {
    buffer[0] = '\0';
    if (batch->cup_count > 1)
        snprintf(buffer, size, "%zu of %zu cups: ", count, batch->cup_count);
    return buffer;
}
#define MEANT(batch, count) meant((batch), (count), (char[64]){0}, 64)

/* ---- What the scale can weigh -----------------------------------------------------------------
 */

/** Cups that the scale made larger than was needed. */
static runnel_status warn_raised(runnel_making *making, const runnel_plan_batch *batch,
                                 const char *where) {
    const runnel_job *job = making->job;
    const runnel_cup_load *cup = NULL;
    size_t count = noted(batch, RUNNEL_CUP_RAISED, &cup);
    if (!count)
        return RUNNEL_OK;
    double needed_ml = (cup->poured_mm3 + cup->loss_mm3) / 1e3;
    return runnel_warn(
        making, "small-batch", where,
        "%s%s g would do, but below %s g a scale that shows %s g does not keep the "
        "ratio within the %s %% that '%s' allows: mix %s g, which leaves %s ml over, "
        "or take a finer scale",
        MEANT(batch, count), FIGURE(needed_ml * making->plan->mixture.density_g_per_ml, 2),
        FIGURE(batch->smallest_g, 2), FIGURE(job->scale.step_g, 4),
        FIGURE(100 * job->resin.ratio_tolerance, 2), job->resin.name,
        FIGURE(cup->weighing.total_g, 4), FIGURE(cup->surplus_mm3 / 1e3, 1));
}

/** Cups that no batch on this scale would be right for. */
static runnel_status warn_scale(runnel_making *making, const runnel_plan_batch *batch,
                                const char *where) {
    const runnel_resin *resin = &making->job->resin;
    const runnel_cup_load *cup = NULL;
    double off = batch->weighing.ratio_error;
    if (off <= resin->ratio_tolerance)
        return RUNNEL_OK;
    size_t count = noted(batch, RUNNEL_CUP_UNWEIGHABLE, &cup);
    making->impossible = true;
    return runnel_warn(making, "no-batch", where,
                       "%s%s g may be %s %% off in the ratio, and on this scale no batch keeps the "
                       "%s %% that '%s' allows; take a better scale",
                       MEANT(batch, count),
                       FIGURE(cup ? cup->weighing.total_g : batch->weighing.total_g, 4),
                       isfinite(off) ? FIGURE(100 * off, 1) : "100 and more",
                       FIGURE(100 * resin->ratio_tolerance, 2), resin->name);
}

/* ---- What a cup bears -------------------------------------------------------------------------
 */

static runnel_status warn_mass(runnel_making *making, const runnel_plan_batch *batch,
                               const char *where) {
    const runnel_resin *resin = &making->job->resin;
    const runnel_cup_load *cup = NULL;
    size_t count = noted(batch, RUNNEL_CUP_OVER_MASS, &cup);
    if (!count)
        return RUNNEL_OK;
    making->impossible = true;
    return runnel_warn(making, "large-mass", where,
                       "%s%s g, the least that this scale can weigh, are over the %s g that '%s' "
                       "bears in one cup: it can heat itself, smoke and burn; take a finer scale",
                       MEANT(batch, count), FIGURE(cup->weighing.total_g, 1),
                       FIGURE(resin->largest_mass_g, 1), resin->name);
}

static runnel_status warn_brim(runnel_making *making, const runnel_plan_batch *batch,
                               const char *where) {
    const runnel_cup_load *cup = NULL;
    size_t count = noted(batch, RUNNEL_CUP_OVER_SIZE, &cup);
    if (!count)
        return RUNNEL_OK;
    making->impossible = true;
    return runnel_warn(making, "small-cup", where,
                       "%s%s ml, the least that this scale can weigh, are more than %s %% of a cup "
                       "of %s ml, and the rest is needed for stirring; take a larger cup",
                       MEANT(batch, count), FIGURE(cup->weighing.total_ml, 1),
                       FIGURE(100 * RUNNEL_CUPS_BRIM_SHARE, 0),
                       FIGURE(making->job->brim_mm3 / 1e3, 1));
}

static runnel_status warn_many(runnel_making *making, const runnel_plan_batch *batch,
                               const char *where) {
    if (batch->cup_count)
        return RUNNEL_OK;
    making->impossible = true;
    return runnel_warn(making, "many-cups", where,
                       "%s g would take more than %d cups; make several jobs of it",
                       FIGURE(batch->weighing.total_g, 0), RUNNEL_CUPS_MOST);
}

static runnel_status warn_heat(runnel_making *making, const runnel_plan_batch *batch,
                               const char *where) {
    const runnel_cup_load *cup = NULL;
    size_t count = noted(batch, RUNNEL_CUP_HOT, &cup);
    if (!count)
        return RUNNEL_OK;
    return runnel_warn(making, "hot-cup", where,
                       "%s%s g in a narrow cup heat themselves, as all from %s g on do: take a "
                       "wide, shallow dish, and pour soon",
                       MEANT(batch, count), FIGURE(cup->weighing.total_g, 1),
                       FIGURE(RUNNEL_CUPS_HEAT_G, 0));
}

/* ---- How long it can be poured ----------------------------------------------------------------
 */

static runnel_status warn_pot_mass(runnel_making *making, const runnel_plan_batch *batch,
                                   const char *where) {
    double stated_g = making->job->resin.pot_mass_g;
    const runnel_cup_load *cup = heaviest_of(batch);
    char time[TIME_SIZE];
    if (!cup || !(cup->weighing.total_g > stated_g))
        return RUNNEL_OK;
    bool is_known = isfinite(cup->pot_life_s);
    return runnel_warn(making, "pot-life-mass", where,
                       "the pot life was stated for %s g; %s g in one cup set sooner%s%s",
                       FIGURE(stated_g, 1), FIGURE(cup->weighing.total_g, 1),
                       is_known ? ", in about " : "",
                       is_known ? runnel_time_text(cup->pot_life_s, time, sizeof time) : "");
}

/** The cup that takes most of its pot life to pour. */
static const runnel_cup_load *latest_of(const runnel_plan_batch *batch) {
    const runnel_cup_load *latest = &batch->cups[0].load;
    for (size_t i = 1; i < batch->cup_count; i++)
        if (batch->cups[i].load.pot_share > latest->pot_share)
            latest = &batch->cups[i].load;
    return latest;
}

static runnel_status warn_late(runnel_making *making, const runnel_plan_batch *batch,
                               const char *where) {
    const runnel_cup_load *cup = NULL;
    size_t count = noted(batch, RUNNEL_CUP_LATE, &cup);
    char time[TIME_SIZE], life[TIME_SIZE];
    if (!count)
        return RUNNEL_OK;
    cup = latest_of(batch);
    return runnel_warn(making, "late-pour", where,
                       "%spouring takes %s, %s %% of the pot life of %s and more than the %s %% "
                       "that should be used, but in %zu cups some would be below %s g, the "
                       "smallest batch of the scale: have all at hand, and pour without a break",
                       MEANT(batch, count), runnel_time_text(cup->pour_s, time, sizeof time),
                       FIGURE(100 * cup->pot_share, 0),
                       runnel_time_text(cup->pour_s / cup->pot_share, life, sizeof life),
                       FIGURE(100 * making->job->usable_share, 0), batch->cups_wanted,
                       FIGURE(batch->smallest_g, 2));
}

runnel_status runnel_warn_batch(runnel_making *making, const runnel_plan_batch *batch) {
    static runnel_status (*const all[])(runnel_making *, const runnel_plan_batch *,
                                        const char *) = {warn_tint, warn_raised,   warn_scale,
                                                         warn_mass, warn_brim,     warn_many,
                                                         warn_heat, warn_pot_mass, warn_late};
    char *where = runnel_format_text("batch %s", batch->colour);
    runnel_status status = where ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < sizeof all / sizeof *all && !status; i++)
        status = all[i](making, batch, where);
    runnel_free(where);
    return status;
}
