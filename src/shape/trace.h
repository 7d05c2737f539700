/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The border of a section, traced along the boundary of a finished profile.
 *
 * Where m >= t the border at a distance runs beside the boundary, straight beside segments and in
 * arcs about reflex corners. Such a stretch ends on the medial axis with m = t, where two elements
 * meet that stop each other's discs: the stretch that goes on from there belongs to the other one.
 */
#ifndef RUNNEL_SHAPE_TRACE_H
#define RUNNEL_SHAPE_TRACE_H

#include "runnel/profile.h"

/**
 * The region of a section, for pictures: outer rings counter-clockwise, holes clockwise, in no
 * order of nesting.
 *
 * Of an inside: what lies farther than `in_mm` from the edge, grown again by `out_mm`, with an arc
 * about each corner of what was left. At a neck the rings of such a region may overlap each other
 * or themselves; by the non-zero rule they still enclose the region (runnel_outline_union parts
 * them). Without `out_mm` they do not cross.
 *
 * Of a profile with a reach: what lies within `out_mm` of the region, the region with it, or of the
 * path.
 *
 * Where the rings cannot be joined at `in_mm` (or `out_mm` of a profile with a reach), as several
 * places of the medial axis meet exactly there, they are those of a level less by up to 1e-7 of it.
 * The area of the rings is checked against the sums of the pieces.
 *
 * @param profile  made from contours
 * @param in_mm    >= 0; 0 for a profile with a reach
 * @param out_mm   of an inside 0 to in_mm; of a profile with a reach above 0, up to the reach
 * @param chord_mm how far chords may stand off an arc, > 0; none spans more than a quarter turn
 * @param region   an initialised list; replaced on success
 * @return RUNNEL_OK; RUNNEL_E_SHAPE when nothing is left; RUNNEL_E_RANGE for distances beyond these
 *         ranges and for the exact profiles of rounded shapes; RUNNEL_E_NO_MEMORY;
 *         RUNNEL_E_NOT_COMPUTED when the rings do not join or their area is not that of the pieces:
 *         runnel_contours_offset is left then
 */
runnel_status runnel_profile_trace(const runnel_profile *profile, double in_mm, double out_mm,
                                   double chord_mm, runnel_contours *region);

/**
 * The same of a rectangle with rounded corners (a circle, a slot) from (0, 0) to (width, height).
 * The other sides have no inset: `in_mm` is 0 there.
 *
 * @param width_mm,height_mm,radius_mm as for runnel_profile_rounded_rectangle
 */
runnel_status runnel_rounded_trace(double width_mm, double height_mm, double radius_mm,
                                   runnel_profile_side side, double in_mm, double out_mm,
                                   double chord_mm, runnel_contours *region);

#endif
