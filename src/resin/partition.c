/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pours are taken in their order, each cup as full as may be. No other way of filling gets further
 * with as many cups, and a larger cup never gets less far; so the least use of the limits that does
 * with a number of cups is found by halving.
 */
#include "resin/partition.h"

#include "base/sum.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* Halvings after which two doubles are neighbours. */
#define HALVINGS 60

/* Where the next cup begins. */
typedef struct position {
    size_t pour;
    double used; /* share of that pour which is given already */
} position;

/* What is left in a cup. */
typedef struct room {
    double volume_mm3, time_s;
} room;

/* Room of a cup that may use its limits `use` times: the volume at most once. */
static room room_of(const runnel_partition *of, double use) {
    double slack = 1 + RUNNEL_LIMIT_SLACK;
    return (room){fmin(use, 1) * of->most_mm3 * slack, use * of->usable_s * slack};
}

static bool may_divide(const runnel_partition *of, const runnel_pour *pour) {
    room whole = room_of(of, 1);
    return pour->volume_mm3 > whole.volume_mm3 || pour->pour_s > whole.time_s;
}

/* Takes from the pour at a position what a cup has room for; whether the pour is at its end. */
static bool take(const runnel_partition *of, const room *size, position *at, room *taken) {
    const runnel_pour *pour = &of->pours[at->pour];
    double rest = 1 - at->used;
    bool fits = taken->volume_mm3 + rest * pour->volume_mm3 <= size->volume_mm3 &&
                taken->time_s + rest * pour->pour_s <= size->time_s;
    double share = rest;
    if (!fits) {
        if (!may_divide(of, pour))
            return false;
        double by_volume = (size->volume_mm3 - taken->volume_mm3) / pour->volume_mm3;
        double by_time = pour->pour_s > 0 ? (size->time_s - taken->time_s) / pour->pour_s : 1;
        share = fmin(fmin(by_volume, by_time), rest);
        if (!(share > RUNNEL_LIMIT_SLACK))
            return false;
    }
    taken->volume_mm3 += share * pour->volume_mm3;
    taken->time_s += share * pour->pour_s;
    at->used += share;
    return fits;
}

/* Where the cup that begins at a position ends; the same place when nothing fits in. */
static position fill(const runnel_partition *of, const room *size, position from) {
    room taken = {0, 0};
    position at = from;
    while (at.pour < of->count && take(of, size, &at, &taken))
        at = (position){at.pour + 1, 0};
    return at;
}

static size_t count_cups(const runnel_partition *of, double use) {
    room size = room_of(of, use);
    position at = {0, 0};
    size_t cups = 0;
    while (at.pour < of->count) {
        position next = fill(of, &size, at);
        if ((next.pour == at.pour && next.used <= at.used) || cups == RUNNEL_CUPS_MOST)
            return SIZE_MAX;
        at = next;
        cups++;
    }
    return cups;
}

size_t runnel_partition_count(const runnel_partition *partition, double stretch) {
    return count_cups(partition, stretch);
}

static void sum_up(const runnel_partition *of, position from, position to, runnel_cup_load *load) {
    runnel_sum volume = {0}, time = {0};
    size_t last = to.used > 0 ? to.pour : to.pour - 1;
    memset(load, 0, sizeof *load);
    load->first_pour = from.pour;
    load->last_pour = last;
    for (size_t i = from.pour; i <= last; i++) {
        double begin = i == from.pour ? from.used : 0;
        double end = i == to.pour ? to.used : 1;
        load->last_share = end - begin;
        if (i == from.pour)
            load->first_share = load->last_share;
        runnel_sum_add(&volume, load->last_share * of->pours[i].volume_mm3);
        runnel_sum_add(&time, load->last_share * of->pours[i].pour_s);
    }
    load->poured_mm3 = runnel_sum_value(&volume);
    load->pour_s = runnel_sum_value(&time);
}

size_t runnel_partition_deal(const runnel_partition *partition, size_t most,
                             runnel_cup_load *loads) {
    bool is_free = isinf(partition->most_mm3) && isinf(partition->usable_s);
    double low = 0, high = is_free ? 1 : partition->stretching;
    if (count_cups(partition, 1) <= most)
        high = 1;
    for (int i = 0; i < HALVINGS && !is_free; i++) {
        double middle = low + (high - low) / 2;
        if (count_cups(partition, middle) <= most)
            high = middle;
        else
            low = middle;
    }
    room size = room_of(partition, high);
    position at = {0, 0};
    size_t cups = 0;
    while (at.pour < partition->count && cups < most) {
        position next = fill(partition, &size, at);
        sum_up(partition, at, next, &loads[cups++]);
        at = next;
    }
    return cups;
}
