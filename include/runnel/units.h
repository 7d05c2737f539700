/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Quantities written with their units, read into the library's own units and shown again.
 *
 * Inside the library a length is in mm, an area in mm2, a volume in mm3, a mass in g, a time in s,
 * a temperature in degrees Celsius, an angle in degrees and a share is a plain fraction (5 % =
 * 0.05). All factors are exact definitions (inch 25.4 mm; US gallon 231 in3; imperial
 * gallon 4.54609 L; pound 453.59237 g).
 */
#ifndef RUNNEL_UNITS_H
#define RUNNEL_UNITS_H

#include "runnel/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** What a quantity measures, and with it the unit of its value. */
typedef enum runnel_dimension {
    RUNNEL_LENGTH,      /**< mm: mm, cm, m, in, ", ft, fractions such as 1 1/4 in */
    RUNNEL_AREA,        /**< mm2: mm2, cm2, m2, in2, ft2 */
    RUNNEL_VOLUME,      /**< mm3: ml, L, cl, dl, cm3, cc, mm3, US fl oz, imperial fl oz, in3, ... */
    RUNNEL_MASS,        /**< g: g, kg, mg, oz weight, lb */
    RUNNEL_TIME,        /**< s: s, min, h, days, weeks and sums such as 1 h 30 min */
    RUNNEL_TEMPERATURE, /**< degC: °C, C, °F, F */
    RUNNEL_ANGLE,       /**< degrees: deg, ° */
    RUNNEL_FRACTION,    /**< fraction: 5 % is 0.05; a bare number is refused */
    RUNNEL_DENSITY,     /**< g/ml: g/ml, g/cm3, kg/L, kg/m3, lb/US gal */
    RUNNEL_VISCOSITY,   /**< Pa s: Pa s, mPa s, cP */
    RUNNEL_AREA_LOADING, /**< mm3 per mm2 (= mm of film): ml/m2, g/m2 is refused */
    RUNNEL_SPREADING,    /**< m2 per L: m2/L, ft2/US gal; a bare ft2/gal is refused */
    RUNNEL_DIMENSION_COUNT
} runnel_dimension;

/**
 * Reads one quantity, the whole text: a number, then a unit. The decimal sign is a point whatever
 * the locale. Blanks around and between are free; "3/8 in", "1 1/4 in" and `10"` are lengths.
 * A number without a unit (0 too), a bare "oz", "fl oz" or "gal", a decimal comma, a sign between
 * thousands, and what is not finite are refused with the reason and what would be right. Units are
 * alike in either case but where a capital means something else: m, ml or mL, mg, um, Pa s. A
 * decimal number is rounded once, after its unit. Signs are read; ranges are the caller's.
 *
 * @param text      UTF-8
 * @param dimension what is wanted
 * @param problems  where a refusal is told, or NULL
 * @param place     copied into the problem, or NULL
 * @param value     the value in the unit of the dimension
 * @return RUNNEL_OK, RUNNEL_E_SYNTAX, RUNNEL_E_UNIT, RUNNEL_E_RANGE (beyond a double, or so small
 *         that it would be read as 0)
 */
runnel_status runnel_quantity_parse(const char *text, runnel_dimension dimension,
                                    runnel_problems *problems, const runnel_place *place,
                                    double *value);

/**
 * Reads several lengths, such as "60 x 40 mm", "300 x 200 x 25 mm" or "12 in x 8 in x 3/4 in". A
 * length without a unit of its own takes the next one that is written after it: "60 x 40 cm x 25
 * mm" is 600, 400 and 25 mm. The last one has to carry a unit. The separator is a letter x or the
 * sign ×.
 *
 * @param values room for `wanted` values, in mm
 * @param wanted how many there must be, 1 to 8
 * @return as runnel_quantity_parse; RUNNEL_E_SYNTAX for another number of lengths
 */
runnel_status runnel_lengths_parse(const char *text, size_t wanted, runnel_problems *problems,
                                   const runnel_place *place, double *values);

/**
 * Reads a plain number, the whole text, decimal point only, finite; no unit, no fraction.
 * @return RUNNEL_OK, RUNNEL_E_SYNTAX, RUNNEL_E_RANGE
 */
runnel_status runnel_number_parse(const char *text, runnel_problems *problems,
                                  const runnel_place *place, double *value);

/** Reads a whole number from 0 to limit, the whole text, digits only.
 * @return RUNNEL_OK, RUNNEL_E_SYNTAX, RUNNEL_E_RANGE above the limit */
runnel_status runnel_count_parse(const char *text, size_t limit, runnel_problems *problems,
                                 const runnel_place *place, size_t *value);

/**
 * Writes a number with so many places after the point, without regard to the locale, into the
 * caller's buffer (always closed with a zero; cut when too small). Negative zero becomes zero; at
 * most 60 places; "nan", "inf" and "-inf" for what is not a number.
 * @return buffer
 */
char *runnel_number_text(double value, int decimals, char *buffer, size_t size);

/** Shortest decimal text that reads back to the same double; "1e+20" style from 1e17 up and below
 * 1e-5. */
char *runnel_number_exact(double value, char *buffer, size_t size);

/** "1 h 30 min", "25 min", "2 days 4 h": two largest units, rounded to the minute, from a day on to
 * the hour; "under 1 min" for what would be 0, "not known" for what is not finite. */
char *runnel_time_text(double seconds, char *buffer, size_t size);

/** The same for the earliest and for the latest time at which something may be done: rounded up,
 * so that it is not told too early, and down, so that it is not told too late. */
char *runnel_time_from_text(double seconds, char *buffer, size_t size);
char *runnel_time_until_text(double seconds, char *buffer, size_t size);

/** Name of the dimension for messages, such as "a length". */
const char *runnel_dimension_text(runnel_dimension dimension);

/** Unit of the dimension's values inside the library as it is read: "mm", "mm2", "mm3", "g", "s",
 * "°C", "deg", "g/ml", "Pa s", "mm3/mm2", "m2/L"; "" for a share, which is a plain number inside.
 */
const char *runnel_dimension_unit(runnel_dimension dimension);

#define RUNNEL_MM_PER_INCH       25.4          /**< exact, 1959 agreement */
#define RUNNEL_MM3_PER_ML        1000.0        /**< exact */
#define RUNNEL_MM3_PER_US_FL_OZ  29573.5295625 /**< exact, 231 in3 / 128 */
#define RUNNEL_MM3_PER_IMP_FL_OZ 28413.0625    /**< exact, 4.54609 L / 160 */
#define RUNNEL_G_PER_OUNCE       28.349523125  /**< exact, lb / 16 */

#ifdef __cplusplus
}
#endif
#endif
