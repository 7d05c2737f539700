/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/units.h"

#include "compare.h"
#include "failing.h"
#include "runnel/memory.h"

#include <float.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(table) (sizeof(table) / sizeof *(table))
#define DEG          "\xC2\xB0"

/* Random numbers that are the same on every run (the finaliser of splitmix64, Steele 2014). */
static uint64_t chance_state;
static uint64_t chance(void) {
    uint64_t z = (chance_state += 0x9E3779B97F4A7C15);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
    return z ^ (z >> 31);
}

/*
 * Values worked out by hand from the definitions: inch 25.4 mm and pound 453.59237 g (1959), US
 * gallon 231 in3 = 3785411.784 mm3, imperial gallon 4546090 mm3, poise 0.1 Pa s.
 */
static const struct {
    const char *text;
    runnel_dimension dimension;
    double value;
} taken[] = {
    {"12 mm", RUNNEL_LENGTH, 12},
    {"60mm", RUNNEL_LENGTH, 60},
    {"  60\tmm ", RUNNEL_LENGTH, 60},
    {"5 MM", RUNNEL_LENGTH, 5},
    {"0 mm", RUNNEL_LENGTH, 0},
    {"-0 mm", RUNNEL_LENGTH, 0},
    {"1e3 mm", RUNNEL_LENGTH, 1000},
    {"1E+3mm", RUNNEL_LENGTH, 1000},
    {"25e-1 mm", RUNNEL_LENGTH, 2.5},
    {".5 mm", RUNNEL_LENGTH, 0.5},
    {"+4 mm", RUNNEL_LENGTH, 4},
    {"-4 mm", RUNNEL_LENGTH, -4},
    {"\xE2\x88\x92"
     "4 mm",
     RUNNEL_LENGTH, -4}, /* minus sign */
    {"12\xC2\xA0mm", RUNNEL_LENGTH, 12},
    {"12\xE2\x80\xAFmm", RUNNEL_LENGTH, 12},
    {"1.2 cm", RUNNEL_LENGTH, 12},
    {"1.005 m", RUNNEL_LENGTH, 1005},
    {"0.1 cm", RUNNEL_LENGTH, 1},
    {"12 \xC2\xB5m", RUNNEL_LENGTH, 0.012},
    {"12 \xCE\xBCm", RUNNEL_LENGTH, 0.012},
    {"10 thou", RUNNEL_LENGTH, 0.254},
    {"1 in", RUNNEL_LENGTH, 25.4},
    {"1 in.", RUNNEL_LENGTH, 25.4},
    {"1 inch", RUNNEL_LENGTH, 25.4},
    {"2 Inches", RUNNEL_LENGTH, 50.8},
    {"10\"", RUNNEL_LENGTH, 254},
    {"10\xE2\x80\xB3", RUNNEL_LENGTH, 254}, /* double prime */
    {"10\xE2\x80\x9D", RUNNEL_LENGTH, 254}, /* closing quotation mark */
    {"3/8 in", RUNNEL_LENGTH, 9.525},
    {"1/2\"", RUNNEL_LENGTH, 12.7},
    {"1 1/4 in", RUNNEL_LENGTH, 31.75},
    {"1-1/4 in", RUNNEL_LENGTH, 31.75},
    {"-1 1/4 in", RUNNEL_LENGTH, -31.75},
    {"5/4 in", RUNNEL_LENGTH, 31.75},
    {"1\xE2\x81\x84"
     "2 in",
     RUNNEL_LENGTH, 12.7}, /* fraction slash */
    {"\xC2\xBD in", RUNNEL_LENGTH, 12.7},
    {"1\xC2\xBE in", RUNNEL_LENGTH, 44.45},
    {"2 \xE2\x85\x9C\"", RUNNEL_LENGTH, 60.325},
    {"1/3 in", RUNNEL_LENGTH, 25.4 / 3},
    {"1 ft", RUNNEL_LENGTH, 304.8},
    {"2 feet", RUNNEL_LENGTH, 609.6},
    {"1 yd", RUNNEL_LENGTH, 914.4},
    {"2 mm\xC2\xB2", RUNNEL_AREA, 2},
    {"2 mm^2", RUNNEL_AREA, 2},
    {"3 cm2", RUNNEL_AREA, 300},
    {"1.5 m\xC2\xB2", RUNNEL_AREA, 1500000},
    {"1 in2", RUNNEL_AREA, 645.16},
    {"2 sq. in.", RUNNEL_AREA, 1290.32},
    {"1 ft2", RUNNEL_AREA, 92903.04},
    {"1 sq ft", RUNNEL_AREA, 92903.04},
    {"250 ml", RUNNEL_VOLUME, 250000},
    {"250mL", RUNNEL_VOLUME, 250000},
    {"1 L", RUNNEL_VOLUME, 1000000},
    {"1.5 l", RUNNEL_VOLUME, 1500000},
    {"2 litres", RUNNEL_VOLUME, 2000000},
    {"5 cl", RUNNEL_VOLUME, 50000},
    {"5 dl", RUNNEL_VOLUME, 500000},
    {"4 cm\xC2\xB3", RUNNEL_VOLUME, 4000},
    {"4 cc", RUNNEL_VOLUME, 4000},
    {"7 mm3", RUNNEL_VOLUME, 7},
    {"1 in3", RUNNEL_VOLUME, 16387.064},
    {"1 m3", RUNNEL_VOLUME, 1e9},
    {"1 ft3", RUNNEL_VOLUME, 28316846.592},
    {"1 US fl oz", RUNNEL_VOLUME, 29573.5295625}, /* 3785411.784 / 128 */
    {"8 U.S. fl. oz.", RUNNEL_VOLUME, 236588.2365},
    {"8 us  FL oz", RUNNEL_VOLUME, 236588.2365},
    {"1 imp fl oz", RUNNEL_VOLUME, 28413.0625}, /* 4546090 / 160 */
    {"2 imperial fl oz", RUNNEL_VOLUME, 56826.125},
    {"1 US gal", RUNNEL_VOLUME, 3785411.784},
    {"1 US quart", RUNNEL_VOLUME, 946352.946},
    {"1 US pint", RUNNEL_VOLUME, 473176.473},
    {"1/2 US gallon", RUNNEL_VOLUME, 1892705.892},
    {"1 imperial gallon", RUNNEL_VOLUME, 4546090},
    {"1 imperial quart", RUNNEL_VOLUME, 1136522.5},
    {"1 imperial pint", RUNNEL_VOLUME, 568261.25},
    {"250 g", RUNNEL_MASS, 250},
    {"0.25 kg", RUNNEL_MASS, 250},
    {"5 mg", RUNNEL_MASS, 0.005},
    {"1 oz weight", RUNNEL_MASS, 28.349523125}, /* 453.59237 / 16 */
    {"4 oz wt", RUNNEL_MASS, 113.3980925},
    {"1 lb", RUNNEL_MASS, 453.59237},
    {"2 lbs", RUNNEL_MASS, 907.18474},
    {"45 s", RUNNEL_TIME, 45},
    {"90 min", RUNNEL_TIME, 5400},
    {"1 h", RUNNEL_TIME, 3600},
    {"6 hours", RUNNEL_TIME, 21600},
    {"2 days", RUNNEL_TIME, 172800},
    {"2 weeks", RUNNEL_TIME, 1209600},
    {"1 h 30 min", RUNNEL_TIME, 5400},
    {"1h30min", RUNNEL_TIME, 5400},
    {"1 h. 30 min.", RUNNEL_TIME, 5400},
    {"1 day 2 h 30 min 15 s", RUNNEL_TIME, 95415},
    {"1 h .5 min", RUNNEL_TIME, 3630},
    {"1.5 h 1/2 min", RUNNEL_TIME, 5430},
    {"1 1/2 h", RUNNEL_TIME, 5400},
    {"-5 min", RUNNEL_TIME, -300},
    {"20 " DEG "C", RUNNEL_TEMPERATURE, 20},
    {"20" DEG " C", RUNNEL_TEMPERATURE, 20},
    {"20 \xC2\xBA"
     "C",
     RUNNEL_TEMPERATURE, 20},                    /* ordinal sign taken for a degree sign */
    {"20 \xE2\x84\x83", RUNNEL_TEMPERATURE, 20}, /* one character */
    {"20C", RUNNEL_TEMPERATURE, 20},
    {"20 deg C", RUNNEL_TEMPERATURE, 20},
    {"-5 " DEG "C", RUNNEL_TEMPERATURE, -5},
    {"0 " DEG "C", RUNNEL_TEMPERATURE, 0},
    {"212 " DEG "F", RUNNEL_TEMPERATURE, 100},
    {"32 F", RUNNEL_TEMPERATURE, 0},
    {"68 " DEG "F", RUNNEL_TEMPERATURE, 20},
    {"-40 F", RUNNEL_TEMPERATURE, -40},
    {"0 F", RUNNEL_TEMPERATURE, -160.0 / 9},
    {"77 \xE2\x84\x89", RUNNEL_TEMPERATURE, 25},
    {"60 deg", RUNNEL_ANGLE, 60},
    {"60" DEG, RUNNEL_ANGLE, 60},
    {"22.5 degrees", RUNNEL_ANGLE, 22.5},
    {"5 %", RUNNEL_FRACTION, 0.05},
    {"12.5%", RUNNEL_FRACTION, 0.125},
    {"-3 percent", RUNNEL_FRACTION, -0.03},
    {"1/2 %", RUNNEL_FRACTION, 0.005},
    {"1.1 g/ml", RUNNEL_DENSITY, 1.1},
    {"1.1 g / mL", RUNNEL_DENSITY, 1.1},
    {"1.1 g/cm\xC2\xB3", RUNNEL_DENSITY, 1.1},
    {"1.1 kg/L", RUNNEL_DENSITY, 1.1},
    {"1100 kg/m3", RUNNEL_DENSITY, 1.1},
    {"9 lb/US gal", RUNNEL_DENSITY, 9 * 453.59237 / 3785.411784},
    {"10 lb/imperial gal", RUNNEL_DENSITY, 10 * 453.59237 / 4546.09},
    {"62.4 lb/ft3", RUNNEL_DENSITY, 62.4 * 453.59237 / 28316.846592},
    {"0.9 Pa s", RUNNEL_VISCOSITY, 0.9},
    {"900 mPa\xC2\xB7s", RUNNEL_VISCOSITY, 0.9},
    {"900 mPa.s", RUNNEL_VISCOSITY, 0.9},
    {"900 mPa*s", RUNNEL_VISCOSITY, 0.9},
    {"900 cP", RUNNEL_VISCOSITY, 0.9},
    {"9 poise", RUNNEL_VISCOSITY, 0.9},
    {"50 ml/m2", RUNNEL_AREA_LOADING, 0.05},
    {"50 ml / m\xC2\xB2", RUNNEL_AREA_LOADING, 0.05},
    {"0.05 L/m2", RUNNEL_AREA_LOADING, 0.05},
    {"9.8 m2/L", RUNNEL_SPREADING, 9.8},
    {"9.8 m\xC2\xB2 / litre", RUNNEL_SPREADING, 9.8},
    /* ft2 0.09290304 m2, US gallon 3.785411784 L, imperial gallon 4.54609 L, exact */
    {"400 ft2/US gal", RUNNEL_SPREADING, 400 * 0.09290304 / 3.785411784},
    {"400 sq ft/imperial gal", RUNNEL_SPREADING, 400 * 0.09290304 / 4.54609},
};

