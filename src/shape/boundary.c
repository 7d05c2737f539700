/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shape/boundary.h"

#include "base/memory.h"
#include "base/sum.h"
#include "shape/points.h"
#include "shape/wedges.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/** Turns smaller than this (sine of the angle) count as straight on: below the rounding of
 * coordinates over the shortest segment that matters. */
#define STRAIGHT_SINE 1e-11

/** Rounding of a height computed from coordinates, as a share of the largest: some 50 ulp. */
#define NOISE_SHARE 1e-14

void runnel_boundary_clear(runnel_boundary *boundary) {
    runnel_free(boundary->edges);
    runnel_free(boundary->cycles);
    runnel_free(boundary->parts);
    memset(boundary, 0, sizeof *boundary);
}

static runnel_status allocate(size_t edges, size_t cycles, runnel_boundary *boundary) {
    memset(boundary, 0, sizeof *boundary);
    if (edges == 0 || edges >= RUNNEL_NO_EDGE / 2)
        return edges ? RUNNEL_E_NOT_COMPUTED : RUNNEL_E_SHAPE;
    boundary->edges = runnel_zeroed(edges, sizeof *boundary->edges);
    boundary->cycles = runnel_zeroed(cycles, sizeof *boundary->cycles);
    boundary->parts = runnel_zeroed(cycles, sizeof *boundary->parts);
    if (!boundary->edges || !boundary->cycles || !boundary->parts) {
        runnel_boundary_clear(boundary);
        return RUNNEL_E_NO_MEMORY;
    }
    return RUNNEL_OK;
}

/** Directions, lengths and kinds of corner, once starts and links are set. */
static void finish_edges(runnel_boundary *boundary) {
    runnel_edge *edges = boundary->edges;
    for (size_t i = 0; i < boundary->count; i++) {
        runnel_edge *e = &edges[i];
        double dx = edges[e->next].x - e->x, dy = edges[e->next].y - e->y;
        e->length = hypot(dx, dy);
        e->ux = dx / e->length;
        e->uy = dy / e->length;
    }
    for (size_t i = 0; i < boundary->count; i++) {
        runnel_edge *e = &edges[i];
        const runnel_edge *before = &edges[e->previous];
        double sine = before->ux * e->uy - before->uy * e->ux;
        e->reflex = sine <= STRAIGHT_SINE; /* the end of a line, a turn by 180 degrees, as well */
    }
}

static void finish_cycles(runnel_boundary *boundary) {
    runnel_box all = {INFINITY, INFINITY, -INFINITY, -INFINITY};
    runnel_sum area = {0};
    const runnel_edge *edges = boundary->edges;
    for (size_t c = 0; c < boundary->cycle_count; c++) {
        runnel_cycle *cycle = &boundary->cycles[c];
        runnel_box box = {INFINITY, INFINITY, -INFINITY, -INFINITY};
        double x0 = edges[cycle->first].x, y0 = edges[cycle->first].y;
        bool counts = !edges[cycle->first].foreign;
        for (uint32_t i = cycle->first; i < cycle->first + cycle->count; i++) {
            const runnel_edge *e = &edges[i], *n = &edges[e->next];
            box.min_x_mm = fmin(box.min_x_mm, e->x);
            box.min_y_mm = fmin(box.min_y_mm, e->y);
            box.max_x_mm = fmax(box.max_x_mm, e->x);
            box.max_y_mm = fmax(box.max_y_mm, e->y);
            if (counts)
                runnel_sum_add(&area,
                               0.5 * ((e->x - x0) * (n->y - y0) - (n->x - x0) * (e->y - y0)));
        }
        cycle->box = box;
        all.min_x_mm = fmin(all.min_x_mm, box.min_x_mm);
        all.min_y_mm = fmin(all.min_y_mm, box.min_y_mm);
        all.max_x_mm = fmax(all.max_x_mm, box.max_x_mm);
        all.max_y_mm = fmax(all.max_y_mm, box.max_y_mm);
    }
    double farthest = fmax(fmax(fabs(all.min_x_mm), fabs(all.max_x_mm)),
                           fmax(fabs(all.min_y_mm), fabs(all.max_y_mm)));
    boundary->noise_mm = NOISE_SHARE * farthest;
    boundary->size_mm = hypot(all.max_x_mm - all.min_x_mm, all.max_y_mm - all.min_y_mm);
    boundary->area_mm2 = runnel_sum_value(&area);
}

/** A run of rings, and the middle of the box of its first one, the outer ring. */
typedef struct placed {
    double x, y;
    runnel_box box;
    size_t first, count;
} placed;

static int by_x(const void *left, const void *right) {
    const placed *a = left, *b = right;
    if (a->x != b->x)
        return a->x < b->x ? -1 : 1;
    return (a->first > b->first) - (a->first < b->first);
}

