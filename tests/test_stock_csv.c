/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "failing.h"
#include "runnel/read.h"
#include "runnel/stock_csv.h"

#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static const char bench[] = "what,part,amount [g],amount [ml],pack size [g],pack size [ml],price,"
                            "currency,opened,shelf\n"
                            "laminating 100:44,A,812.5,,1000,,24.00,EUR,2026-03-14,\"left, top\"\n"
                            "laminating 100:44, B , 50 ,,250,,12,EUR,2026-03,left\n"
                            "\n"
                            "walnut oil,,,\"430\",,500,9.5,EUR,,right\n"
                            "amber,,31.07,,50,,,,,\n";

static runnel_problems problems;
static runnel_stock_file file;
static char folder[64];

static void setup(void) {
    memset(&file, 0, sizeof file);
    runnel_problems_init(&problems);
    snprintf(folder, sizeof folder, "/tmp/runnel_stock_XXXXXX");
    ck_assert(mkdtemp(folder) != NULL);
}

static void teardown(void) {
    runnel_stock_file_clear(&file);
    runnel_problems_clear(&problems);
    ck_assert_int_eq(rmdir(folder), 0); /* also tells of files left behind */
}

static runnel_status parse(const char *text) {
    return runnel_stock_parse(text, strlen(text), "stock.csv", &problems, &file);
}

static void parse_bench(void) {
    ck_assert_int_eq(parse(bench), RUNNEL_OK);
    ck_assert_uint_eq(problems.count, 0);
}

/* --- reading --- */

START_TEST(a_stock_is_read) {
    parse_bench();
    ck_assert_uint_eq(file.stock.count, 4);
    const runnel_stock_item *a = &file.stock.items[0], *b = a + 1, *oil = a + 2, *amber = a + 3;
    ck_assert_str_eq(a->what, "laminating 100:44");
    ck_assert_str_eq(a->part, "A");
    ck_near(a->amount_g, 812.5, 0);
    ck_assert(isnan(a->amount_mm3) && isnan(a->pack_mm3));
    ck_near(a->pack_g, 1000, 0);
    ck_near(a->price, 24, 0);
    ck_assert_str_eq(a->currency, "EUR");
    ck_assert_str_eq(a->opened, "2026-03-14");
    ck_assert_str_eq(b->part, "B");
    ck_near(b->amount_g, 50, 0);
    ck_assert_str_eq(oil->part, "");
    ck_near(oil->amount_mm3, 430e3, 0);
    ck_near(oil->pack_mm3, 500e3, 0);
    ck_assert_str_eq(oil->opened, "");
    ck_near(amber->amount_g, 31.07, 0);
    ck_assert(isnan(amber->price));
    ck_assert_str_eq(amber->currency, "");
    /* Where the numbers stand. */
    static const char *const numbers[] = {"812.5", "50", "430", "31.07"};
    for (size_t i = 0; i < 4; i++) {
        ck_assert_uint_eq(file.cells[i].length, strlen(numbers[i]));
        ck_assert_int_eq(memcmp(file.text + file.cells[i].at, numbers[i], file.cells[i].length), 0);
    }
    ck_assert_uint_eq(file.cells[2].line, 5);
    ck_assert_uint_eq(file.length, strlen(bench));
    ck_assert_str_eq(file.path, "stock.csv");
}
END_TEST

