/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "comma.h"
#include "compare.h"
#include "failing.h"
#include "yaml_reading.h"

#include <check.h>
#include <stdlib.h>

/* The least that a job needs. */
#define LEAST "pieces:\n  - cavities:\n      - measured: 5 ml\n"

static runnel_job_cavity *cavity(size_t index) {
    return &job.pieces[0].cavities[index];
}

static void ck_reads(const char *text) {
    runnel_status status = read_text(text);
    ck_problem_count(0);
    ck_assert_int_eq(status, RUNNEL_OK);
}

START_TEST(least_of_a_job) {
    ck_reads(LEAST);
    ck_assert_str_eq(job.file, "orders/x.yaml");
    ck_assert_ptr_null(job.name);
    ck_assert_str_eq(job.resin.name, "table-top 2:1");
    ck_assert(job.resin_is_default && !job.resin_changed);
    ck_assert(job.scale_is_default && job.shop_is_default);
    ck_near(job.scale.step_g, 0.1, 0);
    ck_near(job.crown_mm, 0.4, 0);
    ck_assert_uint_eq(job.piece_count, 1);
    ck_assert_str_eq(job.pieces[0].name, "piece 1");
    ck_assert_uint_eq(job.pieces[0].count, 1);
    ck_assert_ptr_null(job.pieces[0].wood);
    ck_near(job.pieces[0].thickness_mm, 0, 0);
    ck_assert_uint_eq(job.pieces[0].line, 2);
    ck_assert_uint_eq(job.pieces[0].column, 5);
    ck_assert_uint_eq(cavity(0)->line, 3);
    ck_assert_uint_eq(cavity(0)->column, 9);
    ck_assert_str_eq(cavity(0)->name, "cavity 1");
    ck_assert_str_eq(cavity(0)->colour, "clear");
    ck_near(cavity(0)->measured_mm3, 5000, 1e-15);
}
END_TEST

/* ---- Each key of the job --------------------------------------------------------------------- */

START_TEST(keys_of_the_job) {
    ck_reads("job: bread boards\n"
             "resin: casting 3:1\n"
             "ratio: [\"100:44 by weight\", '2:1 by volume']\n"
             "scale: 0.01 g\n"
             "shop: {temperature: 68 °F, humidity: 55 %}\n"
             "crown: 1/16 in\n"
             "margin: 2 mm\n"
             "soak: 20 ml/m2\n"
             "sealed: yes\n"
             "reserve: 15 %\n"
             "cup: {diameter: 3 in, drain: 1.5 min, loss: 1/2 oz weight, brim: 250 ml}\n"
             "usable share: 55 %\n"
             "bridge: 1/8 in\n"
             "errors: {depth: 0.05 mm, angle: 0.5 deg, flatness: 0.4 mm, soak: 30 %}\n"
             "size to: likely\n"
             "floor: 0.5 cm\n"
             "tolerance: 0.002 mm\n"
             "colours: {red: 2 %, dark blue: {tint: 3.5 %}, amber: {}}\n" LEAST);
    ck_assert_str_eq(job.name, "bread boards");
    ck_assert_str_eq(job.resin.name, "casting 3:1");
    ck_assert(!job.resin_is_default && job.resin_changed);
    ck_assert_int_eq(job.resin.ratio.basis, RUNNEL_BASIS_WEIGHT);
    ck_near(job.resin.ratio.part_a, 100, 0);
    ck_near(job.resin.ratio.part_b, 44, 0);
    ck_assert_int_eq(job.other_ratio.basis, RUNNEL_BASIS_VOLUME);
    ck_near(job.other_ratio.part_a, 2, 0);
    ck_near(job.scale.step_g, 0.01, 0);
    ck_assert(!job.scale_is_default && !job.shop_is_default);
    ck_near(job.shop_degc, 20, 1e-14); /* (68 - 32) 5/9 */
    ck_near(job.humidity, 0.55, 1e-15);
    ck_near(job.crown_mm, 1.5875, 1e-15); /* 25.4/16 */
    ck_near(job.margin_mm, 2, 0);
    ck_near(job.soak_mm, 0.02, 1e-15); /* 20 cm3 on 1e6 mm2 */
    ck_assert(job.sealed);
    ck_near(job.reserve, 0.15, 1e-15);
    ck_near(job.cup.diameter_mm, 76.2, 1e-15);
    ck_near(job.cup.drain_s, 90, 0);
    ck_near(job.cup.fixed_loss_g, 14.1747615625, 1e-15); /* 28.349523125/2 */
    ck_near(job.brim_mm3, 250000, 1e-15);
    ck_near(job.usable_share, 0.55, 1e-15);
    ck_near(job.bridge_mm, 3.175, 1e-15);
    ck_near(job.errors.depth_mm, 0.05, 0);
    ck_near(job.errors.angle_deg, 0.5, 0);
    ck_near(job.errors.flatness_mm, 0.4, 0);
    ck_near(job.errors.soak, 0.3, 1e-15);
    ck_assert(!job.errors_are_default);
    ck_assert_int_eq(job.size_to, RUNNEL_SIZE_LIKELY);
    ck_near(job.floor_mm, 5, 0);
    ck_near(job.flatten_mm, 0.002, 0);
    ck_assert_uint_eq(job.colour_count, 4); /* the cavity is clear */
    ck_assert_str_eq(job.colours[1].name, "dark blue");
    ck_near(job.colours[0].tint, 0.02, 1e-15);
    ck_near(job.colours[1].tint, 0.035, 1e-15);
    ck_assert(job.colours[2].tint < 0);
}
END_TEST

