/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is drawn: ink inside of the page and texts apart, at the extremes; files that hold what they
 * should, the same bytes each time. */
#include "compare.h"
#include "draw/card.h"
#include "draw/note.h"
#include "failing.h"
#include "planning.h"
#include "runnel/draw.h"
#include "runnel/read.h"
#include "wrapped.h"
#include "write/card_doc.h"
#include "write/care_note.h"
#include "write/cure_doc.h"
#include "write/days_doc.h"
#include "write/sheet.h"
#include "write/size_doc.h"

#include <stdlib.h>
#include <string.h>

/* Ink of neighbours may touch, as that of letters with tails does, by less than shows, mm. */
static const double touch_mm = 0.15;
/* What a printer does not reach at the edge of a sheet: common practice. */
static const double edge_mm = 5;

static double overlap(double from, double length, double other, double other_length) {
    return fmin(from + length, other + other_length) - fmax(from, other);
}

static bool lies_over(const runnel_ink_box *a, const runnel_ink_box *b) {
    return overlap(a->x_mm, a->width_mm, b->x_mm, b->width_mm) > touch_mm &&
           overlap(a->y_mm, a->height_mm, b->y_mm, b->height_mm) > touch_mm;
}

/** No text over another, and none over the edge. */
static void check_layout(const runnel_leaf *leaf) {
    enum { NEIGHBOURS = 200 };
    size_t count, texts = 0;
    const runnel_ink *inks = runnel_canvas_inks(leaf->canvas, &count);
    size_t pages = runnel_canvas_pages(leaf->canvas);
    double width_mm = runnel_canvas_width(leaf->canvas);
    double height_mm = runnel_canvas_height(leaf->canvas);
    for (size_t i = 0; i < count; i++) {
        const runnel_ink_box *a = &inks[i].box;
        bool inside = inks[i].page < pages && a->x_mm >= edge_mm &&
                      a->x_mm + a->width_mm <= width_mm - edge_mm && a->y_mm >= edge_mm &&
                      a->y_mm + a->height_mm <= height_mm - edge_mm;
        if (!inside) /* an assertion each time would take longer than the drawing */
            ck_abort_msg("page %zu of %.0f mm: '%s' leaves the page", inks[i].page, width_mm,
                         inks[i].text ? inks[i].text : "a line");
        texts += inks[i].is_text;
        for (size_t k = i + 1; inks[i].is_text && k < count && k < i + NEIGHBOURS; k++)
            if (inks[k].is_text && inks[k].page == inks[i].page && lies_over(a, &inks[k].box))
                ck_abort_msg("page %zu of %.0f mm: '%s' lies over '%s'", inks[i].page, width_mm,
                             inks[i].text, inks[k].text);
    }
    ck_assert_uint_gt(texts, 5 * pages);
}

static runnel_look look;

static void clear_look(void) {
    runnel_look_clear(&look);
}

static void make_all(void) {
    make_plan();
    ck_assert_int_eq(runnel_look_make(&job, planning_tables(),
                                      &(runnel_letters){block_letters, NULL}, NULL, &plan,
                                      RUNNEL_LOOK_ALL, &look),
                     RUNNEL_OK);
}

/** No straight line goes through a text. Seen from above, numbers stand on white over what is
 * drawn. */
static void check_lines(const runnel_ink *inks, size_t count, const runnel_doc_block *block) {
    const double thin_mm = 0.6;
    if (block->image == RUNNEL_IMAGE_PLAN || block->image == RUNNEL_IMAGE_COLOUR)
        return;
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < count && inks[i].is_text; k++)
            if (!inks[k].is_text && fmin(inks[k].box.width_mm, inks[k].box.height_mm) < thin_mm &&
                lies_over(&inks[i].box, &inks[k].box))
                ck_abort_msg("picture %d: a line at %.1f, %.1f goes through '%s'", block->image,
                             inks[k].box.x_mm, inks[k].box.y_mm, inks[i].text);
}

