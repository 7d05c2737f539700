/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/write.h"
#include "written.h"

#include <locale.h>
#include <math.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

/* ---- What is written ------------------------------------------------------------------------- */

enum { WORDS = 12 };

typedef struct sample {
    char words[WORDS][240];
    char sure[16];
    runnel_plan_cavity cavities[2];
    runnel_plan_batch batch;
    runnel_warning warnings[2];
    runnel_job job;
    runnel_plan plan;
} sample;

static void fill_plan(sample *s) {
    s->cavities[0] = (runnel_plan_cavity){
        .name = s->words[2],
        .piece = s->words[3],
        .colour = s->words[4],
        .piece_count = 2,
        .figures = {.footprint_mm2 = 1234.5,
                    .volume_mm3 = 18279.437,
                    .volume_error_mm3 = 12,
                    .wall_mm2 = 2469.25,
                    .deepest_mm = 4.125,
                    .narrowest_mm = 0.75,
                    .widest_mm = 9.5,
                    .uncut_mm2 = 3.5,
                    .uncut_places = 7,
                    .depth_plus_mm3 = 130,
                    .depth_minus_mm3 = -120,
                    .angle_mm3_per_degree = 45},
        .band = {18500, 17500, 19750, 17000, 20000, {{0}, {1, 2, 1}, {0}, {0}}},
        .width_mm = 203.2,
        .height_mm = 38.1,
        .font_file = s->words[5]};
    s->cavities[1] = (runnel_plan_cavity){.name = s->words[6],
                                          .piece = s->words[3],
                                          .colour = s->words[4],
                                          .piece_count = 1,
                                          .figures = {.volume_mm3 = 6500},
                                          .measured = true};
    /* Cavities, crown, shrinkage, soak, reserve, cup loss, total. */
    s->batch = (runnel_plan_batch){
        .colour = s->words[4],
        .terms = {43058.9, 2000, 1192.5, 150, 1260, 4000, 2750, 54411.4},
        .band = {43208.9,
                 41000,
                 44468.9,
                 40000,
                 46000,
                 {{1, 2, 0.6}, {0}, {0.1, 0, 0.004}, {3, 4, 0.396}}},
        .weighing = {41.1, 16.9, 1.2, 35.431, 17.789, 58.0, 53.220, 0.0042, 0.0375, false},
        .surplus_mm3 = 68.6,
        .tint = 0.02,
        .volume_error_mm3 = 24,
        .pot_life_s = 2700};
    s->warnings[0] = (runnel_warning){s->words[7], s->words[8], s->words[9]};
    s->warnings[1] = (runnel_warning){s->words[7], s->words[10], s->words[11]};
    s->plan = (runnel_plan){.cavities = s->cavities,
                            .cavity_count = 2,
                            .batches = &s->batch,
                            .batch_count = 1,
                            .warnings = s->warnings,
                            .warning_count = 2,
                            .mixture = {0.70, 0.30, 0.66, 0.34, 1.09}};
}

static void fill(sample *s) {
    static const char *const words[] = {"mill boards",
                                        "table-top 2:1",
                                        "RYE",
                                        "board",
                                        "amber",
                                        "/fonts/serif.otf",
                                        "knot",
                                        "a-code",
                                        "a stroke is narrower than the tip",
                                        "board / RYE",
                                        "the shop is cold",
                                        "shop"};
    memset(s, 0, sizeof *s);
    for (size_t i = 0; i < COUNT(words); i++)
        snprintf(s->words[i], sizeof s->words[i], "%s", words[i]);
    snprintf(s->sure, sizeof s->sure, "%s", "from memory");
    runnel_job_init(&s->job);
    s->job.name = s->words[0];
    s->job.resin = (runnel_resin){.name = s->words[1],
                                  .ratio = {2, 1, RUNNEL_BASIS_VOLUME},
                                  .density_a_g_per_ml = 1.16,
                                  .density_b_g_per_ml = 0.95,
                                  .lowest_degc = 16,
                                  .pot_mass_g = 150,
                                  .tint_cap = 0.05,
                                  .sure = s->sure};
    s->job.resin_is_default = s->job.scale_is_default = s->job.shop_is_default = false;
    s->job.shop_degc = 18.5;
    fill_plan(s);
}

/* Runs a writer and gives what it wrote; to be freed. */
typedef runnel_status (*plan_writer)(const runnel_job *, const runnel_plan *, FILE *);

static char *written(plan_writer write, const sample *s) {
    FILE *file = tmpfile();
    ck_assert_ptr_nonnull(file);
    ck_assert_int_eq(write(&s->job, &s->plan, file), RUNNEL_OK);
    return contents(file);
}

