/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Area of a board that takes oil: faces, chamfers, grooves, holds, resin. */
#include "failing.h"
#include "runnel/oil.h"
#include "solids.h"

#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static const double broken[] = {NAN, INFINITY, -INFINITY, -1};
static const double root_2 = 1.4142135623730951;

static runnel_oil_area area_of(runnel_oil_board board) {
    runnel_oil_area area = {0};
    ck_assert_int_eq(runnel_oil_area_of(&board, &area), RUNNEL_OK);
    return area;
}

/* ---- Faces --------------------------------------------------------------------------------- */

static const runnel_oil_board plain = {.length_mm = 450, .width_mm = 300, .thickness_mm = 38};

START_TEST(six_faces) {
    /* 450 x 300 x 38: 2 (135000 + 17100 + 11400) = 327000 mm2 = 0.327 m2, by hand. */
    runnel_oil_area area = area_of(plain);
    ck_near(area.total_mm2, 327000, 1e-15);
    ck_near(area.end_mm2, 22800, 1e-15);
    ck_near(area.face_mm2, 304200, 1e-15);
    ck_near(area.chamfer_mm2 + area.wall_mm2 + area.resin_mm2 + area.juice_mm3, 0, 0);
    runnel_oil_board board = plain;
    board.grain = RUNNEL_GRAIN_WIDTH;
    ck_near(area_of(board).end_mm2, 34200, 1e-15);
    board.grain = RUNNEL_GRAIN_THICKNESS; /* an end grain board */
    ck_near(area_of(board).end_mm2, 270000, 1e-15);
    ck_near(area_of(board).face_mm2, 57000, 1e-15);
    board = plain;
    board.faces = RUNNEL_FACE_BIT(RUNNEL_FACE_TOP) | RUNNEL_FACE_BIT(RUNNEL_FACE_LEFT);
    ck_near(area_of(board).face_mm2, 135000, 1e-15);
    ck_near(area_of(board).end_mm2, 11400, 1e-15);
    board.faces = RUNNEL_FACE_BIT(RUNNEL_FACE_FRONT);
    ck_near(area_of(board).total_mm2, 17100, 1e-15);
}
END_TEST

/* ---- Chamfers ------------------------------------------------------------------------------ */

START_TEST(chamfers_by_hand) {
    /* Round the top, standing back 2 mm: top 446 x 296, bottom 135000, sides 2 x 450 x 36 and 2 x
     * 300 x 36. The slopes, 2 sqrt 2 wide, lose half of 2 mm at each end: 448 and 298 long. */
    runnel_oil_board board = plain;
    board.chamfer_mm = 2;
    board.edges = RUNNEL_EDGES_TOP;
    runnel_oil_area area = area_of(board);
    double slopes = 2 * root_2 * 2 * (448 + 298);
    ck_near(area.total_mm2, 446 * 296 + 135000 + 32400 + 21600 + slopes, 1e-14);
    ck_near(area.end_mm2, 21600 + 2 * root_2 * 2 * 298, 1e-14);
    ck_near(area.chamfer_mm2, slopes, 1e-14);
    /* All twelve: each face less 4 mm both ways; the slopes lose 3/4 of 2 mm at each end. */
    board.edges = RUNNEL_EDGES_ALL;
    area = area_of(board);
    slopes = 2 * root_2 * 4 * (450 + 300 + 38 - 9);
    ck_near(area.total_mm2, 2 * (446.0 * 296 + 446 * 34 + 296 * 34) + slopes, 1e-14);
    ck_near(area.end_mm2, 2 * 296.0 * 34 + 2 * root_2 * 4 * (300 + 38 - 6), 1e-14);
    /* The four upright ones: top and bottom lose four triangles of 2 mm2 each. */
    board.edges = RUNNEL_EDGES_UPRIGHT;
    area = area_of(board);
    ck_near(area.total_mm2, 2 * (135000.0 - 8) + 2 * (446.0 * 38 + 296 * 38) + 4 * 2 * root_2 * 38,
            1e-14);
    /* One of them. */
    board.edges = RUNNEL_EDGE_BIT(RUNNEL_EDGE_BACK_RIGHT);
    area = area_of(board);
    ck_near(area.total_mm2, 327000 - 2 * 2 - 2 * 2 * 38 + 2 * root_2 * 38, 1e-14);
    /* A slope takes oil when one of its faces does. */
    board.edges = RUNNEL_EDGES_TOP;
    board.faces = RUNNEL_FACE_BIT(RUNNEL_FACE_FRONT);
    area = area_of(board);
    ck_near(area.total_mm2, 450 * 36 + 2 * root_2 * 448, 1e-14);
    ck_near(area.end_mm2, 0, 0);
}
END_TEST

