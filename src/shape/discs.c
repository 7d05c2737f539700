/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shape/discs.h"

#include "base/memory.h"

#include <math.h>
#include <string.h>

enum { LEAF_EDGES = 4, DEEPEST = 64 };

/** A foot may miss its segment by this share of its length, so that two segments that meet leave no
 * gap between them by rounding. */
#define FOOT_SLACK 1e-9

/* Plain comparisons: fmin and fmax, which mind NAN, are calls. */
static void grow_box(runnel_tree_node *node, double x, double y) {
    node->min_x = x < node->min_x ? x : node->min_x;
    node->min_y = y < node->min_y ? y : node->min_y;
    node->max_x = x > node->max_x ? x : node->max_x;
    node->max_y = y > node->max_y ? y : node->max_y;
}

static void grow_to_node(runnel_tree_node *node, const runnel_tree_node *other) {
    grow_box(node, other->min_x, other->min_y);
    grow_box(node, other->max_x, other->max_y);
}

static runnel_tree_node *new_node(runnel_tree *tree, uint32_t first, uint32_t count) {
    runnel_tree_node *node = &tree->nodes[tree->count++];
    *node = (runnel_tree_node){INFINITY, INFINITY, -INFINITY, -INFINITY, first, count, 0};
    return node;
}

/** Two children, made one after the other; the left one follows its parent. */
static void join(runnel_tree *tree, runnel_tree_node *node, uint32_t left, uint32_t right) {
    node->right = right;
    grow_to_node(node, &tree->nodes[left]);
    grow_to_node(node, &tree->nodes[right]);
}

/** Subtree of a run of edges. */
static uint32_t build_edges(const runnel_boundary *boundary, runnel_tree *tree, uint32_t first,
                            uint32_t count) {
    uint32_t here = (uint32_t)tree->count;
    runnel_tree_node *node = new_node(tree, first, count);
    if (count > LEAF_EDGES) {
        uint32_t left = build_edges(boundary, tree, first, count / 2);
        join(tree, node, left, build_edges(boundary, tree, first + count / 2, count - count / 2));
        return here;
    }
    for (uint32_t i = first; i < first + count; i++) {
        const runnel_edge *a = &boundary->edges[i], *b = &boundary->edges[a->next];
        grow_box(node, a->x, a->y);
        grow_box(node, b->x, b->y);
    }
    return here;
}

/** Subtree of the edges of a run of cycles, parted between cycles first. */
static uint32_t build_edges_of(const runnel_boundary *boundary, runnel_tree *tree, uint32_t first,
                               uint32_t count) {
    const runnel_cycle *from = &boundary->cycles[first], *last = from + count - 1;
    if (count == 1)
        return build_edges(boundary, tree, from->first, from->count);
    uint32_t here = (uint32_t)tree->count;
    runnel_tree_node *node = new_node(tree, from->first, last->first + last->count - from->first);
    uint32_t left = build_edges_of(boundary, tree, first, count / 2);
    join(tree, node, left, build_edges_of(boundary, tree, first + count / 2, count - count / 2));
    return here;
}

/** Subtree of a run of parts. */
static uint32_t build_parts(const runnel_boundary *boundary, runnel_tree *tree, uint32_t first,
                            uint32_t count) {
    const runnel_part *part = &boundary->parts[first];
    if (count == 1) {
        tree->roots[first] = build_edges_of(boundary, tree, part->first, part->count);
        return tree->roots[first];
    }
    uint32_t here = (uint32_t)tree->count;
    runnel_tree_node *node = new_node(tree, boundary->cycles[part->first].first, 0);
    uint32_t left = build_parts(boundary, tree, first, count / 2);
    join(tree, node, left, build_parts(boundary, tree, first + count / 2, count - count / 2));
    return here;
}

