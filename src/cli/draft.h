/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A job in the making: from options, or from a file with options over it.
 */
#ifndef RUNNEL_CLI_DRAFT_H
#define RUNNEL_CLI_DRAFT_H

#include "cli/options.h"
#include "cli/parse.h"

/** A job into which options are taken. Piece and cavity are NULL for a job from a file. */
struct cli_draft {
    command_id command;
    runnel_job *job;
    runnel_job_piece *piece;
    runnel_job_cavity *cavity;
    const runnel_tables *tables;
    runnel_problems *problems;
};

/* Setters, one for each way in which a value is written. */
runnel_status set_text(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_name(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_single_line(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_size_to(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_error(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_align(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_quantity(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_above_0(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_from_0(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_number_above_0(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_percent(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_number(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_count(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_count_from_1(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_sealer(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_cut(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_under(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_coats(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_grain(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_edges(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_juice(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_holds(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_date(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_use(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_washing(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_water(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_hours(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_days_off(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_grits(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_raisings(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_recipe(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_order(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_size(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_outline(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_path(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_measured(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_cutter(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_tint(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_resin(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_ratio(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_scale(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_temperature(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_sealed(cli_draft *draft, const cli_option *option, const char *text);
runnel_status set_bare(cli_draft *draft, const cli_option *option, const char *text);

/**
 * Makes the job that was asked for, checked.
 *
 * @param job initialised; on failure what it holds means nothing, but it can be cleared
 * @return RUNNEL_OK, or the status of the problems told
 */
runnel_status draft_job(const cli_arguments *arguments, const runnel_tables *tables,
                        runnel_problems *problems, runnel_job *job);

#endif
