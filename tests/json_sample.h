/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A job and a plan for tests of the JSON.
 */
#ifndef RUNNEL_TESTS_JSON_SAMPLE_H
#define RUNNEL_TESTS_JSON_SAMPLE_H

#include "runnel/plan.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* A job and a plan in which each number is another, so that no key can stand for its neighbour. */
typedef struct sample {
    char name[16], file[16], resin[16], kind[16], source[16], date[16], sure[16];
    char words[8][32];
    runnel_plan_cavity cavities[2];
    runnel_layer layers[2];
    runnel_plan_batch batch;
    runnel_plan_cup cups[2];
    runnel_plan_fill fills[2];
    runnel_bridge bridge;
    runnel_warning warning;
    runnel_job job;
    runnel_plan plan;
} sample;

static inline void fill_job(sample *s) {
    snprintf(s->name, sizeof s->name, "%s", "mill bakery");
    snprintf(s->file, sizeof s->file, "%s", "boards.yaml");
    snprintf(s->resin, sizeof s->resin, "%s", "table-top 2:1");
    snprintf(s->kind, sizeof s->kind, "%s", "table-top");
    snprintf(s->source, sizeof s->source, "%s", "sheet \"A\"\n");
    snprintf(s->date, sizeof s->date, "%s", "2015-01-01");
    snprintf(s->sure, sizeof s->sure, "%s", "published");
    s->job.name = s->name;
    s->job.file = s->file;
    s->job.resin = (runnel_resin){.name = s->resin,
                                  .kind = s->kind,
                                  .ratio = {2, 1, RUNNEL_BASIS_VOLUME},
                                  .density_a_g_per_ml = 1.16,
                                  .density_b_g_per_ml = 0.95,
                                  .viscosity_pa_s = 0.9,
                                  .shrinkage = 0.03,
                                  .stated_degc = 25,
                                  .lowest_degc = 15,
                                  .pot_life_s = 1500,
                                  .pot_mass_g = 150,
                                  .gel_s = 7200,
                                  .recoat_from_s = 14400,
                                  .recoat_until_s = 86400,
                                  .sandable_s = 172800,
                                  .full_cure_s = NAN,
                                  .deepest_layer_mm = 6,
                                  .largest_mass_g = 500,
                                  .ratio_tolerance = 0.05,
                                  .tint_default = 0.02,
                                  .tint_cap = 0.06,
                                  .activation_kj_per_mol = 52,
                                  .reaction_j_per_g = 366,
                                  .source = s->source,
                                  .date = s->date,
                                  .sure = s->sure};
    s->job.resin_is_default = true;
    s->job.other_ratio = (runnel_ratio){100, 44, RUNNEL_BASIS_WEIGHT};
    s->job.scale = (runnel_scale){0.1, 1, 0.5};
    s->job.scale_is_default = true;
    s->job.shop_degc = 18.5;
    s->job.humidity = 0.55;
    s->job.errors = (runnel_band_errors){0.15, 1.5, 0.35, 0.4};
    s->job.errors_are_default = true;
    s->job.size_to = RUNNEL_SIZE_LIKELY;
}

static inline void fill_cups(sample *s) {
    s->fills[0] = (runnel_plan_fill){0, 3, 1, 2, 1, 0.25};
    s->fills[1] = (runnel_plan_fill){1, 1, 1, 1, 0.5, 0.5};
    s->cups[0] = (runnel_plan_cup){
        .layer = 2,
        .earliest_s = 16200,
        .latest_s = 36000,
        .load = {.poured_mm3 = 30500,
                 .loss_mm3 = 1500,
                 .surplus_mm3 = 250,
                 .pour_s = 660,
                 .pot_share = 0.375,
                 .pot_life_s = 2400,
                 .limits = RUNNEL_CUPS_BY_TIME,
                 .notes = RUNNEL_CUP_RAISED | RUNNEL_CUP_ROUNDED | RUNNEL_CUP_LATE |
                          RUNNEL_CUP_HOT | RUNNEL_CUP_BAD,
                 .weighing = {25.1, 10.2, 0.75, 21.5, 10.75, 35.3, 32.25, 0.005, 0.02, false}},
        .charge_height_mm = 8.5,
        .fills = s->fills,
        .fill_count = 2};
    s->cups[1] =
        (runnel_plan_cup){.layer = 1,
                          .earliest_s = NAN,
                          .latest_s = NAN,
                          .load = {.pour_s = NAN, .pot_share = NAN, .limits = RUNNEL_CUPS_BY_MASS}};
}

