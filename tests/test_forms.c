/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/forms.h"

#include "compare.h"

#include <float.h>
#include <stdlib.h>

#define COUNT(table) (sizeof(table) / sizeof *(table))

static runnel_status parse(bool is_path, const char *text, runnel_problems *problems,
                           runnel_form *form) {
    return is_path ? runnel_form_parse_path(text, problems, NULL, form)
                   : runnel_form_parse_outline(text, problems, NULL, form);
}

static const struct {
    const char *text;
    runnel_form_kind kind;
    double a_mm, b_mm, r_mm;
} sized[] = {
    {"rectangle 60 x 40 mm", RUNNEL_FORM_RECTANGLE, 60, 40, 0},
    {"  Rectangle  60x40mm ", RUNNEL_FORM_RECTANGLE, 60, 40, 0},
    {"RECTANGLE 6 cm x 40 mm", RUNNEL_FORM_RECTANGLE, 60, 40, 0},
    {"rectangle 1 1/2 x 3/4 in", RUNNEL_FORM_RECTANGLE, 38.1, 19.05, 0},
    {"rounded rectangle 380 x 220 r 20 mm", RUNNEL_FORM_ROUNDED_RECTANGLE, 380, 220, 20},
    {"rounded-rectangle 380x220r20mm", RUNNEL_FORM_ROUNDED_RECTANGLE, 380, 220, 20},
    {"rounded  rectangle 380 x 220 radius 20 mm", RUNNEL_FORM_ROUNDED_RECTANGLE, 380, 220, 20},
    /* sizes with a unit of their own keep it */
    {"rounded rectangle 38 x 22 cm r 20 mm", RUNNEL_FORM_ROUNDED_RECTANGLE, 380, 220, 20},
    {"rounded rectangle 3 in x 1 in r 1/2 in", RUNNEL_FORM_ROUNDED_RECTANGLE, 76.2, 25.4, 12.7},
    {"rounded rectangle 30 x 10 R 5 mm", RUNNEL_FORM_ROUNDED_RECTANGLE, 30, 10, 5},
    {"circle 40 mm", RUNNEL_FORM_CIRCLE, 40, 0, 0},
    {"circle 2\"", RUNNEL_FORM_CIRCLE, 50.8, 0, 0},
    {"ellipse 60 x 40 mm", RUNNEL_FORM_ELLIPSE, 60, 40, 0},
    {"ellipse 60 \xC3\x97 40 mm", RUNNEL_FORM_ELLIPSE, 60, 40, 0},
    {"rectangle 1000000 x 0.000001 mm", RUNNEL_FORM_RECTANGLE, 1e6, 1e-6, 0},
};

START_TEST(sized_forms) {
    for (int is_path = 0; is_path < 2; is_path++) {
        runnel_problems problems = {0};
        runnel_form form = {.kind = RUNNEL_FORM_NONE};
        ck_assert_int_eq(parse(is_path, sized[_i].text, &problems, &form), RUNNEL_OK);
        ck_assert_int_eq(form.kind, sized[_i].kind);
        ck_near(form.a_mm, sized[_i].a_mm, DBL_EPSILON);
        ck_near(form.b_mm, sized[_i].b_mm, DBL_EPSILON);
        ck_near(form.r_mm, sized[_i].r_mm, DBL_EPSILON);
        ck_assert_uint_eq(form.corners.count, 0);
        ck_assert_uint_eq(problems.count, 0);
        runnel_form_clear(&form);
    }
}
END_TEST

