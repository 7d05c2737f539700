/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A batch dealt out to cups: each cavity of each piece is a pour, piece by piece.
 */
#include "plan/make.h"

#include "base/memory.h"
#include "base/sum.h"

#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

/** What a pour may lack by the rounding of the film's root. */
#define FILM_SLACK 1e-9
/** Two cups that share a limit come to more than this share of it, whatever weighing adds. */
#define WELL_WITHIN 0.9

/** Where a pour goes. */
typedef struct target {
    size_t cavity, piece; /**< of plan and job */
    size_t copy;          /**< of the piece, from 1 */
} target;

/** The pours of a batch. */
typedef struct pouring {
    const runnel_making *making;
    const char *colour;
    double *volumes_mm3; /**< into each cavity of the plan, in one piece; 0 for another colour */
    double *times_s;     /**< how long that takes; NAN when it is not known */
    runnel_pour *pours;
    target *targets;
    size_t count;
    bool is_one; /**< there are too many: all of the batch is one pour */
} pouring;

/* ---- Volumes and times ------------------------------------------------------------------------
 */

/** Volumes and times of one piece, whose first cavity in the plan is `first`. A time that was told
 * for the whole piece is parted by the volumes. */
static runnel_status measure_piece(pouring *of, const runnel_job_piece *piece, size_t first) {
    runnel_sum sum = {0};
    runnel_status status = RUNNEL_OK;
    for (size_t c = 0; c < piece->cavity_count && !status; c++) {
        if (strcmp(piece->cavities[c].colour, of->colour) != 0)
            continue;
        status = runnel_poured_into(of->making, piece, first + c, &of->volumes_mm3[first + c]);
        runnel_sum_add(&sum, of->volumes_mm3[first + c]);
    }
    double all_mm3 = runnel_sum_value(&sum);
    for (size_t c = 0; c < piece->cavity_count && !status; c++) {
        double own_s = piece->cavities[c].pour_s;
        double share = all_mm3 > 0 ? of->volumes_mm3[first + c] / all_mm3 : 0;
        of->times_s[first + c] = own_s > 0           ? own_s
                                 : piece->pour_s > 0 ? piece->pour_s * share
                                                     : NAN;
    }
    return status;
}

static runnel_status measure(pouring *of) {
    const runnel_job *job = of->making->job;
    size_t count = of->making->plan->cavity_count, first = 0;
    runnel_status status = RUNNEL_OK;
    of->volumes_mm3 = runnel_zeroed(count, sizeof *of->volumes_mm3);
    of->times_s = runnel_zeroed(count, sizeof *of->times_s);
    if (!of->volumes_mm3 || !of->times_s)
        return RUNNEL_E_NO_MEMORY;
    for (size_t p = 0; p < job->piece_count && !status; p++) {
        status = measure_piece(of, &job->pieces[p], first);
        first += job->pieces[p].cavity_count;
    }
    return status;
}

/** Time of all pouring; NAN when some of it is not known. */
static double time_of_all(const pouring *of) {
    const runnel_plan *plan = of->making->plan;
    runnel_sum sum = {0};
    for (size_t i = 0; i < plan->cavity_count; i++)
        if (of->volumes_mm3[i] > 0)
            runnel_sum_add(&sum, of->times_s[i] * (double)plan->cavities[i].piece_count);
    return runnel_sum_value(&sum);
}

/* ---- Pours ------------------------------------------------------------------------------------
 */

static size_t count_pours(const pouring *of) {
    const runnel_plan *plan = of->making->plan;
    size_t count = 0;
    for (size_t i = 0; i < plan->cavity_count && count <= RUNNEL_POURS_MOST; i++)
        if (of->volumes_mm3[i] > 0)
            count += plan->cavities[i].piece_count;
    return count;
}

