/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/cautions.h"
#include "runnel/write_upkeep.h"
#include "write/care.h"
#include "write/care_note.h"

#include <string.h>

/* Column behind the longest date, "Wednesday, 30 September 2026". */
enum { DATE_COLUMN = 32 };

static const char *name_of(const runnel_upkeeping *upkeeping, const runnel_upkeep_task *task) {
    switch (task->kind) {
    case RUNNEL_UPKEEP_OIL:
    case RUNNEL_UPKEEP_COAT:
        return runnel_care_finish(upkeeping);
    case RUNNEL_UPKEEP_LOOK:
        return "look it over";
    case RUNNEL_UPKEEP_SAND:
    default:
        return "sand it and finish it anew";
    }
}

/* ---- When ------------------------------------------------------------------------------------ */

static void add_date(const runnel_upkeeping *upkeeping, const runnel_upkeep_task *task,
                     runnel_date date, runnel_doc *doc) {
    char words[RUNNEL_DATE_SIZE], amount[40];
    runnel_flow flow;
    runnel_doc_say(doc, &flow);
    if (task->amount_mm3 > 0) {
        runnel_flow_add(&flow, runnel_care_amount(task->amount_mm3, amount, sizeof amount));
        runnel_flow_add(&flow, ", ");
    }
    runnel_flow_add(&flow, name_of(upkeeping, task));
    runnel_doc_said(doc, RUNNEL_DOC_ENTRY, runnel_date_words(date, words, sizeof words), &flow);
}

/* The first weeks date by date, then each task that goes on with its first date. */
static void add_dates(const runnel_upkeeping *upkeeping, const runnel_upkeep *upkeep,
                      runnel_doc *doc) {
    runnel_upkeep_walk walk = {{0}};
    runnel_date date;
    size_t index;
    char every[40];
    bool told[RUNNEL_UPKEEP_TASKS] = {false};
    size_t left = upkeep->task_count;
    while (left && runnel_upkeep_next(upkeep, &walk, &index, &date)) {
        const runnel_upkeep_task *task = &upkeep->tasks[index];
        if (!task->count && told[index])
            continue;
        add_date(upkeeping, task, date, doc);
        if (!task->count) {
            runnel_flow flow;
            runnel_flow_add(runnel_doc_say(doc, &flow), "and from then on ");
            runnel_flow_add(&flow, runnel_care_every(task->every_days, every, sizeof every));
            runnel_doc_said(doc, RUNNEL_DOC_ENTRY, "", &flow);
        }
        told[index] = true;
        left -= !task->count || walk.done[index] == task->count;
    }
}

/* What the owner sees goes before what was planned. */
static void add_drop(const runnel_upkeeping *upkeeping, const runnel_upkeep *upkeep,
                     runnel_doc *doc) {
    char every[40];
    runnel_flow flow;
    runnel_flow_add(runnel_doc_say(doc, &flow),
                    "Put a drop of water on it. When it soaks in, the ");
    runnel_flow_add(&flow, upkeeping->oil ? "oil" : "coating");
    runnel_flow_add(&flow, " is due now, and from then on ");
    runnel_flow_add(&flow, runnel_care_every(upkeep->soaks_in_days, every, sizeof every));
    runnel_flow_add(&flow, ". When it still stands as a bead on the day told here, wait: ");
    runnel_flow_add(&flow, runnel_care_every(upkeep->beads_days, every, sizeof every));
    runnel_flow_add(&flow, " is enough.");
    runnel_doc_said(doc, RUNNEL_DOC_INNER, "", &flow);
}

static void add_part(const runnel_upkeeping *upkeeping, const runnel_upkeeping_part *part,
                     runnel_doc *doc) {
    char amount[40];
    runnel_flow flow;
    runnel_flow_add(runnel_doc_say(doc, &flow), "When: ");
    runnel_flow_add(&flow, part->piece);
    if (part->count > 1)
        runnel_flow_format(&flow, ", each of %zu" RUNNEL_STICK "pieces", part->count);
    runnel_doc_said(doc, RUNNEL_DOC_HEAD, "", &flow);
    add_dates(upkeeping, &part->upkeep, doc);
    runnel_flow_add(runnel_doc_say(doc, &flow), "In all about ");
    runnel_flow_add(&flow, runnel_care_amount(part->upkeep.first_year_mm3, amount, sizeof amount));
    runnel_flow_add(&flow, " in the first year and ");
    runnel_flow_add(&flow, runnel_care_amount(part->upkeep.year_mm3, amount, sizeof amount));
    runnel_flow_add(&flow, " in each year after it.");
    runnel_doc_said(doc, RUNNEL_DOC_INNER, "", &flow);
    add_drop(upkeeping, &part->upkeep, doc);
}

/* ---- How, and how not ------------------------------------------------------------------------ */

static void add_how(const runnel_upkeeping *upkeeping, runnel_doc *doc) {
    char how[RUNNEL_CARE_SIZE];
    const runnel_upkeep *upkeep = &upkeeping->parts[0].upkeep;
    runnel_upkeep_kind before = RUNNEL_UPKEEP_SAND;
    runnel_doc_add(doc, RUNNEL_DOC_HEAD, "", "How");
    for (size_t i = 0; i < upkeep->task_count; i++) {
        runnel_upkeep_task task = upkeep->tasks[i];
        if (i && task.kind == before)
            continue;
        before = task.kind;
        /* Several kinds of piece have an amount each. */
        if (upkeeping->part_count > 1)
            task.amount_mm3 = 0;
        runnel_doc_add(doc, RUNNEL_DOC_ITEM, "-",
                       runnel_care_how(upkeeping, &task, how, sizeof how));
    }
}

