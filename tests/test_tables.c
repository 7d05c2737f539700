/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The reference tables of data/ against published figures, and finding and replacing their rows. */
#include "compare.h"
#include "runnel/job.h"
#include "tables_files.h"

static runnel_tables data;

static void read_data(void) {
    runnel_problems problems;
    runnel_problems_init(&problems);
    runnel_status status = runnel_tables_read(&data, "data", &problems);
    print_problems(&problems);
    runnel_problems_clear(&problems);
    ck_assert_int_eq(status, RUNNEL_OK);
}

static void drop_data(void) {
    runnel_tables_clear(&data);
    ck_assert_ptr_null(data.resins);
}

/* ---- Woods --------------------------------------------------------------------------------- */

/* Wood Handbook, FPL-GTR-190 (2010): specific gravity on oven-dry mass and volume at 12 % (Table
 * 5-3), shrinkage in percent (Table 4-3), coefficients of dimensional change (Table 13-5). */
static const struct {
    const char *name, *botanical;
    double gravity, shrinkage_radial, shrinkage_tangential, radial, tangential;
    bool open_pored;
} woods[] = {
    {"hard maple", "Acer saccharum", 0.63, 4.8, 9.9, 0.00165, 0.00353, false},
    {"soft maple", "Acer rubrum", 0.54, 4.0, 8.2, 0.00137, 0.00289, false},
    {"silver maple", "Acer saccharinum", 0.47, 3.0, 7.2, 0.00102, 0.00252, false},
    {"black walnut", "Juglans nigra", 0.55, 5.5, 7.8, 0.00190, 0.00274, true},
    {"butternut", "Juglans cinerea", 0.38, 3.4, 6.4, 0.00116, 0.00223, true},
    {"black cherry", "Prunus serotina", 0.50, 3.7, 7.1, 0.00126, 0.00248, false},
    {"white oak", "Quercus alba", 0.68, 5.6, 10.5, 0.00180, 0.00365, true},
    {"red oak", "Quercus rubra", 0.63, 4.0, 8.6, 0.00158, 0.00369, true},
    {"beech", "Fagus grandifolia", 0.64, 5.5, 11.9, 0.00190, 0.00431, false},
    {"white ash", "Fraxinus americana", 0.60, 4.9, 7.8, 0.00169, 0.00274, true},
    {"yellow birch", "Betula alleghaniensis", 0.62, 7.3, 9.5, 0.00256, 0.00338, false},
    {"basswood", "Tilia americana", 0.37, 6.6, 9.3, 0.00230, 0.00330, false},
    {"red alder", "Alnus rubra", 0.41, 4.4, 7.3, 0.00151, 0.00256, false},
    {"yellow-poplar", "Liriodendron tulipifera", 0.42, 4.6, 8.2, 0.00158, 0.00289, false},
    {"eastern white pine", "Pinus strobus", 0.35, 2.1, 6.1, 0.00071, 0.00212, false},
    {"western redcedar", "Thuja plicata", 0.32, 2.4, 5.0, 0.00111, 0.00234, false},
};

START_TEST(woods_as_published) {
    const runnel_wood *wood = runnel_tables_wood(&data, woods[_i].name);
    ck_assert_ptr_nonnull(wood);
    ck_assert_str_eq(wood->name, woods[_i].name);
    ck_assert_str_eq(wood->botanical, woods[_i].botanical);
    /* 12 % of the oven-dry mass is water: times 1.12, once. */
    ck_near(wood->density_kg_per_m3, 1000 * woods[_i].gravity * 1.12, 1e-12);
    ck_near(wood->shrinkage_radial_percent, woods[_i].shrinkage_radial, 0);
    ck_near(wood->shrinkage_tangential_percent, woods[_i].shrinkage_tangential, 0);
    ck_near(wood->coefficient_radial, woods[_i].radial, 0);
    ck_near(wood->coefficient_tangential, woods[_i].tangential, 0);
    ck_assert_int_eq(wood->open_pored, woods[_i].open_pored);
}
END_TEST

