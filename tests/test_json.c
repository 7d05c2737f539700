/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "failing.h"
#include "json_sample.h"
#include "runnel/memory.h"
#include "runnel/write.h"

#include <jansson.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static char *written(const sample *s) {
    FILE *file = tmpfile();
    ck_assert_ptr_nonnull(file);
    ck_assert_int_eq(runnel_write_json(&s->job, &s->plan, file), RUNNEL_OK);
    long size = ftell(file);
    ck_assert_int_gt(size, 0);
    char *text = calloc((size_t)size + 1, 1);
    rewind(file);
    ck_assert_uint_eq(fread(text, 1, (size_t)size, file), (size_t)size);
    fclose(file);
    return text;
}

static json_t *read_back(const sample *s) {
    char *text = written(s);
    ck_assert_int_eq(text[strlen(text) - 1], '\n');
    json_error_t error;
    json_t *root = json_loads(text, JSON_REJECT_DUPLICATES, &error);
    ck_assert_msg(root != NULL, "line %d: %s", error.line, error.text);
    free(text);
    return root;
}

/* The value at a path such as "cavities/0/name". */
static json_t *at(json_t *value, const char *path) {
    char key[64];
    while (*path) {
        size_t length = strcspn(path, "/");
        snprintf(key, sizeof key, "%.*s", (int)length, path);
        value = json_is_array(value) ? json_array_get(value, (size_t)atoi(key))
                                     : json_object_get(value, key);
        ck_assert_msg(value != NULL, "no %s", path);
        path += length + (path[length] == '/');
    }
    return value;
}

