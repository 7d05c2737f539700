/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Contours whose boxes meet are one group. What becomes of a group follows from its own contours
 * alone, as seen from the lower left of its box, so it is found by value; and so are its patches,
 * as the same letter may stand in different groups.
 */
#include "shape/region.h"

#include "base/memory.h"
#include "shape/lattice.h"
#include "shape/overlay.h"
#include "shape/points.h"
#include "shape/settle.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/** What a group came to. */
typedef struct group {
    runnel_print *prints;
    size_t count, capacity;
    double moved_mm; /**< by noding */
} group;

/** What the bytes of a key tell. */
enum { KEY_GROUP = 'G', KEY_PATCH = 'P' };

void runnel_region_clear(runnel_region *region) {
    for (size_t i = 0; i < region->count; i++)
        runnel_kept_release(region->prints[i].kept);
    runnel_free(region->prints);
    if (region->owns_store)
        runnel_store_free(region->store);
    memset(region, 0, sizeof *region);
}

const runnel_patch *runnel_print_patch(const runnel_print *print) {
    return runnel_kept_object(print->kept);
}

runnel_box runnel_print_box(const runnel_print *print) {
    const runnel_box *box = &runnel_print_patch(print)->box;
    return (runnel_box){box->min_x_mm + print->dx_mm, box->min_y_mm + print->dy_mm,
                        box->max_x_mm + print->dx_mm, box->max_y_mm + print->dy_mm};
}

static void free_patch(void *object) {
    runnel_patch *patch = object;
    runnel_contours_clear(&patch->contours);
    runnel_free(patch);
}

static void free_group(void *object) {
    group *of = object;
    for (size_t i = 0; i < of->count; i++)
        runnel_kept_release(of->prints[i].kept);
    runnel_free(of->prints);
    runnel_free(of);
}

/* ---- Keys ------------------------------------------------------------------------------------ */

static runnel_status make_key(char what, bool is_path, const runnel_contours *contours,
                              runnel_key_bytes *key) {
    unsigned char head[2] = {(unsigned char)what, is_path};
    runnel_status status = runnel_key_add(key, head, sizeof head);
    for (size_t i = 0; i < contours->count && !status; i++) {
        const runnel_contour *c = &contours->items[i];
        uint64_t shape[2] = {c->count, c->closed};
        status = runnel_key_add(key, shape, sizeof shape);
        if (!status)
            status = runnel_key_add(key, contours->points + c->first,
                                    c->count * sizeof *contours->points);
    }
    return status;
}

/* ---- Patches --------------------------------------------------------------------------------- */

static runnel_status keep_patch(runnel_store *store, const runnel_key_bytes *key,
                                const runnel_contours *contours, runnel_kept **kept) {
    runnel_patch *patch = runnel_zeroed(1, sizeof *patch);
    if (!patch)
        return RUNNEL_E_NO_MEMORY;
    runnel_status status = runnel_contours_append(&patch->contours, contours, 1, 0, 0);
    patch->box = runnel_contours_box(contours);
    size_t bytes = sizeof *patch + contours->point_count * sizeof *contours->points;
    if (!status)
        status = runnel_store_keep(store, key, patch, free_patch, bytes, kept);
    if (status)
        free_patch(patch);
    return status;
}

/** Adds the contours [from, to) of a group's outcome as one patch. */
static runnel_status add_patch(runnel_region *region, const runnel_contours *all, size_t from,
                               size_t to, group *made) {
    runnel_contours local = {0};
    runnel_key_bytes key = {0};
    const runnel_contour *first = &all->items[from], *last = &all->items[to - 1];
    runnel_box box =
        runnel_points_box(all->points + first->first, last->first + last->count - first->first);
    runnel_status status =
        runnel_reserve(&made->prints, &made->capacity, made->count + 1, sizeof *made->prints);
    for (size_t i = from; i < to && !status; i++)
        status = runnel_contours_add_moved(&local, all, i, -box.min_x_mm, -box.min_y_mm);
    if (!status)
        status = make_key(KEY_PATCH, region->is_path, &local, &key);
    if (!status) {
        runnel_kept *kept = runnel_store_find(region->store, &key);
        if (!kept)
            status = keep_patch(region->store, &key, &local, &kept);
        if (!status)
            made->prints[made->count++] = (runnel_print){kept, box.min_x_mm, box.min_y_mm};
    }
    runnel_contours_clear(&local);
    runnel_key_clear(&key);
    return status;
}

/* ---- Groups ---------------------------------------------------------------------------------- */

