/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/canvas.h"
#include "draw/canvas_calls.h"

#include "base/late.h"
#include "base/memory.h"
#include "base/utf8.h"
#include "write/layout.h"

#include <math.h>
#include <string.h>

RUNNEL_LATE(RUNNEL_CANVAS_CALLS, RUNNEL_LATE_PANGOCAIRO);

#define POINTS_PER_INCH 72.0
#define MM_PER_INCH     25.4 /* exact */

static const double point_per_mm = POINTS_PER_INCH / MM_PER_INCH;

static const char family[] = "Sans";

static const struct {
    double points;
    bool bold;
} types[RUNNEL_TYPES] = {
    [RUNNEL_TYPE_SMALL] = {7.5, false}, [RUNNEL_TYPE_BODY] = {9.5, false},
    [RUNNEL_TYPE_STRONG] = {9.5, true}, [RUNNEL_TYPE_HEAD] = {12.5, true},
    [RUNNEL_TYPE_TITLE] = {17, true},   [RUNNEL_TYPE_FIGURE] = {26, true},
};

/* One thing that is drawn, kept until the file is written: text, or polygons. */
typedef struct mark {
    runnel_type type;
    runnel_side side;
    double x_mm, y_mm, width_mm; /* of text */
    double scale;                /* of its type */
    double *points;              /* of polygons: x and y in turn */
    size_t *starts;
    size_t count;
    bool even_odd, closed;
    double grey, thick_mm;
} mark;

struct runnel_canvas {
    runnel_paper paper;
    double width_mm, height_mm;
    PangoContext *context;
    PangoFontMap *fonts;
    double type_scale;
    size_t page, page_count;
    runnel_ink *inks; /* of each mark */
    mark *marks;
    size_t mark_count, ink_capacity, mark_capacity;
    runnel_status status;
};

/* ---- Making ---------------------------------------------------------------------------------- */

void runnel_canvas_fail(runnel_canvas *canvas, runnel_status status) {
    if (!canvas->status)
        canvas->status = status;
}

static bool is_fine(const runnel_canvas *canvas) {
    return !canvas->status && canvas->page_count;
}

/* Text is set without regard to the dots of any screen, so that it is the same on all. */
static void make_context(runnel_canvas *canvas) {
    cairo_font_options_t *options = lib.cairo_font_options_create();
    lib.cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    lib.cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    lib.cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    canvas->fonts = lib.pango_cairo_font_map_new();
    canvas->context = lib.pango_font_map_create_context(canvas->fonts);
    lib.pango_cairo_context_set_font_options(canvas->context, options);
    lib.pango_cairo_context_set_resolution(canvas->context, POINTS_PER_INCH);
    lib.pango_context_set_base_dir(canvas->context, PANGO_DIRECTION_LTR);
    lib.pango_context_set_language(canvas->context, lib.pango_language_from_string("en"));
    lib.cairo_font_options_destroy(options);
}

static runnel_status make_canvas(const runnel_paper *paper, double width_mm, double height_mm,
                                 runnel_canvas **canvas) {
    runnel_status status = runnel_late_load(&late);
    if (status)
        return status;
    runnel_canvas *made = runnel_zeroed(1, sizeof *made);
    if (!made)
        return RUNNEL_E_NO_MEMORY;
    made->paper = *paper;
    made->width_mm = width_mm;
    made->height_mm = height_mm;
    made->type_scale = 1;
    make_context(made);
    *canvas = made;
    return RUNNEL_OK;
}

runnel_status runnel_canvas_new(const runnel_paper *paper, runnel_canvas **canvas) {
    double width_mm, height_mm;
    runnel_status status = runnel_paper_measure(paper->size, &width_mm, &height_mm);
    return status ? status : make_canvas(paper, width_mm, height_mm, canvas);
}

runnel_status runnel_canvas_new_picture(double width_mm, double height_mm, runnel_canvas **canvas) {
    const runnel_paper picture = {.kind = RUNNEL_PAPER_SVG};
    return make_canvas(&picture, width_mm, height_mm, canvas);
}

