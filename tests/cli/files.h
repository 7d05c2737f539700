/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Files of the cases of the command: paths, what a file holds, lists of what a folder holds.
 * Where the system fails, or a path grows too long, the program says so and ends.
 */
#ifndef RUNNEL_TESTS_CLI_FILES_H
#define RUNNEL_TESTS_CLI_FILES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <sys/types.h>

enum { PATH_SIZE = 4096 };

/** Ends the program with what the system says of `what`. */
__attribute__((noreturn)) void give_up(const char *what);

/** Bytes that the caller frees; there always are. */
void *take_memory(size_t size);

/** Writes a path from a format as printf does. */
void make_path(char path[PATH_SIZE], const char *format, ...) __attribute__((format(printf, 2, 3)));

/** What a file holds, with a zero behind it; the caller frees it. @return NULL when there is none
 */
char *read_whole(const char *path, size_t *size);

/** One thing in a folder, or one name of a list. */
typedef struct entry {
    char *name; /**< relative to the folder */
    bool is_folder;
    mode_t mode;
    size_t size;  /**< of a file of a snapshot */
    uint64_t sum; /**< of its bytes */
} entry;

/** Owns its names. All zeros is an empty one. */
typedef struct entries {
    entry *items;
    size_t count, room;
} entries;

void entries_clear(entries *list);
/** Adds a copy of a name, unless it is there. */
void entries_add(entries *list, const char *name);
void entries_sort(entries *list);
/** Adds to `only` the names of `one` that `other` lacks or, with `by_content`, has otherwise. */
void entries_only_in(const entries *one, const entries *other, bool by_content, entries *only);

/** Adds all that is below a folder, folders before what they hold. A missing one holds nothing. */
void list_folder(const char *folder, entries *list);
/** Adds the files below a folder with their sizes and sums. */
void take_snapshot(const char *folder, entries *list);
/** Sum of bytes: FNV-1a of 64 bits. */
uint64_t sum_of(const char *bytes, size_t size);

void write_file(const char *path, const char *bytes, size_t size, mode_t mode);
void make_folder(const char *path);
void copy_file(const char *from, const char *to, mode_t mode);
/** Copies what a folder holds into another one. A missing one holds nothing. */
void copy_folder(const char *from, const char *to);
void remove_folder(const char *folder);

#endif
