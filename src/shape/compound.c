/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Profiles of the distinct patches, and what is found by comparing places. Sums are in
 * compound_sums.c.
 */
#include "shape/compound.h"

#include "base/memory.h"
#include "base/sum.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/** What the bytes of a key tell. */
enum { KEY_INSIDE = 'I', KEY_AROUND = 'A' };

void runnel_compound_clear(runnel_compound *compound) {
    for (size_t i = 0; i < compound->part_count; i++) {
        runnel_compound_part *part = &compound->parts[i];
        runnel_profile_free(part->owned);
        runnel_kept_release(part->kept);
    }
    runnel_free(compound->parts);
    runnel_free(compound->prints);
    memset(compound, 0, sizeof *compound);
}

static void free_profile(void *object) {
    runnel_profile_free(object);
}

/* ---- Parts ----------------------------------------------------------------------------------- */

/** The profile that a print has. */
typedef struct chosen {
    runnel_kept *kept;
    size_t print;
} chosen;

static int by_number(const void *left, const void *right) {
    const chosen *a = left, *b = right;
    uint64_t one = runnel_kept_number(a->kept), two = runnel_kept_number(b->kept);
    if (one != two)
        return one < two ? -1 : 1;
    return (a->print > b->print) - (a->print < b->print);
}

/** Makes one part of all prints that have the same profile, in the order of the first of them;
 * takes over the references. */
static runnel_status count_parts(const runnel_region *region, chosen *list, runnel_compound *made) {
    size_t count = region->count, *first = runnel_zeroed(count, sizeof *first);
    made->parts = runnel_zeroed(count, sizeof *made->parts);
    made->prints = runnel_zeroed(count, sizeof *made->prints);
    if (!first || !made->parts || !made->prints) {
        runnel_free(first);
        return RUNNEL_E_NO_MEMORY;
    }
    qsort(list, count, sizeof *list, by_number);
    for (size_t i = 0; i < count; i++)
        first[list[i].print] =
            i && list[i].kept == list[i - 1].kept ? first[list[i - 1].print] : list[i].print;
    runnel_kept **of = runnel_zeroed(count, sizeof(runnel_kept *));
    if (!of) {
        runnel_free(first);
        return RUNNEL_E_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++)
        of[list[i].print] = list[i].kept;
    for (size_t i = 0; i < count; i++) {
        size_t part = first[i] == i ? made->part_count : made->prints[first[i]].part;
        if (first[i] == i)
            made->parts[made->part_count++] =
                (runnel_compound_part){runnel_kept_object(of[i]), of[i], NULL, 0};
        else
            runnel_kept_release(of[i]);
        made->parts[part].count++;
        made->prints[i] =
            (runnel_compound_print){part, region->prints[i].dx_mm, region->prints[i].dy_mm};
    }
    made->print_count = count;
    runnel_free(first);
    runnel_free(of);
    return RUNNEL_OK;
}

static runnel_medial moved(runnel_medial from, const runnel_compound_print *print) {
    from.at.x_mm += print->dx_mm;
    from.at.y_mm += print->dy_mm;
    return from;
}

/** Widest and narrowest place of all prints, the first of those that are alike. */
static void find_widths(runnel_compound *made) {
    made->widest = (runnel_medial){-INFINITY, {0, 0}};
    made->narrowest = (runnel_medial){INFINITY, {0, 0}};
    for (size_t i = 0; i < made->print_count; i++) {
        const runnel_compound_print *print = &made->prints[i];
        const runnel_profile *profile = made->parts[print->part].profile;
        if (profile->widest.m_mm > made->widest.m_mm)
            made->widest = moved(profile->widest, print);
        if (profile->narrowest.m_mm < made->narrowest.m_mm)
            made->narrowest = moved(profile->narrowest, print);
    }
}

