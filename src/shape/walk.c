/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The walk along the boundary that makes a profile.
 *
 * On an element, the stops at the two ends of an interval are known from the largest discs there.
 * Where they differ, the disc at their change-over is grown: if nothing smaller stops it, both
 * sides are settled, otherwise the interval is divided and each half treated alike. Where they
 * agree, no connected part of the boundary can come between without passing through one of the two
 * empty discs; only a cycle that lies wholly inside the strip between element and stop can, and
 * where the stop is "nothing within reach", whatever stands in the strip that the disc sweeps.
 * Both are looked for. So every piece is proved, and the area identity guards the rounding.
 *
 * Nothing is taken for proved because the search for it grew long. Where one interval holds many
 * stops, the change-overs of its ends may part them off one at a time, in as many divisions as
 * there are stops; after MANY_DIVISIONS the middle is taken, which halves what is left each time,
 * so that none goes deeper than MANY_DIVISIONS and the 40 halvings that lead to SHORTEST_SHARE. An
 * interval as short as that is settled as it stands: the share of the area that it may hold wrongly
 * is the same. And where a change-over is found at an end of an interval, the stop of the other end
 * rules all of it only if it bounds the disc of this end as well: then one stop touches two empty
 * discs. Else the middle is looked at.
 */
#include "shape/walk.h"

#include "base/memory.h"
#include "shape/curves.h"
#include "shape/points.h"

#include <math.h>

/** Intervals shorter than this share of their element are not divided further. */
#define SHORTEST_SHARE 1e-12
/** A disc must be smaller by this share before a third stop counts. */
#define TIE_SHARE 1e-12
/** Two stops that differ by less than this share at their change-over agree there. */
#define LEAST_TIE 1e-9

/** After so many divisions of one interval the middle is taken. */
enum { MANY_DIVISIONS = 64 };

enum { SLOTS_PER_EDGE = 3, USUAL_PIECES = 4 };

/** A disc proved empty, by the three elements that it touches, in rising order, and its centre, as
 * three elements may have two such discs. */
typedef struct proved_disc {
    runnel_stop a, b, c;
    double x, y;
} proved_disc;

/** State of one walk. */
typedef struct walk {
    runnel_profile *profile;
    const runnel_boundary *boundary;
    runnel_tree tree;
    double reach;
    runnel_stop
        *stop_before; /**< stop of the disc at corner i along the normal of the edge before */
    runnel_stop *stop_after; /**< ... of edge i */
    runnel_tree cycle_tree;
    runnel_point least_cycle; /**< least width and height of a cycle */
    proved_disc *proved;      /**< each disc in the one slot of its hash; a later one replaces it */
    const runnel_element *element;
    runnel_status status;
} walk;

static runnel_piece *new_piece(walk *w) {
    runnel_profile *profile = w->profile;
    runnel_status status = runnel_reserve(&profile->pieces, &profile->capacity, profile->count + 1,
                                          sizeof *profile->pieces);
    if (status) {
        w->status = status;
        return NULL;
    }
    return &profile->pieces[profile->count++];
}

/**
 * Shape of a piece on a segment that another segment stops. m at its ends is that of the line: an
 * end is where the foot leaves the segment, so whether it still stands on it is chance there.
 */
static void shape_line(walk *w, runnel_piece *piece, uint32_t edge, double from, double to) {
    const runnel_boundary *b = w->boundary;
    const runnel_element *e = w->element;
    const runnel_edge *f = &b->edges[edge];
    double kx = -f->uy, ky = f->ux;
    bool after = edge == b->edges[e->edge].next && !b->edges[edge].reflex;
    bool before = e->edge == f->next && !b->edges[e->edge].reflex;
    piece->kind = RUNNEL_PIECE_LINE;
    piece->x0 = before && from == 0 ? 0 : runnel_element_line(b, e, edge, from);
    piece->x1 = after && to == e->length ? 0 : runnel_element_line(b, e, edge, to);
    piece->h = atan2(fabs(e->nx * ky - e->ny * kx), e->nx * kx + e->ny * ky);
    piece->leaf = (after && to == e->length) || (before && from == 0);
}

static void shape_point(walk *w, runnel_piece *piece, uint32_t corner, double from, double to) {
    const runnel_element *e = w->element;
    const runnel_edge *c = &w->boundary->edges[corner];
    double along = (c->x - e->x) * e->ux + (c->y - e->y) * e->uy;
    piece->kind = RUNNEL_PIECE_POINT;
    piece->h = (c->x - e->x) * e->nx + (c->y - e->y) * e->ny;
    piece->x0 = from - along;
    piece->x1 = to - along;
}

