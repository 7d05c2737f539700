/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/job.h"

#include "base/memory.h"
#include "base/slice.h"
#include "runnel/units.h"

#include <math.h>
#include <string.h>

void runnel_job_init(runnel_job *job) {
    *job = (runnel_job){
        .resin_is_default = true,
        .scale = {.step_g = RUNNEL_DEFAULT_SCALE_STEP_G},
        .scale_is_default = true,
        .shop_degc = RUNNEL_DEFAULT_SHOP_DEGC,
        .shop_is_default = true,
        .humidity = -1,
        .moisture = -1,
        .destination = {RUNNEL_DEFAULT_SHOP_DEGC, -1},
        .crown_mm = RUNNEL_DEFAULT_CROWN_MM,
        .margin_mm = RUNNEL_DEFAULT_MARGIN_MM,
        .soak_mm = -1,
        .reserve = RUNNEL_DEFAULT_RESERVE,
        .top_up = RUNNEL_DEFAULT_TOP_UP,
        .cup = {.diameter_mm = RUNNEL_DEFAULT_CUP_DIAMETER_MM,
                .drain_s = RUNNEL_DEFAULT_CUP_DRAIN_S,
                .fixed_loss_g = NAN},
        .usable_share = RUNNEL_DEFAULT_USABLE_SHARE,
        .errors = {.depth_mm = RUNNEL_BAND_DEPTH_MM,
                   .angle_deg = RUNNEL_BAND_ANGLE_DEG,
                   .flatness_mm = RUNNEL_BAND_FLATNESS_MM,
                   .soak = RUNNEL_BAND_SOAK_SHARE},
        .errors_are_default = true,
        .bridge_mm = RUNNEL_DEFAULT_BRIDGE_MM,
        .floor_mm = RUNNEL_DEFAULT_FLOOR_MM,
        .flatten_mm = RUNNEL_DEFAULT_FLATTEN_MM,
        .oil = {.waste = -1},
        .wax = {.waste = -1},
        .level = {.under_is_default = true, .take_off_mm = -1, .thin_mm = -1},
        .sealer = {.kind_is_default = true, .loss = -1, .face_margin_mm = -1},
        .raisings = -1,
        .mask = true,
    };
}

static void clear_cavity(runnel_job_cavity *cavity) {
    runnel_free(cavity->name);
    runnel_free(cavity->colour);
    runnel_free(cavity->text);
    runnel_free(cavity->font);
    runnel_free(cavity->axes);
    runnel_free(cavity->cutter_name);
    runnel_form_clear(&cavity->form);
}

static void clear_piece(runnel_job_piece *piece) {
    for (size_t i = 0; i < piece->cavity_count; i++)
        clear_cavity(&piece->cavities[i]);
    runnel_free(piece->cavities);
    runnel_free(piece->name);
    runnel_free(piece->wood);
}

void runnel_job_clear(runnel_job *job) {
    if (!job)
        return;
    for (size_t i = 0; i < job->piece_count; i++)
        clear_piece(&job->pieces[i]);
    runnel_free(job->pieces);
    for (size_t i = 0; i < job->colour_count; i++)
        runnel_free(job->colours[i].name);
    runnel_free(job->colours);
    runnel_resin_clear(&job->resin);
    runnel_free(job->oil.name);
    runnel_free(job->wax.kind);
    runnel_free(job->days.hours);
    runnel_free(job->days.zone);
    runnel_free(job->name);
    runnel_free(job->id);
    runnel_free(job->customer);
    runnel_free(job->file);
    memset(job, 0, sizeof *job);
}

runnel_status runnel_job_add_piece(runnel_job *job, runnel_job_piece **piece) {
    runnel_status status = runnel_reserve(&job->pieces, &job->piece_capacity, job->piece_count + 1,
                                          sizeof *job->pieces);
    if (status)
        return status;
    runnel_job_piece *fresh = &job->pieces[job->piece_count++];
    *fresh = (runnel_job_piece){.count = 1};
    *piece = fresh;
    return RUNNEL_OK;
}

