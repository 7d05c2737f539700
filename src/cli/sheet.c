/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/commands.h"
#include "cli/work.h"

/* The sheet, the look of its pieces where it is drawn, and the zone that its days are in. */
typedef struct sheeted {
    const cli_arguments *arguments;
    runnel_sheet sheet;
    runnel_look look;
    cli_zone zone;
} sheeted;

static runnel_status make(const runnel_job *job, const runnel_tables *tables,
                          runnel_problems *problems, void *made) {
    sheeted *all = made;
    runnel_status look = RUNNEL_OK;
    runnel_status status = read_zone(all->arguments, job, 1, problems, &all->zone);
    if (!status)
        status = runnel_sheet_make(job, tables, shared_letters(), problems, zone_of(&all->zone),
                                   &all->sheet);
    if (is_drawn(all->arguments) && (!status || status == RUNNEL_NOT_POSSIBLE))
        look = runnel_look_make(job, tables, shared_letters(), problems, &all->sheet.plan,
                                RUNNEL_LOOK_ALL, &all->look);
    return look ? look : status;
}

static runnel_status write_text(const runnel_job *job, const void *made, FILE *out) {
    return runnel_write_sheet_text(job, &((const sheeted *)made)->sheet, out);
}

static runnel_status write_json(const runnel_job *job, const void *made, FILE *out) {
    return runnel_write_sheet_json(job, &((const sheeted *)made)->sheet, out);
}

static runnel_status draw(const runnel_job *job, const void *made, const runnel_paper *paper,
                          FILE *out) {
    const sheeted *all = made;
    return runnel_draw_sheet(job, &all->sheet, &all->look, paper, out);
}

static void clear(void *made) {
    sheeted *all = made;
    runnel_sheet_clear(&all->sheet);
    runnel_look_clear(&all->look);
    runnel_zone_changes_clear(&all->zone.changes);
}

int run_sheet(const cli_arguments *arguments) {
    sheeted all = {.arguments = arguments};
    return run_work(arguments, &(cli_work){.make = make,
                                           .text = write_text,
                                           .json = write_json,
                                           .draw = draw,
                                           .clear = clear,
                                           .made = &all});
}