/** A picture stays within the room that it asked for, and has something to show. */
static void check_picture(const runnel_gallery *gallery, const runnel_doc_block *block,
                          double width_mm) {
    const double rim_mm = 10;
    runnel_canvas *canvas = NULL;
    double height_mm = runnel_gallery_height(gallery, block, width_mm);
    size_t count;
    ck_assert_double_gt(height_mm, 0);
    ck_assert_int_eq(
        runnel_canvas_new_picture(width_mm + 2 * rim_mm, height_mm + 2 * rim_mm, &canvas),
        RUNNEL_OK);
    runnel_canvas_page(canvas);
    runnel_gallery_draw(gallery, block, canvas,
                        &(runnel_ink_box){rim_mm, rim_mm, width_mm, height_mm});
    ck_assert_int_eq(runnel_canvas_status(canvas), RUNNEL_OK);
    const runnel_ink *inks = runnel_canvas_inks(canvas, &count);
    ck_assert_uint_gt(count, 2);
    for (size_t i = 0; i < count; i++) {
        const runnel_ink_box *box = &inks[i].box;
        ck_assert_msg(box->x_mm >= rim_mm - touch_mm && box->y_mm >= rim_mm - touch_mm &&
                          box->x_mm + box->width_mm <= rim_mm + width_mm + touch_mm &&
                          box->y_mm + box->height_mm <= rim_mm + height_mm + touch_mm,
                      "picture %d of %.0f x %.0f mm: %s at %.2f, %.2f of %.2f x %.2f mm leaves it",
                      block->image, width_mm, height_mm, inks[i].text ? inks[i].text : "a line",
                      box->x_mm - rim_mm, box->y_mm - rim_mm, box->width_mm, box->height_mm);
    }
    check_lines(inks, count, block);
    runnel_canvas_free(canvas);
}

/** The pictures of a document, apart from one another and inside of the page as its text is. */
static void check_doc(const runnel_doc *doc, const runnel_gallery *gallery) {
    static const double widths_mm[] = {160, 120, 86};
    for (size_t i = 0; i < doc->count; i++)
        for (size_t k = 0; doc->blocks[i].kind == RUNNEL_DOC_IMAGE && k < 3; k++)
            check_picture(gallery, &doc->blocks[i], widths_mm[k]);
    for (int size = 0; size < RUNNEL_PAPER_SIZES; size++) {
        runnel_leaf leaf;
        ck_assert_int_eq(
            runnel_note_lay(doc, gallery, &(runnel_paper){.size = (runnel_paper_size)size}, &leaf),
            RUNNEL_OK);
        check_layout(&leaf);
        runnel_leaf_clear(&leaf);
    }
}

static void check_carving(void) {
    const runnel_gallery gallery = {.job = &job, .plan = &plan, .look = &look};
    runnel_doc doc = {.count = 0};
    runnel_size_doc(&job, &plan, &look, &doc);
    check_doc(&doc, &gallery);
    runnel_doc_clear(&doc);
}

/** The card and the carving on all papers. */
static void check_all_sizes(void) {
    for (int size = 0; size < RUNNEL_PAPER_SIZES; size++) {
        const runnel_paper paper = {.size = (runnel_paper_size)size};
        runnel_leaf leaf;
        ck_assert_int_eq(runnel_card_lay(&job, &plan, &look, &paper, &leaf), RUNNEL_OK);
        check_layout(&leaf);
        runnel_leaf_clear(&leaf);
    }
    check_carving();
}

START_TEST(one_letter) {
    add_piece("pendant", NULL, 12, 12, 4, 1);
    add_text("i", 6, "v 60 deg", 2, "red");
    make_all();
    check_all_sizes();
}
END_TEST

START_TEST(names_of_the_world) {
    job.name =
        text_for_job("\xD9\x85\xD8\xB1\xD8\xAD\xD8\xA8\xD8\xA7 "
                     "\xE0\xA4\xA8\xE0\xA4\xAE\xE0\xA4\xB8\xE0\xA5\x8D\xE0\xA4\xA4\xE0\xA5\x87 "
                     "Bartholom\xC3\xA4us");
    add_piece("a name of sixty letters that goes on and on until the end of it", NULL, 300, 200, 20,
              3);
    add_outline("circle 40 mm", "v 60 deg", 3,
                "a-colour-with-a-name-that-is-as-long-as-names-may-be-and-has-no-blank");
    make_all();
    check_all_sizes();
}
END_TEST