START_TEST(keys_of_the_resin) {
    ck_reads("resin:\n"
             "  row: casting 3:1\n"
             "  ratio: [3:1 by volume, 100:27 by weight]\n"
             "  density a: 1.15 g/ml\n"
             "  density b: 950 kg/m3\n"
             "  viscosity: 600 mPa s\n"
             "  shrinkage: 3 %\n"
             "  stated temperature: 77 °F\n"
             "  lowest temperature: 12 °C\n"
             "  pot life: 45 min\n"
             "  pot mass: 0.1 kg\n"
             "  gel: 4 h\n"
             "  recoat from: 5 h\n"
             "  recoat until: 12 h\n"
             "  sandable: 1 day\n"
             "  full cure: 2 weeks\n"
             "  deepest layer: 1 in\n"
             "  largest mass: 2 kg\n"
             "  ratio tolerance: 2 %\n"
             "  tint default: 1 %\n"
             "  tint cap: 4 %\n"
             "  activation energy: 50.5 kJ/mol\n"
             "  heat of reaction: 366.5 J/g\n" LEAST);
    const runnel_resin *resin = &job.resin;
    ck_assert_str_eq(resin->name, "casting 3:1");
    ck_assert(!job.resin_is_default && job.resin_changed);
    ck_near(resin->ratio.part_a, 3, 0);
    ck_assert_int_eq(resin->ratio.basis, RUNNEL_BASIS_VOLUME);
    ck_near(job.other_ratio.part_b, 27, 0);
    ck_near(resin->density_a_g_per_ml, 1.15, 1e-15);
    ck_near(resin->density_b_g_per_ml, 0.95, 1e-15);
    ck_near(resin->viscosity_pa_s, 0.6, 1e-15);
    ck_near(resin->shrinkage, 0.03, 1e-15);
    ck_near(resin->stated_degc, 25, 1e-14); /* (77 - 32) 5/9 */
    ck_near(resin->lowest_degc, 12, 0);
    ck_near(resin->pot_life_s, 2700, 0);
    ck_near(resin->pot_mass_g, 100, 1e-15);
    ck_near(resin->gel_s, 14400, 0);
    ck_near(resin->recoat_from_s, 18000, 0);
    ck_near(resin->recoat_until_s, 43200, 0);
    ck_near(resin->sandable_s, 86400, 0);
    ck_near(resin->full_cure_s, 1209600, 0);
    ck_near(resin->deepest_layer_mm, 25.4, 0);
    ck_near(resin->largest_mass_g, 2000, 0);
    ck_near(resin->ratio_tolerance, 0.02, 1e-15);
    ck_near(resin->tint_default, 0.01, 1e-15);
    ck_near(resin->tint_cap, 0.04, 1e-15);
    ck_near(resin->activation_kj_per_mol, 50.5, 0);
    ck_near(resin->reaction_j_per_g, 366.5, 0);
}
END_TEST

/* A resin without a row stands over the default one; a ratio is written in one place only. */
START_TEST(resin_without_a_row) {
    ck_reads("resin: {density a: 1.1 g/ml}\n" LEAST);
    ck_assert_str_eq(job.resin.name, "table-top 2:1");
    ck_assert(job.resin_is_default && job.resin_changed);
    ck_near(job.resin.density_a_g_per_ml, 1.1, 1e-15);
    ck_near(job.resin.density_b_g_per_ml, 0.95, 0);
}
END_TEST

