/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The boundary of a domain as cycles of directed segments with the domain on their left.
 *
 * Each corner is the start of one segment: corner i and segment i share their number. Where the
 * boundary turns right (or not at all) the corner is reflex: a disc inside the domain can touch it.
 * A line of a path appears twice, once for each side.
 */
#ifndef RUNNEL_SHAPE_BOUNDARY_H
#define RUNNEL_SHAPE_BOUNDARY_H

#include "runnel/contours.h"

#include <stdint.h>

/** Segment i, from corner i to corner `next`. */
typedef struct runnel_edge {
    double x, y;   /**< start, mm */
    double ux, uy; /**< unit direction; the normal into the domain is (-uy, ux) */
    double length; /**< mm */
    uint32_t next, previous;
    uint32_t cycle;
    uint32_t twin; /**< the same segment seen from the other side; UINT32_MAX for regions */
    bool reflex;   /**< corner i: turns right or goes straight on */
    bool foreign;  /**< stops discs, but has no pieces of its own */
} runnel_edge;

/** One cycle: a contiguous run of edges. */
typedef struct runnel_cycle {
    uint32_t first, count;
    uint32_t part;
    runnel_box box;
} runnel_cycle;

/**
 * A contiguous run of cycles. Of an inside, one outer ring and its holes: no disc in it meets
 * another part. All else is one part.
 */
typedef struct runnel_part {
    uint32_t first, count;
} runnel_part;

/** Zero-initialised is empty. */
typedef struct runnel_boundary {
    runnel_edge *edges;
    size_t count;
    runnel_cycle *cycles;
    size_t cycle_count;
    runnel_part *parts;
    size_t part_count;
    double size_mm;  /**< diagonal of the box */
    double noise_mm; /**< heights up to this are rounding of the coordinates */
    double area_mm2; /**< what the cycles that are not foreign enclose on their left; negative for
                        an outside */
} runnel_boundary;

#define RUNNEL_NO_EDGE UINT32_MAX

/** Frees all. */
void runnel_boundary_clear(runnel_boundary *boundary);

/** Rings as they stand (domain inside), or turned round (domain outside). Where each outer ring is
 * followed by its holes, as the union leaves them, they become parts; else all is one part.
 * @param own_count contours from that one on are foreign; they touch none of those before */
runnel_status runnel_boundary_of_region(const runnel_contours *region, size_t own_count,
                                        bool outside, runnel_boundary *boundary);

/** Both sides of open lines that meet only at their ends. */
runnel_status runnel_boundary_of_lines(const runnel_contours *lines, size_t own_count,
                                       runnel_boundary *boundary);

#endif