void runnel_canvas_free(runnel_canvas *canvas) {
    if (!canvas)
        return;
    for (size_t i = 0; i < canvas->mark_count; i++) {
        runnel_free(canvas->inks[i].text);
        runnel_free(canvas->marks[i].points);
        runnel_free(canvas->marks[i].starts);
    }
    lib.g_object_unref(canvas->context);
    lib.g_object_unref(canvas->fonts);
    runnel_free(canvas->inks);
    runnel_free(canvas->marks);
    runnel_free(canvas);
}

void runnel_canvas_scale_type(runnel_canvas *canvas, double scale) {
    canvas->type_scale = scale;
}

double runnel_canvas_width(const runnel_canvas *canvas) {
    return canvas->width_mm;
}

double runnel_canvas_height(const runnel_canvas *canvas) {
    return canvas->height_mm;
}

size_t runnel_canvas_pages(const runnel_canvas *canvas) {
    return canvas->page_count;
}

runnel_status runnel_canvas_status(const runnel_canvas *canvas) {
    return canvas->status;
}

void runnel_canvas_go(runnel_canvas *canvas, size_t page) {
    if (page < canvas->page_count)
        canvas->page = page;
}

void runnel_canvas_page(runnel_canvas *canvas) {
    if (!canvas->status)
        canvas->page = canvas->page_count++;
}

/* ---- Ink ------------------------------------------------------------------------------------- */

/* Keeps a mark and its ink. What it owns is taken over, also when there is no room for it. */
static void keep(runnel_canvas *canvas, const mark *fresh, const runnel_ink_box *box, char *text) {
    size_t needed = canvas->mark_count + 1;
    if (runnel_reserve(&canvas->inks, &canvas->ink_capacity, needed, sizeof *canvas->inks) ||
        runnel_reserve(&canvas->marks, &canvas->mark_capacity, needed, sizeof *canvas->marks)) {
        runnel_free(text);
        runnel_free(fresh->points);
        runnel_free(fresh->starts);
        runnel_canvas_fail(canvas, RUNNEL_E_NO_MEMORY);
        return;
    }
    canvas->inks[canvas->mark_count] =
        (runnel_ink){.page = canvas->page, .is_text = text != NULL, .box = *box, .text = text};
    canvas->marks[canvas->mark_count++] = *fresh;
}

const runnel_ink *runnel_canvas_inks(const runnel_canvas *canvas, size_t *count) {
    *count = canvas->mark_count;
    return canvas->inks;
}

/* ---- Text ------------------------------------------------------------------------------------ */

static double mm_of(int units) {
    return units / (double)PANGO_SCALE / point_per_mm;
}

/* Lines run from left to right; names of other scripts turn within them, and keep numbers that
 * follow behind them. */
static void set_text(PangoLayout *layout, const char *text) {
    GString *marked = (lib.g_string_sized_new)(strlen(text) + 1);
    size_t length;
    uint32_t before = 0;
    for (uint32_t point = runnel_utf8_next(text, &length); length;
         text += length, before = point, point = runnel_utf8_next(text, &length)) {
        if (runnel_layout_wants_mark(before, point))
            (lib.g_string_append)(marked, RUNNEL_LAYOUT_MARK);
        (lib.g_string_append_len)(marked, text, (gssize)length);
    }
    lib.pango_layout_set_text(layout, marked->str, -1);
    (lib.g_string_free)(marked, TRUE);
}

/* To be unreferenced by the caller. */
static PangoLayout *lay(const runnel_canvas *canvas, runnel_type type, double scale,
                        double width_mm, const char *text) {
    PangoLayout *layout = lib.pango_layout_new(canvas->context);
    PangoFontDescription *font = lib.pango_font_description_from_string(family);
    lib.pango_font_description_set_absolute_size(font, types[type].points * scale * PANGO_SCALE);
    lib.pango_font_description_set_weight(font, types[type].bold ? PANGO_WEIGHT_BOLD
                                                                 : PANGO_WEIGHT_NORMAL);
    lib.pango_layout_set_font_description(layout, font);
    lib.pango_font_description_free(font);
    lib.pango_layout_set_auto_dir(layout, FALSE);
    set_text(layout, text);
    if (width_mm > 0) {
        lib.pango_layout_set_width(layout, (int)floor(width_mm * point_per_mm * PANGO_SCALE));
        lib.pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
    }
    return layout;
}

