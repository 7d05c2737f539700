/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Profiles of ordinary lettering: no text may be refused, at any size, spacing and tolerance.
 *
 * Three things are held against each other: the area of the pieces against that of the outlines
 * (shoelace), m at random places against brute force in long double, and the volume of a V cut
 * against a raster of distances to chords far finer than those of the cut.
 *
 * RUNNEL_LONG=1 in the environment takes 20,000 texts.
 */
#include "brute.h"
#include "letters.h"
#include "shape/pieces.h"

/* Sizes, mm, as the texts go through them: of small print, a sign, a wall, a front. */
static const double caps_mm[] = {1, 10, 100, 1000, 3000};
/* Chord tolerances, mm; 0 is the usual one. */
static const double tolerances_mm[] = {1e-5, 1e-4, 1e-3, 1e-2, 0.1};

static const char *const fonts[] = {
    SERIF,
    FONTS "truetype/liberation/LiberationSansNarrow-Italic.ttf",
    SCRIPT,
    FONTS "opentype/ebgaramond/EBGaramond12-Italic.otf",
    VARIABLE,
    SANS,
    FONTS "truetype/liberation/LiberationSansNarrow-Regular.ttf",
    STENCIL,
    FONTS "truetype/liberation/LiberationMono-BoldItalic.ttf",
    FONTS "opentype/fonts-hosny-amiri/Amiri-BoldSlanted.ttf",
    FONTS "truetype/inter-vf/InterDisplay-italic.var.ttf",
    FONTS "opentype/ebgaramond/EBGaramond08-Italic.otf",
    FONTS "truetype/liberation/LiberationSerif-Regular.ttf",
    FONTS "truetype/dejavu/DejaVuSans-Bold.ttf",
    ARABIC,
    FONTS "opentype/lobster/lobster.otf",
    BLACKLETTER,
    FONTS "opentype/kaushanscript/KaushanScript-Regular.otf",
    FONTS "truetype/liberation/LiberationSansNarrow-Bold.ttf",
    FONTS "truetype/routed-gothic/routed-gothic-narrow.ttf",
};

static bool is_long(void) {
    const char *wanted = getenv("RUNNEL_LONG");
    return wanted && strcmp(wanted, "1") == 0;
}

/* What is told when a text fails, so that it can be set again. */
static const char *words_of(const runnel_text *text) {
    static char words[400];
    snprintf(words, sizeof words, "'%s' in %s, cap height %.17g, spacing %.17g, tolerance %.17g",
             text->text, text->font, text->cap_height_mm, text->spacing_mm, text->flatten_mm);
    return words;
}

static runnel_contours united(const runnel_text *text) {
    runnel_contours region = {0};
    must_set(*text);
    ck_assert_msg(runnel_outline_union(&set.contours, &region) == RUNNEL_OK, "%s", words_of(text));
    return region;
}

/* Inside, or outside up to a reach: not refused, its areas agree, and m is right at some places.
 * 1e-9 of the area is a hundredth of the mismatch that is refused. */
static void check_side(const runnel_text *text, const runnel_contours *region, double reach,
                       chance *c, size_t samples) {
    runnel_profile *profile = NULL;
    runnel_status status = reach > 0 ? runnel_profile_outside(region, reach, &profile)
                                     : runnel_profile_inside(region, &profile);
    ck_assert_msg(!status, "%s: %s up to %.17g", runnel_status_name(status), words_of(text), reach);
    double mismatch = runnel_profile_mismatch(profile);
    ck_assert_msg(mismatch <= 1e-9, "%g: %s up to %.17g", mismatch, words_of(text), reach);
    if (reach == 0) {
        double want = runnel_contours_area(region), got = runnel_profile_area_mm2(profile);
        ck_assert_msg(runnel_near(got, want, 1e-9, 0), "%.17g, not %.17g: %s", got, want,
                      words_of(text));
    }
    compare_with_brute(profile, c, samples);
    runnel_profile_free(profile);
}

static void check_text(const runnel_text *text, double reach, chance *c, size_t samples) {
    runnel_contours region = united(text);
    check_side(text, &region, 0, c, samples);
    check_side(text, &region, reach, c, samples);
    runnel_contours_clear(&region);
}

/* Each of these once lost an area: where the foot of a disc leaves a chord far shorter than the
 * wall that faces it (first three), and where a wall faces more chords than divisions were allowed.
 */
