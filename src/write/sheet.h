/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A whole job as a document, and what that and JSON share.
 */
#ifndef RUNNEL_WRITE_SHEET_H
#define RUNNEL_WRITE_SHEET_H

#include "runnel/look.h"
#include "runnel/sheet.h"
#include "write/doc.h"

/** Sets of steps and cases, for the cautions of a whole job. */
void runnel_sheet_cautions(const runnel_sheet *sheet, unsigned *steps, unsigned *cases);

/** Adds all of it. @param look NULL for one without pictures of the pieces */
void runnel_sheet_doc(const runnel_job *job, const runnel_sheet *sheet, const runnel_look *look,
                      runnel_doc *doc);

#endif