/* Rings as lists of coordinates, closed by `rings` counts. */
static const struct {
    bool is_path;
    const char *text;
    runnel_form_kind kind;
    size_t rings[3];
    double xy_mm[24];
} pointed[] = {
    {false, "polygon 0,0 60,0 60,40 mm", RUNNEL_FORM_POLYGON, {3}, {0, 0, 60, 0, 60, 40}},
    {false, "Polygon 0, 0 60 ,0 60 , 40mm", RUNNEL_FORM_POLYGON, {3}, {0, 0, 60, 0, 60, 40}},
    {false, "polygon 0,0 2,0 2,1.5 in", RUNNEL_FORM_POLYGON, {3}, {0, 0, 50.8, 0, 50.8, 38.1}},
    /* the last corner may repeat the first, and any the one before */
    {false,
     "polygon 0,0 0,0 60,0 60,40 60,40 0,0 mm",
     RUNNEL_FORM_POLYGON,
     {3},
     {0, 0, 60, 0, 60, 40}},
    /* clockwise as written, turned over */
    {false, "polygon 0,0 60,40 60,0 mm", RUNNEL_FORM_POLYGON, {3}, {60, 0, 60, 40, 0, 0}},
    {false,
     "polygon -1,-1 +1e1,-1 .5,\xE2\x88\x92"
     ".5 mm",
     RUNNEL_FORM_POLYGON,
     {3},
     {-1, -1, 10, -1, 0.5, -0.5}},
    /* a corner on the straight way from its neighbours does no harm */
    {false,
     "polygon 0,0 30,0 60,0 60,40 mm",
     RUNNEL_FORM_POLYGON,
     {4},
     {0, 0, 30, 0, 60, 0, 60, 40}},
    {false,
     "polygon 0,0 60,0 60,40 0,40 hole 20,10 40,10 40,30 20,30 mm",
     RUNNEL_FORM_POLYGON,
     {4, 4},
     {0, 0, 60, 0, 60, 40, 0, 40, 20, 30, 40, 30, 40, 10, 20, 10}},
    {false,
     "polygon 0,40 60,40 60,0 0,0 HOLE 1,1 2,2 2,1 hole 11,1 12,1 12,2 mm",
     RUNNEL_FORM_POLYGON,
     {4, 3, 3},
     {0, 0, 60, 0, 60, 40, 0, 40, 1, 1, 2, 2, 2, 1, 12, 2, 12, 1, 11, 1}},
    {true, "line 0,0 100,0 mm", RUNNEL_FORM_LINE, {2}, {0, 0, 100, 0}},
    {true, "line 1.5,2 10,20 cm", RUNNEL_FORM_LINE, {2}, {15, 20, 100, 200}},
    {true, "polyline 0,0 50,0 50,30 mm", RUNNEL_FORM_POLYLINE, {3}, {0, 0, 50, 0, 50, 30}},
    {true, "polyline 0,0 50,0 mm", RUNNEL_FORM_POLYLINE, {2}, {0, 0, 50, 0}},
    /* back to its start it stays open, and it may cross itself */
    {true,
     "polyline 0,0 10,10 10,0 0,10 0,0 mm",
     RUNNEL_FORM_POLYLINE,
     {5},
     {0, 0, 10, 10, 10, 0, 0, 10, 0, 0}},
    /* a path's polygon is closed, as written, and may cross itself */
    {true,
     "polygon 0,0 10,10 10,0 0,10 mm",
     RUNNEL_FORM_POLYGON,
     {4},
     {0, 0, 10, 10, 10, 0, 0, 10}},
};

START_TEST(pointed_forms) {
    runnel_problems problems = {0};
    runnel_form form = {.kind = RUNNEL_FORM_NONE};
    ck_assert_int_eq(parse(pointed[_i].is_path, pointed[_i].text, &problems, &form), RUNNEL_OK);
    ck_assert_uint_eq(problems.count, 0);
    ck_assert_int_eq(form.kind, pointed[_i].kind);
    size_t at = 0, ring = 0;
    for (; ring < 3 && pointed[_i].rings[ring]; ring++) {
        ck_assert_uint_lt(ring, form.corners.count);
        runnel_contour got = form.corners.items[ring];
        ck_assert_uint_eq(got.count, pointed[_i].rings[ring]);
        ck_assert_int_eq(got.closed, pointed[_i].kind == RUNNEL_FORM_POLYGON);
        for (size_t k = 0; k < got.count; k++, at += 2) {
            ck_near(form.corners.points[got.first + k].x_mm, pointed[_i].xy_mm[at], DBL_EPSILON);
            ck_near(form.corners.points[got.first + k].y_mm, pointed[_i].xy_mm[at + 1],
                    DBL_EPSILON);
        }
    }
    ck_assert_uint_eq(form.corners.count, ring);
    runnel_form_clear(&form);
    ck_assert_int_eq(form.kind, RUNNEL_FORM_NONE);
    ck_assert_ptr_null(form.corners.points);
}
END_TEST