START_TEST(keys_of_the_scale) {
    ck_reads("scale: {step: 1 g, accuracy: 0.5 %, counts: 2}\n" LEAST);
    ck_near(job.scale.step_g, 1, 0);
    ck_near(job.scale.accuracy_percent, 0.5, 1e-15);
    ck_near(job.scale.accuracy_counts, 2, 0);
    ck_assert(!job.scale_is_default);
    ck_reads("scale: {counts: 2}\n" LEAST);
    ck_assert(job.scale_is_default); /* its step */
    ck_near(job.scale.step_g, 0.1, 0);
}
END_TEST

START_TEST(humidity_alone) {
    ck_reads("shop: {humidity: 40 %}\n" LEAST);
    ck_assert(job.shop_is_default); /* its temperature */
    ck_near(job.shop_degc, 20, 0);
}
END_TEST

/* ---- Pieces and cavities --------------------------------------------------------------------- */

START_TEST(keys_of_a_piece) {
    ck_reads("pieces:\n"
             "- name: board\n"
             "  wood: White_Oak\n"
             "  size: 12 in x 8 in x 3/4 in\n"
             "  count: 24\n"
             "  pour time: 1 min 20 s\n"
             "  cavities: [{measured: 5 ml}]\n"
             "- cavities: [{measured: 5 ml}, {measured: 1 cm3, pour time: 40 s}]\n");
    ck_assert_str_eq(job.pieces[0].name, "board");
    ck_assert_str_eq(job.pieces[0].wood, "White_Oak");
    ck_near(job.pieces[0].length_mm, 304.8, 1e-15);
    ck_near(job.pieces[0].width_mm, 203.2, 1e-15);
    ck_near(job.pieces[0].thickness_mm, 19.05, 1e-15);
    ck_assert_uint_eq(job.pieces[0].count, 24);
    ck_near(job.pieces[0].pour_s, 80, 0);
    ck_near(job.pieces[0].cavities[0].pour_s, 0, 0);
    ck_near(job.pieces[1].pour_s, 0, 0);
    ck_near(job.pieces[1].cavities[1].pour_s, 40, 0);
    ck_assert_str_eq(job.pieces[1].name, "piece 2");
    ck_assert_uint_eq(job.pieces[1].cavity_count, 2);
    ck_assert_uint_eq(job.pieces[1].line, 8);
    ck_assert_uint_eq(job.pieces[1].column, 3);
    ck_assert_uint_eq(job.pieces[1].cavities[1].line, 8);
    ck_assert_uint_eq(job.pieces[1].cavities[1].column, 32);
}
END_TEST

START_TEST(keys_of_a_text) {
    ck_reads("pieces:\n"
             "- cavities:\n"
             "  - name: words\n"
             "    text: |\n"
             "      Rye\n"
             "      & Salt\n"
             "\n"
             "    font: EB Garamond:Bold\n"
             "    axes: wght=600\n"
             "    cap height: 38 mm\n"
             "    letter spacing: -0.5 mm\n"
             "    line spacing: 1.25\n"
             "    align: end\n"
             "    cutter: v-60\n"
             "    depth limit: 4 mm\n"
             "    colour: red\n"
             "  - text: Zoë\n"
             "    single-line: scripts\n"
             "    text height: 12 mm\n"
             "    cutter: v 30 deg\n"
             "    depth: 1.2 mm\n");
    const runnel_job_cavity *words = cavity(0), *line = cavity(1);
    ck_assert_str_eq(words->name, "words");
    ck_assert_str_eq(words->text, "Rye\n& Salt");
    ck_assert_str_eq(words->font, "EB Garamond:Bold");
    ck_assert_str_eq(words->axes, "wght=600");
    ck_assert(!words->single_line);
    ck_near(words->cap_height_mm, 38, 0);
    ck_near(words->spacing_mm, -0.5, 0);
    ck_near(words->line_spacing, 1.25, 0);
    ck_assert_int_eq(words->align, RUNNEL_ALIGN_END);
    ck_assert_int_eq(words->cut.cutter.kind, RUNNEL_CUTTER_V);
    ck_near(words->cut.cutter.tip_mm, 0.2, 0); /* of the row */
    ck_assert_str_eq(words->cutter_name, "v-60");
    ck_near(words->depth_limit_mm, 4, 0);
    ck_near(words->cut.depth_mm, 4, 0);
    ck_assert_int_eq(words->cut.rule, RUNNEL_CUT_WALLS);
    ck_assert_str_eq(words->colour, "red");
    ck_assert_str_eq(line->text, "Zo\xC3\xAB");
    ck_assert_str_eq(line->font, "scripts");
    ck_assert(line->single_line);
    ck_near(line->text_height_mm, 12, 0);
    ck_near(line->cut.cutter.angle_deg, 30, 0);
    ck_assert_int_eq(line->cut.rule, RUNNEL_CUT_PATH);
    ck_near(line->cut.depth_mm, 1.2, 0);
}
END_TEST

