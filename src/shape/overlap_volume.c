/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The overlap of sectors at necks, summed over the rise of a tip.
 *
 * Two centres with discs of radius sigma that stand less than 2 rho apart have between them no
 * place with less room than sqrt(sigma^2 - rho^2). So what overlaps at sigma does so at a neck, a
 * local minimum m of the medial axis, with m < sigma <= sqrt(m^2 + rho^2): the overlap sets in with
 * a jump just above m and is gone soon after. Only those ranges are looked at.
 */
#include "base/memory.h"
#include "numeric/quadrature.h"
#include "shape/overlap.h"

#include <math.h>
#include <stdlib.h>

/** Quadrature error, as a share of area times rise. */
#define RISE_TOLERANCE 1e-6

/** Necks nearer to each other than this share are one. */
#define SAME_NECK 1e-6

enum {
    NODES = 5,
    MOST_NECKS = 16,    /**< at which the integral is split; more are taken in groups */
    MOST_HALVINGS = 14, /**< of a panel */
    MOST_PANELS = 200   /**< in all, after which the error stays as it is */
};

/** Growing list of the necks' m. */
typedef struct neck_list {
    double *m;
    size_t count, capacity;
} neck_list;

static double m_at_start(const runnel_piece *p) {
    return runnel_piece_m(p, p->kind == RUNNEL_PIECE_LINE ? 0 : p->x0);
}

/** Whether m has its minimum inside a piece of a curved kind. */
static bool dips(const runnel_piece *p) {
    return p->kind != RUNNEL_PIECE_LINE && (p->x0 < 0) != (p->x1 < 0);
}

static bool falls_at_end(const runnel_piece *p) {
    if (p->kind == RUNNEL_PIECE_LINE)
        return p->x1 <= p->x0;
    return !dips(p) && fabs(p->x1) <= fabs(p->x0);
}

static bool rises_from_start(const runnel_piece *p) {
    if (p->kind == RUNNEL_PIECE_LINE)
        return p->x1 >= p->x0;
    return !dips(p) && fabs(p->x1) >= fabs(p->x0);
}

static int by_value(const void *left, const void *right) {
    const double *a = left, *b = right;
    return (*a > *b) - (*a < *b);
}

static runnel_status add_neck(neck_list *list, double m, double low, double high) {
    if (!(m > low && m < high))
        return RUNNEL_OK;
    runnel_status status =
        runnel_reserve(&list->m, &list->capacity, list->count + 1, sizeof *list->m);
    if (!status)
        list->m[list->count++] = m;
    return status;
}

/** Local minima of m along the boundary between two levels, sorted, each once. */
static runnel_status find_necks(const runnel_profile *profile, double low, double high,
                                neck_list *list) {
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < profile->count && !status; i++) {
        const runnel_piece *p = &profile->pieces[i];
        if (dips(p))
            status = add_neck(list, p->low, low, high);
        bool after_fall = i == 0 || falls_at_end(&profile->pieces[i - 1]);
        if (!status && rises_from_start(p) && after_fall)
            status = add_neck(list, m_at_start(p), low, high);
    }
    if (list->count)
        qsort(list->m, list->count, sizeof *list->m, by_value);
    size_t kept = 0;
    for (size_t i = 0; i < list->count; i++)
        if (kept == 0 || list->m[i] > list->m[kept - 1] * (1 + SAME_NECK))
            list->m[kept++] = list->m[i];
    list->count = kept;
    return status;
}

/** Integration over the rise of the cutter. */
typedef struct rise {
    const runnel_profile *profile;
    runnel_centres set;
    double rho, from, width; /**< tip, and the range of sigma in hand */
    double tolerance, error;
    int panels; /**< that may still be made */
    runnel_status status;
} rise;

/** Overlap at sigma = from + width u^2, by du: the nodes crowd where it sets in. */
static double overlap_at(double u, void *state) {
    rise *r = state;
    if (r->status)
        return 0;
    r->status = runnel_centres_collect(r->profile, r->from + r->width * u * u, &r->set);
    return r->status ? 0 : 2 * u * r->width * runnel_centres_overlap(&r->set, r->rho, false);
}

/** Halves a panel until both sides agree with it. */
static double refine(rise *r, double from, double to, double whole, int halvings) {
    double middle = 0.5 * (from + to);
    double left = runnel_gauss_legendre(overlap_at, r, from, middle, NODES);
    double right = runnel_gauss_legendre(overlap_at, r, middle, to, NODES);
    double gap = fabs(left + right - whole);
    r->panels -= 2;
    if (gap <= r->tolerance || halvings == 0 || r->panels <= 0) {
        r->error += gap;
        return left + right;
    }
    return refine(r, from, middle, left, halvings - 1) + refine(r, middle, to, right, halvings - 1);
}

static double range_integral(rise *r, double from, double to) {
    r->from = from;
    r->width = to - from;
    double whole = runnel_gauss_legendre(overlap_at, r, 0, 1, NODES);
    return whole > 0 ? refine(r, 0, 1, whole, MOST_HALVINGS) : 0;
}

/** Sums over the ranges above each neck (or group of necks), each ending where the next begins. */
static double all_ranges(rise *r, const neck_list *necks, double high) {
    size_t group = (necks->count + MOST_NECKS - 1) / MOST_NECKS;
    double sum = 0, rho = r->rho;
    for (size_t i = 0; i < necks->count; i += group) {
        size_t next = i + group, last = (next < necks->count ? next : necks->count) - 1;
        double from = fmax(necks->m[i], rho), to = fmin(high, hypot(necks->m[last], rho));
        if (next < necks->count)
            to = fmin(to, necks->m[next]);
        if (to > from)
            sum += range_integral(r, from, to);
    }
    return sum;
}

runnel_status runnel_overlap_volume(const runnel_profile *profile, double rho, double wide,
                                    double *value, double *error) {
    *value = *error = 0;
    if (!profile->boundary.edges || !(wide > 0) || !(rho > 0))
        return RUNNEL_OK;
    neck_list necks = {0};
    rise r = {.profile = profile,
              .rho = rho,
              .tolerance = RISE_TOLERANCE * profile->area_mm2 * wide,
              .panels = MOST_PANELS};
    double high = rho + wide;
    r.status = find_necks(profile, 0, high, &necks);
    if (!r.status)
        *value = all_ranges(&r, &necks, high);
    *error = r.error;
    runnel_centres_clear(&r.set);
    runnel_free(necks.m);
    return r.status;
}
