/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/read.h"

#include "base/memory.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

enum { MOST_BYTES = 64 * 1024 * 1024, FIRST_BYTES = 64 * 1024 };

/* Reads to the end or one byte beyond the limit, and closes the text with a zero. */
static runnel_status read_all(FILE *file, const runnel_place *place, runnel_problems *problems,
                              char **text, size_t *length) {
    size_t used = 0, room = 0;
    while (used <= MOST_BYTES) {
        if (used + 1 >= room) {
            room = room ? room * 2 : FIRST_BYTES;
            char *more = runnel_resize(*text, room, 1);
            if (!more)
                return RUNNEL_E_NO_MEMORY;
            *text = more;
        }
        errno = 0;
        size_t got = fread(*text + used, 1, room - used - 1, file);
        used += got;
        if (ferror(file) && errno == EISDIR)
            return runnel_problems_add(problems, RUNNEL_E_NOT_FOUND, place,
                                       "a directory, where a file is needed");
        if (ferror(file))
            return runnel_problems_add(problems, RUNNEL_E_IO, place, "cannot be read: %s",
                                       strerror(errno));
        if (!got)
            break;
    }
    if (used > MOST_BYTES)
        return runnel_problems_add(problems, RUNNEL_E_RANGE, place,
                                   "larger than %d MB, which no file of this kind is",
                                   MOST_BYTES / 1024 / 1024);
    (*text)[used] = '\0';
    *length = used;
    return RUNNEL_OK;
}

runnel_status runnel_file_read(const char *path, runnel_problems *problems, char **text,
                               size_t *length) {
    bool standard = !strcmp(path, "-");
    runnel_place place = {.file = standard ? "standard input" : path};
    FILE *file = standard ? stdin : fopen(path, "rb");
    if (!file)
        return runnel_problems_add(problems, RUNNEL_E_NOT_FOUND, &place, "cannot be opened: %s",
                                   strerror(errno));
    char *whole = NULL;
    size_t bytes = 0;
    runnel_status status = read_all(file, &place, problems, &whole, &bytes);
    if (!standard)
        fclose(file);
    if (status) {
        runnel_free(whole);
        return status;
    }
    *text = whole;
    *length = bytes;
    return RUNNEL_OK;
}
