/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/levelling.h"

#include "base/memory.h"
#include "plan/side.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void clear_cavity(runnel_levelling_cavity *cavity) {
    for (size_t i = 0; i < cavity->stroke_count; i++)
        runnel_free(cavity->strokes[i].letter);
    runnel_free(cavity->strokes);
    runnel_levelled_clear(&cavity->figures);
}

void runnel_levelling_clear(runnel_levelling_plan *levelling) {
    if (!levelling)
        return;
    for (size_t i = 0; i < levelling->cavity_count; i++)
        clear_cavity(&levelling->cavities[i]);
    runnel_free(levelling->cavities);
    runnel_plan_clear(&levelling->plan);
    memset(levelling, 0, sizeof *levelling);
}

/* ---- The crown ------------------------------------------------------------------------------- */

static double take(runnel_levelling_plan *levelling, bool given, double value, double usual,
                   runnel_levelling_taken bit) {
    if (!given)
        levelling->taken |= bit;
    return given ? value : usual;
}

static runnel_status take_steps(const runnel_job *job, runnel_levelling_plan *levelling) {
    const runnel_job_level *told = &job->level;
    runnel_levelling *how = &levelling->levelling;
    levelling->taken = told->under_is_default ? RUNNEL_TAKEN_UNDER : 0;
    levelling->under = told->under;
    levelling->below_mm = told->below_mm;
    levelling->veneer_mm = told->veneer_mm;
    levelling->thin_mm = take(levelling, told->thin_mm >= 0, told->thin_mm, RUNNEL_DEFAULT_THIN_MM,
                              RUNNEL_TAKEN_THIN);
    how->crown_mm = job->crown_mm;
    how->high_spot_mm = told->high_spot_mm;
    how->pass_mm = take(levelling, told->pass_mm > 0, told->pass_mm, RUNNEL_DEFAULT_PASS_MM,
                        RUNNEL_TAKEN_PASS);
    how->sand_mm = take(levelling, told->take_off_mm >= 0, told->take_off_mm,
                        RUNNEL_DEFAULT_TAKE_OFF_MM, RUNNEL_TAKEN_TAKE_OFF);
    runnel_status status = runnel_standoff_of(&levelling->under, &levelling->standoff);
    if (status)
        return status;
    how->standoff_mm = levelling->standoff.likely_mm - told->below_mm;
    status = runnel_level_steps_of(how, &levelling->steps);
    const double low_mm = levelling->standoff.low_mm - told->below_mm;
    const double high_mm = levelling->standoff.high_mm - told->below_mm;
    levelling->left_low_mm = fmin(how->crown_mm, fmax(low_mm, 0));
    levelling->left_high_mm = fmin(how->crown_mm, fmax(high_mm, 0));
    levelling->sandable_s = runnel_side_time_at_shop(job, job->resin.sandable_s);
    return status;
}

static runnel_status warn_steps(runnel_making *making, runnel_levelling_plan *levelling) {
    const runnel_levelling *how = &levelling->levelling;
    const runnel_level_steps *steps = &levelling->steps;
    runnel_status status = RUNNEL_OK;
    if (how->crown_mm > 0 && !steps->passes)
        status = runnel_warn(making, "crown-untouched", "crown",
                             "the cutter passes %s mm above the face, and the crown is only %s mm "
                             "high: all of it is left to be sanded",
                             FIGURE(how->standoff_mm, 2), FIGURE(how->crown_mm, 2));
    if (!status && steps->scratch_mm > 0)
        status = runnel_warn(making, "high-spot", "board",
                             "where the face stands highest the cutter goes %s mm into the wood; "
                             "put more under the zero, or set it on the highest place",
                             FIGURE(steps->scratch_mm, 2));
    return status;
}

