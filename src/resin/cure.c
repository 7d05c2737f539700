/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/cure.h"

#include "resin/amount.h"
#include "resin/cure_walk.h"

#include <math.h>

static const struct {
    const char *name;
    size_t offset; /* in runnel_resin */
} moments[RUNNEL_CURE_MOMENTS] = {
    [RUNNEL_CURE_POT_LIFE] = {"pot life", offsetof(runnel_resin, pot_life_s)},
    [RUNNEL_CURE_GEL] = {"gel", offsetof(runnel_resin, gel_s)},
    [RUNNEL_CURE_RECOAT_FROM] = {"recoat from", offsetof(runnel_resin, recoat_from_s)},
    [RUNNEL_CURE_RECOAT_UNTIL] = {"recoat until", offsetof(runnel_resin, recoat_until_s)},
    [RUNNEL_CURE_SANDABLE] = {"sandable", offsetof(runnel_resin, sandable_s)},
    [RUNNEL_CURE_FULL] = {"full cure", offsetof(runnel_resin, full_cure_s)},
};

static bool is_moment(runnel_cure_moment moment) {
    return (unsigned)moment < RUNNEL_CURE_MOMENTS;
}

const char *runnel_cure_moment_name(runnel_cure_moment moment) {
    return is_moment(moment) ? moments[moment].name : NULL;
}

double runnel_cure_stated(const runnel_resin *resin, runnel_cure_moment moment) {
    if (!is_moment(moment))
        return NAN;
    const void *field = (const char *)resin + moments[moment].offset;
    return *(const double *)field;
}

/* Also when the law was made by hand. */
static bool is_law(const runnel_cure_law *law) {
    return isfinite(runnel_cure_speed(law, law->stated_degc)) && !isinf(law->lowest_degc) &&
           (law->rule == RUNNEL_CURE_ARRHENIUS || law->rule == RUNNEL_CURE_DOUBLING);
}

runnel_status runnel_cure_law_of(const runnel_resin *resin, runnel_cure_rule rule,
                                 runnel_cure_law *law) {
    runnel_cure_law found = {rule, resin->stated_degc, resin->lowest_degc,
                             resin->activation_kj_per_mol, isnan(resin->activation_kj_per_mol)};
    if (isnan(resin->stated_degc))
        return RUNNEL_E_MISSING;
    if (found.energy_is_usual)
        found.activation_kj_per_mol = RUNNEL_CURE_USUAL_KJ_PER_MOL;
    if (!is_law(&found))
        return RUNNEL_E_RANGE;
    *law = found;
    return RUNNEL_OK;
}

static bool are_stated_times(const runnel_resin *resin) {
    for (unsigned i = 0; i < RUNNEL_CURE_MOMENTS; i++) {
        double stated_s = runnel_cure_stated(resin, (runnel_cure_moment)i);
        if (!isnan(stated_s) && !runnel_is_amount(stated_s))
            return false;
    }
    return true;
}

static runnel_cure nothing_yet(const runnel_resin *resin, double degc) {
    runnel_cure cure = {.age_s = NAN,
                        .all_stood_s = NAN,
                        .coldest_degc = degc,
                        .warmest_degc = degc,
                        .rise_to_gel_k = isnan(resin->gel_s) ? NAN : 0,
                        .needed_degc = NAN};
    for (unsigned i = 0; i < RUNNEL_CURE_MOMENTS; i++)
        cure.reached_s[i] =
            isnan(runnel_cure_stated(resin, (runnel_cure_moment)i)) ? NAN : INFINITY;
    return cure;
}

runnel_status runnel_cure_at(const runnel_resin *resin, const runnel_cure_law *law, double degc,
                             runnel_cure *cure) {
    double speed = runnel_cure_speed(law, degc);
    if (!is_law(law) || !are_stated_times(resin) || !isfinite(speed))
        return RUNNEL_E_RANGE;
    runnel_cure found = nothing_yet(resin, degc);
    if (!(speed > 0)) {
        found.needed_degc = law->lowest_degc;
        *cure = found;
        return RUNNEL_NOT_POSSIBLE;
    }
    for (unsigned i = 0; i < RUNNEL_CURE_MOMENTS; i++)
        found.reached_s[i] = runnel_cure_stated(resin, (runnel_cure_moment)i) / speed;
    *cure = found;
    return RUNNEL_OK;
}

