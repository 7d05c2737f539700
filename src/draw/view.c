/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/view.h"

#include "base/memory.h"
#include "draw/leaf.h"
#include "runnel/units.h"

#include <math.h>
#include <string.h>

/* Greys of the face and of the deepest place. */
static const double face_grey = 0.88, deep_grey = 0.08;
/* Points nearer to each other than this on paper are one. */
static const double same_mm = 0.03;
static const double hair_mm = 0.15;
/* Edges of levels nearer to each other than this are one line. */
static const double one_line_mm = 0.15;
/* A line of small type, and the rows below a plan: bars and greys, and the key of the marks. */
static const double line_mm = 3.4, bars_mm = 8.5, key_mm = 5, gap_mm = 2;
/* A plan is no higher. */
static const double highest_mm = 95;

/* ---- Fitting --------------------------------------------------------------------------------- */

/* Nothing is enlarged more than that. */
static const double largest_times = 4;

/* How a part of the plan, mm, is put on paper. */
typedef struct view {
    double left_mm, top_mm;    /* of the page: where the box begins */
    double min_x_mm, max_y_mm; /* of the box's upper left */
    double scale;              /* mm of paper a mm */
} view;

static double width_of(const runnel_box *box) {
    return box->max_x_mm - box->min_x_mm;
}

static double height_of(const runnel_box *box) {
    return box->max_y_mm - box->min_y_mm;
}

static bool is_empty(const runnel_box *box) {
    return !(width_of(box) > 0) || !(height_of(box) > 0);
}

/* Fits a box into a room, in its middle. */
static view fit(const runnel_box *box, const runnel_ink_box *room) {
    double scale =
        fmin(fmin(room->width_mm / width_of(box), room->height_mm / height_of(box)), largest_times);
    return (view){.left_mm = room->x_mm + 0.5 * (room->width_mm - scale * width_of(box)),
                  .top_mm = room->y_mm + 0.5 * (room->height_mm - scale * height_of(box)),
                  .min_x_mm = box->min_x_mm,
                  .max_y_mm = box->max_y_mm,
                  .scale = scale};
}

static double x_on(const view *on, double x_mm) {
    return on->left_mm + (x_mm - on->min_x_mm) * on->scale;
}

static double y_on(const view *on, double y_mm) {
    return on->top_mm + (on->max_y_mm - y_mm) * on->scale;
}

/* ---- Regions --------------------------------------------------------------------------------- */

/* Contours on paper. */
typedef struct outline {
    double *x_mm, *y_mm;
    size_t *starts, count, points;
} outline;

static void add_ring(outline *to, const view *on, const runnel_point *points, size_t count) {
    const size_t first = to->points;
    for (size_t i = 0; i < count; i++) {
        double x = x_on(on, points[i].x_mm), y = y_on(on, points[i].y_mm);
        const size_t last = to->points - 1;
        if (to->points > first && hypot(x - to->x_mm[last], y - to->y_mm[last]) < same_mm)
            continue;
        to->x_mm[to->points] = x;
        to->y_mm[to->points++] = y;
    }
    if (to->points - first < 3)
        to->points = first;
    else
        to->starts[++to->count] = to->points;
}

/* A region, filled in a grey; with a thickness above 0 its edge as well. */
static void draw_region(runnel_canvas *canvas, const view *on, const runnel_contours *region,
                        double grey, double thick_mm) {
    outline all = {.x_mm = runnel_zeroed(region->point_count + 1, sizeof *all.x_mm),
                   .y_mm = runnel_zeroed(region->point_count + 1, sizeof *all.y_mm),
                   .starts = runnel_zeroed(region->count + 1, sizeof *all.starts)};
    if (!all.x_mm || !all.y_mm || !all.starts) {
        runnel_canvas_fail(canvas, RUNNEL_E_NO_MEMORY);
    } else {
        for (size_t i = 0; i < region->count; i++)
            add_ring(&all, on, region->points + region->items[i].first, region->items[i].count);
        runnel_canvas_polygons(
            canvas, &(runnel_canvas_shape){all.x_mm, all.y_mm, all.starts, all.count, false, true},
            grey, thick_mm);
    }
    runnel_free(all.x_mm);
    runnel_free(all.y_mm);
    runnel_free(all.starts);
}

