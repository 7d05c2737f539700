/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "yaml_reading.h"

#include <check.h>
#include <stdlib.h>

#define PIECES  "pieces: [{cavities: [{measured: 5 ml}]}]\n"
#define NO_JOB  "the file holds no job; a job has at least 'pieces:' with one piece and its cavities"
#define NO_KEYS "a job starts with keys such as 'pieces:' at the left margin"
#define INDENT  "check the indentation of this line and of the lines before it"

/* What keeps a file from being read as YAML, told in our words and nothing else beside it. */
static const struct {
    const char *text;
    runnel_status status;
    size_t line, column;
    const char *problem;
} faults[] = {
    /* nothing there, or no keys */
    {"", RUNNEL_E_MISSING, 1, 1, NO_JOB},
    {"\n \n", RUNNEL_E_MISSING, 1, 1, NO_JOB},
    {"# later\n", RUNNEL_E_MISSING, 1, 1, NO_JOB},
    {"---\n...\n", RUNNEL_E_MISSING, 1, 1, NO_JOB},
    {"~", RUNNEL_E_MISSING, 1, 1, NO_JOB},
    {"\xEF\xBB\xBF", RUNNEL_E_MISSING, 1, 1, NO_JOB},
    {"bread boards\n", RUNNEL_E_SYNTAX, 1, 1, NO_KEYS},
    {"\n\n  - a\n", RUNNEL_E_SYNTAX, 3, 3, NO_KEYS},
    {"[]", RUNNEL_E_SYNTAX, 1, 1, NO_KEYS},
    /* bytes */
    {"job: x\ncrown: \x07", RUNNEL_E_SYNTAX, 2, 8,
     "the control character U+0007 cannot stand in a job file"},
    {"job: \x7F", RUNNEL_E_SYNTAX, 1, 6, "the control character U+007F cannot stand in a job file"},
    {"job: \xC2\x9B", RUNNEL_E_SYNTAX, 1, 6,
     "the control character U+009B cannot stand in a job file"},
    {"job: Gr\xFC\xDF"
     "e\n",
     RUNNEL_E_SYNTAX, 1, 8, "the byte 0xFC is not UTF-8; save the file as UTF-8 text"},
    {"job: Zo\xC3\xAB \xC3\n", RUNNEL_E_SYNTAX, 1, 10,
     "the byte 0xC3 is not UTF-8; save the file as UTF-8 text"},
    {"job: x\xC3", RUNNEL_E_SYNTAX, 1, 7,
     "the byte 0xC3 is not UTF-8; save the file as UTF-8 text"},
    {"job: \xED\xA0\x80", RUNNEL_E_SYNTAX, 1, 6, /* a surrogate */
     "the byte 0xED is not UTF-8; save the file as UTF-8 text"},
    {"job: \xC0\xAF", RUNNEL_E_SYNTAX, 1, 6, /* overlong */
     "the byte 0xC0 is not UTF-8; save the file as UTF-8 text"},
    {"\xFF\xFEj", RUNNEL_E_SYNTAX, 1, 1, "the file is UTF-16; save it as UTF-8 text"},
    {"\xFE\xFFj", RUNNEL_E_SYNTAX, 1, 1, "the file is UTF-16; save it as UTF-8 text"},
    {"job: \"\\0\"\n", RUNNEL_E_SYNTAX, 1, 6, "a zero character ('\\0') cannot stand in a text"},
    /* keys and indentation */
    {"job: a\nfoo bar\n", RUNNEL_E_SYNTAX, 2, 1,
     "'foo bar': a key must be followed by ':' and a blank"},
    {"job: a: b\n", RUNNEL_E_SYNTAX, 1, 7,
     "'job: a: b': a key cannot stand here; " INDENT ", and put a text that holds ': ' in quotes"},
    {"job: a\n  crown: 1 mm\n", RUNNEL_E_SYNTAX, 2, 8,
     "'crown: 1 mm': a key cannot stand here; " INDENT
     ", and put a text that holds ': ' in quotes"},
    {"pieces:\n  - name: a\n - name: b\n", RUNNEL_E_SYNTAX, 3, 2,
     "'- name: b': a key is expected here; " INDENT},
    {"pieces:\n- name: a\nb: c\n- d\n", RUNNEL_E_SYNTAX, 4, 1,
     "'- d': a key is expected here; " INDENT},
    {"- a\nb: c\n", RUNNEL_E_SYNTAX, 2, 1, "'b: c': a list item ('- ') is expected here; " INDENT},
    {"pieces: - name: a\n", RUNNEL_E_SYNTAX, 1, 9,
     "'pieces: - name: a': a list item ('- ') cannot stand here; start it on a line of its own"},
    {"pieces:\n\t- name: a\n", RUNNEL_E_SYNTAX, 2, 1,
     "'- name: a': a tab cannot stand here; use blanks"},
    {"job: x\n\tcrown: 1 mm\n", RUNNEL_E_SYNTAX, 2, 1,
     "'crown: 1 mm': a tab cannot indent a line; use blanks"},
    /* quotes, brackets and characters with a meaning */
    {"job: \"10\" board\"\n", RUNNEL_E_SYNTAX, 1, 11,
     "'job: \"10\" board\"': nothing can follow a value on its line; put all of it into one pair "
     "of "
     "quotes"},
    {"crown: 1 mm\njob: \"x\npieces: []\n", RUNNEL_E_SYNTAX, 2, 6,
     "'\"x': the quote that starts here is not closed"},
    {"job: 'x\n---\ny'\n", RUNNEL_E_SYNTAX, 1, 6, "''x': the quote that starts here is not closed"},
    {"job: \"C:\\dir\"\n", RUNNEL_E_SYNTAX, 1, 9,
     "'\\dir\"': an unknown sequence after '\\'; a text with '\\' goes into single quotes"},
    {"job: \"\\x1\"\n", RUNNEL_E_SYNTAX, 1, 9,
     "'1\"': a wrong number after '\\'; a text with '\\' goes into single quotes"},
    {"job: \"\\ud800\"\n", RUNNEL_E_SYNTAX, 1, 9,
     "'d800\"': a wrong number after '\\'; a text with '\\' goes into single quotes"},
    {"pieces: [\n  {name: a},\n", RUNNEL_E_SYNTAX, 3, 1, "a value is missing here"},
    {"pieces: [{name: a]\n", RUNNEL_E_SYNTAX, 1, 10,
     "'{name: a]': ',' or '}' is missing in the mapping that starts here"},
    {"pieces: [a\n", RUNNEL_E_SYNTAX, 1, 9,
     "'[a': ',' or ']' is missing in the list that starts here"},
    {"job: ]\n", RUNNEL_E_SYNTAX, 1, 6, "']': a value is missing here"},
    {"job: @home\n", RUNNEL_E_SYNTAX, 1, 6,
     "'@home': this character cannot start a value; put a text that holds it in quotes"},
    {"job: `x`\n", RUNNEL_E_SYNTAX, 1, 6,
     "'`x`': this character cannot start a value; put a text that holds it in quotes"},
    {"job: % x\n", RUNNEL_E_SYNTAX, 1, 6,
     "'% x': this character cannot start a value; put a text that holds it in quotes"},
    {"job: & co\n", RUNNEL_E_SYNTAX, 1, 6,
     "'& co': '&' and '*' start the name of a reference; put a text that holds it in quotes"},
    {"job: |text\n", RUNNEL_E_SYNTAX, 1, 7,
     "'text': after '|' or '>' the text starts on the next line"},
    {"job: |0\n", RUNNEL_E_SYNTAX, 1, 7, "'0': after '|' or '>' the text starts on the next line"},
    {"%FOO\n---\njob: x\n", RUNNEL_E_SYNTAX, 1, 1,
     "'%FOO': a line that starts with '%' is not used in a job file"},
    {"%YAML 3.0\n---\njob: x\n", RUNNEL_E_SYNTAX, 1, 1,
     "'%YAML 3.0': a line that starts with '%' is not used in a job file"},
    /* tags, references, documents */
    {"job: !big x\n", RUNNEL_E_SYNTAX, 1, 6,
     "the tag '!big' is not used in a job; put a text that starts with '!' in quotes"},
    {"pieces: !!seq [a]\n", RUNNEL_E_SYNTAX, 1, 9,
     "the tag 'tag:yaml.org,2002:seq' is not used in a job; put a text that starts with '!' in "
     "quotes"},
    {"job: !<x y\n", RUNNEL_E_SYNTAX, 1, 6,
     "'!<x y': '!' cannot start a value; put a text that holds it in quotes"},
    {"job: *star\n", RUNNEL_E_UNKNOWN, 1, 6,
     "'*star' refers to no value before it; put a text that starts with '*' in quotes"},
    {"pieces: &all [*all]\n", RUNNEL_E_SYNTAX, 1, 15,
     "'*all' stands inside the value that it refers to"},
    {PIECES "---\n" PIECES, RUNNEL_E_SYNTAX, 2, 1,
     "a second document starts here ('---'); a file holds one job"},
    {PIECES "...\n---\n", RUNNEL_E_SYNTAX, 3, 1,
     "a second document starts here ('---'); a file holds one job"},
};

