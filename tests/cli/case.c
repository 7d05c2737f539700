/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "case.h"

#include "files.h"
#include "near.h"
#include "words.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

extern char **environ;

/* A case while it runs. */
typedef struct running {
    const case_surroundings *around;
    const char *path;                        /* of the .cmd */
    char stem[PATH_SIZE], folder[PATH_SIZE]; /* the same without .cmd; where it lies */
    const char *name;                        /* the last part of the stem, within it */
    char work[PATH_SIZE], here[PATH_SIZE], data[PATH_SIZE];
    char *lines; /* what is run */
    bool is_bare;
    FILE *report;
    int complaints;
} running;

/* --- what is said of a case --- */

static void show_lines(FILE *report, const char *bytes, int most, const char *before) {
    for (int i = 0; i < most && *bytes; i++) {
        size_t length = strcspn(bytes, "\n");
        fprintf(report, "%s%.*s\n", before, (int)(length < 300 ? length : 300), bytes);
        bytes += length + (bytes[length] == '\n');
    }
}

__attribute__((format(printf, 2, 3))) static void complain(running *r, const char *format, ...) {
    if (r->complaints++ == 0) {
        size_t root = strlen(r->around->source) + 1;
        bool is_below = strncmp(r->stem, r->around->source, root - 1) == 0;
        fprintf(r->report, "FAILED %s\n", r->stem + (is_below ? root : 0));
        show_lines(r->report, r->lines, 5, "  $ ");
    }
    va_list arguments;
    va_start(arguments, format);
    fputs("  ", r->report);
    vfprintf(r->report, format, arguments);
    fputc('\n', r->report);
    va_end(arguments);
}

static void show(running *r, const char *stream, const char *bytes) {
    fprintf(r->report, "  %s was:\n", stream);
    show_lines(r->report, bytes, 20, "  | ");
}

/* What the file of a case with this ending holds, or NULL. */
static char *beside(const running *r, const char *ending, size_t *size) {
    char path[PATH_SIZE];
    make_path(path, "%s%s", r->stem, ending);
    return read_whole(path, size);
}

/* --- before it runs --- */

static bool is_expectation(const char *ending) {
    static const char *const endings[] = {".cmd",    ".exit", ".out",     ".err",
                                          ".silent", ".near", ".creates", ".d"};
    for (size_t i = 0; i < sizeof endings / sizeof *endings; i++)
        if (strcmp(ending, endings[i]) == 0)
            return true;
    return false;
}

/* Fills the folder of the case: its .d, and the files beside it that begin with its name. */
static void copy_inputs(const running *r) {
    char from[PATH_SIZE], to[PATH_SIZE];
    make_path(from, "%s.d", r->stem);
    copy_folder(from, r->here);
    entries all = {0};
    list_folder(r->folder, &all);
    size_t length = strlen(r->name);
    for (size_t i = 0; i < all.count; i++) {
        const entry *file = &all.items[i];
        if (file->is_folder || strchr(file->name, '/') ||
            strncmp(file->name, r->name, length) != 0 || file->name[length] != '.' ||
            is_expectation(strrchr(file->name, '.')))
            continue;
        make_path(from, "%s/%s", r->folder, file->name);
        make_path(to, "%s/%s", r->here, file->name);
        copy_file(from, to, file->mode);
    }
    entries_clear(&all);
}

/* Sets the lines to be run; bare arguments, without comments, get the command in front. */
static void take_lines(running *r) {
    size_t size = 0;
    char *text = read_whole(r->path, &size);
    if (!text)
        give_up(r->path);
    char *bare = take_memory(size + 20), *end = bare + sprintf(bare, "\"$RUNNEL\" ");
    const char *arguments = end;
    for (const char *at = text; *at;) {
        size_t length = strcspn(at, "\n");
        length += at[length] == '\n';
        if (at[strspn(at, " ")] != '#') {
            memcpy(end, at, length);
            end += length;
        }
        at += length;
    }
    *end = '\0';
    r->is_bare = !strstr(arguments, "$RUNNEL") && !strstr(arguments, "${RUNNEL");
    r->lines = r->is_bare ? bare : text;
    free(r->is_bare ? text : bare);
}

/* --- the run --- */

static volatile sig_atomic_t group, is_late;

static void end_group(int number) {
    if (group)
        kill(-(pid_t)group, SIGKILL);
    if (number != SIGALRM)
        _exit(2);
    is_late = 1;
}

