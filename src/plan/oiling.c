/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/oiling.h"

#include "base/memory.h"
#include "plan/side.h"

#include <math.h>
#include <string.h>

void runnel_oiling_clear(runnel_oiling_plan *oiling) {
    if (!oiling)
        return;
    for (size_t i = 0; i < oiling->part_count; i++)
        runnel_free(oiling->parts[i].piece);
    runnel_free(oiling->parts);
    runnel_free(oiling->coats_mm3);
    runnel_plan_clear(&oiling->plan);
    runnel_order_faults_clear(&oiling->faults);
    memset(oiling, 0, sizeof *oiling);
}

/* ---- The oil --------------------------------------------------------------------------------- */

static double take(runnel_oiling_plan *oiling, bool given, double value, double usual,
                   runnel_oiling_taken bit) {
    if (!given)
        oiling->taken |= bit;
    return given ? value : usual;
}

static runnel_status take_oil(const runnel_making *making, runnel_oiling_plan *oiling) {
    const runnel_job_oil *told = &making->job->oil;
    const char *name = told->name ? told->name : RUNNEL_DEFAULT_OIL;
    const runnel_oil_row *row = runnel_tables_oil(making->tables, name);
    runnel_place place = {.file = making->job->file ? making->job->file : "command line",
                          .field = "oil"};
    if (!row)
        return runnel_problems_add(making->problems, RUNNEL_E_MISSING, &place,
                                   "an 'oil' is needed, as the tables do not hold the usual one, "
                                   "'%s'",
                                   name);
    const runnel_oil *oil = oiling->oil = &row->oil;
    oiling->taken = told->name ? 0 : RUNNEL_TAKEN_OIL;
    oiling->oiling =
        (runnel_oiling){.uptake_mm = take(oiling, told->uptake_mm > 0, told->uptake_mm,
                                          oil->uptake_ml_per_m2 / 1000, RUNNEL_TAKEN_UPTAKE),
                        .end_factor = take(oiling, told->end_factor > 0, told->end_factor,
                                           oil->end_grain_factor, RUNNEL_TAKEN_END_GRAIN),
                        .fall = told->fall,
                        .waste = take(oiling, told->waste >= 0, told->waste,
                                      RUNNEL_DEFAULT_OIL_WASTE, RUNNEL_TAKEN_WASTE),
                        .coats = (size_t)take(oiling, told->coats > 0, (double)told->coats,
                                              oil->coats, RUNNEL_TAKEN_OIL_COATS)};
    oiling->times_known = !runnel_oil_times_of(oil, oiling->oiling.coats, &oiling->times);
    return RUNNEL_OK;
}

/* ---- Areas ----------------------------------------------------------------------------------- */

static runnel_place place_of(const runnel_making *making, const runnel_job_piece *piece,
                             const char *field) {
    const char *file = making->job->file;
    return (runnel_place){.file = file ? file : "command line",
                          .line = piece->line,
                          .column = piece->column,
                          .field = file ? field : NULL};
}

/* A groove or slots that are not filled; none when there is none. */
static runnel_status add_groove(const runnel_making *making, const runnel_job_piece *piece,
                                const runnel_groove_form *groove, bool holds,
                                runnel_recess *recess) {
    runnel_cavity figures = {.volume_mm3 = 0};
    runnel_place place = place_of(making, piece, holds ? "finger holds" : "juice groove");
    if (!groove->count)
        return RUNNEL_OK;
    runnel_status status =
        groove->width_mm > 0
            ? runnel_juice_groove(groove->length_mm, groove->width_mm, groove->corner_mm,
                                  groove->nose_mm, groove->depth_mm, &figures)
            : runnel_slot(groove->length_mm, groove->nose_mm, groove->depth_mm, &figures);
    *recess = (runnel_recess){.kind = holds ? RUNNEL_RECESS_PLAIN : RUNNEL_RECESS_JUICE,
                              .face = groove->face,
                              .count = groove->count,
                              .footprint_mm2 = figures.footprint_mm2,
                              .wall_mm2 = figures.wall_mm2,
                              .volume_mm3 = figures.volume_mm3};
    if (!status)
        return RUNNEL_OK;
    return runnel_problems_add(making->problems, status, &place, "the %s of '%s': %s",
                               holds ? "finger holds" : "juice groove", piece->name,
                               runnel_status_text(status));
}

