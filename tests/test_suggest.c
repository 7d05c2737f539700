/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/suggest.h"
#include "base/utf8.h"

#include <check.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static const struct {
    const char *one, *other;
    size_t steps; /* counted by hand */
} distances[] = {
    {"", "", 0},
    {"depth", "depth", 0},
    {"Depth", "dEPTH", 0},
    {"", "wood", 4},
    {"wood", "", 4},
    {"wood", "wod", 1},                /* o left out */
    {"wood", "woood", 1},              /* o put in */
    {"wood", "food", 1},               /* w exchanged */
    {"wood", "wodo", 1},               /* od swapped */
    {"colour", "color", 1},            /* u left out */
    {"cutter", "cuttre", 1},           /* er swapped */
    {"kitten", "sitting", 3},          /* k-s, e-i, +g */
    {"ca", "abc", 3},                  /* a pair once swapped is not touched again */
    {"h\xC3\xB6he", "h\xC3\xBChe", 1}, /* one character, two bytes */
    {"depth_limit", "depth limit", 1},
};

START_TEST(steps_between_words) {
    ck_assert_uint_eq(runnel_word_distance(distances[_i].one, distances[_i].other),
                      distances[_i].steps);
    ck_assert_uint_eq(runnel_word_distance(distances[_i].other, distances[_i].one),
                      distances[_i].steps);
}
END_TEST

static const char *const keys[] = {"job",    "resin",       "scale", "shop",
                                   "pieces", "colour",      "depth", "cap height",
                                   NULL,     "depth limit", "wood",  "size"};

static const char *nearest(const char *word) {
    return runnel_nearest(word, keys, sizeof keys / sizeof *keys);
}

START_TEST(nearest_name) {
    ck_assert_str_eq(nearest("reisn"), "resin");
    ck_assert_str_eq(nearest("color"), "colour");
    ck_assert_str_eq(nearest("DEPTH"), "depth");
    ck_assert_str_eq(nearest("depth-limit"), "depth limit");
    ck_assert_str_eq(nearest("cap hight"), "cap height");
    ck_assert_str_eq(nearest("peices"), "pieces");
}
END_TEST

START_TEST(first_of_equals) {
    static const char *const two[] = {"flat", "flit"};
    ck_assert_str_eq(runnel_nearest("flot", two, 2), "flat");
}
END_TEST

START_TEST(none_near) {
    ck_assert_ptr_null(nearest("thickness"));
    ck_assert_ptr_null(nearest(""));
    ck_assert_ptr_null(runnel_nearest("wood", keys, 0));
    /* two steps, but every letter is another one */
    static const char *const unit[] = {"mm"};
    ck_assert_ptr_null(runnel_nearest("qz", unit, 1));
    ck_assert_ptr_nonnull(runnel_nearest("nm", unit, 1));
}
END_TEST

START_TEST(third_of_a_long_word) {
    static const char *const name[] = {"rounded rectangle"};
    /* 17 characters: five steps are allowed, six are not */
    ck_assert_ptr_nonnull(runnel_nearest("ro----d rectangl-", name, 1));
    ck_assert_ptr_null(runnel_nearest("ro----d rectan-l-", name, 1));
}
END_TEST

START_TEST(very_long_words) {
    static char word[100001];
    memset(word, 'a', 100000);
    const char *known[] = {word, "a"};
    ck_assert_uint_eq(runnel_word_distance(word, "a"), SIZE_MAX);
    ck_assert_ptr_null(runnel_nearest(word, known, 2));
    ck_assert_str_eq(runnel_nearest("ab", known, 2), "a");
    word[128] = '\0';
    ck_assert_uint_eq(runnel_word_distance(word, "a"), 127);
}
END_TEST

static const struct {
    const char *text;
    uint32_t point;
    size_t length;
} characters[] = {
    {"", 0, 0},
    {"a", 'a', 1},
    {"\xC2\xB0", 0xB0, 2},
    {"\xE2\x80\xB3", 0x2033, 3},
    {"\xF0\x9F\x98\x80", 0x1F600, 4},
    {"\xF4\x8F\xBF\xBF", 0x10FFFF, 4},
    {"\xC0\x80", 0xDCC0, 1},         /* overlong zero */
    {"\xE0\x80\xAF", 0xDCE0, 1},     /* overlong slash */
    {"\xED\xA0\x80", 0xDCED, 1},     /* surrogate */
    {"\xF4\x90\x80\x80", 0xDCF4, 1}, /* beyond the last character */
    {"\xFF", 0xDCFF, 1},
    {"\x80", 0xDC80, 1},
    {"\xE2\x80", 0xDCE2, 1}, /* cut off */
    {"\xC2", 0xDCC2, 1},
};

START_TEST(one_character) {
    size_t length = 99;
    ck_assert_uint_eq(runnel_utf8_next(characters[_i].text, &length), characters[_i].point);
    ck_assert_uint_eq(length, characters[_i].length);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("suggest");
    TCase *words = tcase_create("words");
    tcase_add_loop_test(words, steps_between_words, 0, sizeof distances / sizeof *distances);
    tcase_add_test(words, nearest_name);
    tcase_add_test(words, first_of_equals);
    tcase_add_test(words, none_near);
    tcase_add_test(words, third_of_a_long_word);
    tcase_add_test(words, very_long_words);
    tcase_add_loop_test(words, one_character, 0, sizeof characters / sizeof *characters);
    suite_add_tcase(suite, words);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
