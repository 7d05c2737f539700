/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Outputs of the upkeep: a care note for whoever gets the piece, JSON, and a calendar. The rules of
 * runnel/write.h hold here too.
 */
#ifndef RUNNEL_WRITE_UPKEEP_H
#define RUNNEL_WRITE_UPKEEP_H

#include "runnel/calendar.h"
#include "runnel/upkeeping.h"

#include <stdio.h>

#ifdef __cplusplus
extern "C" {
#endif

/** Days from delivery for which dates are listed. */
#define RUNNEL_UPKEEP_LISTED_DAYS 731

/** The care note, without shop talk: when, how much, how, what not to do, what to take care of. */
runnel_status runnel_write_upkeep_text(const runnel_job *job, const runnel_upkeeping *upkeeping,
                                       FILE *out);
/**
 * The upkeep as one JSON object:
 *
 * - job, file
 * - upkeep: use, washing, water (null, "beads", "soaks in"), delivered, oiled (or null), finish,
 *   oil (name, or null), dries, nut, soak_min, cure_days (no food before; null when it does not
 *   dry), rule (name of its row), source, sure, taken[] (what the job did not tell)
 * - pieces[]: piece, count, open_pored, and of one of them face_mm2, end_mm2, coat_ml, anew_ml,
 *   first_year_ml, year_ml, steady_days, beads_days, soaks_in_days; tasks[] (what: "oil", "coat",
 *   "look", "sand"; stage, first, every_days, count or null for on and on, amount_ml); dates[] of
 *   two years (date, what, stage, amount_ml)
 * - cautions[], warnings[]
 */
runnel_status runnel_write_upkeep_json(const runnel_job *job, const runnel_upkeeping *upkeeping,
                                       FILE *out);

/** The upkeep as a calendar of whole days (runnel_write_ics): an event for each task of each kind
 * of piece, whose UID follows from the order, as in runnel_write_timeline_ics, the piece and the
 * task. */
runnel_status runnel_write_upkeep_ics(const runnel_job *job, const runnel_upkeeping *upkeeping,
                                      const runnel_calendar_issue *issue, FILE *out);

#ifdef __cplusplus
}
#endif
#endif
