/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Quantities as parts of a longer text; see runnel/units.h for what is read and refused.
 */
#ifndef RUNNEL_BASE_QUANTITY_H
#define RUNNEL_BASE_QUANTITY_H

#include "base/slice.h"
#include "base/unit_table.h"
#include "runnel/units.h"

/** As runnel_quantity_parse, for a part of a text. */
runnel_status runnel_quantity_read(runnel_slice text, runnel_dimension dimension,
                                   runnel_problems *problems, const runnel_place *place,
                                   double *value);

/** Largest number of lengths that are read together. */
enum { RUNNEL_MOST_LENGTHS = 8 };

/**
 * Reads parts that each hold a length, where a part without a unit takes the next one that is
 * written after it.
 *
 * @param whole  the text that the parts come from, for messages
 * @param count  1 to RUNNEL_MOST_LENGTHS
 * @param values room for `count` values, mm
 */
runnel_status runnel_lengths_read(runnel_slice whole, const runnel_slice *parts, size_t count,
                                  runnel_problems *problems, const runnel_place *place,
                                  double *values);

/** Finds the unit at the end of a text for a dimension; tells why when there is none. */
runnel_status runnel_unit_read(runnel_slice whole, runnel_slice unit_text,
                               runnel_dimension dimension, runnel_problems *problems,
                               const runnel_place *place, const runnel_unit **unit);

/**
 * Splits at the letter x or the sign × wherever a number follows.
 *
 * @param parts room for RUNNEL_MOST_LENGTHS parts
 * @return how many parts there are, which may be more than there is room for
 */
size_t runnel_split_sizes(runnel_slice text, runnel_slice *parts);

#endif
