/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The look of the pieces of a job: where their cavities are, how deep each place is, and a section
 * through a stroke. For pictures; figures are those of the plan.
 */
#ifndef RUNNEL_LOOK_H
#define RUNNEL_LOOK_H

#include "runnel/job.h"
#include "runnel/plan.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Levels of a cavity at most, from the face down: of straight walls so many as greys can be told
 * apart, else more, ever closer to each other, as a round bottom bends most where it is deepest. */
#define RUNNEL_LOOK_LEVELS          14
#define RUNNEL_LOOK_STRAIGHT_LEVELS 8

/** What of a cavity is at least so deep. */
typedef struct runnel_look_level {
    double depth_mm;        /**< below the face */
    double inset_mm;        /**< how far its edge lies within that at the face */
    runnel_contours region; /**< united: outer rings counter-clockwise, holes clockwise */
    /** Of the section there: where the stroke begins and ends, from `section_at`; NAN when it is no
     * longer met. */
    double from_mm, to_mm;
} runnel_look_level;

/** A cavity. Points from the piece's lower left, mm, y upwards. */
typedef struct runnel_look_cavity {
    bool is_known; /**< has a shape: a measured one has none, and neither has what is not cut */
    runnel_look_level levels[RUNNEL_LOOK_LEVELS];
    size_t level_count;
    runnel_box box; /**< at the face */
    runnel_point deepest_at;
    runnel_point narrowest_at; /**< where the narrowest stroke is */
    bool is_even;              /**< as deep everywhere: a pocket, or along a path */
    /** The section goes through this point in this direction, of length 1: from the deepest place
     * to the nearest edge or, where all is as deep, across from the middle of the longest edge. */
    runnel_point section_at, along;
} runnel_look_cavity;

/** A piece. */
typedef struct runnel_look_piece {
    size_t first, count;        /**< its cavities */
    double length_mm, width_mm; /**< 0 = not told */
    runnel_box box;   /**< of the piece and all its cavities; empty when there is nothing */
    bool places_told; /**< else those not placed are in the middle: below one another where that
                         fits, else one around the other */
} runnel_look_piece;

/** How much is wanted. */
typedef enum runnel_look_depth {
    RUNNEL_LOOK_ALL, /**< all levels and the section */
    RUNNEL_LOOK_FACE /**< the outlines at the face alone, as for small pictures: much faster */
} runnel_look_depth;

/** All of a job. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_look {
    runnel_look_piece *pieces; /**< in the order of the job */
    size_t piece_count;
    runnel_look_cavity *cavities; /**< in the order of the plan */
    size_t cavity_count;
} runnel_look;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_look_clear(runnel_look *look);

/**
 * Makes the look of a planned job. Regions are those of runnel_cavity_level, arcs as
 * chords within 0.01 mm.
 *
 * @param plan   of the job
 * @param letters sets the texts, as for runnel_plan_make
 * @param look   an empty one
 * @return RUNNEL_OK; RUNNEL_E_NO_MEMORY; RUNNEL_E_NOT_COMPUTED; what the letter function returns
 */
runnel_status runnel_look_make(const runnel_job *job, const runnel_tables *tables,
                               const runnel_letters *letters, runnel_problems *problems,
                               const runnel_plan *plan, runnel_look_depth depth, runnel_look *look);

#ifdef __cplusplus
}
#endif
#endif
