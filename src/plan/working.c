/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan/working.h"

#include "base/memory.h"
#include "plan/make.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

#define MINUTE_S 60.0
#define HOUR_S   3600.0
#define DAY_S    86400.0

/** Wood that was wetted is dry after 2 to 12 h; a coating for outdoors takes the next coat on the
 * next day; oil is buffed when it has been wiped off for half an hour: common practice. */
static const double dry_grain_s = 2 * HOUR_S, between_coats_s = DAY_S, before_buff_s = HOUR_S / 2;

static const char *const texts[RUNNEL_WORK_COUNT] = {
    [RUNNEL_WORK_FLATTEN] = "flatten and size the blanks",
    [RUNNEL_WORK_CARVE] = "carve",
    [RUNNEL_WORK_CLEAN] = "clean out the carving",
    [RUNNEL_WORK_MASK] = "mask the face",
    [RUNNEL_WORK_SEAL] = "seal",
    [RUNNEL_WORK_POUR] = "mix and pour",
    [RUNNEL_WORK_SCUFF] = "scuff",
    [RUNNEL_WORK_LEVEL] = "level the resin",
    [RUNNEL_WORK_SAND] = "sand",
    [RUNNEL_WORK_RAISE_GRAIN] = "wet the grain",
    [RUNNEL_WORK_KNOCK_DOWN] = "knock the grain down",
    [RUNNEL_WORK_SHAPE] = "chamfer and profile the edges",
    [RUNNEL_WORK_OIL] = "oil",
    [RUNNEL_WORK_WIPE] = "wipe the oil off",
    [RUNNEL_WORK_COAT] = "coat all faces against sun and rain",
    [RUNNEL_WORK_WAX] = "wax",
    [RUNNEL_WORK_BUFF] = "buff",
    [RUNNEL_WORK_WRAP] = "wrap, paper first",
};

/** Building the chain. The first failure ends it. */
typedef struct building {
    const runnel_job *job;
    const runnel_tables *tables;
    runnel_problems *problems;
    runnel_timing *timing;
    runnel_worked *worked;
    double pieces;
    double from_s, until_s, late_s, late_from_s; /**< wait before the next step */
    const char *waits_for;
    runnel_status status;
} building;

static void note(building *b, runnel_status status) {
    b->status = b->status ? b->status : status;
}

/** The row of a work. Its lack is told. */
static const runnel_work_row *row_of(building *b, runnel_work work) {
    const runnel_work_row *row = runnel_tables_work(b->tables, work);
    if (!row && !b->status)
        note(b, runnel_problems_add(b->problems, RUNNEL_E_NOT_FOUND, NULL,
                                    "the tables do not tell how long it takes to '%s'; a row of "
                                    "'work.csv' does",
                                    runnel_work_text(work)));
    return row;
}

static double hands_s(building *b, runnel_work work) {
    const runnel_work_row *row = row_of(b, work);
    return row ? row->setup_s + row->each_s * b->pieces : 0;
}

/* ---- Waits -------------------------------------------------------------------------------------
 */

static double up_s(double time_s) {
    return ceil(time_s / MINUTE_S) * MINUTE_S;
}

static double down_s(double time_s) {
    return floor(time_s / MINUTE_S) * MINUTE_S;
}

/** The next step waits for something, so long at least. */
static void wait(building *b, double from_s, const char *waits_for) {
    b->worked->unknown = b->worked->unknown || isnan(from_s);
    b->from_s = isnan(from_s) ? 0 : up_s(from_s);
    b->until_s = INFINITY;
    b->late_s = NAN;
    b->late_from_s = 0;
    b->waits_for = waits_for;
}

/** ... and so long at most. Not known is without end. */
static void wait_at_most(building *b, double until_s) {
    if (!isnan(until_s))
        b->until_s = fmax(down_s(until_s), b->from_s);
}

/** ... or else, once it is hard, it is scuffed first. */
static void or_scuffed(building *b, double hard_s) {
    b->late_s = up_s(hands_s(b, RUNNEL_WORK_SCUFF));
    b->late_from_s = hard_s > 0 ? up_s(hard_s) : 0;
}

/* ---- Steps -------------------------------------------------------------------------------------
 */

/** Adds a step; its text is taken over, NULL when there was no memory for it. */
static void add(building *b, runnel_work work, char *text, double busy_s) {
    runnel_timing *t = b->timing;
    const runnel_work_row *row = row_of(b, work);
    if (!text)
        note(b, RUNNEL_E_NO_MEMORY);
    if (!b->status)
        note(b, runnel_reserve(&t->steps, &t->step_capacity, t->step_count + 1, sizeof *t->steps));
    if (b->status || !row) {
        runnel_free(text);
        return;
    }
    t->steps[t->step_count++] =
        (runnel_timing_step){.code = runnel_work_text(work),
                             .text = text,
                             .waits_for = b->from_s > 0 ? b->waits_for : NULL,
                             .task = {text, up_s(busy_s), row->divides, b->from_s, b->until_s,
                                      b->late_s, b->late_from_s}};
    t->hands_s += up_s(busy_s);
    wait(b, 0, NULL);
}

