/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * At what height would the letters fit? Letter spacing and the cutter's width do not grow with the
 * letters, so a height is found by trying, each time smaller by as much as the last one was too
 * large.
 */
#include "plan/make.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

/** Heights that are tried. Far fewer are needed where the letters themselves are what is wide. */
#define MOST_TRIES 20
/** What a quotient of decimal lengths may lack through rounding, in tenths. */
#define ROUNDING 1e-9

double runnel_tenth_below(double length_mm) {
    return floor(length_mm * 10 + ROUNDING) / 10;
}

/** The height of a text that its cavity gives. */
static double *height_of(runnel_job_cavity *cavity) {
    return cavity->cap_height_mm > 0 ? &cavity->cap_height_mm : &cavity->text_height_mm;
}

/** Share that a text must shrink to, to first order; 1 when it fits. */
static double share_that_fits(const runnel_job_cavity *cavity, const runnel_plan_cavity *text,
                              const runnel_fit *fit) {
    const runnel_cutter *cutter = &cavity->cut.cutter;
    double share = 1;
    if (fit->length_mm > 0 && text->width_mm > fit->length_mm + RUNNEL_FIT_SLACK_MM)
        share = fmin(share, fit->length_mm / text->width_mm);
    if (fit->width_mm > 0 && text->height_mm > fit->width_mm + RUNNEL_FIT_SLACK_MM)
        share = fmin(share, fit->width_mm / text->height_mm);
    if (fit->deepest_mm > 0 && text->figures.deepest_mm > fit->deepest_mm + RUNNEL_FIT_SLACK_MM) {
        double half = fit->deepest_mm * tan(cutter->angle_deg * pi / 360) + 0.5 * cutter->tip_mm;
        share = fmin(share, 2 * half / text->figures.widest_mm);
    }
    return share;
}

/** Size and, where it is asked for, depth of the text at another height. */
static runnel_status try_height(const runnel_making *making, const runnel_job_cavity *cavity,
                                const runnel_fit *fit, runnel_plan_cavity *text) {
    runnel_making quiet = *making;
    runnel_source_shape source = {0};
    quiet.problems = NULL; /* what does not go at some height is no problem of the job */
    runnel_status status = runnel_source_shape_make(&quiet, cavity, &source);
    if (!status && fit->deepest_mm > 0)
        status = runnel_cavity_compute(source.shape, &cavity->cut, &text->figures);
    if (!status)
        runnel_face_size(source.shape, &cavity->cut, &text->width_mm, &text->height_mm);
    runnel_source_shape_clear(&source);
    return status;
}

runnel_status runnel_fitting_height(const runnel_making *making, const runnel_job_cavity *cavity,
                                    const runnel_plan_cavity *planned, const runnel_fit *fit,
                                    double *height_mm) {
    runnel_job_cavity other = *cavity; /* borrows its texts */
    runnel_plan_cavity text = *planned;
    double *height = height_of(&other);
    runnel_status status = RUNNEL_OK;
    *height_mm = 0;
    for (int i = 0; i < MOST_TRIES && !status; i++) {
        double share = share_that_fits(cavity, &text, fit);
        if (share >= 1) {
            *height_mm = *height;
            return RUNNEL_OK;
        }
        *height = runnel_tenth_below(fmin(share * *height, *height - 0.1));
        if (!(*height > 0))
            return RUNNEL_OK;
        status = try_height(making, &other, fit, &text);
    }
    return status == RUNNEL_E_NO_MEMORY ? status : RUNNEL_OK;
}
