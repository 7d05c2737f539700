/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How many cups a batch needs, and what goes into each.
 */
#include "runnel/cups.h"

#include "base/memory.h"
#include "base/sum.h"
#include "resin/amount.h"
#include "resin/loss.h"
#include "resin/partition.h"

#include <stdint.h>
#include <string.h>

/* What weighing adds to a need at most: see runnel_weigh. */
static const double weighing_share = 0.02;
static const double weighing_steps = 4;

/* The limits in the form that is computed with; INFINITY is none. */
typedef struct limits {
    double mass_g, size_mm3;         /* of the charge, as it is weighed out */
    double by_mass_mm3, by_size_mm3; /* what a cup gives under each */
    double usable_s, usable_share;
    double heat_g;
} limits;

void runnel_cups_clear(runnel_cups *cups) {
    if (!cups)
        return;
    runnel_free(cups->items);
    memset(cups, 0, sizeof *cups);
}

/* ---- Limits -------------------------------------------------------------------------------- */

/* The value of a number of which 0 and NAN stand for another. */
static double given_or(double value, double other) {
    return isnan(value) || value == 0 ? other : value;
}

static bool is_limit(double value) {
    return !(value <= 0);
}

static runnel_status limits_of(const runnel_cups_order *order, limits *found) {
    double brim_share = given_or(order->brim_share, RUNNEL_CUPS_BRIM_SHARE);
    double usable_share = given_or(order->usable_share, RUNNEL_CUPS_USABLE_SHARE);
    double brim_mm3 = given_or(order->brim_mm3, INFINITY);
    double pot_life_s = given_or(order->pot_life_s, INFINITY);
    *found = (limits){.mass_g = given_or(order->largest_mass_g, INFINITY),
                      .size_mm3 = brim_mm3 * brim_share,
                      .usable_s = pot_life_s * usable_share,
                      .usable_share = usable_share,
                      .heat_g = given_or(order->heat_g, RUNNEL_CUPS_HEAT_G)};
    bool is_sound = is_limit(found->mass_g) && is_limit(brim_mm3) && is_limit(pot_life_s) &&
                    is_limit(found->heat_g) && brim_share > 0 && brim_share <= 1 &&
                    usable_share > 0 && usable_share <= 1 &&
                    runnel_is_positive(order->mixture.density_g_per_ml) &&
                    runnel_is_positive(order->density_a_g_per_ml) &&
                    runnel_is_positive(order->density_b_g_per_ml);
    return is_sound ? RUNNEL_OK : RUNNEL_E_RANGE;
}

/* What a cup gives that may hold so much; INFINITY of INFINITY. */
static runnel_status gives(const runnel_cups_order *order, double charge_mm3, double *poured_mm3) {
    *poured_mm3 = charge_mm3;
    if (isinf(charge_mm3))
        return RUNNEL_OK;
    runnel_status status = RUNNEL_OK;
    if (charge_mm3 > 0)
        status = runnel_cup_gives(&order->cup, order->mixture.density_g_per_ml,
                                  order->viscosity_pa_s, charge_mm3, poured_mm3);
    if (status == RUNNEL_OK && !(*poured_mm3 > 0))
        return RUNNEL_E_NOT_COMPUTED;
    return status;
}

/* Works out what a cup gives under the limits; with `is_tight` after what weighing may add. */
static runnel_status set_given(const runnel_cups_order *order, bool is_tight, limits *of) {
    double share = is_tight ? 1 + weighing_share : 1;
    double steps_g = is_tight ? weighing_steps * order->scale.step_g : 0;
    double ml_per_g = 1 / order->mixture.density_g_per_ml;
    double mass_mm3 = 1000 * ml_per_g * (of->mass_g - steps_g) / share;
    /* The steps of the lighter part count for most in volume. */
    double light = fmin(order->density_a_g_per_ml, order->density_b_g_per_ml);
    double size_mm3 = (of->size_mm3 - 1000 * steps_g / light) / share;
    runnel_status status = gives(order, mass_mm3, &of->by_mass_mm3);
    return status == RUNNEL_OK ? gives(order, size_mm3, &of->by_size_mm3) : status;
}

