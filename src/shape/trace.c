/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shape/trace.h"

#include "base/memory.h"
#include "base/sum.h"
#include "shape/moments.h"

#include <math.h>
#include <stdlib.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static const double pi = 3.14159265358979323846;

/** Shares of a level that are tried when nothing joins: each much more than the rounding of m, and
 * all far less than shows. */
static const double closer[] = {1, 1 - 1e-9, 1 - 1e-7};

/** Distance, as a share of the whole, within which two elements see the same place. */
#define MEET_SHARE 1e-6
/** Share by which the area of the rings may differ from that of the pieces, besides the mismatch of
 * the profile. */
#define AREA_SHARE 1e-9

/** A place on the medial axis as an element sees it: where its disc has the level's radius. */
typedef struct place {
    runnel_stop own, stop; /**< own: RUNNEL_STOP_NONE where a stretch has no end there */
    runnel_point at;
} place;

/** A stretch of the border, along the boundary with m >= t. */
typedef struct stretch {
    size_t first, count; /**< points */
    place from, to;
    size_t next;       /**< the stretch that follows in its ring, or NOT_JOINED */
    size_t cycle_head; /**< first stretch of its cycle */
    bool opens;        /**< begins inside a piece */
    bool is_followed, is_drawn;
} stretch;

#define NOT_JOINED ((size_t)-1)

/** As many stretches at most are joined by their places, each tried with each. */
enum { MOST_BY_PLACE = 64 };

/** What of an element belongs to a stretch: s or theta from, to. */
typedef struct span {
    uint32_t edge;
    bool is_fan, is_empty;
    bool opens, closes; /**< begins or ends inside its piece */
    bool ends_fan;
    double from, to;
} span;

typedef struct trace {
    const runnel_profile *profile;
    double level;          /**< m where stretches end */
    double away;           /**< distance of the border from the boundary */
    double round;          /**< radius of the arcs at the stretches' ends: level - away */
    double chord;          /**< how far chords may stand off */
    span span;             /**< not yet put into points */
    runnel_contours drawn; /**< points of all stretches */
    stretch *stretches;
    size_t count, capacity;
    runnel_sum enclosed; /**< area within the ends of all straight parts and arcs */
    runnel_sum wanted;   /**< the same by the pieces */
} trace;

/* ---- Points --------------------------------------------------------------------------------- */

static double cross(runnel_point a, runnel_point b) {
    return a.x_mm * b.y_mm - a.y_mm * b.x_mm;
}

static runnel_point from_to(runnel_point a, runnel_point b) {
    return (runnel_point){b.x_mm - a.x_mm, b.y_mm - a.y_mm};
}

/** Largest angle that a chord may span; at the least one whose chord cannot be told from the arc.
 */
static double chord_angle(double radius, double chord) {
    const double least = 1e-6;
    double angle = radius > chord ? 4 * asin(sqrt(0.5 * chord / radius)) : 0.5 * pi;
    return fmax(least, fmin(0.5 * pi, angle));
}

static runnel_status reserve_points(runnel_contours *list, size_t more) {
    return runnel_reserve(&list->points, &list->point_capacity, list->point_count + more,
                          sizeof *list->points);
}

/** Adds a point to the last stretch. */
static runnel_status put(trace *t, runnel_point p) {
    stretch *s = &t->stretches[t->count - 1];
    runnel_point *before = s->count ? &t->drawn.points[t->drawn.point_count - 1] : NULL;
    if (before && before->x_mm == p.x_mm && before->y_mm == p.y_mm)
        return RUNNEL_OK;
    runnel_status status = reserve_points(&t->drawn, 1);
    if (!status) {
        t->drawn.points[t->drawn.point_count++] = p;
        s->count++;
    }
    return status;
}

/** Area of the triangle from the first corner of all. */
static void enclose(trace *t, runnel_point a, runnel_point b) {
    const runnel_edge *e = t->profile->boundary.edges;
    runnel_point origin = {e->x, e->y};
    runnel_sum_add(&t->enclosed, 0.5 * cross(from_to(origin, a), from_to(origin, b)));
}

