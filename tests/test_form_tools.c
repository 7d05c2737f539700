/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "runnel/forms.h"

#include <float.h>
#include <stdlib.h>

#define COUNT(table) (sizeof(table) / sizeof *(table))

static const struct {
    const char *text;
    runnel_cutter_kind kind;
    double angle_deg, tip_mm, radius_mm;
} cutters[] = {
    {"v 60 deg", RUNNEL_CUTTER_V, 60, 0, 0},
    {"V 60\xC2\xB0", RUNNEL_CUTTER_V, 60, 0, 0},
    {" v  22.5 degrees ", RUNNEL_CUTTER_V, 22.5, 0, 0},
    {"v 60 deg tip 0.2 mm", RUNNEL_CUTTER_V, 60, 0.2, 0},
    {"v 60 deg Tip 0 mm", RUNNEL_CUTTER_V, 60, 0, 0},
    {"v 90 deg tip 1/64 in", RUNNEL_CUTTER_V, 90, 0.396875, 0},
    {"round-nose radius 3 mm", RUNNEL_CUTTER_ROUND_NOSE, 0, 0, 3},
    {"Round nose diameter 6 mm", RUNNEL_CUTTER_ROUND_NOSE, 0, 0, 3},
    {"round-nose diameter 1/4 in", RUNNEL_CUTTER_ROUND_NOSE, 0, 0, 3.175},
    {"flat diameter 6 mm", RUNNEL_CUTTER_FLAT, 0, 0, 3},
    {"flat radius 3mm", RUNNEL_CUTTER_FLAT, 0, 0, 3},
    {"FLAT DIAMETER 1/2\"", RUNNEL_CUTTER_FLAT, 0, 0, 6.35},
};

START_TEST(cutter_taken) {
    runnel_problems problems = {0};
    runnel_cutter cutter = {RUNNEL_CUTTER_NONE, 99, 99, 99};
    ck_assert(runnel_cutter_is_form(cutters[_i].text));
    ck_assert_int_eq(runnel_cutter_parse(cutters[_i].text, &problems, NULL, &cutter), RUNNEL_OK);
    ck_assert_uint_eq(problems.count, 0);
    ck_assert_int_eq(cutter.kind, cutters[_i].kind);
    ck_near(cutter.angle_deg, cutters[_i].angle_deg, DBL_EPSILON);
    ck_near(cutter.tip_mm, cutters[_i].tip_mm, DBL_EPSILON);
    ck_near(cutter.radius_mm, cutters[_i].radius_mm, DBL_EPSILON);
}
END_TEST

#define NO_CUTTER                                                                                  \
    " is not a cutter; write it like 'v 60 deg', 'v 60 deg tip 0.2 mm', 'round-nose radius 3 mm' " \
    "or 'flat diameter 6 mm'"
#define NEEDS_MEASURE " needs 'radius' or 'diameter' with a length"
#define ANGLE_RANGE                                                                                \
    " is out of range: the included angle is above 0 and below 180 deg; write it like 'v 60 deg'"
#define TIP_RANGE                                                                                  \
    " is out of range: the flat at the tip is 0 or more, and less than a kilometre; write it "     \
    "like "                                                                                        \
    "'v 60 deg'"
#define SIZE_RANGE    " is out of range: a cutter's size is above 0 and less than a kilometre"
#define NO_UNIT(unit) "' has no unit; " unit

