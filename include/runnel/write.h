/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Outputs: text for the bench and JSON.
 */
#ifndef RUNNEL_WRITE_H
#define RUNNEL_WRITE_H

#include "runnel/job.h"
#include "runnel/plan.h"

#include <stdio.h>

#ifdef __cplusplus
extern "C" {
#endif

/** The sizes: cavities, terms of each batch, warnings, as text. */
runnel_status runnel_write_size_text(const runnel_job *job, const runnel_plan *plan, FILE *out);
/** The mixing card as text. */
runnel_status runnel_write_card_text(const runnel_job *job, const runnel_plan *plan, FILE *out);
/** Everything as JSON (keys in DEVELOPERS.md), numbers in full precision. */
runnel_status runnel_write_json(const runnel_job *job, const runnel_plan *plan, FILE *out);

#ifdef __cplusplus
}
#endif
#endif
