/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "clock/spans.h"

#include "base/memory.h"

#include <math.h>
#include <stdlib.h>

void runnel_spans_clear(runnel_spans *spans) {
    if (!spans)
        return;
    runnel_free(spans->items);
    *spans = (runnel_spans){0};
}

runnel_status runnel_spans_add(runnel_spans *spans, double from_s, double to_s) {
    if (!(from_s <= to_s))
        return RUNNEL_OK;
    runnel_status status =
        runnel_reserve(&spans->items, &spans->capacity, spans->count + 1, sizeof *spans->items);
    if (!status)
        spans->items[spans->count++] = (runnel_span){from_s, to_s};
    return status;
}

static int by_start(const void *one, const void *other) {
    const runnel_span *a = one, *b = other;
    return (a->from_s > b->from_s) - (a->from_s < b->from_s);
}

void runnel_spans_join(runnel_spans *spans) {
    size_t kept = 0;
    if (!spans->count)
        return;
    qsort(spans->items, spans->count, sizeof *spans->items, by_start);
    for (size_t i = 1; i < spans->count; i++) {
        runnel_span *last = &spans->items[kept];
        if (spans->items[i].from_s <= last->to_s)
            last->to_s = fmax(last->to_s, spans->items[i].to_s);
        else
            spans->items[++kept] = spans->items[i];
    }
    spans->count = kept + 1;
}

runnel_status runnel_spans_common(const runnel_spans *a, const runnel_spans *b,
                                  runnel_spans *both) {
    runnel_status status = RUNNEL_OK;
    both->count = 0;
    for (size_t i = 0, k = 0; i < a->count && k < b->count && !status;) {
        const runnel_span *x = &a->items[i], *y = &b->items[k];
        status = runnel_spans_add(both, fmax(x->from_s, y->from_s), fmin(x->to_s, y->to_s));
        if (x->to_s < y->to_s)
            i++;
        else
            k++;
    }
    return status;
}

double runnel_spans_first(const runnel_spans *spans, double from_s) {
    for (size_t i = 0; i < spans->count; i++)
        if (spans->items[i].to_s >= from_s)
            return fmax(spans->items[i].from_s, from_s);
    return NAN;
}

double runnel_spans_last(const runnel_spans *spans, double to_s) {
    for (size_t i = spans->count; i-- > 0;)
        if (spans->items[i].from_s <= to_s)
            return fmin(spans->items[i].to_s, to_s);
    return NAN;
}
