/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The engine on glyphs of packaged fonts, an even sample of each: outlines as FreeType gives them,
 * 40 mm an em. What the pieces of a profile cover must be what the outline encloses, to 1e-9 of it;
 * the latter by the shoelace formula, which knows nothing of pieces. Volumes of some glyphs are
 * held against insets stacked by another route (see region_route.h). Borders of sections, traced,
 * enclose what the sums of the profile say at many levels, and what GEOS's buffer makes at some.
 */
#include "runnel/cavity.h"

#include "letters.h"
#include "region_route.h"
#include "shape/moments.h"
#include "shape/opening.h"
#include "shape/trace.h"
#include "wrapped.h"

#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_OUTLINE_H

/* Of a font; memcheck, which takes its time, sees fewer. */
enum { MOST_GLYPHS = 400, MOST_WRAPPED = 20 };
static const double em_mm = 40, chord_mm = 0.005, identity = 1e-9;
/* Of traced borders: so fine that chords take less than this off an area for each mm of arc. */
static const double fine_mm = 1e-7;

/* Outline on its way into contours. */
typedef struct drawing {
    runnel_contours contours;
    double mm_per_unit;
    runnel_status status;
} drawing;

static runnel_point point_of(const drawing *d, const FT_Vector *v) {
    return (runnel_point){(double)v->x * d->mm_per_unit, (double)v->y * d->mm_per_unit};
}

static int move_to(const FT_Vector *to, void *state) {
    drawing *d = state;
    runnel_point p = point_of(d, to);
    d->status = d->status ? d->status : runnel_contours_begin(&d->contours, true);
    d->status = d->status ? d->status : runnel_contours_add(&d->contours, p.x_mm, p.y_mm);
    return (int)d->status;
}

static int line_to(const FT_Vector *to, void *state) {
    drawing *d = state;
    runnel_point p = point_of(d, to);
    d->status = d->status ? d->status : runnel_contours_add(&d->contours, p.x_mm, p.y_mm);
    return (int)d->status;
}

static int conic_to(const FT_Vector *control, const FT_Vector *to, void *state) {
    drawing *d = state;
    if (!d->status)
        d->status = runnel_contours_quadratic(&d->contours, point_of(d, control), point_of(d, to),
                                              chord_mm);
    return (int)d->status;
}

static int cubic_to(const FT_Vector *first, const FT_Vector *second, const FT_Vector *to,
                    void *state) {
    drawing *d = state;
    if (!d->status)
        d->status = runnel_contours_cubic(&d->contours, point_of(d, first), point_of(d, second),
                                          point_of(d, to), chord_mm);
    return (int)d->status;
}

static const FT_Outline_Funcs into_contours = {move_to, line_to, conic_to, cubic_to, 0, 0};

/* Contours of a glyph; false when it has none. */
static bool draw(FT_Face face, FT_UInt glyph, drawing *d) {
    if (FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE) ||
        face->glyph->format != FT_GLYPH_FORMAT_OUTLINE || face->glyph->outline.n_points == 0)
        return false;
    ck_assert_int_eq(FT_Outline_Decompose(&face->glyph->outline, &into_contours, d), 0);
    for (size_t i = 0; i < d->contours.count; i++) {
        runnel_contour *c = &d->contours.items[i];
        const runnel_point *p = d->contours.points + c->first;
        if (c->count > 1 && p[0].x_mm == p[c->count - 1].x_mm && p[0].y_mm == p[c->count - 1].y_mm)
            c->count--; /* the end of the outline is its start again */
    }
    return true;
}

/* A traced border must enclose an area within a share of 1e-9 or a gap. */
static void check_traced(const runnel_profile *profile, double in, double out, double area,
                         double gap, const char *file, FT_UInt glyph) {
    runnel_contours rings = {0};
    runnel_status status = runnel_profile_trace(profile, in, out, fine_mm, &rings);
    ck_assert_msg(status == RUNNEL_OK, "%s, glyph %u, in %.17g, out %.17g: %s", file, glyph, in,
                  out, runnel_status_name(status));
    double traced = runnel_contours_area(&rings);
    ck_assert_msg(runnel_near(traced, area, identity, gap),
                  "%s, glyph %u, in %.17g, out %.17g: traced %.17g, by other ways %.17g", file,
                  glyph, in, out, traced, area);
    runnel_contours_clear(&rings);
}

/* The inset by a distance, and what a disc of its radius, or half of it, makes of it again: the
 * normals with m >= in from their foot on, less a strip, and sectors at the corners. */
static void check_level(const runnel_profile *profile, double in, const char *file, FT_UInt glyph) {
    runnel_opening o = runnel_profile_opening(profile, in);
    for (int half = 0; half <= 2; half++) {
        double out = 0.5 * half * in, strip = in - out;
        double area = o.area - strip * o.length - 0.5 * strip * strip * o.angle;
        double arcs = out * o.turn + strip * o.angle;
        check_traced(profile, in, out, area + 0.5 * out * out * o.turn,
                     fine_mm * arcs + 1e-9 * runnel_profile_area_mm2(profile), file, glyph);
    }
}

