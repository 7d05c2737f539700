/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Two contours are linked when somewhere they are nearer to each other than RUNNEL_CLEAR_MM, or
 * cross. Linked ones, and one that is linked to itself, are noded and united by GEOS; the others
 * are free. What GEOS is given is never surrounded: contours that wind around it are linked to it.
 * So each ring of the outcome lies where the winding number of all contours is 0 on one side only.
 */
#include "shape/settle.h"

#include "base/memory.h"
#include "shape/lattice.h"
#include "shape/overlay.h"
#include "shape/points.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

void runnel_settled_clear(runnel_settled *settled) {
    runnel_contours_clear(&settled->rings);
    runnel_free(settled->first);
    memset(settled, 0, sizeof *settled);
}

/** A segment of a contour. */
typedef struct strand {
    double min_x, max_x, min_y, max_y;
    uint32_t contour, index;
} strand;

/** What is known of a contour, or of a ring of the outcome. */
typedef struct loop {
    runnel_box box;
    double area; /**< signed */
    size_t root; /**< an earlier contour that it is linked with, or itself */
    bool is_linked;
} loop;

/** Contours with what is known of them. */
typedef struct loops {
    const runnel_contours *contours;
    runnel_steps_point *points;
    loop *items;
} loops;

typedef struct settling {
    double step;
    loops given, made;
    runnel_contours rings; /**< the outcome, in the order in which it was found */
    size_t *owners;        /**< of each ring: the outer ring that it lies in, or itself */
    size_t *patches;       /**< of each ring: the ring by which its patch is known */
    size_t ring_capacity, patch_capacity;
} settling;

/* ---- Loops ----------------------------------------------------------------------------------- */

static void clear_loops(loops *of) {
    runnel_free(of->points);
    runnel_free(of->items);
}

static runnel_status look_at(const runnel_contours *contours, double step, loops *of) {
    of->contours = contours;
    of->points = runnel_zeroed(contours->point_count + 1, sizeof *of->points);
    of->items = runnel_zeroed(contours->count + 1, sizeof *of->items);
    if (!of->points || !of->items)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < contours->point_count; i++)
        of->points[i] = runnel_steps_of(contours->points[i], step);
    for (size_t i = 0; i < contours->count; i++) {
        const runnel_contour *c = &contours->items[i];
        const runnel_point *points = contours->points + c->first;
        of->items[i] = (loop){runnel_points_box(points, c->count),
                              runnel_points_area(points, c->count), i, false};
    }
    return RUNNEL_OK;
}

/** How often a contour winds around a point that does not lie on it. */
static int winding(const loops *of, size_t index, runnel_steps_point at, runnel_point at_mm) {
    const runnel_box *box = &of->items[index].box;
    if (at_mm.x_mm < box->min_x_mm || at_mm.x_mm > box->max_x_mm || at_mm.y_mm < box->min_y_mm ||
        at_mm.y_mm > box->max_y_mm)
        return 0;
    const runnel_contour *c = &of->contours->items[index];
    const runnel_steps_point *points = of->points + c->first;
    int turns = 0;
    for (size_t k = 0; k < c->count; k++) {
        runnel_steps_point a = points[k], b = points[k + 1 < c->count ? k + 1 : 0];
        if ((a.y <= at.y) == (b.y <= at.y))
            continue;
        runnel_wide side = runnel_turn(a, b, at);
        turns += a.y <= at.y ? side > 0 : -(side < 0);
    }
    return turns;
}

static runnel_steps_point first_steps(const loops *of, size_t index) {
    return of->points[of->contours->items[index].first];
}

static runnel_point first_point(const loops *of, size_t index) {
    return of->contours->points[of->contours->items[index].first];
}

/* ---- Links ----------------------------------------------------------------------------------- */

static size_t root_of(loops *of, size_t index) {
    loop *items = of->items;
    while (items[index].root != index)
        index = items[index].root = items[items[index].root].root;
    return index;
}