/** Points between the ends of an arc: `arm` turned about `centre` by shares of an angle. */
static runnel_status add_arc(runnel_contours *list, runnel_point centre, runnel_point arm,
                             double angle, double most_angle) {
    size_t chords = (size_t)ceil(fabs(angle) / most_angle);
    if (chords < 2)
        return RUNNEL_OK;
    double step = angle / (double)chords, c = cos(step), s = sin(step);
    runnel_status status = reserve_points(list, chords);
    for (size_t i = 1; i < chords && !status; i++) {
        arm = (runnel_point){arm.x_mm * c - arm.y_mm * s, arm.x_mm * s + arm.y_mm * c};
        list->points[list->point_count++] =
            (runnel_point){centre.x_mm + arm.x_mm, centre.y_mm + arm.y_mm};
    }
    return status;
}

/* ---- Stretches ------------------------------------------------------------------------------ */

/** Normal of a fan at theta. */
static runnel_point fan_normal(const trace *t, const runnel_edge *e, double theta) {
    const runnel_edge *before = &t->profile->boundary.edges[e->previous];
    double c = theta > 0 ? cos(theta) : 1, s = theta > 0 ? sin(theta) : 0;
    return (runnel_point){-before->uy * c + before->ux * s, before->ux * c + before->uy * s};
}

static runnel_status put_fan(trace *t, const span *s, const runnel_edge *e) {
    runnel_point a = fan_normal(t, e, s->from);
    runnel_point b = s->ends_fan ? (runnel_point){-e->uy, e->ux} : fan_normal(t, e, s->to);
    runnel_point corner = {e->x, e->y}, arm = {t->away * a.x_mm, t->away * a.y_mm};
    runnel_point first = {e->x + arm.x_mm, e->y + arm.y_mm};
    runnel_point last = {e->x + t->away * b.x_mm, e->y + t->away * b.y_mm};
    runnel_sum_add(&t->wanted, -0.5 * t->away * t->away * cross(b, a));
    enclose(t, first, last);
    runnel_status status = put(t, first);
    size_t before = t->drawn.point_count;
    if (!status)
        status = add_arc(&t->drawn, corner, arm, s->from - s->to, chord_angle(t->away, t->chord));
    t->stretches[t->count - 1].count += t->drawn.point_count - before;
    return status ? status : put(t, last);
}

static runnel_status put_straight(trace *t, const span *s, const runnel_edge *e) {
    double x = e->x - t->away * e->uy, y = e->y + t->away * e->ux;
    runnel_point first = {x + s->from * e->ux, y + s->from * e->uy};
    runnel_point last = {x + s->to * e->ux, y + s->to * e->uy};
    enclose(t, first, last);
    runnel_status status = put(t, first);
    return status ? status : put(t, last);
}

/** Makes points of the span that has been gathered. */
static runnel_status finish_span(trace *t) {
    span s = t->span;
    const runnel_edge *e = &t->profile->boundary.edges[s.edge];
    if (s.is_empty)
        return RUNNEL_OK;
    t->span.is_empty = true;
    return s.is_fan ? put_fan(t, &s, e) : put_straight(t, &s, e);
}

/** Adds to the last stretch, pieces of the same element as one. */
static runnel_status add_span(trace *t, const span *s) {
    bool is_more = !t->span.is_empty && t->span.edge == s->edge && t->span.is_fan == s->is_fan;
    runnel_status status = RUNNEL_OK;
    if (is_more) {
        t->span.to = s->to;
        t->span.ends_fan = s->ends_fan;
    } else {
        status = finish_span(t);
        t->span = *s;
    }
    return status;
}

static place place_of(const trace *t, const runnel_piece *piece, double parameter) {
    runnel_stop own = runnel_piece_is_fan(piece) ? runnel_stop_corner(piece->edge)
                                                 : runnel_stop_edge(piece->edge);
    return (place){own, piece->stop, runnel_piece_centre(t->profile, piece, parameter, t->level)};
}

