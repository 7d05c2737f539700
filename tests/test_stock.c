/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "failing.h"
#include "runnel/stock.h"

#include <stdint.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static double between(double low, double high) {
    return low + (high - low) * (rand() / (RAND_MAX + 1.0));
}

/* A bottle in grams, closed and without a price. */
static runnel_stock_item grams(char *what, char *part, double amount_g) {
    return (runnel_stock_item){.what = what,
                               .part = part,
                               .amount_g = amount_g,
                               .amount_mm3 = NAN,
                               .pack_g = NAN,
                               .pack_mm3 = NAN,
                               .price = NAN};
}

static runnel_stock_item priced(runnel_stock_item item, double pack_g, double price,
                                char *currency) {
    item.pack_g = pack_g;
    item.price = price;
    item.currency = currency;
    return item;
}

static void add(runnel_stock *stock, runnel_stock_item item) {
    ck_assert_int_eq(runnel_stock_add(stock, &item), RUNNEL_OK);
}

START_TEST(hardener_that_will_run_out) {
    /* 207.36 g at 1:0.44, 144 + 63.36 g; 500 g of A, 50 g of B. What is there makes 78.9 % of it,
     * 50/0.44 = 113.64 g of A with 50 g of B: 163.64 g. */
    runnel_stock stock = {0};
    runnel_stock_answer answer = {0};
    add(&stock, grams("laminating 100:44", "A", 500));
    add(&stock, grams("laminating 100:44", "B", 50));
    runnel_stock_need needs[] = {{"Laminating 100:44", "a", 144, NAN},
                                 {"laminating 100:44", "B", 63.36, NAN}};
    ck_assert_int_eq(runnel_stock_check(&stock, needs, 2, 1, &answer), RUNNEL_NOT_POSSIBLE);
    ck_assert(!answer.is_enough);
    ck_assert_uint_eq(answer.count, 2);
    ck_assert_uint_eq(answer.limiting, 1);
    ck_near(answer.times, 50 / 63.36, 1e-14);
    const runnel_stock_line *a = &answer.lines[0], *b = &answer.lines[1];
    ck_assert(a->is_enough && !b->is_enough);
    ck_near(a->left_g, 356, 1e-13);
    ck_near(a->short_g, 0, 0);
    ck_near(b->there_g, 50, 1e-13);
    ck_near(b->short_g, 13.36, 1e-12);
    ck_near(b->left_g, 0, 0);
    ck_assert(isnan(b->need_mm3) && isnan(b->short_mm3) && isnan(b->left_mm3));
    ck_assert_uint_eq(b->bottles, 1);
    ck_assert_uint_eq(b->buy, RUNNEL_STOCK_NONE);
    ck_assert_uint_eq(b->packs, 0);
    ck_assert(isnan(b->buy_cost) && isnan(b->used_cost) && !b->currency);
    ck_near(answer.left[0], 356, 1e-13);
    ck_near(answer.left[1], 0, 0);
    ck_assert_uint_eq(answer.unpriced, 2);
    ck_assert_uint_eq(answer.cost_count, 0);
    runnel_stock_answer_clear(&answer);
    runnel_stock_clear(&stock);
    runnel_ratio ratio = {1, 0.44, RUNNEL_BASIS_WEIGHT};
    runnel_mixture mixture;
    double mass_g = NAN;
    char limiting = '?';
    ck_assert_int_eq(runnel_mixture_of(&ratio, 1.13, 0.99, &mixture), RUNNEL_OK);
    ck_assert_int_eq(runnel_stock_largest_batch(&mixture, 144, 50, &mass_g, &limiting), RUNNEL_OK);
    ck_near(mass_g, 163.63636363636364, 1e-13);
    ck_assert_int_eq(limiting, 'B');
    ck_assert_int_eq(runnel_stock_largest_batch(&mixture, 100, 50, &mass_g, &limiting), RUNNEL_OK);
    ck_near(mass_g, 144, 1e-13);
    ck_assert_int_eq(limiting, 'A');
    ck_assert_int_eq(runnel_stock_largest_batch(&mixture, 100, 44, &mass_g, &limiting), RUNNEL_OK);
    ck_assert_int_eq(limiting, 0);
    ck_assert_int_eq(runnel_stock_largest_batch(&mixture, 0, 0, &mass_g, &limiting), RUNNEL_OK);
    ck_near(mass_g, 0, 0);
}
END_TEST

