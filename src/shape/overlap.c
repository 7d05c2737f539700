/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shape/overlap.h"

#include "base/memory.h"
#include "numeric/quadrature.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

/** A corner: where it is, and its cone of outward directions, `from` plus up to `span` rad. */
struct runnel_centre_corner {
    runnel_point at;
    double from, span;
    double ax, ay, bx, by; /**< unit vectors along the sides of the cone */
};

/** A side of the set: the offset of a segment, or an arc about a reflex corner. */
struct runnel_centre_side {
    bool is_arc;
    runnel_point a, b;   /**< ends; in the sense of the boundary */
    runnel_point centre; /**< of an arc */
    double nx, ny;       /**< unit normal into the set, of a straight side */
    double length;       /**< of a straight side */
    double min_x, max_x; /**< box, for the search */
    double min_y, max_y;
    double most_right; /**< greatest max_x of the half of the sorted sides that this one divides */
};

typedef struct runnel_centre_corner centre_corner;
typedef struct runnel_centre_side centre_side;

/** Distance, as a share of sigma, under which a side ends in a corner. */
#define MEET_SHARE 1e-7

/** How closely the area of a sector is sought: panels to start with, and the quadrature error of
 * one as a share of what a whole rad of the sector would hold. */
typedef struct closeness {
    int panels;
    double share;
} closeness;

static const closeness section_closeness = {16, 1e-9};
static const closeness summand_closeness = {4, 1e-5}; /* of an integral over many levels */

static double wrapped(double angle) {
    return angle > pi ? angle - 2 * pi : (angle < -pi ? angle + 2 * pi : angle);
}

/** Point of the boundary that a stop offers to a disc of radius m about a centre. */
static runnel_point other_foot(const runnel_profile *profile, runnel_stop stop, runnel_point centre,
                               double m) {
    const runnel_edge *f = &profile->boundary.edges[runnel_stop_index(stop)];
    if (runnel_stop_is_corner(stop))
        return (runnel_point){f->x, f->y};
    return (runnel_point){centre.x_mm + m * f->uy, centre.y_mm - m * f->ux};
}

static runnel_status add_corner(const runnel_profile *profile, const runnel_piece *piece, double x,
                                runnel_centres *set) {
    runnel_status status = runnel_reserve(&set->corners, &set->corner_capacity,
                                          set->corner_count + 1, sizeof *set->corners);
    if (status)
        return status;
    double s = runnel_piece_parameter(profile, piece, x);
    runnel_point at = runnel_piece_centre(profile, piece, s, set->sigma);
    runnel_point mine = runnel_piece_centre(profile, piece, s, 0);
    runnel_point other = other_foot(profile, piece->stop, at, set->sigma);
    double first = atan2(mine.y_mm - at.y_mm, mine.x_mm - at.x_mm);
    double second = atan2(other.y_mm - at.y_mm, other.x_mm - at.x_mm);
    double span = wrapped(second - first);
    double from = span < 0 ? second : first, to = from + fabs(span);
    set->corners[set->corner_count++] =
        (centre_corner){at, from, fabs(span), cos(from), sin(from), cos(to), sin(to)};
    return RUNNEL_OK;
}

static runnel_status add_corners(const runnel_profile *profile, const runnel_piece *piece,
                                 runnel_centres *set) {
    double sigma = set->sigma, h = piece->h;
    if (!(piece->low < sigma && sigma < piece->high))
        return RUNNEL_OK;
    if (piece->kind == RUNNEL_PIECE_LINE)
        return add_corner(profile, piece, (sigma - piece->x0) / (piece->x1 - piece->x0), set);
    double x = piece->kind == RUNNEL_PIECE_FAN_POINT ? sqrt((sigma - h) * (sigma + h))
                                                     : sqrt(h * (2 * sigma - h));
    double left = fmin(piece->x0, piece->x1), right = fmax(piece->x0, piece->x1);
    runnel_status status = RUNNEL_OK;
    if (x > left && x < right)
        status = add_corner(profile, piece, x, set);
    if (!status && -x > left && -x < right)
        status = add_corner(profile, piece, -x, set);
    return status;
}

