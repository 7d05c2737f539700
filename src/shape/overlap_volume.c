/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The overlap of sectors at necks, summed over the rise of a tip.
 *
 * Two centres with discs of radius sigma that stand less than 2 rho apart have between them no
 * place with less room than sqrt(sigma^2 - rho^2). So what overlaps at sigma does so at a neck, a
 * local minimum m of the medial axis, with m < sigma <= sqrt(m^2 + rho^2): the overlap sets in with
 * a jump just above m and is gone soon after. Only those ranges are looked at, and for each set of
 * necks near each other only the pieces of the profile around them.
 */
#include "base/memory.h"
#include "numeric/quadrature.h"
#include "shape/overlap.h"

#include <math.h>
#include <stdlib.h>

/** Quadrature error, as a share of area times rise. */
#define RISE_TOLERANCE 1e-7

/** Necks nearer to each other than this share are one in the division of their range. */
#define SAME_NECK 1e-6

/** How far from its neck a corner is looked for, in tip radii; the sides that its sector may meet
 * lie within two more. Necks whose corners might be taken for each other's are studied together. */
static const double corner_reach = 4, side_reach = 6, link_reach = 8;

enum {
    NODES = 5,
    MOST_NECKS = 16,    /**< at which the integral is split; more are taken in groups */
    MOST_HALVINGS = 14, /**< of a panel */
    MOST_PANELS = 200   /**< of one set of necks, after which the error stays as it is */
};

/** A neck: where m is least. */
typedef struct neck {
    runnel_point at;
    double m;
    size_t set; /**< necks with the same number are studied together */
} neck;

typedef struct neck_list {
    neck *items;
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

/** Sigma up to which sectors overlap at a neck. */
static double range_end(const neck *n, double rho) {
    return hypot(n->m, rho);
}

/* ---- Finding necks ------------------------------------------------------------------------------
 */

static int by_number(double a, double b) {
    return (a > b) - (a < b);
}

static int by_place(const void *left, const void *right) {
    const neck *a = left, *b = right;
    return by_number(a->at.x_mm, b->at.x_mm);
}

static int by_set(const void *left, const void *right) {
    const neck *a = left, *b = right;
    if (a->set != b->set)
        return a->set < b->set ? -1 : 1;
    return by_number(a->at.x_mm, b->at.x_mm);
}

static int by_value(const void *left, const void *right) {
    const double *a = left, *b = right;
    return by_number(*a, *b);
}

static runnel_status add_neck(const runnel_profile *profile, const runnel_piece *p, double x,
                              double m, double high, neck_list *list) {
    if (!(m > 0 && m < high))
        return RUNNEL_OK;
    runnel_status status =
        runnel_reserve(&list->items, &list->capacity, list->count + 1, sizeof *list->items);
    if (!status) {
        double s = runnel_piece_parameter(profile, p, x);
        list->items[list->count] = (neck){runnel_piece_centre(profile, p, s, m), m, list->count};
        list->count++;
    }
    return status;
}

/** Local minima of m along the boundary, below a level. Each stands there as often as the boundary
 * sees it. */
static runnel_status find_necks(const runnel_profile *profile, double high, neck_list *list) {
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < profile->count && !status; i++) {
        const runnel_piece *p = &profile->pieces[i];
        if (dips(p))
            status = add_neck(profile, p, 0, p->low, high, list);
        bool after_fall = i == 0 || falls_at_end(&profile->pieces[i - 1]);
        if (!status && rises_from_start(p) && after_fall)
            status = add_neck(profile, p, p->kind == RUNNEL_PIECE_LINE ? 0 : p->x0, m_at_start(p),
                              high, list);
    }
    return status;
}

/* ---- Sets of necks ------------------------------------------------------------------------------
 */

static size_t root_of(neck_list *list, size_t i) {
    while (list->items[i].set != i)
        i = list->items[i].set = list->items[list->items[i].set].set;
    return i;
}

/** Gives necks that are near each other, in place and in range, one number, and sorts by it. */
static void link_necks(neck_list *list, double rho) {
    double reach = link_reach * rho;
    if (list->count)
        qsort(list->items, list->count, sizeof *list->items, by_place);
    for (size_t i = 0; i < list->count; i++)
        list->items[i].set = i;
    for (size_t i = 0; i < list->count; i++) {
        const neck *a = &list->items[i];
        for (size_t k = i + 1; k < list->count; k++) {
            const neck *b = &list->items[k];
            if (b->at.x_mm - a->at.x_mm > reach)
                break;
            if (fabs(b->at.y_mm - a->at.y_mm) <= reach && b->m <= range_end(a, rho) &&
                a->m <= range_end(b, rho))
                list->items[root_of(list, k)].set = root_of(list, i);
        }
    }
    for (size_t i = 0; i < list->count; i++)
        list->items[i].set = root_of(list, i);
    if (list->count)
        qsort(list->items, list->count, sizeof *list->items, by_set);
}

