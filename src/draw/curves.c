/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/curves.h"

#include "base/memory.h"
#include "base/utf8.h"
#include "draw/leaf.h"
#include "runnel/units.h"

#include <math.h>

/* Rows of names of moments above the curves; that of times below; and those of scales beside. */
static const double line_mm = 3.4, names_mm = 11.5, times_mm = 8, scale_mm = 13;
static const double thick_mm = 0.55, dash_mm = 1.6;

double runnel_curves_height(double width_mm) {
    const double least_mm = 38, share = 0.32;
    return names_mm + fmax(least_mm, share * width_mm) + times_mm;
}

/* Curves in work: the box of the curves, and what its sides stand for. */
typedef struct plot {
    runnel_canvas *canvas;
    const runnel_heat_curve *curve;
    runnel_ink_box box;
    double end_s, low_degc, high_degc;
} plot;

static double x_of(const plot *p, double time_s) {
    return p->box.x_mm + p->box.width_mm * time_s / p->end_s;
}

static double y_of(const plot *p, double share) {
    return p->box.y_mm + p->box.height_mm * (1 - share);
}

static double share_of(const plot *p, double degc) {
    return (degc - p->low_degc) / (p->high_degc - p->low_degc);
}

/* ---- Scales ---------------------------------------------------------------------------------- */

/* A round step that parts a span into about so many. */
static double round_step(double span, double parts) {
    const double rough = span / parts, ten = pow(10, floor(log10(rough)));
    return rough <= ten ? ten : rough <= 2 * ten ? 2 * ten : rough <= 5 * ten ? 5 * ten : 10 * ten;
}

/* Steps of hours that clocks have. */
static double time_step(double span_s, double parts) {
    static const double steps_s[] = {60,    120,   300,   600,   1200,   1800,   3600,   7200,
                                     14400, 21600, 43200, 86400, 172800, 345600, 604800, 1209600};
    const size_t count = sizeof steps_s / sizeof *steps_s;
    for (size_t i = 0; i < count; i++)
        if (span_s / steps_s[i] <= parts)
            return steps_s[i];
    return 86400 * round_step(span_s / 86400, parts);
}

static void set_degrees(plot *p, const runnel_heating *heating) {
    double low = INFINITY, high = heating->of.limit_degc;
    for (size_t i = 0; i < p->curve->count; i++) {
        low = fmin(low, p->curve->points[i].degc);
        high = fmax(high, p->curve->points[i].degc);
    }
    double step = round_step(high - low, 5);
    p->low_degc = step * floor(low / step);
    p->high_degc = step * ceil(high / step);
}

static void text_right(const plot *p, double y_mm, const char *text) {
    runnel_canvas_text(p->canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_LEFT,
                       p->box.x_mm + p->box.width_mm + 1.5, y_mm - 0.5 * line_mm, 0, text);
}

static void text_left(const plot *p, double y_mm, const char *text) {
    runnel_canvas_text(p->canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_RIGHT, p->box.x_mm - scale_mm,
                       y_mm - 0.5 * line_mm, scale_mm - 1.5, text);
}

static void tick(const plot *p, double y_mm, bool left) {
    const double long_mm = 1;
    double at = left ? p->box.x_mm : p->box.x_mm + p->box.width_mm;
    runnel_canvas_line(p->canvas, at, y_mm, at + (left ? -long_mm : long_mm), y_mm,
                       RUNNEL_LEAF_HAIR);
}

static void draw_scales(const plot *p) {
    char text[80], digits[64];
    for (int i = 0; i <= 4; i++) {
        snprintf(text, sizeof text, "%d" RUNNEL_STICK "%%", 25 * i);
        tick(p, y_of(p, 0.25 * i), true);
        text_left(p, y_of(p, 0.25 * i), text);
    }
    double step = round_step(p->high_degc - p->low_degc, 5);
    for (double degc = p->low_degc; degc <= p->high_degc + 0.01 * step; degc += step) {
        snprintf(text, sizeof text, "%s" RUNNEL_STICK RUNNEL_DEGC,
                 runnel_number_text(degc, 0, digits, sizeof digits));
        tick(p, y_of(p, share_of(p, degc)), false);
        text_right(p, y_of(p, share_of(p, degc)), text);
    }
}

