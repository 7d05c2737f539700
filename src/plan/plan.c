/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/plan.h"

#include "base/memory.h"
#include "job/fields.h"
#include "plan/make.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static void clear_warning(runnel_warning *warning) {
    runnel_free(warning->code);
    runnel_free(warning->text);
    runnel_free(warning->where);
}

void runnel_plan_clear(runnel_plan *plan) {
    if (!plan)
        return;
    for (size_t i = 0; i < plan->cavity_count; i++) {
        runnel_free(plan->cavities[i].name);
        runnel_free(plan->cavities[i].piece);
        runnel_free(plan->cavities[i].colour);
        runnel_free(plan->cavities[i].font_file);
        runnel_free(plan->cavities[i].sections);
        runnel_layers_clear(&plan->cavities[i].layers);
    }
    for (size_t i = 0; i < plan->batch_count; i++)
        runnel_plan_batch_clear(&plan->batches[i]);
    for (size_t i = 0; i < plan->warning_count; i++)
        clear_warning(&plan->warnings[i]);
    runnel_free(plan->cavities);
    runnel_free(plan->batches);
    runnel_free(plan->bridges);
    runnel_free(plan->warnings);
    memset(plan, 0, sizeof *plan);
}

runnel_status runnel_warn(runnel_making *making, const char *code, const char *where,
                          const char *format, ...) {
    runnel_plan *plan = making->plan;
    runnel_warning warning = {runnel_copy_text(code), NULL, runnel_copy_text(where)};
    va_list arguments;
    va_start(arguments, format);
    warning.text = runnel_format_list(format, arguments);
    va_end(arguments);
    runnel_status status = runnel_reserve(&plan->warnings, &plan->warning_capacity,
                                          plan->warning_count + 1, sizeof *plan->warnings);
    if (status || !warning.code || !warning.text || !warning.where) {
        clear_warning(&warning);
        return RUNNEL_E_NO_MEMORY;
    }
    plan->warnings[plan->warning_count++] = warning;
    return RUNNEL_OK;
}

/** Figures of a measured cavity: what was told, nothing else. */
static void take_measured(const runnel_job_cavity *cavity, runnel_plan_cavity *planned) {
    planned->measured = true;
    planned->figures.volume_mm3 = cavity->measured_mm3;
    planned->figures.footprint_mm2 = cavity->measured_footprint_mm2;
    planned->figures.wall_mm2 = cavity->measured_wall_mm2;
    planned->figures.deepest_mm = cavity->measured_deepest_mm;
}

/** Tells that the job's sections are too many. */
static runnel_status tell_sections(const runnel_making *making, const runnel_plan_cavity *planned) {
    const runnel_job *job = making->job;
    char path[RUNNEL_PLACE_SIZE];
    double step = job->section_step_mm, deepest = planned->figures.deepest_mm;
    double least = ceil(deepest / (RUNNEL_SECTIONS_MOST - 1) * 1e5) / 1e5;
    runnel_spot whole = {RUNNEL_NOWHERE, RUNNEL_NOWHERE};
    runnel_place place = {
        .file = job->file ? job->file : "command line",
        .field = runnel_field_path(job, whole, RUNNEL_FIELD_SECTIONS, path, sizeof path)};
    return runnel_problems_add(
        making->problems, RUNNEL_E_RANGE, &place,
        "'%s' in '%s' is %s mm deep: sections '%s mm' apart would be more than %d; at least %s mm "
        "are needed",
        planned->name, planned->piece, FIGURE(deepest, 3), FIGURE(step, 6), RUNNEL_SECTIONS_MOST,
        FIGURE(least, 5));
}

/** Section areas at every step of the job, from the face down to the deepest place. */
static runnel_status take_sections(const runnel_making *making, const runnel_job_cavity *cavity,
                                   runnel_shape *shape, runnel_plan_cavity *planned) {
    double step = making->job->section_step_mm, deepest = planned->figures.deepest_mm;
    if (!(step > 0) || !(deepest > 0))
        return RUNNEL_OK;
    double levels = floor(deepest / step * (1 + 1e-12)) + 1;
    if (levels > RUNNEL_SECTIONS_MOST)
        return tell_sections(making, planned);
    size_t count = (size_t)levels;
    runnel_status status = RUNNEL_OK;
    planned->sections = runnel_zeroed(count, sizeof *planned->sections);
    if (!planned->sections)
        return RUNNEL_E_NO_MEMORY;
    planned->section_count = count;
    for (size_t i = 0; i < count && !status; i++) {
        runnel_section *section = &planned->sections[i];
        section->level_mm = fmin((double)i * step, deepest);
        status = runnel_cavity_section(shape, &cavity->cut, section->level_mm, &section->area_mm2);
    }
    return status;
}

