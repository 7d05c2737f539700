/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Fonts: finding them, variable ones, other scripts, damaged files, want of memory.
 */
#include "letters.h"

/* ---- Fonts by name and path -------------------------------------------------------------------*/

START_TEST(fonts_by_family) {
    runnel_text text = {.font = "eb garamond", .text = "H", .cap_height_mm = 65.8};
    must_set(text);
    ck_assert_str_eq(set.font_file, SERIF); /* larger design than 08 Regular, upright, not bold */
    ck_near_or(runnel_contours_box(&set.contours).max_x_mm, 73.3, 0, 1e-9);
    text.font = " Dancing Script : bold ";
    must_set(text);
    ck_assert_str_eq(set.font_file, FONTS "opentype/dancingscript/DancingScript-Bold.otf");
    ck_assert_str_eq(set.font_name, "Dancing Script Bold");
    text.font = "Dancing Script:";
    must_set(text);
    ck_assert_str_eq(set.font_file, SCRIPT);
    text.font = "EB Garamond:12-italic"; /* blanks and hyphens do not part styles */
    must_set(text);
    ck_assert_str_eq(set.font_file, FONTS "opentype/ebgaramond/EBGaramond12-Italic.otf");
}
END_TEST

/* No other family is put in the place of one that is not there, though each would be found. */
START_TEST(families_are_not_replaced) {
    runnel_text text = {.font = "EB Garamont", .text = "H", .cap_height_mm = 10};
    must_refuse(text, RUNNEL_E_FONT, 1,
                "no font family 'EB Garamont' is installed; near to it: 'EB Garamond'");
    text.font = "sans-serif";
    must_refuse(text, RUNNEL_E_FONT, 1, "no font family 'sans-serif' is installed");
    text.font = "Zzyzxqwv Jjkk";
    must_refuse(text, RUNNEL_E_FONT, 1, "give a family's name or the path of a font file");
    text.font = "Dancing Script:Blod";
    must_refuse(text, RUNNEL_E_FONT, 1,
                "font family 'Dancing Script' has no style 'Blod'; near to it: 'Bold'");
    text.font = "Dancing Script:Condensed Oblique";
    must_refuse(text, RUNNEL_E_FONT, 1, "its styles: 'Bold', 'Regular'");
    text.font = NULL;
    must_refuse(text, RUNNEL_E_MISSING, 1, "no font is given");
    text.font = "  ";
    must_refuse(text, RUNNEL_E_MISSING, 1, "no font is given");
}
END_TEST

START_TEST(paths_refused) {
    runnel_text text = {.font = "no-such-font.ttf", .text = "H", .cap_height_mm = 10};
    must_refuse(text, RUNNEL_E_NOT_FOUND, 1, "font file 'no-such-font.ttf' cannot be opened");
    text.font = "./no-such-font";
    must_refuse(text, RUNNEL_E_NOT_FOUND, 1, "'./no-such-font'");
    text.font = "/usr/share/fonts";
    must_refuse(text, RUNNEL_E_NOT_FOUND, 1, "is not a file");
    text.font = SERIF "#3";
    must_refuse(text, RUNNEL_E_FONT, 1, "has no face 3; its faces are 0 to 0");
    text.font = SERIF "#70000";
    must_refuse(text, RUNNEL_E_FONT, 1, "no collection has a face of that number");
    text.font = SERIF "#0";
    must_set(text);
    ck_assert_str_eq(set.font_file, SERIF);
}
END_TEST

/* Writes the first bytes of the serif, changed at one of them, to a file of its own. */
static void write_damaged(const char *path, long bytes, long change) {
    FILE *from = fopen(SERIF, "rb"), *to = fopen(path, "wb");
    ck_assert(from && to);
    int c;
    for (long at = 0; at < bytes && (c = fgetc(from)) != EOF; at++)
        fputc(at == change ? c ^ 0xFF : c, to);
    fclose(from);
    ck_assert_int_eq(fclose(to), 0);
}