static runnel_status settle_region(runnel_region *region, const runnel_contours *local, double step,
                                   group *made) {
    runnel_settled settled = {0};
    runnel_status status = runnel_settle(local, step, &settled);
    for (size_t i = 0; i < settled.patch_count && !status; i++)
        status = add_patch(region, &settled.rings, settled.first[i], settled.first[i + 1], made);
    made->moved_mm = settled.rings.flatten_mm;
    runnel_settled_clear(&settled);
    return status;
}

/** All lines of a group are one patch. */
static runnel_status settle_path(runnel_region *region, const runnel_contours *local, double step,
                                 group *made) {
    runnel_contours noded = {0};
    runnel_status status = runnel_path_node(local, &noded);
    if (status == RUNNEL_E_SHAPE)
        return RUNNEL_OK;
    for (size_t k = 0; k < noded.point_count; k++)
        noded.points[k] = runnel_on_lattice(noded.points[k], step);
    if (!status)
        status = add_patch(region, &noded, 0, noded.count, made);
    made->moved_mm = noded.flatten_mm;
    runnel_contours_clear(&noded);
    return status;
}

static runnel_status make_group(runnel_region *region, const runnel_contours *local,
                                const runnel_key_bytes *key, runnel_kept **kept) {
    group *made = runnel_zeroed(1, sizeof *made);
    if (!made)
        return RUNNEL_E_NO_MEMORY;
    runnel_box box = runnel_contours_box(local);
    double step = runnel_lattice_step(fmax(box.max_x_mm, box.max_y_mm));
    runnel_status status = region->is_path ? settle_path(region, local, step, made)
                                           : settle_region(region, local, step, made);
    if (!status)
        status = runnel_store_keep(region->store, key, made, free_group,
                                   sizeof *made + made->capacity * sizeof *made->prints, kept);
    if (status)
        free_group(made);
    return status;
}

/** Adds the prints of a group. */
static runnel_status take_prints(runnel_region *region, const group *from, double x, double y) {
    runnel_status status = runnel_reserve(&region->prints, &region->capacity,
                                          region->count + from->count, sizeof *region->prints);
    for (size_t i = 0; i < from->count && !status; i++) {
        const runnel_print *print = &from->prints[i];
        runnel_print made = {runnel_kept_share(print->kept), print->dx_mm + x, print->dy_mm + y};
        region->prints[region->count++] = made;
        region->box = runnel_both_boxes(region->box, runnel_print_box(&made));
    }
    return status;
}

/** Adds the group of those contours from `first` on that `next` chains. */
static runnel_status add_group(runnel_region *region, const runnel_contours *all,
                               const size_t *next, size_t first, double *moved) {
    runnel_contours local = {0};
    runnel_key_bytes key = {0};
    runnel_kept *kept = NULL;
    runnel_status status = RUNNEL_OK;
    runnel_box box = {INFINITY, INFINITY, -INFINITY, -INFINITY};
    for (size_t i = first;; i = next[i]) {
        const runnel_contour *c = &all->items[i];
        box = runnel_both_boxes(box, runnel_points_box(all->points + c->first, c->count));
        if (next[i] == i)
            break;
    }
    for (size_t i = first; !status; i = next[i]) {
        status = runnel_contours_add_moved(&local, all, i, -box.min_x_mm, -box.min_y_mm);
        if (next[i] == i)
            break;
    }
    if (!status)
        status = make_key(KEY_GROUP, region->is_path, &local, &key);
    if (!status)
        kept = runnel_store_find(region->store, &key);
    if (!status && !kept)
        status = make_group(region, &local, &key, &kept);
    if (!status) {
        const group *of = runnel_kept_object(kept);
        *moved = fmax(*moved, of->moved_mm);
        status = take_prints(region, of, box.min_x_mm, box.min_y_mm);
    }
    runnel_kept_release(kept);
    runnel_contours_clear(&local);
    runnel_key_clear(&key);
    return status;
}

/** A contour's box on its way from left to right. */
typedef struct place {
    runnel_box box;
    size_t index;
} place;

static int by_left(const void *left, const void *right) {
    const place *a = left, *b = right;
    if (a->box.min_x_mm != b->box.min_x_mm)
        return a->box.min_x_mm < b->box.min_x_mm ? -1 : 1;
    return (a->index > b->index) - (a->index < b->index);
}

static size_t root_of(size_t *roots, size_t index) {
    while (roots[index] != index)
        index = roots[index] = roots[roots[index]];
    return index;
}

/** Boxes that are to meet do so across this gap: whatever is not clear of each other does. */
#define GROUP_GAP_MM (2 * RUNNEL_CLEAR_MM)

