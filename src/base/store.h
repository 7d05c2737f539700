/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Finding and keeping things in the store of runnel/store.h.
 */
#ifndef RUNNEL_BASE_STORE_H
#define RUNNEL_BASE_STORE_H

#include "runnel/store.h"

#include <stdint.h>

/** Bytes that tell a thing from any other: what it is, and all that it was made from.
 * Zero-initialised is empty. */
typedef struct runnel_key_bytes {
    unsigned char *bytes;
    size_t count, capacity;
} runnel_key_bytes;

/** Appends bytes. @return RUNNEL_OK or RUNNEL_E_NO_MEMORY */
runnel_status runnel_key_add(runnel_key_bytes *key, const void *bytes, size_t count);
void runnel_key_clear(runnel_key_bytes *key);

/** A thing that is kept, with a reference to it. Opaque. */
typedef struct runnel_kept runnel_kept;

/** The thing with a key, with a reference for the caller; NULL when it is not there. */
runnel_kept *runnel_store_find(runnel_store *store, const runnel_key_bytes *key);

/**
 * Keeps a thing that runnel_store_find did not find.
 *
 * @param object  owned by the store on success, else still the caller's
 * @param destroy frees it
 * @param bytes   what it takes, about
 * @param kept    with a reference for the caller
 * @return RUNNEL_OK or RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_store_keep(runnel_store *store, const runnel_key_bytes *key, void *object,
                                void (*destroy)(void *object), size_t bytes, runnel_kept **kept);

/** The thing itself; borrowed, and not to be changed. */
const void *runnel_kept_object(const runnel_kept *kept);

/** A number that no other thing of the store has or will have. */
uint64_t runnel_kept_number(const runnel_kept *kept);

/** Takes one more reference. @return kept */
runnel_kept *runnel_kept_share(runnel_kept *kept);

/** Gives a reference back. NULL is allowed. */
void runnel_kept_release(runnel_kept *kept);

#endif