static void add_plain(building *b, runnel_work work) {
    add(b, work, runnel_copy_text(texts[work]), hands_s(b, work));
}

static void add_coat(building *b, runnel_work work, size_t number, size_t count) {
    add(b, work,
        count > 1 ? runnel_format_text("%s, coat %zu of %zu", texts[work], number, count)
                  : runnel_copy_text(texts[work]),
        hands_s(b, work));
}

static void add_carving(building *b) {
    const runnel_work_row *row = row_of(b, RUNNEL_WORK_CARVE);
    double busy_s = row ? row->setup_s : 0;
    for (size_t i = 0; row && i < b->job->piece_count; i++) {
        const runnel_job_piece *piece = &b->job->pieces[i];
        busy_s += (double)piece->count * (piece->carve_s > 0 ? piece->carve_s : row->each_s);
    }
    add(b, RUNNEL_WORK_CARVE, runnel_copy_text(texts[RUNNEL_WORK_CARVE]), busy_s);
}

static void add_sealing(building *b, const runnel_sealing *sealing) {
    size_t coats = sealing->sealer.coats;
    for (size_t i = 1; i <= coats; i++) {
        add_coat(b, RUNNEL_WORK_SEAL, i, coats);
        wait(b, i < coats ? sealing->drying.recoat_from_s : sealing->drying.hard_s,
             "the sealer to dry");
        /* A coat of clear resin takes the next resin while it is fresh, or when it is scuffed. */
        if (sealing->until_s > 0) {
            wait_at_most(b, sealing->until_s);
            or_scuffed(b, sealing->scuff_s);
        }
    }
}

/** Times of the resin at the shop's temperature. */
typedef struct shop_times {
    double gel_s, recoat_from_s, recoat_until_s, sandable_s;
} shop_times;

static shop_times times_of(building *b) {
    const runnel_resin *resin = &b->job->resin;
    shop_times times = {NAN, NAN, NAN, NAN};
    note(b, runnel_shop_time(b->job, resin->gel_s, &times.gel_s));
    note(b, runnel_shop_time(b->job, resin->recoat_from_s, &times.recoat_from_s));
    note(b, runnel_shop_time(b->job, resin->recoat_until_s, &times.recoat_until_s));
    note(b, runnel_shop_time(b->job, resin->sandable_s, &times.sandable_s));
    return times;
}

/** Hands for a layer of a batch: each cup is mixed, and poured in the time that its card tells. */
static double layer_hands(const runnel_plan_batch *batch, size_t layer, double mixing_s) {
    double busy_s = 0;
    if (!batch->cup_count) /* more than anyone mixes, which is told */
        return mixing_s + batch->pour_s / (double)batch->layer_count;
    for (size_t i = 0; i < batch->cup_count; i++)
        if (batch->cups[i].layer == layer)
            busy_s += mixing_s + batch->cups[i].load.pour_s;
    return busy_s;
}

/** All layers of a colour. The first one of a later colour waits for the gel of what is there. */
static void add_pours(building *b, const runnel_plan_batch *batch, const shop_times *times,
                      bool is_first) {
    const runnel_work_row *row = row_of(b, RUNNEL_WORK_POUR);
    size_t layers = batch->layer_count ? batch->layer_count : 1;
    if (!is_first)
        wait(b, batch->not_before_s > 0 || isnan(batch->not_before_s) ? times->gel_s : 0,
             "the resin beside it to gel");
    for (size_t i = 1; i <= layers; i++) {
        if (i > 1) {
            wait(b, times->recoat_from_s, "the layer below to bear the next one");
            wait_at_most(b, times->recoat_until_s);
            or_scuffed(b, times->sandable_s);
        }
        add(b, RUNNEL_WORK_POUR,
            layers > 1 ? runnel_format_text("%s %s, layer %zu of %zu", texts[RUNNEL_WORK_POUR],
                                            batch->colour, i, layers)
                       : runnel_format_text("%s %s", texts[RUNNEL_WORK_POUR], batch->colour),
            row ? layer_hands(batch, i, row->setup_s) : 0);
        b->worked->last_pour = b->timing->step_count - 1;
    }
}

