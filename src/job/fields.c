/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/fields.h"

#include "base/slice.h"

#include <stdio.h>
#include <string.h>

/* The first member is named, so that no compiler misses those at the end. */
#define ROW(scope, type, word, kind, dimension, member, ...)                                       \
    {                                                                                              \
        .key = word, RUNNEL_SCOPE_##scope, RUNNEL_KIND_##kind, dimension, offsetof(type, member),  \
        __VA_ARGS__                                                                                \
    }
#define JOB(...)    ROW(JOB, runnel_job, __VA_ARGS__)
#define RESIN(...)  ROW(RESIN, runnel_resin, __VA_ARGS__)
#define SCALE(...)  ROW(SCALE, runnel_job, __VA_ARGS__)
#define SHOP(...)   ROW(SHOP, runnel_job, __VA_ARGS__)
#define THERE(...)  ROW(DESTINATION, runnel_job, __VA_ARGS__)
#define CUP(...)    ROW(CUP, runnel_job, __VA_ARGS__)
#define ERRORS(...) ROW(ERRORS, runnel_job, __VA_ARGS__)
#define SEALER(...) ROW(SEALER, runnel_job, __VA_ARGS__)
#define LEVEL(...)  ROW(LEVEL, runnel_job, __VA_ARGS__)
#define OIL(...)    ROW(OIL, runnel_job, __VA_ARGS__)
#define WAX(...)    ROW(WAX, runnel_job, __VA_ARGS__)
#define DAYS(...)   ROW(DAYS, runnel_job, __VA_ARGS__)
#define UPKEEP(...) ROW(UPKEEP, runnel_job, __VA_ARGS__)
#define PIECE(...)  ROW(PIECE, runnel_job_piece, __VA_ARGS__)
#define CAVITY(...) ROW(CAVITY, runnel_job_cavity, __VA_ARGS__)

#define LENGTH  RUNNEL_LENGTH
#define AREA    RUNNEL_AREA
#define MASS    RUNNEL_MASS
#define TIME    RUNNEL_TIME
#define DEGREES RUNNEL_TEMPERATURE
#define SHARE   RUNNEL_FRACTION
#define PLAIN   RUNNEL_DIMENSION_COUNT

#define ANY         0, 0, 0, NULL /* no range */
#define ONLY(flags) 0, 0, flags, NULL
#define ABOVE       RUNNEL_ABOVE
#define UNKNOWN     RUNNEL_NONE_NAN
#define NO_ZERO     (RUNNEL_ABOVE | RUNNEL_NONE_ZERO)
#define LETTERS     RUNNEL_WITH_TEXT
#define CARVED      (RUNNEL_WITH_TEXT | RUNNEL_WITH_OUTLINE | RUNNEL_WITH_PATH)
#define BY_MEASURE  RUNNEL_WITH_MEASURED

#define TEN_M     10000.0
#define YEAR      31557600.0 /* 365.25 days, s */
#define TO_10_M   "above 0 and at most 10 m"
#define TO_1_M    "above 0 and at most 1 m"
#define TO_A_YEAR "above 0 and at most a year"