static runnel_status start_stretch(trace *t, place from, bool opens, size_t head) {
    runnel_status status =
        runnel_reserve(&t->stretches, &t->capacity, t->count + 1, sizeof *t->stretches);
    if (status)
        return status;
    t->stretches[t->count++] = (stretch){.first = t->drawn.point_count,
                                         .from = from,
                                         .to = {.own = RUNNEL_STOP_NONE},
                                         .next = NOT_JOINED,
                                         .cycle_head = head,
                                         .opens = opens};
    t->span.is_empty = true;
    return RUNNEL_OK;
}

static runnel_status end_stretch(trace *t, place to) {
    t->stretches[t->count - 1].to = to;
    return finish_span(t);
}

/** Cuts a span off where m falls below the level, before or behind. */
static void cut_span(span *s, bool opens, bool closes, double from, double to) {
    s->opens = opens;
    s->closes = closes;
    s->from = opens ? from : s->from;
    s->to = closes ? to : s->to;
    s->ends_fan = s->ends_fan && !closes;
}

/** The spans of a piece with m >= t, 0 to 2. */
static size_t spans_of(const trace *t, const runnel_piece *piece, span spans[2]) {
    double level = t->level;
    if (piece->low < level && piece->high <= level)
        return 0;
    bool is_fan = runnel_piece_is_fan(piece);
    const runnel_piece *after = piece + 1; /* a fan is followed by its edge */
    bool ends_fan = is_fan && !(runnel_piece_is_fan(after) && after->edge == piece->edge);
    spans[0] = (span){.edge = piece->edge,
                      .is_fan = is_fan,
                      .ends_fan = ends_fan,
                      .from = piece->from,
                      .to = piece->to};
    if (piece->low >= level)
        return 1;
    if (piece->kind == RUNNEL_PIECE_LINE) {
        double share = (level - piece->x0) / (piece->x1 - piece->x0);
        double at = piece->from + (piece->to - piece->from) * share;
        cut_span(&spans[0], piece->x0 < level, piece->x1 < level, at, at);
        return 1;
    }
    runnel_piece parts[2];
    size_t count = runnel_piece_above(piece, level, parts);
    spans[1] = spans[0];
    for (size_t k = 0; k < count; k++) {
        double from = runnel_piece_parameter(t->profile, piece, parts[k].x0);
        double to = runnel_piece_parameter(t->profile, piece, parts[k].x1);
        cut_span(&spans[k], parts[k].x0 != piece->x0, parts[k].x1 != piece->x1, from, to);
    }
    return count;
}

/** Adds a piece; `is_open` tells whether the last stretch goes on at its beginning, then whether at
 * its end. */
static runnel_status add_piece(trace *t, const runnel_piece *piece, size_t head, bool *is_open) {
    span spans[2];
    size_t count = spans_of(t, piece, spans);
    runnel_status status = RUNNEL_OK;
    if (*is_open && (!count || spans[0].opens)) {
        status = end_stretch(t, place_of(t, piece - 1, piece[-1].to));
        *is_open = false;
    }
    for (size_t k = 0; k < count && !status; k++) {
        if (!*is_open)
            status = start_stretch(t, place_of(t, piece, spans[k].from), spans[k].opens, head);
        if (!status)
            status = add_span(t, &spans[k]);
        *is_open = !spans[k].closes;
        if (!status && spans[k].closes)
            status = end_stretch(t, place_of(t, piece, spans[k].to));
    }
    return status;
}