static runnel_status add_cavities(runnel_making *making, const runnel_job_piece *piece,
                                  const runnel_plan_cavity *planned, runnel_recess *recesses) {
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < piece->cavity_count && !status; i++) {
        const runnel_cavity *figures = &planned[i].figures;
        recesses[i] = (runnel_recess){.kind = RUNNEL_RECESS_RESIN,
                                      .face = RUNNEL_FACE_TOP,
                                      .count = 1,
                                      .footprint_mm2 = figures->footprint_mm2,
                                      .wall_mm2 = figures->wall_mm2,
                                      .volume_mm3 = figures->volume_mm3};
        if (planned[i].measured && !(figures->footprint_mm2 > 0) && making->job->file)
            status = runnel_side_warn_cavity(making, "footprint-unknown", &planned[i],
                                             "its resin is not left out; give its 'footprint'");
    }
    return status;
}

static runnel_status area_of(const runnel_making *making, const runnel_job_piece *piece,
                             const runnel_recess *recesses, size_t count, runnel_oil_area *area) {
    const runnel_oil_board board = {.length_mm = piece->length_mm,
                                    .width_mm = piece->width_mm,
                                    .thickness_mm = piece->thickness_mm,
                                    .grain = piece->grain,
                                    .chamfer_mm = piece->chamfer_mm,
                                    .edges = piece->chamfered ? piece->chamfered : RUNNEL_EDGES_ALL,
                                    .recesses = recesses,
                                    .recess_count = count};
    runnel_place place = place_of(making, piece, "size");
    if (!(piece->length_mm > 0))
        return runnel_problems_add(making->problems, RUNNEL_E_MISSING, &place,
                                   "'%s' needs its size to be oiled, such as '450 x 300 x 38 mm'",
                                   piece->name);
    runnel_status status = runnel_oil_area_of(&board, area);
    if (status == RUNNEL_E_CONFLICT)
        return runnel_problems_add(making->problems, status, &place,
                                   "what is carved into '%s' takes more of a face than it has",
                                   piece->name);
    if (status)
        return runnel_problems_add(making->problems, status, &place,
                                   "the chamfers of '%s' take more than half of a side",
                                   piece->name);
    return RUNNEL_OK;
}

static runnel_status add_area(runnel_making *making, const runnel_job_piece *piece,
                              const runnel_plan_cavity *planned, runnel_oil_area *area) {
    enum { GROOVES = 2 };
    size_t count = piece->cavity_count;
    runnel_recess *recesses = runnel_zeroed(count + GROOVES, sizeof *recesses);
    if (!recesses)
        return RUNNEL_E_NO_MEMORY;
    runnel_status status = add_cavities(making, piece, planned, recesses);
    if (!status)
        status = add_groove(making, piece, &piece->juice, false, &recesses[count]);
    count += piece->juice.count > 0;
    if (!status)
        status = add_groove(making, piece, &piece->holds, true, &recesses[count]);
    count += piece->holds.count > 0;
    if (!status)
        status = area_of(making, piece, recesses, count, area);
    runnel_free(recesses);
    return status;
}

static runnel_status add_part(runnel_making *making, const runnel_job_piece *piece,
                              const runnel_plan_cavity *planned, runnel_oiling_plan *oiling) {
    runnel_oiling_part *part = &oiling->parts[oiling->part_count++];
    const double count = (double)piece->count;
    *part = (runnel_oiling_part){.piece = runnel_copy_text(piece->name), .count = piece->count};
    runnel_status status = part->piece ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
    if (!status)
        status = add_area(making, piece, planned, &part->area);
    if (!status)
        status = runnel_oil_compute(&oiling->oiling, part->area.face_mm2, part->area.end_mm2,
                                    &part->one);
    if (!status)
        status = runnel_oil_compute(&oiling->oiling, count * part->area.face_mm2,
                                    count * part->area.end_mm2, &part->all);
    oiling->face_mm2 += count * part->area.face_mm2;
    oiling->end_mm2 += count * part->area.end_mm2;
    return status;
}

/* All pieces, so that all problems are told. */
static runnel_status add_parts(runnel_making *making, runnel_oiling_plan *oiling) {
    const runnel_job *job = making->job;
    const runnel_plan_cavity *planned = oiling->plan.cavities;
    runnel_status first = RUNNEL_OK;
    oiling->parts = runnel_zeroed(job->piece_count, sizeof *oiling->parts);
    if (!oiling->parts)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < job->piece_count; i++) {
        runnel_status status = add_part(making, &job->pieces[i], planned, oiling);
        if (status == RUNNEL_E_NO_MEMORY)
            return status;
        first = first ? first : status;
        planned += job->pieces[i].cavity_count;
    }
    return first;
}

