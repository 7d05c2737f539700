/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A batch with its cups, as part of the JSON of a plan.
 */
#ifndef RUNNEL_WRITE_JSON_BATCH_H
#define RUNNEL_WRITE_JSON_BATCH_H

#include "runnel/plan.h"
#include "write/json_make.h"

/** What each cause has to do with a band, in percent. */
json_t *runnel_json_band_shares(const runnel_band *band, bool *whole);

/** The object of a batch; `whole` as for runnel_json_put. */
json_t *runnel_json_batch(const runnel_plan *plan, const runnel_plan_batch *batch, bool *whole);

#endif
