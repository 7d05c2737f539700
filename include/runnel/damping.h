/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Damp and the pieces of a job: what moisture their wood has and comes to, how they move across the
 * grain, and what that does to long bands of resin.
 */
#ifndef RUNNEL_DAMPING_H
#define RUNNEL_DAMPING_H

#include "runnel/damp.h"
#include "runnel/job.h"
#include "runnel/plan.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Moisture of wood in use, percent, where nothing is told of the air: indoors (Wood Handbook
 * FPL-GTR-190, chapter 13, for most of the United States: 8) and outdoors (common practice: 12). */
#define RUNNEL_MOISTURE_INDOORS  8.0
#define RUNNEL_MOISTURE_OUTDOORS 12.0

/** Air, and the wood in it. */
typedef struct runnel_damping_air {
    double degc, humidity;   /**< humidity NAN when it is not told */
    double moisture_percent; /**< that wood comes to there; NAN when it is not known */
} runnel_damping_air;

/** A band of resin: of a cavity the longest stretch across the grain that hangs together. */
typedef struct runnel_damping_band {
    const char *cavity; /**< borrowed from the plan */
    double across_mm;
    bool is_known; /**< the wood and both moistures are; else no more than the next is filled in */
    runnel_damp_band band; /**< of flat-sawn wood, which moves more */
} runnel_damping_band;

/** All pieces of one kind. */
typedef struct runnel_damping_part {
    const char *piece;       /**< borrowed from the job */
    const runnel_wood *wood; /**< borrowed from the tables; NULL when it is not told */
    size_t count;
    double across_mm;         /**< of the piece across the grain; NAN when its size is not told */
    double flat_change_mm;    /**< when it is flat-sawn; above 0 when it swells; NAN: not known */
    double quarter_change_mm; /**< when it is quarter-sawn */
    runnel_damping_band *bands;
    size_t band_count;
} runnel_damping_part;

/** A job's damp. Zero-initialised is empty; owned by the caller; borrows from the job and the
 * tables. */
typedef struct runnel_damping {
    runnel_plan plan; /**< the job's, its warnings those of cavities and of the damp */
    runnel_damping_air shop, destination;
    double dew_degc;                 /**< of the shop's air; NAN when its humidity is not told */
    bool is_measured;                /**< the job tells the moisture of the wood */
    bool destination_is_told;        /**< by its humidity */
    double from_percent, to_percent; /**< moisture of the wood now, and where it will live */
    runnel_damping_part *parts;
    size_t part_count;
} runnel_damping;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_damping_clear(runnel_damping *damping);

/**
 * Works them out for a checked job. The codes of its warnings are those of cavities in
 * runnel/plan.h, and
 * - "wood-wet": the wood is wetter than where it will live, by more than 2 % of its dry mass;
 * - "wood-dry": the other way round;
 * - "long-band": a band of resin across the grain is longer than RUNNEL_DAMP_BAND_MM;
 * - "damp": the air of the shop is too humid for resin;
 * - "wood-unknown": a piece whose wood is not told.
 *
 * @param letters  sets the texts, as for runnel_plan_make
 * @param damping an empty one
 * @return RUNNEL_OK; RUNNEL_E_MISSING, told, when neither the humidity of the shop nor the moisture
 *         of the wood is; RUNNEL_E_RANGE, told, for air that the equations do not hold for; as
 *         runnel_plan_make
 */
runnel_status runnel_damping_make(const runnel_job *job, const runnel_tables *tables,
                                  const runnel_letters *letters, runnel_problems *problems,
                                  runnel_damping *damping);

#ifdef __cplusplus
}
#endif
#endif
