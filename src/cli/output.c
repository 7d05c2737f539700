/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/output.h"

#include <errno.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* ---- Problems ---------------------------------------------------------------------------------
 */

void show_problems(const runnel_problems *problems, runnel_status status) {
    for (size_t i = 0; i < problems->count; i++) {
        const runnel_problem *problem = &problems->items[i];
        fputs(problem->file ? problem->file : "runnel", stderr);
        if (problem->line)
            fprintf(stderr, ":%zu", problem->line);
        if (problem->line && problem->column)
            fprintf(stderr, ":%zu", problem->column);
        if (problem->field)
            fprintf(stderr, ": %s", problem->field);
        fprintf(stderr, ": %s\n", problem->text);
    }
    if (problems->dropped)
        fprintf(stderr, "runnel: %s; not all problems could be told\n",
                runnel_status_text(RUNNEL_E_NO_MEMORY));
    else if (!problems->count)
        fprintf(stderr, "runnel: %s\n", runnel_status_text(status));
}

static runnel_status tell_system(const char *path) {
    fprintf(stderr, "runnel: cannot write '%s': %s\n", path, strerror(errno));
    return RUNNEL_E_IO;
}

/* ---- Files ------------------------------------------------------------------------------------
 */

/* Room for a path, closed with a zero. */
typedef struct file_path {
    char text[PATH_MAX];
} file_path;

static bool join(const char *start, size_t length, const char *end, file_path *path) {
    int written = snprintf(path->text, sizeof path->text, "%.*s%s", (int)length, start, end);
    if (written >= 0 && (size_t)written < sizeof path->text)
        return true;
    errno = ENAMETOOLONG;
    return false;
}

/* The file that a path leads to through links, whether it is there or not. */
static bool follow_links(const char *path, file_path *target) {
    enum { MOST_LINKS = 40 };
    if (!join(path, strlen(path), "", target))
        return false;
    for (int i = 0; i < MOST_LINKS; i++) {
        char link[PATH_MAX];
        ssize_t length = readlink(target->text, link, sizeof link - 1);
        if (length < 0)
            return true;
        link[length] = '\0';
        const char *slash = strrchr(target->text, '/');
        size_t folder = link[0] == '/' || !slash ? 0 : (size_t)(slash - target->text) + 1;
        file_path next = {""};
        if (!join(target->text, folder, link, &next))
            return false;
        *target = next;
    }
    errno = ELOOP;
    return false;
}

/* Rights of a new file, or those of the one that was there. */
static mode_t rights_of(bool is_there, const struct stat *old) {
    if (is_there)
        return old->st_mode & 07777;
    mode_t mask = umask(0);
    umask(mask);
    return 0666 & ~mask;
}

/* Has the writer fill a stream, and closes that. */
static runnel_status fill(FILE *file, const char *path, cli_writer writer, const void *what,
                          bool to_disk) {
    errno = 0;
    runnel_status status = writer(what, file);
    if (!status && to_disk && fsync(fileno(file)))
        status = RUNNEL_E_IO;
    int failed = errno;
    if (fclose(file) && !status) {
        failed = errno;
        status = RUNNEL_E_IO;
    }
    if (status == RUNNEL_E_IO) {
        errno = failed;
        return tell_system(path);
    }
    if (status)
        fprintf(stderr, "runnel: %s\n", runnel_status_text(status));
    return status;
}

static runnel_status write_in_place(const char *path, cli_writer writer, const void *what) {
    FILE *file = fopen(path, "w");
    return file ? fill(file, path, writer, what, false) : tell_system(path);
}

static runnel_status write_beside(const char *path, const file_path *target, mode_t rights,
                                  cli_writer writer, const void *what) {
    file_path name = {""};
    if (!join(target->text, strlen(target->text), ".XXXXXX", &name))
        return tell_system(path);
    int descriptor = mkstemp(name.text);
    if (descriptor < 0)
        return tell_system(path);
    FILE *file = fdopen(descriptor, "w");
    if (!file) {
        tell_system(path);
        close(descriptor);
        unlink(name.text);
        return RUNNEL_E_IO;
    }
    runnel_status status = fill(file, path, writer, what, true);
    if (!status && (chmod(name.text, rights) || rename(name.text, target->text)))
        status = tell_system(path);
    if (status)
        unlink(name.text);
    return status;
}

/* Whether it was told that standard output is lost, so that it is told once. */
static bool lost_told;

static void tell_lost(void) {
    fprintf(stderr, "runnel: cannot write standard output%s%s\n", errno ? ": " : "",
            errno ? strerror(errno) : "");
    lost_told = true;
}

static runnel_status write_standard(cli_writer writer, const void *what) {
    errno = 0;
    runnel_status status = writer(what, stdout);
    if (status == RUNNEL_E_IO)
        tell_lost();
    else if (status)
        fprintf(stderr, "runnel: %s\n", runnel_status_text(status));
    return status;
}

runnel_status write_output(const char *path, cli_writer writer, const void *what) {
    file_path target = {""};
    struct stat old;
    if (!path || !strcmp(path, "-"))
        return write_standard(writer, what);
    if (!follow_links(path, &target))
        return tell_system(path);
    bool is_there = !stat(target.text, &old);
    if (is_there && S_ISDIR(old.st_mode)) {
        errno = EISDIR;
        return tell_system(path);
    }
    if (is_there && !S_ISREG(old.st_mode))
        return write_in_place(path, writer, what);
    return write_beside(path, &target, rights_of(is_there, &old), writer, what);
}

bool close_standard_output(void) {
    bool lost = ferror(stdout);
    errno = 0;
    lost = fclose(stdout) || lost;
    if (lost && !lost_told)
        tell_lost();
    return !lost;
}
