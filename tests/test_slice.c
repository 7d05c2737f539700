/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/slice.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static const struct {
    const char *text, *trimmed;
} trims[] = {
    {"", ""},
    {"   ", ""},
    {"a", "a"},
    {"  a b \t\n", "a b"},
    {"\xC2\xA0"
     "a\xE2\x80\xAF",
     "a"}, /* no-break spaces, wide and narrow */
    {"\xE2\x80\x89"
     "12\xE3\x80\x80",
     "12"}, /* thin and ideographic space */
};

START_TEST(trim) {
    runnel_slice slice = runnel_slice_trim(runnel_slice_of(trims[_i].text));
    ck_assert_uint_eq((size_t)(slice.end - slice.at), strlen(trims[_i].trimmed));
    ck_assert_int_eq(strncmp(slice.at, trims[_i].trimmed, strlen(trims[_i].trimmed)), 0);
}
END_TEST

START_TEST(end_of_a_part) {
    const char *text = "12 mm";
    runnel_slice slice = {text, text + 2};
    size_t length = 9;
    runnel_slice_step(&slice);
    ck_assert_uint_eq(runnel_slice_peek(slice, &length), '2');
    ck_assert_uint_eq(length, 1);
    runnel_slice_step(&slice);
    ck_assert_uint_eq(runnel_slice_peek(slice, &length), 0);
    ck_assert_uint_eq(length, 0);
    runnel_slice_step(&slice); /* stays at the end */
    ck_assert_ptr_eq(slice.at, text + 2);
    ck_assert(!runnel_slice_skip_blanks(&slice));
}
END_TEST

static const struct {
    const char *text, *word, *rest; /* rest NULL: not taken */
} word_cases[] = {
    {"tip 0.2", "tip", " 0.2"}, {"TiP 0.2", "tip", " 0.2"}, {"tip", "tip", ""},
    {"r20 mm", "r", "20 mm"},   {"tips", "tip", NULL},      {"ti", "tip", NULL},
    {"", "tip", NULL},          {"t1p", "tip", NULL},       {"tip-0.2", "tip", "-0.2"},
};

START_TEST(take_word) {
    runnel_slice slice = runnel_slice_of(word_cases[_i].text);
    bool taken = runnel_slice_take_word(&slice, word_cases[_i].word);
    ck_assert_int_eq(taken, word_cases[_i].rest != NULL);
    ck_assert_str_eq(slice.at, taken ? word_cases[_i].rest : word_cases[_i].text);
}
END_TEST

#define TEN "abcdefghij"
static const struct {
    const char *text, *shown;
} shows[] = {
    {"", ""},
    {"12 mm", "12 mm"},
    {"20 \xC2\xB0"
     "C",
     "20 \xC2\xB0"
     "C"},
    {"a\tb\r\nc", "a b  c"},
    {"\x1B[31m\x7F", "?[31m?"},
    {"a\xC2\x85"
     "b",
     "a?b"}, /* C1 control character */
    {"a\xE2\x80\xAE"
     "b",
     "a?b"}, /* right-to-left override */
    {"a\xFF\xC3", "a??"},
    {TEN TEN TEN TEN TEN TEN, TEN TEN TEN TEN TEN TEN},
    {TEN TEN TEN TEN TEN TEN "k", TEN TEN TEN TEN TEN TEN "..."},
};

START_TEST(show) {
    char buffer[RUNNEL_SHOWN_SIZE];
    const char *shown = runnel_slice_show(runnel_slice_of(shows[_i].text), buffer);
    ck_assert_str_eq(shown, shows[_i].shown);
    ck_assert_ptr_eq(shown, buffer);
}
END_TEST

START_TEST(show_widest) {
    char text[4 * 70 + 1] = "", buffer[RUNNEL_SHOWN_SIZE];
    for (char *at = text; at + 4 < text + sizeof text; at += 4)
        memcpy(at, "\xF0\x9F\x98\x80", 5);
    runnel_slice_show(runnel_slice_of(text), buffer);
    ck_assert_uint_eq(strlen(buffer), 4 * 60 + 3);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("slice");
    TCase *parts = tcase_create("parts");
    tcase_add_loop_test(parts, trim, 0, sizeof trims / sizeof *trims);
    tcase_add_test(parts, end_of_a_part);
    tcase_add_loop_test(parts, take_word, 0, sizeof word_cases / sizeof *word_cases);
    tcase_add_loop_test(parts, show, 0, sizeof shows / sizeof *shows);
    tcase_add_test(parts, show_widest);
    suite_add_tcase(suite, parts);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