static runnel_status compute(const runnel_making *making, const runnel_job_cavity *cavity,
                             runnel_source_shape *source, runnel_plan_cavity *planned) {
    const runnel_job *job = making->job;
    bool has_margin = job->crown_mm > 0 && job->margin_mm > 0;
    if (has_margin)
        runnel_cavity_expect_margin(source->shape, &cavity->cut, job->margin_mm);
    runnel_status status = runnel_cavity_compute(source->shape, &cavity->cut, &planned->figures);
    bool is_cut = !status && planned->figures.volume_mm3 > 0;
    if (is_cut && has_margin)
        status =
            runnel_cavity_margin(source->shape, &cavity->cut, job->margin_mm, &planned->margin_mm2);
    if (!status)
        status = take_sections(making, cavity, source->shape, planned);
    if (status)
        return status;
    runnel_face_size(source->shape, &cavity->cut, &planned->width_mm, &planned->height_mm);
    if (source->lettering.font_file) {
        planned->font_file = runnel_copy_text(source->lettering.font_file);
        if (!planned->font_file)
            status = RUNNEL_E_NO_MEMORY;
    }
    return status;
}

static runnel_status add_planned(runnel_making *making, const runnel_job_piece *piece,
                                 const runnel_job_cavity *cavity, runnel_plan_cavity **planned) {
    runnel_plan *plan = making->plan;
    runnel_status status = runnel_reserve(&plan->cavities, &plan->cavity_capacity,
                                          plan->cavity_count + 1, sizeof *plan->cavities);
    if (status)
        return status;
    runnel_plan_cavity *made = &plan->cavities[plan->cavity_count++];
    *made = (runnel_plan_cavity){.name = runnel_copy_text(cavity->name),
                                 .piece = runnel_copy_text(piece->name),
                                 .colour = runnel_copy_text(cavity->colour),
                                 .piece_count = piece->count};
    *planned = made;
    return made->name && made->piece && made->colour ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
}

/** Tells why a cavity cannot be planned, unless that is told already. */
static void tell_failure(const runnel_making *making, const runnel_job_piece *piece,
                         const runnel_job_cavity *cavity, runnel_status status, size_t told) {
    char path[RUNNEL_PLACE_SIZE];
    runnel_place place = runnel_place_of(making->job, cavity, RUNNEL_ASPECT_SHAPE, path);
    if (!making->problems || making->problems->count == told)
        runnel_problems_add(making->problems, status, &place, "'%s' in '%s': %s", cavity->name,
                            piece->name, runnel_status_text(status));
}

static runnel_status plan_cavity(runnel_making *making, size_t index,
                                 const runnel_job_cavity *cavity) {
    const runnel_job_piece *piece = &making->job->pieces[index];
    runnel_plan_cavity *planned = NULL;
    runnel_source_shape source = {0};
    size_t told = making->problems ? making->problems->count : 0;
    runnel_status status = add_planned(making, piece, cavity, &planned);
    if (status)
        return status;
    status = runnel_source_shape_make(making, cavity, &source);
    if (!status && cavity->source == RUNNEL_SOURCE_MEASURED)
        take_measured(cavity, planned);
    else if (!status)
        status = compute(making, cavity, &source, planned);
    if (!status)
        status = runnel_band_cavity(making, piece, planned);
    if (!status)
        status = runnel_layer_cavity(making, cavity, source.shape, planned);
    if (!status)
        status = runnel_place_cavity(making, index, cavity, &source);
    if (status)
        tell_failure(making, piece, cavity, status, told);
    else
        status = runnel_warn_cavity(making, piece, cavity, &source, planned);
    runnel_source_shape_clear(&source);
    return status;
}

/** Plans every cavity, so that all problems are told; returns the first failure. */
static runnel_status plan_cavities(runnel_making *making) {
    runnel_status first = RUNNEL_OK;
    for (size_t p = 0; p < making->job->piece_count; p++) {
        const runnel_job_piece *piece = &making->job->pieces[p];
        for (size_t c = 0; c < piece->cavity_count; c++) {
            runnel_status status = plan_cavity(making, p, &piece->cavities[c]);
            if (status == RUNNEL_E_NO_MEMORY)
                return status;
            if (status && !first)
                first = status;
        }
    }
    return first;
}

static runnel_status mix(runnel_making *making) {
    const runnel_resin *resin = &making->job->resin;
    runnel_status status = runnel_mixture_of(&resin->ratio, resin->density_a_g_per_ml,
                                             resin->density_b_g_per_ml, &making->plan->mixture);
    if (!status)
        return RUNNEL_OK;
    runnel_place place = {.file = making->job->file ? making->job->file : "command line",
                          .field = "resin"};
    return runnel_problems_add(making->problems, status, &place, "the mix of '%s': %s",
                               resin->name ? resin->name : "", runnel_status_text(status));
}

runnel_status runnel_plan_make(const runnel_job *job, const runnel_tables *tables,
                               const runnel_letters *letters, runnel_problems *problems,
                               runnel_plan *plan) {
    runnel_plan made = {0};
    runnel_making making = {
        .job = job, .tables = tables, .letters = letters, .problems = problems, .plan = &made};
    runnel_status status = mix(&making);
    if (!status)
        status = runnel_warn_job(&making);
    if (!status)
        status = plan_cavities(&making);
    if (!status)
        status = runnel_places_check(&making);
    runnel_places_clear(&making);
    if (!status)
        status = runnel_batches_make(&making);
    for (size_t i = 0; i < made.batch_count && !status; i++)
        status = runnel_warn_batch(&making, &made.batches[i]);
    if (status) {
        runnel_plan_clear(&made);
        return status;
    }
    *plan = made;
    return making.impossible ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK;
}
