/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "runnel/units.h"

#include <float.h>
#include <stdlib.h>

#define COUNT(table) (sizeof(table) / sizeof *(table))

static const struct {
    const char *text;
    size_t wanted;
    double values[3];
} sizes[] = {
    {"12 mm", 1, {12}},
    {"60 x 40 mm", 2, {60, 40}},
    {"60x40mm", 2, {60, 40}},
    {"60 X 40 mm", 2, {60, 40}},
    {"60 \xC3\x97 40 mm", 2, {60, 40}},
    {"6 cm x 40 mm", 2, {60, 40}},
    {"300 x 200 x 25 mm", 3, {300, 200, 25}},
    {"12 in x 8 in x 3/4 in", 3, {304.8, 203.2, 19.05}},
    {"12 x 8 x 3/4 in", 3, {304.8, 203.2, 19.05}},
    {"12\" x 8\" x \xC2\xBE\"", 3, {304.8, 203.2, 19.05}},
    /* Without a unit: the next one that is written. */
    {"12 in x 8 x 20 mm", 3, {304.8, 8, 20}},
    {"60 x 40 cm x 25 mm", 3, {600, 400, 25}},
    {"60 x 40 cm x 1 in", 3, {600, 400, 25.4}},
    {"1 m x 40 x 2 cm", 3, {1000, 400, 20}},
    {"24 x 16\" x 25 mm", 3, {609.6, 406.4, 25}},
    {"1 1/2 x 1-1/4 in", 2, {38.1, 31.75}},
    {"1 \xC2\xBD x \xE2\x85\x9D in", 2, {38.1, 15.875}}, /* five eighths */
    {"0x10mm", 2, {0, 10}},
    {"-1 x .5 mm", 2, {-1, 0.5}},
    {"1e1x2e1mm", 2, {10, 20}},
};

START_TEST(lengths_taken) {
    double values[4] = {99, 99, 99, 99};
    ck_assert_int_eq(runnel_lengths_parse(sizes[_i].text, sizes[_i].wanted, NULL, NULL, values),
                     RUNNEL_OK);
    for (size_t i = 0; i < sizes[_i].wanted; i++)
        ck_near(values[i], sizes[_i].values[i], DBL_EPSILON);
    ck_assert_double_eq(values[sizes[_i].wanted], 99);
}
END_TEST

#define LENGTH_ENDS "; a length ends in mm, cm, m, in or ft, such as '12 mm'"
static const struct {
    const char *text;
    size_t wanted;
    runnel_status status;
    const char *told[2];
} size_faults[] = {
    {"60 mm",
     2,
     RUNNEL_E_SYNTAX,
     {"'60 mm' has 1 length where 2 are needed, with an x between, such as '60 x 40 mm'"}},
    {"60 x 40 x 20 mm",
     2,
     RUNNEL_E_SYNTAX,
     {"'60 x 40 x 20 mm' has 3 lengths where 2 are needed, with an x between, such as "
      "'60 x 40 mm'"}},
    {"60 x 40 mm",
     3,
     RUNNEL_E_SYNTAX,
     {"'60 x 40 mm' has 2 lengths where 3 are needed, with an x between, such as "
      "'300 x 200 x 25 mm'"}},
    {"1x1x1x1x1x1x1x1x1x1 mm",
     3,
     RUNNEL_E_SYNTAX,
     {"'1x1x1x1x1x1x1x1x1x1 mm' has 10 lengths where 3 are needed, with an x between, such as "
      "'300 x 200 x 25 mm'"}},
    {"60 x mm",
     2,
     RUNNEL_E_SYNTAX,
     {"'60 x mm' has 1 length where 2 are needed, with an x between, such as '60 x 40 mm'"}},
    {"60 x 40", 2, RUNNEL_E_UNIT, {"'60 x 40' has no unit" LENGTH_ENDS}},
    {"60 mm x 40", 2, RUNNEL_E_UNIT, {"'60 mm x 40' has no unit" LENGTH_ENDS}},
    {"60 x 40 px",
     2,
     RUNNEL_E_UNIT,
     {"'60 x 40 px' ends in 'px', which is not a known unit" LENGTH_ENDS}},
    {"60 x 40 cm x 25", 3, RUNNEL_E_UNIT, {"'60 x 40 cm x 25' has no unit" LENGTH_ENDS}},
    {"60 x 40 px x 25 mm", /* told once, though 60 would take its unit */
     3,
     RUNNEL_E_UNIT,
     {"'60 x 40 px x 25 mm' ends in 'px', which is not a known unit" LENGTH_ENDS}},
    {"60 ml x 40 mm",
     2,
     RUNNEL_E_UNIT,
     {"'60 ml x 40 mm' is a volume; a length is needed, in mm, cm, m, in or ft, such as "
      "'12 mm'"}},
    {"6,0 x 40 oz",
     2,
     RUNNEL_E_SYNTAX,
     {"'6,0 x 40 oz': 'oz' does not say which ounce: 'US fl oz' or 'imperial fl oz' of volume, or "
      "'oz weight'; a length is needed, such as '12 mm'",
      "'6,0 x 40 oz' has a comma in its number; the decimal sign is a point, as in 12.5; a length "
      "is needed, such as '12 mm'"}},
    {"1e999 x 40 mm",
     2,
     RUNNEL_E_RANGE,
     {"'1e999 x 40 mm' is too large to be computed with; a length is needed, such as '12 mm'"}},
    {"", 1, RUNNEL_E_SYNTAX, {"'' is empty; a length is needed, such as '12 mm'"}},
};

START_TEST(lengths_refused) {
    runnel_problems problems = {0};
    double values[3] = {99, 99, 99};
    ck_assert_int_eq(
        runnel_lengths_parse(size_faults[_i].text, size_faults[_i].wanted, &problems, NULL, values),
        size_faults[_i].status);
    for (int i = 0; i < 3; i++)
        ck_assert_double_eq(values[i], 99);
    ck_assert_uint_eq(problems.count, size_faults[_i].told[1] ? 2 : 1);
    for (size_t i = 0; i < problems.count; i++)
        ck_assert_str_eq(problems.items[i].text, size_faults[_i].told[i]);
    runnel_problems_clear(&problems);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("lengths");
    TCase *reading = tcase_create("reading");
    tcase_add_loop_test(reading, lengths_taken, 0, COUNT(sizes));
    tcase_add_loop_test(reading, lengths_refused, 0, COUNT(size_faults));
    suite_add_tcase(suite, reading);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