/* ---- Sizes ----------------------------------------------------------------------------------- */

START_TEST(sizes_say_all) {
    /* Values of the sample in the units shown: ml = mm3/1000, cm2 = mm2/100, in = mm/25.4; by hand.
     */
    static const char *const parts[] = {
        "mill boards\n",
        "2 WARNINGS. Read them before a can is opened:\n",
        "  ! board / RYE: a stroke is narrower than the tip\n",
        "  ! shop: the shop is cold\n",
        "Worked out with\n",
        "  resin     table-top 2:1\n",
        "  ratio     2:1 by volume, which is 100:42.86 by weight\n", /* 100 x 0.30/0.70 */
        "  density   A 1.160 g/ml, B 0.950 g/ml, mixed 1.090 g/ml\n",
        "  scale     0.1 g a step\n",
        "  shop      18.5 \302\260C\n",
        "  crown     0.4 mm high, to 1 mm beyond the edges\n",
        "  walls     bare",
        "  cup       70 mm wide, left to drain for 60 s\n",
        "  reserve   10 %\n",
        "  errors    0.1 mm of depth, 1 deg of a V, 0.2 mm of the board, 50 % of the\n",
        "            soak (not given, so taken); batches are sized to the high end of\n",
        "            them\n",
        "Cavities, each for one piece\n",
        "  board / RYE, amber, in each of 2 pieces\n",
        "    size      203.2 x 38.1 mm (8.00 x 1.50 in)\n",
        "    volume                  18.279 ml    \302\2610.012 ml\n",
        "    likely, with its soak   18.500 ml    17.500 to 19.750 ml: included angle\n",
        "                                         100 %\n",
        "    footprint at the face   12.35  cm2\n",
        "    carved walls            24.69  cm2   floors included\n",
        "    deepest                  4.13  mm\n",
        "    narrowest stroke         0.75  mm\n",
        "    widest stroke            9.50  mm\n",
        "    the tip cannot enter     3.50  mm2   in 7 places\n",
        "    per 0.1 mm of depth      0.130 ml    more when deeper, 0.120 ml less when\n",
        "                                         shallower\n",
        "    per degree of the V      0.045 ml    for one degree more\n",
        "    font      /fonts/serif.otf\n",
        "  board / knot, amber\n",
        "    volume                   6.500 ml    measured\n",
        "Batch amber, all pieces counted\n",
        "  board / RYE, 2 pieces; board / knot\n",
        "    cavities                43.06  ml\n",
        "    crown                    2.00  ml",
        "    shrinkage                1.19  ml",
        "    soak                     0.15  ml    into bare walls\n",
        "    cup loss                 2.75  ml",
        "    reserve                  4.00  ml\n",
        "    uncertainty              1.26  ml    to the high end: cavities and soak\n",
        "                                         may be 41.00 to 44.47 ml: depth zero\n",
        "                                         60 %, soak 40 %\n",
        "    needed, all pieces      54.41  ml    \302\2610.02 ml\n",
        "    over                     0.07  ml    by the steps of the scale\n",
        "    part A (resin)          41.1   g     35.43 ml\n",
        "    part B (hardener)       16.9   g     17.79 ml\n",
        "    A + B                   58.0   g     53.22 ml\n",
        "    tint                     1.2   g     2 % of A + B, on top of them; at most\n",
        "                                         5 % (from memory)\n",
        "    ratio     2:1 by volume, which is 100:42.86 by weight\n",
        "    ratio error, rounding    0.42  %\n",
        "    ratio error, at worst    3.75  %",
        "    pot life  about 45 min at 18.5 \302\260C for 150 g in a cup\n"};
    sample s;
    fill(&s);
    s.cavities[0].figures.deepest_mm = 4.126; /* a tie of rounding is no test */
    s.cavities[0].figures.footprint_mm2 = 1234.6;
    char *text = written(runnel_write_size_text, &s);
    in_order(text, parts, COUNT(parts));
    has_not(text, "Not given");
    fits(text);
    free(text);
}
END_TEST

START_TEST(sizes_tell_what_was_taken) {
    sample s;
    fill(&s);
    s.job.resin_is_default = s.job.scale_is_default = s.job.shop_is_default = true;
    char *text = written(runnel_write_size_text, &s);
    has(text, "Not given, so taken: resin table-top 2:1, a scale of 0.1 g a step, a shop at\n18.5");
    free(text);
    s.job.resin_is_default = false;
    text = written(runnel_write_size_text, &s);
    has(text, "Not given, so taken: a scale of 0.1 g a step, a shop at 18.5");
    free(text);
    s.job.scale_is_default = false;
    text = written(runnel_write_size_text, &s);
    has(text, "Not given, so taken: a shop at 18.5");
    free(text);
}
END_TEST

