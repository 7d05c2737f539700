/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/commands.h"
#include "cli/draft.h"
#include "cli/output.h"
#include "cli/values.h"
#include "cli/work.h"

#include <math.h>
#include <string.h>

/* What a temperature that changes is taken from. */
typedef struct over_time {
    runnel_log log;
    double poured_s;
    runnel_heat_air air;
} over_time;

typedef struct cure_output {
    const runnel_cure_report *report;
    runnel_paper paper;
    runnel_status (*write)(const runnel_cure_report *report, FILE *out);
} cure_output;

static runnel_status write_cure(const void *what, FILE *out) {
    const cure_output *all = what;
    return all->write(all->report, out);
}

static runnel_status draw_cure(const void *what, FILE *out) {
    const cure_output *all = what;
    return runnel_draw_cure(all->report, &all->paper, out);
}

/* One temperature, a swing, or a log. */
static bool is_one_way(const cli_arguments *arguments) {
    const char *const *values = arguments->values;
    bool swings = values[OPTION_COLDEST] || values[OPTION_WARMEST];
    bool timed = values[OPTION_WARMEST_AT] || values[OPTION_POURED_AT];
    if ((values[OPTION_TEMPERATURE] != NULL) + swings + (values[OPTION_LOG] != NULL) > 1)
        misuse(COMMAND_CURE,
               "give one of '--temperature', '--coldest' with '--warmest', and '--log'");
    else if (!values[OPTION_COLDEST] != !values[OPTION_WARMEST])
        misuse(COMMAND_CURE, "'--coldest' and '--warmest' go together");
    else if (timed && !swings)
        misuse(COMMAND_CURE, "'--warmest-at' and '--poured-at' need '--coldest' and '--warmest'");
    else if (values[OPTION_POURED] && !values[OPTION_LOG])
        misuse(COMMAND_CURE, "'--poured' needs '--log'");
    else
        return true;
    return false;
}

static bool take_rule(const cli_arguments *arguments, runnel_problems *problems,
                      runnel_cure_rule *rule) {
    const char *text = arguments->values[OPTION_RULE];
    runnel_place place = value_place(OPTION_RULE);
    *rule = RUNNEL_CURE_ARRHENIUS;
    if (!text || !strcmp(text, "activation"))
        return true;
    *rule = RUNNEL_CURE_DOUBLING;
    if (!strcmp(text, "doubling"))
        return true;
    runnel_problems_add(problems, RUNNEL_E_UNKNOWN, &place,
                        "'%.60s' is no rule; 'activation' or 'doubling' would be right", text);
    return false;
}

static bool take_hour(const cli_arguments *arguments, option_id id, runnel_problems *problems,
                      double *hour) {
    double seconds = 3600 * *hour;
    if (!take_quantity(arguments, id, VALUE_FROM_0, problems, &seconds))
        return false;
    *hour = seconds / 3600;
    if (*hour <= 24)
        return true;
    runnel_place place = value_place(id);
    runnel_problems_add(problems, RUNNEL_E_RANGE, &place,
                        "'%.60s' is out of range: a time of day is at most 24 h after midnight",
                        arguments->values[id]);
    return false;
}

static bool take_swing(const cli_arguments *arguments, runnel_problems *problems,
                       runnel_swing *swing) {
    double coldest = 0, warmest = 0;
    *swing = (runnel_swing){.warmest_at_hour = 15, .poured_at_hour = 9};
    bool fine = take_quantity(arguments, OPTION_COLDEST, VALUE_ANY, problems, &coldest);
    fine = take_quantity(arguments, OPTION_WARMEST, VALUE_ANY, problems, &warmest) && fine;
    fine = take_hour(arguments, OPTION_WARMEST_AT, problems, &swing->warmest_at_hour) && fine;
    fine = take_hour(arguments, OPTION_POURED_AT, problems, &swing->poured_at_hour) && fine;
    swing->mean_degc = (coldest + warmest) / 2;
    swing->amplitude_k = (warmest - coldest) / 2;
    if (fine && swing->amplitude_k < 0) {
        runnel_place place = value_place(OPTION_WARMEST);
        runnel_problems_add(problems, RUNNEL_E_CONFLICT, &place, "'%.60s' is colder than '%.60s'",
                            arguments->values[OPTION_WARMEST], arguments->values[OPTION_COLDEST]);
        fine = false;
    }
    return fine;
}