START_TEST(keys_of_other_shapes) {
    ck_reads("pieces:\n"
             "- cavities:\n"
             "  - outline: rectangle 60 x 40 mm\n"
             "    cutter: flat-6mm\n"
             "    depth: 3 mm\n"
             "    at: 20 x 3 cm\n"
             "  - path: line 0,0 100,0 mm\n"
             "    cutter: round-nose radius 3 mm\n"
             "    depth: 2 mm\n"
             "  - measured: 18 g\n"
             "    footprint: 4 cm2\n"
             "    wall area: 11 cm2\n"
             "    deepest: 2 cm\n");
    ck_assert_int_eq(cavity(0)->source, RUNNEL_SOURCE_OUTLINE);
    ck_assert_int_eq(cavity(0)->form.kind, RUNNEL_FORM_RECTANGLE);
    ck_near(cavity(0)->form.a_mm, 60, 0);
    ck_near(cavity(0)->form.b_mm, 40, 0);
    ck_assert_int_eq(cavity(0)->cut.rule, RUNNEL_CUT_POCKET);
    ck_near(cavity(0)->cut.depth_mm, 3, 0);
    ck_assert(cavity(0)->is_placed && !cavity(1)->is_placed);
    ck_near(cavity(0)->at_x_mm, 200, 0);
    ck_near(cavity(0)->at_y_mm, 30, 0);
    ck_assert_int_eq(cavity(1)->source, RUNNEL_SOURCE_PATH);
    ck_assert_int_eq(cavity(1)->form.kind, RUNNEL_FORM_LINE);
    ck_near(cavity(1)->cut.cutter.radius_mm, 3, 0);
    ck_assert_int_eq(cavity(2)->source, RUNNEL_SOURCE_MEASURED);
    ck_near(cavity(2)->measured_mm3, 18032.331971224405, 1e-14); /* 18 / 0.998207 */
    ck_near(cavity(2)->measured_footprint_mm2, 400, 1e-15);
    ck_near(cavity(2)->measured_wall_mm2, 1100, 1e-15);
    ck_near(cavity(2)->measured_deepest_mm, 20, 0);
}
END_TEST

/* A font that is a file is looked for beside the job; a family is no file. */
static const struct {
    const char *written, *kept;
} fonts[] = {
    {"fonts/house.otf", "orders/fonts/house.otf"},
    {"house.TTF", "orders/house.TTF"},
    {"house.ttc#2", "orders/house.ttc#2"},
    {"./house", "orders/./house"},
    {"house #2.ttf", "orders/house #2.ttf"}, /* no index, which is digits only */
    {"own.jhf", "orders/own.jhf"},
    {"/usr/share/house.ttf", "/usr/share/house.ttf"},
    {"house.ttf#two", "house.ttf#two"},
    {"EB Garamond", "EB Garamond"},
    {"Otf", "Otf"},
};

START_TEST(font_beside_the_job) {
    char text[300];
    snprintf(text, sizeof text,
             "pieces: [{cavities: [{text: A, font: '%s', cap height: 9 mm, cutter: v-60}]}]",
             fonts[_i].written);
    ck_reads(text);
    ck_assert_str_eq(cavity(0)->font, fonts[_i].kept);
}
END_TEST

START_TEST(font_without_a_folder) {
    const char text[] =
        "pieces: [{cavities: [{text: A, font: a.ttf, cap height: 9 mm, cutter: v-60}]}]";
    ck_assert_int_eq(runnel_job_read_yaml(text, strlen(text), "-", job_tables(), &problems, &job),
                     RUNNEL_OK);
    ck_assert_str_eq(cavity(0)->font, "a.ttf");
}
END_TEST