static inline void fill_plan(sample *s) {
    static const char *const words[] = {"RYE",    "board one",     "amber",    "/fonts/a\xFF.ttf",
                                        "groove", "W\xC3\xA4rter", "too-deep", "deeper by 1 mm"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        snprintf(s->words[i], sizeof s->words[i], "%s", words[i]);
    s->cavities[0] = (runnel_plan_cavity){
        .name = s->words[0],
        .piece = s->words[1],
        .colour = s->words[2],
        .piece_count = 2,
        .figures = {.footprint_mm2 = 1234.5,
                    .volume_mm3 = 18279.437251523,
                    .volume_error_mm3 = 0.25,
                    .wall_mm2 = 2469.25,
                    .perimeter_mm = 321.5,
                    .deepest_mm = 4.125,
                    .narrowest_mm = 0.75,
                    .widest_mm = 9.5,
                    .uncut_mm2 = 3.5,
                    .uncut_places = 7,
                    .depth_plus_mm3 = 130,
                    .depth_minus_mm3 = -120,
                    .angle_mm3_per_degree = 45},
        .band = {18500, 17500, 19750, 17000, 20000, {{1, 2, 0.6}, {0}, {0}, {3, 4, 0.4}}},
        .margin_mm2 = 333,
        .width_mm = 200,
        .height_mm = 38,
        .layers = {s->layers, 2, 18279.437251523, 0},
        .font_file = s->words[3]};
    s->layers[0] = (runnel_layer){4.125, 2, 0, 2.125, 6000, 0.5, 800, 0, 0};
    s->layers[1] = (runnel_layer){2, 0, 0.4375, 2.4375, NAN, NAN, NAN, 18000, 45000};
    s->cavities[1] = (runnel_plan_cavity){.name = s->words[4],
                                          .piece = s->words[5],
                                          .colour = s->words[2],
                                          .piece_count = 1,
                                          .figures = {.narrowest_mm = NAN, .widest_mm = INFINITY},
                                          .measured = true};
    s->batch = (runnel_plan_batch){
        .colour = s->words[2],
        .terms = {36558.5, 2000, 1192.5, 150, 875, 4000, 2750, 47526},
        .weighing = {36.1, 14.8, 1.25, 31.125, 15.5, 50.9, 46.625, 0.0125, 0.0375, false},
        .band = {36750,
                 34500,
                 37625,
                 34000,
                 38000,
                 {{1, 2, 0.5}, {3, 4, 0.25}, {5, 6, 0.125}, {7, 8, 0.0625}}},
        .surplus_mm3 = 6.5,
        .raise = RUNNEL_RAISE_ROUNDING,
        .smallest_g = 8.25,
        .tint = 0.025,
        .volume_error_mm3 = 0.5,
        .charge_height_mm = 12.25,
        .pour_s = 1080,
        .cups = s->cups,
        .cup_count = 2,
        .layer_count = 4,
        .cups_wanted = 3,
        .cups_ruled = RUNNEL_CUPS_BY_MASS | RUNNEL_CUPS_BY_SIZE,
        .not_before_s = 9000,
        .pot_life_s = 2700};
    s->bridge = (runnel_bridge){0, 1, 1.75};
    s->warning = (runnel_warning){s->words[6], s->words[7], s->words[1]};
    s->plan = (runnel_plan){.cavities = s->cavities,
                            .cavity_count = 2,
                            .batches = &s->batch,
                            .batch_count = 1,
                            .bridges = &s->bridge,
                            .bridge_count = 1,
                            .warnings = &s->warning,
                            .warning_count = 1,
                            .mixture = {0.7, 0.3, 0.65, 0.35, 1.09}};
}

static inline void fill(sample *s) {
    memset(s, 0, sizeof *s);
    fill_job(s);
    fill_plan(s);
    fill_cups(s);
}

#endif
