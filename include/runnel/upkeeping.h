/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The upkeep of all pieces of a job: from its oil, wood, use and day of delivery to dates and
 * amounts.
 */
#ifndef RUNNEL_UPKEEPING_H
#define RUNNEL_UPKEEPING_H

#include "runnel/job.h"
#include "runnel/oiling.h"
#include "runnel/upkeep.h"

#ifdef __cplusplus
extern "C" {
#endif

/** All pieces of one kind. */
typedef struct runnel_upkeeping_part {
    const char *piece; /**< borrowed from the oiling */
    size_t count;
    bool wood_is_known, open_pored;
    double face_mm2, end_mm2; /**< of one piece; a coating goes over the resin too */
    runnel_upkeep upkeep;     /**< of one piece */
} runnel_upkeeping_part;

/** What was taken for want of a word of the job. Bits of a set. */
typedef enum runnel_upkeeping_taken {
    RUNNEL_TAKEN_USE = 1u << 0,
    RUNNEL_TAKEN_WASHING = 1u << 1,
    RUNNEL_TAKEN_PORES = 1u << 2,   /**< of a piece whose wood is not told: closed */
    RUNNEL_TAKEN_KEEP_OIL = 1u << 3 /**< the oil, or the coating */
} runnel_upkeeping_taken;

/** A job's upkeep. Zero-initialised is empty; owned by the caller; borrows from the tables. */
typedef struct runnel_upkeeping {
    runnel_oiling_plan oiling; /**< areas, and as when the pieces were new */
    const runnel_upkeep_rule *rule;
    const runnel_oil *oil; /**< NULL for a coating */
    runnel_use use;
    runnel_washing washing;
    runnel_water water;
    runnel_date delivered, oiled;
    unsigned taken; /**< set of runnel_upkeeping_taken */
    runnel_upkeeping_part *parts;
    size_t part_count;
    unsigned steps, cases; /**< sets for runnel_caution_next */
} runnel_upkeeping;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_upkeeping_clear(runnel_upkeeping *upkeeping);

/**
 * The upkeep of a checked job. Without a use it is RUNNEL_DEFAULT_USE, and it is rinsed. Outdoors a
 * job that names no oil is taken as coated.
 *
 * Problems: no day of delivery (RUNNEL_E_MISSING), a last coat before it, an oil that stays wet
 * outdoors, a finish and use without a rule (RUNNEL_E_CONFLICT), dates past the year 9999
 * (RUNNEL_E_RANGE), and those of runnel_oiling_make.
 *
 * @param letters    sets the texts, as for runnel_plan_make
 * @param upkeeping an empty one
 * @return as runnel_oiling_make
 */
runnel_status runnel_upkeeping_make(const runnel_job *job, const runnel_tables *tables,
                                    const runnel_letters *letters, runnel_problems *problems,
                                    runnel_upkeeping *upkeeping);

#ifdef __cplusplus
}
#endif
#endif