/* Worked by hand: 1000 x 0.63 x 1.12. */
START_TEST(sugar_maple) {
    const runnel_wood *maple = runnel_tables_wood(&data, "sugar maple");
    ck_assert_ptr_nonnull(maple);
    ck_assert_str_eq(maple->name, "hard maple");
    ck_near(maple->density_kg_per_m3, 705.6, 1e-15);
    /* 300 mm of flat-sawn maple from 8 to 12 %: 4.236 mm; quarter-sawn: 1.980 mm */
    ck_near(300 * 4 * maple->coefficient_tangential, 4.236, 1e-12);
    ck_near(300 * 4 * maple->coefficient_radial, 1.980, 1e-12);
}
END_TEST

/* The handbook's coefficients follow from its shrinkages by C = 1/(3000/S - 20), S in percent,
 * rounded to five places; those of oak do not, as they are of commercial mixtures, and western
 * redcedar begins to shrink at 22 %: C = 1/(2200/S - 12), which is 0.00111 and 0.00234. */
START_TEST(coefficients_follow_from_shrinkage) {
    size_t checked = 0;
    for (size_t i = 0; i < data.wood_count; i++) {
        const runnel_wood *wood = &data.woods[i];
        bool is_cedar = !strcmp(wood->name, "western redcedar");
        if (is_cedar) {
            ck_near_or(wood->coefficient_radial, 1 / (2200 / 2.4 - 12), 0, 5.5e-6);
            ck_near_or(wood->coefficient_tangential, 1 / (2200 / 5.0 - 12), 0, 5.5e-6);
        }
        if (is_cedar || strstr(wood->name, "oak"))
            continue;
        ck_near_or(wood->coefficient_radial, 1 / (3000 / wood->shrinkage_radial_percent - 20), 0,
                   5.5e-6);
        ck_near_or(wood->coefficient_tangential,
                   1 / (3000 / wood->shrinkage_tangential_percent - 20), 0, 5.5e-6);
        checked++;
    }
    ck_assert_uint_eq(checked, data.wood_count - 3);
    /* Table 13-5: teak */
    const runnel_wood *teak = runnel_tables_wood(&data, "teak");
    ck_near(teak->coefficient_radial, 0.00101, 0);
    ck_near(teak->coefficient_tangential, 0.00186, 0);
}
END_TEST

static void check_origin(const char *source, const char *date, const char *sure, const char *file) {
    static const char known[] = "|published|computed|common practice|from memory|";
    char word[64];
    snprintf(word, sizeof word, "|%s|", sure);
    ck_assert_uint_gt(strlen(source), 10);
    ck_assert_uint_eq(strlen(date), 10);
    ck_assert_ptr_nonnull(strstr(known, word));
    ck_assert_ptr_nonnull(file);
}

START_TEST(every_wood_is_complete) {
    ck_assert_uint_ge(data.wood_count, 8);
    for (size_t i = 0; i < data.wood_count; i++) {
        const runnel_wood *wood = &data.woods[i];
        check_origin(wood->source, wood->date, wood->sure, wood->file);
        check_origin(wood->source, wood->date, wood->soak_sure, wood->file);
        ck_assert_str_eq(wood->file, "data/woods.csv");
        ck_assert_uint_gt(strlen(wood->botanical), 5);
        ck_assert(wood->shrinkage_radial_percent > 0);
        ck_assert(wood->shrinkage_tangential_percent > wood->shrinkage_radial_percent);
        ck_assert(wood->coefficient_tangential > wood->coefficient_radial);
        /* A thin penetrating stain needs 102 to 204 ml/m2 on smooth wood (Wood Handbook, chapter
         * 16); viscous resin stays below the upper end. Sealed walls: common practice. */
        ck_assert(wood->soak_bare_ml_per_m2 >= 30 && wood->soak_bare_ml_per_m2 <= 204);
        ck_assert(wood->soak_sealed_ml_per_m2 >= 5 && wood->soak_sealed_ml_per_m2 <= 10);
        if (wood->open_pored)
            ck_assert(wood->soak_bare_ml_per_m2 >= 60);
    }
}
END_TEST

