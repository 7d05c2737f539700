/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "read/formats.h"

#include "base/slice.h"
#include "base/suggest.h"
#include "job/rows.h"

#include <math.h>

/* ---- Columns ------------------------------------------------------------------------------- */

/* The limits keep out what is no such thing, and most slips of a unit; whether a value is a usual
 * one is judged where it is used. */
static const runnel_column_range above_0 = {0, HUGE_VAL, true, "above 0"};
static const runnel_column_range density = {0, 30, true, "above 0 and below 30 g/ml"};
static const runnel_column_range viscosity = {0, 1e4, true, "above 0 and below 10000 Pa s"};
static const runnel_column_range share = {0, 0.5, false, "from 0 to 50 %"};
static const runnel_column_range tolerance = {0, 0.5, true, "above 0 and below 50 %"};
static const runnel_column_range temperature = {-50, 150, false, "from -50 to 150 degC"};
static const runnel_column_range heat = {0, 1000, true, "above 0 and at most 1000 J/g"};
static const runnel_column_range activation = {0, 500, false, "from 0 to 500 kJ/mol"};
static const runnel_column_range angle = {0, 180, true, "above 0 and below 180 deg"};
static const runnel_column_range tip = {0, 100, false, "from 0 to 100 mm"};
static const runnel_column_range diameter = {0, 1000, true, "above 0 and below 1000 mm"};
static const runnel_column_range wood_density = {0, 2000, true, "above 0 and below 2000 kg/m3"};
static const runnel_column_range percent = {0, 50, false, "from 0 to 50 %"};
static const runnel_column_range coefficient = {0, 0.05, false, "from 0 to 0.05 per %"};
static const runnel_column_range uptake = {0, 5000, true, "above 0 and below 5000 ml/m2"};
static const runnel_column_range factor = {1, 20, false, "from 1 to 20"};
static const runnel_column_range coats = {1, 20, false, "from 1 to 20"};
static const runnel_column_range soak = {0, 5000, false, "from 0 to 5000 ml/m2"};

static const runnel_column_range times = {0, 1000, false, "from 0 to 1000"};
static const runnel_column_range grows = {0.1, 10, false, "from 0.1 to 10"};
static const runnel_column_range whole_share = {0.01, 1, false, "from 1 to 100 %"};
static const runnel_column_range years = {0, 100 * 366 * 86400.0, true,
                                          "above 0 and below 36600 days"};

static const char *const kinds[] = {"thin coating", "table-top", "casting", "laminating", NULL};
static const char *const bases[] = {"volume", "weight", NULL};
static const char *const how_sure[] = {"published", "computed", "common practice", "from memory",
                                       NULL};
static const char *const cutter_kinds[] = {"v", "round-nose", "flat", NULL};
static const char *const no_yes[] = {"no", "yes", NULL};

static const runnel_column_range minutes = {0, 100 * 86400.0, false, "from 0 to 144000 min"};

static const char *const finishes[] = {"oil that stays wet", "oil that dries", "coating", NULL};
static const char *const uses[] = {"rare", "weekly", "daily", "wet", "sheltered", "open air", NULL};

static void take_basis(size_t word, void *row) {
    static const runnel_basis of[] = {RUNNEL_BASIS_VOLUME, RUNNEL_BASIS_WEIGHT};
    ((runnel_resin_row *)row)->resin.ratio.basis = of[word];
}

static void take_cutter_kind(size_t word, void *row) {
    static const runnel_cutter_kind of[] = {RUNNEL_CUTTER_V, RUNNEL_CUTTER_ROUND_NOSE,
                                            RUNNEL_CUTTER_FLAT};
    ((runnel_cutter_row *)row)->cutter.kind = of[word];
}

static void take_pores(size_t word, void *row) {
    ((runnel_wood *)row)->open_pored = word == 1;
}

static void take_drying(size_t word, void *row) {
    ((runnel_oil_row *)row)->oil.dries = word == 1;
}

static void take_nut(size_t word, void *row) {
    ((runnel_oil_row *)row)->oil.nut = word == 1;
}

static void take_left(size_t word, void *row) {
    ((runnel_work_row *)row)->divides = word == 1;
}

static void take_finish(size_t word, void *row) {
    ((runnel_upkeep_row *)row)->rule.finish = (runnel_upkeep_finish)word;
}

static void take_use(size_t word, void *row) {
    ((runnel_upkeep_row *)row)->rule.use = (runnel_use)(word + RUNNEL_USE_RARE);
}

