/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "failing.h"
#include "runnel/write.h"
#include "written.h"

#include <math.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

typedef runnel_status (*list_writer)(const runnel_list *, FILE *);

static char *listed(list_writer write, const runnel_list *list) {
    FILE *file = tmpfile();
    ck_assert_ptr_nonnull(file);
    ck_assert_int_eq(write(list, file), RUNNEL_OK);
    return contents(file);
}

/* Tables of rows whose texts hold what a cell must be quoted for. */
typedef struct rows {
    char words[8][40];
    runnel_resin_row resin;
    runnel_cutter_row cutters[2];
    runnel_wood wood;
    runnel_oil_row oil;
    runnel_upkeep_row rule;
    runnel_work_row work;
    runnel_tables tables;
} rows;

static void fill_rule(rows *r) {
    r->rule = (runnel_upkeep_row){.rule = {.name = r->words[0],
                                           .finish = RUNNEL_FINISH_DRYING_OIL,
                                           .use = RUNNEL_USE_OPEN_AIR,
                                           .wait_s = NAN,
                                           .first_s = 604800,
                                           .first_times = 4,
                                           .second_s = NAN,
                                           .second_times = NAN,
                                           .steady_s = 28 * 86400,
                                           .look_s = NAN,
                                           .sand_s = 1820 * 86400.0,
                                           .share = 0.5,
                                           .coat_ml_per_m2 = NAN,
                                           .coats = NAN,
                                           .wiped = 1.25,
                                           .scrubbed = 0.75,
                                           .open_pores = 0.8,
                                           .beads = 1.5,
                                           .soaks_in = 0.5,
                                           .source = r->words[1],
                                           .date = r->words[2],
                                           .sure = r->words[3]},
                                  .file = r->words[4]};
}

static void fill_rows(rows *r) {
    static const char *const words[] = {"slow; 2:1", "say \"A, B\"", "2026-01-01", "from memory",
                                        "t.csv",     "v-60",         "",           "acer"};
    memset(r, 0, sizeof *r);
    for (size_t i = 0; i < COUNT(words); i++)
        snprintf(r->words[i], sizeof r->words[i], "%s", words[i]);
    r->resin = (runnel_resin_row){{.name = r->words[0],
                                   .kind = r->words[7],
                                   .ratio = {2, 1, RUNNEL_BASIS_VOLUME},
                                   .density_a_g_per_ml = 1.16,
                                   .density_b_g_per_ml = 0.95,
                                   .viscosity_pa_s = 0.9,
                                   .shrinkage = 0.035,
                                   .stated_degc = 25,
                                   .lowest_degc = NAN,
                                   .pot_life_s = 2100,
                                   .pot_mass_g = 100,
                                   .gel_s = 9000,
                                   .recoat_from_s = 10800,
                                   .recoat_until_s = 36000,
                                   .sandable_s = 86400,
                                   .full_cure_s = 604800,
                                   .deepest_layer_mm = 6,
                                   .largest_mass_g = NAN,
                                   .ratio_tolerance = 0.03,
                                   .tint_default = 0.02,
                                   .tint_cap = 0.05,
                                   .activation_kj_per_mol = 52,
                                   .reaction_j_per_g = NAN,
                                   .source = r->words[1],
                                   .date = r->words[2],
                                   .sure = r->words[3]},
                                  r->words[4]};
    r->cutters[0] = (runnel_cutter_row){
        r->words[5], {RUNNEL_CUTTER_V, 60, 0.2, 0}, NAN, r->words[1], r->words[2], r->words[3],
        r->words[4]};
    r->cutters[1] = (runnel_cutter_row){
        r->words[7], {RUNNEL_CUTTER_FLAT, 0, 0, 3.175}, 6.35, r->words[1], r->words[2], r->words[3],
        r->words[4]};
    r->wood = (runnel_wood){r->words[7], r->words[6], r->words[6], 705.6,      4.8, 9.9,
                            0.00165,     0.00353,     true,        40,         5,   r->words[1],
                            r->words[2], r->words[3], r->words[3], r->words[4]};
    r->oil = (runnel_oil_row){.oil = {.name = r->words[0],
                                      .dries = true,
                                      .density_g_per_ml = 0.93,
                                      .uptake_ml_per_m2 = 60,
                                      .uptake_low_ml_per_m2 = 40,
                                      .uptake_high_ml_per_m2 = NAN,
                                      .end_grain_factor = 3,
                                      .coats = 2,
                                      .soak_s = 1200,
                                      .between_s = 86400,
                                      .full_cure_s = 604800,
                                      .food = r->words[6],
                                      .source = r->words[1],
                                      .date = r->words[2],
                                      .sure = r->words[3],
                                      .uptake_sure = r->words[3]},
                              .file = r->words[4]};
    fill_rule(r);
    r->work = (runnel_work_row){.name = r->words[7],
                                .once_for = r->words[0],
                                .setup_s = 600,
                                .each_s = 90,
                                .divides = true,
                                .source = r->words[1],
                                .date = r->words[2],
                                .sure = r->words[3],
                                .file = r->words[4]};
    r->tables = (runnel_tables){.resins = &r->resin,
                                .resin_count = 1,
                                .cutters = r->cutters,
                                .cutter_count = 2,
                                .woods = &r->wood,
                                .wood_count = 1,
                                .oils = &r->oil,
                                .oil_count = 1,
                                .upkeeps = &r->rule,
                                .upkeep_count = 1,
                                .works = &r->work,
                                .work_count = 1};
}

