/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Single-line letters. The figures were worked out by hand from the lines of the set files: in
 * rowmans H is "  508  9G]KFK[ RYFY[ RKPYP", which is 22 wide, with strokes at 4 and 18 from the
 * left edge, from -12 (F) to 9 ([) of the set's middle, and a bar at 2 (P) above the middle.
 */
#include "letters.h"

#define SIMPLEX "rowmans"
#define FOLDER  "/usr/share/hershey-fonts/"

static runnel_text letters(const char *text) {
    return (runnel_text){.font = SIMPLEX, .text = text, .cap_height_mm = 21, .single_line = true};
}

static void check_stroke(size_t i, double x0, double y0, double x1, double y1) {
    const runnel_contour *stroke = &set.contours.items[i];
    ck_assert(!stroke->closed);
    ck_assert_uint_eq(stroke->count, 2);
    const runnel_point *p = &set.contours.points[stroke->first];
    ck_near_or(p[0].x_mm, x0, 1e-14, 1e-14);
    ck_near_or(p[0].y_mm, y0, 1e-14, 1e-14);
    ck_near_or(p[1].x_mm, x1, 1e-14, 1e-14);
    ck_near_or(p[1].y_mm, y1, 1e-14, 1e-14);
}

/* At 21 mm a unit is 1 mm, and y runs upwards. */
START_TEST(strokes_of_the_h) {
    must_set(letters("H"));
    ck_assert_uint_eq(set.contours.count, 3);
    check_stroke(0, 0, 21, 0, 0);
    check_stroke(1, 14, 21, 14, 0);
    check_stroke(2, 0, 11, 14, 11);
    ck_near(set.cap_height_mm, 21, 1e-15);
    ck_near(set.contours.flatten_mm, 0, 0);
    ck_assert_str_eq(set.font_name, SIMPLEX);
    ck_assert_str_eq(set.font_file, FOLDER "rowmans.jhf");
}
END_TEST

START_TEST(scaled_by_cap_height_or_text_height) {
    runnel_text text = letters("H");
    text.cap_height_mm = 10.5;
    must_set(text);
    check_stroke(2, 0, 5.5, 7, 5.5);
    text.cap_height_mm = 0;
    text.text_height_mm = 42;
    must_set(text);
    check_stroke(2, 0, 22, 28, 22);
    ck_near(set.cap_height_mm, 42, 1e-15);
    /* Two lines: 32 + 21 units. */
    text.text = "H\nH";
    text.text_height_mm = 53;
    must_set(text);
    ck_near(set.cap_height_mm, 21, 1e-14);
    ck_near(runnel_contours_box(&set.contours).max_y_mm, 53, 1e-14);
}
END_TEST

/* H is 22 wide; its ink reaches from 4 to 18. */
START_TEST(spacing_and_clusters) {
    runnel_text text = letters("H H");
    must_set(text);
    ck_assert_uint_eq(set.cluster_count, 3);
    ck_assert_uint_eq(set.clusters[2].first_byte, 2);
    ck_assert_uint_eq(set.clusters[2].byte_count, 1);
    ck_assert(set.clusters[1].box.min_x_mm > set.clusters[1].box.max_x_mm); /* no ink */
    /* The blank is "JZ" wide: 16. */
    ck_near(set.clusters[2].box.min_x_mm, 38, 1e-14);
    text.spacing_mm = 1.5;
    must_set(text);
    ck_near(set.clusters[2].box.min_x_mm, 41, 1e-14);
    ck_near(runnel_contours_box(&set.contours).max_x_mm, 55, 1e-14);
}
END_TEST

START_TEST(lines_and_alignment) {
    runnel_text text = letters("HH\r\nH  \n");
    must_set(text);
    ck_assert_uint_eq(set.cluster_count, 5);
    ck_assert_uint_eq(set.clusters[2].first_byte, 4);
    ck_near(set.clusters[0].box.min_y_mm, 32, 1e-14);
    ck_near_or(set.clusters[2].box.min_x_mm, 0, 0, 1e-14);
    text.align = RUNNEL_ALIGN_CENTRE;
    must_set(text);
    ck_near(set.clusters[2].box.min_x_mm, 11, 1e-14);
    text.align = RUNNEL_ALIGN_END;
    text.line_spacing = 2;
    text.spacing_mm = 3;
    must_set(text);
    ck_near(set.clusters[2].box.min_x_mm, 25, 1e-14);
    ck_near(set.clusters[0].box.min_y_mm, 64, 1e-14);
}
END_TEST

/* In rowmant the line of J, " 3010 45JJSFSWRZQ[...", has both edges at the same place. Its ink
 * reaches from 2 (L) to 14 (X) of them, so it is taken to be 2 + 14 = 16 wide. The ink of H begins
 * at H - F = 2 from its own edge: 16 + 2 - 2 from the ink of J. */
START_TEST(letter_without_width) {
    runnel_text text = letters("JH");
    text.font = "rowmant";
    must_set(text);
    ck_near_or(set.clusters[0].box.min_x_mm, 0, 0, 1e-14);
    ck_near(set.clusters[0].box.max_x_mm, 12, 1e-14);
    ck_near(set.clusters[1].box.min_x_mm, 16, 1e-14);
}
END_TEST

/* Each of the sets that come with the library can be set, and its own H has the height asked for.
 */
START_TEST(all_sets) {
    static const char *const names[] = {
        "astrology", "cursive",   "cyrilc_1",  "cyrillic",  "futural", "futuram",     "gothgbt",
        "gothgrt",   "gothiceng", "gothicger", "gothicita", "gothitt", "greek",       "japanese",
        "mathlow",   "mathupp",   "rowmand",   "rowmans",   "rowmant", "scriptc",     "scripts",
        "timesg",    "timesi",    "timesib",   "timesr",    "timesrb", "meteorology", "music"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        runnel_text text = letters("ABCXYZ abcxyz 0123456789");
        text.font = names[i];
        must_set(text);
        ck_assert_uint_ge(set.contours.count, 15);
        text.text = "H";
        must_set(text);
        ck_near(runnel_contours_box(&set.contours).max_y_mm, 21, 1e-14);
    }
}
END_TEST

START_TEST(characters_refused) {
    must_refuse(letters("A\xC3\xA9\xE6\x97\xA5\x7F\xC3\xA9\t"), RUNNEL_E_GLYPH, 1,
                "font 'rowmans' has no letter for U+0009, U+007F, U+00E9 '\xC3\xA9', U+65E5 "
                "'\xE6\x97\xA5'");
    runnel_text text = letters("z"); /* an empty place of the set */
    text.font = "markers";
    must_refuse(text, RUNNEL_E_GLYPH, 1, "U+007A 'z'");
}
END_TEST

START_TEST(texts_refused) {
    must_refuse(letters(""), RUNNEL_E_SHAPE, 1, "the text is empty");
    must_refuse(letters(" \n "), RUNNEL_E_SHAPE, 1, "only blanks");
    runnel_text text = letters("--");
    must_set(text);
    text.cap_height_mm = 0;
    text.text_height_mm = 5;
    must_refuse(text, RUNNEL_E_SHAPE, 1, "one level stroke");
    text.text = " ";
    must_refuse(text, RUNNEL_E_SHAPE, 1, "only blanks");
    text = letters("H");
    text.axes = "wght=400";
    must_refuse(text, RUNNEL_E_CONFLICT, 1, "axes 'wght=400' are for variable fonts");
}
END_TEST

START_TEST(sets_refused) {
    runnel_text text = letters("H");
    text.font = "rowmanz";
    must_refuse(text, RUNNEL_E_FONT, 1,
                "no set of single-line letters 'rowmanz' is installed; near to it: 'rowman");
    text.font = "EB Garamond";
    must_refuse(text, RUNNEL_E_FONT, 1, "give a set such as 'rowmans'");
    text.font = "no-such-set.jhf";
    must_refuse(text, RUNNEL_E_NOT_FOUND, 1, "file 'no-such-set.jhf'");
    text.font = FOLDER;
    must_refuse(text, RUNNEL_E_NOT_FOUND, 1, "cannot be found");
    text.font = NULL;
    must_refuse(text, RUNNEL_E_MISSING, 1, "no set of single-line letters is given");
    text.font = FOLDER "scripts.jhf";
    must_set(text);
    ck_assert_str_eq(set.font_file, FOLDER "scripts.jhf");
}
END_TEST

/* ---- Files of one's own -----------------------------------------------------------------------*/

static char folder[32];
static char path[80];

static void make_folder(void) {
    letters_setup();
    snprintf(folder, sizeof folder, "/tmp/runnel-single-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/own.jhf", folder);
}

static void remove_folder(void) {
    unlink(path);
    ck_assert_int_eq(rmdir(folder), 0);
    letters_teardown();
}

static void write_set(const char *data, size_t bytes) {
    FILE *file = fopen(path, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(data, 1, bytes, file), bytes);
    ck_assert_int_eq(fclose(file), 0);
}

/* A blank, then "!" with a stroke and a dot, the last line without an end. The set has no H. */
START_TEST(dots_are_single_points) {
    static const char data[] = "    1  1JZ\n    2  5JZRFRP RRR";
    write_set(data, sizeof data - 1);
    runnel_text text = letters("!");
    text.font = path;
    must_refuse(text, RUNNEL_E_FONT, 1, "has no letter H to measure");
    text.cap_height_mm = 0;
    text.text_height_mm = 12;
    must_set(text);
    ck_assert_uint_eq(set.contours.count, 2);
    check_stroke(0, 0, 12, 0, 2);
    ck_assert_uint_eq(set.contours.items[1].count, 1);
    ck_assert(!set.contours.items[1].closed);
    ck_near_or(set.contours.points[2].y_mm, 0, 0, 1e-14);
    ck_near(set.cap_height_mm, 0, 0);
    text.text = "\"";
    must_refuse(text, RUNNEL_E_GLYPH, 1, "U+0022");
}
END_TEST

static const struct {
    const char *data;
    const char *words;
} broken[] = {
    {"", "it is empty"},
    {"\n", "line 1 does not begin with"},
    {"    1  1JZ\nshort\n", "line 2 does not begin with"},
    {"    1  0\n", "line 1 does not begin with"},
    {"    1  0JZ\n", "line 1 has not as many pairs"},
    {"    1  2JZ\n", "line 1 has not as many pairs"},
    {"    1  1JZRF\n", "line 1 has not as many pairs"},
    {"    1 -1JZRF\n", "line 1 has not as many pairs"},
    {"  abc  1JZ\n", "line 1 does not begin with"},
    {"       1JZ\n", "line 1 does not begin with"},
    {"    1   JZ\n", "line 1 has not as many pairs"},
    {"    1  1ZJ\n", "line 1 has its right edge to the left"},
    {"    1  3JZ RRF\n", "line 1 lifts the pen before it draws"},
    {"    1  1JZ\r\n", "line 1 holds a character that is not printable"},
    {"    1  2JZ\xC3\xA9\n", "line 1 holds a character that is not printable"},
};

START_TEST(files_refused) {
    write_set(broken[_i].data, strlen(broken[_i].data));
    runnel_text text = letters("!");
    text.font = path;
    must_refuse(text, RUNNEL_E_FONT, 1, broken[_i].words);
}
END_TEST

START_TEST(zero_bytes_refused) {
    write_set("    1  1J\0\n", 11);
    runnel_text text = letters("!");
    text.font = path;
    must_refuse(text, RUNNEL_E_FONT, 1, "line 1 holds a character that is not printable");
}
END_TEST

/* 224 lines reach the end of the library's table of 256 characters; one more would be past it. */
START_TEST(files_of_many_lines) {
    runnel_text text = letters("!");
    text.font = path;
    text.cap_height_mm = 0;
    text.text_height_mm = 21;
    write_set("    1  1JZ\n    2  3JZRFR[\n", 26);
    must_set(text);
    FILE *file = fopen(path, "ab");
    for (int i = 2; i < 224; i++)
        fputs("    1  1JZ\n", file);
    fclose(file);
    must_set(text);
    file = fopen(path, "ab");
    fputs("    1  1JZ\n", file);
    fclose(file);
    must_refuse(text, RUNNEL_E_FONT, 1, "line 225 is one too many");
}
END_TEST

START_TEST(large_files_refused) {
    size_t bytes = 1024 * 1024 + 1;
    char *data = malloc(bytes);
    ck_assert_ptr_nonnull(data);
    memset(data, 'R', bytes);
    runnel_text text = letters("!");
    text.font = path;
    write_set(data, bytes);
    must_refuse(text, RUNNEL_E_FONT, 1, "it is too large");
    write_set(data, 5000);
    must_refuse(text, RUNNEL_E_FONT, 1, "line 1 is too long");
    for (size_t i = 0; i < bytes; i += 50)
        data[i] = '\n';
    write_set(data, bytes - 1);
    must_refuse(text, RUNNEL_E_FONT, 5, "line 1 does not begin with");
    free(data);
}
END_TEST

/* ---- Want of memory ---------------------------------------------------------------------------*/

START_TEST(want_of_memory) {
    must_bear_scarcity(letters("HELLO\nYOU"), 8);
}
END_TEST

START_TEST(want_of_memory_for_messages) {
    static const char *const sets[] = {"rowmanz", "rowmans", "/no/file"};
    for (size_t i = 0; i < sizeof sets / sizeof *sets; i++) {
        runnel_text text = letters("\xE6\x97\xA5\xE6\x9C\xAC");
        text.font = sets[i];
        must_bear_scarcity_refused(text);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("single-line letters");
    TCase *known = tcase_create("known sets"), *own = tcase_create("own files");
    const TTest *const tests[] = {strokes_of_the_h,
                                  scaled_by_cap_height_or_text_height,
                                  spacing_and_clusters,
                                  lines_and_alignment,
                                  letter_without_width,
                                  all_sets,
                                  characters_refused,
                                  texts_refused,
                                  sets_refused,
                                  want_of_memory,
                                  want_of_memory_for_messages};
    tcase_add_checked_fixture(known, letters_setup, letters_teardown);
    tcase_set_timeout(known, 300);
    for (size_t i = 0; i < sizeof tests / sizeof *tests; i++)
        tcase_add_test(known, tests[i]);
    tcase_add_checked_fixture(own, make_folder, remove_folder);
    tcase_set_timeout(own, 300);
    tcase_add_test(own, dots_are_single_points);
    tcase_add_loop_test(own, files_refused, 0, (int)(sizeof broken / sizeof *broken));
    tcase_add_test(own, zero_bytes_refused);
    tcase_add_test(own, files_of_many_lines);
    tcase_add_test(own, large_files_refused);
    suite_add_tcase(suite, known);
    suite_add_tcase(suite, own);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
