/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "comma.h"
#include "compare.h"
#include "runnel/units.h"

#include <float.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(table) (sizeof(table) / sizeof *(table))

/* Random numbers that are the same on every run (the finaliser of splitmix64, Steele 2014). */
static uint64_t chance_state;
static uint64_t chance(void) {
    uint64_t z = (chance_state += 0x9E3779B97F4A7C15);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
    return z ^ (z >> 31);
}

static double any_finite(void) {
    double value;
    do {
        uint64_t bits = chance();
        memcpy(&value, &bits, sizeof value);
    } while (!isfinite(value));
    return value;
}

/* The compiler reads the literals; the digits are those of well-known hard cases. */
static const struct {
    const char *text;
    double value;
} numbers[] = {
    {"0", 0},
    {"-0", 0},
    {"0.000e99", 0},
    {"12.5", 12.5},
    {" +12.5 ", 12.5},
    {"00012", 12},
    {"1e23", 1e23},
    {"8.41e21", 8.41e21},
    {"9007199254740993", 9007199254740992.0},
    {"9007199254740993.00000000000000000000000000000000001", 9007199254740994.0},
    {"2.2250738585072011e-308", 2.2250738585072011e-308},
    {"2.2250738585072014e-308", DBL_MIN},
    {"4.9e-324", 4.9e-324},
    {"1.7976931348623157e308", DBL_MAX},
    {"0.3", 0.3},
    {"123456789012345678901234567890", 123456789012345678901234567890.0},
    {"0.00000000000000000000000000000001e32", 1},
    {"100000000000000000000000000000000e-32", 1},
};

START_TEST(number_taken) {
    double value = 99;
    ck_assert_int_eq(runnel_number_parse(numbers[_i].text, NULL, NULL, &value), RUNNEL_OK);
    ck_assert_msg(value == numbers[_i].value, "%s: %.17g", numbers[_i].text, value);
    ck_assert_int_eq(signbit(value), 0);
}
END_TEST

static const struct {
    const char *text;
    runnel_status status;
    const char *told;
} number_faults[] = {
    {"", RUNNEL_E_SYNTAX, "'' is empty; a plain number is needed, such as '12.5'"},
    {"12,5", RUNNEL_E_SYNTAX,
     "'12,5' has a comma in its number; the decimal sign is a point, as in 12.5; a plain number is "
     "needed, such as '12.5'"},
    {"5 mm", RUNNEL_E_SYNTAX,
     "'5 mm' has more than a number; no unit is wanted; a plain number is needed, such as '12.5'"},
    {"1/2", RUNNEL_E_SYNTAX,
     "'1/2' is a fraction; a decimal number is wanted; a plain number is needed, such as '12.5'"},
    {"1e309", RUNNEL_E_RANGE, "'1e309' is too large to be computed with"},
    {"-1e309", RUNNEL_E_RANGE, "'-1e309' is too large to be computed with"},
    {"1e-330", RUNNEL_E_RANGE, "'1e-330' is too small to be computed with"},
};

START_TEST(number_refused) {
    runnel_problems problems = {0};
    double value = 99;
    ck_assert_int_eq(runnel_number_parse(number_faults[_i].text, &problems, NULL, &value),
                     number_faults[_i].status);
    ck_assert_double_eq(value, 99);
    ck_assert_uint_eq(problems.count, 1);
    ck_assert_str_eq(problems.items[0].text, number_faults[_i].told);
    runnel_problems_clear(&problems);
}
END_TEST

/* Digits beyond all that can settle a double still break a tie, and leading zeros do no harm. */
START_TEST(many_digits) {
    static const struct {
        const char *start, *end;
        double value;
    } known[] = {
        {"9007199254740993.", "", 9007199254740992.0},
        {"9007199254740993.", "1", 9007199254740994.0},
        {"0.", "25e5001", 2.5},
        {"25", "e-5001", 2.5},
    };
    for (size_t i = 0; i < COUNT(known); i++) {
        static char text[5100];
        double value = 99;
        snprintf(text, sizeof text, "%s%05000d%s", known[i].start, 0, known[i].end);
        ck_assert_int_eq(runnel_number_parse(text, NULL, NULL, &value), RUNNEL_OK);
        ck_assert_double_eq(value, known[i].value);
    }
}
END_TEST

