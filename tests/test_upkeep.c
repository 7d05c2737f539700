/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The upkeep of a finished piece: dates, amounts, and what is refused. Dates are counted by hand on
 * a printed calendar; intervals are common practice (see data/upkeep.csv for each). */
#include "compare.h"
#include "runnel/read.h"
#include "runnel/tables.h"
#include "runnel/upkeep.h"
#include "tables_files.h"

#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static const double day_s = 86400;
static runnel_tables data;

static void read_data(void) {
    runnel_problems problems;
    runnel_problems_init(&problems);
    ck_assert_int_eq(runnel_tables_read(&data, "data", &problems), RUNNEL_OK);
    runnel_problems_clear(&problems);
}

static void clear_data(void) {
    runnel_tables_clear(&data);
}

static runnel_date on(const char *text) {
    runnel_date date = {0, 0, 0};
    ck_assert_int_eq(runnel_date_parse(text, NULL, NULL, &date), RUNNEL_OK);
    return date;
}

/* 7 days x 4, then 14 x 2, then 28 on and on; looked over after 60 days, sanded after 1000. */
static runnel_upkeep_rule plain_rule(void) {
    return (runnel_upkeep_rule){.finish = RUNNEL_FINISH_WET_OIL,
                                .use = RUNNEL_USE_WEEKLY,
                                .wait_s = 7 * day_s,
                                .first_s = 7 * day_s,
                                .first_times = 4,
                                .second_s = 14 * day_s,
                                .second_times = 2,
                                .steady_s = 28 * day_s,
                                .look_s = 56 * day_s,
                                .sand_s = 1001 * day_s,
                                .share = 0.5,
                                .coat_ml_per_m2 = NAN,
                                .coats = NAN,
                                .wiped = 1.25,
                                .scrubbed = 0.75,
                                .open_pores = 0.75,
                                .beads = 1.5,
                                .soaks_in = 0.5};
}

/* 0.2 m2 face grain, 0.01 m2 end grain, 60 ml/m2 and three times that: 12 + 1.8 = 13.8 ml. */
static runnel_upkeep_case case_of(const runnel_upkeep_rule *rule, const char *delivered) {
    return (runnel_upkeep_case){.rule = rule,
                                .delivered = on(delivered),
                                .face_mm2 = 0.2e6,
                                .end_mm2 = 0.01e6,
                                .oiling = {.uptake_mm = 0.060, .end_factor = 3, .coats = 4}};
}

static runnel_upkeep made_of(const runnel_upkeep_case *of) {
    runnel_upkeep upkeep;
    ck_assert_int_eq(runnel_upkeep_compute(of, &upkeep), RUNNEL_OK);
    return upkeep;
}

/* The first dates, "code date" with blanks between. */
static void ck_dates(const runnel_upkeep *upkeep, size_t count, const char *wanted) {
    char found[1000] = "", text[RUNNEL_DATE_SIZE];
    runnel_upkeep_walk walk = {{0}};
    runnel_date date;
    size_t task;
    for (size_t i = 0; i < count && runnel_upkeep_next(upkeep, &walk, &task, &date); i++) {
        size_t used = strlen(found);
        snprintf(found + used, sizeof found - used, "%s%s %s", used ? " " : "",
                 upkeep->tasks[task].code, runnel_date_text(date, text, sizeof text));
    }
    ck_assert_str_eq(found, wanted);
}

START_TEST(weeks_and_then_months) {
    /* Delivered on Saturday 2027-12-18: over the end of the year and over 29 February 2028. */
    const runnel_upkeep_rule rule = plain_rule();
    const runnel_upkeep_case of = case_of(&rule, "2027-12-18");
    const runnel_upkeep upkeep = made_of(&of);
    ck_dates(&upkeep, 10,
             "first 2027-12-25 first 2028-01-01 first 2028-01-08 first 2028-01-15 "
             "second 2028-01-29 second 2028-02-12 look 2028-02-12 steady 2028-03-11 "
             "steady 2028-04-08 look 2028-04-08");
    /* Each of them is a Saturday, for years. */
    runnel_upkeep_walk walk = {{0}};
    runnel_date date;
    size_t task;
    for (int i = 0; i < 500; i++) {
        ck_assert(runnel_upkeep_next(&upkeep, &walk, &task, &date));
        ck_assert_int_eq(runnel_date_weekday(date), 6);
    }
    ck_assert_int_eq(upkeep.steady_days, 28);
    ck_assert_uint_eq(upkeep.task_count, 5);
    ck_assert_int_eq(upkeep.tasks[4].kind, RUNNEL_UPKEEP_SAND);
    /* 1001 days after 2027-12-18: 1096 to 2030-12-18, less 95 = 2030-09-14. */
    char text[RUNNEL_DATE_SIZE];
    ck_assert_str_eq(runnel_date_text(upkeep.tasks[4].first, text, sizeof text), "2030-09-14");
}
END_TEST

