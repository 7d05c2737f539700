/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A batch dealt out to cups, layer by layer.
 */
#include "plan/pours.h"

#include "base/memory.h"
#include "base/sum.h"

#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

/** What a pour may lack by the rounding of the film's root. */
#define FILM_SLACK 1e-9
/** Two cups that share a limit come to more than this share of it, whatever weighing adds. */
#define WELL_WITHIN 0.9

static runnel_cups_order order_of(const runnel_making *making, const runnel_plan_batch *batch) {
    const runnel_job *job = making->job;
    const runnel_resin *resin = &job->resin;
    return (runnel_cups_order){.mixture = making->plan->mixture,
                               .density_a_g_per_ml = resin->density_a_g_per_ml,
                               .density_b_g_per_ml = resin->density_b_g_per_ml,
                               .viscosity_pa_s = resin->viscosity_pa_s,
                               .tint = batch->tint,
                               .scale = job->scale,
                               .tolerance = resin->ratio_tolerance,
                               .cup = job->cup,
                               .largest_mass_g = resin->largest_mass_g,
                               .brim_mm3 = job->brim_mm3,
                               .pot_life_s = batch->pot_life_s,
                               .pot_mass_g = resin->pot_mass_g,
                               .usable_share = job->usable_share};
}

/** The fill of a cavity that a cup has begun in this piece's round; NULL when there is none. */
static runnel_plan_fill *find_fill(const runnel_pours *of, runnel_plan_cup *cup,
                                   const runnel_pour_target *to) {
    size_t most = of->making->job->pieces[to->piece].cavity_count;
    for (size_t i = cup->fill_count; i-- > 0 && cup->fill_count - i <= most;)
        if (cup->fills[i].cavity == to->cavity)
            return &cup->fills[i];
    return NULL;
}

/** Lists the cavities that a cup gives to, each with its run of pieces. */
static runnel_status list_fills(const runnel_pours *of, runnel_plan_cup *cup) {
    const runnel_cup_load *load = &cup->load;
    for (size_t i = load->first_pour; !of->is_one && i <= load->last_pour; i++) {
        const runnel_pour_target *to = &of->targets[i];
        double share = i == load->first_pour  ? load->first_share
                       : i == load->last_pour ? load->last_share
                                              : 1;
        runnel_plan_fill *fill = find_fill(of, cup, to);
        if (fill) {
            fill->last = to->copy;
            fill->last_share = share;
            continue;
        }
        runnel_status status = runnel_reserve(&cup->fills, &cup->fill_capacity, cup->fill_count + 1,
                                              sizeof *cup->fills);
        if (status)
            return status;
        cup->fills[cup->fill_count++] =
            (runnel_plan_fill){to->cavity, to->layer, to->copy, to->copy, share, share};
    }
    return RUNNEL_OK;
}

/** Height of a volume in the job's cup. */
static double height_of(const runnel_job *job, double volume_ml) {
    double floor_mm2 = pi / 4 * job->cup.diameter_mm * job->cup.diameter_mm;
    return floor_mm2 > 0 ? volume_ml * 1e3 / floor_mm2 : NAN;
}

/** Whether what stays in a cup as a film, when it is mixed as full as it is weighed, leaves what is
 * to be poured. */
static bool gives_its_pour(const runnel_making *making, const runnel_cup_load *load) {
    const runnel_cup *cup = &making->job->cup;
    double charge_mm3 = load->weighing.total_ml * 1e3, wall_mm3, floor_mm3;
    if (cup->fixed_loss_g >= 0)
        return true;
    runnel_status status = runnel_cup_film(
        cup->diameter_mm, charge_mm3, making->job->resin.viscosity_pa_s,
        making->plan->mixture.density_g_per_ml, cup->drain_s, &wall_mm3, &floor_mm3);
    return !status && charge_mm3 - wall_mm3 - floor_mm3 >= load->poured_mm3 * (1 - FILM_SLACK);
}

/** Whether two cups that follow each other are two although both together are well within the
 * limits of one: it is the film that lets a cup give no more. */