START_TEST(walls_that_face_short_chords) {
    const struct {
        const char *text, *font;
        double cap_mm, tolerance_mm, reach_mm;
    } cases[] = {
        {"M", FONTS "truetype/liberation/LiberationSansNarrow-Italic.ttf", 120, 0, 5},
        {"HOLM 27", FONTS "truetype/liberation/LiberationSansNarrow-Italic.ttf", 300, 0, 5},
        {"+w", FONTS "truetype/liberation/LiberationSansNarrow-Regular.ttf", 286, 2.2e-4, 5},
        {"5", FONTS "truetype/liberation/LiberationMono-BoldItalic.ttf", 315, 1.2e-5, 8},
        {"jGf", FONTS "opentype/ebgaramond/EBGaramond12-Italic.otf", 701, 4.5e-5, 15},
        {"$", FONTS "opentype/ebgaramond/EBGaramond12-Bold.otf", 70, 1e-4, 3},
        {"M", FONTS "opentype/lobster/lobster.otf", 376, 9.2e-5, 121},
        {"fZM", FONTS "truetype/dejavu/DejaVuSans-Bold.ttf", 615, 2.1e-5, 489},
        {"y", FONTS "truetype/inter-vf/InterDisplay-roman.var.ttf", 99.81, 0, 10},
    };
    chance c = {1};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        runnel_text text = {.text = cases[i].text,
                            .font = cases[i].font,
                            .cap_height_mm = cases[i].cap_mm,
                            .flatten_mm = cases[i].tolerance_mm};
        if (have(text.font))
            check_text(&text, cases[i].reach_mm, &c, 5);
    }
}
END_TEST

/* A bar whose end is rounded by chords a ten-thousandth as long as its walls, and more of them than
 * any wall of a letter faces. */
START_TEST(bars_with_finely_rounded_ends) {
    chance c = {2};
    for (size_t chords = 50; chords <= 3200; chords *= 4) {
        runnel_contours bar = {0};
        ck_assert_int_eq(runnel_contours_begin(&bar, true), RUNNEL_OK);
        ck_assert_int_eq(runnel_contours_add(&bar, 0, -3), RUNNEL_OK);
        for (size_t i = 0; i <= chords; i++) {
            double turn = PI * ((double)i / (double)chords - 0.5);
            double x = 200 + 4 * cos(turn), y = 3 * sin(turn);
            ck_assert_int_eq(runnel_contours_add(&bar, x, y), RUNNEL_OK);
        }
        ck_assert_int_eq(runnel_contours_add(&bar, 0, 3), RUNNEL_OK);
        check_side(&(runnel_text){.text = "bar", .font = "none"}, &bar, 0, &c, 200);
        check_side(&(runnel_text){.text = "bar", .font = "none"}, &bar, 300, &c, 200);
        runnel_contours_clear(&bar);
    }
}
END_TEST

/* A number whose logarithm is as likely everywhere between the two. */
static double chance_share(chance *c, double low, double high) {
    return low * pow(high / low, chance_between(c, 0, 1));
}

/* One to four letters; every stratum of font, size, spacing and tolerance comes in its turn. The
 * finest chords go with texts of one letter, and none is finer than a ten-millionth of the letter.
 */
static runnel_text random_text(size_t turn, chance *c, char letters[5]) {
    static const char all[] =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789&$%@!?.,;:'\"()-+/*#";
    const size_t sizes = sizeof caps_mm / sizeof *caps_mm - 1;
    const size_t fine = sizeof tolerances_mm / sizeof *tolerances_mm - 1;
    const size_t faces = sizeof fonts / sizeof *fonts;
    size_t size = (turn + turn / faces) % sizes, grade = turn / sizes % fine;
    double cap = chance_share(c, caps_mm[size], caps_mm[size + 1]);
    double tolerance = chance_share(c, tolerances_mm[grade], tolerances_mm[grade + 1]);
    size_t count = 1 + (grade > 0 && tolerance > 1e-6 * cap ? chance_below(c, 4) : 0);
    for (size_t i = 0; i < count; i++)
        letters[i] = all[chance_below(c, sizeof all - 1)];
    letters[count] = '\0';
    static const double spacing[] = {0, 0, -0.2, 0.3};
    return (runnel_text){
        .text = letters,
        .font = fonts[turn % faces],
        .cap_height_mm = turn % 3 ? cap : fmax(1, round(cap)),
        .spacing_mm = cap * spacing[chance_below(c, 4)] * chance_between(c, 0, 1),
        .flatten_mm = turn % 7 ? fmin(0.1, fmax(tolerance, (is_long() ? 1e-7 : 1e-6) * cap)) : 0,
    };
}