START_TEST(amounts_by_hand) {
    const runnel_upkeep_rule rule = plain_rule();
    runnel_upkeep_case of = case_of(&rule, "2027-12-18");
    runnel_upkeep upkeep = made_of(&of);
    ck_near(upkeep.coat_mm3, 6900, 1e-13);  /* half of 13.8 ml */
    ck_near(upkeep.anew_mm3, 55200, 1e-13); /* four coats */
    ck_near(upkeep.tasks[0].amount_mm3, 6900, 1e-13);
    ck_near(upkeep.tasks[3].amount_mm3, 0, 0);
    ck_near(upkeep.tasks[4].amount_mm3, 55200, 1e-13);
    /* In the 365 days that end with 2028-12-16: six coats, then one each 28 days from 2028-03-11 to
     * 2028-12-16, which are 280 days and so 11 coats. */
    ck_near(upkeep.first_year_mm3, 17 * 6900, 1e-13);
    /* 365.2425 days a year, the mean of the calendar */
    ck_near(upkeep.year_mm3, 365.2425 / 28 * 6900, 1e-13);
    /* a fifth lost in the cloth: 6.9 / 0.8 */
    of.oiling.waste = 0.2;
    upkeep = made_of(&of);
    ck_near(upkeep.coat_mm3, 8625, 1e-13);
}
END_TEST

START_TEST(what_the_owner_sees) {
    const runnel_upkeep_rule rule = plain_rule();
    runnel_upkeep_case of = case_of(&rule, "2026-01-03");
    runnel_upkeep upkeep = made_of(&of);
    ck_assert_int_eq(upkeep.soaks_in_days, 14);
    ck_assert_int_eq(upkeep.beads_days, 42);
    of.water = RUNNEL_WATER_SOAKS_IN;
    upkeep = made_of(&of);
    /* 3.5 days are 4, 7 and 14: earlier everywhere */
    ck_dates(&upkeep, 8,
             "first 2026-01-10 first 2026-01-14 first 2026-01-18 first 2026-01-22 "
             "second 2026-01-29 second 2026-02-05 steady 2026-02-19 look 2026-02-28");
    of.water = RUNNEL_WATER_BEADS;
    upkeep = made_of(&of);
    /* 10.5 days are 11, 21 and 42 */
    ck_dates(&upkeep, 7,
             "first 2026-01-10 first 2026-01-21 first 2026-02-01 first 2026-02-12 "
             "look 2026-02-28 second 2026-03-05 second 2026-03-26");
    ck_assert_int_eq(upkeep.steady_days, 42);
}
END_TEST

START_TEST(wood_and_washing) {
    runnel_upkeep_rule rule = plain_rule();
    runnel_upkeep_case of = case_of(&rule, "2026-01-03");
    of.open_pored = true; /* 21 days */
    ck_assert_int_eq(made_of(&of).steady_days, 21);
    of.washing = RUNNEL_WASHING_SCRUBBED; /* 15.75 days, two weeks */
    ck_assert_int_eq(made_of(&of).steady_days, 14);
    of.open_pored = false;
    of.washing = RUNNEL_WASHING_WIPED; /* 35 days */
    ck_assert_int_eq(made_of(&of).steady_days, 35);
    of.washing = RUNNEL_WASHING_RINSED;
    ck_assert_int_eq(made_of(&of).steady_days, 28);
    /* from two weeks on whole weeks, below that whole days, at least one */
    static const struct {
        double days;
        int wanted;
    } rows[] = {{0.01, 1}, {1.4, 1},   {1.5, 2}, {13.4, 13}, {13.6, 14}, {14, 14},
                {17, 14},  {17.5, 21}, {18, 21}, {364, 364}, {365, 364}, {1826, 1827}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        rule.steady_s = rows[i].days * day_s;
        ck_assert_int_eq(made_of(&of).steady_days, rows[i].wanted);
    }
}
END_TEST

