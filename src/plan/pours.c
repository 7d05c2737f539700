/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan/pours.h"

#include "base/memory.h"
#include "base/sum.h"

#include <math.h>
#include <string.h>

/** Layers of a cavity: 1 when it is filled at once. */
static size_t layers_of(const runnel_plan_cavity *cavity) {
    return cavity->layers.count ? cavity->layers.count : 1;
}

/* ---- Volumes and times ------------------------------------------------------------------------
 */

/** Resin that goes into all layers of a cavity in one piece. */
static runnel_status volume_of(const runnel_pours *of, const runnel_job_piece *piece, size_t cavity,
                               double *volume_mm3) {
    size_t layers = layers_of(&of->making->plan->cavities[cavity]);
    runnel_sum sum = {0};
    runnel_status status = RUNNEL_OK;
    for (size_t layer = 1; layer <= layers && !status; layer++) {
        double one_mm3 = 0;
        status = runnel_poured_into(of->making, piece, cavity, layer, of->batch->allowance_share,
                                    &one_mm3);
        runnel_sum_add(&sum, one_mm3);
    }
    *volume_mm3 = runnel_sum_value(&sum);
    return status;
}

/** What the tables tell of pouring so many layers of one colour into a piece; NAN without a row. */
static double usual_time(const runnel_pours *of, size_t layers) {
    const runnel_tables *tables = of->making->tables;
    const runnel_work_row *row = tables ? runnel_tables_work(tables, RUNNEL_WORK_POUR) : NULL;
    return row ? row->each_s * (double)layers : NAN;
}

/** Volumes and times of one piece, whose first cavity in the plan is `first`. A time for the whole
 * piece is parted by the volumes. */
static runnel_status measure_piece(runnel_pours *of, const runnel_job_piece *piece, size_t first) {
    runnel_sum sum = {0};
    size_t layers = 0;
    runnel_status status = RUNNEL_OK;
    for (size_t c = 0; c < piece->cavity_count && !status; c++) {
        size_t own = layers_of(&of->making->plan->cavities[first + c]);
        if (strcmp(piece->cavities[c].colour, of->batch->colour) != 0)
            continue;
        status = volume_of(of, piece, first + c, &of->volumes_mm3[first + c]);
        runnel_sum_add(&sum, of->volumes_mm3[first + c]);
        layers = own > layers ? own : layers;
    }
    double all_mm3 = runnel_sum_value(&sum);
    double piece_s = piece->pour_s > 0 ? piece->pour_s : usual_time(of, layers);
    for (size_t c = 0; c < piece->cavity_count && !status; c++) {
        double own_s = piece->cavities[c].pour_s;
        double share = all_mm3 > 0 ? of->volumes_mm3[first + c] / all_mm3 : 0;
        of->times_s[first + c] = own_s > 0 ? own_s : piece_s * share;
    }
    return status;
}

/** Sums up the times, and finds how many layers there are at most. */
static void sum_up(runnel_pours *of) {
    const runnel_plan *plan = of->making->plan;
    runnel_sum sum = {0};
    for (size_t i = 0; i < plan->cavity_count; i++) {
        size_t layers = layers_of(&plan->cavities[i]);
        if (!(of->volumes_mm3[i] > 0))
            continue;
        runnel_sum_add(&sum, of->times_s[i] * (double)plan->cavities[i].piece_count);
        if (layers > of->layer_count)
            of->layer_count = layers;
    }
    of->all_s = runnel_sum_value(&sum);
}

runnel_status runnel_pours_measure(const runnel_making *making, const runnel_plan_batch *batch,
                                   runnel_pours *pours) {
    const runnel_job *job = making->job;
    size_t count = making->plan->cavity_count, first = 0;
    runnel_status status = RUNNEL_OK;
    *pours = (runnel_pours){.making = making, .batch = batch};
    pours->volumes_mm3 = runnel_zeroed(count, sizeof *pours->volumes_mm3);
    pours->times_s = runnel_zeroed(count, sizeof *pours->times_s);
    if (!pours->volumes_mm3 || !pours->times_s)
        return RUNNEL_E_NO_MEMORY;
    for (size_t p = 0; p < job->piece_count && !status; p++) {
        status = measure_piece(pours, &job->pieces[p], first);
        first += job->pieces[p].cavity_count;
    }
    if (!status)
        sum_up(pours);
    return status;
}

/* ---- Pours ------------------------------------------------------------------------------------
 */

/** Layer of a cavity that is poured with a layer of the batch, from 1; 0 when it is not its turn.
 * The last layers go together, so that one mix makes all surfaces. */
