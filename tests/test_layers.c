/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "failing.h"
#include "runnel/cavity.h"
#include "runnel/layers.h"

#include <stdlib.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static const double pi = 3.14159265358979323846;

static double between(double low, double high) {
    return low + (high - low) * (rand() / (RAND_MAX + 1.0));
}

/* --- sections in closed form --- */

/* A 90 degree V in a rectangle: (w - 2z)(l - 2z). */
typedef struct rectangle {
    double w_mm, l_mm;
} rectangle;

static runnel_status roof(double depth_mm, void *state, double *area_mm2) {
    const rectangle *of = state;
    *area_mm2 = fmax(0, of->w_mm - 2 * depth_mm) * fmax(0, of->l_mm - 2 * depth_mm);
    return RUNNEL_OK;
}

/* A groove of 1000 mm by a round nose of 6 mm radius run to its full radius. */
static runnel_status trough(double depth_mm, void *state, double *area_mm2) {
    (void)state;
    *area_mm2 = 2000 * sqrt(fmax(0, 36 - depth_mm * depth_mm));
    return RUNNEL_OK;
}

/* A pocket of 100 mm2, 4 mm deep, in the floor of which one of 10 mm2 goes 4 mm deeper. */
static runnel_status steps(double depth_mm, void *state, double *area_mm2) {
    (void)state;
    *area_mm2 = depth_mm < 4 ? 100 : depth_mm < 8 ? 10 : 0;
    return RUNNEL_OK;
}

static runnel_status broken_below(double depth_mm, void *state, double *area_mm2) {
    if (depth_mm > 2)
        return *(runnel_status *)state;
    *area_mm2 = 1;
    return RUNNEL_OK;
}

static runnel_status constant(double depth_mm, void *state, double *area_mm2) {
    (void)depth_mm;
    *area_mm2 = *(double *)state;
    return RUNNEL_OK;
}

static runnel_status comb(double depth_mm, void *state, double *area_mm2) {
    (void)state;
    *area_mm2 = fmod(floor(depth_mm * 1e7), 2);
    return RUNNEL_OK;
}

START_TEST(volumes_in_closed_form) {
    rectangle of = {20, 50};
    runnel_hollow hollow = {roof, NULL, &of, 10, NAN, NAN};
    double volume_mm3 = NAN, error_mm3 = NAN;
    /* Integral of (20 - 2z)(50 - 2z) = 1000z - 70z^2 + 4/3 z^3: 10000 - 7000 + 1333.33. */
    ck_assert_int_eq(runnel_hollow_volume(&hollow, 0, 10, &volume_mm3, &error_mm3), RUNNEL_OK);
    ck_near(volume_mm3, 13000.0 / 3, 1e-10);
    ck_assert(error_mm3 >= 0 && error_mm3 < 1e-3);
    /* From 5 to 10: less 5000 - 1750 + 166.667. */
    ck_assert_int_eq(runnel_hollow_volume(&hollow, 5, 10, &volume_mm3, &error_mm3), RUNNEL_OK);
    ck_near(volume_mm3, 13000.0 / 3 - 10250.0 / 3, 1e-10);
    ck_assert_int_eq(runnel_hollow_volume(&hollow, 5, 5, &volume_mm3, &error_mm3), RUNNEL_OK);
    ck_near(volume_mm3, 0, 0);
    /* Half a cylinder: pi/2 x 36 x 1000. */
    runnel_hollow groove = {trough, NULL, NULL, 6, NAN, NAN};
    ck_assert_int_eq(runnel_hollow_volume(&groove, 0, 6, &volume_mm3, &error_mm3), RUNNEL_OK);
    ck_near(volume_mm3, 18000 * pi, 1e-7);
    runnel_hollow stepped = {steps, NULL, NULL, 8, NAN, NAN};
    ck_assert_int_eq(runnel_hollow_volume(&stepped, 0, 8, &volume_mm3, &error_mm3), RUNNEL_OK);
    ck_near(volume_mm3, 440, 1e-7);
}
END_TEST

/* --- layers --- */