START_TEST(after_a_coat_of_the_owner) {
    const runnel_upkeep_rule rule = plain_rule();
    runnel_upkeep_case of = case_of(&rule, "2026-01-03");
    runnel_upkeep upkeep;
    /* due 01-10, 17, 24, 31: given on 01-20, two are done, and two come a week apart from then */
    of.oiled = on("2026-01-20");
    upkeep = made_of(&of);
    ck_dates(&upkeep, 4, "first 2026-01-27 first 2026-02-03 second 2026-02-17 look 2026-02-28");
    /* on the very day: as planned */
    of.oiled = on("2026-01-17");
    upkeep = made_of(&of);
    ck_dates(&upkeep, 3, "first 2026-01-24 first 2026-01-31 second 2026-02-14");
    /* all of the first weeks are done; the first second one was due 02-14 */
    of.oiled = on("2026-02-10");
    upkeep = made_of(&of);
    ck_dates(&upkeep, 2, "second 2026-02-24 look 2026-02-28");
    ck_assert_str_eq(upkeep.tasks[0].code, "second");
    /* years later only the steady ones are left */
    of.oiled = on("2028-02-29");
    upkeep = made_of(&of);
    ck_assert_str_eq(upkeep.tasks[0].code, "steady");
    char text[RUNNEL_DATE_SIZE];
    ck_assert_str_eq(runnel_date_text(upkeep.tasks[0].first, text, sizeof text), "2028-03-28");
    /* before the first one: a week from then, and on the day of delivery as planned */
    of.oiled = on("2026-01-05");
    upkeep = made_of(&of);
    ck_dates(&upkeep, 2, "first 2026-01-12 first 2026-01-19");
    of.oiled = on("2026-01-03");
    upkeep = made_of(&of);
    ck_dates(&upkeep, 2, "first 2026-01-10 first 2026-01-17");
    of.oiled = on("2026-01-02");
    ck_assert_int_eq(runnel_upkeep_compute(&of, &upkeep), RUNNEL_E_CONFLICT);
}
END_TEST

START_TEST(a_coat_while_the_oil_cures) {
    /* Nothing for four weeks, then every 13 weeks: without a coat of the owner 91 days after the
     * delivery, 2029-04-04; with one on 01-31, 91 days after that (28 + 31 + 30 + 2). */
    runnel_upkeep_rule rule = plain_rule();
    rule.first_s = rule.second_s = rule.first_times = rule.second_times = NAN;
    rule.wait_s = 28 * day_s;
    rule.steady_s = 91 * day_s;
    rule.look_s = rule.sand_s = NAN;
    runnel_upkeep_case of = case_of(&rule, "2029-01-03");
    runnel_upkeep upkeep = made_of(&of);
    ck_dates(&upkeep, 1, "steady 2029-04-04");
    of.oiled = on("2029-01-31");
    upkeep = made_of(&of);
    ck_dates(&upkeep, 2, "steady 2029-05-02 steady 2029-08-01");
}
END_TEST

START_TEST(rules_without_first_weeks) {
    /* An oil that dries: nothing for four weeks, then a coat when the interval is over. */
    runnel_upkeep_rule rule = plain_rule();
    rule.finish = RUNNEL_FINISH_DRYING_OIL;
    rule.first_s = rule.second_s = rule.first_times = rule.second_times = NAN;
    rule.wait_s = 28 * day_s;
    rule.steady_s = 182 * day_s;
    rule.look_s = rule.sand_s = NAN;
    runnel_upkeep_case of = case_of(&rule, "2024-02-29");
    runnel_upkeep upkeep = made_of(&of);
    ck_assert_uint_eq(upkeep.task_count, 1);
    /* 182 days after 29 February 2024 */
    ck_dates(&upkeep, 3, "steady 2024-08-29 steady 2025-02-27 steady 2025-08-28");
    rule.steady_s = 7 * day_s; /* not within the wait */
    upkeep = made_of(&of);
    ck_dates(&upkeep, 2, "steady 2024-03-28 steady 2024-04-04");
    rule.wait_s = NAN;
    upkeep = made_of(&of);
    ck_dates(&upkeep, 2, "steady 2024-03-07 steady 2024-03-14");
}
END_TEST