/** The pieces of one cycle, from `first` on; tells where the next one begins. */
static runnel_status add_cycle(trace *t, size_t first, size_t *next) {
    const runnel_profile *profile = t->profile;
    const runnel_edge *edge = &profile->boundary.edges[profile->pieces[first].edge];
    const runnel_cycle *cycle = &profile->boundary.cycles[edge->cycle];
    size_t head = t->count, i = first, end = (size_t)cycle->first + cycle->count;
    bool is_open = false, starts_open = false;
    runnel_status status = RUNNEL_OK;
    for (; i < profile->count && profile->pieces[i].edge < end && !status; i++) {
        status = add_piece(t, &profile->pieces[i], head, &is_open);
        if (i == first)
            starts_open = t->count > head && !t->stretches[head].opens;
    }
    *next = i;
    if (status || !is_open)
        return status;
    if (!starts_open)
        return end_stretch(t, place_of(t, &profile->pieces[i - 1], profile->pieces[i - 1].to));
    t->stretches[t->count - 1].next = head;
    t->stretches[head].is_followed = true;
    t->stretches[head].from.own = RUNNEL_STOP_NONE;
    return finish_span(t);
}

/* ---- Rings ---------------------------------------------------------------------------------- */

/** An end or a start of a stretch, by the two elements that meet there. */
typedef struct joint {
    uint64_t elements;
    size_t stretch;
} joint;

static int compare_joints(const void *one, const void *other) {
    const joint *a = one, *b = other;
    return (a->elements > b->elements) - (a->elements < b->elements);
}

static uint64_t pair_of(runnel_stop ending, runnel_stop starting) {
    return (uint64_t)ending << 32 | starting;
}

static bool is_one_place(const trace *t, size_t ending, size_t starting) {
    runnel_point gap = from_to(t->stretches[ending].to.at, t->stretches[starting].from.at);
    double most = MEET_SHARE * (t->profile->boundary.size_mm + t->level);
    return gap.x_mm * gap.x_mm + gap.y_mm * gap.y_mm <= most * most;
}

/** Joins the end of one stretch to the start of another; false where they are not one place. */
static bool join(trace *t, size_t ending, size_t starting) {
    stretch *one = &t->stretches[ending], *other = &t->stretches[starting];
    if (!is_one_place(t, ending, starting))
        return false;
    runnel_point last = t->drawn.points[one->first + one->count - 1];
    runnel_point first = t->drawn.points[other->first];
    double sine_square = cross(from_to(one->to.at, last), from_to(other->from.at, first));
    runnel_sum_add(&t->wanted, 0.5 * sine_square);
    enclose(t, last, first);
    one->next = starting;
    other->is_followed = true;
    return true;
}

/** Joins what faces each other across a corner of the boundary: in most shapes nearly all. */
static bool join_neighbours(trace *t) {
    for (size_t i = 0; i < t->count; i++) {
        const stretch *s = &t->stretches[i];
        bool is_last = i + 1 == t->count || t->stretches[i + 1].cycle_head != s->cycle_head;
        size_t next = is_last ? s->cycle_head : i + 1;
        const stretch *other = &t->stretches[next];
        if (s->next != NOT_JOINED || other->is_followed || s->to.own != other->from.stop ||
            s->to.stop != other->from.own)
            continue;
        if (!join(t, i, next))
            return false;
    }
    return true;
}

/** Ends and starts that wait for each other. */
typedef struct waiting {
    joint *ends, *starts;
    size_t ending, starting;
} waiting;

static void gather(const trace *t, waiting *w) {
    for (size_t i = 0; i < t->count; i++) {
        const stretch *s = &t->stretches[i];
        if (s->next == NOT_JOINED)
            w->ends[w->ending++] = (joint){pair_of(s->to.own, s->to.stop), i};
        if (!s->is_followed)
            w->starts[w->starting++] = (joint){pair_of(s->from.stop, s->from.own), i};
    }
    qsort(w->ends, w->ending, sizeof *w->ends, compare_joints);
    qsort(w->starts, w->starting, sizeof *w->starts, compare_joints);
}

/** Joins by pairs of elements; what has no partner stays. */
static bool join_pairs(trace *t, waiting *w) {
    size_t i = 0, k = 0, ending = 0, starting = 0;
    while (i < w->ending || k < w->starting) {
        bool has_end = i < w->ending, has_start = k < w->starting;
        int order = !has_start ? -1 : (!has_end ? 1 : compare_joints(&w->ends[i], &w->starts[k]));
        if (order < 0)
            w->ends[ending++] = w->ends[i++];
        else if (order > 0)
            w->starts[starting++] = w->starts[k++];
        else if (!join(t, w->ends[i++].stretch, w->starts[k++].stretch))
            return false;
    }
    w->ending = ending;
    w->starting = starting;
    return ending == starting && ending <= MOST_BY_PLACE;
}