/* One line for a column: T text, D date, W word, N number; _ plain, U with a unit. */
#define ROW(member) offsetof(ROW_TYPE, member)
#define T(name, needed, member)                                                                    \
    {                                                                                              \
        name, RUNNEL_COLUMN_TEXT, needed, ROW(member), NULL, NULL, NULL, RUNNEL_DIMENSION_COUNT,   \
            1, NULL                                                                                \
    }
#define D(name, needed, member)                                                                    \
    {                                                                                              \
        name, RUNNEL_COLUMN_DATE, needed, ROW(member), NULL, NULL, NULL, RUNNEL_DIMENSION_COUNT,   \
            1, NULL                                                                                \
    }
#define W(name, needed, member, words, take)                                                       \
    {                                                                                              \
        name, RUNNEL_COLUMN_WORD, needed, ROW(member), words, take, NULL, RUNNEL_DIMENSION_COUNT,  \
            1, NULL                                                                                \
    }
#define N(name, needed, member, range)                                                             \
    {                                                                                              \
        name, RUNNEL_COLUMN_NUMBER, needed, ROW(member), NULL, NULL, NULL, RUNNEL_DIMENSION_COUNT, \
            1, &(range)                                                                            \
    }
#define U(name, unit, dimension, per, needed, member, range)                                       \
    { name, RUNNEL_COLUMN_NUMBER, needed, ROW(member), NULL, NULL, unit, dimension, per, &(range) }

#define ROW_TYPE runnel_resin_row
static const runnel_column resin_columns[] = {
    T("name", true, resin.name),
    W("kind", true, resin.kind, kinds, NULL),
    N("part a", true, resin.ratio.part_a, above_0),
    N("part b", true, resin.ratio.part_b, above_0),
    W("basis", true, resin.ratio.basis, bases, take_basis),
    U("density a", "g/ml", RUNNEL_DENSITY, 1, true, resin.density_a_g_per_ml, density),
    U("density b", "g/ml", RUNNEL_DENSITY, 1, true, resin.density_b_g_per_ml, density),
    U("viscosity", "mPa s", RUNNEL_VISCOSITY, 1, true, resin.viscosity_pa_s, viscosity),
    U("shrinkage", "%", RUNNEL_FRACTION, 1, true, resin.shrinkage, share),
    U("stated temperature", "degC", RUNNEL_TEMPERATURE, 1, false, resin.stated_degc, temperature),
    U("lowest temperature", "degC", RUNNEL_TEMPERATURE, 1, false, resin.lowest_degc, temperature),
    U("pot life", "min", RUNNEL_TIME, 1, false, resin.pot_life_s, above_0),
    U("pot mass", "g", RUNNEL_MASS, 1, false, resin.pot_mass_g, above_0),
    U("gel", "h", RUNNEL_TIME, 1, false, resin.gel_s, above_0),
    U("recoat from", "h", RUNNEL_TIME, 1, false, resin.recoat_from_s, above_0),
    U("recoat until", "h", RUNNEL_TIME, 1, false, resin.recoat_until_s, above_0),
    U("sandable", "h", RUNNEL_TIME, 1, false, resin.sandable_s, above_0),
    U("full cure", "days", RUNNEL_TIME, 1, false, resin.full_cure_s, above_0),
    U("deepest layer", "mm", RUNNEL_LENGTH, 1, false, resin.deepest_layer_mm, above_0),
    U("largest mass", "g", RUNNEL_MASS, 1, false, resin.largest_mass_g, above_0),
    U("ratio tolerance", "%", RUNNEL_FRACTION, 1, true, resin.ratio_tolerance, tolerance),
    U("tint default", "%", RUNNEL_FRACTION, 1, true, resin.tint_default, share),
    U("tint cap", "%", RUNNEL_FRACTION, 1, true, resin.tint_cap, share),
    U("activation energy", "kJ/mol", RUNNEL_DIMENSION_COUNT, 1, false, resin.activation_kj_per_mol,
      activation),
    U("heat of reaction", "J/g", RUNNEL_DIMENSION_COUNT, 1, false, resin.reaction_j_per_g, heat),
    T("source", true, resin.source),
    D("date", true, resin.date),
    W("sure", true, resin.sure, how_sure, NULL),
};
#undef ROW_TYPE

