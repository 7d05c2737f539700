/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/write_finish.h"
#include "write/json_finish.h"

#include <math.h>

#define PLAIN(key, member)   RUNNEL_JSON_PLAIN(key, runnel_sealing, member)
#define ML(key, member)      RUNNEL_JSON_ML(key, runnel_sealing, member)
#define MINUTES(key, member) RUNNEL_JSON_MINUTES(key, runnel_sealing, member)
#define PERCENT(key, member) RUNNEL_JSON_PERCENT(key, runnel_sealing, member)
#define UM(key, member)                                                                            \
    { key, offsetof(runnel_sealing, member), 1000, 1 }

static const runnel_json_figure shellac_figures[] = {PLAIN("cut_lb_per_gal", cut_lb_per_gal),
                                                     PLAIN("lac_g_per_l", shellac.lac_g_per_l)};

static const runnel_json_figure sealer_figures[] = {PLAIN("coverage_m2_per_l", all.spread_m2),
                                                    UM("wet_film_um", all.wet_mm),
                                                    UM("dry_film_um", all.dry_mm),
                                                    PERCENT("thinner_percent", sealer.thinner),
                                                    PERCENT("loss_percent", sealer.loss),
                                                    PLAIN("face_margin_mm", face_margin_mm)};

static const runnel_json_figure part_figures[] = {
    RUNNEL_JSON_PLAIN("wall_mm2", runnel_sealing_part, wall_mm2),
    RUNNEL_JSON_PLAIN("face_mm2", runnel_sealing_part, face_mm2),
    RUNNEL_JSON_ML("coat_ml", runnel_sealing_part, one.coat_mm3),
    RUNNEL_JSON_ML("all_ml", runnel_sealing_part, one.all_mm3),
    RUNNEL_JSON_ML("all_pieces_coat_ml", runnel_sealing_part, all.coat_mm3),
    RUNNEL_JSON_ML("all_pieces_ml", runnel_sealing_part, all.all_mm3)};

static const runnel_json_figure total_figures[] = {PLAIN("wall_mm2", wall_mm2),
                                                   PLAIN("face_mm2", face_mm2),
                                                   ML("coat_ml", all.coat_mm3),
                                                   ML("all_ml", all.all_mm3),
                                                   ML("product_ml", all.all_product_mm3),
                                                   ML("thinner_ml", all.all_thinner_mm3),
                                                   ML("lost_ml", all.lost_mm3)};

static const runnel_json_figure dissolve_figures[] = {PLAIN("flake_g", dissolve.lac_g),
                                                      ML("solvent_ml", dissolve.solvent_mm3),
                                                      PLAIN("solvent_g", dissolve.solvent_g)};

static const runnel_json_figure weighing_figures[] = {PLAIN("part_a_g", weighing.part_a_g),
                                                      PLAIN("part_b_g", weighing.part_b_g)};

static const runnel_json_figure drying_figures[] = {
    MINUTES("handle_min", drying.handle_s), MINUTES("recoat_from_min", drying.recoat_from_s),
    MINUTES("recoat_to_min", drying.recoat_to_s), MINUTES("hard_min", drying.hard_s)};

static const runnel_json_figure time_figures[] = {
    MINUTES("last_coat_from_min", times.last_coat_from_s),
    MINUTES("last_coat_to_min", times.last_coat_to_s), MINUTES("pour_from_min", times.ready_from_s),
    MINUTES("pour_to_min", times.ready_to_s)};

static const runnel_json_figure until_figures[] = {MINUTES("pour_until_min", until_s)};

static json_t *taken_array(unsigned taken, bool *whole) {
    static const struct {
        runnel_sealing_taken bit;
        const char *key;
    } keys[] = {{RUNNEL_TAKEN_KIND, "kind"},         {RUNNEL_TAKEN_CUT, "cut"},
                {RUNNEL_TAKEN_COVERAGE, "coverage"}, {RUNNEL_TAKEN_COATS, "coats"},
                {RUNNEL_TAKEN_LOSS, "loss"},         {RUNNEL_TAKEN_FACE, "face margin"},
                {RUNNEL_TAKEN_ORDER, "order"}};
    json_t *array = json_array();
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        if (taken & keys[i].bit)
            runnel_json_append(array, runnel_json_string(keys[i].key), whole);
    return array;
}