/* The piece itself; where its size is not told, nothing. */
static void draw_edge(runnel_canvas *canvas, const view *on, const runnel_look_piece *piece) {
    if (piece->length_mm > 0)
        runnel_canvas_box(canvas,
                          &(runnel_ink_box){x_on(on, 0), y_on(on, piece->width_mm),
                                            piece->length_mm * on->scale,
                                            piece->width_mm * on->scale},
                          1, RUNNEL_LEAF_HAIR);
}

/* ---- Scale ----------------------------------------------------------------------------------- */

typedef struct round_length {
    double length_mm;
    const char *text;
} round_length;

#define INCH 25.4 /* exact */

static const round_length metric[] = {
    {1, "1" RUNNEL_STICK "mm"},     {2, "2" RUNNEL_STICK "mm"},     {5, "5" RUNNEL_STICK "mm"},
    {10, "10" RUNNEL_STICK "mm"},   {20, "20" RUNNEL_STICK "mm"},   {50, "50" RUNNEL_STICK "mm"},
    {100, "100" RUNNEL_STICK "mm"}, {200, "200" RUNNEL_STICK "mm"}, {500, "500" RUNNEL_STICK "mm"},
    {1000, "1" RUNNEL_STICK "m"},   {2000, "2" RUNNEL_STICK "m"},   {5000, "5" RUNNEL_STICK "m"}};
static const round_length imperial[] = {
    {INCH / 16, "1/16" RUNNEL_STICK "in"}, {INCH / 8, "1/8" RUNNEL_STICK "in"},
    {INCH / 4, "1/4" RUNNEL_STICK "in"},   {INCH / 2, "1/2" RUNNEL_STICK "in"},
    {INCH, "1" RUNNEL_STICK "in"},         {2 * INCH, "2" RUNNEL_STICK "in"},
    {4 * INCH, "4" RUNNEL_STICK "in"},     {12 * INCH, "12" RUNNEL_STICK "in"},
    {24 * INCH, "24" RUNNEL_STICK "in"},   {48 * INCH, "48" RUNNEL_STICK "in"},
    {96 * INCH, "96" RUNNEL_STICK "in"}};

static void draw_bar(runnel_canvas *canvas, double x_mm, double y_mm, double width_mm, double scale,
                     const round_length *lengths, size_t count) {
    const double tick_mm = 1;
    size_t best = 0;
    for (size_t i = 1; i < count; i++)
        if (lengths[i].length_mm * scale <= width_mm)
            best = i;
    double end_mm = x_mm + lengths[best].length_mm * scale, middle_mm = y_mm + 0.5 * line_mm;
    runnel_canvas_line(canvas, x_mm, middle_mm, end_mm, middle_mm, RUNNEL_LEAF_RULE);
    runnel_canvas_line(canvas, x_mm, middle_mm - tick_mm, x_mm, middle_mm + tick_mm,
                       RUNNEL_LEAF_HAIR);
    runnel_canvas_line(canvas, end_mm, middle_mm - tick_mm, end_mm, middle_mm + tick_mm,
                       RUNNEL_LEAF_HAIR);
    runnel_canvas_text(canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_LEFT, end_mm + 1.5, y_mm, 0,
                       lengths[best].text);
}

double runnel_view_scale_bars(runnel_canvas *canvas, double x_mm, double y_mm, double width_mm,
                              double scale) {
    const double label_mm = 14, half_mm = 0.5 * RUNNEL_LEAF_HAIR;
    double bar_mm = width_mm - label_mm;
    draw_bar(canvas, x_mm + half_mm, y_mm, bar_mm, scale, metric, sizeof metric / sizeof *metric);
    draw_bar(canvas, x_mm + half_mm, y_mm + line_mm + 0.4, bar_mm, scale, imperial,
             sizeof imperial / sizeof *imperial);
    return 2 * line_mm + 0.4;
}

