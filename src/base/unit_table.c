/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/unit_table.h"

#include "base/suggest.h"
#include "base/utf8.h"

#include <string.h>

/*
 * Exact by definition: inch 25.4 mm and pound 453.59237 g (agreement of 1959); US gallon 231 in3,
 * its quarts, pints and fluid ounces 1/4, 1/8, 1/128 (NIST Handbook 44, appendix C); imperial
 * gallon 4.54609 L, its quarts, pints and fluid ounces 1/4, 1/8, 1/160 (UK Units of Measurement
 * Regulations 1995); litre 1 dm3; poise 0.1 Pa s. The first units of a dimension are the usual
 * ones.
 */
static const runnel_unit units[] = {
    {"mm", RUNNEL_LENGTH, 1, 0, 0, 0, false},
    {"cm", RUNNEL_LENGTH, 1, 1, 0, 0, false},
    {"m", RUNNEL_LENGTH, 1, 3, 0, 0, true},
    {"in", RUNNEL_LENGTH, 254, -1, 0, 0, false},
    {"inch", RUNNEL_LENGTH, 254, -1, 0, 0, false},
    {"inches", RUNNEL_LENGTH, 254, -1, 0, 0, false},
    {"\"", RUNNEL_LENGTH, 254, -1, 0, 0, false},
    {"ft", RUNNEL_LENGTH, 3048, -1, 0, 0, false},
    {"foot", RUNNEL_LENGTH, 3048, -1, 0, 0, false},
    {"feet", RUNNEL_LENGTH, 3048, -1, 0, 0, false},
    {"yd", RUNNEL_LENGTH, 9144, -1, 0, 0, false},
    {"um", RUNNEL_LENGTH, 1, -3, 0, 0, true},
    {"thou", RUNNEL_LENGTH, 254, -4, 0, 0, false},
    {"mm2", RUNNEL_AREA, 1, 0, 0, 0, false},
    {"cm2", RUNNEL_AREA, 1, 2, 0, 0, false},
    {"dm2", RUNNEL_AREA, 1, 4, 0, 0, false},
    {"m2", RUNNEL_AREA, 1, 6, 0, 0, true},
    {"in2", RUNNEL_AREA, 64516, -2, 0, 0, false},
    {"sq in", RUNNEL_AREA, 64516, -2, 0, 0, false},
    {"ft2", RUNNEL_AREA, 9290304, -2, 0, 0, false},
    {"sq ft", RUNNEL_AREA, 9290304, -2, 0, 0, false},
    {"ml", RUNNEL_VOLUME, 1, 3, 0, 0, true},
    {"mL", RUNNEL_VOLUME, 1, 3, 0, 0, true},
    {"l", RUNNEL_VOLUME, 1, 6, 0, 0, false},
    {"litre", RUNNEL_VOLUME, 1, 6, 0, 0, false},
    {"litres", RUNNEL_VOLUME, 1, 6, 0, 0, false},
    {"liter", RUNNEL_VOLUME, 1, 6, 0, 0, false},
    {"liters", RUNNEL_VOLUME, 1, 6, 0, 0, false},
    {"cl", RUNNEL_VOLUME, 1, 4, 0, 0, false},
    {"dl", RUNNEL_VOLUME, 1, 5, 0, 0, false},
    {"ul", RUNNEL_VOLUME, 1, 0, 0, 0, false},
    {"mm3", RUNNEL_VOLUME, 1, 0, 0, 0, false},
    {"cm3", RUNNEL_VOLUME, 1, 3, 0, 0, false},
    {"cc", RUNNEL_VOLUME, 1, 3, 0, 0, false},
    {"dm3", RUNNEL_VOLUME, 1, 6, 0, 0, false},
    {"m3", RUNNEL_VOLUME, 1, 9, 0, 0, true},
    {"in3", RUNNEL_VOLUME, 16387064, -3, 0, 0, false},
    {"cu in", RUNNEL_VOLUME, 16387064, -3, 0, 0, false},
    {"ft3", RUNNEL_VOLUME, 28316846592, -3, 0, 0, false},
    {"cu ft", RUNNEL_VOLUME, 28316846592, -3, 0, 0, false},
    {"US fl oz", RUNNEL_VOLUME, 295735295625, -7, 0, 0, false},
    {"US fluid ounce", RUNNEL_VOLUME, 295735295625, -7, 0, 0, false},
    {"US fluid ounces", RUNNEL_VOLUME, 295735295625, -7, 0, 0, false},
    {"US pint", RUNNEL_VOLUME, 473176473, -3, 0, 0, false},
    {"US pints", RUNNEL_VOLUME, 473176473, -3, 0, 0, false},
    {"US quart", RUNNEL_VOLUME, 946352946, -3, 0, 0, false},
    {"US quarts", RUNNEL_VOLUME, 946352946, -3, 0, 0, false},
    {"US gal", RUNNEL_VOLUME, 3785411784, -3, 0, 0, false},
    {"US gallon", RUNNEL_VOLUME, 3785411784, -3, 0, 0, false},
    {"US gallons", RUNNEL_VOLUME, 3785411784, -3, 0, 0, false},
    {"imperial fl oz", RUNNEL_VOLUME, 284130625, -4, 0, 0, false},
    {"imp fl oz", RUNNEL_VOLUME, 284130625, -4, 0, 0, false},
    {"imperial fluid ounce", RUNNEL_VOLUME, 284130625, -4, 0, 0, false},
    {"imperial fluid ounces", RUNNEL_VOLUME, 284130625, -4, 0, 0, false},
    {"imperial pint", RUNNEL_VOLUME, 56826125, -2, 0, 0, false},
    {"imperial pints", RUNNEL_VOLUME, 56826125, -2, 0, 0, false},
    {"imperial quart", RUNNEL_VOLUME, 11365225, -1, 0, 0, false},
    {"imperial quarts", RUNNEL_VOLUME, 11365225, -1, 0, 0, false},
    {"imperial gal", RUNNEL_VOLUME, 454609, 1, 0, 0, false},
    {"imp gal", RUNNEL_VOLUME, 454609, 1, 0, 0, false},
    {"imperial gallon", RUNNEL_VOLUME, 454609, 1, 0, 0, false},
    {"imperial gallons", RUNNEL_VOLUME, 454609, 1, 0, 0, false},
    {"g", RUNNEL_MASS, 1, 0, 0, 0, false},
    {"gram", RUNNEL_MASS, 1, 0, 0, 0, false},
    {"grams", RUNNEL_MASS, 1, 0, 0, 0, false},
    {"kg", RUNNEL_MASS, 1, 3, 0, 0, false},
    {"mg", RUNNEL_MASS, 1, -3, 0, 0, true},
    {"oz weight", RUNNEL_MASS, 28349523125, -9, 0, 0, false},
    {"oz wt", RUNNEL_MASS, 28349523125, -9, 0, 0, false},
    {"lb", RUNNEL_MASS, 45359237, -5, 0, 0, false},
    {"lbs", RUNNEL_MASS, 45359237, -5, 0, 0, false},
    {"pound", RUNNEL_MASS, 45359237, -5, 0, 0, false},
    {"pounds", RUNNEL_MASS, 45359237, -5, 0, 0, false},
    {"s", RUNNEL_TIME, 1, 0, 0, 0, false},
    {"sec", RUNNEL_TIME, 1, 0, 0, 0, false},
    {"second", RUNNEL_TIME, 1, 0, 0, 0, false},
    {"seconds", RUNNEL_TIME, 1, 0, 0, 0, false},
    {"min", RUNNEL_TIME, 60, 0, 0, 0, false},
    {"mins", RUNNEL_TIME, 60, 0, 0, 0, false},
    {"minute", RUNNEL_TIME, 60, 0, 0, 0, false},
    {"minutes", RUNNEL_TIME, 60, 0, 0, 0, false},
    {"h", RUNNEL_TIME, 3600, 0, 0, 0, false},
    {"hr", RUNNEL_TIME, 3600, 0, 0, 0, false},
    {"hrs", RUNNEL_TIME, 3600, 0, 0, 0, false},
    {"hour", RUNNEL_TIME, 3600, 0, 0, 0, false},
    {"hours", RUNNEL_TIME, 3600, 0, 0, 0, false},
    {"d", RUNNEL_TIME, 86400, 0, 0, 0, false},
    {"day", RUNNEL_TIME, 86400, 0, 0, 0, false},
    {"days", RUNNEL_TIME, 86400, 0, 0, 0, false},
    {"week", RUNNEL_TIME, 604800, 0, 0, 0, false},
    {"weeks", RUNNEL_TIME, 604800, 0, 0, 0, false},
    {"degC", RUNNEL_TEMPERATURE, 1, 0, 0, 0, false},
    {"deg C", RUNNEL_TEMPERATURE, 1, 0, 0, 0, false},
    {"C", RUNNEL_TEMPERATURE, 1, 0, 0, 0, false},
    {"degF", RUNNEL_TEMPERATURE, 5, 0, 9, 32, false},
    {"deg F", RUNNEL_TEMPERATURE, 5, 0, 9, 32, false},
    {"F", RUNNEL_TEMPERATURE, 5, 0, 9, 32, false},
    {"deg", RUNNEL_ANGLE, 1, 0, 0, 0, false},
    {"degree", RUNNEL_ANGLE, 1, 0, 0, 0, false},
    {"degrees", RUNNEL_ANGLE, 1, 0, 0, 0, false},
    {"%", RUNNEL_FRACTION, 1, -2, 0, 0, false},
    {"percent", RUNNEL_FRACTION, 1, -2, 0, 0, false},
    {"per cent", RUNNEL_FRACTION, 1, -2, 0, 0, false},
    {"g/ml", RUNNEL_DENSITY, 1, 0, 0, 0, true},
    {"g/mL", RUNNEL_DENSITY, 1, 0, 0, 0, true},
    {"g/cm3", RUNNEL_DENSITY, 1, 0, 0, 0, false},
    {"g/cc", RUNNEL_DENSITY, 1, 0, 0, 0, false},
    {"kg/l", RUNNEL_DENSITY, 1, 0, 0, 0, false},
    {"g/l", RUNNEL_DENSITY, 1, -3, 0, 0, false},
    {"kg/m3", RUNNEL_DENSITY, 1, -3, 0, 0, true},
    {"kg/dm3", RUNNEL_DENSITY, 1, 0, 0, 0, false},
    {"lb/US gal", RUNNEL_DENSITY, 45359237, 1, 3785411784, 0, false},
    {"lb/US gallon", RUNNEL_DENSITY, 45359237, 1, 3785411784, 0, false},
    {"lb/imperial gal", RUNNEL_DENSITY, 45359237, -3, 454609, 0, false},
    {"lb/imp gal", RUNNEL_DENSITY, 45359237, -3, 454609, 0, false},
    {"lb/ft3", RUNNEL_DENSITY, 45359237, 1, 28316846592, 0, false},
    {"Pa s", RUNNEL_VISCOSITY, 1, 0, 0, 0, true},
    {"Pas", RUNNEL_VISCOSITY, 1, 0, 0, 0, true},
    {"mPa s", RUNNEL_VISCOSITY, 1, -3, 0, 0, true},
    {"mPas", RUNNEL_VISCOSITY, 1, -3, 0, 0, true},
    {"cP", RUNNEL_VISCOSITY, 1, -3, 0, 0, false},
    {"cps", RUNNEL_VISCOSITY, 1, -3, 0, 0, false},
    {"poise", RUNNEL_VISCOSITY, 1, -1, 0, 0, false},
    {"ml/m2", RUNNEL_AREA_LOADING, 1, -3, 0, 0, true},
    {"mL/m2", RUNNEL_AREA_LOADING, 1, -3, 0, 0, true},
    {"l/m2", RUNNEL_AREA_LOADING, 1, 0, 0, 0, false},
    {"mm3/mm2", RUNNEL_AREA_LOADING, 1, 0, 0, 0, false},
    {"m2/l", RUNNEL_SPREADING, 1, 0, 0, 0, false},
    {"m2/litre", RUNNEL_SPREADING, 1, 0, 0, 0, false},
    {"m2/liter", RUNNEL_SPREADING, 1, 0, 0, 0, false},
    {"ft2/US gal", RUNNEL_SPREADING, 9290304, 1, 3785411784, 0, false},
    {"ft2/US gallon", RUNNEL_SPREADING, 9290304, 1, 3785411784, 0, false},
    {"sq ft/US gal", RUNNEL_SPREADING, 9290304, 1, 3785411784, 0, false},
    {"sq ft/US gallon", RUNNEL_SPREADING, 9290304, 1, 3785411784, 0, false},
    {"ft2/imperial gal", RUNNEL_SPREADING, 9290304, -3, 454609, 0, false},
    {"ft2/imp gal", RUNNEL_SPREADING, 9290304, -3, 454609, 0, false},
    {"sq ft/imperial gal", RUNNEL_SPREADING, 9290304, -3, 454609, 0, false},
    {"sq ft/imp gal", RUNNEL_SPREADING, 9290304, -3, 454609, 0, false},
};