static void set_handlers(void) {
    struct sigaction action = {.sa_handler = end_group};
    static const int numbers[] = {SIGALRM, SIGHUP, SIGINT, SIGTERM};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        sigaction(numbers[i], &action, NULL);
}

static void set_environment(const running *r) {
    static const char *const kept[] = {"PATH", "ASAN_OPTIONS", "LSAN_OPTIONS", "UBSAN_OPTIONS"};
    const char *values[sizeof kept / sizeof *kept];
    static char *none[] = {NULL};
    char path[PATH_SIZE];
    for (size_t i = 0; i < sizeof kept / sizeof *kept; i++)
        values[i] = getenv(kept[i]);
    environ = none;
    for (size_t i = 0; i < sizeof kept / sizeof *kept; i++)
        setenv(kept[i], values[i] ? values[i] : "", 1);
    make_path(path, "%s/home", r->around->all);
    setenv("HOME", path, 1);
    make_path(path, "%s/cache", r->around->all);
    setenv("XDG_CACHE_HOME", path, 1);
    setenv("XDG_DATA_HOME", r->data, 1);
    setenv("LC_ALL", "C.UTF-8", 1);
    setenv("RUNNEL", r->around->runnel, 1);
    setenv("CASES", r->folder, 1);
    setenv("SOURCE", r->around->source, 1);
}

static void redirect(const char *path, int flags, int to) {
    int from = open(path, flags, 0666);
    if (from < 0 || dup2(from, to) < 0)
        give_up(path);
    close(from);
}

/* Becomes the command or the shell. */
__attribute__((noreturn)) static void become(const running *r, char **arguments) {
    char path[PATH_SIZE];
    setpgid(0, 0);
    make_path(path, "%s.in", r->stem);
    redirect(access(path, F_OK) ? "/dev/null" : path, O_RDONLY, STDIN_FILENO);
    make_path(path, "%s/out", r->work);
    redirect(path, O_WRONLY | O_CREAT | O_TRUNC, STDOUT_FILENO);
    make_path(path, "%s/err", r->work);
    redirect(path, O_WRONLY | O_CREAT | O_TRUNC, STDERR_FILENO);
    if (chdir(r->here))
        give_up(r->here);
    set_environment(r);
    execvp(arguments[0], arguments);
    perror(arguments[0]);
    _exit(127);
}

/* The words of the wrapper, the command and its arguments; false where it needs the shell. */
static bool take_words(const running *r, words *to) {
    char *line = strchr(r->lines, ' ') + 1, *end = strchr(line, '\n');
    bool is_one_line = !end || end[1] == '\0';
    if (is_one_line && end)
        *end = '\0';
    return is_one_line && split_words(r->around->wrapper, to) && add_word(r->around->command, to) &&
           split_words(line, to);
}

/* Runs the lines. @return the exit status; 128 and the number of a signal; 124 when it took too
 * long */
