/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/section.h"

#include "draw/leaf.h"
#include "draw/view.h"
#include "runnel/units.h"

#include <math.h>

/* Greys of the wood, of layers in turn and of the crown. */
static const double wood_grey = 0.86, layer_greys[] = {0.35, 0.5}, crown_grey = 0.65;
/* Columns of the labels behind a section, between two of them, and below this width one stands
 * below the other. */
static const double labels_mm = 36, apart_mm = 4, one_below_mm = 140;
static const double line_mm = 3.4, head_mm = 5, bars_mm = 8;
/* Wood that is shown beside and below the stroke, as shares of its depth. */
static const double beside_share = 0.6, below_share = 0.35;
/* A section is that high, and a wider one than so many times its depth is cut off. */
static const double drawn_mm = 34, widest_share = 4;

runnel_section_of runnel_section_of_job(const runnel_job *job, const runnel_plan *plan,
                                        const runnel_look *look, size_t cavity) {
    double take_off_mm = job->level.take_off_mm;
    return (runnel_section_of){.cavity = &look->cavities[cavity],
                               .planned = &plan->cavities[cavity],
                               .crown_mm = job->crown_mm,
                               .margin_mm = job->crown_mm > 0 ? job->margin_mm : 0,
                               .take_off_mm =
                                   take_off_mm < 0 ? RUNNEL_DEFAULT_TAKE_OFF_MM : take_off_mm};
}

/* ---- The stroke ------------------------------------------------------------------------------ */

/* Where it begins and ends at a depth, between the levels. @return false below the deepest */
static bool walls_at(const runnel_look_cavity *cavity, double depth_mm, double *from_mm,
                     double *to_mm) {
    const runnel_look_level *above = NULL;
    for (size_t i = 0; i < cavity->level_count; i++) {
        const runnel_look_level *level = &cavity->levels[i];
        if (isnan(level->from_mm))
            break;
        if (level->depth_mm >= depth_mm) {
            double span_mm = above ? level->depth_mm - above->depth_mm : 0;
            double share = span_mm > 0 ? (depth_mm - above->depth_mm) / span_mm : 1;
            *from_mm =
                above ? above->from_mm + share * (level->from_mm - above->from_mm) : level->from_mm;
            *to_mm = above ? above->to_mm + share * (level->to_mm - above->to_mm) : level->to_mm;
            return true;
        }
        above = level;
    }
    if (above) { /* by less than shows below the last level */
        *from_mm = above->from_mm;
        *to_mm = above->to_mm;
    }
    return false;
}

/* How wide it is at a depth; 0 below its deepest place. */
static double width_at(const runnel_look_cavity *cavity, double depth_mm) {
    double from_mm, to_mm;
    return walls_at(cavity, depth_mm, &from_mm, &to_mm) ? to_mm - from_mm : 0;
}

/* ---- On paper -------------------------------------------------------------------------------- */

/* One of the two sections. */
typedef struct panel {
    runnel_canvas *canvas;
    const runnel_section_of *of;
    bool levelled;
    double from_mm, to_mm;     /* what is shown across, of the section */
    bool goes_on;              /* the stroke goes on to the left of what is shown */
    double face_mm, bottom_mm; /* the face, and the lower end of what is shown */
    double scale, left_mm, face_y_mm;
} panel;

static double x_of(const panel *p, double along_mm) {
    return p->left_mm + (along_mm - p->from_mm) * p->scale;
}

static double y_of(const panel *p, double depth_mm) {
    return p->face_y_mm + depth_mm * p->scale;
}

static void block(const panel *p, double from_mm, double to_mm, double top_mm, double bottom_mm,
                  double grey, double thick_mm) {
    runnel_canvas_box(p->canvas,
                      &(runnel_ink_box){x_of(p, from_mm), y_of(p, top_mm),
                                        (to_mm - from_mm) * p->scale,
                                        (bottom_mm - top_mm) * p->scale},
                      grey, thick_mm);
}

/* Resin from a depth to another one below it, as wide as the stroke is there. */
static void draw_resin(const panel *p, double top_mm, double bottom_mm, double grey) {
    enum { MOST = RUNNEL_LOOK_LEVELS + 2 };
    const runnel_look_cavity *cavity = p->of->cavity;
    double depths[MOST], x[2 * MOST], y[2 * MOST];
    size_t count = 0;
    depths[count++] = top_mm;
    for (size_t i = 0; i < cavity->level_count; i++)
        if (cavity->levels[i].depth_mm > top_mm && cavity->levels[i].depth_mm < bottom_mm)
            depths[count++] = cavity->levels[i].depth_mm;
    depths[count++] = bottom_mm;
    for (size_t i = 0; i < count; i++) {
        double from_mm = 0, to_mm = 0;
        walls_at(cavity, depths[i], &from_mm, &to_mm);
        x[i] = x_of(p, fmax(from_mm, p->from_mm));
        x[2 * count - 1 - i] = x_of(p, fmin(to_mm, p->to_mm));
        y[i] = y[2 * count - 1 - i] = y_of(p, depths[i]);
    }
    const size_t starts[] = {0, 2 * count};
    runnel_canvas_polygons(p->canvas, &(runnel_canvas_shape){x, y, starts, 1, false, true}, grey,
                           RUNNEL_LEAF_HAIR);
}