static void draw_times(const plot *p) {
    const double name_mm = 16, low_mm = p->box.y_mm + p->box.height_mm;
    double step_s = time_step(p->end_s, p->box.width_mm / name_mm);
    for (double at_s = 0; at_s <= p->end_s * (1 + 1e-9); at_s += step_s) {
        char text[80], digits[64];
        double x_mm = x_of(p, at_s);
        bool in_minutes = step_s < 3600, in_days = step_s >= 86400;
        snprintf(text, sizeof text, "%s" RUNNEL_STICK "%s",
                 runnel_number_text(at_s / (in_minutes ? 60
                                            : in_days  ? 86400
                                                       : 3600),
                                    0, digits, sizeof digits),
                 in_minutes ? "min"
                 : in_days  ? "days"
                            : "h");
        runnel_canvas_line(p->canvas, x_mm, low_mm, x_mm, low_mm + 1, RUNNEL_LEAF_HAIR);
        if (x_mm + 0.5 * name_mm <= p->box.x_mm + p->box.width_mm + scale_mm)
            runnel_canvas_text(p->canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_MIDDLE,
                               x_mm - 0.5 * name_mm, low_mm + 1.5, name_mm, text);
    }
}

/* ---- Curves ---------------------------------------------------------------------------------- */

typedef enum what { CONVERSION, WARMTH } what;

static void point_of(const plot *p, what of, size_t index, double *x_mm, double *y_mm) {
    const runnel_heat_point *point = &p->curve->points[index];
    *x_mm = x_of(p, point->time_s);
    *y_mm = y_of(p, of == CONVERSION ? point->conversion : share_of(p, point->degc));
}

static void draw_line(const plot *p, what of) {
    const size_t count = p->curve->count, starts[] = {0, count};
    double *x = runnel_zeroed(count, sizeof *x), *y = runnel_zeroed(count, sizeof *y);
    if (x && y) {
        for (size_t i = 0; i < count; i++)
            point_of(p, of, i, &x[i], &y[i]);
        runnel_canvas_polygons(p->canvas, &(runnel_canvas_shape){x, y, starts, 1, false, false}, -1,
                               thick_mm);
    } else {
        runnel_canvas_fail(p->canvas, RUNNEL_E_NO_MEMORY);
    }
    runnel_free(x);
    runnel_free(y);
}

/* Dashes of one length along the curve. */
static void draw_dashes(const plot *p, what of) {
    double gone_mm = 0, x0, y0;
    if (!p->curve->count)
        return;
    point_of(p, of, 0, &x0, &y0);
    for (size_t i = 1; i < p->curve->count; i++) {
        double x1, y1;
        point_of(p, of, i, &x1, &y1);
        double long_mm = hypot(x1 - x0, y1 - y0);
        for (double at = 0; at < long_mm;) {
            double phase = fmod(gone_mm + at, 2 * dash_mm);
            double left = (phase < dash_mm ? dash_mm : 2 * dash_mm) - phase + 1e-9;
            double next = fmin(long_mm, at + left);
            if (phase < dash_mm)
                runnel_canvas_line(p->canvas, x0 + (x1 - x0) * at / long_mm,
                                   y0 + (y1 - y0) * at / long_mm, x0 + (x1 - x0) * next / long_mm,
                                   y0 + (y1 - y0) * next / long_mm, thick_mm);
            at = next;
        }
        gone_mm += long_mm;
        x0 = x1;
        y0 = y1;
    }
}

/* ---- Moments --------------------------------------------------------------------------------- */

/* A moment and the row of its name, from the curves up. */
typedef struct moment {
    const char *name;
    double at_s;
    int row;
} moment;

enum { ROWS = 3, MOMENTS = 3 };

static bool is_shown(const plot *p, const moment *of) {
    return of->at_s >= 0 && of->at_s <= p->end_s;
}