/* The ranges catch slips of the unit and of the decimal point; none is a limit of the engine. */
/* clang-format off */
static const runnel_field table[RUNNEL_FIELD_COUNT_OF] = {
[RUNNEL_FIELD_JOB]       = JOB("job", NAME, PLAIN, name, ANY),
[RUNNEL_FIELD_ID]        = JOB("id", NAME, PLAIN, id, ANY),
[RUNNEL_FIELD_CUSTOMER]  = JOB("customer", NAME, PLAIN, customer, ANY),
[RUNNEL_FIELD_RESIN]     = JOB("resin", RESIN, PLAIN, resin, ANY),
[RUNNEL_FIELD_RATIO]     = JOB("ratio", RATIO, PLAIN, resin.ratio, ANY),
[RUNNEL_FIELD_SCALE]     = JOB("scale", SCALE, PLAIN, scale, ANY),
[RUNNEL_FIELD_SHOP]      = JOB("shop", SHOP, PLAIN, shop_degc, ANY),
[RUNNEL_FIELD_MOISTURE]  = JOB("moisture", QUANTITY, SHARE, moisture, 0, 0.3, RUNNEL_NONE_NEGATIVE, "0 % to 30 %"),
[RUNNEL_FIELD_DESTINATION] = JOB("destination", DESTINATION, PLAIN, destination, ANY),
[RUNNEL_FIELD_CROWN]     = JOB("crown", QUANTITY, LENGTH, crown_mm, 0, 10, 0, "0 mm to 10 mm"),
[RUNNEL_FIELD_MARGIN]    = JOB("margin", QUANTITY, LENGTH, margin_mm, 0, 100, 0, "0 mm to 100 mm"),
[RUNNEL_FIELD_SOAK]      = JOB("soak", QUANTITY, RUNNEL_AREA_LOADING, soak_mm, 0, 2, RUNNEL_NONE_NEGATIVE, "0 ml/m2 to 2000 ml/m2"),
[RUNNEL_FIELD_SEALED]    = JOB("sealed", FLAG, PLAIN, sealed, ANY),
[RUNNEL_FIELD_SEALER]    = JOB("sealer", SEALER, PLAIN, sealer, ANY),
[RUNNEL_FIELD_RESERVE]   = JOB("reserve", QUANTITY, SHARE, reserve, 0, 1, 0, "0 % to 100 %"),
[RUNNEL_FIELD_TOP_UP]    = JOB("top up", QUANTITY, SHARE, top_up, 0, 1, 0, "0 %, for none, to 100 %"),
[RUNNEL_FIELD_CUP]       = JOB("cup", CUP, PLAIN, cup, ANY),
[RUNNEL_FIELD_ERRORS]    = JOB("errors", ERRORS, PLAIN, errors, ANY),
[RUNNEL_FIELD_SIZE_TO]   = JOB("size to", SIZE_TO, PLAIN, size_to, ANY),
[RUNNEL_FIELD_BRIDGE]    = JOB("bridge", QUANTITY, LENGTH, bridge_mm, 0, 1000, 0, "0 mm to 1 m"),
[RUNNEL_FIELD_USABLE]    = JOB("usable share", QUANTITY, SHARE, usable_share, 0, 1, ABOVE, "above 0 % and at most 100 %"),
[RUNNEL_FIELD_FLOOR]     = JOB("floor", QUANTITY, LENGTH, floor_mm, 0, 1000, 0, "0 mm to 1 m"),
[RUNNEL_FIELD_TOLERANCE] = JOB("tolerance", QUANTITY, LENGTH, flatten_mm, 1e-5, 1, 0, "0.00001 mm to 1 mm"),
[RUNNEL_FIELD_SECTIONS]  = JOB("sections", QUANTITY, LENGTH, section_step_mm, 0, 1000, 0, "0 mm, for none, to 1 m"),
[RUNNEL_FIELD_LEVEL]     = JOB("level", LEVEL, PLAIN, level, ANY),
[RUNNEL_FIELD_OIL]       = JOB("oil", OIL, PLAIN, oil, ANY),
[RUNNEL_FIELD_WAX]       = JOB("wax", WAX, PLAIN, wax, ANY),
[RUNNEL_FIELD_UPKEEP]    = JOB("upkeep", UPKEEP, PLAIN, upkeep, ANY),
[RUNNEL_FIELD_DAYS]      = JOB("days", DAYS, PLAIN, days, ANY),
[RUNNEL_FIELD_ORDER]     = JOB("order", ORDER, PLAIN, order, ANY),
[RUNNEL_FIELD_GRITS]     = JOB("grits", GRITS, PLAIN, grits, ANY),
[RUNNEL_FIELD_RAISINGS]  = JOB("grain raised", NUMBER, PLAIN, raisings, 0, 10, RUNNEL_NONE_NEGATIVE, "0 to 10"),
[RUNNEL_FIELD_MASK]      = JOB("mask", FLAG, PLAIN, mask, ANY),
[RUNNEL_FIELD_COLOURS]   = JOB("colours", COLOURS, PLAIN, colours, ANY),
[RUNNEL_FIELD_PIECES]    = JOB("pieces", PIECES, PLAIN, pieces, ANY),

[RUNNEL_FIELD_RESIN_ROW]       = RESIN("row", RESIN_ROW, PLAIN, name, ANY),
[RUNNEL_FIELD_RESIN_RATIO]     = RESIN("ratio", RATIO, PLAIN, ratio, ANY),
[RUNNEL_FIELD_DENSITY_A]       = RESIN("density a", QUANTITY, RUNNEL_DENSITY, density_a_g_per_ml, 0.5, 5, 0, "0.5 g/ml to 5 g/ml"),
[RUNNEL_FIELD_DENSITY_B]       = RESIN("density b", QUANTITY, RUNNEL_DENSITY, density_b_g_per_ml, 0.5, 5, 0, "0.5 g/ml to 5 g/ml"),
[RUNNEL_FIELD_VISCOSITY]       = RESIN("viscosity", QUANTITY, RUNNEL_VISCOSITY, viscosity_pa_s, 0, 1000, ABOVE, "above 0 and at most 1000 Pa s"),
[RUNNEL_FIELD_SHRINKAGE]       = RESIN("shrinkage", QUANTITY, SHARE, shrinkage, 0, 0.2, 0, "0 % to 20 %"),
[RUNNEL_FIELD_STATED]          = RESIN("stated temperature", QUANTITY, DEGREES, stated_degc, -30, 100, UNKNOWN, "-30 °C to 100 °C"),
[RUNNEL_FIELD_LOWEST]          = RESIN("lowest temperature", QUANTITY, DEGREES, lowest_degc, -30, 100, UNKNOWN, "-30 °C to 100 °C"),
[RUNNEL_FIELD_POT_LIFE]        = RESIN("pot life", QUANTITY, TIME, pot_life_s, 0, YEAR, ABOVE | UNKNOWN, TO_A_YEAR),
[RUNNEL_FIELD_POT_MASS]        = RESIN("pot mass", QUANTITY, MASS, pot_mass_g, 0, 1e5, ABOVE | UNKNOWN, "above 0 and at most 100 kg"),
[RUNNEL_FIELD_GEL]             = RESIN("gel", QUANTITY, TIME, gel_s, 0, YEAR, ABOVE | UNKNOWN, TO_A_YEAR),
[RUNNEL_FIELD_RECOAT_FROM]     = RESIN("recoat from", QUANTITY, TIME, recoat_from_s, 0, YEAR, UNKNOWN, "0 min to a year"),
[RUNNEL_FIELD_RECOAT_UNTIL]    = RESIN("recoat until", QUANTITY, TIME, recoat_until_s, 0, YEAR, ABOVE | UNKNOWN, TO_A_YEAR),
[RUNNEL_FIELD_SANDABLE]        = RESIN("sandable", QUANTITY, TIME, sandable_s, 0, YEAR, ABOVE | UNKNOWN, TO_A_YEAR),
[RUNNEL_FIELD_FULL_CURE]       = RESIN("full cure", QUANTITY, TIME, full_cure_s, 0, YEAR, ABOVE | UNKNOWN, TO_A_YEAR),
[RUNNEL_FIELD_DEEPEST_LAYER]   = RESIN("deepest layer", QUANTITY, LENGTH, deepest_layer_mm, 0, 1000, ABOVE | UNKNOWN, TO_1_M),
[RUNNEL_FIELD_LARGEST_MASS]    = RESIN("largest mass", QUANTITY, MASS, largest_mass_g, 0, 1e6, ABOVE | UNKNOWN, "above 0 and at most 1000 kg"),
[RUNNEL_FIELD_RATIO_TOLERANCE] = RESIN("ratio tolerance", QUANTITY, SHARE, ratio_tolerance, 0, 0.5, ABOVE, "above 0 % and at most 50 %"),
[RUNNEL_FIELD_TINT_DEFAULT]    = RESIN("tint default", QUANTITY, SHARE, tint_default, 0, 0.2, 0, "0 % to 20 %"),
[RUNNEL_FIELD_TINT_CAP]        = RESIN("tint cap", QUANTITY, SHARE, tint_cap, 0, 0.2, 0, "0 % to 20 %"),
[RUNNEL_FIELD_ENERGY]          = RESIN("activation energy", ENERGY, PLAIN, activation_kj_per_mol, 0, 200, UNKNOWN, "0 kJ/mol to 200 kJ/mol"),
[RUNNEL_FIELD_REACTION]        = RESIN("heat of reaction", HEAT, PLAIN, reaction_j_per_g, 0, 1000, ABOVE | UNKNOWN, "above 0 and at most 1000 J/g"),

[RUNNEL_FIELD_STEP]     = SCALE("step", QUANTITY, MASS, scale.step_g, 0, 1000, ABOVE, "above 0 and at most 1 kg"),
[RUNNEL_FIELD_ACCURACY] = SCALE("accuracy", PERCENT, SHARE, scale.accuracy_percent, 0, 100, 0, "0 % to 100 %"),
[RUNNEL_FIELD_COUNTS]   = SCALE("counts", NUMBER, PLAIN, scale.accuracy_counts, 0, 1000, 0, "0 to 1000"),

[RUNNEL_FIELD_TEMPERATURE] = SHOP("temperature", QUANTITY, DEGREES, shop_degc, -30, 60, 0, "-30 °C to 60 °C"),
[RUNNEL_FIELD_HUMIDITY]    = SHOP("humidity", QUANTITY, SHARE, humidity, 0, 1, RUNNEL_NONE_NEGATIVE, "0 % to 100 %"),

[RUNNEL_FIELD_THERE_TEMPERATURE] = THERE("temperature", QUANTITY, DEGREES, destination.degc, -30, 60, 0, "-30 °C to 60 °C", "destination-temperature"),
[RUNNEL_FIELD_THERE_HUMIDITY]    = THERE("humidity", QUANTITY, SHARE, destination.humidity, 0, 1, RUNNEL_NONE_NEGATIVE, "0 % to 100 %", "destination-humidity"),

[RUNNEL_FIELD_DIAMETER] = CUP("diameter", QUANTITY, LENGTH, cup.diameter_mm, 5, 1000, 0, "5 mm to 1 m"),
[RUNNEL_FIELD_DRAIN]    = CUP("drain", QUANTITY, TIME, cup.drain_s, 1, 86400, 0, "1 s to 24 h"),
[RUNNEL_FIELD_LOSS]     = CUP("loss", QUANTITY, MASS, cup.fixed_loss_g, 0, 1e4, UNKNOWN | RUNNEL_NONE_NEGATIVE, "0 g to 10 kg", "cup-loss"),
[RUNNEL_FIELD_BRIM]     = CUP("brim", QUANTITY, RUNNEL_VOLUME, brim_mm3, 0, 1e8, NO_ZERO, "above 0 and at most 100 L"),

[RUNNEL_FIELD_DEPTH_ERROR] = ERRORS("depth", QUANTITY, LENGTH, errors.depth_mm, 0, 10, 0, "0 mm to 10 mm", "zero-error"),
[RUNNEL_FIELD_ANGLE_ERROR] = ERRORS("angle", QUANTITY, RUNNEL_ANGLE, errors.angle_deg, 0, 30, 0, "0 deg to 30 deg", "angle-error"),
[RUNNEL_FIELD_FLATNESS]    = ERRORS("flatness", QUANTITY, LENGTH, errors.flatness_mm, 0, 10, 0, "0 mm to 10 mm"),
[RUNNEL_FIELD_SOAK_ERROR]  = ERRORS("soak", QUANTITY, SHARE, errors.soak, 0, 2, 0, "0 % to 200 %", "soak-error"),

[RUNNEL_FIELD_SEALER_KIND] = SEALER("kind", SEALER_OF, PLAIN, sealer.kind, 0, 0, 0, NULL, "sealer"),
[RUNNEL_FIELD_CUT]         = SEALER("cut", CUT, PLAIN, sealer.cut_lb_per_gal, 0, 20, NO_ZERO, "above 0 lb and at most 20 lb"),
[RUNNEL_FIELD_COVERAGE]    = SEALER("coverage", QUANTITY, RUNNEL_SPREADING, sealer.m2_per_l, 0.1, 100, RUNNEL_NONE_ZERO, "0.1 m2/L to 100 m2/L"),
[RUNNEL_FIELD_DRY_FILM]    = SEALER("dry film", QUANTITY, LENGTH, sealer.dry_film_mm, 0, 2, NO_ZERO, "above 0 and at most 2 mm"),
[RUNNEL_FIELD_WET_FILM]    = SEALER("wet film", QUANTITY, LENGTH, sealer.wet_film_mm, 0, 2, NO_ZERO, "above 0 and at most 2 mm"),
[RUNNEL_FIELD_SOLIDS]      = SEALER("solids", QUANTITY, SHARE, sealer.solids, 0, 1, NO_ZERO, "above 0 % and at most 100 %"),
[RUNNEL_FIELD_THINNER]     = SEALER("thinner", QUANTITY, SHARE, sealer.thinner, 0, 10, 0, "0 % to 1000 %"),
[RUNNEL_FIELD_SEALER_LOSS] = SEALER("loss", QUANTITY, SHARE, sealer.loss, 0, 0.9, RUNNEL_NONE_NEGATIVE, "0 % to 90 %"),
[RUNNEL_FIELD_COATS]       = SEALER("coats", COUNT, PLAIN, sealer.coats, 1, 100, RUNNEL_NONE_ZERO, "1 to 100"),
[RUNNEL_FIELD_FACE_MARGIN] = SEALER("face margin", QUANTITY, LENGTH, sealer.face_margin_mm, 0, 1000, RUNNEL_NONE_NEGATIVE, "0 mm to 1 m"),
[RUNNEL_FIELD_RECOAT]      = SEALER("recoat", QUANTITY, TIME, sealer.recoat_s, 0, YEAR, NO_ZERO, TO_A_YEAR),
[RUNNEL_FIELD_HARD]        = SEALER("hard", QUANTITY, TIME, sealer.hard_s, 0, YEAR, NO_ZERO, TO_A_YEAR),

[RUNNEL_FIELD_ZERO_ON]   = LEVEL("zero on", UNDER, PLAIN, level.under, ANY),
[RUNNEL_FIELD_PASS]      = LEVEL("pass", QUANTITY, LENGTH, level.pass_mm, 0.001, 100, RUNNEL_NONE_ZERO, "0.001 mm to 100 mm"),
[RUNNEL_FIELD_BELOW]     = LEVEL("below", QUANTITY, LENGTH, level.below_mm, 0, 100, 0, "0 mm to 100 mm"),
[RUNNEL_FIELD_TAKE_OFF]  = LEVEL("take off", QUANTITY, LENGTH, level.take_off_mm, 0, 100, RUNNEL_NONE_NEGATIVE, "0 mm to 100 mm"),
[RUNNEL_FIELD_THIN]      = LEVEL("thin", QUANTITY, LENGTH, level.thin_mm, 0, 100, RUNNEL_NONE_NEGATIVE, "0 mm to 100 mm"),
[RUNNEL_FIELD_HIGH_SPOT] = LEVEL("high spot", QUANTITY, LENGTH, level.high_spot_mm, 0, 100, 0, "0 mm to 100 mm"),
[RUNNEL_FIELD_VENEER]    = LEVEL("veneer", QUANTITY, LENGTH, level.veneer_mm, 0, 10, NO_ZERO, "above 0 and at most 10 mm"),

[RUNNEL_FIELD_OIL_KIND]  = OIL("kind", NAME, PLAIN, oil.name, 0, 0, 0, NULL, "oil"),
[RUNNEL_FIELD_UPTAKE]    = OIL("uptake", QUANTITY, RUNNEL_AREA_LOADING, oil.uptake_mm, 0.001, 2, RUNNEL_NONE_ZERO, "1 ml/m2 to 2000 ml/m2"),
[RUNNEL_FIELD_END_GRAIN] = OIL("end grain", NUMBER, PLAIN, oil.end_factor, 0, 100, NO_ZERO, "above 0 and at most 100"),
[RUNNEL_FIELD_OIL_COATS] = OIL("coats", COUNT, PLAIN, oil.coats, 1, 100, RUNNEL_NONE_ZERO, "1 to 100"),
[RUNNEL_FIELD_FALL]      = OIL("fall", QUANTITY, SHARE, oil.fall, 0, 0.95, 0, "0 % to 95 %"),
[RUNNEL_FIELD_OIL_WASTE] = OIL("waste", QUANTITY, SHARE, oil.waste, 0, 0.9, RUNNEL_NONE_NEGATIVE, "0 % to 90 %"),

[RUNNEL_FIELD_RECIPE]    = WAX("recipe", RECIPE, PLAIN, wax.recipe, 0, 0, 0, NULL, "wax"),
[RUNNEL_FIELD_WAX_KIND]  = WAX("kind", NAME, PLAIN, wax.kind, 0, 0, 0, NULL, "wax-kind"),
[RUNNEL_FIELD_WAX_COATS] = WAX("coats", COUNT, PLAIN, wax.coats, 1, 100, RUNNEL_NONE_ZERO, "1 to 100", "wax-coats"),
[RUNNEL_FIELD_WAX_COAT]  = WAX("coat", QUANTITY, RUNNEL_AREA_LOADING, wax.coat_mm, 0.0001, 1, RUNNEL_NONE_ZERO, "0.1 ml/m2 to 1000 ml/m2", "wax-coat"),
[RUNNEL_FIELD_WAX_WASTE] = WAX("waste", QUANTITY, SHARE, wax.waste, 0, 0.9, RUNNEL_NONE_NEGATIVE, "0 % to 90 %"),

[RUNNEL_FIELD_USE]       = UPKEEP("use", USE, PLAIN, upkeep.use, ANY),
[RUNNEL_FIELD_WASHING]   = UPKEEP("washing", WASHING, PLAIN, upkeep.washing, ANY),
[RUNNEL_FIELD_WATER]     = UPKEEP("water", WATER, PLAIN, upkeep.water, ANY),
[RUNNEL_FIELD_DELIVERED] = UPKEEP("delivered", DATE, PLAIN, upkeep.delivered, ANY),
[RUNNEL_FIELD_OILED]     = UPKEEP("oiled", DATE, PLAIN, upkeep.oiled, ANY),

[RUNNEL_FIELD_START]    = DAYS("start", DATE, PLAIN, days.start, ANY),
[RUNNEL_FIELD_READY_BY] = DAYS("ready by", DATE, PLAIN, days.ready_by, ANY),
[RUNNEL_FIELD_HOURS]    = DAYS("hours", HOURS, PLAIN, days.hours, ANY),
[RUNNEL_FIELD_OFF]      = DAYS("off", OFF, PLAIN, days.off, 0, 0, 0, NULL, "days-off"),
[RUNNEL_FIELD_ZONE]     = DAYS("zone", NAME, PLAIN, days.zone, ANY),

[RUNNEL_FIELD_TINT] = ROW(COLOUR, runnel_job_colour, "tint", QUANTITY, SHARE, tint, 0, 0.2, RUNNEL_NONE_NEGATIVE, "0 % to 20 %"),

[RUNNEL_FIELD_PIECE_NAME] = PIECE("name", NAME, PLAIN, name, ANY),
[RUNNEL_FIELD_WOOD]       = PIECE("wood", NAME, PLAIN, wood, ANY),
[RUNNEL_FIELD_SIZE]       = PIECE("size", SIZE, LENGTH, length_mm, 0, TEN_M, NO_ZERO, TO_10_M " each way"),
[RUNNEL_FIELD_COUNT]      = PIECE("count", COUNT, PLAIN, count, 1, 100000, 0, "1 to 100000"),
[RUNNEL_FIELD_PIECE_POUR] = PIECE("pour time", QUANTITY, TIME, pour_s, 0, 86400, NO_ZERO, "above 0 and at most 24 h"),
[RUNNEL_FIELD_CARVE]      = PIECE("carve time", QUANTITY, TIME, carve_s, 0, 604800, NO_ZERO, "above 0 and at most 7 days"),
[RUNNEL_FIELD_GRAIN]      = PIECE("grain", GRAIN, PLAIN, grain, ANY),
[RUNNEL_FIELD_CHAMFER]    = PIECE("chamfer", QUANTITY, LENGTH, chamfer_mm, 0, 1000, 0, "0 mm to 1 m"),
[RUNNEL_FIELD_CHAMFERED]  = PIECE("chamfered", EDGES, PLAIN, chamfered, ANY),
[RUNNEL_FIELD_JUICE]      = PIECE("juice groove", JUICE, PLAIN, juice, ANY),
[RUNNEL_FIELD_HOLDS]      = PIECE("finger holds", HOLDS, PLAIN, holds, ANY),
[RUNNEL_FIELD_CAVITIES]   = PIECE("cavities", CAVITIES, PLAIN, cavities, ANY),

[RUNNEL_FIELD_CAVITY_NAME]    = CAVITY("name", NAME, PLAIN, name, ANY),
[RUNNEL_FIELD_TEXT]           = CAVITY("text", TEXT, PLAIN, text, ONLY(LETTERS)),
[RUNNEL_FIELD_OUTLINE]        = CAVITY("outline", OUTLINE, PLAIN, form, ONLY(RUNNEL_WITH_OUTLINE)),
[RUNNEL_FIELD_PATH]           = CAVITY("path", PATH, PLAIN, form, ONLY(RUNNEL_WITH_PATH)),
[RUNNEL_FIELD_MEASURED]       = CAVITY("measured", MEASURED, RUNNEL_VOLUME, measured_mm3, 0, 1e9, NO_ZERO | BY_MEASURE, "above 0 and at most 1000 L"),
[RUNNEL_FIELD_FONT]           = CAVITY("font", FONT, PLAIN, font, ONLY(LETTERS)),
[RUNNEL_FIELD_SINGLE_LINE]    = CAVITY("single-line", SINGLE_LINE, PLAIN, font, ONLY(LETTERS)),
[RUNNEL_FIELD_CAP_HEIGHT]     = CAVITY("cap height", QUANTITY, LENGTH, cap_height_mm, 0, TEN_M, NO_ZERO | LETTERS, TO_10_M),
[RUNNEL_FIELD_TEXT_HEIGHT]    = CAVITY("text height", QUANTITY, LENGTH, text_height_mm, 0, TEN_M, NO_ZERO | LETTERS, TO_10_M),
[RUNNEL_FIELD_LETTER_SPACING] = CAVITY("letter spacing", QUANTITY, LENGTH, spacing_mm, -1000, 1000, LETTERS, "-1 m to 1 m"),
[RUNNEL_FIELD_LINE_SPACING]   = CAVITY("line spacing", NUMBER, PLAIN, line_spacing, 0, 10, NO_ZERO | LETTERS, "above 0 and at most 10 line heights"),
[RUNNEL_FIELD_ALIGN]          = CAVITY("align", ALIGN, PLAIN, align, ONLY(LETTERS)),
[RUNNEL_FIELD_AXES]           = CAVITY("axes", NAME, PLAIN, axes, ONLY(LETTERS)),
[RUNNEL_FIELD_CUTTER]         = CAVITY("cutter", CUTTER, PLAIN, cut.cutter, ONLY(CARVED)),
[RUNNEL_FIELD_DEPTH_LIMIT]    = CAVITY("depth limit", QUANTITY, LENGTH, depth_limit_mm, 0, 1000, NO_ZERO | CARVED, TO_1_M),
[RUNNEL_FIELD_DEPTH]          = CAVITY("depth", QUANTITY, LENGTH, depth_mm, 0, 1000, NO_ZERO | CARVED, TO_1_M),
[RUNNEL_FIELD_COLOUR]         = CAVITY("colour", NAME, PLAIN, colour, ANY),
[RUNNEL_FIELD_POUR]           = CAVITY("pour time", QUANTITY, TIME, pour_s, 0, 86400, NO_ZERO, "above 0 and at most 24 h"),
[RUNNEL_FIELD_AT]             = CAVITY("at", POINT, LENGTH, at_x_mm, 0, TEN_M, CARVED, "0 m to 10 m each way"),
[RUNNEL_FIELD_FOOTPRINT]      = CAVITY("footprint", QUANTITY, AREA, measured_footprint_mm2, 0, 1e8, NO_ZERO | BY_MEASURE, "above 0 and at most 100 m2"),
[RUNNEL_FIELD_WALL_AREA]      = CAVITY("wall area", QUANTITY, AREA, measured_wall_mm2, 0, 1e8, NO_ZERO | BY_MEASURE, "above 0 and at most 100 m2"),
[RUNNEL_FIELD_DEEPEST]        = CAVITY("deepest", QUANTITY, LENGTH, measured_deepest_mm, 0, 1000, NO_ZERO | BY_MEASURE, TO_1_M),
};
/* clang-format on */