START_TEST(count_taken) {
    static const struct {
        const char *text;
        size_t limit, value;
    } known[] = {{"0", 0, 0},
                 {"1", 1, 1},
                 {"007", 7, 7},
                 {" 12 ", 100, 12},
                 {"99", 99, 99},
                 {"100", 100, 100},
                 {"18446744073709551615", SIZE_MAX, SIZE_MAX}};
    for (size_t i = 0; i < COUNT(known); i++) {
        size_t value = 99;
        ck_assert_int_eq(runnel_count_parse(known[i].text, known[i].limit, NULL, NULL, &value),
                         RUNNEL_OK);
        ck_assert_uint_eq(value, known[i].value);
    }
}
END_TEST

START_TEST(count_refused) {
    static const struct {
        const char *text;
        size_t limit;
        runnel_status status;
        const char *told;
    } known[] = {
        {"", 9, RUNNEL_E_SYNTAX, "'' is not a whole number; one from 0 to 9 is needed"},
        {"-1", 9, RUNNEL_E_SYNTAX, "'-1' is not a whole number; one from 0 to 9 is needed"},
        {"+1", 9, RUNNEL_E_SYNTAX, "'+1' is not a whole number; one from 0 to 9 is needed"},
        {"3.0", 9, RUNNEL_E_SYNTAX, "'3.0' is not a whole number; one from 0 to 9 is needed"},
        {"1e1", 99, RUNNEL_E_SYNTAX, "'1e1' is not a whole number; one from 0 to 99 is needed"},
        {"3 pieces", 9, RUNNEL_E_SYNTAX,
         "'3 pieces' is not a whole number; one from 0 to 9 is needed"},
        {"10", 9, RUNNEL_E_RANGE, "'10' is too large; a whole number from 0 to 9 is needed"},
        {"1", 0, RUNNEL_E_RANGE, "'1' is too large; a whole number from 0 to 0 is needed"},
        {"18446744073709551616", SIZE_MAX, RUNNEL_E_RANGE,
         "'18446744073709551616' is too large; a whole number from 0 to 18446744073709551615 is "
         "needed"},
    };
    for (size_t i = 0; i < COUNT(known); i++) {
        runnel_problems problems = {0};
        size_t value = 99;
        ck_assert_int_eq(runnel_count_parse(known[i].text, known[i].limit, &problems, NULL, &value),
                         known[i].status);
        ck_assert_uint_eq(value, 99);
        ck_assert_uint_eq(problems.count, 1);
        ck_assert_str_eq(problems.items[0].text, known[i].told);
        runnel_problems_clear(&problems);
    }
}
END_TEST

START_TEST(number_text) {
    static const struct {
        double value;
        int decimals;
        const char *text;
    } known[] = {
        {0, 0, "0"},
        {12.25, 1, "12.2"}, /* a tie that a double holds exactly goes to the even digit */
        {12.75, 1, "12.8"},
        {2.0 / 3, 4, "0.6667"},
        {-2.5, 2, "-2.50"},
        {-0.0, 2, "0.00"},
        {-0.004, 2, "0.00"},
        {-0.006, 2, "-0.01"},
        {999.999, 2, "1000.00"},
        {1234567.0, 0, "1234567"},
        {1234567.0, -3, "1234567"},
        {0.5, 3, "0.500"},
        {1e21, 1, "1000000000000000000000.0"},
        {NAN, 2, "nan"},
        {INFINITY, 2, "inf"},
        {-INFINITY, 2, "-inf"},
    };
    for (size_t i = 0; i < COUNT(known); i++) {
        char buffer[64];
        ck_assert_str_eq(
            runnel_number_text(known[i].value, known[i].decimals, buffer, sizeof buffer),
            known[i].text);
    }
}
END_TEST

