/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a maker has to know of a cavity before it is carved.
 */
#include "plan/make.h"

#include "base/memory.h"
#include "runnel/units.h"

#include <math.h>
#include <stdio.h>

/** Tips outside this range are likelier a wrong unit than a cutter. Common practice: V cutters come
 * with points from sharp to about 1 mm. */
#define TIP_LEAST_MM 0.05
#define TIP_MOST_MM  1.0
/** Room for an advice, for the part of it that tells a height, and for a time. */
#define ADVICE_SIZE 200
#define HEIGHT_SIZE 120
#define TIME_SIZE   48

/** A cavity that is looked at. */
typedef struct subject {
    const runnel_job_piece *piece;
    const runnel_job_cavity *cavity;
    const runnel_source_shape *source;
    const runnel_plan_cavity *planned;
    const char *where; /**< "piece / cavity" */
} subject;

/** Letter whose box is nearest to a point, as "'R', " for a text in a new block; "" else. */
static char *letter_at(const subject *of, runnel_point at) {
    const runnel_lettering *l = &of->source->lettering;
    size_t letter = of->cavity->text ? runnel_letter_at(l, at) : l->cluster_count;
    return letter < l->cluster_count
               ? runnel_format_text("'%.*s', ", (int)l->clusters[letter].byte_count,
                                    of->cavity->text + l->clusters[letter].first_byte)
               : runnel_copy_text("");
}

/** "a cap height of 61.2 mm" that fits, after some words; "" when none is known. */
static runnel_status height_advice(const runnel_making *making, const subject *of,
                                   const runnel_fit *fit, const char *before, const char *after,
                                   char *advice) {
    double height_mm = 0;
    advice[0] = '\0';
    if (of->cavity->source != RUNNEL_SOURCE_TEXT)
        return RUNNEL_OK;
    runnel_status status = runnel_fitting_height(making, of->cavity, of->planned, fit, &height_mm);
    if (!status && height_mm > 0)
        snprintf(advice, HEIGHT_SIZE, "%sa %s height of %s mm%s", before,
                 of->cavity->cap_height_mm > 0 ? "cap" : "text", FIGURE(height_mm, 1), after);
    return status;
}

/** What would make a too deep cavity fit: a depth or limit, and for letters a height. */
static runnel_status depth_advice(const runnel_making *making, const subject *of, double allowed,
                                  char *advice) {
    bool by_walls = of->cavity->cut.rule == RUNNEL_CUT_WALLS;
    double depth = runnel_tenth_below(allowed);
    char height[HEIGHT_SIZE] = "";
    if (!(depth > 0)) {
        snprintf(advice, ADVICE_SIZE, "the board is too thin for any carving");
        return RUNNEL_OK;
    }
    runnel_fit fit = {.deepest_mm = allowed};
    runnel_status status =
        by_walls ? height_advice(making, of, &fit, ", or ", "", height) : RUNNEL_OK;
    snprintf(advice, ADVICE_SIZE, "a %s of %s mm fits%s", by_walls ? "depth limit" : "depth",
             FIGURE(depth, 1), height);
    return status;
}

/** A hole that was there already: it goes through, or its depth is as it is. */
static runnel_status warn_hole(runnel_making *making, const subject *of) {
    double deepest = of->planned->figures.deepest_mm, thickness = of->piece->thickness_mm;
    if (deepest < thickness)
        return RUNNEL_OK;
    return runnel_warn(making, "goes-through", of->where,
                       "%s mm deep in a board of %s mm: close it from below, and seal its walls, "
                       "before the pour",
                       FIGURE(deepest, 2), FIGURE(thickness, 2));
}

static runnel_status warn_depth(runnel_making *making, const subject *of) {
    double deepest = of->planned->figures.deepest_mm, thickness = of->piece->thickness_mm;
    double allowed = thickness - making->job->floor_mm;
    if (!(thickness > 0))
        return RUNNEL_OK;
    if (of->planned->measured)
        return warn_hole(making, of);
    bool is_through = deepest >= thickness;
    if (!is_through && deepest <= allowed + RUNNEL_FIT_SLACK_MM)
        return RUNNEL_OK;
    making->impossible = making->impossible || is_through;
    char advice[ADVICE_SIZE];
    runnel_status status = depth_advice(making, of, allowed, advice);
    if (status)
        return status;
    return runnel_warn(making, is_through ? "cuts-through" : "too-deep", of->where,
                       "deepest %s mm in a board of %s mm leaves %s mm of wood, not the %s mm "
                       "asked for; %s",
                       FIGURE(deepest, 2), FIGURE(thickness, 2),
                       FIGURE(fmax(0, thickness - deepest), 2), FIGURE(making->job->floor_mm, 2),
                       advice);
}

