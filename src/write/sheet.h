/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What text and JSON of a whole job share.
 */
#ifndef RUNNEL_WRITE_SHEET_H
#define RUNNEL_WRITE_SHEET_H

#include "runnel/sheet.h"

/** Sets of steps and cases, for the cautions of a whole job. */
void runnel_sheet_cautions(const runnel_sheet *sheet, unsigned *steps, unsigned *cases);

#endif