const runnel_field *runnel_field_row(runnel_field_id id) {
    return &table[id];
}

static const struct {
    const char *text;
    const char *path; /* before the key; NULL where it depends on the spot */
} scopes[RUNNEL_SCOPE_COUNT] = {
    [RUNNEL_SCOPE_JOB] = {"the job", ""},
    [RUNNEL_SCOPE_RESIN] = {"the resin", "resin."},
    [RUNNEL_SCOPE_SCALE] = {"the scale", "scale."},
    [RUNNEL_SCOPE_SHOP] = {"the shop", "shop."},
    [RUNNEL_SCOPE_CUP] = {"the cup", "cup."},
    [RUNNEL_SCOPE_ERRORS] = {"the errors", "errors."},
    [RUNNEL_SCOPE_SEALER] = {"the sealer", "sealer."},
    [RUNNEL_SCOPE_LEVEL] = {"the levelling", "level."},
    [RUNNEL_SCOPE_OIL] = {"the oil", "oil."},
    [RUNNEL_SCOPE_WAX] = {"the wax", "wax."},
    [RUNNEL_SCOPE_DESTINATION] = {"the destination", "destination."},
    [RUNNEL_SCOPE_DAYS] = {"the days", "days."},
    [RUNNEL_SCOPE_UPKEEP] = {"the upkeep", "upkeep."},
    [RUNNEL_SCOPE_COLOUR] = {"a colour", NULL},
    [RUNNEL_SCOPE_PIECE] = {"a piece", NULL},
    [RUNNEL_SCOPE_CAVITY] = {"a cavity", NULL},
};