/* A name that two woods share would find one of them by chance. */
START_TEST(names_of_woods_are_unique) {
    char names[128][32];
    size_t count = 0, owner[128], further = 0;
    for (size_t i = 0; i < data.wood_count; i++) {
        char also[256], *rest = also, *name;
        snprintf(also, sizeof also, "%s,%s", data.woods[i].name, data.woods[i].also);
        for (; (name = strtok_r(rest, ",", &rest)) != NULL; count++) {
            ck_assert_uint_lt(count, 128);
            owner[count] = i;
            snprintf(names[count], sizeof names[count], "%s", name + strspn(name, " "));
        }
    }
    for (size_t i = 0; i < count; i++) {
        ck_assert_ptr_eq(runnel_tables_wood(&data, names[i]), &data.woods[owner[i]]);
        further += strcmp(names[i], data.woods[owner[i]].name) != 0;
        for (size_t k = 0; k < i; k++)
            ck_assert_str_ne(names[i], names[k]);
    }
    ck_assert_uint_ge(further, 10);
    ck_assert_str_eq(runnel_tables_wood(&data, "maple")->name, "hard maple");
    ck_assert_str_eq(runnel_tables_wood(&data, "Walnut")->name, "black walnut");
    ck_assert_ptr_null(runnel_tables_wood(&data, "oak"));
}
END_TEST

/* ---- Resins -------------------------------------------------------------------------------- */

START_TEST(every_resin_is_complete) {
    ck_assert_uint_ge(data.resin_count, 10);
    for (size_t i = 0; i < data.resin_count; i++) {
        const runnel_resin *row = &data.resins[i].resin;
        check_origin(row->source, row->date, row->sure, data.resins[i].file);
        ck_assert_int_ne(row->ratio.basis, RUNNEL_BASIS_NONE);
        const double numbers[] = {
            row->ratio.part_a,   row->ratio.part_b,    row->density_a_g_per_ml,
            row->shrinkage,      row->stated_degc,     row->density_b_g_per_ml,
            row->viscosity_pa_s, row->lowest_degc,     row->pot_life_s,
            row->pot_mass_g,     row->gel_s,           row->recoat_from_s,
            row->recoat_until_s, row->sandable_s,      row->full_cure_s,
            row->tint_default,   row->tint_cap,        row->deepest_layer_mm,
            row->largest_mass_g, row->ratio_tolerance, row->activation_kj_per_mol};
        for (size_t k = 0; k < sizeof numbers / sizeof *numbers; k++)
            ck_assert_msg(numbers[k] > 0, "%s: number %zu", row->name, k);
    }
}
END_TEST

/* Undiluted resin 1.16 g/ml (data sheet, rev. 2015); with a tenth of a diluent of 0.89 g/ml
 * 1/(0.9/1.16 + 0.1/0.89) = 1.126. Hardeners from ethylenediamine, 0.90 (NIOSH method 2540, 1994),
 * to benzyl alcohol, 1.041 (DIPPR equation 105). Cured: 1.11 to 1.40 (Ashby, appendix A), 1.20
 * (Crawford, Table 1.8). Volume lost: 2 to 7 % (handbooks). */