START_TEST(costs_worked_by_hand) {
    /* The same with prices: A 1000 g for 24.00, B 250 g for 12.00, two pieces. Used: 144 g at 2.4
     * ct and 63.36 g at 4.8 ct, 3.456 + 3.04128 = 6.49728; to buy one pack of B. */
    runnel_stock stock = {0};
    runnel_stock_answer answer = {0};
    add(&stock, priced(grams("resin", "A", 500), 1000, 24, "EUR"));
    add(&stock, priced(grams("resin", "B", 50), 250, 12, "EUR"));
    runnel_stock_need needs[] = {{"resin", "A", 144, NAN}, {"resin", "B", 63.36, NAN}};
    ck_assert_int_eq(runnel_stock_check(&stock, needs, 2, 2, &answer), RUNNEL_NOT_POSSIBLE);
    const runnel_stock_line *a = &answer.lines[0], *b = &answer.lines[1];
    ck_near(a->used_cost, 3.456, 1e-13);
    ck_near(a->buy_cost, 0, 0);
    ck_assert_uint_eq(a->buy, RUNNEL_STOCK_NONE);
    ck_near(b->used_cost, 3.04128, 1e-13);
    ck_assert_uint_eq(b->buy, 1);
    ck_assert_uint_eq(b->packs, 1);
    ck_near(b->buy_cost, 12, 1e-13);
    ck_assert_str_eq(b->currency, "EUR");
    ck_assert_uint_eq(answer.cost_count, 1);
    ck_assert_str_eq(answer.costs[0].currency, "EUR");
    ck_near(answer.costs[0].used, 6.49728, 1e-13);
    ck_near(answer.costs[0].buy, 12, 1e-13);
    ck_near(answer.costs[0].used_per_piece, 3.24864, 1e-13);
    ck_assert_uint_eq(answer.unpriced, 0);
    runnel_stock_answer_clear(&answer);
    ck_assert_int_eq(runnel_stock_check(&stock, needs, 1, 0, &answer), RUNNEL_OK);
    ck_assert(isnan(answer.costs[0].used_per_piece));
    runnel_stock_answer_clear(&answer);
    /* A second bottle of B whose price nobody noted is reckoned at the first one's. */
    add(&stock, grams("resin", "B", 100));
    ck_assert_int_eq(runnel_stock_check(&stock, needs, 2, 2, &answer), RUNNEL_OK);
    ck_near(answer.lines[1].used_cost, 3.04128, 1e-13);
    ck_near(answer.left[1], 0, 0);
    ck_near(answer.left[2], 86.64, 1e-13);
    runnel_stock_answer_clear(&answer);
    /* A pack in another currency: the two are not joined. */
    add(&stock, priced(grams("resin", "B", 0), 250, 9, "GBP"));
    ck_assert_int_eq(runnel_stock_check(&stock, needs, 2, 2, &answer), RUNNEL_OK);
    ck_assert(isnan(answer.lines[1].used_cost) && !answer.lines[1].currency);
    ck_near(answer.lines[1].buy_cost, 0, 0);
    ck_assert_uint_eq(answer.unpriced, 1);
    ck_near(answer.costs[0].used, 3.456, 1e-13);
    runnel_stock_answer_clear(&answer);
    runnel_stock_clear(&stock);
}
END_TEST

