/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/damp.h"

#include "base/amount.h"

#include <math.h>

/* Alduchov & Eskridge 1996, over water. */
static const double magnus = 17.625, magnus_k = 243.04;

static const double most_moisture_percent = 30; /* fibre saturation: wetter wood does not move */

runnel_status runnel_dew_point(double air_degc, double humidity, double *dew_degc) {
    if (!(air_degc >= -40 && air_degc <= 50) || !(humidity > 0 && humidity <= 1))
        return RUNNEL_E_RANGE;
    double power = log(humidity) + magnus * air_degc / (magnus_k + air_degc);
    *dew_degc = magnus_k * power / (magnus - power);
    return RUNNEL_OK;
}

static void take_reading(const runnel_reading *reading, double *dew_degc, runnel_damp_span *span) {
    double dew = NAN;
    span->coldest_degc = fmin(span->coldest_degc, reading->degc);
    span->warmest_degc = fmax(span->warmest_degc, reading->degc);
    if (isnan(reading->humidity))
        return;
    span->most_humidity = fmax(span->most_humidity, reading->humidity);
    if (runnel_dew_point(reading->degc, reading->humidity, &dew) || dew <= *dew_degc)
        return;
    *dew_degc = dew;
    span->dampest = *reading;
}

/* The air between two readings; NAN where one of them has no humidity. */
static runnel_reading between(const runnel_reading *one, const runnel_reading *next, double at_s) {
    double share = (at_s - one->time_s) / (next->time_s - one->time_s);
    return (runnel_reading){at_s, one->degc + share * (next->degc - one->degc),
                            one->humidity + share * (next->humidity - one->humidity)};
}

runnel_status runnel_damp_over(const runnel_reading *readings, size_t count, double from_s,
                               double to_s, runnel_damp_span *span) {
    double dew_degc = -INFINITY;
    runnel_damp_span found = {{NAN, NAN, NAN}, NAN, INFINITY, -INFINITY};
    for (size_t i = 0; i < count; i++) {
        const runnel_reading *here = &readings[i];
        const double ends_s[] = {from_s, to_s};
        if (here->time_s >= from_s && here->time_s <= to_s)
            take_reading(here, &dew_degc, &found);
        for (int k = 0; k < 2 && i > 0; k++)
            if (here[-1].time_s < ends_s[k] && ends_s[k] < here->time_s) {
                const runnel_reading end = between(here - 1, here, ends_s[k]);
                take_reading(&end, &dew_degc, &found);
            }
    }
    if (!isfinite(found.coldest_degc))
        return RUNNEL_E_RANGE;
    *span = found;
    return RUNNEL_OK;
}

runnel_status runnel_damp_of(double air_degc, double humidity, double board_degc,
                             runnel_damp *damp) {
    runnel_damp found = {.moisture_percent = NAN};
    if (!(board_degc >= -40 && board_degc <= 100))
        return RUNNEL_E_RANGE;
    runnel_status status = runnel_dew_point(air_degc, humidity, &found.dew_degc);
    if (status != RUNNEL_OK)
        return status;
    found.gap_k = board_degc - found.dew_degc;
    found.is_near_dew = found.gap_k < RUNNEL_DAMP_GAP_K;
    found.is_humid = humidity > RUNNEL_DAMP_HUMIDITY;
    found.least_board_degc = found.dew_degc + RUNNEL_DAMP_GAP_K;
    /* Outside of its table it stays unknown. */
    (void)runnel_wood_moisture(air_degc, humidity, &found.moisture_percent);
    *damp = found;
    return RUNNEL_OK;
}

runnel_status runnel_wood_moisture(double air_degc, double humidity, double *percent) {
    double t = air_degc;
    if (!(t >= -1.2 && t <= 132.3) || !(humidity >= 0 && humidity <= 1))
        return RUNNEL_E_RANGE;
    /* Wood Handbook, equation 4-5; t in degrees Celsius, humidity as a fraction. */
    double w = 349 + 1.29 * t + 0.0135 * t * t;
    double k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
    double k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
    double k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
    double kh = k * humidity, one = k1 * kh, two = k1 * k2 * kh * kh;
    *percent = 1800 / w * (kh / (1 - kh) + (one + 2 * two) / (1 + one + two));
    return RUNNEL_OK;
}

static bool are_moistures(double from_percent, double to_percent) {
    return from_percent >= 0 && from_percent <= most_moisture_percent && to_percent >= 0 &&
           to_percent <= most_moisture_percent;
}

runnel_status runnel_wood_movement(double width_mm, double coefficient, double from_percent,
                                   double to_percent, double *change_mm) {
    if (!runnel_is_amount(width_mm) || !(coefficient >= 0 && coefficient <= 0.01) ||
        !are_moistures(from_percent, to_percent))
        return RUNNEL_E_RANGE;
    *change_mm = width_mm * coefficient * (to_percent - from_percent);
    return RUNNEL_OK;
}

static bool is_shrinkage(double percent) {
    return percent > 0 && percent < 30;
}

runnel_status runnel_wood_movement_wide(double width_mm, double shrinkage_percent,
                                        double from_percent, double to_percent, double *change_mm) {
    if (!runnel_is_amount(width_mm) || !is_shrinkage(shrinkage_percent) ||
        !are_moistures(from_percent, to_percent))
        return RUNNEL_E_RANGE;
    *change_mm =
        width_mm * (to_percent - from_percent) / (3000 / shrinkage_percent - 30 + from_percent);
    return RUNNEL_OK;
}

double runnel_wood_coefficient(double shrinkage_percent) {
    return is_shrinkage(shrinkage_percent) ? 1 / (3000 / shrinkage_percent - 20) : NAN;
}

runnel_status runnel_wood_change(double width_mm, double coefficient, double shrinkage_percent,
                                 double from_percent, double to_percent, double *change_mm) {
    const double least_percent = 6, most_percent = 14, middle_percent = 10, alike = 0.02;
    bool is_near = fmin(from_percent, to_percent) >= least_percent &&
                   fmax(from_percent, to_percent) <= most_percent;
    double by_shrinkage = runnel_wood_coefficient(shrinkage_percent);
    if (isnan(coefficient) || (!is_near && fabs(by_shrinkage / coefficient - 1) <= alike))
        return runnel_wood_movement_wide(width_mm, shrinkage_percent, from_percent, to_percent,
                                         change_mm);
    if (is_near || !(coefficient > 0))
        return runnel_wood_movement(width_mm, coefficient, from_percent, to_percent, change_mm);
    double here = 1 / (1 / coefficient - middle_percent + from_percent);
    return runnel_wood_movement(width_mm, here, from_percent, to_percent, change_mm);
}

runnel_status runnel_damp_band_of(double length_mm, double coefficient, double shrinkage_percent,
                                  double from_percent, double to_percent, runnel_damp_band *band) {
    runnel_damp_band found = {.is_long = length_mm > RUNNEL_DAMP_BAND_MM};
    runnel_status status = runnel_wood_change(length_mm, coefficient, shrinkage_percent,
                                              from_percent, to_percent, &found.change_mm);
    if (!status)
        status = runnel_wood_change(1, coefficient, shrinkage_percent, from_percent, to_percent,
                                    &found.strain);
    if (status != RUNNEL_OK)
        return status;
    *band = found;
    return RUNNEL_OK;
}