static size_t layers_of(const panel *p) {
    return p->of->planned->layers.count ? p->of->planned->layers.count : 1;
}

static void bounds_of(const panel *p, size_t layer, double *top_mm, double *bottom_mm) {
    const runnel_layers *layers = &p->of->planned->layers;
    *top_mm = fmax(layers->count ? layers->items[layer].top_mm : 0, p->face_mm);
    *bottom_mm =
        layers->count ? layers->items[layer].bottom_mm : p->of->planned->figures.deepest_mm;
}

static void draw_stroke(const panel *p) {
    for (size_t i = 0; i < layers_of(p); i++) {
        double top_mm, bottom_mm;
        bounds_of(p, i, &top_mm, &bottom_mm);
        if (bottom_mm > top_mm)
            draw_resin(p, top_mm, bottom_mm, layer_greys[i % 2]);
    }
    if (!p->levelled && p->of->crown_mm > 0) {
        double from_mm = 0, to_mm = 0;
        walls_at(p->of->cavity, 0, &from_mm, &to_mm);
        block(p, fmax(from_mm - p->of->margin_mm, p->from_mm), to_mm + p->of->margin_mm,
              -p->of->crown_mm, 0, crown_grey, RUNNEL_LEAF_HAIR);
    }
}

/* ---- Labels ---------------------------------------------------------------------------------- */

/* Labels stand below one another, none higher than what it tells of. */
typedef struct label_column {
    double x_mm, next_y_mm, width_mm, line_from_mm;
} label_column;

static void label(const panel *p, label_column *column, double depth_mm, const char *text) {
    double at_mm = y_of(p, depth_mm);
    double high_mm =
        runnel_canvas_text_height(p->canvas, RUNNEL_TYPE_SMALL, column->width_mm, text);
    double y_mm = fmax(column->next_y_mm, at_mm - 0.5 * line_mm);
    runnel_canvas_line(p->canvas, column->line_from_mm, at_mm, column->x_mm - 1,
                       y_mm + 0.5 * line_mm, RUNNEL_LEAF_HAIR);
    runnel_canvas_text(p->canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_LEFT, column->x_mm, y_mm,
                       column->width_mm, text);
    column->next_y_mm = y_mm + high_mm + 0.3;
}

static void label_layers(const panel *p, label_column *column) {
    enum { EACH_UP_TO = 4 };
    const size_t count = layers_of(p);
    char text[120], digits[64];
    for (size_t i = count; i-- > 0;) {
        double top_mm, bottom_mm;
        bounds_of(p, i, &top_mm, &bottom_mm);
        if (count > EACH_UP_TO && i + 1 < count)
            break;
        double pour_mm = count > 1 ? p->of->planned->layers.items[i].pour_mm : bottom_mm - top_mm;
        runnel_number_text(pour_mm, 2, digits, sizeof digits);
        if (count == 1)
            continue;
        if (count > EACH_UP_TO)
            snprintf(text, sizeof text, "%zu layers, %s" RUNNEL_STICK "mm each", count, digits);
        else
            snprintf(text, sizeof text, "layer %zu, %s" RUNNEL_STICK "mm", i + 1, digits);
        label(p, column, 0.5 * (top_mm + bottom_mm), text);
    }
}

static void draw_labels(const panel *p, double x_mm, double width_mm, double top_mm) {
    label_column column = {.x_mm = x_mm + 3,
                           .next_y_mm = top_mm,
                           .width_mm = width_mm - 3,
                           .line_from_mm = x_of(p, p->to_mm)};
    const runnel_cavity *figures = &p->of->planned->figures;
    char text[120], digits[64];
    double wide_mm = width_at(p->of->cavity, p->face_mm);
    runnel_number_text(p->of->crown_mm, 2, digits, sizeof digits);
    snprintf(text, sizeof text, "crown, %s" RUNNEL_STICK "mm", digits);
    if (!p->levelled && p->of->crown_mm > 0)
        label(p, &column, -0.5 * p->of->crown_mm, text);
    runnel_number_text(p->face_mm, 2, digits, sizeof digits);
    snprintf(text, sizeof text, "%s" RUNNEL_STICK "mm of wood off", digits);
    if (p->levelled && p->face_mm > 0)
        label(p, &column, 0, text);
    runnel_number_text(wide_mm, 2, digits, sizeof digits);
    if (wide_mm > 0)
        snprintf(text, sizeof text, "%s" RUNNEL_STICK "mm wide", digits);
    else
        snprintf(text, sizeof text, "nothing left");
    label(p, &column, p->face_mm, text);
    if (!p->levelled)
        label_layers(p, &column);
    runnel_number_text(fmax(figures->deepest_mm - p->face_mm, 0), 2, digits, sizeof digits);
    snprintf(text, sizeof text, "floor, %s" RUNNEL_STICK "mm below the face", digits);
    label(p, &column, figures->deepest_mm, text);
}

