/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "failing.h"
#include "runnel/forms.h"
#include "runnel/memory.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(table) (sizeof(table) / sizeof *(table))

/* Random numbers that are the same on every run (the finaliser of splitmix64, Steele 2014). */
static uint64_t chance_state;
static uint64_t chance(void) {
    uint64_t z = (chance_state += 0x9E3779B97F4A7C15);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
    return z ^ (z >> 31);
}

/* Writes a polygon of points on a grid. */
static void write_polygon(const long (*points)[2], size_t count, char *text, size_t size) {
    size_t length = (size_t)snprintf(text, size, "polygon");
    for (size_t i = 0; i < count; i++)
        length +=
            (size_t)snprintf(text + length, size - length, " %ld,%ld", points[i][0], points[i][1]);
    snprintf(text + length, size - length, " mm");
}

static long turn(const long *a, const long *b, const long *c) {
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

static bool between(const long *p, const long *a, const long *b) {
    return turn(a, b, p) == 0 && (p[0] - a[0]) * (p[0] - b[0]) <= 0 &&
           (p[1] - a[1]) * (p[1] - b[1]) <= 0;
}

/* Whether two sides have a point in common, in whole numbers. */
static bool meet(const long *a, const long *b, const long *c, const long *d) {
    long s = turn(a, b, c), t = turn(a, b, d), u = turn(c, d, a), v = turn(c, d, b);
    bool cross = ((s > 0 && t < 0) || (s < 0 && t > 0)) && ((u > 0 && v < 0) || (u < 0 && v > 0));
    return cross || between(a, c, d) || between(b, c, d) || between(c, a, b) || between(d, a, b);
}

/* Whether a ring of different neighbours meets itself nowhere but at its corners. */
static bool is_simple(const long (*p)[2], size_t n) {
    for (size_t i = 0; i < n; i++)
        for (size_t j = i + 1; j < n; j++) {
            size_t i2 = (i + 1) % n, j2 = (j + 1) % n;
            if (i2 == j) {
                if (between(p[j2], p[i], p[j]) || between(p[i], p[j], p[j2]))
                    return false;
            } else if (j2 == i) {
                if (between(p[i2], p[j], p[i]) || between(p[j], p[i], p[i2]))
                    return false;
            } else if (meet(p[i], p[i2], p[j], p[j2])) {
                return false;
            }
        }
    return true;
}

/* Polygons of random points on a small grid, where touching and lying on one line are common:
 * taken when and only when whole numbers say that they are simple, with their area kept. */
START_TEST(random_polygons) {
    size_t simple = 0;
    chance_state = 11;
    for (int round = 0; round < 20000; round++) {
        long points[8][2];
        size_t count = 3 + chance() % 5;
        char text[200];
        long twice_area = 0;
        for (size_t i = 0; i < count; i++) {
            points[i][0] = (long)(chance() % 7) * (round % 2 ? 1 : 100003) - 3;
            points[i][1] = (long)(chance() % 7) * (round % 2 ? 1 : 99991) - 3;
            if (i > 0 && points[i][0] == points[i - 1][0] && points[i][1] == points[i - 1][1])
                i--;
        }
        if (points[count - 1][0] == points[0][0] && points[count - 1][1] == points[0][1])
            continue;
        for (size_t i = 0; i < count; i++)
            twice_area += points[i][0] * points[(i + 1) % count][1] -
                          points[i][1] * points[(i + 1) % count][0];
        write_polygon((const long(*)[2])points, count, text, sizeof text);
        runnel_form form = {.kind = RUNNEL_FORM_NONE};
        runnel_status status = runnel_form_parse_outline(text, NULL, NULL, &form);
        bool wanted = is_simple((const long(*)[2])points, count);
        ck_assert_msg(status == (wanted ? RUNNEL_OK : RUNNEL_E_SHAPE), "%s: %s", text,
                      runnel_status_name(status));
        if (wanted) {
            simple++;
            ck_near(runnel_contours_area(&form.corners), (double)labs(twice_area) / 2, 1e-12);
        }
        runnel_form_clear(&form);
    }
    ck_assert_uint_gt(simple, 1000);
}
END_TEST

START_TEST(random_sizes) {
    chance_state = 12;
    for (int i = 0; i < 10000; i++) {
        unsigned long a = 1 + chance() % 1000000, b = 1 + chance() % 1000000;
        char text[100];
        runnel_form form = {.kind = RUNNEL_FORM_NONE};
        snprintf(text, sizeof text, "ellipse %lu.%03lu x %lu.%03lu cm", a / 1000, a % 1000,
                 b / 1000, b % 1000);
        ck_assert_int_eq(runnel_form_parse_outline(text, NULL, NULL, &form), RUNNEL_OK);
        ck_assert_msg(form.a_mm == (double)a / 100 && form.b_mm == (double)b / 100, "%s", text);
        snprintf(text, sizeof text, "line %lu.%03lu,-%lu.%03lu 0,1 m", a / 1000, a % 1000, b / 1000,
                 b % 1000);
        ck_assert_int_eq(runnel_form_parse_path(text, NULL, NULL, &form), RUNNEL_OK);
        ck_assert_msg(form.corners.points[0].x_mm == (double)a &&
                          form.corners.points[0].y_mm == -(double)b,
                      "%s", text);
        runnel_form_clear(&form);
    }
}
END_TEST

/* A saw with so many teeth; 5000 points are the most. */
static char *saw(size_t points) {
    char *text = malloc(points * 24 + 64);
    ck_assert_ptr_nonnull(text);
    size_t length = (size_t)sprintf(text, "polygon 0,-5 %zu,-5", points);
    for (size_t i = points - 2; i > 0; i--)
        length += (size_t)sprintf(text + length, " %zu,%d", i, i % 2 ? 1 : 0);
    sprintf(text + length, " mm");
    return text;
}

START_TEST(many_corners) {
    runnel_form form = {.kind = RUNNEL_FORM_NONE};
    runnel_problems problems = {0};
    char *text = saw(1000);
    ck_assert_int_eq(runnel_form_parse_outline(text, &problems, NULL, &form), RUNNEL_OK);
    ck_assert_uint_eq(form.corners.point_count, 1000);
    runnel_form_clear(&form);
    free(text);
    text = saw(5001);
    ck_assert_int_eq(runnel_form_parse_outline(text, &problems, NULL, &form), RUNNEL_E_RANGE);
    ck_assert_uint_eq(problems.count, 1);
    ck_assert_str_eq(problems.items[0].text,
                     "'polygon 0,-5 5001,-5 4999,1 4998,0 4997,1 4996,0 4995,1 4994...' has more "
                     "than 5000 points, the most that a form may have"
                     "; write it like 'polygon 0,0 60,0 60,40 mm'");
    runnel_problems_clear(&problems);
    free(text);
}
END_TEST

/* A text of nothing but faults is not told fault by fault. */
START_TEST(many_faults) {
    enum { SIZE = 1000000 };
    char *text = malloc(SIZE + 1);
    ck_assert_ptr_nonnull(text);
    for (size_t i = 0; i < SIZE; i += 2)
        memcpy(text + i, "1 ", 2);
    memcpy(text, "polygon ", 8);
    text[SIZE] = '\0';
    runnel_problems problems = {0};
    runnel_form form = {.kind = RUNNEL_FORM_NONE};
    ck_assert_int_eq(runnel_form_parse_outline(text, &problems, NULL, &form), RUNNEL_E_UNIT);
    ck_assert_uint_eq(problems.count, 1 + 8);
    runnel_problems_clear(&problems);
    free(text);
}
END_TEST

START_TEST(memory_fails) {
    static const char *const texts[] = {
        "polygon 0,0 60,0 60,40 30,20 25,30 20,33 15,34 10,35 5,36 0,40 hole 20,10 40,15 40,20 mm",
        "polygon 0,0 60 60,40 mm",
    };
    for (size_t k = 0; k < COUNT(texts); k++) {
        runnel_status status = RUNNEL_E_NO_MEMORY;
        bool done = false;
        for (size_t granted = 0; !done; granted++) {
            failing counter = {.fail_at = granted, .for_good = true};
            start_failing(&counter);
            runnel_problems problems = {0};
            runnel_form form = {.kind = RUNNEL_FORM_NONE};
            status = runnel_form_parse_outline(texts[k], &problems, NULL, &form);
            done = counter.calls <= granted;
            bool dropped = problems.dropped > 0;
            ck_assert(done || status == RUNNEL_E_NO_MEMORY || dropped);
            if (status)
                ck_assert_ptr_null(form.corners.points);
            runnel_form_clear(&form);
            runnel_problems_clear(&problems);
            runnel_set_allocator(NULL);
            ck_assert_uint_eq(counter.alive, 0);
            ck_assert_uint_lt(granted, 100);
        }
        ck_assert_int_eq(status, k == 0 ? RUNNEL_OK : RUNNEL_E_SYNTAX);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("form points");
    TCase *points = tcase_create("points");
    tcase_add_test(points, random_polygons);
    tcase_add_test(points, random_sizes);
    tcase_add_test(points, many_corners);
    tcase_add_test(points, many_faults);
    tcase_add_test(points, memory_fails);
    suite_add_tcase(suite, points);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