double runnel_canvas_text_height(runnel_canvas *canvas, runnel_type type, double width_mm,
                                 const char *text) {
    int width, height;
    PangoLayout *layout = lay(canvas, type, canvas->type_scale, width_mm, text);
    lib.pango_layout_get_size(layout, &width, &height);
    lib.g_object_unref(layout);
    return mm_of(height);
}

double runnel_canvas_text_width(runnel_canvas *canvas, runnel_type type, const char *text) {
    int width, height;
    PangoLayout *layout = lay(canvas, type, canvas->type_scale, 0, text);
    lib.pango_layout_get_size(layout, &width, &height);
    lib.g_object_unref(layout);
    return mm_of(width);
}

static PangoLayout *lay_mark(const runnel_canvas *canvas, const mark *of, const char *text) {
    static const PangoAlignment sides[] = {[RUNNEL_SIDE_LEFT] = PANGO_ALIGN_LEFT,
                                           [RUNNEL_SIDE_MIDDLE] = PANGO_ALIGN_CENTER,
                                           [RUNNEL_SIDE_RIGHT] = PANGO_ALIGN_RIGHT};
    PangoLayout *layout = lay(canvas, of->type, of->scale, of->width_mm, text);
    lib.pango_layout_set_alignment(layout, sides[of->side]);
    return layout;
}

double runnel_canvas_text(runnel_canvas *canvas, runnel_type type, runnel_side side, double x_mm,
                          double y_mm, double width_mm, const char *text) {
    const mark fresh = {.type = type,
                        .side = side,
                        .x_mm = x_mm,
                        .y_mm = y_mm,
                        .width_mm = width_mm,
                        .scale = canvas->type_scale};
    PangoRectangle ink, logical;
    PangoLayout *layout = lay_mark(canvas, &fresh, text);
    lib.pango_layout_get_extents(layout, &ink, &logical);
    lib.g_object_unref(layout);
    if (is_fine(canvas) && ink.width > 0) {
        char *copy = runnel_copy_text(text);
        if (copy)
            keep(canvas, &fresh,
                 &(runnel_ink_box){x_mm + mm_of(ink.x), y_mm + mm_of(ink.y), mm_of(ink.width),
                                   mm_of(ink.height)},
                 copy);
        else
            runnel_canvas_fail(canvas, RUNNEL_E_NO_MEMORY);
    }
    return mm_of(logical.height);
}

double runnel_canvas_text_in(runnel_canvas *canvas, runnel_type type, double x_mm, double y_mm,
                             double width_mm, const char *text) {
    char *cut = runnel_copy_text(text);
    if (!cut) {
        runnel_canvas_fail(canvas, RUNNEL_E_NO_MEMORY);
        return 0;
    }
    size_t length = strlen(cut);
    while (length && runnel_canvas_text_width(canvas, type, cut) > width_mm) {
        do
            length--;
        while (length && ((unsigned char)cut[length] & 0xC0) == 0x80);
        cut[length] = '\0';
    }
    double height_mm = runnel_canvas_text(canvas, type, RUNNEL_SIDE_LEFT, x_mm, y_mm, 0, cut);
    runnel_free(cut);
    return height_mm;
}

/* ---- Lines and greys ------------------------------------------------------------------------- */

static runnel_ink_box box_of(const double *points, size_t count, double thick_mm) {
    double half_mm = thick_mm > 0 ? thick_mm / 2 : 0;
    double low[2] = {INFINITY, INFINITY}, high[2] = {-INFINITY, -INFINITY};
    for (size_t i = 0; i < 2 * count; i++) {
        low[i % 2] = fmin(low[i % 2], points[i]);
        high[i % 2] = fmax(high[i % 2], points[i]);
    }
    return (runnel_ink_box){low[0] - half_mm, low[1] - half_mm, high[0] - low[0] + 2 * half_mm,
                            high[1] - low[1] + 2 * half_mm};
}

