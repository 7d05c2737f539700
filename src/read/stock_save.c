/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What is left in the bottles, written into the file that the stock came from.
 */
#include "runnel/stock_csv.h"

#include "base/memory.h"
#include "runnel/read.h"
#include "runnel/units.h"

#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* Room for any amount up to RUNNEL_STOCK_MOST, in units down to a nanogram. */
enum { NUMBER_SIZE = 64 };
/* Links that are followed before it is taken for a circle. */
enum { MOST_LINKS = 40 };
/* Most places after the point: a step of 0.01 g is 1e-8 t. */
enum { MOST_DECIMALS = 12 };

/* ---- The text ------------------------------------------------------------------------------ */

static int decimals_of(double smallest_unit) {
    /* 0.01 has a logarithm of -2, whatever its last bit. */
    double decimals = ceil(-log10(smallest_unit) - 1e-9);
    return (int)fmin(fmax(decimals, 0), MOST_DECIMALS);
}

/* The number of an amount, without zeros at its end. */
static void write_number(double amount, const runnel_stock_cell *cell, char *number) {
    int decimals = decimals_of(cell->smallest_unit);
    runnel_number_text(amount / cell->per_unit, decimals, number, NUMBER_SIZE);
    if (!decimals)
        return;
    char *end = number + strlen(number);
    while (end[-1] == '0')
        *--end = '\0';
    if (end[-1] == '.')
        *--end = '\0';
}

static double amount_of(const runnel_stock_item *item) {
    return isnan(item->amount_mm3) ? item->amount_g : item->amount_mm3;
}

/* A text that grows. */
typedef struct output {
    char *text;
    size_t length, capacity;
} output;

static runnel_status put(output *to, const char *bytes, size_t length) {
    runnel_status status = runnel_reserve(&to->text, &to->capacity, to->length + length + 1, 1);
    if (status != RUNNEL_OK)
        return status;
    if (length)
        memcpy(to->text + to->length, bytes, length);
    to->length += length;
    to->text[to->length] = '\0';
    return RUNNEL_OK;
}

runnel_status runnel_stock_text(const runnel_stock_file *file, const double *left, char **text,
                                size_t *length) {
    output to = {0};
    size_t done = 0;
    for (size_t i = 0; i < file->stock.count; i++)
        if (!(left[i] >= 0 && left[i] <= RUNNEL_STOCK_MOST))
            return RUNNEL_E_RANGE;
    runnel_status status = put(&to, "", 0);
    for (size_t i = 0; i < file->stock.count && status == RUNNEL_OK; i++) {
        const runnel_stock_cell *cell = &file->cells[i];
        char number[NUMBER_SIZE];
        if (left[i] == amount_of(&file->stock.items[i]))
            continue;
        write_number(left[i], cell, number);
        status = put(&to, file->text + done, cell->at - done);
        if (status == RUNNEL_OK)
            status = put(&to, number, strlen(number));
        done = cell->at + cell->length;
    }
    if (status == RUNNEL_OK)
        status = put(&to, file->text + done, file->length - done);
    if (status != RUNNEL_OK) {
        runnel_free(to.text);
        return status;
    }
    *text = to.text;
    *length = to.length;
    return RUNNEL_OK;
}

/* ---- The file ------------------------------------------------------------------------------ */

/* Where a file is written, and where problems of it go. */
typedef struct target {
    runnel_problems *problems;
    runnel_place place;
    char *path;      /* what the links lead to */
    char *temporary; /* file beside it; NULL when there is none */
    mode_t mode;
} target;

static runnel_status fail(const target *to, const char *what) {
    return runnel_problems_add(to->problems, RUNNEL_E_IO, &to->place, "%s: %s", what,
                               strerror(errno));
}

/* The path that a link at `path` leads to, NULL without memory or when it cannot be read. */
static char *next_path(const char *path, size_t size) {
    char *link = runnel_resize(NULL, size + 2, 1);
    ssize_t length = link ? readlink(path, link, size + 1) : -1;
    if (length < 0) {
        runnel_free(link);
        return NULL;
    }
    link[length] = '\0';
    const char *slash = strrchr(path, '/');
    if (link[0] == '/' || !slash)
        return link;
    char *whole = runnel_format_text("%.*s%s", (int)(slash - path + 1), path, link);
    runnel_free(link);
    return whole;
}