START_TEST(every_number) {
    /* Values of the sample in the unit of the key: mm3/1000, s/60, fraction x 100; by hand. */
    static const struct {
        const char *path;
        double want;
    } rows[] = {{"resin/ratio/part_a", 2},
                {"resin/ratio/part_b", 1},
                {"resin/other_ratio/part_a", 100},
                {"resin/other_ratio/part_b", 44},
                {"resin/density_a_g_per_ml", 1.16},
                {"resin/density_b_g_per_ml", 0.95},
                {"resin/viscosity_pa_s", 0.9},
                {"resin/shrinkage_percent", 3},
                {"resin/stated_degc", 25},
                {"resin/lowest_degc", 15},
                {"resin/pot_life_min", 25},
                {"resin/pot_mass_g", 150},
                {"resin/gel_min", 120},
                {"resin/recoat_from_min", 240},
                {"resin/recoat_until_min", 1440},
                {"resin/sandable_min", 2880},
                {"resin/deepest_layer_mm", 6},
                {"resin/largest_mass_g", 500},
                {"resin/ratio_tolerance_percent", 5},
                {"resin/tint_default_percent", 2},
                {"resin/tint_cap_percent", 6},
                {"resin/activation_kj_per_mol", 52},
                {"resin/reaction_j_per_g", 366},
                {"shop/temperature_degc", 18.5},
                {"shop/humidity_percent", 55},
                {"scale/step_g", 0.1},
                {"scale/accuracy_counts", 1},
                {"scale/accuracy_percent", 0.5},
                {"mixture/weight_a", 0.7},
                {"mixture/weight_b", 0.3},
                {"mixture/volume_a", 0.65},
                {"mixture/volume_b", 0.35},
                {"mixture/density_g_per_ml", 1.09},
                {"cavities/0/count", 2},
                {"cavities/0/footprint_mm2", 1234.5},
                {"cavities/0/volume_ml", 18.279437251523},
                {"cavities/0/volume_error_ml", 0.00025},
                {"cavities/0/low_ml", 17.5},
                {"cavities/0/likely_ml", 18.5},
                {"cavities/0/high_ml", 19.75},
                {"cavities/0/band_shares/depth_percent", 60},
                {"cavities/0/band_shares/soak_percent", 40},
                {"cavities/0/wall_mm2", 2469.25},
                {"cavities/0/deepest_mm", 4.125},
                {"cavities/0/narrowest_mm", 0.75},
                {"cavities/0/widest_mm", 9.5},
                {"cavities/0/perimeter_mm", 321.5},
                {"cavities/0/margin_mm2", 333},
                {"cavities/0/width_mm", 200},
                {"cavities/0/height_mm", 38},
                {"cavities/0/uncut_mm2", 3.5},
                {"cavities/0/uncut_places", 7},
                {"cavities/0/per_tenth_mm_deeper_ml", 0.13},
                {"cavities/0/per_tenth_mm_shallower_ml", -0.12},
                {"cavities/0/per_degree_ml", 0.045},
                {"cavities/0/layers/0/bottom_mm", 4.125},
                {"cavities/0/layers/0/top_mm", 2},
                {"cavities/0/layers/0/pour_mm", 2.125},
                {"cavities/0/layers/1/crown_mm", 0.4375},
                {"cavities/0/layers/0/volume_ml", 6},
                {"cavities/0/layers/0/volume_error_ml", 0.0005},
                {"cavities/0/layers/0/surface_mm2", 800},
                {"cavities/0/layers/0/earliest_h", 0},
                {"cavities/0/layers/1/top_mm", 0},
                {"cavities/0/layers/1/earliest_h", 5},
                {"cavities/0/layers/1/latest_h", 12.5},
                {"cavities/1/count", 1},
                {"cavities/1/volume_ml", 0},
                {"batches/0/cavity_ml", 36.5585},
                {"batches/0/crown_ml", 2},
                {"batches/0/shrinkage_ml", 1.1925},
                {"batches/0/soak_ml", 0.15},
                {"batches/0/cup_loss_ml", 2.75},
                {"batches/0/reserve_ml", 4},
                {"batches/0/allowance_ml", 0.875},
                {"batches/0/total_ml", 47.526},
                {"batches/0/low_ml", 34.5},
                {"batches/0/likely_ml", 36.75},
                {"batches/0/high_ml", 37.625},
                {"batches/0/band_shares/depth_percent", 50},
                {"batches/0/band_shares/angle_percent", 25},
                {"batches/0/band_shares/flatness_percent", 12.5},
                {"batches/0/band_shares/soak_percent", 6.25},
                {"errors/depth_mm", 0.15},
                {"errors/angle_deg", 1.5},
                {"errors/flatness_mm", 0.35},
                {"errors/soak_percent", 40},
                {"batches/0/surplus_ml", 0.0065},
                {"batches/0/total_g", 50.9},
                {"batches/0/part_a_g", 36.1},
                {"batches/0/part_b_g", 14.8},
                {"batches/0/part_a_ml", 31.125},
                {"batches/0/part_b_ml", 15.5},
                {"batches/0/weighed_ml", 46.625},
                {"batches/0/tint_g", 1.25},
                {"batches/0/tint_percent", 2.5},
                {"batches/0/ratio_error_percent", 3.75},
                {"batches/0/rounding_error_percent", 1.25},
                {"batches/0/pot_life_min", 45},
                {"batches/0/charge_height_mm", 12.25},
                {"batches/0/volume_error_ml", 0.0005},
                {"batches/0/smallest_g", 8.25},
                {"pour_order/0/not_before_h", 2.5},
                {"bridges/0/distance_mm", 1.75},
                {"batches/0/pour_min", 18},
                {"batches/0/layers", 4},
                {"batches/0/cups_wanted", 3},
                {"batches/0/cups/0/layer", 2},
                {"batches/0/cups/0/earliest_h", 4.5},
                {"batches/0/cups/0/latest_h", 10},
                {"batches/0/cups/0/fills/0/layer", 3},
                {"batches/0/cups/0/poured_ml", 30.5},
                {"batches/0/cups/0/loss_ml", 1.5},
                {"batches/0/cups/0/surplus_ml", 0.25},
                {"batches/0/cups/0/total_g", 35.3},
                {"batches/0/cups/0/part_a_g", 25.1},
                {"batches/0/cups/0/part_b_g", 10.2},
                {"batches/0/cups/0/part_a_ml", 21.5},
                {"batches/0/cups/0/part_b_ml", 10.75},
                {"batches/0/cups/0/weighed_ml", 32.25},
                {"batches/0/cups/0/tint_g", 0.75},
                {"batches/0/cups/0/ratio_error_percent", 2},
                {"batches/0/cups/0/rounding_error_percent", 0.5},
                {"batches/0/cups/0/pour_min", 11},
                {"batches/0/cups/0/pot_share_percent", 37.5},
                {"batches/0/cups/0/pot_life_min", 40},
                {"batches/0/cups/0/charge_height_mm", 8.5},
                {"batches/0/cups/0/fills/0/first", 1},
                {"batches/0/cups/0/fills/0/last", 2},
                {"batches/0/cups/0/fills/0/first_share_percent", 100},
                {"batches/0/cups/0/fills/0/last_share_percent", 25},
                {"batches/0/cups/0/fills/1/last", 1},
                {"batches/0/cups/0/fills/1/first_share_percent", 50}};
    sample s;
    fill(&s);
    json_t *root = read_back(&s);
    for (size_t i = 0; i < COUNT(rows); i++) {
        json_t *value = at(root, rows[i].path);
        ck_assert_msg(json_is_number(value), "%s is no number", rows[i].path);
        double got = json_number_value(value);
        ck_assert_msg(runnel_near(got, rows[i].want, 4e-16, 0), "%s: got %.17g, want %.17g",
                      rows[i].path, got, rows[i].want);
    }
    json_decref(root);
}
END_TEST

