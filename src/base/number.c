/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/number.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const fault_texts[RUNNEL_NUMBER_FAULT_COUNT] = {
    [RUNNEL_NUMBER_FINE] = "is a number",
    [RUNNEL_NUMBER_NONE] = "does not start with a number",
    [RUNNEL_NUMBER_COMMA] = "has a comma in its number; the decimal sign is a point, as in 12.5",
    [RUNNEL_NUMBER_GROUPED] =
        "sets thousands apart; write 1000 without a sign between, and decimals after a point",
    [RUNNEL_NUMBER_BARE_POINT] = "has no digit behind its decimal point",
    [RUNNEL_NUMBER_POINTS] = "has two decimal points",
    [RUNNEL_NUMBER_TWO] = "has two numbers, or a blank inside one, where one number is needed",
    [RUNNEL_NUMBER_BY_ZERO] = "divides by zero",
    [RUNNEL_NUMBER_NOT_WHOLE] =
        "has a fraction that is not of two whole numbers; write it like 3/8 or 1 1/4",
    [RUNNEL_NUMBER_IMPROPER] =
        "has a whole number with a fraction that is not below 1; write it like 1 1/4",
    [RUNNEL_NUMBER_LONG] = "has a fraction of more than nine digits",
    [RUNNEL_NUMBER_HEX] = "is not a decimal number",
};

const char *runnel_number_fault_text(runnel_number_fault fault) {
    return fault_texts[fault];
}

static bool is_digit(uint32_t point) {
    return point >= '0' && point <= '9';
}

/* The signs that stand for a minus or a hyphen in running text. */
static bool is_dash(uint32_t point) {
    return point == '-' || point == 0x2212 || (point >= 0x2010 && point <= 0x2013);
}

static bool is_slash(uint32_t point) {
    return point == '/' || point == 0x2044 || point == 0x2215;
}

static uint32_t after(runnel_slice slice) {
    runnel_slice_step(&slice);
    return runnel_slice_peek(slice, NULL);
}

/* Keeps the digits that can settle a double and moves the power of ten for all of them. */
static size_t read_digits(runnel_slice *slice, runnel_decimal *out, bool behind_point, bool *more) {
    size_t read = 0;
    for (; is_digit(runnel_slice_peek(*slice, NULL)); slice->at++, read++) {
        unsigned char digit = (unsigned char)(*slice->at - '0');
        bool keep = out->count < RUNNEL_DECIMAL_DIGITS && (out->count || digit);
        if (keep)
            out->digits[out->count++] = digit;
        else if (out->count && digit)
            *more = true;
        if (behind_point && (keep || !out->count))
            out->exponent--;
        else if (!behind_point && !keep && out->count)
            out->exponent++;
    }
    return read;
}

/* Reads a power of ten if one stands here; "e" without digits is left to be a unit. */
static void read_power(runnel_slice *slice, runnel_decimal *out) {
    const long long most = 1000000000000000;
    runnel_slice rest = *slice;
    if ((runnel_slice_peek(rest, NULL) | 0x20) != 'e')
        return;
    runnel_slice_step(&rest);
    bool negative = is_dash(runnel_slice_peek(rest, NULL));
    if (negative || runnel_slice_peek(rest, NULL) == '+')
        runnel_slice_step(&rest);
    if (!is_digit(runnel_slice_peek(rest, NULL)))
        return;
    long long power = 0;
    for (; is_digit(runnel_slice_peek(rest, NULL)); rest.at++)
        power = power < most ? power * 10 + (*rest.at - '0') : most;
    out->exponent += negative ? -power : power;
    out->plain = false;
    *slice = rest;
}

