/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "brute.h"

#include "shape/curves.h"
#include "shape/pieces.h"

#include <float.h>

/* Smallest angle, rad, at which a segment counts as rising above the tangent at its own end. */
#define LEAST_RISE 1e-12L

/* --- the largest disc by brute force --- */

typedef struct touching {
    long double x, y, nx, ny;
} touching;

/* Radius at which a disc that touches at p reaches the point q; infinite for one not ahead. */
static long double reach_point(const touching *p, long double qx, long double qy) {
    long double rx = qx - p->x, ry = qy - p->y, ahead = rx * p->nx + ry * p->ny;
    long double square = rx * rx + ry * ry;
    return ahead > LEAST_RISE * sqrtl(square) ? square / (2 * ahead) : INFINITY;
}

/* The same for all points of a segment: least of |r|^2 / 2 n.r over it, r = a + u (b - a) - p. */
static long double reach_segment(const touching *p, const runnel_edge *a, const runnel_edge *b) {
    long double ax = a->x - p->x, ay = a->y - p->y;
    long double gx = (long double)b->x - a->x, gy = (long double)b->y - a->y;
    long double d0 = ax * ax + ay * ay, d1 = 2 * (ax * gx + ay * gy), d2 = gx * gx + gy * gy;
    long double n0 = ax * p->nx + ay * p->ny, n1 = gx * p->nx + gy * p->ny;
    long double best = fminl(reach_point(p, a->x, a->y), reach_point(p, b->x, b->y));
    /* where the derivative vanishes: d2 n1 u^2 + 2 d2 n0 u + d1 n0 - d0 n1 = 0 */
    long double qa = d2 * n1, qb = d2 * n0, qc = d1 * n0 - d0 * n1, inside = qb * qb - qa * qc;
    if (inside < 0)
        return best;
    long double q = -(qb + copysignl(sqrtl(inside), qb));
    long double roots[2] = {qa != 0 ? q / qa : -1, q != 0 ? qc / q : -1};
    for (int i = 0; i < 2; i++)
        if (roots[i] > 0 && roots[i] < 1)
            best = fminl(best, reach_point(p, a->x + roots[i] * gx, a->y + roots[i] * gy));
    return best;
}

/* Where the element touches at a parameter: s along a segment, or an angle clockwise from the
 * normal of the segment before the corner. */
static touching touching_at(const runnel_boundary *b, const runnel_element *element, double at) {
    const runnel_edge *e = &b->edges[element->edge];
    const runnel_edge *from = element->fan ? &b->edges[e->previous] : e;
    const runnel_edge *to = &b->edges[from->next];
    long double dx = (long double)to->x - from->x, dy = (long double)to->y - from->y;
    long double length = sqrtl(dx * dx + dy * dy), ux = dx / length, uy = dy / length;
    if (!element->fan)
        return (touching){e->x + at * ux, e->y + at * uy, -uy, ux};
    long double c = cosl(at), s = sinl(at);
    return (touching){e->x, e->y, -uy * c + ux * s, ux * c + uy * s};
}

static double brute(const runnel_boundary *b, const runnel_element *element, double at,
                    double reach) {
    touching p = touching_at(b, element, at);
    long double best = reach;
    for (uint32_t i = 0; i < b->count; i++)
        if (element->fan || (i != element->edge && b->edges[i].twin != element->edge))
            best = fminl(best, reach_segment(&p, &b->edges[i], &b->edges[b->edges[i].next]));
    return (double)best;
}

/* --- m by the pieces --- */

/* x of a piece at a parameter between its ends. */
static double x_at(const runnel_piece *piece, double at) {
    double sign = piece->x1 >= piece->x0 ? 1 : -1, gone = at - piece->from;
    switch (piece->kind) {
    case RUNNEL_PIECE_LINE:
        return gone / (piece->to - piece->from);
    case RUNNEL_PIECE_POINT:
        return piece->x0 + gone;
    case RUNNEL_PIECE_FAN_LINE:
        return piece->h * tan(atan(piece->x0 / piece->h) + sign * gone / 2);
    case RUNNEL_PIECE_FAN_POINT:
        return piece->h * tan(atan(piece->x0 / piece->h) + sign * gone);
    case RUNNEL_PIECE_CONST:
    case RUNNEL_PIECE_FAN_CONST:
        break;
    }
    return 0;
}

static const runnel_piece *piece_at(const runnel_profile *profile, const runnel_element *element,
                                    double at) {
    for (size_t i = 0; i < profile->count; i++) {
        const runnel_piece *p = &profile->pieces[i];
        if (p->edge == element->edge && runnel_piece_is_fan(p) == element->fan && at >= p->from &&
            at <= p->to)
            return p;
    }
    return NULL;
}

/* How near the brute force comes. Memcheck does long double in the digits of double, which leaves
 * few of them in the thinnest gaps; there it is the memory that is looked at. */
static double brute_tolerance(void) {
    volatile long double one = 1;
    return one + LDBL_EPSILON > one ? 1e-8 : 1e-3;
}

static void compare_at(const runnel_profile *profile, const runnel_element *element, double at) {
    const runnel_piece *piece = piece_at(profile, element, at);
    ck_assert_msg(piece != NULL, "no piece at %.17g of %s %u", at, element->fan ? "fan" : "segment",
                  element->edge);
    double m = fmin(runnel_piece_m(piece, x_at(piece, at)), profile->reach_mm);
    double want = brute(&profile->boundary, element, at, profile->reach_mm);
    double size = profile->boundary.size_mm;
    /* 1/m is what is continuous; far above the size of the shape m does not matter */
    ck_assert_msg(runnel_near(1 / m, 1 / want, brute_tolerance(), 1e-9 / size),
                  "%s %u at %.17g of %.17g: m %.17g, brute force %.17g",
                  element->fan ? "fan" : "segment", element->edge, at, element->length, m, want);
}

/* Each element's pieces follow each other from 0 to its length. */
static void check_tiling(const runnel_profile *profile) {
    const runnel_boundary *b = &profile->boundary;
    double covered = 0, wanted = 0;
    for (size_t i = 0; i < profile->count; i++) {
        const runnel_piece *p = &profile->pieces[i];
        ck_assert(p->to > p->from);
        ck_assert(p->low >= 0 && p->low <= p->high);
        covered += p->to - p->from;
        bool same = i > 0 && profile->pieces[i - 1].edge == p->edge &&
                    runnel_piece_is_fan(&profile->pieces[i - 1]) == runnel_piece_is_fan(p);
        ck_near_or(p->from, same ? profile->pieces[i - 1].to : 0, 0, 0);
    }
    for (uint32_t i = 0; i < b->count; i++) {
        wanted += runnel_element_segment(b, i).length;
        if (b->edges[i].reflex)
            wanted += runnel_element_fan(b, i).length;
    }
    ck_near(covered, wanted, 1e-9);
}

void compare_with_brute(const runnel_profile *profile, chance *c, size_t samples) {
    const runnel_boundary *b = &profile->boundary;
    check_tiling(profile);
    for (size_t i = 0; i < samples; i++) {
        uint32_t edge = (uint32_t)chance_below(c, b->count);
        runnel_element element = runnel_element_segment(b, edge);
        compare_at(profile, &element, chance_between(c, 0, element.length));
        if (!b->edges[edge].reflex)
            continue;
        element = runnel_element_fan(b, edge);
        if (element.length > 0)
            compare_at(profile, &element, chance_between(c, 0, element.length));
    }
}
