/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "patches.h"

#include "runnel/cavity.h"
#include "runnel/lettering.h"
#include "runnel/profile.h"
#include "shape/moments.h"
#include "shape/overlay.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define FONT    "/usr/share/fonts/opentype/ebgaramond/EBGaramond12-Regular.otf"
#define LETTERS "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
#define SIGN    "THE OLD MILL BAKERY\nAND GRANARY AT ALDER"

enum { MOST_LINES = 96, MOST_LINES_AS_ONE = 24 };
static const double margin_mm = 1, depth_mm = 6;

static void must(runnel_status status, const char *what) {
    if (status) {
        fprintf(stderr, "bench: %s: %s\n", what, runnel_status_text(status));
        exit(EXIT_FAILURE);
    }
}

static double now_ms(void) {
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static void set_text(const char *text, double cap_height_mm, runnel_lettering *set) {
    runnel_text wanted = {.text = text, .font = FONT, .cap_height_mm = cap_height_mm};
    must(runnel_lettering_set(&wanted, NULL, NULL, set), "the text cannot be set");
}

/* Volume and margin of a text, from its contours on. */
static double by_patches(const runnel_contours *contours, runnel_store *store, double angle_deg) {
    const runnel_cut cut = {{RUNNEL_CUTTER_V, angle_deg, 0, 0}, RUNNEL_CUT_WALLS, depth_mm};
    runnel_shape *shape = NULL;
    runnel_cavity figures;
    double margin_mm2 = 0;
    must(runnel_shape_outline(contours, store, &shape), "no shape");
    runnel_cavity_expect_margin(shape, &cut, margin_mm);
    must(runnel_cavity_compute(shape, &cut, &figures), "no figures");
    must(runnel_cavity_margin(shape, &cut, margin_mm, &margin_mm2), "no margin");
    runnel_shape_free(shape);
    return figures.volume_mm3;
}

/* The same with all letters noded, united and walked together. */
static double as_one(const runnel_contours *contours, double angle_deg) {
    runnel_contours region = {0};
    runnel_profile *inside = NULL, *outside = NULL;
    double tangent = tan(angle_deg * 3.14159265358979323846 / 360);
    must(runnel_unite(contours, &region), "no union");
    must(runnel_profile_inside(&region, &inside), "no inside");
    must(runnel_profile_outside(&region, margin_mm, &outside), "no outside");
    runnel_moments m = runnel_profile_moments(inside, depth_mm * tangent);
    double volume_mm3 = m.first / tangent + depth_mm * m.beyond;
    runnel_profile_free(inside);
    runnel_profile_free(outside);
    runnel_contours_clear(&region);
    return volume_mm3;
}

static void print_lines(int lines) {
    char *text = malloc((size_t)lines * sizeof LETTERS);
    runnel_lettering set = {0};
    must(text ? RUNNEL_OK : RUNNEL_E_NO_MEMORY, "no memory");
    text[0] = '\0';
    for (int i = 0; i < lines; i++)
        strcat(strcat(text, i ? "\n" : ""), LETTERS);
    set_text(text, 12, &set);
    double start = now_ms(), volume = by_patches(&set.contours, NULL, 60);
    double patches_ms = now_ms() - start;
    printf("%5d %8d %10.2f", lines, 52 * lines, patches_ms);
    if (lines <= MOST_LINES_AS_ONE) {
        start = now_ms();
        double whole = as_one(&set.contours, 60), whole_ms = now_ms() - start;
        printf(" %10.1f %6.0f %10.1e", whole_ms, whole_ms / patches_ms,
               fabs(volume - whole) / whole);
    }
    printf("\n");
    runnel_lettering_clear(&set);
    free(text);
}

/* A sign as it stands in a store, and what a change of it costs from the text on. */
static void print_change(const char *what, const char *text, double cap_height_mm,
                         double angle_deg) {
    runnel_store *store = NULL;
    runnel_lettering before = {0}, set = {0};
    must(runnel_store_new(RUNNEL_STORE_USUAL_BYTES, &store), "no store");
    set_text(SIGN, 30, &before);
    by_patches(&before.contours, store, 60);
    double start = now_ms();
    set_text(text, cap_height_mm, &set);
    double set_ms = now_ms() - start;
    by_patches(&set.contours, store, angle_deg);
    printf("%-24s %10.2f %10.2f\n", what, set_ms, now_ms() - start - set_ms);
    runnel_lettering_clear(&before);
    runnel_lettering_clear(&set);
    runnel_store_free(store);
}

void runnel_bench_patches(void) {
    printf("\nVolume and margin of lines of 52 letters, CPU ms: each distinct letter once, and all "
           "as one shape.\n\n%5s %8s %10s %10s %6s %10s\n",
           "lines", "letters", "once", "as one", "x", "gap");
    for (int lines = 1; lines <= MOST_LINES; lines = lines == 1 ? 6 : 2 * lines)
        print_lines(lines);
    printf("\nA sign of 34 letters changed, CPU ms.\n\n%-24s %10s %10s\n", "change", "setting",
           "figures");
    print_change("another angle", SIGN, 30, 90);
    print_change("one letter", "THE OLD MILL BAKERY\nAND GRANARY AT ELDER", 30, 60);
    print_change("another cap height", SIGN, 31, 60);
}