START_TEST(layers_worked_by_hand) {
    /* The roof of 10 mm at 6 mm a layer: two of 5 mm, 916.67 mm3 below and 3416.67 above. Recoat
     * between 4 and 12 h. */
    rectangle of = {20, 50};
    runnel_hollow hollow = {roof, NULL, &of, 10, 13000.0 / 3, 1e-6};
    runnel_layer_limits limits = {6, 0, 4 * 3600, 12 * 3600};
    runnel_layers layers = {0};
    ck_assert_int_eq(runnel_layers_make(&hollow, &limits, &layers), RUNNEL_OK);
    ck_assert_uint_eq(layers.count, 2);
    const runnel_layer *first = &layers.items[0], *second = &layers.items[1];
    ck_near(first->bottom_mm, 10, 0);
    ck_near(first->top_mm, 5, 1e-15);
    ck_near(first->pour_mm, 5, 1e-15);
    ck_near(first->volume_mm3, 2750.0 / 3, 1e-9);
    ck_near(first->surface_mm2, 10 * 40, 1e-9);
    ck_near(first->earliest_s, 0, 0);
    ck_near(first->latest_s, 0, 0);
    ck_near(second->bottom_mm, 5, 1e-15);
    ck_near(second->top_mm, 0, 0);
    ck_near(second->volume_mm3, 10250.0 / 3, 1e-9);
    ck_near(second->surface_mm2, 20 * 50, 1e-9);
    ck_near(second->earliest_s, 14400, 0);
    ck_near(second->latest_s, 43200, 0);
    ck_near(layers.volume_mm3, 13000.0 / 3, 0);
    ck_near(first->volume_mm3 + second->volume_mm3, 13000.0 / 3, 1e-15);
    ck_near_or(layers.mismatch_mm3, 0, 0, 1e-5);
    runnel_layers_clear(&layers);
    /* With a crown of 0.4 mm and 5.2 mm a layer still two, each 5.2 mm thick: bound at 4.8 mm. With
     * 5.1 mm a layer three of 10.4/3 mm. */
    limits = (runnel_layer_limits){5.2, 0.4, NAN, NAN};
    ck_assert_int_eq(runnel_layers_make(&hollow, &limits, &layers), RUNNEL_OK);
    ck_assert_uint_eq(layers.count, 2);
    ck_near(layers.items[0].top_mm, 4.8, 1e-14);
    ck_near(layers.items[0].pour_mm, 5.2, 1e-14);
    ck_near(layers.items[1].pour_mm, 5.2, 1e-14);
    ck_assert(isnan(layers.items[1].earliest_s) && isnan(layers.items[1].latest_s));
    runnel_layers_clear(&layers);
    limits.layer_mm = 5.1;
    ck_assert_int_eq(runnel_layers_make(&hollow, &limits, &layers), RUNNEL_OK);
    ck_assert_uint_eq(layers.count, 3);
    ck_near(layers.items[2].pour_mm, 10.4 / 3, 1e-14);
    runnel_layers_clear(&layers);
    /* A crown of 14 mm on it is 24 mm: four of 6 mm, of which the second ends 2 mm above the face
     * and the others are crown alone. */
    limits = (runnel_layer_limits){6, 14, 3600, 7200};
    ck_assert_int_eq(runnel_layers_make(&hollow, &limits, &layers), RUNNEL_OK);
    ck_assert_uint_eq(layers.count, 4);
    static const double want[][3] = {{10, 4, 0}, {4, 0, 2}, {0, 0, 6}, {0, 0, 6}};
    for (size_t i = 0; i < 4; i++) {
        ck_near(layers.items[i].bottom_mm, want[i][0], 1e-14);
        ck_near_or(layers.items[i].top_mm, want[i][1], 1e-14, 0);
        ck_near_or(layers.items[i].crown_mm, want[i][2], 1e-14, 0);
        ck_near(layers.items[i].pour_mm, 6, 1e-14);
        ck_near(layers.items[i].latest_s, 7200.0 * (double)i, 0);
    }
    ck_near(layers.items[0].volume_mm3 + layers.items[1].volume_mm3, 13000.0 / 3, 1e-14);
    ck_near(layers.items[2].volume_mm3, 0, 0);
    ck_near(layers.items[3].volume_mm3, 0, 0);
    runnel_layers_clear(&layers);
    runnel_layers_clear(&layers);
    runnel_layers_clear(NULL);
}
END_TEST