START_TEST(coatings_lie_alike_everywhere) {
    /* 0.21 m2 at 100 ml/m2 are 21 ml, end grain like face grain; three coats anew. */
    runnel_upkeep_rule rule = plain_rule();
    rule.finish = RUNNEL_FINISH_COATING;
    rule.use = RUNNEL_USE_OPEN_AIR;
    rule.coat_ml_per_m2 = 100;
    rule.coats = 3;
    rule.share = 1;
    runnel_upkeep_case of = case_of(&rule, "2026-01-03");
    runnel_upkeep upkeep = made_of(&of);
    ck_near(upkeep.coat_mm3, 21000, 1e-13);
    ck_near(upkeep.anew_mm3, 63000, 1e-13);
    ck_assert_int_eq(upkeep.tasks[0].kind, RUNNEL_UPKEEP_COAT);
}
END_TEST

START_TEST(refusals) {
    const runnel_upkeep_rule good = plain_rule();
    const double bad[] = {INFINITY, -INFINITY, -1, 1e9 * 86400};
    runnel_upkeep upkeep = {.steady_days = 77};
    for (size_t i = 0; i < COUNT(bad); i++)
        for (int field = 0; field < 16; field++) {
            runnel_upkeep_rule rule = good;
            runnel_upkeep_case of = case_of(&rule, "2026-01-03");
            double *fields[] = {
                &rule.wait_s,       &rule.first_s,  &rule.first_times, &rule.second_s,
                &rule.second_times, &rule.steady_s, &rule.look_s,      &rule.sand_s,
                &rule.share,        &rule.coats,    &rule.wiped,       &rule.scrubbed,
                &rule.open_pores,   &rule.beads,    &rule.soaks_in,    &of.face_mm2};
            if (field == 15 && i > 2)
                continue; /* a large board is no mistake */
            *fields[field] = bad[i];
            ck_assert_msg(runnel_upkeep_compute(&of, &upkeep) == RUNNEL_E_RANGE, "%zu %d", i,
                          field);
        }
    runnel_upkeep_rule rule = good;
    runnel_upkeep_case of = case_of(&rule, "2026-01-03");
    rule.steady_s = NAN;
    ck_assert_int_eq(runnel_upkeep_compute(&of, &upkeep), RUNNEL_E_RANGE);
    rule = good;
    rule.first_times = 1.5;
    ck_assert_int_eq(runnel_upkeep_compute(&of, &upkeep), RUNNEL_E_RANGE);
    rule = good;
    of.delivered = (runnel_date){2025, 2, 29};
    ck_assert_int_eq(runnel_upkeep_compute(&of, &upkeep), RUNNEL_E_RANGE);
    of.delivered = on("9999-12-30"); /* the calendar ends */
    ck_assert_int_eq(runnel_upkeep_compute(&of, &upkeep), RUNNEL_E_RANGE);
    of = case_of(&rule, "2026-01-03");
    of.oiled = (runnel_date){2026, 13, 1};
    ck_assert_int_eq(runnel_upkeep_compute(&of, &upkeep), RUNNEL_E_RANGE);
    ck_assert_int_eq(upkeep.steady_days, 77);
}
END_TEST

START_TEST(the_calendar_ends) {
    const runnel_upkeep_rule rule = plain_rule();
    const runnel_upkeep_case of = case_of(&rule, "9990-01-01");
    const runnel_upkeep upkeep = made_of(&of);
    runnel_upkeep_walk walk = {{0}};
    runnel_date date, before = of.delivered;
    size_t task, dates = 0;
    for (; runnel_upkeep_next(&upkeep, &walk, &task, &date); dates++) {
        ck_assert_int_ge(runnel_date_days_between(before, date), 0);
        before = date;
    }
    ck_assert_int_eq(before.year, 9999);
    ck_assert_uint_gt(dates, 6 + 3650 / 28);
}
END_TEST

/* ---- The table ------------------------------------------------------------------------------- */