runnel_grits runnel_work_grits(const runnel_job *job) {
    runnel_grits grits = job->grits;
    if (!grits.count && runnel_grits_parse(RUNNEL_DEFAULT_GRITS, NULL, NULL, &grits))
        grits.count = 0; /* the default can be read */
    return grits;
}

static void add_sanding(building *b) {
    const runnel_grits grits = runnel_work_grits(b->job);
    for (size_t i = 0; i < grits.count; i++)
        add(b, RUNNEL_WORK_SAND,
            runnel_format_text("%s with grit %d", texts[RUNNEL_WORK_SAND], grits.numbers[i]),
            hands_s(b, RUNNEL_WORK_SAND));
}

/** How often the grain is raised: as told, as the order says, else once before oil. */
static size_t raisings(const runnel_job *job, bool oiled) {
    size_t count = 0;
    if (job->raisings >= 0)
        return (size_t)job->raisings;
    for (size_t i = 0; i < job->order.count; i++)
        count += job->order.steps[i] == RUNNEL_STEP_RAISE_GRAIN;
    return job->order.count ? count : oiled;
}

static void add_raising(building *b, bool oiled) {
    size_t times = raisings(b->job, oiled);
    for (size_t i = 0; i < times; i++) {
        add_plain(b, RUNNEL_WORK_RAISE_GRAIN);
        wait(b, dry_grain_s, "the wood to dry");
        add_plain(b, RUNNEL_WORK_KNOCK_DOWN);
    }
}

static void add_oiling(building *b, const runnel_oiling_plan *oiling) {
    const runnel_oil *oil = oiling->oil;
    size_t coats = oiling->oiling.coats;
    for (size_t i = 1; i <= coats; i++) {
        add_coat(b, RUNNEL_WORK_OIL, i, coats);
        wait(b, oil->soak_s, "the oil to soak in");
        wait_at_most(b, 2 * oil->soak_s);
        add_coat(b, RUNNEL_WORK_WIPE, i, coats);
        b->worked->last_finish = b->timing->step_count - 1;
        wait(b, i < coats ? fmax(0, oil->between_s - oil->soak_s) : 0, "the coat to settle");
    }
    if (oiling->wax) {
        /* wax goes last, on an oil that has cured, or on one that never does */
        wait(b, oil->dries ? oil->full_cure_s : oil->between_s,
             oil->dries ? "the oil to cure" : "the oil to settle");
        add_plain(b, RUNNEL_WORK_WAX);
    }
    wait(b, before_buff_s, "it to settle");
    add_plain(b, RUNNEL_WORK_BUFF);
}

static void add_coating(building *b, const runnel_coating *coating) {
    for (size_t i = 1; i <= coating->coats; i++) {
        if (i > 1)
            wait(b, between_coats_s, "the coat to dry, to be rubbed down lightly");
        add_coat(b, RUNNEL_WORK_COAT, i, coating->coats);
    }
}

static void build(building *b, const runnel_sheet *sheet) {
    const shop_times times = times_of(b);
    wait(b, 0, NULL);
    add_plain(b, RUNNEL_WORK_FLATTEN);
    add_carving(b);
    add_plain(b, RUNNEL_WORK_CLEAN);
    if (b->job->mask && sheet->plan.batch_count)
        add_plain(b, RUNNEL_WORK_MASK);
    if (sheet->sealed)
        add_sealing(b, &sheet->sealing);
    for (size_t i = 0; i < sheet->plan.batch_count; i++)
        add_pours(b, &sheet->plan.batches[i], &times, i == 0);
    if (sheet->plan.batch_count)
        wait(b, times.sandable_s, "the resin to be hard enough");
    add_plain(b, RUNNEL_WORK_LEVEL);
    add_sanding(b);
    add_plain(b, RUNNEL_WORK_SHAPE);
    add_raising(b, sheet->oiled);
    if (sheet->oiled)
        add_oiling(b, &sheet->oiling);
    else if (sheet->coated)
        add_coating(b, &sheet->coating);
    if (sheet->oiled || sheet->coated)
        wait(b, RUNNEL_WRAP_WAIT_S, "the finish to bear paper");
    add_plain(b, RUNNEL_WORK_WRAP);
}

runnel_status runnel_work_make(const runnel_job *job, const runnel_tables *tables,
                               const runnel_sheet *sheet, runnel_problems *problems,
                               runnel_timing *timing, runnel_worked *worked) {
    building b = {
        .job = job, .tables = tables, .problems = problems, .timing = timing, .worked = worked};
    *worked = (runnel_worked){.last_pour = SIZE_MAX, .last_finish = SIZE_MAX};
    for (size_t i = 0; i < job->piece_count; i++)
        b.pieces += (double)job->pieces[i].count;
    build(&b, sheet);
    return b.status;
}