START_TEST(number_text_limits) {
    char wide[512], narrow[5], none[1] = {'x'};
    ck_assert_uint_eq(strlen(runnel_number_text(-DBL_MAX, 1000, wide, sizeof wide)),
                      1 + 309 + 1 + 60);
    ck_assert_str_eq(runnel_number_text(123.456, 3, narrow, sizeof narrow), "123.");
    ck_assert_ptr_eq(runnel_number_text(1, 0, none, 0), none);
    ck_assert_int_eq(none[0], 'x');
    ck_assert_str_eq(runnel_number_exact(0.125, narrow, sizeof narrow), "0.12");
}
END_TEST

START_TEST(number_exact) {
    static const struct {
        double value;
        const char *text;
    } known[] = {
        {0, "0"},
        {-0.0, "0"},
        {1, "1"},
        {-12.5, "-12.5"},
        {0.1, "0.1"},
        {0.1 + 0.2, "0.30000000000000004"},
        {100, "100"},
        {25.4, "25.4"},
        {1e16, "10000000000000000"},
        {1e17, "1e+17"},
        {1.5e20, "1.5e+20"},
        {-1e100, "-1e+100"},
        {0.00001, "0.00001"},
        {1.25e-5, "0.0000125"},
        {0.000001, "1e-06"},
        {1.25e-7, "1.25e-07"},
        {9007199254740993.0, "9007199254740992"},
        {5e-324, "5e-324"},
        {DBL_MIN, "2.2250738585072014e-308"},
        {DBL_MAX, "1.7976931348623157e+308"},
        {1.0 / 3, "0.3333333333333333"},
        {NAN, "nan"},
        {-INFINITY, "-inf"},
    };
    for (size_t i = 0; i < COUNT(known); i++) {
        char buffer[64];
        ck_assert_str_eq(runnel_number_exact(known[i].value, buffer, sizeof buffer), known[i].text);
    }
}
END_TEST

/* Digits that a number is written with, not counting zeros that only reach to the point. */
static int significant(const char *text) {
    int digits = 0, zeros = 0;
    for (const char *at = text + strspn(text, "-0."); *at && *at != 'e'; at++) {
        zeros = *at == '0' ? zeros + 1 : 0;
        digits += *at != '.';
    }
    return strchr(text, '.') ? digits : digits - zeros;
}

/* strtod in the "C" locale is the other route back. */
START_TEST(exact_text_reads_back) {
    chance_state = 2;
    for (int i = 0; i < 20000; i++) {
        char text[64], with_unit[96], rough[64];
        double value = any_finite(), back = 0;
        runnel_number_exact(value, text, sizeof text);
        ck_assert_msg(strtod(text, NULL) == value, "%s is not %.17g", text, value);
        ck_assert_int_eq(runnel_number_parse(text, NULL, NULL, &back), RUNNEL_OK);
        ck_assert_msg(back == value, "%s: %.17g, not %.17g", text, back, value);
        int digits = significant(text);
        snprintf(rough, sizeof rough, "%.*e", digits > 2 ? digits - 2 : 0, value);
        ck_assert_msg(digits == 1 || strtod(rough, NULL) != value || value == 0,
                      "%s is longer than %s", text, rough);
        snprintf(with_unit, sizeof with_unit, "%s mm", text);
        ck_assert_int_eq(runnel_quantity_parse(with_unit, RUNNEL_LENGTH, NULL, NULL, &back),
                         RUNNEL_OK);
        ck_assert_msg(back == value, "%s: %.17g, not %.17g", with_unit, back, value);
    }
}
END_TEST

