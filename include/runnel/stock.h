/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What is in the bottles against what a job needs: enough or not, what is left, what to buy, and
 * what it costs.
 */
#ifndef RUNNEL_STOCK_H
#define RUNNEL_STOCK_H

#include "runnel/resin.h"

#include <stdbool.h>

#ifdef __cplusplus
extern "C" {
#endif

/** A bottle or tin. Strings are owned and never NULL. Of amount_g and amount_mm3 one is NAN, of
 * pack_g and pack_mm3 at least one. */
typedef struct runnel_stock_item {
    char *what; /**< resin, tint, oil, ...: a name as runnel_tables_resin compares them */
    char *part; /**< "A", "B", a colour; "" for what has no parts */
    double amount_g, amount_mm3; /**< in it, >= 0 */
    double pack_g, pack_mm3;     /**< what a new one holds, > 0; both NAN when not told */
    double price;                /**< of a new one, >= 0; NAN when not told */
    char *currency;              /**< of the price, any text; may be "" */
    char *opened;                /**< YYYY, YYYY-MM or YYYY-MM-DD; "" when it is still closed */
} runnel_stock_item;

/** All of them. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_stock {
    runnel_stock_item *items;
    size_t count, capacity;
} runnel_stock;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_stock_clear(runnel_stock *stock);

/** Appends a deep copy, in which a NULL text becomes "".
 * @return RUNNEL_OK; RUNNEL_E_RANGE for amounts against the rules above or without a name;
 *         RUNNEL_E_NO_MEMORY */
runnel_status runnel_stock_add(runnel_stock *stock, const runnel_stock_item *item);

/** Something that a job needs. Borrowed. */
typedef struct runnel_stock_need {
    const char *what, *part; /**< as in runnel_stock_item; part may be NULL */
    double mass_g;           /**< >= 0; NAN when not known, and then no bottle in g counts */
    double volume_mm3;       /**< the same for bottles in ml; one of the two is known */
} runnel_stock_need;

/** A list of them. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_needs {
    runnel_stock_need *items;
    size_t count, capacity;
} runnel_needs;

/** Frees the list, not what it borrows. NULL is allowed. */
void runnel_needs_clear(runnel_needs *needs);

/** "no such item" */
#define RUNNEL_STOCK_NONE ((size_t)-1)

/** A name that is needed, all needs of that name together, against its bottles. What is not known
 * is NAN. */
typedef struct runnel_stock_line {
    size_t need;        /**< the first of the needs with that name */
    size_t bottles;     /**< with that name */
    size_t uncountable; /**< of them, in a unit that the need is not known in; left out */
    double need_g, need_mm3;
    double there_g, there_mm3;
    double short_g, short_mm3; /**< 0 when there is enough */
    double left_g, left_mm3;
    double share; /**< there/need; INFINITY where nothing is needed */
    bool is_enough;
    size_t buy;   /**< item of which packs are to be bought; RUNNEL_STOCK_NONE when nothing is short
                     or no pack size is told */
    size_t packs; /**< whole packs of it */
    double buy_cost;      /**< of them; 0 when nothing is short */
    double used_cost;     /**< of what the job uses: each bottle at its own price a gram or
                             millilitre, or where that is not told at the lowest of that name; what
                             is bought at its own */
    const char *currency; /**< of both, borrowed from the stock; NULL when no price is told. Prices
                             in several currencies are not joined: the costs are then NAN. */
} runnel_stock_line;

/** Sum of the costs in one currency. */
typedef struct runnel_stock_cost {
    const char *currency;  /**< borrowed from the stock */
    double used, buy;      /**< sums of what is known */
    double used_per_piece; /**< NAN without pieces */
} runnel_stock_cost;

/** The answer. Zero-initialised is empty; owned by the caller; borrows from stock and needs. */
typedef struct runnel_stock_answer {
    runnel_stock_line *lines;
    size_t count;
    double *left; /**< of each item of the stock after the job, in g or mm3 as its amount. Opened
                     bottles are used up first, those longest open before others. */
    runnel_stock_cost *costs;
    size_t cost_count;
    size_t unpriced; /**< lines whose used_cost is not known, and in no sum */
    bool is_enough;  /**< of everything */
    double times;    /**< how often the stock makes the job: the least share; INFINITY when nothing
                        is needed */
    size_t limiting; /**< the line of that share; RUNNEL_STOCK_NONE when nothing is needed */
} runnel_stock_answer;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_stock_answer_clear(runnel_stock_answer *answer);

/**
 * Holds a job's needs against the stock. Shortages are bought in whole packs: of the packs of that
 * name those that cost least in all; where no price is told, those that leave the least over.
 *
 * @param pieces how many pieces share the cost; 0 for none
 * @param answer an empty one
 * @return RUNNEL_OK; RUNNEL_NOT_POSSIBLE with all filled in when something is short; RUNNEL_E_RANGE
 *         for a need without a name, of which neither figure is known, or of which one is 0 and the
 *         other not; RUNNEL_E_UNIT when of two needs of one name the one is known in g only and the
 *         other in mm3 only; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_stock_check(const runnel_stock *stock, const runnel_stock_need *needs,
                                 size_t count, size_t pieces, runnel_stock_answer *answer);

/**
 * Largest batch (A + B) from what is there.
 *
 * @param part_a_g,part_b_g 0 or more
 * @param limiting          'A' or 'B', whichever runs out first; 0 when both do together
 * @return RUNNEL_OK; RUNNEL_E_RANGE
 */
runnel_status runnel_stock_largest_batch(const runnel_mixture *mixture, double part_a_g,
                                         double part_b_g, double *mass_g, char *limiting);

#ifdef __cplusplus
}
#endif
#endif
