/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * With T = tan(angle/2): d angle = 2 dT/(1 + T^2). One groove: dT/dwidth = -dT/dtip = 1/(2 depth),
 * dT/ddepth = -T/depth. Two, D apart in depth: dT/dwidth = +-1/(2 D), dT/ddepth = +-T/D, and for
 * the tip, with r = upper depth/D, dtip/dwidth = 1 + r and -r, dtip/ddepth = -2 T (1 + r) and 2 T
 * r.
 */
#include "runnel/trial.h"

#include "runnel/units.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

/* What V cutters come with. Common practice. */
static const double least_angle_deg = 10, most_angle_deg = 150;
static const double least_tip_mm = 0.05, most_tip_mm = 1;

/* A tip is no less than nothing by this. */
static const double rounding_mm = 1e-9;

/* Room for a number in a message. */
enum { NUMBER_SIZE = 32 };

runnel_trial_errors runnel_trial_usual(void) {
    return (runnel_trial_errors){RUNNEL_TRIAL_WIDTH_MM, RUNNEL_TRIAL_DEPTH_MM, 0};
}

/* Where problems go, and the first kind of them. */
typedef struct teller {
    runnel_problems *problems;
    runnel_place place;
    bool has_field;
    runnel_status status;
} teller;

static teller teller_of(runnel_problems *problems, const runnel_place *place) {
    teller told = {.problems = problems, .status = RUNNEL_OK};
    if (place) {
        told.place = *place;
        told.has_field = place->field != NULL;
    }
    return told;
}

static void set_field(teller *told, const char *field) {
    if (!told->has_field)
        told->place.field = field;
}

static void fail(teller *told, runnel_status status) {
    if (told->status == RUNNEL_OK)
        told->status = status;
}

/* Refuses what is not finite, or below 0, or 0 where that is no reading. */
static void check(teller *told, const char *field, double value, bool may_be_0) {
    char shown[NUMBER_SIZE];
    if (isfinite(value) && (value > 0 || (may_be_0 && value == 0)))
        return;
    set_field(told, field);
    fail(told, RUNNEL_E_RANGE);
    runnel_problems_add(told->problems, RUNNEL_E_RANGE, &told->place, "'%s' mm must be %s",
                        runnel_number_exact(value, shown, sizeof shown),
                        may_be_0 ? "0 or more" : "above 0");
}

static void check_errors(teller *told, const runnel_trial_errors *errors) {
    check(told, "width error", errors->width_mm, true);
    check(told, "depth error", errors->depth_mm, true);
    check(told, "tip error", errors->tip_mm, true);
}

static void check_cut(teller *told, const runnel_trial_cut *cut) {
    check(told, "width", cut->width_mm, false);
    check(told, "depth", cut->depth_mm, false);
}

/* Tells a conflict of two numbers, with the words between and behind them. */
static void conflict(teller *told, const char *field, double one, double other, const char *between,
                     const char *behind) {
    char first[NUMBER_SIZE], second[NUMBER_SIZE];
    set_field(told, field);
    fail(told, RUNNEL_E_CONFLICT);
    runnel_problems_add(told->problems, RUNNEL_E_CONFLICT, &told->place, "'%s' mm %s '%s' mm%s",
                        runnel_number_exact(one, first, sizeof first), between,
                        runnel_number_exact(other, second, sizeof second), behind);
}

/* Fills in the angle of a tangent and its error, and what is unusual. */
static runnel_trial trial_of(double tangent, double tangent_error, double tip_mm,
                             double tip_error_mm) {
    runnel_trial trial = {.angle_deg = 2 * atan(tangent) * 180 / pi,
                          .angle_error_deg = 2 * tangent_error / (1 + tangent * tangent) * 180 / pi,
                          .tip_mm = tip_mm,
                          .tip_error_mm = tip_error_mm};
    if (tip_mm < 0) {
        trial.is_sharp = true;
        trial.tip_mm = 0;
    }
    trial.unusual_angle = trial.angle_deg < least_angle_deg || trial.angle_deg > most_angle_deg;
    trial.unusual_tip =
        trial.tip_mm > most_tip_mm || (trial.tip_mm > 0 && trial.tip_mm < least_tip_mm);
    return trial;
}