/* Whatever a damaged file leads to, it is an outcome and not a crash. */
START_TEST(damaged_files) {
    char folder[] = "/tmp/runnel-fonts-XXXXXX", path[64];
    ck_assert_ptr_nonnull(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/damaged.otf", folder);
    runnel_text text = {.font = path, .text = "Hamburg", .cap_height_mm = 10};
    static const long lengths[] = {0, 3, 12, 100, 1000, 10000, 100000};
    for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++) {
        write_damaged(path, lengths[i], -1);
        ck_assert_int_ne(runnel_lettering_set(&text, NULL, NULL, &set), RUNNEL_OK);
    }
    must_refuse(text, RUNNEL_E_FONT, 1, "is not a font that can be read");
    for (long change = 0; change < 400; change += 7) {
        write_damaged(path, 1L << 24, change);
        runnel_status status = runnel_lettering_set(&text, &problems, NULL, &set);
        ck_assert(status == RUNNEL_OK || problems.count || status == RUNNEL_E_NOT_COMPUTED);
        runnel_lettering_clear(&set);
        runnel_problems_clear(&problems);
    }
    ck_assert_int_eq(unlink(path), 0);
    ck_assert_int_eq(rmdir(folder), 0);
}
END_TEST

START_TEST(list_of_fonts) {
    runnel_font_entry *entries;
    size_t count, found = 0;
    ck_assert_int_eq(runnel_fonts_list(&entries, &count), RUNNEL_OK);
    for (size_t i = 0; i < count; i++) {
        ck_assert_ptr_nonnull(entries[i].styles);
        ck_assert_int_eq(access(entries[i].file, R_OK), 0);
        ck_assert_str_ne(entries[i].family, "Noto Color Emoji"); /* no outlines */
        if (strcmp(entries[i].family, "Dancing Script") == 0) {
            ck_assert_str_eq(entries[i].styles, "Bold, Regular");
            ck_assert_str_eq(entries[i].file, SCRIPT);
            found++;
        }
        if (strcmp(entries[i].family, "EB Garamond") == 0) {
            ck_assert_uint_eq(found, 1); /* sorted */
            ck_assert_str_eq(entries[i].file, SERIF);
            found++;
        }
    }
    ck_assert_uint_eq(found, 2);
    runnel_fonts_free(entries, count);
    runnel_fonts_free(NULL, 0);
}
END_TEST

/* ---- Other kinds of font ----------------------------------------------------------------------*/

/* Allerta Medium runs its outlines clockwise, unlike other PostScript ones; H: 195520 units of
 * straight edges, 720 high, so 720 mm give 1 mm a unit. The sense is kept. */
START_TEST(stencil_face) {
    if (!have(STENCIL))
        return;
    must_set((runnel_text){.font = STENCIL, .text = "H", .cap_height_mm = 720});
    ck_near(runnel_contours_area(&set.contours), -195520, 1e-12);
    ck_near(set.contours.flatten_mm, 0, 0);
}
END_TEST

/* H and o at weights 100, 600, 650 and 900; H is 2048 high. The outlines of instances lie between
 * whole units: 201.6 to 1893.6 at weight 600. */
START_TEST(variable_weight) {
    static const struct {
        const char *axes;
        double width, area_h, area_o;
    } rows[] = {
        {"wght=100", 1432.0, 345600.0, 278145.33333333},
        {NULL, 1588.0, 1256048.0, 913902.83333333},
        {"wght=600", 1692.0, 1815950.72, 1283590.94},
        {" wght = 650 ", 1718.0, 1951868.0, 1368947.79166667},
        {"wght=900", 1848.0, 2607104.0, 1753341.0},
    };
    if (!have(VARIABLE))
        return;
    double before = 0;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        runnel_text text = {.font = VARIABLE, .axes = rows[i].axes, .cap_height_mm = 204.8};
        text.flatten_mm = 1e-5;
        text.text = "H";
        must_set(text);
        ck_assert(area() > before);
        before = area();
        /* FreeType keeps sixty-fourths of a unit. */
        ck_near_or(runnel_contours_box(&set.contours).max_x_mm, rows[i].width / 10, 0, 0.0032);
        ck_near(area(), rows[i].area_h / 100, 4e-5);
        text.text = "o";
        must_set(text);
        ck_near(area(), rows[i].area_o / 100, 4e-5);
    }
    ck_assert_str_eq(set.font_name, "Inter Regular (wght=900)");
}
END_TEST

