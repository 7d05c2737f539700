/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/steps.h"

#include "base/memory.h"

#include <string.h>

#define BIT(step) RUNNEL_STEP_BIT(RUNNEL_STEP_##step)
#define OILS      (BIT(OIL) | BIT(OIL_DRYING))

const char *runnel_step_text(runnel_step step) {
    static const char *const texts[RUNNEL_STEP_COUNT] = {
        [RUNNEL_STEP_CARVE] = "carve",
        [RUNNEL_STEP_SEAL] = "seal",
        [RUNNEL_STEP_SEAL_WAXY] = "seal with what holds wax",
        [RUNNEL_STEP_RELEASE_WAX] = "wax the face against spills",
        [RUNNEL_STEP_MIX] = "mix",
        [RUNNEL_STEP_POUR] = "pour",
        [RUNNEL_STEP_LEVEL] = "level",
        [RUNNEL_STEP_SAND] = "sand",
        [RUNNEL_STEP_RAISE_GRAIN] = "raise the grain",
        [RUNNEL_STEP_OIL] = "oil",
        [RUNNEL_STEP_OIL_DRYING] = "oil with one that dries",
        [RUNNEL_STEP_WAX] = "wax",
        [RUNNEL_STEP_FOOD] = "use with food"};
    return (unsigned)step < RUNNEL_STEP_COUNT ? texts[step] : "?";
}

/* Steps of `earlier` may not come before those of `later`, unless one of `between` lies between. */
typedef struct rule {
    unsigned earlier, later, between;
    bool is_wrong;
    const char *code, *text, *source;
} rule;

static const rule rules[] = {
    {OILS, BIT(POUR), 0, true, "oil-before-resin",
     "Resin does not hold on oiled wood, and sanding does not get the oil out. Pour first, oil "
     "when "
     "the resin is level and cured.",
     "common practice"},
    {BIT(WAX), BIT(POUR), 0, true, "wax-before-resin",
     "Resin lets go of waxed wood. Wax comes last.", "common practice"},
    {BIT(SEAL_WAXY), BIT(POUR), 0, true, "waxy-sealer",
     "A sealer that holds wax lets go of the resin. Seal with dewaxed shellac, a sanding sealer "
     "or a thin coat of clear resin, and let it dry hard.",
     "common practice"},
    {BIT(RELEASE_WAX), BIT(POUR), 0, false, "release-wax",
     "Wax on the face must not get into the cavities: resin lets go of it. Have it stand back from "
     "their edges, or tape the face instead.",
     "common practice"},
    {BIT(RELEASE_WAX), OILS | BIT(WAX), BIT(SAND), true, "release-wax-left",
     "Wax that is left on the face keeps the finish out in patches. Sand to bare wood in between.",
     "common practice"},
    {OILS | BIT(WAX) | BIT(RELEASE_WAX), BIT(SEAL) | BIT(SEAL_WAXY), BIT(SAND), true,
     "sealer-over-oil", "Sealer does not hold on oil or wax. Seal the bare wood.",
     "common practice"},
    {BIT(WAX), OILS, BIT(SAND), true, "wax-before-oil",
     "Wax closes the grain, and the oil stays on top of it. Oil first, wax last, a drying oil when "
     "it is cured.",
     "common practice"},
    {BIT(OIL), BIT(OIL_DRYING), 0, true, "drying-over-wet-oil",
     "An oil that stays wet keeps one that dries from hardening. Take one kind for the board.",
     "common practice"},
    {OILS | BIT(WAX), BIT(LEVEL) | BIT(SAND), 0, false, "sand-after-oil",
     "Levelling and sanding take off the oil or wax, and it clogs the paper. Level and sand to the "
     "last grit first.",
     "common practice"},
    {OILS | BIT(WAX), BIT(RAISE_GRAIN), 0, false, "grain-after-oil",
     "Water does not wet oiled wood, so the grain stays down now and rises at the first wash. "
     "Raise "
     "it before the oil.",
     "common practice"},
    {BIT(RAISE_GRAIN), BIT(LEVEL), 0, false, "grain-before-level",
     "Levelling cuts away the wood whose grain was raised. Raise it after.", "common practice"},
};

void runnel_order_faults_clear(runnel_order_faults *faults) {
    if (!faults)
        return;
    runnel_free(faults->items);
    memset(faults, 0, sizeof *faults);
}

static bool is_in(unsigned set, runnel_step step) {
    return (set & RUNNEL_STEP_BIT(step)) != 0;
}

/* Whether a rule is broken at `later`, and by which step. */
static bool is_broken(const rule *r, const runnel_step *steps, size_t later, size_t *earlier) {
    if (!is_in(r->later, steps[later]))
        return false;
    for (size_t i = later; i-- > 0;) {
        if (is_in(r->between, steps[i]))
            return false;
        if (is_in(r->earlier, steps[i])) {
            *earlier = i;
            return true;
        }
    }
    return false;
}

static runnel_status check_step(const runnel_step *steps, size_t later,
                                runnel_order_faults *faults) {
    for (size_t k = 0; k < sizeof rules / sizeof *rules; k++) {
        const rule *r = &rules[k];
        size_t earlier = 0;
        if (!is_broken(r, steps, later, &earlier))
            continue;
        runnel_status status = runnel_reserve(&faults->items, &faults->capacity, faults->count + 1,
                                              sizeof *faults->items);
        if (status)
            return status;
        faults->items[faults->count++] =
            (runnel_order_fault){r->code, earlier, later, r->is_wrong, r->text, r->source};
    }
    return RUNNEL_OK;
}

runnel_status runnel_order_check(const runnel_step *steps, size_t count,
                                 runnel_order_faults *faults) {
    runnel_order_faults fresh = {0};
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < count && !status; i++)
        status =
            (unsigned)steps[i] < RUNNEL_STEP_COUNT ? check_step(steps, i, &fresh) : RUNNEL_E_RANGE;
    if (status) {
        runnel_order_faults_clear(&fresh);
        return status;
    }
    runnel_order_faults_clear(faults);
    *faults = fresh;
    return RUNNEL_OK;
}