/* Names that are more than one unit, or none of its dimension; alike in either case. */
static const struct {
    const char *name, *doubt;
} doubts[] = {
#define WHICH_OUNCE                                                                                \
    "does not say which ounce: 'US fl oz' or 'imperial fl oz' of volume, or 'oz weight'"
#define WHICH_SYSTEM(unit) "needs its system: 'US " unit "' or 'imperial " unit "'"
#define WHICH_SPOON        "differs from country to country: write ml"
    {"oz", WHICH_OUNCE},
    {"ozs", WHICH_OUNCE},
    {"ounce", WHICH_OUNCE},
    {"ounces", WHICH_OUNCE},
    {"fl oz", WHICH_OUNCE},
    {"floz", WHICH_OUNCE},
    {"fluid ounce", WHICH_OUNCE},
    {"fluid ounces", WHICH_OUNCE},
    {"US oz", WHICH_OUNCE},
    {"gal", WHICH_SYSTEM("gal")},
    {"gallon", WHICH_SYSTEM("gal")},
    {"gallons", WHICH_SYSTEM("gal")},
    {"pint", WHICH_SYSTEM("pint")},
    {"pints", WHICH_SYSTEM("pint")},
    {"pt", WHICH_SYSTEM("pint")},
    {"quart", WHICH_SYSTEM("quart")},
    {"quarts", WHICH_SYSTEM("quart")},
    {"qt", WHICH_SYSTEM("quart")},
    {"lb/gal", "needs its gallon: 'lb/US gal' or 'lb/imperial gal'"},
    {"ft2/gal", "needs its gallon: 'ft2/US gal' or 'ft2/imperial gal'"},
    {"sq ft/gal", "needs its gallon: 'ft2/US gal' or 'ft2/imperial gal'"},
    {"cup", WHICH_SPOON},
    {"cups", WHICH_SPOON},
    {"tsp", WHICH_SPOON},
    {"tbsp", WHICH_SPOON},
    {"mil", "is 0.001 in to some and 1 mm to others: write 'thou' or 'mm'"},
    {"mils", "is 0.001 in to some and 1 mm to others: write 'thou' or 'mm'"},
    {"month", "has no fixed length: write days or weeks"},
    {"months", "has no fixed length: write days or weeks"},
    {"g/m2", "is a mass per area, which needs a density: write ml/m2"},
};

