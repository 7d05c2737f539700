/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shape/levels.h"

#include "base/memory.h"
#include "shape/pieces.h"

#include <math.h>
#include <string.h>

enum { PIECES_PER_LEVEL = 8, LEAST_LEVELS = 4, MOST_LISTED_PER_PIECE = 6 };

void runnel_levels_clear(runnel_levels *levels) {
    runnel_free(levels->sums);
    runnel_free(levels->first);
    runnel_free(levels->listed);
    memset(levels, 0, sizeof *levels);
}

size_t runnel_levels_find(const runnel_levels *levels, double t) {
    if (!(t < levels->top_mm))
        return levels->count;
    size_t level = (size_t)(t / levels->top_mm * (double)levels->count);
    return level < levels->count ? level : levels->count - 1;
}

/** First and last level that a piece must be looked at in: where it begins and ends, or for curved
 * ones all between. Two runs, the second empty (first > last) when one says it all. */
typedef struct runs {
    size_t first[2], last[2];
    bool is_linear; /**< spans the levels between the two runs as a polynomial */
} runs;

static runs runs_of(const runnel_levels *levels, const runnel_piece *piece) {
    size_t low = runnel_levels_find(levels, piece->low);
    size_t high = runnel_levels_find(levels, piece->high);
    if (piece->low >= piece->high) /* constant: either side of T, never both */
        return (runs){{low, 1}, {low, 0}, false};
    if (piece->kind == RUNNEL_PIECE_LINE && high > low + 1)
        return (runs){{low, high}, {low, high}, true};
    return (runs){{low, 1}, {high, 0}, false};
}

static size_t listed_total(const runnel_levels *levels, const runnel_piece *pieces, size_t count) {
    size_t total = 0;
    for (size_t i = 0; i < count; i++) {
        runs r = runs_of(levels, &pieces[i]);
        for (int k = 0; k < 2; k++)
            total += r.first[k] <= r.last[k] ? r.last[k] - r.first[k] + 1 : 0;
    }
    return total;
}

static void choose_count(runnel_levels *levels, const runnel_piece *pieces, size_t count) {
    levels->count = count / PIECES_PER_LEVEL;
    if (levels->count < LEAST_LEVELS)
        levels->count = LEAST_LEVELS;
    while (levels->count > LEAST_LEVELS &&
           listed_total(levels, pieces, count) > MOST_LISTED_PER_PIECE * count)
        levels->count = levels->count / 2;
}

static void list_pieces(runnel_levels *levels, const runnel_piece *pieces, size_t count) {
    /* counts first, one place further on; then each list is filled through its own start */
    for (size_t i = 0; i < count; i++) {
        runs r = runs_of(levels, &pieces[i]);
        for (int k = 0; k < 2; k++)
            for (size_t l = r.first[k]; l <= r.last[k] && r.first[k] <= r.last[k]; l++)
                levels->first[l + 2]++;
    }
    for (size_t l = 0; l <= levels->count; l++)
        levels->first[l + 2] += levels->first[l + 1];
    for (size_t i = 0; i < count; i++) {
        runs r = runs_of(levels, &pieces[i]);
        for (int k = 0; k < 2; k++)
            for (size_t l = r.first[k]; l <= r.last[k] && r.first[k] <= r.last[k]; l++)
                levels->listed[levels->first[l + 1]++] = (uint32_t)i;
    }
}

/** Adds what a piece is to the levels above its end, below its beginning, and between. */
static void add_steps(runnel_levels *levels, const runnel_piece *piece) {
    runs r = runs_of(levels, piece);
    size_t low = r.first[0], high = r.is_linear ? r.last[1] : r.last[0];
    double *above = levels->sums[high + 1].of; /* from here on it lies below T */
    bool fan = runnel_piece_is_fan(piece);
    if (high < levels->count && isfinite(piece->high)) {
        above[RUNNEL_LEVEL_AREA] += piece->area;
        above[RUNNEL_LEVEL_FIRST] += piece->moment;
        above[RUNNEL_LEVEL_FAN_FIRST] += fan ? piece->moment : 0;
    }
    /* up to `low` it lies above T: counted at 0 and taken off again at low */
    double *start = levels->sums[0].of, *begin = levels->sums[low].of;
    int extent = fan ? RUNNEL_LEVEL_ANGLE : RUNNEL_LEVEL_LENGTH;
    double area = isfinite(piece->area) ? piece->area : 0; /* what has no end has no area beyond */
    start[extent] += piece->extent;
    begin[extent] -= piece->extent;
    start[RUNNEL_LEVEL_AREA_ABOVE] += area;
    begin[RUNNEL_LEVEL_AREA_ABOVE] -= area;
    if (!r.is_linear)
        return;
    double a = piece->low, b = piece->high, k = piece->extent / (b - a);
    const double terms[] = {k, k * a * a, k * a * a * a, k * b, k * b * b};
    for (int i = RUNNEL_LEVEL_K; i <= RUNNEL_LEVEL_K_B2; i++) {
        levels->sums[low + 1].of[i] += terms[i - RUNNEL_LEVEL_K];
        levels->sums[high].of[i] -= terms[i - RUNNEL_LEVEL_K];
    }
}

static void accumulate(runnel_levels *levels) {
    for (size_t l = 1; l <= levels->count; l++)
        for (int i = 0; i < RUNNEL_LEVEL_TERMS; i++)
            levels->sums[l].of[i] += levels->sums[l - 1].of[i];
}

runnel_status runnel_levels_build(const runnel_piece *pieces, size_t count, runnel_levels *levels) {
    runnel_levels made = {0};
    for (size_t i = 0; i < count; i++)
        if (isfinite(pieces[i].high))
            made.top_mm = fmax(made.top_mm, pieces[i].high);
    choose_count(&made, pieces, count);
    made.sums = runnel_zeroed(made.count + 2, sizeof *made.sums);
    made.first = runnel_zeroed(made.count + 3, sizeof *made.first);
    made.listed = runnel_zeroed(listed_total(&made, pieces, count) + 1, sizeof *made.listed);
    if (!made.sums || !made.first || !made.listed) {
        runnel_levels_clear(&made);
        return RUNNEL_E_NO_MEMORY;
    }
    list_pieces(&made, pieces, count);
    for (size_t i = 0; i < count; i++)
        add_steps(&made, &pieces[i]);
    accumulate(&made);
    *levels = made;
    return RUNNEL_OK;
}
