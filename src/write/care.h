/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Words for people who look after a piece, the same in a care note and in a calendar.
 */
#ifndef RUNNEL_WRITE_CARE_H
#define RUNNEL_WRITE_CARE_H

#include "runnel/upkeeping.h"

#include <stddef.h>

/** "every week", "every 4 weeks", "every 10 days", "twice a year", "once a year", "every 2 years".
 * @return buffer */
char *runnel_care_every(int days, char *buffer, size_t size);

/** A volume of mm3 as one pours it: "7 ml", at least 1 ml; "0.5 L" and so on from a litre on.
 * @return buffer */
char *runnel_care_amount(double volume_mm3, char *buffer, size_t size);

/** What is put on: the name of the oil, or "clear outdoor coating". */
const char *runnel_care_finish(const runnel_upkeeping *upkeeping);

/** Short name of a task: "oil", "coat", "look", "sand". */
const char *runnel_care_kind(runnel_upkeep_kind kind);

/** How a task is done, in a few sentences; without an amount it is the one "told above".
 * @return buffer */
char *runnel_care_how(const runnel_upkeeping *upkeeping, const runnel_upkeep_task *task,
                      char *buffer, size_t size);

/** Room for those sentences. */
#define RUNNEL_CARE_SIZE 700

#endif