/* ---- One cup ------------------------------------------------------------------------------- */

static bool is_over(double amount, double limit) {
    return amount > limit * (1 + RUNNEL_LIMIT_SLACK);
}

double runnel_pot_life_of_mass(double pot_life_s, double pot_mass_g, double mass_g) {
    double ratio = given_or(pot_mass_g, NAN) / mass_g;
    return ratio > 0 ? pot_life_s * fmin(1, cbrt(ratio)) : pot_life_s;
}

/* How long a cup of so much may be poured. */
static double usable_s(const runnel_cups_order *order, const limits *of, double mass_g) {
    return runnel_pot_life_of_mass(of->usable_s, order->pot_mass_g, mass_g);
}

static void set_pot_life(const runnel_cups_order *order, runnel_cup_load *load) {
    double stated_s = given_or(order->pot_life_s, NAN);
    double own_s = runnel_pot_life_of_mass(stated_s, order->pot_mass_g, load->weighing.total_g);
    load->pot_share = load->pour_s / own_s;
    load->pot_life_s = isnan(given_or(order->pot_mass_g, NAN)) ? NAN : own_s;
}

/* Fills in a cup whose pours are known. */
static runnel_status fill_in(const runnel_cups_order *order, const limits *of,
                             runnel_cup_load *load) {
    static const unsigned raised[] = {[RUNNEL_RAISE_NONE] = 0,
                                      [RUNNEL_RAISE_SMALLEST] = RUNNEL_CUP_RAISED,
                                      [RUNNEL_RAISE_ROUNDING] = RUNNEL_CUP_ROUNDED};
    runnel_allowed allowed;
    runnel_status status =
        runnel_cup_loss(&order->cup, order->mixture.density_g_per_ml, order->viscosity_pa_s,
                        load->poured_mm3, &load->loss_mm3);
    if (status != RUNNEL_OK)
        return status;
    double need_mm3 = load->poured_mm3 + load->loss_mm3;
    status =
        runnel_weigh_allowed(&order->mixture, order->density_a_g_per_ml, order->density_b_g_per_ml,
                             need_mm3, order->tint, &order->scale, order->tolerance, &allowed);
    if (status != RUNNEL_OK && status != RUNNEL_NOT_POSSIBLE)
        return status;
    load->weighing = allowed.weighing;
    load->surplus_mm3 = 1000 * allowed.weighing.total_ml - need_mm3;
    load->notes = raised[allowed.raise];
    if (status == RUNNEL_NOT_POSSIBLE)
        load->notes |= RUNNEL_CUP_UNWEIGHABLE;
    if (is_over(load->pour_s, usable_s(order, of, load->weighing.total_g)))
        load->notes |= RUNNEL_CUP_LATE;
    if (load->weighing.total_g >= of->heat_g)
        load->notes |= RUNNEL_CUP_HOT;
    if (is_over(load->weighing.total_g, of->mass_g))
        load->notes |= RUNNEL_CUP_OVER_MASS;
    if (is_over(1000 * load->weighing.total_ml, of->size_mm3))
        load->notes |= RUNNEL_CUP_OVER_SIZE;
    set_pot_life(order, load);
    return RUNNEL_OK;
}

/* ---- All cups ------------------------------------------------------------------------------ */

/* What a batch is split with. */
typedef struct splitting {
    const runnel_cups_order *order;
    const limits *of;
    runnel_partition partition;
} splitting;