static runnel_status check_veneer(runnel_making *making, runnel_levelling_plan *levelling) {
    const double face_mm = levelling->steps.face_mm;
    if (!(levelling->veneer_mm > 0))
        return RUNNEL_OK;
    runnel_status status = runnel_veneer_check(face_mm, levelling->veneer_mm, &levelling->veneer,
                                               &levelling->veneer_left_mm);
    if (status || levelling->veneer == RUNNEL_VENEER_KEPT)
        return status;
    bool through = levelling->veneer == RUNNEL_VENEER_THROUGH;
    making->impossible = making->impossible || through;
    return runnel_warn(making, through ? "veneer-through" : "veneer-doubtful", "board",
                       "%s mm off the face goes through a veneer of %s mm", FIGURE(face_mm, 2),
                       FIGURE(levelling->veneer_mm, 2));
}

/* ---- Cavities -------------------------------------------------------------------------------- */

static runnel_status name_stroke(const runnel_job_cavity *cavity, const runnel_lettering *lettering,
                                 runnel_levelling_stroke *stroke) {
    stroke->place = runnel_letter_at(lettering, stroke->stroke.at);
    if (stroke->place == lettering->cluster_count)
        return RUNNEL_OK;
    const runnel_cluster *cluster = &lettering->clusters[stroke->place];
    stroke->letter =
        runnel_format_text("%.*s", (int)cluster->byte_count, cavity->text + cluster->first_byte);
    return stroke->letter ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
}

/* In the order of the text, and of a letter from left to right. */
static int by_place(const void *one, const void *other) {
    const runnel_levelling_stroke *a = one, *b = other;
    if (a->place != b->place)
        return a->place < b->place ? -1 : 1;
    if (a->stroke.at.x_mm != b->stroke.at.x_mm)
        return a->stroke.at.x_mm < b->stroke.at.x_mm ? -1 : 1;
    return (a->stroke.at.y_mm > b->stroke.at.y_mm) - (a->stroke.at.y_mm < b->stroke.at.y_mm);
}

static runnel_status name_strokes(const runnel_job_cavity *cavity,
                                  const runnel_source_shape *source,
                                  runnel_levelling_cavity *levelled) {
    const runnel_levelled *figures = &levelled->figures;
    if (!figures->stroke_count)
        return RUNNEL_OK;
    levelled->strokes = runnel_zeroed(figures->stroke_count, sizeof *levelled->strokes);
    if (!levelled->strokes)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < figures->stroke_count; i++) {
        runnel_levelling_stroke *stroke = &levelled->strokes[levelled->stroke_count++];
        stroke->stroke = figures->strokes[i];
        runnel_status status = name_stroke(cavity, &source->lettering, stroke);
        if (status)
            return status;
    }
    if (source->lettering.cluster_count)
        qsort(levelled->strokes, levelled->stroke_count, sizeof *levelled->strokes, by_place);
    return RUNNEL_OK;
}

static runnel_status warn_cavity(runnel_making *making, const runnel_levelling_cavity *levelled) {
    const runnel_levelled *figures = &levelled->figures;
    const runnel_plan_cavity *planned = levelled->planned;
    char text[200];
    /* Where nothing was cut, that is told already. */
    if (!(figures->footprint_before_mm2 > 0))
        return RUNNEL_OK;
    if (!(figures->footprint_mm2 > 0)) {
        making->impossible = true;
        snprintf(text, sizeof text, "nothing of it is left when %s mm are taken off the face",
                 FIGURE(figures->face_mm, 2));
        return runnel_side_warn_cavity(making, "all-gone", planned, text);
    }
    if (!figures->gone_count)
        return RUNNEL_OK;
    snprintf(text, sizeof text, "%zu %s gone when %s mm are taken off the face",
             figures->gone_count, figures->gone_count == 1 ? "stroke is" : "strokes are",
             FIGURE(figures->face_mm, 2));
    return runnel_side_warn_cavity(making, "strokes-gone", planned, text);
}

