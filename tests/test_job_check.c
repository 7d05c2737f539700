/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/memory.h"
#include "compare.h"
#include "job/fields.h"
#include "job_tables.h"
#include "runnel/job.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static runnel_job job;
static runnel_problems problems;
static const runnel_spot spot = {0, 0};

static runnel_job_piece *piece(void) {
    return &job.pieces[0];
}

static runnel_job_cavity *cavity(void) {
    return &job.pieces[0].cavities[0];
}

static void put(char **where, const char *text) {
    runnel_free(*where);
    *where = runnel_copy_text(text);
    ck_assert_ptr_nonnull(*where);
}

static void add_cavity(void) {
    runnel_job_cavity *made;
    ck_assert_int_eq(runnel_job_add_cavity(piece(), &made), RUNNEL_OK);
    made->source = RUNNEL_SOURCE_OUTLINE;
    made->form = (runnel_form){.kind = RUNNEL_FORM_CIRCLE, .a_mm = 40};
    made->cut.cutter = (runnel_cutter){RUNNEL_CUTTER_V, 60, 0, 0};
}

static void add_piece(void) {
    runnel_job_piece *made;
    ck_assert_int_eq(runnel_job_add_piece(&job, &made), RUNNEL_OK);
}

/* A sound job of one piece with one outline that a V cutter follows, as from the command line. */
static void setup(void) {
    runnel_job_init(&job);
    runnel_problems_init(&problems);
    add_piece();
    add_cavity();
    ck_assert_int_eq(runnel_job_set_resin(&job, NULL, job_tables(), NULL, NULL), RUNNEL_OK);
}

static void teardown(void) {
    runnel_job_clear(&job);
    runnel_problems_clear(&problems);
}

static runnel_status check(void) {
    return runnel_job_check(&job, job_tables(), &problems);
}

/* ---- One problem after another --------------------------------------------------------------- */

static void as_text(void) {
    runnel_job_cavity *it = cavity();
    it->source = RUNNEL_SOURCE_TEXT;
    put(&it->text, "RYE");
    put(&it->font, "EB Garamond");
    it->cap_height_mm = 38;
}

static void as_path(void) {
    cavity()->source = RUNNEL_SOURCE_PATH;
    cavity()->depth_mm = 2;
}

static void as_pocket(void) {
    cavity()->cut.cutter = (runnel_cutter){RUNNEL_CUTTER_FLAT, 0, 0, 3};
    cavity()->depth_mm = 2;
}

static void as_measured(void) {
    cavity()->source = RUNNEL_SOURCE_MEASURED;
    cavity()->measured_mm3 = 18000;
    cavity()->cut.cutter.kind = RUNNEL_CUTTER_NONE;
}

