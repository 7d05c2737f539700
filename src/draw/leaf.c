/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/leaf.h"

#include "base/memory.h"

#include <math.h>
#include <string.h>

/* Margins of large and small paper, and the room of the line at the foot, mm. */
static const double wide_margin_mm = 14, narrow_margin_mm = 8, narrow_mm = 160, foot_mm = 6;

/* Air behind a paragraph. */
static const double air_mm = 0.8;

static bool is_narrow(const runnel_canvas *canvas) {
    return runnel_canvas_width(canvas) < narrow_mm;
}

static void start_page(runnel_leaf *leaf) {
    runnel_canvas_page(leaf->canvas);
    leaf->y_mm = leaf->top_mm;
}

runnel_status runnel_leaf_begin(runnel_leaf *leaf, const runnel_paper *paper) {
    *leaf = (runnel_leaf){.canvas = NULL};
    runnel_status status = runnel_canvas_new(paper, &leaf->canvas);
    if (status)
        return status;
    double margin_mm = is_narrow(leaf->canvas) ? narrow_margin_mm : wide_margin_mm;
    leaf->left_mm = leaf->top_mm = margin_mm;
    leaf->right_mm = runnel_canvas_width(leaf->canvas) - margin_mm;
    leaf->bottom_mm = runnel_canvas_height(leaf->canvas) - margin_mm - foot_mm;
    start_page(leaf);
    return runnel_canvas_status(leaf->canvas);
}

void runnel_leaf_clear(runnel_leaf *leaf) {
    runnel_canvas_free(leaf->canvas);
    runnel_text_clear(&leaf->text);
    runnel_free(leaf->title);
    *leaf = (runnel_leaf){.canvas = NULL};
}

runnel_status runnel_leaf_write(runnel_leaf *leaf, FILE *out) {
    runnel_status status = runnel_canvas_write(leaf->canvas, leaf->title, out);
    runnel_leaf_clear(leaf);
    return status;
}

static void draw_feet(runnel_leaf *leaf, const char *title) {
    runnel_canvas *canvas = leaf->canvas;
    size_t pages = runnel_canvas_pages(canvas);
    double y_mm = leaf->bottom_mm + foot_mm / 2, width_mm = runnel_leaf_width(leaf);
    for (size_t i = 0; i < pages; i++) {
        char number[60];
        runnel_canvas_go(canvas, i);
        snprintf(number, sizeof number, "page %zu of %zu", i + 1, pages);
        double room_mm = width_mm - runnel_canvas_text_width(canvas, RUNNEL_TYPE_SMALL, number) - 4;
        runnel_canvas_text_in(canvas, RUNNEL_TYPE_SMALL, leaf->left_mm, y_mm, room_mm, title);
        runnel_canvas_text(canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_RIGHT, leaf->left_mm, y_mm,
                           width_mm, number);
    }
}

runnel_status runnel_leaf_close(runnel_leaf *leaf, const char *title) {
    leaf->title = runnel_copy_text(title);
    if (!leaf->title)
        return RUNNEL_E_NO_MEMORY;
    draw_feet(leaf, leaf->title);
    if (leaf->text.failed)
        return RUNNEL_E_NO_MEMORY;
    return runnel_canvas_status(leaf->canvas);
}

double runnel_leaf_width(const runnel_leaf *leaf) {
    return leaf->right_mm - leaf->left_mm;
}

void runnel_leaf_need(runnel_leaf *leaf, double height_mm) {
    if (leaf->y_mm + height_mm > leaf->bottom_mm && leaf->y_mm > leaf->top_mm)
        start_page(leaf);
}

void runnel_leaf_skip(runnel_leaf *leaf, double height_mm) {
    if (leaf->y_mm > leaf->top_mm)
        leaf->y_mm += height_mm;
}

/* ---- Paragraphs ------------------------------------------------------------------------------ */