static const runnel_dimension_words words[RUNNEL_DIMENSION_COUNT] = {
    [RUNNEL_LENGTH] = {"a length", "mm, cm, m, in or ft", "12 mm", "mm"},
    [RUNNEL_AREA] = {"an area", "mm2, cm2, m2, in2 or ft2", "250 cm2", "mm2"},
    [RUNNEL_VOLUME] = {"a volume", "ml, L, cm3, in3, US fl oz or imperial fl oz", "250 ml", "mm3"},
    [RUNNEL_MASS] = {"a mass", "g, kg, oz weight or lb", "250 g", "g"},
    [RUNNEL_TIME] = {"a time", "s, min, h, days or weeks", "1 h 30 min", "s"},
    [RUNNEL_TEMPERATURE] = {"a temperature", RUNNEL_DEGC " or " RUNNEL_DEGF, "20 " RUNNEL_DEGC,
                            RUNNEL_DEGC},
    [RUNNEL_ANGLE] = {"an angle", "deg", "60 deg", "deg"},
    [RUNNEL_FRACTION] = {"a percentage", "%", "5 %", ""},
    [RUNNEL_DENSITY] = {"a density", "g/ml, g/cm3, kg/L, kg/m3 or lb/US gal", "1.1 g/ml", "g/ml"},
    [RUNNEL_VISCOSITY] = {"a viscosity", "Pa s, mPa s or cP", "900 mPa s", "Pa s"},
    [RUNNEL_AREA_LOADING] = {"a volume per area", "ml/m2 or L/m2", "50 ml/m2", "mm3/mm2"},
    [RUNNEL_SPREADING] = {"a coverage", "m2/L, ft2/US gal or ft2/imperial gal", "10 m2/L", "m2/L"},
};

