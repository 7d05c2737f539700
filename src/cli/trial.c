/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/commands.h"
#include "cli/output.h"
#include "cli/values.h"

#include <string.h>

typedef struct trial_output {
    const runnel_trial_report *report;
    runnel_status (*write)(const runnel_trial_report *report, FILE *out);
} trial_output;

static runnel_status write_trial(const void *what, FILE *out) {
    const trial_output *all = what;
    return all->write(all->report, out);
}

static bool take_all(const cli_arguments *arguments, runnel_problems *problems,
                     runnel_trial_report *report, double *tip_mm) {
    const struct {
        option_id id;
        value_range range;
        double *value;
    } takes[] = {{OPTION_WIDTH, VALUE_ABOVE_0, &report->cuts[0].width_mm},
                 {OPTION_AT_DEPTH, VALUE_ABOVE_0, &report->cuts[0].depth_mm},
                 {OPTION_WIDTH_2, VALUE_ABOVE_0, &report->cuts[1].width_mm},
                 {OPTION_AT_DEPTH_2, VALUE_ABOVE_0, &report->cuts[1].depth_mm},
                 {OPTION_TIP, VALUE_FROM_0, tip_mm},
                 {OPTION_WIDTH_ERROR, VALUE_FROM_0, &report->errors.width_mm},
                 {OPTION_DEPTH_ERROR, VALUE_FROM_0, &report->errors.depth_mm},
                 {OPTION_TIP_ERROR, VALUE_FROM_0, &report->errors.tip_mm},
                 {OPTION_SOLD_AS, VALUE_ABOVE_0, &report->sold_as_deg}};
    bool fine = true;
    for (size_t i = 0; i < sizeof takes / sizeof *takes; i++)
        fine =
            take_quantity(arguments, takes[i].id, takes[i].range, problems, takes[i].value) && fine;
    if (report->sold_as_deg >= 180) {
        runnel_place place = value_place(OPTION_SOLD_AS);
        runnel_problems_add(problems, RUNNEL_E_RANGE, &place,
                            "'%.60s' is out of range: an angle must be below 180 deg",
                            arguments->values[OPTION_SOLD_AS]);
        fine = false;
    }
    return fine;
}

static runnel_status compute(const cli_arguments *arguments, runnel_problems *problems,
                             runnel_trial_report *report) {
    double tip_mm = 0;
    report->errors = runnel_trial_usual();
    report->tip_is_given = arguments->values[OPTION_TIP] != NULL;
    report->cut_count = arguments->values[OPTION_WIDTH_2] ? 2 : 1;
    bool fine = take_all(arguments, problems, report, &tip_mm);
    if (report->cut_count == 2 && arguments->values[OPTION_TIP]) {
        runnel_place place = value_place(OPTION_TIP);
        runnel_problems_add(problems, RUNNEL_E_CONFLICT, &place,
                            "the tip follows from two grooves; leave '--tip' out");
        fine = false;
    }
    if (!fine)
        return runnel_problems_status(problems);
    runnel_place place = value_place(report->cut_count == 2 ? OPTION_WIDTH_2 : OPTION_WIDTH);
    return report->cut_count == 2
               ? runnel_trial_two(&report->cuts[0], &report->cuts[1], &report->errors, problems,
                                  &place, &report->trial)
               : runnel_trial_one(&report->cuts[0], tip_mm, &report->errors, problems, &place,
                                  &report->trial);
}

/* Each groove has two measures. */
static bool has_pairs(const cli_arguments *arguments) {
    const char *const *values = arguments->values;
    if (!values[OPTION_WIDTH] || !values[OPTION_AT_DEPTH])
        misuse(COMMAND_TRIAL, "the groove's '--width' and its depth, '--at-depth', are needed");
    else if (!values[OPTION_WIDTH_2] != !values[OPTION_AT_DEPTH_2])
        misuse(COMMAND_TRIAL, "'--width-2' and '--at-depth-2' go together");
    else
        return true;
    return false;
}

int run_trial(const cli_arguments *arguments) {
    const char *format = arguments->values[OPTION_FORMAT];
    runnel_trial_report report = {.cut_count = 0};
    runnel_problems problems;
    if (!has_pairs(arguments))
        return runnel_status_exit(RUNNEL_E_USAGE);
    runnel_problems_init(&problems);
    runnel_status status = compute(arguments, &problems, &report);
    if (status) {
        show_problems(&problems, status);
    } else {
        trial_output all = {&report, runnel_write_trial_text};
        if (format && !strcmp(format, "json"))
            all.write = runnel_write_trial_json;
        status = write_output(arguments->values[OPTION_OUTPUT], write_trial, &all);
    }
    runnel_problems_clear(&problems);
    return runnel_status_exit(status);
}