/* ---- Depth ----------------------------------------------------------------------------------- */

static double grey_of(double depth_mm, double deepest_mm) {
    return deepest_mm > 0 ? face_grey + (deep_grey - face_grey) * depth_mm / deepest_mm : face_grey;
}

/* The deepest of a piece, of cavities that are drawn. */
static double deepest_of(const runnel_look *look, const runnel_plan *plan, size_t piece) {
    const runnel_look_piece *of = &look->pieces[piece];
    double deepest_mm = 0;
    for (size_t i = of->first; i < of->first + of->count; i++)
        if (look->cavities[i].is_known)
            deepest_mm = fmax(deepest_mm, plan->cavities[i].figures.deepest_mm);
    return deepest_mm;
}

/* Greys side by side, with the depths at both ends. */
static void draw_greys(runnel_canvas *canvas, double deepest_mm, const runnel_ink_box *room) {
    enum { STEPS = 8 };
    const double high_mm = 3, step_mm = room->width_mm / STEPS;
    char text[80], digits[64];
    for (int i = 0; i < STEPS; i++)
        runnel_canvas_box(canvas,
                          &(runnel_ink_box){room->x_mm + i * step_mm, room->y_mm, step_mm, high_mm},
                          grey_of(deepest_mm * (i + 0.5) / STEPS, deepest_mm), 0);
    runnel_canvas_box(canvas, &(runnel_ink_box){room->x_mm, room->y_mm, room->width_mm, high_mm},
                      -1, RUNNEL_LEAF_HAIR);
    snprintf(text, sizeof text, "%s" RUNNEL_STICK "mm deep",
             runnel_number_text(deepest_mm, 2, digits, sizeof digits));
    double y_mm = room->y_mm + high_mm + 0.5;
    runnel_canvas_text(canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_LEFT, room->x_mm, y_mm, 0, "face");
    runnel_canvas_text(canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_RIGHT, room->x_mm, y_mm,
                       room->width_mm, text);
}

/* ---- Marks ----------------------------------------------------------------------------------- */

typedef enum mark_kind { MARK_DEEPEST, MARK_NARROWEST } mark_kind;

/* A ring with a dot, or a diamond: black on white, so that both are seen on any grey. */
static void draw_mark(runnel_canvas *canvas, mark_kind kind, double x_mm, double y_mm) {
    enum { CORNERS = 16 };
    const double pi = 3.14159265358979323846, r_mm = 1.1;
    double x[CORNERS], y[CORNERS];
    const size_t corners = kind == MARK_DEEPEST ? CORNERS : 4, starts[] = {0, corners};
    for (size_t i = 0; i < corners; i++) {
        x[i] = x_mm + r_mm * cos(2 * pi * (double)i / (double)corners);
        y[i] = y_mm + r_mm * sin(2 * pi * (double)i / (double)corners);
    }
    runnel_canvas_polygons(canvas, &(runnel_canvas_shape){x, y, starts, 1, false, true}, 1,
                           RUNNEL_LEAF_HAIR);
    if (kind == MARK_DEEPEST)
        runnel_canvas_box(canvas, &(runnel_ink_box){x_mm - 0.4, y_mm - 0.4, 0.8, 0.8}, 0, 0);
}

/* Numbers beside marks: where those are that were drawn. */
enum { LABELS_MOST = 64 };
typedef struct labels {
    runnel_ink_box boxes[LABELS_MOST];
    size_t count;
    runnel_ink_box room;
} labels;

static bool are_apart(const runnel_ink_box *a, const runnel_ink_box *b) {
    return a->x_mm + a->width_mm <= b->x_mm || b->x_mm + b->width_mm <= a->x_mm ||
           a->y_mm + a->height_mm <= b->y_mm || b->y_mm + b->height_mm <= a->y_mm;
}

static bool is_free(const labels *all, const runnel_ink_box *box) {
    bool inside = box->x_mm >= all->room.x_mm && box->y_mm >= all->room.y_mm &&
                  box->x_mm + box->width_mm <= all->room.x_mm + all->room.width_mm &&
                  box->y_mm + box->height_mm <= all->room.y_mm + all->room.height_mm;
    for (size_t i = 0; i < all->count && inside; i++)
        inside = are_apart(box, &all->boxes[i]);
    return inside;
}