/* Another route: the board as an intersection of half spaces n.x <= d, each face a large square
 * clipped by all the others (Sutherland and Hodgman 1974). */
typedef struct plane {
    double n[3], d;
} plane;

static double dot(const double *a, const double *b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

static size_t clip(double (*p)[3], size_t count, const plane *by) {
    double kept[64][3];
    size_t n = 0;
    for (size_t i = 0; i < count; i++) {
        const double *a = p[i], *b = p[(i + 1) % count];
        double ha = dot(by->n, a) - by->d, hb = dot(by->n, b) - by->d;
        if (ha <= 0)
            memcpy(kept[n++], a, sizeof kept[0]);
        if ((ha < 0 && hb > 0) || (ha > 0 && hb < 0)) {
            for (int k = 0; k < 3; k++)
                kept[n][k] = a[k] + (b[k] - a[k]) * ha / (ha - hb);
            n++;
        }
    }
    memcpy(p, kept, n * sizeof kept[0]);
    return n;
}

static double clipped_area(const plane *planes, size_t count, size_t which) {
    const plane *own = &planes[which];
    double length = sqrt(dot(own->n, own->n)), p[64][3], u[3], v[3], sum[3] = {0, 0, 0};
    int axis = fabs(own->n[0]) < 0.9 * length ? 0 : 1;
    double helper[3] = {axis == 0, axis == 1, 0}, n[3];
    for (int k = 0; k < 3; k++)
        n[k] = own->n[k] / length;
    for (int k = 0; k < 3; k++)
        u[k] = n[(k + 1) % 3] * helper[(k + 2) % 3] - n[(k + 2) % 3] * helper[(k + 1) % 3];
    double size = sqrt(dot(u, u));
    for (int k = 0; k < 3; k++)
        u[k] /= size;
    for (int k = 0; k < 3; k++)
        v[k] = n[(k + 1) % 3] * u[(k + 2) % 3] - n[(k + 2) % 3] * u[(k + 1) % 3];
    static const double corners[4][2] = {{-1e4, -1e4}, {1e4, -1e4}, {1e4, 1e4}, {-1e4, 1e4}};
    for (int i = 0; i < 4; i++)
        for (int k = 0; k < 3; k++)
            p[i][k] = n[k] * own->d / length + u[k] * corners[i][0] + v[k] * corners[i][1];
    size_t points = 4;
    for (size_t i = 0; i < count && points; i++)
        if (i != which)
            points = clip(p, points, &planes[i]);
    for (size_t i = 0; i < points; i++) {
        const double *a = p[i], *b = p[(i + 1) % points];
        for (int k = 0; k < 3; k++)
            sum[k] += a[(k + 1) % 3] * b[(k + 2) % 3] - a[(k + 2) % 3] * b[(k + 1) % 3];
    }
    return 0.5 * fabs(dot(sum, n));
}

/* Where an edge is: signs along x (left, right), y (front, back), z (bottom, top); 0 runs along. */
static const int edge_sides[RUNNEL_EDGE_COUNT][3] = {
    {0, -1, 1},  {0, 1, 1},  {-1, 0, 1},  {1, 0, 1},  {0, -1, -1}, {0, 1, -1},
    {-1, 0, -1}, {1, 0, -1}, {-1, -1, 0}, {1, -1, 0}, {-1, 1, 0},  {1, 1, 0}};

START_TEST(chamfers_by_clipping) {
    static const int face_sides[RUNNEL_FACE_COUNT][3] = {{0, 0, 1}, {0, 0, -1}, {0, -1, 0},
                                                         {0, 1, 0}, {-1, 0, 0}, {1, 0, 0}};
    chance c = {4};
    for (int round = 0; round < 3000; round++) {
        double half[3] = {chance_between(&c, 5, 50), chance_between(&c, 5, 50),
                          chance_between(&c, 5, 50)};
        runnel_oil_board board = {.length_mm = 2 * half[0],
                                  .width_mm = 2 * half[1],
                                  .thickness_mm = 2 * half[2],
                                  .grain = (runnel_grain)chance_below(&c, 3),
                                  .faces = (unsigned)chance_below(&c, 64),
                                  .edges = (unsigned)chance_below(&c, 4096),
                                  .chamfer_mm = chance_between(&c, 0, 5)};
        unsigned oiled = board.faces ? board.faces : RUNNEL_FACES_ALL;
        plane planes[RUNNEL_FACE_COUNT + RUNNEL_EDGE_COUNT];
        bool is_end[COUNT(planes)], takes[COUNT(planes)];
        size_t count = 0;
        for (size_t i = 0; i < RUNNEL_FACE_COUNT + RUNNEL_EDGE_COUNT; i++) {
            bool is_face = i < RUNNEL_FACE_COUNT;
            size_t edge = i - RUNNEL_FACE_COUNT;
            if (!is_face && !(board.edges & 1u << edge))
                continue;
            const int *side = is_face ? face_sides[i] : edge_sides[edge];
            plane *p = &planes[count];
            p->d = is_face ? 0 : -board.chamfer_mm;
            is_end[count] = takes[count] = false;
            for (int k = 0; k < 3; k++) {
                p->n[k] = side[k];
                p->d += abs(side[k]) * half[k];
                is_end[count] = is_end[count] || (side[k] && k == (int)board.grain);
                for (size_t f = 0; f < RUNNEL_FACE_COUNT; f++)
                    takes[count] = takes[count] ||
                                   (side[k] && face_sides[f][k] == side[k] && (oiled & 1u << f));
            }
            count++;
        }
        double face = 0, end = 0;
        for (size_t i = 0; i < count; i++)
            if (takes[i])
                *(is_end[i] ? &end : &face) += clipped_area(planes, count, i);
        runnel_oil_area area = area_of(board);
        ck_near_or(area.face_mm2, face, 1e-9, 1e-6);
        ck_near_or(area.end_mm2, end, 1e-9, 1e-6);
        ck_near(area.total_mm2, area.face_mm2 + area.end_mm2, 1e-14);
    }
}
END_TEST

/* ---- Recesses ------------------------------------------------------------------------------ */

START_TEST(juice_grooves) {
    runnel_cavity f = {0};
    /* Round the circle of radius 50 with a nose of 3, half round: 4441.3220 mm3 (mensuration); wall
     * pi 3 x 2 pi 50, footprint 6 x 2 pi 50. */
    ck_assert_int_eq(runnel_juice_groove(100, 100, 50, 3, 3, &f), RUNNEL_OK);
    ck_near_or(f.volume_mm3, 4441.3220, 0, 6e-5);
    ck_near(f.wall_mm2, 3 * PI * 2 * PI * 50, 1e-10);
    ck_near(f.footprint_mm2, 6 * 2 * PI * 50, 1e-12);
    /* 8 deep: straight walls of 5 on both sides above that */
    ck_assert_int_eq(runnel_juice_groove(100, 100, 50, 3, 8, &f), RUNNEL_OK);
    ck_near(f.volume_mm3, 4441.3219804 + 5 * 6 * 2 * PI * 50, 1e-9);
    ck_near(f.wall_mm2, 3 * PI * 2 * PI * 50 + 2 * 5 * 2 * PI * 50, 1e-10);
    /* A tray 320 x 220 with corners of 25: centre line 1037.08 mm, 14.137167 mm2 in section by a
     * 6 mm round nose 3 deep, 14.66 ml (by hand; a groove keeps its section round a bend). */
    ck_assert_int_eq(runnel_juice_groove(320, 220, 25, 3, 3, &f), RUNNEL_OK);
    ck_near_or(f.volume_mm3, 1037.0796 * 14.137167, 0, 0.01);
    ck_near_or(f.volume_mm3 / 1000, 14.7, 0, 0.05);
    /* Sharp corners, by hand: the section along 1080 mm; at each corner outside a quarter of the
     * half ball, pi 27/6, is added, and inside the two halves share int 2 m sqrt(9 - m^2) dm = 18.
     */
    ck_assert_int_eq(runnel_juice_groove(320, 220, 0, 3, 3, &f), RUNNEL_OK);
    ck_near_or(f.volume_mm3, 1080 * 14.137166941 + 4 * (PI * 27 / 6 - 18), 1e-8, 0);
}
END_TEST

START_TEST(finger_holds) {
    runnel_cavity f = {0};
    /* 100 between the centres, nose 3, 8 deep: 4611.6370 mm3 with the round ends (mensuration). */
    ck_assert_int_eq(runnel_slot(106, 3, 8, &f), RUNNEL_OK);
    ck_near_or(f.volume_mm3, 4611.6370, 0, 6e-5);
    ck_near(f.footprint_mm2, 600 + 9 * PI, 1e-12);
    /* wall: (3 pi + 10) x 100, a half ball 18 pi, and round the ends 5 x 6 pi */
    ck_near(f.wall_mm2, (3 * PI + 10) * 100 + 18 * PI + 30 * PI, 1e-9);
    /* 2 deep it is 5.6568542 wide; 20 between the centres */
    ck_assert_int_eq(runnel_slot(25.6568542495, 3, 2, &f), RUNNEL_OK);
    ck_near(f.footprint_mm2, 20 * 5.6568542495 + 8 * PI, 1e-9);
    /* not longer than wide */
    ck_assert_int_eq(runnel_slot(6, 3, 8, &f), RUNNEL_E_RANGE);
}
END_TEST

START_TEST(recesses_of_a_board) {
    runnel_cavity groove = {0}, hold = {0};
    ck_assert_int_eq(runnel_juice_groove(400, 250, 20, 6, 8, &groove), RUNNEL_OK);
    ck_assert_int_eq(runnel_slot(120, 8, 10, &hold), RUNNEL_OK);
    const runnel_recess recesses[] = {
        {RUNNEL_RECESS_RESIN, RUNNEL_FACE_BOTTOM, 2, 1500, 3000, 4000},
        {RUNNEL_RECESS_JUICE, RUNNEL_FACE_TOP, 1, groove.footprint_mm2, groove.wall_mm2,
         groove.volume_mm3},
        {RUNNEL_RECESS_PLAIN, RUNNEL_FACE_LEFT, 1, hold.footprint_mm2, hold.wall_mm2,
         hold.volume_mm3},
        {RUNNEL_RECESS_PLAIN, RUNNEL_FACE_RIGHT, 1, hold.footprint_mm2, hold.wall_mm2,
         hold.volume_mm3}};
    runnel_oil_board board = plain;
    board.recesses = recesses;
    board.recess_count = COUNT(recesses);
    runnel_oil_area area = area_of(board);
    ck_near(area.face_mm2, 304200 - 3000 + groove.wall_mm2 - groove.footprint_mm2, 1e-13);
    ck_near(area.end_mm2, 22800 + 2 * (hold.wall_mm2 - hold.footprint_mm2), 1e-13);
    ck_near(area.resin_mm2, 3000, 0);
    ck_near(area.juice_mm3, groove.volume_mm3, 0);
    ck_near(area.wall_mm2, groove.wall_mm2 + 2 * hold.wall_mm2, 1e-13);
    /* on a face that is not oiled they change no area, but the groove still holds what it holds */
    board.faces = RUNNEL_FACE_BIT(RUNNEL_FACE_FRONT);
    area = area_of(board);
    ck_near(area.total_mm2, 17100, 1e-15);
    ck_near(area.resin_mm2 + area.wall_mm2, 0, 0);
    ck_near(area.juice_mm3, groove.volume_mm3, 0);
}
END_TEST

START_TEST(refusals) {
    runnel_oil_area area = {.total_mm2 = 7};
    for (size_t i = 0; i < COUNT(broken); i++)
        for (int field = 0; field < 4; field++) {
            runnel_oil_board bad = plain;
            double *fields[] = {&bad.length_mm, &bad.width_mm, &bad.thickness_mm, &bad.chamfer_mm};
            *fields[field] = broken[i];
            ck_assert_int_eq(runnel_oil_area_of(&bad, &area), RUNNEL_E_RANGE);
        }
    runnel_oil_board bad[] = {plain, plain, plain, plain, plain, plain};
    bad[0].thickness_mm = 0;
    bad[1].faces = 64;
    bad[2].edges = 4096;
    bad[3].grain = (runnel_grain)3;
    bad[4].edges = RUNNEL_EDGES_TOP; /* 20 mm off a board 38 thick leaves no room below */
    bad[4].chamfer_mm = 20;
    bad[5].length_mm = bad[5].width_mm = 1e200;
    for (size_t i = 0; i < COUNT(bad); i++)
        ck_assert_int_eq(runnel_oil_area_of(&bad[i], &area), RUNNEL_E_RANGE);
    /* upright chamfers do not care about the thickness */
    bad[4].edges = RUNNEL_EDGES_UPRIGHT;
    runnel_oil_area fine = {0};
    ck_assert_int_eq(runnel_oil_area_of(&bad[4], &fine), RUNNEL_OK);
    bad[4].edges = RUNNEL_EDGES_ALL;
    bad[4].chamfer_mm = 19;
    ck_assert_int_eq(runnel_oil_area_of(&bad[4], &fine), RUNNEL_OK);
    const runnel_recess good = {RUNNEL_RECESS_PLAIN, RUNNEL_FACE_TOP, 1, 100, 200, 300};
    runnel_recess wrong[] = {good, good, good, good, good, good, good};
    wrong[0].face = RUNNEL_FACE_COUNT;
    wrong[1].kind = (runnel_recess_kind)3;
    wrong[2].count = 0;
    wrong[3].footprint_mm2 = NAN;
    wrong[4].wall_mm2 = -1;
    wrong[5].volume_mm3 = INFINITY;
    wrong[6].footprint_mm2 = 135001; /* more than the face has */
    for (size_t i = 0; i < COUNT(wrong); i++) {
        runnel_oil_board board = plain;
        board.recesses = &wrong[i];
        board.recess_count = 1;
        ck_assert_int_eq(runnel_oil_area_of(&board, &area),
                         i == 6 ? RUNNEL_E_CONFLICT : RUNNEL_E_RANGE);
    }
    /* two that each fit, but not both */
    runnel_recess two[] = {good, good};
    two[0].footprint_mm2 = two[1].footprint_mm2 = 70000;
    runnel_oil_board board = plain;
    board.recesses = two;
    board.recess_count = 2;
    ck_assert_int_eq(runnel_oil_area_of(&board, &area), RUNNEL_E_CONFLICT);
    ck_near(area.total_mm2, 7, 0);
}
END_TEST

START_TEST(groove_refusals) {
    runnel_cavity f = {.volume_mm3 = 7};
    for (size_t i = 0; i < COUNT(broken); i++) {
        double b = broken[i];
        ck_assert_int_eq(runnel_juice_groove(b, 50, 5, 3, 3, &f), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_juice_groove(100, b, 5, 3, 3, &f), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_juice_groove(100, 50, b, 3, 3, &f), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_juice_groove(100, 50, 5, b, 3, &f), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_juice_groove(100, 50, 5, 3, b, &f), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_slot(b, 3, 3, &f), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_slot(100, b, 3, &f), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_slot(100, 3, b, &f), RUNNEL_E_RANGE);
    }
    ck_assert_int_eq(runnel_juice_groove(100, 50, 26, 3, 3, &f), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_slot(100, 3, 0, &f), RUNNEL_E_RANGE);
    ck_near(f.volume_mm3, 7, 0);
}
END_TEST

START_TEST(memory_runs_out) {
    for (int kind = 0; kind < 3; kind++) {
        bool failed = true;
        for (size_t fail_at = 0; failed; fail_at++) {
            failing count = {.fail_at = fail_at};
            runnel_cavity f = {.volume_mm3 = 7};
            start_failing(&count);
            runnel_status status = kind == 0   ? runnel_juice_groove(100, 50, 5, 3, 3, &f)
                                   : kind == 1 ? runnel_juice_groove(100, 50, 0, 3, 3, &f)
                                               : runnel_slot(100, 3, 3, &f);
            runnel_set_allocator(NULL);
            failed = count.calls > fail_at;
            ck_assert_int_eq(status, failed ? RUNNEL_E_NO_MEMORY : RUNNEL_OK);
            ck_assert(!failed || f.volume_mm3 == 7);
            ck_assert(failed || fail_at > 2);
        }
    }
}
END_TEST

int main(void) {
    const TTest *const tests[] = {six_faces,     chamfers_by_hand, chamfers_by_clipping,
                                  juice_grooves, finger_holds,     recesses_of_a_board,
                                  refusals,      groove_refusals,  memory_runs_out};
    Suite *suite = suite_create("board");
    TCase *cases = tcase_create("board");
    tcase_set_timeout(cases, 60);
    for (size_t i = 0; i < COUNT(tests); i++)
        tcase_add_test(cases, tests[i]);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