/** Joins by place alone, where elements see a change-over of their stops on different sides of it;
 * false where more than one could be meant. */
static bool join_places(trace *t, const waiting *w) {
    for (size_t i = 0; i < w->ending; i++) {
        size_t found = NOT_JOINED;
        for (size_t k = 0; k < w->starting; k++) {
            if (!is_one_place(t, w->ends[i].stretch, w->starts[k].stretch))
                continue;
            if (found != NOT_JOINED)
                return false;
            found = w->starts[k].stretch;
        }
        if (found == NOT_JOINED || t->stretches[found].is_followed)
            return false;
        join(t, w->ends[i].stretch, found);
    }
    return true;
}

/** Joins what is no neighbour. */
static runnel_status join_others(trace *t) {
    waiting w = {.ends = runnel_zeroed(2 * t->count, sizeof *w.ends)};
    if (!w.ends)
        return RUNNEL_E_NO_MEMORY;
    w.starts = w.ends + t->count;
    gather(t, &w);
    bool joined = join_pairs(t, &w) && join_places(t, &w);
    runnel_free(w.ends);
    return joined ? RUNNEL_OK : RUNNEL_E_NOT_COMPUTED;
}

/** Arc from the end of one stretch to the start of the one that follows. */
static runnel_status round_corner(const trace *t, const stretch *one, const stretch *other,
                                  runnel_contours *rings) {
    runnel_point a = from_to(one->to.at, t->drawn.points[one->first + one->count - 1]);
    runnel_point b = from_to(other->from.at, t->drawn.points[other->first]);
    double angle = atan2(cross(a, b), a.x_mm * b.x_mm + a.y_mm * b.y_mm);
    if (angle < -0.5 * pi) /* half a turn, but for rounding */
        angle += 2 * pi;
    return add_arc(rings, one->to.at, a, fmax(angle, 0), chord_angle(t->round, t->chord));
}

/** Turns the last ring round. */
static void turn_round(runnel_contours *rings) {
    const runnel_contour *ring = &rings->items[rings->count - 1];
    runnel_point *low = rings->points + ring->first, *high = low + ring->count;
    while (low < --high) {
        runnel_point swap = *low;
        *low++ = *high;
        *high = swap;
    }
}

/** Appends a stretch, and the arc after it. Where it is joined without an arc, the stretch before
 * it has its first point. */
static runnel_status draw_stretch(const trace *t, const stretch *s, runnel_contours *rings) {
    size_t skipped = t->round > 0 && s->from.own != RUNNEL_STOP_NONE ? 0 : 1;
    size_t count = s->count - skipped;
    runnel_status status = reserve_points(rings, count);
    if (status)
        return status;
    for (size_t i = 0; i < count; i++)
        rings->points[rings->point_count + i] = t->drawn.points[s->first + skipped + i];
    rings->point_count += count;
    if (t->round > 0 && s->to.own != RUNNEL_STOP_NONE)
        status = round_corner(t, s, &t->stretches[s->next], rings);
    return status;
}

/** The ring that goes through a stretch; left out when too little is left for an area. */
static runnel_status draw_ring(trace *t, size_t through, runnel_contours *rings) {
    runnel_status status = runnel_contours_begin(rings, true);
    for (size_t i = through; !status && !t->stretches[i].is_drawn; i = t->stretches[i].next) {
        t->stretches[i].is_drawn = true;
        status = draw_stretch(t, &t->stretches[i], rings);
    }
    if (status)
        return status;
    runnel_contour *ring = &rings->items[rings->count - 1];
    ring->count = rings->point_count - ring->first;
    if (ring->count < 3) {
        rings->point_count = ring->first;
        rings->count--;
    } else if (isfinite(t->profile->reach_mm)) {
        turn_round(rings); /* the domain is what lies without */
    }
    return RUNNEL_OK;
}