#define OUTLINES                                                                                   \
    "; write it like 'rectangle 60 x 40 mm', 'rounded rectangle 380 x 220 r 20 mm', 'circle 40 "   \
    "mm', 'ellipse 60 x 40 mm', or 'polygon 0,0 60,0 60,40 mm'"
#define PATHS                                                                                      \
    "; write it like 'rectangle 60 x 40 mm', 'rounded rectangle 380 x 220 r 20 mm', 'circle 40 "   \
    "mm', 'ellipse 60 x 40 mm', 'polygon 0,0 60,0 60,40 mm', 'line 0,0 100,0 mm' or 'polyline "    \
    "0,0 50,0 50,30 mm'"
#define LENGTH_ENDS  "; a length ends in mm, cm, m, in or ft, such as '12 mm'"
#define LIKE(form)   "; write it like '" form "'"
#define LIKE_POLYGON LIKE("polygon 0,0 60,0 60,40 mm")
#define NO_POINT                                                                                   \
    " is not a point: x, a comma and y, decimals behind a point, blanks between points, the unit " \
    "once at the end"

static const struct {
    bool is_path;
    const char *text;
    runnel_status status;
    const char *told[3];
} refused[] = {
    {false, "", RUNNEL_E_UNKNOWN, {"'' does not start with a known outline" OUTLINES}},
    {true, "", RUNNEL_E_UNKNOWN, {"'' does not start with a known path" PATHS}},
    {false,
     "60 x 40 mm",
     RUNNEL_E_UNKNOWN,
     {"'60 x 40 mm' does not start with a known outline" OUTLINES}},
    {false,
     "circel 40 mm",
     RUNNEL_E_UNKNOWN,
     {"'circel 40 mm' does not start with a known outline (did you mean 'circle'?)" OUTLINES}},
    {false,
     "ronded rectangle 1 x 2 r 3 mm",
     RUNNEL_E_UNKNOWN,
     {"'ronded rectangle 1 x 2 r 3 mm' does not start with a known outline (did you mean "
      "'rounded rectangle'?)" OUTLINES}},
    {true,
     "ployline 0,0 1,1 mm",
     RUNNEL_E_UNKNOWN,
     {"'ployline 0,0 1,1 mm' does not start with a known path (did you mean 'polyline'?)" PATHS}},
    {false,
     "rectangles 60 x 40 mm",
     RUNNEL_E_UNKNOWN,
     {"'rectangles 60 x 40 mm' does not start with a known outline (did you mean "
      "'rectangle'?)" OUTLINES}},
    {false,
     "circle40 mm",
     RUNNEL_E_UNKNOWN,
     {"'circle40 mm' does not start with a known outline (did you mean 'circle'?)" OUTLINES}},
    {false,
     "line 0,0 100,0 mm",
     RUNNEL_E_SYNTAX,
     {"'line 0,0 100,0 mm' is a path, and an outline is needed, which encloses an "
      "area" LIKE_POLYGON}},
    {false,
     "polyline",
     RUNNEL_E_SYNTAX,
     {"'polyline' is a path, and an outline is needed, which encloses an area" LIKE_POLYGON}},

    {false, "circle", RUNNEL_E_SYNTAX, {"'circle' has no sizes" LIKE("circle 40 mm")}},
    {false,
     "rectangle",
     RUNNEL_E_SYNTAX,
     {"'rectangle' has no sizes" LIKE("rectangle 60 x 40 mm")}},
    {false,
     "rectangle 60 mm",
     RUNNEL_E_SYNTAX,
     {"'rectangle 60 mm' needs two lengths with an x between" LIKE("rectangle 60 x 40 mm")}},
    {false,
     "rectangle 60 x 40 x 20 mm",
     RUNNEL_E_SYNTAX,
     {"'rectangle 60 x 40 x 20 mm' needs two lengths with an x between" LIKE(
         "rectangle 60 x 40 mm")}},
    {false,
     "circle 60 x 40 mm",
     RUNNEL_E_SYNTAX,
     {"'circle 60 x 40 mm' needs one length, the diameter" LIKE("circle 40 mm")}},
    {false, "rectangle 60 x 40", RUNNEL_E_UNIT, {"'rectangle 60 x 40' has no unit" LENGTH_ENDS}},
    {false, "circle 40", RUNNEL_E_UNIT, {"'circle 40' has no unit" LENGTH_ENDS}},
    {false,
     "circle 40 mn",
     RUNNEL_E_UNIT,
     {"'circle 40 mn' ends in 'mn', which is not a known unit (did you mean 'mm'?)" LENGTH_ENDS}},
    {false,
     "circle 40 g",
     RUNNEL_E_UNIT,
     {"'circle 40 g' is a mass; a length is needed, in mm, cm, m, in or ft, such as '12 mm'"}},
    {false,
     "ellipse 6,5 x 40 mn",
     RUNNEL_E_SYNTAX,
     {"'ellipse 6,5 x 40 mn' ends in 'mn', which is not a known unit (did you mean "
      "'mm'?)" LENGTH_ENDS,
      "'ellipse 6,5 x 40 mn' has a comma in its number; the decimal sign is a point, as in 12.5; "
      "a length is needed, such as '12 mm'"}},
    {false,
     "rectangle 0 x 40 mm",
     RUNNEL_E_SHAPE,
     {"'rectangle 0 x 40 mm' has a size of 0, where sizes are above 0" LIKE(
         "rectangle 60 x 40 mm")}},
    {true,
     "circle 0 mm",
     RUNNEL_E_SHAPE,
     {"'circle 0 mm' has a size of 0, where sizes are above 0" LIKE("circle 40 mm")}},
    {false,
     "ellipse 60 x -40 mm",
     RUNNEL_E_RANGE,
     {"'ellipse 60 x -40 mm' has a size below 0, where sizes are above 0" LIKE(
         "ellipse 60 x 40 mm")}},
    {false,
     "circle 1001 m",
     RUNNEL_E_RANGE,
     {"'circle 1001 m' is more than a kilometre wide" LIKE("circle 40 mm")}},
    {false,
     "circle 1e999 m",
     RUNNEL_E_RANGE,
     {"'circle 1e999 m' is too large to be computed with; a length is needed, such as '12 mm'"}},
    {false,
     "rounded rectangle 60 x 40 mm",
     RUNNEL_E_SYNTAX,
     {"'rounded rectangle 60 x 40 mm' has no corner radius behind an r" LIKE(
         "rounded rectangle 380 x 220 r 20 mm")}},
    {false,
     "rounded rectangle 60 r 5 mm",
     RUNNEL_E_SYNTAX,
     {"'rounded rectangle 60 r 5 mm' needs two lengths with an x between" LIKE(
         "rounded rectangle 380 x 220 r 20 mm")}},
    {false,
     "rounded rectangle 60 x 40 r mm",
     RUNNEL_E_SYNTAX,
     {"'rounded rectangle 60 x 40 r mm' does not start with a number; a length is needed, such as "
      "'12 mm'"}},
    {false,
     "rounded rectangle 60 x 40 r 21 mm",
     RUNNEL_E_RANGE,
     {"'rounded rectangle 60 x 40 r 21 mm' has a corner radius above half its shorter side" LIKE(
         "rounded rectangle 380 x 220 r 20 mm")}},
    {false,
     "rounded rectangle 60 x 40 r 0 mm",
     RUNNEL_E_RANGE,
     {"'rounded rectangle 60 x 40 r 0 mm' has a corner radius that is not above 0 (without one it "
      "is a 'rectangle')" LIKE("rounded rectangle 380 x 220 r 20 mm")}},
    {false,
     "rounded rectangle 60 x 0 r 0 mm",
     RUNNEL_E_SHAPE,
     {"'rounded rectangle 60 x 0 r 0 mm' has a size of 0, where sizes are above 0" LIKE(
         "rounded rectangle 380 x 220 r 20 mm")}},

    {false, "polygon", RUNNEL_E_SYNTAX, {"'polygon' has no sizes" LIKE_POLYGON}},
    {false, "polygon mm", RUNNEL_E_SYNTAX, {"'polygon mm' has no points" LIKE_POLYGON}},
    {false,
     "polygon 0,0 60,0 60,40",
     RUNNEL_E_UNIT,
     {"'polygon 0,0 60,0 60,40' has no unit" LENGTH_ENDS}},
    {false,
     "polygon 0,0 60,0 60,40 ml",
     RUNNEL_E_UNIT,
     {"'polygon 0,0 60,0 60,40 ml' is a volume; a length is needed, in mm, cm, m, in or ft, such "
      "as '12 mm'"}},
    {false,
     "polygon 0,0 60 60,40 mm",
     RUNNEL_E_SYNTAX,
     {"'60' in 'polygon 0,0 60 60,40 mm'" NO_POINT LIKE_POLYGON}},
    {false,
     "polygon a,0 1,b 5,5 mm",
     RUNNEL_E_SYNTAX,
     {"'a,0' in 'polygon a,0 1,b 5,5 mm'" NO_POINT LIKE_POLYGON,
      "'1,b' in 'polygon a,0 1,b 5,5 mm'" NO_POINT LIKE_POLYGON}},
    {false,
     "polygon 0;0 60,0 1.2.3,4 mm",
     RUNNEL_E_SYNTAX,
     {"'0;0' in 'polygon 0;0 60,0 1.2.3,4 mm'" NO_POINT LIKE_POLYGON,
      "'1.2.3,4' in 'polygon 0;0 60,0 1.2.3,4 mm'" NO_POINT LIKE_POLYGON}},
    {false,
     "polygon 0,0 6,0,5 60,40 oz",
     RUNNEL_E_UNIT,
     {"'polygon 0,0 6,0,5 60,40 oz': 'oz' does not say which ounce: 'US fl oz' or 'imperial fl "
      "oz' of volume, or 'oz weight'; a length is needed, such as '12 mm'",
      "'6,0,5' in 'polygon 0,0 6,0,5 60,40 oz'" NO_POINT LIKE_POLYGON}},
    {false,
     "polygon 0,0 60mm,0 60,40 mm",
     RUNNEL_E_SYNTAX,
     {"'60mm,0' in 'polygon 0,0 60mm,0 60,40 mm'" NO_POINT LIKE_POLYGON}},
    {false,
     "polygon 0,0 1e9,0 0,40 mm",
     RUNNEL_E_RANGE,
     {"'1e9,0' in 'polygon 0,0 1e9,0 0,40 mm' is more than a kilometre away" LIKE_POLYGON}},
    {false,
     "polygon 0,0 60,0 mm",
     RUNNEL_E_SHAPE,
     {"'polygon 0,0 60,0 mm' has a ring of fewer than three corners" LIKE_POLYGON}},
    {false,
     "polygon 0,0 60,0 0,0 mm",
     RUNNEL_E_SHAPE,
     {"'polygon 0,0 60,0 0,0 mm' has a ring of fewer than three different corners" LIKE_POLYGON}},
    {true,
     "polygon 0,0 60,0 mm",
     RUNNEL_E_SHAPE,
     {"'polygon 0,0 60,0 mm' has a ring of fewer than three corners" LIKE_POLYGON}},
    {false,
     "polygon 0,0 60,0 60,40 hole mm",
     RUNNEL_E_UNIT,
     {"'polygon 0,0 60,0 60,40 hole mm' ends in 'hole mm', which is not a known "
      "unit" LENGTH_ENDS}},
    {false,
     "polygon 0,0 60,0 60,40 hole hole 1,1 2,1 2,2 mm",
     RUNNEL_E_SHAPE,
     {"'polygon 0,0 60,0 60,40 hole hole 1,1 2,1 2,2 mm' has a ring of fewer than three "
      "corners" LIKE_POLYGON}},
    {false,
     "polygon 0,0 10,10 20,20 mm",
     RUNNEL_E_SHAPE,
     {"'polygon 0,0 10,10 20,20 mm' has a ring whose corners lie on one line and enclose no "
      "area" LIKE_POLYGON}},
    {false,
     "polygon 0,0 0.1,0.3 0.2,0.6 0.7,2.1 in",
     RUNNEL_E_SHAPE,
     {"'polygon 0,0 0.1,0.3 0.2,0.6 0.7,2.1 in' has a ring whose corners lie on one line and "
      "enclose no area" LIKE_POLYGON}},
    {false,
     "polygon 0,0 1e-9,0 0,1e-9 mm",
     RUNNEL_E_SHAPE,
     {"'polygon 0,0 1e-9,0 0,1e-9 mm' has no length" LIKE_POLYGON}},
    /* a bow tie crosses in the middle of its square */
    {false,
     "polygon 0,0 10,10 10,0 0,10 mm",
     RUNNEL_E_SHAPE,
     {"'polygon 0,0 10,10 10,0 0,10 mm' crosses or touches itself at x 5 mm, y 5 mm"}},
    /* sides x = 1 (y 0 to 3) and y = 3 - x: at 1,2 inches */
    {false,
     "polygon 0,3 3,0 1,0 1,3 in",
     RUNNEL_E_SHAPE,
     {"'polygon 0,3 3,0 1,0 1,3 in' crosses or touches itself at x 25.4 mm, y 50.8 mm"}},
    /* a corner on another side, a corner met twice, a spike, a side run over twice */
    {false,
     "polygon 0,0 10,0 10,10 5,0 0,10 mm",
     RUNNEL_E_SHAPE,
     {"'polygon 0,0 10,0 10,10 5,0 0,10 mm' crosses or touches itself at x 5 mm, y 0 mm"}},
    {false,
     "polygon 0,0 10,0 5,5 10,10 0,10 5,5 mm",
     RUNNEL_E_SHAPE,
     {"'polygon 0,0 10,0 5,5 10,10 0,10 5,5 mm' crosses or touches itself at x 5 mm, y 5 mm"}},
    {false,
     "polygon 0,0 20,0 10,0 10,10 mm",
     RUNNEL_E_SHAPE,
     {"'polygon 0,0 20,0 10,0 10,10 mm' crosses or touches itself at x 20 mm, y 0 mm"}},
    {false,
     "polygon 10,0 10,10 0,0 20,0 mm",
     RUNNEL_E_SHAPE,
     {"'polygon 10,0 10,10 0,0 20,0 mm' crosses or touches itself at x 10 mm, y 0 mm"}},
    {false,
     "polygon 0,0 10,0 10,10 0,10 hole 5,5 15,5 15,6 mm",
     RUNNEL_E_SHAPE,
     {"'polygon 0,0 10,0 10,10 0,10 hole 5,5 15,5 15,6 mm' has rings that cross or touch at x 10 "
      "mm, y 5 mm"}},
    {false,
     "polygon 0,0 10,0 10,10 0,10 hole 20,5 30,5 30,6 mm",
     RUNNEL_E_SHAPE,
     {"'polygon 0,0 10,0 10,10 0,10 hole 20,5 30,5 30,6 mm' has a hole outside its first ring, "
      "with a corner at x 20 mm, y 5 mm"}},
    {false,
     "polygon 0,0 9,0 9,9 0,9 hole 1,1 8,1 8,8 1,8 hole 3,3 4,3 4,4 mm",
     RUNNEL_E_SHAPE,
     {"'polygon 0,0 9,0 9,9 0,9 hole 1,1 8,1 8,8 1,8 hole 3,3 4,3 4,...' has a hole inside another "
      "hole, with a corner at x 3 mm, y 3 mm"}},

    {true,
     "line 0,0 mm",
     RUNNEL_E_SYNTAX,
     {"'line 0,0 mm' needs two points ('polyline' takes more)" LIKE("line 0,0 100,0 mm")}},
    {true,
     "line 0,0 1,1 2,2 mm",
     RUNNEL_E_SYNTAX,
     {"'line 0,0 1,1 2,2 mm' needs two points ('polyline' takes more)" LIKE("line 0,0 100,0 mm")}},
    {true,
     "line 5,5 5,5 mm",
     RUNNEL_E_SHAPE,
     {"'line 5,5 5,5 mm' has no length" LIKE("line 0,0 100,0 mm")}},
    {true,
     "polyline 1,1 mm",
     RUNNEL_E_SYNTAX,
     {"'polyline 1,1 mm' needs two points or more" LIKE("polyline 0,0 50,0 50,30 mm")}},
    {true,
     "polyline 1,1 1,1 1,1 mm",
     RUNNEL_E_SHAPE,
     {"'polyline 1,1 1,1 1,1 mm' has no length" LIKE("polyline 0,0 50,0 50,30 mm")}},
    {true,
     "polyline 1,1 2,2 hole 3,3 4,4 mm",
     RUNNEL_E_SYNTAX,
     {"'polyline 1,1 2,2 hole 3,3 4,4 mm' has more behind its points" LIKE(
         "polyline 0,0 50,0 50,30 mm")}},
};

