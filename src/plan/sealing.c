/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/sealing.h"

#include "base/memory.h"
#include "plan/side.h"

#include <math.h>
#include <string.h>

void runnel_sealing_clear(runnel_sealing *sealing) {
    if (!sealing)
        return;
    for (size_t i = 0; i < sealing->part_count; i++)
        runnel_free(sealing->parts[i].piece);
    runnel_free(sealing->parts);
    runnel_plan_clear(&sealing->plan);
    runnel_order_faults_clear(&sealing->faults);
    memset(sealing, 0, sizeof *sealing);
}

/* ---- The sealer ------------------------------------------------------------------------------ */

/* Takes what a number of the job says, or what is usual. */
static double take(runnel_sealing *sealing, bool given, double value, double usual,
                   runnel_sealing_taken bit) {
    if (!given)
        sealing->taken |= bit;
    return given ? value : usual;
}

static void take_film(const runnel_job_sealer *told, runnel_sealing *sealing) {
    runnel_sealer *sealer = &sealing->sealer;
    if (told->dry_film_mm > 0) {
        sealer->by = RUNNEL_SEALER_DRY_FILM;
        sealer->film_mm = told->dry_film_mm;
    } else if (told->wet_film_mm > 0) {
        sealer->by = RUNNEL_SEALER_WET_FILM;
        sealer->film_mm = told->wet_film_mm;
    } else {
        sealer->by = RUNNEL_SEALER_COVERAGE;
        sealer->m2_per_l = take(sealing, told->m2_per_l > 0, told->m2_per_l,
                                RUNNEL_DEFAULT_SHELLAC_M2_PER_L, RUNNEL_TAKEN_COVERAGE);
    }
}

static runnel_status take_cut(const runnel_job_sealer *told, runnel_sealing *sealing) {
    sealing->cut_lb_per_gal = take(sealing, told->cut_lb_per_gal > 0, told->cut_lb_per_gal,
                                   RUNNEL_DEFAULT_CUT_LB_PER_GAL, RUNNEL_TAKEN_CUT);
    const runnel_shellac shellac = {.cut_lb_per_gal = sealing->cut_lb_per_gal};
    runnel_status status = runnel_shellac_of(&shellac, &sealing->shellac);
    sealing->sealer.solids = sealing->shellac.volume_share;
    return status;
}

static runnel_status take_sealer(const runnel_job *job, runnel_sealing *sealing) {
    const runnel_job_sealer *told = &job->sealer;
    const runnel_sealer_kind_row *kind = runnel_sealer_kind_of(told->kind);
    sealing->kind = told->kind;
    sealing->taken = told->kind_is_default ? RUNNEL_TAKEN_KIND : 0;
    sealing->face_margin_mm = take(sealing, told->face_margin_mm >= 0, told->face_margin_mm,
                                   job->margin_mm, RUNNEL_TAKEN_FACE);
    sealing->sealer =
        (runnel_sealer){.solids = told->solids,
                        .thinner = told->thinner,
                        .loss = take(sealing, told->loss >= 0, told->loss, RUNNEL_SEALER_USUAL_LOSS,
                                     RUNNEL_TAKEN_LOSS),
                        .coats = told->coats ? told->coats : RUNNEL_DEFAULT_SEALER_COATS};
    if (!told->coats)
        sealing->taken |= RUNNEL_TAKEN_COATS;
    take_film(told, sealing);
    /* All of the resin stays, but for what it shrinks. */
    if (told->kind == RUNNEL_SEALER_RESIN && !(told->solids > 0))
        sealing->sealer.solids = 1 - job->resin.shrinkage;
    return kind->by_cut ? take_cut(told, sealing) : RUNNEL_OK;
}

/* ---- Areas ----------------------------------------------------------------------------------- */

static runnel_status add_margin(const runnel_making *making, const runnel_job_cavity *cavity,
                                double margin_mm, double *face_mm2) {
    runnel_source_shape source = {0};
    double band_mm2 = 0;
    if (cavity->source == RUNNEL_SOURCE_MEASURED || !(margin_mm > 0))
        return RUNNEL_OK;
    runnel_status status = runnel_source_shape_make(making, cavity, &source);
    if (!status)
        status = runnel_cavity_margin(source.shape, &cavity->cut, margin_mm, &band_mm2);
    runnel_source_shape_clear(&source);
    *face_mm2 += band_mm2;
    return status ? runnel_side_tell_cavity(making, cavity, status) : RUNNEL_OK;
}