START_TEST(packs_worked_by_hand) {
    /* 250 g for 12.00 and 1000 g for 30.00. Short of 200 g: a small one. Of 600 g: three small ones
     * are 36.00, one large one is 30.00. Of 500 g, exactly two small ones. */
    static const struct {
        double need_g;
        size_t item, packs;
        double cost;
    } rows[] = {{200, 0, 1, 12}, {600, 1, 1, 30}, {500, 0, 2, 24}, {1200, 0, 5, 60}};
    runnel_stock stock = {0};
    add(&stock, priced(grams("resin", "B", 0), 250, 12, "EUR"));
    add(&stock, priced(grams("resin", "B", 0), 1000, 30, "EUR"));
    for (size_t i = 0; i < COUNT(rows); i++) {
        runnel_stock_answer answer = {0};
        runnel_stock_need need = {"resin", "B", rows[i].need_g, NAN};
        ck_assert_int_eq(runnel_stock_check(&stock, &need, 1, 1, &answer), RUNNEL_NOT_POSSIBLE);
        /* 1200 g: five small ones 60.00, two large ones as well; 50 g against 800 g over. */
        ck_assert_uint_eq(answer.lines[0].buy, rows[i].item);
        ck_assert_uint_eq(answer.lines[0].packs, rows[i].packs);
        ck_near(answer.lines[0].buy_cost, rows[i].cost, 1e-13);
        runnel_stock_answer_clear(&answer);
    }
    runnel_stock_clear(&stock);
    /* Without prices what leaves least over: for 600 g three of 250 (150 over), not one of 1000. */
    add(&stock, priced(grams("resin", "B", 0), 1000, NAN, NULL));
    add(&stock, priced(grams("resin", "B", 0), 250, NAN, NULL));
    runnel_stock_answer answer = {0};
    runnel_stock_need need = {"resin", "B", 600, NAN};
    ck_assert_int_eq(runnel_stock_check(&stock, &need, 1, 1, &answer), RUNNEL_NOT_POSSIBLE);
    ck_assert_uint_eq(answer.lines[0].buy, 1);
    ck_assert_uint_eq(answer.lines[0].packs, 3);
    ck_assert(isnan(answer.lines[0].buy_cost));
    runnel_stock_answer_clear(&answer);
    /* A pack of nearly nothing is no pack. */
    runnel_stock_clear(&stock);
    add(&stock, priced(grams("resin", "B", 0), 1e-5, 1, "EUR"));
    ck_assert_int_eq(runnel_stock_check(&stock, &need, 1, 1, &answer), RUNNEL_NOT_POSSIBLE);
    ck_assert_uint_eq(answer.lines[0].buy, RUNNEL_STOCK_NONE);
    runnel_stock_answer_clear(&answer);
    runnel_stock_clear(&stock);
}
END_TEST

START_TEST(opened_bottles_go_first) {
    /* 90 g from a closed one of 100 g, one of 80 g open since March, one of 30 g since December. */
    runnel_stock stock = {0};
    runnel_stock_answer answer = {0};
    runnel_stock_item march = grams("resin", "A", 80), december = grams("resin", "A", 30);
    march.opened = "2026-03";
    december.opened = "2025-12-01";
    add(&stock, grams("resin", "A", 100));
    add(&stock, march);
    add(&stock, december);
    runnel_stock_need need = {"resin", "A", 90, NAN};
    ck_assert_int_eq(runnel_stock_check(&stock, &need, 1, 1, &answer), RUNNEL_OK);
    ck_near(answer.left[0], 100, 0);
    ck_near(answer.left[1], 20, 1e-13);
    ck_near(answer.left[2], 0, 0);
    ck_assert_uint_eq(answer.lines[0].bottles, 3);
    ck_near(answer.lines[0].left_g, 120, 1e-13);
    runnel_stock_answer_clear(&answer);
    runnel_stock_clear(&stock);
}
END_TEST