/* Values as they come up in the shop, so that the plain style of the text is passed through. */
START_TEST(plain_text_reads_back) {
    chance_state = 3;
    for (int i = 0; i < 20000; i++) {
        char text[64];
        double value = ldexp((double)(chance() >> 11), (int)(chance() % 40) - 70), back = 0;
        runnel_number_exact(value, text, sizeof text);
        ck_assert_int_eq(runnel_number_parse(text, NULL, NULL, &back), RUNNEL_OK);
        ck_assert_msg(back == value, "%s: %.17g, not %.17g", text, back, value);
        runnel_number_text(value, 3, text, sizeof text);
        ck_assert_int_eq(runnel_number_parse(text, NULL, NULL, &back), RUNNEL_OK);
        ck_near_or(back, value, 2 * DBL_EPSILON, 0.0005000000001);
    }
}
END_TEST

/* Text to value, beside the C library in the "C" locale. */
START_TEST(random_text_is_read_right) {
    chance_state = 4;
    for (int i = 0; i < 20000; i++) {
        char text[80], *at = text;
        size_t before = chance() % 20, behind = chance() % 25;
        if (chance() % 2)
            *at++ = '-';
        for (size_t k = 0; k < before; k++)
            *at++ = (char)('0' + chance() % 10);
        if (behind)
            *at++ = '.';
        for (size_t k = 0; k < behind; k++)
            *at++ = (char)('0' + chance() % 10);
        if (!before && !behind)
            *at++ = '7';
        int power = (int)(chance() % 400) - 200;
        snprintf(at, 8, "e%d", power);
        double value = 99;
        ck_assert_int_eq(runnel_number_parse(text, NULL, NULL, &value), RUNNEL_OK);
        ck_assert_msg(value == strtod(text, NULL), "%s: %.17g", text, value);
    }
}
END_TEST

START_TEST(time_text) {
    static const struct {
        double seconds;
        const char *text;
    } known[] = {
        {0, "0 min"},           {12, "under 1 min"},    {-12, "under 1 min"},
        {30, "1 min"},          {1500, "25 min"},       {1529, "25 min"},
        {1530, "26 min"},       {3569, "59 min"},       {3570, "1 h"}, /* 59.5 min */
        {5400, "1 h 30 min"},   {-5400, "-1 h 30 min"}, {86369, "23 h 59 min"},
        {86370, "1 day"},       {86400, "1 day"},       {90000, "1 day 1 h"},
        {187200, "2 days 4 h"}, {190799, "2 days 5 h"}, /* 2 days 4 h 59 min 59 s, to the hour */
        {8640000, "100 days"},  {NAN, "not known"},     {INFINITY, "not known"},
    };
    for (size_t i = 0; i < COUNT(known); i++) {
        char buffer[64];
        ck_assert_str_eq(runnel_time_text(known[i].seconds, buffer, sizeof buffer), known[i].text);
    }
    char narrow[8];
    ck_assert_str_eq(runnel_time_text(5400, narrow, sizeof narrow), "1 h 30 ");
    char wide[400];
    ck_assert_uint_gt(strlen(runnel_time_text(DBL_MAX, wide, sizeof wide)), 300);
}
END_TEST

START_TEST(time_text_of_bounds) {
    static const struct {
        double seconds;
        const char *from, *until;
    } known[] = {
        {0, "0 min", "0 min"},
        {12, "1 min", "under 1 min"},
        {60, "1 min", "1 min"},
        {1500.00001, "25 min", "25 min"}, /* by arithmetic */
        {1499.99999, "25 min", "25 min"},
        {1501, "26 min", "25 min"},
        {86341, "1 day", "23 h 59 min"},
        {90001, "1 day 2 h", "1 day 1 h"},
        {-90001, "-1 day 1 h", "-1 day 2 h"},
        {NAN, "not known", "not known"},
    };
    for (size_t i = 0; i < COUNT(known); i++) {
        char text[64];
        ck_assert_str_eq(runnel_time_from_text(known[i].seconds, text, sizeof text), known[i].from);
        ck_assert_str_eq(runnel_time_until_text(known[i].seconds, text, sizeof text),
                         known[i].until);
    }
}
END_TEST