START_TEST(resins_agree_with_physics) {
    for (size_t i = 0; i < data.resin_count; i++) {
        const runnel_resin *row = &data.resins[i].resin;
        double a = row->density_a_g_per_ml, b = row->density_b_g_per_ml;
        bool by_volume = row->ratio.basis == RUNNEL_BASIS_VOLUME;
        double ml_a = by_volume ? row->ratio.part_a : row->ratio.part_a / a;
        double ml_b = by_volume ? row->ratio.part_b : row->ratio.part_b / b;
        double cured = (ml_a * a + ml_b * b) / (ml_a + ml_b) / (1 - row->shrinkage);
        ck_assert(a >= 1.12 && a <= 1.16);
        ck_assert(b >= 0.90 && b <= 1.041);
        ck_assert(row->shrinkage >= 0.02 && row->shrinkage <= 0.07);
        ck_assert_msg(cured >= 1.11 && cured <= 1.20, "%s: %g", row->name, cured);
        /* Published fits of amine cures: 44 to 65 kJ/mol (Barral 1995, Pellin 1995). */
        ck_assert(row->activation_kj_per_mol >= 44 && row->activation_kj_per_mol <= 65);
        /* Never more than 5 or 6 % of pigment: common practice. */
        ck_assert(row->tint_cap <= 0.06);
    }
}
END_TEST

START_TEST(default_resin) {
    const runnel_resin_row *row = runnel_tables_resin(&data, RUNNEL_DEFAULT_RESIN);
    ck_assert_ptr_nonnull(row);
    ck_assert_str_eq(row->resin.kind, "table-top");
    ck_assert_int_eq(row->resin.ratio.basis, RUNNEL_BASIS_VOLUME);
    /* 500 ml at 2:1 by volume with 1.16 and 0.95 g/ml: A 386.667 g, B 158.333 g */
    double ml_a =
        500 * row->resin.ratio.part_a / (row->resin.ratio.part_a + row->resin.ratio.part_b);
    ck_near(ml_a * row->resin.density_a_g_per_ml, 386.6666666666667, 1e-12);
    ck_near((500 - ml_a) * row->resin.density_b_g_per_ml, 158.3333333333333, 1e-12);
    ck_assert(row->resin.lowest_degc <= RUNNEL_DEFAULT_SHOP_DEGC);
    /* As written in the table: 35 min of 100 g at 25 degC, 12 to 24 h, 7 days, 1500 mPa s. */
    ck_near(row->resin.pot_life_s, 2100, 0);
    ck_near(row->resin.pot_mass_g, 100, 0);
    ck_near(row->resin.stated_degc, 25, 0);
    ck_near(row->resin.recoat_until_s, 43200, 0);
    ck_near(row->resin.sandable_s, 86400, 0);
    ck_near(row->resin.full_cure_s, 604800, 0);
    ck_near(row->resin.viscosity_pa_s, 1.5, 1e-15);
    ck_near(row->resin.shrinkage, 0.04, 1e-15);
    ck_near(row->resin.tint_default, 0.02, 1e-15);
}
END_TEST

/* 100:44 by weight is what is sold as 2:1 by volume; weighing such a resin 2:1 puts in too much
 * hardener. */
START_TEST(laminating_by_weight_is_two_to_one_by_volume) {
    const runnel_resin_row *row = runnel_tables_resin(&data, "laminating 100:44");
    ck_assert_ptr_nonnull(row);
    ck_assert_int_eq(row->resin.ratio.basis, RUNNEL_BASIS_WEIGHT);
    double by_volume = row->resin.ratio.part_a / row->resin.density_a_g_per_ml /
                       (row->resin.ratio.part_b / row->resin.density_b_g_per_ml);
    ck_near(by_volume, 2.0, 0.01);
    const runnel_resin_row *teta = runnel_tables_resin(&data, "laminating 100:13");
    ck_assert_ptr_nonnull(teta);
    /* 100:13 by weight with 1.16 and 0.98 g/ml: 6.499:1 by volume */
    ck_near(100 / teta->resin.density_a_g_per_ml / (13 / teta->resin.density_b_g_per_ml), 6.499,
            1e-4);
}
END_TEST

static const char *const resin_names[] = {
    "coating 1:1",       "coating 2:1",       "table-top 1:1",       "table-top 2:1",
    "casting 2:1",       "casting 3:1",       "casting 100:30",      "laminating 4:1",
    "laminating 100:44", "laminating 100:13", "laminating 5:1 fast", "laminating 5:1 slow"};