static void take(labels *all, const runnel_ink_box *box) {
    if (all->count < LABELS_MOST)
        all->boxes[all->count++] = *box;
}

/* A number on white beside a mark, where there is room for it; else none. */
static void draw_label(runnel_canvas *canvas, labels *all, size_t number, double x_mm,
                       double y_mm) {
    static const double ways[][2] = {{1, -1},  {-1, -1},  {1, 1},      {-1, 1},
                                     {1.8, 0}, {-1.8, 0}, {2.2, -2.2}, {-2.2, 2.2}};
    char text[24];
    snprintf(text, sizeof text, "%zu", number);
    const double wide_mm = runnel_canvas_text_width(canvas, RUNNEL_TYPE_SMALL, text) + 0.8;
    const double away_mm = 2.6;
    for (size_t i = 0; i < sizeof ways / sizeof *ways && all->count < LABELS_MOST; i++) {
        const runnel_ink_box box = {x_mm + ways[i][0] * away_mm - 0.5 * wide_mm,
                                    y_mm + ways[i][1] * away_mm - 0.5 * line_mm, wide_mm, line_mm};
        if (!is_free(all, &box))
            continue;
        take(all, &box);
        runnel_canvas_box(canvas, &box, 1, 0);
        runnel_canvas_text(canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_MIDDLE, box.x_mm, box.y_mm + 0.15,
                           box.width_mm, text);
        return;
    }
}

/* Where the marks of a cavity go on paper. Where all is as deep, that of the deepest place keeps
 * away from the other one, along the stroke. */
static void places_of(const runnel_look_cavity *cavity, const view *on, double *x, double *y) {
    const double apart_mm = 3.2;
    const runnel_point deepest = cavity->is_even ? cavity->section_at : cavity->deepest_at;
    x[MARK_DEEPEST] = x_on(on, deepest.x_mm);
    y[MARK_DEEPEST] = y_on(on, deepest.y_mm);
    x[MARK_NARROWEST] = x_on(on, cavity->narrowest_at.x_mm);
    y[MARK_NARROWEST] = y_on(on, cavity->narrowest_at.y_mm);
    if (cavity->is_even && hypot(x[0] - x[1], y[0] - y[1]) < apart_mm) {
        x[MARK_DEEPEST] = x[MARK_NARROWEST] - apart_mm * cavity->along.y_mm;
        y[MARK_DEEPEST] = y[MARK_NARROWEST] - apart_mm * cavity->along.x_mm;
    }
}

static void draw_marks(runnel_canvas *canvas, const runnel_look *look, const view *on,
                       const runnel_look_piece *piece, const runnel_ink_box *room) {
    labels all = {.room = *room};
    for (int pass = 0; pass < 2; pass++) /* numbers keep clear of all marks */
        for (size_t i = 0; i < piece->count; i++) {
            const runnel_look_cavity *cavity = &look->cavities[piece->first + i];
            double x[2], y[2];
            places_of(cavity, on, x, y);
            for (int k = 0; k < 2 && cavity->is_known; k++) {
                if (pass)
                    draw_label(canvas, &all, i + 1, x[k], y[k]);
                else
                    draw_mark(canvas, k ? MARK_NARROWEST : MARK_DEEPEST, x[k], y[k]);
                if (!pass)
                    take(&all, &(runnel_ink_box){x[k] - 1.2, y[k] - 1.2, 2.4, 2.4});
            }
        }
}

static void draw_key(runnel_canvas *canvas, double x_mm, double y_mm) {
    static const char *const words[] = {"deepest place", "narrowest stroke"};
    x_mm += 1.3;
    for (int k = 0; k < 2; k++) {
        draw_mark(canvas, k ? MARK_NARROWEST : MARK_DEEPEST, x_mm, y_mm + 0.5 * line_mm);
        runnel_canvas_text(canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_LEFT, x_mm + 2.2, y_mm, 0,
                           words[k]);
        x_mm += 2.2 + runnel_canvas_text_width(canvas, RUNNEL_TYPE_SMALL, words[k]) + 5;
    }
}

