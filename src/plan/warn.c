/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a maker has to know before the can is opened.
 */
#include "plan/make.h"

#include "runnel/units.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

/** Tips outside this range are likelier a wrong unit than a cutter. Common practice: V cutters come
 * with points from sharp to about 1 mm. */
#define TIP_LEAST_MM 0.05
#define TIP_MOST_MM  1.0
/** Two ratios of one resin may differ by this share before they contradict each other. */
#define CONTRADICTION 0.02
/** Above this humidity amine hardeners tend to blush. Common practice. */
#define HUMIDITY_MOST 0.80

/** "piece / cavity" in a buffer. */
static const char *place_of(const runnel_job_piece *piece, const runnel_job_cavity *cavity,
                            char *buffer, size_t size) {
    snprintf(buffer, size, "%s / %s", piece->name, cavity->name);
    return buffer;
}

/** Letter whose box is nearest to a point, as "'R', " for a text; "" else. */
static const char *letter_at(const runnel_job_cavity *cavity, const runnel_source_shape *source,
                             runnel_point at, char *buffer, size_t size) {
    const runnel_lettering *l = &source->lettering;
    double best = INFINITY;
    buffer[0] = '\0';
    for (size_t i = 0; cavity->text && i < l->cluster_count; i++) {
        const runnel_box *b = &l->clusters[i].box;
        if (!(b->min_x_mm <= b->max_x_mm))
            continue;
        double dx = fmax(0, fmax(b->min_x_mm - at.x_mm, at.x_mm - b->max_x_mm));
        double dy = fmax(0, fmax(b->min_y_mm - at.y_mm, at.y_mm - b->max_y_mm));
        double gap = hypot(dx, dy);
        if (gap < best) {
            best = gap;
            snprintf(buffer, size, "'%.*s', ", (int)l->clusters[i].byte_count,
                     cavity->text + l->clusters[i].first_byte);
        }
    }
    return buffer;
}

/** What would make a too deep cavity fit: a limit, and for letters a cap height. */
static void depth_advice(const runnel_job_cavity *cavity, const runnel_source_shape *source,
                         const runnel_cavity *f, double allowed, char *buffer, size_t size) {
    if (cavity->cut.rule != RUNNEL_CUT_WALLS) {
        snprintf(buffer, size, "a depth of %.1f mm fits", floor(allowed * 10) / 10);
        return;
    }
    double tangent = tan(cavity->cut.cutter.angle_deg * pi / 360);
    double rho = 0.5 * cavity->cut.cutter.tip_mm;
    double scale = (allowed * tangent + rho) / (0.5 * f->widest_mm);
    if (source->lettering.cap_height_mm > 0 && scale < 1)
        snprintf(buffer, size, "a depth limit of %.1f mm fits, or a cap height of %.1f mm",
                 floor(allowed * 10) / 10,
                 floor(source->lettering.cap_height_mm * scale * 10) / 10);
    else
        snprintf(buffer, size, "a depth limit of %.1f mm fits", floor(allowed * 10) / 10);
}

static runnel_status warn_depth(runnel_making *making, const runnel_job_piece *piece,
                                const runnel_job_cavity *cavity, const runnel_source_shape *source,
                                const runnel_plan_cavity *planned, const char *where) {
    const runnel_cavity *f = &planned->figures;
    double allowed = piece->thickness_mm - making->job->floor_mm;
    if (!(piece->thickness_mm > 0) || f->deepest_mm <= allowed)
        return RUNNEL_OK;
    bool is_through = f->deepest_mm >= piece->thickness_mm;
    making->impossible = making->impossible || is_through;
    char advice[160];
    if (allowed > 0)
        depth_advice(cavity, source, f, allowed, advice, sizeof advice);
    else
        snprintf(advice, sizeof advice, "the board is too thin for any carving");
    return runnel_warn(making, is_through ? "cuts-through" : "too-deep", where,
                       "deepest %.1f mm in a board of %.1f mm leaves %.1f mm of wood, not the "
                       "%.1f mm asked for; %s",
                       f->deepest_mm, piece->thickness_mm,
                       fmax(0, piece->thickness_mm - f->deepest_mm), making->job->floor_mm, advice);
}