/** Links two contours, or one with itself. */
static void link_loops(loops *of, size_t one, size_t other) {
    size_t a = root_of(of, one), b = root_of(of, other);
    of->items[a < b ? b : a].root = a < b ? a : b;
    of->items[one].is_linked = of->items[other].is_linked = true;
}

static int by_left(const void *left, const void *right) {
    const strand *a = left, *b = right;
    if (a->min_x != b->min_x)
        return a->min_x < b->min_x ? -1 : 1;
    if (a->contour != b->contour)
        return a->contour < b->contour ? -1 : 1;
    return (a->index > b->index) - (a->index < b->index);
}

static runnel_status list_strands(const loops *of, strand **list, size_t *count) {
    strand *made = runnel_zeroed(of->contours->point_count + 1, sizeof *made);
    if (!made)
        return RUNNEL_E_NO_MEMORY;
    *count = 0;
    for (size_t i = 0; i < of->contours->count; i++) {
        const runnel_contour *c = &of->contours->items[i];
        const runnel_point *points = of->contours->points + c->first;
        for (size_t k = 0; k < c->count && c->count > 1; k++) {
            runnel_point a = points[k], b = points[k + 1 < c->count ? k + 1 : 0];
            made[(*count)++] =
                (strand){fmin(a.x_mm, b.x_mm), fmax(a.x_mm, b.x_mm), fmin(a.y_mm, b.y_mm),
                         fmax(a.y_mm, b.y_mm), (uint32_t)i,          (uint32_t)k};
        }
    }
    if (*count)
        qsort(made, *count, sizeof *made, by_left);
    *list = made;
    return RUNNEL_OK;
}

/** Whether a point is nearer to a segment than RUNNEL_CLEAR_MM. */
static bool is_near(runnel_point p, runnel_point a, runnel_point b) {
    double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm, square = dx * dx + dy * dy;
    double px = p.x_mm - a.x_mm, py = p.y_mm - a.y_mm;
    double share = square > 0 ? (px * dx + py * dy) / square : 0;
    share = share < 0 ? 0 : (share > 1 ? 1 : share);
    px -= share * dx;
    py -= share * dy;
    return px * px + py * py < RUNNEL_CLEAR_MM * RUNNEL_CLEAR_MM;
}

/** A segment's ends, and their numbers in the contours. */
typedef struct ends {
    size_t a, b;
} ends;

static ends ends_of(const loops *of, const strand *s) {
    const runnel_contour *c = &of->contours->items[s->contour];
    return (ends){c->first + s->index, c->first + (s->index + 1 < c->count ? s->index + 1 : 0)};
}

static bool do_cross(const loops *of, ends one, ends other) {
    const runnel_steps_point *p = of->points;
    runnel_wide a = runnel_turn(p[one.a], p[one.b], p[other.a]);
    runnel_wide b = runnel_turn(p[one.a], p[one.b], p[other.b]);
    runnel_wide c = runnel_turn(p[other.a], p[other.b], p[one.a]);
    runnel_wide d = runnel_turn(p[other.a], p[other.b], p[one.b]);
    return (a > 0) != (b > 0) && (c > 0) != (d > 0);
}

/** Whether two segments are not clear of each other; of two that follow each other the common
 * corner does not count. */
static bool do_meet(const loops *of, const strand *one, const strand *other) {
    const runnel_point *p = of->contours->points;
    ends e = ends_of(of, one), f = ends_of(of, other);
    if (e.b == f.a || f.b == e.a) {
        bool both = e.b == f.a && f.b == e.a; /* the same way there and back */
        ends first = e.b == f.a ? e : f, second = e.b == f.a ? f : e;
        return both || is_near(p[first.a], p[second.a], p[second.b]) ||
               is_near(p[second.b], p[first.a], p[first.b]);
    }
    return is_near(p[e.a], p[f.a], p[f.b]) || is_near(p[e.b], p[f.a], p[f.b]) ||
           is_near(p[f.a], p[e.a], p[e.b]) || is_near(p[f.b], p[e.a], p[e.b]) || do_cross(of, e, f);
}

