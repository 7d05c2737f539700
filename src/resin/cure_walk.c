/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "resin/cure_walk.h"

#include <math.h>

/* Simpson's rule errs by d^4/2880 of an integral over exp with exponents d apart: 2e-9 here. */
static const double most_apart = 0.05;

/* So many parts do for any two temperatures of a shop; beyond, no time is worth more of them. */
static const double most_parts = 10000;

/* A part of a piece with the speeds at its ends and in its middle. */
typedef struct part {
    double from_s, length_s;
    double speeds[3];
} part;

/* The parabola through the three speeds, integrated over the first share of a part. */
static double age_of(const part *a, double share) {
    double bend = a->speeds[0] - 2 * a->speeds[1] + a->speeds[2];
    double slope = 4 * a->speeds[1] - 3 * a->speeds[0] - a->speeds[2];
    return a->length_s * share * (a->speeds[0] + share * (slope / 2 + share * (2.0 / 3) * bend));
}

static double share_with_age(const part *a, double age_s) {
    double low = 0, high = 1;
    for (int i = 0; i < 60; i++) {
        double middle = (low + high) / 2;
        if (age_of(a, middle) < age_s)
            low = middle;
        else
            high = middle;
    }
    return high;
}

static void find_next(runnel_cure_walk *walk) {
    walk->next_s = INFINITY;
    for (unsigned i = 0; i < RUNNEL_CURE_MOMENTS; i++)
        if (walk->left & 1U << i)
            walk->next_s = fmin(walk->next_s, walk->stated_s[i]);
}

/* Notes the moments whose stated time lies within the age that a part adds. */
static void note_moments(runnel_cure_walk *walk, const part *a, double added_s) {
    for (unsigned i = 0; i < RUNNEL_CURE_MOMENTS; i++) {
        double wanted_s = walk->stated_s[i] - walk->age_s;
        if (!(walk->left & 1U << i) || wanted_s > added_s)
            continue;
        walk->reached_s[i] =
            a->from_s + (wanted_s > 0 ? a->length_s * share_with_age(a, wanted_s) : 0);
        walk->reached_stood_s[i] = walk->stood_s;
        walk->left &= ~(1U << i);
    }
    find_next(walk);
}

static void age_over(runnel_cure_walk *walk, const part *a) {
    double added_s = age_of(a, 1);
    if (walk->age_s + added_s >= walk->next_s)
        note_moments(walk, a, added_s);
    /* Compensated, as a year of minutes is half a million terms. */
    double term = added_s - walk->age_carry_s, next = walk->age_s + term;
    walk->age_carry_s = (next - walk->age_s) - term;
    walk->age_s = next;
}

typedef struct bow {
    double from_s, length_s, from, middle, to;
} bow;

static double degc_at(const bow *b, double share) {
    double bend = b->from - 2 * b->middle + b->to;
    double slope = 4 * b->middle - 3 * b->from - b->to;
    return b->from + share * (slope + 2 * share * bend);
}

/* A part of a bow from `share` on, of so great a share, where it begins with so much speed. */
static part part_of(const bow *b, const runnel_cure_law *law, double share, double step,
                    double speed) {
    return (part){b->from_s + b->length_s * share,
                  b->length_s * step,
                  {speed, runnel_cure_speed(law, degc_at(b, share + step / 2)),
                   runnel_cure_speed(law, degc_at(b, share + step))}};
}

/* Where a moment lies the parabola counts between its three points too, so it is made smaller. */
static void age_finely(runnel_cure_walk *walk, const bow *b, const runnel_cure_law *law,
                       double share, double step) {
    enum { FINER = 16 };
    double speed = runnel_cure_speed(law, degc_at(b, share));
    for (int i = 0; i < FINER; i++) {
        part a = part_of(b, law, share + i * step / FINER, step / FINER, speed);
        age_over(walk, &a);
        speed = a.speeds[2];
    }
}