static runnel_status add_side(const runnel_profile *profile, const runnel_piece *piece, double from,
                              double to, runnel_centres *set) {
    runnel_status status =
        runnel_reserve(&set->sides, &set->side_capacity, set->side_count + 1, sizeof *set->sides);
    if (status)
        return status;
    const runnel_edge *e = &profile->boundary.edges[piece->edge];
    centre_side side = {.is_arc = runnel_piece_is_fan(piece),
                        .a = runnel_piece_centre(profile, piece, from, set->sigma),
                        .b = runnel_piece_centre(profile, piece, to, set->sigma),
                        .centre = {e->x, e->y},
                        .nx = -e->uy,
                        .ny = e->ux};
    side.length = side.is_arc ? 0 : hypot(side.b.x_mm - side.a.x_mm, side.b.y_mm - side.a.y_mm);
    double bulge = side.is_arc ? set->sigma * (1 - cos(0.5 * fabs(to - from))) : 0;
    side.min_x = fmin(side.a.x_mm, side.b.x_mm) - bulge;
    side.max_x = fmax(side.a.x_mm, side.b.x_mm) + bulge;
    side.min_y = fmin(side.a.y_mm, side.b.y_mm) - bulge;
    side.max_y = fmax(side.a.y_mm, side.b.y_mm) + bulge;
    set->sides[set->side_count++] = side;
    return RUNNEL_OK;
}

/** The parts of a piece with m >= sigma, as sides. */
static runnel_status add_sides(const runnel_profile *profile, const runnel_piece *piece,
                               runnel_centres *set) {
    runnel_piece parts[2];
    size_t count = runnel_piece_above(piece, set->sigma, parts);
    runnel_status status = RUNNEL_OK;
    for (size_t k = 0; k < count && !status; k++) {
        bool whole = piece->low >= set->sigma;
        double from = piece->from, to = piece->to;
        if (!whole && piece->kind == RUNNEL_PIECE_LINE) {
            from = parts[k].from;
            to = parts[k].to;
        } else if (!whole) {
            from = runnel_piece_parameter(profile, piece, parts[k].x0);
            to = runnel_piece_parameter(profile, piece, parts[k].x1);
        }
        if (to > from)
            status = add_side(profile, piece, from, to, set);
    }
    return status;
}

static int by_left(const void *left, const void *right) {
    const centre_side *a = left, *b = right;
    return (a->min_x > b->min_x) - (a->min_x < b->min_x);
}

void runnel_centres_clear(runnel_centres *centres) {
    runnel_free(centres->corners);
    runnel_free(centres->sides);
    memset(centres, 0, sizeof *centres);
}

/** Divides sorted sides at the middle one, and its halves again, as the search will. */
static double find_most_right(centre_side *sides, size_t low, size_t high) {
    if (low >= high)
        return -INFINITY;
    size_t middle = low + (high - low) / 2;
    double before = find_most_right(sides, low, middle);
    double after = find_most_right(sides, middle + 1, high);
    return sides[middle].most_right = fmax(sides[middle].max_x, fmax(before, after));
}

/** Removes the corners from `first` on that are not wanted. */
static void keep_wanted(const runnel_centre_choice *choice, size_t first, runnel_centres *set) {
    size_t kept = first;
    for (size_t i = first; i < set->corner_count; i++)
        if (choice->wants(set->corners[i].at, set->sigma, choice->state))
            set->corners[kept++] = set->corners[i];
    set->corner_count = kept;
}

runnel_status runnel_centres_collect(const runnel_profile *profile, double sigma_mm,
                                     const runnel_centre_choice *choice, runnel_centres *centres) {
    runnel_status status = RUNNEL_OK;
    size_t count = choice ? choice->count : profile->count;
    centres->sigma = runnel_fitting(sigma_mm);
    centres->corner_count = centres->side_count = 0;
    for (size_t i = 0; i < count && !status && profile->boundary.edges; i++) {
        const runnel_piece *piece = &profile->pieces[choice ? choice->pieces[i] : i];
        size_t first = centres->corner_count;
        status = add_corners(profile, piece, centres);
        if (!status && choice)
            keep_wanted(choice, first, centres);
        if (!status)
            status = add_sides(profile, piece, centres);
    }
    if (!status && centres->side_count) {
        qsort(centres->sides, centres->side_count, sizeof *centres->sides, by_left);
        find_most_right(centres->sides, 0, centres->side_count);
    }
    return status;
}

/** One cone under study. */
typedef struct cone {
    const centre_corner *corner;
    const centre_side *const *near;
    size_t count;
    double sigma, rho;
    double tolerance; /**< of one panel's integral */
} cone;

static double dot(double ax, double ay, double bx, double by) {
    return ax * bx + ay * by;
}