runnel_status runnel_trial_one(const runnel_trial_cut *cut, double tip_mm,
                               const runnel_trial_errors *errors, runnel_problems *problems,
                               const runnel_place *place, runnel_trial *trial) {
    teller told = teller_of(problems, place);
    check_cut(&told, cut);
    check(&told, "tip", tip_mm, true);
    check_errors(&told, errors);
    if (told.status != RUNNEL_OK)
        return told.status;
    double slope_mm = cut->width_mm - tip_mm;
    double off_mm = hypot(errors->width_mm, errors->tip_mm);
    if (slope_mm <= 0)
        conflict(&told, "width", cut->width_mm, tip_mm, "is not wider than the tip of",
                 ": a V groove is; measure across the face, and check the depth and the tip");
    else if (slope_mm <= off_mm)
        conflict(&told, "width", cut->width_mm, tip_mm,
                 "is wider than the tip by less than can be measured: the tip has", "; cut deeper");
    if (told.status != RUNNEL_OK)
        return told.status;
    double tangent = slope_mm / (2 * cut->depth_mm);
    double error = hypot(off_mm / 2, tangent * errors->depth_mm) / cut->depth_mm;
    *trial = trial_of(tangent, error, tip_mm, errors->tip_mm);
    return RUNNEL_OK;
}

/* Two grooves, the shallower first. */
static void check_pair(teller *told, const runnel_trial_cut *upper, const runnel_trial_cut *lower,
                       const runnel_trial_errors *errors) {
    double deeper_mm = lower->depth_mm - upper->depth_mm;
    double wider_mm = lower->width_mm - upper->width_mm;
    if (deeper_mm <= hypot(errors->depth_mm, errors->depth_mm))
        conflict(told, "depth", upper->depth_mm, lower->depth_mm, "and",
                 " are nearer to each other than can be measured; cut one much deeper");
    else if (wider_mm < 0)
        conflict(told, "width", lower->width_mm, upper->width_mm,
                 "of the deeper groove is narrower than", " of the other");
    else if (wider_mm <= hypot(errors->width_mm, errors->width_mm))
        conflict(told, "width", upper->width_mm, lower->width_mm, "and",
                 " are nearer to each other than can be measured; cut one much deeper");
}

static void check_tip(teller *told, double tip_mm, double tip_error_mm, double tangent) {
    char tip[NUMBER_SIZE], zero[NUMBER_SIZE];
    if (tip_mm >= -tip_error_mm - rounding_mm)
        return;
    set_field(told, "width");
    fail(told, RUNNEL_E_CONFLICT);
    runnel_problems_add(told->problems, RUNNEL_E_CONFLICT, &told->place,
                        "the readings make a tip of '%s' mm, as if both grooves were %s mm less "
                        "deep than told; check the zero",
                        runnel_number_text(tip_mm, 3, tip, sizeof tip),
                        runnel_number_text(-tip_mm / (2 * tangent), 2, zero, sizeof zero));
}

runnel_status runnel_trial_two(const runnel_trial_cut *one, const runnel_trial_cut *other,
                               const runnel_trial_errors *errors, runnel_problems *problems,
                               const runnel_place *place, runnel_trial *trial) {
    teller told = teller_of(problems, place);
    bool in_order = one->depth_mm <= other->depth_mm;
    const runnel_trial_cut *upper = in_order ? one : other, *lower = in_order ? other : one;
    check_cut(&told, one);
    check_cut(&told, other);
    check_errors(&told, errors);
    if (told.status == RUNNEL_OK)
        check_pair(&told, upper, lower, errors);
    if (told.status != RUNNEL_OK)
        return told.status;
    double deeper_mm = lower->depth_mm - upper->depth_mm;
    double tangent = (lower->width_mm - upper->width_mm) / (2 * deeper_mm);
    double off_mm = hypot(errors->width_mm, 2 * tangent * errors->depth_mm);
    double reach = upper->depth_mm / deeper_mm;
    double tip_mm = upper->width_mm - 2 * upper->depth_mm * tangent;
    double tip_error_mm = hypot(1 + reach, reach) * off_mm;
    check_tip(&told, tip_mm, tip_error_mm, tangent);
    if (told.status != RUNNEL_OK)
        return told.status;
    *trial = trial_of(tangent, sqrt(2) * off_mm / (2 * deeper_mm), tip_mm, tip_error_mm);
    return RUNNEL_OK;
}