START_TEST(resins_are_there) {
    const runnel_resin_row *row = runnel_tables_resin(&data, resin_names[_i]);
    ck_assert_ptr_nonnull(row);
    double a, b;
    /* The name tells the ratio. */
    ck_assert_int_eq(sscanf(strpbrk(resin_names[_i], "123456789"), "%lf:%lf", &a, &b), 2);
    ck_near(row->resin.ratio.part_a, a, 0);
    ck_near(row->resin.ratio.part_b, b, 0);
}
END_TEST

/* ---- Cutters ------------------------------------------------------------------------------- */

/* Radii by hand: half of the diameter, an inch being 25.4 mm. */
static const struct {
    const char *name;
    runnel_cutter cutter;
} cutters[] = {
    {"v-30", {RUNNEL_CUTTER_V, 30, 0, 0}},
    {"v-45", {RUNNEL_CUTTER_V, 45, 0, 0}},
    {"v-60", {RUNNEL_CUTTER_V, 60, 0, 0}},
    {"v-90", {RUNNEL_CUTTER_V, 90, 0, 0}},
    {"v-120", {RUNNEL_CUTTER_V, 120, 0, 0}},
    {"v-60-tip-0.1mm", {RUNNEL_CUTTER_V, 60, 0.1, 0}},
    {"v-60-tip-0.2mm", {RUNNEL_CUTTER_V, 60, 0.2, 0}},
    {"v-60-tip-0.005in", {RUNNEL_CUTTER_V, 60, 0.127, 0}},
    {"v-60-tip-0.01in", {RUNNEL_CUTTER_V, 60, 0.254, 0}},
    {"round-nose-1/8in", {RUNNEL_CUTTER_ROUND_NOSE, 0, 0, 1.5875}},
    {"round-nose-1/4in", {RUNNEL_CUTTER_ROUND_NOSE, 0, 0, 3.175}},
    {"round-nose-3/8in", {RUNNEL_CUTTER_ROUND_NOSE, 0, 0, 4.7625}},
    {"round-nose-1/2in", {RUNNEL_CUTTER_ROUND_NOSE, 0, 0, 6.35}},
    {"round-nose-3/4in", {RUNNEL_CUTTER_ROUND_NOSE, 0, 0, 9.525}},
    {"round-nose-3mm", {RUNNEL_CUTTER_ROUND_NOSE, 0, 0, 1.5}},
    {"round-nose-6mm", {RUNNEL_CUTTER_ROUND_NOSE, 0, 0, 3}},
    {"round-nose-12mm", {RUNNEL_CUTTER_ROUND_NOSE, 0, 0, 6}},
    {"flat-1/16in", {RUNNEL_CUTTER_FLAT, 0, 0, 0.79375}},
    {"flat-1/8in", {RUNNEL_CUTTER_FLAT, 0, 0, 1.5875}},
    {"flat-1/4in", {RUNNEL_CUTTER_FLAT, 0, 0, 3.175}},
    {"flat-1/2in", {RUNNEL_CUTTER_FLAT, 0, 0, 6.35}},
    {"flat-1mm", {RUNNEL_CUTTER_FLAT, 0, 0, 0.5}},
    {"flat-12mm", {RUNNEL_CUTTER_FLAT, 0, 0, 6}},
};

START_TEST(cutters_are_there) {
    const runnel_cutter_row *row = runnel_tables_cutter(&data, cutters[_i].name);
    ck_assert_ptr_nonnull(row);
    ck_assert_int_eq(row->cutter.kind, cutters[_i].cutter.kind);
    ck_near(row->cutter.angle_deg, cutters[_i].cutter.angle_deg, 0);
    ck_near(row->cutter.tip_mm, cutters[_i].cutter.tip_mm, 0);
    ck_near(row->cutter.radius_mm, cutters[_i].cutter.radius_mm, 1e-15);
}
END_TEST