START_TEST(layers_without_a_volume_or_a_limit) {
    /* 25 mm sheet, 6 mm coatings: 17.3 mm deep, as a 20 mm stem at 60 degrees is, takes three. */
    rectangle of = {20, 50};
    runnel_hollow hollow = {roof, NULL, &of, 10, NAN, NAN};
    runnel_layer_limits none = {0};
    runnel_layers layers = {0};
    ck_assert_int_eq(runnel_layers_make(&hollow, &none, &layers), RUNNEL_OK);
    ck_assert_uint_eq(layers.count, 1);
    ck_near(layers.volume_mm3, 13000.0 / 3, 1e-9);
    ck_near(layers.items[0].volume_mm3, layers.volume_mm3, 0);
    ck_near(layers.mismatch_mm3, 0, 0);
    runnel_layers_clear(&layers);
    double area_mm2 = 100;
    runnel_hollow stem = {constant, NULL, &area_mm2, 17.320508075688775, NAN, NAN};
    runnel_layer_limits coating = {6, 0, 0, 0};
    ck_assert_int_eq(runnel_layers_make(&stem, &coating, &layers), RUNNEL_OK);
    ck_assert_uint_eq(layers.count, 3);
    for (size_t i = 0; i < 3; i++) {
        ck_near(layers.items[i].pour_mm, 17.320508075688775 / 3, 1e-14);
        ck_near(layers.items[i].volume_mm3, 1732.0508075688775 / 3, 1e-12);
    }
    runnel_layers_clear(&layers);
    /* An exact multiple is not rounded up by a hair: 0.3 of 0.1. */
    runnel_hollow thin = {constant, NULL, &area_mm2, 0.1 + 0.2, NAN, NAN};
    runnel_layer_limits tenth = {0.1, 0, 0, 0};
    ck_assert_int_eq(runnel_layers_make(&thin, &tenth, &layers), RUNNEL_OK);
    ck_assert_uint_eq(layers.count, 3);
    runnel_layers_clear(&layers);
}
END_TEST

START_TEST(a_step_at_a_bound) {
    /* The step from 100 to 10 mm2 at 4 mm falls on the bound of two layers: 40 and 400 mm3. */
    runnel_hollow hollow = {steps, NULL, NULL, 8, 440, 0};
    runnel_layer_limits limits = {4, 0, 0, 0};
    runnel_layers layers = {0};
    ck_assert_int_eq(runnel_layers_make(&hollow, &limits, &layers), RUNNEL_OK);
    ck_assert_uint_eq(layers.count, 2);
    ck_near(layers.items[0].volume_mm3, 40, 1e-12);
    ck_near(layers.items[0].surface_mm2, 10, 0);
    ck_near(layers.items[1].volume_mm3, 400, 1e-12);
    runnel_layers_clear(&layers);
}
END_TEST

/* --- fill level --- */

START_TEST(fill_level_worked_by_hand) {
    rectangle of = {20, 50};
    runnel_hollow hollow = {roof, NULL, &of, 10, NAN, NAN};
    double depth_mm = NAN, error_mm = NAN;
    ck_assert_int_eq(runnel_fill_level(&hollow, 2750.0 / 3, &depth_mm, &error_mm), RUNNEL_OK);
    ck_near_or(depth_mm, 5, 0, 1e-5);
    ck_assert(error_mm >= 0 && error_mm < 2e-5);
    ck_assert_int_eq(runnel_fill_level(&hollow, 0, &depth_mm, &error_mm), RUNNEL_OK);
    ck_near(depth_mm, 10, 0);
    ck_assert_int_eq(runnel_fill_level(&hollow, 13000.0 / 3, &depth_mm, &error_mm), RUNNEL_OK);
    ck_near(depth_mm, 0, 0);
    ck_assert_int_eq(runnel_fill_level(&hollow, 13000.0 / 3 + 1e-3, &depth_mm, &error_mm),
                     RUNNEL_E_RANGE);
    /* The step: 40 mm3 to 4 mm, 240 to 2 mm below the face. */
    runnel_hollow stepped = {steps, NULL, NULL, 8, NAN, NAN};
    ck_assert_int_eq(runnel_fill_level(&stepped, 20, &depth_mm, &error_mm), RUNNEL_OK);
    ck_near_or(depth_mm, 6, 0, 2e-5);
    ck_assert_int_eq(runnel_fill_level(&stepped, 240, &depth_mm, &error_mm), RUNNEL_OK);
    ck_near_or(depth_mm, 2, 0, 2e-5);
}
END_TEST

