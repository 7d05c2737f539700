/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/days.h"

#include "draw/leaf.h"
#include "runnel/date.h"
#include "write/days_doc.h"
#include "write/moment.h"

#include <math.h>

/* Rows of steps, the two lines of days above them, and the column of their names. */
static const double row_mm = 4.6, head_mm = 8.5, name_share = 0.36, gap_mm = 2;
/* A bar of hands, however short, and that of a wait. */
static const double bar_mm = 3, least_mm = 0.7, wait_mm = 1.4;
static const double day_s = 86400, closed_grey = 0.93, line_grey = 0.7, line_mm = 0.15;

static size_t rows_of(const runnel_timing *timing, size_t first) {
    size_t left = timing->step_count - first;
    return left < RUNNEL_DAYS_STEPS ? left : RUNNEL_DAYS_STEPS;
}

double runnel_days_height(const runnel_timing *timing, size_t first) {
    return head_mm + row_mm * (double)rows_of(timing, first) + 1;
}

/* What is drawn, and how days are put on paper. */
typedef struct chart {
    runnel_canvas *canvas;
    const runnel_timings *timings;
    const runnel_timing *timing;
    size_t first, rows;
    runnel_ink_box room; /* of the bars, with the lines of days */
    runnel_date day;     /* the first */
    size_t days;
    double from_s, to_s;
} chart;

static double x_of(const chart *c, double moment_s) {
    double share = (moment_s - c->from_s) / (c->to_s - c->from_s);
    return c->room.x_mm + c->room.width_mm * fmin(fmax(share, 0), 1);
}

/* The midnight before a day by the wall's clock. */
static double midnight_of(const chart *c, size_t day) {
    const runnel_date epoch = {1970, 1, 1};
    double since = (double)runnel_date_days_between(epoch, c->day) + (double)day;
    return runnel_moment_of(c->timings->zone, since * day_s);
}

/* The days of the whole job, so that all its pictures have the same ones. */
static void set_days(chart *c) {
    const runnel_timing *timing = c->timing;
    int minutes;
    const double last_s = timing->steps[timing->step_count - 1].times.end_s;
    c->day = runnel_moment_day(c->timings->zone, timing->steps[0].times.start_s, &minutes);
    runnel_date last = runnel_moment_day(c->timings->zone, last_s, &minutes);
    c->days = (size_t)runnel_date_days_between(c->day, last) + 1;
    c->from_s = midnight_of(c, 0);
    c->to_s = midnight_of(c, c->days);
}

static bool is_off(const runnel_timings *timings, runnel_date day) {
    for (size_t i = 0; i < timings->off.count; i++)
        if (runnel_date_days_between(timings->off.spans[i].from, day) >= 0 &&
            runnel_date_days_between(day, timings->off.spans[i].to) >= 0)
            return true;
    return false;
}

static bool is_closed(const chart *c, runnel_date day) {
    return !c->timings->week.days[runnel_date_weekday(day) - 1].count || is_off(c->timings, day);
}

/* Days on which nobody works are grey; each so many days are named, as there is room. */
static void draw_days(const chart *c) {
    const double day_mm = c->room.width_mm / (double)c->days, name_mm = 11;
    const size_t each = (size_t)ceil(name_mm / day_mm);
    const double top_mm = c->room.y_mm + head_mm, low_mm = c->room.y_mm + c->room.height_mm;
    for (size_t i = 0; i < c->days; i++) {
        char weekday[RUNNEL_MOMENT_SIZE], day[RUNNEL_MOMENT_SIZE];
        runnel_date date;
        const double x_mm = x_of(c, midnight_of(c, i));
        if (runnel_date_add_days(c->day, (int)i, &date))
            break;
        if (is_closed(c, date))
            runnel_canvas_box(c->canvas,
                              &(runnel_ink_box){x_mm, top_mm, x_of(c, midnight_of(c, i + 1)) - x_mm,
                                                low_mm - top_mm},
                              closed_grey, 0);
        if (i % each)
            continue;
        runnel_canvas_box(
            c->canvas,
            &(runnel_ink_box){x_mm - line_mm / 2, top_mm - 1, line_mm, low_mm - top_mm + 1},
            line_grey, 0);
        if (x_mm + name_mm > c->room.x_mm + c->room.width_mm + 1 && i)
            continue;
        runnel_moment_head(date, weekday, day);
        runnel_canvas_text_in(c->canvas, RUNNEL_TYPE_SMALL, x_mm, c->room.y_mm, name_mm, weekday);
        runnel_canvas_text_in(c->canvas, RUNNEL_TYPE_SMALL, x_mm, c->room.y_mm + 3.4, name_mm, day);
    }
}

static void draw_step(const chart *c, size_t row, const runnel_ink_box *name) {
    const size_t index = c->first + row;
    const runnel_timing_step *step = &c->timing->steps[index];
    const double top_mm = c->room.y_mm + head_mm + row_mm * (double)row;
    const double start_mm = x_of(c, step->times.start_s);
    const double wide_mm = fmax(x_of(c, step->times.end_s) - start_mm, least_mm);
    runnel_canvas_text_in(c->canvas, RUNNEL_TYPE_SMALL, name->x_mm, top_mm + 0.6, name->width_mm,
                          step->text);
    if (index) {
        double since_mm = x_of(c, step[-1].times.end_s);
        if (start_mm - since_mm > least_mm)
            runnel_canvas_box(c->canvas,
                              &(runnel_ink_box){since_mm, top_mm + (row_mm - wait_mm) / 2,
                                                start_mm - since_mm, wait_mm},
                              1, RUNNEL_LEAF_HAIR);
    }
    runnel_canvas_box(c->canvas,
                      &(runnel_ink_box){start_mm, top_mm + (row_mm - bar_mm) / 2, wide_mm, bar_mm},
                      0, 0);
}

void runnel_days_draw(runnel_canvas *canvas, const runnel_timings *timings, size_t job,
                      size_t first, const runnel_ink_box *room) {
    const runnel_timing *timing = &timings->items[job];
    const runnel_ink_box name = {room->x_mm, room->y_mm, name_share * room->width_mm - gap_mm,
                                 room->height_mm};
    chart c = {.canvas = canvas,
               .timings = timings,
               .timing = timing,
               .first = first,
               .rows = rows_of(timing, first),
               .room = {room->x_mm + name_share * room->width_mm, room->y_mm,
                        (1 - name_share) * room->width_mm - least_mm, room->height_mm - 1}};
    set_days(&c);
    draw_days(&c);
    for (size_t row = 0; row < c.rows; row++)
        draw_step(&c, row, &name);
    runnel_canvas_line(canvas, c.room.x_mm, room->y_mm + head_mm, c.room.x_mm + c.room.width_mm,
                       room->y_mm + head_mm, RUNNEL_LEAF_HAIR);
}
