/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Lettering in fonts: size, spacing, lines and characters.
 */
#include "letters.h"

/* ---- Size -------------------------------------------------------------------------------------*/

/* H of EB Garamond: box (37, -5) to (770, 653), area 151125.95 units. */
START_TEST(cap_height_is_that_of_the_h) {
    must_set((runnel_text){.font = SERIF, .text = "H", .cap_height_mm = 65.8, .flatten_mm = 1e-5});
    runnel_box box = runnel_contours_box(&set.contours);
    ck_near(box.max_x_mm, 73.3, 1e-13);
    ck_near(box.max_y_mm, 65.8, 1e-13);
    ck_near(set.cap_height_mm, 65.8, 1e-15);
    ck_near(runnel_contours_area(&set.contours), 1511.2595, 1e-5);
    ck_assert(set.contours.flatten_mm > 0 && set.contours.flatten_mm <= 1e-5);
    ck_assert_str_eq(set.font_file, SERIF);
    ck_assert_str_eq(set.font_name, "EB Garamond 12 Regular");
    ck_assert_uint_eq(set.cluster_count, 1);
}
END_TEST

/* 0.001 mm is the usual tolerance; a coarser one takes fewer chords. */
START_TEST(chord_tolerance) {
    runnel_text text = {.font = SERIF, .text = "S", .cap_height_mm = 38};
    must_set(text);
    double usual = set.contours.flatten_mm;
    size_t points = set.contours.point_count;
    ck_assert(usual > 0.0005 && usual <= 0.001);
    text.flatten_mm = 0.1;
    must_set(text);
    ck_assert(set.contours.flatten_mm > usual && set.contours.flatten_mm <= 0.1);
    ck_assert_uint_lt(set.contours.point_count, points);
}
END_TEST

/* "Hg" over "E": from 653 (H) down to -5 (E) - 1000 (a line of 710 + 290). That is 1658 units
 * high. The text height is kept to the chords' tolerance. */
START_TEST(text_height_is_that_of_all_ink) {
    must_set((runnel_text){.font = SERIF, .text = "Hg\nE", .text_height_mm = 165.8});
    runnel_box box = runnel_contours_box(&set.contours);
    ck_near_or(box.max_y_mm, 165.8, 0, 0.001);
    ck_near(set.cap_height_mm, 65.8, 1e-12);
}
END_TEST

/* "o": (35, -14) to (460, 414): 428 units, highest and lowest where the curve turns. */
START_TEST(text_height_of_round_letters) {
    must_set((runnel_text){.font = SERIF, .text = "o", .text_height_mm = 42.8});
    runnel_box box = runnel_contours_box(&set.contours);
    ck_near_or(box.max_y_mm, 42.8, 0, 0.001);
    ck_near(set.cap_height_mm, 65.8, 1e-12);
}
END_TEST

START_TEST(sizes_refused) {
    runnel_text text = {.font = SERIF, .text = "H"};
    must_refuse(text, RUNNEL_E_MISSING, 1, "give a cap height or a text height");
    text.cap_height_mm = 10;
    text.text_height_mm = 10;
    must_refuse(text, RUNNEL_E_CONFLICT, 1, "both a cap height and a text height");
    text.text_height_mm = 0;
    text.cap_height_mm = -3;
    must_refuse(text, RUNNEL_E_RANGE, 1, "cap height of '-3' mm");
    text.cap_height_mm = NAN;
    must_refuse(text, RUNNEL_E_RANGE, 1, "cap height of");
    text.cap_height_mm = 10001;
    must_refuse(text, RUNNEL_E_RANGE, 1, "at most 10000 mm");
    text.cap_height_mm = 0;
    text.text_height_mm = INFINITY;
    must_refuse(text, RUNNEL_E_RANGE, 1, "text height of");
}
END_TEST

START_TEST(other_numbers_refused) {
    runnel_text text = {.font = SERIF, .text = "H", .cap_height_mm = 10, .spacing_mm = NAN};
    must_refuse(text, RUNNEL_E_RANGE, 1, "letter spacing of");
    text.spacing_mm = 0;
    text.line_spacing = -1;
    must_refuse(text, RUNNEL_E_RANGE, 1, "line spacing of '-1'");
    text.line_spacing = 0;
    text.flatten_mm = 2;
    must_refuse(text, RUNNEL_E_RANGE, 1, "chord tolerance of '2' mm");
    text.flatten_mm = -0.001;
    must_refuse(text, RUNNEL_E_RANGE, 1, "chord tolerance of '-0.001' mm");
}
END_TEST

