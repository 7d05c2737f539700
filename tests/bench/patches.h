/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RUNNEL_BENCH_PATCHES_H
#define RUNNEL_BENCH_PATCHES_H

#ifdef __cplusplus
extern "C" {
#endif

/* Times the figures of whole texts, each distinct letter worked out once, beside the text as one
 * shape; and what a change of a sign costs. */
void runnel_bench_patches(void);

#ifdef __cplusplus
}
#endif
#endif