void runnel_canvas_polygons(runnel_canvas *canvas, const runnel_canvas_shape *shape, double grey,
                            double thick_mm) {
    size_t count = shape->count ? shape->starts[shape->count] : 0;
    if (!is_fine(canvas) || !count)
        return;
    mark fresh = {.count = shape->count,
                  .even_odd = shape->even_odd,
                  .closed = shape->closed,
                  .grey = grey,
                  .thick_mm = thick_mm};
    fresh.points = runnel_zeroed(2 * count, sizeof *fresh.points);
    fresh.starts = runnel_zeroed(shape->count + 1, sizeof *fresh.starts);
    if (!fresh.points || !fresh.starts) {
        runnel_free(fresh.points);
        runnel_free(fresh.starts);
        runnel_canvas_fail(canvas, RUNNEL_E_NO_MEMORY);
        return;
    }
    memcpy(fresh.starts, shape->starts, (shape->count + 1) * sizeof *fresh.starts);
    for (size_t i = 0; i < count; i++) {
        fresh.points[2 * i] = shape->x_mm[i];
        fresh.points[2 * i + 1] = shape->y_mm[i];
    }
    const runnel_ink_box box = box_of(fresh.points, count, thick_mm);
    keep(canvas, &fresh, &box, NULL);
}

void runnel_canvas_line(runnel_canvas *canvas, double x1_mm, double y1_mm, double x2_mm,
                        double y2_mm, double thick_mm) {
    const double x_mm[] = {x1_mm, x2_mm}, y_mm[] = {y1_mm, y2_mm};
    const size_t starts[] = {0, 2};
    runnel_canvas_polygons(canvas, &(runnel_canvas_shape){x_mm, y_mm, starts, 1, false, false}, -1,
                           thick_mm);
}

void runnel_canvas_box(runnel_canvas *canvas, const runnel_ink_box *box, double grey,
                       double thick_mm) {
    double right = box->x_mm + box->width_mm, low = box->y_mm + box->height_mm;
    const double x_mm[] = {box->x_mm, right, right, box->x_mm};
    const double y_mm[] = {box->y_mm, box->y_mm, low, low};
    const size_t starts[] = {0, 4};
    runnel_canvas_polygons(canvas, &(runnel_canvas_shape){x_mm, y_mm, starts, 1, false, true}, grey,
                           thick_mm);
}

/* ---- Onto a surface -------------------------------------------------------------------------- */

static void paint_polygons(cairo_t *pen, const mark *of) {
    lib.cairo_set_fill_rule(pen, of->even_odd ? CAIRO_FILL_RULE_EVEN_ODD : CAIRO_FILL_RULE_WINDING);
    for (size_t i = 0; i < of->count; i++) {
        lib.cairo_new_sub_path(pen);
        for (size_t k = of->starts[i]; k < of->starts[i + 1]; k++)
            lib.cairo_line_to(pen, of->points[2 * k] * point_per_mm,
                              of->points[2 * k + 1] * point_per_mm);
        if (of->closed)
            lib.cairo_close_path(pen);
    }
    if (of->grey >= 0) {
        lib.cairo_set_source_rgb(pen, of->grey, of->grey, of->grey);
        lib.cairo_fill_preserve(pen);
        lib.cairo_set_source_rgb(pen, 0, 0, 0);
    }
    if (of->thick_mm > 0) {
        lib.cairo_set_line_width(pen, of->thick_mm * point_per_mm);
        lib.cairo_stroke_preserve(pen);
    }
    lib.cairo_new_path(pen);
}

static void paint_mark(const runnel_canvas *canvas, cairo_t *pen, size_t index) {
    const mark *of = &canvas->marks[index];
    if (!canvas->inks[index].is_text) {
        paint_polygons(pen, of);
        return;
    }
    PangoLayout *layout = lay_mark(canvas, of, canvas->inks[index].text);
    lib.cairo_move_to(pen, of->x_mm * point_per_mm, of->y_mm * point_per_mm);
    lib.pango_cairo_show_layout(pen, layout);
    lib.g_object_unref(layout);
}

/* ---- Files ----------------------------------------------------------------------------------- */

static cairo_status_t put(void *out, const unsigned char *bytes, unsigned length) {
    return fwrite(bytes, 1, length, out) == length ? CAIRO_STATUS_SUCCESS
                                                   : CAIRO_STATUS_WRITE_ERROR;
}

