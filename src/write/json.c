/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/memory.h"
#include "base/utf8.h"
#include "runnel/write.h"

#include <jansson.h>
#include <math.h>
#include <string.h>

/* A number of a struct and the key that it goes by: value x times / over. */
typedef struct figure {
    const char *key;
    size_t offset;
    double times, over;
} figure;

#define PLAIN(key, type, member)                                                                   \
    { key, offsetof(type, member), 1, 1 }
#define ML(key, type, member)                                                                      \
    { key, offsetof(type, member), 1, 1000 }
#define MINUTES(key, type, member)                                                                 \
    { key, offsetof(type, member), 1, 60 }
#define PERCENT(key, type, member)                                                                 \
    { key, offsetof(type, member), 100, 1 }

static const figure resin_figures[] = {
    PLAIN("density_a_g_per_ml", runnel_resin, density_a_g_per_ml),
    PLAIN("density_b_g_per_ml", runnel_resin, density_b_g_per_ml),
    PLAIN("viscosity_pa_s", runnel_resin, viscosity_pa_s),
    PERCENT("shrinkage_percent", runnel_resin, shrinkage),
    PLAIN("stated_degc", runnel_resin, stated_degc),
    PLAIN("lowest_degc", runnel_resin, lowest_degc),
    MINUTES("pot_life_min", runnel_resin, pot_life_s),
    PLAIN("pot_mass_g", runnel_resin, pot_mass_g),
    MINUTES("gel_min", runnel_resin, gel_s),
    MINUTES("recoat_from_min", runnel_resin, recoat_from_s),
    MINUTES("recoat_until_min", runnel_resin, recoat_until_s),
    MINUTES("sandable_min", runnel_resin, sandable_s),
    MINUTES("full_cure_min", runnel_resin, full_cure_s),
    PLAIN("deepest_layer_mm", runnel_resin, deepest_layer_mm),
    PLAIN("largest_mass_g", runnel_resin, largest_mass_g),
    PERCENT("ratio_tolerance_percent", runnel_resin, ratio_tolerance),
    PERCENT("tint_default_percent", runnel_resin, tint_default),
    PERCENT("tint_cap_percent", runnel_resin, tint_cap),
    PLAIN("activation_kj_per_mol", runnel_resin, activation_kj_per_mol)};

static const figure scale_figures[] = {PLAIN("step_g", runnel_scale, step_g),
                                       PLAIN("accuracy_counts", runnel_scale, accuracy_counts),
                                       PLAIN("accuracy_percent", runnel_scale, accuracy_percent)};

static const figure mixture_figures[] = {
    PLAIN("weight_a", runnel_mixture, weight_a), PLAIN("weight_b", runnel_mixture, weight_b),
    PLAIN("volume_a", runnel_mixture, volume_a), PLAIN("volume_b", runnel_mixture, volume_b),
    PLAIN("density_g_per_ml", runnel_mixture, density_g_per_ml)};

static const figure cavity_figures[] = {
    PLAIN("footprint_mm2", runnel_plan_cavity, figures.footprint_mm2),
    ML("volume_ml", runnel_plan_cavity, figures.volume_mm3),
    ML("volume_error_ml", runnel_plan_cavity, figures.volume_error_mm3),
    PLAIN("wall_mm2", runnel_plan_cavity, figures.wall_mm2),
    PLAIN("deepest_mm", runnel_plan_cavity, figures.deepest_mm),
    PLAIN("narrowest_mm", runnel_plan_cavity, figures.narrowest_mm),
    PLAIN("widest_mm", runnel_plan_cavity, figures.widest_mm),
    PLAIN("perimeter_mm", runnel_plan_cavity, figures.perimeter_mm),
    PLAIN("margin_mm2", runnel_plan_cavity, margin_mm2),
    PLAIN("width_mm", runnel_plan_cavity, width_mm),
    PLAIN("height_mm", runnel_plan_cavity, height_mm),
    PLAIN("uncut_mm2", runnel_plan_cavity, figures.uncut_mm2),
    ML("per_tenth_mm_deeper_ml", runnel_plan_cavity, figures.depth_plus_mm3),
    ML("per_tenth_mm_shallower_ml", runnel_plan_cavity, figures.depth_minus_mm3),
    ML("per_degree_ml", runnel_plan_cavity, figures.angle_mm3_per_degree)};

/* total_ml is the sum of the terms, what the batch must give; total_g is what is weighed, A + B,
 * and weighed_ml the volume of that. */