/* A sign of 3 m in many cups. */
START_TEST(large_sign) {
    add_piece("sign", NULL, 3000, 600, 40, 1);
    add_outline("rectangle 2900 x 500 mm", "flat diameter 6 mm", 6, "blue");
    make_all();
    ck_assert_uint_gt(plan.batches[0].cup_count, 10);
    check_all_sizes();
}
END_TEST

/* Kilograms in one cup, on a scale that shows hundredths: the widest figures. */
START_TEST(heavy_cup) {
    job.resin.largest_mass_g = 1e6;
    job.scale.step_g = 0.01;
    add_piece("table", NULL, 1500, 800, 40, 1);
    add_measured(48e6, "blue");
    add_piece("tray", NULL, 1500, 800, 40, 1);
    add_measured(2e6, "red");
    make_all();
    ck_assert_double_gt(plan.batches[0].weighing.part_a_g, 10000);
    check_all_sizes();
}
END_TEST

/* In the long form a thousand cups of each of three colours, the most that are dealt out; else a
 * hundred. */
START_TEST(very_many_cups) {
    static const char *const colours[] = {"red", "white", "blue"};
    const size_t few = is_long() ? 1 : 10;
    job.resin.largest_mass_g = 100;
    for (size_t i = 0; i < 3; i++) {
        add_piece(colours[i], NULL, 0, 0, 0, 1);
        add_measured(80.16e6 / (double)few, colours[i]);
    }
    make_plan();
    size_t cups = 0;
    for (size_t i = 0; i < plan.batch_count; i++)
        cups += plan.batches[i].cup_count;
    ck_assert_uint_ge(cups, 3000 / few);
    ck_assert(!is_long() || cups == 3000);
    const runnel_paper paper = {.size = RUNNEL_PAPER_A4};
    runnel_leaf leaf;
    ck_assert_int_eq(runnel_card_lay(&job, &plan, &look, &paper, &leaf), RUNNEL_OK);
    ck_assert_uint_gt(runnel_canvas_pages(leaf.canvas), 750 / few);
    check_layout(&leaf);
    runnel_leaf_clear(&leaf);
    FILE *file = tmpfile();
    const runnel_paper picture = {.kind = RUNNEL_PAPER_PNG};
    ck_assert_ptr_nonnull(file);
    ck_assert_int_eq(runnel_draw_card(&job, &plan, &look, &picture, file), RUNNEL_E_PAGES);
    fclose(file);
}
END_TEST

/* ---- Sheets, days, cure -----------------------------------------------------------------------
 */

/** A job from text, with tables of the data. */
typedef struct told {
    runnel_tables data;
    runnel_job job;
    runnel_sheet sheet;
    runnel_look look;
} told;

static void tell(const char *yaml, told *of) {
    runnel_problems wrong;
    memset(of, 0, sizeof *of);
    runnel_problems_init(&wrong);
    ck_assert_int_eq(runnel_tables_read(&of->data, "data", NULL), RUNNEL_OK);
    runnel_job_init(&of->job);
    runnel_status status =
        runnel_job_read_yaml(yaml, strlen(yaml), "job.yaml", &of->data, &wrong, &of->job);
    ck_assert_msg(!status, "%s", wrong.count ? wrong.items[0].text : "no reason");
    status = runnel_sheet_make(&of->job, &of->data, &(runnel_letters){block_letters, NULL}, &wrong,
                               NULL, &of->sheet);
    ck_assert_msg(!status || status == RUNNEL_NOT_POSSIBLE, "%s",
                  wrong.count ? wrong.items[0].text : "no reason");
    ck_assert_int_eq(runnel_look_make(&of->job, &of->data, &(runnel_letters){block_letters, NULL},
                                      NULL, &of->sheet.plan, RUNNEL_LOOK_ALL, &of->look),
                     RUNNEL_OK);
    runnel_problems_clear(&wrong);
}

static void told_clear(told *of) {
    runnel_look_clear(&of->look);
    runnel_sheet_clear(&of->sheet);
    runnel_job_clear(&of->job);
    runnel_tables_clear(&of->data);
}