const runnel_dimension_words *runnel_dimension_words_of(runnel_dimension dimension) {
    static const runnel_dimension_words unknown = {"a quantity", "no unit", "", ""};
    return (unsigned)dimension < RUNNEL_DIMENSION_COUNT ? &words[dimension] : &unknown;
}

/* Characters of units that have a plain spelling. */
static const struct {
    uint32_t point;
    const char *plain;
} spellings[] = {
    {0xB0, "deg"},  {0xBA, "deg"},  {0x2103, "degC"}, {0x2109, "degF"}, {0x2033, "\""},
    {0x201C, "\""}, {0x201D, "\""}, {0xB2, "2"},      {0xB3, "3"},      {0xB5, "u"},
    {0x3BC, "u"},   {0x2113, "l"},  {0xB7, " "},      {0x22C5, " "},    {0x2044, "/"},
    {0x2215, "/"},  {0xFF05, "%"},
};

static const char *plain_spelling(uint32_t point, char *one) {
    for (size_t i = 0; i < sizeof spellings / sizeof *spellings; i++)
        if (spellings[i].point == point)
            return spellings[i].plain;
    one[0] = (char)(point == '*' || runnel_is_blank(point) ? ' ' : point);
    one[1] = '\0';
    if (point == '.' || point == '^')
        return "";
    return *one == ' ' || (point > ' ' && point < 0x7F) ? one : NULL;
}

