/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/units.h"
#include "write/bench.h"
#include "write/figures.h"
#include "write/trial.h"

#include <math.h>
#include <string.h>

#define PLUS_MINUS "\xC2\xB1"

static double half_tangent(double angle_deg) {
    const double pi = 3.14159265358979323846;
    return tan(angle_deg * pi / 360);
}

double runnel_trial_between_walls(const runnel_trial_report *report) {
    return half_tangent(report->sold_as_deg) / half_tangent(report->trial.angle_deg) - 1;
}

double runnel_trial_at_depth(const runnel_trial_report *report) {
    return half_tangent(report->trial.angle_deg) / half_tangent(report->sold_as_deg) - 1;
}

/* A number without the zeros behind its point that say nothing. */
static const char *short_number(double value, int decimals, char *buffer, size_t size) {
    runnel_number_text(value, decimals, buffer, size);
    size_t end = strlen(buffer);
    while (strchr(buffer, '.') && buffer[end - 1] == '0')
        end--;
    end -= buffer[end - 1] == '.';
    buffer[end] = '\0';
    return buffer;
}

const char *runnel_trial_cutter(const runnel_trial *trial, char *buffer) {
    char angle[24], tip[24];
    short_number(trial->angle_deg, 1, angle, sizeof angle);
    short_number(trial->tip_mm, 2, tip, sizeof tip);
    if (strcmp(tip, "0") != 0)
        snprintf(buffer, RUNNEL_TRIAL_CUTTER_SIZE, "v %s deg tip %s mm", angle, tip);
    else
        snprintf(buffer, RUNNEL_TRIAL_CUTTER_SIZE, "v %s deg", angle);
    return buffer;
}

static void give_or_take(FILE *out, const char *label, double value, int decimals, const char *unit,
                         double error, const char *otherwise) {
    runnel_flow flow;
    runnel_figures_number(&flow, out, label, value, decimals, unit);
    if (error > 0) {
        runnel_flow_add(&flow, PLUS_MINUS);
        runnel_flow_number(&flow, error, decimals, unit);
    } else {
        runnel_flow_add(&flow, otherwise);
    }
    runnel_flow_end(&flow);
}

static void write_groove(const runnel_trial_report *report, size_t index, FILE *out) {
    static const char *const names[2][2] = {{"width at the face", "depth"},
                                            {"width of the other", "depth of the other"}};
    give_or_take(out, names[index][0], report->cuts[index].width_mm, 2, "mm",
                 report->errors.width_mm, "taken as exact");
    give_or_take(out, names[index][1], report->cuts[index].depth_mm, 2, "mm",
                 report->errors.depth_mm, "taken as exact");
}

static void write_found(const runnel_trial_report *report, FILE *out) {
    const runnel_trial *trial = &report->trial;
    char cutter[RUNNEL_TRIAL_CUTTER_SIZE];
    fputs("\nWhat the cutter really is\n", out);
    give_or_take(out, "included angle", trial->angle_deg, 1, "deg", trial->angle_error_deg,
                 "exact");
    give_or_take(out, "tip flat", trial->tip_mm, 2, "mm", trial->tip_error_mm,
                 report->tip_is_given ? "as given" : "not given, so taken as sharp");
    fputs("\nFor a job, or behind --cutter\n", out);
    fprintf(out, "    %s\n", runnel_trial_cutter(trial, cutter));
}

static void more_or_less(FILE *out, const char *label, double share, const char *more,
                         const char *less) {
    runnel_figures_line(out, label, 100 * fabs(share), 1, "%", share < 0 ? less : more);
}

static void write_sold(const runnel_trial_report *report, FILE *out) {
    runnel_flow flow;
    if (!(report->sold_as_deg > 0))
        return;
    fputc('\n', out);
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_add(&flow, "Against the ");
    runnel_bench_plain(&flow, report->sold_as_deg, "deg that it was sold as");
    runnel_flow_end(&flow);
    more_or_less(out, "between walls", runnel_trial_between_walls(report),
                 "more resin, and as much deeper", "less resin, and as much shallower");
    more_or_less(out, "at a set depth", runnel_trial_at_depth(report),
                 "more resin, and as much wider", "less resin, and as much narrower");
}

static void write_advice(const runnel_trial_report *report, FILE *out) {
    const runnel_trial *trial = &report->trial;
    /* What a degree of the angle comes to: some 2 % of the resin at 60 degrees. */
    static const double coarse_deg = 1.0;
    fputc('\n', out);
    if (trial->unusual_angle)
        runnel_layout_paragraph(out, 0,
                                "Few V cutters have such an angle. Is the depth measured from the "
                                "face, and the width across the groove?");
    if (trial->unusual_tip)
        runnel_layout_paragraph(out, 0, "Such a tip is unusual. Is its unit the right one?");
    if (report->cut_count == 1)
        runnel_layout_paragraph(out, 0,
                                "A second groove of another depth finds the tip as well: "
                                "--width-2 and --at-depth-2.");
    if (trial->angle_error_deg > coarse_deg)
        runnel_layout_paragraph(out, 0,
                                report->cut_count == 1
                                    ? "A deeper groove tells the angle better."
                                    : "Grooves of more different depth tell the angle better.");
}

runnel_status runnel_write_trial_text(const runnel_trial_report *report, FILE *out) {
    fputs(report->cut_count == 1 ? "Trial groove\n" : "Two trial grooves\n", out);
    for (size_t i = 0; i < report->cut_count && i < 2; i++)
        write_groove(report, i, out);
    write_found(report, out);
    write_sold(report, out);
    write_advice(report, out);
    return runnel_layout_close(out);
}
