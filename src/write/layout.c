/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/layout.h"

#include "base/memory.h"
#include "base/utf8.h"
#include "runnel/units.h"

#include <stdarg.h>
#include <string.h>

static bool is_between(uint32_t point, uint32_t low, uint32_t high) {
    return point >= low && point <= high;
}

static bool is_unseen(uint32_t point) {
    return point < 0x20 || is_between(point, 0x7F, 0x9F) || is_between(point, 0xD800, 0xDFFF) ||
           point == 0x200E || point == 0x200F || is_between(point, 0x2028, 0x202E) ||
           is_between(point, 0x2066, 0x2069);
}

/* The blocks of combining marks and of wide letters that names are likely to hold (Unicode
 * Standard Annex 11); others count one column. */
static size_t columns_of(uint32_t point) {
    if (is_between(point, 0x300, 0x36F) || is_between(point, 0x200B, 0x200D) ||
        is_between(point, 0xFE00, 0xFE0F))
        return 0;
    bool wide = is_between(point, 0x1100, 0x115F) || is_between(point, 0x2E80, 0xA4CF) ||
                is_between(point, 0xAC00, 0xD7A3) || is_between(point, 0xF900, 0xFAFF) ||
                is_between(point, 0xFE30, 0xFE6F) || is_between(point, 0xFF00, 0xFF60) ||
                is_between(point, 0x1F300, 0x1FAFF) || is_between(point, 0x20000, 0x3FFFD);
    return wide ? 2 : 1;
}

size_t runnel_layout_width(const char *text) {
    size_t width = 0, length;
    for (uint32_t point = runnel_utf8_next(text, &length); length;
         text += length, point = runnel_utf8_next(text, &length))
        width += columns_of(point);
    return width;
}

void runnel_text_clear(runnel_text_sink *sink) {
    if (!sink)
        return;
    runnel_free(sink->text);
    memset(sink, 0, sizeof *sink);
}

static void put(runnel_flow *flow, const char *bytes, size_t count) {
    runnel_text_sink *sink = flow->sink;
    if (!sink) {
        fwrite(bytes, 1, count, flow->out);
        return;
    }
    if (runnel_reserve(&sink->text, &sink->capacity, sink->length + count + 1, 1)) {
        sink->failed = true;
        return;
    }
    memcpy(sink->text + sink->length, bytes, count);
    sink->length += count;
    sink->text[sink->length] = '\0';
}

static void pad(runnel_flow *flow, size_t column) {
    for (; flow->column < column; flow->column++)
        put(flow, " ", 1);
}

static void new_line(runnel_flow *flow) {
    put(flow, "\n", 1);
    flow->column = 0;
}

void runnel_flow_begin(runnel_flow *flow, FILE *out, size_t indent) {
    *flow = (runnel_flow){.out = out, .indent = indent};
}

void runnel_flow_into(runnel_flow *flow, runnel_text_sink *sink) {
    sink->length = 0;
    if (sink->text)
        sink->text[0] = '\0';
    *flow = (runnel_flow){.sink = sink};
}

/* Writes the word in work, on a new line when it does not fit on this one. */
static void place_word(runnel_flow *flow) {
    if (!flow->bytes)
        return;
    size_t before = flow->column < flow->indent ? flow->indent - flow->column : flow->blank;
    if (flow->sink)
        before = flow->blank && flow->sink->length;
    else if (flow->column > flow->indent &&
             flow->column + before + flow->width > RUNNEL_LINE_COLUMNS) {
        new_line(flow);
        before = flow->indent;
    }
    pad(flow, flow->column + before);
    put(flow, flow->word, flow->bytes);
    flow->column += flow->width;
    flow->bytes = flow->width = 0;
    flow->blank = false;
}