static void no_piece(void) {
    runnel_job_clear(&job);
    runnel_job_init(&job);
}
static void no_cavity(void) {
    add_piece();
}
static void no_source(void) {
    cavity()->source = RUNNEL_SOURCE_NONE;
}
static void no_text(void) {
    as_text();
    put(&cavity()->text, "");
}
static void no_font(void) {
    as_text();
    runnel_free(cavity()->font);
    cavity()->font = NULL;
}
static void no_height(void) {
    as_text();
    cavity()->cap_height_mm = 0;
}
static void two_heights(void) {
    as_text();
    cavity()->text_height_mm = 50;
}
static void no_cutter(void) {
    cavity()->cut.cutter.kind = RUNNEL_CUTTER_NONE;
}
static void wide_cutter(void) {
    cavity()->cut.cutter.angle_deg = 180;
}
static void thin_cutter(void) {
    as_pocket();
    cavity()->cut.cutter.radius_mm = 0;
}
static void v_with_depth(void) {
    cavity()->depth_mm = 4;
}
static void text_v_with_depth(void) {
    as_text();
    v_with_depth();
}
static void pocket_without_depth(void) {
    as_pocket();
    cavity()->depth_mm = 0;
}
static void pocket_with_limit(void) {
    pocket_without_depth();
    cavity()->depth_limit_mm = 4;
}
static void path_without_depth(void) {
    as_path();
    cavity()->depth_mm = 0;
}
static void path_with_limit(void) {
    as_path();
    cavity()->depth_limit_mm = 4;
}
static void single_line_without_depth(void) {
    as_text();
    cavity()->single_line = true;
}
static void through_the_piece(void) {
    as_path();
    piece()->length_mm = piece()->width_mm = 100;
    piece()->thickness_mm = 12.5;
    cavity()->depth_mm = 12.5;
}
static void font_of_outline(void) {
    put(&cavity()->font, "EB Garamond");
}
static void set_of_path(void) {
    as_path();
    put(&cavity()->font, "rowmans");
    cavity()->single_line = true;
}
static void height_of_path(void) {
    as_path();
    cavity()->cap_height_mm = 5;
}
static void align_of_outline(void) {
    cavity()->align = RUNNEL_ALIGN_CENTRE;
}
static void cutter_of_measured(void) {
    as_measured();
    cavity()->cut.cutter.kind = RUNNEL_CUTTER_V;
}
static void footprint_of_outline(void) {
    cavity()->measured_footprint_mm2 = 5;
}
static void nothing_measured(void) {
    as_measured();
    cavity()->measured_mm3 = 0;
}
static void no_form(void) {
    cavity()->form.kind = RUNNEL_FORM_NONE;
}
static void line_as_outline(void) {
    cavity()->form.kind = RUNNEL_FORM_LINE;
}
static void huge_form(void) {
    cavity()->form.a_mm = 10001;
}
static void strange_wood(void) {
    put(&piece()->wood, "hard mapel");
}
static void unheard_wood(void) {
    put(&piece()->wood, "granite");
}
static void size_of_two(void) {
    piece()->length_mm = piece()->width_mm = 100;
}
static void two_pieces_of_a_name(void) {
    runnel_job_cavity *made;
    add_piece(); /* nobody named it, so it would be "piece 2" */
    ck_assert_int_eq(runnel_job_add_cavity(&job.pieces[1], &made), RUNNEL_OK);
    *made = (runnel_job_cavity){.source = RUNNEL_SOURCE_MEASURED, .measured_mm3 = 1};
    put(&piece()->name, "piece 2");
}
static void two_cavities_of_a_name(void) {
    add_cavity();
    put(&piece()->cavities[0].name, "rim");
    put(&piece()->cavities[1].name, "rim");
}
static void ratio_without_basis(void) {
    job.resin.ratio.basis = RUNNEL_BASIS_NONE;
}
static void ratio_of_nothing(void) {
    job.resin.ratio.part_b = 0;
}
static void two_ratios_of_a_basis(void) {
    job.other_ratio = (runnel_ratio){100, 41, RUNNEL_BASIS_VOLUME};
}
static void times_without_temperature(void) {
    job.resin.stated_degc = NAN;
}
static void pot_life_without_mass(void) {
    job.resin.pot_mass_g = NAN;
}
static void recoat_backwards(void) {
    job.resin.recoat_until_s = 3600;
}