START_TEST(grams_and_millilitres) {
    /* 110 g or 100 ml are needed: half from 55 g in one bottle, the rest from 80 ml in another. */
    runnel_stock stock = {0};
    runnel_stock_answer answer = {0};
    runnel_stock_item by_volume = grams("oil", "", NAN);
    by_volume.amount_mm3 = 80e3;
    by_volume.pack_mm3 = 250e3;
    by_volume.price = 10;
    by_volume.currency = "EUR";
    add(&stock, grams("oil", NULL, 55));
    add(&stock, by_volume);
    runnel_stock_need need = {"oil", NULL, 110, 100e3};
    ck_assert_int_eq(runnel_stock_check(&stock, &need, 1, 1, &answer), RUNNEL_OK);
    ck_near(answer.lines[0].share, 1.3, 1e-14);
    ck_near(answer.lines[0].there_g, 143, 1e-13);
    ck_near(answer.lines[0].there_mm3, 130e3, 1e-13);
    ck_near(answer.left[0], 0, 0);
    ck_near(answer.left[1], 30e3, 1e-12);
    ck_near(answer.lines[0].left_g, 33, 1e-12);
    ck_near(answer.lines[0].used_cost, 4, 1e-13); /* 100 ml of 250 ml for 10.00 */
    runnel_stock_answer_clear(&answer);
    /* Known by weight only: the bottle in ml does not count, and says so. */
    need.volume_mm3 = NAN;
    ck_assert_int_eq(runnel_stock_check(&stock, &need, 1, 1, &answer), RUNNEL_NOT_POSSIBLE);
    ck_assert_uint_eq(answer.lines[0].bottles, 2);
    ck_assert_uint_eq(answer.lines[0].uncountable, 1);
    ck_near(answer.lines[0].share, 0.5, 1e-14);
    ck_near(answer.lines[0].short_g, 55, 1e-13);
    ck_near(answer.left[1], 80e3, 0);
    ck_assert_uint_eq(answer.lines[0].buy, RUNNEL_STOCK_NONE);
    runnel_stock_answer_clear(&answer);
    runnel_stock_clear(&stock);
}
END_TEST

START_TEST(needs_of_one_name_add_up) {
    /* Two colours take the same resin: 60 + 50 g of 100 g. */
    runnel_stock stock = {0};
    runnel_stock_answer answer = {0};
    add(&stock, grams("coating 2:1", "A", 100));
    runnel_stock_need needs[] = {
        {"coating 2:1", "A", 60, 53e3}, {"amber", "", 0, NAN}, {"Coating-2:1", "A", 50, 44e3}};
    ck_assert_int_eq(runnel_stock_check(&stock, needs, 3, 1, &answer), RUNNEL_NOT_POSSIBLE);
    ck_assert_uint_eq(answer.count, 2);
    ck_near(answer.lines[0].need_g, 110, 1e-14);
    ck_near(answer.lines[0].need_mm3, 97e3, 1e-14);
    ck_near(answer.lines[0].short_g, 10, 1e-12);
    ck_assert_uint_eq(answer.lines[1].need, 1);
    ck_assert(answer.lines[1].is_enough);
    ck_near(answer.lines[1].share, INFINITY, 0);
    ck_near(answer.lines[1].there_g, 0, 0);
    ck_assert_uint_eq(answer.limiting, 0);
    ck_near(answer.times, 100.0 / 110, 1e-14);
    ck_assert_uint_eq(answer.unpriced, 1);
    runnel_stock_answer_clear(&answer);
    /* Nothing needed at all. */
    ck_assert_int_eq(runnel_stock_check(&stock, &needs[1], 1, 1, &answer), RUNNEL_OK);
    ck_near(answer.times, INFINITY, 0);
    ck_assert_uint_eq(answer.limiting, RUNNEL_STOCK_NONE);
    ck_near(answer.left[0], 100, 0);
    runnel_stock_answer_clear(&answer);
    ck_assert_int_eq(runnel_stock_check(&stock, NULL, 0, 1, &answer), RUNNEL_OK);
    ck_assert_uint_eq(answer.count, 0);
    runnel_stock_answer_clear(&answer);
    runnel_stock_answer_clear(NULL);
    /* Nothing needed of what is there: it is told how much that is. */
    needs[0].mass_g = needs[0].volume_mm3 = 0;
    ck_assert_int_eq(runnel_stock_check(&stock, needs, 1, 1, &answer), RUNNEL_OK);
    ck_near(answer.lines[0].there_g, 100, 0);
    ck_near(answer.lines[0].left_g, 100, 0);
    ck_assert_uint_eq(answer.unpriced, 0);
    runnel_stock_answer_clear(&answer);
    runnel_stock_clear(&stock);
    runnel_stock_clear(&stock);
    runnel_stock_clear(NULL);
}
END_TEST