#define ROW_TYPE runnel_cutter_row
static const runnel_column cutter_columns[] = {
    T("name", true, name),
    W("kind", true, cutter.kind, cutter_kinds, take_cutter_kind),
    U("angle", "deg", RUNNEL_ANGLE, 1, false, cutter.angle_deg, angle),
    U("tip", "mm", RUNNEL_LENGTH, 1, false, cutter.tip_mm, tip),
    U("diameter", "mm", RUNNEL_LENGTH, 1, false, diameter_mm, diameter),
    T("source", true, source),
    D("date", true, date),
    W("sure", true, sure, how_sure, NULL),
};
#undef ROW_TYPE

#define ROW_TYPE runnel_wood
static const runnel_column wood_columns[] = {
    T("name", true, name),
    T("also", false, also),
    T("botanical", false, botanical),
    U("density", "kg/m3", RUNNEL_DENSITY, 1000, true, density_kg_per_m3, wood_density),
    U("shrinkage radial", "%", RUNNEL_FRACTION, 100, false, shrinkage_radial_percent, percent),
    U("shrinkage tangential", "%", RUNNEL_FRACTION, 100, false, shrinkage_tangential_percent,
      percent),
    U("coefficient radial", "per %", RUNNEL_DIMENSION_COUNT, 1, false, coefficient_radial,
      coefficient),
    U("coefficient tangential", "per %", RUNNEL_DIMENSION_COUNT, 1, false, coefficient_tangential,
      coefficient),
    W("open-pored", true, open_pored, no_yes, take_pores),
    U("soak bare", "ml/m2", RUNNEL_AREA_LOADING, 1000, true, soak_bare_ml_per_m2, soak),
    U("soak sealed", "ml/m2", RUNNEL_AREA_LOADING, 1000, true, soak_sealed_ml_per_m2, soak),
    W("soak sure", true, soak_sure, how_sure, NULL),
    T("source", true, source),
    D("date", true, date),
    W("sure", true, sure, how_sure, NULL),
};
#undef ROW_TYPE

#define ROW_TYPE runnel_oil_row
static const runnel_column oil_columns[] = {
    T("name", true, oil.name),
    W("dries", true, oil.dries, no_yes, take_drying),
    W("nut", true, oil.nut, no_yes, take_nut),
    U("density", "g/ml", RUNNEL_DENSITY, 1, true, oil.density_g_per_ml, density),
    U("uptake", "ml/m2", RUNNEL_AREA_LOADING, 1000, true, oil.uptake_ml_per_m2, uptake),
    U("uptake low", "ml/m2", RUNNEL_AREA_LOADING, 1000, false, oil.uptake_low_ml_per_m2, uptake),
    U("uptake high", "ml/m2", RUNNEL_AREA_LOADING, 1000, false, oil.uptake_high_ml_per_m2, uptake),
    W("uptake sure", true, oil.uptake_sure, how_sure, NULL),
    N("end grain factor", true, oil.end_grain_factor, factor),
    N("coats", true, oil.coats, coats),
    U("soak", "min", RUNNEL_TIME, 1, false, oil.soak_s, above_0),
    U("between", "h", RUNNEL_TIME, 1, false, oil.between_s, above_0),
    U("full cure", "days", RUNNEL_TIME, 1, false, oil.full_cure_s, above_0),
    T("food", false, oil.food),
    T("source", true, oil.source),
    D("date", true, oil.date),
    W("sure", true, oil.sure, how_sure, NULL),
};
#undef ROW_TYPE

#define ROW_TYPE runnel_upkeep_row
static const runnel_column upkeep_columns[] = {
    T("name", true, rule.name),
    W("finish", true, rule.finish, finishes, take_finish),
    W("use", true, rule.use, uses, take_use),
    U("wait", "days", RUNNEL_TIME, 1, false, rule.wait_s, years),
    U("first", "days", RUNNEL_TIME, 1, false, rule.first_s, years),
    N("first times", false, rule.first_times, times),
    U("second", "days", RUNNEL_TIME, 1, false, rule.second_s, years),
    N("second times", false, rule.second_times, times),
    U("steady", "days", RUNNEL_TIME, 1, true, rule.steady_s, years),
    U("look", "days", RUNNEL_TIME, 1, false, rule.look_s, years),
    U("sand", "days", RUNNEL_TIME, 1, false, rule.sand_s, years),
    U("share", "%", RUNNEL_FRACTION, 1, true, rule.share, whole_share),
    U("coat", "ml/m2", RUNNEL_AREA_LOADING, 1000, false, rule.coat_ml_per_m2, uptake),
    N("coats", false, rule.coats, coats),
    N("wiped", true, rule.wiped, grows),
    N("scrubbed", true, rule.scrubbed, grows),
    N("open pores", true, rule.open_pores, grows),
    N("beads", true, rule.beads, grows),
    N("soaks in", true, rule.soaks_in, grows),
    T("source", true, rule.source),
    D("date", true, rule.date),
    W("sure", true, rule.sure, how_sure, NULL),
};
#undef ROW_TYPE