static const struct {
    void (*spoil)(void);
    runnel_status status;
    const char *field, *text;
} spoilt[] = {
    {no_piece, RUNNEL_E_MISSING, "--pieces",
     "the job has no piece; list at least one under 'pieces'"},
    {no_cavity, RUNNEL_E_MISSING, "--cavities",
     "the piece has no cavity; list at least one under 'cavities'"},
    {no_source, RUNNEL_E_MISSING, "--text",
     "the cavity has no shape; give one of 'text', 'outline', 'path' and 'measured'"},
    {no_text, RUNNEL_E_MISSING, "--text", "the text is empty"},
    {no_font, RUNNEL_E_MISSING, "--font",
     "a text needs a 'font', or 'single-line' with a set of single-line letters"},
    {no_height, RUNNEL_E_MISSING, "--cap-height",
     "a text needs a 'cap height' (of its capital H) or a 'text height' (of all its ink)"},
    {two_heights, RUNNEL_E_CONFLICT, "--text-height",
     "'cap height' and 'text height' are both given; give one of them"},
    {no_cutter, RUNNEL_E_MISSING, "--cutter",
     "a 'cutter' is needed: a name from 'runnel list cutters', or one written out, such as "
     "'v 60 deg'"},
    {wide_cutter, RUNNEL_E_RANGE, "--cutter",
     "the cutter is out of range: an angle must be above 0 deg and below 180 deg, a tip from "
     "0 mm to 500 mm, a radius above 0 and at most 500 mm"},
    {thin_cutter, RUNNEL_E_RANGE, "--cutter",
     "the cutter is out of range: an angle must be above 0 deg and below 180 deg, a tip from "
     "0 mm to 500 mm, a radius above 0 and at most 500 mm"},
    {v_with_depth, RUNNEL_E_CONFLICT, "--depth",
     "a V cutter goes as deep as the walls of an outline are apart, so it has no 'depth'; write "
     "'depth limit' for the deepest that it may go"},
    {text_v_with_depth, RUNNEL_E_CONFLICT, "--depth",
     "a V cutter goes as deep as the walls of an outline are apart, so it has no 'depth'; write "
     "'depth limit' for the deepest that it may go"},
    {pocket_without_depth, RUNNEL_E_MISSING, "--depth",
     "a round-nose or flat cutter clears an outline to one depth; give the 'depth'"},
    {pocket_with_limit, RUNNEL_E_CONFLICT, "--depth-limit",
     "'depth limit' is for a V cutter; for a round-nose or flat cutter write 'depth'"},
    {path_without_depth, RUNNEL_E_MISSING, "--depth",
     "a cutter that follows a path needs a 'depth'"},
    {path_with_limit, RUNNEL_E_CONFLICT, "--depth-limit",
     "'depth limit' is for a V cutter between the walls of an outline; along a path write "
     "'depth'"},
    {single_line_without_depth, RUNNEL_E_MISSING, "--depth",
     "a cutter that follows a path needs a 'depth'"},
    {through_the_piece, RUNNEL_E_RANGE, "--depth",
     "'depth' 12.5 mm would cut through the piece, which is 12.5 mm thick"},
    {font_of_outline, RUNNEL_E_CONFLICT, "--font", "'font' does not go with 'outline'"},
    {set_of_path, RUNNEL_E_CONFLICT, "--single-line", "'single-line' does not go with 'path'"},
    {height_of_path, RUNNEL_E_CONFLICT, "--cap-height", "'cap height' does not go with 'path'"},
    {align_of_outline, RUNNEL_E_CONFLICT, "--align", "'align' does not go with 'outline'"},
    {cutter_of_measured, RUNNEL_E_CONFLICT, "--cutter", "'cutter' does not go with 'measured'"},
    {footprint_of_outline, RUNNEL_E_CONFLICT, "--footprint",
     "'footprint' does not go with 'outline'"},
    {nothing_measured, RUNNEL_E_RANGE, "--measured",
     "'0 ml' is out of range: 'measured' must be above 0 and at most 1000 L"},
    {no_form, RUNNEL_E_SHAPE, "--outline", "the shape is not one that can be cut as 'outline'"},
    {line_as_outline, RUNNEL_E_SHAPE, "--outline",
     "the shape is not one that can be cut as 'outline'"},
    {huge_form, RUNNEL_E_RANGE, "--outline",
     "the shape is out of range: its sizes must be above 0 and at most 10 m"},
    {strange_wood, RUNNEL_E_UNKNOWN, "--wood",
     "no wood is called 'hard mapel'; the nearest name is 'hard maple'"},
    {unheard_wood, RUNNEL_E_UNKNOWN, "--wood",
     "no wood is called 'granite'; 'runnel list woods' shows the names"},
    {size_of_two, RUNNEL_E_RANGE, "--size",
     "'0 mm' is out of range: 'size' must be above 0 and at most 10 m each way"},
    {two_pieces_of_a_name, RUNNEL_E_CONFLICT, "--name",
     "two pieces are called 'piece 2'; each needs a name of its own"},
    {two_cavities_of_a_name, RUNNEL_E_CONFLICT, "--name",
     "two cavities of the piece are called 'rim'; each needs a name of its own"},
    {ratio_without_basis, RUNNEL_E_UNIT, "--ratio",
     "the ratio has no basis; write 'by volume' or 'by weight' after it"},
    {ratio_of_nothing, RUNNEL_E_RANGE, "--ratio", "both parts of a ratio must be above 0"},
    {two_ratios_of_a_basis, RUNNEL_E_CONFLICT, "--ratio",
     "both ratios have the same basis; give one, or one by volume and one by weight"},
    {times_without_temperature, RUNNEL_E_MISSING, "--stated-temperature",
     "the times of the resin need the 'stated temperature' that they hold at"},
    {pot_life_without_mass, RUNNEL_E_MISSING, "--pot-mass",
     "a 'pot life' needs the 'pot mass' that it was stated for"},
    {recoat_backwards, RUNNEL_E_CONFLICT, "--recoat-until",
     "'recoat until' is earlier than 'recoat from'"},
};