static unsigned limits_of_two(const splitting *with, const runnel_cup_load *one,
                              const runnel_cup_load *other) {
    const limits *of = with->of;
    double poured_mm3 = one->poured_mm3 + other->poured_mm3;
    double mass_g = one->weighing.total_g + other->weighing.total_g;
    unsigned found = 0;
    if (is_over(poured_mm3, of->by_mass_mm3))
        found |= RUNNEL_CUPS_BY_MASS;
    if (is_over(poured_mm3, of->by_size_mm3))
        found |= RUNNEL_CUPS_BY_SIZE;
    if (is_over(one->pour_s + other->pour_s, usable_s(with->order, of, mass_g)))
        found |= RUNNEL_CUPS_BY_TIME;
    return found;
}

/* Sums up, and tells of each cup why it is one. */
static void finish(const splitting *with, runnel_cups *cups) {
    runnel_sum poured = {0}, loss = {0}, mixed = {0};
    cups->ruled = 0;
    for (size_t i = 0; i < cups->count; i++) {
        runnel_cup_load *load = &cups->items[i];
        if (i + 1 < cups->count)
            load->limits = limits_of_two(with, load, load + 1);
        else if (i > 0)
            load->limits = limits_of_two(with, load - 1, load);
        cups->ruled |= load->limits;
        runnel_sum_add(&poured, load->poured_mm3);
        runnel_sum_add(&loss, load->loss_mm3);
        runnel_sum_add(&mixed, load->weighing.total_g);
    }
    cups->poured_mm3 = runnel_sum_value(&poured);
    cups->loss_mm3 = runnel_sum_value(&loss);
    cups->mixed_g = runnel_sum_value(&mixed);
}

/* Deals out to `most` cups; `is_small` tells whether one of them is below the smallest batch, and
 * then the rest is not filled in unless `is_last`. */
static runnel_status deal(const splitting *with, size_t most, bool is_last, runnel_cups *cups,
                          bool *is_small) {
    *is_small = false;
    cups->count = runnel_partition_deal(&with->partition, most, cups->items);
    for (size_t i = 0; i < cups->count && (is_last || !*is_small); i++) {
        runnel_status status = fill_in(with->order, with->of, &cups->items[i]);
        if (status != RUNNEL_OK)
            return status;
        *is_small = *is_small || (cups->items[i].notes & RUNNEL_CUP_RAISED);
    }
    return RUNNEL_OK;
}

/* How much of its time the latest cup takes, of `stretching` times the usable share of the pot life
 * of its own mass. */
static double latest_use(const splitting *with, double stretching, const runnel_cups *cups) {
    double most = 0;
    for (size_t i = 0; i < cups->count; i++) {
        const runnel_cup_load *load = &cups->items[i];
        double own_s = usable_s(with->order, with->of, load->weighing.total_g);
        most = fmax(most, load->pour_s / (stretching * own_s));
    }
    return most;
}

static runnel_status make_room(runnel_cups *cups, size_t *room, size_t most) {
    if (most <= *room)
        return RUNNEL_OK;
    runnel_cup_load *grown = runnel_resize(cups->items, most, sizeof *cups->items);
    if (!grown)
        return RUNNEL_E_NO_MEMORY;
    cups->items = grown;
    *room = most;
    return RUNNEL_OK;
}

/* So many cups that each keeps its time. What is poured in a cup and how long its mass leaves for
 * it both fall with their number n, so that the use of the time goes with n^(-4/3). */
static runnel_status count_cups(const splitting *with, double stretching, runnel_cups *cups,
                                size_t *room, size_t *found) {
    size_t most = runnel_partition_count(&with->partition, stretching);
    runnel_status status = most == SIZE_MAX ? RUNNEL_E_RANGE : RUNNEL_OK;
    bool is_small = false;
    double use = INFINITY;
    while (status == RUNNEL_OK && most > 0) {
        status = make_room(cups, room, most);
        if (status == RUNNEL_OK)
            status = deal(with, most, true, cups, &is_small);
        if (status != RUNNEL_OK)
            return status;
        use = latest_use(with, stretching, cups);
        /* In more cups than this the mix of each would not become less. */
        if (!is_over(use, 1) || is_small || cups->count < most)
            break;
        double next = fmax((double)most + 1, floor((double)most * pow(use, 0.75)));
        if (!(next <= RUNNEL_CUPS_MOST))
            break;
        most = (size_t)next;
    }
    *found = most;
    return status;
}