static runnel_status warn_size(runnel_making *making, const runnel_job_piece *piece,
                               const runnel_source_shape *source, const runnel_plan_cavity *planned,
                               const char *where) {
    double w = planned->width_mm, h = planned->height_mm;
    double length = piece->length_mm, width = piece->width_mm;
    if (!(length > 0) || !(width > 0) || (w <= length && h <= width))
        return RUNNEL_OK;
    bool is_text = source->lettering.cap_height_mm > 0;
    if (!is_text && w <= width && h <= length)
        return RUNNEL_OK; /* a drawing or groove may lie the other way */
    making->impossible = true;
    char advice[96] = "";
    if (is_text)
        snprintf(advice, sizeof advice, "; a cap height of %.1f mm fits without any border",
                 floor(source->lettering.cap_height_mm * fmin(length / w, width / h) * 10) / 10);
    return runnel_warn(making, "too-wide", where,
                       "%.1f x %.1f mm does not fit on a piece of %.1f x %.1f mm%s", w, h, length,
                       width, advice);
}

static runnel_status warn_strokes(runnel_making *making, const runnel_job_cavity *cavity,
                                  const runnel_source_shape *source,
                                  const runnel_plan_cavity *planned, const char *where) {
    const runnel_cavity *f = &planned->figures;
    char letter[64];
    letter_at(cavity, source, f->narrowest_at, letter, sizeof letter);
    double face = cavity->cut.rule == RUNNEL_CUT_WALLS
                      ? cavity->cut.cutter.tip_mm
                      : 2 * runnel_cutter_face_radius_mm(&cavity->cut.cutter, cavity->cut.depth_mm);
    if (!(f->volume_mm3 > 0)) {
        making->impossible = true;
        return runnel_warn(making, "nothing-cut", where,
                           "the cutter, %.2f mm wide, enters no part of the shape, whose widest "
                           "place is %.2f mm",
                           face, f->widest_mm);
    }
    if (f->uncut_places == 0)
        return RUNNEL_OK;
    return runnel_warn(making, "thin-strokes", where,
                       "%zu place%s narrower than the cutter's %.2f mm stay%s uncut, %.2f mm2 in "
                       "all; the narrowest, %.3f mm, is at %sx %.1f y %.1f mm from the lower left",
                       f->uncut_places, f->uncut_places == 1 ? "" : "s", face,
                       f->uncut_places == 1 ? "s" : "", f->uncut_mm2, f->narrowest_mm, letter,
                       f->narrowest_at.x_mm, f->narrowest_at.y_mm);
}

static runnel_status warn_layer(runnel_making *making, const runnel_plan_cavity *planned,
                                const char *where) {
    double deepest = planned->figures.deepest_mm, most = making->job->resin.deepest_layer_mm;
    if (!(deepest > most))
        return RUNNEL_OK;
    return runnel_warn(making, "layers", where,
                       "%.1f mm deep, but '%s' is poured at most %.1f mm deep at once: pour %.0f "
                       "layers and keep to the recoat window",
                       deepest, making->job->resin.name, most, ceil(deepest / most));
}