/* ---- Spacing, lines ---------------------------------------------------------------------------*/

/* A: advance 692, left edge -2; V: left edge 0; kerning of the pair -160 (GPOS). */
START_TEST(kerning) {
    must_set((runnel_text){.font = SERIF, .text = "AV", .cap_height_mm = 65.8});
    ck_assert_uint_eq(set.cluster_count, 2);
    ck_near_or(set.clusters[1].box.min_x_mm - set.clusters[0].box.min_x_mm, 53.4, 0, 0.001);
}
END_TEST

/* H: advance 810, no kerning with itself. */
START_TEST(letter_spacing) {
    runnel_text text = {.font = SERIF, .text = "HHH", .cap_height_mm = 65.8};
    must_set(text);
    ck_near(set.clusters[1].box.min_x_mm, 81, 1e-12);
    ck_near(set.clusters[2].box.min_x_mm, 162, 1e-12);
    ck_near(set.clusters[2].box.max_x_mm, 162 + 73.3, 1e-12);
    text.spacing_mm = 2.5;
    must_set(text);
    ck_near(set.clusters[1].box.min_x_mm, 83.5, 1e-12);
    ck_near(set.clusters[2].box.min_x_mm, 167, 1e-12);
    text.spacing_mm = -1;
    must_set(text);
    ck_near(set.clusters[2].box.min_x_mm, 160, 1e-12);
}
END_TEST

/* Dancing Script: ligature f + i, box -68 to 582; f alone -68 to 394. H is 807 units high. */
START_TEST(spaced_letters_are_no_ligature) {
    runnel_text text = {.font = SCRIPT, .text = "fi", .cap_height_mm = 80.7};
    must_set(text);
    ck_assert_uint_eq(set.cluster_count, 1);
    ck_assert_uint_eq(set.clusters[0].byte_count, 2);
    ck_near_or(width_of(&set.clusters[0].box), 65.0, 0, 0.001);
    text.spacing_mm = 1;
    must_set(text);
    ck_assert_uint_eq(set.cluster_count, 2);
    ck_near_or(width_of(&set.clusters[0].box), 46.2, 0, 0.001);
}
END_TEST

/* o and l join in a script face: both outlines stay whole, 47361.05 + 65322.55 units. */
START_TEST(overlaps_are_kept) {
    must_set(
        (runnel_text){.font = SCRIPT, .text = "ol", .cap_height_mm = 80.7, .flatten_mm = 1e-5});
    ck_near(area(), 1126.836, 1e-5);
    ck_assert(set.clusters[1].box.min_x_mm < set.clusters[0].box.max_x_mm);
}
END_TEST

/* Line height of EB Garamond: 710 + 290 + 0 units. */
START_TEST(lines) {
    runnel_text text = {.font = SERIF, .text = "H\nH\r\nH", .cap_height_mm = 65.8};
    must_set(text);
    ck_assert_uint_eq(set.cluster_count, 3);
    ck_assert_uint_eq(set.clusters[1].first_byte, 2);
    ck_assert_uint_eq(set.clusters[2].first_byte, 5);
    for (int i = 0; i < 3; i++) {
        ck_assert_uint_eq(set.clusters[i].byte_count, 1);
        ck_near_or(set.clusters[i].box.min_y_mm, 200 - 100.0 * i, 0, 1e-12);
        ck_near_or(set.clusters[i].box.min_x_mm, 0, 0, 1e-12);
    }
    text.line_spacing = 1.5;
    must_set(text);
    ck_near(set.clusters[0].box.min_y_mm, 300, 1e-13);
    text.text = "H\n\nH\n"; /* an empty line keeps its height */
    text.line_spacing = 0;
    must_set(text);
    ck_near(set.clusters[0].box.min_y_mm, 200, 1e-13);
}
END_TEST

/* HHH is 2 x 810 units longer than H; blanks at the end do not count, those at the start do
 * (200 units each). */