START_TEST(lists_as_csv) {
    /* In the units of the titles: mPa s, %, min, h, days; by hand. */
    static const char *const wanted[] = {
        [RUNNEL_LIST_RESINS] =
            "name,kind,part a,part b,basis,density a [g/ml],density b [g/ml],viscosity [mPa s],"
            "shrinkage [%],stated temperature [degC],lowest temperature [degC],pot life [min],"
            "pot mass [g],gel [h],recoat from [h],recoat until [h],sandable [h],full cure [days],"
            "deepest layer [mm],largest mass [g],ratio tolerance [%],tint default [%],tint cap "
            "[%],activation energy [kJ/mol],heat of reaction [J/g],source,date,sure\n"
            "\"slow; 2:1\",acer,2,1,volume,1.16,0.95,900,3.5,25,,35,100,2.5,3,10,24,7,6,,3,2,5,52,,"
            "\"say \"\"A, B\"\"\",2026-01-01,from memory\n",
        [RUNNEL_LIST_CUTTERS] = "name,kind,angle [deg],tip [mm],diameter [mm],source,date,sure\n"
                                "v-60,v,60,0.2,,\"say \"\"A, B\"\"\",2026-01-01,from memory\n"
                                "acer,flat,,,6.35,\"say \"\"A, B\"\"\",2026-01-01,from memory\n",
        [RUNNEL_LIST_WOODS] =
            "name,also,botanical,density [kg/m3],shrinkage radial [%],shrinkage tangential [%],"
            "coefficient radial [per %],coefficient tangential [per %],open-pored,soak bare "
            "[ml/m2],soak sealed [ml/m2],soak sure,source,date,sure\n"
            "acer,,,705.6,4.8,9.9,0.00165,0.00353,yes,40,5,from memory,\"say \"\"A, B\"\"\",2026-"
            "01-01,from memory\n",
        [RUNNEL_LIST_OILS] = "name,dries,nut,density [g/ml],uptake [ml/m2],uptake low [ml/m2],"
                             "uptake high [ml/m2],uptake sure,end grain factor,coats,soak [min],"
                             "between [h],full cure [days],food,source,date,sure\n"
                             "\"slow; 2:1\",yes,no,0.93,60,40,,from memory,3,2,20,24,7,,"
                             "\"say \"\"A, B\"\"\",2026-01-01,from memory\n",
        [RUNNEL_LIST_UPKEEP] =
            "name,finish,use,wait [days],first [days],first times,second [days],second "
            "times,steady [days],look [days],sand [days],share [%],coat [ml/m2],coats,wiped,"
            "scrubbed,open pores,beads,soaks in,source,date,sure\n"
            "\"slow; 2:1\",oil that dries,open air,,7,4,,,28,,1820,50,,,1.25,0.75,0.8,1.5,0.5,"
            "\"say \"\"A, B\"\"\",2026-01-01,from memory\n",
        [RUNNEL_LIST_WORK] = "name,once for,setup [min],each [min],may be left,source,date,sure\n"
                             "acer,\"slow; 2:1\",10,1.5,yes,\"say \"\"A, B\"\"\",2026-01-01,from "
                             "memory\n"};
    rows r;
    fill_rows(&r);
    for (int i = 0; i < RUNNEL_LIST_FONTS; i++) {
        char *text = listed(runnel_write_list_csv,
                            &(runnel_list){.kind = (runnel_list_kind)i, .tables = &r.tables});
        ck_assert_str_eq(text, wanted[i]);
        free(text);
    }
}
END_TEST