static bool fits_on(double width, double height, double length, double across) {
    return width <= length + RUNNEL_FIT_SLACK_MM && height <= across + RUNNEL_FIT_SLACK_MM;
}

static runnel_status warn_size(runnel_making *making, const subject *of) {
    double w = of->planned->width_mm, h = of->planned->height_mm;
    double length = of->piece->length_mm, width = of->piece->width_mm;
    bool may_turn = of->cavity->source != RUNNEL_SOURCE_TEXT; /* a drawing may lie the other way */
    if (!(length > 0) || !(width > 0) || fits_on(w, h, length, width) ||
        (may_turn && fits_on(h, w, length, width)))
        return RUNNEL_OK;
    making->impossible = true;
    char advice[HEIGHT_SIZE];
    runnel_fit fit = {.length_mm = length, .width_mm = width};
    runnel_status status =
        height_advice(making, of, &fit, "; ", " fits without any border", advice);
    if (status)
        return status;
    return runnel_warn(making, "too-wide", of->where,
                       "%s x %s mm does not fit on a piece of %s x %s mm%s", FIGURE(w, 2),
                       FIGURE(h, 2), FIGURE(length, 2), FIGURE(width, 2), advice);
}

static runnel_status warn_thin(runnel_making *making, const subject *of, double face) {
    const runnel_cavity *f = &of->planned->figures;
    bool one = f->uncut_places == 1;
    char *letter = letter_at(of, f->narrowest_at);
    if (!letter)
        return RUNNEL_E_NO_MEMORY;
    runnel_status status = runnel_warn(
        making, "thin-strokes", of->where,
        "%zu place%s narrower than the cutter's %s mm stay%s uncut, with sharp corners %s mm2 in "
        "all; the narrowest, %s mm, is at %sx %s y %s mm from the lower left",
        f->uncut_places, one ? "" : "s", FIGURE(face, 2), one ? "s" : "", FIGURE(f->uncut_mm2, 2),
        FIGURE(f->narrowest_mm, 3), letter, FIGURE(f->narrowest_at.x_mm, 1),
        FIGURE(f->narrowest_at.y_mm, 1));
    runnel_free(letter);
    return status;
}

static runnel_status warn_strokes(runnel_making *making, const subject *of) {
    const runnel_cavity *f = &of->planned->figures;
    const runnel_cut *cut = &of->cavity->cut;
    double face = cut->rule == RUNNEL_CUT_WALLS
                      ? cut->cutter.tip_mm
                      : 2 * runnel_cutter_face_radius_mm(&cut->cutter, cut->depth_mm);
    if (f->volume_mm3 > 0)
        return f->uncut_places > 0 ? warn_thin(making, of, face) : RUNNEL_OK;
    making->impossible = true;
    return runnel_warn(making, "nothing-cut", of->where,
                       "the cutter, %s mm wide, enters no part of the shape, whose widest place is "
                       "%s mm",
                       FIGURE(face, 2), FIGURE(f->widest_mm, 2));
}

/** When the next layer is due, as the end of a sentence. */
static void recoat_advice(const runnel_layers *layers, char *advice) {
    char from[TIME_SIZE], until[TIME_SIZE];
    double from_s = layers->count > 1 ? layers->items[1].earliest_s : NAN;
    double until_s = layers->count > 1 ? layers->items[1].latest_s : NAN;
    if (isnan(from_s) || isnan(until_s))
        snprintf(advice, ADVICE_SIZE, " and keep to the recoat window");
    else
        snprintf(advice, ADVICE_SIZE,
                 ", each from %s on and, without sanding, until %s after the one before",
                 runnel_time_from_text(from_s, from, sizeof from),
                 runnel_time_until_text(until_s, until, sizeof until));
}

static runnel_status warn_layer(runnel_making *making, const subject *of) {
    const runnel_resin *resin = &making->job->resin;
    const runnel_layers *layers = &of->planned->layers;
    double deepest = of->planned->figures.deepest_mm, most = resin->deepest_layer_mm;
    double crown = runnel_crown_of(making->job, of->planned);
    char advice[ADVICE_SIZE], with_crown[HEIGHT_SIZE] = "";
    if (!(deepest > 0) || !(deepest + crown > most + RUNNEL_FIT_SLACK_MM))
        return RUNNEL_OK;
    if (crown > 0)
        snprintf(with_crown, sizeof with_crown, " and %s mm of crown", FIGURE(crown, 2));
    if (!layers->count)
        return runnel_warn(making, "layers", of->where,
                           "%s mm deep%s, but '%s' is poured at most %s mm deep at once, which "
                           "makes more than %d layers",
                           FIGURE(deepest, 2), with_crown, resin->name, FIGURE(most, 2),
                           RUNNEL_LAYERS_MOST);
    recoat_advice(layers, advice);
    return runnel_warn(making, "layers", of->where,
                       "%s mm deep%s, but '%s' is poured at most %s mm deep at once: pour %zu "
                       "layers of %s mm%s%s",
                       FIGURE(deepest, 2), with_crown, resin->name, FIGURE(most, 2), layers->count,
                       FIGURE(layers->items[0].pour_mm, 2), advice,
                       isnan(layers->volume_mm3) ? "; what goes into each is by its thickness, as "
                                                   "the shape is not known"
                                                 : "");
}

