/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/check.h"

#include "base/memory.h"

#include <stdlib.h>
#include <string.h>

/* ---- Labels ---------------------------------------------------------------------------------- */

static void labels_free(runnel_label *labels, size_t count) {
    for (size_t i = 0; labels && i < count; i++)
        runnel_free(labels[i].own);
    runnel_free(labels);
}

static int by_index(const void *one, const void *other) {
    const runnel_label *a = one, *b = other;
    return (a->index > b->index) - (a->index < b->index);
}

static int by_name(const void *one, const void *other) {
    const runnel_label *a = one, *b = other;
    int order = strcmp(a->name, b->name);
    return order ? order : by_index(one, other);
}

static void find_equal(runnel_label *labels, size_t count) {
    qsort(labels, count, sizeof *labels, by_name);
    for (size_t i = 0; i < count; i++) {
        bool again = i && !strcmp(labels[i].name, labels[i - 1].name);
        labels[i].first = again ? labels[i - 1].first : labels[i].index;
    }
    qsort(labels, count, sizeof *labels, by_index);
}

/* The name of item i is names[i], each `stride` bytes from the one before, or else "<word> <i+1>".
 */
static runnel_label *labels_make(char *const *names, size_t stride, size_t count,
                                 const char *word) {
    runnel_label *labels = runnel_zeroed(count, sizeof *labels);
    if (!labels)
        return NULL;
    for (size_t i = 0; i < count; i++) {
        const char *given;
        memcpy(&given, (const char *)names + i * stride, sizeof given);
        if (!given)
            labels[i].own = runnel_format_text("%s %zu", word, i + 1);
        labels[i].name = given ? given : labels[i].own;
        labels[i].index = i;
        if (!labels[i].name) {
            labels_free(labels, count);
            return NULL;
        }
    }
    find_equal(labels, count);
    return labels;
}

runnel_status runnel_filling_names(const runnel_job *job, runnel_filling *filling) {
    if (!job->piece_count)
        return RUNNEL_OK;
    filling->cavities = runnel_zeroed(job->piece_count, sizeof *filling->cavities);
    filling->pieces =
        labels_make(&job->pieces->name, sizeof *job->pieces, job->piece_count, "piece");
    if (!filling->cavities || !filling->pieces)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < job->piece_count; i++) {
        const runnel_job_piece *piece = &job->pieces[i];
        if (!piece->cavity_count)
            continue;
        filling->cavities[i] = labels_make(&piece->cavities->name, sizeof *piece->cavities,
                                           piece->cavity_count, "cavity");
        if (!filling->cavities[i])
            return RUNNEL_E_NO_MEMORY;
    }
    return RUNNEL_OK;
}

void runnel_filling_clear(const runnel_job *job, runnel_filling *filling) {
    labels_free(filling->pieces, job->piece_count);
    for (size_t i = 0; filling->cavities && i < job->piece_count; i++)
        labels_free(filling->cavities[i], job->pieces[i].cavity_count);
    runnel_free(filling->cavities);
    for (size_t i = 0; filling->colours && i < filling->colour_count; i++)
        runnel_free(filling->colours[i]);
    runnel_free(filling->colours);
    runnel_resin_clear(&filling->resin);
    memset(filling, 0, sizeof *filling);
}

/* ---- Filling in ------------------------------------------------------------------------------ */

static size_t count_colourless(const runnel_job *job) {
    size_t count = 0;
    for (size_t i = 0; i < job->piece_count; i++)
        for (size_t k = 0; k < job->pieces[i].cavity_count; k++)
            count += !job->pieces[i].cavities[k].colour;
    return count;
}

static bool has_clear(const runnel_job *job) {
    for (size_t i = 0; i < job->piece_count; i++)
        for (size_t k = 0; k < job->pieces[i].cavity_count; k++)
            if (!strcmp(job->pieces[i].cavities[k].colour ? job->pieces[i].cavities[k].colour : "",
                        RUNNEL_DEFAULT_COLOUR))
                return true;
    return false;
}

static runnel_status make_colours(const runnel_job *job, runnel_filling *filling) {
    filling->colour_count = count_colourless(job);
    filling->colours = runnel_zeroed(filling->colour_count, sizeof *filling->colours);
    if (!filling->colours)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < filling->colour_count; i++)
        if (!(filling->colours[i] = runnel_copy_text(RUNNEL_DEFAULT_COLOUR)))
            return RUNNEL_E_NO_MEMORY;
    return RUNNEL_OK;
}

/* Nobody tints what is clear, unless the job says so. */
static runnel_status clear_colour(runnel_job *job) {
    size_t before = job->colour_count;
    runnel_job_colour *colour;
    runnel_status status = runnel_job_colour_named(job, RUNNEL_DEFAULT_COLOUR, &colour);
    if (!status && job->colour_count > before)
        colour->tint = 0;
    return status;
}

static void take_name(runnel_label *label, char **name) {
    if (!*name)
        *name = label->own;
    label->own = NULL;
}

static void take_all(runnel_filling *filling, runnel_job *job) {
    size_t colour = 0;
    for (size_t i = 0; i < job->piece_count; i++) {
        runnel_job_piece *piece = &job->pieces[i];
        take_name(&filling->pieces[i], &piece->name);
        for (size_t k = 0; k < piece->cavity_count; k++) {
            runnel_job_cavity *cavity = &piece->cavities[k];
            take_name(&filling->cavities[i][k], &cavity->name);
            if (cavity->colour)
                continue;
            cavity->colour = filling->colours[colour];
            filling->colours[colour++] = NULL;
        }
    }
    if (filling->resin.name) {
        job->resin = filling->resin;
        filling->resin = (runnel_resin){0};
        job->resin_is_default = true;
    }
}

runnel_status runnel_filling_take(const runnel_tables *tables, runnel_filling *filling,
                                  runnel_job *job) {
    const runnel_resin_row *row = runnel_tables_resin(tables, RUNNEL_DEFAULT_RESIN);
    if (!job->resin.name && !row)
        return RUNNEL_E_MISSING;
    runnel_status status = make_colours(job, filling);
    if (!status && !job->resin.name)
        status = runnel_resin_copy(&row->resin, &filling->resin);
    if (!status && (filling->colour_count || has_clear(job)))
        status = clear_colour(job);
    if (!status)
        take_all(filling, job);
    return status;
}