/* As many cups as the limits ask for, or fewer when some would be too small. */
static runnel_status split(const splitting *with, runnel_cups *cups) {
    size_t most = 0, fewest = 0, room = 0;
    runnel_status status = count_cups(with, with->partition.stretching, cups, &room, &fewest);
    if (status == RUNNEL_OK)
        status = count_cups(with, 1, cups, &room, &most);
    if (status != RUNNEL_OK)
        return status;
    cups->wanted = most;
    bool is_small = true;
    for (size_t tried = most; is_small && tried >= fewest && tried > 0; tried--) {
        status = deal(with, tried, tried == fewest, cups, &is_small);
        if (status != RUNNEL_OK)
            return status;
    }
    finish(with, cups);
    return RUNNEL_OK;
}

static bool is_bad(const runnel_cups *cups, unsigned notes) {
    for (size_t i = 0; i < cups->count; i++)
        if (cups->items[i].notes & notes)
            return true;
    return false;
}

static runnel_status split_within(const runnel_cups_order *order, limits *of, bool is_tight,
                                  const runnel_pour *pours, size_t count, runnel_cups *cups) {
    runnel_status status = set_given(order, is_tight, of);
    if (status != RUNNEL_OK)
        return status;
    splitting with = {.order = order,
                      .of = of,
                      .partition = {.pours = pours,
                                    .count = count,
                                    .most_mm3 = fmin(of->by_mass_mm3, of->by_size_mm3),
                                    .usable_s = of->usable_s,
                                    .stretching = 1 / of->usable_share}};
    status = split(&with, cups);
    if (status != RUNNEL_OK)
        runnel_cups_clear(cups);
    return status;
}

static bool pours_are_sound(const runnel_pour *pours, size_t count) {
    runnel_sum total = {0};
    for (size_t i = 0; i < count; i++) {
        if (!runnel_is_positive(pours[i].volume_mm3) || !runnel_is_amount(pours[i].pour_s))
            return false;
        runnel_sum_add(&total, pours[i].volume_mm3);
    }
    return isfinite(runnel_sum_value(&total));
}

runnel_status runnel_cups_split(const runnel_cups_order *order, const runnel_pour *pours,
                                size_t count, runnel_cups *cups) {
    static const unsigned over = RUNNEL_CUP_OVER_MASS | RUNNEL_CUP_OVER_SIZE;
    limits of;
    double smallest_g;
    runnel_cups found = {0}, tight = {0};
    runnel_status status = limits_of(order, &of);
    if (status == RUNNEL_OK && !pours_are_sound(pours, count))
        status = RUNNEL_E_RANGE;
    if (status == RUNNEL_OK)
        status = runnel_scale_smallest_batch(&order->scale, &order->mixture, order->tolerance,
                                             &smallest_g);
    if (status != RUNNEL_OK && status != RUNNEL_NOT_POSSIBLE)
        return status;
    status = split_within(order, &of, false, pours, count, &found);
    if (status != RUNNEL_OK)
        return status;
    /* Weighing in whole steps may have gone over a limit that the need kept. */
    if (is_bad(&found, over)) {
        limits less = of;
        status = split_within(order, &less, true, pours, count, &tight);
        if (status == RUNNEL_OK && !is_bad(&tight, over)) {
            runnel_cups swap = found;
            found = tight;
            tight = swap;
        }
        runnel_cups_clear(&tight);
        if (status == RUNNEL_E_NO_MEMORY) {
            runnel_cups_clear(&found);
            return status;
        }
    }
    found.smallest_g = smallest_g;
    *cups = found;
    return is_bad(cups, RUNNEL_CUP_BAD) ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK;
}