static runnel_status warn_tip(runnel_making *making, const subject *of) {
    double tip = of->cavity->cut.cutter.tip_mm;
    if (!(tip > 0) || (tip >= TIP_LEAST_MM && tip <= TIP_MOST_MM))
        return RUNNEL_OK;
    return runnel_warn(making, "odd-tip", of->where,
                       "a tip flat of %s mm (%s in) is unusual; was it meant in the other unit?",
                       FIGURE(tip, 3), FIGURE(tip / RUNNEL_MM_PER_INCH, 4));
}

static runnel_status warn_angle(runnel_making *making, const subject *of) {
    const runnel_cutter *cutter = &of->cavity->cut.cutter;
    double off = making->job->errors.angle_deg, low = cutter->angle_deg - off;
    if (cutter->kind != RUNNEL_CUTTER_V || (low > 0 && cutter->angle_deg + off < 180))
        return RUNNEL_OK;
    return runnel_warn(making, "odd-angle", of->where,
                       "a V of %s deg that may be off by %s deg may be none at all: measure the "
                       "cutter with a trial groove, and give its angle and its error",
                       FIGURE(cutter->angle_deg, 2), FIGURE(off, 2));
}

static runnel_status warn_soak(runnel_making *making, const subject *of) {
    bool assumed = false;
    double soak_mm = runnel_soak_of(making, of->piece, &assumed);
    if (!assumed || !(of->planned->figures.wall_mm2 > 0))
        return RUNNEL_OK;
    return runnel_warn(making, "soak-assumed", of->where,
                       "no wood is named: a soak of %s ml per m2 of %s wall is assumed",
                       FIGURE(soak_mm * 1e3, 1), making->job->sealed ? "sealed" : "bare");
}

/** Resin below this depth hardly warms itself; common practice. */
#define THIN_FILM_MM 0.5

static runnel_status warn_film(runnel_making *making, const subject *of) {
    double deepest_mm = of->planned->figures.deepest_mm;
    if (!(deepest_mm > 0) || deepest_mm >= THIN_FILM_MM - RUNNEL_FIT_SLACK_MM)
        return RUNNEL_OK;
    return runnel_warn(making, "thin-film", of->where,
                       "only %s mm deep: so thin a film hardly warms itself and cures more slowly "
                       "than is stated; give it longer before it is levelled",
                       FIGURE(deepest_mm, 2));
}

static runnel_status warn_dip(runnel_making *making, const subject *of) {
    double dip_mm = runnel_dip_of(making->job, of->planned), crown_mm = making->job->crown_mm;
    if (dip_mm <= crown_mm + RUNNEL_FIT_SLACK_MM)
        return RUNNEL_OK;
    return runnel_warn(
        making, "dip", of->where,
        "as it hardens, resin over the deepest place may sink by %s mm, which is more "
        "than the crown of %s mm: pour it higher, in thinner layers, or plan a top-up",
        FIGURE(dip_mm, 2), FIGURE(crown_mm, 2));
}

runnel_status runnel_warn_cavity(runnel_making *making, const runnel_job_piece *piece,
                                 const runnel_job_cavity *cavity, const runnel_source_shape *source,
                                 const runnel_plan_cavity *planned) {
    static runnel_status (*const of_carving[])(runnel_making *, const subject *) = {
        warn_size, warn_strokes, warn_tip, warn_angle};
    char *where = runnel_format_text("%s / %s", piece->name, cavity->name);
    if (!where)
        return RUNNEL_E_NO_MEMORY;
    subject of = {piece, cavity, source, planned, where};
    runnel_status status = warn_depth(making, &of);
    for (size_t i = 0; !planned->measured && i < sizeof of_carving / sizeof *of_carving && !status;
         i++)
        status = of_carving[i](making, &of);
    if (!status)
        status = warn_layer(making, &of);
    if (!status)
        status = warn_film(making, &of);
    if (!status)
        status = warn_dip(making, &of);
    if (!status)
        status = warn_soak(making, &of);
    runnel_free(where);
    return status;
}