/* ---- The plan of a piece --------------------------------------------------------------------- */

/* Around the piece there is room for marks and numbers at its edge. */
static const double rim_mm = 3;

double runnel_view_plan_height(const runnel_look_piece *piece, double width_mm) {
    if (is_empty(&piece->box))
        return 0;
    double scale = fmin((width_mm - 2 * rim_mm) / width_of(&piece->box), largest_times);
    return fmin(scale * height_of(&piece->box), highest_mm) + 2 * rim_mm + gap_mm + bars_mm +
           key_mm;
}

/* The levels of a cavity, but for those whose edges cannot be told from the one before on paper. */
static void draw_cavity(runnel_canvas *canvas, const view *on, const runnel_look_cavity *cavity,
                        double deepest_mm) {
    double drawn_mm = -INFINITY; /* inset of the last one */
    for (size_t k = 0; k < cavity->level_count; k++) {
        const runnel_look_level *level = &cavity->levels[k];
        bool is_last = k + 1 == cavity->level_count;
        if (!is_last && (level->inset_mm - drawn_mm) * on->scale < one_line_mm)
            continue;
        drawn_mm = level->inset_mm;
        draw_region(canvas, on, &level->region, grey_of(level->depth_mm, deepest_mm),
                    k ? 0 : hair_mm);
    }
}

void runnel_view_plan(runnel_canvas *canvas, const runnel_look *look, const runnel_plan *plan,
                      size_t piece, const runnel_ink_box *room) {
    const runnel_look_piece *of = &look->pieces[piece];
    const double low_mm = gap_mm + bars_mm + key_mm;
    if (is_empty(&of->box))
        return;
    const runnel_ink_box upper = {room->x_mm, room->y_mm, room->width_mm, room->height_mm - low_mm};
    const runnel_ink_box inner = {upper.x_mm + rim_mm, upper.y_mm + rim_mm,
                                  upper.width_mm - 2 * rim_mm, upper.height_mm - 2 * rim_mm};
    const view on = fit(&of->box, &inner);
    const double deepest_mm = deepest_of(look, plan, piece);
    draw_edge(canvas, &on, of);
    for (size_t i = of->first; i < of->first + of->count; i++)
        draw_cavity(canvas, &on, &look->cavities[i], deepest_mm);
    draw_marks(canvas, look, &on, of, &upper);
    double y_mm = room->y_mm + room->height_mm - low_mm + gap_mm;
    double greys_mm = fmin(0.4 * room->width_mm, 60);
    runnel_view_scale_bars(canvas, room->x_mm, y_mm, 0.5 * room->width_mm, on.scale);
    draw_greys(canvas, deepest_mm,
               &(runnel_ink_box){room->x_mm + room->width_mm - greys_mm - 0.5 * RUNNEL_LEAF_HAIR,
                                 y_mm, greys_mm, bars_mm});
    draw_key(canvas, room->x_mm, y_mm + bars_mm);
}

/* ---- One colour ------------------------------------------------------------------------------ */

/* Pieces in a row, and how high they are; of more than so many only the first ones are drawn. */
enum { COLOUR_COLUMNS = 3, COLOUR_MOST = 6 };

static bool has_colour(const runnel_look *look, const runnel_plan *plan, size_t piece,
                       const char *colour) {
    const runnel_look_piece *of = &look->pieces[piece];
    for (size_t i = of->first; i < of->first + of->count; i++)
        if (look->cavities[i].is_known && !strcmp(plan->cavities[i].colour, colour))
            return true;
    return false;
}

static size_t pieces_of(const runnel_look *look, const runnel_plan *plan, const char *colour,
                        size_t *pieces) {
    size_t count = 0;
    for (size_t i = 0; i < look->piece_count; i++)
        if (has_colour(look, plan, i, colour)) {
            if (count < COLOUR_MOST)
                pieces[count] = i;
            count++;
        }
    return count;
}

