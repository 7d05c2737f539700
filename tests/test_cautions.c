/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "runnel/cautions.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))
#define BIT(step)   RUNNEL_STEP_BIT(RUNNEL_STEP_##step)

START_TEST(every_caution_is_complete) {
    size_t count = 0;
    const runnel_caution *all = runnel_cautions(&count);
    ck_assert_uint_ge(count, 12);
    for (size_t i = 0; i < count; i++) {
        const runnel_caution *c = &all[i];
        size_t length = strlen(c->text);
        ck_assert_ptr_eq(runnel_caution_find(c->code), c);
        ck_assert(c->steps != 0 && c->steps < 1u << RUNNEL_STEP_COUNT);
        ck_assert((c->cases & ~(unsigned)RUNNEL_CASE_ALL) == 0);
        /* sentences, short enough for a card */
        ck_assert_msg(length > 10 && length < 400, "%s has %zu bytes", c->code, length);
        ck_assert_msg(c->text[length - 1] == '.', "%s has no end", c->code);
        ck_assert(isupper((unsigned char)c->text[0]));
        ck_assert_uint_gt(strlen(c->source), 10);
        ck_assert_uint_gt(strlen(c->ask), 10);
        for (const char *letter = c->code; *letter; letter++)
            ck_assert(islower((unsigned char)*letter) || *letter == '-');
    }
    ck_assert_ptr_null(runnel_caution_find("no-such-code"));
    ck_assert_ptr_null(runnel_caution_find(NULL));
}
END_TEST

/* Codes for steps and cases, in their order; what must be warned of is common practice. */
static const struct {
    unsigned steps, cases;
    const char *codes;
} due[] = {
    {0, RUNNEL_CASE_ALL, ""},
    {BIT(MIX), 0, "skin air exotherm resin-dust sheets-first "},
    {BIT(POUR), RUNNEL_CASE_ALL, "skin air exotherm sheets-first "},
    {BIT(CARVE), 0, "wood-dust cutters sheets-first "},
    {BIT(SEAL), 0, "sheets-first "},
    {BIT(SEAL), RUNNEL_CASE_SOLVENT, "solvent-vapour sheets-first "},
    {BIT(LEVEL), 0, "resin-dust wood-dust cutters sheets-first "},
    {BIT(OIL_DRYING), 0, "oily-rags oil-on-resin oil-weeps sheets-first "},
    {BIT(OIL_DRYING), RUNNEL_CASE_NUT_OIL,
     "oily-rags nut-oil oil-on-resin oil-weeps sheets-first "},
    {BIT(OIL), 0, "food-grade-oil oil-on-resin oil-weeps sheets-first "},
    {BIT(WAX), RUNNEL_CASE_NUT_OIL, "oil-on-resin melting-wax sheets-first "},
    {BIT(FOOD), RUNNEL_CASE_NUT_OIL, "nut-oil food-resin food-cure sheets-first "},
    {BIT(MIX) | BIT(SAND), 0, "skin air exotherm resin-dust wood-dust sheets-first "},
};

START_TEST(cautions_of_steps) {
    char codes[512] = "";
    for (const runnel_caution *c = runnel_caution_next(NULL, due[_i].steps, due[_i].cases); c;
         c = runnel_caution_next(c, due[_i].steps, due[_i].cases)) {
        strncat(codes, c->code, sizeof codes - strlen(codes) - 1);
        strncat(codes, " ", sizeof codes - strlen(codes) - 1);
    }
    ck_assert_str_eq(codes, due[_i].codes);
}
END_TEST

START_TEST(every_caution_is_due_somewhere) {
    size_t count = 0, met = 0;
    runnel_cautions(&count);
    unsigned all = (1u << RUNNEL_STEP_COUNT) - 1;
    for (const runnel_caution *c = NULL; (c = runnel_caution_next(c, all, RUNNEL_CASE_ALL));)
        met++;
    ck_assert_uint_eq(met, count);
}
END_TEST

/* Figures that the texts tell, as published. */
static const struct {
    const char *code, *text, *source;
} figures[] = {
    /* NIOSH Pocket Guide, ethyl alcohol: flash point 55 F, (55 - 32)/1.8 = 12.8 degC */
    {"solvent-vapour", "12.8", "NIOSH Pocket Guide"},
    {"solvent-vapour", "55 F", "3.3 %"},
    /* recipes: 146 F, (146 - 32)/1.8 = 63.3 degC */
    {"melting-wax", "about 63 ", "146 F"},
    {"melting-wax", "146 F", "recipes"},
    /* 21 CFR */
    {"food-grade-oil", "food grade", "172.878"},
    {"food-resin", "its maker to say", "175.300"},
    /* half an inch is 12.7 mm */
    {"cutters", "half an inch (13 mm)", "workshops"},
    {"oily-rags", "metal can", "NFPA"},
    {"wood-dust", "oak and beech", "IARC"},
    {"skin", "allergic", "RR079"},
};

START_TEST(figures_in_texts) {
    const runnel_caution *c = runnel_caution_find(figures[_i].code);
    ck_assert_ptr_nonnull(c);
    ck_assert_ptr_nonnull(strstr(c->text, figures[_i].text));
    ck_assert_ptr_nonnull(strstr(c->source, figures[_i].source));
}
END_TEST

int main(void) {
    Suite *suite = suite_create("cautions");
    TCase *cases = tcase_create("cautions");
    tcase_add_test(cases, every_caution_is_complete);
    tcase_add_loop_test(cases, cautions_of_steps, 0, (int)COUNT(due));
    tcase_add_test(cases, every_caution_is_due_somewhere);
    tcase_add_loop_test(cases, figures_in_texts, 0, (int)COUNT(figures));
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
