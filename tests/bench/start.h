/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Times small jobs by the command, from its start to its end.
 */
#ifndef RUNNEL_TESTS_BENCH_START_H
#define RUNNEL_TESTS_BENCH_START_H

#ifdef __cplusplus
extern "C" {
#endif

/** Prints a line a job. @param command path of the command; ends the program when it fails */
void runnel_bench_start(const char *command);

#ifdef __cplusplus
}
#endif
#endif