const char *runnel_scope_text(runnel_scope scope) {
    return scopes[scope].text;
}

void *runnel_field_target(runnel_job *job, runnel_spot spot, runnel_field_id id) {
    const runnel_field *row = &table[id];
    void *base = job;
    if (row->scope == RUNNEL_SCOPE_RESIN)
        base = &job->resin;
    else if (row->scope == RUNNEL_SCOPE_COLOUR)
        base = &job->colours[spot.first];
    else if (row->scope == RUNNEL_SCOPE_PIECE)
        base = &job->pieces[spot.first];
    else if (row->scope == RUNNEL_SCOPE_CAVITY)
        base = &job->pieces[spot.first].cavities[spot.second];
    return (char *)base + row->offset;
}

/* How a value is shown: times `factor`, with `unit` after it. */
static const struct {
    double factor;
    const char *unit;
} shown[RUNNEL_DIMENSION_COUNT + 1] = {
    [RUNNEL_LENGTH] = {1, " mm"},
    [RUNNEL_AREA] = {1, " mm2"},
    [RUNNEL_VOLUME] = {1e-3, " ml"},
    [RUNNEL_MASS] = {1, " g"},
    [RUNNEL_TIME] = {1, " s"},
    [RUNNEL_TEMPERATURE] = {1, " °C"},
    [RUNNEL_ANGLE] = {1, " deg"},
    [RUNNEL_FRACTION] = {100, " %"},
    [RUNNEL_DENSITY] = {1, " g/ml"},
    [RUNNEL_VISCOSITY] = {1, " Pa s"},
    [RUNNEL_AREA_LOADING] = {1000, " ml/m2"},
    [RUNNEL_SPREADING] = {1, " m2/L"},
    [RUNNEL_DIMENSION_COUNT] = {1, ""},
};

