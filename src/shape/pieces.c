/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shape/pieces.h"

#include <math.h>

/** (b^3 - a^3)/(b - a) and (b^5 - a^5)/(b - a), without the difference of powers. */
static double cube_sum(double a, double b) {
    return a * a + a * b + b * b;
}

static double fifth_sum(double a, double b) {
    double aa = a * a, bb = b * b;
    return aa * aa + bb * bb + a * b * (aa + bb) + aa * bb;
}

/** int m dx and int m^2 dx over a parabola m = (x^2 + h^2)/(2h). */
static double parabola_first(double h, double x0, double x1) {
    return fabs(x1 - x0) * (cube_sum(x0, x1) / 3 + h * h) / (2 * h);
}

static double parabola_second(double h, double x0, double x1) {
    double hh = h * h;
    return fabs(x1 - x0) * (fifth_sum(x0, x1) / 5 + 2 * hh * cube_sum(x0, x1) / 3 + hh * hh) /
           (4 * hh);
}

/** int sqrt(x^2 + h^2) dx. */
static double root_integral(double h, double x) {
    return 0.5 * (x * hypot(x, h) + h * h * asinh(x / h));
}

double runnel_piece_m(const runnel_piece *piece, double x) {
    switch (piece->kind) {
    case RUNNEL_PIECE_LINE:
        return piece->x0 + (piece->x1 - piece->x0) * x;
    case RUNNEL_PIECE_POINT:
    case RUNNEL_PIECE_FAN_LINE:
        return (x * x + piece->h * piece->h) / (2 * piece->h);
    case RUNNEL_PIECE_FAN_POINT:
        return hypot(x, piece->h);
    case RUNNEL_PIECE_CONST:
    case RUNNEL_PIECE_FAN_CONST:
        break;
    }
    return piece->x0;
}

static void finish_range(runnel_piece *piece) {
    bool line = piece->kind == RUNNEL_PIECE_LINE;
    double m0 = runnel_piece_m(piece, line ? 0 : piece->x0);
    double m1 = runnel_piece_m(piece, line ? 1 : piece->x1);
    piece->low = fmin(m0, m1);
    piece->high = fmax(m0, m1);
    bool curved = piece->kind == RUNNEL_PIECE_POINT || piece->kind == RUNNEL_PIECE_FAN_LINE ||
                  piece->kind == RUNNEL_PIECE_FAN_POINT;
    if (curved && (piece->x0 < 0) != (piece->x1 < 0))
        piece->low = runnel_piece_m(piece, 0);
}

void runnel_piece_finish(runnel_piece *piece) {
    double x0 = piece->x0, x1 = piece->x1, h = piece->h;
    finish_range(piece);
    switch (piece->kind) {
    case RUNNEL_PIECE_LINE:
        piece->extent = piece->to - piece->from;
        piece->area = piece->extent * 0.5 * (x0 + x1);
        piece->moment = piece->extent * cube_sum(x0, x1) / 6;
        break;
    case RUNNEL_PIECE_POINT:
        piece->extent = piece->to - piece->from;
        piece->area = parabola_first(h, x0, x1);
        piece->moment = 0.5 * parabola_second(h, x0, x1);
        break;
    case RUNNEL_PIECE_FAN_LINE:
        piece->extent = 2 * fabs(atan2(x1, h) - atan2(x0, h));
        piece->area = 0.5 * parabola_first(h, x0, x1);
        piece->moment = parabola_second(h, x0, x1) / 3;
        break;
    case RUNNEL_PIECE_FAN_POINT:
        piece->extent = fabs(atan2(x1, h) - atan2(x0, h));
        piece->area = 0.5 * h * fabs(x1 - x0);
        piece->moment = h / 3 * fabs(root_integral(h, x1) - root_integral(h, x0));
        break;
    case RUNNEL_PIECE_CONST:
        piece->area = piece->extent * x0;
        piece->moment = piece->extent * x0 * x0 / 2;
        break;
    case RUNNEL_PIECE_FAN_CONST:
        piece->area = piece->extent * x0 * x0 / 2;
        piece->moment = piece->extent * x0 * x0 * x0 / 3;
        break;
    }
}