/* The shares of a bow between `low` and `high` are above the lowest temperature. */
static void age_warm(runnel_cure_walk *walk, const bow *b, double low, double high) {
    runnel_cure_law warm = *walk->law;
    warm.lowest_degc = NAN; /* rounding at the lowest temperature must not stop it */
    double from_degc = degc_at(b, low);
    double speed =
        from_degc == walk->speed_degc ? walk->speed : runnel_cure_speed(&warm, from_degc);
    double last = runnel_cure_speed(&warm, degc_at(b, high));
    double apart = fabs(log(last / speed));
    double parts = fmin(fmax(ceil(apart / most_apart), 1), most_parts);
    if (speed <= 0 || last <= 0)
        parts = most_parts; /* speeds beyond the range of a double on the way */
    double step = (high - low) / parts;
    for (double i = 0; i < parts; i++) {
        part a = part_of(b, &warm, low + i * step, step, speed);
        if (i + 1 >= parts)
            a.speeds[2] = last;
        if (walk->age_s + age_of(&a, 1) < walk->next_s)
            age_over(walk, &a);
        else
            age_finely(walk, b, &warm, low + i * step, step);
        speed = a.speeds[2];
    }
    walk->speed = last;
    walk->speed_degc = degc_at(b, high);
}

static double share_at_lowest(const bow *b, double lowest) {
    double low = 0, high = 1;
    bool rises = b->to > b->from;
    for (int i = 0; i < 60; i++) {
        double middle = (low + high) / 2;
        if ((degc_at(b, middle) < lowest) == rises)
            low = middle;
        else
            high = middle;
    }
    return high;
}

static void note_degc(runnel_cure_walk *walk, const bow *b, bool was_fluid) {
    walk->coldest_degc = fmin(walk->coldest_degc, b->to);
    walk->warmest_degc = fmax(walk->warmest_degc, b->to);
    if (!was_fluid)
        return;
    double share = fmin((walk->reached_s[RUNNEL_CURE_GEL] - b->from_s) / b->length_s, 1);
    walk->warmest_to_gel_degc = fmax(walk->warmest_to_gel_degc, degc_at(b, share));
}

void runnel_cure_walk_begin(runnel_cure_walk *walk, const runnel_cure_law *law,
                            const runnel_resin *resin, unsigned wanted, double degc) {
    *walk = (runnel_cure_walk){.law = law,
                               .coldest_degc = degc,
                               .warmest_degc = degc,
                               .warmest_to_gel_degc = degc,
                               .speed_degc = NAN};
    for (unsigned i = 0; i < RUNNEL_CURE_MOMENTS; i++) {
        walk->stated_s[i] = runnel_cure_stated(resin, (runnel_cure_moment)i);
        walk->reached_s[i] = INFINITY;
        if (!isnan(walk->stated_s[i]))
            walk->left |= wanted & 1U << i;
    }
    find_next(walk);
}

void runnel_cure_walk_piece(runnel_cure_walk *walk, double to_s, double from_degc,
                            double middle_degc, double to_degc) {
    const bow b = {walk->at_s, to_s - walk->at_s, from_degc, middle_degc, to_degc};
    double lowest = walk->law->lowest_degc;
    bool was_fluid = walk->left & 1U << RUNNEL_CURE_GEL;
    bool cold_first = from_degc < lowest, cold_last = to_degc < lowest;
    if (cold_first && cold_last) {
        walk->stood_s += b.length_s;
    } else if (!cold_first && !cold_last) {
        age_warm(walk, &b, 0, 1);
    } else {
        double share = share_at_lowest(&b, lowest);
        if (cold_first)
            walk->stood_s += b.length_s * share;
        age_warm(walk, &b, cold_first ? share : 0, cold_first ? 1 : share);
        if (cold_last)
            walk->stood_s += b.length_s * (1 - share);
    }
    walk->at_s = to_s;
    note_degc(walk, &b, was_fluid);
}
