/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/commands.h"
#include "cli/work.h"

static runnel_status make(const runnel_job *job, const runnel_tables *tables,
                          runnel_problems *problems, void *made) {
    return runnel_levelling_make(job, tables, shared_letters(), problems, made);
}

static runnel_status write_text(const runnel_job *job, const void *made, FILE *out) {
    return runnel_write_level_text(job, made, out);
}

static runnel_status write_json(const runnel_job *job, const void *made, FILE *out) {
    return runnel_write_level_json(job, made, out);
}

static void clear(void *made) {
    runnel_levelling_clear(made);
}

int run_level(const cli_arguments *arguments) {
    runnel_levelling_plan levelling = {.cavity_count = 0};
    return run_work(arguments, &(cli_work){.make = make,
                                           .text = write_text,
                                           .json = write_json,
                                           .clear = clear,
                                           .made = &levelling});
}
