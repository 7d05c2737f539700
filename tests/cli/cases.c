/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Runs the cases of the command and ends with the line "N passed, N failed".
 *
 *     sh tests/cli/run.sh [FOLDER | CASE.cmd]...        (default: tests/cli)
 *
 * A case is NAME.cmd with the files beside it that begin with "NAME.":
 *
 *   NAME.cmd      the arguments of the command, or shell lines that call "$RUNNEL"; lines run by
 *                 `sh -e`, so that a failing line ends the case with its status
 *   NAME.in       standard input (without it: empty)
 *   NAME.exit     the exit status (without it: 0)
 *   NAME.out      one text a line that standard output must hold; after a ! it must not
 *   NAME.err      the same for standard error (without it: nothing may be written there)
 *   NAME.silent   standard output must be empty
 *   NAME.near     numbers in the JSON on standard output, see near.h
 *   NAME.creates  files that the case makes, changes or removes, one a line (without it: none may
 * be) NAME.d/       what it holds is copied to where the case runs NAME.ANY      any other file is
 * copied there too, under its own name
 *
 * NAME holds no dot. Each case runs in a fresh folder, in the locale C.UTF-8, without the user's
 * settings and tables (XDG_DATA_HOME is the folder ../data beside it). For the lines there are
 * $RUNNEL, $CASES (folder of the case), $SOURCE (root of the sources). Arguments that hold nothing
 * but plain words and quotes are given to the command without a shell between.
 *
 * Environment: RUNNEL_COMMAND (default build/runnel), RUNNEL_WRAPPER (such as valgrind), BUILD,
 * JOBS, SOURCE, RUNNEL_TIMEOUT (seconds a case, default 60; 600 with a wrapper), RUNNEL_SAMPLE (N:
 * of each folder the first case, and of all others about one in N, always the same ones).
 */
#include "case.h"
#include "files.h"

#include <errno.h>
#include <limits.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static volatile sig_atomic_t is_interrupted;

static void interrupt(int number) {
    (void)number;
    is_interrupted = 1;
}

static const char *variable(const char *name, const char *otherwise) {
    const char *value = getenv(name);
    return value && *value ? value : otherwise;
}

static unsigned number_of(const char *name, unsigned otherwise) {
    unsigned long number = strtoul(variable(name, "0"), NULL, 10);
    return number > 0 && number < INT_MAX ? (unsigned)number : otherwise;
}

/* The absolute path of something that must be there. */
static void make_absolute(char path[PATH_SIZE], const char *given) {
    char here[PATH_SIZE] = "";
    if (access(given, F_OK) || (*given != '/' && !getcwd(here, sizeof here - 1)))
        give_up(given);
    make_path(path, "%s%s%s", here, *here ? "/" : "", given);
    for (size_t end = strlen(path) - 1; end > 0 && path[end] == '/'; end--)
        path[end] = '\0';
}

/* --- which cases --- */

static bool is_case(const char *name) {
    size_t length = strlen(name);
    return length > 4 && strcmp(name + length - 4, ".cmd") == 0;
}

static void add_cases(const char *given, entries *cases) {
    char path[PATH_SIZE], below[PATH_SIZE];
    make_absolute(path, given);
    if (is_case(path)) {
        entries_add(cases, path);
        return;
    }
    entries all = {0};
    list_folder(path, &all);
    for (size_t i = 0; i < all.count; i++) {
        make_path(below, "%s/%s", path, all.items[i].name);
        if (!all.items[i].is_folder && is_case(below))
            entries_add(cases, below);
    }
    entries_clear(&all);
}

/* Leaves the first of each folder, and of the others those whose path gives a sum that N divides.
 */
static void take_sample(const char *source, unsigned n, entries *cases) {
    entries chosen = {0};
    const char *last = "";
    size_t last_length = 0;
    for (size_t i = 0; i < cases->count; i++) {
        const char *path = cases->items[i].name, *below = path + strlen(source);
        size_t length = (size_t)(strrchr(path, '/') - path);
        bool is_first = length != last_length || memcmp(path, last, length) != 0;
        if (is_first || sum_of(below, strlen(below)) % n == 0)
            entries_add(&chosen, path);
        last = path;
        last_length = length;
    }
    entries_clear(cases);
    *cases = chosen;
}

/* --- all of them --- */

/* A process that runs a case. */
typedef struct worker {
    pid_t process; /* 0: none */
    size_t index;
} worker;

typedef struct run {
    case_surroundings around;
    entries cases;
    bool *is_good; /* for each case */
    worker *workers;
    size_t jobs, working;
} run;

static void path_of_report(const run *r, size_t index, char path[PATH_SIZE]) {
    make_path(path, "%s/report%zu", r->around.all, index);
}