/** Of an inside each patch has been checked by itself. */
static void sum_mismatches(runnel_compound *made) {
    runnel_sum area = {0}, gap = {0};
    for (size_t i = 0; i < made->part_count; i++) {
        const runnel_compound_part *part = &made->parts[i];
        runnel_sum_add(&area, part->count * part->profile->area_mm2);
        runnel_sum_add(&gap, part->count * part->profile->area_mm2 * part->profile->mismatch);
    }
    made->area_mm2 = runnel_sum_value(&area);
    made->mismatch = runnel_sum_value(&gap) / made->area_mm2;
}

/** What the boundary encloses, less what the pieces cover, is what the offset curve at the reach
 * encloses. It is followed from print to print, as parts of it run from one to another. */
static void check_identity(runnel_compound *made) {
    runnel_sum covered = {0}, gap = {0}, enclosed = {0};
    for (size_t i = 0; i < made->part_count; i++) {
        const runnel_compound_part *part = &made->parts[i];
        double own_mm2 = part->profile->area_mm2, within_mm2 = part->profile->enclosed_mm2;
        runnel_sum_add(&covered, part->count * own_mm2);
        runnel_sum_add(&enclosed, part->count * within_mm2);
        runnel_sum_add(&gap, part->count * (within_mm2 - own_mm2));
    }
    for (size_t i = 0; i < made->print_count; i++) {
        const runnel_compound_print *print = &made->prints[i];
        const runnel_offset *offset = &made->parts[print->part].profile->offset;
        runnel_sum_add(&gap, -offset->area_mm2);
        runnel_sum_add(&gap, -0.5 * (print->dx_mm * offset->dy_mm - print->dy_mm * offset->dx_mm));
    }
    made->area_mm2 = runnel_sum_value(&covered);
    made->mismatch =
        fabs(runnel_sum_value(&gap)) / fmax(made->area_mm2, fabs(runnel_sum_value(&enclosed)));
}

/** Finishes a compound from the profiles of its prints, whose references it takes over. */
static runnel_status finish(const runnel_region *region, chosen *list, double reach,
                            runnel_status so_far, runnel_compound *compound) {
    runnel_compound made = {.reach_mm = reach};
    runnel_status status = so_far;
    bool is_taken = !status;
    if (!status)
        status = count_parts(region, list, &made);
    if (!is_taken || (status && !made.print_count))
        for (size_t i = 0; i < region->count; i++)
            runnel_kept_release(list[i].kept);
    runnel_free(list);
    if (!status) {
        find_widths(&made);
        (isfinite(reach) ? check_identity : sum_mismatches)(&made);
        if (isfinite(reach) && !(made.mismatch <= RUNNEL_LARGEST_MISMATCH))
            status = RUNNEL_E_IDENTITY;
    }
    if (status)
        runnel_compound_clear(&made);
    else
        *compound = made;
    return status;
}

runnel_status runnel_compound_of(runnel_profile *profile, runnel_compound *compound) {
    runnel_compound made = {.parts = runnel_zeroed(1, sizeof *made.parts),
                            .prints = runnel_zeroed(1, sizeof *made.prints),
                            .print_count = 1,
                            .reach_mm = profile->reach_mm,
                            .area_mm2 = profile->area_mm2,
                            .mismatch = profile->mismatch,
                            .widest = profile->widest,
                            .narrowest = profile->narrowest};
    if (!made.parts || !made.prints) {
        runnel_compound_clear(&made);
        return RUNNEL_E_NO_MEMORY;
    }
    made.parts[0] = (runnel_compound_part){profile, NULL, profile, 1};
    made.part_count = 1;
    *compound = made;
    return RUNNEL_OK;
}

/* ---- Profiles through the store -------------------------------------------------------------- */

static runnel_status keep_profile(runnel_store *store, const runnel_key_bytes *key,
                                  runnel_profile *made, runnel_kept **kept) {
    size_t bytes = runnel_profile_bytes(made);
    runnel_status status = runnel_store_keep(store, key, made, free_profile, bytes, kept);
    if (status)
        runnel_profile_free(made);
    return status;
}