START_TEST(other_units_and_names) {
    /* A kilogram, a litre, a US fluid ounce (29.5735295625 ml) and a pound (453.59237 g), exact; a
     * semicolon file with a mark, CRLF and a first line that tells the separator; a currency for
     * all in the header; one column for part and colour. */
    ck_assert_int_eq(parse("\xEF\xBB\xBFsep=;\r\nWHAT;Part or Colour;Amount [kg];amount [L];"
                           "pack size [lb];Price [CHF];Currency\r\n"
                           "resin;A;0.5;;1;20;\r\nGr\xC3\xBCn;colour;;1.25;2;7;EUR\r\n"),
                     RUNNEL_OK);
    ck_assert_uint_eq(file.stock.count, 2);
    ck_near(file.stock.items[0].amount_g, 500, 1e-15);
    ck_near(file.stock.items[0].pack_g, 453.59237, 1e-15);
    ck_assert_str_eq(file.stock.items[0].currency, "CHF");
    ck_near(file.stock.items[1].amount_mm3, 1.25e6, 1e-15);
    ck_assert_str_eq(file.stock.items[1].currency, "EUR");
    ck_assert_str_eq(file.stock.items[1].what, "Gr\xC3\xBCn");
    ck_assert_int_eq(memcmp(file.text + file.cells[1].at, "1.25;2", 6), 0);
    runnel_stock_file_clear(&file);
    ck_assert_int_eq(parse("amount [US fl oz],what,colour\n10,oil,\n"), RUNNEL_OK);
    ck_near(file.stock.items[0].amount_mm3, 295735.295625, 1e-15);
    runnel_stock_file_clear(&file);
    ck_assert_int_eq(parse("what,amount [g]"), RUNNEL_OK); /* nothing in stock */
    ck_assert_uint_eq(file.stock.count, 0);
}
END_TEST

/* --- refusals --- */