START_TEST(every_text_flag_and_gap) {
    static const struct {
        const char *path, *want;
    } rows[] = {{"job", "mill bakery"},
                {"file", "boards.yaml"},
                {"resin/name", "table-top 2:1"},
                {"resin/kind", "table-top"},
                {"size_to", "likely"},
                {"resin/ratio/basis", "volume"},
                {"resin/other_ratio/basis", "weight"},
                {"resin/source", "sheet \"A\"\n"},
                {"resin/date", "2015-01-01"},
                {"resin/sure", "published"},
                {"cavities/0/name", "RYE"},
                {"cavities/0/piece", "board one"},
                {"cavities/0/colour", "amber"},
                {"cavities/0/font_file", "/fonts/a\xEF\xBF\xBD.ttf"},
                {"cavities/1/name", "groove"},
                {"cavities/1/piece", "W\xC3\xA4rter"},
                {"batches/0/colour", "amber"},
                {"batches/0/raise", "whole steps"},
                {"batches/0/limits/0", "mass"},
                {"batches/0/limits/1", "size"},
                {"batches/0/cups/0/limits/0", "time"},
                {"batches/0/cups/0/notes/0", "raised"},
                {"batches/0/cups/0/notes/1", "rounded"},
                {"batches/0/cups/0/notes/2", "late"},
                {"batches/0/cups/0/notes/3", "hot"},
                {"batches/0/cups/0/notes/4", "over mass"},
                {"batches/0/cups/0/notes/5", "over size"},
                {"batches/0/cups/0/notes/6", "unweighable"},
                {"batches/0/cups/0/fills/0/piece", "board one"},
                {"batches/0/cups/0/fills/0/cavity", "RYE"},
                {"batches/0/cups/0/fills/1/cavity", "groove"},
                {"pour_order/0/colour", "amber"},
                {"bridges/0/piece", "board one"},
                {"bridges/0/one", "RYE"},
                {"bridges/0/other", "groove"},
                {"warnings/0/code", "too-deep"},
                {"warnings/0/text", "deeper by 1 mm"},
                {"warnings/0/where", "board one"}};
    static const char *const yes[] = {"resin/is_default", "scale/is_default", "errors/is_default",
                                      "cavities/1/measured"};
    static const char *const no[] = {"resin/changed", "shop/is_default", "cavities/0/measured"};
    static const char *const gaps[] = {
        "resin/full_cure_min",           "cavities/1/narrowest_mm",
        "cavities/1/widest_mm",          "cavities/1/font_file",
        "cavities/0/layers/1/volume_ml", "cavities/0/layers/1/surface_mm2",
        "batches/0/cups/1/earliest_h",   "batches/0/cups/1/latest_h",
        "batches/0/cups/1/pour_min",     "batches/0/cups/1/pot_share_percent"};
    sample s;
    fill(&s);
    json_t *root = read_back(&s);
    for (size_t i = 0; i < COUNT(rows); i++)
        ck_assert_str_eq(json_string_value(at(root, rows[i].path)), rows[i].want);
    for (size_t i = 0; i < COUNT(yes); i++)
        ck_assert_msg(json_is_true(at(root, yes[i])), "%s", yes[i]);
    for (size_t i = 0; i < COUNT(no); i++)
        ck_assert_msg(json_is_false(at(root, no[i])), "%s", no[i]);
    for (size_t i = 0; i < COUNT(gaps); i++)
        ck_assert_msg(json_is_null(at(root, gaps[i])), "%s", gaps[i]);
    json_decref(root);
}
END_TEST

/* Fails unless the object at a path has exactly these keys in this order, parted by blanks. */
static void check_keys(json_t *root, const char *path, const char *want) {
    char got[1024] = "";
    json_t *object = at(root, path), *value;
    const char *key;
    size_t end = 0;
    json_object_foreach(object, key, value) {
        end += (size_t)snprintf(got + end, sizeof got - end, "%s%s", end ? " " : "", key);
        ck_assert_uint_lt(end, sizeof got);
    }
    ck_assert_str_eq(got, want);
}