static bool are_two_by_film(const runnel_job *job, const runnel_cup_load *one,
                            const runnel_cup_load *other) {
    double most_ml = job->brim_mm3 > 0 ? RUNNEL_CUPS_BRIM_SHARE * job->brim_mm3 / 1e3 : INFINITY;
    double most_g = job->resin.largest_mass_g > 0 ? job->resin.largest_mass_g : INFINITY;
    return (one->limits & (RUNNEL_CUPS_BY_MASS | RUNNEL_CUPS_BY_SIZE)) &&
           one->weighing.total_g + other->weighing.total_g < WELL_WITHIN * most_g &&
           one->weighing.total_ml + other->weighing.total_ml < WELL_WITHIN * most_ml;
}

/** Fails when the film that a cup keeps is what rules the cups. */
static runnel_status check_film(const runnel_making *making, const runnel_cups *cups) {
    for (size_t i = 0; i < cups->count; i++) {
        if (!gives_its_pour(making, &cups->items[i]) ||
            (i && are_two_by_film(making->job, &cups->items[i - 1], &cups->items[i])))
            return RUNNEL_E_NOT_COMPUTED;
    }
    return RUNNEL_OK;
}

/** When the layers of a batch can be poured, after the first one. */
typedef struct window {
    double from_s, until_s; /**< of the second */
} window;

static runnel_status window_of(const runnel_job *job, window *found) {
    runnel_status status = runnel_shop_time(job, job->resin.recoat_from_s, &found->from_s);
    return status ? status : runnel_shop_time(job, job->resin.recoat_until_s, &found->until_s);
}

/** Adds the cups of a layer to the batch. */
static runnel_status take_cups(const runnel_pours *of, const runnel_cups *cups, size_t layer,
                               const window *recoat, runnel_plan_batch *batch) {
    runnel_plan_cup *all =
        runnel_resize(batch->cups, batch->cup_count + cups->count, sizeof *batch->cups);
    runnel_status status = RUNNEL_OK;
    if (!all)
        return RUNNEL_E_NO_MEMORY;
    batch->cups = all;
    batch->cups_wanted += cups->wanted;
    batch->cups_ruled |= cups->ruled;
    batch->smallest_g = cups->smallest_g;
    for (size_t i = 0; i < cups->count && !status; i++) {
        runnel_plan_cup *cup = &batch->cups[batch->cup_count++];
        *cup = (runnel_plan_cup){.layer = layer,
                                 .earliest_s = layer > 1 ? recoat->from_s * (double)(layer - 1) : 0,
                                 .latest_s = layer > 1 ? recoat->until_s * (double)(layer - 1) : 0,
                                 .load = cups->items[i]};
        cup->charge_height_mm = height_of(of->making->job, cup->load.weighing.total_ml);
        status = list_fills(of, cup);
        if (isnan(batch->pour_s))
            cup->load.pour_s = cup->load.pot_share = NAN;
    }
    return status;
}

enum { SUMMED = 7 };

/** The fields of a weighing that add up over cups. */
static void list_summed(runnel_weighing *of, double *fields[SUMMED]) {
    double *const all[SUMMED] = {&of->part_a_g,  &of->part_b_g, &of->tint_g,  &of->part_a_ml,
                                 &of->part_b_ml, &of->total_g,  &of->total_ml};
    memcpy(fields, all, sizeof all);
}

/** Sums up the cups into their batch. */
static void sum_cups(runnel_plan_batch *batch) {
    runnel_weighing *all = &batch->weighing;
    runnel_sum loss = {0}, sums[SUMMED] = {0};
    double *fields[SUMMED];
    for (size_t i = 0; i < batch->cup_count; i++) {
        list_summed(&batch->cups[i].load.weighing, fields);
        for (size_t k = 0; k < SUMMED; k++)
            runnel_sum_add(&sums[k], *fields[k]);
    }
    list_summed(all, fields);
    for (size_t k = 0; k < SUMMED; k++)
        *fields[k] = runnel_sum_value(&sums[k]);
    for (size_t i = 0; i < batch->cup_count; i++) {
        const runnel_cup_load *load = &batch->cups[i].load;
        runnel_sum_add(&loss, load->loss_mm3);
        all->zero_before_b = all->zero_before_b || load->weighing.zero_before_b;
        all->ratio_error = fmax(all->ratio_error, load->weighing.ratio_error);
        if (fabs(load->weighing.rounding_error) > fabs(all->rounding_error))
            all->rounding_error = load->weighing.rounding_error;
        batch->charge_height_mm = fmax(batch->charge_height_mm, batch->cups[i].charge_height_mm);
        if (load->notes & RUNNEL_CUP_RAISED)
            batch->raise = RUNNEL_RAISE_SMALLEST;
        else if ((load->notes & RUNNEL_CUP_ROUNDED) && batch->raise == RUNNEL_RAISE_NONE)
            batch->raise = RUNNEL_RAISE_ROUNDING;
    }
    batch->terms.cup_loss_mm3 = runnel_sum_value(&loss);
    batch->terms.total_mm3 += batch->terms.cup_loss_mm3;
}

