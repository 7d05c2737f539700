/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/damping.h"

#include "base/memory.h"
#include "plan/side.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/** A difference in moisture, in percent of the dry mass, that shows in a board: common practice. */
static const double moves_percent = 2;

void runnel_damping_clear(runnel_damping *damping) {
    if (!damping)
        return;
    for (size_t i = 0; i < damping->part_count; i++)
        runnel_free(damping->parts[i].bands);
    runnel_free(damping->parts);
    runnel_plan_clear(&damping->plan);
    memset(damping, 0, sizeof *damping);
}

/* Tells a problem of a key, or of its option. @return status */
static runnel_status tell(const runnel_making *making, runnel_status status, const char *key,
                          const char *option, const char *text) {
    const char *file = making->job->file;
    runnel_place place = {.file = file ? file : "command line", .field = file ? key : option};
    return runnel_problems_add(making->problems, status, &place, "%s", text);
}

/* ---- Air --------------------------------------------------------------------------------------
 */

static runnel_status take_shop(const runnel_making *making, runnel_damping *damping) {
    const runnel_job *job = making->job;
    runnel_damping_air *shop = &damping->shop;
    *shop = (runnel_damping_air){job->shop_degc, NAN, NAN};
    damping->dew_degc = NAN;
    damping->is_measured = job->moisture >= 0;
    if (job->humidity >= 0) {
        shop->humidity = job->humidity;
        if (runnel_wood_moisture(shop->degc, shop->humidity, &shop->moisture_percent))
            return tell(making, RUNNEL_E_RANGE, "shop.temperature", "--temperature",
                        "the moisture of wood is known for air from -1 to 132 °C");
        if (runnel_dew_point(shop->degc, shop->humidity, &damping->dew_degc))
            damping->dew_degc = NAN; /* there is none of dry air */
    } else if (!damping->is_measured) {
        return tell(making, RUNNEL_E_MISSING, "shop.humidity", "--humidity",
                    "the humidity of the shop is needed, such as '50 %', or the 'moisture' of the "
                    "wood as it was measured");
    }
    damping->from_percent = damping->is_measured ? 100 * job->moisture : shop->moisture_percent;
    return RUNNEL_OK;
}

static runnel_status take_destination(const runnel_making *making, runnel_damping *damping) {
    const runnel_job_destination *told = &making->job->destination;
    runnel_damping_air *there = &damping->destination;
    damping->destination_is_told = told->humidity >= 0;
    *there = (runnel_damping_air){told->degc, NAN, NAN};
    if (damping->destination_is_told) {
        there->humidity = told->humidity;
        if (runnel_wood_moisture(there->degc, there->humidity, &there->moisture_percent))
            return tell(making, RUNNEL_E_RANGE, "destination.temperature",
                        "--destination-temperature",
                        "the moisture of wood is known for air from -1 to 132 °C");
    } else {
        there->moisture_percent = runnel_use_is_outdoors(making->job->upkeep.use)
                                      ? RUNNEL_MOISTURE_OUTDOORS
                                      : RUNNEL_MOISTURE_INDOORS;
    }
    damping->to_percent = there->moisture_percent;
    return RUNNEL_OK;
}

static runnel_status warn_of_air(runnel_making *making, const runnel_damping *damping) {
    double more = damping->from_percent - damping->to_percent;
    runnel_status status = RUNNEL_OK;
    if (damping->shop.humidity > RUNNEL_DAMP_HUMIDITY)
        status = runnel_warn(making, "damp", "shop",
                             "%s %% humidity is too much for resin: above %s %% a waxy film may "
                             "form, to be washed off with water before sanding or the next layer",
                             FIGURE(100 * damping->shop.humidity, 0),
                             FIGURE(100 * RUNNEL_DAMP_HUMIDITY, 0));
    if (!status && fabs(more) > moves_percent)
        status = runnel_warn(making, more > 0 ? "wood-wet" : "wood-dry", "wood",
                             "at %s %% it is %s than where it will live, at %s %%: let it rest in "
                             "air like that before it is carved",
                             FIGURE(damping->from_percent, 1), more > 0 ? "wetter" : "drier",
                             FIGURE(damping->to_percent, 1));
    return status;
}

