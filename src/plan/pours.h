/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What is poured of a batch, one thing after the other.
 */
#ifndef RUNNEL_PLAN_POURS_H
#define RUNNEL_PLAN_POURS_H

#include "plan/make.h"

/** Where a pour goes. */
typedef struct runnel_pour_target {
    size_t cavity, piece; /**< of plan and job */
    size_t copy;          /**< of the piece, from 1 */
    size_t layer;         /**< of the cavity, from 1 */
} runnel_pour_target;

/** The pours of a batch, layer by layer and then piece by piece. To be cleared on failure too. */
typedef struct runnel_pours {
    const runnel_making *making;
    const runnel_plan_batch *batch;
    size_t layer_count;  /**< most layers of one of its cavities; the last layers go together */
    double *volumes_mm3; /**< into each cavity of the plan, in one piece; 0 for another colour */
    double *times_s;     /**< how long that takes; NAN when it is not known */
    double all_s;        /**< all of it, in all pieces; NAN when some of it is not known */
    /* Of one layer: */
    runnel_pour *items;
    runnel_pour_target *targets;
    size_t count;
    bool is_one; /**< there are too many: all of the layer is one pour */
} runnel_pours;

/** Finds volumes and times of a batch, whose colour and band are known. */
runnel_status runnel_pours_measure(const runnel_making *making, const runnel_plan_batch *batch,
                                   runnel_pours *pours);

/** Lists the pours of a layer of the batch, 1 to layer_count, in place of those that are there. */
runnel_status runnel_pours_list(runnel_pours *pours, size_t layer);

void runnel_pours_clear(runnel_pours *pours);

#endif