static void shape_fan_line(walk *w, runnel_piece *piece, uint32_t edge, double from, double to) {
    const runnel_element *e = w->element;
    const runnel_edge *f = &w->boundary->edges[edge];
    double away = runnel_element_away(w->boundary, e, edge);
    piece->kind = RUNNEL_PIECE_FAN_LINE;
    piece->h = -f->uy * (e->x - f->x) + f->ux * (e->y - f->y);
    /* angle from the direction towards the segment, in (-pi, pi); the fan turns clockwise */
    double middle = 0.5 * (from + to) - away;
    double turn = middle > 0 ? -3.14159265358979323846 : 3.14159265358979323846;
    piece->x0 = piece->h * tan(0.5 * (from - away + turn));
    piece->x1 = piece->h * tan(0.5 * (to - away + turn));
}

static void shape_fan_point(walk *w, runnel_piece *piece, uint32_t corner, double from, double to) {
    const runnel_element *e = w->element;
    const runnel_edge *c = &w->boundary->edges[corner];
    double towards = runnel_element_towards(e, c->x, c->y);
    piece->kind = RUNNEL_PIECE_FAN_POINT;
    piece->h = 0.5 * hypot(c->x - e->x, c->y - e->y);
    piece->x0 = piece->h * tan(from - towards);
    piece->x1 = piece->h * tan(to - towards);
}

/** The last piece, when the interval from `from` continues it. */
static runnel_piece *continued(walk *w, double from, runnel_stop stop) {
    runnel_profile *profile = w->profile;
    runnel_piece *last = profile->count ? &profile->pieces[profile->count - 1] : NULL;
    bool same = last && last->edge == w->element->edge && last->stop == stop &&
                runnel_piece_is_fan(last) == w->element->fan && last->to == from;
    return same ? last : NULL;
}

static void emit(walk *w, double from, double to, runnel_stop stop) {
    if (!(to > from))
        return;
    runnel_piece *piece = continued(w, from, stop);
    if (piece)
        from = piece->from;
    else
        piece = new_piece(w);
    if (!piece)
        return;
    bool fan = w->element->fan;
    *piece = (runnel_piece){.edge = w->element->edge, .stop = stop, .from = from, .to = to};
    if (stop == RUNNEL_STOP_NONE) {
        piece->kind = fan ? RUNNEL_PIECE_FAN_CONST : RUNNEL_PIECE_CONST;
        piece->x0 = piece->x1 = INFINITY;
        piece->extent = to - from;
    } else if (runnel_stop_is_corner(stop)) {
        (fan ? shape_fan_point : shape_point)(w, piece, runnel_stop_index(stop), from, to);
    } else {
        (fan ? shape_fan_line : shape_line)(w, piece, runnel_stop_index(stop), from, to);
    }
    runnel_piece_finish(piece);
}

/** Corners of the strip between element and stop: two feet, two centres, two points of touch. */
static size_t strip_corners(const walk *w, double from, double to, runnel_stop stop,
                            runnel_point strip[6]) {
    const runnel_boundary *b = w->boundary;
    double ends[2] = {from, to};
    const runnel_edge *other = &b->edges[runnel_stop_index(stop)];
    for (size_t i = 0; i < 2; i++) {
        runnel_disc disc = runnel_element_disc(w->element, ends[i]);
        double m = runnel_stop_is_corner(stop)
                       ? runnel_element_bound(b, w->element, stop, w->reach, ends[i])
                       : runnel_element_line(b, w->element, runnel_stop_index(stop), ends[i]);
        runnel_point centre = {disc.x + m * disc.nx, disc.y + m * disc.ny};
        runnel_point touch = {other->x, other->y};
        if (!runnel_stop_is_corner(stop)) {
            touch.x_mm = centre.x_mm + m * other->uy;
            touch.y_mm = centre.y_mm - m * other->ux;
        }
        size_t k = i ? 3 : 0;
        strip[i ? 5 : 0] = (runnel_point){disc.x, disc.y};
        strip[i ? 4 : 1] = centre;
        strip[k ? 3 : 2] = touch;
    }
    return 6;
}