bool runnel_unit_spell(runnel_slice text, char *spelled) {
    size_t count = 0;
    for (; text.at < text.end; runnel_slice_step(&text)) {
        char one[2];
        const char *plain = plain_spelling(runnel_slice_peek(text, NULL), one);
        if (!plain)
            return false;
        for (; *plain; plain++) {
            int last = count ? spelled[count - 1] : 0;
            if (*plain == ' ' && (last == ' ' || last == '/'))
                continue;
            if (*plain == '/' && last == ' ')
                count--;
            if (count + 1 >= RUNNEL_UNIT_SIZE)
                return false;
            spelled[count++] = *plain;
        }
    }
    spelled[count] = '\0';
    return true;
}

static int small_letter(int letter) {
    return letter >= 'A' && letter <= 'Z' ? letter + ('a' - 'A') : letter;
}

static bool alike(const char *one, const char *other) {
    for (; *one && small_letter(*one) == small_letter(*other); one++)
        other++;
    return *one == *other;
}

const runnel_unit *runnel_unit_find(const char *spelled) {
    for (size_t i = 0; i < sizeof units / sizeof *units; i++)
        if (units[i].keeps_case ? !strcmp(units[i].name, spelled) : alike(units[i].name, spelled))
            return &units[i];
    return NULL;
}

const char *runnel_unit_doubt(const char *spelled) {
    for (size_t i = 0; i < sizeof doubts / sizeof *doubts; i++)
        if (alike(doubts[i].name, spelled))
            return doubts[i].doubt;
    return NULL;
}

const char *runnel_unit_nearest(const char *spelled, runnel_dimension dimension) {
    const char *names[sizeof units / sizeof *units];
    size_t count = 0;
    for (size_t i = 0; i < sizeof units / sizeof *units; i++)
        if (units[i].dimension == dimension)
            names[count++] = units[i].name;
    return runnel_nearest(spelled, names, count);
}

double runnel_unit_value(const runnel_unit *unit, const runnel_amount *amount) {
    double divisor = unit->divisor ? (double)unit->divisor : 1;
    if (unit->zero != 0) {
        double reading = runnel_decimal_scaled(&amount->upper, 1, 0) / amount->lower;
        return (reading - unit->zero) * (double)unit->factor / divisor;
    }
    double upper = runnel_decimal_scaled(&amount->upper, unit->factor, unit->shift);
    return upper / (amount->lower * divisor);
}