/** Its sheet, card, carving and days, on all papers. */
static void check_told(const told *of) {
    const runnel_gallery gallery = {
        .job = &of->job, .plan = &of->sheet.plan, .look = &of->look, .timings = &of->sheet.timings};
    runnel_doc docs[4] = {{.count = 0}, {.count = 0}, {.count = 0}, {.count = 0}};
    runnel_sheet_doc(&of->job, &of->sheet, &of->look, &docs[0]);
    runnel_card_doc(&of->job, &of->sheet.plan, &of->look, &docs[1]);
    runnel_size_doc(&of->job, &of->sheet.plan, &of->look, &docs[2]);
    runnel_timeline_doc(&of->job, &of->sheet.timings, &docs[3]);
    for (size_t i = 0; i < 4; i++) {
        ck_assert(!docs[i].failed);
        ck_assert_uint_gt(docs[i].count, 5);
        check_doc(&docs[i], &gallery);
        runnel_doc_clear(&docs[i]);
    }
}

#define DAYS                                                                                       \
    "days: {start: 2026-11-30, ready by: 2027-03-31, hours: \"Mon-Fri 8:00-12:00\",\n"             \
    "       off: \"2026-12-08, 2026-12-24 to 2027-01-02\"}\n"

/* Names in Arabic and Devanagari, one of sixty letters, cavities around and beside each other. */
START_TEST(sheets_of_the_world) {
    told of;
    tell("job: \"\xD9\x85\xD8\xB1\xD8\xAD\xD8\xA8\xD8\xA7 "
         "\xE0\xA4\xA8\xE0\xA4\xAE\xE0\xA4\xB8\xE0\xA5\x8D\xE0\xA4\xA4\xE0\xA5\x87\"\n"
         "sealed: yes\noil: walnut oil\n" DAYS "pieces:\n"
         "  - name: a name of sixty letters that goes on and on until the end of it\n"
         "    wood: white oak\n    size: 300 x 200 x 25 mm\n    count: 3\n    cavities:\n"
         "      - {name: \"\xE0\xA4\xA8\xE0\xA4\xAE\xE0\xA4\xB8\xE0\xA5\x8D\xE0\xA4\xA4"
         "\xE0\xA5\x87\", text: HOLM, font: any, cap height: 40 mm, cutter: v 60 deg,\n"
         "         depth limit: 6 mm, colour: \"\xD8\xA3\xD8\xB2\xD8\xB1\xD9\x82\"}\n"
         "      - {name: border, path: rounded rectangle 280 x 180 r 20 mm,\n"
         "         cutter: round-nose diameter 6 mm, depth: 3 mm, colour: white}\n"
         "      - {name: a hole, measured: 4 ml, footprint: 2 cm2, wall area: 6 cm2,\n"
         "         colour: white}\n",
         &of);
    ck_assert_uint_eq(of.sheet.plan.batch_count, 2);
    ck_assert(of.sheet.timed && of.sheet.timings.items[0].is_planned);
    check_told(&of);
    told_clear(&of);
}
END_TEST

/* So many coats and layers that the bars go on in a second picture, over months of days. */
START_TEST(many_steps) {
    told of;
    tell("resin: coating 2:1\nshop: {temperature: 25 C}\noil: {kind: mineral oil, coats: 12}\n"
         "days: {start: 2026-11-30, hours: \"Mon 8:00-10:00\"}\n"
         "pieces: [{size: 200 x 100 x 80 mm, cavities: [{outline: circle 40 mm, cutter: flat "
         "diameter 6 mm, depth: 60 mm}]}]\n",
         &of);
    ck_assert_uint_gt(of.sheet.timings.items[0].step_count, RUNNEL_DAYS_STEPS);
    check_told(&of);
    told_clear(&of);
}
END_TEST

/* A pendant and a sign of 3 m. */
START_TEST(small_and_large) {
    told of;
    tell(DAYS
         "pieces: [{name: i, size: 12 x 12 x 4 mm, cavities: [{outline: circle 1 mm, cutter: v "
         "60 deg}]}]\n",
         &of);
    check_told(&of);
    told_clear(&of);
    tell(DAYS
         "upkeep: open air\n"
         "pieces: [{name: sign, size: 3000 x 600 x 40 mm, cavities: [{outline: rectangle 2900 x "
         "500 mm, cutter: flat diameter 6 mm, depth: 30 mm}]}]\n",
         &of);
    check_told(&of);
    told_clear(&of);
}
END_TEST

