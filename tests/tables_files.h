/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Folders of table files for tests.
 */
#ifndef RUNNEL_TESTS_TABLES_FILES_H
#define RUNNEL_TESTS_TABLES_FILES_H

#include "runnel/tables.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define CUTTER_HEADER "name,kind,angle [deg],tip [mm],diameter [mm],source,date,sure\n"
#define CUTTER_ROW    "v-x,v,60,0.1,,mine,2024-05-31,published\n"
#define OIL_HEADER                                                                                 \
    "name,dries,nut,density [g/ml],uptake [ml/m2],uptake low [ml/m2],uptake high [ml/m2],uptake "  \
    "sure,end grain factor,coats,soak [min],between [h],full cure [days],food,source,date,sure\n"
#define UPKEEP_HEADER                                                                              \
    "name,finish,use,wait [days],first [days],first times,second [days],second times,steady "      \
    "[days],look [days],sand [days],share [%],coat [ml/m2],coats,wiped,scrubbed,open "             \
    "pores,beads,soaks in,source,date,sure\n"
#define UPKEEP_ROW  "u,oil that dries,weekly,,,,,,70,,,50,,,1,1,1,1.5,0.5,mine,2024,computed\n"
#define WORK_HEADER "name,once for,setup [min],each [min],may be left,source,date,sure\n"
#define WORK_ROW    "Knock Down,a coat,12,3.5,no,mine,2024,computed\n"
#define OIL_ROW     "o,yes,no,0.9,60,40,80,common practice,3,3,20,24,30,,mine,2024,computed\n"

/** A new folder; `path` has room for 64 bytes. */
static inline void make_folder(char *path) {
    snprintf(path, 64, "/tmp/runnel-tables-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(path));
}

/** Removes a folder with its tables. */
static inline void remove_folder(const char *path) {
    static const char *const names[] = {"resins.csv", "cutters.csv", "woods.csv",
                                        "oils.csv",   "upkeep.csv",  "work.csv"};
    char file[512];
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        snprintf(file, sizeof file, "%s/%s", path, names[i]);
        remove(file);
    }
    ck_assert_int_eq(rmdir(path), 0);
}

/** Writes a file into a folder. */
static inline void put_bytes(const char *folder, const char *name, const char *text,
                             size_t length) {
    char path[512];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(text, 1, length, file), length);
    ck_assert_int_eq(fclose(file), 0);
}

static inline void put_text(const char *folder, const char *name, const char *text) {
    put_bytes(folder, name, text, strlen(text));
}

/** Prints all problems, for the log of a failed test. */
static inline void print_problems(const runnel_problems *problems) {
    for (size_t i = 0; i < problems->count; i++) {
        const runnel_problem *item = &problems->items[i];
        printf("%s:%zu:%zu: [%s] %s: %s\n", item->file ? item->file : "-", item->line, item->column,
               item->field ? item->field : "-", runnel_status_name(item->status), item->text);
    }
}

#endif