runnel_status runnel_job_add_cavity(runnel_job_piece *piece, runnel_job_cavity **cavity) {
    runnel_status status = runnel_reserve(&piece->cavities, &piece->cavity_capacity,
                                          piece->cavity_count + 1, sizeof *piece->cavities);
    if (status)
        return status;
    runnel_job_cavity *fresh = &piece->cavities[piece->cavity_count++];
    *fresh = (runnel_job_cavity){.source = RUNNEL_SOURCE_NONE};
    *cavity = fresh;
    return RUNNEL_OK;
}

runnel_status runnel_job_colour_named(runnel_job *job, const char *name,
                                      runnel_job_colour **colour) {
    for (size_t i = 0; i < job->colour_count; i++) {
        if (!strcmp(job->colours[i].name, name)) {
            *colour = &job->colours[i];
            return RUNNEL_OK;
        }
    }
    runnel_status status = runnel_reserve(&job->colours, &job->colour_capacity,
                                          job->colour_count + 1, sizeof *job->colours);
    if (status)
        return status;
    char *copy = runnel_copy_text(name);
    if (!copy)
        return RUNNEL_E_NO_MEMORY;
    job->colours[job->colour_count] = (runnel_job_colour){.name = copy, .tint = -1};
    *colour = &job->colours[job->colour_count++];
    return RUNNEL_OK;
}

/* Tells that a table has no row of a name, with the nearest name when there is one. */
static runnel_status no_row(const runnel_tables *tables, const char *which, const char *what,
                            const char *name, const char *also, runnel_problems *problems,
                            const runnel_place *place) {
    const char *nearest = runnel_tables_nearest(tables, which, name);
    char shown[RUNNEL_SHOWN_SIZE];
    runnel_slice_show(runnel_slice_of(name), shown);
    if (nearest)
        return runnel_problems_add(problems, RUNNEL_E_UNKNOWN, place,
                                   "no %s is called '%s'; the nearest name is '%s'%s", what, shown,
                                   nearest, also);
    return runnel_problems_add(problems, RUNNEL_E_UNKNOWN, place,
                               "no %s is called '%s'; 'runnel list %s' shows the names%s", what,
                               shown, which, also);
}

runnel_status runnel_job_set_resin(runnel_job *job, const char *name, const runnel_tables *tables,
                                   runnel_problems *problems, const runnel_place *place) {
    const char *wanted = name ? name : RUNNEL_DEFAULT_RESIN;
    const runnel_resin_row *row = runnel_tables_resin(tables, wanted);
    if (!row)
        return no_row(tables, "resins", "resin", wanted, "", problems, place);
    runnel_resin copy = {0};
    runnel_status status = runnel_resin_copy(&row->resin, &copy);
    if (status)
        return status;
    runnel_resin_clear(&job->resin);
    job->resin = copy;
    job->resin_is_default = !name;
    job->resin_changed = false;
    return RUNNEL_OK;
}

runnel_status runnel_job_cutter(const char *text, const runnel_tables *tables,
                                runnel_problems *problems, const runnel_place *place,
                                runnel_cutter *cutter) {
    const runnel_cutter_row *row = runnel_tables_cutter(tables, text);
    if (row) {
        *cutter = row->cutter;
        return RUNNEL_OK;
    }
    if (runnel_cutter_is_form(text))
        return runnel_cutter_parse(text, problems, place, cutter);
    return no_row(tables, "cutters", "cutter", text,
                  "; a cutter may also be written out, such as 'v 60 deg'", problems, place);
}

runnel_status runnel_measured_parse(const char *text, runnel_problems *problems,
                                    const runnel_place *place, double *volume_mm3) {
    double volume, mass_g;
    runnel_problems told;
    runnel_problems_init(&told);
    runnel_status status = runnel_quantity_parse(text, RUNNEL_VOLUME, &told, NULL, &volume);
    if (!status) {
        *volume_mm3 = volume;
    } else if (!runnel_quantity_parse(text, RUNNEL_MASS, NULL, NULL, &mass_g)) {
        *volume_mm3 = mass_g / RUNNEL_WATER_G_PER_ML * RUNNEL_MM3_PER_ML;
        status = RUNNEL_OK;
    } else {
        runnel_problems_add(problems, status, place,
                            "%s; the mass of the water that fills the cavity is as good, such as "
                            "'18 g'",
                            told.count ? told.items[0].text : runnel_status_text(status));
    }
    runnel_problems_clear(&told);
    return status;
}