START_TEST(sizes_of_other_choices) {
    sample s;
    fill(&s);
    s.job.scale = (runnel_scale){0.05, 1, 0.5};
    s.job.humidity = 0.55;
    s.job.sealed = true;
    s.job.soak_mm = 0.04; /* 40 ml/m2 */
    s.job.cup.fixed_loss_g = 3;
    s.job.resin_changed = true;
    s.job.other_ratio = (runnel_ratio){100, 44, RUNNEL_BASIS_WEIGHT};
    s.batch.tint = 0;
    s.plan.warning_count = 0;
    char *text = written(runnel_write_size_text, &s);
    has(text, "table-top 2:1, with the job's own values");
    in_order(text, (const char *const[]){"the sheet says", "100:44 by weight\n"}, 2);
    has(text, "0.05 g a step, right to 0.5 % or 1 count, the larger of them");
    has(text, "55 % humidity");
    has(text, "walls     sealed, soaking up 40 ml/m2");
    has(text, "70 mm wide, 3 g stay in it");
    has(text, "into sealed walls");
    has(text, "    part A (resin)          41.10  g"); /* two places for a step of 0.05 g */
    has(text, "tint                      none");
    has_not(text, "WARNING");
    fits(text);
    free(text);
}
END_TEST

START_TEST(why_more_is_mixed) {
    sample s;
    fill(&s);
    s.batch.surplus_mm3 = 5820;
    s.batch.raise = RUNNEL_RAISE_SMALLEST;
    char *text = written(runnel_write_size_text, &s);
    has(text, "    over                     5.82  ml    for the smallest batch of the scale\n");
    free(text);
    s.batch.raise = RUNNEL_RAISE_ROUNDING;
    text = written(runnel_write_size_text, &s);
    has(text, "    over                     5.82  ml    for whole steps that keep the ratio\n");
    free(text);
}
END_TEST

START_TEST(nothing_is_mixed) {
    /* Of one colour, which is told once for its two cavities; and of all. */
    static const plan_writer writers[] = {runnel_write_size_text, runnel_write_card_text};
    for (size_t i = 0; i < COUNT(writers); i++) {
        sample s;
        fill(&s);
        snprintf(s.words[11], sizeof s.words[11], "%s", "ruby");
        s.batch.colour = s.words[11];
        char *text = written(writers[i], &s);
        has(text, "Nothing is to be mixed of amber: no cavity of it holds any resin.\n");
        const char *once = strstr(text, "Nothing");
        ck_assert_ptr_null(strstr(once + 1, "Nothing"));
        free(text);
        s.plan.batch_count = 0;
        text = written(writers[i], &s);
        has(text, "\nNothing is to be mixed: no cavity holds any resin.\n");
        has_not(text, "Mixing\n");
        has_not(text, "Take care");
        fits(text);
        free(text);
    }
}
END_TEST

START_TEST(sizes_of_what_is_not_known) {
    sample s;
    fill(&s);
    s.cavities[0].figures.narrowest_mm = NAN;
    s.batch.weighing.ratio_error = INFINITY;
    s.batch.pot_life_s = NAN;
    s.batch.weighing.tint_g = 0;
    s.job.shop_degc = 5;
    s.plan.warning_count = 1;
    char *text = written(runnel_write_size_text, &s);
    has(text, "1 WARNING. Read it before a can is opened:");
    has(text, "narrowest stroke          not known");
    has(text, "ratio error, at worst     without limit");
    in_order(text, (const char *const[]){"; less", "than the scale shows; at most"}, 2);
    has(text, "pot life  not known: the shop is below the 16 \302\260C that this resin needs");
    has_not(text, "nan");
    has_not(text, "inf");
    free(text);
}
END_TEST

START_TEST(sizes_with_sections) {
    runnel_section sections[] = {{0, 1234.6}, {2.5, 600}};
    sample s;
    fill(&s);
    s.cavities[0].sections = sections;
    s.cavities[0].section_count = 2;
    char *text = written(runnel_write_size_text, &s);
    has(text, "    area at 0.00 mm         12.35  cm2");
    has(text, "    area at 2.50 mm          6.00  cm2\n");
    fits(text);
    free(text);
}
END_TEST