/** Gives contours whose boxes meet one root: the earliest of them. */
static runnel_status find_groups(const runnel_contours *all, size_t *roots) {
    place *places = runnel_zeroed(all->count + 1, sizeof *places);
    size_t count = 0;
    if (!places)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < all->count; i++) {
        const runnel_contour *c = &all->items[i];
        roots[i] = i;
        if (c->count)
            places[count++] = (place){runnel_points_box(all->points + c->first, c->count), i};
    }
    if (count)
        qsort(places, count, sizeof *places, by_left);
    for (size_t i = 0; i < count; i++) {
        const runnel_box *a = &places[i].box;
        for (size_t k = i + 1; k < count && places[k].box.min_x_mm <= a->max_x_mm + GROUP_GAP_MM;
             k++) {
            const runnel_box *b = &places[k].box;
            if (b->min_y_mm > a->max_y_mm + GROUP_GAP_MM ||
                b->max_y_mm < a->min_y_mm - GROUP_GAP_MM)
                continue;
            size_t one = root_of(roots, places[i].index), two = root_of(roots, places[k].index);
            roots[one < two ? two : one] = one < two ? one : two;
        }
    }
    runnel_free(places);
    return RUNNEL_OK;
}

/** Chains the contours of each group in their order, and adds the groups in that of their first
 * ones. */
static runnel_status add_groups(runnel_region *region, const runnel_contours *all, double *moved) {
    size_t *roots = runnel_zeroed(all->count + 1, sizeof *roots);
    size_t *next = runnel_zeroed(all->count + 1, sizeof *next);
    size_t *latest = runnel_zeroed(all->count + 1, sizeof *latest);
    runnel_status status = roots && next && latest ? find_groups(all, roots) : RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < all->count && !status; i++) {
        size_t root = root_of(roots, i);
        next[i] = i;
        if (root != i)
            next[latest[root]] = i;
        latest[root] = i; /* so far */
    }
    for (size_t i = 0; i < all->count && !status; i++)
        if (all->items[i].count && roots[i] == i)
            status = add_group(region, all, next, i, moved);
    runnel_free(roots);
    runnel_free(next);
    runnel_free(latest);
    return status;
}

runnel_status runnel_region_make(const runnel_contours *contours, bool is_path, runnel_store *store,
                                 runnel_region *region) {
    runnel_region made = {
        .is_path = is_path, .store = store, .box = {INFINITY, INFINITY, -INFINITY, -INFINITY}};
    runnel_contours all = {0};
    double farthest = 0, moved = 0;
    for (size_t i = 0; i < contours->point_count; i++) {
        const runnel_point *p = &contours->points[i];
        if (!isfinite(p->x_mm) || !isfinite(p->y_mm))
            return RUNNEL_E_RANGE;
        farthest = fmax(farthest, fmax(fabs(p->x_mm), fabs(p->y_mm)));
    }
    double step = runnel_lattice_step(farthest);
    runnel_status status = runnel_contours_append(&all, contours, 1, 0, 0);
    for (size_t i = 0; i < all.point_count; i++)
        all.points[i] = runnel_on_lattice(all.points[i], step);
    if (!status && !store) {
        status = runnel_store_new(SIZE_MAX, &made.store);
        made.owns_store = !status;
    }
    if (!status)
        status = add_groups(&made, &all, &moved);
    runnel_contours_clear(&all);
    made.flatten_mm = contours->flatten_mm + moved;
    if (!status && !made.count)
        status = RUNNEL_E_SHAPE;
    if (status)
        runnel_region_clear(&made);
    else
        *region = made;
    return status;
}

runnel_status runnel_region_contours(const runnel_region *region, runnel_contours *contours) {
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < region->count && !status; i++) {
        const runnel_print *print = &region->prints[i];
        status = runnel_contours_append(contours, &runnel_print_patch(print)->contours, 1,
                                        print->dx_mm, print->dy_mm);
    }
    if (!status)
        contours->flatten_mm = region->flatten_mm;
    return status;
}

runnel_status runnel_outline_union(const runnel_contours *contours, runnel_contours *region) {
    runnel_region of = {0};
    runnel_contours rings = {0};
    runnel_status status = runnel_region_make(contours, false, NULL, &of);
    if (!status)
        status = runnel_region_contours(&of, &rings);
    if (!status) {
        runnel_contours_clear(region);
        *region = rings;
    } else {
        runnel_contours_clear(&rings);
    }
    runnel_region_clear(&of);
    return status;
}