START_TEST(fault) {
    ck_assert_int_eq(read_text(faults[_i].text), faults[_i].status);
    ck_problem_count(1);
    ck_problem(0, faults[_i].status, faults[_i].line, faults[_i].column, NULL, faults[_i].problem);
    ck_assert_uint_eq(job.piece_count, 0);
}
END_TEST

START_TEST(zero_byte) {
    ck_assert_int_eq(read_bytes("job: a\nb\0c\n", 11), RUNNEL_E_SYNTAX);
    ck_problem_count(1);
    ck_problem(0, RUNNEL_E_SYNTAX, 2, 2, NULL, "a zero byte: this is not a text file");
}
END_TEST

/* Every beginning of a job is read or refused at a place, and nothing behind it is looked at. */
START_TEST(every_beginning) {
    static const char whole[] = "# Gr\xC3\xB6\xC3\x9F"
                                "e\njob: 'a''b'\nresin: &r {ratio: 2:1 by "
                                "volume}\npieces:\r\n- name: \"\\xE9\"\n  cavities:\n  - text: |\n"
                                "      A\n    font: B\n    cap height: 9 mm\n    cutter: v-60\n";
    for (size_t length = 0; length < sizeof whole; length++) {
        runnel_status status = read_bytes(whole, length);
        ck_assert_int_eq(status != RUNNEL_OK, problems.count > 0);
        ck_assert(!problems.count || problems.items[0].line > 0);
        runnel_problems_clear(&problems);
    }
    ck_assert_int_eq(read_bytes(whole, sizeof whole - 1), RUNNEL_OK);
}
END_TEST