#define ROW_TYPE runnel_work_row
static const runnel_column work_columns[] = {
    T("name", true, name),
    T("once for", true, once_for),
    U("setup", "min", RUNNEL_TIME, 1, true, setup_s, minutes),
    U("each", "min", RUNNEL_TIME, 1, true, each_s, minutes),
    W("may be left", true, divides, no_yes, take_left),
    T("source", true, source),
    D("date", true, date),
    W("sure", true, sure, how_sure, NULL),
};
#undef ROW_TYPE

/* ---- What a row must agree with in itself -------------------------------------------------- */

/* The field at `low` may not be above that at `high`, where both are known. */
typedef struct order {
    size_t low, high;
    const char *text;
} order;

static double number_at(const void *row, size_t offset) {
    return *(const double *)(const void *)((const char *)row + offset);
}

static runnel_status check_orders(const runnel_row_source *source, const void *row,
                                  const order *orders, size_t count) {
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < count; i++)
        if (number_at(row, orders[i].low) > number_at(row, orders[i].high))
            status =
                runnel_row_problem(source, RUNNEL_E_CONFLICT, orders[i].low, "%s", orders[i].text);
    return status;
}

#define ROW_TYPE runnel_resin_row
static const order resin_orders[] = {
    {ROW(resin.lowest_degc), ROW(resin.stated_degc),
     "the lowest temperature is above the stated one"},
    {ROW(resin.recoat_from_s), ROW(resin.recoat_until_s), "'recoat from' is after 'recoat until'"},
    {ROW(resin.gel_s), ROW(resin.full_cure_s), "'gel' is after 'full cure'"},
    {ROW(resin.sandable_s), ROW(resin.full_cure_s), "'sandable' is after 'full cure'"},
    {ROW(resin.tint_default), ROW(resin.tint_cap), "the default tint is above its cap"},
};

/* Fields that mean nothing without another one. */
static const struct {
    size_t field, needs;
    const char *text;
} resin_needs[] = {
    {ROW(resin.pot_life_s), ROW(resin.pot_mass_g),
     "a pot life holds for a mass: 'pot mass' is needed"},
    {ROW(resin.pot_life_s), ROW(resin.stated_degc),
     "a time holds for a temperature: 'stated "
     "temperature' is needed with 'pot life'"},
    {ROW(resin.gel_s), ROW(resin.stated_degc),
     "a time holds for a temperature: 'stated temperature' is needed with 'gel'"},
    {ROW(resin.recoat_from_s), ROW(resin.stated_degc),
     "a time holds for a temperature: 'stated temperature' is needed with 'recoat from'"},
    {ROW(resin.recoat_until_s), ROW(resin.stated_degc),
     "a time holds for a temperature: 'stated temperature' is needed with 'recoat until'"},
    {ROW(resin.sandable_s), ROW(resin.stated_degc),
     "a time holds for a temperature: 'stated temperature' is needed with 'sandable'"},
    {ROW(resin.full_cure_s), ROW(resin.stated_degc),
     "a time holds for a temperature: 'stated temperature' is needed with 'full cure'"},
};
#undef ROW_TYPE

static runnel_status finish_resin(const runnel_row_source *source, void *row) {
    runnel_status status =
        check_orders(source, row, resin_orders, sizeof resin_orders / sizeof *resin_orders);
    for (size_t i = 0; i < sizeof resin_needs / sizeof *resin_needs; i++)
        if (!isnan(number_at(row, resin_needs[i].field)) &&
            isnan(number_at(row, resin_needs[i].needs)))
            status = runnel_row_problem(source, RUNNEL_E_MISSING, resin_needs[i].needs, "%s",
                                        resin_needs[i].text);
    return status;
}

/* Which sizes a kind of cutter has; 'y' must, 'n' must not, '?' may. */
#define ROW_TYPE runnel_cutter_row
static const struct {
    size_t field;
    const char *name;
    char v, other;
} cutter_sizes[] = {
    {ROW(cutter.angle_deg), "angle", 'y', 'n'},
    {ROW(cutter.tip_mm), "tip", 'y', 'n'},
    {ROW(diameter_mm), "diameter", '?', 'y'},
};

