/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "files.h"

#include <dirent.h>
#include <errno.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

void give_up(const char *what) {
    perror(what);
    exit(2);
}

void *take_memory(size_t size) {
    void *memory = malloc(size);
    if (!memory)
        give_up("memory");
    return memory;
}

void make_path(char path[PATH_SIZE], const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(path, PATH_SIZE, format, arguments);
    va_end(arguments);
    if (length < 0 || length >= PATH_SIZE) {
        errno = ENAMETOOLONG;
        give_up(format);
    }
}

char *read_whole(const char *path, size_t *size) {
    FILE *file = fopen(path, "rb");
    if (!file && errno != ENOENT)
        give_up(path);
    if (!file)
        return NULL;
    size_t room = 4096, length = 0, more = 0;
    char *bytes = take_memory(room);
    while ((more = fread(bytes + length, 1, room - length - 1, file)) > 0) {
        length += more;
        if (length < room - 1)
            continue;
        char *larger = take_memory(room *= 2);
        memcpy(larger, bytes, length);
        free(bytes);
        bytes = larger;
    }
    if (ferror(file))
        give_up(path);
    fclose(file);
    bytes[length] = '\0';
    *size = length;
    return bytes;
}

void entries_clear(entries *list) {
    for (size_t i = 0; i < list->count; i++)
        free(list->items[i].name);
    free(list->items);
    *list = (entries){0};
}

static entry *entries_find(const entries *list, const char *name) {
    for (size_t i = 0; i < list->count; i++)
        if (strcmp(list->items[i].name, name) == 0)
            return &list->items[i];
    return NULL;
}

static void entries_append(entries *list, entry item) {
    if (list->count == list->room) {
        size_t room = list->room ? 2 * list->room : 16;
        entry *items = take_memory(room * sizeof *items);
        if (list->count)
            memcpy(items, list->items, list->count * sizeof *items);
        free(list->items);
        *list = (entries){items, list->count, room};
    }
    size_t size = strlen(item.name) + 1;
    char *copy = take_memory(size);
    memcpy(copy, item.name, size);
    item.name = copy;
    list->items[list->count++] = item;
}

void entries_add(entries *list, const char *name) {
    if (!entries_find(list, name))
        entries_append(list, (entry){.name = (char *)name});
}

static int by_name(const void *one, const void *other) {
    return strcmp(((const entry *)one)->name, ((const entry *)other)->name);
}

void entries_sort(entries *list) {
    if (list->count > 1)
        qsort(list->items, list->count, sizeof *list->items, by_name);
}

void entries_only_in(const entries *one, const entries *other, bool by_content, entries *only) {
    for (size_t i = 0; i < one->count; i++) {
        const entry *item = &one->items[i], *same = entries_find(other, item->name);
        if (!same || (by_content && (same->size != item->size || same->sum != item->sum)))
            entries_add(only, item->name);
    }
}

/* What is below root/folder, by names relative to root. */
static void list_below(const char *root, const char *folder, entries *list) {
    char path[PATH_SIZE];
    make_path(path, "%s/%s", root, folder);
    DIR *open = opendir(path);
    if (!open && errno != ENOENT)
        give_up(path);
    for (struct dirent *found; open && (found = readdir(open));) {
        char name[PATH_SIZE];
        struct stat is;
        if (strcmp(found->d_name, ".") == 0 || strcmp(found->d_name, "..") == 0)
            continue;
        make_path(name, "%s%s%s", folder, *folder ? "/" : "", found->d_name);
        make_path(path, "%s/%s", root, name);
        if (lstat(path, &is))
            give_up(path);
        entries_append(list, (entry){name, S_ISDIR(is.st_mode), is.st_mode & 0777, 0, 0});
        if (S_ISDIR(is.st_mode))
            list_below(root, name, list);
    }
    if (open)
        closedir(open);
}

void list_folder(const char *folder, entries *list) {
    list_below(folder, "", list);
}

uint64_t sum_of(const char *bytes, size_t size) {
    uint64_t sum = 14695981039346656037U;
    for (size_t i = 0; i < size; i++)
        sum = (sum ^ (unsigned char)bytes[i]) * 1099511628211U;
    return sum;
}

void take_snapshot(const char *folder, entries *list) {
    entries all = {0};
    list_folder(folder, &all);
    for (size_t i = 0; i < all.count; i++) {
        char path[PATH_SIZE];
        entry item = all.items[i];
        if (item.is_folder)
            continue;
        make_path(path, "%s/%s", folder, item.name);
        char *bytes = read_whole(path, &item.size);
        item.sum = bytes ? sum_of(bytes, item.size) : 0; /* none behind a link that leads nowhere */
        free(bytes);
        entries_append(list, item);
    }
    entries_clear(&all);
}

void write_file(const char *path, const char *bytes, size_t size, mode_t mode) {
    FILE *file = fopen(path, "wb");
    if (!file || fwrite(bytes, 1, size, file) != size || fclose(file) || chmod(path, mode))
        give_up(path);
}

void make_folder(const char *path) {
    if (mkdir(path, 0777) && errno != EEXIST)
        give_up(path);
}

void copy_file(const char *from, const char *to, mode_t mode) {
    size_t size = 0;
    char *bytes = read_whole(from, &size);
    if (!bytes)
        give_up(from);
    write_file(to, bytes, size, mode);
    free(bytes);
}

void copy_folder(const char *from, const char *to) {
    entries all = {0};
    list_folder(from, &all);
    for (size_t i = 0; i < all.count; i++) {
        char source[PATH_SIZE], target[PATH_SIZE];
        make_path(source, "%s/%s", from, all.items[i].name);
        make_path(target, "%s/%s", to, all.items[i].name);
        if (all.items[i].is_folder)
            make_folder(target);
        else
            copy_file(source, target, all.items[i].mode);
    }
    entries_clear(&all);
}

void remove_folder(const char *folder) {
    entries all = {0};
    list_folder(folder, &all);
    for (size_t i = all.count; i-- > 0;) {
        char path[PATH_SIZE];
        make_path(path, "%s/%s", folder, all.items[i].name);
        if (all.items[i].is_folder ? rmdir(path) : unlink(path))
            give_up(path);
    }
    rmdir(folder);
    entries_clear(&all);
}