static runnel_status level_cavity(runnel_making *making, const runnel_job_cavity *cavity,
                                  const runnel_levelling_plan *levelling,
                                  runnel_levelling_cavity *levelled) {
    runnel_source_shape source = {0};
    if (cavity->source == RUNNEL_SOURCE_MEASURED)
        return runnel_side_warn_cavity(making, "not-known", levelled->planned,
                                       "what levelling does to it is not known, as it was "
                                       "measured, not worked out");
    runnel_status status = runnel_source_shape_make(making, cavity, &source);
    if (!status) {
        status = runnel_level_cavity(source.shape, &cavity->cut, levelling->steps.face_mm,
                                     levelling->thin_mm, &levelled->figures);
        if (status)
            runnel_side_tell_cavity(making, cavity, status);
    }
    levelled->known = !status;
    if (!status)
        status = name_strokes(cavity, &source, levelled);
    if (!status)
        status = warn_cavity(making, levelled);
    runnel_source_shape_clear(&source);
    return status;
}

static runnel_status level_cavities(runnel_making *making, runnel_levelling_plan *levelling) {
    const runnel_job *job = making->job;
    runnel_plan *plan = &levelling->plan;
    size_t index = 0;
    runnel_status first = RUNNEL_OK;
    levelling->cavities = runnel_zeroed(plan->cavity_count, sizeof *levelling->cavities);
    if (!levelling->cavities)
        return RUNNEL_E_NO_MEMORY;
    levelling->cavity_count = plan->cavity_count;
    for (size_t p = 0; p < job->piece_count; p++) {
        for (size_t c = 0; c < job->pieces[p].cavity_count; c++, index++) {
            levelling->cavities[index].planned = &plan->cavities[index];
            levelling->cavities[index].dip_mm = runnel_dip_of(job, &plan->cavities[index]);
            runnel_status status = level_cavity(making, &job->pieces[p].cavities[c], levelling,
                                                &levelling->cavities[index]);
            if (status == RUNNEL_E_NO_MEMORY)
                return status;
            first = first ? first : status;
        }
    }
    return first;
}

/* Dust of sanding lodges in open pores that nothing has closed. */
static runnel_status warn_pores(runnel_making *making) {
    const runnel_job *job = making->job;
    runnel_status status = RUNNEL_OK;
    if (job->sealed || runnel_side_names_sealer(&job->sealer))
        return RUNNEL_OK;
    for (size_t i = 0; i < job->piece_count && !status; i++) {
        const runnel_job_piece *piece = &job->pieces[i];
        const runnel_wood *wood =
            piece->wood ? runnel_tables_wood(making->tables, piece->wood) : NULL;
        if (wood && wood->open_pored)
            status = runnel_warn(making, "open-pores", piece->name,
                                 "%s has open pores, and dust of tinted resin stays in them: seal "
                                 "the face before the pour and keep it sealed until the resin is "
                                 "level, take the dust off with a vacuum, and do not sand it wet",
                                 wood->name);
    }
    return status;
}

runnel_status runnel_levelling_beside(const runnel_making *of, runnel_levelling_plan *levelling) {
    runnel_levelling_plan made = {.cavity_count = 0};
    runnel_making making;
    runnel_status status = runnel_side_plan(&making, of, &made.plan);
    if (!status)
        status = take_steps(of->job, &made);
    if (!status)
        status = warn_steps(&making, &made);
    if (!status)
        status = check_veneer(&making, &made);
    if (!status)
        status = level_cavities(&making, &made);
    if (!status)
        status = warn_pores(&making);
    if (status) {
        runnel_levelling_clear(&made);
        return status;
    }
    *levelling = made;
    return making.impossible ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK;
}

runnel_status runnel_levelling_make(const runnel_job *job, const runnel_tables *tables,
                                    const runnel_letters *letters, runnel_problems *problems,
                                    runnel_levelling_plan *levelling) {
    const runnel_making of = {
        .job = job, .tables = tables, .letters = letters, .problems = problems};
    return runnel_levelling_beside(&of, levelling);
}