/** Adds the pours into one piece. */
static void add_piece(pouring *of, size_t piece, size_t copy, size_t first, bool is_timed) {
    for (size_t c = 0; c < of->making->job->pieces[piece].cavity_count; c++) {
        size_t cavity = first + c;
        if (!(of->volumes_mm3[cavity] > 0))
            continue;
        of->pours[of->count] =
            (runnel_pour){of->volumes_mm3[cavity], is_timed ? of->times_s[cavity] : 0};
        of->targets[of->count++] = (target){cavity, piece, copy};
    }
}

/** The whole batch as one pour that may be parted anywhere. */
static void add_all(pouring *of, double all_s) {
    const runnel_plan *plan = of->making->plan;
    runnel_sum sum = {0};
    for (size_t i = 0; i < plan->cavity_count; i++)
        runnel_sum_add(&sum, of->volumes_mm3[i] * (double)plan->cavities[i].piece_count);
    of->pours[0] = (runnel_pour){runnel_sum_value(&sum), isnan(all_s) ? 0 : all_s};
    of->count = 1;
}

static runnel_status list_pours(pouring *of, double all_s) {
    const runnel_job *job = of->making->job;
    size_t room = count_pours(of), first = 0;
    of->is_one = room > RUNNEL_POURS_MOST;
    room = of->is_one ? 1 : room;
    of->pours = runnel_zeroed(room, sizeof *of->pours);
    of->targets = runnel_zeroed(room, sizeof *of->targets);
    if (!of->pours || !of->targets)
        return RUNNEL_E_NO_MEMORY;
    if (of->is_one) {
        add_all(of, all_s);
        return RUNNEL_OK;
    }
    for (size_t p = 0; p < job->piece_count; p++) {
        for (size_t copy = 1; copy <= job->pieces[p].count; copy++)
            add_piece(of, p, copy, first, !isnan(all_s));
        first += job->pieces[p].cavity_count;
    }
    return RUNNEL_OK;
}

static void clear_pouring(pouring *of) {
    runnel_free(of->volumes_mm3);
    runnel_free(of->times_s);
    runnel_free(of->pours);
    runnel_free(of->targets);
}

/* ---- Cups -------------------------------------------------------------------------------------
 */

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
static runnel_plan_fill *find_fill(const pouring *of, runnel_plan_cup *cup, const target *to) {
    size_t most = of->making->job->pieces[to->piece].cavity_count;
    for (size_t i = cup->fill_count; i-- > 0 && cup->fill_count - i <= most;)
        if (cup->fills[i].cavity == to->cavity)
            return &cup->fills[i];
    return NULL;
}