START_TEST(alignment) {
    runnel_text text = {.font = SERIF, .text = "HHH\nH  ", .cap_height_mm = 65.8};
    must_set(text);
    ck_near_or(set.clusters[3].box.min_x_mm, 0, 0, 1e-12);
    text.align = RUNNEL_ALIGN_CENTRE;
    must_set(text);
    ck_near(set.clusters[3].box.min_x_mm, 81, 1e-12);
    text.align = RUNNEL_ALIGN_END;
    must_set(text);
    ck_near(set.clusters[3].box.min_x_mm, 162, 1e-12);
    text.spacing_mm = 4;
    must_set(text);
    ck_near(set.clusters[3].box.min_x_mm, 170, 1e-12);
    text.text = "HHH\n H";
    text.align = RUNNEL_ALIGN_START;
    text.spacing_mm = 0;
    must_set(text);
    ck_near(set.clusters[4].box.min_x_mm, 20, 1e-12);
    ck_assert(set.clusters[3].box.min_x_mm > set.clusters[3].box.max_x_mm); /* no ink */
}
END_TEST

/* ---- Characters -------------------------------------------------------------------------------*/

/* e with an acute, in one or two characters: box (30, -14) to (360, 649), area 66529.6. */
START_TEST(accents_are_placed) {
    runnel_text text = {
        .font = SERIF, .text = "\xC3\xA9", .cap_height_mm = 65.8, .flatten_mm = 1e-5};
    must_set(text);
    runnel_box one = runnel_contours_box(&set.contours);
    ck_near_or(one.max_x_mm, 33.0, 0, 1e-4);
    ck_near_or(one.max_y_mm, 66.3, 0, 1e-4);
    ck_near(area(), 665.296, 1e-5);
    text.text = "e\xCC\x81";
    must_set(text);
    runnel_box two = runnel_contours_box(&set.contours);
    ck_near_or(two.max_y_mm, one.max_y_mm, 0, 1e-9);
    ck_near(area(), 665.296, 1e-5);
    ck_assert_uint_eq(set.cluster_count, 1);
    ck_assert_uint_eq(set.clusters[0].byte_count, 3);
    /* No single character: x (10 to 420) and the circumflex (30 to 247), whose anchor at 138 is put
     * on that of the x at 235: it reaches from 127 to 344, 117 to 334 from the edge of the x. */
    text.text = "x\xCC\x82";
    must_set(text);
    ck_assert_uint_eq(set.cluster_count, 1);
    ck_near_or(width_of(&set.clusters[0].box), 41.0, 0, 1e-4);
    ck_assert(set.clusters[0].box.max_y_mm > 55);
    double low = INFINITY, high = -INFINITY;
    for (size_t i = 0; i < set.contours.point_count; i++)
        if (set.contours.points[i].y_mm > 43) {
            low = fmin(low, set.contours.points[i].x_mm);
            high = fmax(high, set.contours.points[i].x_mm);
        }
    ck_near_or(low, 11.7, 0, 1e-3);
    ck_near_or(high, 33.4, 0, 1e-3);
}
END_TEST

START_TEST(missing_glyphs_are_named_once) {
    runnel_text text = {
        .font = SERIF, .text = "A\xE6\x97\xA5\xE6\x9C\xAC\xE6\x97\xA5\t", .cap_height_mm = 10};
    must_refuse(text, RUNNEL_E_GLYPH, 1,
                "font 'EB Garamond 12 Regular' has no letter for U+0009, U+65E5 '\xE6\x97\xA5', "
                "U+672C '\xE6\x9C\xAC'");
    text.text = "\xF0\x9F\x98\x80"; /* beyond the first plane */
    must_refuse(text, RUNNEL_E_GLYPH, 1, "U+1F600 '\xF0\x9F\x98\x80'");
}
END_TEST

START_TEST(long_lists_of_missing_glyphs_end) {
    char text[3 * 30 + 1] = "";
    for (int i = 0; i < 30; i++) {
        text[3 * i] = (char)0xE6;
        text[3 * i + 1] = (char)0x97;
        text[3 * i + 2] = (char)(0x80 + i);
    }
    must_refuse((runnel_text){.font = SERIF, .text = text, .cap_height_mm = 10}, RUNNEL_E_GLYPH, 1,
                "U+65D3 '\xE6\x97\x93', and 10 more");
}
END_TEST