START_TEST(keys_and_their_order) {
    sample s;
    fill(&s);
    json_t *root = read_back(&s);
    check_keys(root, "",
               "job file resin shop scale errors size_to mixture cavities batches pour_order "
               "bridges warnings");
    check_keys(root, "pour_order/0", "colour not_before_h");
    check_keys(root, "bridges/0", "piece one other distance_mm");
    check_keys(root, "resin",
               "name kind is_default changed ratio other_ratio density_a_g_per_ml "
               "density_b_g_per_ml viscosity_pa_s shrinkage_percent stated_degc lowest_degc "
               "pot_life_min pot_mass_g gel_min recoat_from_min recoat_until_min sandable_min "
               "full_cure_min deepest_layer_mm largest_mass_g ratio_tolerance_percent "
               "tint_default_percent tint_cap_percent activation_kj_per_mol reaction_j_per_g "
               "source date sure");
    check_keys(root, "resin/ratio", "part_a part_b basis");
    check_keys(root, "shop", "temperature_degc humidity_percent is_default");
    check_keys(root, "scale", "step_g accuracy_counts accuracy_percent is_default");
    check_keys(root, "errors", "depth_mm angle_deg flatness_mm soak_percent is_default");
    check_keys(root, "mixture", "weight_a weight_b volume_a volume_b density_g_per_ml");
    for (int i = 0; i < 2; i++)
        check_keys(root, i ? "cavities/1" : "cavities/0",
                   "name piece colour count measured footprint_mm2 volume_ml volume_error_ml "
                   "low_ml likely_ml high_ml wall_mm2 deepest_mm narrowest_mm widest_mm "
                   "perimeter_mm margin_mm2 width_mm "
                   "height_mm uncut_mm2 per_tenth_mm_deeper_ml per_tenth_mm_shallower_ml "
                   "per_degree_ml band_shares uncut_places font_file sections layers");
    check_keys(root, "cavities/0/layers/0",
               "bottom_mm top_mm crown_mm pour_mm volume_ml volume_error_ml surface_mm2 earliest_h "
               "latest_h");
    ck_assert_uint_eq(json_array_size(at(root, "cavities/1/layers")), 0);
    check_keys(root, "batches/0",
               "colour cavity_ml crown_ml shrinkage_ml soak_ml allowance_ml cup_loss_ml reserve_ml "
               "total_ml "
               "surplus_ml total_g part_a_g part_b_g part_a_ml part_b_ml weighed_ml tint_g "
               "tint_percent ratio_error_percent rounding_error_percent pot_life_min "
               "charge_height_mm volume_error_ml low_ml likely_ml high_ml top_up_ml top_up_a_g "
               "top_up_b_g top_up_tint_g smallest_g pour_min zero_before_b "
               "band_shares raise layers cups_wanted "
               "limits cups");
    check_keys(root, "batches/0/cups/0",
               "layer poured_ml loss_ml surplus_ml total_g part_a_g part_b_g part_a_ml part_b_ml "
               "weighed_ml tint_g ratio_error_percent rounding_error_percent pour_min "
               "pot_share_percent pot_life_min charge_height_mm earliest_h latest_h zero_before_b "
               "limits notes fills");
    check_keys(root, "batches/0/cups/0/fills/0",
               "piece cavity layer first last first_share_percent last_share_percent");
    ck_assert_uint_eq(json_array_size(at(root, "batches/0/limits")), 2);
    ck_assert_uint_eq(json_array_size(at(root, "batches/0/cups")), 2);
    ck_assert_uint_eq(json_array_size(at(root, "batches/0/cups/0/notes")), 7);
    ck_assert_uint_eq(json_array_size(at(root, "batches/0/cups/1/notes")), 0);
    ck_assert_uint_eq(json_array_size(at(root, "batches/0/cups/1/fills")), 0);
    check_keys(root, "warnings/0", "code text where");
    ck_assert_uint_eq(json_array_size(at(root, "cavities")), 2);
    ck_assert_uint_eq(json_array_size(at(root, "batches")), 1);
    ck_assert_uint_eq(json_array_size(at(root, "warnings")), 1);
    json_decref(root);
}
END_TEST

START_TEST(numbers_read_back_to_the_bit) {
    sample s;
    fill(&s);
    srand(5);
    for (int i = 0; i < 300; i++) {
        double value = ldexp(rand() / (RAND_MAX + 1.0) + rand() * 1e-20, rand() % 200 - 100);
        s.cavities[0].figures.footprint_mm2 = i % 2 ? value : -value;
        json_t *root = read_back(&s);
        ck_near(json_real_value(at(root, "cavities/0/footprint_mm2")), i % 2 ? value : -value, 0);
        json_decref(root);
    }
}
END_TEST

