/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What the readers of written forms share.
 */
#ifndef RUNNEL_JOB_FORM_READING_H
#define RUNNEL_JOB_FORM_READING_H

#include "base/slice.h"
#include "runnel/forms.h"
#include "runnel/status.h"

/** Nothing that is carved is wider; beyond it squares of lengths lose their meaning. */
#define RUNNEL_FORM_MOST_MM 1e6
/** A nanometre: what is smaller has no size that a cutter could leave. */
#define RUNNEL_FORM_LEAST_MM 1e-6
/** The work of checking a polygon grows with the square of its corners. */
enum { RUNNEL_FORM_MOST_POINTS = 5000 };

/** A form that is being read. */
typedef struct runnel_form_reading {
    runnel_slice whole; /**< for messages */
    runnel_problems *problems;
    const runnel_place *place;
    const char *example; /**< a right form of the kind */
    bool is_path;
} runnel_form_reading;

/** Tells "'<form>' <what>; write it like '<example>'". */
runnel_status runnel_form_refuse(const runnel_form_reading *input, runnel_status status,
                                 const char *what);

/** Steps over words with blanks or hyphens between them, in either case, when they stand at the
 * start and a blank or the end follows; whether they did. */
bool runnel_form_take(runnel_slice *text, const char *words);

/** Cuts a text at a word that stands apart from other letters; whether there is one. */
bool runnel_form_cut(runnel_slice text, const char *word, runnel_slice *before,
                     runnel_slice *after);

/** Reads the points of a polygon (rings after "hole"), line or polyline into `form`. */
runnel_status runnel_form_read_points(const runnel_form_reading *input, runnel_slice text,
                                      runnel_form *form);

/**
 * Checks the rings of a polygon as an outline, the first of them around all others, and turns the
 * first counter-clockwise and the holes clockwise. Each has three corners and a length.
 *
 * @return RUNNEL_OK; RUNNEL_E_SHAPE for a ring without an area, sides that meet, a hole outside
 */
runnel_status runnel_form_check_rings(const runnel_form_reading *input, runnel_contours *rings);

#endif