static const struct {
    const char *text;
    runnel_status status;
    const char *told[2];
} cutter_faults[] = {
    {"", RUNNEL_E_UNKNOWN, {"''" NO_CUTTER}},
    {"v60 deg", RUNNEL_E_UNKNOWN, {"'v60 deg'" NO_CUTTER}},
    {"ball radius 3 mm", RUNNEL_E_UNKNOWN, {"'ball radius 3 mm'" NO_CUTTER}},
    {"round radius 3 mm", RUNNEL_E_UNKNOWN, {"'round radius 3 mm'" NO_CUTTER}},
    {"v", RUNNEL_E_SYNTAX, {"'v' has no included angle; write it like 'v 60 deg'"}},
    {"v tip 0.2 mm",
     RUNNEL_E_SYNTAX,
     {"'v tip 0.2 mm' has no included angle; write it like 'v 60 deg'"}},
    {"v 60", RUNNEL_E_UNIT, {"'60' has no unit; an angle ends in deg, such as '60 deg'"}},
    {"v 60 mm",
     RUNNEL_E_UNIT,
     {"'60 mm' is a length; an angle is needed, in deg, such as '60 deg'"}},
    {"v 60 tip 0.2",
     RUNNEL_E_UNIT,
     {"'60' has no unit; an angle ends in deg, such as '60 deg'",
      "'0.2' has no unit; a length ends in mm, cm, m, in or ft, such as '12 mm'"}},
    {"v 60 deg tip", RUNNEL_E_SYNTAX, {"'' is empty; a length is needed, such as '12 mm'"}},
    {"v 0 deg", RUNNEL_E_RANGE, {"'v 0 deg'" ANGLE_RANGE}},
    {"v 180 deg", RUNNEL_E_RANGE, {"'v 180 deg'" ANGLE_RANGE}},
    {"v -60 deg", RUNNEL_E_RANGE, {"'v -60 deg'" ANGLE_RANGE}},
    {"v 60 deg tip -1 mm", RUNNEL_E_RANGE, {"'v 60 deg tip -1 mm'" TIP_RANGE}},
    {"v 200 deg tip 2 km",
     RUNNEL_E_RANGE,
     {"'2 km' ends in 'km', which is not a known unit (did you mean 'mm'?); a length ends in mm, "
      "cm, m, in or ft, such as '12 mm'",
      "'v 200 deg tip 2 km'" ANGLE_RANGE}},
    {"v 200 deg tip 1e7 mm",
     RUNNEL_E_RANGE,
     {"'v 200 deg tip 1e7 mm'" ANGLE_RANGE, "'v 200 deg tip 1e7 mm'" TIP_RANGE}},
    {"flat", RUNNEL_E_SYNTAX, {"'flat'" NEEDS_MEASURE "; write it like 'flat diameter 6 mm'"}},
    {"flat 6 mm",
     RUNNEL_E_SYNTAX,
     {"'flat 6 mm'" NEEDS_MEASURE "; write it like 'flat diameter 6 mm'"}},
    {"flat diamter 6 mm",
     RUNNEL_E_SYNTAX,
     {"'flat diamter 6 mm'" NEEDS_MEASURE
      " (did you mean 'diameter'?); write it like 'flat diameter 6 mm'"}},
    {"round-nose radius", RUNNEL_E_SYNTAX, {"'' is empty; a length is needed, such as '12 mm'"}},
    {"round-nose radius 3",
     RUNNEL_E_UNIT,
     {"'3' has no unit; a length ends in mm, cm, m, in or ft, such as '12 mm'"}},
    {"round-nose radius 0 mm",
     RUNNEL_E_RANGE,
     {"'round-nose radius 0 mm'" SIZE_RANGE "; write it like 'round-nose radius 3 mm'"}},
    {"flat diameter -6 mm",
     RUNNEL_E_RANGE,
     {"'flat diameter -6 mm'" SIZE_RANGE "; write it like 'flat diameter 6 mm'"}},
};

START_TEST(cutter_refused) {
    runnel_problems problems = {0};
    runnel_cutter cutter = {RUNNEL_CUTTER_NONE, 99, 98, 97};
    ck_assert_int_eq(runnel_cutter_parse(cutter_faults[_i].text, &problems, NULL, &cutter),
                     cutter_faults[_i].status);
    ck_assert_uint_eq(problems.count, cutter_faults[_i].told[1] ? 2 : 1);
    for (size_t i = 0; i < problems.count; i++)
        ck_assert_str_eq(problems.items[i].text, cutter_faults[_i].told[i]);
    ck_assert_int_eq(cutter.kind, RUNNEL_CUTTER_NONE);
    ck_assert_double_eq(cutter.angle_deg, 99);
    ck_assert_double_eq(cutter.tip_mm, 98);
    ck_assert_double_eq(cutter.radius_mm, 97);
    runnel_problems_clear(&problems);
}
END_TEST

START_TEST(form_or_row_name) {
    static const char *const rows[] = {"",     "v-60",        "v 60",           "V 22.5",
                                       "v",    "flat-6mm",    "flat 6mm",       "flat 1/4in",
                                       "flat", "round-nose",  "round-nose-3mm", "round nose 1/4in",
                                       "v60",  "my old v 60", "flatter wide"};
    static const char *const forms[] = {"v 60 deg",     "v 60 dge",       "v sixty",
                                        "v 60\xC2\xB0", "flat diamter 6", "round nose wide"};
    for (size_t i = 0; i < COUNT(rows); i++)
        ck_assert_msg(!runnel_cutter_is_form(rows[i]), "%s", rows[i]);
    for (size_t i = 0; i < COUNT(forms); i++)
        ck_assert_msg(runnel_cutter_is_form(forms[i]), "%s", forms[i]);
}
END_TEST

static const struct {
    const char *text;
    double a, b;
    runnel_basis basis;
} ratios[] = {
    {"2:1 by volume", 2, 1, RUNNEL_BASIS_VOLUME},
    {"100:44 by weight", 100, 44, RUNNEL_BASIS_WEIGHT},
    {"100 : 13 by mass", 100, 13, RUNNEL_BASIS_WEIGHT},
    {" 1:1  By  Volume ", 1, 1, RUNNEL_BASIS_VOLUME},
    {"2.5:1 by volume", 2.5, 1, RUNNEL_BASIS_VOLUME},
    {"2 1/2:1 by volume", 2.5, 1, RUNNEL_BASIS_VOLUME},
    {"3\xE2\x88\xB6"
     "1 by weight",
     3, 1, RUNNEL_BASIS_WEIGHT}, /* ratio sign */
};

