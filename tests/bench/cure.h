/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Times the cure along a year of readings a minute apart.
 */
#ifndef RUNNEL_TESTS_BENCH_CURE_H
#define RUNNEL_TESTS_BENCH_CURE_H

#ifdef __cplusplus
extern "C" {
#endif

/** Prints one line. Ends the program when it cannot be computed. */
void runnel_bench_cure(void);

#ifdef __cplusplus
}
#endif
#endif
