/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/number.h"
#include "runnel/units.h"

#include <float.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

/* The longest double before the point, a sign, a point and the places. */
enum { MOST_DECIMALS = 60, FIXED_SIZE = DBL_MAX_10_EXP + MOST_DECIMALS + 8 };

static char *hand_over(const char *text, char *buffer, size_t size) {
    if (size)
        snprintf(buffer, size, "%s", text);
    return buffer;
}

static const char *not_finite(double value) {
    return isnan(value) ? "nan" : value < 0 ? "-inf" : "inf";
}

/* Puts a point where printf has put the decimal sign of the locale, which may be several bytes. */
static void plain_point(char *text) {
    char *to = text;
    bool point = false;
    for (const char *from = text; *from; from++) {
        bool number = strchr("0123456789+-e", *from) != NULL;
        if (number)
            *to++ = *from;
        else if (!point)
            *to++ = '.';
        point = !number;
    }
    *to = '\0';
}

char *runnel_number_text(double value, int decimals, char *buffer, size_t size) {
    char text[FIXED_SIZE];
    if (!isfinite(value))
        return hand_over(not_finite(value), buffer, size);
    decimals = decimals < 0 ? 0 : decimals > MOST_DECIMALS ? MOST_DECIMALS : decimals;
    snprintf(text, sizeof text, "%.*f", decimals, value);
    plain_point(text);
    bool negative_zero = *text == '-' && strspn(text + 1, "0.") == strlen(text + 1);
    return hand_over(negative_zero ? text + 1 : text, buffer, size);
}

/* Writes significant digits, first digit worth 10^power, with a point where it belongs. */
static void lay_out(const char *digits, int power, bool negative, char *text, size_t size) {
    int count = (int)strlen(digits);
    const char *sign = negative ? "-" : "";
    if (power < -5 || power > 16)
        snprintf(text, size, "%s%c%s%se%+03d", sign, *digits, count > 1 ? "." : "", digits + 1,
                 power);
    else if (power < 0)
        snprintf(text, size, "%s0.%.*s%s", sign, -power - 1, "0000", digits);
    else if (count > power + 1)
        snprintf(text, size, "%s%.*s.%s", sign, power + 1, digits, digits + power + 1);
    else
        snprintf(text, size, "%s%s%.*s", sign, digits, power + 1 - count, "0000000000000000");
}

/*
 * 15 digits are kept by every normal double, so that when they read back their trailing zeros are
 * all that can be spared; 17 always read back.
 */
char *runnel_number_exact(double value, char *buffer, size_t size) {
    char text[48], digits[24];
    if (!isfinite(value))
        return hand_over(not_finite(value), buffer, size);
    if (value == 0)
        return hand_over("0", buffer, size);
    double magnitude = fabs(value), back = 0;
    runnel_decimal decimal = {.count = 0};
    for (int wanted = magnitude < DBL_MIN ? 1 : 15; back != magnitude && wanted <= 17; wanted++) {
        snprintf(text, sizeof text, "%.*e", wanted - 1, magnitude);
        plain_point(text);
        runnel_slice slice = runnel_slice_of(text);
        if (runnel_decimal_read(&slice, &decimal))
            break;
        back = runnel_decimal_scaled(&decimal, 1, 0);
    }
    size_t count = decimal.count;
    int power = (int)(decimal.exponent + (long long)count - 1);
    while (count > 1 && decimal.digits[count - 1] == 0)
        count--;
    for (size_t i = 0; i < count; i++)
        digits[i] = (char)('0' + decimal.digits[i]);
    digits[count] = '\0';
    lay_out(digits, power, value < 0, text, sizeof text);
    return hand_over(text, buffer, size);
}

/* A part of a minute or an hour this small comes from arithmetic, not from the time. */
static const double unit_slack = 1e-6;

static double to_nearest(double units) {
    return floor(units + 0.5);
}

static double upwards(double units) {
    return ceil(units - unit_slack);
}

static double downwards(double units) {
    return floor(units + unit_slack);
}

static char *time_text(double seconds, double (*whole)(double), char *buffer, size_t size) {
    char text[FIXED_SIZE + 32], days_text[FIXED_SIZE];
    if (!isfinite(seconds))
        return hand_over("not known", buffer, size);
    const char *sign = seconds < 0 ? "-" : "";
    double minutes = whole(fabs(seconds) / 60);
    double hours = whole(fabs(seconds) / 3600);
    if (seconds != 0 && minutes < 1) {
        snprintf(text, sizeof text, "under 1 min");
    } else if (minutes < 60) {
        snprintf(text, sizeof text, "%s%d min", sign, (int)minutes);
    } else if (minutes < 24 * 60) {
        int rest = (int)fmod(minutes, 60);
        snprintf(text, sizeof text, rest ? "%s%d h %d min" : "%s%d h", sign, (int)(minutes / 60),
                 rest);
    } else {
        double days = floor(hours / 24);
        int rest = (int)(hours - 24 * days);
        runnel_number_text(days, 0, days_text, sizeof days_text);
        snprintf(text, sizeof text, rest ? "%s%s day%s %d h" : "%s%s day%s", sign, days_text,
                 days == 1 ? "" : "s", rest);
    }
    return hand_over(text, buffer, size);
}

char *runnel_time_text(double seconds, char *buffer, size_t size) {
    return time_text(seconds, to_nearest, buffer, size);
}

char *runnel_time_from_text(double seconds, char *buffer, size_t size) {
    return time_text(seconds, seconds < 0 ? downwards : upwards, buffer, size);
}

char *runnel_time_until_text(double seconds, char *buffer, size_t size) {
    return time_text(seconds, seconds < 0 ? upwards : downwards, buffer, size);
}