static runnel_status draw_rings(trace *t, runnel_contours *rings) {
    runnel_status status = reserve_points(rings, t->drawn.point_count);
    for (size_t i = 0; i < t->count && !status; i++)
        if (!t->stretches[i].is_drawn)
            status = draw_ring(t, i, rings);
    if (!status && !rings->count)
        status = RUNNEL_E_SHAPE;
    return status;
}

/* ---- All ------------------------------------------------------------------------------------ */

/** Whether the rings enclose what the pieces say. */
static bool areas_agree(const trace *t) {
    const runnel_profile *profile = t->profile;
    double wanted = runnel_sum_value(&t->wanted), enclosed = runnel_sum_value(&t->enclosed);
    double whole = fabs(profile->boundary.area_mm2) + profile->area_mm2;
    return fabs(enclosed - wanted) <= (profile->mismatch + AREA_SHARE) * whole;
}

static runnel_status draw_stretches(trace *t, runnel_contours *rings) {
    runnel_status status = RUNNEL_OK;
    for (size_t next = 0; next < t->profile->count && !status;)
        status = add_cycle(t, next, &next);
    if (!status && !t->count)
        status = RUNNEL_E_SHAPE;
    if (!status)
        status = join_neighbours(t) ? join_others(t) : RUNNEL_E_NOT_COMPUTED;
    if (!status && !areas_agree(t))
        status = RUNNEL_E_NOT_COMPUTED;
    return status ? status : draw_rings(t, rings);
}

/** One attempt, with the border `away` from the boundary and its corners at a level. */
static runnel_status draw_level(const runnel_profile *profile, double level, double away,
                                double chord, runnel_contours *rings) {
    trace t = {.profile = profile,
               .level = level,
               .away = away,
               .round = level - away,
               .chord = chord,
               .span = {.is_empty = true}};
    /* less what is nearer: the normals that end before the level whole, of the others the start */
    runnel_moments nearer = runnel_profile_moments(profile, level);
    runnel_sum_add(&t.wanted, profile->boundary.area_mm2);
    runnel_sum_add(&t.wanted, -nearer.area);
    runnel_sum_add(&t.wanted, t.round * nearer.length);
    runnel_sum_add(&t.wanted, 0.5 * level * level * nearer.angle); /* anew by put_fan */
    runnel_status status = reserve_points(&t.drawn, 2 * profile->boundary.count);
    if (!status)
        status = draw_stretches(&t, rings);
    runnel_contours_clear(&t.drawn);
    runnel_free(t.stretches);
    return status;
}

runnel_status runnel_profile_trace(const runnel_profile *profile, double in_mm, double out_mm,
                                   double chord_mm, runnel_contours *region) {
    bool has_reach = isfinite(profile->reach_mm);
    bool is_within = has_reach ? in_mm == 0 && out_mm > 0 && out_mm <= profile->reach_mm
                               : out_mm >= 0 && out_mm <= in_mm && isfinite(in_mm);
    if (!is_within || !(chord_mm > 0) || !profile->boundary.count)
        return RUNNEL_E_RANGE;
    runnel_contours rings = {0};
    runnel_status status = RUNNEL_E_NOT_COMPUTED;
    for (size_t i = 0; i < COUNT(closer) && status == RUNNEL_E_NOT_COMPUTED; i++) {
        double level = closer[i] * runnel_fitting(has_reach ? out_mm : in_mm);
        double away = has_reach ? level : fmax(0, fmin(level, in_mm - out_mm));
        runnel_contours_clear(&rings);
        status = draw_level(profile, level, away, chord_mm, &rings);
    }
    if (status) {
        runnel_contours_clear(&rings);
        return status;
    }
    rings.flatten_mm = chord_mm;
    runnel_contours_clear(region);
    *region = rings;
    return RUNNEL_OK;
}