START_TEST(rules_of_the_table) {
    /* Monthly to quarterly (food magazine), up to weekly when dry (cutting-board article) for
     * mineral oil; coatings renewed every 1 to 2 years (sign makers). The rest common practice. */
    static const struct {
        runnel_upkeep_finish finish;
        runnel_use use;
        double low_days, high_days;
    } rows[] = {{RUNNEL_FINISH_WET_OIL, RUNNEL_USE_RARE, 84, 92},
                {RUNNEL_FINISH_WET_OIL, RUNNEL_USE_WEEKLY, 28, 31},
                {RUNNEL_FINISH_WET_OIL, RUNNEL_USE_DAILY, 7, 28},
                {RUNNEL_FINISH_WET_OIL, RUNNEL_USE_WET, 7, 7},
                {RUNNEL_FINISH_DRYING_OIL, RUNNEL_USE_RARE, 300, 400},
                {RUNNEL_FINISH_DRYING_OIL, RUNNEL_USE_WEEKLY, 150, 200},
                {RUNNEL_FINISH_DRYING_OIL, RUNNEL_USE_DAILY, 80, 100},
                {RUNNEL_FINISH_DRYING_OIL, RUNNEL_USE_WET, 28, 70},
                {RUNNEL_FINISH_DRYING_OIL, RUNNEL_USE_SHELTERED, 150, 200},
                {RUNNEL_FINISH_DRYING_OIL, RUNNEL_USE_OPEN_AIR, 80, 100},
                {RUNNEL_FINISH_COATING, RUNNEL_USE_SHELTERED, 365, 731},
                {RUNNEL_FINISH_COATING, RUNNEL_USE_OPEN_AIR, 364, 731}};
    ck_assert_uint_eq(data.upkeep_count, COUNT(rows));
    for (size_t i = 0; i < COUNT(rows); i++) {
        const runnel_upkeep_rule *rule = runnel_tables_upkeep(&data, rows[i].finish, rows[i].use);
        ck_assert_ptr_nonnull(rule);
        double days = rule->steady_s / day_s;
        ck_assert_msg(days >= rows[i].low_days && days <= rows[i].high_days, "%s: %g days",
                      rule->name, days);
        ck_assert(rule->beads > 1 && rule->soaks_in < 1);
        ck_assert_uint_gt(strlen(rule->source), 0);
        runnel_upkeep_case of = case_of(rule, "2026-12-19");
        const runnel_upkeep upkeep = made_of(&of);
        ck_assert_uint_ge(upkeep.task_count, 2);
        ck_assert(upkeep.year_mm3 > 0);
    }
    /* An oil that stays wet has no business outdoors. */
    ck_assert_ptr_null(runnel_tables_upkeep(&data, RUNNEL_FINISH_WET_OIL, RUNNEL_USE_OPEN_AIR));
    ck_assert_ptr_null(runnel_tables_upkeep(&data, RUNNEL_FINISH_COATING, RUNNEL_USE_DAILY));
    ck_assert_ptr_null(runnel_tables_upkeep(&data, RUNNEL_FINISH_WET_OIL, RUNNEL_USE_NONE));
}
END_TEST

START_TEST(rows_of_the_user_go_before) {
    char folder[64];
    runnel_tables tables = {0};
    make_folder(folder);
    put_text(folder, "upkeep.csv", UPKEEP_HEADER UPKEEP_ROW);
    const char *const both[] = {"data", folder};
    ck_assert_int_eq(runnel_tables_read_all(both, 2, NULL, &tables), RUNNEL_OK);
    const runnel_upkeep_rule *rule =
        runnel_tables_upkeep(&tables, RUNNEL_FINISH_DRYING_OIL, RUNNEL_USE_WEEKLY);
    ck_assert_str_eq(rule->name, "u");
    ck_near(rule->steady_s, 70 * day_s, 0);
    ck_near(rule->wait_s, NAN, 0);
    runnel_tables_clear(&tables);
    remove_folder(folder);
}
END_TEST