START_TEST(every_cutter_is_complete) {
    for (size_t i = 0; i < data.cutter_count; i++) {
        const runnel_cutter_row *row = &data.cutters[i];
        check_origin(row->source, row->date, row->sure, row->file);
        ck_assert_int_ne(row->cutter.kind, RUNNEL_CUTTER_NONE);
        ck_assert_int_eq(isnan(row->diameter_mm), row->cutter.kind == RUNNEL_CUTTER_V);
    }
    ck_assert_uint_eq(data.cutter_count, 25 + 11 + 16);
}
END_TEST

/* ---- Names --------------------------------------------------------------------------------- */

START_TEST(names_without_regard_to_case_and_gaps) {
    const runnel_cutter_row *v = runnel_tables_cutter(&data, "v-60");
    const runnel_cutter_row *nose = runnel_tables_cutter(&data, "round-nose-1/4in");
    static const char *const same_v[] = {"V 60", "v60", " v_60 ", "V - 60"};
    static const char *const same_nose[] = {"Round Nose 1/4 in", "roundnose-1/4in",
                                            "ROUND_NOSE__1/4 IN"};
    ck_assert_ptr_nonnull(v);
    for (size_t i = 0; i < sizeof same_v / sizeof *same_v; i++)
        ck_assert_ptr_eq(runnel_tables_cutter(&data, same_v[i]), v);
    for (size_t i = 0; i < sizeof same_nose / sizeof *same_nose; i++)
        ck_assert_ptr_eq(runnel_tables_cutter(&data, same_nose[i]), nose);
    ck_assert_ptr_nonnull(runnel_tables_resin(&data, "Table Top 2:1"));
    /* Between digits a gap counts: "6 0" is not "60". */
    static const char *const others[] = {"v 6 0", "v-6", "v-600", "", "v-60 x", "w-60"};
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        ck_assert_ptr_null(runnel_tables_cutter(&data, others[i]));
    ck_assert_ptr_null(runnel_tables_cutter(&data, NULL));
    ck_assert_ptr_null(runnel_tables_resin(&data, NULL));
    ck_assert_ptr_null(runnel_tables_wood(&data, NULL));
}
END_TEST

START_TEST(nearest_names) {
    ck_assert_str_eq(runnel_tables_nearest(&data, "resins", "tabletop 2:1"), "table-top 2:1");
    ck_assert_str_eq(runnel_tables_nearest(&data, "cutters", "v-61"), "v-60");
    ck_assert_str_eq(runnel_tables_nearest(&data, "woods", "hard mapel"), "hard maple");
    /* by a further name */
    ck_assert_str_eq(runnel_tables_nearest(&data, "woods", "wallnut"), "black walnut");
    ck_assert_ptr_null(runnel_tables_nearest(&data, "woods", "granite and glass"));
    ck_assert_ptr_null(runnel_tables_nearest(&data, "stones", "hard maple"));
    ck_assert_ptr_null(runnel_tables_nearest(&data, "woods", NULL));
    runnel_tables none = {0};
    ck_assert_ptr_null(runnel_tables_nearest(&none, "woods", "hard maple"));
    ck_assert_ptr_null(runnel_tables_wood(&none, "hard maple"));
}
END_TEST

/* ---- Rows over rows ------------------------------------------------------------------------ */

START_TEST(own_rows_over_the_others) {
    char folder[64], file[128];
    make_folder(folder);
    put_text(folder, "cutters.csv",
             CUTTER_HEADER "V 60,v,59.2,0.15,32,test groove of 2024-05-31,2024-05-31,computed\n"
                           "house v,v,70,0,,own,2024-05,common practice\n");
    size_t count = data.cutter_count;
    ptrdiff_t at = runnel_tables_cutter(&data, "v-60") - data.cutters;
    ck_assert_int_eq(runnel_tables_read(&data, folder, NULL), RUNNEL_OK);
    ck_assert_uint_eq(data.cutter_count, count + 1);
    const runnel_cutter_row *row = runnel_tables_cutter(&data, "v-60");
    ck_assert_int_eq(row - data.cutters, at);
    ck_assert_str_eq(row->name, "V 60");
    ck_near(row->cutter.angle_deg, 59.2, 0);
    ck_near(row->cutter.tip_mm, 0.15, 0);
    ck_near(row->diameter_mm, 32, 0);
    ck_assert_str_eq(row->sure, "computed");
    snprintf(file, sizeof file, "%s/cutters.csv", folder);
    ck_assert_str_eq(row->file, file);
    ck_assert_str_eq(data.cutters[count].name, "house v");
    ck_assert_str_eq(runnel_tables_cutter(&data, "v-90")->file, "data/cutters.csv");
    ck_assert_uint_ge(data.wood_count, 8);
    remove_folder(folder);
}
END_TEST