/* --- thousands of jobs --- */

static void random_stock(runnel_stock *stock) {
    static char *parts[] = {"A", "B", "red", ""};
    static char *dates[] = {"", "2025", "2026-02", "2026-02-11"};
    size_t count = (size_t)(rand() % 12);
    for (size_t i = 0; i < count; i++) {
        runnel_stock_item item = grams("x", parts[rand() % 4], between(0, 300));
        if (rand() % 3 == 0) {
            item.amount_mm3 = 1000 * item.amount_g;
            item.amount_g = NAN;
        }
        if (rand() % 2)
            item.pack_g = between(20, 500);
        else if (rand() % 2)
            item.pack_mm3 = between(20e3, 500e3);
        item.price = rand() % 3 ? between(1, 50) : NAN;
        item.currency = rand() % 5 ? "EUR" : "CHF";
        item.opened = dates[rand() % 4];
        if (rand() % 4 == 0)
            item.amount_g = isnan(item.amount_g) ? NAN : 0;
        add(stock, item);
    }
}

static void check_line(const runnel_stock *stock, const runnel_stock_answer *answer,
                       const runnel_stock_line *line, const runnel_stock_need *need) {
    /* 1.1 g/ml throughout: what is there and what was taken, bottle by bottle. */
    double there_g = 0, taken_g = 0;
    for (size_t i = 0; i < stock->count; i++) {
        const runnel_stock_item *item = &stock->items[i];
        if (*item->part != (need->part ? *need->part : '\0'))
            continue;
        double g_per_unit = isnan(item->amount_g) ? 1.1e-3 : 1;
        double amount = isnan(item->amount_g) ? item->amount_mm3 : item->amount_g;
        ck_assert(answer->left[i] >= 0 && answer->left[i] <= amount);
        there_g += g_per_unit * amount;
        taken_g += g_per_unit * (amount - answer->left[i]);
    }
    ck_near_or(line->there_g, there_g, 1e-12, 1e-12);
    ck_near_or(taken_g, fmin(line->need_g, there_g), 1e-9, 1e-9);
    ck_assert(line->is_enough == (there_g >= line->need_g * (1 - 1e-9)));
    ck_near_or(line->short_g, fmax(0, line->need_g - there_g), 1e-8, 1e-6);
    ck_near_or(line->left_g, fmax(0, there_g - line->need_g), 1e-8, 1e-6);
    ck_near_or(line->short_mm3 * 1.1e-3, line->short_g, 1e-12, 0);
    if (line->buy == RUNNEL_STOCK_NONE)
        return;
    const runnel_stock_item *pack = &stock->items[line->buy];
    double pack_g = isnan(pack->pack_g) ? 1.1e-3 * pack->pack_mm3 : pack->pack_g;
    double packs = (double)line->packs;
    ck_assert(packs * pack_g >= line->short_g * (1 - 1e-6));
    ck_assert((packs - 1) * pack_g < line->short_g * (1 + 1e-6));
    ck_assert(isnan(line->buy_cost) || runnel_near(line->buy_cost, packs * pack->price, 1e-12, 0));
    /* No other pack is cheaper, where all prices are in one currency. */
    for (size_t i = 0; i < stock->count && !isnan(line->buy_cost); i++) {
        const runnel_stock_item *other = &stock->items[i];
        if (*other->part != *pack->part)
            continue;
        double other_g = isnan(other->pack_g) ? 1.1e-3 * other->pack_mm3 : other->pack_g;
        double cost = ceil(line->short_g / other_g * (1 - 1e-9)) * other->price;
        ck_assert(isnan(cost) || cost >= line->buy_cost * (1 - 1e-9));
    }
}