/** Links all contours that are not clear of each other or of themselves. */
static runnel_status find_links(loops *of) {
    strand *list = NULL;
    size_t count = 0;
    runnel_status status = list_strands(of, &list, &count);
    for (size_t i = 0; i < count && !status; i++) {
        const strand *s = &list[i];
        if (hypot(s->max_x - s->min_x, s->max_y - s->min_y) < RUNNEL_CLEAR_MM)
            link_loops(of, s->contour, s->contour);
        for (size_t k = i + 1; k < count && list[k].min_x <= s->max_x + RUNNEL_CLEAR_MM; k++) {
            const strand *t = &list[k];
            bool is_known = of->items[s->contour].is_linked && of->items[t->contour].is_linked &&
                            root_of(of, s->contour) == root_of(of, t->contour);
            if (!is_known && t->min_y <= s->max_y + RUNNEL_CLEAR_MM &&
                t->max_y >= s->min_y - RUNNEL_CLEAR_MM && do_meet(of, s, t))
                link_loops(of, s->contour, t->contour);
        }
    }
    runnel_free(list);
    return status;
}

/** Links what winds around linked contours to them. What it winds around may then be surrounded by
 * more, so this goes on until nothing is. */
static void link_around(loops *of) {
    for (bool changed = true; changed;) {
        changed = false;
        for (size_t i = 0; i < of->contours->count; i++) {
            if (!of->items[i].is_linked)
                continue;
            for (size_t k = 0; k < of->contours->count; k++)
                if (root_of(of, k) != root_of(of, i) &&
                    winding(of, k, first_steps(of, i), first_point(of, i)) != 0) {
                    link_loops(of, i, k);
                    changed = true;
                }
        }
    }
}

/* ---- Rings ----------------------------------------------------------------------------------- */

/** Adds a ring, turned round if need be; `patch` is the ring by which its patch is known. */
static runnel_status add_ring(settling *s, const runnel_point *points, size_t count, bool turned,
                              size_t owner, size_t patch) {
    size_t ring = s->rings.count;
    runnel_status status = runnel_contours_begin(&s->rings, true);
    for (size_t k = 0; k < count && !status; k++) {
        runnel_point p = runnel_on_lattice(points[turned ? count - 1 - k : k], s->step);
        status = runnel_contours_add(&s->rings, p.x_mm, p.y_mm);
    }
    if (!status)
        status = runnel_reserve(&s->owners, &s->ring_capacity, ring + 1, sizeof *s->owners);
    if (!status)
        status = runnel_reserve(&s->patches, &s->patch_capacity, ring + 1, sizeof *s->patches);
    if (status)
        return status;
    s->owners[ring] = owner;
    s->patches[ring] = patch;
    return RUNNEL_OK;
}

/** A free contour is a border where the winding number is 0 on one side of it only. */
static runnel_status add_free(settling *s, size_t index) {
    const loops *of = &s->given;
    const runnel_contour *c = &of->contours->items[index];
    double area = of->items[index].area;
    int outside = 0;
    if (c->count < 3 || fabs(area) < RUNNEL_SMALLEST_RING_MM2)
        return RUNNEL_OK;
    for (size_t k = 0; k < of->contours->count; k++)
        if (k != index)
            outside += winding(of, k, first_steps(of, index), first_point(of, index));
    int inside = outside + (area > 0 ? 1 : -1);
    if ((outside != 0) == (inside != 0))
        return RUNNEL_OK;
    bool is_hole = inside == 0;
    size_t ring = s->rings.count;
    return add_ring(s, of->contours->points + c->first, c->count, (area < 0) != is_hole, ring,
                    ring);
}

