/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What the suites of plans share: a job in memory, tables of invented figures, letters that are
 * plain blocks, and looking for warnings.
 */
#ifndef RUNNEL_TESTS_PLANNING_H
#define RUNNEL_TESTS_PLANNING_H

#include "runnel/plan.h"

#include "compare.h"

#include <stdbool.h>

/** The job that is built, what was told of it, and its plan. */
extern runnel_job job;
extern runnel_problems problems;
extern runnel_plan plan;

/** Begins an empty job with the resin "table-top 2:1" of job_tables.h; ends it. */
void planning_setup(void);
void planning_teardown(void);
/** Both: leaves an empty job. */
void planning_again(void);

/** Tables of job_tables.h, with soaks: hard maple 40 and 5, white oak 80 and 8 ml/m2 bare and
 * sealed (invented). */
const runnel_tables *planning_tables(void);

/** A copy of a text for a field of the job that is still empty. */
char *text_for_job(const char *text);

/** Adds a piece; the pointer is good until the next one. A size of 0 is not given. */
runnel_job_piece *add_piece(const char *name, const char *wood, double length_mm, double width_mm,
                            double thickness_mm, size_t count);
/** Adds a cavity to the last piece, by the written forms. Depth is the limit of a V cutter in an
 * outline; 0 is none. The pointer is good until the next one. */
runnel_job_cavity *add_outline(const char *form, const char *cutter, double depth_mm,
                               const char *colour);
runnel_job_cavity *add_path(const char *form, const char *cutter, double depth_mm,
                            const char *colour);
runnel_job_cavity *add_text(const char *text, double cap_height_mm, const char *cutter,
                            double limit_mm, const char *colour);
runnel_job_cavity *add_measured(double volume_mm3, const char *colour);

/**
 * Letters for tests: each is an upright block as high as the cap height h and 0.2 h wide (i:
 * 0.05 h), 0.6 h from the last one plus the letter spacing; a blank is an empty place; lines
 * are 1.5 h apart. As single lines: the blocks' centre lines. The fonts "none" (told) and "broken"
 * (not told) fail. With a text height the block of all lines is made that high.
 */
runnel_status block_letters(const runnel_text *text, runnel_problems *found,
                            const runnel_place *place, runnel_lettering *lettering);

/** Checks the job and plans it. */
runnel_status make_plan(void);
/** The same, which must give a plan: RUNNEL_OK or RUNNEL_NOT_POSSIBLE as told. */
void must_plan(runnel_status wanted);

/** The first warning of a code; NULL when there is none. */
const runnel_warning *warned(const char *code);
/** Fails unless there is exactly one warning of the code, at this place, with this text. */
void ck_warned(const char *code, const char *where, const char *text);
/** Fails when there is such a warning. */
void ck_not_warned(const char *code);
/** The number after some words in the text of a warning. */
double advised(const char *code, const char *words);

/** Runs a suite of these tests; the exit status. */
int planning_main(const char *name, void (*add_tests)(TCase *cases));

#endif