START_TEST(one_problem) {
    spoilt[_i].spoil();
    runnel_job before = job;
    ck_assert_int_eq(check(), spoilt[_i].status);
    ck_assert_mem_eq(&before, &job, sizeof job);
    for (size_t i = 1; i < problems.count; i++)
        ck_assert_msg(0, "one more: %s: %s", problems.items[i].field, problems.items[i].text);
    ck_assert_uint_eq(problems.count, 1);
    ck_assert_int_eq(problems.items[0].status, spoilt[_i].status);
    ck_assert_str_eq(problems.items[0].file, "command line");
    ck_assert_uint_eq(problems.items[0].line, 0);
    ck_assert_str_eq(problems.items[0].field, spoilt[_i].field);
    ck_assert_str_eq(problems.items[0].text, spoilt[_i].text);
    ck_assert_int_eq(runnel_job_check(&job, job_tables(), NULL), spoilt[_i].status);
}
END_TEST

/* ---- Ranges ---------------------------------------------------------------------------------- */

/* The least and the most that a value may be, inside units, and whether the least is still too
 * small. Those of the specification are: a crown of 0 to 10 mm, shares of 0 to 100 %, 0 to 20 % of
 * tint and shrinkage, -30 to 60 degC in the shop, sizes up to 10 m, 1 to 100000 pieces. */
