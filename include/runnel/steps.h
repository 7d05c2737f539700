/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The steps of a carved and filled piece, and the order that they have to keep.
 */
#ifndef RUNNEL_STEPS_H
#define RUNNEL_STEPS_H

#include "runnel/status.h"

#include <stdbool.h>

#ifdef __cplusplus
extern "C" {
#endif

/** Steps on the bench. */
typedef enum runnel_step {
    RUNNEL_STEP_CARVE,
    RUNNEL_STEP_SEAL,        /**< walls and face, with a sealer that holds no wax */
    RUNNEL_STEP_SEAL_WAXY,   /**< the same with one that does, such as shellac not dewaxed */
    RUNNEL_STEP_RELEASE_WAX, /**< wax on the face beside the cavities, so that spills come off */
    RUNNEL_STEP_MIX,         /**< of resin */
    RUNNEL_STEP_POUR,        /**< of resin */
    RUNNEL_STEP_LEVEL,       /**< with a cutter */
    RUNNEL_STEP_SAND,        /**< dry, down to bare wood */
    RUNNEL_STEP_RAISE_GRAIN, /**< wetted, dried, knocked down */
    RUNNEL_STEP_OIL,         /**< that stays wet, such as mineral oil */
    RUNNEL_STEP_OIL_DRYING,  /**< that hardens, such as linseed, tung and walnut */
    RUNNEL_STEP_WAX,         /**< as the last coat, wax with oil too */
    RUNNEL_STEP_FOOD,        /**< in use with food */
    RUNNEL_STEP_COUNT
} runnel_step;

/** A step as a bit, for sets of steps. */
#define RUNNEL_STEP_BIT(step) (1u << (step))

/** Short name of a step for people, such as "seal"; "?" for what is none. */
const char *runnel_step_text(runnel_step step);

/** One thing that is wrong with an order. */
typedef struct runnel_order_fault {
    const char *code; /**< stable word, such as "oil-before-resin" */
    size_t earlier;   /**< place in the list of the step that comes too early ... */
    size_t later;     /**< ... and of the one that it spoils */
    bool is_wrong;    /**< it will fail; else it is doubtful, or work done twice */
    const char *text; /**< the reason, and what would be right */
    const char *source;
} runnel_order_fault;

/** What is wrong with an order. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_order_faults {
    runnel_order_fault *items;
    size_t count, capacity;
} runnel_order_faults;

/** Frees all and leaves an empty list. NULL is allowed. */
void runnel_order_faults_clear(runnel_order_faults *faults);

/**
 * Checks the order of steps. A rule is told once for each later step, with the last of the earlier
 * ones; the faults come in the order of the later steps.
 *
 * @param faults replaced on success, empty when nothing is wrong
 * @return RUNNEL_OK, faults or not; RUNNEL_E_RANGE for what is no step; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_order_check(const runnel_step *steps, size_t count,
                                 runnel_order_faults *faults);

#ifdef __cplusplus
}
#endif
#endif
