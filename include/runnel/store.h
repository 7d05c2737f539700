/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A store of what has been worked out, so that a letter that stands in many places, or in many
 * jobs, is worked out once.
 *
 * Things are found by value: two that are made from the same bytes are one. Results never depend on
 * whether a store is there, on what is in it, or on its limit; only the time does.
 */
#ifndef RUNNEL_STORE_H
#define RUNNEL_STORE_H

#include "runnel/status.h"

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/** Opaque. Must live as long as anything that was made with it. */
typedef struct runnel_store runnel_store;

/** A usual limit of its memory. */
#define RUNNEL_STORE_USUAL_BYTES ((size_t)48 << 20)

/**
 * Makes an empty store.
 *
 * @param limit_bytes what it may hold beside what is in use; what was not used for longest goes
 *                    first
 * @return RUNNEL_OK or RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_store_new(size_t limit_bytes, runnel_store **store);

/** Frees a store and all it holds. NULL is allowed. */
void runnel_store_free(runnel_store *store);

#ifdef __cplusplus
}
#endif
#endif