static int by_y(const void *left, const void *right) {
    const placed *a = left, *b = right;
    if (a->y != b->y)
        return a->y < b->y ? -1 : 1;
    return (a->first > b->first) - (a->first < b->first);
}

/** Orders parts so that each half of the list, and each half of a half, is a piece of the plan: cut
 * at the median across the longer side. */
static void order_parts(placed *parts, size_t count) {
    if (count < 3)
        return;
    double min_x = INFINITY, max_x = -INFINITY, min_y = INFINITY, max_y = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        min_x = fmin(min_x, parts[i].x);
        max_x = fmax(max_x, parts[i].x);
        min_y = fmin(min_y, parts[i].y);
        max_y = fmax(max_y, parts[i].y);
    }
    qsort(parts, count, sizeof *parts, max_x - min_x > max_y - min_y ? by_x : by_y);
    order_parts(parts, count / 2);
    order_parts(parts + count / 2, count - count / 2);
}

static bool is_box_within(const runnel_box *box, const runnel_box *outer) {
    return box->min_x_mm >= outer->min_x_mm && box->max_x_mm <= outer->max_x_mm &&
           box->min_y_mm >= outer->min_y_mm && box->max_y_mm <= outer->max_y_mm;
}

/** Parts of a region; one for all when a hole does not follow its outer ring. */
static size_t find_parts(const runnel_contours *region, placed *parts) {
    size_t count = 0;
    for (size_t i = 0; i < region->count; i++) {
        const runnel_contour *ring = &region->items[i];
        const runnel_point *points = region->points + ring->first;
        double area = runnel_points_area(points, ring->count);
        runnel_box box = runnel_points_box(points, ring->count);
        if (area > 0) {
            parts[count++] = (placed){0.5 * (box.min_x_mm + box.max_x_mm),
                                      0.5 * (box.min_y_mm + box.max_y_mm), box, i, 1};
        } else if (count && is_box_within(&box, &parts[count - 1].box)) {
            parts[count - 1].count++;
        } else {
            parts[0] = (placed){0, 0, box, 0, region->count};
            return 1;
        }
    }
    return count;
}

static void add_ring(const runnel_contours *region, size_t index, bool turned, bool foreign,
                     runnel_boundary *made) {
    const runnel_contour *ring = &region->items[index];
    uint32_t first = (uint32_t)made->count, count = (uint32_t)ring->count;
    for (uint32_t i = 0; i < count; i++) {
        const runnel_point *p = &region->points[ring->first + (turned ? count - 1 - i : i)];
        made->edges[first + i] = (runnel_edge){.x = p->x_mm,
                                               .y = p->y_mm,
                                               .next = first + (i + 1) % count,
                                               .previous = first + (i + count - 1) % count,
                                               .cycle = (uint32_t)made->cycle_count,
                                               .twin = RUNNEL_NO_EDGE,
                                               .foreign = foreign};
    }
    made->count += count;
    made->cycles[made->cycle_count++] = (runnel_cycle){.first = first, .count = count};
}

/** Makes runs of cycles the parts of the boundary. */
static void add_part(runnel_boundary *made, uint32_t first, uint32_t count) {
    for (uint32_t i = first; i < first + count; i++)
        made->cycles[i].part = (uint32_t)made->part_count;
    made->parts[made->part_count++] = (runnel_part){first, count};
}

runnel_status runnel_boundary_of_region(const runnel_contours *region, size_t own_count,
                                        bool outside, runnel_boundary *boundary) {
    runnel_boundary made;
    runnel_status status = allocate(region->point_count, region->count + 1, &made);
    if (status)
        return status;
    placed *parts = runnel_zeroed(region->count + 1, sizeof *parts);
    if (!parts) {
        runnel_boundary_clear(&made);
        return RUNNEL_E_NO_MEMORY;
    }
    size_t count = find_parts(region, parts);
    order_parts(parts, count);
    for (size_t k = 0; k < count; k++) {
        uint32_t first = (uint32_t)made.cycle_count;
        for (size_t i = 0; i < parts[k].count; i++)
            add_ring(region, parts[k].first + i, outside, parts[k].first + i >= own_count, &made);
        if (!outside)
            add_part(&made, first, (uint32_t)parts[k].count);
    }
    if (outside)
        add_part(&made, 0, (uint32_t)made.cycle_count);
    runnel_free(parts);
    status = runnel_boundary_part_wedges(&made);
    if (status) {
        runnel_boundary_clear(&made);
        return status;
    }
    finish_edges(&made);
    finish_cycles(&made);
    *boundary = made;
    return RUNNEL_OK;
}

/** One side of one segment of a line, before the sides are strung into cycles. */
typedef struct half {
    double x, y, angle; /**< start and direction */
    uint32_t twin, next;
    uint32_t rank; /**< place in the list sorted around the nodes */
    bool foreign;
    bool done;
} half;

