/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/key.h"

static bool is_gap(char byte) {
    return byte == ' ' || byte == '\t' || byte == '-' || byte == '_';
}

static bool is_digit(char byte) {
    return byte >= '0' && byte <= '9';
}

/* Next byte of a name that counts, 0 at the end. A gap counts only between digits: without it
 * "1 1/4" would be "11/4". */
static char next_of_key(const char *text, size_t length, size_t *at) {
    size_t start = *at;
    while (*at < length && is_gap(text[*at]))
        ++*at;
    if (*at >= length)
        return '\0';
    char byte = text[*at];
    if (*at > start && start > 0 && is_digit(text[start - 1]) && is_digit(byte))
        return ' ';
    ++*at;
    return byte >= 'A' && byte <= 'Z' ? (char)(byte - 'A' + 'a') : byte;
}

bool runnel_key_equal(const char *one, size_t one_length, const char *other, size_t other_length) {
    size_t i = 0, k = 0;
    bool i_gap = false, k_gap = false;
    for (;;) {
        /* After a gap was told, the byte behind it is told without it. */
        char a = i_gap ? one[i++] : next_of_key(one, one_length, &i);
        char b = k_gap ? other[k++] : next_of_key(other, other_length, &k);
        i_gap = a == ' ';
        k_gap = b == ' ';
        if (a != b)
            return false;
        if (!a)
            return true;
    }
}
