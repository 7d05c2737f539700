/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a maker has to know before the can is opened: resin, shop and batches.
 */
#include "plan/make.h"

#include "base/memory.h"
#include "runnel/units.h"

#include <math.h>
#include <string.h>

/** Two ratios of one resin may differ by this share before they contradict each other. */
#define CONTRADICTION 0.02
/** Above this humidity amine hardeners tend to blush. Common practice. */
#define HUMIDITY_MOST 0.80

const char *runnel_figure(double value, int decimals, char *buffer) {
    runnel_number_text(value, decimals, buffer, RUNNEL_FIGURE_SIZE);
    char *end = buffer + strlen(buffer);
    while (strchr(buffer, '.') && (end[-1] == '0' || end[-1] == '.'))
        *--end = '\0';
    return buffer;
}

static runnel_status warn_density(runnel_making *making, char part, const char *name,
                                  double density) {
    runnel_density_range range = runnel_density_published(part);
    if (density >= range.low_g_per_ml && density <= range.high_g_per_ml)
        return RUNNEL_OK;
    return runnel_warn(making, "density", "resin",
                       "%s at %s g/ml is outside the published %s to %s g/ml (%s)", name,
                       FIGURE(density, 4), FIGURE(range.low_g_per_ml, 2),
                       FIGURE(range.high_g_per_ml, 2), range.source);
}

static runnel_status warn_densities(runnel_making *making) {
    const runnel_resin *r = &making->job->resin;
    runnel_status status = warn_density(making, 'A', "part A", r->density_a_g_per_ml);
    if (!status)
        status = warn_density(making, 'B', "part B", r->density_b_g_per_ml);
    if (!status)
        status = warn_density(making, 'M', "the mix", making->plan->mixture.density_g_per_ml);
    return status;
}

static runnel_status warn_ratio(runnel_making *making) {
    const runnel_job *job = making->job;
    const runnel_resin *r = &job->resin;
    if (job->other_ratio.basis == RUNNEL_BASIS_NONE)
        return RUNNEL_OK;
    bool first_by_volume = r->ratio.basis == RUNNEL_BASIS_VOLUME;
    const runnel_ratio *volume = first_by_volume ? &r->ratio : &job->other_ratio;
    const runnel_ratio *weight = first_by_volume ? &job->other_ratio : &r->ratio;
    double difference = 0;
    runnel_status status = runnel_ratio_contradiction(volume, weight, r->density_a_g_per_ml,
                                                      r->density_b_g_per_ml, &difference);
    if (status || fabs(difference) <= CONTRADICTION)
        return status;
    return runnel_warn(making, "ratio-contradiction", "resin",
                       "%s:%s by volume and %s:%s by weight do not go together at %s and %s g/ml: "
                       "the first gives %s %% %s hardener; look at the sheet again",
                       FIGURE(volume->part_a, 4), FIGURE(volume->part_b, 4),
                       FIGURE(weight->part_a, 4), FIGURE(weight->part_b, 4),
                       FIGURE(r->density_a_g_per_ml, 4), FIGURE(r->density_b_g_per_ml, 4),
                       FIGURE(100 * fabs(difference), 1), difference > 0 ? "more" : "less");
}

static runnel_status warn_shop(runnel_making *making) {
    const runnel_job *job = making->job;
    runnel_status status = RUNNEL_OK;
    if (job->shop_degc < job->resin.lowest_degc) {
        making->impossible = true;
        status = runnel_warn(making, "too-cold", "shop",
                             "%s °C is below the %s °C that '%s' needs; below it no time can be "
                             "told: warm the shop and the board, or take a resin for the cold",
                             FIGURE(job->shop_degc, 1), FIGURE(job->resin.lowest_degc, 1),
                             job->resin.name);
    }
    if (!status && job->humidity > HUMIDITY_MOST)
        status = runnel_warn(making, "damp", "shop",
                             "%s %% humidity: above %s %% hardeners tend to blush, a waxy film; "
                             "wash it off with water before the next coat",
                             FIGURE(100 * job->humidity, 1), FIGURE(100 * HUMIDITY_MOST, 1));
    return status;
}