static runnel_status status_of(cairo_status_t status) {
    return status == CAIRO_STATUS_SUCCESS       ? RUNNEL_OK
           : status == CAIRO_STATUS_WRITE_ERROR ? RUNNEL_E_IO
           : status == CAIRO_STATUS_NO_MEMORY   ? RUNNEL_E_NO_MEMORY
                                                : RUNNEL_E_NOT_COMPUTED;
}

/* A day that is not told is that of the beginning, as the library would put the present one. */
static void tell_pdf(cairo_surface_t *surface, const runnel_canvas *canvas, const char *title) {
    char day[RUNNEL_DATE_SIZE], stamp[RUNNEL_DATE_SIZE + 16];
    const runnel_date none = {1970, 1, 1};
    const runnel_date written = canvas->paper.written.month ? canvas->paper.written : none;
    snprintf(stamp, sizeof stamp, "%sT00:00:00Z", runnel_date_text(written, day, sizeof day));
    lib.cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, title);
    lib.cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "runnel");
    lib.cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, stamp);
}

static runnel_status write_pdf(const runnel_canvas *canvas, const size_t *order, const char *title,
                               FILE *out) {
    cairo_surface_t *surface = lib.cairo_pdf_surface_create_for_stream(
        put, out, canvas->width_mm * point_per_mm, canvas->height_mm * point_per_mm);
    tell_pdf(surface, canvas, title);
    cairo_t *pen = lib.cairo_create(surface);
    lib.cairo_set_source_rgb(pen, 0, 0, 0);
    for (size_t page = 0, at = 0; page < canvas->page_count; page++) {
        for (; at < canvas->mark_count && canvas->inks[order[at]].page == page; at++)
            paint_mark(canvas, pen, order[at]);
        lib.cairo_show_page(pen);
    }
    runnel_status status = status_of(lib.cairo_status(pen));
    lib.cairo_destroy(pen);
    lib.cairo_surface_finish(surface);
    if (!status)
        status = status_of(lib.cairo_surface_status(surface));
    lib.cairo_surface_destroy(surface);
    return status;
}

static runnel_status paint_all(const runnel_canvas *canvas, const size_t *order,
                               cairo_surface_t *surface, double scale) {
    cairo_t *pen = lib.cairo_create(surface);
    lib.cairo_scale(pen, scale, scale);
    lib.cairo_set_source_rgb(pen, 1, 1, 1);
    lib.cairo_paint(pen);
    lib.cairo_set_source_rgb(pen, 0, 0, 0);
    for (size_t at = 0; at < canvas->mark_count; at++) {
        lib.cairo_save(pen);
        lib.cairo_translate(
            pen, 0, (double)canvas->inks[order[at]].page * canvas->height_mm * point_per_mm);
        paint_mark(canvas, pen, order[at]);
        lib.cairo_restore(pen);
    }
    runnel_status status = status_of(lib.cairo_status(pen));
    lib.cairo_destroy(pen);
    return status;
}

/* The library numbers its surfaces from the beginning of the program on, and an SVG holds the
 * number of its own. Here each file begins anew. */
typedef struct bytes {
    char *items;
    size_t count, capacity;
} bytes;

static cairo_status_t gather(void *to, const unsigned char *from, unsigned length) {
    bytes *all = to;
    if (runnel_reserve(&all->items, &all->capacity, all->count + length + 1, 1))
        return CAIRO_STATUS_NO_MEMORY;
    memcpy(all->items + all->count, from, length);
    all->count += length;
    all->items[all->count] = '\0';
    return CAIRO_STATUS_SUCCESS;
}

static void renumber(bytes *all) {
    static const char word[] = "surface";
    if (!all->items)
        return;
    char *from = all->items, *to = from;
    for (char *next; (next = strstr(from, word)) != NULL;) {
        size_t length = (size_t)(next - from) + strlen(word);
        memmove(to, from, length);
        to += length;
        from += length;
        size_t digits = strspn(from, "0123456789");
        if (digits)
            *to++ = '1';
        from += digits;
    }
    while (*from)
        *to++ = *from++;
    *to = '\0';
    all->count = (size_t)(to - all->items);
}

