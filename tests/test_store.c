/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The store: what it finds, what it forgets, and that results do not depend on it. */
#include "base/store.h"
#include "compare.h"
#include "failing.h"
#include "runnel/cavity.h"
#include "shape/compound.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int destroyed;

static void destroy(void *object) {
    destroyed++;
    runnel_free(object);
}

static runnel_kept *keep(runnel_store *store, const char *name, size_t bytes) {
    runnel_key_bytes key = {0};
    runnel_kept *kept = NULL;
    char *object = runnel_copy_text(name);
    ck_assert_int_eq(runnel_key_add(&key, name, strlen(name)), RUNNEL_OK);
    ck_assert_ptr_null(runnel_store_find(store, &key));
    ck_assert_int_eq(runnel_store_keep(store, &key, object, destroy, bytes, &kept), RUNNEL_OK);
    runnel_key_clear(&key);
    return kept;
}

static bool is_there(runnel_store *store, const char *name) {
    runnel_key_bytes key = {0};
    ck_assert_int_eq(runnel_key_add(&key, name, strlen(name)), RUNNEL_OK);
    runnel_kept *kept = runnel_store_find(store, &key);
    bool found = kept && strcmp(runnel_kept_object(kept), name) == 0;
    ck_assert(found == (kept != NULL));
    runnel_kept_release(kept);
    runnel_key_clear(&key);
    return found;
}

START_TEST(forgets_what_was_not_used_for_longest) {
    runnel_store *store = NULL;
    destroyed = 0;
    ck_assert_int_eq(runnel_store_new(10000, &store), RUNNEL_OK);
    runnel_kept *a = keep(store, "a", 4000), *b = keep(store, "b", 4000);
    runnel_kept *c = keep(store, "c", 4000);
    ck_assert_int_eq(destroyed, 0); /* all are in use, whatever the limit */
    ck_assert(runnel_kept_number(a) != runnel_kept_number(b));
    runnel_kept_release(b);
    ck_assert_int_eq(destroyed, 1); /* three are too much */
    ck_assert(!is_there(store, "b"));
    runnel_kept_release(a);
    runnel_kept_release(c);
    ck_assert(is_there(store, "a")); /* so that c is what was not used for longest */
    runnel_kept_release(keep(store, "d", 4000));
    ck_assert(is_there(store, "a") && is_there(store, "d") && !is_there(store, "c"));
    runnel_kept *shared = runnel_kept_share(keep(store, "e", 1));
    runnel_kept_release(shared);
    runnel_kept_release(shared);
    runnel_store_free(store);
    ck_assert_int_eq(destroyed, 5);
}
END_TEST

START_TEST(finds_each_of_many) {
    runnel_store *store = NULL;
    char name[20];
    ck_assert_int_eq(runnel_store_new(1 << 30, &store), RUNNEL_OK);
    for (int i = 0; i < 3000; i++) {
        snprintf(name, sizeof name, "%d", i);
        runnel_kept_release(keep(store, name, 1));
    }
    for (int i = 0; i < 3000; i++) {
        snprintf(name, sizeof name, "%d", i);
        ck_assert(is_there(store, name));
    }
    ck_assert(!is_there(store, "3000"));
    runnel_store_free(store);
    runnel_store_free(NULL);
}
END_TEST

/* ---- Results --------------------------------------------------------------------------------- */

static void add(runnel_contours *to, double x, double y, const double *xy, size_t count) {
    ck_assert_int_eq(runnel_contours_begin(to, true), RUNNEL_OK);
    for (size_t i = 0; i < count; i++)
        ck_assert_int_eq(runnel_contours_add(to, x + xy[2 * i], y + xy[2 * i + 1]), RUNNEL_OK);
}

/* Letters of a kind, many of them alike: an L, a frame with a dot in it, and a pair that crosses;
 * gaps by chance. */
static void add_letters(runnel_contours *to, unsigned seed, int count) {
    static const double l[] = {0, 0, 9, 0, 9, 3, 3, 3, 3, 12, 0, 12};
    static const double frame[] = {0, 0, 10, 0, 10, 10, 0, 10}, hole[] = {2, 2, 2, 8, 8, 8, 8, 2};
    static const double dot[] = {4, 4, 6, 4, 6, 6, 4, 6};
    static const double bar[] = {-2, 4, 12, 5, 12, 6.5, -2, 6};
    double x = 0;
    for (int i = 0; i < count; i++) {
        seed = seed * 1664525U + 1013904223U;
        double y = (seed >> 20) % 3 * 0.25;
        switch ((seed >> 28) % 3) {
        case 0:
            add(to, x, y, l, 6);
            break;
        case 1:
            add(to, x, y, frame, 4);
            add(to, x, y, hole, 4);
            add(to, x, y, dot, 4);
            break;
        default:
            add(to, x, y, frame, 4);
            add(to, x, y, bar, 4);
        }
        x += 15 + (seed >> 16) % 4 * 0.5;
    }
}

