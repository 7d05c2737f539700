/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/list.h"

#include <math.h>
#include <string.h>

/* ---- Words ------------------------------------------------------------------------------------
 */

static const char *basis_word(const void *row) {
    const runnel_resin_row *resin = row;
    return resin->resin.ratio.basis == RUNNEL_BASIS_VOLUME ? "volume" : "weight";
}

const char *runnel_cutter_word(runnel_cutter_kind kind) {
    static const char *const words[] = {[RUNNEL_CUTTER_NONE] = "",
                                        [RUNNEL_CUTTER_V] = "v",
                                        [RUNNEL_CUTTER_ROUND_NOSE] = "round-nose",
                                        [RUNNEL_CUTTER_FLAT] = "flat"};
    return words[kind];
}

static const char *kind_word(const void *row) {
    return runnel_cutter_word(((const runnel_cutter_row *)row)->cutter.kind);
}

static const char *finish_word(const void *row) {
    return runnel_upkeep_finish_text(((const runnel_upkeep_row *)row)->rule.finish);
}

static const char *use_word(const void *row) {
    return runnel_use_text(((const runnel_upkeep_row *)row)->rule.use);
}

static bool is_v(const void *row) {
    return ((const runnel_cutter_row *)row)->cutter.kind == RUNNEL_CUTTER_V;
}

/* ---- Columns ----------------------------------------------------------------------------------
 */

