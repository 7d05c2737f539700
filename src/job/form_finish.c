/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The written forms of sealers and of the order of steps.
 */
#include "base/quantity.h"
#include "base/suggest.h"
#include "runnel/forms.h"

#include <math.h>
#include <string.h>

/* Room for one word or two; what is longer is no name that is known. */
enum { WORD_SIZE = 64 };

/* A part of a text as a string of its own, blanks single; false when it is too long. */
static bool copy_words(runnel_slice text, char *words) {
    size_t count = 0, length;
    for (text = runnel_slice_trim(text); text.at < text.end; text.at += length) {
        bool blank = runnel_slice_skip_blanks(&text);
        runnel_slice_peek(text, &length);
        if (count + length + 2 > WORD_SIZE) {
            words[count] = '\0';
            return false;
        }
        if (blank)
            words[count++] = ' ';
        memcpy(words + count, text.at, length);
        count += length;
    }
    words[count] = '\0';
    return true;
}

/* The name of a list that a text is, or `count`. */
static size_t find_name(const char *words, const char *const *names, size_t count) {
    size_t i = 0;
    while (i < count && (!names[i] || runnel_word_distance(words, names[i]) != 0))
        i++;
    return i;
}

/* ---- Cuts ------------------------------------------------------------------------------------ */

/* "2-lb cut" as "2 lb". */
static void tidy_cut(char *words) {
    static const char last[] = " cut";
    size_t length = strlen(words);
    if (length > strlen(last) && !strcmp(words + length - strlen(last), last))
        words[length - strlen(last)] = '\0';
    for (char *at = words + (*words == '-'); *at; at++)
        if (*at == '-')
            *at = ' ';
}

runnel_status runnel_cut_parse(const char *text, runnel_problems *problems,
                               const runnel_place *place, double *lb_per_gal) {
    static const char *const units[] = {"lb", "lbs", "pound", "pounds"};
    char words[WORD_SIZE], shown[RUNNEL_SHOWN_SIZE];
    double found = NAN, amount;
    runnel_slice whole = runnel_slice_of(text);
    if (copy_words(whole, words)) {
        tidy_cut(words);
        const char *unit = words + strspn(words, "+-.0123456789/ ");
        if (!runnel_quantity_parse(words, RUNNEL_DENSITY, NULL, NULL, &amount))
            found = amount * 1000 / RUNNEL_G_PER_L_OF_LB_PER_GAL;
        else if (find_name(unit, units, 4) < 4 &&
                 !runnel_quantity_parse(words, RUNNEL_MASS, NULL, NULL, &amount))
            found = amount / 453.59237; /* lb, exact */
    }
    runnel_slice_show(whole, shown);
    if (isnan(found))
        return runnel_problems_add(
            problems, RUNNEL_E_SYNTAX, place,
            "'%s' is no cut of shellac; write '2 lb' for two pounds of flake "
            "to a US gallon of spirit, or the like of '240 g/L'",
            shown);
    if (!(found > 0) || !isfinite(found))
        return runnel_problems_add(problems, RUNNEL_E_RANGE, place,
                                   "'%s' is out of range: a cut must be above 0 lb", shown);
    *lb_per_gal = found;
    return RUNNEL_OK;
}

/* ---- Kinds ----------------------------------------------------------------------------------- */

runnel_status runnel_sealer_kind_parse(const char *text, runnel_problems *problems,
                                       const runnel_place *place, runnel_sealer_kind *kind) {
    const char *names[RUNNEL_SEALER_KINDS];
    char words[WORD_SIZE] = "", shown[RUNNEL_SHOWN_SIZE];
    for (int i = 0; i < RUNNEL_SEALER_KINDS; i++)
        names[i] = runnel_sealer_kind_of((runnel_sealer_kind)i)->name;
    size_t found = copy_words(runnel_slice_of(text), words)
                       ? find_name(words, names, RUNNEL_SEALER_KINDS)
                       : RUNNEL_SEALER_KINDS;
    if (found < RUNNEL_SEALER_KINDS) {
        *kind = (runnel_sealer_kind)found;
        return RUNNEL_OK;
    }
    const char *nearest = runnel_nearest(words, names, RUNNEL_SEALER_KINDS);
    runnel_slice_show(runnel_slice_of(text), shown);
    return runnel_problems_add(
        problems, RUNNEL_E_UNKNOWN, place,
        "'%s' is no kind of sealer%s%s%s; it must be 'shellac', 'shellac with wax', 'sanding "
        "sealer', 'lacquer', 'water-based sealer' or 'clear resin'",
        shown, nearest ? " (did you mean '" : "", nearest ? nearest : "", nearest ? "'?)" : "");
}

