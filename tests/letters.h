/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What the suites of lettering share: fonts, setting a text, looking for a problem, want of memory.
 *
 * The figures of glyphs (boxes, advances, areas in font units) were read from the font files with
 * fontTools 4.38, which interprets outlines, kerning and variations by itself (BoundsPen, AreaPen,
 * GPOS and GSUB tables, glyph sets at a location). In most tests the cap height is chosen so that a
 * font unit comes out as 0.1 mm.
 */
#ifndef RUNNEL_TESTS_LETTERS_H
#define RUNNEL_TESTS_LETTERS_H

#include "runnel/lettering.h"

#include "compare.h"
#include "failing.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define FONTS "/usr/share/fonts/"
/** EB Garamond 12 Regular: 1000 units an em; H from -5 to 653; hhea 710, -290, 0. */
#define SERIF FONTS "opentype/ebgaramond/EBGaramond12-Regular.otf"
/** Dancing Script Regular: 1000 units an em; H from -87 to 720. */
#define SCRIPT FONTS "opentype/dancingscript/DancingScript-Regular.otf"
/** Fonts that not every machine has. */
#define STENCIL     FONTS "opentype/allerta/allerta_medium.otf"
#define VARIABLE    FONTS "truetype/inter-vf/Inter.var.ttf"
#define ARABIC      FONTS "opentype/fonts-hosny-amiri/Amiri-Regular.ttf"
#define DEVANAGARI  FONTS "truetype/lohit-devanagari/Lohit-Devanagari.ttf"
#define SANS        FONTS "truetype/dejavu/DejaVuSans.ttf"
#define GOTHIC      FONTS "opentype/ipafont-gothic/ipag.ttf"
#define BLACKLETTER FONTS "truetype/blankenburg/Blankenburg_UNZ1A.ttf"
#define PICTURES    FONTS "truetype/noto/NotoColorEmoji.ttf"

/** Whether such a font is there; where all of them must be, a missing one is a failure. */
static inline bool have(const char *file) {
    if (access(file, R_OK) == 0)
        return true;
    const char *all = getenv("RUNNEL_ALL_FONTS");
    ck_assert_msg(!all || strcmp(all, "1") != 0, "%s is missing", file);
    printf("SKIPPED: %s is not installed\n", file);
    return false;
}

static runnel_lettering set;
static runnel_problems problems;

static inline void letters_setup(void) {
    memset(&set, 0, sizeof set);
    runnel_problems_init(&problems);
}

static inline void letters_teardown(void) {
    runnel_lettering_clear(&set);
    runnel_problems_clear(&problems);
}

/** Sets a text that must come out right, in place of the one before. */
static inline void must_set(runnel_text text) {
    runnel_lettering_clear(&set);
    runnel_status status = runnel_lettering_set(&text, &problems, NULL, &set);
    ck_assert_msg(status == RUNNEL_OK, "%s: %s", runnel_status_name(status),
                  problems.count ? problems.items[0].text : "nothing told");
    ck_assert_uint_eq(problems.count, 0);
    runnel_box box = runnel_contours_box(&set.contours);
    ck_near(box.min_x_mm, 0, 0);
    ck_near(box.min_y_mm, 0, 0);
}

/** Sets a text that must be refused, with `count` problems; the first one holds `words`. */
static inline void must_refuse(runnel_text text, runnel_status wanted, size_t count,
                               const char *words) {
    runnel_lettering none = {0};
    runnel_problems_clear(&problems);
    runnel_status status = runnel_lettering_set(&text, &problems, NULL, &none);
    ck_assert_str_eq(runnel_status_name(status), runnel_status_name(wanted));
    ck_assert_msg(problems.count == count, "%zu problems, first: %s", problems.count,
                  problems.count ? problems.items[0].text : "none");
    ck_assert_msg(strstr(problems.items[0].text, words), "'%s' is not in: %s", words,
                  problems.items[0].text);
    ck_assert_ptr_null(none.contours.points);
    ck_assert_ptr_null(none.clusters);
    ck_assert_ptr_null(none.font_file);
    ck_assert_ptr_null(none.font_name);
    runnel_problems_clear(&problems);
}

/** Runs a suite of plain tests; the exit code. */
static inline int run_tests(const char *name, const TTest *const *tests, size_t count) {
    Suite *suite = suite_create(name);
    TCase *cases = tcase_create(name);
    tcase_add_checked_fixture(cases, letters_setup, letters_teardown);
    tcase_set_timeout(cases, 300);
    for (size_t i = 0; i < count; i++)
        tcase_add_test(cases, tests[i]);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}

/** Whether any of the problems kept holds the words. */
static inline bool told(const char *words) {
    for (size_t i = 0; i < problems.count; i++)
        if (strstr(problems.items[i].text, words))
            return true;
    return false;
}

static inline double width_of(const runnel_box *box) {
    return box->max_x_mm - box->min_x_mm;
}

/** Area without regard to the sense of the outlines. */
static inline double area(void) {
    return fabs(runnel_contours_area(&set.contours));
}

/** Sets the text with every allocation failing in turn, alone and with all after it. */
static inline void must_bear_scarcity(runnel_text text, size_t at_least) {
    for (int for_good = 0; for_good < 2; for_good++) {
        runnel_status status = RUNNEL_E_NO_MEMORY;
        size_t fail_at = 0;
        for (; status; fail_at++) {
            failing count = {.fail_at = fail_at, .for_good = for_good};
            runnel_lettering out = {0};
            start_failing(&count);
            status = runnel_lettering_set(&text, NULL, NULL, &out);
            runnel_lettering_clear(&out);
            runnel_set_allocator(NULL);
            ck_assert_msg(count.alive == 0, "%zu blocks lost after %zu", count.alive, fail_at);
            ck_assert_msg(!status || status == RUNNEL_E_NO_MEMORY, "%s after %zu allocations",
                          runnel_status_name(status), fail_at);
            /* It can only come out right when nothing has failed. */
            ck_assert_msg(status || count.calls <= fail_at, "failure %zu went unseen", fail_at);
        }
        ck_assert_uint_gt(fail_at, at_least);
    }
}

/** The same with a text that is refused: its problems must be told, or be known as dropped. */
static inline void must_bear_scarcity_refused(runnel_text text) {
    for (int for_good = 0; for_good < 2; for_good++) {
        bool complete = false;
        for (size_t fail_at = 0; !complete; fail_at++) {
            failing count = {.fail_at = fail_at, .for_good = for_good};
            runnel_problems list = {0};
            runnel_lettering none = {0};
            start_failing(&count);
            runnel_status status = runnel_lettering_set(&text, &list, NULL, &none);
            complete = count.calls <= fail_at;
            ck_assert_int_ne(status, RUNNEL_OK);
            ck_assert(complete || status == RUNNEL_E_NO_MEMORY || list.dropped);
            runnel_problems_clear(&list);
            runnel_set_allocator(NULL);
            ck_assert_uint_eq(count.alive, 0);
        }
    }
}

#endif
