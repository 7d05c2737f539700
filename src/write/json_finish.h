/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Members that the JSON about sealing, levelling and oil has in common.
 */
#ifndef RUNNEL_WRITE_JSON_FINISH_H
#define RUNNEL_WRITE_JSON_FINISH_H

#include "runnel/forms.h"
#include "runnel/levelling.h"
#include "runnel/oiling.h"
#include "runnel/plan.h"
#include "runnel/sealing.h"
#include "write/json_figures.h"

/** Puts job and file. */
void runnel_json_put_job(json_t *object, const runnel_job *job, bool *whole);

/** Puts the warnings of a plan. */
void runnel_json_put_warnings(json_t *object, const runnel_plan *plan, bool *whole);

/** Puts order[] and faults[]. */
void runnel_json_put_order(json_t *object, const runnel_order *order,
                           const runnel_order_faults *faults, bool *whole);

/** Puts cautions[]. */
void runnel_json_put_cautions(json_t *object, unsigned steps, unsigned cases, bool *whole);

/** Puts what is the sealing's own, the levelling's, the oiling's. */
void runnel_json_put_sealing(json_t *root, const runnel_sealing *sealing, bool *whole);
void runnel_json_put_levelling(json_t *root, const runnel_levelling_plan *levelling, bool *whole);
void runnel_json_put_oiling(json_t *root, const runnel_oiling_plan *oiling, bool *whole);

#endif