/** Some necks of the list that are studied together, by place from left to right. */
typedef struct neck_set {
    const neck *items;
    size_t count;
    double rho;
    runnel_box box;   /**< of their places */
    double low, high; /**< range of sigma that any of them covers */
} neck_set;

static neck_set set_of(const neck *first, size_t count, double rho, double high) {
    neck_set set = {first,    count,
                    rho,      {first->at.x_mm, first->at.y_mm, first->at.x_mm, first->at.y_mm},
                    INFINITY, 0};
    for (size_t i = 0; i < count; i++) {
        const neck *n = &first[i];
        set.box.max_x_mm = fmax(set.box.max_x_mm, n->at.x_mm);
        set.box.min_y_mm = fmin(set.box.min_y_mm, n->at.y_mm);
        set.box.max_y_mm = fmax(set.box.max_y_mm, n->at.y_mm);
        set.low = fmin(set.low, fmax(n->m, rho));
        set.high = fmax(set.high, fmin(range_end(n, rho), high));
    }
    return set;
}

/** Whether a corner at sigma belongs to one of the set's necks. */
static bool is_at_neck(runnel_point corner, double sigma, const void *state) {
    const neck_set *set = state;
    double reach = corner_reach * set->rho;
    size_t low = 0, high = set->count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (set->items[middle].at.x_mm < corner.x_mm - reach)
            low = middle + 1;
        else
            high = middle;
    }
    for (size_t i = low; i < set->count && set->items[i].at.x_mm <= corner.x_mm + reach; i++) {
        const neck *n = &set->items[i];
        if (n->m <= sigma && sigma <= range_end(n, set->rho) &&
            fabs(n->at.y_mm - corner.y_mm) <= reach)
            return true;
    }
    return false;
}

/* ---- Pieces near a set --------------------------------------------------------------------------
 */

/** Where a piece stands on the boundary. */
typedef struct stand {
    runnel_box box;
    size_t piece;
} stand;

typedef struct stands {
    stand *items; /**< from left to right */
    size_t count;
    double widest;
} stands;

static int by_left(const void *left, const void *right) {
    const stand *a = left, *b = right;
    return by_number(a->box.min_x_mm, b->box.min_x_mm);
}

static runnel_box box_of(runnel_point a, runnel_point b) {
    return (runnel_box){fmin(a.x_mm, b.x_mm), fmin(a.y_mm, b.y_mm), fmax(a.x_mm, b.x_mm),
                        fmax(a.y_mm, b.y_mm)};
}

static runnel_box box_at(const runnel_profile *profile, const runnel_piece *p, double t) {
    return box_of(runnel_piece_centre(profile, p, p->from, t),
                  runnel_piece_centre(profile, p, p->to, t));
}

static runnel_status list_stands(const runnel_profile *profile, stands *list) {
    list->items = runnel_zeroed(profile->count, sizeof *list->items);
    if (!list->items)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < profile->count; i++) {
        runnel_box box = box_at(profile, &profile->pieces[i], 0);
        list->items[i] = (stand){box, i};
        list->widest = fmax(list->widest, box.max_x_mm - box.min_x_mm);
    }
    list->count = profile->count;
    qsort(list->items, list->count, sizeof *list->items, by_left);
    return RUNNEL_OK;
}

static bool boxes_meet(const runnel_box *a, const runnel_box *b, double gap) {
    return a->min_x_mm <= b->max_x_mm + gap && b->min_x_mm <= a->max_x_mm + gap &&
           a->min_y_mm <= b->max_y_mm + gap && b->min_y_mm <= a->max_y_mm + gap;
}

/** Whether a side that a piece gives at any sigma of the set's range may lie near a neck. */
static bool may_matter(const runnel_profile *profile, const runnel_piece *p, const neck_set *set) {
    if (p->high < runnel_fitting(set->low))
        return false;
    runnel_box low = box_at(profile, p, set->low), high = box_at(profile, p, set->high);
    double bulge = runnel_piece_is_fan(p) ? set->high * (1 - cos(0.5 * fabs(p->to - p->from))) : 0;
    runnel_box both = {fmin(low.min_x_mm, high.min_x_mm), fmin(low.min_y_mm, high.min_y_mm),
                       fmax(low.max_x_mm, high.max_x_mm), fmax(low.max_y_mm, high.max_y_mm)};
    return boxes_meet(&both, &set->box, side_reach * set->rho + bulge);
}