/* At wght 600, slnt -5 the H reaches from 137.6 to 1999.6. The advance of H is 2095.2 at wght 600,
 * which HarfBuzz rounds to 2095. */
START_TEST(variable_slant_and_advance) {
    if (!have(VARIABLE))
        return;
    runnel_text text = {.font = VARIABLE, .axes = "wght=600,slnt=-5", .cap_height_mm = 204.8};
    text.text = "HH";
    must_set(text);
    ck_near_or(width_of(&set.clusters[0].box), 186.2, 0, 0.0032);
    ck_near_or(set.clusters[1].box.min_x_mm, 209.52, 0, 0.03);
}
END_TEST

START_TEST(named_style_of_a_variable_font) {
    if (!have(VARIABLE))
        return;
    runnel_text text = {.font = "Inter:SemiBold", .text = "Ho", .cap_height_mm = 204.8};
    must_set(text);
    ck_assert_str_eq(set.font_name, "Inter Semi Bold");
    double named = area();
    ck_near(named, 18159.5072 + 12835.9094, 4e-5);
    /* At wght 600, slnt -10 H reaches from 73.6 to 2105.6. */
    text.font = "Inter:Semi Bold Italic";
    text.text = "H";
    must_set(text);
    ck_near_or(runnel_contours_box(&set.contours).max_x_mm, 203.2, 0, 0.0032);
    /* An axis set on top of a style keeps the style's other axes. */
    text.axes = "wght=900";
    must_set(text);
    ck_near(area(), 26071.04, 4e-5); /* slanting keeps the area of straight strokes */
    ck_near_or(runnel_contours_box(&set.contours).max_x_mm, 218.8, 0, 0.0032); /* 4 to 2192 */
}
END_TEST

START_TEST(axes_refused) {
    runnel_text text = {.font = SERIF, .text = "H", .cap_height_mm = 10, .axes = "wght=600"};
    must_refuse(text, RUNNEL_E_FONT, 1, "is not a variable font: 'wght=600' cannot be set");
    if (!have(VARIABLE))
        return;
    text.font = VARIABLE;
    text.axes = "wgth=600";
    must_refuse(text, RUNNEL_E_UNKNOWN, 1,
                "has no axis for 'wgth=600'; it has wght 100 to 900, slnt -10 to 0");
    text.axes = "wght=901";
    must_refuse(text, RUNNEL_E_RANGE, 1,
                "'wght=901' is out of the range of font 'Inter Regular': 100 to 900");
    text.axes = "slnt=-10.5";
    must_refuse(text, RUNNEL_E_RANGE, 1, "-10 to 0");
    text.axes = "wght=400,wght=500";
    must_refuse(text, RUNNEL_E_CONFLICT, 1, "'wght=500': this axis is set twice");
    static const char *const broken[] = {"wght",     "wght=",     "=600",      "wght=6x",
                                         "wg=1",     "wght=4.",   "wght=400,", "wght=nan",
                                         "wght=inf", "weight=400"};
    for (size_t i = 0; i < sizeof broken / sizeof *broken; i++) {
        text.axes = broken[i];
        must_refuse(text, RUNNEL_E_SYNTAX, 1, "is not of the form 'wght=600'");
    }
    text.axes = "abcd=1,wght=1,x";
    must_refuse(text, RUNNEL_E_UNKNOWN, 3, "'abcd=1'");
    text.axes = " ";
    must_set(text);
}
END_TEST

/* DejaVu Sans keeps the joined forms of beh under characters of their own, H 1493 units high. Alone
 * 1641 wide, area 420074.83 (U+FE8F); as first of two letters -20 to 391, advance 570, area
 * 159398.5 (U+FE91); as last 129.98 to 2031, advance 2011, area 499938 (U+FE90). */