START_TEST(ratio_taken) {
    runnel_problems problems = {0};
    runnel_ratio ratio = {99, 99, RUNNEL_BASIS_NONE};
    ck_assert_int_eq(runnel_ratio_parse(ratios[_i].text, &problems, NULL, &ratio), RUNNEL_OK);
    ck_assert_uint_eq(problems.count, 0);
    ck_assert_double_eq(ratio.part_a, ratios[_i].a);
    ck_assert_double_eq(ratio.part_b, ratios[_i].b);
    ck_assert_int_eq(ratio.basis, ratios[_i].basis);
}
END_TEST

#define RATIO_LIKE "; write it like '2:1 by volume' or '100:44 by weight'"
#define NO_RATIO                                                                                   \
    " is not a ratio: two numbers with a colon between, part A first, and what they "              \
    "count" RATIO_LIKE
#define NO_BASIS                                                                                   \
    " does not say what it counts: the same pair means other amounts by volume than by "           \
    "weight" RATIO_LIKE
#define WRONG_BASIS " does not end in 'by volume', 'by weight' or 'by mass'" RATIO_LIKE
#define NOT_ABOVE   " has a part that is not above 0" RATIO_LIKE

static const struct {
    const char *text;
    runnel_status status;
    const char *told[2];
} ratio_faults[] = {
    {"", RUNNEL_E_SYNTAX, {"''" NO_RATIO}},
    {"2", RUNNEL_E_SYNTAX, {"'2'" NO_RATIO}},
    {"2:", RUNNEL_E_SYNTAX, {"'2:'" NO_RATIO}},
    {"2 to 1 by volume", RUNNEL_E_SYNTAX, {"'2 to 1 by volume'" NO_RATIO}},
    {"2:1:1 by volume", RUNNEL_E_SYNTAX, {"'2:1:1 by volume'" NO_RATIO}},
    {"by volume", RUNNEL_E_SYNTAX, {"'by volume'" NO_RATIO}},
    {"2,5:1 by volume",
     RUNNEL_E_SYNTAX,
     {"'2,5:1 by volume' has a comma in its number; the decimal sign is a point, as in "
      "12.5" RATIO_LIKE}},
    {"1/0:1 by volume", RUNNEL_E_SYNTAX, {"'1/0:1 by volume' divides by zero" RATIO_LIKE}},
    {"2:1", RUNNEL_E_UNIT, {"'2:1'" NO_BASIS}},
    {"2 : 1 ", RUNNEL_E_UNIT, {"'2 : 1'" NO_BASIS}},
    {"2:1 by", RUNNEL_E_UNIT, {"'2:1 by'" WRONG_BASIS}},
    {"2:1 volume", RUNNEL_E_UNIT, {"'2:1 volume'" WRONG_BASIS}},
    {"2:1 by colour", RUNNEL_E_UNIT, {"'2:1 by colour'" WRONG_BASIS}},
    {"2:1 by volumes", RUNNEL_E_UNIT, {"'2:1 by volumes'" WRONG_BASIS}},
    {"2:1 by volume or so", RUNNEL_E_UNIT, {"'2:1 by volume or so'" WRONG_BASIS}},
    {"2:1 %", RUNNEL_E_UNIT, {"'2:1 %'" WRONG_BASIS}},
    {"0:1 by volume", RUNNEL_E_RANGE, {"'0:1 by volume'" NOT_ABOVE}},
    {"2:0 by volume", RUNNEL_E_RANGE, {"'2:0 by volume'" NOT_ABOVE}},
    {"2:-1 by volume", RUNNEL_E_RANGE, {"'2:-1 by volume'" NOT_ABOVE}},
    {"1e999:1 by volume", RUNNEL_E_RANGE, {"'1e999:1 by volume'" NOT_ABOVE}},
    {"0:1", RUNNEL_E_UNIT, {"'0:1'" NOT_ABOVE, "'0:1'" NO_BASIS}},
};

START_TEST(ratio_refused) {
    runnel_problems problems = {0};
    runnel_ratio ratio = {99, 98, RUNNEL_BASIS_NONE};
    ck_assert_int_eq(runnel_ratio_parse(ratio_faults[_i].text, &problems, NULL, &ratio),
                     ratio_faults[_i].status);
    ck_assert_uint_eq(problems.count, ratio_faults[_i].told[1] ? 2 : 1);
    for (size_t i = 0; i < problems.count; i++)
        ck_assert_str_eq(problems.items[i].text, ratio_faults[_i].told[i]);
    ck_assert_double_eq(ratio.part_a, 99);
    ck_assert_double_eq(ratio.part_b, 98);
    ck_assert_int_eq(ratio.basis, RUNNEL_BASIS_NONE);
    runnel_problems_clear(&problems);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("form tools");
    TCase *tools = tcase_create("tools");
    tcase_add_loop_test(tools, cutter_taken, 0, COUNT(cutters));
    tcase_add_loop_test(tools, cutter_refused, 0, COUNT(cutter_faults));
    tcase_add_test(tools, form_or_row_name);
    tcase_add_loop_test(tools, ratio_taken, 0, COUNT(ratios));
    tcase_add_loop_test(tools, ratio_refused, 0, COUNT(ratio_faults));
    suite_add_tcase(suite, tools);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
