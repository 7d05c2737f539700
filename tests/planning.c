/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "planning.h"

#include "job_tables.h"
#include "runnel/memory.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

runnel_job job;
runnel_problems problems;
runnel_plan plan;

const runnel_tables *planning_tables(void) {
    static runnel_tables tables;
    static runnel_wood woods[2];
    tables = *job_tables();
    for (size_t i = 0; i < 2; i++)
        woods[i] = tables.woods[i];
    woods[0].soak_bare_ml_per_m2 = 40;
    woods[0].soak_sealed_ml_per_m2 = 5;
    woods[1].soak_bare_ml_per_m2 = 80;
    woods[1].soak_sealed_ml_per_m2 = 8;
    tables.woods = woods;
    tables.work_count = 0; /* what no job tells takes an unknown time */
    return &tables;
}

void planning_setup(void) {
    memset(&plan, 0, sizeof plan);
    runnel_problems_init(&problems);
    runnel_job_init(&job);
    job.size_to = RUNNEL_SIZE_LIKELY; /* what the figures of these tests are worked out for */
    ck_assert_int_eq(runnel_job_set_resin(&job, "table-top 2:1", planning_tables(), NULL, NULL),
                     RUNNEL_OK);
}

void planning_teardown(void) {
    runnel_plan_clear(&plan);
    runnel_job_clear(&job);
    runnel_problems_clear(&problems);
}

void planning_again(void) {
    planning_teardown();
    planning_setup();
}

char *text_for_job(const char *text) {
    char *copy = runnel_copy_text(text);
    ck_assert(copy || !text);
    return copy;
}

/* ---- Building ---------------------------------------------------------------------------------*/

runnel_job_piece *add_piece(const char *name, const char *wood, double length_mm, double width_mm,
                            double thickness_mm, size_t count) {
    runnel_job_piece *piece;
    ck_assert_int_eq(runnel_job_add_piece(&job, &piece), RUNNEL_OK);
    piece->name = text_for_job(name);
    piece->wood = text_for_job(wood);
    piece->length_mm = length_mm;
    piece->width_mm = width_mm;
    piece->thickness_mm = thickness_mm;
    piece->count = count;
    return piece;
}

static runnel_job_cavity *add_cavity(runnel_source source, const char *cutter, const char *colour) {
    runnel_job_cavity *cavity;
    ck_assert_uint_gt(job.piece_count, 0);
    ck_assert_int_eq(runnel_job_add_cavity(&job.pieces[job.piece_count - 1], &cavity), RUNNEL_OK);
    cavity->source = source;
    cavity->colour = text_for_job(colour);
    if (cutter)
        ck_assert_int_eq(
            runnel_job_cutter(cutter, planning_tables(), NULL, NULL, &cavity->cut.cutter),
            RUNNEL_OK);
    return cavity;
}

runnel_job_cavity *add_outline(const char *form, const char *cutter, double depth_mm,
                               const char *colour) {
    runnel_job_cavity *cavity = add_cavity(RUNNEL_SOURCE_OUTLINE, cutter, colour);
    ck_assert_int_eq(runnel_form_parse_outline(form, NULL, NULL, &cavity->form), RUNNEL_OK);
    if (cavity->cut.cutter.kind == RUNNEL_CUTTER_V)
        cavity->depth_limit_mm = depth_mm;
    else
        cavity->depth_mm = depth_mm;
    return cavity;
}

runnel_job_cavity *add_path(const char *form, const char *cutter, double depth_mm,
                            const char *colour) {
    runnel_job_cavity *cavity = add_cavity(RUNNEL_SOURCE_PATH, cutter, colour);
    ck_assert_int_eq(runnel_form_parse_path(form, NULL, NULL, &cavity->form), RUNNEL_OK);
    cavity->depth_mm = depth_mm;
    return cavity;
}

runnel_job_cavity *add_text(const char *text, double cap_height_mm, const char *cutter,
                            double limit_mm, const char *colour) {
    runnel_job_cavity *cavity = add_cavity(RUNNEL_SOURCE_TEXT, cutter, colour);
    cavity->text = text_for_job(text);
    cavity->font = text_for_job("blocks");
    cavity->cap_height_mm = cap_height_mm;
    cavity->depth_limit_mm = limit_mm;
    return cavity;
}

runnel_job_cavity *add_measured(double volume_mm3, const char *colour) {
    runnel_job_cavity *cavity = add_cavity(RUNNEL_SOURCE_MEASURED, NULL, colour);
    cavity->measured_mm3 = volume_mm3;
    return cavity;
}

/* ---- Letters ----------------------------------------------------------------------------------*/

static double width_of(char letter, double height) {
    return (letter == 'i' ? 0.05 : 0.2) * height;
}

static runnel_status add_block(const runnel_text *text, double width, double height, double x,
                               double y, runnel_contours *contours) {
    const double corners[][2] = {{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}};
    const double ends[][2] = {{x + 0.5 * width, y}, {x + 0.5 * width, y + height}};
    size_t count = text->single_line ? 2 : 4;
    runnel_status status = runnel_contours_begin(contours, !text->single_line);
    for (size_t i = 0; i < count && !status; i++)
        status = text->single_line ? runnel_contours_add(contours, ends[i][0], ends[i][1])
                                   : runnel_contours_add(contours, corners[i][0], corners[i][1]);
    return status;
}