/* When it was poured: the first reading, or a stamp within the log. */
static bool take_poured(const cli_arguments *arguments, const runnel_log *log,
                        runnel_problems *problems, runnel_stamp *poured) {
    const char *text = arguments->values[OPTION_POURED];
    runnel_place place = value_place(OPTION_POURED);
    runnel_stamp given;
    *poured = log->first;
    if (!text)
        return true;
    if (runnel_stamp_parse(text, problems, &place, &given) != RUNNEL_OK)
        return false;
    if (given.has_offset != log->first.has_offset) {
        runnel_problems_add(problems, RUNNEL_E_CONFLICT, &place,
                            "'%.60s' has %s offset from UTC, other than the stamps of the log",
                            text, given.has_offset ? "an" : "no");
        return false;
    }
    if (given.seconds < log->readings[0].time_s ||
        given.seconds > log->readings[log->count - 1].time_s) {
        runnel_problems_add(problems, RUNNEL_E_RANGE, &place, "'%.60s' is outside of the log",
                            text);
        return false;
    }
    *poured = given;
    return true;
}

static void note_log(const runnel_log *log, runnel_cure_report *report) {
    report->log_count = log->count;
    report->log_s = log->readings[log->count - 1].time_s - report->poured.seconds;
    report->gap_count = log->gap_count;
    report->gap_line = log->gap_count ? log->gaps[0].line : 0;
    for (size_t i = 0; i < log->gap_count; i++)
        report->longest_gap_s =
            fmax(report->longest_gap_s, log->gaps[i].until_s - log->gaps[i].from_s);
    report->repeated = log->repeated;
    report->repeated_line = log->repeated_line;
    report->empty = log->empty;
    report->empty_line = log->empty_line;
}

/* No step of the heat goes over more than this, as a logger's readings are minutes apart. */
static const double longest_step_s = 600;

static double log_at(double time_s, const void *of) {
    const over_time *over = of;
    return runnel_series_at(over->log.readings, over->log.count, over->poured_s + time_s);
}

static double swing_at(double time_s, const void *of) {
    return runnel_swing_at(of, time_s);
}

static runnel_status along_log(const cli_arguments *arguments, runnel_problems *problems,
                               runnel_cure_report *report, over_time *over) {
    runnel_log *log = &over->log;
    runnel_status status = runnel_log_read(arguments->values[OPTION_LOG], problems, log);
    if (status != RUNNEL_OK)
        return status;
    report->over = RUNNEL_CURE_OVER_LOG;
    if (!take_poured(arguments, log, problems, &report->poured))
        return runnel_problems_status(problems);
    note_log(log, report);
    over->poured_s = report->poured.seconds;
    over->air = (runnel_heat_air){log_at, over, longest_step_s};
    return runnel_cure_series(&report->job->resin, &report->law, log->readings, log->count,
                              over->poured_s, &report->cure);
}

static runnel_status cure_of(const cli_arguments *arguments, runnel_problems *problems,
                             runnel_cure_report *report, over_time *over) {
    const runnel_resin *resin = &report->job->resin;
    runnel_cure_rule rule;
    if (!take_rule(arguments, problems, &rule))
        return runnel_problems_status(problems);
    runnel_status status = runnel_cure_law_of(resin, rule, &report->law);
    if (status == RUNNEL_E_MISSING)
        return runnel_problems_add(problems, status, NULL,
                                   "the resin has no stated temperature, so its times say nothing "
                                   "about another one");
    if (status != RUNNEL_OK)
        return status;
    if (arguments->values[OPTION_LOG])
        return along_log(arguments, problems, report, over);
    if (!arguments->values[OPTION_COLDEST])
        return runnel_cure_at(resin, &report->law, report->job->shop_degc, &report->cure);
    report->over = RUNNEL_CURE_OVER_SWING;
    if (!take_swing(arguments, problems, &report->swing))
        return runnel_problems_status(problems);
    over->air = (runnel_heat_air){swing_at, &report->swing, longest_step_s};
    return runnel_cure_swing(resin, &report->law, &report->swing, &report->cure);
}