/** Sorting key of a half: by node, around it by direction. */
typedef struct around {
    double x, y, angle;
    uint32_t index;
} around;

static int by_node_and_angle(const void *left, const void *right) {
    const around *a = left, *b = right;
    if (a->x != b->x)
        return a->x < b->x ? -1 : 1;
    if (a->y != b->y)
        return a->y < b->y ? -1 : 1;
    return (a->angle > b->angle) - (a->angle < b->angle);
}

static size_t collect_halves(const runnel_contours *lines, size_t own_count, half *halves) {
    size_t count = 0;
    for (size_t c = 0; c < lines->count; c++) {
        const runnel_contour *line = &lines->items[c];
        for (size_t i = line->first; i + 1 < line->first + line->count; i++) {
            runnel_point a = lines->points[i], b = lines->points[i + 1];
            double angle = atan2(b.y_mm - a.y_mm, b.x_mm - a.x_mm);
            double back = atan2(a.y_mm - b.y_mm, a.x_mm - b.x_mm);
            bool foreign = c >= own_count;
            uint32_t here = (uint32_t)count;
            halves[count] = (half){a.x_mm, a.y_mm, angle, here + 1, 0, 0, foreign, false};
            halves[count + 1] = (half){b.x_mm, b.y_mm, back, here, 0, 0, foreign, false};
            count += 2;
        }
    }
    return count;
}

/**
 * Links each half to the one that follows with the same face on its left: at the node where it
 * ends, the first direction clockwise from the way it came.
 */
static void link_halves(half *halves, around *order, size_t count) {
    for (size_t i = 0; i < count; i++)
        order[i] = (around){halves[i].x, halves[i].y, halves[i].angle, (uint32_t)i};
    qsort(order, count, sizeof *order, by_node_and_angle);
    for (size_t i = 0; i < count; i++)
        halves[order[i].index].rank = (uint32_t)i;
    for (size_t i = 0; i < count; i++) {
        uint32_t back = halves[halves[i].twin].rank, from = back;
        bool first_of_node =
            back == 0 || order[back - 1].x != order[back].x || order[back - 1].y != order[back].y;
        if (!first_of_node) {
            from = back - 1;
        } else {
            while (from + 1 < count && order[from + 1].x == order[back].x &&
                   order[from + 1].y == order[back].y)
                from++;
        }
        halves[i].next = order[from].index;
    }
}

static void string_cycles(half *halves, size_t count, uint32_t *edge_of, runnel_boundary *made) {
    for (size_t i = 0; i < count; i++) {
        if (halves[i].done)
            continue;
        uint32_t first = (uint32_t)made->count;
        for (uint32_t h = (uint32_t)i; !halves[h].done; h = halves[h].next) {
            halves[h].done = true;
            edge_of[h] = (uint32_t)made->count;
            uint32_t here = (uint32_t)made->count++;
            made->edges[here] = (runnel_edge){.x = halves[h].x,
                                              .y = halves[h].y,
                                              .next = here + 1,
                                              .previous = here - 1,
                                              .cycle = (uint32_t)made->cycle_count,
                                              .twin = halves[h].twin,
                                              .foreign = halves[h].foreign};
        }
        uint32_t last = (uint32_t)made->count - 1;
        made->edges[last].next = first;
        made->edges[first].previous = last;
        made->cycles[made->cycle_count++] =
            (runnel_cycle){.first = first, .count = last - first + 1};
    }
    for (size_t i = 0; i < made->count; i++)
        made->edges[i].twin = edge_of[made->edges[i].twin];
}

runnel_status runnel_boundary_of_lines(const runnel_contours *lines, size_t own_count,
                                       runnel_boundary *boundary) {
    size_t segments = 0;
    for (size_t c = 0; c < lines->count; c++)
        segments += lines->items[c].count ? lines->items[c].count - 1 : 0;
    runnel_boundary made;
    runnel_status status = allocate(2 * segments, 2 * segments, &made);
    if (status)
        return status;
    half *halves = runnel_zeroed(2 * segments, sizeof *halves);
    around *order = runnel_zeroed(2 * segments, sizeof *order);
    uint32_t *edge_of = runnel_zeroed(2 * segments, sizeof *edge_of);
    if (halves && order && edge_of) {
        size_t count = collect_halves(lines, own_count, halves);
        link_halves(halves, order, count);
        string_cycles(halves, count, edge_of, &made);
        add_part(&made, 0, (uint32_t)made.cycle_count);
        finish_edges(&made);
        finish_cycles(&made);
        *boundary = made;
    } else {
        runnel_boundary_clear(&made);
        status = RUNNEL_E_NO_MEMORY;
    }
    runnel_free(halves);
    runnel_free(order);
    runnel_free(edge_of);
    return status;
}
