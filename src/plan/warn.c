/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a maker has to know before the can is opened: resin and shop.
 */
#include "plan/make.h"

#include "base/memory.h"
#include "runnel/cure.h"
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
    if (!status && isnan(job->resin.activation_kj_per_mol) &&
        fabs(job->shop_degc - job->resin.stated_degc) > 0)
        status = runnel_warn(making, "usual-energy", "resin",
                             "its sheet gives no activation energy: its times at %s °C are told by "
                             "the usual %s kJ/mol",
                             FIGURE(job->shop_degc, 1), FIGURE(RUNNEL_CURE_USUAL_KJ_PER_MOL, 1));
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