/* ---- Both ------------------------------------------------------------------------------------ */

/* Sets what is shown across: all of it, or where the near wall is. */
static void set_window(panel *p) {
    const double deepest_mm = p->of->planned->figures.deepest_mm;
    double from_mm = 0, to_mm = 0,
           beside_mm = fmax(beside_share * deepest_mm, 2 * p->of->margin_mm);
    walls_at(p->of->cavity, 0, &from_mm, &to_mm);
    p->goes_on = to_mm - from_mm > widest_share * deepest_mm + 2 * p->of->margin_mm;
    p->from_mm =
        p->goes_on ? to_mm - widest_share * deepest_mm - 2 * p->of->margin_mm : from_mm - beside_mm;
    p->to_mm = to_mm + beside_mm;
    p->bottom_mm = (1 + below_share) * deepest_mm;
}

/* The scale that both have, on so much paper. */
static double scale_of(const panel *p, double width_mm) {
    double high_mm = p->bottom_mm + p->of->crown_mm;
    return fmin(width_mm / (p->to_mm - p->from_mm), drawn_mm / high_mm);
}

static double panel_width(double width_mm) {
    return width_mm < one_below_mm ? width_mm : (width_mm - apart_mm) / 2;
}

static panel panel_of(const runnel_section_of *of, double width_mm) {
    panel p = {.of = of};
    set_window(&p);
    p.scale = scale_of(&p, panel_width(width_mm) - labels_mm);
    return p;
}

static double panel_height(const panel *p) {
    enum { LABELS = 6 };
    double drawn = (p->bottom_mm + p->of->crown_mm) * p->scale;
    return head_mm + fmax(drawn, LABELS * (line_mm + 0.3)) + 1;
}

double runnel_section_height(const runnel_section_of *of, double width_mm) {
    const panel p = panel_of(of, width_mm);
    return panel_height(&p) * (width_mm < one_below_mm ? 2 : 1) + bars_mm;
}

static void draw_panel(panel *p, const runnel_ink_box *room) {
    const double deepest_mm = p->of->planned->figures.deepest_mm;
    p->left_mm = room->x_mm + 0.5 * RUNNEL_LEAF_HAIR;
    p->face_y_mm = room->y_mm + head_mm + p->of->crown_mm * p->scale;
    p->face_mm = p->levelled ? fmin(p->of->take_off_mm, deepest_mm) : 0;
    runnel_canvas_text(p->canvas, RUNNEL_TYPE_STRONG, RUNNEL_SIDE_LEFT, room->x_mm, room->y_mm, 0,
                       p->levelled ? "Levelled and sanded" : "Poured");
    block(p, p->from_mm, p->to_mm, p->face_mm, p->bottom_mm, wood_grey, 0);
    draw_stroke(p);
    runnel_canvas_line(p->canvas, x_of(p, p->from_mm), y_of(p, p->face_mm), x_of(p, p->to_mm),
                       y_of(p, p->face_mm), RUNNEL_LEAF_HAIR);
    double shown_mm = (p->to_mm - p->from_mm) * p->scale;
    draw_labels(p, room->x_mm + shown_mm, fmin(room->width_mm - shown_mm, labels_mm + 8),
                room->y_mm + head_mm);
}

void runnel_section_draw(runnel_canvas *canvas, const runnel_section_of *of,
                         const runnel_ink_box *room) {
    panel p = panel_of(of, room->width_mm);
    const double width_mm = panel_width(room->width_mm), high_mm = panel_height(&p);
    const bool below = room->width_mm < one_below_mm;
    p.canvas = canvas;
    draw_panel(&p, &(runnel_ink_box){room->x_mm, room->y_mm, width_mm, high_mm});
    p.levelled = true;
    draw_panel(&p, &(runnel_ink_box){room->x_mm + (below ? 0 : width_mm + apart_mm),
                                     room->y_mm + (below ? high_mm : 0), width_mm, high_mm});
    double y_mm = room->y_mm + (below ? 2 : 1) * high_mm;
    double bars = 0.45 * room->width_mm;
    runnel_view_scale_bars(canvas, room->x_mm, y_mm, bars, p.scale);
    if (p.goes_on)
        runnel_canvas_text(canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_RIGHT, room->x_mm + bars, y_mm,
                           room->width_mm - bars, "it goes on to the left");
}