static const order cutter_orders[] = {
    {ROW(cutter.tip_mm), ROW(diameter_mm), "the tip is wider than the body"},
};
#undef ROW_TYPE

static runnel_status finish_cutter(const runnel_row_source *source, void *row) {
    runnel_cutter_row *cutter = row;
    bool is_v = cutter->cutter.kind == RUNNEL_CUTTER_V;
    const char *kind = is_v                                              ? "v"
                       : cutter->cutter.kind == RUNNEL_CUTTER_ROUND_NOSE ? "round-nose"
                                                                         : "flat";
    runnel_status status = check_orders(source, row, cutter_orders, 1);
    for (size_t i = 0; i < sizeof cutter_sizes / sizeof *cutter_sizes; i++) {
        char rule = is_v ? cutter_sizes[i].v : cutter_sizes[i].other;
        bool given = !isnan(number_at(row, cutter_sizes[i].field));
        if (rule == 'y' && !given)
            status = runnel_row_problem(source, RUNNEL_E_MISSING, cutter_sizes[i].field,
                                        "a '%s' cutter needs its %s", kind, cutter_sizes[i].name);
        else if (rule == 'n' && given)
            status = runnel_row_problem(source, RUNNEL_E_CONFLICT, cutter_sizes[i].field,
                                        "a '%s' cutter has no %s: leave the cell empty", kind,
                                        cutter_sizes[i].name);
    }
    if (!is_v) {
        cutter->cutter.angle_deg = cutter->cutter.tip_mm = 0;
        cutter->cutter.radius_mm = cutter->diameter_mm / 2;
    }
    return status;
}

#define ROW_TYPE runnel_wood
static const order wood_orders[] = {
    {ROW(soak_sealed_ml_per_m2), ROW(soak_bare_ml_per_m2), "sealed walls soak more than bare ones"},
};
#undef ROW_TYPE

static runnel_status finish_wood(const runnel_row_source *source, void *row) {
    return check_orders(source, row, wood_orders, 1);
}

#define ROW_TYPE runnel_oil_row
static const order oil_orders[] = {
    {ROW(oil.uptake_low_ml_per_m2), ROW(oil.uptake_ml_per_m2),
     "the low uptake is above the usual one"},
    {ROW(oil.uptake_ml_per_m2), ROW(oil.uptake_high_ml_per_m2),
     "the usual uptake is above the high one"},
    {ROW(oil.soak_s), ROW(oil.between_s), "'soak' is longer than the wait 'between' coats"},
};

static runnel_status finish_oil(const runnel_row_source *source, void *row) {
    const runnel_oil *oil = &((const runnel_oil_row *)row)->oil;
    runnel_status status =
        check_orders(source, row, oil_orders, sizeof oil_orders / sizeof *oil_orders);
    if (oil->coats != floor(oil->coats))
        status = runnel_row_problem(source, RUNNEL_E_RANGE, ROW(oil.coats),
                                    "the number of coats must be a whole one");
    if (!oil->dries && !isnan(oil->full_cure_s))
        status = runnel_row_problem(source, RUNNEL_E_CONFLICT, ROW(oil.full_cure_s),
                                    "an oil that does not dry has no full cure: leave the cell "
                                    "empty");
    return status;
}
#undef ROW_TYPE

#define ROW_TYPE runnel_upkeep_row
/* A stage of coats has both its wait and its number. */
static const struct {
    size_t field, needs;
    const char *text;
} upkeep_needs[] = {
    {ROW(rule.first_s), ROW(rule.first_times), "'first times' is needed with 'first'"},
    {ROW(rule.first_times), ROW(rule.first_s), "'first' is needed with 'first times'"},
    {ROW(rule.second_s), ROW(rule.second_times), "'second times' is needed with 'second'"},
    {ROW(rule.second_times), ROW(rule.second_s), "'second' is needed with 'second times'"},
};