/* --- thousands of cavities --- */

/* Sections that fall from the face down, straight between a few depths. */
typedef struct table {
    size_t count;
    double depth_mm[8], area_mm2[8];
} table;

static runnel_status interpolated(double depth_mm, void *state, double *area_mm2) {
    const table *of = state;
    size_t i = 0;
    while (i + 2 < of->count && depth_mm > of->depth_mm[i + 1])
        i++;
    double share = (depth_mm - of->depth_mm[i]) / (of->depth_mm[i + 1] - of->depth_mm[i]);
    *area_mm2 = of->area_mm2[i] + share * (of->area_mm2[i + 1] - of->area_mm2[i]);
    return RUNNEL_OK;
}

/* Trapezia, exactly. */
static double volume_below(table *of, double depth_mm) {
    double sum = 0;
    for (size_t i = 0; i + 1 < of->count; i++) {
        double a = fmax(of->depth_mm[i], depth_mm), b = of->depth_mm[i + 1], at_a;
        if (a >= b)
            continue;
        interpolated(a, of, &at_a);
        if (a == of->depth_mm[i])
            at_a = of->area_mm2[i];
        sum += (b - a) * (at_a + of->area_mm2[i + 1]) / 2;
    }
    return sum;
}

static table random_table(void) {
    table of = {.count = 2 + (size_t)(rand() % 7)};
    of.area_mm2[0] = between(100, 10000);
    for (size_t i = 1; i < of.count; i++) {
        of.depth_mm[i] = of.depth_mm[i - 1] + between(0.2, 4);
        of.area_mm2[i] = of.area_mm2[i - 1] * between(0.2, 1);
    }
    return of;
}

START_TEST(thousands_of_cavities) {
    srand(4);
    for (int round = 0; round < 2000; round++) {
        table of = random_table();
        double deepest_mm = of.depth_mm[of.count - 1], all_mm3 = volume_below(&of, 0);
        runnel_hollow hollow = {interpolated, NULL, &of, deepest_mm, all_mm3, 0};
        double layer_mm = between(1, 8);
        runnel_layer_limits limits = {layer_mm, between(0, 12), 3600, between(3600, 40000)};
        runnel_layers layers = {0};
        ck_assert_int_eq(runnel_layers_make(&hollow, &limits, &layers), RUNNEL_OK);
        double sum_mm3 = 0, bottom_mm = deepest_mm, thickness_mm = layers.items[0].pour_mm;
        double crown_mm = 0;
        /* One layer less would be too thick. */
        ck_assert(layers.count == 1 ||
                  (deepest_mm + limits.crown_mm) / (double)(layers.count - 1) > layer_mm);
        for (size_t i = 0; i < layers.count; i++) {
            const runnel_layer *layer = &layers.items[i];
            ck_assert(layer->pour_mm <= layer_mm * (1 + 1e-8));
            ck_near(layer->pour_mm, thickness_mm, 1e-12);
            ck_near(layer->bottom_mm, bottom_mm, 0);
            double want_mm3 = volume_below(&of, layer->top_mm) - volume_below(&of, bottom_mm);
            ck_near_or(layer->volume_mm3, want_mm3, 1e-7, 1e-8 * all_mm3);
            ck_assert(layer->earliest_s <= layer->latest_s);
            ck_assert(layer->crown_mm == 0 || layer->top_mm == 0); /* none below the face */
            ck_near(layer->pour_mm, bottom_mm - layer->top_mm + layer->crown_mm, 0);
            sum_mm3 += layer->volume_mm3;
            crown_mm += layer->crown_mm;
            bottom_mm = layer->top_mm;
        }
        ck_near(crown_mm, limits.crown_mm, 1e-13);
        ck_near(bottom_mm, 0, 0);
        ck_near(sum_mm3, all_mm3, 1e-14);
        ck_near_or(layers.mismatch_mm3, 0, 0, 1e-7 * all_mm3);
        runnel_layers_clear(&layers);
        /* Filling to a depth and asking for it; more resin never stands lower. */
        double want_mm = between(0, 1) * deepest_mm, depth_mm = NAN, error_mm = NAN, more_mm = NAN;
        double volume_mm3 = volume_below(&of, want_mm);
        ck_assert_int_eq(runnel_fill_level(&hollow, volume_mm3, &depth_mm, &error_mm), RUNNEL_OK);
        ck_near_or(depth_mm, want_mm, 0, fmax(error_mm, 1e-6 * deepest_mm));
        double area_mm2 = NAN;
        interpolated(depth_mm, &of, &area_mm2);
        ck_assert(error_mm <= 1e-6 * deepest_mm + 1.1e-7 * all_mm3 / area_mm2);
        ck_assert_int_eq(runnel_fill_level(&hollow, volume_mm3 + 0.5 * (all_mm3 - volume_mm3),
                                           &more_mm, &error_mm),
                         RUNNEL_OK);
        ck_assert(more_mm <= depth_mm + 2e-6 * deepest_mm);
    }
}
END_TEST

