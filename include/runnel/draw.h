/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What is drawn on paper: in figures that are read at arm's length, black on white.
 *
 * Each returns RUNNEL_OK; RUNNEL_E_RANGE for paper that there is not; RUNNEL_E_PAGES for more pages
 * than a picture holds (RUNNEL_PAPER_PAGES; a PDF has no end); RUNNEL_E_IO; RUNNEL_E_NO_MEMORY;
 * RUNNEL_E_LIBRARY.
 */
#ifndef RUNNEL_DRAW_H
#define RUNNEL_DRAW_H

#include "runnel/job.h"
#include "runnel/look.h"
#include "runnel/paper.h"
#include "runnel/plan.h"
#include "runnel/sheet.h"
#include "runnel/upkeeping.h"
#include "runnel/write_cure.h"

#include <stdio.h>

#ifdef __cplusplus
extern "C" {
#endif

/** The mixing card: one cup a block, with what the scale has to show, the cup with its marks in its
 * true proportion, times, and places for the pen; warnings first. @param look for small pictures of
 * the pieces, where the cavities of a batch are dark */
runnel_status runnel_draw_card(const runnel_job *job, const runnel_plan *plan,
                               const runnel_look *look, const runnel_paper *paper, FILE *out);

/** The care card for whoever gets a piece, in plain words; one kind of piece fits on both sides of
 * a postcard. */
runnel_status runnel_draw_upkeep(const runnel_job *job, const runnel_upkeeping *upkeeping,
                                 const runnel_paper *paper, FILE *out);

/** The sizes: all that runnel_write_size_text says, with each piece from above, darker where it is
 * deeper, its deepest and narrowest places, and sections of its cavities as they are poured and as
 * they are levelled. */
runnel_status runnel_draw_size(const runnel_job *job, const runnel_plan *plan,
                               const runnel_look *look, const runnel_paper *paper, FILE *out);

/** The job sheet: all of a job in its order, with the pictures of its pieces, its days as bars of
 * hands and waits, and the shopping list; warnings first. */
runnel_status runnel_draw_sheet(const runnel_job *job, const runnel_sheet *sheet,
                                const runnel_look *look, const runnel_paper *paper, FILE *out);

/** The days of jobs: each with its steps as bars of hands and waits, and their times. */
runnel_status runnel_draw_timeline(const runnel_job *jobs, const runnel_timings *timings,
                                   const runnel_paper *paper, FILE *out);

/** A cure: its times, and the curves of conversion and temperature in the cup and in the layer.
 * Further errors: those of runnel_heating_curves_make. */
runnel_status runnel_draw_cure(const runnel_cure_report *report, const runnel_paper *paper,
                               FILE *out);

#ifdef __cplusplus
}
#endif
#endif