static runnel_status finish_upkeep(const runnel_row_source *source, void *row) {
    const size_t whole[] = {ROW(rule.first_times), ROW(rule.second_times), ROW(rule.coats)};
    const runnel_upkeep_rule *rule = &((const runnel_upkeep_row *)row)->rule;
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < sizeof upkeep_needs / sizeof *upkeep_needs; i++)
        if (!isnan(number_at(row, upkeep_needs[i].field)) &&
            isnan(number_at(row, upkeep_needs[i].needs)))
            status = runnel_row_problem(source, RUNNEL_E_MISSING, upkeep_needs[i].field, "%s",
                                        upkeep_needs[i].text);
    for (size_t i = 0; i < sizeof whole / sizeof *whole; i++) {
        double number = number_at(row, whole[i]);
        if (!isnan(number) && number != floor(number))
            status = runnel_row_problem(source, RUNNEL_E_RANGE, whole[i],
                                        "the number of coats must be a whole one");
    }
    if (rule->finish == RUNNEL_FINISH_COATING && isnan(rule->coat_ml_per_m2))
        status = runnel_row_problem(source, RUNNEL_E_MISSING, ROW(rule.coat_ml_per_m2),
                                    "a coating needs its 'coat'");
    if (rule->finish != RUNNEL_FINISH_COATING && !isnan(rule->coat_ml_per_m2))
        status = runnel_row_problem(source, RUNNEL_E_CONFLICT, ROW(rule.coat_ml_per_m2),
                                    "an oil has its uptake: leave 'coat' empty");
    return status;
}
#undef ROW_TYPE

#define ROW_TYPE runnel_work_row
static runnel_status finish_work(const runnel_row_source *source, void *row) {
    const char *names[RUNNEL_WORK_COUNT];
    const char *name = ((const runnel_work_row *)row)->name;
    char shown[RUNNEL_SHOWN_SIZE];
    for (int i = 0; i < RUNNEL_WORK_COUNT; i++) {
        names[i] = runnel_work_text((runnel_work)i);
        if (runnel_row_name_equal(names[i], name))
            return RUNNEL_OK;
    }
    const char *nearest = runnel_nearest(name, names, RUNNEL_WORK_COUNT);
    return runnel_row_problem(
        source, RUNNEL_E_UNKNOWN, ROW(name), "'%s' is no work; %s%s%s",
        runnel_slice_show(runnel_slice_of(name), shown), nearest ? "the nearest is '" : "",
        nearest ? nearest : "'runnel list work' shows all", nearest ? "'" : "");
}
#undef ROW_TYPE

/* ---- Tables -------------------------------------------------------------------------------- */

static void clear_resin(void *row) {
    runnel_resin_row_clear(row);
}

static void clear_cutter(void *row) {
    runnel_cutter_row_clear(row);
}

static void clear_wood(void *row) {
    runnel_wood_clear(row);
}

static void clear_oil(void *row) {
    runnel_oil_row_clear(row);
}

static void clear_upkeep(void *row) {
    runnel_upkeep_row_clear(row);
}

static void clear_work(void *row) {
    runnel_work_row_clear(row);
}

#define COLUMNS(table) table, sizeof(table) / sizeof *(table)
#define ROWS(rows, count, capacity)                                                                \
    offsetof(runnel_tables, rows), offsetof(runnel_tables, count), offsetof(runnel_tables, capacity)

const runnel_table_format runnel_table_formats[RUNNEL_TABLE_FORMATS] = {
    {"resins.csv", COLUMNS(resin_columns), sizeof(runnel_resin_row),
     offsetof(runnel_resin_row, resin.name), offsetof(runnel_resin_row, file),
     ROWS(resins, resin_count, resin_capacity), clear_resin, finish_resin},
    {"cutters.csv", COLUMNS(cutter_columns), sizeof(runnel_cutter_row),
     offsetof(runnel_cutter_row, name), offsetof(runnel_cutter_row, file),
     ROWS(cutters, cutter_count, cutter_capacity), clear_cutter, finish_cutter},
    {"woods.csv", COLUMNS(wood_columns), sizeof(runnel_wood), offsetof(runnel_wood, name),
     offsetof(runnel_wood, file), ROWS(woods, wood_count, wood_capacity), clear_wood, finish_wood},
    {"oils.csv", COLUMNS(oil_columns), sizeof(runnel_oil_row), offsetof(runnel_oil_row, oil.name),
     offsetof(runnel_oil_row, file), ROWS(oils, oil_count, oil_capacity), clear_oil, finish_oil},
    {"upkeep.csv", COLUMNS(upkeep_columns), sizeof(runnel_upkeep_row),
     offsetof(runnel_upkeep_row, rule.name), offsetof(runnel_upkeep_row, file),
     ROWS(upkeeps, upkeep_count, upkeep_capacity), clear_upkeep, finish_upkeep},
    {"work.csv", COLUMNS(work_columns), sizeof(runnel_work_row), offsetof(runnel_work_row, name),
     offsetof(runnel_work_row, file), ROWS(works, work_count, work_capacity), clear_work,
     finish_work},
};
