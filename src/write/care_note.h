/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The care note for whoever gets a piece, in plain words, as a document.
 */
#ifndef RUNNEL_WRITE_CARE_NOTE_H
#define RUNNEL_WRITE_CARE_NOTE_H

#include "runnel/upkeeping.h"
#include "write/doc.h"

/** Adds all of it. */
void runnel_care_note(const runnel_job *job, const runnel_upkeeping *upkeeping, runnel_doc *doc);

#endif