static const struct {
    runnel_field_id id;
    void (*prepare)(void);
    double least, most;
    bool open;
} ranges[] = {
    {RUNNEL_FIELD_CROWN, NULL, 0, 10, false},
    {RUNNEL_FIELD_MARGIN, NULL, 0, 100, false},
    {RUNNEL_FIELD_RESERVE, NULL, 0, 1, false},
    {RUNNEL_FIELD_FLOOR, NULL, 0, 1000, false},
    {RUNNEL_FIELD_TOLERANCE, NULL, 0.00001, 1, false},
    {RUNNEL_FIELD_DENSITY_A, NULL, 0.5, 5, false},
    {RUNNEL_FIELD_DENSITY_B, NULL, 0.5, 5, false},
    {RUNNEL_FIELD_VISCOSITY, NULL, 0, 1000, true},
    {RUNNEL_FIELD_SHRINKAGE, NULL, 0, 0.2, false},
    {RUNNEL_FIELD_STATED, NULL, -30, 100, false},
    {RUNNEL_FIELD_LOWEST, NULL, -30, 100, false},
    {RUNNEL_FIELD_POT_LIFE, NULL, 0, 31557600, true},
    {RUNNEL_FIELD_POT_MASS, NULL, 0, 100000, true},
    {RUNNEL_FIELD_GEL, NULL, 0, 31557600, true},
    {RUNNEL_FIELD_SANDABLE, NULL, 0, 31557600, true},
    {RUNNEL_FIELD_FULL_CURE, NULL, 0, 31557600, true},
    {RUNNEL_FIELD_DEEPEST_LAYER, NULL, 0, 1000, true},
    {RUNNEL_FIELD_LARGEST_MASS, NULL, 0, 1000000, true},
    {RUNNEL_FIELD_RATIO_TOLERANCE, NULL, 0, 0.5, true},
    {RUNNEL_FIELD_TINT_DEFAULT, NULL, 0, 0.2, false},
    {RUNNEL_FIELD_TINT_CAP, NULL, 0, 0.2, false},
    {RUNNEL_FIELD_ENERGY, NULL, 0, 200, false},
    {RUNNEL_FIELD_REACTION, NULL, 0, 1000, true},
    {RUNNEL_FIELD_STEP, NULL, 0, 1000, true},
    {RUNNEL_FIELD_ACCURACY, NULL, 0, 100, false},
    {RUNNEL_FIELD_COUNTS, NULL, 0, 1000, false},
    {RUNNEL_FIELD_TEMPERATURE, NULL, -30, 60, false},
    {RUNNEL_FIELD_DIAMETER, NULL, 5, 1000, false},
    {RUNNEL_FIELD_DRAIN, NULL, 1, 86400, false},
    {RUNNEL_FIELD_CAP_HEIGHT, as_text, 0, 10000, true},
    {RUNNEL_FIELD_LETTER_SPACING, as_text, -1000, 1000, false},
    {RUNNEL_FIELD_LINE_SPACING, as_text, 0, 10, true},
    {RUNNEL_FIELD_DEPTH_LIMIT, NULL, 0, 1000, true},
    {RUNNEL_FIELD_DEPTH, as_pocket, 0, 1000, true},
    {RUNNEL_FIELD_MEASURED, as_measured, 0, 1e9, true},
    {RUNNEL_FIELD_FOOTPRINT, as_measured, 0, 1e8, true},
    {RUNNEL_FIELD_WALL_AREA, as_measured, 0, 1e8, true},
    {RUNNEL_FIELD_DEEPEST, as_measured, 0, 1000, true},
};

/* Checks the job with a value for the field of ranges[i]; whether it is out of range. */
static bool is_out(int i, double value) {
    const runnel_field *row = runnel_field_row(ranges[i].id);
    *(double *)runnel_field_target(&job, spot, ranges[i].id) = value;
    runnel_status status = check();
    bool out = false;
    char path[80];
    for (size_t k = 0; k < problems.count; k++) {
        out = out || strstr(problems.items[k].text, "out of range") != NULL;
        ck_assert_str_eq(problems.items[k].field,
                         runnel_field_path(&job, spot, ranges[i].id, path, sizeof path));
        ck_assert_ptr_nonnull(strstr(problems.items[k].text, row->range));
    }
    ck_assert_int_eq(status, out ? RUNNEL_E_RANGE : RUNNEL_OK);
    runnel_problems_clear(&problems);
    return out;
}

START_TEST(range) {
    double least = ranges[_i].least, most = ranges[_i].most;
    double hair = (most - least) * 1e-9;
    if (ranges[_i].prepare)
        ranges[_i].prepare();
    ck_assert(!is_out(_i, most));
    ck_assert(!is_out(_i, (least + most) / 2));
    ck_assert(!is_out(_i, ranges[_i].open ? least + hair : least));
    ck_assert(is_out(_i, most + hair));
    ck_assert(is_out(_i, least - hair));
    ck_assert(is_out(_i, INFINITY));
    ck_assert(is_out(_i, -INFINITY));
}
END_TEST

/* Negative humidity, soak and tint stand for "not given", and so does a cup loss that is not known;
 * the resin may leave times open, but not what every batch is worked out from. */