/* ---- A day that repeats itself --------------------------------------------------------------- */

static const double day_s = 86400;

/* A minute: the cosine is followed by its ends and middle, and bends by less than 1e-3 of its
 * amplitude in between. */
enum { PIECES_OF_DAY = 1440 };

double runnel_swing_at(const runnel_swing *swing, double seconds) {
    const double pi = 3.14159265358979323846;
    double hour = swing->poured_at_hour + seconds / 3600 - swing->warmest_at_hour;
    return swing->mean_degc + swing->amplitude_k * cos(pi / 12 * hour);
}

/* Goes on for a day, or until the moments are reached that are looked for. */
static void walk_day(runnel_cure_walk *walk, const runnel_swing *swing) {
    const double piece_s = day_s / PIECES_OF_DAY;
    double start_s = walk->at_s, before = runnel_swing_at(swing, 0);
    for (int i = 0; i < PIECES_OF_DAY && walk->left; i++) {
        double after = runnel_swing_at(swing, (i + 1) * piece_s);
        runnel_cure_walk_piece(walk, start_s + (i + 1) * piece_s, before,
                               runnel_swing_at(swing, (i + 0.5) * piece_s), after);
        before = after;
    }
}

/* All days are alike, so only the last one is walked along. */
static void find_moments(const runnel_resin *resin, const runnel_cure_law *law,
                         const runnel_swing *swing, const runnel_cure_walk *day,
                         runnel_cure *cure) {
    for (unsigned i = 0; i < RUNNEL_CURE_MOMENTS; i++) {
        double stated_s = runnel_cure_stated(resin, (runnel_cure_moment)i);
        if (isnan(stated_s))
            continue;
        runnel_cure_walk walk;
        runnel_cure_walk_begin(&walk, law, resin, 1U << i, runnel_swing_at(swing, 0));
        double days = floor(stated_s / day->age_s);
        walk.at_s = days * day_s;
        walk.age_s = fmin(days * day->age_s, stated_s);
        walk.stood_s = days * day->stood_s;
        walk_day(&walk, swing);
        if (walk.left) /* rounding kept it from being reached on that day */
            walk_day(&walk, swing);
        cure->reached_s[i] = walk.reached_s[i];
        cure->stood_s[i] = walk.reached_stood_s[i];
        if (i == RUNNEL_CURE_GEL)
            cure->rise_to_gel_k = (days >= 1 ? day->warmest_degc : walk.warmest_to_gel_degc) -
                                  runnel_swing_at(swing, 0);
    }
}

runnel_status runnel_cure_swing(const runnel_resin *resin, const runnel_cure_law *law,
                                const runnel_swing *swing, runnel_cure *cure) {
    bool sound = is_law(law) && are_stated_times(resin) && isfinite(swing->mean_degc) &&
                 runnel_is_amount(swing->amplitude_k) && swing->warmest_at_hour >= 0 &&
                 swing->warmest_at_hour <= 24 && swing->poured_at_hour >= 0 &&
                 swing->poured_at_hour <= 24;
    double coldest = swing->mean_degc - swing->amplitude_k;
    double warmest = swing->mean_degc + swing->amplitude_k;
    if (!sound || isnan(runnel_cure_speed(law, coldest)) ||
        !isfinite(runnel_cure_speed(law, warmest)))
        return RUNNEL_E_RANGE;
    runnel_cure found = nothing_yet(resin, runnel_swing_at(swing, 0));
    found.coldest_degc = coldest;
    found.warmest_degc = warmest;
    /* A walk that looks for nothing never ends early. */
    runnel_cure_walk day;
    runnel_cure_walk_begin(&day, law, resin, 0, runnel_swing_at(swing, 0));
    day.left = 1U << RUNNEL_CURE_MOMENTS;
    walk_day(&day, swing);
    if (!(day.age_s > 0)) {
        found.needed_degc = law->lowest_degc - swing->amplitude_k;
        *cure = found;
        return RUNNEL_NOT_POSSIBLE;
    }
    find_moments(resin, law, swing, &day, &found);
    *cure = found;
    return RUNNEL_OK;
}

