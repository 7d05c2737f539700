/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/write_finish.h"
#include "write/json_finish.h"

#include <math.h>

/* What the document is made of. */
typedef struct damp_job {
    const runnel_job *job;
    const runnel_damping *damping;
} damp_job;

static void put_number(json_t *object, const char *key, double value, bool *whole) {
    runnel_json_put(object, key, runnel_json_number(value), whole);
}

static json_t *air_object(const runnel_damping_air *air, bool *whole) {
    json_t *object = json_object();
    put_number(object, "degc", air->degc, whole);
    put_number(object, "humidity_percent", 100 * air->humidity, whole);
    put_number(object, "moisture_percent", air->moisture_percent, whole);
    return object;
}

static json_t *band_object(const runnel_damping_band *band, bool *whole) {
    json_t *object = json_object();
    runnel_json_put(object, "cavity", runnel_json_string(band->cavity), whole);
    put_number(object, "across_mm", band->across_mm, whole);
    put_number(object, "change_mm", band->is_known ? band->band.change_mm : (double)NAN, whole);
    put_number(object, "strain_percent", band->is_known ? 100 * band->band.strain : (double)NAN,
               whole);
    runnel_json_put(object, "is_long", json_boolean(band->across_mm > RUNNEL_DAMP_BAND_MM), whole);
    return object;
}

static json_t *part_object(const runnel_damping_part *part, bool *whole) {
    json_t *object = json_object(), *bands = json_array();
    runnel_json_put(object, "piece", runnel_json_string(part->piece), whole);
    put_number(object, "count", (double)part->count, whole);
    runnel_json_put(object, "wood", part->wood ? runnel_json_string(part->wood->name) : json_null(),
                    whole);
    put_number(object, "across_mm", part->across_mm, whole);
    put_number(object, "flat_change_mm", part->flat_change_mm, whole);
    put_number(object, "quarter_change_mm", part->quarter_change_mm, whole);
    for (size_t i = 0; i < part->band_count; i++)
        runnel_json_append(bands, band_object(&part->bands[i], whole), whole);
    runnel_json_put(object, "bands", bands, whole);
    return object;
}

static json_t *document(const void *from, bool *whole) {
    const damp_job *of = from;
    const runnel_damping *damping = of->damping;
    json_t *root = json_object(), *pieces = json_array();
    runnel_json_put_job(root, of->job, whole);
    runnel_json_put(root, "shop", air_object(&damping->shop, whole), whole);
    put_number(root, "dew_degc", damping->dew_degc, whole);
    runnel_json_put(root, "destination", air_object(&damping->destination, whole), whole);
    put_number(root, "from_percent", damping->from_percent, whole);
    put_number(root, "to_percent", damping->to_percent, whole);
    runnel_json_put(root, "is_measured", json_boolean(damping->is_measured), whole);
    for (size_t i = 0; i < damping->part_count; i++)
        runnel_json_append(pieces, part_object(&damping->parts[i], whole), whole);
    runnel_json_put(root, "pieces", pieces, whole);
    runnel_json_put_warnings(root, &damping->plan, whole);
    return root;
}

runnel_status runnel_write_damp_json(const runnel_job *job, const runnel_damping *damping,
                                     FILE *out) {
    return runnel_json_write(document, &(damp_job){job, damping}, out);
}