/* Curves of cup and layer, from cold to one that runs away. */
START_TEST(cures) {
    static const struct {
        const char *resin;
        double degc;
    } cases[] = {{"table-top 2:1", 18}, {"casting 3:1", 20}, {"coating 2:1", 30}};
    runnel_tables data = {0};
    ck_assert_int_eq(runnel_tables_read(&data, "data", NULL), RUNNEL_OK);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        runnel_job mixed;
        runnel_heating_curves curves = {.pot_life_s = NAN};
        runnel_cure_report report = {.job = &mixed, .is_possible = true};
        runnel_doc doc = {.count = 0};
        runnel_job_init(&mixed);
        ck_assert_int_eq(runnel_job_set_resin(&mixed, cases[i].resin, &data, NULL, NULL),
                         RUNNEL_OK);
        mixed.shop_degc = cases[i].degc;
        ck_assert_int_eq(runnel_cure_law_of(&mixed.resin, RUNNEL_CURE_ARRHENIUS, &report.law),
                         RUNNEL_OK);
        ck_assert_int_eq(runnel_cure_at(&mixed.resin, &report.law, cases[i].degc, &report.cure),
                         RUNNEL_OK);
        ck_assert_int_eq(runnel_heating_make(&mixed.resin,
                                             &(runnel_heating_case){.degc = cases[i].degc},
                                             &report.heating),
                         RUNNEL_OK);
        ck_assert_int_eq(runnel_heating_curves_make(&mixed.resin, &report.heating, &curves),
                         RUNNEL_OK);
        const runnel_gallery gallery = {.heating = &report.heating, .curves = &curves};
        runnel_cure_doc(&report, true, &doc);
        check_doc(&doc, &gallery);
        runnel_doc_clear(&doc);
        runnel_heating_curves_clear(&curves);
        runnel_job_clear(&mixed);
    }
    runnel_tables_clear(&data);
}
END_TEST

/* ---- The care card ----------------------------------------------------------------------------
 */

/** Lays the care card of a board with mineral oil out, on all papers. */
static void check_care(const char *size, const char *use) {
    runnel_tables data = {0};
    runnel_job keep;
    runnel_upkeeping upkeeping = {.part_count = 0};
    char yaml[300];
    snprintf(yaml, sizeof yaml,
             "upkeep: {use: %s, delivered: 2027-01-18}\n"
             "pieces: [{name: \"Bartholom\xC3\xA4us' tray\", size: %s, cavities: [{measured: 1 ml, "
             "footprint: 1 mm2}]}]\n",
             use, size);
    ck_assert_int_eq(runnel_tables_read(&data, "data", NULL), RUNNEL_OK);
    runnel_job_init(&keep);
    ck_assert_int_eq(runnel_job_read_yaml(yaml, strlen(yaml), "job.yaml", &data, NULL, &keep),
                     RUNNEL_OK);
    ck_assert_int_eq(runnel_upkeeping_make(&keep, &data, NULL, NULL, &upkeeping), RUNNEL_OK);
    for (int paper = 0; paper < RUNNEL_PAPER_SIZES; paper++) {
        runnel_doc doc = {.count = 0};
        runnel_leaf leaf;
        runnel_care_note(&keep, &upkeeping, &doc);
        ck_assert_int_eq(
            runnel_note_lay(&doc, NULL, &(runnel_paper){.size = (runnel_paper_size)paper}, &leaf),
            RUNNEL_OK);
        check_layout(&leaf);
        ck_assert_uint_le(runnel_canvas_pages(leaf.canvas), 2); /* both sides of a postcard */
        runnel_leaf_clear(&leaf);
        runnel_doc_clear(&doc);
    }
    runnel_upkeeping_clear(&upkeeping);
    runnel_job_clear(&keep);
    runnel_tables_clear(&data);
}

START_TEST(care_cards) {
    check_care("12 x 12 x 4 mm", "rare");
    check_care("420 x 260 x 25 mm", "daily");
    check_care("3000 x 600 x 40 mm", "wet");
    check_care("600 x 180 x 27 mm", "open air");
}
END_TEST