static runnel_cavity figures_of(const runnel_contours *contours, runnel_store *store,
                                const runnel_cut *cut, double *margin_mm2) {
    runnel_shape *shape = NULL;
    runnel_cavity figures;
    memset(&figures, 0, sizeof figures);
    ck_assert_int_eq(runnel_shape_outline(contours, store, &shape), RUNNEL_OK);
    runnel_cavity_expect_margin(shape, cut, 3);
    ck_assert_int_eq(runnel_cavity_compute(shape, cut, &figures), RUNNEL_OK);
    ck_assert_int_eq(runnel_cavity_margin(shape, cut, 3, margin_mm2), RUNNEL_OK);
    runnel_shape_free(shape);
    return figures;
}

/* To the last bit: without a store, with one that starts empty or full of other things, and with
 * one that keeps nothing. */
START_TEST(results_do_not_depend_on_it) {
    const runnel_cut cuts[] = {
        {{RUNNEL_CUTTER_V, 60, 0, 0}, RUNNEL_CUT_WALLS, 4},
        {{RUNNEL_CUTTER_V, 90, 0.6, 0}, RUNNEL_CUT_WALLS, 0},
        {{RUNNEL_CUTTER_ROUND_NOSE, 0, 0, 0.8}, RUNNEL_CUT_POCKET, 2},
    };
    runnel_store *large = NULL, *none = NULL;
    ck_assert_int_eq(runnel_store_new(RUNNEL_STORE_USUAL_BYTES, &large), RUNNEL_OK);
    ck_assert_int_eq(runnel_store_new(0, &none), RUNNEL_OK);
    for (unsigned i = 0; i < 60; i++) {
        runnel_contours contours = {0};
        add_letters(&contours, 7 * i + 1, 1 + (int)i % 9);
        const runnel_cut *cut = &cuts[i % 3];
        double margins[3];
        runnel_cavity alone = figures_of(&contours, NULL, cut, &margins[0]);
        runnel_cavity shared = figures_of(&contours, large, cut, &margins[1]);
        runnel_cavity forgotten = figures_of(&contours, none, cut, &margins[2]);
        ck_assert_mem_eq(&alone, &shared, sizeof alone);
        ck_assert_mem_eq(&alone, &forgotten, sizeof alone);
        ck_assert_mem_eq(&margins[0], &margins[1], sizeof *margins);
        ck_assert_mem_eq(&margins[0], &margins[2], sizeof *margins);
        runnel_contours_clear(&contours);
    }
    runnel_store_free(large);
    runnel_store_free(none);
}
END_TEST

/* Against the profile of the whole region walked as one, which knows no patches. */
START_TEST(patches_add_up_to_the_whole) {
    for (unsigned i = 0; i < 40; i++) {
        runnel_contours contours = {0}, region = {0};
        runnel_region patches = {0};
        runnel_compound inside = {0}, around = {0};
        runnel_profile *whole = NULL, *outside = NULL;
        double reach = 0.1 + i % 8;
        add_letters(&contours, 31 * i + 5, 2 + (int)i % 7);
        ck_assert_int_eq(runnel_outline_union(&contours, &region), RUNNEL_OK);
        ck_assert_int_eq(runnel_profile_inside(&region, &whole), RUNNEL_OK);
        ck_assert_int_eq(runnel_profile_outside(&region, reach, &outside), RUNNEL_OK);
        ck_assert_int_eq(runnel_region_make(&contours, false, NULL, &patches), RUNNEL_OK);
        ck_assert_int_eq(runnel_compound_inside(&patches, &inside), RUNNEL_OK);
        ck_assert_int_eq(runnel_compound_around(&patches, reach, &around), RUNNEL_OK);
        ck_assert(inside.part_count <= 4); /* L, frame, dot, frame with a bar */
        for (double t = 0.05; t < 1; t += 0.3) {
            runnel_moments one = runnel_profile_moments(whole, 2 * t);
            runnel_moments sum = runnel_compound_moments(&inside, 2 * t);
            ck_near(sum.area, one.area, 1e-11);
            ck_near(sum.first, one.first, 1e-11);
            ck_near_or(sum.beyond, one.beyond, 1e-11, 1e-9);
            runnel_opening open = runnel_profile_opening(whole, 1.5 * t);
            runnel_opening opened = runnel_compound_opening(&inside, 1.5 * t);
            ck_near(opened.area, open.area, 1e-11);
            ck_near(opened.turn, open.turn, 1e-11);
            one = runnel_profile_moments(outside, reach * t);
            sum = runnel_compound_moments(&around, reach * t);
            ck_near(sum.area, one.area, 1e-11);
            ck_near(sum.first, one.first, 1e-11);
            ck_near_or(sum.length, one.length, 1e-11, 1e-9);
        }
        ck_near(inside.widest.m_mm, runnel_profile_widest(whole, NULL), 1e-11);
        ck_near(inside.narrowest.m_mm, runnel_profile_narrowest(whole, NULL), 1e-11);
        runnel_compound_clear(&inside);
        runnel_compound_clear(&around);
        runnel_region_clear(&patches);
        runnel_profile_free(whole);
        runnel_profile_free(outside);
        runnel_contours_clear(&region);
        runnel_contours_clear(&contours);
    }
}
END_TEST

