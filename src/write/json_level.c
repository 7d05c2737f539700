/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/write_finish.h"
#include "write/json_finish.h"

#include <math.h>

#define PLAIN(key, member)   RUNNEL_JSON_PLAIN(key, runnel_levelling_plan, member)
#define MINUTES(key, member) RUNNEL_JSON_MINUTES(key, runnel_levelling_plan, member)
#define OF(key, member)      RUNNEL_JSON_PLAIN(key, runnel_levelled, member)

static const runnel_json_figure level_figures[] = {
    PLAIN("standoff_mm", standoff.likely_mm),     PLAIN("standoff_low_mm", standoff.low_mm),
    PLAIN("standoff_high_mm", standoff.high_mm),  PLAIN("below_mm", below_mm),
    PLAIN("crown_mm", levelling.crown_mm),        PLAIN("pass_mm", levelling.pass_mm),
    PLAIN("take_off_mm", levelling.sand_mm),      PLAIN("thin_mm", thin_mm),
    PLAIN("high_spot_mm", levelling.high_spot_mm)};

static const runnel_json_figure crown_figures[] = {
    PLAIN("cut_mm", steps.cut_mm),       PLAIN("each_mm", steps.each_mm),
    PLAIN("left_mm", steps.left_mm),     PLAIN("left_low_mm", left_low_mm),
    PLAIN("left_high_mm", left_high_mm), PLAIN("sanded_mm", steps.sanded_mm),
    PLAIN("face_mm", steps.face_mm),     PLAIN("scratch_mm", steps.scratch_mm),
    MINUTES("sandable_min", sandable_s)};

static const runnel_json_figure cavity_figures[] = {
    OF("narrowing_mm", narrowing_mm),
    OF("before_footprint_mm2", footprint_before_mm2),
    OF("footprint_mm2", footprint_mm2),
    RUNNEL_JSON_PERCENT("lost_percent", runnel_levelled, lost),
    OF("before_edge_mm", border_before_mm),
    OF("edge_mm", border_mm),
    OF("before_narrowest_mm", narrowest_before_mm),
    OF("narrowest_mm", narrowest_mm),
    OF("before_widest_mm", widest_before_mm),
    OF("widest_mm", widest_mm),
    OF("before_deepest_mm", deepest_before_mm),
    OF("deepest_mm", deepest_mm)};

static const runnel_json_figure stroke_figures[] = {
    RUNNEL_JSON_PLAIN("x_mm", runnel_level_stroke, at.x_mm),
    RUNNEL_JSON_PLAIN("y_mm", runnel_level_stroke, at.y_mm),
    RUNNEL_JSON_PLAIN("before_mm", runnel_level_stroke, before_mm),
    RUNNEL_JSON_PLAIN("after_mm", runnel_level_stroke, after_mm),
    RUNNEL_JSON_PLAIN("length_mm", runnel_level_stroke, length_mm)};

static void put_text(json_t *object, const char *key, const char *text, bool *whole) {
    runnel_json_put(object, key, runnel_json_string(text), whole);
}

static void put_count(json_t *object, const char *key, size_t count, bool *whole) {
    runnel_json_put(object, key, json_integer((json_int_t)count), whole);
}

static json_t *taken_array(unsigned taken, bool *whole) {
    static const struct {
        runnel_levelling_taken bit;
        const char *key;
    } keys[] = {{RUNNEL_TAKEN_UNDER, "zero on"},
                {RUNNEL_TAKEN_PASS, "pass"},
                {RUNNEL_TAKEN_TAKE_OFF, "take off"},
                {RUNNEL_TAKEN_THIN, "thin"}};
    json_t *array = json_array();
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        if (taken & keys[i].bit)
            runnel_json_append(array, runnel_json_string(keys[i].key), whole);
    return array;
}