/* The last directory wins; NULL is passed over; a failure in one keeps all as it was. */
START_TEST(several_directories) {
    char one[64], two[64], bad[64];
    make_folder(one);
    make_folder(two);
    make_folder(bad);
    put_text(one, "cutters.csv", CUTTER_HEADER "v-60,v,61,0,,one,2024,computed\n");
    put_text(two, "cutters.csv", CUTTER_HEADER "v-60,v,62,0,,two,2024,computed\n");
    put_text(bad, "cutters.csv", CUTTER_HEADER "v-60,v,63,zero,,bad,2024,computed\n");
    const char *order[] = {one, NULL, two};
    ck_assert_int_eq(runnel_tables_read_all(order, 3, NULL, &data), RUNNEL_OK);
    ck_near(runnel_tables_cutter(&data, "v-60")->cutter.angle_deg, 62, 0);
    const runnel_tables before = data;
    const char *with_bad[] = {one, bad};
    ck_assert_int_eq(runnel_tables_read_all(with_bad, 2, NULL, &data), RUNNEL_E_SYNTAX);
    ck_assert_mem_eq(&before, &data, sizeof data);
    ck_near(runnel_tables_cutter(&data, "v-60")->cutter.angle_deg, 62, 0);
    ck_assert_int_eq(runnel_tables_read_all(NULL, 0, NULL, &data), RUNNEL_OK);
    remove_folder(one);
    remove_folder(two);
    remove_folder(bad);
}
END_TEST

static double angle_of(const runnel_table_places *places) {
    runnel_tables tables = {0};
    runnel_problems problems;
    runnel_problems_init(&problems);
    runnel_status status = runnel_tables_read_places(places, &problems, &tables);
    print_problems(&problems);
    runnel_problems_clear(&problems);
    ck_assert_int_eq(status, RUNNEL_OK);
    double angle = runnel_tables_cutter(&tables, "v-60")->cutter.angle_deg;
    runnel_tables_clear(&tables);
    return angle;
}

/* Writes a cutter table with this angle of "v-60" below `base`, making the folders on the way. */
static void put_angle(const char *base, const char *below, int angle) {
    char path[128], text[256];
    snprintf(path, sizeof path, "%s/%s", base, below);
    for (char *slash = path + strlen(base); (slash = strchr(slash + 1, '/')) != NULL;
         *slash = '/') {
        *slash = '\0';
        ck_assert_int_eq(mkdir(path, 0700), 0);
    }
    ck_assert(!*below || mkdir(path, 0700) == 0);
    snprintf(text, sizeof text, CUTTER_HEADER "v-60,v,%d,0,,x,2024,computed\n", angle);
    put_text(path, "cutters.csv", text);
}

/* Removes what put_angle has made. */
static void remove_angle(const char *base, const char *below) {
    char path[128];
    snprintf(path, sizeof path, "%s/%s", base, below);
    remove_folder(path);
    for (char *slash; strlen(path) > strlen(base) + 1 && (slash = strrchr(path, '/')) != NULL;) {
        *slash = '\0';
        ck_assert_int_eq(rmdir(path), 0);
    }
}