START_TEST(thousands_of_jobs) {
    srand(6);
    size_t enough = 0, bought = 0;
    for (int round = 0; round < 5000; round++) {
        runnel_stock stock = {0};
        random_stock(&stock);
        double grams_of[3] = {between(1, 200), between(1, 200), between(1, 200)};
        runnel_stock_need needs[] = {{"X", "A", grams_of[0], grams_of[0] / 1.1e-3},
                                     {"X", "b", grams_of[1], grams_of[1] / 1.1e-3},
                                     {"x", "A", grams_of[2], grams_of[2] / 1.1e-3}};
        const char *parts[] = {"A", "B"};
        runnel_stock_answer answer = {0}, more = {0};
        runnel_status status = runnel_stock_check(&stock, needs, 3, 2, &answer);
        ck_assert_int_eq(status, answer.is_enough ? RUNNEL_OK : RUNNEL_NOT_POSSIBLE);
        ck_assert_uint_eq(answer.count, 2);
        double least = INFINITY;
        for (size_t i = 0; i < 2; i++) {
            runnel_stock_need named = {"x", parts[i], 0, 0};
            check_line(&stock, &answer, &answer.lines[i], &named);
            least = fmin(least, answer.lines[i].share);
            bought += answer.lines[i].packs > 0;
        }
        ck_near(answer.times, least, 0);
        ck_near(answer.lines[answer.limiting].share, least, 0);
        enough += answer.is_enough;
        /* What other names have is not touched. */
        for (size_t i = 0; i < stock.count; i++)
            if (*stock.items[i].part == 'r' || !*stock.items[i].part)
                ck_assert(answer.left[i] == stock.items[i].amount_g ||
                          answer.left[i] == stock.items[i].amount_mm3);
        /* More in the bottles never makes less. */
        add(&stock, grams("x", "A", between(0, 50)));
        runnel_stock_check(&stock, needs, 3, 2, &more);
        ck_assert(more.times >= answer.times);
        ck_assert(!answer.is_enough || more.is_enough);
        runnel_stock_answer_clear(&more);
        runnel_stock_answer_clear(&answer);
        runnel_stock_clear(&stock);
    }
    ck_assert(enough > 500 && bought > 500);
}
END_TEST

/* --- refusals and memory --- */