runnel_status runnel_warn_cavity(runnel_making *making, const runnel_job_piece *piece,
                                 const runnel_job_cavity *cavity, const runnel_source_shape *source,
                                 const runnel_plan_cavity *planned) {
    char where[256];
    bool assumed = false;
    place_of(piece, cavity, where, sizeof where);
    runnel_status status = warn_depth(making, piece, cavity, source, planned, where);
    if (!status && cavity->source != RUNNEL_SOURCE_MEASURED) {
        status = warn_size(making, piece, source, planned, where);
        if (!status)
            status = warn_strokes(making, cavity, source, planned, where);
    }
    if (!status)
        status = warn_layer(making, planned, where);
    double tip = cavity->cut.cutter.tip_mm;
    if (!status && tip > 0 && (tip < TIP_LEAST_MM || tip > TIP_MOST_MM))
        status = runnel_warn(making, "odd-tip", where,
                             "a tip flat of %.3f mm (%.4f in) is unusual; was it meant in the "
                             "other unit?",
                             tip, tip / RUNNEL_MM_PER_INCH);
    double soak = runnel_soak_of(making, piece, &assumed);
    if (!status && assumed && planned->figures.wall_mm2 > 0)
        status = runnel_warn(making, "soak-assumed", where,
                             "no wood is named: a soak of %.0f ml per m2 of %s wall is assumed",
                             soak * 1e3, making->job->sealed ? "sealed" : "bare");
    return status;
}

static runnel_status warn_density(runnel_making *making, char part, const char *name,
                                  double density) {
    runnel_density_range range = runnel_density_published(part);
    if (density >= range.low_g_per_ml && density <= range.high_g_per_ml)
        return RUNNEL_OK;
    return runnel_warn(making, "density", "resin",
                       "%s at %.3f g/ml is outside the published %.2f to %.2f g/ml (%s)", name,
                       density, range.low_g_per_ml, range.high_g_per_ml, range.source);
}

static runnel_status warn_ratio(runnel_making *making) {
    const runnel_job *job = making->job;
    const runnel_resin *r = &job->resin;
    if (job->other_ratio.basis == RUNNEL_BASIS_NONE)
        return RUNNEL_OK;
    bool first_by_volume = r->ratio.basis == RUNNEL_BASIS_VOLUME;
    const runnel_ratio *volume = first_by_volume ? &r->ratio : &job->other_ratio;
    const runnel_ratio *weight = first_by_volume ? &job->other_ratio : &r->ratio;
    double difference = 0;
    runnel_status status = runnel_ratio_contradiction(volume, weight, r->density_a_g_per_ml,
                                                      r->density_b_g_per_ml, &difference);
    if (status || fabs(difference) <= CONTRADICTION)
        return status;
    return runnel_warn(making, "ratio-contradiction", "resin",
                       "%g:%g by volume and %g:%g by weight do not go together at %.3f and %.3f "
                       "g/ml: the first gives %.1f %% %s hardener; look at the sheet again",
                       volume->part_a, volume->part_b, weight->part_a, weight->part_b,
                       r->density_a_g_per_ml, r->density_b_g_per_ml, 100 * fabs(difference),
                       difference > 0 ? "more" : "less");
}

static runnel_status warn_shop(runnel_making *making) {
    const runnel_job *job = making->job;
    runnel_status status = RUNNEL_OK;
    if (job->shop_degc < job->resin.lowest_degc) {
        making->impossible = true;
        status = runnel_warn(making, "too-cold", "shop",
                             "%.1f degC is below the %.1f degC that '%s' needs; below it no time "
                             "can be told: warm the shop and the board, or take a resin for the "
                             "cold",
                             job->shop_degc, job->resin.lowest_degc, job->resin.name);
    }
    if (!status && job->humidity > HUMIDITY_MOST)
        status = runnel_warn(making, "damp", "shop",
                             "%.0f %% humidity: above %.0f %% hardeners tend to blush, a waxy "
                             "film; wash it off with water before the next coat",
                             100 * job->humidity, 100 * HUMIDITY_MOST);
    return status;
}

static bool is_used(const runnel_job *job, const char *colour) {
    for (size_t p = 0; p < job->piece_count; p++)
        for (size_t c = 0; c < job->pieces[p].cavity_count; c++)
            if (strcmp(job->pieces[p].cavities[c].colour, colour) == 0)
                return true;
    return false;
}