/** Subtree of the boxes of a run of cycles. */
static uint32_t build_cycles(const runnel_boundary *boundary, runnel_tree *tree, uint32_t first,
                             uint32_t count) {
    uint32_t here = (uint32_t)tree->count;
    runnel_tree_node *node = new_node(tree, first, count);
    if (count > LEAF_EDGES) {
        uint32_t left = build_cycles(boundary, tree, first, count / 2);
        join(tree, node, left, build_cycles(boundary, tree, first + count / 2, count - count / 2));
        return here;
    }
    for (uint32_t i = first; i < first + count; i++) {
        const runnel_box *box = &boundary->cycles[i].box;
        grow_box(node, box->min_x_mm, box->min_y_mm);
        grow_box(node, box->max_x_mm, box->max_y_mm);
    }
    return here;
}

static runnel_status allocate(runnel_tree *tree, size_t leaves) {
    tree->count = 0;
    tree->nodes = runnel_zeroed(2 * leaves, sizeof *tree->nodes);
    return tree->nodes ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
}

runnel_status runnel_tree_build(const runnel_boundary *boundary, runnel_tree *tree) {
    runnel_status status = allocate(tree, boundary->count);
    if (status)
        return status;
    tree->roots = runnel_zeroed(boundary->part_count, sizeof *tree->roots);
    if (!tree->roots) {
        runnel_tree_clear(tree);
        return RUNNEL_E_NO_MEMORY;
    }
    build_parts(boundary, tree, 0, (uint32_t)boundary->part_count);
    return RUNNEL_OK;
}

runnel_status runnel_tree_build_cycles(const runnel_boundary *boundary, runnel_tree *tree) {
    runnel_status status = allocate(tree, boundary->cycle_count);
    if (!status)
        build_cycles(boundary, tree, 0, (uint32_t)boundary->cycle_count);
    return status;
}

void runnel_tree_clear(runnel_tree *tree) {
    runnel_free(tree->nodes);
    runnel_free(tree->roots);
    memset(tree, 0, sizeof *tree);
}

static bool is_own(const runnel_disc *disc, uint32_t index) {
    return index == disc->never[0] || index == disc->never[1] || index == disc->never[2];
}

/**
 * Height of the point over a line and its place along it. For a neighbour across a convex corner
 * both follow from the distance to the shared corner, without the rounding of the coordinates: near
 * a corner that is all but straight the height is smaller than that.
 */
static inline double height_over(const runnel_disc *disc, const runnel_edge *f, uint32_t index,
                                 double *along) {
    if (index == disc->always[0] || index == disc->always[1]) {
        bool is_before = index == disc->always[0];
        double way = is_before ? disc->before : -disc->after;
        double dx = disc->ny * way, dy = -disc->nx * way; /* the edge runs along (ny, -nx) */
        *along = f->ux * dx + f->uy * dy + (is_before ? f->length : 0);
        return f->ux * dy - f->uy * dx;
    }
    double qx = disc->x - f->x, qy = disc->y - f->y;
    *along = f->ux * qx + f->uy * qy;
    return f->ux * qy - f->uy * qx;
}

static inline void try_line(const runnel_boundary *boundary, runnel_disc *disc, uint32_t index) {
    const runnel_edge *f = &boundary->edges[index];
    double along, above = height_over(disc, f, index, &along);
    bool is_neighbour = index == disc->always[0] || index == disc->always[1];
    if (!(above > (is_neighbour ? 0 : boundary->noise_mm)))
        return;
    /* 1 - k.n as half the square of the difference: exact for segments that are nearly in line */
    double dx = -f->uy - disc->nx, dy = f->ux - disc->ny;
    double slope = 0.5 * (dx * dx + dy * dy);
    if (!(above < disc->radius * slope) || is_own(disc, index))
        return;
    double t = above / slope;
    double foot = along + t * (f->ux * disc->nx + f->uy * disc->ny);
    double slack = FOOT_SLACK * f->length;
    if (foot < -slack || foot > f->length + slack)
        return;
    disc->radius = t;
    disc->stop = runnel_stop_edge(index);
}