START_TEST(an_empty_plan) {
    sample s;
    memset(&s, 0, sizeof s);
    s.job.humidity = -1;
    json_t *root = read_back(&s);
    static const char *const lists[] = {"cavities", "batches", "pour_order", "bridges", "warnings"};
    for (size_t i = 0; i < COUNT(lists); i++) {
        ck_assert(json_is_array(at(root, lists[i])));
        ck_assert_uint_eq(json_array_size(at(root, lists[i])), 0);
    }
    static const char *const gaps[] = {
        "job", "file", "resin/name", "resin/ratio", "resin/other_ratio", "shop/humidity_percent"};
    for (size_t i = 0; i < COUNT(gaps); i++)
        ck_assert_msg(json_is_null(at(root, gaps[i])), "%s", gaps[i]);
    json_decref(root);
}
END_TEST

START_TEST(odd_bytes) {
    /* Cut off, overlong, surrogate and stray bytes each become U+FFFD; a quote, a backslash and
     * control characters are escaped and come back. */
    static const struct {
        const char *text, *want;
    } rows[] = {{"", ""},
                {"a\xC3", "a\xEF\xBF\xBD"},
                {"\xC0\x80", "\xEF\xBF\xBD\xEF\xBF\xBD"},
                {"\xED\xA0\x80", "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD"},
                {"\x80x", "\xEF\xBF\xBDx"},
                {"\xF0\x9F\xAA\xB5", "\xF0\x9F\xAA\xB5"},
                {"\"\\\t\x01", "\"\\\t\x01"}};
    sample s;
    fill(&s);
    for (size_t i = 0; i < COUNT(rows); i++) {
        snprintf(s.name, sizeof s.name, "%s", rows[i].text);
        json_t *root = read_back(&s);
        ck_assert_str_eq(json_string_value(at(root, "job")), rows[i].want);
        json_decref(root);
    }
}
END_TEST

START_TEST(a_full_disk) {
    sample s;
    fill(&s);
    FILE *full = fopen("/dev/full", "w");
    ck_assert_ptr_nonnull(full);
    ck_assert_int_eq(runnel_write_json(&s.job, &s.plan, full), RUNNEL_E_IO);
    fclose(full);
    FILE *unwritable = fopen("/dev/null", "r");
    ck_assert_ptr_nonnull(unwritable);
    ck_assert_int_eq(runnel_write_json(&s.job, &s.plan, unwritable), RUNNEL_E_IO);
    fclose(unwritable);
}
END_TEST

/* --- memory --- */

START_TEST(every_allocation_may_fail) {
    sample s;
    fill(&s);
    runnel_status status = RUNNEL_E_NO_MEMORY;
    size_t allowed = 0;
    for (; status != RUNNEL_OK && allowed < 5000; allowed++) {
        failing of = {.fail_at = allowed, .for_good = true};
        FILE *file = tmpfile();
        ck_assert_ptr_nonnull(file);
        start_failing(&of);
        status = runnel_write_json(&s.job, &s.plan, file);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(of.alive, 0);
        if (status != RUNNEL_OK) {
            ck_assert_int_eq(status, RUNNEL_E_NO_MEMORY);
            ck_assert_int_eq(ftell(file), 0); /* nothing is written by halves */
        }
        fclose(file);
    }
    ck_assert_int_eq(status, RUNNEL_OK);
    ck_assert_uint_gt(allowed, 100);
}
END_TEST

static void *own_malloc(size_t size) {
    return malloc(size);
}

static void own_release(void *memory) {
    free(memory);
}

START_TEST(the_allocator_of_jansson_is_given_back) {
    json_malloc_t resize;
    json_free_t release;
    sample s;
    fill(&s);
    json_set_alloc_funcs(own_malloc, own_release);
    json_t *alive = json_string("made by the program");
    free(written(&s));
    json_get_alloc_funcs(&resize, &release);
    ck_assert(resize == own_malloc && release == own_release);
    json_decref(alive);
    json_set_alloc_funcs(malloc, free);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("json");
    TCase *content = tcase_create("content");
    tcase_add_test(content, every_number);
    tcase_add_test(content, every_text_flag_and_gap);
    tcase_add_test(content, keys_and_their_order);
    tcase_add_test(content, numbers_read_back_to_the_bit);
    tcase_add_test(content, an_empty_plan);
    tcase_add_test(content, odd_bytes);
    suite_add_tcase(suite, content);
    TCase *trouble = tcase_create("trouble");
    tcase_set_timeout(trouble, 60);
    tcase_add_test(trouble, a_full_disk);
    tcase_add_test(trouble, every_allocation_may_fail);
    tcase_add_test(trouble, the_allocator_of_jansson_is_given_back);
    suite_add_tcase(suite, trouble);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
