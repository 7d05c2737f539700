/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "failing.h"
#include "runnel/read.h"

#include <check.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char path[32];
static runnel_problems problems;
static char *text;
static size_t length;

static void setup(void) {
    snprintf(path, sizeof path, "/tmp/runnel-file-XXXXXX");
    int file = mkstemp(path);
    ck_assert_int_ge(file, 0);
    close(file);
    runnel_problems_init(&problems);
    text = NULL;
    length = SIZE_MAX;
}

static void teardown(void) {
    unlink(path);
    runnel_free(text);
    runnel_problems_clear(&problems);
}

static void put(const char *bytes, size_t count) {
    FILE *file = fopen(path, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(bytes, 1, count, file), count);
    ck_assert_int_eq(fclose(file), 0);
}

static void ck_refused(const char *name, runnel_status status, const char *what) {
    ck_assert_int_eq(runnel_file_read(name, &problems, &text, &length), status);
    ck_assert_uint_eq(problems.count, 1);
    ck_assert_str_eq(problems.items[0].file, name);
    ck_assert_str_eq(problems.items[0].text, what);
    ck_assert_uint_eq(problems.items[0].line, 0);
    ck_assert_ptr_null(text);
    ck_assert_uint_eq(length, SIZE_MAX);
    ck_assert_int_eq(runnel_file_read(name, NULL, &text, &length), status);
}

START_TEST(whole_file) {
    put("a\0b\r\n", 5);
    ck_assert_int_eq(runnel_file_read(path, &problems, &text, &length), RUNNEL_OK);
    ck_assert_uint_eq(length, 5);
    ck_assert_mem_eq(text, "a\0b\r\n", 6);
}
END_TEST

START_TEST(empty_file) {
    ck_assert_int_eq(runnel_file_read(path, &problems, &text, &length), RUNNEL_OK);
    ck_assert_uint_eq(length, 0);
    ck_assert_str_eq(text, "");
}
END_TEST

/* Around the sizes at which more room is asked for. */
START_TEST(file_of_some_size) {
    static const size_t sizes[] = {65534, 65535, 65536, 65537, 131071, 131072, 1000000};
    size_t size = sizes[_i];
    char *bytes = malloc(size);
    ck_assert_ptr_nonnull(bytes);
    for (size_t i = 0; i < size; i++)
        bytes[i] = (char)('a' + i % 23);
    put(bytes, size);
    ck_assert_int_eq(runnel_file_read(path, &problems, &text, &length), RUNNEL_OK);
    ck_assert_uint_eq(length, size);
    ck_assert_int_eq(memcmp(text, bytes, size), 0);
    ck_assert_int_eq(text[size], 0);
    free(bytes);
}
END_TEST

START_TEST(standard_input) {
    put("from there", 10);
    ck_assert_ptr_nonnull(freopen(path, "rb", stdin));
    ck_assert_int_eq(runnel_file_read("-", &problems, &text, &length), RUNNEL_OK);
    ck_assert_str_eq(text, "from there");
}
END_TEST

START_TEST(closed_standard_input) {
    ck_assert_int_eq(close(STDIN_FILENO), 0);
    ck_assert_int_eq(runnel_file_read("-", &problems, &text, &length), RUNNEL_E_IO);
    ck_assert_str_eq(problems.items[0].file, "standard input");
    ck_assert_str_eq(problems.items[0].text, "cannot be read: Bad file descriptor");
}
END_TEST

START_TEST(no_file) {
    ck_refused("/tmp/runnel/no/such/file", RUNNEL_E_NOT_FOUND,
               "cannot be opened: No such file or directory");
}
END_TEST

START_TEST(no_permission) {
    if (geteuid() == 0)
        return; /* nothing is forbidden to root */
    ck_assert_int_eq(chmod(path, 0), 0);
    ck_refused(path, RUNNEL_E_NOT_FOUND, "cannot be opened: Permission denied");
}
END_TEST

START_TEST(directory) {
    ck_refused("/tmp", RUNNEL_E_NOT_FOUND, "a directory, where a file is needed");
}
END_TEST

/* On Linux the first page of a process is never there to be read. */
START_TEST(read_error) {
    if (access("/proc/self/mem", R_OK) != 0)
        return;
    ck_refused("/proc/self/mem", RUNNEL_E_IO, "cannot be read: Input/output error");
}
END_TEST

START_TEST(too_large) {
    ck_assert_int_eq(truncate(path, 64 * 1024 * 1024 + 1), 0);
    ck_refused(path, RUNNEL_E_RANGE, "larger than 64 MB, which no file of this kind is");
}
END_TEST

START_TEST(as_large_as_may_be) {
    ck_assert_int_eq(truncate(path, 64 * 1024 * 1024), 0);
    ck_assert_int_eq(runnel_file_read(path, &problems, &text, &length), RUNNEL_OK);
    ck_assert_uint_eq(length, 64 * 1024 * 1024);
}
END_TEST

START_TEST(memory_runs_out) {
    ck_assert_int_eq(truncate(path, 200000), 0);
    for (size_t fail_at = 0; fail_at < 3; fail_at++) { /* 64, 128 and 256 kB */
        failing count = {.fail_at = fail_at};
        start_failing(&count);
        ck_assert_int_eq(runnel_file_read(path, &problems, &text, &length), RUNNEL_E_NO_MEMORY);
        ck_assert_uint_eq(count.alive, 0);
        runnel_set_allocator(NULL);
        ck_assert_ptr_null(text);
    }
    ck_assert_uint_eq(problems.count, 0);
}
END_TEST

static Suite *suite(void) {
    Suite *suite = suite_create("file");
    TCase *files = tcase_create("files");
    tcase_add_checked_fixture(files, setup, teardown);
    tcase_set_timeout(files, 60);
    tcase_add_test(files, whole_file);
    tcase_add_test(files, empty_file);
    tcase_add_loop_test(files, file_of_some_size, 0, 7);
    tcase_add_test(files, standard_input);
    tcase_add_test(files, closed_standard_input);
    tcase_add_test(files, no_file);
    tcase_add_test(files, no_permission);
    tcase_add_test(files, directory);
    tcase_add_test(files, read_error);
    tcase_add_test(files, too_large);
    tcase_add_test(files, as_large_as_may_be);
    tcase_add_test(files, memory_runs_out);
    suite_add_tcase(suite, files);
    return suite;
}

int main(void) {
    SRunner *runner = srunner_create(suite());
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
