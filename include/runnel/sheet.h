/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A whole job on one sheet: sealing, resin, levelling and oil together.
 */
#ifndef RUNNEL_SHEET_H
#define RUNNEL_SHEET_H

#include "runnel/levelling.h"
#include "runnel/oiling.h"
#include "runnel/plan.h"
#include "runnel/sealing.h"
#include "runnel/stocking.h"
#include "runnel/timing.h"
#include "runnel/upkeep.h"

#ifdef __cplusplus
extern "C" {
#endif

/** A coating for pieces outdoors, over all faces, the resin too. */
typedef struct runnel_coating {
    const runnel_upkeep_rule *rule; /**< borrowed from the tables; NULL = none */
    size_t coats;
    double area_mm2;          /**< of all pieces; NAN when the size of one is not told */
    double coat_mm3, all_mm3; /**< of a coat, and of all; NAN as above */
} runnel_coating;

/** Coats where the tables do not say: common practice. */
#define RUNNEL_COATING_COATS 3

/** All of it. Zero-initialised is empty; owned by the caller; borrows from the tables. */
typedef struct runnel_sheet {
    runnel_plan plan; /**< its warnings those of all parts, each once */
    bool sealed;      /**< the job is sealed, or names a sealer */
    runnel_sealing sealing;
    runnel_levelling_plan levelling;
    bool oiled; /**< the job names an oil */
    runnel_oiling_plan oiling;
    bool coated; /**< pieces outdoors of which no oil is named */
    runnel_coating coating;
    bool timed; /**< the job names a first or a last day */
    runnel_timings timings;
    runnel_needs needs; /**< all that is to be there: resin, tints, sealer, oil, wax, coating;
                             borrows from job, tables and sheet */
} runnel_sheet;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_sheet_clear(runnel_sheet *sheet);

/**
 * Makes all parts of a checked job.
 *
 * @param letters sets the texts, as for runnel_plan_make
 * @param zone   of the shop's clock, as for runnel_timings_make
 * @param sheet  an empty one
 * @return RUNNEL_OK; RUNNEL_NOT_POSSIBLE with all filled in when one of its parts says so;
 * otherwise the problem's status
 */
runnel_status runnel_sheet_make(const runnel_job *job, const runnel_tables *tables,
                                const runnel_letters *letters, runnel_problems *problems,
                                const runnel_zone *zone, runnel_sheet *sheet);

#ifdef __cplusplus
}
#endif
#endif