START_TEST(arabic_letters_join) {
    if (!have(SANS))
        return;
    runnel_text text = {.font = SANS, .text = "\xD8\xA8", .cap_height_mm = 149.3};
    text.flatten_mm = 1e-5;
    must_set(text);
    ck_near_or(width_of(&set.clusters[0].box), 164.1, 0, 0.002);
    ck_near(area(), 4200.7483, 1e-5);
    text.text = "\xD8\xA8\xD8\xA8";
    must_set(text);
    ck_assert_uint_eq(set.cluster_count, 2);
    ck_assert_uint_eq(set.clusters[1].first_byte, 2);
    ck_near_or(width_of(&set.clusters[0].box), 41.1, 0, 0.002);
    ck_near_or(width_of(&set.clusters[1].box), 190.1015, 0, 0.002);
    ck_near(area(), 1593.985 + 4999.38, 1e-5);
    /* The first letter stands at the right, after the advance of the last one. */
    ck_near_or(set.clusters[0].box.min_x_mm, 201.1 - 2 - 12.9985, 0, 0.002);
    text.spacing_mm = 1;
    must_refuse(text, RUNNEL_E_CONFLICT, 1, "would tear joined letters such as U+0628 '\xD8\xA8'");
}
END_TEST

/* A book face for Arabic: beh alone is 63.8 to 863.5 wide of 649 units of H, area 101010.5. In a
 * word each letter takes another form, and neighbours touch. */
START_TEST(arabic_book_face) {
    if (!have(ARABIC))
        return;
    runnel_text text = {.font = ARABIC, .text = "\xD8\xA8", .cap_height_mm = 64.9};
    text.flatten_mm = 1e-5;
    must_set(text);
    ck_near_or(width_of(&set.clusters[0].box), 79.9757, 0, 0.002);
    ck_near(area(), 1010.105, 1e-5);
    text.text = "\xD8\xA8\xD8\xA8\xD8\xA8";
    must_set(text);
    ck_assert_uint_eq(set.cluster_count, 3);
    for (size_t i = 0; i + 1 < 3; i++) {
        ck_assert(width_of(&set.clusters[i].box) < 40);
        ck_assert(set.clusters[i].box.min_x_mm < set.clusters[i + 1].box.max_x_mm + 1e-9);
        ck_assert(set.clusters[i].box.max_x_mm > set.clusters[i + 1].box.max_x_mm);
    }
}
END_TEST

/*
 * The order of runs by Unicode Standard Annex 9. In a line from right to left Latin words and
 * numbers run from left to right; a number after a Latin word belongs to it (rule W7).
 */
START_TEST(right_to_left) {
    if (!have(ARABIC))
        return;
    runnel_text text = {.font = ARABIC, .text = "\xD8\xA8 AB 12", .cap_height_mm = 10};
    must_set(text);
    const runnel_cluster *c = set.clusters; /* beh, blank, A, B, blank, 1, 2 */
    ck_assert_uint_eq(set.cluster_count, 7);
    ck_assert(c[2].box.max_x_mm < c[3].box.max_x_mm);
    ck_assert(c[3].box.max_x_mm < c[5].box.min_x_mm);
    ck_assert(c[5].box.max_x_mm < c[6].box.max_x_mm);
    ck_assert(c[6].box.max_x_mm < c[0].box.min_x_mm);
    text.text = "\xD8\xA8 12 AB"; /* seen from the left: A B, 1 2, beh */
    must_set(text);
    c = set.clusters;
    ck_assert(c[5].box.max_x_mm < c[6].box.max_x_mm);
    ck_assert(c[6].box.max_x_mm < c[2].box.min_x_mm);
    ck_assert(c[2].box.max_x_mm < c[3].box.max_x_mm);
    ck_assert(c[3].box.max_x_mm < c[0].box.min_x_mm);
    text.text = "AB \xD8\xA8 12"; /* a line from left to right: A B, 1 2, beh */
    must_set(text);
    c = set.clusters;
    ck_assert(c[0].box.min_x_mm < c[1].box.min_x_mm);
    ck_assert(c[1].box.max_x_mm < c[5].box.min_x_mm);
    ck_assert(c[6].box.max_x_mm < c[3].box.min_x_mm);
}
END_TEST