static size_t own_layer(const runnel_pours *of, size_t cavity, size_t layer) {
    size_t layers = layers_of(&of->making->plan->cavities[cavity]);
    size_t begins_after = of->layer_count - layers;
    if (!(of->volumes_mm3[cavity] > 0) || layer <= begins_after)
        return 0;
    return layer - begins_after;
}

static size_t count_pours(const runnel_pours *of, size_t layer) {
    const runnel_plan *plan = of->making->plan;
    size_t count = 0;
    for (size_t i = 0; i < plan->cavity_count && count <= RUNNEL_POURS_MOST; i++)
        if (own_layer(of, i, layer))
            count += plan->cavities[i].piece_count;
    return count;
}

/** The pour of a layer into one cavity; the time goes with the volume. */
static runnel_status pour_of(const runnel_pours *of, size_t piece, size_t cavity, size_t layer,
                             runnel_pour *pour) {
    runnel_status status = runnel_poured_into(of->making, &of->making->job->pieces[piece], cavity,
                                              layer, of->batch->allowance_share, &pour->volume_mm3);
    double share = pour->volume_mm3 / of->volumes_mm3[cavity];
    pour->pour_s = isnan(of->all_s) ? 0 : share * of->times_s[cavity];
    return status;
}

/** Adds the pours into the first copy of a piece. A layer that holds nothing is none. */
static runnel_status add_copy(runnel_pours *of, size_t piece, size_t first, size_t layer) {
    size_t count = of->making->job->pieces[piece].cavity_count;
    for (size_t cavity = first; cavity < first + count; cavity++) {
        size_t own = own_layer(of, cavity, layer);
        runnel_pour pour;
        if (!own)
            continue;
        runnel_status status = pour_of(of, piece, cavity, own, &pour);
        if (status)
            return status;
        if (!(pour.volume_mm3 > 0))
            continue;
        of->items[of->count] = pour;
        of->targets[of->count++] = (runnel_pour_target){cavity, piece, 1, own};
    }
    return RUNNEL_OK;
}

/** Adds the pours into all copies of a piece, copy by copy. */
static runnel_status add_piece(runnel_pours *of, size_t piece, size_t first, size_t layer) {
    size_t begin = of->count;
    runnel_status status = add_copy(of, piece, first, layer);
    size_t each = of->count - begin;
    for (size_t copy = 2; copy <= of->making->job->pieces[piece].count && !status; copy++) {
        for (size_t i = begin; i < begin + each; i++) {
            of->items[of->count] = of->items[i];
            of->targets[of->count] = of->targets[i];
            of->targets[of->count++].copy = copy;
        }
    }
    return status;
}

/** Makes all pours into a piece one with what is there already. */
static runnel_status add_to_one(runnel_pours *of, size_t piece, size_t first, size_t layer) {
    const runnel_job_piece *from = &of->making->job->pieces[piece];
    for (size_t cavity = first; cavity < first + from->cavity_count; cavity++) {
        size_t own = own_layer(of, cavity, layer);
        runnel_pour pour;
        if (!own)
            continue;
        runnel_status status = pour_of(of, piece, cavity, own, &pour);
        if (status)
            return status;
        of->items[0].volume_mm3 += pour.volume_mm3 * (double)from->count;
        of->items[0].pour_s += pour.pour_s * (double)from->count;
    }
    of->count = 1;
    return RUNNEL_OK;
}

runnel_status runnel_pours_list(runnel_pours *pours, size_t layer) {
    const runnel_job *job = pours->making->job;
    size_t room = count_pours(pours, layer), first = 0;
    runnel_status status = RUNNEL_OK;
    runnel_free(pours->items);
    runnel_free(pours->targets);
    pours->count = 0;
    pours->is_one = room > RUNNEL_POURS_MOST;
    room = pours->is_one ? 1 : room;
    pours->items = runnel_zeroed(room, sizeof *pours->items);
    pours->targets = runnel_zeroed(room, sizeof *pours->targets);
    if (!pours->items || !pours->targets)
        return RUNNEL_E_NO_MEMORY;
    for (size_t p = 0; p < job->piece_count && !status; p++) {
        status =
            pours->is_one ? add_to_one(pours, p, first, layer) : add_piece(pours, p, first, layer);
        first += job->pieces[p].cavity_count;
    }
    return status;
}

void runnel_pours_clear(runnel_pours *pours) {
    runnel_free(pours->volumes_mm3);
    runnel_free(pours->times_s);
    runnel_free(pours->items);
    runnel_free(pours->targets);
}
