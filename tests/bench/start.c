/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a small job costs from the start of the command to its end, beside a program that does
 * nothing: most of it is the loading of libraries.
 */
#include "start.h"

#include <fcntl.h>
#include <math.h>
#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <time.h>

extern char **environ;

enum { RUNS = 100, WORDS = 9 };

static double now_s(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static const struct {
    const char *name;
    const char *words[WORDS];
} jobs[] = {
    {"a volume", {"size", "--measured", "20 ml"}},
    {"a rectangle", {"size", "--outline", "rectangle 60 x 40 mm", "--cutter", "v 60 deg"}},
    {"a letter",
     {"size", "--text", "A", "--font", "EB Garamond", "--cap-height=12 mm", "--cutter=v 60 deg"}},
    {"a card as PDF", {"card", "--measured", "20 ml", "--output=/dev/null", "--format=pdf"}},
};

/* Time of one run without output. */
static double run_s(const char *path, const char *const *words) {
    char *line[WORDS + 2] = {(char *)path};
    for (int i = 0; i < WORDS && words[i]; i++)
        line[i + 1] = (char *)words[i];
    posix_spawn_file_actions_t quiet;
    posix_spawn_file_actions_init(&quiet);
    posix_spawn_file_actions_addopen(&quiet, 1, "/dev/null", O_WRONLY, 0);
    pid_t child;
    int end = 0;
    double start_s = now_s();
    if (posix_spawnp(&child, path, &quiet, NULL, line, environ) || waitpid(child, &end, 0) < 0 ||
        end) {
        fprintf(stderr, "bench: %s fails\n", path);
        exit(EXIT_FAILURE);
    }
    double taken_s = now_s() - start_s;
    posix_spawn_file_actions_destroy(&quiet);
    return taken_s;
}

static double best_s(const char *path, const char *const *words) {
    double best = INFINITY;
    for (int run = 0; run < RUNS; run++)
        best = fmin(best, run_s(path, words));
    return best;
}

void runnel_bench_start(const char *command) {
    const char *const none[] = {NULL};
    double nothing_s = best_s("true", none);
    printf("\nfrom start to end: %.1f ms for a program that does nothing\n", 1000 * nothing_s);
    for (size_t i = 0; i < sizeof jobs / sizeof *jobs; i++) {
        double job_s = best_s(command, jobs[i].words);
        printf("  %-14s %5.1f ms, %4.1f times that\n", jobs[i].name, 1000 * job_s,
               job_s / nothing_s);
    }
}