/* When it is hard, from the pour on, as far as the sheet says; INFINITY when it never is. */
static double hard_s(const runnel_cure *cure) {
    const double *reached_s = cure->reached_s;
    return !isnan(reached_s[RUNNEL_CURE_SANDABLE]) ? reached_s[RUNNEL_CURE_SANDABLE]
           : !isnan(reached_s[RUNNEL_CURE_GEL])    ? reached_s[RUNNEL_CURE_GEL]
                                                   : (double)INFINITY;
}

/* The coldest and warmest of a swing until then, minute by minute, for a day at most. */
static void look_over_swing(const runnel_swing *swing, double until_s, runnel_damp_span *span) {
    const double minute_s = 60, day_s = 86400;
    for (double at_s = 0; at_s <= fmin(until_s, day_s); at_s += minute_s) {
        span->coldest_degc = fmin(span->coldest_degc, runnel_swing_at(swing, at_s));
        span->warmest_degc = fmax(span->warmest_degc, runnel_swing_at(swing, at_s));
    }
}

/* The air from the pour until the resin is hard. Of a shop it is as told; of a swing the humidity
 * holds at the mean; of a log it is that with the highest dew point. A board of which nothing is
 * said is as cold as the coldest air. */
static void look_at_air(runnel_cure_report *report, const over_time *over) {
    const runnel_job *job = report->job;
    const double until_s = hard_s(&report->cure);
    runnel_damp_span *span = &report->span;
    *span = (runnel_damp_span){{NAN, NAN, NAN}, NAN, job->shop_degc, job->shop_degc};
    report->air_degc = job->shop_degc;
    report->humidity = job->humidity;
    if (report->over == RUNNEL_CURE_OVER_SWING) {
        span->coldest_degc = span->warmest_degc = runnel_swing_at(&report->swing, 0);
        look_over_swing(&report->swing, until_s, span);
        report->air_degc = report->swing.mean_degc;
    } else if (report->over == RUNNEL_CURE_OVER_LOG &&
               !runnel_damp_over(over->log.readings, over->log.count, over->poured_s,
                                 over->poured_s + until_s, span)) {
        report->air_degc = (span->coldest_degc + span->warmest_degc) / 2;
    }
    if (job->humidity < 0 && !isnan(span->dampest.humidity)) {
        report->humidity = span->dampest.humidity;
        report->air_degc = span->dampest.degc;
    }
    report->board_degc = span->coldest_degc;
    report->most_humidity = job->humidity < 0 ? span->most_humidity : job->humidity;
}

static runnel_status damp_of(const cli_arguments *arguments, runnel_problems *problems,
                             runnel_cure_report *report, const over_time *over) {
    look_at_air(report, over);
    if (!take_quantity(arguments, OPTION_BOARD, VALUE_ANY, problems, &report->board_degc))
        return runnel_problems_status(problems);
    if (report->humidity < 0 && arguments->values[OPTION_BOARD]) {
        runnel_place place = value_place(OPTION_BOARD);
        return runnel_problems_add(problems, RUNNEL_E_MISSING, &place,
                                   "a temperature of the board says nothing without '--humidity'");
    }
    if (report->humidity < 0)
        return RUNNEL_OK;
    report->has_damp = true;
    runnel_status status =
        runnel_damp_of(report->air_degc, report->humidity, report->board_degc, &report->damp);
    report->damp.is_humid = report->most_humidity > RUNNEL_DAMP_HUMIDITY;
    return status
               ? runnel_problems_add(problems, status, NULL,
                                     "the dew point needs a humidity above 0 %%, air from -40 to "
                                     "50 C and a board from -40 to 100 C")
               : RUNNEL_OK;
}

/* Resin and wood are as warm as the air at the pour, and the air goes on as it is told. A cup is
 * used up within the usable share of the pot life that it then has. */
