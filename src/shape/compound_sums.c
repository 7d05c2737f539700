/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sums over the distinct profiles of a compound, each as often as it counts.
 */
#include "base/memory.h"
#include "base/sum.h"
#include "shape/compound.h"
#include "shape/overlap.h"

#include <math.h>

/** Adds the numbers of a struct that holds nothing but doubles. */
static void add_all(runnel_sum *sums, const double *values, size_t count, double times) {
    for (size_t i = 0; i < count; i++)
        runnel_sum_add(&sums[i], times * values[i]);
}

static void value_all(const runnel_sum *sums, size_t count, double *values) {
    for (size_t i = 0; i < count; i++)
        values[i] = runnel_sum_value(&sums[i]);
}

runnel_moments runnel_compound_moments(const runnel_compound *compound, double t_mm) {
    runnel_sum sums[6] = {{0}};
    double of[6];
    for (size_t i = 0; i < compound->part_count; i++) {
        const runnel_compound_part *part = &compound->parts[i];
        runnel_moments m = runnel_profile_moments(part->profile, t_mm);
        double values[6] = {m.area, m.first, m.fan_first, m.length, m.angle, m.beyond};
        add_all(sums, values, 6, part->count);
    }
    value_all(sums, 6, of);
    return (runnel_moments){of[0], of[1], of[2], of[3], of[4], of[5]};
}

double runnel_compound_radial(const runnel_compound *compound, double t_mm,
                              const runnel_radial *radial, double *error) {
    runnel_sum sum = {0};
    *error = 0;
    for (size_t i = 0; i < compound->part_count; i++) {
        const runnel_compound_part *part = &compound->parts[i];
        double own = 0;
        runnel_sum_add(&sum,
                       part->count * runnel_profile_radial(part->profile, t_mm, radial, &own));
        *error += part->count * own;
    }
    return runnel_sum_value(&sum);
}

runnel_opening runnel_compound_opening(const runnel_compound *compound, double sigma_mm) {
    runnel_sum sums[4] = {{0}};
    double of[4];
    for (size_t i = 0; i < compound->part_count; i++) {
        const runnel_compound_part *part = &compound->parts[i];
        runnel_opening o = runnel_profile_opening(part->profile, sigma_mm);
        double values[4] = {o.area, o.length, o.angle, o.turn};
        add_all(sums, values, 4, part->count);
    }
    value_all(sums, 4, of);
    return (runnel_opening){of[0], of[1], of[2], of[3]};
}

runnel_rise runnel_compound_rise(const runnel_compound *compound, double rho_mm, double upper_mm,
                                 double cotangent) {
    runnel_sum sums[5] = {{0}};
    double of[5];
    for (size_t i = 0; i < compound->part_count; i++) {
        const runnel_compound_part *part = &compound->parts[i];
        runnel_rise b = runnel_profile_rise(part->profile, rho_mm, upper_mm, cotangent);
        double values[5] = {b.depth_volume, b.sector, b.slope_area, b.ridge_area, b.ridge_wall};
        add_all(sums, values, 5, part->count);
    }
    value_all(sums, 5, of);
    return (runnel_rise){of[0], of[1], of[2], of[3], of[4]};
}

/** One of the two that follow. */
typedef runnel_status (*overlap_function)(const runnel_profile *profile, double sigma_mm,
                                          double rho_mm, double *value);

static runnel_status sum_overlap(const runnel_compound *compound, overlap_function overlap,
                                 double sigma_mm, double rho_mm, double *value) {
    runnel_sum sum = {0};
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < compound->part_count && !status; i++) {
        const runnel_compound_part *part = &compound->parts[i];
        double own = 0;
        status = overlap(part->profile, sigma_mm, rho_mm, &own);
        runnel_sum_add(&sum, part->count * own);
    }
    if (!status)
        *value = runnel_sum_value(&sum);
    return status;
}

runnel_status runnel_compound_overlap_area(const runnel_compound *compound, double sigma_mm,
                                           double rho_mm, double *area_mm2) {
    return sum_overlap(compound, runnel_overlap_area, sigma_mm, rho_mm, area_mm2);
}

runnel_status runnel_compound_overlap_border(const runnel_compound *compound, double sigma_mm,
                                             double rho_mm, double *length_mm) {
    return sum_overlap(compound, runnel_overlap_border, sigma_mm, rho_mm, length_mm);
}

runnel_status runnel_compound_overlap_volume(const runnel_compound *compound, double rho_mm,
                                             double wide_mm, double *value_mm3, double *error_mm3) {
    runnel_sum sum = {0}, errors = {0};
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < compound->part_count && !status; i++) {
        const runnel_compound_part *part = &compound->parts[i];
        double own = 0, error = 0;
        status = runnel_overlap_volume(part->profile, rho_mm, wide_mm, &own, &error);
        runnel_sum_add(&sum, part->count * own);
        runnel_sum_add(&errors, part->count * error);
    }
    if (!status) {
        *value_mm3 = runnel_sum_value(&sum);
        *error_mm3 = runnel_sum_value(&errors);
    }
    return status;
}

/* ---- Strokes --------------------------------------------------------------------------------- */

runnel_status runnel_compound_count_strokes(const runnel_compound *compound, double from_mm,
                                            double below_mm, size_t *count) {
    size_t found = 0;
    runnel_status status = RUNNEL_OK;
    for (size_t i = 0; i < compound->part_count && !status; i++) {
        const runnel_compound_part *part = &compound->parts[i];
        runnel_thin_strokes strokes = {0};
        status = runnel_profile_thin_strokes(part->profile, from_mm, below_mm, &strokes);
        found += (size_t)part->count * strokes.count;
        runnel_thin_strokes_clear(&strokes);
    }
    if (!status)
        *count = found;
    return status;
}

static runnel_status add_moved(const runnel_thin_strokes *from, const runnel_compound_print *print,
                               runnel_thin_strokes *to) {
    runnel_status status =
        runnel_reserve(&to->items, &to->capacity, to->count + from->count, sizeof *to->items);
    for (size_t i = 0; i < from->count && !status; i++) {
        runnel_thin_stroke stroke = from->items[i];
        stroke.at.x_mm += print->dx_mm;
        stroke.at.y_mm += print->dy_mm;
        to->items[to->count++] = stroke;
    }
    return status;
}

runnel_status runnel_compound_thin_strokes(const runnel_compound *compound, double from_mm,
                                           double below_mm, runnel_thin_strokes *strokes) {
    runnel_thin_strokes found = {0};
    runnel_thin_strokes *each = runnel_zeroed(compound->part_count + 1, sizeof *each);
    runnel_status status = each ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < compound->part_count && !status; i++)
        status =
            runnel_profile_thin_strokes(compound->parts[i].profile, from_mm, below_mm, &each[i]);
    for (size_t i = 0; i < compound->print_count && !status; i++)
        status = add_moved(&each[compound->prints[i].part], &compound->prints[i], &found);
    for (size_t i = 0; each && i < compound->part_count; i++)
        runnel_thin_strokes_clear(&each[i]);
    runnel_free(each);
    if (status) {
        runnel_thin_strokes_clear(&found);
        return status;
    }
    runnel_thin_strokes_clear(strokes);
    *strokes = found;
    return RUNNEL_OK;
}