/* ---- Ways of writing ------------------------------------------------------------------------- */

static const char *const spellings[] = {
    "pieces: [{cavities: [{measured: 5 ml, wall area: 1100 mm2}]}]",
    "pieces: [{cavities: [{measured: 5 ml, wall_area: 1100 mm2}]}]",
    "pieces: [{cavities: [{measured: 5 ml, wall-area: 1100 mm2}]}]",
    "pieces: [{cavities: [{measured: 5 ml, 'wall - area': 1100 mm2}]}]",
    "pieces: [{cavities: [{measured: 5 ml, \"wall  area\": \"1100 mm2\"}]}]",
    "{pieces: [{cavities: [{measured: '5 ml', ? wall area : 1100 mm2}]}]}",
    "%YAML 1.2\n---\npieces:\n- cavities:\n  - measured: 5\n     ml\n    wall area: 1100 mm2\n...",
    "\xEF\xBB\xBFpieces: [{cavities: [{measured: 5 ml, wall area: 1100 mm2}]}]",
    "pieces:\r\n- cavities:\r\n  - measured: 5 ml\r\n    wall area: 1100 mm2\r\n",
    "# only here\npieces: [{cavities: [{measured: 5 ml, wall area: 1100 mm2}]}] # and here",
    "pieces:\n- cavities:\n  - measured: >\n      5\n      ml\n    wall area: |\n      1100 mm2\n",
};

START_TEST(spelling) {
    ck_reads(spellings[_i]);
    ck_near(cavity(0)->measured_mm3, 5000, 1e-15);
    ck_near(cavity(0)->measured_wall_mm2, 1100, 1e-15);
}
END_TEST

static const struct {
    const char *word;
    bool sealed;
} flags[] = {{"yes", true}, {"no", false}, {"true", true}, {"False", false}, {"YES", true}};

START_TEST(flag) {
    char text[100];
    snprintf(text, sizeof text, "sealed: %s\n" LEAST, flags[_i].word);
    ck_reads(text);
    ck_assert_int_eq(job.sealed, flags[_i].sealed);
}
END_TEST

START_TEST(references) {
    ck_reads("crown: &thick 1 mm\n"
             "floor: *thick\n"
             "pieces:\n"
             "- name: one\n"
             "  cavities: &same\n"
             "  - &hole {measured: 5 ml, name: a}\n"
             "  - {measured: 6 ml}\n"
             "- name: two\n"
             "  cavities: *same\n"
             "- cavities: [*hole]\n");
    ck_near(job.floor_mm, 1, 0);
    ck_assert_uint_eq(job.pieces[1].cavity_count, 2);
    ck_near(job.pieces[1].cavities[1].measured_mm3, 6000, 1e-15);
    ck_assert_str_eq(job.pieces[2].cavities[0].name, "a");
}
END_TEST

/* ---- Around reading -------------------------------------------------------------------------- */

START_TEST(a_job_takes_the_place_of_another) {
    ck_reads("job: first\ncolours: {red: 2 %}\n" LEAST);
    ck_reads("job: second\n" LEAST);
    ck_assert_str_eq(job.name, "second");
    ck_assert_uint_eq(job.colour_count, 1); /* clear */
    runnel_job before = job;
    ck_assert_int_eq(read_text("job: third\n"), RUNNEL_E_MISSING);
    ck_assert_mem_eq(&before, &job, sizeof job);
    ck_assert_int_eq(runnel_job_read_yaml("a", 1, "x", job_tables(), NULL, &job), RUNNEL_E_SYNTAX);
    ck_assert_mem_eq(&before, &job, sizeof job);
}
END_TEST

START_TEST(an_accepted_job_passes_again) {
    ck_reads("colours: {red: 2 %}\n" LEAST);
    ck_assert_int_eq(runnel_job_check(&job, job_tables(), &problems), RUNNEL_OK);
    ck_problem_count(0);
}
END_TEST

/* Whatever locale the program is in. */
START_TEST(no_locale_in_the_way) {
    comma_begin();
    ck_reads("crown: 1.5 mm\nscale: {step: 0.1 g, counts: 1.5}\n" LEAST);
    ck_near(job.crown_mm, 1.5, 0);
    ck_near(job.scale.accuracy_counts, 1.5, 0);
    ck_assert_int_eq(read_text("crown: 10.5 mm\n" LEAST), RUNNEL_E_RANGE);
    ck_problem(0, RUNNEL_E_RANGE, 1, 8, "crown",
               "'10.5 mm' is out of range: 'crown' must be 0 mm to 10 mm");
    comma_end();
}
END_TEST