/* ---- Amounts --------------------------------------------------------------------------------- */

static runnel_status add_up(runnel_oiling_plan *oiling) {
    const size_t coats = oiling->oiling.coats;
    runnel_status status =
        runnel_oil_compute(&oiling->oiling, oiling->face_mm2, oiling->end_mm2, &oiling->all);
    if (status)
        return status;
    oiling->coats_mm3 = runnel_zeroed(coats, sizeof *oiling->coats_mm3);
    if (!oiling->coats_mm3)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < coats && !status; i++)
        status = runnel_oil_coat(&oiling->oiling, oiling->face_mm2, oiling->end_mm2, i,
                                 &oiling->coats_mm3[i]);
    return status;
}

static runnel_status melt_wax(const runnel_making *making, runnel_oiling_plan *oiling) {
    const runnel_job_wax *told = &making->job->wax;
    runnel_wax_recipe recipe = told->recipe;
    size_t count;
    if (recipe.oil_by == RUNNEL_BASIS_NONE)
        return RUNNEL_OK;
    oiling->wax = told->kind ? runnel_wax_find(told->kind) : runnel_waxes(&count);
    if (!oiling->wax)
        return RUNNEL_E_UNKNOWN;
    oiling->wax_coats = told->coats ? told->coats : 1;
    recipe.oil_g_per_ml = oiling->oil->density_g_per_ml;
    recipe.wax_g_per_ml = oiling->wax->density_g_per_ml;
    runnel_status status = runnel_wax_blend_of(&recipe, &oiling->blend);
    if (!status)
        status = runnel_wax_for_area(
            &oiling->blend, oiling->face_mm2 + oiling->end_mm2, told->coat_mm, oiling->wax_coats,
            told->waste >= 0 ? told->waste : RUNNEL_DEFAULT_OIL_WASTE, &oiling->melt);
    return status;
}

/* ---- Order ----------------------------------------------------------------------------------- */

/* The oil that is used, where an order just says that it is oiled. */
static void take_order(const runnel_job *job, runnel_oiling_plan *oiling) {
    runnel_step oil = oiling->oil->dries ? RUNNEL_STEP_OIL_DRYING : RUNNEL_STEP_OIL;
    if (!job->order.count) {
        oiling->taken |= RUNNEL_TAKEN_OIL_ORDER;
        runnel_side_usual_order(runnel_sealer_kind_of(job->sealer.kind)->step, oil, &oiling->order);
        oiling->order.count -= !oiling->wax;
        return;
    }
    oiling->order = job->order;
    for (size_t i = 0; i < oiling->order.count; i++)
        if (oiling->order.steps[i] == RUNNEL_STEP_OIL)
            oiling->order.steps[i] = oil;
}

static runnel_status check_order(runnel_making *making, runnel_oiling_plan *oiling) {
    take_order(making->job, oiling);
    oiling->steps = runnel_oil_step_bit(oiling->oil) | RUNNEL_STEP_BIT(RUNNEL_STEP_FOOD);
    oiling->cases = runnel_oil_cases(oiling->oil);
    if (oiling->wax)
        oiling->steps |= RUNNEL_STEP_BIT(RUNNEL_STEP_WAX);
    runnel_status status =
        runnel_order_check(oiling->order.steps, oiling->order.count, &oiling->faults);
    return status ? status : runnel_side_warn_order(making, &oiling->order, &oiling->faults);
}

runnel_status runnel_oiling_beside(const runnel_making *of, runnel_oiling_plan *oiling) {
    runnel_oiling_plan made = {.part_count = 0};
    runnel_making making;
    runnel_status status = runnel_side_plan(&making, of, &made.plan);
    if (!status)
        status = take_oil(&making, &made);
    if (!status)
        status = add_parts(&making, &made);
    if (!status)
        status = add_up(&made);
    if (!status)
        status = melt_wax(&making, &made);
    if (!status)
        status = check_order(&making, &made);
    if (status) {
        runnel_oiling_clear(&made);
        return status;
    }
    *oiling = made;
    return making.impossible ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK;
}

runnel_status runnel_oiling_make(const runnel_job *job, const runnel_tables *tables,
                                 const runnel_letters *letters, runnel_problems *problems,
                                 runnel_oiling_plan *oiling) {
    const runnel_making of = {
        .job = job, .tables = tables, .letters = letters, .problems = problems};
    return runnel_oiling_beside(&of, oiling);
}
