/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/stock.h"

#include "base/key.h"
#include "base/memory.h"
#include "resin/amount.h"

#include <string.h>

/* A shortage of less than this share of the need is rounding. */
static const double rounding = 1e-9;

/* More packs than this are no purchase but a wrong pack size. */
static const double most_packs = 1e6;

/* ---- The stock ----------------------------------------------------------------------------- */

static void clear_item(runnel_stock_item *item) {
    char *owned[] = {item->what, item->part, item->currency, item->opened};
    for (size_t i = 0; i < sizeof owned / sizeof *owned; i++)
        runnel_free(owned[i]);
}

void runnel_needs_clear(runnel_needs *needs) {
    if (!needs)
        return;
    runnel_free(needs->items);
    *needs = (runnel_needs){NULL, 0, 0};
}

void runnel_stock_clear(runnel_stock *stock) {
    if (!stock)
        return;
    for (size_t i = 0; i < stock->count; i++)
        clear_item(&stock->items[i]);
    runnel_free(stock->items);
    memset(stock, 0, sizeof *stock);
}

static bool item_is_sound(const runnel_stock_item *item) {
    bool by_mass = runnel_is_amount(item->amount_g), by_volume = runnel_is_amount(item->amount_mm3);
    bool one_amount = (by_mass && isnan(item->amount_mm3)) || (by_volume && isnan(item->amount_g));
    bool one_pack = isnan(item->pack_g) || isnan(item->pack_mm3);
    return item->what && *item->what && one_amount && one_pack &&
           (isnan(item->pack_g) || runnel_is_positive(item->pack_g)) &&
           (isnan(item->pack_mm3) || runnel_is_positive(item->pack_mm3)) &&
           (isnan(item->price) || runnel_is_amount(item->price));
}

static char *copy_or_empty(const char *text) {
    return runnel_copy_text(text ? text : "");
}

runnel_status runnel_stock_add(runnel_stock *stock, const runnel_stock_item *item) {
    if (!item_is_sound(item))
        return RUNNEL_E_RANGE;
    runnel_stock_item copy = *item;
    copy.what = copy_or_empty(item->what);
    copy.part = copy_or_empty(item->part);
    copy.currency = copy_or_empty(item->currency);
    copy.opened = copy_or_empty(item->opened);
    if (!copy.what || !copy.part || !copy.currency || !copy.opened ||
        runnel_reserve(&stock->items, &stock->capacity, stock->count + 1, sizeof *stock->items)) {
        clear_item(&copy);
        return RUNNEL_E_NO_MEMORY;
    }
    stock->items[stock->count++] = copy;
    return RUNNEL_OK;
}

/* ---- Names --------------------------------------------------------------------------------- */

static bool same_text(const char *one, const char *other) {
    const char *a = one ? one : "", *b = other ? other : "";
    return runnel_key_equal(a, strlen(a), b, strlen(b));
}

static bool is_of(const runnel_stock_item *item, const runnel_stock_need *need) {
    return same_text(item->what, need->what) && same_text(item->part, need->part);
}

/* ---- Needs --------------------------------------------------------------------------------- */

void runnel_stock_answer_clear(runnel_stock_answer *answer) {
    if (!answer)
        return;
    runnel_free(answer->lines);
    runnel_free(answer->left);
    runnel_free(answer->costs);
    memset(answer, 0, sizeof *answer);
}

static bool need_is_sound(const runnel_stock_need *need) {
    bool knows_g = runnel_is_amount(need->mass_g), knows_mm3 = runnel_is_amount(need->volume_mm3);
    bool is_one_story = !knows_g || !knows_mm3 || (need->mass_g > 0) == (need->volume_mm3 > 0);
    return need->what && *need->what && (knows_g || isnan(need->mass_g)) &&
           (knows_mm3 || isnan(need->volume_mm3)) && (knows_g || knows_mm3) && is_one_story;
}

/* What the check works on. `need` are the needs of one name, all shares are of it. */
typedef struct check {
    const runnel_stock *stock;
    const runnel_stock_need *needs;
    runnel_stock_answer *answer;
} check;