static inline void try_corner(const runnel_boundary *boundary, runnel_disc *disc, uint32_t index) {
    const runnel_edge *f = &boundary->edges[index];
    if (!f->reflex)
        return;
    double rx = f->x - disc->x, ry = f->y - disc->y;
    double height = rx * disc->nx + ry * disc->ny;
    if (!(height > boundary->noise_mm))
        return;
    double square = rx * rx + ry * ry;
    if (square < 2 * height * disc->radius) {
        disc->radius = square / (2 * height);
        disc->stop = runnel_stop_corner(index);
    }
}

void runnel_disc_try_edge(const runnel_boundary *boundary, runnel_disc *disc, uint32_t index) {
    try_line(boundary, disc, index);
    try_corner(boundary, disc, index);
}

void runnel_disc_try_stop(const runnel_boundary *boundary, runnel_disc *disc, runnel_stop stop) {
    if (stop == RUNNEL_STOP_NONE)
        return;
    if (runnel_stop_is_corner(stop))
        try_corner(boundary, disc, runnel_stop_index(stop));
    else
        try_line(boundary, disc, runnel_stop_index(stop));
}

/** Square of the distance from the disc's centre to a box. */
static inline double gap_square(const runnel_tree_node *node, double cx, double cy) {
    double dx = cx < node->min_x ? node->min_x - cx : (cx > node->max_x ? cx - node->max_x : 0);
    double dy = cy < node->min_y ? node->min_y - cy : (cy > node->max_y ? cy - node->max_y : 0);
    return dx * dx + dy * dy;
}

/** A node to be looked at, and how far it was from the disc's centre when it was found. */
typedef struct waiting {
    uint32_t node;
    double square;
} waiting;

void runnel_disc_grow(const runnel_boundary *boundary, const runnel_tree *tree, uint32_t edge,
                      runnel_disc *disc) {
    waiting stack[DEEPEST * 2];
    size_t depth = 0;
    double radius = disc->radius, cx = disc->x + radius * disc->nx,
           cy = disc->y + radius * disc->ny;
    double limit = radius * radius * (1 + 1e-9);
    stack[depth++] = (waiting){tree->roots[boundary->cycles[boundary->edges[edge].cycle].part], 0};
    while (depth) {
        waiting top = stack[--depth];
        const runnel_tree_node *node = &tree->nodes[top.node];
        if (disc->radius < radius) { /* the disc has shrunk since: measure again */
            radius = disc->radius;
            cx = disc->x + radius * disc->nx;
            cy = disc->y + radius * disc->ny;
            limit = radius * radius * (1 + 1e-9);
        }
        if (top.square > limit && gap_square(node, cx, cy) > limit)
            continue;
        if (!node->right) {
            for (uint32_t i = node->first; i < node->first + node->count; i++)
                runnel_disc_try_edge(boundary, disc, i);
            continue;
        }
        waiting left = {top.node + 1, gap_square(&tree->nodes[top.node + 1], cx, cy)};
        waiting right = {node->right, gap_square(&tree->nodes[node->right], cx, cy)};
        bool left_first = left.square <= right.square;
        waiting near = left_first ? left : right, far = left_first ? right : left;
        if (far.square <= limit)
            stack[depth++] = far;
        if (near.square <= limit)
            stack[depth++] = near;
    }
}

void runnel_tree_search(const runnel_tree *tree, const runnel_box *box,
                        void (*visit)(uint32_t index, void *state), void *state) {
    uint32_t stack[DEEPEST * 2];
    size_t depth = 0;
    stack[depth++] = 0;
    while (depth) {
        uint32_t here = stack[--depth];
        const runnel_tree_node *node = &tree->nodes[here];
        if (node->min_x > box->max_x_mm || node->max_x < box->min_x_mm ||
            node->min_y > box->max_y_mm || node->max_y < box->min_y_mm)
            continue;
        if (!node->right) {
            for (uint32_t i = node->first; i < node->first + node->count; i++)
                visit(i, state);
            continue;
        }
        stack[depth++] = node->right;
        stack[depth++] = here + 1;
    }
}
