/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Characters of UTF-8 text, one at a time.
 */
#ifndef RUNNEL_BASE_UTF8_H
#define RUNNEL_BASE_UTF8_H

#include <stddef.h>
#include <stdint.h>

/** Degrees Celsius and Fahrenheit, as people read them. */
#define RUNNEL_DEGC "\302\260C"
#define RUNNEL_DEGF "\302\260F"

/**
 * The character at the start of `text`, a string closed with a zero.
 *
 * @param length bytes that it takes, at least 1 (0 at the end of the text)
 * @return the code point; for a byte that starts no well-formed sequence (overlong, surrogate,
 *         cut off) 0xDC00 + the byte, which is no character, so that it equals nothing but itself
 */
static inline uint32_t runnel_utf8_next(const char *text, size_t *length) {
    const unsigned char *byte = (const unsigned char *)text;
    static const uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    size_t need = byte[0] < 0x80             ? (byte[0] != 0)
                  : (byte[0] & 0xE0) == 0xC0 ? 2
                  : (byte[0] & 0xF0) == 0xE0 ? 3
                  : (byte[0] & 0xF8) == 0xF0 ? 4
                                             : 5;
    *length = need < 1 ? 0 : 1;
    if (need < 2)
        return byte[0];
    uint32_t point = need > 4 ? 0 : byte[0] & (0xFFU >> (need + 1));
    size_t i = 1;
    for (; need < 5 && i < need && (byte[i] & 0xC0) == 0x80; i++)
        point = point << 6 | (byte[i] & 0x3F);
    if (i < need || point < least[need] || point > 0x10FFFF || (point >> 11) == 0x1B)
        return 0xDC00U + byte[0];
    *length = need;
    return point;
}

#endif