START_TEST(quantity_taken) {
    runnel_problems problems = {0};
    double value = 99;
    ck_assert_int_eq(
        runnel_quantity_parse(taken[_i].text, taken[_i].dimension, &problems, NULL, &value),
        RUNNEL_OK);
    ck_near(value, taken[_i].value, 2 * DBL_EPSILON);
    ck_assert_uint_eq(problems.count, 0);
}
END_TEST

#define LENGTH_ENDS "; a length ends in mm, cm, m, in or ft, such as '12 mm'"
static const struct {
    const char *text;
    runnel_dimension dimension;
    runnel_status status;
    const char *told; /* the whole text of the problem */
} refused[] = {
    {"", RUNNEL_LENGTH, RUNNEL_E_SYNTAX, "'' is empty; a length is needed, such as '12 mm'"},
    {"  ", RUNNEL_ANGLE, RUNNEL_E_SYNTAX, "'' is empty; an angle is needed, such as '60 deg'"},
    {"mm", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'mm' does not start with a number; a length is needed, such as '12 mm'"},
    {"- 5 mm", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'- 5 mm' does not start with a number; a length is needed, such as '12 mm'"},
    {"+-5 mm", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'+-5 mm' does not start with a number; a length is needed, such as '12 mm'"},
    {"nan mm", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'nan mm' does not start with a number; a length is needed, such as '12 mm'"},
    {"inf mm", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'inf mm' does not start with a number; a length is needed, such as '12 mm'"},
    {"infinity", RUNNEL_VOLUME, RUNNEL_E_SYNTAX,
     "'infinity' does not start with a number; a volume is needed, such as '250 ml'"},
    {"e3 mm", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'e3 mm' does not start with a number; a length is needed, such as '12 mm'"},
    {"\xD9\xA1\xD9\xA2 mm", RUNNEL_LENGTH, RUNNEL_E_SYNTAX, /* digits of another script */
     "'\xD9\xA1\xD9\xA2 mm' does not start with a number; a length is needed, such as '12 mm'"},
    {"0x1F mm", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'0x1F mm' is not a decimal number; a length is needed, such as '12 mm'"},
    {"12,5 mm", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'12,5 mm' has a comma in its number; the decimal sign is a point, as in 12.5; "
     "a length is needed, such as '12 mm'"},
    {"0,125 in", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'0,125 in' has a comma in its number; the decimal sign is a point, as in 12.5; "
     "a length is needed, such as '12 mm'"},
    {"1,000 mm", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'1,000 mm' sets thousands apart; write 1000 without a sign between, and decimals after a "
     "point; a length is needed, such as '12 mm'"},
    {"1'000 g", RUNNEL_MASS, RUNNEL_E_SYNTAX,
     "'1'000 g' sets thousands apart; write 1000 without a sign between, and decimals after a "
     "point; a mass is needed, such as '250 g'"},
    {"1_000 g", RUNNEL_MASS, RUNNEL_E_SYNTAX,
     "'1_000 g' sets thousands apart; write 1000 without a sign between, and decimals after a "
     "point; a mass is needed, such as '250 g'"},
    {"1 000 g", RUNNEL_MASS, RUNNEL_E_SYNTAX,
     "'1 000 g' has two numbers, or a blank inside one, where one number is needed; a mass is "
     "needed, such as '250 g'"},
    {"12-14 mm", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'12-14 mm' has two numbers, or a blank inside one, where one number is needed; a length is "
     "needed, such as '12 mm'"},
    {"5. mm", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'5. mm' has no digit behind its decimal point; a length is needed, such as '12 mm'"},
    {"1.2.3 mm", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'1.2.3 mm' has two decimal points; a length is needed, such as '12 mm'"},
    {"1/0 in", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'1/0 in' divides by zero; a length is needed, such as '12 mm'"},
    {"2 1/0 in", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'2 1/0 in' divides by zero; a length is needed, such as '12 mm'"},
    {"1.5/2 in", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'1.5/2 in' has a fraction that is not of two whole numbers; write it like 3/8 or 1 1/4; "
     "a length is needed, such as '12 mm'"},
    {"1/2.5 in", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'1/2.5 in' has a fraction that is not of two whole numbers; write it like 3/8 or 1 1/4; "
     "a length is needed, such as '12 mm'"},
    {"1/ in", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'1/ in' has a fraction that is not of two whole numbers; write it like 3/8 or 1 1/4; "
     "a length is needed, such as '12 mm'"},
    {"1/2/3 in", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'1/2/3 in' has a fraction that is not of two whole numbers; write it like 3/8 or 1 1/4; "
     "a length is needed, such as '12 mm'"},
    {"1 5/4 in", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'1 5/4 in' has a whole number with a fraction that is not below 1; write it like 1 1/4; "
     "a length is needed, such as '12 mm'"},
    {"1/1234567890 in", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'1/1234567890 in' has a fraction of more than nine digits; a length is needed, such as "
     "'12 mm'"},
    {"12", RUNNEL_LENGTH, RUNNEL_E_UNIT, "'12' has no unit" LENGTH_ENDS},
    {"0", RUNNEL_LENGTH, RUNNEL_E_UNIT, "'0' has no unit" LENGTH_ENDS},
    {"3/8", RUNNEL_LENGTH, RUNNEL_E_UNIT, "'3/8' has no unit" LENGTH_ENDS},
    {"12", RUNNEL_AREA, RUNNEL_E_UNIT,
     "'12' has no unit; an area ends in mm2, cm2, m2, in2 or ft2, such as '250 cm2'"},
    {"12", RUNNEL_VOLUME, RUNNEL_E_UNIT,
     "'12' has no unit; a volume ends in ml, L, cm3, in3, US fl oz or imperial fl oz, such as "
     "'250 ml'"},
    {"12", RUNNEL_MASS, RUNNEL_E_UNIT,
     "'12' has no unit; a mass ends in g, kg, oz weight or lb, such as '250 g'"},
    {"90", RUNNEL_TIME, RUNNEL_E_UNIT,
     "'90' has no unit; a time ends in s, min, h, days or weeks, such as '1 h 30 min'"},
    {"20", RUNNEL_TEMPERATURE, RUNNEL_E_UNIT,
     "'20' has no unit; a temperature ends in " DEG "C or " DEG "F, such as '20 " DEG "C'"},
    {"60", RUNNEL_ANGLE, RUNNEL_E_UNIT, "'60' has no unit; an angle ends in deg, such as '60 deg'"},
    {"0.05", RUNNEL_FRACTION, RUNNEL_E_UNIT,
     "'0.05' has no unit; a percentage ends in %, such as '5 %'"},
    {"1.1", RUNNEL_DENSITY, RUNNEL_E_UNIT,
     "'1.1' has no unit; a density ends in g/ml, g/cm3, kg/L, kg/m3 or lb/US gal, such as "
     "'1.1 g/ml'"},
    {"0.9", RUNNEL_VISCOSITY, RUNNEL_E_UNIT,
     "'0.9' has no unit; a viscosity ends in Pa s, mPa s or cP, such as '900 mPa s'"},
    {"50", RUNNEL_AREA_LOADING, RUNNEL_E_UNIT,
     "'50' has no unit; a volume per area ends in ml/m2 or L/m2, such as '50 ml/m2'"},
    {"10", RUNNEL_SPREADING, RUNNEL_E_UNIT,
     "'10' has no unit; a coverage ends in m2/L, ft2/US gal or ft2/imperial gal, such as '10 "
     "m2/L'"},
    {"400 ft2/gal", RUNNEL_SPREADING, RUNNEL_E_UNIT,
     "'400 ft2/gal': 'ft2/gal' needs its gallon: 'ft2/US gal' or 'ft2/imperial gal'; a coverage is "
     "needed, such as '10 m2/L'"},
    {"1 h 30", RUNNEL_TIME, RUNNEL_E_UNIT,
     "'1 h 30' has no unit; a time ends in s, min, h, days or weeks, such as '1 h 30 min'"},
    {"12 mn", RUNNEL_LENGTH, RUNNEL_E_UNIT,
     "'12 mn' ends in 'mn', which is not a known unit (did you mean 'mm'?); a length ends in mm, "
     "cm, m, in or ft, such as '12 mm'"},
    {"5 M", RUNNEL_LENGTH, RUNNEL_E_UNIT,
     "'5 M' ends in 'M', which is not a known unit (did you mean 'm'?); a length ends in mm, cm, "
     "m, in or ft, such as '12 mm'"},
    {"5 ML", RUNNEL_VOLUME, RUNNEL_E_UNIT,
     "'5 ML' ends in 'ML', which is not a known unit (did you mean 'ml'?); a volume ends in ml, "
     "L, cm3, in3, US fl oz or imperial fl oz, such as '250 ml'"},
    {"5 Mg", RUNNEL_MASS, RUNNEL_E_UNIT,
     "'5 Mg' ends in 'Mg', which is not a known unit (did you mean 'mg'?); a mass ends in g, kg, "
     "oz weight or lb, such as '250 g'"},
    {"5 smoots", RUNNEL_LENGTH, RUNNEL_E_UNIT,
     "'5 smoots' ends in 'smoots', which is not a known unit; a length ends in mm, cm, m, in or "
     "ft, such as '12 mm'"},
    {"5 mm \xE2\x82\xAC", RUNNEL_LENGTH, RUNNEL_E_UNIT,
     "'5 mm \xE2\x82\xAC' ends in 'mm \xE2\x82\xAC', which is not a known unit; a length ends in "
     "mm, cm, m, in or ft, such as '12 mm'"},
    {"5e mm", RUNNEL_LENGTH, RUNNEL_E_UNIT,
     "'5e mm' ends in 'e mm', which is not a known unit (did you mean 'mm'?)" LENGTH_ENDS},
    {"5 mm*", RUNNEL_LENGTH, RUNNEL_E_UNIT,
     "'5 mm*' ends in 'mm*', which is not a known unit (did you mean 'mm'?)" LENGTH_ENDS},
    {"5 units of somebody's very own making", RUNNEL_LENGTH, RUNNEL_E_UNIT,
     "'5 units of somebody's very own making' ends in 'units of somebody's very own making', which "
     "is not a "
     "known unit" LENGTH_ENDS},
    {"1234567890/2 in", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'1234567890/2 in' has a fraction of more than nine digits; a length is needed, such as "
     "'12 mm'"},
    {"1234567890 1/2 in", RUNNEL_LENGTH, RUNNEL_E_SYNTAX,
     "'1234567890 1/2 in' has a fraction of more than nine digits; a length is needed, such as "
     "'12 mm'"},
    {"12 mm deep", RUNNEL_LENGTH, RUNNEL_E_UNIT,
     "'12 mm deep' ends in 'mm deep', which is not a known unit; a length ends in mm, cm, m, in "
     "or ft, such as '12 mm'"},
    {"12 ml", RUNNEL_LENGTH, RUNNEL_E_UNIT,
     "'12 ml' is a volume; a length is needed, in mm, cm, m, in or ft, such as '12 mm'"},
    {"5 m", RUNNEL_TIME, RUNNEL_E_UNIT,
     "'5 m' is a length; a time is needed, in s, min, h, days or weeks, such as '1 h 30 min'"},
    {"1 h 30 ml", RUNNEL_TIME, RUNNEL_E_UNIT,
     "'1 h 30 ml' is a volume; a time is needed, in s, min, h, days or weeks, such as "
     "'1 h 30 min'"},
    {"20" DEG, RUNNEL_TEMPERATURE, RUNNEL_E_UNIT,
     "'20" DEG "' is an angle; a temperature is needed, in " DEG "C or " DEG "F, such as "
     "'20 " DEG "C'"},
    {"8 oz", RUNNEL_VOLUME, RUNNEL_E_UNIT,
     "'8 oz': 'oz' does not say which ounce: 'US fl oz' or 'imperial fl oz' of volume, or "
     "'oz weight'; a volume is needed, such as '250 ml'"},
    {"8 oz", RUNNEL_MASS, RUNNEL_E_UNIT,
     "'8 oz': 'oz' does not say which ounce: 'US fl oz' or 'imperial fl oz' of volume, or "
     "'oz weight'; a mass is needed, such as '250 g'"},
    {"8 fl. oz.", RUNNEL_VOLUME, RUNNEL_E_UNIT,
     "'8 fl. oz.': 'fl oz' does not say which ounce: 'US fl oz' or 'imperial fl oz' of volume, or "
     "'oz weight'; a volume is needed, such as '250 ml'"},
    {"1 gal", RUNNEL_VOLUME, RUNNEL_E_UNIT,
     "'1 gal': 'gal' needs its system: 'US gal' or 'imperial gal'; a volume is needed, such as "
     "'250 ml'"},
    {"9 lb/gal", RUNNEL_DENSITY, RUNNEL_E_UNIT,
     "'9 lb/gal': 'lb/gal' needs its gallon: 'lb/US gal' or 'lb/imperial gal'; a density is "
     "needed, such as '1.1 g/ml'"},
    {"2 cups", RUNNEL_VOLUME, RUNNEL_E_UNIT,
     "'2 cups': 'cups' differs from country to country: write ml; a volume is needed, such as "
     "'250 ml'"},
    {"5 mil", RUNNEL_LENGTH, RUNNEL_E_UNIT,
     "'5 mil': 'mil' is 0.001 in to some and 1 mm to others: write 'thou' or 'mm'; a length is "
     "needed, such as '12 mm'"},
    {"3 months", RUNNEL_TIME, RUNNEL_E_UNIT,
     "'3 months': 'months' has no fixed length: write days or weeks; a time is needed, such as "
     "'1 h 30 min'"},
    {"50 g/m2", RUNNEL_AREA_LOADING, RUNNEL_E_UNIT,
     "'50 g/m2': 'g/m2' is a mass per area, which needs a density: write ml/m2; a volume per area "
     "is needed, such as '50 ml/m2'"},
    {"30 min 1 h", RUNNEL_TIME, RUNNEL_E_SYNTAX,
     "'30 min 1 h' adds up times without the larger unit first and each unit once; a time ends in "
     "s, min, h, days or weeks, such as '1 h 30 min'"},
    {"1 h 2 hours", RUNNEL_TIME, RUNNEL_E_SYNTAX,
     "'1 h 2 hours' adds up times without the larger unit first and each unit once; a time ends "
     "in s, min, h, days or weeks, such as '1 h 30 min'"},
    {"-1 h 30 min", RUNNEL_TIME, RUNNEL_E_SYNTAX,
     "'-1 h 30 min' has a sign inside a sum of times; a time ends in s, min, h, days or weeks, "
     "such as '1 h 30 min'"},
    {"1 h -30 min", RUNNEL_TIME, RUNNEL_E_SYNTAX,
     "'1 h -30 min' has a sign inside a sum of times; a time ends in s, min, h, days or weeks, "
     "such as '1 h 30 min'"},
    {"1e999 mm", RUNNEL_LENGTH, RUNNEL_E_RANGE,
     "'1e999 mm' is too large to be computed with; a length is needed, such as '12 mm'"},
    {"1e308 m", RUNNEL_LENGTH, RUNNEL_E_RANGE,
     "'1e308 m' is too large to be computed with; a length is needed, such as '12 mm'"},
    {"-1e99999999999999999999 F", RUNNEL_TEMPERATURE, RUNNEL_E_RANGE,
     "'-1e99999999999999999999 F' is too large to be computed with; a temperature is needed, such "
     "as '20 " DEG "C'"},
    {"1e-400 mm", RUNNEL_LENGTH, RUNNEL_E_RANGE,
     "'1e-400 mm' is too small to be computed with; a length is needed, such as '12 mm'"},
    {"1.7e304 h 1.5e308 s", RUNNEL_TIME, RUNNEL_E_RANGE,
     "'1.7e304 h 1.5e308 s' is too large to be computed with; a time ends in s, min, h, days or "
     "weeks, such as '1 h 30 min'"},
};

START_TEST(quantity_refused) {
    runnel_problems problems = {0};
    double value = 99;
    runnel_place place = {"a.yaml", 3, 7, "pieces[0].size"};
    ck_assert_int_eq(
        runnel_quantity_parse(refused[_i].text, refused[_i].dimension, &problems, &place, &value),
        refused[_i].status);
    ck_assert_double_eq(value, 99);
    ck_assert_uint_eq(problems.count, 1);
    ck_assert_str_eq(problems.items[0].text, refused[_i].told);
    ck_assert_int_eq(problems.items[0].status, refused[_i].status);
    ck_assert_str_eq(problems.items[0].file, "a.yaml");
    ck_assert_uint_eq(problems.items[0].line, 3);
    ck_assert_uint_eq(problems.items[0].column, 7);
    ck_assert_str_eq(problems.items[0].field, "pieces[0].size");
    runnel_problems_clear(&problems);
    ck_assert_int_eq(
        runnel_quantity_parse(refused[_i].text, refused[_i].dimension, NULL, NULL, &value),
        refused[_i].status);
}
END_TEST

START_TEST(every_dimension) {
    static const struct {
        const char *text, *unit;
    } known[RUNNEL_DIMENSION_COUNT] = {
        {"a length", "mm"},
        {"an area", "mm2"},
        {"a volume", "mm3"},
        {"a mass", "g"},
        {"a time", "s"},
        {"a temperature", DEG "C"},
        {"an angle", "deg"},
        {"a percentage", ""},
        {"a density", "g/ml"},
        {"a viscosity", "Pa s"},
        {"a volume per area", "mm3/mm2"},
        {"a coverage", "m2/L"},
    };
    ck_assert_str_eq(runnel_dimension_text((runnel_dimension)_i), known[_i].text);
    ck_assert_str_eq(runnel_dimension_unit((runnel_dimension)_i), known[_i].unit);
    if (*known[_i].unit) {
        char text[32];
        double value;
        snprintf(text, sizeof text, "2.5 %s", known[_i].unit);
        ck_assert_int_eq(runnel_quantity_parse(text, (runnel_dimension)_i, NULL, NULL, &value),
                         RUNNEL_OK);
        ck_assert_double_eq(value, 2.5);
    }
}
END_TEST

START_TEST(no_dimension) {
    ck_assert_str_eq(runnel_dimension_text(RUNNEL_DIMENSION_COUNT), "a quantity");
    ck_assert_str_eq(runnel_dimension_unit(RUNNEL_DIMENSION_COUNT), "");
}
END_TEST

/* Decimals times a unit are rounded once: thousandths of a metre are whole millimetres. */
START_TEST(decimals_are_exact) {
    chance_state = 1;
    for (int i = 0; i < 20000; i++) {
        unsigned long n = chance() % 100000000;
        char text[64];
        double value;
        snprintf(text, sizeof text, "%lu.%03lu m", n / 1000, n % 1000);
        ck_assert_int_eq(runnel_quantity_parse(text, RUNNEL_LENGTH, NULL, NULL, &value), RUNNEL_OK);
        ck_assert_msg(value == (double)n, "%s: %.17g", text, value);
        snprintf(text, sizeof text, "%lu.%02lu %%", n / 100, n % 100);
        ck_assert_int_eq(runnel_quantity_parse(text, RUNNEL_FRACTION, NULL, NULL, &value),
                         RUNNEL_OK);
        ck_assert_msg(value == (double)n / 10000, "%s: %.17g", text, value);
        /* both sides of the division are whole, so that it alone rounds */
        snprintf(text, sizeof text, "%lu.%03lu in", n / 1000, n % 1000);
        ck_assert_int_eq(runnel_quantity_parse(text, RUNNEL_LENGTH, NULL, NULL, &value), RUNNEL_OK);
        ck_assert_msg(value == (double)(n * 254) / 10000, "%s: %.17g", text, value);
    }
}
END_TEST

START_TEST(fractions_are_exact) {
    for (unsigned whole = 0; whole < 40; whole++)
        for (unsigned lower = 2; lower <= 64; lower *= 2)
            for (unsigned upper = 1; upper < lower; upper++) {
                char text[64];
                double value, wanted = (whole * lower + upper) * 254.0 / (10 * lower);
                snprintf(text, sizeof text, "%u %u/%u in", whole, upper, lower);
                ck_assert_int_eq(runnel_quantity_parse(text, RUNNEL_LENGTH, NULL, NULL, &value),
                                 RUNNEL_OK);
                ck_assert_msg(value == wanted, "%s: %.17g", text, value);
                snprintf(text, sizeof text, "%u-%u/%u\"", whole, upper, lower);
                ck_assert_int_eq(runnel_quantity_parse(text, RUNNEL_LENGTH, NULL, NULL, &value),
                                 RUNNEL_OK);
                ck_assert_msg(value == wanted, "%s: %.17g", text, value);
            }
}
END_TEST

START_TEST(long_texts) {
    enum { SIZE = 1000000 };
    char *text = malloc(SIZE + 1);
    static const char fill[] = {'1', 'a', ' ', '/', 'x', '.', ',', '\xFF', '"', '-'};
    ck_assert_ptr_nonnull(text);
    for (size_t i = 0; i < sizeof fill; i++) {
        runnel_problems problems = {0};
        double value = 99, pair[2];
        memset(text, fill[i], SIZE);
        text[SIZE] = '\0';
        ck_assert_int_ne(runnel_quantity_parse(text, RUNNEL_LENGTH, &problems, NULL, &value),
                         RUNNEL_OK);
        ck_assert_int_ne(runnel_quantity_parse(text, RUNNEL_TIME, &problems, NULL, &value),
                         RUNNEL_OK);
        ck_assert_int_ne(runnel_lengths_parse(text, 2, &problems, NULL, pair), RUNNEL_OK);
        ck_assert_uint_eq(problems.count, 3);
        ck_assert_uint_lt(strlen(problems.items[0].text), 600);
        runnel_problems_clear(&problems);
    }
    free(text);
}
END_TEST

/* Reading takes no memory; a message that cannot be kept is counted. */
START_TEST(without_memory) {
    failing none = {.for_good = true};
    double value = 0;
    runnel_problems problems = {0};
    start_failing(&none);
    ck_assert_int_eq(runnel_quantity_parse("1 1/4 in", RUNNEL_LENGTH, &problems, NULL, &value),
                     RUNNEL_OK);
    ck_assert_uint_eq(none.calls, 0);
    ck_assert_int_eq(runnel_quantity_parse("1 1/4 oz", RUNNEL_MASS, &problems, NULL, &value),
                     RUNNEL_E_UNIT);
    ck_assert_uint_gt(none.calls, 0);
    runnel_set_allocator(NULL);
    ck_assert_uint_eq(problems.count, 0);
    ck_assert_uint_eq(problems.dropped, 1);
    ck_assert_int_eq(runnel_problems_status(&problems), RUNNEL_E_NO_MEMORY);
    runnel_problems_clear(&problems);
}
END_TEST

/* The public factors, typed again from the definitions. */
START_TEST(public_factors) {
    ck_assert_double_eq(RUNNEL_MM_PER_INCH, 25.4);
    ck_assert_double_eq(RUNNEL_MM3_PER_ML, 1000);
    ck_near(RUNNEL_MM3_PER_US_FL_OZ, 231.0 * 16387.064 / 128, DBL_EPSILON);
    ck_near(RUNNEL_MM3_PER_IMP_FL_OZ, 4546090.0 / 160, DBL_EPSILON);
    ck_near(RUNNEL_G_PER_OUNCE, 453.59237 / 16, DBL_EPSILON);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("units");
    TCase *reading = tcase_create("reading");
    tcase_add_loop_test(reading, quantity_taken, 0, COUNT(taken));
    tcase_add_loop_test(reading, quantity_refused, 0, COUNT(refused));
    tcase_add_loop_test(reading, every_dimension, 0, RUNNEL_DIMENSION_COUNT);
    tcase_add_test(reading, no_dimension);
    tcase_add_test(reading, decimals_are_exact);
    tcase_add_test(reading, fractions_are_exact);
    tcase_add_test(reading, long_texts);
    tcase_add_test(reading, without_memory);
    tcase_add_test(reading, public_factors);
    suite_add_tcase(suite, reading);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