START_TEST(each_problem_has_its_place) {
    static const struct {
        const char *text;
        runnel_status status;
        size_t line, column;
        const char *field, *told;
    } rows[] = {
        {"", RUNNEL_E_MISSING, 1, 0, NULL,
         "an empty table: a header line with the columns is needed"},
        {"what,price\n", RUNNEL_E_MISSING, 1, 0, NULL,
         "the column 'amount [g]' or 'amount [ml]' is missing"},
        {"amount [g],price\n", RUNNEL_E_MISSING, 1, 0, NULL, "the column 'what' is missing"},
        {"what,amount\n", RUNNEL_E_UNIT, 1, 6, "amount",
         "'amount' needs its unit in brackets: 'amount [g]' or 'amount [ml]'"},
        {"what,amount [mm]\n", RUNNEL_E_UNIT, 1, 6, "amount [mm]",
         "'[mm]' is no unit of 'amount'; 'amount [g]' or 'amount [ml]' would be right"},
        {"what,amount [g],pack size [oz]\n", RUNNEL_E_UNIT, 1, 17, "pack size [oz]",
         "'[oz]' is no unit of 'pack size'; 'pack size [g]' or 'pack size [ml]' would be right"},
        {"what [g],amount [g]\n", RUNNEL_E_UNIT, 1, 1, "what [g]",
         "'[g]' behind 'what', which takes no unit"},
        {"what,amount [g],amount [kg]\n", RUNNEL_E_CONFLICT, 1, 17, "amount [kg]",
         "'amount' is there already, in column 2 as 'amount [g]'"},
        {"what,part,colour,amount [g]\n", RUNNEL_E_CONFLICT, 1, 11, "colour",
         "'colour' is there already, in column 2 as 'part'"},
        {"what,amount [g],curency\n", RUNNEL_E_UNKNOWN, 1, 17, "curency",
         "'curency' is no column of a stock; 'currency' is near, which is not there. A column of "
         "your own needs another name"},
        {"what,amount [g],pack sise [g]\n", RUNNEL_E_UNKNOWN, 1, 17, "pack sise [g]",
         "'pack sise [g]' is no column of a stock; 'pack size' is near, which is not there. A "
         "column of your own needs another name"},
        {"what,amount [g]\n,5\n", RUNNEL_E_MISSING, 2, 1, "what",
         "an empty cell, where a name is needed"},
        {"what,amount [g],note\noil,,x\n", RUNNEL_E_MISSING, 2, 5, "amount [g]",
         "no amount, where one is needed; an empty bottle has 0"},
        {"what,amount [g],amount [ml]\noil,,\n", RUNNEL_E_MISSING, 2, 1, NULL,
         "no amount, where one is needed; an empty bottle has 0"},
        {"what,amount [g],amount [ml]\noil,5,6\n", RUNNEL_E_CONFLICT, 2, 7, "amount [ml]",
         "'6' beside '5': fill in one amount only"},
        {"what,amount [g],pack size [g],pack size [ml]\noil,5,6,7\n", RUNNEL_E_CONFLICT, 2, 9,
         "pack size [ml]", "'7' beside '6': fill in one pack size only"},
        {"what,amount [g]\noil,-5\n", RUNNEL_E_RANGE, 2, 5, "amount [g]", "'-5' must be 0 or more"},
        {"what,amount [g],pack size [g]\noil,5,0\n", RUNNEL_E_RANGE, 2, 7, "pack size [g]",
         "'0' must be above 0"},
        {"what,amount [g],price\noil,5,-1\n", RUNNEL_E_RANGE, 2, 7, "price",
         "'-1' must be 0 or more"},
        {"what,amount [kg]\noil,1e308\n", RUNNEL_E_RANGE, 2, 5, "amount [kg]",
         "'1e308' must be 0 or more, and at most 1e12 in g, mm3 or money"},
        {"what,amount [g],opened\noil,5,14.3.26\n", RUNNEL_E_SYNTAX, 2, 7, "opened",
         "'14.3.26' is not a date as YYYY-MM-DD, YYYY-MM or YYYY"},
        {"what,amount [g]\noil\n", RUNNEL_E_SYNTAX, 2, 1, NULL, "1 cells, where the header has 2"},
        {"what,amount [g]\noil,5,6\n", RUNNEL_E_SYNTAX, 2, 7, NULL,
         "3 cells, where the header has 2; a text with a separator in it needs double quotes, a "
         "number a decimal point"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        ck_assert_msg(parse(rows[i].text) == rows[i].status, "row %zu", i);
        ck_assert_msg(problems.count == 1, "row %zu: %zu problems, '%s'", i, problems.count,
                      problems.count > 1 ? problems.items[1].text : "");
        const runnel_problem *told = &problems.items[0];
        ck_assert_int_eq(told->status, rows[i].status);
        ck_assert_str_eq(told->text, rows[i].told);
        ck_assert_str_eq(told->file, "stock.csv");
        ck_assert_uint_eq(told->line, rows[i].line);
        ck_assert_uint_eq(told->column, rows[i].column);
        ck_assert(rows[i].field ? told->field && !strcmp(told->field, rows[i].field)
                                : !told->field);
        ck_assert(!file.text && !file.cells && !file.stock.count);
        runnel_problems_clear(&problems);
        ck_assert_int_eq(
            runnel_stock_parse(rows[i].text, strlen(rows[i].text), "stock.csv", NULL, &file),
            rows[i].status);
    }
}
END_TEST

START_TEST(numbers_that_are_none) {
    static const char *const cells[] = {"12,5", "1 kg", "lots",  "0x10",
                                        "nan",  "inf",  "1e999", "1.2.3"};
    for (size_t i = 0; i < COUNT(cells); i++) {
        char text[128];
        snprintf(text, sizeof text, "what;amount [g]\noil;%s\n", cells[i]);
        runnel_status status = parse(text);
        ck_assert_msg(status == RUNNEL_E_SYNTAX || status == RUNNEL_E_RANGE, "'%s': %d", cells[i],
                      (int)status);
        ck_assert_uint_eq(problems.count, 1);
        ck_assert_uint_eq(problems.items[0].line, 2);
        ck_assert_uint_eq(problems.items[0].column, 5);
        ck_assert_msg(strstr(problems.items[0].text, cells[i]) != NULL, "'%s' is not in '%s'",
                      cells[i], problems.items[0].text);
        runnel_problems_clear(&problems);
    }
}
END_TEST

START_TEST(all_problems_at_once) {
    /* Every wrong cell of three rows, and a wrong quote behind them. */
    ck_assert_int_eq(parse("what,amount [g],price,opened\n"
                           ",-1,x,1.1.\n"
                           "oil,,-2,2026-13\n"
                           "oil,1\n"
                           "oil,\"1\"2,3,\n"),
                     RUNNEL_E_SYNTAX);
    ck_assert_uint_eq(problems.count, 9);
    runnel_problems_clear(&problems);
    /* A table far too wide, and one far too long. */
    static char wide[4096], tall[60000];
    char *end = wide + sprintf(wide, "what,amount [g]");
    for (int i = 0; i < 199; i++)
        end += sprintf(end, ",x");
    ck_assert_int_eq(parse(wide), RUNNEL_E_SYNTAX);
    ck_assert_str_eq(problems.items[0].text, "201 columns, where a stock has 200 at most");
    runnel_problems_clear(&problems);
    end = tall + sprintf(tall, "what,amount [g]\n");
    for (int i = 0; i < 4097; i++)
        end += sprintf(end, "oil,1\n");
    ck_assert_int_eq(parse(tall), RUNNEL_E_RANGE);
    ck_assert_str_eq(problems.items[0].text, "4097 rows, where a table has 4096 at most");
    runnel_problems_clear(&problems);
    end[-6] = '\0';
    ck_assert_int_eq(parse(tall), RUNNEL_OK);
    ck_assert_uint_eq(file.stock.count, 4096);
}
END_TEST

START_TEST(own_columns_are_left_alone) {
    /* "place" is near "price", but that is there; brackets in a name of one's own are no matter. */
    ck_assert_int_eq(parse("place,what,price,amount [g],[x] y\nshelf,oil,1,2,3\n"), RUNNEL_OK);
    ck_assert_uint_eq(problems.count, 0);
    ck_near(file.stock.items[0].price, 1, 0);
}
END_TEST

/* --- what is left --- */

static char *text_with(const double *left) {
    char *text = NULL;
    size_t length = 0;
    ck_assert_int_eq(runnel_stock_text(&file, left, &text, &length), RUNNEL_OK);
    ck_assert_uint_eq(length, strlen(text));
    return text;
}

START_TEST(only_numbers_change) {
    parse_bench();
    /* 144 g of A, all of B, 30.123456 ml of oil; the tint is not touched. */
    static const double left[] = {668.5, 0, 399876.544, 31.07};
    char *text = text_with(left);
    ck_assert_str_eq(text, "what,part,amount [g],amount [ml],pack size [g],pack size [ml],price,"
                           "currency,opened,shelf\n"
                           "laminating 100:44,A,668.5,,1000,,24.00,EUR,2026-03-14,\"left, top\"\n"
                           "laminating 100:44, B , 0 ,,250,,12,EUR,2026-03,left\n"
                           "\n"
                           "walnut oil,,,\"399.88\",,500,9.5,EUR,,right\n"
                           "amber,,31.07,,50,,,,,\n");
    runnel_free(text);
    /* Nothing changed: byte for byte the same. */
    static const double same[] = {812.5, 50, 430e3, 31.07};
    text = text_with(same);
    ck_assert_str_eq(text, bench);
    runnel_free(text);
}
END_TEST

START_TEST(as_fine_as_the_unit_asks) {
    static const struct {
        const char *unit;
        double left;
        const char *want;
    } rows[] = {
        {"g", 123.456, "123.46"},   {"g", 120, "120"},           {"g", 0.004, "0"},
        {"kg", 123.456, "0.12346"}, {"kg", 1000, "1"},           {"mg", 1.2345678, "1235"},
        {"lb", 453.59237, "1"},     {"lb", 100, "0.22046"},      {"ml", 123456.7, "123.46"},
        {"L", 123456.7, "0.12346"}, {"US fl oz", 29573.53, "1"}, {"g", 1e12, "1000000000000"}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        char before[64], want[128];
        snprintf(before, sizeof before, "what,amount [%s]\r\noil,9\r\n", rows[i].unit);
        snprintf(want, sizeof want, "what,amount [%s]\r\noil,%s\r\n", rows[i].unit, rows[i].want);
        ck_assert_int_eq(parse(before), RUNNEL_OK);
        char *text = text_with(&rows[i].left);
        ck_assert_str_eq(text, want);
        runnel_free(text);
        runnel_stock_file_clear(&file);
    }
}
END_TEST

START_TEST(amounts_that_cannot_be) {
    parse_bench();
    static const double bad[] = {-1, NAN, INFINITY, 1.1e12};
    char *text = (char *)bench;
    size_t length = 7;
    for (size_t i = 0; i < COUNT(bad); i++) {
        double left[] = {1, 1, 1, bad[i]};
        ck_assert_int_eq(runnel_stock_text(&file, left, &text, &length), RUNNEL_E_RANGE);
        ck_assert_int_eq(runnel_stock_write(&file, left, &problems), RUNNEL_E_RANGE);
    }
    ck_assert(text == bench && length == 7);
}
END_TEST

/* Random tables: what is written reads back as what was left, and nothing else is touched. */
START_TEST(thousands_of_tables) {
    srand(9);
    for (int round = 0; round < 2000; round++) {
        static const char *const ends[] = {"\n", "\r\n", "\r"};
        static const char *const before[] = {"", " ", "\"", "  \""};
        static const char *const behind[] = {"", "  ", "\"", "\" "};
        const char *end = ends[rand() % 3];
        char separator = rand() % 2 ? ',' : ';', text[2048], *at = text;
        size_t rows = (size_t)(rand() % 8);
        at += sprintf(at, "%swhat%cmine%camount [g]%s", rand() % 2 ? "\xEF\xBB\xBF" : "", separator,
                      separator, end);
        for (size_t i = 0; i < rows; i++) {
            int frame = rand() % 4;
            at += sprintf(at, "\xC3\xB6l%c\"a\n%c\"\"\xE2\x82\xAC\"%c%s%d%s%s", separator,
                          separator, separator, before[frame], rand() % 1000, behind[frame], end);
            if (rand() % 3 == 0)
                at += sprintf(at, "%s", end);
        }
        ck_assert_int_eq(parse(text), RUNNEL_OK);
        ck_assert_uint_eq(file.stock.count, rows);
        double left[8];
        for (size_t i = 0; i < rows; i++)
            left[i] = rand() % 3 ? rand() % 100000 / 100.0 : file.stock.items[i].amount_g;
        char *fresh = text_with(left);
        runnel_stock_file again = {0};
        ck_assert_int_eq(runnel_stock_parse(fresh, strlen(fresh), "again.csv", &problems, &again),
                         RUNNEL_OK);
        ck_assert_uint_eq(again.stock.count, rows);
        double amounts[8];
        for (size_t i = 0; i < rows; i++) {
            ck_near(again.stock.items[i].amount_g, left[i], 1e-15);
            amounts[i] = file.stock.items[i].amount_g;
        }
        /* The way back gives the first text again. */
        char *back = NULL;
        size_t length = 0;
        ck_assert_int_eq(runnel_stock_text(&again, amounts, &back, &length), RUNNEL_OK);
        ck_assert_str_eq(back, text);
        runnel_free(back);
        runnel_free(fresh);
        runnel_stock_file_clear(&again);
        runnel_stock_file_clear(&file);
    }
}
END_TEST

/* --- files --- */

static char *path_of(const char *name) {
    static char paths[4][128];
    static size_t next;
    char *path = paths[next++ % 4];
    snprintf(path, sizeof paths[0], "%s/%s", folder, name);
    return path;
}

static void save(const char *path, const char *text) {
    FILE *to = fopen(path, "wb");
    ck_assert(to != NULL);
    fputs(text, to);
    ck_assert_int_eq(fclose(to), 0);
}

static void same_file(const char *path, const char *want) {
    char *text = NULL;
    size_t length = 0;
    ck_assert_int_eq(runnel_file_read(path, NULL, &text, &length), RUNNEL_OK);
    ck_assert_str_eq(text, want);
    runnel_free(text);
}

static const char small[] = "what,amount [g],mine\noil,9.50,x\n";
static const char small_after[] = "what,amount [g],mine\noil,4.25,x\n";
static const double small_left[] = {4.25};

START_TEST(a_file_is_replaced) {
    char *path = path_of("stock.csv");
    struct stat entry;
    save(path, small);
    ck_assert_int_eq(chmod(path, 0640), 0);
    ck_assert_int_eq(runnel_stock_read(path, &problems, &file), RUNNEL_OK);
    ck_assert_int_eq(runnel_stock_write(&file, small_left, &problems), RUNNEL_OK);
    ck_assert_uint_eq(problems.count, 0);
    same_file(path, small_after);
    ck_assert_int_eq(stat(path, &entry), 0);
    ck_assert_uint_eq(entry.st_mode & 07777, 0640);
    /* It was read before that; a second writing would lose what happened since. */
    static const double other[] = {1};
    ck_assert_int_eq(runnel_stock_write(&file, other, &problems), RUNNEL_E_CONFLICT);
    ck_assert_uint_eq(problems.count, 1);
    ck_assert_str_eq(problems.items[0].text, "has changed since it was read; nothing is written");
    ck_assert_str_eq(problems.items[0].file, path);
    same_file(path, small_after);
    unlink(path);
}
END_TEST

START_TEST(nothing_to_write) {
    /* The same amounts: the file is not even looked at. */
    char *path = path_of("stock.csv");
    static const double same[] = {9.5};
    save(path, small);
    ck_assert_int_eq(runnel_stock_read(path, &problems, &file), RUNNEL_OK);
    unlink(path);
    ck_assert_int_eq(runnel_stock_write(&file, same, &problems), RUNNEL_OK);
    ck_assert_int_ne(access(path, F_OK), 0);
    /* But other amounts have nowhere to go. */
    ck_assert_int_eq(runnel_stock_write(&file, small_left, &problems), RUNNEL_E_NOT_FOUND);
    ck_assert_uint_eq(problems.count, 1);
    ck_assert(strstr(problems.items[0].text, "cannot be found any more: ") != NULL);
}
END_TEST

START_TEST(links_are_followed) {
    char *path = path_of("stock.csv"), *near = path_of("near.csv"), *far = path_of("far.csv");
    struct stat entry;
    save(path, small);
    ck_assert_int_eq(symlink("stock.csv", near), 0);
    ck_assert_int_eq(symlink(near, far), 0);
    ck_assert_int_eq(runnel_stock_read(far, &problems, &file), RUNNEL_OK);
    ck_assert_int_eq(runnel_stock_write(&file, small_left, &problems), RUNNEL_OK);
    ck_assert_int_eq(lstat(far, &entry), 0);
    ck_assert(S_ISLNK(entry.st_mode));
    ck_assert_int_eq(lstat(near, &entry), 0);
    ck_assert(S_ISLNK(entry.st_mode));
    ck_assert_int_eq(lstat(path, &entry), 0);
    ck_assert(S_ISREG(entry.st_mode));
    same_file(path, small_after);
    /* A circle. */
    unlink(near);
    ck_assert_int_eq(symlink("far.csv", near), 0);
    file.stock.items[0].amount_g = 1; /* so that there is something to write */
    ck_assert_int_eq(runnel_stock_write(&file, small_left, &problems), RUNNEL_E_IO);
    ck_assert(strstr(problems.items[0].text, "the links cannot be followed: ") != NULL);
    unlink(path);
    unlink(near);
    unlink(far);
}
END_TEST

START_TEST(what_cannot_be_written) {
    ck_assert_int_eq(runnel_stock_parse(small, strlen(small), "-", &problems, &file), RUNNEL_OK);
    ck_assert_int_eq(runnel_stock_write(&file, small_left, &problems), RUNNEL_E_CONFLICT);
    ck_assert_str_eq(problems.items[0].text, "the stock came from the standard input, which cannot "
                                             "be written; name its file");
    runnel_problems_clear(&problems);
    runnel_stock_file_clear(&file);
    /* Another file in its place. */
    char *path = path_of("stock.csv");
    save(path, small);
    ck_assert_int_eq(runnel_stock_read(path, &problems, &file), RUNNEL_OK);
    save(path, "something else\n");
    ck_assert_int_eq(runnel_stock_write(&file, small_left, &problems), RUNNEL_E_CONFLICT);
    same_file(path, "something else\n");
    runnel_problems_clear(&problems);
    /* A folder where nothing can be made; root can everywhere. */
    save(path, small);
    ck_assert_int_eq(chmod(folder, 0500), 0);
    if (access(folder, W_OK) != 0) {
        ck_assert_int_eq(runnel_stock_write(&file, small_left, &problems), RUNNEL_E_IO);
        ck_assert(strstr(problems.items[0].text, "no file can be made beside it: ") != NULL);
    }
    ck_assert_int_eq(chmod(folder, 0700), 0);
    unlink(path);
    runnel_problems_clear(&problems);
    ck_assert_int_eq(runnel_stock_read(path, &problems, &file), RUNNEL_E_NOT_FOUND);
    ck_assert_uint_eq(problems.count, 1);
}
END_TEST

START_TEST(memory_that_runs_out) {
    char *path = path_of("stock.csv");
    bool done = false;
    for (size_t fail_at = 0; !done; fail_at++) {
        failing count = {.fail_at = fail_at, .for_good = fail_at % 2};
        runnel_stock_file own = {0};
        save(path, bench);
        start_failing(&count);
        static const double left[] = {1, 2, 3, 4};
        runnel_status status = runnel_stock_read(path, NULL, &own);
        ck_assert(status == RUNNEL_OK || (!own.text && !own.cells && !own.path));
        if (status == RUNNEL_OK)
            status = runnel_stock_write(&own, left, NULL);
        done = status == RUNNEL_OK;
        ck_assert(done || status == RUNNEL_E_NO_MEMORY);
        runnel_stock_file_clear(&own);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
        if (!done)
            same_file(path, bench);
        ck_assert_uint_lt(fail_at, 300);
    }
    unlink(path);
    /* Want of memory while problems are told is told as such. */
    for (size_t fail_at = 0; fail_at < 60; fail_at++) {
        failing count = {.fail_at = fail_at};
        runnel_problems own;
        runnel_stock_file none = {0};
        runnel_problems_init(&own);
        start_failing(&count);
        runnel_status status = runnel_stock_parse("what,amount [g]\n,x\n", 19, "s", &own, &none);
        ck_assert(status == RUNNEL_E_NO_MEMORY || status == RUNNEL_E_SYNTAX ||
                  status == RUNNEL_E_MISSING);
        ck_assert(status == RUNNEL_E_NO_MEMORY || own.count + own.dropped == 2);
        runnel_problems_clear(&own);
        runnel_set_allocator(NULL);
        ck_assert_uint_eq(count.alive, 0);
    }
}
END_TEST

START_TEST(clearing_twice) {
    parse_bench();
    runnel_stock_file_clear(&file);
    runnel_stock_file_clear(&file);
    runnel_stock_file_clear(NULL);
    ck_assert(!file.path && !file.text && !file.cells && !file.stock.items);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("stock_csv");
    TCase *csv = tcase_create("csv");
    tcase_set_timeout(csv, 60); /* under valgrind too */
    tcase_add_checked_fixture(csv, setup, teardown);
    tcase_add_test(csv, a_stock_is_read);
    tcase_add_test(csv, other_units_and_names);
    tcase_add_test(csv, each_problem_has_its_place);
    tcase_add_test(csv, numbers_that_are_none);
    tcase_add_test(csv, all_problems_at_once);
    tcase_add_test(csv, own_columns_are_left_alone);
    tcase_add_test(csv, only_numbers_change);
    tcase_add_test(csv, as_fine_as_the_unit_asks);
    tcase_add_test(csv, amounts_that_cannot_be);
    tcase_add_test(csv, thousands_of_tables);
    tcase_add_test(csv, a_file_is_replaced);
    tcase_add_test(csv, nothing_to_write);
    tcase_add_test(csv, links_are_followed);
    tcase_add_test(csv, what_cannot_be_written);
    tcase_add_test(csv, memory_that_runs_out);
    tcase_add_test(csv, clearing_twice);
    suite_add_tcase(suite, csv);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