runnel_number_fault runnel_decimal_read(runnel_slice *slice, runnel_decimal *decimal) {
    runnel_slice rest = *slice;
    decimal->count = 0;
    decimal->exponent = 0;
    decimal->negative = is_dash(runnel_slice_peek(rest, NULL));
    decimal->plain = !decimal->negative && runnel_slice_peek(rest, NULL) != '+';
    if (!decimal->plain)
        runnel_slice_step(&rest);
    bool more = false;
    size_t before = read_digits(&rest, decimal, false, &more), behind = 0;
    if (runnel_slice_peek(rest, NULL) == '.' && (before || is_digit(after(rest)))) {
        runnel_slice_step(&rest);
        behind = read_digits(&rest, decimal, true, &more);
        if (!behind)
            return RUNNEL_NUMBER_BARE_POINT;
        decimal->plain = false;
    }
    if (!before && !behind)
        return RUNNEL_NUMBER_NONE;
    if (more) {
        decimal->digits[decimal->count++] = 1;
        decimal->exponent--;
    }
    read_power(&rest, decimal);
    *slice = rest;
    return RUNNEL_NUMBER_FINE;
}

/* Fractions that are one character. */
static const struct {
    uint32_t point;
    unsigned char upper, lower;
} small_fractions[] = {
    {0xBC, 1, 4},   {0xBD, 1, 2},   {0xBE, 3, 4},   {0x2153, 1, 3}, {0x2154, 2, 3},
    {0x215B, 1, 8}, {0x215C, 3, 8}, {0x215D, 5, 8}, {0x215E, 7, 8},
};

/* A fraction of two whole numbers of at most nine digits. */
typedef struct fraction {
    uint64_t upper, lower;
} fraction;

static runnel_number_fault read_whole(runnel_slice *slice, uint64_t *value) {
    uint64_t whole = 0;
    size_t digits = 0;
    for (; is_digit(runnel_slice_peek(*slice, NULL)); slice->at++) {
        if (whole >= 100000000)
            return RUNNEL_NUMBER_LONG;
        whole = whole * 10 + (uint64_t)(*slice->at - '0');
        digits++;
    }
    *value = whole;
    return digits ? RUNNEL_NUMBER_FINE : RUNNEL_NUMBER_NOT_WHOLE;
}

/* Whether a fraction starts here: one character, or digits and a slash. */
static bool is_fraction(runnel_slice slice) {
    uint32_t point = runnel_slice_peek(slice, NULL);
    for (size_t i = 0; i < sizeof small_fractions / sizeof *small_fractions; i++)
        if (small_fractions[i].point == point)
            return true;
    while (is_digit(runnel_slice_peek(slice, NULL)))
        slice.at++;
    return is_digit(point) && is_slash(runnel_slice_peek(slice, NULL));
}

static runnel_number_fault read_fraction(runnel_slice *slice, fraction *out) {
    uint32_t point = runnel_slice_peek(*slice, NULL);
    for (size_t i = 0; i < sizeof small_fractions / sizeof *small_fractions; i++)
        if (small_fractions[i].point == point) {
            runnel_slice_step(slice);
            *out = (fraction){small_fractions[i].upper, small_fractions[i].lower};
            return RUNNEL_NUMBER_FINE;
        }
    runnel_number_fault fault = read_whole(slice, &out->upper);
    if (fault)
        return fault;
    runnel_slice_step(slice);
    fault = read_whole(slice, &out->lower);
    if (fault)
        return fault;
    uint32_t next = runnel_slice_peek(*slice, NULL);
    if (is_slash(next) || (next == '.' && is_digit(after(*slice))))
        return RUNNEL_NUMBER_NOT_WHOLE;
    return out->lower ? RUNNEL_NUMBER_FINE : RUNNEL_NUMBER_BY_ZERO;
}

static void set_whole(runnel_decimal *out, uint64_t value) {
    char text[24];
    snprintf(text, sizeof text, "%llu", (unsigned long long)value);
    bool more = false;
    out->count = 0;
    out->exponent = 0;
    runnel_slice digits = runnel_slice_of(text);
    read_digits(&digits, out, false, &more);
}

