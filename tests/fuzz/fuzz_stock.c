/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Stock files. What is refused is told and leaves the result alone. Of what is read, the numbers
 * stand where the file says; with the same amounts the text is the same byte for byte, and with
 * others it reads back as those, all else as before.
 */
#include "runnel/memory.h"
#include "runnel/stock_csv.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void require(int holds, const char *what) {
    if (holds)
        return;
    fprintf(stderr, "%s\n", what);
    abort();
}

static double amount_of(const runnel_stock_item *item) {
    return isnan(item->amount_mm3) ? item->amount_g : item->amount_mm3;
}

static void check_items(const runnel_stock_file *file) {
    size_t last = 0;
    for (size_t i = 0; i < file->stock.count; i++) {
        const runnel_stock_item *item = &file->stock.items[i];
        const runnel_stock_cell *cell = &file->cells[i];
        require(item->what && *item->what && item->part && item->currency && item->opened,
                "a text that is missing");
        require(isnan(item->amount_g) != isnan(item->amount_mm3), "two amounts, or none");
        require(amount_of(item) >= 0 && isfinite(amount_of(item)), "an amount");
        require(cell->length > 0 && cell->at >= last && cell->at + cell->length <= file->length,
                "the place of a number");
        last = cell->at + cell->length;
    }
}

static void same_but_amounts(const runnel_stock_file *file, const runnel_stock_file *again,
                             const double *left) {
    require(again->stock.count == file->stock.count, "items lost or won");
    for (size_t i = 0; i < file->stock.count; i++) {
        const runnel_stock_item *one = &file->stock.items[i], *other = &again->stock.items[i];
        double step = file->cells[i].smallest_unit * file->cells[i].per_unit;
        require(!strcmp(one->what, other->what) && !strcmp(one->part, other->part) &&
                    !strcmp(one->currency, other->currency) && !strcmp(one->opened, other->opened),
                "a text that changed");
        require(fabs(amount_of(other) - left[i]) <= step + 1e-9 * left[i], "another amount");
    }
}

static void check_texts(const runnel_stock_file *file) {
    double *left = calloc(file->stock.count + 1, sizeof *left);
    char *text = NULL;
    size_t length = 0;
    if (!left)
        return;
    for (size_t i = 0; i < file->stock.count; i++)
        left[i] = amount_of(&file->stock.items[i]);
    require(runnel_stock_text(file, left, &text, &length) == RUNNEL_OK, "no text");
    require(length == file->length && !memcmp(text, file->text, length), "another text");
    runnel_free(text);
    for (size_t i = 0; i < file->stock.count; i += 2)
        left[i] = left[i] * 0.37;
    require(runnel_stock_text(file, left, &text, &length) == RUNNEL_OK, "no new text");
    runnel_stock_file again = {0};
    require(runnel_stock_parse(text, length, "again", NULL, &again) == RUNNEL_OK,
            "what was written cannot be read");
    same_but_amounts(file, &again, left);
    runnel_stock_file_clear(&again);
    runnel_free(text);
    free(left);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    runnel_problems problems;
    runnel_stock_file file = {0};
    runnel_problems_init(&problems);
    runnel_status status =
        runnel_stock_parse((const char *)data, size, "stock.csv", &problems, &file);
    require((status == RUNNEL_OK) == (problems.count == 0), "refused without a word");
    if (status == RUNNEL_OK) {
        check_items(&file);
        check_texts(&file);
    } else {
        require(!file.text && !file.path && !file.cells && !file.stock.items, "touched");
    }
    runnel_stock_file_clear(&file);
    runnel_problems_clear(&problems);
    return 0;
}