char *runnel_field_show(const runnel_field *row, double value, char *buffer, size_t size) {
    bool already_percent = row->kind == RUNNEL_KIND_PERCENT;
    char digits[400];
    runnel_number_text(already_percent ? value : value * shown[row->dimension].factor, 6, digits,
                       sizeof digits);
    if (strchr(digits, '.')) {
        size_t end = strlen(digits);
        while (digits[end - 1] == '0')
            end--;
        end -= digits[end - 1] == '.';
        digits[end] = '\0';
    }
    const char *unit = row->kind == RUNNEL_KIND_ENERGY ? " kJ/mol"
                       : row->kind == RUNNEL_KIND_HEAT ? " J/g"
                                                       : shown[row->dimension].unit;
    snprintf(buffer, size, "%s%s", digits, unit);
    return buffer;
}

static char *option_path(const char *key, char *buffer, size_t size) {
    snprintf(buffer, size, "--%s", key);
    for (char *at = buffer; *at; at++)
        if (*at == ' ')
            *at = '-';
    return buffer;
}

char *runnel_scope_path(const runnel_job *job, runnel_spot spot, runnel_scope scope,
                        const char *key, char *buffer, size_t size) {
    char name[RUNNEL_SHOWN_SIZE];
    if (!job->file)
        return option_path(key, buffer, size);
    if (scope == RUNNEL_SCOPE_COLOUR)
        snprintf(buffer, size, "colours.%s.%s",
                 runnel_slice_show(runnel_slice_of(job->colours[spot.first].name), name), key);
    else if (scope == RUNNEL_SCOPE_PIECE)
        snprintf(buffer, size, "pieces[%zu].%s", spot.first, key);
    else if (scope == RUNNEL_SCOPE_CAVITY)
        snprintf(buffer, size, "pieces[%zu].cavities[%zu].%s", spot.first, spot.second, key);
    else
        snprintf(buffer, size, "%s%s", scopes[scope].path, key);
    return buffer;
}

char *runnel_field_path(const runnel_job *job, runnel_spot spot, runnel_field_id id, char *buffer,
                        size_t size) {
    const char *key = !job->file && table[id].option ? table[id].option : table[id].key;
    return runnel_scope_path(job, spot, table[id].scope, key, buffer, size);
}