/* @param all empty; freed by the caller */
static runnel_status make_svg(const runnel_canvas *canvas, const size_t *order, bytes *all) {
    cairo_surface_t *surface = lib.cairo_svg_surface_create_for_stream(
        gather, all, canvas->width_mm * point_per_mm,
        (double)canvas->page_count * canvas->height_mm * point_per_mm);
    runnel_status status = paint_all(canvas, order, surface, 1);
    lib.cairo_surface_finish(surface);
    if (!status)
        status = status_of(lib.cairo_surface_status(surface));
    lib.cairo_surface_destroy(surface);
    if (!status)
        renumber(all);
    return status;
}

static runnel_status write_svg(const runnel_canvas *canvas, const size_t *order, FILE *out) {
    bytes all = {NULL, 0, 0};
    runnel_status status = make_svg(canvas, order, &all);
    if (!status)
        fwrite(all.items, 1, all.count, out);
    runnel_free(all.items);
    return status;
}

static runnel_status write_png(const runnel_canvas *canvas, const size_t *order, FILE *out) {
    const double dots_per_mm = RUNNEL_PAPER_DPI / MM_PER_INCH;
    cairo_surface_t *surface = lib.cairo_image_surface_create(
        CAIRO_FORMAT_RGB24, (int)ceil(canvas->width_mm * dots_per_mm),
        (int)ceil((double)canvas->page_count * canvas->height_mm * dots_per_mm));
    runnel_status status = paint_all(canvas, order, surface, RUNNEL_PAPER_DPI / POINTS_PER_INCH);
    if (!status)
        status = status_of(lib.cairo_surface_write_to_png_stream(surface, put, out));
    lib.cairo_surface_destroy(surface);
    return status;
}

/* The marks page by page, each page in the order of drawing: places of `marks`, to be freed. */
static size_t *sort_marks(const runnel_canvas *canvas) {
    size_t *order = runnel_zeroed(canvas->mark_count + 1, sizeof *order);
    size_t *next = runnel_zeroed(canvas->page_count + 1, sizeof *next);
    if (!order || !next) {
        runnel_free(order);
        runnel_free(next);
        return NULL;
    }
    for (size_t i = 0; i < canvas->mark_count; i++)
        next[canvas->inks[i].page + 1]++;
    for (size_t page = 1; page <= canvas->page_count; page++)
        next[page] += next[page - 1];
    for (size_t i = 0; i < canvas->mark_count; i++)
        order[next[canvas->inks[i].page]++] = i;
    runnel_free(next);
    return order;
}

runnel_status runnel_canvas_write(runnel_canvas *canvas, const char *title, FILE *out) {
    const runnel_paper_kind kind = canvas->paper.kind;
    if (canvas->status)
        return canvas->status;
    if (!canvas->page_count)
        return RUNNEL_E_RANGE;
    if (kind != RUNNEL_PAPER_PDF && canvas->page_count > RUNNEL_PAPER_PAGES)
        return RUNNEL_E_PAGES;
    size_t *order = sort_marks(canvas);
    if (!order)
        return RUNNEL_E_NO_MEMORY;
    runnel_status status = kind == RUNNEL_PAPER_PDF   ? write_pdf(canvas, order, title, out)
                           : kind == RUNNEL_PAPER_SVG ? write_svg(canvas, order, out)
                                                      : write_png(canvas, order, out);
    runnel_free(order);
    return status ? status : fflush(out) || ferror(out) ? RUNNEL_E_IO : RUNNEL_OK;
}

runnel_status runnel_canvas_embed(runnel_canvas *canvas, FILE *out) {
    bytes all = {NULL, 0, 0};
    if (canvas->status)
        return canvas->status;
    size_t *order = sort_marks(canvas);
    runnel_status status = order ? make_svg(canvas, order, &all) : RUNNEL_E_NO_MEMORY;
    if (!status) {
        gchar *text = lib.g_base64_encode((const guchar *)all.items, all.count);
        fputs("data:image/svg+xml;base64,", out);
        fputs(text, out);
        lib.g_free(text);
    }
    runnel_free(order);
    runnel_free(all.items);
    return status;
}