/* The titles are those that the reader of tables knows; see runnel_tables_read_all. */
#define COLUMN(title, key, holds, member, ...)                                                     \
    { title, key, RUNNEL_HOLDS_##holds, offsetof(ROW_TYPE, member), __VA_ARGS__ }
#define TEXT(title, key, member) COLUMN(title, key, TEXT, member, 1, 1, 1, 1, NULL, NULL)
#define WORD(title, key, word)                                                                     \
    { title, key, RUNNEL_HOLDS_WORD, 0, 1, 1, 1, 1, word, NULL }
#define FLAG(title, key, member)         COLUMN(title, key, FLAG, member, 1, 1, 1, 1, NULL, NULL)
#define PLAIN(title, key, member)        COLUMN(title, key, NUMBER, member, 1, 1, 1, 1, NULL, NULL)
#define PERCENT(title, key, member)      COLUMN(title, key, NUMBER, member, 100, 1, 100, 1, NULL, NULL)
#define MINUTES(title, key, member)      COLUMN(title, key, NUMBER, member, 1, 60, 1, 60, NULL, NULL)
#define HOURS(title, key, member)        COLUMN(title, key, NUMBER, member, 1, 3600, 1, 60, NULL, NULL)
#define DAYS(title, key, member)         COLUMN(title, key, NUMBER, member, 1, 86400, 1, 60, NULL, NULL)
#define MILLI(title, key, member)        COLUMN(title, key, NUMBER, member, 1000, 1, 1, 1, NULL, NULL)
#define OF_SOME(title, key, member, has) COLUMN(title, key, NUMBER, member, 1, 1, 1, 1, NULL, has)

#define ROW_TYPE runnel_resin_row
static const runnel_list_column resins[] = {
    TEXT("name", "name", resin.name),
    TEXT("kind", "kind", resin.kind),
    PLAIN("part a", "part_a", resin.ratio.part_a),
    PLAIN("part b", "part_b", resin.ratio.part_b),
    WORD("basis", "basis", basis_word),
    PLAIN("density a [g/ml]", "density_a_g_per_ml", resin.density_a_g_per_ml),
    PLAIN("density b [g/ml]", "density_b_g_per_ml", resin.density_b_g_per_ml),
    MILLI("viscosity [mPa s]", "viscosity_pa_s", resin.viscosity_pa_s),
    PERCENT("shrinkage [%]", "shrinkage_percent", resin.shrinkage),
    PLAIN("stated temperature [degC]", "stated_degc", resin.stated_degc),
    PLAIN("lowest temperature [degC]", "lowest_degc", resin.lowest_degc),
    MINUTES("pot life [min]", "pot_life_min", resin.pot_life_s),
    PLAIN("pot mass [g]", "pot_mass_g", resin.pot_mass_g),
    HOURS("gel [h]", "gel_min", resin.gel_s),
    HOURS("recoat from [h]", "recoat_from_min", resin.recoat_from_s),
    HOURS("recoat until [h]", "recoat_until_min", resin.recoat_until_s),
    HOURS("sandable [h]", "sandable_min", resin.sandable_s),
    DAYS("full cure [days]", "full_cure_min", resin.full_cure_s),
    PLAIN("deepest layer [mm]", "deepest_layer_mm", resin.deepest_layer_mm),
    PLAIN("largest mass [g]", "largest_mass_g", resin.largest_mass_g),
    PERCENT("ratio tolerance [%]", "ratio_tolerance_percent", resin.ratio_tolerance),
    PERCENT("tint default [%]", "tint_default_percent", resin.tint_default),
    PERCENT("tint cap [%]", "tint_cap_percent", resin.tint_cap),
    PLAIN("activation energy [kJ/mol]", "activation_kj_per_mol", resin.activation_kj_per_mol),
    PLAIN("heat of reaction [J/g]", "reaction_j_per_g", resin.reaction_j_per_g),
    TEXT("source", "source", resin.source),
    TEXT("date", "date", resin.date),
    TEXT("sure", "sure", resin.sure),
    TEXT(NULL, "file", file),
};
#undef ROW_TYPE

#define ROW_TYPE runnel_cutter_row
static const runnel_list_column cutters[] = {
    TEXT("name", "name", name),
    WORD("kind", "kind", kind_word),
    OF_SOME("angle [deg]", "angle_deg", cutter.angle_deg, is_v),
    OF_SOME("tip [mm]", "tip_mm", cutter.tip_mm, is_v),
    PLAIN("diameter [mm]", "diameter_mm", diameter_mm),
    TEXT("source", "source", source),
    TEXT("date", "date", date),
    TEXT("sure", "sure", sure),
    TEXT(NULL, "file", file),
};
#undef ROW_TYPE

#define ROW_TYPE runnel_wood
static const runnel_list_column woods[] = {
    TEXT("name", "name", name),
    TEXT("also", "also", also),
    TEXT("botanical", "botanical", botanical),
    PLAIN("density [kg/m3]", "density_kg_per_m3", density_kg_per_m3),
    PLAIN("shrinkage radial [%]", "shrinkage_radial_percent", shrinkage_radial_percent),
    PLAIN("shrinkage tangential [%]", "shrinkage_tangential_percent", shrinkage_tangential_percent),
    PLAIN("coefficient radial [per %]", "coefficient_radial_per_percent", coefficient_radial),
    PLAIN("coefficient tangential [per %]", "coefficient_tangential_per_percent",
          coefficient_tangential),
    FLAG("open-pored", "open_pored", open_pored),
    PLAIN("soak bare [ml/m2]", "soak_bare_ml_per_m2", soak_bare_ml_per_m2),
    PLAIN("soak sealed [ml/m2]", "soak_sealed_ml_per_m2", soak_sealed_ml_per_m2),
    TEXT("soak sure", "soak_sure", soak_sure),
    TEXT("source", "source", source),
    TEXT("date", "date", date),
    TEXT("sure", "sure", sure),
    TEXT(NULL, "file", file),
};
#undef ROW_TYPE

#define ROW_TYPE runnel_oil_row
static const runnel_list_column oils[] = {
    TEXT("name", "name", oil.name),
    FLAG("dries", "dries", oil.dries),
    FLAG("nut", "nut", oil.nut),
    PLAIN("density [g/ml]", "density_g_per_ml", oil.density_g_per_ml),
    PLAIN("uptake [ml/m2]", "uptake_ml_per_m2", oil.uptake_ml_per_m2),
    PLAIN("uptake low [ml/m2]", "uptake_low_ml_per_m2", oil.uptake_low_ml_per_m2),
    PLAIN("uptake high [ml/m2]", "uptake_high_ml_per_m2", oil.uptake_high_ml_per_m2),
    TEXT("uptake sure", "uptake_sure", oil.uptake_sure),
    PLAIN("end grain factor", "end_grain_factor", oil.end_grain_factor),
    PLAIN("coats", "coats", oil.coats),
    MINUTES("soak [min]", "soak_min", oil.soak_s),
    HOURS("between [h]", "between_min", oil.between_s),
    DAYS("full cure [days]", "full_cure_min", oil.full_cure_s),
    TEXT("food", "food", oil.food),
    TEXT("source", "source", oil.source),
    TEXT("date", "date", oil.date),
    TEXT("sure", "sure", oil.sure),
    TEXT(NULL, "file", file),
};
#undef ROW_TYPE

#define ROW_TYPE runnel_upkeep_row
static const runnel_list_column upkeeps[] = {
    TEXT("name", "name", rule.name),
    WORD("finish", "finish", finish_word),
    WORD("use", "use", use_word),
    DAYS("wait [days]", "wait_min", rule.wait_s),
    DAYS("first [days]", "first_min", rule.first_s),
    PLAIN("first times", "first_times", rule.first_times),
    DAYS("second [days]", "second_min", rule.second_s),
    PLAIN("second times", "second_times", rule.second_times),
    DAYS("steady [days]", "steady_min", rule.steady_s),
    DAYS("look [days]", "look_min", rule.look_s),
    DAYS("sand [days]", "sand_min", rule.sand_s),
    PERCENT("share [%]", "share_percent", rule.share),
    PLAIN("coat [ml/m2]", "coat_ml_per_m2", rule.coat_ml_per_m2),
    PLAIN("coats", "coats", rule.coats),
    PLAIN("wiped", "wiped", rule.wiped),
    PLAIN("scrubbed", "scrubbed", rule.scrubbed),
    PLAIN("open pores", "open_pores", rule.open_pores),
    PLAIN("beads", "beads", rule.beads),
    PLAIN("soaks in", "soaks_in", rule.soaks_in),
    TEXT("source", "source", rule.source),
    TEXT("date", "date", rule.date),
    TEXT("sure", "sure", rule.sure),
    TEXT(NULL, "file", file),
};
#undef ROW_TYPE

#define ROW_TYPE runnel_work_row
static const runnel_list_column works[] = {
    TEXT("name", "name", name),
    TEXT("once for", "once_for", once_for),
    MINUTES("setup [min]", "setup_min", setup_s),
    MINUTES("each [min]", "each_min", each_s),
    FLAG("may be left", "may_be_left", divides),
    TEXT("source", "source", source),
    TEXT("date", "date", date),
    TEXT("sure", "sure", sure),
    TEXT(NULL, "file", file),
};
#undef ROW_TYPE

#define ROW_TYPE runnel_font_entry
static const runnel_list_column fonts[] = {
    TEXT("family", "family", family),
    TEXT("styles", "styles", styles),
    TEXT("file", "file", file),
};
#undef ROW_TYPE

const runnel_list_column *runnel_list_columns(runnel_list_kind kind, size_t *count) {
    static const struct {
        const runnel_list_column *columns;
        size_t count;
    } all[RUNNEL_LIST_COUNT] = {[RUNNEL_LIST_RESINS] = {resins, sizeof resins / sizeof *resins},
                                [RUNNEL_LIST_CUTTERS] = {cutters, sizeof cutters / sizeof *cutters},
                                [RUNNEL_LIST_WOODS] = {woods, sizeof woods / sizeof *woods},
                                [RUNNEL_LIST_OILS] = {oils, sizeof oils / sizeof *oils},
                                [RUNNEL_LIST_UPKEEP] = {upkeeps, sizeof upkeeps / sizeof *upkeeps},
                                [RUNNEL_LIST_WORK] = {works, sizeof works / sizeof *works},
                                [RUNNEL_LIST_FONTS] = {fonts, sizeof fonts / sizeof *fonts}};
    *count = all[kind].count;
    return all[kind].columns;
}

/* ---- Rows -------------------------------------------------------------------------------------
 */

/* The array of a list and the size of its items. */
static const char *rows_of(const runnel_list *list, size_t *count, size_t *size) {
    switch (list->kind) {
    case RUNNEL_LIST_RESINS:
        *count = list->tables->resin_count;
        *size = sizeof *list->tables->resins;
        return (const char *)list->tables->resins;
    case RUNNEL_LIST_CUTTERS:
        *count = list->tables->cutter_count;
        *size = sizeof *list->tables->cutters;
        return (const char *)list->tables->cutters;
    case RUNNEL_LIST_WOODS:
        *count = list->tables->wood_count;
        *size = sizeof *list->tables->woods;
        return (const char *)list->tables->woods;
    case RUNNEL_LIST_OILS:
        *count = list->tables->oil_count;
        *size = sizeof *list->tables->oils;
        return (const char *)list->tables->oils;
    case RUNNEL_LIST_UPKEEP:
        *count = list->tables->upkeep_count;
        *size = sizeof *list->tables->upkeeps;
        return (const char *)list->tables->upkeeps;
    case RUNNEL_LIST_WORK:
        *count = list->tables->work_count;
        *size = sizeof *list->tables->works;
        return (const char *)list->tables->works;
    case RUNNEL_LIST_FONTS:
        *count = list->font_count;
        *size = sizeof *list->fonts;
        return (const char *)list->fonts;
    case RUNNEL_LIST_COUNT:
        break;
    }
    *count = *size = 0;
    return NULL;
}

size_t runnel_list_rows(const runnel_list *list) {
    size_t count, size;
    rows_of(list, &count, &size);
    return count;
}

const void *runnel_list_row(const runnel_list *list, size_t index) {
    size_t count, size;
    return rows_of(list, &count, &size) + index * size;
}

const char *runnel_list_text(const runnel_list_column *column, const void *row) {
    if (column->holds == RUNNEL_HOLDS_WORD)
        return column->word(row);
    const char *text;
    memcpy(&text, (const char *)row + column->offset, sizeof text);
    return text ? text : "";
}

double runnel_list_number(const runnel_list_column *column, const void *row) {
    double value;
    if (column->has && !column->has(row))
        return NAN;
    memcpy(&value, (const char *)row + column->offset, sizeof value);
    return value;
}

bool runnel_list_flag(const runnel_list_column *column, const void *row) {
    return *((const bool *)row + column->offset);
}