/* A line from right to left starts at the right, and blanks at its end stand at the left. */
START_TEST(right_to_left_alignment) {
    if (!have(ARABIC))
        return;
    runnel_text text = {.font = ARABIC,
                        .text = "\xD8\xA8\xD8\xA8 \xD8\xA8\xD8\xA8\n\xD8\xA8\xD8\xA8 ",
                        .cap_height_mm = 10};
    must_set(text);
    /* Both lines begin and end with the same two letters. */
    ck_near(set.clusters[5].box.max_x_mm, set.clusters[0].box.max_x_mm, 1e-12);
    ck_assert(set.clusters[6].box.min_x_mm > set.clusters[4].box.min_x_mm + 5);
    text.align = RUNNEL_ALIGN_END;
    must_set(text);
    ck_near_or(set.clusters[6].box.min_x_mm, 0, 0, 1e-9);
    ck_near_or(set.clusters[4].box.min_x_mm, 0, 0, 1e-9);
    text.align = RUNNEL_ALIGN_CENTRE;
    must_set(text);
    ck_near_or(set.clusters[6].box.min_x_mm + set.clusters[5].box.max_x_mm,
               set.clusters[4].box.min_x_mm + set.clusters[0].box.max_x_mm, 0, 1e-9);
}
END_TEST

/* A line from left to right starts at the left side of the block, one from right to left below it
 * at the right side: the block is no wider than its longer line, but for the air beside a letter.
 */
START_TEST(both_directions_in_one_block) {
    if (!have(ARABIC))
        return;
    runnel_text text = {.font = ARABIC, .text = "HHHHHH", .cap_height_mm = 10};
    must_set(text);
    double width_mm = runnel_contours_box(&set.contours).max_x_mm;
    text.text = "HHHHHH\n\xD8\xA8\xD8\xA8";
    must_set(text);
    ck_assert_uint_eq(set.cluster_count, 8);
    runnel_box box = runnel_contours_box(&set.contours), first = set.clusters[6].box;
    ck_near_or(box.max_x_mm - box.min_x_mm, width_mm, 0, 1);
    ck_near_or(first.max_x_mm, box.max_x_mm, 0, 1);
    ck_assert(set.clusters[7].box.min_x_mm > box.max_x_mm / 2);
    text.align = RUNNEL_ALIGN_END;
    must_set(text);
    ck_near_or(set.clusters[7].box.min_x_mm, set.clusters[0].box.min_x_mm, 0, 1);
}
END_TEST

/* ka + virama + ssa is one conjunct, 45 to 671; the sign i is written before its letter: i is
 * 266 wide, its box -13 to 685, ka's -13 to 763. H is 666 high. */
START_TEST(devanagari_clusters) {
    if (!have(DEVANAGARI))
        return;
    runnel_text text = {
        .font = DEVANAGARI, .text = "\xE0\xA4\x95\xE0\xA5\x8D\xE0\xA4\xB7", .cap_height_mm = 66.6};
    text.flatten_mm = 1e-5;
    must_set(text);
    ck_assert_uint_eq(set.cluster_count, 1);
    ck_assert_uint_eq(set.clusters[0].byte_count, 9);
    ck_near_or(runnel_contours_box(&set.contours).max_x_mm, 62.6, 0, 0.001);
    ck_near(area(), 1640.85333, 1e-4);
    text.text = "\xE0\xA4\x95\xE0\xA4\xBF";
    must_set(text);
    ck_assert_uint_eq(set.cluster_count, 1);
    ck_assert_uint_eq(set.clusters[0].byte_count, 6);
    ck_near_or(runnel_contours_box(&set.contours).max_x_mm, 26.6 + 76.3 + 1.3, 0, 0.001);
}
END_TEST

/* Without anchors for it a mark is still put over its letter: V is 16 to 1384 units wide, H 1493
 * high. */
START_TEST(marks_without_anchors) {
    if (!have(SANS))
        return;
    must_set((runnel_text){.font = SANS, .text = "V\xCC\x82", .cap_height_mm = 149.3});
    ck_assert_uint_eq(set.cluster_count, 1);
    ck_near_or(width_of(&set.clusters[0].box), 136.8, 0, 1e-9);
    ck_assert(set.clusters[0].box.max_y_mm > 160);
}
END_TEST