START_TEST(lists_as_text) {
    static const char *const wanted[] = {
        "slow; 2:1 (acer)\n",
        /* 100 x 0.95/(2 x 1.16) = 40.948 */
        "  ratio     2:1 by volume, which is 100:40.95 by weight, within 3 %\n",
        "  density   A 1.16 g/ml, B 0.95 g/ml\n",
        "  times     at 25 \302\260C: pot life 35 min for 100 g, gel 2 h 30 min, recoat from\n",
        "3 h until 10 h, sandable 1 day, full cure 7 days\n",
        "  limits    tint 2 %, at most 5 %, layers to 6 mm\n", /* what is not known is left out */
        "  mix       viscosity 0.9 Pa s, shrinks by 3.5 %\n", "Sources\n",
        "  slow; 2:1: say \"A, B\" [from memory, 2026-01-01, t.csv]\n"};
    rows r;
    fill_rows(&r);
    char *text = listed(runnel_write_list_text,
                        &(runnel_list){.kind = RUNNEL_LIST_RESINS, .tables = &r.tables});
    in_order(text, wanted, COUNT(wanted));
    fits(text);
    free(text);
    text = listed(runnel_write_list_text,
                  &(runnel_list){.kind = RUNNEL_LIST_CUTTERS, .tables = &r.tables});
    has(text, "v-60                    v 60 deg, tip 0.2 mm\n");
    has(text, "acer                    flat diameter 6.35 mm\n");
    has(text, "  v-60, acer: say \"A, B\" [from memory, 2026-01-01, t.csv]\n"); /* told once */
    free(text);
    text = listed(runnel_write_list_text,
                  &(runnel_list){.kind = RUNNEL_LIST_WORK, .tables = &r.tables});
    has(text, "10 min, and 1.5 min a piece, once for slow; 2:1; may be left");
    free(text);
    text = listed(runnel_write_list_text,
                  &(runnel_list){.kind = RUNNEL_LIST_WOODS, .tables = &r.tables});
    has(text, "705.6 kg/m3, open pores\n");
    has(text, "40 ml/m2 bare, 5 ml/m2 sealed (from memory)\n");
    has(text, "4.8 % radially, 9.9 % tangentially");
    free(text);
    text = listed(runnel_write_list_text,
                  &(runnel_list){.kind = RUNNEL_LIST_OILS, .tables = &r.tables});
    has(text, "slow; 2:1, dries\n");
    has(text, "60 ml/m2 (40 to");
    has(text, "2, wiped off after 20 min, 1 day apart, cured after 7 days\n");
    has_not(text, "food");
    free(text);
    text = listed(runnel_write_list_text,
                  &(runnel_list){.kind = RUNNEL_LIST_UPKEEP, .tables = &r.tables});
    has(text, "7 days, 4 times, then 28 days\n");
    has(text, "50 % of a first coat; sanded after 1820 days\n");
    has(text, "  times     1.25 wiped, 0.75 scrubbed, 0.8 open pores, 1.5 water beads, 0.5 it");
    free(text);
}
END_TEST