/* GEOS makes the same regions, but leaves out what of its input stands off by less than a hundredth
 * of the distance: that much along the border. */
static void check_by_geos(const runnel_contours *region, const runnel_profile *profile, double in,
                          const char *file, FT_UInt glyph) {
    runnel_contours offset = {0};
    runnel_profile *outside = NULL;
    double border = runnel_profile_border_mm(profile, 0);
    ck_assert_int_eq(runnel_contours_offset(region, false, -in, &offset), RUNNEL_OK);
    check_traced(profile, in, 0, runnel_contours_area(&offset), 0.01 * in * border, file, glyph);
    ck_assert_int_eq(runnel_contours_offset(region, false, in, &offset), RUNNEL_OK);
    ck_assert_int_eq(runnel_profile_outside(region, 2 * in, &outside), RUNNEL_OK);
    check_traced(outside, 0, in, runnel_contours_area(&offset), 0.01 * in * border, file, glyph);
    for (int k = 1; k <= 4; k++) {
        double out = 0.5 * k * in;
        runnel_moments grown = runnel_profile_moments(outside, out);
        check_traced(outside, 0, out, runnel_contours_area(region) + grown.area,
                     fine_mm * grown.angle * out, file, glyph);
    }
    runnel_profile_free(outside);
    runnel_contours_clear(&offset);
}

/* Levels through the whole range and just where m is least or greatest on a piece. */
static void check_borders(const runnel_contours *region, const runnel_profile *profile,
                          const char *file, FT_UInt glyph) {
    enum { LEVELS = 6, PLACES = 6, OUTSIDE_EACH = 40 };
    double widest = runnel_profile_widest(profile, NULL);
    for (int k = 0; k < LEVELS; k++)
        check_level(profile, widest * k / LEVELS, file, glyph);
    for (size_t i = 0; i < profile->count; i += 1 + profile->count / PLACES) {
        const double places[] = {profile->pieces[i].low, profile->pieces[i].high};
        for (int k = 0; k < 2; k++)
            check_traced(profile, places[k], 0, runnel_profile_beyond_mm2(profile, places[k]),
                         fine_mm * runnel_profile_border_mm(profile, places[k]) + 1e-8, file,
                         glyph);
    }
    if (glyph % OUTSIDE_EACH == 0)
        check_by_geos(region, profile, 0.3 * widest, file, glyph);
}

/* One glyph; false when it encloses nothing. */
static bool check_glyph(FT_Face face, FT_UInt glyph, const char *file) {
    drawing d = {.mm_per_unit = em_mm / face->units_per_EM};
    runnel_contours region = {0};
    runnel_profile *profile = NULL;
    bool is_drawn = draw(face, glyph, &d);
    runnel_status status = is_drawn ? runnel_outline_union(&d.contours, &region) : RUNNEL_E_SHAPE;
    if (!status)
        status = runnel_profile_inside(&region, &profile);
    ck_assert_msg(status == RUNNEL_OK || status == RUNNEL_E_SHAPE, "%s, glyph %u: %s", file, glyph,
                  runnel_status_name(status));
    if (!status) {
        double enclosed = runnel_contours_area(&region);
        ck_assert_msg(runnel_near(runnel_profile_area_mm2(profile), enclosed, identity, 0),
                      "%s, glyph %u: pieces %.17g, enclosed %.17g", file, glyph,
                      runnel_profile_area_mm2(profile), enclosed);
        ck_assert_msg(runnel_profile_mismatch(profile) <= identity, "%s, glyph %u: mismatch %g",
                      file, glyph, runnel_profile_mismatch(profile));
        check_borders(&region, profile, file, glyph);
    }
    runnel_profile_free(profile);
    runnel_contours_clear(&region);
    runnel_contours_clear(&d.contours);
    return !status;
}

/* An even sample of a font's glyphs. @return how many enclose an area */
static size_t check_font(const char *file) {
    FT_Library library = NULL;
    FT_Face face = NULL;
    size_t checked = 0;
    ck_assert_int_eq(FT_Init_FreeType(&library), 0);
    ck_assert_int_eq(FT_New_Face(library, file, 0, &face), 0);
    size_t most = is_wrapped() ? MOST_WRAPPED : MOST_GLYPHS;
    size_t glyphs = (size_t)face->num_glyphs, wanted = glyphs < most ? glyphs : most;
    for (size_t i = 0; i < wanted; i++)
        checked += check_glyph(face, (FT_UInt)(i * glyphs / wanted), file);
    FT_Done_Face(face);
    FT_Done_FreeType(library);
    return checked;
}

static const struct {
    const char *file, *kind;
    size_t least; /* glyphs of the sample that enclose an area, at least */
} fonts[] = {
    {SERIF, "serif", 350},       {SCRIPT, "script with overlaps", 150}, {STENCIL, "stencil", 150},
    {VARIABLE, "variable", 350}, {BLACKLETTER, "blackletter", 80},      {GOTHIC, "CJK", 350},
    {ARABIC, "Arabic", 350},     {DEVANAGARI, "Devanagari", 250}};