/* ---- Along a series -------------------------------------------------------------------------- */

static bool is_series(const runnel_cure_law *law, const runnel_reading *readings, size_t count,
                      double poured_s) {
    if (count < 2 || !(poured_s >= readings[0].time_s && poured_s <= readings[count - 1].time_s))
        return false;
    const double absolute_zero_degc = -273.15; /* exact */
    double warmest = readings[0].degc;
    for (size_t i = 0; i < count; i++) {
        if (!isfinite(readings[i].time_s) || !isfinite(readings[i].degc) ||
            !(readings[i].degc > absolute_zero_degc) ||
            (i > 0 && !(readings[i].time_s > readings[i - 1].time_s)))
            return false;
        warmest = fmax(warmest, readings[i].degc);
    }
    return isfinite(runnel_cure_speed(law, warmest));
}

/* The last reading at or before the pour that another one follows. */
static size_t piece_of(const runnel_reading *readings, size_t count, double poured_s) {
    size_t low = 0, high = count - 1;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (readings[middle].time_s <= poured_s)
            low = middle;
        else
            high = middle;
    }
    return low;
}

double runnel_series_at(const runnel_reading *readings, size_t count, double time_s) {
    const runnel_reading *piece = &readings[piece_of(readings, count, time_s)];
    double share = (time_s - piece[0].time_s) / (piece[1].time_s - piece[0].time_s);
    return piece[0].degc + fmin(fmax(share, 0), 1) * (piece[1].degc - piece[0].degc);
}

static void walk_series(runnel_cure_walk *walk, const runnel_reading *readings, size_t count,
                        size_t first, double before, double poured_s) {
    for (size_t i = first; i + 1 < count && walk->left; i++) {
        double after = readings[i + 1].degc;
        if (readings[i + 1].time_s > poured_s)
            runnel_cure_walk_piece(walk, readings[i + 1].time_s - poured_s, before,
                                   (before + after) / 2, after);
        before = after;
    }
}

runnel_status runnel_cure_series(const runnel_resin *resin, const runnel_cure_law *law,
                                 const runnel_reading *readings, size_t count, double poured_s,
                                 runnel_cure *cure) {
    if (!is_law(law) || !are_stated_times(resin) || !is_series(law, readings, count, poured_s))
        return RUNNEL_E_RANGE;
    size_t first = piece_of(readings, count, poured_s);
    double before = runnel_series_at(readings, count, poured_s);
    runnel_cure found = nothing_yet(resin, before);
    runnel_cure_walk walk;
    runnel_cure_walk_begin(&walk, law, resin, ~0U, before);
    walk_series(&walk, readings, count, first, before, poured_s);
    for (unsigned i = 0; i < RUNNEL_CURE_MOMENTS; i++) {
        if (isnan(found.reached_s[i]))
            continue;
        found.reached_s[i] = walk.reached_s[i];
        found.stood_s[i] = walk.reached_stood_s[i];
    }
    found.age_s = walk.age_s;
    found.all_stood_s = walk.stood_s;
    found.coldest_degc = walk.coldest_degc;
    found.warmest_degc = walk.warmest_degc;
    if (!isnan(resin->gel_s))
        found.rise_to_gel_k = walk.warmest_to_gel_degc - before;
    bool stood = !(walk.age_s > 0) && walk.stood_s > 0;
    if (stood)
        found.needed_degc = law->lowest_degc;
    *cure = found;
    return stood ? RUNNEL_NOT_POSSIBLE : RUNNEL_OK;
}