/* ---- Limits ---------------------------------------------------------------------------------- */

static char *append(char *to, const char *part) {
    while (*part)
        *to++ = *part++;
    return to;
}

/* A text of parts: `count` times `middle` between two others. */
static char *repeat(const char *before, const char *middle, size_t count, const char *after) {
    char *text = malloc(strlen(before) + strlen(middle) * count + strlen(after) + 1);
    ck_assert_ptr_nonnull(text);
    char *to = append(text, before);
    for (size_t i = 0; i < count; i++)
        to = append(to, middle);
    *append(to, after) = '\0';
    return text;
}

static void ck_limit(char *text, size_t line, size_t column, const char *field,
                     const char *problem) {
    ck_assert_int_eq(read_text(text), RUNNEL_E_RANGE);
    free(text);
    ck_assert_uint_ge(problems.count, 1);
    ck_problem(problems.count - 1, RUNNEL_E_RANGE, line, column, field, problem);
}

START_TEST(too_deep) {
    ck_limit(repeat("a: ", "[", 100, ""), 1, 35, NULL,
             "more than 32 values stand inside one another");
}
END_TEST

START_TEST(too_many_values) {
    ck_limit(repeat("pieces: [", "1,", 1000001, "]"), 1, 10 + 2 * 999997, NULL,
             "the file holds more than 1000000 values");
}
END_TEST

START_TEST(too_many_anchors) {
    char *text = malloc(40000), *at = text;
    ck_assert_ptr_nonnull(text);
    for (int i = 0; i < 1001; i++)
        at += snprintf(at, 40, "k%d: &a%d 1\n", i, i);
    ck_limit(text, 1001, 8, NULL, "the file holds more than 1000 anchors ('&name')");
}
END_TEST