START_TEST(list_of_fonts) {
    char family[] = "Serif, Old", styles[] = "Bold, Regular", file[] = "/f/a.otf";
    runnel_font_entry fonts[] = {{family, styles, file}};
    runnel_list list = {.kind = RUNNEL_LIST_FONTS, .fonts = fonts, .font_count = 1};
    char *text = listed(runnel_write_list_text, &list);
    ck_assert_str_eq(text, "Serif, Old\n  Bold, Regular\n  /f/a.otf\n");
    free(text);
    text = listed(runnel_write_list_csv, &list);
    ck_assert_str_eq(text, "family,styles,file\n\"Serif, Old\",\"Bold, Regular\",/f/a.otf\n");
    free(text);
    list.font_count = 0;
    text = listed(runnel_write_list_text, &list);
    ck_assert_str_eq(text, "no fonts with outlines\n");
    free(text);
    text = listed(runnel_write_list_json, &list);
    ck_assert_str_eq(text, "[]\n");
    free(text);
}
END_TEST

START_TEST(list_as_json) {
    rows r;
    fill_rows(&r);
    runnel_list list = {.kind = RUNNEL_LIST_RESINS, .tables = &r.tables};
    char *text = listed(runnel_write_list_json, &list);
    has(text, "\"name\": \"slow; 2:1\"");
    has(text, "\"basis\": \"volume\"");
    has(text, "\"viscosity_pa_s\": 0.9");
    has(text, "\"pot_life_min\": 35.0");
    has(text, "\"gel_min\": 150.0");
    has(text, "\"lowest_degc\": null");
    has(text, "\"source\": \"say \\\"A, B\\\"\"");
    has(text, "\"file\": \"t.csv\"");
    free(text);
    list.kind = RUNNEL_LIST_WOODS;
    text = listed(runnel_write_list_json, &list);
    has(text, "\"open_pored\": true");
    free(text);
}
END_TEST

START_TEST(list_as_json_without_memory) {
    rows r;
    fill_rows(&r);
    runnel_list list = {.kind = RUNNEL_LIST_CUTTERS, .tables = &r.tables};
    char *whole = listed(runnel_write_list_json, &list);
    for (size_t fail_at = 0;; fail_at++) {
        failing count = {.fail_at = fail_at, .for_good = true};
        FILE *file = tmpfile();
        start_failing(&count);
        runnel_status status = runnel_write_list_json(&list, file);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
        char *text = contents(file);
        bool failed = count.calls > fail_at;
        ck_assert_int_eq(status, failed ? RUNNEL_E_NO_MEMORY : RUNNEL_OK);
        ck_assert_str_eq(text, failed ? "" : whole);
        free(text);
        if (!failed)
            break;
        ck_assert_uint_lt(fail_at, 10000);
    }
    free(whole);
}
END_TEST

START_TEST(full_disk_is_told) {
    rows r;
    fill_rows(&r);
    runnel_list list = {.kind = RUNNEL_LIST_CUTTERS, .tables = &r.tables};
    static const list_writer writers[] = {runnel_write_list_text, runnel_write_list_csv,
                                          runnel_write_list_json};
    for (size_t i = 0; i < COUNT(writers); i++) {
        FILE *full = fopen("/dev/full", "w");
        ck_assert_ptr_nonnull(full);
        ck_assert_int_eq(writers[i](&list, full), RUNNEL_E_IO);
        fclose(full);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("lists");
    TCase *lists = tcase_create("lists");
    tcase_add_test(lists, lists_as_csv);
    tcase_add_test(lists, lists_as_text);
    tcase_add_test(lists, list_of_fonts);
    tcase_add_test(lists, list_as_json);
    tcase_add_test(lists, list_as_json_without_memory);
    tcase_add_test(lists, full_disk_is_told);
    suite_add_tcase(suite, lists);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed != 0;
}