/* An overlap of strokes counts once whichever way the patches share the work: a pocket in a frame
 * with a neck, once and three times far apart. */
START_TEST(necks_count_for_each_print) {
    static const double waist[] = {0,  0,  10, 0,  14, 4, 18, 0,  28, 0,
                                   28, 10, 18, 10, 14, 6, 10, 10, 0,  10};
    const runnel_cut cut = {{RUNNEL_CUTTER_ROUND_NOSE, 0, 0, 1.2}, RUNNEL_CUT_POCKET, 2};
    runnel_contours one = {0}, three = {0};
    double margins[2];
    add(&one, 0, 0, waist, 10);
    for (int i = 0; i < 3; i++)
        add(&three, 40.25 * i, 3 * i, waist, 10);
    runnel_cavity single = figures_of(&one, NULL, &cut, &margins[0]);
    runnel_cavity triple = figures_of(&three, NULL, &cut, &margins[1]);
    ck_near(triple.volume_mm3, 3 * single.volume_mm3, 1e-13);
    ck_near(triple.wall_mm2, 3 * single.wall_mm2, 1e-13);
    ck_near(triple.uncut_mm2, 3 * single.uncut_mm2, 1e-11);
    ck_assert_uint_eq(triple.uncut_places, 3 * single.uncut_places);
    ck_near(margins[1], 3 * margins[0], 1e-12);
    runnel_contours_clear(&one);
    runnel_contours_clear(&three);
}
END_TEST

START_TEST(memory_runs_out) {
    runnel_contours contours = {0};
    add_letters(&contours, 3, 6);
    const runnel_cut cut = {{RUNNEL_CUTTER_V, 60, 0, 0}, RUNNEL_CUT_WALLS, 4};
    runnel_status status = RUNNEL_E_NO_MEMORY;
    for (size_t fail_at = 0; status; fail_at++) {
        failing count = {.fail_at = fail_at};
        runnel_store *store = NULL;
        runnel_shape *shape = NULL;
        runnel_cavity figures;
        double margin_mm2;
        start_failing(&count);
        status = runnel_store_new(RUNNEL_STORE_USUAL_BYTES, &store);
        if (!status)
            status = runnel_shape_outline(&contours, store, &shape);
        if (!status)
            status = runnel_cavity_compute(shape, &cut, &figures);
        if (!status)
            status = runnel_cavity_margin(shape, &cut, 3, &margin_mm2);
        runnel_shape_free(shape);
        runnel_store_free(store);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
        ck_assert(!status || status == RUNNEL_E_NO_MEMORY);
        ck_assert(status || count.calls <= fail_at);
    }
    runnel_contours_clear(&contours);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("store");
    TCase *cases = tcase_create("store");
    tcase_add_test(cases, forgets_what_was_not_used_for_longest);
    tcase_add_test(cases, finds_each_of_many);
    tcase_add_test(cases, results_do_not_depend_on_it);
    tcase_add_test(cases, patches_add_up_to_the_whole);
    tcase_add_test(cases, necks_count_for_each_print);
    tcase_add_test(cases, memory_runs_out);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