/* ---- Pieces -----------------------------------------------------------------------------------
 */

/* Across the grain a piece or a box is as long as its side there; end grain goes across it both
 * ways. */
static double across(runnel_grain grain, double length_mm, double width_mm) {
    return grain == RUNNEL_GRAIN_LENGTH  ? width_mm
           : grain == RUNNEL_GRAIN_WIDTH ? length_mm
                                         : fmax(length_mm, width_mm);
}

static double across_box(runnel_grain grain, const runnel_box *box) {
    return across(grain, box->max_x_mm - box->min_x_mm, box->max_y_mm - box->min_y_mm);
}

static bool touch(const runnel_box *one, const runnel_box *other) {
    return one->min_x_mm <= other->max_x_mm && other->min_x_mm <= one->max_x_mm &&
           one->min_y_mm <= other->max_y_mm && other->min_y_mm <= one->max_y_mm;
}

static void widen(runnel_box *box, const runnel_box *by) {
    box->min_x_mm = fmin(box->min_x_mm, by->min_x_mm);
    box->max_x_mm = fmax(box->max_x_mm, by->max_x_mm);
    box->min_y_mm = fmin(box->min_y_mm, by->min_y_mm);
    box->max_y_mm = fmax(box->max_y_mm, by->max_y_mm);
}

/* The longest of a text: letters stand apart, unless the boxes of neighbours meet. */
static double longest_letters(const runnel_lettering *lettering, runnel_grain grain) {
    runnel_box together = {0};
    double longest_mm = 0;
    bool any = false;
    for (size_t i = 0; i < lettering->cluster_count; i++) {
        const runnel_box *box = &lettering->clusters[i].box;
        if (!(box->max_x_mm > box->min_x_mm))
            continue; /* a space */
        if (any && touch(&together, box))
            widen(&together, box);
        else
            together = *box;
        any = true;
        longest_mm = fmax(longest_mm, across_box(grain, &together));
    }
    return longest_mm;
}

static runnel_status measure_band(const runnel_making *making, const runnel_job_cavity *cavity,
                                  const runnel_plan_cavity *planned, runnel_grain grain,
                                  double *across_mm) {
    *across_mm =
        planned->measured ? (double)NAN : across(grain, planned->width_mm, planned->height_mm);
    if (cavity->source != RUNNEL_SOURCE_TEXT)
        return RUNNEL_OK;
    runnel_source_shape source = {0};
    runnel_status status = runnel_source_shape_make(making, cavity, &source);
    if (!status)
        *across_mm = fmin(*across_mm, longest_letters(&source.lettering, grain));
    runnel_source_shape_clear(&source);
    return status;
}

static runnel_status warn_of_band(runnel_making *making, const runnel_plan_cavity *planned,
                                  const runnel_damping_band *band) {
    char text[300];
    if (!(band->across_mm > RUNNEL_DAMP_BAND_MM))
        return RUNNEL_OK;
    snprintf(text, sizeof text,
             "the resin runs %s mm across the grain, and the wood moves where it does "
             "not: above %s mm it may crack or come loose at its ends; part it, or take "
             "a tougher resin",
             FIGURE(band->across_mm, 0), FIGURE(RUNNEL_DAMP_BAND_MM, 0));
    return runnel_side_warn_cavity(making, "long-band", planned, text);
}