static runnel_status inside_of(const runnel_region *region, const runnel_print *print,
                               runnel_kept **kept) {
    const unsigned char head = KEY_INSIDE;
    uint64_t number = runnel_kept_number(print->kept);
    runnel_key_bytes key = {0};
    runnel_profile *made = NULL;
    runnel_status status = runnel_key_add(&key, &head, 1);
    if (!status)
        status = runnel_key_add(&key, &number, sizeof number);
    *kept = status ? NULL : runnel_store_find(region->store, &key);
    if (!status && !*kept) {
        status = runnel_profile_inside(&runnel_print_patch(print)->contours, &made);
        if (!status)
            status = keep_profile(region->store, &key, made, kept);
    }
    runnel_key_clear(&key);
    return status;
}

runnel_status runnel_compound_inside(const runnel_region *region, runnel_compound *compound) {
    chosen *list = runnel_zeroed(region->count, sizeof *list);
    runnel_status status = list ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
    if (!list)
        return status;
    for (size_t i = 0; i < region->count && !status; i++) {
        list[i].print = i;
        status = inside_of(region, &region->prints[i], &list[i].kept);
    }
    return finish(region, list, INFINITY, status, compound);
}

/* ---- Neighbours ------------------------------------------------------------------------------ */

/** A print as another one sees it. */
typedef struct neighbour {
    double dx, dy;
    uint64_t number; /**< of its patch */
    size_t print;
} neighbour;

/** Prints from left to right. */
typedef struct row {
    const runnel_region *region;
    size_t *order;
    runnel_box *boxes;
    double widest;
    neighbour *near;
    size_t near_count, near_capacity;
} row;

static int by_place(const void *left, const void *right) {
    const neighbour *a = left, *b = right;
    if (a->dx != b->dx)
        return a->dx < b->dx ? -1 : 1;
    if (a->dy != b->dy)
        return a->dy < b->dy ? -1 : 1;
    return (a->print > b->print) - (a->print < b->print);
}

/** Lists all prints by the left of their boxes; `near` serves as room. */
static runnel_status fill_row(const runnel_region *region, row *of) {
    *of = (row){.region = region,
                .order = runnel_zeroed(region->count, sizeof *of->order),
                .boxes = runnel_zeroed(region->count, sizeof *of->boxes)};
    runnel_status status =
        runnel_reserve(&of->near, &of->near_capacity, region->count, sizeof *of->near);
    if (status || !of->order || !of->boxes)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < region->count; i++) {
        runnel_box box = of->boxes[i] = runnel_print_box(&region->prints[i]);
        of->widest = fmax(of->widest, box.max_x_mm - box.min_x_mm);
        of->near[i] = (neighbour){.dx = box.min_x_mm, .print = i};
    }
    qsort(of->near, region->count, sizeof *of->near, by_place);
    for (size_t i = 0; i < region->count; i++)
        of->order[i] = of->near[i].print;
    return RUNNEL_OK;
}

/** Finds the prints whose boxes are within a distance of one print's box, sorted by place. */
static void find_near(row *of, size_t own, double distance) {
    const runnel_print *prints = of->region->prints;
    const runnel_box *box = &of->boxes[own];
    size_t low = 0, high = of->region->count;
    double least = box->min_x_mm - distance - of->widest;
    of->near_count = 0;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (of->boxes[of->order[middle]].min_x_mm < least)
            low = middle + 1;
        else
            high = middle;
    }
    for (size_t i = low; i < of->region->count; i++) {
        size_t index = of->order[i];
        const runnel_box *b = &of->boxes[index];
        double x = fmax(fmax(b->min_x_mm - box->max_x_mm, box->min_x_mm - b->max_x_mm), 0);
        double y = fmax(fmax(b->min_y_mm - box->max_y_mm, box->min_y_mm - b->max_y_mm), 0);
        if (b->min_x_mm > box->max_x_mm + distance)
            break;
        if (index == own || x * x + y * y > distance * distance)
            continue;
        of->near[of->near_count++] = (neighbour){prints[index].dx_mm - prints[own].dx_mm,
                                                 prints[index].dy_mm - prints[own].dy_mm,
                                                 runnel_kept_number(prints[index].kept), index};
    }
    if (of->near_count)
        qsort(of->near, of->near_count, sizeof *of->near, by_place);
}