START_TEST(areas_agree) {
    if (!have(fonts[_i].file))
        return;
    size_t checked = check_font(fonts[_i].file);
    size_t least = fonts[_i].least / (is_wrapped() ? MOST_GLYPHS / MOST_WRAPPED : 1);
    ck_assert_msg(checked >= least, "%s: only %zu glyphs", fonts[_i].kind, checked);
    printf("%s: %zu glyphs\n", fonts[_i].kind, checked);
}
END_TEST

/* --- volumes --- */

/* A V cut at 60 degrees by sections at three depths, to 1e-6 of the outline, and, which takes the
 * other route seconds, as a whole. */
static void check_volume(const runnel_contours *region, const char *file, FT_UInt glyph,
                         bool as_whole) {
    runnel_shape *shape = NULL;
    runnel_cavity f = {0};
    runnel_cut cut = {{.kind = RUNNEL_CUTTER_V, .angle_deg = 60}, RUNNEL_CUT_WALLS, 0};
    ck_assert_int_eq(runnel_shape_outline(region, NULL, &shape), RUNNEL_OK);
    ck_assert_int_eq(runnel_cavity_compute(shape, &cut, &f), RUNNEL_OK);
    region_route *route = route_of_region(region);
    double tangent = 1 / sqrt(3), widest = f.deepest_mm * tangent;
    for (int i = 1; i <= 3; i++) {
        double got = 0, want = route_inset_mm2(route, widest * i / 4);
        ck_assert_int_eq(runnel_cavity_section(shape, &cut, f.deepest_mm * i / 4, &got), RUNNEL_OK);
        ck_assert_msg(runnel_near(got, want, 0, 1e-6 * f.footprint_mm2),
                      "%s, glyph %u: section %.17g, other route %.17g", file, glyph, got, want);
    }
    if (as_whole) {
        double least = 1e-6 * f.footprint_mm2 * widest; /* of about two fifths of that */
        double want = route_inset_integral(route, widest, least) / tangent;
        ck_assert_msg(runnel_near(f.volume_mm3, want, 1e-5, 0),
                      "%s, glyph %u: volume %.17g, other route %.17g", file, glyph, f.volume_mm3,
                      want);
    }
    route_free(route);
    runnel_shape_free(shape);
}

/* Every so manieth glyph of a font, the first `whole` of them as a whole as well.
 * @return how many enclose an area */
static size_t check_volumes(const char *file, size_t wanted, size_t whole) {
    FT_Library library = NULL;
    FT_Face face = NULL;
    size_t checked = 0;
    ck_assert_int_eq(FT_Init_FreeType(&library), 0);
    ck_assert_int_eq(FT_New_Face(library, file, 0, &face), 0);
    size_t glyphs = (size_t)face->num_glyphs;
    for (size_t i = 0; i < wanted; i++) {
        FT_UInt glyph = (FT_UInt)(((double)i + 0.37) * (double)glyphs / (double)wanted);
        drawing d = {.mm_per_unit = em_mm / face->units_per_EM};
        runnel_contours region = {0};
        if (draw(face, glyph, &d) && runnel_outline_union(&d.contours, &region) == RUNNEL_OK) {
            check_volume(&region, file, glyph, checked < whole);
            checked++;
        }
        runnel_contours_clear(&region);
        runnel_contours_clear(&d.contours);
    }
    FT_Done_Face(face);
    FT_Done_FreeType(library);
    return checked;
}

/* Whether a variable of the environment has this value, or any if NULL. */
static bool is_set(const char *name, const char *value) {
    const char *is = getenv(name);
    return is && (value ? strcmp(is, value) == 0 : *is);
}

START_TEST(volumes_agree) {
    bool all = is_set("RUNNEL_ALL_FONTS", "1"), slow = is_set("SANITIZE", NULL);
    size_t wanted = 5, whole = is_long() ? wanted : slow ? 0 : 1;
    if ((!all && _i > 1) || is_wrapped())
        return; /* two fonts do where not all are asked for; none under memcheck, which is slow */
    if (have(fonts[_i].file)) {
        size_t checked = check_volumes(fonts[_i].file, wanted, whole);
        ck_assert_uint_ge(checked, wanted / 2);
        printf("%s: %zu volumes\n", fonts[_i].kind, checked);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("glyphs");
    TCase *areas = tcase_create("areas");
    tcase_set_timeout(areas, 300);
    tcase_add_loop_test(areas, areas_agree, 0, (int)(sizeof fonts / sizeof *fonts));
    suite_add_tcase(suite, areas);
    TCase *volumes = tcase_create("volumes");
    tcase_set_timeout(volumes, 600);
    tcase_add_loop_test(volumes, volumes_agree, 0, (int)(sizeof fonts / sizeof *fonts));
    suite_add_tcase(suite, volumes);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? 1 : 0;
}