/* Reads "3/8" behind a sign, or "1 1/4" and its like; `found` tells whether one stood here. */
static runnel_number_fault read_mixed(runnel_slice *slice, runnel_amount *out, bool *found) {
    runnel_slice rest = *slice;
    fraction part;
    uint64_t whole = 0;
    *found = is_fraction(rest);
    if (!*found) {
        runnel_slice start = rest;
        while (is_digit(runnel_slice_peek(rest, NULL)))
            rest.at++;
        bool digits = rest.at > start.at;
        if (!runnel_slice_skip_blanks(&rest) && is_dash(runnel_slice_peek(rest, NULL)))
            runnel_slice_step(&rest);
        *found = digits && is_fraction(rest);
        if (!*found)
            return RUNNEL_NUMBER_FINE;
        if (read_whole(&start, &whole))
            return RUNNEL_NUMBER_LONG;
    }
    bool mixed = rest.at > slice->at;
    runnel_number_fault fault = read_fraction(&rest, &part);
    if (fault)
        return fault;
    if (mixed && part.upper >= part.lower)
        return RUNNEL_NUMBER_IMPROPER;
    set_whole(&out->upper, whole * part.lower + part.upper);
    out->lower = (double)part.lower;
    *slice = rest;
    return RUNNEL_NUMBER_FINE;
}

/* Whether what follows a number looks like more of it. */
static runnel_number_fault judge_rest(runnel_slice rest, const runnel_amount *amount) {
    uint32_t next = runnel_slice_peek(rest, NULL);
    bool digit_next = is_digit(after(rest));
    if (next == ',' && digit_next) {
        runnel_slice group = rest;
        size_t digits = 0;
        for (runnel_slice_step(&group); is_digit(runnel_slice_peek(group, NULL)); digits++)
            group.at++;
        return digits == 3 && amount->upper.count ? RUNNEL_NUMBER_GROUPED : RUNNEL_NUMBER_COMMA;
    }
    if ((next == '\'' || next == '_' || next == 0x2019) && digit_next)
        return RUNNEL_NUMBER_GROUPED;
    if (next == '.' && digit_next)
        return RUNNEL_NUMBER_POINTS;
    if (is_slash(next) || is_fraction(rest))
        return RUNNEL_NUMBER_NOT_WHOLE;
    if ((next | 0x20) == 'x' && !amount->upper.count && amount->upper.plain)
        return RUNNEL_NUMBER_HEX;
    if (is_dash(next))
        runnel_slice_step(&rest);
    runnel_slice_skip_blanks(&rest);
    return is_digit(runnel_slice_peek(rest, NULL)) ? RUNNEL_NUMBER_TWO : RUNNEL_NUMBER_FINE;
}

runnel_number_fault runnel_amount_read(runnel_slice *slice, runnel_amount *amount) {
    runnel_slice rest = *slice;
    runnel_slice_skip_blanks(&rest);
    uint32_t sign = runnel_slice_peek(rest, NULL);
    runnel_slice unsigned_part = rest;
    if (is_dash(sign) || sign == '+')
        runnel_slice_step(&unsigned_part);
    bool found;
    runnel_number_fault fault = read_mixed(&unsigned_part, amount, &found);
    if (fault)
        return fault;
    if (found) {
        amount->upper.negative = is_dash(sign);
        amount->upper.plain = false;
        rest = unsigned_part;
    } else {
        amount->lower = 1;
        fault = runnel_decimal_read(&rest, &amount->upper);
        if (fault)
            return fault;
    }
    fault = judge_rest(rest, amount);
    if (!fault)
        *slice = rest;
    return fault;
}

/*
 * The product is made in decimal digits, so that only the last step, from digits to a double,
 * rounds. The text for it is digits and a power of ten without a decimal point: strtod reads that
 * alike in every locale.
 */
double runnel_decimal_scaled(const runnel_decimal *decimal, uint64_t factor, int shift) {
    enum { CARRIED = 20, POWER = 16 };
    char text[CARRIED + RUNNEL_DECIMAL_DIGITS + 1 + POWER];
    const long long most = 99999;
    if (!decimal->count)
        return 0;
    char *end = text + CARRIED + decimal->count, *at = end;
    uint64_t carry = 0;
    for (size_t i = decimal->count; i-- > 0; carry /= 10) {
        carry += decimal->digits[i] * factor;
        *--at = (char)('0' + carry % 10);
    }
    for (; carry; carry /= 10)
        *--at = (char)('0' + carry % 10);
    long long power = decimal->exponent + shift;
    power = power > most ? most : power < -most ? -most : power;
    snprintf(end, POWER, "e%lld", power);
    double value = strtod(at, NULL);
    return decimal->negative ? -value : value;
}
