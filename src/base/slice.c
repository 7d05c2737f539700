/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/slice.h"

#include "base/utf8.h"

#include <string.h>

runnel_slice runnel_slice_of(const char *text) {
    return (runnel_slice){text, text + strlen(text)};
}

uint32_t runnel_slice_peek(runnel_slice slice, size_t *length) {
    size_t bytes = 0;
    uint32_t point = slice.at < slice.end ? runnel_utf8_next(slice.at, &bytes) : 0;
    if (length)
        *length = bytes;
    return point;
}

void runnel_slice_step(runnel_slice *slice) {
    size_t length;
    runnel_slice_peek(*slice, &length);
    slice->at += length;
}

bool runnel_is_blank(uint32_t point) {
    return point == ' ' || (point >= '\t' && point <= '\r') || point == 0xA0 ||
           (point >= 0x2000 && point <= 0x200A) || point == 0x202F || point == 0x205F ||
           point == 0x3000;
}

bool runnel_slice_skip_blanks(runnel_slice *slice) {
    const char *start = slice->at;
    while (runnel_is_blank(runnel_slice_peek(*slice, NULL)))
        runnel_slice_step(slice);
    return slice->at > start;
}

runnel_slice runnel_slice_trim(runnel_slice slice) {
    runnel_slice_skip_blanks(&slice);
    runnel_slice trimmed = {slice.at, slice.at};
    while (slice.at < slice.end) {
        bool blank = runnel_is_blank(runnel_slice_peek(slice, NULL));
        runnel_slice_step(&slice);
        if (!blank)
            trimmed.end = slice.at;
    }
    return trimmed;
}

static bool is_letter(uint32_t point) {
    return (point | 0x20) >= 'a' && (point | 0x20) <= 'z';
}

bool runnel_slice_take_word(runnel_slice *slice, const char *word) {
    runnel_slice rest = *slice;
    for (; *word; word++, runnel_slice_step(&rest)) {
        uint32_t point = runnel_slice_peek(rest, NULL);
        if (!is_letter(point) || (point | 0x20) != (uint32_t)*word)
            return false;
    }
    if (is_letter(runnel_slice_peek(rest, NULL)))
        return false;
    *slice = rest;
    return true;
}

static bool is_unseen(uint32_t point) {
    return point < 0x20 || (point >= 0x7F && point < 0xA0) || (point >= 0xD800 && point < 0xE000) ||
           point == 0x200E || point == 0x200F || (point >= 0x2028 && point <= 0x202E) ||
           (point >= 0x2066 && point <= 0x2069);
}

const char *runnel_slice_show(runnel_slice slice, char *buffer) {
    enum { MOST = 60 };
    char *to = buffer;
    for (int shown = 0; slice.at < slice.end; shown++) {
        if (shown == MOST) {
            memcpy(to, "...", 3);
            to += 3;
            break;
        }
        size_t length;
        uint32_t point = runnel_slice_peek(slice, &length);
        if (point >= '\t' && point <= '\r')
            *to++ = ' ';
        else if (is_unseen(point))
            *to++ = '?';
        else {
            memcpy(to, slice.at, length);
            to += length;
        }
        slice.at += length;
    }
    *to = '\0';
    return buffer;
}