static runnel_stock_line *line_of(const check *of, const runnel_stock_need *need) {
    for (size_t i = 0; i < of->answer->count; i++) {
        const runnel_stock_need *first = &of->needs[of->answer->lines[i].need];
        if (same_text(first->what, need->what) && same_text(first->part, need->part))
            return &of->answer->lines[i];
    }
    return NULL;
}

/* Gathers the needs of each name. A figure that one of them does not have is not known of all. */
static runnel_status gather(const check *of, size_t count) {
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < count; i++) {
        const runnel_stock_need *need = &of->needs[i];
        runnel_stock_line *line = line_of(of, need);
        if (!line) {
            line = &of->answer->lines[of->answer->count++];
            *line = (runnel_stock_line){.need = i, .buy = RUNNEL_STOCK_NONE};
        }
        line->need_g += need->mass_g;
        line->need_mm3 += need->volume_mm3;
        if (isnan(line->need_g) && isnan(line->need_mm3))
            status = RUNNEL_E_UNIT;
    }
    return status;
}

/* ---- Shares of a need ---------------------------------------------------------------------- */

/* What an amount, one of whose figures is NAN, is of a need; NAN when that is not known there. */
static double share_of(double mass_g, double volume_mm3, const runnel_stock_line *line) {
    return isnan(volume_mm3) ? mass_g / line->need_g : volume_mm3 / line->need_mm3;
}

static bool is_needed(const runnel_stock_line *line) {
    return line->need_g > 0 || line->need_mm3 > 0;
}

static double amount_share(const runnel_stock_item *item, const runnel_stock_line *line) {
    return share_of(item->amount_g, item->amount_mm3, line);
}

/* The need in the unit of an item's amount; NAN when it is not known. */
static double need_in_unit(const runnel_stock_item *item, const runnel_stock_line *line) {
    return isnan(item->amount_mm3) ? line->need_g : line->need_mm3;
}

static double pack_share(const runnel_stock_item *item, const runnel_stock_line *line) {
    return share_of(item->pack_g, item->pack_mm3, line);
}

/* ---- Drawing ------------------------------------------------------------------------------- */

/* Whether a bottle is to be used up before another: opened ones first, by their dates. */
static bool goes_before(const runnel_stock_item *one, const runnel_stock_item *other) {
    if (!*one->opened || !*other->opened)
        return *one->opened && !*other->opened;
    return strcmp(one->opened, other->opened) < 0;
}

/* The next bottle of a line to draw from: there must be something left in it. */
static size_t next_bottle(const check *of, const runnel_stock_line *line) {
    const runnel_stock_need *need = &of->needs[line->need];
    size_t best = RUNNEL_STOCK_NONE;
    for (size_t i = 0; i < of->stock->count; i++) {
        const runnel_stock_item *item = &of->stock->items[i];
        if (!(of->answer->left[i] > 0) || !is_of(item, need) || isnan(need_in_unit(item, line)))
            continue;
        if (best == RUNNEL_STOCK_NONE || goes_before(item, &of->stock->items[best]))
            best = i;
    }
    return best;
}

/* Price of all of the need at a bottle's price, NAN when not told. */
static double price_of_need(const runnel_stock_item *item, const runnel_stock_line *line) {
    return item->price / pack_share(item, line);
}

/* Costs of one line while it is gathered. */
typedef struct tally {
    double cost;
    double lowest; /* price of the need at the lowest price of that name; NAN */
    const char *currency;
    bool is_mixed;
} tally;

static void see_currency(tally *of, const char *currency) {
    if (!of->currency)
        of->currency = currency;
    else if (strcmp(of->currency, currency) != 0)
        of->is_mixed = true;
}

static tally tally_of(const check *of, const runnel_stock_line *line) {
    tally found = {.lowest = NAN};
    for (size_t i = 0; i < of->stock->count; i++) {
        const runnel_stock_item *item = &of->stock->items[i];
        double price = price_of_need(item, line);
        if (!is_of(item, &of->needs[line->need]) || isnan(price))
            continue;
        found.lowest = fmin(found.lowest, price);
        see_currency(&found, item->currency);
    }
    return found;
}

