/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "written.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

START_TEST(width_of_text) {
    ck_assert_uint_eq(runnel_layout_width(""), 0);
    ck_assert_uint_eq(runnel_layout_width("a\xC3\xB6\xE2\x82\xAC"), 3); /* a, o umlaut, euro */
    ck_assert_uint_eq(runnel_layout_width("e\xCC\x81"), 1); /* e and a combining acute */
    ck_assert_uint_eq(runnel_layout_width("\xE6\xBC\xA2\xE5\xAD\x97"), 4); /* two Han letters */
}
END_TEST

static char *flowed(const char *text, size_t indent) {
    FILE *file = tmpfile();
    runnel_layout_paragraph(file, indent, text);
    return contents(file);
}

START_TEST(words_are_wrapped) {
    /* 11 x "seven7 " = 77 columns with the blank behind, so that the twelfth word starts a line. */
    char *text = flowed("seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 "
                        "seven7 b",
                        0);
    ck_assert_str_eq(text, "seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 "
                           "seven7 b\n");
    free(text);
    text = flowed("seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 bc",
                  0);
    ck_assert_str_eq(text, "seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 "
                           "seven7\nbc\n");
    free(text);
    text = flowed("  blanks   and\tline\nends  ", 3);
    ck_assert_str_eq(text, "   blanks and line ends\n");
    free(text);
    text = flowed("", 3);
    ck_assert_str_eq(text, "\n");
    free(text);
}
END_TEST

START_TEST(sticking_words_stay_together) {
    char *text = flowed("seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 "
                        "4" RUNNEL_STICK "mm56789",
                        0);
    ck_assert_str_eq(text, "seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7 seven7\n"
                           "4 mm56789\n");
    free(text);
}
END_TEST

START_TEST(endless_words_are_cut) {
    char word[401];
    memset(word, 'x', 400);
    word[400] = '\0';
    for (size_t indent = 0; indent < 40; indent += 13) {
        char *text = flowed(word, indent);
        fits(text);
        size_t letters = 0;
        for (const char *at = text; *at; at++)
            letters += *at == 'x';
        ck_assert_uint_eq(letters, 400);
        free(text);
    }
}
END_TEST

START_TEST(strange_bytes_are_shown_as_marks) {
    /* Escape, bell, a byte that is no UTF-8, and the mark that turns writing to the left. */
    char *text = flowed("a\x1B[31mb\x07"
                        "c\xFF"
                        "d\xE2\x80\xAE"
                        "e",
                        0);
    ck_assert_str_eq(text, "a?[31mb?c?d?e\n");
    free(text);
}
END_TEST

START_TEST(points_stand_in_one_column) {
    static const double values[] = {1.25, 12, 1234.5, 0.125};
    FILE *file = tmpfile();
    for (size_t i = 0; i < COUNT(values); i++) {
        runnel_flow flow;
        runnel_flow_begin(&flow, file, 0);
        runnel_flow_add(&flow, "n");
        runnel_flow_aligned(&flow, 8, values[i], i == 1 ? 0 : i == 0 ? 2 : i == 2 ? 1 : 3, 3, "ml");
        runnel_flow_add(&flow, "note");
        runnel_flow_end(&flow);
    }
    char *text = contents(file);
    ck_assert_str_eq(text, "n      1.25  ml    note\n"
                           "n     12     ml    note\n"
                           "n   1234.5   ml    note\n"
                           "n      0.125 ml    note\n");
    free(text);
}
END_TEST

/* By rules W2 and N1 of UAX 9 a number behind an Arabic letter and punctuation joins its run, and
 * would stand before the name. */
START_TEST(numbers_stay_behind_names) {
    static const uint32_t turned[] = {0x5D0, 0x628, 0x6CC, 0x7CA, 0xFEDF, 0x10840};
    for (size_t i = 0; i < sizeof turned / sizeof *turned; i++) {
        ck_assert(runnel_layout_wants_mark(turned[i], ':'));
        ck_assert(runnel_layout_wants_mark(turned[i], ','));
        ck_assert(runnel_layout_wants_mark(turned[i], 0xA0));
        ck_assert(!runnel_layout_wants_mark(turned[i], turned[i]));
        ck_assert(!runnel_layout_wants_mark(turned[i], ' ')); /* between two words of a name */
    }
    ck_assert(!runnel_layout_wants_mark('a', ':'));
    ck_assert(!runnel_layout_wants_mark(0x928, ':')); /* Devanagari */
    ck_assert(!runnel_layout_wants_mark(0, ':'));
}
END_TEST

int main(void) {
    Suite *suite = suite_create("layout");
    TCase *layout = tcase_create("layout");
    tcase_add_test(layout, width_of_text);
    tcase_add_test(layout, words_are_wrapped);
    tcase_add_test(layout, sticking_words_stay_together);
    tcase_add_test(layout, endless_words_are_cut);
    tcase_add_test(layout, strange_bytes_are_shown_as_marks);
    tcase_add_test(layout, points_stand_in_one_column);
    tcase_add_test(layout, numbers_stay_behind_names);
    suite_add_tcase(suite, layout);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed != 0;
}
