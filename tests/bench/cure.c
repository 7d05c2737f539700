/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cure.h"

#include "runnel/cure.h"
#include "runnel/memory.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { MINUTES = 525600, RUNS = 5 };

static double now_s(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

/* A year in a shed: summer and winter, day and night, and the tenths of a degree of a logger. */
static void fill(runnel_reading *readings) {
    const double turn = 2 * 3.14159265358979323846;
    unsigned noise = 1;
    for (size_t i = 0; i < MINUTES; i++) {
        double days = (double)i / 1440;
        noise = noise * 1664525U + 1013904223U;
        double degc = 16 - 9 * cos(turn * days / 365) - 5 * cos(turn * (days - 0.1)) +
                      0.3 * (noise / 4294967296.0 - 0.5);
        readings[i] = (runnel_reading){60 * (double)i, round(10 * degc) / 10, NAN};
    }
}

void runnel_bench_cure(void) {
    static runnel_reading readings[MINUTES];
    /* A full cure that no year reaches, so that all of it is walked along. */
    const runnel_resin resin = {.stated_degc = 25,
                                .lowest_degc = 10,
                                .pot_life_s = 2400,
                                .gel_s = 14400,
                                .recoat_from_s = 18000,
                                .recoat_until_s = 43200,
                                .sandable_s = 86400,
                                .full_cure_s = 1e9,
                                .activation_kj_per_mol = 52};
    runnel_cure_law law;
    runnel_cure cure;
    double best_s = INFINITY;
    fill(readings);
    runnel_status status = runnel_cure_law_of(&resin, RUNNEL_CURE_ARRHENIUS, &law);
    for (int run = 0; run < RUNS && status == RUNNEL_OK; run++) {
        double start_s = now_s();
        status = runnel_cure_series(&resin, &law, readings, MINUTES, 0, &cure);
        best_s = fmin(best_s, now_s() - start_s);
    }
    if (status != RUNNEL_OK) {
        fprintf(stderr, "bench: cure: %s\n", runnel_status_text(status));
        exit(EXIT_FAILURE);
    }
    printf("\ncure along a year of minutes: %.1f ms (%.0f days of age, %.0f days too cold)\n",
           1000 * best_s, cure.age_s / 86400, cure.all_stood_s / 86400);
}
