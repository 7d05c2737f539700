/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/commands.h"
#include "cli/draft.h"
#include "cli/output.h"
#include "cli/values.h"

#include <string.h>

typedef struct rescue_output {
    const runnel_rescue_report *report;
    runnel_status (*write)(const runnel_rescue_report *report, FILE *out);
} rescue_output;

static runnel_status write_rescue(const void *what, FILE *out) {
    const rescue_output *all = what;
    return all->write(all->report, out);
}

/* The ways in which the amount of a part is told. */
typedef struct part_options {
    option_id weighed, poured, strokes, stroke, left;
} part_options;

static const part_options part_a = {OPTION_WEIGHED_A, OPTION_POURED_A, OPTION_STROKES_A,
                                    OPTION_STROKE_A, OPTION_LEFT_A};
static const part_options part_b = {OPTION_WEIGHED_B, OPTION_POURED_B, OPTION_STROKES_B,
                                    OPTION_STROKE_B, OPTION_LEFT_B};

static const char *name_of(option_id id) {
    return option_row(id)->name;
}

/* Whether a part is told in one way. */
static bool is_told(const cli_arguments *arguments, const part_options *part, const char *letter) {
    const char *const *values = arguments->values;
    int ways = (values[part->weighed] != NULL) + (values[part->poured] != NULL) +
               (values[part->strokes] != NULL);
    if (ways == 1)
        return true;
    misuse(COMMAND_RESCUE,
           ways ? "part %s is told in more than one way; give one of '--%s', '--%s' and '--%s'"
                : "part %s is not told; give one of '--%s', '--%s' and '--%s', even if it is 0",
           letter, name_of(part->weighed), name_of(part->poured), name_of(part->strokes));
    return false;
}

/* A stroke of the other pump holds where one is not told: many pumps are a pair. */
static bool take_stroke(const cli_arguments *arguments, const part_options *part,
                        const part_options *other, runnel_problems *problems, runnel_dose *dose) {
    option_id id = arguments->values[part->stroke] ? part->stroke : other->stroke;
    double stroke_mm3 = 0;
    if (!arguments->values[id]) {
        runnel_place place = value_place(part->strokes);
        runnel_problems_add(problems, RUNNEL_E_MISSING, &place,
                            "strokes need '--%s', what one gives, such as '5 ml'",
                            name_of(part->stroke));
        return false;
    }
    bool fine = take_quantity(arguments, id, VALUE_ABOVE_0, problems, &stroke_mm3);
    dose->stroke_ml = stroke_mm3 / RUNNEL_MM3_PER_ML;
    return fine;
}

static bool take_dose(const cli_arguments *arguments, const part_options *part,
                      const part_options *other, runnel_problems *problems, runnel_dose *dose) {
    double volume_mm3 = 0;
    bool fine = true;
    if (arguments->values[part->weighed]) {
        dose->unit = RUNNEL_DOSE_GRAMS;
        fine = take_quantity(arguments, part->weighed, VALUE_FROM_0, problems, &dose->amount);
    } else if (arguments->values[part->poured]) {
        dose->unit = RUNNEL_DOSE_ML;
        fine = take_quantity(arguments, part->poured, VALUE_FROM_0, problems, &volume_mm3);
        dose->amount = volume_mm3 / RUNNEL_MM3_PER_ML;
    } else {
        dose->unit = RUNNEL_DOSE_STROKES;
        fine = take_number(arguments, part->strokes, VALUE_FROM_0, problems, &dose->amount);
        fine = take_stroke(arguments, part, other, problems, dose) && fine;
    }
    return fine;
}

static bool take_case(const cli_arguments *arguments, const runnel_job *job,
                      runnel_problems *problems, runnel_rescue_case *mix) {
    /* More than any bottle: of a part whose bottle is not told of there is enough. */
    static const double plenty_g = 1e9;
    const runnel_resin *resin = &job->resin;
    bool fine = take_dose(arguments, &part_a, &part_b, problems, &mix->part_a);
    fine = take_dose(arguments, &part_b, &part_a, problems, &mix->part_b) && fine;
    mix->knows_stock = arguments->values[OPTION_LEFT_A] || arguments->values[OPTION_LEFT_B];
    mix->stock_a_g = mix->stock_b_g = plenty_g;
    fine = take_quantity(arguments, OPTION_LEFT_A, VALUE_FROM_0, problems, &mix->stock_a_g) && fine;
    fine = take_quantity(arguments, OPTION_LEFT_B, VALUE_FROM_0, problems, &mix->stock_b_g) && fine;
    fine = take_quantity(arguments, OPTION_WANTED, VALUE_ABOVE_0, problems, &mix->wanted_g) && fine;
    fine = take_quantity(arguments, OPTION_ROOM, VALUE_ABOVE_0, problems, &mix->room_mm3) && fine;
    if (fine && !(mix->part_a.amount > 0) && !(mix->part_b.amount > 0)) {
        runnel_problems_add(problems, RUNNEL_E_RANGE, NULL,
                            "nothing is in the cup: both amounts are 0");
        fine = false;
    }
    mix->density_a_g_per_ml = resin->density_a_g_per_ml;
    mix->density_b_g_per_ml = resin->density_b_g_per_ml;
    mix->tolerance = resin->ratio_tolerance;
    mix->step_g = job->scale.step_g;
    mix->largest_mass_g = resin->largest_mass_g;
    return fine;
}

static runnel_status compute(const cli_arguments *arguments, const runnel_tables *tables,
                             runnel_job *job, runnel_rescue_report *report) {
    runnel_problems problems;
    runnel_problems_init(&problems);
    runnel_status status = draft_job(arguments, tables, &problems, job);
    bool fine = take_case(arguments, job, &problems, &report->mix);
    if (!status && !fine)
        status = runnel_problems_status(&problems);
    if (!status)
        status = runnel_mixture_of(&job->resin.ratio, job->resin.density_a_g_per_ml,
                                   job->resin.density_b_g_per_ml, &report->mix.mixture);
    if (!status)
        status = runnel_rescue_of(&report->mix, &report->rescue);
    if (status && status != RUNNEL_NOT_POSSIBLE)
        show_problems(&problems, status);
    runnel_problems_clear(&problems);
    return status;
}

int run_rescue(const cli_arguments *arguments) {
    const char *format = arguments->values[OPTION_FORMAT];
    runnel_tables tables = {0};
    runnel_job job;
    runnel_rescue_report report = {.job = &job};
    if (!is_told(arguments, &part_a, "A") || !is_told(arguments, &part_b, "B"))
        return runnel_status_exit(RUNNEL_E_USAGE);
    runnel_job_init(&job);
    runnel_status status = read_tables(arguments, &tables);
    if (!status)
        status = compute(arguments, &tables, &job, &report);
    if (!status || status == RUNNEL_NOT_POSSIBLE) {
        rescue_output all = {&report, runnel_write_rescue_text};
        if (format && !strcmp(format, "json"))
            all.write = runnel_write_rescue_json;
        runnel_status written = write_output(arguments->values[OPTION_OUTPUT], write_rescue, &all);
        status = written ? written : status;
    }
    runnel_job_clear(&job);
    runnel_tables_clear(&tables);
    return runnel_status_exit(status);
}