START_TEST(rows_that_are_wrong) {
    static const struct {
        const char *row, *text;
    } rows[] = {
        {"u,oil,weekly,,,,,,70,,,50,,,1,1,1,1.5,0.5,mine,2024,computed\n", "'oil'"},
        {"u,coating,weakly,,,,,,70,,,50,1,,1,1,1,1.5,0.5,mine,2024,computed\n", "'weekly' is near"},
        {"u,oil that dries,weekly,,7,,,,70,,,50,,,1,1,1,1.5,0.5,mine,2024,computed\n",
         "'first times' is needed with 'first'"},
        {"u,oil that dries,weekly,,,4,,,70,,,50,,,1,1,1,1.5,0.5,mine,2024,computed\n",
         "'first' is needed with 'first times'"},
        {"u,oil that dries,weekly,,,,7,,70,,,50,,,1,1,1,1.5,0.5,mine,2024,computed\n",
         "'second times' is needed with 'second'"},
        {"u,oil that dries,weekly,,,,,4,70,,,50,,,1,1,1,1.5,0.5,mine,2024,computed\n",
         "'second' is needed with 'second times'"},
        {"u,oil that dries,weekly,,7,1.5,,,70,,,50,,,1,1,1,1.5,0.5,mine,2024,computed\n",
         "must be a whole one"},
        {"u,coating,open air,,,,,,70,,,50,,,1,1,1,1.5,0.5,mine,2024,computed\n",
         "a coating needs its 'coat'"},
        {"u,oil that dries,weekly,,,,,,70,,,50,100,,1,1,1,1.5,0.5,mine,2024,computed\n",
         "leave 'coat' empty"},
        {"u,oil that dries,weekly,,,,,,0,,,50,,,1,1,1,1.5,0.5,mine,2024,computed\n", "above 0"},
        {"u,oil that dries,weekly,,,,,,70,,,150,,,1,1,1,1.5,0.5,mine,2024,computed\n",
         "from 1 to 100 %"},
        {"u,oil that dries,weekly,,,,,,70,,,50,,,1,1,1,1.5,0,mine,2024,computed\n",
         "from 0.1 to 10"},
        {"u,oil that dries,weekly,,,,,,,,,50,,,1,1,1,1.5,1,mine,2024,computed\n", "steady"}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        char folder[64], text[1000];
        runnel_tables tables = {0};
        runnel_problems problems;
        runnel_problems_init(&problems);
        make_folder(folder);
        snprintf(text, sizeof text, "%s%s", UPKEEP_HEADER, rows[i].row);
        put_text(folder, "upkeep.csv", text);
        ck_assert_int_ne(runnel_tables_read(&tables, folder, &problems), RUNNEL_OK);
        ck_assert_uint_eq(problems.count, 1);
        bool told = strstr(problems.items[0].text, rows[i].text) != NULL ||
                    strstr(problems.items[0].field, rows[i].text) != NULL;
        ck_assert_msg(told, "%zu: %s", i, problems.items[0].text);
        ck_assert_ptr_null(tables.upkeeps);
        runnel_problems_clear(&problems);
        remove_folder(folder);
    }
}
END_TEST

START_TEST(words) {
    ck_assert_str_eq(runnel_use_text(RUNNEL_USE_OPEN_AIR), "open air");
    ck_assert_str_eq(runnel_use_text(RUNNEL_USE_COUNT), "?");
    ck_assert_str_eq(runnel_washing_text(RUNNEL_WASHING_SCRUBBED), "scrubbed");
    ck_assert_str_eq(runnel_water_text(RUNNEL_WATER_SOAKS_IN), "soaks in");
    ck_assert_str_eq(runnel_upkeep_finish_text(RUNNEL_FINISH_COATING), "coating");
    ck_assert(runnel_use_is_outdoors(RUNNEL_USE_SHELTERED));
    ck_assert(!runnel_use_is_outdoors(RUNNEL_USE_WET));
    runnel_upkeep_rule_clear(NULL);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("upkeep");
    TCase *cases = tcase_create("schedule"), *table = tcase_create("table");
    tcase_add_test(cases, weeks_and_then_months);
    tcase_add_test(cases, amounts_by_hand);
    tcase_add_test(cases, what_the_owner_sees);
    tcase_add_test(cases, wood_and_washing);
    tcase_add_test(cases, after_a_coat_of_the_owner);
    tcase_add_test(cases, a_coat_while_the_oil_cures);
    tcase_add_test(cases, rules_without_first_weeks);
    tcase_add_test(cases, coatings_lie_alike_everywhere);
    tcase_add_test(cases, refusals);
    tcase_add_test(cases, the_calendar_ends);
    tcase_add_test(cases, words);
    tcase_add_unchecked_fixture(table, read_data, clear_data);
    tcase_add_test(table, rules_of_the_table);
    tcase_add_test(table, rows_of_the_user_go_before);
    tcase_add_test(table, rows_that_are_wrong);
    suite_add_tcase(suite, cases);
    suite_add_tcase(suite, table);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