/* One piece of 1000 cavities, a list of 1000 such lists in 10 kB. */
START_TEST(bomb_of_references) {
    char *pieces = repeat(",{cavities: *c", "},{cavities: *c", 999, "}]\n");
    char *cavities = repeat("pieces: [{cavities: &c [&d {measured: 5 ml}", ",*d", 999, "]}");
    char *text = repeat(cavities, pieces, 1, "");
    free(pieces);
    free(cavities);
    ck_assert_int_eq(read_text(text), RUNNEL_E_RANGE);
    free(text);
    ck_problem_count(1);
    ck_assert_str_eq(problems.items[0].text,
                     "with all references ('*name') followed, the file holds more than 1000000 "
                     "values");
    ck_assert_uint_eq(problems.items[0].line, 1);
}
END_TEST

START_TEST(too_many_problems) {
    char *text = repeat("", "x: 1\n", 3000, PIECES);
    ck_assert_int_eq(read_text(text), RUNNEL_E_UNKNOWN);
    free(text);
    ck_problem_count(1001);
    ck_problem(1000, RUNNEL_E_RANGE, 1001, 1, NULL,
               "1000 problems were found; the rest of the file was not looked at");
}
END_TEST

START_TEST(too_many_colours) {
    char *text = malloc(40000), *at = text;
    ck_assert_ptr_nonnull(text);
    at += snprintf(at, 100, PIECES "colours:\n");
    for (int i = 0; i < 1001; i++)
        at += snprintf(at, 40, "  k%d: 2 %%\n", i);
    ck_limit(text, 3, 3, "colours", "a job may have 1000 colours, not 1001");
}
END_TEST

/* Lines of 10 MB are read once from end to end and told without being repeated. */
static const struct {
    const char *before, *middle, *after;
    size_t line, column;
    const char *field, *problem;
} long_lines[] = {
    {PIECES "job: ", "0123456789", "\n", 2, 6, "job",
     "'012345678901234567890123456789012345678901234567890123456789...' is too long: 'job' may "
     "have 200 bytes, not 10000000"},
    {PIECES "crown: ", "1111111111", " mm\n", 2, 8, "crown",
     "'111111111111111111111111111111111111111111111111111111111111...' is too long: 'crown' may "
     "have 200 bytes, not 10000003"},
    {"pieces:\n- cavities:\n  - outline: polygon ", "0,0 10,10 ", "mm\n    cutter: v-60\n", 3, 14,
     "pieces[0].cavities[0].outline",
     "'polygon 0,0 10,10 0,0 10,10 0,0 10,10 0,0 10,10 0,0 10,10 0,...' is too long: 'outline' may "
     "have 1000000 bytes, not 10000010"},
};

START_TEST(long_line) {
    char *text =
        repeat(long_lines[_i].before, long_lines[_i].middle, 1000000, long_lines[_i].after);
    ck_limit(text, long_lines[_i].line, long_lines[_i].column, long_lines[_i].field,
             long_lines[_i].problem);
    ck_problem_count(1);
}
END_TEST

START_TEST(long_key) {
    char *text = repeat("", "0123456789", 1000000, ": 1\n");
    ck_assert_int_eq(read_text(text), RUNNEL_E_SYNTAX);
    free(text);
    ck_problem_count(1);
    ck_assert_uint_eq(problems.items[0].line, 1);
    ck_assert_uint_lt(strlen(problems.items[0].text), 300);
}
END_TEST

/* ---- Running --------------------------------------------------------------------------------- */

#define COUNT(table) (int)(sizeof(table) / sizeof *(table))

static Suite *suite(void) {
    Suite *suite = suite_create("yaml syntax");
    TCase *syntax = tcase_create("syntax");
    tcase_add_checked_fixture(syntax, setup, teardown);
    tcase_add_loop_test(syntax, fault, 0, COUNT(faults));
    tcase_add_test(syntax, zero_byte);
    tcase_add_test(syntax, every_beginning);
    suite_add_tcase(suite, syntax);
    TCase *limits = tcase_create("limits");
    tcase_add_checked_fixture(limits, setup, teardown);
    tcase_set_timeout(limits, 300); /* under memcheck */
    tcase_add_test(limits, too_deep);
    tcase_add_test(limits, too_many_values);
    tcase_add_test(limits, too_many_anchors);
    tcase_add_test(limits, bomb_of_references);
    tcase_add_test(limits, too_many_problems);
    tcase_add_test(limits, too_many_colours);
    tcase_add_loop_test(limits, long_line, 0, COUNT(long_lines));
    tcase_add_test(limits, long_key);
    suite_add_tcase(suite, limits);
    return suite;
}

int main(void) {
    SRunner *runner = srunner_create(suite());
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