/* Blackletter lacks some signs, and joined scripts have no spacing: such texts are left out. */
static bool can_be_set(const runnel_text *text) {
    runnel_lettering none = {0};
    runnel_status status = runnel_lettering_set(text, NULL, NULL, &none);
    runnel_lettering_clear(&none);
    return status == RUNNEL_OK;
}

START_TEST(random_texts) {
    chance c = {3};
    size_t wanted = is_long() ? 20000 : 40, done = 0;
    for (size_t turn = 0; done < wanted && turn < 3 * wanted; turn++) {
        char letters[5];
        runnel_text text = random_text(turn, &c, letters);
        double reach = text.cap_height_mm * chance_share(&c, 0.001, 1);
        if (access(text.font, R_OK) != 0 || !can_be_set(&text))
            continue;
        check_text(&text, reach, &c, 3);
        done++;
    }
    ck_assert_uint_eq(done, wanted);
}
END_TEST

/* ---- Volumes by a raster
 * -----------------------------------------------------------------------*/

/* Square of the distance of a point from a segment. */
static double square_to(runnel_point a, runnel_point b, double x, double y) {
    double gx = b.x_mm - a.x_mm, gy = b.y_mm - a.y_mm, px = x - a.x_mm, py = y - a.y_mm;
    double share = (px * gx + py * gy) / (gx * gx + gy * gy);
    share = share < 0 ? 0 : (share > 1 ? 1 : share);
    px -= share * gx;
    py -= share * gy;
    return px * px + py * py;
}

/* Distance to the border, where the even-odd rule finds the point inside; 0 elsewhere. */
static double depth_of(const runnel_contours *region, double x, double y) {
    bool inside = false;
    double least = INFINITY;
    for (size_t i = 0; i < region->count; i++) {
        const runnel_point *p = region->points + region->items[i].first;
        size_t count = region->items[i].count;
        for (size_t k = 0, j = count - 1; k < count; j = k++) {
            double square = square_to(p[j], p[k], x, y);
            least = square < least ? square : least;
            if ((p[k].y_mm > y) != (p[j].y_mm > y) &&
                x < (p[j].x_mm - p[k].x_mm) * (y - p[k].y_mm) / (p[j].y_mm - p[k].y_mm) + p[k].x_mm)
                inside = !inside;
        }
    }
    return inside ? sqrt(least) : 0;
}

/* Volume of a V cut of 90 degrees, whose depth is the distance, no deeper than a limit: by the
 * middles of squares. */
static double raster_volume(const runnel_contours *region, double limit, int rows) {
    runnel_box box = runnel_contours_box(region);
    double step = (box.max_y_mm - box.min_y_mm) / rows, sum = 0;
    for (double y = box.min_y_mm + 0.5 * step; y < box.max_y_mm; y += step)
        for (double x = box.min_x_mm + 0.5 * step; x < box.max_x_mm; x += step)
            sum += fmin(depth_of(region, x, y), limit);
    return sum * step * step;
}

/* The cut's own chords are coarse and those of the raster a hundred times finer, so the bound of
 * the volume is tried as it is told. The raster is out by some of what a finer one changes. */
START_TEST(volumes_keep_their_bounds) {
    chance c = {4};
    size_t wanted = is_long() ? 400 : 3, done = 0;
    for (size_t turn = 0; done < wanted && turn < 3 * wanted; turn++) {
        char letters[5];
        runnel_text text = random_text(turn, &c, letters);
        letters[1] = '\0';
        text.cap_height_mm = chance_between(&c, 10, 60);
        text.spacing_mm = 0;
        text.flatten_mm = chance_share(&c, 0.02, 0.1);
        if (access(text.font, R_OK) != 0 || !can_be_set(&text))
            continue;
        runnel_contours coarse = united(&text);
        double limit = chance_between(&c, 0.02, 0.2) * text.cap_height_mm;
        runnel_cavity got = figures_once(outline_of(&coarse), walls(90, limit));
        text.flatten_mm /= 100;
        runnel_contours fine = united(&text);
        double rough = raster_volume(&fine, limit, 60), want = raster_volume(&fine, limit, 120);
        ck_assert_msg(fabs(got.volume_mm3 - want) <= got.volume_error_mm3 + fabs(want - rough),
                      "%.9g, raster %.9g and %.9g, bound %g: %s", got.volume_mm3, want, rough,
                      got.volume_error_mm3, words_of(&text));
        runnel_contours_clear(&fine);
        done++;
    }
    ck_assert_uint_eq(done, wanted);
}
END_TEST