/* ---- Files -------------------------------------------------------------------------------------
 */

static char *drawn(const runnel_paper *paper, size_t *length) {
    FILE *file = tmpfile();
    ck_assert_ptr_nonnull(file);
    ck_assert_int_eq(runnel_draw_card(&job, &plan, &look, paper, file), RUNNEL_OK);
    *length = (size_t)ftell(file);
    char *bytes = malloc(*length + 1);
    ck_assert_ptr_nonnull(bytes);
    rewind(file);
    ck_assert_uint_eq(fread(bytes, 1, *length, file), *length);
    fclose(file);
    return bytes;
}

/* The same bytes each time; each kind begins as its standard says (ISO 32000-1, 7.5.2; XML 1.0,
 * 2.8; W3C PNG, 5.2). */
START_TEST(same_bytes) {
    static const struct {
        runnel_paper_kind kind;
        const char *begin;
    } kinds[] = {{RUNNEL_PAPER_PDF, "%PDF-1."},
                 {RUNNEL_PAPER_SVG, "<?xml version=\"1.0\""},
                 {RUNNEL_PAPER_PNG, "\x89PNG\r\n\x1A\n"}};
    add_piece("board", NULL, 300, 200, 20, 2);
    add_outline("circle 40 mm", "v 60 deg", 3, "red");
    make_plan();
    for (size_t i = 0; i < 3; i++) {
        const runnel_paper paper = {.kind = kinds[i].kind, .written = {2026, 11, 25}};
        size_t one, other;
        char *first = drawn(&paper, &one), *second = drawn(&paper, &other);
        ck_assert_uint_eq(one, other);
        ck_assert_mem_eq(first, second, one);
        ck_assert_mem_eq(first, kinds[i].begin, strlen(kinds[i].begin));
        free(first);
        free(second);
    }
}
END_TEST

START_TEST(papers) {
    runnel_paper_size size = RUNNEL_PAPER_A4;
    double width_mm, height_mm;
    ck_assert_int_eq(runnel_paper_parse("Letter", NULL, NULL, &size), RUNNEL_OK);
    ck_assert_int_eq(size, RUNNEL_PAPER_LETTER);
    ck_assert_int_eq(runnel_paper_measure(size, &width_mm, &height_mm), RUNNEL_OK);
    ck_near(width_mm, 215.9, 1e-12); /* 8.5 x 11 in (ANSI/ASME Y14.1, size A) */
    ck_near(height_mm, 279.4, 1e-12);
    ck_assert_int_eq(runnel_paper_measure(RUNNEL_PAPER_A5, &width_mm, &height_mm), RUNNEL_OK);
    ck_near(width_mm, 148, 0); /* ISO 216 */
    ck_near(height_mm, 210, 0);
    ck_assert_int_eq(runnel_paper_parse("a3", NULL, NULL, &size), RUNNEL_E_UNKNOWN);
    ck_assert_int_eq(runnel_paper_measure(RUNNEL_PAPER_SIZES, &width_mm, &height_mm),
                     RUNNEL_E_RANGE);
    ck_assert_str_eq(runnel_paper_text(RUNNEL_PAPER_4X6), "4x6");
    ck_assert_str_eq(runnel_paper_text(RUNNEL_PAPER_SIZES), "?");
}
END_TEST

START_TEST(memory_may_run_out) {
    add_piece("board", NULL, 300, 200, 20, 2);
    add_outline("circle 40 mm", "v 60 deg", 3, "red");
    make_plan();
    const runnel_paper paper = {.kind = RUNNEL_PAPER_PDF};
    runnel_status status = RUNNEL_E_NO_MEMORY;
    for (size_t n = 0; status == RUNNEL_E_NO_MEMORY; n += 1 + n / (is_wrapped() ? 2 : 20)) {
        failing count = {.fail_at = n};
        ck_assert_uint_lt(n, 100000);
        FILE *file = tmpfile();
        ck_assert_ptr_nonnull(file);
        start_failing(&count);
        status = runnel_draw_card(&job, &plan, &look, &paper, file);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
        fclose(file);
    }
    ck_assert_int_eq(status, RUNNEL_OK);
}
END_TEST