static runnel_status around_key(const row *of, size_t own, double reach, runnel_key_bytes *key) {
    const unsigned char head = KEY_AROUND;
    uint64_t number = runnel_kept_number(of->region->prints[own].kept);
    runnel_status status = runnel_key_add(key, &head, 1);
    if (!status)
        status = runnel_key_add(key, &reach, sizeof reach);
    if (!status)
        status = runnel_key_add(key, &number, sizeof number);
    for (size_t i = 0; i < of->near_count && !status; i++) {
        const neighbour *n = &of->near[i];
        status = runnel_key_add(key, &n->number, sizeof n->number);
        if (!status)
            status = runnel_key_add(key, &n->dx, sizeof n->dx);
        if (!status)
            status = runnel_key_add(key, &n->dy, sizeof n->dy);
    }
    return status;
}

/** Walks around the patch of one print, with its neighbours there. */
static runnel_status make_around(const row *of, size_t own, double reach,
                                 runnel_profile **profile) {
    const runnel_region *region = of->region;
    const runnel_contours *mine = &runnel_print_patch(&region->prints[own])->contours;
    runnel_contours all = {0};
    runnel_status status = runnel_contours_append(&all, mine, 1, 0, 0);
    for (size_t i = 0; i < of->near_count && !status; i++) {
        const neighbour *n = &of->near[i];
        const runnel_patch *patch = runnel_print_patch(&region->prints[n->print]);
        status = runnel_contours_append(&all, &patch->contours, 1, n->dx, n->dy);
    }
    if (!status)
        status = runnel_profile_among(&all, mine->count, region->is_path, reach, profile);
    runnel_contours_clear(&all);
    return status;
}

static runnel_status around_of(row *of, size_t own, double reach, runnel_kept **kept) {
    runnel_key_bytes key = {0};
    runnel_profile *made = NULL;
    find_near(of, own, 2 * reach);
    runnel_status status = around_key(of, own, reach, &key);
    *kept = status ? NULL : runnel_store_find(of->region->store, &key);
    if (!status && !*kept) {
        status = make_around(of, own, reach, &made);
        if (!status)
            status = keep_profile(of->region->store, &key, made, kept);
    }
    runnel_key_clear(&key);
    return status;
}

/** All patches as one, where the areas of them one by one do not agree: by itself the whole is
 * walked again beside its corners. */
static runnel_status around_as_one(const runnel_region *region, double reach,
                                   runnel_compound *compound) {
    runnel_contours all = {0};
    runnel_profile *made = NULL;
    runnel_status status = runnel_region_contours(region, &all);
    if (!status)
        status = region->is_path ? runnel_profile_path(&all, reach, &made)
                                 : runnel_profile_outside(&all, reach, &made);
    if (!status)
        status = runnel_compound_of(made, compound);
    if (status)
        runnel_profile_free(made);
    runnel_contours_clear(&all);
    return status;
}

runnel_status runnel_compound_around(const runnel_region *region, double reach_mm,
                                     runnel_compound *compound) {
    row of = {0};
    if (!(isfinite(reach_mm) && reach_mm > 0))
        return RUNNEL_E_RANGE;
    chosen *list = runnel_zeroed(region->count, sizeof *list);
    runnel_status status = list ? fill_row(region, &of) : RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < region->count && !status; i++) {
        list[i].print = i;
        status = around_of(&of, i, reach_mm, &list[i].kept);
    }
    runnel_free(of.order);
    runnel_free(of.boxes);
    runnel_free(of.near);
    if (list)
        status = finish(region, list, reach_mm, status, compound);
    return status == RUNNEL_E_IDENTITY ? around_as_one(region, reach_mm, compound) : status;
}
