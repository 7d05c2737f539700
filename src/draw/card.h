/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The mixing card, laid out but not yet written.
 */
#ifndef RUNNEL_DRAW_CARD_H
#define RUNNEL_DRAW_CARD_H

#include "draw/leaf.h"
#include "runnel/look.h"

/** @param leaf replaced; cleared by the caller, empty on failure @return as runnel_draw_card, but
 * nothing is written yet */
runnel_status runnel_card_lay(const runnel_job *job, const runnel_plan *plan,
                              const runnel_look *look, const runnel_paper *paper,
                              runnel_leaf *leaf);

#endif