static double name_from(const plot *p, const moment *of) {
    const double last_mm = p->box.x_mm + p->box.width_mm + scale_mm;
    return fmin(x_of(p, of->at_s) + 1,
                last_mm - runnel_canvas_text_width(p->canvas, RUNNEL_TYPE_SMALL, of->name));
}

/* A name stands above those of later moments that it would run into, so that no line goes through
 * it. */
static void set_row(const plot *p, moment *of, const moment *all) {
    const double end_mm =
        name_from(p, of) + runnel_canvas_text_width(p->canvas, RUNNEL_TYPE_SMALL, of->name) + 1.5;
    of->row = 0;
    for (int pass = 0; pass < MOMENTS; pass++)
        for (int i = 0; i < MOMENTS; i++) {
            const moment *other = &all[i];
            bool later = other->at_s > of->at_s || (other->at_s >= of->at_s && other > of);
            if (other == of || !later || !is_shown(p, other) || other->row < of->row)
                continue;
            if (end_mm > fmin(x_of(p, other->at_s), name_from(p, other)))
                of->row = other->row + 1;
        }
}

static void draw_moment(const plot *p, const moment *of) {
    const double x_mm = x_of(p, of->at_s);
    const double top_mm = p->box.y_mm - names_mm + 0.5 + line_mm * (ROWS - 1 - of->row);
    runnel_canvas_line(p->canvas, x_mm, top_mm + 0.5, x_mm, p->box.y_mm + p->box.height_mm,
                       RUNNEL_LEAF_HAIR);
    runnel_canvas_text(p->canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_LEFT, name_from(p, of), top_mm, 0,
                       of->name);
}

/* From the last to the first, as a row depends on later ones. */
static void draw_moments(const plot *p, moment *all) {
    bool done[MOMENTS] = {false};
    for (int round = 0; round < MOMENTS; round++) {
        int last = -1;
        for (int i = 0; i < MOMENTS; i++)
            if (!done[i] && (last < 0 || all[i].at_s >= all[last].at_s || isnan(all[last].at_s)))
                last = i;
        done[last] = true;
        if (!is_shown(p, &all[last]))
            continue;
        set_row(p, &all[last], all);
        draw_moment(p, &all[last]);
    }
}

/* The temperature that is not to be passed. */
static void draw_limit(const plot *p, double limit_degc) {
    double y_mm = y_of(p, share_of(p, limit_degc));
    if (limit_degc > p->low_degc && limit_degc <= p->high_degc)
        runnel_canvas_line(p->canvas, p->box.x_mm, y_mm, p->box.x_mm + p->box.width_mm, y_mm,
                           RUNNEL_LEAF_HAIR);
}

void runnel_curves_draw(runnel_canvas *canvas, const runnel_heating *heating,
                        const runnel_heating_curves *curves, bool layer,
                        const runnel_ink_box *room) {
    const runnel_heat_curve *curve = layer ? &curves->layer : &curves->cup;
    if (!curve->count)
        return;
    plot p = {.canvas = canvas,
              .curve = curve,
              .box = {room->x_mm + scale_mm, room->y_mm + names_mm,
                      room->width_mm - 2 * scale_mm - 3, room->height_mm - names_mm - times_mm},
              .end_s = curve->points[curve->count - 1].time_s};
    moment of_cup[MOMENTS] = {{"cup empty", heating->of.until_s, 0},
                              {"pot life", curves->pot_life_s, 0},
                              {"gels", heating->cup.gel_s, 0}};
    moment of_layer[MOMENTS] = {{"gels in this layer", heating->layer.gel_s, 0},
                                {"gel by the sheet", curves->gel_s, 0},
                                {"sandable", curves->sandable_s, 0}};
    moment *moments = layer ? of_layer : of_cup;
    set_degrees(&p, heating);
    runnel_canvas_box(canvas, &p.box, -1, RUNNEL_LEAF_HAIR);
    draw_scales(&p);
    draw_times(&p);
    draw_limit(&p, heating->of.limit_degc);
    draw_line(&p, CONVERSION);
    draw_dashes(&p, WARMTH);
    draw_moments(&p, moments);
}
