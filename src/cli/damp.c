/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/commands.h"
#include "cli/work.h"

static runnel_status make(const runnel_job *job, const runnel_tables *tables,
                          runnel_problems *problems, void *made) {
    return runnel_damping_make(job, tables, shared_letters(), problems, made);
}

static runnel_status write_text(const runnel_job *job, const void *made, FILE *out) {
    return runnel_write_damp_text(job, made, out);
}

static runnel_status write_json(const runnel_job *job, const void *made, FILE *out) {
    return runnel_write_damp_json(job, made, out);
}

static void clear(void *made) {
    runnel_damping_clear(made);
}

int run_damp(const cli_arguments *arguments) {
    runnel_damping damping = {.part_count = 0};
    return run_work(arguments, &(cli_work){.make = make,
                                           .text = write_text,
                                           .json = write_json,
                                           .clear = clear,
                                           .made = &damping});
}