static runnel_status add_cavity(runnel_making *making, const runnel_job_cavity *cavity,
                                const runnel_plan_cavity *planned, double margin_mm,
                                runnel_sealing_part *part) {
    part->wall_mm2 += planned->figures.wall_mm2;
    if (planned->measured && !(planned->figures.wall_mm2 > 0))
        return runnel_side_warn_cavity(making, "walls-unknown", planned,
                                       "its walls are not counted; give their area as 'wall area'");
    /* Where the tip enters nothing no edge is left to go beyond. */
    if (!(planned->figures.volume_mm3 > 0))
        return RUNNEL_OK;
    return add_margin(making, cavity, margin_mm, &part->face_mm2);
}

/* No more of the face than there is beside the cavities. Without a size nobody knows. */
static void cap_face(const runnel_job_piece *piece, const runnel_plan_cavity *planned,
                     runnel_sealing_part *part) {
    double free_mm2 = piece->length_mm * piece->width_mm;
    if (!(free_mm2 > 0))
        return;
    for (size_t i = 0; i < piece->cavity_count; i++)
        free_mm2 -= planned[i].figures.footprint_mm2;
    part->face_mm2 = fmin(part->face_mm2, fmax(free_mm2, 0));
}

static runnel_status add_part(runnel_making *making, const runnel_job_piece *piece,
                              const runnel_plan_cavity *planned, runnel_sealing *sealing) {
    runnel_sealing_part *part = &sealing->parts[sealing->part_count++];
    double count = (double)piece->count;
    *part = (runnel_sealing_part){.piece = runnel_copy_text(piece->name), .count = piece->count};
    runnel_status status = part->piece ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < piece->cavity_count && !status; i++)
        status =
            add_cavity(making, &piece->cavities[i], &planned[i], sealing->face_margin_mm, part);
    cap_face(piece, planned, part);
    if (!status)
        status =
            runnel_sealer_compute(&sealing->sealer, part->wall_mm2, part->face_mm2, &part->one);
    if (!status)
        status = runnel_sealer_compute(&sealing->sealer, count * part->wall_mm2,
                                       count * part->face_mm2, &part->all);
    sealing->wall_mm2 += count * part->wall_mm2;
    sealing->face_mm2 += count * part->face_mm2;
    return status;
}

static runnel_status add_parts(runnel_making *making, runnel_sealing *sealing) {
    const runnel_job *job = making->job;
    const runnel_plan_cavity *planned = sealing->plan.cavities;
    runnel_status status = RUNNEL_OK;
    sealing->parts = runnel_zeroed(job->piece_count, sizeof *sealing->parts);
    if (!sealing->parts)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < job->piece_count && !status; i++) {
        status = add_part(making, &job->pieces[i], planned, sealing);
        planned += job->pieces[i].cavity_count;
    }
    return status ? status
                  : runnel_sealer_compute(&sealing->sealer, sealing->wall_mm2, sealing->face_mm2,
                                          &sealing->all);
}

/* ---- What to make of it ---------------------------------------------------------------------- */

/* A and B for one coat: each coat is a mix of its own. */
static runnel_status weigh_coat(const runnel_job *job, runnel_sealing *sealing) {
    const runnel_resin *resin = &job->resin;
    runnel_allowed allowed;
    if (!(sealing->all.coat_product_mm3 > 0))
        return RUNNEL_OK;
    runnel_status status = runnel_weigh_allowed(
        &sealing->plan.mixture, resin->density_a_g_per_ml, resin->density_b_g_per_ml,
        sealing->all.coat_product_mm3, 0, &job->scale, resin->ratio_tolerance, &allowed);
    if (status && status != RUNNEL_NOT_POSSIBLE)
        return status;
    sealing->weighing = allowed.weighing;
    return RUNNEL_OK;
}

static runnel_status make_up(const runnel_job *job, runnel_sealing *sealing) {
    if (sealing->kind == RUNNEL_SEALER_RESIN)
        return weigh_coat(job, sealing);
    if (!(sealing->cut_lb_per_gal > 0))
        return RUNNEL_OK;
    const runnel_shellac shellac = {.cut_lb_per_gal = sealing->cut_lb_per_gal};
    return runnel_shellac_dissolve(&shellac, sealing->all.all_product_mm3, &sealing->dissolve);
}