START_TEST(weight_ratio_first) {
    sample s;
    fill(&s);
    s.job.resin.ratio = (runnel_ratio){100, 44, RUNNEL_BASIS_WEIGHT};
    s.plan.mixture = (runnel_mixture){0.6944, 0.3056, 0.68, 0.32, 1.1};
    char *text = written(runnel_write_size_text, &s);
    has(text, "100:44 by weight, which is 100:47.06 by volume"); /* 100 x 0.32/0.68 */
    free(text);
}
END_TEST

/* ---- Card ------------------------------------------------------------------------------------ */

START_TEST(card_says_all) {
    /* Running totals: 41.1, 41.1 + 1.2, 42.3 + 16.9. Marks in a cup of 70 mm, 3848.451 mm2:
     * 35431/3848.451 = 9.21 and 53220/3848.451 = 13.83. B per A 0.30/0.70, A per B 0.70/0.30. */
    static const char *const parts[] = {
        "Mixing card: mill boards\n",
        "2 WARNINGS. Read them before a can is opened:\n",
        "  ! board / RYE: ",
        "Resin      table-top 2:1\n",
        "Ratio      2:1 by volume, which is 100:42.86 by weight.",
        "Scale      0.1 g a step\n",
        "Shop       18.5 \302\260C\n",
        "Batch amber, 58.0 g of A + B, 53.2 ml\n",
        "     for board / RYE, 2 pieces; board / knot\n",
        ("     sized to the high end: 1.3 ml of it are for errors of depth, angle, board\n"
         "     and soak\n"),
        "SCALE SHOWS        alone       volume\n",
        "  1  cup and stick on it: zero it          0.0 g\n",
        "  2  A (resin) until it shows             41.1 g       41.1 g      35.4 ml\n",
        "  3  tint until it shows, stirred in      42.3 g        1.2 g\n",
        "  4  B (hardener) until it shows          59.2 g       16.9 g      17.8 ml\n",
        "Too much A? Add 0.429 g more B for each gram of it. Too much B? Add\n     2.333 g more A.",
        "Cup marks  A to 35.4 ml = 9.2 mm, then B to 53.2 ml = 13.8 mm, in a\n",
        "straight cup 70 mm wide inside\n",
        "Pot life   about 45 min at 18.5 \302\260C for 150 g in a cup\n",
        "Weighed    A _________ g    tint _________ g    B _________ g\n",
        "B went in  ____:____ h, use by ____:____ h",
        "Mixing\n",
        "  1  Let both bottles",
        "Take care\n"};
    sample s;
    fill(&s);
    char *text = written(runnel_write_card_text, &s);
    in_order(text, parts, COUNT(parts));
    has_not(text, "not given");
    has_not(text, "Batch 1 of");
    fits(text);
    free(text);
}
END_TEST

START_TEST(sized_to_what_is_likely) {
    sample s;
    fill(&s);
    s.job.size_to = RUNNEL_SIZE_LIKELY;
    s.job.errors_are_default = false;
    s.job.errors.depth_mm = 0.05;
    s.batch.terms.allowance_mm3 = 0;
    char *text = written(runnel_write_size_text, &s);
    has(text, "  errors    0.05 mm of depth, 1 deg of a V, 0.2 mm of the board, 50 % of the\n"
              "            soak; batches are sized to what is likely\n");
    has(text, "    uncertainty              0.00  ml    not counted, though cavities and soak\n");
    fits(text);
    free(text);
    text = written(runnel_write_card_text, &s);
    has(text, "     sized to what is likely, with nothing for errors of depth, angle, board\n"
              "     and soak\n");
    fits(text);
    free(text);
}
END_TEST

START_TEST(card_without_tint) {
    sample s;
    fill(&s);
    s.batch.tint = s.batch.weighing.tint_g = 0;
    char *text = written(runnel_write_card_text, &s);
    has(text, "  3  B (hardener) until it shows          58.0 g       16.9 g");
    has_not(text, "tint until");
    has(text, "A _________ g    B _________ g\n");
    free(text);
}
END_TEST

START_TEST(card_with_too_little_tint) {
    sample s;
    fill(&s);
    s.batch.weighing.tint_g = 0;
    char *text = written(runnel_write_card_text, &s);
    has(text, "The tint is less than the scale shows");
    has_not(text, "tint until");
    free(text);
}
END_TEST