static runnel_status heat_of(const cli_arguments *arguments, runnel_problems *problems,
                             runnel_cure_report *report, const over_time *over) {
    const runnel_job *job = report->job;
    const runnel_heat_air *air = over->air.degc_at ? &over->air : NULL;
    runnel_heating_case of = {.degc = air ? air->degc_at(0, air->of) : job->shop_degc,
                              .limit_degc = NAN,
                              .air = air,
                              .cure = &report->cure};
    bool fine = take_quantity(arguments, OPTION_MASS, VALUE_ABOVE_0, problems, &of.mass_g);
    fine = take_quantity(arguments, OPTION_LAYER, VALUE_ABOVE_0, problems, &of.layer_mm) && fine;
    fine = take_quantity(arguments, OPTION_HOTTEST, VALUE_ANY, problems, &of.limit_degc) && fine;
    if (!fine)
        return runnel_problems_status(problems);
    if (isnan(of.limit_degc))
        of.limit_degc = RUNNEL_HEATING_LIMIT_DEGC;
    if (arguments->values[OPTION_HOTTEST] && !(of.limit_degc > of.degc && of.limit_degc <= 200)) {
        runnel_place place = value_place(OPTION_HOTTEST);
        return runnel_problems_add(problems, RUNNEL_E_RANGE, &place,
                                   "'%.60s' is out of range: it must be above the temperature of "
                                   "the shop and at most 200 C",
                                   arguments->values[OPTION_HOTTEST]);
    }
    of.diameter_mm = job->cup.diameter_mm;
    of.until_s =
        job->usable_share *
        runnel_pot_life_of_mass(report->cure.reached_s[RUNNEL_CURE_POT_LIFE], job->resin.pot_mass_g,
                                of.mass_g > 0 ? of.mass_g : job->resin.pot_mass_g);
    runnel_status status = runnel_heating_make(&job->resin, &of, &report->heating);
    if (status == RUNNEL_E_RANGE)
        return runnel_problems_add(problems, status, NULL,
                                   "the heat cannot be worked out for this mass or layer: a cup "
                                   "holds at most 100 kg, and a layer is at most 1 m deep");
    return status;
}

static runnel_status compute(const cli_arguments *arguments, const runnel_tables *tables,
                             runnel_job *job, runnel_cure_report *report, over_time *over,
                             runnel_paper *paper) {
    runnel_problems problems;
    runnel_problems_init(&problems);
    runnel_status drawn = read_paper(arguments, &problems, paper);
    runnel_status status = draft_job(arguments, tables, &problems, job);
    status = status ? status : drawn;
    if (!status)
        status = cure_of(arguments, &problems, report, over);
    bool answered = !status || status == RUNNEL_NOT_POSSIBLE;
    report->is_possible = !status;
    if (answered) {
        runnel_status damp = damp_of(arguments, &problems, report, over);
        status = damp ? damp : status;
    }
    if (!status)
        status = heat_of(arguments, &problems, report, over);
    if (status && status != RUNNEL_NOT_POSSIBLE)
        show_problems(&problems, status);
    runnel_problems_clear(&problems);
    return status;
}

int run_cure(const cli_arguments *arguments) {
    const char *format = arguments->values[OPTION_FORMAT];
    runnel_tables tables = {0};
    runnel_job job;
    runnel_cure_report report = {.job = &job};
    over_time over = {.poured_s = 0};
    cure_output all = {.report = &report, .write = runnel_write_cure_text};
    if (!is_one_way(arguments))
        return runnel_status_exit(RUNNEL_E_USAGE);
    runnel_job_init(&job);
    runnel_status status = read_tables(arguments, &tables);
    if (!status)
        status = compute(arguments, &tables, &job, &report, &over, &all.paper);
    if (!status || status == RUNNEL_NOT_POSSIBLE) {
        if (format && !strcmp(format, "json"))
            all.write = runnel_write_cure_json;
        runnel_status written = write_output(arguments->values[OPTION_OUTPUT],
                                             is_drawn(arguments) ? draw_cure : write_cure, &all);
        status = written ? written : status;
    }
    runnel_log_clear(&over.log);
    runnel_job_clear(&job);
    runnel_tables_clear(&tables);
    return runnel_status_exit(status);
}
