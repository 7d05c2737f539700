/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/store.h"

#include "base/memory.h"

#include <stdbool.h>
#include <string.h>

struct runnel_kept {
    runnel_store *store;
    runnel_kept *next_in_slot;
    runnel_kept *older, *newer; /* of those that nobody refers to */
    unsigned char *key;
    size_t key_size;
    uint64_t hash, number;
    void *object;
    void (*destroy)(void *object);
    size_t bytes, references;
};

struct runnel_store {
    runnel_kept **slots;
    size_t mask, count;
    runnel_kept *oldest, *newest; /* of those that nobody refers to */
    size_t bytes, limit;
    uint64_t last_number;
    bool is_closing;
};

enum { FIRST_SLOTS = 64 };

/* ---- Keys ------------------------------------------------------------------------------------ */

runnel_status runnel_key_add(runnel_key_bytes *key, const void *bytes, size_t count) {
    runnel_status status = runnel_reserve(&key->bytes, &key->capacity, key->count + count, 1);
    if (!status && count)
        memcpy(key->bytes + key->count, bytes, count);
    if (!status)
        key->count += count;
    return status;
}

void runnel_key_clear(runnel_key_bytes *key) {
    runnel_free(key->bytes);
    *key = (runnel_key_bytes){0};
}

/* Eight bytes at a time through the finalizer of SplitMix64 (Steele, Lea, Flood 2014). */
static uint64_t hash_of(const unsigned char *bytes, size_t count) {
    uint64_t hash = count;
    while (count) {
        uint64_t word = 0;
        size_t part = count < sizeof word ? count : sizeof word;
        memcpy(&word, bytes, part);
        hash = (hash ^ word) + 0x9e3779b97f4a7c15U;
        hash = (hash ^ hash >> 30) * 0xbf58476d1ce4e5b9U;
        hash = (hash ^ hash >> 27) * 0x94d049bb133111ebU;
        hash ^= hash >> 31;
        bytes += part;
        count -= part;
    }
    return hash;
}

/* ---- The list of those that nobody refers to --------------------------------------------------*/

static void take_from_list(runnel_kept *kept) {
    runnel_store *store = kept->store;
    *(kept->older ? &kept->older->newer : &store->oldest) = kept->newer;
    *(kept->newer ? &kept->newer->older : &store->newest) = kept->older;
    kept->older = kept->newer = NULL;
}

static void put_in_list(runnel_kept *kept) {
    runnel_store *store = kept->store;
    kept->older = store->newest;
    *(store->newest ? &store->newest->newer : &store->oldest) = kept;
    store->newest = kept;
}

static void free_kept(runnel_kept *kept) {
    runnel_free(kept->key);
    runnel_free(kept);
}

/* Forgets what was not used for longest until the limit is kept, or all else is in use. */
static void keep_limit(runnel_store *store) {
    while (store->bytes > store->limit && store->oldest) {
        runnel_kept *old = store->oldest, **at = &store->slots[old->hash & store->mask];
        while (*at != old)
            at = &(*at)->next_in_slot;
        *at = old->next_in_slot;
        take_from_list(old);
        store->count--;
        store->bytes -= old->bytes;
        old->destroy(old->object);
        free_kept(old);
    }
}

/* ---- Store ----------------------------------------------------------------------------------- */

runnel_status runnel_store_new(size_t limit_bytes, runnel_store **store) {
    runnel_store *made = runnel_zeroed(1, sizeof *made);
    runnel_kept **slots = runnel_zeroed(FIRST_SLOTS, sizeof(runnel_kept *));
    if (!made || !slots) {
        runnel_free(made);
        runnel_free(slots);
        return RUNNEL_E_NO_MEMORY;
    }
    made->slots = slots;
    made->mask = FIRST_SLOTS - 1;
    made->limit = limit_bytes;
    *store = made;
    return RUNNEL_OK;
}

void runnel_store_free(runnel_store *store) {
    if (!store)
        return;
    /* What is kept may refer to other things that are kept: those are told, then all goes. */
    store->is_closing = true;
    for (size_t i = 0; i <= store->mask; i++)
        for (runnel_kept *kept = store->slots[i]; kept; kept = kept->next_in_slot)
            kept->destroy(kept->object);
    for (size_t i = 0; i <= store->mask; i++)
        for (runnel_kept *kept = store->slots[i], *next; kept; kept = next) {
            next = kept->next_in_slot;
            free_kept(kept);
        }
    runnel_free(store->slots);
    runnel_free(store);
}

runnel_kept *runnel_store_find(runnel_store *store, const runnel_key_bytes *key) {
    uint64_t hash = hash_of(key->bytes, key->count);
    runnel_kept *kept = store->slots[hash & store->mask];
    while (kept && (kept->hash != hash || kept->key_size != key->count ||
                    memcmp(kept->key, key->bytes, key->count) != 0))
        kept = kept->next_in_slot;
    return kept ? runnel_kept_share(kept) : NULL;
}

/* Twice as many slots. */
static runnel_status widen(runnel_store *store) {
    size_t mask = 2 * store->mask + 1;
    runnel_kept **slots = runnel_zeroed(mask + 1, sizeof(runnel_kept *));
    if (!slots)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i <= store->mask; i++)
        for (runnel_kept *kept = store->slots[i], *next; kept; kept = next) {
            next = kept->next_in_slot;
            kept->next_in_slot = slots[kept->hash & mask];
            slots[kept->hash & mask] = kept;
        }
    runnel_free(store->slots);
    store->slots = slots;
    store->mask = mask;
    return RUNNEL_OK;
}

runnel_status runnel_store_keep(runnel_store *store, const runnel_key_bytes *key, void *object,
                                void (*destroy)(void *object), size_t bytes, runnel_kept **kept) {
    runnel_kept *made = runnel_zeroed(1, sizeof *made);
    unsigned char *copy = (unsigned char *)runnel_copy_bytes((const char *)key->bytes, key->count);
    if (!made || !copy || (store->count > store->mask && widen(store))) {
        runnel_free(made);
        runnel_free(copy);
        return RUNNEL_E_NO_MEMORY;
    }
    *made = (runnel_kept){.store = store,
                          .key = copy,
                          .key_size = key->count,
                          .hash = hash_of(key->bytes, key->count),
                          .number = ++store->last_number,
                          .object = object,
                          .destroy = destroy,
                          .bytes = bytes + key->count + sizeof *made,
                          .references = 1};
    runnel_kept **slot = &store->slots[made->hash & store->mask];
    made->next_in_slot = *slot;
    *slot = made;
    store->count++;
    store->bytes += made->bytes;
    keep_limit(store);
    *kept = made;
    return RUNNEL_OK;
}

const void *runnel_kept_object(const runnel_kept *kept) {
    return kept->object;
}

uint64_t runnel_kept_number(const runnel_kept *kept) {
    return kept->number;
}

runnel_kept *runnel_kept_share(runnel_kept *kept) {
    if (kept->references++ == 0)
        take_from_list(kept);
    return kept;
}

void runnel_kept_release(runnel_kept *kept) {
    if (!kept || kept->store->is_closing || --kept->references)
        return;
    put_in_list(kept);
    keep_limit(kept->store);
}