static runnel_status follow_links(target *to) {
    struct stat entry;
    for (int i = 0; i < MOST_LINKS; i++) {
        if (lstat(to->path, &entry) != 0)
            return runnel_problems_add(to->problems, RUNNEL_E_NOT_FOUND, &to->place,
                                       "cannot be found any more: %s", strerror(errno));
        if (!S_ISLNK(entry.st_mode)) {
            to->mode = entry.st_mode & 07777;
            return RUNNEL_OK;
        }
        errno = ENOMEM;
        char *next = next_path(to->path, (size_t)(entry.st_size > 0 ? entry.st_size : 4096));
        if (!next)
            return errno == ENOMEM ? RUNNEL_E_NO_MEMORY : fail(to, "the link cannot be read");
        runnel_free(to->path);
        to->path = next;
    }
    errno = ELOOP;
    return fail(to, "the links cannot be followed");
}

/* Whether the file still is what was read. */
static runnel_status check_unchanged(const runnel_stock_file *file, const target *to) {
    char *now = NULL;
    size_t length = 0;
    runnel_status status = runnel_file_read(to->path, to->problems, &now, &length);
    if (status != RUNNEL_OK)
        return status;
    bool is_same = length == file->length && memcmp(now, file->text, length) == 0;
    runnel_free(now);
    return is_same ? RUNNEL_OK
                   : runnel_problems_add(to->problems, RUNNEL_E_CONFLICT, &to->place,
                                         "has changed since it was read; nothing is written");
}

static bool write_all(int file, const char *text, size_t length) {
    while (length) {
        ssize_t written = write(file, text, length);
        if (written < 0 && errno == EINTR)
            continue;
        if (written <= 0)
            return false;
        text += written;
        length -= (size_t)written;
    }
    return true;
}

static runnel_status write_beside(target *to, const char *text, size_t length) {
    to->temporary = runnel_format_text("%s.XXXXXX", to->path);
    if (!to->temporary)
        return RUNNEL_E_NO_MEMORY;
    int file = mkstemp(to->temporary);
    if (file < 0) {
        runnel_status status = fail(to, "no file can be made beside it");
        runnel_free(to->temporary);
        to->temporary = NULL;
        return status;
    }
    runnel_status status = RUNNEL_OK;
    if (!write_all(file, text, length) || fchmod(file, to->mode) != 0 || fsync(file) != 0)
        status = fail(to, "the new amounts cannot be written");
    if (close(file) != 0 && status == RUNNEL_OK)
        status = fail(to, "the new amounts cannot be written");
    return status;
}

static runnel_status replace(target *to) {
    if (rename(to->temporary, to->path) != 0)
        return fail(to, "cannot be replaced");
    runnel_free(to->temporary);
    to->temporary = NULL;
    return RUNNEL_OK;
}

runnel_status runnel_stock_write(const runnel_stock_file *file, const double *left,
                                 runnel_problems *problems) {
    target to = {.problems = problems, .place = {.file = file->path}};
    char *text = NULL;
    size_t length = 0;
    if (!strcmp(file->path, "-"))
        return runnel_problems_add(problems, RUNNEL_E_CONFLICT, &to.place,
                                   "the stock came from the standard input, which cannot be "
                                   "written; name its file");
    runnel_status status = runnel_stock_text(file, left, &text, &length);
    if (status != RUNNEL_OK)
        return status;
    if (length == file->length && memcmp(text, file->text, length) == 0)
        goto cleanup;
    to.path = runnel_copy_text(file->path);
    status = to.path ? follow_links(&to) : RUNNEL_E_NO_MEMORY;
    if (status == RUNNEL_OK)
        status = check_unchanged(file, &to);
    if (status == RUNNEL_OK)
        status = write_beside(&to, text, length);
    if (status == RUNNEL_OK)
        status = replace(&to);
cleanup:
    if (to.temporary) {
        unlink(to.temporary);
        runnel_free(to.temporary);
    }
    runnel_free(to.path);
    runnel_free(text);
    return status;
}