/* Common practice; hot things on resin: it softens from about 50 to 60 degC on (data sheets of
 * casting resins); bleach: 1 tablespoon to a US gallon, USDA FSIS on cutting boards. */
static void add_not(const runnel_upkeeping *upkeeping, runnel_doc *doc) {
    static const char *const indoors[] = {
        "No dishwasher, no soaking, and no standing in water.",
        "Wash both sides by hand, dry it at once, and let it stand on edge.",
        "Nothing hot on the resin, and no knife on it.",
        "Not in the oven, by the heater or in the sun.",
        "No olive, sunflower or other salad oil: it turns rancid.",
        "To disinfect: a spoon (15 ml) of plain bleach in 3.8 L of water, then rinse and dry."};
    static const char *const outdoors[] = {
        "No pressure washer, no wire brush, no solvent.",
        "Do not wait until the coat peels: bare wood turns grey and cracks.",
        "No coat on damp wood, in the sun, or when frost or rain may come before it is dry."};
    const bool out_of_doors = runnel_use_is_outdoors(upkeeping->use);
    const char *const *list = out_of_doors ? outdoors : indoors;
    size_t count =
        out_of_doors ? sizeof outdoors / sizeof *outdoors : sizeof indoors / sizeof *indoors;
    runnel_doc_add(doc, RUNNEL_DOC_HEAD, "", "Please");
    for (size_t i = 0; i < count; i++)
        runnel_doc_add(doc, RUNNEL_DOC_ITEM, "-", list[i]);
}

/* Of the cautions only those that concern an owner. */
static void add_care(const runnel_upkeeping *upkeeping, runnel_doc *doc) {
    static const char *const owners[] = {"oily-rags", "nut-oil", "food-grade-oil", "solvent-vapour",
                                         "wood-dust"};
    bool any = false;
    for (size_t i = 0; i < sizeof owners / sizeof *owners; i++) {
        const runnel_caution *caution = runnel_caution_find(owners[i]);
        bool due = caution && (caution->steps & upkeeping->steps) &&
                   (!caution->cases || (caution->cases & upkeeping->cases));
        if (!due)
            continue;
        if (!any)
            runnel_doc_add(doc, RUNNEL_DOC_HEAD, "", "Take care");
        any = true;
        runnel_doc_add(doc, RUNNEL_DOC_ITEM, "!", caution->text);
    }
}

/* ---- What it is worked out with -------------------------------------------------------------- */

static void add_taken(const runnel_upkeeping *upkeeping, runnel_doc *doc) {
    static const struct {
        unsigned bit;
        const char *text;
    } words[] = {{RUNNEL_TAKEN_KEEP_OIL, "what it is finished with"},
                 {RUNNEL_TAKEN_USE, "the use"},
                 {RUNNEL_TAKEN_WASHING, "the washing"},
                 {RUNNEL_TAKEN_PORES, "that the wood has closed pores"}};
    const char *between = "Not given, so taken: ";
    runnel_flow flow;
    if (!upkeeping->taken)
        return;
    runnel_doc_say(doc, &flow);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        if (!(upkeeping->taken & words[i].bit))
            continue;
        runnel_flow_add(&flow, between);
        runnel_flow_add(&flow, words[i].text);
        between = ", ";
    }
    runnel_flow_add(&flow, ".");
    runnel_doc_said(doc, RUNNEL_DOC_TEXT, "", &flow);
}

static void add_basis(const runnel_upkeeping *upkeeping, runnel_doc *doc) {
    static const char *const uses[] = {
        "",          "used a few times a year", "used about once a week",  "used every day",
        "often wet", "outdoors under a roof",   "outdoors in sun and rain"};
    static const char *const washings[] = {"", "wiped clean", "washed by hand", "scrubbed"};
    char words[RUNNEL_DATE_SIZE];
    runnel_flow flow;
    runnel_flow_add(runnel_doc_say(doc, &flow), "Delivered on ");
    runnel_flow_add(&flow, runnel_date_words(upkeeping->delivered, words, sizeof words));
    runnel_flow_add(&flow, ". Finished with ");
    runnel_flow_add(&flow, runnel_care_finish(upkeeping));
    runnel_flow_add(&flow, "; ");
    runnel_flow_add(&flow, uses[upkeeping->use]);
    runnel_flow_add(&flow, ", ");
    runnel_flow_add(&flow, washings[upkeeping->washing]);
    runnel_flow_add(&flow, ".");
    if (upkeeping->oiled.year) {
        runnel_flow_add(&flow, " Its owner's last coat: ");
        runnel_flow_add(&flow, runnel_date_words(upkeeping->oiled, words, sizeof words));
        runnel_flow_add(&flow, ".");
    }
    if (upkeeping->water)
        runnel_flow_add(&flow, upkeeping->water == RUNNEL_WATER_BEADS ? " Water still beads on it."
                                                                      : " Water soaks into it.");
    runnel_doc_said(doc, RUNNEL_DOC_TEXT, "", &flow);
    add_taken(upkeeping, doc);
}

void runnel_care_note(const runnel_job *job, const runnel_upkeeping *upkeeping, runnel_doc *doc) {
    doc->column = DATE_COLUMN;
    runnel_doc_begin(doc, "Care", job, &upkeeping->oiling.plan);
    add_basis(upkeeping, doc);
    for (size_t i = 0; i < upkeeping->part_count; i++)
        add_part(upkeeping, &upkeeping->parts[i], doc);
    add_how(upkeeping, doc);
    add_not(upkeeping, doc);
    add_care(upkeeping, doc);
}

runnel_status runnel_write_upkeep_text(const runnel_job *job, const runnel_upkeeping *upkeeping,
                                       FILE *out) {
    runnel_doc doc = {.count = 0};
    runnel_care_note(job, upkeeping, &doc);
    return runnel_doc_write(&doc, out);
}