/** Radius at which a disc growing from the corner in a direction touches a point. */
static double reach_of_point(const centre_corner *c, runnel_point p, double wx, double wy) {
    double gx = p.x_mm - c->at.x_mm, gy = p.y_mm - c->at.y_mm, ahead = dot(gx, gy, wx, wy);
    return ahead > 0 ? dot(gx, gy, gx, gy) / (2 * ahead) : INFINITY;
}

static double reach_of_straight(const centre_corner *c, const centre_side *s, double wx,
                                double wy) {
    double gx = s->a.x_mm - c->at.x_mm, gy = s->a.y_mm - c->at.y_mm;
    double gap = dot(gx, gy, s->nx, s->ny), closing = 1 + dot(wx, wy, s->nx, s->ny);
    if (!(gap > 0) || !(closing > 0))
        return INFINITY;
    double t = gap / closing;
    double foot = dot(t * wx - gx, t * wy - gy, s->ny, -s->nx);
    return foot >= 0 && foot <= s->length ? t : INFINITY;
}

static double reach_of_arc(const centre_corner *c, const centre_side *s, double sigma, double wx,
                           double wy) {
    double gx = c->at.x_mm - s->centre.x_mm, gy = c->at.y_mm - s->centre.y_mm;
    double inside = sigma * sigma - dot(gx, gy, gx, gy);
    double closing = sigma + dot(wx, wy, gx, gy);
    if (!(inside > 0) || !(closing > 0))
        return INFINITY;
    double t = inside / (2 * closing);
    double ray_x = gx + t * wx, ray_y = gy + t * wy;
    double ax = s->a.x_mm - s->centre.x_mm, ay = s->a.y_mm - s->centre.y_mm;
    double bx = s->b.x_mm - s->centre.x_mm, by = s->b.y_mm - s->centre.y_mm;
    /* the arc runs clockwise from a to b, by less than half a turn */
    bool within = ax * ray_y - ay * ray_x <= 0 && ray_x * by - ray_y * bx <= 0;
    return within ? t : INFINITY;
}

/** Radius at which a disc that grows in a direction touches another place, at most rho. */
static double free_reach(const cone *k, double angle) {
    double wx = cos(angle), wy = sin(angle), t = k->rho;
    for (size_t i = 0; i < k->count; i++) {
        const centre_side *s = k->near[i];
        t = fmin(t, reach_of_point(k->corner, s->a, wx, wy));
        t = fmin(t, reach_of_point(k->corner, s->b, wx, wy));
        t = fmin(t, s->is_arc ? reach_of_arc(k->corner, s, k->sigma, wx, wy)
                              : reach_of_straight(k->corner, s, wx, wy));
    }
    return t;
}

/** Area of the sector per rad that belongs to another place: (rho^2 - t^2)/2 where t < rho. */
static double lost_area(double angle, void *state) {
    const cone *k = state;
    double t = free_reach(k, angle);
    return 0.5 * (k->rho - t) * (k->rho + t);
}

/** Arc of the sector per rad that lies within another place. */
static double lost_arc(double angle, void *state) {
    const cone *k = state;
    return free_reach(k, angle) < k->rho ? k->rho : 0;
}

/** Integral of one of these over a panel. The integrand has a kink or a step where the nearest
 * place changes or comes into reach, so a panel is halved until both sides of it agree. */
static double lost_between(double (*lost)(double, void *), cone *k, double from, double to,
                           int halvings) {
    double middle = 0.5 * (from + to);
    double whole = runnel_gauss_legendre(lost, k, from, to, 8);
    double left = runnel_gauss_legendre(lost, k, from, middle, 8);
    double right = runnel_gauss_legendre(lost, k, middle, to, 8);
    if (halvings == 0 || fabs(left + right - whole) <= k->tolerance)
        return left + right;
    return lost_between(lost, k, from, middle, halvings - 1) +
           lost_between(lost, k, middle, to, halvings - 1);
}

static bool meets(const centre_corner *c, runnel_point p, double sigma) {
    double gx = p.x_mm - c->at.x_mm, gy = p.y_mm - c->at.y_mm, most = MEET_SHARE * sigma;
    return dot(gx, gy, gx, gy) <= most * most;
}

/** Greatest component of a vector in any direction of the cone, which spans less than half a turn.
 */
static double most_towards(const centre_corner *c, double gx, double gy) {
    bool within = c->ax * gy - c->ay * gx >= 0 && gx * c->by - gy * c->bx >= 0;
    return within ? sqrt(dot(gx, gy, gx, gy))
                  : fmax(dot(gx, gy, c->ax, c->ay), dot(gx, gy, c->bx, c->by));
}