static json_t *sealer_object(const runnel_sealing *sealing, bool *whole) {
    json_t *object = json_object();
    const double solids = sealing->sealer.solids;
    runnel_json_put(object, "kind", runnel_json_string(runnel_sealer_kind_of(sealing->kind)->name),
                    whole);
    if (sealing->cut_lb_per_gal > 0)
        RUNNEL_JSON_FIGURES(object, sealing, shellac_figures, whole);
    RUNNEL_JSON_FIGURES(object, sealing, sealer_figures, whole);
    runnel_json_put(object, "solids_percent", runnel_json_number(solids > 0 ? 100 * solids : NAN),
                    whole);
    runnel_json_put(object, "coats", json_integer((json_int_t)sealing->sealer.coats), whole);
    runnel_json_put(object, "taken", taken_array(sealing->taken, whole), whole);
    return object;
}

static json_t *part_object(const runnel_sealing_part *part, bool *whole) {
    json_t *object = json_object();
    runnel_json_put(object, "piece", runnel_json_string(part->piece), whole);
    runnel_json_put(object, "count", json_integer((json_int_t)part->count), whole);
    RUNNEL_JSON_FIGURES(object, part, part_figures, whole);
    return object;
}

static json_t *total_object(const runnel_sealing *sealing, bool *whole) {
    json_t *object = json_object();
    RUNNEL_JSON_FIGURES(object, sealing, total_figures, whole);
    if (sealing->cut_lb_per_gal > 0)
        RUNNEL_JSON_FIGURES(object, sealing, dissolve_figures, whole);
    if (sealing->weighing.total_g > 0)
        RUNNEL_JSON_FIGURES(object, sealing, weighing_figures, whole);
    return object;
}

static json_t *times_object(const runnel_sealing *sealing, bool *whole) {
    json_t *object = json_object();
    RUNNEL_JSON_FIGURES(object, sealing, drying_figures, whole);
    if (sealing->times_known)
        RUNNEL_JSON_FIGURES(object, sealing, time_figures, whole);
    if (sealing->kind == RUNNEL_SEALER_RESIN)
        RUNNEL_JSON_FIGURES(object, sealing, until_figures, whole);
    runnel_json_put(object, "source", runnel_json_string(sealing->drying.source), whole);
    return object;
}

void runnel_json_put_sealing(json_t *root, const runnel_sealing *sealing, bool *whole) {
    json_t *pieces = json_array();
    for (size_t i = 0; i < sealing->part_count; i++)
        runnel_json_append(pieces, part_object(&sealing->parts[i], whole), whole);
    runnel_json_put(root, "sealer", sealer_object(sealing, whole), whole);
    runnel_json_put(root, "pieces", pieces, whole);
    runnel_json_put(root, "total", total_object(sealing, whole), whole);
    runnel_json_put(root, "times", times_object(sealing, whole), whole);
}

/* What the document is made of. */
typedef struct sealed_job {
    const runnel_job *job;
    const runnel_sealing *sealing;
} sealed_job;

static json_t *document(const void *from, bool *whole) {
    const sealed_job *sealed = from;
    const runnel_sealing *sealing = sealed->sealing;
    json_t *root = json_object();
    runnel_json_put_job(root, sealed->job, whole);
    runnel_json_put_sealing(root, sealing, whole);
    runnel_json_put_order(root, &sealing->order, &sealing->faults, whole);
    runnel_json_put_cautions(root, sealing->steps, sealing->cases, whole);
    runnel_json_put_warnings(root, &sealing->plan, whole);
    return root;
}

runnel_status runnel_write_seal_json(const runnel_job *job, const runnel_sealing *sealing,
                                     FILE *out) {
    return runnel_json_write(document, &(sealed_job){job, sealing}, out);
}
