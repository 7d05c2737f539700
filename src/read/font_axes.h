/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Axes of variable fonts.
 */
#ifndef RUNNEL_READ_FONT_AXES_H
#define RUNNEL_READ_FONT_AXES_H

#include "read/font.h"

struct FT_LibraryRec_;
struct FT_FaceRec_;

/**
 * Sets the axes of a face, both where outlines come from and where shapes do. An axis that is not
 * named keeps the value of the face's style.
 *
 * @param owner the open face, whose parts the next three are
 * @param axes such as "wght=600, slnt=-5"; NULL only carries the style's values to the shaper
 * @return RUNNEL_OK; RUNNEL_E_FONT (not a variable font), RUNNEL_E_SYNTAX, RUNNEL_E_UNKNOWN,
 *         RUNNEL_E_RANGE, RUNNEL_E_CONFLICT (an axis twice), all told; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_font_axes_set(const runnel_face *owner, struct FT_LibraryRec_ *library,
                                   struct FT_FaceRec_ *face, struct hb_font_t *font,
                                   const char *axes, runnel_problems *problems,
                                   const runnel_place *place);

#endif
