/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shape/clearance.h"

#include "shape/boundary.h"
#include "shape/discs.h"

#include <math.h>

/** The search around one corner. */
typedef struct corner_search {
    const runnel_boundary *boundary;
    double x, y, least;
    bool found;
} corner_search;

static void consider(uint32_t index, void *state) {
    corner_search *s = state;
    const runnel_edge *f = &s->boundary->edges[index], *next = &s->boundary->edges[f->next];
    if ((f->x == s->x && f->y == s->y) || (next->x == s->x && next->y == s->y))
        return;
    double dx = s->x - f->x, dy = s->y - f->y;
    double along = fmin(fmax(dx * f->ux + dy * f->uy, 0), f->length);
    double gap = hypot(dx - along * f->ux, dy - along * f->uy);
    s->found = s->found || gap < s->least;
}

static bool is_clear_boundary(const runnel_boundary *boundary, const runnel_tree *tree,
                              double least) {
    for (size_t i = 0; i < boundary->count; i++) {
        const runnel_edge *e = &boundary->edges[i];
        if (e->length < least)
            return false;
        runnel_box box = {e->x - least, e->y - least, e->x + least, e->y + least};
        corner_search search = {boundary, e->x, e->y, least, false};
        runnel_tree_search(tree, &box, consider, &search);
        if (search.found)
            return false;
    }
    return true;
}

runnel_status runnel_contours_clear_of(const runnel_contours *contours, bool is_path,
                                       double least_mm, bool *is_clear) {
    runnel_boundary boundary = {0};
    runnel_tree tree = {0};
    runnel_status status =
        is_path ? runnel_boundary_of_lines(contours, contours->count, &boundary)
                : runnel_boundary_of_region(contours, contours->count, false, &boundary);
    if (!status)
        status = runnel_tree_build(&boundary, &tree);
    if (!status)
        *is_clear = is_clear_boundary(&boundary, &tree, least_mm);
    runnel_tree_clear(&tree);
    runnel_boundary_clear(&boundary);
    return status;
}