START_TEST(values_that_stand_for_none) {
    runnel_job_colour *colour;
    ck_assert_int_eq(runnel_job_colour_named(&job, "red", &colour), RUNNEL_OK);
    job.resin.gel_s = job.resin.sandable_s = job.resin.lowest_degc = NAN;
    ck_assert_int_eq(check(), RUNNEL_OK);
    job.humidity = 1.01;
    job.soak_mm = 2.01;
    colour->tint = 0.21;
    job.cup.fixed_loss_g = 10001;
    piece()->count = 100001;
    job.resin.shrinkage = NAN;
    job.resin.density_a_g_per_ml = NAN;
    ck_assert_int_eq(check(), RUNNEL_E_RANGE);
    ck_assert_uint_eq(problems.count, 7);
    ck_assert_str_eq(problems.items[0].field, "--density-a");
    ck_assert_str_eq(problems.items[1].field, "--shrinkage");
    ck_assert_str_eq(problems.items[2].text,
                     "'2010 ml/m2' is out of range: 'soak' must be 0 ml/m2 to 2000 ml/m2");
    ck_assert_str_eq(problems.items[3].text,
                     "'101 %' is out of range: 'humidity' must be 0 % to 100 %");
    ck_assert_str_eq(problems.items[4].text,
                     "'10001 g' is out of range: 'loss' must be 0 g to 10 kg");
    ck_assert_str_eq(problems.items[5].text, "'21 %' is out of range: 'tint' must be 0 % to 20 %");
    ck_assert_str_eq(problems.items[6].text,
                     "'100001' is out of range: 'count' must be 1 to 100000");
}
END_TEST

/* ---- What a check fills in ------------------------------------------------------------------- */

START_TEST(names_colours_and_resin) {
    add_cavity();
    add_cavity();
    put(&piece()->cavities[1].name, "rim");
    put(&piece()->cavities[2].colour, "red");
    runnel_resin_clear(&job.resin);
    ck_assert_int_eq(check(), RUNNEL_OK);
    ck_assert_str_eq(piece()->name, "piece 1");
    ck_assert_str_eq(piece()->cavities[0].name, "cavity 1");
    ck_assert_str_eq(piece()->cavities[1].name, "rim");
    ck_assert_str_eq(piece()->cavities[2].name, "cavity 3");
    ck_assert_str_eq(piece()->cavities[0].colour, "clear");
    ck_assert_str_eq(piece()->cavities[2].colour, "red");
    ck_assert_str_eq(job.resin.name, "table-top 2:1");
    ck_assert(job.resin_is_default);
    ck_assert_uint_eq(job.colour_count, 1);
    ck_assert_str_eq(job.colours[0].name, "clear");
    ck_near(job.colours[0].tint, 0, 0);
    ck_assert_int_eq(check(), RUNNEL_OK);
    ck_assert_uint_eq(job.colour_count, 1);
    ck_assert_str_eq(piece()->cavities[0].name, "cavity 1");
}
END_TEST

START_TEST(clear_with_a_tint_of_its_own) {
    runnel_job_colour *colour;
    ck_assert_int_eq(runnel_job_colour_named(&job, "clear", &colour), RUNNEL_OK);
    colour->tint = 0.01;
    ck_assert_int_eq(check(), RUNNEL_OK);
    ck_assert_uint_eq(job.colour_count, 1);
    ck_near(job.colours[0].tint, 0.01, 0);
}
END_TEST

START_TEST(no_clear_where_all_is_coloured) {
    put(&cavity()->colour, "red");
    ck_assert_int_eq(check(), RUNNEL_OK);
    ck_assert_uint_eq(job.colour_count, 0);
}
END_TEST

START_TEST(no_resin_in_the_tables) {
    const runnel_tables none = {0};
    runnel_resin_clear(&job.resin);
    ck_assert_int_eq(runnel_job_check(&job, &none, &problems), RUNNEL_E_MISSING);
    ck_assert_str_eq(problems.items[0].text, "a 'resin' is needed, as the tables do not hold the "
                                             "default one, 'table-top 2:1'");
    ck_assert_ptr_null(cavity()->name);
}
END_TEST