/** Whether a disc that grows from the corner in any direction touches a point before rho. */
static bool point_in_reach(const centre_corner *c, runnel_point p, double rho) {
    double gx = p.x_mm - c->at.x_mm, gy = p.y_mm - c->at.y_mm;
    return dot(gx, gy, gx, gy) < 2 * rho * most_towards(c, gx, gy);
}

/** The same of a side; true as well where the line or the circle that it lies on is touched. */
static bool side_in_reach(const centre_corner *c, const centre_side *s, double sigma, double rho) {
    if (point_in_reach(c, s->a, rho) || point_in_reach(c, s->b, rho))
        return true;
    if (s->is_arc) {
        double gx = c->at.x_mm - s->centre.x_mm, gy = c->at.y_mm - s->centre.y_mm;
        double inside = sigma * sigma - dot(gx, gy, gx, gy);
        return inside > 0 && inside < 2 * rho * (sigma + most_towards(c, gx, gy));
    }
    double gap = dot(s->a.x_mm - c->at.x_mm, s->a.y_mm - c->at.y_mm, s->nx, s->ny);
    /* the other parts of the segments that meet in the corner have no gap but rounding */
    return gap > MEET_SHARE * sigma && gap < rho * (1 + most_towards(c, s->nx, s->ny));
}

/** Search for the sides in reach of a corner that do not end in it. */
typedef struct search {
    const runnel_centres *set;
    const centre_corner *corner;
    double rho;
    const centre_side **near;
    size_t count, most; /**< kept, and room */
} search;

static bool is_near(const search *q, const centre_side *s) {
    double reach = 2 * q->rho, x = q->corner->at.x_mm, y = q->corner->at.y_mm;
    double sigma = q->set->sigma;
    return s->max_x >= x - reach && s->min_y <= y + reach && s->max_y >= y - reach &&
           !meets(q->corner, s->a, sigma) && !meets(q->corner, s->b, sigma) &&
           side_in_reach(q->corner, s, sigma, q->rho);
}

static void search_sides(search *q, size_t low, size_t high) {
    double reach = 2 * q->rho, x = q->corner->at.x_mm;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        const centre_side *s = &q->set->sides[middle];
        if (s->most_right < x - reach)
            return;
        search_sides(q, low, middle);
        if (s->min_x > x + reach)
            return;
        if (is_near(q, s) && q->count < q->most)
            q->near[q->count++] = s;
        low = middle + 1;
    }
}

/** Sum over all corners, of which each stands twice. */
static double lost_of_all(const runnel_centres *set, double rho, double (*lost)(double, void *),
                          closeness close) {
    enum { MOST_NEAR = 256, MOST_HALVINGS = 16 };
    const centre_side *near[MOST_NEAR] = {NULL};
    double tolerance = close.share * (lost == lost_area ? 0.5 * rho * rho : rho), total = 0;
    for (size_t i = 0; i < set->corner_count && rho > 0; i++) {
        const centre_corner *c = &set->corners[i];
        search q = {set, c, rho, near, 0, MOST_NEAR};
        search_sides(&q, 0, set->side_count);
        cone k = {c, near, q.count, set->sigma, rho, tolerance};
        double step = c->span / close.panels;
        for (int p = 0; p < close.panels && q.count; p++)
            total +=
                lost_between(lost, &k, c->from + p * step, c->from + (p + 1) * step, MOST_HALVINGS);
    }
    return 0.5 * total;
}

double runnel_centres_overlap(const runnel_centres *centres, double rho_mm, bool closely) {
    return lost_of_all(centres, rho_mm, lost_area, closely ? section_closeness : summand_closeness);
}

runnel_status runnel_overlap_area(const runnel_profile *profile, double sigma, double rho,
                                  double *area) {
    runnel_centres set = {0};
    runnel_status status = runnel_centres_collect(profile, sigma, NULL, &set);
    if (!status)
        *area = runnel_centres_overlap(&set, rho, true);
    runnel_centres_clear(&set);
    return status;
}

runnel_status runnel_overlap_border(const runnel_profile *profile, double sigma, double rho,
                                    double *length) {
    runnel_centres set = {0};
    runnel_status status = runnel_centres_collect(profile, sigma, NULL, &set);
    if (!status)
        *length = lost_of_all(&set, rho, lost_arc, section_closeness);
    runnel_centres_clear(&set);
    return status;
}