/* Characters that are not seen by nature need no glyph: soft hyphen, word joiner. */
START_TEST(invisible_characters_are_no_fault) {
    runnel_text text = {.font = SERIF, .text = "H\xC2\xADH", .cap_height_mm = 65.8};
    must_set(text);
    ck_near(runnel_contours_box(&set.contours).max_x_mm, 81 + 73.3, 1e-12);
    text.text = "H\xE2\x81\xA0H";
    text.spacing_mm = 1; /* one gap, not two */
    must_set(text);
    ck_near(runnel_contours_box(&set.contours).max_x_mm, 82 + 73.3, 1e-12);
}
END_TEST

START_TEST(broken_utf8) {
    runnel_text text = {.font = SERIF, .text = "AB\xFF", .cap_height_mm = 10};
    must_refuse(text, RUNNEL_E_SYNTAX, 1, "byte 3, '0xFF', belongs to no character");
    text.text = "\xC3"; /* cut off */
    must_refuse(text, RUNNEL_E_SYNTAX, 1, "byte 1, '0xC3'");
    text.text = "A\xC0\xAF"; /* overlong */
    must_refuse(text, RUNNEL_E_SYNTAX, 2, "byte 2, '0xC0'");
    text.text = "\xED\xA0\x80"; /* surrogate */
    must_refuse(text, RUNNEL_E_SYNTAX, 3, "byte 1, '0xED'");
    text.text = "\xFF\xFF\xFF\xFF\xFF\xFF";
    must_refuse(text, RUNNEL_E_SYNTAX, 5, "byte 1");
}
END_TEST

START_TEST(text_without_ink) {
    runnel_text text = {.font = SERIF, .cap_height_mm = 10};
    must_refuse(text, RUNNEL_E_SHAPE, 1, "the text is empty");
    text.text = "";
    must_refuse(text, RUNNEL_E_SHAPE, 1, "the text is empty");
    text.text = "  \n \n";
    must_refuse(text, RUNNEL_E_SHAPE, 1, "only blanks");
    text.cap_height_mm = 0;
    text.text_height_mm = 10;
    must_refuse(text, RUNNEL_E_SHAPE, 1, "only blanks");
}
END_TEST

START_TEST(text_too_long) {
    char *text = malloc(100002);
    ck_assert_ptr_nonnull(text);
    memset(text, 'H', 100001);
    text[100001] = '\0';
    must_refuse((runnel_text){.font = SERIF, .text = text, .cap_height_mm = 1}, RUNNEL_E_RANGE, 1,
                "longer than 100000 bytes");
    free(text);
}
END_TEST

/* All that is wrong is told at once, with the place. */
START_TEST(all_problems_at_once) {
    runnel_place place = {.file = "job.yaml", .line = 7, .column = 3, .field = "cavities[0]"};
    runnel_text text = {.font = "EB Garamand", .text = "A\xFF", .line_spacing = NAN};
    ck_assert_int_eq(runnel_lettering_set(&text, &problems, &place, &set), RUNNEL_E_SYNTAX);
    ck_assert_uint_eq(problems.count, 4);
    ck_assert(told("UTF-8") && told("size is missing") && told("line spacing") && told("family"));
    for (size_t i = 0; i < problems.count; i++) {
        ck_assert_str_eq(problems.items[i].file, "job.yaml");
        ck_assert_str_eq(problems.items[i].field, "cavities[0]");
        ck_assert_uint_eq(problems.items[i].line, 7);
    }
    ck_assert_int_eq(runnel_lettering_set(&text, NULL, NULL, &set), RUNNEL_E_SYNTAX);
}
END_TEST

int main(void) {
    const TTest *const tests[] = {cap_height_is_that_of_the_h,
                                  chord_tolerance,
                                  text_height_is_that_of_all_ink,
                                  text_height_of_round_letters,
                                  sizes_refused,
                                  other_numbers_refused,
                                  kerning,
                                  letter_spacing,
                                  spaced_letters_are_no_ligature,
                                  overlaps_are_kept,
                                  lines,
                                  alignment,
                                  accents_are_placed,
                                  missing_glyphs_are_named_once,
                                  long_lists_of_missing_glyphs_end,
                                  invisible_characters_are_no_fault,
                                  broken_utf8,
                                  text_without_ink,
                                  text_too_long,
                                  all_problems_at_once};
    return run_tests("lettering", tests, sizeof tests / sizeof *tests);
}
