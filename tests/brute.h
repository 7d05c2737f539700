/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Profiles against brute force. At random points of the boundary the radius of the largest disc is
 * sought over all segments as plain sets of points, by calculus and in long double: no trees, no
 * corners, no sides, nothing of the walk that is under test. The pieces must also tile each
 * element without a gap.
 */
#ifndef RUNNEL_TESTS_BRUTE_H
#define RUNNEL_TESTS_BRUTE_H

#include "runnel/profile.h"

#include "solids.h"

/** Fails unless m by the pieces is that of brute force at random places of the boundary. */
void compare_with_brute(const runnel_profile *profile, chance *c, size_t samples);

#endif