runnel_status runnel_weigh_need(const runnel_making *making, const runnel_need *need, double tint,
                                runnel_terms *terms, runnel_allowed *allowed) {
    const runnel_job *job = making->job;
    const runnel_resin *resin = &job->resin;
    const runnel_mixture *mixture = &making->plan->mixture;
    runnel_status status = runnel_terms_of(need, &job->cup, mixture, resin->viscosity_pa_s, terms);
    return status ? status
                  : runnel_weigh_allowed(mixture, resin->density_a_g_per_ml,
                                         resin->density_b_g_per_ml, terms->total_mm3, tint,
                                         &job->scale, resin->ratio_tolerance, allowed);
}

/** Weighs a batch of more cups than anyone mixes as if it were one. */
static runnel_status weigh_as_one(const runnel_making *making, const runnel_need *need,
                                  runnel_plan_batch *batch) {
    runnel_allowed allowed = {0};
    runnel_status status = runnel_weigh_need(making, need, batch->tint, &batch->terms, &allowed);
    if (status && status != RUNNEL_NOT_POSSIBLE)
        return status;
    batch->weighing = allowed.weighing;
    batch->raise = allowed.raise;
    batch->smallest_g = allowed.smallest_g;
    batch->charge_height_mm = height_of(making->job, allowed.weighing.total_ml);
    return RUNNEL_OK;
}

static void clear_cups(runnel_plan_batch *batch) {
    for (size_t i = 0; i < batch->cup_count; i++)
        runnel_free(batch->cups[i].fills);
    runnel_free(batch->cups);
    batch->cups = NULL;
    batch->cup_count = 0;
}

/** Deals a layer out to cups; RUNNEL_E_RANGE when there would be too many. */
static runnel_status pour_layer(runnel_pours *of, const runnel_cups_order *order, size_t layer,
                                const window *recoat, runnel_plan_batch *batch) {
    runnel_cups cups = {0};
    runnel_status status = runnel_pours_list(of, layer);
    if (!status)
        status = runnel_cups_split(order, of->items, of->count, &cups);
    if (status == RUNNEL_NOT_POSSIBLE)
        status = RUNNEL_OK; /* the notes of the cups tell */
    if (!status)
        status = check_film(of->making, &cups);
    if (!status && batch->cup_count + cups.count > RUNNEL_CUPS_MOST)
        status = RUNNEL_E_RANGE;
    if (!status)
        status = take_cups(of, &cups, layer, recoat, batch);
    runnel_cups_clear(&cups);
    return status;
}

runnel_status runnel_batch_pour(const runnel_making *making, const runnel_need *need,
                                runnel_plan_batch *batch) {
    runnel_pours of;
    runnel_cups_order order = order_of(making, batch);
    runnel_status status = runnel_pours_measure(making, batch, &of);
    window recoat = {NAN, NAN};
    if (!status)
        status = window_of(making->job, &recoat);
    batch->pour_s = of.all_s;
    batch->layer_count = of.layer_count;
    for (size_t layer = 1; layer <= of.layer_count && !status; layer++)
        status = pour_layer(&of, &order, layer, &recoat, batch);
    runnel_pours_clear(&of);
    if (status == RUNNEL_E_RANGE) {
        clear_cups(batch);
        status = weigh_as_one(making, need, batch);
    } else if (!status) {
        sum_cups(batch);
    }
    batch->surplus_mm3 = batch->weighing.total_ml * 1e3 - batch->terms.total_mm3;
    return status;
}

void runnel_plan_batch_clear(runnel_plan_batch *batch) {
    clear_cups(batch);
    runnel_free(batch->colour);
    memset(batch, 0, sizeof *batch);
}