/* Never too early and never too late, and by less than the unit that is shown. */
START_TEST(bounds_read_back) {
    chance_state = 6;
    for (int i = 0; i < 20000; i++) {
        double seconds = 60 + (double)(chance() % 86400000) / 7, from = 0, until = 0;
        double unit = seconds < 86340 ? 60 : 3600;
        char text[64];
        runnel_time_from_text(seconds, text, sizeof text);
        ck_assert_int_eq(runnel_quantity_parse(text, RUNNEL_TIME, NULL, NULL, &from), RUNNEL_OK);
        runnel_time_until_text(seconds, text, sizeof text);
        ck_assert_int_eq(runnel_quantity_parse(text, RUNNEL_TIME, NULL, NULL, &until), RUNNEL_OK);
        ck_assert(from > seconds - 0.01 && from < seconds + unit);
        ck_assert(until < seconds + 0.01 && until > seconds - unit);
    }
}
END_TEST

START_TEST(time_text_reads_back) {
    chance_state = 5;
    for (int i = 0; i < 20000; i++) {
        double seconds = 60 + (double)(chance() % 86400000), back = 0;
        char text[64];
        runnel_time_text(seconds, text, sizeof text);
        ck_assert_int_eq(runnel_quantity_parse(text, RUNNEL_TIME, NULL, NULL, &back), RUNNEL_OK);
        ck_near_or(back, seconds, 0, seconds < 86370 ? 30 : 1800);
    }
}
END_TEST

START_TEST(no_locale_in_the_way) {
    char text[64];
    comma_begin();
    double value = 0, pair[2];
    ck_assert_int_eq(runnel_number_parse("12.5", NULL, NULL, &value), RUNNEL_OK);
    ck_assert_double_eq(value, 12.5);
    ck_assert_int_eq(runnel_number_parse("12,5", NULL, NULL, &value), RUNNEL_E_SYNTAX);
    ck_assert_int_eq(runnel_quantity_parse("0.125 in", RUNNEL_LENGTH, NULL, NULL, &value),
                     RUNNEL_OK);
    ck_assert_double_eq(value, 3.175);
    ck_assert_int_eq(runnel_lengths_parse("1.5 x 2.5 mm", 2, NULL, NULL, pair), RUNNEL_OK);
    ck_assert_double_eq(pair[1], 2.5);
    ck_assert_str_eq(runnel_number_text(-1234.5, 2, text, sizeof text), "-1234.50");
    ck_assert_str_eq(runnel_number_exact(0.1, text, sizeof text), "0.1");
    ck_assert_str_eq(runnel_number_exact(1.5e300, text, sizeof text), "1.5e+300");
    ck_assert_str_eq(runnel_time_text(187200, text, sizeof text), "2 days 4 h");
    chance_state = 6;
    for (int i = 0; i < 5000; i++) {
        double wanted = any_finite();
        runnel_number_exact(wanted, text, sizeof text);
        ck_assert_int_eq(runnel_number_parse(text, NULL, NULL, &value), RUNNEL_OK);
        ck_assert_msg(value == wanted, "%s", text);
    }
    comma_end();
}
END_TEST

int main(void) {
    Suite *suite = suite_create("number");
    TCase *reading = tcase_create("reading");
    tcase_add_loop_test(reading, number_taken, 0, COUNT(numbers));
    tcase_add_loop_test(reading, number_refused, 0, COUNT(number_faults));
    tcase_add_test(reading, many_digits);
    tcase_add_test(reading, count_taken);
    tcase_add_test(reading, count_refused);
    tcase_add_test(reading, random_text_is_read_right);
    suite_add_tcase(suite, reading);
    TCase *writing = tcase_create("writing");
    tcase_add_test(writing, number_text);
    tcase_add_test(writing, number_text_limits);
    tcase_add_test(writing, number_exact);
    tcase_add_test(writing, exact_text_reads_back);
    tcase_add_test(writing, plain_text_reads_back);
    tcase_add_test(writing, time_text);
    tcase_add_test(writing, time_text_of_bounds);
    tcase_add_test(writing, bounds_read_back);
    tcase_add_test(writing, time_text_reads_back);
    tcase_add_test(writing, no_locale_in_the_way);
    suite_add_tcase(suite, writing);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