/** One of the outputs of a job, as a PDF or a page. */
typedef runnel_status (*output)(const told *of, const runnel_paper *paper, FILE *out);

static runnel_status put_sheet(const told *of, const runnel_paper *paper, FILE *out) {
    return runnel_draw_sheet(&of->job, &of->sheet, &of->look, paper, out);
}
static runnel_status put_card(const told *of, const runnel_paper *paper, FILE *out) {
    return runnel_draw_card(&of->job, &of->sheet.plan, &of->look, paper, out);
}
static runnel_status put_carving(const told *of, const runnel_paper *paper, FILE *out) {
    return runnel_draw_size(&of->job, &of->sheet.plan, &of->look, paper, out);
}
static runnel_status put_days(const told *of, const runnel_paper *paper, FILE *out) {
    return runnel_draw_timeline(&of->job, &of->sheet.timings, paper, out);
}
static runnel_status put_cure(const told *of, const runnel_paper *paper, FILE *out) {
    runnel_cure_report report = {.job = &of->job, .is_possible = true};
    runnel_status status = runnel_cure_law_of(&of->job.resin, RUNNEL_CURE_ARRHENIUS, &report.law);
    if (!status)
        status = runnel_cure_at(&of->job.resin, &report.law, 20, &report.cure);
    if (!status)
        status = runnel_heating_make(&of->job.resin, &(runnel_heating_case){.degc = 20},
                                     &report.heating);
    return status ? status : runnel_draw_cure(&report, paper, out);
}

/* Each output with memory that runs out at more and more places: that is told, nothing is lost, and
 * with enough of it all is well. */
START_TEST(memory_of_pages) {
    static const output outputs[] = {put_sheet, put_card, put_carving, put_days, put_cure};
    static const runnel_paper_kind kinds[] = {RUNNEL_PAPER_PDF, RUNNEL_PAPER_HTML};
    const size_t count = sizeof outputs / sizeof *outputs;
    told of;
    tell("sealed: yes\n" DAYS "pieces: [{size: 200 x 100 x 20 mm, cavities: [{outline: rectangle "
         "60 x 40 mm, cutter: v 90 deg, depth limit: 4 mm, colour: red}]}]\n",
         &of);
    for (size_t i = 0; i < 2 * count; i++) {
        const runnel_paper paper = {.kind = kinds[i / count]};
        runnel_status status = RUNNEL_E_NO_MEMORY;
        for (size_t n = 0; status == RUNNEL_E_NO_MEMORY; n += 1 + n / (is_wrapped() ? 1 : 3)) {
            failing memory = {.fail_at = n, .for_good = true};
            FILE *file = tmpfile();
            ck_assert_uint_lt(n, 1000000);
            ck_assert_ptr_nonnull(file);
            start_failing(&memory);
            status = outputs[i % count](&of, &paper, file);
            runnel_set_allocator(NULL);
            ck_assert_uint_eq(memory.alive, 0);
            fclose(file);
        }
        ck_assert_int_eq(status, RUNNEL_OK);
        FILE *full = fopen("/dev/full", "w");
        ck_assert_int_eq(outputs[i % count](&of, &paper, full), RUNNEL_E_IO);
        fclose(full);
    }
    told_clear(&of);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("paper");
    TCase *tests = tcase_create("paper");
    tcase_set_timeout(tests, 600);
    tcase_add_checked_fixture(tests, planning_setup, planning_teardown);
    tcase_add_checked_fixture(tests, NULL, clear_look);
    tcase_add_test(tests, one_letter);
    tcase_add_test(tests, names_of_the_world);
    tcase_add_test(tests, large_sign);
    tcase_add_test(tests, heavy_cup);
    tcase_add_test(tests, very_many_cups);
    tcase_add_test(tests, sheets_of_the_world);
    tcase_add_test(tests, many_steps);
    tcase_add_test(tests, small_and_large);
    tcase_add_test(tests, cures);
    tcase_add_test(tests, care_cards);
    tcase_add_test(tests, same_bytes);
    tcase_add_test(tests, papers);
    tcase_add_test(tests, memory_may_run_out);
    tcase_add_test(tests, memory_of_pages);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