/* ---- A hair
 * ------------------------------------------------------------------------------------*/

static runnel_profile *beside(const runnel_contours *contours, runnel_domain domain, double reach,
                              double hair) {
    runnel_profile *profile = NULL;
    runnel_status status = runnel_profile_beside(contours, domain, reach, hair, &profile);
    ck_assert_msg(!status, "%s", runnel_status_name(status));
    return profile;
}

/* The square 40 x 40 less its middle 20 x 20. An inset by t leaves a square of 40 - 2t less the
 * middle grown by t, with round corners. What a hair moves it by is within the mismatch that is
 * told: a hair's width of 240 mm of border and of four quarter turns with the radius of the widest
 * place, which touches two walls and a corner of the middle: a = (10 - a) sqrt 2. */
START_TEST(a_hair_is_in_the_bound) {
    runnel_contours frame = {0};
    add_rectangle(&frame, 0, 0, 40, 40);
    add_rectangle(&frame, 10, 10, 20, -20);
    for (double hair = 1e-9; hair < 1e-3; hair *= 100) {
        runnel_profile *profile = beside(&frame, RUNNEL_DOMAIN_INSIDE, INFINITY, hair);
        double mismatch = runnel_profile_mismatch(profile);
        for (double t = 0; t < 5; t += 1.5) {
            double left = (40 - 2 * t) * (40 - 2 * t), middle = 20 * 20 + 4 * 20 * t + PI * t * t;
            double gap = fabs(runnel_profile_beyond_mm2(profile, t) - (left - middle));
            ck_assert_msg(gap <= mismatch * 1200, "hair %g, t %g: gap %g", hair, t, gap);
        }
        ck_near(mismatch, hair * (240 + 2 * PI * 10 * sqrt(2) / (1 + sqrt(2))) / 1200, 1e-3);
        runnel_profile_free(profile);
    }
    runnel_contours_clear(&frame);
}
END_TEST

/* Contours that meet in a corner still do, so that nothing opens between them. */
START_TEST(a_hair_keeps_corners_together) {
    runnel_contours rings = {0}, lines = {0};
    add_rectangle(&rings, 0, 0, 60, 40);
    add_rectangle(&rings, 10, 10, 10, -10);
    add_rectangle(&rings, 20, 20, 10, -10);
    add_line(&lines, -0.0, 0, 30, 0);
    add_line(&lines, 0, -0.0, 0, 30);
    runnel_profile_free(beside(&rings, RUNNEL_DOMAIN_INSIDE, INFINITY, 1e-6));
    runnel_profile_free(beside(&rings, RUNNEL_DOMAIN_OUTSIDE, 7, 1e-6));
    runnel_profile *profile = beside(&lines, RUNNEL_DOMAIN_AROUND_LINES, 2, 1e-6);
    /* 30 x 2 on each of four sides, less the square that two of them share, and a quarter of a disc
     * around the corner and half a one at each end */
    ck_near(runnel_profile_area_mm2(profile), 4 * 30 * 2 - 4 + PI + 4 * PI, 1e-6);
    runnel_profile_free(profile);
    runnel_contours_clear(&rings);
    runnel_contours_clear(&lines);
}
END_TEST

/* What crosses itself is refused by either way. */
START_TEST(no_hair_mends_a_crossing) {
    runnel_contours bow = {0};
    runnel_profile *profile = NULL;
    add_ring(&bow, 0, 0, 40, 30, 40, 0, 0, 20);
    ck_assert_int_eq(runnel_profile_inside(&bow, &profile), RUNNEL_E_IDENTITY);
    ck_assert_ptr_null(profile);
    runnel_contours_clear(&bow);
}
END_TEST

int main(void) {
    const TTest *const tests[] = {
        walls_that_face_short_chords, bars_with_finely_rounded_ends, random_texts,
        volumes_keep_their_bounds,    a_hair_is_in_the_bound,        a_hair_keeps_corners_together,
        no_hair_mends_a_crossing};
    return run_tests("profile_letters", tests, sizeof tests / sizeof *tests);
}