static json_t *level_object(const runnel_levelling_plan *levelling, bool *whole) {
    static const char *const words[] = {[RUNNEL_UNDER_NOTHING] = "wood",
                                        [RUNNEL_UNDER_PAPER] = "paper",
                                        [RUNNEL_UNDER_TAPE] = "tape",
                                        [RUNNEL_UNDER_MEASURED] = "measured"};
    json_t *object = json_object();
    put_text(object, "zero_on", words[levelling->under.what], whole);
    put_count(object, "zero_count", levelling->under.count, whole);
    RUNNEL_JSON_FIGURES(object, levelling, level_figures, whole);
    runnel_json_put(object, "veneer_mm",
                    runnel_json_number(levelling->veneer_mm > 0 ? levelling->veneer_mm : NAN),
                    whole);
    put_text(object, "source", levelling->standoff.source, whole);
    runnel_json_put(object, "taken", taken_array(levelling->taken, whole), whole);
    return object;
}

static json_t *crown_object(const runnel_levelling_plan *levelling, bool *whole) {
    json_t *object = json_object();
    put_count(object, "passes", levelling->steps.passes, whole);
    RUNNEL_JSON_FIGURES(object, levelling, crown_figures, whole);
    runnel_json_put(object, "veneer_left_mm",
                    runnel_json_number(levelling->veneer_mm > 0 ? levelling->veneer_left_mm : NAN),
                    whole);
    return object;
}

static json_t *stroke_array(const runnel_levelling_cavity *levelled, bool *whole) {
    json_t *array = json_array();
    for (size_t i = 0; i < levelled->stroke_count; i++) {
        json_t *object = json_object();
        put_text(object, "letter", levelled->strokes[i].letter, whole);
        put_count(object, "place", levelled->strokes[i].place, whole);
        RUNNEL_JSON_FIGURES(object, &levelled->strokes[i].stroke, stroke_figures, whole);
        runnel_json_append(array, object, whole);
    }
    return array;
}

static json_t *cavity_object(const runnel_levelling_cavity *levelled, bool *whole) {
    json_t *object = json_object();
    put_text(object, "name", levelled->planned->name, whole);
    put_text(object, "piece", levelled->planned->piece, whole);
    put_text(object, "colour", levelled->planned->colour, whole);
    put_count(object, "count", levelled->planned->piece_count, whole);
    runnel_json_put(object, "known", json_boolean(levelled->known), whole);
    if (!levelled->known)
        return object;
    RUNNEL_JSON_FIGURES(object, &levelled->figures, cavity_figures, whole);
    runnel_json_put(object, "dip_mm", runnel_json_number(levelled->dip_mm), whole);
    put_count(object, "gone", levelled->figures.gone_count, whole);
    runnel_json_put(object, "strokes", stroke_array(levelled, whole), whole);
    return object;
}

void runnel_json_put_levelling(json_t *root, const runnel_levelling_plan *levelling, bool *whole) {
    json_t *cavities = json_array();
    for (size_t i = 0; i < levelling->cavity_count; i++)
        runnel_json_append(cavities, cavity_object(&levelling->cavities[i], whole), whole);
    runnel_json_put(root, "level", level_object(levelling, whole), whole);
    runnel_json_put(root, "crown", crown_object(levelling, whole), whole);
    runnel_json_put(root, "cavities", cavities, whole);
}

/* What the document is made of. */
typedef struct levelled_job {
    const runnel_job *job;
    const runnel_levelling_plan *levelling;
} levelled_job;

static json_t *document(const void *from, bool *whole) {
    const levelled_job *of = from;
    json_t *root = json_object();
    runnel_json_put_job(root, of->job, whole);
    runnel_json_put_levelling(root, of->levelling, whole);
    runnel_json_put_cautions(
        root, RUNNEL_STEP_BIT(RUNNEL_STEP_LEVEL) | RUNNEL_STEP_BIT(RUNNEL_STEP_SAND), 0, whole);
    runnel_json_put_warnings(root, &of->levelling->plan, whole);
    return root;
}

runnel_status runnel_write_level_json(const runnel_job *job, const runnel_levelling_plan *levelling,
                                      FILE *out) {
    return runnel_json_write(document, &(levelled_job){job, levelling}, out);
}
