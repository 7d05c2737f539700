/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/civil.h"

#include <limits.h>

/* The calendar repeats itself after 400 years, which have 97 leap days; exact. */
static const int64_t days_in_400_years = 400 * 365 + 97;

/* From 0000-03-01 to 1970-01-01: 1970 years with 478 leap days (492 Februaries of years divisible
 * by 4, less 19 of full centuries, with 5 of those put back) less January and February. */
static const int64_t days_before_1970 = 719468;

/* Days of a year that starts in March before its month 0 (March) to 11 (February). Five months have
 * 153 days: 31, 30, 31, 30, 31. */
static int days_before_month(int from_march) {
    return (153 * from_march + 2) / 5;
}

static bool is_leap(int year) {
    return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}

bool runnel_civil_is_valid(int year, int month, int day) {
    static const int length[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (month < 1 || month > 12 || day < 1)
        return false;
    return day <= length[month - 1] + (month == 2 && is_leap(year));
}

/* Quotient towards minus infinity, so that years before 0 need no case of their own. */
static int64_t floor_divide(int64_t number, int64_t divisor) {
    return number / divisor - (number % divisor < 0);
}

int64_t runnel_days_from_civil(int year, int month, int day) {
    int64_t march_year = (int64_t)year - (month <= 2);
    int64_t era = floor_divide(march_year, 400);
    int64_t of_era = march_year - 400 * era; /* 0 to 399 */
    int of_year = days_before_month(month > 2 ? month - 3 : month + 9) + day - 1;
    int64_t of_days = 365 * of_era + of_era / 4 - of_era / 100 + of_year;
    return days_in_400_years * era + of_days - days_before_1970;
}

void runnel_civil_from_days(int64_t days, int *year, int *month, int *day) {
    int64_t era = floor_divide(days, days_in_400_years);
    /* By the remainder, as the product may be beyond an int64_t. Now from 0000-03-01. */
    int64_t left = days % days_in_400_years;
    left += days_before_1970 + (left < 0 ? days_in_400_years : 0);
    era += left / days_in_400_years;
    left %= days_in_400_years;
    const int64_t most_eras = INT_MAX / 400 - 1;
    if (era > most_eras)
        era = most_eras;
    if (era < -most_eras)
        era = -most_eras;
    /* Guess the year without leap days, and take a step back where it is one too far. */
    int64_t of_era = left / 365 > 399 ? 399 : left / 365;
    while (365 * of_era + of_era / 4 - of_era / 100 > left)
        of_era--;
    int of_year = (int)(left - (365 * of_era + of_era / 4 - of_era / 100));
    int from_march = (5 * of_year + 2) / 153;
    *day = of_year - days_before_month(from_march) + 1;
    *month = from_march < 10 ? from_march + 3 : from_march - 9;
    *year = (int)(400 * era + of_era + (*month <= 2));
}