static bool is_in_polygon(const runnel_point *polygon, size_t count, double x, double y) {
    bool inside = false;
    for (size_t i = 0, j = count - 1; i < count; j = i++) {
        runnel_point a = polygon[i], b = polygon[j];
        if ((a.y_mm > y) != (b.y_mm > y) &&
            x < (b.x_mm - a.x_mm) * (y - a.y_mm) / (b.y_mm - a.y_mm) + a.x_mm)
            inside = !inside;
    }
    return inside;
}

/** What the search for an island has found. */
typedef struct island_search {
    const walk *w;
    const runnel_point *strip;
    size_t corners;
    runnel_box box;
    uint32_t own, its; /**< cycles of the element and of its stop */
    bool found;
    double at;
} island_search;

static void consider_cycle(uint32_t index, void *state) {
    island_search *s = state;
    const runnel_boundary *b = s->w->boundary;
    const runnel_cycle *cycle = &b->cycles[index];
    if (s->found || index == s->own || index == s->its || cycle->box.min_x_mm < s->box.min_x_mm ||
        cycle->box.max_x_mm > s->box.max_x_mm || cycle->box.min_y_mm < s->box.min_y_mm ||
        cycle->box.max_y_mm > s->box.max_y_mm)
        return;
    const runnel_edge *corner = &b->edges[cycle->first];
    if (is_in_polygon(s->strip, s->corners, corner->x, corner->y)) {
        s->found = true;
        s->at = runnel_element_towards(s->w->element, corner->x, corner->y);
    }
}

/** Looks for a whole cycle inside the strip; `at` is where to divide the interval. */
static bool find_island(const walk *w, double from, double to, runnel_stop stop, double *at) {
    const runnel_boundary *b = w->boundary;
    uint32_t own = b->edges[w->element->edge].cycle, its = b->edges[runnel_stop_index(stop)].cycle;
    if (b->parts[b->cycles[own].part].count <= (own == its ? 1U : 2U))
        return false;
    runnel_point strip[6];
    size_t corners = strip_corners(w, from, to, stop, strip);
    island_search s = {.w = w,
                       .strip = strip,
                       .corners = corners,
                       .box = runnel_points_box(strip, corners),
                       .own = own,
                       .its = its};
    if (s.box.max_x_mm - s.box.min_x_mm < w->least_cycle.x_mm ||
        s.box.max_y_mm - s.box.min_y_mm < w->least_cycle.y_mm)
        return false;
    runnel_tree_search(&w->cycle_tree, &s.box, consider_cycle, &s);
    *at = s.at;
    return s.found;
}

/** The search of the strip that the disc of the reach sweeps over an interval. */
typedef struct sweep {
    const walk *w;
    double from, to;
    runnel_point chord[2]; /**< centres of the disc at both ends */
    double limit;          /**< nothing farther from the chord than this is touched */
    double least, at;      /**< what was found */
} sweep;

static void consider(sweep *s, double at, runnel_stop stop) {
    const walk *w = s->w;
    double slack = SHORTEST_SHARE * w->element->length;
    if (!(at > s->from + slack && at < s->to - slack))
        return;
    double m = runnel_element_bound(w->boundary, w->element, stop, INFINITY, at);
    if (m < s->least) {
        s->least = m;
        s->at = at;
    }
}

/** Whether a corner is within the limit of the chord. */
static bool is_near_chord(const sweep *s, double x, double y) {
    double dx = s->chord[1].x_mm - s->chord[0].x_mm, dy = s->chord[1].y_mm - s->chord[0].y_mm;
    double px = x - s->chord[0].x_mm, py = y - s->chord[0].y_mm, square = dx * dx + dy * dy;
    double share = square > 0 ? (px * dx + py * dy) / square : 0;
    share = share < 0 ? 0 : (share > 1 ? 1 : share);
    px -= share * dx;
    py -= share * dy;
    return px * px + py * py <= s->limit * s->limit;
}

/** Whether the line of an edge comes within the limit of the chord, on the edge's left. */
static bool is_line_near_chord(const sweep *s, const runnel_edge *e) {
    for (int i = 0; i < 2; i++) {
        double height = e->ux * (s->chord[i].y_mm - e->y) - e->uy * (s->chord[i].x_mm - e->x);
        if (height >= 0 && height <= s->limit)
            return true;
    }
    return false;
}