static void start(run *r, size_t index) {
    worker *free_one = r->workers;
    while (free_one->process)
        free_one++;
    pid_t process = fork();
    if (process < 0)
        give_up("fork");
    if (process == 0) {
        char path[PATH_SIZE], work[PATH_SIZE];
        path_of_report(r, index, path);
        make_path(work, "%s/%zu", r->around.all, index);
        FILE *report = fopen(path, "w");
        if (!report)
            give_up(path);
        bool is_good = run_case(&r->around, r->cases.items[index].name, work, report);
        _exit(fclose(report) == 0 && is_good ? 0 : 1);
    }
    *free_one = (worker){process, index};
    r->working++;
}

static void wait_for_one(run *r) {
    int status = 0;
    pid_t process = waitpid(-1, &status, 0);
    for (size_t i = 0; process > 0 && i < r->jobs; i++)
        if (r->workers[i].process == process) {
            r->is_good[r->workers[i].index] = WIFEXITED(status) && WEXITSTATUS(status) == 0;
            r->workers[i].process = 0;
            r->working--;
        }
}

static void run_all(run *r) {
    for (size_t i = 0; i < r->cases.count && !is_interrupted; i++) {
        start(r, i);
        while (r->working == r->jobs && !is_interrupted)
            wait_for_one(r);
    }
    if (is_interrupted)
        for (size_t i = 0; i < r->jobs; i++)
            if (r->workers[i].process)
                kill(r->workers[i].process, SIGTERM);
    while (r->working)
        wait_for_one(r);
}

/* Shows the reports of all cases in their order. @return how many failed */
static size_t tell(const run *r) {
    size_t failed = 0;
    for (size_t i = 0; i < r->cases.count; i++) {
        char path[PATH_SIZE];
        size_t size = 0;
        path_of_report(r, i, path);
        char *report = read_whole(path, &size);
        failed += !r->is_good[i];
        if (report && size)
            fputs(report, stdout);
        else if (!r->is_good[i])
            printf("FAILED %s\n  it could not be run\n", r->cases.items[i].name);
        free(report);
    }
    printf("%zu passed, %zu failed\n", r->cases.count - failed, failed);
    return failed;
}

/* Makes the folder of the run and, in it, what starts the command with its wrapper. */
static void make_surroundings(char all[PATH_SIZE], char runnel[PATH_SIZE], const char *command,
                              const char *wrapper) {
    char path[PATH_SIZE], script[2 * PATH_SIZE];
    make_path(all, "%s/cases.XXXXXX", variable("TMPDIR", "/tmp"));
    if (!mkdtemp(all))
        give_up(all);
    make_path(path, "%s/home", all);
    make_folder(path);
    make_path(path, "%s/cache", all);
    make_folder(path);
    make_path(runnel, "%s", command);
    if (!*wrapper)
        return;
    make_path(runnel, "%s/runnel", all);
    int size =
        snprintf(script, sizeof script, "#!/bin/sh\nexec %s \"%s\" \"$@\"\n", wrapper, command);
    if (size < 0 || size >= (int)sizeof script)
        give_up("wrapper");
    write_file(runnel, script, (size_t)size, 0777);
}

int main(int argc, char **argv) {
    char command[PATH_SIZE], source[PATH_SIZE], all[PATH_SIZE], runnel[PATH_SIZE];
    const char *wrapper = variable("RUNNEL_WRAPPER", "");
    make_path(all, "%s/runnel", variable("BUILD", "build"));
    make_absolute(command, variable("RUNNEL_COMMAND", all));
    make_absolute(source, variable("SOURCE", ""));
    run r = {.jobs = number_of("JOBS", 1)};
    for (int i = 1; i < argc; i++)
        add_cases(argv[i], &r.cases);
    entries_sort(&r.cases);
    unsigned sample = number_of("RUNNEL_SAMPLE", 1);
    if (sample > 1)
        take_sample(source, sample, &r.cases);
    r.is_good = calloc(r.cases.count + 1, sizeof *r.is_good);
    r.workers = calloc(r.jobs, sizeof *r.workers);
    if (!r.is_good || !r.workers)
        give_up("memory");
    make_surroundings(all, runnel, command, wrapper);
    r.around = (case_surroundings){
        command, wrapper, runnel, all, source, number_of("RUNNEL_TIMEOUT", *wrapper ? 600 : 60)};
    struct sigaction action = {.sa_handler = interrupt};
    sigaction(SIGHUP, &action, NULL);
    sigaction(SIGINT, &action, NULL);
    sigaction(SIGTERM, &action, NULL);
    run_all(&r);
    bool is_bad = is_interrupted || tell(&r) > 0 || r.cases.count == 0;
    remove_folder(all);
    entries_clear(&r.cases);
    free(r.is_good);
    free(r.workers);
    return is_bad;
}