START_TEST(places_in_their_order) {
    char xdg[64], home[64], environment[64], option[64];
    make_folder(xdg);
    make_folder(home);
    make_folder(environment);
    make_folder(option);
    put_angle(xdg, "runnel", 61);
    put_angle(home, ".local/share/runnel", 62);
    put_angle(environment, "", 63);
    put_angle(option, "", 64);
    runnel_table_places places = {.installed = "data"};
    ck_near(angle_of(&places), 60, 0);
    places.home = home;
    ck_near(angle_of(&places), 62, 0);
    places.xdg_data_home = "relative";
    ck_near(angle_of(&places), 62, 0);
    places.xdg_data_home = "";
    ck_near(angle_of(&places), 62, 0);
    places.xdg_data_home = xdg;
    ck_near(angle_of(&places), 61, 0);
    places.environment = environment;
    ck_near(angle_of(&places), 63, 0);
    places.option = option;
    ck_near(angle_of(&places), 64, 0);
    /* The option stands in for the environment, which is not looked at then. */
    places.environment = "/nowhere/at/all";
    ck_near(angle_of(&places), 64, 0);
    places.xdg_data_home = places.home = "/nowhere/at/all";
    ck_near(angle_of(&places), 64, 0);
    remove_angle(xdg, "runnel");
    remove_angle(home, ".local/share/runnel");
    remove_folder(environment);
    remove_folder(option);
}
END_TEST

static const runnel_table_places lacking[] = {
    {.installed = "/nowhere/at/all"},
    {.installed = NULL, .home = "/nowhere/at/all"},
    {.installed = "data", .environment = "/nowhere/at/all"},
    {.installed = "data", .option = "tests"},
};
static const struct {
    size_t count;
    const char *text;
} lacking_told[] = {{6, "'resins.csv' is found in none of"},
                    {6, "'resins.csv' is found in none of"},
                    {1, "there is no directory '/nowhere/at/all'"},
                    {1, "'tests' holds none of 'resins.csv', 'cutters.csv', 'woods.csv', "
                        "'oils.csv', 'upkeep.csv' and 'work.csv'"}};

START_TEST(places_without_tables) {
    runnel_tables tables = {0};
    runnel_problems problems;
    runnel_problems_init(&problems);
    ck_assert_int_eq(runnel_tables_read_places(&lacking[_i], &problems, &tables),
                     RUNNEL_E_NOT_FOUND);
    print_problems(&problems);
    ck_assert_uint_eq(problems.count, lacking_told[_i].count);
    ck_assert_ptr_nonnull(strstr(problems.items[0].text, lacking_told[_i].text));
    ck_assert_ptr_null(tables.resins);
    runnel_problems_clear(&problems);
}
END_TEST

#define COUNT(table) (int)(sizeof(table) / sizeof *(table))

int main(void) {
    Suite *suite = suite_create("tables");
    TCase *rows = tcase_create("rows");
    tcase_add_checked_fixture(rows, read_data, drop_data);
    tcase_add_loop_test(rows, woods_as_published, 0, COUNT(woods));
    tcase_add_test(rows, sugar_maple);
    tcase_add_test(rows, coefficients_follow_from_shrinkage);
    tcase_add_test(rows, every_wood_is_complete);
    tcase_add_test(rows, names_of_woods_are_unique);
    tcase_add_test(rows, every_resin_is_complete);
    tcase_add_test(rows, resins_agree_with_physics);
    tcase_add_test(rows, default_resin);
    tcase_add_test(rows, laminating_by_weight_is_two_to_one_by_volume);
    tcase_add_loop_test(rows, resins_are_there, 0, COUNT(resin_names));
    tcase_add_loop_test(rows, cutters_are_there, 0, COUNT(cutters));
    tcase_add_test(rows, every_cutter_is_complete);
    tcase_add_test(rows, names_without_regard_to_case_and_gaps);
    tcase_add_test(rows, nearest_names);
    tcase_add_test(rows, own_rows_over_the_others);
    tcase_add_test(rows, several_directories);
    suite_add_tcase(suite, rows);
    TCase *places = tcase_create("places");
    tcase_add_test(places, places_in_their_order);
    tcase_add_loop_test(places, places_without_tables, 0, COUNT(lacking));
    suite_add_tcase(suite, places);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