runnel_status runnel_warn_job(runnel_making *making) {
    const runnel_job *job = making->job;
    runnel_mixture mixture;
    runnel_status status = runnel_mixture_of(&job->resin.ratio, job->resin.density_a_g_per_ml,
                                             job->resin.density_b_g_per_ml, &mixture);
    if (!status)
        status = warn_shop(making);
    if (!status)
        status = warn_ratio(making);
    if (!status)
        status = warn_density(making, 'A', "part A", job->resin.density_a_g_per_ml);
    if (!status)
        status = warn_density(making, 'B', "part B", job->resin.density_b_g_per_ml);
    if (!status)
        status = warn_density(making, 'M', "the mix", mixture.density_g_per_ml);
    for (size_t i = 0; i < job->colour_count && !status; i++)
        if (!is_used(job, job->colours[i].name))
            status = runnel_warn(making, "colour-unused", "colours",
                                 "'%s' is listed but no cavity has it", job->colours[i].name);
    return status;
}

static runnel_status warn_tint(runnel_making *making, const runnel_plan_batch *batch,
                               const char *where) {
    double cap = making->job->resin.tint_cap;
    if (batch->tint > cap)
        return runnel_warn(making, "tint-cap", where,
                           "tint at %.1f %% is over the %.1f %% that '%s' bears; more leaves it "
                           "soft",
                           100 * batch->tint, 100 * cap, making->job->resin.name);
    if (batch->tint > 0 && !(batch->weighing.tint_g > 0))
        return runnel_warn(making, "tint-below-step", where,
                           "%.3f g of tint is less than the scale can show; weigh it for a larger "
                           "batch of part A and take a share",
                           batch->tint * batch->weighing.total_g);
    return RUNNEL_OK;
}

static runnel_status warn_scale(runnel_making *making, const runnel_plan_batch *batch,
                                const char *where) {
    const runnel_job *job = making->job;
    const runnel_resin *resin = &job->resin;
    double tolerance = resin->ratio_tolerance;
    if (!(tolerance > 0) || batch->weighing.ratio_error <= tolerance)
        return RUNNEL_OK;
    runnel_allowed allowed;
    runnel_status status = runnel_weigh_allowed(&making->plan->mixture, resin->density_a_g_per_ml,
                                                resin->density_b_g_per_ml, batch->terms.total_mm3,
                                                batch->tint, &job->scale, tolerance, &allowed);
    if (status == RUNNEL_NOT_POSSIBLE)
        return runnel_warn(making, "small-batch", where,
                           "%.1f g may be %.1f %% off in the ratio, and on this scale no batch "
                           "keeps the %.1f %% that '%s' allows; take a better scale",
                           batch->weighing.total_g, 100 * batch->weighing.ratio_error,
                           100 * tolerance, resin->name);
    if (status)
        return status;
    return runnel_warn(making, "small-batch", where,
                       "%.1f g on a scale that shows %g g may be %.1f %% off in the ratio; for the "
                       "%.1f %% that '%s' allows, mix at least %.1f g or take a finer scale",
                       batch->weighing.total_g, job->scale.step_g,
                       100 * batch->weighing.ratio_error, 100 * tolerance, resin->name,
                       allowed.weighing.total_g);
}

runnel_status runnel_warn_batch(runnel_making *making, const runnel_plan_batch *batch) {
    const runnel_resin *resin = &making->job->resin;
    char where[160];
    snprintf(where, sizeof where, "batch %s", batch->colour);
    runnel_status status = warn_tint(making, batch, where);
    if (!status && batch->terms.total_mm3 > 0)
        status = warn_scale(making, batch, where);
    double mass = batch->weighing.total_g;
    if (!status && mass > resin->largest_mass_g)
        status = runnel_warn(making, "large-mass", where,
                             "%.0f g at once is over the %.0f g that '%s' bears in one cup: it can "
                             "heat itself, smoke and burn; mix it in several cups",
                             mass, resin->largest_mass_g, resin->name);
    else if (!status && mass > resin->pot_mass_g)
        status = runnel_warn(making, "pot-life-mass", where,
                             "the pot life was stated for %.0f g; %.0f g in one cup set sooner",
                             resin->pot_mass_g, mass);
    return status;
}