START_TEST(refusals) {
    runnel_stock stock = {0};
    runnel_stock_answer answer = {.count = 7};
    static const double bad[] = {-1, INFINITY};
    for (size_t i = 0; i < COUNT(bad); i++) {
        double *members[5];
        for (size_t k = 0; k < COUNT(members); k++) {
            runnel_stock_item item = grams("x", "A", 1);
            members[0] = &item.amount_g;
            members[1] = &item.amount_mm3; /* beside the one in g */
            members[2] = &item.pack_g;
            members[3] = &item.pack_mm3;
            members[4] = &item.price;
            *members[k] = bad[i];
            if (k == 1)
                item.amount_g = NAN;
            ck_assert_int_eq(runnel_stock_add(&stock, &item), RUNNEL_E_RANGE);
        }
        runnel_stock_need need = {"x", "A", bad[i], NAN};
        ck_assert_int_eq(runnel_stock_check(&stock, &need, 1, 1, &answer), RUNNEL_E_RANGE);
        need = (runnel_stock_need){"x", "A", 1, bad[i]};
        ck_assert_int_eq(runnel_stock_check(&stock, &need, 1, 1, &answer), RUNNEL_E_RANGE);
        runnel_mixture mixture = {.weight_a = 0.5, .weight_b = 0.5};
        double mass_g = 7;
        char limiting = '?';
        ck_assert_int_eq(runnel_stock_largest_batch(&mixture, bad[i], 1, &mass_g, &limiting),
                         RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_stock_largest_batch(&mixture, 1, bad[i], &mass_g, &limiting),
                         RUNNEL_E_RANGE);
        mixture.weight_a = bad[i];
        ck_assert_int_eq(runnel_stock_largest_batch(&mixture, 1, 1, &mass_g, &limiting),
                         RUNNEL_E_RANGE);
        ck_near(mass_g, 7, 0);
        ck_assert_int_eq(limiting, '?');
    }
    runnel_stock_item both = grams("x", "A", 1), none = grams("x", "A", NAN), packs = both;
    both.amount_mm3 = 1;
    ck_assert_int_eq(runnel_stock_add(&stock, &both), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_stock_add(&stock, &none), RUNNEL_E_RANGE);
    packs.pack_g = packs.pack_mm3 = 1;
    ck_assert_int_eq(runnel_stock_add(&stock, &packs), RUNNEL_E_RANGE);
    packs = grams("x", "A", 1);
    packs.pack_g = 0;
    ck_assert_int_eq(runnel_stock_add(&stock, &packs), RUNNEL_E_RANGE);
    runnel_stock_item nameless = grams(NULL, "A", 1), empty = grams("", "A", 1);
    ck_assert_int_eq(runnel_stock_add(&stock, &nameless), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_stock_add(&stock, &empty), RUNNEL_E_RANGE);
    ck_assert_uint_eq(stock.count, 0);
    static const runnel_stock_need wrong[] = {
        {NULL, "A", 1, NAN}, {"", "A", 1, NAN}, {"x", "A", NAN, NAN}, {"x", "A", 1, 0}};
    for (size_t i = 0; i < COUNT(wrong); i++)
        ck_assert_int_eq(runnel_stock_check(&stock, &wrong[i], 1, 1, &answer), RUNNEL_E_RANGE);
    static const runnel_stock_need apart[] = {{"x", "A", 1, NAN}, {"x", "A", NAN, 1000}};
    ck_assert_int_eq(runnel_stock_check(&stock, apart, 2, 1, &answer), RUNNEL_E_UNIT);
    ck_assert_uint_eq(answer.count, 7);
}
END_TEST

static runnel_status fill_and_check(runnel_stock_answer *answer, runnel_stock *stock) {
    runnel_stock_item item = priced(grams("resin", "A", 500), 1000, 24, "EUR");
    runnel_stock_need need = {"resin", "A", 144, NAN};
    runnel_status status = RUNNEL_OK;
    for (int i = 0; i < 10 && status == RUNNEL_OK; i++)
        status = runnel_stock_add(stock, &item);
    return status == RUNNEL_OK ? runnel_stock_check(stock, &need, 1, 1, answer) : status;
}

START_TEST(memory_that_runs_out) {
    bool done = false;
    for (size_t fail_at = 0; !done; fail_at++) {
        failing count = {.fail_at = fail_at};
        runnel_stock stock = {0};
        runnel_stock_answer answer = {.cost_count = 7};
        start_failing(&count);
        runnel_status status = fill_and_check(&answer, &stock);
        done = status == RUNNEL_OK;
        ck_assert(done || (status == RUNNEL_E_NO_MEMORY && answer.cost_count == 7));
        if (done)
            runnel_stock_answer_clear(&answer);
        runnel_stock_clear(&stock);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
        ck_assert_uint_lt(fail_at, 100);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("stock");
    TCase *stock = tcase_create("stock");
    tcase_set_timeout(stock, 60); /* under valgrind too */
    tcase_add_test(stock, hardener_that_will_run_out);
    tcase_add_test(stock, costs_worked_by_hand);
    tcase_add_test(stock, packs_worked_by_hand);
    tcase_add_test(stock, opened_bottles_go_first);
    tcase_add_test(stock, grams_and_millilitres);
    tcase_add_test(stock, needs_of_one_name_add_up);
    tcase_add_test(stock, thousands_of_jobs);
    tcase_add_test(stock, refusals);
    tcase_add_test(stock, memory_that_runs_out);
    suite_add_tcase(suite, stock);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
