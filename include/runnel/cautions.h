/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Cautions for the bench, one table for all outputs: short, each with its source and with what
 * goes before it. They warn; safety data sheets and local rules decide.
 */
#ifndef RUNNEL_CAUTIONS_H
#define RUNNEL_CAUTIONS_H

#include "runnel/steps.h"

#ifdef __cplusplus
extern "C" {
#endif

/** What makes some cautions due. Bits of a set. */
typedef enum runnel_caution_case {
    RUNNEL_CASE_SOLVENT = 1u << 0, /**< a sealer or finish in spirit or thinner, such as shellac */
    RUNNEL_CASE_NUT_OIL = 1u << 1, /**< an oil pressed from nuts */
    RUNNEL_CASE_ALL = (1u << 2) - 1
} runnel_caution_case;

/** A caution. */
typedef struct runnel_caution {
    const char *code;   /**< stable word, such as "oily-rags" */
    unsigned steps;     /**< set of RUNNEL_STEP_BIT */
    unsigned cases;     /**< set of runnel_caution_case, one of which must hold; 0 = always */
    const char *text;   /**< one or a few plain sentences, UTF-8 */
    const char *source; /**< where it is from */
    const char *ask;    /**< what to look into: sheet, manual, rules; defer to it */
} runnel_caution;

/** All cautions, in the order in which they are printed. */
const runnel_caution *runnel_cautions(size_t *count);

/**
 * Cautions for some steps, one after the other, each once:
 * `for (c = runnel_caution_next(NULL, steps, cases); c; c = runnel_caution_next(c, steps, cases))`.
 *
 * @param after NULL for the first one
 * @param steps set of RUNNEL_STEP_BIT
 * @param cases set of runnel_caution_case that hold; 0 = none
 * @return the next one; NULL at the end
 */
const runnel_caution *runnel_caution_next(const runnel_caution *after, unsigned steps,
                                          unsigned cases);

/** The caution of a code; NULL when there is none. */
const runnel_caution *runnel_caution_find(const char *code);

#ifdef __cplusplus
}
#endif
#endif