/* Draws the need of a line from its bottles; what is short, as a share. */
static double draw(const check *of, const runnel_stock_line *line, tally *costs) {
    double wanted = 1;
    while (wanted > rounding) {
        size_t bottle = next_bottle(of, line);
        if (bottle == RUNNEL_STOCK_NONE)
            return wanted;
        const runnel_stock_item *item = &of->stock->items[bottle];
        double *left = &of->answer->left[bottle];
        double need = need_in_unit(item, line), there = *left / need;
        double taken = fmin(there, wanted), price = price_of_need(item, line);
        *left = taken < there ? *left - taken * need : 0;
        wanted -= taken;
        costs->cost += taken * (isnan(price) ? costs->lowest : price);
    }
    return 0;
}

/* ---- Buying -------------------------------------------------------------------------------- */

/* Packs of one item that cover a shortage. */
typedef struct purchase {
    size_t item;
    double packs, cost, over; /* cost NAN when not told; over: what is left of them, share */
} purchase;

static bool is_better(const purchase *one, const purchase *other) {
    if (other->item == RUNNEL_STOCK_NONE || isnan(one->cost) != isnan(other->cost))
        return other->item == RUNNEL_STOCK_NONE || isnan(other->cost);
    return isnan(one->cost) || one->cost == other->cost ? one->over < other->over
                                                        : one->cost < other->cost;
}

static void buy(const check *of, double wanted, runnel_stock_line *line, tally *costs) {
    purchase best = {.item = RUNNEL_STOCK_NONE, .cost = NAN};
    for (size_t i = 0; i < of->stock->count; i++) {
        const runnel_stock_item *item = &of->stock->items[i];
        double pack = pack_share(item, line);
        if (!is_of(item, &of->needs[line->need]) || !(pack > 0))
            continue;
        double packs = ceil(wanted / pack * (1 - rounding));
        double cost = costs->is_mixed ? NAN : packs * item->price;
        purchase found = {i, packs, cost, packs * pack - wanted};
        if (packs <= most_packs && is_better(&found, &best))
            best = found;
    }
    line->buy_cost = best.cost;
    line->buy = best.item;
    line->packs = best.item == RUNNEL_STOCK_NONE ? 0 : (size_t)best.packs;
    double price =
        best.item == RUNNEL_STOCK_NONE ? NAN : price_of_need(&of->stock->items[best.item], line);
    costs->cost += wanted * (isnan(price) ? costs->lowest : price);
}

/* ---- Lines --------------------------------------------------------------------------------- */

static void count_bottles(const check *of, runnel_stock_line *line) {
    double share = 0;
    for (size_t i = 0; i < of->stock->count; i++) {
        const runnel_stock_item *item = &of->stock->items[i];
        if (!is_of(item, &of->needs[line->need]))
            continue;
        bool counts = !isnan(need_in_unit(item, line));
        line->bottles++;
        line->uncountable += !counts;
        if (counts && is_needed(line))
            share += amount_share(item, line);
    }
    line->share = is_needed(line) ? share : INFINITY;
}

/* A line that needs nothing: what is there of it in one unit, where that is the unit of all. */
static void fill_idle(const check *of, runnel_stock_line *line) {
    double g = 0, mm3 = 0;
    for (size_t i = 0; i < of->stock->count; i++) {
        const runnel_stock_item *item = &of->stock->items[i];
        if (!is_of(item, &of->needs[line->need]))
            continue;
        g += item->amount_g;
        mm3 += item->amount_mm3;
    }
    line->there_g = line->left_g = g;
    line->there_mm3 = line->left_mm3 = mm3;
    line->is_enough = true;
}

static void fill_line(const check *of, runnel_stock_line *line) {
    count_bottles(of, line);
    if (!is_needed(line)) {
        fill_idle(of, line);
        return;
    }
    tally costs = tally_of(of, line);
    double wanted = draw(of, line, &costs);
    line->is_enough = wanted == 0;
    line->there_g = line->share * line->need_g;
    line->there_mm3 = line->share * line->need_mm3;
    line->short_g = wanted * line->need_g;
    line->short_mm3 = wanted * line->need_mm3;
    double left = fmax(0, line->share - 1);
    line->left_g = left * line->need_g;
    line->left_mm3 = left * line->need_mm3;
    if (!line->is_enough)
        buy(of, wanted, line, &costs);
    line->currency = costs.is_mixed ? NULL : costs.currency;
    line->used_cost = costs.is_mixed ? NAN : costs.cost;
}