static int run_lines(running *r) {
    char path[PATH_SIZE];
    words direct = {0};
    char *shell[] = {"sh", "-e", path, NULL};
    make_path(path, "%s/lines", r->work);
    bool is_direct = r->is_bare && take_words(r, &direct);
    if (!is_direct)
        write_file(path, r->lines, strlen(r->lines), 0666);
    set_handlers();
    pid_t child = fork();
    if (child == 0)
        become(r, is_direct ? direct.items : shell);
    if (child < 0)
        give_up("fork");
    setpgid(child, child);
    group = child;
    alarm(r->around->seconds);
    int status = 0;
    while (waitpid(child, &status, 0) < 0)
        if (errno != EINTR)
            give_up("waitpid");
    alarm(0);
    if (is_late)
        return 124;
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

/* --- what came of it --- */

static void check_exit(running *r, int status) {
    size_t size = 0;
    char *text = beside(r, ".exit", &size), *end = text;
    long wanted = text ? strtol(text, &end, 10) : 0;
    if (text && (end == text || end[strspn(end, " \t\n")] != '\0'))
        complain(r, "no exit status: %s", text);
    if (is_late)
        complain(r, "took longer than %u s", r->around->seconds);
    else if (status != wanted)
        complain(r, "exit status: -%ld +%d", wanted, status);
}

/* Whether some bytes hold a text; there may be zeros among them. */
static bool holds(const char *bytes, size_t size, const char *text, size_t length) {
    for (size_t i = 0; i + length <= size; i++)
        if (memcmp(bytes + i, text, length) == 0)
            return true;
    return false;
}

/* Checks a stream against the lines of the file with this ending, if there is one. */
static void check_stream(running *r, const char *stream, const char *ending, const char *bytes,
                         size_t size) {
    size_t unused;
    int before = r->complaints;
    const char *at = beside(r, ending, &unused);
    while (at && *at) {
        size_t length = strcspn(at, "\n");
        bool is_refused = *at == '!';
        const char *text = at + is_refused;
        at += length + (at[length] == '\n');
        length -= is_refused;
        if ((length || is_refused) && holds(bytes, size, text, length) == is_refused)
            complain(r, "%s %s %c %.*s", stream,
                     is_refused ? "holds but must not:" : "lacks:", is_refused ? '+' : '-',
                     (int)length, text);
    }
    if (r->complaints > before)
        show(r, stream, bytes);
}

static void check_empty(running *r, const char *stream, const char *bytes, size_t size) {
    if (size) {
        complain(r, "%s should be empty", stream);
        show(r, stream, bytes);
    }
}

static void check_numbers(running *r, const char *json, size_t size) {
    size_t unused;
    char *expected = beside(r, ".near", &unused), *said = NULL;
    FILE *report = expected ? open_memstream(&said, &unused) : NULL;
    if (!report)
        return;
    bool are_near = numbers_are_near(json, size, expected, report);
    fclose(report);
    if (!are_near) {
        complain(r, "numbers are off:");
        show_lines(r->report, said, 1000, "  ");
    }
}

static void check_created(running *r, const entries *before) {
    entries after = {0}, created = {0}, wanted = {0}, lacking = {0}, unasked = {0};
    size_t unused;
    take_snapshot(r->here, &after);
    take_snapshot(r->data, &after);
    entries_only_in(before, &after, true, &created);
    entries_only_in(&after, before, true, &created);
    char *told = beside(r, ".creates", &unused);
    for (char *name = told ? strtok(told, "\n") : NULL; name; name = strtok(NULL, "\n"))
        entries_add(&wanted, name);
    entries_only_in(&wanted, &created, false, &lacking);
    entries_only_in(&created, &wanted, false, &unasked);
    entries_sort(&lacking);
    entries_sort(&unasked);
    if (lacking.count || unasked.count)
        complain(r, "files made or changed (-wanted, +got):");
    for (size_t i = 0; i < lacking.count; i++)
        fprintf(r->report, "  - %s\n", lacking.items[i].name);
    for (size_t i = 0; i < unasked.count; i++)
        fprintf(r->report, "  + %s\n", unasked.items[i].name);
}

static void check_all(running *r, int status, const entries *before) {
    char path[PATH_SIZE];
    size_t out_size = 0, err_size = 0;
    make_path(path, "%s/out", r->work);
    char *out = read_whole(path, &out_size);
    make_path(path, "%s/err", r->work);
    char *err = read_whole(path, &err_size);
    if (!out || !err)
        give_up(path);
    check_exit(r, status);
    check_stream(r, "standard output", ".out", out, out_size);
    check_stream(r, "standard error", ".err", err, err_size);
    make_path(path, "%s.silent", r->stem);
    if (access(path, F_OK) == 0)
        check_empty(r, "standard output", out, out_size);
    make_path(path, "%s.err", r->stem);
    if (access(path, F_OK) != 0)
        check_empty(r, "standard error", err, err_size);
    check_numbers(r, out, out_size);
    check_created(r, before);
}

bool run_case(const case_surroundings *around, const char *path, const char *work, FILE *report) {
    running r = {.around = around, .path = path, .report = report};
    const char *slash = strrchr(path, '/');
    make_path(r.stem, "%.*s", (int)(strlen(path) - strlen(".cmd")), path);
    make_path(r.folder, "%.*s", (int)(slash - path), path);
    r.name = r.stem + (slash + 1 - path);
    make_path(r.work, "%s", work);
    make_path(r.here, "%s/here", work);
    make_path(r.data, "%s/data", work);
    make_folder(r.work);
    make_folder(r.here);
    entries before = {0};
    copy_inputs(&r);
    take_lines(&r);
    take_snapshot(r.here, &before);
    int status = run_lines(&r);
    check_all(&r, status, &before);
    remove_folder(r.work);
    return r.complaints == 0;
}