static bool is_used(const runnel_job *job, const char *colour) {
    for (size_t p = 0; p < job->piece_count; p++)
        for (size_t c = 0; c < job->pieces[p].cavity_count; c++)
            if (strcmp(job->pieces[p].cavities[c].colour, colour) == 0)
                return true;
    return false;
}

runnel_status runnel_warn_job(runnel_making *making) {
    const runnel_job *job = making->job;
    runnel_status status = warn_shop(making);
    if (!status)
        status = warn_ratio(making);
    if (!status)
        status = warn_densities(making);
    for (size_t i = 0; i < job->colour_count && !status; i++)
        if (!is_used(job, job->colours[i].name))
            status = runnel_warn(making, "colour-unused", "colours",
                                 "'%s' is listed but no cavity has it", job->colours[i].name);
    return status;
}

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

/** A batch that the scale made larger than was needed, or that it cannot weigh at all. */
static runnel_status warn_scale(runnel_making *making, const runnel_plan_batch *batch,
                                const char *where) {
    const runnel_job *job = making->job;
    const runnel_weighing *w = &batch->weighing;
    const char *resin = job->resin.name, *step = FIGURE(job->scale.step_g, 4);
    const char *tolerance = FIGURE(100 * job->resin.ratio_tolerance, 2);
    if (batch->raise == RUNNEL_RAISE_SMALLEST)
        return runnel_warn(
            making, "small-batch", where,
            "%s g would do, but below %s g a scale that shows %s g does not keep "
            "the ratio within the %s %% that '%s' allows: mix %s g, which leaves "
            "%s ml over, or take a finer scale",
            FIGURE(batch->terms.total_mm3 / 1e3 * making->plan->mixture.density_g_per_ml, 2),
            FIGURE(batch->smallest_g, 2), step, tolerance, resin, FIGURE(w->total_g, 4),
            FIGURE(batch->surplus_mm3 / 1e3, 1));
    if (w->ratio_error <= job->resin.ratio_tolerance)
        return RUNNEL_OK;
    making->impossible = true;
    return runnel_warn(making, "no-batch", where,
                       "%s g may be %s %% off in the ratio, and on this scale no batch keeps the "
                       "%s %% that '%s' allows; take a better scale",
                       FIGURE(w->total_g, 4),
                       isfinite(w->ratio_error) ? FIGURE(100 * w->ratio_error, 1) : "100 and more",
                       tolerance, resin);
}

static runnel_status warn_mass(runnel_making *making, const runnel_plan_batch *batch,
                               const char *where) {
    const runnel_resin *resin = &making->job->resin;
    double mass = batch->weighing.total_g;
    if (mass > resin->largest_mass_g)
        return runnel_warn(making, "large-mass", where,
                           "%s g at once is over the %s g that '%s' bears in one cup: it can heat "
                           "itself, smoke and burn; mix it in %s cups or more",
                           FIGURE(mass, 1), FIGURE(resin->largest_mass_g, 1), resin->name,
                           FIGURE(ceil(mass / resin->largest_mass_g), 0));
    if (mass > resin->pot_mass_g)
        return runnel_warn(making, "pot-life-mass", where,
                           "the pot life was stated for %s g; %s g in one cup set sooner",
                           FIGURE(resin->pot_mass_g, 1), FIGURE(mass, 1));
    return RUNNEL_OK;
}

runnel_status runnel_warn_batch(runnel_making *making, const runnel_plan_batch *batch) {
    char *where = runnel_format_text("batch %s", batch->colour);
    if (!where)
        return RUNNEL_E_NO_MEMORY;
    runnel_status status = warn_tint(making, batch, where);
    if (!status)
        status = warn_scale(making, batch, where);
    if (!status)
        status = warn_mass(making, batch, where);
    runnel_free(where);
    return status;
}