static const figure batch_figures[] = {
    ML("cavity_ml", runnel_plan_batch, terms.cavity_mm3),
    ML("crown_ml", runnel_plan_batch, terms.crown_mm3),
    ML("shrinkage_ml", runnel_plan_batch, terms.shrinkage_mm3),
    ML("soak_ml", runnel_plan_batch, terms.soak_mm3),
    ML("cup_loss_ml", runnel_plan_batch, terms.cup_loss_mm3),
    ML("reserve_ml", runnel_plan_batch, terms.reserve_mm3),
    ML("total_ml", runnel_plan_batch, terms.total_mm3),
    PLAIN("total_g", runnel_plan_batch, weighing.total_g),
    PLAIN("part_a_g", runnel_plan_batch, weighing.part_a_g),
    PLAIN("part_b_g", runnel_plan_batch, weighing.part_b_g),
    PLAIN("part_a_ml", runnel_plan_batch, weighing.part_a_ml),
    PLAIN("part_b_ml", runnel_plan_batch, weighing.part_b_ml),
    PLAIN("weighed_ml", runnel_plan_batch, weighing.total_ml),
    PLAIN("tint_g", runnel_plan_batch, weighing.tint_g),
    PERCENT("tint_percent", runnel_plan_batch, tint),
    PERCENT("ratio_error_percent", runnel_plan_batch, weighing.ratio_error),
    PERCENT("rounding_error_percent", runnel_plan_batch, weighing.rounding_error),
    MINUTES("pot_life_min", runnel_plan_batch, pot_life_s),
    PLAIN("charge_height_mm", runnel_plan_batch, charge_height_mm),
    ML("volume_error_ml", runnel_plan_batch, volume_error_mm3)};

/* JSON has no word for what is not a number or has no end. */
static json_t *number(double value) {
    return isfinite(value) ? json_real(value) : json_null();
}

/* Text with each byte that is not UTF-8 (a file name may hold any) as U+FFFD, which JSON can say.
 */
static char *well_formed(const char *text) {
    static const char replacement[] = "\xEF\xBF\xBD";
    char *clean = runnel_resize(NULL, strlen(text) + 1, sizeof replacement - 1);
    size_t end = 0, length;
    for (uint32_t point = runnel_utf8_next(text, &length); clean && length;
         text += length, point = runnel_utf8_next(text, &length)) {
        bool bad = point >= 0xDC80 && point <= 0xDCFF;
        size_t bytes = bad ? sizeof replacement - 1 : length;
        memcpy(clean + end, bad ? replacement : text, bytes);
        end += bytes;
    }
    if (clean)
        clean[end] = '\0';
    return clean;
}

static json_t *string(const char *text) {
    if (!text)
        return json_null();
    char *clean = well_formed(text);
    json_t *made = clean ? json_string_nocheck(clean) : NULL;
    runnel_free(clean);
    return made;
}

/*
 * Puts a new value into a new object. Either may be NULL for want of memory, then and when the key
 * does not fit in, `whole` becomes false; the value is the object's or gone in any case.
 */
static void put(json_t *object, const char *key, json_t *value, bool *whole) {
    if (json_object_set_new_nocheck(object, key, value) != 0)
        *whole = false;
}

static void put_figures(json_t *object, const void *record, const figure *figures, size_t count,
                        bool *whole) {
    for (size_t i = 0; i < count; i++) {
        double value;
        memcpy(&value, (const char *)record + figures[i].offset, sizeof value);
        put(object, figures[i].key, number(value * figures[i].times / figures[i].over), whole);
    }
}

#define PUT_FIGURES(object, record, figures, whole)                                                \
    put_figures((object), (record), (figures), sizeof(figures) / sizeof *(figures), (whole))

static json_t *ratio_object(const runnel_ratio *ratio, bool *whole) {
    if (ratio->basis == RUNNEL_BASIS_NONE)
        return json_null();
    json_t *object = json_object();
    put(object, "part_a", number(ratio->part_a), whole);
    put(object, "part_b", number(ratio->part_b), whole);
    put(object, "basis", string(ratio->basis == RUNNEL_BASIS_VOLUME ? "volume" : "weight"), whole);
    return object;
}

static json_t *resin_object(const runnel_job *job, bool *whole) {
    const runnel_resin *resin = &job->resin;
    json_t *object = json_object();
    put(object, "name", string(resin->name), whole);
    put(object, "kind", string(resin->kind), whole);
    put(object, "is_default", json_boolean(job->resin_is_default), whole);
    put(object, "changed", json_boolean(job->resin_changed), whole);
    put(object, "ratio", ratio_object(&resin->ratio, whole), whole);
    put(object, "other_ratio", ratio_object(&job->other_ratio, whole), whole);
    PUT_FIGURES(object, resin, resin_figures, whole);
    put(object, "source", string(resin->source), whole);
    put(object, "date", string(resin->date), whole);
    put(object, "sure", string(resin->sure), whole);
    return object;
}