/* --- a real cavity --- */

typedef struct carving {
    runnel_shape *shape;
    runnel_cut cut;
} carving;

static runnel_status section_of_carving(double depth_mm, void *state, double *area_mm2) {
    carving *of = state;
    return runnel_cavity_section(of->shape, &of->cut, depth_mm, area_mm2);
}

static runnel_status carving_no_deeper(double depth_mm, void *state, double *volume_mm3) {
    carving *of = state;
    runnel_cut cut = of->cut;
    runnel_cavity figures;
    cut.depth_mm = depth_mm;
    runnel_status status = runnel_cavity_compute(of->shape, &cut, &figures);
    if (status == RUNNEL_OK)
        *volume_mm3 = figures.volume_mm3;
    return status;
}

START_TEST(layers_of_an_l_shape) {
    /* 60 x 60 less 30 x 30 mm at 90 degrees, depth = distance to the edge, added up by edges (half
     * the square of how far each reaches, integrated by Simpson's rule): two sides of 60 mm with
     * 4720.649403655 each, two of 30 mm at the ends with 1125, two at the inner corner with 2250,
     * and 2088.138444213 around that corner: 18279.437251523 mm3. Deepest where a circle touches
     * both long sides and the corner: sqrt 2 (30 - r) = r, so r = 30/(1 + 1/sqrt 2). */
    static const runnel_point corners[] = {{0, 0}, {60, 0}, {60, 30}, {30, 30}, {30, 60}, {0, 60}};
    runnel_contours contours = {0};
    ck_assert_int_eq(runnel_contours_begin(&contours, true), RUNNEL_OK);
    for (size_t i = 0; i < COUNT(corners); i++)
        ck_assert_int_eq(runnel_contours_add(&contours, corners[i].x_mm, corners[i].y_mm),
                         RUNNEL_OK);
    carving of = {NULL, {{RUNNEL_CUTTER_V, 90, 0, 0}, RUNNEL_CUT_WALLS, 0}};
    ck_assert_int_eq(runnel_shape_outline(&contours, NULL, &of.shape), RUNNEL_OK);
    runnel_cavity figures = {0};
    ck_assert_int_eq(runnel_cavity_compute(of.shape, &of.cut, &figures), RUNNEL_OK);
    ck_near(figures.volume_mm3, 18279.437251523, 1e-12);
    ck_near(figures.deepest_mm, 30 / (1 + sqrt(0.5)), 1e-12);
    runnel_hollow hollow = {
        section_of_carving,      NULL, &of, figures.deepest_mm, figures.volume_mm3,
        figures.volume_error_mm3};
    runnel_layer_limits limits = {6, 0.4, 4 * 3600, 12 * 3600};
    runnel_layers layers = {0};
    ck_assert_int_eq(runnel_layers_make(&hollow, &limits, &layers), RUNNEL_OK);
    ck_assert_uint_eq(layers.count, 3); /* 17.97 mm are just three */
    double sum_mm3 = 0;
    for (size_t i = 0; i < layers.count; i++)
        sum_mm3 += layers.items[i].volume_mm3;
    ck_near(sum_mm3, 18279.437251523, 1e-12);
    ck_near_or(layers.mismatch_mm3, 0, 0, 1e-4);
    ck_near(layers.items[2].surface_mm2, 2700, 1e-9);
    /* By cuts that go no deeper, the same, and the sum without a mismatch. */
    hollow.above = carving_no_deeper;
    runnel_layers exact = {0};
    ck_assert_int_eq(runnel_layers_make(&hollow, &limits, &exact), RUNNEL_OK);
    ck_near_or(exact.mismatch_mm3, 0, 0, 1e-9);
    for (size_t i = 0; i < layers.count; i++)
        ck_near_or(layers.items[i].volume_mm3, exact.items[i].volume_mm3, 0, 1e-7 * 18279);
    double depth_mm = NAN, exact_mm = NAN, error_mm = NAN;
    ck_assert_int_eq(runnel_fill_level(&hollow, 5000, &exact_mm, &error_mm), RUNNEL_OK);
    hollow.above = NULL;
    ck_assert_int_eq(runnel_fill_level(&hollow, 5000, &depth_mm, &error_mm), RUNNEL_OK);
    ck_near_or(depth_mm, exact_mm, 0, 1e-4);
    runnel_layers_clear(&exact);
    runnel_layers_clear(&layers);
    runnel_shape_free(of.shape);
    runnel_contours_clear(&contours);
}
END_TEST

