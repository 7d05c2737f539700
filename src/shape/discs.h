/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The largest disc that touches the boundary at a point from its left, and what stops its growth.
 *
 * A disc of radius t that touches at p, with its centre at p + t n, reaches
 *   a corner x         at t = |x - p|^2 / (2 n.(x - p)),        when n.(x - p) > 0,
 *   a segment's inside at t = k.(p - q) / (1 - k.n),            q on the segment, k its normal,
 *                      when p lies on the segment's left and the foot of the centre on the segment.
 * Discs at one p are nested, so the first that is reached stops all.
 */
#ifndef RUNNEL_SHAPE_DISCS_H
#define RUNNEL_SHAPE_DISCS_H

#include "shape/boundary.h"

/** What stops a disc: a segment, a corner, or nothing within reach. */
typedef uint32_t runnel_stop;
#define RUNNEL_STOP_NONE UINT32_MAX
static inline runnel_stop runnel_stop_edge(uint32_t index) {
    return 2 * index;
}
static inline runnel_stop runnel_stop_corner(uint32_t index) {
    return 2 * index + 1;
}
static inline bool runnel_stop_is_corner(runnel_stop stop) {
    return (stop & 1) != 0;
}
static inline uint32_t runnel_stop_index(runnel_stop stop) {
    return stop >> 1;
}

/** Tree of boxes over runs of edges. */
typedef struct runnel_tree_node {
    double min_x, min_y, max_x, max_y;
    uint32_t first, count; /**< edges, or cycles, below */
    uint32_t right;        /**< right child; the left one follows the node; 0 = leaf */
} runnel_tree_node;

typedef struct runnel_tree {
    runnel_tree_node *nodes;
    size_t count;
    uint32_t *roots; /**< node of each part of the boundary; NULL in a tree of cycles */
} runnel_tree;

/** Builds the tree of a boundary's edges, or of its cycles. */
runnel_status runnel_tree_build_cycles(const runnel_boundary *boundary, runnel_tree *tree);
runnel_status runnel_tree_build(const runnel_boundary *boundary, runnel_tree *tree);
void runnel_tree_clear(runnel_tree *tree);

/** A disc that grows. */
typedef struct runnel_disc {
    double x, y;          /**< where it touches */
    double nx, ny;        /**< unit normal */
    uint32_t never[3];    /**< edges that lie along its own without reaching in: the twin, and the
                             neighbours across reflex corners; or none */
    double before, after; /**< distances along its own edge to that edge's start and end, mm */
    uint32_t always[2];   /**< neighbours before and after across convex corners, which bound it
                             however near; or none */
    double radius;        /**< in: upper bound; out: the largest */
    runnel_stop stop;     /**< in: what gives the bound; out: what stops it */
} runnel_disc;

/** Tries one stop: shrinks the disc when it is reached earlier. */
void runnel_disc_try_edge(const runnel_boundary *boundary, runnel_disc *disc, uint32_t index);

/** Tries the line or the corner of one stop alone; RUNNEL_STOP_NONE is left out. */
void runnel_disc_try_stop(const runnel_boundary *boundary, runnel_disc *disc, runnel_stop stop);

/** Grows the disc against all that the part of an edge holds. */
void runnel_disc_grow(const runnel_boundary *boundary, const runnel_tree *tree, uint32_t edge,
                      runnel_disc *disc);

/** Calls `visit` for each edge or cycle in the leaves whose boxes meet a box. */
void runnel_tree_search(const runnel_tree *tree, const runnel_box *box,
                        void (*visit)(uint32_t index, void *state), void *state);

#endif