/* ---- What lies under the zero ---------------------------------------------------------------- */

#define ZERO_FORMS "write 'wood', 'paper 2', 'tape 3', or a thickness such as '0.3 mm'"

static runnel_status refuse_under(const char *text, runnel_problems *problems,
                                  const runnel_place *place, runnel_status status,
                                  const char *what) {
    char shown[RUNNEL_SHOWN_SIZE];
    return runnel_problems_add(problems, status, place, "'%s' %s; " ZERO_FORMS,
                               runnel_slice_show(runnel_slice_of(text), shown), what);
}

/* A whole number from 1 on; steps over it. */
static bool take_count(runnel_slice *text, size_t *count) {
    size_t found = 0;
    while (text->at < text->end && *text->at >= '0' && *text->at <= '9' &&
           found <= RUNNEL_LEVEL_MOST)
        found = 10 * found + (size_t)(*text->at++ - '0');
    *count = found;
    return found >= 1 && found <= RUNNEL_LEVEL_MOST;
}

/* ", 10 measure 1.05 mm" behind the sheets; nothing is right, too. */
static bool take_stack(runnel_slice text, runnel_under_zero *under) {
    runnel_slice_skip_blanks(&text);
    if (text.at == text.end)
        return true;
    if (*text.at++ != ',')
        return false;
    runnel_slice_skip_blanks(&text);
    return take_count(&text, &under->stack_count) && runnel_slice_skip_blanks(&text) &&
           runnel_slice_take_word(&text, "measure") &&
           !runnel_quantity_read(text, RUNNEL_LENGTH, NULL, NULL, &under->stack_mm) &&
           under->stack_mm > 0;
}

runnel_status runnel_under_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, runnel_under_zero *under) {
    runnel_slice rest = runnel_slice_trim(runnel_slice_of(text));
    runnel_under_zero fresh = {.what = RUNNEL_UNDER_MEASURED, .stack_count = 1};
    if (rest.at < rest.end && ((*rest.at >= '0' && *rest.at <= '9') || *rest.at == '.')) {
        runnel_status status =
            runnel_quantity_read(rest, RUNNEL_LENGTH, problems, place, &fresh.stack_mm);
        if (status)
            return status;
        if (fresh.stack_mm == 0)
            fresh.what = RUNNEL_UNDER_NOTHING;
        if (fresh.stack_mm > 100)
            return refuse_under(text, problems, place, RUNNEL_E_RANGE, "is more than 100 mm");
        *under = fresh;
        return RUNNEL_OK;
    }
    fresh.stack_count = 0;
    if (runnel_slice_take_word(&rest, "wood"))
        fresh.what = RUNNEL_UNDER_NOTHING;
    else if (runnel_slice_take_word(&rest, "paper"))
        fresh.what = RUNNEL_UNDER_PAPER;
    else if (runnel_slice_take_word(&rest, "tape"))
        fresh.what = RUNNEL_UNDER_TAPE;
    else
        return refuse_under(text, problems, place, RUNNEL_E_UNKNOWN,
                            "is nothing that a cutter is zeroed on");
    bool counted = fresh.what == RUNNEL_UNDER_NOTHING ||
                   (runnel_slice_skip_blanks(&rest) && take_count(&rest, &fresh.count));
    if (!counted)
        return refuse_under(text, problems, place, RUNNEL_E_SYNTAX,
                            "needs a whole number of sheets or layers, from 1 on");
    if (fresh.what == RUNNEL_UNDER_NOTHING ? rest.at < rest.end : !take_stack(rest, &fresh))
        return refuse_under(text, problems, place, RUNNEL_E_SYNTAX,
                            "goes on with what cannot be read; a measured stack is told by ', 10 "
                            "measure 1.05 mm'");
    *under = fresh;
    return RUNNEL_OK;
}

/* ---- Orders ---------------------------------------------------------------------------------- */