/* --- refusals --- */

START_TEST(refusals) {
    double area_mm2 = 100, volume = 7, error = 8;
    runnel_layers layers = {.count = 7};
    runnel_hollow hollow = {constant, NULL, &area_mm2, 10, NAN, NAN};
    runnel_layer_limits limits = {6, 0, 0, 0};
    static const double bad[] = {0, -1, NAN, INFINITY};
    for (size_t i = 0; i < COUNT(bad); i++) {
        runnel_hollow flat = hollow;
        flat.deepest_mm = bad[i];
        ck_assert_int_eq(runnel_layers_make(&flat, &limits, &layers), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_hollow_volume(&flat, 0, 0, &volume, &error), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_fill_level(&flat, 0, &volume, &error), RUNNEL_E_RANGE);
    }
    runnel_hollow other = hollow;
    other.section = NULL;
    ck_assert_int_eq(runnel_layers_make(&other, &limits, &layers), RUNNEL_E_RANGE);
    other = hollow;
    other.volume_mm3 = -1;
    ck_assert_int_eq(runnel_layers_make(&other, &limits, &layers), RUNNEL_E_RANGE);
    other = hollow;
    other.volume_error_mm3 = -1;
    ck_assert_int_eq(runnel_layers_make(&other, &limits, &layers), RUNNEL_E_RANGE);
    static const runnel_layer_limits wrong[] = {
        {-1, 0, 0, 0},       {INFINITY, 0, 0, 0},    {6, -1, 0, 0},
        {6, INFINITY, 0, 0}, {6, 0, -1, 0},          {6, 0, 0, -1},
        {6, 0, 10, 9},       {6, 0, INFINITY, 1e99}, {0.00999, 0, 0, 0}, /* 1001 layers */
    };
    for (size_t i = 0; i < COUNT(wrong); i++)
        ck_assert_int_eq(runnel_layers_make(&hollow, &wrong[i], &layers), RUNNEL_E_RANGE);
    static const double bounds[][2] = {{-1, 5}, {5, 4}, {0, 11}, {NAN, 5}, {0, NAN}};
    for (size_t i = 0; i < COUNT(bounds); i++)
        ck_assert_int_eq(runnel_hollow_volume(&hollow, bounds[i][0], bounds[i][1], &volume, &error),
                         RUNNEL_E_RANGE);
    static const double volumes[] = {-1, NAN, INFINITY, 1001};
    for (size_t i = 0; i < COUNT(volumes); i++)
        ck_assert_int_eq(runnel_fill_level(&hollow, volumes[i], &volume, &error), RUNNEL_E_RANGE);
    ck_near(volume + error, 15, 0);
    ck_assert_uint_eq(layers.count, 7);
}
END_TEST