static void v_path(void) {
    as_path();
}
static void v_outline(void) {
    cavity()->depth_limit_mm = 4;
}
static void v_text(void) {
    as_text();
}
static void single_line(void) {
    as_text();
    cavity()->single_line = true;
    cavity()->depth_mm = 2;
}
static void flat_text(void) {
    as_text();
    as_pocket();
}
static void flat_path(void) {
    as_pocket();
    as_path();
}

/* Which rule and depth belong to a source and a cutter: V between walls as deep as they are apart
 * or to the limit; other cutters clear a pocket; any cutter follows a path at its depth. */
static const struct {
    void (*prepare)(void);
    runnel_cut_rule rule;
    double depth_mm;
} rules[] = {
    {v_outline, RUNNEL_CUT_WALLS, 4},  {v_text, RUNNEL_CUT_WALLS, 0},
    {v_path, RUNNEL_CUT_PATH, 2},      {single_line, RUNNEL_CUT_PATH, 2},
    {as_pocket, RUNNEL_CUT_POCKET, 2}, {flat_text, RUNNEL_CUT_POCKET, 2},
    {flat_path, RUNNEL_CUT_PATH, 2},
};

START_TEST(rule) {
    rules[_i].prepare();
    cavity()->cut.rule = RUNNEL_CUT_POCKET;
    cavity()->cut.depth_mm = 77;
    ck_assert_int_eq(check(), RUNNEL_OK);
    ck_assert_int_eq(cavity()->cut.rule, rules[_i].rule);
    ck_near(cavity()->cut.depth_mm, rules[_i].depth_mm, 0);
}
END_TEST

/* A limit below the back of the board is only a limit: the walls may meet before. */
START_TEST(limit_deeper_than_the_piece) {
    piece()->length_mm = piece()->width_mm = 100;
    piece()->thickness_mm = 12;
    cavity()->depth_limit_mm = 15;
    ck_assert_int_eq(check(), RUNNEL_OK);
}
END_TEST

START_TEST(all_problems_at_once) {
    add_cavity();
    add_cavity();
    piece()->cavities[0].source = RUNNEL_SOURCE_NONE;
    piece()->cavities[1].depth_mm = -3; /* not for a V, whatever it is */
    piece()->cavities[2].cut.cutter.kind = RUNNEL_CUTTER_NONE;
    put(&piece()->wood, "granite");
    job.crown_mm = 11;
    job.reserve = -0.1;
    job.resin.ratio.basis = RUNNEL_BASIS_NONE;
    add_piece();
    ck_assert_int_eq(check(), RUNNEL_E_UNIT); /* the first told, as all are bad input */
    ck_assert_uint_eq(problems.count, 8);
}
END_TEST

/* ---- Running --------------------------------------------------------------------------------- */

#define COUNT(table) (int)(sizeof(table) / sizeof *(table))

static Suite *suite(void) {
    Suite *suite = suite_create("job check");
    TCase *checks = tcase_create("checks");
    tcase_add_checked_fixture(checks, setup, teardown);
    tcase_add_loop_test(checks, one_problem, 0, COUNT(spoilt));
    tcase_add_loop_test(checks, range, 0, COUNT(ranges));
    tcase_add_test(checks, values_that_stand_for_none);
    tcase_add_test(checks, names_colours_and_resin);
    tcase_add_test(checks, clear_with_a_tint_of_its_own);
    tcase_add_test(checks, no_clear_where_all_is_coloured);
    tcase_add_test(checks, no_resin_in_the_tables);
    tcase_add_loop_test(checks, rule, 0, COUNT(rules));
    tcase_add_test(checks, limit_deeper_than_the_piece);
    tcase_add_test(checks, all_problems_at_once);
    suite_add_tcase(suite, checks);
    return suite;
}

int main(void) {
    SRunner *runner = srunner_create(suite());
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