static size_t lines_of(const char *text) {
    size_t lines = 1;
    for (; *text; text++)
        lines += *text == '\n';
    return lines;
}

static runnel_status set_blocks(const runnel_text *text, double height,
                                runnel_lettering *lettering) {
    size_t line = lines_of(text->text) - 1, place = 0;
    double inset = text->single_line ? 0.1 * height : 0; /* ink starts at 0 */
    runnel_status status = RUNNEL_OK;
    for (const char *c = text->text; *c && !status; c++) {
        double x = (double)place++ * (0.6 * height + text->spacing_mm) - inset;
        double y = (double)line * 1.5 * height;
        if (*c == '\n') {
            place = 0;
            line--;
            continue;
        }
        runnel_cluster *cluster = &lettering->clusters[lettering->cluster_count++];
        *cluster = (runnel_cluster){(size_t)(c - text->text), 1, {INFINITY, INFINITY, 0, 0}};
        if (*c == ' ')
            continue;
        double width = width_of(*c, height);
        cluster->box = (runnel_box){x, y, x + width, y + height};
        status = add_block(text, width, height, x, y, &lettering->contours);
    }
    return status;
}

/* Room for the clusters, from the library's own allocator by way of a text. */
static runnel_cluster *room_for(size_t count) {
    char blanks[64 * sizeof(runnel_cluster)];
    ck_assert_uint_lt(count, 64);
    memset(blanks, ' ', sizeof blanks);
    blanks[count * sizeof(runnel_cluster)] = '\0';
    return (runnel_cluster *)(void *)runnel_copy_text(blanks);
}

runnel_status block_letters(const runnel_text *text, runnel_problems *found,
                            const runnel_place *place, runnel_lettering *lettering) {
    if (strcmp(text->font, "none") == 0)
        return runnel_problems_add(found, RUNNEL_E_FONT, place, "no font '%s'", text->font);
    if (strcmp(text->font, "broken") == 0)
        return RUNNEL_E_NOT_COMPUTED;
    double lines = (double)lines_of(text->text);
    double height = text->cap_height_mm > 0 ? text->cap_height_mm
                                            : text->text_height_mm / (1 + 1.5 * (lines - 1));
    runnel_lettering made = {.cap_height_mm = height};
    made.font_file = runnel_copy_text("/fonts/blocks");
    made.font_name = runnel_copy_text("Blocks");
    made.clusters = room_for(strlen(text->text));
    runnel_status status = RUNNEL_E_NO_MEMORY;
    if (made.font_file && made.font_name && made.clusters)
        status = set_blocks(text, height, &made);
    if (status) {
        runnel_lettering_clear(&made);
        return status;
    }
    *lettering = made;
    return RUNNEL_OK;
}

/* ---- Planning ---------------------------------------------------------------------------------*/

runnel_status make_plan(void) {
    runnel_status status = runnel_job_check(&job, planning_tables(), &problems);
    if (!status)
        status = runnel_plan_make(&job, planning_tables(), &(runnel_letters){block_letters, NULL},
                                  &problems, &plan);
    for (size_t i = 0; i < problems.count; i++)
        printf("problem: %s\n", problems.items[i].text);
    for (size_t i = 0; i < plan.warning_count; i++)
        printf("%s, %s: %s\n", plan.warnings[i].where, plan.warnings[i].code,
               plan.warnings[i].text);
    fflush(stdout);
    return status;
}

void must_plan(runnel_status wanted) {
    runnel_plan_clear(&plan);
    runnel_status status = make_plan();
    ck_assert_str_eq(runnel_status_name(status), runnel_status_name(wanted));
    ck_assert_uint_eq(problems.count, 0);
}

/* ---- Warnings ---------------------------------------------------------------------------------*/

const runnel_warning *warned(const char *code) {
    for (size_t i = 0; i < plan.warning_count; i++)
        if (strcmp(plan.warnings[i].code, code) == 0)
            return &plan.warnings[i];
    return NULL;
}

void ck_warned(const char *code, const char *where, const char *text) {
    size_t count = 0;
    for (size_t i = 0; i < plan.warning_count; i++)
        count += strcmp(plan.warnings[i].code, code) == 0;
    ck_assert_msg(count == 1, "%zu warnings '%s'", count, code);
    ck_assert_str_eq(warned(code)->where, where);
    ck_assert_str_eq(warned(code)->text, text);
}

void ck_not_warned(const char *code) {
    const runnel_warning *found = warned(code);
    ck_assert_msg(!found, "warned of '%s': %s", code, found ? found->text : "");
}

double advised(const char *code, const char *words) {
    const runnel_warning *found = warned(code);
    ck_assert_msg(found, "no warning '%s'", code);
    const char *at = strstr(found->text, words);
    ck_assert_msg(at, "'%s' is not in: %s", words, found->text);
    char *end;
    double value = strtod(at + strlen(words), &end);
    ck_assert_ptr_ne(end, at + strlen(words));
    return value;
}

int planning_main(const char *name, void (*add_tests)(TCase *cases)) {
    Suite *suite = suite_create(name);
    TCase *cases = tcase_create(name);
    tcase_add_checked_fixture(cases, planning_setup, planning_teardown);
    tcase_set_timeout(cases, 300); /* under memcheck */
    add_tests(cases);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