START_TEST(sections_that_fail) {
    static const runnel_status failures[] = {RUNNEL_E_IDENTITY, RUNNEL_E_NO_MEMORY, RUNNEL_E_RANGE};
    runnel_layers layers = {.count = 7};
    runnel_layer_limits limits = {6, 0, 0, 0};
    double volume = 7, error = 8;
    for (size_t i = 0; i < COUNT(failures); i++) {
        runnel_status failure = failures[i];
        runnel_hollow hollow = {broken_below, NULL, &failure, 10, NAN, NAN};
        ck_assert_int_eq(runnel_layers_make(&hollow, &limits, &layers), (int)failure);
        ck_assert_int_eq(runnel_hollow_volume(&hollow, 0, 10, &volume, &error), (int)failure);
        ck_assert_int_eq(runnel_fill_level(&hollow, 1, &volume, &error), (int)failure);
        ck_assert_int_eq(runnel_hollow_volume(&hollow, 0, 2, &volume, &error), RUNNEL_OK);
        ck_near(volume, 2, 1e-14);
        volume = 7;
        error = 8;
    }
    static double no_areas[] = {NAN, -1, INFINITY};
    for (size_t i = 0; i < COUNT(no_areas); i++) {
        runnel_hollow hollow = {constant, NULL, &no_areas[i], 10, NAN, NAN};
        ck_assert_int_eq(runnel_layers_make(&hollow, &limits, &layers), RUNNEL_E_NOT_COMPUTED);
        ck_assert_int_eq(runnel_fill_level(&hollow, 1, &volume, &error), RUNNEL_E_NOT_COMPUTED);
    }
    runnel_hollow rough = {comb, NULL, NULL, 10, NAN, NAN};
    ck_assert_int_eq(runnel_hollow_volume(&rough, 0, 10, &volume, &error), RUNNEL_E_NOT_COMPUTED);
    /* A volume that the sections do not have: 1000 mm3, told as 1000.01 or 999.99. */
    double area_mm2 = 100;
    runnel_hollow hollow = {constant, NULL, &area_mm2, 10, 1000.01, 0};
    ck_assert_int_eq(runnel_layers_make(&hollow, &limits, &layers), RUNNEL_E_IDENTITY);
    hollow.volume_mm3 = 999.99;
    ck_assert_int_eq(runnel_layers_make(&hollow, &limits, &layers), RUNNEL_E_IDENTITY);
    ck_near(volume + error, 15, 0);
    ck_assert_uint_eq(layers.count, 7);
    hollow.volume_error_mm3 = 0.01; /* but that is how well it was known */
    layers = (runnel_layers){0};
    ck_assert_int_eq(runnel_layers_make(&hollow, &limits, &layers), RUNNEL_OK);
    ck_near(layers.mismatch_mm3, 0.01, 1e-6);
    ck_near(layers.items[0].volume_mm3 + layers.items[1].volume_mm3, 999.99, 1e-15);
    runnel_layers_clear(&layers);
}
END_TEST

START_TEST(memory_that_runs_out) {
    double area_mm2 = 100;
    runnel_hollow hollow = {constant, NULL, &area_mm2, 10, NAN, NAN};
    runnel_layer_limits limits = {6, 0, 0, 0};
    runnel_layers layers = {.count = 7};
    failing count = {.fail_at = 0};
    start_failing(&count);
    ck_assert_int_eq(runnel_layers_make(&hollow, &limits, &layers), RUNNEL_E_NO_MEMORY);
    ck_assert_uint_eq(layers.count, 7);
    count = (failing){.fail_at = 1, .for_good = true};
    layers = (runnel_layers){0};
    ck_assert_int_eq(runnel_layers_make(&hollow, &limits, &layers), RUNNEL_OK);
    runnel_layers_clear(&layers);
    runnel_set_allocator(NULL);
    ck_assert_uint_eq(count.alive, 0);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("layers");
    TCase *layers = tcase_create("layers");
    tcase_set_timeout(layers, 120); /* under valgrind too */
    tcase_add_test(layers, volumes_in_closed_form);
    tcase_add_test(layers, layers_worked_by_hand);
    tcase_add_test(layers, layers_without_a_volume_or_a_limit);
    tcase_add_test(layers, a_step_at_a_bound);
    tcase_add_test(layers, fill_level_worked_by_hand);
    tcase_add_test(layers, thousands_of_cavities);
    tcase_add_test(layers, layers_of_an_l_shape);
    tcase_add_test(layers, refusals);
    tcase_add_test(layers, sections_that_fail);
    tcase_add_test(layers, memory_that_runs_out);
    suite_add_tcase(suite, layers);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