START_TEST(forms_refused) {
    runnel_problems problems = {0};
    runnel_form form = {.kind = RUNNEL_FORM_NONE, .a_mm = 99};
    ck_assert_int_eq(parse(refused[_i].is_path, refused[_i].text, &problems, &form),
                     refused[_i].status);
    size_t told = 0;
    while (told < 3 && refused[_i].told[told])
        told++;
    for (size_t i = 0; i < problems.count && i < told; i++)
        ck_assert_str_eq(problems.items[i].text, refused[_i].told[i]);
    ck_assert_uint_eq(problems.count, told);
    ck_assert_int_eq(form.kind, RUNNEL_FORM_NONE);
    ck_assert_double_eq(form.a_mm, 99);
    ck_assert_ptr_null(form.corners.points);
    runnel_problems_clear(&problems);
}
END_TEST

START_TEST(place_is_kept) {
    runnel_problems problems = {0};
    runnel_place place = {"a.yaml", 3, 7, "cavities[0].outline"};
    runnel_form form = {.kind = RUNNEL_FORM_NONE};
    ck_assert_int_eq(runnel_form_parse_outline("circle", &problems, &place, &form),
                     RUNNEL_E_SYNTAX);
    ck_assert_int_eq(runnel_form_parse_path("polygon 1 2 mm", &problems, &place, &form),
                     RUNNEL_E_SYNTAX);
    ck_assert_uint_eq(problems.count, 3);
    for (size_t i = 0; i < problems.count; i++) {
        ck_assert_str_eq(problems.items[i].file, "a.yaml");
        ck_assert_uint_eq(problems.items[i].line, 3);
        ck_assert_uint_eq(problems.items[i].column, 7);
        ck_assert_str_eq(problems.items[i].field, "cavities[0].outline");
    }
    runnel_problems_clear(&problems);
    runnel_form_clear(NULL);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("forms");
    TCase *shapes = tcase_create("shapes");
    tcase_add_loop_test(shapes, sized_forms, 0, COUNT(sized));
    tcase_add_loop_test(shapes, pointed_forms, 0, COUNT(pointed));
    tcase_add_loop_test(shapes, forms_refused, 0, COUNT(refused));
    tcase_add_test(shapes, place_is_kept);
    suite_add_tcase(suite, shapes);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