static runnel_status refuse_step(runnel_slice text, const char *words, runnel_problems *problems,
                                 const runnel_place *place) {
    const char *names[RUNNEL_STEP_COUNT];
    char shown[RUNNEL_SHOWN_SIZE];
    for (int i = 0; i < RUNNEL_STEP_COUNT; i++)
        names[i] = runnel_step_text((runnel_step)i);
    const char *nearest = runnel_nearest(words, names, RUNNEL_STEP_COUNT);
    runnel_slice_show(runnel_slice_trim(text), shown);
    if (!*words)
        return runnel_problems_add(problems, RUNNEL_E_SYNTAX, place,
                                   "a step is empty; write the steps with one comma between, such "
                                   "as 'carve, seal, pour, level, sand, oil'");
    if (nearest)
        return runnel_problems_add(problems, RUNNEL_E_UNKNOWN, place,
                                   "'%s' is no step; the nearest is '%s'", shown, nearest);
    return runnel_problems_add(
        problems, RUNNEL_E_UNKNOWN, place,
        "'%s' is no step; the steps are: carve, seal, seal with what holds wax, wax the face "
        "against spills, mix, pour, level, sand, raise the grain, oil, oil with one that dries, "
        "wax, use with food",
        shown);
}

static runnel_status read_step(runnel_slice text, runnel_problems *problems,
                               const runnel_place *place, runnel_order *order) {
    const char *names[RUNNEL_STEP_COUNT];
    char words[WORD_SIZE] = "";
    for (int i = 0; i < RUNNEL_STEP_COUNT; i++)
        names[i] = runnel_step_text((runnel_step)i);
    size_t found =
        copy_words(text, words) ? find_name(words, names, RUNNEL_STEP_COUNT) : RUNNEL_STEP_COUNT;
    if (found == RUNNEL_STEP_COUNT)
        return refuse_step(text, words, problems, place);
    if (order->count == RUNNEL_ORDER_MOST)
        return runnel_problems_add(problems, RUNNEL_E_RANGE, place,
                                   "an order may have %d steps, not more", RUNNEL_ORDER_MOST);
    order->steps[order->count++] = (runnel_step)found;
    return RUNNEL_OK;
}

runnel_status runnel_order_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, runnel_order *order) {
    runnel_order fresh = {.count = 0};
    runnel_status worst = RUNNEL_OK;
    for (const char *at = text;; at++) {
        size_t length = strcspn(at, ",");
        runnel_status status = read_step((runnel_slice){at, at + length}, problems, place, &fresh);
        if (!worst)
            worst = status;
        at += length;
        if (!*at)
            break;
        if (worst == RUNNEL_E_RANGE)
            break;
    }
    if (!worst)
        *order = fresh;
    return worst;
}

/* ---- Grits ----------------------------------------------------------------------------------- */

static runnel_status refuse_grits(const char *text, runnel_problems *problems,
                                  const runnel_place *place, runnel_status status,
                                  const char *what) {
    char shown[RUNNEL_SHOWN_SIZE];
    return runnel_problems_add(problems, status, place,
                               "'%s': %s; write grits from coarse to fine, such as '80, 120, 150'",
                               runnel_slice_show(runnel_slice_of(text), shown), what);
}

/* A whole number of up to four digits; steps over it and the blanks around. */
static bool take_grit(runnel_slice *rest, int *grit) {
    const char *first;
    runnel_slice_skip_blanks(rest);
    first = rest->at;
    for (*grit = 0; rest->at < rest->end && *rest->at >= '0' && *rest->at <= '9'; rest->at++) {
        if (rest->at - first == 4)
            return false;
        *grit = 10 * *grit + (*rest->at - '0');
    }
    bool some = rest->at > first;
    runnel_slice_skip_blanks(rest);
    return some;
}

runnel_status runnel_grits_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, runnel_grits *grits) {
    enum { COARSEST = 12, FINEST = 5000 };
    runnel_slice rest = runnel_slice_of(text);
    runnel_grits found = {.count = 0};
    do {
        int grit = 0;
        if (!take_grit(&rest, &grit) || (rest.at < rest.end && *rest.at != ','))
            return refuse_grits(text, problems, place, RUNNEL_E_SYNTAX,
                                "a grit is a whole number of up to four digits");
        if (grit < COARSEST || grit > FINEST)
            return refuse_grits(text, problems, place, RUNNEL_E_RANGE, "a grit is from 12 to 5000");
        if (found.count == RUNNEL_GRITS_MOST)
            return refuse_grits(text, problems, place, RUNNEL_E_RANGE, "there may be 12 grits");
        if (found.count && grit <= found.numbers[found.count - 1])
            return refuse_grits(text, problems, place, RUNNEL_E_CONFLICT,
                                "a grit is not finer than the one before");
        found.numbers[found.count++] = grit;
    } while (rest.at < rest.end && *rest.at++ == ',');
    *grits = found;
    return RUNNEL_OK;
}