/* Two letters of two fonts: the area is known, 539928 of 2048 an em (H, 1434 high) and 160333 of
 * 1000 (H, 944 high). */
START_TEST(other_faces) {
    if (have(GOTHIC)) {
        must_set((runnel_text){.font = GOTHIC, .text = "H", .cap_height_mm = 143.4});
        ck_near(area(), 5399.28, 1e-5);
    }
    if (have(BLACKLETTER)) {
        must_set((runnel_text){
            .font = BLACKLETTER, .text = "H", .cap_height_mm = 94.4, .flatten_mm = 1e-5});
        ck_near(area(), 1603.33, 1e-5);
    }
}
END_TEST

START_TEST(pictures_are_no_outlines) {
    if (!have(PICTURES))
        return;
    runnel_text text = {.font = PICTURES, .text = "1", .cap_height_mm = 10};
    must_refuse(text, RUNNEL_E_FONT, 1, "has pictures of its letters but no outlines");
    text.font = "Noto Color Emoji";
    must_refuse(text, RUNNEL_E_FONT, 1, "has pictures of its letters but no outlines");
}
END_TEST

/* ---- Want of memory ---------------------------------------------------------------------------*/

START_TEST(want_of_memory) {
    runnel_text text = {.font = SCRIPT, .text = "fi\nHo", .cap_height_mm = 10, .spacing_mm = 1};
    text.flatten_mm = 0.1;
    must_bear_scarcity(text, 50);
}
END_TEST

START_TEST(want_of_memory_by_name) {
    must_bear_scarcity(
        (runnel_text){
            .font = "Dancing Script:Bold", .text = "H", .text_height_mm = 10, .flatten_mm = 0.1},
        50);
}
END_TEST

START_TEST(want_of_memory_for_axes) {
    if (have(VARIABLE))
        must_bear_scarcity(
            (runnel_text){
                .font = VARIABLE, .text = "H", .cap_height_mm = 10, .axes = "wght=700,slnt=-1"},
            50);
}
END_TEST

START_TEST(want_of_memory_for_messages) {
    static const char *const fonts[] = {"EB Garamont", "EB Garamond:12 Bolt", "/no/file", SERIF};
    for (size_t i = 0; i < sizeof fonts / sizeof *fonts; i++)
        must_bear_scarcity_refused(
            (runnel_text){.font = fonts[i], .text = "\xE6\x97\xA5\xE6\x9C\xAC"});
    if (have(VARIABLE))
        must_bear_scarcity_refused((runnel_text){
            .font = VARIABLE, .text = "H", .cap_height_mm = 1, .axes = "wgth=1,wght=1,x"});
}
END_TEST

START_TEST(want_of_memory_for_the_list) {
    runnel_status status = RUNNEL_E_NO_MEMORY;
    for (size_t fail_at = 0; status; fail_at = fail_at * 9 / 8 + 1) {
        failing count = {.fail_at = fail_at};
        runnel_font_entry *entries = NULL;
        size_t entry_count = 0;
        start_failing(&count);
        status = runnel_fonts_list(&entries, &entry_count);
        ck_assert(status == RUNNEL_OK || status == RUNNEL_E_NO_MEMORY);
        ck_assert(status == RUNNEL_OK || !entries);
        runnel_fonts_free(entries, entry_count);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
    }
}
END_TEST

int main(void) {
    const TTest *const tests[] = {fonts_by_family,
                                  families_are_not_replaced,
                                  paths_refused,
                                  damaged_files,
                                  list_of_fonts,
                                  stencil_face,
                                  variable_weight,
                                  variable_slant_and_advance,
                                  named_style_of_a_variable_font,
                                  axes_refused,
                                  arabic_letters_join,
                                  arabic_book_face,
                                  right_to_left,
                                  right_to_left_alignment,
                                  both_directions_in_one_block,
                                  devanagari_clusters,
                                  marks_without_anchors,
                                  other_faces,
                                  pictures_are_no_outlines,
                                  want_of_memory,
                                  want_of_memory_by_name,
                                  want_of_memory_for_axes,
                                  want_of_memory_for_messages,
                                  want_of_memory_for_the_list};
    return run_tests("fonts", tests, sizeof tests / sizeof *tests);
}