/** A corner, and for a turning disc the edge that it may touch with its farthest point. */
static void consider_edge(uint32_t edge, void *state) {
    const double half_turn = 3.14159265358979323846;
    sweep *s = state;
    const walk *w = s->w;
    const runnel_edge *e = &w->boundary->edges[edge];
    if (e->reflex && is_near_chord(s, e->x, e->y))
        consider(s, runnel_element_towards(w->element, e->x, e->y), runnel_stop_corner(edge));
    if (w->element->fan && is_line_near_chord(s, e)) {
        double away = runnel_element_away(w->boundary, w->element, edge);
        consider(s, away > 0.5 * half_turn ? away - half_turn : away + half_turn,
                 runnel_stop_edge(edge));
    }
}

/** Looks for anything inside the strip that the disc of the reach sweeps. */
static bool find_intruder(const walk *w, double from, double to, double *at) {
    runnel_disc first = runnel_element_disc(w->element, from);
    runnel_disc last = runnel_element_disc(w->element, to);
    double r = w->reach, bulge = w->element->fan ? r * (1 - cos(0.5 * (to - from))) : 0;
    sweep s = {.w = w,
               .from = from,
               .to = to,
               .chord = {{first.x + r * first.nx, first.y + r * first.ny},
                         {last.x + r * last.nx, last.y + r * last.ny}},
               .limit = r + bulge,
               .least = r * (1 - TIE_SHARE)};
    double before = s.least;
    runnel_box box = runnel_points_box(s.chord, 2);
    box = (runnel_box){box.min_x_mm - s.limit, box.min_y_mm - s.limit, box.max_x_mm + s.limit,
                       box.max_y_mm + s.limit};
    runnel_tree_search(&w->tree, &box, consider_edge, &s);
    *at = s.at;
    return s.least < before;
}

static void divide(walk *w, double from, runnel_stop first, double to, runnel_stop second,
                   int depth);

/** Grows the disc at a parameter and treats both sides of it. */
static void divide_at(walk *w, double from, runnel_stop first, double to, runnel_stop second,
                      double at, int depth) {
    double slack = SHORTEST_SHARE * w->element->length;
    if (depth >= MANY_DIVISIONS || !(at > from + slack && at < to - slack))
        at = 0.5 * (from + to);
    runnel_disc disc = runnel_element_disc(w->element, at);
    disc.radius = isfinite(w->reach) ? w->reach : 2 * w->boundary->size_mm;
    runnel_disc_try_stop(w->boundary, &disc, first);
    runnel_disc_try_stop(w->boundary, &disc, second);
    runnel_disc_grow(w->boundary, &w->tree, w->element->edge, &disc);
    divide(w, from, first, at, disc.stop, depth + 1);
    divide(w, at, disc.stop, to, second, depth + 1);
}

/** An interval with the same stop at both ends. */
static void settle(walk *w, double from, double to, runnel_stop stop, int depth) {
    double at = 0;
    bool divided = false;
    bool is_long = to - from > 4 * SHORTEST_SHARE * w->element->length;
    if (is_long && stop == RUNNEL_STOP_NONE) {
        divided = find_intruder(w, from, to, &at);
    } else if (is_long) {
        if (w->element->fan && !runnel_stop_is_corner(stop)) {
            at = runnel_element_away(w->boundary, w->element, runnel_stop_index(stop));
            divided = at > from && at < to;
        }
        divided = divided || find_island(w, from, to, stop, &at);
    }
    if (divided)
        divide_at(w, from, stop, to, stop, at, depth);
    else
        emit(w, from, to, stop);
}

/** What the elements call the current one when it stops their discs. */
static runnel_stop own_stop(const runnel_element *element) {
    return element->fan ? runnel_stop_corner(element->edge) : runnel_stop_edge(element->edge);
}

/**
 * Whether the disc at a change-over between a segment and its own corner is one that stands proved
 * already: the disc at that corner along the segment's normal, stopped by the current element.
 */
static bool is_corner_disc(const walk *w, runnel_stop first, runnel_stop second) {
    if (first == RUNNEL_STOP_NONE || second == RUNNEL_STOP_NONE ||
        runnel_stop_is_corner(first) == runnel_stop_is_corner(second))
        return false;
    uint32_t corner = runnel_stop_index(runnel_stop_is_corner(first) ? first : second);
    uint32_t edge = runnel_stop_index(runnel_stop_is_corner(first) ? second : first);
    runnel_stop own = own_stop(w->element);
    return (corner == edge && w->stop_after[corner] == own) ||
           (corner == w->boundary->edges[edge].next && w->stop_before[corner] == own);
}

