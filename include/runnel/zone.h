/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Zones of the clock on the wall, by name.
 */
#ifndef RUNNEL_ZONE_H
#define RUNNEL_ZONE_H

#include "runnel/timeline.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Changes of a zone's clock. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_zone_changes {
    runnel_zone_change *items; /**< as a runnel_zone borrows them */
    size_t count, capacity;
} runnel_zone_changes;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_zone_changes_clear(runnel_zone_changes *changes);

/**
 * Reads how a zone's clock stands to UTC between two days, from the time zone database that is
 * installed.
 *
 * @param name    as in that database, such as "Europe/Berlin"
 * @param changes replaced on success; the first one holds for all time before, too
 * @return RUNNEL_OK; RUNNEL_E_UNKNOWN with the nearest name told; RUNNEL_E_RANGE for days that
 * there are not, or after 9998; RUNNEL_E_NO_MEMORY; RUNNEL_E_LIBRARY
 */
runnel_status runnel_zone_read(const char *name, runnel_date from, runnel_date to,
                               runnel_problems *problems, const runnel_place *place,
                               runnel_zone_changes *changes);

#ifdef __cplusplus
}
#endif
#endif