/** Lists the cavities that a cup gives to, each with its run of pieces. */
static runnel_status list_fills(const pouring *of, runnel_plan_cup *cup) {
    const runnel_cup_load *load = &cup->load;
    for (size_t i = load->first_pour; !of->is_one && i <= load->last_pour; i++) {
        const target *to = &of->targets[i];
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
            (runnel_plan_fill){to->cavity, to->copy, to->copy, share, share};
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

static runnel_status take_cups(const pouring *of, const runnel_cups *cups,
                               runnel_plan_batch *batch) {
    runnel_status status = RUNNEL_OK;
    batch->cups = runnel_zeroed(cups->count, sizeof *batch->cups);
    if (!batch->cups)
        return RUNNEL_E_NO_MEMORY;
    batch->cups_wanted = cups->wanted;
    batch->cups_ruled = cups->ruled;
    batch->smallest_g = cups->smallest_g;
    for (size_t i = 0; i < cups->count && !status; i++) {
        runnel_plan_cup *cup = &batch->cups[batch->cup_count++];
        cup->load = cups->items[i];
        cup->charge_height_mm = height_of(of->making->job, cup->load.weighing.total_ml);
        status = list_fills(of, cup);
        if (isnan(batch->pour_s))
            cup->load.pour_s = cup->load.pot_share = NAN;
    }
    return status;
}

/** Sums up the cups into their batch. */
static void sum_cups(runnel_plan_batch *batch) {
    static const size_t summed[] = {
        offsetof(runnel_weighing, part_a_g),  offsetof(runnel_weighing, part_b_g),
        offsetof(runnel_weighing, tint_g),    offsetof(runnel_weighing, part_a_ml),
        offsetof(runnel_weighing, part_b_ml), offsetof(runnel_weighing, total_g),
        offsetof(runnel_weighing, total_ml)};
    runnel_weighing *all = &batch->weighing;
    for (size_t k = 0; k < sizeof summed / sizeof *summed; k++) {
        runnel_sum sum = {0};
        for (size_t i = 0; i < batch->cup_count; i++)
            runnel_sum_add(
                &sum, *(const double *)((const char *)&batch->cups[i].load.weighing + summed[k]));
        *(double *)((char *)all + summed[k]) = runnel_sum_value(&sum);
    }
    for (size_t i = 0; i < batch->cup_count; i++) {
        const runnel_cup_load *load = &batch->cups[i].load;
        all->ratio_error = fmax(all->ratio_error, load->weighing.ratio_error);
        if (fabs(load->weighing.rounding_error) > fabs(all->rounding_error))
            all->rounding_error = load->weighing.rounding_error;
        batch->charge_height_mm = fmax(batch->charge_height_mm, batch->cups[i].charge_height_mm);
        if (load->notes & RUNNEL_CUP_RAISED)
            batch->raise = RUNNEL_RAISE_SMALLEST;
        else if ((load->notes & RUNNEL_CUP_ROUNDED) && batch->raise == RUNNEL_RAISE_NONE)
            batch->raise = RUNNEL_RAISE_ROUNDING;
    }
}

/** Weighs a batch of more cups than anyone mixes as if it were one. */
static runnel_status weigh_as_one(const runnel_making *making, const runnel_need *need,
                                  runnel_plan_batch *batch) {
    const runnel_job *job = making->job;
    const runnel_resin *resin = &job->resin;
    const runnel_mixture *mixture = &making->plan->mixture;
    runnel_allowed allowed;
    runnel_status status =
        runnel_terms_of(need, &job->cup, mixture, resin->viscosity_pa_s, &batch->terms);
    if (!status)
        status = runnel_weigh_allowed(mixture, resin->density_a_g_per_ml, resin->density_b_g_per_ml,
                                      batch->terms.total_mm3, batch->tint, &job->scale,
                                      resin->ratio_tolerance, &allowed);
    if (status && status != RUNNEL_NOT_POSSIBLE)
        return status;
    batch->weighing = allowed.weighing;
    batch->raise = allowed.raise;
    batch->smallest_g = allowed.smallest_g;
    batch->charge_height_mm = height_of(job, allowed.weighing.total_ml);
    return RUNNEL_OK;
}

runnel_status runnel_batch_pour(const runnel_making *making, const runnel_need *need,
                                runnel_plan_batch *batch) {
    pouring of = {.making = making, .colour = batch->colour};
    runnel_cups cups = {0};
    runnel_cups_order order = order_of(making, batch);
    runnel_status status = measure(&of);
    if (status)
        goto cleanup;
    batch->pour_s = time_of_all(&of);
    status = list_pours(&of, batch->pour_s);
    if (status)
        goto cleanup;
    status = runnel_cups_split(&order, of.pours, of.count, &cups);
    if (status == RUNNEL_E_RANGE) {
        status = weigh_as_one(making, need, batch);
    } else if (!status || status == RUNNEL_NOT_POSSIBLE) {
        status = check_film(making, &cups);
        if (!status)
            status = take_cups(&of, &cups, batch);
        batch->terms.cup_loss_mm3 = cups.loss_mm3;
        batch->terms.total_mm3 += cups.loss_mm3;
        sum_cups(batch);
    }
    batch->surplus_mm3 = batch->weighing.total_ml * 1e3 - batch->terms.total_mm3;
cleanup:
    runnel_cups_clear(&cups);
    clear_pouring(&of);
    return status;
}

void runnel_plan_batch_clear(runnel_plan_batch *batch) {
    for (size_t i = 0; i < batch->cup_count; i++)
        runnel_free(batch->cups[i].fills);
    runnel_free(batch->cups);
    runnel_free(batch->colour);
    memset(batch, 0, sizeof *batch);
}
