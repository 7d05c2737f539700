/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/suggest.h"

#include "base/utf8.h"

#include <stdint.h>

/* Names and keys are short; a longer word was not a misspelt name. */
enum { LONGEST = 128 };

typedef struct letters {
    uint32_t points[LONGEST];
    size_t count;
} letters;

/* Returns the characters of a text in lower case; a count of LONGEST + 1 tells "too long". */
static void split(const char *text, letters *out) {
    out->count = 0;
    size_t length;
    for (; *text; text += length) {
        uint32_t point = runnel_utf8_next(text, &length);
        if (out->count == LONGEST) {
            out->count = LONGEST + 1;
            return;
        }
        out->points[out->count++] = point >= 'A' && point <= 'Z' ? point + ('a' - 'A') : point;
    }
}

static size_t least(size_t a, size_t b) {
    return a < b ? a : b;
}

/* Three rows of the table of steps between beginnings of the two words are enough: the row in
 * work, the one above, and the one above that for a swap. */
static size_t steps(const letters *a, const letters *b) {
    if (a->count > LONGEST || b->count > LONGEST)
        return SIZE_MAX;
    size_t rows[3][LONGEST + 1];
    size_t *above = rows[1], *row = rows[0], *over = rows[2];
    for (size_t j = 0; j <= b->count; j++)
        row[j] = j;
    for (size_t i = 1; i <= a->count; i++) {
        size_t *spare = over;
        over = above;
        above = row;
        row = spare;
        row[0] = i;
        for (size_t j = 1; j <= b->count; j++) {
            size_t other = a->points[i - 1] != b->points[j - 1];
            row[j] = least(above[j - 1] + other, least(above[j], row[j - 1]) + 1);
            if (i > 1 && j > 1 && a->points[i - 1] == b->points[j - 2] &&
                a->points[i - 2] == b->points[j - 1])
                row[j] = least(row[j], over[j - 2] + 1);
        }
    }
    return row[b->count];
}

size_t runnel_word_distance(const char *one, const char *other) {
    letters a, b;
    split(one, &a);
    split(other, &b);
    return steps(&a, &b);
}

const char *runnel_nearest(const char *word, const char *const *known, size_t count) {
    letters asked, name;
    split(word, &asked);
    if (asked.count > LONGEST)
        return NULL;
    size_t limit = asked.count / 3 > 2 ? asked.count / 3 : 2;
    const char *nearest = NULL;
    for (size_t i = 0; i < count; i++) {
        if (!known[i])
            continue;
        split(known[i], &name);
        size_t apart = steps(&asked, &name);
        size_t longer = asked.count > name.count ? asked.count : name.count;
        if (apart > limit || (apart && apart >= longer))
            continue;
        if (!apart)
            return known[i];
        nearest = known[i];
        limit = apart - 1; /* only a nearer one may take its place */
    }
    return nearest;
}
