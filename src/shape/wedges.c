/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shape/wedges.h"

#include "base/memory.h"

#include <math.h>
#include <string.h>

/** Hash table of corners by place; an entry is the first edge that starts there, plus one. */
typedef struct places {
    uint32_t *slots;
    size_t mask;
} places;

static size_t hash_of(double x, double y) {
    uint64_t bits[2];
    double at[2] = {x + 0.0, y + 0.0}; /* -0 and 0 are one place */
    memcpy(bits, at, sizeof bits);
    uint64_t hash = bits[0] * 0x9e3779b97f4a7c15U ^ (bits[1] * 0xc2b2ae3d27d4eb4fU >> 7);
    return (size_t)(hash ^ hash >> 31);
}

/**
 * Chains the edges that start at one place: each points at the one before it, the first at itself.
 *
 * @return number of edges that found another one at their start
 */
static size_t chain_places(const runnel_boundary *b, const places *table, uint32_t *other) {
    size_t shared = 0;
    for (uint32_t i = 0; i < b->count; i++) {
        const runnel_edge *e = &b->edges[i];
        size_t slot = hash_of(e->x, e->y) & table->mask;
        other[i] = i;
        while (table->slots[slot]) {
            uint32_t last = table->slots[slot] - 1;
            if (b->edges[last].x == e->x && b->edges[last].y == e->y) {
                other[i] = last;
                shared++;
                break;
            }
            slot = (slot + 1) & table->mask;
        }
        table->slots[slot] = i + 1;
    }
    return shared;
}

static double direction(const runnel_edge *from, double x, double y) {
    return atan2(y - from->y, x - from->x);
}

/** Of the edges that start at one place, the first one clockwise from a direction. */
static uint32_t first_clockwise(const runnel_boundary *b, const uint32_t *other, uint32_t last,
                                double angle) {
    const double turn = 2 * 3.14159265358979323846;
    uint32_t best = last;
    double least = INFINITY;
    for (uint32_t i = last;; i = other[i]) {
        const runnel_edge *e = &b->edges[i], *end = &b->edges[e->next];
        double gap = angle - direction(e, end->x, end->y);
        gap = gap <= 0 ? gap + turn : gap;
        if (gap < least) {
            least = gap;
            best = i;
        }
        if (other[i] == i)
            return best;
    }
}

/** Chooses what follows each edge; the chains of `other` are dissolved. */
static void link_wedges(const runnel_boundary *b, uint32_t *other, uint32_t *follower) {
    for (uint32_t i = 0; i < b->count; i++)
        follower[i] = b->edges[i].next;
    /* the last edge of a chain has the largest number: going down, each chain is met at its head */
    for (uint32_t head = (uint32_t)b->count; head-- > 0;) {
        if (other[head] == head)
            continue;
        for (uint32_t i = head, next;; i = next) {
            const runnel_edge *e = &b->edges[i], *before = &b->edges[e->previous];
            follower[e->previous] =
                first_clockwise(b, other, head, direction(e, before->x, before->y));
            next = other[i];
            if (next == i)
                break;
        }
        for (uint32_t i = head, next = other[head]; next != i; i = next, next = other[i])
            other[i] = i;
    }
}

/** Puts a cycle from edge `start` of the old list at the end of the new one. */
static void add_cycle(const runnel_edge *old, uint32_t *follower, uint32_t start, uint32_t part,
                      runnel_boundary *made) {
    uint32_t first = (uint32_t)made->count;
    for (uint32_t i = start; follower[i] != RUNNEL_NO_EDGE;) {
        uint32_t here = (uint32_t)made->count++, next = follower[i];
        made->edges[here] = old[i];
        made->edges[here].next = here + 1;
        made->edges[here].previous = here - 1;
        made->edges[here].cycle = (uint32_t)made->cycle_count;
        follower[i] = RUNNEL_NO_EDGE; /* done */
        i = next;
    }
    uint32_t last = (uint32_t)made->count - 1;
    made->edges[last].next = first;
    made->edges[first].previous = last;
    made->cycles[made->cycle_count++] =
        (runnel_cycle){.first = first, .count = last - first + 1, .part = part};
}

/** Writes the edges part by part in the order of `follower`. */
static runnel_status restring(runnel_boundary *b, uint32_t *follower, size_t shared) {
    runnel_edge *old = runnel_zeroed(b->count, sizeof *old);
    runnel_cycle *cycles = runnel_zeroed(b->cycle_count + 2 * shared, sizeof *cycles);
    if (!old || !cycles) {
        runnel_free(old);
        runnel_free(cycles);
        return RUNNEL_E_NO_MEMORY;
    }
    memcpy(old, b->edges, b->count * sizeof *old);
    runnel_boundary made = *b;
    made.cycles = cycles;
    made.count = made.cycle_count = 0;
    for (uint32_t p = 0; p < b->part_count; p++) {
        const runnel_part part = b->parts[p];
        const runnel_cycle *last = &b->cycles[part.first + part.count - 1];
        uint32_t first = (uint32_t)made.cycle_count;
        for (uint32_t i = b->cycles[part.first].first; i < last->first + last->count; i++)
            if (follower[i] != RUNNEL_NO_EDGE)
                add_cycle(old, follower, i, p, &made);
        made.parts[p] = (runnel_part){first, (uint32_t)made.cycle_count - first};
    }
    runnel_free(b->cycles);
    runnel_free(old);
    *b = made;
    return RUNNEL_OK;
}

runnel_status runnel_boundary_part_wedges(runnel_boundary *boundary) {
    runnel_status status = RUNNEL_OK;
    places table = {.mask = 1};
    while (table.mask < 2 * boundary->count)
        table.mask = 2 * table.mask + 1;
    table.slots = runnel_zeroed(table.mask + 1, sizeof *table.slots);
    uint32_t *other = runnel_zeroed(boundary->count, sizeof *other), *follower = NULL;
    size_t shared = 0;
    if (!table.slots || !other)
        status = RUNNEL_E_NO_MEMORY;
    else
        shared = chain_places(boundary, &table, other);
    if (shared) {
        follower = runnel_zeroed(boundary->count, sizeof *follower);
        status = follower ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
        if (!status) {
            link_wedges(boundary, other, follower);
            status = restring(boundary, follower, shared);
        }
    }
    runnel_free(table.slots);
    runnel_free(other);
    runnel_free(follower);
    return status;
}
