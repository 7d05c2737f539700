/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The units that are read, and the dimensions with their names for messages.
 */
#ifndef RUNNEL_BASE_UNIT_TABLE_H
#define RUNNEL_BASE_UNIT_TABLE_H

#include "base/number.h"
#include "runnel/units.h"

/** A unit: value = (number - zero) x factor x 10^shift / divisor, all exact. */
typedef struct runnel_unit {
    const char *name; /**< as found after runnel_unit_spell, and as shown in messages */
    runnel_dimension dimension;
    uint64_t factor;
    int shift;
    uint64_t divisor; /**< 0 stands for 1 */
    double zero;      /**< reading at which the value is 0; only degF has another than 0 */
    bool keeps_case;  /**< capitals would mean something else (mg, Mg) */
} runnel_unit;

/** How a dimension is spoken of. */
typedef struct runnel_dimension_words {
    const char *name;    /**< "a length" */
    const char *units;   /**< the usual units, "mm, cm, m, in or ft" */
    const char *example; /**< "12 mm" */
    const char *unit;    /**< unit of the value inside the library; "" for a share */
} runnel_dimension_words;

/** Words of a dimension. */
const runnel_dimension_words *runnel_dimension_words_of(runnel_dimension dimension);

/** Room for a spelled unit. */
enum { RUNNEL_UNIT_SIZE = 32 };

/**
 * Writes a unit, trimmed, with plain characters: blanks single and none around "/", a degree sign
 * as "deg", a double prime as `"`, raised digits as digits, micro as "u", no full stops.
 *
 * @param spelled RUNNEL_UNIT_SIZE bytes
 * @return whether it fits and has no other character beyond ASCII
 */
bool runnel_unit_spell(runnel_slice text, char *spelled);

/** The unit of a spelled name, or NULL. */
const runnel_unit *runnel_unit_find(const char *spelled);

/** Why a spelled name is no single unit ("does not say which ounce; ..."), or NULL. */
const char *runnel_unit_doubt(const char *spelled);

/** The unit of a dimension nearest to a misspelt one, or NULL. */
const char *runnel_unit_nearest(const char *spelled, runnel_dimension dimension);

/** The amount in the unit of the dimension; may be infinite, and 0 for what is not. */
double runnel_unit_value(const runnel_unit *unit, const runnel_amount *amount);

#endif