START_TEST(card_of_several_batches) {
    sample s;
    fill(&s);
    runnel_plan_batch batches[2] = {s.batch, s.batch};
    batches[1].colour = s.words[6];
    batches[1].weighing.part_a_ml = 5;
    s.plan.batches = batches;
    s.plan.batch_count = 2;
    s.job.resin_is_default = s.job.scale_is_default = s.job.shop_is_default = true;
    static const char *const parts[] = {"table-top 2:1 (not given, so taken)\n",
                                        "0.1 g a step (not given, so taken)\n",
                                        "C (not given, so taken)\n",
                                        "Batch 1 of 2: amber",
                                        "Batch 2 of 2: knot",
                                        "Cup marks  none: it is too little",
                                        "Mixing\n"};
    char *text = written(runnel_write_card_text, &s);
    in_order(text, parts, COUNT(parts));
    fits(text);
    free(text);
}
END_TEST

/* ---- Names, places, streams ------------------------------------------------------------------ */

START_TEST(names_of_any_length_fit) {
    sample s;
    fill(&s);
    for (size_t i = 0; i < WORDS; i++)
        memset(s.words[i], 'm', sizeof s.words[i] - 1);
    static const plan_writer writers[] = {runnel_write_size_text, runnel_write_card_text};
    for (size_t i = 0; i < COUNT(writers); i++) {
        char *text = written(writers[i], &s);
        fits(text);
        free(text);
    }
    for (size_t i = 0; i < WORDS; i++)
        for (size_t k = 0; k + 4 < sizeof s.words[i]; k += 3) /* Han letters, two columns each */
            memcpy(s.words[i] + k, "\xE6\xBC\xA2", 4);
    for (size_t i = 0; i < COUNT(writers); i++) {
        char *text = written(writers[i], &s);
        fits(text);
        free(text);
    }
}
END_TEST

START_TEST(title_without_a_name) {
    sample s;
    fill(&s);
    s.job.name = NULL;
    char *text = written(runnel_write_size_text, &s);
    in_order(text, (const char *const[]){"one cavity\n"}, 1);
    free(text);
    s.job.file = s.words[5];
    text = written(runnel_write_card_text, &s);
    has(text, "Mixing card: /fonts/serif.otf\n");
    free(text);
}
END_TEST

START_TEST(decimal_point_in_every_locale) {
    static const char *const names[] = {"de_DE.UTF-8", "fr_FR.UTF-8", "nb_NO.UTF-8"};
    sample s;
    fill(&s);
    static const plan_writer writers[] = {runnel_write_size_text, runnel_write_card_text};
    for (size_t i = 0; i < COUNT(writers); i++) {
        char *plain = written(writers[i], &s);
        for (size_t k = 0; k < COUNT(names); k++)
            if (setlocale(LC_ALL, names[k]))
                break;
        char *other = written(writers[i], &s);
        setlocale(LC_ALL, "C");
        ck_assert_str_eq(plain, other);
        free(plain);
        free(other);
    }
}
END_TEST

START_TEST(full_disk_is_told) {
    sample s;
    fill(&s);
    FILE *full = fopen("/dev/full", "w");
    ck_assert_ptr_nonnull(full);
    ck_assert_int_eq(runnel_write_size_text(&s.job, &s.plan, full), RUNNEL_E_IO);
    fclose(full);
    full = fopen("/dev/full", "w");
    ck_assert_int_eq(runnel_write_card_text(&s.job, &s.plan, full), RUNNEL_E_IO);
    fclose(full);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("write");
    TCase *sizes = tcase_create("sizes");
    tcase_add_test(sizes, sizes_say_all);
    tcase_add_test(sizes, sizes_tell_what_was_taken);
    tcase_add_test(sizes, sizes_of_other_choices);
    tcase_add_test(sizes, why_more_is_mixed);
    tcase_add_test(sizes, sized_to_what_is_likely);
    tcase_add_test(sizes, nothing_is_mixed);
    tcase_add_test(sizes, sizes_of_what_is_not_known);
    tcase_add_test(sizes, sizes_with_sections);
    tcase_add_test(sizes, weight_ratio_first);
    suite_add_tcase(suite, sizes);
    TCase *card = tcase_create("card");
    tcase_add_test(card, card_says_all);
    tcase_add_test(card, card_without_tint);
    tcase_add_test(card, card_with_too_little_tint);
    tcase_add_test(card, card_of_several_batches);
    suite_add_tcase(suite, card);
    TCase *both = tcase_create("both");
    tcase_add_test(both, names_of_any_length_fit);
    tcase_add_test(both, title_without_a_name);
    tcase_add_test(both, decimal_point_in_every_locale);
    tcase_add_test(both, full_disk_is_told);
    suite_add_tcase(suite, both);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed != 0;
}