/* ---- Want of memory -------------------------------------------------------------------------- */

static const char *const sweeps[] = {
    ("job: all\nresin: {row: casting 3:1, ratio: [3:1 by volume, 100:27 by weight]}\n"
     "colours: {red: 2 %, blue: {tint: 3 %}}\npieces:\n- name: a\n  wood: hard maple\n"
     "  size: 300 x 200 x 25 mm\n  cavities:\n  - {text: A, font: b/a.ttf, cap height: 9 mm, "
     "cutter: &c v-60, colour: red}\n  - {measured: 3 g}\n  - {outline: circle 40 mm, cutter: "
     "*c}\n"),
    ("job: [a]\nresin: nothing\nfoo: 1\npieces:\n- name: a\n  wood: maple\n  cavities:\n  - {text: "
     "A, font: a.ttf, cap height: 9 m, cutter: v-61}\n  - {measured: 3}\n"),
    "pieces: [\n",
};

/* Reads with a failure at call after call (and from it on), until none happens. Only our own
 * memory fails: the YAML library asks for its own. */
START_TEST(memory_runs_out) {
    static const runnel_status last[] = {RUNNEL_OK, RUNNEL_E_SYNTAX, RUNNEL_E_SYNTAX};
    const char *text = sweeps[_i / 2];
    bool failed = true;
    size_t fail_at = 0;
    for (; failed; fail_at++) {
        failing count = {.fail_at = fail_at, .for_good = _i % 2};
        start_failing(&count);
        runnel_job made;
        runnel_problems told;
        runnel_job_init(&made);
        runnel_problems_init(&told);
        runnel_job before = made;
        runnel_status status =
            runnel_job_read_yaml(text, strlen(text), "x.yaml", job_tables(), &told, &made);
        failed = count.calls > fail_at;
        /* A single failure where only a hint in a message hung on it may pass. */
        ck_assert_msg(status == last[_i / 2] || (failed && status == RUNNEL_E_NO_MEMORY),
                      "call %zu: %s", fail_at, runnel_status_name(status));
        if (status)
            ck_assert_mem_eq(&before, &made, sizeof made);
        runnel_job_clear(&made);
        runnel_problems_clear(&told);
        ck_assert_msg(count.alive == 0, "call %zu: %zu blocks left", fail_at, count.alive);
        runnel_set_allocator(NULL);
    }
    ck_assert_uint_gt(fail_at, 5);
}
END_TEST

/* ---- Running --------------------------------------------------------------------------------- */

#define COUNT(table) (int)(sizeof(table) / sizeof *(table))

static Suite *suite(void) {
    Suite *suite = suite_create("yaml");
    TCase *reading = tcase_create("reading");
    tcase_add_checked_fixture(reading, setup, teardown);
    tcase_set_timeout(reading, 60); /* under memcheck */
    tcase_add_test(reading, least_of_a_job);
    tcase_add_test(reading, keys_of_the_job);
    tcase_add_test(reading, keys_of_the_resin);
    tcase_add_test(reading, resin_without_a_row);
    tcase_add_test(reading, keys_of_the_scale);
    tcase_add_test(reading, humidity_alone);
    tcase_add_test(reading, keys_of_a_piece);
    tcase_add_test(reading, keys_of_a_text);
    tcase_add_test(reading, keys_of_other_shapes);
    tcase_add_loop_test(reading, font_beside_the_job, 0, COUNT(fonts));
    tcase_add_test(reading, font_without_a_folder);
    tcase_add_loop_test(reading, spelling, 0, COUNT(spellings));
    tcase_add_loop_test(reading, flag, 0, COUNT(flags));
    tcase_add_test(reading, references);
    tcase_add_test(reading, a_job_takes_the_place_of_another);
    tcase_add_test(reading, an_accepted_job_passes_again);
    tcase_add_test(reading, no_locale_in_the_way);
    tcase_add_loop_test(reading, memory_runs_out, 0, 2 * COUNT(sweeps));
    suite_add_tcase(suite, reading);
    return suite;
}

int main(void) {
    SRunner *runner = srunner_create(suite());
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