/* A word that is wider than a line is cut. */
static void add_character(runnel_flow *flow, const char *bytes, size_t count, size_t columns) {
    bool too_wide = !flow->sink && flow->indent + flow->width + columns > RUNNEL_LINE_COLUMNS;
    if (too_wide || flow->bytes + count > sizeof flow->word) {
        place_word(flow);
        if (!flow->sink && flow->column + columns > RUNNEL_LINE_COLUMNS)
            new_line(flow);
    }
    memcpy(flow->word + flow->bytes, bytes, count);
    flow->bytes += count;
    flow->width += columns;
}

void runnel_flow_add(runnel_flow *flow, const char *text) {
    size_t length;
    for (uint32_t point = runnel_utf8_next(text, &length); length;
         text += length, point = runnel_utf8_next(text, &length)) {
        if (point == ' ' || is_between(point, '\t', '\r')) {
            place_word(flow);
            flow->blank = true;
        } else if (point == 0xA0) {
            add_character(flow, flow->sink ? RUNNEL_STICK : " ",
                          flow->sink ? strlen(RUNNEL_STICK) : 1, 1);
        } else if (is_unseen(point)) {
            add_character(flow, "?", 1, 1);
        } else {
            add_character(flow, text, length, columns_of(point));
        }
    }
}

void runnel_flow_format(runnel_flow *flow, const char *format, ...) {
    char text[256];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    runnel_flow_add(flow, text);
}

void runnel_flow_number(runnel_flow *flow, double value, int decimals, const char *unit) {
    char digits[64];
    runnel_flow_add(flow, runnel_number_text(value, decimals, digits, sizeof digits));
    if (*unit && *unit != ' ')
        runnel_flow_add(flow, RUNNEL_STICK);
    runnel_flow_add(flow, unit);
}

void runnel_flow_tab(runnel_flow *flow, size_t indent) {
    place_word(flow);
    flow->indent = indent;
    flow->blank = true;
}

void runnel_flow_aligned(runnel_flow *flow, size_t point_column, double value, int decimals,
                         int places, const char *unit) {
    char digits[64];
    runnel_flow_aligned_text(flow, point_column,
                             runnel_number_text(value, decimals, digits, sizeof digits), places,
                             unit);
}

void runnel_flow_aligned_text(runnel_flow *flow, size_t point_column, const char *digits,
                              int places, const char *unit) {
    enum { UNIT = 6 };
    size_t before = strcspn(digits, ".");
    size_t unit_column = point_column + (places ? 1 + (size_t)places : 0) + 1;
    runnel_flow_tab(flow, point_column > before ? point_column - before : 0);
    runnel_flow_add(flow, digits);
    runnel_flow_tab(flow, unit_column);
    runnel_flow_add(flow, unit);
    runnel_flow_tab(flow, unit_column + UNIT);
}

void runnel_flow_end(runnel_flow *flow) {
    place_word(flow);
    if (!flow->sink)
        new_line(flow);
}

void runnel_layout_paragraph(FILE *out, size_t indent, const char *text) {
    runnel_flow flow;
    runnel_flow_begin(&flow, out, indent);
    runnel_flow_add(&flow, text);
    runnel_flow_end(&flow);
}

void runnel_layout_rule(FILE *out, size_t indent, size_t columns, char mark) {
    for (size_t i = 0; i < indent + columns; i++)
        fputc(i < indent ? ' ' : mark, out);
    fputc('\n', out);
}

runnel_status runnel_layout_close(FILE *out) {
    return fflush(out) || ferror(out) ? RUNNEL_E_IO : RUNNEL_OK;
}

bool runnel_layout_wants_mark(uint32_t before, uint32_t point) {
    bool is_turned = is_between(before, 0x590, 0x8FF) || is_between(before, 0xFB1D, 0xFDFF) ||
                     is_between(before, 0xFE70, 0xFEFF) || is_between(before, 0x10800, 0x10FFF) ||
                     is_between(before, 0x1E800, 0x1EFFF);
    return is_turned && (point == ':' || point == ',' || point == ';' || point == '.' ||
                         point == '/' || point == '(' || point == 0xA0);
}