static json_t *shop_object(const runnel_job *job, bool *whole) {
    json_t *object = json_object();
    double humidity_percent = job->humidity < 0 ? NAN : 100 * job->humidity;
    put(object, "temperature_degc", number(job->shop_degc), whole);
    put(object, "humidity_percent", number(humidity_percent), whole);
    put(object, "is_default", json_boolean(job->shop_is_default), whole);
    return object;
}

static json_t *scale_object(const runnel_job *job, bool *whole) {
    json_t *object = json_object();
    PUT_FIGURES(object, &job->scale, scale_figures, whole);
    put(object, "is_default", json_boolean(job->scale_is_default), whole);
    return object;
}

static json_t *mixture_object(const runnel_mixture *mixture, bool *whole) {
    json_t *object = json_object();
    PUT_FIGURES(object, mixture, mixture_figures, whole);
    return object;
}

static json_t *cavity_object(const runnel_plan_cavity *cavity, bool *whole) {
    json_t *object = json_object();
    put(object, "name", string(cavity->name), whole);
    put(object, "piece", string(cavity->piece), whole);
    put(object, "colour", string(cavity->colour), whole);
    put(object, "count", json_integer((json_int_t)cavity->piece_count), whole);
    put(object, "measured", json_boolean(cavity->measured), whole);
    PUT_FIGURES(object, cavity, cavity_figures, whole);
    put(object, "uncut_places", json_integer((json_int_t)cavity->figures.uncut_places), whole);
    put(object, "font_file", string(cavity->font_file), whole);
    return object;
}

static json_t *batch_object(const runnel_plan_batch *batch, bool *whole) {
    json_t *object = json_object();
    put(object, "colour", string(batch->colour), whole);
    PUT_FIGURES(object, batch, batch_figures, whole);
    return object;
}

static json_t *warning_object(const runnel_warning *warning, bool *whole) {
    json_t *object = json_object();
    put(object, "code", string(warning->code), whole);
    put(object, "text", string(warning->text), whole);
    put(object, "where", string(warning->where), whole);
    return object;
}

static void append(json_t *array, json_t *value, bool *whole) {
    if (json_array_append_new(array, value) != 0)
        *whole = false;
}

static json_t *document(const runnel_job *job, const runnel_plan *plan, bool *whole) {
    json_t *root = json_object(), *cavities = json_array();
    json_t *batches = json_array(), *warnings = json_array();
    for (size_t i = 0; i < plan->cavity_count; i++)
        append(cavities, cavity_object(&plan->cavities[i], whole), whole);
    for (size_t i = 0; i < plan->batch_count; i++)
        append(batches, batch_object(&plan->batches[i], whole), whole);
    for (size_t i = 0; i < plan->warning_count; i++)
        append(warnings, warning_object(&plan->warnings[i], whole), whole);
    put(root, "job", string(job->name), whole);
    put(root, "file", string(job->file), whole);
    put(root, "resin", resin_object(job, whole), whole);
    put(root, "shop", shop_object(job, whole), whole);
    put(root, "scale", scale_object(job, whole), whole);
    put(root, "mixture", mixture_object(&plan->mixture, whole), whole);
    put(root, "cavities", cavities, whole);
    put(root, "batches", batches, whole);
    put(root, "warnings", warnings, whole);
    return root;
}

static void *hooked_resize(size_t bytes) {
    return runnel_resize(NULL, bytes, 1);
}

/*
 * The whole text in a block of the library, or NULL without memory.
 *
 * Jansson's allocator is one for the whole process. It is set to the library's hook only while
 * values of ours are alive and then set back, so that a program which uses jansson itself finds its
 * own again. Like runnel_set_allocator this is not safe beside other threads that use jansson, as
 * soon as any allocator but malloc is in play.
 */
static char *dumped(const runnel_job *job, const runnel_plan *plan) {
    json_malloc_t own_malloc;
    json_free_t own_release;
    json_get_alloc_funcs(&own_malloc, &own_release);
    json_set_alloc_funcs(hooked_resize, runnel_free);
    bool whole = true;
    json_t *root = document(job, plan, &whole);
    /* 17 digits read back to the very double. Keys keep the order in which they were put. */
    char *text = whole ? json_dumps(root, JSON_INDENT(2) | JSON_REAL_PRECISION(17)) : NULL;
    json_decref(root);
    json_set_alloc_funcs(own_malloc, own_release);
    return text;
}

runnel_status runnel_write_json(const runnel_job *job, const runnel_plan *plan, FILE *out) {
    char *text = dumped(job, plan);
    if (!text)
        return RUNNEL_E_NO_MEMORY;
    size_t length = strlen(text);
    bool written = fwrite(text, 1, length, out) == length && fputc('\n', out) != EOF &&
                   fflush(out) == 0 && !ferror(out);
    runnel_free(text);
    return written ? RUNNEL_OK : RUNNEL_E_IO;
}