/* ---- Times ----------------------------------------------------------------------------------- */

static void take_times(const runnel_job *job, runnel_sealing *sealing) {
    const runnel_job_sealer *told = &job->sealer;
    const runnel_drying *usual = runnel_sealer_kind_of(told->kind)->drying;
    runnel_drying drying = {NAN, NAN, NAN, NAN, NULL};
    sealing->until_s = sealing->scuff_s = NAN;
    if (told->kind == RUNNEL_SEALER_RESIN) {
        drying.recoat_from_s = drying.recoat_to_s = drying.hard_s =
            runnel_side_time_at_shop(job, job->resin.recoat_from_s);
        drying.source = job->resin.source;
        sealing->until_s = runnel_side_time_at_shop(job, job->resin.recoat_until_s);
        sealing->scuff_s =
            told->hard_s > 0 ? told->hard_s : runnel_side_time_at_shop(job, job->resin.sandable_s);
    } else if (usual) {
        drying = *usual;
    }
    if (told->recoat_s > 0)
        drying.recoat_from_s = drying.recoat_to_s = told->recoat_s;
    if (told->hard_s > 0)
        drying.hard_s = told->hard_s;
    if (sealing->sealer.coats == 1 && isnan(drying.recoat_from_s))
        drying.recoat_from_s = drying.recoat_to_s = 0;
    sealing->drying = drying;
    sealing->times_known = !runnel_sealer_times_of(&drying, sealing->sealer.coats, &sealing->times);
}

/* ---- Order ----------------------------------------------------------------------------------- */

/* The sealer that is used, where an order just says that it is sealed. */
static void take_order(const runnel_job *job, runnel_sealing *sealing) {
    runnel_step seal = runnel_sealer_kind_of(sealing->kind)->step;
    if (!job->order.count) {
        sealing->taken |= RUNNEL_TAKEN_ORDER;
        runnel_side_usual_order(seal, RUNNEL_STEP_OIL, &sealing->order);
        return;
    }
    sealing->order = job->order;
    for (size_t i = 0; i < sealing->order.count; i++)
        if (sealing->order.steps[i] == RUNNEL_STEP_SEAL)
            sealing->order.steps[i] = seal;
}

static runnel_status check_order(runnel_making *making, runnel_sealing *sealing) {
    take_order(making->job, sealing);
    runnel_status status =
        runnel_order_check(sealing->order.steps, sealing->order.count, &sealing->faults);
    if (!status)
        status = runnel_side_warn_order(making, &sealing->order, &sealing->faults);
    if (!status && !making->job->sealed)
        status = runnel_warn(making, "bare-job", "resin",
                             "the job sizes its resin for bare walls; when they are sealed, say "
                             "so: 'sealed: yes' in the job, or --sealed");
    const runnel_sealer_kind_row *kind = runnel_sealer_kind_of(sealing->kind);
    sealing->steps = RUNNEL_STEP_BIT(kind->step);
    if (sealing->kind == RUNNEL_SEALER_RESIN)
        sealing->steps |= RUNNEL_STEP_BIT(RUNNEL_STEP_MIX);
    sealing->cases = kind->cases;
    return status;
}

runnel_status runnel_sealing_beside(const runnel_making *of, runnel_sealing *sealing) {
    runnel_sealing made = {.part_count = 0};
    runnel_making making;
    runnel_status status = runnel_side_plan(&making, of, &made.plan);
    if (!status)
        status = take_sealer(of->job, &made);
    if (!status)
        status = add_parts(&making, &made);
    if (!status)
        status = make_up(of->job, &made);
    if (!status)
        status = check_order(&making, &made);
    if (status) {
        runnel_sealing_clear(&made);
        return status;
    }
    take_times(of->job, &made);
    *sealing = made;
    return making.impossible ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK;
}

runnel_status runnel_sealing_make(const runnel_job *job, const runnel_tables *tables,
                                  const runnel_letters *letters, runnel_problems *problems,
                                  runnel_sealing *sealing) {
    const runnel_making of = {
        .job = job, .tables = tables, .letters = letters, .problems = problems};
    return runnel_sealing_beside(&of, sealing);
}