/* The columns and rows that so many pieces are drawn in, and the height of a row with its name. */
static void table_of(const runnel_look *look, const size_t *pieces, size_t count, double thumb_mm,
                     double width_mm, size_t *columns, double *row_mm) {
    size_t drawn = count < COLOUR_MOST ? count : COLOUR_MOST;
    *columns = drawn < COLOUR_COLUMNS ? drawn : COLOUR_COLUMNS;
    double most_mm = 0, room_mm = *columns ? width_mm / (double)*columns - gap_mm : width_mm;
    for (size_t i = 0; i < drawn; i++) {
        const runnel_box *box = &look->pieces[pieces[i]].box;
        double scale = fmin(room_mm / width_of(box), 1.5);
        most_mm = fmax(most_mm, fmin(scale * height_of(box), thumb_mm));
    }
    *row_mm = most_mm + line_mm + 2;
}

double runnel_view_colour_height(const runnel_look *look, const runnel_plan *plan,
                                 const char *colour, double most_mm, double width_mm) {
    size_t pieces[COLOUR_MOST], columns;
    double row_mm;
    size_t count = pieces_of(look, plan, colour, pieces);
    if (!count)
        return 0;
    table_of(look, pieces, count, most_mm, width_mm, &columns, &row_mm);
    size_t drawn = count < COLOUR_MOST ? count : COLOUR_MOST;
    const size_t rows = (drawn + columns - 1) / columns;
    return row_mm * (double)rows + (count > drawn ? line_mm + 1 : 0);
}

static void draw_colour_piece(runnel_canvas *canvas, const runnel_look *look,
                              const runnel_plan *plan, size_t piece, const char *colour,
                              const runnel_ink_box *room) {
    const runnel_look_piece *of = &look->pieces[piece];
    view on = fit(&of->box, &(runnel_ink_box){room->x_mm, room->y_mm, room->width_mm,
                                              room->height_mm - line_mm - 2});
    on.left_mm = room->x_mm + hair_mm; /* over its name */
    draw_edge(canvas, &on, of);
    for (int dark = 0; dark < 2; dark++) /* the dark ones over the others */
        for (size_t i = of->first; i < of->first + of->count; i++)
            if (look->cavities[i].is_known &&
                (strcmp(plan->cavities[i].colour, colour) == 0) == (dark != 0))
                draw_region(canvas, &on, &look->cavities[i].levels[0].region, dark ? 0 : 1,
                            hair_mm);
    runnel_canvas_text_in(canvas, RUNNEL_TYPE_SMALL, room->x_mm,
                          room->y_mm + room->height_mm - line_mm - 1, room->width_mm,
                          plan->cavities[of->first].piece);
}

void runnel_view_colour(runnel_canvas *canvas, const runnel_look *look, const runnel_plan *plan,
                        const char *colour, double most_mm, const runnel_ink_box *room) {
    size_t pieces[COLOUR_MOST], columns;
    double row_mm;
    size_t count = pieces_of(look, plan, colour, pieces);
    if (!count)
        return;
    table_of(look, pieces, count, most_mm, room->width_mm, &columns, &row_mm);
    size_t drawn = count < COLOUR_MOST ? count : COLOUR_MOST;
    double column_mm = room->width_mm / (double)columns;
    for (size_t i = 0; i < drawn; i++) {
        const size_t column = i % columns, row = i / columns;
        draw_colour_piece(canvas, look, plan, pieces[i], colour,
                          &(runnel_ink_box){room->x_mm + column_mm * (double)column,
                                            room->y_mm + row_mm * (double)row, column_mm - gap_mm,
                                            row_mm});
    }
    if (count > drawn) {
        char text[60];
        snprintf(text, sizeof text, "and %zu more %s of that colour", count - drawn,
                 count - drawn == 1 ? "piece" : "pieces");
        runnel_canvas_text(canvas, RUNNEL_TYPE_SMALL, RUNNEL_SIDE_LEFT, room->x_mm,
                           room->y_mm + room->height_mm - line_mm - 0.5, room->width_mm, text);
    }
}