/** A disc that touches the current element, with the radius that two stops agree on. */
static proved_disc disc_key(const walk *w, runnel_stop first, runnel_stop second,
                            const runnel_disc *disc, double radius) {
    uint32_t a = own_stop(w->element), b = first, c = second, swap;
    if (a > b)
        swap = a, a = b, b = swap;
    if (b > c)
        swap = b, b = c, c = swap;
    if (a > b)
        swap = a, a = b, b = swap;
    return (proved_disc){a, b, c, disc->x + radius * disc->nx, disc->y + radius * disc->ny};
}

/** Its slot: near those of the neighbours of its first element, as the walk comes by in order. */
static proved_disc *slot_of(const walk *w, const proved_disc *key) {
    uint32_t which = (key->b ^ (key->b >> 3) ^ (key->c >> 1) ^ key->a) % SLOTS_PER_EDGE;
    return &w->proved[(size_t)SLOTS_PER_EDGE * runnel_stop_index(key->a) + which];
}

/** Whether the same disc was proved empty from another of the three it touches. */
static bool is_proved(const proved_disc *slot, const proved_disc *key, double radius) {
    double slack = LEAST_TIE * radius;
    return slot->a == key->a && slot->b == key->b && slot->c == key->c &&
           fabs(slot->x - key->x) <= slack && fabs(slot->y - key->y) <= slack;
}

/** Whether two stops bound a disc alike, so that it touches either; it has the smaller of their two
 * radii and of the walk's own bound then. */
static bool is_tie(const walk *w, runnel_stop first, runnel_stop second, runnel_disc *disc) {
    double one = runnel_disc_bound(w->boundary, disc, first, w->reach);
    double two = runnel_disc_bound(w->boundary, disc, second, w->reach);
    disc->radius = isfinite(w->reach) ? w->reach : 2 * w->boundary->size_mm;
    disc->stop = RUNNEL_STOP_NONE;
    if (one < disc->radius) {
        disc->radius = one;
        disc->stop = first;
    }
    if (two < disc->radius) {
        disc->radius = two;
        disc->stop = second;
    }
    return isfinite(one) && one <= w->reach * (1 + LEAST_TIE) && fabs(one - two) <= LEAST_TIE * one;
}

/** The stop at the change-over `at`, when it is a third one. */
static bool find_third(const walk *w, runnel_stop first, runnel_stop second, double at,
                       runnel_stop *third) {
    /* away from a change-over one of the two may rule alone: then that is the finding */
    runnel_disc disc = runnel_element_disc(w->element, at);
    bool tie = is_tie(w, first, second, &disc);
    if (tie && is_corner_disc(w, first, second))
        return false;
    proved_disc key = {0}, *slot = NULL;
    if (tie) {
        key = disc_key(w, first, second, &disc, disc.radius);
        slot = slot_of(w, &key);
        if (is_proved(slot, &key, disc.radius))
            return false;
        disc.radius *= 1 - TIE_SHARE;
    }
    runnel_stop known = disc.stop;
    runnel_disc_grow(w->boundary, &w->tree, w->element->edge, &disc);
    *third = disc.stop;
    if (!tie)
        return true;
    if (disc.stop != known && disc.stop != first && disc.stop != second)
        return true;
    *slot = key;
    return false;
}

static void divide(walk *w, double from, runnel_stop first, double to, runnel_stop second,
                   int depth) {
    if (w->status)
        return;
    if (first == second) {
        settle(w, from, to, first, depth);
        return;
    }
    if (to - from <= SHORTEST_SHARE * w->element->length) {
        emit(w, from, to, first);
        return;
    }
    double at = 0.5 * (from + to);
    if (depth < MANY_DIVISIONS)
        at = runnel_element_crossing(w->boundary, w->element, first, second, w->reach, from, to);
    double slack = 0.25 * SHORTEST_SHARE * w->element->length;
    if (at <= from + slack || at >= to - slack) {
        bool is_start = at <= from + slack;
        runnel_disc disc = runnel_element_disc(w->element, is_start ? from : to);
        if (is_tie(w, first, second, &disc)) {
            settle(w, from, to, is_start ? second : first, depth + 1);
            return;
        }
        at = 0.5 * (from + to);
    }
    runnel_stop third = RUNNEL_STOP_NONE;
    if (find_third(w, first, second, at, &third)) {
        divide(w, from, first, at, third, depth + 1);
        divide(w, at, third, to, second, depth + 1);
    } else {
        settle(w, from, at, first, depth + 1);
        settle(w, at, to, second, depth + 1);
    }
}