/** The linked contours with one root, united. */
static runnel_status add_linked(settling *s, size_t root) {
    const runnel_contours *from = s->given.contours;
    runnel_contours some = {0}, united = {0};
    runnel_status status = RUNNEL_OK;
    for (size_t i = root; i < from->count && !status; i++)
        if (root_of(&s->given, i) == root)
            status = runnel_contours_add_moved(&some, from, i, 0, 0);
    if (!status)
        status = runnel_unite(&some, &united);
    size_t patch = s->rings.count, outer = patch;
    for (size_t i = 0; i < united.count && !status; i++) {
        const runnel_contour *c = &united.items[i];
        const runnel_point *points = united.points + c->first;
        if (runnel_points_area(points, c->count) > 0)
            outer = s->rings.count;
        status = add_ring(s, points, c->count, false, outer, patch);
    }
    s->rings.flatten_mm = fmax(s->rings.flatten_mm, united.flatten_mm);
    runnel_contours_clear(&some);
    runnel_contours_clear(&united);
    return status == RUNNEL_E_SHAPE ? RUNNEL_OK : status; /* nothing left of these */
}

static runnel_status find_rings(settling *s) {
    runnel_status status = find_links(&s->given);
    if (!status)
        link_around(&s->given);
    for (size_t i = 0; i < s->given.contours->count && !status; i++) {
        const loop *l = &s->given.items[i];
        if (!l->is_linked)
            status = add_free(s, i);
        else if (l->root == i)
            status = add_linked(s, i);
    }
    return status;
}

/* ---- Patches --------------------------------------------------------------------------------- */

/** Puts each free hole into the smallest outer ring around it. */
static void own_holes(settling *s) {
    const loops *of = &s->made;
    for (size_t i = 0; i < s->rings.count; i++) {
        double least = INFINITY;
        if (of->items[i].area > 0 || s->owners[i] != i)
            continue;
        for (size_t k = 0; k < s->rings.count; k++) {
            double area = of->items[k].area;
            if (area > 0 && area < least &&
                winding(of, k, first_steps(of, i), first_point(of, i)) != 0) {
                least = area;
                s->owners[i] = k;
                s->patches[i] = s->patches[k];
            }
        }
    }
}

/** The rings of a patch: each outer one, and its holes. */
static runnel_status copy_patch(const settling *s, size_t patch, runnel_contours *to) {
    runnel_status status = RUNNEL_OK;
    for (size_t i = patch; i < s->rings.count && !status; i++) {
        if (s->patches[i] != patch || s->owners[i] != i)
            continue;
        status = runnel_contours_add_moved(to, &s->rings, i, 0, 0);
        for (size_t k = 0; k < s->rings.count && !status; k++)
            if (s->owners[k] == i && k != i)
                status = runnel_contours_add_moved(to, &s->rings, k, 0, 0);
    }
    return status;
}

static runnel_status gather_patches(settling *s, runnel_settled *settled) {
    runnel_status status = look_at(&s->rings, s->step, &s->made);
    if (!status)
        own_holes(s);
    settled->first = runnel_zeroed(s->rings.count + 1, sizeof *settled->first);
    if (!status && !settled->first)
        status = RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < s->rings.count && !status; i++) {
        if (s->patches[i] != i)
            continue;
        settled->first[settled->patch_count++] = settled->rings.count;
        status = copy_patch(s, i, &settled->rings);
    }
    if (!status)
        settled->first[settled->patch_count] = settled->rings.count;
    settled->rings.flatten_mm = s->rings.flatten_mm;
    return status;
}

runnel_status runnel_settle(const runnel_contours *contours, double step_mm,
                            runnel_settled *settled) {
    settling s = {.step = step_mm};
    runnel_settled made = {0};
    runnel_status status = look_at(contours, step_mm, &s.given);
    if (!status)
        status = find_rings(&s);
    if (!status)
        status = gather_patches(&s, &made);
    clear_loops(&s.given);
    clear_loops(&s.made);
    runnel_contours_clear(&s.rings);
    runnel_free(s.owners);
    runnel_free(s.patches);
    if (status)
        runnel_settled_clear(&made);
    else
        *settled = made;
    return status;
}
