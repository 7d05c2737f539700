/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/oil.h"

#include "base/amount.h"
#include "base/memory.h"
#include "runnel/cautions.h"

#include <string.h>

/* ---- Rows ---------------------------------------------------------------------------------- */

void runnel_oil_clear(runnel_oil *oil) {
    if (!oil)
        return;
    char *owned[] = {oil->name, oil->food, oil->source, oil->date, oil->sure, oil->uptake_sure};
    for (size_t i = 0; i < sizeof owned / sizeof *owned; i++)
        runnel_free(owned[i]);
    memset(oil, 0, sizeof *oil);
}

/* Copies a text that may be absent; false without memory. */
static bool copied(const char *from, char **to) {
    *to = runnel_copy_text(from);
    return *to || !from;
}

runnel_status runnel_oil_copy(const runnel_oil *from, runnel_oil *to) {
    runnel_oil fresh = *from;
    fresh.name = fresh.food = fresh.source = fresh.date = fresh.sure = fresh.uptake_sure = NULL;
    bool whole = copied(from->name, &fresh.name) && copied(from->food, &fresh.food) &&
                 copied(from->source, &fresh.source) && copied(from->date, &fresh.date) &&
                 copied(from->sure, &fresh.sure) && copied(from->uptake_sure, &fresh.uptake_sure);
    if (!whole) {
        runnel_oil_clear(&fresh);
        return RUNNEL_E_NO_MEMORY;
    }
    *to = fresh;
    return RUNNEL_OK;
}

unsigned runnel_oil_step_bit(const runnel_oil *oil) {
    return RUNNEL_STEP_BIT(oil->dries ? RUNNEL_STEP_OIL_DRYING : RUNNEL_STEP_OIL);
}

unsigned runnel_oil_cases(const runnel_oil *oil) {
    return oil->nut ? RUNNEL_CASE_NUT_OIL : 0;
}

/* ---- Amounts ------------------------------------------------------------------------------- */

static double end_factor(const runnel_oiling *oiling) {
    return oiling->end_factor == 0 ? RUNNEL_END_GRAIN_FACTOR : oiling->end_factor;
}

static bool is_sound(const runnel_oiling *oiling, double face_mm2, double end_mm2) {
    return runnel_is_positive(oiling->uptake_mm) && runnel_is_positive(end_factor(oiling)) &&
           runnel_is_share(oiling->fall) && runnel_is_share(oiling->waste) && oiling->coats >= 1 &&
           oiling->coats <= RUNNEL_OIL_MOST_COATS && runnel_is_amount(face_mm2) &&
           runnel_is_amount(end_mm2);
}

/* Uptake of all coats, in first coats: (1 - (1 - fall)^n)/fall, summed as the terms may be few. */
static double coats_in_first_ones(const runnel_oiling *oiling) {
    double sum = 0, share = 1;
    for (size_t i = 0; i < oiling->coats; i++) {
        sum += share;
        share *= 1 - oiling->fall;
    }
    return sum;
}

runnel_status runnel_oil_coat(const runnel_oiling *oiling, double face_mm2, double end_mm2,
                              size_t coat, double *coat_mm3) {
    if (!is_sound(oiling, face_mm2, end_mm2) || coat >= oiling->coats)
        return RUNNEL_E_RANGE;
    double taken = oiling->uptake_mm * (face_mm2 + end_factor(oiling) * end_mm2);
    double found = taken * pow(1 - oiling->fall, (double)coat) / (1 - oiling->waste);
    if (!isfinite(found))
        return RUNNEL_E_RANGE;
    *coat_mm3 = found;
    return RUNNEL_OK;
}

runnel_status runnel_oil_compute(const runnel_oiling *oiling, double face_mm2, double end_mm2,
                                 runnel_oil_need *need) {
    runnel_oil_need fresh = {0};
    runnel_status status = runnel_oil_coat(oiling, face_mm2, end_mm2, 0, &fresh.first_mm3);
    if (!status)
        status = runnel_oil_coat(oiling, face_mm2, end_mm2, oiling->coats - 1, &fresh.last_mm3);
    if (status)
        return status;
    double coats = coats_in_first_ones(oiling);
    fresh.face_mm3 = coats * oiling->uptake_mm * face_mm2;
    fresh.end_mm3 = coats * oiling->uptake_mm * end_factor(oiling) * end_mm2;
    fresh.all_mm3 = (fresh.face_mm3 + fresh.end_mm3) / (1 - oiling->waste);
    fresh.waste_mm3 = fresh.all_mm3 * oiling->waste;
    if (!isfinite(fresh.all_mm3))
        return RUNNEL_E_RANGE;
    *need = fresh;
    return RUNNEL_OK;
}

/* ---- Times --------------------------------------------------------------------------------- */

runnel_status runnel_oil_times_of(const runnel_oil *oil, size_t coats, runnel_oil_times *times) {
    if (coats < 1 || coats > RUNNEL_OIL_MOST_COATS)
        return RUNNEL_E_RANGE;
    if (isnan(oil->soak_s) || (coats > 1 && isnan(oil->between_s)))
        return RUNNEL_E_MISSING;
    if (!runnel_is_amount(oil->soak_s) || (coats > 1 && !runnel_is_amount(oil->between_s)) ||
        (!isnan(oil->full_cure_s) && !runnel_is_amount(oil->full_cure_s)))
        return RUNNEL_E_RANGE;
    times->last_coat_s = coats > 1 ? (double)(coats - 1) * oil->between_s : 0;
    times->wiped_s = times->last_coat_s + oil->soak_s;
    times->cured_s = oil->dries ? times->last_coat_s + oil->full_cure_s : times->wiped_s;
    return RUNNEL_OK;
}