runnel_piece runnel_piece_part(const runnel_piece *piece, double x0, double x1) {
    runnel_piece part = *piece;
    if (piece->kind == RUNNEL_PIECE_LINE) {
        double length = piece->to - piece->from;
        part.from = piece->from + length * x0;
        part.to = piece->from + length * x1;
        part.x0 = runnel_piece_m(piece, x0);
        part.x1 = runnel_piece_m(piece, x1);
    } else if (piece->kind == RUNNEL_PIECE_POINT) {
        part.from = piece->from + (x0 - piece->x0);
        part.to = piece->from + (x1 - piece->x0);
        part.x0 = x0;
        part.x1 = x1;
    } else {
        part.x0 = x0;
        part.x1 = x1;
    }
    runnel_piece_finish(&part);
    return part;
}

/** x of the curved kinds, on the side x > 0, where m = t. */
static double crossing(const runnel_piece *piece, double t) {
    double square = piece->kind == RUNNEL_PIECE_FAN_POINT ? (t - piece->h) * (t + piece->h)
                                                          : piece->h * (2 * t - piece->h);
    return square > 0 ? sqrt(square) : 0;
}

/** Adds the part of [x0, x1] within [a, b], keeping the direction of the piece. */
static size_t add_clipped(const runnel_piece *piece, double a, double b, runnel_piece parts[2],
                          size_t count) {
    double left = fmin(piece->x0, piece->x1), right = fmax(piece->x0, piece->x1);
    double from = fmax(left, a), to = fmin(right, b);
    if (from >= to)
        return count;
    bool forward = piece->x0 <= piece->x1;
    parts[count] = runnel_piece_part(piece, forward ? from : to, forward ? to : from);
    return count + 1;
}

static size_t line_parts(const runnel_piece *piece, double t, bool above, runnel_piece parts[2]) {
    double x = (t - piece->x0) / (piece->x1 - piece->x0); /* low < t < high, so not 0 / 0 */
    bool second = (piece->x1 > piece->x0) == above;
    parts[0] = second ? runnel_piece_part(piece, x, 1) : runnel_piece_part(piece, 0, x);
    return 1;
}

size_t runnel_piece_above(const runnel_piece *piece, double t, runnel_piece parts[2]) {
    if (piece->low >= t) {
        parts[0] = *piece;
        return 1;
    }
    if (piece->high <= t)
        return 0;
    if (piece->kind == RUNNEL_PIECE_LINE)
        return line_parts(piece, t, true, parts);
    double x = crossing(piece, t);
    size_t count = add_clipped(piece, -INFINITY, -x, parts, 0);
    return add_clipped(piece, x, INFINITY, parts, count);
}

size_t runnel_piece_below(const runnel_piece *piece, double t, runnel_piece parts[2]) {
    if (piece->high <= t) {
        parts[0] = *piece;
        return 1;
    }
    if (piece->low >= t)
        return 0;
    if (piece->kind == RUNNEL_PIECE_LINE)
        return line_parts(piece, t, false, parts);
    double x = crossing(piece, t);
    return add_clipped(piece, -x, x, parts, 0);
}

runnel_point runnel_piece_centre(const runnel_profile *profile, const runnel_piece *piece,
                                 double parameter, double m) {
    const runnel_edge *e = &profile->boundary.edges[piece->edge];
    runnel_point at = {e->x, e->y};
    if (runnel_piece_is_fan(piece)) {
        const runnel_edge *before = &profile->boundary.edges[e->previous];
        double c = cos(parameter), s = sin(parameter);
        at.x_mm += m * (-before->uy * c + before->ux * s);
        at.y_mm += m * (before->ux * c + before->uy * s);
    } else {
        at.x_mm += parameter * e->ux - m * e->uy;
        at.y_mm += parameter * e->uy + m * e->ux;
    }
    return at;
}

double runnel_piece_parameter(const runnel_profile *profile, const runnel_piece *piece, double x) {
    (void)profile;
    switch (piece->kind) {
    case RUNNEL_PIECE_LINE:
        return piece->from + (piece->to - piece->from) * x;
    case RUNNEL_PIECE_POINT:
        return piece->from + (x - piece->x0);
    case RUNNEL_PIECE_FAN_LINE:
        return piece->from + 2 * fabs(atan2(x, piece->h) - atan2(piece->x0, piece->h));
    case RUNNEL_PIECE_FAN_POINT:
        return piece->from + fabs(atan2(x, piece->h) - atan2(piece->x0, piece->h));
    case RUNNEL_PIECE_CONST:
    case RUNNEL_PIECE_FAN_CONST:
        break;
    }
    return 0.5 * (piece->from + piece->to);
}