/** Largest disc at a reflex corner along the normal of an edge that ends there. */
static runnel_stop corner_stop(walk *w, uint32_t corner, uint32_t edge, runnel_stop hint) {
    const runnel_edge *c = &w->boundary->edges[corner], *e = &w->boundary->edges[edge];
    runnel_disc disc = {.x = c->x,
                        .y = c->y,
                        .nx = -e->uy,
                        .ny = e->ux,
                        .never = {e->twin, RUNNEL_NO_EDGE, RUNNEL_NO_EDGE},
                        .always = {RUNNEL_NO_EDGE, RUNNEL_NO_EDGE},
                        .radius = isfinite(w->reach) ? w->reach : 2 * w->boundary->size_mm,
                        .stop = RUNNEL_STOP_NONE};
    if (hint != RUNNEL_STOP_NONE) {
        uint32_t near = runnel_stop_index(hint);
        runnel_disc_try_edge(w->boundary, &disc, near);
        runnel_disc_try_edge(w->boundary, &disc, w->boundary->edges[near].previous);
        runnel_disc_try_edge(w->boundary, &disc, w->boundary->edges[near].next);
    }
    runnel_disc_grow(w->boundary, &w->tree, corner, &disc);
    return disc.stop;
}

static void find_corner_stops(walk *w) {
    runnel_stop hint = RUNNEL_STOP_NONE;
    for (uint32_t i = 0; i < w->boundary->count; i++) {
        const runnel_edge *e = &w->boundary->edges[i];
        if (e->foreign) {
            w->stop_before[i] = w->stop_after[i] = RUNNEL_STOP_NONE;
            continue;
        }
        if (!e->reflex) {
            w->stop_before[i] = runnel_stop_edge(i);
            w->stop_after[i] = runnel_stop_edge(e->previous);
            continue;
        }
        w->stop_before[i] = corner_stop(w, i, e->previous, hint);
        w->stop_after[i] = corner_stop(w, i, i, w->stop_before[i]);
        hint = w->stop_after[i];
    }
}

static void walk_element(walk *w, runnel_element element, runnel_stop first, runnel_stop last) {
    w->element = &element;
    if (element.length > 0)
        divide(w, 0, first, element.length, last, 0);
    w->element = NULL;
}

static void walk_elements(walk *w) {
    const runnel_boundary *b = w->boundary;
    for (uint32_t i = 0; i < b->count && !w->status; i++) {
        if (b->edges[i].foreign)
            continue;
        if (b->edges[i].reflex)
            walk_element(w, runnel_element_fan(b, i), w->stop_before[i], w->stop_after[i]);
        walk_element(w, runnel_element_segment(b, i), w->stop_after[i],
                     w->stop_before[b->edges[i].next]);
    }
}

/** Least width and height of any cycle: smaller strips hold none. */
static runnel_point least_cycle_of(const runnel_boundary *boundary) {
    runnel_point least = {INFINITY, INFINITY};
    for (size_t i = 0; i < boundary->cycle_count; i++) {
        const runnel_box *box = &boundary->cycles[i].box;
        least.x_mm = fmin(least.x_mm, box->max_x_mm - box->min_x_mm);
        least.y_mm = fmin(least.y_mm, box->max_y_mm - box->min_y_mm);
    }
    return least;
}

runnel_status runnel_boundary_walk(runnel_profile *profile, double reach) {
    size_t count = profile->boundary.count;
    walk w = {.profile = profile, .boundary = &profile->boundary, .reach = reach};
    w.status = runnel_tree_build(w.boundary, &w.tree);
    w.stop_before = runnel_zeroed(count, sizeof *w.stop_before);
    w.stop_after = runnel_zeroed(count, sizeof *w.stop_after);
    w.proved = runnel_zeroed(SLOTS_PER_EDGE * count, sizeof *w.proved);
    if (!w.stop_before || !w.stop_after || !w.proved)
        w.status = RUNNEL_E_NO_MEMORY;
    if (!w.status)
        w.status = runnel_tree_build_cycles(w.boundary, &w.cycle_tree);
    if (!w.status)
        w.status = runnel_reserve(&profile->pieces, &profile->capacity, USUAL_PIECES * count,
                                  sizeof *profile->pieces);
    w.least_cycle = least_cycle_of(w.boundary);
    if (!w.status) {
        find_corner_stops(&w);
        walk_elements(&w);
    }
    runnel_tree_clear(&w.tree);
    runnel_free(w.stop_before);
    runnel_free(w.stop_after);
    runnel_tree_clear(&w.cycle_tree);
    runnel_free(w.proved);
    return w.status;
}
