/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Numbers as people write them: decimals without regard to the locale, and fractions.
 */
#ifndef RUNNEL_BASE_NUMBER_H
#define RUNNEL_BASE_NUMBER_H

#include "base/slice.h"
#include "runnel/status.h"

/** A double is settled by its first 767 decimal digits; what follows counts only as "more". */
enum { RUNNEL_DECIMAL_DIGITS = 780 };

/** A decimal number as written: digits x 10^exponent. No digits is zero. */
typedef struct runnel_decimal {
    bool negative;
    bool plain; /**< written with digits alone: no sign, point, or power of ten */
    size_t count;
    long long exponent;
    unsigned char digits[RUNNEL_DECIMAL_DIGITS + 1]; /**< 0 to 9, the first is not 0 */
} runnel_decimal;

/** A decimal number, or a fraction: upper / lower, with lower 1 for a decimal. */
typedef struct runnel_amount {
    runnel_decimal upper;
    double lower;
} runnel_amount;

/** What is wrong with a number. */
typedef enum runnel_number_fault {
    RUNNEL_NUMBER_FINE,
    RUNNEL_NUMBER_NONE,       /**< no number stands here */
    RUNNEL_NUMBER_COMMA,      /**< decimal comma */
    RUNNEL_NUMBER_GROUPED,    /**< thousands set apart */
    RUNNEL_NUMBER_BARE_POINT, /**< no digit behind the point */
    RUNNEL_NUMBER_POINTS,     /**< two points */
    RUNNEL_NUMBER_TWO,        /**< two numbers */
    RUNNEL_NUMBER_BY_ZERO,    /**< division by zero */
    RUNNEL_NUMBER_NOT_WHOLE,  /**< a fraction of decimals, or with nothing below */
    RUNNEL_NUMBER_IMPROPER,   /**< a whole number and a fraction that is not below 1 */
    RUNNEL_NUMBER_LONG,       /**< a fraction of more than nine digits */
    RUNNEL_NUMBER_HEX,        /**< 0x... */
    RUNNEL_NUMBER_FAULT_COUNT
} runnel_number_fault;

/** What is wrong and what would be right, to stand behind the offending text in quotes. */
const char *runnel_number_fault_text(runnel_number_fault fault);

/** Reads sign, digits, point and power of ten, and stops behind them. What follows is not judged.
 */
runnel_number_fault runnel_decimal_read(runnel_slice *slice, runnel_decimal *decimal);

/**
 * Reads a decimal number, "3/8", "1 1/4", "1-1/4" or the like of "1½", and stops behind it. What
 * follows must not look like more of a number.
 */
runnel_number_fault runnel_amount_read(runnel_slice *slice, runnel_amount *amount);

/**
 * The number times factor x 10^shift, rounded once.
 *
 * @param factor at most 1e17
 * @return may be infinite, and 0 for a number that is not
 */
double runnel_decimal_scaled(const runnel_decimal *decimal, uint64_t factor, int shift);

#endif