/* The bands of one piece; `planned` are its cavities. */
static runnel_status add_bands(runnel_making *making, const runnel_damping *damping,
                               const runnel_job_piece *piece, const runnel_plan_cavity *planned,
                               runnel_damping_part *part) {
    runnel_status status = RUNNEL_OK;
    part->bands = runnel_zeroed(piece->cavity_count, sizeof *part->bands);
    if (!part->bands)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < piece->cavity_count && !status; i++) {
        runnel_damping_band *band = &part->bands[part->band_count];
        band->cavity = planned[i].name;
        status =
            measure_band(making, &piece->cavities[i], &planned[i], piece->grain, &band->across_mm);
        if (status || isnan(band->across_mm))
            continue;
        part->band_count++;
        band->is_known = part->wood && !runnel_damp_band_of(
                                           band->across_mm, part->wood->coefficient_tangential,
                                           part->wood->shrinkage_tangential_percent,
                                           damping->from_percent, damping->to_percent, &band->band);
        status = warn_of_band(making, &planned[i], band);
    }
    return status;
}

static double change_of(const runnel_damping *damping, double across_mm, double coefficient,
                        double shrinkage_percent) {
    double change_mm = NAN;
    runnel_status status =
        runnel_wood_change(across_mm, coefficient, shrinkage_percent, damping->from_percent,
                           damping->to_percent, &change_mm);
    return status ? (double)NAN : change_mm;
}

static runnel_status add_part(runnel_making *making, runnel_damping *damping, size_t index,
                              const runnel_plan_cavity *planned) {
    const runnel_job_piece *piece = &making->job->pieces[index];
    runnel_damping_part *part = &damping->parts[damping->part_count++];
    *part = (runnel_damping_part){
        .piece = piece->name,
        .wood = piece->wood ? runnel_tables_wood(making->tables, piece->wood) : NULL,
        .count = piece->count,
        .across_mm = piece->length_mm > 0 ? across(piece->grain, piece->length_mm, piece->width_mm)
                                          : (double)NAN,
        .flat_change_mm = NAN,
        .quarter_change_mm = NAN};
    if (part->wood && !isnan(part->across_mm)) {
        part->flat_change_mm =
            change_of(damping, part->across_mm, part->wood->coefficient_tangential,
                      part->wood->shrinkage_tangential_percent);
        part->quarter_change_mm =
            change_of(damping, part->across_mm, part->wood->coefficient_radial,
                      part->wood->shrinkage_radial_percent);
    }
    runnel_status status =
        part->wood ? RUNNEL_OK
                   : runnel_warn(making, "wood-unknown", piece->name,
                                 "its wood is not told, so how much it moves is not known");
    return status ? status : add_bands(making, damping, piece, planned, part);
}

static runnel_status add_parts(runnel_making *making, runnel_damping *damping) {
    const runnel_job *job = making->job;
    size_t cavity = 0;
    runnel_status status = RUNNEL_OK;
    damping->parts = runnel_zeroed(job->piece_count, sizeof *damping->parts);
    if (!damping->parts)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < job->piece_count && !status; i++) {
        status = add_part(making, damping, i, damping->plan.cavities + cavity);
        cavity += job->pieces[i].cavity_count;
    }
    return status;
}

runnel_status runnel_damping_make(const runnel_job *job, const runnel_tables *tables,
                                  const runnel_letters *letters, runnel_problems *problems,
                                  runnel_damping *damping) {
    runnel_damping made = {.part_count = 0};
    const runnel_making of = {
        .job = job, .tables = tables, .letters = letters, .problems = problems};
    runnel_making making = of;
    runnel_status shop = take_shop(&making, &made);
    runnel_status there = take_destination(&making, &made);
    runnel_status status = runnel_side_plan(&making, &of, &made.plan);
    if (status != RUNNEL_E_NO_MEMORY && (shop || there))
        status = shop ? shop : there;
    if (!status)
        status = warn_of_air(&making, &made);
    if (!status)
        status = add_parts(&making, &made);
    if (status) {
        runnel_damping_clear(&made);
        return status;
    }
    *damping = made;
    return making.impossible ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK;
}