/* How many bytes of a text, up to the end of a word, are no higher than the room. */
static size_t fitting(runnel_leaf *leaf, runnel_type type, double width_mm, double room_mm,
                      const char *text) {
    char *copy = runnel_copy_text(text);
    size_t fits = 0, low = 0, high = strlen(text);
    if (!copy) {
        leaf->text.failed = true;
        return high;
    }
    while (low < high) {
        size_t middle = (low + high + 1) / 2, end = middle;
        while (text[end] && text[end] != ' ')
            end++;
        memcpy(copy, text, end);
        copy[end] = '\0';
        if (runnel_canvas_text_height(leaf->canvas, type, width_mm, copy) <= room_mm) {
            fits = end;
            low = end > middle ? end : middle;
        } else {
            high = middle - 1;
        }
    }
    runnel_free(copy);
    return fits;
}

static void draw_part(runnel_leaf *leaf, runnel_type type, double x_mm, double width_mm,
                      const char *text, size_t length) {
    char *part = runnel_copy_bytes(text, length);
    if (!part) {
        leaf->text.failed = true;
        return;
    }
    leaf->y_mm +=
        runnel_canvas_text(leaf->canvas, type, RUNNEL_SIDE_LEFT, x_mm, leaf->y_mm, width_mm, part);
    runnel_free(part);
}

static void draw_paragraph(runnel_leaf *leaf, runnel_type type, double x_mm, const char *text) {
    double width_mm = leaf->right_mm - x_mm;
    while (*text) {
        double room_mm = leaf->bottom_mm - leaf->y_mm;
        double whole_mm = runnel_canvas_text_height(leaf->canvas, type, width_mm, text);
        size_t length = strlen(text);
        if (whole_mm > room_mm && whole_mm <= leaf->bottom_mm - leaf->top_mm) {
            start_page(leaf);
        } else if (whole_mm > room_mm) {
            length = fitting(leaf, type, width_mm, room_mm, text);
            if (!length && leaf->y_mm > leaf->top_mm) {
                start_page(leaf);
                continue;
            }
            if (!length)
                length = strlen(text); /* not even a word fits on a page */
        }
        draw_part(leaf, type, x_mm, width_mm, text, length);
        text += length;
        text += strspn(text, " ");
        if (*text)
            start_page(leaf);
    }
    leaf->y_mm += air_mm;
}

void runnel_leaf_text(runnel_leaf *leaf, runnel_type type, double indent_mm, const char *text) {
    draw_paragraph(leaf, type, leaf->left_mm + indent_mm, text);
}

void runnel_leaf_fact(runnel_leaf *leaf, const char *label, double column_mm, const char *text) {
    double text_mm = runnel_canvas_text_height(leaf->canvas, RUNNEL_TYPE_BODY,
                                               runnel_leaf_width(leaf) - column_mm, text);
    double most_mm = leaf->bottom_mm - leaf->top_mm;
    double line_mm = runnel_canvas_text_height(leaf->canvas, RUNNEL_TYPE_BODY, 0, label);
    runnel_leaf_need(leaf, text_mm <= most_mm ? fmax(text_mm, line_mm) : line_mm);
    runnel_canvas_text(leaf->canvas, RUNNEL_TYPE_STRONG, RUNNEL_SIDE_LEFT, leaf->left_mm,
                       leaf->y_mm, 0, label);
    draw_paragraph(leaf, RUNNEL_TYPE_BODY, leaf->left_mm + column_mm, text);
}

void runnel_leaf_rule(runnel_leaf *leaf, double thick_mm) {
    runnel_canvas_line(leaf->canvas, leaf->left_mm, leaf->y_mm + thick_mm / 2, leaf->right_mm,
                       leaf->y_mm + thick_mm / 2, thick_mm);
    leaf->y_mm += thick_mm + air_mm;
}

/* ---- Lines that are built ---------------------------------------------------------------------
 */

runnel_flow *runnel_leaf_say(runnel_leaf *leaf, runnel_flow *flow) {
    runnel_flow_into(flow, &leaf->text);
    return flow;
}

const char *runnel_leaf_said(runnel_leaf *leaf, runnel_flow *flow) {
    runnel_flow_end(flow);
    return leaf->text.text ? leaf->text.text : "";
}