static size_t choose_pieces(const runnel_profile *profile, const stands *all, const neck_set *set,
                            size_t *chosen) {
    double gap = set->high + side_reach * set->rho;
    size_t low = 0, high = all->count, count = 0;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (all->items[middle].box.min_x_mm < set->box.min_x_mm - gap - all->widest)
            low = middle + 1;
        else
            high = middle;
    }
    for (size_t i = low; i < all->count; i++) {
        const stand *s = &all->items[i];
        if (s->box.min_x_mm > set->box.max_x_mm + gap)
            break;
        if (boxes_meet(&s->box, &set->box, gap) &&
            may_matter(profile, &profile->pieces[s->piece], set))
            chosen[count++] = s->piece;
    }
    return count;
}

/* ---- Integration over the rise of the cutter ----------------------------------------------------
 */

typedef struct rise {
    const runnel_profile *profile;
    stands stands;
    size_t *chosen; /**< room for all pieces */
    double *levels; /**< room for the m of all necks */
    runnel_centre_choice choice;
    runnel_centres centres;
    double rho, high;   /**< tip, and where the floor ends the rise */
    double from, width; /**< the range of sigma in hand */
    double tolerance, error;
    int panels; /**< that may still be made */
    runnel_status status;
} rise;

/** Overlap at sigma = from + width u^2, by du: the nodes crowd where it sets in. */
static double overlap_at(double u, void *state) {
    rise *r = state;
    if (r->status)
        return 0;
    r->status =
        runnel_centres_collect(r->profile, r->from + r->width * u * u, &r->choice, &r->centres);
    return r->status ? 0 : 2 * u * r->width * runnel_centres_overlap(&r->centres, r->rho, false);
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

/** The m of a set's necks, sorted, each once. @return how many */
static size_t sort_levels(const neck_set *set, double *levels) {
    size_t kept = 0;
    for (size_t i = 0; i < set->count; i++)
        levels[i] = set->items[i].m;
    qsort(levels, set->count, sizeof *levels, by_value);
    for (size_t i = 0; i < set->count; i++)
        if (kept == 0 || levels[i] > levels[kept - 1] * (1 + SAME_NECK))
            levels[kept++] = levels[i];
    return kept;
}

/** Sums over the ranges above each neck of a set (or group of necks), each ending where the next
 * begins. */
static double set_integral(rise *r, const neck_set *set) {
    size_t count = sort_levels(set, r->levels), group = (count + MOST_NECKS - 1) / MOST_NECKS;
    double sum = 0;
    r->choice = (runnel_centre_choice){
        r->chosen, choose_pieces(r->profile, &r->stands, set, r->chosen), is_at_neck, set};
    r->panels = MOST_PANELS;
    for (size_t i = 0; i < count; i += group) {
        size_t next = i + group, last = (next < count ? next : count) - 1;
        double from = fmax(r->levels[i], r->rho);
        double to = fmin(r->high, hypot(r->levels[last], r->rho));
        if (next < count)
            to = fmin(to, r->levels[next]);
        if (to > from)
            sum += range_integral(r, from, to);
    }
    return sum;
}

static double all_sets(rise *r, const neck_list *necks) {
    double sum = 0;
    for (size_t i = 0, end; i < necks->count; i = end) {
        for (end = i + 1; end < necks->count && necks->items[end].set == necks->items[i].set; end++)
            continue;
        neck_set set = set_of(&necks->items[i], end - i, r->rho, r->high);
        if (set.high > set.low)
            sum += set_integral(r, &set);
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
              .high = rho + wide,
              .tolerance = RISE_TOLERANCE * profile->area_mm2 * wide};
    r.status = find_necks(profile, r.high, &necks);
    if (r.status || necks.count == 0)
        goto cleanup;
    link_necks(&necks, rho);
    r.chosen = runnel_zeroed(profile->count, sizeof *r.chosen);
    r.levels = runnel_zeroed(necks.count, sizeof *r.levels);
    r.status = r.chosen && r.levels ? list_stands(profile, &r.stands) : RUNNEL_E_NO_MEMORY;
    if (!r.status)
        *value = all_sets(&r, &necks);
    *error = r.error;
cleanup:
    runnel_centres_clear(&r.centres);
    runnel_free(r.stands.items);
    runnel_free(r.chosen);
    runnel_free(r.levels);
    runnel_free(necks.items);
    return r.status;
}
