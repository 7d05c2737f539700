/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where cavities lie on their piece, and what lies between them.
 *
 * A pocket is a little smaller than its outline where the cutter does not get into a corner, and so
 * is what a flat tip leaves; the wood between two of them is then a little more than is told.
 */
#include "plan/make.h"

#include "base/memory.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- Keeping ----------------------------------------------------------------------------------
 */

/** Moves contours so that the cavity's box begins where the job says. */
static void put(const runnel_job_cavity *cavity, runnel_placed *placed) {
    runnel_box box = runnel_contours_box(&placed->contours);
    double beside_mm = placed->beside_mm;
    double dx = cavity->at_x_mm - (box.min_x_mm - beside_mm);
    double dy = cavity->at_y_mm - (box.min_y_mm - beside_mm);
    for (size_t i = 0; i < placed->contours.point_count; i++) {
        placed->contours.points[i].x_mm += dx;
        placed->contours.points[i].y_mm += dy;
    }
    placed->box = (runnel_box){cavity->at_x_mm, cavity->at_y_mm, box.max_x_mm + beside_mm + dx,
                               box.max_y_mm + beside_mm + dy};
}

runnel_status runnel_place_cavity(runnel_making *making, size_t piece,
                                  const runnel_job_cavity *cavity,
                                  const runnel_source_shape *source) {
    size_t index = making->plan->cavity_count - 1;
    if (!cavity->is_placed || !source->shape ||
        !(making->plan->cavities[index].figures.volume_mm3 > 0))
        return RUNNEL_OK;
    runnel_placed placed = {
        .cavity = index, .piece = piece, .is_path = runnel_shape_is_path(source->shape)};
    if (placed.is_path)
        placed.beside_mm = runnel_cutter_face_radius_mm(&cavity->cut.cutter, cavity->cut.depth_mm);
    runnel_contours_init(&placed.contours);
    runnel_status status = runnel_reserve(&making->placed, &making->placed_capacity,
                                          making->placed_count + 1, sizeof *making->placed);
    if (!status)
        status = runnel_source_contours(making, cavity, source, &placed.contours);
    if (status) {
        runnel_contours_clear(&placed.contours);
        return status;
    }
    put(cavity, &placed);
    making->placed[making->placed_count++] = placed;
    return RUNNEL_OK;
}

void runnel_places_clear(runnel_making *making) {
    for (size_t i = 0; i < making->placed_count; i++)
        runnel_contours_clear(&making->placed[i].contours);
    runnel_free(making->placed);
    making->placed = NULL;
    making->placed_count = making->placed_capacity = 0;
}

/* ---- Edges ------------------------------------------------------------------------------------
 */

/** A cavity that would fit on its piece but is put beyond its edge. */
static runnel_status warn_edge(runnel_making *making, const runnel_placed *placed) {
    const runnel_job_piece *piece = &making->job->pieces[placed->piece];
    const runnel_box *box = &placed->box;
    double right_mm = box->max_x_mm - piece->length_mm, above_mm = box->max_y_mm - piece->width_mm;
    bool fits = box->max_x_mm - box->min_x_mm <= piece->length_mm + RUNNEL_FIT_SLACK_MM &&
                box->max_y_mm - box->min_y_mm <= piece->width_mm + RUNNEL_FIT_SLACK_MM;
    bool is_right = right_mm > RUNNEL_FIT_SLACK_MM, is_above = above_mm > RUNNEL_FIT_SLACK_MM;
    char right[80] = "", above[80] = "";
    if (!(piece->length_mm > 0) || !fits || (!is_right && !is_above))
        return RUNNEL_OK;
    if (is_right)
        snprintf(right, sizeof right, "%s mm beyond the right edge", FIGURE(right_mm, 2));
    if (is_above)
        snprintf(above, sizeof above, "%s mm beyond the upper edge", FIGURE(above_mm, 2));
    char *where =
        runnel_format_text("%s / %s", piece->name, making->plan->cavities[placed->cavity].name);
    if (!where)
        return RUNNEL_E_NO_MEMORY;
    runnel_status status = runnel_warn(making, "beyond-edge", where,
                                       "it reaches %s%s%s, where the resin would run out", right,
                                       is_right && is_above ? " and " : "", above);
    runnel_free(where);
    return status;
}

/* ---- Bridges ----------------------------------------------------------------------------------
 */

/** Whether two boxes are farther apart than a length. */
static bool are_apart(const runnel_box *one, const runnel_box *other, double length_mm) {
    double dx = fmax(one->min_x_mm - other->max_x_mm, other->min_x_mm - one->max_x_mm);
    double dy = fmax(one->min_y_mm - other->max_y_mm, other->min_y_mm - one->max_y_mm);
    return hypot(fmax(dx, 0), fmax(dy, 0)) > length_mm;
}

static runnel_status add_bridge(runnel_plan *plan, const runnel_bridge *bridge) {
    runnel_status status = runnel_reserve(&plan->bridges, &plan->bridge_capacity,
                                          plan->bridge_count + 1, sizeof *plan->bridges);
    if (!status)
        plan->bridges[plan->bridge_count++] = *bridge;
    return status;
}

static runnel_status warn_pair(runnel_making *making, const runnel_bridge *bridge) {
    const runnel_plan_cavity *one = &making->plan->cavities[bridge->one];
    const runnel_plan_cavity *other = &making->plan->cavities[bridge->other];
    if (!(bridge->distance_mm > 0))
        return runnel_warn(making, "overlap", one->piece,
                           "'%s' and '%s' touch or overlap at the face; what both hold is counted "
                           "twice",
                           one->name, other->name);
    return runnel_warn(making, "thin-bridge", one->piece,
                       "only %s mm of wood between '%s' in %s and '%s' in %s: less than %s mm can "
                       "break away or let one colour into the other; move them apart, or seal it "
                       "well",
                       FIGURE(bridge->distance_mm, 2), one->name, one->colour, other->name,
                       other->colour, FIGURE(making->job->bridge_mm, 2));
}

/** Looks at two cavities of one piece. */
static runnel_status check_pair(runnel_making *making, const runnel_placed *one,
                                const runnel_placed *other) {
    const runnel_plan_cavity *cavities = making->plan->cavities;
    bool is_two_colours = strcmp(cavities[one->cavity].colour, cavities[other->cavity].colour) != 0;
    double least_mm = is_two_colours ? making->job->bridge_mm : 0, apart_mm;
    runnel_bridge bridge = {one->cavity, other->cavity, 0};
    if (are_apart(&one->box, &other->box, least_mm))
        return RUNNEL_OK;
    runnel_status status = runnel_contours_distance(&one->contours, one->is_path, &other->contours,
                                                    other->is_path, &apart_mm);
    if (status)
        return status;
    bridge.distance_mm = fmax(0, apart_mm - one->beside_mm - other->beside_mm);
    if (bridge.distance_mm > 0 && !(bridge.distance_mm < least_mm - RUNNEL_FIT_SLACK_MM))
        return RUNNEL_OK;
    if (is_two_colours)
        status = add_bridge(making->plan, &bridge);
    return status ? status : warn_pair(making, &bridge);
}

runnel_status runnel_places_check(runnel_making *making) {
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < making->placed_count && !status; i++) {
        const runnel_placed *one = &making->placed[i];
        status = warn_edge(making, one);
        for (size_t k = i + 1; k < making->placed_count && !status; k++)
            if (making->placed[k].piece == one->piece)
                status = check_pair(making, one, &making->placed[k]);
    }
    return status;
}