/* ---- The answer ---------------------------------------------------------------------------- */

static void add_cost(runnel_stock_answer *answer, const runnel_stock_line *line) {
    if (isnan(line->used_cost) || !line->currency) {
        answer->unpriced += is_needed(line);
        return;
    }
    size_t i = 0;
    while (i < answer->cost_count && strcmp(answer->costs[i].currency, line->currency) != 0)
        i++;
    if (i == answer->cost_count)
        answer->costs[answer->cost_count++] = (runnel_stock_cost){.currency = line->currency};
    answer->costs[i].used += line->used_cost;
    answer->costs[i].buy += isnan(line->buy_cost) ? 0 : line->buy_cost;
}

static void sum_up(size_t pieces, runnel_stock_answer *answer) {
    answer->is_enough = true;
    answer->times = INFINITY;
    answer->limiting = RUNNEL_STOCK_NONE;
    for (size_t i = 0; i < answer->count; i++) {
        const runnel_stock_line *line = &answer->lines[i];
        answer->is_enough = answer->is_enough && line->is_enough;
        if (line->share < answer->times) {
            answer->times = line->share;
            answer->limiting = i;
        }
        add_cost(answer, line);
    }
    for (size_t i = 0; i < answer->cost_count; i++)
        answer->costs[i].used_per_piece = pieces ? answer->costs[i].used / (double)pieces : NAN;
}

static runnel_status make_room(const runnel_stock *stock, size_t count,
                               runnel_stock_answer *answer) {
    answer->lines = runnel_zeroed(count, sizeof *answer->lines);
    answer->left = runnel_zeroed(stock->count, sizeof *answer->left);
    answer->costs = runnel_zeroed(count, sizeof *answer->costs);
    if (!answer->lines || !answer->left || !answer->costs)
        return RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < stock->count; i++) {
        const runnel_stock_item *item = &stock->items[i];
        answer->left[i] = isnan(item->amount_mm3) ? item->amount_g : item->amount_mm3;
    }
    return RUNNEL_OK;
}

runnel_status runnel_stock_check(const runnel_stock *stock, const runnel_stock_need *needs,
                                 size_t count, size_t pieces, runnel_stock_answer *answer) {
    for (size_t i = 0; i < count; i++)
        if (!need_is_sound(&needs[i]))
            return RUNNEL_E_RANGE;
    runnel_stock_answer fresh = {0};
    if (make_room(stock, count, &fresh) != RUNNEL_OK) {
        runnel_stock_answer_clear(&fresh);
        return RUNNEL_E_NO_MEMORY;
    }
    check of = {stock, needs, &fresh};
    runnel_status status = gather(&of, count);
    if (status != RUNNEL_OK) {
        runnel_stock_answer_clear(&fresh);
        return status;
    }
    for (size_t i = 0; i < fresh.count; i++)
        fill_line(&of, &fresh.lines[i]);
    sum_up(pieces, &fresh);
    *answer = fresh;
    return fresh.is_enough ? RUNNEL_OK : RUNNEL_NOT_POSSIBLE;
}

runnel_status runnel_stock_largest_batch(const runnel_mixture *mixture, double part_a_g,
                                         double part_b_g, double *mass_g, char *limiting) {
    if (!runnel_is_positive(mixture->weight_a) || !runnel_is_positive(mixture->weight_b) ||
        !runnel_is_amount(part_a_g) || !runnel_is_amount(part_b_g))
        return RUNNEL_E_RANGE;
    double by_a_g = part_a_g / mixture->weight_a, by_b_g = part_b_g / mixture->weight_b;
    double least_g = fmin(by_a_g, by_b_g);
    if (!isfinite(least_g))
        return RUNNEL_E_RANGE;
    *mass_g = least_g;
    *limiting = fabs(by_a_g - by_b_g) <= rounding * least_g ? 0 : by_a_g < by_b_g ? 'A' : 'B';
    return RUNNEL_OK;
}
